"""Two versions compared: which copies belong together when some are put in, taken away or moved, and how a difference is worded.

A small form of bags stands in for the order where the order has too much to say; the texts of the cells are those that a reader sees.
"""

from __future__ import annotations

import json
from itertools import combinations, product
from pathlib import Path

import pytest

from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, Calculator, Group, Input, Ranged, run
from calc.page.versions import _paired, differences, versions_reply

ORDER = CALCULATORS["order"]
SUPPER = (Path(__file__).parents[2] / "docs/plan/harvest-supper.toml").read_text(encoding="utf-8")

FILL = Group("fills", "Fill", (Input("mass", "Mass", "text"), Input("note", "Note", "text", optional=True)), line=("{mass}",))
BAG = Group(
    "bags",
    "Bag",
    (
        Input("colour", "Colour", "text", "ivory"),
        Input("tip", "Tip", "choice", choices=(("p", "Petal (long)"), ("r", "Round"))),
        Input("wide", "Width", "text", optional=True),
        Input("long", "Length", "text", optional=True),
        Input("held", "Held", "text", "upright"),
    ),
    (FILL,),
    line=("{colour}", "{wide} by {long}"),
)
FORM = Calculator(
    "form",
    "Form",
    "",
    (
        Input("title", "Title", "text", "A cake"),
        Input("record", "Record", "long_text", optional=True),
        Input("shape", "Shape", "choice", "round", choices=(("round", "Round"), ("square", "Square"))),
        Input("hint", "Hint", "text", optional=True),
    ),
    lambda asked, answer: None,
    groups=(BAG,),
)
Told = list[tuple[str, str, str, str]]


def compared(one: dict[str, str], other: dict[str, str]) -> Told:
    """What is told to differ in the texts of two forms that have no figures."""
    return list(differences(FORM, [(one, Answer("form")), (other, Answer("form"))]))


def bags(colours: str, **more: str) -> dict[str, str]:
    """A form with a bag for each letter; two underscores stand for a dot."""
    return {f"bags.{i}.colour": colour for i, colour in enumerate(colours)} | {name.replace("__", "."): text for name, text in more.items()}


# ---- copies that are put in, taken away, changed -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other", "told"),
    [
        ("", "", []),
        ("a", "a", []),
        ("abc", "abc", []),
        ("", "a", [("Bag 1", "none", "a", "")]),
        ("a", "", [("Bag 1", "a", "none", "")]),
        ("ab", "abc", [("Bag 3", "none", "c", "")]),  # put in at the end
        ("abc", "ab", [("Bag 3", "c", "none", "")]),
        ("bc", "abc", [("Bag 1", "none", "a", "")]),  # at the beginning
        ("abc", "bc", [("Bag 1", "a", "none", "")]),
        ("ac", "abc", [("Bag 2", "none", "b", "")]),  # in the middle
        ("abc", "ac", [("Bag 2", "b", "none", "")]),
        ("abcd", "ad", [("Bag 2", "b", "none", ""), ("Bag 3", "c", "none", "")]),
        ("ad", "abcd", [("Bag 2", "none", "b", ""), ("Bag 3", "none", "c", "")]),
        ("a", "b", [("Bag 1", "a", "b", "")]),  # one changed into another
        ("abc", "axc", [("Bag 2", "b", "x", "")]),
        ("abc", "xbc", [("Bag 1", "a", "x", "")]),
        ("abc", "abx", [("Bag 3", "c", "x", "")]),
        ("ab", "xy", [("Bag 1", "a", "x", ""), ("Bag 2", "b", "y", "")]),
        ("abc", "x", [("Bag 1", "a", "x", ""), ("Bag 2", "b", "none", ""), ("Bag 3", "c", "none", "")]),
        ("abc", "xyc", [("Bag 1", "a", "x", ""), ("Bag 2", "b", "y", "")]),
        ("abc", "xc", [("Bag 1", "a", "x", ""), ("Bag 2", "b", "none", "")]),
        ("xc", "abc", [("Bag 1", "x", "a", ""), ("Bag 2", "none", "b", "")]),
        ("aab", "ab", [("Bag 2", "a", "none", "")]),  # two that say the same
        ("ab", "aab", [("Bag 2", "none", "a", "")]),
        ("pa", "aa", [("Bag 1", "p", "a", "")]),
        ("aa", "pa", [("Bag 1", "a", "p", "")]),
        ("ap", "aa", [("Bag 2", "p", "a", "")]),
        ("ab", "ba", [("Bag 1", "a", "none", ""), ("Bag 2", "none", "a", "")]),  # one of two that changed places stays
        ("abcde", "bxde", [("Bag 1", "a", "none", ""), ("Bag 2", "c", "x", "")]),
    ],
)
def test_copies_that_say_the_same_belong_together_and_the_others_stand_between_them(one: str, other: str, told: Told) -> None:
    """The number is the copy's in the second version, or in the first where the second has it no more."""
    assert compared(bags(one), bags(other)) == told


def most_in_common(one: str, other: str) -> int:
    """By trying all: the most letters that both words have in the same order."""
    others = {tuple(other[i] for i in places) for length in range(len(other) + 1) for places in combinations(range(len(other)), length)}
    for length in range(len(one), -1, -1):
        if any(tuple(one[i] for i in places) in others for places in combinations(range(len(one)), length)):
            return length
    raise AssertionError("nothing is in common with anything")


WORDS = ["".join(letters) for length in range(5) for letters in product("abc", repeat=length)]


SHAPES = [word for word in WORDS if [*dict.fromkeys(word)] == [*"abc"][: len(set(word))]]  # the others are these with other letters


@pytest.mark.parametrize("one", SHAPES)
def test_of_all_ways_to_pair_the_most_say_the_same(one: str) -> None:
    """Against every word of up to four letters: each copy once and in order, as many alike as can be, and between two that are alike, none of
    one version stands alone beside one of the other that stands alone."""
    for other in WORDS:
        pairs = _paired(one, other)
        assert [a for a, _ in pairs if a is not None] == list(range(len(one))), other
        assert [b for _, b in pairs if b is not None] == list(range(len(other))), other
        alike = [a is not None and b is not None and one[a] == other[b] for a, b in pairs]
        assert sum(alike) == most_in_common(one, other), other
        alone: set[str] = set()
        for (a, b), is_alike in zip(pairs, alike, strict=True):
            alone = set() if is_alike else alone | ({"one"} if b is None else set()) | ({"other"} if a is None else set())
            assert len(alone) < 2, (other, pairs)


# ---- what is said of a copy ------------------------------------------------------------------------------------------------------


def test_fields_outside_the_line_are_told_where_each_stands_in_its_version() -> None:
    """Bag 1 of the first is bag 2 of the second; how it is held is not in its line, so it has a row of its own."""
    one = bags("ab", bags__0__held="low", bags__1__held="level")
    other = bags("xab", bags__0__held="flat", bags__1__held="high", bags__2__held="level")
    assert compared(one, other) == [("Bag 1", "none", "x", ""), ("Bag 2, Held", "low", "high", "")]
    assert compared(other, one) == [("Bag 1", "x", "none", ""), ("Bag 1, Held", "high", "low", "")]


def test_of_a_copy_that_only_one_version_has_nothing_inside_is_told() -> None:
    assert compared({}, bags("a", bags__0__held="low", bags__0__fills__0__mass="9 g")) == [("Bag 1", "none", "a", "")]


def test_after_a_copy_that_one_version_lacks_the_next_are_compared_as_well() -> None:
    assert compared(bags("ab"), bags("b", bags__0__held="low")) == [("Bag 1", "a", "none", ""), ("Bag 1, Held", "upright", "low", "")]


def test_copies_inside_a_copy_are_told_with_the_number_of_both() -> None:
    one = bags("ab", bags__1__fills__0__mass="9 g", bags__1__fills__1__mass="8 g", bags__1__fills__1__note="warm")
    other = bags("xab", bags__2__fills__0__mass="8 g", bags__2__fills__0__note="cold", bags__2__fills__1__mass="7 g")
    assert compared(one, other) == [
        ("Bag 1", "none", "x", ""),
        ("Bag 3, Fill 1", "9 g", "none", ""),
        ("Bag 3, Fill 1, Note", "warm", "cold", ""),
        ("Bag 3, Fill 2", "none", "7 g", ""),
    ]


def test_what_the_lines_tell_is_not_told_again() -> None:
    """Colour, width and length are in the line; the tip is not, and is told by the words of its choice."""
    one = bags("a", bags__0__wide="1", bags__0__long="2", bags__0__tip="p")
    other = bags("b", bags__0__wide="3", bags__0__long="4", bags__0__tip="r")
    assert compared(one, other) == [("Bag 1", "a · 1 by 2", "b · 3 by 4", ""), ("Bag 1, Tip", "Petal (long)", "Round", "")]


def test_what_a_line_cuts_off_or_leaves_out_is_told_by_itself() -> None:
    """A line has the first forty characters of a text, and no piece of which a part is empty."""
    long = "Twelve yards of ivory ribbon with a seam "  # 41 characters
    assert len(long) == 41
    assert compared({"bags.0.colour": f"{long}left"}, {"bags.0.colour": f"{long}right"}) == [("Bag 1, Colour", f"{long}left", f"{long}right", "")]
    assert compared(bags("a", bags__0__wide="1"), bags("a", bags__0__wide="2")) == [("Bag 1, Width", "1", "2", "")]


def test_a_copy_with_nothing_in_its_line_is_there_all_the_same() -> None:
    """A line with no piece would leave the cell empty, beside a "none"."""
    assert compared({}, {"bags.0.colour": ""}) == [("Bag 1", "none", "Bag", "")]
    assert compared({"bags.0.colour": ""}, {"bags.0.colour": "a"}) == [("Bag 1", "Bag", "a", "")]


def test_a_copy_that_is_called_none_is_told_when_it_goes() -> None:
    assert compared({"bags.0.colour": "none"}, {}) == [("Bag 1", "none", "none", "")]


# ---- fields that stand in no group --------------------------------------------------------------------------------------------------


def test_fields_are_told_in_the_order_of_the_form_without_the_record() -> None:
    """The record holds all the others, so that it would be told with every one of them; those after it are told."""
    one = {"title": "Supper", "record": "name = 1", "shape": "round", "hint": "warm"}
    other = {"title": "Lunch", "record": "name = 2", "shape": "square", "hint": ""}
    assert compared(one, other) == [("Title", "Supper", "Lunch", ""), ("Shape", "Round", "Square", ""), ("Hint", "warm", "empty", "")]
    assert compared(other, one)[2] == ("Hint", "empty", "warm", "")


def test_what_was_not_typed_says_its_default_unless_it_may_be_empty() -> None:
    """Emptied by hand a field says nothing, which differs from its default."""
    assert compared({}, {"title": "A cake", "shape": "round", "hint": ""}) == []
    assert compared({}, {"title": "", "hint": "warm"}) == [("Title", "A cake", "empty", ""), ("Hint", "empty", "warm", "")]
    with_default = Calculator("form", "Form", "", (Input("deep", "Depth", "text", "9 cm", optional=True),), FORM.work_out)
    assert list(differences(with_default, [({}, Answer("form")), ({"deep": "9 cm"}, Answer("form"))])) == [("Depth", "empty", "9 cm", "")]


def test_spaces_and_a_choice_typed_by_its_label_are_no_difference() -> None:
    assert compared({"title": " A  cake ", "shape": "Round"}, {"title": "A cake", "shape": "round"}) == []


def test_a_long_text_is_told_whole_so_that_its_end_can_differ() -> None:
    """Up to two hundred characters can be typed into a field; formerly what differed after 160 was not told."""
    one, other = "x" * 199 + "1", "x" * 199 + "2"
    assert compared({"hint": one}, {"hint": other}) == [("Hint", one, other, "")]
    terms = [{"order": SUPPER, "quote.0.terms": text} for text in (one, other)]
    assert list(differences(ORDER, [(texts, run(ORDER, texts)) for texts in terms]))[-1][1:3] == (one, other)


# ---- figures -------------------------------------------------------------------------------------------------------------------------


def answered(**figures: tuple[float, str, str]) -> Answer:
    """An answer with figures: the value, its unit and its text by the name."""
    answer = Answer("form")
    for name, (value, unit, text) in figures.items():
        answer.figure(name, name.replace("_", " ").capitalize(), value, unit, text)
    return answer


def figures(first: Answer, second: Answer) -> Told:
    """What is told of the figures of two answers."""
    return list(differences(FORM, [({}, first), ({}, second)]))


@pytest.mark.parametrize(
    ("name", "one", "other", "off"),
    [
        ("weight", (1200.0, "g", "1.2 kg"), (1450.0, "g", "1.45 kg"), "250 g more"),
        ("weight", (1450.0, "g", "1.45 kg"), (1200.0, "g", "1.2 kg"), "250 g less"),
        ("height", (205.0, "mm", "20.5 cm"), (180.0, "mm", "18 cm"), "2.5 cm less"),
        ("hands", (560.0, "min", "9 h 20 min"), (630.0, "min", "10 h 30 min"), "1 h 10 min more"),
        ("hands", (300.0, "min", "5 h"), (1800.0, "min", "30 h"), "25 h more"),  # work is told in hours, however long
        ("portions", (36.0, "", "36"), (37.0, "", "37"), "1 more"),
        ("repeats_1", (9.0, "", "9"), (8.0, "", "8"), "1 less"),
        ("portions", (1.5, "", "1.5"), (2.0, "", "2"), "0.5 more"),
        ("portions", (2.0, "", "2"), (1.5, "", "1.5"), "0.5 less"),
        ("bags", (2.0, "", "2"), (2.0, "", "two"), ""),  # equal, and only said otherwise
        # Money is subtracted as it is read: 10.01 less 10.00, where the values are only 0.002 apart, and half a cent goes up as on paper.
        ("price", (10.004, "", "10.00"), (10.006, "", "10.01"), "0.01 more"),
        ("price", (10.125, "", "10.13"), (10.0, "", "10.00"), "0.13 less"),
        ("per_portion", (8.0, "", "8.00"), (8.5, "", "8.50"), "0.50 more"),
        ("price", (12.0, "", "12.00"), (10.0, "", "10.00"), "2.00 less"),
        ("start", (1.0, "min", "Fri 9:00"), (2.0, "min", "Fri 10:00"), ""),  # an hour of a day is not so much more than another
    ],
)
def test_a_figure_is_told_with_by_how_much(name: str, one: tuple[float, str, str], other: tuple[float, str, str], off: str) -> None:
    label = name.replace("_", " ").capitalize()
    assert figures(answered(**{name: one}), answered(**{name: other})) == [(label, one[2], other[2], off)]


def test_figures_that_read_alike_are_left_out_and_the_next_are_told() -> None:
    one = answered(portions=(36.2, "", "36"), weight=(1200.0, "g", "1.2 kg"), bags=(5.0, "", "5"))
    other = answered(portions=(36.4, "", "36"), weight=(1200.0, "g", "1.2 kg"), bags=(6.0, "", "6"))
    assert figures(one, other) == [("Bags", "5", "6", "1 more")]


def test_figures_stand_in_one_order_and_others_of_the_answer_are_not_told() -> None:
    """Portions first and repeats last, in whatever order the answers have them; the colours of each version where that one has them."""
    one = answered(
        repeats_1=(9.0, "", "9"), price=(2.0, "", "2.00"), colour_cream=(80.0, "g", "80 g"), slack=(1.0, "min", "1 min"), portions=(1.0, "", "1")
    )
    other = answered(portions=(2.0, "", "2"), slack=(2.0, "min", "2 min"), colour_bay=(7.0, "g", "7 g"), price=(3.0, "", "3.00"))
    assert figures(one, other) == [
        ("Portions", "1", "2", "1 more"),
        ("Colour cream", "80 g", "none", ""),
        ("Colour bay", "none", "7 g", ""),
        ("Price", "2.00", "3.00", "1.00 more"),
        ("Repeats 1", "9", "none", ""),
    ]


def test_a_range_is_left_out_of_what_is_compared() -> None:
    """Two estimates of 19 g are the same figure, whatever their ranges; another figure is told without its own."""
    one = answered(weight=(19.0, "g", Ranged("19 g", "16 g", "24 g")))
    assert figures(one, answered(weight=(19.0, "g", Ranged("19 g", "15 g", "25 g")))) == []
    assert figures(one, answered(weight=(21.0, "g", "21 g"))) == [("Weight", "19 g", "21 g", "2 g more")]
    assert figures(answered(weight=(21.0, "g", "21 g")), one) == [("Weight", "21 g", "19 g", "2 g less")]


@pytest.mark.parametrize(
    ("one", "other", "off"),
    [
        ("", "£", "£2.00 more"),  # a sign that was written in one of them only
        ("£", "", "2.00 more"),
        ("£", "£", "£2.00 more"),
        ("€", "£", ""),  # pounds are not so many euros more
    ],
)
def test_money_is_subtracted_in_one_currency_only(one: str, other: str, off: str) -> None:
    first, second = answered(price=(10.0, "", f"{one}10.00")), answered(price=(12.0, "", f"{other}12.00"))
    first.currency, second.currency = one, other
    assert figures(first, second) == [("Price", f"{one}10.00", f"{other}12.00", off)]


def test_a_sign_put_before_the_same_price_makes_it_nothing_more_or_less() -> None:
    """The rate with a sign puts it before every sum; the difference was told as "£0.00 less"."""
    answers = [run(ORDER, {"order": SUPPER, "rate": rate}) for rate in ("18", "£18")]
    price = next(row for row in differences(ORDER, [({}, answer) for answer in answers]) if row[0] == "Price")
    assert price[2] == f"£{price[1]}" and price[3] == ""


# ---- the reply -----------------------------------------------------------------------------------------------------------------------


def replied(one: dict[str, str], other: dict[str, str]) -> dict[str, str]:
    """The reply to two versions of the small form."""
    versions = [(texts, Answer("form")) for texts in (one, other)]
    reply: dict[str, str] = json.loads(versions_reply(FORM, versions, ("In the form", "Kept")))
    return reply


@pytest.mark.parametrize(
    ("colours", "spoken"),
    [("", "The two are the same."), ("a", "One thing differs."), ("ab", "2 things differ."), ("abc", "3 things differ.")],
)
def test_how_many_things_differ_is_spoken(colours: str, spoken: str) -> None:
    assert replied({}, bags(colours))["spoken"] == spoken


def test_the_table_has_a_column_for_each_version_and_one_for_the_difference() -> None:
    """`data-wide` makes each row a list on a narrow page, where `data-label` heads its cells; an empty cell needs no label. `tabindex` lets keys
    scroll a table that is wider than the page."""
    one, other = answered(portions=(36.0, "", "36"), start=(0.0, "", "Fri")), answered(portions=(40.0, "", "40"), start=(1.0, "", "Thu"))
    html = json.loads(versions_reply(FORM, [({}, one), ({}, other)], ("In the form", "Kept")))["html"]
    assert html == (
        '<div class="pb-table" data-wide tabindex="0" role="group" aria-label="What differs"><table><caption>What differs</caption>'
        '<thead><tr><th scope="col">What differs</th><th scope="col">In the form</th><th scope="col">Kept</th>'
        '<th scope="col">The second has</th></tr></thead><tbody>'
        '<tr><th scope="row">Portions</th><td data-label="In the form">36</td><td data-label="Kept">40</td>'
        '<td data-label="The second has">4 more</td></tr>'
        '<tr><th scope="row">Start</th><td data-label="In the form">Fri</td><td data-label="Kept">Thu</td><td></td></tr>'
        "</tbody></table></div>"
    )


def test_where_nothing_differs_a_sentence_stands_in_place_of_the_table() -> None:
    assert replied(bags("a"), bags("a"))["html"] == "<p>The two orders and their results are the same.</p>"


def test_each_version_shows_the_drawing_that_stays_in_sight_or_none() -> None:
    one, other = Answer("form"), Answer("form")
    one.drawing("side", "Side", "", "<svg>side</svg>")
    one.main_drawing("cake", "Cake", "", "<svg>cake</svg>")
    other.drawing("side", "Side", "", "<svg>side</svg>")
    assert json.loads(versions_reply(FORM, [({}, one), ({}, other)], ("A", "B")))["pictures"] == ["<svg>cake</svg>", ""]


def test_the_reply_is_written_in_plain_characters() -> None:
    """Two drawings come with it, so that it should be no longer than it must."""
    assert "crème" in versions_reply(FORM, [({}, Answer("form")), ({"title": "crème"}, Answer("form"))], ("A", "B"))


@pytest.mark.parametrize(("count", "words"), [(1, "one thing is"), (2, "2 things are"), (3, "3 things are")])
@pytest.mark.parametrize("which", [0, 1])
def test_a_version_with_something_to_put_right_is_named_and_nothing_else_is_told(which: int, count: int, words: str) -> None:
    answers = [Answer("form"), Answer("form")]
    answers[which].problems = [{"input": "title", "message": "Title: say something"}] * count
    reply = json.loads(versions_reply(FORM, [({}, answer) for answer in answers], ("The first", "The second")))
    message = f"{('The first', 'The second')[which]}: {words} to be put right before it can be compared."
    assert reply == {"problems": [{"input": "", "message": message}]}


def test_two_versions_need_two_names() -> None:
    """A name too few would leave a version unchecked for what is to be put right."""
    with pytest.raises(ValueError, match="shorter"):
        versions_reply(FORM, [({}, Answer("form"))] * 2, ("The first",))
