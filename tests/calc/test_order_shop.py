"""The list that goes to the shop: complete, and less what is at hand."""

from __future__ import annotations

import io
import json
from typing import Any

import pdfplumber
import pypdfium2
import pytest

import calc
from calc.calculators.order_shop import AT_HAND, NAME
from calc.units import Problem
from tests.calc.test_order_cards import ORDER, tiers
from tools.bench.seven_tiers import seven_tiers


def listed(inputs: dict[str, str], **have: str) -> dict[str, dict[str, Any]]:
    """Each line by its key."""
    made = json.loads(calc.sheet("order", inputs, f"{NAME}:{json.dumps(have)}"))
    return {line["key"]: line for group in made["groups"] for line in group["lines"]}


@pytest.mark.parametrize("inputs", [ORDER, tiers(1), tiers(4, units="us"), tiers(2, **{"tiers.0.height": "35 cm"})])
def test_everything_that_the_order_takes_is_on_it_once(inputs: dict[str, str]) -> None:
    tables = {table["name"]: table["rows"] for table in calc.compute("order", inputs).tables}
    lines = listed(inputs)
    named = [line["what"] for line in lines.values()]
    assert [name.lower() for name in named] == [row[0].lower() for name in ("shopping", "besides") for row in tables[name]]
    made = json.loads(calc.sheet("order", inputs, NAME))
    assert sum(len(group["lines"]) for group in made["groups"]) == len(lines), "two lines have the same key"


def test_what_is_at_hand_is_taken_off_before_packs_are_rounded_up() -> None:
    """851 g of butter are four packs of 250 g; with 300 g at hand 551 g are three, with 103 g still three, with 100 g four, with 900 g none."""
    assert listed(ORDER)["butter, unsalted"]["buy"] == "4 of 250 g"
    for have, buy in (("300 g", "3 of 250 g"), ("103 g", "3 of 250 g"), ("100 g", "4 of 250 g"), ("900 g", AT_HAND)):
        line = listed(ORDER, **{"butter, unsalted": have})["butter, unsalted"]
        assert line["buy"] == buy and line["isThere"] == (buy == AT_HAND) and line["have"] == have


def test_pieces_are_counted_with_their_spares() -> None:
    bags = listed(ORDER)["bags"]
    assert bags["buy"] == "6 and 2 spare" and bags["need"] == 8
    assert listed(ORDER, bags="5")["bags"]["buy"] == "3 more"
    assert listed(ORDER, bags="8")["bags"]["buy"] == AT_HAND


def test_what_does_not_read_is_said_at_its_line_and_takes_nothing_off() -> None:
    line = listed(ORDER, **{"butter, unsalted": "a lot"})["butter, unsalted"]
    assert line["buy"] == "4 of 250 g" and line["problem"].startswith("What you have")
    assert listed(ORDER, bags="some")["bags"]["problem"].startswith("What you have")


@pytest.mark.parametrize("told", ["[]", "{", '{"a": 1}', '{"a": "' + "9" * 41 + '"}', "[" * 100_000])
def test_what_is_no_list_of_amounts_is_refused_in_words(told: str) -> None:
    with pytest.raises(Problem, match="I have"):
        calc.sheet("order", ORDER, f"{NAME}:{told}")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_prints_on_one_page_without_what_is_at_hand(paper: str) -> None:
    for name, is_there in (("shopping-list", True), ('shopping-list:{"bags": "8"}', False)):
        document = pypdfium2.PdfDocument(io.BytesIO(calc.sheet("order", ORDER, name, paper)))
        assert len(document) == 1
        assert ("Piping bags" in document[0].get_textpage().get_text_range()) is is_there


def test_syrup_and_sponge_by_hand() -> None:
    """A round of 20 cm has layers of 314 cm2: 31 g of syrup each, three of them 94 g. Baked 1.15 kg: 1.28 kg of batter, a quarter of it 319 g."""
    lines = listed({"tiers.0.name": "Tier", "tiers.0.width": "20 cm", "tiers.0.height": "10 cm", "tiers.0.layers": "3", "tiers.0.filling": "6 mm"})
    assert lines["syrup"]["buy"] == "about 94 g"
    assert lines["equal-weights"]["buy"] == "about 319 g of each"


def test_tips_of_the_kitchen_are_at_hand_until_something_else_is_typed() -> None:
    own = ORDER | {"tips": "petal 11 mm, leaf 6 mm"}
    lines = listed(own)
    assert {key for key, line in lines.items() if line["isThere"]} == {"tip-petal 11 mm", "tip-leaf 6 mm"}
    assert listed(own, **{"tip-leaf 6 mm": "0"})["tip-leaf 6 mm"]["buy"] == "1"


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_seven_tiers_are_shopped_for_with_one_page(paper: str, units: str) -> None:
    """In two columns, in type that can be read, and no line runs into the other column or its neighbour below."""
    inputs = {"order": seven_tiers(), "units": units}
    with pdfplumber.open(io.BytesIO(calc.sheet("order", inputs, "shopping-list", paper))) as document:
        (page,) = document.pages
        shown = [c for c in page.chars if c["text"].strip()]
        body = [c for c in shown if c["top"] > 60]
        assert min(c["size"] for c in shown) >= 7.99
        assert max(c["x1"] for c in shown) <= page.width - 5 * 72 / 25.4 and max(c["bottom"] for c in shown) <= page.height - 5 * 72 / 25.4
        gap = (page.width / 2 - 4, page.width / 2 + 4)
        assert not [c["text"] for c in body if c["x1"] > gap[0] and c["x0"] < gap[1]]
        assert {c["x0"] < gap[0] for c in body} == {True, False}
        words = page.extract_text()
        for line in listed(inputs).values():
            assert line["what"].split()[0] in words
        ends = sorted({(line["x0"] < gap[0], round(line["top"], 1)) for line in page.lines if line["top"] > 60})
        assert len(ends) > 40 and all(below - above >= 9 for (one, above), (other, below) in zip(ends, ends[1:], strict=False) if one == other)
