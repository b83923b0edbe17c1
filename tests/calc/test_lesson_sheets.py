"""The sheets of a class: register, progress, hand-out, mirrored practice, arrows and names, and no last page of two lines."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator

import pypdf
import pypdfium2
import pytest

import calc
from calc import buttercream
from calc.calculators import CALCULATORS
from calc.calculators.lesson_sheets import practised, student_sheet, turned_round
from calc.drawing import hands
from calc.drawing.paper import PAPERS, Heading, Sheet, paper_mm, practice_sheet
from calc.drawing.paper.flow import SHORTEST_LAST_MM
from calc.drawing.paper.practice import START
from calc.drawing.paper.sheet import printable_mm
from calc.drawing.pdf import pdf
from calc.drawing.scene import Group, Item, Scene, Text
from calc.lesson import EXERCISES, SHEET_MM, sheet_of
from calc.rows.placement import PlacedRow
from calc.tips import Tip
from calc.units import Formatter
from tests.calc.paper_overlaps import overlaps, walk_scene

TEN = {"students": "10", "left_handed": "2", "exercises": "shells, swags, strings, roses", "minutes": "3 h", "starts": "2027-10-16 14:00"}
Matrix = tuple[float, float, float, float, float, float]
WHERE_IT_IS: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def placed(items: tuple[Item, ...], at: Matrix = WHERE_IT_IS) -> Iterator[tuple[Item, Matrix]]:
    """Every item that is no group, with the matrix it is drawn through."""
    for item in items:
        if isinstance(item, Group):
            a, b, c, d, e, f = at
            p, q, r, s, t, u = item.matrix or WHERE_IT_IS
            yield from placed(item.items, (a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f))
        else:
            yield item, at


def words_on(sheet: Sheet) -> list[str]:
    return [" ".join(item.words for item, _ in placed(page.items) if isinstance(item, Text)) for page in sheet.pages]


def text_of(name: str, inputs: dict[str, str] = TEN, paper: str = "A4") -> list[str]:
    reader = pypdf.PdfReader(io.BytesIO(calc.sheet("lesson", inputs, name, paper)))
    return [" ".join(page.extract_text().split()) for page in reader.pages]


def arrows(page: Scene) -> list[Matrix]:
    return [at for item, at in placed(page.items) if item == START]


# --- what is piped over --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", sorted(EXERCISES))
def test_every_line_has_an_arrow_where_it_starts_and_the_page_a_place_for_a_name(key: str) -> None:
    for mirrored in (False, True):
        for page in practised(EXERCISES[key], "A4", "metric", mirrored).pages:
            told = [item.words for item, _ in placed(page.items) if isinstance(item, Text)]
            lines = sum(words in ("follow the grey", "follow the dots", "from mark to mark", "fill it yourself") for words in told)
            assert any(words.lower().startswith(f"practice: {EXERCISES[key].name.lower()}, ") for words in told)
            assert len(arrows(page)) == lines >= 1 and "Name" in told
            assert all((at[0] == -1) == mirrored for at in arrows(page)), "an arrow points along the row"
            where = [at[4] - 8 * at[0] for at in arrows(page)]  # its tail
            assert all(0 < x < page.width_mm / 2 if not mirrored else page.width_mm / 2 < x < page.width_mm - 5 for x in where)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_mirrored_sheet_has_the_same_lines_and_readable_words(paper: str) -> None:
    plain, turned = (practised(EXERCISES["swags"], paper, "metric", mirrored) for mirrored in (False, True))
    assert turned.name == f"{plain.name}-left" and "left hand" in turned.title
    for one, other in zip(plain.pages, turned.pages, strict=True):
        assert [at[5] for at in arrows(one)] == [at[5] for at in arrows(other)]
        assert all(at[0] > 0 for item, at in placed(other.items) if isinstance(item, Text))


def test_a_drawing_in_the_mirror_keeps_its_numbers_readable() -> None:
    scene = hands.path_panel("shell", Tip("open star", 7.0), "#b9592f")
    turned = turned_round(scene)
    middle = 2 * scene.x_mm + scene.width_mm
    before = [(item.words, at[4] + at[0] * item.x) for item, at in placed(scene.items) if isinstance(item, Text)]
    after = [(item.words, at[0], at[4] + at[0] * item.x) for item, at in placed(turned.items) if isinstance(item, Text)]
    assert len(before) == 3 and [(words, middle - x) for words, x in before] == [(words, pytest.approx(x)) for words, _, x in after]
    assert all(way > 0 for _, way, _ in after)


def test_swags_lie_along_the_paper_where_more_of_them_go_on_it() -> None:
    """95 mm wide with a drop of 25: upright five lines of one, for two take 190 mm of 169; along the paper three lines of two."""
    wide = practice_sheet(PlacedRow("swag", Tip("petal", 11.0), "#888888", drop_mm=25.0), 95.0)
    assert (wide.pages[1].width_mm, wide.pages[1].height_mm) == paper_mm("A4", landscape=True)
    narrow = practice_sheet(PlacedRow("swag", Tip("petal", 11.0), "#888888", drop_mm=22.0), 56.0)
    assert (narrow.pages[1].width_mm, narrow.pages[1].height_mm) == paper_mm("A4")
    straight = practice_sheet(PlacedRow("shell", Tip("open star", 7.0), "#888888"))
    assert all((page.width_mm, page.height_mm) == paper_mm("A4") for page in straight.pages)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("key", [key for key, one in EXERCISES.items() if one.repeats > 1])
def test_a_class_sheet_holds_what_its_amounts_are_told_for(key: str, paper: str) -> None:
    """On the page of the row's own size: as many lines of swags, strings or scrolls."""
    exercise = EXERCISES[key]
    page = practised(exercise, paper, "metric").pages[1]
    lines = [words for words in walk_scene(page) if words[0] == "words" and words[1] in ("follow the grey", "follow the dots", "from mark to mark")]
    told = re.search(r"([\d.]+) (cm|mm) wide", " ".join(one[1] for one in walk_scene(page)))
    assert told is not None
    wide = float(told[1]) * (10 if told[2] == "cm" else 1)
    assert wide == pytest.approx(SHEET_MM / exercise.repeats, abs=1.0)
    assert len(lines) == exercise.lines
    assert page.width_mm < page.height_mm


@pytest.mark.parametrize("hand", ["", "-left"])
def test_words_in_the_panels_of_a_hand_out_lie_on_no_bag(hand: str) -> None:
    """At 8 pt, the end of the tip that is named is named beside the drawing and inside its frame."""
    sheet = student_sheet(
        [EXERCISES[key] for key in ("swags", "ruched_swags", "ruched_borders", "small_roses")],
        "plain",
        f"hand-out{hand}",
        Heading(),
        "A4",
        Formatter(),
    )
    found = [text for page in sheet.pages for text in overlaps(page)]
    assert [text for text in found if any(words in text for words in ("thick", "thin", "on the cake", "away"))] == []
    words = " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in pypdfium2.PdfDocument(sheet.pdf()))
    assert words.count("thick end on the cake") == 3 and words.count("thin end away") == 2, "once in the instructions"


def test_no_exercise_of_a_hand_out_is_parted_from_its_drawings() -> None:
    """However many there are, each heading, its words and its drawings stand on one page, and so do the steps of the recipe."""
    keys = ["shells", "swags", "ruffled_swags", "ruched_swags", "scrolls", "small_roses"]
    sheet = student_sheet([EXERCISES[key] for key in keys], "plain", "hand-out", Heading(), "A4", Formatter())
    for page in pypdfium2.PdfDocument(sheet.pdf()):
        text = page.get_textpage().get_text_range()
        assert sum(f"{EXERCISES[key].name}, {EXERCISES[key].tip.name}" in text for key in keys) == text.count("Look for:")
        assert ("Beat the butter" in text) == ("let the large bubbles out" in text)


# --- register, progress, hand-out ----------------------------------------------------------------------------------------


def test_the_register_has_a_line_for_each_student_and_asks_for_allergies() -> None:
    (page,) = text_of("class-register")
    assert "Name" in page and "Allergies" in page and "milk" in page and "Sat 16 Oct" in page
    assert all(f" {number} " in f"{page} " for number in range(1, 11)) and " 11 " not in page
    assert len(text_of("class-register", TEN | {"students": "60"})) > 1


def test_the_progress_sheet_names_every_exercise_and_its_aim() -> None:
    (page,) = text_of("progress")
    for key in ("shells", "swags", "strings", "small_roses"):
        assert EXERCISES[key].name in page and EXERCISES[key].aim.split(",")[0] in page and EXERCISES[key].tip.name in page


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("exercises", ["shells, swags, strings", "shells, swags", "shells, swags, strings, roses"])
@pytest.mark.parametrize("recipe", ["plain", "italian_meringue", "dairy_free"])
def test_what_the_recipe_of_the_hand_out_takes_stands_together(exercises: str, recipe: str, paper: str) -> None:
    pages = text_of("hand-out", TEN | {"exercises": exercises, "recipe": recipe}, paper)
    (page,) = (page for page in pages if "to practise at home" in page)
    listed = page.partition("to practise at home")[2]
    for line in buttercream.batch(recipe, 500).lines:
        assert line.ingredient.name in listed


@pytest.mark.parametrize("name", ["hand-out", "hand-out-left"])
def test_the_hand_out_tells_how_and_what_is_in_it(name: str) -> None:
    whole = " ".join(text_of(name))
    for words in ("milk", "ease off while you draw the tail", "Weigh", "500 g", "not for eating", "let the string hang free"):
        assert words in whole, words


def test_sheets_for_the_left_hand_are_offered_where_somebody_is() -> None:
    offered = [sheet["name"] for sheet in calc.compute("lesson", TEN).sheets]
    assert {"class-register", "progress", "hand-out", "hand-out-left", "practice-swags", "practice-swags-left"} < set(offered)
    without = [sheet["name"] for sheet in calc.compute("lesson", TEN | {"left_handed": "0"}).sheets]
    assert "hand-out" in without and not any(name.endswith("-left") for name in without)
    for name in offered:
        assert calc.sheet("lesson", TEN, name, "Letter").startswith(b"%PDF")


# --- the lesson plan -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("count", range(1, 9))
@pytest.mark.parametrize("students", ["3", "9", "18", "40"])
def test_no_last_page_of_a_lesson_plan_has_but_a_few_lines(paper: str, count: int, students: str) -> None:
    from calc.calculators.declare import Answer, parse
    from calc.calculators.lesson_form import CALCULATOR, plan_of, work_out
    from calc.calculators.lesson_sheets import lesson_sheet

    asked = parse(CALCULATOR, {"students": students, "exercises": str(count), "minutes": "5 h"})
    answer = Answer("lesson")
    work_out(asked, answer)
    pages = lesson_sheet(asked, answer, plan_of(asked), "lesson-plan", paper).pages
    last = pages[-1]
    lowest = max(at[5] + item.y for item, at in placed(last.items) if isinstance(item, Text) and item.y < last.height_mm - 12)
    assert len(pages) == 1 or lowest - printable_mm(paper_mm(paper))[1] > SHORTEST_LAST_MM - 5


# --- what a student opens ------------------------------------------------------------------------------------------------


def test_a_student_sees_how_each_row_is_piped_and_gets_the_sheets() -> None:
    answer = calc.compute("practice", {"exercises": "roses, shells and vermicelli"})
    (told,) = answer.tables
    assert [row[0] for row in told["rows"]] == ["Shells", "Vermicelli", "Small roses"]
    assert "ease off while you draw the tail" in told["rows"][0][3] and "3 mm from pass to pass" in told["rows"][1][3]
    names = [sheet["name"] for sheet in answer.sheets]
    assert names == ["hand-out", "progress", "practice-shells", "practice-vermicelli", "practice-small_roses"]
    assert any("milk" in caution["text"] for caution in answer.cautions)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_students_sheets_are_for_the_hand_that_pipes(hand: str) -> None:
    asked = {"exercises": "shells", "hand": hand}
    names = [sheet["name"] for sheet in calc.compute("practice", asked).sheets]
    assert names == (["hand-out", "progress", "practice-shells"] if hand == "right" else ["hand-out-left", "progress", "practice-shells-left"])
    for name in names:
        assert calc.sheet("practice", asked, name, "A4").startswith(b"%PDF")
    with pytest.raises(KeyError):
        calc.sheet("practice", asked, "practice-swags", "A4")


def test_the_link_for_students_fits_the_calculator_it_opens() -> None:
    passed = CALCULATORS["lesson"].passed_on
    assert passed is not None and passed.own != passed.label
    opened = CALCULATORS[passed.calculator]
    assert set(passed.names) <= {declared.name for declared in opened.inputs} & {declared.name for declared in CALCULATORS["lesson"].inputs}
    assert not {"students", "rate", "room", "each", "starts"} & set(passed.names)


# --- what the pages say of a swag ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("key", ["swags", "ruched_swags"])
def test_the_mark_runs_under_the_middle_of_the_ribbon_in_sum_and_drawing(key: str) -> None:
    """Half of the ribbon is above its mark and half below, in what it comes to, and in the drawing half-way between two joints."""
    exercise = EXERCISES[key]
    amount = sheet_of(key, 0.95)
    assert amount.above_mm == amount.below_mm == pytest.approx(amount.width_mm / 2) or amount.above_mm == amount.below_mm > 3
    scene = practised(exercise, "Letter", "metric").pages[1]
    x, y = next((at[4], at[5]) for item, at in placed(scene.items) if item == START)
    x += SHEET_MM / exercise.repeats / 2
    image = pypdfium2.PdfDocument(pdf([scene]))[0].render(scale=8).to_pil().convert("L")
    dots = 8 * 72 / 25.4
    column = [image.getpixel((round(x * dots), row)) for row in range(round(y * dots), round((y + exercise.drop_mm + 20) * dots))]
    inked = [row / dots for row, shade in enumerate(column) if isinstance(shade, int) and shade < 222]
    assert (inked[0] + inked[-1]) / 2 == pytest.approx(exercise.drop_mm, abs=2.0), "the ribbon lies across its mark"
    assert inked[0] < exercise.drop_mm - 3 and inked[-1] > exercise.drop_mm + 3
    told = calc.compute("swags", {"side": "66 cm", "cutter": "7.5 cm", "tip": "petal 11 mm"}).figures
    assert told["above_mark"]["value"] == pytest.approx(told["ribbon"]["value"] / 2)
