"""Plane geometry against shapely, against published formulas, and against its own definitions taken the slow way."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.geometry.polygons import Polygon, clip, close_chains, crossing, cut_vertically, polygon_area
from calc.geometry.profile import Bow, Line, Profile, ellipse_profile, polygon_profile, segment_profile
from calc.geometry.segments import Arc, Straight, ellipse_perimeter_mm, turn_between
from calc.geometry.stretches import RUN, ends_on, stretches, strip_of, strip_sweeps
from calc.geometry.sweep import Sweep, edges_of, events_of, swept
from calc.shapes import SHAPES, TWO_SIZES, outline

FAR = 1000.0


@st.composite
def stars(draw: st.DrawFn) -> Polygon:
    """A polygon that the origin sees all of, with notches in it."""
    count = draw(st.integers(3, 23))
    radii = draw(st.lists(st.integers(200, 1000), min_size=count, max_size=count))
    lean = draw(st.floats(0.01, 0.4))
    angles = [2 * math.pi * (k + lean) / count for k in range(count)]
    return tuple((r / 10 * math.cos(a), r / 10 * math.sin(a)) for r, a in zip(radii, angles, strict=True))


def half_plane(axis: int, limit: float, above: bool) -> shapely.Polygon:
    low, high = (limit, FAR) if above else (-FAR, limit)
    return shapely.box(low, -FAR, high, FAR) if axis == 0 else shapely.box(-FAR, low, FAR, high)


def parts_of(found: shapely.Geometry) -> list[shapely.Polygon]:
    """The polygons of an intersection that have an area worth counting."""
    return [part for part in getattr(found, "geoms", [found]) if part.area > 1e-6]


HOURGLASS: Polygon = ((-40, -30), (0, -4), (40, -30), (50, -20), (50, 20), (40, 30), (0, 4), (-40, 30))


def waist(wide: float) -> Polygon:
    """A bar of some width with a waist of 8 in its middle."""
    high = wide / 2
    return ((-50, 0), (-40, -high), (0, -4), (40, -high), (50, 0), (40, high), (0, 4), (-40, high))


COMB: Polygon = ((0, 0), (50, 0), (50, 30), (40, 30), (40, 10), (30, 10), (30, 30), (20, 30), (20, 10), (10, 10), (10, 30), (0, 30))


# --- segments ---------------------------------------------------------------------------------------------------------

SEGMENTS = [Straight(1.0, 2.0, 4.0, 6.0), Straight(5.0, 0.0, -7.0, 0.0), Arc(3.0, -2.0, 10.0, 0.3, 1.1), Arc(-4.0, 1.0, 2.5, 2.0, 5.0)]


def test_length_and_ends_of_a_line() -> None:
    line = Straight(1.0, 2.0, 4.0, 6.0)
    assert line.length_mm == 5.0
    assert line.at(0.0) == (1.0, 2.0, math.atan2(4, 3))
    assert line.at(2.5)[:2] == pytest.approx((2.5, 4.0))
    assert line.at(5.0)[:2] == pytest.approx((4.0, 6.0))


def test_quarter_of_a_circle() -> None:
    arc = Arc(1.0, 2.0, 10.0, 0.0, math.pi / 2)
    assert arc.length_mm == pytest.approx(5 * math.pi)
    assert arc.at(0.0)[:2] == pytest.approx((11.0, 2.0))
    assert arc.at(arc.length_mm)[:2] == pytest.approx((1.0, 12.0))
    assert arc.headings == pytest.approx((math.pi / 2, math.pi))
    # the sector of the circle, and the two triangles between the middle of the circle and the origin
    assert arc.swept_mm2 == pytest.approx(25 * math.pi + (1 * 10 + 2 * 10) / 2)


@pytest.mark.parametrize("segment", SEGMENTS, ids=str)
def test_walk_goes_along_the_heading_at_unit_speed(segment: Straight | Arc) -> None:
    step = segment.length_mm * 1e-5
    for share in (0.0, 0.3, 0.9):
        at = share * segment.length_mm
        (x0, y0, heading), (x1, y1, _) = segment.walk()(at), segment.at(at + step)
        assert (x1 - x0, y1 - y0) == pytest.approx((step * math.cos(heading), step * math.sin(heading)), abs=1e-4 * step)
    ends = segment.at(0.0)[2], segment.at(segment.length_mm)[2]
    assert ends == pytest.approx(segment.headings)


@pytest.mark.parametrize("segment", SEGMENTS, ids=str)
def test_swept_area_is_that_of_many_thin_triangles(segment: Straight | Arc) -> None:
    points = [segment.at(segment.length_mm * k / 4000)[:2] for k in range(4001)]
    triangles = math.fsum((x0 * y1 - x1 * y0) / 2 for (x0, y0), (x1, y1) in zip(points, points[1:], strict=False))
    assert segment.swept_mm2 == pytest.approx(triangles, rel=1e-5)


def test_turn_to_the_left_is_positive() -> None:
    ahead = Straight(0, 0, 1, 0)
    assert turn_between(ahead, Straight(1, 0, 1, 1)) == pytest.approx(math.pi / 2)
    assert turn_between(ahead, Straight(1, 0, 1, -1)) == pytest.approx(-math.pi / 2)
    assert turn_between(Straight(0, 0, -1, -1e-3), Straight(0, 0, -1, 1e-3)) == pytest.approx(-2e-3, rel=1e-3)  # not nearly a whole turn
    assert turn_between(ahead, Arc(1, 1, 1, -math.pi / 2, 1)) == pytest.approx(0)


@given(st.floats(0.1, 100), st.floats(0.1, 100))
def test_perimeter_of_an_ellipse_lies_between_two_bounds(a: float, b: float) -> None:
    """Between the circle of the mean half-axis and that of the root mean square."""
    found = ellipse_perimeter_mm(a, b)
    assert math.pi * (a + b) * (1 - 1e-12) <= found <= 2 * math.pi * math.sqrt((a * a + b * b) / 2) * (1 + 1e-12)
    assert found == ellipse_perimeter_mm(b, a)


def test_perimeter_of_flat_and_impossible_ellipses() -> None:
    assert ellipse_perimeter_mm(10, 0) == 40
    assert ellipse_perimeter_mm(10, 10) == pytest.approx(20 * math.pi, rel=1e-15)
    for half_axes in ((0, 0), (-1, 5), (5, -1)):
        with pytest.raises(ValueError, match="half-axis"):
            ellipse_perimeter_mm(*half_axes)


# --- polygons ---------------------------------------------------------------------------------------------------------


@given(stars())
def test_area_of_a_polygon(star: Polygon) -> None:
    assert polygon_area(star) == pytest.approx(shapely.Polygon(star).area, rel=1e-12)
    assert polygon_area(star[::-1]) == pytest.approx(-shapely.Polygon(star).area, rel=1e-12)


@given(st.floats(-9, 9), st.floats(-9, 9), st.floats(-9, 9), st.floats(-9, 9), st.floats(0, 1))
def test_crossing_lies_on_the_segment_and_on_the_line(x0: float, y0: float, x1: float, y1: float, share: float) -> None:
    for axis in (0, 1):
        a, b = (x0, y0), (x1, y1)
        assume(abs(a[axis] - b[axis]) > 1e-3)
        limit = a[axis] + share * (b[axis] - a[axis])
        found = crossing(a, b, axis, limit)
        assert found[axis] == limit
        assert math.dist(a, found) + math.dist(found, b) == pytest.approx(math.dist(a, b), abs=1e-9)


def test_crossing_stays_on_the_segment() -> None:
    assert crossing((0, 0), (10, 5), 0, 4) == (4, 2)
    assert crossing((0, 0), (10, 5), 1, 4) == (8, 4)
    assert crossing((0, 0), (10, 5), 0, 12) == (12, 5)  # beyond the end: at the end's height
    assert crossing((0, 0), (10, 5), 0, -3) == (-3, 0)
    assert crossing((3, 7), (9, 7), 1, 7) == (3, 7)  # along the line: its beginning


@settings(max_examples=60)
@given(stars(), st.sampled_from((0, 1)), st.floats(-60, 60), st.booleans())
def test_clip_against_shapely(star: Polygon, axis: int, limit: float, above: bool) -> None:
    assume(all(abs(point[axis] - limit) > 1e-6 for point in star))
    found = clip([star], axis, limit, above)
    other = parts_of(shapely.Polygon(star).intersection(half_plane(axis, limit, above)))
    assert sorted(polygon_area(part) for part in found) == pytest.approx(sorted(part.area for part in other), rel=1e-6, abs=1e-6)
    for part in found:
        assert shapely.Polygon(part).is_valid
        assert all(point[axis] >= limit - 1e-9 if above else point[axis] <= limit + 1e-9 for point in part)


def test_clip_separates_the_teeth_of_a_comb() -> None:
    teeth = clip([COMB], 1, 20.0, True)
    assert sorted(teeth) == sorted(clip(teeth, 1, 20.0, True)), "what is above stays as it is"
    assert [polygon_area(tooth) for tooth in teeth] == [100.0] * 3
    assert [polygon_area(part) for part in clip([COMB], 1, 20.0, False)] == [50 * 10 + 3 * 100]
    assert [polygon_area(part) for part in clip([COMB], 1, 30.0, False)] == [polygon_area(COMB)], "touching the line, it stays whole"
    assert clip([COMB], 1, 30.0, True) == []
    assert clip([COMB], 1, 10.0, True) and sum(map(polygon_area, clip([COMB], 1, 10.0, True))) == 600


@pytest.mark.parametrize("turns", range(7))
def test_corners_that_touch_the_line_stay_single_points(turns: int) -> None:
    """Wherever the list of points begins."""
    once: Polygon = ((-20, 5), (0, 0), (20, 5), (20, 20), (-20, 20))
    twice: Polygon = ((-20, 5), (-10, 0), (0, 5), (10, 0), (20, 5), (20, 20), (-20, 20))
    for polygon in (once, twice):
        k = turns % len(polygon)
        turned = polygon[k:] + polygon[:k]
        (found,) = clip([turned], 1, 0.0, True)
        assert len(found) == len(polygon) and set(found) == set(polygon)
        assert polygon_area(found) == polygon_area(polygon)
        (flipped,) = clip([tuple((y, -x) for x, y in turned)], 0, 0.0, True)
        assert polygon_area(flipped) == polygon_area(polygon)
        runs = stretches(turned, swept=True)
        (strip,) = strip_of(runs, 0.0, 30.0)
        assert len(strip) == len(polygon) and set(strip) == set(polygon)
        assert [sweep.area for sweep in strip_sweeps(runs, 0.0, 30.0)] == [polygon_area(polygon)]


def test_ends_half_a_millimetre_apart_stay_two_points() -> None:
    wedge: Polygon = ((0.0, -0.25), (10.0, 10.0), (-10.0, 10.0))
    (found,) = clip([wedge], 1, 0.0, True)
    assert len(found) == 4 and min(y for _, y in found) == 0.0
    assert polygon_area(found) == pytest.approx(polygon_area(wedge) - 0.25**2 * 10 / 10.25)
    twin: Polygon = ((-8.0, 10.0), (-8.0, -5.0), (-0.3, -5.0), (-0.3, 5.0), (0.3, 5.0), (0.3, -5.0), (8.0, -5.0), (8.0, 10.0))
    assert [len(part) for part in clip([twin], 1, 0.0, True)] == [8] and len(clip([twin], 1, 0.0, False)) == 2
    arch: Polygon = ((-8.5, -5.0), (-8.0, -5.0), (-8.0, 9.0), (8.0, 9.0), (8.0, -5.0), (8.5, -5.0), (8.5, 10.0), (-8.5, 10.0))
    (found,) = clip([arch], 1, 0.0, True)  # both of its legs are half a millimetre wide
    assert len(found) == 8 and polygon_area(found) == 17.0 * 10 - 16.0 * 9


def test_chains_that_do_not_close_are_refused() -> None:
    """Along a cutting line ends come in pairs; a chain that breaks off before the line is an error, not another polygon."""
    closed, broken = [(0.0, 0.0), (5.0, 5.0), (10.0, 0.0)], [(20.0, 0.0), (25.0, 5.0), (30.0, 1.0)]
    with pytest.raises(ValueError, match="zip"):
        close_chains([closed, broken], 1, (0.0,))
    with pytest.raises(ValueError, match="zip"):
        strip_sweeps(stretches(HOURGLASS, swept=False), -20.0, 20.0)  # stretches that were made without what a sweep needs


def test_a_line_along_the_bottom_or_the_top_of_a_profile() -> None:
    profile = polygon_profile(COMB)
    assert (profile.slab_index(-5.0), profile.slab_index(0.0), profile.slab_index(10.0), profile.slab_index(99.0)) == (0, 0, 1, 1)
    assert profile.area_below(0.0) == 0.0 and profile.area_below(30.0) == polygon_area(COMB) == profile.total_area
    assert profile.area_below(10.0) == 500.0 and profile.area_below(20.0) == 800.0
    assert profile.area(-10.0, 50.0) == profile.total_area
    assert profile.width_at(5.0) == 50.0 and profile.width_at(20.0) == 30.0


@given(st.integers(5, 40), st.lists(st.floats(-45, 45), min_size=1, max_size=5, unique=True))
def test_cutting_a_round_top_from_front_to_back(count: int, xs: list[float]) -> None:
    polygon = tuple((50 * math.cos(2 * math.pi * (k + 0.37) / count), 50 * math.sin(2 * math.pi * (k + 0.37) / count)) for k in range(count))
    xs = sorted(x for x in xs if all(abs(x - at) > 1e-3 for at, _ in polygon))
    xs = [x for x in xs if min(at for at, _ in polygon) < x < max(at for at, _ in polygon)]
    pieces, cuts = cut_vertically(polygon, xs)
    stops = [-FAR, *xs, FAR]
    assert len(pieces) == len(xs) + 1 and len(cuts) == len(xs)
    for piece, low, high in zip(pieces, stops, stops[1:], strict=False):
        assert polygon_area(piece) == pytest.approx(shapely.Polygon(polygon).intersection(shapely.box(low, -FAR, high, FAR)).area, rel=1e-9, abs=1e-9)
    for x, (low, high) in zip(xs, cuts, strict=True):
        line = shapely.Polygon(polygon).intersection(shapely.LineString([(x, -FAR), (x, FAR)]))
        assert low[0] == high[0] == x
        assert (low[1], high[1]) == pytest.approx((line.bounds[1], line.bounds[3]), abs=1e-9)


@pytest.mark.parametrize("turns", range(4))
def test_cutting_wherever_the_list_of_points_begins(turns: int) -> None:
    """Also where the cuts pass between its last point and its first."""
    corners: Polygon = ((0, 0), (30, 0), (30, 20), (0, 20))
    pieces, cuts = cut_vertically(corners[turns:] + corners[:turns], [10.0, 25.0])
    assert [sorted(set(piece)) for piece in pieces] == [
        [(0, 0), (0, 20), (10, 0), (10, 20)],
        [(10, 0), (10, 20), (25, 0), (25, 20)],
        [(25, 0), (25, 20), (30, 0), (30, 20)],
    ]
    assert [polygon_area(piece) for piece in pieces] == [200, 300, 100]
    assert cuts == [((10, 0), (10, 20)), ((25, 0), (25, 20))]


# --- the sweep --------------------------------------------------------------------------------------------------------


@settings(max_examples=60)
@given(stars(), st.floats(-95, 95))
def test_area_left_of_a_line_against_shapely(star: Polygon, x: float) -> None:
    sweep = swept(star)
    assert sweep.area == pytest.approx(shapely.Polygon(star).area, rel=1e-9)
    inside = min(max(x, sweep.xs[0]), sweep.xs[-1])
    left = shapely.Polygon(star).intersection(half_plane(0, inside, False)).area
    assert sweep.area_at(inside) == pytest.approx(left, rel=1e-9, abs=1e-6)
    if 1e-3 < left < sweep.area - 1e-3:
        assert sweep.area_at(sweep.x_at(left)) == pytest.approx(left, rel=1e-9, abs=1e-6)
    assume(all(abs(at - x) > 1e-6 for at, _ in star) and sweep.xs[0] < x < sweep.xs[-1])
    i = max(k for k, at in enumerate(sweep.xs) if at <= x)
    line = shapely.LineString([(x, -FAR), (x, FAR)])
    assert sweep.crossed[i] == len(parts_of(line.intersection(shapely.Polygon(star)).buffer(1e-3))) * 2
    m, c = sweep.heights[i]
    assert m * x + c == pytest.approx(line.intersection(shapely.Polygon(star)).length, abs=1e-6)


def test_edges_and_events_of_a_triangle() -> None:
    triangle: Polygon = ((0, 0), (10, 0), (10, 20))
    assert edges_of(triangle) == [(0.0, 0.0, 1), (0.0, 0.0, 0), (2.0, 0.0, -1)]
    sweep = Sweep(events_of(triangle, edges_of(triangle)))
    assert sweep.xs == [0, 10] and sweep.areas == [0.0, 100.0] and sweep.area == 100.0
    assert sweep.heights[0] == (2.0, 0.0) and sweep.crossed == [2, 0]
    assert sweep.x_at(25.0) == 5.0
    assert sweep.x_at(0.0) == 0.0 and sweep.x_at(100.0) == 10.0 and sweep.x_at(150.0) == 10.0
    assert sweep.area_at(5.0) == 25.0


def test_neck_of_an_hourglass() -> None:
    sweep = swept(HOURGLASS)
    assert sweep.xs == [-40, 0, 40, 50]
    assert sweep.neck_indices(10.0) == [1] and sweep.necks(10.0) == [0.0]
    assert sweep.neck_indices(8.0) == [], "as wide as the neck asked for is wide enough"
    assert swept(waist(10.0)).necks(9.0) == [], "a waist of 8 in a bar of 10 is no neck: it does not widen by a third"
    assert swept(waist(11.0)).necks(9.0) == [0.0]
    assert swept(waist(30.0)).necks(7.9) == []
    assert swept(((0, 0), (40, -3), (80, -30), (80, 30), (40, 3))).neck_indices(50.0) == [], "one side of a neck is no neck"


@given(stars(), st.data())
def test_part_of_a_sweep_is_the_sweep_of_that_part(star: Polygon, data: st.DataObject) -> None:
    sweep = swept(star)
    first = data.draw(st.integers(0, len(sweep.xs) - 2))
    last = data.draw(st.integers(first + 1, len(sweep.xs) - 1))
    part = sweep.between(first, last)
    assert part.xs == sweep.xs[first : last + 1] and len(part.heights) == len(part.crossed) == len(part.xs)
    assert part.area == pytest.approx(sweep.areas[last] - sweep.areas[first])
    middle = (part.xs[0] + part.xs[-1]) / 2
    assert part.area_at(middle) == pytest.approx(sweep.area_at(middle) - sweep.areas[first], abs=1e-9)
    assert part.crossed[-1] == 0 and part.heights[-1] == (0.0, 0.0)


def test_clean_spans_leave_room_beside_a_notch() -> None:
    """A cut through the back of the comb parts it in two pieces; one beside a gap would leave a sliver, one through a gap three."""
    comb = swept(tuple((y, x) for x, y in reversed(COMB)))  # lying, its teeth to the right
    assert comb.xs == [0, 10, 30]
    assert comb.crossed == [2, 6, 0]
    assert comb.clean_spans(3.0) == [(0, 7)]
    assert comb.clean_spans(10.0) == []
    assert swept(HOURGLASS).clean_spans(5.0) == [(-40, 50)]
    teeth_first = swept(tuple((-y, x) for x, y in COMB))
    assert teeth_first.clean_spans(3.0) == [(-7, 0)]


@settings(max_examples=60)
@given(stars(), st.floats(-90, 90), st.floats(1, 15))
def test_a_cut_in_a_clean_span_leaves_two_pieces(star: Polygon, x: float, neck: float) -> None:
    for low, high in swept(star).clean_spans(neck):
        if low + 1e-6 < x < high - 1e-6 and all(abs(at - x) > 1e-6 for at, _ in star):
            assert len(clip([star], 0, x, True)) == len(clip([star], 0, x, False)) == 1


# --- strips -----------------------------------------------------------------------------------------------------------


@settings(max_examples=60)
@given(stars(), st.floats(-90, 80), st.floats(2, 60))
def test_strip_against_shapely(star: Polygon, low: float, deep: float) -> None:
    high = low + deep
    assume(all(abs(y - low) > 1e-6 and abs(y - high) > 1e-6 for _, y in star))
    runs = stretches(star, swept=True)
    found = strip_of(runs, low, high)
    other = parts_of(shapely.Polygon(star).intersection(shapely.box(-FAR, low, FAR, high)))
    assert sorted(polygon_area(part) for part in found) == pytest.approx(sorted(part.area for part in other), rel=1e-6, abs=1e-5)
    sweeps = strip_sweeps(runs, low, high)
    assert sorted(sweep.area for sweep in sweeps) == pytest.approx(sorted(part.area for part in other), rel=1e-6, abs=1e-5)
    for part in found:
        own = swept(part)
        same = [sweep for sweep in sweeps if abs(sweep.xs[0] - own.xs[0]) < 1e-6 and abs(sweep.xs[-1] - own.xs[-1]) < 1e-6]
        assert any(abs(sweep.area_at(x) - own.area_at(x)) < 1e-5 for sweep in same for x in [(own.xs[0] + own.xs[-1]) / 2])


@pytest.mark.parametrize("shape", ["heart", "petal"])
@pytest.mark.parametrize("turned", [0.0, 0.4, 2.0])
def test_strips_of_a_fine_outline_skip_and_take_whole_stretches(shape: str, turned: float) -> None:
    """With more points than a stretch holds, most stretches lie wholly in a strip or wholly out of it."""
    c, s = math.cos(turned), math.sin(turned)
    polygon = tuple((c * x - s * y, s * x + c * y) for x, y in outline(shape, 200.0).points(160))
    runs, top = stretches(polygon, swept=True), shapely.Polygon(polygon)
    for k in range(-20, 20):
        for deep in (9.0, 31.0, 80.0):
            low, high = 5.0 * k + 0.123, 5.0 * k + 0.123 + deep
            other = sorted(part.area for part in parts_of(top.intersection(shapely.box(-FAR, low, FAR, high))))
            assert sorted(polygon_area(part) for part in strip_of(runs, low, high)) == pytest.approx(other, rel=1e-9, abs=1e-6)
            found = strip_sweeps(runs, low, high)
            assert sorted(sweep.area for sweep in found) == pytest.approx(other, rel=1e-9, abs=1e-6)
            assert all(min(sweep.crossed) >= 0 and sweep.crossed[-1] == 0 for sweep in found)
        line = top.intersection(shapely.LineString([(-FAR, low), (FAR, low)]))
        assert ends_on(runs, low) == (None if line.is_empty else pytest.approx((line.bounds[0], line.bounds[2]), abs=1e-9))


@pytest.mark.parametrize("turns", range(4))
def test_a_strip_that_begins_or_ends_at_a_corner_has_each_corner_once(turns: int) -> None:
    diamond: Polygon = ((10, 0), (0, 10), (-10, 0), (0, -10))
    runs = stretches(diamond[turns:] + diamond[:turns], swept=True)
    for low, high, tip in ((0.0, 20.0, (0, 10)), (-20.0, 0.0, (0, -10))):
        (half,) = strip_of(runs, low, high)
        assert len(half) == 3 and set(half) == {(10, 0), (-10, 0), tip}
        assert polygon_area(half) == 100 == strip_sweeps(runs, low, high)[0].area


def test_a_strip_of_the_comb() -> None:
    runs = stretches(COMB, swept=True)
    assert [polygon_area(part) for part in strip_of(runs, 15.0, 25.0)] == [100.0] * 3
    assert [sweep.area for sweep in strip_sweeps(runs, 15.0, 25.0)] == [100.0] * 3
    assert [polygon_area(part) for part in strip_of(runs, -5.0, 35.0)] == [polygon_area(COMB)]
    assert [sweep.area for sweep in strip_sweeps(runs, -5.0, 35.0)] == [polygon_area(COMB)]
    assert strip_of(runs, 31.0, 40.0) == [] and strip_sweeps(runs, 31.0, 40.0) == []
    back = strip_sweeps(runs, 2.0, 8.0)[0]
    assert (back.area, back.crossed[0]) == (300.0, 2)


def test_stretches_hold_every_point_once() -> None:
    polygon = tuple((math.cos(k), math.sin(k)) for k in range(3 * RUN + 1))
    runs = stretches(polygon, swept=False)
    assert tuple(point for run in runs for point in run.points) == polygon
    assert [len(run.points) for run in runs] == [RUN, RUN, RUN, 1]
    assert all(run.least == min(y for _, y in run.points) and run.most == max(y for _, y in run.points) for run in runs)
    assert all(run.events == run.edges == () for run in runs)
    full = stretches(polygon, swept=True)
    edges = edges_of(polygon)
    assert [edge for run in full for edge in run.edges] == [edges[-1], *edges[:-1]], "the edge that leads to each point"
    assert [event for run in full for event in run.events] == events_of(polygon, edges)


@settings(max_examples=60)
@given(stars(), st.floats(-90, 90))
def test_ends_of_a_cut_across_a_polygon(star: Polygon, y: float) -> None:
    assume(all(abs(at - y) > 1e-5 for _, at in star))
    ends = ends_on(stretches(star, swept=False), y)
    line = shapely.Polygon(star).intersection(shapely.LineString([(-FAR, y), (FAR, y)]))
    if line.is_empty:
        assert ends is None
    else:
        assert ends == pytest.approx((line.bounds[0], line.bounds[2]), abs=1e-9)


def test_a_line_that_only_touches_has_no_ends() -> None:
    diamond: Polygon = ((10, 0), (0, 10), (-10, 0), (0, -10))
    runs = stretches(diamond, swept=False)
    assert ends_on(runs, 10.0) is None and ends_on(runs, -10.0) is None
    assert ends_on(runs, 0.0) == (-10, 10)
    assert ends_on(runs, 9.0) == pytest.approx((-1, 1))


# --- profiles ---------------------------------------------------------------------------------------------------------


@settings(max_examples=60)
@given(stars(), st.floats(-110, 110), st.floats(1, 50))
def test_profile_of_a_polygon_against_shapely(star: Polygon, low: float, deep: float) -> None:
    profile, top = polygon_profile(star), shapely.Polygon(star)
    assert (profile.bottom, profile.top) == pytest.approx((top.bounds[1], top.bounds[3]))
    assert profile.total_area == pytest.approx(top.area, rel=1e-9)
    assert profile.area_below(low) == pytest.approx(top.intersection(half_plane(1, low, False)).area, rel=1e-7, abs=1e-6)
    strip = top.intersection(shapely.box(-FAR, low, FAR, low + deep)).area
    assert profile.area(low, low + deep) == pytest.approx(strip, rel=1e-7, abs=1e-6)
    assert profile.areas([(low, low + deep), (low + deep, low + 2 * deep)])[0] == profile.area(low, low + deep)
    if profile.bottom + 1e-6 < low < profile.top - 1e-6 and all(abs(y - low) > 1e-6 for _, y in star):
        line = top.intersection(shapely.LineString([(-FAR, low), (FAR, low)]))
        assert profile.width_at(low) == pytest.approx(line.length, rel=1e-7, abs=1e-6)


def clear_the_slow_way(top: shapely.Polygon, low: float, high: float) -> list[tuple[float, float]]:
    """Where a strip is wholly inside: what no part of it outside the polygon lies above or below."""
    strip = shapely.box(-FAR, low, FAR, high)
    outside = strip.difference(top)
    blocked = shapely.union_all([shapely.box(part.bounds[0], 0, part.bounds[2], 1) for part in getattr(outside, "geoms", [outside])])
    # each part of the outside may be wide only at one height, so it is looked at as its own shadow on the line
    free = shapely.box(-FAR, 0, FAR, 1).difference(blocked)
    return sorted((part.bounds[0], part.bounds[2]) for part in parts_of(free))


@settings(max_examples=60)
@given(stars(), st.floats(-80, 70), st.floats(2, 40))
def test_clear_spans_against_the_shadow_of_what_is_outside(star: Polygon, low: float, deep: float) -> None:
    high = low + deep
    profile, top = polygon_profile(star), shapely.Polygon(star)
    assume(all(abs(y - low) > 1e-4 and abs(y - high) > 1e-4 for _, y in star))
    found = [span for span in profile.clear_spans(low, high) if span[1] - span[0] > 1e-6]
    if low < profile.bottom or high > profile.top:
        assert found == []
        return
    expected = [span for span in clear_the_slow_way(top, low, high) if span[1] - span[0] > 1e-5]
    assert len(found) == len(expected)
    for one, other in zip(found, expected, strict=True):
        assert one == pytest.approx(other, abs=1e-4)


def test_clear_spans_at_flats_and_ends() -> None:
    profile = polygon_profile(COMB)
    assert profile.clear_spans(0.0, 10.0) == ((0, 50),)
    assert profile.clear_spans(10.0, 30.0) == ((0, 10), (20, 30), (40, 50))
    assert profile.clear_spans(5.0, 15.0) == ((0, 10), (20, 30), (40, 50)), "the flat between two teeth blocks what lies over it"
    assert profile.clear_spans(-1.0, 5.0) == () and profile.clear_spans(25.0, 31.0) == ()


def test_is_plain_where_no_notch_lies_in_the_strip() -> None:
    notched = segment_profile([Straight(*a, *b) for a, b in zip(COMB, COMB[1:] + COMB[:1], strict=True)], notches=(10.0, 10.0))
    assert notched.widths_at_notches == pytest.approx([30.0, 30.0])  # three teeth
    assert notched.is_plain(0.0, 9.0)
    assert not notched.is_plain(5.0, 12.0) and not notched.is_plain(10.0, 20.0)
    assert not notched.is_plain(12.0, 20.0), "three teeth are not connected"
    assert polygon_profile(HOURGLASS).is_plain(-20.0, -10.0) is False


def test_a_notch_in_the_side_on_either_edge_of_a_strip() -> None:
    """A strip that only touches the notch is not plain: a vertical cut could end in its point."""
    corners: Polygon = ((0, -10), (20, -10), (10, 0), (20, 10), (0, 10))
    notched = segment_profile([Straight(*a, *b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)], notches=(0.0,))
    assert [notched.is_plain(low, high) for low, high in ((-8, 0), (0, 8), (-3, 3))] == [False] * 3
    assert [notched.is_plain(low, high) for low, high in ((-8, -1), (1, 8), (-10, -2), (2, 10))] == [True] * 4


def test_clear_spans_do_not_depend_on_the_unit() -> None:
    """The comb in tenths of a metre: a strip between two whole numbers, one that lies wholly in the teeth."""
    small = polygon_profile(tuple((x / 100, y / 100) for x, y in COMB))
    for low, high in ((12.0, 28.0), (2.0, 9.0), (5.0, 15.0)):
        expected = [x / 100 for span in polygon_profile(COMB).clear_spans(low, high) for x in span]
        assert [x for span in small.clear_spans(low / 100, high / 100) for x in span] == pytest.approx(expected)
    assert len(small.clear_spans(0.12, 0.28)) == 3


def test_the_floor_of_a_slot_that_is_off_the_level_by_rounding_still_blocks() -> None:
    """A slot a twentieth of a millimetre wide, its floor tilted by the least that a float can hold."""
    floor, tilted = 1000.0, math.nextafter(1000.0, math.inf)
    block: Polygon = ((0, 900), (100, 900), (100, 1005), (50.05, 1005), (50.05, tilted), (50.0, floor), (50.0, 1005), (0, 1005))
    found = [x for span in polygon_profile(block).clear_spans(940.0, 1004.0) for x in span]
    assert found == pytest.approx([0, 50.0, 50.05, 100])


@pytest.mark.parametrize("start", [-3.0, -math.pi / 2, -0.7, 0.0, 0.4, 1.2, math.pi / 2, 1.9, 2.8, 4.4])
@pytest.mark.parametrize("arcs", [1, 2, 3, 7])
@pytest.mark.parametrize("turned", [False, True])
def test_profile_of_a_circle_of_arcs_that_begin_anywhere(start: float, arcs: int, turned: bool) -> None:
    sweep = 2 * math.pi / arcs
    profile = segment_profile([Arc(3.0, -2.0, 10.0, start + k * sweep, sweep) for k in range(arcs)], turned=turned)
    cx, cy = (-2.0, -3.0) if turned else (3.0, -2.0)
    assert (profile.bottom, profile.top) == pytest.approx((cy - 10, cy + 10))
    assert profile.total_area == pytest.approx(100 * math.pi)
    for y in (-9.0, -6.0, -0.1, 0.0, 2.8, 8.0, 9.6):
        half = math.sqrt(100 - y * y)
        assert profile.chord(cy + y) == pytest.approx((cx - half, cx + half))
        assert profile.width_at(cy + y) == pytest.approx(2 * half)
        assert profile.area_below(cy + y) == pytest.approx(100 * (math.pi / 2 + math.asin(y / 10)) + y * half)


def test_an_arc_is_cut_only_at_its_lowest_and_highest_place() -> None:
    """A half circle between them is one curve; from left to right over the top it is two."""
    assert len(segment_profile([Arc(0, 0, 10, -math.pi / 2, math.pi), Straight(0, 10, 0, -10)]).curves) == 2
    assert len(segment_profile([Arc(0, 0, 10, 0.0, math.pi), Straight(-10, 0, 10, 0)]).curves) == 2
    assert len(segment_profile([Arc(0, 0, 10, -math.pi / 2, 2 * math.pi)]).curves) == 2


@given(st.floats(5, 200), st.floats(5, 200), st.floats(-0.999, 0.999))
def test_profile_of_an_ellipse(a: float, b: float, share: float) -> None:
    profile, y = ellipse_profile(a, b), share * b
    half = a * math.sqrt(1 - share * share)
    assert profile.chord(y) == pytest.approx((-half, half))
    assert profile.width_at(y) == pytest.approx(2 * half)
    assert profile.total_area == pytest.approx(math.pi * a * b)
    assert profile.area_below(y) == pytest.approx(a * b * (math.pi / 2 + share * math.sqrt(1 - share * share) + math.asin(share)))
    assert profile.chord(2 * b) == pytest.approx((0, 0), abs=1e-6 * a) and profile.chord(-2 * b) == pytest.approx((0, 0), abs=1e-6 * a)


@pytest.mark.parametrize("shape", [shape for shape in SHAPES if shape not in TWO_SIZES])
@pytest.mark.parametrize("turned", [False, True])
def test_profile_of_lines_and_arcs_is_that_of_a_fine_polygon(shape: str, turned: bool) -> None:
    tier = outline(shape, 200.0)
    profile = segment_profile(tier.segments, turned=turned)
    fine = polygon_profile(tuple((y, -x) if turned else (x, y) for x, y in tier.points(4000)))
    assert (profile.bottom, profile.top) == pytest.approx((fine.bottom, fine.top), abs=1e-3)
    for k in range(1, 40):
        y = profile.bottom + (profile.top - profile.bottom) * (k + 0.137) / 40.3
        assert profile.width_at(y) == pytest.approx(fine.width_at(y), abs=0.05)
        assert profile.area_below(y) == pytest.approx(fine.area_below(y), rel=1e-4)
        mine, other = ([x for span in one.clear_spans(y, y + 7) if span[1] - span[0] > 0.5 for x in span] for one in (profile, fine))
        assert mine == pytest.approx(other, abs=0.05)


def test_curves_of_a_profile() -> None:
    line = Line(0.0, 10.0, 5.0, 25.0, True)
    assert (line.x(5.0), line.area(10.0), line.area(5.0)) == (15.0, 150.0, 50.0)
    assert line.span(2.0, 4.0) == (9.0, 13.0) and Line(0.0, 10.0, 25.0, 5.0, True).span(2.0, 4.0) == (17.0, 21.0)
    bow = Bow(-10.0, 10.0, 3.0, 0.0, 20.0, 10.0, True)
    assert bow.x(0.0) == 23.0 and bow.x(6.0) == pytest.approx(3 + 20 * 0.8)
    assert bow.span(-6.0, 8.0) == pytest.approx((3 + 20 * 0.6, 23.0)), "its widest place lies between"
    assert bow.span(6.0, 8.0) == pytest.approx((3 + 20 * 0.6, 3 + 20 * 0.8))
    assert Bow(-10.0, 10.0, 3.0, 0.0, -20.0, 10.0, False).span(-6.0, 8.0) == pytest.approx((-17.0, 3 - 20 * 0.6))
    assert bow.area(6.0) - bow.area(-6.0) == pytest.approx(3 * 12 + 20 * 10 * (0.6 * 0.8 + math.asin(0.6)))


def test_profile_merges_ends_that_differ_by_rounding() -> None:
    curves = [Line(0.0, 10.0, -5.0, -5.0, False), Line(0.0, 10.0 + 4e-10, 5.0, 5.0, True)]
    profile = Profile(curves)
    assert profile.ends == [0.0, 10.0] and len(profile.slabs) == 1
    assert profile.total_area == pytest.approx(100.0)
