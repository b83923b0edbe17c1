"""What a reader types: one input, the choices that bring something to others, and groups of inputs that repeat.

Map
---
`Input`        name, label, kind, limits, default, help; reads the text that was typed
`Brought`      what one choice brings to a field beside it
`Group`        inputs that repeat (tiers, rows, colours), named `group.0.input`
`Money`, `ByVolume`  amounts that remember how they were typed
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from calc import units
from calc.tips import read_tip
from calc.units import Formatter, Problem

DEFAULT_UNITS = {
    "length": {"metric": "centimeter", "us": "inch"},
    "mass": {"metric": "gram", "us": "ounce"},
    "volume": {"metric": "milliliter", "us": "cup"},
    "duration": {"metric": "minute", "us": "minute"},
    "lengths": {"metric": "centimeter", "us": "inch"},
    "pair": {"metric": "millimeter", "us": "inch"},
}
KINDS = (
    "length",
    "lengths",
    "pair",
    "mass",
    "volume",
    "duration",
    "count",
    "number",
    "percent",
    "money",
    "choice",
    "tip",
    "tips",
    "text",
    "colour",
    "moment",
    "yes_no",
    "long_text",
)

Choices = tuple[tuple[str, str], ...]

# In which units a number may have been meant, the likeliest first.
READINGS = {
    "length": ("inch", "centimeter", "millimeter"),
    "mass": ("pound", "ounce", "gram", "kilogram"),
    "volume": ("cup", "liter", "milliliter"),
    "duration": ("minute", "hour"),
}
UNIT_OF_LENGTH = units.UNIT_OF["length"]
TIN = (95.0, 460.0)  # mm; a tin without a unit that would be narrower or wider than this is asked about
TIER_HIGH = (50.0, 300.0)  # mm
OTHER = {"millimeter": "inch", "centimeter": "inch", "inch": "millimeter"}
MOST_TIPS, LONGEST_TIP = 40, 40  # of a kitchen and in a list; characters of each
_POINTS = re.compile(r"\s*,\s*(\d{1,3}[ -]?(?:points?|pointed|teeth|tooth)\b)", re.IGNORECASE)


class Money(float):
    """An amount of money with the sign of its currency, "" where none was written."""

    sign: str

    def __new__(cls, amount: float, sign: str) -> Money:
        """Keep the sign beside the amount."""
        made = super().__new__(cls, amount)
        made.sign = sign
        return made


class ByVolume(float):
    """A mass of buttercream [g] that was typed as a volume: as much as that of the plain recipe weighs."""

    volume_ml: float

    def __new__(cls, volume_ml: float) -> ByVolume:
        """Weigh the volume."""
        from calc.buttercream import density_g_per_ml

        made = super().__new__(cls, volume_ml * density_g_per_ml("plain"))
        made.volume_ml = volume_ml
        return made


def read_as(text: str, unit: str) -> tuple[float, float] | None:
    """Two lengths read with so much meant where no unit is written; None where they do not read."""
    try:
        return units.read_pair(text, "", "", unit)
    except Problem:
        return None


def in_us_units(declared: Input, text: str) -> str:
    """A default or example value of an input in round US figures."""
    if declared.kind == "money":
        return f"${text}" if text[:1].isdigit() else text
    if declared.kind in DEFAULT_UNITS or declared.measure:
        return units.in_us_figures(text)
    if declared.kind == "moment" or declared.name == "hours" and declared.kind == "text":
        return units.us_hours(text)
    return units.Formatter("us").words(text) if declared.kind == "text" else text


@dataclass(frozen=True)
class Brought:
    """What one choice brings to a field beside it: `text` is put there unless what stands there suits the choice.

    It suits where one of `suits` stands in it; a tip of the family in `within` must have an opening between the two there [mm] besides. With
    `alike` it suits where the choice before said the same; with `after` it goes only by whether that field, brought before it, was changed.
    """

    choice: str
    name: str
    text: str
    suits: tuple[str, ...] = ()
    within: tuple[str, float, float] | None = None
    alike: str | None = None
    after: str = ""


@dataclass(frozen=True)
class Input:
    """One thing a reader types.

    `low` and `high` are in the base unit of the kind (mm, g, ml, min, %, or the number itself). `default_unit` is
    pint's name of the unit of a bare number, where that is not the kind's usual one; `bare_unit` gives the unit for a reader's system.
    """

    name: str
    label: str
    kind: str
    default: str = ""
    help: str = ""
    low: float | None = None
    high: float | None = None
    choices: Choices = ()
    optional: bool = False
    advanced: bool = False
    default_unit: str = ""
    us_unit: str = ""  # the same in US units; left empty, inches for lengths, else the kind's usual one
    us: str = ""  # the default in US units; left empty, the round US figure next to the metric one
    measure: str = ""  # for a text with sizes in it: the kind of those ("length" or "pair")
    counts: bool = False  # such a text may be a mere count instead
    usual: tuple[float, float] | None = None  # a bare number that reads as less or more than this is asked about
    each: str = ""  # for money: "hour", where it is a rate
    by_volume: bool = False  # for a mass of buttercream: cups are taken too
    suggest: str = ""  # "colours": suggests the names of the palette and shows their colours; any other text is accepted too
    per_order: bool = False  # specific to one order: cleared when another is started
    only_with: tuple[str, tuple[str, ...]] | None = None  # shown only while the choice of that name has one of these values
    brings: tuple[Brought, ...] = ()  # what its choices bring to the fields beside it
    kitchen: str = ""  # the input of `kitchen` that this one starts from where its reader has set nothing
    cake: str = ""  # which fact of a tier of an order it takes (`calc.calculators.order_tiers`)
    heading: str = ""  # in a long form, the title over this input and those after it
    offers: str = ""  # the list of `kitchen` that is offered here to choose from; for a tip, the maker's own

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise ValueError(f"input {self.name} has an unknown kind {self.kind!r}")

    def __hash__(self) -> int:
        return hash((self.name, self.kind))  # cheap; equality still compares every field

    def bare_unit(self, unit_system: str) -> str:
        """pint's name of the unit meant when none is written; empty where the input has no unit."""
        if self.kind in ("tip", "tips"):
            return "millimeter"
        usual = DEFAULT_UNITS.get(self.measure or self.kind, {})
        if unit_system == "us":
            return (
                self.us_unit
                or ("inch" if usual.get("us") == "inch" else self.default_unit if usual.get("us") == "minute" else "")
                or usual.get("us", "")
            )
        return self.default_unit or usual.get("metric", "")

    def shown_unit(self, unit_system: str) -> str:
        """The unit as it stands beside the field: a bare number is read in it."""
        unit = self.bare_unit(unit_system)
        return units.SHORT[unit] if unit else ""

    def default_in(self, unit_system: str) -> str:
        """The default in round figures of the reader's units."""
        return self.us or in_us_units(self, self.default) if unit_system == "us" else self.default

    def help_in(self, unit_system: str) -> str:
        """The help with its examples in the reader's units."""
        return units.us_hint(self.help) if unit_system == "us" else self.help

    def read(self, text: str, name: str, unit_system: str) -> Any:
        """Read what was typed into this input; `name` is its full dotted name."""
        if self.kind in ("text", "colour", "long_text"):
            longest = units.LONGEST_RECORD if self.kind == "long_text" else units.LONGEST_TEXT
            words = units.read_text(text, name, self.label, longest)
            if not words and not self.optional:
                raise Problem(name, f"{self.label} is empty. {self._how_to_write()}")
            return words
        if not text.strip():
            if self.optional:
                return None
            raise Problem(name, f"{self.label} is empty. {self._how_to_write()}")
        unit = self.bare_unit(unit_system)
        match self.kind:
            case "mass" if self.by_volume:
                value: Any = self._mass_or_volume(text, name, unit_system)
            case "length" | "mass" | "volume" | "duration":
                value = self._measure(text, self.kind, name, unit_system)
            case "pair":
                pair = units.read_pair(text, name, self.label, unit)
                self.check_usual(pair, text if pair == read_as(text, unit) != read_as(text, OTHER[unit]) else "", name, unit_system)
                for value in pair:
                    self._limit(value, name, unit_system)
                return pair
            case "lengths":
                return self._several(text, name, unit_system)
            case "count":
                value = units.read_count(text, name, self.label)
            case "number":
                value = units.read_number(text, name, self.label)
            case "money":
                value = Money(*units.read_money(text, name, self.label, self.each))
            case "percent":
                value = units.read_number(re.sub(r"\s*(%|per\s?cent)\s*$", "", text, flags=re.IGNORECASE), name, self.label)
            case "choice":
                return units.read_choice(text, self.choices, name, self.label)
            case "yes_no":
                return units.read_choice(text, (("yes", "yes"), ("no", "no")), name, self.label) == "yes"
            case "tip":
                return read_tip(text, name, self.label)
            case "tips":
                return tuple(read_tip(part, name, self.label) for part in _tips(text, name, self.label))
            case _:
                return units.read_moment(text, name, self.label)
        self._limit(value, name, unit_system)
        return value

    def _measure(self, text: str, kind: str, name: str, unit_system: str) -> float:
        value, bare = units.read_measure(text, kind, name, self.label, self.bare_unit(unit_system))
        self.check_usual((value,), bare, name, unit_system)
        return value

    def _mass_or_volume(self, text: str, name: str, unit_system: str) -> float:
        try:
            return self._measure(text, "mass", name, unit_system)
        except Problem:
            try:
                volume_ml = units.read_quantity(text, "volume", name, self.label)
            except Problem:
                pass
            else:
                return ByVolume(volume_ml)
            raise

    def check_usual(self, values: Sequence[float], bare: str, name: str, unit_system: str, usual: Sequence[tuple[float, float]] = ()) -> None:
        """Raise a `Problem` with the readings to choose from where a number without a unit reads as something improbable.

        `usual` has the range of each value where they differ, as width and height do.
        """
        unit, kind = self.bare_unit(unit_system), {"pair": "length", "lengths": "length"}.get(self.measure or self.kind, self.measure or self.kind)
        ranges = usual or (self._range(),) * len(values)
        if not bare or all(map(self._is_usual, values, ranges)):
            return
        here = units.factor(kind, unit)
        others = [
            other
            for other in READINGS[kind]
            if other != unit and all(map(self._is_usual, (value / here * units.factor(kind, other) for value in values), ranges))
        ]
        is_within = all((self.low is None or value >= self.low) and (self.high is None or value <= self.high) for value in values)
        if not others and (not is_within or not (self.usual or usual)):
            return  # the limits say it
        shown = " ".join(bare.split())[:30]
        size = "large" if any(value > high for value, (_, high) in zip(values, ranges, strict=True)) else "small"
        mine = f"{shown} {units.SHORT[unit]}"
        rest = " or ".join(f"{shown} {units.SHORT[other]}" for other in others[:2])
        if is_within:
            raise Problem(
                name,
                f"{self.label}: {shown} is read as {mine}, which is unusually {size}. Write {mine} if you mean it{f', or {rest}' if rest else ''}",
            )
        raise Problem(name, f"{self._limits(unit_system)}, and {shown} is read as {mine}. Write {rest} if you mean that")

    def _range(self) -> tuple[float, float]:
        """What is usual, or all that is allowed [base unit]."""
        low = self.low if self.low is not None else float("-inf")
        return self.usual or (low, self.high if self.high is not None else float("inf"))

    def _is_usual(self, value: float, usual: tuple[float, float]) -> bool:
        is_nothing = value == 0 and self.low is not None and self.low <= 0
        return is_nothing or usual[0] * (1 - 1e-9) <= value <= usual[1] * (1 + 1e-9)

    def read_sizes(self, sizes: Sequence[str], name: str, label: str, unit_system: str, usual: Sequence[tuple[float, float]]) -> list[float]:
        """Read the lengths of one piece, such as width and height; a unit written with the last holds for all. `usual` has the range of each."""
        spelled = re.search(r"(\"|''|[a-zA-Z]+)\.?$", sizes[-1].strip())
        unit = UNIT_OF_LENGTH.get(spelled[1].lower(), "") if spelled else ""
        read = [units.read_measure(size, "length", name, label, unit or self.bare_unit(unit_system)) for size in sizes]
        if not unit and all(bare for _, bare in read):
            bare = " x ".join(bare for _, bare in read)
            self.check_usual([value for value, _ in read], bare, name, unit_system, usual)
        return [value for value, _ in read]

    def _several(self, text: str, name: str, unit_system: str) -> tuple[float, ...]:
        """Several lengths; one without a unit takes that of the next one that has it, and else the field's."""
        unit = self.bare_unit(unit_system)
        found: list[float] = []
        for part in reversed(_parts(text, name, self.label)):
            value, bare = units.read_measure(part, "length", name, self.label, unit)
            if not bare:
                spelled = re.search(r"(\"|''|[a-zA-Z]+)\.?$", part)
                unit = UNIT_OF_LENGTH.get(spelled[1].lower(), unit) if spelled else unit
            elif unit == self.bare_unit(unit_system):
                self.check_usual((value,), bare, name, unit_system)
            self._limit(value, name, unit_system)
            found.insert(0, value)
        return tuple(found)

    def _how_to_write(self) -> str:
        if self.kind in units.EXAMPLES:
            return f"Write it like {units.EXAMPLES[self.kind]}"
        if self.kind == "choice":
            return f"Choose one of {', '.join(label for _, label in self.choices)}"
        shown = {
            "pair": "25 x 50 mm",
            "lengths": "9 cm, 7.5 cm",
            "count": "36",
            "number": "2.5",
            "percent": "10 %",
            "money": "12.50",
            "tip": "petal 11 mm",
            "tips": "petal 11 mm, round 2 mm",
            "moment": "2027-10-16 18:00",
            "yes_no": "yes or no",
        }
        return f"Write it like {self.default or shown.get(self.kind, 'a few words')}"

    def _limit(self, value: float, name: str, unit_system: str) -> None:
        low, high = self.low, self.high
        if (low is not None and value < low) or (high is not None and value > high):
            raise Problem(name, self._limits(unit_system))

    def _limits(self, unit_system: str) -> str:
        """What the input may be, in words."""
        say = Formatter(unit_system)
        least = "" if self.low is None else self._in_units(self.low, say, say.least)
        most = "" if self.high is None else self._in_units(self.high, say, say.most)
        if least and most:
            return f"{self.label} must be between {least} and {most}"
        return f"{self.label} must be {least} or more" if least else f"{self.label} must be {most} or less"

    def _in_units(self, value: float, say: Formatter, limit: Callable[[str, float], str]) -> str:
        match self.kind:
            case "length" | "lengths" | "pair":
                return limit("length", value)
            case "mass" | "volume" | "duration":
                return limit(self.kind, value)
            case "percent":
                return say.percent(value)
            case _:
                return say.number(value)


def _tips(text: str, name: str, label: str) -> list[str]:
    """Split a list of tips; the points of a star stay with it, in "open star 12 mm, 8 points, round 2 mm"."""
    return _parts(_POINTS.sub(r" \1", text), name, label, MOST_TIPS, MOST_TIPS * LONGEST_TIP)


def _parts(text: str, name: str, label: str, most: int = 20, longest: int = units.LONGEST_TEXT) -> list[str]:
    """Split "9 cm and 7.5 cm; 6 cm" into its measurements; a comma between digits is a decimal comma."""
    tidy = units.read_text(text, name, label, longest)
    parts = [p.strip() for p in re.split(r"\s*(?:;|\band\b|\bor\b|&|\n|,(?!\d)|,(?=\s)|(?<=[A-Za-z\"]),)\s*", tidy) if p.strip()]
    if not parts or len(parts) > most:
        raise Problem(name, f"{label} is a list of up to {most}. Write it like {'petal 11 mm, round 2 mm' if most > 20 else '9 cm, 7.5 cm'}")
    return parts


@dataclass(frozen=True)
class Group:
    """Inputs that repeat together, such as the tiers of a cake; named `tiers.0.width`.

    Each has a summary line, made from the pieces in `line`: a name in braces stands for what was typed there, the name of a nested group
    for how many there are of it. A piece whose fields are empty is left out.
    """

    name: str
    label: str  # one of them: "Tier"
    inputs: tuple[Input, ...]
    groups: tuple[Group, ...] = ()
    minimum: int = 0
    maximum: int = 20
    help: str = ""
    title: str = ""  # over all of them: "Tiers, from the bottom up"
    line: tuple[str, ...] = ()  # by default, every input that is not under More
    folded: bool = False  # whether they start collapsed to that line
    per_order: bool = False  # cleared when another order is started
    follows: tuple[str, ...] = ()  # inputs that a newly added one copies from the last
    under: str = ""  # the heading over inputs after which it stands
    kitchen: str = ""  # the group of `kitchen` that this one starts from where its reader has set nothing

    def __post_init__(self) -> None:
        known = {declared.name for declared in self.inputs} | {group.name for group in self.groups}
        if not set(self.follows) <= known:
            raise ValueError(f"group {self.name} follows inputs that it does not have")
        for piece in self.pieces:
            if not set(re.findall(r"{(\w+)}", piece)) <= known:
                raise ValueError(f"the line of group {self.name} names inputs that it does not have: {piece!r}")

    @property
    def pieces(self) -> tuple[str, ...]:
        """The pieces of the summary line."""
        return self.line or tuple(f"{{{declared.name}}}" for declared in self.inputs if not declared.advanced)
