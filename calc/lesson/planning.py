"""How a class goes: minutes shared among exercises and breaks, bags and their refills, buttercream, sheets, tables.

Map
---
`table_plan`            seats shared evenly among tables
`usual_breaks`          how many breaks a lesson of some length has
`Lesson`, `lesson`      the whole class; `Practice`, one exercise in it; `Slot`, a stretch of it
`least_minutes`         the shortest lesson that holds so much
`cautions`              what to say before it begins

Legend: n students, e exercises, T minutes in all, b breaks, m buttercream of one sheet, p passes over a sheet.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.buttercream import BATCH_G, allergens, density_g_per_ml
from calc.colours import BAG_LOSS_G, BagPlan, bag_plan
from calc.colours.bags import BAG_HOLDS_G
from calc.lesson.exercises import sheet_of
from calc.rows import SLOW, Exercise, RowAmount
from calc.sources import Constant, constant
from calc.tips import Tip

WELCOME_MIN = constant(10, "min", "common-practice", "welcome, hands washed, aprons, who must not touch what")
DEMO_MIN = constant(8, "min", "common-practice", "show one exercise, with its tip and angle", low=5, high=15)
CLEAR_MIN = constant(10, "min", "common-practice", "bags emptied, tips collected and counted, tables wiped")
LEAST_PRACTICE_MIN = constant(8, "min", "common-practice", "less practice than this at one exercise is only a taste")
REST_AFTER_MIN = constant(25, "min", "common-practice", "a hand that squeezes without a rest tires and cramps")
SCRAPED_BACK = constant(0.6, "-", "common-practice", "share of the buttercream on a sheet that goes back into the bag", low=0.4, high=0.75)
PIPING_SHARE = constant(
    0.5,
    "-",
    "common-practice",
    "share of practice time in which the bag is squeezed: the rest is looking, wiping, filling, scraping off, resting",
    low=0.35,
    high=0.65,
)
SPARE_SHARE = constant(0.1, "-", "common-practice", "spare bags and sheets, for what tears")
BREAK_MIN = constant(15, "min", "common-practice", "a break: hands rest, drinks away from the tables")
BREAK_EVERY_MIN = constant(90, "min", "common-practice", "a class goes on no longer than this without a break", low=60, high=120)
HALF_WAY_MIN = constant(20, "min", "common-practice", "a break between two exercises is worth so much delay over one in the middle of an exercise")
FEW_PER_TUTOR = constant(10, "-", "common-practice", "students one tutor can watch the hands of", low=8, high=12)


def table_plan(students: int, seats: int) -> tuple[int, ...]:
    """Share students evenly among the fewest tables.

    Formula: tables = ceil(n / seats); the first n mod tables get one more than the others.

    Parameters
    ----------
    students : int
        Students n [-]
    seats : int
        Most at one table [-]

    Returns
    -------
    tuple of int
        Students at each table, fullest first [-]

    Raises
    ------
    ValueError
        There is no student or no seat.

    Range: one student and one seat or more. Leaves out: who wants to sit with whom.

    Example
    -------
    >>> table_plan(10, 4), table_plan(8, 4)
    ((4, 3, 3), (4, 4))

    Source: geometry (perimeter of a rectangle)
    """
    if students < 1 or seats < 1:
        raise ValueError("a class has one student and a table one seat or more")
    tables = -(-students // seats)
    each, more = divmod(students, tables)
    return tuple(each + (1 if i < more else 0) for i in range(tables))


@dataclass(frozen=True)
class Practice:
    """One exercise in the lesson, for one student.

    `minutes` are for practising it, `passes` how often the sheet is piped over in the time, `mass_g` the buttercream
    that takes, before what stays in the bag.
    """

    exercise: Exercise
    sheet: RowAmount
    minutes: float
    passes: float
    mass_g: float
    low_g: float
    high_g: float


@dataclass(frozen=True)
class Slot:
    """A stretch of the lesson, in minutes after it begins; `practises` is the exercise that is practised in it."""

    start_min: float
    end_min: float
    name: str
    practises: Exercise | None = None


@dataclass(frozen=True)
class Lesson:
    """The whole class. `kits` counts the tutor's, who shows how; buttercream is for all of them.

    `sheets` are the printed practice sheets, `copies` those of each exercise, of which `mirrored` for the left hand and `spare` for no
    kit. `bags` is how many bags to have and `spare_bags` of those are for no kit; `overlays` are the sheets of parchment or clear film
    that go over the printed ones. `fills` is how often the bags of one kit are filled in all. `tips` are those of one kit.
    """

    students: int
    kits: int
    practices: tuple[Practice, ...]
    per_kit_g: float
    buttercream_g: float
    low_g: float
    high_g: float
    batches: int
    copies: int
    mirrored: int
    spare: int
    overlays_each: int
    overlays: int
    bags: int
    spare_bags: int
    bag_plan: BagPlan
    tips: tuple[Tip, ...]
    tables: tuple[int, ...]
    slots: tuple[Slot, ...]

    @property
    def sheets(self) -> int:
        """Printed practice sheets of all exercises."""
        return self.copies * len(self.practices)

    @property
    def fills(self) -> int:
        """How often the bags of one kit are filled in all, from the bowl."""
        return sum(bag.fills for bag in self.bag_plan.coupled)

    @property
    def longest_practice_min(self) -> float:
        """The longest stretch with a bag in the hand [min]."""
        return max(slot.end_min - slot.start_min for slot in self.slots if slot.practises)


def usual_breaks(minutes: float) -> int:
    """Give how many breaks a lesson has when nobody says otherwise.

    Formula: b = ceil(T / 90) - 1.

    Parameters
    ----------
    minutes : float
        Length of the lesson T [min]

    Returns
    -------
    int
        Breaks b [-]

    Raises
    ------
    ValueError
        The lesson has no length.

    Range: any length. Leaves out: what the room and the students ask for.

    Example
    -------
    >>> usual_breaks(90), usual_breaks(180), usual_breaks(240)
    (0, 1, 2)

    Source: common-practice
    """
    if minutes <= 0:
        raise ValueError("a lesson has a length")
    return math.ceil(minutes / BREAK_EVERY_MIN - 1e-9) - 1


def least_minutes(
    exercises: int, demo_min: float = DEMO_MIN, welcome_min: float = WELCOME_MIN, clear_min: float = CLEAR_MIN, breaks_min: float = 0.0
) -> float:
    """Give the shortest lesson in which so many exercises can be practised.

    Formula: T = welcome + clearing + breaks + e (demo + 8 min).

    Parameters
    ----------
    exercises : int
        Exercises e [-]
    demo_min : float
        Time to show each [min]
    welcome_min : float
        Time before the first [min]
    clear_min : float
        Time after the last [min]
    breaks_min : float
        All breaks together [min]

    Returns
    -------
    float
        Length of the lesson T [min]

    Raises
    ------
    ValueError
        There is no exercise, or a time is negative.

    Range: one exercise or more. Leaves out: students who come late.

    Example
    -------
    >>> least_minutes(3)
    68.0

    Source: common-practice
    """
    if exercises < 1 or min(demo_min, welcome_min, clear_min, breaks_min) < 0:
        raise ValueError("a lesson has at least one exercise, and no negative time")
    return float(welcome_min + clear_min + breaks_min + exercises * (demo_min + LEAST_PRACTICE_MIN))


def lesson(
    students: int,
    exercises: Sequence[Exercise],
    minutes: float,
    recipe: str = "plain",
    seats: int = 4,
    scrape: bool = True,
    tutor: bool = True,
    own_cake_g: float = 0.0,
    demo_min: float = DEMO_MIN,
    welcome_min: float = WELCOME_MIN,
    clear_min: float = CLEAR_MIN,
    breaks: int = 0,
    break_min: float = BREAK_MIN,
    bag_holds_g: float = BAG_HOLDS_G,
    left_handed: int = 0,
) -> Lesson:
    """Plan a class: minutes shared among the exercises, and what follows for kits, buttercream, sheets and tables.

    Formula: practice t = (T - welcome - clearing - breaks) / e - demo, in whole minutes; passes p = t x piping share / (time of
    a sheet x a new hand's factor); buttercream of one exercise = m p, or m (1 + (p - 1) (1 - scraped back)) when p > 1
    and sheets are scraped off; of one kit = their sum + what stays in its bags; sheets of one exercise = one for each kit, the tutor's
    included, and a tenth more, and one mirrored sheet to spare where somebody is left-handed.

    Parameters
    ----------
    students : int
        Students n [-]
    exercises : sequence of Exercise
        What is practised, in order [-]
    minutes : float
        Length of the lesson T [min]
    recipe : str
        A key of `calc.buttercream.RECIPES` [-]
    seats : int
        Most students at one table [-]
    scrape : bool
        Sheets are scraped off and the buttercream goes back into the bag [-]
    tutor : bool
        One kit more for the tutor [-]
    own_cake_g : float
        Buttercream for a cake that each student takes home, the tutor's included [g]
    demo_min : float
        Time to show each exercise [min]
    welcome_min : float
        Time before the first [min]
    clear_min : float
        Time after the last [min]
    breaks : int
        Breaks b [-]
    break_min : float
        Length of one break [min]
    bag_holds_g : float
        What a bag is filled with at most [g]
    left_handed : int
        Students who pipe with the left hand [-]

    Returns
    -------
    Lesson
        Kits, buttercream with range, sheets, tables and what happens when [-]

    Raises
    ------
    ValueError
        There is no student or exercise, more are left-handed than there are, the minutes leave less than 8 for practising each
        exercise, or there are more breaks than places for one.

    Range: classes from one student. Leaves out: the pace of your own students; the range covers some of it.

    Example
    -------
    >>> from calc.lesson.exercises import read_exercises
    >>> plan = lesson(8, read_exercises("shells, swags", "exercises", "Exercises"), 120)
    >>> plan.kits, plan.sheets, plan.tables, [slot.name for slot in plan.slots][:3]
    (9, 20, (4, 4), ['Welcome, wash hands, set out', 'Show: shells', 'Practise: shells'])

    Source: common-practice
    """
    if students < 1 or not exercises or own_cake_g < 0 or not 0 <= left_handed <= students:
        raise ValueError("a class has one student and one exercise or more")
    least = least_minutes(len(exercises), demo_min, welcome_min, clear_min, breaks * break_min)
    if minutes < least:
        raise ValueError(f"{len(exercises)} exercises take {least:g} min or more")
    each_min = float(math.floor((minutes - welcome_min - clear_min - breaks * break_min) / len(exercises) - demo_min + 1e-9))
    density = density_g_per_ml(recipe, "smooth")
    practices = tuple(_practice(exercise, each_min, density, scrape) for exercise in exercises)
    plan = bag_plan([("one", p.exercise.tip, p.mass_g) for p in practices], bag_holds_g)
    kits = students + (1 if tutor else 0)
    beside = own_cake_g + len(plan.coupled) * BAG_LOSS_G
    per_kit, low, high = (
        math.fsum([beside, *masses]) for masses in ([p.mass_g for p in practices], [p.low_g for p in practices], [p.high_g for p in practices])
    )
    spare = max(1, math.ceil(kits * SPARE_SHARE - 1e-9))
    mirrored = left_handed + (1 if left_handed else 0)
    overlays = sum(1 if scrape else max(1, math.ceil(p.passes - 1e-9)) for p in practices)
    rests = _break_places(practices, welcome_min, demo_min, minutes, breaks, break_min)
    bags = math.ceil(kits * len(plan.coupled) * (1 + SPARE_SHARE) - 1e-9)
    return Lesson(
        students=students,
        kits=kits,
        practices=practices,
        per_kit_g=per_kit,
        buttercream_g=kits * per_kit,
        low_g=kits * low,
        high_g=kits * high,
        batches=max(1, math.ceil(kits * per_kit / BATCH_G - 1e-9)),
        copies=kits - left_handed + spare + mirrored,
        mirrored=mirrored,
        spare=spare + mirrored - left_handed,
        overlays_each=overlays,
        overlays=overlays * (kits + spare),
        bags=bags,
        spare_bags=bags - kits * len(plan.coupled),
        bag_plan=plan,
        tips=tuple(dict.fromkeys(p.exercise.tip for p in practices)),
        tables=table_plan(students, seats),
        slots=_slots(practices, welcome_min, demo_min, minutes, rests, break_min),
    )


def _practice(exercise: Exercise, minutes: float, density: Constant, scrape: bool) -> Practice:
    sheet = sheet_of(exercise.key, density)
    passes = minutes * PIPING_SHARE / (sheet.time_min * SLOW)
    share = passes if not scrape or passes <= 1 else 1 + (passes - 1) * (1 - SCRAPED_BACK)
    return Practice(exercise, sheet, minutes, passes, sheet.mass_g * share, sheet.low_g * share, sheet.high_g * share)


def _break_places(
    practices: Sequence[Practice], welcome: float, demo: float, minutes: float, breaks: int, break_min: float
) -> frozenset[tuple[int, bool]]:
    """Where the breaks come: before an exercise (its index, False) or in the middle of practising it (its index, True).

    The work without breaks is cut evenly; each cut goes to the nearest place, between two exercises rather than in the middle of one.
    """
    each = demo + practices[0].minutes
    places = {(i, False): welcome + i * each for i in range(1, len(practices))}
    places |= {(i, True): welcome + i * each + demo + practices[0].minutes / 2 for i in range(len(practices))}
    if breaks > len(places):
        raise ValueError(f"there are places for {len(places)} breaks")
    taken: set[tuple[int, bool]] = set()
    for k in range(1, breaks + 1):
        wanted = k * (minutes - breaks * break_min) / (breaks + 1)
        free = [place for place in places if place not in taken]
        taken.add(min(free, key=lambda place: abs(places[place] - wanted) + (HALF_WAY_MIN if place[1] else 0.0)))
    return frozenset(taken)


def _slots(
    practices: Sequence[Practice], welcome: float, demo: float, minutes: float, rests: frozenset[tuple[int, bool]], break_min: float
) -> tuple[Slot, ...]:
    parts: list[tuple[str, float, Exercise | None]] = [("Welcome, wash hands, set out", welcome, None)]
    rest = ("Break", break_min, None)
    for i, practice in enumerate(practices):
        name = practice.exercise.name.lower()
        if (i, False) in rests:
            parts.append(rest)
        parts.append((f"Show: {name}", demo, None))
        if (i, True) in rests:
            first = float(math.ceil(practice.minutes / 2))
            parts += [(f"Practise: {name}", first, practice.exercise), rest]
            parts.append((f"Go on: {name}", practice.minutes - first, practice.exercise))
        else:
            parts.append((f"Practise: {name}", practice.minutes, practice.exercise))
    left = minutes - math.fsum(length for _, length, _ in parts)
    parts.append(("Empty bags, count tips, wipe down", left, None))
    slots, at = [], 0.0
    for name, length, practised in parts:
        if length:
            slots.append(Slot(at, at + length, name, practised))
        at += length
    return tuple(slots)


def cautions(recipe: str, students: int, minutes: float, longest_practice_min: float) -> tuple[str, ...]:
    """Give what a teacher says before a class begins: allergens, food that was handled, hands, heat."""
    found = allergens(recipe)
    names = ", ".join(dict.fromkeys((*found.us, *found.eu))) or "none that must be named"
    said = [
        f"Ask about allergies before the day. This buttercream usually brings: {names}. Read the packs, colours "
        f"included. "
        "Airborne icing sugar and shared bags reach everyone at the table.",
        "Practice buttercream that was scraped off, breathed on and handled is not for eating. Keep apart what goes "
        "on a "
        "cake to take home, and throw the rest away after the lesson.",
    ]
    if minutes > 120:
        said.append(
            "The lesson is longer than 2 hours, the usual limit for perishable food out of the fridge (1 hour above 32 "
            "°C, "
            "90 °F). Bring out what goes on a cake to eat in two parts."
        )
    if longest_practice_min > REST_AFTER_MIN:
        said.append(
            f"Practice runs longer than {REST_AFTER_MIN:g} minutes at a stretch. Let hands rest half-way: squeezing without a break makes them cramp."
        )
    if students > FEW_PER_TUTOR:
        said.append(f"One tutor can watch about {FEW_PER_TUTOR:g} pairs of hands. Have a helper for {students}.")
    return tuple(said)
