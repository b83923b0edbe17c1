"""What every calculator shares: how a field reads, what an answer holds and how it fails, and how its tables are set on paper."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass
from typing import Any

import pytest

from calc.calculators import list_sheets
from calc.calculators.answering import Answer, Drawing, Press, Ranged, ranged, span
from calc.calculators.declare import Calculator, run, sheet_answer
from calc.calculators.inputs import ByVolume, Group, Input, Money, in_us_units, read_as
from calc.calculators.list_sheets import hours_drawn, list_sheet
from calc.calculators.parsing import Asked
from calc.drawing.paper import Heading, Paragraphs, Picture
from calc.drawing.scene import Scene
from calc.units import Formatter, Problem, Problems

SAY, US = Formatter(), Formatter("us")

# --- hours on paper ------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Step:
    """A step on a day of October, so high in a drawing [mm]."""

    day: int
    high: float

    @property
    def start(self) -> dt.datetime:
        return dt.datetime(2027, 10, self.day, 9)


@dataclass(frozen=True)
class Hours:
    """A timetable as far as its drawings go."""

    steps: tuple[Step, ...]


def cut(monkeypatch: pytest.MonkeyPatch, *steps: tuple[int, float]) -> list[list[float]]:
    """The heights of the steps in each drawing."""
    monkeypatch.setattr(list_sheets, "chart_height_mm", lambda plan: sum(step.high for step in plan.steps))
    drawn: list[Any] = []

    def scene(part: Any, whole: Any, say: Formatter) -> Any:
        assert whole.steps == tuple(Step(*one) for one in steps) and say is US
        drawn.append([step.high for step in part.steps])
        return len(drawn)

    monkeypatch.setattr(list_sheets, "timetable_scene", scene)
    plan: Any = Hours(tuple(Step(*one) for one in steps))
    assert list(hours_drawn(plan, US)) == list(range(1, len(drawn) + 1))
    return drawn


def test_hours_go_onto_as_few_drawings_as_pages_take(monkeypatch: pytest.MonkeyPatch) -> None:
    """A page holds 205 mm. A step that is higher than that has a drawing of its own."""
    assert cut(monkeypatch, (1, 50.0)) == [[50]]
    assert cut(monkeypatch, (1, 100.0), (1, 105.0)) == [[100, 105]]
    assert cut(monkeypatch, (1, 100.0), (1, 105.5)) == [[100], [105.5]]
    assert cut(monkeypatch, (1, 300.0)) == [[300]] and cut(monkeypatch, (1, 100.0), (1, 300.0), (1, 100.0)) == [[100], [300], [100]]
    assert cut(monkeypatch, (1, 300.0), (1, 10.0)) == [[300], [10]]


def test_whole_days_stay_in_one_drawing_where_that_takes_no_more_pages(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two drawings either way: cut between the days, though less evenly. Where a day must be cut, it is."""
    assert cut(monkeypatch, (1, 60.0), (2, 60.0), (2, 60.0), (2, 60.0)) == [[60], [60, 60, 60]]
    assert cut(monkeypatch, (1, 60.0), (1, 60.0), (1, 60.0), (2, 60.0)) == [[60, 60, 60], [60]]
    assert cut(monkeypatch, (1, 100.0), (2, 100.0), (2, 100.0), (3, 100.0)) == [[100, 100], [100, 100]], "three would be one page more"
    assert cut(monkeypatch, (1, 90.0), (2, 70.0), (2, 70.0), (3, 60.0), (3, 60.0)) == [[90, 70], [70, 60, 60]], "whole days would take three"
    assert cut(monkeypatch, (1, 150.0), (2, 70.0), (2, 70.0), (3, 90.0), (3, 90.0)) == [[150], [70, 70], [90, 90]], "of three, no day is cut"


def test_drawings_are_as_even_as_can_be(monkeypatch: pytest.MonkeyPatch) -> None:
    """Six steps of 50 mm of one day: three and three, not four and two, whose squares add up to more."""
    assert cut(monkeypatch, *[(1, 50.0)] * 6) == [[50] * 3, [50] * 3]
    assert cut(monkeypatch, *[(day, 50.0) for day in range(1, 7)]) == [[50] * 3, [50] * 3]
    assert cut(monkeypatch, (1, 10.0), (1, 100.0), (1, 100.0), (1, 10.0)) == [[10, 100], [100, 10]]


# --- tables on paper -----------------------------------------------------------------------------------------------------


def test_scenes_come_last_each_by_itself_and_the_sheet_has_its_heading(monkeypatch: pytest.MonkeyPatch) -> None:
    given: list[Any] = []
    monkeypatch.setattr(list_sheets, "written_sheet", lambda *found: given.append(found))
    answer = Answer("x")
    answer.table("a", "A", ("What", "How much", "Which"), [("b", "1", "c"), ("d", "2", "e")], (1,))
    first, second = (Scene(name, "", 0.0, 0.0, 10.0, 10.0, ()) for name in "ab")
    list_sheet(answer, "name", "Title", ("a", "none"), "Letter", (), (first, second), Heading(day="Sat"), "Below")
    name, title, (table, one, other), heading, paper, under = given.pop()
    assert (name, title, heading, paper, under) == ("name", "Title", Heading(day="Sat"), "Letter", "Below")
    assert (table.columns, table.rows, table.numeric, table.tick) == (("What", "How much", "Which"), (("b", "1", "c"), ("d", "2", "e")), (1,), False)
    assert [one, other] == [Picture((first,), 210.0, scaled=False), Picture((second,), 210.0, scaled=False)]
    answer.caution("Mind.")
    list_sheet(answer, "name", "Title", ("a",), "A4", ("a",), (first,))
    _, _, (table, warned, drawn), heading, _, under = given.pop()
    assert (heading, under, table.tick) == (Heading(), "", True) and isinstance(drawn, Picture)
    assert warned == Paragraphs("Cautions", ("Mind.",), boxed=True)


def test_nothing_is_set_of_an_answer_with_problems() -> None:
    answer = Answer("x")
    answer.problems = [{"input": "a", "message": "b"}]
    with pytest.raises(KeyError, match="list has nothing to show yet"):
        list_sheet(answer, "list", "List", (), "A4")


# --- an answer -----------------------------------------------------------------------------------------------------------


def test_a_press_keeps_what_it_sets() -> None:
    press = Press("Use 9", {"a": "9"})
    assert (press, press.sets, press.clears, press.done) == ("Use 9", {"a": "9"}, (), "")
    press = Press("Use 9", {"a": "9"}, clears=["b", "c"], done="Done.")
    assert press.clears == ("b", "c") and press.done == "Done."


def test_a_drawing_without_words_is_still_one() -> None:
    late = Drawing(lambda: "<svg/>", name="side")
    assert late["name"] == "side" and "svg" not in late and late["svg"] == "<svg/>" and dict(late) == {"name": "side", "svg": "<svg/>"}
    with pytest.raises(KeyError):
        late["title"]
    answer = Answer("x")
    answer.drawing("a", "A", "Says", "<svg/>")
    answer.section("one", "One")
    answer.main_drawing("m", "M", "Shows", "<svg/>")
    answer.drawing("b", "B", "Says", "<svg/>")
    assert [dict(one) for one in answer.drawings] == [
        {"name": "a", "title": "A", "description": "Says", "svg": "<svg/>"},
        {"name": "m", "title": "M", "description": "Shows", "stays": "yes", "svg": "<svg/>"},
        {"name": "b", "title": "B", "description": "Says", "svg": "<svg/>", "section": "one"},
    ]


def test_a_section_says_what_is_offered_beside_its_title() -> None:
    answer = Answer("x")
    answer.section("one", "One")
    answer.section("two", "Two", links="Copy a link", takes="Open the list")
    answer.section("three", "Three", "3", "sheet", "Copy", ("a",), "Link", "Take")
    assert answer.sections == [
        {"name": "one", "title": "One"},
        {"name": "two", "title": "Two", "links": "Copy a link", "takes": "Open the list"},
        {"name": "three", "title": "Three", "short": "3", "prints": "sheet", "copies": "Copy", "copied": "a", "links": "Link", "takes": "Take"},
    ]
    for add in (lambda: answer.note("n"), lambda: answer.caution("c"), lambda: answer.table("t", "T", ("A",), [])):
        add()
    assert answer.notes == [{"text": "n", "section": "three"}] and answer.cautions == [{"text": "c", "section": "three"}]
    assert answer.tables == [{"name": "t", "title": "T", "columns": [{"label": "A", "align": "left"}], "rows": [], "section": "three"}]


def test_figures_are_told_in_the_readers_units() -> None:
    """200 g are 7.05 oz and 200 mm 7.87 in."""
    answer = Answer("x", "us")
    answer.mass("m", "M", 200.0)
    answer.length("l", "L", 200.0)
    answer.volume("v", "V", 473.176)
    answer.duration("t", "T", 90.0)
    answer.percent("p", "P", 12.5)
    answer.count("n", "N", 3)
    assert {name: (one["text"], one["unit"], one["value"], one["label"]) for name, one in answer.figures.items()} == {
        "m": ("7 oz", "g", 200.0, "M"), "l": ("7 7/8 in", "mm", 200.0, "L"), "v": ("2 cups", "ml", 473.176, "V"),
        "t": ("1 h 30 min", "min", 90.0, "T"), "p": ("12.5 %", "%", 12.5, "P"), "n": ("3", "", 3, "N"),
    }  # fmt: skip


def test_a_figure_that_is_quiet_leaves_the_next_one_loud() -> None:
    answer = Answer("x")
    with pytest.raises(RuntimeError), answer.quietly():
        answer.count("a", "A", 1)
        raise RuntimeError
    answer.count("b", "B", 1)
    assert answer.figures["a"]["quiet"] is True and "quiet" not in answer.figures["b"]
    answer.figure("c", "C", 1, "", "1", 0.0, 0.0)
    assert (answer.figures["c"]["low"], answer.figures["c"]["high"]) == (0.0, 0.0)
    for low, high in ((1.0, None), (None, 1.0)):
        answer.figure("d", "D", 1, "", "1", low, high)
        assert "low" not in answer.figures["d"] and "high" not in answer.figures["d"]


def test_an_answer_goes_out_as_one_text_without_spaces() -> None:
    answer = Answer("x")
    answer.count("a", "Größe", 1)
    text = answer.to_json()
    assert text.startswith('{"calculator":"x","figures":{"a":{"value":1,"unit":"","text":"1","label":"Größe"}},"problems":[]')
    assert json.loads(text)["sheets"] == [] and ": " not in text


def test_money_is_told_in_the_makers_currency() -> None:
    assert Answer("x", currency="£").say.money(3.0) == "£3.00" and Answer("x").say.money(3.0) == "3.00"


@pytest.mark.parametrize(
    "say, values, words",
    [
        (SAY, (20, 10, 30), "20 g (10 g to 30 g)"),
        (US, (200, 100, 300), "7 oz (3 1/2 oz to 10 1/2 oz)"),
        (US, (20, 5, 30), "20 g (5 g to 30 g)"),  # grams under a quarter of an ounce, so grams for all
        (US, (5, 4, 6), "5 g (4 g to 6 g)"),
    ],
)
def test_a_range_has_one_unit(say: Formatter, values: tuple[float, float, float], words: str) -> None:
    found = ranged(say.mass, *values)
    assert found == words and isinstance(found, Ranged)
    value, _, rest = words.partition(" (")
    assert (found.value, found.range) == (value, f"({rest}")
    assert span(say.mass, *values[1:]) == rest.removesuffix(")")


# --- how a form is worked out --------------------------------------------------------------------------------------------


def worked(work_out: Any, texts: dict[str, str] | None = None, slug: str = "x", **more: Any) -> Answer:
    size = Input("size", "Size", "length", "20 cm", low=10, high=1000)
    masses = Group("rows", "Row", (Input("mass", "Mass", "mass", "1 kg", by_volume=True),))
    whole = Input("whole", "Whole", "mass", "1 kg", by_volume=True)
    return run(Calculator(slug, "X", "X.", (size, whole), work_out, groups=(masses,), **more), texts or {})


def test_masses_that_were_typed_as_volumes_are_told_in_order() -> None:
    """A litre of plain weighs 1.058 kg; of a long text 40 characters are told."""
    typed = {"whole": " 1 l ", "rows.0.mass": "100 g", "rows.1.mass": "2" + " " * 45 + "l"}
    told = [one["text"] for one in worked(lambda asked, answer: answer.note("first"), typed).notes]
    assert told == [
        "first", "1 l of buttercream is taken to weigh 1.06 kg. Weigh yours to be sure.",
        "2" + " " * 39 + " of buttercream is taken to weigh 2.12 kg. Weigh yours to be sure.",
    ]  # fmt: skip
    assert worked(lambda asked, answer: None, typed, "batch").notes == []
    us = worked(lambda asked, answer: None, {"whole": "1 l", "units": "us"})
    assert [one["text"] for one in us.notes] == ["1 l of buttercream is taken to weigh 2 lb 5 1/2 oz. Weigh yours to be sure."]


def test_a_problem_empties_an_answer_and_speaks_the_readers_units() -> None:
    def fill(asked: Asked, answer: Answer) -> None:
        answer.count("a", "A", 1)
        answer.section("one", "One")
        answer.note("n")
        answer.caution("c")
        answer.table("t", "T", ("A",), [])
        answer.drawing("d", "D", "d", "<svg/>")
        answer.sheet("s", "S")
        answer.file("f", "F", "text/plain")
        answer.cure("a.0", "amiss")
        raise Problem("size", "Size is empty. Write it like 30 cm")

    answer = worked(fill)
    assert answer.to_dict() == {
        **{"calculator": "x", "figures": {}, "problems": [{"input": "size", "message": "Size is empty. Write it like 30 cm"}]},
        **{"notes": [], "cautions": [], "tables": [], "drawings": [], "sheets": []},
    }
    (us,) = worked(fill, {"units": " US "}).problems
    assert us["input"] == "size" and us["message"] == "Size is empty. Write it like 12 in"

    def several(asked: Asked, answer: Answer) -> None:
        raise Problems([Problem("size", "One"), Problem("whole", "Two")])

    assert worked(several).problems == [{"input": "size", "message": "One"}, {"input": "whole", "message": "Two"}]
    with pytest.raises(ZeroDivisionError):
        worked(lambda asked, answer: 1 // 0)


def test_an_answer_is_in_the_units_and_the_currency_that_were_typed() -> None:
    told: list[tuple[str, str]] = []
    work_out: Any = lambda asked, answer: told.append((answer.units, answer.say.length(254.0)))  # noqa: E731
    worked(work_out)
    worked(work_out, {"units": "us"})
    assert told == [("metric", "25.4 cm"), ("us", "10 in")]
    asked = Asked({"a": 1})
    asked.units, asked.currency = "us", "£"
    made = sheet_answer("x", asked, lambda asked, answer: answer.note(f"{answer.calculator} {answer.units} {answer.say.money(1)} {asked['a']}"))
    assert made.notes == [{"text": "x us £1.00 1"}]


def test_a_record_is_unfolded_before_anything_is_read() -> None:
    def unfold(texts: Any, answer: Answer) -> Any:
        answer.fields = {"size": "30 cm"}
        return {"size": "30 cm"}

    sizes: list[float] = []
    answer = worked(lambda asked, answer: sizes.append(asked["size"]), {"record": "x"}, unfold=unfold)
    assert sizes == [300.0] and answer.problems == [] and answer.fields == {"size": "30 cm"}


# --- a field -------------------------------------------------------------------------------------------------------------


def read(kind: str, text: str, units: str = "metric", **more: Any) -> Any:
    return Input("x", "X", kind, **more).read(text, "x", units)


def refused(kind: str, text: str, units: str = "metric", **more: Any) -> str:
    with pytest.raises(Problem) as caught:
        read(kind, text, units, **more)
    assert caught.value.input == "x"
    return caught.value.message


def test_what_was_typed_is_shown_by_thirty_characters() -> None:
    """A number of forty digits reads as a length in centimetres, and is shown as far as it can be."""
    typed = "0" * 29 + "5" + "0" * 8
    message = refused("length", typed, usual=(1.0, 10.0), low=0, high=1e40)
    assert f"X: {typed[:30]} is read as {typed[:30]} cm, which is unusually large." in message
    assert "X: 1 1/2 is read as 1 1/2 cm, which is unusually small." in refused("length", "1   1/2", usual=(95, 460), low=0, high=1e6)


@pytest.mark.parametrize(
    "text, units, more, words",
    [
        # within the limits: one may mean it
        ("6", "metric", {}, "X: 6 is read as 6 cm, which is unusually small. Write 6 cm if you mean it, or 6 in"),
        ("80", "metric", {}, "X: 80 is read as 80 cm, which is unusually large. Write 80 cm if you mean it"),
        ("6", "metric", {"usual": (61, 460)}, "X: 6 is read as 6 cm, which is unusually small. Write 6 cm if you mean it, or 6 in"),
        ("6", "metric", {"usual": (160, 460)}, "X: 6 is read as 6 cm, which is unusually small. Write 6 cm if you mean it"),
        ("1.5", "metric", {"usual": (30, 50)}, "X: 1.5 is read as 1.5 cm, which is unusually small. Write 1.5 cm if you mean it, or 1.5 in"),
        ("1", "metric", {}, "X: 1 is read as 1 cm, which is unusually small. Write 1 cm if you mean it"),  # the limits themselves can be meant
        ("100", "metric", {}, "X: 100 is read as 100 cm, which is unusually large. Write 100 cm if you mean it, or 100 mm"),
        # past them: one cannot
        ("150", "metric", {}, "X must be between 1 cm and 100 cm, and 150 is read as 150 cm. Write 150 mm if you mean that"),
        ("20", "us", {"high": 300}, "X must be between 0.4 in and 11 3/4 in, and 20 is read as 20 in. Write 20 cm if you mean that"),
        ("2", "metric", {"low": 30}, "X must be between 3 cm and 100 cm"),
    ],
)
def test_a_bare_number_that_is_improbable_is_asked_about(text: str, units: str, more: dict[str, Any], words: str) -> None:
    """A width of 95 to 460 mm is usual, 10 mm to 1 m is taken. 6 in are 152 mm; 80 in are more than 1 m, 80 mm less than usual; 100 and
    150 mm are usual. 1.5 in are 38 mm."""
    assert refused("length", text, units, **{"low": 10, "high": 1000, "usual": (95, 460), **more}) == words


@pytest.mark.parametrize(
    "text, fits", [("9.5", True), ("9.4", False), ("46", True), ("46.1", False), ("0", True), ("9.4 cm", True), ("46.1 cm", True)]
)
def test_what_is_usual_holds_to_its_ends(text: str, fits: bool) -> None:
    """From 95 to 460 mm; nothing at all is no unusual number where it is allowed; with its unit a number is meant."""
    if fits:
        read("length", text, usual=(95, 460), low=0, high=1000)
    else:
        assert "unusually" in refused("length", text, usual=(95, 460), low=0, high=1000)


def test_nothing_at_all_is_asked_about_where_it_is_not_allowed() -> None:
    assert "X must be 1 mm or more" in refused("length", "0", usual=(95, 460), low=1)
    assert refused("mass", "0", low=1, high=100) == "X must be between 1 g and 100 g"


@pytest.mark.parametrize(
    "kind, default, metric, us",
    [
        ("money", "250", "250", "$250"),
        ("money", "2.50", "2.50", "$2.50"),
        ("money", "5", "5", "$5"),
        ("money", "£2.50", "£2.50", "£2.50"),
        ("money", "", "", ""),
        ("length", "20 cm", "20 cm", "8 in"),
        ("text", "icing sugar", "icing sugar", "powdered sugar"),
        ("choice", "icing sugar", "icing sugar", "icing sugar"),
        ("colour", "cream", "cream", "cream"),
        ("count", "3", "3", "3"),
    ],
)
def test_a_default_is_written_for_the_reader(kind: str, default: str, metric: str, us: str) -> None:
    declared = Input("x", "X", kind, default)
    assert declared.default_in("metric") == metric and declared.default_in("us") == us == in_us_units(declared, default)
    given = Input("x", "X", kind, default, us="9 in")
    assert given.default_in("us") == "9 in" and given.default_in("metric") == default


def test_hours_are_written_as_the_reader_does() -> None:
    hours, note = Input("hours", "Hours", "text", "9:00 to 18:00"), Input("note", "Note", "text", "9:00 to 18:00")
    assert hours.default_in("us") == "9:00 AM to 6:00 PM" and note.default_in("us") == "9:00 to 18:00"
    assert Input("hours", "Hours", "choice", "9:00 to 18:00").default_in("us") == "9:00 to 18:00"


@pytest.mark.parametrize(
    "kind, more, metric, us",
    [
        ("length", {}, "cm", "in"),
        ("length", {"default_unit": "millimeter"}, "mm", "in"),
        ("mass", {}, "g", "oz"),
        ("mass", {"us_unit": "pound"}, "g", "lb"),
        ("mass", {"default_unit": "kilogram"}, "kg", "oz"),
        ("volume", {}, "ml", "cups"),
        ("volume", {"us_unit": "quart"}, "ml", "qt"),
        ("duration", {}, "min", "min"),
        ("duration", {"default_unit": "hour"}, "h", "h"),
        ("lengths", {}, "cm", "in"),
        ("pair", {}, "mm", "in"),
        ("tip", {}, "mm", "mm"),
        ("tips", {}, "mm", "mm"),
        ("text", {}, "", ""),
        ("text", {"measure": "length"}, "cm", "in"),
        ("count", {}, "", ""),
    ],
)
def test_the_unit_beside_a_field(kind: str, more: dict[str, str], metric: str, us: str) -> None:
    declared = Input("x", "X", kind, **more)  # type: ignore[arg-type]
    assert (declared.shown_unit("metric"), declared.shown_unit("us")) == (metric, us)


def test_an_input_asks_for_nothing_special_unless_told() -> None:
    plain, group = Input("x", "X", "text"), Group("g", "G", (Input("x", "X", "text"),))
    assert (plain.default, plain.help, plain.low, plain.high, plain.choices) == ("", "", None, None, ())
    assert not (plain.optional or plain.advanced or plain.counts or plain.by_volume or plain.per_order)
    assert (plain.usual, plain.only_with, plain.brings) == (None, None, ()) and {plain.kitchen, plain.cake, plain.heading, plain.offers} == {""}
    assert (group.groups, group.minimum, group.maximum, group.help, group.title) == ((), 0, 20, "", "")
    assert not (group.folded or group.per_order or group.follows or group.under or group.kitchen)


def test_a_group_may_follow_all_that_it_has_and_nothing_else() -> None:
    one, inner = Input("a", "A", "text"), Group("h", "H", (Input("b", "B", "text"),))
    assert Group("g", "G", (one,), (inner,), follows=("a", "h"), line=("{a}", "{h}")).pieces == ("{a}", "{h}")
    for more in ({"follows": ("b",)}, {"line": ("{b}",)}, {"line": ("{a} {b}",)}):
        with pytest.raises(ValueError, match="does not have"):
            Group("g", "G", (one,), (inner,), **more)  # type: ignore[arg-type]


def test_inputs_alike_in_name_and_kind_are_told_apart_by_the_rest() -> None:
    a, b = Input("x", "X", "text"), Input("x", "Y", "text")
    assert hash(a) == hash(b) and a != b and a == Input("x", "X", "text")


def test_two_lengths_in_one_field_are_read_where_they_can_be() -> None:
    assert read_as("25 x 50", "millimeter") == (25.0, 50.0) and read_as("25 x", "millimeter") is None
    assert Money(2.5, "£").sign == "£" and ByVolume(1000.0).volume_ml == 1000.0 and ByVolume(1000.0) == pytest.approx(1058, abs=1)


@pytest.mark.parametrize(
    "kind, text, more, words",
    [
        ("length", "0.5 mm", {"low": 1}, "X must be 1 mm or more"),
        ("length", "3 m", {"high": 2000}, "X must be 2 m or less"),
        ("mass", "3 kg", {"low": 1, "high": 2000}, "X must be between 1 g and 2 kg"),
        ("volume", "3 l", {"high": 2000}, "X must be 2 l or less"),
        ("duration", "3 h", {"high": 120}, "X must be 2 h or less"),
        ("percent", "101 %", {"low": 0, "high": 100}, "X must be between 0 % and 100 %"),
        ("count", "0", {"low": 1, "high": 5}, "X must be between 1 and 5"),
        ("number", "0.5", {"low": 1}, "X must be 1 or more"),
        ("money", "11", {"high": 10}, "X must be 10 or less"),
        ("pair", "25 x 500 mm", {"low": 10, "high": 200}, "X must be between 1 cm and 20 cm"),
        ("pair", "5 x 50 mm", {"low": 10, "high": 200}, "X must be between 1 cm and 20 cm"),
        ("lengths", "9 cm, 50 cm", {"low": 10, "high": 400}, "X must be between 1 cm and 40 cm"),
    ],
)
def test_limits_are_told_in_the_unit_of_the_field(kind: str, text: str, more: dict[str, float], words: str) -> None:
    assert refused(kind, text, **more) == words


@pytest.mark.parametrize(
    "sizes, units, found",
    [
        (["20", "10 cm"], "metric", [200, 100]),
        (["8", '4"'], "metric", [203.2, 101.6]),
        (["8", "4 in."], "metric", [203.2, 101.6]),
        (["8", "4''"], "metric", [203.2, 101.6]),
        (["20", "10"], "metric", [200, 100]),
        (["8", "4"], "us", [203.2, 101.6]),
        (["80 mm", "10"], "metric", [80, 100]),
    ],
)
def test_sizes_of_one_piece_take_the_unit_of_the_last(sizes: list[str], units: str, found: list[float]) -> None:
    declared = Input("x", "X", "text", measure="length", low=10, high=1000)
    assert declared.read_sizes(sizes, "x", "X", units, ((50, 500), (50, 300))) == pytest.approx(found)


def test_of_several_units_that_may_be_meant_two_are_told() -> None:
    """3 lb are 1361 g, 3 oz 85 g and 3 kg 3000 g; the likeliest two are enough. A width at its most beside a low height is unusually small."""
    assert refused("mass", "3", low=1, high=5000, usual=(50, 4000)).endswith("Write 3 g if you mean it, or 3 lb or 3 oz")
    declared = Input("x", "X", "text", measure="length", low=10, high=1000)
    with pytest.raises(Problem, match="46 x 3 is read as 46 x 3 cm, which is unusually small"):
        declared.read_sizes(["46", "3"], "x", "X", "metric", ((95, 460), (50, 300)))
    with pytest.raises(Problem, match="46 x 31 is read as 46 x 31 cm, which is unusually large"):
        declared.read_sizes(["46", "31"], "x", "X", "metric", ((95, 460), (50, 300)))


def test_sizes_without_a_unit_are_asked_about_together() -> None:
    declared = Input("x", "X", "text", measure="length", low=10, high=1000)
    with pytest.raises(Problem, match="8 x 4 is read as 8 x 4 cm, which is unusually small"):
        declared.read_sizes(["8", "4"], "x", "X", "metric", ((95, 500), (50, 300)))
    declared.read_sizes(["8 cm", "4"], "x", "X", "metric", ((95, 500), (50, 300)))


@pytest.mark.parametrize(
    "text, units, found",
    [
        ("9 cm, 7.5 cm", "metric", (90, 75)),
        ("9, 7.5 cm", "us", (90, 75)),  # the unit of the next
        ("9 cm, 3", "us", (90, 76.2)),  # no next: the field's
        ('3", 9 cm, 4', "metric", (76.2, 90, 40)),
        ("3, 4 in; 9 cm", "metric", (76.2, 101.6, 90)),
        ("3 1/2 in, 4 in", "metric", (88.9, 101.6)),
        ("3, 4 in., 9 cm", "metric", (76.2, 101.6, 90)),
        ("3, 3 1/2 in, 9 cm", "metric", (76.2, 88.9, 90)),
        ("90, 75 mm", "us", (90, 75)),
    ],
)
def test_a_list_of_lengths_takes_the_unit_of_the_next(text: str, units: str, found: tuple[float, ...]) -> None:
    assert read("lengths", text, units, low=10, high=400) == pytest.approx(found)


def test_a_list_is_as_long_as_it_may_be() -> None:
    assert len(read("lengths", ", ".join(["9 cm"] * 20))) == 20
    assert refused("lengths", ", ".join(["9 cm"] * 21)) == "X is a list of up to 20. Write it like 9 cm, 7.5 cm"
    assert refused("lengths", " , ") == "X is a list of up to 20. Write it like 9 cm, 7.5 cm"
    assert len(read("tips", ", ".join(["round 2 mm"] * 40))) == 40
    assert refused("tips", ", ".join(["round 2 mm"] * 41)) == "X is a list of up to 40. Write it like petal 11 mm, round 2 mm"
    assert [str(tip.name) for tip in read("tips", "open star 12 mm, 8 points, round 2 mm")] == ["open star 12 mm", "round 2 mm"]
