"""What holds of every kind of row alike: in proportion to its tip, as even as its name says, and practised on a sheet that it fills."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import pytest

from calc.drawing.paper.practice import practice_sheet
from calc.rows import KINDS, Exercise, RowSpec, pipe
from calc.rows.kind import Kind
from calc.rows.placement import PlacedRow
from calc.tips import Tip

EVERY_KIND = pytest.mark.parametrize("kind", list(KINDS.values()), ids=list(KINDS))
EXERCISES = sorted((one for kind in KINDS.values() for one in (kind.exercise, *kind.variants) if one is not None), key=lambda one: one.rank)
SIZED = ("bead", "dot", "leaf", "rosette", "small rose", "star")
LIFTED = {"line": (1,), "string": (1,), "star": (2,)}  # movements of a hand that is lifted by as much however large the piece is


def scaled(spec: RowSpec, times: float) -> RowSpec:
    """The same row on a cake so many times as large, its tip and all."""
    tip = spec.tip
    tip = replace(tip, opening_mm=times * tip.opening_mm, inner_mm=times * tip.inner_mm, slot_mm=times * tip.slot_mm)
    size = spec.size_mm and times * spec.size_mm
    return replace(spec, tip=tip, run_mm=times * spec.run_mm, drop_mm=times * spec.drop_mm, size_mm=size)


def rows_of(kind: Kind) -> list[RowSpec]:
    """A usual row of a kind; and where its pieces have a size, a large and a very small one."""
    usual = RowSpec(kind.name, kind.begin_tip(), run_mm=500.0, repeats=5, drop_mm=40.0 if kind.takes_drop else 0.0)
    bead = usual.tip.bead_width_mm
    return [usual, *(replace(usual, size_mm=share * bead) for share in (1.2, 5.0) if kind.name in SIZED)]


# --- in proportion -----------------------------------------------------------------------------------------------------------


@EVERY_KIND
def test_the_hand_goes_twice_as_far_on_a_cake_twice_as_large(kind: Kind) -> None:
    """Every length of a movement is so many openings, widths or drops; but for how high a hand is lifted out of the way."""
    for spec in rows_of(kind):
        for times in (0.5, 2.0):
            for place, (way, larger) in enumerate(zip(kind.ways(spec), kind.ways(scaled(spec, times)), strict=True)):
                assert (way.squeeze, way.share, way.faces) == (larger.squeeze, larger.share, larger.faces)
                measured = 2 if place in LIFTED.get(kind.name, ()) else 3
                for at, there in zip(way.points, larger.points, strict=True):
                    assert there[:measured] == pytest.approx([times * value for value in at[:measured]], abs=1e-9)


@EVERY_KIND
def test_a_row_twice_as_large_takes_eight_times_the_buttercream(kind: Kind) -> None:
    for spec in rows_of(kind):
        for layers in (1, 2):
            one, two = pipe(replace(spec, layers=layers)), pipe(scaled(replace(spec, layers=layers), 2.0))
            notes = [sum("is heavy" not in note for note in row.notes) for row in (one, two)]  # a string is heavy from an opening in mm
            assert one.count == two.count and notes[0] == notes[1] and two.stretch_percent == pytest.approx(one.stretch_percent)
            for name in ("pitch_mm", "length_each_mm", "length_mm", "path_mm", "above_mm", "below_mm", "stands_out_mm", "width_mm", "drops_mm"):
                small, large = getattr(one, name), getattr(two, name)
                assert large == pytest.approx(tuple(2 * drop for drop in small) if isinstance(small, tuple) else 2 * small), name
            for name in ("volume_ml", "low_ml", "high_ml", "mass_g", "low_g", "high_g"):
                assert getattr(two, name) == pytest.approx(8 * getattr(one, name)), name


@EVERY_KIND
def test_each_movement_takes_its_pause_and_its_way_at_the_pace_of_the_hand(kind: Kind) -> None:
    """Where something is squeezed out the hand keeps its pace; where nothing is, it is as long on its way as it is said to stay."""
    spec = rows_of(kind)[0]
    for way, stroke in zip(kind.ways(spec), kind.strokes(spec), strict=True):
        paced = kind.speed_mm_per_s and (any(way.squeeze) or not way.share)
        assert stroke.time_s == pytest.approx(way.share * kind.start_s + (stroke.length_mm / kind.speed_mm_per_s if paced else 0.0))
        assert stroke.points == way.points and stroke.squeeze == way.squeeze and stroke.touches is way.touches


# --- the hand's way ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["bead", "dot", "leaf", "reverse shell", "rope", "rosette", "shell", "star"])
def test_where_the_hand_goes_is_told_to_a_twentieth(name: str) -> None:
    """A judgement, told no finer than that: in shares of the pitch along the row, of the width down it and of the height off it.

    But for the head of a reverse shell, and for the small rise of the circle that takes the point off a dot.
    """
    kind = KINDS[name]
    tip = kind.begin_tip()
    opening, bead = tip.opening_mm, tip.bead_width_mm
    high = {"rope": tip.bead_height_mm, "leaf": 0.5 * opening, "reverse shell": 1.2 * opening, "rosette": bead}.get(
        name, pipe(RowSpec(name, tip, 500.0, count=50)).stands_out_mm
    )
    pitch = high if name == "dot" else kind.natural_pitch_mm(tip)
    down = {"dot": high, "leaf": 2.6 * opening, "reverse shell": 1.2 * opening, "rope": 0.85 * bead}.get(name, 1.0)
    finer = {0.12, 1.12} if name == "reverse shell" else {0.97, 1.03} if name == "dot" else set()
    ways = kind.ways(RowSpec(name, tip, 500.0, 5))[: 1 if name == "rosette" else 3]
    for way in ways:
        last = -1 if way is ways[-1] and name in ("dot", "star") else None  # drawn off, out of the way
        for point in way.points[:last]:
            for told in (point[0] / pitch, point[1] / down, point[2] / high):
                assert 20 * told == pytest.approx(round(20 * told), abs=1e-9) or any(told == pytest.approx(one) for one in finer), point


def test_a_rope_is_an_s_that_looks_the_same_turned_half_round() -> None:
    kind = KINDS["rope"]
    tip = kind.begin_tip()
    pitch, over = kind.natural_pitch_mm(tip), kind.ways(RowSpec("rope", tip, 500.0, 5))[0].points
    for (along, down, off), (back, up, there) in zip(over, reversed(over), strict=True):
        assert (back, up, there) == pytest.approx((pitch - along, -down, off))
    assert over[1][1] > 0 > over[2][1]  # straight down the band in between


def test_the_point_of_a_dot_is_taken_off_in_a_small_circle_over_its_middle() -> None:
    """From the middle and back to it, once round, rising evenly by 0.15 of its height and never further out than a third of it."""
    kind = KINDS["dot"]
    tip = kind.begin_tip()
    high = pipe(RowSpec("dot", tip, 500.0, 5)).stands_out_mm
    *turn, away = kind.ways(RowSpec("dot", tip, 500.0, 5))[2].points
    assert all((x, y) == (0, 0) for x, y, _ in (turn[0], turn[-1], away))
    assert all(math.hypot(x, y) < high / 3 for x, y, _ in turn) and all(a[2] < b[2] for a, b in itertools.pairwise((*turn, away)))
    assert turn[-1][2] - turn[0][2] == pytest.approx(0.15 * high) and away[2] - turn[-1][2] == pytest.approx(3 * tip.opening_mm)
    assert sum(a[0] * b[1] - a[1] * b[0] for a, b in itertools.pairwise(turn)) < 0  # always the same way round
    assert all(a[0] * b[1] - a[1] * b[0] <= 0 for a, b in itertools.pairwise(turn))
    rises = [b[2] - a[2] for a, b in itertools.pairwise(turn)]
    assert max(rises) <= 0.07 * high + 1e-9 and rises[-1] == min(rises)


def test_a_star_is_left_straight_off_by_20_mm() -> None:
    """However large it is: far enough to see it and to wipe the tip."""
    for size in (None, 5.0, 30.0):
        spec = RowSpec("star", Tip("open star", 6), 500.0, 5, size_mm=size)
        assert KINDS["star"].ways(spec)[2].points[-1] == pytest.approx((0, 0, pipe(spec).stands_out_mm + 20))


# --- what is practised -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("one", [one for one in EXERCISES if not one.gap_mm], ids=lambda one: one.key)
def test_a_practice_sheet_is_filled(one: Exercise) -> None:
    """On Letter, the lower of the two papers, an exercise has as many lines as its row has room for."""
    row = PlacedRow(one.kind, one.tip, "#b9592f", drop_mm=one.drop_mm, width_mm=one.size_mm)
    page = repr(practice_sheet(row, 168 / one.repeats if KINDS[one.kind].takes_drop else 0.0, paper="Letter").pages[1])
    assert one.lines == sum(page.count(f"words={words!r}") for words in ("follow the grey", "follow the dots", "from mark to mark"))


def test_pieces_to_practise_leave_a_quarter_of_their_width_between_them() -> None:
    """As many as come nearest to it on a line of 168 mm; roses, which are set with a stick or a lifter, leave 0.4."""
    counted = [one for one in EXERCISES if KINDS[one.kind].set_apart]
    assert len(counted) == 6 and all(one.pieces is None for one in EXERCISES if one not in counted)
    for one in counted:
        wide = KINDS[one.kind].natural_pitch_mm(one.tip, one.size_mm)
        assert one.pieces == round(168 / wide / (1.4 if one.kind == "small rose" else 1.25)), one.key


def test_every_exercise_has_a_place_of_its_own() -> None:
    """Also the ways of piping that are practised by themselves: each after what it is made of, and in a class after all that is simple."""
    for places in ([one.rank for one in EXERCISES], [one.usual for one in EXERCISES]):
        assert len(set(places)) == len(EXERCISES) and all(place > 0 and place % 5 == 0 for place in places)
    by_key = {one.key: one for one in EXERCISES}
    for plain, harder in (("stars", "small_flowers"), ("lines", "vermicelli"), ("lines", "over_piping"), ("swags", "layered_swags")):
        assert by_key[plain].rank < by_key[harder].rank and by_key[plain].usual < by_key[harder].usual
    assert by_key["strings"].rank < by_key["nested_strings"].rank and by_key["strings"].usual < by_key["nested_strings"].usual
    *simple, layered, nested, over, wandering = sorted(EXERCISES, key=lambda one: one.usual)
    assert [one.key for one in (layered, nested, over, wandering)] == ["layered_swags", "nested_strings", "over_piping", "vermicelli"]


def test_only_vermicelli_wanders_and_has_no_lines_to_follow() -> None:
    """Three patches 60 mm high, its passes 3 mm apart; everything else is piped along a line."""
    assert [(one.key, one.lines, one.gap_mm, one.high_mm) for one in EXERCISES if one.gap_mm or one.high_mm] == [("vermicelli", 3, 3, 60)]


def test_two_ways_of_one_kind_are_practised_on_the_same_curve() -> None:
    for kind in KINDS.values():
        for one in kind.variants if kind.takes_drop else ():
            assert kind.exercise is not None and (one.repeats, one.drop_mm) == (kind.exercise.repeats, kind.exercise.drop_mm), one.key
