"""Amounts written for a person, in the units of their choice."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

from calc.units.kitchen import factor
from calc.units.reading import MONTHS


def a_or_an(words: str) -> str:
    """Give words with their article: "an" before a, e, i, o and before the letter S by itself ("ess").

    It holds for the handbook's words, none of which begins with a silent h or with a u.

    >>> a_or_an("oval"), a_or_an("heart"), a_or_an("S scroll")
    ('an oval', 'a heart', 'an S scroll')
    >>> a_or_an("Swiss meringue")
    'a Swiss meringue'
    """
    return f"an {words}" if words.startswith(("a", "e", "i", "o", "S ")) else f"a {words}"


def _plain(value: float, places: int) -> str:
    """A number to some decimal places, halves rounded away from zero as on paper: 8.25 is 8.3."""
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


def hundredths(amount: float) -> float:
    """Round an amount of money to the hundredth as it is done by hand, halves away from zero.

    >>> hundredths(3.625), hundredths(1.005), hundredths(-0.125)
    (3.63, 1.01, -0.13)
    """
    return math.copysign(math.floor(round(abs(amount) * 100, 6) + 0.5) / 100, amount) if math.isfinite(amount) else amount


@dataclass(frozen=True)
class Say:
    """Writes amounts in the reader's units: "metric", or "us" for inches, ounces and cups.

    >>> Say("metric").length(50.0), Say("us").length(152.4), Say("us").mass(566.99), Say("metric").duration(95)
    ('5 cm', '6 in', '1 lb 4 oz', '1 h 35 min')
    """

    units: str = "metric"
    steady: bool = False  # every metric length in cm, for a sheet on which figures are compared

    @property
    def language(self) -> str:
        """The language tag of the English that goes with the units (BCP 47)."""
        return "en-US" if self.units == "us" else "en-GB"

    def length(self, length_mm: float) -> str:
        """A length [mm]: mm under 1 cm, cm to the mm, m from 2 m; inches to the sixteenth under 1 ft 8 in, then to the eighth."""
        if self.units == "us":
            inches = length_mm / factor("length", "inch")
            if abs(inches) >= 100:
                return f"{_plain(inches / 36, 1)} yd"
            text = _fraction(inches, 16 if abs(inches) < 20 else 8)
            return f"{text} in" if text != "0" or length_mm == 0 else f"{_plain(inches, 3)} in"
        if self.steady:
            return f"{_plain(length_mm / 10, 1)} cm"
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
            return f"{_plain(area_mm2 / factor('length', 'inch') ** 2, 1)} sq in"
        return f"{_plain(area_mm2 / 100, 0)} cm²"

    def mass(self, mass_g: float) -> str:
        """A mass [g]: grams, kg from 1 kg; ounces to the quarter, pounds and ounces from 1 lb."""
        if self.units == "us":
            ounces = mass_g / factor("mass", "ounce")
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
            cups = volume_ml / factor("volume", "cup")
            if cups >= 0.2:
                quarters = round(cups * 4)
                return f"{_fraction(cups, 4)} cup" + ("s" if quarters > 4 else "")
            spoons = volume_ml / factor("volume", "teaspoon")
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

    def working_time(self, time_min: float) -> str:
        """A time of work [min] in hours and minutes, however long: labour is paid by the hour.

        >>> Say().working_time(1745)
        '29 h 5 min'
        """
        hours, minutes = divmod(round(time_min), 60)
        return f"{hours} h {self.duration(minutes)}" if hours and minutes else f"{hours} h" if hours else self.duration(time_min)

    def percent(self, value: float) -> str:
        """A percentage [%]."""
        return f"{_plain(value, 1)} %"

    def money(self, value: float) -> str:
        """An amount of money in the reader's currency [-], to two places."""
        return f"{hundredths(value):.2f}"

    def number(self, value: float, places: int = 2) -> str:
        """A plain number [-]."""
        return _plain(value, places)

    def temperature(self, celsius: float, fahrenheit: float) -> str:
        """Both published figures of one temperature [degC, degF]; rounded pairs are not converted into each other."""
        first, second = f"{_plain(celsius, 0)} °C", f"{_plain(fahrenheit, 0)} °F"
        return f"{second} ({first})" if self.units == "us" else f"{first} ({second})"

    def moment(self, moment: dt.datetime) -> str:
        """A date and time of day, the day of the week first."""
        days = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
        month = MONTHS[moment.month - 1].capitalize()
        return f"{days[moment.weekday()]} {moment.day} {month} {moment.year}, {moment:%H:%M}"
