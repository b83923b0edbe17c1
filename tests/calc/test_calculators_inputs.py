"""How one field reads what is typed, by hand: each kind in both systems of units, lists, limits in words, and what is asked about a bare number."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from calc.buttercream import density_g_per_ml
from calc.calculators import CALCULATORS
from calc.calculators.answering import Answer, Drawing, Press, ranged, span
from calc.calculators.declare import run
from calc.calculators.inputs import ByVolume, Group, Input, Money, in_us_units
from calc.tips import Tip
from calc.units import Formatter, Problem


def read(kind: str, text: str, units: str = "metric", **more: Any) -> Any:
    return Input("x", "X", kind, **more).read(text, "x", units)


def said(kind: str, text: str, units: str = "metric", **more: Any) -> str:
    """What is said at the field; nothing where it is taken."""
    try:
        read(kind, text, units, **more)
    except Problem as problem:
        assert problem.input == "x"
        return problem.message
    return ""


NUMBERS = ("count", "number", "percent", "money", "length", "mass", "duration", "pair", "lengths")


@pytest.mark.parametrize(
    "kind, text, metric, us",
    [
        ("count", "36", 36, 36),
        ("number", "2.5", 2.5, 2.5),
        ("percent", "10 %", 10, 10),
        ("percent", "10", 10, 10),
        ("percent", "10 per cent", 10, 10),
        ("money", "12.50", 12.5, 12.5),
        ("yes_no", "yes", True, True),
        ("yes_no", "no", False, False),
        ("length", "8", 80, 203.2),
        ("length", "8 mm", 8, 8),
        ("mass", "3", 3, 3 * 28.349523125),
        ("duration", "90", 90, 90),
        ("pair", "25 x 50", (25, 50), (635, 1270)),
        ("pair", "1 x 2 in", (25.4, 50.8), (25.4, 50.8)),
        ("lengths", "9, 7.5", (90, 75), (228.6, 190.5)),
        ("lengths", "9 cm and 7.5 cm", (90, 75), (90, 75)),
        ("lengths", "3, 9 cm; 80 mm or 7", (30, 90, 80, 70), (30, 90, 80, 177.8)),  # without a unit, that of the next which has one
        ("lengths", '3", 9 cm', (76.2, 90), (76.2, 90)),
        ("tip", "petal 11 mm", Tip("petal", 11), Tip("petal", 11)),
        ("tips", "petal 11 mm, round 2 mm", (Tip("petal", 11), Tip("round", 2)), (Tip("petal", 11), Tip("round", 2))),
        ("moment", "2027-10-16 18:00", dt.datetime(2027, 10, 16, 18), dt.datetime(2027, 10, 16, 18)),
        ("text", "  a b ", "a b", "a b"),
    ],
)
def test_what_is_typed_is_read_in_the_readers_units(kind: str, text: str, metric: Any, us: Any) -> None:
    for units, wanted in (("metric", metric), ("us", us)):
        found = read(kind, text, units)
        assert found == (pytest.approx(wanted) if kind in NUMBERS else wanted), units


def test_money_keeps_its_sign_and_a_volume_what_was_typed() -> None:
    amount = read("money", "£12.50")
    assert isinstance(amount, Money) and (amount.sign, amount) == ("£", 12.5) and read("money", "12").sign == ""
    held = read("mass", "500 ml", by_volume=True)
    assert isinstance(held, ByVolume) and held.volume_ml == 500 and held == pytest.approx(500 * density_g_per_ml("plain"))
    assert read("mass", "500 g", by_volume=True) == 500 and not isinstance(read("mass", "500 g", by_volume=True), ByVolume)
    assert said("mass", "500 ml") and said("mass", "some", by_volume=True)
    assert "must be" in said("mass", "500 ml", by_volume=True, high=100)


def test_an_optional_field_may_be_left_empty() -> None:
    assert read("length", " ", optional=True) is None and read("text", " ", optional=True) == "" and read("colour", "", optional=True) == ""
    assert said("length", "  ").startswith("X is empty. ") and said("text", " ").startswith("X is empty. ")


@pytest.mark.parametrize(
    "kind, more, words",
    [
        ("count", {}, "36"),
        ("count", {"default": "8"}, "8"),
        ("number", {}, "2.5"),
        ("percent", {}, "10 %"),
        ("money", {}, "12.50"),
        ("tip", {}, "petal 11 mm"),
        ("tips", {}, "petal 11 mm, round 2 mm"),
        ("pair", {}, "25 x 50 mm"),
        ("lengths", {}, "9 cm, 7.5 cm"),
        ("yes_no", {}, "yes or no"),
        ("text", {}, "a few words"),
    ],
)
def test_an_empty_field_says_how_it_is_written(kind: str, more: dict[str, str], words: str) -> None:
    assert said(kind, "", **more) == f"X is empty. Write it like {words}"


@pytest.mark.parametrize(
    "kind, low, high, text, words",
    [
        ("length", 50, 1000, "4 cm", "between 5 cm and 100 cm"),
        ("length", 50, None, "4 cm", "5 cm or more"),
        ("length", None, 50, "6 cm", "5 cm or less"),
        ("lengths", 50, None, "9 cm, 4 cm", "5 cm or more"),
        ("pair", 20, None, "19 x 30 mm", "2 cm or more"),
        ("pair", 20, None, "30 x 19 mm", "2 cm or more"),
        ("mass", None, 500, "501 g", "500 g or less"),
        ("volume", 100, None, "99 ml", "100 ml or more"),
        ("duration", 60, 120, "121 min", "between 1 h and 2 h"),
        ("percent", 5, None, "4 %", "5 % or more"),
        ("count", 2, 7, "8", "between 2 and 7"),
        ("number", 0.5, None, "0.4", "0.5 or more"),
        ("money", None, 9, "10", "9 or less"),
    ],
)
def test_limits_are_said_in_words_and_hold_to_the_end(kind: str, low: float | None, high: float | None, text: str, words: str) -> None:
    assert said(kind, text, low=low, high=high) == f"X must be {words}"


@pytest.mark.parametrize(
    "units, text, more, words",
    [
        # 5 cm is narrow for a tin, and 5 in is not; 20 in is wide, and 20 cm is not; 30 in could be 30 cm or 30 mm
        ("metric", "5", {"usual": (95, 460)}, "X: 5 is read as 5 cm, which is unusually small. Write 5 cm if you mean it, or 5 in"),
        ("us", "20", {"usual": (95, 460)}, "X: 20 is read as 20 in, which is unusually large. Write 20 in if you mean it, or 20 cm"),
        ("us", "30", {"usual": (20, 400)}, "X: 30 is read as 30 in, which is unusually large. Write 30 in if you mean it, or 30 cm or 30 mm"),
        ("metric", "47", {"usual": (95, 460)}, "X: 47 is read as 47 cm, which is unusually large. Write 47 cm if you mean it"),
        # past the limits, where another unit would do
        ("metric", "200", {"low": 50, "high": 1000}, "X must be between 5 cm and 100 cm, and 200 is read as 200 cm. Write 200 mm if you mean that"),
        # past the limits, and no unit does
        ("metric", "9999", {"low": 50, "high": 1000}, "X must be between 5 cm and 100 cm"),
        # within them, and nothing is unusual
        ("metric", "99", {"low": 50, "high": 1000}, ""),
        ("metric", "0", {"low": 0, "usual": (2, 25)}, ""),
        ("metric", "1", {"low": 0, "usual": (20, 25)}, "X: 1 is read as 1 cm, which is unusually small. Write 1 cm if you mean it"),
    ],
)
def test_a_bare_number_that_is_improbable_is_asked_about(units: str, text: str, more: dict[str, Any], words: str) -> None:
    assert said("length", text, units, **more) == words


def test_a_pair_without_a_unit_is_asked_about_as_one() -> None:
    """25 x 50 in a field of millimetres is a slice; 1 x 2 reads as inches would, and is asked about."""
    assert read("pair", "25 x 50", usual=(20, 130)) == (25, 50) and read("pair", "1 x 2 in", usual=(20, 130)) == pytest.approx((25.4, 50.8))
    assert "Write 1 x 2 mm if you mean it, or 1 x 2 in" in said("pair", "1 x 2", usual=(20, 130))


def test_sizes_of_one_piece_share_the_unit_of_the_last() -> None:
    field = Input("x", "X", "text", measure="length")

    def sizes(*texts: str, units: str = "metric") -> list[float]:
        return field.read_sizes(texts, "x", "X", units, ((95, 460), (50, 300)))

    assert (
        sizes("20", "10") == [200, 100] and sizes("8", "4 in") == pytest.approx([203.2, 101.6]) and sizes("8", '4"') == pytest.approx([203.2, 101.6])
    )
    assert sizes("200 mm", "10") == [200, 100] and sizes("8", "4", units="us") == pytest.approx([203.2, 101.6])
    with pytest.raises(Problem, match="8 x 4 is read as 8 x 4 cm, which is unusually small"):
        sizes("8", "4")


def test_a_kitchen_of_40_tips_can_be_at_hand() -> None:
    """All of them in one field, where a star may be written with its points."""
    whole = ", ".join(["closed star 13 mm, 12 points", *["petal 11 mm"] * 39])
    tips = read("tips", whole)
    assert len(tips) == 40 and tips[:2] == (Tip("closed star", 13, 12), Tip("petal", 11))
    assert "1600 is the most" in said("tips", "petal 11 mm" + " " * 1600 + ", petal 9 mm")


def test_a_list_has_at_most_20_lengths_and_40_tips() -> None:
    assert len(read("lengths", ", ".join(["9 cm"] * 20))) == 20 and len(read("tips", ", ".join(["round 2 mm"] * 40))) == 40
    assert said("lengths", ", ".join(["9 cm"] * 21)) == "X is a list of up to 20. Write it like 9 cm, 7.5 cm"
    assert said("tips", ", ".join(["round 2 mm"] * 41)) == "X is a list of up to 40. Write it like petal 11 mm, round 2 mm"
    assert said("lengths", ";") == "X is a list of up to 20. Write it like 9 cm, 7.5 cm"


def test_a_default_is_written_for_the_reader() -> None:
    assert Input("x", "X", "length", "20 cm").default_in("us") == "8 in" and Input("x", "X", "length", "20 cm").default_in("metric") == "20 cm"
    assert (
        Input("x", "X", "length", "20 cm", us="9 in").default_in("us") == "9 in"
        and Input("x", "X", "length", "20 cm", us="9 in").default_in("metric") == "20 cm"
    )
    money, count = Input("x", "X", "money"), Input("x", "X", "count")
    assert (in_us_units(money, "18"), in_us_units(money, "£18"), in_us_units(count, "18")) == ("$18", "£18", "18")
    assert in_us_units(Input("ready_at", "X", "moment"), "2027-10-16 18:00") == "October 16, 2027 6:00 PM"
    assert in_us_units(Input("x", "X", "text", measure="pair"), "25 x 50 mm") == "1 x 2 in"
    assert [Input("x", "X", "tip").bare_unit(units) for units in ("metric", "us")] == ["millimeter"] * 2
    assert [Input("x", "X", "length").shown_unit(units) for units in ("metric", "us")] == ["cm", "in"] and Input("x", "X", "count").shown_unit(
        "us"
    ) == ""


def test_what_is_declared_wrongly_is_refused() -> None:
    with pytest.raises(ValueError, match="unknown kind"):
        Input("x", "X", "width")
    one = Input("a", "A", "text")
    with pytest.raises(ValueError, match="follows"):
        Group("g", "G", (one,), follows=("b",))
    with pytest.raises(ValueError, match="names inputs"):
        Group("g", "G", (one,), line=("{b}",))
    group = Group("g", "G", (one, Input("b", "B", "text", advanced=True)), groups=(Group("h", "H", (one,)),), follows=("a", "h"))
    assert group.pieces == ("{a}",) and Group("g", "G", (one,), line=("with {a}",)).pieces == ("with {a}",)


# --- the answer --------------------------------------------------------------------------------------------------------------------------


def test_an_answer_keeps_what_belongs_to_which_section() -> None:
    answer = Answer("x")
    answer.length("before", "Before", 200.0)
    answer.section("one", "One", "1", "sheet", "Copy", ("a", "b"))
    with answer.quietly():
        answer.count("quiet", "Quiet", 3)
    answer.mass("loud", "Loud", 20.0, 10.0, 30.0)
    answer.volume("half", "Half", 20.0, 10.0)
    answer.percent("share", "Share", 12.0)
    answer.duration("time", "Time", 90.0, 60.0, 120.0)
    answer.note("plain")
    answer.note("pressed", Press("Do", {"a": "1"}, clears=("b",)))
    answer.sheet("s", "S", "G", "s.pdf")
    answer.sheet("t", "T")
    answer.file("f", "F", "text/plain")
    answer.main_drawing("m", "M", "d", "<svg/>")
    answer.drawing("d", "D", "d", lambda: "<svg>2</svg>")
    answer.cure("a.0", "amiss")
    answer.show_also("two", "loud")
    told = answer.to_dict()
    assert "section" not in told["figures"]["before"] and told["figures"]["before"]["text"] == "20 cm"
    assert told["figures"]["quiet"] == {"value": 3, "unit": "", "text": "3", "label": "Quiet", "quiet": True, "section": "one"}
    loud = told["figures"]["loud"]
    assert (loud["low"], loud["high"], loud["text"], loud["also"]) == (10.0, 30.0, "20 g (10 g to 30 g)", "two") and "quiet" not in loud
    assert "low" not in told["figures"]["half"] and told["figures"]["share"]["text"] == "12 %"
    assert told["figures"]["time"]["text"] == "1 h 30 min (1 h to 2 h)"
    assert told["sections"] == [{"name": "one", "title": "One", "short": "1", "prints": "sheet", "copies": "Copy", "copied": "a b"}]
    assert [note.get("presses") for note in told["notes"]] == [None, ["Do"]] and told["notes"][1]["presses"][0].clears == ("b",)
    assert told["sheets"] == [
        {"name": "s", "title": "S", "group": "G", "saved": "s.pdf", "section": "one"},
        {"name": "t", "title": "T", "section": "one"},
    ]
    assert told["files"] == [{"name": "f", "title": "F", "type": "text/plain", "section": "one"}]
    assert ["section" in drawing for drawing in told["drawings"]] == [False, True] and told["drawings"][1]["svg"] == "<svg>2</svg>"
    assert told["cures"] == [{"at": "a.0", "text": "amiss", "presses": []}] and "fields" not in told and "record" not in told
    answer.problems = [{"input": "a", "message": "b"}]
    answer.fields, answer.record = {}, "text"
    assert answer.to_dict()["figures"] == {} and answer.to_dict()["fields"] == {} and answer.to_dict()["record"] == "text"
    bare = Answer("x").to_dict()
    assert not {"sections", "files", "cures"} & set(bare)


def test_a_record_is_written_when_it_is_asked_for_and_once() -> None:
    asked: list[int] = []
    answer = Answer("x")
    answer.record = lambda: asked.append(1) or "text"  # type: ignore[func-returns-value]
    assert asked == [] and answer.record == "text" == answer.record and asked == [1]


def test_a_part_is_added_to_an_answer() -> None:
    whole, part = Answer("x"), Answer("x")
    part.count("a", "A", 1)
    part.note("n")
    part.caution("c")
    part.table("t", "T", ("A", "B"), [("1", "2")], (1,), {0: {"1": "#ffffff"}})
    whole.take(part)
    assert (len(whole.figures), len(whole.notes), len(whole.cautions), len(whole.tables)) == (1, 1, 1, 1)
    first, second = whole.tables[0]["columns"]
    assert (first, second) == ({"label": "A", "align": "left", "looks": {"1": "#ffffff"}}, {"label": "B", "align": "right"})


def test_a_drawing_is_drawn_when_it_is_looked_at() -> None:
    late, there = Drawing(lambda: "<svg/>", name="a"), Drawing("<svg/>", name="b")
    assert (late.is_drawn, there.is_drawn) == (False, True) and late["svg"] == "<svg/>" and late.is_drawn
    for drawing in (late, there):
        with pytest.raises(KeyError):
            drawing["title"]


def test_a_range_is_told_where_its_ends_differ_and_in_one_unit() -> None:
    metric, us = Formatter().mass, Formatter("us").mass
    assert ranged(metric, 20, 20, 20) == "20 g" == ranged(metric, 20, None, 30) == ranged(metric, 20, 10, None)
    assert ranged(metric, 20, 10, 30) == "20 g (10 g to 30 g)" and ranged(metric, 20, 10, 30, "21 g") == "21 g (10 g to 30 g)"
    assert ranged(metric, 20, 20, 20, "21 g") == "21 g" == ranged(metric, 20, None, None, "21 g")
    assert span(metric, 20, 20) == "20 g" and span(metric, 20, 21) == "20 g to 21 g" and span(us, 5, 20) == "5 g to 20 g"
    assert ranged(us, 20, 5, 30) == "20 g (5 g to 30 g)"


def test_what_cannot_be_worked_out_leaves_nothing_of_an_answer() -> None:
    answer = run(CALCULATORS["portions"], {"width": "1 m 1 cm"})
    assert answer.problems and not (answer.figures or answer.notes or answer.cautions or answer.tables or answer.drawings or answer.sheets)
    late = run(CALCULATORS["lesson"], {"minutes": "20 min"})
    assert [problem["input"] for problem in late.problems] == ["minutes"] and not (late.notes or late.sheets or late.sections or late.files)


def test_a_mass_typed_by_volume_says_what_it_was_taken_to_weigh() -> None:
    told = [note["text"] for note in run(CALCULATORS["tint"], {"mass": "400 ml"}).notes]
    assert "400 ml of buttercream is taken to weigh 423 g. Weigh yours to be sure." in told  # at 1.058 g/ml
    assert not any("is taken to weigh" in note["text"] for note in run(CALCULATORS["tint"], {"mass": "400 g"}).notes)
    assert not any("is taken to weigh" in note["text"] for note in run(CALCULATORS["batch"], {"mass": "400 ml"}).notes)
    row = run(CALCULATORS["colours"], {"rows.0.colour": "cream", "rows.0.mass": "2 cups"})
    assert any(note["text"].startswith("2 cups of buttercream is taken to weigh") for note in row.notes)
