"""Rings: a round cut into rings as deep as the slice is long, each into equal pieces."""

from __future__ import annotations

import math

from calc.geometry.polygons import Point, Polygon
from calc.portions.layout import FIT, Cut, Layout, whole_number
from calc.shapes import Outline


def count_rings(shape: Outline, short: float, long: float) -> Layout:
    """Count the pieces of each ring, from the edge inwards."""
    radius, piece = shape.width_mm / 2, short * long
    parts: list[tuple[float, float, int]] = []
    outer = radius
    while outer > FIT * radius:
        inner = outer - long
        if inner < FIT * radius:
            inner = 0.0
        count = whole_number(math.pi * (outer - inner) * (outer + inner) / piece)
        if count:
            parts.append((inner, outer, count))
        outer = inner
    return Layout("rings", sum(n for _, _, n in parts), (short, long), parts=tuple(parts))


def _arc_points(radius: float, start: float, sweep: float, steps: int) -> list[Point]:
    return [(radius * math.cos(start + sweep * k / steps), radius * math.sin(start + sweep * k / steps)) for k in range(steps + 1)]


def draw_rings(shape: Outline, layout: Layout) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
    """The pieces and the knife's steps of a counted cut by rings."""
    pieces: list[Polygon] = []
    steps: list[Cut] = []
    back = math.pi / 2
    for number, (inner, outer, count) in enumerate(layout.parts):
        if inner > 0:
            where = "from the edge" if number == 0 else "further in"
            steps.append(Cut((tuple(_arc_points(inner, back, 2 * math.pi, 96)),), "Cut a circle {0} " + where + ", straight down", (outer - inner,)))
        sweep = 2 * math.pi / count
        arc = math.ceil(240 / count)
        spokes = []
        for k in range(count):
            start = back + k * sweep
            rim = _arc_points(outer, start, sweep, arc)
            if count == 1:
                pieces.append(tuple(_arc_points(outer, start, 2 * math.pi, 240)[:-1]))
                break
            pieces.append((*rim, *reversed(_arc_points(inner, start, sweep, arc))) if inner > 0 else (*rim, (0.0, 0.0)))
            spokes.append((_arc_points(inner, start, 0.0, 1)[0], rim[0]))
        if inner > 0:
            steps.append(Cut(tuple(spokes), f"Cut the ring outside it into {count} equal pieces, " + "{0} along the edge", (outer * sweep,)))
        elif count == 1:
            steps.append(Cut((), "Keep the cake whole: one piece" if number == 0 else "Keep the core whole: one piece"))
        else:
            what = "the cake" if number == 0 else "the core"
            steps.append(Cut(tuple(spokes), f"Cut {what} into {count} equal wedges"))
    return tuple(pieces), tuple(steps)
