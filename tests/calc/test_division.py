"""Repeats that close: the geometry of marking swags on a measured side."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

import calc
from calc.calculators.declare import run
from calc.calculators.division_form import CALCULATOR
from calc.curves import swag_drop_mm, swag_length_mm
from calc.division import (
    DROP_SHARE,
    FLAT_SHARE,
    FULL_SHARE,
    GAP_COVERED_MM,
    STRETCH_MOST_PERCENT,
    TAPE_TOLERANCE_PERCENT,
    Division,
    chords_mm,
    closing_error_mm,
    dividers_mm,
    division_choices,
    fitted_choices,
    gap_mm,
    pieces_that_meet,
    pitch_mm,
    radius_of,
    repeats_near,
    repeats_that_close,
    stepped_mm,
    tape_check,
)
from calc.geometry.segments import ellipse_perimeter_mm
from calc.shapes import SQUARE_HEART, TWO_SIZES, Outline, outline, outline_choices

sides = st.floats(100, 4000)
counts = st.integers(2, 200)
factors = st.floats(0.1, 10)


# --- repeats ----------------------------------------------------------------------------------------------------------


@given(sides, counts)
def test_repeats_close(side: float, repeats: int) -> None:
    assert abs(repeats * pitch_mm(side, repeats) - side) <= 1e-9 * max(1.0, side / 1000)


@given(sides, counts, factors)
def test_pitch_and_dividers_scale_with_the_cake(side: float, repeats: int, factor: float) -> None:
    assert pitch_mm(factor * side, repeats) == pytest.approx(factor * pitch_mm(side, repeats), rel=1e-12)
    assert dividers_mm(factor * side, repeats) == pytest.approx(factor * dividers_mm(side, repeats), rel=1e-12)
    assert closing_error_mm(factor * side, repeats, factor * dividers_mm(side, repeats)) == pytest.approx(0, abs=1e-6 * factor * side)


@given(sides, counts)
def test_dividers_are_set_to_the_chord_and_not_to_the_pitch(side: float, repeats: int) -> None:
    chord, pitch = dividers_mm(side, repeats), pitch_mm(side, repeats)
    assert chord == pytest.approx(side / math.pi * math.sin(math.pi / repeats), rel=1e-13)
    assert chord < pitch
    assert closing_error_mm(side, repeats, chord) == pytest.approx(0, abs=1e-7 * side)
    if pitch <= side / math.pi:
        assert closing_error_mm(side, repeats, pitch) > 0, "set to the pitch, the last step goes past the start"


@given(sides, st.integers(3, 60), st.floats(0.3, 0.999))
def test_a_setting_that_is_too_small_falls_short(side: float, repeats: int, share: float) -> None:
    assert closing_error_mm(side, repeats, share * dividers_mm(side, repeats)) < 0


def test_dividers_walked_round_a_circle() -> None:
    """Step by step: points on a circle of 500 mm, each a setting away from the last, end where the first stands."""
    radius, setting = 500 / (2 * math.pi), dividers_mm(500, 5)
    angle = 0.0
    for _ in range(5):
        x, y = radius * math.cos(angle), radius * math.sin(angle)
        angle += 2 * math.asin(setting / (2 * radius))
        assert math.hypot(radius * math.cos(angle) - x, radius * math.sin(angle) - y) == pytest.approx(setting)
    assert angle == pytest.approx(2 * math.pi)
    assert setting == pytest.approx(93.5489, abs=1e-4)


@given(sides, st.floats(5, 500))
def test_repeats_near_a_wanted_pitch(side: float, target: float) -> None:
    found = repeats_near(side, target)
    off = abs(math.log(side / found / target))
    assert all(off <= abs(math.log(side / n / target)) + 1e-12 for n in (max(1, found - 1), found + 1))


@pytest.mark.parametrize(
    "call",
    [
        lambda: pitch_mm(0, 5), lambda: pitch_mm(500, 0), lambda: dividers_mm(500, 1), lambda: dividers_mm(-1, 5),
        lambda: closing_error_mm(500, 5, 0), lambda: closing_error_mm(500, 5, 200), lambda: repeats_near(500, 0),
        lambda: gap_mm(0, 10), lambda: repeats_that_close(500, 0), lambda: pieces_that_meet(0, 5), lambda: tape_check(0, 1),
        lambda: division_choices(0), lambda: division_choices(500, fewest=5, most=4),
    ],
)  # fmt: skip
def test_what_makes_no_sense_is_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError):
        call()


# --- other outlines ---------------------------------------------------------------------------------------------------

TIERS = [
    outline("square", 200.0),
    outline("hexagon", 200.0),
    outline("rectangle", 300.0, 200.0),
    outline("oval", 250.0, 200.0),
    outline("heart", 203.2),
]


@pytest.mark.parametrize("repeats", [3, 4, 6, 8, 13])
def test_chords_on_a_round_are_the_one_setting(repeats: int) -> None:
    tier = outline("round", 210.0)
    for chord in chords_mm(tier, tier.joints(repeats)):
        assert chord == pytest.approx(dividers_mm(tier.perimeter_mm, repeats), rel=1e-12)
    for setting in (80.0, 3.0, 20.5):
        there = stepped_mm(tier, 12.0, [setting] * repeats) if setting < 210 else 0
        assert there - tier.perimeter_mm == pytest.approx(closing_error_mm(tier.perimeter_mm, repeats, setting), abs=1e-6)


@pytest.mark.parametrize("tier", TIERS, ids=[tier.kind for tier in TIERS])
@pytest.mark.parametrize("repeats", [4, 5, 6, 8, 11])
def test_stepping_the_chords_of_any_tier_closes(tier: Outline, repeats: int) -> None:
    joints = tier.joints(repeats)
    chords = chords_mm(tier, joints)
    for (x0, y0, _), (x1, y1, _), chord in zip(map(tier.point, joints), map(tier.point, joints[1:]), chords, strict=False):
        assert chord**2 == pytest.approx((x1 - x0) ** 2 + (y1 - y0) ** 2)
    assert max(chords) <= tier.perimeter_mm / repeats * (1 + 1e-9), "the straight way is never longer than the way round"
    assert stepped_mm(tier, joints[0], chords) == pytest.approx(tier.perimeter_mm, abs=1e-4)


def test_the_pitch_does_not_close_on_a_heart() -> None:
    """A heart of 203.2 mm with a coat of 5 mm: the pitch is 80.5 mm, the straight ways 75.4, 75.4, 79.2 and 80.5 mm and back."""
    tier = outline("heart", 203.2, fullness=SQUARE_HEART).offset(5.0)
    chords = chords_mm(tier, tier.joints(8))
    assert [round(chord, 1) for chord in chords] == [75.4, 75.4, 79.2, 80.5, 80.5, 79.2, 75.4, 75.4]
    assert stepped_mm(tier, 0.0, [tier.perimeter_mm / 8] * 8) - tier.perimeter_mm == pytest.approx(64.4, abs=0.1)


def test_dividers_that_do_not_reach_are_refused() -> None:
    for settings in ([0.0], [-5.0], [300.0]):
        with pytest.raises(ValueError, match="dividers"):
            stepped_mm(outline("square", 200.0), 0.0, settings)
    assert stepped_mm(outline("square", 200.0), 0.0, [math.hypot(100.0, 150.0)]) == pytest.approx(250.0)


def test_a_heart_is_told_step_by_step() -> None:
    answer = run(CALCULATOR, {"shape": "heart", "side": "66 cm", "repeats": "8", "fullness": "61.26 %"})
    assert "dividers" not in answer.figures and "closing_error" not in answer.figures
    assert answer.tables[0]["rows"] == [["1 and 2", "7.7 cm"], ["3", "8.1 cm"], ["4 and 5", "8.3 cm"], ["6", "8.1 cm"], ["7 and 8", "7.7 cm"]]
    assert any("paper strip" in note["text"] for note in answer.notes)


def test_a_square_with_a_joint_on_every_corner_has_one_setting() -> None:
    answer = run(CALCULATOR, {"shape": "square", "width": "20.06 cm", "repeats": "8"})
    assert answer.figures["dividers"]["value"] == answer.figures["pitch"]["value"] == pytest.approx(100.3)
    assert answer.figures["closing_error"]["value"] == pytest.approx(-0.3, abs=0.01), "a step round a corner makes good what the one before lost"
    five = run(CALCULATOR, {"shape": "square", "width": "20 cm", "repeats": "5"})
    assert any("4 or 8 can" in note["text"] for note in five.notes)


def test_the_tape_sets_the_size_of_any_shape() -> None:
    oval = {"shape": "oval", "width": "20 cm", "length": "25 cm", "repeats": "6"}
    by_size, by_tape = run(CALCULATOR, oval), run(CALCULATOR, {**oval, "side": "80 cm"})
    assert by_size.figures["pitch"]["value"] == pytest.approx(ellipse_perimeter_mm(100, 125) / 6)
    assert by_tape.figures["pitch"]["value"] == pytest.approx(800 / 6)
    assert run(CALCULATOR, {"shape": "oval", "width": "20 cm", "repeats": "6"}).problems[0]["input"] == "length"
    assert run(CALCULATOR, {"shape": "heart", "repeats": "6"}).problems[0]["input"] == "side"
    assert run(CALCULATOR, {"shape": "oval", "width": "5 cm", "length": "60 cm", "repeats": "6"}).problems[0]["input"] == "length"


def test_swags_on_a_heart_have_no_one_setting() -> None:
    heart = calc.compute("swags", {"shape": "heart", "side": "66 cm", "cutter": "9 cm", "repeats": "8", "fullness": "61.26 %"})
    plain = calc.compute("swags", {"side": "66 cm", "cutter": "9 cm", "repeats": "8"})
    assert "dividers" in plain.figures and "dividers" not in heart.figures
    assert any("1 and 2: 7.7 cm, 3: 8.1 cm" in note["text"] for note in heart.notes)
    assert heart.figures["length_total"]["value"] == pytest.approx(plain.figures["length_total"]["value"])


@pytest.mark.parametrize("shape", [shape for shape, _ in outline_choices if shape not in TWO_SIZES])
@pytest.mark.parametrize("repeats", [2, 3, 7])
def test_every_shape_is_divided(shape: str, repeats: int) -> None:
    answer = run(CALCULATOR, {"shape": shape, "width": "20.07 cm", "repeats": str(repeats)})
    assert not answer.problems
    assert ("dividers" in answer.figures) != any(table["name"] == "dividers" for table in answer.tables)


# --- a cutter on a side -----------------------------------------------------------------------------------------------


def test_half_a_metre_and_a_ten_centimetre_cutter() -> None:
    """Side 500 mm, cutter 100 mm (common practice: a coated 6 in cake): 5 repeats of 100 mm, drop 50 mm, 785.4 mm in all."""
    best = division_choices(500, cutters_mm=(100,))[0]
    assert (best.repeats, best.width_mm, best.drop_mm, best.gap_mm) == (5, 100, 50, 0)
    assert best.guide_mm == 50
    assert 5 * best.length_each_mm == pytest.approx(785.398, abs=1e-3)
    assert radius_of(best) == 50


@given(st.floats(20, 300), st.floats(20, 300))
def test_a_cutter_leaves_the_gap_that_it_lacks(cutter: float, width: float) -> None:
    assert gap_mm(cutter, width) == pytest.approx(max(0, width - cutter))


@given(sides, st.floats(20, 300))
def test_the_fewest_repeats_that_leave_no_gap(side: float, cutter: float) -> None:
    found = repeats_that_close(side, cutter)
    assert side / found <= cutter * (1 + 1e-9)
    assert found == 1 or side / (found - 1) > cutter * (1 - 1e-9)


def test_gap_of_the_drawer() -> None:
    """66 cm round and a 9 cm cutter: seven leave 4.3 mm at every joint, eight close."""
    assert gap_mm(90, 660 / 7) == pytest.approx(4.2857, abs=1e-4)
    assert repeats_that_close(660, 90) == 8 and gap_mm(90, 660 / 8) == 0
    seven = next(d for d in division_choices(660, (90,)) if d.repeats == 7)
    assert "gap" in seven.reasons and seven.drop_mm == 45, "where it leaves a gap, the cutter presses its whole half circle"


@given(
    sides,
    st.lists(st.floats(30, 200), max_size=3),
    st.one_of(st.none(), st.floats(30, 300)),
    st.one_of(st.none(), st.floats(5, 100)),
    st.one_of(st.none(), st.floats(10, 150)),
    st.one_of(st.none(), st.floats(5, 25)),
    st.sampled_from([1, 2, 4]),
)
def test_every_choice_closes_and_they_are_ranked(side, cutters, wanted_width, wanted_drop, room, shell, multiple):  # type: ignore[no-untyped-def]  # fmt: skip
    try:
        found = division_choices(side, cutters, wanted_width, wanted_drop, room, shell, multiple, fewest=4)
    except ValueError:
        return
    assert [round(d.penalty, 6) for d in found] == sorted(round(d.penalty, 6) for d in found)
    for division in found:
        assert abs(division.repeats * division.width_mm - side) <= 1e-9 * side
        assert division.repeats % multiple == 0
        assert division.drop_mm >= 0 and division.length_each_mm > 0
        if division.cutter_mm is not None:
            assert division.gap_mm == pytest.approx(gap_mm(division.cutter_mm, division.width_mm), abs=1e-6)
            if not division.gap_mm:
                fitted = min(division.width_mm, division.cutter_mm)
                assert division.drop_mm == pytest.approx(swag_drop_mm(division.cutter_mm, fitted))
                assert division.length_each_mm == pytest.approx(swag_length_mm(division.cutter_mm, fitted))
        if shell:
            assert ("pieces" in division.reasons) == (abs(division.piece_stretch_percent) > STRETCH_MOST_PERCENT)
        assert ("room" in division.reasons) == (room is not None and division.drop_mm > room)


@given(sides, st.floats(0.5, 2))
def test_choices_are_the_same_on_a_larger_cake(side: float, factor: float) -> None:
    """Scale invariance: with everything wanted given, twice the cake is divided as the cake was, all lengths doubled."""
    args = dict(cutters_mm=(90.0, 75.0), wanted_width_mm=80.0, wanted_drop_mm=30.0, room_mm=60.0, piece_pitch_mm=8.0)
    scaled = {k: tuple(factor * c for c in v) if isinstance(v, tuple) else factor * v for k, v in args.items()}
    if min(side, side * factor) / 20 < 16:  # very narrow swags are not offered, whatever the scale
        return
    gaps = [side / n - cutter for n in range(1, 21) for cutter in (90.0, 75.0)]
    if any((gap <= GAP_COVERED_MM) != (factor * gap <= GAP_COVERED_MM) for gap in gaps):  # nor does the gap that piping covers grow
        return
    first, second = (division_choices(s, most=20, **a)[0] for s, a in ((side, args), (factor * side, scaled)))  # type: ignore[arg-type]
    assert second.penalty == pytest.approx(first.penalty, abs=1e-6)
    if second.repeats == first.repeats:  # otherwise two choices tie
        assert second.width_mm == pytest.approx(factor * first.width_mm)


def test_what_is_wanted_is_what_comes_first() -> None:
    assert division_choices(660, wanted_width_mm=110)[0].repeats == 6
    assert division_choices(660, wanted_width_mm=83, multiple_of=4)[0].repeats == 8
    assert division_choices(660, cutters_mm=(90, 75), wanted_drop_mm=30)[0].cutter_mm in (90, 75)


@given(st.floats(20, 300), st.floats(3, 30))
def test_shells_meet_the_joints(width: float, shell: float) -> None:
    count, stretch = pieces_that_meet(width, shell)
    assert count * shell * (1 + stretch / 100) == pytest.approx(width, rel=1e-9)
    if width >= 4 * shell:
        assert abs(stretch) <= STRETCH_MOST_PERCENT, "four shells or more can always be shared within 15 per cent"


# --- the tape ---------------------------------------------------------------------------------------------------------


def test_the_tape_against_the_sum() -> None:
    """66 cm typed where tin and disc give 70 cm: 5.7 % less; within a tape's own error nothing is said."""
    assert tape_check(660, 700) == pytest.approx(-5.714, abs=1e-3)
    assert tape_check(700, 660) == pytest.approx(6.06, abs=1e-2)
    assert tape_check(660, 660 * (1 + 0.99 * TAPE_TOLERANCE_PERCENT / 100)) is None


def test_a_tape_may_be_out_by_one_and_a_half_per_cent() -> None:
    """Round 66 cm that is 1 cm (common practice, no source): 66.9 and 65.1 cm agree with a sum of 66 cm, 67.05 and 64.95 cm are told."""
    assert tape_check(669, 660) is None and tape_check(651, 660) is None
    assert tape_check(670.5, 660) == pytest.approx(1.59, abs=5e-3) and tape_check(649.5, 660) == pytest.approx(-1.59, abs=5e-3)


# --- the calculator ---------------------------------------------------------------------------------------------------


def test_the_calculator_gives_the_figures() -> None:
    answer = run(CALCULATOR, {"side": "66 cm", "repeats": "10"})
    assert not answer.problems
    figures = {name: figure["value"] for name, figure in answer.figures.items()}
    assert figures["repeats"] == 10 and figures["pitch"] == 66
    assert figures["dividers"] == pytest.approx(64.9197, abs=1e-4)
    assert figures["closing_error"] == pytest.approx(closing_error_mm(660, 10, 65))


def test_a_width_is_turned_into_a_side_and_the_tape_wins() -> None:
    by_width = run(CALCULATOR, {"width": "21 cm", "repeats": "6"})
    assert by_width.figures["pitch"]["value"] == pytest.approx(math.pi * 210 / 6)
    assert any("tape" in note["text"] for note in by_width.notes)
    both = run(CALCULATOR, {"side": "66 cm", "width": "25 cm", "repeats": "6"})
    assert both.figures["pitch"]["value"] == pytest.approx(110)


@pytest.mark.parametrize(
    "inputs, name",
    [
        ({"repeats": "5"}, "side"), ({"side": "50 cm"}, "repeats"), ({"side": "abc", "repeats": "5"}, "side"),
        ({"side": "1e9 m", "repeats": "5"}, "side"), ({"side": "50 cm", "repeats": "1"}, "repeats"),
        ({"side": "-3 cm", "repeats": "5"}, "side"), ({"side": "5 kg", "repeats": "5"}, "side"),
        ({"side": "50 cm", "target": "0"}, "target"), ({"side": "50 cm", "repeats": "5", "colour": "x"}, "colour"),
    ],
)  # fmt: skip
def test_mistakes_are_said_at_their_field(inputs: dict[str, str], name: str) -> None:
    answer = run(CALCULATOR, inputs)
    assert [p["input"] for p in answer.problems] == [name]
    assert not answer.figures


def test_a_gap_less_than_a_tape_shows_does_not_change_the_repeats() -> None:
    """A 7.5 cm cutter goes round a side of 67.5 cm nine times, and of 67.68 cm too: 0.2 mm at a joint is covered by the piping."""
    exact, near, wide = (division_choices(side, (75.0,))[0] for side in (675.0, 676.8, 690.0))
    assert (exact.repeats, near.repeats, wide.repeats) == (9, 9, 10)
    assert near.gap_mm == pytest.approx(0.2) and "gap" not in near.reasons
    assert near.drop_mm == 37.5 and near.guide_mm == 37.5
    said = calc.compute("swags", {"side": "67.68 cm", "cutter": "7.5 cm"})
    assert said.figures["gap"]["value"] == pytest.approx(0.2)
    assert any("The piping covers that" in note["text"] for note in said.notes)


@pytest.mark.parametrize("repeats", [8, 9, 10])
def test_swags_weigh_what_their_length_lays_down(repeats: int) -> None:
    """With a gap too: what is piped is the arc that the cutter marks."""
    figures = calc.compute("swags", {"side": "66 cm", "cutter": "7.5 cm", "repeats": str(repeats)}).figures
    metre = calc.compute("swags", {"side": "66 cm", "cutter": "7.5 cm", "repeats": "9"}).figures
    assert figures["mass"]["value"] / figures["length_total"]["value"] == pytest.approx(metre["mass"]["value"] / metre["length_total"]["value"])


# --- limits -----------------------------------------------------------------------------------------------------------


def test_how_many_repeats_are_looked_at() -> None:
    """From three, since two swags are no row, to sixty, unless told; none narrower than 15 mm but at the ends of the range."""
    found = {division.repeats for division in division_choices(3000)}
    assert found == set(range(3, 61))
    assert {division.repeats for division in division_choices(300)} == {*range(3, 21), 60}
    assert {division.repeats for division in division_choices(500, multiple_of=0)} == {division.repeats for division in division_choices(500)}
    assert {division.repeats for division in division_choices(500, multiple_of=4)} == {*range(4, 33, 4), 60}
    assert {division.repeats for division in division_choices(500, allowed=(5, 9, 70))} == {5, 9}


def test_without_a_wanted_drop_a_swag_hangs_four_tenths_of_its_width() -> None:
    for division in division_choices(660):
        assert division.drop_mm == pytest.approx(DROP_SHARE * division.width_mm)
        assert FLAT_SHARE < FULL_SHARE <= division.drop_mm / division.width_mm
    assert "shallow" in next(d for d in division_choices(660, cutters_mm=(400,)) if d.repeats == 8).reasons


def test_what_speaks_against_a_choice_costs_what_the_judgement_says() -> None:
    """One point for each 10 % off the wanted width; 4 for shells that show; 3 and more for a gap; 6 and more for too deep a drop."""
    plain = {d.repeats: d for d in division_choices(660, wanted_width_mm=66.0, wanted_drop_mm=30.0)}
    assert plain[10].penalty == 0
    assert plain[11].penalty == pytest.approx(1.0) and plain[9].penalty == pytest.approx(math.log(10 / 9) / math.log(1.1))
    gap = division_choices(660, (80.0,), 110.0, 40.0, fewest=6, most=6)[0]
    assert gap.gap_mm == 30 and gap.penalty == pytest.approx(3 + 10 * 30 / 110)
    deep = division_choices(600, (), 60.0, 50.0, room_mm=40.0, fewest=10, most=10)[0]
    assert deep.reasons == ("room",) and deep.penalty == pytest.approx(6 + 20 * 10 / 40)
    shells = division_choices(600, (), 60.0, 50.0, piece_pitch_mm=45.0, fewest=10, most=10)[0]
    assert shells.reasons == ("pieces",) and shells.penalty == pytest.approx(4 + abs(shells.piece_stretch_percent) / 30)
    assert [d.penalty for d in division_choices(600, fewest=4, most=4)] == pytest.approx([2 * math.log(150 / 140) / math.log(1.1)])
    assert [d.penalty for d in division_choices(600, fewest=20, most=20)] == pytest.approx([2 * math.log(40 / 30) / math.log(1.1)])


def one(side_mm: float, cutter_mm: float, repeats: int) -> Division:
    """The one way to divide a side into so many repeats with a cutter."""
    (found,) = division_choices(side_mm, (cutter_mm,), fewest=repeats, most=repeats)
    return found


def test_a_gap_of_a_millimetre_is_covered_and_a_wider_one_shows() -> None:
    """Ten repeats with a cutter of 80 mm (common practice, no source): 80.95 mm wide leave 0.95 mm, 81.05 mm leave 1.05."""
    covered, shows = one(809.5, 80.0, 10), one(810.5, 80.0, 10)
    assert covered.gap_mm == pytest.approx(0.95) and "gap" not in covered.reasons and ("covered", 0.3) in covered.points
    assert shows.gap_mm == pytest.approx(1.05) and "gap" in shows.reasons


def test_a_swag_is_flat_under_a_quarter_of_its_width() -> None:
    """Ten of 80 mm. A cutter of 100 mm marks 50 - 30 = 20 mm, a quarter of the width; one a little narrower more than that, a little wider less.

    Common practice, no source."""
    deeper, flatter = one(800.0, 98.0, 10), one(800.0, 102.0, 10)
    assert swag_drop_mm(100.0, 80.0) == pytest.approx(20.0)
    assert 0.25 < deeper.drop_mm / 80 < 0.275 and deeper.reasons == ()
    assert flatter.drop_mm / 80 < 0.25 and flatter.reasons == ("shallow",)


def test_a_joint_at_the_front_is_worth_six_points() -> None:
    """A judgement: it outweighs a swag of 39 instead of 66 mm, 5.6 points at a point for each tenth, but not one of 37 mm, 6.2 points."""
    ways = {way.repeats: way for way in division_choices(660, wanted_width_mm=66.0, wanted_drop_mm=30.0)}
    assert [round(ways[n].penalty, 1) for n in (10, 17, 18)] == [0.0, 5.6, 6.2]
    for other, ranked in ((17, [17, 10]), (18, [10, 18])):
        found = fitted_choices((ways[10], ways[other]), lambda repeats, front=other: repeats == front)
        assert [way.repeats for way in found] == ranked
