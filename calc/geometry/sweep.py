"""A vertical line swept across a polygon from left to right: the area on its left, how often it crosses, where the polygon is narrow.

Between two neighbouring points the height of the polygon under the line is linear in x, so areas are exact and a wanted
area is found by solving one quadratic.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence

from calc.geometry.polygons import Polygon

Edge = tuple[float, float, int]  # slope and intercept of its line; 1 if it runs to the right, -1 to the left, 0 if it is vertical
Event = tuple[float, float, float, int]  # x; by how much slope and intercept of the height and the number of crossed edges change there

VERTICAL: Edge = (0.0, 0.0, 0)


def edges_of(polygon: Polygon) -> list[Edge]:
    """The edges of a polygon, each from its point to the next."""
    return [
        ((y1 - y0) / (x1 - x0), y0 - (y1 - y0) / (x1 - x0) * x0, 1 if x1 > x0 else -1) if abs(x1 - x0) >= 1e-12 else VERTICAL
        for (x0, y0), (x1, y1) in zip(polygon, polygon[1:] + polygon[:1], strict=True)
    ]


def events_of(polygon: Polygon, edges: Sequence[Edge]) -> list[Event]:
    """What changes at each point of a polygon for a vertical line swept across it."""
    return [
        (x, m0 - m1, c0 - c1, way1 - way0) for (x, _), (m0, c0, way0), (m1, c1, way1) in zip(polygon, [edges[-1], *edges[:-1]], edges, strict=True)
    ]


def swept(polygon: Polygon) -> Sweep:
    """Sweep one polygon."""
    return Sweep(events_of(polygon, edges_of(polygon)))


class Sweep:
    """Area of a polygon to the left of a vertical line, and how often that line crosses its boundary.

    At `xs[i]` the area on the left is `areas[i]`; from there to the next x the height is m x + c with `heights[i]` = (m, c),
    and the line crosses `crossed[i]` edges.
    """

    def __init__(self, events: list[Event]) -> None:
        events.sort()
        xs: list[float] = []
        areas: list[float] = []
        heights: list[tuple[float, float]] = []
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
        """The x with this much area on its left."""
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
        """Every x where the polygon is narrower than `neck`, and a third wider again on both sides of it."""
        return [self.xs[i] for i in self.neck_indices(neck)]

    def neck_indices(self, neck: float) -> list[int]:
        """The necks by their index in `xs`."""
        high = [m * x + c for x, (m, c) in zip(self.xs, self.heights, strict=True)]
        return [
            i
            for i in range(1, len(high) - 1)
            if high[i] < neck
            and self.crossed[i] == 2
            and high[i - 1] >= high[i] <= high[i + 1]
            and 3 * min(max(high[:i]), max(high[i + 1 :])) > 4 * high[i]
        ]

    def between(self, first: int, last: int) -> Sweep:
        """The part between two indices of `xs`, as a sweep of its own."""
        part = Sweep.__new__(Sweep)
        part.xs, before = self.xs[first : last + 1], self.areas[first]
        part.areas = [area - before for area in self.areas[first : last + 1]]
        part.heights = [*self.heights[first:last], (0.0, 0.0)]
        part.crossed = [*self.crossed[first:last], 0]
        part.area = part.areas[-1]
        return part

    def clean_spans(self, neck: float) -> list[tuple[float, float]]:
        """Spans of x in which a vertical cut leaves two pieces, each connected by more than `neck`."""
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
