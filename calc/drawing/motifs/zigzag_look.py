"""How a zigzag looks: even strokes up and down, side by side."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.motifs.look import Look, Panel, Piece, RunLook, register
from calc.drawing.scene import Item, Path
from calc.drawing.shading import along, ridge
from calc.rows.placement import PlacedRow
from calc.tips import Tip, stroke_mm


def _zig(colour: str) -> list[Path]:
    """One to-and-fro of a zigzag, from y = -50 to y = 50."""
    return [
        *ridge(along(((-26, 44), (-20, 20), (-8, -28), (0, -44))), 17, colour, -0.06, "pod"),
        *ridge(along(((0, -44), (8, -20), (20, 28), (26, 44))), 17, colour, 0.04, "pod"),
    ]


ZIG = Piece("zig", _zig)


@dataclass(frozen=True, kw_only=True)
class _Zigzag(RunLook):
    def sizes(self, row: PlacedRow) -> tuple[float, float, float]:
        movement, advance = row.what.rocking_mm(row.tip) or (row.size_mm, row.size_mm)
        return advance, movement + stroke_mm(row.tip), row.size_mm * 0.5

    def angle(self, panel: Panel) -> list[Item]:
        return Look.angle(self, panel)


register(_Zigzag(kind="zigzag", shown=PlacedRow("zigzag", Tip("open star", 7), "", "side", 30), piece=ZIG, reach=1.75, solid=0.5, by_count=False))
