"""Amounts as they are written for a reader: every rung of cups, spoons, ounces and inches, and what happens exactly where one gives way to another.

A text may be at most 3 % from its value. A cup is 236.5882365 ml, 16 tablespoons or 48 teaspoons; an ounce is 28.349523125 g; an inch is 25.4 mm
(NIST SP 811, appendix B). The sums stand beside the cases.
"""

from __future__ import annotations

import datetime as dt
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.units import Formatter, capitalised, file_name_part, letter_of, listed, read_quantity

METRIC, US = Formatter("metric"), Formatter("us")
CUP, TBSP, TSP = 236.5882365, 236.5882365 / 16, 236.5882365 / 48
OUNCE, INCH = 28.349523125, 25.4


def spoons(tablespoons: float) -> str:
    return US.volume(tablespoons * TBSP)


def teaspoons(count: float) -> str:
    return US.volume(count * TSP)


# --- cups and spoons ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "count, us",
    [
        (0.06, "0.06 tsp"), (0.0614, "0.06 tsp"), (0.0625, "0.063 tsp"),  # 0.1 is far off; 0.06 is 2.3 % off the second, 4 % off the third
        (1 / 8, "1/8 tsp"), (3 / 8, "3/8 tsp"), (5 / 8, "5/8 tsp"), (7 / 8, "7/8 tsp"),
        (1 / 4, "1/4 tsp"), (1 / 2, "1/2 tsp"), (3 / 4, "3/4 tsp"), (1 / 3, "1/3 tsp"), (2 / 3, "2/3 tsp"),
        (0.2, "0.2 tsp"), (0.21, "0.21 tsp"), (0.204, "0.2 tsp"),  # no quarter, third or eighth is near; a tenth is if it is within 3 %
        (0.1945, "0.2 tsp"), (0.194, "0.19 tsp"),  # 0.2 is 2.8 and 3.1 % more
        (0.2429, "1/4 tsp"), (0.2425, "0.24 tsp"),  # 1/4 is 2.9 and 3.1 % more
        (0.257, "1/4 tsp"), (0.258, "0.26 tsp"),  # 1/4 is 2.7 and 3.1 % less
        (1.37, "1 1/3 tsp"), (1.4, "1 3/8 tsp"), (1.3, "1 1/3 tsp"), (1.25, "1 1/4 tsp"), (2.8, "2 3/4 tsp"), (2.7, "2 3/4 tsp"), (2.85, "2 7/8 tsp"),
        (2.91, "2 7/8 tsp"),
        (2.92, "1 tbsp"), (3.09, "1 tbsp"), (3.125, "3 1/8 tsp"), (3.25, "1 tbsp 1/4 tsp"), (3.5, "1 tbsp 1/2 tsp"), (3.75, "1 tbsp 3/4 tsp"),
        (3.95, "1 tbsp 1 tsp"), (4, "1 tbsp 1 tsp"), (4.25, "1 tbsp 1 1/4 tsp"), (4.5, "1 1/2 tbsp"), (5, "1 tbsp 2 tsp"), (5.5, "1 tbsp 2 1/2 tsp"),
        (6, "2 tbsp"), (7, "2 tbsp 1 tsp"), (7.5, "2 1/2 tbsp"), (8, "2 tbsp 2 tsp"), (9, "3 tbsp"), (11, "3 tbsp 2 tsp"), (11.85, "4 tbsp"),
    ],
)  # fmt: skip
def test_teaspoons_and_tablespoons_under_a_quarter_of_a_cup(count: float, us: str) -> None:
    """Quarters, thirds and eighths of a teaspoon; half tablespoons from one on, with teaspoons where no half is near."""
    assert teaspoons(count) == us


@pytest.mark.parametrize(
    "tablespoons, us",
    [
        (3.95, "4 tbsp"), (3.96, "1/4 cup"), (4, "1/4 cup"), (4.12, "1/4 cup"),  # 1/4 cup is 1 % more, then 2.9 % less
        (4.125, "4 tbsp 1/2 tsp"),  # 3.03 % over 4 tablespoons and 3.03 % under 4 1/4
        (4.25, "1/4 cup 1/4 tbsp"), (4.5, "1/4 cup 1/2 tbsp"), (4.75, "1/4 cup 3/4 tbsp"),
        (5, "1/4 cup 1 tbsp"), (5.15, "1/4 cup 1 tbsp"),
        (5.2, "1/3 cup"), (16 / 3, "1/3 cup"), (5.49, "1/3 cup"),  # 5 1/3 tablespoons, 2.6 % more and 2.9 % less
        (5.6, "1/4 cup 1 1/2 tbsp"), (6, "3/8 cup"), (6.18, "3/8 cup"),
        (19 / 3, "1/3 cup 1 tbsp"), (6.5, "1/3 cup 1 tbsp"),  # 6 1/3 tablespoons are 2.6 % less than 6 1/2
        (6.6, "1/4 cup 2 1/2 tbsp"),  # 6 1/3 are 4 % less, 6 1/2 1.5 %
        (6.75, "1/3 cup 1 1/2 tbsp"),  # 6 5/6 are 1.2 % more; 6 1/2 and 7 would be 3.7 % out
        (7, "1/4 cup 3 tbsp"), (7.5, "1/4 cup 3 1/2 tbsp"), (7.77, "1/2 cup"), (8, "1/2 cup"), (8.24, "1/2 cup"),
        (8.5, "1/2 cup 1/2 tbsp"), (9, "1/2 cup 1 tbsp"), (10, "5/8 cup"), (32 / 3, "2/3 cup"), (11, "1/2 cup 3 tbsp"), (11.3, "1/2 cup 3 tbsp"),
        (11.4, "2/3 cup 1 tbsp"),
        (12, "3/4 cup"), (12.5, "3/4 cup 1/2 tbsp"), (13, "3/4 cup 1 tbsp"), (14, "7/8 cup"), (15, "3/4 cup 3 tbsp"),
        (15.6, "1 cup"), (16, "1 cup"), (16.4, "1 cup"), (17, "1 cup 1 tbsp"), (18, "1 1/8 cups"), (19, "1 cup 3 tbsp"), (20, "1 1/4 cups"),
        (21, "1 1/3 cups"), (22, "1 3/8 cups"), (23, "1 1/4 cups 3 tbsp"), (24, "1 1/2 cups"), (28, "1 3/4 cups"), (32, "2 cups"), (40, "2 1/2 cups"),
        (42, "2 2/3 cups"), (160, "10 cups"),
    ],
)  # fmt: skip
def test_cups_from_a_quarter_of_a_cup(tablespoons: float, us: str) -> None:
    """Quarters, thirds or eighths of a cup within 3 %, and where there is none quarters or thirds with tablespoons beside them."""
    assert spoons(tablespoons) == us


@given(st.floats(0.01, 40_000))
def test_a_volume_is_never_more_than_three_per_cent_out(volume_ml: float) -> None:
    assert abs(read_quantity(US.volume(volume_ml), "volume", "v", "V") - volume_ml) <= 0.03 * volume_ml * (1 + 1e-6)


@pytest.mark.parametrize(
    "volume_ml, us", [(0.0, "0 tsp"), (0.009, "0 tsp"), (-0.009, "0 tsp"), (0.01, "0.002 tsp"), (-0.5, "-0.1 tsp"), (-CUP, "-1 cup")]
)
def test_next_to_nothing_and_less_than_nothing(volume_ml: float, us: str) -> None:
    """No spoon holds a hundredth of a millilitre (0.01 ml is 0.002 tsp); half a millilitre is a tenth of a teaspoon."""
    assert US.volume(volume_ml) == us


@given(st.floats(-10, 10), st.sampled_from(["metric", "us"]))
def test_nothing_is_minus_nothing_in_either_system(value: float, system: str) -> None:
    for write in ("length", "mass", "volume", "percent", "number", "area"):
        text = getattr(Formatter(system), write)(value)
        number = text.split(" ")[0]
        assert number != "-0" and (float(Fraction(number)) < 0) <= (value < 0), (write, text)


@pytest.mark.parametrize(
    "volume_ml, metric",
    [
        (0.009, "0 ml"), (0.01, "0.01 ml"), (0.0614, "0.06 ml"), (0.5, "0.5 ml"), (9.2, "9.2 ml"), (9.96, "10 ml"), (10.2, "10 ml"),
        (10.35, "10.4 ml"),
        (11.5, "11.5 ml"), (11.4, "11.4 ml"), (17.5, "18 ml"), (250.4, "250 ml"), (999.4, "999 ml"), (999.6, "1 l"), (1234, "1.23 l"),
        (-250, "-250 ml"),
    ],
)  # fmt: skip
def test_millilitres_and_litres(volume_ml: float, metric: str) -> None:
    """11 is 3.5 % less than 11.4; 12 is 4.3 % more than 11.5, rounded up as on paper, so a decimal is needed there too."""
    assert METRIC.volume(volume_ml) == metric


# --- ounces and pounds --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "ounces, us",
    [
        (0.2428, "1/4 oz"), (0.2427, "6.9 g"), (0.2, "5.7 g"), (1 / 4, "1/4 oz"), (5 / 16, "5/16 oz"), (3 / 8, "3/8 oz"), (7 / 16, "7/16 oz"),
        (0.28, "0.28 oz"), (0.3, "0.3 oz"), (0.294, "0.3 oz"), (0.295, "0.3 oz"),  # sixteenths are 4 % out and more; 0.3 is 2 % more than 0.294
        (9 / 16, "9/16 oz"), (5 / 8, "5/8 oz"), (11 / 16, "11/16 oz"), (3 / 4, "3/4 oz"), (7 / 8, "7/8 oz"), (1, "1 oz"), (1.12, "1 1/8 oz"),
        (1.3, "1 5/16 oz"), (1.25, "1 1/4 oz"), (2.36, "2 3/8 oz"), (4.1, "4 oz"), (4.13, "4 1/4 oz"), (8, "8 oz"), (12.13, "12 1/4 oz"),
        (15.75, "15 3/4 oz"),
        (15.87, "15 3/4 oz"), (15.88, "1 lb"), (16, "1 lb"), (16.24, "1 lb"), (16.26, "1 lb 1/2 oz"), (17, "1 lb 1 oz"), (20, "1 lb 4 oz"),
        (31.74, "1 lb 15 1/2 oz"), (31.76, "2 lb"), (40.5, "2 lb 8 1/2 oz"), (160, "10 lb"),
    ],
)  # fmt: skip
def test_ounces_and_pounds(ounces: float, us: str) -> None:
    """Quarters of an ounce, eighths or sixteenths where they are more than 3 % out, half ounces from a pound on, grams under a quarter."""
    assert US.mass(ounces * OUNCE) == us


@pytest.mark.parametrize(
    "mass_g, metric, us",
    [
        (0.009, "0 g", "0 oz"), (0.01, "0.01 g", "0.01 g"), (-0.009, "0 g", "0 oz"), (6.87, "6.9 g", "6.9 g"), (6.88, "6.9 g", "6.9 g"),
        (6.89, "6.9 g", "1/4 oz"),
        (9.2, "9.2 g", "0.32 oz"), (9.96, "10 g", "0.35 oz"), (10.2, "10 g", "0.36 oz"), (10.35, "10.4 g", "3/8 oz"),
        (999.4, "999 g", "2 lb 3 1/2 oz"),
        (999.5, "1 kg", "2 lb 3 1/2 oz"), (1234, "1.23 kg", "2 lb 11 1/2 oz"), (12_345, "12.35 kg", "27 lb 3 1/2 oz"),
    ],
)  # fmt: skip
def test_a_mass_in_both_systems(mass_g: float, metric: str, us: str) -> None:
    """999.5 g and 12.345 kg are halves of the last figure, and go up. A quarter of an ounce is within 3 % from 6.881 g (0.2427 oz) on."""
    assert METRIC.mass(mass_g) == metric and US.mass(mass_g) == us


@pytest.mark.parametrize(
    "mass_g, metric, us",
    [(0.0, "0 g", "0 oz"), (2.3, "2.3 g", "2.3 g"), (14.1, "14 g", "14 g"), (14.2, "14 g", "1/2 oz"), (56.7, "57 g", "2 oz")],
)
def test_what_is_weighed_out(mass_g: float, metric: str, us: str) -> None:
    """Under half an ounce, 14.17 g, it is grams in both."""
    assert METRIC.weighed(mass_g) == metric and US.weighed(mass_g) == us


def test_a_mass_known_to_the_hundred_grams_or_the_half_pound() -> None:
    """1.26 kg is 2.78 lb; 5.04 kg is 11.11 lb, which is 11 lb to the half; 40 g is nothing to the hundred, and nothing to the half pound."""
    assert [METRIC.about_mass(mass_g) for mass_g in (1260, 5040, 40)] == ["1.3 kg", "5 kg", "0 g"]
    assert [US.about_mass(mass_g) for mass_g in (1260, 5040, 40)] == ["3 lb", "11 lb", "0 oz"]
    assert US.about_mass(1150) == "2 lb 8 oz"  # 2.54 lb


def test_a_density_is_the_weight_of_a_cup() -> None:
    """Water, 0.998 g/ml at 20 °C: 236.12 g a cup, 8.33 oz; icing of 0.855 g/ml: 202.3 g, 7.14 oz."""
    assert US.density(0.998) == "8 1/4 oz a cup" and US.density(0.855) == "7 1/4 oz a cup"
    assert METRIC.density(0.998) == "1 g/ml" and METRIC.density(0.855) == "0.86 g/ml"


# --- inches, yards, centimetres -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "inches, us",
    [
        (0.004, "0.004 in"), (0.07, "0.07 in"), (0.1, "0.1 in"), (0.2, "0.2 in"), (0.195, "0.2 in"), (0.1949, "0.2 in"), (0.193, "3/16 in"),
        (1 / 16, "1/16 in"), (3 / 32, "3/32 in"), (1 / 8, "1/8 in"), (5 / 32, "5/32 in"), (7 / 32, "7/32 in"), (9 / 32, "9/32 in"), (3 / 4, "3/4 in"),
        (1 + 1 / 32, "1 1/32 in"), (1.04, "1 1/16 in"), (1.03, "1 in"), (2.53, "2 1/2 in"), (2.54, "2 9/16 in"), (19 + 15.47 / 16, "19 15/16 in"),
        (19.97, "20 in"),
        (20, "20 in"), (20.06, "20 in"), (20.0625, "20 1/8 in"), (20.1875, "20 1/4 in"), (36, "36 in"), (99.93, "99 7/8 in"),
        (100, "2.8 yd"), (108, "3 yd"), (734.4, "20.4 yd"), (3600, "100 yd"), (-0.5, "-1/2 in"), (-20.1875, "-20 1/4 in"), (-1.5, "-1 1/2 in"),
        (-108, "-3 yd"),
    ],
)  # fmt: skip
def test_inches_and_yards(inches: float, us: str) -> None:
    """Sixteenths, eighths from 20 in, thirty-seconds where sixteenths are more than 3 % out, then decimals; yards from 100 in (2.78 yd)."""
    assert US.length(inches * INCH) == us


@pytest.mark.parametrize(
    "length_mm, metric, steady",
    [
        (0.009, "0 mm", "0 cm"), (0.01, "0.01 mm", "0 cm"), (0.1, "0.1 mm", "0.01 cm"), (0.55, "0.55 mm", "0.055 cm"), (5, "5 mm", "0.5 cm"),
        (9.94, "9.9 mm", "1 cm"), (9.95, "1 cm", "1 cm"), (10.4, "1.04 cm", "1.04 cm"), (15.25, "1.5 cm", "1.5 cm"), (123.5, "12.4 cm", "12.4 cm"),
        (1999, "199.9 cm", "199.9 cm"), (2000, "2 m", "200 cm"), (2345, "2.35 m", "234.5 cm"), (-15, "-1.5 cm", "-1.5 cm"), (-5, "-5 mm", "-0.5 cm"),
    ],
)  # fmt: skip
def test_millimetres_centimetres_and_metres(length_mm: float, metric: str, steady: str) -> None:
    """Millimetres to a tenth under 9.95 mm, centimetres to the millimetre, metres from 2 m; on a sheet that compares figures all are centimetres.

    1.04 cm is 1 cm to the millimetre, 3.8 % less, so it says 1.04; 0.55 mm as 0.6 would be 9 % out."""
    assert METRIC.length(length_mm) == metric and Formatter(steady=True).length(length_mm) == steady


@pytest.mark.parametrize(
    "area_mm2, metric, us",
    [
        (0.4, "0 cm²", "0 sq in"), (0.51, "0.005 cm²", "0 sq in"), (3.2, "0.032 cm²", "0 sq in"), (3.3, "0.033 cm²", "0.005 sq in"),
        (100, "1 cm²", "0.155 sq in"), (150, "1.5 cm²", "0.23 sq in"), (645.16, "6.5 cm²", "1 sq in"), (3450, "35 cm²", "5.3 sq in"),
        (64_516, "645 cm²", "100 sq in"),
    ],
)  # fmt: skip
def test_areas(area_mm2: float, metric: str, us: str) -> None:
    """A square inch is 645.16 mm2: 0.005 of it, the least that is written, is 3.23 mm2, and 0.005 cm² is 0.5 mm2. 100 mm2 are 0.155 sq in."""
    assert METRIC.area(area_mm2) == metric and US.area(area_mm2) == us


def test_the_opening_of_a_tip_is_in_millimetres_everywhere() -> None:
    assert METRIC.opening(12.7) == US.opening(12.7) == "12.7 mm"
    assert METRIC.opening_beside(12.7) == "12.7 mm" and US.opening_beside(12.7) == "12.7 mm (1/2 in)"


# --- limits -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "system, kind, value, least, most",
    [
        ("metric", "length", 50, "5 cm", "5 cm"), ("metric", "length", 247.4, "24.8 cm", "24.7 cm"), ("us", "length", 50, "2 in", "1 15/16 in"),
        ("us", "length", 254, "10 in", "10 in"), ("us", "length", 254.1, "10 1/16 in", "10 in"), ("us", "length", 253.9, "10 in", "9 15/16 in"),
        ("us", "length", 1000, "39 3/8 in", "39 1/4 in"), ("metric", "mass", 1234, "1.24 kg", "1.23 kg"), ("us", "mass", 100, "3 5/8 oz", "3 1/2 oz"),
        ("us", "volume", 250, "1 cup 1 tbsp", "1 cup"), ("metric", "volume", 250, "250 ml", "250 ml"),
        ("metric", "duration", 90, "1 h 30 min", "1 h 30 min"),
        ("metric", "duration", 90.4, "1 h 31 min", "1 h 30 min"),
    ],
)  # fmt: skip
def test_limits_are_rounded_so_that_they_can_be_typed(system: str, kind: str, value: float, least: str, most: str) -> None:
    """247.4 mm is 24.74 cm: at least 24.8 and at most 24.7. 50 mm is 1.9685 in; 1 m 39.37 in; 254.1 mm 10.004 in;
    100 g 3.527 oz (from 3.61 oz on 3 1/2 would be more than 3 % out); 250 ml 16.9 tablespoons."""
    say = Formatter(system)
    assert say.most(kind, value) == most
    assert say.least(kind, value) == least


@given(st.floats(0.5, 5000), st.sampled_from(["length", "mass", "volume"]), st.sampled_from(["metric", "us"]))
def test_a_limit_that_is_told_is_taken(value: float, kind: str, system: str) -> None:
    say = Formatter(system)
    least, most = (read_quantity(write(kind, value), kind, "x", "X") for write in (say.least, say.most))
    assert most <= value <= least <= 1.12 * most


# --- adding up ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "counted, texts, whole",
    [
        # tablespoons, in the step that all parts are within 3 % of: quarters of a cup
        ((16, 8), ["1 cup", "1/2 cup"], "1 1/2 cups"), ((4, 8, 16.4), ["1/4 cup", "1/2 cup", "1 cup"], "1 3/4 cups"),
        ((8, 8), ["1/2 cup", "1/2 cup"], "1 cup"),
        ((4, 101), ["1/4 cup", "6 1/4 cups"], "6 1/2 cups"),
        # eighths of a cup
        ((6, 100.9), ["3/8 cup", "6 1/4 cups"], "6 5/8 cups"),
        ((6, 8), ["3/8 cup", "1/2 cup"], "7/8 cup"), ((2, 16), ["1/8 cup", "1 cup"], "1 1/8 cups"), ((10, 6), ["5/8 cup", "3/8 cup"], "1 cup"),
        # tablespoons
        ((5, 16), ["1/4 cup 1 tbsp", "1 cup"], "1 1/4 cups 1 tbsp"), ((1, 1), ["1 tbsp", "1 tbsp"], "2 tbsp"),
        ((5, 20.3), ["1/4 cup 1 tbsp", "1 1/4 cups"], "1 1/2 cups 1 tbsp"), ((17, 3), ["1 cup 1 tbsp", "3 tbsp"], "1 1/4 cups"),
        # half and quarter tablespoons
        ((1.5, 20.2), ["1 1/2 tbsp", "1 1/4 cups"], "1 1/4 cups 1 1/2 tbsp"),
        ((1.25, 20.2), ["1 1/4 tbsp", "1 1/4 cups 1/4 tbsp"], "1 1/4 cups 1 1/2 tbsp"),
        ((0.5, 1.75), ["1/2 tbsp", "1 3/4 tbsp"], "2 1/4 tbsp"), ((4.25, 4), ["1/4 cup 1/4 tbsp", "1/4 cup"], "1/2 cup 1/4 tbsp"),
        # quarters of a teaspoon
        ((1 / 12, 5.03), ["1/4 tsp", "1/4 cup 1 tbsp"], "1/4 cup 1 tbsp 1/4 tsp"),
        ((1 / 3, 1), ["1 tsp", "1 tbsp"], "1 tbsp 1 tsp"), ((1 / 12, 5), ["1/4 tsp", "1/4 cup 1 tbsp"], "1/4 cup 1 tbsp 1/4 tsp"),
        ((4 / 3, 16), ["1 tbsp 1 tsp", "1 cup"], "1 cup 1 tbsp 1 tsp"), ((2 / 3, 1 / 3), ["2 tsp", "1 tsp"], "1 tbsp"),
        # eighths and sixteenths of a teaspoon
        ((1 / 24, 1.013), ["1/8 tsp", "1 tbsp"], "1 tbsp 1/8 tsp"), ((1 / 48, 1), ["1/16 tsp", "1 tbsp"], "1 tbsp 1/16 tsp"),
        ((1 / 8, 4), ["3/8 tsp", "1/4 cup"], "1/4 cup 3/8 tsp"),
        # less than a fiftieth of a tablespoon is held to nothing; 0.021 of one is, and takes sixteenths of a teaspoon
        ((0.0199, 16), ["0 tsp", "1 cup"], "1 cup"), ((0.021, 16), ["1/16 tsp", "1 cup"], "1 cup 1/16 tsp"), ((0, 16), ["0 tsp", "1 cup"], "1 cup"),
    ],
)  # fmt: skip
def test_volumes_that_add_up_in_cups_and_spoons(counted: tuple[float, ...], texts: list[str], whole: str) -> None:
    written = US.adding_up("volume", [count * TBSP for count in counted])
    assert [written.text(count * TBSP) for count in counted] == texts
    assert written.text(*(count * TBSP for count in counted)) == whole


@pytest.mark.parametrize(
    "counted, texts, whole",
    [
        # ounces by halves, quarters, eighths, sixteenths and hundredths
        ((8, 16), ["8 oz", "1 lb"], "1 lb 8 oz"), ((20.35, 40), ["1 lb 4 1/2 oz", "2 lb 8 oz"], "3 lb 12 1/2 oz"),
        ((0.5, 7.5), ["1/2 oz", "7 1/2 oz"], "8 oz"),
        ((1.75, 20.34), ["1 3/4 oz", "1 lb 4 1/4 oz"], "1 lb 6 oz"), ((0.375, 20.09), ["3/8 oz", "1 lb 4 1/8 oz"], "1 lb 4 1/2 oz"),
        ((0.3125, 20.19), ["5/16 oz", "1 lb 4 3/16 oz"], "1 lb 4 1/2 oz"), ((0.28, 20.19), ["0.28 oz", "1 lb 4.19 oz"], "1 lb 4.47 oz"),
        ((0.0199, 8), ["0 oz", "8 oz"], "8 oz"), ((0.02, 8), ["0.02 oz", "8 oz"], "8.02 oz"), ((15.5, 0.5), ["15 1/2 oz", "1/2 oz"], "1 lb"),
    ],
)  # fmt: skip
def test_masses_that_add_up_in_pounds_and_ounces(counted: tuple[float, ...], texts: list[str], whole: str) -> None:
    written = US.adding_up("mass", [count * OUNCE for count in counted])
    assert [written.text(count * OUNCE) for count in counted] == texts
    assert written.text(*(count * OUNCE for count in counted)) == whole


@pytest.mark.parametrize(
    "kind, parts, texts, whole",
    [
        ("mass", (250.4, 749.4), ["250 g", "749 g"], "999 g"), ("mass", (250.4, 749.6), ["250 g", "750 g"], "1 kg"),
        ("mass", (1234.4, 1.0), ["1.234 kg", "1 g"], "1.235 kg"), ("mass", (10.5, 20.5), ["10.5 g", "20.5 g"], "31 g"),  # 11 is 4.8 % over 10.5
        ("mass", (2.25, 100.04), ["2.3 g", "100 g"], "102.3 g"), ("mass", (0.25, 100.04), ["0.25 g", "100.04 g"], "100.29 g"),
        ("mass", (0.019, 5), ["0 g", "5 g"], "5 g"), ("volume", (250.4, 749.6), ["250 ml", "750 ml"], "1 l"),
        ("volume", (12.34, 1000), ["12 ml", "1 l"], "1.012 l"),
    ],
)  # fmt: skip
def test_metric_amounts_that_add_up(kind: str, parts: tuple[float, ...], texts: list[str], whole: str) -> None:
    """Whole grams or millilitres, tenths where those are more than 3 % out, then hundredths."""
    written = METRIC.adding_up(kind, parts)
    assert [written.text(part) for part in parts] == texts
    assert written.text(*parts) == whole


# --- shared out ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "told_g, parts_g, texts",
    [
        (10.0, (10 / 3,) * 3, ["3.4 g", "3.3 g", "3.3 g"]),  # whole grams would be 4, 3 and 3, which is 20 % out
        # 16 would be 3.6 % under 16.6, so it takes the first of the two grams left; 99.75 has lost more than 50.65
        (167.0, (50.65, 16.6, 99.75), ["50 g", "17 g", "100 g"]),
        (100.0, (40.0, 60.0), ["40 g", "60 g"]),
        (999.0, (333.0, 666.0), ["333 g", "666 g"]),
        (1000.0, (333.4, 666.6), ["333 g", "667 g"]),  # from a kilogram on each by itself
        (1000.0, (333.5, 666.5), ["334 g", "667 g"]),
        (0.0, (0.0, 0.0), ["0 g", "0 g"]),
        (10.0, (0.0205, 10.0), ["0.02 g", "9.98 g"]),
        (10.0, (0.02, 10.0), ["0.02 g", "9.98 g"]),
        (10.0, (0.0199, 10.0), ["0 g", "10 g"]),  # a scale shows no fiftieth of a gram
        (10.4, (5.1, 5.3), ["5.1 g", "5.3 g"]),  # whole grams make no 10.4
    ],
)
def test_grams_shared_out_of_a_sum(told_g: float, parts_g: tuple[float, ...], texts: list[str]) -> None:
    shared = METRIC.shared_out(told_g, parts_g)
    assert [shared.write(mass) for mass in shared.masses_g] == texts
    if told_g < 1000:
        assert math.fsum(shared.masses_g) == pytest.approx(told_g, abs=0.009)
        assert shared.write(*shared.masses_g) == METRIC.mass(told_g)


@pytest.mark.parametrize(
    "told, parts, texts",
    [
        ((32, "2 lb"), (17.6, 14.4), ["1 lb 1 1/2 oz", "14 1/2 oz"]),
        ((8.75, "8 3/4 oz"), (4.375, 4.375), ["4 1/2 oz", "4 1/4 oz"]),  # by quarters: 2.9 % out each
        ((3, "3 oz"), (1.1, 1.9), ["1 1/8 oz", "1 7/8 oz"]),  # by halves 9 % out, by quarters 14 %, by eighths 2.3 %
        ((2, "2 oz"), (0.3125, 1.6875), ["5/16 oz", "1 11/16 oz"]),
        ((1, "1 oz"), (0.21875, 0.78125), ["7/32 oz", "25/32 oz"]),
        ((1, "1 oz"), (0.109375, 0.890625), ["7/64 oz", "57/64 oz"]),
        ((16, "1 lb"), (8, 8), ["8 oz", "8 oz"]),
        ((64, "4 lb"), (40.25, 23.75), ["2 lb 8 1/2 oz", "1 lb 7 1/2 oz"]),  # the half ounce that is left goes to the first of two equal losses
    ],
)
def test_ounces_shared_out_of_a_sum(told: tuple[float, str], parts: tuple[float, ...], texts: list[str]) -> None:
    shared = US.shared_out(told[0] * OUNCE, [part * OUNCE for part in parts])
    assert [shared.write(mass) for mass in shared.masses_g] == texts
    assert shared.write(*shared.masses_g) == told[1]


def test_the_mass_that_is_told_is_the_one_that_is_read() -> None:
    """1,137.8 g is told as 1.14 kg; 910 g is 32.1 oz, told as 2 lb, which is 907.18474 g."""
    assert METRIC.told_mass_g(1137.8) == 1140 and US.told_mass_g(910) == 907.18474


# --- times, money, dates -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "time_min, said, worked",
    [
        (0, "0 min", "0 min"), (0.5, "30 s", "30 s"), (0.99, "59 s", "59 s"), (1, "1 min", "1 min"), (1.4, "1 min", "1 min"),
        (45, "45 min", "45 min"),
        (59.6, "1 h", "1 h"), (60, "1 h", "1 h"), (61, "1 h 1 min", "1 h 1 min"), (1439, "23 h 59 min", "23 h 59 min"), (1440, "1 d", "24 h"),
        (1441, "1 d 1 min", "24 h 1 min"), (1500, "1 d 1 h", "25 h"), (2 * 1440 + 125, "2 d 2 h 5 min", "50 h 5 min"),
    ],
)  # fmt: skip
def test_times(time_min: float, said: str, worked: str) -> None:
    """Work is told in hours however long it is, since it is paid by the hour."""
    assert METRIC.duration(time_min) == said and US.working_time(time_min) == worked


@pytest.mark.parametrize(
    "value, plain, pounds",
    [(0, "0.00", "£0.00"), (3.625, "3.63", "£3.63"), (-3.5, "-3.50", "-£3.50"), (-0.004, "0.00", "£0.00"), (1250, "1250.00", "£1250.00")],
)
def test_money_with_the_sign_of_its_currency(value: float, plain: str, pounds: str) -> None:
    assert METRIC.money(value) == plain and Formatter(currency="£").money(value) == pounds


@pytest.mark.parametrize(
    "hour, minute, metric, us, short",
    [
        (0, 0, "00:00", "12:00 AM", "12a"), (0, 30, "00:30", "12:30 AM", "12a"), (1, 5, "01:05", "1:05 AM", "1a"),
        (11, 59, "11:59", "11:59 AM", "11a"),
        (12, 0, "12:00", "12:00 PM", "12p"), (13, 9, "13:09", "1:09 PM", "1p"), (18, 5, "18:05", "6:05 PM", "6p"),
        (23, 0, "23:00", "11:00 PM", "11p"),
    ],
)  # fmt: skip
def test_hours_of_the_day(hour: int, minute: int, metric: str, us: str, short: str) -> None:
    at = dt.time(hour, minute)
    assert (METRIC.clock(at), US.clock(at)) == (metric, us)
    assert (METRIC.hour(hour), US.hour(hour), US.hour(hour + 24)) == (str(hour), short, short)


@pytest.mark.parametrize(
    "moment, metric, us",
    [
        ((2027, 10, 16, 18, 0), "Sat 16 October 2027, 18:00", "Sat, October 16, 2027, 6:00 PM"),
        ((2027, 1, 4, 0, 30), "Mon 4 January 2027, 00:30", "Mon, January 4, 2027, 12:30 AM"),
        ((2028, 12, 31, 9, 5), "Sun 31 December 2028, 09:05", "Sun, December 31, 2028, 9:05 AM"),
    ],
)
def test_a_date_in_both_forms(moment: tuple[int, int, int, int, int], metric: str, us: str) -> None:
    assert METRIC.moment(dt.datetime(*moment)) == metric and US.moment(dt.datetime(*moment)) == us


def test_plain_numbers_and_percentages() -> None:
    assert [METRIC.number(value) for value in (2.0, 1.005, -1.005, 1.234, -0.001, 100.0)] == ["2", "1.01", "-1.01", "1.23", "0", "100"]
    assert METRIC.number(1.25, 1) == "1.3" and METRIC.number(150, 0) == "150"
    assert METRIC.percent(100) == "100 %" and METRIC.percent(0.05) == "0.1 %" and METRIC.percent(0.04) == "0 %"
    assert METRIC.temperature(-18.0, -0.4) == "-18 °C (0 °F)" and US.temperature(21.5, 70.5) == "71 °F (22 °C)"
    assert METRIC.language == "en-GB" and US.language == "en-US"


# --- words ----------------------------------------------------------------------------------------------------------------


def test_words_in_a_list_and_with_a_capital() -> None:
    assert (
        listed(["bay"]) == "bay" and listed(["bay", "fig"]) == "bay and fig" and listed(["bay", "fig", "oat", "rye"], "or") == "bay, fig, oat or rye"
    )
    assert capitalised("open Star") == "Open Star" and capitalised("x") == "X"
    assert [letter_of(number) for number in (0, 1, 25, 26, 51, 52)] == ["A", "B", "Z", "AA", "ZZ", "AAA"]


def test_words_in_the_name_of_a_file() -> None:
    assert file_name_part("Ærø 2, top/tier!") == "r-2-top-tier"
    assert file_name_part("a" * 61) == "a" * 60 and file_name_part("a" * 59 + " b") == "a" * 59, "sixty letters at most, and no hyphen at the end"
    assert file_name_part("??") == "tier"
