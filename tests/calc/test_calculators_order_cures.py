"""All that is said at a row that is amiss, and every field that a press sets, for the cake of test_calculators_order.

Both tiers are 10 cm high and 10.5 coated. Shells from an open star of 7 mm are 13.3 mm high, so round the base they begin 91.7 mm below the top edge;
swags cover 5.4 mm to either side of their joints, 12 mm down, and a line from a tip of 3 mm as much as 1.6 mm to either side of its own.
"""

from __future__ import annotations

from typing import Any

import pytest

from calc.calculators import order_cures
from calc.calculators.declare import Answer, Press
from calc.calculators.order_cures import PLACE_WORDS, _drops_by, _left_out, _lower, _nearest, _shallower, _too_deep
from calc.rows.placement import Clash
from calc.units import Formatter, Problem
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
    # a row that must end higher by less than 1.1 mm ends higher by that, or it would be taken for the cutter's: 75 less 1.1, in whole millimetres
    (
        row(0, 0, drop="75 mm") | {"tiers__0__repeats": "6"},
        [("tiers.0.rows.0", "It reaches 0.67 mm past the upper edge of Row 2.", [drop(0, "73 mm"), out(0, 0, [LOWER[1]])])],
    ),
    # past two rows, of which shells reach higher than beads of 5.6 mm
    (
        row(0, 0, drop="9 cm") | row(0, 2, kind="bead", place="base") | {"tiers__0__repeats": "6"},
        [
            (
                "tiers.0.rows.2",
                "It and Row 2 (shell, open star 7 mm, cream) both lie round the base and hide each other.",
                [put(0, 2, "top edge", "on the top edge"), out(0, 2, [LOWER[0] | DEEP, LOWER[1]])],
            ),
            (
                "tiers.0.rows.0",
                "It reaches 1.6 cm past the upper edge of Row 2.",
                [drop(0, "74 mm"), out(0, 0, [LOWER[1], {"kind": "bead", "place": "base"}])],
            ),
        ],
    ),
    # over a row that hangs in a string's way: the swag's 12 + 5.4 + 100 are 77 past where the string of 2 cm, 20.4 down, has its own depth, 40.4
    (
        row(0, 0, drop="10 cm") | row(0, 2, kind="string", place="under", drop="2 cm") | {"tiers__0__repeats": "6"},
        [
            (
                "tiers.0.rows.0",
                "It reaches 7.7 cm past the upper edge of Row 3.",
                [drop(0, "23 mm"), out(0, 0, [LOWER[1], {"kind": "string", "place": "under", "drop": "2 cm"}])],
            )
        ],
    ),
    # a line on an edge where no other is free goes over what is there, if that is the row before it
    (
        row(0, 2, kind="line", place="base") | row(0, 3, kind="bead", place="top edge"),
        [
            (
                "tiers.0.rows.2",
                "It and Row 2 (shell, open star 7 mm, cream) both lie round the base and hide each other.",
                [put(0, 2, "over", "over the row before"), out(0, 2, [LOWER[0], LOWER[1], {"kind": "bead", "place": "top edge"}])],
            )
        ],
    ),
    (
        row(0, 2, kind="bead", place="top edge") | row(0, 3, kind="line", place="base"),
        [
            (
                "tiers.0.rows.3",
                "It and Row 2 (shell, open star 7 mm, cream) both lie round the base and hide each other.",
                [out(0, 3, [LOWER[0], LOWER[1], {"kind": "bead", "place": "top edge"}])],
            )
        ],
    ),
    # a border of 24.7 mm, half of it over the side, and swags 5.4 mm over joints that were put 10 mm down: 7.7 mm too many; 10 + 7.7 + 3 are 21
    (
        row(0, 1, kind="shell", place="top edge", tip="open star 13 mm") | {"tiers__0__joints_below": "10 mm"},
        [
            (
                "tiers.0.rows.0",
                "It and Row 2 (shell, open star 13 mm, cream) run into each other by 7.7 mm.",
                [
                    ("Move it down to 21 mm", {"tiers.0.rows.0.below": "21 mm"}, (), "Row 1 stands 21 mm below the top edge."),
                    out(0, 0, [{"kind": "shell", "place": "top edge", "tip": "open star 13 mm"}]),
                ],
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


def test_a_row_is_moved_down_by_eighths_of_an_inch() -> None:
    """21 mm are 0.83 in: 7/8 is the next eighth."""
    edge = row(0, 1, kind="shell", place="top edge", tip="open star 13 mm") | {"tiers__0__joints_below": "10 mm", "units": "us"}
    ((_, text, presses),) = amiss(edge)
    assert text == "It and Row 2 (shell, open star 13 mm, cream) run into each other by 5/16 in."
    assert presses[0] == ("Move it down to 0.875 in", {"tiers.0.rows.0.below": "0.875 in"}, (), "Row 1 stands 0.875 in below the top edge.")


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


@pytest.mark.parametrize("past_mm, found", [(-0.5, False), (0.0, False), (0.5, True)])
def test_what_ends_at_the_board_is_not_too_deep(past_mm: float, found: bool) -> None:
    tier = planned().tiers[0]
    assert bool(_too_deep(tier, Clash(tier.rows[0], None, past_mm, "below the board"))) == found


def test_a_drop_is_no_shallower_than_looks_like_a_swag() -> None:
    """5 mm of 20 still do; a hundredth less does not."""
    cake = planned(**row(0, 0, drop="2 cm"), cutters="")  # no cutter whose drop would be taken instead
    assert (_shallower(cake, cake.tiers[0], 0, 15.0, SAY), _shallower(cake, cake.tiers[0], 0, 15.01, SAY)) == ("5 mm", None)


def test_a_drop_with_which_it_is_still_too_deep_is_made_shallower_again() -> None:
    """Told to take 3 mm off 90: that leaves 12.7 past the shells, so 87 becomes 74. Beads on the shells' edge are amiss with any drop."""
    changes = row(0, 0, drop="9 cm") | row(0, 2, kind="bead", place="base") | {"tiers__0__repeats": "6"}
    cake = planned(**changes)
    assert _shallower(cake, cake.tiers[0], 0, 3.0, SAY) == "74 mm"


def test_a_drop_that_cannot_be_planned_is_made_shallower_by_a_millimetre(monkeypatch: pytest.MonkeyPatch) -> None:
    """50 less 10 and then less 1 and 1 more; and eight are tried at most."""
    cake, tried = planned(**row(0, 0, drop="5 cm")), []

    def planned_from(third: int) -> Any:
        def again(cake: Any, order: Any, index: int) -> Any:
            tried.append(order.rows[0].drop_mm)
            if len(tried) < third:
                raise Problem("tiers", "It cannot be planned")
            return cake.tiers[index]

        return again

    monkeypatch.setattr(order_cures, "planned_again", planned_from(3))
    assert _shallower(cake, cake.tiers[0], 0, 10.0, SAY) == "38 mm" and tried == [40.0, 39.0, 38.0]
    tried.clear()
    monkeypatch.setattr(order_cures, "planned_again", planned_from(99))
    assert _shallower(cake, cake.tiers[0], 0, 10.0, SAY) is None and len(tried) == 8


def test_a_row_that_no_drop_mends_leaves_the_others_to_be_mended(monkeypatch: pytest.MonkeyPatch) -> None:
    """Both hang too deep; for the first there is no drop, and it is told how it can be mended otherwise."""
    monkeypatch.setattr(order_cures, "_shallower", lambda cake, tier, number, past_mm, say: None if number == 0 else "5 cm")
    both = row(0, 0, drop="9 cm") | row(0, 2, kind="string", place="under", drop="10 cm") | {"tiers__0__repeats": "6"}
    found = amiss(both)
    first, second = [one for one in found if one[0] == "tiers.0.rows.0"], [one for one in found if one[0] == "tiers.0.rows.2"]
    assert [text for _, text, _ in first] == ["It runs 2.4 mm past the board."] and second[-1][2][0] == drop(2, "5 cm")
    assert second[-1][1] == "It reaches 3.1 cm past the upper edge of Row 2."


def test_a_row_under_none_hangs_by_itself() -> None:
    """A string that is typed first has no row before it, though the last one hangs."""
    tier = planned(**row(0, 0, kind="string", place="under"), **row(0, 1, kind="swag", place="side")).tiers[0]
    assert [_drops_by(tier, one) for one in tier.rows] == [tier.rows[0], tier.rows[1]]
    shells = planned(**row(0, 2, kind="string", place="under")).tiers[0]
    assert [_drops_by(shells, one) for one in shells.rows] == [shells.rows[0], None, shells.rows[0]]


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
