"""How a line looks: one ridged strand all the way round."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.motifs.laid import RowLaid, Strand
from calc.drawing.motifs.look import Look, Panel, PathDrawn, register
from calc.rows.placement import PlacedRow


@dataclass(frozen=True, kw_only=True)
class _Line(Look):
    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        size = row.size_mm
        line = (height_mm - size / 2) if row.place == "base" else row.line_mm
        points = tuple((perimeter_mm * i / 96, line) for i in range(97))
        shadow = Strand(tuple((s, down + size * 0.4) for s, down in points), size, "shadow")
        return RowLaid((shadow,), (Strand(points, size, "ridged"),), ())

    def path(self, panel: Panel) -> PathDrawn:
        line = panel.line
        path = [(10.0, line), (17.0, line - 9), (50.0, line - 13), (83.0, line - 9), (90.0, line)]
        return PathDrawn(path, (0.3, 0.72, 0.99), [(7, line), (50, line - 13), (93, line)])


register(_Line(kind="line", deep_mm=3.6))
