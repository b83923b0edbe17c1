"""What is told of a look that was fitted: how each tier is divided, what was changed and why, and which tips are other ones than usual."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.schemes import SCHEMES, Change, Fitted, Part, fit, what_changed
from calc.tips import Tip
from calc.units import Formatter
from tests.calc.test_schemes import order_from

ROPE, SHELLS, STRINGS = Part("rope", "top edge", 1), Part("shell", "base", 0), Part("string", "side", 1, layers=3)
ROSETTES, LEAVES, BEADS = Part("rosette", "joints", 2), Part("leaf", "joints", 3), Part("bead", "side", 1)


def fitted(key: str = "washing-line", width: float = 180.0, height: float = 100.0, cutters: str = "9 cm") -> Fitted:
    return fit(SCHEMES[key], order_from([("round", width, height)], cutters))


def told(*changes: Change, **more: object) -> list[str]:
    """The sentences of a tier 10.5 cm high with these changes, after the one on how it is divided."""
    found = fitted()
    tier = replace(found.tiers[0], changes=changes, **more)
    sentences = what_changed(replace(found, tiers=(tier,)), Formatter())
    return [sentence.removeprefix("Tier: ") for sentence in sentences[1:]]


ROOM = "for want of room on a side 10.5 cm high."  # 10 cm of sponge and 5 mm of coat


@pytest.mark.parametrize(
    "gone, words",
    [
        ([ROPE], "the rope on the top edge left out"),
        ([ROPE, SHELLS], "the rope on the top edge and the shells round the base left out"),
        ([ROPE, SHELLS, ROSETTES, ROPE], "the rope on the top edge, the shells round the base and the rosettes at the joints left out"),
        ([STRINGS], "the string left out"),
        ([Part("bead", "inside", 1), Part("shell", "top", 1)], "the beads inside the top edge and the shells on the top left out"),
    ],
)
def test_rows_that_were_left_out_share_a_sentence(gone: list[Part], words: str) -> None:
    assert told(*(Change("left out", part, None, None, "room") for part in gone)) == [f"{words}, {ROOM}"]


@pytest.mark.parametrize(
    "change, words",
    [
        (
            Change("tip", SHELLS, Tip("open star", 7), Tip("open star", 6), "room"),
            "the shells round the base from open star 6 mm instead of open star 7 mm",
        ),
        (Change("tip", SHELLS, None, Tip("open star", 6), "room"), "the shells round the base from open star 6 mm"),
        (Change("drop", STRINGS, 32.0, 20.0, "room"), "the string 2 cm deep instead of 3.2 cm"),
        (Change("drop", STRINGS, None, 20.0, "room"), "the string 2 cm deep"),
        (Change("layers", STRINGS, 2, 1, "room"), "the string once instead of twice"),
        (Change("layers", STRINGS, 3, 2, "room"), "the string twice instead of three times"),
        (Change("layers", STRINGS, 5, 4, "room"), "the string four times instead of five times"),
        (Change("number", LEAVES, 3, 1, "room"), "the leaves at the joints: 1 at each instead of 3"),
        (Change("place", BEADS, 30.0, None, "room"), "the beads placed again"),
    ],
)
def test_a_change_is_told_with_what_was_before(change: Change, words: str) -> None:
    assert told(change) == [f"{words}, {ROOM}"]


def test_changes_for_one_reason_share_a_sentence_and_other_reasons_have_their_own() -> None:
    """180 mm of sponge and 10 of coat are 597 mm round: 7 repeats of 85 mm; what is left out comes last."""
    found = fitted()
    division = found.tiers[0].planned.division
    repeats = f"{division.repeats} repeats of {Formatter().length(division.width_mm)}"
    assert told(
        Change("left out", ROPE, None, None, "room"),
        Change("layers", STRINGS, 3, 2, "room"),
        Change("tip", SHELLS, Tip("open star", 7), Tip("open star", 6), "fit"),
        Change("left out", Part("shell", "top", 1), None, None, "ledge"),
    ) == [
        f"the string twice instead of three times; the rope on the top edge left out, {ROOM}",
        f"the shells round the base from open star 6 mm instead of open star 7 mm, to suit {repeats}.",
        "the shells on the top left out, for want of room on its top.",
    ]


def first_sentence(**more: object) -> str:
    """How a tier with strings is said to be divided, with something of the division or the cutter changed."""
    found = fitted()
    tier = found.tiers[0]
    planned = replace(tier.planned, division=replace(tier.planned.division, **more))
    return what_changed(replace(found, tiers=(replace(tier, planned=planned),)), Formatter())[0]


def test_how_a_tier_is_divided() -> None:
    """7 repeats go 597 mm round, 85 mm each, 9 cm cutter; its strings hang three deep, so that even one repeat has several."""
    drop = fitted().tiers[0].planned.drop_mm
    tail = f"drop {Formatter().length(drop)}."
    assert first_sentence() == f"Tier: 7 strings of 8.5 cm, with the 9 cm cutter, {tail}"
    assert first_sentence(repeats=1) == f"Tier: 1 strings of 8.5 cm, with the 9 cm cutter, {tail}"
    assert first_sentence(repeats=3) == f"Tier: 3 strings of 8.5 cm, with the 9 cm cutter, {tail}"  # as many as hang in each
    assert first_sentence(gap_mm=30.0) == f"Tier: 7 strings of 8.5 cm, marked from a paper strip, {tail}"
    assert first_sentence(cutter_mm=None) == f"Tier: 7 strings of 8.5 cm, marked from a paper strip, {tail}"


def test_one_swag_is_one_and_two_are_several() -> None:
    found = fitted("hay-cart")
    tier = found.tiers[0]

    def words(repeats: int) -> str:
        planned = replace(tier.planned, division=replace(tier.planned.division, repeats=repeats))
        return what_changed(replace(found, tiers=(replace(tier, planned=planned),)), Formatter())[0].split(",")[0]

    assert words(1).startswith("Tier: 1 swag of") and words(2).startswith("Tier: 2 swags of")


def test_a_tier_without_anything_that_hangs_has_repeats_and_nothing_to_mark() -> None:
    """190 mm of coated cake is 597 mm round."""
    found = fitted("one-hem")
    repeats = found.tiers[0].planned.division.repeats
    assert what_changed(found, Formatter()) == (
        f"Tier: {repeats} repeats of {Formatter().length(190 * 3.14159265 / repeats)}, nothing to mark with a cutter.",
    )


def test_a_tier_without_rows_says_so() -> None:
    assert told(rows=()) == [] and what_changed(replace(fitted(), tiers=(replace(fitted().tiers[0], rows=()),)), Formatter()) == ("Tier: no rows.",)


def tips_told(key: str, width: float, height: float) -> list[str]:
    return [sentence for sentence in what_changed(fitted(key, width, height), Formatter()) if "tips than usual" in sentence]


def test_tips_of_usual_size_need_no_words() -> None:
    """18 cm wide and 10 cm high is what the tips are named for."""
    assert all(tips_told(key, 180.0, 100.0) == [] for key in SCHEMES)


def test_three_tips_are_all_named_and_more_only_as_examples() -> None:
    """A quarter of the area, 90 mm wide by 50 mm high, is half the size; no look gets finer than 0.55 of it. First frost pipes with three tips
    (6, 4 and 3 mm: 3.3, 2.2 and 1.65 mm, whose nearest are 3, 2 and 1.8 mm; 2.2 lies nearer to 2 than to 2.5), washing line with four."""
    assert tips_told("first-frost", 90.0, 50.0) == [
        "Finer tips than usual, for tiers of this size: round 3 mm for round 6 mm, round 2 mm for round 4 mm, round 1.8 mm for round 3 mm."
    ]
    (words,) = tips_told("washing-line", 90.0, 50.0)
    assert words == (
        "Finer tips than usual, for tiers of this size, such as "
        "round 1 mm for round 1.8 mm, open star 3.5 mm for open star 6 mm, round 3 mm for round 5 mm."
    )


def test_wider_tips_are_called_wider() -> None:
    """400 mm by 200 mm is more than twice the size: 1.4 times the tips at most. 7 mm of shells become 9.8, next to 10."""
    (words,) = tips_told("one-hem", 400.0, 200.0)
    assert words.startswith("Wider tips than usual, for tiers of this size: open star 10 mm for open star 7 mm, open star 8 mm for open star 6 mm.")


def test_only_tips_of_rows_that_are_there_are_told() -> None:
    """Shells round the base are piped, those along the edge are not on this tier: their tip is of no matter here."""
    found = fitted("one-hem", 400.0, 200.0)
    tier = replace(found.tiers[0], rows=tuple(row for row in found.tiers[0].rows if row.place == "base"))
    assert (
        what_changed(replace(found, tiers=(tier,)), Formatter())[-1]
        == "Wider tips than usual, for tiers of this size: open star 10 mm for open star 7 mm."
    )
