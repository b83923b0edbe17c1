"""How the tables of all calculators stand: which lines begin with a figure on the right, which columns show colours, and sentences of an order
that stand where their reason holds and nowhere else."""

from __future__ import annotations

import pytest

from calc.calculators import CALCULATORS
from calc.calculators.inputs import Group
from tests.calc.test_calculators_alike import READ_ALONG, answers
from tests.calc.test_calculators_order import CAKE, ONE
from tests.calc.test_calculators_order import answered as ordered

# Tables of which the first column is figures that are read down: steps, sizes and counts. Where a line is only known by its number it is a word.
FIRST_ON_THE_RIGHT = {
    *("batch.method", "coats.bands", "colours.bags", "colours.coupled", "colours.mixing", "kitchen.boards", "kitchen.cutters", "lesson.plan"),
    *("order.mixing", "order.others_1", "order.others_2", "portions.knife", "shells.others", "stack.tiers", "swags.cutters", "swags.others"),
    "vermicelli.gaps",
}


def test_lines_that_begin_with_a_figure_have_it_on_the_right() -> None:
    found = {
        f"{slug}.{table['name']}"
        for slug in CALCULATORS
        for answer, _ in answers(slug)
        for table in answer.tables
        if table["columns"][0]["align"] == "right"
    }
    assert found == FIRST_ON_THE_RIGHT


@pytest.mark.parametrize("slug, name", sorted(READ_ALONG))
def test_tables_that_are_read_along_their_lines_have_few_figures_on_the_right(slug: str, name: str) -> None:
    wanted = {"stack": ["Tier", "Weight"], "supports": ["Dowels in it"], "tips": ["Size"]}[slug]
    tables = [table for answer, _ in answers(slug) for table in answer.tables if table["name"] == name]
    assert tables and all([column["label"] for column in table["columns"] if column["align"] == "right"] == wanted for table in tables)


def test_a_dot_of_its_colour_stands_at_each_colour() -> None:
    """In the columns that are called so, and in none besides; of each colour that is named there."""
    seen = set()
    for table in ordered(CAKE | {"tiers.0.rows.0.colour": "sage"}).tables:
        for place, column in enumerate(table["columns"]):
            assert ("looks" in column) == (column["label"] == "Colour"), (table["name"], column)
            if "looks" in column:
                seen.add(table["name"])
                assert {row[place] for row in table["rows"]} == set(column["looks"])
    assert seen == {"colours", "bags", "rows_1", "rows_2", "bench"}


PLAIN = {"tiers.0.colour": "plain", "tiers.1.colour": "plain", **{f"tiers.{i}.rows.{j}.colour": "plain" for i in (0, 1) for j in (0, 1)}}
OF_A_CAKE: list[tuple[str, dict[str, str], dict[str, str]]] = [
    ("Two colours in one bag: ", {"tiers.0.rows.0.second": "sage"}, {}),
    ("With 1 coupler you need 1 bag instead of 4: cream with ", {}, {"tiers.0.rows.0.colour": "sage"}),
    ("Tints deepen as they stand, ", {}, PLAIN),
    ("Under a disc the coat makes up for what a sponge has drawn back", {"tiers.0.disc": "21 cm"}, {}),
    ("Lower: the top has the uppermost colour.", {"tiers.0.bands": "russet 2, blush 1"}, {}),
    ("Lower: coat with ivory and comb grooves 3 mm deep", {"tiers.0.striped": "sage"}, {}),
    ("would be done further ahead than it keeps", {"hours": "Mon 9:00 to 18:00"}, {}),
    ("Too large for a shelf of 20 cm x 20 cm: the tins of Lower.", {"tiers.0.width": "25 cm", "oven_shelf": "20 x 20 cm"}, {}),
    ("Lower: all rows fit the side.", {}, {"tiers.0.rows.0.drop": "9 cm", "tiers.0.repeats": "5"}),
    ("which take ", {"hand": "learning"}, {}),
]


@pytest.mark.parametrize("words, typed, changed", OF_A_CAKE)
def test_a_sentence_of_an_order_stands_where_its_reason_holds(words: str, typed: dict[str, str], changed: dict[str, str]) -> None:
    def told(texts: dict[str, str]) -> str:
        answer = ordered(CAKE | texts)
        return " ".join(one["text"] for one in (*answer.notes, *answer.cautions))

    assert words in told(typed)
    assert words not in told(changed)


def test_what_goes_in_the_car_is_told_where_something_is_driven() -> None:
    def has_load(texts: dict[str, str]) -> bool:
        return any(table["name"] == "load" for table in ordered(CAKE | texts).tables)

    assert has_load({}) and has_load({"travel": "0 min", "stacked": "venue"}) and not has_load({"travel": "0 min", "stacked": "home"})


def test_rows_of_one_tier_need_no_name_of_it() -> None:
    def tasks(texts: dict[str, str]) -> list[str]:
        return [row[1] for table in ordered(texts).tables if table["name"] == "tasks" for row in table["rows"]]

    swag = {"tiers.0.rows.0.kind": "swag", "tiers.0.rows.0.tip": "petal 11 mm"}
    assert any("Swag, petal 11 mm, cream" in task for task in tasks(ONE | swag))
    assert any("Lower, swag, petal 11 mm, cream" in task for task in tasks(CAKE | swag))


def test_what_begins_from_the_kitchen_is_there() -> None:
    """Each input and group that starts from the kitchen names one that the kitchen has."""
    kitchen = CALCULATORS["kitchen"]
    known = {one.name for one in kitchen.inputs} | {group.name for group in kitchen.groups}
    known |= {f"{group.name}.{one.name}" for group in kitchen.groups for one in group.inputs}

    def inside(group: Group) -> list[str]:
        return [one.kitchen for one in group.inputs] + [name for inner in group.groups for name in inside(inner)]

    for slug, calculator in CALCULATORS.items():
        names = [one.kitchen for one in calculator.inputs] + [name for group in calculator.groups for name in inside(group)]
        assert {name for name in names if name} <= known, slug
    assert {group.kitchen for group in CALCULATORS["order"].groups if group.kitchen} == {"measured", "packs", "maker", "terms"}
