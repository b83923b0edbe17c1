"""What a person typed, read into numbers, quantities, choices, dates and words."""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from calc.units.kitchen import EXAMPLES, NOUNS, UNIT_OF, factor
from calc.units.money import hundredths
from calc.units.problems import Problem

LONGEST_TEXT = 200
YEARS = (2020, 2099)  # an order for any other is a slip of the finger
LONGEST_RECORD = 60_000

_VULGAR = {c: unicodedata.numeric(c) for c in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
_GROUPED = r"\d{1,3}(?:,\d{3})+\.\d+|\d{1,3}(?:,\d{3}){2,}(?![\d.,])|\d{1,3}(?:\.\d{3})+,\d+"  # 1,250.5: no other reading is left
_DIGITS = rf"{_GROUPED}|\d+(?:[.,]\d+)?|[.,]\d+"
_NUMBER = re.compile(
    rf"(?P<whole>(?:{_DIGITS})(?:[eE][+-]?\d{{1,3}}(?![a-zA-Z]))?)(?:\s*(?P<vulgar>[{''.join(_VULGAR)}])|"
    rf"(?P<over>\s*[/⁄]\s*\d+)|(?:\s+|-)(?P<top>\d+)\s*[/⁄]\s*(?P<bottom>\d+))?|(?P<alone>[{''.join(_VULGAR)}])"
)
_UNIT = re.compile(r"(?:-(?=[a-zA-Z])|\s*)(?P<unit>\"|''|'|[a-zA-Z.]+(?:[ -][a-zA-Z.]+)*)?\s*")

# What people write round a measurement without meaning anything by it: 6 inch round, a 3 1/2" cutter, 500 g of butter.
_SO = r"(?:(?:about|approximately|approx|around|roughly|circa|ca)(?:\.|(?![a-z]))|[~≈])"
_ABOUT = re.compile(rf"^{_SO}\s*|\s+{_SO}$", re.IGNORECASE)  # before it or after it: between two numbers it is a range
SHAPE_WORDS = {
    "round": "round",
    "circle": "round",
    "circular": "round",
    "square": "square",
    "rectangle": "rectangle",
    "rectangular": "rectangle",
    "sheet": "rectangle",
    "oval": "oval",
    "heart": "heart",
    "hexagon": "hexagon",
    "petal": "petal",
}
_LENGTH_THINGS = (
    "tin pan cake sponge cutter ring disc disk board drum tier dowel across wide width high height tall deep depth long length thick "
    "thickness diameter dia drop strip slice layer layers each apart below"
)
_THINGS = {
    "length": frozenset(_LENGTH_THINGS.split()) | set(SHAPE_WORDS),
    "mass": frozenset(("of", "butter", "buttercream", "icing", "frosting", "sugar", "flour", "each")),
    "volume": frozenset(("of", "buttercream", "icing", "frosting", "each", "bowl")),
    "duration": frozenset(("of", "work", "away", "each")),
}
_AFTER = {"foot": "inch", "pound": "ounce", "hour": "minute", "kilogram": "gram"}  # 1' 6 is 1 ft 6 in

_COUNTS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_ONES = {"a": 1, "an": 1} | {word: number for number, word in enumerate(_COUNTS, 1)}
_PARTS = {"half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16}
_WORDED = re.compile(
    rf"(?:(?P<whole>{'|'.join(_ONES)}|\d+)\s+and\s+)?(?:(?P<top>{'|'.join(_ONES)})[\s-]+)?(?P<part>{'|'.join(_PARTS)})(?:\s+of)?(?:\s+an?\b)?[\s-]+(?=[a-z])"
    rf"|(?P<ones>{'|'.join(_ONES)})[\s-]+(?:(?P<more>and\s+a\s+half)[\s-]+)?(?=[a-z])",
    re.IGNORECASE,
)
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


def excerpt(text: str) -> str:
    """Give what was typed on one line, short enough to be repeated in a message.

    >>> excerpt("about as much as\\nfits into a cupped hand")
    'about as much as fits into a …'
    """
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
    if re.match(_GROUPED, whole):
        decimal = max(whole.rfind("."), whole.rfind(",")) if "." in whole else len(whole)
        value = float(re.sub(r"[.,]", "", whole[:decimal]) + "." + whole[decimal + 1 :])
    else:
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
        raise Problem(input_name, f"{label} is a number, and “{excerpt(text)}” does not read as one. Write it like 5 or 2.5")
    if found[0] == float("inf"):
        raise Problem(input_name, f"{label} is too large a number. Write it like 5 or 2.5")
    return sign * found[0]


def _without_words(text: str, kind: str) -> str:
    """A measurement without what stands before its number; numbers in words become figures: half an inch is 1/2 inch.

    >>> _without_words("about half an inch", "length"), _without_words("one and a half cups", "volume")
    ('1/2 inch', '1 1/2 cups')
    """
    text = _ABOUT.sub("", text)
    first = re.match(r"(?:an?\s+)?([a-z]+)[\s:]+(?=[\d.,½¼¾⅓⅔⅛⅜⅝⅞])", text, re.IGNORECASE)
    if first and first[1].lower() in _THINGS[kind]:
        text = text[first.end() :]
    worded = _WORDED.match(text)
    if not worded or _unit_in(text[worded.end() :].split(" ")[0], kind)[0] in (None, ""):
        return text
    if worded["ones"]:
        figure = f"{_ONES[worded['ones'].lower()]}{' 1/2' if worded['more'] else ''}"
    else:
        whole = worded["whole"] or ""
        figure = f"{_ONES.get(whole.lower(), whole)} " if whole else ""
        figure += f"{_ONES[(worded['top'] or 'a').lower()]}/{_PARTS[worded['part'].lower()]}"
    return f"{figure} {text[worded.end() :]}"


def _unit_in(spelled: str, kind: str) -> tuple[str | None, str]:
    """The unit that some words begin with, and the words after it that say what is measured; None where it is no such thing."""
    words = spelled.lower().replace("-", " ").split()
    known = UNIT_OF[kind]
    for count in range(len(words), -1, -1):
        head = " ".join(words[:count])
        unit = known.get(head) or known.get(head.rstrip(".")) if head else ""
        rest = words[count:]
        if rest and rest[0] == "in" and rest[1:] == ["diameter"]:
            rest = []
        if unit is not None and all(word.rstrip(".") in _THINGS[kind] for word in rest):
            return unit, " ".join(rest)
    return None, ""


@lru_cache(maxsize=4096)
def _quantity(text: str, kind: str, bare_unit: str, input_name: str, label: str) -> tuple[float, str]:
    """A quantity in its base unit, and the number as it was written where it had no unit."""
    example = EXAMPLES[kind]
    tidy = _without_words(_check_text(text, input_name, label), kind)
    negative = tidy.startswith("-")
    if negative:
        tidy = tidy[1:].lstrip()
    total, at, parts, last, bare = 0.0, 0, 0, "", ""
    while at < len(tidy):
        rest = re.fullmatch(r"[\s,]*([a-zA-Z.]+(?:[ -][a-zA-Z.]+)*)", tidy[at:]) if parts else None
        if rest and _unit_in(rest[1], kind)[0] == "":
            break  # words that say what was measured
        found = _number_at(tidy, at, input_name, label)
        if found is None:
            raise Problem(input_name, f"{label} is {NOUNS[kind]}, and “{excerpt(text)}” does not read as one. Write it like {example}")
        begin, (value, at) = at, found
        _check_one(tidy, at, kind, text, input_name, label, example)
        match = _UNIT.match(tidy, at)
        spelled = (match["unit"] or "") if match else ""
        unit, _ = _unit_in(spelled, kind) if spelled else ("", "")
        if unit is None:
            unit = _unit_or_problem(spelled, kind, text, input_name, label, example)
        elif not unit:
            unit = _AFTER.get(last, "") if parts else bare_unit
            if not unit:
                raise Problem(input_name, f"{label} needs a unit. Write it like {example}")
            bare = tidy[begin:at].strip() if not parts else ""
        last = unit
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
    return (-total if negative else total), bare


_TIMES = re.compile(r"\s*(?:\"|''|'|[a-zA-Z]{1,6}\.?)?\s*(?:x|×|\*|\bby\b)\s*[\d½¼¾]", re.IGNORECASE)
_SPAN = re.compile(r"\s*(?:[a-zA-Z\"']{0,6}\s*)(?:-|\bto\b|\bor\b)\s*\d", re.IGNORECASE)


def _check_one(tidy: str, at: int, kind: str, text: str, input_name: str, label: str, example: str) -> None:
    """Raise a `Problem` where a second measurement follows: 9 x 13, or a range."""
    if _TIMES.match(tidy, at):
        raise Problem(input_name, f"{label} is one measurement, and “{excerpt(text)}” is more than one. Write it like {example}")
    if _SPAN.match(tidy, at):
        raise Problem(input_name, f"{label}: “{excerpt(text)}” is a range, or two measurements. Write one, like {example}")


def _unit_or_problem(spelled: str, kind: str, text: str, input_name: str, label: str, example: str) -> str:
    word = spelled.lower()
    for other, table in UNIT_OF.items():
        if other != kind and (word in table or word.rstrip(".") in table):
            raise Problem(input_name, f"{label} is {NOUNS[kind]}; “{excerpt(text)}” is {NOUNS[other]}. Write it like {example}")
    first = word.split(" ")[0]
    if first in UNIT_OF[kind]:
        rest = spelled[len(first) :].strip()
        raise Problem(input_name, f"{label} has words after the measurement: “{excerpt(rest)}”. Write only the measurement, like {example}")
    raise Problem(input_name, f"{label} has a unit that is not known here: “{excerpt(spelled)}”. Write it like {example}")


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
    return _quantity(text, kind, bare_unit, input_name, label)[0]


def read_measure(text: str, kind: str, input_name: str, label: str, bare_unit: str) -> tuple[float, str]:
    """Read as `read_quantity` does, and tell the number as it was written where it had no unit, else "".

    >>> read_measure("8 round", "length", "width", "Width", "inch"), read_measure("8 in", "length", "width", "Width", "inch")
    ((203.2, '8'), (203.2, ''))
    """
    return _quantity(text, kind, bare_unit, input_name, label)


def shape_in(text: str) -> str:
    """The shape that a text names, such as that of 8" square; "" where it names none.

    >>> shape_in('8" square'), shape_in("20 cm")
    ('square', '')
    """
    return next((SHAPE_WORDS[word] for word in re.findall(r"[a-z]+", text.lower()) if word in SHAPE_WORDS), "")


def read_pair(text: str, input_name: str, label: str, bare_unit: str = "") -> tuple[float, float]:
    """Read two lengths joined by x, such as a slice of 25 x 50 mm, in mm; a unit written once holds for both.

    >>> read_pair("25 x 50 mm", "slice", "Slice")
    (25.0, 50.0)
    >>> read_pair("1 in by 2 in", "slice", "Slice")
    (25.4, 50.8)
    """
    tidy = _check_text(text, input_name, label)
    parts = re.split(r"\s*(?:x|×|\*|\bby\b)\s*", tidy, flags=re.IGNORECASE)
    if len(parts) != 2 or not all(parts):
        raise Problem(input_name, f"{label} is two lengths, and “{excerpt(text)}” does not read as two. Write it like 25 x 50 mm or 1 x 2 in")
    last_unit = re.search(r"\d\s*-?(\"|''|[a-zA-Z]+)", parts[1]) or re.search(rf"[{''.join(_VULGAR)}]\s*-?(\"|''|[a-zA-Z]+)", parts[1])
    if last_unit and last_unit[1].lower() in UNIT_OF["length"] and not re.search(r"(\"|'|[a-zA-Z])", parts[0]):
        parts[0] += " " + last_unit[1]
    first = read_quantity(parts[0], "length", input_name, label, bare_unit)
    return first, read_quantity(parts[1], "length", input_name, label, bare_unit)


_COUNTED = frozenset(["people", "guest", "person", "portion", "serving", "piece", "of"])  # without the s of the plural


def read_count(text: str, input_name: str, label: str) -> int:
    """Read a whole number, also with what is counted after it.

    >>> read_count("36 guests", "guests", "Guests"), read_count("1,200", "guests", "Guests")
    (36, 1200)
    """
    tidy = _ABOUT.sub("", _check_text(text, input_name, label))
    named = re.fullmatch(r"([\d,]+)\s+([a-z]+)", tidy, re.IGNORECASE)
    if named and named[2].lower().rstrip("s") in {word.rstrip("s") for word in re.findall(r"[a-z]+", label.lower())} | _COUNTED:
        tidy = named[1]
    if re.fullmatch(r"\d{1,3}(?:,\d{3})+", tidy):
        tidy = tidy.replace(",", "")
    value = read_number(tidy, input_name, label)
    if value != int(value):
        raise Problem(input_name, f"{label} is a whole number, not {excerpt(text)}. Write it like {max(1, round(value))}")
    return int(value)


# Currencies that are written in letters: codes of ISO 4217, and short forms of everyday use (common practice, no source).
_CODES = (
    "AED ARS AUD BDT BGN BRL CAD CHF CLP CNY COP CZK DKK EGP GHS HKD HUF IDR ILS INR ISK JPY KES KRW LKR MXN MYR NGN NOK NZD PEN PHP PKR PLN RON "
    "SAR SEK SGD THB TRY TWD UAH VND ZAR"
)
_SHORT = ("kr", "zł", "Kč", "Ft", "lei", "Rs", "RM", "Fr", "A$", "C$", "NZ$", "R$")
_SIGNS = {"usd": "$", "us$": "$", "dollar": "$", "dollars": "$", "gbp": "£", "pound": "£", "pounds": "£", "eur": "€", "euro": "€", "euros": "€"}
_SIGNS |= {word.lower(): word if word.endswith("$") else f"{word}\N{NO-BREAK SPACE}" for word in (*_SHORT, *_CODES.split())}
_SIGN = "|".join(map(re.escape, _SIGNS)) + r"|[^\w\s.,+\-/]"
_MONEY = re.compile(
    rf"(?P<sign>{_SIGN})?\s*(?P<number>\d[\d.,\s]*|[.,]\d+)\s*(?P<after>{_SIGN})?\s*(?P<per>(?:/|\bper\b|\ban?\b|\beach\b)\s*(?P<each>[a-z]+)\.?)?",
    re.IGNORECASE,
)
_HOUR = frozenset(("h", "hr", "hour"))


def read_money(text: str, input_name: str, label: str, each: str = "") -> tuple[float, str]:
    """Read an amount of money and the sign of its currency, "" where none is written. A rate may say that it is for one of `each`.

    >>> read_money("$1,250", "extras", "Extras"), read_money("£12.50", "price", "Price"), read_money("$18/hr", "rate", "Rate", "hour")
    ((1250.0, '$'), (12.5, '£'), (18.0, '$'))
    """
    tidy = _check_text(text, input_name, label)
    if re.fullmatch(r"[\d\s.,/½¼¾⅓⅔e+-]*", tidy) and not re.search(r"[.,]\d{3}(?!\d)|\d\s+\d", tidy):
        return read_number(tidy, input_name, label), ""
    found = _MONEY.fullmatch(tidy)
    sign = (found["sign"] or found["after"] or "").lower() if found else ""
    if not found or (found["sign"] and found["after"]) or (sign and sign not in _SIGNS and unicodedata.category(sign) != "Sc"):
        raise Problem(input_name, f"{label} is an amount of money, and “{excerpt(text)}” does not read as a number. Write it like 12.50")
    if found["per"] and not (each == "hour" and found["each"].lower() in _HOUR):
        what = f"for one {each}" if each else "for the whole"
        raise Problem(input_name, f"{label} is an amount {what}, and “{excerpt(text)}” says “{found['per'].strip()}”. Write it like 12.50")
    number = re.sub(r"\s+", "", found["number"])
    if re.fullmatch(r"\d{1,3}\.\d{3}", number):
        raise Problem(input_name, f"{label}: {number} can be read in two ways. Write {number.replace('.', '')} or {hundredths(float(number)):.2f}")
    decimal = re.search(r"[.,](\d{1,2})$|^[.,]\d+$", number)
    at = decimal.start() if decimal else len(number)
    whole = number[:at]
    if not re.fullmatch(r"\d*|\d{1,3}(?:,\d{3})+|\d{1,3}(?:\.\d{3})+", whole):
        raise Problem(input_name, f"{label} is an amount of money, and “{excerpt(text)}” does not read as a number. Write it like 12.50")
    return read_number(re.sub(r"[.,]", "", whole) + number[at:].replace(",", "."), input_name, label), _SIGNS.get(sign, sign)


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
    raise Problem(input_name, f"{label} is one of {', '.join(value.replace('_', ' ') for value, _ in known)}; “{excerpt(text)}” is none of them")


MONTHS = ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"]
_MONTH = "|".join(rf"{month[:3]}(?:{month[3:]})?" for month in MONTHS) + "|sept"
_HOUR_AT = r"(?P<hour>\d{1,2})(?:[:.h](?P<minute>\d{2}))?(?::\d{2})?\s*(?P<half>am|pm)?"
_CLOCK_LAST = re.compile(rf"(?:\bat\b|t|\s)\s*{_HOUR_AT}\s*$")
_CLOCK_FIRST = re.compile(rf"^{_HOUR_AT}\s*(?:\bon\b)?\s+(?=\D*\d)")
_DAY_ISO = re.compile(r"\b(?P<year>\d{4})[-/.](?P<month>\d{1,2})[-/.](?P<day>\d{1,2})(?!\d)")
_DAY_FIRST = re.compile(r"\b(?P<day>\d{1,2})(?:st|nd|rd|th)?[\s-]+(?:of\s+)?(?P<name>[a-z]{3,9})\.?[\s-]+(?P<year>\d{4})\b")
_MONTH_FIRST = re.compile(rf"\b(?P<name>{_MONTH})\.?[\s-]+(?P<day>\d{{1,2}})(?:st|nd|rd|th)?[\s-]+(?P<year>\d{{4}})\b")
_DAY_NUMBERS = re.compile(r"(?<![\d/.-])(?P<first>\d{1,2})(?P<between>[/.-])(?P<second>\d{1,2})(?P=between)(?P<year>\d{4}|\d{2})(?![\d/-])")
_HOW_TO_DATE = "Write it like 2027-10-16 18:00 or October 16, 2027 6:00 PM"


def read_moment(text: str, input_name: str, label: str) -> dt.datetime:
    """Read a local date and time of day in the years 2020 to 2099, in the order of ISO 8601 or with the month by name before or after the day.

    In figures the day and the month may stand in either order; where both readings are a day, it is asked which.

    >>> read_moment("Saturday 16 October 2027 at 18:00", "ready_at", "Ready at").isoformat()
    '2027-10-16T18:00:00'
    >>> read_moment("June 5, 2027 2:30 PM", "ready_at", "Ready at").isoformat()
    '2027-06-05T14:30:00'
    >>> read_moment("10/16/2027 6 pm", "ready_at", "Ready at").day
    16
    """
    way = _HOW_TO_DATE
    tidy = re.sub(r"\b([ap])\.\s?m\.?(?!\w)", r"\1m", _check_text(text, input_name, label).lower().replace(",", " "))
    tidy = re.sub(r"\b(?:12\s*)?noon\b", "12:00 pm", tidy)
    clock = _CLOCK_LAST.search(tidy)
    day_text = tidy[: clock.start()] if clock else tidy
    if not clock:
        clock = _CLOCK_FIRST.match(tidy)
        if clock and (clock["minute"] or clock["half"]):
            day_text = tidy[clock.end() :]
        else:
            clock = None
    dated = _day_in(day_text, clock, text, input_name, label)
    if dated is None and clock and _day_in(tidy, None, text, input_name, label) is not None:
        dated, clock = _day_in(tidy, None, text, input_name, label), None
    if dated is None:
        raise Problem(input_name, f"{label} is a date with an hour, and “{excerpt(text)}” does not read as one. {way}")
    if not clock:
        raise Problem(input_name, f"{label} has a day but no hour. {way}")
    hour, minute = int(clock["hour"]), int(clock["minute"] or 0)
    if clock["half"]:
        if not 1 <= hour <= 12:
            raise Problem(input_name, f"{label} has no such hour: {hour} {clock['half']}. {way}")
        hour = hour % 12 + (12 if clock["half"] == "pm" else 0)
    year, month, day = dated
    try:
        moment = dt.datetime(year, month, day, hour, minute)
    except ValueError:
        raise Problem(input_name, f"{label} names a day or an hour that does not exist. {way}") from None
    if not YEARS[0] <= year <= YEARS[1]:
        raise Problem(input_name, f"{label} is in the year {year}, and must be between the years {YEARS[0]} and {YEARS[1]}. {way}")
    return moment


def _day_in(tidy: str, clock: re.Match[str] | None, text: str, input_name: str, label: str) -> tuple[int, int, int] | None:
    """Year, month and day of a date; None where there is none, and a `Problem` where it could be two."""
    iso = _DAY_ISO.search(tidy)
    if iso:
        return int(iso["year"]), int(iso["month"]), int(iso["day"])
    named = _MONTH_FIRST.search(tidy) or _DAY_FIRST.search(tidy)
    if named:
        found = [number for number, name in enumerate(MONTHS, 1) if name.startswith(named["name"])]
        if len(found) != 1:
            raise Problem(input_name, f"{label} has no month called {named['name']}. {_HOW_TO_DATE}")
        return int(named["year"]), found[0], int(named["day"])
    numbers = _DAY_NUMBERS.search(tidy)
    if not numbers:
        return None
    first, second, year = int(numbers["first"]), int(numbers["second"]), int(numbers["year"])
    year += 2000 if len(numbers["year"]) == 2 else 0
    if first <= 12 and second <= 12 and first != second and first and second:
        hours = f" {clock.group().strip().removeprefix('at').strip()}" if clock else ""
        one, other = f"{first} {MONTHS[second - 1].capitalize()} {year}", f"{MONTHS[first - 1].capitalize()} {second}, {year}"
        raise Problem(input_name, f"{label}: “{excerpt(text)}” could be two days. Write {one}{hours} or {other}{hours}")
    return (year, second, first) if first > 12 or second <= 12 else (year, first, second)


def read_text(text: str, input_name: str, label: str, longest: int = LONGEST_TEXT) -> str:
    """Read up to `longest` characters of words, without control characters.

    >>> read_text("  orchard harvest supper ", "name", "Name")
    'orchard harvest supper'
    """
    if len(text) > longest:
        raise Problem(input_name, f"{label} has {len(text)} characters; {longest} is the most. Shorten it")
    kept = "".join(c for c in text if c in "\n\t" or unicodedata.category(c) not in ("Cc", "Cs"))
    return kept.strip()
