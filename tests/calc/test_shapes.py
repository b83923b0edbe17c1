"""Outlines: area and side against shapely, points and directions by differences, even division with corners respected."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.geometry.segments import ellipse_perimeter_mm
from calc.shapes import SHAPES, TWO_SIZES, Outline, outline, outline_choices

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


@given(outlines, st.integers(1, 80), st.sampled_from(("corners", "middles")))
def test_joints_close(tier: Outline, repeats: int, at: str) -> None:
    division = tier.division(repeats, at)
    s = division.s_mm
    assert len(s) == repeats == len(set(s))
    assert list(s) == sorted(s)
    assert s[0] >= 0 and s[-1] < tier.perimeter_mm
    gaps = [b - a for a, b in zip(s, (*s[1:], s[0] + tier.perimeter_mm), strict=True)]
    assert math.fsum(gaps) == pytest.approx(tier.perimeter_mm, rel=1e-12)
    assert min(gaps) == pytest.approx(division.pitch_low_mm, rel=1e-6)
    assert max(gaps) == pytest.approx(division.pitch_high_mm, rel=1e-6)
    assert max(gaps) <= min(gaps) * 1.05 * (1 + 1e-6)
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
    assert ten.pitch_low_mm == ten.pitch_high_mm == 100.0
    other = outline("rectangle", 230, 330).division(24)
    assert other.respected
    assert other.pitch_high_mm / other.pitch_low_mm < 1.05
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
        (made("heart", 200), 18),
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
