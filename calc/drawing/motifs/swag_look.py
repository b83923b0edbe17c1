"""How a swag looks: a ribbon of a petal tip along its arc, its free edge in even waves."""

from __future__ import annotations

from dataclasses import dataclass

from calc.curves import arc_points
from calc.drawing.motifs.laid import Ribbon, RowLaid, Strand, ribbon_of, spans
from calc.drawing.motifs.look import Look, register
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def shadow_of(row: PlacedRow, start: float, width: float, drop: float) -> Strand:
    """The shadow under one swag."""
    size = row.size_mm
    return Strand(tuple((start + x, row.line_mm + y + size * 0.42) for x, y in arc_points(width, drop, 8)), size, "shadow")


@dataclass(frozen=True, kw_only=True)
class _Swag(Look):
    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        shadows: list[Strand] = []
        ribbons: list[Ribbon] = []
        for drop in row.what.drops_mm(row.tip, row.drop_mm, row.layers):
            for start, width in spans(row, perimeter_mm):
                shadows.append(shadow_of(row, start, width, drop))
                ribbons.append(ribbon_of(row, start, width, drop))
        return RowLaid(tuple(shadows), (), (), tuple(ribbons))


register(
    _Swag(
        kind="swag",
        shown=PlacedRow("swag", Tip("petal", 11), "", "side", 15, 8, drop_mm=24),
        held=(38, 0.68),
        repeat_mm=74.0,
        drop_mm=24.0,
        line_mm=18.0,
    )
)
