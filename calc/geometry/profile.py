"""An outline as curves x(y): chords, areas between horizontal lines, and the spans that a whole strip covers.

`Profile` is built by `segment_profile` (straight lines and arcs), `ellipse_profile` or `polygon_profile`. Each curve has
one x for every y, and is a right curve where the interior lies on its left. Between two neighbouring ends of curves lies a
slab, crossed by the same curves throughout.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from calc.geometry.polygons import Polygon
from calc.geometry.segments import Arc, Segment, Straight

SLACK = 1e-9  # tolerance, as a share of the height of the outline


class Line(NamedTuple):
    """A straight curve from (x_low, low) up to (x_high, high)."""

    low: float
    high: float
    x_low: float
    x_high: float
    right: bool  # whether the interior lies on its left

    def x(self, y: float) -> float:
        """Where it crosses y."""
        return self.x_low + (self.x_high - self.x_low) * (y - self.low) / (self.high - self.low)

    def area(self, y: float) -> float:
        """Area between it and x = 0, from its lower end up to y."""
        return (self.x_low + self.x(y)) / 2 * (y - self.low)

    def span(self, a: float, b: float) -> tuple[float, float]:
        """The least and the greatest x between y = a and y = b."""
        first, last = self.x(a), self.x(b)
        return (first, last) if first < last else (last, first)


class Bow(NamedTuple):
    """Part of the left or right half of a circle or an ellipse; `rx` is negative for the left half."""

    low: float
    high: float
    cx: float
    cy: float
    rx: float
    ry: float
    right: bool

    def x(self, y: float) -> float:
        """Where it crosses y."""
        v = (y - self.cy) / self.ry
        return self.cx + self.rx * math.sqrt(max(0.0, 1 - v * v))

    def area(self, y: float) -> float:
        """Area between it and x = 0, up to y, counted from the height of its centre."""
        v = max(-1.0, min(1.0, (y - self.cy) / self.ry))
        return self.cx * y + self.rx * self.ry * (v * math.sqrt(1 - v * v) + math.asin(v)) / 2

    def span(self, a: float, b: float) -> tuple[float, float]:
        """The least and the greatest x between y = a and y = b."""
        first, last = self.x(a), self.x(b)
        low, high = (first, last) if first < last else (last, first)
        if a < self.cy < b:
            extreme = self.cx + self.rx
            low, high = min(low, extreme), max(high, extreme)
        return low, high


Curve = Line | Bow
Flat = tuple[float, float, float]  # a horizontal piece of the boundary: y, and x from and to


class _Slab(NamedTuple):
    curves: tuple[Curve, ...]  # all that cross it
    begun: tuple[Curve, ...]  # those of them whose lower end is its lower edge
    rights: tuple[Curve, ...]  # those of them that are right curves
    area: float  # area of all slabs below it, less what its own curves give at its lower edge


class Profile:
    """The curves of an outline in slabs from the bottom to the top; `notches` are the y of its inward corners."""

    def __init__(self, curves: Sequence[Curve], flats: Sequence[Flat] = (), notches: Sequence[float] = ()) -> None:
        self.flats = tuple(flats)
        self.ends: list[float] = []
        merged: dict[float, float] = {}  # curves that meet end at the same height, in spite of rounding
        for y in sorted({y for curve in curves for y in (curve.low, curve.high)}):
            if not self.ends or y - self.ends[-1] > 1e-9:
                self.ends.append(y)
            merged[y] = self.ends[-1]
        self.curves: list[Curve] = [curve._replace(low=merged[curve.low], high=merged[curve.high]) for curve in curves]
        crossing: list[list[Curve]] = [[] for _ in self.ends[1:]]
        for curve in self.curves:
            for crossed in crossing[bisect_left(self.ends, curve.low) : bisect_left(self.ends, curve.high)]:
                crossed.append(curve)
        self.slabs: list[_Slab] = []
        total = 0.0
        for low, high, crossed in zip(self.ends, self.ends[1:], crossing, strict=False):
            area = total - _area_inside(crossed, low)
            total = area + _area_inside(crossed, high)
            begun = tuple(curve for curve in crossed if curve.low == low)
            self.slabs.append(_Slab(tuple(crossed), begun, tuple(curve for curve in crossed if curve.right), area))
        self.total_area = total
        self.bottom = min(curve.low for curve in self.curves)
        self.top = max(curve.high for curve in self.curves)
        self.notches = tuple(notches)
        self.widths_at_notches = [self.width_at(y) for y in self.notches]

    def slab_index(self, y: float) -> int:
        """The slab that y lies in; the upper one where it lies between two."""
        return max(0, min(len(self.slabs) - 1, bisect_right(self.ends, y) - 1))

    def area_below(self, y: float) -> float:
        """Area of the outline below a horizontal line [mm2]."""
        if y <= self.bottom:
            return 0.0
        if y >= self.top:
            return self.total_area
        slab = self.slabs[self.slab_index(y)]
        return slab.area + _area_inside(slab.curves, y)

    def width_at(self, y: float) -> float:
        """Length of a horizontal line inside the outline [mm]."""
        slab = self.slabs[self.slab_index(y)]
        if len(slab.curves) == 2:
            left, right = slab.curves
            return abs(right.x(y) - left.x(y))
        return math.fsum([curve.x(y) if curve.right else -curve.x(y) for curve in slab.curves])

    def area(self, low: float, high: float) -> float:
        """Area between two horizontal lines [mm2]."""
        return self.area_below(high) - self.area_below(low)

    def areas(self, strips: Sequence[tuple[float, float]]) -> list[float]:
        """Areas of several strips, many of which share a line [mm2]."""
        below = {y: self.area_below(y) for y in {y for strip in strips for y in strip}}
        return [below[high] - below[low] for low, high in strips]

    def is_plain(self, low: float, high: float) -> bool:
        """Whether a strip is connected and has no notch that a vertical cut could meet."""
        slack = SLACK * (self.top - self.bottom)
        if any(low - slack < y < high + slack for y in self.notches):
            return False
        return len(self.slabs[self.slab_index(low)].rights) < 2 and (high >= self.top or len(self.slabs[self.slab_index(high)].rights) < 2)

    def clear_spans(self, low: float, high: float) -> tuple[tuple[float, float], ...]:
        """The spans of x over which the whole strip from low to high lies inside the outline."""
        slack = SLACK * (self.top - self.bottom)
        if low < self.bottom - slack or high > self.top + slack:
            return ()
        blocked: list[tuple[float, float]] = []
        middle = (low + high) / 2
        first, last = self.slab_index(low), self.slab_index(high)
        for slab in self.slabs[first : last + 1]:
            for curve in slab.curves if slab is self.slabs[first] else slab.begun:
                a, b = max(low, curve.low), min(high, curve.high)
                if b > a:
                    blocked.append(curve.span(a, b))
        crossed = [(curve.x(middle), curve.right) for curve in self.slabs[self.slab_index(middle)].curves]
        blocked += [(x0, x1) for y, x0, x1 in self.flats if low + slack < y < high - slack]
        blocked.sort()
        found = []
        reach = -math.inf
        for x0, x1 in blocked:
            if x0 > reach and reach > -math.inf:
                x = (reach + x0) / 2
                if sum(1 if right else -1 for at, right in crossed if at > x) == 1:
                    found.append((reach, x0))
            reach = max(reach, x1)
        return tuple(found)

    def chord(self, y: float) -> tuple[float, float]:
        """Where a horizontal line enters and leaves a convex outline; the same x twice where it only touches."""
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


def _area_inside(curves: Iterable[Curve], y: float) -> float:
    """Area under the right curves less that under the left ones, each counted from its own zero."""
    return math.fsum([curve.area(y) if curve.right else -curve.area(y) for curve in curves])


def ellipse_profile(rx: float, ry: float) -> Profile:
    """The profile of an ellipse round the origin."""
    return Profile([Bow(-ry, ry, 0.0, 0.0, rx, ry, True), Bow(-ry, ry, 0.0, 0.0, -rx, ry, False)])


def polygon_profile(polygon: Polygon) -> Profile:
    """The profile of a polygon."""
    return segment_profile([Straight(*a, *b) for a, b in zip(polygon, polygon[1:] + polygon[:1], strict=True)])


def segment_profile(segments: Iterable[Segment], notches: Sequence[float] = (), turned: bool = False) -> Profile:
    """The profile of an outline of lines and arcs; `turned` looks at it from its left, so that (x, y) becomes (y, -x)."""
    curves: list[Curve] = []
    flats: list[Flat] = []
    for segment in segments:
        if isinstance(segment, Arc):
            curves += _arc_curves(segment, turned)
            continue
        x0, y0, x1, y1 = segment.x0, segment.y0, segment.x1, segment.y1
        if turned:
            x0, y0, x1, y1 = y0, -x0, y1, -x1
        if abs(y1 - y0) < 1e-12 * (abs(x1 - x0) + abs(y0) + abs(y1)):
            flats.append((y0, min(x0, x1), max(x0, x1)))
        else:
            curves.append(Line(y0, y1, x0, x1, True) if y1 > y0 else Line(y1, y0, x1, x0, False))
    return Profile(curves, flats, notches)


def _arc_curves(arc: Arc, turned: bool) -> list[Curve]:
    """An arc cut where its direction is horizontal, so that each part has one x for every y."""
    cx, cy, start = (arc.cy, -arc.cx, arc.start - math.pi / 2) if turned else (arc.cx, arc.cy, arc.start)
    end = start + arc.sweep
    half = math.pi
    first = math.ceil((start - math.pi / 2) / half - 1e-12)
    stops = [start] + [s for k in range(first, first + 4) if start + 1e-12 < (s := math.pi / 2 + k * half) < end - 1e-12] + [end]
    found: list[Curve] = []
    for a, b in zip(stops, stops[1:], strict=False):
        right = math.cos((a + b) / 2) > 0
        ya, yb = cy + arc.radius * math.sin(a), cy + arc.radius * math.sin(b)
        found.append(Bow(min(ya, yb), max(ya, yb), cx, cy, arc.radius if right else -arc.radius, arc.radius, right))
    return found
