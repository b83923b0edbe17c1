"""The perimeter of an oval, and even spacing round it.

Sources
-------
Digital Library of Mathematical Functions, NIST, section 19.30(i): P = 4 a E(k). Series P = pi (a+b) sum C(1/2, n)^2 h^n with
h = ((a-b)/(a+b))^2 (Ivory 1798, as given in encyclopaedias).
S. Ramanujan, Modular Equations and Approximations to pi (1914): the two approximations, here only as a check. Their worst relative
errors (at b = 0) are -0.4155 % and -0.0402 %; a page in circulation prints them ten times too large.
World Geodetic System 1984 (a = 6378.137 km, f = 1/298.257223563): a quarter of the meridian is given as about 10001.966 km.
Golden numbers were computed for this handbook with mpmath to 30 digits.
"""

from __future__ import annotations

import math

import mpmath
import pytest
from scipy.special import ellipe, ellipeinc

from calc.geometry.segments import ellipse_perimeter_mm
from calc.shapes import outline

GOLDEN = [  # half-axes, perimeter
    (10.0, 5.0, 48.4422411027384),
    (2.0, 1.0, 9.68844822054768),
    (3.0, 2.0, 15.8654395892906),
    (7.0, 5.0, 37.9613689347638),
]
LIMITS = [  # half-axes, perimeter: a circle is 2 pi a, a line there and back is 4 a
    (10.0, 10.0, 62.83185307179586),
    (10.0, 0.0, 40.0),
]


@pytest.mark.parametrize("a, b, perimeter", GOLDEN + LIMITS)
def test_perimeter(a: float, b: float, perimeter: float) -> None:
    assert ellipse_perimeter_mm(a, b) == pytest.approx(perimeter, rel=4e-15)
    assert ellipse_perimeter_mm(b, a) == ellipse_perimeter_mm(a, b)


@pytest.mark.parametrize("a, b", [(10.0, 5.0), (200.0, 150.0), (100.0, 10.0), (150.0, 149.0), (1.0, 1e-6)])
def test_perimeter_against_the_complete_integral(a: float, b: float) -> None:
    m = 1 - (b / a) ** 2  # both libraries take m = e^2, not the modulus e: a well-known trap
    published = 4 * a * mpmath.ellipe(mpmath.mpf(1) - (mpmath.mpf(b) / a) ** 2)
    assert ellipse_perimeter_mm(a, b) == pytest.approx(float(published), rel=1e-14)
    assert ellipse_perimeter_mm(a, b) == pytest.approx(4 * a * float(ellipe(m)), rel=1e-9)
    assert float(4 * a * mpmath.ellipe(math.sqrt(m))) != pytest.approx(float(published), rel=1e-3) or m > 0.999 or m < 0.05


@pytest.mark.parametrize("a, b", [(10.0, 5.0), (3.0, 2.0), (200.0, 150.0)])
def test_perimeter_against_the_series(a: float, b: float) -> None:
    h = ((a - b) / (a + b)) ** 2
    terms = [math.prod((0.5 - k) / (k + 1) for k in range(n)) ** 2 * h**n for n in range(60)]
    assert terms[:3] == pytest.approx([1.0, h / 4, h * h / 64])  # C(1/2, 1) = 1/2, C(1/2, 2) = -1/8
    assert math.pi * (a + b) * math.fsum(terms) == pytest.approx(ellipse_perimeter_mm(a, b), rel=1e-14)


def ramanujan(a: float, b: float) -> tuple[float, float]:
    h = ((a - b) / (a + b)) ** 2
    return (math.pi * (3 * (a + b) - math.sqrt((3 * a + b) * (a + 3 * b))), math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h))))


def test_ramanujan_is_near_but_not_used() -> None:
    exact = ellipse_perimeter_mm(10, 5)
    first, second = ramanujan(10, 5)
    assert first == pytest.approx(exact, rel=2e-4)
    assert second == pytest.approx(exact, rel=2e-8)
    assert first != exact and second != exact


def test_ramanujan_worst_errors_as_published() -> None:
    first, second = (100 * (value / ellipse_perimeter_mm(1, 0) - 1) for value in ramanujan(1.0, 0.0))
    assert round(first, 4) == -0.4155
    assert round(second, 4) == -0.0402
    assert abs(first) < 3.8 and abs(second) < 0.40  # the figures in circulation, ten times too large


def test_meridian_of_the_earth() -> None:
    a, flattening = 6378.137, 1 / 298.257223563
    b = a * (1 - flattening)
    assert b == pytest.approx(6356.752314245, abs=1e-9)
    whole = ellipse_perimeter_mm(a, b)
    assert round(whole / 4, 3) == 10001.966  # as published, in km
    assert whole == pytest.approx(40007.862917, abs=1e-6)


@pytest.mark.parametrize("a, b", [(100.0, 75.0), (60.0, 100.0), (150.0, 40.0)])
@pytest.mark.parametrize("share", [0.01, 0.125, 0.2, 0.31, 0.5, 0.77, 0.99])
def test_even_by_arc_length(a: float, b: float, share: float) -> None:
    """The point at a distance, against the incomplete integral E(phi, m) of scipy."""
    oval = outline("oval", 2 * a, 2 * b)
    s = share * oval.perimeter_mm
    x, y, _ = oval.point(s)
    assert (x / a) ** 2 + (y / b) ** 2 == pytest.approx(1, abs=1e-12)
    # from the back, x = -a sin u, y = b cos u: ds = a sqrt(1 - (1 - b^2/a^2) sin^2 u) du
    u = math.atan2(-x / a, y / b) % (2 * math.pi)
    assert a * float(ellipeinc(u, 1 - (b / a) ** 2)) == pytest.approx(s, rel=1e-9)


def test_equal_angles_are_not_equal_lengths() -> None:
    """Eight repeats by parameter angle on a 30 x 15 cm oval would differ by a third; by arc length they do not."""
    oval = outline("oval", 300.0, 150.0)
    stops = [150 * float(ellipeinc(k * math.pi / 4, 1 - 0.25)) for k in range(9)]
    by_angle = [b - a for a, b in zip(stops, stops[1:], strict=False)]
    assert max(by_angle) / min(by_angle) > 1.3
    joints = oval.joints(8)
    assert all(b - a == pytest.approx(oval.perimeter_mm / 8) for a, b in zip(joints, joints[1:], strict=False))
