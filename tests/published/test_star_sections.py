"""Sections of star-shaped openings against stars whose areas are known in closed form.

Source: E. W. Weisstein, CRC Concise Encyclopedia of Mathematics, CRC Press 1999: Regular Polygon, Hexagram, Pentagram (from memory; each
area is also derived here from triangles, step by step).
"""

from __future__ import annotations

import math

import pytest

from calc.tips import Tip, lens_section_mm2, star_section_mm2

GOLDEN = (1 + math.sqrt(5)) / 2


def test_hexagram_is_twelve_small_triangles() -> None:
    """The hexagram {6/2}: points at R = sqrt(3) a, notches at a, twelve equilateral triangles of side a, area 3 sqrt(3) a^2."""
    a = 2.0
    one = math.sqrt(3) / 4 * a * a
    assert one == pytest.approx(1.7320508075688772)
    assert 12 * one == pytest.approx(3 * math.sqrt(3) * a * a)
    assert star_section_mm2(2 * math.sqrt(3) * a, 2 * a, 6) == pytest.approx(12 * one, rel=1e-14)
    assert star_section_mm2(2 * math.sqrt(3) * a, 2 * a, 6) == pytest.approx(20.784609690826528, rel=1e-14)


def test_pentagram_has_its_notches_at_the_golden_ratio() -> None:
    """The pentagram {5/2}: notches at R / phi^2. Its area is the inner pentagon's and five golden points'."""
    outer = 1.0
    inner = outer / GOLDEN**2
    assert inner == pytest.approx(0.3819660112501051)
    pentagon = 5 / 2 * inner * inner * math.sin(2 * math.pi / 5)
    edge = 2 * inner * math.sin(math.pi / 5)
    height = outer - inner * math.cos(math.pi / 5)
    assert star_section_mm2(2 * outer, 2 * inner, 5) == pytest.approx(pentagon + 5 * edge * height / 2, rel=1e-14)
    assert star_section_mm2(2 * outer, 2 * inner, 5) == pytest.approx(1.1225699414489634, rel=1e-12)


@pytest.mark.parametrize(
    "sides, area, perimeter",
    [
        (6, 2.598076211353, 6.0),  # hexagon of side 1: published value
        (4, 2.0, 4 * math.sqrt(2)),  # square in the circle of radius 1
        (12, 3.0, 24 * math.sin(math.pi / 12)),  # the dodecagon of area 3
    ],
)
def test_a_star_without_notches_is_the_regular_polygon(sides: int, area: float, perimeter: float) -> None:
    """A = (n/2) R^2 sin(2 pi/n), P = 2 n R sin(pi/n); a star of n points with notches at R cos(pi/n) is the polygon itself."""
    assert sides / 2 * math.sin(2 * math.pi / sides) == pytest.approx(area, rel=1e-12)
    assert 2 * sides * math.sin(math.pi / sides) == pytest.approx(perimeter, rel=1e-12)
    assert star_section_mm2(2.0, 2 * math.cos(math.pi / sides), sides) == pytest.approx(area, rel=1e-12)


def test_many_points_without_notches_come_to_the_circle() -> None:
    assert star_section_mm2(2.0, 2.0, 4000) == pytest.approx(math.pi, rel=1e-6)


def test_the_lens_of_two_unit_circles_through_each_others_middles() -> None:
    """Vesica piscis of radius 1: width sqrt(3), gape 1, area 2 pi/3 - sqrt(3)/2 (Weisstein: Lens, from memory)."""
    assert 2 * math.pi / 3 - math.sqrt(3) / 2 == pytest.approx(1.2283696986087567)
    assert lens_section_mm2(math.sqrt(3), 1.0) == pytest.approx(1.2283696986087567, rel=1e-12)


def test_a_tip_uses_the_same_section() -> None:
    tip = Tip("open star", 7, points=6, inner_mm=7 / math.sqrt(3))
    assert tip.section_mm2 == pytest.approx(3 * math.sqrt(3) * (3.5 / math.sqrt(3)) ** 2, rel=1e-12)
