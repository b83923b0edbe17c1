"""Tips: sections of openings, what is read, what is found. Oracle for the sections: shapely's polygons."""

from __future__ import annotations

import math
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiPoint, Point, Polygon

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
        assert use.stamped == "" or use.stamped.isdecimal(), use.stamped
    assert {effect for use in TIPS for effect in effects_of(use)} == set(EFFECTS)


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
