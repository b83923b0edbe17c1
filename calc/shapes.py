"""Tier outlines seen from above: area, side, coat, and the point at a distance round the side.

Map
---
`outline`           shape, width, length -> `Outline`; `SHAPES` and `outline_choices` name the shapes
`Outline`           area, perimeter, corners, `point`, `points`, `offset`, `division`, `joints`, `scaled`
`Round`, `Square`, `Rectangle`, `Hexagon`, `Oval`, `Heart`, `Petal`   the shapes themselves
`Joints`            an even division: where the joints fall, and whether the corners are respected
`Straight`, `Arc`   what every side but the oval's is made of
`ellipse_perimeter_mm`   exact, by the arithmetic-geometric mean

How each shape is meant
-----------------------
round, square       width across
rectangle           width left to right, length front to back (a sheet)
hexagon             regular; width is **flat to flat**, one flat at the back (corner to corner is 2/sqrt(3) times that)
oval                an ellipse, width left to right, length front to back
heart               a square of side a standing on its point, with a semicircle of diameter a on each of its two upper
                    sides; width (1 + sqrt(2)/2) a across the lobes; the notch is at the back, the point at the front
petal               a regular octagon with a semicircle on each side; width across two opposite petals, one at the back

Seen from above x runs to the right and y to the back. Distance s round the side starts in the middle of the back and
runs anticlockwise. A coat moves every part of the side outwards by its thickness: a rounded side stays parallel to
itself, straight sides are scraped to sharp corners, and a notch fills until the two coats meet.

Legend: P perimeter, A area, t thickness of the coat, a and b half-axes of an oval.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import ClassVar

from calc.geometry.polygons import Point
from calc.geometry.segments import Arc, Segment, Straight, Walk, ellipse_perimeter_mm, turn_between
from calc.sources import constant

PETALS = 8  # a petal tin with eight petals is the usual one (common practice, no source)
EVEN_ENOUGH_PERCENT = constant(5.0, "%", "common-practice", "repeats on a long and a short side that differ by no more than this look alike")


@dataclass(frozen=True)
class Joints:
    """Where the joints of equal repeats fall.

    `s_mm` are distances round the side from the middle of the back. `respected` says whether a joint falls on every corner
    (or every middle); where it does not, `note` says so and names the nearest numbers that would. `pitch_low_mm` and
    `pitch_high_mm` differ only on outlines with long and short sides.
    """

    s_mm: tuple[float, ...]
    at: str
    respected: bool
    pitch_low_mm: float
    pitch_high_mm: float
    note: str = ""


# --- outlines ----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Outline:
    """A tier seen from above: the tin's width and length, and the coat round it [mm].

    Use `outline` to make one. Round and straight-sided outlines take a coat into their size; an oval, a heart and a petal
    keep it apart, because their coated outline is no longer the same figure.
    """

    core_width_mm: float
    core_length_mm: float
    coat_mm: float = 0.0

    kind: ClassVar[str] = ""

    # what each shape says of itself

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """The straight and circular parts of the side, from the middle of the back, anticlockwise."""
        raise NotImplementedError

    def offset(self, thickness_mm: float) -> Outline:
        """Give the outline with a coat of this thickness, or without one where it is below nothing.

        Formula: every part of the side moves outwards by t: straight lines meet in sharp corners, arcs keep their middle,
        smooth convex outlines follow Steiner, A + P t + pi t^2 and P + 2 pi t.

        Parameters
        ----------
        thickness_mm : float
            Thickness t of the coat; below nothing trims the cake [mm]

        Returns
        -------
        Outline
            The outline outside it [-]

        Raises
        ------
        ValueError
            So much is trimmed that nothing of the shape is left.

        Range: any coat; trims up to where the outline would fall apart. Leaves out: corners rounded by hand.

        Example
        -------
        >>> outline("square", 200).offset(5).area_mm2, round(outline("round", 200).offset(5).perimeter_mm, 3)
        (44100.0, 659.734)

        Source: steiner, geometry
        """
        raise NotImplementedError

    # what follows

    @property
    def width_mm(self) -> float:
        """Width as the shape is named: left to right, across the flats of a hexagon [mm]."""
        return self.core_width_mm + 2 * self.coat_mm

    @property
    def length_mm(self) -> float:
        """Front to back [mm]."""
        return self.core_length_mm + 2 * self.coat_mm

    @property
    def convex(self) -> bool:
        """Whether a straight line crosses the outline at most twice."""
        return True

    @cached_property
    def perimeter_mm(self) -> float:
        """Length round the side P [mm]."""
        return math.fsum(segment.length_mm for segment in self.segments)

    @cached_property
    def area_mm2(self) -> float:
        """Area of the top A [mm2]."""
        return math.fsum(segment.swept_mm2 for segment in self.segments)

    @cached_property
    def _walks(self) -> tuple[Walk, ...]:
        return tuple(segment.walk() for segment in self.segments)

    @cached_property
    def _starts(self) -> tuple[float, ...]:
        """Distance from the middle of the back to the start of each part [mm]."""
        return tuple(math.fsum(segment.length_mm for segment in self.segments[:i]) for i in range(len(self.segments)))

    @cached_property
    def _turns(self) -> tuple[tuple[float, float], ...]:
        """Distance and turning angle of every sharp corner [mm, rad]; inwards is below nothing."""
        found = []
        for i, segment in enumerate(self.segments):
            turn = turn_between(self.segments[i - 1], segment)
            if abs(turn) > 1e-6:
                found.append((self._starts[i], turn))
        return tuple(found)

    @property
    def corners_mm(self) -> tuple[float, ...]:
        """Distances round the side to the sharp corners and notches [mm]."""
        return tuple(s for s, _ in self._turns)

    @property
    def notches_mm(self) -> tuple[float, ...]:
        """Distances round the side to the corners that turn inwards [mm]."""
        return tuple(s for s, turn in self._turns if turn < 0)

    @cached_property
    def middles_mm(self) -> tuple[float, ...]:
        """Distances round the side to the middles between the corners; none on a smooth outline [mm]."""
        corners, whole = self.corners_mm, self.perimeter_mm
        if not corners:
            return ()
        ends = corners[1:] + (corners[0] + whole,)
        found = [((a + b) / 2) % whole for a, b in zip(corners, ends, strict=True)]
        return tuple(sorted(0.0 if whole - s < 1e-9 * whole else s for s in found))

    @cached_property
    def extent_mm(self) -> tuple[float, float, float, float]:
        """Left, front, right and back of the box round it [mm]."""
        xs: list[float] = []
        ys: list[float] = []
        for segment in self.segments:
            if isinstance(segment, Straight):
                xs.append(segment.x0)
                ys.append(segment.y0)
                continue
            end = segment.start + segment.sweep
            quarter = math.pi / 2
            stops = [segment.start, end]
            stops += [k * quarter for k in range(math.ceil(segment.start / quarter), math.floor(end / quarter) + 1)]
            xs += [segment.cx + segment.radius * math.cos(angle) for angle in stops]
            ys += [segment.cy + segment.radius * math.sin(angle) for angle in stops]
        return min(xs), min(ys), max(xs), max(ys)

    def point(self, s_mm: float) -> tuple[float, float, float]:
        """Give the point and the direction at a distance round the side from the middle of the back.

        Formula: the part of the side in which s lies, and the rest of s along it; at a sharp corner the direction is halfway
        between its two sides. Outwards is the heading less a quarter turn.

        Parameters
        ----------
        s_mm : float
            Distance s round the side, anticlockwise; any number of times round [mm]

        Returns
        -------
        tuple of (float, float, float)
            x to the right and y to the back [mm], and the heading of travel, from x anticlockwise [rad]

        Raises
        ------
        ValueError
            s is not a finite number.

        Range: any finite s. Leaves out: the height.

        Example
        -------
        >>> [round(v, 6) for v in outline("round", 200).point(0)]
        [0.0, 100.0, 3.141593]
        >>> [round(v, 6) for v in outline("square", 200).point(100)]  # the corner left at the back
        [-100.0, 100.0, 3.926991]

        Source: geometry
        """
        if not math.isfinite(s_mm):
            raise ValueError("a distance round the side is a finite number")
        whole = self.perimeter_mm
        s = s_mm % whole
        near = 1e-9 * whole
        starts = self._starts
        index = bisect_right(starts, s) - 1
        if s - starts[index] < near or (starts[index + 1] if index + 1 < len(starts) else whole) - s < near:
            for corner, turn in self._turns:
                apart = abs(s - corner)
                if apart < near or whole - apart < near:
                    index = starts.index(corner)
                    x, y, heading = self.segments[index].at(0.0)
                    return x, y, (heading - turn / 2) % (2 * math.pi)
        x, y, heading = self._walks[index](s - starts[index])
        return x, y, heading % (2 * math.pi)

    def points(self, count: int = 96) -> tuple[Point, ...]:
        """Give the outline as a polygon: every corner, and about `count` points shared out over the rounded parts.

        Formula: each circular part of length l gets ceil(count l / L) equal steps, L the length of all rounded parts.

        Parameters
        ----------
        count : int
            How many points the rounded parts get in all [-]

        Returns
        -------
        tuple of (float, float)
            x and y of the points, from the middle of the back, anticlockwise, not closed [mm]

        Raises
        ------
        ValueError
            Fewer than eight are asked for.

        Range: 8 points or more; an inscribed polygon of n points on a circle has 1 - 6.6/n^2 of its area.
        Leaves out: the closing point.

        Example
        -------
        >>> outline("square", 200).points()[1], len(outline("round", 200).points(96))
        ((-100.0, 100.0), 96)

        Source: geometry
        """
        if count < 8:
            raise ValueError("a polygon of an outline has eight points or more")
        rounded = math.fsum(segment.length_mm for segment in self.segments if isinstance(segment, Arc))
        found: list[Point] = []
        for segment in self.segments:
            if isinstance(segment, Straight):
                found.append((segment.x0, segment.y0))
                continue
            length, walked = segment.length_mm, segment.walk()
            steps = max(1, math.ceil(count * length / rounded - 1e-9))
            found += [walked(length * k / steps)[:2] for k in range(steps)]
        return tuple(found)

    def division(self, repeats: int, at: str = "corners") -> Joints:
        """Divide the side evenly by arc length, with joints on the corners or on the middles between them.

        Formula: between two neighbouring anchors (corners or middles) of distance l lie n_i equal repeats, the n_i whole
        numbers nearest n l / P that make up n. The corners count as respected when the widest repeat is at most 5 %
        wider than the narrowest; otherwise the side is divided evenly without regard to them, and `note` says so.

        Parameters
        ----------
        repeats : int
            Number of repeats n [-]
        at : str
            "corners" or "middles": where joints should fall; a smooth outline has neither and starts at the back [-]

        Returns
        -------
        Joints
            Distances round the side, and whether the corners are respected [-]

        Raises
        ------
        ValueError
            There is no repeat, or `at` is neither.

        Range: n >= 1. Leaves out: the width of the piping at a corner.

        Example
        -------
        >>> outline("square", 200).division(8).s_mm
        (0.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 700.0)
        >>> outline("square", 200).division(10).note
        '10 repeats cannot put a joint on each of the 4 corners evenly; 8 or 12 can'

        Source: geometry, common-practice
        """
        if repeats < 1:
            raise ValueError("a side is divided into one repeat or more")
        if at not in ("corners", "middles"):
            raise ValueError("joints fall on the corners or on the middles")
        return _division(self, repeats, at)

    def joints(self, repeats: int, at: str = "corners") -> tuple[float, ...]:
        """Give the distances round the side of the joints of n equal repeats; see `division`.

        Formula: as `division`.

        Parameters
        ----------
        repeats : int
            Number of repeats n [-]
        at : str
            "corners" or "middles" [-]

        Returns
        -------
        tuple of float
            Distances round the side from the middle of the back, in order [mm]

        Raises
        ------
        ValueError
            There is no repeat, or `at` is neither.

        Range: n >= 1. Leaves out: whether the corners are respected, which `division` says.

        Example
        -------
        >>> outline("square", 200).joints(4)
        (100.0, 300.0, 500.0, 700.0)

        Source: geometry
        """
        return self.division(repeats, at).s_mm

    def repeats_that_fit(self, low: int, high: int, at: str = "corners") -> tuple[int, ...]:
        """Give every number of repeats in a range that respects the corners.

        Formula: those n for which `division(n, at).respected`.

        Parameters
        ----------
        low : int
            Fewest repeats [-]
        high : int
            Most repeats [-]
        at : str
            "corners" or "middles" [-]

        Returns
        -------
        tuple of int
            Numbers of repeats, in order [-]

        Raises
        ------
        ValueError
            `at` is neither.

        Range: 1 <= low <= high. Leaves out: how wide the repeats come out.

        Example
        -------
        >>> outline("heart", 200).repeats_that_fit(5, 10)
        (6, 8, 10)

        Source: geometry
        """
        return tuple(n for n in range(max(1, low), high + 1) if self.division(n, at).respected)

    def scaled(self, factor: float) -> Outline:
        """Give the same outline at another size, such as one whose side is what the tape says.

        Formula: every length times the factor.

        Parameters
        ----------
        factor : float
            New size over old [-]

        Returns
        -------
        Outline
            The same shape [-]

        Raises
        ------
        ValueError
            The factor is not above nothing.

        Range: factor > 0. Leaves out: a coat of a given thickness, which is scaled with the rest.

        Example
        -------
        >>> tier = outline("square", 200)
        >>> tier.scaled(660 / tier.perimeter_mm).width_mm
        165.0

        Source: geometry
        """
        if not factor > 0:
            raise ValueError("a cake is made larger or smaller by a factor above nothing")
        return type(self)(self.core_width_mm * factor, self.core_length_mm * factor, self.coat_mm * factor)

    def _positive(self, thickness_mm: float) -> None:
        if min(self.width_mm, self.length_mm) + 2 * thickness_mm <= 0:
            raise ValueError("nothing of the cake is left when so much is trimmed")


def _polygon_segments(vertices: tuple[Point, ...]) -> tuple[Segment, ...]:
    """The sides of a polygon whose last side is the back one, cut at its middle where the way round starts."""
    (x1, y1), (x0, y0) = vertices[0], vertices[-1]
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    way = (middle, *vertices, middle)
    return tuple(Straight(*a, *b) for a, b in zip(way, way[1:], strict=False))


@dataclass(frozen=True)
class Round(Outline):
    """A round tier."""

    kind: ClassVar[str] = "round"

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """One full circle."""
        return (Arc(0.0, 0.0, self.width_mm / 2, math.pi / 2, 2 * math.pi),)

    def offset(self, thickness_mm: float) -> Outline:
        """A wider round; see `Outline.offset`."""
        self._positive(thickness_mm)
        return Round(self.core_width_mm + 2 * thickness_mm, self.core_length_mm + 2 * thickness_mm)

    @cached_property
    def _turns(self) -> tuple[tuple[float, float], ...]:
        return ()


@dataclass(frozen=True)
class Rectangle(Outline):
    """A rectangle, or sheet: width left to right, length front to back."""

    kind: ClassVar[str] = "rectangle"

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """Four straight sides, the back one in two halves."""
        x, y = self.width_mm / 2, self.length_mm / 2
        return _polygon_segments(((-x, y), (-x, -y), (x, -y), (x, y)))

    def offset(self, thickness_mm: float) -> Outline:
        """A larger one with sharp corners; see `Outline.offset`."""
        self._positive(thickness_mm)
        return type(self)(self.core_width_mm + 2 * thickness_mm, self.core_length_mm + 2 * thickness_mm)


@dataclass(frozen=True)
class Square(Rectangle):
    """A square tier."""

    kind: ClassVar[str] = "square"


@dataclass(frozen=True)
class Hexagon(Outline):
    """A regular hexagon, its width flat to flat, a flat at the back."""

    kind: ClassVar[str] = "hexagon"

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """Six straight sides, the back one in two halves."""
        corner = self.width_mm / math.sqrt(3)
        half, flat = corner / 2, self.width_mm / 2
        return _polygon_segments(((-half, flat), (-corner, 0.0), (-half, -flat), (half, -flat), (corner, 0.0), (half, flat)))

    def offset(self, thickness_mm: float) -> Outline:
        """A larger one with sharp corners; see `Outline.offset`."""
        self._positive(thickness_mm)
        return Hexagon(self.core_width_mm + 2 * thickness_mm, self.core_length_mm + 2 * thickness_mm)


@dataclass(frozen=True)
class Heart(Outline):
    """A heart: a square on its point with a semicircle on each of its two upper sides; the notch at the back.

    A coat keeps the middles of the lobes, moves the straight sides out to a sharp point, and fills the notch to where the
    coats of the two lobes meet.
    """

    kind: ClassVar[str] = "heart"

    @property
    def square_mm(self) -> float:
        """Side a of the square [mm]."""
        return self.core_width_mm / (1 + math.sqrt(0.5))

    @property
    def convex(self) -> bool:
        """A heart is not: it has a notch."""
        return False

    @property
    def length_mm(self) -> float:
        """From the point to the back of the lobes [mm]; the coat at the sharp point is sqrt(2) t long."""
        return self.core_length_mm + (1 + math.sqrt(2)) * self.coat_mm

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """Left lobe, two straight sides to and from the point, right lobe."""
        a, t = self.square_mm, self.coat_mm
        down = self.core_length_mm / 2  # from the middle of the box round the uncoated heart to its point
        reach = a / math.sqrt(8)  # how far the middle of a lobe lies to the side
        high = 3 * reach - down
        radius = a / 2 + t
        lean = math.asin(min(1.0, reach / radius))  # of the line from the middle of a lobe to the notch
        corner = math.sqrt(0.5)
        left, right = (-reach - radius * corner, high - radius * corner), (reach + radius * corner, high - radius * corner)
        tip = (0.0, -down - math.sqrt(2) * t)
        return (
            Arc(-reach, high, radius, math.pi / 2 - lean, 0.75 * math.pi + lean),
            Straight(*left, *tip),
            Straight(*tip, *right),
            Arc(reach, high, radius, -math.pi / 4, 0.75 * math.pi + lean),
        )

    def offset(self, thickness_mm: float) -> Outline:
        """The same heart with more or less coat; see `Outline.offset`."""
        coat = self.coat_mm + thickness_mm
        if self.square_mm / 2 + coat < self.square_mm / math.sqrt(8):
            raise ValueError("nothing of the notch is left when so much is trimmed off a heart")
        return Heart(self.core_width_mm, self.core_length_mm, coat)


@dataclass(frozen=True)
class Petal(Outline):
    """A petal outline: a regular octagon with a semicircle on each side; a petal at the back.

    A coat keeps the middles of the petals and fills the notches to where the coats of two petals meet.
    """

    kind: ClassVar[str] = "petal"

    @property
    def octagon_mm(self) -> float:
        """Side c of the octagon, the diameter of each semicircle [mm]."""
        return self.core_width_mm / (1 + 1 / math.tan(math.pi / PETALS))

    @property
    def convex(self) -> bool:
        """A petal outline is not: it has eight notches."""
        return False

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """Eight arcs, the back one in two halves."""
        part = math.pi / PETALS
        middle = self.octagon_mm / 2 / math.tan(part)  # of a petal, from the middle of the cake
        radius = self.octagon_mm / 2 + self.coat_mm
        half = part + math.asin(min(1.0, middle * math.sin(part) / radius))
        found = [Arc(0.0, middle, radius, math.pi / 2, half)]
        for k in range(1, PETALS):
            way = math.pi / 2 + 2 * part * k
            found.append(Arc(middle * math.cos(way), middle * math.sin(way), radius, way - half, 2 * half))
        found.append(Arc(0.0, middle, radius, math.pi / 2 - half, half))
        return tuple(found)

    def offset(self, thickness_mm: float) -> Outline:
        """The same petals with more or less coat; see `Outline.offset`."""
        coat = self.coat_mm + thickness_mm
        if self.octagon_mm / 2 + coat < self.octagon_mm / 2 * math.cos(math.pi / PETALS):
            raise ValueError("the petals fall apart when so much is trimmed off them")
        return Petal(self.core_width_mm, self.core_length_mm, coat)


# --- the oval ----------------------------------------------------------------------------------------------------------


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
        """Length round the side: the ellipse's, and 2 pi t for the coat [mm]."""
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
        """Left, front, right and back of the box round it [mm]."""
        return -self.width_mm / 2, -self.length_mm / 2, self.width_mm / 2, self.length_mm / 2

    def offset(self, thickness_mm: float) -> Outline:
        """The same ellipse with more or less coat; see `Outline.offset`."""
        a, b = self.half_axes_mm
        coat = self.coat_mm + thickness_mm
        if min(a, b) ** 2 / max(a, b) + coat <= 0:
            raise ValueError("an oval would get corners when so much is trimmed off it")
        return Oval(self.core_width_mm, self.core_length_mm, coat)

    def _speed(self, middle: float, half: float = 0.0, places: tuple[tuple[float, float], ...] = ((0.0, 1.0),)) -> float:
        """Length of the coated side for each radian of the ellipse's parameter, from the back: the weighted sum at some places [mm/rad]."""
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
        """The ellipse's parameter, from the back, at a distance round the coated side [rad]."""
        step = 2 * math.pi / _OVAL_CELLS
        cell = min(_OVAL_CELLS - 1, bisect_right(self._table, s) - 1)
        low = cell * step
        rest = s - self._table[cell]
        u = low + step * rest / (self._table[cell + 1] - self._table[cell])
        for _ in range(8):
            change = (self._length(low, u) - rest) / self._speed(u)
            u -= change
            if abs(change) < 1e-8:  # each step has twice as many right digits as the one before
                break
        return u

    def point(self, s_mm: float) -> tuple[float, float, float]:
        """Point and heading at a distance round the side; see `Outline.point`."""
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
        """The outline as a polygon, closest where it bends most; see `Outline.points`."""
        if count < 8:
            raise ValueError("a polygon of an outline has eight points or more")
        return tuple(self._at(2 * math.pi * k / count)[:2] for k in range(count))


# --- even division -----------------------------------------------------------------------------------------------------


def _shared(lengths: tuple[float, ...], repeats: int) -> tuple[int, ...]:
    """Share repeats over sides so that the widest and the narrowest repeat differ least, each side getting one or more."""
    whole = math.fsum(lengths)
    counts = [max(1, math.floor(repeats * length / whole + 1e-9)) for length in lengths]
    while sum(counts) < repeats:  # the next repeat goes where the repeats are widest
        widest = max(range(len(counts)), key=lambda i: (round(lengths[i] / counts[i], 9), -i))
        counts[widest] += 1
    while sum(counts) > repeats:  # and comes off where taking one leaves them least wide
        spared = min((i for i in range(len(counts)) if counts[i] > 1), key=lambda i: lengths[i] / (counts[i] - 1))
        counts[spared] -= 1
    return tuple(counts)


def _spread(lengths: tuple[float, ...], counts: tuple[int, ...]) -> tuple[float, float]:
    pitches = [length / count for length, count in zip(lengths, counts, strict=True)]
    return min(pitches), max(pitches)


def _respected(lengths: tuple[float, ...], repeats: int) -> bool:
    if repeats < len(lengths):
        return False
    low, high = _spread(lengths, _shared(lengths, repeats))
    return 100 * (high / low - 1) <= EVEN_ENOUGH_PERCENT


@lru_cache(maxsize=2048)
def _division(shape: Outline, repeats: int, at: str) -> Joints:
    whole = shape.perimeter_mm
    anchors = shape.corners_mm if at == "corners" else shape.middles_mm
    if not anchors:
        pitch = whole / repeats
        return Joints(tuple(pitch * k for k in range(repeats)), at, True, pitch, pitch)
    lengths = tuple(b - a for a, b in zip(anchors, anchors[1:] + (anchors[0] + whole,), strict=True))
    if not _respected(lengths, repeats):
        pitch = whole / repeats
        start = anchors[0] % pitch
        what = {"heart": "the notch and the point"}.get(shape.kind, f"each of the {len(anchors)} corners")
        if at == "middles":
            what = f"each of the {len(anchors)} middles"
        fewer = next((n for n in range(repeats - 1, len(anchors) - 1, -1) if _respected(lengths, n)), None)
        more = next((n for n in range(max(repeats + 1, len(anchors)), repeats + 400) if _respected(lengths, n)), None)
        others = " or ".join(str(n) for n in (fewer, more) if n)
        note = f"{repeats} repeats cannot put a joint on {what} evenly" + (f"; {others} can" if others else "")
        return Joints(tuple(start + pitch * k for k in range(repeats)), at, False, pitch, pitch, note)
    counts = _shared(lengths, repeats)
    low, high = _spread(lengths, counts)
    found = sorted(
        (anchor + length * k / count) % whole for anchor, length, count in zip(anchors, lengths, counts, strict=True) for k in range(count)
    )
    if whole - found[-1] < 1e-9 * whole:  # a joint at the back belongs at nothing, not at once round
        found = [0.0, *found[:-1]]
    note = ""
    if high / low - 1 > 1e-6:
        note = f"Repeats on the long and the short sides differ by {100 * (high / low - 1):.1f} %"
    return Joints(tuple(found), at, True, low, high, note)


# --- by name -----------------------------------------------------------------------------------------------------------

_CLASSES: dict[str, type[Outline]] = {cls.kind: cls for cls in (Round, Square, Rectangle, Hexagon, Oval, Heart, Petal)}
SHAPES: tuple[str, ...] = tuple(_CLASSES)
TWO_SIZES = ("rectangle", "oval")
outline_choices: tuple[tuple[str, str], ...] = (
    ("round", "Round"),
    ("square", "Square"),
    ("rectangle", "Rectangle (sheet)"),
    ("hexagon", "Hexagon"),
    ("oval", "Oval"),
    ("heart", "Heart"),
    ("petal", "Petal"),
)
_HEART_LENGTH = (0.75 * math.sqrt(2) + 0.5) / (1 + math.sqrt(0.5))  # length over width


@lru_cache(maxsize=512)
def outline(shape: str, width_mm: float, length_mm: float | None = None) -> Outline:
    """Make the outline of a tier from its shape and the tin's size.

    Formula: none; each shape says at the top of this room what its width means.

    Parameters
    ----------
    shape : str
        One of `SHAPES` [-]
    width_mm : float
        Width of the tin, flat to flat for a hexagon [mm]
    length_mm : float
        Length front to back of a rectangle or an oval; the other shapes have one size and take none [mm]

    Returns
    -------
    Outline
        The uncoated outline [-]

    Raises
    ------
    ValueError
        The shape is not known, a size is not above nothing, or a length is missing or one too many.

    Range: any size above nothing; an oval up to ten times as long as wide. Leaves out: tins with rounded corners.

    Example
    -------
    >>> outline("rectangle", 300, 400).perimeter_mm, round(outline("heart", 200).area_mm2)
    (1400.0, 24506)

    Source: geometry
    """
    if shape not in _CLASSES:
        raise ValueError(f"a shape is one of {', '.join(SHAPES)}, not {shape!r}")
    if not (0 < width_mm < math.inf) or (length_mm is not None and not 0 < length_mm < math.inf):
        raise ValueError("a tin has sizes above nothing")
    if shape in TWO_SIZES:
        if length_mm is None:
            raise ValueError(f"{'an' if shape == 'oval' else 'a'} {shape} has a length as well as a width")
        if shape == "oval" and max(width_mm, length_mm) > 10 * min(width_mm, length_mm):
            raise ValueError("an oval is at most ten times as long as wide")
        return _CLASSES[shape](float(width_mm), float(length_mm))
    if length_mm is not None and (shape not in ("round", "square") or abs(length_mm - width_mm) > 1e-9 * width_mm):
        raise ValueError(f"a {shape} has one size; leave the length out")
    own_length = width_mm * (_HEART_LENGTH if shape == "heart" else 1.0)
    return _CLASSES[shape](float(width_mm), float(own_length))
