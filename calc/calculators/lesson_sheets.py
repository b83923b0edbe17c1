"""The sheets of a class: the plan, what to buy, register, progress, hand-out, and what is piped over.

Map
---
`lesson_sheets`      the sheets of a class by name, with their titles
`lesson_sheet`       one of them, drawn
`practice_sheets`    what one student takes along: hand-out, progress, what is piped over
`student_sheet`      one of those, drawn
`turned_round`       a drawing in the mirror, its words as they were
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

from calc import buttercream
from calc.calculators.declare import Answer, Asked
from calc.calculators.list_sheets import list_sheet
from calc.drawing.paper import Blanks, Block, Heading, Paragraphs, Picture, Sheet, Table, patch_sheet, practice_sheet, written_sheet
from calc.drawing.scene import Group, Item, Scene, Text
from calc.lesson import SHEET_MM, Lesson, kind_of
from calc.rows import Exercise
from calc.rows.placement import PlacedRow
from calc.units import Formatter

PLAN_TABLES = ("plan", "kits", "table_kits", "front", "bags", "copies", "exercises", "tables")
AT_HOME_G = 500.0  # buttercream in the recipe of the hand-out
PANEL_MM = 34.0  # height of the drawings of the hand-out
_LINE_MM = 9.5  # a row that somebody writes in
_COLOUR = "#b9592f"


def lesson_sheets(plan: Lesson) -> dict[str, str]:
    """The sheets of a class by name, with their titles, in the order they are wanted."""
    exercises = [practice.exercise for practice in plan.practices]
    names = {
        "lesson-plan": "Lesson plan, kits and tables",
        "shopping-list": "Recipe and shopping list",
        "class-register": "Class register, with allergies",
    } | practice_sheets(exercises, False)
    if plan.mirrored:
        names |= practice_sheets(exercises, True)  # the progress sheet is one for either hand
    return names


def practice_sheets(exercises: Sequence[Exercise], left: bool) -> dict[str, str]:
    """The sheets of one student by name, with their titles; those for the left hand have names of their own."""
    end, words = ("-left", ", for the left hand") if left else ("", "")
    names = {f"hand-out{end}": f"Student's hand-out{words}"}
    names["progress"] = "Progress sheet"
    names |= {f"practice-{exercise.key}{end}": f"Practice sheet: {exercise.name.lower()}{words}" for exercise in exercises}
    return names


def lesson_sheet(asked: Asked, answer: Answer, plan: Lesson, name: str, paper: str) -> Sheet:
    """Draw one sheet of a class."""
    starts: dt.datetime | None = asked["starts"]
    heading = Heading(day=answer.say.moment(starts) if starts is not None else "")
    match name:
        case "lesson-plan":
            return list_sheet(answer, name, "Lesson plan", PLAN_TABLES, paper, ("kits", "table_kits", "front"), heading=heading)
        case "shopping-list":
            answer.cautions.clear()  # they are on the plan
            return list_sheet(answer, name, "Shopping list for the class", ("recipe", "shopping"), paper, ("shopping",), heading=heading)
        case "class-register":
            return register_sheet(plan.students, asked["recipe"], heading, paper)
        case _:
            exercises = [practice.exercise for practice in plan.practices]
            return student_sheet(exercises, asked["recipe"], name, heading, paper, answer.say)


def student_sheet(exercises: Sequence[Exercise], recipe: str, name: str, heading: Heading, paper: str, say: Formatter) -> Sheet:
    """Draw one of a student's sheets; raises a `KeyError` where there is none of that name."""
    left = name.endswith("-left")
    if name.removesuffix("-left") == "hand-out":
        return hand_out(exercises, recipe, left, heading, paper, say)
    if name == "progress":
        return progress_sheet(exercises, heading, paper)
    wanted = {f"practice-{exercise.key}": exercise for exercise in exercises}[name.removesuffix("-left")]
    return practised(wanted, paper, say.units, left)


def practised(exercise: Exercise, paper: str, units: str, mirrored: bool = False) -> Sheet:
    """Draw what is piped over in one exercise."""
    if exercise.gap_mm:
        return patch_sheet(exercise.tip, exercise.gap_mm, SHEET_MM, exercise.high_mm, paper=paper, units=units, mirrored=mirrored, named=True)
    row = PlacedRow(exercise.kind, exercise.tip, "#a79a8c", width_mm=exercise.size_mm, drop_mm=exercise.drop_mm, layers=exercise.layers)
    pitch = SHEET_MM / exercise.repeats if exercise.repeats > 1 else 0.0
    return practice_sheet(row, pitch, paper=paper, units=units, mirrored=mirrored, named=True, called=exercise.name.lower(), lines=exercise.lines)


def allergen_words(recipe: str) -> str:
    """What a buttercream usually brings, by the nine of the US and the fourteen of the EU and UK."""
    found = buttercream.allergens(recipe)
    us, eu = (", ".join(names) or "none" for names in (found.us, found.eu))
    return f"This buttercream usually brings, of the nine named in the US: {us}. Of the fourteen in the EU and UK: {eu}. Colours bring their own."


def register_sheet(students: int, recipe: str, heading: Heading, paper: str) -> Sheet:
    """Draw the register of a class: a line for each student, with what they may not touch."""
    rows = tuple((str(number), "", "", "", "") for number in range(1, students + 1))
    heads = ("", "Name", "Allergies, and what not to touch", "Left hand", "Here")
    blocks: list[Block] = [
        Paragraphs("", (allergen_words(recipe), "Ask before the day, and again at the door. Keep this list private, and destroy it afterwards.")),
        Table("", heads, rows, (), False, (0.6, 4.0, 5.0, 1.2, 1.0), _LINE_MM),
    ]
    return written_sheet("class-register", "Class register", blocks, heading, paper)


def progress_sheet(exercises: Sequence[Exercise], heading: Heading, paper: str) -> Sheet:
    """Draw a student's progress sheet: what to look for in each exercise, and room for how it went."""
    rows = tuple((exercise.name, exercise.aim, "", "", "") for exercise in exercises)
    heads = ("Exercise", "What to look for", "First line", "Last line", "Next time")
    tips = tuple((tip.name, "", "") for tip in dict.fromkeys(exercise.tip for exercise in exercises))
    blocks: list[Block] = [
        Blanks("", (("Name", ""), ("Date", heading.day))),
        Table("How it went", heads, rows, (), False, (2.0, 3.4, 1.5, 1.5, 2.2), 16.0),
        Table(
            "What your own hand pipes", ("Tip", "Length piped, such as 30 cm", "What it weighed"), tips, (), False, (2.0, 2.0, 2.0), _LINE_MM,
        ),
        Paragraphs("", ("A length piped and weighed replaces the estimate in every calculator of the handbook, so that amounts fit your hand.",)),
    ]  # fmt: skip
    return written_sheet("progress", "Progress sheet", blocks, Heading(), paper)


def hand_out(exercises: Sequence[Exercise], recipe: str, left: bool, heading: Heading, paper: str, say: Formatter) -> Sheet:
    """Draw what a student takes home: how each exercise is piped, the buttercream, and the cautions that go with it."""
    blocks: list[Block] = [Blanks("", (("Name", ""),)), Paragraphs("Who must not touch it", (allergen_words(recipe),), boxed=True)]
    for exercise in exercises:
        kind = kind_of(exercise)
        told: tuple[str, ...] = (f"Hold the tip {kind.held(exercise.tip.family)}. {kind.hand}", f"Look for: {exercise.aim}.")
        if exercise.gap_mm:
            told = (f"One line in short curls, {say.length(exercise.gap_mm)} from pass to pass. {told[1]}",)
        blocks.append(Paragraphs(f"{exercise.name}, {exercise.tip.name}", told, keep_mm=PANEL_MM + 22.0))
        if not exercise.gap_mm:
            blocks.append(Picture(_panels(exercise, left), PANEL_MM, scaled=False))
    made = buttercream.batch(recipe, AT_HOME_G)
    weighed = tuple((say.words(line.ingredient.name), say.mass(line.mass_g)) for line in made.lines)
    blocks += [
        Table(
            say.words(f"{made.recipe.name} buttercream to practise at home, {say.mass(AT_HOME_G)}"),
            ("Ingredient", "Weigh"),
            weighed,
            (1,),
            keep_mm=7.0 * (len(weighed) + 1),
        ),
        Paragraphs("", tuple(say.words(step) for step in made.recipe.steps), numbered=True, keep_mm=7.0 * len(made.recipe.steps)),
        Paragraphs("Cautions", (*buttercream.cautions(recipe, say.units), "What was scraped off and handled is not for eating."), boxed=True),
    ]
    title = f"What we practise{', for the left hand' if left else ''}"
    return written_sheet(f"hand-out{'-left' if left else ''}", title, blocks, heading, paper)


def _panels(exercise: Exercise, left: bool) -> tuple[Scene, ...]:
    """The tip at work, its angle, the path of the hand and the finished row."""
    from calc.drawing import hands  # only a hand-out draws them

    drawers = (hands.front_panel, hands.angle_panel, hands.path_panel, hands.row_panel)
    scenes = tuple(draw(exercise.kind, exercise.tip, _COLOUR) for draw in drawers)
    return tuple(turned_round(scene) for scene in scenes) if left else scenes


def turned_round(scene: Scene) -> Scene:
    """Give a drawing in the mirror; its words and numbers can still be read."""
    middle = 2 * scene.x_mm + scene.width_mm
    return replace(scene, items=(Group(tuple(_readable(item) for item in scene.items), matrix=(-1.0, 0.0, 0.0, 1.0, middle, 0.0)),))


def _readable(item: Item) -> Item:
    if isinstance(item, Text):
        other = {"start": "end", "end": "start"}.get(item.anchor, item.anchor)
        return Group((item._replace(anchor=other),), matrix=(-1.0, 0.0, 0.0, 1.0, 2 * item.x, 0.0))
    if isinstance(item, Group):
        return item._replace(items=tuple(_readable(one) for one in item.items))
    return item
