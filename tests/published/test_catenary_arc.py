"""Arcs of swags and catenaries of strings against published formulas and worked values.

Sources: E. W. Weisstein, CRC Concise Encyclopedia of Mathematics, CRC Press 1999: Circular Segment, Sagitta, Catenary. Worked radii and
sagittas are printed to two places; lengths were computed from the published formulas to twelve. Oracle: scipy's quadrature.
"""

from __future__ import annotations

import math

import pytest
from scipy.integrate import quad

from calc.curves import (
    arc_length_mm,
    arc_points,
    arc_radius_mm,
    catenary_length_mm,
    catenary_parameter_mm,
    catenary_points,
    swag_drop_mm,
)
from calc.rows import RowSpec, pipe
from calc.tips import Tip


@pytest.mark.parametrize("chord, height, radius, places", [(8, 2, 5.0, 12), (10, 3, 5.67, 2)])
def test_radius_from_chord_and_height(chord: float, height: float, radius: float, places: int) -> None:
    assert round(arc_radius_mm(chord, height), places) == radius


@pytest.mark.parametrize("radius, chord, sagitta, places", [(10, 12, 2.0, 12), (15, 20, 3.82, 2)])
def test_sagitta_from_radius_and_chord(radius: float, chord: float, sagitta: float, places: int) -> None:
    assert round(swag_drop_mm(2 * radius, chord), places) == sagitta


@pytest.mark.parametrize("chord, height, length", [(8, 2, 9.272952180016), (10, 3, 12.249508672800), (60, 15, 69.547141350121)])
def test_arc_length(chord: float, height: float, length: float) -> None:
    radius = arc_radius_mm(chord, height)
    half_angle = math.asin(chord / 2 / radius)
    assert 2 * radius * half_angle == pytest.approx(length, abs=1e-11)
    assert arc_length_mm(chord, height) == pytest.approx(length, abs=1e-11)
    piping = pipe(RowSpec("swag", Tip("petal", 5), run_mm=7 * chord, repeats=7, drop_mm=height))
    assert piping.length_each_mm == pytest.approx(length, abs=1e-11)
    assert piping.length_mm == pytest.approx(7 * length, rel=1e-12)


CATENARIES = ((60, 15, 69.047466845), (80, 20, 92.063289127), (10, 2, 10.997182088))


@pytest.mark.parametrize("span, sag, length", CATENARIES)
def test_catenary_length_step_by_step(span: float, sag: float, length: float) -> None:
    a = catenary_parameter_mm(span, sag)
    assert a * (math.cosh(span / 2 / a) - 1) == pytest.approx(sag, abs=1e-11)
    assert catenary_length_mm(span, sag) == pytest.approx(length, abs=1e-9)
    along, _ = quad(lambda x: math.cosh(x / a), -span / 2, span / 2, epsabs=1e-12)
    assert along == pytest.approx(length, abs=1e-8)
    piping = pipe(RowSpec("string", Tip("round", 1.8), run_mm=5 * span, repeats=5, drop_mm=sag))
    assert piping.length_each_mm == pytest.approx(length, abs=1e-9)


def test_the_parameter_of_the_worked_catenary() -> None:
    assert catenary_parameter_mm(60, 15) == pytest.approx(32.2296056478, abs=1e-9)


def test_cosh_from_0_to_1_is_sinh_1_long() -> None:
    """Closed form: half-span 1, a = 1, sag cosh 1 - 1, half the length sinh 1 = 1.175201193644."""
    assert catenary_length_mm(2, math.cosh(1) - 1) / 2 == pytest.approx(1.175201193644, abs=1e-12)


@pytest.mark.parametrize("span, sag, parabola", [(60, 15, 68.867614482), (80, 20, 91.823485976), (10, 2, 10.982300838)])
def test_arc_parabola_and_catenary_differ_by_under_one_per_cent_at_a_quarter(span: float, sag: float, parabola: float) -> None:
    half = span / 2
    worked = math.hypot(half, 2 * sag) + half * half / (2 * sag) * math.asinh(2 * sag / half)
    assert worked == pytest.approx(parabola, abs=1e-8)
    assert abs(arc_length_mm(span, sag) / parabola - 1) < 0.01
    assert abs(catenary_length_mm(span, sag) / parabola - 1) < 0.01


@pytest.mark.parametrize("span, sag", [(60, 15), (100, 50), (40, 60)])
def test_points_lie_on_their_curves_and_are_even(span: float, sag: float) -> None:
    for points, length in (
        (arc_points(span, sag, 2000), arc_length_mm(span, sag)),
        (catenary_points(span, sag, 2000), catenary_length_mm(span, sag)),
    ):
        steps = [math.dist(a, b) for a, b in zip(points, points[1:], strict=False)]
        assert sum(steps) == pytest.approx(length, rel=1e-5)
        assert max(steps) / min(steps) < 1.001
        assert max(depth for _, depth in points) == pytest.approx(sag, rel=1e-9)
