"""How the tiers of an order are divided and fitted to one another, and what is made of each colour: small sums worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from calc.division import FRONT_MISSED
from calc.order import PlannedTier, crosses_joint, has_front_joint
from calc.rows import RowSpec
from calc.rows.placement import CLEARANCE_MM, touches
from calc.shapes import outline
from calc.tips import Tip
from tests.calc.test_order_by_hand import SHELL, STAR, SWAG, only, planned, tier

DOTS = RowSpec("dot", Tip("round", 5), colour="cream", place="top edge")  # 1.6 times the opening across: 8 mm
BEADS = RowSpec("bead", Tip("round", 4), colour="cream", place="top")  # 5.6 mm from one to the next and 6.4 mm across
ROSETTES = RowSpec("rosette", Tip("closed star", 5), colour="cream", place="joints", per_joint=2)
BARE = {"layers": 1, "filling_mm": 0.0, "crumb_mm": 0.0, "final_mm": 0.0}  # nothing but what is piped

# --- what an order says when nothing is said ----------------------------------------------------------------------------------------


def test_a_tier_is_fitted_to_nothing_and_has_no_dam_unless_that_is_asked() -> None:
    plain = planned(tier(200.0, SWAG), tier(150.0, SWAG, at=1)).tiers
    assert [one.by_itself for one in plain] == [None, None] and [one.coats.dam_ml for one in plain] == [0, 0]
    assert not any(name in ("front", "at front") for one in plain for choice in one.choices for name, _ in choice.points)
    fitted = only(SWAG, fitted=True)
    assert fitted.by_itself == only(SWAG).division == fitted.division  # one row has nothing to be fitted to but its own joints


# --- how wide a repeat is wanted ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "side, drop, wanted",
    [
        (660.0, 0.0, 82.5),  # an eighth of the side
        (400.0, 0.0, 50.0),  # an eighth is the least that is wanted
        (300.0, 0.0, 50.0),  # an eighth would be 37.5 mm
        (3000.0, 0.0, 90.0),  # an eighth would be 375 mm
        (660.0, 21.0, 52.5),  # a drop of 0.4 of the width hangs well: 21 / 0.4
        (660.0, 36.0, 90.0),
    ],
)
def test_the_width_that_is_wanted_is_an_eighth_of_the_side_or_goes_by_the_drop(side: float, drop: float, wanted: float) -> None:
    made = only(replace(SWAG, drop_mm=drop), measured_mm=side)
    assert [choice.wanted_width_mm for choice in made.choices] == pytest.approx([wanted] * len(made.choices))
    weight = dict(next(choice for choice in made.choices if choice.repeats == 6).points)["width"]
    assert weight == pytest.approx(abs(math.log(side / 6 / wanted)) / math.log(1.1))  # one point for each tenth


def test_with_a_cutter_no_width_is_wanted_and_where_nothing_hangs_a_drop_says_nothing() -> None:
    by_cutter = planned(tier(200.0, SWAG, measured_mm=660.0), cutters_mm=(90.0,)).tiers[0]
    assert {choice.wanted_width_mm for choice in by_cutter.choices} == {None}
    scroll = only(RowSpec("C scroll", STAR, drop_mm=21.0), measured_mm=660.0)
    assert {choice.wanted_width_mm for choice in scroll.choices} == {82.5}


def test_a_cutter_that_was_taken_goes_before_a_better_one() -> None:
    """Swags of 82.5 mm: a cutter of 9 cm marks them whole and one of 7.5 cm leaves a gap, so that it is taken only when it is asked for."""
    both = {"cutters_mm": (90.0, 75.0)}
    assert planned(tier(200.0, SWAG, measured_mm=660.0, repeats=8), **both).tiers[0].division.cutter_mm == 90
    for repeats in (8, None):
        taken = planned(tier(200.0, SWAG, measured_mm=660.0, repeats=repeats, cutter_mm=75.0), **both).tiers[0].division
        assert taken.cutter_mm == 75
    other = planned(tier(200.0, SWAG, measured_mm=660.0, repeats=10, cutter_mm=90.0), **both).tiers[0].division
    assert (other.repeats, other.cutter_mm) == (10, 90)


def test_a_gap_of_a_millimetre_is_covered() -> None:
    """Eight repeats of 660 mm are 82.5 mm wide: a cutter of 81.5 mm leaves 1 mm, which piping covers, and one of 81 mm leaves more."""
    whole, short = (planned(tier(200.0, SWAG, measured_mm=660.0, repeats=8), cutters_mm=(cutter,)).tiers[0] for cutter in (81.5, 81.0))
    assert whole.division.gap_mm == 1 and whole.by_cutter and whole.guide is not None
    assert short.division.gap_mm == 1.5 and not short.by_cutter


# --- room to hang in -----------------------------------------------------------------------------------------------------------------


def test_room_to_hang_in_is_what_height_is_left_under_the_joints() -> None:
    """Nine swags of 660 mm hang 0.4 of 73.3 mm, 29.33 mm: a side with 0.4 mm less room is too low for them, and one with 0.4 mm more is not."""
    swag = only(SWAG, measured_mm=660.0)
    band = swag.rows[0].above_mm + swag.rows[0].below_mm + CLEARANCE_MM
    for more, shell in ((-0.4, False), (0.4, False), (-0.4, True), (0.4, True)):
        foot = 1.9 * 7 if shell else 0.0  # a shell is 1.9 times its opening of 7 mm across
        finished = swag.joints_below_mm + band + foot + 0.4 * 660 / 9 + more
        made = only(SWAG, *((SHELL,) if shell else ()), measured_mm=660.0, height_mm=finished - 8)  # 8 mm of coat on the top
        nine = next(choice for choice in made.choices if choice.repeats == 9)
        assert ("room" in nine.reasons) == (more < 0), (more, shell)


def test_on_a_side_too_low_for_any_swag_they_weigh_as_if_5_mm_were_left() -> None:
    """Six points for a drop that finds no room, and 20 for each time that it is deeper than the room by the room."""
    low = {"height_mm": 20.0, "filling_mm": 3.0}
    lower, upper = planned(tier(250.0, SWAG, measured_mm=900.0), tier(200.0, SWAG, at=1, measured_mm=600.0, **low), together=True).tiers
    assert upper.by_itself is not None and upper.height_mm < upper.joints_below_mm + 20 and "room" not in lower.division.reasons
    for choice in (upper.by_itself, *upper.choices):
        assert dict(choice.points)["room"] == pytest.approx(6 + 20 * (0.4 * 600 / choice.repeats - 5) / 5)


def test_joints_stand_clear_of_any_row_on_the_side_and_of_no_other() -> None:
    """A ruched border does not hang, but round the side its upper half stands between the joints and the edge; round the base it does not."""
    wide = RowSpec("ruched border", Tip("petal", 25), colour="cream", place="side")
    made = only(wide)
    assert made.rows[0].above_mm > 9 and made.joints_below_mm == pytest.approx(CLEARANCE_MM + made.rows[0].above_mm)
    for place in ("base", "top", "joints"):
        assert only(replace(wide, place=place)).joints_below_mm == 12, place


def test_the_curls_of_scrolls_without_a_depth_stay_under_the_edge() -> None:
    """A scroll as wide as an eighth of 660 mm is 0.35 of that deep, 28.9 mm; its curls rise above the joints, and the edge is clear of them."""
    made = only(RowSpec("C scroll", Tip("open star", 4), colour="cream"), measured_mm=660.0, repeats=8)
    scroll = made.rows[0]
    assert scroll.amount.drops_mm == (pytest.approx(0.35 * 82.5),) and scroll.above_mm > 9
    assert made.joints_below_mm == pytest.approx(scroll.above_mm + CLEARANCE_MM) and scroll.top_mm == pytest.approx(CLEARANCE_MM)


# --- rows fitted to the joints -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "side, each",
    [
        (660.0, 10),  # 82.5 mm hold ten dots of 8 mm, and 2.5 mm are left
        (8 * 79.85, 10),  # 9.98 dots: ten are squeezed by less than 3 % of one
        (8 * 79.7475, 9),  # 9.968 dots: ten would be squeezed by more
        (8 * 72.1, 9),
    ],
)
def test_single_pieces_fill_each_repeat_of_a_fitted_tier(side: float, each: int) -> None:
    row = only(DOTS, SWAG, fitted=True, measured_mm=side, repeats=8).rows[0]
    assert row.amount.count == 8 * each and isinstance(row.amount.count, int)
    assert only(DOTS, SWAG, measured_mm=side, repeats=8).rows[0].amount.count == 8  # unless they are fitted: one to a repeat


def test_single_pieces_of_a_fitted_tier_are_as_many_as_asked_and_one_at_least() -> None:
    three = replace(DOTS, per_joint=3)
    assert only(three, fitted=True, measured_mm=660.0, repeats=8).rows[0].amount.count == 24
    large = replace(DOTS, tip=Tip("round", 25))  # 40 mm across, in repeats of 33 mm
    assert only(large, fitted=True, measured_mm=660.0, repeats=20).rows[0].amount.count == 20
    assert only(ROSETTES, fitted=True, measured_mm=660.0, repeats=8).rows[0].amount.count == 16  # at the joints it is never filled up


def test_pieces_side_by_side_meet_the_joints_without_being_counted() -> None:
    """Shells of 11.2 mm: 82.5 mm hold 7.37 of them, and seven come nearer than eight. What is fitted changes nothing of that."""
    for fitted in (False, True):
        assert only(SHELL, fitted=fitted, measured_mm=660.0, repeats=8).rows[0].amount.count == 56


def stretches(made: PlannedTier) -> dict[str, float]:
    """By how much the division stretches the pieces of further rows [%]."""
    return dict(made.division.also)


def test_a_further_row_on_the_edge_is_stretched_by_what_its_pieces_lack_of_a_repeat() -> None:
    """Beads of 5.6 mm round the edge: 82.5 mm hold 14.7 of them; fifteen are squeezed to 5.5 mm, by 1.8 %. Rosettes meet nothing."""
    made = only(SHELL, replace(BEADS, place="top edge"), SWAG, ROSETTES, fitted=True, measured_mm=660.0, repeats=8)
    assert stretches(made) == {"beads": pytest.approx(100 * (5.5 / 5.6 - 1))}
    assert made.rows[1].amount.stretch_percent == pytest.approx(100 * (5.5 / 5.6 - 1))
    assert stretches(only(SHELL, SWAG, ROSETTES, fitted=True, measured_mm=660.0, repeats=8)) == {}


@pytest.mark.parametrize("place", ["top", "inside"])
def test_a_further_row_on_the_top_is_stretched_on_the_shorter_way_round_there(place: str) -> None:
    """A round of 216 mm with its coat, taken by tape as it is: 678.58 mm round.

    A line on the top stands an opening of the tip in from the edge: on a radius of 104 mm, where eight repeats are 81.68 mm, 15 beads
    of 5.445 mm. Behind a border of shells on the edge, 13.3 mm across, half of it and half of a bead in: 98.15 mm, 14 of 5.506 mm.
    """
    beads = replace(BEADS, place=place)
    alone = only(SHELL, beads, fitted=True, repeats=8)
    assert alone.rows[1].line_mm == 4 and alone.rows[1].amount.count == 8 * 15
    assert stretches(alone) == {"beads": pytest.approx(100 * (math.tau * 104 / 120 / 5.6 - 1))}
    behind = only(SHELL, replace(SHELL, place="top edge"), beads, fitted=True, repeats=8)
    assert behind.rows[2].line_mm == pytest.approx(6.65 + 3.2) and behind.rows[2].amount.count == 8 * 14
    assert stretches(behind)["beads"] == pytest.approx(100 * (math.tau * 98.15 / 112 / 5.6 - 1))
    for made in (alone, behind):
        row = made.rows[-1]
        assert stretches(made)["beads"] == pytest.approx(row.amount.stretch_percent)  # what is weighed is what is piped


def test_reverse_shells_on_a_top_stand_half_their_own_width_in() -> None:
    """A tip of 7 mm makes them 16.8 mm across, 12.6 mm apart: half of that is more than its opening, and they run on a radius of 108 - 8.4 mm.

    Eight repeats are 78.2 mm there, and six to each of them are drawn out to 13.04 mm, by 3.5 %.
    """
    made = only(SHELL, RowSpec("reverse shell", STAR, colour="cream", place="top"), fitted=True, repeats=8)
    assert made.rows[1].line_mm == pytest.approx(8.4) and made.rows[1].amount.count == 8 * 6
    assert stretches(made) == {"reverse shells": pytest.approx(100 * (math.tau * 99.6 / 48 / 12.6 - 1))}
    assert stretches(made)["reverse shells"] == pytest.approx(made.rows[1].amount.stretch_percent)


# --- tiers fitted to one another -----------------------------------------------------------------------------------------------------


def test_swags_of_the_upper_tier_are_wanted_as_wide_as_its_side_is_to_the_lower_one() -> None:
    """Ten swags of 90 mm round 900 mm: round 600 mm they are wanted 60 mm wide, ten again; by itself that tier would have eight of 75 mm."""
    lower, upper = tier(270.0, SWAG, measured_mm=900.0, repeats=10), tier(180.0, SWAG, at=1, measured_mm=600.0)
    below, above = planned(lower, upper, together=True).tiers
    assert below.division.width_mm == 90 and above.division.wanted_width_mm == 60 and above.division.repeats == 10
    assert above.by_itself is not None and above.by_itself.repeats == 8 and above.by_itself.wanted_width_mm == 75
    assert below.division.wanted_width_mm == 90  # nothing is under it: an eighth of its side would be more than 9 cm
    apart = planned(lower, upper).tiers[1]
    assert apart.division.wanted_width_mm == 75 and apart.division.repeats == 8


def test_a_tier_goes_by_the_next_one_below_with_something_at_its_joints() -> None:
    """Over a tier of shells alone it goes by the one under that, or by none; rosettes at the joints count as swags do."""
    lower, upper = tier(270.0, SWAG, measured_mm=900.0, repeats=10), tier(150.0, SWAG, at=2, measured_mm=500.0)
    middle = tier(210.0, SHELL, at=1, measured_mm=700.0)
    third = planned(lower, middle, upper, together=True).tiers[2]
    assert third.division.wanted_width_mm == pytest.approx(50)  # 90 mm in 900 are 50 in 500
    shells = tier(270.0, SHELL, measured_mm=900.0)
    assert planned(shells, replace(upper, measured_mm=600.0), together=True).tiers[1].division.wanted_width_mm == 75
    roses = tier(270.0, ROSETTES, measured_mm=900.0, repeats=15)
    assert planned(roses, replace(upper, measured_mm=600.0), together=True).tiers[1].division.wanted_width_mm == 40
    assert [planned(one).tiers[0].joined for one in (lower, shells, roses)] == [True, False, True]


def test_a_joint_is_wanted_at_the_front_only_of_tiers_that_are_fitted_to_one_another() -> None:
    """Half way round from the back: an even number of repeats has a joint there; on an odd one the nearest is half a repeat away."""
    two = (tier(270.0, SWAG, measured_mm=900.0), tier(180.0, SWAG, at=1, measured_mm=600.0))
    for made in planned(*two, together=True).tiers:
        for choice in made.choices:
            assert (("at front", 0.0) if choice.repeats % 2 == 0 else ("front", FRONT_MISSED)) in choice.points
        assert made.has_front_joint
    assert not any("front" in name for choice in only(SWAG, fitted=True).choices for name, _ in choice.points)
    shells = planned(tier(270.0, SHELL), tier(180.0, SHELL, at=1), together=True).tiers
    assert not any("front" in name for made in shells for choice in made.choices for name, _ in choice.points)
    assert [has_front_joint(outline("round", 216.0), repeats) for repeats in (5, 6, 7, 8)] == [False, True, False, True]


# --- colours -------------------------------------------------------------------------------------------------------------------------


def test_two_colours_in_one_bag_are_half_of_its_row_each() -> None:
    """Each has half of what the row weighs, at both ends of its range, and half of a bag's loss of 20 g; one colour alone has the whole of both."""
    alone = planned(tier(200.0, SWAG, repeats=8, **BARE))
    both = planned(tier(200.0, replace(SWAG, second="cream"), repeats=8, **BARE))
    weighs = alone.tiers[0].rows[0].amount
    (one,) = (amount for amount in alone.amounts if amount.colour == "russet")
    assert one.uses == (("bag petal 11 mm", weighs.mass_g),) and one.loss_g == 20
    assert (one.used_low_g, one.used_high_g) == (weighs.low_g, weighs.high_g) and weighs.low_g < weighs.mass_g < weighs.high_g
    halves = [amount for amount in both.amounts if amount.colour in ("russet", "cream")]
    assert len(halves) == 2
    for half in halves:
        assert half.uses == (("bag petal 11 mm, half of a bag", pytest.approx(weighs.mass_g / 2)),) and half.loss_g == 10
        assert (half.used_low_g, half.used_high_g) == (pytest.approx(weighs.low_g / 2), pytest.approx(weighs.high_g / 2))


def test_stripes_take_from_the_ground_what_the_comb_lifts_out_of_it() -> None:
    """A round of 20 cm, 10 cm high: 1 mm of crumb coat is pi (101^3 - 100^3) mm3, 95.2 ml, and 7 mm over it pi (108^3 - 101^3), 720.7 ml.

    Spread by eye the one is out by 40 % and the other by 25 %. Stripes over 40 % of 10.8 cm are 0.4 x 108 pi (108^2 - 101^2) mm3, 198.6 ml,
    whatever the hand does. The ground is made whole and the comb lifts as much out of it again, so ivory takes what a plain coat takes.
    """
    crumb, final, cut = math.pi * 30.301, math.pi * 229.411, 0.4 * 108 * math.pi * 1.463
    for more in ({}, {"striped": ("cream", 4, 40.0)}):
        made = {amount.colour: amount for amount in planned(tier(200.0, **more), density_g_per_ml=0.8).amounts}
        ivory = made["ivory"]
        assert ivory.used_g == pytest.approx(0.8 * (crumb + final))
        assert ivory.used_low_g == pytest.approx(0.8 * (0.6 * crumb + 0.75 * final))
        assert ivory.used_high_g == pytest.approx(0.8 * (1.4 * crumb + 1.25 * final))
    assert dict(ivory.uses) == {
        "crumb coat": pytest.approx(0.8 * crumb),
        "ground of the coat": pytest.approx(0.8 * (final - cut)),
        "lifted by the comb": pytest.approx(0.8 * cut),
    }
    cream = made["cream"]
    assert cream.uses == (("stripes", pytest.approx(0.8 * cut)),) and cream.used_low_g == pytest.approx(cream.used_high_g) == 0.8 * cut


def test_under_a_disc_a_banded_coat_strays_by_what_the_sponge_shrank_alone() -> None:
    """A disc of 21.6 cm sets crumb and coat together: the high end has 1.5 mm on the side of the sponge more, 628.3 x 100 x 1.5 mm3 or 94.2 ml.

    Each of two colours is laid a little past its edge, 15 % more of the final coat at the high end; the crumb coat under them is the first one's.
    """
    made = planned(tier(200.0, final_mm=None, disc_mm=216.0, bands=(("blush", 50.0), ("russet", 50.0))), density_g_per_ml=0.8)
    crumb, final, shrank = math.pi * 30.301, math.pi * 229.411, math.tau * 100 * 100 * 1.5 / 1000
    used = [amount for amount in made.amounts if amount.colour != "plain"]
    assert {amount.colour for amount in used} == {"ivory", "blush", "russet"}
    assert math.fsum(amount.used_g for amount in used) == pytest.approx(0.8 * (crumb + final))
    assert math.fsum(amount.used_low_g for amount in used) == pytest.approx(0.8 * (crumb + final))
    assert math.fsum(amount.used_high_g for amount in used) == pytest.approx(0.8 * (crumb + 1.15 * (final + shrank)))
    assert next(amount for amount in used if amount.colour == "ivory").uses == (("crumb coat", pytest.approx(0.8 * crumb)),)


# --- the order of piping -------------------------------------------------------------------------------------------------------------


def test_the_base_of_an_upper_tier_is_piped_last_only_where_tiers_are_stacked_at_the_venue() -> None:
    """Shells at the base come before the top and those of the upper tier first; at the venue they cover the joint once it is there."""
    tiers = (tier(250.0, SHELL, BEADS), tier(150.0, SHELL, at=1))
    home, venue = (planned(*tiers, stacked=where).steps for where in ("home", "venue"))
    assert [(step.row.tier, step.row.place, step.after_stacking) for step in home] == [(1, "base", False), (0, "base", False), (0, "top", False)]
    assert [(step.row.tier, step.row.place, step.after_stacking) for step in venue] == [(0, "base", False), (0, "top", False), (1, "base", True)]
    assert [(crosses_joint(step.row), step.number) for step in venue] == [(False, 1), (False, 2), (True, 3)]


def test_what_stands_round_the_base_is_not_told_to_be_hard_to_reach() -> None:
    """Shells 2 mm under a swag that stands out further are met by a tip from above, but they are piped from the board's side."""
    swag = replace(SWAG, tip=Tip("petal", 20), drop_mm=30.0)
    high = only(swag).rows[0]
    small = replace(SHELL, tip=Tip("open star", 4))  # 7.6 mm across
    cake = planned(tier(200.0, swag, small, height_mm=high.lowest_mm + 2 + 7.6 - 8))
    rows = [step.row for step in cake.steps]
    assert [row.place for row in rows] == ["side", "base"] and touches(rows) == ((1, 0),) and cake.in_the_way == ()
