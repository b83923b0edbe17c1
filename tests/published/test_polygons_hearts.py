"""Regular polygons, hearts and petals.

Sources
-------
Regular n-gon: A = n s^2 / (4 tan(pi/n)) = n r^2 tan(pi/n), r the apothem; P = n s. Hexagon of side 1: A = 2.598076211353, P = 6, flat
to flat sqrt 3; from flat-to-flat to corner-to-corner the area differs by 4/3 (elementary geometry, from memory; the second form
is checked against the first here).
Heart of a square a and two semicircles: A = (1 + pi/4) a^2, P = (2 + pi) a, width (sqrt2/2 + 1) a, height (3/4 sqrt2 + 1/2) a
(schoolbook figure). Schoolbook answers with pi = 3.14: a = 2 in gives 7.14 sq in, a = 7 m gives 87.465 sq m. Another answer in
circulation for a = 2, 6.14, is wrong and is held off here.
Petal of an octagon and eight semicircles: from the same two formulas, computed here.
"""

from __future__ import annotations

import math

import pytest
import shapely

from calc.shapes import SQUARE_HEART, Outline, outline


def heart_of_square(a: float) -> Outline:
    return outline("heart", a * (1 + math.sqrt(2) / 2), fullness=SQUARE_HEART)


def test_hexagon_of_side_one() -> None:
    side = 1.0
    flat_to_flat = side * math.sqrt(3)
    tier = outline("hexagon", flat_to_flat)
    assert tier.perimeter_mm == pytest.approx(6.0, rel=1e-15)
    assert tier.area_mm2 == pytest.approx(2.598076211353, abs=5e-13)
    by_side = 6 * side**2 / (4 * math.tan(math.pi / 6))
    by_apothem = 6 * (flat_to_flat / 2) ** 2 * math.tan(math.pi / 6)
    assert by_side == pytest.approx(by_apothem)
    assert tier.area_mm2 == pytest.approx(by_side)


def test_hexagon_is_measured_flat_to_flat() -> None:
    """Taken corner to corner, the same number is a tin of three quarters of the area."""
    tier = outline("hexagon", 200)
    left, front, right, back = tier.extent_mm
    assert back - front == pytest.approx(200)
    assert right - left == pytest.approx(200 * 2 / math.sqrt(3))
    corner_to_corner = 200.0
    smaller = 6 / 2 * (corner_to_corner / 2) ** 2 * math.sin(math.pi / 3)
    assert tier.area_mm2 / smaller == pytest.approx(4 / 3)


@pytest.mark.parametrize("a, printed, digits", [(2.0, 7.14, 2), (7.0, 87.465, 3)])
def test_heart_as_in_schoolbooks(a: float, printed: float, digits: int) -> None:
    square, two_semicircles = a * a, math.pi * (a / 2) ** 2
    assert heart_of_square(a).area_mm2 == pytest.approx(square + two_semicircles, rel=1e-14)
    assert round(square + 3.14 * (a / 2) ** 2, digits) == printed  # they take pi as 3.14
    assert heart_of_square(a).area_mm2 == pytest.approx(printed, rel=3e-4)


def test_heart_is_not_the_wrong_answer() -> None:
    assert abs(heart_of_square(2.0).area_mm2 - 6.14) > 0.9


@pytest.mark.parametrize("a", [1.0, 117.157287525381, 250.0])
def test_heart_measures(a: float) -> None:
    tier = heart_of_square(a)
    assert tier.area_mm2 == pytest.approx((1 + math.pi / 4) * a**2, rel=1e-14)
    assert tier.perimeter_mm == pytest.approx((2 + math.pi) * a, rel=1e-14)
    left, front, right, back = tier.extent_mm
    assert right - left == pytest.approx((math.sqrt(2) / 2 + 1) * a, rel=1e-14)
    assert back - front == pytest.approx((0.75 * math.sqrt(2) + 0.5) * a, rel=1e-14)
    assert tier.length_mm == pytest.approx(back - front, rel=1e-14)
    notch, point = tier.corners_mm
    assert (notch, point) == (0.0, pytest.approx(tier.perimeter_mm / 2))
    notch_to_point = math.dist(tier.point(notch)[:2], tier.point(point)[:2])
    assert notch_to_point == pytest.approx(a * math.sqrt(2), rel=1e-12)
    assert tier.area_mm2 == pytest.approx((1 + math.pi / 4) * notch_to_point**2 / 2, rel=1e-12)
    assert shapely.Polygon(tier.points(4000)).area == pytest.approx(tier.area_mm2, rel=1e-6)


@pytest.mark.parametrize("c", [1.0, 58.57864376269049])
def test_petal_measures(c: float) -> None:
    """An octagon of side c and eight semicircles of diameter c."""
    width = c * (1 + 1 / math.tan(math.pi / 8))
    tier = outline("petal", width)
    octagon = 8 * c**2 / (4 * math.tan(math.pi / 8))
    assert octagon == pytest.approx(2 * (1 + math.sqrt(2)) * c**2)
    assert tier.area_mm2 == pytest.approx(octagon + 4 * math.pi * (c / 2) ** 2, rel=1e-13)
    assert tier.perimeter_mm == pytest.approx(8 * math.pi * c / 2, rel=1e-13)
    left, front, right, back = tier.extent_mm
    assert (right - left, back - front) == pytest.approx((width, width), rel=1e-13)
    assert len(tier.notches_mm) == 8
    assert shapely.Polygon(tier.points(8000)).area == pytest.approx(tier.area_mm2, rel=1e-6)
