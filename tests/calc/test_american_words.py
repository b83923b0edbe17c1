"""With US units the answers, the sheets and the list for the shop use American words; what is matched or typed stays as it is."""

from __future__ import annotations

import io
import json

import pytest
from pypdf import PdfReader

import calc
from calc.buttercream import RECIPES
from calc.calculators import CALCULATORS
from calc.calculators.order_shop import NAME
from calc.units.writing import US_WORDS

ORDER = {
    "recipe": "plain", "tiers.0.name": "Tier", "tiers.0.width": "20 cm", "tiers.0.height": "10 cm", "packs.0.name": "powdered sugar",
    "packs.0.mass": "2 lb", "packs.0.price": "3",
}  # fmt: skip
RECIPES_IN = [
    (slug, recipe)
    for slug, calculator in CALCULATORS.items()
    for recipe in (RECIPES if any(each.name == "recipe" for each in calculator.inputs) else ("",))
]


def british(text: str) -> list[str]:
    return [here for here, _ in US_WORDS if here in " ".join(text.lower().split())]


def american(text: str) -> list[str]:
    return [there for _, there in US_WORDS if there in " ".join(text.lower().split())]


@pytest.mark.parametrize(("slug", "recipe"), RECIPES_IN)
def test_an_answer_keeps_to_the_words_of_its_units(slug: str, recipe: str) -> None:
    asked = {"recipe": recipe} if recipe else {}
    assert not british(calc.compute(slug, {**asked, "units": "us"}).to_json())
    assert not american(calc.compute(slug, asked).to_json())


@pytest.mark.parametrize(
    ("slug", "asked", "sheet"),
    [
        ("order", ORDER, "shopping-list"),
        ("order", ORDER, "box-label"),
        ("lesson", {}, "shopping-list"),
        ("lesson", {}, "hand-out"),
        ("lesson", {}, "lesson-plan"),
        ("practice", {}, "hand-out"),
    ],
)
def test_a_sheet_keeps_to_the_words_of_its_units(slug: str, asked: dict[str, str], sheet: str) -> None:
    us, metric = (
        "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(calc.sheet(slug, {**asked, "units": units}, sheet))).pages)
        for units in ("us", "metric")
    )
    assert american(us) and not british(us)
    assert british(metric) and not american(metric)


def test_the_list_for_the_shop_is_kept_by_the_name_of_the_ingredient() -> None:
    """Its key, under which what is at hand is kept, is the same in both units; 2 lb packs of what was typed as powdered sugar are counted."""
    for units, what in (("us", "Powdered sugar"), ("metric", "Icing sugar")):
        made = json.loads(calc.sheet("order", {**ORDER, "units": units}, f'{NAME}:{{"icing sugar": "100 g"}}'))
        (line,) = (line for group in made["groups"] for line in group["lines"] if line["key"] == "icing sugar")
        assert line["what"] == what and line["have"] == "100 g" and " of " in line["buy"]


@pytest.mark.parametrize(
    "name", ["icing sugar", "powdered sugar", "Powdered Sugar", "confectioners' sugar", "confectioner's sugar", "Confectioners sugar"]
)
@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_pack_is_known_by_either_name(name: str, units: str) -> None:
    answer = calc.compute("lesson", {"packs.0.name": name, "packs.0.mass": "1 kg", "packs.0.price": "3", "units": units})
    (shopping,) = (table for table in answer.tables if table["name"] == "shopping")
    (row,) = (row for row in shopping["rows"] if row[0] in ("icing sugar", "powdered sugar"))
    assert row[2] and row[4].strip("$£") == f"{3 * int(row[2].split()[0]):.2f}"


def test_a_pack_of_something_else_is_not_taken_for_it() -> None:
    answer = calc.compute("lesson", {"packs.0.name": "powdered milk", "packs.0.mass": "1 kg", "packs.0.price": "3"})
    (shopping,) = (table for table in answer.tables if table["name"] == "shopping")
    assert {row[4] for row in shopping["rows"]} <= {"no price", "from the tap"}


def test_what_a_person_typed_keeps_its_words() -> None:
    told = calc.compute("order", {**ORDER, "tiers.0.name": "Icing sugar tier", "units": "us"}).to_json()
    assert "Icing sugar tier" in told and "Powdered sugar tier" not in told
