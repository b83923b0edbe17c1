"""Amounts written for a person, in the units of their choice."""

from __future__ import annotations

import datetime as dt
import math
import re
import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.units.kitchen import factor
from calc.units.money import hundredths
from calc.units.reading import MONTHS, read_quantity

# Less than this is written as nothing: no rule, scale or spoon shows it.
LEAST_MM, LEAST_G, LEAST_ML = 0.01, 0.01, 0.01
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
# What Americans say for words of the answers; the glossary has more.
US_WORDS = (
    ("icing sugar", "powdered sugar"),
    ("caster or granulated sugar", "superfine or granulated sugar"),
    ("palette knife", "offset spatula"),
    ("palette knives", "offset spatulas"),
    ("cocktail stick", "toothpick"),
    ("roll of kitchen paper", "roll of paper towel"),
)


_AN = re.compile(r"[aeio]|S |8|1[18](?!\d)")


def a_or_an(words: str) -> str:
    """Give words with their article: "an" before a, e, i, o, before the letter S by itself ("ess"), and before 8, 11 and 18.

    It holds for the handbook's words, none of which begins with a silent h or with a u.

    >>> a_or_an("oval"), a_or_an("heart"), a_or_an("S scroll")
    ('an oval', 'a heart', 'an S scroll')
    >>> a_or_an("Swiss meringue"), a_or_an("8.5 cm cutter"), a_or_an("18 cm card"), a_or_an("110 g")
    ('a Swiss meringue', 'an 8.5 cm cutter', 'an 18 cm card', 'a 110 g')
    """
    return f"an {words}" if _AN.match(words) else f"a {words}"


def capitalised(words: str) -> str:
    """Give words as a sentence or a title begins with them: the first letter a capital, the others as they are.

    >>> capitalised(a_or_an("C scroll")), capitalised("")
    ('A C scroll', '')
    """
    return words[:1].upper() + words[1:]


def listed(words: Sequence[str], last: str = "and") -> str:
    """Give words as a list.

    >>> listed(["cream", "russet", "bay"]), listed(["cream", "bay"], "or"), listed(["cream"])
    ('cream, russet and bay', 'cream or bay', 'cream')
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {last} {words[-1]}"


def letter_of(number: int) -> str:
    """Give the letter of one of several, counted from 0, where steps or pages have the numbers: A to Z, then AA.

    >>> letter_of(0), letter_of(25), letter_of(26)
    ('A', 'Z', 'AA')
    """
    return chr(65 + number % 26) * (1 + number // 26)


def _plain(value: float, places: int) -> str:
    """A number to some decimal places, halves rounded away from zero as on paper: 8.25 is 8.3."""
    text = f"{value + math.copysign(1e-9, value):.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


CLOSE = 0.03  # a text may be at most this share away from its value


def _is_close(shown: float, value: float) -> bool:
    return abs(shown - value) <= CLOSE * abs(value) * (1 + 1e-9)


@lru_cache(maxsize=2048)  # most numbers of an answer stand in the next one, too
def _close(value: float, places: int) -> str:
    """A number to `places` decimal places, or to more where that is needed to be close."""
    text = _plain(value, places)
    while not _is_close(float(text), value):
        places += 1
        text = _plain(value, places)
    return text


def _close_from(least: float, value: float, places: int) -> str:
    """A number as `_close` writes it; under `least` it is 0."""
    return "0" if abs(value) < least else _close(value, places)


@lru_cache(maxsize=512)
def _duration(time_min: float) -> str:
    if 0 < time_min < 1:
        return f"{_plain(time_min * 60, 0)} s"
    minutes = round(time_min)
    days, minutes = divmod(minutes, 1440)
    hours, minutes = divmod(minutes, 60)
    parts = [f"{days} d" if days else "", f"{hours} h" if hours else "", f"{minutes} min" if minutes else ""]
    return " ".join(part for part in parts if part) or "0 min"


def fraction(value: float, parts: int) -> str:
    """A number as whole and fraction in `parts`, such as 3 5/16; the fraction is reduced."""
    sign, count = "-" if value < 0 else "", math.floor(abs(value) * parts + 0.5)
    whole, top = divmod(count, parts)
    if top == 0:
        return f"{sign}{whole}" if whole else "0"
    common = math.gcd(top, parts)
    part = f"{top // common}/{parts // common}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def _close_fraction(value: float, denominators: tuple[int, ...]) -> str | None:
    """The number in the first of these fractions that is close to it; None where none is."""
    for parts in denominators:
        if _is_close(math.floor(abs(value) * parts + 0.5) / parts, abs(value)):
            return fraction(value, parts)
    return None


@dataclass(frozen=True)
class Formatter:
    """Writes amounts in the reader's units: "metric", or "us" for inches, ounces, cups and the 12-hour clock.

    >>> Formatter("metric").length(50.0), Formatter("us").length(152.4), Formatter("us").mass(566.99), Formatter("metric").duration(95)
    ('5 cm', '6 in', '1 lb 4 oz', '1 h 35 min')
    """

    units: str = "metric"
    steady: bool = False  # every metric length in cm, for a sheet on which figures are compared
    currency: str = ""  # the sign the maker writes money with

    @property
    def language(self) -> str:
        """The language tag of the English that goes with the units (BCP 47)."""
        return "en-US" if self.units == "us" else "en-GB"

    def length(self, length_mm: float) -> str:
        """A length [mm]: mm under 1 cm, cm to the mm, m from 2 m; inches to the sixteenth (to the eighth from 1 ft 8 in), finer where
        that would be more than 3 % out, yards from 100 in."""
        if self.units == "us":
            inches = length_mm / factor("length", "inch")
            if abs(inches) >= 100:
                return f"{_close(inches / 36, 1)} yd"
            if abs(length_mm) < LEAST_MM:
                return "0 in"
            return f"{_close_fraction(inches, (16 if abs(inches) < 20 else 8, 32)) or _close(inches, 1)} in"
        if self.steady:
            return f"{_close_from(LEAST_MM, length_mm / 10, 1)} cm"
        if abs(length_mm) < 9.95:
            return f"{_close_from(LEAST_MM, length_mm, 1)} mm"
        if abs(length_mm) < 2000:
            return f"{_close(length_mm / 10, 1)} cm"
        return f"{_plain(length_mm / 1000, 2)} m"

    def words(self, text: str) -> str:
        """The handbook's own words, as Americans say them with US units. Names that are matched or kept stay as they are, and so does what a person
        typed.

        >>> Formatter("us").words("Sieve in the icing sugar"), Formatter("us").words("Icing sugar"), Formatter().words("icing sugar")
        ('Sieve in the powdered sugar', 'Powdered sugar', 'icing sugar')
        """
        for here, there in US_WORDS if self.units == "us" else ():
            text = text.replace(here, there).replace(here.capitalize(), there.capitalize())
        return text

    def opening(self, length_mm: float) -> str:
        """The opening of a tip [mm], which is measured in mm everywhere."""
        return f"{_plain(length_mm, 1)} mm"

    def opening_beside(self, length_mm: float) -> str:
        """The opening of a tip [mm] that is to be measured, with inches beside for whoever has a ruler in inches.

        >>> Formatter().opening_beside(11), Formatter("us").opening_beside(11)
        ('11 mm', '11 mm (7/16 in)')
        """
        return self.opening(length_mm) + (f" ({self.length(length_mm)})" if self.units == "us" else "")

    def density(self, g_per_ml: float) -> str:
        """A density [g/ml], as the weight of a cup where the reader has cups.

        >>> Formatter().density(0.9), Formatter("us").density(0.9)
        ('0.9 g/ml', '7 1/2 oz a cup')
        """
        return f"{self.mass(g_per_ml * factor('volume', 'cup'))} a cup" if self.units == "us" else f"{_plain(g_per_ml, 2)} g/ml"

    def area(self, area_mm2: float) -> str:
        """An area [mm2], in cm² or square inches."""
        if self.units == "us":
            return f"{_close_from(0.005, area_mm2 / factor('length', 'inch') ** 2, 1)} sq in"
        return f"{_close_from(0.005, area_mm2 / 100, 0)} cm²"

    def mass(self, mass_g: float) -> str:
        """A mass [g]: grams, kg from 1 kg; ounces to the quarter, finer where that would be more than 3 % out, and grams
        under a quarter; pounds and half ounces from 1 lb."""
        if self.units == "us":
            ounces = mass_g / factor("mass", "ounce")
            if abs(mass_g) < LEAST_G:
                return "0 oz"
            if round(ounces * 4) < 64:
                text = _close_fraction(ounces, (4, 8, 16)) or _close(ounces, 1)
                return f"{text} oz" if ounces >= 0.2428 else Formatter().mass(mass_g)
            pounds, rest = divmod(math.floor(ounces * 2 + 0.5) / 2, 16)
            return f"{pounds:.0f} lb" + (f" {fraction(rest, 2)} oz" if rest else "")
        if round(mass_g) >= 1000:
            return f"{_plain(mass_g / 1000, 2)} kg"
        return f"{_close_from(LEAST_G, mass_g, 0 if mass_g >= 10 else 1)} g"

    def about_mass(self, mass_g: float) -> str:
        """A mass [g] that is known to the 100 g, or to the half pound.

        >>> Formatter().about_mass(13598.3), Formatter("us").about_mass(13598.3)
        ('13.6 kg', '30 lb')
        """
        step = factor("mass", "pound") / 2 if self.units == "us" else 100.0
        return self.mass(round(mass_g / step) * step)

    def weighed(self, mass_g: float) -> str:
        """A mass of an ingredient [g] as a scale shows it: grams in both systems where it is less than half an ounce.

        >>> Formatter("us").weighed(2.3), Formatter("us").weighed(454)
        ('2.3 g', '1 lb')
        """
        return Formatter().mass(mass_g) if self.units == "us" and 0 < mass_g < factor("mass", "ounce") / 2 else self.mass(mass_g)

    def volume(self, volume_ml: float) -> str:
        """A volume [ml]: ml, litres from 1 l; US cups in quarters, thirds or eighths, with spoons where no such measure is within 3 %,
        tablespoons and teaspoons under a quarter of a cup."""
        if self.units == "us":
            if abs(volume_ml) < LEAST_ML:
                return "0 tsp"
            return f"{'-' if volume_ml < 0 else ''}{_cups(abs(volume_ml) / factor('volume', 'cup'))}"
        if round(volume_ml) >= 1000:
            return f"{_plain(volume_ml / 1000, 2)} l"
        return f"{_close_from(LEAST_ML, volume_ml, 0 if volume_ml >= 10 else 1)} ml"

    def least(self, kind: str, value: float) -> str:
        """The least that a field takes, rounded up where necessary, so that the number shown is accepted when it is typed.

        >>> Formatter().least("length", 50), Formatter("us").length(50), Formatter("us").least("length", 50)
        ('5 cm', '1 15/16 in', '2 in')
        """
        return self._limit(kind, value, 1)

    def most(self, kind: str, value: float) -> str:
        """The most that a field takes, rounded down where necessary.

        >>> Formatter().length(247.5), Formatter().most("length", 247.5), Formatter("us").most("length", 1000)
        ('24.8 cm', '24.7 cm', '39 1/4 in')
        """
        return self._limit(kind, value, -1)

    def _limit(self, kind: str, value: float, way: int) -> str:
        write: Callable[[float], str] = getattr(self, kind)
        text, step = write(value), 1e-4 * abs(value)
        while way * (read_quantity(text, kind, "", "") - value) < 0:
            text, step = write(value + way * step), 2 * step
        return text

    def adding_up(self, kind: str, parts: Sequence[float]) -> AddingUp:
        """A way to write these masses [g] or volumes [ml] and their sums so that what is read adds up.

        >>> cups = Formatter("us").adding_up("volume", (230.0, 120.0, 230.0))
        >>> [cups.text(part) for part in (230.0, 120.0, 230.0)], cups.text(230.0, 120.0, 230.0)
        (['1 cup', '1/2 cup', '1 cup'], '2 1/2 cups')
        """
        unit = {"mass": "ounce", "volume": "tablespoon"}[kind] if self.units == "us" else BASE_UNITS[kind]
        size = factor(kind, unit)
        steps = _ADDING_STEPS.get(unit, (1.0, 0.1, 0.01))
        for step in steps:
            if all(_is_close(_nearest(part / size, step), part / size) for part in parts if part / size >= 0.02):
                break
        return AddingUp(kind, unit, size, step)

    def told_mass_g(self, mass_g: float) -> float:
        """The mass that `mass` writes, as it is read [g].

        >>> Formatter().told_mass_g(1137.8), Formatter("us").told_mass_g(910.0)
        (1140.0, 907.18474)
        """
        return read_quantity(self.mass(mass_g), "mass", "mass", "Mass")

    def shared_out(self, told_g: float, parts_g: Sequence[float]) -> SharedOut:
        """Masses [g] that are read beside a sum [g]: rounded so that what is read adds up to the sum as it is told, and each is within 3 %.

        Formula: the parts are scaled to the sum, rounded down to a step, and the steps that are left go to those that would be more than
        3 % out, then to those that lost most. From 1 kg on
        grams are not told of a sum, and each part is rounded by itself.

        >>> shared = Formatter("us").shared_out(Formatter("us").told_mass_g(908.0), (500.0, 408.0))
        >>> [shared.write(mass) for mass in shared.masses_g], Formatter("us").mass(908.0)
        (['1 lb 1 1/2 oz', '14 1/2 oz'], '2 lb')
        """
        if self.units != "us" and told_g >= 1000:
            return SharedOut(tuple(parts_g), self.mass)
        total_g = math.fsum(parts_g)
        size, steps = (factor("mass", "ounce"), (1 / 2, 1 / 4, 1 / 8, 1 / 16, 1 / 32, 1 / 64)) if self.units == "us" else (1.0, (1.0, 0.1, 0.01))
        for step in steps:
            whole = round(told_g / size / step)
            scaled = [part / total_g * whole if total_g > 0 else 0.0 for part in parts_g]
            counts = [math.floor(count + 1e-9) for count in scaled]
            lost = [(_is_close(count * step * size, parts_g[at]), count - scaled[at]) for at, count in enumerate(counts)]
            for at in sorted(range(len(counts)), key=lost.__getitem__)[: whole - sum(counts)]:
                counts[at] += 1
            if abs(whole * step * size - told_g) < LEAST_G and all(
                _is_close(counts[at] * step * size, part) for at, part in enumerate(parts_g) if part >= 0.02 * size
            ):
                break
        adding = AddingUp("mass", "ounce" if self.units == "us" else "gram", size, step)
        return SharedOut(tuple(count * step * size for count in counts), adding.text)

    def duration(self, time_min: float) -> str:
        """A time [min] in days, hours and minutes."""
        return _duration(time_min)

    def working_time(self, time_min: float) -> str:
        """A time of work [min] in hours and minutes, however long: labour is paid by the hour.

        >>> Formatter().working_time(1745)
        '29 h 5 min'
        """
        hours, minutes = divmod(round(time_min), 60)
        return f"{hours} h {self.duration(minutes)}" if hours and minutes else f"{hours} h" if hours else self.duration(time_min)

    def percent(self, value: float) -> str:
        """A percentage [%]."""
        return f"{_plain(value, 1)} %"

    def money(self, value: float) -> str:
        """An amount of money [-] to two places, with the sign of the maker's currency where they wrote one."""
        amount = hundredths(value)
        return f"{'-' if amount < 0 else ''}{self.currency}{abs(amount):.2f}"

    def number(self, value: float, places: int = 2) -> str:
        """A plain number [-]."""
        return _plain(value, places)

    def temperature(self, celsius: float, fahrenheit: float) -> str:
        """Both published figures of one temperature [degC, degF]; rounded pairs are not converted into each other."""
        first, second = f"{_plain(celsius, 0)} °C", f"{_plain(fahrenheit, 0)} °F"
        return f"{second} ({first})" if self.units == "us" else f"{first} ({second})"

    def clock(self, moment: dt.datetime | dt.time) -> str:
        """An hour and minute of the day, on the clock of the reader's region.

        >>> Formatter().clock(dt.time(18, 5)), Formatter("us").clock(dt.time(18, 5)), Formatter("us").clock(dt.time(0, 30))
        ('18:05', '6:05 PM', '12:30 AM')
        """
        if self.units == "us":
            return f"{moment.hour % 12 or 12}:{moment.minute:02d} {'AM' if moment.hour < 12 else 'PM'}"
        return f"{moment:%H:%M}"

    def hour(self, hour: int) -> str:
        """A full hour of the day where there is little room, as at the head of a chart.

        >>> Formatter().hour(18), Formatter("us").hour(18), Formatter("us").hour(0)
        ('18', '6p', '12a')
        """
        return f"{hour % 12 or 12}{'a' if hour % 24 < 12 else 'p'}" if self.units == "us" else str(hour)

    def moment(self, moment: dt.datetime) -> str:
        """A date and time of day in the order of the reader's region, the day of the week first."""
        month = MONTHS[moment.month - 1].capitalize()
        day = f"{month} {moment.day}, {moment.year}" if self.units == "us" else f"{moment.day} {month} {moment.year}"
        return f"{DAYS[moment.weekday()]}{',' if self.units == 'us' else ''} {day}, {self.clock(moment)}"


# How finely parts are written so that they add up: tablespoons (a quarter of a cup is 4 of them) and ounces.
_ADDING_STEPS = {"tablespoon": (4.0, 2.0, 1.0, 1 / 2, 1 / 4, 1 / 12, 1 / 24, 1 / 48), "ounce": (1 / 2, 1 / 4, 1 / 8, 1 / 16, 0.01)}
BASE_UNITS = {"mass": "gram", "volume": "milliliter"}


def _nearest(value: float, step: float) -> float:
    return math.floor(value / step + 0.5) * step


@dataclass(frozen=True)
class SharedOut:
    """Masses as they are read beside their sum, in the order given [g], and what writes them and sums of them."""

    masses_g: tuple[float, ...]
    write: Callable[[float], str]


@dataclass(frozen=True)
class AddingUp:
    """Writes parts and sums of them in one step, so that what is read adds up."""

    kind: str
    unit: str  # pint's name of what is counted
    size: float  # of it, in the base unit
    step: float

    def text(self, *parts: float) -> str:
        """The sum of some parts, each rounded by itself."""
        steps = sum(math.floor(part / self.size / self.step + 0.5) for part in parts)
        count = steps * self.step
        if self.unit == "ounce":
            return self._ounces(count)
        if self.unit == "tablespoon":
            return self._spoons(steps, count)
        large, small = ("kg", "g") if self.kind == "mass" else ("l", "ml")
        return f"{_plain(count / 1000, 5)} {large}" if count >= 1000 else f"{_plain(count, 2)} {small}"

    def _ounces(self, count: float) -> str:
        pounds, ounces = divmod(count + 1e-9, 16)
        text = _plain(ounces, 2) if self.step == 0.01 else fraction(ounces, round(1 / self.step))
        if not pounds:
            return f"{text} oz"
        return f"{pounds:.0f} lb" + (f" {text} oz" if text != "0" else "")

    def _spoons(self, steps: int, count: float) -> str:
        if not steps:
            return "0 tsp"
        if self.step >= 2:
            eighths = steps * round(self.step / 2)
            return f"{fraction(eighths / 8, 8)} cup{'s' if eighths > 8 else ''}"
        quarters = math.floor(count / 4 + 1e-9)
        rest = count - 4 * quarters
        words = [f"{fraction(quarters / 4, 4)} cup{'s' if quarters > 4 else ''}"] if quarters else []
        if rest > 1e-6 and self.step < 0.2:  # quarters of a teaspoon, or less
            spoons = math.floor(rest + 1e-9)
            tsp = (rest - spoons) * 3
            words += [f"{spoons} tbsp"] if spoons else []
            words += [f"{fraction(tsp, round(1 / (3 * self.step)))} tsp"] if tsp > 1e-6 else []
        elif rest > 1e-6:
            words.append(f"{fraction(rest, 4)} tbsp")
        return " ".join(words)


def _cups(cups: float) -> str:
    """A volume in US cups and spoons: the plainest measures that are close to it."""
    spoons = cups * 16  # tablespoons
    if cups >= 0.2475:  # 1/4 cup is close to what is a little less
        text = _close_fraction(cups, (4, 3, 8))
        if text:
            return f"{text} cup{'s' if cups > 1 and text != '1' else ''}"
        for step, parts in ((1, 4), (1, 3), (2, 4), (2, 3), (4, 4)):  # of a tablespoon, of a cup
            held = math.floor(cups * parts) / parts
            rest = math.floor((spoons - 16 * held) * step + 0.5) / step
            if (parts == 4 or rest < 2) and _is_close(held * 16 + rest, spoons):
                return f"{fraction(held, parts)} cup{'s' if held > 1 else ''} {fraction(rest, step)} tbsp"
    if spoons >= 0.97:
        text = _close_fraction(spoons, (2,))
        if text:
            return f"{text} tbsp"
        for step in (1, 2, 4):  # of a teaspoon
            count = math.floor(spoons * 3 * step + 0.5)
            whole, rest = divmod(count, 3 * step)
            if _is_close(count / step, spoons * 3):
                return f"{whole} tbsp {fraction(rest / step, step)} tsp"
    return f"{_close_fraction(spoons * 3, (4, 3, 8)) or _close(spoons * 3, 1)} tsp"


def file_name_part(words: str, otherwise: str = "tier") -> str:
    """Give words as part of a file's name: lower-case ASCII letters without their accents, digits and hyphens, 60 of them at most.

    >>> file_name_part("Lower tier"), file_name_part("Zoë & Ana"), file_name_part("../"), file_name_part("", "cake")
    ('lower-tier', 'zoe-ana', 'tier', 'cake')
    """
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain.lower())[:60].strip("-") or otherwise
