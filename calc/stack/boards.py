"""Boards, dowels and the centre rod: what stands under and in each tier."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.geometry.polygons import Point
from calc.shapes import Heart, Outline, largest_circle
from calc.sources import constant
from calc.stack.lifting import Lift, lift
from calc.stack.weights import Body, Mass, tier_mass_g
from calc.units import Formatter, Problem

DRUM_BORDER_MM = constant(50.0, "mm", "common-practice", "board that shows round the lowest tier: room for shells at its base and for hands")
DOWELS_FEWEST = constant(4.0, "-", "common-practice", "dowels under a tier of up to 15 cm")
DOWEL_STEP_MM = constant(50.0, "mm", "common-practice", "one dowel more for each further 5 cm of the tier above")
INNER_BOARD_INSET_MM = constant(10.0, "mm", "common-practice", "the board inside a tall tier ends so far inside its finished side, under the coat")
DOWEL_INSET_MM = constant(25.0, "mm", "common-practice", "dowels stand this far inside the board they carry")
ROD_SHORT_MM = constant(20.0, "mm", "common-practice", "a centre rod ends this far below the top")
HEAVIEST_CAKE_G = constant(150_000.0, "g", "common-practice", "a stacked cake of sponge and buttercream; a heavier one is planned as several")


@dataclass(frozen=True)
class Support:
    """What stands under and in one tier.

    `board_*` is the board the tier stands on: the lowest one's shows all round, the others' are as wide as the finished tier.
    `dowels` stand in the tier at `dowel_points` (x, y from the middle), each `dowel_length_mm` long, to carry the board of the
    tier above; the uppermost has none. `seat_mm` is how far behind its own
    middle the tier above stands. A tall tier has `inner_boards`, one under each level but the lowest, and `inner_dowels`, all those that
    carry them; every dowel in it is as high as one level. `mass_g` is the tier's own weight, `carried_g` that of all tiers above it. `lift` is for
    the tier alone on its board; `lift_whole` for it and all above it.
    """

    board_width_mm: float
    board_length_mm: float
    dowels: int
    dowel_length_mm: float
    dowel_points: tuple[Point, ...]
    mass_g: float
    low_g: float
    high_g: float
    carried_g: float
    carried_high_g: float
    lift: Lift
    lift_whole: Lift
    seat_mm: float
    inner_boards: int
    inner_dowels: int
    inner_width_mm: float
    inner_length_mm: float

    @property
    def all_dowels(self) -> int:
        """Dowels in the tier: those that carry the next one, and those under its inner boards."""
        return self.dowels + self.inner_dowels

    @property
    def all_boards(self) -> int:
        """Boards under and in the tier."""
        return 1 + self.inner_boards


def dowel_count(above: Outline, tiers_above: int = 1) -> int:
    """Give how many dowels should carry a tier.

    Formula: 4 for a tier of up to 15 cm, one more for each further 5 cm of its width, one more for each tier beyond the
    first that they carry.

    Parameters
    ----------
    above : Outline
        Outline of the tier they carry [-]
    tiers_above : int
        How many tiers they carry in all [-]

    Returns
    -------
    int
        Dowels [-]

    Raises
    ------
    ValueError
        They carry no tier.

    Range: sponge tiers on dowels or wide straws that do not bend. Leaves out: pillars, separators and systems with plates,
    which come with their own instructions.

    Example
    -------
    >>> from calc.shapes import outline
    >>> dowel_count(outline("round", 150)), dowel_count(outline("round", 250), 2)
    (4, 7)

    Source: common-practice
    """
    if tiers_above < 1:
        raise ValueError("dowels carry one tier or more")
    size = max(above.width_mm, above.length_mm)
    more = max(0, round((size - 150) / DOWEL_STEP_MM))
    return int(DOWELS_FEWEST) + more + tiers_above - 1


@lru_cache(maxsize=256)
def dowel_points(above: Outline, count: int) -> tuple[Point, ...]:
    """Give where dowels stand: evenly round inside the outline of the tier they carry.

    Formula: the joints of `count` equal repeats on the outline, drawn in towards the middle by 25 mm (a third of the half
    width on very small tiers).

    Parameters
    ----------
    above : Outline
        Outline of the tier they carry [-]
    count : int
        Dowels [-]

    Returns
    -------
    tuple of (float, float)
        x and y from the middle [mm]

    Raises
    ------
    ValueError
        There is no dowel.

    Range: any outline. Leaves out: the middle, which stays free for a centre rod.

    Example
    -------
    >>> from calc.shapes import outline
    >>> [tuple(round(v) for v in p) for p in dowel_points(outline("square", 150), 4)]
    [(-50, 50), (-50, -50), (50, -50), (50, 50)]

    Source: common-practice
    """
    half = min(above.width_mm, above.length_mm) / 2
    inner = above.scaled(1 - min(DOWEL_INSET_MM / half, 1 / 3))
    division = inner.division(count, "corners")
    if not division.respected:
        division = inner.division(count, "middles")
    # otherwise evenly from the middle of the back, symmetrical left and right
    places = division.s_mm if division.respected else tuple(inner.perimeter_mm * k / count for k in range(count))
    return tuple(inner.point(s)[:2] for s in places)


def stands_on(lower: Outline, upper: Outline) -> bool:
    """Say whether a tier stands wholly on the one under it, both the same way round, where `seat_mm` puts it.

    >>> from calc.shapes import outline
    >>> stands_on(outline("hexagon", 250), outline("round", 240)), stands_on(outline("hexagon", 250), outline("square", 240))
    (True, False)
    """
    return seat_mm(lower, upper) is not None


@lru_cache(maxsize=512)
def seat_mm(lower: Outline, upper: Outline) -> float | None:
    """Give how far behind the middle of a tier the middle of the tier on it stands, or None where it does not stand wholly on it.

    Formula: 0, middle on middle, where it stands so; else the largest circle inside the upper one comes to lie on that inside the lower one.

    Parameters
    ----------
    lower : Outline
        The tier below [mm]
    upper : Outline
        The tier on it [mm]

    Returns
    -------
    float or None
        Distance to the back; negative is to the front [mm]

    Range: any outlines, the same way round. Leaves out: tiers set to one side on purpose.

    Example
    -------
    >>> from calc.shapes import outline
    >>> seat_mm(outline("square", 300), outline("round", 200)), seat_mm(outline("square", 200), outline("round", 201))
    (0.0, None)

    Source: geometry (largest inscribed circle)
    """
    if lower.kind == upper.kind and (not isinstance(lower, Heart) or not isinstance(upper, Heart) or abs(lower.fullness - upper.fullness) < 1e-4):
        return 0.0 if upper.width_mm <= lower.width_mm + 1e-6 and upper.length_mm <= lower.length_mm + 1e-6 else None
    if _is_inside(lower, upper, 0.0):
        return 0.0
    back = largest_circle(lower)[1] - largest_circle(upper)[1]
    return back if abs(back) > 1e-6 and _is_inside(lower, upper, back) else None


def _is_inside(lower: Outline, upper: Outline, back_mm: float) -> bool:
    """Whether an outline lies inside another when it is moved to the back by a distance."""
    left, front, right, back = lower.extent_mm
    slack = 1e-4 * (right - left)
    ring = lower.scaled(1 + 5e-4).points(288)
    for x, forward in upper.points(96):
        y = forward + back_mm
        if not (left - slack <= x <= right + slack and front - slack <= y <= back + slack) or not _holds(ring, x, y):
            return False
    foot = upper.scaled(1 - 2e-3).points(288)
    notches = [lower.point(s) for s in lower.notches_mm]  # a straight side may bridge one whose two corners are both covered
    return not any(_holds(foot, x, y - back_mm) for x, y, _ in notches)


def _holds(ring: Sequence[Point], x: float, y: float) -> bool:
    """Whether a polygon holds a point, by how often a line to the right crosses it."""
    inside = False
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
            inside = not inside
    return inside


def supports(bodies: Sequence[Body], border_mm: float = DRUM_BORDER_MM) -> tuple[Support, ...]:
    """Give boards, dowels, weights and the lift of every tier, from the lowest up.

    Formula: the lowest board is wider than its finished tier by two borders, every other is as wide as its tier; dowels as
    `dowel_count`, as long as the finished tier they stand in, or as one level of it; under an inner board the levels above it count as tiers;
    the load on a tier is the sum of the tiers above.

    Parameters
    ----------
    bodies : sequence of Body
        Finished tiers, the lowest first [-]
    border_mm : float
        Board that shows round the lowest tier [mm]

    Returns
    -------
    tuple of Support
        One for each tier, the lowest first [-]

    Raises
    ------
    ValueError
        There is no tier, or one is wider than the one under it.

    Range: one tier or more. Leaves out: the weight of boards, dowels and stand.

    Example
    -------
    >>> from calc.shapes import outline
    >>> low, high = supports([Body(outline("round", 210), 105), Body(outline("round", 160), 105)])
    >>> low.board_width_mm, low.dowels, low.dowel_length_mm, high.board_width_mm, high.dowels
    (310.0, 4, 105.0, 160.0, 0)

    Source: common-practice
    """
    if not bodies:
        raise ValueError("a cake has one tier or more")
    for lower, upper in zip(bodies, bodies[1:], strict=False):
        if upper.outline.width_mm > lower.outline.width_mm + 1e-6:
            raise ValueError("a tier is wider than the one under it")
    masses = [tier_mass_g(body) for body in bodies]
    found = []
    for i, (body, mass) in enumerate(zip(bodies, masses, strict=True)):
        points: tuple[Point, ...] = ()
        above = sum(masses[i + 1 :], Mass(0.0, 0.0, 0.0))
        edge = 2 * border_mm if i == 0 else 0.0
        left, front, right, back = body.outline.extent_mm
        front_to_back = back - front
        width, length = right - left + edge, front_to_back + edge
        dowels, above_it = 0, len(bodies) - i - 1
        inner = sum(dowel_count(body.outline, above_it + level) for level in range(1, body.levels))
        if i + 1 < len(bodies):
            carried = bodies[i + 1].outline
            dowels = dowel_count(carried, above_it)
            back = seat_mm(body.outline, carried) or 0.0
            points = tuple((x, y + back) for x, y in dowel_points(carried, dowels))
        reach = min(width, length)
        found.append(
            Support(
                board_width_mm=width,
                board_length_mm=length,
                dowels=dowels,
                dowel_length_mm=body.height_mm / body.levels if dowels or inner else 0.0,
                dowel_points=points,
                seat_mm=(seat_mm(body.outline, bodies[i + 1].outline) or 0.0) if i + 1 < len(bodies) else 0.0,
                mass_g=mass.middle_g,
                low_g=mass.low_g,
                high_g=mass.high_g,
                carried_g=above.middle_g,
                carried_high_g=above.high_g,
                lift=lift(mass.high_g, reach),
                lift_whole=lift(mass.high_g + above.high_g, reach),
                inner_boards=body.levels - 1,
                inner_dowels=inner,
                inner_width_mm=right - left - 2 * INNER_BOARD_INSET_MM if inner else 0.0,
                inner_length_mm=front_to_back - 2 * INNER_BOARD_INSET_MM if inner else 0.0,
            )
        )
    return tuple(found)


def centre_rod_mm(bodies: Sequence[Body]) -> float | None:
    """Give the length of a rod down the middle that keeps tiers from sliding, or None where a rod is not usual.

    Formula: the height of all tiers less 20 mm, from three tiers or 30 cm up.

    Parameters
    ----------
    bodies : sequence of Body
        Finished tiers [-]

    Returns
    -------
    float or None
        Length of the rod [mm]

    Range: any cake. Leaves out: a cake that travels stacked, which needs a rod whatever its height.

    Example
    -------
    >>> from calc.shapes import outline
    >>> centre_rod_mm([Body(outline("round", w), 100) for w in (300, 200, 150)])
    280.0

    Source: common-practice
    """
    height = math.fsum(body.height_mm for body in bodies)
    return height - ROD_SHORT_MM if len(bodies) >= 3 or (len(bodies) > 1 and height > 300) else None


def check_weight(stands: Sequence[Support], input_name: str, label: str, say: Formatter) -> None:
    """Raise a `Problem` if a cake is heavier than any that is made in one piece."""
    total_g = math.fsum(stand.mass_g for stand in stands)
    if total_g > HEAVIEST_CAKE_G:
        raise Problem(
            input_name,
            f"{label}: with all its tiers this cake would weigh about {say.mass(total_g)}, "
            f"and {say.mass(HEAVIEST_CAKE_G)} is the most. Use smaller tins or lower tiers, or plan it as several cakes",
        )
