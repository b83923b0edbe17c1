"""A class: minutes shared out, buttercream that follows from the sheets, seats shared evenly."""

from __future__ import annotations

import io
import math

import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc import lesson as taught
from calc.buttercream import RECIPES, density_g_per_ml
from calc.calculators.declare import run
from calc.calculators.lesson_form import CALCULATOR
from calc.calculators.lesson_sheets import practised
from calc.colours import BAG_LOSS_G
from calc.drawing.paper import PAPERS, paper_mm
from calc.drawing.paper.practice import WORDS_MM
from calc.drawing.paper.sheet import printable_mm
from calc.drawing.scene import Group, Item, Text
from calc.lesson import (
    EXERCISES,
    PIPING_SHARE,
    SCRAPED_BACK,
    SHEET_MM,
    USUAL,
    cautions,
    least_minutes,
    lesson,
    read_exercises,
    sheet_of,
    table_plan,
)
from calc.rows import SLOW, natural_pitch_mm
from calc.units import Problem

some = st.lists(st.sampled_from(sorted(EXERCISES)), min_size=1, max_size=6, unique=True)


def walk(items: tuple[Item, ...]):  # type: ignore[no-untyped-def]
    for item in items:
        yield item
        if isinstance(item, Group):
            yield from walk(item.items)


def exercises(text: str):  # type: ignore[no-untyped-def]
    return read_exercises(text, "exercises", "Exercises")


@pytest.mark.parametrize("key", sorted(EXERCISES))
def test_every_sheet_can_be_piped(key: str) -> None:
    """A sheet fits the paper, its row fits its own lines, and a tip of the family that suits it pipes it."""
    exercise = EXERCISES[key]
    sheet = sheet_of(key, 0.95)
    assert sheet.notes == ()
    assert 0 < sheet.low_g <= sheet.mass_g <= sheet.high_g < 300, "no more than a bag"
    assert 0 < sheet.time_min < 20
    line_mm = (250 - 20) / exercise.lines  # the writing height of Letter, the lower of the two papers, with a heading
    band = sheet.above_mm + sheet.below_mm + exercise.drop_mm * (0 if exercise.kind.endswith("scroll") else 1)
    assert band <= line_mm, f"{exercise.lines} lines of {band:.0f} mm do not fit"
    if exercise.pieces:
        across = exercise.size_mm or natural_pitch_mm(exercise.kind, exercise.tip)
        assert exercise.pieces * across <= SHEET_MM, "pieces would lie on each other"


def test_the_usual_order_has_every_exercise_once() -> None:
    assert sorted(USUAL) == sorted(EXERCISES)


@pytest.mark.parametrize(
    "typed, keys",
    [
        ("shells, swags, strings", ["shells", "swags", "strings"]), ("Shells and swag", ["shells", "swags"]),
        ("string work; leaf", ["strings", "leaves"]), ("3", ["shells", "swags", "strings"]), ("shells, shell", ["shells"]),
        ("ruched_swags", ["ruched_swags"]), ("reverse  shells\nlines", ["reverse_shells", "lines"]),
    ],
)  # fmt: skip
def test_exercises_as_people_type_them(typed: str, keys: list[str]) -> None:
    assert [e.key for e in exercises(typed)] == keys


@pytest.mark.parametrize("typed", ["", "0", "99", "9999999", "roses of marzipan", ",", "shells, 🎂", "-1", "1.5"])
def test_exercises_that_are_none(typed: str) -> None:
    with pytest.raises(Problem, match="Exercises"):
        exercises(typed)


@given(st.text(max_size=80))
def test_any_text_is_exercises_or_a_problem(typed: str) -> None:
    try:
        assert exercises(typed)
    except Problem as problem:
        assert len(problem.message) < 300


# --- the class --------------------------------------------------------------------------------------------------------


def test_a_lesson_step_by_step() -> None:
    """120 min - 10 - 10 leaves 100 for two exercises: 50 each, 8 of them shown, 42 practised, half of that squeezing."""
    plan = lesson(8, exercises("shells, swags"), 120)
    shells = plan.practices[0]
    sheet = sheet_of("shells", float(density_g_per_ml("plain", "smooth")))
    assert shells.minutes == 42
    assert shells.passes == pytest.approx(42 * PIPING_SHARE / (sheet.time_min * SLOW)) and shells.passes > 1
    assert shells.mass_g == pytest.approx(sheet.mass_g * (1 + (shells.passes - 1) * (1 - SCRAPED_BACK)))
    assert len(plan.bag_plan.coupled) == 1, "one bag with a coupler takes both tips"
    assert plan.per_kit_g == pytest.approx(sum(p.mass_g for p in plan.practices) + BAG_LOSS_G)
    assert plan.kits == 9 and plan.buttercream_g == pytest.approx(9 * plan.per_kit_g)
    assert plan.sheets == 2 * (9 + 1) and plan.overlays == 2 * (9 + 1)


def test_a_large_class_by_hand() -> None:
    """Forty students, 41 kits; a tenth to spare is 5 sheets for each exercise, 46 bags for 41, and film for 46. Half the time is squeezing,
    and of what is scraped off six tenths go back into the bag."""
    plan = lesson(40, exercises("shells, swags"), 120)
    shells = plan.practices[0]
    assert shells.passes == pytest.approx(21 / (shells.sheet.time_min * SLOW))
    assert shells.mass_g == pytest.approx(shells.sheet.mass_g * (1 + 0.4 * (shells.passes - 1)))
    assert (plan.sheets, plan.bags, plan.overlays) == (2 * 46, 46, 2 * 46)
    assert plan.batches == math.ceil(plan.buttercream_g / 2000)
    assert lesson(9, exercises("shells"), 60).tables == (3, 3, 3)  # four to a table


def test_a_practice_line_fits_both_papers() -> None:
    """The frame of a sheet and the words beside it leave room for a line; a line is no shorter than it need be."""
    widest = min(printable_mm(paper_mm(paper))[2] for paper in PAPERS) - WORDS_MM
    assert widest - 2 <= SHEET_MM <= widest


def test_how_sure_a_class_can_be() -> None:
    """Shown in 5 to 15 min; 40 to 75 % go back into the bag; a hand squeezes 35 to 65 % of the time; 8 to 12 students for one tutor."""
    found = (taught.DEMO_MIN, SCRAPED_BACK, PIPING_SHARE, taught.FEW_PER_TUTOR)
    assert [(c.low, c.high) for c in found] == [(5, 15), (0.4, 0.75), (0.35, 0.65), (8, 12)]


@pytest.mark.parametrize("students, rest, helper", [(10, 25, False), (11, 25, True), (10, 25.5, False)])
def test_when_a_teacher_needs_help(students: int, rest: float, helper: bool) -> None:
    said = " ".join(cautions("plain", students, 90, rest))
    assert ("helper" in said) == helper and ("cramp" in said) == (rest > 25)


@given(st.integers(1, 200), some, st.integers(0, 400), st.integers(1, 12), st.booleans(), st.booleans())
@settings(max_examples=150, deadline=None)
def test_every_lesson_holds_together(students: int, keys: list[str], more: int, seats: int, scrape: bool, tutor: bool) -> None:
    chosen = tuple(EXERCISES[key] for key in keys)
    minutes = least_minutes(len(chosen)) + more
    plan = lesson(students, chosen, minutes, seats=seats, scrape=scrape, tutor=tutor)
    assert sum(plan.tables) == students and max(plan.tables) - min(plan.tables) <= 1 and max(plan.tables) <= seats
    assert plan.slots[0].start_min == 0 and plan.slots[-1].end_min == pytest.approx(minutes)
    for first, second in zip(plan.slots, plan.slots[1:], strict=False):
        assert first.end_min == second.start_min and first.end_min > first.start_min
    assert plan.low_g <= plan.buttercream_g <= plan.high_g
    assert plan.batches * 2000 >= plan.buttercream_g - 1e-6
    assert plan.sheets == (plan.kits + plan.spare) * len(chosen) and plan.spare >= 1
    assert plan.bags - plan.spare_bags == plan.kits * len(plan.bag_plan.coupled) and plan.spare_bags >= 1
    assert all(p.minutes >= 8 for p in plan.practices)


@given(st.integers(1, 100), some)
def test_more_students_need_more(students: int, keys: list[str]) -> None:
    chosen = tuple(EXERCISES[key] for key in keys)
    few, many = (lesson(n, chosen, 300) for n in (students, students + 1))
    assert few.buttercream_g < many.buttercream_g and few.sheets < many.sheets and few.per_kit_g == many.per_kit_g


def test_scraping_saves_buttercream_and_costs_no_film() -> None:
    once, again = (lesson(8, exercises("swags, strings"), 150, scrape=scrape) for scrape in (False, True))
    assert again.buttercream_g < once.buttercream_g and again.overlays < once.overlays


def test_a_cake_to_take_home_comes_on_top() -> None:
    plain, cake = (lesson(8, exercises("shells"), 60, own_cake_g=mass) for mass in (0.0, 250.0))
    assert cake.buttercream_g - plain.buttercream_g == pytest.approx(9 * 250)


@pytest.mark.parametrize("students, seats, tables", [(10, 4, (4, 3, 3)), (8, 4, (4, 4)), (1, 4, (1,)), (5, 1, (1,) * 5), (13, 6, (5, 4, 4))])
def test_tables(students: int, seats: int, tables: tuple[int, ...]) -> None:
    assert table_plan(students, seats) == tables


@given(st.integers(1, 500), st.integers(1, 50))
def test_tables_are_as_few_as_can_be(students: int, seats: int) -> None:
    tables = table_plan(students, seats)
    assert sum(tables) == students and len(tables) == math.ceil(students / seats)


def test_a_lesson_that_is_too_short_is_refused() -> None:
    assert least_minutes(3) == 10 + 10 + 3 * (8 + 8)
    lesson(1, exercises("3"), 68)
    with pytest.raises(ValueError, match="68 min or more"):
        lesson(1, exercises("3"), 67)
    with pytest.raises(ValueError):
        lesson(0, exercises("3"), 120)


def test_cautions() -> None:
    """FALCPA and Regulation 1169/2011 name milk; USDA FSIS: 2 hours, 1 hour above 90 F."""
    said = " ".join(cautions("plain", 8, 90, 20))
    assert "milk" in said and "not for eating" in said and "2 hours" not in said and "helper" not in said
    assert "2 hours" in " ".join(cautions("plain", 8, 150, 20))
    assert "helper" in " ".join(cautions("plain", 11, 90, 20)) and "cramp" in " ".join(cautions("plain", 8, 90, 40))
    for recipe in RECIPES:
        assert "allergies" in cautions(recipe, 8, 90, 20)[0]
    assert "eggs" in cautions("swiss_meringue", 8, 90, 20)[0]


# --- the calculator ---------------------------------------------------------------------------------------------------


def test_the_usual_lesson() -> None:
    answer = run(CALCULATOR, {})
    assert not answer.problems
    assert {"buttercream", "sheets", "kits", "tables"} <= set(answer.figures)
    assert {"kits", "exercises", "plan", "tables"} < {t["name"] for t in answer.tables}
    assert 0.5 * 8 * 100 < answer.figures["buttercream"]["value"] < 9 * 600, "a bag or two for each, by common practice"


@pytest.mark.parametrize(
    "inputs, name, words",
    [
        ({"students": "0"}, "students", "between 1 and 200"),
        ({"students": "2.5"}, "students", "whole number"),
        ({"exercises": "knitting"}, "exercises", "knitting"),
        ({"minutes": "30"}, "minutes", "68 or more for 3 exercises"),
        ({"minutes": "90", "breaks": "2"}, "minutes", "98 or more for 3 exercises"),
        ({"exercises": "shells", "breaks": "2"}, "breaks", "room for 1 at most"),
        ({"left_handed": "9"}, "left_handed", "8 or fewer"),
        ({"minutes": "5 kg"}, "minutes", "weight"),
        ({"seats": "0"}, "seats", "between"),
    ],
)
def test_what_cannot_be_is_said_at_its_field(inputs: dict[str, str], name: str, words: str) -> None:
    answer = run(CALCULATOR, inputs)
    assert [p["input"] for p in answer.problems] == [name]
    assert words in answer.problems[0]["message"] and not answer.figures


# --- on paper ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", sorted(EXERCISES))
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_printed_sheet_has_as_many_lines_as_are_reckoned(key: str, paper: str) -> None:
    """The page for the size on the cake stands upright on either paper, and its lines are those that the buttercream is for."""
    exercise = EXERCISES[key]
    page = practised(exercise, paper, "metric").pages[1]
    told = ("follow the grey", "follow the dots", "from mark to mark", "fill it yourself")
    lines = sum(isinstance(item, Text) and item.words in told for item in walk(page.items))
    assert page.width_mm < page.height_mm and lines == exercise.lines


def test_sheets_to_print() -> None:
    names = [s["name"] for s in run(CALCULATOR, {"exercises": "shells, swags"}).sheets]
    assert names == ["lesson-plan", "shopping-list", "class-register", "hand-out", "progress", "practice-shells", "practice-swags"]
    for name in names:
        for paper in ("A4", "Letter"):
            data = calc.sheet("lesson", {"exercises": "shells, swags"}, name, paper)
            reader = pypdf.PdfReader(io.BytesIO(data))
            assert len(reader.pages) >= 1
    with pytest.raises(KeyError):
        calc.sheet("lesson", {"exercises": "shells"}, "practice-swags")
