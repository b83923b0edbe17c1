"""Polygons: area, clipping by a line, cutting by vertical lines."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Polygon = tuple[Point, ...]

ON_LINE = 1e-10  # a point this near a cutting line lies on it


def polygon_area(polygon: Polygon) -> float:
    """Give the area of a polygon, negative if its points run clockwise.

    Formula: A = 1/2 sum (x_i y_(i+1) - x_(i+1) y_i), the shoelace formula.

    Parameters
    ----------
    polygon : tuple of (float, float)
        Its points in order, not closed [mm]

    Returns
    -------
    float
        Area [mm2]

    Range: simple polygons of three points or more.

    Example
    -------
    >>> polygon_area(((0, 0), (4, 0), (4, 3)))
    6.0

    Source: geometry (Green's theorem)
    """
    return math.fsum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(polygon, polygon[1:] + polygon[:1], strict=True)) / 2


def crossing(a: Point, b: Point, axis: int, limit: float) -> Point:
    """Where the segment from a to b meets the line x = limit (axis 0) or y = limit (axis 1)."""
    if b[axis] == a[axis]:
        return a
    part = max(0.0, min(1.0, (limit - a[axis]) / (b[axis] - a[axis])))
    other = a[1 - axis] + part * (b[1 - axis] - a[1 - axis])
    return (limit, other) if axis == 0 else (other, limit)


def clip(polygons: Iterable[Polygon], axis: int, limit: float, above: bool) -> list[Polygon]:
    """Keep the side above (or below) the line x = limit (axis 0) or y = limit (axis 1); disconnected parts are returned separately."""
    found: list[Polygon] = []
    for polygon in polygons:
        found += _clip_one(polygon, axis, limit, above)
    return found


def _clip_one(polygon: Polygon, axis: int, limit: float, above: bool) -> list[Polygon]:
    # a point on the line counts as outside, so that a polygon which only touches the line stays whole
    edge = limit + ON_LINE if above else limit - ON_LINE
    inside = [p[axis] > edge for p in polygon] if above else [p[axis] < edge for p in polygon]
    n, kept = len(polygon), inside.count(True)
    if kept == n:
        return [polygon]
    if kept == 0:
        return []
    start = inside.index(True)
    if start == 0 and inside[-1]:
        start = n - inside[::-1].index(False)  # the run that wraps round the end of the list begins after the last gap
    chains: list[list[Point]] = []
    before, was = polygon[start - 1], False
    for k in range(start, start + n):
        i = k if k < n else k - n
        point, now = polygon[i], inside[i]
        if now:
            if not was:
                chains.append([crossing(before, point, axis, limit)])
            chains[-1].append(point)
        elif was:
            chains[-1].append(crossing(before, point, axis, limit))
        before, was = point, now
    return close_chains(chains, axis, (limit,))


def close_chains(chains: Sequence[list[Point]], axis: int, lines: Sequence[float]) -> list[Polygon]:
    """Close chains of points whose ends lie on one or two cutting lines: along each line, neighbouring ends are joined in pairs."""
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
    """Chains as one polygon, dropping an end that coincides with the start of the next, as where a corner touches the line."""
    points: list[Point] = []
    for chain in chains:
        points += chain[1:] if points and math.dist(points[-1], chain[0]) < 1e-9 else chain
    if math.dist(points[-1], points[0]) < 1e-9:
        points.pop()
    return tuple(points)


def cut_vertically(polygon: Polygon, xs: Sequence[float]) -> tuple[list[Polygon], list[Polygon]]:
    """Cut a polygon at every x, from the left; each cut must cross its boundary twice. Returns the pieces and the cuts."""
    pieces: list[list[Point]] = [[] for _ in range(len(xs) + 1)]
    cuts: list[list[Point]] = [[] for _ in xs]
    before = polygon[-1]
    was = bisect_right(xs, before[0])  # the piece that the walk round the boundary is in
    for point in polygon:
        now = bisect_right(xs, point[0])
        while was != now:
            step = 1 if now > was else -1
            cut = min(was, was + step)
            at = crossing(before, point, 0, xs[cut])
            cuts[cut].append(at)
            pieces[was].append(at)
            was += step
            pieces[was].append(at)
        pieces[now].append(point)
        before = point
    return list(map(tuple, pieces)), [(min(cut), max(cut)) for cut in cuts]
