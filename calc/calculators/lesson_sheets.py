"""The sheets of a class: the plan, what to buy, and what is piped over.

Map
---
`lesson_sheets`   the sheets of a class by name, with their titles
`lesson_sheet`    one of them, drawn
"""

from __future__ import annotations

from calc.calculators.declare import Answer, Asked
from calc.calculators.list_sheets import list_sheet
from calc.drawing.paper import Sheet, patch_sheet, practice_sheet
from calc.lesson import SHEET_MM, Lesson
from calc.rows import Exercise
from calc.rows.placement import PlacedRow

PLAN_TABLES = ("plan", "kits", "table_kits", "front", "bags", "copies", "exercises", "tables")


def lesson_sheets(plan: Lesson) -> dict[str, str]:
    """The sheets of a class by name, with their titles, in the order they are wanted."""
    names = {"lesson-plan": "Lesson plan, kits and tables", "shopping-list": "Recipe and shopping list"}
    for practice in plan.practices:
        names[f"practice-{practice.exercise.key}"] = f"Practice sheet: {practice.exercise.name.lower()}"
    return names


def practised(exercise: Exercise, paper: str, units: str) -> Sheet:
    """Draw what is piped over in one exercise."""
    if exercise.gap_mm:
        return patch_sheet(exercise.tip, exercise.gap_mm, SHEET_MM, exercise.high_mm, paper=paper, units=units)
    row = PlacedRow(exercise.kind, exercise.tip, "#a79a8c", width_mm=exercise.size_mm, drop_mm=exercise.drop_mm, layers=exercise.layers)
    pitch = SHEET_MM / exercise.repeats if exercise.repeats > 1 else 0.0
    return practice_sheet(row, pitch, paper=paper, units=units)


def lesson_sheet(asked: Asked, answer: Answer, plan: Lesson, name: str, paper: str) -> Sheet:
    """Draw one sheet of a class."""
    if name == "lesson-plan":
        return list_sheet(answer, name, "Lesson plan", PLAN_TABLES, paper, ("kits", "table_kits", "front"))
    if name == "shopping-list":
        return list_sheet(answer, name, "Shopping list for the class", ("recipe", "shopping"), paper, ("shopping",))
    exercises = {f"practice-{p.exercise.key}": p.exercise for p in plan.practices}
    return practised(exercises[name], paper, asked.units)
