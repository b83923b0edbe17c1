"""Plans a class: kits, buttercream, sheets, tables and hours. It may import `units`, `sources`, `buttercream`, `colours`, `rows` and `tips`.

Map
---
`Exercise`, `EXERCISES`, `read_exercises`   what can be practised on one sheet, each a row of piping
`sheet_of`                                  one practice sheet: length, buttercream and time of a hand that is new to it
`table_plan`                                seats shared evenly among tables
`Lesson`, `lesson`                          the whole class
`cautions`                                  what to say before it begins

Legend: n students, e exercises, T minutes in all, m buttercream of one sheet, p passes over a sheet.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc import units
from calc.buttercream import BATCH_G, allergens, density_g_per_ml
from calc.colours import BAG_LOSS_G, BagPlan, bag_plan
from calc.rows import KINDS, SLOW, Exercise, RowAmount, RowSpec, pipe
from calc.sources import constant
from calc.tips import Tip
from calc.units import Problem

SHEET_MM = constant(168, "mm", "iso-216", "length of a practice line: fits A4 (210 mm) and Letter (216 mm) inside the frame", group="derived")
WELCOME_MIN = constant(10, "min", "common-practice", "welcome, hands washed, aprons, who may not touch what")
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
FEW_PER_TUTOR = constant(10, "-", "common-practice", "students one tutor can watch the hands of", low=8, high=12)


_EXERCISES = [kind.exercise for kind in KINDS.values() if kind.exercise is not None]
EXERCISES: dict[str, Exercise] = {exercise.key: exercise for exercise in sorted(_EXERCISES, key=lambda exercise: exercise.rank)}
USUAL = tuple(exercise.key for exercise in sorted(_EXERCISES, key=lambda exercise: exercise.usual))


def read_exercises(text: str, input_name: str, label: str) -> tuple[Exercise, ...]:
    """Read exercises by name, "shells, swags and strings", or as a count of the usual ones.

    Parameters
    ----------
    text : str
        What was typed [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]

    >>> [exercise.key for exercise in read_exercises("Shells, swags and strings", "exercises", "Exercises")]
    ['shells', 'swags', 'strings']
    >>> [exercise.key for exercise in read_exercises("2", "exercises", "Exercises")]
    ['shells', 'swags']
    """
    tidy = units.read_text(text, input_name, label).lower()
    way = f"Write names, like shells, swags, strings, or a count up to {len(EXERCISES)}"
    if not tidy:
        raise Problem(input_name, f"{label} is empty. {way}")
    if re.fullmatch(r"\d+", tidy):
        count = int(tidy) if len(tidy) < 4 else 0
        if not 1 <= count <= len(EXERCISES):
            raise Problem(input_name, f"{label} must be between 1 and {len(EXERCISES)}. {way}")
        return tuple(EXERCISES[key] for key in USUAL[:count])
    known = _spellings()
    found: dict[str, Exercise] = {}
    for part in re.split(r"\s*(?:[;,\n&+]|\band\b)\s*", tidy):
        if not part:
            continue
        key = known.get(" ".join(part.replace("_", " ").split()))
        if key is None:
            shown = part if len(part) <= 30 else part[:29] + "…"
            names = ", ".join(exercise.name.lower() for exercise in EXERCISES.values())
            raise Problem(input_name, f"{label} has one that is not known: “{shown}”. There are {names}")
        found[key] = EXERCISES[key]
    if not found:
        raise Problem(input_name, f"{label} names nothing. {way}")
    return tuple(found.values())


@lru_cache(maxsize=1)
def _spellings() -> dict[str, str]:
    return {word: e.key for e in EXERCISES.values() for word in (e.name.lower(), e.key.replace("_", " "), *e.words)}


@lru_cache(maxsize=256)
def sheet_of(exercise: str, density: float) -> RowAmount:
    """Work out one practice sheet: all its lines, piped once.

    Formula: the row of `calc.rows.pipe` along lines x 168 mm.

    Parameters
    ----------
    exercise : str
        A key of `EXERCISES` [-]
    density : float
        Density of the buttercream [g/ml]

    Returns
    -------
    RowAmount
        Count, length, mass with range and time of a used hand [-]

    Raises
    ------
    KeyError
        There is no such exercise.

    Range: the sheets as they are printed. Leaves out: what is scraped off and piped again.

    Example
    -------
    >>> sheet = sheet_of("shells", 0.95)
    >>> sheet.count > 100, sheet.mass_g > 0
    (True, True)

    Source: common-practice
    """
    asked = EXERCISES[exercise]
    return pipe(
        RowSpec(
            asked.kind,
            asked.tip,
            run_mm=SHEET_MM * asked.lines,
            repeats=asked.repeats * asked.lines,
            width_mm=SHEET_MM / asked.repeats,
            drop_mm=asked.drop_mm,
            count=None if asked.pieces is None else asked.pieces * asked.lines,
            size_mm=asked.size_mm,
            density_g_per_ml=density,
        )
    )


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

    `minutes` are for practising it, `sheet_min` what one sheet takes a new hand, `passes` how often the sheet is piped
    over in the time, `mass_g` the buttercream that takes, before what stays in the bag.
    """

    exercise: Exercise
    sheet: RowAmount
    minutes: float
    sheet_min: float
    passes: float
    mass_g: float
    low_g: float
    high_g: float


@dataclass(frozen=True)
class Slot:
    """A stretch of the lesson, in minutes after it begins."""

    start_min: float
    end_min: float
    name: str


@dataclass(frozen=True)
class Lesson:
    """The whole class. `kits` counts the tutor's, who shows how; buttercream is for all of them.

    `bags` is how many bags to have, `overlays` the sheets of parchment or clear film that go over the printed ones,
    both with some to spare. `tips` are those of one kit.
    """

    students: int
    kits: int
    practices: tuple[Practice, ...]
    per_kit_g: float
    buttercream_g: float
    low_g: float
    high_g: float
    batches: int
    sheets: int
    overlays_each: int
    overlays: int
    bags: int
    bag_plan: BagPlan
    tips: tuple[Tip, ...]
    tables: tuple[int, ...]
    slots: tuple[Slot, ...]


def least_minutes(exercises: int, demo_min: float = DEMO_MIN, welcome_min: float = WELCOME_MIN, clear_min: float = CLEAR_MIN) -> float:
    """Give the shortest lesson in which so many exercises can be practised.

    Formula: T = welcome + clearing + e (demo + 8 min).

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

    Returns
    -------
    float
        Length of the lesson T [min]

    Raises
    ------
    ValueError
        There is no exercise, or a time is negative.

    Range: one exercise or more. Leaves out: breaks.

    Example
    -------
    >>> least_minutes(3)
    68.0

    Source: common-practice
    """
    if exercises < 1 or min(demo_min, welcome_min, clear_min) < 0:
        raise ValueError("a lesson has at least one exercise, and no negative time")
    return float(welcome_min + clear_min + exercises * (demo_min + LEAST_PRACTICE_MIN))


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
) -> Lesson:
    """Plan a class: minutes shared among the exercises, and what follows for kits, buttercream, sheets and tables.

    Formula: practice t = (T - welcome - clearing) / e - demo, in whole minutes; passes p = t x piping share / (time of
    a sheet x a new hand's factor); buttercream of one exercise = m p, or m (1 + (p - 1) (1 - scraped back)) when p > 1
    and sheets are scraped off; of one kit = their sum + what stays in its bags; sheets = n e and a tenth more.

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

    Returns
    -------
    Lesson
        Kits, buttercream with range, sheets, tables and what happens when [-]

    Raises
    ------
    ValueError
        There is no student or exercise, or the minutes leave less than 8 for practising each exercise.

    Range: classes from one student. Leaves out: the pace of your own students; the range covers some of it.

    Example
    -------
    >>> plan = lesson(8, read_exercises("shells, swags", "exercises", "Exercises"), 120)
    >>> plan.kits, plan.sheets, plan.tables, [slot.name for slot in plan.slots][:3]
    (9, 18, (4, 4), ['Welcome, wash hands, set out', 'Show: shells', 'Practise: shells'])

    Source: common-practice
    """
    if students < 1 or not exercises or own_cake_g < 0:
        raise ValueError("a class has one student and one exercise or more")
    least = least_minutes(len(exercises), demo_min, welcome_min, clear_min)
    if minutes < least:
        raise ValueError(f"{len(exercises)} exercises take {least:g} min or more")
    each_min = float(math.floor((minutes - welcome_min - clear_min) / len(exercises) - demo_min + 1e-9))
    density = float(density_g_per_ml(recipe, "smooth"))
    practices = tuple(_practice(exercise, each_min, density, scrape) for exercise in exercises)
    plan = bag_plan([("one", p.exercise.tip, p.mass_g) for p in practices])
    kits = students + (1 if tutor else 0)
    beside = own_cake_g + len(plan.coupled) * BAG_LOSS_G
    per_kit, low, high = (
        math.fsum([beside, *masses]) for masses in ([p.mass_g for p in practices], [p.low_g for p in practices], [p.high_g for p in practices])
    )
    spare = max(1, math.ceil(students * SPARE_SHARE - 1e-9))
    overlays = sum(1 if scrape else max(1, math.ceil(p.passes - 1e-9)) for p in practices)
    return Lesson(
        students, kits, practices, per_kit, kits * per_kit, kits * low, kits * high,
        max(1, math.ceil(kits * per_kit / BATCH_G - 1e-9)), len(practices) * (students + spare), overlays,
        overlays * (kits + spare),
        math.ceil(kits * len(plan.coupled) * (1 + SPARE_SHARE) - 1e-9), plan,
        tuple(dict.fromkeys(p.exercise.tip for p in practices)), table_plan(students, seats),
        _slots(practices, welcome_min, demo_min, minutes),
    )  # fmt: skip


def _practice(exercise: Exercise, minutes: float, density: float, scrape: bool) -> Practice:
    sheet = sheet_of(exercise.key, density)
    sheet_min = sheet.time_min * SLOW
    passes = minutes * PIPING_SHARE / sheet_min
    share = passes if not scrape or passes <= 1 else 1 + (passes - 1) * (1 - SCRAPED_BACK)
    return Practice(exercise, sheet, minutes, sheet_min, passes, sheet.mass_g * share, sheet.low_g * share, sheet.high_g * share)


def _slots(practices: Sequence[Practice], welcome: float, demo: float, minutes: float) -> tuple[Slot, ...]:
    parts = [("Welcome, wash hands, set out", welcome)]
    for practice in practices:
        name = practice.exercise.name.lower()
        parts += [(f"Show: {name}", demo), (f"Practise: {name}", practice.minutes)]
    left = minutes - math.fsum(length for _, length in parts)
    parts.append(("Empty bags, count tips, wipe down", left))
    slots, at = [], 0.0
    for name, length in parts:
        slots.append(Slot(at, at + length, name))
        at += length
    return tuple(slots)


def cautions(recipe: str, students: int, minutes: float, longest_practice_min: float) -> tuple[str, ...]:
    """Give what a teacher says before a class begins: allergens, food that was handled, hands, heat.

    Parameters
    ----------
    recipe : str
        A key of `calc.buttercream.RECIPES` [-]
    students : int
        Students [-]
    minutes : float
        Length of the lesson [min]
    longest_practice_min : float
        Longest stretch with a bag in the hand [min]

    >>> any("milk" in text for text in cautions("plain", 8, 120, 25))
    True
    """
    found = allergens(recipe)
    names = ", ".join(dict.fromkeys((*found.us, *found.eu))) or "none that must be named"
    said = [
        f"Ask for allergies before the day. This buttercream usually brings: {names}. Read the packs, colours "
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
        said.append(f"Practice runs longer than {REST_AFTER_MIN:g} minutes at a stretch. Let hands rest half-way: squeezing on makes them cramp.")
    if students > FEW_PER_TUTOR:
        said.append(f"One tutor can watch about {FEW_PER_TUTOR:g} pairs of hands. Have a helper for {students}.")
    return tuple(said)
