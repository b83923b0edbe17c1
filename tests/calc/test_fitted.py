"""Rows fitted to the same joints, and tiers fitted to one another: what is chosen, what is said, and that it is given back."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, Press, parse, run
from calc.calculators.order_form import CALCULATOR as ORDER
from calc.calculators.order_form import order_of
from calc.division import FRONT_MISSED, division_choices, fitted_choices
from calc.order import Plan, PlannedTier, plan

SUPPER = (Path(__file__).parents[2] / "docs/plan/harvest-supper.toml").read_text(encoding="utf-8")
TWO_TIERS = {
    "cutters": "9 cm, 7.5 cm",
    "tiers.0.name": "Lower",
    "tiers.0.width": "25 cm",
    "tiers.1.name": "Upper",
    "tiers.1.width": "15 cm",
    **{f"tiers.{tier}.rows.{row}.{name}": text for tier in (0, 1) for row, one in enumerate((
        {"kind": "swag", "tip": "petal 9 mm"},
        {"kind": "dot", "place": "top edge", "tip": "round 5 mm"},
        {"kind": "shell", "place": "base", "tip": "open star 7 mm"},
        {"kind": "bead", "place": "top", "tip": "round 4 mm"},
        {"kind": "rosette", "place": "joints", "tip": "closed star 5 mm", "per_joint": "2"},
    )) for name, text in one.items()},
}  # fmt: skip
TOGETHER = {"together": "yes"}
FITTED = {"tiers.0.fit": "all", "tiers.1.fit": "all"}


def planned(*texts: dict[str, str]) -> Plan:
    """The plan of the two tiers, with more typed."""
    return plan(order_of(parse(ORDER, {name: text for one in (TWO_TIERS, *texts) for name, text in one.items()})))


def presses(answer: Answer) -> dict[str, Press]:
    """The presses of the section on rows, by their words."""
    assert not answer.problems, answer.problems
    return {press: press for note in answer.notes for press in note.get("presses", ())}


@pytest.mark.parametrize("shape", ["round", "square", "heart", "hexagon", "petal"])
def test_every_row_of_a_fitted_tier_is_whole_pieces_from_joint_to_joint(shape: str) -> None:
    """Dots that were one to a repeat fill it without overlapping; how many sit at a joint stays as asked."""
    shapes = {"tiers.0.shape": shape, "tiers.1.shape": shape}
    for before, after in zip(planned(shapes).tiers, planned(shapes, FITTED).tiers, strict=True):
        assert [row.amount.count for row in before.rows if row.spec.kind == "dot"] == [before.division.repeats]
        for row in after.rows:
            assert row.amount.count % after.division.repeats == 0
            if row.spec.kind == "dot":
                assert 0.97 <= row.amount.pitch_mm / row.what.natural_pitch_mm(row.tip) < 1.2
            if row.place == "joints":
                assert row.amount.count == 2 * after.division.repeats


def test_as_many_single_pieces_as_asked_go_into_each_repeat() -> None:
    """Three roses to a repeat, not as many as touch."""
    tier = planned(FITTED, {"tiers.0.rows.1.per_joint": "3"}).tiers[0]
    assert tier.rows[1].amount.count == 3 * tier.division.repeats


def test_repeats_go_by_every_row_of_pieces_once_they_are_fitted() -> None:
    """Nine swags of 73 mm are best by themselves; beads of 48 mm would be squeezed by 24 % there, and by 14 % on eight of 82.5 mm."""
    found = division_choices(660.0, (90.0, 75.0))
    again = fitted_choices(found, pieces=[("beads", 48.0)])
    assert (found[0].repeats, again[0].repeats) == (9, 8)
    stretch = next(one.also for one in again if one.repeats == 9)
    assert stretch == (("beads", pytest.approx(100 * (660 / 9 / 96 - 1))),)
    before = {(one.repeats, one.cutter_mm): one.penalty for one in found}
    assert again[0].penalty - before[8, 90.0] == pytest.approx((1 - 82.5 / 96) * 100 / 30)
    penalties = [one.penalty for one in again]
    assert penalties == sorted(penalties)


def test_tiers_fitted_to_one_another_have_a_joint_at_the_front_and_swags_in_proportion() -> None:
    """Widths go as the sides, to within what closes and what a cutter marks; none has its joint missing at the front."""
    for shape in ("round", "square", "heart", "hexagon", "oval"):
        more = {f"tiers.{tier}.{name}": text for tier in (0, 1) for name, text in (("shape", shape), ("length", "30 cm" if tier == 0 else "20 cm"))}
        lower, upper = planned(more, TOGETHER).tiers
        assert lower.has_front_joint and upper.has_front_joint, shape
        assert upper.division.width_mm < lower.division.width_mm, shape
        assert abs(out_of_proportion(lower, upper)) <= abs(out_of_proportion(*planned(more).tiers)), shape


def out_of_proportion(lower: PlannedTier, upper: PlannedTier) -> float:
    """By how much the swags of an upper tier are wider or narrower than they would be in proportion to those below."""
    return math.log(upper.division.width_mm / upper.side_mm / (lower.division.width_mm / lower.side_mm))


def test_a_cutter_that_would_bring_the_tiers_into_proportion_is_offered() -> None:
    """With cutters of 9 and 7.5 cm narrow swags hang flat; the one offered is as much smaller as the tier, and with it they have as many repeats."""
    texts = {**TWO_TIERS, **TOGETHER}
    press = next(each for words, each in presses(run(ORDER, texts)).items() if words.endswith("cutter there"))
    lower, upper = planned(TOGETHER, dict(press.sets)).tiers
    assert upper.division.cutter_mm is not None and lower.division.cutter_mm is not None
    assert upper.division.cutter_mm / lower.division.cutter_mm == pytest.approx(upper.side_mm / lower.side_mm, abs=0.05)
    assert upper.division.repeats == lower.division.repeats
    assert not any(words.endswith("cutter there") for words in presses(run(ORDER, {**texts, **press.sets})))


def test_half_way_round_is_the_front() -> None:
    """An even number of repeats on a round, counted from the back, has a joint there and an odd one has none."""
    for repeats in range(5, 12):
        assert planned({"tiers.0.repeats": str(repeats)}).tiers[0].has_front_joint == (repeats % 2 == 0)
    missed = planned(TOGETHER, {"tiers.0.repeats": "9"}).tiers[0]
    assert missed.division.repeats == 9 and ("front", FRONT_MISSED) in missed.division.points


def test_what_is_pressed_is_said_and_is_given_back() -> None:
    """Each press makes a form that offers the way back, which gives the first answer again."""
    before = run(ORDER, TWO_TIERS)
    for words, back in (
        ("Fit all rows to the same joints", ("Divide its rows separately",)),
        ("Fit the tiers to one another", ("Divide each tier separately",)),
    ):
        press = presses(before)[words]
        after = run(ORDER, {**TWO_TIERS, **press.sets})
        assert after.tables != before.tables and press.done
        ended = {**TWO_TIERS, **press.sets}
        for note in after.notes:
            for each in note.get("presses", ()):
                if each in back:
                    ended |= each.sets
        assert run(ORDER, ended).tables == before.tables
    told = [note["text"] for note in run(ORDER, {**TWO_TIERS, **TOGETHER}).notes]
    assert any("fitted to one another" in text and "a joint at the front of each" in text for text in told)
    told = [note["text"] for note in run(ORDER, {**TWO_TIERS, **FITTED}).notes]
    assert any(text.startswith("Lower: all rows meet the same") and "rosettes 2 at each joint" in text for text in told)


def test_nothing_is_offered_that_would_change_nothing() -> None:
    """The rows of the harvest supper meet their joints as they stand; one tier has none to be fitted to."""
    assert "Fit all rows to the same joints" not in presses(run(ORDER, {"order": SUPPER}))
    single = {name: text for name, text in TWO_TIERS.items() if not name.startswith("tiers.1.")}
    assert "Fit the tiers to one another" not in presses(run(CALCULATORS["order"], single))
