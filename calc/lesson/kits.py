"""What lies ready at each place, on each table and at the front.

Map
---
`Thing`       something to have ready, how many for each student, table or class
`things_for`  all of it for a lesson
`cutter_mm`   the round cutter that marks an exercise's swags
"""

from __future__ import annotations

from dataclasses import dataclass

from calc.curves import arc_radius_mm
from calc.lesson.exercises import SHEET_MM, kind_of
from calc.lesson.planning import Lesson
from calc.rows import Exercise

_PLACE = ("Tall glass to fill the bag in", "Bench scraper", "Small palette knife", "Damp cloth and apron")
_TABLE = (
    "Scale that shows single grams",
    "Soft tape measure",
    "Sticky tape to hold the film down",
    "Scissors",
    "Bowl for what is scraped off",
    "Cocktail sticks to clear tips",
    "Roll of kitchen paper",
)
_FRONT = ("Packs with their labels, for allergies", "Bin for what was handled", "Soap, hand towels and warm water", "Box to count tips back into")


@dataclass(frozen=True)
class Thing:
    """Something to have ready: `each` for one kit, table or class, `total` in all. `size_mm` is its width where that matters."""

    name: str
    each: int
    total: int
    size_mm: float | None = None


def cutter_mm(exercise: Exercise) -> float | None:
    """Give the diameter of the round cutter that marks the swags of an exercise; None where it is marked without one [mm].

    Formula: D = 2 R of an arc with the chord and the drop of one swag on its sheet.

    Parameters
    ----------
    exercise : Exercise
        What is practised [-]

    Returns
    -------
    float or None
        Diameter D [mm]

    Range: any exercise. Leaves out: the width of the ribbon. Raises no error.

    Example
    -------
    >>> from calc.lesson.exercises import EXERCISES
    >>> round(cutter_mm(EXERCISES["swags"]), 1), cutter_mm(EXERCISES["shells"])
    (57.6, None)

    Source: segment (radius of the arc)
    """
    if kind_of(exercise).curve != "arc":
        return None
    return 2 * arc_radius_mm(SHEET_MM / exercise.repeats, exercise.drop_mm)


def things_for(plan: Lesson) -> tuple[tuple[Thing, ...], tuple[Thing, ...], tuple[Thing, ...]]:
    """Give what lies at each place, on each table and at the front, besides bags, tips, sheets and buttercream."""
    exercises = [practice.exercise for practice in plan.practices]
    own = dict.fromkeys(tool for exercise in exercises for tool in exercise.tools)
    place = tuple(Thing(name, 1, plan.kits) for name in (*_PLACE, *own))
    tables = len(plan.tables)
    cutters = sorted({cut for exercise in exercises if (cut := cutter_mm(exercise)) is not None})
    table = (*(Thing("Round cutter", 1, tables, cut) for cut in cutters), *(Thing(name, 1, tables) for name in _TABLE))
    return place, table, tuple(Thing(name, 1, 1) for name in _FRONT)
