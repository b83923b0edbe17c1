"""What a person types, read; what the bench says, written.

The definitions held in memory are checked against pint's full registry, so that a slip in one of them cannot stay.
"""

from __future__ import annotations

import datetime as dt
import math
import re

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import units
from calc.units import (
    DEFINITIONS,
    Formatter,
    Problem,
    Problems,
    kitchen,
    read_choice,
    read_count,
    read_moment,
    read_number,
    read_pair,
    read_quantity,
    read_text,
)

FULL = pint.UnitRegistry()
OURS = units.registry()
DEFINED = [line.split("=")[0].strip() for line in DEFINITIONS.strip().splitlines() if "[" not in line]
NOT_IN_PINT = {"metric_cup", "butter_stick"}  # defined here, checked below
POLITE = re.compile(r"\b(please|sorry|invalid|oops|error)\b", re.IGNORECASE)


def length(text: str, bare: str = "") -> float:
    return read_quantity(text, "length", "width", "Width", bare)


# --- definitions ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [n for n in DEFINED if not n.endswith("-") and n not in NOT_IN_PINT | {"count", "radian"}])
def test_definition_is_pints_own(name: str) -> None:
    ours = OURS.Quantity(1, name).to_base_units()  # type: ignore[attr-defined]
    full = FULL.Quantity(1, name).to_base_units()
    scale = 1e-3 if full.dimensionality == {"[mass]": 1} else 1.0  # pint's base of mass is the kilogram, ours the gram
    assert str(ours.dimensionality) == str(full.dimensionality)
    assert math.isclose(ours.magnitude * scale, full.magnitude, rel_tol=1e-14)


def test_measures_that_pint_lacks() -> None:
    assert math.isclose(read_quantity("1 metric cup", "volume", "v", "Volume"), 250)
    # NIST SP 430 and the US trade: a stick of butter is a quarter of a pound.
    assert math.isclose(read_quantity("4 sticks", "mass", "m", "Mass"), 453.592, rel_tol=1e-5)


def test_every_spelling_names_a_unit_of_its_kind() -> None:
    for kind, table in kitchen.UNIT_OF.items():
        for spelling, unit in table.items():
            assert kitchen.factor(kind, unit) > 0, spelling
            assert read_quantity(f"2 {spelling}", kind, "x", "X") > 0


def test_a_spelling_means_one_thing_in_its_kind() -> None:
    for table in kitchen.SPELLINGS.values():
        spellings = [s for words in table.values() for s in words]
        assert len(spellings) == len(set(spellings))


# --- reading ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, width_mm",
    [
        ("6 in", 152.4), ('6"', 152.4), ("6″", 152.4), ("6 inches", 152.4), ("½ in", 12.7), ("1 1/2 in", 38.1),
        ("1½ in", 38.1), ("1-1/2 in", 38.1), ("15,5 cm", 155), ("15.5cm", 155), ("155", 155), ("0.155 m", 155),
        ("  20  CM  ", 200), ("20\u00a0cm", 200), ("1 ft 2 in", 355.6), ("5' 1\"", 1549.4), (".5 in", 12.7),
        ("1/2 in", 12.7), ("66 cm.", 660), ("2 yd", 1828.8), ("1e2 mm", 100), ("-3 cm", -30), ("−3 cm", -30),
        ("3/8 in", 9.525), ("10 mm, 2 cm", 30), ("١٢ cm", 120), ("6 inch round", 152.4), ('8" round', 203.2), ('3 1/2" cutter', 88.9),
        ("6-inch round pan", 152.4), ("about 6 in", 152.4), ("round 6 in", 152.4), ("6 inches in diameter", 152.4), ("half an inch", 12.7),
        ("a quarter of an inch", 6.35), ("three quarters of an inch", 19.05), ("one and a half inches", 38.1), ("an inch", 25.4),
        ("2 and a half in", 63.5), ("a half-inch", 12.7),
        ("1 ft 2", 355.6), ("5’ 1”", 1549.4), ("⅜” thick", 9.525), ("1,250.5 mm", 1250.5), ("1.250,5 mm", 1250.5),
        ("two feet", 609.6), ("20 round", 20), ("20 cm tin", 200),
    ],
)  # fmt: skip
def test_length_as_people_type_it(typed: str, width_mm: float) -> None:
    assert length(typed, "millimeter") == pytest.approx(width_mm, abs=1e-9)


@pytest.mark.parametrize(
    "typed, kind, value",
    [
        ("1 lb 4 oz", "mass", 566.9904625), ("2,5 kg", "mass", 2500), ("9 oz", "mass", 255.145708125),
        ("1 1/2 cups", "volume", 354.882355), ("3 tbsp", "volume", 44.36029434), ("1 fl oz", "volume", 29.5735295625),
        ("½ l", "volume", 500), ("1 h 30 min", "duration", 90), ("1.5 h", "duration", 90), ("2 days", "duration", 2880),
        ("1 week", "duration", 10080), ("half a cup", "volume", 118.29411825), ("5 lb of butter", "mass", 2267.96185),
        ("2 lb 4", "mass", 1020.5828325), ("1 h 30", "duration", 90), ("half an hour", "duration", 30),
        ("30 s", "duration", 0.5), ("2 sticks", "mass", 226.796),
    ],
)  # fmt: skip
def test_other_kinds_as_people_type_them(typed: str, kind: str, value: float) -> None:
    assert read_quantity(typed, kind, "x", "X") == pytest.approx(value, rel=1e-8)


BAD = [
    "", "   ", "abc", "6 in by mistake", "5 kg", "🎂", "6 🎂", "10" * 5000, "a" * 10_000, "1/0 in", "cm", "..", "1..2 cm",
    "6 6 6", "1,000 mm", "NaN", "inf cm", "6 in 5", "<b>6</b>", "6 furlongs", "\x00", "6;7 cm", "0x10 cm", "1e999 cm",
    "6-8 in", "6 to 8 in", "9x13", "9 x 13 in", "half a dozen", "6 in by 8 in", "½½ in", "1 2 3/4 in", "--3 cm", "3 - cm", "+-3 cm",
]  # fmt: skip


@pytest.mark.parametrize("typed", BAD, ids=[repr(b)[:20] for b in BAD])
def test_what_is_not_a_length_is_said(typed: str) -> None:
    with pytest.raises(Problem) as caught:
        length(typed)
    problem = caught.value
    assert problem.input == "width"
    assert "Width" in problem.message
    assert len(problem.message) < 300, "a message is short, whatever was typed"
    assert not POLITE.search(problem.message)
    assert re.search(r"[Ww]rite", problem.message), "and says what to do"


def test_words_after_a_measurement_are_named() -> None:
    with pytest.raises(Problem, match="by mistake"):
        length("6 in by mistake")


def test_a_weight_for_a_length_is_named() -> None:
    with pytest.raises(Problem, match="is a weight"):
        length("5 kg")


def test_thousands_are_asked_about() -> None:
    with pytest.raises(Problem, match="1000 or 1.000"):
        length("1,000 mm")


def test_a_billion_metres_is_read_so_that_the_limit_can_be_said() -> None:
    assert length("1e9 m") == 1e12


@given(st.text(max_size=60))
def test_any_text_is_a_length_or_a_problem(typed: str) -> None:
    for kind in ("length", "mass", "volume", "duration"):
        try:
            value = read_quantity(typed, kind, "x", "X", "")
        except Problem:
            continue
        assert math.isfinite(value)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_everywhere(typed: str) -> None:
    for read in (read_number, read_count, read_moment, read_pair, read_text, units.read_money):
        try:
            read(typed, "x", "X")
        except Problem as problem:
            assert problem.input == "x" and problem.message


KITCHEN = {"length": (0.02, 9000), "mass": (0.02, 90_000), "volume": (0.02, 90_000), "duration": (1, 10_000)}


@given(st.sampled_from(sorted(KITCHEN)), st.floats(0, 1), st.sampled_from(["metric", "us"]))
def test_what_is_written_is_close_and_reads_back(kind: str, share: float, system: str) -> None:
    """A text is at most 3 % from its value, over all that a kitchen measures; times go to the whole minute."""
    low, high = KITCHEN[kind]
    value = low * (high / low) ** share
    text = getattr(Formatter(system), kind)(value)
    back = read_quantity(text, kind, "x", "X")
    assert abs(back - value) <= (0.5 if kind == "duration" else 0.03 * value) + 1e-9, text


@given(st.floats(0.001, 1e6), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_a_number_with_a_unit_is_exact(number: float, unit: str) -> None:
    text = f"{number:.6f}"
    expected = float(text) * {"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "ft": 304.8}[unit]
    assert length(f"{text} {unit}") == pytest.approx(expected, rel=1e-12)
    assert length(f"{text.replace('.', ',')} {unit}") == pytest.approx(expected, rel=1e-12)


# --- numbers, pairs, counts, choices, moments, words ------------------------------------------------------------------


@pytest.mark.parametrize("typed, number", [("5", 5), ("2,5", 2.5), ("1 1/2", 1.5), ("½", 0.5), ("-3", -3), ("1e3", 1000)])
def test_number(typed: str, number: float) -> None:
    assert read_number(typed, "n", "Number") == number


@pytest.mark.parametrize("typed", ["", "abc", "5 cm", "1/0", "1e999", "5 5", "1,000", "🎂", "nan", "inf"])
def test_not_a_number(typed: str) -> None:
    with pytest.raises(Problem, match="Number"):
        read_number(typed, "n", "Number")


@pytest.mark.parametrize(
    "typed, pair",
    [
        ("25 x 50 mm", (25, 50)), ("25mm × 50mm", (25, 50)), ("2,5 x 5 cm", (25, 50)), ("1 in by 2 in", (25.4, 50.8)),
        ("1 x 2 in", (25.4, 50.8)), ('1" x 2"', (25.4, 50.8)), ("25*50 mm", (25, 50)), ("1 in X 50 mm", (25.4, 50)),
    ],
)  # fmt: skip
def test_pair(typed: str, pair: tuple[float, float]) -> None:
    assert read_pair(typed, "slice", "Slice") == pytest.approx(pair)


@pytest.mark.parametrize("typed", ["", "25 mm", "25 x", "x", "1 x 2 x 3 mm", "a x b", "25 kg x 50 kg"])
def test_not_a_pair(typed: str) -> None:
    with pytest.raises(Problem, match="Slice"):
        read_pair(typed, "slice", "Slice")


def test_count() -> None:
    assert read_count(" 36 ", "guests", "Guests") == 36
    assert read_count("1,200", "guests", "Guests") == 1200
    with pytest.raises(Problem, match="whole number"):
        read_count("2.5", "guests", "Guests")


@pytest.mark.parametrize("typed, count", [("36 guests", 36), ("36 people", 36), ("about 36", 36), ("1,200,000", 1_200_000)])
def test_what_is_counted_may_follow(typed: str, count: int) -> None:
    assert read_count(typed, "guests", "Guests") == count


@pytest.mark.parametrize("typed", ["36 tins", "36 cm", "1.200", "guests"])
def test_not_a_count(typed: str) -> None:
    with pytest.raises(Problem, match="Guests"):
        read_count(typed, "guests", "Guests")


@pytest.mark.parametrize(
    "typed, amount, sign",
    [
        ("18", 18, ""), ("$18/hr", 18, "$"), ("$18 an hour", 18, "$"), ("£18 per hour", 18, "£"), ("18 €/h", 18, "€"), ("$1,250", 1250, "$"),
        ("1,250.50", 1250.5, ""), ("1.250,50 €", 1250.5, "€"), ("12,50", 12.5, ""), ("US$ 20", 20, "$"), ("20 dollars", 20, "$"), ("¥ 900", 900, "¥"),
        ("$.50", 0.5, "$"), ("€0,5", 0.5, "€"), ("1 250 EUR", 1250, "€"), ("$1,250,000", 1_250_000, "$"),
        ("kr 250", 250, "kr\N{NO-BREAK SPACE}"), ("250kr/h", 250, "kr\N{NO-BREAK SPACE}"), ("KRW 900", 900, "KRW\N{NO-BREAK SPACE}"),
        ("12,50 zł", 12.5, "zł\N{NO-BREAK SPACE}"), ("sek20 an hour", 20, "SEK\N{NO-BREAK SPACE}"), ("r$ 40", 40, "R$"), ("nz$18", 18, "NZ$"),
        ("18 CHF per hour", 18, "CHF\N{NO-BREAK SPACE}"), ("20usd", 20, "$"),
    ],
)  # fmt: skip
def test_money(typed: str, amount: float, sign: str) -> None:
    assert units.read_money(typed, "rate", "Rate", "hour") == (amount, sign)


@pytest.mark.parametrize(
    "typed",
    ["", "abc", "$", "$1.250", "$18/day", "$18k", "$18$", "1,25,0", "$-", "18 cm", "$1e3", "%18", "1/0", "kr", "kroner 20", "18 krx", "kr 20 kr"],
)
def test_not_money(typed: str) -> None:
    with pytest.raises(Problem, match="Rate"):
        units.read_money(typed, "rate", "Rate", "hour")


def test_an_amount_for_the_whole_is_no_rate() -> None:
    with pytest.raises(Problem, match="for the whole"):
        units.read_money("$18/hr", "extras", "Extras")


def test_choice_takes_value_or_label_whatever_the_capitals() -> None:
    choices = (("open_star", "Open star"), ("round", "Round"))
    for typed in ("open_star", "OPEN STAR", " Open star "):
        assert read_choice(typed, choices, "family", "Family") == "open_star"
    with pytest.raises(Problem, match="open star, round"):
        read_choice("petal", choices, "family", "Family")


@pytest.mark.parametrize(
    "typed, moment",
    [
        ("2027-10-16 18:00", (2027, 10, 16, 18, 0)), ("2027-10-16T18:00", (2027, 10, 16, 18, 0)),
        ("16 October 2027 18:00", (2027, 10, 16, 18, 0)), ("Saturday 16 Oct 2027 at 6 pm", (2027, 10, 16, 18, 0)),
        ("16th October 2027, 18.30", (2027, 10, 16, 18, 30)), ("2028-02-29 12 am", (2028, 2, 29, 0, 0)),
        ("2027-10-16 18:00:00", (2027, 10, 16, 18, 0)), ("2027-10-16 12pm", (2027, 10, 16, 12, 0)),
        ("June 5, 2027 2:30 PM", (2027, 6, 5, 14, 30)), ("Sat, Jun 5th, 2027, at 2:30 p.m.", (2027, 6, 5, 14, 30)),
        ("2:30 pm on June 5, 2027", (2027, 6, 5, 14, 30)), ("6pm 16 October 2027", (2027, 10, 16, 18, 0)),
        ("Sept 5 2027 noon", (2027, 9, 5, 12, 0)), ("16/10/2027 18:00", (2027, 10, 16, 18, 0)), ("10/16/27 6 pm", (2027, 10, 16, 18, 0)),
        ("31.10.2027 9.15", (2027, 10, 31, 9, 15)), ("6/6/2027 2:30 pm", (2027, 6, 6, 14, 30)), ("2027/06/05 14:30", (2027, 6, 5, 14, 30)),
        ("5-Jun-2027 14:30", (2027, 6, 5, 14, 30)), ("5th of June 2027 14h30", (2027, 6, 5, 14, 30)),
    ],
)  # fmt: skip
def test_moment(typed: str, moment: tuple[int, int, int, int, int]) -> None:
    assert read_moment(typed, "ready_at", "Ready at") == dt.datetime(*moment)


@pytest.mark.parametrize(
    "typed",
    [
        "", "tomorrow", "2027-10-16", "6/5/2027 18:00", "5.6.2027 18:00", "31/31/2027 18:00",
        "2027-02-29 18:00", "2027-10-16 25:00", "2027-13-01 10:00",
        "16 Oct 2027", "16 Ju 2027 18:00", "1066-10-14 09:00", "2027-10-16 13 pm", "18:00", "🎂", "9" * 300,
    ],
)  # fmt: skip
def test_not_a_moment(typed: str) -> None:
    with pytest.raises(Problem, match="Ready at"):
        read_moment(typed, "ready_at", "Ready at")


@given(st.datetimes(dt.datetime(2020, 1, 1), dt.datetime(2099, 12, 31, 23, 59)))
def test_a_moment_written_in_iso_order_or_by_name_reads_back(moment: dt.datetime) -> None:
    whole = moment.replace(second=0, microsecond=0)
    assert read_moment(f"{whole:%Y-%m-%d %H:%M}", "m", "M") == whole
    for system in ("metric", "us"):
        assert read_moment(Formatter(system).moment(whole), "m", "M") == whole


@given(st.datetimes(dt.datetime(2020, 1, 1), dt.datetime(2099, 12, 31, 23, 59)), st.sampled_from(["%d/%m/%Y %H:%M", "%m/%d/%Y %I:%M %p"]))
def test_a_date_in_figures_is_read_or_asked_and_never_guessed(moment: dt.datetime, order: str) -> None:
    whole = moment.replace(second=0, microsecond=0)
    if whole.day > 12 or whole.day == whole.month:
        assert read_moment(whole.strftime(order), "m", "M") == whole
        return
    with pytest.raises(Problem, match="could be two days") as caught:
        read_moment(whole.strftime(order), "m", "M")
    offered = re.split(r" or ", caught.value.message.rsplit("Write ", 1)[1])
    assert whole in [read_moment(each, "m", "M") for each in offered], "both readings are offered, and either can be typed"


def test_text_is_kept_without_control_characters() -> None:
    assert read_text(" a\x00b\x1b[0m\r\n", "t", "Text") == "ab[0m"
    assert read_text("<b>&", "t", "Text") == "<b>&", "escaping belongs to whoever draws it"
    with pytest.raises(Problem, match="201 characters"):
        read_text("a" * 201, "t", "Text")


def test_problems_keep_each_problem() -> None:
    both = Problems([Problem("a", "A is empty"), Problem("b", "B is empty")])
    assert [p.input for p in both.problems] == ["a", "b"] and "A is empty" in str(both)


# --- writing ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "write, value, metric, us",
    [
        ("length", 1.8, "1.8 mm", "0.07 in"), ("length", 50, "5 cm", "1 15/16 in"), ("length", 152.4, "15.2 cm", "6 in"),
        ("length", 785.398, "78.5 cm", "30 7/8 in"), ("length", 4242, "4.24 m", "4.6 yd"), ("length", 0, "0 mm", "0 in"),
        ("mass", 4.25, "4.3 g", "4.3 g"), ("mass", 250, "250 g", "8 3/4 oz"), ("mass", 566.99, "567 g", "1 lb 4 oz"),
        ("mass", 1890, "1.89 kg", "4 lb 2 1/2 oz"), ("mass", 999.6, "1 kg", "2 lb 3 1/2 oz"), ("mass", 0, "0 g", "0 oz"),
        ("volume", 236.588, "237 ml", "1 cup"), ("volume", 1500, "1.5 l", "6 1/4 cups"), ("volume", 5, "5 ml", "1 tsp"),
        ("volume", 30, "30 ml", "2 tbsp"), ("duration", 95, "1 h 35 min", "1 h 35 min"), ("duration", 1500, "1 d 1 h", "1 d 1 h"),
        ("duration", 0.5, "30 s", "30 s"), ("duration", 0, "0 min", "0 min"), ("percent", 12.345, "12.3 %", "12.3 %"),
        ("money", 1.005, "1.01", "1.01"), ("area", 31415.9, "314 cm²", "48.7 sq in"), ("opening", 11, "11 mm", "11 mm"),
    ],
)  # fmt: skip
def test_written_in_both_systems(write: str, value: float, metric: str, us: str) -> None:
    """These pin how figures are shown today; they are not published."""
    assert getattr(Formatter("metric"), write)(value) == metric
    assert getattr(Formatter("us"), write)(value) == us


def test_temperature_shows_both_published_figures() -> None:
    """Food Code 3-501.16 prints 57 C (135 F); 135 F is 57.2 C, and 57 C is 134.6 F: neither is converted."""
    assert Formatter("metric").temperature(57, 135) == "57 °C (135 °F)"
    assert Formatter("us").temperature(57, 135) == "135 °F (57 °C)"


@given(st.floats(-1e9, 1e9, allow_nan=False))
def test_nothing_is_written_as_minus_nothing(value: float) -> None:
    for write in ("length", "mass", "volume", "duration", "percent", "number"):
        assert not re.match(r"-0(?:\.0*)?(?![.\d])", getattr(Formatter("metric"), write)(value))


# --- exact kitchen measures keep their names --------------------------------------------------------------------------

CUP, TEASPOON, POUND = 236.5882365, 236.5882365 / 48, 453.59237  # NIST SP 811, appendix B


@pytest.mark.parametrize(
    "volume_ml, us",
    [
        (CUP / 4, "1/4 cup"), (CUP / 2, "1/2 cup"), (CUP, "1 cup"), (1.25 * CUP, "1 1/4 cups"), (2.75 * CUP, "2 3/4 cups"),
        (CUP / 3, "1/3 cup"), (2 * CUP / 3, "2/3 cup"), (CUP * 5 / 8, "5/8 cup"), (CUP * 17 / 16, "1 cup 1 tbsp"), (4 * TEASPOON, "1 tbsp 1 tsp"),
        (3 * TEASPOON, "1 tbsp"), (4.5 * TEASPOON, "1 1/2 tbsp"), (6 * TEASPOON, "2 tbsp"), (TEASPOON, "1 tsp"), (2 * TEASPOON, "2 tsp"),
        (0.5 * TEASPOON, "1/2 tsp"), (0.25 * TEASPOON, "1/4 tsp"), (0.75 * TEASPOON, "3/4 tsp"), (2.5 * TEASPOON, "2 1/2 tsp"), (0, "0 tsp"),
    ],
)  # fmt: skip
def test_a_volume_that_a_measure_holds_is_named_by_it(volume_ml: float, us: str) -> None:
    assert Formatter("us").volume(volume_ml) == us


def test_less_than_any_spoon_is_not_written_as_nothing() -> None:
    assert Formatter("us").volume(0.06 * TEASPOON) == "0.06 tsp"
    assert Formatter("us").mass(1.0) == "1 g" and Formatter("us").length(0.1) == "0.004 in"


@pytest.mark.parametrize(
    "volume_ml, metric",
    [(0, "0 ml"), (9.94, "9.9 ml"), (4.25, "4.3 ml"), (10.2, "10 ml"), (10.4, "10.4 ml"),
     (999.4, "999 ml"), (1000, "1 l"), (1054, "1.05 l"), (1055, "1.06 l")],
)  # fmt: skip
def test_millilitres_to_a_tenth_under_ten_and_litres_from_a_thousand(volume_ml: float, metric: str) -> None:
    assert Formatter().volume(volume_ml) == metric


@pytest.mark.parametrize(
    "mass_g, us", [(POUND, "1 lb"), (0.75 * POUND, "12 oz"), (POUND / 64, "1/4 oz"), (15.75 / 16 * POUND, "15 3/4 oz"), (2.5 * POUND, "2 lb 8 oz")]
)
def test_a_mass_in_whole_quarters_of_an_ounce(mass_g: float, us: str) -> None:
    assert Formatter("us").mass(mass_g) == us


@pytest.mark.parametrize("inches, us", [(19.9375, "19 15/16 in"), (0.0625, "1/16 in"), (20.125, "20 1/8 in"), (99.875, "99 7/8 in"), (108, "3 yd")])
def test_a_length_in_whole_sixteenths_of_an_inch(inches: float, us: str) -> None:
    assert Formatter("us").length(25.4 * inches) == us


def test_halves_are_rounded_up_as_on_paper() -> None:
    say = Formatter()
    assert say.opening(7.25) == "7.3 mm" and Formatter("us").opening(7.25) == "7.3 mm", "a tip is measured in millimetres everywhere"
    assert say.area(31_460) == "315 cm²" and say.area(31_440) == "314 cm²"
    assert say.number(1.235) == "1.24" and say.number(1.5) == "1.5" and say.number(2 / 3, 3) == "0.667"
    assert say.temperature(4.4, 40.4) == "4 °C (40 °F)", "to the whole degree"
    assert say.percent(12.25) == "12.3 %"


def test_what_was_typed_is_repeated_whole_up_to_thirty_characters() -> None:
    for typed, shown in (("x" * 30, "x" * 30), ("x" * 31, "x" * 29 + "…"), ("a  b", "a b")):
        with pytest.raises(Problem, match=f"“{shown}”"):
            length(typed)


@pytest.mark.parametrize(
    "typed, words",
    [
        ("5 kg.", "“5 kg.” is a weight"), ("5 kg", "“5 kg” is a weight"), ("2 cups", "“2 cups” is a volume"), ("3 h", "“3 h” is a time"),
        ("6 furlongs", "a unit that is not known here: “furlongs”"), ("6 in by mistake", "words after the measurement: “by mistake”"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_unit_is_named(typed: str, words: str) -> None:
    with pytest.raises(Problem, match=words):
        length(typed)


@pytest.mark.parametrize(
    "typed, words",
    [
        ("2027-10-16", "a day but no hour"), ("16 October 2027", "a day but no hour"), ("Saturday", "does not read as one"),
        ("16 Ju 2027 18:00", "no month called ju|does not read as one"), ("16 foo 2027 18:00", "no month called foo"),
        ("2027-02-30 18:00", "does not exist"), ("2027-10-16 13 pm", "no such hour: 13 pm"), ("2027-10-16 0 am", "no such hour: 0 am"),
        ("2019-12-31 18:00", "in the year 2019"), ("2100-01-01 18:00", "in the year 2100"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_moment_is_named(typed: str, words: str) -> None:
    with pytest.raises(Problem, match=words):
        read_moment(typed, "ready_at", "Ready at")


@pytest.mark.parametrize("text, hour", [("12 am", 0), ("1 am", 1), ("11 am", 11), ("12 pm", 12), ("1 pm", 13), ("11 pm", 23)])
def test_hours_before_and_after_noon(text: str, hour: int) -> None:
    assert read_moment(f"2027-10-16 {text}", "ready_at", "Ready at").hour == hour


def test_a_text_as_long_as_may_be_is_taken() -> None:
    assert len(read_text("a" * units.LONGEST_TEXT, "t", "Text")) == units.LONGEST_TEXT
    assert read_quantity(" " * (units.LONGEST_TEXT - 4) + "5 cm", "length", "x", "X") == 50
    with pytest.raises(Problem, match=f"{units.LONGEST_TEXT + 1} characters"):
        read_quantity(" " * (units.LONGEST_TEXT - 3) + "5 cm", "length", "x", "X")


def test_articles() -> None:
    assert [units.a_or_an(word) for word in ("apple", "egg", "inch", "oval", "S scroll")] == [
        "an apple",
        "an egg",
        "an inch",
        "an oval",
        "an S scroll",
    ]
    assert [units.a_or_an(word) for word in ("heart", "square", "Square", "petal")] == ["a heart", "a square", "a Square", "a petal"]


@given(
    st.lists(st.one_of(st.just(0.0), st.floats(6, 5000)), min_size=1, max_size=6),
    st.sampled_from(["mass", "volume"]),
    st.sampled_from(["metric", "us"]),
)
def test_parts_that_are_shown_add_up_to_the_whole_that_is_shown(parts: list[float], kind: str, system: str) -> None:
    written = Formatter(system).adding_up(kind, parts)
    shown = [read_quantity(written.text(part), kind, "x", "X") for part in parts]
    whole = read_quantity(written.text(*parts), kind, "x", "X")
    assert whole == pytest.approx(math.fsum(shown), rel=1e-6, abs=1e-3), [written.text(part) for part in parts]
    for part, read in zip(parts, shown, strict=True):
        assert read == pytest.approx(part, rel=0.0301)
