"""A top cut by one of `CUTS`, or by the one that gives the most."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

from calc.geometry.polygons import Polygon, polygon_area
from calc.portions.grid import count_grid, draw_grid, grid_bound
from calc.portions.layout import Cut, Layout, whole_number
from calc.portions.rings import count_rings, draw_rings
from calc.portions.strips import count_strips, draw_strips
from calc.portions.top import standard_top
from calc.portions.wedges import count_wedges, draw_wedges, wedges_bound
from calc.shapes import Outline, Round
from calc.sources import constant

CUTS = ("best", "grid", "strips", "rings", "wedges")
TALL_MM = constant(150.0, "mm", "common-practice", "from here up a tier is built with a board half way, and cut twice; from twice that, three times")


def levels(height_mm: float) -> int:
    """Give on how many levels a tier is cut: each is lower than 15 cm, and has a board and supports of its own.

    Formula: the integer part of height / 150 mm, and one more.

    Parameters
    ----------
    height_mm : float
        Height of the sponge with its fillings, before the coat [mm]

    Returns
    -------
    int
        Levels [-]

    Raises
    ------
    ValueError
        The height is not positive.

    Range: any height. Leaves out: tall slices that are wanted, on a plate of their own.

    Example
    -------
    >>> levels(100), levels(150), levels(200), levels(300)
    (1, 2, 2, 3)

    Source: common-practice
    """
    if not height_mm > 0:
        raise ValueError("a tier has a positive height")
    return int(height_mm / TALL_MM * (1 + 1e-9)) + 1


@dataclass(frozen=True)
class CutPlan:
    """A top cut into portions.

    `cut` is the one that was used (never "best"); `area_bound` is an upper bound for every cut. `cut_as_mm` is the slice that it was cut
    for, now and then a little larger than the one asked for. `pieces` and `cuts` are drawn when first asked for.
    """

    outline: Outline
    slice_mm: tuple[float, float]
    cut: str
    count: int
    area_bound: int
    layout: Layout
    cut_as_mm: tuple[float, float]

    @property
    def piece_mm2(self) -> float:
        """Area of a slice as asked for [mm2]."""
        return self.slice_mm[0] * self.slice_mm[1]

    @property
    def offcut_mm2(self) -> float:
        """Area of the top that goes into no slice [mm2]."""
        return self.outline.area_mm2 - math.fsum(polygon_area(piece) for piece in self.pieces)

    @cached_property
    def _drawn(self) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
        if self.cut == "strips":
            standard, scale = standard_top(self.outline)
            short, long = self.cut_as_mm
            return draw_strips(self.outline, self.cut_as_mm, counted("strips", standard, short * scale, long * scale))
        draw = {"grid": draw_grid, "rings": draw_rings, "wedges": draw_wedges}[self.cut]
        return draw(self.outline, self.layout)

    @property
    def pieces(self) -> tuple[Polygon, ...]:
        """The slices as polygons seen from above [mm]."""
        return self._drawn[0]

    @property
    def rectangles(self) -> int:
        """How many of the pieces are whole rectangles; the others have the area of the slice, and a rounded or a pointed end."""
        return sum(_is_rectangle(piece) for piece in self.pieces)

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """The knife's steps in order."""
        return self._drawn[1]


def _is_rectangle(piece: Polygon) -> bool:
    """Whether a piece fills the box round it, its sides along those of the top."""
    xs, ys = [x for x, _ in piece], [y for _, y in piece]
    return abs(polygon_area(piece)) >= (max(xs) - min(xs)) * (max(ys) - min(ys)) * (1 - 1e-6)


def area_bound(shape: Outline, slice_mm: tuple[float, float]) -> int:
    """Give an upper bound on the portions that any cut of a top could give.

    Formula: the integer part of A / (w l).

    Parameters
    ----------
    shape : Outline
        Outline of the sponge [-]
    slice_mm : tuple of (float, float)
        Width w and length l of a slice [mm]

    Returns
    -------
    int
        Portions by area alone [-]

    Raises
    ------
    ValueError
        A side of the slice is not positive.

    Range: any outline; no knife need reach it.

    Example
    -------
    >>> from calc.shapes import outline
    >>> area_bound(outline("square", 203.2), (25.4, 50.8))
    32

    Source: geometry (ratio of areas)
    """
    short, long = _slice(slice_mm)
    return whole_number(shape.area_mm2 / (short * long))


def _slice(slice_mm: tuple[float, float]) -> tuple[float, float]:
    short, long = sorted(slice_mm)
    if not (short > 0 and long < math.inf):
        raise ValueError("a slice has a positive width and length")
    return float(short), float(long)


@lru_cache(maxsize=2048)
def cut_plan(shape: Outline, slice_mm: tuple[float, float] = (25.0, 50.0), cut: str = "best") -> CutPlan:
    """Cut the top of a sponge by one of `CUTS`, or by the one that gives the most; on a tie the simpler cut wins, in the order of `CUTS`.

    The sides of the slice may be given in either order. ValueError: the cut is not known, rings are asked of anything but a
    round, or the slice has no size.

    >>> from calc.shapes import outline
    >>> plan = cut_plan(outline("round", 203.2), (25.4, 50.8))
    >>> plan.cut, plan.count, plan.area_bound
    ('rings', 24, 25)
    >>> cut_plan(outline("square", 203.2), (25.4, 50.8)).count
    32
    """
    if cut not in CUTS:
        raise ValueError(f"a cut is one of {', '.join(CUTS)}, not {cut!r}")
    short, long = _slice(slice_mm)
    if cut == "rings" and not isinstance(shape, Round):
        raise ValueError("rings are cut on a round")
    names = [cut] if cut != "best" else [n for n in COUNTERS if n != "rings" or isinstance(shape, Round)]
    best: Layout | None = None
    size = (short, long)
    standard, scale = standard_top(shape)
    # skip a grid that cannot win; on other shapes it mostly wins, or is as quick to count as to bound
    if (
        cut == "best"
        and shape.kind in ("hexagon", "oval", "heart", "petal")
        and grid_bound(standard, short * scale, long * scale) < counted("strips", standard, short * scale, long * scale).count
    ):
        names.remove("grid")
    for name in names:
        if best is not None and name == "wedges" and wedges_bound(standard, short * scale) <= best.count:
            continue
        layout = counted(name, standard, short * scale, long * scale)
        if best is None or layout.count > best.count:
            best = layout
    assert best is not None
    is_simpler = CUTS.index("strips") < CUTS.index(best.cut)  # then as many are enough
    larger = _larger_strips(shape, short, long, best.count - is_simpler) if "strips" in names else None
    if larger is not None:
        best, size = larger
    return CutPlan(shape, (short, long), best.cut, best.count, area_bound(standard, (short * scale, long * scale)), best.scaled(1 / scale), size)


STEPS_MM = (1.0, 25.4 / 8)  # sizes that slices are asked in: whole millimetres and eighths of an inch


def _from(value: float, most: float) -> list[float]:
    """A size, and the larger ones that slices are asked in."""
    return [value, *sorted({step * k for step in STEPS_MM for k in range(math.floor(value / step * (1 + 1e-9)) + 1, math.floor(most / step) + 1)})]


@lru_cache(maxsize=1024)
def _larger_strips(shape: Outline, short: float, long: float, over: int) -> tuple[Layout, tuple[float, float]] | None:
    """Strips for a somewhat larger slice where they give more than `over` pieces: a larger slice never gives more than a smaller one.

    Where strips begin and end goes by the slice, so that a few tops give more of a somewhat larger one. Only those are tried whose area
    leaves room for more.
    """
    standard, scale = standard_top(shape)
    found: tuple[Layout, tuple[float, float]] | None = None
    most = shape.area_mm2 / (over + 1) * (1 + 1e-9)
    if short * long > most:
        return None
    larger = [(s, w) for s in _from(short, math.sqrt(most)) for w in _from(long, most / s) if s <= w and s * w <= most]
    for s, w in sorted(larger, key=lambda sides: (sides[0] * sides[1], sides)):
        if whole_number(shape.area_mm2 / (s * w)) <= over:
            break
        layout = count_strips(standard, s * scale, w * scale, over)
        if layout.count > over:
            found, over = (layout, (s, w)), layout.count
    return found


def portion_count(shape: Outline, slice_mm: tuple[float, float] = (25.0, 50.0), cut: str = "best") -> int:
    """Give only the count of `cut_plan`.

    >>> from calc.shapes import outline
    >>> [portion_count(outline("round", 25.4 * d), (25.4, 50.8)) for d in (6, 8, 10, 12)]
    [13, 24, 38, 55]
    """
    return cut_plan(shape, slice_mm, cut).count


COUNTERS = {"grid": count_grid, "strips": count_strips, "rings": count_rings, "wedges": count_wedges}


@lru_cache(maxsize=2048)
def counted(cut: str, shape: Outline, short: float, long: float) -> Layout:
    """One cut of a top, counted once for the best of all and for each by itself."""
    return COUNTERS[cut](shape, short, long)
