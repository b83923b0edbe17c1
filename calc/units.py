"""What a person typed, read into floats; floats written for a person. pint lives here and nowhere else.

Map
---
`Problem`, `Problems`   a person's mistake, tied to the input it was made in
`read_number`           "1 1/2", "15,5", "½"
`read_quantity`         a number and a unit of one kind, in mm, g, ml or min
`read_pair`             "25 x 50 mm"
`read_count`, `read_choice`, `read_moment`, `read_text`
`a_or_an`               words with their article
`Say`                   writes lengths, masses, volumes, times in the reader's units

Reading is forgiving: thousands of people type the same measurement in different ways. What cannot be read is said
with the label, the limit and the way out, and nothing is guessed in silence.
"""

from __future__ import annotations

import datetime as dt
import math
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

LONGEST_TEXT = 200
YEARS = (2020, 2099)  # an order for any other is a slip of the finger
LONGEST_RECORD = 60_000


class Problem(ValueError):
    """One mistake of a person's, tied to the input it was made in."""

    def __init__(self, input_name: str, message: str) -> None:
        super().__init__(message)
        self.input = input_name
        self.message = message


class Problems(ValueError):
    """Several mistakes found in one go."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(problem.message for problem in self.problems))


# --- the units ---------------------------------------------------------------------------------------------------------

# Definitions in pint's own notation, held in memory (a memory snapshot keeps no files) and checked against pint's full
# definitions by tests/calc/test_units.py. The household measures that pint lacks stand at the end.
DEFINITIONS = """
meter = [length] = m = metre
second = [time] = s = sec
gram = [mass] = g
count = []
radian = []
milli- = 1e-3 = m-
centi- = 1e-2 = c-
kilo- = 1e3 = k-
inch = 0.0254 * meter = in
foot = 12 * inch = ft
yard = 3 * foot = yd
minute = 60 * second = min
hour = 60 * minute = h
day = 24 * hour = d
week = 7 * day
pound = 453.59237 * gram = lb
ounce = pound / 16 = oz
liter = 0.001 * meter ** 3 = l = L = litre
gallon = 231 * inch ** 3 = gal
quart = gallon / 4 = qt
pint = quart / 2 = pt
cup = pint / 2
fluid_ounce = pint / 16 = floz
tablespoon = fluid_ounce / 2 = tbsp
teaspoon = fluid_ounce / 6 = tsp
imperial_gallon = 4.54609 * liter
imperial_pint = imperial_gallon / 8
imperial_fluid_ounce = imperial_pint / 20
metric_cup = 0.25 * liter
butter_stick = 113.398 * gram
"""

BASE = {"length": "mm", "mass": "g", "volume": "ml", "duration": "min"}
_PINT_BASE = {"length": "millimeter", "mass": "gram", "volume": "milliliter", "duration": "minute"}
EXAMPLES = {"length": "15 cm or 6 in", "mass": "250 g or 9 oz", "volume": "250 ml or 1 cup", "duration": "45 min or 1 h 30 min"}
NOUNS = {"length": "a length", "mass": "a weight", "volume": "a volume", "duration": "a time"}

_SPELLINGS = {
    "length": {
        "millimeter": ["mm", "mms", "millimetre", "millimetres", "millimeter", "millimeters"],
        "centimeter": ["cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"],
        "meter": ["m", "metre", "metres", "meter", "meters"],
        "inch": ["in", "ins", "inch", "inches", '"', "in.", "''"],
        "foot": ["ft", "foot", "feet", "'", "ft."],
        "yard": ["yd", "yds", "yard", "yards"],
    },
    "mass": {
        "gram": ["g", "gm", "gms", "gr", "gram", "grams", "gramme", "grammes"],
        "kilogram": ["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"],
        "ounce": ["oz", "ozs", "ounce", "ounces", "oz."],
        "pound": ["lb", "lbs", "pound", "pounds", "lb.", "lbs."],
        "butter_stick": ["stick", "sticks"],
    },
    "volume": {
        "milliliter": ["ml", "mls", "millilitre", "millilitres", "milliliter", "milliliters", "cc"],
        "centiliter": ["cl", "centilitre", "centilitres", "centiliter", "centiliters"],
        "liter": ["l", "litre", "litres", "liter", "liters"],
        "teaspoon": ["tsp", "tsps", "teaspoon", "teaspoons"],
        "tablespoon": ["tbsp", "tbsps", "tbs", "tablespoon", "tablespoons"],
        "fluid_ounce": ["fl oz", "floz", "fl. oz.", "fl.oz.", "fluid ounce", "fluid ounces"],
        "cup": ["cup", "cups"],
        "metric_cup": ["metric cup", "metric cups"],
        "pint": ["pt", "pint", "pints"],
        "quart": ["qt", "qts", "quart", "quarts"],
        "gallon": ["gal", "gallon", "gallons"],
    },
    "duration": {
        "second": ["s", "sec", "secs", "second", "seconds"],
        "minute": ["min", "mins", "minute", "minutes", "m", "min."],
        "hour": ["h", "hr", "hrs", "hour", "hours"],
        "day": ["d", "day", "days"],
        "week": ["wk", "wks", "week", "weeks"],
    },
}
_UNIT_OF: dict[str, dict[str, str]] = {
    kind: {spelling: unit for unit, spellings in table.items() for spelling in spellings} for kind, table in _SPELLINGS.items()
}


@lru_cache(maxsize=1)
def registry() -> object:
    """Give pint's registry with only the units of a kitchen, made once.

    Formula: the definitions of `DEFINITIONS`, in pint's own notation.

    Returns
    -------
    object
        pint's UnitRegistry [-]

    Raises
    ------
    ImportError
        pint is not installed.

    Range: lengths, weights, volumes and times of a kitchen. Leaves out: every other unit, and prefixes beyond milli to kilo.

    Example
    -------
    >>> registry().Quantity(1, "inch").to("millimeter").magnitude
    25.4

    Source: nist-811
    """
    import pint

    return pint.UnitRegistry(DEFINITIONS.strip().splitlines())


@lru_cache(maxsize=256)
def _factor(kind: str, unit: str) -> float:
    """How many base units of its kind one `unit` is, by pint; exact ratios are rounded to 15 digits."""
    quantity = registry().Quantity(1, unit)  # type: ignore[attr-defined]
    return float(f"{quantity.to(_PINT_BASE[kind]).magnitude:.15g}")


# --- reading -----------------------------------------------------------------------------------------------------------

_VULGAR = {c: unicodedata.numeric(c) for c in "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅒"}
_DIGITS = r"\d+(?:[.,]\d+)?|[.,]\d+"
_NUMBER = re.compile(
    rf"(?P<whole>(?:{_DIGITS})(?:[eE][+-]?\d{{1,3}}(?![a-zA-Z]))?)(?:\s*(?P<vulgar>[{''.join(_VULGAR)}])|"
    rf"(?P<over>\s*[/⁄]\s*\d+)|(?:\s+|-)(?P<top>\d+)\s*[/⁄]\s*(?P<bottom>\d+))?|(?P<alone>[{''.join(_VULGAR)}])"
)
_UNIT = re.compile(r"\s*(?P<unit>\"|''|'|[a-zA-Z.]+(?:[ ][a-zA-Z.]+)*)?\s*")
_TIDY = str.maketrans(
    {
        "″": '"',
        "”": '"',
        "“": '"',
        "′": "'",
        "’": "'",
        "‘": "'",
        "\u00a0": " ",
        "\u2009": " ",
        "\u202f": " ",
        "−": "-",
        "–": "-",
        "\t": " ",
        "\n": " ",
        "\r": " ",
        "µ": "u",
    }
)


def _tidy(text: str) -> str:
    return text.translate(_TIDY).strip()


def _shown(text: str) -> str:
    """What was typed, short enough to be repeated in a message."""
    flat = " ".join(text.split())
    return flat if len(flat) <= 30 else flat[:29] + "…"


def _thousands(text: str) -> bool:
    return bool(re.fullmatch(r"\d{1,3},\d{3}", text))


def _number_at(text: str, at: int, input_name: str, label: str) -> tuple[float, int] | None:
    match = _NUMBER.match(text, at)
    if not match:
        return None
    if match["alone"]:
        return _VULGAR[match["alone"]], match.end()
    whole = match["whole"]
    if _thousands(whole):
        raise Problem(input_name, f"{label}: {whole} can be read in two ways. Write {whole.replace(',', '')} or {whole.replace(',', '.')}")
    value = float(whole.replace(",", "."))
    if match["vulgar"]:
        value += _VULGAR[match["vulgar"]]
    elif match["over"]:
        bottom = int(match["over"].strip(" /⁄"))
        if bottom == 0:
            raise Problem(input_name, f"{label} divides by nothing. Write a fraction like 1/2")
        value /= bottom
    elif match["top"]:
        if int(match["bottom"]) == 0:
            raise Problem(input_name, f"{label} divides by nothing. Write a fraction like 1 1/2")
        value += int(match["top"]) / int(match["bottom"])
    return value, match.end()


def _check_text(text: str, input_name: str, label: str) -> str:
    if len(text) > LONGEST_TEXT:
        raise Problem(input_name, f"{label} has {len(text)} characters; {LONGEST_TEXT} is the most. Write only the measurement")
    return _tidy(text)


def read_number(text: str, input_name: str, label: str) -> float:
    """Read a plain number, with a comma or a point, or as a fraction.

    Formula: whole + numerator / denominator.

    Parameters
    ----------
    text : str
        What was typed [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]

    Returns
    -------
    float
        The number [-]

    Raises
    ------
    Problem
        There is no number, or something besides it.

    Range: any finite number. Leaves out: thousands separators, which are asked about.

    Example
    -------
    >>> read_number("1 1/2", "n", "Number"), read_number("15,5", "n", "Number"), read_number("½", "n", "Number")
    (1.5, 15.5, 0.5)

    Source: geometry
    """
    tidy = _check_text(text, input_name, label)
    sign = 1.0
    if tidy.startswith("-"):
        sign, tidy = -1.0, tidy[1:].lstrip()
    found = _number_at(tidy, 0, input_name, label)
    if found is None or tidy[found[1] :].strip():
        raise Problem(input_name, f"{label} is a number, and “{_shown(text)}” does not read as one. Write it like 5 or 2.5")
    if found[0] in (float("inf"), float("-inf")):
        raise Problem(input_name, f"{label} is too large a number. Write it like 5 or 2.5")
    return sign * found[0]


@lru_cache(maxsize=4096)
def _quantity(text: str, kind: str, bare_unit: str, input_name: str, label: str) -> float:
    example = EXAMPLES[kind]
    tidy = _check_text(text, input_name, label)
    negative = tidy.startswith("-")
    if negative:
        tidy = tidy[1:].lstrip()
    total, at, parts = 0.0, 0, 0
    while at < len(tidy):
        found = _number_at(tidy, at, input_name, label)
        if found is None:
            raise Problem(input_name, f"{label} is {NOUNS[kind]}, and “{_shown(text)}” does not read as one. Write it like {example}")
        value, at = found
        match = _UNIT.match(tidy, at)
        spelled = (match["unit"] or "") if match else ""
        unit = _UNIT_OF[kind].get(spelled.lower()) or _UNIT_OF[kind].get(spelled.lower().rstrip("."))
        if not spelled:
            if parts or not bare_unit:
                raise Problem(input_name, f"{label} needs a unit. Write it like {example}")
            unit = bare_unit
        elif unit is None:
            unit = _unit_or_problem(spelled, kind, text, input_name, label, example)
        at = match.end() if match else at
        if tidy[at : at + 1] == "," and at + 1 < len(tidy):
            at += 1
            while tidy[at : at + 1] == " ":
                at += 1
        total += value * _factor(kind, unit)
        parts += 1
    if parts == 0:
        raise Problem(input_name, f"{label} is empty. Write it like {example}")
    if total == float("inf"):
        raise Problem(input_name, f"{label} is too large. Write it like {example}")
    total = float(f"{total:.13g}")  # 6 x 25.4 is 152.4, not 152.39999999999998
    return -total if negative else total


def _unit_or_problem(spelled: str, kind: str, text: str, input_name: str, label: str, example: str) -> str:
    word = spelled.lower()
    for other, table in _UNIT_OF.items():
        if other != kind and (word in table or word.rstrip(".") in table):
            raise Problem(input_name, f"{label} is {NOUNS[kind]}; “{_shown(text)}” is {NOUNS[other]}. Write it like {example}")
    first = word.split(" ")[0]
    if first in _UNIT_OF[kind]:
        rest = spelled[len(first) :].strip()
        raise Problem(input_name, f"{label} has words after the measurement: “{_shown(rest)}”. Write only the measurement, like {example}")
    raise Problem(input_name, f"{label} has a unit that is not known here: “{_shown(spelled)}”. Write it like {example}")


def read_quantity(text: str, kind: str, input_name: str, label: str, bare_unit: str = "") -> float:
    """Read a length, weight, volume or time in any kitchen unit into the base unit of its kind.

    Formula: the sum of number x unit over the parts ("1 lb 4 oz"); units by pint.

    Parameters
    ----------
    text : str
        What was typed [-]
    kind : str
        "length", "mass", "volume" or "duration" [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]
    bare_unit : str
        pint's name of the unit meant when none is written; empty asks for one [-]

    Returns
    -------
    float
        The amount [mm, g, ml or min]

    Raises
    ------
    Problem
        It does not read as such an amount.

    Range: any finite amount, also negative (limits are the calculators'). Leaves out: sums and ranges.

    Example
    -------
    >>> read_quantity('6"', "length", "width", "Width"), read_quantity("15,5 cm", "length", "width", "Width")
    (152.4, 155.0)
    >>> read_quantity("1 lb 4 oz", "mass", "m", "Mass")
    566.9904625

    Source: nist-811, nist-household
    """
    return _quantity(text, kind, bare_unit, input_name, label)


def read_pair(text: str, input_name: str, label: str, bare_unit: str = "") -> tuple[float, float]:
    """Read two lengths joined by x, such as a slice of 25 x 50 mm.

    Formula: a unit written once holds for both.

    Parameters
    ----------
    text : str
        What was typed [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]
    bare_unit : str
        pint's name of the unit meant when none is written [-]

    Returns
    -------
    tuple of float
        The two lengths, in the order typed [mm]

    Raises
    ------
    Problem
        It does not read as two lengths.

    Range: two lengths. Leaves out: three.

    Example
    -------
    >>> read_pair("25 x 50 mm", "slice", "Slice")
    (25.0, 50.0)
    >>> read_pair("1 in by 2 in", "slice", "Slice")
    (25.4, 50.8)

    Source: nist-811
    """
    tidy = _check_text(text, input_name, label)
    parts = re.split(r"\s*(?:x|×|\*|by)\s*", tidy, flags=re.IGNORECASE)
    if len(parts) != 2 or not all(parts):
        raise Problem(input_name, f"{label} is two lengths, and “{_shown(text)}” does not read as two. Write it like 25 x 50 mm or 1 x 2 in")
    last_unit = re.search(r"(\"|''|[a-zA-Z]+)\.?$", parts[1])
    if last_unit and not re.search(r"(\"|'|[a-zA-Z])", parts[0]):
        parts[0] += " " + last_unit.group(1)
    first = read_quantity(parts[0], "length", input_name, label, bare_unit)
    return first, read_quantity(parts[1], "length", input_name, label, bare_unit)


def read_count(text: str, input_name: str, label: str) -> int:
    """Read a whole number.

    Formula: none.

    Parameters
    ----------
    text : str
        What was typed [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]

    Returns
    -------
    int
        The count [-]

    Raises
    ------
    Problem
        It is not a whole number.

    Range: any whole number. Leaves out: number words.

    Example
    -------
    >>> read_count("36", "guests", "Guests")
    36

    Source: geometry
    """
    tidy = _check_text(text, input_name, label)
    if re.fullmatch(r"\d{1,3},\d{3}", tidy):
        tidy = tidy.replace(",", "")
    value = read_number(tidy, input_name, label)
    if value != int(value):
        raise Problem(input_name, f"{label} is a whole number, not {_shown(text)}. Write it like {max(1, round(value))}")
    return int(value)


def read_choice(text: str, choices: Iterable[tuple[str, str]], input_name: str, label: str) -> str:
    """Read one of a few words, by value or by label, whatever the capitals.

    Formula: none.

    Parameters
    ----------
    text : str
        What was typed [-]
    choices : iterable of (str, str)
        Values and the labels shown for them [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]

    Returns
    -------
    str
        The value chosen [-]

    Raises
    ------
    Problem
        It is none of them.

    Range: the choices given. Leaves out: near misses.

    Example
    -------
    >>> read_choice("Round", (("round", "Round"), ("square", "Square")), "shape", "Shape")
    'round'

    Source: geometry
    """
    tidy = _check_text(text, input_name, label).lower().replace("_", " ")
    known = tuple(choices)
    for value, shown in known:
        if tidy in (value.lower().replace("_", " "), shown.lower()):
            return value
    raise Problem(input_name, f"{label} is one of {', '.join(value.replace('_', ' ') for value, _ in known)}; “{_shown(text)}” is none of them")


_MONTHS = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"]


def read_moment(text: str, input_name: str, label: str) -> dt.datetime:
    """Read a date with an hour: 2027-10-16 18:00, or 16 October 2027 at 18:00.

    Formula: ISO 8601 order, or day, month by name, year. Days and months as bare numbers are not guessed.

    Parameters
    ----------
    text : str
        What was typed [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]

    Returns
    -------
    datetime
        The local moment, without a time zone [-]

    Raises
    ------
    Problem
        It does not read as a date with an hour.

    Range: years 2020 to 2099. Leaves out: time zones; the clock on the reader's wall is meant.

    Example
    -------
    >>> read_moment("Saturday 16 October 2027 at 18:00", "ready_at", "Ready at").isoformat()
    '2027-10-16T18:00:00'
    >>> read_moment("2027-10-16T18:00", "ready_at", "Ready at").day
    16

    Source: rfc-5545
    """
    tidy = _check_text(text, input_name, label).lower().replace(",", " ")
    way = "Write it like 2027-10-16 18:00 or 16 October 2027 18:00"
    clock = re.search(r"(?:\bat\b|t|\s)\s*(\d{1,2})(?:[:.](\d{2}))?(?::\d{2})?\s*(am|pm)?\s*$", tidy)
    day_text = tidy[: clock.start()] if clock else tidy
    iso = re.search(r"\b(\d{4})-(\d{1,2})-(\d{1,2})", day_text)
    names = re.search(r"\b(\d{1,2})(?:st|nd|rd|th)?\s+([a-z]{3,9})\.?\s+(\d{4})\b", day_text)
    if not iso and not names:
        whole = re.search(r"\b(\d{4})-(\d{1,2})-(\d{1,2})$|\b(\d{1,2})\s+([a-z]{3,9})\s+(\d{4})$", tidy)
        if whole:
            raise Problem(input_name, f"{label} has a day but no hour. {way}")
        raise Problem(input_name, f"{label} is a date with an hour, and “{_shown(text)}” does not read as one. {way}")
    if iso:
        year, month, day = (int(part) for part in iso.groups())
    else:
        assert names is not None
        found = [number for number, name in enumerate(_MONTHS, 1) if name.startswith(names[2])]
        if len(found) != 1:
            raise Problem(input_name, f"{label} has no month called {names[2]}. {way}")
        year, month, day = int(names[3]), found[0], int(names[1])
    if not clock:
        raise Problem(input_name, f"{label} has a day but no hour. {way}")
    hour, minute = int(clock[1]), int(clock[2] or 0)
    if clock[3] and not 1 <= hour <= 12:
        raise Problem(input_name, f"{label} has no such hour: {hour} {clock[3]}. {way}")
    if clock[3]:
        hour = hour % 12 + (12 if clock[3] == "pm" else 0)
    try:
        moment = dt.datetime(year, month, day, hour, minute)
    except ValueError:
        raise Problem(input_name, f"{label} names a day or an hour that does not exist. {way}") from None
    if not YEARS[0] <= year <= YEARS[1]:
        raise Problem(input_name, f"{label} is in the year {year}, and must be between the years {YEARS[0]} and {YEARS[1]}. {way}")
    return moment


def read_text(text: str, input_name: str, label: str, longest: int = LONGEST_TEXT) -> str:
    """Read words as they are, without control characters.

    Formula: none.

    Parameters
    ----------
    text : str
        What was typed [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]
    longest : int
        The most characters taken [-]

    Returns
    -------
    str
        The words [-]

    Raises
    ------
    Problem
        There are too many characters.

    Range: up to `longest` characters. Leaves out: control characters, which are dropped.

    Example
    -------
    >>> read_text("  orchard harvest supper ", "name", "Name")
    'orchard harvest supper'

    Source: geometry
    """
    if len(text) > longest:
        raise Problem(input_name, f"{label} has {len(text)} characters; {longest} is the most. Shorten it")
    kept = "".join(c for c in text if c in "\n\t" or unicodedata.category(c) not in ("Cc", "Cs"))
    return kept.strip()


# --- writing -----------------------------------------------------------------------------------------------------------


def a_or_an(words: str) -> str:
    """Give words with their article.

    Formula: "an" before a, e, i, o and before the letter S by itself, which is said with a vowel in front.

    Parameters
    ----------
    words : str
        A tip, a shape, a row of piping [-]

    Returns
    -------
    str
        The same with "a" or "an" before it [-]

    Raises
    ------
    ValueError
        Never.

    Range: the handbook's words, of which none begins with a silent h or with a u. Leaves out: other words.

    Example
    -------
    >>> a_or_an("oval"), a_or_an("heart"), a_or_an("S scroll")
    ('an oval', 'a heart', 'an S scroll')
    >>> a_or_an("Swiss meringue")
    'a Swiss meringue'

    Source: common-practice
    """
    return f"an {words}" if words.startswith(("a", "e", "i", "o", "S ")) else f"a {words}"


def _plain(value: float, places: int) -> str:
    """A number to some places, halves away from nothing as on paper: 8.25 is 8.3."""
    text = f"{value + math.copysign(1e-9, value):.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _fraction(value: float, parts: int) -> str:
    """A number as whole and fraction with a power-of-two denominator, such as 3 5/16."""
    count = round(value * parts)
    whole, top = divmod(count, parts)
    if top == 0:
        return str(whole)
    bottom = parts
    while top % 2 == 0:
        top, bottom = top // 2, bottom // 2
    return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"


@dataclass(frozen=True)
class Say:
    """Writes amounts in the reader's units: "metric", or "us" for inches, ounces and cups.

    >>> Say("metric").length(50.0), Say("us").length(152.4), Say("us").mass(566.99), Say("metric").duration(95)
    ('5 cm', '6 in', '1 lb 4 oz', '1 h 35 min')
    """

    units: str = "metric"

    def length(self, length_mm: float) -> str:
        """A length [mm]: mm under 1 cm, cm to the mm, m from 2 m; inches to the sixteenth under 1 ft 8 in, then to the eighth."""
        if self.units == "us":
            inches = length_mm / _factor("length", "inch")
            if abs(inches) >= 100:
                return f"{_plain(inches / 36, 1)} yd"
            text = _fraction(inches, 16 if abs(inches) < 20 else 8)
            return f"{text} in" if text != "0" or length_mm == 0 else f"{_plain(inches, 3)} in"
        if abs(length_mm) < 9.95:
            return f"{_plain(length_mm, 1)} mm"
        if abs(length_mm) < 2000:
            return f"{_plain(length_mm / 10, 1)} cm"
        return f"{_plain(length_mm / 1000, 2)} m"

    def opening(self, length_mm: float) -> str:
        """The opening of a tip [mm], which is measured in mm everywhere."""
        return f"{_plain(length_mm, 1)} mm"

    def area(self, area_mm2: float) -> str:
        """An area [mm2], in cm² or square inches."""
        if self.units == "us":
            return f"{_plain(area_mm2 / _factor('length', 'inch') ** 2, 1)} sq in"
        return f"{_plain(area_mm2 / 100, 0)} cm²"

    def mass(self, mass_g: float) -> str:
        """A mass [g]: grams, kg from 1 kg; ounces to the quarter, pounds and ounces from 1 lb."""
        if self.units == "us":
            ounces = mass_g / _factor("mass", "ounce")
            if round(ounces * 4) < 64:
                text = _fraction(ounces, 4)
                return f"{text} oz" if text != "0" or mass_g == 0 else f"{_plain(ounces, 2)} oz"
            pounds, rest = divmod(round(ounces * 2) / 2, 16)
            return f"{pounds:.0f} lb" + (f" {_fraction(rest, 2)} oz" if rest else "")
        if round(mass_g) >= 1000:
            return f"{_plain(mass_g / 1000, 2)} kg"
        return f"{_plain(mass_g, 0 if mass_g >= 10 else 1)} g"

    def volume(self, volume_ml: float) -> str:
        """A volume [ml]: ml, litres from 1 l; cups to the quarter, tablespoons and teaspoons below that."""
        if self.units == "us":
            cups = volume_ml / _factor("volume", "cup")
            if cups >= 0.2:
                quarters = round(cups * 4)
                return f"{_fraction(cups, 4)} cup" + ("s" if quarters > 4 else "")
            spoons = volume_ml / _factor("volume", "teaspoon")
            if spoons >= 2.75:
                return f"{_fraction(spoons / 3, 2)} tbsp"
            return f"{_fraction(spoons, 4)} tsp" if spoons >= 0.125 or spoons == 0 else f"{_plain(spoons, 2)} tsp"
        if round(volume_ml) >= 1000:
            return f"{_plain(volume_ml / 1000, 2)} l"
        return f"{_plain(volume_ml, 0 if volume_ml >= 10 else 1)} ml"

    def duration(self, time_min: float) -> str:
        """A time [min] in days, hours and minutes."""
        if 0 < time_min < 1:
            return f"{_plain(time_min * 60, 0)} s"
        minutes = round(time_min)
        days, minutes = divmod(minutes, 1440)
        hours, minutes = divmod(minutes, 60)
        parts = [f"{days} d" if days else "", f"{hours} h" if hours else "", f"{minutes} min" if minutes else ""]
        return " ".join(part for part in parts if part) or "0 min"

    def percent(self, value: float) -> str:
        """A share in hundredths [%]."""
        return f"{_plain(value, 1)} %"

    def money(self, value: float) -> str:
        """An amount of the reader's own money [-], to two places."""
        return f"{value:.2f}"

    def number(self, value: float, places: int = 2) -> str:
        """A plain number [-]."""
        return _plain(value, places)

    def temperature(self, celsius: float, fahrenheit: float) -> str:
        """Both published figures of one temperature [degC, degF]; rounded pairs are never converted into each other."""
        first, second = f"{_plain(celsius, 0)} °C", f"{_plain(fahrenheit, 0)} °F"
        return f"{second} ({first})" if self.units == "us" else f"{first} ({second})"

    def moment(self, moment: dt.datetime) -> str:
        """A date with an hour, the day of the week first."""
        days = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
        month = _MONTHS[moment.month - 1].capitalize()
        return f"{days[moment.weekday()]} {moment.day} {month} {moment.year}, {moment:%H:%M}"
