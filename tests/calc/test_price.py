"""Shopping in whole packs, and a price whose lines add up."""

from __future__ import annotations

import io
import math
from decimal import ROUND_HALF_UP, Decimal

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

import calc
from calc.calculators.declare import Answer, run
from calc.calculators.price_form import CALCULATOR
from calc.price import Item, Quoted, price, price_from_margin, price_from_markup, quoted, shopping, whole_packs
from calc.units import Formatter, hundredths

BUTTER = Item("butter", 900, 250, 2.40)
SUGAR = Item("icing sugar", 1800, 500, 1.10)

money = st.floats(0, 1e5).map(lambda x: round(x, 2))
masses = st.just(0.0) | st.floats(1e-3, 1e5)


def texts(answer: Answer) -> dict[str, str]:
    return {name: figure["text"] for name, figure in answer.figures.items()}


# --- shopping ---------------------------------------------------------------------------------------------------------


def test_packs_are_rounded_up_and_what_is_left_is_said() -> None:
    """900 g in packs of 250 g are 4 packs (9.60) with 100 g over; what is used is worth 900/250 x 2.40 = 8.64."""
    line = shopping([BUTTER]).lines[0]
    assert (line.packs, line.bought_g, line.left_g) == (4, 1000, 100)
    assert line.cost == pytest.approx(9.60) and line.used_cost == pytest.approx(8.64)


def test_a_list_adds_up() -> None:
    found = shopping([BUTTER, SUGAR, Item("salt", 5)])
    assert found.cost == pytest.approx(9.60 + 4 * 1.10)
    assert found.used_cost == pytest.approx(8.64 + 1800 / 500 * 1.10)
    assert found.unpriced == ("salt",)


def test_what_is_in_the_cupboard_is_not_bought() -> None:
    line = shopping([Item("butter", 900, 250, 2.40, in_hand_g=300)]).lines[0]
    assert (line.buy_g, line.packs, line.left_g) == (600, 3, 150)
    assert line.cost == pytest.approx(7.20) and line.used_cost == pytest.approx(8.64), "what is used has its price"
    full = shopping([Item("butter", 900, 250, 2.40, in_hand_g=2000)]).lines[0]
    assert (full.packs, full.cost, full.left_g) == (0, 0.0, 1100)


def test_spare_is_bought_too() -> None:
    assert shopping([BUTTER], spare_percent=15).lines[0].packs == 5  # 1035 g


def test_a_pack_with_a_size_and_no_price_is_counted() -> None:
    line = shopping([Item("butter", 900, 250)]).lines[0]
    assert line.packs == 4 and line.cost is None


def test_ten_packs_of_a_tenth_are_ten() -> None:
    """0.1 + 0.1 + ... is not 1 in binary: no eleventh pack is bought for the last digit."""
    assert whole_packs(sum([0.1] * 10), 0.1) == 10
    assert whole_packs(0.3, 0.1) == 3


@given(masses, st.floats(1, 1e4))
def test_whole_packs_hold_what_is_needed_and_no_pack_more(need: float, pack: float) -> None:
    packs = whole_packs(need, pack)
    assert packs * pack >= need * (1 - 2e-9)
    assert packs == 0 or (packs - 1) * pack < need


@given(masses, st.floats(1, 1e4), money, st.floats(0, 100))
def test_packs_never_cost_less_than_what_is_used(need: float, pack: float, cost: float, spare: float) -> None:
    found = shopping([Item("x", need, pack, cost)], spare)
    assert found.cost >= found.used_cost * (1 - 1e-8)
    assert found.cost - found.used_cost <= cost * (1 + 1e-8) + 1e-6


@pytest.mark.parametrize("item", [Item("x", -1), Item("x", 1, 0, 1), Item("x", 1, 1, -1), Item("x", 1, in_hand_g=-1)])
def test_less_than_nothing_cannot_be_bought(item: Item) -> None:
    with pytest.raises(ValueError):
        shopping([item])


# --- price ------------------------------------------------------------------------------------------------------------


def test_a_price_step_by_step() -> None:
    """Worked by hand: 40 + 6 h at 15 = 130; 10 % overhead 13; cost 143; 25 % of the price: 143 / 0.75 = 190.67; tax 20 %."""
    asked = price(40, 360, 15, 10, 25, tax_percent=20, deposit_percent=50, portions=36)
    assert asked.labour == 90
    assert asked.overhead == 13
    assert asked.cost == 143
    assert asked.price == 190.67
    assert asked.profit == 47.67
    assert asked.tax == 38.13
    assert asked.to_pay == 228.80
    assert asked.deposit == 114.40 and asked.balance == 114.40
    assert asked.per_portion == pytest.approx(228.80 / 36)
    assert asked.cost_per_portion == pytest.approx(143 / 36)
    assert asked.earned_per_hour == pytest.approx((90 + 47.67) / 6)


def test_what_is_not_asked_for_adds_nothing() -> None:
    """Ingredients of 40 and one hour at 10 are 50, for one portion: no overhead, profit, tax or deposit, and no rounding up."""
    asked = price(40, 60, 10)
    assert (asked.overhead, asked.profit, asked.tax, asked.deposit, asked.packaging, asked.delivery) == (0, 0, 0, 0, 0, 0)
    assert asked.cost == asked.price == asked.to_pay == asked.balance == asked.per_portion == asked.cost_per_portion == 50
    assert asked.earned_per_hour == 10


@pytest.mark.parametrize("cost, written", [(3.625, 3.63), (1.005, 1.01), (2.675, 2.68), (0.125, 0.13), (8.994999, 8.99)])
def test_half_a_cent_is_rounded_up(cost: float, written: float) -> None:
    """As money is rounded by hand; the numbers are the decimal ones, whatever their binary neighbours."""
    assert price(cost, 0, 0).cost == written
    assert Formatter().money(cost) == f"{written:.2f}"


@given(st.integers(0, 10**9))
def test_rounding_money_agrees_with_decimal(thousandths: int) -> None:
    """Oracle: decimal, with halves up."""
    wanted = (Decimal(thousandths) / 1000).quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert Decimal(repr(hundredths(thousandths / 1000))) == wanted
    assert hundredths(-thousandths / 1000) == -float(wanted)


def test_long_work_is_told_in_hours() -> None:
    answer = run(CALCULATOR, {"hours": "29 h 5 min", "rate": "18"})
    assert answer.figures["hours"]["text"] == "29 h 5 min"
    assert any("Labour, 29 h 5 min" in cell for table in answer.tables for row in table["rows"] for cell in row)
    assert [Formatter().working_time(m) for m in (0, 0.5, 59, 60, 61, 1440, 1441)] == [
        "0 min",
        "30 s",
        "59 min",
        "1 h",
        "1 h 1 min",
        "24 h",
        "24 h 1 min",
    ]


def test_margin_and_markup_are_two_things() -> None:
    """25 % of the price is 33.3 % of the cost; 25 % on the cost is 20 % of the price."""
    assert price_from_margin(120, 25) == 160 and price_from_markup(120, 25) == 150
    on_price, on_cost = price(120, 0, 0, 0, 25), price(120, 0, 0, 0, 25, on_cost=True)
    assert (on_price.price, on_cost.price) == (160, 150)
    assert on_price.markup_percent == pytest.approx(100 / 3) and on_cost.margin_percent == pytest.approx(20)


@given(st.floats(0.01, 1e6), st.floats(0, 94))
def test_margin_and_markup_turn_into_each_other(cost: float, margin: float) -> None:
    markup = 100 * margin / (100 - margin)
    assert price_from_margin(cost, margin) == pytest.approx(price_from_markup(cost, markup), rel=1e-9)


@given(
    money,
    st.floats(0, 6000),
    money,
    st.floats(0, 200),
    st.floats(0, 90),
    money,
    money,
    st.booleans(),
    st.floats(0, 30),
    st.floats(0, 100),
    st.integers(1, 500),
    st.sampled_from([0.0, 0.5, 1.0, 5.0]),
)
def test_the_lines_add_up(ingredients: float, minutes: float, rate: float, overhead: float, margin: float, packaging: float,
                          delivery: float, on_cost: bool, tax: float, deposit: float, portions: int, step: float) -> None:  # fmt: skip
    found = price(ingredients, minutes, rate, overhead, margin, packaging, delivery, on_cost, tax, deposit, portions, step)
    parts = (found.ingredients, found.packaging, found.labour, found.overhead, found.delivery)
    close = dict(abs=0.005 + 1e-9 * found.to_pay)
    assert math.fsum(parts) == pytest.approx(found.cost, **close)
    assert found.cost + found.profit == pytest.approx(found.price, **close)
    assert found.price + found.tax == pytest.approx(found.to_pay, **close)
    assert found.deposit + found.balance == pytest.approx(found.to_pay, **close)
    assert found.profit >= -0.01, "what is rounded up never eats the profit"
    if step:
        assert found.to_pay / step == pytest.approx(round(found.to_pay / step), abs=1e-6)


@given(st.floats(0, 90), st.floats(0, 90))
def test_more_margin_is_a_higher_price(first: float, second: float) -> None:
    low, high = sorted((first, second))
    assert price(100, 60, 10, 0, low).price <= price(100, 60, 10, 0, high).price


@pytest.mark.parametrize("over", [{"margin_percent": 100}, {"ingredients": -1}, {"deposit_percent": 101}, {"portions": 0},
                                  {"tax_percent": -1}, {"hours_min": float("nan")}])  # fmt: skip
def test_a_price_that_is_none(over: dict[str, float]) -> None:
    with pytest.raises(ValueError):
        price(**({"ingredients": 1.0, "hours_min": 60.0, "rate_per_hour": 10.0} | over))  # type: ignore[arg-type]


def test_no_hours_earn_nothing_an_hour() -> None:
    assert price(10, 0, 15).earned_per_hour is None


# --- the calculator ---------------------------------------------------------------------------------------------------


def test_plain_amounts() -> None:
    answer = run(CALCULATOR, {"ingredients": "40", "hours": "6", "rate": "15", "overhead": "10", "margin": "25", "packaging": ""})
    assert not answer.problems
    assert texts(answer) | {"cost": "143.00", "price": "190.67", "per_portion": "5.30"} == texts(answer)


def test_hours_as_people_type_them() -> None:
    for typed in ("6", "6 h", "360 min", "5 h 60 min"):
        assert run(CALCULATOR, {"hours": typed}).figures["hours"]["value"] == 360


def test_a_currency_sign_is_let_pass() -> None:
    assert run(CALCULATOR, {"ingredients": "£40"}).figures["ingredients"]["value"] == 40


def test_a_list_comes_on_top_and_names_what_has_no_price() -> None:
    inputs = {"ingredients": "0", "items.0.name": "butter", "items.0.mass": "900 g", "items.0.pack": "250 g",
              "items.0.pack_price": "2.40", "items.1.name": "salt", "items.1.mass": "5 g"}  # fmt: skip
    answer = run(CALCULATOR, inputs)
    assert answer.figures["ingredients"]["text"] == "9.60"
    assert next(t for t in answer.tables if t["name"] == "shopping")["rows"][0] == ["butter", "900 g", "4", "250 g", "9.60", "100 g"]
    assert any("No pack price for salt" in n["text"] for n in answer.notes)
    assert run(CALCULATOR, inputs | {"count": "used"}).figures["ingredients"]["text"] == "8.64"


def test_hours_by_task_come_on_top() -> None:
    answer = run(CALCULATOR, {"hours": "2", "tasks.0.name": "piping", "tasks.0.time": "3 h", "tasks.1.name": "coat", "tasks.1.time": "30 min"})
    assert answer.figures["hours"]["value"] == 330
    assert len(next(t for t in answer.tables if t["name"] == "hours")["rows"]) == 2


@pytest.mark.parametrize(
    "inputs, name, words",
    [
        ({"margin": "100"}, "margin", "95 % of the price"),
        ({"ingredients": "-3"}, "ingredients", "between"),
        ({"ingredients": "abc"}, "ingredients", "number"),
        ({"portions": "0"}, "portions", "between"),
        ({"hours": "1e9"}, "hours", "between"),
        ({"deposit": "120 %"}, "deposit", "between"),
        ({"items.0.name": "butter", "items.0.mass": "900 g", "items.0.pack_price": "2"}, "items.0.pack", "250 g"),
        ({"items.0.name": "butter", "items.0.mass": "2 cups"}, "items.0.mass", "volume"),
    ],
)
def test_what_cannot_be_is_said_at_its_field(inputs: dict[str, str], name: str, words: str) -> None:
    answer = run(CALCULATOR, inputs)
    assert [p["input"] for p in answer.problems] == [name]
    assert words in answer.problems[0]["message"] and not answer.figures


def test_a_markup_may_be_more_than_a_hundred() -> None:
    answer = run(CALCULATOR, {"margin": "150", "margin_of": "cost"})
    assert answer.figures["margin"]["value"] == pytest.approx(60, abs=0.1)


def test_selling_is_cautioned() -> None:
    assert any("local food authority" in c["text"] for c in run(CALCULATOR, {}).cautions)


def test_sheets_to_print() -> None:
    inputs = {"items.0.name": "butter", "items.0.mass": "900 g", "items.0.pack": "250 g", "items.0.pack_price": "2.40"}
    assert [s["name"] for s in run(CALCULATOR, {}).sheets] == ["price"]
    assert [s["name"] for s in run(CALCULATOR, inputs).sheets] == ["shopping-list", "price"]
    text = pypdf.PdfReader(io.BytesIO(calc.sheet("price", inputs, "shopping-list"))).pages[0].extract_text()
    assert "butter" in text and "9.60" in text and "Selling" not in text
    text = pypdf.PdfReader(io.BytesIO(calc.sheet("price", inputs, "price", "Letter"))).pages[0].extract_text()
    assert "Overhead" in text and "Selling" in text


def test_water_comes_from_the_tap_and_lacks_no_price():
    bought = shopping((Item("water", 110), Item("butter, unsalted", 300), Item("rose water", 10)))
    assert bought.unpriced == ("butter, unsalted", "rose water")


def test_water_that_is_bought_in_packs_costs_what_they_cost():
    assert shopping((Item("water", 110, pack_g=500, pack_price=0.6),)).cost == pytest.approx(0.6)


@pytest.mark.parametrize(
    ("packs", "words"),
    [
        ({}, "Buttercream, its share of the packs: no pack has a price yet, so nothing is counted"),
        (
            {"packs.0.name": "butter", "packs.0.mass": "250 g", "packs.0.price": "2.40"},
            "Buttercream, its share of the packs, without egg white, caster or granulated sugar, vanilla extract, fine salt: no pack price",
        ),
    ],
)
def test_price_of_an_order_says_beside_the_figure_what_it_leaves_out(packs, words):
    answer = calc.compute("order", {"tiers.0.width": "20 cm", "recipe": "italian_meringue", **packs})
    table = next(table for table in answer.tables if table["name"] == "price")
    assert table["rows"][0][0] == words
    costs = {row[0]: row[-1] for table in answer.tables if table["name"] == "shopping" for row in table["rows"]}
    assert costs["water"] == "from the tap"
    assert not any("water" in note["text"] for note in answer.notes if note["text"].startswith("No pack price"))


def test_price_says_beside_the_ingredients_what_has_no_price():
    answer = calc.compute("price", {"ingredients": "0", "items.0.name": "butter", "items.0.mass": "300 g"})
    assert ["Ingredients, without butter: no pack price", "0.00"] in next(t["rows"] for t in answer.tables if t["name"] == "parts")


def test_a_price_without_tax_deposit_or_rounding_is_paid_as_it_is() -> None:
    assert quoted(118.4) == Quoted(price=118.4, tax=0.0, to_pay=118.4, deposit=0.0, balance=118.4)
