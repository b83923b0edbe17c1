"""Curves on the unrolled side: the arc of a cutter, the catenary of a string, the path of a rocked tip.

It imports no other room.

Map
---
The arc a round cutter leaves between two joints, *rolled* round the side so that its rim touches along its whole length:
`swag_drop_mm`, `swag_length_mm`, `guide_height_mm` (from cutter and width); `arc_radius_mm`, `arc_length_mm` (from width and drop)
`arc_points`, `catenary_points`       the same curves as points, for drawing
`catenary_parameter_mm`, `catenary_length_mm`   a string that hangs between two joints
`to_and_fro_factor`                   how much longer a rocked line is than its row
`swell_at`, `SWELL_MEAN`              how full a swag is along its way

Legend: D cutter diameter, w swag width along the surface, y drop, R radius, a catenary parameter, p advance.
"""

from __future__ import annotations

import math
from functools import lru_cache


def _check_cutter(cutter_mm: float, width_mm: float) -> None:
    if not 0 < width_mm <= cutter_mm:
        raise ValueError("a cutter marks swags of a positive width up to its own diameter")


def swag_drop_mm(cutter_mm: float, width_mm: float) -> float:
    """Give the drop of the arc that a round cutter leaves between two joints.

    Formula: drop = D/2 - sqrt(D^2/4 - w^2/4), the sagitta of a chord w in a circle of diameter D.

    Parameters
    ----------
    cutter_mm : float
        Diameter D of the cutter [mm]
    width_mm : float
        Swag width w along the surface [mm]

    Returns
    -------
    float
        Drop below the joints [mm]

    Raises
    ------
    ValueError
        The cutter is narrower than the swag, so that its rim would leave a gap at every joint.

    Range: 0 < w <= D, on the unrolled side; w = D is the semicircle. Leaves out: a cutter held flat, which touches only at the middle.

    Example
    -------
    >>> swag_drop_mm(100, 100)
    50.0
    >>> swag_drop_mm(20, 12)  # radius 10, chord 12: sagitta 2
    2.0

    Source: segment (Sagitta)
    """
    _check_cutter(cutter_mm, width_mm)
    return cutter_mm / 2 - math.sqrt((cutter_mm - width_mm) * (cutter_mm + width_mm)) / 2


def swag_length_mm(cutter_mm: float, width_mm: float) -> float:
    """Give the length along the arc that a round cutter leaves between two joints.

    Formula: length = D asin(w/D).

    Parameters
    ----------
    cutter_mm : float
        Diameter D of the cutter [mm]
    width_mm : float
        Swag width w along the surface [mm]

    Returns
    -------
    float
        Length to pipe for one swag [mm]

    Raises
    ------
    ValueError
        The cutter is narrower than the swag.

    Range: 0 < w <= D. Leaves out: the extra path of a rocked tip.

    Example
    -------
    >>> round(5 * swag_length_mm(100, 100), 1)
    785.4

    Source: segment (Circular Segment)
    """
    _check_cutter(cutter_mm, width_mm)
    return cutter_mm * math.asin(width_mm / cutter_mm)


def guide_height_mm(cutter_mm: float, width_mm: float) -> float:
    """Give the height of the top of the cutter above the joints: where the lower edge of the guide tape goes.

    Formula: height = D/2 + sqrt(D^2/4 - w^2/4) = D - drop.

    Parameters
    ----------
    cutter_mm : float
        Diameter D of the cutter [mm]
    width_mm : float
        Swag width w along the surface [mm]

    Returns
    -------
    float
        Height above the joints [mm]

    Raises
    ------
    ValueError
        The cutter is narrower than the swag.

    Range: 0 < w <= D. Leaves out: the thickness of the cutter's rim.

    Example
    -------
    >>> guide_height_mm(100, 100), guide_height_mm(20, 12)
    (50.0, 18.0)

    Source: segment (Sagitta)
    """
    return cutter_mm - swag_drop_mm(cutter_mm, width_mm)


def arc_radius_mm(width_mm: float, drop_mm: float) -> float:
    """Give the radius of the circular arc of a given width and drop.

    Formula: R = y/2 + w^2/(8 y).

    Parameters
    ----------
    width_mm : float
        Width w between the joints [mm]
    drop_mm : float
        Drop y below the joints [mm]

    Returns
    -------
    float
        Radius [mm]

    Raises
    ------
    ValueError
        Width or drop is not positive.

    Range: w > 0, y > 0; with y > w/2 the arc is more than a semicircle. Leaves out: a straight line (y = 0).

    Example
    -------
    >>> arc_radius_mm(8, 2), round(arc_radius_mm(10, 3), 2)
    (5.0, 5.67)

    Source: segment (Circular Segment)
    """
    if width_mm <= 0 or drop_mm <= 0:
        raise ValueError("an arc has a positive width and drop")
    return drop_mm / 2 + width_mm * width_mm / (8 * drop_mm)


def arc_length_mm(width_mm: float, drop_mm: float) -> float:
    """Give the length along the circular arc of a given width and drop.

    Formula: length = 4 R atan(2 y / w).

    Parameters
    ----------
    width_mm : float
        Width w between the joints [mm]
    drop_mm : float
        Drop y below the joints [mm]

    Returns
    -------
    float
        Length along the arc [mm]

    Raises
    ------
    ValueError
        The width is not positive, or the drop is negative.

    Range: w > 0, y >= 0 (y = 0 is the straight line). Leaves out: other curves; at a drop of a quarter of the
    width, arc, parabola and catenary differ by under 1 %.

    Example
    -------
    >>> round(arc_length_mm(8, 2), 9)
    9.27295218

    Source: segment (Circular Segment)
    """
    if width_mm <= 0 or drop_mm < 0:
        raise ValueError("an arc has a positive width and no negative drop")
    if drop_mm < 1e-9 * width_mm:
        return width_mm
    return 4 * arc_radius_mm(width_mm, drop_mm) * math.atan(2 * drop_mm / width_mm)


@lru_cache(maxsize=512)
def arc_points(width_mm: float, drop_mm: float, count: int = 24) -> tuple[tuple[float, float], ...]:
    """Give points of the arc from joint to joint, evenly spaced along it.

    Formula: (w/2 + R sin t, drop - R (1 - cos t)), t evenly spaced between the joints.

    Parameters
    ----------
    width_mm : float
        Width w between the joints [mm]
    drop_mm : float
        Drop y below the joints [mm]
    count : int
        Number of equal parts the arc is divided into [-]

    Returns
    -------
    tuple of (float, float)
        x from the left joint and depth below the joints [mm]

    Raises
    ------
    ValueError
        The width is not positive, or the drop is negative.

    Range: as `arc_length_mm`.

    Example
    -------
    >>> [round(v, 6) for v in arc_points(100, 50, 2)[1]]
    [50.0, 50.0]

    Source: segment (Circular Segment)
    """
    if width_mm <= 0 or drop_mm < 0:
        raise ValueError("an arc has a positive width and no negative drop")
    if drop_mm < 1e-9 * width_mm:
        return tuple((width_mm * i / count, 0.0) for i in range(count + 1))
    radius = arc_radius_mm(width_mm, drop_mm)
    half = 2 * math.atan(2 * drop_mm / width_mm)
    angles = [half * (2 * i / count - 1) for i in range(count + 1)]
    return tuple((width_mm / 2 + radius * math.sin(t), drop_mm - radius * (1 - math.cos(t))) for t in angles)


@lru_cache(maxsize=512)
def catenary_parameter_mm(width_mm: float, drop_mm: float) -> float:
    """Give the parameter a of the catenary that hangs between two joints.

    Formula: drop = a (cosh(w / 2a) - 1), solved by Newton's method for u = w / 2a in cosh(u) - 1 = (2y/w) u.

    Parameters
    ----------
    width_mm : float
        Width w between the joints [mm]
    drop_mm : float
        Drop y below the joints [mm]

    Returns
    -------
    float
        Parameter a [mm]

    Raises
    ------
    ValueError
        Width or drop is not positive, or the drop is over 50 widths.

    Range: w > 0, 0 < y <= 50 w. Leaves out: a string that stretches, or sticks to the side on its way.

    Example
    -------
    >>> round(catenary_parameter_mm(60, 15), 7)
    32.2296056

    Source: catenary (Catenary)
    """
    if width_mm <= 0 or drop_mm <= 0 or drop_mm > 50 * width_mm:
        raise ValueError("a string has a positive width and a positive drop, up to 50 times its width")
    ratio = 2 * drop_mm / width_mm
    u = min(2 * ratio, 1.0 + math.log1p(2 * ratio) * 2)
    for _ in range(100):
        # cosh(u) - 1 written as 2 sinh(u/2)^2 keeps its digits for shallow strings
        value = 2 * math.sinh(u / 2) ** 2 - ratio * u
        step = value / (math.sinh(u) - ratio)
        u = u - step if u - step > 0 else u / 2
        if abs(step) <= 1e-15 * u:
            break
    return width_mm / (2 * u)


def catenary_length_mm(width_mm: float, drop_mm: float) -> float:
    """Give the length of a string that hangs between two joints.

    Formula: length = 2 a sinh(w / 2a).

    Parameters
    ----------
    width_mm : float
        Width w between the joints [mm]
    drop_mm : float
        Drop y below the joints [mm]

    Returns
    -------
    float
        Length of the string [mm]

    Raises
    ------
    ValueError
        The width is not positive, the drop is negative, or it is over 50 widths.

    Range: w > 0, 0 <= y <= 50 w. Leaves out: stretch.

    Example
    -------
    >>> round(catenary_length_mm(80, 20), 6)
    92.063289

    Source: catenary (Catenary)
    """
    if width_mm > 0 and 0 <= drop_mm < 1e-6 * width_mm:
        return width_mm
    a = catenary_parameter_mm(width_mm, drop_mm)
    return 2 * a * math.sinh(width_mm / (2 * a))


@lru_cache(maxsize=512)
def catenary_points(width_mm: float, drop_mm: float, count: int = 24) -> tuple[tuple[float, float], ...]:
    """Give points of a hanging string from joint to joint, evenly spaced along it.

    Formula: depth = drop - a (cosh(x/a) - 1), x = a asinh(s/a), s evenly spaced from the middle.

    Parameters
    ----------
    width_mm : float
        Width w between the joints [mm]
    drop_mm : float
        Drop y below the joints [mm]
    count : int
        Number of equal parts the string is divided into [-]

    Returns
    -------
    tuple of (float, float)
        x from the left joint and depth below the joints [mm]

    Raises
    ------
    ValueError
        As `catenary_length_mm`.

    Range: as `catenary_length_mm`.

    Example
    -------
    >>> [round(v, 9) for v in catenary_points(60, 15, 2)[1]]
    [30.0, 15.0]

    Source: catenary (Catenary)
    """
    if width_mm > 0 and 0 <= drop_mm < 1e-6 * width_mm:
        return tuple((width_mm * i / count, 0.0) for i in range(count + 1))
    a = catenary_parameter_mm(width_mm, drop_mm)
    half = a * math.sinh(width_mm / (2 * a))
    xs = [a * math.asinh(half * (2 * i / count - 1) / a) for i in range(count + 1)]
    return tuple((width_mm / 2 + x, drop_mm - a * (math.cosh(x / a) - 1)) for x in xs)


def to_and_fro_factor(movement_mm: float, advance_mm: float) -> float:
    """Give how many times longer the path of a rocked tip is than the row it makes.

    Formula: sqrt(1 + (2 a / p)^2) for straight strokes of amplitude a (to one side and back) at an advance p.

    Parameters
    ----------
    movement_mm : float
        Movement a across the row, from one side to the other [mm]
    advance_mm : float
        Advance p along the row for one to-and-fro [mm]

    Returns
    -------
    float
        Length of the path over length of the row [-]

    Raises
    ------
    ValueError
        The movement is negative, or the advance is not positive.

    Range: a >= 0, p > 0. Leaves out: rounded turns, which shorten the path by a few per cent.

    Example
    -------
    >>> to_and_fro_factor(0, 5), round(to_and_fro_factor(6, 5), 3)
    (1.0, 2.6)

    Source: geometry (Pythagoras)
    """
    if movement_mm < 0 or advance_mm <= 0:
        raise ValueError("a rocked line has no negative movement and a positive advance")
    return math.hypot(1.0, 2 * movement_mm / advance_mm)


SWELL_MEAN = 0.46 + 0.54 * math.gamma(0.775) / (math.sqrt(math.pi) * math.gamma(1.275))  # of `swell_at` all along a swag [-]


def swell_at(share: float) -> float:
    """Give how full a swag is at a share of its way, over its middle: narrow at the joints, full in the middle.

    Formula: 0.46 + 0.54 sin(pi s)^0.55.

    Parameters
    ----------
    share : float
        Share s of the way from joint to joint, 0 to 1 [-]

    Returns
    -------
    float
        Its width there over that in its middle [-]

    Range: s from 0 to 1. Leaves out: a hand's own way.

    Example
    -------
    >>> swell_at(0.0), swell_at(0.5)
    (0.46, 1.0)

    Source: common-practice
    """
    return 0.46 + 0.54 * math.pow(max(0.0, math.sin(math.pi * share)), 0.55)
