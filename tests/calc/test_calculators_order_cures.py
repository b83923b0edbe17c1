"""All that is said at a row that is amiss, and every field that a press sets, for the cake of test_calculators_order.

Both tiers are 10 cm high and 10.5 coated. Shells from an open star of 7 mm are 13.3 mm high, so round the base they begin 91.7 mm below the top edge;
swags cover 5.4 mm to either side of their joints, 12 mm down, and a line from a tip of 3 mm as much as 1.6 mm to either side of its own.
"""

from __future__ import annotations

import pytest

from calc.calculators.declare import Answer, Press
from calc.calculators.order_cures import PLACE_WORDS, _left_out, _lower, _nearest, _too_deep
from calc.units import Formatter
from tests.calc.test_calculators_order import CAKE, answered, planned

SAY = Formatter()
LOWER = {0: {"kind": "swag"}, 1: {"kind": "shell", "place": "base"}}  # the rows of CAKE as they are typed
UPPER = {0: {"kind": "bead", "place": "top edge"}, 1: {"kind": "leaf", "place": "joints", "per_joint": "2"}}
Offered = tuple[str, dict[str, str], tuple[str, ...], str]


def pressed(press: Press) -> Offered:
    """What is on the press, what it sets and clears, and what is said once it was pressed."""
    return str(press), dict(press.sets), press.clears, press.done


def amiss(changes: dict[str, str]) -> list[tuple[str, str, list[Offered]]]:
    found = answered(CAKE | {name.replace("__", "."): text for name, text in changes.items()}).cures
    return [(cure.at, cure.text, [pressed(press) for press in cure.presses]) for cure in found]


def row(tier: int, number: int, **fields: str) -> dict[str, str]:
    return {f"tiers__{tier}__rows__{number}__{name}": text for name, text in fields.items()}


def tip(tier: int, number: int, name: str) -> Offered:
    return f"Use {name}", {f"tiers.{tier}.rows.{number}.tip": ""}, (), f"Row {number + 1} takes {name}, which suits it."


def put(tier: int, number: int, place: str, words: str) -> Offered:
    at = f"tiers.{tier}.rows.{number}."
    return f"Put it {words}", {f"{at}place": place, f"{at}below": ""}, (), f"Row {number + 1} goes {words}."


def placed(tier: int, number: int) -> Offered:
    return "Have it placed", {f"tiers.{tier}.rows.{number}.below": ""}, (), f"Row {number + 1} is placed where there is room."


def out(tier: int, number: int, left: list[dict[str, str]]) -> Offered:
    """The press that leaves a row out: the others are set from the first on."""
    at = f"tiers.{tier}.rows"
    return "Leave it out", {f"{at}.{i}.{name}": text for i, one in enumerate(left) for name, text in one.items()}, (at,), f"Row {number + 1} removed."


def drop(number: int, text: str) -> Offered:
    return f"Make its drop {text}", {f"tiers.0.rows.{number}.drop": text}, (), f"Row {number + 1} drops {text}."


SHELL_ON_EDGE, LINE = {"kind": "shell", "place": "top edge"}, {"kind": "line", "place": "side"}
DEEP = {"drop": "9 cm"}
CASES: list[tuple[dict[str, str], list[tuple[str, str, list[Offered]]]]] = [
    # a tip of another family, an article before a vowel and before the letter S
    (row(0, 0, tip="basket 16 mm"), [("tiers.0.rows.0", "A swag is not usually piped with a basket tip.", [tip(0, 0, "petal 11 mm")])]),
    (row(1, 1, tip="open star 8 mm"), [("tiers.1.rows.1", "A leaf is not usually piped with an open star tip.", [tip(1, 1, "leaf 6 mm")])]),
    (
        row(0, 0, kind="S scroll", tip="petal 11 mm"),
        [("tiers.0.rows.0", "An S scroll is not usually piped with a petal tip.", [tip(0, 0, "open star 4.5 mm")])],
    ),
    (
        row(0, 0, kind="C scroll", tip="leaf 11 mm"),
        [("tiers.0.rows.0", "A C scroll is not usually piped with a leaf tip.", [tip(0, 0, "open star 4.5 mm")])],
    ),
    # a place that does not suit the kind: the first sentence of the row's note, without what follows a colon
    (row(0, 0, place="joints"), [("tiers.0.rows.0", "A swag runs on and cannot sit at a joint.", [put(0, 0, "side", "on the side")])]),
    (row(0, 0, place="top"), [("tiers.0.rows.0", "A swag hangs only on the side.", [put(0, 0, "side", "on the side")])]),
    (
        row(0, 1, place="side"),
        [("tiers.0.rows.1", "Shells have nothing to sit on there: they usually go round the base.", [put(0, 1, "base", "round the base")])],
    ),
    (row(0, 1, kind="bead", place="over"), []),  # beads over swags have something to sit on
    # leaves are 2.6 times as long as their tip is wide: 5.2 cm are half of 10.4 cm, of which 5 mm are the coat on the top, and not of less
    (row(1, 1, tip="leaf 20 mm") | {"tiers__1__height": "99 mm"}, []),
    (
        row(1, 1, tip="leaf 20 mm") | {"tiers__1__height": "98.9 mm"},
        [("tiers.1.rows.1", "Each is 5.2 cm across, over half of the 10.4 cm that the side is high.", [tip(1, 1, "leaf 6 mm")])],
    ),
    # two rows on one edge: inside it first, then another edge that is free, or nowhere
    (
        row(1, 2, **SHELL_ON_EDGE),
        [
            (
                "tiers.1.rows.2",
                "It and Row 1 (bead, round 4 mm, cream) both lie on the top edge and hide each other.",
                [put(1, 2, "inside", "inside the top edge"), out(1, 2, [UPPER[0], UPPER[1]])],
            )
        ],
    ),
    (
        row(1, 2, **SHELL_ON_EDGE) | row(1, 3, kind="shell", place="inside"),
        [
            (
                "tiers.1.rows.2",
                "It and Row 1 (bead, round 4 mm, cream) both lie on the top edge and hide each other.",
                [put(1, 2, "base", "round the base"), out(1, 2, [UPPER[0], UPPER[1], {"kind": "shell", "place": "inside"}])],
            )
        ],
    ),
    (
        row(1, 2, **SHELL_ON_EDGE) | row(1, 3, kind="shell", place="inside") | row(1, 4, kind="shell", place="base"),
        [
            (
                "tiers.1.rows.2",
                "It and Row 1 (bead, round 4 mm, cream) both lie on the top edge and hide each other.",
                [out(1, 2, [UPPER[0], UPPER[1], {"kind": "shell", "place": "inside"}, {"kind": "shell", "place": "base"}])],
            )
        ],
    ),
    (
        row(0, 2, kind="bead", place="base"),  # what stands round the base does not go inside the top edge
        [
            (
                "tiers.0.rows.2",
                "It and Row 2 (shell, open star 7 mm, cream) both lie round the base and hide each other.",
                [put(0, 2, "top edge", "on the top edge"), out(0, 2, [LOWER[0], LOWER[1]])],
            )
        ],
    ),
    # a line of 1.6 mm to either side of 104 or of 1 mm, on 105
    (
        row(0, 1, place="top") | row(0, 2, below="104 mm", **LINE),
        [("tiers.0.rows.2", "It runs 0.6 mm past the board.", [placed(0, 2), out(0, 2, [LOWER[0], {"kind": "shell", "place": "top"}])])],
    ),
    (
        row(0, 1, place="top") | row(0, 2, below="1 mm", **LINE),
        [("tiers.0.rows.2", "It runs 0.6 mm past the top edge.", [placed(0, 2), out(0, 2, [LOWER[0], {"kind": "shell", "place": "top"}])])],
    ),
    # a row that was given a place runs into one that was not, which stands lower: it is said at the one that was
    (
        row(0, 2, below="99 mm", **LINE),
        [
            (
                "tiers.0.rows.2",
                "It and Row 2 (shell, open star 7 mm, cream) run into each other by 3.2 mm.",
                [placed(0, 2), out(0, 2, [LOWER[0], LOWER[1]])],
            )
        ],
    ),
    # two that were given a place: at the lower one, though it was typed first
    (
        row(0, 2, below="71 mm", **LINE) | row(0, 3, below="70 mm", **LINE),
        [
            (
                "tiers.0.rows.2",
                "It and Row 4 (line, round 3 mm, cream) run into each other by 2.2 mm.",
                [placed(0, 2), out(0, 2, [LOWER[0], LOWER[1], LINE | {"below": "70 mm"}])],
            )
        ],
    ),
    # too deep a drop: 12 + 5.4 + 90 = 107.4 mm are 15.7 past 91.7, and 12 + 5.4 + 110 = 127.4 are 22.4 past 105: so much less, in whole millimetres
    (
        row(0, 0, drop="9 cm") | {"tiers__0__repeats": "6"},
        [("tiers.0.rows.0", "It reaches 1.6 cm past the upper edge of Row 2.", [drop(0, "74 mm"), out(0, 0, [LOWER[1]])])],
    ),
    (
        row(0, 0, drop="11 cm") | row(0, 1, place="top") | {"tiers__0__repeats": "6"},
        [("tiers.0.rows.0", "It reaches 2.2 cm past the board.", [drop(0, "87 mm"), out(0, 0, [{"kind": "shell", "place": "top"}])])],
    ),
    # a string under it hangs as deep, 112.3: 20.6 past 91.7; where it has a drop of its own, that is what is too deep
    (
        row(0, 0, drop="9 cm") | row(0, 2, kind="string", place="under") | {"tiers__0__repeats": "6"},
        [
            (
                "tiers.0.rows.0",
                "Row 3, which hangs as deep as it does, reaches 2.1 cm past the upper edge of Row 2.",
                [drop(0, "69 mm"), out(0, 0, [LOWER[1], {"kind": "string", "place": "under"}])],
            )
        ],
    ),
    (
        row(0, 0, drop="3 cm") | row(0, 2, kind="string", place="under", drop="9 cm") | {"tiers__0__repeats": "6"},
        [
            (
                "tiers.0.rows.2",
                "It reaches 2.1 cm past the upper edge of Row 2.",
                [drop(2, "69 mm"), out(0, 2, [{"kind": "swag", "drop": "3 cm"}, LOWER[1]])],
            )
        ],
    ),
    # nothing too deep, or a row on another: silence
    (row(0, 0, drop="6 cm") | row(0, 2, kind="line", place="over") | {"tiers__0__repeats": "6"}, []),
]


@pytest.mark.parametrize("changes, wanted", CASES)
def test_what_is_amiss_is_said_whole_with_all_that_mends_it(
    changes: dict[str, str], wanted: list[tuple[str, str, list[tuple[str, dict[str, str], tuple[str, ...], str]]]]
) -> None:
    assert amiss(changes) == wanted


CROWDS = [
    ("7 mm", "18 cm", []),
    ("30 mm", "18 cm", ["It reaches 5.9 cm in from the edge, and 1 cm are free beside Upper."]),
]


@pytest.mark.parametrize("opening, upper, told", CROWDS)
def test_a_row_crowded_on_a_top_takes_its_own_tip_or_goes(opening: str, upper: str, told: list[str]) -> None:
    """From 21 cm to 19 cm there is 1 cm of a ledge; a shell is 1.95 times as wide as its star."""
    found = amiss(row(0, 2, kind="shell", place="inside", tip=f"open star {opening}") | {"tiers__1__width": upper})
    if told:
        assert found == [("tiers.0.rows.2", told[0], [tip(0, 2, "open star 7 mm"), out(0, 2, [LOWER[0], LOWER[1]])])]
    else:
        ((at, text, presses),) = found
        assert at == "tiers.0.rows.2" and text == "It reaches 1.4 cm in from the edge, and 1 cm are free beside Upper."
        assert presses == [out(0, 2, [LOWER[0], LOWER[1]])]


def test_a_row_crowded_on_the_uppermost_tier_has_as_far_as_the_middle() -> None:
    """Half of 16 cm."""
    ((at, text, presses),) = amiss(row(1, 2, kind="shell", place="inside", tip="open star 60 mm"))
    assert (at, text) == ("tiers.1.rows.2", "It reaches 11.7 cm in from the edge, and 8 cm are free to the middle.")
    assert presses == [tip(1, 2, "open star 7 mm"), out(1, 2, [UPPER[0], UPPER[1]])]


TOGETHER = {"together": "yes", **row(0, 0, drop="10 cm")}
FOLLOWS = " The tiers are fitted to one another, so with another drop {} may be divided otherwise too."


@pytest.mark.parametrize(
    "changes, others",
    [
        (TOGETHER, FOLLOWS.format("Upper")),
        (TOGETHER | {"together": "no"}, ""),
        (TOGETHER | row(1, 1, place="top"), ""),  # nothing of the upper tier goes by joints
        (TOGETHER | {"tiers__2__name": "Third", "tiers__2__width": "10 cm", **row(2, 0, kind="swag")}, FOLLOWS.format("Upper and Third")),
    ],
)
def test_which_tiers_another_drop_may_change(changes: dict[str, str], others: str) -> None:
    """26 mm past the shells leave 74 of 100; the other tiers follow where they are fitted to it and have joints themselves."""
    ((_, text, presses),) = amiss(changes)
    assert text == "It reaches 2.6 cm past the upper edge of Row 2." + others and presses[0] == drop(0, "74 mm")


@pytest.mark.parametrize("units, text", [("us", "2.875 in"), ("metric", "74 mm")])
def test_a_drop_is_offered_in_the_readers_units(units: str, text: str) -> None:
    """90 less 15.6 mm are 74.4: 2.93 in, of which 2 7/8 are the eighths."""
    ((_, _, presses),) = amiss({**row(0, 0, drop="9 cm"), "tiers__0__repeats": "6", "units": units})
    assert presses[0] == drop(0, text)


def test_only_what_hangs_too_deep_is_too_deep() -> None:
    """107.4 mm are 2.4 past the board at 105 and 15.7 past the shells at 91.7. Above the top edge, or on one edge with another row, no drop helps."""
    deep = planned(tiers__0__repeats="6", **row(0, 0, drop="9 cm")).tiers[0]
    board, shells = (_too_deep(deep, clash) for clash in deep.clashes)
    assert board is not None and shells is not None and board.source is shells.source is board.upper is shells.upper is deep.rows[0]
    assert board.lower is None and shells.lower is deep.rows[1]
    assert (board.past_mm, shells.past_mm) == (pytest.approx(2.37, abs=0.01), pytest.approx(15.67, abs=0.01))
    high = planned(**row(0, 0, below="1 mm")).tiers[0]
    assert [clash.where for clash in high.clashes] == ["above the top edge"] and _too_deep(high, high.clashes[0]) is None
    edge = planned(**row(1, 2, **SHELL_ON_EDGE)).tiers[1]
    assert [_too_deep(edge, clash) for clash in edge.clashes] == [None]


def test_a_row_goes_down_as_far_as_the_foot_of_the_side_and_no_further() -> None:
    """Beads of 8 mm, 4 to either side: 40 mm down and 53 over, with 3 to spare, are 96, and 100 with their half: the height of a side of 95 mm with
    5 of coat. A tenth less, and there is no room."""
    beads = row(0, 1, kind="bead", place="side", below="4 cm", tip="round 5 mm")
    for height, room in (("95 mm", True), ("94.9 mm", False)):
        tier = planned(**beads, tiers__0__height=height).tiers[0]
        found = _lower(tier.rows[1], 1, 53.0, tier, SAY)
        assert [pressed(press) for press in found] == (
            [("Move it down to 96 mm", {"tiers.0.rows.1.below": "96 mm"}, (), "Row 2 stands 96 mm below the top edge.")] if room else []
        )


def test_a_row_that_the_form_does_not_have_cannot_be_left_out() -> None:
    answer, tier = Answer("order"), planned().tiers[1]
    assert _left_out(answer, tier, 0) == ()
    # fields of another tier, of the tier itself, of a copy without a number; and the eleventh row comes after the second
    answer.fields = {
        **{"tiers.1.name": "Upper", "tiers.0.rows.0.kind": "swag", "tiers.1.rows.x.kind": "line", "tiers.1.rows.10.kind": "dot"},
        **{"tiers.1.rows.2.kind": "star", "tiers.1.rows.0.kind": "bead"},
    }
    assert pressed(_left_out(answer, tier, 0)[0]) == out(1, 0, [{"kind": "star"}, {"kind": "dot"}])
    assert pressed(_left_out(answer, tier, 2)[0]) == out(1, 2, [{"kind": "bead"}, {"kind": "star"}]) and _left_out(answer, tier, 3) == ()


# --- colours ------------------------------------------------------------------------------------------------------------------------------


def colour(at: str, field: str, name: str, near: str, look: str, sets: str = "", number: int = 0) -> tuple[str, str, list[Offered]]:
    return (
        at,
        f"The palette has no {name}, so it is drawn like plain buttercream.",
        [
            (f"Use {near}", {field: sets or near}, (), f"The colour is {near}."),
            (
                f"Keep {name}",
                {f"colours.{number}.name": name, f"colours.{number}.look": look},
                (),
                f"{name} is drawn like {near}: choose its look under Colours of your own.",
            ),
        ],
    )


def test_a_colour_that_nobody_knows_is_mended_in_its_own_field() -> None:
    """Looks of moss, marmalade and cream are those of the palette."""
    changes = {"tiers__0__colour": "moonless", "tiers__1__striped": "creem", **row(0, 1, second="grenadine")}
    assert amiss(changes) == [
        colour("tiers.0", "tiers.0.colour", "moonless", "moss", "#7d8550"),
        colour("tiers.0.rows.1", "tiers.0.rows.1.second", "grenadine", "marmalade", "#d37c2a"),
        colour("tiers.1", "tiers.1.striped", "creem", "cream", "#f0dfae"),
    ]


def test_one_band_is_mended_and_the_others_stay_with_their_shares() -> None:
    """A colour of the reader's own is as near as one of the palette, and the next of those has the next number."""
    changes = {"tiers__0__bands": "bay, sunless 2", "colours__0__name": "sunles", "colours__0__look": "#123456"}
    assert amiss(changes) == [colour("tiers.0", "tiers.0.bands", "sunless", "sunles", "#123456", "bay 1, sunles 2", 1)]


def test_names_are_alike_by_the_pairs_of_letters_that_they_share() -> None:
    """Of " ab ", with its ends, the pairs are " a", "ab", "b ". "abab" has the same three and "ba": 3 of 4; "ax" shares one of five. "b" shares one
    of four, "b " ; "ab b" all three of four. A longer name that holds all of it is less alike than one that holds most and little else."""
    assert _nearest("ab", ("ax", "abab")) == "abab" and _nearest("ab", ("ax", "b")) == "b"
    assert _nearest("ab", ("abcdefgh", "abc")) == "abc"  # " a" and "ab" of five pairs, or of ten
    assert _nearest("ab", ("ba", "xb")) == "xb"  # none, or "b "


def test_every_place_has_its_words() -> None:
    assert PLACE_WORDS == {
        **{"side": "on the side", "over": "over the row before", "under": "under the row before", "top edge": "on the top edge"},
        **{"base": "round the base", "top": "on the top", "joints": "at every joint", "inside": "inside the top edge"},
    }
