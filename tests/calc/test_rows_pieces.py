"""Pieces, scrolls and wandering lines at their limits; and how finely what is only judged is told."""

from __future__ import annotations

import importlib
import itertools
import math
import pkgutil
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc import rows
from calc.rows import KINDS, RowSpec, pipe, rosette_path_mm
from calc.rows.amounts import QUICK, SLOW, wander_length_mm, wandering
from calc.rows.forms import fitted
from calc.rows.kind import Kind
from calc.rows.kinds.shell import shell_mm
from calc.sources import Constant
from calc.tips import Tip, ruche_mm, stroke_mm

PETAL, STAR, FINE, ROUND, CLOSED = Tip("petal", 11), Tip("open star", 7), Tip("round", 1.8), Tip("round", 5), Tip("closed star", 5)
EVERY_KIND = pytest.mark.parametrize("kind", list(KINDS.values()), ids=list(KINDS))


def usual(kind: Kind) -> RowSpec:
    return RowSpec(kind.name, kind.begin_tip(), run_mm=500.0, repeats=5, drop_mm=40.0 if kind.takes_drop else 0.0)


# --- what is judged ----------------------------------------------------------------------------------------------------------


def judged() -> dict[str, Constant]:
    modules = [importlib.import_module(one.name) for one in pkgutil.walk_packages(rows.__path__, "calc.rows.")]
    found = {name: value for module in modules for name, value in vars(module).items() if isinstance(value, Constant)}
    return {name: value for name, value in found.items() if value.group == "common practice"}


def test_nobody_tells_a_judgement_finer_than_a_twentieth() -> None:
    """The usual value and both ends of what hands do; a bead's fullness has a sphere's pi/6 at its end, and one more spread two figures."""
    for name, value in judged().items():
        for told in {float(value), value.low, value.high} - ({0.62, 0.52} if name == "BEAD_FULLNESS" else {1.12} if name == "PATH_SPREAD" else set()):
            assert 20 * told == pytest.approx(round(20 * told)) or value.unit == "mm", (name, told)
            assert value.unit == "-" or told == round(told, 1), (name, told)
    assert judged()["BEAD_FULLNESS"].low == pytest.approx(math.pi / 6, abs=0.005)


def test_a_range_of_hands_reaches_about_as_far_below_as_above() -> None:
    """As shares: a hand that takes half is as unusual as one that takes double, within an eighth."""
    ranges = {name: value for name, value in judged().items() if value.low < value.high}
    assert len(ranges) > 30
    for name, value in ranges.items():
        assert 0.91 < value.low * value.high / value**2 < 1.126, name
        assert 1.05 < value.high / value < 1.67, name


def test_places_in_lists_are_five_apart_so_that_another_kind_can_go_between() -> None:
    for kind in KINDS.values():
        assert kind.listed % 5 == kind.as_effect % 5 == 0 < min(kind.listed, kind.as_effect), kind.name
        for one in (kind.exercise, *kind.variants):
            if one is not None:
                assert one.rank % 5 == one.usual % 5 == 0 < min(one.rank, one.usual), one.key


@EVERY_KIND
def test_how_hard_a_hand_squeezes_is_told_to_a_twentieth(kind: Kind) -> None:
    for way in kind.ways(usual(kind)):
        for told in (*way.squeeze, way.share):
            assert 20 * told == pytest.approx(round(20 * told), abs=1e-9)


@EVERY_KIND
def test_a_piece_is_begun_harder_than_it_is_ended(kind: Kind) -> None:
    """The bag is eased off towards the end of each piece; a piece that is joined to the next without a stop is a turn of rope or a reverse shell."""
    ways = [way.squeeze for way in kind.ways(usual(kind)) if way.touches or kind.name not in ("rope", "reverse shell")]
    if kind.name != "rope":
        assert ways[-1][-1] < ways[0][-1] or ways[-1][-1] < 0.4
    assert ways[-1][-1] <= 0.7


# --- beads and shells --------------------------------------------------------------------------------------------------------


def test_a_bead_by_hand() -> None:
    """Round 5 mm: 8 mm wide, 6 mm high, one each 7 mm; 0.62 of the box round it: 238.08 mm3. 500 mm take 71.4: in five repeats 70, 7.14 mm apart.

    A bead is no larger where it has more room: what it is squeezed to is its own.
    """
    made = pipe(RowSpec("bead", ROUND, 500.0, 5))
    assert (made.count, made.pitch_mm) == (70, pytest.approx(500 / 70)) and made.stretch_percent == pytest.approx(100 / 49)
    assert made.above_mm == made.below_mm == pytest.approx(4) and made.stands_out_mm == pytest.approx(6)
    assert 1000 * made.volume_ml == pytest.approx(70 * 238.08)
    assert made.length_each_mm == pytest.approx(500 / 70) and made.length_mm == made.path_mm == 500
    assert pipe(RowSpec("bead", ROUND, 500.0, 5, count=60)).volume_ml == pytest.approx(60 * 0.23808)
    assert made.time_min == pytest.approx(70 * 2.2 / 60)
    small = pipe(RowSpec("bead", ROUND, 500.0, 5, size_mm=4.0, count=10))
    assert small.stands_out_mm == pytest.approx(3) and 1000 * small.volume_ml == pytest.approx(10 * 29.76)


def test_a_reverse_shell_by_hand() -> None:
    """Open star 7 mm: 16.8 mm wide, one each 12.6 mm, as high as a shell (9.1 mm), and 1.35 of one: the curl is added. 40 of them in 500 mm."""
    made = pipe(RowSpec("reverse shell", STAR, 500.0, 5))
    assert made.count == 40 and made.pitch_mm == 12.5 and made.stretch_percent == pytest.approx(-100 / 126)
    assert made.above_mm == made.below_mm == pytest.approx(8.4) and made.stands_out_mm == pytest.approx(9.1)
    one = pipe(RowSpec("reverse shell", STAR, 12.6, count=2, apart=True))
    assert 1000 * one.volume_ml == pytest.approx(2 * 1.35 * shell_mm(STAR)[0])
    assert made.time_min == pytest.approx(40 * 4 / 60)
    assert KINDS["reverse shell"].across_mm(STAR) == pytest.approx(16.8)


def test_a_reverse_shell_curls_out_round_and_down_to_where_the_next_begins() -> None:
    """The head goes back and out to one side, to three fifths of it; the tail comes down to the line, one pitch on."""
    kind = KINDS["reverse shell"]
    curl, tail, other = kind.ways(RowSpec("reverse shell", STAR, 500.0, 5))
    pitch, side, high = 12.6, 8.4, 8.4
    assert curl.points[-1] == pytest.approx((0, -0.6 * side, high))
    heights, outs = [off for _, _, off in curl.points], [-down for _, down, _ in curl.points]
    assert heights == sorted(heights) and heights[0] == pytest.approx(0.3 * high) and max(outs) == outs[-1]
    assert min(along for along, _, _ in curl.points) == pytest.approx(-0.2 * pitch)  # the head bulges back over what lies there
    assert curl.points[0][0] > 0 > curl.points[1][0] > curl.points[2][0] < curl.points[3][0] == 0  # back, and forward again: a curl
    falls = [off for _, _, off in tail.points]
    assert falls == sorted(falls, reverse=True) and tail.points[-1] == pytest.approx((pitch, 0, 0))
    assert all(a[0] < b[0] and a[1] < b[1] for a, b in itertools.pairwise(tail.points))
    assert other.points[0] == tail.points[-1] and other.points[1][0] > pitch and other.points[1][1] > 0 and not other.touches
    assert other.points[1][1] == pytest.approx(-curl.points[0][1])  # where the next head begins, on the other side
    assert other.points[1][0] - pitch == pytest.approx(curl.points[0][0]) and other.points[1][2] == pytest.approx(curl.points[0][2])


@pytest.mark.parametrize("name", ["shell", "bead", "reverse shell", "rope"])
@given(st.floats(100, 2000), st.integers(1, 12), st.floats(2, 12))
def test_a_row_of_pieces_closes_exactly_on_its_repeats(name: str, run: float, repeats: int, opening: float) -> None:
    """As many in each repeat, from joint to joint, as come nearest to the natural pitch as a ratio: one more or one less is further off."""
    spec = RowSpec(name, Tip("open star", opening), run, repeats)
    made, natural = pipe(spec), KINDS[name].natural_pitch_mm(spec.tip)
    each, rest = divmod(made.count, repeats)
    assert rest == 0 and made.count * made.pitch_mm == pytest.approx(run)
    off = abs(math.log(run / made.count / natural))
    for other in (each - 1, each + 1):
        assert other < 1 or abs(math.log(run / repeats / other / natural)) >= off - 1e-9


def test_pieces_set_apart_touch_where_they_are_nearer_than_they_are_long() -> None:
    """Natural pitch 10 mm: 50 round 485 mm are 9.7 mm apart and just clear, 50 round 480 mm touch; apart they are not stretched."""
    for run, count, said in ((485.0, 50, False), (480.0, 50, True), (1000.0, 50, False)):
        notes: list[str] = []
        pitch, stretch, found = fitted(RowSpec("shell", STAR, run, count=count, apart=True), 10.0, notes)
        assert (pitch, stretch, found) == (pytest.approx(run / 50), 0.0, 50) and bool(notes) is said
        assert not said or notes[0].startswith("50 of them set 10 mm apart touch: each is 10 mm long.")


def test_a_piece_stretched_by_more_than_15_percent_shows() -> None:
    for run, said in ((575.0, ""), (576.0, "Each shell would be stretched by 15 %"), (426.0, ""), (424.0, "Each shell would be squeezed by 15 %")):
        notes: list[str] = []
        fitted(RowSpec("shell", STAR, run, count=50), 10.0, notes)
        assert bool(notes) is bool(said) and (not said or notes[0].startswith(said) and "more than 15 % shows" in notes[0])
    more: list[str] = []
    fewer: list[str] = []
    fitted(RowSpec("shell", STAR, 700.0, count=50), 10.0, more)
    fitted(RowSpec("shell", STAR, 300.0, count=50), 10.0, fewer)
    assert more[0].endswith("Use more of them, or a wider tip.") and fewer[0].endswith("Use fewer of them, or a finer tip.")


def test_a_row_has_20000_pieces_at_most() -> None:
    notes: list[str] = []
    assert fitted(RowSpec("shell", STAR, 100_000.0, count=20_000), 5.0, notes)[2] == 20_000
    assert fitted(RowSpec("shell", STAR, 100_000.0, 2_000, per_repeat=10), 5.0, notes)[2] == 20_000
    with pytest.raises(ValueError, match="20000"):
        fitted(RowSpec("shell", STAR, 100_000.0, 2_000, per_repeat=11), 5.0, notes)


def test_layers_of_pieces_stand_on_each_other() -> None:
    """A second row sinks in: it adds 0.85 of its height. There are as many again, along as long a way."""
    for name in ("bead", "shell", "rope", "rosette"):
        one, two = (pipe(RowSpec(name, CLOSED, 500.0, 5, layers=layers)) for layers in (1, 2))
        assert two.stands_out_mm == pytest.approx(1.85 * one.stands_out_mm) and two.count == 2 * one.count, name
        assert two.length_mm == pytest.approx(2 * one.length_mm) and two.volume_ml == pytest.approx(2 * one.volume_ml)
        assert two.above_mm == one.above_mm and two.pitch_mm == one.pitch_mm


def test_shells_set_apart_keep_their_length_and_take_no_more() -> None:
    apart = pipe(RowSpec("shell", STAR, 500.0, 5, count=5, apart=True))
    assert apart.length_each_mm == pytest.approx(11.2) and apart.length_mm == pytest.approx(56) and apart.pitch_mm == 100 and apart.notes == ()
    assert 1000 * apart.volume_ml == pytest.approx(5 * shell_mm(STAR)[0])


@pytest.mark.parametrize("name", ["rope", "shell", "bead", "reverse shell"])
def test_pieces_set_apart_in_two_layers_are_twice_as_long(name: str) -> None:
    """Five of them at the joints, and five on those: ten natural lengths, however long the row is."""
    one, two = (pipe(RowSpec(name, STAR, 500.0, 5, count=5, apart=True, layers=layers)) for layers in (1, 2))
    natural = KINDS[name].natural_pitch_mm(STAR)
    assert one.length_mm == pytest.approx(5 * natural) and two.length_mm == pytest.approx(10 * natural) and two.count == 10
    assert two.path_mm == pytest.approx(2 * one.path_mm)


def test_a_shell_of_a_practice_row_is_as_long_as_it_was_measured() -> None:
    """Measured 14 mm apart where 11.2 mm is usual: the head is longer by 2.8 / 6 of the box times pi, and the tail the same."""
    usual_mm3, wide, high = shell_mm(STAR)
    longer = shell_mm(STAR, 14.0)[0]
    assert longer - usual_mm3 == pytest.approx(0.85 * math.pi * wide * high * 2.8 / 6)
    made = pipe(RowSpec("shell", STAR, 700.0, 5, pitch_mm=14.0))
    assert (made.count, made.stretch_percent) == (50, pytest.approx(0)) and 1000 * made.volume_ml == pytest.approx(50 * longer)
    assert KINDS["shell"].ways(RowSpec("shell", STAR, 700.0, 5, pitch_mm=14.0))[1].points[-1][0] == 14


# --- pieces one by one -------------------------------------------------------------------------------------------------------


def test_pieces_one_by_one_that_touch() -> None:
    """Rosettes 20 mm wide: 19.4 mm apart they just clear; nearer they touch."""
    for pitch, said in ((19.4, False), (19.3, True), (15.9, True)):
        made = pipe(RowSpec("rosette", CLOSED, 10 * pitch, 5, count=10, size_mm=20.0))
        assert bool(made.notes) == said, pitch
        assert not said or made.notes[0].startswith(f"10 of them set {pitch:.0f} mm apart touch: each is 20 mm wide.")
    crowd = RowSpec("rosette", CLOSED, 100.0, 10, size_mm=20.0)
    assert (
        pipe(crowd).notes and pipe(replace(crowd, per_repeat=1)).notes and not pipe(replace(crowd, per_repeat=2)).notes
    )  # a bunch is meant to touch
    assert not pipe(replace(crowd, count=1, run_mm=5.0)).notes  # one alone touches none
    assert pipe(replace(crowd, count=2, run_mm=5.0)).notes


@pytest.mark.parametrize("name", [name for name, kind in KINDS.items() if not kind.in_pieces or kind.set_apart])
def test_only_pieces_that_meet_each_other_are_stretched(name: str) -> None:
    """A line, a swag or a scroll is as long as its run, and a rosette as wide as it is, however far apart."""
    for run in (480.0, 500.0):
        assert pipe(replace(usual(KINDS[name]), run_mm=run)).stretch_percent == 0


def test_what_runs_on_has_no_pitch_and_a_rocked_line_is_as_wide_as_its_strokes() -> None:
    """The tip goes to and fro by its movement, and what it lays down is one stroke wide; a line that is not rocked is as wide as its bead."""
    for name in ("line", "swag", "string", "zigzag", "C scroll"):
        assert KINDS[name].natural_pitch_mm(STAR) == 0
    movement, advance = ruche_mm(PETAL)
    assert movement > advance
    assert KINDS["ruched border"].across_mm(PETAL) == pytest.approx(movement + stroke_mm(PETAL)) == KINDS["ruched swag"].across_mm(PETAL)
    assert KINDS["line"].across_mm(PETAL) == PETAL.bead_width_mm


def test_a_leaf_is_as_sure_as_its_tip_and_a_star_as_its_hand() -> None:
    """What is drawn out of the tip spreads as the tip's line swells; a star is squeezed until it looks right: a third more or less."""
    leaf, star = pipe(RowSpec("leaf", Tip("leaf", 6), 500.0, 5)), pipe(RowSpec("star", STAR, 500.0, 5))
    swell = Tip("leaf", 6).swell
    assert leaf.high_ml / leaf.volume_ml == pytest.approx(swell.high / swell) and leaf.volume_ml / leaf.low_ml == pytest.approx(swell / swell.low)
    assert star.high_ml / star.volume_ml == pytest.approx(1.35) == star.volume_ml / star.low_ml


def test_pieces_at_each_joint() -> None:
    one, two = pipe(RowSpec("star", STAR, 500.0, 5)), pipe(RowSpec("star", STAR, 500.0, 5, per_repeat=2))
    assert (one.count, two.count, one.pitch_mm, two.pitch_mm) == (5, 10, 100, 50)
    none = pipe(RowSpec("star", STAR, 500.0, 5, count=0))
    assert (none.count, none.pitch_mm, none.volume_ml, none.low_g) == (0, 500, 0, 0)


def test_a_rosette_narrower_than_two_lines_is_a_star() -> None:
    """Its line is as wide as the bead of the tip; twice that is the least with a turn round a middle."""
    bead = CLOSED.bead_width_mm
    for size, said in ((2 * bead, False), (2 * bead - 0.1, True)):
        notes = pipe(RowSpec("rosette", CLOSED, 500.0, 5, size_mm=size)).notes
        assert any("narrower than two lines" in note for note in notes) is said
    assert rosette_path_mm(2 * bead, bead) == pytest.approx(1.5 * bead + math.pi * bead / 2 * 1.5)


def test_a_star_by_hand() -> None:
    """Open star 6 mm: 9 mm wide and 8.4 mm high; 0.55 of the cylinder round it, and 0.85 of that between its ridges: 249.8 mm3."""
    made = pipe(RowSpec("star", Tip("open star", 6), 500.0, 5))
    assert made.above_mm == made.below_mm == pytest.approx(4.5) and made.stands_out_mm == pytest.approx(8.4) == made.length_each_mm
    assert 1000 * made.volume_ml == pytest.approx(5 * 0.55 * 0.85 * math.pi / 4 * 81 * 8.4)


def test_a_leaf_by_hand() -> None:
    """Leaf 6 mm: 15.6 mm long, 8.4 mm wide; a strip as thick as its base, seven tenths of it."""
    tip = Tip("leaf", 6)
    made = pipe(RowSpec("leaf", tip, 500.0, 5))
    assert made.volume_ml == pytest.approx(5 * 0.7 * tip.laid_mm2 * 15.6 / 1000) and made.length_each_mm == pytest.approx(15.6)
    assert made.stands_out_mm == pytest.approx(max(tip.bead_height_mm, 3.0)) and made.above_mm == pytest.approx(7.8)
    for pitch, said in ((8.2, False), (8.1, True)):  # side by side they take 8.4 mm
        assert bool(pipe(RowSpec("leaf", tip, 5 * pitch, 5)).notes) is said


@pytest.mark.parametrize(
    "spec, each_s, pace",
    [
        (RowSpec("swag", PETAL, 500.0, 5, drop_mm=50.0), 6, 14),  # 785.4 mm: 56.1 s, and half a minute at the joints
        (RowSpec("ruffled swag", PETAL, 500.0, 5, drop_mm=50.0), 6, 9),
        (RowSpec("ruched swag", PETAL, 500.0, 5, drop_mm=50.0), 6, 20),
        (RowSpec("string", FINE, 500.0, 5, drop_mm=40.0), 5, 20),
        (RowSpec("C scroll", FINE, 500.0, 5, drop_mm=40.0), 6, 14),
        (RowSpec("rope", STAR, 500.0, 5), 1, 14),
        (RowSpec("zigzag", STAR, 500.0), 0, 25),
        (RowSpec("ruched border", PETAL, 500.0), 0, 20),
        (RowSpec("small rose", Tip("petal", 9), 500.0, 5), 25, None),
        (RowSpec("star", STAR, 500.0, 5), 2, None),
        (RowSpec("dot", ROUND, 500.0, 5), 2, None),
    ],
    ids=lambda spec: spec.kind if isinstance(spec, RowSpec) else "",
)
def test_what_a_practised_hand_takes_by_hand(spec: RowSpec, each_s: int, pace: int | None) -> None:
    """Common practice, no source: so many seconds to begin and end each piece, and along its path at a pace in mm a second."""
    made = pipe(spec)
    assert 60 * made.time_min == pytest.approx(made.count * each_s + (made.path_mm / pace if pace else 0))


# --- scrolls -----------------------------------------------------------------------------------------------------------------


def test_scrolls_as_deep_as_their_line_allows() -> None:
    """The curls close up under six widths of the line."""
    bead = FINE.bead_width_mm
    for widths, said in ((6.01, False), (5.99, True), (2.99, True)):
        made = pipe(RowSpec("C scroll", FINE, 500.0, 5, drop_mm=widths * bead))
        assert bool(made.notes) == said, widths
        assert not said or f"a scroll {widths * bead:.0f} mm deep close up under a line {bead:.1f} mm wide" in made.notes[0]


@pytest.mark.parametrize("name", ["C scroll", "S scroll"])
def test_scrolls_fill_their_repeat_or_their_part_of_it(name: str) -> None:
    """Two in each repeat are half as wide; without a depth each is 0.35 of its width deep; a count is kept."""
    whole, half = pipe(RowSpec(name, FINE, 600.0, 3, drop_mm=30.0)), pipe(RowSpec(name, FINE, 600.0, 3, drop_mm=30.0, per_repeat=2))
    assert (whole.count, whole.pitch_mm, half.count, half.pitch_mm) == (3, 200, 6, 100)
    assert half.length_each_mm == pytest.approx(pipe(RowSpec(name, FINE, 600.0, 6, drop_mm=30.0)).length_each_mm)
    assert pipe(RowSpec(name, FINE, 600.0, 3)).drops_mm == pytest.approx((70,))
    assert pipe(RowSpec(name, FINE, 600.0, 3, per_repeat=2)).drops_mm == pytest.approx((35,))
    kept = pipe(RowSpec(name, FINE, 600.0, 3, drop_mm=30.0, count=4, layers=2))
    assert kept.count == 8 and kept.length_mm == pytest.approx(8 * whole.length_each_mm) == kept.path_mm
    hand = [point for way in KINDS[name].ways(RowSpec(name, FINE, 600.0, 3, per_repeat=2)) for point in way.points]
    mark = KINDS[name].mark_points(100.0, 35.0)
    assert {point[:2] for point in hand} == set(mark)


# --- a wandering line ----------------------------------------------------------------------------------------------------------


def test_what_a_wandering_line_comes_to_by_hand() -> None:
    """Round 1.8 mm with 3 mm between passes on a square of 10 cm: 0.47 of it quarter turns, at 10 mm a second; hands differ in turns and gap.

    Straight to and fro it would be A/p long, curled throughout pi/4 of that; and the gap may be a fifth wider or narrower.
    """
    made = wandering(10_000.0, 3.0, FINE)
    pitch = 3 + FINE.bead_width_mm
    straight, curled = 10_000 / pitch, 10_000 / pitch * math.pi / 4
    assert made.pitch_mm == pytest.approx(pitch) and made.length_mm == pytest.approx(straight - 0.47 * (straight - curled))
    assert made.volume_ml == pytest.approx(FINE.laid_mm2 * made.length_mm / 1000) and made.mass_g == pytest.approx(0.95 * made.volume_ml)
    assert made.time_min == pytest.approx(made.length_mm / 600) and (made.low_min, made.high_min) == pytest.approx(
        (made.time_min * QUICK, made.time_min * SLOW)
    )
    swell = FINE.swell
    less = math.hypot(math.log(swell / swell.low), math.log(made.length_mm / curled), math.log(1.2))
    more = math.hypot(math.log(swell.high / swell), math.log(straight / made.length_mm), math.log(1.2))
    assert made.low_ml == pytest.approx(made.volume_ml * math.exp(-less)) and made.high_ml == pytest.approx(made.volume_ml * math.exp(more))
    assert math.log(made.mass_g / made.low_g) == pytest.approx(math.hypot(less, math.log(0.95 / 0.77)))
    assert math.log(made.high_g / made.mass_g) == pytest.approx(math.hypot(more, math.log(1.20 / 0.95)))
    assert made.kind == "line" and "short curls" in made.hand and "upright" in made.angle


def test_a_wandering_line_that_was_weighed_spreads_by_hand_and_gap_alone() -> None:
    """A metre weighed 4 g: what the line takes is known within a tenth; its density is not asked again."""
    made = wandering(10_000.0, 3.0, FINE, grams_per_metre=4.0, density_g_per_ml=0.8, density_ends=(0.7, 0.9))
    assert made.mass_g == pytest.approx(4 * made.length_mm / 1000) and made.volume_ml == pytest.approx(made.mass_g / 0.8)
    assert made.low_g / made.mass_g == pytest.approx(made.low_ml / made.volume_ml) and made.high_g / made.mass_g == pytest.approx(
        made.high_ml / made.volume_ml
    )
    loose = wandering(10_000.0, 3.0, FINE, density_g_per_ml=0.8, density_ends=(0.7, 0.9))
    assert math.log(loose.high_g / loose.mass_g) > math.log(loose.high_ml / loose.volume_ml)
    for gap in (0.0, -1.0):
        with pytest.raises(ValueError, match="gap"):
            wandering(10_000.0, gap, FINE)


@given(st.floats(100, 1e6), st.floats(0.5, 50), st.floats(0, 1))
def test_twice_the_ground_takes_twice_the_line_and_twice_the_pitch_half(area: float, pitch: float, turns: float) -> None:
    one = wander_length_mm(area, pitch, turns)
    assert wander_length_mm(2 * area, pitch, turns) == pytest.approx(2 * one)
    assert wander_length_mm(area, 2 * pitch, turns) == pytest.approx(one / 2)
    assert math.pi / 4 * area / pitch <= one * (1 + 1e-9) and one <= area / pitch * (1 + 1e-9)


# --- limits of what is asked -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "most, over",
    [
        ({"repeats": 2_000}, {"repeats": 2_001}),
        ({"layers": 20}, {"layers": 21}),
        ({"run_mm": 100_000.0}, {"run_mm": 100_001.0}),
        ({"drop_mm": 5_000.0}, {"drop_mm": 5_001.0}),
        ({"count": 20_000}, {"count": 20_001}),
        ({"per_repeat": 20_000}, {"per_repeat": 20_001}),
        ({"count": 0}, {"count": -1}),
        ({"per_repeat": 0}, {"per_repeat": -1}),
        ({"movement_mm": 0.0}, {"movement_mm": -0.5}),
        ({"width_mm": 0.5}, {"width_mm": 0.0}),
        ({"size_mm": 0.5}, {"size_mm": -0.5}),
        ({"pitch_mm": 0.5}, {"pitch_mm": 0.0}),
        ({"advance_mm": 0.5}, {"advance_mm": 0.0}),
        ({"grams_per_metre": 0.5}, {"grams_per_metre": 0.0}),
        ({"density_g_per_ml": 0.5}, {"density_g_per_ml": 0.0}),
        ({"density_ends": (0.5, 0.5)}, {"density_ends": (0.0, 0.5)}),
        ({"density_ends": (0.5, 1.5)}, {"density_ends": (0.5, 0.0)}),
        ({"weighed_as": "line"}, {"weighed_as": "strip"}),
    ],
)
def test_the_most_that_can_be_asked_and_a_little_over(most: dict[str, float], over: dict[str, float]) -> None:
    row = RowSpec("ruched border", PETAL, 500.0, 5)
    assert pipe(replace(row, **most)).volume_ml > 0  # type: ignore[arg-type]
    with pytest.raises(ValueError):
        pipe(replace(row, **over))  # type: ignore[arg-type]


@pytest.mark.parametrize("drop, said", [(0.0, False), (0.1, True), (9.9, True), (10.0, False), (100.0, False), (100.1, True)])
def test_a_swag_is_from_a_tenth_of_its_width_to_all_of_it_deep(drop: float, said: bool) -> None:
    """Of one that no drop was asked for nothing is said."""
    made = pipe(RowSpec("swag", PETAL, 500.0, 5, drop_mm=drop))
    assert bool(made.notes) is said and any("bulges" in note for note in made.notes) is (drop > 100)


@pytest.mark.parametrize("drop, layers, says", [(200.0, 1, ""), (200.1, 1, "tear"), (7.0, 2, ""), (5.0, 2, "innermost"), (5.0, 1, ""), (2.0, 1, "")])
def test_strings_that_hang_too_deep_or_against_their_joints(drop: float, layers: int, says: str) -> None:
    """More than twice as deep as wide a string tears; the innermost of several must clear its joints by one and a half lines."""
    assert 2.5 < 1.5 * FINE.bead_width_mm < 3.5
    notes = pipe(RowSpec("string", FINE, 500.0, 5, drop_mm=drop, layers=layers)).notes
    assert len(notes) == bool(says) and all(says in note for note in notes)


def test_nested_strings_clear_their_joints_by_one_and_a_half_lines_exactly() -> None:
    """The inner of two hangs half as deep: 3 lines for both leave it 1.5 lines, which is enough; a hundredth less is not, and is said."""
    bead = FINE.bead_width_mm
    for lines, said in ((3.0, False), (2.99, True)):
        made = pipe(RowSpec("string", FINE, 500.0, 5, drop_mm=lines * bead, layers=2))
        assert any("lies against its joints" in note for note in made.notes) is said


@pytest.mark.parametrize("tip, out", [(Tip("basket", 16), 16 / math.sqrt(2)), (Tip("leaf", 8), 8 / math.sqrt(2)), (PETAL, PETAL.bead_height_mm)])
def test_a_ruffled_ribbon_leans_out_as_far_as_it_reaches_down(tip: Tip, out: float) -> None:
    """At 45 degrees: a flat ribbon of 16 mm covers 11.3 mm of the side and stands out 11.3 mm. A line that is higher than that stays as high."""
    made = pipe(RowSpec("ruffled swag", tip, 500.0, 5, drop_mm=30.0))
    assert made.stands_out_mm == pytest.approx(out) == made.above_mm + made.below_mm
    assert KINDS["ruffled swag"].across_mm(tip) == pytest.approx(out)
