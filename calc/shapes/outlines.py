"""What every outline can tell: area, perimeter, corners, points, coat, division."""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import cached_property
from typing import ClassVar

from calc.geometry.polygons import Point
from calc.geometry.segments import Arc, Segment, Straight, Walk, turn_between
from calc.shapes.joints import Joints, divide


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

    # defined by each shape

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        """The straight and circular parts of the outline, from the middle of the back, anticlockwise."""
        raise NotImplementedError

    def offset(self, thickness_mm: float) -> Outline:
        """Give the outline with a coat of this thickness round it; a negative thickness trims it.

        Formula: every segment moves outwards by t: straight lines meet in sharp corners, arcs keep their centre,
        smooth convex outlines follow Steiner, A + P t + pi t^2 and P + 2 pi t.

        Parameters
        ----------
        self : Outline
            The outline [mm]
        thickness_mm : float
            Thickness t of the coat [mm]

        Returns
        -------
        Outline
            The outline outside it [mm]

        Raises
        ------
        ValueError
            Nothing of the shape is left.

        Range: any coat; trims up to where the outline would fall apart. Leaves out: corners rounded by hand.

        Example
        -------
        >>> from calc.shapes import outline
        >>> outline("square", 200).offset(5).area_mm2, round(outline("round", 200).offset(5).perimeter_mm, 3)
        (44100.0, 659.734)

        Source: steiner (the plane case)
        """
        raise NotImplementedError

    # derived from the segments

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
        """Length round the outline P [mm]."""
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
        """Distance from the middle of the back to the start of each segment [mm]."""
        return tuple(math.fsum(segment.length_mm for segment in self.segments[:i]) for i in range(len(self.segments)))

    @cached_property
    def _turns(self) -> tuple[tuple[float, float], ...]:
        """Distance and turning angle of every sharp corner [mm, rad]; negative if it turns inwards."""
        found = []
        for i, segment in enumerate(self.segments):
            turn = turn_between(self.segments[i - 1], segment)
            if abs(turn) > 1e-6:
                found.append((self._starts[i], turn))
        return tuple(found)

    @property
    def corners_mm(self) -> tuple[float, ...]:
        """Distances round the outline to the sharp corners and notches [mm]."""
        return tuple(s for s, _ in self._turns)

    @property
    def notches_mm(self) -> tuple[float, ...]:
        """Distances round the outline to the corners that turn inwards [mm]."""
        return tuple(s for s, turn in self._turns if turn < 0)

    @cached_property
    def middles_mm(self) -> tuple[float, ...]:
        """Distances round the outline to the middles between the corners; none on a smooth outline [mm]."""
        corners, perimeter_mm = self.corners_mm, self.perimeter_mm
        if not corners:
            return ()
        ends = corners[1:] + (corners[0] + perimeter_mm,)
        found = [((a + b) / 2) % perimeter_mm for a, b in zip(corners, ends, strict=True)]
        return tuple(sorted(0.0 if perimeter_mm - s < 1e-9 * perimeter_mm else s for s in found))

    @cached_property
    def extent_mm(self) -> tuple[float, float, float, float]:
        """Left, front, right and back of its bounding box [mm]."""
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
        """Give the point at a distance round the outline from the middle of the back, and the heading of travel there.

        x is to the right and y to the back [mm], the heading anticlockwise from x [rad]; outwards is the heading less a quarter turn.
        At a sharp corner the heading is half-way between its two sides. The distance may go round any number of times.

        >>> from calc.shapes import outline
        >>> [round(v, 6) for v in outline("round", 200).point(0)]
        [0.0, 100.0, 3.141593]
        >>> [round(v, 6) for v in outline("square", 200).point(100)]  # the left corner at the back
        [-100.0, 100.0, 3.926991]
        """
        if not math.isfinite(s_mm):
            raise ValueError("a distance round the side is a finite number")
        perimeter_mm = self.perimeter_mm
        s = s_mm % perimeter_mm
        near = 1e-9 * perimeter_mm
        starts = self._starts
        index = bisect_right(starts, s) - 1
        if s - starts[index] < near or (starts[index + 1] if index + 1 < len(starts) else perimeter_mm) - s < near:
            for corner, turn in self._turns:
                apart = abs(s - corner)
                if apart < near or perimeter_mm - apart < near:
                    index = starts.index(corner)
                    x, y, heading = self.segments[index].at(0.0)
                    return x, y, (heading - turn / 2) % (2 * math.pi)
        x, y, heading = self._walks[index](s - starts[index])
        return x, y, heading % (2 * math.pi)

    def points(self, count: int = 96) -> tuple[Point, ...]:
        """Give the outline as a polygon: every corner, and about `count` points shared out over the rounded parts by length.

        The points begin at the middle of the back and run anticlockwise; the polygon is not closed. There must be eight or more: an
        inscribed polygon of n points has 1 - 6.6/n^2 of the area of its circle.

        >>> from calc.shapes import outline
        >>> outline("square", 200).points()[1], len(outline("round", 200).points(96))
        ((-100.0, 100.0), 96)
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
        """Divide the outline evenly by arc length, with joints on the corners or on the middles between them.

        Formula: between two neighbouring anchors (corners or middles) at a distance l lie n_i equal repeats, the n_i whole
        numbers nearest n l / P that add up to n. The corners count as respected if the widest repeat is at most 5 %
        wider than the narrowest; otherwise the outline is divided evenly without regard to them, and `note` says so.

        Parameters
        ----------
        self : Outline
            The outline [mm]
        repeats : int
            Number of repeats n [-]
        at : str
            "corners" or "middles": where joints should fall; a smooth outline has neither and starts at the back [-]

        Returns
        -------
        Joints
            Distances round the outline, and whether the corners are respected [mm]

        Raises
        ------
        ValueError
            There is no repeat, or `at` is neither.

        Range: n >= 1. Leaves out: the width of the piping at a corner.

        Example
        -------
        >>> from calc.shapes import outline
        >>> outline("square", 200).division(8).s_mm
        (0.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 700.0)
        >>> outline("square", 200).division(10).note
        '10 repeats cannot put a joint on each of the 4 corners evenly; 8 or 12 can'

        Source: common-practice
        """
        if repeats < 1:
            raise ValueError("a side is divided into one repeat or more")
        if at not in ("corners", "middles"):
            raise ValueError("joints fall on the corners or on the middles")
        anchors = self.corners_mm if at == "corners" else self.middles_mm
        return divide(self.perimeter_mm, anchors, repeats, at, self.kind)

    def joints(self, repeats: int, at: str = "corners") -> tuple[float, ...]:
        """Give only the distances of `division` [mm].

        >>> from calc.shapes import outline
        >>> outline("square", 200).joints(4)
        (100.0, 300.0, 500.0, 700.0)
        """
        return self.division(repeats, at).s_mm

    def repeats_that_fit(self, low: int, high: int, at: str = "corners") -> tuple[int, ...]:
        """Give every number of repeats from `low` to `high` that respects the corners.

        >>> from calc.shapes import outline
        >>> outline("heart", 200).repeats_that_fit(5, 10)
        (6, 8, 10)
        """
        return tuple(n for n in range(max(1, low), high + 1) if self.division(n, at).respected)

    def scaled(self, factor: float) -> Outline:
        """Give the same outline at another size, such as one whose perimeter is what the tape says; the coat is scaled with the rest.

        >>> from calc.shapes import outline
        >>> tier = outline("square", 200)
        >>> tier.scaled(660 / tier.perimeter_mm).width_mm
        165.0
        """
        if not factor > 0:
            raise ValueError("a cake is scaled by a positive factor")
        return type(self)(self.core_width_mm * factor, self.core_length_mm * factor, self.coat_mm * factor)

    def _check_trim(self, thickness_mm: float) -> None:
        if min(self.width_mm, self.length_mm) + 2 * thickness_mm <= 0:
            raise ValueError("nothing of the cake is left when so much is trimmed")
