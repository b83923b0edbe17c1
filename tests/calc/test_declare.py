"""How a calculator reads what was typed, and what it answers."""

from __future__ import annotations

import datetime as dt
import json

import pytest

from calc.calculators.declare import KINDS, Answer, Asked, Calculator, Group, Input, parse, run
from calc.units import LONGEST_RECORD, Formatter, Problem, Problems


def calculator(*inputs: Input, groups: tuple[Group, ...] = (), work=None, unfold=None) -> Calculator:  # type: ignore[no-untyped-def]
    return Calculator("test", "Test", "A test.", inputs, work or (lambda asked, answer: None), groups, unfold=unfold)


def read(declared: Input, text: str, units: str = "metric"):  # type: ignore[no-untyped-def]
    return declared.read(text, declared.name, units)


# --- inputs -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "kind, typed, value",
    [
        ("length", "15,5 cm", 155), ("length", "20", 200), ("mass", "2 lb", 907.18474), ("mass", "250", 250),
        ("volume", "1 cup", 236.5882365), ("duration", "1 h 30 min", 90), ("count", "36", 36), ("number", "2,5", 2.5),
        ("percent", "10 %", 10), ("percent", "10", 10), ("money", "£12.50", 12.5), ("money", "12,50", 12.5),
        ("pair", "25 x 50 mm", (25, 50)), ("lengths", "9 cm, 7.5 cm", (90, 75)), ("lengths", "9 cm and 7,5 cm; 6 cm", (90, 75, 60)),
        ("text", " two  words ", "two  words"), ("long_text", "a\nb", "a\nb"), ("yes_no", "Yes", True), ("yes_no", "no", False),
        ("moment", "2027-10-16 18:00", dt.datetime(2027, 10, 16, 18)),
    ],
)  # fmt: skip
def test_each_kind_is_read(kind: str, typed: str, value: object) -> None:
    found = read(Input("x", "X", kind), typed)
    assert found == (pytest.approx(value) if isinstance(value, (int, float)) and not isinstance(value, bool) else value)


def test_tips_are_read_by_family_and_opening() -> None:
    tip = read(Input("tip", "Tip", "tip"), "7 mm open star")
    assert (tip.family, tip.opening_mm) == ("open star", 7)
    several = read(Input("tips", "Tips", "tips"), "petal 11 mm, round 2 mm")
    assert [t.family for t in several] == ["petal", "round"]


def test_a_bare_number_takes_the_usual_unit_of_the_reader() -> None:
    width = Input("width", "Width", "length")
    assert read(width, "6") == 60 and read(width, "6", "us") == pytest.approx(152.4)
    assert read(Input("gap", "Gap", "length", default_unit="millimeter"), "1/4", "us") == pytest.approx(6.35)
    assert read(Input("opening", "Opening", "length", default_unit="millimeter", us_unit="millimeter"), "6", "us") == 6
    assert read(Input("hours", "Hours", "duration", default_unit="hour"), "6") == 360


def test_an_unknown_kind_breaks_when_it_is_declared() -> None:
    with pytest.raises(ValueError, match="unknown kind"):
        Input("x", "X", "weight")


@pytest.mark.parametrize("kind", KINDS)
def test_empty_is_none_where_it_may_be_and_a_problem_where_not(kind: str) -> None:
    choices = (("a", "A"),) if kind == "choice" else ()
    for text in ("", "   "):
        assert not read(Input("x", "The thing", kind, optional=True, choices=choices), text)
        with pytest.raises(Problem, match="The thing is empty"):
            read(Input("x", "The thing", kind, choices=choices), text)


@pytest.mark.parametrize(
    "declared, typed, words",
    [
        (Input("cutter", "Cutter", "length", low=10, high=400), "5 mm", "Cutter must be between 1 cm and 40 cm"),
        (Input("cutter", "Cutter", "length", low=10, high=400), "1e9 m", "Cutter must be between 1 cm and 40 cm"),
        (Input("cutter", "Cutter", "length", low=10), "-3 cm", "Cutter must be 1 cm or more"),
        (Input("guests", "Guests", "count", high=2000), "2001", "Guests must be 2000 or less"),
        (Input("spare", "Spare", "percent", low=0, high=100), "101", "Spare must be between 0 % and 100 %"),
        (Input("mass", "Mass", "mass", low=1, high=1000), "2 kg", "Mass must be between 1 g and 1 kg"),
        (Input("wait", "Wait", "duration", low=5, high=120), "3 h", "Wait must be between 5 min and 2 h"),
        (Input("cutters", "Cutters", "lengths", low=10, high=400), "9 cm, 5 mm", "Cutters must be between"),
        (Input("slice", "Slice", "pair", low=5, high=200), "25 x 500 mm", "Slice must be between"),
    ],
)
def test_a_limit_is_said_with_the_label(declared: Input, typed: str, words: str) -> None:
    with pytest.raises(Problem, match=words):
        read(declared, typed)


def test_a_limit_is_said_in_the_readers_units() -> None:
    with pytest.raises(Problem, match="between 0.4 in and 15 11/16 in, and 99 is read as 99 in. Write 99 mm"):
        read(Input("cutter", "Cutter", "length", low=10, high=400), "99", "us")


def test_the_limits_themselves_are_allowed() -> None:
    cutter = Input("cutter", "Cutter", "length", low=10, high=400)
    assert read(cutter, "10 mm") == 10 and read(cutter, "40 cm") == 400


def test_too_many_lengths() -> None:
    with pytest.raises(Problem, match="up to 20"):
        read(Input("cutters", "Cutters", "lengths"), ", ".join(["9 cm"] * 21))


def test_long_text_is_longer_than_text_and_not_endless() -> None:
    assert len(read(Input("order", "Order", "long_text"), "a" * 10_000)) == 10_000
    with pytest.raises(Problem, match="is the most"):
        read(Input("order", "Order", "long_text"), "a" * (LONGEST_RECORD + 1))
    with pytest.raises(Problem, match="is the most"):
        read(Input("name", "Name", "text"), "a" * 10_000)


# --- a whole form -----------------------------------------------------------------------------------------------------

WIDTH = Input("width", "Width", "length", "20 cm", low=50, high=1000)
NAME = Input("name", "Name", "text", "cake", optional=True)


def test_what_is_left_out_takes_its_default_and_what_is_emptied_does_not() -> None:
    form = calculator(WIDTH, NAME)
    assert parse(form, {}) == {"width": 200, "name": "cake"}
    assert parse(form, {"name": ""})["name"] == ""
    with pytest.raises(Problems, match="Width is empty"):
        parse(form, {"width": ""})


def test_all_problems_are_found_in_one_go_each_at_its_field() -> None:
    with pytest.raises(Problems) as caught:
        parse(calculator(WIDTH, Input("guests", "Guests", "count")), {"width": "abc", "guests": "many", "colour": "red"})
    assert [p.input for p in caught.value.problems] == ["width", "guests", "colour"]


def test_units_are_asked_everywhere() -> None:
    assert parse(calculator(WIDTH), {"units": "us", "width": "8"})["width"] == pytest.approx(203.2)
    assert parse(calculator(WIDTH), {"units": ""}).units == "metric"
    with pytest.raises(Problems, match="metric, us"):
        parse(calculator(WIDTH), {"units": "furlongs"})


ROW = Group("rows", "Row", (Input("kind", "Kind", "text", "shells"), Input("tip", "Tip", "length", "7 mm", default_unit="millimeter")))
TIER = Group("tiers", "Tier", (WIDTH,), (ROW,), minimum=1, maximum=3)


def test_groups_are_read_in_order_with_gaps_and_nested() -> None:
    asked = parse(calculator(groups=(TIER,)), {"tiers.5.width": "15 cm", "tiers.0.width": "20 cm", "tiers.0.rows.2.kind": "swags",
                                               "tiers.0.rows.0.tip": "9"})  # fmt: skip
    assert [tier["width"] for tier in asked["tiers"]] == [200, 150]
    assert [(row["kind"], row["tip"]) for row in asked["tiers"][0]["rows"]] == [("shells", 9), ("swags", 7)]
    assert asked["tiers"][1]["rows"] == [] and asked["tiers"][1].named("width") == "tiers.5.width"


def test_a_problem_in_a_group_names_its_own_field() -> None:
    with pytest.raises(Problems) as caught:
        parse(calculator(groups=(TIER,)), {"tiers.0.width": "20 cm", "tiers.1.rows.4.tip": "abc"})
    assert [p.input for p in caught.value.problems] == ["tiers.1.rows.4.tip"]


@pytest.mark.parametrize(
    "texts, name",
    [
        ({}, "tiers"),
        ({f"tiers.{i}.width": "20 cm" for i in range(4)}, "tiers.3"),
        ({"tiers.0.width": "20 cm", "tiers.0.height": "3"}, "tiers.0.height"),
        ({"tiers.0.width": "20 cm", "tiers.x.width": "3"}, "tiers.x.width"),
        ({"tiers.0.width": "20 cm", "tiers.-1.width": "3"}, "tiers.-1.width"),
        ({"tiers.0.width": "20 cm", "tiers.99999.width": "3"}, "tiers.99999.width"),
        ({"tiers.0.width": "20 cm", "x" * 500: "3"}, "x" * 80),
    ],
)
def test_too_few_too_many_and_unknown(texts: dict[str, str], name: str) -> None:
    with pytest.raises(Problems) as caught:
        parse(calculator(groups=(TIER,)), texts)
    assert name in [p.input for p in caught.value.problems]


# --- answers ----------------------------------------------------------------------------------------------------------


def fill(asked: Asked, answer: Answer) -> None:
    answer.section("one", "One")
    answer.length("drop", "Drop", 50)
    answer.mass("mass", "Mass", 250, 200, 300)
    answer.count("repeats", "Repeats", 5)
    answer.percent("share", "Share", 12.5)
    answer.volume("volume", "Volume", 1500)
    answer.duration("time", "Time", 95)
    answer.note("A note")
    answer.caution("A caution")
    answer.table("t", "T", ("A", "B"), [["a", "1"]], (1,))
    answer.drawing("d", "D", "A drawing", "<svg/>")
    answer.sheet("s", "S")
    answer.file("f.ics", "F", "text/calendar")


def test_an_answer_has_value_unit_and_text() -> None:
    data = run(calculator(WIDTH, work=fill), {}).to_dict()
    assert data["figures"]["drop"] == {"value": 50, "unit": "mm", "text": "5 cm", "label": "Drop", "section": "one"}
    assert data["figures"]["mass"]["text"] == "250 g (200 g to 300 g)" and data["figures"]["mass"]["low"] == 200
    assert data["figures"]["repeats"]["unit"] == "" and data["figures"]["share"]["unit"] == "%"
    assert data["tables"][0]["columns"] == [{"label": "A", "align": "left"}, {"label": "B", "align": "right"}]
    assert data["sections"] and data["files"] and data["drawings"] and data["sheets"] and data["notes"] and data["cautions"]
    assert json.loads(run(calculator(WIDTH, work=fill), {}).to_json()) == data


def test_an_answer_is_written_in_the_readers_units() -> None:
    figures = run(calculator(WIDTH, work=fill), {"units": "us"}).figures
    assert figures["drop"]["text"] == "1 15/16 in" and figures["drop"]["value"] == 50
    assert figures["mass"]["text"].startswith("8 3/4 oz")


def test_with_a_problem_there_are_no_figures() -> None:
    def half_way(asked: Asked, answer: Answer) -> None:
        fill(asked, answer)
        raise Problem("width", "Width is too wide for the board")

    answer = run(calculator(WIDTH, work=half_way), {})
    data = answer.to_dict()
    assert data["problems"] == [{"input": "width", "message": "Width is too wide for the board"}]
    assert not any(data[key] for key in ("figures", "notes", "cautions", "tables", "drawings", "sheets"))
    assert "files" not in data and "sections" not in data


def test_a_record_is_unfolded_before_it_is_read() -> None:
    def unfold(texts, answer):  # type: ignore[no-untyped-def]
        answer.record = texts["record"]
        return {"width": texts["record"]}

    answer = run(calculator(WIDTH, work=lambda asked, answer: answer.length("w", "W", asked["width"]), unfold=unfold), {"record": "25 cm"})
    assert answer.figures["w"]["value"] == 250 and answer.record == "25 cm"


def test_a_mistake_of_ours_is_not_hidden() -> None:
    """A bug is an exception, which the page shows as one; it is never dressed up as the reader's mistake."""
    with pytest.raises(ZeroDivisionError):
        run(calculator(WIDTH, work=lambda asked, answer: 1 / 0), {})


def test_a_range_that_reads_the_same_is_not_shown() -> None:
    answer = Answer("test")
    answer.mass("m", "M", 250.0, 249.8, 250.2)
    assert answer.figures["m"]["text"] == "250 g" and answer.say == Formatter("metric")
