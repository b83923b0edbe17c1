"""Dividing a side evenly: repeats that close exactly, the setting of the dividers, the cutter that marks them.

It may import `sources`, `geometry`, `shapes` and `curves`. Most of it takes a side as a length only: `side_mm`, as measured by tape.

Map
---
`pitch_mm`, `repeats_near`        n equal repeats round a measured side
`dividers_mm`                     the chord to step round the top edge
`closing_error_mm`                where the last step of given dividers lands
`chords_mm`, `stepped_mm`         the same on any outline: the setting of each step, and where given settings lead
`gap_mm`, `repeats_that_close`    a cutter narrower than the swag
`Division`, `division_choices`    every possible number of repeats, ranked, with what each entails
`fitted_choices`                  the same, by what more is wanted: a joint at the front, further rows that meet the joints
`tape_check`                      the tape against the perimeter worked out from tin and disc
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from calc.curves import arc_length_mm, arc_radius_mm, guide_height_mm, swag_drop_mm, swag_length_mm
from calc.geometry.polygons import Point
from calc.shapes import Outline
from calc.sources import constant

TAPE_TOLERANCE_PERCENT = constant(1.5, "%", "common-practice", "a tape read round a soft coat is out by up to 1 cm in 66 cm")
STRETCH_MOST_PERCENT = constant(15.0, "%", "common-practice", "a shell stretched or squeezed by more than this shows beside its neighbours")
FULL_SHARE = constant(0.35, "-", "common-practice", "drop over width from which a swag looks full", low=0.3, high=0.5)
FLAT_SHARE = constant(0.25, "-", "common-practice", "drop over width under which a swag looks flat")
DROP_SHARE = constant(0.4, "-", "common-practice", "drop over width of a swag that hangs well, to guess a width from a wanted drop")
GAP_COVERED_MM = constant(1.0, "mm", "common-practice", "a gap at the joint that the piping covers by itself, and less than a tape shows")
NARROW_MM = constant(40.0, "mm", "common-practice", "swags narrower than this are fiddly to pipe, where no width is wanted")
WIDE_MM = constant(140.0, "mm", "common-practice", "swags wider than this are hard to pipe in one go, where no width is wanted")
FRONT_MISSED = 6  # points against repeats without a joint at the front, where one is wanted; a judgement
FEWEST_REPEATS = 3


def pitch_mm(side_mm: float, repeats: int) -> float:
    """Give the pitch: the length along the surface of one of n equal repeats.

    Formula: w = P / n.

    Parameters
    ----------
    side_mm : float
        Side as measured by tape, P [mm]
    repeats : int
        Number of repeats n [-]

    Returns
    -------
    float
        Pitch [mm]

    Raises
    ------
    ValueError
        The side is not positive, or there is less than one repeat.

    Range: P > 0, n >= 1. Leaves out: corners, which `Outline.division` respects.

    Example
    -------
    >>> pitch_mm(500, 5)
    100.0

    Source: geometry (equal division)
    """
    if side_mm <= 0 or repeats < 1:
        raise ValueError("a side has a positive length and one repeat or more")
    return side_mm / repeats


def repeats_near(side_mm: float, target_mm: float) -> int:
    """Give the number of repeats whose pitch comes nearest a wanted one, as a ratio.

    Formula: the n that makes |log(P / (n t))| smallest.

    Parameters
    ----------
    side_mm : float
        Side as measured by tape, P [mm]
    target_mm : float
        Wanted pitch t [mm]

    Returns
    -------
    int
        Number of repeats, at least 1 [-]

    Raises
    ------
    ValueError
        Side or target is not positive.

    Range: P > 0, t > 0. Leaves out: limits on the number.

    Example
    -------
    >>> repeats_near(500, 97)
    5

    Source: geometry (nearest ratio)
    """
    if side_mm <= 0 or target_mm <= 0:
        raise ValueError("a side and a wanted pitch are positive")
    low = max(1, math.floor(side_mm / target_mm))
    return min((low, low + 1), key=lambda n: abs(math.log(side_mm / (n * target_mm))))


def dividers_mm(side_mm: float, repeats: int) -> float:
    """Give the setting of dividers stepped round the top edge of a round tier.

    Formula: chord = (P/pi) sin(pi/n), not the pitch w.

    Parameters
    ----------
    side_mm : float
        Side as measured by tape, P [mm]
    repeats : int
        Number of repeats n [-]

    Returns
    -------
    float
        Distance between the points of the dividers [mm]

    Raises
    ------
    ValueError
        The side is not positive, or there are fewer than two repeats.

    Range: round tiers, n >= 2. Leaves out: other outlines, for which see `chords_mm`.

    Example
    -------
    >>> round(dividers_mm(500, 5), 2)
    93.55

    Source: segment (chord length)
    """
    if side_mm <= 0 or repeats < 2:
        raise ValueError("dividers step round a positive side at least twice")
    return side_mm / math.pi * math.sin(math.pi / repeats)


def closing_error_mm(side_mm: float, repeats: int, setting_mm: float) -> float:
    """Give where the last step lands when dividers of a given setting are stepped n times round.

    Formula: n (P/pi) asin(pi c / P) - P; positive if it oversteps the start, negative if it falls short.

    Parameters
    ----------
    side_mm : float
        Side as measured by tape, P [mm]
    repeats : int
        Number of steps n [-]
    setting_mm : float
        Setting of the dividers c [mm]

    Returns
    -------
    float
        Distance along the side from the start to the last step [mm]

    Raises
    ------
    ValueError
        The setting is wider than the tier, or a value is not positive.

    Range: 0 < c <= P/pi. Leaves out: points that sink into the coat.

    Example
    -------
    >>> round(closing_error_mm(500, 5, dividers_mm(500, 5)), 9) + 0.0
    0.0
    >>> round(closing_error_mm(500, 5, 100), 1)  # set to the pitch by mistake
    40.6

    Source: segment (chord length)
    """
    if side_mm <= 0 or repeats < 1 or not 0 < setting_mm <= side_mm / math.pi * (1 + 1e-12):
        raise ValueError("the setting of dividers is positive and at most the width of the tier")
    return repeats * side_mm / math.pi * math.asin(min(1.0, math.pi * setting_mm / side_mm)) - side_mm


def chords_mm(outline: Outline, joints_mm: Sequence[float]) -> tuple[float, ...]:
    """Give the setting of the dividers for each step from one joint to the next, on any outline.

    Formula: the straight distance between the points at neighbouring joints, the last one to the first.

    Parameters
    ----------
    outline : Outline
        The finished tier seen from above [mm]
    joints_mm : sequence of float
        Distances of the joints round the outline, in order [mm]

    Returns
    -------
    tuple of float
        Distance between the points of the dividers, from each joint to the next [mm]

    Range: two joints or more. Leaves out: points that sink into the coat.

    Example
    -------
    >>> from calc.shapes import outline
    >>> heart = outline("heart", 200)
    >>> [round(c, 1) for c in chords_mm(heart, heart.joints(6))]
    [92.2, 101.0, 105.1, 105.1, 101.0, 92.2]

    Source: geometry (distance of two points)
    """
    points = [outline.point(s)[:2] for s in joints_mm]
    return tuple(math.dist(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True))


def stepped_mm(outline: Outline, start_mm: float, settings_mm: Sequence[float]) -> float:
    """Give the distance round an outline that dividers cover, stepped with one setting after another.

    Formula: each step ends at the nearest point further round whose straight distance is the setting, found by bisection.

    Parameters
    ----------
    outline : Outline
        The finished tier seen from above [mm]
    start_mm : float
        Distance of the first point round the outline [mm]
    settings_mm : sequence of float
        Setting of the dividers for each step [mm]

    Returns
    -------
    float
        Distance round the outline from the first point to the last [mm]

    Raises
    ------
    ValueError
        A setting is not positive, or wider than the tier from where it starts.

    Range: any outline. Leaves out: points that sink into the coat.

    Example
    -------
    >>> from calc.shapes import outline
    >>> tier = outline("square", 200)
    >>> round(stepped_mm(tier, 100, [100.0] * 8) - tier.perimeter_mm, 6) + 0.0
    0.0

    Source: geometry (distance of two points)
    """
    s, perimeter_mm = start_mm, outline.perimeter_mm
    if min(settings_mm, default=0.0) <= 0:
        raise ValueError("dividers are set to a positive distance")
    for setting in settings_mm:
        here = outline.point(s)[:2]

        def is_short(along: float, s: float = s, here: Point = here, setting: float = setting) -> bool:
            return math.dist(outline.point(s + along)[:2], here) < setting * (1 - 1e-12)

        # the way round is never shorter than the straight line; corners are looked at too, since the distance may have its peak there
        steps = (setting * k / 50 for k in range(50, math.ceil(25 * perimeter_mm / setting)))
        peaks = sorted(along for along in ((corner - s) % perimeter_mm for corner in outline.corners_mm) if setting < along < perimeter_mm / 2)
        low = high = setting
        for along in heapq.merge(steps, peaks):  # one by one: most steps end at the first
            low, high = high, along
            if not is_short(along):
                break
        else:
            raise ValueError("dividers are set wider than the tier")
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if is_short(middle) else (low, middle)
        s += high
    return s - start_mm


def gap_mm(cutter_mm: float, width_mm: float) -> float:
    """Give the gap a cutter leaves at every joint if it is narrower than the swag.

    Formula: gap = w - D, or 0 if D >= w.

    Parameters
    ----------
    cutter_mm : float
        Diameter of the cutter D [mm]
    width_mm : float
        Swag width w [mm]

    Returns
    -------
    float
        Gap at each joint [mm]

    Raises
    ------
    ValueError
        A value is not positive.

    Range: D > 0, w > 0.

    Example
    -------
    >>> gap_mm(90, 94.5), gap_mm(100, 94.5)
    (4.5, 0.0)

    Source: geometry (difference of lengths)
    """
    if cutter_mm <= 0 or width_mm <= 0:
        raise ValueError("a cutter and a swag have a positive width")
    return max(0.0, width_mm - cutter_mm)


def repeats_that_close(side_mm: float, cutter_mm: float) -> int:
    """Give the fewest repeats for which a cutter leaves no gap at the joints.

    Formula: the smallest n with P/n <= D.

    Parameters
    ----------
    side_mm : float
        Side as measured by tape, P [mm]
    cutter_mm : float
        Diameter of the cutter D [mm]

    Returns
    -------
    int
        Number of repeats [-]

    Raises
    ------
    ValueError
        A value is not positive.

    Range: P > 0, D > 0. Leaves out: whether so many repeats look well.

    Example
    -------
    >>> repeats_that_close(500, 100), repeats_that_close(660, 90)
    (5, 8)

    Source: geometry (equal division)
    """
    if side_mm <= 0 or cutter_mm <= 0:
        raise ValueError("a side and a cutter are positive")
    return max(1, math.ceil(side_mm / cutter_mm * (1 - 1e-12)))


@dataclass(frozen=True)
class Division:
    """One way to divide a side, and what follows from it.

    Lengths in mm. `cutter_mm` is None if the arc is drawn from the drop alone. `reasons` name what speaks against it; `points` say how much
    each thing weighs against it, and `penalty` is their sum, by which choices are ranked (a judgement, not a measurement). The wanted width
    and drop are those that it was judged by; `also` has the stretch of the pieces of further rows, by their name.
    """

    repeats: int
    width_mm: float
    cutter_mm: float | None
    drop_mm: float
    length_each_mm: float
    guide_mm: float | None
    gap_mm: float
    piece_stretch_percent: float
    penalty: float
    reasons: tuple[str, ...] = field(default=())
    points: tuple[tuple[str, float], ...] = field(default=())
    wanted_width_mm: float | None = None
    wanted_drop_mm: float | None = None
    also: tuple[tuple[str, float], ...] = ()


def pieces_that_meet(width_mm: float, piece_pitch_mm: float) -> tuple[int, float]:
    """Give the whole number of pieces in one repeat, such as shells, and by how much each is stretched.

    Formula: k = the integer that makes |log(w / (k s))| smallest (at least 1); stretch = (w / k) / s - 1.

    Parameters
    ----------
    width_mm : float
        Length of one repeat w [mm]
    piece_pitch_mm : float
        Natural pitch of the pieces s [mm]

    Returns
    -------
    tuple of (int, float)
        Pieces in a repeat [-] and stretch [%]

    Raises
    ------
    ValueError
        A value is not positive.

    Range: w > 0, s > 0. Leaves out: how evenly a hand pipes.

    Example
    -------
    >>> pieces_that_meet(100, 9.8)[0]
    10

    Source: geometry (nearest ratio)
    """
    if width_mm <= 0 or piece_pitch_mm <= 0:
        raise ValueError("a repeat and a piece have a positive length")
    low = max(1, math.floor(width_mm / piece_pitch_mm))
    count = min((low, low + 1), key=lambda k: abs(math.log(width_mm / (k * piece_pitch_mm))))
    return count, 100 * (width_mm / (count * piece_pitch_mm) - 1)


def division_choices(
    side_mm: float,
    cutters_mm: Sequence[float] = (),
    wanted_width_mm: float | None = None,
    wanted_drop_mm: float | None = None,
    room_mm: float | None = None,
    piece_pitch_mm: float | None = None,
    multiple_of: int = 1,
    fewest: int = FEWEST_REPEATS,
    most: int = 60,
    allowed: Sequence[int] | None = None,
) -> tuple[Division, ...]:
    """List every number of repeats that a side allows, with every cutter that could mark it, best first.

    Formula: for each n and each cutter D, w = P/n and the arc of `swag_drop_mm`; ranked by the sum of penalties, one point for
    each 10 % by which width or drop differs from the wanted one, and more for a drop deeper than the room, a gap of over 1 mm, an
    arc that looks flat where no drop is wanted, and pieces stretched beyond 15 %. Ties keep the fewer repeats first.

    Parameters
    ----------
    side_mm : float
        Side as measured by tape, P [mm]
    cutters_mm : sequence of float
        Diameters of the round cutters at hand; none gives arcs of the wanted drop [mm]
    wanted_width_mm : float
        Wanted swag width; None leaves it open [mm]
    wanted_drop_mm : float
        Wanted drop; None leaves it open [mm]
    room_mm : float
        Deepest drop that fits on the side; None leaves it open [mm]
    piece_pitch_mm : float
        Natural pitch of pieces that should meet the joints; None leaves them out [mm]
    multiple_of : int
        Repeats must be a multiple of this, such as 4 on a square [-]
    fewest : int
        Fewest repeats considered [-]
    most : int
        Most repeats considered [-]
    allowed : sequence of int
        Only these numbers of repeats, such as those that put a joint on every corner; None allows all [-]

    Returns
    -------
    tuple of Division
        All choices, best first [-]

    Raises
    ------
    ValueError
        The side is not positive, or no number of repeats lies within the limits.

    Range: P > 0; widths from 15 mm. Leaves out: taste, beyond what was asked for.

    Example
    -------
    >>> best = division_choices(500, cutters_mm=(100,))[0]
    >>> best.repeats, best.width_mm, best.drop_mm
    (5, 100.0, 50.0)

    Source: segment (Sagitta), common-practice
    """
    if side_mm <= 0:
        raise ValueError("a side has a positive length")
    counts = [
        n
        for n in range(max(1, fewest), most + 1)
        if n % max(1, multiple_of) == 0 and (allowed is None or n in allowed) and (side_mm / n >= 15 or n in (fewest, most))
    ]
    if not counts:
        raise ValueError("no number of repeats lies within the limits")
    found: list[Division] = []
    for n in counts:
        width = side_mm / n
        for cutter in tuple(cutters_mm) or (None,):
            found.append(_judged(n, width, cutter, wanted_width_mm, wanted_drop_mm, room_mm, piece_pitch_mm))
    return tuple(sorted(found, key=lambda d: (round(d.penalty, 6), d.repeats, d.cutter_mm or 0.0)))


def _judged(
    repeats: int,
    width_mm: float,
    cutter_mm: float | None,
    wanted_width_mm: float | None,
    wanted_drop_mm: float | None,
    room_mm: float | None,
    piece_pitch_mm: float | None,
) -> Division:
    """One choice with its penalty; the weights are a judgement (common practice, no source)."""
    gap = 0.0
    if cutter_mm is None:
        drop = wanted_drop_mm if wanted_drop_mm is not None else width_mm * DROP_SHARE
        length, guide_height = arc_length_mm(width_mm, drop), None
    elif width_mm <= cutter_mm * (1 + 1e-9):
        fitted = min(width_mm, cutter_mm)
        drop, length = swag_drop_mm(cutter_mm, fitted), swag_length_mm(cutter_mm, fitted)
        guide_height = guide_height_mm(cutter_mm, fitted)
    else:
        gap, drop, length = width_mm - cutter_mm, cutter_mm / 2, math.pi * cutter_mm / 2
        guide_height = cutter_mm / 2
    reasons: list[str] = []
    points: list[tuple[str, float]] = []
    if wanted_width_mm:
        points.append(("width", abs(math.log(width_mm / wanted_width_mm)) / math.log(1.1)))
    elif width_mm < NARROW_MM or width_mm > WIDE_MM:
        least = NARROW_MM if width_mm < NARROW_MM else WIDE_MM
        points.append(("narrow" if width_mm < NARROW_MM else "wide", 2 * abs(math.log(width_mm / least)) / math.log(1.1)))
    if wanted_drop_mm and cutter_mm is not None and drop > 0:
        points.append(("drop", abs(math.log(drop / wanted_drop_mm)) / math.log(1.1)))
    if gap > GAP_COVERED_MM:
        points.append(("gap", 3 + 10 * gap / width_mm))
        reasons.append("gap")
    elif gap > 0:
        points.append(("covered", 0.3))
    share = drop / width_mm
    if not wanted_drop_mm and share < FULL_SHARE:
        points.append(("shallow", (FULL_SHARE - share) * 40))
        if share < FLAT_SHARE:
            reasons.append("shallow")
    if room_mm is not None and drop > room_mm:
        points.append(("room", 6 + 20 * (drop - room_mm) / max(room_mm, 1.0)))
        reasons.append("room")
    stretch = 0.0
    if piece_pitch_mm:
        _, stretch = pieces_that_meet(width_mm, piece_pitch_mm)
        is_too_much = abs(stretch) > STRETCH_MOST_PERCENT
        if is_too_much:
            reasons.append("pieces")
        points.append(("pieces", (4 if is_too_much else 0) + abs(stretch) / 30))
    penalty = sum(weight for _, weight in points)
    return Division(
        repeats,
        width_mm,
        cutter_mm,
        drop,
        length,
        guide_height,
        gap,
        stretch,
        penalty,
        tuple(reasons),
        tuple(points),
        wanted_width_mm,
        wanted_drop_mm,
    )


def fitted_choices(
    choices: Sequence[Division], at_front: Callable[[int], bool] | None = None, pieces: Sequence[tuple[str, float]] = ()
) -> tuple[Division, ...]:
    """Rank ways to divide a side again, by further wishes.

    Formula: `FRONT_MISSED` points for repeats without a joint at the front, and for each further row of pieces what `division_choices` gives for
    the first one: a thirtieth of a point for each percent of stretch, and four more beyond 15 %.

    Parameters
    ----------
    choices : sequence of Division
        Ways to divide, as `division_choices` gives them [-]
    at_front : callable
        Whether so many repeats put a joint at the front; None where that is not wanted [-]
    pieces : sequence of (str, float)
        Name and natural pitch of the pieces of further rows that should meet the joints [mm]

    Returns
    -------
    tuple of Division
        The same ways, best first, with what more weighs against each [-]

    Range: any choices. Leaves out: taste.

    Example
    -------
    >>> odd, even = division_choices(660, (75,))[:2]
    >>> odd.repeats, even.repeats, [one.repeats for one in fitted_choices((odd, even), lambda repeats: repeats % 2 == 0)]
    (9, 10, [10, 9])

    Source: common-practice
    """
    found = []
    for choice in choices:
        points, also = list(choice.points), []
        if at_front is not None:
            points.append(("at front", 0.0) if at_front(choice.repeats) else ("front", FRONT_MISSED))
        for name, pitch in pieces:
            stretch = pieces_that_meet(choice.width_mm, pitch)[1]
            also.append((name, stretch))
            points.append(("also", (4 if abs(stretch) > STRETCH_MOST_PERCENT else 0) + abs(stretch) / 30))
        penalty = sum(weight for _, weight in points)
        found.append(replace(choice, penalty=penalty, points=tuple(points), also=tuple(also)))
    return tuple(sorted(found, key=lambda d: round(d.penalty, 6)))


def tape_check(side_mm: float, perimeter_mm: float) -> float | None:
    """Say by how much the tape differs from the perimeter worked out from tin and disc, if that is more than a tape's own error.

    Formula: 100 (side / perimeter - 1), or None within 1.5 %.

    Parameters
    ----------
    side_mm : float
        Side as measured by tape [mm]
    perimeter_mm : float
        Perimeter of the finished outline [mm]

    Returns
    -------
    float or None
        Difference, or None if they agree [%]

    Raises
    ------
    ValueError
        A value is not positive.

    Range: both positive. Leaves out: which of them is wrong; the measured side is used, and the reader checks.

    Example
    -------
    >>> tape_check(660, 659.7) is None, round(tape_check(660, 700), 1)
    (True, -5.7)

    Source: common-practice
    """
    if side_mm <= 0 or perimeter_mm <= 0:
        raise ValueError("a side has a positive length")
    off = 100 * (side_mm / perimeter_mm - 1)
    return off if abs(off) > TAPE_TOLERANCE_PERCENT else None


def radius_of(division: Division) -> float:
    """Give the radius of the arc of a division.

    Formula: R = D/2 with a cutter, else y/2 + w^2/(8 y).

    Parameters
    ----------
    division : Division
        One choice of `division_choices` [-]

    Returns
    -------
    float
        Radius of the arc [mm]

    Raises
    ------
    ValueError
        The division has no drop.

    Range: any division with a positive drop.

    Example
    -------
    >>> radius_of(division_choices(500, cutters_mm=(100,))[0])
    50.0

    Source: segment (Circular Segment)
    """
    if division.cutter_mm is not None:
        return division.cutter_mm / 2
    return arc_radius_mm(division.width_mm, division.drop_mm)
