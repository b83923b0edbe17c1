"""What is offered at a row that is amiss, on either side of each reason, for the cake of test_calculators_order."""

from __future__ import annotations

from typing import Any

import pytest

from calc.calculators.declare import Answer
from calc.calculators.order_cures import MOST_COLOURS, _free, _lower, _nearest, _placed
from calc.colours import PALETTE
from calc.units import Formatter
from tests.calc.test_calculators_order import CAKE, answered, planned

SAY = Formatter()


def cures(**changes: str) -> list[Any]:
    return list(answered(CAKE | {name.replace("__", "."): text for name, text in changes.items()}).cures)


def at(place: str, found: list[Any]) -> list[tuple[str, list[str]]]:
    """What is said at a row or tier, and what can be pressed."""
    return [(cure.text, [str(press) for press in cure.presses]) for cure in found if cure.at == place]


def test_nothing_is_amiss_with_the_cake() -> None:
    assert cures() == []


@pytest.mark.parametrize(
    "changes, place, text, presses",
    [
        ({"tiers__0__rows__0__tip": "basket 16 mm"}, "tiers.0.rows.0", "A swag is not usually piped with a basket tip.", ["Use petal 11 mm"]),
        ({"tiers__1__rows__1__tip": "round 3 mm"}, "tiers.1.rows.1", "A leaf is not usually piped with a round tip.", ["Use leaf 6 mm"]),
        (
            {"tiers__0__rows__1__place": "side"},
            "tiers.0.rows.1",
            "Shells have nothing to sit on there: they usually go round the base.",
            ["Put it round the base"],
        ),
        (
            {"tiers__0__rows__0__below": "1 mm"},
            "tiers.0.rows.0",
            "past the top edge.",
            ["Have it placed", "Leave it out"],
        ),
        (
            {"tiers__1__rows__2__kind": "shell", "tiers__1__rows__2__place": "top edge"},
            "tiers.1.rows.2",
            "both lie on the top edge and hide each other.",
            ["Put it inside the top edge", "Leave it out"],
        ),
    ],
)
def test_what_is_amiss_is_said_at_its_row(changes: dict[str, str], place: str, text: str, presses: list[str]) -> None:
    found = at(place, cures(**changes))
    assert any(text in told and presses == offered for told, offered in found), found


def test_pieces_over_half_the_side_hide_it() -> None:
    """The side is 10.5 cm high: leaves of over 5.25 cm hide it."""
    for tip, hidden in (("leaf 20 mm", False), ("leaf 21 mm", True)):
        said = [text for text, _ in at("tiers.1.rows.1", cures(tiers__1__rows__1__tip=tip)) if "over half of the 10.5 cm" in text]
        leaf = planned(tiers__1__rows__1__tip=tip).tiers[1].rows[1]
        assert bool(said) == hidden == (leaf.above_mm + leaf.below_mm > 52.5), tip


def test_a_row_is_moved_down_only_where_there_is_room_and_nothing_it_lies_on() -> None:
    bead = {"tiers__0__rows__1__kind": "bead", "tiers__0__rows__1__place": "side"}
    for below, room in (("4 cm", True), ("9.5 cm", False)):
        tier = planned(**bead, tiers__0__rows__1__below=below).tiers[0]
        assert bool(_lower(tier.rows[1], 1, 5.0, tier, SAY)) == room
    tier = planned(**bead, tiers__0__rows__1__below="4 cm").tiers[0]
    (us,) = _lower(tier.rows[1], 1, 5.0, tier, Formatter("us"))
    assert us == "Move it down to 2 in"  # 40 + 5 + 3 = 48 mm, the next eighth after 1 7/8 is 2
    edge = planned(tiers__0__rows__1__kind="bead", tiers__0__rows__1__place="top edge").tiers[0]
    assert _lower(edge.rows[1], 1, 5.0, edge, SAY) == () == _placed(edge.rows[1], 1)
    over = planned(tiers__0__rows__1__kind="line", tiers__0__rows__1__place="over").tiers[0]
    assert _lower(over.rows[1], 1, 5.0, over, SAY) == ()
    (placed,) = _placed(tier.rows[1], 1)
    assert placed == "Have it placed" and placed.done == "Row 2 is placed where there is room."


def test_a_row_left_out_moves_the_others_up() -> None:
    (cure,) = [
        cure
        for cure in cures(tiers__0__rows__0__below="1 mm", tiers__0__rows__2__kind="bead", tiers__0__rows__2__place="top")
        if "top edge" in cure.text
    ]
    press = cure.presses[-1]
    assert press == "Leave it out" and press.clears == ("tiers.0.rows",) and press.done == "Row 1 removed."
    assert dict(press.sets) == {
        "tiers.0.rows.0.kind": "shell",
        "tiers.0.rows.0.place": "base",
        "tiers.0.rows.1.kind": "bead",
        "tiers.0.rows.1.place": "top",
    }


def test_a_drop_too_deep_is_made_shallower_but_not_flat() -> None:
    """From the joints to the shells there are some 8 cm: a drop of 9 is made less. It is made less by as much as it is too deep."""
    deep = cures(tiers__0__rows__0__drop="9 cm", tiers__0__repeats="6")
    ((text, presses),) = at("tiers.0.rows.0", deep)
    assert (
        text.startswith("It reaches ")
        and "past the upper edge of Row 2" in text
        and presses[0].startswith("Make its drop ")
        and presses[1] == "Leave it out"
    )
    low = {"tiers__0__rows__0__drop": "2 cm", "tiers__0__rows__0__tip": "petal 11 mm"}
    for height, past, cure in (
        ("3 cm", "1.1 cm", "Make its drop 9 mm"),
        ("2.6 cm", "1.5 cm", "Make its drop 5 mm"),
    ):  # each as much less as it is too deep
        ((text, presses),) = at("tiers.0.rows.0", cures(**low, tiers__0__height=height))
        assert text == f"It reaches {past} past the upper edge of Row 2." and presses == [cure, "Leave it out"]
    flat = at("tiers.0.rows.0", cures(**low, tiers__0__height="25.9 mm"))
    assert [presses for _, presses in flat] == [["Leave it out"]]  # 4.9 mm would be left of it, and 5 mm is the least that looks like a swag


def test_rows_crowded_on_a_top_are_told_how_far_they_reach() -> None:
    """21 and 19 cm across with their coats: a ledge of 1 cm, and shells of a 13 mm star reach further (how far is today's result)."""
    wide = {
        "tiers__1__width": "18 cm",
        "tiers__0__rows__2__kind": "shell",
        "tiers__0__rows__2__place": "inside",
        "tiers__0__rows__2__tip": "open star 13 mm",
    }
    ((text, presses),) = at("tiers.0.rows.2", cures(**wide))
    assert text == "It reaches 2.5 cm in from the edge, and 1 cm are free beside Upper." and presses == ["Use open star 7 mm", "Leave it out"]


def test_a_colour_of_ones_own_gets_the_first_free_place() -> None:
    answer = Answer("order")
    assert _free(answer) == 0
    answer.fields = {"colours.0.name": "a", "colours.3.look": "#ffffff", "colours.x.name": "b", "colours.12345.name": "c", "tiers.7.name": "d"}
    assert _free(answer) == 4


def test_the_name_that_is_spelled_most_alike_is_offered() -> None:
    assert _nearest("rusett", tuple(PALETTE)) == "russet" and _nearest("ivroy", tuple(PALETTE)) == "ivory"
    assert _nearest("cremes", ("cream", "creme")) == "creme"


def test_an_unknown_colour_is_said_once_and_kept_while_there_is_room_for_it() -> None:
    both = cures(tiers__0__colour="moonless", tiers__1__rows__0__colour="moonless")
    ((text, presses),) = at("tiers.0", both)
    assert text == "The palette has no moonless, so it is drawn like plain buttercream." and presses[1] == "Keep moonless" and len(both) == 1
    for count, offered in ((MOST_COLOURS - 1, 2), (MOST_COLOURS, 1)):
        own = {f"colours__{i}__name": f"own {i}" for i in range(count)} | {f"colours__{i}__look": "#123456" for i in range(count)}
        assert len(at("tiers.0", cures(tiers__0__colour="moonless", **own))[0][1]) == offered
    second = at("tiers.0.rows.0", cures(tiers__0__rows__0__second="moonless"))
    assert second[0][0].startswith("The palette has no moonless")
    assert cures(tiers__0__colour="moonless", colours__0__name="Moonless", colours__0__look="#123456") == []
