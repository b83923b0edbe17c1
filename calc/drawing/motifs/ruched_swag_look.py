"""How a ruched swag looks: gathered pleats along its arc, full in the middle."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.bag import PANEL_WORDS, angle_mark, bag_and_tip
from calc.drawing.marks import label, rule
from calc.drawing.motifs.laid import Laid, RowLaid, Strand, arc_steps, spans, swell_at, wobble
from calc.drawing.motifs.look import WIDE, Look, Panel, Piece, register
from calc.drawing.motifs.swag_look import shadow_of
from calc.drawing.scene import CAKE, LINE, Item, Path, Style, polyline, rectangle, smooth
from calc.drawing.shading import along, ridge, tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip, ruche_mm


def _pleat(colour: str) -> list[Path]:
    """One gathered pleat of a ruched row, from y = -50 to y = 50, bowed forward."""
    return ridge(along(((-20, -46), (20, -30), (14, 28), (-12, 50))), 23, colour, 0.0, "pod", light=(-0.8, -0.6))


def _frilled(colour: str) -> list[Path]:
    """A pleat of a slotted tip: the thin end of the slot leaves a fine edge, which stands off the fold and turns over at the hem."""
    edge = smooth([(-48, 24), (-36, 46), (-12, 56), (12, 49), (30, 28)])
    back = smooth([(30, 28), (12, 36), (-12, 41), (-32, 35), (-48, 24)])
    return [
        *_pleat(colour),
        Path((*edge, *back[1:], ("Z",)), Style(fill=tone(colour, 0.40))),
        Path(edge, Style(stroke=tone(colour, 0.72), width_mm=5.0)),
        Path(smooth([(-40, 29), (-14, 37), (22, 31)]), Style(stroke=tone(colour, -0.45), width_mm=3.0)),
    ]


PLEAT = Piece("pleat", _pleat)
FRILLED = Piece("frilled pleat", _frilled)


@dataclass(frozen=True, kw_only=True)
class _RuchedSwag(Look):
    def lay(self, row: PlacedRow, perimeter: float, height: float) -> RowLaid:
        size = row.size_mm
        step = ruche_mm(row.tip)[1] * 0.62  # folds of a rocked tip lie an advance apart
        piece = FRILLED if row.tip.slot_mm else PLEAT
        shadows: list[Strand] = []
        pieces: list[Laid] = []
        for drop in row.what.drops_mm(row.tip, row.drop_mm, row.layers):
            for start, width in spans(row, perimeter):
                shadows.append(shadow_of(row, start, width, drop))
                for i, (x, y, slope, share) in enumerate(arc_steps(width, drop, step)):
                    swell = swell_at(share)
                    turn = slope * 0.9 + 0.06 * wobble(i, drop)
                    tall = size * swell * (1 + 0.05 * wobble(i, width))
                    long = step * 3.1 * (0.62 + 0.38 * swell)
                    pieces.append(Laid(piece.name, start + x, row.line_mm + y, turn, long, tall, size * 0.5, 0.5))
        return RowLaid(tuple(shadows), (), tuple(pieces))

    def angle(self, panel: Panel) -> list[Item]:
        """Seen from above: folds stacked along the side, each standing out, and the tip square on at the last."""
        wall, deep = 13.0, 13.0
        at = (50.0, wall + 4.0)
        places = [(-4.0 + 4.6 * k, wall + deep / 2 - 1.0) for k in range(11)]
        petal: list[Item] = [
            Path(polyline([(at[0] - 5.0, wall + 2.0), (28.0, 34.0)]), LINE),
            label(2.0, 41.0, "thick end", PANEL_WORDS),
            label(2.0, 47.6, "on the cake", PANEL_WORDS),
        ]
        return [
            *(panel.use(PLEAT.name, (0.12, 0.0, 0.0, deep / 100, x, y)) for x, y in places),
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
        piece=PLEAT,
        held=(38, 0.85),
        repeat_mm=74.0,
        drop_mm=24.0,
        line_mm=18.0,
    ),
    FRILLED,
)
