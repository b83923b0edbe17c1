"""Tiers on tiers: which tins to take, what stands under each tier, what it weighs and who lifts it.

Map
---
`stacks`, `Stack`       guests and tins -> stacks of tins, ranked
`largest_stack`         the most a kitchen's tins can serve
`Body`                  one finished tier
`tier_mass_g`, `Mass`   what it weighs, with a range
`stands_on`             whether a tier stands wholly on the one under it
`supports`, `Support`   boards, dowels, weights and the lift, tier by tier
`centre_rod_mm`         one long rod down the middle of a tall cake
`lift_limit_g`, `lift`  what one or two people should lift, by the width of the board
`check_weight`          no cake is heavier than what is made in one piece
`cautions`              what must be said about all of it

A tier's weight is its sponge (a published density with a range) and its buttercream. Weights are without boards, dowels and
stand: weigh those. Numbers of dowels and widths of boards are common practice and have no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.geometry.polygons import Point
from calc.portions import portion_count
from calc.shapes import Outline
from calc.sources import constant
from calc.units import Problem, Say

SPONGE_G_PER_ML = constant(
    0.415,
    "g/ml",
    "fao-density",
    "cake; the range is that of the two-layer cakes of 8 and 9 in in USDA SR Legacy, two layers of 1.5 in assumed",
    group="measured",
    low=0.28,
    high=0.46,
)
BUTTERCREAM_SPREAD = constant(
    0.15, "-", "common-practice", "how far the buttercream that ends up on a tier lies from the reckoned amount, either way"
)
DRUM_BORDER_MM = constant(50.0, "mm", "common-practice", "board that shows round the lowest tier: room for shells at its base and for hands")
DOWELS_FEWEST = constant(4.0, "-", "common-practice", "dowels under a tier of up to 15 cm")
DOWEL_STEP_MM = constant(50.0, "mm", "common-practice", "one dowel more for each further 5 cm of the tier above")
DOWEL_INSET_MM = constant(25.0, "mm", "common-practice", "dowels stand this far inside the board they carry")
ROD_SHORT_MM = constant(20.0, "mm", "common-practice", "a centre rod ends this far below the top")
HEAVIEST_CAKE_G = constant(150_000.0, "g", "common-practice", "a stacked cake of sponge and buttercream; a heavier one is planned as several")
LIFT_LOAD_G = constant(23_000.0, "g", "niosh-94-110", "load constant: the most for a lift under the best conditions", group="derived")
LIFT_NEAR_MM = constant(250.0, "mm", "niosh-94-110", "hands this far before the ankles are as near as a lift can be", group="derived")
LIFT_FAR_MM = constant(630.0, "mm", "niosh-94-110", "hands further out than this: the equation gives nothing", group="derived")
LIFT_REACH_MM = constant(
    200.0, "mm", "niosh-94-110", "hands at the middle of a load stand 20 cm and half its width before the ankles; the manual's rule, from memory"
)
LIFT_GRIP = constant(
    0.90, "-", "niosh-94-110", "coupling multiplier of a poor grip: a flat board without handles; value from memory", group="derived"
)
LIFT_TWO = constant(2 / 3, "-", "hse-l23", "a team of two can lift two thirds of the sum of what each can", group="derived")

TIERS_MOST = 7
STACKS_SHOWN = 12


# --- weights -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Mass:
    """A weight with its range [g]."""

    middle_g: float
    low_g: float
    high_g: float

    def __add__(self, other: Mass) -> Mass:
        return Mass(self.middle_g + other.middle_g, self.low_g + other.low_g, self.high_g + other.high_g)


@dataclass(frozen=True)
class Body:
    """One finished tier: its outline with the coat, its height with the coat, what is in it [mm, ml, g].

    Without `sponge_ml` the tier is all sponge but for the buttercream, whose volume is then taken at 1 g/ml.
    """

    outline: Outline
    height_mm: float
    sponge_ml: float | None = None
    buttercream_g: float = 0.0


def tier_mass_g(body: Body) -> Mass:
    """Give the weight of a finished tier, with its range.

    Formula: V_sponge rho + m_buttercream; rho 0.415 (0.28 to 0.46) g/ml, the buttercream as given, 15 % either way.

    Parameters
    ----------
    body : Body
        The finished tier [-]

    Returns
    -------
    Mass
        Weight, and its range [g]

    Raises
    ------
    ValueError
        A size or an amount is below nothing.

    Range: sponges from angel cake to a close chocolate sponge. Leaves out: fruit cake (about twice as heavy), boards, dowels,
    figures and flowers.

    Example
    -------
    >>> from calc.shapes import outline
    >>> round(tier_mass_g(Body(outline("round", 200), 100, sponge_ml=2800, buttercream_g=700)).middle_g)
    1862

    Source: fao-density, usda-sr, common-practice
    """
    if body.height_mm <= 0 or body.buttercream_g < 0 or (body.sponge_ml is not None and body.sponge_ml < 0):
        raise ValueError("a tier has a height above nothing, and sponge and buttercream of nothing or more")
    whole_ml = body.outline.area_mm2 * body.height_mm / 1000
    sponge_ml = body.sponge_ml if body.sponge_ml is not None else max(0.0, whole_ml - body.buttercream_g)
    return Mass(
        sponge_ml * SPONGE_G_PER_ML + body.buttercream_g,
        sponge_ml * SPONGE_G_PER_ML.low + body.buttercream_g * (1 - BUTTERCREAM_SPREAD),
        sponge_ml * SPONGE_G_PER_ML.high + body.buttercream_g * (1 + BUTTERCREAM_SPREAD),
    )


# --- lifting -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Lift:
    """Who lifts a weight: 1 or 2 people, or 0 where it should be taken apart; and what one should lift at most [g]."""

    people: int
    limit_g: float

    def words(self, say: Say = Say()) -> str:  # noqa: B008
        """The advice in words, in the reader's units."""
        one = f"one person should lift at most about {say.mass(round(self.limit_g, -2))} of this width"
        if self.limit_g < 100:
            one = "nobody should lift a board of this width alone"
        if self.people == 1:
            return f"one person ({one})"
        if self.people == 2:
            return f"two people, one of them giving the word ({one})"
        return f"too heavy to carry in one piece ({one}): carry the tiers apart and stack them where the cake will stand"


def lift_limit_g(width_mm: float) -> float:
    """Give the most that one person should lift of a cake on a board of some width.

    Formula: RWL = 23 kg x 25 cm / H x 0.90, H = 20 cm + W/2 the distance of the hands before the ankles, at least 25 cm:
    the revised lifting equation from and to the height of a table, without turning, now and then, with a poor grip.

    Parameters
    ----------
    width_mm : float
        Width W of the board, from the body outwards [mm]

    Returns
    -------
    float
        Recommended weight limit; nothing where the hands would be further out than 63 cm [g]

    Raises
    ------
    ValueError
        The width is not above nothing.

    Range: two hands, a steady stand, table height to table height. Leaves out: stairs, carrying far, slippery floors,
    lifting from a fridge's lowest shelf or out of a car, and how strong anybody is.

    Example
    -------
    >>> round(lift_limit_g(300)), round(lift_limit_g(500))
    (14786, 11500)

    Source: niosh-94-110
    """
    if not width_mm > 0:
        raise ValueError("a board has a width above nothing")
    reach = max(LIFT_NEAR_MM, LIFT_REACH_MM + width_mm / 2)
    if reach > LIFT_FAR_MM:
        return 0.0
    return LIFT_LOAD_G * LIFT_NEAR_MM / reach * LIFT_GRIP


def lift(mass_g: float, width_mm: float) -> Lift:
    """Say who should lift a cake of some weight on a board of some width.

    Formula: one person up to the limit of `lift_limit_g`, two up to 2 x 2/3 of it, beyond that it is taken apart.

    Parameters
    ----------
    mass_g : float
        Weight; take the upper end of its range [g]
    width_mm : float
        Width of the board [mm]

    Returns
    -------
    Lift
        How many people, and the limit for one [-]

    Raises
    ------
    ValueError
        The weight is below nothing, or the width not above it.

    Range: as `lift_limit_g`. Leaves out: as `lift_limit_g`; local rules on lifting at work come first.

    Example
    -------
    >>> lift(5_000, 300).people, lift(16_000, 300).people, lift(25_000, 300).people
    (1, 2, 0)

    Source: niosh-94-110, hse-l23
    """
    if mass_g < 0:
        raise ValueError("a cake weighs nothing or more")
    limit = lift_limit_g(width_mm)
    if mass_g <= limit:
        return Lift(1, limit)
    return Lift(2 if mass_g <= 2 * LIFT_TWO * limit else 0, limit)


# --- boards and dowels -------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Support:
    """What stands under and in one tier.

    `board_*` is the board the tier stands on: the lowest one's shows all round, the others' are as wide as the finished tier.
    `dowels` stand in the tier at `dowel_points` (x, y from the middle), each `dowel_length_mm` long, to carry the board of the
    tier above; the uppermost has none. `mass_g` is the tier's own weight, `carried_g` that of all tiers above it. `lift` is for
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
    # otherwise evenly from the middle of the back, the same on the left as on the right
    places = division.s_mm if division.respected else tuple(inner.perimeter_mm * k / count for k in range(count))
    return tuple(inner.point(s)[:2] for s in places)


@lru_cache(maxsize=512)
def stands_on(lower: Outline, upper: Outline) -> bool:
    """Say whether a tier stands wholly on the one under it, both set middle on middle and the same way round.

    Formula: every point of the upper outline lies inside the lower one or on it.

    Parameters
    ----------
    lower : Outline
        Outline of the tier below [-]
    upper : Outline
        Outline of the tier above [-]

    Returns
    -------
    bool
        Whether nothing of it hangs over [-]

    Raises
    ------
    ValueError
        Never.

    Range: any outlines. Leaves out: tiers set off the middle or turned.

    Example
    -------
    >>> from calc.shapes import outline
    >>> stands_on(outline("hexagon", 250), outline("round", 240)), stands_on(outline("hexagon", 250), outline("square", 240))
    (True, False)

    Source: geometry
    """
    if lower.kind == upper.kind:
        return upper.width_mm <= lower.width_mm + 1e-6 and upper.length_mm <= lower.length_mm + 1e-6
    left, front, right, back = lower.extent_mm
    slack = 1e-4 * (right - left)
    ring = lower.scaled(1 + 5e-4).points(288)
    edges = list(zip(ring, ring[1:] + ring[:1], strict=True))
    for x, y in upper.points(96):
        if not (left - slack <= x <= right + slack and front - slack <= y <= back + slack):
            return False
        inside = False
        for (x0, y0), (x1, y1) in edges:
            if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
                inside = not inside
        if not inside:
            return False
    return True


def supports(bodies: Sequence[Body], border_mm: float = DRUM_BORDER_MM) -> tuple[Support, ...]:
    """Give boards, dowels, weights and the lift of every tier, from the lowest up.

    Formula: the lowest board is wider than its finished tier by two borders, every other as wide as its tier; dowels as
    `dowel_count`, as long as the finished tier they stand in; what is carried is the sum of the tiers above.

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

    Range: one to seven tiers and more. Leaves out: the weight of boards, dowels and stand.

    Example
    -------
    >>> from calc.shapes import outline
    >>> low, high = supports([Body(outline("round", 210), 105), Body(outline("round", 160), 105)])
    >>> low.board_width_mm, low.dowels, low.dowel_length_mm, high.board_width_mm, high.dowels
    (310.0, 4, 105, 160.0, 0)

    Source: common-practice, fao-density, niosh-94-110
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
        width, length = right - left + edge, back - front + edge
        dowels = 0
        if i + 1 < len(bodies):
            carried = bodies[i + 1].outline
            dowels = dowel_count(carried, len(bodies) - i - 1)
            points = dowel_points(carried, dowels)
        reach = min(width, length)
        found.append(
            Support(
                board_width_mm=width,
                board_length_mm=length,
                dowels=dowels,
                dowel_length_mm=body.height_mm if dowels else 0.0,
                dowel_points=points,
                mass_g=mass.middle_g,
                low_g=mass.low_g,
                high_g=mass.high_g,
                carried_g=above.middle_g,
                carried_high_g=above.high_g,
                lift=lift(mass.high_g, reach),
                lift_whole=lift(mass.high_g + above.high_g, reach),
            )
        )
    return tuple(found)


def centre_rod_mm(bodies: Sequence[Body]) -> float | None:
    """Give the length of a rod down the middle that keeps tiers from sliding, where one is wanted.

    Formula: the height of all tiers less 20 mm, from three tiers or 30 cm up; otherwise none.

    Parameters
    ----------
    bodies : sequence of Body
        Finished tiers [-]

    Returns
    -------
    float or None
        Length of the rod, or None where none is usual [mm]

    Raises
    ------
    ValueError
        Never.

    Range: any cake. Leaves out: a cake that is carried stacked, which wants a rod whatever its height.

    Example
    -------
    >>> from calc.shapes import outline
    >>> centre_rod_mm([Body(outline("round", w), 100) for w in (300, 200, 150)])
    280.0

    Source: common-practice
    """
    height = math.fsum(body.height_mm for body in bodies)
    return height - ROD_SHORT_MM if len(bodies) >= 3 or (len(bodies) > 1 and height > 300) else None


def cautions(stands: Sequence[Support], say: Say = Say()) -> tuple[str, ...]:  # noqa: B008
    """Give what must be said about supports and lifting.

    Formula: none.

    Parameters
    ----------
    stands : sequence of Support
        The supports of a cake, the lowest first [-]
    say : Say
        Writes weights in the reader's units [-]

    Returns
    -------
    tuple of str
        Sentences [-]

    Raises
    ------
    ValueError
        Never.

    Range: any cake. Leaves out: the rules of the place, which come first.

    Example
    -------
    >>> from calc.shapes import outline
    >>> len(cautions(supports([Body(outline("round", 210), 105)])))
    1

    Source: niosh-94-110, hse-l23, common-practice
    """
    found = []
    if len(stands) > 1:
        dowels = sum(stand.dowels for stand in stands)
        found.append(
            f"Supports are not food. Count the {dowels} dowels and {len(stands)} boards in, write the number on the box, tell whoever "
            "cuts the cake, and count them out before a plate leaves the table. Use only dowels and boards sold for contact "
            "with food; wire and picks never go bare into a cake."
        )
    if not stands:
        return tuple(found)
    whole = stands[0].lift_whole
    if whole.people == 1:
        found.append(
            "Lift from a table, close to the body, with both hands under the board and a clear way. Where lifting is your work, your "
            "local rules come first."
        )
    else:
        mass = say.mass(round(stands[0].high_g + stands[0].carried_high_g, -2))
        what = "Two people lift it, one giving the word" if whole.people == 2 else "Carry the tiers apart and stack them where the cake will stand"
        about = f"about {say.mass(round(whole.limit_g, -2))}" if whole.limit_g >= 100 else "it is too wide for one"
        found.append(
            f"With all its tiers this cake may weigh {mass}, more than one person should lift of this width ({about}). "
            f"{what}, close to the body, both hands under the board, on a clear way. Where lifting is your work, your local "
            "rules come first."
        )
    return tuple(found)


def check_weight(stands: Sequence[Support], input_name: str, label: str) -> None:
    """Raise a `Problem` where a cake is heavier than any that is made in one piece."""
    whole = math.fsum(stand.mass_g for stand in stands)
    if whole > HEAVIEST_CAKE_G:
        raise Problem(
            input_name,
            f"{label}: with all its tiers this cake would weigh about {Say().mass(whole)}, and {Say().mass(HEAVIEST_CAKE_G)} is the most. "
            "Take smaller tins or lower tiers, or plan it as several cakes",
        )


# --- choosing tins -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Stack:
    """One stack of tins that serves the guests, the lowest tier first.

    `counts` are the portions of each tier; the kept one counts as none in `portions`. `kitchen_cakes` are cut in the kitchen to
    make up the number. `penalty` is what the ranking rests on, a judgement and not a measurement: one point for each per cent of
    portions too many, for each centimetre that one step is wider than another, for each tier and each kitchen cake.
    """

    tiers: tuple[Outline, ...]
    counts: tuple[int, ...]
    portions: int
    spare_portions: int
    kept_portions: int
    kitchen_cakes: int
    steps_mm: tuple[float, ...]
    penalty: float


def _on_top(lower: Outline, upper: Outline, step_low: float, step_high: float) -> bool:
    slack = 1e-6
    return step_low - slack <= lower.width_mm - upper.width_mm <= step_high + slack and upper.length_mm <= lower.length_mm - step_low + slack


def _kinds(tins: Sequence[Outline]) -> tuple[Outline, ...]:
    return tuple(sorted(set(tins), key=lambda tin: (-tin.width_mm, -tin.length_mm, tin.kind)))


def largest_stack(
    tins: Sequence[Outline],
    slice_mm: tuple[float, float],
    keep_top: bool = False,
    step_low_mm: float = 50.0,
    step_high_mm: float = 100.0,
    tiers: int | None = None,
) -> int:
    """Give the most portions that any stack of the tins at hand can give.

    Formula: the largest sum of portions over all stacks that keep the steps.

    Parameters
    ----------
    tins : sequence of Outline
        Tins at hand, one tier each [-]
    slice_mm : tuple of (float, float)
        Width and length of a slice [mm]
    keep_top : bool
        Whether the uppermost tier is kept back [-]
    step_low_mm : float
        Least difference in width between neighbours [mm]
    step_high_mm : float
        Most difference in width between neighbours [mm]
    tiers : int
        Number of tiers wanted; None leaves it open [-]

    Returns
    -------
    int
        Portions; nothing where no stack is possible [-]

    Raises
    ------
    ValueError
        More than seven tiers are wanted, or fewer than one.

    Range: up to seven tiers. Leaves out: two cakes side by side.

    Example
    -------
    >>> from calc.shapes import outline
    >>> largest_stack([outline("square", w) for w in (100, 200, 300)], (25, 50))
    112

    Source: common-practice
    """
    kinds = _kinds(tins)
    counts = tuple(portion_count(tin, slice_mm) for tin in kinds)
    most = _most_from(kinds, counts, keep_top, step_low_mm, step_high_mm)
    wanted = _tier_range(tiers, keep_top)
    return max((most[i][k] for i in range(len(kinds)) for k in wanted if most[i][k] >= 0), default=0)


def _tier_range(tiers: int | None, keep_top: bool) -> range:
    if tiers is not None and not 1 <= tiers <= TIERS_MOST:
        raise ValueError(f"a cake has one to {TIERS_MOST} tiers")
    if tiers is not None:
        return range(tiers, tiers + 1)
    return range(2 if keep_top else 1, TIERS_MOST + 1)


def _most_from(kinds: Sequence[Outline], counts: Sequence[int], keep_top: bool, step_low: float, step_high: float) -> list[list[int]]:
    """most[i][k]: the most portions of a stack of exactly k tiers whose lowest is tin i; -1 where there is none."""
    most = [[-1] * (TIERS_MOST + 1) for _ in kinds]
    for i in range(len(kinds) - 1, -1, -1):
        most[i][1] = 0 if keep_top else counts[i]
        for j in range(i + 1, len(kinds)):
            if _on_top(kinds[i], kinds[j], step_low, step_high):
                for k in range(2, TIERS_MOST + 1):
                    if most[j][k - 1] >= 0:
                        most[i][k] = max(most[i][k], counts[i] + most[j][k - 1])
    return most


@lru_cache(maxsize=256)
def stacks(
    guests: int,
    tins: tuple[Outline, ...],
    slice_mm: tuple[float, float] = (25.0, 50.0),
    spare_percent: float = 0.0,
    keep_top: bool = False,
    step_low_mm: float = 50.0,
    step_high_mm: float = 100.0,
    tiers: int | None = None,
    kitchen: Outline | None = None,
) -> tuple[Stack, ...]:
    """Rank the stacks of tins at hand that serve a number of guests.

    Formula: every chain of tins, each narrower than the one under it by a step within the bounds, whose portions (the kept top
    tier's left out) reach guests x (1 + spare); ranked by the penalty of `Stack`.

    Parameters
    ----------
    guests : int
        Guests [-]
    tins : tuple of Outline
        Tins at hand, one tier each [-]
    slice_mm : tuple of (float, float)
        Width and length of a slice [mm]
    spare_percent : float
        Portions wanted beyond the guests [%]
    keep_top : bool
        Whether the uppermost tier is kept back and not counted [-]
    step_low_mm : float
        Least difference in width between neighbours [mm]
    step_high_mm : float
        Most difference in width between neighbours [mm]
    tiers : int
        Number of tiers wanted; None leaves it open [-]
    kitchen : Outline
        A plain cake that is cut in the kitchen to make up the number; None for none [-]

    Returns
    -------
    tuple of Stack
        Up to twelve, best first; none where no stack reaches the number [-]

    Raises
    ------
    ValueError
        There is no guest, or the number of tiers is not one to seven.

    Range: up to seven tiers. A stack that already serves everybody is not built higher unless a number of tiers is wanted.
    Leaves out: taste, and what a table can carry.

    Example
    -------
    >>> from calc.shapes import outline
    >>> best = stacks(36, tuple(outline("round", w) for w in (100, 150, 200, 250)))[0]
    >>> [t.width_mm for t in best.tiers], best.portions, best.spare_portions
    ([200.0, 150.0], 37, 1)

    Source: common-practice
    """
    if guests < 1:
        raise ValueError("a cake is for one guest or more")
    wanted = _tier_range(tiers, keep_top)
    need = needed_portions(guests, spare_percent)
    kinds = _kinds(tins)
    counts = tuple(portion_count(tin, slice_mm) for tin in kinds)
    each = portion_count(kitchen, slice_mm) if kitchen is not None else 0
    most = _most_from(kinds, counts, keep_top, step_low_mm, step_high_mm)
    above = [[j for j in range(i + 1, len(kinds)) if _on_top(kinds[i], kinds[j], step_low_mm, step_high_mm)] for i in range(len(kinds))]
    found: list[tuple[float, int, tuple[int, ...]]] = []  # penalty, kitchen cakes, tins

    def worst() -> float:
        return found[-1][0] if len(found) == STACKS_SHOWN else math.inf

    def keep(chain: tuple[int, ...], total: int) -> None:
        cakes = 0
        if total < need:
            if not each:
                return
            cakes = math.ceil((need - total) / each)
        spare = 100 * (total + cakes * each - need) / need
        steps = [kinds[a].width_mm - kinds[b].width_mm for a, b in zip(chain, chain[1:], strict=False)]
        uneven = (max(steps) - min(steps)) / 10 if steps else 0.0
        penalty = spare + uneven + len(chain) + cakes
        if penalty < worst() - 1e-9:
            found.append((penalty, cakes, chain))
            found.sort(key=lambda item: (round(item[0], 9), item[2]))
            del found[STACKS_SHOWN:]

    def grow(chain: tuple[int, ...], below: int, narrow: float, wide: float) -> None:
        """`below` is the portions of the tiers under the last one, `narrow` and `wide` the least and the most step so far."""
        last = chain[-1]
        total = below if keep_top else below + counts[last]
        if len(chain) in wanted:
            keep(chain, total)
        if len(chain) >= wanted[-1] or (tiers is None and len(chain) in wanted and total >= need):
            return
        below += counts[last]
        # what a taller stack costs at the least: its tiers, and the portions it already has too many
        floor = max(0.0, 100 * (below - need) / need) + max(len(chain) + 1, wanted[0])
        if floor >= worst():
            return
        left = range(max(1, wanted[0] - len(chain)), wanted[-1] - len(chain) + 1)
        for j in above[last]:
            step = kinds[last].width_mm - kinds[j].width_mm
            low, high = min(narrow, step), max(wide, step)
            reach = max((most[j][k] for k in left), default=-1)
            if reach < 0 or (not each and below + reach < need):
                continue
            cakes = max(0, math.ceil((need - below - reach) / each)) if each else 0
            if floor + (high - low) / 10 + cakes < worst():
                grow((*chain, j), below, low, high)

    for i in range(len(kinds)):
        grow((i,), 0, math.inf, 0.0)
    made = []
    for penalty, cakes, chain in found:
        each_tier = tuple(counts[i] for i in chain)
        kept = each_tier[-1] if keep_top else 0
        portions = sum(each_tier) - kept + cakes * each
        made.append(
            Stack(
                tuple(kinds[i] for i in chain),
                each_tier,
                portions,
                portions - guests,
                kept,
                cakes,
                tuple(kinds[a].width_mm - kinds[b].width_mm for a, b in zip(chain, chain[1:], strict=False)),
                penalty,
            )
        )
    return tuple(made)


def needed_portions(guests: int, spare_percent: float) -> int:
    """Give how many portions are wanted for a number of guests and a spare share.

    Formula: the next whole number from guests x (1 + spare / 100).

    Parameters
    ----------
    guests : int
        Guests [-]
    spare_percent : float
        Portions wanted beyond the guests [%]

    Returns
    -------
    int
        Portions [-]

    Raises
    ------
    ValueError
        The spare share is below nothing.

    Range: any number of guests. Leaves out: guests who do not eat cake.

    Example
    -------
    >>> needed_portions(36, 0), needed_portions(36, 10)
    (36, 40)

    Source: geometry
    """
    if spare_percent < 0:
        raise ValueError("a spare share is nothing or more")
    return math.ceil(guests * (1 + spare_percent / 100) - 1e-9)
