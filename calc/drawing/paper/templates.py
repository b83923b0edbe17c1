"""Tops of tiers at 1:1: where joints, folds, the tier above and its dowels lie.

Map
---
`lay_top`             a top with its back up, or turned a quarter to take fewer pages: `TopLaid`
`top_template`        joints, dividing lines and the folds of the paper method
`stacking_template`   the footprint of the tier above, its dowels, and how long they are cut

Words stand in the free space beside what they name, on no line.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.division import dividers_mm
from calc.drawing.faces import text_width_mm
from calc.drawing.free_space import Box, FreeSpace
from calc.drawing.marks import cross, rule
from calc.drawing.paper.sheet import BLACK, NO_HEADING, Heading, Sheet, text_at
from calc.drawing.paper.tiles import Tiling, tile_pages, tiling_of, trim_lines
from calc.drawing.scene import GUIDE_DASH, INK, Item, Parts, Path, Point, Style, circle, polygon
from calc.drawing.tiers import TierDrawn
from calc.shapes import Outline
from calc.stack import Support
from calc.units import Formatter, file_name_part

_CUT = Style(stroke="#000000", width_mm=0.5)
_FOOT = Style(stroke=INK, width_mm=0.8, dash=(6.0, 2.4))
_FOLD = Style(stroke=INK, width_mm=0.3, dash=(1.0, 1.0, 5.0, 1.0))
_DOWEL_MM = 4.0  # radius of the ring that shows a dowel


@dataclass(frozen=True)
class TopLaid:
    """A top as it lies on paper: the back up, or `turned` a quarter, the back to the right."""

    shape: Outline
    turned: bool = False

    def at(self, x: float, y: float) -> Point:
        """A point of the top on paper; the middle is at (0, 0)."""
        return (y, x) if self.turned else (x, -y)

    def parts(self, shape: Outline) -> Parts:
        """An outline on paper."""
        return circle(0, 0, shape.width_mm / 2) if shape.kind == "round" else polygon([self.at(x, y) for x, y in shape.points(360)])

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The rectangle it lies in, with 1 mm all round: left, top, width, height [mm]."""
        left, low, right, high = self.shape.extent_mm
        (x0, y0), (x1, y1) = self.at(left, low), self.at(right, high)
        return min(x0, x1) - 1, min(y0, y1) - 1, abs(x1 - x0) + 2, abs(y1 - y0) + 2

    @property
    def area(self) -> list[Point]:
        """Its edge on paper."""
        return [self.at(x, y) for x, y in self.shape.points(360)]

    @property
    def forwards(self) -> float:
        """The direction on paper from the back to the front [rad]."""
        return math.pi if self.turned else math.pi / 2

    def tiling(self, paper: str) -> Tiling:
        """How it is laid on pages."""
        x0, y0, width, height = self.box
        return tiling_of(width, height, paper, [(x - x0, y - y0) for x, y in self.area])


def lay_top(shape: Outline, paper: str) -> TopLaid:
    """The top with its back up, or turned a quarter where that takes fewer pages, or none that is nearly empty."""
    ways = [TopLaid(shape), TopLaid(shape, turned=True)]
    return ways[0] if shape.kind == "round" else min(ways, key=lambda top: top.tiling(paper).cost)


def _space(items: Sequence[Item], box: tuple[float, float, float, float], paper: str, area: Sequence[tuple[float, float]]) -> FreeSpace:
    """The free space of a top: clear of its lines, and of those on which its pages are trimmed."""
    space = FreeSpace(Box(box[0], box[1], box[0] + box[2], box[1] + box[3]))
    for item in items:
        if isinstance(item, Path):
            space.add_path(item.parts)
    for line in trim_lines(box, paper, area):
        space.add_line(line)
    return space


def top_template(
    tier: TierDrawn, repeats: int, heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric", joints: tuple[float, ...] = ()
) -> Sheet:
    """Draw the top of a tier at 1:1 with its joints, dividing lines and the folds of the paper method, on as many pages as it takes.

    Joints stand at even distances round the edge, or where `joints` puts them, from the middle of the back. Each fold halves the circle
    again, so there are as many as the repeats can be halved, up to five; an odd number of repeats has none.

    >>> from calc.shapes import outline
    >>> len(top_template(TierDrawn(outline("round", 160.0), 0.0, 100.0), 8).pages)
    1
    """
    say = Formatter(units)
    shape = tier.outline
    top = lay_top(shape, paper)
    items: list[Item] = [Path(top.parts(shape), _CUT)]
    points = [top.at(*shape.point(s)[:2]) for s in (joints or tuple(shape.perimeter_mm * j / repeats for j in range(repeats)))]
    for x, y in points:
        items += [rule(0, 0, x, y, GUIDE_DASH), cross(x, y, 5.0)]
    items.append(cross(0, 0, 8.0))
    folds = _folds(repeats) if shape.kind == "round" else 0
    radius = shape.width_mm / 2
    for k in range(2 ** (folds - 1) if folds else 0):
        angle = math.pi * k / 2 ** (folds - 1) + math.pi / 2
        c, s = math.cos(angle) * radius, math.sin(angle) * radius
        items.append(Path((("M", -c, -s), ("L", c, s)), _FOLD))
    space = _space(items, top.box, paper, top.area)
    for number, (x, y) in enumerate(points, 1):
        far = max(10.0, math.hypot(x, y))
        items += _near(space, str(number), x - 7.0 * x / far, y - 7.0 * y / far, 4.0, "bold", nearest=2.5)
    items += _back_and_front(space, top)
    if folds:
        items += _near(space, "fold", 0.0, -0.55 * radius, 3.0, "text", nearest=2.5)
    title = "Top template" + (f": {tier.name}" if tier.name else "")
    under = " ".join(_told(tier, repeats, folds, say))
    pages = tile_pages(items, top.box, title, under, heading, paper, top.area, units)
    return Sheet("top-template" + (f"-{file_name_part(tier.name)}" if tier.name else ""), title, pages)


def _folds(repeats: int) -> int:
    """How many times a circle is folded in half so that folds fall on joints: as often as the repeats can be halved, five times at most."""
    folds = 0
    while repeats % 2 == 0 and folds < 5:
        repeats //= 2
        folds += 1
    return folds


def _told(tier: TierDrawn, repeats: int, folds: int, say: Formatter) -> list[str]:
    """What is said of the top of a tier."""
    shape = tier.outline
    told = [f"{say.length(shape.width_mm)} across, {repeats} repeats of {say.length(shape.perimeter_mm / repeats)} round the edge."]
    if shape.kind == "round" and repeats >= 2:
        told.append(f"Dividers at {say.length(dividers_mm(shape.perimeter_mm, repeats))}.")
        rest = repeats // 2**folds
        then = f", then each part into {rest}" if rest > 1 else ""
        times = {1: "once", 2: "twice"}.get(folds, f"{folds} times")
        told.append(f"Paper method: cut out, fold in half {times}{then}." if folds else "An odd number of repeats has no folds: use the lines.")
    return told


def stacking_template(
    lower: Outline, upper: Outline, stand: Support, heading: Heading = NO_HEADING, paper: str = "A4", name: str = "", units: str = "metric"
) -> Sheet:
    """Draw the top of a tier at 1:1 with the footprint of the tier above it, centred, its dowels, and how long they are cut.

    >>> from calc.shapes import outline
    >>> from calc.stack import Body, supports
    >>> tiers = (outline("round", 170.0), outline("round", 120.0))
    >>> len(stacking_template(*tiers, supports([Body(tier, 100.0) for tier in tiers])[0]).pages)
    1
    """
    say = Formatter(units)
    top = lay_top(lower, paper)
    dowels = [top.at(x, y) for x, y in stand.dowel_points]
    items: list[Item] = [Path(top.parts(lower), _CUT), Path(top.parts(upper), _FOOT), cross(0, 0, 8.0)]
    items += [item for x, y in dowels for item in (cross(x, y, 5.0), Path(circle(x, y, _DOWEL_MM), _CUT._replace(width_mm=0.3)))]
    space = _space(items, top.box, paper, top.area)
    for number, (x, y) in enumerate(dowels, 1):
        items += _near(space, str(number), x, y, 4.0, "bold")
    items += _near(space, "middle", 0.0, 0.0, 3.2, "text")
    items += _back_and_front(space, top)
    items += _near(space, "edge of the tier above", *top.at(0.0, upper.point(0.0)[1]), 3.2, "text", towards=top.forwards)
    title = "Stacking template" + (f": {name}" if name else "")
    each = say.length(stand.dowel_length_mm)
    under = (
        f"{stand.dowels} dowels of {each}. Cut out, lay on the chilled tier, back to back; prick the dashed line and every cross. Push one dowel "
        "in at the highest spot, mark it level with the coat, and cut all to it."
    )
    pages = tile_pages(items, top.box, title, under, heading, paper, top.area, units)
    return Sheet("stacking-template" + (f"-{file_name_part(name)}" if name else ""), title, pages)


def _back_and_front(space: FreeSpace, top: TopLaid) -> list[Item]:
    """The words at the back and at the front of a top."""
    back, front = top.at(0.0, top.shape.point(0.0)[1]), top.at(0.0, top.shape.extent_mm[1])
    return [
        *_near(space, "back", *back, 3.6, "bold", towards=top.forwards),
        *_near(space, "front", *front, 3.6, "bold", towards=top.forwards + math.pi),
    ]


def _near(space: FreeSpace, words: str, x: float, y: float, size: float, face: str, towards: float | None = None, nearest: float = 4.0) -> list[Item]:
    """Words in the free space nearest to a point: towards a direction on paper [rad], or all round."""
    wide, tall = text_width_mm(words, size, face), 0.98 * size
    ways = [math.tau * i / 16 for i in range(16)]
    if towards is not None:
        ways = [towards + lean for lean in (0.0, 0.3, -0.3, 0.6, -0.6, 0.9, -0.9, 1.2, -1.2)]
    middles = [(x + far * math.cos(way), y + far * math.sin(way)) for far in [nearest + 1.5 * i for i in range(24)] for way in ways]
    box = space.take(Box(u - wide / 2, v - tall / 2, u + wide / 2, v + tall / 2) for u, v in middles)
    return [] if box is None else [text_at(box.left, box.bottom - 0.22 * size, words, size, face=face, style=BLACK)]
