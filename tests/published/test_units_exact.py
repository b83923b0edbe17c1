"""Exact units and household measures.

Sources
-------
Guide for the Use of the SI, NIST Special Publication 811 (2008), appendix B: inch, pound, gallon and their parts are exact by
definition; its table B.8 gives them to seven digits (the digits below are from memory, and agree with the definitions).
Household Weights and Measures, NIST Special Publication 430: a cup is 237 ml, rounded.
21 CFR 101.9(b)(5)(viii): a label's cup is 240 ml, a tablespoon 15, a teaspoon 5, a fluid ounce 30.
"""

from __future__ import annotations

import math

import pytest

from calc.sources import SOURCES
from calc.units import Formatter, read_quantity

EXACT = [  # unit, kind, amount in mm, g or ml: exact by definition (cfr-101.9 measures stand below, as what they are not)
    ("1 in", "length", 25.4),
    ("1 ft", "length", 304.8),
    ("1 yd", "length", 914.4),
    ("1 lb", "mass", 453.59237),
    ("1 oz", "mass", 28.349523125),
    ("1 gal", "volume", 3785.411784),
    ("1 qt", "volume", 946.352946),
    ("1 pt", "volume", 473.176473),
    ("1 cup", "volume", 236.5882365),
    ("1 fl oz", "volume", 29.5735295625),
    ("1 tbsp", "volume", 14.78676478125),
    ("1 tsp", "volume", 4.92892159375),
]
SP_811 = [  # table B.8, in SI units, seven digits
    ("1 cup", "volume", 2.365882e-4, 1e6),
    ("1 tsp", "volume", 4.928922e-6, 1e6),
    ("1 tbsp", "volume", 1.478676e-5, 1e6),
    ("1 fl oz", "volume", 2.957353e-5, 1e6),
    ("1 oz", "mass", 2.834952e-2, 1e3),
    ("1 lb", "mass", 4.535924e-1, 1e3),
]
SP_430 = [("1 tsp", 4.9), ("1 tbsp", 15), ("1 fl oz", 30), ("1/4 cup", 59), ("1/2 cup", 118), ("1 cup", 237), ("1 pt", 473), ("1 qt", 946)]
CFR = [("1 tsp", 5), ("1 tbsp", 15), ("1 fl oz", 30), ("1 cup", 240)]


@pytest.mark.parametrize("typed, kind, value", EXACT)
def test_exact_definition(typed: str, kind: str, value: float) -> None:
    assert math.isclose(read_quantity(typed, kind, "x", "X"), value, rel_tol=1e-13)


@pytest.mark.parametrize("typed, kind, si, scale", SP_811)
def test_sp_811_table(typed: str, kind: str, si: float, scale: float) -> None:
    assert SOURCES["nist-811"].standing == "published"
    assert f"{read_quantity(typed, kind, 'x', 'X') / scale:.6e}" == f"{si:.6e}"


@pytest.mark.parametrize("typed, rounded_ml", SP_430)
def test_sp_430_is_the_exact_measure_rounded(typed: str, rounded_ml: float) -> None:
    """SP 430 rounds to 0.1 ml under 10 ml, to the ml above (its tablespoon and fluid ounce to 15 and 30)."""
    exact = read_quantity(typed, "volume", "x", "X")
    assert abs(exact - rounded_ml) <= 0.5
    assert SOURCES["nist-household"].standing == "published"


@pytest.mark.parametrize("typed, label_ml", CFR)
def test_a_label_cup_is_another_cup(typed: str, label_ml: float) -> None:
    """A mix-up of label cup and customary cup shows as 240 / 236.5882365 = 1.014421 (cfr-101.9)."""
    ratio = label_ml / read_quantity(typed, "volume", "x", "X")
    assert ratio == pytest.approx(240 / 236.5882365, abs=1e-6)
    assert ratio == pytest.approx(1.014421, abs=1e-6)


def test_parts_of_a_gallon_in_steps() -> None:
    """231 cubic inches to the gallon: every step of the way down to the teaspoon."""
    gallon_ml = 231 * 2.54**3
    steps = [("1 gal", 1), ("1 qt", 4), ("1 pt", 8), ("1 cup", 16), ("1 fl oz", 128), ("1 tbsp", 256), ("1 tsp", 768)]
    for typed, parts in steps:
        assert read_quantity(typed, "volume", "x", "X") == pytest.approx(gallon_ml / parts, rel=1e-12), typed


def test_pounds_and_ounces_of_the_recipe_cards() -> None:
    """Armed Forces Recipe Service, TM 10-412 (2003), card A 001: 1 lb 4 oz is 1.25 lb; 2 lb 10 oz is 2.63 lb, rounded."""
    pound = read_quantity("1 lb", "mass", "x", "X")
    assert read_quantity("1 lb 4 oz", "mass", "x", "X") / pound == pytest.approx(1.25, abs=1e-9)
    assert round(read_quantity("2 lb 10 oz", "mass", "x", "X") / pound + 1e-9, 2) == 2.63
    for ounces, decimal in enumerate((0.06, 0.13, 0.19, 0.25, 0.31, 0.38, 0.44, 0.50, 0.56, 0.63, 0.69, 0.75, 0.81, 0.88, 0.94, 1.0), 1):
        assert abs(read_quantity(f"{ounces} oz", "mass", "x", "X") / pound - decimal) <= 0.0051, ounces


def test_the_card_scaled() -> None:
    """The same card: 348 portions of a recipe for 100 are 3.48 times; 1.25 lb x 3.48 = 4.35 lb, written 4 lb 5 1/2 oz."""
    factor = 348 / 100
    assert factor == 3.48
    mass_g = read_quantity("1 lb 4 oz", "mass", "x", "X") * factor
    assert mass_g / 453.59237 == pytest.approx(4.35, abs=1e-9)
    assert Formatter("us").mass(mass_g) == "4 lb 5 1/2 oz"
