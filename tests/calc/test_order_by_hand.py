"""Small orders worked by hand: sums of the coats, room on the tops, joints and repeats, strips that were weighed, and limits."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

import pytest

from calc.buttercream import density_g_per_ml
from calc.coats import stripes
from calc.division import GAP_COVERED_MM
from calc.order import CORNERS_MISSED, JOINTS_BELOW_MM, Calibration, Order, Plan, PlannedTier, TierOrder, chords_of, ledge_mm, pieces_of, plan
from calc.rows import RowSpec, natural_pitch_mm
from calc.rows.placement import CLEARANCE_MM
from calc.shapes import outline
from calc.stack import seat_mm
from calc.tips import Tip
from calc.units import Problem

PETAL, STAR, FINE = Tip("petal", 11), Tip("open star", 7), Tip("round", 1.8)
SWAG, SHELL = RowSpec("swag", PETAL, colour="russet", path="tiers.0.rows.0."), RowSpec("shell", STAR, colour="cream", place="base")


def tier(width_mm: float = 200.0, *rows: RowSpec, shape: str = "round", at: int = 0, **more: object) -> TierOrder:
    """A tier of 10 cm in two layers under a coat of 8 mm."""
    made = TierOrder(f"Tier {at}", outline(shape, width_mm), 100.0, 2, 6.0, 1.0, 7.0, None, None, "ivory", rows, path=f"tiers.{at}.")
    return replace(made, **more)  # type: ignore[arg-type]


def order(*tiers: TierOrder, **more: object) -> Order:
    made = Order("Cake", dt.datetime(2031, 5, 3, 14), 20, (25.0, 50.0), tiers)
    return replace(made, **more)  # type: ignore[arg-type]


def planned(*tiers: TierOrder, **more: object) -> Plan:
    return plan(order(*tiers, **more))


def only(*rows: RowSpec, **more: object) -> PlannedTier:
    return planned(tier(200.0, *rows, **more)).tiers[0]


# --- sums ----------------------------------------------------------------------------------------------------------------------


def test_what_the_coats_weigh_is_their_volume_in_the_density_that_was_given() -> None:
    cake = planned(tier(200.0, SHELL, dam_mm=10.0), density_g_per_ml=0.8)
    coats = cake.tiers[0].coats
    assert cake.density == 0.8 and coats.dam_ml > 0
    assert cake.filling_g == pytest.approx(0.8 * (coats.filling_ml + coats.dam_ml)) and cake.coat_g == pytest.approx(0.8 * coats.coat_ml)
    made = {amount.colour: amount for amount in cake.amounts}
    assert made["plain"].used_g == pytest.approx(cake.filling_g) and made["ivory"].used_g == pytest.approx(cake.coat_g)
    assert made["cream"].used_g == pytest.approx(cake.piping_g) and cake.piping_low_g < cake.piping_g < cake.piping_high_g
    for amount in cake.amounts:
        assert 0.5 * amount.mass_g < amount.low_g < amount.mass_g < amount.high_g < 2 * amount.mass_g
    assert planned(tier()).density == density_g_per_ml("swiss_meringue")


def test_bands_share_the_coat_and_stripes_are_cut_out_of_it() -> None:
    for more in ({"bands": (("russet", 50.0), ("blush", 50.0))}, {"striped": ("cream", 4, 40.0)}):
        cake = planned(tier(200.0, **more), density_g_per_ml=0.8)
        coats = cake.tiers[0].coats
        used = math.fsum(amount.used_g for amount in cake.amounts)
        assert used == pytest.approx(0.8 * (coats.filling_ml + coats.crumb_ml + coats.final_ml) + cake.lifted_g)
        for amount in cake.amounts:
            assert 0 < amount.low_g <= amount.mass_g <= amount.high_g < 2 * amount.mass_g
    stripes = cake.tiers[0].stripes
    assert stripes is not None and stripes.count == 4 and cake.lifted_g == pytest.approx(0.8 * stripes.lifted_ml)
    assert next(amount for amount in cake.amounts if amount.colour == "cream").used_g == pytest.approx(0.8 * stripes.stripes_ml)


def test_portions_are_short_or_nothing_is() -> None:
    cake = planned(tier())
    assert cake.portions == cake.tiers[0].cut.count > 0 and cake.short == max(0, 20 - cake.portions)
    assert planned(tier(), guests=cake.portions + 7).short == 7 and planned(tier(), guests=1).short == 0


def test_only_the_top_of_several_tiers_is_kept() -> None:
    two = (tier(250.0), tier(150.0, at=1))
    assert [t.counted for t in planned(*two, keep_top=True).tiers] == [True, False]
    assert [t.counted for t in planned(*two).tiers] == [True, True]
    assert [t.counted for t in planned(tier(), keep_top=True).tiers] == [True]
    assert [t.counted for t in planned(tier(300.0), tier(220.0, at=1), tier(150.0, at=2), keep_top=True).tiers] == [True, True, False]


def test_tiers_stand_on_each_other_from_nothing_up() -> None:
    cake = planned(tier(250.0), tier(150.0, at=1))
    assert [t.base_mm for t in cake.tiers] == [0, pytest.approx(cake.tiers[0].height_mm)]
    assert [step.number for step in planned(tier(200.0, SWAG, SHELL)).steps] == [1, 2]


# --- what cannot stand -----------------------------------------------------------------------------------------------------------


def problem(*tiers: TierOrder, **more: object) -> Problem:
    with pytest.raises(Problem) as caught:
        planned(*tiers, **more)
    return caught.value


def test_what_cannot_be_built_is_said_at_its_input() -> None:
    assert problem().input == "tiers"
    wide = problem(tier(150.0), tier(200.0, at=1))
    assert wide.input == "tiers.1.width" and "is wider than" in wide.message
    assert problem(tier(250.0), tier(200.0, at=1), tier(220.0, at=2)).input == "tiers.2.width"
    corners = problem(tier(200.0), tier(200.0, shape="square", at=1))
    assert corners.input == "tiers.1.width" and "hangs over" in corners.message
    assert problem(tier(200.0), tier(198.0, at=1, final_mm=15.0)).input == "tiers.1.final"
    assert problem(tier(200.0), tier(198.0, at=1, final_mm=None, disc_mm=240.0)).input == "tiers.1.disc"
    bare = {"layers": 1, "filling_mm": 0.0, "crumb_mm": 0.0, "final_mm": 0.0}
    nothing = problem(tier(250.0, **bare), tier(150.0, at=1, **bare))
    assert nothing.input == "tiers.0.final" and "no buttercream to work out" in nothing.message
    assert planned(tier(200.0, SHELL, **bare)).coat_g == 0


# --- joints and repeats --------------------------------------------------------------------------------------------------------


def test_joints_leave_room_for_the_border_and_for_what_hangs() -> None:
    assert only().joints_below_mm == JOINTS_BELOW_MM == 12
    edge, swag = (made := only(RowSpec("ruched border", PETAL, place="top edge"), SWAG)).rows
    assert made.joints_below_mm == pytest.approx(edge.below_mm + CLEARANCE_MM + swag.above_mm)
    assert only(SHELL).joints_below_mm == 12  # what stands at the base takes nothing from the top
    assert only(SWAG, joints_below_mm=30.0).joints_below_mm == 30 == only(SWAG, joints_below_mm=30.0).line_mm
    assert not made.clashes


def test_the_marked_curve_is_that_of_the_first_row_that_hangs() -> None:
    hung = only(replace(SWAG, drop_mm=25.0))
    assert hung.drop_mm == 25 and hung.marked and hung.first_hung is hung.rows[0] and hung.line_mm == hung.rows[0].line_mm
    bare = only(SHELL, joints_below_mm=20.0)
    assert not bare.marked and bare.first_hung is None and bare.line_mm == 20 and bare.drop_mm == bare.division.drop_mm


def test_a_cutter_marks_the_curve_where_it_leaves_no_gap_and_its_drop_is_piped() -> None:
    def asked(cutter: float, repeats: int, drop: float = 0.0) -> PlannedTier:
        return planned(tier(200.0, replace(SWAG, drop_mm=drop), measured_mm=660.0, repeats=repeats), cutters_mm=(cutter,)).tiers[0]

    fits = asked(90.0, 8)  # 82.5 mm wide
    assert fits.by_cutter and fits.guide is not None and fits.division.gap_mm == 0
    gap = asked(60.0, 6)  # 110 mm wide
    assert gap.division.gap_mm > GAP_COVERED_MM and not gap.by_cutter and gap.guide is None
    other = asked(90.0, 8, 55.0)
    assert not other.by_cutter and other.guide is None and other.drop_mm == 55
    assert not only(SWAG).by_cutter and only(SWAG).guide is None


def test_a_tape_wins_and_the_outline_is_scaled_to_it() -> None:
    taped = only(measured_mm=660.0)
    assert taped.side_mm == 660 and taped.measured.perimeter_mm == pytest.approx(660)
    assert taped.tape_off_percent is not None and only().tape_off_percent is None


def test_repeats_that_are_chosen_put_a_joint_on_every_corner() -> None:
    made = only(SWAG, shape="square")
    assert made.division.repeats % 4 == 0 and "corners" not in made.division.reasons
    missed = [choice for choice in made.choices if choice.repeats % 4]
    assert missed and all("corners" in choice.reasons and choice.penalty >= CORNERS_MISSED for choice in missed)
    penalties = [choice.penalty for choice in made.choices]
    assert penalties == sorted(penalties)
    assert not any("corners" in choice.reasons for choice in only(SWAG).choices)


def test_without_a_cutter_swags_are_as_wide_as_their_drop_wants_or_an_eighth_of_the_side() -> None:
    """A side of 660 mm: swags of about 82 mm, eight of them; a side of 300 mm takes at least 50 mm, a long one at most 90 mm each."""
    assert only(SWAG, measured_mm=660.0).division.repeats == 8
    assert 300 / only(SWAG, measured_mm=300.0).division.repeats == pytest.approx(50, abs=12)
    shallow, deep = (only(replace(SWAG, drop_mm=drop), measured_mm=660.0).division for drop in (20.0, 40.0))
    assert deep.width_mm > shallow.width_mm
    assert only(SWAG, repeats=7).division.repeats == 7


def test_what_the_maker_takes_stays_in_the_ranking_that_it_was_taken_from() -> None:
    """Repeats and cutter that are taken, or a cutter of one tier's own, leave every other way where it stood; beyond the usual range they join it."""
    free = only(SWAG, measured_mm=660.0)
    other = free.choices[2]
    taken = only(SWAG, measured_mm=660.0, repeats=other.repeats, cutter_mm=other.cutter_mm)
    assert taken.division == other and taken.choices == free.choices
    assert only(SWAG, measured_mm=660.0, repeats=100).division.repeats == 100
    own = only(SWAG, measured_mm=660.0, cutter_mm=61.0)
    assert own.division.cutter_mm == 61.0 and {choice.cutter_mm for choice in own.choices} == {61.0}


@pytest.mark.parametrize("side, most", [(115.0, 4), (660.0, 22), (1000.0, 33), (3000.0, 60)])
def test_repeats_are_looked_for_down_to_3_cm_each(side: float, most: int) -> None:
    """At least four on a round, at most sixty; three where there are corners."""
    for row in (SHELL, SWAG):
        assert sorted({choice.repeats for choice in only(row, measured_mm=side).choices}) == list(range(4, most + 1))
    square = {choice.repeats for choice in only(SHELL, shape="square", measured_mm=side).choices}
    assert sorted(square) == list(range(3, most + 1))


def test_swags_hang_as_deep_as_the_height_leaves_room_for() -> None:
    """Room is the height less the joints' place, what stands round the foot, and the bands of the rows on the side with the clearance of each.

    On a low tier repeats are as wide as their drop, 0.4 of the width, fits that room; one repeat fewer would hang deeper than it.
    """
    border = RowSpec("shell", Tip("open star", 12), colour="cream", place="top edge")
    for rows, height in (((border, SWAG), 52.0), ((SWAG, replace(border, place="base")), 66.0), ((SWAG, SWAG), 58.0), ((SWAG,), 44.0)):
        made = only(*rows, measured_mm=660.0, height_mm=height)
        foot = sum(row.above_mm + row.below_mm for row in made.rows if row.place == "base")
        stacked = sum(row.above_mm + row.below_mm + CLEARANCE_MM for row in made.rows if row.place == "side")
        room = made.height_mm - made.joints_below_mm - foot - stacked
        repeats, drop = made.division.repeats, made.division.drop_mm
        assert drop == pytest.approx(0.4 * 660 / repeats) and drop <= room < 0.4 * 660 / (repeats - 1), (rows, room, drop)


def test_a_drop_of_more_than_twice_the_width_is_said_at_its_row() -> None:
    """Twelve repeats of 660 mm are 55 mm wide: a drop of 110 mm is the most."""
    said = problem(tier(200.0, replace(SWAG, drop_mm=111.0), measured_mm=660.0, repeats=12, height_mm=250.0))
    assert said.input == "tiers.0.rows.0.drop" and "11 cm" in said.message
    kept = only(replace(SWAG, drop_mm=110.0), measured_mm=660.0, repeats=12, height_mm=250.0)
    assert kept.drop_mm == 110
    assert only(replace(SWAG, drop_mm=60.0), measured_mm=660.0, repeats=12).drop_mm == 60


def test_dividers_are_set_to_chords() -> None:
    """Eight joints round 660 mm: 660/pi times the sine of 22.5 degrees, 80.4 mm. A square's chords follow the measured side."""
    assert chords_of(only(SWAG, measured_mm=660.0, repeats=8)) == pytest.approx((80.396,) * 8, abs=1e-3)
    square = only(SWAG, shape="square", repeats=4)
    larger = only(SWAG, shape="square", repeats=4, measured_mm=1.05 * square.perimeter_mm)
    assert [b / a for a, b in zip(chords_of(square), chords_of(larger), strict=True)] == pytest.approx([1.05] * 4, rel=1e-6)


def test_shells_of_a_repeat_meet_its_joints() -> None:
    made = only(SHELL, measured_mm=660.0, repeats=6)
    count, stretch = pieces_of(made.rows[0], 6)
    assert count == 10 and stretch == pytest.approx(100 * (110 / 10 / natural_pitch_mm("shell", STAR) - 1))


# --- rows ------------------------------------------------------------------------------------------------------------------------


def test_as_many_flowers_as_joints_take() -> None:
    rosette = RowSpec("rosette", Tip("closed star", 5), place="joints", colour="cream", per_joint=3)
    assert only(rosette, repeats=6).rows[0].amount.count == 18


def test_a_strip_of_the_row_itself_goes_before_a_plain_line_of_its_tip() -> None:
    """30 cm that weigh 21 g are 70 g/m, and 30 cm that weigh 12 g are 40 g/m; other tips and other rows tell nothing."""
    other = Calibration(STAR, "line", 300.0, 3.0)
    line, same, border = (Calibration(PETAL, kind, 300.0, mass) for kind, mass in (("line", 12.0), ("swag", 21.0), ("ruched border", 9.0)))

    def weight(*measured: Calibration) -> float:
        row = planned(tier(200.0, SWAG), measured=measured).tiers[0].rows[0]
        return row.amount.mass_g / row.amount.length_mm * 1000

    for measured in ((same,), (other, line, same), (same, line), (line, border, same)):
        assert weight(*measured) == pytest.approx(70)
    assert weight(other, line) == pytest.approx(40) == weight(line, border)
    assert weight(other, border) == pytest.approx(weight())


def test_a_row_too_much_for_its_tip_or_drop_is_said_there() -> None:
    deep = problem(tier(200.0, RowSpec("C scroll", FINE, drop_mm=6000.0, path="tiers.0.rows.0.")))
    assert deep.input == "tiers.0.rows.0.drop" and "Drop" in deep.message


# --- room on the top -----------------------------------------------------------------------------------------------------------


def test_a_ledge_by_hand() -> None:
    """Squares of 200 and 100 mm: 50 mm. A circle of 100 mm in a square of 200 mm: 50 mm. A square of 100 mm in a circle of 200 mm: 29.3 mm."""
    large, small = outline("square", 200.0), outline("square", 100.0)
    assert ledge_mm(large, small) == pytest.approx(50) and ledge_mm(large, outline("round", 100.0)) == pytest.approx(50, abs=0.1)
    assert ledge_mm(outline("round", 200.0), small) == pytest.approx(100 - 50 * math.sqrt(2), abs=0.1)
    assert ledge_mm(outline("rectangle", 200.0, 300.0), outline("rectangle", 100.0, 150.0)) == pytest.approx(50)
    assert ledge_mm(small, large) == 0


def test_rows_on_the_top_must_keep_clear_of_the_next_tier_and_of_the_middle() -> None:
    top = RowSpec("shell", STAR, colour="cream", place="top")
    assert planned(tier(200.0, top), tier(100.0, SHELL, at=1)).crowded == ()
    (crowd,) = planned(tier(200.0, top), tier(180.0, SHELL, at=1)).crowded
    below, above = (cake := planned(tier(200.0, top), tier(180.0, SHELL, at=1))).tiers
    assert crowd.upper == "Tier 1" and crowd.row is not above.rows[0] and crowd.reach_mm == pytest.approx(cake.tiers[0].rows[0].reach_mm)
    ledge = ledge_mm(below.coats.finished, above.coats.finished)
    assert ledge == pytest.approx(10, abs=0.1) and crowd.free_mm == pytest.approx(max(0.0, ledge - above.rows[0].stands_out_mm))
    (bare,) = planned(tier(200.0, top), tier(180.0, RowSpec("swag", PETAL, colour="russet"), at=1)).crowded
    assert bare.free_mm == pytest.approx(ledge)  # only what stands round the foot takes room
    (covered,) = planned(tier(200.0, top), tier(198.0, RowSpec("shell", Tip("open star", 12), colour="cream", place="base"), at=1)).crowded
    assert covered.free_mm == 0
    (middle,) = planned(tier(60.0, RowSpec("shell", Tip("open star", 26), colour="cream", place="top"))).crowded
    assert middle.upper == "" and middle.free_mm == pytest.approx(38)  # half of 60 mm under 8 mm of coat
    assert planned(tier(200.0, SHELL), tier(198.0, SHELL, at=1)).crowded == ()
    wide = RowSpec("shell", Tip("open star", 26), colour="cream", place="top")
    assert [crowd.row.tier for crowd in planned(tier(200.0), tier(60.0, wide, at=1)).crowded] == [1]  # nothing lies on the tier under it


def test_a_step_in_the_way_is_told_of_rows_on_the_side() -> None:
    cake = planned(tier(200.0, replace(SWAG, drop_mm=25.0), RowSpec("line", FINE, colour="cream", below_mm=28.0)))
    assert all(later.number > earlier.number and later.row.place == "side" for later, earlier in cake.in_the_way)
    followed = planned(tier(200.0, replace(SWAG, drop_mm=25.0), RowSpec("line", FINE, colour="cream", place="over")))
    assert followed.in_the_way == ()


def test_a_string_under_a_swag_is_reached_past_it() -> None:
    """What hangs on the side behind a swag that stands out is told; what stands round the base, or lies on the swag itself, is not."""
    swag = replace(SWAG, drop_mm=25.0)
    for row in (RowSpec("string", FINE, colour="cream", place="under"), RowSpec("string", FINE, colour="cream", below_mm=24.0)):
        cake = planned(tier(200.0, swag, row))
        assert [(later.row.spec.kind, earlier.row.spec.kind) for later, earlier in cake.in_the_way] == [("string", "swag")]
    low = planned(tier(200.0, replace(swag, drop_mm=70.0), SHELL, height_mm=80.0))
    assert low.in_the_way == ()


def test_tiers_that_stand_further_back_add_up() -> None:
    """A round of 23.4 cm finds room on a heart of 30 cm only further back; what stands on it goes back with it."""
    heart, middle, top = tier(300.0, shape="heart"), tier(234.0, at=1), tier(150.0, at=2)
    cake = planned(heart, middle, top)
    first, second, third = (t.back_mm for t in cake.tiers)
    seat = seat_mm(cake.tiers[0].coats.finished, cake.tiers[1].coats.finished)
    assert first == 0 and seat and second == pytest.approx(seat)
    assert third == pytest.approx(seat)  # a round stands in the middle of a round
    assert [t.back_mm for t in planned(tier(250.0), tier(150.0, at=1)).tiers] == [0, 0]
    between = planned(tier(400.0), tier(300.0, shape="heart", at=1), tier(234.0, at=2)).tiers  # what stands on the heart goes by the heart
    assert between[2].back_mm - between[1].back_mm == pytest.approx(seat)


def test_half_a_gram_of_buttercream_is_worked_out_and_none_is_not() -> None:
    """0.05 mm on a sponge of 5 cm by 2 cm: 51 cm2 take 0.26 ml, 0.23 g; without any there is nothing to work out."""
    bare = tier(50.0, height_mm=20.0, layers=1, crumb_mm=0.0)
    cake = planned(replace(bare, final_mm=0.05))
    assert 0 < cake.coat_g < 1 and cake.filling_g == 0
    assert problem(replace(bare, final_mm=0.0)).input == "tiers.0.final"


def test_a_cake_too_heavy_is_said_at_the_lowest_tin() -> None:
    said = problem(tier(900.0, height_mm=400.0), tier(700.0, at=1, height_mm=400.0))
    assert said.input == "tiers.0.width"


def test_room_on_the_top_is_counted_to_half_a_millimetre() -> None:
    top = RowSpec("shell", STAR, colour="cream", place="top")
    reach = planned(tier(200.0, top)).tiers[0].rows[0].reach_mm
    for short, crowded in ((-0.3, 0), (0.3, 0), (0.7, 1)):
        cake = planned(tier(2 * (reach - short) - 16.0, top))  # 8 mm of coat on both sides
        assert len(cake.crowded) == crowded, short
    odd = planned(tier(61.0, RowSpec("shell", Tip("open star", 27), colour="cream", place="top"))).crowded
    assert [crowd.free_mm for crowd in odd] == [pytest.approx(38.5)]


def test_stripes_have_the_share_of_the_height_that_is_asked() -> None:
    made = only(striped=("cream", 4, 40.0))
    assert made.stripes == stripes(made.coats, 4, 40.0) and made.stripes != stripes(made.coats, 4, 4.0)


def test_the_spacing_of_a_practice_row_holds_for_that_row_and_tip_alone() -> None:
    """25 shells on 301 mm are 12.04 mm apart; what was counted of another kind or tip, or not counted at all, tells nothing."""
    counted = Calibration(STAR, "shell", 301.0, None, 25)
    usual = natural_pitch_mm("shell", STAR)

    def spaced(*measured: Calibration, row: RowSpec = SHELL) -> float:
        amount = planned(tier(200.0, row, measured_mm=660.0), measured=measured).tiers[0].rows[0].amount
        return amount.pitch_mm / (1 + amount.stretch_percent / 100)

    assert spaced() == pytest.approx(usual) and abs(usual - 12.04) > 0.5
    assert spaced(counted) == pytest.approx(12.04, rel=1e-6)
    for other in (replace(counted, kind="bead"), replace(counted, tip=Tip("open star", 9)), replace(counted, pieces=None, mass_g=30.0)):
        assert spaced(other) == pytest.approx(usual), other
        assert spaced(other, counted) == pytest.approx(12.04, rel=1e-6)


def test_joints_stand_clear_of_what_is_on_the_edge_or_hangs_high() -> None:
    deep = RowSpec("ruched border", Tip("petal", 25), place="top edge")
    edge = only(deep)
    assert edge.joints_below_mm == pytest.approx(edge.rows[0].below_mm + CLEARANCE_MM) and edge.joints_below_mm > 12
    high = only(replace(SWAG, tip=Tip("petal", 30)))
    assert high.joints_below_mm == pytest.approx(max(12.0, CLEARANCE_MM + high.rows[0].above_mm))


def test_shells_that_do_not_meet_the_joints_weigh_against_a_division() -> None:
    """Pieces 60 mm apart: one to each of ten repeats of 66 mm is a tenth too wide and passes, one or two to each of eight is not."""
    wide = Calibration(STAR, "shell", 900.0, None, 15)
    choices = planned(tier(200.0, SHELL, measured_mm=660.0), measured=(wide,)).tiers[0].choices
    missed = {choice.repeats for choice in choices if "pieces" in choice.reasons}
    assert 10 not in missed and 11 not in missed and {7, 8, 9} <= missed and choices[0].repeats not in missed
    usual = {choice.repeats: choice.penalty for choice in only(SHELL, measured_mm=660.0).choices}
    without = {choice.repeats: choice.penalty for choice in only(measured_mm=660.0).choices}
    assert usual.keys() == without.keys() and all(usual[n] >= without[n] for n in usual) and usual != without


def test_swags_without_a_cutter_are_at_most_9_cm_wide() -> None:
    assert only(SWAG, measured_mm=3000.0).division.width_mm == pytest.approx(90, abs=3)


def test_dividers_on_a_square_span_a_side_and_on_a_round_the_chord() -> None:
    """Joints on the four corners are a quarter of the side apart, or a little less where the coat rounds them; on a round 0.225 of it."""
    square, round_ = only(SWAG, shape="square", repeats=4), only(SWAG, repeats=4)
    assert [chord / square.side_mm for chord in chords_of(square)] == pytest.approx([0.25] * 4, abs=0.006)
    assert [chord / round_.side_mm for chord in chords_of(round_)] == pytest.approx([math.sin(math.pi / 4) / math.pi] * 4)


def test_shells_of_a_double_row_are_counted_in_one_of_its_layers() -> None:
    made = only(replace(SHELL, layers=2), measured_mm=660.0, repeats=6)
    count, _ = pieces_of(made.rows[0], 6)
    assert isinstance(count, int) and made.rows[0].amount.count == 2 * 6 * count
