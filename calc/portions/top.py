"""The outline of a sponge as the cuts see it: its profile, its fine polygon, its symmetry.

What is known of a top is cached per outline. Cuts are counted on a similar outline of standard size (`standard_top`), so
that what is cached for one heart serves every heart, and is still there when the page starts from a memory snapshot.
"""

from __future__ import annotations

import math
from functools import lru_cache

from calc.geometry.polygons import Point, Polygon
from calc.geometry.profile import Profile, ellipse_profile, polygon_profile, segment_profile
from calc.geometry.stretches import Stretch, stretches
from calc.shapes import TWO_SIZES, Heart, Outline, Oval, outline

STANDARD_WIDTH_MM = 1000.0  # width of the tops on which cuts are counted
FINE, FINE_WITH_NOTCHES = 288, 160  # points on the rounded parts of an outline that is cut as a polygon
FINE_OVAL = 720  # points of a coated oval


@lru_cache(maxsize=512)
def standard_top(shape: Outline) -> tuple[Outline, float]:
    """A similar outline of standard size, and the scale to it; shapes of two sizes and coated ones keep their own size."""
    if shape.kind in TWO_SIZES or shape.coat_mm:
        return shape, 1.0
    scale = STANDARD_WIDTH_MM / shape.width_mm
    if isinstance(shape, Heart):  # hearts are similar where they are as full
        return Heart(STANDARD_WIDTH_MM, round(shape.core_length_mm * scale, 6)), scale
    return outline(shape.kind, STANDARD_WIDTH_MM), scale


@lru_cache(maxsize=512)
def top_profile(shape: Outline, turned: bool) -> Profile:
    """The profile of an outline; `turned` looks at it from its left, so that x takes the place of y."""
    if isinstance(shape, Oval):
        if shape.coat_mm == 0:
            a, b = shape.half_axes_mm
            return ellipse_profile(b, a) if turned else ellipse_profile(a, b)
        return polygon_profile(_turned(shape.points(FINE_OVAL)) if turned else shape.points(FINE_OVAL))
    notches = [-x if turned else y for x, y, _ in map(shape.point, shape.notches_mm)]
    return segment_profile(shape.segments, notches, turned)


def _turned(polygon: Polygon) -> Polygon:
    return tuple((y, -x) for x, y in polygon)


@lru_cache(maxsize=256)
def fine_polygon(shape: Outline, turned: bool) -> Polygon:
    """The outline as a fine polygon, looked at from its left if turned."""
    polygon = shape.points(FINE if shape.convex else FINE_WITH_NOTCHES)
    return _turned(polygon) if turned else polygon


@lru_cache(maxsize=256)
def top_stretches(shape: Outline, turned: bool) -> tuple[Stretch, ...]:
    """The fine polygon in stretches; only outlines with notches need sweeps, since convex ones are counted by area."""
    return stretches(fine_polygon(shape, turned), swept=not shape.convex)


@lru_cache(maxsize=256)
def centre(shape: Outline) -> Point:
    """Where wedges meet: the centroid of a heart, the middle of any other outline."""
    if shape.kind != "heart":
        return 0.0, 0.0
    profile = top_profile(shape, False)
    steps = 64
    depth = (profile.top - profile.bottom) / steps
    moment = math.fsum(
        profile.area(profile.bottom + k * depth, profile.bottom + (k + 1) * depth) * (profile.bottom + (k + 0.5) * depth) for k in range(steps)
    )
    return 0.0, moment / shape.area_mm2


def same_from_the_side(shape: Outline) -> bool:
    """Whether a quarter turn leaves the outline as it was."""
    return shape.kind in ("round", "square", "petal")


def same_from_the_front(shape: Outline) -> bool:
    """Whether the front half mirrors the back half."""
    return shape.kind != "heart"
