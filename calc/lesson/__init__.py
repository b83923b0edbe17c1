"""Plans a class: what is practised, how the hours go, kits, buttercream, sheets and tables.

It may import `units`, `sources`, `curves`, `buttercream`, `colours`, `rows` and `tips`.

Map
---
`exercises`   what can be practised, by any of its names; one practice sheet of it
`planning`    minutes, breaks, bags and refills, buttercream, copies, tables; what to say before it begins
`kits`        what lies ready at each place, on each table and at the front
"""

from calc.lesson.exercises import EXERCISES, SHEET_MM, USUAL, kind_of, nearest, page_of, read_exercises, sheet_of
from calc.lesson.kits import Thing, cutter_mm, things_for
from calc.lesson.planning import (
    BREAK_EVERY_MIN,
    BREAK_MIN,
    CLEAR_MIN,
    DEMO_MIN,
    FEW_PER_TUTOR,
    LEAST_PRACTICE_MIN,
    PIPING_SHARE,
    SCRAPED_BACK,
    WELCOME_MIN,
    Lesson,
    Practice,
    Slot,
    cautions,
    least_minutes,
    lesson,
    table_plan,
    usual_breaks,
)

__all__ = [
    "BREAK_EVERY_MIN",
    "BREAK_MIN",
    "CLEAR_MIN",
    "DEMO_MIN",
    "EXERCISES",
    "FEW_PER_TUTOR",
    "LEAST_PRACTICE_MIN",
    "PIPING_SHARE",
    "SCRAPED_BACK",
    "SHEET_MM",
    "USUAL",
    "WELCOME_MIN",
    "Lesson",
    "Practice",
    "Slot",
    "Thing",
    "cautions",
    "cutter_mm",
    "kind_of",
    "least_minutes",
    "lesson",
    "nearest",
    "page_of",
    "read_exercises",
    "sheet_of",
    "table_plan",
    "things_for",
    "usual_breaks",
]
