"""A coat round an outline.

Sources
-------
J. Steiner, Monatsberichte der Akademie der Wissenschaften zu Berlin (1840): the parallel of a convex figure at distance t has area
A + P t + pi t^2 and perimeter P + 2 pi t. Worked values were computed for this handbook: a square of 20 with t = 0.5 gives
440.7853981633975 with rounded corners; a circle of radius 10 gives 346.3605900582747 = pi 10.5^2.
A scraped corner is sharp: four squares t x t (a quarter circle short of Steiner each) make the difference.
GEOS, through shapely, as an independent computation of parallels.
"""

from __future__ import annotations

import math

import pytest
import shapely

from calc.geometry.segments import ellipse_perimeter_mm
from calc.shapes import SQUARE_HEART, Outline, outline

STEINER = [  # area A, perimeter P, thickness, area of the parallel
    (400.0, 80.0, 0.5, 440.7853981633975),
    (math.pi * 100, 2 * math.pi * 10, 0.5, 346.3605900582747),
]


@pytest.mark.parametrize("area, perimeter, t, parallel", STEINER)
def test_steiner_as_worked(area: float, perimeter: float, t: float, parallel: float) -> None:
    steps = (area, perimeter * t, math.pi * t * t)
    assert math.fsum(steps) == pytest.approx(parallel, rel=1e-15)


def test_round_follows_steiner() -> None:
    coated = outline("round", 20).offset(0.5)
    assert coated.area_mm2 == pytest.approx(346.3605900582747, rel=1e-14)
    assert coated.perimeter_mm == pytest.approx(2 * math.pi * 10 + 2 * math.pi * 0.5, rel=1e-14)


def test_square_is_scraped_sharp() -> None:
    coated = outline("square", 20).offset(0.5)
    assert coated.area_mm2 == 441.0
    assert coated.area_mm2 - 440.7853981633975 == pytest.approx((4 - math.pi) * 0.5**2, rel=1e-12)  # the four corners
    assert coated.perimeter_mm == 84.0  # 8 t more than the cake, not 2 pi t


@pytest.mark.parametrize("width, length, t", [(200.0, 150.0, 5.0), (300.0, 100.0, 12.0), (150.0, 200.0, 0.5)])
def test_oval_follows_steiner(width: float, length: float, t: float) -> None:
    oval = outline("oval", width, length)
    area, perimeter = math.pi * width * length / 4, ellipse_perimeter_mm(width / 2, length / 2)
    assert (oval.area_mm2, oval.perimeter_mm) == pytest.approx((area, perimeter), rel=1e-14)
    coated = oval.offset(t)
    assert coated.area_mm2 == pytest.approx(area + perimeter * t + math.pi * t * t, rel=1e-14)
    assert coated.perimeter_mm == pytest.approx(perimeter + 2 * math.pi * t, rel=1e-14)
    # a coated oval is not an ellipse: one of the coated width and length is shorter round
    assert coated.perimeter_mm > ellipse_perimeter_mm(width / 2 + t, length / 2 + t)


def fine(shape: Outline) -> shapely.Polygon:
    return shapely.Polygon(shape.points(4000))


@pytest.mark.parametrize("t", [0.5, 5.0, 25.0])
@pytest.mark.parametrize("shape", ["oval", "round"])
def test_rounded_parallels_against_geos(shape: str, t: float) -> None:
    tier = outline(shape, 200, 150 if shape == "oval" else None)
    other = fine(tier).buffer(t, quad_segs=500)
    assert tier.offset(t).area_mm2 == pytest.approx(other.area, rel=3e-6)
    assert tier.offset(t).perimeter_mm == pytest.approx(other.length, rel=3e-6)
    assert fine(tier.offset(t)).symmetric_difference(other).area < 1e-5 * other.area


@pytest.mark.parametrize("t", [0.5, 5.0, 25.0])
@pytest.mark.parametrize("shape", ["square", "rectangle", "hexagon"])
def test_sharp_parallels_against_geos(shape: str, t: float) -> None:
    tier = outline(shape, 200, 300 if shape == "rectangle" else None)
    other = fine(tier).buffer(t, join_style="mitre", mitre_limit=10)
    assert tier.offset(t).area_mm2 == pytest.approx(other.area, rel=1e-12)
    assert tier.offset(t).perimeter_mm == pytest.approx(other.length, rel=1e-12)


@pytest.mark.parametrize("t", [0.5, 5.0, 25.0, 80.0])
@pytest.mark.parametrize("shape", ["heart", "petal"])
def test_notched_parallels_against_geos(shape: str, t: float) -> None:
    """A heart and a petal are not convex: Steiner does not hold, the notch fills to where the coats meet."""
    tier = outline(shape, 200, fullness=SQUARE_HEART if shape == "heart" else None)
    other = shapely.Polygon(tier.points(8000)).buffer(t, quad_segs=2000)
    if shape == "heart":  # GEOS rounds the point, a scraper leaves it sharp: t^2 - pi t^2 / 4 more
        assert tier.offset(t).area_mm2 - other.area == pytest.approx((1 - math.pi / 4) * t * t, rel=1e-4, abs=0.0015)
        assert tier.offset(t).perimeter_mm - other.length == pytest.approx((2 - math.pi / 2) * t, rel=1e-4)
    else:
        assert tier.offset(t).area_mm2 == pytest.approx(other.area, rel=1e-5)
        assert tier.offset(t).perimeter_mm == pytest.approx(other.length, rel=1e-4)
    steiner = tier.area_mm2 + tier.perimeter_mm * t + math.pi * t * t
    assert other.area < steiner * (1 - 1e-7)
