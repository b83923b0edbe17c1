"""Temperatures and times that the cautions quote, with both figures as each publication prints them.

- Food Code, US Food and Drug Administration, 2022 edition (the sections were read in state adoptions of earlier editions;
  the figures of 2022 are from memory): 3-501.16 holding, 3-501.19 time as a public health control.
- USDA Food Safety and Inspection Service, the 2-hour rule (2016). Its Celsius figures are from memory.
- US Centers for Disease Control and Prevention, advice on egg mixtures (2013).
- Food Safety and Hygiene (England) Regulations 2013, SI 2013/2996, schedule 4.
- H. McGee, On Food and Cooking (2004): firm ball, 245 to 250 F, 118 to 121 C.
- C. A. Browne, A Handbook of Sugar Analysis (1912): boiling points of sucrose solutions.

Printed pairs are rounded, so one is never worked out from the other: 135 F is 57.2 C and is printed 57; 70 F is 21.1 and is
printed 21; 160 F is 71.1 and is printed 71.
"""

from __future__ import annotations

import pytest

from calc.buttercream import RECIPES, TEMPERATURES, cautions, syrup_percent
from calc.buttercream_data import HOT_DAY_HOURS, ROOM_HOURS, SYRUP_BOILS
from calc.units import Formatter

PRINTED = (
    ("cold", 5, 41, "food-code"),
    ("hot", 57, 135, "food-code"),
    ("six_hours", 21, 70, "food-code"),
    ("danger_low", 4.4, 40, "fsis-2-hour"),
    ("danger_high", 60, 140, "fsis-2-hour"),
    ("hot_day", 32.2, 90, "fsis-2-hour"),
    ("egg", 71, 160, "egg-advice"),
    ("firm_ball_low", 118, 245, "mcgee-2004"),
    ("firm_ball_high", 121, 250, "mcgee-2004"),
    ("england_chill", 8, 46.4, "si-2013-2996"),
)


@pytest.mark.parametrize(("key", "celsius", "fahrenheit", "source"), PRINTED)
def test_both_printed_figures_are_kept(key: str, celsius: float, fahrenheit: float, source: str) -> None:
    pair = TEMPERATURES[key]
    assert (pair.celsius, pair.fahrenheit, pair.source) == (celsius, fahrenheit, source)


def test_no_temperature_stands_without_a_printed_pair_here() -> None:
    assert set(TEMPERATURES) == {key for key, *_ in PRINTED}


# What the arithmetic gives, beside what is printed: (printed F, exact C, printed C).
@pytest.mark.parametrize(
    ("key", "exact"),
    [("cold", 5.0), ("hot", 57.22), ("six_hours", 21.11), ("danger_low", 4.44), ("danger_high", 60.0), ("hot_day", 32.22), ("egg", 71.11)],
)
def test_printed_celsius_is_the_rounded_fahrenheit(key: str, exact: float) -> None:
    pair = TEMPERATURES[key]
    assert (pair.fahrenheit - 32) * 5 / 9 == pytest.approx(exact, abs=0.005)
    assert abs(pair.celsius - exact) < 0.5


@pytest.mark.parametrize("key", ["hot", "six_hours", "egg"])
def test_converting_a_printed_celsius_back_would_print_another_fahrenheit(key: str) -> None:
    pair = TEMPERATURES[key]
    assert pair.celsius * 9 / 5 + 32 != pair.fahrenheit
    assert f"{pair.fahrenheit:.0f} °F" in Formatter("metric").temperature(pair.celsius, pair.fahrenheit)


def test_two_hours_and_one_on_a_hot_day() -> None:
    assert (ROOM_HOURS, HOT_DAY_HOURS) == (2, 1)
    assert ROOM_HOURS.source.key == HOT_DAY_HOURS.source.key == "fsis-2-hour"


@pytest.mark.parametrize("recipe", sorted(RECIPES))
@pytest.mark.parametrize(
    ("units", "phrases"),
    [
        (
            "metric",
            (
                "2 hours between 4 °C (40 °F) and 60 °C (140 °F)",
                "1 hour above 32 °C (90 °F)",
                "5 °C (41 °F) or less",
                "4 hours, or 6 when it never passes 21 °C (70 °F)",
                "written time plan",
                "in England",
                "8 °C (46 °F) or less",
            ),
        ),
        (
            "us",
            (
                "2 hours between 40 °F (4 °C) and 140 °F (60 °C)",
                "1 hour above 90 °F (32 °C)",
                "41 °F (5 °C) or less",
                "70 °F (21 °C)",
                "8 °C (46 °F) or less",
            ),
        ),
    ],
)
def test_every_recipe_says_how_long_it_may_stand(recipe: str, units: str, phrases: tuple[str, ...]) -> None:
    said = " ".join(cautions(recipe, units))
    for phrase in phrases:
        assert phrase in said


@pytest.mark.parametrize("recipe", sorted(RECIPES))
def test_no_recipe_is_called_shelf_stable(recipe: str) -> None:
    # No published water activity of a buttercream was found, so nothing may say that one keeps at room temperature.
    said = " ".join((*cautions(recipe), RECIPES[recipe].keeping.note, RECIPES[recipe].summary)).lower()
    assert "shelf" not in said and "no need to chill" not in said
    assert "nothing here says that this buttercream keeps at room temperature" in said


def test_swiss_meringue_is_cooked_to_the_printed_temperature_or_pasteurised() -> None:
    said = " ".join(cautions("swiss_meringue"))
    assert "71 °C (160 °F)" in said and "pasteurised" in said


def test_italian_meringue_names_firm_ball_and_does_not_trust_it_blindly() -> None:
    said = " ".join(cautions("italian_meringue"))
    assert "118 °C (245 °F) to 121 °C (250 °F)" in said and "71 °C (160 °F)" in said and "burns" in said


def test_hot_syrup_alone_stops_just_short_of_the_printed_temperature() -> None:
    # A heat balance, computed here: syrup at 118 C of 86 % sugar (specific heats from memory: sugar 1.24, water 4.18, white
    # 3.8 kJ/kg K) into whites at 20 C, nothing lost to the bowl. This is why the caution says to measure, or to take
    # pasteurised white.
    parts = {part.ingredient: part.mass_g for part in RECIPES["italian_meringue"].parts}
    water = parts["water"] - RECIPES["italian_meringue"].evaporates_g
    syrup, whites = parts["sugar"] * 1.24 + water * 4.18, parts["egg_white"] * 3.8
    mixed = (syrup * 118 + whites * 20) / (syrup + whites)
    assert mixed == pytest.approx(69.2, abs=0.2)
    assert mixed < TEMPERATURES["egg"].celsius
    assert "comes close to that and no further" in " ".join(cautions("italian_meringue"))


# --- Browne's table ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("celsius", "percent"),
    [(106.5, 70), (107.4, 72), (108.4, 74), (109.4, 76), (110.6, 78), (112.0, 80), (113.9, 82), (116.3, 84), (119.3, 86), (123.1, 88), (127.8, 90)],
)
def test_boiling_points_of_sucrose_solutions(celsius: float, percent: float) -> None:
    assert syrup_percent(celsius) == percent


def test_table_is_in_order() -> None:
    assert list(SYRUP_BOILS) == sorted(SYRUP_BOILS)


def test_firm_ball_is_85_to_87_per_cent_sugar() -> None:
    low, high = TEMPERATURES["firm_ball_low"].celsius, TEMPERATURES["firm_ball_high"].celsius
    assert syrup_percent(low) == pytest.approx(85.1, abs=0.1)
    assert syrup_percent(high) == pytest.approx(86.9, abs=0.1)
