"""Buttercream as governments print it: mass, volume, density, air and energy of whole recipe cards.

G 022 01 Orange Butter Cream Frosting: Armed Forces Recipe Service, TM 10-412 (2003).
G 044 Cocoa Fudge, G 046 French Cream, G 047 Light Butter Cream Frosting: Armed Forces Recipe Service, TM 10-412 (1986).
Vanilla Cream Frosting: USDA, Quantity Recipes for School Food Service, PA-1371 (1988).

Each card gives weights, measures and a yield in quarts or cups. Weights and volumes are read by `calc.units`, the mixture's
density without air comes from `calc.buttercream`, and what is missing to the printed yield is air. Where a card gives only
a measure, USDA's household weight stands beside it (National Nutrient Database for Standard Reference, SR Legacy, 2018).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import pytest

from calc.buttercream import INGREDIENTS, Ingredient, air_percent_of, airless_density_g_per_ml, density_g_per_ml
from calc.sources import constant
from calc.units import read_quantity

CUP_ML = 236.5882365


def powder(key: str, density: float, note: str) -> Ingredient:
    """An ingredient the house has no use for, for a card."""
    return Ingredient(key, key, constant(density, "g/ml", "from-memory", note))


JUICE = powder("orange juice", 248 / CUP_ML, "USDA 09206, cup of 248 g")
PEEL = powder("orange peel", 1.0, "wet peel is about as heavy as water")
COCOA = powder("cocoa", 1.45, "particle of cocoa powder")
DRY_MILK = replace(powder("dry milk", 1.4, "particle of milk powder"), cup_g=constant(68, "g", "usda-sr", "NDB 01092, instant, cup of 68 g"))
MARGARINE = INGREDIENTS["plant_block"]
BUTTER, SUGAR, FAT = INGREDIENTS["butter"], INGREDIENTS["icing_sugar"], INGREDIENTS["vegetable_fat"]
SALT, VANILLA, WATER, FLOUR = (INGREDIENTS[key] for key in ("salt", "vanilla", "water", "flour"))


@dataclass(frozen=True)
class Card:
    """One printed card: what goes in, as printed, and what comes out."""

    name: str
    parts: tuple[tuple[Ingredient, str], ...]
    makes: str
    mass_g: float
    volume_ml: float
    density: float
    fat_percent: tuple[float, float]
    air_percent: tuple[float, float]


def weight(text: str) -> float:
    """Grams of a part: printed as a weight, or as a measure of something whose USDA cup is known."""
    return read_quantity(text, "mass", "weight", "Weight")


def measure(ingredient: Ingredient, text: str) -> float:
    """Grams of a part that the card prints by measure only."""
    assert ingredient.cup_g is not None
    return read_quantity(text, "volume", "volume", "Volume") / CUP_ML * ingredient.cup_g


def mass_of(ingredient: Ingredient, text: str) -> float:
    return weight(text) if text.endswith(("lb", "oz")) else measure(ingredient, text)


CARDS = (
    # Salt is printed as 1/4 oz and as 1/8 tsp, which cannot both be; it weighs nothing here either way. The weight is taken.
    Card(
        "orange butter cream",
        ((BUTTER, "1 1/4 lb"), (SUGAR, "5 lb"), (SALT, "1/4 oz"), (PEEL, "1 1/8 oz"), (JUICE, "8 3/4 oz")),
        "2 3/4 qt",
        3122,
        2602,
        1.20,
        (18, 19),
        (8, 13),
    ),
    Card(
        "French cream",
        (
            (MARGARINE, "2 lb 2 oz"),
            (DRY_MILK, "3 oz"),
            (FLOUR, "5 oz"),
            (WATER, "3 1/4 cups"),
            (INGREDIENTS["sugar"], "2 lb"),
            (SALT, "1 tsp"),
            (VANILLA, "3 tbsp"),
        ),
        "1 gal",
        2910,
        3785,
        0.77,
        (32, 34),
        (30, 38),
    ),
    Card(
        "light butter cream",
        ((MARGARINE, "12 oz"), (FAT, "12 oz"), (SUGAR, "4 lb"), (SALT, "3/4 tsp"), (DRY_MILK, "2 oz"), (WATER, "3/4 cup"), (VANILLA, "2 tbsp")),
        "3 1/4 qt",
        2759,
        3076,
        0.90,
        (24, 26),
        (26, 34),
    ),
    Card(
        "vanilla cream",
        (
            (BUTTER, "2 1/2 oz"),
            (FAT, "2 1/2 oz"),
            (SUGAR, "1 lb 14 oz"),
            (SALT, "1/4 tsp"),
            (DRY_MILK, "1/4 cup"),
            (VANILLA, "1 tbsp"),
            (WATER, "1/2 cup"),
            (WATER, "3 tbsp"),
        ),
        "4 cups",
        1187,
        946,
        1.254,
        (11, 13),
        (4, 11),
    ),
)
every = pytest.mark.parametrize("card", CARDS, ids=lambda card: card.name)


def pairs(card: Card) -> list[tuple[Ingredient, float]]:
    return [(ingredient, mass_of(ingredient, text)) for ingredient, text in card.parts]


@every
def test_card_mass_volume_density_fat_and_air(card: Card) -> None:
    mass = math.fsum(grams for _, grams in pairs(card))
    volume = read_quantity(card.makes, "volume", "yield", "Yield")
    assert mass == pytest.approx(card.mass_g, rel=5e-3)
    assert volume == pytest.approx(card.volume_ml, abs=1)
    assert mass / volume == pytest.approx(card.density, abs=6e-3)
    fat = math.fsum(grams for ingredient, grams in pairs(card) if ingredient in (BUTTER, MARGARINE, FAT))
    assert card.fat_percent[0] <= 100 * fat / mass <= card.fat_percent[1]
    airless = airless_density_g_per_ml(pairs(card))
    assert 1.1 < airless < 1.4
    assert card.air_percent[0] <= air_percent_of(mass / volume, airless) <= card.air_percent[1]


def test_more_fat_holds_more_air() -> None:
    def found(card: Card) -> tuple[float, float]:
        mass = math.fsum(grams for _, grams in pairs(card))
        fat = math.fsum(grams for ingredient, grams in pairs(card) if ingredient in (BUTTER, MARGARINE, FAT))
        volume = read_quantity(card.makes, "volume", "yield", "Yield")
        return fat / mass, air_percent_of(mass / volume, airless_density_g_per_ml(pairs(card)))

    by_fat = sorted(map(found, CARDS))
    assert [air for _, air in by_fat] == sorted(air for _, air in by_fat)


# --- the orange card, step by step ------------------------------------------------------------------------------------
# USDA energy, fat and carbohydrate for 100 g (SR Legacy, from memory): butter 717 kcal, 81.11 g, 0.06 g; powdered sugar
# 389, 0, 99.77; orange juice 45, 0.2, 10.4; orange peel 97, 0.2, 25.0.
COMPOSITION = {
    "butter": (717, 81.11, 0.06),
    "icing_sugar": (389, 0.0, 99.77),
    "orange juice": (45, 0.2, 10.4),
    "orange peel": (97, 0.2, 25.0),
    "salt": (0, 0, 0),
}


@pytest.mark.parametrize(("index", "printed", "within"), [(0, 13074, 0.005), (1, 463, 0.01), (2, 2302, 0.005)], ids=["kcal", "fat", "carbohydrate"])
def test_orange_card_energy_fat_and_carbohydrate(index: int, printed: float, within: float) -> None:
    total = math.fsum(grams / 100 * COMPOSITION[ingredient.key][index] for ingredient, grams in pairs(CARDS[0]))
    assert total == pytest.approx(printed, rel=within)


def test_orange_card_measures_against_usda_cups() -> None:
    butter = weight("1 1/4 lb") / (read_quantity("2 1/2 cups", "volume", "v", "V") / CUP_ML)
    sugar = weight("5 lb") / (read_quantity("1 gal 3/4 qt", "volume", "v", "V") / CUP_ML)
    juice = weight("8 3/4 oz")
    assert butter == pytest.approx(226.8, abs=0.1) and butter == pytest.approx(227, rel=1e-2)
    assert sugar == pytest.approx(119.4, abs=0.1)  # called sifted, and yet USDA's *unsifted* cup of 120 g, not its sifted 100 g
    assert juice == pytest.approx(248, rel=1e-2)


def test_orange_card_is_four_parts_sugar_to_one_of_butter() -> None:
    assert weight("5 lb") / weight("1 1/4 lb") == pytest.approx(4, rel=1e-12)


# --- cocoa fudge: a card that does not agree with itself --------------------------------------------------------------

FUDGE = [
    (MARGARINE, weight("1 lb")),
    (FAT, weight("8 oz")),
    (SUGAR, weight("4 lb")),
    (COCOA, weight("8 oz")),
    (DRY_MILK, weight("2 oz")),
    (SALT, measure(SALT, "1 1/2 tsp")),
    (WATER, measure(WATER, "1 7/8 cups")),
    (VANILLA, measure(VANILLA, "2 tbsp")),
]


def test_cocoa_fudge_yield_and_its_own_note() -> None:
    mass = math.fsum(grams for _, grams in FUDGE)
    assert mass == pytest.approx(3256, rel=5e-3)
    by_yield = mass / read_quantity("2 1/2 qt", "volume", "v", "V")
    by_note = weight("1 lb") / read_quantity("1 3/4 cups", "volume", "v", "V")  # "about 1 3/4 cups (1 lb) per cake"
    assert by_yield == pytest.approx(1.376, abs=5e-3)
    assert by_note == pytest.approx(1.096, abs=1e-3)
    # Without any air it weighs 1.30, so the printed yield is short by 5 %; with the note it holds 16 % air.
    airless = airless_density_g_per_ml(FUDGE)
    assert by_note < airless < by_yield
    assert air_percent_of(by_note, airless) == pytest.approx(16, abs=2)


def test_light_butter_cream_note_agrees_with_its_yield() -> None:
    by_note = weight("1 lb") / read_quantity("2 cups", "volume", "v", "V")  # "about 2 cups (1 lb) frosting per cake"
    assert by_note == pytest.approx(0.959, abs=1e-3)
    assert air_percent_of(by_note, airless_density_g_per_ml(pairs(CARDS[2]))) == pytest.approx(26, abs=2)


# --- and what the house says ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("recipe", "way", "card"), [("flour_cooked", "whipped", CARDS[1]), ("flour_cooked", "light", CARDS[1]), ("heat_stable", "whipped", CARDS[2])]
)
def test_house_recipes_of_the_same_kind_lie_beside_the_card(recipe: str, way: str, card: Card) -> None:
    density = density_g_per_ml(recipe, way)
    assert density.low <= card.density <= density.high


def test_house_plain_lies_between_the_cards_on_either_side_of_its_fat() -> None:
    # A third butter: fatter than orange butter cream and than light butter cream, and without their water.
    assert CARDS[2].density < density_g_per_ml("plain") < CARDS[0].density
