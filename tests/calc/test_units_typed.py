"""What is typed: what it is read as, and the whole sentence where it cannot be read.

An inch is 25.4 mm, an ounce 28.349523125 g, a cup 236.5882365 ml (NIST SP 811, appendix B).
"""

from __future__ import annotations

import datetime as dt

import pytest

from calc import units
from calc.units import Problem, read_choice, read_count, read_measure, read_moment, read_money, read_number, read_pair, read_quantity, read_text

LENGTH, WEIGHT, TIME = "Write it like 15 cm or 6 in", "Write it like 250 g or 9 oz", "Write it like 45 min or 1 h 30 min"


def length(text: str, bare: str = "") -> float:
    return read_quantity(text, "length", "width", "Width", bare)


def refused(read, *typed: object) -> str:  # type: ignore[no-untyped-def]
    """The sentence that is said of it."""
    with pytest.raises(Problem) as caught:
        read(*typed)
    return caught.value.message


# --- numbers --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, number",
    [
        ("¼", 1 / 4), ("½", 1 / 2), ("¾", 3 / 4), ("⅐", 1 / 7), ("⅑", 1 / 9), ("⅒", 1 / 10), ("⅓", 1 / 3), ("⅔", 2 / 3), ("⅕", 1 / 5), ("⅖", 2 / 5),
        ("⅗", 3 / 5), ("⅘", 4 / 5), ("⅙", 1 / 6), ("⅚", 5 / 6), ("⅛", 1 / 8), ("⅜", 3 / 8), ("⅝", 5 / 8), ("⅞", 7 / 8),
        ("2⅜", 2.375), ("2 ⅜", 2.375), ("3/8", 0.375), ("3 / 8", 0.375), ("3⁄8", 0.375), ("12 3/4", 12.75), ("12-3/4", 12.75), ("2 11/16", 2.6875),
        ("- 3", -3), ("-3/4", -0.75), ("-½", -0.5), ("1e-2", 0.01), ("1.5e2", 150), (".5", 0.5), (",5", 0.5), ("0", 0), ("007", 7),
        ("1,234,567", 1_234_567), ("1,234,567.25", 1_234_567.25), ("1,234.5", 1234.5), ("1.234,5", 1234.5), ("12.345.678,9", 12_345_678.9),
        ("1000", 1000), ("1.000", 1), ("1234,5", 1234.5),
    ],
)  # fmt: skip
def test_numbers(typed: str, number: float) -> None:
    assert read_number(typed, "n", "Number") == pytest.approx(number, rel=1e-15)


@pytest.mark.parametrize(
    "typed, said",
    [
        ("", "Number is a number, and “” does not read as one. Write it like 5 or 2.5"),
        ("5 cm", "Number is a number, and “5 cm” does not read as one. Write it like 5 or 2.5"),
        ("1e400", "Number is too large a number. Write it like 5 or 2.5"),
        ("-1e400", "Number is too large a number. Write it like 5 or 2.5"),
        ("12,500", "Number: 12,500 can be read in two ways. Write 12500 or 12.500"),
        ("1/0", "Number divides by 0. Write a fraction like 1/2"),
        ("2 1/0", "Number divides by 0. Write a fraction like 1 1/2"),
        ("9" * 201, "Number has 201 characters; 200 is the most. Write only the measurement"),
    ],
)
def test_what_is_said_of_no_number(typed: str, said: str) -> None:
    assert refused(read_number, typed, "n", "Number") == said


# --- amounts --------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, inches",
    [
        ("one inch", 1), ("two inches", 2), ("three inches", 3), ("four inches", 4), ("five inches", 5), ("six inches", 6), ("seven inches", 7),
        ("eight inches", 8), ("nine inches", 9), ("ten inches", 10), ("eleven inches", 11), ("twelve inches", 12),
        ("a half inch", 1 / 2), ("half an inch", 1 / 2), ("half of an inch", 1 / 2), ("half-inch", 1 / 2), ("three halves of an inch", 3 / 2),
        ("a third of an inch", 1 / 3), ("one third inch", 1 / 3), ("two thirds of an inch", 2 / 3), ("a quarter inch", 1 / 4),
        ("three quarters of an inch", 3 / 4), ("an eighth of an inch", 1 / 8), ("five eighths of an inch", 5 / 8), ("a sixteenth of an inch", 1 / 16),
        ("three sixteenths inch", 3 / 16), ("eleven sixteenths of an inch", 11 / 16), ("one and three quarter inches", 1.75),
        ("two and a half inches", 2.5), ("Two And A Half Inches", 2.5), ("12 and a quarter inches", 12.25), ("three and five eighths inches", 3.625),
        ("six and a half in", 6.5), ("half an inch thick", 1 / 2), ("a half inch wide", 1 / 2), ("two inches deep", 2), ("an inch", 1), ("a inch", 1),
    ],
)  # fmt: skip
def test_inches_in_words(typed: str, inches: float) -> None:
    assert length(typed) == pytest.approx(25.4 * inches, rel=1e-12)


@pytest.mark.parametrize(
    "typed, width_mm",
    [
        ("about 6 in", 152.4), ("approx 6 in", 152.4), ("approx. 6 in", 152.4), ("approximately 6 in", 152.4), ("Around 6 in", 152.4),
        ("roughly 6 in", 152.4), ("circa 6 in", 152.4), ("ca 6 in", 152.4), ("ca. 6 in", 152.4), ("ca.6 in", 152.4), ("~6 in", 152.4),
        ("≈ 6 in", 152.4),
        ("about half an inch", 12.7), ("~half an inch", 12.7), ("ca.half an inch", 12.7), ("6 in approx.", 152.4),
        ("6 in approximately", 152.4), ("20 cm ca.", 200),
        ("cake 20 cm", 200), ("cake: 20 cm", 200), ("a cake 20 cm", 200), ("a round 6 in", 152.4), ("round ½ in", 12.7), ("diameter: 20 cm", 200),
        ("6 cm in diameter", 60), ("20 cm round cake tin", 200), ("6-inch round", 152.4), ('8", round', 203.2), ("20 cm.", 200), ("2 ft.", 609.6),
        ("10 mm,2 cm", 30), ("10 mm, 2 cm", 30), ("10 mm,   2 cm", 30), ("1 ft, 2 in, 5 mm", 360.6), ("1' 2\" deep", 355.6), ("1 yd 1 ft", 1219.2),
        ("- 3 cm", -30), ("-1 ft 2 in", -355.6), ("2 mms", 2), ("3 INS", 76.2), ("1000 mm", 1000), ("0 mm", 0),
    ],
)  # fmt: skip
def test_words_round_a_length(typed: str, width_mm: float) -> None:
    assert length(typed) == pytest.approx(width_mm, rel=1e-12)


@pytest.mark.parametrize(
    "typed, kind, value",
    [
        ("1 kg 250", "mass", 1250), ("1 kg 250 g", "mass", 1250), ("2 lb 4", "mass", 36 * 28.349523125), ("1 h 30", "duration", 90),
        ("8 oz butter", "mass", 226.796185),
        ("two and a half pounds of flour", "mass", 2.5 * 453.59237), ("half a pound", "mass", 226.796185), ("a cup of icing", "volume", 236.5882365),
        ("three quarters of a cup", "volume", 0.75 * 236.5882365), ("2 cups 3 tbsp", "volume", 35 * 14.78676478125),
        ("2 h 15 min of work", "duration", 135),
        ("an hour", "duration", 60), ("one and a half hours", "duration", 90), ("3 m", "duration", 3),
        ("1 wk 1 d", "duration", 11_520),
    ],
)  # fmt: skip
def test_other_amounts(typed: str, kind: str, value: float) -> None:
    assert read_quantity(typed, kind, "x", "X") == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    "typed, said",
    [
        ("", f"Width is empty. {LENGTH}"),
        ("  ", f"Width is empty. {LENGTH}"),
        ("20", f"Width needs a unit. {LENGTH}"),
        ("20 round", f"Width needs a unit. {LENGTH}"),
        ("6 in 5", f"Width needs a unit. {LENGTH}"),  # inches have no smaller unit that is left out
        ("wide", f"Width is a length, and “wide” does not read as one. {LENGTH}"),
        ("20 cm,", f"Width is a length, and “20 cm,” does not read as one. {LENGTH}"),  # what should follow the comma?
        ("one round", f"Width is a length, and “one round” does not read as one. {LENGTH}"),
        ("5 kg", f"Width is a length; “5 kg” is a weight. {LENGTH}"),
        ("5 KG.", f"Width is a length; “5 KG.” is a weight. {LENGTH}"),
        ("2 fl oz", f"Width is a length; “2 fl oz” is a volume. {LENGTH}"),
        ("3 h", f"Width is a length; “3 h” is a time. {LENGTH}"),
        ("6 cm in mistake", f"Width has words after the measurement: “in mistake”. Write only the measurement, like {LENGTH[14:]}"),
        ("6 cm by diameter", f"Width has words after the measurement: “by diameter”. Write only the measurement, like {LENGTH[14:]}"),
        ("6 Furlongs", f"Width has a unit that is not known here: “Furlongs”. {LENGTH}"),
        ("6 furlongs round", f"Width has a unit that is not known here: “furlongs round”. {LENGTH}"),
        ("9 x 13 in", f"Width is one measurement, and “9 x 13 in” is more than one. {LENGTH}"),
        ("9 in by 13 in", f"Width is one measurement, and “9 in by 13 in” is more than one. {LENGTH}"),
        ("9 × ½ in", f"Width is one measurement, and “9 × ½ in” is more than one. {LENGTH}"),
        ("6-8 in", f"Width: “6-8 in” is a range, or two measurements. Write one, like {LENGTH[14:]}"),
        ("6 in or 8 in", f"Width: “6 in or 8 in” is a range, or two measurements. Write one, like {LENGTH[14:]}"),
        ("6 to 8 in", f"Width: “6 to 8 in” is a range, or two measurements. Write one, like {LENGTH[14:]}"),
        ("6~8 in", f"Width needs a unit. {LENGTH}"),
        ("1e308 m", f"Width is too large. {LENGTH}"),
        ("1,000 mm", "Width: 1,000 can be read in two ways. Write 1000 or 1.000"),
        ("0/0 in", "Width divides by 0. Write a fraction like 1/2"),
        ("x" * 201, "Width has 201 characters; 200 is the most. Write only the measurement"),
    ],
)
def test_what_is_said_of_no_length(typed: str, said: str) -> None:
    assert refused(length, typed) == said


def test_what_is_said_of_other_amounts() -> None:
    assert refused(read_quantity, "6 in", "mass", "m", "Butter") == f"Butter is a weight; “6 in” is a length. {WEIGHT}"
    assert refused(read_quantity, "soon", "duration", "t", "Time") == f"Time is a time, and “soon” does not read as one. {TIME}"
    assert refused(read_quantity, "", "volume", "v", "Bowl") == "Bowl is empty. Write it like 250 ml or 1 cup"


@pytest.mark.parametrize(
    "typed, value, bare",
    [
        ("8", 203.2, "8"),
        ("8 round", 203.2, "8"),
        (" 8 1/2 ", 215.9, "8 1/2"),
        ("-8", -203.2, "8"),
        ("8 in", 203.2, ""),
        ("1 ft 2", 355.6, ""),
        ("2 cm", 20, ""),
    ],
)
def test_a_number_without_a_unit_is_told(typed: str, value: float, bare: str) -> None:
    assert read_measure(typed, "length", "width", "Width", "inch") == (pytest.approx(value, rel=1e-12), bare)


@pytest.mark.parametrize(
    "typed, shape",
    [
        ("8 in round", "round"), ("circle of 8 in", "round"), ("circular", "round"), ("SQUARE 20", "square"), ("rectangular tin", "rectangle"),
        ("half sheet", "rectangle"), ("oval", "oval"), ("heart", "heart"), ("hexagon 6", "hexagon"), ("petal", "petal"), ("rounded", ""), ("", ""),
        ("square, then round", "square"),
    ],
)  # fmt: skip
def test_the_shape_that_is_named(typed: str, shape: str) -> None:
    assert units.shape_in(typed) == shape


@pytest.mark.parametrize("typed, shown", [("a" * 30, "a" * 30), ("a" * 31, "a" * 29 + "…"), (" a \n b\t c ", "a b c"), ("", "")])
def test_what_is_repeated_in_a_message(typed: str, shown: str) -> None:
    assert units.excerpt(typed) == shown


# --- pairs ------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, bare, pair",
    [
        ("25 x 50", "millimeter", (25, 50)), ("1 x 2", "inch", (25.4, 50.8)), ("25 x 50 MM", "inch", (25, 50)), ("1 x ½ in", "", (25.4, 12.7)),
        ("1 x 2 1/2 in", "", (25.4, 63.5)), ("2 cm x 1 in", "", (20, 25.4)), ("2 cm x 5", "millimeter", (20, 5)), ("1 x 2-inch", "", (25.4, 50.8)),
        ("1 x 2''", "", (25.4, 50.8)), ('½ x ¾"', "", (12.7, 19.05)), ("25 BY 50 mm", "", (25, 50)), ("5 cm*2 cm", "", (50, 20)),
    ],
)  # fmt: skip
def test_pairs(typed: str, bare: str, pair: tuple[float, float]) -> None:
    assert read_pair(typed, "slice", "Slice", bare) == pytest.approx(pair, rel=1e-12)


@pytest.mark.parametrize(
    "typed, said",
    [
        ("25 mm", "Slice is two lengths, and “25 mm” does not read as two. Write it like 25 x 50 mm or 1 x 2 in"),
        ("25 x", "Slice is two lengths, and “25 x” does not read as two. Write it like 25 x 50 mm or 1 x 2 in"),
        ("x 25 mm", "Slice is two lengths, and “x 25 mm” does not read as two. Write it like 25 x 50 mm or 1 x 2 in"),
        ("1 x 2 x 3 in", "Slice is two lengths, and “1 x 2 x 3 in” does not read as two. Write it like 25 x 50 mm or 1 x 2 in"),
        ("1 x 2", f"Slice needs a unit. {LENGTH}"),
        ("1 x 2 furlongs", f"Slice needs a unit. {LENGTH}"),
        ("1 mm x 2 kg", f"Slice is a length; “2 kg” is a weight. {LENGTH}"),
    ],
)
def test_what_is_said_of_no_pair(typed: str, said: str) -> None:
    assert refused(read_pair, typed, "slice", "Slice") == said


# --- counts and money ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, label, count",
    [
        ("36", "Guests", 36), ("36 guests", "Guests", 36), ("36 Guest", "Guests", 36), ("36 people", "Guests", 36), ("36 persons", "Guests", 36),
        ("36 portions", "Guests", 36), ("36 servings", "Guests", 36), ("36 pieces", "Guests", 36), ("8 repeats", "Number of repeats", 8),
        ("36 cakes", "Cakes", 36), ("12 cards", "Cards", 12), ("1,200 guests", "Guests", 1200), ("1,200", "Guests", 1200), ("-2", "Guests", -2),
        ("0", "Guests", 0),
        ("about 36", "Guests", 36), ("~36", "Guests", 36), ("ca. 36 guests", "Guests", 36), ("approximately 36", "Guests", 36),
        ("36 approx.", "Guests", 36),
        ("36.0", "Guests", 36), ("1e2", "Guests", 100),
    ],
)  # fmt: skip
def test_counts(typed: str, label: str, count: int) -> None:
    assert read_count(typed, "guests", label) == count


@pytest.mark.parametrize(
    "typed, said",
    [
        ("2.5", "Guests is a whole number, not 2.5. Write it like 2"),
        ("2.6", "Guests is a whole number, not 2.6. Write it like 3"),
        ("1/4", "Guests is a whole number, not 1/4. Write it like 1"),
        ("-7.5", "Guests is a whole number, not -7.5. Write it like 1"),
        ("36 tins", "Guests is a number, and “36 tins” does not read as one. Write it like 5 or 2.5"),
        ("30~40", "Guests is a number, and “30~40” does not read as one. Write it like 5 or 2.5"),  # a range is no 3040
        ("30 ~ 40", "Guests is a number, and “30 ~ 40” does not read as one. Write it like 5 or 2.5"),
        ("1e400", "Guests is too large a number. Write it like 5 or 2.5"),
    ],
)
def test_what_is_said_of_no_count(typed: str, said: str) -> None:
    assert refused(read_count, typed, "guests", "Guests") == said


@pytest.mark.parametrize(
    "typed, amount, sign",
    [
        ("0.5", 0.5, ""), (".50", 0.5, ""), ("1/2", 0.5, ""), ("½", 0.5, ""), ("-3", -3, ""), ("1e3", 1000, ""), ("1250", 1250, ""),
        ("1,250", 1250, ""),
        ("1 250", 1250, ""), ("£12.5", 12.5, "£"), ("£12,5", 12.5, "£"), ("£1,250.5", 1250.5, "£"), ("£1.250,75", 1250.75, "£"), ("$,75", 0.75, "$"),
        ("€ 1.250.000", 1_250_000, "€"), ("18/h", 18, ""), ("18 per hr.", 18, ""), ("18 each hour", 18, ""), ("£18 a hour", 18, "£"),
        ("GBP 20", 20, "£"),
        ("20 euros", 20, "€"), ("20 pounds", 20, "£"), ("20 Euro", 20, "€"), ("dollars 3", 3, "$"), ("₹ 90", 90, "₹"), ("A$ 5", 5, "A$"),
    ],
)  # fmt: skip
def test_money(typed: str, amount: float, sign: str) -> None:
    assert read_money(typed, "rate", "Rate", "hour") == (amount, sign)


NO_MONEY = "Rate is an amount of money, and “{}” does not read as a number. Write it like 12.50"


@pytest.mark.parametrize(
    "typed, each, said",
    [
        ("", "hour", "Rate is a number, and “” does not read as one. Write it like 5 or 2.5"),
        ("lots", "hour", NO_MONEY.format("lots")),
        ("$18$", "hour", NO_MONEY.format("$18$")),
        ("%18", "hour", NO_MONEY.format("%18")),
        ("$12,50,0", "hour", NO_MONEY.format("$12,50,0")),
        ("$1.250", "hour", "Rate: 1.250 can be read in two ways. Write 1250 or 1.25"),
        ("$1.255", "hour", "Rate: 1.255 can be read in two ways. Write 1255 or 1.26"),
        ("$18/day", "hour", "Rate is an amount for one hour, and “$18/day” says “/day”. Write it like 12.50"),
        ("$18/hr", "guest", "Rate is an amount for one guest, and “$18/hr” says “/hr”. Write it like 12.50"),
        ("$18 an hour", "", "Rate is an amount for the whole, and “$18 an hour” says “an hour”. Write it like 12.50"),
        ("1" * 201, "hour", "Rate has 201 characters; 200 is the most. Write only the measurement"),
    ],
)
def test_what_is_said_of_no_money(typed: str, each: str, said: str) -> None:
    assert refused(read_money, typed, "rate", "Rate", each) == said


def test_a_choice() -> None:
    choices = (("open_star", "Open star"), ("round", "Plain"))
    assert [read_choice(typed, choices, "f", "Family") for typed in ("open star", "Open_Star", "plain", "ROUND")] == [
        "open_star",
        "open_star",
        "round",
        "round",
    ]
    assert refused(read_choice, "petal", choices, "f", "Family") == "Family is one of open star, round; “petal” is none of them"


# --- dates ----------------------------------------------------------------------------------------------------------------------

WAY = "Write it like 2027-10-16 18:00 or October 16, 2027 6:00 PM"
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")


@pytest.mark.parametrize("number", range(1, 13))
def test_every_month_by_name_in_both_orders(number: int) -> None:
    name = MONTHS[number - 1]
    wanted = dt.datetime(2027, number, 9, 8, 5)
    for written in (
        f"9 {name} 2027 8:05",
        f"{name} 9, 2027 8:05 AM",
        f"9 {name[:3]} 2027 at 8.05",
        f"{name[:3]}. 9th 2027, 8h05",
        f"8:05 on {name} 9, 2027",
    ):
        assert read_moment(written, "at", "At") == wanted, written


@pytest.mark.parametrize(
    "typed, moment",
    [
        ("2020-01-01 00:00", (2020, 1, 1, 0, 0)), ("2099-12-31 23:59", (2099, 12, 31, 23, 59)), ("2:30 on June 5, 2027", (2027, 6, 5, 2, 30)),
        ("2:30pm 5 June 2027", (2027, 6, 5, 14, 30)), ("noon on June 5, 2027", (2027, 6, 5, 12, 0)), ("June 5, 2027 12 noon", (2027, 6, 5, 12, 0)),
        ("1st May 2027 6 a.m.", (2027, 5, 1, 6, 0)), ("2nd of March 2027 6 p. m.", (2027, 3, 2, 18, 0)), ("March 3rd 2027 7", (2027, 3, 3, 7, 0)),
        ("13/12/2027 18:00", (2027, 12, 13, 18, 0)), ("12/13/2027 18:00", (2027, 12, 13, 18, 0)), ("13.1.27 18:00", (2027, 1, 13, 18, 0)),
        ("1-13-99 18:00", (2099, 1, 13, 18, 0)), ("12/12/2027 18:00", (2027, 12, 12, 18, 0)), ("2027.3.4 7:00", (2027, 3, 4, 7, 0)),
        ("2027-10-16T18:00:30", (2027, 10, 16, 18, 0)), ("4 Sept 2027 7:00", (2027, 9, 4, 7, 0)),
    ],
)  # fmt: skip
def test_moments(typed: str, moment: tuple[int, int, int, int, int]) -> None:
    assert read_moment(typed, "at", "At") == dt.datetime(*moment)


@pytest.mark.parametrize(
    "typed, said",
    [
        ("soon", f"At is a date with an hour, and “soon” does not read as one. {WAY}"),
        ("18:00", f"At is a date with an hour, and “18:00” does not read as one. {WAY}"),
        ("2027-10-16", f"At has a day but no hour. {WAY}"),
        ("12:30 June 2027", f"At has a day but no hour. {WAY}"),  # 30 June, with something before it
        ("2027-10-16 0 pm", f"At has no such hour: 0 pm. {WAY}"),
        ("2027-10-16 13 am", f"At has no such hour: 13 am. {WAY}"),
        ("2027-02-29 18:00", f"At names a day or an hour that does not exist. {WAY}"),
        ("2027-10-16 24:00", f"At names a day or an hour that does not exist. {WAY}"),
        ("2027-10-16 18:60", f"At names a day or an hour that does not exist. {WAY}"),
        ("0/5/2027 18:00", f"At names a day or an hour that does not exist. {WAY}"),
        ("5/0/2027 18:00", f"At names a day or an hour that does not exist. {WAY}"),
        ("13/13/2027 18:00", f"At names a day or an hour that does not exist. {WAY}"),
        ("2019-12-31 18:00", f"At is in the year 2019, and must be between the years 2020 and 2099. {WAY}"),
        ("2100-01-01 18:00", f"At is in the year 2100, and must be between the years 2020 and 2099. {WAY}"),
        ("16 Foo 2027 18:00", f"At has no month called foo. {WAY}"),
        ("5/6/2027 at 18:00", "At: “5/6/2027 at 18:00” could be two days. Write 5 June 2027 18:00 or May 6, 2027 18:00"),
        ("12/11/27 6 pm", "At: “12/11/27 6 pm” could be two days. Write 12 November 2027 6 pm or December 11, 2027 6 pm"),
        ("1.12.2027", "At: “1.12.2027” could be two days. Write 1 December 2027 or January 12, 2027"),
        ("9" * 201, "At has 201 characters; 200 is the most. Write only the measurement"),
    ],
)
def test_what_is_said_of_no_moment(typed: str, said: str) -> None:
    assert refused(read_moment, typed, "at", "At") == said


# --- words --------------------------------------------------------------------------------------------------------------------------


def test_words_keep_their_lines_and_lose_what_cannot_be_seen() -> None:
    assert read_text("one\ntwo\tthree\r\x07\x7f", "t", "Text") == "one\ntwo\tthree"
    assert refused(read_text, "a" * 11, "t", "Text", 10) == "Text has 11 characters; 10 is the most. Shorten it"
    assert read_text("a" * 10, "t", "Text", 10) == "a" * 10


def test_how_much_may_be_typed() -> None:
    """200 characters into a field, 60,000 into that of a whole order."""
    assert len(read_text("a" * 200, "t", "Text")) == 200
    assert refused(read_text, "a" * 201, "t", "Text") == "Text has 201 characters; 200 is the most. Shorten it"
    assert len(read_text("a" * 60_000, "order", "Order", units.LONGEST_RECORD)) == 60_000
    assert refused(read_text, "a" * 60_001, "order", "Order", units.LONGEST_RECORD) == "Order has 60001 characters; 60000 is the most. Shorten it"


def test_several_problems_say_all_they_say() -> None:
    both = units.Problems(Problem(name, f"{name} is empty") for name in ("Width", "Height"))
    assert str(both) == "Width is empty; Height is empty"
    assert [(problem.input, problem.message, str(problem)) for problem in both.problems] == [
        (name, f"{name} is empty", f"{name} is empty") for name in ("Width", "Height")
    ]
