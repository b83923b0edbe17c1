"""How a leaf looks: rippled at its edges, with a midrib, drawn out to a point."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.drawing.bag import angle_mark, bag_and_tip
from calc.drawing.marks import rule
from calc.drawing.motifs.laid import Laid
from calc.drawing.motifs.look import HIGH, Panel, PathDrawn, Piece, SingleLook, register
from calc.drawing.scene import CAKE, LINE, Item, Parts, Path, Point, Style, rectangle, smooth
from calc.drawing.shading import along, band, open_curves, tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _leaf(colour: str) -> list[Path]:
    """A leaf from its foot at (0, 0) to its point at (100, 0), rippled at its edges, with a midrib."""
    upper: tuple[Point, ...] = (
        (0, -4),
        (5, -17),
        (15, -21),
        (21, -29),
        (31, -27),
        (38, -32),
        (48, -26),
        (55, -26),
        (63, -18),
        (71, -15),
        (83, -5),
        (101, 1),
    )
    lower: tuple[Point, ...] = ((0, 4), (6, 18), (15, 20), (23, 29), (31, 26), (40, 31), (48, 25), (57, 25), (64, 16), (73, 13), (84, 5), (101, 1))
    middle: tuple[Point, ...] = ((101, 1), (70, -2), (32, -3), (0, 0))

    def half(edge: Sequence[Point], share: float) -> Parts:
        outer = [(x, y * share) for x, y in edge]
        parts: list[tuple[str | float, ...]] = [("M", 0, 0), *open_curves([(0.0, 0.0), *outer[1:]]), *open_curves(middle), ("Z",)]
        return tuple(parts)

    paths = [
        Path(half(lower, 1.0), Style(fill=tone(colour, -0.62))),
        Path(half(upper, 1.0), Style(fill=tone(colour, -0.34))),
        Path(half(lower, 0.86), Style(fill=tone(colour, -0.26))),
        Path(half(upper, 0.88), Style(fill=tone(colour, 0.06))),
    ]
    for x, reach in ((8, 21), (24, 26), (41, 25), (58, 17)):
        paths.append(
            Path(band(along(((x + 1, -4), (x + 5, -9), (x + 8, -reach * 0.7), (x + 15, -reach))), 4.4, "pod", -1, 1), Style(fill=tone(colour, 0.30)))
        )
        paths.append(
            Path(band(along(((x + 1, 3), (x + 5, 8), (x + 8, reach * 0.7), (x + 15, reach))), 4.0, "pod", -1, 1), Style(fill=tone(colour, -0.04)))
        )
    paths.append(Path(band(along(((1, 0), (32, -3), (70, -2), (99, 1))), 3.2, "comma", -1, 1), Style(fill=tone(colour, -0.72))))
    paths.append(Path(band(along(((2, 1), (32, -1), (70, 0), (94, 1))), 1.7, "comma", -1, 1), Style(fill=tone(colour, 0.34))))
    return paths


LEAF = Piece("leaf", _leaf, points=True)


@dataclass(frozen=True, kw_only=True)
class _Leaf(SingleLook):
    def placed(self, row: PlacedRow, s: float, line: float, size: float) -> list[Laid]:
        """One leaf hangs; two point to either side and a little down; more fan out between them."""
        found = []
        for k in range(row.per_joint):
            spread = 0.0 if row.per_joint == 1 else 62.0 - 124.0 * k / (row.per_joint - 1)
            turn = math.radians(90 + spread)
            x, y = s + 0.16 * size * math.cos(turn), line + 0.16 * size * math.sin(turn)
            found.append(Laid(LEAF.name, x, y, turn, size, size * 1.05, size * 0.1, self.solid))
        return found

    def matrix(self, x: float) -> tuple[float, float, float, float, float, float]:
        return 0.0, self.size_mm / 100, -self.size_mm * 1.05 / 100, 0.0, x, self.line_mm

    def front(self, panel: Panel) -> tuple[list[Item], Point]:
        return panel.piped(51.0), (50.0, self.line_mm + self.size_mm * 0.62)

    def angle(self, panel: Panel) -> list[Item]:
        wall, colour = 24.0, panel.colour
        leaf = [(wall, 10.0), (wall + 8, 12.0), (wall + 14, 20.0), (wall + 14.5, 30.0), (wall + 9.5, 33.0), (wall + 7, 27.0), (wall, 22.0)]
        return [
            Path(rectangle(-2, -2, wall + 2, HIGH + 4), CAKE),
            Path(smooth(leaf, closed=True), Style(fill=tone(colour, -0.15), stroke=tone(colour, -0.55), width_mm=0.5)),
            Path(smooth([(wall + 2, 13), (wall + 8, 15.5), (wall + 12, 22)]), Style(stroke=tone(colour, 0.35), width_mm=1.0)),
            *bag_and_tip((wall + 12.0, 32.0), 45.0, panel.tip, 0.95),
            rule(wall, -2, wall, HIGH + 2, LINE._replace(width_mm=0.9)),
            *angle_mark((wall, 20.0), 27.0, 90.0, 45.0, "45°", 0.3),
        ]

    def path(self, panel: Panel) -> PathDrawn:
        faint: list[Item] = [panel.use(LEAF.name, (0.0, 0.52, -0.5, 0.0, 50, 11))]
        return PathDrawn([(50, 13), (50, 36), (50, 62)], (0.4, 1.0), [(50, 8), (68, 30), (59, 63)], faint)


register(
    _Leaf(
        kind="leaf",
        shown=PlacedRow("leaf", Tip("leaf", 10), "", "side", 16, count=20),
        piece=LEAF,
        held=(72, 0.68),
        size_mm=30.0,
        apart_mm=25.0,
        line_mm=20.0,
        solid=0.3,
    )
)
