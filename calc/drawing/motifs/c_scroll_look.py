"""How a C scroll looks: a curved line of a star tip, full in the middle, thin in its curls."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.motifs.laid import RowLaid, Strand, spans
from calc.drawing.motifs.look import Look, Panel, register
from calc.drawing.scene import GUIDE_DASH, Item, Path, Point, smooth
from calc.drawing.shading import split_colours, stroke, swollen
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def scroll_lines(row: PlacedRow, perimeter_mm: float, count: int = 16) -> list[tuple[Point, ...]]:
    """The line of every scroll of a row on the unrolled side, one in the middle of each repeat, its middle in `count` chords."""
    found = []
    for start, pitch in spans(row, perimeter_mm):
        wide = row.width_mm or pitch * 0.78
        points = row.what.mark_points(wide, row.drop_mm or wide * 0.35, count)
        found.append(tuple((start + (pitch - wide) / 2 + x, row.line_mm + y) for x, y in points))
    return found


@dataclass(frozen=True, kw_only=True)
class ScrollLook(Look):
    """A scroll to each repeat; `role` says where it swells."""

    role: str = "swelling"

    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        """Lay one strand for each scroll, with its shadow."""
        strands = [Strand(points, row.size_mm * 1.25, self.role) for points in scroll_lines(row, perimeter_mm)]
        shadows = tuple(
            Strand(tuple((s + one.width_mm * 0.2, down + one.width_mm * 0.35) for s, down in one.points[::2]), one.width_mm * 0.8, "shadow")
            for one in strands
        )
        return RowLaid(shadows, tuple(strands), ())

    def front(self, panel: Panel) -> tuple[list[Item], Point]:
        """The scroll, most of it piped."""
        done = panel.mark[: round(len(panel.mark) * 0.62)]
        items: list[Item] = [Path(smooth(panel.mark), GUIDE_DASH), *panel.piped(panel.mark[0][0] - 14.0)]
        full = swollen(len(panel.mark), 0.35 if self.role == "swelling twice" else 0.0)[: len(done)]
        return [*items, *split_colours(list[Item](stroke(done, panel.tip.bead_width_mm * 1.25, panel.colour, full)), panel.colour)], done[-1]


register(
    ScrollLook(
        kind="C scroll",
        shown=PlacedRow("C scroll", Tip("open star", 5), "", "side", 16, 8, drop_mm=20, count=8),
        repeat_mm=70.0,
        drop_mm=26.0,
        line_mm=20.0,
    )
)
