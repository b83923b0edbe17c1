"""A class, sentence by sentence and block by block: what stands on the sheets of a teacher and of a student, and what a lesson says of both."""

from __future__ import annotations

import dataclasses
import re
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, lesson_form, lesson_sheets
from calc.calculators.declare import Answer, parse
from calc.calculators.lesson_form import spare_words
from calc.calculators.lesson_sheets import hand_out, lesson_sheet, practised, progress_sheet, register_sheet, student_sheet, turned_round
from calc.drawing.paper import Blanks, Heading, Picture, Table
from calc.drawing.scene import Group, Path, Scene, Style, Text, rectangle
from calc.lesson import EXERCISES
from calc.units import Formatter
from tests.calc.test_calculators_sums import answered, rows, value

SAY, US = Formatter(), Formatter("us")
SHELLS, SWAGS, CURLS = EXERCISES["shells"], EXERCISES["swags"], EXERCISES["vermicelli"]
DAY = Heading(day="Sat 16 October 2027")
PEN_MM = 8.0  # a line that somebody writes on by hand is no closer to the next (common practice, no source)


@dataclasses.dataclass(frozen=True)
class Set:
    """A sheet before it is set on paper."""

    name: str
    title: str
    blocks: tuple[Any, ...]
    heading: Heading
    paper: str

    def one(self, title: str) -> Any:
        """The one block with that title."""
        (found,) = [block for block in self.blocks if block.title == title]
        return found


@pytest.fixture(autouse=True)
def blocks_only(monkeypatch: pytest.MonkeyPatch) -> None:
    """Sheets are not set on paper: each is its blocks."""
    monkeypatch.setattr(lesson_sheets, "written_sheet", lambda name, title, blocks, heading, paper: Set(name, title, tuple(blocks), heading, paper))


# --- the sheets by name --------------------------------------------------------------------------------------------------


def offered(**typed: str) -> list[tuple[str, str]]:
    return [(one["name"], one["title"]) for one in answered("lesson", typed).sheets]


TEACHERS = [
    ("lesson-plan", "Lesson plan, kits and tables"), ("shopping-list", "Recipe and shopping list"),
    ("class-register", "Class register, with allergies"),
]  # fmt: skip
RIGHT = [("hand-out", "Student's hand-out"), ("progress", "Progress sheet"), ("practice-shells", "Practice sheet: shells")]
LEFT = [
    ("hand-out-left", "Student's hand-out, for the left hand"), ("practice-shells-left", "Practice sheet: shells, for the left hand"),
]  # fmt: skip


def test_sheets_of_a_class_stand_in_the_order_they_are_wanted() -> None:
    """The teacher's first; the progress sheet is one for either hand, so it stands once."""
    assert offered(exercises="shells") == TEACHERS + RIGHT
    assert offered(exercises="shells", left_handed="1") == TEACHERS + RIGHT + LEFT
    assert [name for name, _ in offered(exercises="shells, small roses")][-2:] == ["practice-shells", "practice-small_roses"]
    for hand, names in (("right", RIGHT), ("left", [LEFT[0], RIGHT[1], LEFT[1]])):
        found = answered("practice", {"exercises": "shells", "hand": hand})
        assert [(one["name"], one["title"]) for one in found.sheets] == names


def sheet(name: str, typed: dict[str, str], paper: str = "A4") -> Any:
    asked = parse(CALCULATORS["lesson"], typed)
    answer = Answer("lesson", asked.units)
    lesson_form.work_out(asked, answer)
    return lesson_sheet(asked, answer, lesson_form.plan_of(asked), name, paper)


def test_each_sheet_of_a_class_has_its_day_and_its_paper() -> None:
    """A day that nobody has fixed is left open, and not every sheet is called the same."""
    typed = {"exercises": "shells, swags", "left_handed": "2", "starts": "2027-10-16 14:00", "students": "3"}
    for name, title in (
        ("class-register", "Class register"), ("hand-out", "What we practise"), ("hand-out-left", "What we practise, for the left hand"),
    ):  # fmt: skip
        made = sheet(name, typed, "Letter")
        assert (made.name, made.title, made.paper, made.heading.day) == (name, title, "Letter", "Sat 16 October 2027, 14:00")
        assert sheet(name, typed | {"starts": ""}).heading.day == ""
    assert sheet("progress", typed).blocks[0].lines == (("Name", ""), ("Date", "Sat 16 October 2027, 14:00"))
    assert sheet("progress", typed).heading == Heading() and sheet("progress", typed, "Letter").paper == "Letter"


def test_no_other_sheets_are_drawn() -> None:
    for name in ("practice-swags", "hand-out-right", "progress-right", ""):
        with pytest.raises(KeyError):
            student_sheet([SHELLS], "plain", name, DAY, "A4", SAY)


def test_tables_of_the_plan_and_of_the_list_are_on_their_sheets(monkeypatch: pytest.MonkeyPatch) -> None:
    """Cautions belong on the plan; a shopping list is for the shop."""
    set_down: list[Any] = []
    monkeypatch.setattr(lesson_sheets, "list_sheet", lambda *found, heading: set_down.append((*found[1:], heading.day, len(found[0].cautions))))
    for name in ("lesson-plan", "shopping-list"):
        sheet(name, {"starts": "2027-10-16 14:00"}, "Letter")
    (plan, bought) = set_down
    assert plan[:2] == ("lesson-plan", "Lesson plan") and plan[3:6] == ("Letter", ("kits", "table_kits", "front"), "Sat 16 October 2027, 14:00")
    assert plan[2] == ("plan", "kits", "table_kits", "front", "bags", "copies", "exercises", "tables") and plan[6] > 0
    assert bought == (
        *("shopping-list", "Shopping list for the class", ("recipe", "shopping"), "Letter", ("shopping",)),
        *("Sat 16 October 2027, 14:00", 0),
    )


# --- register and progress -----------------------------------------------------------------------------------------------


def shares(table: Table) -> dict[str, float]:
    """Which share of the paper each column has."""
    assert len(table.shares) == len(table.columns)
    return {column: round(share / sum(table.shares), 3) for column, share in zip(table.columns, table.shares, strict=True)}


@pytest.mark.parametrize("students", [1, 3])
def test_the_register_has_a_line_to_write_on_for_each_student(students: int) -> None:
    """Of 11.8 parts the number has 0.6, names 4, allergies, which take the most words, 5, the hand 1.2 and the tick 1."""
    made: Any = register_sheet(students, "plain", DAY, "Letter")
    told, lines = made.blocks
    assert (made.name, made.title, made.heading, made.paper) == ("class-register", "Class register", DAY, "Letter")
    assert [row[0] for row in lines.rows] == [str(number) for number in range(1, students + 1)] and {row[1:] for row in lines.rows} == {("",) * 4}
    assert shares(lines) == {"": 0.051, "Name": 0.339, "Allergies, and what not to touch": 0.424, "Left hand": 0.102, "Here": 0.085}
    assert PEN_MM <= lines.row_mm <= 10 and not lines.tick and lines.numeric == () and lines.title == told.title == ""
    assert told.paragraphs == (
        "This buttercream usually brings, of the nine named in the US: milk. Of the fourteen in the EU and UK: milk. Colours bring their own.",
        "Ask before the day, and again at the door. Keep this list private, and destroy it afterwards.",
    )


@pytest.mark.parametrize(
    "recipe, us, eu",
    [
        ("plain", "milk", "milk"), ("swiss_meringue", "milk, eggs", "eggs, milk"),
        ("flour_cooked", "milk, wheat", "cereals containing gluten, milk"),
    ],
)  # fmt: skip
def test_allergens_are_told_by_both_laws(recipe: str, us: str, eu: str) -> None:
    """Meringue is egg white; butter and milk are milk; flour is wheat in the US and a cereal with gluten elsewhere."""
    assert lesson_sheets.allergen_words(recipe) == (
        f"This buttercream usually brings, of the nine named in the US: {us}. Of the fourteen in the EU and UK: {eu}. Colours bring their own."
    )


def test_a_buttercream_without_any_of_the_named_allergens_says_none(monkeypatch: pytest.MonkeyPatch) -> None:
    nothing = type(lesson_sheets.buttercream.allergens("plain"))((), (), ())
    monkeypatch.setattr(lesson_sheets.buttercream, "allergens", lambda _: nothing)
    assert "in the US: none. Of the fourteen in the EU and UK: none." in lesson_sheets.allergen_words("plain")


def test_a_progress_sheet_has_room_for_how_it_went_and_for_what_a_hand_pipes() -> None:
    """Two exercises with the petal tip are one line for the tip: what is weighed belongs to the tip."""
    made: Any = progress_sheet([SHELLS, SWAGS, EXERCISES["ruffled_swags"]], DAY, "Letter")
    blanks, went, pipes, why = made.blocks
    assert (made.name, made.title, made.paper) == ("progress", "Progress sheet", "Letter") and isinstance(blanks, Blanks)
    assert blanks.lines == (("Name", ""), ("Date", "Sat 16 October 2027"))
    assert [row[0] for row in went.rows] == ["Shells", "Swags", "Ruffled swags"] and went.rows[0][1:] == (
        *("head, tail, and the next on the tail", "", "", ""),
    )
    assert [row for row in pipes.rows] == [("open star 7 mm", "", ""), ("petal 11 mm", "", "")]
    wide = shares(went)
    assert wide == {"Exercise": 0.189, "What to look for": 0.321, "First line": 0.142, "Last line": 0.142, "Next time": 0.208}
    assert shares(pipes) == {"Tip": 0.333, "Length piped, such as 30 cm": 0.333, "What it weighed": 0.333}
    assert went.row_mm == 2 * PEN_MM, "two lines by hand"
    assert PEN_MM <= pipes.row_mm <= 10 and not (went.tick or pipes.tick) and went.numeric == pipes.numeric == ()
    assert why.paragraphs[0].startswith("A length piped and weighed replaces the estimate in every calculator")


# --- hand-out ------------------------------------------------------------------------------------------------------------


def handed(*exercises: Any, recipe: str = "plain", left: bool = False, say: Formatter = SAY) -> Any:
    return hand_out(exercises, recipe, left, DAY, "A4", say)


def test_a_hand_out_tells_each_exercise_with_its_drawings() -> None:
    """A line in curls is drawn on its practice sheet; every other row has four drawings under its words, and the page has room for both: 34 mm for
    the drawings, 22 for heading and words."""
    made = handed(SHELLS, CURLS, SWAGS)
    name, allergens, shells, shells_drawn, curls, swags, swags_drawn, *_ = made.blocks
    assert name == Blanks("", (("Name", ""),)) and allergens.boxed and allergens.title == "Who must not touch it"
    assert allergens.paragraphs[0].startswith("This buttercream usually brings") and len(allergens.paragraphs) == 1
    assert [block.title for block in (shells, curls, swags)] == ["Shells, open star 7 mm", "Vermicelli, round 1.8 mm", "Swags, petal 11 mm"]
    assert shells.paragraphs == (
        "Hold the tip 45° to the surface, pointing back along the row. Squeeze hard until the head fans out, ease off while you draw the tail "
        "down to the surface, stop, and start the next on the tail.",
        "Look for: head, tail, and the next on the tail.",
    )
    assert curls.paragraphs == (
        "One line in short curls, 3 mm from pass to pass. Look for: short curls close beside each other that never cross.",
    )  # fmt: skip
    assert swags.paragraphs[1] == "Look for: touch both joints, thick end to the cake."
    for words, drawn in ((shells, shells_drawn), (swags, swags_drawn)):
        assert isinstance(drawn, Picture) and len(drawn.scenes) == 4 and not drawn.scaled and drawn.height_mm == 34
        assert words.keep_mm == drawn.height_mm + 22
        assert len({scene.title for scene in drawn.scenes}) == 4 and "the tip from the front" in drawn.scenes[0].title
    assert not any(isinstance(block, Picture) for block in handed(CURLS).blocks)
    assert handed(CURLS, say=US).blocks[2].paragraphs[0].startswith("One line in short curls, 0.12 in from pass to pass.")


@pytest.mark.parametrize(
    "recipe, count, steps, first",
    [("plain", 5, 4, ("butter, unsalted", "160 g")), ("flour_cooked", 6, 3, ("milk, whole", "161 g"))],
)
def test_a_hand_out_has_the_buttercream_to_practise_at_home(recipe: str, count: int, steps: int, first: tuple[str, str]) -> None:
    """500 g: of plain, 100 parts of butter, 200 of sugar and 12.4 of the rest make 312.4, so 160 g of it is butter. A row of the table takes 7 mm;
    with its heading it stands on one page, and so does the method, a step 7 mm."""
    made = handed(SHELLS, recipe=recipe)
    weighed, method, cautions = made.blocks[-3:]
    assert weighed.title.endswith(" buttercream to practise at home, 500 g") and weighed.columns == ("Ingredient", "Weigh")
    assert len(weighed.rows) == count and weighed.rows[0] == first
    assert weighed.numeric == (1,), "only amounts stand to the right"
    assert weighed.keep_mm == 7 * (count + 1) and not weighed.tick
    assert method.numbered and len(method.paragraphs) == steps and method.keep_mm == 7 * steps and method.title == ""
    assert cautions.title == "Cautions" and cautions.boxed and not cautions.numbered
    assert cautions.paragraphs[-1] == "What was scraped off and handled is not for eating." and cautions.paragraphs[0].startswith("Standing out. ")


def test_a_hand_out_is_in_the_readers_units_and_words() -> None:
    """500 g are 17.6 oz; caster sugar is superfine sugar in the US, and a caution begins with the scale that is used there."""
    weighed, _, cautions = handed(SHELLS, recipe="flour_cooked", say=US).blocks[-3:]
    assert weighed.title == "Flour-cooked buttercream to practise at home, 1 lb 1 1/2 oz"
    assert ("superfine or granulated sugar", "5 oz") in weighed.rows and ("milk, whole", "5 3/4 oz") in weighed.rows
    assert "between 40 °F (4 °C) and 140 °F (60 °C)" in cautions.paragraphs[0]
    assert "between 4 °C (40 °F) and 60 °C (140 °F)" in handed(SHELLS).blocks[-1].paragraphs[0]


def test_a_drawing_for_the_left_hand_is_turned_round_and_its_words_are_not() -> None:
    """A scene from 10 to 110 has its middle at 60. What begins at 20 ends at 100 there; a word that ran from 20 to the right runs to 100 from the
    left, and can still be read; one inside a group as well."""
    words = Text(20.0, 5.0, "tail", anchor="start")
    last, middle = words._replace(anchor="end"), words._replace(anchor="middle", x=60.0)
    box = Path(rectangle(20.0, 0.0, 10.0, 5.0), Style())
    scene = Scene("Row", "A row", 10.0, 3.0, 100.0, 50.0, (box, words, last, middle, Group((words,), title="inner")))
    made = turned_round(scene)
    (whole,) = made.items
    assert isinstance(whole, Group) and whole.matrix == (-1.0, 0.0, 0.0, 1.0, 120.0, 0.0)
    assert (made.title, made.x_mm, made.width_mm, made.y_mm) == ("Row", 10.0, 100.0, 3.0)
    turned: list[Any] = list(whole.items)
    assert turned[0] == box and turned[4].title == "inner"
    for found, x, anchor in (
        (turned[1], 100.0, "end"), (turned[2], 100.0, "start"), (turned[3], 60.0, "middle"), (turned[4].items[0], 100.0, "end"),
    ):  # fmt: skip
        across, _, _, upright, moved, down = found.matrix
        (text,) = found.items
        assert text.anchor == anchor and text.words == "tail" and (upright, down) == (1.0, 0.0)
        assert 120.0 - (across * text.x + moved) == x and -across == 1.0, "turned twice: it reads from left to right"


def test_a_hand_out_for_the_left_hand_has_its_drawings_turned_round() -> None:
    right, left = (handed(SHELLS, left=left).blocks[3] for left in (False, True))
    assert [scene.title for scene in right.scenes] == [scene.title for scene in left.scenes]
    assert [scene.items[0].matrix for scene in left.scenes] == [(-1.0, 0.0, 0.0, 1.0, 2 * s.x_mm + s.width_mm, 0.0) for s in right.scenes]
    assert not any(isinstance(scene.items[0], Group) and scene.items[0].matrix for scene in right.scenes)


# --- what is piped over --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "key, pitch, size, drop, layers, lines",
    [
        ("shells", 0.0, None, 0.0, 1, 12),  # as the tip lays them
        ("swags", 56.0, None, 22.0, 1, 5),  # 168 mm in three
        ("ruffled_swags", 84.0, None, 26.0, 1, 4),  # in two
        ("layered_swags", 56.0, None, 22.0, 2, 5),
        ("rosettes", 0.0, 20.0, 0.0, 1, 7),
        ("over_piping", 0.0, None, 0.0, 2, 17),
    ],
)
def test_a_practice_sheet_is_drawn_as_its_exercise_says(
    monkeypatch: pytest.MonkeyPatch, key: str, pitch: float, size: float | None, drop: float, layers: int, lines: int,
) -> None:  # fmt: skip
    given: list[Any] = []
    monkeypatch.setattr(lesson_sheets, "practice_sheet", lambda row, pitch, **more: given.append((row, pitch, more)))
    practised(EXERCISES[key], "Letter", "us", mirrored=True)
    ((row, told, more),) = given
    assert (told, row.width_mm, row.drop_mm, row.layers) == (pitch, size, drop, layers) and row.tip == EXERCISES[key].tip
    assert more == {"paper": "Letter", "units": "us", "mirrored": True, "named": True, "called": EXERCISES[key].name.lower(), "lines": lines}


def test_repeats_that_are_no_part_of_a_sheet_in_whole_millimetres_are_so_wide(monkeypatch: pytest.MonkeyPatch) -> None:
    """168 mm in five are 33.6 mm."""
    given: list[float] = []
    monkeypatch.setattr(lesson_sheets, "practice_sheet", lambda row, pitch, **more: given.append(pitch))
    practised(dataclasses.replace(SWAGS, repeats=5), "A4", "metric")
    assert given == [pytest.approx(33.6)]


def test_curls_are_practised_in_patches_of_the_sheets_width(monkeypatch: pytest.MonkeyPatch) -> None:
    given: list[Any] = []
    monkeypatch.setattr(lesson_sheets, "patch_sheet", lambda *found, **more: given.append((found[1:], more)))
    for name, mirrored in (("practice-vermicelli", False), ("practice-vermicelli-left", True)):
        student_sheet([SHELLS, CURLS], "plain", name, DAY, "Letter", US)
        assert given.pop() == ((3, 168.0, 60), {"paper": "Letter", "units": "us", "mirrored": mirrored, "named": True})


# --- what a lesson says --------------------------------------------------------------------------------------------------


def said(typed: dict[str, str]) -> str:
    return " ".join(one["text"] for one in answered("lesson", typed).notes)


@pytest.mark.parametrize(
    "students, tutor, words",
    [
        ("1", "no", "1 kit, 1 table. The buttercream is 1 batch of up to 2 kg."),
        ("1", "yes", "2 kits, 1 table, and one kit of them is the tutor's, at the front. The buttercream is 1 batch of up to 2 kg."),
        ("5", "no", "5 kits, 2 tables. The buttercream is 1 batch of up to 2 kg."),
        ("9", "no", "9 kits, 3 tables. The buttercream is 1 batch of up to 2 kg."),
        ("14", "no", "14 kits, 4 tables. The buttercream is 2 batches of up to 2 kg."),
    ],
)
def test_kits_tables_and_batches_are_counted_in_words(students: str, tutor: str, words: str) -> None:
    """Four seats at a table: 5 students are 2 tables, 9 are 3 and 14 are 4. Shells take 180 g or so a kit by the hour."""
    assert words in said({"students": students, "tutor": tutor, "exercises": "shells", "minutes": "60 min"})


@pytest.mark.parametrize("total, spare, words", [(36, 0, "36"), (36, 1, "36, one of them spare"), (36, 2, "36, 2 of them spare")])
def test_what_is_spare_is_told(total: int, spare: int, words: str) -> None:
    assert spare_words(total, spare) == words


def problem(typed: dict[str, str]) -> tuple[str, str]:
    (found,) = calc.compute("lesson", typed).problems
    return found["input"], found["message"]


@pytest.mark.parametrize(
    "typed, name, words",
    [
        ({"exercises": "shells", "breaks": "2", "minutes": "5 h"}, "breaks", "with 1 exercise there is room for 1 at most"),
        ({"exercises": "shells, swags", "breaks": "4", "minutes": "5 h"}, "breaks", "with 2 exercises there is room for 3 at most"),
        ({"exercises": "shells", "minutes": "35 min"}, "minutes", "must be 36 or more for 1 exercise: each is shown for 8 min and needs 8 min"),
        ({"exercises": "shells, swags", "minutes": "51 min", "demo": "7.5 min"}, "minutes", "must be 51 or more for 2 exercises"),
        ({"exercises": "shells", "minutes": "50 min", "breaks": "1", "break_length": "20 min"}, "minutes", ", and breaks take 20 min. Allow longer"),
    ],
)
def test_a_class_that_cannot_be_is_told_what_it_lacks(typed: dict[str, str], name: str, words: str) -> None:
    """10 min of welcome, 10 of clearing up and 8 and 8 for each exercise: 36 for one, 52 for two. With 7.5 min of showing two take 51."""
    if typed.get("demo"):  # what just can be is worked out
        assert calc.compute("lesson", typed).problems == []
        typed = {**typed, "minutes": "50 min"}
    field, message = problem(typed)
    assert field == name and words in message
    if name == "minutes" and "breaks" not in typed:
        assert "breaks take" not in message


def breaks_in(typed: dict[str, str]) -> int:
    return [row[2] for row in rows(answered("lesson", typed), "plan")].count("Break")


@pytest.mark.parametrize(
    "typed, count",
    [
        ({"minutes": "2 h"}, 1),
        ({"minutes": "90 min"}, 0),
        ({"minutes": "2 h", "breaks": "0"}, 0),
        ({"minutes": "2 h", "breaks": "2"}, 2),
        ({"minutes": "6 h", "exercises": "shells"}, 1),  # three are usual, and one exercise has one place for a break
        ({"minutes": "6 h", "exercises": "shells, swags"}, 3),
        ({"minutes": "2 h", "exercises": "6", "break_length": "4 min"}, 1),  # 20 + 6 x 16 = 116 min, and 4 are left
        ({"minutes": "2 h", "exercises": "6", "break_length": "4 min 30 s"}, 0),
        ({"minutes": "2 h", "exercises": "6", "break_length": "5 min"}, 0),
    ],
)
def test_breaks_are_as_many_as_is_usual_and_as_there_is_time_for(typed: dict[str, str], count: int) -> None:
    """One for each 90 minutes after the first, as far as each exercise keeps its 16 minutes."""
    assert breaks_in(typed) == count


def test_a_class_is_worked_out_from_what_is_typed_under_more() -> None:
    """The cake is in no bag: a kit of 250 g more has as much in bags as before."""
    plain, cake = (answered("lesson", {"students": "3", "tutor": "no", **more}) for more in ({}, {"cake": "250 g"}))
    assert value(cake, "per_kit") - value(plain, "per_kit") == pytest.approx(250)
    kits = {row[0]: row[1:] for row in rows(cake, "kits")}
    assert kits["Buttercream for the cake to take home, in a bowl"] == ["250 g", "750 g"]
    assert kits["Buttercream, in bags"] == {row[0]: row[1:] for row in rows(plain, "kits")}["Buttercream, in bags"]
    assert "Buttercream for the cake to take home, in a bowl" not in [row[0] for row in rows(plain, "kits")]


def test_a_kit_has_couplers_where_tips_share_a_bag() -> None:
    """Shells and swags have a tip each and one bag for both, on a coupler; shells alone need none."""
    for exercises, couplers in (("shells", []), ("shells, swags", [["1", "3"]])):
        found = rows(answered("lesson", {"students": "3", "tutor": "no", "exercises": exercises}), "kits")
        assert [row[1:] for row in found if row[0] == "Couplers"] == couplers


def heads(answer: Any, name: str) -> list[tuple[str, str]]:
    (found,) = [one["columns"] for one in answer.tables if one["name"] == name]
    return [(column["label"], column["align"]) for column in found]


def test_the_tables_of_a_class_have_their_columns() -> None:
    """Words stand to the left and amounts to the right; mirrored copies have a column where somebody pipes with the left hand."""
    plain, left = answered("lesson", {"students": "4"}), answered("lesson", {"students": "5", "left_handed": "2", "tutor": "no"})
    assert heads(plain, "kits") == [("What", "left"), ("One kit", "right"), ("All 5", "right")]
    assert heads(plain, "table_kits") == [("What", "left"), ("One table", "right"), ("In all", "right")]
    assert heads(left, "table_kits") == [("What", "left"), ("One table", "right"), ("All 2", "right")]
    assert heads(plain, "front") == [("What", "left"), ("How many", "right")]
    assert heads(plain, "copies") == [("Sheet", "left"), ("Copies", "right"), ("Spare among them", "right")]
    assert heads(left, "copies") == [("Sheet", "left"), ("Copies", "right"), ("Mirrored copies", "right"), ("Spare among them", "right")]
    assert heads(plain, "bags") == [("Tips", "left"), ("Buttercream", "right"), ("Filled", "right")]
    assert heads(plain, "plan") == [("From", "right"), ("Takes", "right"), ("What", "left")]
    assert heads(plain, "exercises") == [("Exercise", "left"), ("One sheet", "right"), ("Times over", "right"), ("Buttercream", "right")]
    assert heads(plain, "tables") == [("Table", "left"), ("Seats", "right"), ("Buttercream", "right"), ("Turntables", "right")]
    assert heads(plain, "shopping") == [
        ("What", "left"), ("Needed", "right"), ("Packs", "left"), ("Left over", "right"), ("Costs", "right"),
    ]  # fmt: skip
    paid = answered("lesson", {"rate": "20"})
    assert heads(paid, "cost") == [("What", "left"), ("Amount", "right")]


def test_copies_for_the_left_hand_are_taken_from_the_others() -> None:
    """Five students take 5 copies and a spare one. Are two of them left-handed, then 2 and a spare one are mirrored, and 3 and a spare one not."""
    typed = {"students": "5", "tutor": "no", "exercises": "shells"}
    assert rows(answered("lesson", typed), "copies") == [["Shells", "6", "1"]]
    assert rows(answered("lesson", typed | {"left_handed": "2"}), "copies") == [["Shells", "4", "3", "2"]]


def test_tables_have_their_seats_and_a_turntable_for_two() -> None:
    """Nine at tables of four: three each. Of three seats two share a turntable and one has her own: two turntables."""
    found = answered("lesson", {"students": "9", "tutor": "no", "exercises": "shells", "minutes": "60 min"})
    told = rows(found, "tables")
    assert [(row[0], row[1], row[3]) for row in told] == [("1", "3", "2"), ("2", "3", "2"), ("3", "3", "2")]
    each = value(found, "per_kit")
    assert {row[2] for row in told} == {SAY.mass(3 * each)}
    four = rows(answered("lesson", {"students": "8", "tutor": "no"}), "tables")
    assert [(row[0], row[1], row[3]) for row in four] == [("1", "4", "2"), ("2", "4", "2")]


def test_what_the_class_costs_is_its_parts() -> None:
    """Four students at 3 each are 12, the room 40, and 1 h with 30 min of preparing at 20 an hour 30: 82, and 20.50 a head. A margin of 20 % of the
    fees makes 102.50, 25.63 a head, and 20.50 of it is profit."""
    typed = {"students": "4", "exercises": "shells", "minutes": "60 min", "each": "3", "room": "40", "rate": "20", "preparing": "30 min"}
    found = answered("lesson", typed | {"margin": "20 %"})
    told = {row[0].split(",")[0]: row[1] for row in rows(found, "cost")}
    assert [told[name] for name in ("Bags", "Room", "Cost")] == ["12.00", "40.00", "82.00"]
    assert [row[1] for row in rows(found, "cost") if row[0].startswith(("Hours", "Margin", "Fees"))] == ["30.00", "20.50", "102.50"]
    assert [row[0] for row in rows(found, "cost") if row[0].startswith(("Hours", "Margin", "Fees", "Bags"))] == [
        "Bags, film, boards, printing for 4", "Hours of the tutor, 1 h 30 min", "Margin, 20 % of the fees", "Fees of 4, before any tax",
    ]  # fmt: skip
    assert (value(found, "cost"), value(found, "cost_each"), value(found, "fee_each")) == (82, 20.5, pytest.approx(25.625))
    assert found.figures["fee_each"]["label"] == "Fee a head, before tax" and found.figures["cost"]["text"] == "82.00"


@pytest.mark.parametrize("typed", [{"each": "1"}, {"room": "1"}, {"rate": "1"}, {"packs.0.name": "butter", "packs.0.price": "2"}])
def test_one_price_is_enough_to_tell_what_a_class_costs(typed: dict[str, str]) -> None:
    ask = "to see what the class costs a head."
    assert ask in said({}) and ask not in said(typed)
    assert "cost_each" in answered("lesson", typed).figures and "cost_each" not in answered("lesson", {}).figures


def test_each_exercise_has_its_line() -> None:
    """Twelve lines of shells, 168 mm each, are 2.02 m; as many times over as the time allows, to one place."""
    (row,) = rows(answered("lesson", {"exercises": "shells", "minutes": "60 min"}), "exercises")
    assert row[:2] == ["Shells, open star 7 mm", "2.02 m"] and re.fullmatch(r"\d+\.\d", row[2]) and row[3].endswith(" g")


def test_what_is_kept_out_of_sight_of_a_class_is_counted() -> None:
    """These figures stand in tables, so they are not shown twice."""
    found = answered("lesson", {"students": "5", "tutor": "no", "left_handed": "2", "exercises": "shells", "minutes": "60 min"})
    quiet = {name for name, figure in found.figures.items() if figure.get("quiet")}
    assert quiet == {"batches", "kits", "bags", "fills", "mirrored", "spare", "tables"}
    assert [int(value(found, name)) for name in ("kits", "tables", "batches")] == [5, 2, 1]
    assert found.figures["practice"]["text"] == SAY.duration(60 - 20 - 8) == "32 min"
