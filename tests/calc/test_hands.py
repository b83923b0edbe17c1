"""The path of the hand in time and space, as every kind of row declares it."""

from __future__ import annotations

import math

import pytest

from calc.rows import KINDS, RowSpec, pipe
from calc.rows.kind import Kind


def spec_of(kind: Kind) -> RowSpec:
    """A usual row of a kind: eight repeats round 50 cm."""
    return RowSpec(kind.name, kind.begin_tip(), run_mm=500.0, repeats=8, drop_mm=24.0 if kind.takes_drop else 0.0)


@pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))
def test_strokes_follow_one_another(kind: Kind) -> None:
    strokes = kind.strokes(spec_of(kind))
    assert tuple(stroke.name for stroke in strokes) == kind.steps and len(set(kind.steps)) == len(kind.steps) >= 3
    for before, after in zip(strokes, strokes[1:], strict=False):
        assert math.dist(before.points[-1], after.points[0]) < kind.begin_tip().bead_width_mm, (before.name, after.name)
    for stroke in strokes:
        assert math.hypot(*stroke.faces) == pytest.approx(1.0) and stroke.faces[2] < 0, "a tip faces the surface"
        assert all(0 <= squeeze <= 1 for squeeze in stroke.squeeze) and stroke.time_s >= 0
        assert all(z >= 0 for _, _, z in stroke.points), "no hand goes into the cake"
    assert max(squeeze for stroke in strokes for squeeze in stroke.squeeze) > 0.5 and strokes[0].touches


@pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))
def test_the_hand_takes_the_time_that_the_row_is_said_to_take(kind: Kind) -> None:
    spec = spec_of(kind)
    made = pipe(spec)
    pieces = made.count if kind.countable or kind.counted else made.count * spec.repeats if not made.count > 1 else made.count
    took = math.fsum(stroke.time_s for stroke in kind.strokes(spec)) * pieces
    assert took == pytest.approx(made.time_min * 60, rel=0.12)


@pytest.mark.parametrize("kind", [kind for kind in KINDS.values() if kind.speed_mm_per_s], ids=lambda kind: kind.name)
def test_what_is_squeezed_out_lies_along_the_path_that_is_weighed(kind: Kind) -> None:
    """By Pappus the volume of a line is its section times its path: the hand squeezes along that path and no further."""
    spec = spec_of(kind)
    made = pipe(spec)
    pieces = max(made.count, spec.repeats)
    squeezed = math.fsum(stroke.length_mm for stroke in kind.strokes(spec) if max(stroke.squeeze) > 0)
    assert squeezed * pieces == pytest.approx(made.path_mm, rel=0.12)


def test_a_rocked_tip_goes_to_and_fro_by_its_movement() -> None:
    kind = KINDS["ruched border"]
    spec = RowSpec(kind.name, kind.begin_tip(), run_mm=100.0, movement_mm=6.0, advance_mm=5.0)
    downs = [y for stroke in kind.strokes(spec) for _, y, _ in stroke.points]
    assert max(downs) - min(downs) == pytest.approx(6.0)


def test_a_ruched_tip_stands_square_on_and_a_ruffled_one_leans() -> None:
    """Ruched: 90° to the side, to and fro; ruffled: 45°, one sweep (common practice)."""
    for name, angle in (("ruched swag", 90.0), ("ruffled swag", 45.0)):
        kind = KINDS[name]
        assert kind.angle.startswith(f"{angle:.0f}°")
        assert all(math.degrees(math.asin(-stroke.faces[2])) == pytest.approx(angle) for stroke in kind.strokes(spec_of(kind)))
