"""Outlines: area and side against shapely, points and directions by differences, even division with corners respected."""

from __future__ import annotations

import ast
import math
from pathlib import Path

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc.geometry.segments import ellipse_perimeter_mm
from calc.shapes import FULLEST_HEART, HEART_FULLNESS, SHAPES, SQUARE_HEART, TWO_SIZES, Heart, Outline, largest_circle, outline, outline_choices
from calc.shapes.joints import Joints, _shared

SIZES = st.floats(50, 1000)
COATS = st.floats(0, 60)
SHARES = st.floats(0, 1, exclude_max=True)


def made(shape: str, width: float, ratio: float = 1.3) -> Outline:
    return outline(shape, width, width * ratio if shape in TWO_SIZES else None)


EVERY = [made(shape, 200.0) for shape in SHAPES]
COATED = EVERY + [tier.offset(7.5) for tier in EVERY]
IDS = [f"{tier.kind}-{tier.coat_mm:g}-{tier.width_mm:.0f}" for tier in COATED]
every_outline = pytest.mark.parametrize("tier", COATED, ids=IDS)
outlines = st.builds(
    lambda shape, width, ratio, coat: made(shape, width, ratio).offset(coat), st.sampled_from(SHAPES), SIZES, st.floats(0.3, 3.0), COATS
)


@every_outline
def test_area_and_perimeter_are_those_of_a_fine_polygon(tier: Outline) -> None:
    polygon = shapely.Polygon(tier.points(6000))
    assert polygon.is_valid
    assert polygon.area == pytest.approx(tier.area_mm2, rel=3e-6)
    assert polygon.length == pytest.approx(tier.perimeter_mm, rel=3e-6)
    assert polygon.exterior.is_ccw


@every_outline
def test_extent_is_the_box_round_it(tier: Outline) -> None:
    box = shapely.Polygon(tier.points(6000)).bounds
    assert tier.extent_mm == pytest.approx(box, abs=0.01)


@every_outline
def test_starts_in_the_middle_of_the_back(tier: Outline) -> None:
    x, y, heading = tier.point(0)
    assert x == pytest.approx(0, abs=1e-9)
    assert y > 0
    assert heading == pytest.approx(math.pi)  # to the left: anticlockwise from above
    assert tier.point(tier.perimeter_mm)[:2] == pytest.approx((x, y), abs=1e-9)
    if tier.kind != "heart":
        assert y == pytest.approx(tier.extent_mm[3])


@every_outline
def test_points_even_by_arc_length_follow_the_heading(tier: Outline) -> None:
    step = tier.perimeter_mm / 977
    for k in range(977):
        x0, y0, before = tier.point(k * step)
        x1, y1, after = tier.point((k + 1) * step)
        assert math.dist((x0, y0), (x1, y1)) <= step * (1 + 1e-9)  # never further apart than along the side
        turn = abs((after - before + math.pi) % (2 * math.pi) - math.pi)
        if turn < 0.2:  # no corner between them
            heading = math.atan2(y1 - y0, x1 - x0)
            off = (heading - (before + ((after - before + math.pi) % (2 * math.pi) - math.pi) / 2) + math.pi) % (2 * math.pi)
            assert off == pytest.approx(math.pi, abs=4e-3)
            assert math.dist((x0, y0), (x1, y1)) == pytest.approx(step, rel=3e-3)


@every_outline
def test_whole_side_is_walked_once(tier: Outline) -> None:
    count = 20_000
    points = [tier.point(tier.perimeter_mm * k / count)[:2] for k in range(count)]
    walked = math.fsum(math.dist(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True))
    assert walked == pytest.approx(tier.perimeter_mm, rel=2e-4)
    assert walked <= tier.perimeter_mm * (1 + 1e-12)


@every_outline
def test_a_hair_before_a_corner_is_the_corner(tier: Outline) -> None:
    """Where rounding leaves a joint just short of a corner, or just short of once round, its heading is half-way as at the corner itself."""
    for corner in tier.corners_mm:
        x, y, heading = tier.point(corner)
        for hair in (-1e-10, 1e-10):
            assert tier.point(corner + hair * tier.perimeter_mm) == pytest.approx((x, y, heading), abs=1e-6)
    assert len(tier.corners_mm) == {"square": 4, "rectangle": 4, "hexagon": 6, "heart": 2, "petal": 8}.get(tier.kind, 0)


@pytest.mark.parametrize("width, length", [(60.0, 600.0), (900.0, 120.0), (1000.0, 1300.0)])
@pytest.mark.parametrize("coat", [0.0, 8.0])
def test_points_on_a_long_oval_are_as_far_round_as_asked(width: float, length: float, coat: float) -> None:
    """Oracle: shapely's distance along a fine polygon, whose points do not go by the length of the side."""
    oval = outline("oval", width, length).offset(coat)
    ring = oval.points(20_000)
    line = shapely.LineString([*ring, ring[0]])
    for k in range(1, 97):
        s = oval.perimeter_mm * k / 97
        assert line.project(shapely.Point(oval.point(s)[:2])) == pytest.approx(s, abs=1e-3)


@given(outlines, st.floats(-5, 5))
def test_a_point_comes_again_once_round(tier: Outline, turns: float) -> None:
    s = turns * tier.perimeter_mm
    first, again = tier.point(s), tier.point(s + tier.perimeter_mm)
    assert math.dist(first[:2], again[:2]) < 1e-6 * tier.perimeter_mm


@given(st.sampled_from(SHAPES), SIZES, st.floats(0.3, 3.0), st.floats(0.1, 10))
def test_scale(shape: str, width: float, ratio: float, factor: float) -> None:
    tier, larger = made(shape, width, ratio), made(shape, width, ratio).scaled(factor)
    assert larger.perimeter_mm == pytest.approx(tier.perimeter_mm * factor, rel=1e-9)
    assert larger.area_mm2 == pytest.approx(tier.area_mm2 * factor**2, rel=1e-9)
    assert larger.corners_mm == pytest.approx([s * factor for s in tier.corners_mm], rel=1e-9, abs=1e-9)


@given(st.sampled_from(SHAPES), SIZES, st.floats(0.3, 3.0), COATS, st.floats(0.01, 60))
def test_coats_add_up_and_grow(shape: str, width: float, ratio: float, first: float, second: float) -> None:
    tier = made(shape, width, ratio)
    at_once, in_two = tier.offset(first + second), tier.offset(first).offset(second)
    assert at_once.area_mm2 == pytest.approx(in_two.area_mm2, rel=1e-12)
    assert at_once.perimeter_mm == pytest.approx(in_two.perimeter_mm, rel=1e-12)
    assert at_once.area_mm2 > tier.offset(first).area_mm2
    assert at_once.width_mm == pytest.approx(tier.width_mm + 2 * (first + second))
    # scraping the coat off again gives the cake back
    assert at_once.offset(-first - second).area_mm2 == pytest.approx(tier.area_mm2, rel=1e-9)
    # no outline has more area for its side than a circle
    assert 4 * math.pi * at_once.area_mm2 <= at_once.perimeter_mm**2 * (1 + 1e-12)


def gaps(division: Joints, tier: Outline) -> list[float]:
    """From each joint to the next, round to the first [mm]."""
    return [b - a for a, b in zip(division.s_mm, (*division.s_mm[1:], division.s_mm[0] + tier.perimeter_mm), strict=True)]


@given(outlines, st.integers(1, 80), st.sampled_from(("corners", "middles")))
def test_joints_close(tier: Outline, repeats: int, at: str) -> None:
    division = tier.division(repeats, at)
    s = division.s_mm
    assert len(s) == repeats == len(set(s))
    assert list(s) == sorted(s)
    assert s[0] >= 0 and s[-1] < tier.perimeter_mm
    apart = gaps(division, tier)
    assert math.fsum(apart) == pytest.approx(tier.perimeter_mm, rel=1e-12)
    assert max(apart) <= min(apart) * 1.05 * (1 + 1e-6)
    if division.respected:
        anchors = tier.corners_mm if at == "corners" else tier.middles_mm
        for anchor in anchors:
            assert min(abs(anchor - joint) for joint in (*s, s[0] + tier.perimeter_mm)) < 1e-6 * tier.perimeter_mm
    else:
        assert str(repeats) in division.note


@pytest.mark.parametrize("repeats", [4, 8, 12, 20])
def test_square_has_a_joint_on_every_corner_or_at_every_middle(repeats: int) -> None:
    tier = outline("square", 200)
    assert {100.0, 300.0, 500.0, 700.0} <= set(tier.joints(repeats, "corners"))
    assert {0.0, 200.0, 400.0, 600.0} <= set(tier.joints(repeats, "middles"))
    assert tier.division(repeats).respected


@pytest.mark.parametrize("shape, of", [("square", 4), ("hexagon", 6), ("petal", 8), ("heart", 2)])
def test_numbers_that_respect_the_corners(shape: str, of: int) -> None:
    assert made(shape, 200).repeats_that_fit(1, 40) == tuple(range(of, 41, of))
    assert made(shape, 200).repeats_that_fit(1, 40, "middles") == tuple(range(of, 41, of))


def test_heart_joints_on_the_notch_and_the_point() -> None:
    tier = outline("heart", 200)
    joints = tier.joints(8)
    assert joints[0] == 0.0
    assert tier.point(joints[0])[:2] == pytest.approx((0, tier.point(0)[1]))
    assert tier.point(joints[4])[:2] == pytest.approx((0, tier.extent_mm[1]), abs=1e-9)
    assert tier.division(7).note == "7 repeats cannot put a joint on the notch and the point evenly; 6 or 8 can"
    assert tier.notches_mm == (0.0,)


def test_rectangle_shares_repeats_over_long_and_short_sides() -> None:
    tier = outline("rectangle", 200, 300)
    ten = tier.division(10)
    assert ten.respected
    assert ten.note == ""
    assert {100.0, 400.0, 600.0, 900.0} <= set(ten.s_mm)
    assert gaps(ten, tier) == pytest.approx([100.0] * 10)
    longer = outline("rectangle", 230, 330)
    other = longer.division(24)
    assert other.respected
    assert 1 < max(gaps(other, longer)) / min(gaps(other, longer)) < 1.05
    assert "differ by" in other.note
    assert not tier.division(7).respected


def test_middle_of_the_back_is_the_first_middle() -> None:
    """A rectangle whose last middle is, by the last digits, once round and not nothing."""
    tier = outline("rectangle", 242.75, 242.75 * 0.3).offset(30.35229671980275)
    assert tier.middles_mm == tuple(sorted(tier.middles_mm))
    assert tier.middles_mm[0] == 0.0
    assert tier.joints(4, "middles")[0] == 0.0


def test_smooth_outlines_start_at_the_back() -> None:
    for shape in ("round", "oval"):
        tier = made(shape, 200)
        assert tier.corners_mm == tier.middles_mm == ()
        for at in ("corners", "middles"):
            division = tier.division(7, at)
            assert division.respected
            assert division.s_mm[0] == 0.0
            assert division.note == ""


def test_corner_heading_is_halfway() -> None:
    tier = outline("square", 200)
    assert tier.point(100)[2] == pytest.approx(1.25 * math.pi)
    outwards = tier.point(100)[2] - math.pi / 2
    assert (math.cos(outwards), math.sin(outwards)) == pytest.approx((-math.sqrt(0.5), math.sqrt(0.5)))
    notch = outline("heart", 200).point(0)
    assert notch[2] == pytest.approx(math.pi)


def test_every_shape_has_its_label() -> None:
    assert tuple(value for value, _ in outline_choices) == SHAPES


@pytest.mark.parametrize(
    "shape, width, length, words",
    [
        ("star", 200, None, "a shape is one of"),
        ("round", 0, None, "positive"),
        ("round", math.nan, None, "positive"),
        ("round", math.inf, None, "positive"),
        ("rectangle", 200, None, "a rectangle has a length"),
        ("oval", 200, None, "an oval has a length"),
        ("oval", 200, 2001, "at most ten times"),
        ("heart", 200, 200, "one size"),
        ("round", 200, 150, "one size"),
        ("rectangle", 200, -1, "positive"),
    ],
)
def test_outline_refuses(shape: str, width: float, length: float | None, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        outline(shape, width, length)


@pytest.mark.parametrize(
    "tier, trim",
    [
        (made("round", 200), 100),
        (made("square", 200), 100),
        (made("rectangle", 200), 101),
        (made("hexagon", 200), 100),
        (made("oval", 200), 80),
        (outline("heart", 200, fullness=SQUARE_HEART), 18),
        (made("petal", 200), 3),
    ],
)
def test_too_much_trimmed(tier: Outline, trim: float) -> None:
    with pytest.raises(ValueError, match="so much is trimmed"):
        tier.offset(-trim)


def test_other_refusals() -> None:
    tier = made("round", 200)
    for wrong in (
        lambda: tier.division(0),
        lambda: tier.division(4, "edges"),
        lambda: tier.points(7),
        lambda: tier.scaled(0),
        lambda: tier.point(math.nan),
        lambda: made("oval", 200).point(math.inf),
        lambda: made("oval", 200).points(3),
        lambda: ellipse_perimeter_mm(-1, 1),
        lambda: ellipse_perimeter_mm(0, 0),
    ):
        with pytest.raises(ValueError):
            wrong()


@settings(max_examples=50)
@given(SIZES, st.floats(0.1, 10), COATS, SHARES)
def test_coated_oval_is_parallel(width: float, ratio: float, coat: float, share: float) -> None:
    """Every point of the coated side lies one coat outside the cake, straight out."""
    oval = outline("oval", width, width * ratio)
    coated = oval.offset(coat)
    x, y, heading = coated.point(share * coated.perimeter_mm)
    inner = (x - coat * math.cos(heading - math.pi / 2), y - coat * math.sin(heading - math.pi / 2))
    assert (inner[0] / (width / 2)) ** 2 + (inner[1] / (width * ratio / 2)) ** 2 == pytest.approx(1, abs=1e-6)


# --- sharing repeats over unequal sides -------------------------------------------------------------------------------


def ways_to_share(repeats: int, sides: int) -> list[tuple[int, ...]]:
    """Every way to give each side one repeat or more."""
    if sides == 1:
        return [(repeats,)]
    return [(first, *rest) for first in range(1, repeats - sides + 2) for rest in ways_to_share(repeats - first, sides - 1)]


@settings(max_examples=60)
@given(st.lists(st.integers(40, 400), min_size=2, max_size=4), st.integers(2, 14))
def test_no_other_way_to_share_makes_the_widest_repeat_narrower(lengths: list[int], repeats: int) -> None:
    if repeats < len(lengths):
        return
    counts = _shared(tuple(map(float, lengths)), repeats)
    assert sum(counts) == repeats and min(counts) >= 1
    widest = max(length / count for length, count in zip(lengths, counts, strict=True))
    least = min(max(length / count for length, count in zip(lengths, way, strict=True)) for way in ways_to_share(repeats, len(lengths)))
    assert widest == pytest.approx(least)


@pytest.mark.parametrize(
    "tier, repeats",
    [(outline("rectangle", 230, 330), 24), (outline("rectangle", 100, 304), 8), (outline("rectangle", 204, 100), 6), (outline("heart", 200), 10)],
)
def test_joints_are_even_along_each_side(tier: Outline, repeats: int) -> None:
    """Between two corners all repeats are alike, and their number is what the length of that side asks for."""
    division = tier.division(repeats)
    assert division.respected
    corners = [*tier.corners_mm, tier.corners_mm[0] + tier.perimeter_mm]
    found = sorted([*division.s_mm, *(s + tier.perimeter_mm for s in division.s_mm)])
    for begin, end in zip(corners, corners[1:], strict=False):
        on_side = [s for s in found if begin - 1e-6 <= s <= end + 1e-6]
        assert on_side[0] == pytest.approx(begin) and on_side[-1] == pytest.approx(end)
        pitch = (end - begin) / (len(on_side) - 1)
        assert [b - a for a, b in zip(on_side, on_side[1:], strict=False)] == pytest.approx([pitch] * (len(on_side) - 1))


@pytest.mark.parametrize("tier", [made(shape, 230.0) for shape in SHAPES if shape not in ("round", "oval")], ids=str)
@pytest.mark.parametrize("at", ["corners", "middles"])
def test_the_nearest_numbers_that_fit_are_named(tier: Outline, at: str) -> None:
    fitting = [n for n in range(1, 60) if tier.division(n, at).respected]
    assert fitting
    for repeats in range(1, 40):
        division = tier.division(repeats, at)
        if division.respected:
            assert "cannot" not in division.note
            continue
        fewer, more = max((n for n in fitting if n < repeats), default=None), min(n for n in fitting if n > repeats)
        wanted = f"{fewer} or {more} can" if fewer else f"; {more} can"
        assert division.note.endswith(wanted)
        anchors = tier.corners_mm if at == "corners" else tier.middles_mm
        assert min(abs(s - anchors[0]) for s in division.s_mm) < 1e-9, "one joint is on the first corner or middle all the same"
        assert gaps(division, tier) == pytest.approx([tier.perimeter_mm / repeats] * repeats)


def test_repeats_that_differ_by_five_per_cent_are_even_enough() -> None:
    assert outline("rectangle", 104.9, 100).division(4).respected and not outline("rectangle", 105.1, 100).division(4).respected
    assert outline("rectangle", 104.9, 100).division(4).note == "Repeats on the long and the short sides differ by 4.9 %"
    assert outline("rectangle", 200, 100).division(3).respected is False, "fewer repeats than corners"


@pytest.mark.parametrize("shape", [shape for shape in SHAPES if shape not in ("round", "oval")])
def test_a_joint_at_the_back_is_at_the_beginning(shape: str) -> None:
    """Never, by rounding, at the end of the way round."""
    for width in range(50, 450, 7):
        tier = made(shape, width / 1.1, 1.37)
        for repeats in (4, 6, 8, 24):
            for at in ("corners", "middles"):
                s = tier.joints(repeats, at)
                assert s[-1] < tier.perimeter_mm * (1 - 1e-6)
                assert s[0] < tier.perimeter_mm / repeats * 1.06


@pytest.mark.parametrize(
    "shape, width, coat, repeats",
    [("square", 58.60563109928991, 0.2975089007962206, 8), ("hexagon", 374.455624780207, 16.90021606893101, 12)],
)
def test_a_joint_that_rounds_to_once_round_is_at_the_back(shape: str, width: float, coat: float, repeats: int) -> None:
    """Half a side beyond the last corner is, by the last digits, a little less than the perimeter on these two."""
    tier = outline(shape, width).offset(coat)
    s = tier.joints(repeats)
    assert s[0] == 0.0 and len(s) == repeats
    assert [b - a for a, b in zip(s, s[1:], strict=False)] == pytest.approx([tier.perimeter_mm / repeats] * (repeats - 1))


@every_outline
def test_convex_is_what_shapely_finds(tier: Outline) -> None:
    polygon = shapely.Polygon(tier.points(400))
    assert tier.convex == (polygon.convex_hull.area - polygon.area < 1e-6 * polygon.area)
    assert bool(tier.notches_mm) == (not tier.convex)


# --- sizes and how much may be trimmed --------------------------------------------------------------------------------


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("coat", [0.0, 4.0, 11.0])
def test_width_and_length_are_those_of_the_box_round_it(shape: str, coat: float) -> None:
    tier = made(shape, 200.0).offset(coat)
    left, front, right, back = tier.extent_mm
    assert tier.length_mm == pytest.approx(back - front)
    across = right - left if shape != "hexagon" else (right - left) * math.sqrt(3) / 2  # flat to flat is front to back
    assert tier.width_mm == pytest.approx(across)


@pytest.mark.parametrize(
    "shape, most",
    [
        ("round", 100.0), ("square", 100.0), ("hexagon", 100.0),
        ("oval", 200 / 2.6),  # the tightest radius, b^2 / a
        ("heart", 200 / (1 + math.sqrt(0.5)) * (1 / 2 - 1 / math.sqrt(8))),  # the lobes no longer reach the middle
        ("petal", 200 / (1 + 1 / math.tan(math.pi / 8)) / 2 * (1 - math.cos(math.pi / 8))),  # two petals touch on the side of the octagon
    ],
)  # fmt: skip
def test_trimming_stops_where_the_outline_would_fall_apart(shape: str, most: float) -> None:
    tier = outline("heart", 200.0, fullness=SQUARE_HEART) if shape == "heart" else made(shape, 200.0)
    assert tier.offset(-0.999 * most).area_mm2 > 0
    with pytest.raises(ValueError, match="so much is trimmed"):
        tier.offset(-1.001 * most)


@pytest.mark.parametrize("width", range(50, 400, 7))
def test_petals_that_only_just_touch_are_still_one_cake(width: int) -> None:
    """Each then has a radius of r = c/2 cos(22.5) and goes on for 90 and 22.5 degrees either side: 8 r 2 (5 pi/8) = 10 pi r in all."""
    petal = outline("petal", width)
    half = width / (1 + 1 / math.tan(math.pi / 8)) / 2
    radius = half * math.cos(math.pi / 8)
    touching = petal.offset(radius - half)
    assert touching.perimeter_mm == pytest.approx(10 * math.pi * radius, rel=1e-6)
    assert touching.width_mm == pytest.approx(width - 2 * (half - radius))


def test_points_are_shared_by_length() -> None:
    heart = outline("heart", 200)
    assert len(heart.points(96)) == 96 + 2  # the two lobes, and two straight sides of one point each
    assert len(outline("petal", 200).points(96)) == pytest.approx(96, abs=9)
    assert len(outline("oval", 200, 150).points(50)) == 50
    assert all(len(point) == 2 for shape in SHAPES for point in made(shape, 200).points(8))
    for shape in SHAPES:
        with pytest.raises(ValueError, match="eight"):
            made(shape, 200).points(7)
    assert len(outline("hexagon", 200).points(8)) == 7  # the back side has a point in its middle


def test_an_oval_may_be_ten_times_as_long() -> None:
    assert outline("oval", 200, 2000).area_mm2 == pytest.approx(math.pi * 100 * 1000)
    assert outline("oval", 2000, 200).perimeter_mm == outline("oval", 200, 2000).perimeter_mm
    with pytest.raises(ValueError, match="at most ten times"):
        outline("oval", 2001, 200)


def test_a_length_that_says_the_same_is_taken() -> None:
    assert outline("square", 200, 200) == outline("square", 200)
    with pytest.raises(ValueError, match="one size"):
        outline("square", 200, 200.1)


# --- the largest circle inside -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("coat", [0.0, 6.0])
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("length", [240.0, 330.0])
def test_largest_circle_against_a_search_of_the_whole_top(shape: str, length: float, coat: float) -> None:
    """Oracle: shapely's largest inscribed circle of a fine polygon, to a hundredth of a millimetre."""
    top = outline(shape, 300.0, length if shape in TWO_SIZES else None)
    top = top.offset(coat) if coat else top
    x, y, radius = largest_circle(top)
    polygon = shapely.Polygon(top.points(2000))
    found = shapely.maximum_inscribed_circle(polygon, tolerance=0.01)
    assert radius == pytest.approx(found.length, abs=0.05)
    assert polygon.exterior.distance(shapely.Point(x, y)) == pytest.approx(radius, abs=0.01) and polygon.contains(shapely.Point(x, y))
    if shape in ("heart", "square", "round", "hexagon", "petal"):
        assert (x, y) == pytest.approx(found.coords[0], abs=0.5)


# --- how full a heart is -----------------------------------------------------------------------------------------------------


@given(st.floats(0.613, 0.78), st.floats(50, 600))
def test_a_heart_has_the_area_that_its_fullness_says(fullness: float, width: float) -> None:
    heart = outline("heart", width, fullness=fullness)
    assert heart.area_mm2 == pytest.approx(fullness * width**2, rel=1e-6) and heart.width_mm == width
    left, front, right, back = heart.extent_mm
    assert (right - left, back - front) == pytest.approx((width, heart.length_mm))
    assert shapely.Polygon(heart.points(2000)).area == pytest.approx(heart.area_mm2, rel=1e-4)
    assert isinstance(heart, Heart) and heart.scaled(1.3).area_mm2 == pytest.approx(1.69 * heart.area_mm2)
    assert heart.offset(5.0).offset(-5.0).area_mm2 == pytest.approx(heart.area_mm2)


def test_hearts_are_as_full_as_most_tins() -> None:
    """From memory: an 8 in tin, about 46 square inches."""
    assert outline("heart", 8 * 25.4).area_mm2 / 25.4**2 == pytest.approx(46, abs=0.1)
    assert outline("heart", 200) == outline("heart", 200, fullness=float(HEART_FULLNESS))


def test_the_range_that_is_told_of_a_heart_is_that_of_the_hearts_there_are() -> None:
    """From the leanest, a square with two half circles, (1 + pi/4) / (1 + sqrt(1/2))^2 = 61.26 % of the square of its width, to the fullest."""
    assert outline("heart", 200, fullness=HEART_FULLNESS.low).area_mm2 == pytest.approx(HEART_FULLNESS.low * 200**2)
    assert outline("heart", 200, fullness=HEART_FULLNESS.high).area_mm2 == pytest.approx(HEART_FULLNESS.high * 200**2)
    assert (HEART_FULLNESS.low, HEART_FULLNESS.high) == (math.ceil(100 * (1 + math.pi / 4) / (1 + math.sqrt(0.5)) ** 2) / 100, FULLEST_HEART)


@pytest.mark.parametrize("shape, fullness", [("heart", 0.5), ("heart", 0.9), ("round", 0.7)])
def test_fullness_that_no_outline_has(shape: str, fullness: float) -> None:
    with pytest.raises(ValueError, match="fullness"):
        outline(shape, 200, fullness=fullness)


def test_the_perimeter_has_one_name_wherever_it_is_read() -> None:
    """`side` where a tape may measure it instead; everything else that holds the perimeter of an outline says so, with its unit."""
    called = set()
    for path in Path(calc.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Assign):
                target, value = node.targets[0], node.value
                both = isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple)
                for name, read in zip(target.elts, value.elts, strict=True) if both else ((target, value),):
                    if isinstance(read, ast.Attribute) and read.attr == "perimeter_mm" and not isinstance(read.value, ast.Call):
                        called.add(ast.unparse(name))
    assert called == {"perimeter_mm", "side"}
