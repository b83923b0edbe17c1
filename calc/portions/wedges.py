"""Wedges: every cut meets in the middle, and all pieces have the same area."""

from __future__ import annotations

import math
from bisect import bisect_left

from calc.geometry.polygons import Point, Polygon
from calc.portions.layout import Cut, Layout, whole_number
from calc.portions.top import centre, top_profile
from calc.shapes import Outline, Oval, Round


def count_wedges(shape: Outline, short: float, long: float) -> Layout:
    """Count equal wedges, each at least as wide on average as the slice is wide."""
    cx, cy = centre(shape)
    if isinstance(shape, Round | Oval):
        reach = max(shape.width_mm, shape.length_mm) / 2
    else:
        reach = max(math.hypot(x - cx, y - cy) for x, y in shape.points(96))
    area = shape.area_mm2
    count = min(whole_number(area / (short * long)), whole_number(area / (reach * short)))
    return Layout("wedges", count, (short, long), offsets_mm=(cx, cy))


def wedges_bound(shape: Outline, short: float) -> int:
    """An upper bound: wherever the wedges meet, some reach at least half way across."""
    profile = top_profile(shape, False)
    return whole_number(shape.area_mm2 / ((profile.top - profile.bottom) / 2 * short))


def draw_wedges(shape: Outline, layout: Layout) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
    """The pieces and the knife's steps of a counted cut by wedges."""
    count = layout.count
    if count < 1:
        return (), ()
    cx, cy = middle = layout.offsets_mm
    rim = shape.points(288)
    if count == 1:
        return (rim,), (Cut((), "Keep the cake whole: one piece"),)
    swept = [0.0]  # twice the area from the first point of the rim up to each
    for (x0, y0), (x1, y1) in zip(rim, rim[1:] + rim[:1], strict=True):
        swept.append(swept[-1] + ((x0 - cx) * (y1 - cy) - (x1 - cx) * (y0 - cy)))
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
