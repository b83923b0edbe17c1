"""The handbook's own looks, row by row, on a cake of three tiers: where each row goes, the tip it begins with, its colour, and what the words say."""

from __future__ import annotations

import pytest

from calc.schemes import SCHEMES, Part
from calc.schemes.fitting import fit
from tests.calc.test_schemes import order_from

# For each look: on which of three tiers | row | place | tip in mm for a tier 18 cm wide and 10 cm high | the look's own colour | how often, where.
# It's a reader's table: a look is composed, not computed, and this is what its sentence and its picture promise.
TABLE = """
# hay-cart
every | swag | side | petal 11 | russet
every | swag | over | petal 9 | cream
every | string | under | round 1.8 | cream
every | shell | base | open star 7 | russet
every | rope | top edge | open star 5 | cream
every | rosette | joints | closed star 5 | honey
# goose-down
every | ruched border | top edge | petal 9 | chalk
every | shell | base | open star 8 | chalk
every | ruched swag | side | petal 9 | blush
every | rosette | joints | closed star 5 | buttermilk
top | bead | top | round 4 | blush
# petticoat
every | ruffled swag | side | petal 11 | old rose | 2 layers
every | reverse shell | top edge | open star 6 | shell pink
every | bead | base | round 5 | shell pink
every | dot | joints | round 5 | cream
every | string | under | round 1.8 | shell pink
# iron-gate
lowest | C scroll | side | round 3 | slate blue | 2 layers
middle, top | S scroll | side | round 3 | slate blue | 2 layers
every | bead | top edge | round 4 | chalk
every | shell | base | open star 6 | chalk
every | dot | joints | round 4 | cream
# june-hedge
every | string | side | round 1.8 | shell pink
every | small rose | joints | petal 9 | dusky rose
every | leaf | joints | leaf 6 | bay | 2 at each
every | shell | base | open star 6 | shell pink
every | bead | top edge | round 4 | shell pink
# first-frost
every | bead | base | round 6 | chalk
every | bead | top edge | round 4 | chalk
every | bead | side | round 3 | forget-me-not | 33 % down
every | dot | joints | round 4 | forget-me-not | 3 at each
top | bead | top | round 3 | forget-me-not
# bell-ropes
every | rope | base | open star 6 | honey
every | rope | top edge | open star 5 | honey
every | swag | side | open star 6 | buttermilk
every | rosette | joints | closed star 5 | russet
lowest | string | under | round 1.8 | honey
# one-hem
every | shell | base | open star 7 | cream
top | shell | top edge | open star 6 | cream
# plaster-ceiling
every | swag | side | petal 11 | ivory | 2 layers
every | line | over | round 2.5 | chalk
every | shell | base | open star 8 | ivory
every | reverse shell | top edge | open star 7 | ivory
every | string | under | round 1.8 | chalk
every | string | under | round 1.8 | cream
every | rosette | joints | closed star 6 | cream
top | shell | top | open star 5 | chalk
top | bead | inside | round 3 | chalk
# rickrack
every | zigzag | top edge | open star 4.5 | terracotta
every | rope | base | open star 5 | cream
every | zigzag | side | open star 3.5 | apricot | 50 % down
# washing-line
every | string | side | round 1.8 | verdigris | 3 layers
every | star | joints | open star 6 | chalk
every | bead | base | round 5 | chalk
every | bead | top edge | round 3 | chalk
# windfall
lowest | swag | side | petal 11 | russet
lowest | swag | over | petal 9 | cream
lowest | string | under | round 1.8 | cream
middle, top | ruched border | top edge | petal 9 | cream
every | shell | base | open star 7 | russet
middle, top | rosette | joints | closed star 5 | blush
middle, top | leaf | joints | leaf 6 | bay | 2 at each
"""
TIERS = ("lowest", "middle", "top")
LOOKS = {block.split("\n")[0].strip(): block.strip().split("\n")[1:] for block in TABLE.split("# ")[1:]}


def told(part: Part, colours: tuple[str, ...]) -> str:
    """A row in the words of the table."""
    words = [part.kind, part.place, f"{part.begins_with.family} {part.begins_with.opening_mm:g}", colours[part.shade]]
    words += [f"{part.layers} layers"] if part.layers != 1 else []
    words += [f"{part.per_joint} at each"] if part.per_joint != 1 else []
    words += [f"{100 * part.below:g} % down"] if part.below is not None else []
    return " | ".join(words)


def rows_on(key: str, tier: str) -> list[str]:
    """The rows that the table names for a tier."""
    return [words.split(" | ", 1)[1] for words in LOOKS[key] if {"every", tier} & set(words.split(" | ", 1)[0].split(", "))]


def test_every_look_is_in_the_table() -> None:
    assert set(LOOKS) == set(SCHEMES)


@pytest.mark.parametrize("key", SCHEMES)
def test_each_tier_of_a_look_has_the_rows_of_the_table(key: str) -> None:
    look = SCHEMES[key]
    for index, tier in enumerate(TIERS):
        assert [told(part, look.tones) for part in look.parts_for(index, 3)] == rows_on(key, tier), (key, tier)


@pytest.mark.parametrize("key", SCHEMES)
def test_a_usual_cake_of_three_tiers_gets_all_of_it(key: str) -> None:
    """Tiers of 23, 18 and 13 cm are 18 cm wide on average and 10 cm high, the size that the tips are named for: nothing is left out or piped less."""
    found = fit(SCHEMES[key], order_from([("round", width, 100.0) for width in (230.0, 180.0, 130.0)], "7.5 cm", **{"tiers.0.colour": "plain"}))
    assert found.scale == pytest.approx(1.0)
    for tier, made in zip(TIERS, found.tiers, strict=True):
        wanted = [words.split(" | ")[:2] for words in rows_on(key, tier)]
        assert [[row.kind, row.place] for row in made.rows] == wanted
        assert {change.what for change in made.changes} <= {"tip"}, (key, tier, made.changes)


@pytest.mark.parametrize("key", SCHEMES)
def test_leaves_have_the_fourth_colour_and_what_lies_on_a_swag_another_than_it(key: str) -> None:
    look = SCHEMES[key]
    side = None
    for part in look.parts:
        assert (part.kind == "leaf") == (part.shade == 3)
        side = part.shade if part.place == "side" else side
        assert part.place != "over" or part.shade != side
