"""How a calculator is declared, and what it answers.

Map
---
`Input`        one thing a reader types: name, label, kind, limits, default, help
`Group`        inputs that repeat (tiers, rows, colours), named `group.0.input`
`Calculator`   slug, title, inputs, groups, and the function from parsed inputs to an answer
`Answer`       figures, problems, notes, cautions, tables, drawings, sheets; `to_json()` is all that leaves Python
`Press`        words in an answer that can be pressed: the form then says what they set
`Asked`        the parsed inputs
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, TypeVar

from calc import units
from calc.shapes import TWO_SIZES
from calc.tips import read_tip
from calc.units import LONGEST_TEXT, Problem, Problems, Say, shape_in, us_examples

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

# Far beyond any real form: whatever exceeds these is refused before it is parsed.
LARGEST = 1_000_000  # characters in all
MOST_TEXTS = 5000
LONGEST_NAME = 200  # characters
DEEPEST_NAME = 16  # parts between dots


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
    return units.us_hours(text) if declared.kind == "moment" or declared.name == "hours" and declared.kind == "text" else text


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
                return tuple(read_tip(part, name, self.label) for part in _parts(text, name, self.label))
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
                spelled = re.search(r"(\"|''|[a-zA-Z]+)\.?$", part.split(" ", 1)[-1] if " " in part else part)
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
        low, high = self.low, self.high
        if low is not None and high is not None:
            return f"{self.label} must be between {self._in_units(low, unit_system)} and {self._in_units(high, unit_system)}"
        if low is not None:
            return f"{self.label} must be {self._in_units(low, unit_system)} or more"
        assert high is not None
        return f"{self.label} must be {self._in_units(high, unit_system)} or less"

    def _in_units(self, value: float, unit_system: str) -> str:
        say = Say(unit_system)
        match self.kind:
            case "length" | "lengths" | "pair":
                return say.length(value)
            case "mass":
                return say.mass(value)
            case "volume":
                return say.volume(value)
            case "duration":
                return say.duration(value)
            case "percent":
                return say.percent(value)
            case _:
                return say.number(value)


def _parts(text: str, name: str, label: str) -> list[str]:
    """Split "9 cm and 7.5 cm; 6 cm" into its measurements; a comma between digits is a decimal comma."""
    tidy = units.read_text(text, name, label)
    parts = [p.strip() for p in re.split(r"\s*(?:;|\band\b|&|\n|,(?!\d)|,(?=\s))\s*", tidy) if p.strip()]
    if not parts or len(parts) > 20:
        raise Problem(name, f"{label} is a list of up to 20. Write it like 9 cm, 7.5 cm")
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


class Asked(dict[str, Any]):
    """Parsed inputs by name; a group is a list of these. `asked.units` is "metric" or "us"."""

    units: str = "metric"
    path: str = ""
    currency: str = ""  # the sign the maker writes money with

    def named(self, name: str) -> str:
        """The full dotted name of one of this group's inputs."""
        return f"{self.path}{name}"

    def problem(self, name: str, message: str) -> Problem:
        """A problem tied to one of this group's inputs."""
        return Problem(self.named(name), message)


class Press(str):
    """Words that can be pressed: the fields named in `sets` then say what stands there, as one step that can be undone.

    A group of which `sets` names fields gets as many copies as are named together with those that stand in the form. `clears` names groups, such
    as "tiers.0.rows", of which nothing stays but what `sets` names. `done` says afterwards what was done.

    >>> press = Press("Take 9 repeats", {"tiers.0.repeats": "9"}, done="Tier 1 has 9 repeats.")
    >>> press, press.sets["tiers.0.repeats"], press.done
    ('Take 9 repeats', '9', 'Tier 1 has 9 repeats.')
    """

    sets: Mapping[str, str]
    clears: tuple[str, ...]
    done: str

    def __new__(cls, words: str, sets: Mapping[str, str], *, clears: Sequence[str] = (), done: str = "") -> Press:
        """Keep beside the words what they set."""
        press = super().__new__(cls, words)
        press.sets, press.clears, press.done = sets, tuple(clears), done
        return press


@dataclass(frozen=True)
class Cure:
    """What is amiss at one copy of a group, in words, and what can be pressed to mend it."""

    at: str
    text: str
    presses: tuple[Press, ...]


AnItem = TypeVar("AnItem", bound=dict[str, Any])


class Drawing(dict[str, str]):
    """A drawing of an answer: its name, title and description, and its SVG, which is drawn when somebody looks at it.

    >>> drawing = Drawing(lambda: "<svg/>", name="side", title="From the side")
    >>> drawing.is_drawn, drawing["svg"], drawing.is_drawn
    (False, '<svg/>', True)
    """

    def __init__(self, svg: str | Callable[[], str], **words: str) -> None:
        """Keep the words, and the SVG or what draws it."""
        super().__init__(words)
        self._draw = svg
        if isinstance(svg, str):
            self["svg"] = svg

    @property
    def is_drawn(self) -> bool:
        """Whether its SVG is there already."""
        return "svg" in self

    def __missing__(self, name: str) -> str:
        """Draw the SVG."""
        if name != "svg" or isinstance(self._draw, str):
            raise KeyError(name)
        self["svg"] = self._draw()
        return self["svg"]


@dataclass
class Answer:
    """What a calculator answers; filled by its function and read-only afterwards."""

    calculator: str
    units: str = "metric"
    figures: dict[str, dict[str, Any]] = field(default_factory=dict)
    problems: list[dict[str, str]] = field(default_factory=list)
    notes: list[dict[str, Any]] = field(default_factory=list)
    cautions: list[dict[str, str]] = field(default_factory=list)
    tables: list[dict[str, Any]] = field(default_factory=list)
    drawings: list[Drawing] = field(default_factory=list)
    sheets: list[dict[str, str]] = field(default_factory=list)
    sections: list[dict[str, str]] = field(default_factory=list)
    fields: dict[str, str] | None = None
    _record: str | Callable[[], str] | None = None
    files: list[dict[str, str]] = field(default_factory=list)
    cures: list[Cure] = field(default_factory=list)
    currency: str = ""
    _section: str = ""
    _quiet: bool = False

    @property
    def say(self) -> Say:
        """Writes amounts in the reader's units and money in the maker's currency."""
        return Say(self.units, currency=self.currency)

    @property
    def record(self) -> str | None:
        """What was typed, as one text to keep; written when somebody asks for it, because an answer on a page does without."""
        if callable(self._record):
            self._record = self._record()
        return self._record

    @record.setter
    def record(self, record: str | Callable[[], str] | None) -> None:
        self._record = record

    def section(self, name: str, title: str, short: str = "", prints: str = "", copies: str = "", copied: Sequence[str] = ()) -> None:
        """Start a section; whatever is added next belongs to it. A `short` title puts it in the list of links above the answer. `prints` names a
        sheet that shows the same, for a button beside its title; `copies` labels a button that copies the tables in `copied` as plain text."""
        more = {"short": short, "prints": prints, "copies": copies, "copied": " ".join(copied)}
        self.sections.append({"name": name, "title": title} | {key: words for key, words in more.items() if words})
        self._section = name

    @contextmanager
    def quietly(self) -> Iterator[None]:
        """Keep figures added meanwhile out of sight: they belong to the answer, and a table or drawing beside them shows them."""
        self._quiet = True
        try:
            yield
        finally:
            self._quiet = False

    def _in_section(self, item: AnItem) -> AnItem:
        if self._section:
            item["section"] = self._section
        return item

    def figure(self, name: str, label: str, value: float, unit: str, text: str, low: float | None = None, high: float | None = None) -> None:
        """Add a figure: `value` in the base unit, `text` for the reader."""
        item: dict[str, Any] = {"value": value, "unit": unit, "text": text, "label": label}
        if low is not None and high is not None:
            item["low"], item["high"] = low, high
        if self._quiet:
            item["quiet"] = True
        self.figures[name] = self._in_section(item)

    def show_also(self, section: str, *names: str) -> None:
        """Show existing figures in a second section as well."""
        for name in names:
            self.figures[name]["also"] = section

    def count(self, name: str, label: str, value: int) -> None:
        """Add a whole number."""
        self.figure(name, label, value, "", str(value))

    def length(self, name: str, label: str, length_mm: float) -> None:
        """Add a length [mm]."""
        self.figure(name, label, length_mm, "mm", self.say.length(length_mm))

    def mass(self, name: str, label: str, mass_g: float, low_g: float | None = None, high_g: float | None = None) -> None:
        """Add a mass [g], with its range where it is an estimate."""
        self.figure(name, label, mass_g, "g", ranged(self.say.mass, mass_g, low_g, high_g), low_g, high_g)

    def volume(self, name: str, label: str, volume_ml: float, low_ml: float | None = None, high_ml: float | None = None) -> None:
        """Add a volume [ml], with its range where it is an estimate."""
        self.figure(name, label, volume_ml, "ml", ranged(self.say.volume, volume_ml, low_ml, high_ml), low_ml, high_ml)

    def duration(self, name: str, label: str, time_min: float, low_min: float | None = None, high_min: float | None = None) -> None:
        """Add a time [min]."""
        self.figure(name, label, time_min, "min", ranged(self.say.duration, time_min, low_min, high_min), low_min, high_min)

    def percent(self, name: str, label: str, value: float) -> None:
        """Add a share [%]."""
        self.figure(name, label, value, "%", self.say.percent(value))

    def note(self, text: str, *presses: Press) -> None:
        """Add a sentence the reader may want, with what can be pressed beside it."""
        self.notes.append(self._in_section({"text": text} | ({"presses": list(presses)} if presses else {})))

    def caution(self, text: str) -> None:
        """Add a sentence the reader must see."""
        self.cautions.append(self._in_section({"text": text}))

    def cure(self, at: str, text: str, *presses: Press) -> None:
        """Say what is amiss at one copy of a group, such as "tiers.0.rows.2", with what can be pressed to mend it."""
        self.cures.append(Cure(at, text, presses))

    def table(
        self,
        name: str,
        title: str,
        columns: Sequence[str],
        rows: Sequence[Sequence[str]],
        numeric: Sequence[int] = (),
        looks: Mapping[int, Mapping[str, str]] | None = None,
    ) -> None:
        """Add a table of texts; columns listed in `numeric` are right-aligned, and cells of those in `looks` get a dot of their colour."""
        heads: list[dict[str, Any]] = [{"label": c, "align": "right" if i in numeric else "left"} for i, c in enumerate(columns)]
        for column, names in (looks or {}).items():
            heads[column]["looks"] = dict(names)
        self.tables.append(self._in_section({"name": name, "title": title, "columns": heads, "rows": [list(r) for r in rows]}))

    def drawing(self, name: str, title: str, description: str, svg: str | Callable[[], str]) -> None:
        """Add a drawing; `svg` comes from `calc.drawing`, which escapes every word of the reader's. Given as a function, it is drawn later: a page
        that shows the drawing of the answer before asks for it when the reader pauses."""
        self.drawings.append(self._in_section(Drawing(svg, name=name, title=title, description=description)))

    def sheet(self, name: str, title: str, group: str = "", saved: str = "") -> None:
        """Offer a sheet to print, under the title of a `group` of sheets; it is saved under the name `saved`, or one made of its own."""
        self.sheets.append(
            self._in_section({"name": name, "title": title} | ({"group": group} if group else {}) | ({"saved": saved} if saved else {}))
        )

    def main_drawing(self, name: str, title: str, description: str, svg: str) -> None:
        """Add the drawing that stays in sight while the form is filled in; it stands in no section."""
        self.drawings.append(Drawing(svg, name=name, title=title, description=description, stays="yes"))

    def file(self, name: str, title: str, media_type: str, saved: str = "") -> None:
        """Offer a file to keep, such as a calendar; like a sheet, it is made on request."""
        self.files.append(self._in_section({"name": name, "title": title, "type": media_type} | ({"saved": saved} if saved else {})))

    def to_dict(self) -> dict[str, Any]:
        """The answer as plain data; with problems there are no figures."""
        data: dict[str, Any] = {
            "calculator": self.calculator,
            "figures": {} if self.problems else self.figures,
            "problems": self.problems,
            "notes": self.notes,
            "cautions": self.cautions,
            "tables": self.tables,
            "drawings": [{**drawing, "svg": drawing["svg"]} for drawing in self.drawings],
            "sheets": self.sheets,
        }
        if self.sections:
            data["sections"] = self.sections
        if self.files:
            data["files"] = self.files
        if self.cures:
            data["cures"] = [{"at": cure.at, "text": cure.text, "presses": list(cure.presses)} for cure in self.cures]
        if self.fields is not None:
            data["fields"] = self.fields
        if self.record is not None:
            data["record"] = self.record
        return data

    def to_json(self) -> str:
        """The answer as one JSON text."""
        return _json(self.to_dict())


_json = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode


class Ranged(str):
    """A value with its range: one text whose two parts stay available.

    >>> mass = Ranged("19 g", "16 g", "24 g")
    >>> mass, mass.value, mass.range
    ('19 g (16 g to 24 g)', '19 g', '(16 g to 24 g)')
    """

    value: str
    range: str

    def __new__(cls, value: str, low: str, high: str) -> Ranged:
        """Join a value and the two ends of its range."""
        text = super().__new__(cls, f"{value} ({low} to {high})")
        text.value, text.range = value, f"({low} to {high})"
        return text


def span(write: Callable[[float], str], low: float, high: float) -> str:
    """Write a range; one whose ends read the same is one figure.

    >>> span(Say("us").mass, 20.9, 21.2), span(Say("us").mass, 14.2, 28.3), span(Say("us").mass, 5, 10)
    ('3/4 oz', '1/2 oz to 1 oz', '5 g to 10 g')
    """
    first, last = _in_one_unit(write, low, high)
    return first if first == last else f"{first} to {last}"


def _in_one_unit(write: Callable[[float], str], *values: float) -> list[str]:
    """Each value as it is written, all in grams where some are in grams and some in ounces: a range has one unit."""
    texts = [write(value) for value in values]
    return [Say().mass(value) for value in values] if {text.rpartition(" ")[2] for text in texts} == {"g", "oz"} else texts


def ranged(write: Callable[[float], str], value: float, low: float | None, high: float | None, told: str = "") -> str:
    """Write a value with its range; without it where both ends are written the same. `told` is the value as it is written already."""
    if low is None or high is None:
        return told or write(value)
    first, last, own = _in_one_unit(write, low, high, value)
    return told or own if first == last else Ranged(told or own, first, last)


@dataclass(frozen=True)
class PassedOn:
    """A second link, for others: it opens another calculator with some of what was typed.

    `place` is the address of its page, seen from the page of this one. `own` is what the reader's own link says that it holds, `label`
    and `holds` what this one does.
    """

    label: str
    own: str
    place: str
    calculator: str
    names: tuple[str, ...]
    holds: str


@dataclass(frozen=True)
class Calculator:
    """One calculator: what it asks, and the function that answers.

    `work_out(asked, answer)` fills the answer, or raises `Problem` / `Problems`. `draw_sheet(asked, name, paper)` returns a PDF, or the bytes
    of a file to keep. `unfold(texts)` may turn a record (the order's TOML) into the texts of the other inputs before they are read.
    `passed_on` is a link for others, where there is one.
    """

    slug: str
    title: str
    summary: str
    inputs: tuple[Input, ...]
    work_out: Callable[[Asked, Answer], None]
    groups: tuple[Group, ...] = ()
    draw_sheet: Callable[[Asked, str, str], bytes] | None = None
    unfold: Callable[[Mapping[str, str], Answer], Mapping[str, str]] | None = None
    passed_on: PassedOn | None = None


UNITS = Input("units", "Units", "choice", "metric", choices=(("metric", "Metric"), ("us", "US")))


def parse(calculator: Calculator, texts: Mapping[str, str]) -> Asked:
    """Read every input of a calculator; all problems found are raised together as `Problems`."""
    problems: list[Problem] = []
    unit_system = "metric"
    try:
        unit_system = UNITS.read(texts.get("units") or "metric", "units", "metric")
    except Problem as problem:
        problems.append(problem)
    used = {"units"}
    asked = _parse_level(calculator.inputs, calculator.groups, texts, "", unit_system, problems, used, places_of(texts))
    for name in texts:
        if name not in used:
            known = ", ".join(i.name for i in calculator.inputs) + "".join(f", {g.name}.0…" for g in calculator.groups)
            problems.append(Problem(name[:80], f"{calculator.title} has no input called {name[:80]}. It has {known}"))
    asked.currency = _currency(asked, calculator, texts, problems)
    if problems:
        raise Problems(problems)
    return asked


def check_bulk(texts: Mapping[str, str]) -> None:
    """Raise a `Problem` for more text, or longer or deeper names, than any form has."""
    if len(texts) > MOST_TEXTS:
        raise Problem("", f"There are {len(texts)} inputs; {MOST_TEXTS} is the most. Open a file or a link that was made here")
    for name in texts:
        if len(name) > LONGEST_NAME or name.count(".") >= DEEPEST_NAME:
            raise Problem(
                name[:LONGEST_NAME],
                f"The input called {name[:30]}… has a name of {len(name)} characters in {name.count('.') + 1} parts; {LONGEST_NAME} characters in "
                f"{DEEPEST_NAME} parts is the most. Open a file or a link that was made here",
            )
    size = sum(len(text) for text in texts.values())
    if size > LARGEST:
        longest = max(texts, key=lambda name: len(texts[name]))
        raise Problem(longest, f"What was typed has {size} characters in all; {LARGEST} is the most. Shorten it")


@lru_cache(maxsize=1024)
def _read(declared: Input, text: str, name: str, unit_system: str) -> Any:
    """Read what was typed into an input; cached, because an edit leaves all other inputs as they are."""
    return declared.read(text, name, unit_system)


def places_of(texts: Mapping[str, str]) -> Mapping[str, Sequence[int]]:
    """Indices found under each group prefix: `tiers.` has 0 and 1, `tiers.1.rows.` has 0 to 3."""
    return _places(tuple(texts))


@lru_cache(maxsize=4)
def _places(names: tuple[str, ...]) -> Mapping[str, Sequence[int]]:
    """`places_of`, cached: most edits change a text and no name, and an answer asks twice."""
    found: dict[str, set[int]] = {}
    for name in names:
        parts = name.split(".")
        for at in range(1, len(parts)):
            if parts[at].isdecimal() and len(parts[at]) < 5:
                found.setdefault(".".join(parts[:at]) + ".", set()).add(int(parts[at]))
    return {prefix: sorted(numbers) for prefix, numbers in found.items()}


def _parse_level(
    inputs: Sequence[Input],
    groups: Sequence[Group],
    texts: Mapping[str, str],
    path: str,
    unit_system: str,
    problems: list[Problem],
    used: set[str],
    places: Mapping[str, Sequence[int]],
) -> Asked:
    asked = Asked()
    asked.units, asked.path = unit_system, path
    for declared in inputs:
        name = path + declared.name
        used.add(name)
        text = texts.get(name)
        if text is None:
            text = "" if declared.optional and path else declared.default_in(unit_system)
        try:
            asked[declared.name] = (_read if len(text) <= LONGEST_TEXT else Input.read)(declared, text, name, unit_system)
        except Problem as problem:
            problems.append(problem)
            asked[declared.name] = None
    _match_shape(inputs, asked, texts, unit_system, problems)
    for group in groups:
        prefix = f"{path}{group.name}."
        indices = places.get(prefix, ())
        if len(indices) > group.maximum:
            problems.append(
                Problem(f"{prefix}{indices[group.maximum]}", f"{group.label}: {len(indices)} are too many, {group.maximum} is the most. Remove some")
            )
            used.update(key for key in texts if key.startswith(prefix))
            indices = indices[: group.maximum]
        asked[group.name] = [_parse_level(group.inputs, group.groups, texts, f"{prefix}{i}.", unit_system, problems, used, places) for i in indices]
        if len(indices) < group.minimum:
            problems.append(
                Problem(
                    f"{path}{group.name}",
                    f"{group.label}: there is none yet. Add at least {group.minimum}"
                    if not indices
                    else f"{group.label}: there are {len(indices)}. Add at least {group.minimum - len(indices)}",
                )
            )
    return asked


def _match_shape(inputs: Sequence[Input], asked: Asked, texts: Mapping[str, str], unit_system: str, problems: list[Problem]) -> None:
    """Bring a shape or a second size that was written with the width (8" square, 9x13) together with what the fields for them say."""
    known = {declared.name: declared for declared in inputs}
    if not {"shape", "width"} <= set(known):
        return
    width, name, text = known["width"], asked.named("width"), texts.get(asked.named("width"), "")
    if not any(letter.isalpha() or letter in "×*" for letter in text):
        return
    sizes = re.fullmatch(r".*\d.*(?:x|×|\*|\bby\b)\s*[\d.½¼¾].*", text, re.IGNORECASE) and read_as(text, width.bare_unit(unit_system))
    named, has_shape = shape_in(text), asked.named("shape") in texts
    shape, length_name = asked["shape"], asked.named("length")
    wanted = named or ("rectangle" if sizes and not has_shape else shape)
    if named and has_shape and shape and named != shape:
        problems[:] = [problem for problem in problems if problem.input != name]
        problems.append(
            Problem(name, f"{width.label} says {named}, and {known['shape'].label} says {shape}. Choose {named} there, or take the word away here")
        )
        return
    asked["shape"] = wanted
    if not sizes:
        return
    problems[:] = [problem for problem in problems if problem.input != name]
    first, second = sizes
    if wanted in TWO_SIZES and "length" in known:
        if texts.get(length_name, "").strip() and asked["length"] != second:
            problems.append(Problem(name, f"{width.label} has two sizes, and {known['length'].label} is given too. Write one size in each"))
        asked["width"], asked["length"] = first, second
    elif wanted == "square" and first == second:
        asked["width"] = first
    else:
        problems.append(
            Problem(
                name,
                f"{width.label} has two sizes, and {known['shape'].label} says {wanted}, which has one. Choose rectangle or oval there, or write "
                f"one size, like {width.default_in(unit_system) or Say(unit_system).length(200)}",
            )
        )
        return
    for value in sizes:
        try:
            width._limit(value, name, unit_system)
        except Problem as problem:
            problems.append(problem)
            return


def _currency(asked: Asked, calculator: Calculator, texts: Mapping[str, str], problems: list[Problem]) -> str:
    """The sign of the currency that amounts of money were typed with; a default's counts only where none was typed."""
    found: dict[str, str] = {}  # sign -> the input it was typed in
    fallback = ""

    def look(level: Asked, inputs: Sequence[Input], groups: Sequence[Group]) -> None:
        nonlocal fallback
        for declared in inputs:
            value = level.get(declared.name)
            if isinstance(value, Money) and value.sign:
                name = level.named(declared.name)
                if texts.get(name, declared.default_in("us")) == declared.default_in("us"):
                    fallback = fallback or value.sign
                else:
                    found.setdefault(value.sign, name)
        for group in groups:
            for inner in level.get(group.name) or ():
                look(inner, group.inputs, group.groups)

    look(asked, calculator.inputs, calculator.groups)
    if len(found) > 1:
        (first, _), (other, name) = list(found.items())[:2]
        problems.append(Problem(name, f"One amount is in {first} and this one in {other}. Write all of them in one currency"))
    return next(iter(found), fallback)


def _volumes(asked: Asked, texts: Mapping[str, str], found: list[tuple[str, ByVolume]]) -> list[tuple[str, ByVolume]]:
    """Every mass that was typed as a volume, with what was typed."""
    for name, value in asked.items():
        if isinstance(value, ByVolume):
            found.append((texts.get(asked.named(name), "").strip(), value))
        elif isinstance(value, list):
            for inner in value:
                if isinstance(inner, Asked):
                    _volumes(inner, texts, found)
    return found


def run(calculator: Calculator, texts: Mapping[str, str]) -> Answer:
    """Read the inputs and work out the answer; a person's mistakes become problems instead of exceptions."""
    answer = Answer(calculator.slug)
    try:
        check_bulk(texts)
        if calculator.unfold is not None:
            texts = calculator.unfold(texts, answer)
        asked = parse(calculator, texts)
        answer.units, answer.currency = asked.units, asked.currency
        calculator.work_out(asked, answer)
        for text, mass_g in _volumes(asked, texts, []):
            if calculator.slug != "batch":  # there the recipe asked for is weighed
                answer.note(f"{text[:40]} of buttercream is taken to weigh {answer.say.mass(mass_g)}. Weigh yours to be sure.")
    except Problem as problem:
        _fail(answer, (problem,), texts)
    except Problems as several:
        _fail(answer, several.problems, texts)
    return answer


def sheet_answer(slug: str, asked: Asked, work_out: Callable[[Asked, Answer], None]) -> Answer:
    """Work out the answer to inputs that have been parsed, for a sheet that prints its tables."""
    answer = Answer(slug, asked.units, currency=asked.currency)
    work_out(asked, answer)
    return answer


def _fail(answer: Answer, problems: Sequence[Problem], texts: Mapping[str, str]) -> None:
    told = us_examples if texts.get("units", "").strip().lower() == "us" else str
    answer.problems = [{"input": p.input, "message": told(p.message)} for p in problems]
    answer.figures = {}
    for emptied in (answer.notes, answer.cautions, answer.tables, answer.drawings, answer.sheets, answer.sections, answer.files, answer.cures):
        emptied.clear()
