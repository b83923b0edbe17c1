"""What a reader with inches, ounces and cups reads: settings that can be set, parts that add up to their whole, small weights in grams."""

from __future__ import annotations

import math
import re

import pytest

import calc
from calc.calculators.declare import Answer, ranged
from calc.units import Formatter, Problem, read_money, read_quantity

ROWS = {
    "tiers.0.width": "8 in",
    "tiers.0.rows.0.kind": "swag",
    "tiers.0.rows.0.colour": "russet",
    "tiers.0.rows.1.kind": "leaf",
    "tiers.0.rows.1.place": "joints",
    "tiers.0.rows.1.colour": "bay",
    "tiers.1.width": "6 in",
    "tiers.1.rows.0.kind": "shell",
    "tiers.1.rows.0.place": "base",
    "tiers.1.rows.0.colour": "cream",
}
MASS = re.compile(r"(\d[\d./ ]*) (lb|oz|kg|g)\b")


def answered(slug: str, **inputs: str) -> Answer:
    answer = calc.compute(slug, {"units": "us", **inputs})
    assert not answer.problems, answer.problems
    return answer


def grams(text: str) -> float:
    """A mass in one or two units, "1 lb 2 oz", as it is read."""
    found = MASS.findall(text.split(" (")[0])
    assert found, text
    return math.fsum(read_quantity(f"{number} {unit}", "mass", "x", "X") for number, unit in found)


def table(answer: Answer, name: str) -> list[list[str]]:
    return [list(map(str, row)) for row in next(t for t in answer.tables if t["name"] == name)["rows"]]


@pytest.mark.parametrize("side, repeats", [("66 cm", 8), ("26 in", 9), ("26 1/4 in", 7), ("1 m", 5), ("50.3 cm", 24)])
def test_the_closing_error_is_that_of_the_inches_told(side: str, repeats: int) -> None:
    """Stepped with a compass, in exact trigonometry, from the setting that the answer tells."""
    figures = answered("division", side=side, repeats=str(repeats)).figures
    chord = read_quantity(figures["dividers"]["text"], "length", "x", "X")
    radius = read_quantity(side, "length", "x", "X") / math.tau
    past = (2 * math.asin(chord / 2 / radius) * repeats - math.tau) * radius
    assert figures["closing_error"]["value"] == pytest.approx(past, abs=1e-6)
    assert "millimetre" not in figures["closing_error"]["label"]


def test_the_orders_closing_error_is_that_of_the_inches_told() -> None:
    figures = answered("order", **{"tiers.0.width": "8 in", "tiers.0.side": "26 in", "tiers.0.repeats": "9"}).figures
    assert figures["closing_error_1"]["value"] == pytest.approx(answered("division", side="26 in", repeats="9").figures["closing_error"]["value"])


@pytest.mark.parametrize("units", ["metric", "us"])
def test_a_closing_error_that_nobody_sees_is_none(units: str) -> None:
    setting = 80.0 if units == "metric" else 3 * 25.4
    side = math.pi * setting / math.sin(math.pi / 8)
    figures = calc.compute("division", {"side": f"{side + 0.05:.6f} mm", "repeats": "8", "units": units}).figures
    assert 0 < abs(figures["closing_error"]["value"]) < 0.1 and figures["closing_error"]["text"] == "none"


def test_colours_add_up_to_the_buttercream_to_make() -> None:
    answer = answered("order", **ROWS)
    whole, colours = grams(answer.figures["buttercream"]["text"]), {f: v for f, v in answer.figures.items() if f.startswith("colour_")}
    assert len(colours) == 5
    assert math.fsum(grams(figure["text"]) for figure in colours.values()) == pytest.approx(whole, abs=1e-3)
    assert math.fsum(grams(row[1]) for row in table(answer, "colours")) == pytest.approx(whole, abs=1e-3)
    for figure in colours.values():
        assert grams(figure["text"]) == pytest.approx(figure["value"], rel=0.0301)
    recipe = next(t for t in answer.tables if t["name"] == "recipe")["title"]
    assert recipe.endswith(answer.figures["buttercream"]["text"].split(" (")[0])


def test_bowls_that_colours_are_taken_from_add_up() -> None:
    for answer in (
        answered("order", **ROWS),
        answered("colours", rows="russet, petal 11 mm, 83 g; cream, petal 9 mm, 310 g; ivory, round 4 mm, 452 g"),
    ):
        split = [re.findall(MASS, text) for _, text in table(answer, "mixing") if "Take off" in text]
        assert split
        for _, text in table(answer, "mixing"):
            if "Take off" in text:
                whole, rest = text.split(" Take off ")
                parts = [grams(part) for part in re.split(r" and | stays |; ", rest) if MASS.search(part)]
                assert math.fsum(parts) == pytest.approx(grams(whole), abs=1e-3), text


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("russet", [41.3, 80.0, 83.4, 217.7, 604.6])
def test_a_colours_line_adds_up_to_what_is_made_of_it(units: str, russet: float) -> None:
    rows = f"russet, petal 11 mm, {russet} g; cream, petal 9 mm, 120.4 g"
    answer = answered("colours", rows=rows, units=units)
    lines = table(answer, "amounts")
    for line in lines:
        assert math.fsum(grams(cell) for cell in line[1:4]) == pytest.approx(grams(line[4]), abs=1e-3), line
    assert math.fsum(grams(line[4]) for line in lines) == pytest.approx(grams(answer.figures["mass"]["text"]), abs=1e-3)


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("width", ["6 in", "8 in", "20 cm", "26 cm"])
def test_a_volume_reads_the_same_in_figure_table_and_total(units: str, width: str) -> None:
    """One tier: what is laid on it, what the table says of it, and the sum over all tiers are one text in both calculators."""
    order = answered("order", units=units, **{"tiers.0.width": width})
    coats = answered("coats", units=units, width=width)
    cells, lines = table(order, "coats")[0], table(coats, "amounts")
    for at, name in enumerate(("filling", "crumb_coat", "final_coat")):
        told = order.figures[name]["text"]
        assert (
            told == order.figures[f"{name}_1"]["text"] == cells[at + 1].split(", ")[0] == coats.figures[name]["text"].split(" (")[0] == lines[at][2]
        )


@pytest.mark.parametrize("mass_g", [0.5, 2.35, 3.0, 5.1, 6.8])
def test_less_than_a_quarter_of_an_ounce_is_told_in_grams(mass_g: float) -> None:
    said = Formatter("us").mass(mass_g)
    assert said.endswith(" g") and grams(said) == pytest.approx(mass_g, rel=0.0301)


def test_a_range_has_one_unit() -> None:
    assert (
        ranged(Formatter("us").mass, 8.0, 5.0, 12.0) == "8 g (5 g to 12 g)"
        and ranged(Formatter("us").mass, 14.2, 7.1, 28.35) == "1/2 oz (1/4 oz to 1 oz)"
    )


def test_openings_to_look_for_have_inches_beside() -> None:
    answer = answered("tips", family="petal", width="1 in", effect="swag")
    assert re.fullmatch(r"[\d.]+ mm \([\d /]+ in\)", answer.figures["opening_needed"]["text"])
    metric = calc.compute("tips", {"family": "petal", "width": "1 in", "effect": "swag"})
    assert "in" not in metric.figures["opening_needed"]["text"]


def test_a_density_is_the_weight_of_a_cup_in_every_calculator() -> None:
    told = answered("order", **ROWS).figures["density"]["text"]
    assert told.endswith(" a cup") and told == answered("batch", recipe="swiss_meringue", mass="1 lb").figures["density"]["text"].split(" (")[0]


@pytest.mark.parametrize("typed, offered", [("3.625", "3.63"), ("15.596", "15.60"), ("1.005", "1.01")])
def test_the_amount_offered_for_three_decimals_is_rounded_as_by_hand(typed: str, offered: str) -> None:
    with pytest.raises(Problem, match=re.escape(f"or {offered}")):
        read_money(typed, "price", "Price")


@pytest.mark.parametrize("units", ["metric", "us"])
def test_the_caution_tells_the_weight_that_the_figure_tells(units: str) -> None:
    """A heavy cake's weight at most is one text in figure and caution, and what one person lifts is a round one."""
    answer = answered(
        "supports", tiers="; ".join(f"{width} x 10 cm" for width in ("40 cm", "35 cm", "30 cm", "25 cm", "20 cm", "15 cm")), units=units
    )
    most = answer.figures["weight"]["text"].split(" to ")[1].rstrip(")")
    assert any(f"may weigh {most}." in caution["text"] for caution in answer.cautions)
    limit = answer.figures["lift_limit"]["text"]
    assert re.fullmatch(r"about \d+(\.\d)? kg" if units == "metric" else r"about \d+ lb( 8 oz)?", limit)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_calculators_begin_with_one_cake_in_either_system(units: str) -> None:
    """What an order begins with is what boards, weights and stacks are worked out from where they do not ask."""
    width, size = ("20 cm", "20 x 10 cm round") if units == "metric" else ("8 in", "8 x 4 in round")
    order = answered("order", units=units, guests="20", **{"tiers.0.width": width}).figures
    under = answered("supports", units=units, tiers=size).figures
    stack = answered("stack", units=units, guests="20", tins=width, tier_count="1").figures
    assert order["board"]["value"] == pytest.approx(under["board"]["value"]) and order["board"]["text"] == under["board"]["text"]
    assert order["weight"]["text"] == under["weight"]["text"] == stack["weight"]["text"]
    assert order["height"]["text"] == under["height"]["text"] == stack["cake_height"]["text"]


@pytest.mark.parametrize(
    "changes, told",
    [
        ({"tiers.1.width": "12 in"}, "Tier is wider than Tier under it (12 in on 8 in)"),
        ({"tiers.1.width": "7.9 in", "tiers.1.shape": "square"}, "a square of 7 7/8 in does not stand wholly on a round of 8 in"),
        ({"tiers.0.disc": "8 in"}, "Disc must be wider than the cake of 8 in; this one is 8 in. Take one about 8 3/8 in wide"),
        ({"tiers.0.disc": "8 3/8 in", "tiers.0.crumb": "1/4 in"}, "Crumb coat of 1/4 in is thicker than the 3/16 in"),
        # with its coats 26 1/4 in round: nine swags of 2.92 in
        ({"tiers.0.height": "15 in", "tiers.0.repeats": "9", "tiers.0.rows.0.drop": "12 in"}, "at most twice the swag's width, 5 13/16 in here"),
        ({"tiers.0.width": "39 in", "tiers.0.height": "15 in", "tiers.1.width": "38 in", "tiers.1.height": "15 in"}, "and 330 lb 11 oz is the most"),
    ],
)
def test_problems_of_a_whole_cake_are_told_in_inches_and_pounds(changes: dict[str, str], told: str) -> None:
    """150 kg are 330 lb 11 oz. An order's own problems went to readers of inches in centimetres."""
    cake = {"tiers.0.width": "8 in", "tiers.0.height": "4 in", "tiers.0.rows.0.kind": "swag", "tiers.0.rows.0.drop": "1 in"}
    (problem,) = calc.compute("order", {"units": "us", "guests": "40", **cake, **changes}).problems
    assert told in problem["message"] and not re.search(r"\d (mm|cm|m|g|kg)\b", problem["message"])
