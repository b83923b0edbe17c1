"""What was typed, read as a whole: names, copies, sizes and money of a form; an order kept as a text; and what an order puts into other forms.

Each case has the last that goes and the first that does not. The order is that of test_calculators_order.
"""

from __future__ import annotations

import datetime as dt
import json
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, order_form, order_tiers
from calc.calculators.declare import Asked, Calculator, Group, Input, check_bulk, parse, places_of
from calc.calculators.order_form import _tip_at_hand, order_of, unfold
from calc.calculators.order_schemes import _snap_us, row_texts
from calc.calculators.order_tiers import tiers_file
from calc.rows import KINDS, RowSpec
from calc.tips import Tip
from calc.units import Formatter, Problem, Problems, read_quantity
from tests.calc.test_calculators_order import CAKE, ONE, answered, asked, planned

Texts = dict[str, str]

# --- a small form of its own -------------------------------------------------------------------------------------------

INNER = Group("rows", "Row", (Input("tip", "Tip", "text", "petal"),), maximum=2)
TIERS = Group(
    "tiers",
    "Tier",
    (
        Input("height", "Height", "length", "10 cm", low=20, high=400),
        Input("side", "Side", "length", "66 cm", optional=True),
        Input("cost", "Cost", "money", "", optional=True),
    ),
    groups=(INNER,),
    minimum=2,
    maximum=3,
)
FORM = Calculator(
    "small",
    "Small",
    "A small form.",
    (
        Input("guests", "Guests", "count", "36", low=1, high=100),
        Input("width", "Width", "length", "20 cm", optional=True),
        Input("rate", "Rate", "money", "£18", optional=True),
    ),
    lambda found, answer: None,
    groups=(TIERS,),
)
BOTH = {"tiers.0.height": "12 cm", "tiers.1.height": "11 cm"}


def read(**texts: str) -> Asked:
    return parse(FORM, BOTH | {name.replace("__", "."): text for name, text in texts.items()})


def problems(texts: Texts) -> list[tuple[str, str]]:
    with pytest.raises(Problems) as found:
        parse(FORM, texts)
    return [(one.input, one.message) for one in found.value.problems]


def test_every_field_is_read_where_it_stands() -> None:
    """What is left out on the form itself has its default; in a copy of a group an optional field that is left out is empty."""
    found = read()
    assert (found["guests"], found["width"], found.path, found.units) == (36, 200.0, "", "metric")
    first, second = found["tiers"]
    assert (first["height"], second["height"], first["side"], first["rows"]) == (120.0, 110.0, None, [])
    assert (first.path, second.path, first.named("side"), second.problem("side", "x").input) == (
        "tiers.0.",
        "tiers.1.",
        "tiers.0.side",
        "tiers.1.side",
    )
    assert (read(tiers__0__side="70 cm")["tiers"][0]["side"], read(width="")["width"]) == (700.0, None)
    (row,) = read(tiers__1__rows__5__tip="leaf")["tiers"][1]["rows"]
    assert (row["tip"], row.path, row.units) == ("leaf", "tiers.1.rows.5.", "metric")
    assert [one["tip"] for one in read(tiers__1__rows__5__tip="leaf", tiers__1__rows__2__tip="star")["tiers"][1]["rows"]] == ["star", "leaf"]


def test_the_readers_units_hold_for_every_copy() -> None:
    found = read(units="us", width="8", tiers__0__height="4")
    assert (found.units, found["width"], found["tiers"][0]["height"]) == ("us", pytest.approx(203.2), pytest.approx(101.6))
    assert found["tiers"][0].units == "us" and read(units="")["tiers"][0].units == "metric" and read(units=" US ").units == "us"


def test_units_that_nobody_knows_are_told_and_the_rest_is_read() -> None:
    assert problems(BOTH | {"units": "ells", "guests": "0"}) == [
        ("units", "Units is one of metric, us; “ells” is none of them"),
        ("guests", "Guests must be between 1 and 100"),
    ]


def test_every_problem_is_told_in_the_order_of_the_form() -> None:
    assert [name for name, _ in problems({"tiers.1.height": "1 cm", "tiers.0.height": "2 m", "guests": "101", "width": "x"})] == [
        "guests",
        "width",
        "tiers.0.height",
        "tiers.1.height",
    ]


def test_a_name_that_the_form_does_not_have_is_told_with_those_that_it_has() -> None:
    known = "Small has no input called {}. It has guests, width, rate, tiers.0…"
    long = "x" * 90
    assert problems(BOTH | {"wdith": "1", long: "2"}) == [("wdith", known.format("wdith")), ("x" * 80, known.format("x" * 80))]
    assert problems(BOTH | {"tiers.0.widht": "1"}) == [("tiers.0.widht", known.format("tiers.0.widht"))]


def copies(count: int) -> Texts:
    return {f"tiers.{at}.height": f"{10 + at} cm" for at in range(count)}


def test_a_group_has_so_many_copies() -> None:
    """Two or three tiers; of a fourth it is told where it stands, and once."""
    assert [tier["height"] for tier in parse(FORM, copies(3))["tiers"]] == [100, 110, 120]
    assert problems(copies(5)) == [("tiers.3.height"[:7], "Tier: 5 are too many, 3 is the most. Remove some")]
    assert problems({}) == [("tiers", "Tier: there is none yet. Add at least 2")]
    assert problems(copies(1)) == [("tiers", "Tier: there are 1. Add at least 1")]
    rows = {f"tiers.1.rows.{at}.tip": "leaf" for at in (0, 4, 7, 9)}
    assert problems(BOTH | rows) == [("tiers.1.rows.7", "Row: 4 are too many, 2 is the most. Remove some")]
    assert len(parse(FORM, BOTH | {f"tiers.1.rows.{at}.tip": "leaf" for at in (4, 7)})["tiers"][1]["rows"]) == 2


def test_a_text_that_is_longer_than_a_field_is_told_at_it() -> None:
    """200 letters go; one more does not, and what stands beside it is still read."""
    assert len(read(tiers__0__rows__0__tip="x" * 200)["tiers"][0]["rows"][0]["tip"]) == 200
    ((name, message),) = problems(BOTH | {"tiers.0.rows.0.tip": "x" * 201})
    assert name == "tiers.0.rows.0.tip" and "201" in message
    assert [at for at, _ in problems(BOTH | {"width": "9" * 201, "guests": "0"})] == ["guests", "width"]


def test_numbers_of_copies_are_read_from_the_names() -> None:
    assert places_of({"a.0.b": "", "a.2.b": "", "a.1.c.0.d": "", "e": ""}) == {"a.": [0, 1, 2], "a.1.c.": [0]}
    assert places_of({"a.9999.b": "", "a.10000.b": "", "a.-1.b": "", "a.b": "", "0.a": ""}) == {"a.": [9999]}  # a form begins with a name


# --- more than a form holds --------------------------------------------------------------------------------------------


def test_what_is_too_much_is_said_with_how_much_it_is() -> None:
    with pytest.raises(Problem) as found:
        check_bulk({"ab." * 16 + "c": "x"})
    assert found.value.message == (
        "The input called ab.ab.ab.ab.ab.ab.ab.ab.ab.ab.… has a name of 49 characters in 17 parts; 200 characters in 16 parts is the most. "
        "Open a file or a link that was made here"
    )
    with pytest.raises(Problem) as found:
        check_bulk({f"a{i}": "" for i in range(5001)})
    assert (found.value.input, found.value.message) == ("", "There are 5001 inputs; 5000 is the most. Open a file or a link that was made here")
    with pytest.raises(Problem) as found:
        check_bulk({"a": "xx", "b": "x" * 600_000, "c": "x" * 500_000})
    assert (found.value.input, found.value.message) == ("b", "What was typed has 1100002 characters in all; 1000000 is the most. Shorten it")


# --- sizes and shapes --------------------------------------------------------------------------------------------------


def sized(**texts: str) -> tuple[str, float, float | None]:
    found = parse(CALCULATORS["portions"], texts)
    return found["shape"], round(found["width"], 3), found["length"]


@pytest.mark.parametrize(
    "texts, wanted",
    [
        ({"width": "20"}, ("round", 200, None)),
        ({"width": "20 cm"}, ("round", 200, None)),
        ({"width": "20 cm square"}, ("square", 200, None)),
        ({"width": "20 cm heart"}, ("heart", 200, None)),
        ({"width": "square 20 cm"}, ("square", 200, None)),
        ({"width": "20 cm square", "shape": "square"}, ("square", 200, None)),
        ({"width": "20x30"}, ("rectangle", 200, 300)),
        ({"width": "20*30"}, ("rectangle", 200, 300)),
        ({"width": "20×30"}, ("rectangle", 200, 300)),
        ({"width": "20 by 30 cm"}, ("rectangle", 200, 300)),
        ({"width": "30 x 20 cm"}, ("rectangle", 300, 200)),  # first across, then front to back
        ({"width": "20 x 30 cm oval"}, ("oval", 200, 300)),
        ({"width": "20 x 30 cm", "shape": "oval"}, ("oval", 200, 300)),
        ({"width": "20 x 20 cm", "shape": "square"}, ("square", 200, None)),
        ({"width": "20 x 20 cm"}, ("rectangle", 200, 200)),
        ({"width": "20 x 30 cm", "length": "30 cm"}, ("rectangle", 200, 300)),
        ({"width": "20 x 30 cm", "length": " "}, ("rectangle", 200, 300)),
        ({"width": "5 x 100 cm"}, ("rectangle", 50, 1000)),
        ({"width": "9x13", "units": "us"}, ("rectangle", 228.6, pytest.approx(330.2))),
    ],
)
def test_sizes_written_with_the_width(texts: Texts, wanted: tuple[str, float, float | None]) -> None:
    assert sized(**texts) == wanted


ONE_SIZE = "Width of the tin has two sizes, and Shape says {}, which has one. Choose rectangle or oval there, or write one size, like {}"


@pytest.mark.parametrize(
    "texts, messages",
    [
        ({"width": "20 x 30 cm", "shape": "square"}, [ONE_SIZE.format("square", "20 cm")]),
        ({"width": "20 x 30 cm round"}, [ONE_SIZE.format("round", "20 cm")]),
        ({"width": "20 x 20 cm", "shape": "hexagon"}, [ONE_SIZE.format("hexagon", "20 cm")]),
        ({"width": "8 x 9", "shape": "heart", "units": "us"}, [ONE_SIZE.format("heart", "8 in")]),
        ({"width": "20 x 30 cm", "length": "31 cm"}, ["Width of the tin has two sizes, and Length of the tin is given too. Write one size in each"]),
        (
            {"width": "20 cm oval", "shape": "heart"},
            ["Width of the tin says oval, and Shape says heart. Choose oval there, or take the word away here"],
        ),
        (
            {"width": "20 x 30 cm square", "shape": "oval"},
            ["Width of the tin says square, and Shape says oval. Choose square there, or take the word"],
        ),
        ({"width": "4.9 x 30 cm"}, ["Width of the tin must be between 5 cm and 100 cm"]),
        ({"width": "30 x 100.1 cm"}, ["Width of the tin must be between 5 cm and 100 cm"]),
        ({"width": "1 x 200 cm"}, ["Width of the tin must be between 5 cm and 100 cm"]),  # both are wrong, and it is said once
        ({"width": "20 cm square", "shape": "blob"}, ["Shape is one of round, square"]),
        ({"width": "20 x 30 cm", "shape": "blob"}, ["Shape is one of round, square", "Width of the tin has two sizes, and Shape says None"]),
        ({"width": "20 x 30 cm", "height": "1 cm"}, ["Height must be between 2 cm and 40 cm"]),
    ],
)
def test_sizes_that_do_not_go_with_the_shape(texts: Texts, messages: list[str]) -> None:
    with pytest.raises(Problems) as found:
        parse(CALCULATORS["portions"], texts)
    assert len(found.value.problems) == len(messages)
    for one, message in zip(found.value.problems, messages, strict=True):
        assert message in one.message and one.input == message.split()[0].lower()


def test_a_tier_of_an_order_is_read_alike_each_by_itself() -> None:
    """Its own shape and its own fields, whatever the tier beside it says."""
    texts = {"tiers.0.width": "30 x 40 cm", "tiers.1.width": "20 cm square", "tiers.1.name": "B", "tiers.0.name": "A"}
    first, second = parse(CALCULATORS["order"], texts)["tiers"]
    assert (first["shape"], first["width"], first["length"], second["shape"], second["length"]) == ("rectangle", 300, 400, "square", None)
    with pytest.raises(Problems) as found:
        parse(CALCULATORS["order"], texts | {"tiers.0.length": "30 cm"})
    assert [one.input for one in found.value.problems] == ["tiers.0.width"]


def test_sides_without_a_usual_width_have_an_example_of_two_sizes_too() -> None:
    """In swags the width begins empty."""
    for units, like in (("metric", "20 cm"), ("us", "8 in")):
        with pytest.raises(Problems) as found:
            parse(CALCULATORS["swags"], {"width": "20 x 30 cm", "shape": "square", "units": units})
        assert found.value.problems[0].message.endswith(f" or write one size, like {like}")


# --- money -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "texts, sign",
    [
        ({}, "£"),  # the sign of the default
        ({"rate": "18"}, ""),
        ({"rate": "€20"}, "€"),
        ({"rate": "20", "tiers.1.cost": "€3"}, "€"),
        ({"tiers.1.cost": "€3"}, "€"),  # a default gives way to what was typed
        ({"rate": "£18", "tiers.1.cost": "€3"}, "€"),  # even where the default was typed
        ({"rate": "£20", "tiers.0.cost": "£3"}, "£"),
        ({"rate": "", "tiers.0.cost": "3"}, ""),
    ],
)
def test_the_sign_of_money_is_the_one_that_was_typed(texts: Texts, sign: str) -> None:
    assert parse(FORM, BOTH | texts).currency == sign


def test_two_currencies_are_told_at_the_second() -> None:
    assert problems(BOTH | {"rate": "€20", "tiers.0.cost": "$3", "tiers.1.cost": "€4"}) == [
        ("tiers.0.cost", "One amount is in € and this one in $. Write all of them in one currency")
    ]
    assert problems(BOTH | {"tiers.1.cost": "€3", "tiers.0.cost": "$3"})[0][0] == "tiers.1.cost"  # in the order of the form


# --- an order, from fields and from a text -----------------------------------------------------------------------------

TOML = 'units = "us"\nguests = 24\nname = "Tea"\n[[tiers]]\nwidth = "8 in"\n'


def unfolded(**texts: str) -> tuple[dict[str, str], dict[str, str], str]:
    answer = calc.calculators.declare.Answer("order")
    flat = dict(unfold({name.replace("__", "."): text for name, text in texts.items()}, answer))
    return flat, dict(answer.fields or {}), answer.record or ""


def test_an_order_as_text_fills_the_form_and_fields_win() -> None:
    flat, fields, record = unfolded(order=TOML)
    assert flat == {"guests": "24", "name": "Tea", "tiers.0.width": "8 in", "units": "us"}
    assert fields == {"guests": "24", "name": "Tea", "tiers.0.width": "8 in"}
    assert record.splitlines()[:2] == ['name = "Tea"', 'guests = "24"'] and "units" not in record
    typed, fields, record = unfolded(order=TOML, guests="12", units="metric")
    assert typed == {"guests": "12", "name": "Tea", "tiers.0.width": "8 in", "units": "metric"}
    assert "units" not in fields and "units" not in record and 'guests = "12"' in record


def test_an_empty_text_counts_only_where_nothing_else_was_typed() -> None:
    assert unfolded(order=" ", guests="12")[0] == {"guests": "12"} and unfolded(guests="12", units="us")[0] == {"guests": "12", "units": "us"}
    assert unfolded()[0] == {} and unfolded(units="us")[1] == {}
    for texts in ({"order": ""}, {"order": " ", "units": "us"}):
        with pytest.raises(Problem, match="The order is empty. Start from the example, or load one you saved"):
            unfolded(**texts)


def test_every_problem_of_the_tiers_is_told_at_once() -> None:
    """An oval without its length, another as thin as a board, and a coat in two ways."""
    texts = {
        **{"tiers.0.shape": "oval", "tiers.0.width": "30 cm", "tiers.1.shape": "oval", "tiers.1.width": "9 cm", "tiers.1.length": "91 cm"},
        **{"tiers.2.bands": "russet, blush", "tiers.2.striped": "sage"},
    }
    found = {one["input"]: one["message"] for one in calc.compute("order", texts).problems}
    assert found == {
        "tiers.0.length": "Tin, length is empty, and an oval tin has a width and a length, like 20 cm and 30 cm",
        "tiers.1.length": "Tin, length: an oval is at most ten times as long as it is wide. Make it shorter, or choose a rectangle",
        "tiers.2.striped": "Striped with: a coat is ombre or striped, not both. Empty one of the two",
    }


@pytest.mark.parametrize(
    "shape, width, length, goes",
    [
        ("oval", "9 cm", "90 cm", True),
        ("oval", "90 cm", "9 cm", True),
        ("oval", "90 cm", "8.9 cm", False),
        ("oval", "8.9 cm", "90 cm", False),
        ("rectangle", "9 cm", "91 cm", True),
        ("round", "20 cm", "", True),
        ("heart", "20 cm", "5 cm", True),  # it has one size, and the other is not used
    ],
)
def test_how_long_a_tin_may_be(shape: str, width: str, length: str, goes: bool) -> None:
    texts = {"tiers.0.name": "A", "tiers.0.shape": shape, "tiers.0.width": width, "tiers.0.length": length, "guests": "4", "slice": "5 x 5 cm"}
    found = parse(CALCULATORS["order"], texts)
    if goes:
        assert order_of(found).tiers[0].sponge.width_mm == pytest.approx(10 * float(width.split()[0]))
    else:
        with pytest.raises(Problems):
            order_of(found)


def test_a_measured_tip_is_weighed_or_counted_or_both() -> None:
    """27 shells on 30 cm are 11.1 mm apart."""
    strip = {"measured__0__tip": "open star 7 mm", "measured__0__kind": "shell", "measured__0__length": "30 cm"}
    (weighed,) = order_of(asked(**strip, measured__0__mass="21 g")).measured
    (counted,) = order_of(asked(**strip, measured__0__pieces="27")).measured
    (both,) = order_of(asked(**strip, measured__0__mass="21 g", measured__0__pieces="27")).measured
    assert [(one.mass_g, one.pieces) for one in (weighed, counted, both)] == [(21, None), (None, 27), (21, 27)]
    assert (both.tip, both.kind, both.length_mm) == (Tip("open star", 7), "shell", 300)
    with pytest.raises(Problem) as found:
        order_of(asked(**strip))
    assert found.value.input == "measured.0.mass" and found.value.message == (
        "It weighed is empty. Write what the strip weighed, like 21 g, or how many pieces it has"
    )
    for pieces, goes in (("11", True), ("10", False), ("66", True), ("67", False)):  # 4.48 to 28 mm apart, of 0.4 and 2.5 times 11.2
        if goes:
            assert order_of(asked(**strip, measured__0__pieces=pieces)).measured[0].pieces == int(pieces)
        else:
            with pytest.raises(Problem) as found:
                order_of(asked(**strip, measured__0__pieces=pieces))
            assert found.value.input == "measured.0.pieces"


def test_the_whole_order_as_it_was_typed() -> None:
    made = order_of(asked(name="Tea", guests="20", slice="40 x 50 mm", keep_top="yes", stacked="venue", recipe="plain", weighed=""))
    assert (made.name, made.guests, made.slice_mm, made.keep_top, made.stacked, made.recipe) == ("Tea", 20, (40, 50), True, "venue", "plain")
    assert (made.ready_at, made.density_g_per_ml, made.measured) == (dt.datetime(2027, 10, 16, 18, 0), None, ())
    assert [(tier.name, tier.sponge.kind, tier.height_mm, tier.path) for tier in made.tiers] == [
        ("Lower", "round", 100, "tiers.0."),
        ("Upper", "round", 100, "tiers.1."),
    ]
    pinned = order_of(asked(tiers__0__repeats="7", tiers__0__cutter="9 cm", tiers__0__rows__0__place="under")).tiers[0]
    assert (pinned.repeats, pinned.cutter_mm, pinned.rows[0].place, pinned.rows[0].kind) == (7, 90, "under", "swag")
    assert order_of(asked(units="us")).border_mm == pytest.approx(50.8)


def test_a_tip_at_hand_suits_from_half_to_twice_the_usual_opening() -> None:
    """A swag on 10 cm begins with a petal of 11 mm. The nearest counts, a petal before any other that would do."""
    swag, usual = KINDS["swag"], Tip("petal", 11)
    for opening, taken in ((5.4, 11), (5.5, 5.5), (22, 22), (22.1, 11)):
        assert _tip_at_hand(swag, 100.0, [Tip("petal", opening)]) == Tip("petal", taken)
    assert _tip_at_hand(swag, 100.0, [Tip("petal", 14), Tip("petal", 9)]) == Tip("petal", 9) and _tip_at_hand(swag, 100.0, ()) == usual
    others = [family for family in swag.families if family != "petal"]
    for family in others:
        assert _tip_at_hand(swag, 100.0, [Tip(family, 11), Tip("petal", 20)]) == Tip("petal", 20)
        assert _tip_at_hand(swag, 100.0, [Tip(family, 12)]) == Tip(family, 12)
    assert "basket" not in swag.families and _tip_at_hand(swag, 100.0, [Tip("basket", 11)]) == usual


@pytest.mark.parametrize(
    "text, name, share",
    [
        ("russet 2", "russet", 2.0),
        ("russet: 2", "russet", 2.0),
        ("russet 2.5 %", "russet", 2.5),
        ("russet 2.125", "russet", 2.125),
        ("russet 9999", "russet", 9999.0),
        ("grey 50", "grey", 50.0),
        ("Grey  Blue", "grey blue", 1.0),
    ],
)
def test_a_band_has_a_name_and_a_share(text: str, name: str, share: float) -> None:
    assert order_of(asked(tiers__0__bands=text)).tiers[0].bands == ((name, share),)


@pytest.mark.parametrize("text, told", [("2", "2"), ("russet, blush 0", "blush 0"), ("9 lives", "9 lives"), ("x" * 41, "x" * 40), (" : 3", ": 3")])
def test_what_is_no_band_is_told_as_it_was_typed(text: str, told: str) -> None:
    with pytest.raises(Problems) as found:
        order_of(asked(tiers__0__bands=text))
    assert found.value.problems[0].message == (
        f"Ombre: “{told}” is not a colour with a share of the height. Write up to 24, like russet 2, blush 1, ivory 1"
    )


def test_what_a_kind_of_row_brings_by_hand() -> None:
    """A string begins with a tip of its own for the height, hangs as deep as others of its curve, and keeps its loops among those that hang so."""
    kind = next(one for one in CALCULATORS["order"].groups[0].groups[0].inputs if one.name == "kind")
    found = {(one.choice, one.name): one for one in kind.brings}
    swag, string, shell = (
        {name: found[choice, name] for name in ("place", "tip", "drop", "below", "layers")} for choice in ("swag", "string", "shell")
    )
    assert [one["tip"].text for one in (swag, string, shell)] == ["", "", ""] and [one["drop"].text for one in (swag, string, shell)] == ["", "", ""]
    assert (swag["drop"].alike, shell["drop"].alike) == (string["drop"].alike, "") and swag["drop"].alike
    assert swag["layers"].alike == "arc" != string["layers"].alike and [one["below"].after for one in (swag, string, shell)] == ["place"] * 3


@pytest.mark.parametrize(
    "name, called",
    [
        ("timetable.ics", "calendar_of"),
        ("quotation-link", "quotation_file"),
        ("to-the-shop", "shop_file"),
        ('to-the-shop:{"butter": "1 kg"}', "shop_file"),
        ('tiers for {"calculator": "swags", "units": "metric"}', "tiers_file"),
        ("look {}", "look_file"),
        ("bag-card", "pdf_of"),
        ("job", "pdf_of"),
    ],
)
def test_each_sheet_and_file_is_made_by_its_own_maker(name: str, called: str, monkeypatch: pytest.MonkeyPatch) -> None:
    makers = ("calendar_of", "quotation_file", "shop_file", "tiers_file", "look_file", "pdf_of")
    for maker in makers:
        monkeypatch.setattr(order_form, maker, lambda *told, maker=maker: (maker, told))
    made: Any = order_form.draw_sheet(asked(), name, "Letter")
    assert made[0] == called and ("Letter" in made[1]) == (called == "pdf_of")


def test_sheets_of_an_order_are_offered_in_the_order_of_the_work() -> None:
    found = answered(CAKE | {"name": "Tea for two"})
    assert [(one["name"], one["title"], one.get("group", "")) for one in found.sheets] == [
        ("job", "Print the job", ""),
        ("shopping-list", "Shopping list", "Buy"),
        ("timetable", "Timetable", "Buy"),
        ("baking-card", "Baking and coating card", "Bake"),
        ("bag-card", "Bags, colours and mixing", "Colour and coat"),
        ("marking-strip-lower", "Marking strip, Lower", "Mark"),
        ("marking-strip-prick-lower", "Marking strip to prick through, Lower", "Mark"),
        ("top-template-lower", "Top template, Lower", "Mark"),
        ("stacking-template-lower", "Stacking template, Lower", "Mark"),
        ("marking-strip-upper", "Marking strip, Upper", "Mark"),
        ("marking-strip-prick-upper", "Marking strip to prick through, Upper", "Mark"),
        ("top-template-upper", "Top template, Upper", "Mark"),
        ("cutter-circles", "Cutter circles", "Mark"),
        ("bench-sheet", "Bench sheet", "Pipe"),
        ("tip-chart", "Tip chart", "Pipe"),
        ("tip-gauge", "Tip gauge", "Pipe"),
        ("delivery-card", "Delivery and set-up", "Deliver"),
        ("box-label", "Box and allergen labels", "Deliver"),
        ("hand-out", "For whoever serves the cake", "Serve"),
        ("cutting-guide-lower", "Cutting guide, Lower", "Serve"),
        ("cutting-guide-upper", "Cutting guide, Upper", "Serve"),
        ("quotation", "Quotation", "Customer"),
        ("practice-swag-petal-11-mm", "Practice: swag, petal 11 mm", "Practise before"),
        ("practice-bead-round-4-mm", "Practice: bead, round 4 mm", "Practise before"),
        ("practice-shell-open-star-7-mm", "Practice: shell, open star 7 mm", "Practise before"),
        ("practice-leaf-leaf-6-mm", "Practice: leaf, leaf 6 mm", "Practise before"),
        ("practice-lines-and-curves", "Practice: lines and curves", "Practise before"),
    ]
    bare = [one["name"] for one in answered(ONE).sheets]
    assert "top-template-cake" in bare and not any(name.startswith(("marking", "stacking", "cutter")) for name in bare)


# --- what an order puts into other forms -------------------------------------------------------------------------------


def filled(calculator: str, units: str = "metric", **changes: str) -> dict[str, dict[str, str]]:
    found = tiers_file(planned(**changes), f"tiers for {json.dumps({'calculator': calculator, 'units': units})}", CALCULATORS)
    choices = json.loads(found)
    assert len({one["words"] for one in choices}) == len(choices)
    return {one["words"]: one["sets"] for one in choices}


MIXED = {
    **{"tiers__0__rows__0__drop": "5 cm", "tiers__0__rows__0__layers": "2"},  # deeper than the cutter's own
    **{"tiers__1__rows__0__kind": "string", "tiers__1__rows__0__place": "side", "cutters": ""},
}


def test_swags_are_filled_from_the_row_that_hangs() -> None:
    """Nothing hangs by the cutter where the drop is another; a tier without swags gives its division alone."""
    round_66 = {"shape": "round", "side": "66 cm", "width": "", "length": "", "cutter": "", "joints": "1.2 cm"}
    assert filled("swags", **MIXED) == {
        "Upper": round_66 | {"side": "50.3 cm", "drop": "2.5 cm", "repeats": "8"},
        "Lower: swags, petal 11 mm": round_66 | {"drop": "5 cm", "repeats": "5", "rows": "2", "tip": "petal 11 mm"},
    }
    assert filled("swags")["Lower: swags, petal 11 mm"]["cutter"] == "7.5 cm" and filled("swags")["Lower: swags, petal 11 mm"]["rows"] == "1"


def test_any_row_is_filled_from_each_row_with_its_own_drop_and_layers() -> None:
    found = filled("row", **MIXED)
    assert list(found) == [
        *("Upper: strings, round 1.8 mm", "Upper: leaves, leaf 6 mm", "Lower: swags, petal 11 mm", "Lower: shells, open star 7 mm"),
    ]
    assert {words.split(": ")[1].split(",")[0]: (sets["kind"], sets["layers"], bool(sets["drop"])) for words, sets in found.items()} == {
        **{"strings": ("string", "1", True), "leaves": ("leaf", "1", False), "swags": ("swag", "2", True), "shells": ("shell", "1", False)},
    }
    assert found["Lower: swags, petal 11 mm"]["drop"] == "5 cm" and found["Upper: leaves, leaf 6 mm"]["tip"] == "leaf 6 mm"
    assert {sets["side"] for sets in found.values()} == {"50.3 cm", "66 cm"} and {sets["width"] for sets in found.values()} == {""}
    assert list(filled("strings", **MIXED)) == ["Upper: strings, round 1.8 mm", "Lower"]
    assert filled("shells")["Lower: shells, open star 7 mm"] == {
        **{"side": "66 cm", "width": "", "tip": "open star 7 mm", "repeats": "9", "kind": "shell"},
    }


def test_a_row_brings_how_many_it_has_and_how_far_round_it_goes() -> None:
    """Two rosettes at each of eight joints are 16, round 50.3 cm; a row on the top goes round a shorter line, its pieces as far apart."""
    joints = filled("rosettes", tiers__1__rows__1__kind="rosette")
    assert joints["Upper: rosettes, closed star 5 mm"] == {"count": "16", "side": "50.3 cm", "width": "", "tip": "closed star 5 mm"}
    top = {"tiers__1__rows__1__kind": "rosette", "tiers__1__rows__1__place": "top", "tiers__1__rows__1__per_joint": ""}
    (row,) = [one for one in planned(**top).tiers[1].rows if one.kind == "rosette"]
    found = filled("rosettes", **top)["Upper: rosettes, closed star 5 mm"]
    assert (found["count"], found["side"]) == (str(row.amount.count), Formatter().length(row.run_mm)) and row.run_mm < 0.95 * 502.65
    alone = calc.compute("rosettes", found).figures
    assert alone["count"]["value"] == row.amount.count and alone["spacing"]["value"] == pytest.approx(row.amount.pitch_mm, rel=0.01)


def test_a_row_is_called_what_was_asked_for_and_a_scroll_brings_its_height() -> None:
    """A line over swags follows them, and is worked out as a line; a C keeps its letter."""
    texts = {"tiers__0__rows__1__kind": "line", "tiers__0__rows__1__place": "over", "tiers__1__rows__0__kind": "C scroll"}
    texts |= {"tiers__1__rows__0__place": "side", "tiers__1__rows__0__drop": "4 cm"}
    found = filled("row", **texts)
    assert list(found) == ["Upper: C scrolls, open star 4.5 mm", "Upper: leaves, leaf 6 mm", "Lower: swags, petal 11 mm", "Lower: lines, round 3 mm"]
    assert (found["Upper: C scrolls, open star 4.5 mm"]["kind"], found["Upper: C scrolls, open star 4.5 mm"]["drop"]) == ("C scroll", "4 cm")
    assert found["Lower: lines, round 3 mm"]["kind"] == "line"


def test_sizes_are_filled_as_the_tin_or_the_finished_side() -> None:
    """An oval has two of each; under a disc no final coat is typed. Where there is neither, the coat is left alone."""
    oval = {"tiers__0__shape": "oval", "tiers__0__length": "30 cm", "tiers__0__height": "12 cm", "tiers__0__layers": "4"}
    assert filled("portions", **oval)["Lower"] == {"shape": "oval", "width": "20 cm", "length": "30 cm", "height": "12 cm"}
    assert {name: filled("division", **oval)["Lower"][name] for name in ("shape", "width", "length")} == {
        **{"shape": "oval", "width": "21 cm", "length": "31 cm"},
    }
    assert filled("coats", **oval)["Lower"] == {
        **{"shape": "oval", "width": "20 cm", "length": "30 cm", "height": "12 cm", "layers": "4", "filling": "6 mm", "crumb_coat": "2 mm"},
        **{"final_coat": "3 mm", "disc": ""},
    }
    thin = filled("coats", tiers__0__final="0 mm", tiers__0__crumb="1 mm", tiers__0__filling="8 mm")["Lower"]
    assert (thin["final_coat"], thin["crumb_coat"], thin["filling"]) == ("0 mm", "1 mm", "8 mm")
    assert filled("coats", tiers__0__disc="21 cm")["Lower"]["final_coat"] == ""
    taped = filled("division", tiers__0__shape="oval", tiers__0__length="30 cm", tiers__0__side="90 cm")["Lower"]
    assert taped["side"] == "90 cm" and taped["width"] > "21 cm"  # as long as the tape says, so a little larger


def test_the_whole_of_an_order_fills_what_asks_for_that() -> None:
    assert filled("stack", guests="50", recipe="plain") == {"All of it": {"guests": "50", "recipe": "plain"}}
    assert filled("timetable", ready_at="2027-05-06 09:05") == {
        "All of it": {"ready_at": "2027-05-06 09:05", "tiers": "20 cm x 10 cm round; 15 cm x 10 cm round"}
    }
    assert filled("supports", stacked="venue")["All of it"] == {
        **{"tiers": "20 cm x 10 cm round; 15 cm x 10 cm round", "border": "5 cm", "recipe": "swiss_meringue", "stacked": "venue"},
    }


def test_a_kitchen_of_rows_fills_sixty_choices(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(order_tiers, "_choices", lambda *told: ({"words": str(i), "sets": {}} for i in range(61)))
    made = json.loads(tiers_file(planned(), 'tiers for {"calculator": "swags", "units": "metric"}', CALCULATORS))
    assert [one["words"] for one in made] == [str(i) for i in range(60)]


# --- looks -------------------------------------------------------------------------------------------------------------


def test_a_row_of_a_look_as_texts() -> None:
    rows = (
        RowSpec("string", Tip("round", 2), place="side", colour="bay", second="sage", drop_mm=30.0, below_mm=0.0, layers=2, per_joint=1),
        RowSpec("leaf", Tip("leaf", 6), place="joints", colour="cream", layers=1, per_joint=3),
    )
    assert row_texts(rows, Formatter()) == [
        {
            **{"kind": "string", "place": "side", "tip": "round 2 mm", "colour": "bay", "second": "sage", "drop": "3 cm", "below": "0 mm"},
            **{"layers": "2", "per_joint": ""},
        },
        {
            **{"kind": "leaf", "place": "joints", "tip": "leaf 6 mm", "colour": "cream", "second": "", "drop": "", "below": ""},
            **{"layers": "", "per_joint": "3"},
        },
    ]
    assert [round(_snap_us(mm) / 25.4, 3) for mm in (25.4, 26.9, 27.1, 3.0)] == [1.0, 1.0, 1.125, 0.125]


def look(wish: dict[str, Any], **changes: str) -> Any:
    texts = CAKE | {name.replace("__", "."): text for name, text in changes.items()}
    return json.loads(calc.sheet("order", texts, f"look {json.dumps(wish)}"))


OWN = {
    **{"tiers.0.name": "A", "tiers.0.width": "20 cm", "tiers.0.rows.0.kind": "swag", "tiers.0.rows.0.tip": "petal 11 mm"},
    **{"tiers.0.rows.0.colour": "cream", "tiers.0.rows.1.kind": "shell", "tiers.0.rows.1.place": "base", "tiers.0.rows.1.colour": "cream"},
}


def test_a_look_of_ones_own_is_fitted_to_the_tiers() -> None:
    made = look({"own": OWN, "name": "Gran's"})
    sets = made["sets"]
    assert made["name"] == "Gran's" and made["clears"] == ["tiers.0.rows", "tiers.1.rows"] and made["picture"].startswith("<svg")
    assert ">Gran&#39;s, on these tiers</title>" in made["picture"]
    assert made["told"] == [
        "Lower: 9 swags of 7.3 cm, with the 7.5 cm cutter, drop 3 cm.",
        "Upper: 7 swags of 7.2 cm, with the 7.5 cm cutter, drop 2.7 cm.",
    ]
    for tier in (0, 1):
        assert [sets[f"tiers.{tier}.rows.{at}.kind"] for at in (0, 1)] == ["swag", "shell"]
        assert [sets[f"tiers.{tier}.rows.{at}.place"] for at in (0, 1)] == ["side", "base"]
        assert [sets[f"tiers.{tier}.{name}"] for name in ("repeats", "cutter", "joints_below")] == ["", "", ""]


@pytest.mark.parametrize("units, step", [("metric", 1.0), ("us", 25.4 / 8)])
def test_drops_of_a_look_are_whole_millimetres_or_eighths_of_an_inch(units: str, step: float) -> None:
    """What hung 3.3 cm on a tier of 10 cm hangs otherwise on one of 12.7."""
    own = OWN | {"tiers.0.rows.0.drop": "33.3 mm"}
    sets = look({"own": own, "name": "x"}, units=units, tiers__0__height="12.7 cm")["sets"]
    drops = [read_quantity(text, "length", "x", "X") for name, text in sets.items() if name.endswith(".drop") and text]
    assert len(drops) == 2 and len(set(drops)) == 2
    assert all(abs(drop / step - round(drop / step)) < 1e-6 for drop in drops)


def test_what_is_sent_to_the_page_keeps_its_letters() -> None:
    """Names in other languages are read as they are."""
    made = calc.sheet("order", CAKE, f"look {json.dumps({'own': OWN, 'name': 'Fête'})}")
    assert "Fête".encode() in made
    tiers = tiers_file(planned(tiers__0__name="Étage"), 'tiers for {"calculator": "coats", "units": "metric"}', CALCULATORS)
    assert "Étage".encode() in tiers


def test_colours_of_ones_own_come_into_a_look_after_those_that_were_asked_for() -> None:
    """What a tier is coated in is no colour to pipe with; names count in small letters."""
    given = {"colours__0__name": "Moss", "colours__0__look": "#123456", "colours__1__name": "Ivory", "colours__1__look": "#fffff0"}
    plain, own = look({"own": OWN, "name": "x"}), look({"own": OWN, "name": "x"}, **given)
    piped = {name: text for name, text in own["sets"].items() if name.endswith(".colour")}
    assert set(piped.values()) == {"moss"} and "moss" not in set(plain["sets"].values())
    asked_for = look({"own": OWN, "name": "x", "colours": ["Sage"]}, **given)
    assert {text for name, text in asked_for["sets"].items() if name.endswith(".colour")} == {"sage"}
