"""Examples, defaults and hints for readers in US units: each metric amount in a text as a round US one."""

from __future__ import annotations

import re
from functools import lru_cache

from calc.units.kitchen import factor
from calc.units.reading import MONTHS
from calc.units.writing import fraction

# Round figures of each unit: up to `under` of it, in steps of so much.
_STEPS = {
    "inch": ((1 / 4, 1 / 16), (1, 1 / 8), (10, 1 / 4), (float("inf"), 1.0)),
    "ounce": ((4, 1 / 4), (8, 1 / 2), (float("inf"), 2.0)),
    "pound": ((10, 1 / 2), (float("inf"), 1.0)),
    "cup": ((1, 1 / 4), (float("inf"), 1 / 2)),
    "quart": ((float("inf"), 1.0),),
}
_SHORT = {"inch": "in", "ounce": "oz", "pound": "lb", "cup": "cup", "quart": "qt"}
_KIND = {"mm": "length", "cm": "length", "m": "length", "g": "mass", "kg": "mass", "ml": "volume", "l": "volume"}
_NAME = {"mm": "millimeter", "cm": "centimeter", "m": "meter", "g": "gram", "kg": "kilogram", "ml": "milliliter", "l": "liter"}
_TIPS = r"(?:round|star|petal|leaf|ruffle|basket|open|opening)"
_NUMBER = r"\d+(?:\.\d+)?"
# One amount, or several with one unit: 25 x 50 mm; 15, 20 and 25 cm. What follows the name of a tip is its opening, measured in mm everywhere.
_AMOUNTS = re.compile(
    rf"(?P<tip>\b{_TIPS}\s+)?(?P<numbers>(?<![\d.,]){_NUMBER}(?:(?:\s*[x×]\s*|,\s+|\s+(?:and|to|or)\s+){_NUMBER})*)\s*"
    r"(?P<unit>mm|cm|m|kg|g|ml|l)\b(?!/)"
)
_EXAMPLE = re.compile(r"\b(?:like|such as|left empty:) (?:[^.;“”]|\.(?=\d)|;(?= \d))*", re.IGNORECASE)
_US = re.compile(r"\d\s*(?:in|oz|lb|cups?|qt|\")(?![a-z])")


def _round_figure(value: float, unit: str) -> float:
    """The round figure next to a number of units."""
    step = next(step for under, step in _STEPS[unit] if value < under - step / 2)
    if abs(value - round(value)) <= 0.02 * value:
        step = 1.0
    return max(1, round(value / step)) * step


@lru_cache(maxsize=1024)
def in_us_figures(text: str) -> str:
    """A text with each metric amount as a round US one; openings of tips stay in millimetres, and less than 7 g in grams.

    >>> in_us_figures("20 x 10 cm round; 15 x 10 cm round"), in_us_figures("66 cm"), in_us_figures("such as 1.2 kg or 250 g")
    ('8 x 4 in round; 6 x 4 in round', '26 in', 'such as 2 1/2 lb or 8 oz')
    >>> in_us_figures("petal 11 mm"), in_us_figures("15, 20 and 25 cm")
    ('petal 11 mm', '6, 8 and 10 in')
    """

    def replace(match: re.Match[str]) -> str:
        unit = match["unit"]
        kind = _KIND[unit]
        values = [float(number) * factor(kind, _NAME[unit]) for number in re.findall(_NUMBER, match["numbers"])]
        if match["tip"] or (kind == "mass" and max(values) < 7):
            return match[0]
        us = {"length": "inch", "mass": "pound" if max(values) >= 440 else "ounce", "volume": "quart" if max(values) >= 1500 else "cup"}[kind]
        figures = [_round_figure(value / factor(kind, us), us) for value in values]
        written = iter(fraction(figure, 16) for figure in figures)
        numbers = re.sub(_NUMBER, lambda _: next(written), match["numbers"])
        return f"{numbers} {_SHORT[us]}{'s' if us == 'cup' and figures[-1] > 1 else ''}"

    return _AMOUNTS.sub(replace, text)


@lru_cache(maxsize=1024)
def us_examples(text: str) -> str:
    """A sentence with the examples in it ("like 66 cm", "such as 250 g") in round US figures; what gives both systems already stays.

    >>> us_examples("Side is empty. Write it like 66 cm"), us_examples("Write it like 15 cm or 6 in")
    ('Side is empty. Write it like 26 in', 'Write it like 15 cm or 6 in')
    """
    return _EXAMPLE.sub(lambda match: match[0] if _US.search(match[0]) else in_us_figures(match[0]), text)


_DAY = re.compile(rf"\b(\d{{1,2}}) ({'|'.join(month.capitalize() for month in MONTHS)}) (\d{{4}})\b")
_ISO = re.compile(r"\b(\d{4})-(\d\d)-(\d\d)(?=[ T]\d\d:)")
_CLOCK = re.compile(r"(?<=\d)[ T](?=\d\d:)|(?<!\d)(\d{1,2}):(\d\d)\b")


def us_hours(text: str) -> str:
    """A text with its dates in American order and its hours on a 12-hour clock.

    >>> us_hours("2027-10-16 18:00"), us_hours("Mon to Fri 18:00 to 22:30")
    ('October 16, 2027 6:00 PM', 'Mon to Fri 6:00 PM to 10:30 PM')
    """
    text = _ISO.sub(lambda day: f"{MONTHS[(int(day[2]) - 1) % 12].capitalize()} {int(day[3])}, {day[1]}", text)
    text = _DAY.sub(lambda day: f"{day[2]} {day[1]}, {day[3]}", text)
    return _CLOCK.sub(lambda at: " " if at[1] is None else f"{int(at[1]) % 12 or 12}:{at[2]} {'AM' if int(at[1]) % 24 < 12 else 'PM'}", text)


def us_hint(text: str) -> str:
    """A hint with its amounts in round US figures, its dates and hours as Americans write them; amounts given in both systems stay."""
    return us_hours(text if _US.search(text) else in_us_figures(text))
