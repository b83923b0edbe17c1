"""Armed Forces Recipe Service, TM 10-412 / NAVSUP P-7 / AFM 146-12 vol. 2 / MCO P10110.42 (2003): scaling a recipe.

Card A 001 gives decimal weights, working factors by portions, by ingredient in hand and by portion size, and a scale for
rounding ounces; card A 015 a conversion chart. Every step of each worked example is asserted. The card prints portions of
100; a recipe of the house is replaced by the card's own amounts for each example.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

import pytest

from calc.buttercream import RECIPES, Part, batch, mass_from_ingredient_g
from calc.units import Formatter, read_quantity

POUND_G = 453.59237
OUNCE_G = POUND_G / 16


def grams(text: str) -> float:
    """A weight as the card prints it, read as a reader would type it."""
    return read_quantity(text, "mass", "weight", "Weight")


def hundredths(value: float) -> Decimal:
    """To two places, halves up, as the card rounds."""
    return Decimal(repr(round(value, 9))).quantize(Decimal("0.01"), ROUND_HALF_UP)


@pytest.fixture
def card(monkeypatch: pytest.MonkeyPatch) -> str:
    """A recipe for 100 portions: 1 lb 4 oz of sugar and 30 lb of butter, as the card's examples have them."""
    made = replace(RECIPES["plain"], key="tm-10-412", parts=(Part("sugar", grams("1 lb 4 oz")), Part("butter", grams("30 lb"))))
    monkeypatch.setitem(RECIPES, "tm-10-412", made)
    return "tm-10-412"


# --- ounces as decimals of a pound ----------------------------------------------------------------------------------
# The stored copy misprints the row of 8 oz as "4 (1/2 lb)"; the pound's own arithmetic settles it.


@pytest.mark.parametrize(
    ("ounces", "printed"),
    [
        (1, ".06"),
        (2, ".13"),
        (3, ".19"),
        (4, ".25"),
        (5, ".31"),
        (6, ".38"),
        (7, ".44"),
        (8, ".50"),
        (9, ".56"),
        (10, ".63"),
        (11, ".69"),
        (12, ".75"),
        (13, ".81"),
        (14, ".88"),
        (15, ".94"),
        (16, "1.00"),
    ],
)
def test_ounces_as_decimals_of_a_pound(ounces: int, printed: str) -> None:
    assert hundredths(grams(f"{ounces} oz") / POUND_G) == Decimal(printed)


@pytest.mark.parametrize(("text", "printed"), [("1 lb 4 oz", "1.25"), ("2 lb 10 oz", "2.63")])
def test_pounds_and_ounces_as_decimals(text: str, printed: str) -> None:
    assert hundredths(grams(text) / POUND_G) == Decimal(printed)


# --- by portions: 348 for 100 ---------------------------------------------------------------------------------------


def test_348_portions_from_a_recipe_for_100(card: str) -> None:
    whole = sum(part.mass_g for part in RECIPES[card].parts)
    made = batch(card, 348 / 100 * whole)
    assert made.factor == pytest.approx(3.48, rel=1e-12)  # 348 / 100 = 3.48
    sugar = made.lines[0].mass_g
    assert sugar / POUND_G == pytest.approx(4.35, rel=1e-9)  # 1.25 lb x 3.48 = 4.35 lb
    ounces = (sugar / POUND_G - 4) * 16
    assert ounces == pytest.approx(5.60, abs=1e-6)  # .35 x 16 = 5.60 oz
    assert Formatter("us").mass(sugar) == "4 lb 5 1/2 oz"  # 5.60 falls in .38 to .62: 1/2 oz


# --- by the ingredient in hand: 102 lb where the recipe takes 30 lb ---------------------------------------------------


def test_102_pounds_in_hand_where_30_are_asked(card: str) -> None:
    whole = sum(part.mass_g for part in RECIPES[card].parts)
    made = batch(card, mass_from_ingredient_g(card, "butter", grams("102 lb")))
    assert made.factor == pytest.approx(3.40, rel=1e-12)  # 102 / 30 = 3.40
    assert made.lines[1].mass_g == pytest.approx(grams("102 lb"), rel=1e-12)
    assert made.mass_g == pytest.approx(3.40 * whole, rel=1e-12)


# --- by portion size: 3 oz where the card serves 4 oz -----------------------------------------------------------------


def test_348_smaller_portions(card: str) -> None:
    whole = sum(part.mass_g for part in RECIPES[card].parts)
    share = grams("3 oz") / grams("4 oz")
    assert share == pytest.approx(0.75, rel=1e-12)  # 3 / 4 = .75
    portions = 348 * share
    assert portions == pytest.approx(261, rel=1e-12)  # 348 x .75 = 261
    assert batch(card, portions / 100 * whole).factor == pytest.approx(2.61, rel=1e-12)  # 261 / 100 = 2.61


# --- the scale for rounding ounces ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("first", "last", "text"), [(0, 12, "5 oz"), (13, 37, "5 1/4 oz"), (38, 62, "5 1/2 oz"), (63, 87, "5 3/4 oz"), (88, 99, "6 oz")]
)
def test_rounding_scale(first: int, last: int, text: str) -> None:
    for hundredth in range(first, last + 1):
        assert Formatter("us").mass((5 + hundredth / 100) * OUNCE_G) == text, hundredth


# --- the conversion chart, card A 015 ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("portions", "printed"),
    [(10, "0.1 oz"), (25, "1/4 oz"), (50, "1/2 oz"), (75, "3/4 oz"), (125, "1 1/4 oz"), (150, "1 1/2 oz"), (250, "2 1/2 oz"), (300, "3 oz")],
)
def test_conversion_chart_of_one_ounce_per_hundred(monkeypatch: pytest.MonkeyPatch, portions: int, printed: str) -> None:
    made = replace(RECIPES["plain"], key="a-015", parts=(Part("salt", grams("1 oz")), Part("sugar", grams("1 lb"))))
    monkeypatch.setitem(RECIPES, "a-015", made)
    line = batch("a-015", portions / 100 * grams("17 oz")).lines[0]
    told = Formatter("us").mass(line.mass_g)
    if told.endswith(" g"):  # less than a quarter of an ounce is told in grams; the card has tenths of an ounce
        assert line.mass_g < OUNCE_G / 4 and float(told.removesuffix(" g")) == pytest.approx(line.mass_g, rel=0.03)
        told = f"{line.mass_g / OUNCE_G:.1f} oz"
    assert told == printed


def test_conversion_chart_of_one_pound_for_125(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(RECIPES, "a-015", replace(RECIPES["plain"], key="a-015", parts=(Part("sugar", grams("1 lb")),)))
    assert Formatter("us").mass(batch("a-015", 1.25 * grams("1 lb")).lines[0].mass_g) == "1 lb 4 oz"
