"""`practice`: what a student practises: how each row is held and piped, and the sheets for it. A teacher's link for students opens it."""

from __future__ import annotations

from calc.buttercream import recipe_choices
from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.calculators.lesson_sheets import allergen_words, practice_sheets, student_sheet
from calc.drawing.paper import Heading
from calc.lesson import kind_of, read_exercises
from calc.rows import Exercise
from calc.units import Formatter

HANDS = (("right", "Right"), ("left", "Left"))


def _exercises(asked: Asked) -> tuple[Exercise, ...]:
    """What is practised, the easiest first."""
    return tuple(sorted(read_exercises(asked["exercises"], "exercises", "Exercises"), key=lambda exercise: exercise.rank))


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `practice`."""
    exercises = _exercises(asked)
    answer.count("exercises", "Exercises", len(exercises))
    answer.count("tips", "Tips", len({exercise.tip for exercise in exercises}))
    rows = []
    for exercise in exercises:
        kind = kind_of(exercise)
        hand = f"One line in short curls, {answer.say.length(exercise.gap_mm)} from pass to pass." if exercise.gap_mm else kind.hand
        rows.append((exercise.name, exercise.tip.name, kind.held(exercise.tip.family), hand, exercise.aim))
    answer.table("exercises", "The easiest first", ("Exercise", "Tip", "Hold it", "Your hand", "Look for"), rows)
    answer.note("Lay each sheet under parchment or clear film: pipe over it, scrape off, and pipe again.")
    for name, title in practice_sheets(exercises, asked["hand"] == "left").items():
        answer.sheet(name, title)
    answer.caution(allergen_words(asked["recipe"]))
    answer.caution("Practice buttercream that was scraped off and handled is not for eating.")


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw the hand-out, the progress sheet, or what is piped over."""
    return student_sheet(_exercises(asked), asked["recipe"], name, Heading(), paper, Formatter(asked.units)).pdf(units=asked.units)


CALCULATOR = Calculator(
    "practice",
    "What we practise",
    "How each row is held and piped, and the sheets to pipe over.",
    (
        Input("exercises", "Exercises", "text", "shells, swags, strings", help="Any technique, such as roses, or a count such as 3"),
        Input("hand", "You pipe with", "choice", "right", choices=HANDS, help="Sheets for the left hand are mirrored"),
        Input("recipe", "Buttercream", "choice", "plain", choices=recipe_choices, help="It says who must not touch it"),
    ),
    work_out,
    draw_sheet=draw_sheet,
)
