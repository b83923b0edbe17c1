"""Which row comes first, where each lies, what runs into what and in which order they are piped: by hand, and for rows typed in any order."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.division import Division
from calc.rows import RowAmount, RowSpec, pipe
from calc.rows.placement import (
    CLEARANCE_MM,
    PHASES,
    PLACES,
    Ground,
    PlacedRow,
    find_clashes,
    first_drop_mm,
    first_pieces,
    guide_tape,
    hangs,
    piping_order,
    place_rows,
    rank,
    run_mm,
    touches,
)
from calc.shapes import outline
from calc.tips import Tip

PETAL, STAR, FINE, ROUND, CLOSED = Tip("petal", 11), Tip("open star", 7), Tip("round", 1.8), Tip("round", 5), Tip("closed star", 5)
SWAG, STRING, SHELLS, LINE = RowSpec("swag", PETAL), RowSpec("string", FINE), RowSpec("shell", STAR), RowSpec("line", FINE)


def divided(drop_mm: float = 20.0, cutter_mm: float | None = None, gap_mm: float = 0.0) -> Division:
    """Five repeats of 100 mm, with arcs of that drop."""
    return Division(5, 100.0, cutter_mm, drop_mm, 110.0, None, gap_mm, 0.0, 0.0)


def ground(height_mm: float = 120.0, division: Division | None = None) -> Ground:
    """A round tier, 500 mm round, its joints 15 mm below the top edge."""
    return Ground(500.0, height_mm, division or divided(), 15.0, outline("round", 500.0 / math.pi), 2)


def amount_of(row: RowSpec, kind: str, run: float, repeats: int, width: float, drop: float) -> RowAmount:
    count = repeats * row.per_joint if row.place == "joints" else None
    return pipe(replace(row, kind=kind, run_mm=run, repeats=repeats, width_mm=width, drop_mm=drop, count=count, apart=row.place == "joints"))


def laid(*rows: RowSpec, on: Ground | None = None) -> tuple[PlacedRow, ...]:
    return place_rows(rows, on or ground(), amount_of)


def under(above: PlacedRow, row: PlacedRow, drop_mm: float = 0.0) -> float:
    """Where the line of a row stands that lies 3 mm clear under another."""
    return above.line_mm + above.below_mm + drop_mm + 3 + row.above_mm


# --- which row comes first ---------------------------------------------------------------------------------------------------


def test_a_tier_is_divided_by_the_shallowest_drop_that_hangs_from_its_joints() -> None:
    """A swag asked 30 mm deep and a string 45 mm: 30. A line, a scroll, and a swag laid round the base hang from no joint."""
    rows = (
        replace(STRING, drop_mm=45),
        replace(SWAG, drop_mm=30),
        SWAG,
        replace(LINE, drop_mm=10),
        replace(SWAG, drop_mm=5, place="base"),
    )
    for typed in itertools.permutations(rows):
        assert first_drop_mm(typed) == 30
    assert first_drop_mm((RowSpec("C scroll", FINE, drop_mm=8), replace(SWAG, drop_mm=30))) == 30


def test_what_hangs_from_the_joints_goes_before_what_hangs_over_or_under_it() -> None:
    over, below = replace(SWAG, drop_mm=20, place="over"), replace(STRING, drop_mm=12, place="under")
    assert first_drop_mm((below, replace(SWAG, drop_mm=30), over)) == 30
    assert first_drop_mm((over, below)) == 12


def test_a_tier_with_no_drop_asked_for_is_divided_by_none() -> None:
    for rows in ((), (SWAG,), (LINE, SHELLS), (replace(SWAG, drop_mm=5, place="top edge"),)):
        assert first_drop_mm(rows) is None


def test_only_on_the_side_does_anything_hang() -> None:
    for place in PLACES:
        assert hangs(replace(SWAG, place=place)) == hangs(replace(STRING, place=place)) == (place in ("side", "over", "under")), place
        assert not hangs(replace(LINE, place=place)) and not hangs(RowSpec("C scroll", FINE, place=place))


def test_shells_at_the_base_meet_the_joints_before_those_on_the_edge() -> None:
    """Only pieces that meet each other can meet the joints: shells and beads, not a border that runs on, and not single rosettes."""
    base, edge = RowSpec("bead", ROUND, place="base"), replace(SHELLS, place="top edge")
    rows = (replace(SHELLS, place="top"), edge, base, RowSpec("ruched border", PETAL, place="base"), RowSpec("rosette", STAR, place="base"))
    for typed in itertools.permutations(rows):
        assert first_pieces(typed) is base
    beads = RowSpec("bead", ROUND, place="top edge")
    assert first_pieces((beads, edge)) is edge is first_pieces((edge, beads))  # shells are listed before beads
    assert first_pieces((SHELLS, replace(SHELLS, place="top"), LINE)) is None is first_pieces(())


def test_rows_have_one_order_however_they_were_typed() -> None:
    """By kind as listed, then the tip, the drop, a place of its own (none before any), layers, and how many sit at a joint."""
    first = RowSpec("swag", Tip("petal", 9), drop_mm=30, colour="cream")
    rising = [
        first,
        replace(first, per_joint=2),
        replace(first, layers=2, per_joint=1),
        replace(first, below_mm=0.0),
        replace(first, below_mm=0.5),
        replace(first, drop_mm=31),
        replace(first, colour="sage", drop_mm=10),
        replace(first, tip=Tip("petal", 10), drop_mm=10),
        replace(first, tip=Tip("round", 2), drop_mm=10),
        replace(first, kind="string", tip=Tip("closed star", 1), drop_mm=0),
    ]
    assert sorted(reversed(rising), key=rank) == rising
    assert len({rank(row) for row in rising}) == len(rising)


# --- where rows lie ------------------------------------------------------------------------------------------------------------

FREE = (
    SWAG,
    replace(SWAG, drop_mm=30),
    replace(STRING, drop_mm=45, layers=2),
    replace(SWAG, drop_mm=25, below_mm=40.0),
    replace(LINE, place="side"),
    replace(LINE, below_mm=50.0),
    SHELLS,
    replace(SHELLS, place="top edge"),
    RowSpec("ruched border", PETAL, place="top edge"),
    replace(SHELLS, place="base"),
    replace(SHELLS, place="top"),
    RowSpec("rosette", CLOSED, place="top"),
    replace(LINE, place="inside"),
    RowSpec("rosette", CLOSED, place="joints"),
    RowSpec("leaf", Tip("leaf", 6), place="joints", below_mm=22.0),
)


@given(st.lists(st.sampled_from(FREE), min_size=2, max_size=6), st.data())
@settings(max_examples=60)
def test_rows_typed_in_another_order_lie_where_they_lay(rows: list[RowSpec], data: st.DataObject) -> None:
    shuffled = data.draw(st.permutations(rows))
    once, again = laid(*rows), laid(*shuffled)
    assert [row.spec for row in once] == rows and [row.spec for row in again] == shuffled
    assert Counter((row.spec, row.line_mm, row.drop_mm, row.run_mm) for row in once) == Counter(
        (row.spec, row.line_mm, row.drop_mm, row.run_mm) for row in again
    )


@given(st.lists(st.sampled_from([row for row in FREE if row.place == "side" and row.below_mm is None]), min_size=2, max_size=4))
@settings(max_examples=40)
def test_rows_round_the_side_keep_clear_of_each_other(rows: list[RowSpec]) -> None:
    """At the joints each stands 3 mm clear of the next, hung rows above straight ones, the shallower above the deeper."""
    made = sorted(laid(*rows, on=ground(1000.0)), key=lambda row: row.line_mm)
    assert made[0].line_mm == 15
    for above, below in itertools.pairwise(made):
        assert above.hung or not below.hung
        assert not (above.hung and below.hung) or above.drop_mm <= below.drop_mm
        assert below.line_mm == pytest.approx(under(above, below, 0.0 if below.hung else above.drop_mm))


def test_the_row_hung_under_two_alike_hangs_under_the_same_one() -> None:
    """Two swags alike, one of them with a string under it: it is the lower one that has it, whichever was typed first."""
    thread = replace(STRING, place="under")
    bare, first, hung = laid(SWAG, SWAG, thread)
    early, late, last = laid(SWAG, thread, SWAG)
    assert (bare.line_mm, first.line_mm, hung.line_mm) == (last.line_mm, early.line_mm, late.line_mm)
    assert bare.line_mm == 15 and hung.line_mm == pytest.approx(under(first, hung))


def test_what_over_and_under_mean_goes_by_what_was_typed_before() -> None:
    """Under is under the last row on the side, past what lies over it and what lies on an edge; the next one hangs under that in its turn."""
    swag, line, _, string, ruched = laid(
        replace(SWAG, drop_mm=30),
        replace(LINE, place="over"),
        replace(SHELLS, place="base"),
        replace(STRING, place="under"),
        RowSpec("ruched swag", PETAL, place="under"),
    )
    assert line.on is swag
    assert string.line_mm == pytest.approx(under(swag, string)) and ruched.line_mm == pytest.approx(under(string, ruched))
    assert string.drop_mm == ruched.drop_mm == 30


def test_over_and_under_without_a_row_before_are_on_the_side() -> None:
    over, below = laid(replace(SWAG, place="over", drop_mm=30), replace(STRING, place="under"))
    assert (over.place, over.on, over.line_mm, over.hung) == ("side", None, 15, True)
    assert below.line_mm == pytest.approx(under(over, below)) and below.drop_mm == 30
    (alone,) = laid(replace(STRING, place="under"))
    assert (alone.place, alone.line_mm, alone.drop_mm) == ("side", 15, 20)


def test_a_line_lies_over_what_it_lies_on_wherever_that_is() -> None:
    shells, line = laid(replace(SHELLS, place="top"), replace(LINE, place="over"))
    assert (line.place, line.line_mm, line.run_mm, line.hung) == ("top", shells.line_mm, shells.run_mm, False)
    assert line.run_mm < 500 and line.amount.length_mm == pytest.approx(line.run_mm)
    border, over = laid(replace(SHELLS, place="base"), replace(LINE, place="over"))
    assert (over.place, over.line_mm, over.kind, over.run_mm) == ("base", border.line_mm, "line", 500)


def test_a_swag_over_a_straight_row_hangs_by_the_cutter_and_from_the_same_line() -> None:
    beads, swag = laid(RowSpec("bead", ROUND, below_mm=30.0), replace(SWAG, place="over"))
    assert (swag.place, swag.hung, swag.drop_mm, swag.line_mm) == ("side", True, 20, beads.line_mm)


def test_swags_over_a_swag_lie_on_its_upper_half() -> None:
    """A ribbon is laid along the upper edge of the one below: half-way from that one's middle to its edge."""
    swag, over = laid(replace(SWAG, drop_mm=30), replace(SWAG, place="over"))
    assert over.line_mm == pytest.approx(swag.line_mm - swag.above_mm / 2) and over.drop_mm == 30


def test_a_placed_row_is_what_was_asked_and_what_it_comes_to() -> None:
    row = replace(STRING, drop_mm=40, layers=2, colour="cream", second="sage", per_joint=3)
    (made,) = laid(row)
    assert (made.kind, made.tip, made.colour, made.place, made.tier, made.repeats) == ("string", FINE, "cream and sage", "side", 2, 5)
    assert (made.layers, made.per_joint, made.run_mm, made.hung, made.on, made.notes) == (2, 3, 500, True, None, ())
    assert made.amount == pipe(replace(row, run_mm=500.0, repeats=5, width_mm=100.0))
    assert (made.above_mm, made.below_mm, made.stands_out_mm) == (made.amount.above_mm, made.amount.below_mm, made.amount.stands_out_mm)
    assert made.shallow_mm == 20 and made.drop_mm == 40  # nested strings share the drop
    (scroll,) = laid(RowSpec("C scroll", FINE, drop_mm=25))
    assert scroll.amount.width_mm == 100 and scroll.shallow_mm == 0 == scroll.drop_mm and scroll.amount.drops_mm == (25,)


def test_a_row_with_a_place_of_its_own_stands_there_but_on_an_edge() -> None:
    for place in ("side", "joints"):
        assert laid(RowSpec("rosette", CLOSED, place=place, below_mm=33.0))[0].line_mm == 33
    assert laid(SWAG, replace(SHELLS, place="under", below_mm=70.0))[1].line_mm == 70
    assert laid(SWAG, replace(LINE, place="over", below_mm=5.0))[1].line_mm == 5
    free, fixed = (laid(*(replace(SHELLS, place=place, below_mm=own) for place in ("base", "top edge", "top", "inside"))) for own in (None, 33.0))
    assert [row.line_mm for row in free] == [row.line_mm for row in fixed]
    assert free[0].line_mm == pytest.approx(120 - 13.3 / 2) and free[1].line_mm == 0  # the foot of a shell 13.3 mm wide stands on the board


def test_a_row_hangs_past_one_that_has_a_place_of_its_own() -> None:
    """A swag fixed at the joints is in the way: another hangs under it; a straight row goes below its deepest; a row in nobody's way stays."""
    fixed = replace(SWAG, drop_mm=30, below_mm=15.0)
    stays, moved = laid(fixed, SWAG)
    assert stays.line_mm == 15 and moved.line_mm == pytest.approx(under(stays, moved))
    for typed in ((fixed, SHELLS), (SHELLS, fixed)):
        by_kind = {row.kind: row for row in laid(*typed)}
        assert by_kind["shell"].line_mm == pytest.approx(under(by_kind["swag"], by_kind["shell"], 30))
    assert laid(replace(LINE, place="side", below_mm=100.0), SWAG)[1].line_mm == 15


def test_a_row_goes_past_all_that_are_in_its_way_from_the_top_down() -> None:
    upper, lower = replace(SHELLS, below_mm=18.0), replace(SHELLS, below_mm=34.0)
    for typed in itertools.permutations((upper, lower, RowSpec("bead", ROUND))):
        rows = {(row.kind, row.spec.below_mm): row for row in laid(*typed)}
        beads = rows["bead", None]
        assert beads.line_mm == pytest.approx(under(rows["shell", 34.0], beads))


def test_a_row_with_no_room_below_stays_in_the_way_and_is_told_so() -> None:
    fixed = replace(SWAG, drop_mm=30, below_mm=15.0)
    roomy = laid(fixed, SHELLS)[1]
    just, short = (laid(fixed, SHELLS, on=ground(height))[1] for height in (roomy.lowest_mm, roomy.lowest_mm - 0.01))
    assert just.line_mm == roomy.line_mm > 40 and short.line_mm == 15
    assert find_clashes(laid(fixed, SHELLS, on=ground(roomy.lowest_mm - 0.01)), 200.0, 5)


def test_rows_under_a_fixed_one_leave_the_joints_free() -> None:
    """What hangs under a row with a place of its own goes with it: the next row still begins at the joints."""
    fixed, string, swag = laid(replace(SWAG, below_mm=60.0), replace(STRING, place="under"), RowSpec("ruffled swag", PETAL))
    assert string.line_mm == pytest.approx(under(fixed, string)) and swag.line_mm == 15


@pytest.mark.parametrize(
    "cutter, gap, asked, made",
    [
        (100.0, 0.0, 20.9, 20.0),  # the cutter marks 20 mm: within a millimetre that is what is piped
        (100.0, 0.0, 21.0, 20.0),
        (100.0, 0.0, 19.0, 20.0),
        (100.0, 0.0, 21.05, 21.05),
        (100.0, 0.0, 18.95, 18.95),
        (100.0, 1.0, 20.9, 20.0),  # a gap of a millimetre is covered by the piping
        (100.0, 1.05, 20.9, 20.9),  # over that the cutter does not mark it
        (None, 0.0, 20.9, 20.9),
        (None, 0.0, 0.0, 20.0),
    ],
)
def test_a_drop_within_a_millimetre_of_the_cutters_is_the_cutters(cutter: float | None, gap: float, asked: float, made: float) -> None:
    assert laid(replace(SWAG, drop_mm=asked), on=ground(division=divided(20.0, cutter, gap)))[0].drop_mm == made


def test_a_row_hangs_as_deep_as_the_one_it_hangs_under_where_that_hangs() -> None:
    assert laid(SHELLS, replace(SWAG, place="under"))[1].drop_mm == 20  # shells do not hang: the cutter's drop
    assert laid(replace(SWAG, drop_mm=35), replace(SWAG, place="under", drop_mm=25))[1].drop_mm == 25


# --- on the top ----------------------------------------------------------------------------------------------------------------


def test_rows_on_the_top_stand_behind_one_another_from_the_edge_in() -> None:
    """The border on the edge first, then rows on the top as they are listed, then the inside edge; what is at the base takes no room there."""
    rows = (
        replace(LINE, place="inside"),
        RowSpec("rosette", CLOSED, place="top"),
        replace(SHELLS, place="top"),
        replace(SHELLS, place="base"),
        RowSpec("ruched border", PETAL, place="top edge"),
    )
    for typed in itertools.permutations(rows):
        made = {(row.kind, row.place): row for row in laid(*typed)}
        edge, shells, rosettes, line = (
            made[key] for key in (("ruched border", "top edge"), ("shell", "top"), ("rosette", "top"), ("line", "inside"))
        )
        assert shells.line_mm == pytest.approx(edge.below_mm + shells.above_mm)
        assert rosettes.line_mm == pytest.approx(shells.reach_mm + rosettes.above_mm)
        assert line.line_mm == pytest.approx(rosettes.reach_mm + line.above_mm)


def test_the_tip_must_have_room_between_a_row_on_the_top_and_the_edge() -> None:
    """A thin line alone on the top is piped as far in as the opening is wide, and not over the edge."""
    (line,) = laid(RowSpec("line", ROUND, place="top"))
    assert line.above_mm < 5 and line.line_mm == 5
    assert laid(replace(SHELLS, place="base"), RowSpec("line", ROUND, place="top"))[1].line_mm == 5


def test_a_row_on_the_top_is_shorter_by_a_turn_of_its_distance_from_the_edge() -> None:
    """Round: 2 pi for each mm; square: 8; on the scale of the side as measured. A tier of 200 mm, 10 mm in."""
    disc = outline("round", 200.0)
    assert run_mm(disc, 10.0, disc.perimeter_mm) == pytest.approx(math.pi * 180, rel=1e-6)
    assert run_mm(disc, 0.0, 640.0) == pytest.approx(640)
    square = outline("square", 200.0)
    assert run_mm(square, 10.0, 800.0) == pytest.approx(720) and run_mm(square, 10.0, 820.0) == pytest.approx(738)
    (shells,) = laid(replace(SHELLS, place="top"))
    assert shells.run_mm == pytest.approx(500 - math.tau * shells.line_mm, rel=1e-6)
    assert shells.amount.width_mm == pytest.approx(shells.run_mm / 5) and shells.amount.length_mm == pytest.approx(shells.run_mm)


def test_a_row_asked_for_further_in_than_the_top_is_wide_has_a_tenth_of_the_side_at_least() -> None:
    square = outline("square", 100.0)
    assert run_mm(square, 45.0, 400.0) == pytest.approx(40)
    assert run_mm(square, 62.0, 400.0) == pytest.approx(40) == run_mm(square, 500.0, 400.0)


def test_a_scroll_on_the_top_has_the_room_of_one_as_wide_as_a_repeat_of_the_side() -> None:
    (scroll,) = laid(RowSpec("C scroll", FINE, place="top"))
    assert scroll.line_mm == pytest.approx(pipe(RowSpec("C scroll", FINE, 500.0, 5, 100.0)).above_mm)
    (deep,) = laid(RowSpec("C scroll", FINE, drop_mm=40, place="top"))
    assert deep.line_mm == pytest.approx(pipe(RowSpec("C scroll", FINE, 500.0, 5, 100.0, drop_mm=40)).above_mm) and deep.amount.drops_mm == (40,)


# --- what is said of it --------------------------------------------------------------------------------------------------------


def test_what_is_said_of_a_row_that_cannot_be_where_it_was_asked_for() -> None:
    (runs_on,) = laid(RowSpec("line", FINE, place="joints"))[0].notes
    assert runs_on.startswith("A line runs on and cannot sit at a joint:") and "rosette, star or leaf" in runs_on
    assert laid(RowSpec("swag", PETAL, place="joints"))[0].notes[0].startswith("A swag runs on and cannot sit")
    (laid_straight,) = laid(RowSpec("string", FINE, place="top"))[0].notes
    assert laid_straight.startswith("A string hangs only on the side: here it is worked out as a straight line.")
    for row in (RowSpec("shell", STAR, place="joints"), RowSpec("line", FINE, place="base"), STRING):
        assert laid(row)[0].notes == ()


@pytest.mark.parametrize(
    "line, cutter, width, where",
    [
        (90.0, 100.0, 80.0, ("lower edge", 10.0)),  # 3-4-5: half the chord 40, half the cutter 50, its middle 30 above: it stands 80 mm high
        (80.0, 100.0, 80.0, ("lower edge", 0.0)),
        (60.0, 100.0, 80.0, ("upper edge", 80.0)),  # it would stand over the cake: its foot is 20 mm under the joints
        (60.0, 100.0, 100.9, ("lower edge", 10.0)),  # a swag a little wider than the cutter: half of it is marked, 50 mm high
        (60.0, 100.0, 101.0, ("lower edge", 10.0)),
        (60.0, 100.0, 101.1, None),  # a gap that shows
        (60.0, None, 100.0, None),
    ],
)
def test_where_the_guide_tape_goes_by_hand(line: float, cutter: float | None, width: float, where: tuple[str, float] | None) -> None:
    found = guide_tape(line, cutter, width)
    assert (found is None) == (where is None)
    if found and where:
        assert found[0] == where[0] and found[1] == pytest.approx(where[1])


# --- what runs into what -------------------------------------------------------------------------------------------------------


def band(line: float, half: float = 5.0, drop: float = 0.0, **more: object) -> PlacedRow:
    row = PlacedRow("line", PETAL, "cream", line_mm=line, above_mm=half, below_mm=half, drop_mm=drop, asked=RowSpec("line", PETAL, 500))
    return replace(row, **more)  # type: ignore[arg-type]


def test_a_row_covers_what_it_is_said_to_cover() -> None:
    row = PlacedRow("swag", PETAL, "cream", line_mm=20, above_mm=4, below_mm=6, drop_mm=30)
    assert (row.top_mm, row.bottom_mm, row.reach_mm, row.lowest_mm, row.shallow_mm) == (16, 26, 26, 56, 30)
    assert {place for place in PLACES if replace(row, place=place).on_side} == {"side", "base", "top edge"}
    assert {place for place in PLACES if replace(row, place=place).on_top} == {"top", "inside"}


def test_a_row_that_is_only_drawn_lies_on_the_edge_and_takes_no_room() -> None:
    """Of which nothing is said but what it is: one layer of it on the lowest tier, at its own size, on nothing else."""
    row = PlacedRow("swag", PETAL, "cream")
    assert (row.place, row.line_mm, row.repeats, row.width_mm, row.drop_mm, row.layers) == ("side", 0, 0, None, 0, 1)
    assert (row.count, row.shift, row.per_joint, row.bead_mm, row.joints, row.cutter_mm) == (None, 0, 1, None, (), None)
    assert (row.tier, row.run_mm, row.hung, row.above_mm, row.below_mm, row.stands_out_mm) == (0, 0, False, 0, 0, 0)
    assert (row.on, row.notes, row.asked, row.comes_to, row.size_mm) == (None, (), None, None, PETAL.bead_width_mm)
    assert Ground(500.0, 100.0, divided(), 15.0, outline("round", 160.0)).tier == 0


def test_half_a_millimetre_over_the_board_or_the_edge_is_nothing() -> None:
    assert find_clashes((band(95.5),), 100.0, 5) == () == find_clashes((band(4.5),), 100.0, 5)
    assert find_clashes((band(95.6),), 100.0, 5)[0].where == "below the board"
    assert find_clashes((band(4.4),), 100.0, 5)[0].where == "above the top edge"
    assert find_clashes((band(99.0, place="base", asked=replace(LINE, place="base")),), 100.0, 5) == ()
    assert find_clashes((band(4.0, place="top edge"),), 100.0, 5) == ()


def test_only_rows_on_the_side_clash_and_a_tier_has_a_repeat() -> None:
    assert find_clashes((band(20.0), band(20.0, place="top"), band(20.0, place="joints")), 100.0, 1) == ()
    (clash,) = find_clashes((band(20.0), band(20.0)), 100.0, 1)
    assert clash.overlap_mm == 10
    for repeats in (0, -1):
        with pytest.raises(ValueError, match="one repeat or more"):
            find_clashes((), 100.0, repeats)


def test_rows_piped_on_one_another_are_no_clash_however_many_lie_on_them() -> None:
    swag = band(20.0)
    line = band(20.0, on=swag)
    again = band(20.0, on=line)
    assert find_clashes((swag, line, again), 100.0, 5) == () == find_clashes((again, line, swag), 100.0, 5)
    beside = band(20.0, on=swag)
    assert len(find_clashes((swag, line, beside), 100.0, 5)) == 1  # two rows on one row may still meet


def test_a_clash_is_told_where_it_is_worst() -> None:
    """Two bands 10 mm wide, 8 mm apart at the joints: 2 mm over each other there; the upper hangs 5 mm deeper: 7 mm between them."""
    (clash,) = find_clashes((band(20.0, drop=25.0), band(28.0, drop=20.0)), 100.0, 5)
    assert clash.overlap_mm == pytest.approx(7) and clash.where == "between the joints"
    (at,) = find_clashes((band(20.0, drop=20.0), band(28.0, drop=25.0)), 100.0, 5)
    assert at.overlap_mm == pytest.approx(2) and at.where == "at the joints"


@given(st.floats(0, 100), st.floats(0, 100), st.floats(1, 10), st.floats(1, 10), st.floats(0, 60), st.floats(0, 60))
def test_a_clash_is_the_same_from_either_row(a: float, b: float, half_a: float, half_b: float, drop_a: float, drop_b: float) -> None:
    one, other = band(a, half_a, drop_a), band(b, half_b, drop_b)
    there, back = ([clash for clash in find_clashes(rows, 1000.0, 5) if clash.second is not None] for rows in ((one, other), (other, one)))
    assert [clash.overlap_mm for clash in there] == [clash.overlap_mm for clash in back]
    overlaps = [min(half_a * 2, half_b * 2, half_a + half_b - abs(gap)) for gap in (b - a, b + drop_b - a - drop_a)]  # at the joints, and between
    if max(overlaps) > 0.5 + 1e-6:
        assert there[0].overlap_mm >= max(overlaps) - 1e-6


# --- the order of piping -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "kind, place, phase",
    [
        ("swag", "side", "rows on the side"),
        ("string", "side", "strings"),
        ("line", "over", "rows on rows"),
        ("ruched border", "top edge", "border on the edge"),
        ("shell", "base", "shells at the base"),
        ("string", "base", "shells at the base"),
        ("shell", "top", "rows on the top"),
        ("rosette", "joints", "flowers over the joints"),
        ("leaf", "joints", "leaves over the joints"),
        ("line", "inside", "inside the top edge"),
    ],
)
def test_when_a_row_is_piped(kind: str, place: str, phase: str) -> None:
    """Common practice: the side from the lowest layer out, what lies on it, strings, then the edges, the top, flowers, leaves, the inside edge."""
    row = PlacedRow(kind, STAR, "cream", place)
    assert PHASES[row.phase] == phase
    assert replace(row, asked=RowSpec(kind, STAR, place=place)).phase == row.phase


def test_what_lies_on_a_row_is_piped_after_it() -> None:
    line = PlacedRow("swag", FINE, "cream", asked=LINE)
    assert line.phase == 0
    for under_it, phase in (("swag", "rows on rows"), ("string", "strings")):
        assert PHASES[replace(line, on=PlacedRow(under_it, STAR, "cream")).phase] == phase
    for place, phase in (("base", "shells at the base"), ("inside", "inside the top edge")):
        assert PHASES[replace(line, on=PlacedRow("shell", STAR, "cream", place)).phase] == phase
    assert PlacedRow("string", FINE, "cream", asked=LINE).phase == 0  # a line drawn as a string is still a line


def test_rows_of_a_phase_are_piped_from_the_lowest_up_and_a_bag_is_used_up_first() -> None:
    low, middle, high = band(90.0), band(55.0), band(20.0)
    assert piping_order((high, middle, low)) == (2, 1, 0)
    assert piping_order((high, replace(middle, colour="sage"), low)) == (2, 0, 1)
    assert piping_order((high, replace(middle, tip=FINE), low)) == (2, 0, 1)
    assert piping_order(()) == ()


def test_upper_tiers_come_first_in_each_phase() -> None:
    string = band(20.0, kind="string", asked=STRING)
    rows = (band(90.0), band(90.0, tier=1), replace(string, tier=1), string, band(20.0, tier=2))
    assert piping_order(rows) == (4, 1, 0, 2, 3)


def test_a_row_waits_for_what_it_lies_on_and_for_what_it_would_be_in_the_way_of() -> None:
    base = band(90.0, place="base", colour="sage")
    assert piping_order((band(90.0, place="base", on=base), base)) == (1, 0)
    proud, flat = band(60.0, stands_out_mm=12.0), band(40.0, stands_out_mm=2.0)  # 10 mm apart, the lower one 12 mm proud
    assert piping_order((proud, flat)) == (1, 0)
    assert piping_order((replace(proud, stands_out_mm=9.0), flat)) == (0, 1)


def test_rows_alike_are_piped_as_they_are_listed_and_not_as_they_were_typed() -> None:
    swag, zigzag = (band(50.0, asked=RowSpec(kind, PETAL)) for kind in ("swag", "zigzag"))
    assert piping_order((swag, zigzag)) == (0, 1) and piping_order((zigzag, swag)) == (1, 0)
    assert piping_order((swag, swag)) == (0, 1)


@given(st.permutations(range(6)))
@settings(max_examples=30)
def test_the_order_of_piping_is_that_of_the_cake_and_not_of_the_typing(typed: list[int]) -> None:
    rows = laid(*(FREE[at] for at in (1, 2, 6, 9, 10, 13)))
    steps = [rows[i].spec for i in piping_order(rows)]
    shuffled = [rows[i] for i in typed]
    assert [shuffled[i].spec for i in piping_order(shuffled)] == steps
    assert sorted(piping_order(shuffled)) == list(range(6))


def test_a_tip_passes_what_stands_out_no_further_than_it_is_away() -> None:
    """At 45 degrees a tip clears what is as proud as it is far; what stands out less than the row itself is in nobody's way."""
    flat = band(40.0, stands_out_mm=2.0)  # 10 mm from a row at 20
    for out, met in ((10.0, False), (10.1, True)):
        assert bool(touches((band(20.0, stands_out_mm=out), flat))) is met
    assert not touches((band(20.0, stands_out_mm=12.0), replace(flat, stands_out_mm=12.0)))
    assert touches((band(20.0, stands_out_mm=12.1), replace(flat, stands_out_mm=12.0)))
    assert touches((band(30.0, stands_out_mm=3.0), flat)) == ((1, 0),)  # edge to edge
    assert touches((replace(flat, place="inside"), replace(flat, line_mm=20.0))) == ()
    assert CLEARANCE_MM == 3
