"""Arcs and strings on the unrolled side."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq

from calc.curves import (
    arc_length_mm,
    arc_points,
    arc_radius_mm,
    catenary_length_mm,
    catenary_parameter_mm,
    catenary_points,
    guide_height_mm,
    swag_drop_mm,
    swag_length_mm,
    to_and_fro_factor,
)

cutters = st.floats(20, 400)
shares = st.floats(0.01, 1)
widths = st.floats(10, 500)
factors = st.floats(0.1, 10)


def along(points: Sequence[tuple[float, float]]) -> float:
    return math.fsum(math.dist(a, b) for a, b in itertools.pairwise(points))


# --- what a cutter presses --------------------------------------------------------------------------------------------


@given(cutters, shares)
def test_a_cutter_presses_an_arc_of_its_own_radius(cutter: float, share: float) -> None:
    """The geometry of marking: drop D/2 - sqrt(D^2/4 - w^2/4), length D asin(w/D), guide D/2 + sqrt(D^2/4 - w^2/4)."""
    width = share * cutter
    root = math.sqrt(cutter**2 / 4 - width**2 / 4)
    assert swag_drop_mm(cutter, width) == pytest.approx(cutter / 2 - root, abs=1e-7 * cutter)
    assert guide_height_mm(cutter, width) == pytest.approx(cutter / 2 + root, abs=1e-7 * cutter)
    assert swag_length_mm(cutter, width) == pytest.approx(cutter * math.asin(width / cutter), rel=1e-12)
    assert swag_length_mm(cutter, width) >= width
    assert arc_length_mm(width, swag_drop_mm(cutter, width)) == pytest.approx(swag_length_mm(cutter, width), rel=1e-6)
    if share > 0.05:
        assert arc_radius_mm(width, swag_drop_mm(cutter, width)) == pytest.approx(cutter / 2, rel=1e-6)


def test_as_wide_as_the_cutter_is_half_a_circle() -> None:
    assert swag_drop_mm(100, 100) == guide_height_mm(100, 100) == 50
    assert swag_length_mm(100, 100) == pytest.approx(50 * math.pi)


@given(cutters, shares, factors)
def test_a_larger_cutter_on_a_larger_cake(cutter: float, share: float, factor: float) -> None:
    width = share * cutter
    larger = min(factor * width, factor * cutter)
    for measure in (swag_drop_mm, swag_length_mm, guide_height_mm):  # near the half circle a last digit counts as its root
        assert measure(factor * cutter, larger) == pytest.approx(factor * measure(cutter, width), rel=1e-6)


@given(cutters, shares, shares)
def test_a_wider_swag_of_the_same_cutter_drops_more(cutter: float, first: float, second: float) -> None:
    low, high = sorted((first * cutter, second * cutter))
    assert swag_drop_mm(cutter, low) <= swag_drop_mm(cutter, high)
    assert swag_length_mm(cutter, low) <= swag_length_mm(cutter, high)


def test_a_shallow_swag_keeps_its_digits() -> None:
    """(D - w)(D + w) under the root: a drop of a thousandth of a millimetre is right to ten digits."""
    assert swag_drop_mm(400, 1.0) == pytest.approx(0.00062500098, rel=1e-6)


@pytest.mark.parametrize("cutter, width", [(90, 90.001), (90, 0), (0, 0), (90, -1)])
def test_a_cutter_narrower_than_the_swag_is_refused(cutter: float, width: float) -> None:
    for measure in (swag_drop_mm, swag_length_mm, guide_height_mm):
        with pytest.raises(ValueError):
            measure(cutter, width)


# --- arcs from width and drop -----------------------------------------------------------------------------------------


@given(widths, st.floats(0.001, 3))
def test_length_of_an_arc_by_integration(width: float, share: float) -> None:
    drop = share * width
    radius = arc_radius_mm(width, drop)
    half = 2 * math.atan2(2 * drop, width)  # half the angle at the centre
    by_hand, _ = quad(lambda t: radius, -half, half)
    assert arc_length_mm(width, drop) == pytest.approx(by_hand, rel=1e-9)


@given(widths, st.floats(0, 3), st.integers(1, 60))
def test_points_of_an_arc_lie_evenly_on_it(width: float, share: float, count: int) -> None:
    drop = share * width
    points = arc_points(width, drop, count)
    assert len(points) == count + 1
    assert points[0] == pytest.approx((0, 0), abs=1e-6 * width) and points[-1] == pytest.approx((width, 0), abs=1e-6 * width)
    assert max(y for _, y in points) <= drop + 1e-6 * width
    steps = [math.dist(a, b) for a, b in itertools.pairwise(points)]
    assert max(steps) - min(steps) < 1e-5 * width
    assert along(points) <= arc_length_mm(width, drop) + 1e-6 * width
    if drop > 1e-6 * width:
        radius = arc_radius_mm(width, drop)
        for x, y in points:
            assert math.hypot(x - width / 2, y - (drop - radius)) == pytest.approx(radius, rel=1e-6)


def test_an_arc_without_drop_is_a_line() -> None:
    assert arc_length_mm(100, 0) == 100
    assert arc_points(100, 0, 2) == ((0, 0), (50, 0), (100, 0))


@pytest.mark.parametrize("width, drop", [(0, 5), (-1, 5), (100, -1)])
def test_an_arc_that_is_none(width: float, drop: float) -> None:
    for measure in (arc_length_mm, arc_points):
        with pytest.raises(ValueError):
            measure(width, drop)
    with pytest.raises(ValueError):
        arc_radius_mm(width, 0)


# --- strings ----------------------------------------------------------------------------------------------------------


@given(widths, st.floats(0.005, 5))
def test_a_string_against_a_root_finder_and_an_integral(width: float, share: float) -> None:
    """Independent of our own iteration: solve a (cosh(w/2a) - 1) = y by bracketing, and integrate cosh for the length."""
    drop = share * width
    u = brentq(lambda v: (math.cosh(v) - 1) / v - 2 * share, 1e-4, 30, xtol=1e-14, rtol=1e-14)
    a = width / (2 * u)
    assert catenary_parameter_mm(width, drop) == pytest.approx(a, rel=1e-6)
    length, _ = quad(lambda x: math.cosh(x / a), -width / 2, width / 2, epsrel=1e-11)
    assert catenary_length_mm(width, drop) == pytest.approx(length, rel=1e-6)


@given(widths, st.floats(0.001, 20), factors)
def test_a_string_on_a_larger_cake(width: float, share: float, factor: float) -> None:
    drop = share * width
    assert catenary_length_mm(factor * width, factor * drop) == pytest.approx(factor * catenary_length_mm(width, drop), rel=1e-9)


@given(widths, st.floats(0, 20))
def test_a_string_is_longer_than_its_chords_and_shorter_than_its_box(width: float, share: float) -> None:
    drop = share * width
    length = catenary_length_mm(width, drop)
    assert 2 * math.hypot(width / 2, drop) <= length * (1 + 1e-9)
    assert length <= width + 2 * drop + 1e-9


@given(widths, st.floats(0, 5), st.integers(16, 60))
def test_points_of_a_string_lie_evenly_on_it(width: float, share: float, count: int) -> None:
    drop = share * width
    points = catenary_points(width, drop, count)
    assert points[0] == pytest.approx((0, 0), abs=1e-6 * width) and points[-1] == pytest.approx((width, 0), abs=1e-6 * width)
    assert all(-1e-6 * width <= y <= drop + 1e-6 * width for _, y in points)
    assert along(points) == pytest.approx(catenary_length_mm(width, drop), rel=0.05)
    assert along(points) <= catenary_length_mm(width, drop) * (1 + 1e-9)
    for (x, y), (other_x, other_y) in zip(points, reversed(points), strict=True):
        assert (x, y) == pytest.approx((width - other_x, other_y), abs=1e-6 * width), "a string hangs the same on both sides"


def test_a_string_without_drop_is_a_line() -> None:
    assert catenary_length_mm(100, 0) == 100
    assert catenary_points(100, 0, 2) == ((0, 0), (50, 0), (100, 0))


@pytest.mark.parametrize("width, drop", [(0, 5), (100, -1), (10, 501)])
def test_a_string_that_is_none(width: float, drop: float) -> None:
    for measure in (catenary_length_mm, catenary_points, catenary_parameter_mm):
        with pytest.raises(ValueError):
            measure(width, drop)


# --- a rocked tip -----------------------------------------------------------------------------------------------------


@given(st.floats(0, 50), st.floats(0.5, 50))
def test_a_rocked_path_is_a_zigzag(movement: float, advance: float) -> None:
    """One to-and-fro is two strokes, each across a and forward p/2."""
    strokes = 2 * math.hypot(movement, advance / 2)
    assert to_and_fro_factor(movement, advance) == pytest.approx(strokes / advance, rel=1e-12)
    assert to_and_fro_factor(movement, advance) == pytest.approx(math.sqrt(1 + (2 * movement / advance) ** 2), rel=1e-12)
    assert to_and_fro_factor(movement, advance) >= 1


@pytest.mark.parametrize("movement, advance", [(-1, 5), (5, 0), (5, -1)])
def test_a_rocked_path_that_is_none(movement: float, advance: float) -> None:
    with pytest.raises(ValueError):
        to_and_fro_factor(movement, advance)


def test_curves_are_drawn_in_two_dozen_parts_unless_told() -> None:
    assert len(arc_points(100, 30)) == len(catenary_points(100, 30)) == 25
    assert len(arc_points(100, 0)) == len(catenary_points(100, 0)) == 25
