"""The shapes of tiers, and `outline`, which makes one from its name and the size of its tin."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import ClassVar

from calc.geometry.polygons import Point
from calc.geometry.segments import Arc, Segment, Straight
from calc.shapes.outlines import Outline
from calc.shapes.ovals import Oval
from calc.sources import constant

SQUARE_HEART = (1 + math.pi / 4) / (1 + math.sqrt(0.5)) ** 2  # fullness of a square on its point with two semicircles, 0.6126
LEANEST_HEART, FULLEST_HEART = 0.61, 0.78  # the square's, rounded, and one that is nearly round in front
_LOBE = 1 / (2 + math.sqrt(2))  # radius of a lobe over the width
HEART_FULLNESS = constant(
    0.72,
    "-",
    "from-memory",
    "top of a heart tin over the square of its width: one of 8 in (20 cm) holds what a top of about 46 square inches (297 cm2) does",
    low=0.62,
    high=0.78,
)
PETALS = 8  # a petal tin with eight petals is the usual one (common practice, no source)


def _polygon_segments(vertices: tuple[Point, ...]) -> tuple[Segment, ...]:
    """The sides of a polygon whose last side is the back one, split at its middle, where the outline starts."""
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
        self._check_trim(thickness_mm)
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
        self._check_trim(thickness_mm)
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
        self._check_trim(thickness_mm)
        return Hexagon(self.core_width_mm + 2 * thickness_mm, self.core_length_mm + 2 * thickness_mm)


@dataclass(frozen=True)
class Heart(Outline):
    """A heart: two lobes, and a side from each to the point; the notch at the back.

    The leanest is a square on its point with a semicircle on each of its two upper sides. A fuller one has the same lobes, and its sides
    are arcs that bulge: each leaves its lobe at an angle below the widest place, where they touch, and meets the other in the point.
    A coat keeps the centres of all arcs, moves the sides out to a sharp point, and fills the notch to where the coats of the two lobes
    meet. How full a heart is follows from its length, which grows with it.
    """

    kind: ClassVar[str] = "heart"

    @cached_property
    def _sides(self) -> _HeartSides:
        return _heart_sides(round(self.core_length_mm / self.core_width_mm, 9))

    @property
    def fullness(self) -> float:
        """Area of the uncoated top over the square of its width [-]."""
        return self._sides.fullness

    @property
    def convex(self) -> bool:
        """A heart is not convex: it has a notch."""
        return False

    @cached_property
    def length_mm(self) -> float:
        """From the point to the back of the lobes [mm]; at the sharp point the coat is longer than it is thick."""
        _, front, _, back = self.extent_mm
        return back - front

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """Left lobe, left side to the point, right side from it, right lobe."""
        t, sides, wide = self.coat_mm, self._sides, self.core_width_mm
        lobe, reach = _LOBE * wide, (0.5 - _LOBE) * wide  # radius of a lobe, and how far its middle lies to the side
        high = self.core_length_mm / 2 - lobe  # of the middle of a lobe over the middle of the box round the uncoated heart
        radius, leaves = lobe + t, sides.leaves
        lean = math.asin(min(1.0, reach / radius))  # of the line from the middle of a lobe to the notch
        left_lobe = Arc(-reach, high, radius, math.pi / 2 - lean, math.pi / 2 + leaves + lean)
        right_lobe = Arc(reach, high, radius, -leaves, math.pi / 2 + leaves + lean)
        if sides.radius is None:
            x, y = reach + radius * math.cos(leaves), high - radius * math.sin(leaves)
            tip = (0.0, y - x)
            return left_lobe, Straight(-x, y, *tip), Straight(*tip, x, y), right_lobe
        bend = sides.radius * wide
        cx, cy = reach + (lobe - bend) * math.cos(leaves), high + (bend - lobe) * math.sin(leaves)
        meets = math.acos(min(1.0, -cx / (bend + t)))  # the arc's angle where it reaches the axis
        return (
            left_lobe,
            Arc(-cx, cy, bend + t, math.pi + leaves, meets - leaves),
            Arc(cx, cy, bend + t, -meets, meets - leaves),
            right_lobe,
        )

    def offset(self, thickness_mm: float) -> Outline:
        """The same heart with more or less coat; see `Outline.offset`."""
        coat = self.coat_mm + thickness_mm
        if _LOBE * self.core_width_mm + coat < (0.5 - _LOBE) * self.core_width_mm:
            raise ValueError("nothing of the notch is left when so much is trimmed off a heart")
        return Heart(self.core_width_mm, self.core_length_mm, coat)


@dataclass(frozen=True)
class Petal(Outline):
    """A petal outline: a regular octagon with a semicircle on each side; a petal at the back.

    A coat keeps the centres of the petals and fills the notches to where the coats of two petals meet.
    """

    kind: ClassVar[str] = "petal"

    @property
    def octagon_mm(self) -> float:
        """Side c of the octagon, the diameter of each semicircle [mm]."""
        return self.core_width_mm / (1 + 1 / math.tan(math.pi / PETALS))

    @property
    def convex(self) -> bool:
        """A petal outline is not convex: it has eight notches."""
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


@dataclass(frozen=True)
class _HeartSides:
    """The sides of a heart of width 1: the angle below the widest place at which they leave the lobes [rad], their radius (None if straight),
    the length of the whole, and its fullness."""

    leaves: float
    radius: float | None
    length: float
    fullness: float


def _sides_leaving_at(leaves: float) -> _HeartSides:
    """Sides that leave the lobes at an angle: 45 degrees leaves them straight; at a smaller angle the point is blunter, by half of the difference."""
    reach, straight = 0.5 - _LOBE, math.pi / 4
    lobes = _LOBE * _LOBE * (3 * straight + leaves)  # both sectors, to the notch
    x, y = reach + _LOBE * math.cos(leaves), -_LOBE * math.sin(leaves)
    if straight - leaves < 1e-4:
        return _HeartSides(straight, None, _LOBE + x - y, SQUARE_HEART)
    meets = straight + (straight - leaves) / 2
    radius = x / (math.cos(leaves) - math.cos(meets))
    tip = y - radius * (math.sin(meets) - math.sin(leaves))
    turn = meets - leaves
    between = -x * tip - reach * y + reach * reach  # twice a quarter: point, side, middle of the lobe, notch
    return _HeartSides(leaves, radius, _LOBE - tip, lobes + between + radius * radius * (turn - math.sin(turn)))


def _sides_where(is_leaner: Callable[[_HeartSides], bool]) -> _HeartSides:
    """The sides at which something turns, by bisection: fullness and length grow as the angle falls."""
    low, high = 0.0, math.pi / 4
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if is_leaner(_sides_leaving_at(middle)) else (middle, high)
    return _sides_leaving_at(high)


@lru_cache(maxsize=64)
def _heart_sides(length: float) -> _HeartSides:
    """The sides of a heart by its length over its width."""
    return _sides_where(lambda sides: sides.length < length - 5e-10)


@lru_cache(maxsize=64)
def _heart_length(fullness: float) -> float:
    """Length over width of a heart of some fullness."""
    if fullness - SQUARE_HEART < 1e-9:
        return (0.75 * math.sqrt(2) + 0.5) / (1 + math.sqrt(0.5))
    return _sides_where(lambda sides: sides.fullness < fullness).length


@lru_cache(maxsize=512)
def outline(shape: str, width_mm: float, length_mm: float | None = None, fullness: float | None = None) -> Outline:
    """Make the outline of a tier from its shape and the size of its tin [mm].

    `shape` is one of `SHAPES`; the top of this room says what its width means. A rectangle and an oval (up to ten times as long
    as wide) need a length from front to back; the other shapes have one size and take none. `fullness` is a heart's area over the square of its
    width, from 0.61 (a square with two half circles) to 0.78; None takes that of most tins. Anything else raises ValueError.

    >>> outline("rectangle", 300, 400).perimeter_mm, round(outline("heart", 200).area_mm2), round(outline("heart", 200, fullness=0.65).area_mm2)
    (1400.0, 28800, 26000)
    """
    if shape not in _CLASSES:
        raise ValueError(f"a shape is one of {', '.join(SHAPES)}, not {shape!r}")
    if not (0 < width_mm < math.inf) or (length_mm is not None and not 0 < length_mm < math.inf):
        raise ValueError("a tin has positive sizes")
    if shape in TWO_SIZES:
        if length_mm is None:
            raise ValueError(f"{'an' if shape == 'oval' else 'a'} {shape} has a length as well as a width")
        if shape == "oval" and max(width_mm, length_mm) > 10 * min(width_mm, length_mm):
            raise ValueError("an oval is at most ten times as long as wide")
        return _CLASSES[shape](float(width_mm), float(length_mm))
    if length_mm is not None and (shape not in ("round", "square") or abs(length_mm - width_mm) > 1e-9 * width_mm):
        raise ValueError(f"a {shape} has one size; leave the length out")
    full = float(HEART_FULLNESS) if fullness is None else fullness
    if not LEANEST_HEART <= full <= FULLEST_HEART or (fullness is not None and shape != "heart"):
        raise ValueError("a heart's fullness is between 0.61 and 0.78, and no other shape has one")
    own_length = width_mm * (_heart_length(full) if shape == "heart" else 1.0)
    return _CLASSES[shape](float(width_mm), float(own_length))
