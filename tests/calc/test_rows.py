"""Rows of piping: their geometry, what they take, whether they fit."""

from __future__ import annotations

import dataclasses
import importlib
import itertools
import math
import pkgutil
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from calc import rows
from calc.curves import arc_length_mm, catenary_length_mm, to_and_fro_factor
from calc.rows import (
    DENSITY_G_PER_ML,
    KINDS,
    RowAmount,
    RowSpec,
    grams_per_metre,
    layer_drops_mm,
    natural_pitch_mm,
    pipe,
    rosette_path_mm,
)
from calc.rows.forms import Scrolled
from calc.sources import Constant
from calc.tips import FAMILIES, Tip, ruche_mm, stroke_mm

PETAL, STAR, FINE, ROUND = Tip("petal", 11), Tip("open star", 7), Tip("round", 1.8), Tip("round", 5)

wanted_rows = st.builds(
    RowSpec,
    st.sampled_from(sorted(KINDS)),
    st.builds(Tip, st.sampled_from(FAMILIES), st.floats(1, 20)),
    st.floats(100, 3000),
    repeats=st.integers(1, 40),
    drop_mm=st.floats(0, 120),
    layers=st.integers(1, 4),
)


# --- every kind ------------------------------------------------------------------------------------------------------------


@given(wanted_rows)
@settings(max_examples=300)
def test_every_row_comes_to_finite_amounts_in_order(wanted: RowSpec) -> None:
    piping = pipe(wanted)
    for field in dataclasses.fields(RowAmount):
        value = getattr(piping, field.name)
        if isinstance(value, float):
            assert math.isfinite(value), field.name
    assert 0 < piping.low_ml < piping.volume_ml < piping.high_ml
    assert piping.mass_g == pytest.approx(piping.volume_ml * DENSITY_G_PER_ML)
    assert 0 < piping.low_min < piping.time_min < piping.high_min
    assert piping.path_mm >= piping.length_mm * (1 - 1e-9) and piping.count >= 1
    assert piping.above_mm > 0 and piping.below_mm > 0 and piping.stands_out_mm > 0
    assert piping.angle and piping.hand


@given(wanted_rows, st.floats(1.1, 3))
@settings(max_examples=150)
def test_a_row_twice_as_large_takes_eight_times_as_much(wanted: RowSpec, factor: float) -> None:
    tip = Tip(wanted.tip.family, wanted.tip.opening_mm, wanted.tip.points, wanted.tip.inner_mm, wanted.tip.slot_mm)
    grown = Tip(tip.family, tip.opening_mm * factor, tip.points, tip.inner_mm * factor, tip.slot_mm * factor)
    small = pipe(dataclasses.replace(wanted, tip=tip))
    large = pipe(dataclasses.replace(wanted, tip=grown, run_mm=wanted.run_mm * factor, drop_mm=wanted.drop_mm * factor))
    assert large.count == small.count and len(large.notes) == len(small.notes) or wanted.kind in ("string",)
    assert large.volume_ml == pytest.approx(small.volume_ml * factor**3, rel=1e-5)
    assert large.path_mm == pytest.approx(small.path_mm * factor, rel=1e-5)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_longer_run_never_takes_less(kind: str) -> None:
    amounts = [pipe(RowSpec(kind, STAR, run_mm=run, repeats=5, drop_mm=20)).volume_ml for run in (200, 300, 450, 700, 1100)]
    assert amounts == sorted(amounts)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_layers_multiply_what_is_piped(kind: str) -> None:
    one, three = (pipe(RowSpec(kind, STAR, run_mm=500, repeats=5, drop_mm=60, layers=n)) for n in (1, 3))
    assert three.count == 3 * one.count
    if KINDS[kind].hangs:
        assert one.volume_ml < three.volume_ml < 3 * one.volume_ml  # the inner ones hang less deep
    else:
        assert three.volume_ml == pytest.approx(3 * one.volume_ml)
        assert three.stands_out_mm > one.stands_out_mm


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_an_unsuited_tip_is_said(kind: str) -> None:
    suited, unsuited = KINDS[kind].families[0], next((f for f in FAMILIES if f not in KINDS[kind].families), None)
    assert not any("usually piped" in note for note in pipe(RowSpec(kind, Tip(suited, 6), 500, 5, drop_mm=30)).notes)
    if unsuited:
        assert any("usually piped" in note for note in pipe(RowSpec(kind, Tip(unsuited, 6), 500, 5, drop_mm=30)).notes)


# --- lines ---------------------------------------------------------------------------------------------------------------


def test_swags_follow_the_arc() -> None:
    piping = pipe(RowSpec("swag", PETAL, run_mm=500, repeats=5, drop_mm=50))
    assert piping.length_each_mm == pytest.approx(50 * math.pi)  # a semicircle of 100 mm
    assert piping.length_mm == pytest.approx(785.398, abs=1e-3)
    assert piping.volume_ml == pytest.approx(PETAL.laid_mm2 * 785.398 / 1000, rel=1e-6)
    assert piping.drops_mm == (50,)


def test_a_given_width_stands_in_for_the_even_one() -> None:
    piping = pipe(RowSpec("swag", PETAL, run_mm=500, repeats=5, width_mm=90, drop_mm=30))
    assert piping.length_each_mm == pytest.approx(arc_length_mm(90, 30)) and piping.pitch_mm == 90


def test_ruched_rows_are_longer_by_the_to_and_fro() -> None:
    plain = pipe(RowSpec("swag", PETAL, run_mm=500, repeats=5, drop_mm=40))
    ruched = pipe(RowSpec("ruched swag", PETAL, run_mm=500, repeats=5, drop_mm=40))
    factor = to_and_fro_factor(*ruche_mm(PETAL))
    assert ruched.path_mm == pytest.approx(plain.path_mm * factor) and ruched.volume_ml == pytest.approx(plain.volume_ml * factor)
    own = pipe(RowSpec("ruched border", PETAL, run_mm=500, movement_mm=6, advance_mm=5))
    assert own.path_mm == pytest.approx(500 * 2.6)
    assert own.above_mm + own.below_mm == pytest.approx(6 + stroke_mm(PETAL))


def test_a_plain_swag_rocked_on_request_is_the_ruched_one() -> None:
    movement, advance = ruche_mm(PETAL)
    asked = pipe(RowSpec("swag", PETAL, 500, 5, drop_mm=40, movement_mm=movement, advance_mm=advance))
    assert asked.volume_ml == pytest.approx(pipe(RowSpec("ruched swag", PETAL, 500, 5, drop_mm=40)).volume_ml)


@pytest.mark.parametrize("family", FAMILIES)
def test_a_ruched_row_is_not_packed_tighter_than_solid(family: str) -> None:
    """Buttercream laid per mm must fit the band the row covers, as wide as it is and as high as it stands out."""
    tip = Tip(family, 10)
    piping = pipe(RowSpec("ruched border", tip, run_mm=500))
    laid = piping.volume_ml * 1000 / 500
    assert laid < (piping.above_mm + piping.below_mm) * piping.stands_out_mm


def test_strings_hang_in_catenaries() -> None:
    piping = pipe(RowSpec("string", FINE, run_mm=480, repeats=6, drop_mm=20, layers=2))
    assert piping.length_each_mm == pytest.approx(92.063289, abs=1e-5)
    assert piping.drops_mm == (20, 10)
    assert piping.length_mm == pytest.approx(6 * (catenary_length_mm(80, 20) + catenary_length_mm(80, 10)))
    assert piping.count == 12


@given(st.floats(5, 200), st.integers(1, 6))
def test_layers_hang_ever_less_deep(drop: float, layers: int) -> None:
    for kind in (name for name, one in KINDS.items() if one.hangs):
        drops = layer_drops_mm(kind, PETAL, drop, layers)
        assert len(drops) == layers and drops[0] == drop
        assert all(a > b > 0 for a, b in zip(drops, drops[1:], strict=False))
    assert layer_drops_mm("line", PETAL, drop, layers) == (drop,) * layers


def test_a_double_swag_overlaps_by_a_fifth_of_its_depth() -> None:
    first, second = layer_drops_mm("swag", PETAL, 60.0, 2)
    assert first - second == pytest.approx(0.8 * PETAL.bead_width_mm)


def test_over_piped_lines_stand_out_further() -> None:
    one, three = (pipe(RowSpec("line", Tip("round", 3), 500, layers=n)) for n in (1, 3))
    assert three.stands_out_mm == pytest.approx(one.stands_out_mm * (1 + 2 * 0.85))
    assert three.path_mm == 1500 and three.above_mm == one.above_mm


def test_a_zigzag_has_strokes_side_by_side() -> None:
    piping = pipe(RowSpec("zigzag", STAR, run_mm=500))
    bead = STAR.bead_width_mm
    assert piping.path_mm == pytest.approx(500 * to_and_fro_factor(1.5 * bead, 2 * bead))
    close = pipe(RowSpec("zigzag", STAR, run_mm=500, advance_mm=3))
    assert any("pile up" in note for note in close.notes)


# --- pieces --------------------------------------------------------------------------------------------------------------


@given(st.floats(150, 3000), st.integers(1, 24), st.floats(2, 12), st.sampled_from(["shell", "reverse shell", "bead", "rope"]))
def test_pieces_meet_the_joints_whole(run: float, repeats: int, opening: float, kind: str) -> None:
    tip = Tip("round" if kind == "bead" else "open star", opening)
    piping = pipe(RowSpec(kind, tip, run_mm=run, repeats=repeats))
    assert piping.count % repeats == 0
    assert piping.count * piping.pitch_mm == pytest.approx(run, rel=1e-12)
    assert piping.pitch_mm == pytest.approx(natural_pitch_mm(kind, tip) * (1 + piping.stretch_percent / 100))
    if abs(piping.stretch_percent) > 15:
        assert any("15 %" in note for note in piping.notes)
    if run / repeats > 4 * natural_pitch_mm(kind, tip):
        assert abs(piping.stretch_percent) < 15


def test_a_stretched_shell_takes_more_and_the_row_about_as_much() -> None:
    few, many = (pipe(RowSpec("shell", STAR, run_mm=660, repeats=6, per_repeat=k)) for k in (10, 12))
    assert few.volume_ml / few.count > many.volume_ml / many.count
    assert few.volume_ml == pytest.approx(many.volume_ml)


def test_asked_for_counts_are_kept() -> None:
    assert pipe(RowSpec("shell", STAR, run_mm=660, repeats=6, per_repeat=12)).count == 72
    assert pipe(RowSpec("shell", STAR, run_mm=660, repeats=6, count=70)).count == 70
    assert pipe(RowSpec("rosette", Tip("closed star", 5), run_mm=660, repeats=6)).count == 6
    assert pipe(RowSpec("leaf", Tip("leaf", 6), run_mm=660, repeats=6, per_repeat=2)).count == 12


def test_an_odd_number_of_reverse_shells_is_said() -> None:
    assert any("odd" in note for note in pipe(RowSpec("reverse shell", STAR, run_mm=660, count=51)).notes)
    assert not any("odd" in note for note in pipe(RowSpec("reverse shell", STAR, run_mm=660, count=52)).notes)


@pytest.mark.parametrize("kind, tip", [("shell", STAR), ("bead", ROUND), ("star", STAR)])
def test_a_piece_fits_the_box_round_it(kind: str, tip: Tip) -> None:
    piping = pipe(RowSpec(kind, tip, run_mm=500, repeats=1, count=50))
    wide, high = piping.above_mm + piping.below_mm, piping.stands_out_mm
    length = natural_pitch_mm(kind, tip) + (0.8 * tip.opening_mm if kind == "shell" else 0)
    assert 0.2 < piping.volume_ml * 1000 / 50 / (wide * high * max(length, wide if kind == "bead" else 0)) < 1


def test_a_rosette_fits_the_cylinder_round_it() -> None:
    for tip in (Tip("closed star", 5), STAR, Tip("open star", 12)):
        piping = pipe(RowSpec("rosette", tip, run_mm=500, count=1))
        wide, high = piping.above_mm + piping.below_mm, piping.stands_out_mm
        assert 0.2 < piping.volume_ml * 1000 / (math.pi / 4 * wide**2 * high) < 1


def test_rosette_path_is_a_dab_a_way_out_and_a_circle() -> None:
    assert rosette_path_mm(5, 5) == 5
    assert rosette_path_mm(15, 5) == pytest.approx(5 + 5 + 2 * math.pi * 5)
    assert rosette_path_mm(25, 5) == pytest.approx(5 + 10 + 2 * math.pi * (5 + 10))  # two turns, at 5 and 10 mm


def test_crowded_rosettes_are_said() -> None:
    crowded = pipe(RowSpec("rosette", Tip("closed star", 5), run_mm=100, count=10))
    assert any("touch" in note for note in crowded.notes)
    assert pipe(RowSpec("rosette", Tip("closed star", 5), run_mm=660, count=10)).notes == ()


def test_a_size_asked_for_is_kept() -> None:
    rosette = pipe(RowSpec("rosette", STAR, run_mm=660, count=6, size_mm=30))
    assert rosette.above_mm + rosette.below_mm == 30
    assert pipe(RowSpec("leaf", Tip("leaf", 6), run_mm=660, count=6, size_mm=20)).length_each_mm == 20
    assert pipe(RowSpec("bead", ROUND, run_mm=660, size_mm=8)).above_mm == 4


# --- scrolls -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["C scroll", "S scroll"])
@pytest.mark.parametrize("width, drop", [(60, 20), (100, 35), (40, 39), (30, 15)])
def test_points_of_a_scroll_are_as_long_as_the_scroll_and_unbroken(kind: str, width: float, drop: float) -> None:
    scroll = KINDS[kind]
    assert isinstance(scroll, Scrolled)
    points, length = scroll.mark_points(width, drop, 400), scroll.length_mm(width, drop)
    steps = [math.dist(a, b) for a, b in zip(points, points[1:], strict=False)]
    assert sum(steps) == pytest.approx(length, rel=1e-3)
    assert max(steps) < 0.05 * length
    turns = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in zip(points, points[1:], strict=False)]
    bends = [abs((b - a + math.pi) % (2 * math.pi) - math.pi) for a, b in zip(turns, turns[1:], strict=False)]
    assert max(bends) < 0.15, "the line has no corner, least of all where a curl begins"


def test_shallow_scrolls_close_up() -> None:
    assert any("close up" in note for note in pipe(RowSpec("C scroll", Tip("round", 5), 500, 5, drop_mm=10)).notes)
    assert pipe(RowSpec("C scroll", Tip("round", 2), 500, 5, drop_mm=30)).notes == ()


# --- fit -----------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "wanted, says",
    [
        (RowSpec("swag", PETAL, 500, 5, drop_mm=120), "bulges"),
        (RowSpec("string", FINE, 500, 5, drop_mm=250), "tear"),
        (RowSpec("string", FINE, 500, 5, drop_mm=5, layers=4), "innermost"),
        (RowSpec("swag", PETAL, 500, 5, drop_mm=5), "line rather than"),
        (RowSpec("string", ROUND, 500, 5, drop_mm=20), "heavy"),
    ],
)
def test_what_speaks_against_a_row_is_said(wanted: RowSpec, says: str) -> None:
    assert any(says in note for note in pipe(wanted).notes)


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": "waterfall"},
        {"run_mm": 0},
        {"run_mm": -5},
        {"run_mm": 1e6},
        {"repeats": 0},
        {"layers": 0},
        {"layers": 21},
        {"drop_mm": -1},
        {"width_mm": 0},
        {"advance_mm": 0},
        {"movement_mm": -1},
        {"grams_per_metre": 0},
        {"density_g_per_ml": 0},
        {"count": -1},
        {"count": 30_000},
        {"weighed_as": "guess"},
        {"run_mm": float("nan")},
        {"drop_mm": 6000},
    ],
)
def test_impossible_rows_are_refused(changes: dict[str, object]) -> None:
    with pytest.raises(ValueError):
        pipe(dataclasses.replace(RowSpec("swag", PETAL, 500, 5, drop_mm=30), **changes))  # type: ignore[arg-type]


# --- weighed strips --------------------------------------------------------------------------------------------------------


def test_a_weighed_strip_replaces_the_estimate() -> None:
    assert grams_per_metre(300, 21) == 70
    piping = pipe(RowSpec("shell", STAR, run_mm=660, repeats=6, grams_per_metre=70, density_g_per_ml=0.9))
    assert piping.mass_g == pytest.approx(46.2) and piping.volume_ml == pytest.approx(46.2 / 0.9)
    assert piping.low_g == pytest.approx(0.9 * 46.2) and piping.high_g == pytest.approx(1.1 * 46.2)
    swag = pipe(RowSpec("swag", PETAL, 500, 5, drop_mm=50, grams_per_metre=40))
    assert swag.mass_g == pytest.approx(40 * 0.785398, rel=1e-5)


def test_a_weighed_line_corrects_all_that_the_tip_lays_down() -> None:
    plain = PETAL.laid_mm2 * DENSITY_G_PER_ML  # g in a metre of the plain line, as estimated
    for kind in ("swag", "ruched swag", "ruched border", "line"):
        estimated = pipe(RowSpec(kind, PETAL, 500, 5, drop_mm=40))
        measured = pipe(RowSpec(kind, PETAL, 500, 5, drop_mm=40, grams_per_metre=1.3 * plain, weighed_as="line"))
        assert measured.mass_g == pytest.approx(1.3 * estimated.mass_g)
        assert measured.high_g - measured.low_g < estimated.high_g - estimated.low_g
    line = pipe(RowSpec("line", PETAL, 1000, grams_per_metre=33, weighed_as="line"))
    assert line.mass_g == pytest.approx(33)


def test_density_turns_the_same_volume_into_other_masses() -> None:
    light, heavy = (pipe(RowSpec("swag", PETAL, 500, 5, drop_mm=40, density_g_per_ml=d)) for d in (0.8, 1.1))
    assert light.volume_ml == heavy.volume_ml and heavy.mass_g == pytest.approx(light.mass_g * 1.1 / 0.8)


# --- plausible as common practice, from memory -----------------------------------------------------------------------------


def test_a_richly_piped_15_cm_tier_takes_150_to_500_g() -> None:
    """Common practice, from memory: 150 to 500 g on a 15 cm tier, 50 cm round and 10 cm high, richly piped."""
    look = (
        RowSpec("ruched swag", PETAL, 500, 5, drop_mm=40),
        RowSpec("ruched swag", Tip("petal", 9), 500, 5, drop_mm=32),
        RowSpec("string", FINE, 500, 5, drop_mm=45, layers=2),
        RowSpec("shell", STAR, 500, 5),
        RowSpec("ruched border", Tip("petal", 9), 500),
        RowSpec("shell", STAR, 440),
        RowSpec("rosette", Tip("closed star", 5), 500, 5),
        RowSpec("leaf", Tip("leaf", 6), 500, 5, per_repeat=2),
    )
    whole = math.fsum(pipe(row).mass_g for row in look)
    assert 150 < whole < 500
    spare = (RowSpec("swag", PETAL, 500, 5, drop_mm=40), RowSpec("shell", Tip("open star", 4.5), 500, 5))
    assert math.fsum(pipe(row).mass_g for row in spare) < 60  # and a sparely piped one a good deal less


def test_every_constant_of_rows_lies_in_its_range_and_says_why() -> None:
    modules = [importlib.import_module(m.name) for m in pkgutil.walk_packages(rows.__path__, "calc.rows.")]
    found = [c for module in modules for c in vars(module).values() if isinstance(c, Constant)]
    assert len(found) > 20
    for c in found:
        assert c.low <= c <= c.high and len(c.note) > 15


def test_a_thick_end_is_spoken_of_only_where_the_tip_has_one() -> None:
    """A petal tip is thick at one end; a line laid on a swag with a round tip has no thick end to turn (common practice)."""
    petal, plain = (pipe(RowSpec("swag", tip, run_mm=500.0, repeats=6, drop_mm=22.0)) for tip in (Tip("petal", 11.0), Tip("round", 2.0)))
    assert "thick end" in petal.angle
    assert plain.angle == "45° to the side"


# --- worked examples of kinds ----------------------------------------------------------------------------------------------


def test_a_ruffled_swag_by_hand() -> None:
    """Five swags of 100 mm with a drop of 50 mm: semicircles, 785.4 mm in all, led once; the surplus is common practice (1.3)."""
    plain = pipe(RowSpec("swag", PETAL, run_mm=500.0, repeats=5, drop_mm=50.0))
    ruffled = pipe(RowSpec("ruffled swag", PETAL, run_mm=500.0, repeats=5, drop_mm=50.0))
    ruched = pipe(RowSpec("ruched swag", PETAL, run_mm=500.0, repeats=5, drop_mm=50.0))
    assert ruffled.length_mm == ruffled.path_mm == pytest.approx(785.398, abs=1e-3)
    assert ruffled.volume_ml == pytest.approx(1.3 * plain.volume_ml)
    assert plain.mass_g < ruffled.mass_g < ruched.mass_g and plain.time_min < ruffled.time_min < ruched.time_min
    assert ruched.path_mm > 2 * ruched.length_mm  # the ruched tip goes to and fro, the ruffled one does not
    assert "45°" in ruffled.angle and "Do not rock" in ruffled.hand


def test_a_small_rose_by_hand() -> None:
    """Petal 9 mm: 19.8 mm wide, 14.85 mm high, round a cone of 9.9 mm: pi 4.95^2 14.85 / 3 = 381.0 mm3; two turns 14.85 mm across: 93.3 mm."""
    tip = Tip("petal", 9.0)
    made = pipe(RowSpec("small rose", tip, run_mm=500.0, repeats=5))
    assert made.count == 5 and made.above_mm + made.below_mm == pytest.approx(19.8)
    assert made.stands_out_mm == pytest.approx(14.85) and made.stands_out_mm > pipe(RowSpec("rosette", STAR, run_mm=500.0, repeats=5)).stands_out_mm
    assert made.volume_ml == pytest.approx(5 * (381.03 + tip.laid_mm2 * 93.31) / 1000, rel=1e-4)
    coiled = pipe(RowSpec("small rose", Tip("closed star", 6.0), run_mm=500.0, repeats=5))
    assert not coiled.notes and coiled.mass_g < made.mass_g


def test_a_single_dot_by_hand() -> None:
    """Round 4 mm: 6.4 mm wide, 5.12 mm high, 0.62 of the box round it: 130.0 mm3, about an eighth of a gram at 0.95 g/ml."""
    dot = pipe(RowSpec("dot", Tip("round", 4.0), run_mm=500.0, count=1))
    assert dot.count == 1 and dot.stands_out_mm == pytest.approx(5.12) and dot.above_mm == dot.below_mm == pytest.approx(3.2)
    assert 1000 * dot.volume_ml == pytest.approx(130.02, abs=0.01) and dot.mass_g == pytest.approx(0.1235, abs=0.0001)
    gap = pipe(RowSpec("dot", Tip("round", 4.0), run_mm=500.0, count=1, size_mm=8.0))
    assert gap.volume_ml == pytest.approx(dot.volume_ml * (8 / 6.4) ** 3)


# --- larger openings make larger pieces -------------------------------------------------------------------------------------

OPENINGS = sorted({*(0.5 + 0.25 * k for k in range(239)), 2.99, 3.01, 8.99, 9.01})


def _piece(kind: str, tip: Tip, **given: float) -> tuple[float, float, float]:
    """Width, height and mass of one piece, or of a metre of a row that runs on."""
    asked = RowSpec(kind, tip, 1000.0, 1, **({"drop_mm": 100.0} if KINDS[kind].takes_drop else {}), **given)
    if KINDS[kind].side_by_side:
        asked = replace(asked, run_mm=natural_pitch_mm(kind, tip), apart=True, count=1)
    elif KINDS[kind].set_apart:
        asked = replace(asked, count=1)
    found = pipe(asked)
    return KINDS[kind].across_mm(tip), found.stands_out_mm, found.mass_g


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("kind", KINDS)
def test_a_larger_opening_makes_no_smaller_and_no_lighter_piece(kind: str, family: str) -> None:
    found = [_piece(kind, Tip(family, opening)) for opening in OPENINGS]
    for measure in zip(*found, strict=True):
        assert all(after >= before * (1 - 1e-9) for before, after in itertools.pairwise(measure))


@pytest.mark.parametrize("size", [8.0, 20.0, 35.0])
@pytest.mark.parametrize("kind", [name for name, kind in KINDS.items() if kind.set_apart])
def test_a_larger_opening_makes_no_lighter_piece_of_the_size_asked_for(kind: str, size: float) -> None:
    for family in KINDS[kind].families:
        tips = [Tip(family, opening) for opening in OPENINGS]
        found = [_piece(kind, tip, size_mm=size)[1:] for tip in tips if tip.bead_width_mm <= size]
        for measure in zip(*found, strict=True):
            assert all(after >= before * (1 - 1e-9) for before, after in itertools.pairwise(measure))


@pytest.mark.parametrize("kind", KINDS)
@given(st.floats(0.5, 60), st.floats(0.5, 60))
@example(8.0, 8.0)
@example(8.95, 9.05)
def test_a_closed_star_that_is_wider_and_higher_is_not_lighter(kind: str, closed: float, opened: float) -> None:
    one, other = _piece(kind, Tip("closed star", closed)), _piece(kind, Tip("open star", opened))
    if one[0] >= other[0] and one[1] >= other[1]:
        assert one[2] >= other[2] * (1 - 1e-6)
    if other[0] >= one[0] * (1 + 1e-6) and other[1] >= one[1] * (1 + 1e-6):
        assert other[2] >= one[2] * (1 - 1e-6)
