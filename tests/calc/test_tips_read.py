"""Tips by the bare number that is typed, by what is cut deeper or less deep than usual, and by the whole table of openings."""

from __future__ import annotations

import math

import pytest

from calc.tips import FAMILIES, TIPS, Tip, read_tip, stroke_mm, usual_points
from calc.units import Problem

# The openings of the table [mm], which its rows are called by; a fine star by its points as well. Common practice, no source.
OPENINGS = {
    "round": (1, 1.2, 1.5, 1.8, 2, 2.5, 3, 4, 5, 6, 8, 10, 12),
    "open star": (2.5, 3.5, 4.5, 6, 7, 8, 10, 12, 15),
    "closed star": (3, 4, 5, 6, 8, 10, 13),
    "petal": (6, 8, 9, 11, 13, 16, 20, 26),
    "leaf": (3, 4.5, 6, 8, 10, 13),
    "ruffle": (10, 15, 20, 26),
    "basket": (6, 9, 12, 16, 20),
}
FINE_STARS = ((11, 12), (15, 14))  # opening and points


@pytest.mark.parametrize("family", FAMILIES)
def test_the_openings_of_a_family(family: str) -> None:
    assert tuple(use.tip.opening_mm for use in TIPS if use.tip.family == family and use.tip.points < 10) == OPENINGS[family]


def test_the_fine_stars() -> None:
    assert tuple((use.tip.opening_mm, use.tip.points) for use in TIPS if use.tip.points >= 10) == FINE_STARS


@pytest.mark.parametrize("opening, points", [(2.5, 5), (2.99, 5), (3, 6), (8.99, 6), (9, 8), (15, 8)])
def test_usual_points(opening: float, points: int) -> None:
    assert usual_points("open star", opening) == usual_points("closed star", opening) == points


# A bare number is taken for millimetres from 0.6 times the smallest of the family to 1.3 times the largest: petals 3.6 to 33.8,
# rounds 0.6 to 15.6, open stars 1.5 to 19.5.
@pytest.mark.parametrize(
    "typed, name",
    [
        ("petal 3.6", "petal 3.6 mm"),
        ("petal 33.8", "petal 33.8 mm"),
        ("round 0.6", "round 0.6 mm"),
        ("15.6 round", "round 15.6 mm"),
        ("open star 1.5", "open star 1.5 mm"),
        ("open star 19.5", "open star 19.5 mm"),
    ],
)
def test_a_bare_number_that_is_likely(typed: str, name: str) -> None:
    assert read_tip(typed, "tip", "Tip").name == name


@pytest.mark.parametrize(
    "family, number, size, other",
    [
        ("petal", "3.5", "small", ", not a number stamped on the tip"),  # 88.9, 861, 38.1 and 2.5 mm are no likely inches either
        ("petal", "33.9", "large", ", not a number stamped on the tip"),
        ("petal", "1.5", "small", ", not a number stamped on the tip"),
        ("petal", "0.1", "small", ", not a number stamped on the tip"),
        ("petal", "1", "small", ", or petal 1 in"),  # 25.4 and 12.7 mm are
        ("round", "1/2", "small", ", or round 1/2 in"),
    ],
)
def test_a_bare_number_that_is_not_likely_is_asked_about(family: str, number: str, size: str, other: str) -> None:
    with pytest.raises(Problem) as caught:
        read_tip(f"{family} {number}", "tip", "Tip")
    read = f"is read as an opening of {number} mm, which is unusually {size}"
    assert caught.value.message == f"Tip: {family} {number} {read}. Write {family} {number} mm if it measures that{other}"


@pytest.mark.parametrize(
    "typed, opening", [("petal 3.5 mm", 3.5), ("petal 33.9 mm", 33.9), ("round 0.5 mm", 0.5), ("round 60 mm", 60), ("petal 1 in", 25.4)]
)
def test_a_measured_opening_is_taken_as_it_is(typed: str, opening: float) -> None:
    assert read_tip(typed, "tip", "Tip").opening_mm == pytest.approx(opening)


HOW = "Write a family and a measured opening, like petal 11 mm or open star 7 mm"


@pytest.mark.parametrize(
    "typed, said",
    [
        ("petal", f"Tip has no opening. {HOW}"),
        ("petal #4", f"Tip has a number that a maker stamped on it. {HOW}"),
        ("petal 0.4 mm", f"Tip must have an opening between 0.5 mm and 60 mm. {HOW}"),
        ("petal 60.1 mm", f"Tip must have an opening between 0.5 mm and 60 mm. {HOW}"),
        ("petal 61 x 3 mm", f"Tip must have an opening between 0.5 mm and 60 mm. {HOW}"),
        ("petal 11 x 0.09 mm", f"Tip must be 0.1 mm thick or more. {HOW}"),
        ("round 5 x 2 mm", f"Tip is round, which has one measure across. {HOW}"),
        ("leaf 8 mm 5 teeth", f"Tip has points, which only a star has. {HOW}"),
        ("open star 7 mm 2 points", "Tip must have between 3 and 40 points. Count the teeth, like open star 12 mm 8 points"),
        ("open star 7 mm 41 points", "Tip must have between 3 and 40 points. Count the teeth, like open star 12 mm 8 points"),
        ("", f"Tip names none of the families round, open star, closed star, petal, leaf, ruffle, basket. {HOW}"),
    ],
)
def test_what_is_said_of_no_tip(typed: str, said: str) -> None:
    with pytest.raises(Problem) as caught:
        read_tip(typed, "tip", "Tip")
    assert caught.value.message == said


@pytest.mark.parametrize(
    "typed, tip",
    [
        ("open star 7 mm 3 points", Tip("open star", 7, 3)),
        ("open star 7 mm, 40-pointed", Tip("open star", 7, 40)),
        ("petal 0.1 x 11 mm", Tip("petal", 11, slot_mm=0.1)),  # the longer of the two is the opening
        ("closed star 10 x 4.5 mm, 8 points", Tip("closed star", 10, 8, inner_mm=4.5)),
        ("leaf, opening 8 mm wide", Tip("leaf", 8)),
    ],
)
def test_tips(typed: str, tip: Tip) -> None:
    assert read_tip(typed, "tip", "Tip") == tip


def test_what_a_star_cut_deeper_or_less_deep_than_usual_lays() -> None:
    """An open star's line is as wide as its opening times the root of its swell, 1.2. Deeper cuts (0.65 of the width is usual) close first."""
    assert Tip("open star", 10, inner_mm=6.5).bead_width_mm == pytest.approx(10 * math.sqrt(1.2))
    assert Tip("open star", 10, inner_mm=8).bead_width_mm == pytest.approx(10 * math.sqrt(1.2)), "shallow grooves make it no wider"
    assert Tip("open star", 10, inner_mm=5.2).bead_width_mm == pytest.approx(10 * math.sqrt(1.2 * 5.2 / 6.5))
    assert Tip("closed star", 10, inner_mm=9).bead_height_mm == pytest.approx(10 * math.sqrt(1.95))


def test_one_stroke_is_a_swollen_slot_or_a_line() -> None:
    assert stroke_mm(Tip("ruffle", 20)) == pytest.approx(3.2 * math.sqrt(1.25))
    assert stroke_mm(Tip("round", 5)) == pytest.approx(5 * math.sqrt(1.15))
