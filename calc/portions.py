"""Cutting plans: how many whole slices a top gives, and where the knife goes.

Map
---
`cut_plan`      outline, slice, cut -> `CutPlan`: count, pieces as polygons, knife lines in order with a sentence each
`portion_count` only the count
`CUTS`          best, grid, strips, rings, wedges
`area_bound`    the most that any cut could give: area of the top over area of the slice
`whole_slices_in_row`  whole slices side by side in one row, however the row is shifted
`SLICES`, `TINS`       slices and tins by the names of the trade

How each cut counts
-------------------
Every piece counted has at least the slice's area; offcuts are never counted. The tolerance for a piece that fits to the
last digit is one part in a thousand million.

grid      whole slices on a grid centred on the top, either way round; a grid line or a row of slices lies on the middle
strips    parallel strips as wide as the slice is long, each cut across into equal pieces; what is left at the edge is cut too
          where it is at least as deep as the slice is wide; a piece round a notch hangs together by half the slice's width
rings     on a round: rings as deep as the slice is long, from the edge inwards, each cut into equal pieces; the core is
          cut, or kept whole, when it is large enough
wedges    all cuts through the middle, equal pieces, each at least as wide on average as the slice is wide

Rounded ends of a strip, sectors of a ring and points of a wedge are not rectangles: they have the area of the slice, and
its length or its width, not both.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

from calc.shapes import TWO_SIZES, Arc, Outline, Oval, Point, Round, Straight, outline
from calc.units import Say

CUTS = ("best", "grid", "strips", "rings", "wedges")
FIT = 1e-9  # a piece that is short of the slice by less than this part of it still counts
Polygon = tuple[Point, ...]


# --- slices and tins by name -------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Slice:
    """A slice by its trade name, in a metric and in an inch kitchen [mm]."""

    name: str
    label: str
    metric_mm: tuple[float, float]
    us_mm: tuple[float, float]
    source: str

    def sizes_mm(self, units: str) -> tuple[float, float]:
        """Width and length in the reader's units, "metric" or "us" [mm]."""
        return self.us_mm if units == "us" else self.metric_mm


SLICES: tuple[Slice, ...] = (
    Slice("finger", "Finger, with coffee", (25.0, 25.0), (25.4, 25.4), "common-practice"),
    Slice("wedding", "Wedding", (25.0, 50.0), (25.4, 50.8), "common-practice"),
    Slice("party", "Party", (40.0, 50.0), (38.1, 50.8), "common-practice"),
    Slice("square", "Square, from a sheet", (50.0, 50.0), (50.8, 50.8), "quantity-cookery"),
)


@dataclass(frozen=True)
class Tin:
    """A usual tin: shape and size [mm], with the name it goes by."""

    label: str
    shape: str
    width_mm: float
    length_mm: float | None
    units: str
    source: str

    @property
    def outline(self) -> Outline:
        """Its outline."""
        return outline(self.shape, self.width_mm, self.length_mm)


def _tins() -> tuple[Tin, ...]:
    found: list[Tin] = []
    for shape in ("round", "square", "hexagon", "heart", "petal"):
        found += [Tin(f"{cm} cm", shape, cm * 10.0, None, "metric", "common-practice") for cm in (10, 15, 20, 25, 30, 35, 40)]
        found += [Tin(f"{inch} in", shape, inch * 25.4, None, "us", "common-practice") for inch in (4, 6, 8, 10, 12, 14, 16)]
    sheets = (
        ("Eighth sheet", 6, 9, "common-practice"),
        ("Quarter sheet", 9, 13, "common-practice"),
        ("Half sheet", 13, 18, "common-practice"),
        ("Full sheet", 18, 26, "tm-10-412"),
    )
    found += [Tin(f"{name}, {a} x {b} in", "rectangle", a * 25.4, b * 25.4, "us", source) for name, a, b, source in sheets]
    found += [Tin(f"{a} x {b} cm", "rectangle", a * 10.0, b * 10.0, "metric", "common-practice") for a, b in ((20, 30), (23, 33), (30, 40), (40, 60))]
    found += [
        Tin(f"{a} x {b} cm", "oval", a * 10.0, b * 10.0, "metric", "common-practice") for a, b in ((15, 20), (20, 25), (25, 30), (30, 35), (35, 40))
    ]
    found += [Tin(f"{a} x {b} in", "oval", a * 25.4, b * 25.4, "us", "common-practice") for a, b in ((6, 8), (8, 10), (10, 12), (12, 14), (14, 16))]
    return tuple(found)


TINS: tuple[Tin, ...] = _tins()


# --- the outline as a profile: which x belongs to which y --------------------------------------------------------------


class _Line(NamedTuple):
    """A straight part of the side that runs from (x_low, low) up to (x_high, high)."""

    low: float
    high: float
    x_low: float
    x_high: float
    right: bool  # whether the cake lies to its left

    def x(self, y: float) -> float:
        return self.x_low + (self.x_high - self.x_low) * (y - self.low) / (self.high - self.low)

    def area(self, y: float) -> float:
        return (self.x_low + self.x(y)) / 2 * (y - self.low)

    def span(self, a: float, b: float) -> tuple[float, float]:
        first, last = self.x(a), self.x(b)
        return (first, last) if first < last else (last, first)


class _Bow(NamedTuple):
    """Part of the left or right half of a circle or an ellipse."""

    low: float
    high: float
    cx: float
    cy: float
    rx: float  # below nothing for the left half
    ry: float
    right: bool

    def x(self, y: float) -> float:
        v = (y - self.cy) / self.ry
        return self.cx + self.rx * math.sqrt(max(0.0, 1 - v * v))

    def area(self, y: float) -> float:
        v = max(-1.0, min(1.0, (y - self.cy) / self.ry))
        return self.cx * y + self.rx * self.ry * (v * math.sqrt(1 - v * v) + math.asin(v)) / 2

    def span(self, a: float, b: float) -> tuple[float, float]:
        first, last = self.x(a), self.x(b)
        low, high = (first, last) if first < last else (last, first)
        if a < self.cy < b:
            extreme = self.cx + self.rx
            low, high = min(low, extreme), max(high, extreme)
        return low, high


_Curve = _Line | _Bow


class _Slab(NamedTuple):
    """What lies between two neighbouring ends of curves: all that cross it, those of them that begin with it, and the right ones."""

    curves: tuple[_Curve, ...]
    begun: tuple[_Curve, ...]
    rights: tuple[_Curve, ...]
    area: float  # of all that lies before it, less what its curves say at its lower edge


class _Profile:
    """An outline cut into parts that each have one x for every y; `turned` looks at it from its left side."""

    def __init__(self, shape: Outline, turned: bool) -> None:
        self.curves: list[_Curve] = []
        self.flats: list[tuple[float, float, float]] = []
        if isinstance(shape, Oval) and shape.coat_mm == 0:
            a, b = shape.half_axes_mm
            rx, ry = (b, a) if turned else (a, b)
            self.curves = [_Bow(-ry, ry, 0.0, 0.0, rx, ry, True), _Bow(-ry, ry, 0.0, 0.0, -rx, ry, False)]
        elif isinstance(shape, Oval):
            polygon = [(y, -x) if turned else (x, y) for x, y in shape.points(720)]
            for (x0, y0), (x1, y1) in zip(polygon, polygon[1:] + polygon[:1], strict=True):
                self._add_line(x0, y0, x1, y1)
        else:
            for piece in shape.pieces:
                if isinstance(piece, Straight):
                    if turned:
                        self._add_line(piece.y0, -piece.x0, piece.y1, -piece.x1)
                    else:
                        self._add_line(piece.x0, piece.y0, piece.x1, piece.y1)
                else:
                    self._add_arc(piece, turned)
        self.ends: list[float] = []
        meeting: dict[float, float] = {}  # curves that meet end at the same height, to the last digit
        for y in sorted({y for curve in self.curves for y in (curve.low, curve.high)}):
            if not self.ends or y - self.ends[-1] > 1e-9:
                self.ends.append(y)
            meeting[y] = self.ends[-1]
        self.curves = [curve._replace(low=meeting[curve.low], high=meeting[curve.high]) for curve in self.curves]
        crossing: list[list[_Curve]] = [[] for _ in self.ends[1:]]
        for curve in self.curves:
            for curves in crossing[bisect_left(self.ends, curve.low) : bisect_left(self.ends, curve.high)]:
                curves.append(curve)
        self.slabs: list[_Slab] = []
        whole = 0.0
        for low, high, curves in zip(self.ends, self.ends[1:], crossing, strict=False):
            area = whole - _area_left_of(curves, low)
            whole = area + _area_left_of(curves, high)
            begun = tuple(curve for curve in curves if curve.low == low)
            self.slabs.append(_Slab(tuple(curves), begun, tuple(curve for curve in curves if curve.right), area))
        self.whole = whole
        self.bottom = min(curve.low for curve in self.curves)
        self.top = max(curve.high for curve in self.curves)
        self.notches = [-x if turned else y for x, y, _ in map(shape.point, shape.notches_mm)]
        self.along_notches = [self.along(y) for y in self.notches]
        self.lost = 0.0 if shape.convex else _lost_mm2(shape)

    def _add_line(self, x0: float, y0: float, x1: float, y1: float) -> None:
        if abs(y1 - y0) < 1e-12 * (abs(x1 - x0) + abs(y0) + abs(y1)):
            self.flats.append((y0, min(x0, x1), max(x0, x1)))
        elif y1 > y0:
            self.curves.append(_Line(y0, y1, x0, x1, True))
        else:
            self.curves.append(_Line(y1, y0, x1, x0, False))

    def _add_arc(self, arc: Arc, turned: bool) -> None:
        cx, cy, start = (arc.cy, -arc.cx, arc.start - math.pi / 2) if turned else (arc.cx, arc.cy, arc.start)
        end = start + arc.sweep
        half = math.pi
        first = math.ceil((start - math.pi / 2) / half - 1e-12)
        stops = [start] + [s for k in range(first, first + 4) if start + 1e-12 < (s := math.pi / 2 + k * half) < end - 1e-12] + [end]
        for a, b in zip(stops, stops[1:], strict=False):
            right = math.cos((a + b) / 2) > 0
            ya, yb = cy + arc.radius * math.sin(a), cy + arc.radius * math.sin(b)
            self.curves.append(_Bow(min(ya, yb), max(ya, yb), cx, cy, arc.radius if right else -arc.radius, arc.radius, right))

    def slab(self, y: float) -> int:
        """The number of the slab in which a line lies; the one after it where it lies between two."""
        return max(0, min(len(self.slabs) - 1, bisect_right(self.ends, y) - 1))

    def below(self, y: float) -> float:
        """Area of the top on the near side of a line [mm2]."""
        if y <= self.bottom:
            return 0.0
        if y >= self.top:
            return self.whole
        slab = self.slabs[self.slab(y)]
        return slab.area + _area_left_of(slab.curves, y)

    def along(self, y: float) -> float:
        """How much of a line lies on the top [mm]."""
        slab = self.slabs[self.slab(y)]
        if len(slab.curves) == 2:
            left, right = slab.curves
            return abs(right.x(y) - left.x(y))
        return math.fsum([curve.x(y) if curve.right else -curve.x(y) for curve in slab.curves])

    def area(self, low: float, high: float) -> float:
        """Area of the top between two parallel lines [mm2]."""
        return self.below(high) - self.below(low)

    def areas(self, strips: Sequence[tuple[float, float]]) -> list[float]:
        """Areas between several pairs of lines, many of which are the line of two pairs [mm2]."""
        below = {y: self.below(y) for y in {y for strip in strips for y in strip}}
        return [below[high] - below[low] for low, high in strips]

    def is_plain(self, low: float, high: float) -> bool:
        """Whether a strip is one piece without a notch in it, and so has no notch that a cut across it could meet."""
        slack = FIT * (self.top - self.bottom)
        if any(low - slack < y < high + slack for y in self.notches):
            return False
        return len(self.slabs[self.slab(low)].rights) < 2 and (high >= self.top or len(self.slabs[self.slab(high)].rights) < 2)

    def clear(self, low: float, high: float) -> tuple[tuple[float, float], ...]:
        """The stretches of x over which the whole strip from low to high is cake."""
        slack = FIT * (self.top - self.bottom)
        if low < self.bottom - slack or high > self.top + slack:
            return ()
        blocked: list[tuple[float, float]] = []
        middle = (low + high) / 2
        first, last = self.slab(low), self.slab(high)
        for slab in self.slabs[first : last + 1]:
            for curve in slab.curves if slab is self.slabs[first] else slab.begun:
                a, b = max(low, curve.low), min(high, curve.high)
                if b > a:
                    blocked.append(curve.span(a, b))
        crossing = [(curve.x(middle), curve.right) for curve in self.slabs[self.slab(middle)].curves]
        blocked += [(x0, x1) for y, x0, x1 in self.flats if low + slack < y < high - slack]
        blocked.sort()
        found = []
        reach = -math.inf
        for x0, x1 in blocked:
            if x0 > reach and reach > -math.inf:
                x = (reach + x0) / 2
                if sum(1 if right else -1 for at, right in crossing if at > x) == 1:
                    found.append((reach, x0))
            reach = max(reach, x1)
        return tuple(found)

    def chord(self, y: float) -> tuple[float, float]:
        """Where a line across an outline without notches enters the cake and leaves it; the same twice where it only touches."""
        y = max(self.bottom, min(self.top, y))
        left, right = -math.inf, math.inf
        for curve in self.curves:
            if curve.low <= y <= curve.high:
                x = curve.x(y)
                if curve.right:
                    right = min(right, x)
                else:
                    left = max(left, x)
        return left, right


def _area_left_of(curves: Iterable[_Curve], y: float) -> float:
    """What the right curves have below a line more than the left ones, each from where it begins to count."""
    return math.fsum([curve.area(y) if curve.right else -curve.area(y) for curve in curves])


@lru_cache(maxsize=512)
def _profile(shape: Outline, turned: bool) -> _Profile:
    return _Profile(shape, turned)


def _whole(value: float) -> int:
    """The whole number in a value, forgiving the last digits."""
    return math.floor(value * (1 + FIT) + FIT)


# --- the plan ----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Cut:
    """One step with the knife: the lines it follows [mm], and what to do in words.

    `words` has places for `lengths_mm`, so that `sentence` can be said in the reader's units.
    """

    lines: tuple[Polygon, ...]
    words: str
    lengths_mm: tuple[float, ...] = ()

    def sentence(self, say: Say = Say()) -> str:  # noqa: B008
        """The step as a sentence in the reader's units."""
        return self.words.format(*(say.length(length) for length in self.lengths_mm))


@dataclass(frozen=True)
class _Layout:
    """How a plan was counted: enough to draw it again."""

    cut: str
    count: int
    turned: bool = False
    offsets_mm: tuple[float, float] = (0.0, 0.0)
    sizes_mm: tuple[float, float] = (0.0, 0.0)
    parts: tuple[tuple[float, float, int], ...] = ()  # strips or rings: from, to, pieces

    def scaled(self, scale: float) -> _Layout:
        """The same on a top so many times as large."""
        if scale == 1.0:
            return self
        (x, y), (short, long) = self.offsets_mm, self.sizes_mm
        return _Layout(
            self.cut,
            self.count,
            self.turned,
            (x * scale, y * scale),
            (short * scale, long * scale),
            tuple((low * scale, high * scale, count) for low, high, count in self.parts),
        )


@dataclass(frozen=True)
class CutPlan:
    """A top cut into whole slices.

    `cut` is the one that was used (never "best"); `area_bound` is the most that any cut could give. `pieces` and `cuts` are
    worked out when first asked for.
    """

    outline: Outline
    slice_mm: tuple[float, float]
    cut: str
    count: int
    area_bound: int
    layout: _Layout

    @property
    def piece_mm2(self) -> float:
        """Area of a slice as asked for [mm2]."""
        return self.slice_mm[0] * self.slice_mm[1]

    @property
    def offcut_mm2(self) -> float:
        """Area of the top that goes into no slice [mm2]."""
        return self.outline.area_mm2 - math.fsum(_polygon_area(piece) for piece in self.pieces)

    @cached_property
    def _drawn(self) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
        if self.cut == "strips":
            return _draw_strips(self.outline, self.slice_mm)
        draw = {"grid": _draw_grid, "rings": _draw_rings, "wedges": _draw_wedges}[self.cut]
        return draw(self.outline, self.layout)

    @property
    def pieces(self) -> tuple[Polygon, ...]:
        """The slices as polygons seen from above [mm]."""
        return self._drawn[0]

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """The knife's steps in order."""
        return self._drawn[1]


def area_bound(shape: Outline, slice_mm: tuple[float, float]) -> int:
    """Give the most whole slices that any cut of a top could give.

    Formula: the whole number in A / (w l).

    Parameters
    ----------
    shape : Outline
        Outline of the sponge [-]
    slice_mm : tuple of (float, float)
        Width w and length l of a slice [mm]

    Returns
    -------
    int
        Slices by area alone [-]

    Raises
    ------
    ValueError
        The slice has a side that is not above nothing.

    Range: any outline. Leaves out: whether a knife can cut them.

    Example
    -------
    >>> area_bound(outline("square", 203.2), (25.4, 50.8))
    32

    Source: geometry
    """
    short, long = _slice(slice_mm)
    return _whole(shape.area_mm2 / (short * long))


def _slice(slice_mm: tuple[float, float]) -> tuple[float, float]:
    short, long = sorted(slice_mm)
    if not (short > 0 and long < math.inf):
        raise ValueError("a slice has a width and a length above nothing")
    return float(short), float(long)


@lru_cache(maxsize=2048)
def cut_plan(shape: Outline, slice_mm: tuple[float, float] = (25.0, 50.0), cut: str = "best") -> CutPlan:
    """Cut a top into whole slices, by one cut or by the one that gives the most.

    Formula: by cut as said at the top of this room; the most wins, and a tie goes to the simpler cut (grid, strips, rings,
    wedges).

    Parameters
    ----------
    shape : Outline
        Outline of the sponge; slices are not counted on the coat [-]
    slice_mm : tuple of (float, float)
        Width and length of a slice, either first [mm]
    cut : str
        One of `CUTS` [-]

    Returns
    -------
    CutPlan
        Count, pieces and knife lines [-]

    Raises
    ------
    ValueError
        The cut is not known, rings are wanted of anything but a round, or the slice has no size.

    Range: any outline and slice; nothing fits when the slice is larger than the top. Leaves out: the height of the slice, and
    the knife's own width.

    Example
    -------
    >>> plan = cut_plan(outline("round", 203.2), (25.4, 50.8))
    >>> plan.cut, plan.count, plan.area_bound
    ('rings', 24, 25)
    >>> cut_plan(outline("square", 203.2), (25.4, 50.8)).count
    32

    Source: common-practice, geometry
    """
    if cut not in CUTS:
        raise ValueError(f"a cut is one of {', '.join(CUTS)}, not {cut!r}")
    short, long = _slice(slice_mm)
    if cut == "rings" and not isinstance(shape, Round):
        raise ValueError("rings are cut on a round")
    names = [cut] if cut != "best" else [n for n in _MAKERS if n != "rings" or isinstance(shape, Round)]
    best: _Layout | None = None
    alike, scale = _alike(shape)
    # a grid that cannot win is not laid; on other tops it mostly wins, or is counted as soon as bounded
    if (
        cut == "best"
        and shape.kind in ("hexagon", "oval", "heart", "petal")
        and _grid_bound(alike, short * scale, long * scale) < _layout("strips", alike, short * scale, long * scale).count
    ):
        names.remove("grid")
    for name in names:
        if best is not None and name == "wedges" and _wedges_bound(alike, short * scale) <= best.count:
            continue
        layout = _layout(name, alike, short * scale, long * scale)
        if best is None or layout.count > best.count:
            best = layout
    assert best is not None
    return CutPlan(shape, (short, long), best.cut, best.count, area_bound(alike, (short * scale, long * scale)), best.scaled(1 / scale))


_ALIKE = 1000.0  # width of the tops on which cuts are counted


@lru_cache(maxsize=512)
def _alike(shape: Outline) -> tuple[Outline, float]:
    """A top of the same figure in a size that is always the same, and the scale to it: what is known of one top then holds for all like it."""
    if shape.kind in TWO_SIZES or shape.coat_mm:
        return shape, 1.0
    return outline(shape.kind, _ALIKE), _ALIKE / shape.width_mm


def portion_count(shape: Outline, slice_mm: tuple[float, float] = (25.0, 50.0), cut: str = "best") -> int:
    """Give how many whole slices a top gives; see `cut_plan`.

    Formula: as `cut_plan`.

    Parameters
    ----------
    shape : Outline
        Outline of the sponge [-]
    slice_mm : tuple of (float, float)
        Width and length of a slice [mm]
    cut : str
        One of `CUTS` [-]

    Returns
    -------
    int
        Whole slices [-]

    Raises
    ------
    ValueError
        As `cut_plan`.

    Range: as `cut_plan`. Leaves out: as `cut_plan`.

    Example
    -------
    >>> [portion_count(outline("round", 25.4 * d), (25.4, 50.8)) for d in (6, 8, 10, 12)]
    [13, 24, 38, 55]

    Source: common-practice, geometry
    """
    return cut_plan(shape, slice_mm, cut).count


def whole_slices_in_row(shape: Outline, low_mm: float, high_mm: float, along_mm: float) -> int:
    """Give how many whole slices lie side by side in one row, wherever along the row they start.

    Formula: the sum over the clear stretches of the row of the whole number in stretch / slice.

    Parameters
    ----------
    shape : Outline
        Outline of the sponge [-]
    low_mm : float
        Where the row begins, y from the middle [mm]
    high_mm : float
        Where the row ends [mm]
    along_mm : float
        Size of a slice along the row [mm]

    Returns
    -------
    int
        Whole slices [-]

    Raises
    ------
    ValueError
        The row or the slice has no size.

    Range: any row; one that leaves the top holds none. Leaves out: pieces with rounded ends.

    Example
    -------
    >>> whole_slices_in_row(outline("square", 200), 50, 100, 25)
    8

    Source: oeis-a372847, oeis-a125228
    """
    if not low_mm < high_mm or not along_mm > 0:
        raise ValueError("a row and a slice have sizes above nothing")
    return sum(_whole((b - a) / along_mm) for a, b in _profile(shape, False).clear(low_mm, high_mm))


# --- grid --------------------------------------------------------------------------------------------------------------


def grid_count(shape: Outline, across_mm: float, deep_mm: float, middle_across: bool = False, middle_deep: bool = False) -> int:
    """Count whole slices on one grid centred on the top.

    Formula: in each row, the whole columns inside the clear stretches of the row.

    Parameters
    ----------
    shape : Outline
        Outline of the sponge [-]
    across_mm : float
        Size of a slice left to right [mm]
    deep_mm : float
        Size of a slice front to back [mm]
    middle_across : bool
        Whether a column, not a cut, lies on the middle [-]
    middle_deep : bool
        Whether a row, not a cut, lies on the middle [-]

    Returns
    -------
    int
        Whole slices [-]

    Raises
    ------
    ValueError
        The slice has no size.

    Range: any outline. Leaves out: grids that are not centred, and turned ones.

    Example
    -------
    >>> grid_count(outline("round", 8), 1, 1)
    32

    Source: oeis-a261849, oeis-a119677, oeis-a136485
    """
    return sum(last - first for _, first, last in _grid_rows(shape, across_mm, deep_mm, middle_across, middle_deep))


def _grid_rows(shape: Outline, across: float, deep: float, middle_across: bool, middle_deep: bool) -> list[tuple[int, int, int]]:
    """Row number, first column and the column after the last, for every clear stretch of every row."""
    if not (across > 0 and deep > 0):
        raise ValueError("a slice has a width and a length above nothing")
    x_off = across / 2 * middle_across
    found = []
    for row, a, b in _clear_rows(shape, deep, middle_deep):
        first = math.ceil((a - x_off) / across - FIT * 10)
        last = math.floor((b - x_off) / across + FIT * 10)
        if last > first:
            found.append((row, first, last))
    return found


@lru_cache(maxsize=64)
def _clear_rows(shape: Outline, deep: float, middle_deep: bool) -> tuple[tuple[int, float, float], ...]:
    """Row number, and from where to where the row is cake, for every clear stretch of every row; the same wherever the columns lie."""
    profile = _profile(shape, False)
    y_off = deep / 2 * middle_deep
    rows = range(math.ceil((profile.bottom - y_off) / deep - FIT), math.floor((profile.top - y_off) / deep + FIT))
    if not shape.convex:
        clear: dict[int, tuple[tuple[float, float], ...]] = {}
        for row in rows:
            mirrored = clear.get(-1 - row - middle_deep) if _same_from_the_front(shape) else None
            low = y_off + row * deep
            clear[row] = profile.clear(low, low + deep) if mirrored is None else mirrored
        return tuple((row, a, b) for row in rows for a, b in clear[row])
    # without notches a row is clear between the chords along its two edges
    chords = [profile.chord(y_off + row * deep) for row in range(rows.start, rows.stop + 1)]
    return tuple(
        (row, max(left, next_left), min(right, next_right))
        for row, (left, right), (next_left, next_right) in zip(rows, chords, chords[1:], strict=False)
    )


def _same_from_the_side(shape: Outline) -> bool:
    return shape.kind in ("round", "square", "petal")


def _same_from_the_front(shape: Outline) -> bool:
    return shape.kind != "heart"


def _grid(shape: Outline, short: float, long: float) -> _Layout:
    best = _Layout("grid", -1)
    # on a top that looks the same from its side, turning the slice only swaps the two middles
    ways = ((short, long),) if short == long or _same_from_the_side(shape) else ((short, long), (long, short))
    for across, deep in ways:
        for middle_deep in (False, True):
            for middle_across in (False, True):
                count = grid_count(shape, across, deep, middle_across, middle_deep)
                if count > best.count:
                    best = _Layout("grid", count, False, (across / 2 * middle_across, deep / 2 * middle_deep), (across, deep))
    return best


def _grid_bound(shape: Outline, short: float, long: float) -> int:
    """The most that a grid could give: no row holds more than is cake along either of its edges, or along a notch in it."""
    profile = _profile(shape, False)
    mirrored = _same_from_the_front(shape)
    best = 0
    for across, deep in {(short, long), (long, short)}:
        for start in (0.0, deep / 2):
            first = -(start > 0) if mirrored else math.ceil((profile.bottom - start) / deep - FIT)
            rows = range(first, math.floor((profile.top - start) / deep + FIT) + 1)
            along = [math.floor(profile.along(start + row * deep) / across + FIT * 20) for row in rows]
            fits = list(map(min, along, along[1:]))
            for y, wide in zip(profile.notches, profile.along_notches, strict=True):
                row = math.floor((y - start) / deep) - first
                if 0 <= row < len(fits):
                    fits[row] = min(fits[row], math.floor(wide / across + FIT * 20))
            if mirrored:
                fits += fits[1:] if start else fits
            best = max(best, sum(fits))
    return best


def _draw_grid(shape: Outline, layout: _Layout) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
    across, deep = layout.sizes_mm
    x_off, y_off = layout.offsets_mm
    rows = _grid_rows(shape, across, deep, x_off > 0, y_off > 0)
    pieces: list[Polygon] = []
    level: dict[int, list[float]] = {}
    upright: dict[int, list[float]] = {}
    for row, first, last in rows:
        y = y_off + row * deep
        for column in range(first, last):
            x = x_off + column * across
            pieces.append(((x, y), (x + across, y), (x + across, y + deep), (x, y + deep)))
        for edge in (row, row + 1):
            level.setdefault(edge, []).extend((x_off + first * across, x_off + last * across))
        for edge in range(first, last + 1):
            upright.setdefault(edge, []).extend((y, y + deep))
    if not pieces:
        return (), ()
    flat = tuple(((min(xs), y_off + k * deep), (max(xs), y_off + k * deep)) for k, xs in sorted(level.items()))
    tall = tuple(((x_off + k * across, min(ys)), (x_off + k * across, max(ys))) for k, ys in sorted(upright.items()))
    start = "the first through the middle" if y_off == 0 else "the first two to either side of the middle"
    return tuple(pieces), (
        Cut(flat, "Cut straight lines from left to right, {0} apart, " + start, (deep,)),
        Cut(tall, "Cut across them from front to back, {0} apart", (across,)),
    )


# --- strips ------------------------------------------------------------------------------------------------------------


def _strip_edges(bottom: float, top: float, long: float, short: float) -> list[list[tuple[float, float]]]:
    """The ways to lay strips: a cut through the middle, a strip on the middle, or flush with one edge."""
    ways: list[list[tuple[float, float]]] = []
    middle = (bottom + top) / 2
    slack = FIT * (top - bottom)
    for start in (middle, middle - long / 2, bottom):
        first = math.ceil((bottom - start) / long - FIT)
        last = math.floor((top - start) / long + FIT)
        edges = [start + long * k for k in range(first, last + 1)]
        strips = list(zip(edges, edges[1:], strict=False))
        if not edges:
            edges = [start]
        if edges[0] - bottom >= short - slack:
            strips.insert(0, (bottom, edges[0]))
        if top - edges[-1] >= short - slack:
            strips.append((edges[-1], top))
        if not any(_same(strips, way) for way in ways):
            ways.append(strips)
    return ways


def _same(first: Sequence[tuple[float, float]], second: Sequence[tuple[float, float]]) -> bool:
    return len(first) == len(second) and all(abs(a - c) + abs(b - d) < 1e-6 for (a, b), (c, d) in zip(first, second, strict=True))


def _strips(shape: Outline, short: float, long: float) -> _Layout:
    piece = short * long
    ways: list[tuple[int, int, bool, list[tuple[float, float]], list[float], list[int]]] = []
    for turned in (False,) if _same_from_the_side(shape) else (False, True):
        profile = _profile(shape, turned)
        for strips in _strip_edges(profile.bottom, profile.top, long, short):
            areas = profile.areas(strips)
            bounds = [_whole(area / piece) for area in areas]
            ways.append((-sum(bounds), len(ways), turned, strips, areas, bounds))
    # the way that promises most first, so that few others need to be cut; of equals the first way is taken
    best, taken = _Layout("strips", -1), -1
    for promised, way, turned, strips, areas, bounds in sorted(ways):
        if (-promised, -way) < (best.count, -taken):
            continue
        counts = bounds if shape.convex else _strip_counts(shape, turned, strips, areas, bounds, short, long, best.count + (way > taken))
        if (sum(counts), -way) > (best.count, -taken):
            parts = tuple((low, high, n) for (low, high), n in zip(strips, counts, strict=True))
            best, taken = _Layout("strips", sum(counts), turned, parts=parts, sizes_mm=(short, long)), way
    return best


def _strip_counts(
    shape: Outline,
    turned: bool,
    strips: Sequence[tuple[float, float]],
    areas: Sequence[float],
    bounds: Sequence[int],
    short: float,
    long: float,
    least: int,
) -> list[int]:
    """The pieces of each strip of a top with notches; none at all once they cannot come to `least` any more."""
    counts: list[int] = []
    known: dict[tuple[float, float], int] = {}
    mirrored = turned or _same_from_the_front(shape)  # the strips beyond the middle are those before it, seen in a mirror
    profile = _profile(shape, turned)
    piece = short * long
    hope = sum(bounds)
    for (low, high), area, bound in zip(strips, areas, bounds, strict=True):
        count = known.get((round(-high, 6), round(-low, 6))) if mirrored else None
        if count is None and profile.is_plain(low, high) and _whole((area - profile.lost) / piece) == bound:
            count = bound
        if count is None:
            count = _notched_count(shape, turned, low, high, piece, short / 2)
        known[round(low, 6), round(high, 6)] = count
        counts.append(count)
        hope += count - bound
        if hope < least:
            return [0] * len(strips)
    return counts


FINE, FINE_WITH_NOTCHES = 288, 160  # points of the rounded parts of an outline that is cut as a polygon


@lru_cache(maxsize=256)
def _fine(shape: Outline, turned: bool) -> Polygon:
    """The outline as a fine polygon, looked at from the left when turned."""
    polygon = shape.points(FINE if shape.convex else FINE_WITH_NOTCHES)
    return tuple((y, -x) for x, y in polygon) if turned else polygon


def _lost_mm2(shape: Outline) -> float:
    """More than what the fine polygon of an outline with notches has less than the outline itself."""
    arcs = [piece for piece in shape.pieces if isinstance(piece, Arc)]
    step = math.fsum(arc.length_mm for arc in arcs) / FINE_WITH_NOTCHES
    # each step cuts off a segment of a circle: r^2 (t - sin t) / 2 < r^2 t^3 / 12, and t is at most step / r
    return math.fsum(math.ceil(arc.length_mm / step) * step**3 / arc.radius / 12 for arc in arcs)


def _notched_count(shape: Outline, turned: bool, low: float, high: float, piece: float, neck: float) -> int:
    """How many pieces a strip of a top with notches gives: what `_strip_cuts` cuts, counted without cutting."""
    found = 0
    for sweep in _sweeps(_stretches(shape, turned), low, high):
        stops = [0, *sweep.necks_at(neck), len(sweep.xs) - 1]
        for part in [sweep] if len(stops) == 2 else map(sweep.between, stops, stops[1:]):
            count = _whole(part.area / piece)
            if count >= 1:
                found += part.pieces(count, piece, neck)
    return found


def _sweeps(polygon: tuple[_Stretch, ...], low: float, high: float) -> list[_Sweep]:
    """The sweeps over the parts of a polygon between two lines across y; `_strip_of` has the parts themselves."""
    bottom, top = low + 1e-10, high - 1e-10
    before = polygon[-1].points[-1]
    was = 2 if before[1] >= top else 0 if before[1] <= bottom else 1
    begins_inside = was == 1
    chains: list[list[_Event]] = [[]] if begins_inside else []  # stretches of the side within the strip
    begin: list[tuple[float, float, _Edge]] = []  # of each: x, on which line, and the edge that crosses it there
    end: list[tuple[float, float, _Edge]] = []
    for points, least, most, events, edges in polygon:
        if (was == 2 and least >= top) or (was == 0 and most <= bottom):
            before = points[-1]
            continue
        if was == 1 and least > bottom and most < top:
            chains[-1] += events
            before = points[-1]
            continue
        for point, event, edge in zip(points, events, edges, strict=True):
            now = 2 if point[1] >= top else 0 if point[1] <= bottom else 1
            if now != was:
                if was != 1:
                    line = high if was else low
                    begin.append((_cross(before, point, 1, line)[0], line, edge))
                    chains.append([])
                if now != 1:
                    line = high if now else low
                    end.append((_cross(before, point, 1, line)[0], line, edge))
            if now == 1:
                chains[-1].append(event)
            before, was = point, now
    if begins_inside and end:  # the first stretch is the end of the last one
        chains[-1] += chains.pop(0)
        end.append(end.pop(0))
    after = list(range(len(chains)))
    for line in (low, high):
        ends = sorted([(x, k, 0) for k, (x, on, _) in enumerate(begin) if on == line] + [(x, k, 1) for k, (x, on, _) in enumerate(end) if on == line])
        for (x0, k, is_end), (x1, j, _) in zip(ends[::2], ends[1::2], strict=True):
            # along the line from where one stretch ends to where another begins
            (start, last), (stop, first), way = ((x0, k), (x1, j), 1) if is_end else ((x1, j), (x0, k), -1)
            if x1 - x0 < 1e-12:
                way = 0
            m, c, to = end[last][2]
            chains[last].append((start, m, c - line * abs(way), way - to))
            m, c, on = begin[first][2]
            chains[first].append((stop, -m, line * abs(way) - c, on - way))
            after[last] = first
    found = []
    left = set(range(len(chains)))
    while left:
        k = min(left)
        events_of: list[_Event] = []
        while k in left:
            left.discard(k)
            events_of += chains[k]
            k = after[k]
        found.append(_Sweep(events_of))
    return found


class _Stretch(NamedTuple):
    """Some points of a polygon, one after the other, between which y they lie, and for each what changes there and the edge to it."""

    points: Polygon
    least: float
    most: float
    events: tuple[_Event, ...]
    edges: tuple[_Edge, ...]


@lru_cache(maxsize=256)
def _stretches(shape: Outline, turned: bool) -> tuple[_Stretch, ...]:
    """The fine polygon in short stretches, so that those far from a strip are passed over at once, and those wholly in it taken at once."""
    polygon = _fine(shape, turned)
    edges = [] if shape.convex else _edges(polygon)  # what is convex is counted by its area
    events = _events(polygon, edges) if edges else []
    found = []
    for i in range(0, len(polygon), 8):
        part = polygon[i : i + 8]
        to = (edges[i - 1], *edges[i : i + len(part) - 1]) if edges else ()
        found.append(_Stretch(part, min(y for _, y in part), max(y for _, y in part), tuple(events[i : i + 8]), to))
    return tuple(found)


@lru_cache(maxsize=1024)
def _strip_cuts(
    shape: Outline, turned: bool, low: float, high: float, piece: float, neck: float, wanted: int | None
) -> tuple[tuple[Polygon, tuple[float, ...]], ...]:
    """The parts a strip falls into, each with the x of its cuts: equal pieces where the side allows, else one after another."""
    found = []
    parts = _strip_of(_stretches(shape, turned), low, high)
    sweeps = [_swept(part) for part in parts]
    if not shape.convex:  # where a notch leaves only a neck, the strip falls in two there
        necks = sorted({x for sweep in sweeps for x in sweep.necks(neck)})
        for x in necks:
            parts = _clip(parts, 0, x, False) + _clip(parts, 0, x, True)
        if necks:
            sweeps = [_swept(part) for part in parts]
    for part, sweep in zip(parts, sweeps, strict=True):
        count = wanted if wanted is not None else _whole(sweep.area / piece)
        if count >= 1:
            found.append((part, sweep.cuts(count, piece, neck)))
    return tuple(found)


_Edge = tuple[float, float, int]  # slope and constant of the line it lies on, and whether it runs to the right, to the left or straight up
_Event = tuple[float, float, float, int]  # x, what changes there in slope and constant of the height, and in the number of edges crossed


def _edges(polygon: Polygon) -> list[_Edge]:
    """The edges of a polygon, each from its point to the next."""
    return [
        ((y1 - y0) / (x1 - x0), y0 - (y1 - y0) / (x1 - x0) * x0, 1 if x1 > x0 else -1) if abs(x1 - x0) >= 1e-12 else _UPRIGHT
        for (x0, y0), (x1, y1) in zip(polygon, polygon[1:] + polygon[:1], strict=True)
    ]


_UPRIGHT: _Edge = (0.0, 0.0, 0)


def _events(polygon: Polygon, edges: Sequence[_Edge]) -> list[_Event]:
    """What changes at each point of a polygon for an upright line that goes over it from the left."""
    return [
        (x, m0 - m1, c0 - c1, way1 - way0) for (x, _), (m0, c0, way0), (m1, c1, way1) in zip(polygon, [edges[-1], *edges[:-1]], edges, strict=True)
    ]


def _swept(polygon: Polygon) -> _Sweep:
    return _Sweep(_events(polygon, _edges(polygon)))


class _Sweep:
    """Area of a polygon to the left of an upright line, and how often that line crosses it."""

    def __init__(self, events: list[_Event]) -> None:
        events.sort()
        xs: list[float] = []
        areas: list[float] = []
        heights: list[tuple[float, float]] = []  # slope and constant of the height after each x
        crossed: list[int] = []
        m = c = total = 0.0
        count = 0
        last = -math.inf
        for x, dm, dc, more in events:
            if x > last + 1e-9:
                if xs:
                    heights.append((m, c))
                    crossed.append(count)
                    total += (m * (x + last) / 2 + c) * (x - last)
                xs.append(x)
                areas.append(total)
                last = x
            m += dm
            c += dc
            count += more
        heights.append((m, c))
        crossed.append(count)
        self.xs, self.areas, self.heights, self.crossed, self.area = xs, areas, heights, crossed, total

    def x_at(self, area: float) -> float:
        """Where this much area lies to the left."""
        i = max(0, min(len(self.areas) - 2, bisect_left(self.areas, area) - 1))
        m, c = self.heights[i]
        height = max(0.0, m * self.xs[i] + c)
        more = max(0.0, area - self.areas[i])
        root = math.sqrt(max(0.0, height * height + 2 * m * more))
        step = 2 * more / (height + root) if height + root > 0 else 0.0
        return min(self.xs[i] + step, self.xs[i + 1])

    def area_at(self, x: float) -> float:
        """Area to the left of an x."""
        i = max(0, min(len(self.xs) - 2, bisect_right(self.xs, x) - 1))
        m, c = self.heights[i]
        return self.areas[i] + (m * (x + self.xs[i]) / 2 + c) * (x - self.xs[i])

    def necks(self, neck: float) -> list[float]:
        """Where the polygon is narrower than a neck, and a third wider again on both sides of it."""
        return [self.xs[i] for i in self.necks_at(neck)]

    def necks_at(self, neck: float) -> list[int]:
        """The same by their places in the list of all x."""
        high = [m * x + c for x, (m, c) in zip(self.xs, self.heights, strict=True)]
        return [
            i
            for i in range(1, len(high) - 1)
            if high[i] < neck
            and self.crossed[i] == 2
            and high[i - 1] >= high[i] <= high[i + 1]
            and 3 * min(max(high[:i]), max(high[i + 1 :])) > 4 * high[i]
        ]

    def between(self, first: int, last: int) -> _Sweep:
        """What lies between two of the x, by their places."""
        part = _Sweep.__new__(_Sweep)
        part.xs, before = self.xs[first : last + 1], self.areas[first]
        part.areas = [area - before for area in self.areas[first : last + 1]]
        part.heights = [*self.heights[first:last], (0.0, 0.0)]
        part.crossed = [*self.crossed[first:last], 0]
        part.area = part.areas[-1]
        return part

    def clean(self, neck: float) -> list[tuple[float, float]]:
        """Where a cut parts the polygon in two pieces that each hang together by more than a neck."""
        found: list[tuple[float, float]] = []
        for i in range(len(self.xs) - 1):
            if self.crossed[i] != 2:
                continue
            low = self.xs[i] + (neck if i > 0 and self.crossed[i - 1] > 2 else 0.0)
            high = self.xs[i + 1] - (neck if self.crossed[i + 1] > 2 else 0.0)
            if found and i > 0 and self.crossed[i - 1] == 2:
                found[-1] = (found[-1][0], high)
            else:
                found.append((low, high))
        return [(low, high) for low, high in found if high > low]

    def cuts(self, count: int, piece: float, neck: float) -> tuple[float, ...]:
        """Where to cut so that every piece hangs together: equal pieces if that does it, else one after another."""
        if self.is_even(count, neck):
            return tuple(self.x_at(self.area * k / count) for k in range(1, count))
        return self._uneven(piece, neck)

    def pieces(self, count: int, piece: float, neck: float) -> int:
        """How many pieces that makes."""
        return count if self.is_even(count, neck) else len(self._uneven(piece, neck)) + 1

    def is_even(self, count: int, neck: float) -> bool:
        """Whether equal pieces all hang together."""
        if max(self.crossed) == 2:
            return True
        spans = [(self.area_at(low), self.area_at(high)) for low, high in self.clean(neck)]
        return all(any(low <= self.area * k / count <= high for low, high in spans) for k in range(1, count))

    def _uneven(self, piece: float, neck: float) -> tuple[float, ...]:
        """Where to cut one piece after another, each where it hangs together."""
        clean = self.clean(neck)
        found: list[float] = []
        done = 0.0
        while done + 2 * piece <= self.area * (1 + FIT):
            x = self.x_at(done + piece)
            later = [max(low, x) for low, high in clean if high >= x]
            if not later or self.area - self.area_at(later[0]) < piece * (1 - FIT):
                break
            found.append(later[0])
            done = self.area_at(later[0])
        return tuple(found)


def _clip(polygons: Iterable[Polygon], axis: int, limit: float, above: bool) -> list[Polygon]:
    """Keep what lies above (or below) a line across x (axis 0) or y (axis 1); parts that fall asunder are given apart."""
    found: list[Polygon] = []
    for polygon in polygons:
        found += _clip_one(polygon, axis, limit, above)
    return found


def _clip_one(polygon: Polygon, axis: int, limit: float, above: bool) -> list[Polygon]:
    # a point on the line counts as on the side that is thrown away, so that a polygon that only touches it stays whole
    edge = limit + 1e-10 if above else limit - 1e-10
    inside = [p[axis] > edge for p in polygon] if above else [p[axis] < edge for p in polygon]
    n, kept = len(polygon), inside.count(True)
    if kept == n:
        return [polygon]
    if kept == 0:
        return []
    start = inside.index(True)
    if start == 0 and inside[-1]:
        start = n - inside[::-1].index(False)  # the stretch that runs over the end of the list begins after its last gap
    chains: list[list[Point]] = []
    before, was = polygon[start - 1], False
    for k in range(start, start + n):
        i = k if k < n else k - n
        point, now = polygon[i], inside[i]
        if now:
            if not was:
                chains.append([_cross(before, point, axis, limit)])
            chains[-1].append(point)
        elif was:
            chains[-1].append(_cross(before, point, axis, limit))
        before, was = point, now
    if was:
        chains[-1].append(_cross(before, polygon[start - 1], axis, limit))
    return _rings_of(chains, axis, (limit,))


def _strip_of(polygon: tuple[_Stretch, ...], low: float, high: float) -> list[Polygon]:
    """Keep what lies between two lines across y, in one go; parts that fall asunder are given apart."""
    bottom, top = low + 1e-10, high - 1e-10
    before = polygon[-1].points[-1]
    was = 2 if before[1] >= top else 0 if before[1] <= bottom else 1
    begins_inside = was == 1
    chains: list[list[Point]] = [[]] if begins_inside else []
    for points, least, most, _, _ in polygon:
        if (least >= top and was == 2) or (most <= bottom and was == 0):
            before = points[-1]  # all of them are out of the strip, on the side of the one before
            continue
        for point in points:
            now = 2 if point[1] >= top else 0 if point[1] <= bottom else 1
            if now != was:
                if was != 1:
                    chains.append([_cross(before, point, 1, high if was else low)])
                if now != 1:
                    chains[-1].append(_cross(before, point, 1, high if now else low))
            if now == 1:
                chains[-1].append(point)
            before, was = point, now
    if begins_inside:
        if len(chains) == 1:
            return [tuple(chains[0])]
        chains[-1] += chains.pop(0)
    return _rings_of(chains, 1, (low, high))


def _rings_of(chains: Sequence[list[Point]], axis: int, lines: Sequence[float]) -> list[Polygon]:
    """Join chains whose ends stand on one or two lines, each end with its neighbour on the line."""
    if len(chains) == 1:
        return [_joined(chains)]
    other = 1 - axis
    partner: dict[tuple[int, int], int] = {}
    for line in lines:
        ends = sorted(
            [(chain[0][other], k, 0) for k, chain in enumerate(chains) if chain[0][axis] == line]
            + [(chain[-1][other], k, 1) for k, chain in enumerate(chains) if chain[-1][axis] == line]
        )
        for (_, k, end), (_, j, close) in zip(ends[::2], ends[1::2], strict=True):
            partner[(k, end)], partner[(j, close)] = j, k
    found: list[Polygon] = []
    left = set(range(len(chains)))
    while left:
        k = min(left)
        ring: list[list[Point]] = []
        while k in left:
            left.discard(k)
            ring.append(chains[k])
            k = partner[(k, 1)]
        found.append(_joined(ring))
    return found


def _joined(chains: Sequence[list[Point]]) -> Polygon:
    """Chains as one polygon, without an end that stands on the beginning of the next, as where a corner touches the line."""
    points: list[Point] = []
    for chain in chains:
        points += chain[1:] if points and math.dist(points[-1], chain[0]) < 1e-9 else chain
    if math.dist(points[-1], points[0]) < 1e-9:
        points.pop()
    return tuple(points)


def _cross(a: Point, b: Point, axis: int, limit: float) -> Point:
    if b[axis] == a[axis]:
        return a
    part = max(0.0, min(1.0, (limit - a[axis]) / (b[axis] - a[axis])))
    other = a[1 - axis] + part * (b[1 - axis] - a[1 - axis])
    return (limit, other) if axis == 0 else (other, limit)


def _polygon_area(polygon: Polygon) -> float:
    return math.fsum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(polygon, polygon[1:] + polygon[:1], strict=True)) / 2


def _back(points: Iterable[Point], turned: bool, scale: float) -> Polygon:
    """From the view in which strips are cut, turned or not and so many times as large, to the plan."""
    return tuple([(-y / scale, x / scale) if turned else (x / scale, y / scale) for x, y in points])


def _draw_strips(shape: Outline, slice_mm: tuple[float, float]) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
    alike, scale = _alike(shape)
    short, long = slice_mm[0] * scale, slice_mm[1] * scale
    layout = _layout("strips", alike, short, long)
    turned = layout.turned
    polygon = _stretches(alike, turned)
    profile = _profile(alike, turned)
    slack = 1e-6 * (profile.top - profile.bottom)  # no knife goes along the edge itself
    edges = sorted({round(y, 9) for low, high, _ in layout.parts for y in (low, high) if profile.bottom + slack < y < profile.top - slack})
    lines = [_back(((ends[0], y), (ends[1], y)), turned, scale) for y in edges for ends in (_ends_on(polygon, y),) if ends]
    pieces: list[Polygon] = []
    steps: list[Cut] = []
    if lines:
        run = "from front to back" if turned else "from left to right"
        many = "one straight cut" if len(lines) == 1 else f"{len(lines)} straight cuts"
        widths = [high - low for low, high, _ in layout.parts if abs(high - low - long) < 1e-6]
        apart = " {0} apart" if len(widths) > 0 and len(lines) > 1 else ""
        steps.append(Cut(tuple(lines), f"Make {many} {run}{apart}", (slice_mm[1],) if apart else ()))
    side = "left" if turned else "front"
    for number, (low, high, count) in enumerate(layout.parts, start=1):
        if count < 1:
            continue
        parts = sorted(_strip_cuts(alike, turned, low, high, short * long, short / 2, count if alike.convex else None), key=lambda cut: min(cut[0]))
        across: list[Polygon] = []
        for part, xs in parts:
            cut, ends = _upright_cuts(part, xs)
            pieces += [_back(piece, turned, scale) for piece in cut]
            across += [_back(line, turned, scale) for line in ends]
        name = "the cake" if len(layout.parts) == 1 else f"strip {number} from the {side}"
        if count == 1:
            steps.append(Cut((), f"Leave {name} whole: one piece"))
        else:
            even = "equal pieces" if shape.convex or len(parts) == 1 else "pieces"
            steps.append(Cut(tuple(across), f"Cut {name} across into {count} {even}"))
    return tuple(pieces), tuple(steps)


def _ends_on(polygon: tuple[_Stretch, ...], y: float) -> tuple[float, float] | None:
    """Where a line across a polygon enters it first and leaves it last; nothing where the polygon only touches it."""
    xs: list[float] = []
    before = polygon[-1].points[-1]
    was = before[1] > y + 1e-10
    for points, least, most, _, _ in polygon:
        if (was and least > y + 1e-6) or (not was and most < y - 1e-6):
            before = points[-1]
            continue
        for point in points:
            now = point[1] > y + 1e-10
            if now != was:
                xs.append(_cross(before, point, 1, y)[0])
            if now and point[1] < y + 1e-6:
                xs.append(point[0])
            before, was = point, now
    if len(xs) < 2 or min(stretch.least for stretch in polygon) >= y - 1e-10:
        return None
    return min(xs), max(xs)


def _upright_cuts(part: Polygon, xs: Sequence[float]) -> tuple[list[Polygon], list[Polygon]]:
    """A polygon cut from front to back at every x, from the left, each cut meeting its side twice: the pieces, and the cuts."""
    pieces: list[list[Point]] = [[] for _ in range(len(xs) + 1)]
    cuts: list[list[Point]] = [[] for _ in xs]
    before = part[-1]
    was = bisect_right(xs, before[0])  # in which piece the way round the side is
    for point in part:
        now = bisect_right(xs, point[0])
        while was != now:
            step = 1 if now > was else -1
            cut = min(was, was + step)
            at = _cross(before, point, 0, xs[cut])
            cuts[cut].append(at)
            pieces[was].append(at)
            was += step
            pieces[was].append(at)
        pieces[now].append(point)
        before = point
    return list(map(tuple, pieces)), [(min(cut), max(cut)) for cut in cuts]


# --- rings -------------------------------------------------------------------------------------------------------------


def _rings(shape: Outline, short: float, long: float) -> _Layout:
    radius, piece = shape.width_mm / 2, short * long
    parts: list[tuple[float, float, int]] = []
    outer = radius
    while outer > FIT * radius:
        inner = outer - long
        if inner < FIT * radius:
            inner = 0.0
        count = _whole(math.pi * (outer - inner) * (outer + inner) / piece)
        if count:
            parts.append((inner, outer, count))
        outer = inner
    return _Layout("rings", sum(n for _, _, n in parts), parts=tuple(parts), sizes_mm=(short, long))


def _circle(radius: float, start: float, sweep: float, steps: int) -> list[Point]:
    return [(radius * math.cos(start + sweep * k / steps), radius * math.sin(start + sweep * k / steps)) for k in range(steps + 1)]


def _draw_rings(shape: Outline, layout: _Layout) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
    pieces: list[Polygon] = []
    steps: list[Cut] = []
    back = math.pi / 2
    for number, (inner, outer, count) in enumerate(layout.parts):
        if inner > 0:
            where = "from the edge" if number == 0 else "further in"
            steps.append(Cut((tuple(_circle(inner, back, 2 * math.pi, 96)),), "Cut a circle {0} " + where + ", straight down", (outer - inner,)))
        sweep = 2 * math.pi / count
        arc = max(2, math.ceil(240 / count))
        spokes = []
        for k in range(count):
            start = back + k * sweep
            rim = _circle(outer, start, sweep, arc)
            if count == 1:
                pieces.append(tuple(_circle(outer, start, 2 * math.pi, 240)[:-1]))
                break
            pieces.append((*rim, *reversed(_circle(inner, start, sweep, arc))) if inner > 0 else (*rim, (0.0, 0.0)))
            spokes.append((_circle(inner, start, 0.0, 1)[0], rim[0]))
        if inner > 0:
            steps.append(Cut(tuple(spokes), f"Cut the ring outside it into {count} equal pieces, " + "{0} along the edge", (outer * sweep,)))
        elif count == 1:
            steps.append(Cut((), "Keep the cake whole: one piece" if number == 0 else "Keep the core whole: one piece"))
        else:
            what = "the cake" if number == 0 else "the core"
            steps.append(Cut(tuple(spokes), f"Cut {what} into {count} equal wedges"))
    return tuple(pieces), tuple(steps)


# --- wedges ------------------------------------------------------------------------------------------------------------


@lru_cache(maxsize=256)
def _middle(shape: Outline) -> Point:
    """Where wedges meet: the middle of the area of a heart, the middle of any other outline."""
    if shape.kind != "heart":
        return 0.0, 0.0
    profile = _profile(shape, False)
    steps = 64
    depth = (profile.top - profile.bottom) / steps
    moment = math.fsum(
        profile.area(profile.bottom + k * depth, profile.bottom + (k + 1) * depth) * (profile.bottom + (k + 0.5) * depth) for k in range(steps)
    )
    return 0.0, moment / shape.area_mm2


def _wedges(shape: Outline, short: float, long: float) -> _Layout:
    cx, cy = _middle(shape)
    if isinstance(shape, Round | Oval):
        reach = max(shape.width_mm, shape.length_mm) / 2
    else:
        reach = max(math.hypot(x - cx, y - cy) for x, y in shape.points(96))
    area = shape.area_mm2
    count = min(_whole(area / (short * long)), _whole(area / (reach * short)))
    return _Layout("wedges", count, offsets_mm=(cx, cy), sizes_mm=(short, long))


def _wedges_bound(shape: Outline, short: float) -> int:
    """The most that wedges could give: wherever they meet, some reach at least half way across."""
    profile = _profile(shape, False)
    return _whole(shape.area_mm2 / ((profile.top - profile.bottom) / 2 * short))


_MAKERS = {"grid": _grid, "strips": _strips, "rings": _rings, "wedges": _wedges}


@lru_cache(maxsize=2048)
def _layout(cut: str, shape: Outline, short: float, long: float) -> _Layout:
    """One cut of a top; the best of all and each by itself ask for the same."""
    return _MAKERS[cut](shape, short, long)


def _draw_wedges(shape: Outline, layout: _Layout) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
    count = layout.count
    if count < 1:
        return (), ()
    cx, cy = middle = layout.offsets_mm
    rim = shape.points(288)
    if count == 1:
        return (rim,), (Cut((), "Keep the cake whole: one piece"),)
    swept = [0.0]
    for (x0, y0), (x1, y1) in zip(rim, rim[1:] + rim[:1], strict=True):
        swept.append(swept[-1] + ((x0 - cx) * (y1 - cy) - (x1 - cx) * (y0 - cy)) / 2)
    stops: list[tuple[int, Point]] = []
    for k in range(count):
        target = swept[-1] * k / count
        i = max(0, min(len(rim) - 1, bisect_left(swept, target) - 1))
        part = (target - swept[i]) / (swept[i + 1] - swept[i])
        (x0, y0), (x1, y1) = rim[i], rim[(i + 1) % len(rim)]
        stops.append((i, (x0 + part * (x1 - x0), y0 + part * (y1 - y0))))
    pieces: list[Polygon] = []
    for k, (i, start) in enumerate(stops):
        j, end = stops[(k + 1) % count]
        if k + 1 == count:
            j += len(rim)
        between = [rim[n % len(rim)] for n in range(i + 1, j + 1)]
        pieces.append((start, *(p for p in between if math.dist(p, start) > 1e-9 and math.dist(p, end) > 1e-9), end, middle))
    spokes = tuple((middle, point) for _, point in stops)
    if isinstance(shape, Round) and count % 2 == 0:
        lines = tuple((stops[k][1], stops[k + count // 2][1]) for k in range(count // 2))
        words = f"Cut straight across through the middle {count // 2} times, " + "{0} apart at the edge"
        return tuple(pieces), (Cut(lines, words, (shape.perimeter_mm / count,)),)
    words = f"Cut from the middle to the edge {count} times, " + "about {0} apart at the edge, the first to the back"
    return tuple(pieces), (Cut(spokes, words, (shape.perimeter_mm / count,)),)
