"""A maker's kitchen: its file out and in, and what follows from it."""

from __future__ import annotations

from random import Random

import pytest

import calc
from calc.calculators import CALCULATORS
from calc.calculators.inputs import Group, Input
from calc.calculators.kitchen_form import GROUPS, INPUTS, KITCHEN_TEXT, VERSION

KEPT = {
    "cutters": "9 cm, 7.5 cm",
    "tins": "15, 20 cm",
    "hand": "learning",
    "rate": "£22",
    "maker_name": "Quince and Quill",
    "tips.0.tip": "petal 11 mm",
    "tips.0.note": "bent end",
    "tips.1.tip": "round 2 mm",
    "packs.0.name": "butter",
    "packs.0.mass": "250 g",
    "packs.0.price": "£2.20",
    "recipes.0.name": "House",
    "recipes.0.parts.0.ingredient": "butter",
    "recipes.0.parts.0.mass": "500 g",
    "units": "metric",
}


def written() -> str:
    """The kitchen as a file."""
    record = calc.compute("kitchen", KEPT).record
    assert record is not None
    return record


def test_a_kitchen_comes_back_from_its_file_as_it_was() -> None:
    assert calc.compute("kitchen", {"kitchen": written()}).fields == KEPT


@pytest.mark.parametrize("seed", range(50))
def test_a_damaged_kitchen_is_refused(seed: int) -> None:
    chance, whole = Random(seed), written()
    damaged = whole
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(len(damaged))
        damaged = chance.choice(
            [
                damaged[:at],  # cut short
                damaged[:at] + chance.choice('xZ9#"[\n\x00') + damaged[at + 1 :],  # a letter changed
                damaged[:at] + damaged[at + chance.randint(1, 20) :],  # some lost
                damaged[:at] + damaged[max(0, at - 9) :],  # some twice
            ]
        )
    answer = calc.compute("kitchen", {"kitchen": damaged})
    if answer.fields == KEPT:
        return  # what was damaged says nothing, such as a space
    assert answer.fields is None
    assert [problem["input"] for problem in answer.problems] == [KITCHEN_TEXT.input]


def test_a_kitchen_of_a_newer_handbook_is_refused_in_words() -> None:
    newer = written().replace(f'version = "{VERSION}"', f'version = "{VERSION + 1}"')
    (problem,) = calc.compute("kitchen", {"kitchen": newer}).problems
    assert "newer handbook" in problem["message"]


def test_a_kitchen_of_the_first_version_is_read_for_good() -> None:
    first = 'version = "1"\ncutters = "9 cm"\ntips = [{tip = "petal 11 mm"}]\nunits = "us"\n'  # without a check, as one changed by hand
    assert calc.compute("kitchen", {"kitchen": first}).fields == {"cutters": "9 cm", "tips.0.tip": "petal 11 mm", "units": "us"}


def test_an_order_is_no_kitchen() -> None:
    (problem,) = calc.compute("kitchen", {"kitchen": 'name = "Plum"\nguests = "36"\n'}).problems
    assert problem["input"] == KITCHEN_TEXT.input


def test_a_mistake_in_a_kitchen_is_told_at_its_field() -> None:
    (problem,) = calc.compute("kitchen", {"tips.0.tip": "petal of some kind"}).problems
    assert problem["input"] == "tips.0.tip"


def test_raw_egg_in_a_recipe_of_ones_own_is_told() -> None:
    own = {"recipes.0.name": "House", "recipes.0.parts.0.ingredient": "egg_white", "recipes.0.parts.0.mass": "100 g"}
    cautions = " ".join(caution["text"] for caution in calc.compute("kitchen", own).cautions)
    assert "pasteurised" in cautions and "eggs" in cautions and "room temperature" in cautions


def test_a_recipe_is_weighed_out_for_what_is_made() -> None:
    own = {
        "recipes.0.made": "1 kg",
        "recipes.0.parts.0.mass": "300 g",
        "recipes.0.parts.1.ingredient": "icing_sugar",
        "recipes.0.parts.1.mass": "200 g",
    }
    (table,) = (table for table in calc.compute("kitchen", own).tables if table["name"] == "recipe_0")
    assert [row[1] for row in table["rows"]] == ["600 g", "400 g"]


def test_an_order_takes_the_nearest_tip_at_hand_for_a_row_without_one() -> None:
    asked = {"tiers.0.name": "Tier", "tiers.0.rows.0.kind": "swag", "tiers.0.rows.0.place": "side"}

    def tips(texts: dict[str, str]) -> str:
        return str(
            next(table for table in calc.compute("order", texts).tables if any("petal" in cell for row in table["rows"] for cell in row))["rows"]
        )

    assert "petal 12.5 mm" not in tips(asked)
    assert "petal 12.5 mm" in tips({**asked, "tips": "round 2 mm, petal 12.5 mm"})


def tied() -> list[tuple[str, Input | Group]]:
    """What starts from the kitchen, of every calculator."""
    return [(slug, each) for slug, calculator in CALCULATORS.items() for each in (*calculator.inputs, *calculator.groups) if each.kitchen]


@pytest.mark.parametrize(("slug", "each"), tied(), ids=lambda value: getattr(value, "name", value))
def test_what_starts_from_the_kitchen_names_something_in_it(slug: str, each: Input | Group) -> None:
    names = {declared.name for declared in INPUTS}
    groups = {group.name: {declared.name for declared in group.inputs} for group in GROUPS}
    group, _, local = each.kitchen.partition(".")
    if isinstance(each, Group):
        single = {f"{group}_{declared.name}" for declared in each.inputs} & names
        assert single or {declared.name for declared in each.inputs} == groups[group]
    elif local:
        assert local in groups[group]
    else:
        assert group in names or group == "tips"


@pytest.mark.parametrize(("slug", "each"), tied(), ids=lambda value: getattr(value, "name", value))
def test_a_choice_and_its_limits_are_those_of_the_kitchen(slug: str, each: Input | Group) -> None:
    mine = next((declared for declared in INPUTS if declared.name == each.kitchen), None)
    if isinstance(each, Input) and mine and each.kind == "choice" and slug != "timetable":
        assert set(mine.choices) <= set(each.choices)  # the timetable tells apart two ways of stacking at home
