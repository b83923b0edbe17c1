"""What a form asks at once and what waits under More, how many copies a list may have, and what is said of too many or too few.

A reader who wants a first answer should meet few fields; which these are, and how long a list can be, are
choices (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from calc.calculators import CALCULATORS
from calc.calculators.declare import parse
from calc.calculators.inputs import Group
from calc.units import Problems

# What stands above More; of a group as order.tiers.
AT_ONCE = {
    "portions": "shape width length height slice cut",
    "stack": "guests slice shape height keep_top spare tins tier_count",
    "supports": "tiers",
    "division": "shape side width length repeats target",
    "swags": "shape side width length cutter drop repeats joints rows tip",
    "coats": "shape width length height layers filling crumb_coat final_coat disc recipe whipped",
    "batch": "recipe mass whipped",
    "timetable": "ready_at tiers rows hours people spare",
    "price": "ingredients hours rate overhead margin margin_of portions packaging",
    "price.items": "name mass pack pack_price in_hand",
    "price.tasks": "name time",
    "strings": "side width repeats drop loops tip",
    "shells": "side width tip per_swag repeats kind",
    "rosettes": "count side width spacing tip size",
    "tips": "family opening width effect",
    "colours": "margin bag_loss bag_holds",
    "colours.rows": "colour tip mass",
    "tint": "test_mass test_drops mass",
    "lesson": "students left_handed exercises minutes starts recipe",
    "lesson.packs": "name mass price",
    "practice": "exercises hand recipe",
    "row": "kind side width repeats drop per_repeat layers tip",
    "vermicelli": "ground side width height gap tip",
    "order": "name ready_at guests slice cutters recipe",
    "order.tiers": "name shape width length height layers filling disc side colour",
    "order.tiers.rows": "kind place tip colour",
    "order.colours": "name look",
    "order.measured": "tip kind length mass pieces",
    "order.packs": "name mass price",
    "order.maker": "name telephone contact",
    "order.quote": "customer number date valid_days deposit balance_days tax round_up delivery terms in_sponge in_fillings in_kitchen",
    "kitchen.tips": "tip note",
    "kitchen.measured": "tip kind length mass pieces",
    "kitchen.recipes": "name made",
    "kitchen.recipes.parts": "ingredient mass",
    "kitchen.packs": "name mass price",
}


def groups_of(slug: str) -> Iterator[tuple[str, Group]]:
    """Every group of a calculator, as order.tiers.rows."""

    def inside(path: str, groups: tuple[Group, ...]) -> Iterator[tuple[str, Group]]:
        for group in groups:
            yield f"{path}.{group.name}", group
            yield from inside(f"{path}.{group.name}", group.groups)

    yield from inside(slug, CALCULATORS[slug].groups)


GROUPS = [(path, group) for slug in CALCULATORS for path, group in groups_of(slug)]


def test_few_fields_are_asked_at_once() -> None:
    """The kitchen asks everything but its own text at once: it is filled in part by part."""
    found = {slug: [one.name for one in calculator.inputs if not one.advanced] for slug, calculator in CALCULATORS.items()}
    assert [one.name for one in CALCULATORS["kitchen"].inputs if one.advanced] == ["kitchen"]
    del found["kitchen"]
    found |= {path: [one.name for one in group.inputs if not one.advanced] for path, group in GROUPS}
    assert found == {path: names.split() for path, names in AT_ONCE.items()}


LISTS = {
    "price.items": (0, 40),
    "price.tasks": (0, 40),
    "colours.rows": (1, 40),
    "lesson.packs": (0, 40),
    "order.tiers": (1, 7),
    "order.tiers.rows": (0, 20),
    "order.colours": (0, 12),
    "order.measured": (0, 20),
    "order.packs": (0, 40),
    "order.maker": (0, 1),
    "order.quote": (0, 1),
    "kitchen.tips": (0, 40),
    "kitchen.measured": (0, 20),
    "kitchen.recipes": (0, 12),
    "kitchen.recipes.parts": (0, 20),
    "kitchen.packs": (0, 40),
}


def said(slug: str, texts: dict[str, str]) -> dict[str, str]:
    """What is said at each field."""
    try:
        parse(CALCULATORS[slug], texts)
    except Problems as problems:
        return {problem.input: problem.message for problem in problems.problems}
    return {}


@pytest.mark.parametrize("path, group", GROUPS, ids=[path for path, _ in GROUPS])
def test_a_list_has_so_many_and_no_more(path: str, group: Group) -> None:
    """The first one too many is where it is said; the others stay as they are."""
    slug, _, name = path.partition(".")
    first, _, inner = name.partition(".")
    place, (least, most) = f"{first}.0.{inner}" if inner else first, LISTS[path]
    field = group.inputs[0]

    def copies(count: int) -> dict[str, str]:
        return {f"{place}.{i}.{field.name}": field.default or "a" for i in range(count)}

    assert not any("too many" in words for words in said(slug, copies(most)).values())
    over = said(slug, copies(most + 1))
    assert over[f"{place}.{most}"] == f"{group.label}: {most + 1} are too many, {most} is the most. Remove some"
    none = said(slug, {}).get(place, "")
    assert none == (f"{group.label}: there is none yet. Add at least {least}" if least else "")


def test_lists_that_are_long_or_seldom_wanted_begin_closed() -> None:
    """The shopping list and the hours of a price, and what an order is made of, are read at a glance."""
    assert [path for path, group in GROUPS if not group.folded] == ["price.items", "price.tasks", "order.tiers"]


def test_masses_of_buttercream_can_be_typed_by_volume() -> None:
    """Two cups of it, or half a litre; a pack, a strip or an ingredient is weighed."""
    fields = [(slug, one) for slug, calculator in CALCULATORS.items() for one in calculator.inputs]
    fields += [(path, one) for path, group in GROUPS for one in group.inputs]
    assert {f"{path}.{one.name}" for path, one in fields if one.by_volume} == {
        *("batch.mass", "timetable.buttercream", "colours.rows.mass", "tint.test_mass", "tint.mass", "lesson.cake"),
    }
    for path, one in fields:
        if one.kind == "mass" and one.default:
            assert (one.read("500 ml", one.name, "metric") > 400) if one.by_volume else True, path
