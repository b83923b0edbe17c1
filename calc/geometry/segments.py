"""What outlines are made of: straight lines and circular arcs, each with its length, its direction and its share of the area.

`Straight`, `Arc` and their union `Segment`; `ellipse_perimeter_mm`, since an ellipse is neither.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

Walk = Callable[[float], tuple[float, float, float]]


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight line from (x0, y0) to (x1, y1) [mm]."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def length_mm(self) -> float:
        """Its length [mm]."""
        return math.hypot(self.x1 - self.x0, self.y1 - self.y0)

    @property
    def headings(self) -> tuple[float, float]:
        """Direction at its start and at its end [rad]."""
        heading = math.atan2(self.y1 - self.y0, self.x1 - self.x0)
        return heading, heading

    @property
    def swept_mm2(self) -> float:
        """Area swept by the line from the origin to it, by Green's theorem [mm2]."""
        return (self.x0 * self.y1 - self.x1 * self.y0) / 2

    def at(self, distance_mm: float) -> tuple[float, float, float]:
        """Point and heading at a distance from its start [mm, mm, rad]."""
        return self.walk()(distance_mm)

    def walk(self) -> Walk:
        """`at` as a function with its constants bound, for many calls."""
        x0, y0, dx, dy, length, heading = self.x0, self.y0, self.x1 - self.x0, self.y1 - self.y0, self.length_mm, self.headings[0]

        def walked(distance_mm: float) -> tuple[float, float, float]:
            part = distance_mm / length
            return x0 + part * dx, y0 + part * dy, heading

        return walked


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc: centre, radius, angle of its start, and the angle swept anticlockwise [mm, rad]."""

    cx: float
    cy: float
    radius: float
    start: float
    sweep: float

    @property
    def length_mm(self) -> float:
        """Its length [mm]."""
        return self.radius * self.sweep

    @property
    def headings(self) -> tuple[float, float]:
        """Direction at its start and at its end [rad]."""
        return self.start + math.pi / 2, self.start + self.sweep + math.pi / 2

    @property
    def swept_mm2(self) -> float:
        """Area swept by the line from the origin to it, by Green's theorem [mm2]."""
        end = self.start + self.sweep
        return (
            self.radius
            / 2
            * (self.radius * self.sweep + self.cx * (math.sin(end) - math.sin(self.start)) - self.cy * (math.cos(end) - math.cos(self.start)))
        )

    def at(self, distance_mm: float) -> tuple[float, float, float]:
        """Point and heading at a distance from its start [mm, mm, rad]."""
        return self.walk()(distance_mm)

    def walk(self) -> Walk:
        """`at` as a function with its constants bound, for many calls."""
        cx, cy, radius, start, quarter = self.cx, self.cy, self.radius, self.start, math.pi / 2

        def walked(distance_mm: float) -> tuple[float, float, float]:
            angle = start + distance_mm / radius
            return cx + radius * math.cos(angle), cy + radius * math.sin(angle), angle + quarter

        return walked


Segment = Straight | Arc


def turn_between(before: Segment, after: Segment) -> float:
    """The angle by which the direction turns from one segment to the next, negative to the right [rad]."""
    turn = after.headings[0] - before.headings[1]
    return (turn + math.pi) % (2 * math.pi) - math.pi


def ellipse_perimeter_mm(first_mm: float, second_mm: float) -> float:
    """Give the exact perimeter of an ellipse.

    Formula: P = 4 a E(e^2), E by the arithmetic-geometric mean: P = (2 pi / M(a, b)) (a^2 - sum 2^(n-1) c_n^2), c_0^2 =
    a^2 - b^2, c_(n+1) = (a_n - b_n) / 2.

    Parameters
    ----------
    first_mm : float
        One half-axis [mm]
    second_mm : float
        The other half-axis [mm]

    Returns
    -------
    float
        Perimeter, to floating-point precision [mm]

    Raises
    ------
    ValueError
        A half-axis is negative, or both are zero.

    Range: a >= 0, b >= 0, not both zero; b = 0 gives 4 a.

    Example
    -------
    >>> round(ellipse_perimeter_mm(10, 5), 10), ellipse_perimeter_mm(10, 0)
    (48.4422411027, 40.0)

    Source: dlmf-19.30
    """
    a, b = max(first_mm, second_mm), min(first_mm, second_mm)
    if b < 0 or a <= 0:
        raise ValueError("an ellipse has no negative half-axis, and not both are zero")
    if b == 0:
        return 4.0 * a
    x, y = a, b
    terms = [a * a, -(a - b) * (a + b) / 2]
    weight = 0.5
    while abs(x - y) > 1e-9 * x:
        c = (x - y) / 2
        x, y = (x + y) / 2, math.sqrt(x * y)
        weight *= 2
        terms.append(-weight * c * c)
    return 2 * math.pi / ((x + y) / 2) * math.fsum(terms)
