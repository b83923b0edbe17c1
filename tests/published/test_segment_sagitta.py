"""Circular segments: the swag a round cutter marks.

Sources
-------
CRC Concise Encyclopedia of Mathematics, E. W. Weisstein (1999), "Circular Segment" and "Sagitta":
R = h/2 + c^2/(8 h); s = r - sqrt(r^2 - (L/2)^2).
The worked pairs (c 8, h 2 -> R 5; c 10, h 3 -> R 5.67; r 10, L 12 -> s 2; r 15, L 20 -> s 3.82) are those of teaching calculators
for the two formulas; each is checked against the formula here. Lengths to 12 digits were computed for this handbook with mpmath.
"""

from __future__ import annotations

import math

import mpmath
import pytest

from calc.curves import (
    arc_length_mm,
    arc_radius_mm,
    catenary_length_mm,
    guide_height_mm,
    swag_drop_mm,
    swag_length_mm,
)
from calc.division import dividers_mm

WORKED = [  # chord, sagitta, radius as printed, its digits
    (8.0, 2.0, 5.0, 12),
    (10.0, 3.0, 5.67, 2),
]
SAGITTA = [  # radius, chord, sagitta as printed, the other one (to the far side), digits
    (10.0, 12.0, 2.0, 18.0, 12),
    (15.0, 20.0, 3.82, 26.18, 2),
]
LENGTHS = [  # chord, sagitta, length along the arc
    (8.0, 2.0, 9.272952180016),
    (10.0, 3.0, 12.249508672800),
    (60.0, 15.0, 69.547141350121),
]
CATENARY = [  # span, sag, length of a hanging line (computed here: L = 2 a sinh(X/a), Y = a (cosh(X/a) - 1))
    (60.0, 15.0, 69.047466845),
    (80.0, 20.0, 92.063289127),
    (10.0, 2.0, 10.997182088),
]


@pytest.mark.parametrize("chord, sagitta, radius, digits", WORKED)
def test_radius_from_chord_and_sagitta(chord: float, sagitta: float, radius: float, digits: int) -> None:
    half_square = (chord / 2) ** 2  # the steps of the derivation: (R - h)^2 + (c/2)^2 = R^2
    found = arc_radius_mm(chord, sagitta)
    assert (found - sagitta) ** 2 + half_square == pytest.approx(found**2, rel=1e-12)
    assert round(found, digits) == radius


@pytest.mark.parametrize("radius, chord, sagitta, far, digits", SAGITTA)
def test_sagitta_from_radius_and_chord(radius: float, chord: float, sagitta: float, far: float, digits: int) -> None:
    drop = swag_drop_mm(2 * radius, chord)
    assert round(drop, digits) == sagitta
    assert round(guide_height_mm(2 * radius, chord), digits) == far, "the top of the cutter, where the guide tape goes"
    assert drop + guide_height_mm(2 * radius, chord) == pytest.approx(2 * radius)
    assert arc_radius_mm(chord, drop) == pytest.approx(radius, rel=1e-12)


@pytest.mark.parametrize("chord, sagitta, length", LENGTHS)
def test_length_along_the_arc(chord: float, sagitta: float, length: float) -> None:
    assert arc_length_mm(chord, sagitta) == pytest.approx(length, abs=5e-12 * length + 1e-11)
    radius = arc_radius_mm(chord, sagitta)
    exact = 2 * mpmath.mpf(radius) * mpmath.asin(mpmath.mpf(chord) / (2 * mpmath.mpf(radius)))
    assert arc_length_mm(chord, sagitta) == pytest.approx(float(exact), rel=1e-12)
    assert swag_length_mm(2 * radius, chord) == pytest.approx(length, rel=1e-9)


@pytest.mark.parametrize("span, sag, length", CATENARY)
def test_hanging_line(span: float, sag: float, length: float) -> None:
    assert catenary_length_mm(span, sag) == pytest.approx(length, rel=1e-9)


def test_at_a_quarter_of_the_span_the_curves_differ_by_less_than_one_per_cent() -> None:
    """Span 60, sag 15: parabola 68.867614482, catenary 69.047466845, arc 69.547141350 (computed here)."""
    half, sag = mpmath.mpf(30), mpmath.mpf(15)
    parabola = mpmath.sqrt(half**2 + 4 * sag**2) + half**2 / (2 * sag) * mpmath.asinh(2 * sag / half)
    assert float(parabola) == pytest.approx(68.867614482, rel=1e-10)
    assert max(arc_length_mm(60, 15), catenary_length_mm(60, 15)) / float(parabola) < 1.01


def test_half_a_circle() -> None:
    """Side 675 mm, cutter 75 mm: 9 swags 75 mm wide that drop 37.5 mm, 1060.3 mm to pipe (9 half circles: 337.5 pi)."""
    assert swag_drop_mm(75, 675 / 9) == 37.5
    assert 9 * swag_length_mm(75, 675 / 9) == pytest.approx(337.5 * math.pi, rel=1e-13)
    assert round(9 * swag_length_mm(75, 75), 1) == 1060.3


def test_chord_of_a_regular_polygon() -> None:
    """Dividers step the chords of a regular n-gon in a circle of circumference P: side 2 R sin(pi/n), R = P / (2 pi)."""
    for repeats in range(2, 40):
        radius = 660 / (2 * math.pi)
        assert dividers_mm(660, repeats) == pytest.approx(2 * radius * math.sin(math.pi / repeats), rel=1e-13)
    assert dividers_mm(600, 6) == pytest.approx(600 / (2 * math.pi), rel=1e-13), "a hexagon's side is its radius"
