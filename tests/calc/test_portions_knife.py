"""What the knife is told, worked by hand: every step with its length, lines joined over what touches, sizes that slices are asked in."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
import shapely

from calc.geometry.polygons import Polygon, polygon_area
from calc.geometry.sweep import swept
from calc.portions import cut_plan, portion_count, strips
from calc.portions.grid import _joined, grid_bound
from calc.portions.plan import _from, counted
from calc.portions.strips import _cut_positions, _notched_count, _piece_count, _polygon_deficit_mm2, _uneven_positions, count_strips
from calc.portions.top import fine_polygon, standard_top, top_profile
from calc.shapes import Outline, outline

INCH = 25.4


def told(top: Outline, slice_mm: tuple[float, float], cut: str) -> list[str]:
    """The knife's steps in words."""
    return [step.sentence() for step in cut_plan(top, slice_mm, cut).cuts]


# --- every step with its length ---------------------------------------------------------------------------------------------


def test_steps_of_rings() -> None:
    """A ring of pi (10^2 - 5^2) cm2 gives 18 of 12.5 cm2, each 2 pi 10 / 18 = 3.49 cm along the edge; the core of 78.5 cm2 gives 6."""
    assert told(outline("round", 200), (25.0, 50.0), "rings") == [
        "Cut a circle 5 cm from the edge, straight down",
        "Cut the ring outside it into 18 equal pieces, 3.5 cm along the edge",
        "Cut the core into 6 equal wedges",
    ]
    assert told(outline("round", 10 * INCH), (INCH, 2 * INCH), "rings") == [  # 2 pi 12.7 / 25 = 3.19 cm, then 2 pi 7.62 / 12 = 3.99 cm
        "Cut a circle 5.1 cm from the edge, straight down",
        "Cut the ring outside it into 25 equal pieces, 3.2 cm along the edge",
        "Cut a circle 5.1 cm further in, straight down",
        "Cut the ring outside it into 12 equal pieces, 4 cm along the edge",
        "Keep the core whole: one piece",
    ]
    assert told(outline("round", 80), (25.0, 50.0), "rings") == ["Cut the cake into 4 equal wedges"]  # 50.3 / 12.5


def test_steps_of_wedges() -> None:
    """314 cm2 / (10 x 2.5) = 12.6, and the edge of 62.8 cm in twelfths; the edge of the hexagon is 6 x 20 / sqrt 3 = 69.3 cm."""
    assert told(outline("round", 200), (25.0, 50.0), "wedges") == ["Cut straight across through the middle 6 times, 5.2 cm apart at the edge"]
    assert told(outline("hexagon", 200), (25.0, 50.0), "wedges") == [
        "Cut from the middle to the edge 12 times, about 5.8 cm apart at the edge, the first to the back"
    ]


@pytest.mark.parametrize(
    "top, slice_mm, first, second, lines",
    [
        (outline("square", 200), (25.0, 50.0), "5 cm apart, the first through the middle", "2.5 cm", (5, 9)),
        (outline("square", 150), (50.0, 50.0), "5 cm apart, the first two to either side of the middle", "5 cm", (4, 4)),
        (outline("rectangle", 150, 100), (50.0, 60.0), "5 cm apart, the first through the middle", "6 cm", (3, 3)),
    ],
    ids=["4 x 8", "3 x 3", "2 x 2"],
)
def test_steps_of_a_grid(top: Outline, slice_mm: tuple[float, float], first: str, second: str, lines: tuple[int, int]) -> None:
    """A line more than there are rows or columns, each as far apart as the slice is deep or wide."""
    assert told(top, slice_mm, "grid") == [f"Cut straight lines from left to right, {first}", f"Cut across them from front to back, {second} apart"]
    assert tuple(len(step.lines) for step in cut_plan(top, slice_mm, "grid").cuts) == lines


def test_steps_of_strips() -> None:
    """12 cm in strips of 3.5, 5 and 3.5 cm: 42, 60 and 42 cm2 give 3, 4 and 3 of 12.5 cm2. Strips of 8 cm: 40 and 32 cm2 give 2 and 1 of 20 cm2."""
    assert told(outline("square", 120), (25.0, 50.0), "strips") == [
        "Make 2 straight cuts from left to right 5 cm apart",
        "Cut strip 1 from the front across into 3 equal pieces",
        "Cut strip 2 from the front across into 4 equal pieces",
        "Cut strip 3 from the front across into 3 equal pieces",
    ]
    assert told(outline("rectangle", 90, 80), (40.0, 50.0), "strips") == [
        "Make one straight cut from front to back",
        "Cut strip 1 from the left across into 2 equal pieces",
        "Leave strip 2 from the left whole: one piece",
    ]


def test_no_knife_goes_along_the_edge_of_a_cake_that_is_a_hair_wider_than_its_strips() -> None:
    plain = told(outline("square", 100), (25.0, 50.0), "strips")
    assert plain[0] == "Make one straight cut from left to right"
    assert told(outline("square", 100.000003), (25.0, 50.0), "strips") == plain


# --- lines and pieces ----------------------------------------------------------------------------------------------------------


def test_spans_of_one_line_are_joined_where_they_touch() -> None:
    """Beside a notch a line has two spans on either side, of the rows below it and above it, the longer one first or last."""
    assert _joined([(0, 4), (4, 6), (10, 16), (12, 14)]) == [(0, 6), (10, 16)]
    assert _joined([(12, 16), (10, 14), (0, 4)]) == [(0, 4), (10, 16)]
    assert _joined([(0, 4), (4 + 1e-7, 6)]) == [(0, 6)]  # but for rounding
    assert _joined([(0, 4), (4 + 1e-5, 6)]) == [(0, 4), (4 + 1e-5, 6)]
    assert _joined([]) == []


def test_lines_of_a_grid_reach_along_both_lobes_of_a_heart() -> None:
    """With several rows on the lobes: each edge of a piece lies on a line of the knife, and no line is longer than the pieces on it."""
    plan = cut_plan(outline("heart", 300), (20.0, 22.0), "grid")
    lines = shapely.union_all([shapely.LineString(line) for step in plan.cuts for line in step.lines])
    sides = shapely.union_all([shapely.LinearRing(piece) for piece in plan.pieces])
    assert sides.difference(lines.buffer(1e-3)).length < 0.01
    assert lines.difference(sides.buffer(1e-3)).length < 0.01


def test_pieces_of_a_strip_are_equal_to_the_last_digit() -> None:
    bar: Polygon = ((0, 0), (40, 0), (40, 10), (0, 10))
    assert _cut_positions(swept(bar), 3, 130.0, 3.0) == pytest.approx((40 / 3, 80 / 3), rel=1e-9)
    small: Polygon = ((0, 0), (3, 0), (3, 1), (0, 1))  # as in inches
    assert _cut_positions(swept(small), 4, 0.7, 0.2) == pytest.approx((0.75, 1.5, 2.25), rel=1e-9)


def test_what_a_piece_is_too_large_for_gives_none() -> None:
    bar: Polygon = ((0, 0), (40, 0), (40, 10), (0, 10))
    comb: Polygon = ((0, 0), (10, 0), (30, 0), (30, 10), (10, 10), (10, 20), (30, 20), (30, 30), (10, 30), (10, 40), (30, 40), (30, 50), (0, 50))
    for polygon in (bar, comb):
        assert _piece_count(swept(polygon), 0, 2000.0, 3.0) == 0
    assert _notched_count(outline("petal", 1000.0), False, -500.0, -480.0, 30_000.0, 60.0) == 0  # a sliver at its front


def test_the_last_piece_is_not_cut_where_too_little_is_left() -> None:
    """40 x 10 in pieces of 100: cuts at 10, 20 and 30; of 100 and a hair there is only room for three, so two cuts."""
    bar: Polygon = ((0, 0), (40, 0), (40, 10), (0, 10))
    assert _uneven_positions(swept(bar), 100.00001, 3.0) == pytest.approx((10, 20), rel=1e-5)
    assert _uneven_positions(swept(bar), 400.0, 3.0) == _uneven_positions(swept(bar), 399.0, 3.0) == ()


def test_strips_of_a_round_are_drawn_to_its_edge() -> None:
    """Strips of 5 cm fill a round of 20 cm: what the drawn pieces leave of it is less than a ten thousandth."""
    plan = cut_plan(outline("round", 200), (25.0, 50.0), "strips")
    assert [low for low, _, _ in plan.layout.parts] == pytest.approx([-100, -50, 0, 50])
    assert 0 <= plan.offcut_mm2 < 1e-4 * math.pi * 100**2


# --- sizes that slices are asked in ---------------------------------------------------------------------------------------------


def test_larger_sizes_are_whole_millimetres_and_eighths_of_an_inch() -> None:
    """Eighths above 25 mm: 8 are 25.4 mm, 9 are 28.575 mm, 10 are 31.75 mm."""
    assert _from(25.0, 32.0) == pytest.approx([25, 25.4, 26, 27, 28, 28.575, 29, 30, 31, 31.75, 32])
    assert _from(25.4, 28.6) == pytest.approx([25.4, 26, 27, 28, 28.575])  # the size itself once
    assert _from(26.0, 26.5) == [26.0]
    assert _from(26.0, 25.5) == [26.0]


def test_a_petal_that_gives_more_of_a_slice_an_eighth_of_an_inch_longer() -> None:
    """Strips of 2 in leave one piece less than strips of 2 1/8 in; so a slice of 1 1/4 by 2 in is cut a little longer."""
    petal, slice_mm = outline("petal", 10 * INCH), (1.25 * INCH, 2 * INCH)
    standard, scale = standard_top(petal)
    assert counted("strips", standard, slice_mm[0] * scale, slice_mm[1] * scale).count == 22
    plan = cut_plan(petal, slice_mm)
    assert (plan.cut, plan.count, len(plan.pieces)) == ("strips", 23, 23)
    assert plan.cut_as_mm == pytest.approx((1.25 * INCH, 2.125 * INCH))
    assert all(polygon_area(piece) >= 1.25 * 2.125 * INCH**2 * (1 - 1e-6) for piece in plan.pieces)


@pytest.mark.parametrize("width, side", [(0.6, 0.1), (600.0, 100.0)])
def test_rows_that_fit_but_for_rounding_count_in_the_bound_of_a_grid(width: float, side: float) -> None:
    """In floating point 0.3 / 0.1 is a little less than 3; six slices by six fit all the same."""
    assert grid_bound(outline("square", width), side, side) == 36 == portion_count(outline("square", width), (side, side), "grid")


# --- work ---------------------------------------------------------------------------------------------------------------------


def test_a_notched_top_costs_few_calls(counting_calls: Callable[[Callable[[], Any]], tuple[Any, int]]) -> None:
    """Where no vertical line meets a notch, equal pieces need no proof."""
    petal = outline("petal", 1000.0)
    assert count_strips(petal, 45.0, 45.0).count == 326  # and keeps what is known of the top
    _, calls = counting_calls(lambda: count_strips(petal, 45.0, 45.0))
    assert calls < 2200  # Python calls, 1,700 of them; 2,800 where each such part is proved


def test_a_strip_is_swept_only_where_its_area_does_not_settle_its_count(monkeypatch: pytest.MonkeyPatch) -> None:
    """Not without a notch in it, and not where the strip that it mirrors has been swept."""
    seen: list[tuple[float, float]] = []

    def sweep(shape: Outline, turned: bool, low: float, high: float, piece: float, neck: float) -> int:
        seen.append((low, high))
        return _notched_count(shape, turned, low, high, piece, neck)

    monkeypatch.setattr(strips, "_notched_count", sweep)
    for shape in ("heart", "petal"):
        top = outline(shape, 1000.0)
        depth = 45.12345678  # edges with more digits than strips are known by
        laid = [(depth * k, depth * (k + 1)) for k in range(-9, 9)]
        profile = top_profile(top, False)
        areas = [profile.area(low, high) for low, high in laid]
        counts = strips._strip_counts(top, False, laid, areas, [math.floor(area / depth**2) for area in areas], depth, depth, 0)
        assert counts == [sweep(top, False, low, high, depth**2, depth / 2) for low, high in laid]
        del seen[-len(laid) :]
        assert 0 < len(seen) < len(laid) / 2
        if shape == "petal":
            assert not {(-high, -low) for low, high in seen} & set(seen)
        seen.clear()


@pytest.mark.parametrize("shape", ["heart", "petal"])
@pytest.mark.parametrize("width", [1000.0, 6.0])
def test_the_bound_of_what_a_polygon_lacks_is_a_near_one(shape: str, width: float) -> None:
    """As much as it lacks or a twentieth more, so that few strips need to be swept."""
    top = outline(shape, width)
    lacks = top.area_mm2 - polygon_area(fine_polygon(top, False))
    assert 0 < lacks <= _polygon_deficit_mm2(top) < 1.05 * lacks
