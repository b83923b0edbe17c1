"""`lesson`: what a class needs: kits, buttercream, sheets, tables, and what happens when."""

from __future__ import annotations

from calc.buttercream import recipe_choices
from calc.calculators.declare import Answer, Asked, Calculator, Input, sheet_answer
from calc.calculators.list_sheets import list_sheet
from calc.drawing.paper import practice_sheet
from calc.lesson import (
    CLEAR_MIN,
    DEMO_MIN,
    LEAST_PRACTICE_MIN,
    SHEET_MM,
    WELCOME_MIN,
    Lesson,
    cautions,
    least_minutes,
    lesson,
    read_exercises,
)
from calc.rows.placement import PlacedRow
from calc.units import Problem


def _kits(answer: Answer, plan: Lesson) -> None:
    say, kits = answer.say, plan.kits
    rows = [["Buttercream, in bags", say.mass(plan.per_kit_g), say.mass(plan.buttercream_g)]]
    rows += [[f"Tip: {tip.name}", "1", str(kits)] for tip in plan.tips]
    rows.append(["Bags", str(len(plan.bag_plan.coupled)), f"{plan.bags}, some to spare"])
    if plan.bag_plan.couplers:
        rows.append(["Couplers", str(plan.bag_plan.couplers), str(kits * plan.bag_plan.couplers)])
    rows += [
        ["Practice sheets, printed", str(len(plan.practices)), f"{plan.sheets}, some to spare"],
        ["Parchment or clear film over them", str(plan.overlays_each), f"{plan.overlays}, some to spare"],
        ["Bench scraper", "1", str(kits)],
        ["Small palette knife", "1", str(kits)],
        ["Damp cloth and apron", "1", str(kits)],
    ]
    answer.table("kits", "Kits", ("What", "One kit", f"All {kits}"), rows, (1, 2))


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `lesson`."""
    say = answer.say
    exercises = read_exercises(asked["exercises"], "exercises", "Exercises")
    least = least_minutes(len(exercises), asked["demo"], WELCOME_MIN, CLEAR_MIN)
    if asked["minutes"] < least:
        several = f"{len(exercises)} exercise{'s' if len(exercises) > 1 else ''}"
        raise Problem(
            "minutes",
            f"Minutes must be {least:g} or more for {several}: each is shown for "
            f"{say.duration(asked['demo'])} and needs {LEAST_PRACTICE_MIN:g} min of practice. "
            "Take longer, or fewer exercises",
        )
    plan = lesson(
        asked["students"], exercises, asked["minutes"], asked["recipe"], asked["seats"], asked["scrape"],
        asked["tutor"], asked["cake"] or 0.0, asked["demo"],
    )  # fmt: skip
    answer.mass("buttercream", "Buttercream in all", plan.buttercream_g, plan.low_g, plan.high_g)
    answer.mass("per_kit", "In one kit", plan.per_kit_g)
    answer.count("sheets", "Practice sheets to print", plan.sheets)
    answer.duration("practice", "Practice at each exercise", plan.practices[0].minutes)
    with answer.quietly():
        answer.count("batches", "Batches of 2 kg", plan.batches)
        answer.count("kits", "Kits", plan.kits)
        answer.count("bags", "Bags", plan.bags)
        answer.count("tables", "Tables", len(plan.tables))
    _kits(answer, plan)
    heads = ("Exercise", "One sheet", "Times over", "Buttercream")
    answer.table(
        "exercises",
        "Exercises",
        heads,
        [
            (f"{p.exercise.name}, {p.exercise.tip.name}", say.length(p.sheet.length_mm), say.number(p.passes, 1), answer.say.mass(p.mass_g))
            for p in plan.practices
        ],
        (1, 2, 3),
    )
    aims = {f"Practise: {p.exercise.name.lower()}": f", {p.exercise.aim}" for p in plan.practices}
    answer.table(
        "plan",
        "What happens when",
        ("From", "Takes", "What"),
        [(say.duration(slot.start_min), say.duration(slot.end_min - slot.start_min), slot.name + aims.get(slot.name, "")) for slot in plan.slots],
        (0, 1),
    )
    each = plan.per_kit_g
    answer.table(
        "tables",
        "Table plan",
        ("Table", "Seats", "Buttercream", "Turntables"),
        [(str(number), str(seats), say.mass(seats * each), str(-(-seats // 2))) for number, seats in enumerate(plan.tables, 1)],
        (1, 2, 3),
    )
    answer.note(
        f"{plan.kits} kit{'s' if plan.kits > 1 else ''}, {len(plan.tables)} table{'s' if len(plan.tables) > 1 else ''}"
        + (", and one kit of them is the tutor's, at the front." if asked["tutor"] else ".")
        + f" The buttercream is {plan.batches} batch{'es' if plan.batches > 1 else ''} of up to 2 kg."
    )
    if asked["scrape"]:
        answer.note("Each printed sheet lies under parchment or clear film: pipe, scrape off, fill the bag again.")
    short = [p.exercise.name.lower() for p in plan.practices if p.passes < 1]
    if short:
        answer.note(f"A new hand does not finish a whole sheet in the time: {', '.join(short)}.")
    answer.sheet("lesson-plan", "Lesson plan, kits and tables")
    for exercise in exercises:
        answer.sheet(f"practice-{exercise.key}", f"Practice sheet: {exercise.name.lower()}")
    answer.note("Each practice sheet has three pages: large, the size on the cake, small. The count is of the second.")
    for text in cautions(asked["recipe"], asked["students"], asked["minutes"], plan.practices[0].minutes):
        answer.caution(text)


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw the lesson's own sheet, or the practice sheet of one exercise."""
    if name == "lesson-plan":
        answer = sheet_answer("lesson", asked, work_out)
        return list_sheet(answer, name, "Lesson plan", ("plan", "kits", "exercises", "tables"), paper, ("kits",)).pdf(units=asked.units)
    chosen = {f"practice-{e.key}": e for e in read_exercises(asked["exercises"], "exercises", "Exercises")}
    exercise = chosen[name]
    row = PlacedRow(exercise.kind, exercise.tip, "#a79a8c", width_mm=exercise.size_mm, drop_mm=exercise.drop_mm)
    pitch = SHEET_MM / exercise.repeats if exercise.repeats > 1 else 0.0
    return practice_sheet(row, pitch, paper=paper, units=asked.units).pdf(units=asked.units)


CALCULATOR = Calculator(
    "lesson",
    "Plan a lesson",
    "Kits, buttercream, practice sheets and a table plan for a class.",
    (
        Input("students", "Students", "count", "8", low=1, high=200, help="Such as 8"),
        Input("exercises", "Exercises", "text", "shells, swags, strings", help="Names in order, or a count such as 3"),
        Input("minutes", "Minutes", "duration", "120 min", low=20, high=600, help="Length of the lesson, such as 2 h"),
        Input("recipe", "Recipe", "choice", "plain", choices=recipe_choices, advanced=True),
        Input("seats", "Seats at a table", "count", "4", low=1, high=50, advanced=True),
        Input("demo", "Showing each exercise", "duration", f"{DEMO_MIN:g} min", low=0, high=60, advanced=True),
        Input("scrape", "Scrape off and pipe again", "yes_no", "yes", advanced=True),
        Input("tutor", "A kit for the tutor", "yes_no", "yes", advanced=True),
        Input("cake", "Buttercream for a cake to take home", "mass", "", low=0, high=5000, optional=True, advanced=True,
              help="For each student, such as 250 g; left empty, none", usual=(10, 3000), by_volume=True),
    ),
    work_out,
    draw_sheet=draw_sheet,
)  # fmt: skip
