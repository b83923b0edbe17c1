"""Calculators as HTML: the form and the answer that stand in a page before any script runs.

The form is written here only; scripts fill it and copy its templates. The answer is written twice, here for the build and in
docs/assets/js/render.js for the browser; tests/browser/test_same_answer.py holds the two together.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from calc.calculators.declare import Calculator, Group, Input
from calc.colours import PALETTE, hex_of
from calc.tips import TIPS
from calc.units import a_or_an

LONG = 12  # characters; a longer figure is set smaller
WIDE = 6  # columns; a table of so many is laid out line by line on a narrow page
RANGE = re.compile(r"^(.+?) (\(.+\))$")
DECIMAL = {"number", "percent", "money"}
IN_BRACES = re.compile(r"{(\w+)}")
LONGEST_PIECE = 40  # characters of one piece of the line that tells what a tier or a row holds
MOMENT = re.compile(r"^(\d{4}-\d\d-\d\d)[ T](\d\d:\d\d)$")


Attribute = str | bool | None
Attributes = Mapping[str, Attribute]


class Raw(str):
    """Markup that is finished and must not be escaped again."""


def element(tag: str, attributes: Attributes | None = None, *children: str | None) -> Raw:
    """One element; attributes that are None or False are left out, True ones stand without a value."""
    written = ""
    for name, value in (attributes or {}).items():
        if value is None or value is False:
            continue
        written += f" {name}" if value is True else f' {name}="{html.escape(str(value))}"'
    inner = "".join(child if isinstance(child, Raw) else html.escape(child, quote=False) for child in children if child)
    return Raw(f"<{tag}{written}>" if tag in ("input", "br") else f"<{tag}{written}>{inner}</{tag}>")


# ---- the answer ---------------------------------------------------------------------------------------------------------


def answer_html(answer: Mapping[str, Any], level: int, identity: str) -> Raw:
    """What stands inside `.pb-answer` of the calculator with that id; `level` is that of its section headings."""
    sections = answer.get("sections") or []
    named = [section["name"] for section in sections]
    parts = [*_items(answer, lambda item: item.get("section") not in named)]
    for section in sections:
        inner = _items(answer, lambda item, name=section["name"]: item.get("section") == name, section["name"])
        if inner:
            reached = "-1" if section.get("short") else None  # by a link of the strip over the answer
            place = {"class": "pb-section", "data-section": section["name"], "id": part_id(identity, section["name"]), "tabindex": reached}
            heading = element(f"h{level}", {}, section["title"])
            prints = section.get("prints")
            button = element("button", {"type": "button", "class": "pb-print", "data-prints": section["name"]}, prints) if prints else None
            parts.append(element("section", place, heading, button, *inner))
    return Raw("".join(parts))


def part_id(identity: str, section: str) -> str:
    """The id of one section of the answer of the calculator with that id."""
    return f"{identity}--part-{section}"


def _items(answer: Mapping[str, Any], wanted: Any, section: str = "") -> list[Raw]:
    """The items of one section in their fixed order: figures, cautions, notes, drawings, tables, sheets and files."""
    parts = []
    figures = [_figure(name, figure) for name, figure in answer["figures"].items() if wanted(figure) and not figure.get("quiet")]
    if section:  # figures of other sections that one wants to see here too
        figures += [_figure(name, figure, True) for name, figure in answer["figures"].items() if figure.get("also") == section]
    if figures:
        parts.append(element("dl", {"class": "pb-figures"}, *figures))
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
        element("button", {"type": "button", "class": "pb-save", "data-file": item["name"], "data-type": item["type"]}, item["title"])
        for item in answer.get("files") or []
        if wanted(item)
    ]
    if buttons:
        parts.append(element("div", {"class": "pb-sheets"}, *buttons))
    return parts


def _figure(name: str, figure: Mapping[str, Any], again: bool = False) -> Raw:
    text = figure["text"]
    split = RANGE.match(text) if "low" in figure else None
    main, extent = (split[1], split[2]) if split else (text, "")
    attributes: dict[str, Attribute] = {"class": "pb-figure", "data-again" if again else "data-figure": name, "data-long": len(main) > LONG}
    value = [main + " ", element("span", {"class": "pb-range"}, extent)] if extent else [main]
    return element("div", attributes, element("dt", {}, figure["label"]), element("dd", {}, *value))


def _drawing(item: Mapping[str, Any]) -> Raw:
    caption = element("figcaption", {}, item["title"])
    return element("figure", {"class": "pb-drawing", "data-drawing": item["name"]}, Raw(item["svg"]), caption)


def _table(item: Mapping[str, Any]) -> Raw:
    columns = item["columns"]
    number = [{"class": "pb-number"} if column["align"] == "right" else {} for column in columns]
    head = [element("th", {"scope": "col", **number[i]}, column["label"]) for i, column in enumerate(columns)]
    labels = [column["label"] if i or number[i] else None for i, column in enumerate(columns)]  # shown where a line stands for itself
    rows = []
    for row in item["rows"]:
        cells = [
            element("td" if i else "th", {"scope": None if i else "row", "data-label": labels[i], **number[i]}, *_cell(columns[i], text))
            for i, text in enumerate(row)
        ]
        rows.append(element("tr", {}, *cells))
    table = element(
        "table",
        {},
        element("caption", {}, item["title"]),
        element("thead", {}, element("tr", {}, *head)),
        element("tbody", {}, *rows),
    )
    wide = len(columns) >= WIDE
    scroller = {"class": "pb-table", "data-wide": wide, "data-table": item["name"], "tabindex": "0", "role": "group", "aria-label": item["title"]}
    return element("div", scroller, table)


def _cell(column: Mapping[str, Any], text: str) -> list[str]:
    """The text of a cell: with its colour before it where the column has colours, a range set apart from its figure."""
    split = RANGE.match(text) if column["align"] == "right" else None
    if split:
        return [split[1] + " ", element("span", {"class": "pb-range"}, split[2])]
    look = column.get("looks", {}).get(text)
    return [_swatch(look), text] if look else [text]


def _swatch(look: str) -> Raw:
    """A dot of a colour; empty where the colour is not known."""
    dot = element("circle", {"cx": "8", "cy": "8", "r": "7", "fill": look or "none"})
    return element("svg", {"class": "pb-dot", "viewBox": "0 0 16 16", "aria-hidden": "true", "data-look": look or None}, dot)


# ---- the form -----------------------------------------------------------------------------------------------------------


class Form:
    """A form being written: its id, and what was typed into it, by full name."""

    def __init__(self, calculator: Calculator, values: Mapping[str, str], identity: str) -> None:
        self.calculator = calculator
        self.values = values
        self.identity = identity
        self.flows = any(group.groups for group in calculator.groups)  # a long one: Enter goes on to the next field
        self.own_looks = {
            values.get(f"{name.removesuffix('.look')}.name", "").strip().lower(): look.strip().lower()
            for name, look in values.items()
            if re.fullmatch(r"colours\.\d+\.look", name)
        }

    def look(self, text: str) -> str:
        """The colour of a name as #rrggbb: the reader's own first, then the palette; empty where there is none."""
        name = " ".join(text.lower().split())
        own = self.own_looks.get(name, "")
        return own if re.fullmatch(r"#[0-9a-f]{6}", own) else hex_of(name) or ""

    def control(self, declared: Input, value: str, names: Attributes) -> Raw:
        """The input, select or textarea of one declared input, with what helps to fill it."""
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
        offered = self.list_of(declared)
        key = "next" if self.flows else None
        empty = " " if declared.optional else None  # so that a style sheet can tell an empty field
        control = element("input", {**names, **typing, "enterkeyhint": key, "list": offered, "placeholder": empty, "value": value})
        beside = self.beside(declared, value)
        return element("div", {"class": "pb-entry"}, control, beside) if beside else control

    def list_of(self, declared: Input) -> str | None:
        """The id of the list of what may be typed, if there is one."""
        if declared.kind == "tip":
            return f"{self.identity}--tips"
        return f"{self.identity}--colours" if declared.suggest == "colours" or declared.kind == "colour" else None

    def beside(self, declared: Input, value: str) -> Raw | None:
        """What stands at the end of a field: the colour that is named in it, or a way to choose one, or a day, by eye."""
        if declared.kind == "colour":
            look: dict[str, Attribute] = {"type": "color", "class": "pb-look", "tabindex": "-1", "aria-label": f"{declared.label}: choose by eye"}
            return element("input", {**look, "value": self.look(value) or "#f4e9cf"})
        if declared.kind == "moment":
            found = MOMENT.match(value.strip())
            label = f"{declared.label}: choose from a calendar"
            when: dict[str, Attribute] = {"type": "datetime-local", "class": "pb-when", "tabindex": "-1", "aria-label": label}
            return element("input", {**when, "value": f"{found[1]}T{found[2]}" if found else None})
        return _swatch(self.look(value)) if declared.suggest == "colours" else None

    def lists(self) -> list[Raw]:
        """The lists that fields of this form offer: the tips there are, and the palette."""
        wanted = {self.list_of(declared) for declared in _all_inputs(self.calculator)}
        made = []
        if f"{self.identity}--tips" in wanted:
            tips = dict.fromkeys(use.tip.name for use in TIPS)
            made.append(element("datalist", {"id": f"{self.identity}--tips"}, *(element("option", {"value": name}) for name in tips)))
        if f"{self.identity}--colours" in wanted:
            shades = [element("option", {"value": name, "data-look": look}) for name, look in PALETTE.items()]
            made.append(element("datalist", {"id": f"{self.identity}--colours"}, *shades))
        return made

    def gist(self, group: Group, path: str) -> str:
        """One line that tells what one of a group holds: "Swag · hung on the side · petal 11 mm · russet"."""
        shown: list[str] = []
        for piece in group.pieces:
            texts = {name: self.told(group, path, name, bool(shown)) for name in IN_BRACES.findall(piece)}
            if all(texts.values()):
                shown.append(piece.format_map(texts))
        return " · ".join(shown)

    def told(self, group: Group, path: str, name: str, later: bool) -> str:
        """What the gist says for one name in braces: what was typed, the word for what was chosen, or how many there are."""
        inner = next((each for each in group.groups if each.name == name), None)
        if inner:
            count = len(indices(self.values, f"{path}{name}."))
            return f"{count or 'no'} {inner.label.lower()}{'' if count == 1 else 's'}"
        declared = next(each for each in group.inputs if each.name == name)
        value = " ".join(self.values.get(path + name, declared.default).split())
        if declared.kind == "choice":
            value = dict(declared.choices).get(value, value).split(" (")[0]
            value = value[:1].lower() + value[1:] if later else value
        return value if len(value) <= LONGEST_PIECE else value[:LONGEST_PIECE] + "…"

    def field(self, declared: Input, path: str) -> Raw:
        """One field: label, control, help and the place for a problem."""
        name = path + declared.name
        value = self.values.get(name, declared.default)
        identity = f"{self.identity}-{name}"
        described = f"{identity}-help {identity}-problem" if declared.help else f"{identity}-problem"
        names: dict[str, Attribute] = {"id": identity, "name": name, "aria-describedby": described}
        if declared.kind == "colour":
            names["data-kind"] = "colour"
        optional = element("span", {"class": "pb-optional"}, " (optional)") if declared.optional and declared.kind != "yes_no" else None
        only = declared.only_with
        return element(
            "div",
            {
                "class": "pb-field",
                "data-input": name,
                "data-local": declared.name,
                "data-field": declared.kind,
                "data-only": f"{only[0]}={' '.join(only[1])}" if only else None,
                "data-afresh": declared.default if declared.afresh else None,
                "hidden": only is not None and self.values.get(path + only[0], "") not in only[1],
            },
            element("label", {"for": identity}, declared.label, optional),
            self.control(declared, value, names),
            element("p", {"class": "pb-help", "id": f"{identity}-help"}, declared.help) if declared.help else None,
            element("p", {"class": "pb-problem", "id": f"{identity}-problem"}),
        )

    def level(self, inputs: Sequence[Input], groups: Sequence[Group], path: str) -> list[Raw]:
        """The fields and groups of one level: what is asked first, then what is under More, then what repeats."""

        def fields(wanted: bool) -> list[Raw]:
            return [self.field(declared, path) for declared in inputs if bool(declared.advanced) is wanted]

        parts = []
        plain, more = fields(False), fields(True)
        if plain:
            parts.append(element("div", {"class": "pb-fields"}, *plain))
        if more:
            body = element("div", {"class": "pb-fields"}, *more)
            parts.append(element("details", {"class": "pb-more"}, element("summary", {}, "More"), body))
        parts.extend(self.group(group, path) for group in groups)
        return parts

    def group(self, group: Group, path: str) -> Raw:
        """All of one kind, each under its line, the template of one more, and the button that adds it."""
        prefix = f"{path}{group.name}."
        name = f"{self.identity}-{path}{group.name}"
        copies = indices(self.values, prefix) or list(range(group.minimum))
        items = [self.item(group, f"{prefix}{index}.", number, not group.folded) for number, index in enumerate(copies)]
        blank = Form(self.calculator, {}, self.identity)
        template = element("template", {}, blank.item(group, f"{prefix}0.", 0, True))
        word = group.label[:1].lower() + group.label[1:]
        add = element("button", {"type": "button", "class": "pb-add"}, f"Add {a_or_an(word)}")
        limits = {"data-minimum": str(group.minimum), "data-maximum": str(group.maximum), "data-label": group.label}
        follows = " ".join(group.follows) or None
        told: dict[str, Attribute] = {"data-gist": json.dumps(group.pieces, ensure_ascii=False), "data-folded": group.folded, "data-follows": follows}
        told["data-afresh"] = group.afresh
        title = element("p", {"class": "pb-items-title", "id": f"{name}-title"}, group.title) if group.title else None
        named = {"role": "group", "aria-labelledby": f"{name}-title"} if group.title else {}
        help_line = element("p", {"class": "pb-help"}, group.help) if group.help else None
        problem = element("p", {"class": "pb-problem", "id": f"{name}-problem"})
        return element(
            "div",
            {"class": "pb-items", "data-group": group.name, "data-input": f"{path}{group.name}", **limits, **told, **named},
            title,
            help_line,
            element("div", {"class": "pb-copies"}, *items),
            problem,
            template,
            add,
        )

    def item(self, group: Group, path: str, number: int, opened: bool) -> Raw:
        """One of a group: the line that tells what it holds, and under it the fields and what can be done with it."""
        title = f"{group.label} {number + 1}"
        tools = [
            element("button", {"type": "button", "class": "pb-move", "data-direction": "up", "aria-label": f"Move {title} up"}, "Up"),
            element("button", {"type": "button", "class": "pb-move", "data-direction": "down", "aria-label": f"Move {title} down"}, "Down"),
            element("button", {"type": "button", "class": "pb-again", "aria-label": f"{title} once more"}, "Once more"),
            element("button", {"type": "button", "class": "pb-remove", "aria-label": f"Remove {title}"}, "Remove"),
        ]
        shade = next((declared for declared in group.inputs if declared.suggest == "colours" or declared.kind == "colour"), None)
        line = element(
            "summary",
            {"class": "pb-head-line"},
            element("span", {"class": "pb-count"}, element("span", {"class": "pb-kind"}, f"{group.label} "), str(number + 1)),
            " ",
            element("span", {"class": "pb-gist"}, self.gist(group, path)),
            " ",
            element("span", {"class": "pb-wrong"}),
            _swatch(self.look(self.values.get(path + shade.name, shade.default))) if shade else None,
        )
        inner = self.level(group.inputs, group.groups, path)
        return element(
            "details",
            {"class": "pb-group", "open": opened, "data-shade": shade.name if shade else None},
            line,
            *inner,
            element("div", {"class": "pb-group-tools"}, *tools),
        )


def _all_inputs(level: Calculator | Group) -> list[Input]:
    """Every declared input of a calculator or a group, those of its groups too."""
    return [*level.inputs, *(declared for group in level.groups for declared in _all_inputs(group))]


def indices(values: Mapping[str, str], prefix: str) -> list[int]:
    """Which copies of a group the values speak of: `tiers.0.width`, `tiers.1.width` -> 0, 1."""
    heads = {name[len(prefix) :].split(".", 1)[0] for name in values if name.startswith(prefix)}
    return sorted(int(head) for head in heads if head.isdecimal())


# ---- the whole --------------------------------------------------------------------------------------------------------------


def form_inputs(calculator: Calculator) -> list[Input]:
    """The inputs that stand in the form: a record is kept as text but filled in as fields."""
    return [declared for declared in calculator.inputs if not (calculator.unfold and declared.kind == "long_text")]


def calculator_html(
    calculator: Calculator, values: Mapping[str, str], answer: Mapping[str, Any], *, form: str, title: str, level: int, build: str
) -> Raw:
    """One calculator, whole: title, form, answer and tools."""
    key, form = form, f"pb-{form}"  # a heading may have the plain name
    writing = Form(calculator, {**values, **(answer.get("fields") or {})}, form)
    fields = writing.level(form_inputs(calculator), calculator.groups, "")
    submit = element("button", {"type": "submit", "class": "pb-primary pb-submit"}, "Work it out")
    whole = element(
        "form",
        {"class": "pb-form", "id": f"{form}--form", "novalidate": True, "autocomplete": "off", "data-flows": writing.flows},
        *fields,
        submit,
        *writing.lists(),
    )
    has_record = answer.get("record") is not None
    without = "This is the page’s example, worked out. To change it, turn on JavaScript."
    told = element("div", {"class": "pb-answer", "id": f"{form}--answer"}, answer_html(answer, level + 1, form))
    parts = [section for section in answer.get("sections") or [] if section.get("short")]
    if parts:
        told = element("div", {"class": "pb-result"}, _jump(form, parts), told)
    tools = _tools(form, calculator, has_record, values.get("units", "metric"))
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
        tools if has_record else None,
        element("div", {"class": "pb-summary", "id": f"{form}--summary", "tabindex": "-1", "hidden": True}),
        whole,
        told,
        None if has_record else tools,
        _pair(form) if parts else None,
    )


def _jump(form: str, parts: Sequence[Mapping[str, str]]) -> Raw:
    """The parts of a long answer, to go to; and while something is to be put right, the way there."""
    links = [element("li", {}, element("a", {"href": f"#{part_id(form, part['name'])}", "data-part": part["name"]}, part["short"])) for part in parts]
    wrong = element("a", {"class": "pb-jump-wrong", "href": f"#{form}--summary", "hidden": True})
    return element("nav", {"class": "pb-jump", "aria-label": "Parts of the answer"}, wrong, element("ul", {}, *links))


def _pair(form: str) -> Raw:
    """On a narrow page, the two halves of it."""
    halves = [element("a", {"href": f"#{form}--{half}", "data-half": half}, text) for half, text in (("form", "Order"), ("answer", "Answer"))]
    return element("nav", {"class": "pb-pair", "aria-label": "Order and answer"}, *halves)


def _tools(form: str, calculator: Calculator, has_record: bool, unit_system: str) -> Raw:
    """Units, paper, the status line, and what can be done with what was typed."""

    def button(kind: str, text: str) -> Raw:
        return element("button", {"type": "button", "class": kind}, text)

    def unit(key: str, label: str) -> Raw:
        choice: dict[str, Attribute] = {"type": "radio", "name": f"{form}--units", "value": key, "checked": key == unit_system}
        return element("label", {}, element("input", choice), label)

    units = element("fieldset", {"class": "pb-units"}, element("legend", {}, "Answers in"), unit("metric", "Metric"), unit("us", "US"))
    paper = None
    if calculator.draw_sheet is not None:
        sizes = [element("option", {"value": size}, size) for size in ("A4", "Letter")]
        paper = element("label", {}, "Paper", element("select", {"class": "pb-paper"}, *sizes))
    undo = element("button", {"type": "button", "class": "pb-undo", "hidden": True}, "Undo")
    said = [element("p", {"class": "pb-status", "role": "status"}), undo]
    if not has_record:
        others = [button("pb-copy", "Copy link"), button("pb-reset", "Back to the page’s example")]
        return element("div", {"class": "pb-tools"}, units, paper, *others, *said)
    name = {"type": "text", "class": "pb-name", "autocomplete": "off", "enterkeyhint": "done"}
    file: dict[str, Attribute] = {"type": "file", "class": "pb-file", "accept": ".toml,text/plain", "hidden": True, "aria-label": "Open a file"}
    keeping = element(
        "div",
        {"class": "pb-keeping"},
        element("label", {}, "Keep as", element("input", name)),
        button("pb-save pb-keep", "Keep on this device"),
        button("pb-save pb-export", "Save as a file"),
        button("pb-copy", "Copy link"),
        button("pb-print", "Print all of it"),
    )
    opening = element(
        "div",
        {"class": "pb-keeping"},
        element("label", {}, "Kept here", element("select", {"class": "pb-kept"}, element("option", {"value": ""}, "Nothing yet"))),
        button("pb-remove pb-forget", "Forget it"),
        button("pb-open pb-import", "Open a file"),
        element("input", file),
        button("pb-another", "Begin another order"),
        button("pb-reset", "Back to the page’s example"),
    )
    kept = element("details", {"class": "pb-more pb-kept-orders"}, element("summary", {}, "Keep, open, send, print"), keeping, opening)
    return element("div", {"class": "pb-tools"}, units, paper, kept, *said)
