"""What a kind of row says of itself, and what follows from it: names, places, colours, times of a stroke, and where a row stands about its line."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.rows import KINDS, RowSpec, Stroke, pipe, piped
from calc.rows.kind import Kind
from calc.tips import Tip
from calc.units import Problem

EDGES = ("top edge", "base", "top", "inside")
SIDE = ("side", "over", "under")
HUNG = [kind for kind in KINDS.values() if kind.hangs]


@pytest.mark.parametrize(
    "name, places",
    [
        ("swag", SIDE),  # what hangs hangs on the side
        ("C scroll", SIDE),
        ("rosette", ("joints", *EDGES)),  # single pieces sit at joints or along an edge
        ("dot", ("joints", *EDGES)),
        ("shell", (*EDGES, "over", "joints")),  # shells go along an edge, over a row, or round a joint
        ("ruched border", (*EDGES, "over")),  # what runs on cannot sit at a joint
        ("line", (*EDGES, "over", "side", "under")),  # a line, which usually lies over a row, goes round the side as well
    ],
)
def test_the_places_that_suit_a_kind(name: str, places: tuple[str, ...]) -> None:
    assert KINDS[name].places == places and KINDS[name].place in places


def test_what_is_asked_for_by_the_repeat_is_single_pieces_and_scrolls() -> None:
    by_repeat = {name for name, kind in KINDS.items() if kind.by_repeat}
    assert by_repeat == {"dot", "rosette", "star", "leaf", "small rose", "C scroll", "S scroll"}


def test_names_at_the_head_of_a_line_keep_all_their_letters() -> None:
    assert [(KINDS[name].title, KINDS[name].titles) for name in ("shell", "C scroll")] == [("Shell", "Shells"), ("C scroll", "C scrolls")]


def test_what_is_led_without_rocking_tells_by_its_weight_what_a_tip_lays_down() -> None:
    assert {name for name, kind in KINDS.items() if kind.plain_line} == {"line", "string", "swag"}


def test_what_is_practised_in_layers_has_two() -> None:
    every = [one for kind in KINDS.values() for one in (kind.exercise, *kind.variants) if one is not None]
    assert {one.key: one.layers for one in every if one.layers != 1} == {"layered_swags": 2, "nested_strings": 2, "over_piping": 2}


def test_a_bag_is_called_by_its_colour_or_by_both() -> None:
    one = RowSpec("shell", Tip("open star", 7), colour="cream")
    assert one.colours == ("cream",) and one.bag_colour == "cream"
    two = replace(one, second="sage")
    assert two.colours == ("cream", "sage") and two.bag_colour == "cream and sage"


def test_a_stroke_takes_the_time_of_its_way_and_of_standing_still() -> None:
    """3, 4 and 12 mm along and down are 5 mm and 12 mm: 17 mm at 8.5 mm/s are two seconds."""
    way = Stroke("lead", ((0.0, 0.0, 0.0), (3.0, 4.0, 0.0), (3.0, 4.0, 12.0)), 8.5, (1.0, 1.0), (0.0, 0.0, -1.0), True)
    assert way.length_mm == pytest.approx(17) and way.time_s == pytest.approx(2)
    assert replace(way, still_s=1.5).time_s == pytest.approx(3.5)
    assert replace(way, speed_mm_per_s=6.8).time_s == pytest.approx(2.5)  # 17 / 6.8
    assert replace(way, speed_mm_per_s=0.0, still_s=1.5).time_s == 1.5  # where the hand has no speed of its own its pause is all


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_what_leaves_the_tip_goes_to_the_surface(kind: Kind) -> None:
    """The third axis leads off the surface: a tip at right angles to it faces along -1, and one at 45 degrees along -0.707."""
    for way in kind.ways(RowSpec(kind.name, kind.begin_tip(), run_mm=500.0, repeats=5, drop_mm=40.0 if kind.takes_drop else 0.0)):
        assert way.faces[2] <= -0.7


def test_one_piece_sits_at_a_joint_when_nothing_is_said() -> None:
    row = RowSpec("rosette", Tip("closed star", 5), run_mm=660.0, repeats=8)
    assert row.per_joint == 1 and pipe(row).count == 8


@pytest.mark.parametrize("kind", HUNG, ids=lambda kind: kind.name)
def test_a_row_that_hangs_is_half_over_its_line_and_half_under(kind: Kind) -> None:
    row = pipe(RowSpec(kind.name, kind.begin_tip(), run_mm=660.0, repeats=8, drop_mm=30.0))
    assert row.above_mm == row.below_mm > 0 and row.stretch_percent == 0  # it has no pieces that could be stretched


@pytest.mark.parametrize("name", ["C scroll", "S scroll", "line"])
def test_lines_over_a_line_stand_out_by_085_of_each(name: str) -> None:
    """A line sinks into the one under it: a second one adds 0.85 of its height, and a third as much again."""
    one, two, three = (pipe(RowSpec(name, Tip("round", 3), run_mm=660.0, repeats=8, drop_mm=30.0, layers=layers)) for layers in (1, 2, 3))
    assert one.stands_out_mm == pytest.approx(Tip("round", 3).bead_height_mm)
    assert two.stands_out_mm / one.stands_out_mm == pytest.approx(1.85) and three.stands_out_mm / one.stands_out_mm == pytest.approx(2.7)


def test_a_string_from_over_3_2_mm_is_said_to_be_heavy() -> None:
    for opening, heavy in ((3.2, False), (3.3, True)):
        notes = pipe(RowSpec("string", Tip("round", opening), run_mm=660.0, repeats=8, drop_mm=30.0)).notes
        assert any("is heavy and tends to tear" in note for note in notes) == heavy, opening


def test_the_tips_that_suit_are_told_three_at_most() -> None:
    """A ruched border is made with six families: the first three are told, the last of them after an "or"."""
    notes = pipe(RowSpec("ruched border", Tip("round", 5), run_mm=660.0)).notes
    assert any("with a petal tip, a ruffle tip or an open star tip, not with a round tip" in note for note in notes)
    dots = pipe(RowSpec("dot", Tip("petal", 11), run_mm=660.0, repeats=8)).notes
    assert any("is usually piped with a round tip, not with a petal tip" in note for note in dots)


def test_a_row_that_cannot_be_piped_is_a_problem_at_its_input() -> None:
    with pytest.raises(Problem) as caught:
        piped(RowSpec("shell", Tip("open star", 7), run_mm=660.0, drop_mm=6000.0), "rows.1.drop", "Drop")
    assert caught.value.input == "rows.1.drop" and caught.value.message.startswith("Drop leads to a row that cannot be piped: a drop cannot be")
