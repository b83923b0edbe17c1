"""What a calculator answers: figures, notes, tables, drawings, sheets and words that can be pressed; `Answer.to_json()` is all that leaves Python."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any, TypeVar

from calc.units import Formatter


class Press(str):
    """Words that can be pressed: the fields named in `sets` then say what stands there, as one step that can be undone.

    A group of which `sets` names fields gets as many copies as are named together with those that stand in the form. `clears` names groups, such
    as "tiers.0.rows", of which nothing stays but what `sets` names. `done` says afterwards what was done.

    >>> press = Press("Use 9 repeats", {"tiers.0.repeats": "9"}, done="Tier 1 has 9 repeats.")
    >>> press, press.sets["tiers.0.repeats"], press.done
    ('Use 9 repeats', '9', 'Tier 1 has 9 repeats.')
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
    def say(self) -> Formatter:
        """Writes amounts in the reader's units and money in the maker's currency."""
        return _formatter(self.units, self.currency)

    @property
    def record(self) -> str | None:
        """What was typed, as one text to keep; written when somebody asks for it, because an answer on a page does without."""
        if callable(self._record):
            self._record = self._record()
        return self._record

    @record.setter
    def record(self, record: str | Callable[[], str] | None) -> None:
        self._record = record

    def section(
        self,
        name: str,
        title: str,
        short: str = "",
        prints: str = "",
        copies: str = "",
        copied: Sequence[str] = (),
        links: str = "",
        takes: str = "",
    ) -> None:
        """Start a section; whatever is added next belongs to it. A `short` title puts it in the list of links above the answer. `prints` names a
        sheet that shows the same, for a button beside its title; `copies` labels a button that copies the tables in `copied` as plain text,
        `links` one that copies a link for the customer, `takes` one that opens the list for the shop."""
        more = {"short": short, "prints": prints, "copies": copies, "copied": " ".join(copied), "links": links, "takes": takes}
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

    def take(self, part: Answer) -> None:
        """Add the figures, notes, cautions and tables of an answer to some part of the same."""
        self.figures.update(part.figures)
        self.notes += part.notes
        self.cautions += part.cautions
        self.tables += part.tables

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
            self.figures[name] = self.figures[name] | {"also": section}

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
        that shows the drawing of the answer before asks for it when the reader pauses, and for the main drawing at once."""
        self.drawings.append(self._in_section(Drawing(svg, name=name, title=title, description=description)))

    def sheet(self, name: str, title: str, group: str = "", saved: str = "") -> None:
        """Offer a sheet to print, under the title of a `group` of sheets; it is saved under the name `saved`, or one made of its own."""
        self.sheets.append(
            self._in_section({"name": name, "title": title} | ({"group": group} if group else {}) | ({"saved": saved} if saved else {}))
        )

    def main_drawing(self, name: str, title: str, description: str, svg: str | Callable[[], str]) -> None:
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


@lru_cache(maxsize=8)
def _formatter(units: str, currency: str) -> Formatter:
    return Formatter(units, currency=currency)


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

    >>> span(Formatter("us").mass, 20.9, 21.2), span(Formatter("us").mass, 14.2, 28.3), span(Formatter("us").mass, 5, 10)
    ('3/4 oz', '1/2 oz to 1 oz', '5 g to 10 g')
    """
    first, last = _in_one_unit(write, low, high)
    return first if first == last else f"{first} to {last}"


def _in_one_unit(write: Callable[[float], str], *values: float) -> list[str]:
    """Each value as it is written, all in grams where some are in grams and some in ounces: a range has one unit."""
    texts = [write(value) for value in values]
    return [Formatter().mass(value) for value in values] if {text.rpartition(" ")[2] for text in texts} == {"g", "oz"} else texts


def ranged(write: Callable[[float], str], value: float, low: float | None, high: float | None, told: str = "") -> str:
    """Write a value with its range; without it where both ends are written the same. `told` is the value as it is written already."""
    if low is None or high is None:
        return told or write(value)
    first, last, own = _in_one_unit(write, low, high, value)
    return told or own if first == last else Ranged(told or own, first, last)
