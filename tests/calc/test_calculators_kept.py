"""What a maker mixes, owns and buys: colours and their bags, the kitchen and its file, packs; each line of their tables, each sentence."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

import calc
from calc.buttercream import batch
from calc.calculators import CALCULATORS, kitchen_form
from calc.calculators.colours_form import unfold as unfold_colours
from calc.calculators.declare import Answer, parse
from calc.calculators.kitchen_answer import _in_sentence, suits
from calc.calculators.kitchen_form import unfold
from calc.calculators.packs import _same_thing, bought_for, buy, recipe_table
from calc.rows import KINDS
from calc.tips import Tip
from calc.units import Problem
from tests.calc.test_calculators_sums import answered, rows, value


def said(slug: str, typed: dict[str, str]) -> list[str]:
    return [one["text"] for one in answered(slug, typed).notes]


def cautions(typed: dict[str, str]) -> list[str]:
    return [one["text"] for one in answered("kitchen", typed).cautions]


def heads(answer: Any, name: str) -> list[str]:
    """The columns of a table; those whose figures stand to the right have an arrow."""
    (found,) = [one["columns"] for one in answer.tables if one["name"] == name]
    return [("> " if column["align"] == "right" else "") + column["label"] for column in found]


def names(answer: Any) -> list[str]:
    return [one["name"] for one in answer.tables]


def problem(slug: str, typed: dict[str, str]) -> tuple[str, str]:
    (found,) = calc.compute(slug, typed).problems
    return found["input"], found["message"]


# --- colours and bags ----------------------------------------------------------------------------------------------------

LINES = "russet, petal 11 mm, 80 g; cream, 500 g; russet, round 2 mm, 30 g; cream, petal 11 mm, 350 g"


def test_colours_make_their_tables() -> None:
    """Russet: 80 and 30 g, 20 g left in each of two bags, a tenth to spare: 161 g. Cream: 850 g, a bag's 20 g and 15 g, 3 % of the 500 g spread with
    a knife, and 85 g: 970 g. 350 g are two fillings of a bag that holds 300 g."""
    found = answered("colours", {"rows": LINES})
    assert rows(found, "amounts") == [["cream", "850 g", "35 g", "85 g", "970 g"], ["russet", "110 g", "40 g", "11 g", "161 g"]]
    assert rows(found, "bags") == [
        ["1", "russet", "petal 11 mm", "80 g", "1"], ["2", "russet", "round 2 mm", "30 g", "1"], ["3", "cream", "petal 11 mm", "350 g", "2"],
    ]  # fmt: skip
    assert rows(found, "coupled") == [["1", "russet", "petal 11 mm, round 2 mm", "110 g", "1"], ["2", "cream", "petal 11 mm", "350 g", "2"]]
    assert rows(found, "mixing")[0] == ["1", "Tint 970 g of plain to cream."]
    assert rows(found, "mixing")[1] == ["2", "Tint 161 g of plain to russet. Mix it the day before and a shade light: it deepens most."]
    assert names(found) == ["amounts", "bags", "coupled", "mixing", "apart"]
    assert heads(found, "amounts") == ["Colour", "> Used", "> Stays in bags and bowls", "> Margin", "> Make"]
    assert heads(found, "bags") == ["> Bag", "Colour", "Tip", "> Holds in all", "> Fills"]
    assert heads(found, "coupled") == ["> Bag", "Colour", "Tips", "> Holds in all", "> Fills"]
    assert heads(found, "mixing") == ["> Step", "What to do"]
    assert heads(found, "apart") == ["Colours", "> Full sight", "> No red receptors", "> No green receptors", "> No blue receptors", "On the cake"]
    told = {name: (one["text"], one["label"]) for name, one in found.figures.items()}
    assert told == {
        "mass_cream": ("970 g", "Make of cream"), "mass_russet": ("161 g", "Make of russet"), "mass": ("1.13 kg", "Make in all"),
        "bags": ("3", "Bags, one for each colour and tip"), "bags_with_couplers": ("2", "Fewest bags, with couplers"),
        "couplers": ("1", "Couplers that takes"), "washes": ("1", "Washes with one of each tip"),
    }  # fmt: skip
    assert [one["text"] for one in found.notes] == [
        "In this order a tip is changed on a coupler 1 time. Try that your tips fit the coupler first.",
        "The petal 11 mm tip is needed in russet and cream: have 2 of them, or wash it in between.",
    ]


@pytest.mark.parametrize(
    "lines, words",
    [
        ("russet, petal 11 mm, 80 g; russet, round 2 mm, 30 g", "1 time."),
        ("russet, petal 11 mm, 80 g; russet, round 2 mm, 30 g; russet, petal 11 mm, 80 g", "2 times."),
    ],
)
def test_changes_of_tips_are_counted(lines: str, words: str) -> None:
    assert f"In this order a tip is changed on a coupler {words} Try that your tips fit the coupler first." in said("colours", {"rows": lines})


def test_nothing_is_said_of_couplers_or_of_a_second_tip_where_there_is_none() -> None:
    found = answered("colours", {"rows": "russet, petal 11 mm, 80 g"})
    assert names(found) == ["amounts", "bags", "mixing"] and found.notes == []


@pytest.mark.parametrize(
    "lines, found",
    [
        ("розовый, 80 g", ["mass_colour_1", "mass"]),
        ("cream, 80 g; розовый, 80 g", ["mass_cream", "mass_colour_2", "mass"]),
        ("gran's, 80 g; gran s, 80 g", ["mass_gran_s", "mass_colour_2", "mass"]),
        ("#a04b2c, 80 g", ["mass_a04b2c", "mass"]),
    ],
)
def test_each_colour_has_a_figure_of_its_own(lines: str, found: list[str]) -> None:
    """Named by its letters, or by its number where it has none or another has the same."""
    assert [name for name in answered("colours", {"rows": lines}).figures if name.startswith("mass")] == found


def apart(lines: str) -> tuple[list[list[str]], list[str]]:
    found = answered("colours", {"rows": lines})
    return rows(found, "apart"), [one["text"] for one in found.notes]


def test_colours_are_compared_two_by_two() -> None:
    """The differences are those of `calc.colours`, whose own tests hold them against published pairs; each stands under its own sight."""
    table, notes = apart("#000000, 10 g; #0a0a0a, 10 g; #202060, 10 g")
    assert table == [
        ["#202060 and #0a0a0a", "24.3", "23", "23", "16.3", "told apart at a glance"],
        ["#202060 and #000000", "24.9", "23.7", "23.6", "17.2", "told apart at a glance"],
        ["#0a0a0a and #000000", "1.6", "1.6", "1.6", "1.6", "taken for the same"],
    ]
    assert notes == ["#0a0a0a and #000000 will look the same on the cake. Make one lighter or darker."]
    close, notes = apart("sage, 80 g; blush, 100 g")
    assert close[0][5] in ("told apart at a glance", "told apart only where they touch") and notes == []
    peach, notes = apart("blush, 80 g; peach, 100 g")
    assert (peach[0][0], peach[0][5]) == ("peach and blush", "told apart at a glance") and notes == [
        "Peach and blush look nearly alike to a guest with no blue receptors (rare). Set them apart by shape or by lightness as well."
    ]


@pytest.mark.parametrize("least, told", [(4.9, True), (5.0, False), (5.1, False)])
def test_colours_five_apart_to_every_guest_are_apart(monkeypatch: pytest.MonkeyPatch, least: float, told: bool) -> None:
    """From 5 two colours are told apart where they touch."""
    from calc.calculators import colours_form

    found = colours_form.difference("#ffb6c1", "#ffdab9")
    values = {name: 30.0 for name in ("normal", "protanopia", "deuteranopia")} | {"tritanopia": least, "least": least}
    made = type(found)(**{**{name: getattr(found, name) for name in found.__dataclass_fields__}, **values})
    monkeypatch.setattr(colours_form, "difference", lambda *_: made)
    (row,), notes = apart("blush, 80 g; peach, 100 g")
    assert row[1:5] == ["30", "30", "30", f"{least:g}"] and any("nearly alike" in one for one in notes) is told


def test_colours_that_nobody_knows_are_named_and_not_compared() -> None:
    found = answered("colours", {"rows": "gran's blue, round 2 mm, 80 g; #a04b2c, 40 g; nanna's, 30 g"})
    assert "apart" not in names(found)
    assert [one["text"] for one in found.notes] == [
        "Gran's blue and nanna's: no value is known for those names, so they are mixed last from plain and not compared. Write them as values, like "
        "#a04b2c, to have them compared."
    ]
    known = answered("colours", {"rows": "gran's blue, 80 g; cream, 40 g; russet, 30 g; sage, 20 g"})
    assert [row[0] for row in rows(known, "apart")] == ["cream and sage", "cream and russet", "sage and russet"]


def test_colours_come_with_two_cautions() -> None:
    labels, glitter = answered("colours", {"rows": "cream, 80 g"}).cautions
    assert labels["text"].startswith("Use colours sold for food, within the amount on their label.")
    assert glitter["text"].startswith("Glitters and dusts marked non-toxic or for decoration only are not food")


@pytest.mark.parametrize(
    "table, flat",
    [
        ("russet, 80 g", {"rows.0.colour": "russet", "rows.0.tip": "", "rows.0.mass": "80 g"}),
        ("russet | petal 11 mm\t80 g", {"rows.0.colour": "russet", "rows.0.tip": "petal 11 mm", "rows.0.mass": "80 g"}),
        (
            "russet, 80 g\n\n; ;cream,, 9 g",
            {
                "rows.0.colour": "russet", "rows.0.tip": "", "rows.0.mass": "80 g",
                "rows.1.colour": "cream", "rows.1.tip": "", "rows.1.mass": "9 g",
            },
        ),
        ("  ", {}),
    ],
)  # fmt: skip
def test_a_table_of_rows_fills_the_form(table: str, flat: dict[str, str]) -> None:
    assert unfold_colours({"margin": "5 %", "rows": table}, Answer("colours")) == {"margin": "5 %", **flat}
    assert unfold_colours({"margin": "5 %"}, Answer("colours")) == {"margin": "5 %"}


@pytest.mark.parametrize("line", ["russet", "russet, petal 11 mm, 80 g, more", "cream, 9 g; russet"])
def test_a_line_of_one_cell_or_of_four_is_no_row(line: str) -> None:
    field, words = problem("colours", {"rows": line})
    wrong = line.split("; ")[-1]
    assert field == "rows" and words == f"Rows: “{wrong}” is not a colour, a tip and a weight. Write it like russet, petal 11 mm, 80 g"
    long = "x" * 41
    assert problem("colours", {"rows": long})[1].startswith(f"Rows: “{'x' * 40}” is not")


def test_every_colour_that_cannot_be_read_is_told_at_its_field() -> None:
    found = calc.compute("colours", {"rows.0.colour": "#12", "rows.1.colour": "cream", "rows.2.colour": "#zz0000"}).problems
    assert [one["input"] for one in found] == ["rows.0.colour", "rows.2.colour"]


# --- kitchen -------------------------------------------------------------------------------------------------------------

EMPTY = "Nothing of yours is kept yet. Add a tip or a cutter, and you will see here what you can do with it."
PETAL = {"tips.0.tip": "petal 11 mm", "tips.0.note": "bent"}
MINE = {
    "recipes.0.name": "Mine", "recipes.0.parts.0.ingredient": "butter", "recipes.0.parts.0.mass": "250 g",
    "recipes.0.parts.1.ingredient": "icing_sugar", "recipes.0.parts.1.mass": "500 g",
}  # fmt: skip


@pytest.mark.parametrize(
    "typed",
    [
        PETAL,
        {"cutters": "9 cm"},
        {"tins": "15 cm"},
        {"boards": "20 cm"},
        {"recipes.0.name": "Mine"},
        {"hand": "learning"},
        {"hand": "quick"},
        {"measured.0.tip": "round 3 mm", "measured.0.kind": "line", "measured.0.mass": "20 g"},
    ],
)
def test_one_thing_of_yours_is_enough(typed: dict[str, str]) -> None:
    assert EMPTY in said("kitchen", {}) and EMPTY in said("kitchen", {"currency": "£", "rate": "20", "stacked": "home"})
    assert EMPTY not in said("kitchen", typed)
    assert cautions({"stacked": "home"}) == [], "nothing of the kitchen is told yet"


def test_tips_say_what_they_pipe() -> None:
    """Six of the sixteen kinds that have a page: what a petal of half to twice 11, or 9, mm makes, and leaves."""
    found = answered("kitchen", PETAL)
    assert rows(found, "tips") == [
        ["petal 11 mm", "swags, ruffled swags, ruched swags, ruched borders, small roses, leaves", "1.1 cm", "bent"]
    ]  # fmt: skip
    assert heads(found, "tips") == ["Tip", "Pipes", "> Width of its line", "Your note"]
    assert found.figures["pipes"]["text"] == "6 of 16" and value(found, "pipes") == 6 and value(found, "tips") == 1
    assert (
        "No tip of yours for strings, shells, reverse shells, beads, ropes, zigzags, rosettes, stars, C scrolls, S scrolls at a usual size. "
        in (said("kitchen", PETAL)[0])
    )
    two = answered("kitchen", PETAL | {"tips.1.tip": "round 60 mm"})
    assert rows(two, "tips")[1][1] == "nothing usual at this size" and value(two, "tips") == 2 and two.figures["pipes"]["text"] == "6 of 16"
    assert "pipes" not in answered("kitchen", {"cutters": "9 cm"}).figures


@pytest.mark.parametrize("opening, fits", [(3.4, False), (3.5, True), (14.0, True), (14.1, False)])
def test_a_shell_begins_with_7_mm_and_takes_half_to_twice_of_it(opening: float, fits: bool) -> None:
    assert suits(KINDS["shell"], Tip("open star", opening)) is fits and not suits(KINDS["shell"], Tip("petal", 7.0))


def test_a_title_inside_a_sentence_keeps_a_letter_that_is_a_name() -> None:
    assert [_in_sentence(one) for one in ("Shells", "C scrolls", "Small roses")] == ["shells", "C scrolls", "small roses"]


def test_cutters_are_told_on_each_tin() -> None:
    """15 cm is 16 coated, 50.3 round: with 7.5 cm seven swags of 7.2; with 9 cm six of 8.4. 20 cm is 66 round: nine of 7.3 and eight of 8.2."""
    found = answered("kitchen", {"tins": "15, 20 cm", "cutters": "7.5 cm, 9 cm"})
    assert rows(found, "cutters") == [
        ["15 cm", "7.5 cm", "7", "7.2 cm", "2.7 cm"], ["15 cm", "9 cm", "6", "8.4 cm", "2.9 cm"],
        ["20 cm", "7.5 cm", "9", "7.3 cm", "3 cm"], ["20 cm", "9 cm", "8", "8.2 cm", "2.7 cm"],
    ]  # fmt: skip
    assert heads(found, "cutters") == ["> Tin", "> Cutter", "> Swags", "> Width", "> Drop"]
    assert "Here a coated tier is taken to be 1 cm wider than its tin. Measure the finished side, and go by the tape." in said(
        "kitchen", {"tins": "15 cm", "cutters": "9 cm"}
    )
    for alone in ({"tins": "15 cm"}, {"cutters": "9 cm"}):
        assert "cutters" not in names(answered("kitchen", alone)) and said("kitchen", alone) == []
    assert int(rows(answered("kitchen", {"tins": "10 cm", "cutters": "20 cm"}), "cutters")[0][2]) >= 3, "two swags are none"


def test_tins_are_read_though_nothing_is_told_of_them() -> None:
    """Else a mistake in them would be kept, and come up in another calculator."""
    assert problem("kitchen", {"tins": "nonsense"})[0] == "tins" and answered("kitchen", {"tins": "15 cm"}).tables == []


def test_six_tins_and_six_cutters_are_told() -> None:
    """More would be a table that nobody reads: six times six lines."""
    tins, cutters = ", ".join(f"{10 + i}" for i in range(7)) + " cm", ", ".join(f"{5 + i}" for i in range(7)) + " cm"
    found = answered("kitchen", {"tins": tins, "cutters": cutters, "boards": "40 cm"})
    assert {row[0] for row in rows(found, "cutters")} == {f"{10 + i} cm" for i in range(6)}
    assert {row[1] for row in rows(found, "cutters")} <= {f"{5 + i} cm" for i in range(6)} and "10 cm" in {row[1] for row in rows(found, "cutters")}
    assert [row[0] for row in rows(found, "boards")] == [f"{10 + i} cm" for i in range(6)]


@pytest.mark.parametrize(
    "typed, row",
    [
        ({"boards": "25 cm, 30 cm"}, ["15 cm", "26 cm", "25 cm"]),  # a coat less than wanted is still wide enough
        ({"boards": "24.9 cm, 30 cm"}, ["15 cm", "26 cm", "30 cm"]),
        ({"boards": "40 cm, 26 cm, 30 cm"}, ["15 cm", "26 cm", "26 cm"]),
        ({"boards": "24 cm"}, ["15 cm", "26 cm", "none so wide"]),
        ({"boards": "24 cm", "border": "4 cm"}, ["15 cm", "24 cm", "24 cm"]),
        ({"boards": "24 cm", "border": "0 cm"}, ["15 cm", "16 cm", "24 cm"]),
    ],
)
def test_a_board_shows_five_centimetres_round_the_tier_or_what_is_typed(typed: dict[str, str], row: list[str]) -> None:
    """16 cm coated, and twice 5 cm."""
    found = answered("kitchen", {"tins": "15 cm", **typed})
    assert rows(found, "boards") == [row] and heads(found, "boards") == ["> Tin", "> Board wanted", "> Yours"]
    assert "boards" not in names(answered("kitchen", {"boards": "24 cm"})) and "boards" not in names(answered("kitchen", {"tins": "15 cm"}))


def strip(**typed: str) -> list[list[str]]:
    return rows(answered("kitchen", {f"measured.0.{name}": text for name, text in typed.items()}), "strips")


@pytest.mark.parametrize(
    "mass, words",
    [("3 g", "less than the estimate"), ("7.7 g", "as the estimate has it"), ("20 g", "more than the estimate"), ("4.9 g", "less than the estimate")],
)
def test_a_line_of_yours_stands_beside_the_estimate(mass: str, words: str) -> None:
    (row,) = strip(kind="line", tip="round 3 mm", length="1 m", mass=mass)
    assert row == ["round 3 mm", "line", f"{mass} a metre", "7.7 g a metre", words]
    (half,) = strip(kind="line", tip="round 3 mm", length="50 cm", mass=mass)
    assert half[3] == "7.7 g a metre" and half[4] == ("more than the estimate" if mass != "3 g" and mass != "4.9 g" else half[4])


@pytest.mark.parametrize(
    "pieces, words",
    [
        ("26", "wider than usual"),  # 11.54 mm; 11.2 and 2 % are 11.42
        ("27", "as usual"),  # 11.11 mm
        ("28", "closer than usual"),  # 10.71 mm; 11.2 less 2 % are 10.98
        ("20", "wider than usual"),
    ],
)
def test_pieces_of_yours_stand_beside_what_is_usual(pieces: str, words: str) -> None:
    """An open star of 7 mm makes a shell every 11.2 mm."""
    (row,) = strip(kind="shell", tip="open star 7 mm", length="30 cm", pieces=pieces)
    pitch = {"26": "1.15 cm", "27": "1.1 cm", "28": "1.1 cm", "20": "1.5 cm"}[pieces]
    assert row == ["open star 7 mm", "shell", f"one in {pitch}", "one in 1.1 cm", words]


def test_a_strip_has_a_weight_or_pieces_and_is_told_by_what_it_has() -> None:
    """A shell is weighed piece by piece, so its weight is not told by the metre. Of a line no pieces are usual, so nothing stands beside them."""
    two = strip(kind="line", tip="round 3 mm", length="1 m", mass="7.7 g", pieces="27")
    assert [row[2:] for row in two] == [["7.7 g a metre", "7.7 g a metre", "as the estimate has it"], ["one in 3.7 cm", "", ""]]
    assert len(strip(kind="shell", tip="open star 7 mm", length="30 cm", mass="21 g", pieces="27")) == 1
    typed = {"measured.0.kind": "shell", "measured.0.tip": "open star 7 mm", "measured.0.length": "30 cm"}
    assert "strips" not in names(answered("kitchen", typed | {"measured.0.mass": "21 g"}))
    assert problem("kitchen", typed) == (
        "measured.0.mass", "It weighed is empty. Write what the strip weighed, like 21 g, or how many pieces it has",
    )  # fmt: skip
    found = answered("kitchen", typed | {"measured.0.pieces": "27"})
    assert heads(found, "strips") == ["Tip", "Piped as", "> Yours", "> Estimate", "That is"]


@pytest.mark.parametrize("hand, words", [("learning", "1.75"), ("practised", ""), ("quick", "0.7")])
def test_a_hand_is_told_by_what_it_takes(hand: str, words: str) -> None:
    told = [one for one in said("kitchen", {"hand": hand, "cutters": "9 cm"}) if "Your hand" in one]
    assert told == ([f"Your hand is {hand}: piping is planned with {words} times what a practised hand takes."] if words else [])


def test_a_recipe_of_yours_is_weighed_out() -> None:
    """250 and 500 g are a third and two thirds of 750 g; of 1.5 kg twice as much. 250 g of butter at 0.935 g/ml are 267 ml, 500 g of sugar at 1.587
    are 315 ml: 750 g in 582 ml are 1.29 g/ml."""
    plain = answered("kitchen", MINE)
    assert [one["title"] for one in plain.tables] == ["Mine, 750 g"] and heads(plain, "recipe_0") == ["Ingredient", "> Weigh", "> Share"]
    assert rows(plain, "recipe_0") == [["butter, unsalted", "250 g", "33.3 %"], ["icing sugar", "500 g", "66.7 %"]]
    double = answered("kitchen", MINE | {"recipes.0.made": "1.5 kg"})
    assert [one["title"] for one in double.tables] == ["Mine, 1.5 kg"]
    assert rows(double, "recipe_0") == [["butter, unsalted", "500 g", "33.3 %"], ["icing sugar", "1 kg", "66.7 %"]]
    both = MINE | {"recipes.1.name": "Salt", "recipes.1.parts.0.ingredient": "salt", "recipes.1.parts.0.mass": "5 g"}
    assert names(answered("kitchen", both)) == ["recipe_0", "recipe_1"]
    assert said("kitchen", MINE) == [
        "Mine: without air it weighs 1.29 g/ml. Whipped it is lighter: weigh a level 100 ml and keep that above. About 3 % stays on bowl and beater."
    ]
    assert said("kitchen", {"recipes.0.name": "Ours"}) == ["Ours has no ingredients yet."]


STANDING = "Standing out. "
EGG = "Mine has egg white: use pasteurised white, or cook white and sugar until a thermometer reads 71 °C (160 °F) all through."
FLOUR = "Flour is a raw food: cook the paste until it bubbles throughout, and do not taste it before."
HOME = "Tiers stacked at home are carried as one."


@pytest.mark.parametrize(
    "part, us, eu, told",
    [
        ("salt", "none of the nine", "none of the fourteen", []),
        ("butter", "milk", "milk", []),
        ("egg_white", "eggs", "eggs", [EGG]),
        ("dried_egg_white", "eggs", "eggs", [EGG]),
        ("flour", "wheat", "cereals containing gluten", [FLOUR]),
    ],
)
def test_a_recipe_of_yours_warns_of_what_is_in_it(part: str, us: str, eu: str, told: list[str]) -> None:
    found = cautions({"recipes.0.name": "Mine", "recipes.0.parts.0.ingredient": part, "recipes.0.parts.0.mass": "50 g"})
    assert found[0].startswith(f"Mine, allergens from the usual ingredients. US label: {us}; EU and UK label: {eu}.")
    assert found[0].endswith(" Colours, flavours and decorations bring their own; packs and local rules decide.")
    assert [one[: len(words)] for one, words in zip(found[1:], told, strict=False)] == told and len(found) == 2 + len(told)
    assert found[-1].startswith(STANDING) and found[-1].endswith(" Nothing here says that a buttercream of yours keeps at room temperature.")


def test_cautions_of_a_kitchen_stand_where_they_belong() -> None:
    assert cautions(PETAL) == [] and [one[: len(HOME)] for one in cautions(PETAL | {"stacked": "home"})] == [HOME]
    assert cautions(PETAL | {"stacked": "venue"}) == []
    sugar = cautions(MINE)[0]
    assert sugar.count("Check the pack: the starch in icing sugar is usually maize or tapioca") == 1
    again = {"recipes.0.parts.2.ingredient": "icing_sugar", "recipes.0.parts.2.mass": "50 g"}
    assert cautions(MINE | again)[0].count("Check the pack") == 1, "once, however often it is in it"
    assert "Check the pack" not in cautions({**MINE, "recipes.0.parts.1.ingredient": "butter"})[0]


@pytest.mark.parametrize("currency, fits", [("£", True), ("kr", True), ("", True), ("1", False), ("£2", False), ("-", False), ("doubloons", False)])
def test_a_currency_is_a_sign_or_letters(currency: str, fits: bool) -> None:
    found = calc.compute("kitchen", {"currency": currency}).problems
    assert [one["input"] for one in found] == ([] if fits else ["currency"])
    for one in found:
        assert one["message"] == "Currency is a sign or letters such as £, €, $ or kr. Write only that"


# --- the kitchen as a text -----------------------------------------------------------------------------------------------


def kept(texts: dict[str, str]) -> tuple[dict[str, str], Answer]:
    answer = Answer("kitchen")
    return dict(unfold(texts, answer)), answer


def test_a_form_becomes_a_text_and_the_text_a_form() -> None:
    typed = {"cutters": "9 cm", "tips.0.tip": "petal 11 mm", "tips.0.note": "bent"}
    flat, answer = kept({**typed, "units": "us"})
    assert flat == {**typed, "units": "us"} and answer.fields == typed
    text = answer.record
    assert text is not None and tomllib.loads(text)["units"] == "us" and list(tomllib.loads(text))[:2] == ["version", "check"]
    assert tomllib.loads(text)["version"] in (1, "1")
    again, read = kept({"kitchen": text})
    assert again == {**typed, "units": "us"} and read.fields == {**typed, "units": "us"} and read.record == text


def test_without_units_the_text_has_the_usual_ones() -> None:
    flat, answer = kept({"cutters": "9 cm"})
    assert flat == {"cutters": "9 cm"} and answer.fields == flat and answer.record is not None
    assert tomllib.loads(answer.record)["units"] == "metric"


def test_what_is_typed_goes_before_what_was_kept() -> None:
    _, first = kept({"cutters": "9 cm", "tins": "15 cm", "units": "us"})
    text = first.record
    assert text is not None
    flat, answer = kept({"kitchen": text, "cutters": "7 cm", "units": "metric"})
    assert flat == {"cutters": "7 cm", "tins": "15 cm", "units": "us"} and answer.fields == flat
    flat, answer = kept({"kitchen": " ", "cutters": "7 cm", "units": "metric"})  # an empty text beside a form is none
    assert flat == {"cutters": "7 cm", "units": "metric"} == answer.fields


@pytest.mark.parametrize(
    "change, words",
    [
        (("version = ", "other = "), "It is not a kitchen that was saved here, or it is damaged. Choose another file"),
        (("version = 1", "version = 0"), "It is not a kitchen that was saved here, or it is damaged. Choose another file"),
        (("version = 1", "version = 2"), "A newer handbook saved it. Load this page again, so that this one is as new, and open it then"),
        (("cutters", "cuttlery"), "It has “cuttlery”, which no kitchen has, so it may be damaged. Choose another copy of it"),
        (("9 cm", "8 cm"), "It is not as it was saved here, so it may be damaged. Choose another copy of it. If you changed it yourself, take out"),
    ],
)
def test_a_text_that_is_not_as_it_was_saved_is_refused(change: tuple[str, str], words: str) -> None:
    text = kept({"cutters": "9 cm"})[1].record
    assert text is not None
    changed = text.replace('version = "1"', "version = 1").replace(*change)
    assert changed != text
    with pytest.raises(Problem) as caught:
        unfold({"kitchen": changed}, Answer("kitchen"))
    assert caught.value.input == "kitchen" and words in caught.value.message
    unchecked = "\n".join(line for line in text.replace("9 cm", "8 cm").splitlines() if not line.startswith("check"))
    assert kept({"kitchen": unchecked})[0]["cutters"] == "8 cm", "without its check it may be changed by hand"


@pytest.mark.parametrize(
    "version, words",
    [
        ('"000000001"', ""),
        ('"0000000001"', "It is not a kitchen that was saved here"),  # nine digits are read
        ('"00000000"', "It is not a kitchen that was saved here"),
        ('"²"', "It is not a kitchen that was saved here"),
        ('"٣"', "It is not a kitchen that was saved here"),
        ('"1.0"', "It is not a kitchen that was saved here"),
        ('"-1"', "It is not a kitchen that was saved here"),
        ('"' + "9" * 5000 + '"', "A newer handbook saved it."),
    ],
)
def test_a_version_is_a_whole_number(version: str, words: str) -> None:
    text = f'version = {version}\ncutters = "9 cm"\n'
    if not words:
        assert kept({"kitchen": text})[0] == {"cutters": "9 cm"}
        return
    with pytest.raises(Problem, match=words):
        unfold({"kitchen": text}, Answer("kitchen"))


def test_a_name_that_no_kitchen_has_is_told_by_forty_of_its_letters() -> None:
    with pytest.raises(Problem, match=f"“{'x' * 40}”, which no kitchen has"):
        unfold({"kitchen": f'version = 1\n{"x" * 41} = "1"\n'}, Answer("kitchen"))


def test_inputs_of_one_maker_are_one_heading() -> None:
    """Of a quotation only what is the same for every order is kept; the first of them has the heading."""
    for prefix, heading in (("maker_", "Your name and address"), ("terms_", "Your terms")):
        found = [one for one in kitchen_form.INPUTS if one.name.startswith(prefix)]
        assert len(found) > 1 and [one.heading for one in found] == [heading] + [""] * (len(found) - 1)
    assert not {f"terms_{name}" for name in ("customer", "number", "date", "delivery")} & {one.name for one in kitchen_form.INPUTS}


# --- packs ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "pack, ingredient, same",
    [
        ("butter", "butter, unsalted", True),
        ("Unsalted butter", "butter, unsalted", True),
        ("butter, salted", "butter, unsalted", False),
        ("but", "butter, unsalted", False),
        ("", "butter, unsalted", False),
        (" , ", "butter, unsalted", False),
        ("icing sugar", "icing sugar", True),
        ("powdered sugar", "icing sugar", True),
        ("Confectioners' sugar", "icing sugar", True),
        ("confectioner's sugar", "icing sugar", True),
        ("sugar", "caster or granulated sugar", True),
    ],
)
def test_a_pack_is_an_ingredient_by_whole_words(pack: str, ingredient: str, same: bool) -> None:
    assert _same_thing(pack, ingredient) is same


def packs(*each: tuple[str, str, str]) -> Any:
    typed = {f"packs.{i}.{name}": text for i, one in enumerate(each) for name, text in zip(("name", "mass", "price"), one, strict=True)}
    return parse(CALCULATORS["lesson"], typed)["packs"]


def test_packs_are_bought_whole_and_what_is_left_is_told() -> None:
    """1 kg of plain takes 320 g of butter, two packs of 250 g at 2.50 with 180 g left, and 640 g of icing sugar, one of 1 kg at 2 with 360 g left."""
    answer = Answer("lesson")
    made = batch("plain", 1000.0)
    bought = buy(answer, made, packs(("butter", "250 g", "2.50"), ("icing sugar", "1 kg", "2"), ("butter", "1 g", "99")))
    (table,) = answer.tables
    assert (table["name"], table["title"]) == ("shopping", "To buy")
    assert heads(answer, "shopping") == ["What", "> Needed", "Packs", "> Left over", "> Costs"]
    assert table["rows"][:3] == [
        ["butter, unsalted", "320 g", "2 of 250 g", "180 g", "5.00"], ["icing sugar", "640 g", "1 of 1 kg", "360 g", "2.00"],
        ["milk, whole", "32 g", "", "", table["rows"][2][4]],
    ]  # fmt: skip
    assert [one["text"] for one in answer.notes] == [
        "No pack price for milk, whole; vanilla extract; fine salt: add it under Pack, or the cost leaves it out."
    ]
    assert bought.cost == pytest.approx(7.0)
    full = packs(*((name, "5 kg", "1") for name in ("butter", "icing sugar", "milk", "vanilla", "salt")))
    answer = Answer("lesson")
    buy(answer, made, full)
    assert answer.notes == []


def test_what_is_in_hand_is_not_bought() -> None:
    """320 g of butter less 100 g are one pack of 250 g."""
    made = batch("plain", 1000.0)
    butter = packs(("butter", "250 g", "2.50"))
    assert [bought_for(made, butter, hand).lines[0].packs for hand in (None, {}, {"butter, unsalted": 100.0})] == [2, 2, 1]


@pytest.mark.parametrize("goes, columns", [(1, ["Ingredient", "> Weigh"]), (2, ["Ingredient", "> Weigh", "> Each of 2 batches"])])
def test_a_recipe_is_weighed_for_each_go(goes: int, columns: list[str]) -> None:
    """1 kg of plain takes 320 g of butter, 160 g in each of two goes."""
    answer = Answer("lesson")
    recipe_table(answer, batch("plain", 1000.0), goes)
    assert heads(answer, "recipe") == columns and answer.tables[0]["title"] == "Plain (butter and icing sugar) buttercream, 1 kg"
    assert rows(answer, "recipe")[0] == ["butter, unsalted", "320 g", *["160 g"] * (goes - 1)]
    assert rows(answer, "recipe")[4] == ["fine salt", "1.3 g", *["0.64 g"] * (goes - 1)]


def test_a_recipe_is_in_the_readers_words() -> None:
    answer = Answer("lesson", "us")
    recipe_table(answer, batch("plain", 1000.0))
    assert answer.tables[0]["title"].startswith("Plain (butter and powdered sugar) buttercream, 2 lb 3 1/2 oz")
    assert rows(answer, "recipe")[1][0] == "powdered sugar"
