"""How a zigzag looks: even strokes up and down, side by side."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.motifs.look import Look, Panel, PathDrawn, Piece, RunLook, register
from calc.drawing.scene import Item, Path, Point
from calc.drawing.shading import along, ridge
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _zig(colour: str) -> list[Path]:
    """One to-and-fro of a zigzag, from y = -50 to y = 50."""
    return [
        *ridge(along(((-26, 44), (-20, 20), (-8, -28), (0, -44))), 17, colour, -0.06, "pod"),
        *ridge(along(((0, -44), (8, -20), (20, 28), (26, 44))), 17, colour, 0.04, "pod"),
    ]


ZIG = Piece("zig", _zig)


def strokes_path(panel: Panel, lifted: float) -> PathDrawn:
    """Even strokes across the line all along a panel."""
    line = panel.line
    path: list[Point] = [(9 + 82 * i / 26, line - lifted + (6.4 if i % 2 else -6.4)) for i in range(27)]
    return PathDrawn(path, (0.995,), [(7, line - 14), (50, line + 15), (92, line - 14)])


@dataclass(frozen=True, kw_only=True)
class _Zigzag(RunLook):
    def sizes(self, row: PlacedRow) -> tuple[float, float, float]:
        size = row.size_mm
        return size * 0.95, size * 2.2, size * 0.5

    def path(self, panel: Panel) -> PathDrawn:
        return strokes_path(panel, 0.0)

    def angle(self, panel: Panel) -> list[Item]:
        return Look.angle(self, panel)


register(_Zigzag(kind="zigzag", shown=PlacedRow("zigzag", Tip("open star", 7), "", "side", 30), piece=ZIG, reach=1.75, solid=0.5, by_count=False))
