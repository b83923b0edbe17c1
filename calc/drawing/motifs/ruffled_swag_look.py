"""How a ruffled swag looks: a smooth upper edge along the arc, and from it a frill whose thin hem turns over and under."""

from __future__ import annotations

from dataclasses import dataclass

from calc.curves import arc_length_mm, swell_at
from calc.drawing.motifs.laid import Laid, RowLaid, Strand, arc_steps, spans, wobble
from calc.drawing.motifs.look import Look, Piece, register
from calc.drawing.motifs.swag_look import shadow_of
from calc.drawing.scene import Parts, Path, Style, smooth
from calc.drawing.shading import tone
from calc.rows.kinds.ruffled_swag import RUFFLE_WAVE
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _frill(colour: str) -> list[Path]:
    """One ripple from y = -50, where it is laid, to its hem at y = 50: it swells out to a crest, and its hem turns under to the next."""

    def fold(left: float, right: float, low: float) -> Parts:
        side = [(left * 0.6, -50.0), (left * 0.68, -10.0), (left, low - 12.0)]
        hem = [(left, low - 12.0), (left * 0.45, low), (right * 0.45, low), (right, low - 12.0)]
        back = [(right, low - 12.0), (right * 0.68, -10.0), (right * 0.6, -50.0)]
        return (*smooth(side), *smooth(hem)[1:], *smooth(back)[1:], ("Z",))

    hem = smooth([(-50.0, 30.0), (-30.0, 44.0), (0.0, 49.0), (30.0, 44.0), (50.0, 30.0)])
    under = smooth([(34.0, 28.0), (52.0, 20.0), (70.0, 28.0), (62.0, 40.0), (46.0, 42.0)], closed=True)
    return [
        Path(under, Style(fill=tone(colour, -0.66))),
        Path(fold(-60.0, 60.0, 49.0), Style(fill=tone(colour, -0.40))),
        Path(fold(-52.0, 50.0, 48.0), Style(fill=tone(colour, -0.10))),
        Path(fold(-40.0, 22.0, 46.0), Style(fill=tone(colour, 0.14))),
        Path(fold(-30.0, 0.0, 44.0), Style(fill=tone(colour, 0.30))),
        Path(hem, Style(stroke=tone(colour, 0.62), width_mm=4.5)),
    ]


FRILL = Piece("frill", _frill)


@dataclass(frozen=True, kw_only=True)
class _RuffledSwag(Look):
    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        size = row.size_mm
        shadows: list[Strand] = []
        strands: list[Strand] = []
        pieces: list[Laid] = []
        for drop in row.what.drops_mm(row.tip, row.drop_mm, row.layers):
            for start, width in spans(row, perimeter_mm):
                shadows.append(shadow_of(row, start, width, drop))
                count = max(5, round(arc_length_mm(width, drop) / (RUFFLE_WAVE * size)))
                step = arc_length_mm(width, drop) / count
                edge = []
                for i, (x, y, slope, share) in enumerate(arc_steps(width, drop, step)):
                    swell = swell_at(share)
                    deep = size * swell * (1 + 0.06 * wobble(i, width))
                    at = (start + x, row.line_mm + y)
                    pieces.append(Laid(FRILL.name, *at, slope * 0.8 + 0.05 * wobble(i, drop), step * 1.35, deep, size * 0.6, 0.5))
                    edge.append((at[0] + 0.46 * deep * slope * 0.6, at[1] - 0.46 * deep))
                strands.append(Strand((*edge,), size * 0.16, "smooth"))
        return RowLaid(tuple(shadows), tuple(strands), tuple(pieces))


register(
    _RuffledSwag(
        kind="ruffled swag",
        shown=PlacedRow("ruffled swag", Tip("petal", 12), "", "side", 16, 8, drop_mm=24),
        piece=FRILL,
        held=(38, 0.68),
        repeat_mm=74.0,
        drop_mm=24.0,
        line_mm=18.0,
    )
)
