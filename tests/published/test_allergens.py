"""The allergens that must be named, by two laws, and what the recipes bring.

- Food Allergen Labeling and Consumer Protection Act 2004 with the FASTER Act 2021, United States: nine, sesame from 1 January
  2023.
- Regulation (EU) No 1169/2011, Annex II: fourteen.

Which ingredient brings which allergen is common knowledge, from memory; packs decide.
"""

from __future__ import annotations

import pytest

import calc
from calc.buttercream import EU_ALLERGENS, INGREDIENTS, RECIPES, US_ALLERGENS, allergens

US_NINE = ("milk", "eggs", "fish", "Crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame")
EU_FOURTEEN = (
    "cereals containing gluten",
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soybeans",
    "milk",
    "nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphur dioxide and sulphites",
    "lupin",
    "molluscs",
)


def test_the_nine() -> None:
    assert US_ALLERGENS == US_NINE and len(set(US_ALLERGENS)) == 9


def test_the_fourteen() -> None:
    assert EU_ALLERGENS == EU_FOURTEEN and len(set(EU_ALLERGENS)) == 14


# The same thing under both laws' names.
@pytest.mark.parametrize(
    ("us", "eu"), [("milk", "milk"), ("eggs", "eggs"), ("wheat", "cereals containing gluten"), ("soybeans", "soybeans"), ("tree nuts", "nuts")]
)
def test_ingredients_are_named_under_both_laws(us: str, eu: str) -> None:
    for ingredient in INGREDIENTS.values():
        assert (us in ingredient.us_allergens) == (eu in ingredient.eu_allergens), ingredient.key


@pytest.mark.parametrize(
    ("ingredient", "us"),
    [
        ("butter", ("milk",)),
        ("milk", ("milk",)),
        ("condensed_milk", ("milk",)),
        ("egg_white", ("eggs",)),
        ("dried_egg_white", ("eggs",)),
        ("flour", ("wheat",)),
        ("plant_drink", ("soybeans",)),
        ("sugar", ()),
        ("icing_sugar", ()),
        ("water", ()),
        ("salt", ()),
    ],
)
def test_what_an_ingredient_brings(ingredient: str, us: tuple[str, ...]) -> None:
    assert INGREDIENTS[ingredient].us_allergens == us


@pytest.mark.parametrize("recipe", sorted(RECIPES))
def test_no_allergen_of_an_ingredient_is_lost(recipe: str) -> None:
    found = allergens(recipe)
    for part in RECIPES[recipe].parts:
        assert set(INGREDIENTS[part.ingredient].us_allergens) <= set(found.us)
        assert set(INGREDIENTS[part.ingredient].eu_allergens) <= set(found.eu)


@pytest.mark.parametrize("recipe", [key for key in RECIPES if "meringue" in key])
def test_meringue_buttercream_is_egg_and_milk(recipe: str) -> None:
    assert allergens(recipe).us == ("milk", "eggs") and allergens(recipe).eu == ("eggs", "milk")


def test_dairy_free_has_no_milk_and_still_does_not_promise_it() -> None:
    found = allergens("dairy_free")
    assert "milk" not in found.us + found.eu
    assert any("traces of milk" in text for text in found.check)
    said = " ".join(caution["text"] for caution in calc.compute("batch", {"recipe": "dairy_free"}).cautions)
    assert "not a promise" in said


@pytest.mark.parametrize("recipe", ["swiss_meringue", "italian_meringue"])
def test_syrup_that_thins_a_string_may_hold_sulphites(recipe: str) -> None:
    # Annex II: sulphites above 10 mg/kg are named; glucose syrups may hold them, and only the pack tells.
    assert any("sulphites above 10 mg/kg" in text for text in allergens(recipe).check)


@pytest.mark.parametrize("recipe", sorted(RECIPES))
def test_calculator_names_them_and_defers_to_pack_and_law(recipe: str) -> None:
    said = " ".join(caution["text"] for caution in calc.compute("batch", {"recipe": recipe}).cautions)
    for name in allergens(recipe).us + allergens(recipe).eu:
        assert name in said
    assert "packs and local rules decide" in said
