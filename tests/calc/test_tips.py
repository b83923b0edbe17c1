"""Tips: sections of openings, what is read, what is found. Oracle for the sections: shapely's polygons."""

from __future__ import annotations

import math
import re
from contextlib import suppress
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import rotate
from shapely.geometry import MultiPoint, Point, Polygon, box

import calc
from calc import tips
from calc.rows.effects import EFFECTS, effect_size_mm, effects_of, find_tips, opening_for_mm
from calc.sources import Constant
from calc.tips import (
    FAMILIES,
    RUCHE,
    SWELL,
    TIPS,
    Tip,
    lens_section_mm2,
    notched_section_mm2,
    read_tip,
    round_section_mm2,
    ruche_mm,
    slot_section_mm2,
    star_section_mm2,
    stroke_mm,
    teardrop_section_mm2,
    usual_points,
)
from calc.tips_data import ROWS, Row
from calc.units import Problem

openings = st.floats(0.5, 60.0)
any_tip = st.builds(Tip, st.sampled_from(FAMILIES), openings)


# --- sections, against shapely -------------------------------------------------------------------------------------------


@given(st.floats(1, 40), st.floats(0.1, 1), st.integers(3, 24))
def test_star_section_is_the_area_of_the_star_polygon(outer: float, share: float, points: int) -> None:
    inner = outer * share
    corners = [
        (r / 2 * math.cos(math.pi * i / points), r / 2 * math.sin(math.pi * i / points))
        for i in range(2 * points)
        for r in [outer if i % 2 == 0 else inner]
    ]
    assert star_section_mm2(outer, inner, points) == pytest.approx(Polygon(corners).area, rel=1e-9)


@given(st.floats(4, 40), st.floats(0.05, 0.5), st.floats(0.2, 1))
@settings(max_examples=40)
def test_teardrop_section_is_the_hull_of_its_two_ends(length: float, thick_share: float, thin_share: float) -> None:
    thick = length * thick_share
    thin = thick * thin_share
    big = Point(0, 0).buffer(thick / 2, quad_segs=256)
    small = Point(length - thick / 2 - thin / 2, 0).buffer(thin / 2, quad_segs=256)
    hull = MultiPoint([*big.exterior.coords, *small.exterior.coords]).convex_hull
    assert teardrop_section_mm2(length, thick, thin) == pytest.approx(hull.area, rel=1e-4)


@given(st.floats(2, 40), st.floats(0.05, 1))
@settings(max_examples=40)
def test_lens_section_is_where_two_circles_overlap(width: float, share: float) -> None:
    gape = width * share
    radius = gape / 4 + width * width / (4 * gape)
    upper = Point(0, radius - gape / 2).buffer(radius, quad_segs=2048)
    lower = Point(0, gape / 2 - radius).buffer(radius, quad_segs=2048)
    assert lens_section_mm2(width, gape) == pytest.approx(upper.intersection(lower).area, rel=2e-3)


def test_sections_at_their_limits() -> None:
    assert star_section_mm2(2, 2 * math.cos(math.pi / 6), 6) == pytest.approx(2.598076211353, abs=1e-12)  # the regular hexagon of side 1
    assert teardrop_section_mm2(4, 4, 1) == pytest.approx(4 * math.pi)  # the thin end lies inside the thick one
    assert lens_section_mm2(6, 6) == pytest.approx(round_section_mm2(6))
    assert slot_section_mm2(6, 6) == pytest.approx(round_section_mm2(6))
    assert teardrop_section_mm2(10, 2, 2) == pytest.approx(slot_section_mm2(10, 2))
    assert notched_section_mm2(12, 2, 2) == 24


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: round_section_mm2(0),
        lambda: star_section_mm2(5, 6, 6),
        lambda: star_section_mm2(5, 3, 2),
        lambda: teardrop_section_mm2(5, 1, 2),
        lambda: teardrop_section_mm2(2, 3, 1),
        lambda: lens_section_mm2(2, 3),
        lambda: slot_section_mm2(1, 2),
        lambda: notched_section_mm2(5, 1, 2),
        lambda: Tip("trumpet", 5),
        lambda: Tip("round", 0.4),
        lambda: Tip("round", 61),
        lambda: Tip("open star", 5, points=2),
        lambda: Tip("open star", 5, inner_mm=6),
        lambda: Tip("petal", 5, slot_mm=6),
        lambda: round_section_mm2(float("nan")),
        lambda: Tip("round", float("nan")),
    ],
)
def test_impossible_openings_are_refused(wrong) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError):
        wrong()


# --- a tip -----------------------------------------------------------------------------------------------------------------


def test_a_tip_takes_what_is_usual_for_its_family() -> None:
    star = Tip("open star", 7)
    assert (star.points, star.inner_mm, star.slot_mm) == (6, pytest.approx(4.55), 0.0)
    assert Tip("open star", 7) == Tip("open star", 7.0, points=6, inner_mm=4.55)
    assert Tip("round", 2, points=5, inner_mm=1, slot_mm=1) == Tip("round", 2)  # a round has none of these
    assert usual_points("closed star", 12) == 8


def test_names_say_points_only_when_unusual() -> None:
    assert Tip("petal", 11).name == "petal 11 mm"
    assert Tip("open star", 12, points=14).name == "open star 12 mm, 14 points"
    assert Tip("open star", 12, points=8).name == "open star 12 mm"


@given(any_tip)
def test_a_section_lies_within_the_circle_round_its_opening(tip: Tip) -> None:
    assert 0 < tip.section_mm2 <= math.pi / 4 * tip.opening_mm**2 * (1 + 1e-9)
    assert tip.section_mm2 <= tip.laid_mm2 <= tip.section_mm2 * tip.swell.high
    assert tip.bead_width_mm > 0 and tip.bead_height_mm > 0


@given(st.sampled_from(FAMILIES), st.floats(1, 8), st.floats(1.1, 7))
def test_sections_grow_with_the_square_of_the_opening(family: str, opening: float, factor: float) -> None:
    small = Tip(family, opening, points=6)
    large = Tip(family, opening * factor, points=6)
    assert large.section_mm2 == pytest.approx(small.section_mm2 * factor**2, rel=1e-4)
    assert large.bead_width_mm == pytest.approx(small.bead_width_mm * factor, rel=1e-4)


def test_every_constant_lies_in_its_range_and_says_why() -> None:
    found = [c for c in vars(tips).values() if isinstance(c, Constant)] + list(SWELL.values()) + [c for pair in RUCHE.values() for c in pair]
    assert len(found) >= 30
    for c in found:
        assert c.low <= c <= c.high and len(c.note) > 15, c.note
    assert set(SWELL) == set(RUCHE) == set(FAMILIES)


# What one measures on a usual tip whose opening is 10 mm, with the range over makers (common practice, no source): the width across the
# notches of a star or the thickness of a slot [mm], and one metre of its line at a usual squeeze [ml], worked out by hand from the section.
TEN_MM = {
    "round": ((0.0, 0.0, 0.0), (78.5, 90.3, 110.0)),
    "open star": ((5.5, 6.5, 8.0), (49.7, 59.7, 74.6)),
    "closed star": ((3.0, 4.0, 5.5), (45.9, 59.7, 79.6)),
    "petal": ((2.0, 2.6, 3.2), (17.5, 21.0, 26.3)),
    "leaf": ((3.5, 4.5, 6.0), (32.7, 40.5, 51.5)),
    "ruffle": ((1.2, 1.6, 2.0), (15.5, 19.3, 24.7)),
    "basket": ((1.2, 1.6, 2.0), (12.8, 14.1, 16.6)),
}
# Movement and advance of the same tips when they are rocked [mm].
TEN_MM_ROCKED = {
    "round": ((10, 15, 25), (14, 18, 24)),
    "open star": ((8, 12, 20), (12, 15, 22)),
    "closed star": ((8, 13, 20), (12, 16, 24)),
    "petal": ((5, 7, 10), (4, 5, 7.5)),
    "leaf": ((4, 6, 10), (6, 8, 11)),
    "ruffle": ((2, 4, 6), (3.5, 5, 7)),
    "basket": ((2, 3, 5), (3.5, 4.5, 6)),
}


def ends(found: Constant, times: float = 1.0) -> tuple[float, float, float]:
    return found.low * times, found * times, found.high * times


@pytest.mark.parametrize("family", FAMILIES)
def test_a_usual_tip_of_ten_millimetres(family: str) -> None:
    tip = Tip(family, 10)
    measured, metre_ml = TEN_MM[family]
    assert tip.inner_mm + tip.slot_mm == pytest.approx(measured[1])
    assert ends(tip.swell, tip.section_mm2) == pytest.approx(metre_ml, rel=0.006)  # 1 mm2 along a metre is 1 ml
    assert tip.laid_mm2 == pytest.approx(metre_ml[1], rel=0.006)
    for rocked, wanted in zip(RUCHE[family], TEN_MM_ROCKED[family], strict=True):
        assert ends(rocked, 10) == pytest.approx(wanted)
    assert ruche_mm(tip) == pytest.approx([wanted[1] for wanted in TEN_MM_ROCKED[family]])


def test_what_differs_between_makers() -> None:
    usual = {
        "open star": tips.OPEN_STAR_INNER,
        "closed star": tips.CLOSED_STAR_INNER,
        "petal": tips.PETAL_THICK,
        "leaf": tips.LEAF_THICK,
        "ruffle": tips.RUFFLE_THICK,
        "basket": tips.BASKET_THICK,
    }
    for family, found in usual.items():
        assert ends(found, 10) == pytest.approx(TEN_MM[family][0])
    assert ends(tips.PETAL_THIN) == pytest.approx((0.2, 0.35, 0.5))  # a fifth to a half of the thick end
    assert ends(tips.BASKET_NOTCH) == pytest.approx((0.5, 0.6, 0.7))
    assert ends(tips.PETAL_LEAN_DEG) == (30.0, 45.0, 60.0)


@pytest.mark.parametrize("family", ["petal", "ruffle"])
def test_a_leaning_slot_covers_the_box_round_it(family: str) -> None:
    """Oracle: shapely's rectangle, turned to stand half away from the side."""
    tip = Tip(family, 10)
    grown = math.sqrt(tip.swell)
    left, low, right, high = rotate(box(0, 0, 10 * grown, tip.slot_mm * grown), 45).bounds
    assert (tip.bead_width_mm, tip.bead_height_mm) == pytest.approx((right - left, high - low))


@pytest.mark.parametrize("family", ["round", "open star", "closed star", "leaf", "basket"])
def test_an_upright_opening_swells_evenly(family: str) -> None:
    tip = Tip(family, 10)
    closed = 4.0 / 6.5 if family == "closed star" else 1.0  # its grooves close to those of an open star
    assert tip.bead_width_mm**2 == pytest.approx(100 * tip.swell * closed)
    assert tip.bead_height_mm == pytest.approx(tip.bead_width_mm * (tip.slot_mm / 10 or 1))


# --- the table ---------------------------------------------------------------------------------------------------------


def is_fine(row: Row) -> bool:
    return row[2] >= 10


def test_only_stars_have_points() -> None:
    """As many as is usual for the opening, but for the fine stars, whose points are even in number."""
    for row in ROWS:
        family, opening, points = row[:3]
        if is_fine(row):
            assert family.endswith("star") and points % 2 == 0
        else:
            assert points == usual_points(family, opening), row[:3]


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("fine", [False, True])
def test_tips_stand_in_order_of_size(family: str, fine: bool) -> None:
    openings = [row[1] for row in ROWS if row[0] == family and is_fine(row) == fine]
    assert openings == sorted(set(openings))
    assert all(1.1 <= larger / smaller <= 1.5 for smaller, larger in pairwise(openings))  # steps one can tell, and no gaps
    assert all(opening * 2 == round(opening * 2) or opening < 2 for opening in openings), "measured to half a millimetre"


def test_a_tip_is_taken_for_one_of_about_its_size() -> None:
    """What a tip is taken for is a quarter larger or smaller at most; one of its own family is in the table."""
    named = 0
    for row in ROWS:
        for size, words in re.findall(r"([\d.]+) mm(?: or [\d.]+ mm)? ([a-z ]+)", row[7]):
            named += 1
            assert 1 / 1.26 <= float(size) / row[1] <= 1.26, row[:3]
            kin = [other for other in ROWS if words.startswith((other[0], "fine star")) and is_fine(other) == words.startswith("fine")]
            if words.startswith((row[0], "fine star")):
                assert float(size) in [other[1] for other in kin if other[0] == row[0]], row[7]
    assert named >= 30


# --- reading -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text, name",
    [
        ("petal 11 mm", "petal 11 mm"),
        ("11mm petal", "petal 11 mm"),
        ("Petal tip, 11 mm wide", "petal 11 mm"),
        ("open star 7", "open star 7 mm"),
        ("7 mm open star", "open star 7 mm"),
        ("OPEN STAR 1/2 in", "open star 12.7 mm"),
        ("round 1,8 mm", "round 1.8 mm"),
        ("plain 2", "round 2 mm"),
        ("rose 11 mm", "petal 11 mm"),
        ("basketweave 12", "basket 12 mm"),
        ("openstar7", "open star 7 mm"),
        ("open star 12 mm, 14 points", "open star 12 mm, 14 points"),
        ("closed star 10 mm 8 teeth", "closed star 10 mm"),
        ("petal 0.9 cm", "petal 9 mm"),
    ],
)
def test_tips_are_read_as_people_write_them(text: str, name: str) -> None:
    assert read_tip(text, "tip", "Tip").name == name


def test_two_measures_give_the_thickness() -> None:
    assert read_tip("petal 11 x 3 mm", "tip", "Tip") == Tip("petal", 11, slot_mm=3)
    assert read_tip("open star 7 x 4 mm", "tip", "Tip") == Tip("open star", 7, inner_mm=4)


@pytest.mark.parametrize(
    "text, says",
    [
        ("", "names none"),
        ("11 mm", "names none"),
        ("petal", "no opening"),
        ("star 7 mm", "two: open star"),
        ("petal 0.1 mm", "between 0.5 mm and 60 mm"),
        ("round 7 cm", "between 0.5 mm and 60 mm"),
        ("petal 11 mm 5 points", "only a star"),
        ("open star 7 mm 2 points", "between 3 and 40"),
        ("round 5 x 2 mm", "one measure"),
        ("petal 5 kg", "weight"),
        ("petal abc", "does not read"),
        ("petal -3 mm", "between"),
        ("petal 1e9 m", "between"),
        ("petal 11 x 0.01 mm", "0.1 mm thick"),
        ("🧁", "names none"),
    ],
)
def test_what_cannot_be_read_is_said_with_the_way_out(text: str, says: str) -> None:
    with pytest.raises(Problem) as caught:
        read_tip(text, "tip", "Tip")
    assert says in caught.value.message and caught.value.input == "tip"
    assert not any(word in caught.value.message.lower() for word in ("please", "sorry", "invalid", "oops"))


@given(st.text(max_size=60))
@settings(max_examples=200)
def test_any_text_is_a_tip_or_a_problem(text: str) -> None:
    for words in (text, "petal " + text, "open star 7 mm " + text):
        with suppress(Problem):
            read_tip(words, "tip", "Tip")


@given(any_tip)
def test_a_name_reads_back(tip: Tip) -> None:
    rounded = Tip(tip.family, max(0.5, round(tip.opening_mm, 1)), tip.points)
    assert read_tip(rounded.name, "tip", "Tip").opening_mm == pytest.approx(rounded.opening_mm)
    assert read_tip(rounded.name, "tip", "Tip").points == rounded.points


# --- effects and the table ---------------------------------------------------------------------------------------------------


@given(st.sampled_from(FAMILIES), st.sampled_from(EFFECTS), st.floats(1, 50))
def test_the_opening_for_a_size_gives_that_size(family: str, effect: str, wanted: float) -> None:
    opening = opening_for_mm(family, effect, wanted)
    if opening is None:
        assert effect_size_mm(Tip(family, 0.5), effect) > wanted or effect_size_mm(Tip(family, 60), effect) < wanted
    else:
        assert effect_size_mm(Tip(family, opening), effect) == pytest.approx(wanted, rel=1e-4)


def test_the_rocked_line_is_one_stroke_wider_than_its_movement() -> None:
    tip = Tip("petal", 11)
    assert effect_size_mm(tip, "ruched swag") == pytest.approx(ruche_mm(tip)[0] + stroke_mm(tip))


def test_the_table_is_complete() -> None:
    assert len(TIPS) >= 40
    assert len({(use.tip.family, use.tip.opening_mm, use.tip.points) for use in TIPS}) == len(TIPS)
    assert {use.tip.family for use in TIPS} == set(FAMILIES)
    for use in TIPS:
        assert use.makes and set(use.makes) <= set(EFFECTS)
        assert all((use.angle, use.faces, use.consistency, use.confused_with)), use.tip.name
    assert {effect for use in TIPS for effect in effects_of(use)} == set(EFFECTS)


def test_no_tip_is_known_by_a_number_of_its_maker() -> None:
    columns = [tuple(column["label"] for column in table["columns"]) for table in calc.compute("tips", {}).tables]
    assert ("Tip", "Makes", "Size", "Easily taken for") in columns
    for row in ROWS:
        assert not any(isinstance(cell, str) and cell.strip().isdecimal() for cell in row), row


def test_the_finder_ranks_by_size_then_by_opening() -> None:
    found = find_tips(effect="shell", wanted_mm=13.3)
    assert found[0].use.tip.name == "open star 7 mm" and found[0].off_percent == pytest.approx(0, abs=0.1)
    sizes = [abs(math.log(match.size_mm / 13.3)) for match in found]
    assert sizes == sorted(sizes)
    assert find_tips("petal", 11.0)[0].use.tip.name == "petal 11 mm"
    assert {match.use.tip.family for match in find_tips("leaf", most=99)} == {"leaf"}
    assert find_tips("leaf", effect="shell") == ()
    assert len(find_tips(most=99)) == len(TIPS)


def test_without_an_effect_the_finder_takes_whichever_comes_nearest() -> None:
    match = find_tips("petal", wanted_mm=24.0, most=1)[0]
    assert match.effect == "flower" and match.use.tip.opening_mm == 11


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: find_tips("trumpet"),
        lambda: find_tips(effect="waterfall"),
        lambda: find_tips(wanted_mm=0),
        lambda: find_tips(opening_mm=-1),
        lambda: effect_size_mm(Tip("round", 2), "waterfall"),
        lambda: opening_for_mm("round", "bead", 0),
    ],
)
def test_what_cannot_be_found_is_refused(wrong) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError):
        wrong()
