"""Filling, crumb coat and final coat: exact geometry, ranges, bands, and what is said about mistakes."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

import calc
from calc.buttercream import RECIPES, density_g_per_ml
from calc.coats import (
    CRUMB_STRAYS_PERCENT,
    FILLING_STRAYS_PERCENT,
    FINAL_STRAYS_PERCENT,
    SHRINK_MM,
    Coats,
    bands,
    coats,
    finished_body,
    knife_uses,
    mass_range_g,
    ring_area_mm2,
    stripes,
)
from calc.drawing.coat_section import section_scene
from calc.drawing.scene import Text
from calc.shapes import SHAPES, Outline, outline
from calc.sources import constant
from calc.units import Problem

ROUND_15 = outline("round", 150.0)


def sponge(shape: str, width: float) -> Outline:
    """An outline of any shape; the two that need a length are half as long again."""
    return outline(shape, width, width * 1.5 if shape in ("rectangle", "oval") else None)


def tier(**changes: object) -> Coats:
    """A 15 cm round tier, 10 cm high, of three layers under a 16 cm disc, with changes."""
    asked: dict[str, object] = {"height_mm": 100.0, "layers": 3, "filling_mm": 8.0, "crumb_mm": 2.0, "disc_mm": 160.0}
    return coats(changes.pop("outline", ROUND_15), **{**asked, **changes})


# --- worked by hand -------------------------------------------------------------------------------------------------


def test_round_tier_under_a_disc_by_hand() -> None:
    made = tier()
    pi = math.pi
    assert made.coat_mm == 5 and made.final_mm == 3 and made.top_mm == 5
    assert made.filling_ml == pytest.approx(2 * 8 * pi * 75**2 / 1000, rel=1e-12)
    assert made.crumb_ml == pytest.approx((pi * 77**2 * 102 - pi * 75**2 * 100) / 1000, rel=1e-12)
    assert made.final_ml == pytest.approx((pi * 80**2 * 105 - pi * 77**2 * 102) / 1000, rel=1e-12)
    assert made.sponge_ml == pytest.approx(pi * 75**2 * 84 / 1000, rel=1e-12)
    assert (made.finished.width_mm, made.finished_height_mm) == (160, 105)
    assert made.finished.perimeter_mm == pytest.approx(pi * 160, rel=1e-12)
    assert made.layer_mm == 28


def test_square_tier_keeps_its_corners() -> None:
    made = tier(outline=outline("square", 200.0), disc_mm=210.0)
    assert made.coat_ml == pytest.approx((210**2 * 105 - 200**2 * 100) / 1000, rel=1e-12)
    assert made.finished.perimeter_mm == pytest.approx(4 * 210, rel=1e-12)


def test_coat_by_thickness_equals_coat_by_the_disc_that_sets_it() -> None:
    by_disc, by_hand = tier(), tier(disc_mm=None, final_mm=3.0)
    assert by_disc.final_ml == pytest.approx(by_hand.final_ml, rel=1e-12)
    assert by_disc.crumb_ml == by_hand.crumb_ml
    assert by_disc.finished == by_hand.finished


def test_disc_sets_crumb_and_final_together() -> None:
    thin, thick = tier(crumb_mm=1.0), tier(crumb_mm=4.0)
    assert thin.coat_mm == thick.coat_mm == 5
    assert (thin.final_mm, thick.final_mm) == (4, 1)
    assert thin.coat_ml == pytest.approx(thick.coat_ml, rel=1e-12)


def test_under_a_disc_only_a_shrunken_sponge_takes_more() -> None:
    made = tier()
    assert made.final_low_ml == made.final_ml
    assert made.final_high_ml - made.final_ml == pytest.approx(math.pi * 150 * 1.5 * 100 / 1000, rel=1e-9)
    # The disc holds the outside where it is: a thin crumb coat only makes room for final coat.
    assert made.coat_low_ml == pytest.approx(made.coat_ml, rel=1e-12)
    assert made.coat_high_ml == pytest.approx(made.crumb_ml + made.final_high_ml, rel=1e-12)
    by_hand = tier(disc_mm=None, final_mm=3.0)
    assert by_hand.coat_low_ml == pytest.approx(by_hand.crumb_low_ml + by_hand.final_low_ml, rel=1e-12)
    assert by_hand.coat_high_ml == pytest.approx(by_hand.crumb_high_ml + by_hand.final_high_ml, rel=1e-12)


def test_dam_and_filling_share_the_same_room() -> None:
    plain, dammed = tier(), tier(dam_mm=10.0)
    assert dammed.dam_ml == pytest.approx(2 * 8 * math.pi * (75**2 - 65**2) / 1000, rel=1e-12)
    assert dammed.filling_ml + dammed.dam_ml == pytest.approx(plain.filling_ml, rel=1e-12)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("width", [4.0, 11.0, 20.0])
def test_ring_of_a_dam_agrees_with_an_independent_library(shape: str, width: float) -> None:
    """shapely's inner parallel of a polygon of 4,000 corners as the oracle; round joins fall in the notches only."""
    cake = sponge(shape, 200.0)
    polygon = shapely.Polygon(cake.points(4000))
    inner = polygon.buffer(-width, join_style="round", quad_segs=400)
    assert ring_area_mm2(cake, width) == pytest.approx(polygon.area - inner.area, rel=1e-4)


def test_separate_top() -> None:
    flat, domed = tier(top_mm=0.0), tier(top_mm=9.0)
    assert flat.finished_height_mm == 100 and domed.finished_height_mm == 109
    assert domed.total_ml - flat.total_ml == pytest.approx(math.pi * 80**2 * 9 / 1000, rel=1e-12)
    assert tier(top_mm=1.0).crumb_ml < tier(top_mm=2.0).crumb_ml == tier(top_mm=9.0).crumb_ml


def test_one_layer_has_no_filling_and_no_dam() -> None:
    made = tier(layers=1, dam_mm=10.0)
    assert made.filling_ml == 0 == made.dam_ml and made.fillings == 0
    assert made.sponge_ml == pytest.approx(math.pi * 75**2 * 100 / 1000, rel=1e-12)


def test_naked_cake() -> None:
    made = tier(disc_mm=None, crumb_mm=0.0, final_mm=0.0)
    assert made.coat_ml == 0 and made.finished == ROUND_15 and made.finished_height_mm == 100


# --- properties, over every shape there is --------------------------------------------------------------------------

thickness = st.floats(0.0, 15.0)
shapes = st.sampled_from(SHAPES)


@given(shapes, st.floats(60, 600), st.floats(30, 300), st.integers(1, 8), thickness, thickness, thickness, thickness)
def test_volumes_add_up_and_ranges_hold_their_middle(
    shape: str, width: float, height: float, layers: int, filling: float, crumb: float, final: float, top: float
) -> None:
    assume((layers - 1) * filling < height)
    cake = sponge(shape, width)
    made = coats(cake, height, layers, filling, crumb, final, top_mm=top)
    whole = made.finished.area_mm2 * made.finished_height_mm / 1000
    parts = math.fsum((made.sponge_ml, made.filling_ml, made.dam_ml, made.crumb_ml, made.final_ml))
    assert parts == pytest.approx(whole, rel=1e-9)
    for low, middle, high in (
        (made.filling_low_ml, made.filling_ml, made.filling_high_ml),
        (made.crumb_low_ml, made.crumb_ml, made.crumb_high_ml),
        (made.final_low_ml, made.final_ml, made.final_high_ml),
        (made.coat_low_ml, made.coat_ml, made.coat_high_ml),
    ):
        assert 0 <= low <= middle <= high


@given(shapes, st.floats(60, 600), st.floats(0.1, 20), st.floats(0.1, 10))
def test_more_coat_is_more_buttercream(shape: str, width: float, coat: float, more: float) -> None:
    cake = sponge(shape, width)
    thin, thick = coats(cake, 100.0, 2, 5.0, 0.0, coat), coats(cake, 100.0, 2, 5.0, 0.0, coat + more)
    assert thin.coat_ml < thick.coat_ml
    if cake.convex:  # the side of a petal cake gets shorter while its notches fill
        assert thin.finished.perimeter_mm < thick.finished.perimeter_mm
    assert coats(cake, 120.0, 2, 5.0, 0.0, coat).coat_ml > thin.coat_ml


@given(shapes, st.floats(60, 600), st.floats(0.5, 3))
def test_scale(shape: str, width: float, factor: float) -> None:
    small = coats(sponge(shape, width), 80.0, 3, 6.0, 2.0, 3.0)
    large = coats(sponge(shape, width * factor), 80.0 * factor, 3, 6.0 * factor, 2.0 * factor, 3.0 * factor)
    assert large.total_ml == pytest.approx(small.total_ml * factor**3, rel=1e-7)
    assert large.finished.perimeter_mm == pytest.approx(small.finished.perimeter_mm * factor, rel=1e-7)


@given(st.sampled_from(("round", "oval")), st.floats(60, 600), st.floats(0.1, 20))
def test_smooth_outlines_follow_steiner(shape: str, width: float, coat: float) -> None:
    cake = sponge(shape, width)
    made = coats(cake, 100.0, 1, 0.0, 0.0, coat, top_mm=0.0)
    steiner = cake.area_mm2 + cake.perimeter_mm * coat + math.pi * coat**2
    assert made.coat_ml == pytest.approx((steiner - cake.area_mm2) * 100 / 1000, rel=1e-6)


@given(shapes, st.floats(80, 400), st.lists(st.floats(0.01, 100), min_size=1, max_size=24), thickness, thickness)
def test_bands_share_out_the_whole_final_coat(shape: str, width: float, shares: list[float], crumb: float, final: float) -> None:
    made = coats(sponge(shape, width), 100.0, 3, 6.0, crumb, final)
    found = bands(made, shares)
    assert math.fsum(b.volume_ml for b in found) == pytest.approx(made.final_ml, rel=1e-9, abs=1e-9)
    assert found[0].from_mm == 0 and found[-1].to_mm == pytest.approx(made.finished_height_mm, rel=1e-12)
    assert all(first.to_mm == pytest.approx(second.from_mm) for first, second in zip(found, found[1:], strict=False))
    heights = [band.to_mm - band.from_mm for band in found]
    assert heights == pytest.approx([made.finished_height_mm * share / math.fsum(shares) for share in shares], rel=1e-9, abs=1e-9)


@given(st.integers(1, 60), st.floats(1, 99), st.floats(0.2, 1.0))
def test_stripes_share_out_the_final_coat(count: int, share: float, part: float) -> None:
    made = tier()
    found = stripes(made, count, share, made.final_mm * part)
    assert found.stripes_ml + found.ground_ml == pytest.approx(made.final_ml, rel=1e-12)
    assert count * (found.stripe_mm + found.ground_mm) == pytest.approx(made.finished_height_mm, rel=1e-12)
    assert 0 < found.stripes_ml < made.final_ml


def test_bands_by_hand_on_a_round_tier() -> None:
    made = tier()
    ring = math.pi * (80**2 - 77**2)
    low, high = bands(made, (2, 1))
    assert low.volume_ml == pytest.approx(ring * 70 / 1000, rel=1e-9)
    assert high.volume_ml == pytest.approx((ring * 35 + math.pi * 77**2 * 3) / 1000, rel=1e-9)


def test_stripes_as_deep_as_the_final_coat_by_hand() -> None:
    found = stripes(tier(), 5, 50.0)
    assert found.stripes_ml == pytest.approx(math.pi * (80**2 - 77**2) * 52.5 / 1000, rel=1e-9)


@given(st.floats(1, 1e4), st.floats(0, 0.9), st.floats(0, 2), st.floats(0.4, 1.4), st.floats(0, 0.5), st.floats(0, 0.5))
def test_mass_range(volume: float, down: float, up: float, density: float, lighter: float, heavier: float) -> None:
    mass, low, high = mass_range_g(volume, volume * (1 - down), volume * (1 + up), density, density * (1 - lighter), density * (1 + heavier))
    assert mass == volume * density
    assert low <= mass <= high
    assert mass - low <= mass * (down + lighter) * (1 + 1e-9) + 1e-9  # never wider than both at their worst together
    assert high - mass <= mass * (up + heavier) * (1 + 1e-9) + 1e-9


# --- what is said about mistakes ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"disc_mm": 150.0}, "disc", "wider than the cake"),
        ({"disc_mm": 140.0}, "disc", "wider than the cake"),
        ({"disc_mm": 153.0}, "crumb_coat", "thicker than the 1.5 mm the disc leaves"),
        ({"filling_mm": 50.0}, "filling", "as high as the whole cake"),
        ({"disc_mm": None}, "final_coat", "or the width of a coating disc"),
        ({"dam_mm": 75.0}, "dam", "no even room for a filling"),
        ({"layers": 0}, "layers", "between 1 and 12"),
        ({"height_mm": 0.0}, "height", "more than 0"),
        ({"filling_mm": -1.0}, "filling", "0 or more"),
        ({"crumb_mm": -1.0}, "crumb_coat", "0 or more"),
        ({"dam_mm": -1.0}, "dam", "0 or more"),
        ({"top_mm": -1.0}, "top", "0 or more"),
        ({"disc_mm": None, "final_mm": -1.0}, "final_coat", "0 or more"),
    ],
)
def test_impossible_coats_are_said_in_words(changes: dict[str, object], field: str, words: str) -> None:
    with pytest.raises(Problem, match=words) as caught:
        tier(**changes)
    assert caught.value.input == field


def test_problems_use_the_readers_units() -> None:
    with pytest.raises(Problem, match="5 7/8 in"):
        tier(disc_mm=150.0, units="us")


def test_dam_that_a_heart_has_no_room_for() -> None:
    with pytest.raises(Problem) as caught:
        tier(outline=outline("heart", 150.0), dam_mm=60.0)
    assert caught.value.input == "dam"


@pytest.mark.parametrize("shares", [(), (0.0,), (1.0, -1.0), (1.0,) * 25, (float("nan"),), (float("inf"),)])
def test_shares_that_are_none(shares: tuple[float, ...]) -> None:
    with pytest.raises(Problem):
        bands(tier(), shares)


@pytest.mark.parametrize(
    ("count", "share", "depth", "field"),
    [
        (0, 50, None, "stripes"),
        (61, 50, None, "stripes"),
        (5, 0, None, "stripe_share"),
        (5, 100, None, "stripe_share"),
        (5, 50, 3.5, "groove"),
        (5, 50, 0.0, "groove"),
    ],
)
def test_stripes_that_cannot_be(count: int, share: float, depth: float | None, field: str) -> None:
    with pytest.raises(Problem) as caught:
        stripes(tier(), count, share, depth)
    assert caught.value.input == field


def test_section_is_to_scale_and_names_what_is_there() -> None:
    made = tier(dam_mm=10.0)
    scene = section_scene(made, bands_mm=((0, 50), (50, 105)))
    assert scene.width_mm > 160 and scene.height_mm > 105
    words = {item.words for item in scene.items if isinstance(item, Text)}
    assert {"final coat 3 mm", "crumb coat 2 mm", "dam 1 cm wide", "filling 8 mm", "layer 2.8 cm", "16 cm finished"} <= words
    bare = section_scene(tier(layers=1, disc_mm=None, final_mm=0.0, crumb_mm=0.0))
    assert {item.words for item in bare.items if isinstance(item, Text)} == {"layer 10 cm", "15 cm finished", "10 cm"}
    with pytest.raises(ValueError, match="no deeper"):
        section_scene(made, stripes_mm=((10, 20),), groove_mm=4.0)


# --- the calculator -------------------------------------------------------------------------------------------------


def test_calculator_has_the_figures_that_are_promised() -> None:
    answer = calc.compute("coats", {"width": "15 cm", "height": "10 cm", "layers": "3", "filling": "8 mm", "crumb_coat": "2 mm", "disc": "16 cm"})
    assert not answer.problems
    assert {"filling", "crumb_coat", "final_coat", "mass", "finished_width", "finished_side"} <= set(answer.figures)
    assert answer.figures["filling"]["unit"] == "ml" and answer.figures["mass"]["unit"] == "g"
    assert answer.figures["finished_width"]["value"] == 160
    assert answer.figures["finished_side"]["value"] == pytest.approx(math.pi * 160)


def test_calculator_disc_wins_over_a_final_coat_and_says_so() -> None:
    answer = calc.compute("coats", {"disc": "16 cm", "final_coat": "9 mm"})
    assert answer.figures["coat"]["value"] == 5
    assert any("not used" in note["text"] for note in answer.notes)


def test_calculator_disc_narrower_than_the_cake() -> None:
    answer = calc.compute("coats", {"width": "15 cm", "disc": "14 cm"})
    assert [p["input"] for p in answer.problems] == ["disc"] and not answer.figures


def test_calculator_needs_a_coat() -> None:
    assert calc.compute("coats", {"final_coat": "", "disc": ""}).problems[0]["input"] == "final_coat"


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("style", ["plain", "ombre", "striped"])
def test_calculator_over_shapes_and_styles(shape: str, style: str) -> None:
    answer = calc.compute("coats", {"shape": shape, "width": "20 cm", "length": "30 cm", "style": style, "dam": "8 mm"})
    assert not answer.problems
    assert answer.drawings[0]["svg"].startswith("<svg")
    assert {"ombre": "bands", "striped": "stripes", "plain": "amounts"}[style] in [t["name"] for t in answer.tables]


@pytest.mark.parametrize(
    ("texts", "field"),
    [
        ({"shape": "rectangle"}, "length"),
        ({"shape": "oval", "width": "5 cm", "length": "60 cm"}, "length"),
        ({"style": "ombre", "shares": "a, b"}, "shares"),
        ({"style": "ombre", "shares": "1 " * 30}, "shares"),
        ({"style": "ombre", "shares": "0, 1"}, "shares"),
        ({"style": "striped", "groove": "5 mm"}, "groove"),
        ({"style": "striped", "crumb_coat": "2 mm", "final_coat": "0"}, "groove"),
        ({"layers": "12", "filling": "2 cm"}, "filling"),
        ({"weighed_cup": "5 kg"}, "weighed_cup"),
    ],
)
def test_calculator_mistakes_stand_at_their_input(texts: dict[str, str], field: str) -> None:
    answer = calc.compute("coats", texts)
    assert [p["input"] for p in answer.problems] == [field] and not answer.figures and not answer.drawings


def test_calculator_weighed_cup_replaces_the_estimate() -> None:
    answer = calc.compute("coats", {"weighed_cup": "225 g", "cup": "250 ml"})
    volumes = math.fsum(answer.figures[name]["value"] for name in ("filling", "crumb_coat", "final_coat"))
    assert answer.figures["mass"]["value"] == pytest.approx(volumes * 0.9)


def test_calculator_other_fillings_come_with_the_caution() -> None:
    assert not calc.compute("coats", {}).cautions
    said = calc.compute("coats", {"filled_with": "something else"}).cautions[0]["text"]
    assert "cream, custard" in said and "2 hours" in said and "5 °C (41 °F)" in said


def test_calculator_jam_is_not_counted_as_buttercream() -> None:
    both = calc.compute("coats", {}).figures
    jam = calc.compute("coats", {"filled_with": "something_else"}).figures
    density = density_g_per_ml("plain")
    assert both["mass"]["value"] - jam["mass"]["value"] == pytest.approx(both["filling"]["value"] * density)


# Common practice, from memory: a 15 cm tier, 10 cm high, of three layers takes 600 to 900 g to fill and coat.
@pytest.mark.parametrize(
    ("recipe", "filling"),
    [("plain", "6 mm"), ("plain", "8 mm"), ("plain", "10 mm"), ("plain", "11 mm"), ("dairy_free", "8 mm"), ("heat_stable", "8 mm")],
)
def test_a_15_cm_tier_takes_what_kitchens_say(recipe: str, filling: str) -> None:
    figures = calc.compute("coats", {"recipe": recipe, "filling": filling, "disc": "16 cm"}).figures
    assert 600 <= figures["make"]["value"] <= 900


# The airy ones weigh less for the same volume; what kitchens say still lies within the range that is shown.
@pytest.mark.parametrize("recipe", sorted(RECIPES))
def test_a_15_cm_tier_range_meets_what_kitchens_say(recipe: str) -> None:
    make = calc.compute("coats", {"recipe": recipe, "disc": "16 cm"}).figures["make"]
    assert make["low"] <= 900 and make["high"] >= 600


@pytest.mark.parametrize("height, layers, filling", [(100.0, 3, 8.0), (101.0, 4, 5.0), (75.5, 2, 6.25)])
def test_layers_and_fillings_make_up_the_height(height: float, layers: int, filling: float) -> None:
    tier = coats(outline("round", 150.0), height, layers, filling, 2.0, 3.0)
    assert layers * tier.layer_mm + tier.fillings * filling == pytest.approx(height)


def test_ranges_are_the_shares_that_the_constants_name() -> None:
    """By hand a filling is out by FILLING_STRAYS_PERCENT and so on; under a disc only what the sponge shrank is open."""
    tier = coats(outline("round", 150.0), 100.0, 3, 8.0, 2.0, 3.0)
    for volume, low, high, percent in (
        (tier.filling_ml, tier.filling_low_ml, tier.filling_high_ml, FILLING_STRAYS_PERCENT),
        (tier.crumb_ml, tier.crumb_low_ml, tier.crumb_high_ml, CRUMB_STRAYS_PERCENT),
        (tier.final_ml, tier.final_low_ml, tier.final_high_ml, FINAL_STRAYS_PERCENT),
    ):
        assert (low / volume, high / volume) == pytest.approx((1 - percent / 100, 1 + percent / 100))
    disc = coats(outline("round", 150.0), 100.0, 3, 8.0, 2.0, disc_mm=160.0)
    assert disc.final_low_ml == disc.final_ml
    assert disc.final_high_ml - disc.final_ml == pytest.approx(math.pi * 150 * 100 * SHRINK_MM / 1000)


def test_a_knife_spreads_the_dam_as_it_is() -> None:
    """Two fillings of 8 mm with a dam of 10 mm: only the filling inside the dam is out by a fifth, and this density is known exactly."""
    dam = 2 * 8 * math.pi * (75**2 - 65**2) / 1000
    inside = 2 * 8 * math.pi * 65**2 / 1000
    density = constant(0.8, "g/ml", "common-practice", "a buttercream for this test", low=0.8, high=0.8)
    (filling, mass, low, high), (coat, *_) = knife_uses(tier(dam_mm=10.0), density)
    assert (filling, coat) == ("filling", "coat")
    assert (mass, low, high) == pytest.approx((0.8 * (inside + dam), 0.8 * (0.8 * inside + dam), 0.8 * (1.2 * inside + dam)), rel=1e-9)


def test_half_a_millilitre_has_a_range_too() -> None:
    assert mass_range_g(0.5, 0.25, 0.75, 1.0, 1.0, 1.0) == pytest.approx((0.5, 0.25, 0.75))


def test_a_finished_tier_weighs_its_sponge_its_coats_and_what_is_piped_on_it() -> None:
    """At 0.8 g/ml the filling and the coats weigh 0.8 g for each millilitre; 50 g of piping are added as they are."""
    made = tier()
    plain, piped = finished_body(made, 0.8), finished_body(made, 0.8, piped_g=50.0)
    assert plain.buttercream_g == pytest.approx(0.8 * made.total_ml)
    assert piped.buttercream_g - plain.buttercream_g == pytest.approx(50.0)
    assert (plain.height_mm, plain.sponge_ml, plain.levels) == (105.0, made.sponge_ml, 1)


@pytest.mark.parametrize("shape", ["round", "square", "heart", "oval", "petal"])
def test_a_ring_as_thin_as_can_be_typed_has_no_bends_to_lose(shape: str) -> None:
    """The square of 1e-200 mm is 0 as a number: what is lost at bends was divided by it."""
    cake = outline(shape, 200.0, 300.0) if shape == "oval" else outline(shape, 200.0)
    assert ring_area_mm2(cake, 1e-200) == pytest.approx(1e-200 * cake.perimeter_mm)
    assert ring_area_mm2(cake, 1e-3) == pytest.approx(1e-3 * cake.perimeter_mm, rel=1e-4)
