"""What a person typed, read into numbers, quantities, choices, dates and words."""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from calc.units.kitchen import EXAMPLES, NOUNS, UNIT_OF, factor
from calc.units.problems import Problem

LONGEST_TEXT = 200
YEARS = (2020, 2099)  # an order for any other is a slip of the finger
LONGEST_RECORD = 60_000

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
            raise Problem(input_name, f"{label} divides by 0. Write a fraction like 1/2")
        value /= bottom
    elif match["top"]:
        if int(match["bottom"]) == 0:
            raise Problem(input_name, f"{label} divides by 0. Write a fraction like 1 1/2")
        value += int(match["top"]) / int(match["bottom"])
    return value, match.end()


def _check_text(text: str, input_name: str, label: str) -> str:
    if len(text) > LONGEST_TEXT:
        raise Problem(input_name, f"{label} has {len(text)} characters; {LONGEST_TEXT} is the most. Write only the measurement")
    return _tidy(text)


def read_number(text: str, input_name: str, label: str) -> float:
    """Read a plain number, with a decimal comma or point, or as a fraction; thousands separators are refused with a question.

    >>> read_number("1 1/2", "n", "Number"), read_number("15,5", "n", "Number"), read_number("½", "n", "Number")
    (1.5, 15.5, 0.5)
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
        unit = UNIT_OF[kind].get(spelled.lower()) or UNIT_OF[kind].get(spelled.lower().rstrip("."))
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
        total += value * factor(kind, unit)
        parts += 1
    if parts == 0:
        raise Problem(input_name, f"{label} is empty. Write it like {example}")
    if total == float("inf"):
        raise Problem(input_name, f"{label} is too large. Write it like {example}")
    total = float(f"{total:.13g}")  # 6 x 25.4 is 152.4, not 152.39999999999998
    return -total if negative else total


def _unit_or_problem(spelled: str, kind: str, text: str, input_name: str, label: str, example: str) -> str:
    word = spelled.lower()
    for other, table in UNIT_OF.items():
        if other != kind and (word in table or word.rstrip(".") in table):
            raise Problem(input_name, f"{label} is {NOUNS[kind]}; “{_shown(text)}” is {NOUNS[other]}. Write it like {example}")
    first = word.split(" ")[0]
    if first in UNIT_OF[kind]:
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
        pint's name of the unit meant if none is written; empty asks for one [-]

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

    Source: nist-811, nist-household (table of capacity equivalents)
    """
    return _quantity(text, kind, bare_unit, input_name, label)


def read_pair(text: str, input_name: str, label: str, bare_unit: str = "") -> tuple[float, float]:
    """Read two lengths joined by x, such as a slice of 25 x 50 mm, in mm; a unit written once holds for both.

    >>> read_pair("25 x 50 mm", "slice", "Slice")
    (25.0, 50.0)
    >>> read_pair("1 in by 2 in", "slice", "Slice")
    (25.4, 50.8)
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

    >>> read_count("36", "guests", "Guests")
    36
    """
    tidy = _check_text(text, input_name, label)
    if re.fullmatch(r"\d{1,3},\d{3}", tidy):
        tidy = tidy.replace(",", "")
    value = read_number(tidy, input_name, label)
    if value != int(value):
        raise Problem(input_name, f"{label} is a whole number, not {_shown(text)}. Write it like {max(1, round(value))}")
    return int(value)


def read_choice(text: str, choices: Iterable[tuple[str, str]], input_name: str, label: str) -> str:
    """Read one of a few words, by value or by label, in upper or lower case.

    >>> read_choice("Round", (("round", "Round"), ("square", "Square")), "shape", "Shape")
    'round'
    """
    tidy = _check_text(text, input_name, label).lower().replace("_", " ")
    known = tuple(choices)
    for value, shown in known:
        if tidy in (value.lower().replace("_", " "), shown.lower()):
            return value
    raise Problem(input_name, f"{label} is one of {', '.join(value.replace('_', ' ') for value, _ in known)}; “{_shown(text)}” is none of them")


MONTHS = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"]


def read_moment(text: str, input_name: str, label: str) -> dt.datetime:
    """Read a local date and time of day in the years 2020 to 2099: 2027-10-16 18:00, or 16 October 2027 at 18:00.

    Dates are in ISO 8601 order, or day, month by name, year; 10/16/2027 is not guessed.

    >>> read_moment("Saturday 16 October 2027 at 18:00", "ready_at", "Ready at").isoformat()
    '2027-10-16T18:00:00'
    >>> read_moment("2027-10-16T18:00", "ready_at", "Ready at").day
    16
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
        found = [number for number, name in enumerate(MONTHS, 1) if name.startswith(names[2])]
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
    """Read up to `longest` characters of words, without control characters.

    >>> read_text("  orchard harvest supper ", "name", "Name")
    'orchard harvest supper'
    """
    if len(text) > longest:
        raise Problem(input_name, f"{label} has {len(text)} characters; {longest} is the most. Shorten it")
    kept = "".join(c for c in text if c in "\n\t" or unicodedata.category(c) not in ("Cc", "Cs"))
    return kept.strip()
