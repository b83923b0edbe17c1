"""Stacks against a brute force, supports, weights and lifting."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

import calc
from calc.calculators.stack_form import read_tins
from calc.calculators.supports_form import body_of, read_tiers
from calc.drawing.scene import Group, Path
from calc.drawing.supports_plan import DOWEL, supports_scene
from calc.portions import portion_count
from calc.shapes import SHAPES, SQUARE_HEART, TWO_SIZES, Outline, largest_circle, outline
from calc.stack import (
    STACKS_SHOWN,
    TIERS_MOST,
    Body,
    Mass,
    Stack,
    Stacking,
    boxes,
    cautions,
    centre_rod_mm,
    check_weight,
    dowel_count,
    dowel_points,
    largest_stack,
    lift,
    lift_limit_g,
    needed_portions,
    seat_mm,
    stacks,
    stands_on,
    supports,
    tier_mass_g,
    where_stacked,
)
from calc.units import Formatter, Problem

SLICE = (25.0, 50.0)


def rounds(*widths: float) -> tuple[Outline, ...]:
    return tuple(outline("round", width) for width in widths)


# --- choosing ----------------------------------------------------------------------------------------------------------


def brute_force(
    need: int, tins: tuple[Outline, ...], keep_top: bool, low: float, high: float, tiers: int | None, kitchen: Outline | None
) -> list[tuple[float, tuple[float, ...]]]:
    """Every stack, looked at one by one."""
    found = []
    each = portion_count(kitchen, SLICE) if kitchen else 0
    ordered = sorted(tins, key=lambda tin: -tin.width_mm)
    for size in range(2 if keep_top else 1, TIERS_MOST + 1):
        if tiers is not None and size != tiers:
            continue
        for chain in itertools.combinations(ordered, size):
            steps = [a.width_mm - b.width_mm for a, b in zip(chain, chain[1:], strict=False)]
            if any(not low - 1e-6 <= step <= high + 1e-6 for step in steps):
                continue
            counts = [portion_count(tin, SLICE) for tin in chain]
            total = sum(counts[:-1] if keep_top else counts)
            cakes = 0
            if total < need:
                if not each:
                    continue
                cakes = math.ceil((need - total) / each)
            if tiers is None:  # not built higher than it needs to be
                below = [sum(counts[: k - 1] if keep_top else counts[:k]) for k in range(2 if keep_top else 1, size)]
                if any(part >= need for part in below):
                    continue
            uneven = (max(steps) - min(steps)) / 10 if steps else 0.0
            spare = 100 * (total + cakes * each - need) / need
            found.append((spare + uneven + size + cakes, tuple(tin.width_mm for tin in chain)))
    return sorted((round(penalty, 6), widths) for penalty, widths in found)


@settings(max_examples=120, deadline=None)
@given(
    st.integers(1, 500),
    st.lists(st.sampled_from(range(100, 500, 25)), min_size=1, max_size=9, unique=True),
    st.booleans(),
    st.sampled_from((0, 25, 50)),
    st.sampled_from((50, 100, 400)),
    st.one_of(st.none(), st.integers(1, 7)),
    st.booleans(),
)
def test_ranked_as_a_brute_force_would(
    guests: int, widths: list[int], keep_top: bool, low: int, high: int, tiers: int | None, with_kitchen: bool
) -> None:
    tins = rounds(*map(float, widths))
    if keep_top and tiers == 1:
        tiers = 2
    kitchen = outline("rectangle", 300, 400) if with_kitchen else None
    found = stacks(guests, tins, SLICE, 0.0, keep_top, low, high, tiers, kitchen)
    wanted = brute_force(guests, tins, keep_top, low, high, tiers, kitchen)[:STACKS_SHOWN]
    assert [round(stack.penalty, 6) for stack in found] == [penalty for penalty, _ in wanted]
    for stack in found:
        check_stack(stack, guests, keep_top, low, high)
    if not found:
        assert largest_stack(tins, SLICE, keep_top, low, high, tiers) < guests


def check_stack(stack: Stack, guests: int, keep_top: bool, low: float, high: float) -> None:
    assert stack.portions >= guests
    assert stack.spare_portions == stack.portions - guests
    assert stack.counts == tuple(portion_count(tin, SLICE) for tin in stack.tiers)
    assert stack.kept_portions == (stack.counts[-1] if keep_top else 0)
    assert len(stack.steps_mm) == len(stack.tiers) - 1
    assert all(low - 1e-6 <= step <= high + 1e-6 for step in stack.steps_mm)
    assert 1 <= len(stack.tiers) <= TIERS_MOST


def test_demo_guests() -> None:
    """36 guests: a 20 cm and a 15 cm round give 24 + 13."""
    best = stacks(36, rounds(100, 150, 200, 250, 300))[0]
    assert [tin.width_mm for tin in best.tiers] == [200, 150]
    assert (best.counts, best.portions, best.spare_portions) == ((24, 13), 37, 1)


def test_kept_top_is_not_counted() -> None:
    best = stacks(36, rounds(100, 150, 200, 250, 300), keep_top=True)[0]
    assert best.portions == sum(best.counts[:-1]) >= 36
    assert len(best.tiers) >= 2


@pytest.mark.parametrize("guests, spare, need", [(36, 0, 36), (36, 10, 40), (100, 5, 105), (7, 100, 14), (1, 0.1, 2)])
def test_needed_portions(guests: int, spare: float, need: int) -> None:
    assert needed_portions(guests, spare) == need
    assert stacks(guests, rounds(150, 200, 250, 300, 350), SLICE, spare)[0].portions >= need


def test_largest_stack() -> None:
    assert largest_stack(rounds(100, 200, 300), SLICE) == sum(portion_count(tin, SLICE) for tin in rounds(100, 200, 300))
    assert largest_stack(rounds(100, 350), SLICE) == portion_count(outline("round", 350), SLICE)  # the step is too wide
    assert largest_stack(rounds(100, 350), SLICE, tiers=2) == 0


def test_seven_tiers_and_two_thousand_guests_are_searched_with_pruning(counting_calls: Callable[[Callable[[], Any]], tuple[Any, int]]) -> None:
    """Twenty tins with every step allowed make 137,979 stacks; pruning looks at few of them."""
    tins = tuple(outline("square", 100.0 + 25 * k) for k in range(20))
    sheet = outline("rectangle", 300, 400)
    for tin in (*tins, sheet):
        portion_count(tin, (25.0, 25.0))
    most = 0
    for guests in (1, 60, 300, 700, 1200, 2000):
        for tiers in (None, 7):
            for kitchen in (None, sheet):
                found, calls = counting_calls(lambda g=guests, t=tiers, k=kitchen: stacks(g, tins, (25.0, 25.0), 0.0, False, 10.0, 500.0, t, k))
                most = max(most, calls)
                assert found
    assert most < 400_000  # Python calls; 183,000 when it was written


def test_stack_refusals() -> None:
    for wrong in (
        lambda: stacks(0, rounds(200)),
        lambda: stacks(10, rounds(200), tiers=8),
        lambda: stacks(10, rounds(200), tiers=0),
        lambda: largest_stack(rounds(200), SLICE, tiers=9),
        lambda: needed_portions(5, -1),
    ):
        with pytest.raises(ValueError):
            wrong()


# --- weights -----------------------------------------------------------------------------------------------------------


def test_tier_weight_step_by_step() -> None:
    """15 cm round, 10 cm high: 1767 ml, of it 300 ml buttercream at 1 g/ml; 0.415 g/ml, 0.28 to 0.46."""
    body = Body(outline("round", 150), 100, buttercream_g=300)
    sponge = math.pi * 7.5**2 * 10 - 300
    assert sponge == pytest.approx(1467.1, abs=0.05)
    mass = tier_mass_g(body)
    assert mass.middle_g == pytest.approx(sponge * 0.415 + 300)
    assert mass.low_g == pytest.approx(sponge * 0.28 + 255)
    assert mass.high_g == pytest.approx(sponge * 0.46 + 345)
    assert Mass(1, 2, 3) + Mass(4, 5, 6) == Mass(5, 7, 9)


@settings(max_examples=60)
@given(st.sampled_from(SHAPES), st.floats(80, 500), st.floats(30, 300), st.floats(0, 3000), st.floats(1.01, 2))
def test_weights_grow(shape: str, width: float, height: float, buttercream: float, factor: float) -> None:
    tier = outline(shape, width, width * 1.2 if shape in TWO_SIZES else None)
    sponge = tier.area_mm2 * height / 1000
    mass = tier_mass_g(Body(tier, height, sponge, buttercream))
    assert 0 < mass.low_g < mass.middle_g < mass.high_g
    more = tier_mass_g(Body(tier, height, sponge * factor, buttercream * factor))
    assert more.middle_g == pytest.approx(mass.middle_g * factor)


def test_body_from_tin_and_coat() -> None:
    """A 20 cm round 10 cm high, 12 mm filling and 6 mm coat: 377 ml filling, 600 ml coat."""
    body = body_of(outline("round", 200), 100, 6, 12, 1.0)
    filling = math.pi * 100**2 * 12 / 1000
    coat = (math.pi * 106**2 * 106 - math.pi * 100**2 * 100) / 1000
    assert (round(filling), round(coat)) == (377, 600)
    assert body.buttercream_g == pytest.approx(filling + coat)
    assert body.sponge_ml == pytest.approx(math.pi * 100**2 * 88 / 1000)
    assert (body.height_mm, body.outline.width_mm) == (106, 212)


def test_weight_refusals() -> None:
    tier = outline("round", 200)
    for body in (Body(tier, 0), Body(tier, 100, -1), Body(tier, 100, 100, -1)):
        with pytest.raises(ValueError):
            tier_mass_g(body)


# --- lifting -----------------------------------------------------------------------------------------------------------


@given(st.floats(50, 1200), st.floats(50, 1200))
def test_wider_is_harder_to_lift(first: float, second: float) -> None:
    narrow, wide = sorted((first, second))
    assert lift_limit_g(wide) <= lift_limit_g(narrow) <= 20_700


def test_lift_in_words() -> None:
    assert lift(4_000, 300).words().startswith("one person")
    assert lift(18_000, 300).words().startswith("two people")
    assert "carry the tiers separately" in lift(60_000, 300).words(Formatter("us"))
    for wrong in (lambda: lift(-1, 300), lambda: lift_limit_g(0)):
        with pytest.raises(ValueError):
            wrong()


# --- supports ----------------------------------------------------------------------------------------------------------


def tower(*widths: float, shape: str = "round") -> list[Body]:
    return [body_of(outline(shape, width, width * 1.2 if shape in TWO_SIZES else None), 100, 6, 12, 1.0) for width in widths]


def test_supports_tier_by_tier() -> None:
    bodies = tower(300, 200, 150)
    low, middle, top = supports(bodies)
    assert (low.board_width_mm, middle.board_width_mm, top.board_width_mm) == pytest.approx((412, 212, 162))
    assert (low.dowels, middle.dowels, top.dowels) == (6, 4, 0)  # 4 + 1 for 212 mm + 1 for a second tier; 4; none
    assert (low.dowel_length_mm, middle.dowel_length_mm, top.dowel_length_mm) == (106, 106, 0)
    masses = [tier_mass_g(body).middle_g for body in bodies]
    assert low.carried_g == pytest.approx(masses[1] + masses[2])
    assert middle.carried_g == pytest.approx(masses[2])
    assert top.carried_g == 0
    assert low.low_g < low.mass_g < low.high_g
    assert centre_rod_mm(bodies) == pytest.approx(298)
    assert centre_rod_mm(bodies[:2]) is None
    assert centre_rod_mm([Body(outline("round", 200), 200), Body(outline("round", 150), 150)]) == 330
    assert supports(bodies, border_mm=0)[0].board_width_mm == pytest.approx(312)


@example("rectangle", [40.0, 41.0, 500.0, 501.0])
@settings(max_examples=80, deadline=None)
@given(st.sampled_from(SHAPES), st.lists(st.floats(40, 600), min_size=2, max_size=7, unique=True))
def test_dowels_stand_under_the_board_they_carry(shape: str, widths: list[float]) -> None:
    bodies = tower(*sorted(widths, reverse=True), shape=shape)
    for lower, upper, stand in zip(bodies, bodies[1:], supports(bodies), strict=False):
        assert stand.dowels == len(stand.dowel_points) >= 4
        board = shapely.Polygon(upper.outline.points(288)).buffer(1e-6)
        cake = shapely.Polygon(lower.outline.points(288)).buffer(1e-6)
        for x, y in stand.dowel_points:
            assert board.contains(shapely.Point(x, y))
            assert cake.contains(shapely.Point(x, y))
        for x, y in stand.dowel_points:  # the same left and right
            assert min(math.dist((-x, y), other) for other in stand.dowel_points) < 1e-6


@given(st.floats(40, 900), st.floats(0, 200), st.integers(1, 6))
def test_more_dowels_for_more_cake(width: float, more: float, tiers: int) -> None:
    assert dowel_count(outline("round", width), tiers) <= dowel_count(outline("round", width + more), tiers)
    assert dowel_count(outline("round", width), tiers) + 1 == dowel_count(outline("round", width), tiers + 1)


def test_inch_and_centimetre_tins_get_the_same_dowels() -> None:
    for inches, cm in ((6, 15), (8, 20), (10, 25), (12, 30), (16, 40)):
        assert dowel_count(outline("round", inches * 25.4)) == dowel_count(outline("round", cm * 10))


@pytest.mark.parametrize(
    "width, dowels", [(100, 4), (150, 4), (174, 4), (176, 5), (200, 5), (224, 5), (226, 6), (250, 6), (300, 7), (400, 9), (450, 10), (500, 11)]
)
def test_one_dowel_more_for_each_further_five_centimetres(width: float, dowels: int) -> None:
    """Four up to 15 cm (common practice, no source); half a step up is the next, so that inch tins count as the tins next to them."""
    assert dowel_count(outline("round", width)) == dowels
    assert dowel_count(outline("rectangle", 100, width)) == dowels, "the longer way counts"


def test_a_cake_of_exactly_the_heaviest_weight_is_made() -> None:
    """150 kg is the most, as the words say: a gram more is refused."""
    (stand,) = supports(tower(300))
    halves = [replace(stand, mass_g=75_000.0), replace(stand, mass_g=75_000.0)]
    check_weight(halves, "tiers", "Tiers", Formatter())
    with pytest.raises(Problem, match="150 kg is the most"):
        check_weight([*halves, replace(stand, mass_g=1.0)], "tiers", "Tiers", Formatter())


def test_support_refusals() -> None:
    for wrong in (
        lambda: supports([]),
        lambda: supports(tower(150, 200)),
        lambda: dowel_count(outline("round", 200), 0),
        lambda: dowel_points(outline("round", 200), 0),
    ):
        with pytest.raises(ValueError):
            wrong()


@pytest.mark.parametrize(
    "lower, upper, wanted",
    [
        (("square", 200), ("round", 200), True),
        (("round", 200), ("square", 200), False),
        (("round", 200), ("square", 141), True),
        (("hexagon", 200), ("round", 199), True),
        (("heart", 300), ("round", 150), True),
        (("heart", 200), ("round", 190), False),
        (("petal", 250), ("round", 190), True),
        (("petal", 250), ("round", 240), False),
        (("heart", 250), ("heart", 200), True),
        (("square", 200), ("petal", 195), True),
        (("square", 200), ("hexagon", 190), False),
    ],
)
def test_what_stands_on_what(lower: tuple[str, float], upper: tuple[str, float], wanted: bool) -> None:
    low, high = outline(*lower), outline(*upper)
    assert stands_on(low, high) is wanted
    over = shapely.Polygon(high.points(720)).difference(shapely.Polygon(low.points(720)).buffer(0.05)).area
    assert (over < 1) is wanted


def test_drawing_shows_every_dowel_where_it_stands() -> None:
    bodies = tower(300, 200, 150, shape="heart")
    stands = supports(bodies)
    scene = supports_scene(bodies, stands, "us")
    assert len(scene.items) == 2  # the uppermost tier carries nothing
    for group, stand in zip(scene.items, stands, strict=False):
        assert isinstance(group, Group)
        dots = [item for item in group.items if isinstance(item, Path) and item.style == DOWEL]
        assert len(dots) == stand.dowels
        middles = [tuple((min(v) + max(v)) / 2 for v in zip(*(part[-2:] for part in dot.parts if len(part) > 2), strict=True)) for dot in dots]
        apart = [math.dist(middles[0], other) for other in middles]
        wanted = [math.dist(stand.dowel_points[0], other) for other in stand.dowel_points]
        assert apart == pytest.approx(wanted, abs=1e-6)  # to scale
    with pytest.raises(ValueError, match="no tier carries"):
        supports_scene(bodies[:1], stands[2:])


def test_cautions_say_what_matters() -> None:
    words = " ".join(cautions(supports(tower(300, 200, 150)), Stacking("home")))
    assert "Count the 10 dowels and 3 boards in" in words
    assert "wire" in words and "local rules" in words
    stands = supports(tower(500, 450, 400, 350, 300, 250, 200))
    heavy = " ".join(cautions(stands, where_stacked(stands, 742)))
    assert "Carry the tiers separately" in heavy
    assert "you chose to stack it at home" in " ".join(cautions(stands, Stacking("home", "asked")))
    assert "Supports are not food" not in " ".join(cautions(supports(tower(200)), Stacking("single")))
    assert cautions((), Stacking("single")) == ()


# --- at home or at the venue ------------------------------------------------------------------------------------------


@given(
    st.lists(st.integers(10, 60).map(lambda w: w * 10.0), min_size=1, max_size=7), st.sampled_from(["suits", "home", "venue"]), st.integers(40, 300)
)
@settings(deadline=None)
def test_where_it_is_stacked_is_one_decision(widths: list[float], wanted: str, high: int) -> None:
    """Boxes, cautions and the decision agree; left open, nobody is asked to lift what two people should not, nor what is over 40 cm high."""
    bodies = [body_of(outline("round", width), high, 6, 12, 1.0) for width in sorted(widths, reverse=True)]
    stands, height = supports(bodies), sum(body.height_mm for body in bodies)
    stacking = where_stacked(stands, height, wanted)
    packed = boxes(bodies, stands, stacking)
    assert sorted(tier for box in packed for tier in box.tiers) == list(range(len(bodies))), "each tier travels once"
    assert (len(packed) > 1) == stacking.apart and stacking.apart == (stacking.where == "venue")
    assert ("Carry the tiers separately" in " ".join(cautions(stands, stacking))) == stacking.apart
    if len(bodies) == 1:
        assert stacking.where == "single"
    elif wanted != "suits":
        assert (stacking.where, stacking.reason) == (wanted, "asked")
    elif stacking.where == "home":
        assert stands[0].lift_whole.people in (1, 2) and height <= 400
    else:
        assert stands[0].lift_whole.people == 0 or height > 400
    for box in packed:
        assert box.lift == (stands[box.tiers[0]].lift if stacking.apart or len(bodies) == 1 else stands[0].lift_whole)


def test_a_heavy_cake_is_carried_apart_and_a_light_one_whole() -> None:
    """By hand: 40 + 30 + 20 cm of sponge and coat may weigh over the 19 kg that two people should lift on a board of 51 cm."""
    heavy, light = supports(tower(450, 350, 250)), supports(tower(200, 150))
    assert where_stacked(heavy, 318) == Stacking("venue", "weight") and heavy[0].lift_whole.people == 0
    assert where_stacked(light, 212) == Stacking("home") and where_stacked(light, 401) == Stacking("venue", "height")
    with pytest.raises(ValueError):
        where_stacked(light, 212, "anywhere")
    with pytest.raises(ValueError):
        boxes(tower(200), light, Stacking("home"))


# --- the calculators ---------------------------------------------------------------------------------------------------


def test_supports_calculator() -> None:
    answer = calc.compute("supports", {"tiers": "8x4 in round; 6x4 in round"})
    assert answer.problems == []
    figures = answer.figures
    assert figures["board"]["value"] == pytest.approx(8 * 25.4 + 10 + 100)
    assert figures["board_2"]["value"] == pytest.approx(6 * 25.4 + 10)
    assert figures["dowels"]["value"] == 4
    assert figures["dowel_length"]["value"] == pytest.approx(4 * 25.4 + 5)
    assert figures["weight"]["low"] < figures["weight"]["value"] < figures["weight"]["high"]
    assert answer.drawings[0]["svg"].startswith("<svg")
    alone = calc.compute("supports", {"tiers": "15 x 10 cm"})
    assert alone.figures["dowels"]["value"] == 0
    assert alone.drawings == []


@pytest.mark.parametrize(
    "text, sizes",
    [
        ("8x4 in round; 6x4 in round", [("round", 203.2, 203.2, 101.6), ("round", 152.4, 152.4, 101.6)]),
        ('10" x 5" square', [("square", 254.0, 254.0, 127.0)]),
        ("30 x 10; 20 x 10", [("round", 300, 300, 100), ("round", 200, 200, 100)]),
        ("round 20 cm x 100 mm\nheart 15 by 8 cm", [("round", 200, 200, 100), ("heart", 150, 151.109, 80)]),
        ("12x9x4 in sheet; 6 x 4 in hex", [("rectangle", 304.8, 228.6, 101.6), ("hexagon", 152.4, 152.4, 101.6)]),
        ("25 × 20 × 10 cm oval", [("oval", 250, 200, 100)]),
    ],
)
def test_tiers_as_they_are_typed(text: str, sizes: list[tuple[str, float, float, float]]) -> None:
    found = read_tiers(text, "metric")
    assert [tier.sponge.kind for tier in found] == [kind for kind, *_ in sizes]
    for tier, (_, width, length, height) in zip(found, sizes, strict=True):
        assert (tier.sponge.width_mm, tier.sponge.length_mm, tier.height_mm) == pytest.approx((width, length, height), abs=1e-3)


@pytest.mark.parametrize(
    "inputs, at, words",
    [
        ({"tiers": ""}, "tiers", "empty"),
        ({"tiers": ";;"}, "tiers", "empty"),
        ({"tiers": "abc"}, "tiers", "width x height"),
        ({"tiers": "8x4x4 in round"}, "tiers", "width x height"),
        ({"tiers": "8x4 in rectangle"}, "tiers", "width x length x height"),
        ({"tiers": "6x4 in round; 8x4 in round"}, "tiers", "wider than tier 1"),
        ({"tiers": "8x4 in round; 8x4 in square"}, "tiers", "hangs over"),
        ({"tiers": "8x4 kg round"}, "tiers", "is a length"),
        ({"tiers": "-8x4 in round"}, "tiers", "must be between"),
        ({"tiers": "8x0 in round"}, "tiers", "must be between"),
        ({"tiers": "60x4x10 cm oval"}, "tiers", "ten times"),
        ({"tiers": ";".join(["8x4 in"] * 8)}, "tiers", "7 is the most"),
        ({"filling": "12 cm"}, "filling", "must be less"),
        ({"coat": "1 m"}, "coat", "must be between"),
    ],
)
def test_supports_problems(inputs: dict[str, str], at: str, words: str) -> None:
    answer = calc.compute("supports", inputs)
    assert [problem["input"] for problem in answer.problems] == [at]
    assert words in answer.problems[0]["message"]


def test_stack_calculator() -> None:
    answer = calc.compute("stack", {"guests": "36"})
    assert answer.problems == []
    assert answer.figures["portions"]["value"] == 37
    assert answer.figures["spare_portions"]["value"] == 1
    assert answer.figures["tiers"]["text"] == "20 cm + 15 cm"
    assert [table["name"] for table in answer.tables] == ["tiers", "stacks"]
    kept = calc.compute("stack", {"guests": "36", "keep_top": "yes", "spare": "10 %"})
    assert kept.figures["portions"]["value"] >= 40
    assert kept.figures["kept_portions"]["value"] > 0
    us = calc.compute("stack", {"guests": "60", "units": "us", "slice": "1 x 2 in"})
    assert us.figures["tiers"]["text"].count("in") == us.figures["tiers"]["value"]


@pytest.mark.parametrize("shape", SHAPES)
def test_stack_of_every_shape(shape: str) -> None:
    answer = calc.compute("stack", {"guests": "50", "shape": shape})
    assert answer.problems == []
    assert answer.figures["portions"]["value"] >= 50


def test_kitchen_cakes_make_up_the_number() -> None:
    answer = calc.compute("stack", {"guests": "2000", "kitchen": "yes"})
    assert answer.figures["portions"]["value"] >= 2000
    assert answer.figures["kitchen_cakes"]["value"] > 10


@pytest.mark.parametrize(
    "inputs, at, words",
    [
        ({"guests": "2000"}, "guests", "the largest stack of these tins gives"),
        ({"guests": "0"}, "guests", "must be between"),
        ({"guests": "36.5"}, "guests", "whole number"),
        ({"tins": "30 cm", "tier_count": "2"}, "tier_count", "can stand on each other"),
        ({"tins": "30 cm", "keep_top": "yes"}, "tins", "can stand on each other"),
        ({"keep_top": "yes", "tier_count": "1"}, "tier_count", "leaves nothing"),
        ({"step_low": "12 cm"}, "step_low", "must not be more"),
        ({"tins": "1 cm"}, "tins", "must each be between"),
        ({"tins": "abc"}, "tins", "is a length"),
        ({"shape": "oval", "tins": "20 cm"}, "tins", "two lengths"),
        ({"shape": "oval", "tins": "5 x 60 cm"}, "tins", "ten times"),
        ({"tins": "10 cm", "slice": "20 x 20 cm"}, "slice", "comes out of these tins"),
        ({"spare": "101"}, "spare", "must be between"),
    ],
)
def test_stack_problems(inputs: dict[str, str], at: str, words: str) -> None:
    answer = calc.compute("stack", inputs)
    assert [problem["input"] for problem in answer.problems] == [at]
    assert words in answer.problems[0]["message"]


@pytest.mark.parametrize(
    "text, shape, widths",
    [
        ("15, 20 and 25 cm", "round", [150, 200, 250]),
        ("6, 8, 10 in", "round", [152.4, 203.2, 254]),
        ("15; 20", "square", [150, 200]),
        ('6" and 8"', "heart", [152.4, 203.2]),
        ("20 x 15 cm; 25 x 20 cm", "oval", [200, 250]),
        ("", "round", [100, 150, 200, 250, 300, 350, 400]),
    ],
)
def test_tins_as_they_are_typed(text: str, shape: str, widths: list[float]) -> None:
    assert [tin.width_mm for tin in read_tins(text, shape, "metric")] == pytest.approx(widths)


def test_too_many_tins() -> None:
    with pytest.raises(Problem, match="up to 20"):
        read_tins(";".join(["20 cm"] * 21), "round", "metric")


# --- words of the lift ------------------------------------------------------------------------------------------------


def test_a_board_too_wide_for_one_person_says_so() -> None:
    """Beyond 63 cm before the ankles the equation gives 0; a limit that is told is never told as next to nothing."""
    wide = lift(5_000, 1000)
    assert wide.limit_g == 0 and wide.people == 0
    assert "nobody should lift a board of this width alone" in wide.words()
    narrow = lift(5_000, 300)
    assert f"at most about {Formatter().mass(round(narrow.limit_g, -2))}" in narrow.words() and "nobody" not in narrow.words()
    assert "two people" in lift(16_000, 300).words() and "carry the tiers separately" in lift(25_000, 300).words()


def test_stacks_ask_for_no_spare_portions_unless_told() -> None:
    tins = rounds(100, 150, 200, 250)
    assert stacks(37, tins, SLICE)[0].portions == stacks(37, tins, SLICE, 0.0)[0].portions
    exact = next(guests for guests in range(30, 60) if stacks(guests, tins, SLICE)[0].spare_portions == 0)
    assert stacks(exact, tins, SLICE)[0].portions == exact, "with nothing to spare, every portion is for a guest"


def test_steps_of_more_than_ten_centimetres_are_taken_only_when_told() -> None:
    assert stacks(20, rounds(100, 205), SLICE, tiers=2) == ()
    assert stacks(20, rounds(100, 200), SLICE, tiers=2) != ()
    assert stacks(20, rounds(100, 205), SLICE, step_high_mm=105.0, tiers=2) != ()


# --- where a tier stands -----------------------------------------------------------------------------------------------------


def test_a_round_stands_on_a_heart_where_there_is_room_for_it() -> None:
    """A 20 cm round on a lean 30 cm heart hangs over when middle is on middle, and fits some millimetres further back."""
    assert seat_mm(outline("heart", 300, fullness=SQUARE_HEART), outline("round", 200)) == pytest.approx(8.45, abs=0.01)
    answer = calc.compute("supports", {"tiers": "30x10 cm heart; 23.5x10 cm round"})
    assert not answer.problems
    assert any("behind the middle of tier 1" in note["text"] for note in answer.notes)
    order = {"tiers.0.shape": "heart", "tiers.0.width": "30 cm", "tiers.1.width": "23.5 cm", "tiers.0.name": "Heart", "tiers.1.name": "Round"}
    cake = calc.compute("order", order)
    assert not cake.problems and any("Round stands" in note["text"] for note in cake.notes)


@given(st.floats(150, 400), st.floats(100, 400), st.sampled_from(SHAPES), st.sampled_from(SHAPES))
def test_where_a_tier_stands_it_stands_wholly(wide: float, narrow: float, lower: str, upper: str) -> None:
    """Oracle: shapely's polygons, one inside the other grown by a thousandth."""
    below, above = (outline(shape, width, width * 1.2 if shape in TWO_SIZES else None) for shape, width in ((lower, wide), (upper, narrow)))
    back = seat_mm(below, above)
    if back is None:
        circle = largest_circle(below)
        assert above.kind != "round" or narrow / 2 > circle[2] * (1 - 1e-3)  # a round that fits the largest circle is never refused
        return
    moved = shapely.Polygon([(x, y + back) for x, y in above.points(200)])
    assert shapely.Polygon(below.points(400)).buffer(0.002 * wide).contains(moved)


def test_dowels_stand_under_the_tier_that_they_carry() -> None:
    heart, round_tier = outline("heart", 300, fullness=SQUARE_HEART), outline("round", 200)
    low, _ = supports([Body(heart, 100), Body(round_tier, 100)])
    middle = math.fsum(y for _, y in low.dowel_points) / len(low.dowel_points)
    assert low.seat_mm == seat_mm(heart, round_tier) and low.seat_mm > 1 and middle == pytest.approx(low.seat_mm, abs=0.5)


def test_a_straight_side_over_a_notch_does_not_stand_wholly() -> None:
    """All corners of the rectangle are over petals, and its long sides pass over the notches between them."""
    petal, rectangle = outline("petal", 158), outline("rectangle", 100, 120)
    outside = shapely.Polygon(rectangle.points(200)).difference(shapely.Polygon(petal.points(2000)))
    assert outside.area > 40
    assert seat_mm(petal, rectangle) is None
    assert seat_mm(petal, outline("rectangle", 90, 100)) == 0


# --- small figures by hand ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("widths", [(150.0, 200.0), (150.0, 250.0)])
def test_a_step_of_exactly_the_usual_bounds_makes_a_stack(widths: tuple[float, float]) -> None:
    """Five centimetres and ten are the bounds where nobody gives others: both still count, and nothing outside them."""
    assert largest_stack(rounds(*widths), SLICE, tiers=2) == sum(portion_count(tin, SLICE) for tin in rounds(*widths))
    assert largest_stack(rounds(150.0, 199.0), SLICE, tiers=2) == largest_stack(rounds(150.0, 251.0), SLICE, tiers=2) == 0


def test_four_dowels_of_a_square_stand_in_its_corners() -> None:
    """A 20 cm square reaches 100 mm from its middle to each side; 25 mm further in are 75 mm."""
    points = {(round(x, 6), round(y, 6)) for x, y in dowel_points(outline("square", 200.0), 4)}
    assert points == {(75.0, 75.0), (75.0, -75.0), (-75.0, 75.0), (-75.0, -75.0)}


def test_boards_under_and_in_a_tall_tier_are_counted_together() -> None:
    """A tier of three levels stands on one board and has two in it, 10 mm inside the finished edge on either side: 300 - 20 mm."""
    (stand,) = supports([Body(outline("rectangle", 200.0, 300.0), 300.0, levels=3)])
    assert (stand.inner_boards, stand.all_boards) == (2, 3)
    assert (stand.inner_width_mm, stand.inner_length_mm) == pytest.approx((180.0, 280.0))
    (low,) = supports([Body(outline("rectangle", 200.0, 300.0), 100.0)])
    assert (low.inner_boards, low.all_boards, low.inner_width_mm, low.inner_length_mm, low.dowel_length_mm) == (0, 1, 0.0, 0.0, 0.0)
