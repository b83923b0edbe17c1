"""How a ruched swag looks: gathered pleats along its arc, full in the middle."""

from __future__ import annotations

from dataclasses import dataclass

from calc.curves import swell_at
from calc.drawing.bag import PANEL_WORDS, angle_mark, bag_and_tip
from calc.drawing.marks import label, rule
from calc.drawing.motifs.laid import Laid, RowLaid, Strand, arc_steps, spans, wobble
from calc.drawing.motifs.look import WIDE, Look, Panel, Piece, register
from calc.drawing.motifs.swag_look import shadow_of
from calc.drawing.scene import CAKE, LINE, Item, Path, Point, Style, polyline, rectangle, smooth
from calc.drawing.shading import along, ridge, tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip, ruche_mm


def _pleat(colour: str) -> list[Path]:
    """One gathered pleat of a ruched row, from y = -50 to y = 50, bowed forward."""
    return ridge(along(((-20, -46), (20, -30), (14, 28), (-12, 50))), 23, colour, 0.0, "pod", light=(-0.8, -0.6))


def _frilled(colour: str) -> list[Path]:
    """One stroke up and one down of a slotted tip: a thin ribbon on its edge, whose walls stand in the shade and whose edge catches the light."""

    def wave(dx: float, dy: float) -> tuple[Point, ...]:
        turns = ((-26, 47), (-22, 22), (-17, -6), (-15, -34), (-8, -47), (4, -46), (9, -30), (10, 2), (14, 28), (22, 47))
        return tuple((x + dx, y + dy) for x, y in turns)

    edge = smooth(wave(0, 0))
    walls: list[tuple[str | float, ...]] = [*edge, ("L", 30, 48), *smooth(wave(9, 4)[::-1])[1:], ("Z",)]
    return [
        Path(smooth([(-32, 44), (-28, -36), (-10, -50), (16, -42), (30, 40), (4, 49)], closed=True), Style(fill=tone(colour, -0.48))),
        Path(tuple(walls), Style(fill=tone(colour, -0.22))),
        Path(smooth(wave(3.5, 1.5)), Style(stroke=tone(colour, -0.10), width_mm=8.0)),
        Path(edge, Style(stroke=tone(colour, 0.16), width_mm=6.0)),
        Path(smooth(wave(-0.8, -0.6)), Style(stroke=tone(colour, 0.68), width_mm=3.2)),
    ]


def pleat_of(tip: Tip) -> Piece:
    """The fold that a tip makes: a slotted tip leaves a thin edge all along it."""
    return FRILLED if tip.slot_mm else PLEAT


def folds_apart_mm(tip: Tip) -> float:
    """How far the folds of a rocked tip lie apart: a star's stroke up and stroke down make one each."""
    return ruche_mm(tip)[1] * (1.0 if tip.slot_mm else 0.62)


PLEAT = Piece("pleat", _pleat)
FRILLED = Piece("frilled pleat", _frilled)


@dataclass(frozen=True, kw_only=True)
class _RuchedSwag(Look):
    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        size = row.size_mm
        step, piece = folds_apart_mm(row.tip), pleat_of(row.tip)
        reach = 2.1 if row.tip.slot_mm else 3.1
        shadows: list[Strand] = []
        pieces: list[Laid] = []
        for drop in row.what.drops_mm(row.tip, row.drop_mm, row.layers):
            for start, width in spans(row, perimeter_mm):
                shadows.append(shadow_of(row, start, width, drop))
                for i, (x, y, slope, share) in enumerate(arc_steps(width, drop, step)):
                    swell = swell_at(share)
                    turn = slope * 0.9 + 0.06 * wobble(i, drop)
                    tall = size * swell * (1 + 0.05 * wobble(i, width))
                    long = step * reach * (0.62 + 0.38 * swell)
                    pieces.append(Laid(piece.name, start + x, row.line_mm + y, turn, long, tall, size * 0.5, 0.5))
        return RowLaid(tuple(shadows), (), tuple(pieces))

    def angle(self, panel: Panel) -> list[Item]:
        """Seen from above: folds stacked along the side, each standing out, and the tip square on at the last."""
        wall, deep = 13.0, 13.0
        at = (50.0, wall + 4.0)
        piece = pleat_of(panel.tip)
        apart = 6.4 if panel.tip.slot_mm else 4.6
        places = [(at[0] - 4.0 - apart * k, wall + deep / 2 - 1.0) for k in range(10)][::-1]
        petal: list[Item] = [
            Path(polyline([(at[0] - 5.0, wall + 2.0), (28.0, 34.0)]), LINE),
            label(2.0, 41.0, "thick end", PANEL_WORDS),
            label(2.0, 47.6, "on the cake", PANEL_WORDS),
        ]
        return [
            *(panel.use(piece.name, (0.13, 0.0, 0.0, deep / 100, x, y)) for x, y in places),
            Path(rectangle(-2, -2, WIDE + 4, wall + 2), CAKE),
            *bag_and_tip(at, 90.0, panel.tip, 0.95, -1, arm_deg=62.0),
            rule(-2, wall, WIDE + 2, wall, LINE._replace(width_mm=0.9)),
            *angle_mark((at[0], wall), 25.0, 0.0, 90.0, "90°", 0.36),
            *(petal if panel.tip.family == "petal" else ()),
        ]


register(
    _RuchedSwag(
        kind="ruched swag",
        shown=PlacedRow("ruched swag", Tip("petal", 12), "", "side", 15, 8, drop_mm=24),
        piece=FRILLED,
        held=(52, 0.62),
        upright=True,
        repeat_mm=74.0,
        drop_mm=24.0,
        line_mm=18.0,
    ),
    PLEAT,
)
