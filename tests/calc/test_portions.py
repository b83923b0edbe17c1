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
from calc.shapes import SHAPES, TWO_SIZES, Outline, outline
from calc.units import Say

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
    for cut in ("grid", "strips", "wedges"):
        count = portion_count(tier.scaled(factor), (first * factor, second * factor), cut)
        low, high = (portion_count(tier.scaled(factor * f), (first * factor, second * factor), cut) for f in (1 - 1e-7, 1 + 1e-7))
        assert count == portion_count(tier, (first, second), cut) or low != high


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
    from calc.portions.top import top_profile

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
    tier = outline("heart", 200)
    _, front, _, back = tier.extent_mm
    notch = tier.point(0)[1]
    from calc.portions.top import top_profile

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
    assert plan.cuts[0].sentence(Say("us")) == "Cut a circle 1 15/16 in from the edge, straight down"
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
    assert calls < 1000  # Python calls; 400 when it was written
    again, calls = counting_calls(lambda: cut_plan(outline("round", 406.4), (25.4, 50.8)))
    assert again is first
    assert calls == 2  # the lambda and the outline's hash: the plan is cached


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
    assert answer.figures["portions_two_levels"]["value"] == 2 * answer.figures["portions"]["value"]
    assert "portions_two_levels" not in calc.compute("portions", {"height": "10 cm"}).figures


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
