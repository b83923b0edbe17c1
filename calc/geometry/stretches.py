"""A polygon in short runs of points, so that cutting it by two horizontal lines skips what lies far from them.

`strip_of` gives the parts of the polygon between the two lines; `strip_sweeps` gives only the sweeps across those parts,
without building them, which is all that counting needs.
"""

from __future__ import annotations

from typing import NamedTuple

from calc.geometry.polygons import ON_LINE, Point, Polygon, close_chains, crossing
from calc.geometry.sweep import Edge, Event, Sweep, edges_of, events_of

RUN = 8  # points in one stretch


class Stretch(NamedTuple):
    """Successive points of a polygon, the range of their y, and for each the sweep event there and the edge that leads to it."""

    points: Polygon
    least: float
    most: float
    events: tuple[Event, ...]
    edges: tuple[Edge, ...]


def stretches(polygon: Polygon, swept: bool) -> tuple[Stretch, ...]:
    """Divide a polygon into stretches; `swept` says whether they also carry what `strip_sweeps` needs."""
    edges = edges_of(polygon) if swept else []
    events = events_of(polygon, edges) if swept else []
    found = []
    for i in range(0, len(polygon), RUN):
        part = polygon[i : i + RUN]
        to = (edges[i - 1], *edges[i : i + len(part) - 1]) if edges else ()
        found.append(Stretch(part, min(y for _, y in part), max(y for _, y in part), tuple(events[i : i + RUN]), to))
    return tuple(found)


def strip_of(polygon: tuple[Stretch, ...], low: float, high: float) -> list[Polygon]:
    """Keep what lies between y = low and y = high; disconnected parts are returned separately."""
    bottom, top = low + ON_LINE, high - ON_LINE
    before = polygon[-1].points[-1]
    was = 2 if before[1] >= top else 0 if before[1] <= bottom else 1
    begins_inside = was == 1
    chains: list[list[Point]] = [[]] if begins_inside else []
    for points, least, most, _, _ in polygon:
        if (least >= top and was == 2) or (most <= bottom and was == 0):
            before = points[-1]  # the whole stretch lies outside, on the same side as the point before it
            continue
        for point in points:
            now = 2 if point[1] >= top else 0 if point[1] <= bottom else 1
            if now != was:
                if was != 1:
                    chains.append([crossing(before, point, 1, high if was else low)])
                if now != 1:
                    chains[-1].append(crossing(before, point, 1, high if now else low))
            if now == 1:
                chains[-1].append(point)
            before, was = point, now
    if begins_inside:
        if len(chains) == 1:
            return [tuple(chains[0])]
        chains[-1] += chains.pop(0)
    return close_chains(chains, 1, (low, high))


def strip_sweeps(polygon: tuple[Stretch, ...], low: float, high: float) -> list[Sweep]:
    """The sweeps across the parts of a polygon between y = low and y = high; `strip_of` gives the parts themselves."""
    bottom, top = low + ON_LINE, high - ON_LINE
    before = polygon[-1].points[-1]
    was = 2 if before[1] >= top else 0 if before[1] <= bottom else 1
    begins_inside = was == 1
    chains: list[list[Event]] = [[]] if begins_inside else []  # runs of the boundary inside the strip
    begin: list[tuple[float, float, Edge]] = []  # of each: x, on which line, and the edge that crosses it there
    end: list[tuple[float, float, Edge]] = []
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
                    begin.append((crossing(before, point, 1, line)[0], line, edge))
                    chains.append([])
                if now != 1:
                    line = high if now else low
                    end.append((crossing(before, point, 1, line)[0], line, edge))
            if now == 1:
                chains[-1].append(event)
            before, was = point, now
    if begins_inside and end:  # the first run continues the last one
        chains[-1] += chains.pop(0)
        end.append(end.pop(0))
    after = list(range(len(chains)))
    for line in (low, high):
        ends = sorted([(x, k, 0) for k, (x, on, _) in enumerate(begin) if on == line] + [(x, k, 1) for k, (x, on, _) in enumerate(end) if on == line])
        for (x0, k, is_end), (x1, j, _) in zip(ends[::2], ends[1::2], strict=True):
            # along the line from the end of one run to the beginning of another
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
        events_of_part: list[Event] = []
        while k in left:
            left.discard(k)
            events_of_part += chains[k]
            k = after[k]
        found.append(Sweep(events_of_part))
    return found


def ends_on(polygon: tuple[Stretch, ...], y: float) -> tuple[float, float] | None:
    """The x where a horizontal line first enters a polygon and last leaves it; None if it misses or only touches the polygon."""
    xs: list[float] = []
    before = polygon[-1].points[-1]
    was = before[1] > y + ON_LINE
    for points, least, most, _, _ in polygon:
        if (was and least > y + 1e-6) or (not was and most < y - 1e-6):
            before = points[-1]
            continue
        for point in points:
            now = point[1] > y + ON_LINE
            if now != was:
                xs.append(crossing(before, point, 1, y)[0])
            if now and point[1] < y + 1e-6:
                xs.append(point[0])
            before, was = point, now
    if len(xs) < 2 or min(stretch.least for stretch in polygon) >= y - ON_LINE:
        return None
    return min(xs), max(xs)
