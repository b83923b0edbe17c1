"""What an answer looks like: figures, cautions, notes, drawings, tables and buttons, section by section."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from typing import Any

from calc.calculators.declare import Answer, Drawing, Press, Ranged
from calc.page.html import Attributes, Markup, element, escape, join, opening

LONG = 12  # characters; a longer figure is set smaller
WIDE = 6  # columns; on a narrow page a table with this many or more shows each row as a list

Item = Mapping[str, Any]
Draw = Callable[[Drawing], Markup]


def drawn(drawing: Drawing) -> Markup:
    """The SVG of a drawing, which `calc.drawing` has escaped."""
    return Markup(drawing["svg"])


def answer_html(answer: Answer, level: int, identity: str, draw: Draw = drawn) -> Markup:
    """Write the content of `.pb-answer`.

    `level` is the heading level of its sections, `identity` the id of its calculator. `draw` gives what stands in place of a drawing's
    SVG: by default the SVG itself.
    """
    by_section = _by_section(answer)
    parts = _items(by_section[""], "", draw)
    for section in answer.sections:
        name = section["name"]
        inner = _items(by_section[name], name, draw)
        if inner:
            focusable = "-1" if section.get("short") else None  # for the links above the answer
            attributes: Attributes = {"class": "pb-section", "data-section": name, "id": section_id(identity, name), "tabindex": focusable}
            prints = section.get("prints")
            buttons = [_sheet_button(sheet, "Print it") for sheet in answer.sheets if sheet["name"] == prints][:1] if prints else []
            if "copies" in section:
                buttons.append(element("button", {"type": "button", "class": "pb-copy-text", "data-copies": section["copied"]}, section["copies"]))
            for key, kind in (("links", "pb-customer-link"), ("takes", "pb-to-shop")):
                if key in section:  # they take their look from the button that copies
                    buttons.append(element("button", {"type": "button", "class": f"{kind} pb-copy-text"}, section[key]))
            parts.append(element("section", attributes, element(f"h{level}", {}, section["title"]), *buttons, *inner))
    return join(parts)


def main_drawing(answer: Answer, draw: Draw = drawn) -> Markup | None:
    """Write the drawing that stays in sight beside the form. None where the answer has none."""
    staying = [_drawing(item, draw) for item in answer.drawings if item.get("stays")]
    return join(staying) if staying else None


def section_links(answer: Answer, identity: str) -> Markup | None:
    """Write the list of links above a long answer: the sections that have a short title. None where there is no such section."""
    links = [
        element("li", {}, element("a", {"href": f"#{section_id(identity, section['name'])}", "data-part": section["name"]}, section["short"]))
        for section in answer.sections
        if section.get("short")
    ]
    return element("ul", {}, *links) if links else None


def section_id(identity: str, section: str) -> str:
    """Return the id of one section of the answer of a calculator."""
    return f"{identity}--part-{section}"


@lru_cache(maxsize=64)
def swatch(colour: str) -> Markup:
    """Write a dot of a colour [#rrggbb]; it is empty where the colour is not known. Cached: an order's tables have some fifty, in a few colours."""
    dot = element("circle", {"cx": "8", "cy": "8", "r": "7", "fill": colour or "none"})
    return element("svg", {"class": "pb-dot", "viewBox": "0 0 16 16", "aria-hidden": "true", "data-look": colour or None}, dot)


class _Items:
    """The items of one section, in the order in which they were added."""

    def __init__(self) -> None:
        self.figures: list[tuple[str, Item]] = []
        self.again: list[tuple[str, Item]] = []  # figures of another section, shown in this one as well
        self.cautions: list[Item] = []
        self.notes: list[Item] = []
        self.drawings: list[Drawing] = []
        self.tables: list[Item] = []
        self.sheets: list[Item] = []
        self.files: list[Item] = []


def _by_section(answer: Answer) -> dict[str, _Items]:
    """The items of each section by its name, those of no section under ""."""
    found = {name: _Items() for name in ("", *(section["name"] for section in answer.sections))}
    other = found[""]
    for name, item in answer.figures.items():
        if not item.get("quiet"):
            found.get(item.get("section", ""), other).figures.append((name, item))
        also = item.get("also")
        if also in found:
            found[also].again.append((name, item))
    for kind in ("cautions", "notes", "drawings", "tables", "sheets", "files"):
        for item in getattr(answer, kind):
            getattr(found.get(item.get("section", ""), other), kind).append(item)
    return found


def _items(items: _Items, section: str, draw: Draw) -> list[Markup]:
    """Write the items of one section in their fixed order: figures, cautions, notes, drawings, tables, sheets and files."""
    parts = []
    figures = [_figure(name, item, "data-figure") for name, item in items.figures]
    if section:
        figures += [_figure(name, item, "data-again") for name, item in items.again]
    if figures:
        parts.append(element("dl", {"class": "pb-figures"}, *figures))
    for kind, sentences in (("cautions", items.cautions), ("notes", items.notes)):
        lines = [_sentence(item["text"], *map(press_button, item.get("presses", ()))) for item in sentences]
        if lines:
            parts.append(element("ul", {"class": f"pb-{kind}"}, *lines))
    parts += [_drawing(item, draw) for item in items.drawings if not item.get("stays")]
    parts += [_table(item) for item in items.tables]
    groups: dict[str, list[Markup]] = {}
    for item in items.sheets:
        groups.setdefault(item.get("group", ""), []).append(_sheet_button(item, item["title"]))
    for item in items.files:
        file: Attributes = {"class": "pb-save", "data-file": item["name"], "data-type": item["type"], "data-saved": item.get("saved")}
        groups.setdefault("", []).append(element("button", {"type": "button", **file}, item["title"]))
    for group, buttons in groups.items():
        titled = [element("span", {"class": "pb-sheets-title"}, group)] if group else []
        grouped: Attributes = {"role": "group", "aria-label": group} if group else {}
        parts.append(element("div", {"class": "pb-sheets", **grouped}, *titled, *buttons))
    return parts


@lru_cache(maxsize=256)
def _sentence(text: str, *buttons: Markup) -> Markup:
    """A sentence with its buttons; kept, as most sentences of an answer stand in the next one."""
    return element("li", {}, text, *buttons)


def press_button(press: Press) -> Markup:
    """The button of words that can be pressed; it carries what they set."""
    return _press_button(str(press), tuple(press.sets.items()), press.clears, press.done)


@lru_cache(maxsize=128)
def _press_button(words: str, sets: tuple[tuple[str, str], ...], clears: tuple[str, ...], done: str) -> Markup:
    attributes: Attributes = {
        "type": "button",
        "class": "pb-press",
        "data-sets": json.dumps(dict(sets), ensure_ascii=False, separators=(",", ":")),
        "data-clears": " ".join(clears) or None,
        "data-done": done or None,
    }
    return element("button", attributes, words)


def cures_html(answer: Answer) -> dict[str, str]:
    """What is amiss at each copy of a group, as HTML by the copy's name: sentences with what can be pressed to mend it."""
    told: dict[str, list[Markup]] = {}
    for cure in answer.cures:
        told.setdefault(cure.at, []).append(element("p", {}, cure.text, " " if cure.presses else None, *map(press_button, cure.presses)))
    return {at: join(lines) for at, lines in told.items()}


def _sheet_button(item: Item, title: str) -> Markup:
    """The button that has a sheet drawn and saved."""
    return _written_sheet_button(item["name"], item.get("saved"), title)


@lru_cache(maxsize=128)
def _written_sheet_button(name: str, saved: str | None, title: str) -> Markup:
    return element("button", {"type": "button", "class": "pb-sheet", "data-sheet": name, "data-saved": saved}, title)


def _figure(name: str, item: Item, kind: str) -> Markup:
    text = item["text"]
    return _written_figure(name, item["label"], text, isinstance(text, Ranged), kind)


@lru_cache(maxsize=256)
def _written_figure(name: str, label: str, text: str, _is_ranged: bool, kind: str) -> Markup:
    """A figure; a range and a plain text that read alike are not the same figure."""
    main = text.value if isinstance(text, Ranged) else text
    attributes: Attributes = {"class": "pb-figure", kind: name, "data-long": len(main) > LONG}
    return element("div", attributes, element("dt", {}, label), element("dd", {}, *_quantity(text)))


def _quantity(text: str) -> Sequence[str]:
    """An amount, its range set apart where it has one."""
    if isinstance(text, Ranged):
        return text.value, " ", element("span", {"class": "pb-range"}, text.range)
    return (text,)


def _drawing(item: Drawing, draw: Draw) -> Markup:
    attributes: Attributes = {"class": "pb-drawing", "data-drawing": item["name"], "data-stays": bool(item.get("stays"))}
    return element("figure", attributes, draw(item), element("figcaption", {}, item["title"]))


def _table(item: Item) -> Markup:
    columns = _columns(tuple([(column["label"], column["align"], tuple(column.get("looks", {}).items())) for column in item["columns"]]))
    rows = tuple([(tuple(row), tuple([type(text) for text in row])) for row in item["rows"]])
    presses = tuple([_key(text) for row, kinds in rows if Press in kinds for text in row if type(text) is Press])
    return _written_table(item["name"], item["title"], columns, rows, presses)


def _key(press: Press) -> tuple[object, ...]:
    """What tells words that can be pressed from others that read alike."""
    return tuple(press.sets.items()), press.clears, press.done


@lru_cache(maxsize=96)
def _written_table(
    name: str,
    title: str,
    columns: _Columns,
    rows: tuple[tuple[tuple[str, ...], tuple[type, ...]], ...],
    _presses: tuple[tuple[object, ...], ...],
) -> Markup:
    """A table of rows, each with the types of its cells; kept as rows are: most tables of an answer stand in the next one."""
    written = [_row(columns, row) if Press in kinds else _kept_row(columns, row, kinds) for row, kinds in rows]
    head = Markup(f"<thead><tr>{columns.head}</tr></thead>")
    table = element("table", {}, element("caption", {}, title), head, Markup(f"<tbody>{''.join(written)}</tbody>"))
    wide = len(columns.tags) >= WIDE
    return element("div", {"class": "pb-table", "data-wide": wide, "data-table": name, "tabindex": "0", "role": "group", "aria-label": title}, table)


class _Columns:
    """The heading of a table, and for each column the tags of its cells and its colours.

    On a narrow page each cell shows the label of its column; the first cell is the heading of its row and needs none, unless it is a number.
    """

    def __init__(self, columns: tuple[tuple[str, str, tuple[tuple[str, str], ...]], ...]) -> None:
        numeric: list[Attributes] = [{"class": "pb-number"} if align == "right" else {} for _, align, _ in columns]
        self.head = join([element("th", {"scope": "col", **numeric[i]}, label) for i, (label, _, _) in enumerate(columns)])
        self.tags: list[tuple[str, str, dict[str, str]]] = []
        for i, (label, _, looks) in enumerate(columns):
            tag: Attributes = {"scope": None if i else "row", "data-label": label if i or numeric[i] else None, **numeric[i]}
            self.tags.append((opening("td" if i else "th", tag), "</td>" if i else "</th>", dict(looks)))


_columns = lru_cache(maxsize=64)(_Columns)


def _row(columns: _Columns, row: Sequence[str]) -> str:
    """Write one row of a table."""
    return f"<tr>{''.join([f'{begin}{_cell(looks, text)}{end}' for (begin, end, looks), text in zip(columns.tags, row, strict=True)])}</tr>"


@lru_cache(maxsize=512)
def _kept_row(columns: _Columns, row: tuple[str, ...], _types: tuple[type, ...]) -> str:
    """A row, kept because most rows of an answer stand in the next one; a range and a plain text that read alike are not the same cell."""
    return _row(columns, row)


def _cell(looks: Mapping[str, str], text: str) -> str:
    """The content of a cell: a button where it can be pressed, and after a dot of its colour where the column has colours."""
    if isinstance(text, Press):
        return press_button(text)
    colour = looks.get(text)
    if colour:
        return join((swatch(colour), text))
    return join(_quantity(text)) if isinstance(text, Ranged) else escape(text)
