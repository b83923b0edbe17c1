"""What a customer's link carries: all that a quotation says, and nothing that its price is made of."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

import calc
from calc.calculators.order_quotation import NAME
from tests.calc.test_order_cards import MAKER, ORDER, QUOTE, figures_of_cost, tiers, words

DEAR = {"rate": "61.37", "extras": "91.13", "overhead": "13 %", "margin": "37 %", "packs.0.name": "butter", "packs.0.price": "7.77"}
ORDERS = [
    ORDER,
    ORDER | QUOTE | MAKER,
    ORDER | DEAR | {"units": "us"},
    tiers(3, rate="£21", extras="55", overhead="15 %", margin="30 %"),
    tiers(1, rate="9.99", hand="learning", guests="12") | QUOTE,
]


def linked(inputs: dict[str, str]) -> dict[str, Any]:
    made: dict[str, Any] = json.loads(calc.sheet("order", inputs, NAME))
    return made


def texts(value: object) -> list[str]:
    """Every text in what was read from JSON, the names of its fields among them."""
    if isinstance(value, dict):
        return [text for name, inner in value.items() for text in (name, *texts(inner))]
    return [text for inner in value for text in texts(inner)] if isinstance(value, list) else [str(value)]


@pytest.mark.parametrize("inputs", ORDERS)
def test_the_link_holds_no_figure_of_cost(inputs: dict[str, str]) -> None:
    told = "\n".join(texts(linked(inputs)["told"]))
    for figure in figures_of_cost(inputs):
        for form in {figure, figure.lstrip("£"), figure.removesuffix(".00") + ".00", figure.replace(".", ",")}:
            assert not re.search(rf"(?<![\d.,]){re.escape(form)}(?![\d.,]*\d)", told), form
    assert not re.search(r"cost|margin|overhead|an hour|\brate\b|hands at work|profit", told, re.IGNORECASE)
    assert set(re.findall(r"([\d.]+) %", told)) <= {"40", "20"}  # of the deposit and the tax


def test_what_it_costs_changes_nothing_in_the_link_where_the_price_stays() -> None:
    """Two makers with other hours, rates and margins, who both round up to 1000: their customers get the same link to the last letter."""
    same = ORDER | QUOTE | {"quote.0.round_up": "1000", "quote.0.tax": "0 %"}
    cheap = calc.sheet("order", same, NAME)
    other = same | {"rate": "31", "extras": "12", "overhead": "20 %", "margin": "11 %", "hand": "practised", "packs.0.price": "9.99"}
    assert calc.compute("order", other).figures["price"]["value"] != calc.compute("order", same).figures["price"]["value"]
    assert calc.sheet("order", other, NAME) == cheap


def test_the_link_says_what_the_sheet_says() -> None:
    made = linked(ORDER | QUOTE | MAKER | {"quote.0.date": "2 May", "quote.0.number": "17"})
    told = made["told"]
    assert told["title"] == "Orchard harvest supper" and made["drawing"].startswith("<svg")
    parts = {part["h"]: part for part in told["parts"]}
    assert list(parts) == ["", "Your cake", "Price", "Terms", "Allergens"]
    assert dict(parts[""]["rows"]) == {
        "Date": "2 May",
        "Number": "17",
        "For": "The Orchard Society",
        "From": "Orchard Kitchen, 01234 567890, Mill Lane",
        "For the day, ready at": "Sat 16 October 2027, 18:00",
        "Where": "The barn",
    }
    price = calc.compute("order", ORDER).figures["price"]["value"]
    to_pay = 5 * -(-round(price * 1.2, 2) // 5)  # 20 % tax, up to the next 5
    assert dict(parts["Price"]["rows"])["To pay"] == f"{to_pay:.2f}"
    assert "37 portions of 2.5 cm x 5 cm" in parts["Your cake"]["p"][0] and "swags in two layers" in parts["Your cake"]["p"][1]
    assert parts["Allergens"]["p"][0] == "In the buttercream: eggs, milk." and {text for _, text in parts["Allergens"]["rows"]} == {"ask the maker"}
    assert parts["Terms"]["p"][-1] == "Stands are lent for three days."


def test_what_is_not_agreed_yet_says_so_and_nothing_is_left_blank() -> None:
    told = linked(ORDER)["told"]
    assert "" not in texts(told["parts"][1:]) and "____" not in "".join(texts(told))
    price = next(part for part in told["parts"] if part["h"] == "Price")
    assert dict(price["rows"])["Deposit, and when it is due"] == "to be agreed"


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ([("swag", "side", "russet"), ("swag", "over", "russet")], "with swags in two layers of russet."),
        ([("shell", "base", "cream")], "with shells round the base in cream."),
        ([("swag", "side", "russet"), ("rosette", "joints", "blush")], "with swags in russet and rosettes where the swags meet in blush."),
        ([], "; plain, without piping."),
    ],
)
def test_rows_are_told_in_words_that_need_no_trade(rows: list[tuple[str, str, str]], words: str) -> None:
    inputs = {"tiers.0.name": "Tier", "tiers.0.width": "20 cm"}
    for i, (kind, place, colour) in enumerate(rows):
        inputs |= {f"tiers.0.rows.{i}.kind": kind, f"tiers.0.rows.{i}.place": place, f"tiers.0.rows.{i}.colour": colour}
    assert linked(inputs)["told"]["parts"][1]["p"][1].endswith(words)


def test_allergens_that_only_the_maker_knows_stand_where_they_were_typed() -> None:
    """On the quotation, its link, the label and the page for whoever serves; what was left empty is a blank, and in the link to be asked for."""
    inputs = ORDER | {"quote.0.in_sponge": "wheat, eggs, milk", "quote.0.in_kitchen": "traces of hazelnut"}
    rows = dict(linked(inputs)["told"]["parts"][-1]["rows"])
    assert rows == {
        "In the sponge": "wheat, eggs, milk",
        "In the fillings": "ask the maker",
        "In decorations, and traces from the kitchen": "traces of hazelnut",
    }
    for sheet in ("quotation", "box-label", "hand-out"):
        told = words(inputs, sheet)
        assert "wheat, eggs, milk" in told and "traces of hazelnut" in told, sheet
        assert "wheat" not in words(ORDER, sheet), sheet
