"""Cutting plans: whole slices only, every piece on the cake and large enough, no two on the same crumb."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

import calc
from calc.geometry.polygons import Polygon, polygon_area
from calc.geometry.sweep import swept
from calc.portions import (
    CUTS,
    SLICES,
    TINS,
    CutPlan,
    area_bound,
    cut_plan,
    grid_count,
    portion_count,
    whole_slices_in_row,
)
from calc.portions.grid import grid_bound
from calc.portions.plan import counted
from calc.portions.strips import _notched_count, _strip_cuts, _uneven_positions
from calc.portions.top import centre, top_profile
from calc.portions.wedges import wedges_bound
from calc.shapes import SHAPES, SQUARE_HEART, TWO_SIZES, Outline, outline
from calc.units import Formatter

WIDTHS = st.floats(60, 450)
SIDES = st.floats(20, 90)
RATIOS = st.floats(0.4, 2.5)


def made(shape: str, width: float, ratio: float = 1.25) -> Outline:
    return outline(shape, width, width * ratio if shape in TWO_SIZES else None)


def cuts_of(tier: Outline) -> list[str]:
    return [cut for cut in CUTS if cut != "rings" or tier.kind == "round"]


ALL_PLANS = [
    (made(shape, width), slice_mm, cut)
    for shape in SHAPES
    for width in (152.4, 250.0)
    for slice_mm in ((25.0, 50.0), (37.0, 41.0))
    for cut in cuts_of(made(shape, width))
]


def check_pieces(plan: CutPlan) -> None:
    """The drawn pieces are what was counted: whole, large enough, on the cake, and apart."""
    short, long = plan.slice_mm
    assert len(plan.pieces) == plan.count
    if not plan.count:
        return
    top = shapely.Polygon(plan.outline.points(720)).buffer(0.02)
    pieces = [shapely.Polygon(piece) for piece in plan.pieces]
    for piece in pieces:
        assert piece.is_valid
        if not plan.outline.convex:  # it does not hang by a thread: a notch ends short of the next cut
            assert piece.buffer(-2).geom_type == "Polygon"
        assert piece.area >= short * long * (1 - 1e-3)  # the polygon of a rounded piece is inscribed
        assert piece.difference(top).area < 1e-3 * piece.area
    assert shapely.union_all(pieces).area == pytest.approx(math.fsum(piece.area for piece in pieces), rel=1e-4)
    assert math.fsum(piece.area for piece in pieces) <= plan.outline.area_mm2 * (1 + 1e-9)
    assert plan.offcut_mm2 == pytest.approx(plan.outline.area_mm2 - math.fsum(piece.area for piece in pieces), abs=0.1)


@pytest.mark.parametrize(
    "tier, slice_mm, cut", ALL_PLANS, ids=[f"{tier.kind}-{tier.width_mm:.0f}-{a:.0f}x{b:.0f}-{cut}" for tier, (a, b), cut in ALL_PLANS]
)
def test_pieces_are_what_was_counted(tier: Outline, slice_mm: tuple[float, float], cut: str) -> None:
    plan = cut_plan(tier, slice_mm, cut)
    assert plan.cut in CUTS[1:]
    assert cut in ("best", plan.cut)
    check_pieces(plan)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(SHAPES), WIDTHS, RATIOS, SIDES, SIDES, st.sampled_from(CUTS))
def test_portions_never_exceed_the_top(shape: str, width: float, ratio: float, first: float, second: float, cut: str) -> None:
    tier = made(shape, width, ratio)
    if cut == "rings" and shape != "round":
        cut = "best"
    plan = cut_plan(tier, (first, second), cut)
    assert plan.count * first * second <= tier.area_mm2 * (1 + 1e-8)
    assert plan.count <= plan.area_bound == area_bound(tier, (second, first))
    check_pieces(plan)


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(SHAPES), WIDTHS, RATIOS, SIDES, SIDES)
def test_best_is_the_best(shape: str, width: float, ratio: float, first: float, second: float) -> None:
    tier = made(shape, width, ratio)
    counts = {cut: portion_count(tier, (first, second), cut) for cut in cuts_of(tier)}
    best = counts.pop("best")
    assert best == max(counts.values())
    chosen = cut_plan(tier, (first, second)).cut
    simpler = [cut for cut in CUTS[1:] if cut in counts and CUTS.index(cut) < CUTS.index(chosen)]
    assert all(counts[cut] < best for cut in simpler)  # a tie goes to the simpler cut
    assert cut_plan(tier, (second, first)).count == best  # whichever side is written first


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(SHAPES), WIDTHS, RATIOS, SIDES, SIDES, st.floats(0.2, 5))
def test_scale(shape: str, width: float, ratio: float, first: float, second: float, factor: float) -> None:
    """Cake and slice in inches or in centimetres: the count is the same, but for what fits to the last digit."""
    tier = made(shape, width, ratio)
    short, long = sorted((first, second))
    for cut in ("grid", "strips", "wedges"):  # strips for this slice; larger ones are tried in whole millimetres, whatever the cake's size
        count = counted(cut, tier.scaled(factor), short * factor, long * factor).count
        low, high = (counted(cut, tier.scaled(factor * f), short * factor, long * factor).count for f in (1 - 1e-7, 1 + 1e-7))
        assert count == counted(cut, tier, short, long).count or low != high


@settings(max_examples=60, deadline=None)
@given(WIDTHS, SIDES, SIDES, st.floats(1.0, 1.5))
def test_rings_and_wedges_of_a_wider_round(width: float, first: float, second: float, factor: float) -> None:
    short, long = sorted((first, second))
    for tier in (outline("round", width), outline("round", width * factor)):
        for inner, outer, count in cut_plan(tier, (short, long), "rings").layout.parts:
            assert count == math.floor(math.pi * (outer**2 - inner**2) / (short * long) * (1 + 1e-9) + 1e-9)
            assert outer - inner <= long * (1 + 1e-9)
    assert portion_count(outline("round", width * factor), (short, long), "wedges") >= portion_count(outline("round", width), (short, long), "wedges")


@settings(max_examples=60, deadline=None)
@given(st.floats(60, 600), st.floats(60, 600), SIDES, SIDES)
def test_sheet_is_cut_both_ways_round(width: float, length: float, first: float, second: float) -> None:
    sheet = outline("rectangle", width, length)
    ways = (
        math.floor(width / first * (1 + 1e-9)) * math.floor(length / second * (1 + 1e-9)),
        math.floor(width / second * (1 + 1e-9)) * math.floor(length / first * (1 + 1e-9)),
    )
    assert portion_count(sheet, (first, second), "grid") == max(ways)
    assert portion_count(outline("rectangle", length, width), (first, second)) == portion_count(sheet, (first, second))


def test_grid_looks_like_a_brute_force_count_on_every_outline() -> None:
    for shape in SHAPES:
        tier = made(shape, 203.0)
        top = shapely.Polygon(tier.points(3000)).buffer(1e-3)
        for middle_across in (False, True):
            for middle_deep in (False, True):
                cells = sum(
                    top.contains(shapely.box(x, y, x + 25, y + 40))
                    for i in range(-12, 12)
                    for j in range(-9, 9)
                    for x, y in [((i + middle_across / 2) * 25, (j + middle_deep / 2) * 40)]
                )
                assert grid_count(tier, 25, 40, middle_across, middle_deep) == cells, (shape, middle_across, middle_deep)


def test_strip_areas_against_shapely() -> None:
    for shape in SHAPES:
        tier = made(shape, 203.0)
        polygon = shapely.Polygon(tier.points(6000))
        for turned in (False, True):
            seen = affinity.rotate(polygon, -90, origin=(0, 0)) if turned else polygon
            profile = top_profile(tier, turned)
            assert profile.area(profile.bottom, profile.top) == pytest.approx(tier.area_mm2, rel=1e-12)
            for low in range(-120, 120, 17):
                other = seen.intersection(shapely.box(-500, low, 500, low + 23)).area
                assert profile.area(low, low + 23) == pytest.approx(other, rel=1e-5, abs=0.05)


def test_clear_stretches_of_a_heart_leave_the_notch_out() -> None:
    tier = outline("heart", 200, fullness=SQUARE_HEART)
    _, front, _, back = tier.extent_mm
    notch = tier.point(0)[1]
    above = top_profile(tier, False).clear_spans(notch + 1, notch + 5)
    assert len(above) == 2
    assert above[0][1] < 0 < above[1][0]
    assert len(top_profile(tier, False).clear_spans(notch - 30, notch - 10)) == 1
    assert top_profile(tier, False).clear_spans(front - 5, front + 20) == ()
    assert whole_slices_in_row(tier, notch + 1, notch + 5, 20) == 2 * whole_slices_in_row(tier, notch + 1, notch + 5, 20) // 2
    assert back > notch


def test_coated_oval_can_be_cut_too() -> None:
    plain, coated = outline("oval", 250, 200), outline("oval", 240, 190).offset(5)
    assert abs(portion_count(coated) - portion_count(plain)) <= 1
    check_pieces(cut_plan(coated, (25.0, 50.0), "strips"))


def test_a_piece_does_not_hang_by_a_point() -> None:
    """A strip of this petal would be cut just where a notch ends, and the piece would fall in two."""
    plan = cut_plan(outline("petal", 449), (20.0, 67.0), "strips")
    check_pieces(plan)


def test_nothing_fits_a_tiny_top() -> None:
    for cut in ("grid", "strips", "rings", "wedges", "best"):
        plan = cut_plan(outline("round", 40), (90.0, 90.0), cut)
        assert (plan.count, plan.area_bound, plan.pieces) == (0, 0, ())


def test_one_piece_is_left_whole() -> None:
    for cut in ("rings", "wedges"):
        plan = cut_plan(outline("round", 60), (45.0, 50.0), cut)
        if plan.count == 1:
            assert plan.cuts[0].sentence().startswith("Keep the cake whole")
    assert cut_plan(outline("round", 60), (45.0, 50.0), "rings").count == 1


@pytest.mark.parametrize(
    "arguments, words",
    [
        ((outline("round", 200), (25.0, 50.0), "zigzag"), "a cut is one of"),
        ((outline("square", 200), (25.0, 50.0), "rings"), "rings are cut on a round"),
        ((outline("square", 200), (0.0, 50.0), "grid"), "positive"),
        ((outline("square", 200), (25.0, math.inf), "best"), "positive"),
    ],
)
def test_refusals(arguments: tuple[Outline, tuple[float, float], str], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        cut_plan(*arguments)


def test_more_refusals() -> None:
    with pytest.raises(ValueError):
        grid_count(outline("round", 200), 0, 25)
    with pytest.raises(ValueError):
        whole_slices_in_row(outline("round", 200), 10, 10, 25)


def test_knife_lines_in_order_with_a_sentence_each() -> None:
    plan = cut_plan(outline("round", 200), (25.0, 50.0), "rings")
    words = [cut.sentence() for cut in plan.cuts]
    assert words[0] == "Cut a circle 5 cm from the edge, straight down"
    assert words[1].startswith("Cut the ring outside it into 18 equal pieces")
    assert words[2] == "Cut the core into 6 equal wedges"
    assert plan.cuts[0].sentence(Formatter("us")) == "Cut a circle 1 15/16 in from the edge, straight down"
    assert [len(cut.lines) for cut in plan.cuts] == [1, 18, 6]
    strips = cut_plan(outline("round", 200), (25.0, 50.0), "strips")
    assert strips.cuts[0].sentence().startswith("Make 3 straight cuts from left to right 5 cm apart")
    assert len(strips.cuts[0].lines) == 3


@pytest.mark.parametrize("tier", [made(shape, 230.0) for shape in SHAPES], ids=SHAPES)
def test_knife_stays_on_the_cake(tier: Outline) -> None:
    for name in cuts_of(tier):
        top = shapely.Polygon(tier.points(720)).buffer(0.5)
        plan = cut_plan(tier, (25.0, 50.0), name)
        for cut in plan.cuts:
            for line in cut.lines:
                assert len(line) >= 2
                if plan.cut != "strips" or tier.convex:  # a long cut through a petal passes its notches
                    assert top.covers(shapely.LineString(line))


def test_slices_and_tins_by_name() -> None:
    assert [known.name for known in SLICES] == ["finger", "wedding", "party", "square"]
    assert {tin.shape for tin in TINS} == set(SHAPES)
    for tin in TINS:
        assert portion_count(tin.outline, SLICES[0].sizes_mm(tin.units)) > 0
    assert [tin.label for tin in TINS if tin.shape == "rectangle" and tin.units == "us"][-1] == "Full sheet, 18 x 26 in"


def test_a_large_round_costs_few_calls_and_is_remembered(counting_calls: Callable[[Callable[[], Any]], tuple[Any, int]]) -> None:
    first, calls = counting_calls(lambda: cut_plan(outline("round", 406.4), (25.4, 50.8)))
    assert calls < 1500  # Python calls; 1,100 with nothing remembered from before
    again, calls = counting_calls(lambda: cut_plan(outline("round", 406.4), (25.4, 50.8)))
    assert again is first
    assert calls < 10  # the lambda, the outline's hash, perhaps a comparison: the plan is cached


# --- against the slow way ---------------------------------------------------------------------------------------------


def width_across(top: shapely.Polygon, y: float) -> float:
    return float(top.intersection(shapely.LineString([(-2000, y), (2000, y)])).length)


def bound_the_slow_way(tier: Outline, short: float, long: float) -> int:
    """No row holds more than fits its narrower edge, or a notch in it; the best of both ways round, a line or a row on the middle."""
    top, found = shapely.Polygon(tier.points(4000)), []
    notches = [tier.point(at)[1] for at in tier.notches_mm]
    _, bottom, _, high = top.bounds
    for across, deep in ((short, long), (long, short)):
        for start in (0.0, deep / 2):
            rows = [start + k * deep for k in range(-60, 60) if start + k * deep >= bottom and start + (k + 1) * deep <= high]
            widths = [[width_across(top, at) for at in (y, y + deep, *(n for n in notches if y <= n < y + deep))] for y in rows]
            found.append(sum(math.floor(min(wide) / across) for wide in widths))
    return max(found)


@pytest.mark.parametrize("shape", ["hexagon", "oval", "heart", "petal", "round"])
@pytest.mark.parametrize("slice_mm", [(24.7, 51.3), (33.1, 41.0), (43.9, 44.3), (21.3, 93.0)])
def test_bound_of_a_grid_against_shapely(shape: str, slice_mm: tuple[float, float]) -> None:
    for width in (204.1, 317.7):
        tier = made(shape, width)
        assert grid_bound(tier, *slice_mm) == bound_the_slow_way(tier, *slice_mm)
        assert grid_bound(tier, *slice_mm) >= portion_count(tier, slice_mm, "grid")


def test_bound_of_a_grid_that_fits_to_the_last_digit() -> None:
    assert grid_bound(outline("square", 200), 25, 50) == 32 == portion_count(outline("square", 200), (25, 50), "grid")
    assert grid_bound(outline("rectangle", 240, 160), 40, 80) == 12 == portion_count(outline("rectangle", 240, 160), (40, 80), "grid")


@pytest.mark.parametrize("shape", SHAPES)
def test_wedges_meet_in_the_middle_and_are_as_wide_as_the_slice(shape: str) -> None:
    """Mean width is area over length; no more wedges than the area gives, or than leave the longest one as wide as the slice."""
    for width in (10.0, 203.0, 331.0):
        tier = made(shape, width)
        top = shapely.Polygon(tier.points(4000))
        assert centre(tier) == pytest.approx((top.centroid.x, top.centroid.y), abs=1e-3 * width)
        assert shape == "heart" or centre(tier) == (0.0, 0.0)
        reach = shapely.Point(centre(tier)).hausdorff_distance(top)
        for share in (0.07, 0.13):
            short, long = share * width, 0.3 * width
            count = portion_count(tier, (short, long), "wedges")
            most = min(tier.area_mm2 / (reach * short), tier.area_mm2 / (short * long))
            assert math.floor(most * 0.998) <= count <= math.floor(most * 1.002)
            half = (top.bounds[3] - top.bounds[1]) / 2
            assert count <= wedges_bound(tier, short) == math.floor(tier.area_mm2 / (half * short))


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("short", [25.0, 31.0])
def test_drawn_wedges_are_equal_and_fill_the_top(shape: str, short: float) -> None:
    tier = made(shape, 203.0)
    plan = cut_plan(tier, (short, 50.0), "wedges")
    areas = [polygon_area(piece) for piece in plan.pieces]
    assert len(areas) == plan.count > 1
    assert areas == pytest.approx([polygon_area(tier.points(288)) / plan.count] * plan.count, rel=1e-9)
    for piece in plan.pieces:
        assert min(math.dist(a, b) for a, b in zip(piece, piece[1:] + piece[:1], strict=True)) > 1e-9


@pytest.mark.parametrize(
    "tier, cut", [(made(shape, 213.0), cut) for shape in SHAPES for cut in cuts_of(made(shape, 213.0)) if cut != "best"], ids=str
)
@pytest.mark.parametrize("slice_mm", [(25.0, 50.0), (38.0, 41.0)])
def test_cutting_along_every_line_frees_every_piece(tier: Outline, cut: str, slice_mm: tuple[float, float]) -> None:
    """Each edge of a piece lies on a line of the knife or on the edge of the cake."""
    plan = cut_plan(tier, slice_mm, cut)
    lines = [shapely.LineString(line) for step in plan.cuts for line in step.lines]
    cut_open = shapely.union_all([*lines, shapely.LinearRing(tier.points(720))]).buffer(0.3)
    for piece in plan.pieces:
        assert shapely.LinearRing(piece).difference(cut_open).length < 0.01


@pytest.mark.parametrize("width", [5.0, 6.0, 7.3])
def test_rings_down_to_a_small_core(width: float) -> None:
    """Rounds of a few inches cut into square inches: equal pieces in each ring, none with the core on it."""
    plan = cut_plan(outline("round", width), (1, 1), "rings")
    areas = [polygon_area(piece) for piece in plan.pieces]
    expected = [math.pi * (outer**2 - inner**2) / count for inner, outer, count in plan.layout.parts for _ in range(count)]
    assert [abs(area) for area in areas] == pytest.approx(expected, rel=2e-3)
    circles = [cut for cut in plan.cuts if "circle" in cut.words]
    inner = [low for low, _, _ in plan.layout.parts if low > 0]
    assert inner == pytest.approx([width / 2 - k - 1 for k in range(len(inner))]) and len(inner) == math.ceil(width / 2) - 1
    assert [shapely.LineString(cut.lines[0]).length for cut in circles] == pytest.approx([2 * math.pi * r for r in inner], rel=1e-3)
    assert ["further in" in cut.words for cut in circles] == [k > 0 for k in range(len(inner))]


def test_a_cake_or_a_core_kept_whole_is_a_round() -> None:
    """Its sides are all as long as each other, the last one too."""
    plan = cut_plan(outline("round", 60), (45.0, 50.0), "rings")
    (whole,) = plan.pieces
    sides = [math.dist(a, b) for a, b in zip(whole, whole[1:] + whole[:1], strict=True)]
    assert sides == pytest.approx([60 * math.sin(math.pi / len(whole))] * len(whole))
    assert [(cut.words, cut.lines) for cut in plan.cuts] == [("Keep the cake whole: one piece", ())]


@pytest.mark.parametrize("shape", [shape for shape in SHAPES if shape not in ("heart", "petal")])
def test_pieces_of_a_strip_are_equal(shape: str) -> None:
    tier = made(shape, 231.0)
    plan = cut_plan(tier, (26.0, 51.0), "strips")
    areas = sorted(shapely.Polygon(piece).area for piece in plan.pieces)
    groups = sorted((shapely.Polygon(tier.points(4000)).intersection(band).area / count, count) for band, count in bands(plan))
    assert areas == pytest.approx([area for area, count in groups for _ in range(count)], rel=2e-3)


def bands(plan: CutPlan) -> list[tuple[shapely.Polygon, int]]:
    """The strips of a plan as boxes, with the pieces that each was counted for."""
    turned = plan.layout.turned
    return [
        (shapely.box(-low, -999, -high, 999) if turned else shapely.box(-999, low, 999, high), count)
        for low, high, count in plan.layout.parts
        if count
    ]


@pytest.mark.parametrize("shape", ["heart", "petal"])
def test_strips_of_a_notched_top_lose_little(shape: str) -> None:
    """Every strip gives what the areas of its connected parts allow, but for a piece or two beside each notch."""
    for width in (203.0, 255.0, 381.0):
        for slice_mm in ((25.0, 50.0), (38.0, 51.0)):
            plan = cut_plan(outline(shape, width), slice_mm, "strips")
            top, piece = shapely.Polygon(plan.outline.points(4000)), slice_mm[0] * slice_mm[1]
            most = 0
            for band, _ in bands(plan):
                inside = top.intersection(band)
                most += sum(math.floor(part.area / piece) for part in getattr(inside, "geoms", [inside]))
            assert most - 4 <= plan.count <= most
            assert plan.count >= 0.7 * plan.area_bound


@pytest.mark.parametrize("shape, lows", [("heart", (350.0, 380.0, 400.0)), ("petal", (-500.0, -460.0, -440.0, -420.0, 260.0, 320.0, 350.0))])
@pytest.mark.parametrize("neck", [20.0, 60.0, 125.0])
def test_a_strip_divided_at_a_neck_gives_what_is_cut(shape: str, lows: tuple[float, ...], neck: float) -> None:
    """Counting only sweeps the strip, drawing clips it; both say the same, also where a notch leaves but a neck."""
    tier = outline(shape, 1000.0)
    profile = top_profile(tier, False)
    for low in lows:
        for deep in (120.0, 230.0):
            for piece in (2500.0, 7100.0, 15000.0):
                if low < profile.bottom - 1 or low + deep > profile.top + 1:
                    continue
                cut = _strip_cuts(tier, False, low, low + deep, piece, neck, None)
                assert _notched_count(tier, False, low, low + deep, piece, neck) == sum(len(xs) + 1 for _, xs in cut)


def test_one_piece_after_another() -> None:
    """Cuts at the first place where a piece is large enough and connected; never within the neck of a gap, nor one that leaves too little."""
    bar: Polygon = ((0, 0), (40, 0), (40, 10), (0, 10))
    assert _uneven_positions(swept(bar), 100.0, 3.0) == pytest.approx((10, 20, 30))
    assert _uneven_positions(swept(bar), 130.0, 3.0) == pytest.approx((13, 26))
    assert _uneven_positions(swept(bar), 201.0, 3.0) == ()
    comb: Polygon = ((0, 0), (10, 0), (30, 0), (30, 10), (10, 10), (10, 20), (30, 20), (30, 30), (10, 30), (10, 40), (30, 40), (30, 50), (0, 50))
    assert _uneven_positions(swept(comb), 100.0, 3.0) == pytest.approx((2, 4, 6))
    assert _uneven_positions(swept(comb), 100.0, 5.0) == pytest.approx((2, 4))
    turned: Polygon = tuple((-x, y) for x, y in reversed(comb))  # teeth first: the first piece takes all of them, and the neck beside
    assert _uneven_positions(swept(turned), 100.0, 3.0) == pytest.approx((-7, -5, -3))


def test_words_of_strips() -> None:
    def words(tier: Outline, short: float = 25.0) -> list[str]:
        return [cut.sentence() for cut in cut_plan(tier, (short, 50.0), "strips").cuts]

    assert words(outline("rectangle", 120, 50), 24.0) == ["Cut the cake across into 5 equal pieces"]
    assert words(outline("square", 100)) == [
        "Make one straight cut from left to right",
        "Cut strip 1 from the front across into 4 equal pieces",
        "Cut strip 2 from the front across into 4 equal pieces",
    ]
    assert words(outline("square", 150))[0] == "Make 3 straight cuts from left to right 5 cm apart"  # strips of 25, 50, 50 and 25 mm
    for shape in ("heart", "petal"):
        plan = cut_plan(outline(shape, 203.0), (25.0, 50.0), "strips")
        top = shapely.Polygon(plan.outline.points(4000))
        across = [cut.words for cut in plan.cuts if "across" in cut.words]
        whole = [top.intersection(band).geom_type == "Polygon" for band, count in bands(plan) if count > 1]
        assert [said.endswith("equal pieces") for said in across] == whole


def test_words_of_wedges() -> None:
    even = cut_plan(outline("round", 200), (25.0, 50.0), "wedges")
    odd = next(
        plan for width in range(150, 260) if (plan := cut_plan(outline("round", width), (25.0, 50.0), "wedges")).count % 2 == 1 and plan.count > 2
    )
    if even.count % 2:
        even = next(plan for width in range(150, 260) if (plan := cut_plan(outline("round", width), (25.0, 50.0), "wedges")).count % 2 == 0)
    assert even.cuts[0].words.startswith(f"Cut straight across through the middle {even.count // 2} times")
    assert len(even.cuts[0].lines) == even.count // 2
    assert all(shapely.LineString(line).length == pytest.approx(even.outline.width_mm, rel=1e-3) for line in even.cuts[0].lines)
    assert odd.cuts[0].words.startswith(f"Cut from the middle to the edge {odd.count} times")
    assert len(odd.cuts[0].lines) == odd.count


# Common practice, no source, entered a second time: slices in centimetres and in inches; tins by shape.
USUAL_SLICES = {
    "finger": ((2.5, 2.5), (1, 1)),
    "wedding": ((2.5, 5), (1, 2)),
    "party": ((4, 5), (1.5, 2)),
    "square": ((5, 5), (2, 2)),
}
USUAL_SHEETS = {"Eighth sheet": (6, 9), "Quarter sheet": (9, 13), "Half sheet": (13, 18), "Full sheet": (18, 26)}
USUAL_TINS = {
    ("one size", "metric"): ["10 cm", "15 cm", "20 cm", "25 cm", "30 cm", "35 cm", "40 cm"],
    ("one size", "us"): ["4 in", "6 in", "8 in", "10 in", "12 in", "14 in", "16 in"],
    ("rectangle", "metric"): ["20 x 30 cm", "23 x 33 cm", "30 x 40 cm", "40 x 60 cm"],
    ("rectangle", "us"): [f"{name}, {a} x {b} in" for name, (a, b) in USUAL_SHEETS.items()],
    ("oval", "metric"): ["15 x 20 cm", "20 x 25 cm", "25 x 30 cm", "30 x 35 cm", "35 x 40 cm"],
    ("oval", "us"): ["6 x 8 in", "8 x 10 in", "10 x 12 in", "12 x 14 in", "14 x 16 in"],
}


def test_slices_are_the_usual_ones() -> None:
    for known in SLICES:
        metric, inches = USUAL_SLICES[known.name]
        assert known.sizes_mm("metric") == pytest.approx([10 * side for side in metric])
        assert known.sizes_mm("us") == pytest.approx([25.4 * side for side in inches])


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("units, unit_mm", [("metric", 10.0), ("us", 25.4)])
def test_tins_are_the_usual_ones_and_as_large_as_they_say(shape: str, units: str, unit_mm: float) -> None:
    tins = [tin for tin in TINS if tin.shape == shape and tin.units == units]
    assert [tin.label for tin in tins] == USUAL_TINS[shape if shape in TWO_SIZES else "one size", units]
    for tin in tins:
        sizes = [float(size) * unit_mm for size in tin.label.split(", ")[-1].split(" ")[:-1] if size != "x"]
        assert [tin.width_mm, tin.length_mm][: len(sizes)] == pytest.approx(sizes)
        assert (tin.length_mm is None) == (len(sizes) == 1)


# --- the calculator ----------------------------------------------------------------------------------------------------


def test_calculator_answers() -> None:
    answer = calc.compute("portions", {"shape": "round", "width": "8 in", "slice": "1 x 2 in", "units": "us", "height": "4 in"})
    assert answer.problems == []
    assert answer.figures["portions"]["value"] == 24
    assert answer.figures["area_bound"]["value"] == 25
    assert answer.figures["cut"]["text"] == "rings, 25 cuts"
    assert [table["name"] for table in answer.tables] == ["knife", "cuts", "slices", "tins"]
    assert answer.drawings[0]["svg"].startswith("<svg")
    assert answer.cautions


@pytest.mark.parametrize("name, size", [("wedding", (25.0, 50.0)), ("Party", (40.0, 50.0)), ("finger, with coffee", (25.0, 25.0))])
def test_slices_by_name_in_the_calculator(name: str, size: tuple[float, float]) -> None:
    answer = calc.compute("portions", {"slice": name})
    assert answer.figures["slice_area"]["value"] == size[0] * size[1]


def test_tall_tier_is_cut_on_two_levels() -> None:
    answer = calc.compute("portions", {"height": "20 cm"})
    once = calc.compute("portions", {"height": "10 cm"}).figures["portions"]["value"]
    assert answer.figures["portions"]["value"] == answer.figures["portions_two_levels"]["value"] == 2 * once
    assert answer.figures["per_level"]["value"] == once
    assert "portions_two_levels" not in calc.compute("portions", {"height": "10 cm"}).figures


@pytest.mark.parametrize(("height", "levels"), [("10 cm", 1), ("149 mm", 1), ("15 cm", 2), ("29 cm", 2), ("30 cm", 3), ("40 cm", 3)])
def test_every_calculator_counts_a_tall_tier_on_the_same_levels(height: str, levels: int) -> None:
    once = calc.compute("portions", {"width": "15 cm"}).figures["portions"]["value"]
    order = calc.compute("order", {"tiers.0.width": "15 cm", "tiers.0.height": height, "tiers.0.layers": "6", "guests": str(levels * once)})
    stack = calc.compute("stack", {"guests": str(levels * once), "tins": "15 cm", "height": height})
    portions = calc.compute("portions", {"width": "15 cm", "height": height})
    for answer in (order, stack, portions):
        assert answer.figures["portions"]["value"] == levels * once
    assert order.figures["portions_1"]["value"] == levels * once
    assert order.figures["spare_portions"]["value"] == stack.figures["spare_portions"]["value"] == 0
    money = order.figures["per_portion"]["value"] * levels * once
    assert money == pytest.approx(order.figures["price"]["value"], abs=0.005 * levels * once + 0.01)


@pytest.mark.parametrize(
    "inputs, at, words",
    [
        ({"slice": "10 x 10 mm"}, "slice", "must be between"),
        ({"slice": "20 x 25 cm", "width": "15 cm"}, "slice", "larger than this top"),
        ({"slice": "large"}, "slice", "two lengths"),
        ({"slice": ""}, "slice", "empty"),
        ({"shape": "oval"}, "length", "needs one"),
        ({"shape": "oval", "width": "5 cm", "length": "60 cm"}, "length", "ten times"),
        ({"shape": "square", "cut": "rings"}, "cut", "cut on a round"),
        ({"cut": "grid", "slice": "12 x 13 cm", "width": "15 cm"}, "cut", "No whole slice"),
        ({"width": "-3 cm"}, "width", "must be between"),
        ({"width": "1e9 m"}, "width", "must be between"),
        ({"width": "5 kg"}, "width", "is a length"),
        ({"height": "🎂"}, "height", "is a length"),
    ],
)
def test_problems_stand_at_their_input(inputs: dict[str, str], at: str, words: str) -> None:
    answer = calc.compute("portions", inputs)
    assert [problem["input"] for problem in answer.problems] == [at]
    assert words in answer.problems[0]["message"]
    assert answer.to_dict()["figures"] == {}


def test_a_length_too_many_is_said() -> None:
    answer = calc.compute("portions", {"shape": "heart", "length": "30 cm"})
    assert any("Length is not used" in note["text"] for note in answer.notes)


# --- equal portions and whole rectangles ------------------------------------------------------------------------------


@pytest.mark.parametrize("tier", [made(shape, 203.2) for shape in SHAPES], ids=SHAPES)
def test_whole_rectangles_are_those_that_shapely_calls_so(tier: Outline) -> None:
    for cut in cuts_of(tier):
        plan = cut_plan(tier, (25.0, 50.0), cut)
        own = [shapely.Polygon(piece) for piece in plan.pieces]
        assert plan.rectangles == sum(piece.envelope.area - piece.area < 1e-6 * piece.area for piece in own)
        assert plan.cut != "grid" or plan.rectangles == plan.count
        assert plan.cut not in ("rings", "wedges") or plan.rectangles == 0


def test_six_inch_round_in_square_inches() -> None:
    """27 equal portions in rings, none of them square; the grid's whole squares are the 21 of A261849 (n = 6)."""
    assert (cut_plan(outline("round", 6), (1, 1)).count, cut_plan(outline("round", 6), (1, 1)).rectangles) == (27, 0)
    grid = cut_plan(outline("round", 6), (1, 1), "grid")
    assert grid.count == grid.rectangles == 21


@pytest.mark.parametrize(
    "cut, words",
    [("rings", "None is a whole rectangle"), ("strips", "12 are whole rectangles"), ("grid", "")],
)
def test_the_answer_says_how_many_are_rectangles(cut: str, words: str) -> None:
    answer = calc.compute("portions", {"width": "203.2 mm", "cut": cut})
    said = [note["text"] for note in answer.notes if "rectangle" in note["text"]]
    assert answer.figures["portions"]["label"] == "Equal portions"
    assert bool(said) == bool(words) and all(words in text for text in said)


# --- what a tin holds --------------------------------------------------------------------------------------------------------


def test_a_fuller_heart_gives_more_in_every_calculator() -> None:
    lean, full = ({"shape": "heart", "width": "25 cm", "fullness": fullness} for fullness in ("62 %", "75 %"))
    for slug, name, texts in (
        ("portions", "portions", {}),
        ("portions", "top_area", {}),
        ("coats", "mass", {}),
        ("stack", "weight", {"guests": "10", "tins": "25 cm"}),
    ):
        values = [
            calc.compute(slug, {k: v for k, v in one.items() if slug != "stack" or k != "width"} | texts).figures[name]["value"]
            for one in (lean, full)
        ]
        assert values[0] < values[1], (slug, name)
    orders = [calc.compute("order", {f"tiers.0.{k}": v for k, v in one.items()}).figures for one in (lean, full)]
    for name in ("portions", "buttercream", "weight", "finished_side"):
        assert orders[0][name]["value"] < orders[1][name]["value"], name


@pytest.mark.parametrize("shape", ["round", "square", "heart", "petal", "hexagon"])
def test_what_a_tin_holds_sets_its_area_wherever_a_tin_is_asked(shape: str) -> None:
    """2.6 l in a tin 10 cm deep is a top of 260 cm2."""
    tin = {"shape": shape, "width": "20 cm", "holds": "2.6 l", "deep": "10 cm"} | ({"holds": "3.6 l"} if shape == "square" else {})
    area = 36_000 if shape == "square" else 26_000
    assert calc.compute("portions", tin).figures["top_area"]["value"] == pytest.approx(area)
    plain = calc.compute("coats", tin | {"layers": "2", "filling": "10 mm"})
    assert plain.figures["filling"]["value"] == pytest.approx(area * 10 / 1000)
    assert any(note["text"].startswith("Going by what it holds") for note in plain.notes)
    order = calc.compute("order", {f"tiers.0.{k}": v for k, v in tin.items()} | {"tiers.0.layers": "2", "tiers.0.filling": "10 mm"})
    assert order.figures["filling"]["value"] == pytest.approx(area * 10 / 1000)


@pytest.mark.parametrize(
    "more, field", [({"holds": "2.8 l"}, "deep"), ({"holds": "28 l", "deep": "10 cm"}, "holds"), ({"holds": "1 l", "deep": "10 cm"}, "holds")]
)
def test_a_measure_that_no_such_tin_has_is_said_at_its_field(more: dict[str, str], field: str) -> None:
    for slug, path in (("portions", ""), ("coats", ""), ("order", "tiers.0.")):
        (problem,) = calc.compute(slug, {f"{path}{k}": v for k, v in ({"width": "20 cm"} | more).items()}).problems
        assert problem["input"] == f"{path}{field}"


# --- a larger slice -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("units_mm", [1.0, 3.175], ids=["millimetres", "eighths of an inch"])
@pytest.mark.parametrize("shape", SHAPES)
@settings(max_examples=60, deadline=None)
@given(st.floats(100, 400), st.integers(6, 60), st.integers(6, 60), st.integers(0, 12), st.integers(0, 12))
def test_a_larger_slice_never_gives_more(shape: str, units_mm: float, width: float, short: int, long: int, more: int, longer: int) -> None:
    small = (max(20.0, short * units_mm), max(20.0, long * units_mm))
    large = (small[0] + more * units_mm, small[1] + longer * units_mm)
    top = made(shape, width)
    assert portion_count(top, small) >= portion_count(top, large)
    assert portion_count(top, small, "strips") >= portion_count(top, large, "strips")


def test_a_petal_that_gave_more_of_a_larger_slice() -> None:
    petal = outline("petal", 203.2)
    smaller, larger = cut_plan(petal, (54.0, 50.0)), cut_plan(petal, (55.0, 50.0))
    assert smaller.count == larger.count == 8
    assert len(smaller.pieces) == 8 and all(polygon_area(piece) >= 54 * 50 * (1 - 1e-6) for piece in smaller.pieces)


@pytest.mark.parametrize("shape", ["round", "square", "hexagon", "oval"])
def test_a_larger_slice_never_gives_more_by_any_cut(shape: str) -> None:
    top = made(shape, 203.2)
    for cut in cuts_of(top):
        counts = {(s, w): portion_count(top, (float(s), float(w)), cut) for s in range(24, 60, 4) for w in range(s, 90, 5)}
        assert all(count >= counts[larger] for (s, w), count in counts.items() for larger in counts if larger[0] >= s and larger[1] >= w)
