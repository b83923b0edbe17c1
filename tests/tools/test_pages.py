"""The form and the answer as HTML: every word escaped, every control named, groups copied as often as the values say."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser
from types import SimpleNamespace
from typing import Any

import pytest

from calc.calculators import CALCULATORS, compute
from calc.calculators.declare import Group, Input
from tools.site import pages

PLANTED = "<script>alert(1)</script>\" onfocus=alert(2) x='"


def test_markup_in_an_answer_is_only_text() -> None:
    answer: dict[str, Any] = {
        "figures": {PLANTED: {"value": 1, "unit": "", "text": PLANTED, "label": PLANTED}},
        "problems": [],
        "notes": [{"text": PLANTED}],
        "cautions": [{"text": PLANTED}],
        "tables": [{"name": PLANTED, "title": PLANTED, "columns": [{"label": PLANTED, "align": "left"}], "rows": [[PLANTED]]}],
        "drawings": [],
        "sheets": [{"name": PLANTED, "title": PLANTED}],
        "sections": [{"name": PLANTED, "title": PLANTED}],
    }
    markup = pages.answer_html(answer, 4, "pb-x")
    started: list[tuple[str, list[str]]] = []
    parser = HTMLParser()
    parser.handle_starttag = lambda tag, given: started.append((tag, [name for name, _ in given]))  # type: ignore[method-assign]
    parser.feed(markup)
    assert len(started) > 10
    assert [tag for tag, _ in started if tag == "script"] == []
    assert [name for _, names in started for name in names if name.startswith("on") or name == "x"] == []


def test_a_figure_with_a_range_keeps_its_text() -> None:
    figure = {"value": 19.0, "unit": "g", "text": "19 g (16 g to 24 g)", "label": "Buttercream", "low": 16.0, "high": 24.0}
    answer = {"figures": {"mass": figure}, "problems": [], "notes": [], "cautions": [], "tables": [], "drawings": [], "sheets": []}
    markup = pages.answer_html(answer, 4, "pb-x")
    assert re.sub(r"<[^>]+>", "", markup) == "Buttercream" + figure["text"]
    assert '<span class="pb-range">(16 g to 24 g)</span>' in markup


def test_items_stand_in_their_sections_and_none_is_lost() -> None:
    note = [{"text": "in a", "section": "a"}, {"text": "nowhere"}, {"text": "lost", "section": "never declared"}]
    answer = {
        "figures": {},
        "problems": [],
        "notes": note,
        "cautions": [],
        "tables": [],
        "drawings": [],
        "sheets": [],
        "sections": [{"name": "a", "title": "A"}, {"name": "empty", "title": "Empty"}],
    }
    markup = pages.answer_html(answer, 4, "pb-x")
    before, inside = markup.split("<section")
    assert "nowhere" in before and "lost" in before and "in a" in inside
    assert "Empty" not in markup


@pytest.mark.parametrize("slug", CALCULATORS)
def test_every_control_has_a_label_and_points_at_its_help(slug: str) -> None:
    calculator = CALCULATORS[slug]
    answer = json.loads(compute(slug, {}).to_json())
    answer = {**answer, "figures": answer["figures"]}
    markup = str(pages.calculator_html(calculator, {PLANTED: PLANTED}, answer, form=slug, title=PLANTED, level=3, build="{}"))
    assert "<script" not in markup
    shown = live(markup)
    identities = re.findall(r'\bid="([^"]+)"', shown)
    assert len(identities) == len(set(identities))
    for target in re.findall(r'<label for="([^"]+)"', shown):
        assert target in identities
    for described in re.findall(r'aria-describedby="([^"]+)"', shown):
        assert set(described.split()) <= set(identities)
    named = re.findall(r'<(?:input|select|textarea)[^>]* name="([^"]+)"', shown)
    wanted = [declared.name for declared in pages.form_inputs(calculator)]
    assert [name for name in named if "." not in name and not name.endswith("-units")] == sorted(
        wanted, key=lambda name: next(bool(each.advanced) for each in calculator.inputs if each.name == name)
    )


def form(values: dict[str, str], groups: tuple[Group, ...] = ()) -> pages.Form:
    """A form of a calculator with these groups, with these values typed in."""
    return pages.Form(SimpleNamespace(inputs=(), groups=groups), values, "form")


def live(markup: str) -> str:
    """Markup without its templates, which may stand in one another."""
    while (shorter := re.sub(r"<template>((?!<template>).)*?</template>", "", markup, flags=re.DOTALL)) != markup:
        markup = shorter
    return markup


def test_groups_are_copied_as_often_as_the_values_say() -> None:
    inner = Group("rows", "Row", (Input("tip", "Tip", "text"),))
    group = Group("tiers", "Tier", (Input("width", "Width", "length", "20 cm"),), (inner,), minimum=1)
    values = {"tiers.0.width": "20 cm", "tiers.1.width": "15 cm", "tiers.1.rows.0.tip": "a", "tiers.1.rows.1.tip": "b"}
    markup = live(form(values, (group,)).group(group, ""))
    assert re.findall(r' name="([^"]+)"', markup) == ["tiers.0.width", "tiers.1.width", "tiers.1.rows.0.tip", "tiers.1.rows.1.tip"]
    assert "Move Tier 2 up" in markup and "Add a tier" in markup
    egg = Group("eggs", "Egg", (Input("mass", "Mass", "mass", "50 g"),))
    empty = form({}, (egg,)).group(egg, "")
    assert "Add an egg" in empty and 'name="' not in live(empty)


SHAPES = [("choice", "<select"), ("yes_no", 'type="checkbox"'), ("long_text", "<textarea"), ("count", 'inputmode="numeric"')]


@pytest.mark.parametrize(("kind", "shape"), SHAPES)
def test_each_kind_has_its_control(kind: str, shape: str) -> None:
    declared = Input("thing", "Thing", kind, "yes", choices=(("yes", "Yes"), ("no", "No")))
    assert shape in form({"thing": "yes"}).field(declared, "")


def test_a_choice_that_is_none_of_those_known_is_kept() -> None:
    declared = Input("shape", "Shape", "choice", "round", choices=(("round", "Round"),))
    assert '<option value="star" selected>star</option>' in form({"shape": "star"}).field(declared, "")
