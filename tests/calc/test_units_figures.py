"""Examples and hints in round US figures, dates and hours as Americans write them, money to the hundredth, and what is kept of a thing.

An inch is 25.4 mm, an ounce 28.349523125 g, a pound 16 ounces, a cup 236.5882365 ml and a quart 4 cups (NIST SP 811, appendix B). A round
figure goes to the step beside each table: the finer a thing is, the finer the step.
"""

from __future__ import annotations

import pytest

from calc import units


def row(text: str) -> list[tuple[str, str]]:
    """Cases written as metric = US, one after another with bars between them."""
    return [(metric.strip(), us.strip()) for metric, us in (case.split("=") for case in text.split("|"))]


@pytest.mark.parametrize(
    "metric, us",
    row(
        # sixteenths under 1/4 in (a half step less, 5.56 mm): 0.63, 1.26, 1.89, 2.5, 3.15 and 3.46 of them
        "0.5 mm = 1/16 in | 1 mm = 1/16 in | 2 mm = 1/16 in | 3 mm = 1/8 in | 4 mm = 3/16 in | 5 mm = 3/16 in | 5.5 mm = 3/16 in |"
        # eighths under 1 in (to 23.8 mm): 1.76, 1.89, 2.4, 2.5, 3.15, 3.8, 4.7, 6.3, 6.9 and 7.5 of them
        "5.6 mm = 1/4 in | 6 mm = 1/4 in | 7.5 mm = 1/4 in | 8 mm = 3/8 in | 10 mm = 3/8 in | 12 mm = 1/2 in | 15 mm = 5/8 in |"
        "20 mm = 3/4 in | 22 mm = 7/8 in |"
        "23.8 mm = 7/8 in | 23.9 mm = 1 in | 25 mm = 1 in |"
        # quarters under 10 in (to 25.08 cm): 4.7, 5.5, 6.3, 7.1 of them; whole inches where they are within 2 %
        "30 mm = 1 1/4 in | 35 mm = 1 1/2 in | 40 mm = 1 1/2 in | 45 mm = 1 3/4 in | 5 cm = 2 in | 62 mm = 2 1/2 in | 65 mm = 2 1/2 in |"
        "80 mm = 3 1/4 in | 75 mm = 3 in | 9 cm = 3 1/2 in | 10 cm = 4 in | 24 cm = 9 1/2 in | 24.5 cm = 9 3/4 in | 25 cm = 10 in |"
        # 18.14 cm is 7.142 in, 1.99 % over 7; 18.16 cm is 7.150 in, 2.09 % over it, and 28.6 quarters
        "18.14 cm = 7 in | 18.16 cm = 7 1/4 in |"
        # whole inches from there: 9.88, 10.43, 10.63, 25.98 and 59.06
        "25.1 cm = 10 in | 26.5 cm = 10 in | 27 cm = 11 in | 66 cm = 26 in | 1.5 m = 59 in"
    ),
)
def test_a_length_as_a_round_figure(metric: str, us: str) -> None:
    assert units.in_us_figures(metric) == us


@pytest.mark.parametrize(
    "metric, us",
    row(
        # less than 7 g is weighed in grams by everyone
        "5 g = 5 g | 6.9 g = 6.9 g |"
        # quarter ounces under 4 oz (to 109.8 g): 0.99, 1.4, 2.1, 2.8, 3.5, 7.05, 8.5, 10.6, 14.1 and 15.4 of them
        "7 g = 1/4 oz | 10 g = 1/4 oz | 15 g = 1/2 oz | 20 g = 3/4 oz | 25 g = 1 oz | 50 g = 1 3/4 oz | 60 g = 2 oz | 75 g = 2 3/4 oz |"
        "100 g = 3 1/2 oz | 109 g = 3 3/4 oz |"
        # half ounces under 8 oz (to 219.7 g): 7.8, 8.5 (quarters would be 16.9), 8.8, 10.6, 12.35, 13.5, 14.8 and 15.45 of them
        "110 g = 4 oz | 120 g = 4 oz | 125 g = 4 1/2 oz | 150 g = 5 1/2 oz | 175 g = 6 oz | 192 g = 7 oz | 210 g = 7 1/2 oz | 219 g = 7 1/2 oz |"
        # two ounces at a time from there, unless whole ounces are within 2 %: 7.76, 8.29, 8.82, 9.7, 10.58, 11.99 and 14.11 oz
        "220 g = 8 oz | 235 g = 8 oz | 250 g = 8 oz | 275 g = 10 oz | 300 g = 10 oz | 340 g = 12 oz | 400 g = 14 oz | 439 g = 16 oz |"
        # half pounds from 440 g (0.97 lb): 1.9, 2.2, 2.6, 3.3, 3.97, 5.3, 18.5 and 19.4 of them; whole pounds from 9.75 lb (10.4, 11.02, 13.2)
        "440 g = 1 lb | 500 g = 1 lb | 600 g = 1 1/2 lb | 750 g = 1 1/2 lb | 900 g = 2 lb | 1.2 kg = 2 1/2 lb | 4.2 kg = 9 1/2 lb |"
        "4.4 kg = 9 1/2 lb | 4.7 kg = 10 lb | 5 kg = 11 lb | 6 kg = 13 lb"
    ),
)
def test_a_mass_as_a_round_figure(metric: str, us: str) -> None:
    assert units.in_us_figures(metric) == us


@pytest.mark.parametrize(
    "metric, us",
    row(
        # quarter cups under 1 cup (to 207 ml): 0.8, 1.01, 1.7, 2.5, 3.4 and 3.48 of them
        "50 ml = 1/4 cup | 60 ml = 1/4 cup | 100 ml = 1/2 cup | 150 ml = 3/4 cup | 200 ml = 3/4 cup | 206 ml = 3/4 cup |"
        # half cups from there: 1.76, 2.03, 2.1, 2.5 and 4.2 of them; more than one cup is cups, and one cup is not
        "208 ml = 1 cup | 240 ml = 1 cup | 250 ml = 1 cup | 300 ml = 1 1/2 cups | 0.5 l = 2 cups | 1499 ml = 6 1/2 cups |"
        # quarts from 1.5 l: 1.6, 2.1 and 4.2
        "1500 ml = 2 qt | 2 l = 2 qt | 4 l = 4 qt"
    ),
)
def test_a_volume_as_a_round_figure(metric: str, us: str) -> None:
    assert units.in_us_figures(metric) == us


@pytest.mark.parametrize(
    "metric, us",
    row(
        "25 x 50 mm = 1 x 2 in | 15, 20 and 25 cm = 6, 8 and 10 in | 5 to 10 g = 1/4 to 1/4 oz | 2 to 5 g = 2 to 5 g | 250 or 500 ml = 1 or 2 cups |"
        "500 or 250 ml = 2 or 1 cup | 300 g or 1 kg = 10 oz or 2 lb | 400 to 500 g = 1 to 1 lb | 1 to 2 l = 1 to 2 qt"
    ),
)
def test_several_figures_with_one_unit_are_all_in_one_unit(metric: str, us: str) -> None:
    """The largest of them tells the unit: ounces or pounds, and grams only where all are under 7 g."""
    assert units.in_us_figures(metric) == us


@pytest.mark.parametrize(
    "text",
    ["petal 11 mm", "open star 7 mm", "round 2 mm", "leaf 8 mm", "ruffle 15 mm", "basket 12 mm", "opening 5 mm", "5 mm/s", "2 min", "36 guests"],
)
def test_what_is_no_amount_or_a_tip_stays(text: str) -> None:
    assert units.in_us_figures(text) == text


@pytest.mark.parametrize(
    "said, us",
    [
        ("Side is empty. Write it like 66 cm", "Side is empty. Write it like 26 in"),
        ("such as 250 g; 500 g", "such as 8 oz; 1 lb"),
        ("Write it like 15 cm or 6 in", "Write it like 15 cm or 6 in"),
        ("like 250 g or 9 oz", "like 250 g or 9 oz"),
        ("Width is 66 cm", "Width is 66 cm"),  # no example, but what was typed
        ("left empty: 3 mm", "left empty: 1/8 in"),
    ],
)
def test_examples_in_a_sentence(said: str, us: str) -> None:
    assert units.us_examples(said) == us


@pytest.mark.parametrize(
    "text, us",
    [
        ("2027-01-05 09:00", "January 5, 2027 9:00 AM"),
        ("2027-02-28T11:59", "February 28, 2027 11:59 AM"),
        ("2027-10-16 18:00", "October 16, 2027 6:00 PM"),
        ("2027-12-31 12:00", "December 31, 2027 12:00 PM"),
        ("5 June 2027 00:30", "June 5, 2027 12:30 AM"),
        ("Mon to Fri 8:00 to 13:05", "Mon to Fri 8:00 AM to 1:05 PM"),
        ("23:00 or 24:00", "11:00 PM or 12:00 AM"),
        ("2027-10-16", "2027-10-16"),  # a day by itself is no order's moment
    ],
)
def test_dates_and_hours_for_americans(text: str, us: str) -> None:
    """Midnight is 12 AM and noon 12 PM (NIST, Times of Day FAQs: a convention, and the clock beside it says which)."""
    assert units.us_hours(text) == us


def test_a_hint_with_amounts_and_hours() -> None:
    assert units.us_hint("20 cm, from 18:00") == "8 in, from 6:00 PM"
    assert units.us_hint("20 cm or 8 in, from 18:00") == "20 cm or 8 in, from 6:00 PM", "both systems stand there already"
    assert units.us_hint('20 cm (8")') == '20 cm (8")'


@pytest.mark.parametrize(
    "amount, rounded",
    [
        (1.2349, 1.23), (1.235, 1.24), (-1.235, -1.24), (0.0, 0.0), (12.0, 12.0), (0.46, 0.46), (0.005, 0.01), (0.00499997, 0.0),
        (0.1 + 0.1 + 0.1 + 0.035, 0.34), (4.999999998, 5.0), (0.004999998, 0.01), (float("inf"), float("inf")),
    ],
)  # fmt: skip
def test_money_to_the_hundredth(amount: float, rounded: float) -> None:
    """Halves go up; a half that a sum of floats leaves a ten-millionth of a hundredth short is still a half, three millionths are not."""
    assert units.hundredths(amount) == rounded


def test_an_amount_that_is_no_number_stays_one() -> None:
    assert units.hundredths(float("nan")) != units.hundredths(float("nan"))


def test_what_is_kept_of_a_thing_is_for_that_thing() -> None:
    one, alike = ["a"], ["a"]
    kept = {units.Same(one): 1}
    assert kept[units.Same(one)] == 1 and units.Same(alike) not in kept
    assert units.Same(one) != one


def test_factors_are_the_exact_ones() -> None:
    """To 15 digits: a meter is 1000 mm, a day 1440 min, a kilogram 1000 g, a liter 1000 ml, a centiliter 10 ml."""
    assert [units.factor("length", unit) for unit in ("millimeter", "centimeter", "meter", "inch", "foot", "yard")] == [
        1,
        10,
        1000,
        25.4,
        304.8,
        914.4,
    ]
    assert [units.factor("mass", unit) for unit in ("gram", "kilogram", "ounce", "pound", "butter_stick")] == [
        1,
        1000,
        28.349523125,
        453.59237,
        113.398,
    ]
    assert [units.factor("volume", unit) for unit in ("centiliter", "liter", "cup", "quart")] == [10, 1000, 236.5882365, 946.352946]
    assert [units.factor("duration", unit) for unit in ("minute", "hour", "day", "week")] == [1, 60, 1440, 10080]
