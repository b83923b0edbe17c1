"""Portions and weights that were printed elsewhere.

Sources
-------
Armed Forces Recipe Service, TM 10-412 (2003): sheet cakes in pans of 18 by 26 in, "CUT 6 BY 9", two pans yield 100; card G 032 03,
chocolate cream cake, nine-inch layers, "CUT 8 WEDGES PER CAKE"; card G 008, loaf pans of 16 by 4 1/2 in, "CUT 20 SLICES PER PAN".
L. Richards and N. Treat, Quantity Cookery (Little, Brown, 1922; publisher and year from memory): nine two-layer cakes, each "nine and
one fourth inches in diameter and cutting sixteen slices", number of servings 144; "1 square 2 in. x 2 in." a serving.
USDA, National Nutrient Database for Standard Reference, SR Legacy (2018): a piece of cake is 1/12 of 8 or 9 in; white cake,
two layers, 887 g, a twelfth 74 g; yellow 817 g and 68 g; chocolate 1137 g and 95 g.
FAO/INFOODS Density Database 2.0 (2012): cake 0.415 g/ml. 21 CFR 101.12(b): reference amount of medium-weight cake 80 g.
Common practice, from memory, no source: slices of 1 x 2 in from a round, 6 in 12, 8 in 24, 10 in 38, 12 in 56; squares side^2/2.
T. R. Waters, V. Putz-Anderson, A. Garg, Applications Manual for the Revised NIOSH Lifting Equation (1994), table of the horizontal
multiplier (the rule H = 20 cm + W/2 and the multiplier 0.90 of a poor grip are from memory).
UK Health and Safety Executive, guidance L23: a team of two can lift two thirds of the sum of what each can.
"""

from __future__ import annotations

import math

import pytest

from calc.portions import SLICES, TINS, cut_plan, portion_count
from calc.shapes import outline
from calc.stack import LIFT_GRIP, LIFT_LOAD_G, LIFT_TWO, SPONGE_G_PER_ML, lift, lift_limit_g

INCH = 25.4
ONE_BY_TWO = (INCH, 2 * INCH)


# --- common practice ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("inches, printed", [(6, 12), (8, 24), (10, 38), (12, 56)])
def test_rounds_within_two_of_common_practice(inches: int, printed: int) -> None:
    plan = cut_plan(outline("round", inches * INCH), ONE_BY_TWO)
    assert abs(plan.count - printed) <= 2
    assert plan.count <= plan.area_bound == math.floor(math.pi * inches**2 / 4 / 2)  # the rule is not bent to get there


def test_rounds_by_rings_step_by_step() -> None:
    """8 in: a ring of pi (4^2 - 2^2) = 37.70 sq in gives 18, the core of pi 2^2 = 12.57 gives 6; 10 in: 25, 12 and a core of 1."""

    def rings(inches: int) -> list[tuple[float, float, int]]:
        plan = cut_plan(outline("round", inches * INCH), ONE_BY_TWO, "rings")
        return [(round(inner / INCH, 9), round(outer / INCH, 9), count) for inner, outer, count in plan.layout.parts]

    assert rings(8) == [(2.0, 4.0, 18), (0.0, 2.0, 6)]
    assert rings(10) == [(3.0, 5.0, 25), (1.0, 3.0, 12), (0.0, 1.0, 1)]
    assert math.floor(math.pi * (16 - 4) / 2) == 18
    assert math.floor(math.pi * 1 / 2) == 1


@pytest.mark.parametrize("inches", [4, 6, 8, 10, 12, 14, 16])
def test_squares_are_half_their_area(inches: int) -> None:
    plan = cut_plan(outline("square", inches * INCH), ONE_BY_TWO)
    assert plan.count == inches**2 // 2 == plan.area_bound
    assert plan.cut == "grid"


@pytest.mark.parametrize("inches", [5, 7, 9, 11])
def test_odd_squares_lose_only_the_half_slice(inches: int) -> None:
    """A strip of 1 in is left over and cut the other way: floor(side^2 / 2)."""
    assert portion_count(outline("square", inches * INCH), ONE_BY_TWO) == inches**2 // 2
    assert portion_count(outline("square", inches * INCH), ONE_BY_TWO, "grid") == inches * (inches // 2)


# --- TM 10-412 ---------------------------------------------------------------------------------------------------------


def test_sheet_cut_six_by_nine() -> None:
    across, along = 18 / 6, 26 / 9
    assert (across, round(along, 2)) == (3.0, 2.89)
    plan = cut_plan(outline("rectangle", 18 * INCH, 26 * INCH), (across * INCH, along * INCH), "grid")
    assert plan.count == 54 == plan.area_bound
    assert sorted(len(cut.lines) for cut in plan.cuts) == [7, 10]  # six and nine parts, both edges drawn
    assert 2 * plan.count >= 100  # two pans, the printed yield


def test_sheet_cut_both_ways_round() -> None:
    """With slices of 2 x 3 in a sheet of 18 x 26 gives 9 x 8 = 72 one way and 6 x 13 = 78 the other."""
    one_way, other_way = (18 // 2) * (26 // 3), (18 // 3) * (26 // 2)
    assert (one_way, other_way) == (72, 78)
    sheet = outline("rectangle", 18 * INCH, 26 * INCH)
    assert portion_count(sheet, (2 * INCH, 3 * INCH), "grid") == 78
    assert portion_count(outline("rectangle", 26 * INCH, 18 * INCH), (3 * INCH, 2 * INCH), "grid") == 78


def test_loaf_cut_into_twenty_slices() -> None:
    thick = 16 / 20
    assert thick == 0.8
    loaf = outline("rectangle", 16 * INCH, 4.5 * INCH)
    assert portion_count(loaf, (thick * INCH, 4.5 * INCH), "grid") == 20
    assert 5 * 20 == 100  # five pans, the printed yield


def test_eight_wedges_of_a_nine_inch_layer() -> None:
    """Each is 7.95 sq in and 3.53 in at the rim; 12 layers split to 12 cakes give 96 of the printed 100 ("about")."""
    area, rim = math.pi * 4.5**2 / 8, math.pi * 9 / 8
    assert (round(area, 2), round(rim, 2)) == (7.95, 3.53)
    plan = cut_plan(outline("round", 9 * INCH), (rim / 2 * INCH, 4.5 * INCH), "wedges")
    assert plan.count == 8
    assert 12 * plan.count == 96


# --- Quantity Cookery --------------------------------------------------------------------------------------------------


def test_sixteen_slices_of_a_nine_and_a_quarter_inch_cake() -> None:
    area, rim = math.pi * 9.25**2 / 4 / 16, math.pi * 9.25 / 16
    assert (round(area, 2), round(rim, 2)) == (4.20, 1.82)
    # a wedge is half as wide on average as at its rim: 0.9 in is just let through
    plan = cut_plan(outline("round", 9.25 * INCH), (0.9 * INCH, 4.625 * INCH), "wedges")
    assert plan.count == 16
    assert 9 * plan.count == 144


def test_squares_of_two_inches() -> None:
    square = next(known for known in SLICES if known.name == "square")
    assert square.us_mm == (2 * INCH, 2 * INCH)
    sheet = next(tin for tin in TINS if tin.label.startswith("Full sheet"))
    assert portion_count(sheet.outline, square.us_mm) == 9 * 13


# --- USDA, FAO and CFR -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("inches", [8, 9])
def test_twelve_wedges_are_the_usda_piece(inches: int) -> None:
    """A twelfth of an 8 in cake is as wide on average as a slice of 1 in; of a 9 in one there is a little to spare."""
    plan = cut_plan(outline("round", inches * INCH), ONE_BY_TWO, "wedges")
    assert plan.count in (12, 14)
    assert cut_plan(outline("round", 8 * INCH), ONE_BY_TWO, "wedges").count == 12


USDA_CAKES = [  # g of the two-layer cake, g of a twelfth, diameter [in], g/ml if two layers of 1.5 in (an assumption)
    (887, 74, 9, 0.284),
    (887, 74, 8, 0.359),
    (817, 68, 8, 0.331),
    (1137, 95, 9, 0.364),
    (1137, 95, 8, 0.460),
]


@pytest.mark.parametrize("cake, twelfth, inches, density", USDA_CAKES)
def test_sponge_density_brackets_the_usda_cakes(cake: int, twelfth: int, inches: int, density: float) -> None:
    assert abs(cake / 12 - twelfth) < 0.5  # printed rounded: 12 x 74 = 888, not 887
    volume_ml = outline("round", inches * INCH).area_mm2 * 3 * INCH / 1000
    assert cake / volume_ml == pytest.approx(density, abs=0.0006)
    assert SPONGE_G_PER_ML.low - 0.0005 <= density <= SPONGE_G_PER_ML.high + 0.0005


def test_fao_density_lies_in_that_range() -> None:
    assert SPONGE_G_PER_ML == 0.415
    assert SPONGE_G_PER_ML.low < 0.415 < SPONGE_G_PER_ML.high
    assert pytest.approx(6.80, abs=0.005) == 0.415 / 453.59237 * INCH**3 / 1000 * 453.59237  # g in a cubic inch


def test_portions_by_weight_agree_with_portions_by_area() -> None:
    """887 g of white cake at 80 g is 11.1 portions: the twelve wedges of an 8 in cake are the same helping by another road."""
    by_weight = 887 / 80
    assert round(by_weight, 1) == 11.1
    assert abs(cut_plan(outline("round", 8 * INCH), ONE_BY_TWO, "wedges").count - by_weight) < 1


# --- lifting -----------------------------------------------------------------------------------------------------------

HORIZONTAL = [  # hands before the ankles [cm], multiplier as tabulated
    (25, 1.00),
    (28, 0.89),
    (30, 0.83),
    (32, 0.78),
    (34, 0.74),
    (36, 0.69),
    (38, 0.66),
    (40, 0.63),
    (42, 0.60),
    (44, 0.57),
    (46, 0.54),
    (48, 0.52),
    (50, 0.50),
    (52, 0.48),
    (54, 0.46),
    (56, 0.45),
    (58, 0.43),
    (60, 0.42),
    (63, 0.40),
]


@pytest.mark.parametrize("hands_cm, multiplier", HORIZONTAL)
def test_horizontal_multiplier_as_tabulated(hands_cm: int, multiplier: float) -> None:
    width_mm = 2 * (hands_cm * 10 - 200)  # H = 20 cm + W/2
    assert lift_limit_g(width_mm) / (LIFT_LOAD_G * LIFT_GRIP) == pytest.approx(multiplier, abs=0.0051)


def test_nothing_beyond_the_table() -> None:
    assert lift_limit_g(2 * (631 - 200)) == 0.0
    assert lift_limit_g(20) == lift_limit_g(100) == LIFT_LOAD_G * LIFT_GRIP == 20_700  # nearer than 25 cm gains nothing


def test_two_people_as_in_the_guidance() -> None:
    """20 kg for one is about 26.6 kg for two, as the guidance is usually worked."""
    assert pytest.approx(26.67, abs=0.01) == 2 * LIFT_TWO * 20
    limit = lift_limit_g(300)
    assert [lift(limit * share, 300).people for share in (0.99, 1.01, 1.33, 1.34)] == [1, 2, 2, 0]
