"""Calculators as HTML: the form and the answer that stand in a page before any script runs.

The form is written here only; scripts fill it and copy its templates. What an answer looks like is written in `calc.page`, for the build
and for the worker alike.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from calc.calculators.declare import Answer, Calculator, Group, Input, in_us_units, places_of
from calc.colours import PALETTE, hex_of
from calc.drawing.figures import row_scene
from calc.drawing.motifs import LOOKS
from calc.drawing.svg import svg
from calc.drawing.tip_openings import opening_parts
from calc.page.answer import answer_html, main_drawing, section_links, swatch
from calc.page.html import Markup, element, join
from calc.page.lines import group_line
from calc.rows import KINDS
from calc.rows.placement import PlacedRow
from calc.schemes import SCHEMES
from calc.tips import TIPS, Tip
from calc.units import Formatter, a_or_an

DECIMAL = {"number", "percent", "money"}
SAYS_UNIT = re.compile(r"\d\s*[a-wyz]+\s*(?:round)?$")
MOMENT = re.compile(r"^(\d{4}-\d\d-\d\d)[ T](\d\d:\d\d)$")

NOT_RUNNING = (
    "This is the page’s example, worked out. Its fields are shut, because the script that works out your own numbers does not run here. "
    "Turn on JavaScript for this site, or let its scripts through what blocks them, and load the page again."
)

NOT_COME = (
    "The script that works out your own numbers has not come in the 20 seconds that this page has been here. What you type stands only as long "
    "as the page is open. Wait a little longer, or load the page again."
)

EVERYTHING = "All orders and calculators in one file that a person can read. Opened here or elsewhere, what is in it is added to what is there."

EXAMPLE = "the page’s example"

Attribute = str | bool | None
Attributes = Mapping[str, Attribute]


# ---- the form -----------------------------------------------------------------------------------------------------------


class Form:
    """A form being written: its id, and what was typed into it, by full name."""

    def __init__(self, calculator: Calculator, values: Mapping[str, str], identity: str) -> None:
        self.calculator = calculator
        self.values = values
        self.places = places_of(values)
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

    def control(self, declared: Input, value: str, names: Attributes) -> Markup:
        """The input, select or textarea of one declared input, with what helps to fill it."""
        if declared.kind == "choice":
            known = [choice for choice, _ in declared.choices]
            choices = list(declared.choices)
            if declared.optional:
                choices.insert(0, ("", "—"))
            if value not in known and value:
                choices.append((value, value))
            us = {key: Formatter("us").words(label) for key, label in choices}
            options = [
                element("option", {"value": key, "selected": key == value, "data-us": us[key] if us[key] != label else None}, label)
                for key, label in choices
            ]
            return element("select", names, *options)
        if declared.kind == "yes_no":
            return element("input", {**names, "type": "checkbox", "value": "yes", "checked": value == "yes"})
        if declared.kind == "long_text":
            return element("textarea", {**names, "rows": "5"}, "\n" + value if value.startswith("\n") else value)
        mode = "numeric" if declared.kind == "count" else "decimal" if declared.kind in DECIMAL else None
        typing = {"type": "text", "inputmode": mode, "autocapitalize": "off", "spellcheck": "false"}
        offered = self.list_of(declared)
        key = "next" if self.flows else None
        empty = " " if declared.optional else None  # so that a style sheet can tell an empty field
        control = element("input", {**names, **typing, "enterkeyhint": key, "list": offered, "placeholder": empty, "value": value})
        beside = self.beside(declared, value) or self.unit(declared, str(names["id"]), value)
        return element("div", {"class": "pb-entry"}, control, beside) if beside else control

    def unit(self, declared: Input, identity: str, value: str) -> Markup | None:
        """The unit in which a number without one is read, in both systems; whether the value says its own decides what is printed (units.js)."""
        if not declared.bare_unit("metric"):
            return None
        said = bool(SAYS_UNIT.search(value))
        shown = _in_both(declared.shown_unit("metric"), declared.shown_unit("us"))
        return element("span", {"class": "pb-unit", "id": f"{identity}-unit", "data-said": said}, shown)

    def list_of(self, declared: Input) -> str | None:
        """The id of the list of what may be typed, if there is one."""
        if declared.kind == "tip":
            return f"{self.identity}--tips"
        return f"{self.identity}--colours" if declared.suggest == "colours" or declared.kind == "colour" else None

    def beside(self, declared: Input, value: str) -> Markup | None:
        """What stands at the end of a field: the colour that is named in it, or a way to choose one, or a day, by eye."""
        if declared.kind == "colour":
            look: dict[str, Attribute] = {"type": "color", "class": "pb-look", "tabindex": "-1", "aria-label": f"{declared.label}: choose by eye"}
            return element("input", {**look, "value": self.look(value) or "#f4e9cf"})
        if declared.kind == "moment":
            found = MOMENT.match(value.strip())
            label = f"{declared.label}: choose from a calendar"
            when: dict[str, Attribute] = {"type": "datetime-local", "class": "pb-when", "tabindex": "-1", "aria-label": label}
            return element("input", {**when, "value": f"{found[1]}T{found[2]}" if found else None})
        return swatch(self.look(value)) if declared.suggest == "colours" else None

    def picked(self, declared: Input, control: Markup) -> Markup:
        """The control with a button that opens pictures to choose from, where a long form has some: kinds of rows, tips, colours."""
        if not (self.flows and (declared.brings or declared.kind == "tip" or declared.suggest == "colours")):
            return control
        told: Attributes = {"type": "button", "class": "pb-pick", "aria-expanded": "false", "aria-label": f"{declared.label}: choose by eye"}
        return element("div", {"class": "pb-picked"}, control, element("button", told))

    def lists(self) -> list[Markup]:
        """The lists that fields of this form offer: the tips there are, and the palette."""
        wanted = {self.list_of(declared) for declared in _all_inputs(self.calculator)}
        made = []
        if f"{self.identity}--tips" in wanted:
            tips = {use.tip.name: use.tip for use in TIPS}
            offered = [element("option", {"value": name, "data-opening": _outline(tip) if self.flows else None}) for name, tip in tips.items()]
            made.append(element("datalist", {"id": f"{self.identity}--tips"}, *offered))
        if f"{self.identity}--colours" in wanted:
            shades = [element("option", {"value": name, "data-look": look}) for name, look in PALETTE.items()]
            made.append(element("datalist", {"id": f"{self.identity}--colours"}, *shades))
        for group, declared in _grouped_inputs(self.calculator):
            if declared.brings:
                told: Attributes = {"class": "pb-brings", "data-group": group.name, "data-for": declared.name, "data-brings": _brought_json(declared)}
                made.append(element("template", told, *_pictures(declared)))
        return made

    def is_asked(self, declared: Input, path: str, beside: Sequence[Input]) -> bool:
        """Whether a field is asked: always, or only with some choices of the one beside it that decides."""
        if declared.only_with is None:
            return True
        name, choices = declared.only_with
        default = next((each.default for each in beside if each.name == name), "")
        return self.values.get(path + name, default) in choices

    def field(self, declared: Input, path: str, beside: Sequence[Input] = ()) -> Markup:
        """One field: label, control, help and the place for a problem; `beside` are the inputs of its level."""
        name = path + declared.name
        value = self.values.get(name, declared.default)
        identity = f"{self.identity}-{name}"
        has_unit = bool(declared.bare_unit("metric"))
        parts = [part for part, is_there in (("unit", has_unit), ("help", declared.help), ("problem", True)) if is_there]
        described = " ".join(f"{identity}-{part}" for part in parts)
        us = declared.default_in("us") if value == declared.default else in_us_units(declared, value)
        names: dict[str, Attribute] = {"id": identity, "data-name": name, "autocomplete": "off", "aria-describedby": described}
        if declared.kind == "colour":
            names["data-kind"] = "colour"
        if us != value:
            names["data-us"] = us
        optional = element("span", {"class": "pb-optional"}, " (optional)") if declared.optional and declared.kind != "yes_no" else None
        only = declared.only_with
        return element(
            "div",
            {
                "class": "pb-field",
                "data-input": name,
                "data-local": declared.name,
                "data-field": declared.kind,
                "data-unit-metric": declared.shown_unit("metric") if has_unit and declared.kind not in ("tip", "tips") else None,
                "data-unit-us": declared.shown_unit("us") if has_unit and declared.kind not in ("tip", "tips") else None,
                "data-counts": declared.counts,
                "data-only": f"{only[0]}={' '.join(only[1])}" if only else None,
                "data-per-order": declared.default if declared.per_order else None,
                "data-kitchen": declared.kitchen or None,
                "data-offers": declared.offers or ("tips" if declared.kind == "tip" else None),
                "hidden": not self.is_asked(declared, path, beside),
            },
            element("label", {"for": identity}, declared.label, optional),
            self.picked(declared, self.control(declared, value, names)),
            element("p", {"class": "pb-help", "id": f"{identity}-help"}, _in_both(declared.help, declared.help_in("us"))) if declared.help else None,
            element("p", {"class": "pb-problem", "id": f"{identity}-problem"}),
        )

    def level(self, inputs: Sequence[Input], groups: Sequence[Group], path: str) -> list[Markup]:
        """The fields and groups of one level: what is asked first, then what is under More, then what repeats."""

        parts = []
        more = [self.field(declared, path, inputs) for declared in inputs if declared.advanced]
        for heading, plain in self.headed(inputs):
            if heading:
                parts.append(element("p", {"class": "pb-heading"}, heading))
            parts.append(element("div", {"class": "pb-fields"}, *(self.field(declared, path, inputs) for declared in plain)))
            parts.extend(self.group(group, path) for group in groups if heading and group.under == heading)
        if more:
            body = element("div", {"class": "pb-fields"}, *more)
            parts.append(element("details", {"class": "pb-more"}, element("summary", {}, "More"), body))
        parts.extend(self.group(group, path) for group in groups if not group.under)
        return parts

    def headed(self, inputs: Sequence[Input]) -> list[tuple[str, list[Input]]]:
        """The inputs that are asked first, under their headings; most forms have none."""
        found: list[tuple[str, list[Input]]] = []
        for declared in inputs:
            if declared.advanced:
                continue
            if declared.heading or not found:
                found.append((declared.heading, []))
            found[-1][1].append(declared)
        return found

    def group(self, group: Group, path: str) -> Markup:
        """All of one kind, each under its line, the template of one more, and the button that adds it."""
        prefix = f"{path}{group.name}."
        name = f"{self.identity}-{path}{group.name}"
        copies = self.places.get(prefix) or list(range(group.minimum))
        items = [self.item(group, f"{prefix}{index}.", number, not group.folded) for number, index in enumerate(copies)]
        blank = Form(self.calculator, {}, self.identity)
        template = element("template", {}, blank.item(group, f"{prefix}0.", 0, True))
        word = group.label[:1].lower() + group.label[1:]
        add = element("button", {"type": "button", "class": "pb-add"}, f"Add {a_or_an(word)}")
        limits = {"data-minimum": str(group.minimum), "data-maximum": str(group.maximum), "data-label": group.label}
        follows = " ".join(group.follows) or None
        told: dict[str, Attribute] = {"data-folded": group.folded, "data-follows": follows}
        told["data-per-order"] = group.per_order
        told["data-kitchen"] = group.kitchen or None
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

    def item(self, group: Group, path: str, number: int, opened: bool) -> Markup:
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
            element("span", {"class": "pb-item-line"}, group_line(group, path, self.values, self.places)),
            " ",
            element("span", {"class": "pb-wrong"}),
            swatch(self.look(self.values.get(path + shade.name, shade.default))) if shade else None,
        )
        inner = self.level(group.inputs, group.groups, path)
        return element(
            "details",
            {"class": "pb-group", "open": opened, "data-shade": shade.name if shade else None},
            line,
            *inner,
            element("div", {"class": "pb-group-tools"}, *tools),
        )


def _grouped_inputs(level: Calculator | Group) -> list[tuple[Group, Input]]:
    """Every input of the groups of a calculator or a group, with its group."""
    return [pair for group in level.groups for pair in (*((group, declared) for declared in group.inputs), *_grouped_inputs(group))]


def _brought_json(declared: Input) -> str:
    """What the choices of an input bring to the fields beside it, for `docs/assets/js/choices.js`."""
    told: dict[str, list[dict[str, object]]] = {}
    for one in declared.brings:
        said = {"name": one.name, "text": one.text, "suits": one.suits, "within": one.within, "alike": one.alike, "after": one.after}
        told.setdefault(one.choice, []).append({key: value for key, value in said.items() if value not in ((), None) and (value or key != "after")})
    return json.dumps(told, ensure_ascii=False, separators=(",", ":"))


def _outline(tip: Tip) -> str:
    """The opening of a tip as the path of an SVG, to scale: a millimetre is 1."""
    return " ".join(f"{part[0]}{' '.join(f'{value:.1f}'.removesuffix('.0') for value in part[1:])}" for part in opening_parts(tip))


def _pictures(declared: Input) -> list[Markup]:
    """Pictures of the kinds of row that are not among the list of techniques, from which the page takes the others."""
    drawn = []
    for name, title in declared.choices:
        kind = KINDS[name]
        if kind.page:
            continue
        shown = LOOKS[name].shown
        row = shown if shown.kind == name else PlacedRow(name, Tip(*kind.begins_with), line_mm=29, colour="", place="side")
        scene = row_scene((replace(row, colour=PALETTE[kind.colour]),), 93.0, 58.0, side_mm=8 * 62.0, begin_mm=62.0 * 1.25)
        drawn.append(element("span", {"data-choice": name}, Markup(svg(replace(scene, title=title, description=title)))))
    return drawn


def _in_both(metric: str, us: str) -> Markup:
    """Words for readers of each system; a style sheet shows those of the system chosen."""
    if metric == us:
        return join((metric,))
    return join((element("span", {"data-in": "metric"}, metric), element("span", {"data-in": "us"}, us)))


def _all_inputs(level: Calculator | Group) -> list[Input]:
    """Every declared input of a calculator or a group, those of its groups too."""
    return [*level.inputs, *(declared for group in level.groups for declared in _all_inputs(group))]


# ---- the whole --------------------------------------------------------------------------------------------------------------


def form_inputs(calculator: Calculator) -> list[Input]:
    """The inputs that stand in the form: a record is kept as text but filled in as fields."""
    return [declared for declared in calculator.inputs if not (calculator.unfold and declared.kind == "long_text")]


def calculator_html(
    calculator: Calculator,
    values: Mapping[str, str],
    answer: Answer,
    *,
    form: str,
    title: str,
    level: int,
    build: str,
    only: Sequence[str] = (),
    alone: bool = False,
) -> Markup:
    """One calculator, whole: title, form, answer and tools. With `only`, its form asks for nothing else."""
    key, form = form, f"pb-{form}"  # a heading may have the plain name
    plain = " ".join(kind.name for kind in KINDS.values() if kind.plain_line)  # a strip of these tells what any row with its tip weighs
    has_record = answer.record is not None and not calculator.is_kitchen
    writing = Form(calculator, {**values, **(answer.fields or {})}, form)
    asked = [declared for declared in form_inputs(calculator) if not only or declared.name in only]
    fields = writing.level(asked, () if only else calculator.groups, "")
    submit = element("button", {"type": "button", "class": "pb-primary pb-submit"}, "Work it out")
    steps = [element("button", {"type": "button", "class": f"pb-{name.lower()}", "aria-disabled": "true"}, name) for name in ("Undo", "Redo")]
    whole = element(
        "fieldset",
        {
            "class": "pb-form",
            "data-search-exclude": True,
            "id": f"{form}--form",
            "disabled": True,
            "aria-labelledby": f"{form}--title",
            "data-flows": writing.flows,
        },
        _begin()
        if has_record
        else _use_cake()
        if not (only or calculator.is_kitchen) and any(declared.cake for declared in calculator.inputs)
        else None,
        *fields,
        element("div", {"class": "pb-form-end"}, submit, *steps),
        *(() if only else writing.lists()),
    )
    told = element(
        "div",
        {"class": "pb-answer", "data-search-exclude": True, "data-in-parts": bool(answer.sections), "id": f"{form}--answer"},
        answer_html(answer, level + 1, form),
    )
    links = section_links(answer, form)
    drawn = main_drawing(answer)
    stage = element("div", {"class": "pb-stage", "data-search-exclude": True}, element("div", {"class": "pb-stage-view"}, drawn)) if drawn else None
    if links:
        told = element("div", {"class": "pb-result"}, _jump(form, links), told)
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
            "data-pipes": calculator.pipes or None,
            "data-plain": plain if any(declared.kitchen.startswith("measured.") for declared in calculator.inputs) else None,
            "data-is-kitchen": calculator.is_kitchen,
            "data-by-itself": alone,
            "data-stage": bool(drawn),
            "aria-labelledby": f"{form}--title",
        },
        element(f"h{level}", {"class": "pb-title", "id": f"{form}--title"}, title),
        element("p", {"class": "pb-shut"}, NOT_RUNNING),
        # what lies over the calculator, so that nothing moves: here these words, while no script comes and none fails, and those of waiting.js
        element("div", {"class": "pb-notice"}, element("p", {"class": "pb-late"}, NOT_COME)),
        tools if has_record else None,
        element("div", {"class": "pb-summary", "id": f"{form}--summary", "tabindex": "-1", "hidden": True}),
        stage,
        whole,
        told,
        None if has_record else tools,
        _pair(form) if links else None,
    )


PARTS = {"record": " data-record", "stage": 'class="pb-stage"', "jump": 'class="pb-jump"', "pair": 'class="pb-pair"'}


def marked(page: str) -> str:
    """Say on the root of a page which large parts it has, as docs/assets/js/page_parts.js does after a change of page."""
    found = " ".join(name for name, sign in PARTS.items() if sign in page)
    return page.replace("<html ", f'<html data-has="{found}" ', 1) if found else page


OWN_LINK = "It is for you: it carries the whole order with its costs. The customer’s link, under For the customer, carries none of them."


def _begin() -> Markup:
    """At the head of an order: what opens the looks to begin with, and the place for what one of them changed."""
    known = json.dumps([[scheme.key, scheme.name, scheme.words] for scheme in SCHEMES.values()], ensure_ascii=False, separators=(",", ":"))
    button = element("button", {"type": "button", "class": "pb-begin-look", "aria-haspopup": "dialog", "data-looks": known}, "Begin with a look")
    told = element("div", {"class": "pb-begin-told", "hidden": True})
    return element("div", {"class": "pb-begin"}, button, element("p", {}, "Rows for all tiers at once, in your colours"), told)


def _use_cake() -> Markup:
    """At the head of a technique's form: what fills it from a tier of a kept order."""
    button = element("button", {"type": "button", "class": "pb-use-cake", "aria-expanded": "false"}, "Use my cake")
    return element("div", {"class": "pb-of-cake"}, button)


def _jump(form: str, links: Markup) -> Markup:
    """Links to the sections of a long answer, and a link to the problems while there are any."""
    wrong = element("a", {"class": "pb-jump-wrong", "href": f"#{form}--summary", "hidden": True})
    return element("nav", {"class": "pb-jump", "aria-label": "Parts of the answer"}, wrong, links)


def _pair(form: str) -> Markup:
    """On a narrow page, the two halves of it."""
    halves = [element("a", {"href": f"#{form}--{half}", "data-half": half}, text) for half, text in (("form", "Order"), ("answer", "Answer"))]
    return element("nav", {"class": "pb-pair", "aria-label": "Order and answer"}, *halves)


def _links(calculator: Calculator) -> list[Markup]:
    """The button that copies what was typed as a link, and the one that copies a link for others."""
    copy: dict[str, Attribute] = {"type": "button", "class": "pb-copy"}
    other = calculator.passed_on
    if other is None:
        return [element("button", copy, "Copy link")]
    told = {"data-place": other.place, "data-for": other.calculator, "data-names": " ".join(other.names), "data-holds": other.holds}
    return [element("button", copy, other.own), element("button", {**copy, **told}, other.label)]


def _tools(form: str, calculator: Calculator, has_record: bool, unit_system: str) -> Markup:
    """Units, paper, the status line, and what can be done with what was typed."""

    def button(kind: str, text: str) -> Markup:
        return element("button", {"type": "button", "class": kind}, text)

    def unit(key: str, label: str) -> Markup:
        choice: dict[str, Attribute] = {"type": "radio", "name": f"{form}--units", "value": key, "checked": key == unit_system}
        return element("label", {}, element("input", choice), label)

    units = element("fieldset", {"class": "pb-units"}, element("legend", {}, "Units"), unit("metric", "Metric"), unit("us", "US"))
    paper = None
    if calculator.draw_sheet is not None:
        sizes = [element("option", {"value": size}, size) for size in ("A4", "Letter")]
        paper = element("label", {}, "Paper", element("select", {"class": "pb-paper"}, *sizes))
    status = element("p", {"class": "pb-status", "role": "status"})
    kept = element(
        "label",
        {"hidden": not has_record},
        "Kept here",
        element("select", {"class": "pb-kept"}, element("option", {"value": ""}, EXAMPLE.capitalize())),
    )
    saving = button("pb-save pb-export", "Save as a file")
    accepted = ".json,application/json,.toml,text/plain" if has_record or calculator.is_kitchen else ".json,application/json"
    file: dict[str, Attribute] = {"type": "file", "class": "pb-file", "accept": accepted, "hidden": True, "aria-label": "Open a file"}
    opening = (button("pb-open pb-import", "Open a file"), element("input", file))
    if calculator.is_kitchen:
        return element("div", {"class": "pb-tools"}, units, saving, *opening, button("pb-reset", "Empty the kitchen"), status)
    if not has_record:
        links, reset = _links(calculator), button("pb-reset", f"Back to {EXAMPLE}")
        return element("div", {"class": "pb-tools"}, units, paper, *links, reset, saving, *opening, kept, status)
    parts = {
        "Your orders": [
            kept,
            element("a", {"class": "pb-button pb-to-shelf", "href": "../shelf/"}, "Shelf of orders"),
            button("pb-another", "Begin another order"),
            button("pb-save pb-keep", "Keep a copy"),
            button("pb-reset", f"Back to {EXAMPLE}"),
        ],
        "Two versions": [
            element("label", {}, "Compare with", element("select", {"class": "pb-compare"}, element("option", {"value": ""}, "Choose one"))),
            button("pb-save pb-branch", "Keep as it is and try another way"),
        ],
        "Out and in": [
            saving,
            *opening,
            element("button", {"type": "button", "class": "pb-copy", "data-holds": OWN_LINK}, "Copy link"),
            button("pb-print", "Print all of it"),
        ],
        "Everything you made": [
            button("pb-save pb-everything", "Save all as one file"),
            element("p", {"class": "pb-keeping-help"}, EVERYTHING),
        ],
        "Off this device": [button("pb-remove pb-forget", "Remove this order")],
    }
    keeping = [
        element("div", {"class": "pb-keeping", "role": "group", "aria-label": title}, element("p", {"class": "pb-keeping-title"}, title), *inside)
        for title, inside in parts.items()
    ]
    fold = element("details", {"class": "pb-more pb-kept-orders"}, element("summary", {}, "Your orders: keep, open, send, print"), *keeping)
    back = element("button", {"type": "button", "class": "pb-back", "hidden": True}, "Bring it back")
    return element("div", {"class": "pb-tools"}, units, paper, button("pb-at-bench", "At the bench"), fold, status, back)
