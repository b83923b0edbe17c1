"""The oval: an ellipse with a parallel coat, whose arc length has no closed form."""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import cached_property
from typing import ClassVar

from calc.geometry.polygons import Point
from calc.geometry.segments import ellipse_perimeter_mm
from calc.shapes.outlines import Outline

# Gauss-Legendre nodes and weights on [-1, 1], six points (derived: the roots of P6)
_GAUSS = (
    (-0.932469514203152, 0.1713244923791704),
    (-0.6612093864662645, 0.3607615730481386),
    (-0.2386191860831969, 0.4679139345726910),
    (0.2386191860831969, 0.4679139345726910),
    (0.6612093864662645, 0.3607615730481386),
    (0.932469514203152, 0.1713244923791704),
)
_OVAL_CELLS = 256


@dataclass(frozen=True)
class Oval(Outline):
    """An ellipse with a parallel coat: exact perimeter, exact coat by Steiner, even by arc length."""

    kind: ClassVar[str] = "oval"

    @property
    def half_axes_mm(self) -> tuple[float, float]:
        """Half the uncoated width and half the uncoated length, a and b [mm]."""
        return self.core_width_mm / 2, self.core_length_mm / 2

    @cached_property
    def perimeter_mm(self) -> float:
        """Length round the outline: the ellipse's, and 2 pi t for the coat [mm]."""
        return ellipse_perimeter_mm(*self.half_axes_mm) + 2 * math.pi * self.coat_mm

    @cached_property
    def area_mm2(self) -> float:
        """Area of the top: pi a b + P t + pi t^2 [mm2]."""
        a, b = self.half_axes_mm
        t = self.coat_mm
        return math.pi * a * b + ellipse_perimeter_mm(a, b) * t + math.pi * t * t

    @cached_property
    def _turns(self) -> tuple[tuple[float, float], ...]:
        return ()

    @cached_property
    def extent_mm(self) -> tuple[float, float, float, float]:
        """Left, front, right and back of its bounding box [mm]."""
        return -self.width_mm / 2, -self.length_mm / 2, self.width_mm / 2, self.length_mm / 2

    def offset(self, thickness_mm: float) -> Outline:
        """The same ellipse with more or less coat; see `Outline.offset`."""
        a, b = self.half_axes_mm
        coat = self.coat_mm + thickness_mm
        if min(a, b) ** 2 / max(a, b) + coat <= 0:
            raise ValueError("an oval would get corners when so much is trimmed off it")
        return Oval(self.core_width_mm, self.core_length_mm, coat)

    def _speed(self, middle: float, half: float = 0.0, places: tuple[tuple[float, float], ...] = ((0.0, 1.0),)) -> float:
        """Length of the coated outline per radian of the ellipse's parameter, from the back: the weighted sum at some places [mm/rad]."""
        a, b = self.half_axes_mm
        coat, aa, more = self.coat_mm * a * b, a * a, b * b - a * a
        parts = []
        for node, weight in places:
            sine = math.sin(middle + half * node)
            square = aa + more * sine * sine
            parts.append(weight * (math.sqrt(square) + coat / square))
        return math.fsum(parts)

    def _length(self, low: float, high: float) -> float:
        half = (high - low) / 2
        return half * self._speed((high + low) / 2, half, _GAUSS)

    @cached_property
    def _table(self) -> tuple[float, ...]:
        """Length from the back to every 1/256 of a turn of the parameter, closed on the exact perimeter [mm]."""
        step = 2 * math.pi / _OVAL_CELLS
        quarter = [0.0]
        for i in range(_OVAL_CELLS // 4):
            quarter.append(quarter[-1] + self._length(i * step, (i + 1) * step))
        fit = self.perimeter_mm / 4 / quarter[-1]
        quarter = [length * fit for length in quarter]
        half = quarter + [self.perimeter_mm / 2 - length for length in reversed(quarter[:-1])]
        return tuple(half + [self.perimeter_mm - length for length in reversed(half[:-1])])

    def _parameter(self, s: float) -> float:
        """The ellipse's parameter, from the back, at a distance round the coated outline [rad]."""
        step = 2 * math.pi / _OVAL_CELLS
        cell = min(_OVAL_CELLS - 1, bisect_right(self._table, s) - 1)
        low = cell * step
        rest = s - self._table[cell]
        u = low + step * rest / (self._table[cell + 1] - self._table[cell])
        for _ in range(8):
            change = (self._length(low, u) - rest) / self._speed(u)
            u -= change
            if abs(change) < 1e-8:  # Newton's method doubles the number of correct digits in each step
                break
        return u

    def point(self, s_mm: float) -> tuple[float, float, float]:
        """Point and heading at a distance round the outline; see `Outline.point`."""
        if not math.isfinite(s_mm):
            raise ValueError("a distance round the side is a finite number")
        return self._at(self._parameter(s_mm % self.perimeter_mm))

    def _at(self, u: float) -> tuple[float, float, float]:
        a, b = self.half_axes_mm
        nx, ny = -b * math.sin(u), a * math.cos(u)
        size = math.hypot(nx, ny)
        nx, ny = nx / size, ny / size
        heading = math.atan2(nx, -ny) % (2 * math.pi)
        return self.coat_mm * nx - a * math.sin(u), b * math.cos(u) + self.coat_mm * ny, heading

    def points(self, count: int = 96) -> tuple[Point, ...]:
        """The outline as a polygon, with its points closest where it bends most; see `Outline.points`."""
        if count < 8:
            raise ValueError("a polygon of an outline has eight points or more")
        return tuple(self._at(2 * math.pi * k / count)[:2] for k in range(count))
