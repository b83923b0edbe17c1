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
from calc.calculators.order_form import order_of
from calc.units import Problems
from tests.calc.test_calculators_order import asked

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


def problems_at(slug: str, texts: dict[str, str]) -> dict[str, str]:
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

    assert not any("too many" in words for words in problems_at(slug, copies(most)).values())
    over = problems_at(slug, copies(most + 1))
    assert over[f"{place}.{most}"] == f"{group.label}: {most + 1} are too many, {most} is the most. Remove some"
    none = problems_at(slug, {}).get(place, "")
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
        if one.by_volume:
            assert one.read("500 ml", one.name, "metric") == pytest.approx(529, abs=0.1), path  # at 1.058 g/ml


# --- what an order makes of what was typed -----------------------------------------------------------------------------------------------


def test_every_field_of_a_tier_and_a_row_comes_into_the_order() -> None:
    """Lengths in millimetres, colours in small letters, shares as numbers; what is left empty is nothing, and nothing is told apart from 0."""
    made = order_of(
        asked(
            weighed="106 g", guests="50", tiers__0__disc="21 cm", tiers__0__crumb="1 mm", tiers__0__final="4 mm", tiers__0__layers="2",
            tiers__0__filling="8 mm", tiers__0__side="67 cm", tiers__0__colour="Ivory", tiers__0__top="6 mm", tiers__0__dam="1 cm",
            tiers__0__striped="Sage", tiers__0__stripes="4", tiers__0__stripe_share="40 %", tiers__0__joints_below="2 cm", tiers__0__fit="all",
            tiers__0__rows__0__drop="4 cm", tiers__0__rows__0__below="0 mm", tiers__0__rows__0__layers="3", tiers__0__rows__0__colour="Cream",
            tiers__0__rows__0__second="Bay", tiers__0__rows__1__second="CREAM", tiers__0__rows__1__colour="cream",
        )
    )  # fmt: skip
    assert (made.density_g_per_ml, made.guests, made.slice_mm, made.border_mm) == (pytest.approx(1.06), 50, (25.0, 50.0), 50.0)
    lower, upper = made.tiers
    assert (lower.disc_mm, lower.crumb_mm, lower.final_mm, lower.layers, lower.filling_mm, lower.measured_mm) == (210, 1, 4, 2, 8, 670)
    assert (lower.colour, lower.top_mm, lower.dam_mm, lower.striped, lower.joints_below_mm, lower.fitted) == (
        "ivory",
        6,
        10,
        ("sage", 4, 40),
        20,
        True,
    )
    assert (upper.disc_mm, upper.top_mm, upper.dam_mm, upper.striped, upper.measured_mm, upper.fitted) == (None, None, 0.0, None, None, False)
    swag, shell = lower.rows
    assert (swag.drop_mm, swag.below_mm, swag.layers, swag.colour, swag.second, swag.path) == (40, 0.0, 3, "cream", "bay", "tiers.0.rows.0.")
    assert (shell.drop_mm, shell.below_mm, shell.layers, shell.second, shell.per_joint) == (0.0, None, 1, "", 1)
    assert order_of(asked()).density_g_per_ml is None


@pytest.mark.parametrize(
    "text, found",
    [
        ("russet 2, blush 1, ivory", (("russet", 2.0), ("blush", 1.0), ("ivory", 1.0))),
        ("Russet: 50 %; pale  blush 25%\nivory 2.5", (("russet", 50.0), ("pale blush", 25.0), ("ivory", 2.5))),
        (", ".join(["russet"] * 24), (("russet", 1.0),) * 24),
        (f"{'a' * 40} 2", (("a" * 40, 2.0),)),
        ("", ()),
    ],
)
def test_bands_are_colours_with_their_shares(text: str, found: tuple[tuple[str, float], ...]) -> None:
    assert order_of(asked(tiers__0__bands=text)).tiers[0].bands == found


@pytest.mark.parametrize("text", [", ".join(["russet"] * 25), f"{'a' * 41} 2", "russet 0", "2", "2 russet 3"])
def test_what_is_no_band_is_refused(text: str) -> None:
    with pytest.raises(Problems) as found:
        order_of(asked(tiers__0__bands=text))
    assert [problem.input for problem in found.value.problems] == ["tiers.0.bands"]


def test_a_kind_of_row_brings_a_tip_of_half_to_twice_its_opening() -> None:
    """A swag begins with a petal of 11 mm: one of 5.5 to 22 mm stays. How deep it hangs and how often is kept where both kinds hang alike."""
    (kind,) = [one for one in CALCULATORS["order"].groups[0].groups[0].inputs if one.name == "kind"]
    swag, shell = ({one.name: one for one in kind.brings if one.choice == choice} for choice in ("swag", "shell"))
    assert swag["tip"].within == ("petal", 5.5, 22.0) and shell["tip"].within == ("open star", 3.5, 14.0)
    assert swag["place"].text == "side" and shell["place"].text == "base" and swag["below"].after == "place"
    assert swag["layers"].alike and shell["layers"].alike == ""


def test_each_part_of_the_kitchen_has_a_heading_over_its_first_field() -> None:
    assert {one.name: one.heading for one in CALCULATORS["kitchen"].inputs if one.heading} == {
        "cutters": "Tips and tools",
        "recipe": "Buttercream",
        "slice": "How you work",
        "currency": "Money",
        "maker_name": "Your name and address",
        "terms_valid_days": "Your terms",
        "paper": "Sheets",
    }
