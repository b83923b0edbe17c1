"""Rows by hand: the path of the hand of every kind, worked pieces, limits, what tips make, and where rows lie."""

from __future__ import annotations

import dataclasses
import itertools
import math
from dataclasses import replace

import pytest

from calc.curves import SWELL_MEAN, arc_length_mm, swell_at
from calc.division import Division, division_choices
from calc.rows import KINDS, RowAmount, RowSpec, grams_per_metre, pipe, rosette_path_mm
from calc.rows.amounts import QUICK, SLOW, wander_length_mm, wandering
from calc.rows.effects import effect_size_mm, effects_of, find_tips, opening_for_mm
from calc.rows.kind import Kind
from calc.rows.kinds.shell import shell_mm
from calc.rows.placement import CLEARANCE_MM, Ground, PlacedRow, find_clashes, place_rows, touches
from calc.shapes import outline
from calc.tips import FAMILIES, TIPS, Tip, stroke_mm

PETAL, STAR, FINE, ROUND = Tip("petal", 11), Tip("open star", 7), Tip("round", 1.8), Tip("round", 5)
EVERY_KIND = pytest.mark.parametrize("kind", list(KINDS.values()), ids=list(KINDS))


def usual(kind: Kind) -> RowSpec:
    """One repeat of 100 mm of a kind, with the tip that it begins with."""
    return RowSpec(kind.name, kind.begin_tip(), run_mm=500.0, repeats=5, drop_mm=40.0 if kind.takes_drop else 0.0)


# --- the path of the hand ----------------------------------------------------------------------------------------------------


@EVERY_KIND
def test_the_hand_goes_on_from_where_it_was_and_never_into_the_cake(kind: Kind) -> None:
    ways = kind.ways(usual(kind))
    assert len(ways) == len(kind.steps)
    for before, after in itertools.pairwise(ways):
        assert before.points[-1] == pytest.approx(after.points[0])
    for way in ways:
        assert all(off >= 0 for _, _, off in way.points)
        assert math.hypot(*way.faces) == pytest.approx(1)


@EVERY_KIND
def test_a_squeeze_is_between_nothing_and_all_and_the_pauses_make_up_the_start(kind: Kind) -> None:
    ways = kind.ways(usual(kind))
    for way in ways:
        assert all(0 <= squeeze <= 1 for squeeze in way.squeeze)
    assert max(squeeze for way in ways for squeeze in way.squeeze) >= 0.7
    if kind.start_s:
        assert math.fsum(way.share for way in ways) == pytest.approx(1)


@pytest.mark.parametrize("name", ["bead", "dot", "star", "shell", "rope"])
def test_nothing_is_squeezed_out_while_the_tip_is_drawn_off(name: str) -> None:
    kind = KINDS[name]
    off = next(way for way in kind.ways(usual(kind)) if not way.touches)
    assert off.squeeze == (0, 0)
    if name in ("bead", "dot", "star"):  # the squeeze stops before the tip leaves
        assert kind.ways(usual(kind))[1].squeeze == (0, 0)


@pytest.mark.parametrize("name", ["dot", "star"])
def test_a_piece_squeezed_straight_at_the_side_stays_in_its_place(name: str) -> None:
    kind = KINDS[name]
    spec = usual(kind)
    high = pipe(replace(spec, count=1)).stands_out_mm
    for way in kind.ways(spec)[:2]:
        assert all((along, down) == (0, 0) and 0.3 * high <= off <= high for along, down, off in way.points)
    last = kind.ways(spec)[2].points
    assert (last[-1][0], last[-1][1]) == (0, 0) and last[-1][2] >= high
    assert kind.ways(spec)[1].points == (kind.ways(spec)[0].points[-1],)  # the hand is still while the squeeze stops


@pytest.mark.parametrize("name", ["bead", "shell"])
def test_a_bead_and_a_shell_are_drawn_along_the_row_to_the_next(name: str) -> None:
    kind = KINDS[name]
    spec = usual(kind)
    high, pitch = pipe(replace(spec, count=50)).stands_out_mm, kind.natural_pitch_mm(spec.tip)
    points = [point for way in kind.ways(spec) for point in way.points]
    assert all(down == 0 for _, down, _ in points)
    assert max(off for _, _, off in points) == pytest.approx(high)
    assert points[-1][0] == pytest.approx(pitch) and max(along for along, _, _ in points) == pytest.approx(pitch)
    assert points[0][0] == 0 and 0.3 * high <= points[0][2] <= 0.4 * high + 1e-9
    assert min(along for along, _, _ in points) > -0.2 * pitch
    swelling = kind.ways(spec)[0].points
    assert [off for _, _, off in swelling] == sorted(off for _, _, off in swelling)  # the tip rises with the head
    if name == "shell":  # and goes back over it, so that the head bulges
        assert min(along for along, _, _ in swelling) < -0.05 * pitch


def test_a_sized_bead_moves_its_neighbours_in_proportion() -> None:
    """Round 5 mm: beads 8 mm wide, 7 mm from the one to the next; beads of 16 mm stand 14 mm apart."""
    kind = KINDS["bead"]
    assert kind.natural_pitch_mm(ROUND) == pytest.approx(7)
    assert kind.natural_pitch_mm(ROUND, 16.0) == pytest.approx(14)
    assert kind.ways(RowSpec("bead", ROUND, 500, size_mm=16.0))[2].points[-1][0] == pytest.approx(14)


def test_a_leaf_is_drawn_out_to_its_length_while_the_squeeze_eases() -> None:
    """Leaf 6 mm: 2.6 openings, 15.6 mm long; the tip begins on the surface, half an opening of buttercream under it."""
    spec = RowSpec("leaf", Tip("leaf", 6), 500, 5)
    ways = KINDS["leaf"].ways(spec)
    points = [point for way in ways for point in way.points]
    assert points[-1][1] == pytest.approx(15.6) and points[0] == pytest.approx((0, 0, 0.9))
    assert points[1][2] == pytest.approx(3.0)
    assert [down for _, down, _ in points] == sorted(down for _, down, _ in points)
    assert ways[-1].squeeze[-1] == 0
    assert pipe(spec).length_each_mm == pytest.approx(15.6)
    assert KINDS["leaf"].natural_pitch_mm(Tip("leaf", 6)) == pytest.approx(8.4)


def test_a_line_is_lifted_and_let_fall_from_joint_to_joint() -> None:
    touch, fall, stop = KINDS["line"].ways(RowSpec("line", FINE, 500, 5))
    assert touch.points == ((0, 0, 0),) and stop.points == ((100, 0, 0),)
    assert [pytest.approx(point) for point in fall.points] == [(0, 0, 0), (15, 0, 8), (85, 0, 8), (100, 0, 0)]
    assert touch.squeeze[1] == 1 and touch.squeeze[0] < 1 and stop.squeeze[1] == 0
    far = KINDS["line"].ways(RowSpec("line", FINE, 2000, 5))[1]
    assert max(off for _, _, off in far.points) == 12  # the hand does not go higher over a longer line


def test_a_string_is_drawn_out_level_between_its_joints() -> None:
    touch, across, end = KINDS["string"].ways(RowSpec("string", FINE, 500, 5, drop_mm=30))
    assert touch.points == ((0, 0, 0),) and end.points == ((100, 0, 0),)
    assert [tuple(point) for point in across.points] == [(0, 0, 0), (25, 0, 25), (75, 0, 25), (100, 0, 0)]
    assert across.squeeze == (1, 1) and touch.squeeze[1] == 1 and end.squeeze[1] == 0
    near = KINDS["string"].ways(RowSpec("string", FINE, 200, 5, drop_mm=30))[1]
    assert max(off for _, _, off in near.points) == pytest.approx(16)  # 0.4 of 40 mm


def test_a_rope_goes_over_its_band_and_is_tucked_under_on_the_surface() -> None:
    kind = KINDS["rope"]
    spec = usual(kind)
    made, pitch = pipe(spec), kind.natural_pitch_mm(spec.tip)
    over, tuck, stay = kind.ways(spec)
    points = [*over.points, *tuck.points, *stay.points]
    half = made.below_mm
    assert made.above_mm == half
    assert over.points[0] == pytest.approx((0, half, 0)) and over.points[-1] == pytest.approx((pitch, -half, 0))
    assert tuck.points[-1] == pytest.approx((pitch, half, 0)) == stay.points[0]
    assert all(abs(down) <= half + 1e-9 and 0 <= along <= pitch + 1e-9 for along, down, _ in points)
    assert 0 < max(off for _, _, off in points) < spec.tip.bead_height_mm
    assert over.points[1][2] == over.points[2][2] > tuck.points[1][2]
    assert stay.squeeze[0] <= 0.5


def test_ropes_set_apart_keep_their_natural_length() -> None:
    apart = pipe(RowSpec("rope", STAR, 500, 5, count=5, apart=True))
    whole = pipe(RowSpec("rope", STAR, 500, 5))
    natural = KINDS["rope"].natural_pitch_mm(STAR)
    assert apart.length_mm == pytest.approx(5 * natural) and apart.length_each_mm == pytest.approx(natural)
    assert apart.stretch_percent == 0 and apart.count == 5
    assert whole.length_mm == 500 and whole.path_mm == pytest.approx(1100)  # 2.2 times: over, down and tucked under


def test_a_reverse_shell_begins_the_next_curl_without_squeezing() -> None:
    assert KINDS["reverse shell"].ways(usual(KINDS["reverse shell"]))[2].squeeze[0] == 0


def test_a_rosette_is_led_round_the_path_that_it_is_weighed_by() -> None:
    """15 mm over a bead of 5 mm: a way out and once round at 5 mm, then half a turn more while the squeeze eases."""
    tip = Tip("closed star", 5)
    bead = tip.bead_width_mm
    spec = RowSpec("rosette", tip, 500, 5, size_mm=3 * bead)
    middle, round_it, off = KINDS["rosette"].ways(spec)
    assert middle.points == ((0, 0, 1.5 * bead), (0, 0, 0.5 * bead))
    points = [*round_it.points, *off.points[1:]]
    radii = [math.hypot(x, y) for x, y, _ in points]
    assert radii == sorted(radii) or max(b - a for b, a in itertools.pairwise(radii)) < 1e-9
    assert radii[0] == 0 and radii[24] == pytest.approx(bead) and radii[12] == pytest.approx(bead / 2)
    assert all(r == pytest.approx(bead) for r in radii[24:]) and len(points) == 37
    assert [math.atan2(y, x) % math.tau for x, y, _ in points[1:24]] == pytest.approx([math.tau * k / 24 for k in range(1, 24)])


@pytest.mark.parametrize("name, movement, advance", [("ruched border", 6.0, 2.0), ("ruched swag", 4.0, 1.5), ("zigzag", 8.0, 6.0)])
def test_a_rocked_hand_keeps_to_its_band_and_makes_its_strokes(name: str, movement: float, advance: float) -> None:
    kind = KINDS[name]
    spec = RowSpec(name, PETAL, 500, 5, drop_mm=30 if kind.hangs else 0, movement_mm=movement, advance_mm=advance)
    ways = kind.ways(spec)
    points = [ways[0].points[0], *(point for way in ways for point in way.points[1:])]
    along = arc_length_mm(100, 30) if kind.hangs else 100.0
    assert len(points) - 1 == pytest.approx(2 * along / advance, abs=2)
    mark = kind.mark_points(100.0, 30.0 if kind.hangs else 0.0)
    for point in points[1:]:
        near = min(_distance(point[:2], a, b) for a, b in itertools.pairwise(mark))
        assert near <= movement / 2 / (SWELL_MEAN if kind.hangs else 1.0) + 0.01 and point[2] == 0
        if not kind.hangs:
            assert abs(point[1]) == pytest.approx(movement / 2)
    if not kind.hangs:
        assert all(a[1] * b[1] < 0 for a, b in itertools.pairwise(points[1:]))
    lengths = [len(way.points) for way in ways]
    assert lengths[0] == lengths[2] == pytest.approx(len(points) / 10, abs=1.5)


def test_a_ruched_swag_is_rocked_less_at_its_joints_and_its_path_is_the_one_that_is_weighed() -> None:
    """The strokes go by the width of the swag: 0.46 of the middle's at a joint. In their mean they are the movement that was asked for."""
    spec = RowSpec("ruched swag", PETAL, 100, 1, drop_mm=30, movement_mm=8.0, advance_mm=1.5)
    ways = KINDS["ruched swag"].ways(spec)
    points = [ways[0].points[0], *(point for way in ways for point in way.points[1:])]
    mark = KINDS["ruched swag"].mark_points(100.0, 30.0, 400)
    out = [min(_distance(point[:2], a, b) for a, b in itertools.pairwise(mark)) for point in points[1:]]
    middle = out[len(out) // 2]
    assert middle == pytest.approx(8.0 / 2 / SWELL_MEAN, rel=0.02) and max(out) < 1.02 * middle
    assert out[0] == pytest.approx(0.46 * middle, rel=0.05) and out[-1] == pytest.approx(0.55 * middle, rel=0.2)
    assert math.fsum(out) / len(out) == pytest.approx(4.0, rel=0.02)
    assert math.fsum(math.dist(a, b) for a, b in itertools.pairwise(points)) == pytest.approx(pipe(spec).path_mm, rel=0.03)
    assert math.fsum(swell_at((k + 0.5) / 2000) for k in range(2000)) / 2000 == pytest.approx(SWELL_MEAN, abs=1e-6)


def test_a_scroll_is_squeezed_most_where_it_swells() -> None:
    """A C round its back; an S in both its bends, and half as hard between them."""
    for name, fullest in (("C scroll", (0.5,)), ("S scroll", (0.25, 0.75))):
        kind = KINDS[name]
        spec = RowSpec(name, STAR, 90, 1, drop_mm=30)
        ways = kind.ways(spec)
        mark = kind.mark_points(90.0, 30.0, 48)
        points = [ways[0].points[0], *(point for way in ways for point in way.points[1:])]
        assert [point[:2] for point in points] == [pytest.approx(point) for point in mark], "the line that is weighed"
        values = [squeeze for way in ways for squeeze in way.squeeze]
        assert values[0] < 0.5 and values[-1] < 0.2 and max(values) == 1
        tops = [way.points[len(way.points) // 2] if len(fullest) == 1 else way.points[0] for way in ways[1:]][: len(fullest)]
        curl = 24
        for top, share in zip(tops, fullest, strict=True):
            assert math.dist(top[:2], mark[curl + round(share * 48)]) < 4


def test_a_reverse_shell_keeps_to_its_side_of_the_row() -> None:
    """Half of the row's 2.4 openings to either side, its line in the middle of what it lays down."""
    points = [point for way in KINDS["reverse shell"].ways(usual(KINDS["reverse shell"]))[:2] for point in way.points]
    opening = usual(KINDS["reverse shell"]).tip.opening_mm
    assert min(down for _, down, _ in points) >= -1.2 * opening and max(down for _, down, _ in points) <= 0


def test_a_hand_that_is_not_rocked_follows_the_mark() -> None:
    kind = KINDS["swag"]
    ways = kind.ways(RowSpec("swag", PETAL, 500, 5, drop_mm=30))
    points = [ways[0].points[0], *(point for way in ways for point in way.points[1:])]
    assert points == [(x, y, 0) for x, y in kind.mark_points(100, 30)]


def _distance(at: tuple[float, ...], a: tuple[float, float], b: tuple[float, float]) -> float:
    along = (b[0] - a[0], b[1] - a[1])
    share = ((at[0] - a[0]) * along[0] + (at[1] - a[1]) * along[1]) / (along[0] ** 2 + along[1] ** 2)
    share = min(1.0, max(0.0, share))
    return math.dist(at, (a[0] + share * along[0], a[1] + share * along[1]))


def test_a_small_rose_is_wrapped_from_the_cone_out_to_its_rim() -> None:
    """Petal 9 mm: 19.8 mm wide, 14.85 mm high, round a cone half as wide; from the cone outwards, and down."""
    cone, bud, petals = KINDS["small rose"].ways(RowSpec("small rose", Tip("petal", 9), 500, 5))
    assert cone.points[0] == pytest.approx((4.95, 0, 1.485)) and cone.points[-1] == pytest.approx((4.95, 0, 14.85))
    radii = [math.hypot(x, y) for x, y, _ in (*bud.points, *petals.points)]
    heights = [off for _, _, off in (*bud.points, *petals.points)]
    assert radii[0] == pytest.approx(4.95) and radii[-1] == pytest.approx(9.9)
    assert radii == sorted(radii) and heights == sorted(heights, reverse=True)
    assert all(r == pytest.approx(math.hypot(x, y)) for r, (x, y, _) in zip(radii, (*bud.points, *petals.points), strict=True))


# --- pieces and lines, worked by hand ----------------------------------------------------------------------------------------


def test_a_shell_by_hand() -> None:
    """7 mm: 13.3 mm wide, 9.1 mm high, head 11.2 mm, tail 5.6 mm; what lies between the ridges is taken off by the same share at any size."""
    volume, wide, high = shell_mm(STAR)
    assert (wide, high) == pytest.approx((13.3, 9.1))
    solid = math.pi * 13.3 * 9.1 * (11.2 / 6 + 5.6 / 12)
    assert 0.6 < volume / solid < 1
    star = pipe(RowSpec("star", STAR, 500, count=1))
    assert volume / solid == pytest.approx(1000 * star.volume_ml / (0.55 * math.pi / 4 * 10.5**2 * 9.8))  # the same ridges


def test_a_rosette_by_hand() -> None:
    """Closed star 5 mm, three beads wide: a dab, the way out and once round at the bead's width; pressed to 1.25 times, 1.3 beads high."""
    tip = Tip("closed star", 5)
    bead = tip.bead_width_mm
    made = pipe(RowSpec("rosette", tip, 660, count=6))
    path = bead + bead + math.tau * bead
    assert made.length_each_mm == pytest.approx(path) and made.length_mm == pytest.approx(6 * path)
    assert made.volume_ml == pytest.approx(6 * 1.25 * tip.laid_mm2 * path / 1000)
    assert made.stands_out_mm == pytest.approx(1.3 * tip.bead_height_mm) and made.above_mm == pytest.approx(1.5 * bead)


def test_a_larger_rosette_takes_more_turns() -> None:
    """Five beads wide: two beads to go out, in two turns, and half a turn more while the squeeze eases."""
    tip = Tip("closed star", 5)
    bead = tip.bead_width_mm
    _, round_it, off = KINDS["rosette"].ways(RowSpec("rosette", tip, 500, 5, size_mm=5 * bead))
    radii = [math.hypot(x, y) for x, y, _ in (*round_it.points, *off.points[1:])]
    assert len(radii) == 61 and radii[24] == pytest.approx(bead) and radii[47] < 2 * bead
    assert radii[48:] == pytest.approx([2 * bead] * 13)


def test_a_small_rose_by_hand() -> None:
    """Petal 9 mm: 19.8 mm wide and 14.85 mm high, a cone 9.9 mm wide at its foot, two turns half-way between cone and rim. A star has no cone."""
    petal, star = Tip("petal", 9), Tip("closed star", 6)
    made = pipe(RowSpec("small rose", petal, 660, count=6))
    path = 2 * math.pi * (9.9 + 19.8) / 2
    assert made.length_each_mm == pytest.approx(path)
    assert made.volume_ml == pytest.approx(6 * (math.pi * 9.9**2 * 14.85 / 12 + petal.laid_mm2 * path) / 1000)
    assert (made.above_mm, made.stands_out_mm) == pytest.approx((9.9, 14.85))
    coiled, wide = pipe(RowSpec("small rose", star, 660, count=6)), 2.4 * star.bead_width_mm
    assert coiled.volume_ml == pytest.approx(6 * star.laid_mm2 * math.pi * wide / 1000)
    assert coiled.stands_out_mm == pytest.approx(0.75 * wide)


def test_a_rope_by_hand() -> None:
    """1.7 beads wide, a turn every 1.3 beads, and standing out a fifth further than its bead."""
    made = pipe(RowSpec("rope", STAR, 500, 5, count=5, apart=True))
    assert made.stands_out_mm == pytest.approx(1.2 * STAR.bead_height_mm) and made.below_mm == pytest.approx(0.85 * STAR.bead_width_mm)
    assert made.length_each_mm == pytest.approx(1.3 * STAR.bead_width_mm)


def test_every_kind_has_its_own_place_in_a_list() -> None:
    """What hangs comes first, then what runs on, flowers, leaves, lines, scrolls: an order for readers, by judgement."""
    for places in ([kind.listed for kind in KINDS.values()], [kind.as_effect for kind in KINDS.values()]):
        assert len(set(places)) == len(KINDS)
    assert list(KINDS) == sorted(KINDS, key=lambda name: KINDS[name].listed)


def test_flowers_and_what_lies_under_them() -> None:
    """Leaves are tucked under flowers; those that are coiled stand up, so that they show over the edge of a top."""
    assert {kind.name for kind in KINDS.values() if kind.flower} == {"rosette", "small rose", "star"}
    assert {kind.name for kind in KINDS.values() if kind.tucked} == {"leaf"}
    assert {kind.name for kind in KINDS.values() if kind.stands_up} == {"rosette", "small rose"}


def test_times_by_hand() -> None:
    """Common practice: a shell 2.5 s, a leaf 4 s, a rosette 3 s and its path at 18 mm/s, a line of 500 mm in five lengths at 18 mm/s."""
    assert pipe(RowSpec("shell", STAR, 660, 6, count=66)).time_min == pytest.approx(66 * 2.5 / 60)
    assert pipe(RowSpec("leaf", Tip("leaf", 6), 660, count=12)).time_min == pytest.approx(12 * 4 / 60)
    rosettes = pipe(RowSpec("rosette", Tip("closed star", 5), 660, count=6))
    assert rosettes.time_min == pytest.approx((6 * 3 + rosettes.path_mm / 18) / 60)
    line = pipe(RowSpec("line", FINE, 500, 5))
    assert line.time_min == pytest.approx((5 * 4 + 500 / 18) / 60)
    assert line.low_min == pytest.approx(line.time_min * QUICK) and line.high_min == pytest.approx(line.time_min * SLOW)


def test_ranges_by_hand() -> None:
    """A line's range is that of its tip; where each hand guides the tip in its own way, spreads add by squares of their logarithms."""
    swell = PETAL.swell
    swag = pipe(RowSpec("swag", PETAL, 500, 5, drop_mm=40))
    assert swag.low_ml == pytest.approx(swag.volume_ml * swell.low / swell) and swag.high_ml == pytest.approx(swag.volume_ml * swell.high / swell)
    # a density of 0.95 (0.77 to 1.20) g/ml adds to it by squares of logarithms; one that was weighed adds nothing
    down, up = (
        math.hypot(math.log(a), math.log(b)) for a, b in ((swag.volume_ml / swag.low_ml, 0.95 / 0.77), (swag.high_ml / swag.volume_ml, 1.2 / 0.95))
    )
    assert (swag.low_g, swag.high_g) == pytest.approx((swag.mass_g * math.exp(-down), swag.mass_g * math.exp(up)))
    weighed = pipe(RowSpec("swag", PETAL, 500, 5, drop_mm=40, density_g_per_ml=1.1, density_ends=(1.1, 1.1)))
    assert (weighed.low_g, weighed.high_g) == pytest.approx((1.1 * weighed.low_ml, 1.1 * weighed.high_ml))
    for given, spread in (({}, 1.3), ({"movement_mm": 6.0}, 1.3), ({"movement_mm": 6.0, "advance_mm": 3.0}, 1.12)):
        ruched = pipe(replace(RowSpec("ruched swag", PETAL, 500, 5, drop_mm=40), **given))
        assert math.log(ruched.high_ml / ruched.volume_ml) == pytest.approx(math.hypot(math.log(swell.high / swell), math.log(spread)))


def test_a_strip_weighed_in_another_density_corrects_the_same() -> None:
    plain = pipe(RowSpec("line", PETAL, 1000, density_g_per_ml=0.8))
    weighed = pipe(RowSpec("line", PETAL, 1000, density_g_per_ml=0.8, grams_per_metre=2 * plain.mass_g, weighed_as="line"))
    assert weighed.mass_g == pytest.approx(2 * plain.mass_g) and weighed.low_g == pytest.approx(1.8 * plain.mass_g)


def test_a_border_that_runs_on_is_one_line_half_over_and_half_under() -> None:
    border = pipe(RowSpec("ruched border", PETAL, 500, 5, movement_mm=6, advance_mm=5))
    assert border.count == 1 and border.length_each_mm == 500 and border.above_mm == border.below_mm == pytest.approx((6 + stroke_mm(PETAL)) / 2)
    assert pipe(RowSpec("shell", STAR, 500, 5)).below_mm == pytest.approx(13.3 / 2) == pipe(RowSpec("shell", STAR, 500, 5)).above_mm
    assert not any("pile up" in note for note in pipe(RowSpec("ruched border", PETAL, 500, advance_mm=0.5)).notes)
    assert not any("pile up" in note for note in pipe(RowSpec("zigzag", STAR, 500)).notes)


@pytest.mark.parametrize("name, share", [("C scroll", 1 / 4), ("S scroll", 1 / 8)])
def test_a_scroll_covers_its_bends_and_its_curls(name: str, share: float) -> None:
    """Each curl goes on for three quarters of a turn, its radius a quarter (C) or an eighth (S) of the depth."""
    spec = RowSpec(name, FINE, 500, 5, drop_mm=30)
    made, points = pipe(spec), KINDS[name].mark_points(100.0, 30.0, 96)
    arcs = arc_length_mm(100, 30) if name == "C scroll" else 2 * arc_length_mm(50, 15)
    assert made.length_each_mm == pytest.approx(arcs + 2 * 0.75 * math.tau * 30 * share)
    half = FINE.bead_width_mm / 2
    assert made.above_mm == pytest.approx(half - min(y for _, y in points), abs=0.2)
    assert made.below_mm == pytest.approx(half + max(y for _, y in points), abs=0.2)
    assert made.length_mm == pytest.approx(5 * made.length_each_mm)
    steps = [math.dist(a, b) for a, b in itertools.pairwise(points)]
    assert min(steps) > 0
    curl = points[:49]
    middle = (sum(x for x, _ in curl) / 49, sum(y for _, y in curl) / 49)
    assert max(math.dist(middle, at) for at in curl) < 2 * 30 * share
    assert sum(steps) == pytest.approx(made.length_each_mm, rel=2e-3)


def test_an_s_scroll_falls_as_far_as_it_rises_and_crosses_in_the_middle() -> None:
    points = KINDS["S scroll"].mark_points(100.0, 30.0, 96)
    assert len(points) == 48 + 97 + 48
    assert points[len(points) // 2] == pytest.approx((50, 0), abs=1e-6)
    for (x, y), (u, v) in zip(points, reversed(points), strict=True):
        assert (x, y) == pytest.approx((100 - u, -v), abs=1e-6)


def test_rosette_paths_at_the_edge_of_what_is_possible() -> None:
    assert rosette_path_mm(0.8, 0.5) == pytest.approx(0.5 + 0.15 + math.pi * 0.15 * 1.3)  # no room for a whole circle
    assert rosette_path_mm(3, 5) == 5  # narrower than its bead: a dab
    for wide, bead in ((0, 5), (5, 0), (-1, 5)):
        with pytest.raises(ValueError):
            rosette_path_mm(wide, bead)


def test_a_wandering_line_by_hand() -> None:
    """A square of 10 cm with passes 5 mm apart: 2000 mm straight; by quarter circles throughout pi/4 of that; half of each between them."""
    assert wander_length_mm(10_000, 5, 0) == 2000 and wander_length_mm(10_000, 5, 1) == pytest.approx(500 * math.pi)
    assert wander_length_mm(10_000, 5, 0.5) == pytest.approx(1000 + 250 * math.pi)
    assert wander_length_mm(0.5, 5, 0) == pytest.approx(0.1)
    for area, pitch, turns in ((0, 5, 0.5), (-1, 5, 0.5), (100, 0, 0.5), (100, 5, -0.1), (100, 5, 1.1), (100, 5, -1), (100, 5, 2)):
        with pytest.raises(ValueError):
            wander_length_mm(area, pitch, turns)
    line = wandering(10_000, 3, FINE)
    assert line.length_mm == pytest.approx(wander_length_mm(10_000, 3 + FINE.bead_width_mm)) and line.low_ml < line.volume_ml < line.high_ml


@pytest.mark.parametrize("length, mass", [(0, 20), (-5, 20), (300, 0), (300, -1)])
def test_a_strip_without_length_or_mass_is_refused(length: float, mass: float) -> None:
    with pytest.raises(ValueError):
        grams_per_metre(length, mass)


@pytest.mark.parametrize(
    "changes",
    [
        {"run_mm": 0.5},
        {"run_mm": 100_000},
        {"layers": 20},
        {"drop_mm": 0},
        {"drop_mm": 0.5},
        {"movement_mm": 4.0},
        {"movement_mm": None},
        {"count": 3},
    ],
)
def test_rows_at_the_edge_of_what_is_possible_are_worked_out(changes: dict[str, float]) -> None:
    spec = replace(RowSpec("ruched border", PETAL, 500, 5), **changes)  # type: ignore[arg-type]
    assert pipe(spec).volume_ml > 0


@pytest.mark.parametrize("drop, width, refused", [(5000, 100, False), (4900, 90, True), (50, 0.5, True)])
def test_strings_drop_fifty_widths_at_most(drop: float, width: float, refused: bool) -> None:
    spec = RowSpec("string", FINE, 500, 5, width_mm=width, drop_mm=drop)
    if refused:
        with pytest.raises(ValueError):
            pipe(spec)
    else:
        assert any("likely to tear" in note for note in pipe(spec).notes)


def test_strings_that_hang_well_are_not_spoken_against() -> None:
    assert pipe(RowSpec("string", FINE, 500, 5, drop_mm=40)).notes == () == pipe(RowSpec("string", FINE, 500, 5, drop_mm=40, layers=3)).notes
    assert pipe(RowSpec("string", FINE, 500, 5, drop_mm=0)).notes == ()


def test_a_swag_exactly_a_tenth_deep_is_a_swag() -> None:
    assert pipe(RowSpec("swag", PETAL, 500, 5, drop_mm=10)).notes == ()


def test_stretched_and_squeezed_pieces_are_said_in_the_right_words() -> None:
    """Natural pitch 11.2 mm: 50 round 660 mm stand 13.2 mm apart, 18 % too far; 90 stand 7.33 mm apart, 35 % too near."""
    few, many = pipe(RowSpec("shell", STAR, 660, count=50)), pipe(RowSpec("shell", STAR, 660, count=90))
    assert "stretched by 18 %" in few.notes[0] and "more of them" in few.notes[0]
    assert "squeezed by 35 %" in many.notes[0] and "fewer of them" in many.notes[0]
    assert few.volume_ml == pytest.approx(many.volume_ml)


def test_how_many_pieces_there_are() -> None:
    assert pipe(RowSpec("shell", STAR, 660, 6, count=0)).count == pipe(RowSpec("shell", STAR, 660, 6)).count == 60
    assert pipe(RowSpec("shell", STAR, 660, 6, per_repeat=0)).count == 60
    assert pipe(RowSpec("shell", STAR, 660, 6, per_repeat=1)).count == 6
    assert pipe(RowSpec("star", STAR, 660, 6, count=1)).pitch_mm == 660 and pipe(RowSpec("star", STAR, 660, 6, count=3)).pitch_mm == 220
    assert pipe(RowSpec("star", STAR, 660, 6)).notes == () == pipe(RowSpec("star", STAR, 5, count=1)).notes


@pytest.mark.parametrize("name, low, high", [("line", False, False), ("rope", True, False), ("shell", True, False), ("swag", False, True)])
def test_what_is_made_of_pieces_and_what_hangs(name: str, low: bool, high: bool) -> None:
    assert KINDS[name].in_pieces is low and KINDS[name].hangs is high
    assert KINDS[name].title == name[0].upper() + name[1:]


def test_only_kinds_led_each_in_its_own_way_spread_by_their_path() -> None:
    assert {kind.name for kind in KINDS.values() if kind.led} == {"ruched swag", "ruffled swag", "ruched border", "zigzag", "rope"}


def test_the_tip_to_begin_with_grows_with_the_tier() -> None:
    for kind in KINDS.values():
        family, opening = kind.begins_with
        assert (
            kind.begin_tip().family == family and abs(math.log(kind.begin_tip().opening_mm / opening)) < 0.12
        )  # the table has a tip within an eighth
        assert kind.begin_tip(50.0).opening_mm <= kind.begin_tip().opening_mm <= kind.begin_tip(200.0).opening_mm


@EVERY_KIND
@pytest.mark.parametrize("height, times", [(40.0, 2 / 3), (80.0, 0.8), (100.0, 1.0), (120.0, 1.2), (250.0, 4 / 3)])
def test_the_opening_to_begin_with_is_in_proportion_to_the_height_of_the_tier(kind: Kind, height: float, times: float) -> None:
    """Common practice, no source: each kind names its opening for a tier of 10 cm; a third less is the least and a third more the most.

    Of the tips in the table it is the one that is nearest as a ratio: no other of its family is nearer.
    """
    family, opening = kind.begins_with
    begun = kind.begin_tip(height)
    off = [abs(math.log(use.tip.opening_mm / (times * opening))) for use in TIPS if use.tip.family == family]
    assert begun.family == family and begun in [use.tip for use in TIPS]
    assert abs(math.log(begun.opening_mm / (times * opening))) == pytest.approx(min(off), abs=1e-9)


def test_a_tier_of_which_nothing_is_said_has_the_height_that_openings_are_named_for() -> None:
    assert all(kind.begin_tip() == kind.begin_tip(100.0) for kind in KINDS.values())


@EVERY_KIND
def test_the_opening_a_kind_names_is_told_as_finely_as_tips_are_measured(kind: Kind) -> None:
    """To half a millimetre, as in the table of tips; a fine one, under 2 mm, is one of the table. It is of a family that suits the kind."""
    family, opening = kind.begins_with
    assert family in kind.families
    assert 2 * opening == round(2 * opening) if opening >= 2 else opening in [use.tip.opening_mm for use in TIPS if use.tip.family == family]


def test_an_unsuited_tip_is_said_in_whole_words() -> None:
    notes = pipe(RowSpec("rosette", PETAL, 500, 5)).notes
    assert notes[0].startswith("A rosette is usually piped with") and "an open star tip or a closed star tip, not with a petal tip" in notes[0]
    assert pipe(RowSpec("S scroll", PETAL, 500, 5, drop_mm=40)).notes[0].startswith("An S scroll is")


@EVERY_KIND
def test_exercises_fit_their_line(kind: Kind) -> None:
    """The pieces of an exercise go into its line of 168 mm without touching."""
    practised = kind.exercise
    if practised is None:
        return
    spec = RowSpec(
        practised.kind, practised.tip, 168.0, practised.repeats, drop_mm=practised.drop_mm, size_mm=practised.size_mm, count=practised.pieces
    )
    made = pipe(spec)
    assert not [note for note in made.notes if "where the row closes" not in note] and practised.kind == kind.name
    assert practised.drop_mm > 0 if kind.takes_drop else practised.drop_mm == 0
    assert practised.tip.family in kind.families


def test_exercises_go_from_easy_to_hard_and_a_class_begins_with_what_a_cake_needs() -> None:
    """Common practice, from memory; the places lie five apart at least, so that another kind can go between two."""
    practised = [kind.exercise for kind in KINDS.values() if kind.exercise]
    by_rank, by_use = (sorted(practised, key=key) for key in (lambda one: one.rank, lambda one: one.usual))
    easy = (
        "line, star, dot, bead, zigzag, shell, leaf, rosette, ruched border, rope, reverse shell, "
        "swag, ruffled swag, ruched swag, C scroll, string, S scroll, small rose"
    )
    needed = (
        "shell, swag, string, rosette, leaf, line, ruched border, bead, ruched swag, ruffled swag, zigzag, rope, "
        "reverse shell, S scroll, C scroll, star, small rose, dot"
    )
    assert ", ".join(one.kind for one in by_rank) == easy and ", ".join(one.kind for one in by_use) == needed
    assert all(b.rank - a.rank >= 5 for a, b in itertools.pairwise(by_rank)) and all(b.usual - a.usual >= 5 for a, b in itertools.pairwise(by_use))


@pytest.mark.parametrize("name", ["swag", "ruffled swag", "ruched swag", "shell", "reverse shell", "rosette", "small rose", "leaf", "line"])
def test_what_is_practised_is_what_a_usual_tier_begins_with(name: str) -> None:
    practised = KINDS[name].exercise
    assert practised is not None and practised.tip.opening_mm == KINDS[name].begin_tip().opening_mm
    assert practised.tip.family == KINDS[name].begin_tip().family


def test_curves_to_practise_hang_as_full_as_on_a_cake() -> None:
    """Common practice: swags and strings drop a quarter to a half of their width, strings more than a third; a scroll is half as deep as wide."""
    for kind in KINDS.values():
        if kind.exercise and kind.takes_drop:
            share = kind.exercise.drop_mm * kind.exercise.repeats / 168
            assert {"string": 1 / 3, "S scroll": 1 / 2}.get(kind.name, 1 / 4) < share < 0.6


def test_a_row_that_was_not_told_its_run_has_none_and_is_refused() -> None:
    assert RowSpec("line", FINE).run_mm == 0
    with pytest.raises(ValueError):
        pipe(RowSpec("line", FINE))


# --- what tips make ----------------------------------------------------------------------------------------------------------


def test_a_tip_of_the_table_makes_what_its_opening_is_in_range_for() -> None:
    for use in TIPS:
        made = effects_of(use)
        assert len(set(made)) == len(made) and made[: len(use.makes)] == use.makes
        for kind in KINDS.values():
            within = any(f == use.tip.family and low <= use.tip.opening_mm <= high for f, low, high in kind.openings)
            assert (kind.name in made) == (within or kind.name in use.makes)


def test_a_range_of_openings_is_told_by_the_tips_of_the_table_at_its_ends() -> None:
    """A kind that a tip makes besides: the smallest and the widest of the family that do, and not an opening between two tips."""
    told = [(kind.name, *given) for kind in KINDS.values() for given in kind.openings]
    assert {name for name, *_ in told} == {"dot", "ruffled swag", "small rose"}
    for name, family, low, high in told:
        openings = {use.tip.opening_mm for use in TIPS if use.tip.family == family}
        assert {low, high} <= openings and low < high, name


def test_the_opening_for_a_size_gives_the_size() -> None:
    for family in FAMILIES:
        for effect in KINDS:
            opening = opening_for_mm(family, effect, 15.0)
            if opening is not None:
                assert effect_size_mm(Tip(family, opening), effect) == pytest.approx(15.0)
    assert opening_for_mm("open star", "shell", 13.3) == pytest.approx(7)
    assert opening_for_mm("open star", "shell", 0.5) is None and opening_for_mm("open star", "shell", 500.0) is None


def test_tips_are_found_nearest_first() -> None:
    by_size = find_tips(effect="shell", wanted_mm=13.0, most=100)
    assert all("shell" in effects_of(match.use) and match.effect == "shell" for match in by_size)
    assert all(match.off_percent == pytest.approx(100 * (match.size_mm / 13 - 1)) for match in by_size)
    logs = [abs(math.log(match.size_mm / 13)) for match in by_size]
    assert logs == pytest.approx(sorted(logs))
    by_opening = find_tips(family="petal", opening_mm=10.0, most=100)
    assert by_opening and all(match.use.tip.family == "petal" for match in by_opening)
    assert all(match.off_percent == pytest.approx(100 * (match.use.tip.opening_mm / 10 - 1)) for match in by_opening)
    assert len(find_tips(most=1000)) == len(TIPS) and [match.use for match in find_tips(most=1000)] == list(TIPS)
    assert all(match.off_percent == 0 and match.effect == effects_of(match.use)[0] for match in find_tips(most=1000))
    for match in find_tips(wanted_mm=20.0, most=1000):
        assert abs(math.log(match.size_mm / 20)) == min(abs(math.log(effect_size_mm(match.use.tip, one) / 20)) for one in effects_of(match.use))


# --- where rows lie ------------------------------------------------------------------------------------------------------------


DIVISION: Division = division_choices(500.0, (), 100.0, None, 60.0, None, fewest=5, most=5, allowed=(5,))[0]
GROUND = Ground(500.0, 120.0, DIVISION, 15.0, outline("round", 500.0 / math.pi))


def amount_of(row: RowSpec, kind: str, run_mm: float, repeats: int, width_mm: float, drop_mm: float) -> RowAmount:
    count = repeats * row.per_joint if row.place == "joints" else None
    return pipe(replace(row, kind=kind, run_mm=run_mm, repeats=repeats, width_mm=width_mm, drop_mm=drop_mm, count=count, apart=row.place == "joints"))


def laid(*rows: RowSpec) -> tuple[PlacedRow, ...]:
    return place_rows(rows, GROUND, amount_of)


def test_hung_rows_hang_one_under_the_other_as_deep_as_the_last() -> None:
    first, second, third = laid(
        RowSpec("swag", PETAL, drop_mm=30), RowSpec("ruched swag", PETAL, place="under"), RowSpec("shell", STAR, place="under")
    )
    assert first.line_mm == 15 and first.hung and first.drop_mm == 30 == second.drop_mm
    assert second.line_mm == pytest.approx(first.line_mm + first.below_mm + CLEARANCE_MM + second.above_mm)
    assert not third.hung and third.drop_mm == 0  # a straight row stands under the lowest of what hangs
    assert third.line_mm == pytest.approx(second.line_mm + second.below_mm + 30 + CLEARANCE_MM + third.above_mm)
    assert laid(RowSpec("swag", PETAL))[0].drop_mm == DIVISION.drop_mm
    assert laid(RowSpec("swag", PETAL, drop_mm=30), RowSpec("swag", PETAL))[1].drop_mm == DIVISION.drop_mm  # beside another, not under it
    assert laid(RowSpec("shell", STAR), RowSpec("swag", PETAL))[1].drop_mm == DIVISION.drop_mm
    assert laid(RowSpec("shell", STAR))[0].line_mm == 15


def test_a_line_on_a_swag_follows_it_and_other_rows_lie_across_its_top() -> None:
    swag, line, flowers, again = laid(
        RowSpec("swag", PETAL, drop_mm=30),
        RowSpec("line", FINE, place="over"),
        RowSpec("rosette", Tip("closed star", 5), place="joints"),
        RowSpec("shell", STAR, place="over"),
    )
    assert line.kind == "swag" and line.hung and line.on is swag and line.drop_mm == 30 and line.line_mm == swag.line_mm
    assert flowers.line_mm == 15 and flowers.on is None and not flowers.hung
    assert again.on is line and again.line_mm == pytest.approx(line.line_mm - line.above_mm / 2)  # flowers are no ground to pipe on


def test_rows_on_the_edges_and_on_the_top() -> None:
    edge, base, top, within = laid(
        RowSpec("ruched border", PETAL, place="top edge"),
        RowSpec("shell", STAR, place="base"),
        RowSpec("shell", STAR, place="top"),
        RowSpec("shell", STAR, place="top"),
    )
    assert edge.line_mm == 0 and base.line_mm == pytest.approx(120 - base.below_mm)
    assert top.line_mm == pytest.approx(edge.below_mm + top.above_mm) and top.reach_mm == pytest.approx(top.line_mm + top.below_mm)
    assert within.line_mm == pytest.approx(top.line_mm + top.below_mm + within.above_mm)
    assert top.run_mm == pytest.approx(500 - math.tau * top.line_mm, rel=1e-3)


def test_a_scroll_keeps_the_depth_that_was_asked_for() -> None:
    scroll, deep = (laid(RowSpec("C scroll", FINE, drop_mm=drop))[0] for drop in (20.0, 40.0))
    assert not scroll.hung and scroll.drop_mm == 0
    assert scroll.amount.length_each_mm == pytest.approx(pipe(RowSpec("C scroll", FINE, 500, 5, drop_mm=20)).length_each_mm)
    assert deep.below_mm > scroll.below_mm


def test_what_cannot_be_where_it_was_asked_for_is_said() -> None:
    assert "cannot sit at a joint" in laid(RowSpec("line", FINE, place="joints"))[0].notes[0]
    assert "hangs only on the side" in laid(RowSpec("swag", PETAL, drop_mm=30, place="base"))[0].notes[0]
    for row in (RowSpec("line", FINE), RowSpec("rosette", STAR, place="joints"), RowSpec("swag", PETAL, drop_mm=30)):
        assert laid(row)[0].notes == ()


def band(line: float, half: float, drop: float = 0.0, **more: object) -> PlacedRow:
    row = PlacedRow("line", PETAL, "cream", line_mm=line, above_mm=half, below_mm=half, drop_mm=drop, asked=RowSpec("line", PETAL, 500))
    return dataclasses.replace(row, **more)  # type: ignore[arg-type]


def test_rows_clash_where_their_bands_meet() -> None:
    apart = find_clashes((band(20, 5), band(40, 5)), 100.0, 8)
    assert apart == ()
    (joints,) = find_clashes((band(20, 5), band(28, 5)), 100.0, 8)
    assert joints.overlap_mm == pytest.approx(2) and joints.where == "at the joints"
    (between,) = find_clashes((band(20, 5, 30), band(50, 5)), 100.0, 8)
    assert between.overlap_mm == pytest.approx(10) and between.where == "between the joints"  # the swag reaches the row and covers it
    assert find_clashes((band(50, 5), band(20, 5, 30)), 100.0, 8)[0].overlap_mm == pytest.approx(10)  # whichever was asked for first
    assert find_clashes((band(20, 5, 30), band(35, 5, 30)), 100.0, 8) == ()
    for rows in ((band(20, 5, 60), band(40, 5)), (band(20, 5, 60), band(40, 10))):  # the swag runs through a row: they meet on the way down
        for pair in (rows, rows[::-1]):
            (crossing,) = find_clashes(pair, 120.0, 8)
            assert crossing.overlap_mm == pytest.approx(10) and crossing.where == "between the joints"
    assert find_clashes((band(20, 5), band(29.5, 5)), 100.0, 8) == ()  # half a millimetre is nothing
    under = band(20, 5)
    assert find_clashes((under, band(20, 5, on=under)), 100.0, 8) == ()
    assert len(find_clashes((band(20, 5), band(22, 5), band(24, 5)), 100.0, 8)) == 3


def test_rows_that_leave_the_side_are_found() -> None:
    (board,) = find_clashes((band(80, 5, 20),), 100.0, 8)
    assert (board.where, board.second) == ("below the board", None) and board.overlap_mm == pytest.approx(5)
    (edge,) = find_clashes((band(2, 5),), 100.0, 8)
    assert edge.where == "above the top edge" and edge.overlap_mm == pytest.approx(3)
    assert find_clashes((band(50, 5),), 100.0, 8) == () == find_clashes((band(95.5, 5),), 100.0, 8)
    assert find_clashes((band(0, 5, place="top edge"),), 100.0, 8) == ()


def test_a_tip_meets_what_stands_out_further_than_it_is_away() -> None:
    deep, flat = band(20, 5, stands_out_mm=12), band(36, 5, stands_out_mm=2)
    assert touches((deep, flat)) == ((1, 0),)  # 6 mm away, 12 mm proud
    assert touches((flat, deep)) == ()
    assert touches((deep, band(50, 5, stands_out_mm=2))) == ()  # 20 mm away
    assert touches((deep, replace(flat, tier=1))) == () == touches((deep, replace(flat, place="top")))
    assert touches((replace(deep, place="top"), replace(flat, place="top"))) == ((1, 0),)
    assert touches((deep, replace(flat, place="inside"))) == ()
    assert touches((deep, band(29.5, 5, stands_out_mm=2))) == ()  # over each other: piped on it, not past it
    assert touches((band(20, 5, 30, stands_out_mm=12), band(70, 5, stands_out_mm=2))) == ((1, 0),)  # 10 mm away in the middle


def test_what_a_row_lays_down_is_as_wide_as_its_bead_unless_told() -> None:
    assert band(20, 5).size_mm == PETAL.bead_width_mm and band(20, 5, bead_mm=9.0).size_mm == 9
