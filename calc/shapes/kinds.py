"""The shapes of tiers, and `outline`, which makes one from its name and the size of its tin."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import ClassVar

from calc.geometry.polygons import Point
from calc.geometry.segments import Arc, Segment, Straight
from calc.shapes.outlines import Outline
from calc.shapes.ovals import Oval

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
    """A heart: a square on its point with a semicircle on each of its two upper sides; the notch at the back.

    A coat keeps the centres of the lobes, moves the straight sides out to a sharp point, and fills the notch to where the
    coats of the two lobes meet.
    """

    kind: ClassVar[str] = "heart"

    @property
    def square_mm(self) -> float:
        """Side a of the square [mm]."""
        return self.core_width_mm / (1 + math.sqrt(0.5))

    @property
    def convex(self) -> bool:
        """A heart is not convex: it has a notch."""
        return False

    @property
    def length_mm(self) -> float:
        """From the point to the back of the lobes [mm]; at the sharp point the coat is sqrt(2) t long."""
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
_HEART_LENGTH = (0.75 * math.sqrt(2) + 0.5) / (1 + math.sqrt(0.5))  # length over width


@lru_cache(maxsize=512)
def outline(shape: str, width_mm: float, length_mm: float | None = None) -> Outline:
    """Make the outline of a tier from its shape and the size of its tin [mm].

    `shape` is one of `SHAPES`; the top of this room says what its width means. A rectangle and an oval (up to ten times as long
    as wide) need a length from front to back; the other shapes have one size and take none. Anything else raises ValueError.

    >>> outline("rectangle", 300, 400).perimeter_mm, round(outline("heart", 200).area_mm2)
    (1400.0, 24506)
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
    own_length = width_mm * (_HEART_LENGTH if shape == "heart" else 1.0)
    return _CLASSES[shape](float(width_mm), float(own_length))
