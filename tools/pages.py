"""Calculators as HTML: the form and the answer that stand in a page before any script runs.

The form is written here only; scripts fill it and copy its templates. The answer is written twice, here for the build and in
docs/assets/js/render.js for the browser; tests/browser/test_same_answer.py holds the two together.
"""

from __future__ import annotations

import html
import re
from collections.abc import Mapping, Sequence
from typing import Any

LONG = 12  # characters; a longer figure is set smaller
RANGE = re.compile(r"^(.+?) (\(.+\))$")
DECIMAL = {"number", "percent", "money"}


class Raw(str):
    """Markup that is finished and must not be escaped again."""


def element(tag: str, attributes: Mapping[str, str | bool | None] | None = None, *children: str | None) -> Raw:
    """One element; attributes that are None or False are left out, True ones stand without a value."""
    written = ""
    for name, value in (attributes or {}).items():
        if value is None or value is False:
            continue
        written += f" {name}" if value is True else f' {name}="{html.escape(str(value))}"'
    inner = "".join(child if isinstance(child, Raw) else html.escape(child, quote=False) for child in children if child)
    return Raw(f"<{tag}{written}>" if tag in ("input", "br") else f"<{tag}{written}>{inner}</{tag}>")


# ---- the answer ---------------------------------------------------------------------------------------------------------


def answer_html(answer: Mapping[str, Any], level: int) -> Raw:
    """What stands inside `.pb-answer`; `level` is that of its section headings."""
    sections = answer.get("sections") or []
    named = [section["name"] for section in sections]
    parts = [*_items(answer, lambda item: item.get("section") not in named)]
    for section in sections:
        inner = _items(answer, lambda item, name=section["name"]: item.get("section") == name)
        if inner:
            heading = element(f"h{level}", {}, section["title"])
            parts.append(element("section", {"class": "pb-section", "data-section": section["name"]}, heading, *inner))
    return Raw("".join(parts))


def _items(answer: Mapping[str, Any], wanted: Any) -> list[Raw]:
    """The items of one section in their fixed order: figures, cautions, notes, drawings, tables, sheets and files."""
    parts = []
    figures = [(name, figure) for name, figure in answer["figures"].items() if wanted(figure) and not figure.get("quiet")]
    if figures:
        parts.append(element("dl", {"class": "pb-figures"}, *(_figure(name, figure) for name, figure in figures)))
    for kind in ("cautions", "notes"):
        said = [item for item in answer[kind] if wanted(item)]
        if said:
            parts.append(element("ul", {"class": f"pb-{kind}"}, *(element("li", {}, item["text"]) for item in said)))
    parts.extend(_drawing(item) for item in answer["drawings"] if wanted(item))
    parts.extend(_table(item) for item in answer["tables"] if wanted(item))
    buttons = [
        element("button", {"type": "button", "class": "pb-sheet", "data-sheet": item["name"]}, item["title"])
        for item in answer["sheets"]
        if wanted(item)
    ]
    buttons += [
        element("button", {"type": "button", "class": "pb-save", "data-file": item["name"]}, item["title"])
        for item in answer.get("files") or []
        if wanted(item)
    ]
    if buttons:
        parts.append(element("div", {"class": "pb-sheets"}, *buttons))
    return parts


def _figure(name: str, figure: Mapping[str, Any]) -> Raw:
    text = figure["text"]
    split = RANGE.match(text) if "low" in figure else None
    main, extent = (split[1], split[2]) if split else (text, "")
    attributes = {"class": "pb-figure", "data-figure": name, "data-long": len(main) > LONG}
    value = [main + " ", element("span", {"class": "pb-range"}, extent)] if extent else [main]
    return element("div", attributes, element("dt", {}, figure["label"]), element("dd", {}, *value))


def _drawing(item: Mapping[str, Any]) -> Raw:
    caption = element("figcaption", {}, item["title"])
    return element("figure", {"class": "pb-drawing", "data-drawing": item["name"]}, Raw(item["svg"]), caption)


def _table(item: Mapping[str, Any]) -> Raw:
    columns = item["columns"]
    number = [{"class": "pb-number"} if column["align"] == "right" else {} for column in columns]
    head = [element("th", {"scope": "col", **number[i]}, column["label"]) for i, column in enumerate(columns)]
    rows = []
    for row in item["rows"]:
        cells = [
            element("td" if i else "th", {**({} if i else {"scope": "row"}), **number[i]}, text) for i, text in enumerate(row)
        ]
        rows.append(element("tr", {}, *cells))
    table = element(
        "table",
        {},
        element("caption", {}, item["title"]),
        element("thead", {}, element("tr", {}, *head)),
        element("tbody", {}, *rows),
    )
    scroller = {"class": "pb-table", "data-table": item["name"], "tabindex": "0", "role": "group", "aria-label": item["title"]}
    return element("div", scroller, table)


# ---- the form -----------------------------------------------------------------------------------------------------------


def _control(declared: Any, value: str, names: Mapping[str, str | bool | None]) -> Raw:
    """The input, select or textarea of one declared input."""
    if declared.kind == "choice":
        known = [choice for choice, _ in declared.choices]
        choices = list(declared.choices)
        if declared.optional:
            choices.insert(0, ("", "—"))
        if value not in known and value:
            choices.append((value, value))
        options = [element("option", {"value": key, "selected": key == value}, label) for key, label in choices]
        return element("select", names, *options)
    if declared.kind == "yes_no":
        return element("input", {**names, "type": "checkbox", "value": "yes", "checked": value == "yes"})
    if declared.kind == "long_text":
        return element("textarea", {**names, "rows": "5"}, "\n" + value if value.startswith("\n") else value)
    mode = "numeric" if declared.kind == "count" else "decimal" if declared.kind in DECIMAL else None
    typing = {"type": "text", "inputmode": mode, "autocomplete": "off", "autocapitalize": "off", "spellcheck": "false"}
    return element("input", {**names, **typing, "value": value})


def _field(declared: Any, name: str, value: str, form: str) -> Raw:
    identity = f"{form}-{name}"
    described = f"{identity}-help {identity}-problem" if declared.help else f"{identity}-problem"
    names: dict[str, str | bool | None] = {"id": identity, "name": name, "aria-describedby": described}
    if declared.kind == "colour":
        names["data-kind"] = "colour"
    label = declared.label + (" (optional)" if declared.optional and declared.kind != "yes_no" else "")
    return element(
        "div",
        {"class": "pb-field", "data-input": name, "data-local": declared.name},
        element("label", {"for": identity}, label),
        _control(declared, value, names),
        element("p", {"class": "pb-help", "id": f"{identity}-help"}, declared.help) if declared.help else None,
        element("p", {"class": "pb-problem", "id": f"{identity}-problem"}),
    )


def _level(inputs: Sequence[Any], groups: Sequence[Any], path: str, values: Mapping[str, str], form: str) -> list[Raw]:
    """The fields and groups of one level: what is asked first, then what is under More, then what repeats."""

    def fields(wanted: bool) -> list[Raw]:
        return [
            _field(declared, path + declared.name, values.get(path + declared.name, declared.default), form)
            for declared in inputs
            if bool(declared.advanced) is wanted
        ]

    parts = []
    plain, more = fields(False), fields(True)
    if plain:
        parts.append(element("div", {"class": "pb-fields"}, *plain))
    if more:
        body = element("div", {"class": "pb-fields"}, *more)
        parts.append(element("details", {"class": "pb-more"}, element("summary", {}, "More"), body))
    parts.extend(_group(group, path, values, form) for group in groups)
    return parts


def indices(values: Mapping[str, str], prefix: str) -> list[int]:
    """Which copies of a group the values speak of: `tiers.0.width`, `tiers.1.width` -> 0, 1."""
    heads = {name[len(prefix) :].split(".", 1)[0] for name in values if name.startswith(prefix)}
    return sorted(int(head) for head in heads if head.isdecimal())


def _group(group: Any, path: str, values: Mapping[str, str], form: str) -> Raw:
    prefix = f"{path}{group.name}."
    copies = indices(values, prefix) or list(range(group.minimum))
    items = [_item(group, f"{prefix}{index}.", number, values, form) for number, index in enumerate(copies)]
    template = element("template", {}, _item(group, f"{prefix}0.", 0, {}, form))
    word = group.label[:1].lower() + group.label[1:]
    article = "an" if word[:1] in "aeiou" else "a"
    add = element("button", {"type": "button", "class": "pb-add"}, f"Add {article} {word}")
    limits = {"data-minimum": str(group.minimum), "data-maximum": str(group.maximum), "data-label": group.label}
    help_line = element("p", {"class": "pb-help"}, group.help) if group.help else None
    problem = element("p", {"class": "pb-problem", "id": f"{form}-{path}{group.name}-problem"})
    return element(
        "div",
        {"class": "pb-items", "data-group": group.name, "data-input": f"{path}{group.name}", **limits},
        help_line,
        element("div", {"class": "pb-copies"}, *items),
        problem,
        template,
        add,
    )


def _item(group: Any, path: str, number: int, values: Mapping[str, str], form: str) -> Raw:
    title = f"{group.label} {number + 1}"
    tools = element(
        "div",
        {"class": "pb-group-tools"},
        element("button", {"type": "button", "class": "pb-move", "data-direction": "up", "aria-label": f"Move {title} up"}, "Up"),
        element("button", {"type": "button", "class": "pb-move", "data-direction": "down", "aria-label": f"Move {title} down"}, "Down"),
        element("button", {"type": "button", "class": "pb-remove", "aria-label": f"Remove {title}"}, "Remove"),
    )
    inner = _level(group.inputs, group.groups, path, values, form)
    return element("fieldset", {"class": "pb-group"}, element("legend", {}, title), *inner, tools)


# ---- the whole --------------------------------------------------------------------------------------------------------------


def form_inputs(calculator: Any) -> list[Any]:
    """The inputs that stand in the form: a record is kept as text but filled in as fields."""
    return [declared for declared in calculator.inputs if not (calculator.unfold and declared.kind == "long_text")]


def calculator_html(
    calculator: Any, values: Mapping[str, str], answer: Mapping[str, Any], *, form: str, title: str, level: int, build: str
) -> Raw:
    """One calculator, whole: title, form, answer and tools."""
    key, form = form, f"pb-{form}"  # a heading may have the plain name
    shown = {**values, **(answer.get("fields") or {})}
    fields = _level(form_inputs(calculator), calculator.groups, "", shown, form)
    submit = element("button", {"type": "submit", "class": "pb-primary pb-submit"}, "Work it out")
    whole = element("form", {"class": "pb-form", "novalidate": True, "autocomplete": "off"}, *fields, submit)
    has_record = answer.get("record") is not None
    tools = _tools(form, calculator, has_record, values.get("units", "metric"))
    without = "This is the page’s example, worked out. To change it, turn on JavaScript."
    return element(
        "section",
        {
            "class": "pb-calculator",
            "id": form,
            "data-key": key,
            "data-calculator": calculator.slug,
            "data-state": "static",
            "data-level": str(level + 1),
            "data-build": build,
            "data-record": has_record,
            "aria-labelledby": f"{form}--title",
        },
        element(f"h{level}", {"class": "pb-title", "id": f"{form}--title"}, title),
        element("noscript", {}, element("p", {"class": "pb-status"}, without)),
        tools if has_record else None,  # a long form: what opens and keeps it stands before it
        element("div", {"class": "pb-summary", "tabindex": "-1", "hidden": True}),
        whole,
        element("div", {"class": "pb-answer"}, answer_html(answer, level + 1)),
        None if has_record else tools,
    )


def _tools(form: str, calculator: Any, has_record: bool, unit_system: str) -> Raw:
    """Units, paper, the status line, and what can be done with what was typed."""

    def button(kind: str, text: str) -> Raw:
        return element("button", {"type": "button", "class": kind}, text)

    def unit(key: str, label: str) -> Raw:
        choice = {"type": "radio", "name": f"{form}-units", "value": key, "checked": key == unit_system}
        return element("label", {}, element("input", choice), label)

    units = element(
        "fieldset", {"class": "pb-units"}, element("legend", {}, "Answers in"), unit("metric", "Metric"), unit("us", "US")
    )
    paper = None
    if calculator.draw_sheet is not None:
        sizes = [element("option", {"value": size}, size) for size in ("A4", "Letter")]
        paper = element("label", {}, "Paper", element("select", {"class": "pb-paper"}, *sizes))
    kept: list[Raw] = []
    if has_record:
        kept = [
            element("label", {}, "Kept here", element("select", {"class": "pb-kept"}, element("option", {"value": ""}, "Nothing yet"))),
            button("pb-remove pb-forget", "Forget it"),
            element("label", {}, "Keep as", element("input", {"type": "text", "class": "pb-name", "autocomplete": "off"})),
            button("pb-save pb-keep", "Keep on this device"),
            button("pb-save pb-export", "Save as a file"),
            button("pb-open pb-import", "Open a file"),
            element("input", {"type": "file", "class": "pb-file", "accept": ".toml,text/plain", "hidden": True, "aria-label": "Open a file"}),
        ]
    return element(
        "div",
        {"class": "pb-tools"},
        units,
        paper,
        *kept,
        button("pb-copy", "Copy link"),
        button("pb-reset", "Back to the page’s example"),
        element("button", {"type": "button", "class": "pb-undo", "hidden": True}, "Undo"),
        element("p", {"class": "pb-status", "role": "status"}),
    )
