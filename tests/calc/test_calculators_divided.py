"""A side that is divided: why each way stands where it does, in words, and what the dividers are set to on any outline, up to each limit."""

from __future__ import annotations

import math
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, division_form
from calc.calculators.declare import parse
from calc.calculators.division_form import (
    closing_error_on,
    closing_words,
    dividers_words,
    fineness_words,
    is_one_setting,
    outline_of,
    setting_mm,
    settings_by_step,
    side_of,
)
from calc.calculators.division_words import choice_words, exact_length, shown_choices, stretched_words, take, why
from calc.division import Division
from calc.shapes import outline
from calc.units import Formatter, Problem
from tests.calc.test_calculators_sums import answered, rows, value

SAY, US = Formatter(), Formatter("us")


def way(**changes: Any) -> Division:
    """Eight repeats of 80 mm, 30 mm deep, for which and against which nothing speaks but that a drop is wanted."""
    plain: dict[str, Any] = {
        **{"repeats": 8, "width_mm": 80.0, "cutter_mm": None, "drop_mm": 30.0, "length_each_mm": 110.0, "guide_mm": None, "gap_mm": 0.0},
        **{"piece_stretch_percent": 0.0, "penalty": 0.0, "points": (("shallow", 0.0),)},
    }
    return Division(**{**plain, **changes})


FIRST = "as wide as swags usually are"  # what is said of the first where nothing else is
LATER = "little behind the first"  # and of any other

# What is changed, of the way and of how it is told, and what is said of it as the first.
FIRSTS: list[tuple[dict[str, Any], dict[str, Any], str]] = [
    ({}, {}, FIRST),
    ({}, {"hangs": False}, "as far apart as joints usually are"),
    ({"points": ()}, {}, "hangs full"),
    ({"points": ()}, {"hangs": False}, "as far apart as joints usually are"),
    ({"points": (), "wanted_drop_mm": 40.0}, {}, FIRST),
    # a cutter and its gap: closed, told from 0.1 mm, covered up to 1 mm
    ({"cutter_mm": 80.0}, {}, "closes exactly with the 8 cm cutter"),
    ({"cutter_mm": 79.95, "gap_mm": 0.05}, {}, "closes exactly with the 8 cm cutter"),
    ({"cutter_mm": 75.0, "gap_mm": 0.1}, {}, "the 7.5 cm cutter closes except for 0.1 mm, which the piping covers"),
    ({"cutter_mm": 75.0, "gap_mm": 1.0}, {}, "the 7.5 cm cutter closes except for 1 mm, which the piping covers"),
    ({"cutter_mm": 75.0, "gap_mm": 1.05}, {}, FIRST),
    ({"gap_mm": 0.5}, {}, FIRST),  # no cutter, no gap
    # the drop that was asked for, but for half a millimetre
    ({"drop_mm": 30.4, "wanted_drop_mm": 30.0}, {}, "the drop you asked for"),
    ({"drop_mm": 29.6, "wanted_drop_mm": 30.0}, {}, "the drop you asked for"),
    ({"drop_mm": 30.5, "wanted_drop_mm": 30.0}, {}, FIRST),
    ({"drop_mm": 29.5, "wanted_drop_mm": 30.0}, {}, FIRST),
    # a width that is usual, or in proportion
    ({"wanted_width_mm": 80.0}, {}, "as wide as swags usually are here"),
    ({"wanted_width_mm": 80.4}, {}, "as wide as swags usually are here"),
    ({"wanted_width_mm": 79.6}, {}, "as wide as swags usually are here"),
    ({"wanted_width_mm": 80.5}, {}, FIRST),
    ({"wanted_width_mm": 79.5}, {}, FIRST),
    ({"wanted_width_mm": 80.0}, {"hangs": False}, "as far apart as joints usually are here"),
    ({"wanted_width_mm": 80.0}, {"below": "Lower"}, "in proportion to Lower"),
    ({"wanted_width_mm": 80.0}, {"below": "Lower", "hangs": False}, "in proportion to Lower"),
    ({"wanted_width_mm": 80.0, "wanted_drop_mm": 40.0}, {}, FIRST),
    ({"wanted_width_mm": 80.0, "wanted_drop_mm": 40.0}, {"below": "Lower"}, "in proportion to Lower"),
    # pieces, stretched by less than 5 %
    ({"points": (("shallow", 0.0), ("pieces", 0.1)), "piece_stretch_percent": 4.9}, {"pieces": "shells"}, "shells meet the joints"),
    ({"points": (("shallow", 0.0), ("pieces", 0.1)), "piece_stretch_percent": -4.9}, {"pieces": "dots"}, "dots meet the joints"),
    ({"points": (("shallow", 0.0), ("pieces", 0.1)), "piece_stretch_percent": 5.0}, {}, "pieces stretched by 5 % to meet the joints"),
    (
        {"points": (("shallow", 0.0), ("pieces", 0.1)), "piece_stretch_percent": -5.0},
        {"pieces": "shells"},
        "shells squeezed by 5 % to meet the joints",
    ),
    ({"piece_stretch_percent": 12.0}, {}, FIRST),  # no pieces are asked for
    ({"also": (("beads", 4.9), ("leaves", -4.9))}, {}, "beads meet the joints; leaves meet the joints"),
    ({"also": (("beads", 5.0), ("leaves", -6.0))}, {}, "leaves squeezed by 6 % to meet the joints; beads stretched by 5 % to meet the joints"),
    # joints at the front and on corners
    ({"points": (("shallow", 0.0), ("at front", 0.0))}, {}, "a joint at the front"),
    ({}, {"has_corners": True}, "a joint on every corner"),
    ({"reasons": ("corners",), "points": (("shallow", 0.0), ("corners", 3.0))}, {"has_corners": True}, "leaves a corner without a joint"),
    ({"points": (("shallow", 0.0), ("front", 6.0))}, {}, "no joint at the front"),
    # what speaks for it first, then what against
    ({"points": (("narrow", 1.0),)}, {}, "hangs full; narrow, fiddly to pipe"),
]


@pytest.mark.parametrize("changes, told, words", FIRSTS)
def test_the_first_way_is_told_by_what_speaks_for_it(changes: dict[str, Any], told: dict[str, Any], words: str) -> None:
    """A way that hangs shallow by 0 is told as a little flat, which is left out here, so that each line has one thing to say."""
    found = why(way(**changes), SAY, is_first=True, **told)
    kept = "; ".join(one for one in found.split("; ") if one != "hangs a little flat")
    assert (kept or (FIRST if found else "")) == words


# The points of a way, what else is changed, how it is told, and what is said of it where it is not the first.
OTHERS: list[tuple[tuple[tuple[str, float], ...], dict[str, Any], dict[str, Any], str]] = [
    ((), {"wanted_drop_mm": 40.0}, {}, LATER),
    ((), {}, {}, "little behind the first; hangs full"),
    ((("covered", 0.3), ("narrow", 1.0)), {"wanted_drop_mm": 40.0}, {}, "narrow, fiddly to pipe"),  # what is covered is passed over
    ((("wide", 1.0),), {"wanted_drop_mm": 40.0}, {}, "wide, hard to pipe in one go"),
    ((("wide", 1.0),), {}, {}, "wide, hard to pipe in one go; but hangs full"),
    ((("wide", 1.0),), {"cutter_mm": 80.0}, {}, "wide, hard to pipe in one go; but closes exactly with the 8 cm cutter, hangs full"),
    # too wide, too narrow, by more than can be seen
    ((("width", 1.0),), {"wanted_width_mm": 75.0}, {}, "5 mm wider than is usual on such a side; but hangs full"),
    ((("width", 1.0),), {"wanted_width_mm": 90.0}, {}, "1 cm narrower than is usual on such a side; but hangs full"),
    ((("width", 1.0),), {"wanted_width_mm": 75.0, "wanted_drop_mm": 40.0}, {}, "5 mm wider than suits that drop"),
    ((("width", 1.0),), {"wanted_width_mm": 75.0, "wanted_drop_mm": 40.0}, {"below": "Lower"}, "5 mm wider than is in proportion to Lower"),
    ((("width", 1.0),), {"wanted_width_mm": 75.0}, {"hangs": False}, "5 mm further apart than is usual on such a side"),
    ((("width", 1.0),), {"wanted_width_mm": 90.0}, {"hangs": False}, "1 cm closer together than is usual on such a side"),
    ((("width", 1.0),), {"wanted_width_mm": 79.5, "wanted_drop_mm": 40.0}, {}, "0.5 mm wider than suits that drop"),
    ((("width", 1.0),), {"wanted_width_mm": 80.6, "wanted_drop_mm": 40.0}, {}, "0.6 mm narrower than suits that drop"),
    ((("width", 1.0),), {"wanted_width_mm": 79.6, "wanted_drop_mm": 40.0}, {}, LATER),
    ((("width", 1.0), ("narrow", 0.5)), {"wanted_width_mm": 79.6, "wanted_drop_mm": 40.0}, {}, "narrow, fiddly to pipe"),
    # the drop
    ((("drop", 1.0),), {"wanted_drop_mm": 20.0}, {}, "1 cm deeper than you asked"),
    ((("drop", 1.0),), {"wanted_drop_mm": 36.0}, {}, "6 mm shallower than you asked"),
    ((("drop", 1.0),), {"wanted_drop_mm": 30.6}, {}, "0.6 mm shallower than you asked"),
    ((("drop", 1.0),), {"wanted_drop_mm": 29.5}, {}, "0.5 mm deeper than you asked"),
    ((("drop", 1.0), ("front", 6.0)), {"wanted_drop_mm": 29.6}, {}, "no joint at the front; but the drop you asked for"),
    # gap, room, flatness
    ((("gap", 3.6),), {"cutter_mm": 75.0, "gap_mm": 5.0, "wanted_drop_mm": 40.0}, {}, "the 7.5 cm cutter leaves a gap of 5 mm at every joint"),
    ((("shallow", 1.0),), {}, {}, "hangs a little flat"),
    ((("shallow", 5.0),), {"reasons": ("shallow",)}, {}, "looks flat"),
    ((("room", 8.0),), {"wanted_drop_mm": 40.0}, {}, "too deep for the room under the joints"),
    # the heaviest first
    ((("wide", 1.0), ("front", 6.0), ("shallow", 5.0)), {}, {}, "no joint at the front; hangs a little flat; wide, hard to pipe in one go"),
    (
        (("wide", 0.19),),
        {"also": (("beads", 6.0),)},
        {"hangs": True},
        "beads stretched by 6 % to meet the joints; wide, hard to pipe in one go; but hangs full",
    ),
    (
        (("wide", 0.21),),
        {"also": (("beads", 6.0),)},
        {"hangs": True},
        "wide, hard to pipe in one go; beads stretched by 6 % to meet the joints; but hangs full",
    ),
    # what says nothing where nothing hangs, one by one and beside something that does
    *(
        (((point, 2.0), ("front", 6.0)), {"wanted_drop_mm": 10.0}, {"hangs": False}, "no joint at the front")
        for point in ("narrow", "wide", "drop", "shallow", "room")
    ),
    (
        (("pieces", 1.0), ("front", 6.0)),
        {"piece_stretch_percent": 4.0, "wanted_drop_mm": 40.0},
        {},
        "no joint at the front; but pieces meet the joints",
    ),
    ((("corners", 3.0),), {"reasons": ("corners",), "wanted_drop_mm": 40.0}, {"has_corners": True}, "leaves a corner without a joint"),
    ((("corners", 3.0),), {"reasons": ("corners",), "wanted_drop_mm": 40.0}, {}, "leaves a corner without a joint"),
]


@pytest.mark.parametrize("points, changes, told, words", OTHERS)
def test_other_ways_are_told_by_what_puts_them_behind(
    points: tuple[tuple[str, float], ...], changes: dict[str, Any], told: dict[str, Any], words: str
) -> None:
    assert why(way(points=points, **changes), SAY, **told) == words


def test_ways_are_told_in_inches() -> None:
    """75 mm are 2.953 in, and 5 mm 0.197 in: written as 2 15/16 in and 3/16 in, the nearest sixteenths."""
    gap = way(points=(("gap", 3.6),), cutter_mm=76.2, gap_mm=4.7625, wanted_drop_mm=40.0)
    assert why(gap, US) == "the 3 in cutter leaves a gap of 3/16 in at every joint"


@pytest.mark.parametrize(
    "stretch, words", [(0.6, "stretched by 1 %"), (1.0, "stretched by 1 %"), (-0.6, "squeezed by 1 %"), (-12.4, "squeezed by 12 %")]
)
def test_pieces_are_stretched_or_squeezed(stretch: float, words: str) -> None:
    assert stretched_words("beads", stretch) == f"beads {words} to meet the joints"


# --- which are shown, and what can be pressed -----------------------------------------------------------------------------


def ranks(taken: int, different: bool = False, repeats: tuple[int, ...] = (4, 5, 6, 7, 8, 9, 10)) -> list[int]:
    choices = [way(repeats=count, cutter_mm=float(70 + i)) for i, count in enumerate(repeats)]
    found = shown_choices(choices, choices[taken], different)
    assert all(choices[rank] is choice for rank, choice in found)
    return [rank for rank, _ in found]


def test_five_ways_are_shown_and_the_one_taken_is_among_them() -> None:
    assert ranks(0) == ranks(3) == ranks(4) == [0, 1, 2, 3, 4]
    assert ranks(5) == [0, 1, 2, 3, 5] and ranks(6) == [0, 1, 2, 3, 6]
    assert ranks(1, repeats=(4, 5, 6)) == [0, 1, 2]


def test_where_numbers_must_differ_each_is_shown_with_its_best_cutter_or_the_one_taken() -> None:
    """Two cutters for four and two for five: without the condition both are shown."""
    pairs = (4, 4, 5, 5, 6)
    assert ranks(0, repeats=pairs) == [0, 1, 2, 3, 4]
    assert ranks(0, True, pairs) == [0, 2, 4]
    assert ranks(1, True, pairs) == [1, 2, 4] and ranks(3, True, pairs) == [0, 3, 4]


def test_the_same_way_is_shown_once() -> None:
    one = way()
    assert [rank for rank, _ in shown_choices([one, way(), way(repeats=9)], one)] == [0, 2]


@pytest.mark.parametrize(
    "length, say, words",
    [
        (75.0, SAY, "7.5 cm"), (76.2, US, "3 in"), (76.205, US, "3 in"), (76.22, US, "76.22 mm"), (75.0, US, "75 mm"),
        (76.25, SAY, "76.25 mm"), (1234.5678, US, "1234.57 mm"),
    ],
)  # fmt: skip
def test_a_length_is_written_so_that_it_reads_back(length: float, say: Formatter, words: str) -> None:
    """3 in are 76.2 mm; a hundredth of a millimetre is what may be lost."""
    assert exact_length(length, say) == words


CUTTERS = {"cutter": "7.5 cm", "repeats": "8"}


@pytest.mark.parametrize(
    "cutter, sets, whose, press, done",
    [
        (None, {"repeats": "8"}, "", "Use 8", "8 repeats."),
        (None, CUTTERS, "", "Use 8", "8 repeats."),
        (75.0, {"repeats": "8"}, "", "Use 8", "8 repeats with the 7.5 cm cutter."),  # the cutter is not set by it
        (75.0, CUTTERS, "", "Use 8 with 7.5 cm", "8 repeats with the 7.5 cm cutter."),
        (75.0, CUTTERS | {"drop": ""}, "Lower", "Use 8 with 7.5 cm", "Lower: 8 repeats with the 7.5 cm cutter."),
    ],
)
def test_a_press_takes_a_way_and_says_so(cutter: float | None, sets: dict[str, str], whose: str, press: str, done: str) -> None:
    made = take(way(cutter_mm=cutter), SAY, sets, whose)
    assert made == press and made.sets == sets and made.done == f"{done} All that follows is worked out from that."
    assert choice_words(way(cutter_mm=cutter), SAY) == done.removeprefix("Lower: ").removesuffix(".")


# --- dividers ------------------------------------------------------------------------------------------------------------


def said(**typed: str) -> list[str]:
    return [one["text"] for one in answered("division", typed).notes]


def asked(slug: str = "division", **typed: str) -> Any:
    return parse(CALCULATORS[slug], typed)


@pytest.mark.parametrize(
    "chord, metric, us",
    [
        (79.4, 79.0, 79.375),  # 3.126 in, nearest 3 1/8 in = 79.375 mm
        (80.6, 81.0, 80.9625),  # 3.173 in, nearest 3 3/16 in
        (0.4, 1.0, 1.0),  # points of dividers are no closer than 1 mm
        (1.6, 2.0, 1.5875),
    ],
)
def test_dividers_are_set_as_they_are_told(chord: float, metric: float, us: float) -> None:
    assert setting_mm(chord, SAY) == metric and setting_mm(chord, US) == pytest.approx(us, abs=1e-3)


@pytest.mark.parametrize(
    "chords, one, words",
    [
        ((80.0, 80.0, 80.0), True, "8 cm"),
        ((80.0, 80.5, 80.0), True, "8 cm"),  # half a millimetre is within what the points sink in
        ((80.5, 80.0), True, "8.1 cm"),
        ((80.0, 80.6), False, "1: 8 cm, 2: 8.1 cm"),
        ((80.0, 80.0, 95.0, 70.0, 70.0, 70.0), False, "1 and 2: 8 cm, 3: 9.5 cm, 4 to 6: 7 cm"),
    ],
)
def test_settings_are_told_step_by_step_where_they_differ(chords: tuple[float, ...], one: bool, words: str) -> None:
    assert is_one_setting(chords) is one and dividers_words(chords, SAY) == words
    if not one:
        assert ", ".join(f"{steps}: {setting}" for steps, setting in settings_by_step(chords, SAY)) == words


@pytest.mark.parametrize(
    "error, words",
    [
        (0.2, "none"),
        (-0.2, "none"),
        (0.25, "0.25 mm over"),
        (-0.3, "0.3 mm short"),
        (0.6, "0.6 mm over"),
        (3.4, "3.4 mm over"),
        (-12.0, "1.2 cm short"),
    ],
)
def test_a_closing_error_is_over_or_short_from_a_quarter_of_a_millimetre(error: float, words: str) -> None:
    assert closing_words(error, SAY) == words


def test_how_finely_dividers_are_set_goes_by_the_units() -> None:
    assert (fineness_words(SAY), fineness_words(US)) == ("the millimetre", "the fraction of an inch shown")


@pytest.mark.parametrize("error, words", [(2.0, ""), (2.1, "past"), (-2.0, ""), (-2.1, "before")])
def test_an_error_of_more_than_two_millimetres_is_shared_out(monkeypatch: pytest.MonkeyPatch, error: float, words: str) -> None:
    """Two millimetres at the last step are less than the piping is wide."""
    monkeypatch.setattr(division_form, "closing_error_mm", lambda *_: error)
    told = [one for one in said(side="66 cm", repeats="8") if "Share that out" in one]
    assert len(told) == bool(words)
    for one in told:
        assert one == f"Dividers set to a whole millimetre end 2.1 mm {words} the start. Share that out over the last few steps at the back."
    assert value(answered("division", {"side": "66 cm", "repeats": "8"}), "closing_error") == error


def test_the_pitch_is_no_setting_for_the_dividers() -> None:
    """66 cm in eight: the pitch is 82.5 mm, and 8 x 660/pi x asin(82.5 pi / 660) - 660 = 17.8 mm past the start. In two the pitch, 330 mm, is wider
    than the tier, 210 mm, so nobody could; nor could in three, where it is 220 mm."""
    assert any("the last step would land 1.8 cm past the start." in one for one in said(side="66 cm", repeats="8"))
    for repeats, told in (("2", False), ("3", False), ("4", True)):
        assert any("Do not set the dividers" in one for one in said(side="66 cm", repeats=repeats)) is told, repeats


def test_dividers_on_a_round_are_no_wider_than_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """66.1 cm round is 210.4 mm wide, its two parts 210.4 mm apart: set to 210 mm it closes short. Of 66.2 cm it is 210.7 mm and 211 mm are too
    wide, so the width is taken, which closes."""
    assert value(answered("division", {"side": "66.2 cm", "repeats": "2"}), "closing_error") == pytest.approx(0.0, abs=1e-6)
    assert value(answered("division", {"side": "66.1 cm", "repeats": "2"}), "closing_error") < -10
    top = outline("round", 662.0 / 3.141592653589793)
    assert closing_error_on(top, [210.7, 210.7], 0.0, SAY) == pytest.approx(0.0, abs=1e-6)


def test_where_the_first_joint_is() -> None:
    """A square of 80 cm in four has a joint on each corner, 10 cm from the middle of the back; in eight, one in its middle too. On a triangle-like
    outline it is told by the same words."""
    left = "The first joint is 10 cm to the left of the middle of the back, seen from above with the front towards you."
    assert left in said(shape="square", side="80 cm", repeats="4")
    assert "The first joint is in the middle of the back." in said(shape="square", side="80 cm", repeats="8")
    assert not any("to the left" in one for one in said(shape="square", side="80 cm", repeats="8"))
    oval = said(shape="oval", width="20 cm", length="30 cm", repeats="6")[0]
    assert oval.startswith("The straight distance differs from step to step on an oval, so one setting of the dividers does not close.")
    assert oval.endswith("The first joint is in the middle of the back, and the steps go to the left from there.") and "prick every 13.2 cm;" in oval


def test_a_square_is_divided_by_one_setting() -> None:
    """80 cm in eight: 10 cm along and 10 cm straight, and it closes."""
    found = answered("division", {"shape": "square", "side": "80 cm", "repeats": "8"})
    told = {name: figure["text"] for name, figure in found.figures.items()}
    assert told == {"repeats": "8", "pitch": "10 cm", "dividers": "10 cm", "closing_error": "none"} and found.tables == []
    (drawing,) = found.drawings
    assert (drawing["name"], drawing["title"]) == ("dividers", "From above")
    assert drawing["description"] == "A square tier with 8 joints and straight lines between them."
    round_ = answered("division", {"side": "80 cm", "repeats": "8"}).drawings[0]
    assert (round_["title"], round_["description"]) == ("From above", "A round tier with 8 joints and the dividers across one part.")


def test_an_oval_is_divided_by_a_setting_for_each_step() -> None:
    found = answered("division", {"shape": "oval", "width": "20 cm", "length": "30 cm", "repeats": "6"})
    (table,) = found.tables
    assert (table["name"], table["title"]) == ("dividers", "From joint to joint, straight across")
    assert [(column["label"], column["align"]) for column in table["columns"]] == [("Steps", "left"), ("Set the dividers to", "right")]
    assert rows(found, "dividers") == [["1", "12.4 cm"], ["2", "13 cm"], ["3 and 4", "12.4 cm"], ["5", "13 cm"], ["6", "12.4 cm"]]
    assert set(found.figures) == {"repeats", "pitch"} and value(found, "pitch") == pytest.approx(132.2, abs=0.05)


def test_a_tier_whose_steps_are_alike_is_told_by_the_first(monkeypatch: pytest.MonkeyPatch) -> None:
    """Steps of 80 and 80.4 mm are one setting. 80 mm are 3.15 in, nearest 3 1/8 in; 80.4 mm, 3.165 in, would be 3 3/16 in."""
    given: list[Any] = []
    monkeypatch.setattr(division_form, "chords_mm", lambda top, s_mm: (80.0, 80.4, 80.4))
    monkeypatch.setattr(division_form, "closing_error_on", lambda top, chords, start, say: given.append((top.kind, chords, start)) or 3.0)
    found = answered("division", {"shape": "square", "side": "80 cm", "repeats": "4", "units": "us"})
    assert value(found, "dividers") == 80.0 and found.figures["dividers"]["text"] == "3 1/8 in" and found.tables == []
    assert given == [("square", (80.0, 80.4, 80.4), 100.0)] and value(found, "closing_error") == 3.0
    assert any(one["text"].startswith("Dividers set to 3 1/8 in end 0.12 in past the start.") for one in found.notes), found.notes


def test_a_round_is_stepped_by_its_first_setting() -> None:
    """All steps of a round are alike: eight of 80 mm on 66 cm fall 3.4 mm short."""
    top = outline("round", 660.0 / math.pi)
    assert closing_error_on(top, [80.0] + [90.0] * 7, 0.0, SAY) == pytest.approx(-3.4, abs=0.05)


@pytest.mark.parametrize(
    "typed, words",
    [
        ({"shape": "square", "repeats": "6"}, "6 repeats cannot put a joint on each of the 4 corners evenly; 4 or 8 can."),
        ({"shape": "heart", "repeats": "5"}, "5 repeats cannot put a joint on the notch and the point evenly; 4 or 6 can."),
        ({"shape": "square", "repeats": "8"}, ""),
    ],
)
def test_repeats_that_miss_the_corners_are_told(typed: dict[str, str], words: str) -> None:
    told = [one for one in said(side="80 cm", **typed) if " repeats cannot put " in one]
    assert told == ([words] if words else [])


TAPE = "The side is worked out from the width. Measure it with a tape before you mark, and go by the tape."


@pytest.mark.parametrize("shape", ["round", "square", "hexagon", "heart"])
def test_a_side_comes_from_the_tape_or_from_the_width(shape: str) -> None:
    assert TAPE in said(shape=shape, width="20 cm", repeats="6") and TAPE not in said(shape=shape, side="63 cm", repeats="6")
    both = answered("division", {"shape": shape, "width": "20 cm", "side": "63 cm", "repeats": "6"})
    assert value(both, "pitch") == pytest.approx(105.0), "the tape is measured, the width is not"
    (found,) = calc.compute("division", {"shape": shape, "repeats": "6"}).problems
    assert found["input"] == "side" and found["message"] == (
        "Round the side is empty. Write what the tape says, like 66 cm, or give the width across"
    )  # fmt: skip


def test_sides_by_hand() -> None:
    """Pi times 200 is 628.3; four sides of 200 are 800. An outline of a measured side is as large as the tape says."""
    assert side_of(asked(width="20 cm", repeats="6")) == pytest.approx(628.32, abs=0.01)
    assert outline_of(asked(shape="square", width="20 cm", repeats="6")).perimeter_mm == pytest.approx(800)
    assert outline_of(asked(shape="square", side="60 cm", repeats="6")).width_mm == pytest.approx(150)
    assert outline_of(asked(shape="rectangle", width="20 cm", length="30 cm", repeats="6")).perimeter_mm == pytest.approx(1000)
    measured = outline_of(asked(shape="rectangle", width="20 cm", length="30 cm", side="101 cm", repeats="6"))
    assert (measured.perimeter_mm, measured.width_mm, measured.length_mm) == pytest.approx((1010, 202, 303))


@pytest.mark.parametrize(
    "typed, name, words",
    [
        ({"shape": "oval", "width": "20 cm"}, "length", "Length, front to back is empty, and an oval has both. Write it like 20 cm"),
        ({"shape": "oval", "length": "20 cm"}, "width", "Width across, finished is empty, and an oval has both. Write it like 20 cm"),
        ({"shape": "rectangle", "side": "1 m", "length": "20 cm"}, "width", "and a rectangle has both"),
        ({"shape": "oval", "width": "10 cm", "length": "101 cm"}, "length", "An oval is at most ten times as long as it is wide."),
        ({"shape": "oval", "width": "101 cm", "length": "10 cm"}, "length", "An oval is at most ten times as long as it is wide."),
    ],
)
def test_an_outline_with_two_sizes_has_both(typed: dict[str, str], name: str, words: str) -> None:
    with pytest.raises(Problem) as caught:
        outline_of(asked(**typed, repeats="6"))
    assert caught.value.input == name and words in caught.value.message
    outline_of(asked(shape="oval", width="10 cm", length="100 cm", repeats="6"))
    outline_of(asked(shape="rectangle", width="10 cm", length="101 cm", repeats="6"))


@pytest.mark.parametrize(
    "typed, repeats",
    [({"repeats": "5", "target": "8 cm"}, 5), ({"target": "8 cm"}, 8), ({"target": "60 cm"}, 2), ({"target": "33 cm"}, 2), ({"repeats": "2"}, 2)],
)
def test_repeats_are_typed_or_those_nearest_the_pitch(typed: dict[str, str], repeats: int) -> None:
    """66 cm by 8 cm is 8.25; dividers step at least twice."""
    assert value(answered("division", {"side": "66 cm", **typed}), "repeats") == repeats


def test_dividers_that_step_across_a_notch_are_not_closed() -> None:
    """A heart is not convex; on a square, dividers wider than the tier do not close either."""
    heart, square = outline("heart", 200.0), outline("square", 200.0)
    assert closing_error_on(heart, [90.0] * 6, 0.0, SAY) is None
    assert closing_error_on(square, [100.0] * 8, 100.0, SAY) == pytest.approx(0.0, abs=1e-6)
    assert closing_error_on(square, [100.0] * 4, 100.0, SAY) == pytest.approx(-400.0, abs=1e-6), "four of eight steps"
    assert closing_error_on(square, [300.0] * 2, 100.0, SAY) is None
