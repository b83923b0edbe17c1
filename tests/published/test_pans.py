"""What pans hold, how a recipe is scaled from pan to pan, and what a filling comes to, as printed by kitchens.

Sources
-------
Pan volumes in cups, as household pages print them (a newspaper's table of 2016 and a cookery page's list; the university extension table they
seem to go back to was not found): rounded down and measured in pans with sloping sides, so that they only bound the sum from below.
Pan scaling by area, 8 in to 10 in (a bakers' forum's worked example with pi = 3.14: 78.5 / 50.24 = 1.56; down 0.64).
Armed Forces Recipe Service, TM 10-412 (2003), card G 032 03: nine-inch layers, split, "1 cup filling each".
L. Richards and N. Treat, Quantity Cookery (Little, Brown, 1922; publisher and year from memory): chocolate filling, "total volume 3 qt", beside
nine two-layer cakes of nine and one fourth inches (that it is meant for those cakes rests on its standing beside them).
21 CFR 101.12(b), footnotes on cakes: heavy from 10 g in a cubic inch, medium from 4 to 10, light under 4 (from memory).
"""

from __future__ import annotations

import math

import pytest

from calc.coats import coats
from calc.shapes import outline
from calc.stack import SPONGE_G_PER_ML

INCH = 25.4
CUP_ML = 236.5882365  # 231 cubic inches / 16
QUART_ML = 4 * CUP_ML

PANS = [  # shape, width, length, depth [in], printed cups, cups by geometry
    ("round", 8, None, 1.5, 4, 5.22),
    ("round", 8, None, 2, 6, 6.96),
    ("round", 9, None, 2, 8, 8.81),
    ("round", 10, None, 2, 11, 10.88),
    ("square", 8, None, 2, 8, 8.87),
    ("square", 9, None, 2, 10, 11.22),
    ("rectangle", 11, 7, 2, 6, 10.67),
    ("rectangle", 13, 9, 2, 14, 16.21),
]


@pytest.mark.parametrize("shape, width, length, depth, printed, cups", PANS)
def test_a_pan_holds_no_less_than_is_printed(shape: str, width: float, length: float | None, depth: float, printed: float, cups: float) -> None:
    """Area in square inches, times the depth, over 14.4375 cubic inches to a cup; printed figures lie below, but for a rounding of half a cup."""
    area_mm2 = outline(shape, width * INCH, length * INCH if length else None).area_mm2
    by_hand = (math.pi * width * width / 4 if shape == "round" else width * (length or width)) * depth
    assert area_mm2 * depth * INCH / INCH**3 == pytest.approx(by_hand, rel=1e-12)
    found = area_mm2 * depth * INCH / 1000 / CUP_ML
    assert found == pytest.approx(by_hand / (231 / 16), rel=1e-9)
    assert found == pytest.approx(cups, abs=0.006)
    assert printed <= found + 0.5
    assert printed >= 0.55 * found  # nor is it another pan


def test_scaling_from_pan_to_pan_goes_by_area() -> None:
    eight, ten = outline("round", 8 * INCH).area_mm2, outline("round", 10 * INCH).area_mm2
    assert (round(3.14 * 25, 1), round(3.14 * 16, 2)) == (78.5, 50.24)
    assert round(78.5 / 50.24, 2) == 1.56
    assert ten / eight == pytest.approx(1.5625, rel=1e-12)  # (10/8)^2, whatever is taken for pi
    assert eight / ten == pytest.approx(0.64, rel=1e-12)


def test_one_cup_fills_a_split_nine_inch_layer() -> None:
    """236.6 ml over 410.4 cm2 is a filling of 5.76 mm, within the usual 5 to 8."""
    tier = outline("round", 9 * INCH)
    assert tier.area_mm2 / 100 == pytest.approx(410.4, abs=0.05)
    thick = CUP_ML * 1000 / tier.area_mm2
    assert thick == pytest.approx(5.76, abs=0.005)
    made = coats(tier, 1.5 * INCH, 2, thick, 0.0, 0.0)  # one layer split in two has one filling
    assert made.fillings == 1
    assert made.filling_ml == pytest.approx(CUP_ML)


def test_three_quarts_fill_nine_cakes() -> None:
    """Each gets 315 ml between its two layers: 7.3 mm on 433.6 cm2, or 2/3 of a cup on each of the 18 layers."""
    tier = outline("round", 9.25 * INCH)
    each_ml = 3 * QUART_ML / 9
    assert each_ml == pytest.approx(315.45, abs=0.01)
    a_layer_cups = 3 * 4 / 18
    assert a_layer_cups == pytest.approx(2 / 3)
    thick = each_ml * 1000 / tier.area_mm2
    assert thick == pytest.approx(7.28, abs=0.005)
    assert coats(tier, 3 * INCH, 2, thick, 0.0, 0.0).filling_ml == pytest.approx(each_ml)


def test_the_sponge_of_the_house_is_a_medium_weight_cake() -> None:
    """4 to 10 g in a cubic inch are 0.244 to 0.610 g/ml; the whole range that weights are worked out from lies within."""
    low, high = (grams / (INCH**3 / 1000) for grams in (4, 10))
    assert (round(low, 3), round(high, 3)) == (0.244, 0.610)
    assert low < SPONGE_G_PER_ML.low < SPONGE_G_PER_ML < SPONGE_G_PER_ML.high < high
