"""Where what can be made ends: the last that is worked out and the first that is refused, by hand, with what is said and at which field; and how two
fields that say the same thing are brought together."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, coats_form, lesson_sheets, order_drawings
from calc.calculators.declare import check_bulk, parse, places_of
from calc.calculators.lesson_form import spare_words
from calc.calculators.lesson_sheets import practised, progress_sheet, student_sheet
from calc.calculators.list_sheets import DRAWING_HIGH_MM, _cuts, hours_drawn
from calc.calculators.timetable_form import CALENDAR, plan_of
from calc.drawing.paper import Heading, Table
from calc.drawing.timetable_chart import chart_height_mm
from calc.lesson import EXERCISES, SHEET_MM
from calc.units import Formatter, Problem
from tests.calc.test_calculators_columns import PLAIN
from tests.calc.test_calculators_order import CAKE
from tests.calc.test_calculators_sums import answered, rows

Typed = dict[str, str]
SHELLS: Typed = {"side": "66 cm", "tip": "open star 7 mm"}


def problems(slug: str, typed: Typed) -> list[tuple[str, str]]:
    return [(one["input"], one["message"]) for one in calc.compute(slug, typed).problems]


# Calculator, what is typed, a field with the last text that goes and the first that does not, where that is said, and its words.
ENDS: list[tuple[str, Typed, str, str, str, str, str]] = [
    # an open star of 7 mm falls into shells 11.2 mm apart: 4.48 to 28 mm are piped (0.4 and 2.5 times, common practice)
    ("shells", {**SHELLS, "piped": "30 cm"}, "pieces", "11", "10", "pieces", "that makes them 3 cm apart"),
    ("shells", {**SHELLS, "piped": "30 cm"}, "pieces", "66", "67", "pieces", "pipes shells between 4.5 mm and 2.8 cm apart"),
    ("shells", {**SHELLS, "repeats": "1"}, "per_swag", "24", "23", "per_swag", "In each swag: 23 pieces on 66 cm would be 2.9 cm apart"),
    ("shells", {**SHELLS, "repeats": "1"}, "per_swag", "147", "148", "per_swag", "take fewer of them, about 59 in all"),
    ("shells", SHELLS, "repeats", "147", "148", "repeats", "Repeats: 148 pieces on 66 cm"),
    ("strings", {"side": "66 cm"}, "drop", "24.7 cm", "24.8 cm", "drop", "at most three times the width, 24.7 cm for 8 repeats"),
    ("swags", {"side": "66 cm", "repeats": "8"}, "drop", "16.5 cm", "16.6 cm", "drop", "at most twice the swag's width, 16.5 cm for 8"),
    ("stack", {"step_high": "8 cm"}, "step_low", "8 cm", "8.1 cm", "step_low", "Least step must not be more than the most (8 cm)"),
    ("stack", {"keep_top": "yes"}, "tier_count", "2", "1", "tier_count", "leaves nothing of a cake of one tier"),
    # 24 + 13 = 37 portions; a kitchen sheet gives 96
    ("stack", {"tins": "15, 20 cm"}, "guests", "37", "38", "guests", "38 guests want 38 portions, and the largest stack of these tins gives 37"),
    ("stack", {"tins": "15, 20 cm", "guests": "33"}, "spare", "12 %", "13 %", "guests", "33 guests want 38 portions"),
    ("stack", {"tins": "15, 20 cm", "guests": "133"}, "kitchen", "yes", "no", "guests", "1 of 30 x 40 cm would do"),
    ("stack", {"tins": "15, 20 cm", "guests": "134"}, "kitchen", "yes", "no", "guests", "make it up: 2 of 30 x 40 cm would do"),
    ("supports", {"tiers": "20 x 10 cm; 15 x 4 cm"}, "filling", "39 mm", "40 mm", "filling", "must be less than tier 2 is high (4 cm)"),
    ("lesson", {"exercises": "shells", "minutes": "2 h"}, "breaks", "1", "2", "breaks", "with 1 exercise there is room for 1 at most"),
    ("timetable", {}, "not_before", "2027-10-14 09:00", "2027-10-16 17:00", "not_before", "before you can"),
    ("portions", {"cut": "rings"}, "shape", "round", "square", "cut", "Rings are cut on a round, and this is a square"),
    (
        "price",
        {"items.0.name": "butter", "items.0.mass": "1 kg", "items.0.pack_price": "2"},
        "items.0.pack",
        "250 g",
        "",
        "items.0.pack",
        "Pack is empty",
    ),
    ("rosettes", {"count": "6", "tip": "petal 9 mm"}, "size", "3 cm", "5 mm", "size", "must be at least the tip's own line"),
]


@pytest.mark.parametrize("slug, typed, field, last, first, at, words", ENDS)
def test_the_last_that_goes_and_the_first_that_does_not(slug: str, typed: Typed, field: str, last: str, first: str, at: str, words: str) -> None:
    assert problems(slug, {**typed, field: last}) == []
    ((found, message),) = problems(slug, {**typed, field: first})
    assert found == at and words in message


# Calculator, what is typed, a field with what is past its limits, where the limits stand in the message, and how each of them is typed.
WORKED_OUT: list[tuple[str, Typed, str, str, str, tuple[str, ...]]] = [
    ("strings", {"side": "66 cm"}, "drop", "40 cm", "width, (.+) for 8", ("{}",)),
    ("row", {"side": "66 cm", "kind": "string", "repeats": "8"}, "drop", "40 cm", "width, (.+) for 8", ("{}",)),
    ("swags", {"side": "66 cm", "repeats": "7"}, "drop", "40 cm", "width, (.+) for 7", ("{}",)),
    ("order", CAKE | {"cutters": "", "tiers.0.repeats": "5"}, "tiers.0.rows.0.drop", "40 cm", "width, (.+) here", ("{}",)),
    ("stack", {"step_high": "10 cm"}, "step_low", "12 cm", r"the most \((.+)\)", ("{}",)),
    ("stack", {"guests": "20"}, "tins", "20 cm, 4 cm", "between (.+) and (.+), not", ("20 cm, {}", "20 cm, {}")),
    ("rosettes", {"count": "6", "tip": "petal 11 mm"}, "size", "3 mm", "own line, (.+) for", ("{}",)),
    ("portions", {"width": "66 cm"}, "slice", "3 x 50 mm", "between (.+) and (.+) each way", ("{0} x {0}", "{0} x {0}")),
    ("supports", {}, "tiers", "20 x 10 cm; 3 x 10 cm", "between (.+) and (.+), not", ("20 cm x 10 cm; {} x 10 cm", "{} x 10 cm")),
    ("supports", {}, "tiers", "20 x 10 cm; 15 x 1 cm", "between (.+) and (.+), not", ("15 cm x {}", "15 cm x {}")),
    (
        *("timetable", {"rows": "1"}, "tiers", "20 x 1 cm", "are (.+) to (.+) wide and (.+) to (.+) high"),
        ("{} x 10 cm", "{} x 10 cm", "20 cm x {}", "20 cm x {}"),
    ),
    ("coats", {"style": "striped", "final_coat": "3 mm"}, "groove", "8 mm", "the final coat of (.+?), or", ("{}",)),
    ("coats", {"width": "15 cm", "disc": "16.24 cm"}, "crumb_coat", "9 mm", "than the (.+) the disc", ("{}",)),
    ("lesson", {"exercises": "shells", "break_length": "20.3 min", "breaks": "1"}, "minutes", "20 min", "must be (.+) or more", ("{} min",)),
]


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("slug, typed, field, past, where, ways", WORKED_OUT)
def test_a_limit_that_is_worked_out_can_be_typed(
    slug: str, typed: Typed, field: str, past: str, where: str, ways: tuple[str, ...], units: str
) -> None:
    """Thirds and sevenths of a side, what a coat leaves, and limits that a field of several sizes has."""
    ((at, message),) = problems(slug, {"units": units, **typed, field: past})
    found = re.search(where, message)
    assert at == field and found, message
    for way, text in zip(ways, found.groups(), strict=True):
        assert problems(slug, {"units": units, **typed, field: way.format(text)}) == [], message


# --- what is typed in one field and said in another ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, like",
    [
        ({"width": "8 in square"}, {"width": "8 in", "shape": "square"}),
        ({"width": "20 cm round"}, {"width": "20 cm"}),
        ({"width": "20 x 30 cm"}, {"width": "20 cm", "length": "30 cm", "shape": "rectangle"}),
        ({"width": "20 x 30 cm", "length": "30 cm"}, {"width": "20 cm", "length": "30 cm", "shape": "rectangle"}),
        ({"width": "20 x 30 cm", "shape": "oval"}, {"width": "20 cm", "length": "30 cm", "shape": "oval"}),
        ({"width": "20 by 20 cm", "shape": "square"}, {"width": "20 cm", "shape": "square"}),
    ],
)
def test_a_shape_or_a_length_written_with_the_width_counts(typed: Typed, like: Typed) -> None:
    one, other = answered("portions", typed), answered("portions", like)
    assert {name: figure["value"] for name, figure in one.figures.items()} == {name: figure["value"] for name, figure in other.figures.items()}


@pytest.mark.parametrize(
    "typed, words",
    [
        ({"width": "8 in square", "shape": "round"}, "Width of the tin says square, and Shape says round. Choose square there"),
        ({"width": "20 x 30 cm", "length": "35 cm"}, "Width of the tin has two sizes, and Length of the tin is given too"),
        ({"width": "20 x 30 cm", "shape": "square"}, "has two sizes, and Shape says square, which has one"),
        ({"width": "20 x 20 cm", "shape": "round"}, "has two sizes, and Shape says round, which has one"),
        ({"width": "4 x 30 cm"}, "Width of the tin must be between 5 cm and 100 cm"),
        ({"width": "30 x 101 cm"}, "Width of the tin must be between 5 cm and 100 cm"),
    ],
)
def test_what_does_not_go_together_is_said_at_the_width(typed: Typed, words: str) -> None:
    ((field, message),) = problems("portions", typed)
    assert field == "width" and words in message


def test_money_is_in_one_currency() -> None:
    assert problems("price", {"rate": "£16", "ingredients": "€38"}) == [
        ("rate", "One amount is in € and this one in £. Write all of them in one currency")
    ]
    assert answered("price", {"rate": "£16"}).figures["price"]["text"].startswith("£")
    assert (
        answered("price", {"items.0.name": "a", "items.0.mass": "1 kg", "items.0.pack": "1 kg", "items.0.pack_price": "€2"})
        .figures["price"]["text"]
        .startswith("€")
    )
    assert answered("price", {"units": "us"}).figures["price"]["text"].startswith("$")
    assert answered("price", {"units": "us", "rate": "£16"}).figures["price"]["text"].startswith("£")
    assert answered("price", {}).figures["price"]["text"][0].isdigit()


def test_copies_are_known_by_their_numbers() -> None:
    names = ("tiers.10.width", "tiers.2.width", "tiers.2.rows.0.kind", "tiers.12345.width", "tiers.x.width", "guests", "tiers.1234.width")
    assert places_of(dict.fromkeys(names, "")) == {"tiers.": [2, 10, 1234], "tiers.2.rows.": [0]}
    with pytest.raises(Exception) as found:
        parse(CALCULATORS["portions"], {"wdith": "20 cm"})
    assert "Portions has no input called wdith. It has shape, width" in str(found.value.problems[0].message)  # type: ignore[attr-defined]


def test_a_name_has_no_more_parts_and_letters_than_a_form_gives_it() -> None:
    check_bulk({".".join("a" * 16): "", "b" * 200: ""})
    for name in (".".join("a" * 17), "b" * 201):
        with pytest.raises(Problem) as found:
            check_bulk({name: ""})
        assert found.value.input == name[:200] and "200 characters in 16 parts is the most" in found.value.message
    check_bulk({"a": "x" * 999_999, "b": "x"})
    with pytest.raises(Problem) as over:
        check_bulk({"a": "x" * 999_999, "b": "xx"})
    assert over.value.input == "a" and "1000001 characters in all; 1000000 is the most" in over.value.message
    check_bulk({f"a{i}": "" for i in range(5000)})
    with pytest.raises(Problem, match="There are 5001 inputs; 5000 is the most"):
        check_bulk({f"a{i}": "" for i in range(5001)})


# --- a class -----------------------------------------------------------------------------------------------------------------------------------


def test_what_is_spare_is_said() -> None:
    assert [spare_words(36, spare) for spare in (0, 1, 3)] == ["36", "36, one of them spare", "36, 3 of them spare"]


def test_what_a_student_practises() -> None:
    found = answered("practice", {"exercises": "strings, swags, shells"})
    assert (found.figures["exercises"]["value"], found.figures["tips"]["value"]) == (3, 3)
    assert [row[0] for row in rows(found, "exercises")] == ["Shells", "Swags", "Strings"]  # the easiest first
    typed = answered("lesson", {"exercises": "swags, shells", "in_order": "typed"})
    assert [row[0].split(",")[0] for row in rows(typed, "exercises")] == ["Swags", "Shells"]
    easiest = answered("lesson", {"exercises": "swags, shells"})
    assert [row[0].split(",")[0] for row in rows(easiest, "exercises")] == ["Shells", "Swags"]


def test_a_practice_sheet_is_as_wide_as_its_repeats(monkeypatch: pytest.MonkeyPatch) -> None:
    """What hangs lies in so many repeats across the paper; shells stand as their tip makes them; what wanders fills a patch."""
    made: list[Any] = []

    def drawn(*told: Any, **more: Any) -> Any:
        made.append((told, more))
        return SimpleNamespace()

    monkeypatch.setattr(lesson_sheets, "practice_sheet", drawn)
    monkeypatch.setattr(lesson_sheets, "patch_sheet", drawn)
    for key in ("swags", "shells", "vermicelli"):
        practised(EXERCISES[key], "A4", "us", key == "swags")
    (swag, pitch), swags = made[0]
    assert pitch == pytest.approx(SHEET_MM / EXERCISES["swags"].repeats) and (swags["mirrored"], swags["named"], swags["units"]) == (True, True, "us")
    assert (swag.kind, swag.drop_mm, swags["lines"]) == ("swag", EXERCISES["swags"].drop_mm, EXERCISES["swags"].lines)
    assert made[1][0][1] == 0.0 and not made[1][1]["mirrored"] and made[1][1]["called"] == "shells"
    assert made[2][0] == (EXERCISES["vermicelli"].tip, EXERCISES["vermicelli"].gap_mm, SHEET_MM, EXERCISES["vermicelli"].high_mm)
    assert made[2][1]["named"]
    with pytest.raises(KeyError):
        student_sheet([EXERCISES["swags"]], "plain", "practice-shells", Heading(), "A4", Formatter())


def test_a_progress_sheet_has_room_to_write(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lesson_sheets, "written_sheet", lambda name, title, blocks, *rest: blocks)
    found: Any = progress_sheet([EXERCISES["shells"], EXERCISES["swags"]], Heading(day="Sat"), "A4")
    went, hand = [block for block in found if isinstance(block, Table)]
    assert [row[:2] for row in went.rows] == [(EXERCISES[key].name, EXERCISES[key].aim) for key in ("shells", "swags")]
    assert all(len(row) == len(went.columns) == len(went.shares) and row[2:] == ("", "", "") for row in went.rows) and not (went.tick or hand.tick)
    assert [row[0] for row in hand.rows] == [EXERCISES[key].tip.name for key in ("shells", "swags")] and len(hand.shares) == 3
    assert found[0].lines == (("Name", ""), ("Date", "Sat"))


# --- hours -------------------------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, drawings, within",
    [
        ({"tiers": "1", "rows": "3"}, 1, 0),
        ({}, 2, 0),
        ({"rows": "24", "tiers": "5"}, 3, 0),
        ({"rows": "30", "tiers": "5"}, 4, 2),
        ({"rows": "60", "tiers": "7", "hand": "learning"}, 6, 5),
    ],
)
def test_hours_on_paper_are_in_order_and_no_higher_than_a_page(typed: Typed, drawings: int, within: int) -> None:
    """As few drawings as can be, of which as few as can be begin within a day; a step is in one drawing only."""
    plan = plan_of(parse(CALCULATORS["timetable"], typed))
    cuts = _cuts(plan)
    assert cuts[0] == 0 and cuts[-1] == len(plan.steps) and cuts == sorted(set(cuts)) and len(hours_drawn(plan)) == len(cuts) - 1
    highs = [chart_height_mm(replace(plan, steps=plan.steps[start:end])) for start, end in zip(cuts, cuts[1:], strict=False)]
    assert max(highs) <= DRAWING_HIGH_MM and len(highs) == drawings
    assert sum(plan.steps[cut].start.date() == plan.steps[cut - 1].start.date() for cut in cuts[1:-1]) == within


def test_a_calendar_has_its_name() -> None:
    assert b"Ruby" in calc.sheet("timetable", {"title": "Ruby"}, CALENDAR)
    assert b"Cake" in calc.sheet("timetable", {"title": ""}, CALENDAR)


def test_a_step_says_where_it_waits() -> None:
    found = rows(answered("timetable", {"hand": "learning", "rows": "swags 9 h", "hours": "9:00 to 13:00"}), "tasks")
    assert any(" in the fridge" in row[1] for row in found) and any(" in the oven" in row[1] for row in found)
    assert any(row[3] == "" for row in found) and any(row[3] == "none" for row in found)
    begins = [dt.datetime.strptime(row[0].split(" ")[1], "%H:%M") for row in found if row[2] and row[0].startswith("Sat")]
    assert begins == sorted(begins)


def test_sponges_that_do_not_keep_until_the_day_are_told() -> None:
    """Who works only a week before the day bakes further ahead than a sponge keeps."""
    early = answered("timetable", {"hours": "Mon 9:00 to 18:00", "ready_at": "2027-10-16 18:00"})
    assert any("Made further ahead than it usually keeps" in one["text"] for one in early.cautions)
    assert any(", too early" in row[3] for row in rows(early, "made_ahead"))
    plain = answered("timetable", {})
    assert not any("Made further ahead" in one["text"] for one in plain.cautions) and not any(
        ", too early" in row[3] for row in rows(plain, "made_ahead")
    )


# --- drawings, and words for one and for several -------------------------------------------------------------------------------------------


def test_the_section_of_a_coat_shows_its_colours_where_they_lie(monkeypatch: pytest.MonkeyPatch) -> None:
    """10.5 cm in three stripes and three grounds, 1.75 cm each, the first with half a ground under it; or in bands of 7 and 3.5 cm."""
    drawn: list[tuple[Any, ...]] = []

    def scene(made: Any, units: str, bands: Any = (), stripes_mm: Any = (), groove_mm: float = 0.0) -> Any:
        drawn.append((bands, stripes_mm, groove_mm))
        return SimpleNamespace(title="", description="")

    monkeypatch.setattr(coats_form, "section_scene", scene)
    monkeypatch.setattr(coats_form, "svg", lambda scene: "")
    answered("coats", {"style": "striped", "stripes": "3", "groove": "2 mm"})
    answered("coats", {"style": "ombre", "shares": "2, 1"})
    answered("coats", {"style": "striped"})
    (_, stripes, groove), (bands, _, _), (_, _, full) = drawn
    assert [(round(low, 2), round(high, 2)) for low, high in stripes] == [(8.75, 26.25), (43.75, 61.25), (78.75, 96.25)]
    assert (groove, full) == (2.0, 3.0) and [(round(low, 2), round(high, 2)) for low, high in bands] == [(0.0, 70.0), (70.0, 105.0)]


def test_the_cake_is_drawn_once_and_few_of_its_looks_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[float] = []
    monkeypatch.setattr(order_drawings, "_tilted", order_drawings._Drawn())
    monkeypatch.setattr(order_drawings, "tilted_view", lambda tiers, board: made.append(board))
    monkeypatch.setattr(order_drawings, "svg", lambda scene: "<svg/>")
    for board in (*range(17), 16):
        assert order_drawings.tilted_svg((), float(board)) == "<svg/>"
    assert len(made) == 17 and len(order_drawings._tilted) == 16
    assert order_drawings.tilted_if_drawn((), 0.0) is None and order_drawings.tilted_if_drawn((), 1.0) == "<svg/>"


def test_one_is_not_told_as_several() -> None:
    one, two = ({"tins": "15, 20 cm", "kitchen": "yes", "guests": guests} for guests in ("133", "134"))
    assert rows(answered("stack", one), "stacks")[0][0] == "20 cm + 15 cm and 1 kitchen sheet"
    assert rows(answered("stack", two), "stacks")[0][0].endswith(" and 2 kitchen sheets")
    small = {"width": "10 cm", "slice": "60 x 60 mm", "cut": "grid"}
    assert answered("portions", small).drawings[0]["title"] == "1 portion by grid"
    assert answered("portions", {"width": "20 cm", "height": "20 cm"}).drawings[0]["title"] == "24 equal portions by rings, on each of 2 levels"
    lines = "sage, round 2 mm, 20 g; sage, petal 9 mm, 20 g"
    assert any("a tip is changed on a coupler 1 time." in note["text"] for note in answered("colours", {"rows": lines}).notes)
    again = answered("colours", {"rows": f"{lines}; sage, round 2 mm, 20 g"})
    assert any("a tip is changed on a coupler 2 times." in note["text"] for note in again.notes)


def test_what_a_kit_holds_is_counted_for_one_and_for_all() -> None:
    """Eight students and the tutor: nine of everything, and one more of each sheet to spare."""
    found = answered("lesson", {})
    lines = {row[0]: row[1:] for row in rows(found, "kits")}
    assert lines["Practice sheets, printed"] == lines["Parchment or clear film over them"] == ["3", "30, 3 of them spare"]
    assert lines["Tip: open star 7 mm"] == ["1", "9"] and "Buttercream for the cake to take home, in a bowl" not in lines
    cake = {row[0]: row[1:] for row in rows(answered("lesson", {"cake": "200 g"}), "kits")}
    assert (
        cake["Buttercream for the cake to take home, in a bowl"] == ["200 g", "1.8 kg"]
        and cake["Buttercream, in bags"] == lines["Buttercream, in bags"]
    )
    heads = [column["label"] for table in found.tables if table["name"] == "kits" for column in table["columns"]]
    assert heads == ["What", "One kit", "All 9"]


def test_more_tints_take_more_time() -> None:
    """A cake of one colour has one bowl, tinted or not; each further one takes its time."""
    ivory = {name: "ivory" for name in PLAIN}
    plain, one, two = (answered("order", CAKE | colours).figures["hands"]["value"] for colours in (PLAIN, ivory, ivory | {"tiers.1.colour": "sage"}))
    assert plain == one < two


def test_a_class_is_warned_of_the_allergens_in_its_recipe() -> None:
    """Milk in any, and eggs in a meringue."""
    plain, meringue = (" ".join(one["text"] for one in answered("lesson", {"recipe": recipe}).cautions) for recipe in ("plain", "swiss_meringue"))
    assert "usually brings: milk. " in plain and "usually brings: milk, eggs. " in meringue
    assert len(answered("lesson", {}).cautions) == 2


@pytest.mark.parametrize(
    "tiers, words",
    [
        (
            "30 x 10 cm rectangle",
            "Tier 1 is width x length x height and a shape, and “30 x 10 cm rectangle” does not read as that. Write it like 30 x 20 x",
        ),
        ("20 x 10 cm; 15 cm round", "Tier 2 is width x height and a shape, and “15 cm round” does not read as that. Write it like 20 x 10 cm round"),
        ("20 x 10 cm; 15 x 61 cm", "Tier 2: the height must be between 1.5 cm and 60 cm, not 61 cm"),
        ("20 x 10 cm; 3.9 x 10 cm", "Tier 2: the width must be between 4 cm and 100 cm, not 3.9 cm"),
        ("30 x 101 x 10 cm rectangle", "Tier 1: the length must be between 4 cm and 100 cm"),
        ("20 x 10 cm; 15 x 10 cm; 16 x 10 cm", "Tier 3 is wider than tier 2 under it (16 cm on 15 cm)"),
    ],
)
def test_a_tier_that_does_not_read_is_told_by_its_number(tiers: str, words: str) -> None:
    ((field, message),) = problems("supports", {"tiers": tiers})
    assert field == "tiers" and words in message


def test_what_standing_does_is_told_until_both_times_are_known() -> None:
    """Eleven hours more than the test stood deepen a tint: d = 0.15 by 1 - exp(-t / 3 h) is 0.1473 at 12 h and 0.0425 at 1 h; 1.1473 / 1.0425 - 1."""
    for typed in ({"test_stood": "1 h", "will_stand": "12 h"}, {"test_stood": "2 h", "will_stand": "2 h"}):
        found = answered("tint", typed)
        assert not any(note["text"].startswith("Standing deepens") for note in found.notes)
        assert found.figures["deepens"]["value"] == pytest.approx(10.05 if typed["will_stand"] == "12 h" else 0, abs=0.01)


def test_a_cutter_is_named_where_one_of_several_was_chosen() -> None:
    several, one = (answered("swags", {"side": "66 cm", "cutter": cutter}) for cutter in ("9 cm, 7.5 cm", "9 cm"))
    assert several.figures["cutter"]["text"] == "7.5 cm"  # nine close 66 cm; seven of 9 cm leave 4.2 mm at every joint
    assert "cutter" not in one.figures
    names = [[table["name"] for table in answer.tables] for answer in (several, one)]
    assert "cutters" in names[0] and "cutters" not in names[1]


def test_what_hangs_in_an_arc_has_its_radius_told() -> None:
    """Swags on the 7.5 cm cutter lie on a circle of 3.75 cm; a string hangs in no circle."""
    swag = answered("order", CAKE).figures
    assert swag["arc_radius"]["value"] == swag["arc_radius_1"]["value"] == pytest.approx(37.5)
    assert swag["length_total_1"]["value"] == pytest.approx(9 * swag["length_each_1"]["value"]) and "arc_radius_2" not in swag
    string = answered("order", CAKE | {"tiers.0.rows.0.kind": "string"}).figures
    assert "arc_radius" not in string and "length_each" in string


@pytest.mark.parametrize(
    "slug, typed, figure, label",
    [
        ("coats", {"layers": "2"}, "filling", "Filling"),
        ("coats", {"layers": "3"}, "filling", "Filling, 2 of them"),
        ("shells", {"side": "66 cm"}, "shells", "Shells round the cake"),
        ("shells", {"side": "66 cm", "kind": "bead", "tip": "round 4 mm"}, "shells", "Beads round the cake"),
        ("shells", {"side": "66 cm", "repeats": "8"}, "shells", "In all"),
        ("shells", {"side": "66 cm"}, "natural_pitch", "Pitch this tip usually makes"),
        ("shells", {"side": "66 cm", "piped": "30 cm", "pieces": "27"}, "natural_pitch", "Pitch of your strip"),
        ("supports", {}, "board", "Board under the cake"),
        ("supports", {}, "board_2", "Board under tier 2"),
        ("stack", {"kitchen": "yes"}, "kitchen_cakes", "Kitchen sheets of 30 x 40 cm"),
        ("stack", {"kitchen": "yes", "units": "us"}, "kitchen_cakes", "Kitchen sheets of 12 x 18 in"),
        ("swags", {"side": "66 cm", "cutter": "9 cm"}, "guide_tape_under", "Upper edge of the guide tape, below the joints"),
        ("swags", {"side": "66 cm", "cutter": "9 cm", "joints": "9 cm"}, "guide_tape", "Lower edge of the guide tape, above the joints"),
        ("division", {"side": "66 cm", "repeats": "8"}, "closing_error", "Closing error, set to the millimetre"),
        ("price", {"tax": "20 %"}, "to_pay", "To pay, tax included"),
        ("order", {"guests": "20", "tiers.0.name": "A"}, "spare_portions", "Over the guests"),
        ("order", {"guests": "24", "tiers.0.name": "A"}, "spare_portions", "Over the guests"),
        ("order", {"guests": "25", "tiers.0.name": "A"}, "spare_portions", "Portions short"),
    ],
)
def test_a_figure_is_called_what_it_is(slug: str, typed: Typed, figure: str, label: str) -> None:
    found = answered(slug, typed).figures[figure]
    assert found["label"] == label and not found["text"].startswith("-")


def test_rows_as_a_table_have_at_most_8000_letters() -> None:
    lines = "\n".join(["russet, petal 11 mm, 80 g"] * 30)
    assert problems("colours", {"rows": f"{lines};{' ' * (7999 - len(lines) - 1)};"}) == []
    ((field, message),) = problems("colours", {"rows": f"{lines};{' ' * (8000 - len(lines) - 1)};"})
    assert field == "rows" and "8001 characters; 8000 is the most" in message
