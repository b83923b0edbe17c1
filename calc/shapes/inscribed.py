"""The largest circle inside an outline: where most room is for a tier that stands on it."""

from __future__ import annotations

import math
from functools import lru_cache

from calc.geometry.segments import Segment, Straight
from calc.shapes.outlines import Outline
from calc.shapes.ovals import Oval

_STEPS = 60  # each leaves 0.618 of the stretch: 60 of them reach the last digit


@lru_cache(maxsize=256)
def largest_circle(shape: Outline) -> tuple[float, float, float]:
    """Give the middle and the radius of the largest circle inside an outline.

    Formula: every outline is the same left and right, so the middle is sought on its axis, where the least distance to a segment is
    greatest, by golden sections: it grows from the point of a heart and falls towards its notch. Outlines that are the same front and
    back have it in their middle; an oval's is min(a, b) and the coat.

    Parameters
    ----------
    shape : Outline
        The outline [mm]

    Returns
    -------
    tuple of (float, float, float)
        x and y from the middle of the outline, and radius [mm]

    Range: any outline, coated or not. Leaves out: that a rectangle has other places for it, to the left and right.

    Example
    -------
    >>> from calc.shapes import outline
    >>> largest_circle(outline("rectangle", 300, 200)), largest_circle(outline("square", 200))[2]
    ((0.0, 0.0, 100.0), 100.0)

    Source: geometry (distance from a point to a segment and to an arc)
    """
    if isinstance(shape, Oval):
        return 0.0, 0.0, min(shape.half_axes_mm) + shape.coat_mm
    if shape.kind != "heart":
        return 0.0, 0.0, _room_mm(shape, 0.0)
    _, low, _, high = shape.extent_mm
    golden = (math.sqrt(5) - 1) / 2
    left, right = high - golden * (high - low), low + golden * (high - low)
    at_left, at_right = _room_mm(shape, left), _room_mm(shape, right)
    for _ in range(_STEPS):
        if at_left < at_right:
            low, left, at_left = left, right, at_right
            right = low + golden * (high - low)
            at_right = _room_mm(shape, right)
        else:
            high, right, at_right = right, left, at_left
            left = high - golden * (high - low)
            at_left = _room_mm(shape, left)
    return 0.0, left, at_left


def _room_mm(shape: Outline, y: float) -> float:
    """The distance from a place on the axis to the outline; negative above the notch, where there is no cake [mm]."""
    room = min(_distance_mm(segment, y) for segment in shape.segments)
    notch = max((shape.point(s)[1] for s in shape.notches_mm if abs(shape.point(s)[0]) < 1e-9), default=math.inf)
    return -room if y > notch and shape.kind == "heart" else room


def _distance_mm(segment: Segment, y: float) -> float:
    """The distance from the place (0, y) to a segment [mm]."""
    if isinstance(segment, Straight):
        along_x, along_y = segment.x1 - segment.x0, segment.y1 - segment.y0
        share = ((0.0 - segment.x0) * along_x + (y - segment.y0) * along_y) / (along_x * along_x + along_y * along_y)
        share = min(1.0, max(0.0, share))
        return math.hypot(segment.x0 + share * along_x, segment.y0 + share * along_y - y)
    away = math.hypot(segment.cx, y - segment.cy)
    heading = math.atan2(y - segment.cy, -segment.cx)
    if (heading - segment.start) % (2 * math.pi) <= segment.sweep:
        return abs(segment.radius - away)
    ends = (segment.start, segment.start + segment.sweep)
    return min(math.hypot(segment.cx + segment.radius * math.cos(a), segment.cy + segment.radius * math.sin(a) - y) for a in ends)
