"""The opening of a tip at 1:1, as it is seen from in front."""

from __future__ import annotations

import math

from calc.drawing.scene import Parts, Point, arc, circle, polygon, smooth
from calc.tips import PETAL_THIN, Tip


def opening_parts(tip: Tip, x_mm: float = 0.0, y_mm: float = 0.0) -> Parts:
    """Draw the opening of a tip at 1:1, as it is seen from in front.

    Formula: round, a circle; a star, its points and notches; petal, a slot that tapers; leaf, two curves that meet in points;
    ruffle, a bent slot; basket, a slot with notches on one edge.

    Parameters
    ----------
    tip : Tip
        The tip [mm]
    x_mm : float
        Its middle, to the right [mm]
    y_mm : float
        Its middle, downwards [mm]

    Returns
    -------
    tuple
        Parts of a path [mm]

    Range: any tip. Leaves out: the wall of the metal.

    Example
    -------
    >>> opening_parts(Tip("round", 4.0))[0]
    ('M', 2.0, 0.0)

    Source: common-practice
    """
    half = tip.opening_mm / 2
    slot = tip.slot_mm / 2
    match tip.family:
        case "round":
            return circle(x_mm, y_mm, half)
        case "open star" | "closed star":
            inner = tip.inner_mm / 2
            points = []
            for i in range(2 * tip.points):
                angle = math.pi * i / tip.points - math.pi / 2
                r = half if i % 2 == 0 else inner
                points.append((x_mm + r * math.cos(angle), y_mm + r * math.sin(angle)))
            return polygon(points)
        case "petal":
            thin = slot * PETAL_THIN
            return (
                ("M", x_mm - thin, y_mm - half + thin),
                *arc(x_mm, y_mm - half + thin, thin, 180, 360)[1:],
                ("L", x_mm + slot, y_mm + half - slot),
                *arc(x_mm, y_mm + half - slot, slot, 0, 180)[1:],
                ("Z",),
            )
        case "leaf":
            return (
                ("M", x_mm - half, y_mm),
                ("C", x_mm - half / 2, y_mm - slot * 4 / 3, x_mm + half / 2, y_mm - slot * 4 / 3, x_mm + half, y_mm),
                ("C", x_mm + half / 2, y_mm + slot * 4 / 3, x_mm - half / 2, y_mm + slot * 4 / 3, x_mm - half, y_mm),
                ("Z",),
            )
        case "ruffle":
            waves = 3
            upper = [
                (x_mm - half + tip.opening_mm * i / (4 * waves), y_mm - slot + slot * 0.9 * math.sin(i * math.pi / 2)) for i in range(4 * waves + 1)
            ]
            lower = [(x, y + 2 * slot) for x, y in reversed(upper)]
            return (*smooth(upper), ("L", *lower[0]), *smooth(lower)[1:], ("Z",))
        case _:
            teeth = max(3, round(tip.opening_mm / 3))
            step = tip.opening_mm / teeth
            top: list[Point] = [(x_mm - half, y_mm - slot)]
            for i in range(teeth):
                at = x_mm - half + step * i
                top += [(at + step * 0.3, y_mm - slot), (at + step * 0.5, y_mm - slot + 1.1 * slot), (at + step * 0.7, y_mm - slot)]
            top += [(x_mm + half, y_mm - slot), (x_mm + half, y_mm + slot), (x_mm - half, y_mm + slot)]
            return polygon(top)
