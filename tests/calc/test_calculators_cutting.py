"""How a top is cut into portions, told line by line: what each cut gives, where the knife goes, and what is said of one portion, of two and of three.

A square is cut as it is counted on squared paper: 20 cm hold 8 slices of 2.5 cm one way and 4 of 5 cm the other, 32 in all.
"""

from __future__ import annotations

from typing import Any

import pytest

import calc
from calc.calculators.portions_form import _ends_words, levels_words, slice_words
from calc.units import Formatter
from tests.calc.test_calculators_sums import answered, rows, value

SAY = Formatter()
Typed = dict[str, str]
SQUARE: Typed = {"shape": "square", "width": "20 cm", "cut": "grid"}
ON_THE_SPONGE = "Slices are counted on the sponge: type the size of the tin, not of the coated cake."


def portions(**typed: str) -> Any:
    return answered("portions", typed)


def told(found: Any) -> list[str]:
    return [note["text"] for note in found.notes]


def problem(**typed: str) -> tuple[str, str]:
    (found,) = calc.compute("portions", typed).problems
    return found["input"], found["message"]


def title(found: Any, name: str) -> str:
    return str(next(table["title"] for table in found.tables if table["name"] == name))


# --- a square, counted ------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("height, levels", [("", 1), ("14.9 cm", 1), ("15 cm", 2), ("29.9 cm", 2), ("30 cm", 3)])
def test_every_figure_of_a_square_by_hand(height: str, levels: int) -> None:
    """Three cuts one way and seven the other, and the four edges that a grid trims; nothing is left over of 400 cm2."""
    found = portions(**SQUARE, height=height)
    on = f", on {levels} levels" if levels > 1 else ""
    figures = {name: (figure["label"], figure["value"], figure["text"]) for name, figure in found.figures.items() if not figure.get("quiet")}
    assert figures["portions"] == (f"Equal portions{on}", 32 * levels, str(32 * levels))
    assert figures["rectangles"] == ("Of these, whole rectangles", 32 * levels, str(32 * levels))
    assert figures["area_bound"] == ("The most its area allows", 32 * levels, str(32 * levels))
    assert figures["cut"] == ("Cut", 14, "grid, 14 cuts")
    assert figures["slice_area"] == ("A slice seen from above", 1250, "12.5 cm²") and figures["top_area"] == ("The top", 40000, "400 cm²")
    assert figures["offcut"] == ("Left over as offcuts", 0, "0 %")
    assert ("slice_volume" in figures) == ("slice_mass" in figures) == bool(height)
    quiet = {name: (figure["label"], figure["value"]) for name, figure in found.figures.items() if figure.get("quiet")}
    several = {"per_level": ("Portions on each level", 32), "portions_two_levels": ("Portions, on all levels", 32 * levels)}
    assert quiet == (several if levels > 1 else {})
    assert rows(found, "knife") == [
        ["1", "Cut straight lines from left to right, 5 cm apart, the first through the middle"],
        ["2", "Cut across them from front to back, 2.5 cm apart"],
    ]
    assert title(found, "cuts") == f"What each cut gives{on}" and [row[0] for row in rows(found, "cuts")] == ["Grid", "Strips", "Wedges"]
    assert [row[1] for row in rows(found, "cuts")][:2] == [str(32 * levels)] * 2
    assert [row[2] for row in rows(found, "cuts")] == [
        "Whole slices on a grid centred on the top",
        "Strips as wide as the slice is long, each cut across",
        "Cuts through the middle",
    ]
    assert title(found, "slices") == f"This top in slices by name{on}" and rows(found, "slices") == [
        ["Finger, with coffee", "2.5 cm x 2.5 cm", str(64 * levels)],  # 8 x 8
        ["Wedding", "2.5 cm x 5 cm", str(32 * levels)],
        ["Party", "4 cm x 5 cm", str(20 * levels)],  # 5 x 4
        ["Square, from a sheet", "5 cm x 5 cm", str(16 * levels)],
    ]
    assert title(found, "tins") == f"Usual tins of this shape in slices of 2.5 cm x 5 cm{on}" and rows(found, "tins") == [
        [f"{width} cm", str(count * levels), "Grid"]
        for width, count in ((10, 4 * 2), (15, 6 * 3), (20, 8 * 4), (25, 10 * 5), (30, 12 * 6), (35, 14 * 7), (40, 16 * 8))
    ]
    (drawing,) = found.drawings
    assert drawing["title"] == "32 equal portions by grid" + (f", on each of {levels} levels" if levels > 1 else "")
    assert drawing["description"] == (
        "The top of a square cake seen from above, cut into 32 equal portions: Cut straight lines from left to right, 5 cm apart, the first through "
        "the middle; Cut across them from front to back, 2.5 cm apart."
    )
    high = f"A slice {height} high is more than most people eat. "
    assert [text.partition(high)[0] and "label" if high not in text else "tall" for text in told(found)[:-1]] == ["label"] * bool(height) + [
        "tall"
    ] * (levels > 1)
    assert told(found)[-1] == ON_THE_SPONGE and len(found.cautions) == 1


def test_columns_of_counts_stand_on_the_right() -> None:
    found = portions(**SQUARE)
    sides = {table["name"]: [column["align"] for column in table["columns"]] for table in found.tables}
    assert sides == {
        "knife": ["right", "left"],
        "cuts": ["left", "right", "left"],
        "slices": ["left", "left", "right"],
        "tins": ["left", "right", "left"],
    }


def test_a_slice_weighs_what_its_sponge_does() -> None:
    """2.5 by 5 by 10 cm are 125 ml; plain sponge weighs 0.415 g a millilitre, 0.28 to 0.46. On two levels of 20 cm a slice is no higher."""
    for height in ("10 cm", "20 cm"):
        found = portions(**SQUARE, height=height).figures
        assert (found["slice_volume"]["label"], found["slice_volume"]["text"]) == ("A slice holds", "125 ml")
        assert (found["slice_mass"]["label"], found["slice_mass"]["text"]) == ("A slice of plain sponge weighs", "52 g (35 g to 58 g)")
    assert portions(**SQUARE, height="14 cm").figures["slice_volume"]["value"] == pytest.approx(175)
    odd = portions(**SQUARE, height="15.1 cm", slice="25 x 51 mm").figures  # 12.75 cm2, 7.55 cm high
    assert odd["slice_volume"]["value"] == pytest.approx(96.2625)


def test_a_tall_tier_is_told_by_its_levels() -> None:
    """30 cm on three levels are 10 cm each; on two the board is half way up."""
    assert levels_words(300.0, 32, SAY) == (
        "Built with a board and supports after each 10 cm, the tier is cut on 3 levels, each by the same plan: 3 x 32 = 96 portions, each 10 cm high."
    )
    assert levels_words(200.0, 5, Formatter("us")).startswith("Built with a board and supports half way up, the tier is cut on 2 levels")
    assert levels_words(350.0, 5, SAY).endswith("3 x 5 = 15 portions, each 11.7 cm high.")
    assert levels_words(200.0, 5, SAY).endswith("2 x 5 = 10 portions, each 10 cm high.")
    tall = told(portions(**SQUARE, height="20 cm"))
    assert tall[1] == "A slice 20 cm high is more than most people eat. " + levels_words(200.0, 32, SAY)


def test_sheets_have_tins_of_two_sizes() -> None:
    """8 by 6 in 20 x 30 cm; and 23 x 33, 30 x 40 and 40 x 60: 12 x 8 and 16 x 12. In inches the sheets have names."""
    found = portions(shape="rectangle", width="20 cm", length="30 cm")
    assert [row[0] for row in rows(found, "tins")] == ["20 x 30 cm", "23 x 33 cm", "30 x 40 cm", "40 x 60 cm"]
    assert [row[1] for row in rows(found, "tins") if row[0] != "23 x 33 cm"] == ["48", "96", "192"]
    us = portions(shape="rectangle", width="9 in", length="13 in", units="us")
    assert [row[0].split(",")[0] for row in rows(us, "tins")] == ["Eighth sheet", "Quarter sheet", "Half sheet", "Full sheet"]
    assert rows(us, "slices")[1][:2] == ["Wedding", "1 in x 2 in"] and rows(us, "tins")[0][1] == "27"  # 6 x 9 in: 27 of 1 x 2 in, by their area


def test_a_full_heart_has_tins_as_full() -> None:
    """What the tin holds says how full it is: 29 cm2 more at 10 cm deep, a fullness of 72.5 % for 2.9 l in 20 cm. Its other tins are like it."""
    for holds, words in (("2.9 l", "72.5 %"), ("3.1 l", "77.5 %")):
        found = portions(shape="heart", width="20 cm", holds=holds, deep="10 cm")
        assert told(found)[0] == f"Going by what it holds, the heart's fullness is {words}."
        assert next(row[1] for row in rows(found, "tins") if row[0] == "20 cm") == found.figures["portions"]["text"]
    scaled = portions(width="20 cm", holds="2.9 l", deep="10 cm")  # 290 cm2 are a round of 19.2 cm
    assert told(scaled)[0] == "Going by what it holds, the tin is treated as 19.2 cm wide." and value(scaled, "top_area") == pytest.approx(29000)
    flat = portions(shape="oval", width="20 cm", length="30 cm", holds="4.7 l", deep="10 cm")
    assert told(flat)[0].startswith("Going by what it holds, the tin is treated as ") and value(flat, "top_area") == pytest.approx(47000)
    assert not any("Going by" in text for text in told(portions(width="20 cm")))


# --- one portion, two and three ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, count, cut, drawn",
    [
        ({"width": "10 cm", "slice": "10 x 7 cm"}, 1, "nothing to cut", "1 portion by strips"),
        ({"shape": "square", "width": "10 cm", "slice": "50 x 90 mm", "cut": "strips"}, 2, "strips, 1 cut", "2 equal portions by strips"),
        (
            {"shape": "rectangle", "width": "10 cm", "length": "30 cm", "slice": "10 x 10 cm", "cut": "strips"},
            3,
            "strips, 2 cuts",
            "3 equal portions by strips",
        ),
    ],
)
def test_cuts_and_portions_are_counted(typed: Typed, count: int, cut: str, drawn: str) -> None:
    """A round of 10 cm is little more than a slice of 7 by 10; a square is halved by one cut, and 10 by 30 cm take two."""
    found = portions(**typed)
    assert (value(found, "portions"), found.figures["cut"]["text"], found.drawings[0]["title"]) == (count, cut, drawn)


def test_which_portions_are_whole_rectangles_is_told() -> None:
    ends = "the area of the slice, and a rounded or a pointed end."
    assert _ends_words(0, 1) == f"It is not a whole rectangle: it has {ends}"
    assert _ends_words(0, 2) == f"The portions are equal by area. None is a whole rectangle: they have {ends}"
    assert _ends_words(1, 3) == f"The portions are equal by area. 1 is a whole rectangle; the others have {ends}"
    assert _ends_words(2, 6) == f"The portions are equal by area. 2 are whole rectangles; the others have {ends}"


@pytest.mark.parametrize(
    "typed, begins",
    [
        ({"width": "20 cm"}, "The portions are equal by area. None is"),
        ({"width": "20 cm", "slice": "50 x 180 mm", "cut": "strips"}, "The portions are equal by area. 1 is"),  # three strips, one in the middle
        ({"width": "20 cm", "slice": "50 x 180 mm", "cut": "strips", "height": "20 cm"}, "The portions are equal by area. 2 are"),  # on each level
        ({"width": "10 cm", "slice": "10 x 7 cm"}, "It is not a whole rectangle: "),
        ({"width": "10 cm", "slice": "10 x 7 cm", "height": "20 cm"}, "The portions are equal by area. None is"),  # one on each level
        (SQUARE, ""),
    ],
)
def test_rounded_ends_are_told_where_there_are_some(typed: Typed, begins: str) -> None:
    texts = [text for text in told(portions(**typed)) if "rectangle" in text]
    assert [text.startswith(begins) for text in texts] == [True] * bool(begins)


# --- what does not go -------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, at, words",
    [
        (
            {"width": "10 cm", "slice": "9 x 9 cm", "cut": "rings"},
            "slice",
            "A slice of 9 cm x 9 cm is larger than this top. Make the slice smaller or",
        ),
        (
            {"width": "10 cm", "slice": "9 x 6 cm", "cut": "grid"},
            "cut",
            "No whole slice of 6 cm x 9 cm comes out of this top by this cut. Make the slice smaller, or leave the cut open",
        ),
        (
            {"shape": "rectangle", "width": "10 cm", "length": "100 cm", "slice": "30 x 30 cm"},  # 1000 cm2 hold 900, but not 30 cm across
            "slice",
            "No slice of 30 cm x 30 cm comes out of this top. Make the slice smaller or the tin wider",
        ),
        ({"shape": "heart", "cut": "rings"}, "cut", "Rings are cut on a round, and this is a heart. Choose strips, grid or wedges"),
        ({"width": "20 cm", "slice": "19.9 x 50 mm"}, "slice", "Slice must be between 2 cm and 30 cm each way. Write it like 25 x 50 mm or 1 x 2 in"),
        ({"width": "60 cm", "slice": "50 x 300.1 mm"}, "slice", "Slice must be between 2 cm and 30 cm each way. Write it like 25 x 50 mm"),
        ({"width": "60 cm", "slice": "300.1 x 50 mm"}, "slice", "Slice must be between 2 cm and 30 cm each way. Write it like 25 x 50 mm"),
        ({"shape": "oval", "width": "20 cm"}, "length", "Length of the tin is empty, and an oval needs one. Write it like 30 cm"),
        ({"shape": "rectangle", "width": "30 cm"}, "length", "a rectangle needs one. Write it like 45 cm"),  # half as long again as it is wide
        ({"shape": "oval", "width": "8 cm", "length": "81 cm"}, "length", "An oval is at most ten times as long as it is wide. Make the length"),
    ],
)
def test_what_cannot_be_cut_is_told_at_its_field(typed: Typed, at: str, words: str) -> None:
    found, message = problem(**typed)
    assert found == at and words in message


@pytest.mark.parametrize("text", ["20 x 300 mm", "300 x 20 mm", "20 x 130", "130 x 20", "2 x 30 cm"])
def test_a_slice_of_2_to_30_cm_is_cut(text: str) -> None:
    """Without a unit it is in millimetres, of which 20 to 130 are usual."""
    assert value(portions(width="60 cm", slice=text), "portions") > 1


@pytest.mark.parametrize(
    "units, text, words",
    [
        ("metric", "19 x 50", "19 x 50 is read as 19 x 50 mm, which is unusually small"),
        ("metric", "50 x 19", "is read as 50 x 19 mm, which is unusually small"),
        ("metric", "50 x 131", "50 x 131 is read as 50 x 131 mm, which is unusually large"),
        ("metric", "131 x 50", "which is unusually large"),
        ("metric", "1 x 2", "Write 1 x 2 mm if you mean it, or 1 x 2 in"),
        ("us", "25 x 50", "25 x 50 is read as 25 x 50 in, which is unusually large. Write 25 x 50 in if you mean it, or 25 x 50 mm"),
    ],
)
def test_a_slice_without_a_unit_that_is_unusual_is_asked_about(units: str, text: str, words: str) -> None:
    at, message = problem(width="40 cm", slice=text, units=units)
    assert at == "slice" and words in message


@pytest.mark.parametrize(
    "text, metric, us",
    [
        ("finger", 625, 25.4**2),
        (" Finger, with coffee ", 625, 25.4**2),
        ("WEDDING", 1250, 2 * 25.4**2),
        ("party", 2000, 3 * 25.4**2),  # 4 x 5 cm; 1 1/2 x 2 in
        ("square", 2500, 4 * 25.4**2),
        ("1 x 2 in", 2 * 25.4**2, 2 * 25.4**2),
        ("30 x 40 mm", 1200, 1200),
    ],
)
def test_a_slice_has_a_name_or_a_size(text: str, metric: float, us: float) -> None:
    assert value(portions(width="40 cm", slice=text), "slice_area") == pytest.approx(metric)
    assert value(portions(width="16 in", slice=text, units="us"), "slice_area") == pytest.approx(us)


@pytest.mark.parametrize("length, is_told", [("20 cm", False), ("20.05 cm", True), ("19.9 cm", True), ("", False)])
def test_a_length_that_is_not_used_is_told(length: str, is_told: bool) -> None:
    words = "Length is not used: a hexagon has one size, its width."
    assert (words in told(portions(shape="hexagon", width="20 cm", length=length))) is is_told


def test_a_slice_is_written_as_it_was_typed() -> None:
    """Which side is wide and which long is the reader's own."""
    assert (slice_words((25.0, 50.0), SAY), slice_words((50.0, 25.0), SAY)) == ("2.5 cm x 5 cm", "5 cm x 2.5 cm")
