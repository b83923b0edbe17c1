"""The form as HTML: every word escaped, every control named, groups copied as often as the values say."""

from __future__ import annotations

import re
from types import SimpleNamespace

import pytest

from calc.calculators import CALCULATORS, compute
from calc.calculators.declare import Group, Input
from tools.site import pages

PLANTED = "<script>alert(1)</script>\" onfocus=alert(2) x='"


@pytest.mark.parametrize("slug", CALCULATORS)
def test_every_control_has_a_label_and_points_at_its_help(slug: str) -> None:
    calculator = CALCULATORS[slug]
    answer = compute(slug, {})
    markup = str(pages.calculator_html(calculator, {PLANTED: PLANTED}, answer, form=slug, title=PLANTED, level=3, build="{}"))
    assert "<script" not in markup
    shown = live(markup)
    identities = re.findall(r'\bid="([^"]+)"', shown)
    assert len(identities) == len(set(identities))
    for target in re.findall(r'<label for="([^"]+)"', shown):
        assert target in identities
    for described in re.findall(r'aria-describedby="([^"]+)"', shown):
        assert set(described.split()) <= set(identities)
    named = re.findall(r'<(?:input|select|textarea)[^>]* data-name="([^"]+)"', shown)
    wanted = [declared.name for declared in pages.form_inputs(calculator)]
    assert [name for name in named if "." not in name] == sorted(
        wanted, key=lambda name: next(bool(each.advanced) for each in calculator.inputs if each.name == name)
    )


def form(values: dict[str, str], groups: tuple[Group, ...] = ()) -> pages.Form:
    """A form of a calculator with these groups, with these values typed in."""
    return pages.Form(SimpleNamespace(inputs=(), groups=groups), values, "form")


def test_a_field_asked_only_with_a_choice_goes_by_what_was_chosen_or_by_the_default() -> None:
    ground = Input("ground", "Ground", "choice", "side", choices=(("side", "Side"), ("top", "Top")))
    height = Input("height", "Height", "length", "10 cm", only_with=("ground", ("side",)))
    for values, hidden in (({}, False), ({"ground": "side"}, False), ({"ground": "top"}, True), ({"ground": ""}, True)):
        shown = "".join(str(part) for part in form(values).level((ground, height), (), ""))
        field = re.search(r'<div class="pb-field" data-input="height"[^>]*>', shown)
        assert field is not None and (" hidden" in field[0]) is hidden, values


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
    assert re.findall(r' data-name="([^"]+)"', markup) == ["tiers.0.width", "tiers.1.width", "tiers.1.rows.0.tip", "tiers.1.rows.1.tip"]
    assert "Move Tier 2 up" in markup and "Add a tier" in markup
    egg = Group("eggs", "Egg", (Input("mass", "Mass", "mass", "50 g"),))
    empty = form({}, (egg,)).group(egg, "")
    assert "Add an egg" in empty and 'data-name="' not in live(empty)


SHAPES = [("choice", "<select"), ("yes_no", 'type="checkbox"'), ("long_text", "<textarea"), ("count", 'inputmode="numeric"')]


@pytest.mark.parametrize(("kind", "shape"), SHAPES)
def test_each_kind_has_its_control(kind: str, shape: str) -> None:
    declared = Input("thing", "Thing", kind, "yes", choices=(("yes", "Yes"), ("no", "No")))
    assert shape in form({"thing": "yes"}).field(declared, "")


def test_a_choice_that_is_none_of_those_known_is_kept() -> None:
    declared = Input("shape", "Shape", "choice", "round", choices=(("round", "Round"),))
    assert '<option value="star" selected>star</option>' in form({"shape": "star"}).field(declared, "")
