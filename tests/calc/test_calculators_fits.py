"""How rows and tiers are fitted to one another, and every line that an order tells of a row: on either side of each condition, by hand.

The cake is that of test_calculators_order. Coated it is 66 cm round below and 50.3 cm above. Nine swags of 7.3 cm hang from the 7.5 cm cutter; 9 has
no joint at the front, because the first joint is in the middle of the back and the number is odd. Above, where nothing hangs, eight are usual.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from calc.calculators.answering import Answer
from calc.calculators.order_fit import _add_rows, _can_be_fitted, _offer_cutter, _pieces_text
from calc.calculators.order_time import job_of
from calc.calculators.order_words import bag_letters, clash_text, colour_masses, in_units, reach_texts, row_name, row_title
from calc.rows.placement import Clash
from calc.tips import Tip
from calc.units import Formatter
from tests.calc.test_calculators_order import CAKE, ONE, answered, asked, planned
from tests.calc.test_calculators_sums import rows

SAY = Formatter()
Texts = dict[str, str]


def rows_on(tier: int, **fields: str) -> Texts:
    """Fields of the rows of a tier, given as `r0_kind` and so on."""
    return {f"tiers.{tier}.rows.{name[1]}.{name[3:]}": text for name, text in fields.items()}


def tier_with(**fields: str) -> Any:
    """The lower tier with other rows."""
    return planned(**{name.replace(".", "__"): text for name, text in rows_on(0, **fields).items()}).tiers[0]


def told(texts: Texts, begins: str = "") -> list[str]:
    return [note["text"] for note in answered(CAKE | texts).notes if note.get("section") == "rows" and note["text"].startswith(begins)]


def presses(texts: Texts, words: str) -> list[tuple[dict[str, str], str]]:
    """What is set by a press of these words, and what is said once it is done."""
    return [
        (dict(press.sets), press.done) for note in answered(CAKE | texts).notes for press in note.get("presses", ()) if str(press).startswith(words)
    ]


# --- the rows of a tier ------------------------------------------------------------------------------------------------------------------

APART = {"tiers.1.rows.1.place": "top", "tiers.1.rows.1.per_joint": ""}  # on the upper tier nothing sits at joints: the tiers are not compared


@pytest.mark.parametrize(
    "fields, can_be",
    [
        ({}, False),  # swags, and shells round the base
        ({"r2_kind": "bead", "r2_place": "top edge"}, True),  # two rows of pieces that meet the joints
        ({"r2_kind": "bead", "r2_place": "top edge", "r1_kind": "line"}, False),
        ({"r2_kind": "rosette", "r2_place": "top edge"}, True),  # single pieces
        ({"r2_kind": "rosette", "r2_place": "joints"}, False),  # they sit at the joints already
        ({"r2_kind": "shell", "r2_place": "base", "r0_kind": "bead", "r0_place": "top edge"}, True),
    ],
)
def test_rows_can_be_fitted_where_that_would_change_something(fields: Texts, can_be: bool) -> None:
    assert _can_be_fitted(tier_with(**fields)) is can_be


def test_a_single_row_is_fitted_to_nothing() -> None:
    tier = tier_with(r1_kind="rosette", r1_place="top edge")
    assert _can_be_fitted(tier) and not _can_be_fitted(replace(tier, rows=tier.rows[1:])) and not _can_be_fitted(replace(tier, rows=()))


BEADS = rows_on(0, r2_kind="bead", r2_place="top edge")
OFFER = "repeats go by one row of pieces, and single pieces along an edge are one to a repeat."


def test_tiers_whose_rows_could_be_fitted_are_named_together() -> None:
    assert told(BEADS, "Lower: repeats go") == [f"Lower: {OFFER}"]
    assert presses(BEADS, "Fit all rows") == [({"tiers.0.fit": "all"}, "The rows of Lower are fitted to the same joints.")]
    both = BEADS | rows_on(1, r2_kind="bead", r2_place="base")
    assert told(both, "Lower and Upper: ") == [f"Lower and Upper: {OFFER}"]
    assert presses(both, "Fit all rows") == [
        ({"tiers.0.fit": "all", "tiers.1.fit": "all"}, "The rows of Lower and Upper are fitted to the same joints.")
    ]
    assert told(both | {"tiers.0.fit": "all"}, "Upper: repeats go") == [f"Upper: {OFFER}"]  # the other one is fitted already
    assert presses({}, "Fit all rows") == []


def test_a_fitted_tier_says_so_and_can_be_divided_again() -> None:
    """63 shells in nine repeats are seven to each; eleven beads and two leaves at each joint above."""
    both = {"tiers.0.fit": "all", "tiers.1.fit": "all"}
    assert told(both)[:2] == [
        "Lower: all rows meet the same 9 joints. Swags 1 to a repeat; shells 7 to a repeat.",
        "Upper: all rows meet the same 8 joints. Beads 11 to a repeat; leaves 2 at each joint.",
    ]
    assert presses(both, "Divide its rows separately") == [
        ({"tiers.0.fit": "own"}, "Lower: its rows are divided separately again."),
        ({"tiers.1.fit": "own"}, "Upper: its rows are divided separately again."),
    ]
    assert not any("all rows meet" in text for text in told({}))
    bare = {name: text for name, text in (CAKE | both).items() if not name.startswith("tiers.1.rows")}
    texts = [note["text"] for note in answered(bare).notes]
    assert sum("all rows meet the same" in text for text in texts) == 1  # no row, nothing to fit


WIDE = {
    **{"tiers.0.width": "22 cm", "tiers.0.fit": "all"},
    **rows_on(0, r1_tip="open star 7 mm", r2_kind="bead", r2_place="top edge", r2_tip="round 8 mm"),
}


def test_a_fitted_tier_says_what_it_would_have_by_itself_where_that_differs() -> None:
    """On 22 cm ten swags fit the 7.5 cm cutter; eight with the 9 cm one suit shells and beads better."""
    (words,) = told(WIDE, "Lower: all rows meet")
    assert words.startswith("Lower: all rows meet the same 8 joints. ") and words.endswith(
        " to a repeat. On its own it would have 10 repeats with the 7.5 cm cutter."
    )
    (fitted,) = told({"tiers.0.fit": "all"}, "Lower: all rows meet")
    assert "On its own" not in fitted
    assert not any("On its own" in text for text in told(WIDE | {"together": "yes"}))  # there the tiers say it


def test_a_fitted_tier_with_another_cutter_alone_says_so() -> None:
    """The same nine repeats with another cutter hang otherwise."""
    cake = planned(tiers__0__fit="all")
    tier = cake.tiers[0]
    assert tier.by_itself is not None
    answer = Answer("order")
    _add_rows(answer, replace(cake, tiers=(replace(tier, by_itself=replace(tier.by_itself, cutter_mm=90.0)),)))
    assert answer.notes[0]["text"].endswith(" On its own it would have 9 repeats with the 9 cm cutter.")


@pytest.mark.parametrize(
    "fields, words",
    [
        ({"r0_layers": "2"}, "Swags 1 to a repeat; shells 7 to a repeat."),
        ({"r1_kind": "leaf", "r1_place": "joints", "r1_per_joint": "3"}, "Swags 1 to a repeat; leaves 3 at each joint."),
        ({"r1_kind": "ruched border"}, "Swags 1 to a repeat."),
        ({"r1_kind": "swag", "r1_place": "under"}, "Swags 1 to a repeat."),  # told once
        ({"r1_kind": "rope"}, "Swags 1 to a repeat; ropes "),
        ({"r0_kind": "C scroll", "r0_place": "side"}, "C scrolls 1 to a repeat; shells "),
        ({"r0_kind": "ruched border", "r0_place": "top edge", "r1_kind": "ruched border"}, ""),
    ],
)
def test_pieces_are_told_by_the_repeat(fields: Texts, words: str) -> None:
    tier = planned(tiers__0__fit="all", **{name.replace(".", "__"): text for name, text in rows_on(0, **fields).items()}).tiers[0]
    found = _pieces_text(tier)
    assert found.startswith(words) and bool(found) == bool(words) and (not words.endswith(".") or found == words)


# --- the tiers -------------------------------------------------------------------------------------------------------------------------------

LOWER, UPPER = "Lower 9 repeats of 7.3 cm", "Upper 8 repeats of 6.3 cm"


@pytest.mark.parametrize(
    "texts, words",
    [
        ({}, f"Each tier is divided separately: {LOWER} and {UPPER}, without a joint at the front of Lower."),
        ({"cutters": ""}, f"Each tier is divided separately: Lower 8 repeats of 8.2 cm and {UPPER}, with a joint at the front of each."),
        (
            {"tiers.0.repeats": "7", "tiers.1.repeats": "7"},
            "Each tier is divided separately: Lower 7 repeats of 9.4 cm and Upper 7 repeats of 7.2 cm, without a joint at the front of Lower and "
            "Upper.",
        ),
        (
            {"together": "yes"},
            f"The tiers are fitted to one another: Lower 8 repeats of 8.2 cm and {UPPER}, a joint at the front of each. Divided separately, they "
            "would have: Lower 9 repeats with the 7.5 cm cutter.",
        ),
        (
            {"together": "yes", "cutters": ""},
            f"The tiers are fitted to one another: Lower 8 repeats of 8.2 cm and {UPPER}, a joint at the front of each. Divided separately, they "
            "would come out the same.",
        ),
        (
            {"together": "yes", "tiers.0.repeats": "9"},  # 7.3 cm on 66 are 5.6 on 50.3, nine of them; but ten have a joint at the front
            "The tiers are fitted to one another: Lower 9 repeats of 7.3 cm and Upper 10 repeats of 5 cm, no joint at the front of Lower. Divided "
            "separately, they would have: Upper 8 repeats.",
        ),
    ],
)
def test_tiers_with_joints_are_compared(texts: Texts, words: str) -> None:
    assert told(texts, words.split(":")[0]) == [words]


def test_tiers_are_fitted_or_not_by_a_press() -> None:
    assert presses({}, "Fit the tiers") == [({"together": "yes"}, "The tiers are fitted to one another.")]
    assert presses({"together": "yes"}, "Divide each tier") == [({"together": "no"}, "Each tier is divided separately again.")]
    for together in ("no", "yes"):  # with joints on one tier alone there is nothing to fit
        texts = {"together": together, **APART}
        assert not any("divided separately" in text or "fitted to one another" in text for text in told(texts))


def tier_beside(side_mm: float, width_mm: float, cutter: float | None, name: str, *, marked: bool = True, **order: float | None) -> Any:
    division = SimpleNamespace(cutter_mm=cutter, width_mm=width_mm)
    asked_for = {"name": name, "path": f"{name.lower()}.", "cutter_mm": None, "repeats": None} | order
    return SimpleNamespace(division=division, marked=marked, side_mm=side_mm, order=SimpleNamespace(**asked_for))


def offered(lower: Any, upper: Any, units: str = "metric") -> list[tuple[str, str, dict[str, str], str]]:
    answer = Answer("order", units)
    _offer_cutter(answer, lower, upper)
    return [(note["text"], str(press), dict(press.sets), press.done) for note in answer.notes for press in note["presses"]]


def test_a_cutter_in_proportion_is_offered_in_words() -> None:
    """80 of 90 cm round are eight ninths: of the 9 cm cutter 8 cm; a quarter of a side of 20 mm is no less than the smallest step."""
    lower, upper = tier_beside(900, 90, 90, "Lower"), tier_beside(800, 90, 90, "Upper")
    assert offered(lower, upper) == [
        (
            "Upper: with a cutter of 8 cm its swags would hang as full as those of Lower, in proportion.",
            "Use an 8 cm cutter there",
            {"upper.cutter": "8 cm"},
            "Upper is marked with an 8 cm cutter.",
        )
    ]
    assert [press for _, press, _, _ in offered(lower, tier_beside(450, 90, 90, "Upper"))] == ["Use a 4.5 cm cutter there"]
    assert [press for _, press, _, _ in offered(tier_beside(900, 90, 9, "Lower"), tier_beside(90, 90, 9, "Upper"))] == ["Use a 5 mm cutter there"]
    assert [press for _, press, _, _ in offered(lower, upper, "us")] == ["Use a 3 1/4 in cutter there"]  # 3.15 in, to the quarter
    assert [press for _, press, _, _ in offered(tier_beside(900, 90, 9, "Lower"), tier_beside(90, 90, 9, "Upper"), "us")] == [
        "Use a 1/4 in cutter there"
    ]


@pytest.mark.parametrize(
    "width, cutter, is_offered",
    [
        (80, 90, True),  # in proportion, but from the same cutter: it would hang flatter
        (80, 80, False),
        (87.9, 80, False),  # a tenth out is not seen
        (88.1, 80, True),
        (72.1, 80, False),
        (71.9, 80, True),
        (80, None, False),
    ],
)
def test_a_cutter_is_offered_where_swags_are_out_of_proportion(width: float, cutter: float | None, is_offered: bool) -> None:
    """On 80 of 90 cm the swags of 90 mm below are 80 mm above."""
    assert bool(offered(tier_beside(900, 90, 90, "Lower"), tier_beside(800, width, cutter, "Upper"))) is is_offered


@pytest.mark.parametrize(
    "lower, upper",
    [
        (tier_beside(900, 90, None, "Lower"), tier_beside(800, 90, 90, "Upper")),
        (tier_beside(900, 90, 90, "Lower", marked=False), tier_beside(800, 90, 90, "Upper")),
        (tier_beside(900, 90, 90, "Lower"), tier_beside(800, 90, 90, "Upper", marked=False)),
        (tier_beside(900, 90, 90, "Lower"), tier_beside(800, 90, 90, "Upper", cutter_mm=90.0)),
        (tier_beside(900, 90, 90, "Lower"), tier_beside(800, 90, 90, "Upper", repeats=8)),
    ],
)
def test_no_cutter_is_offered_where_none_hangs_or_the_maker_has_chosen(lower: Any, upper: Any) -> None:
    if upper.division.cutter_mm == 90 and lower.division.cutter_mm is None:
        assert offered(tier_beside(900, 90, 90, "Lower"), upper)  # with a cutter below, it would be
    assert offered(lower, upper) == []


def test_each_of_three_tiers_is_compared_with_the_one_below_it() -> None:
    """With the 9 cm cutter alone: 66 of 82 cm below, and 50 of 66."""
    texts = {
        **{"tiers.0.width": "25 cm", "tiers.1.width": "20 cm", "tiers.2.name": "Top", "tiers.2.width": "15 cm", "cutters": "9 cm", "together": "yes"},
        **rows_on(1, r0_kind="swag", r0_place="side"),
        **rows_on(2, r0_kind="swag", r0_place="side"),
    }
    found = [words for words in told(texts) if "hang as full" in words]
    assert [(words.split(":")[0], words.split("those of ")[1]) for words in found] == [
        ("Upper", "Lower, in proportion."),
        ("Top", "Upper, in proportion."),
    ]


# --- the table of rows -----------------------------------------------------------------------------------------------------------------------


def table(texts: Texts, name: str) -> dict[str, Any]:
    (found,) = [one for one in answered(CAKE | texts).tables if one["name"] == name]
    return dict(found)


def test_rows_of_a_tier_line_by_line() -> None:
    lower = table({}, "rows_1")
    assert lower["title"] == "Lower: 9 repeats round 66 cm, dividers at 7.2 cm"
    assert [column["label"] for column in lower["columns"]] == ["Row", "Tip", "Colour", "Where", "How many", "To pipe", "Buttercream"]
    assert [column["align"] for column in lower["columns"]] == ["left"] * 5 + ["right"] * 2
    assert lower["rows"] == [
        ["Swag", "petal 11 mm", "cream", "joints 1.2 cm below the top edge, drop 3 cm", "9", "91.6 cm", "21 g (16 g to 27 g)"],
        ["Shell", "open star 7 mm", "cream", "round the base", "63, 7 to a repeat, squeezed 7 %", "66 cm", "40 g (28 g to 55 g)"],
    ]
    assert rows(answered(CAKE), "rows_2") == [
        ["Bead", "round 4 mm", "cream", "on the top edge", "88, 11 to a repeat, stretched 2 %", "50.3 cm", "9.6 g (6.9 g to 13 g)"],
        ["Leaf", "leaf 6 mm", "cream", "at every joint, 1.2 cm below the top edge", "16", "25 cm", "2.3 g (1.8 g to 3 g)"],
    ]


def test_pieces_that_come_out_as_they_are_usually_piped_are_not_called_stretched() -> None:
    """66 cm in eight repeats of seven shells of an open star 7.4 mm, each 1.6 times as long as its opening: 56 of 11.8 mm, to half a percent."""
    for opening, words in (
        ("7.37", ""),
        ("7.41", ", squeezed 1 %"),
        ("7.31", ", stretched 1 %"),
    ):  # 11.79, 11.86 and 11.70 mm, of which 11.78 are had
        cells = [row[4] for row in table({"cutters": "", **rows_on(0, r1_tip=f"open star {opening} mm")}, "rows_1")["rows"]]
        assert cells == ["8", f"56, 7 to a repeat{words}"]
    assert [row[4] for row in table(rows_on(1, r1_kind="bead", r1_place="joints"), "rows_2")["rows"]][1] == "16"  # one by one at the joints


def test_ways_to_divide_line_by_line() -> None:
    """Where nothing hangs there is no cutter and no drop."""
    marked, free = table({}, "others_1"), table({}, "others_2")
    assert marked["title"] == "Lower: ways to divide it, the best first" and free["title"] == "Upper: ways to divide it, the best first"
    assert [(column["label"], column["align"]) for column in marked["columns"]] == [
        *(("Repeats", "right"), ("Cutter", "right"), ("Width", "right"), ("Drop", "right"), ("For and against", "left"), ("Use it", "left")),
    ]
    assert [(column["label"], column["align"]) for column in free["columns"]] == [
        *(("Repeats", "right"), ("From joint to joint", "right"), ("For and against", "left"), ("Use it", "left")),
    ]
    assert [row[:4] for row in marked["rows"]][:2] == [["9", "7.5 cm", "7.3 cm", "3 cm"], ["8", "9 cm", "8.2 cm", "2.7 cm"]]
    assert [row[:2] for row in free["rows"]][:3] == [["8", "6.3 cm"], ["9", "5.6 cm"], ["7", "7.2 cm"]]
    assert [str(row[-1]) for row in marked["rows"]][:2] == ["In use", "Use 8 with 9 cm"] and [str(row[-1]) for row in free["rows"]][:2] == [
        "In use",
        "Use 9",
    ]
    (none,) = {row[1] for row in table({"cutters": ""}, "others_1")["rows"]}
    assert none == "none"
    assert marked["rows"][1][-1].sets == {"tiers.0.repeats": "8", "tiers.0.cutter": "9 cm"}
    assert free["rows"][1][-1].sets == {"tiers.1.repeats": "9", "tiers.1.cutter": ""}
    assert free["rows"][1][-1].done.startswith("Upper: 9 repeats.")


def test_pieces_in_the_ways_to_divide_are_called_what_they_are() -> None:
    assert "shells squeezed by 7 %" in table({}, "others_1")["rows"][0][4] and "beads meet the joints" in table({}, "others_2")["rows"][0][2]
    plain = table(rows_on(0, r1_kind="line"), "others_1")["rows"]
    assert not any("shell" in row[4] for row in plain)


def test_a_corner_speaks_for_a_way_to_divide_a_square() -> None:
    square = [row[4] for row in table({"tiers.0.shape": "square", "tiers.1.width": "12 cm"}, "others_1")["rows"]]
    assert "a joint on every corner" in square[0] and not any("corner" in row[4] for row in table({}, "others_1")["rows"])


def test_ways_to_divide_say_what_they_are_in_proportion_to() -> None:
    """Only where the tiers are fitted, and by the name of the tier below that has joints."""
    together = [row[2] for row in table({"together": "yes"}, "others_2")["rows"]]
    assert any("in proportion to Lower" in text for text in together)
    assert not any("in proportion" in row[2] for row in table({}, "others_2")["rows"])
    assert not any("in proportion" in row[4] for row in table({"together": "yes"}, "others_1")["rows"])
    three = {
        **{"tiers.0.width": "25 cm", "tiers.1.width": "20 cm", "tiers.2.name": "Top", "tiers.2.width": "15 cm", "together": "yes"},
        **rows_on(1, r1_place="top", r1_per_joint=""),  # nothing at its joints
        **rows_on(2, r0_kind="leaf", r0_place="joints"),
    }
    assert any("in proportion to Lower" in row[2] for row in table(three, "others_3")["rows"])


@pytest.mark.parametrize(
    "texts, words",
    [
        ({"tiers.0.repeats": "9"}, "Lower: you chose 9 repeats with the 7.5 cm cutter; that is what would be chosen for you too."),
        ({"tiers.0.cutter": "7.5 cm"}, "Lower: you chose 9 repeats with the 7.5 cm cutter; that is what would be chosen for you too."),
        (
            {"tiers.0.repeats": "6"},
            "Lower: you chose 6 repeats with the 9 cm cutter; chosen for you, it would be 9 repeats with the 7.5 cm cutter.",
        ),
        ({"tiers.1.repeats": "7"}, "Upper: you chose 7 repeats; chosen for you, it would be 8 repeats."),
    ],
)
def test_what_was_chosen_is_told_beside_what_would_be(texts: Texts, words: str) -> None:
    assert told(texts, words.split(";")[0]) == [words]
    name, path = words.split(":")[0], next(iter(texts)).rsplit(".", 1)[0]
    assert presses(texts, "Choose for me again") == [({f"{path}.repeats": "", f"{path}.cutter": ""}, f"{name}: divided for you again.")]
    taken = [row for row in table(texts, f"others_{1 + int(path[-1])}")["rows"] if row[-1] in ("In use", "Your choice")]
    assert [row[-1] for row in taken] == ["Your choice"]


def test_a_tier_without_joints_has_no_ways_to_divide_it() -> None:
    names = [one["name"] for one in answered(CAKE | APART).tables]
    assert "others_1" in names and "others_2" not in names


# --- figures of the rows -----------------------------------------------------------------------------------------------------------------------


def test_figures_of_the_rows_are_called_by_their_row() -> None:
    """Four rows, the second of the first tier and the first of the second in rows of pieces."""
    found = answered(CAKE).figures
    labels = {name: figure["label"] for name, figure in found.items() if figure.get("section") == "rows" and name[-1].isdigit()}
    swag, shell = "swag, petal 11 mm, cream", "shell, open star 7 mm, cream"
    lower = {name: label for name, label in labels.items() if name.endswith("_1") or "_1_" in name}
    assert lower == {
        **{"repeats_1": "Repeats, Lower", "pitch_1": "Pitch, Lower", "dividers_1": "Dividers, Lower", "drop_1": "Drop, Lower"},
        **{"closing_error_1": "Closing error, dividers set to the millimetre, Lower", "arc_radius_1": "Radius of the arc, Lower"},
        **{"length_each_1": f"Length of one, {swag}", "length_total_1": f"Length to pipe, {swag}"},
        **{"count_1_1": f"How many, {swag}", "length_1_1": f"Length to pipe, {swag}", "mass_1_1": f"Buttercream, {swag}"},
        **{"time_1_1": f"Time to pipe, {swag}", "count_1_2": f"How many, {shell}", "length_1_2": f"Length to pipe, {shell}"},
        **{"mass_1_2": f"Buttercream, {shell}", "time_1_2": f"Time to pipe, {shell}", "pitch_1_2": f"Pitch, {shell}"},
        **{"stretch_1_2": f"Stretched, {shell}"},
        **{name: label for name, label in labels.items() if name in ("count_2_1", "length_2_1", "mass_2_1", "time_2_1", "pitch_2_1", "stretch_2_1")},
    }
    assert {name for name in labels if name not in lower} == {
        *("repeats_2", "pitch_2", "dividers_2", "closing_error_2", "count_2_2", "length_2_2", "mass_2_2", "time_2_2"),
    }
    plain = {
        name: (figure["label"], bool(figure.get("quiet"))) for name, figure in found.items() if figure.get("section") == "rows" and "_" not in name
    }
    assert plain == {
        **{"repeats": ("Repeats", False), "width": ("Swag width", False), "drop": ("Drop", False), "dividers": ("Dividers, Lower", True)},
    }
    for name in ("low", "high"):
        assert found["mass_1_1"][name] != found["mass_1_1"]["value"] != found["time_1_1"][name]


def test_the_closing_error_goes_by_the_side_that_the_tape_gives() -> None:
    """700 mm by eight are chords of 85.3 mm on a circle of 222.8; set to 85 mm each step spans 87.16, so that eight end 2.7 mm short of 700."""
    found = answered(CAKE | {"cutters": "", "tiers.0.side": "70 cm"}).figures
    across = 700 / math.pi
    assert found["dividers_1"]["value"] == pytest.approx(across * math.sin(math.pi / 8))
    assert found["closing_error_1"]["value"] == pytest.approx(8 * across * math.asin(85 / across) - 700, abs=0.01)
    assert found["closing_error_1"]["text"].endswith(" short") and found["pitch_1"]["value"] == pytest.approx(87.5)


@pytest.mark.parametrize("tape", ["84 cm", "84.4 cm", "88 cm"])
def test_on_a_square_the_dividers_start_at_a_corner(tape: str) -> None:
    """Four swags of 21, 21.1 or 22 cm, each along a side: a whole number of millimetres closes exactly, but only from corner to corner."""
    found = answered(
        CAKE | {"tiers.0.shape": "square", "tiers.1.width": "10 cm", "tiers.0.repeats": "4", "tiers.0.side": tape, "cutters": ""}
    ).figures
    assert found["dividers_1"]["value"] == pytest.approx(10 * float(tape.split()[0]) / 4)
    assert found["closing_error_1"]["value"] == pytest.approx(0, abs=1e-6) and found["closing_error_1"]["text"] == "none"


def test_every_row_that_has_something_to_say_says_whose_it_is() -> None:
    """A note of a row stands under its tier and its name, and a clash under its tier; where there is one, not all rows fit."""
    deep = told({"tiers.0.rows.0.drop": "9 cm", "tiers.0.repeats": "5"}, "Lower: the swag, petal 11 mm, cream")
    assert deep and "all rows fit" not in " ".join(told({"tiers.0.rows.0.drop": "9 cm", "tiers.0.repeats": "5"}, "Lower"))
    assert told({}, "Lower: all rows fit") == ["Lower: all rows fit the side."] and told({}, "Upper: all rows fit") == [
        "Upper: all rows fit the side."
    ]
    bare = {name: text for name, text in CAKE.items() if not name.startswith("tiers.1.rows")}
    assert [note["text"] for note in answered(bare).notes if "all rows fit" in note["text"]] == ["Lower: all rows fit the side."]


def test_the_side_laid_flat_is_described_by_its_marking_and_its_rows() -> None:
    (drawing,) = [one for one in answered(CAKE).drawings if one["name"].startswith("unrolled")]
    assert (drawing["name"], drawing["title"]) == ("unrolled_1", "Lower: the side laid flat, from the middle of the back")
    assert drawing["description"].startswith("9 repeats of 7.3 cm close round 66 cm; joints 1.2 cm below the top edge. ")
    assert drawing["description"].endswith(" swag, petal 11 mm, cream joints 1.2 cm below the top edge; shell, open star 7 mm, cream round the base.")


def test_a_row_on_the_top_that_is_crowded_is_told_whole() -> None:
    """Inside the edge of 16 cm, coated 17, with one of 15 cm on it, coated 16: 5 mm are free less what stands round its foot."""
    typed = {"tiers.0.name": "Lower", "tiers.0.width": "16 cm", "guests": "4", "tiers.0.rows.0.kind": "shell", "tiers.0.rows.0.place": "inside"}
    typed |= {"tiers.0.rows.0.tip": "open star 6 mm", "tiers.1.name": "Upper", "tiers.1.width": "15 cm"}
    (text,) = [note["text"] for note in answered(typed).notes if "reaches" in note["text"]]
    assert text.startswith("Lower: the shell, open star 6 mm, cream reaches ") and text.endswith(
        " in from the edge, and only 5 mm are free beside Upper and what is piped round its foot. Use a finer tip or a smaller tier above, "
        "or leave a row out."
    )


# --- words ---------------------------------------------------------------------------------------------------------------------------------------


def test_a_row_by_its_title_and_its_name() -> None:
    swag = planned().tiers[0].rows[0]
    assert (row_title(swag), row_name(swag)) == ("Swag", "Swag, petal 11 mm, cream")


@pytest.mark.parametrize(
    "note, us",
    [
        ("It wants 25.4 mm of room", "It wants 1 in of room"),
        ("12.7 mm and 50.8 mm", "1/2 in and 2 in"),
        ("an opening of 12.7 mm", "an opening of 12.7 mm"),
        ("no lengths", "no lengths"),
    ],
)
def test_lengths_in_a_note_are_told_in_inches_and_openings_are_not(note: str, us: str) -> None:
    assert in_units(note, Formatter("us")) == us and in_units(note, SAY) == note


def test_colours_add_up_to_the_whole_in_ounces() -> None:
    """In grams each is written for itself."""
    cake, us = planned(), Formatter("us")
    grams, ounces = colour_masses(cake.amounts, SAY), colour_masses(cake.amounts, us)
    assert grams.masses_g == tuple(amount.mass_g for amount in cake.amounts) and len(grams.masses_g) == 3
    assert sum(ounces.masses_g) == pytest.approx(us.told_mass_g(sum(grams.masses_g))) and ounces.masses_g != grams.masses_g


def test_bags_have_letters_in_the_order_of_the_bench() -> None:
    assert list(bag_letters(planned()).items()) == [
        (("cream", Tip("petal", 11)), "A"),
        (("cream", Tip("round", 4)), "B"),
        (("cream", Tip("open star", 7)), "C"),
        (("cream", Tip("leaf", 6)), "D"),
    ]


def clashed(one: Any, other: Any, where: str) -> str:
    return clash_text(Clash(one, other, 12.0, where), SAY)


def test_every_clash_has_its_own_way_out() -> None:
    """Of what hangs the drop is made shallower or the joints are moved; what runs level is moved or made finer."""
    tier = tier_with(r2_kind="bead", r2_place="side", r2_below="6 cm")
    swag, shell, bead = tier.rows
    names = {id(swag): "the swag, petal 11 mm, cream", id(shell): "the shell, open star 7 mm, cream", id(bead): "the bead, round 4 mm, cream"}
    below, above = "does not fit: it runs 1.2 cm past the board.", "does not fit: it runs 1.2 cm past the top edge."
    assert clashed(swag, None, "below the board") == f"{names[id(swag)]} {below} Make the drop shallower, use more repeats, or leave a row out."
    assert clashed(bead, None, "below the board") == f"{names[id(bead)]} {below} Set it higher, use a finer tip, or leave a row out."
    assert clashed(swag, None, "above the edge") == f"{names[id(swag)]} {above} Set its joints lower."
    assert clashed(bead, None, "above the edge") == f"{names[id(bead)]} {above} Set it lower, or use a finer tip."
    hung = "collide at the joints: they overlap by 1.2 cm. Make the drop shallower, move the joints, or leave one out."
    for one, other in ((swag, bead), (bead, swag)):
        assert clashed(one, other, "at the joints") == f"{names[id(one)]} and {names[id(other)]} {hung}"
    level = "collide all round: they overlap by 1.2 cm. Move one of them, use finer tips, or leave one out."
    assert clashed(bead, shell, "at the joints") == f"{names[id(bead)]} and {names[id(shell)]} {level}"


def step(number: int, line_mm: float, out_mm: float = 0.0, kind: str = "swag") -> Any:
    row = SimpleNamespace(line_mm=line_mm, amount=SimpleNamespace(stands_out_mm=out_mm), spec=SimpleNamespace(kind=kind))
    return SimpleNamespace(number=number, row=row)


def test_of_several_rows_in_the_way_the_one_that_stands_out_furthest_is_told() -> None:
    high, far, low = step(1, 10.0, 8.0, "rope"), step(2, 50.0, 12.0, "ruched swag"), step(3, 30.0)
    texts = {
        "rope": "The rope of step 1 stands out 8 mm close by: come from below, with the tip almost flat to the side.",
        "swag": "The ruched swag of step 2 stands out 1.2 cm close by: come from above, with the tip almost flat to the side.",
    }
    for pairs in (((low, high), (low, far)), ((low, far), (low, high))):
        assert reach_texts(SimpleNamespace(in_the_way=pairs), SAY) == {3: texts["swag"]}  # type: ignore[arg-type]
    two: Any = SimpleNamespace(in_the_way=((low, high), (step(4, 50.0), far)))
    assert reach_texts(two, SAY) == {3: texts["rope"], 4: texts["swag"]}  # beside it, on the same line, one comes from above


# --- time ----------------------------------------------------------------------------------------------------------------------------------------


def test_the_job_of_an_order_by_hand() -> None:
    """Ivory and cream are two tints; each row with its bag, its tier and what it takes."""
    cake = planned(stacked="venue", tiers__1__rows__0__place="base", tiers__1__rows__0__colour="sage", tiers__0__layers="2")
    job = job_of(cake, asked(travel="45 min", spare="2 h", hand="learning", out_limit="90 min", stacked="venue"))
    assert [(tier.name, tier.width_mm, tier.height_mm, tier.layers) for tier in job.tiers] == [("Lower", 200, 100, 2), ("Upper", 150, 100, 3)]
    assert [(row.name, row.tier, row.bag, row.joint) for row in job.rows] == [
        ("Lower, swag, petal 11 mm, cream", 0, "cream, petal 11 mm", False),
        ("Lower, shell, open star 7 mm, cream", 0, "cream, open star 7 mm", False),
        ("Upper, leaf, leaf 6 mm, cream", 1, "cream, leaf 6 mm", False),
        ("Upper, bead, round 4 mm, sage", 1, "sage, round 4 mm", True),  # it covers the joint, so it is piped there
    ]
    assert [row.time_min for row in job.rows] == [step.row.amount.time_min for step in cake.steps]
    assert (job.stacked, job.travel_min, job.spare_min, job.hand, job.out_limit_min) == ("venue", 45, 120, "learning", 90)
    assert (job.colours, job_of(planned(), asked()).stacked) == (3, "before")
    plain = {"tiers__0__colour": "plain", "tiers__1__colour": "plain", **{f"tiers__{i}__rows__{j}__colour": "plain" for i in (0, 1) for j in (0, 1)}}
    assert (job_of(planned(**plain), asked()).colours, job_of(planned(), asked()).colours) == (1, 2)  # a bowl that is not tinted is one, too


def test_a_start_is_told_with_the_hours_that_are_left() -> None:
    found = answered(CAKE).figures["start"]
    begins = dt.datetime.strptime(found["text"].split(" ", 1)[1], "%d %B %Y, %H:%M")
    assert found["value"] == (dt.datetime(2027, 10, 16, 18, 0) - begins).total_seconds() / 60 and (found["label"], found["unit"]) == ("Begin", "min")
    hands = answered(ONE).figures["hands"]
    assert (hands["label"], hands["unit"]) == ("Hands at work", "min") and hands["text"] == SAY.working_time(hands["value"])
