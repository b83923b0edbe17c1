"""Rows of piping and the tips that pipe them, line by line: whole tables, what each drawing is given, both sides of every limit, one and several.

The numbers are worked out by hand: an open star of 7 mm falls into shells 11.2 mm apart, 1.6 times its opening (from memory, as the answer says); a
shell stands out 9.1 mm, 1.3 times the opening. What a tip makes by itself and how far it may be stretched are common practice and have no source.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, row_amounts, swags_form, tips_form, vermicelli_form
from calc.drawing.paper import CutterCircle
from calc.rows import KINDS, natural_pitch_mm
from calc.tips import read_tip
from tests.calc.test_calculators_said import Typed, computed, sentences
from tests.calc.test_calculators_sums import answered, rows, value

SIDE = {"side": "66 cm"}


def refused(slug: str, typed: dict[str, str]) -> tuple[str, str]:
    ((found),) = calc.compute(slug, typed).problems
    return found["input"], found["message"]


def figures(answer: Any, *names: str) -> list[str]:
    return [answer.figures[name]["text"] for name in names]


def shown(answer: Any) -> set[str]:
    """The figures that are not quiet."""
    return {name for name, figure in answer.figures.items() if not figure.get("quiet")}


def heads(answer: Any, name: str) -> list[tuple[str, str]]:
    (found,) = [one["columns"] for one in answer.tables if one["name"] == name]
    return [(column["label"], column["align"]) for column in found]


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Any, float, float, str]]:
    """What each drawing of a row was given: the row, how wide and how high it is shown, and the words."""
    found: list[tuple[Any, float, float, str]] = []
    monkeypatch.setattr(row_amounts, "draw", lambda answer, *given: found.append(given))
    return found


# --- shells -------------------------------------------------------------------------------------------------------------------------------


def test_shells_fitted_to_two_repeats_say_what_others_would_come_to() -> None:
    """660 / 11.2 is 59; in two repeats 330 / 11.2 = 29.5: 29 would be 1.6 % longer, 30 are 1.8 % shorter. Two fewer and two more of each side by
    side: 28 are 660 / 56 = 11.79 mm, 5.2 % longer; 32 are 10.31 mm, 7.9 % shorter."""
    found = answered("shells", SIDE | {"repeats": "2", "per_swag": "30"})
    assert rows(found, "others") == [
        ["28", "56", "1.2 cm", "5.2 %"],
        ["29", "58", "1.14 cm", "1.6 %"],
        ["31", "62", "1.06 cm", "-5 %"],
        ["32", "64", "1.03 cm", "-7.9 %"],
    ]
    assert heads(found, "others") == [(label, "right") for label in ("In each repeat", "In all", "Pitch", "Stretched")]
    assert figures(found, "shells", "per_swag", "repeats", "pitch", "stretch") == ["60", "30", "2", "1.1 cm", "-1.8 %"]
    assert {"per_swag", "repeats"} <= shown(found) and value(found, "row_width") == pytest.approx(13.3)  # 1.9 times the opening


def test_shells_that_run_on_are_told_by_their_number_alone() -> None:
    """One repeat: neither the number of repeats nor that in each is shown, in figures and in columns."""
    for typed in (SIDE, SIDE | {"repeats": "1"}):
        found = answered("shells", typed)
        assert heads(found, "others") == [(label, "right") for label in ("In all", "Pitch", "Stretched")]
        assert not {"per_swag", "repeats"} & shown(found) and figures(found, "per_swag", "repeats") == ["59", "1"]
    assert rows(found, "others")[0] == ["57", "1.16 cm", "3.4 %"] and rows(found, "others")[-1] == ["61", "1.1 cm", "-3.4 %"]


def test_so_few_shells_that_fewer_would_gape() -> None:
    """Five on 6 cm are 12 mm apart, 7.1 % longer. Four would be 33.9 % longer, over twice the 15 % that shows; six and seven are squeezed by 10.7 and
    23.5 %. Of a single shell there is no fewer; of two on 22 mm one would be 96 % longer."""
    found = answered("shells", {"side": "6 cm"})
    assert rows(found, "others") == [["6", "1 cm", "-10.7 %"], ["7", "8.6 mm", "-23.5 %"]]
    two = answered("shells", {"side": "60 mm", "tip": "open star 20 mm"})  # 32 mm by itself: two of 30, three of 20, 37.5 % shorter
    assert figures(two, "shells") == ["2"] and not any(table["name"] == "others" for table in two.tables)
    one = answered("shells", {"side": "5 cm", "tip": "open star 25 mm", "repeats": "1", "per_swag": "2"})  # 40 mm by itself: one of 50 is 25 % longer
    assert rows(one, "others") == [["1", "5 cm", "25 %"]]


def test_shells_in_each_swag_decide_how_many_swags_there_are() -> None:
    """Seven of 11.2 mm are 78.4 mm: 8.4 of them on 66 cm, so eight. A hundred are longer than the side: one swag."""
    assert figures(answered("shells", SIDE | {"per_swag": "7"}), "repeats", "per_swag", "shells") == ["8", "7", "56"]
    assert figures(answered("shells", SIDE | {"per_swag": "100"}), "repeats", "per_swag", "shells") == ["1", "100", "100"]


@pytest.mark.parametrize(
    "typed, at, message",
    [
        (
            {"repeats": "8", "per_swag": "1"},  # 82.5 mm is 637 % longer
            "per_swag",
            "In each swag: 8 pieces on 66 cm would be 8.3 cm apart, and this tip falls into 1.1 cm by itself. Between 0.4 and 2.5 times that can be "
            "piped: take more of them, about 59 in all, or another tip",
        ),
        (
            {"per_swag": "200"},  # 3.3 mm is 71 % shorter
            "per_swag",
            "In each swag: 200 pieces on 66 cm would be 3.3 mm apart, and this tip falls into 1.1 cm by itself. Between 0.4 and 2.5 times that can "
            "be "
            "piped: take fewer of them, about 59 in all, or another tip",
        ),
        (
            {"repeats": "200", "tip": "open star 20 mm"},  # at 32 mm apart 21 would do
            "repeats",
            "Repeats: 200 pieces on 66 cm would be 3.3 mm apart, and this tip falls into 3.2 cm by itself. Between 0.4 and 2.5 times that can be "
            "piped: take fewer of them, about 21 in all, or another tip",
        ),
        (
            {"repeats": "3", "per_swag": "1", "side": "10 cm"},  # 33.3 mm; nine would be right
            "per_swag",
            "In each swag: 3 pieces on 10 cm would be 3.3 cm apart, and this tip falls into 1.1 cm by itself. Between 0.4 and 2.5 times that can be "
            "piped: take more of them, about 9 in all, or another tip",
        ),
        (
            # a strip of two on 30 cm: 15 cm of its own, so that a third of a shell would do; less than one shell is still one
            {"side": "5 cm", "per_swag": "3", "tip": "open star 40 mm", "piped": "30 cm", "pieces": "2"},
            "per_swag",
            "In each swag: 3 pieces on 5 cm would be 1.7 cm apart, and this tip falls into 15 cm by itself. Between 0.4 and 2.5 times that can be "
            "piped: take fewer of them, about 1 in all, or another tip",
        ),
    ],
)
def test_shells_too_close_or_too_far_apart(typed: dict[str, str], at: str, message: str) -> None:
    assert refused("shells", SIDE | typed) == (at, message)


def test_shells_as_close_and_as_far_apart_as_can_be_piped() -> None:
    """An open star of 10 mm falls into 16 mm: a hundred on 64 cm are 6.4 mm apart, 0.4 times that, and sixteen 40 mm, 2.5 times."""
    for count, stretch in (("100", -60), ("16", 150)):
        found = answered("shells", {"side": "64 cm", "tip": "open star 10 mm", "repeats": "1", "per_swag": count})
        assert value(found, "stretch") == stretch
    for piped, pieces in (("64 cm", "100"), ("64 cm", "16")):  # and so may a strip be
        assert computed("shells", {"side": "64 cm", "tip": "open star 10 mm", "piped": piped, "pieces": pieces}).problems == []


@pytest.mark.parametrize(
    "typed, at, apart",
    [
        ({"repeats": "200", "per_swag": "10"}, "per_swag", "2000 pieces on 66 cm would be 0.33 mm apart"),
        ({"repeats": "200", "side": "15 cm"}, "repeats", "200 pieces on 15 cm would be 0.75 mm apart"),
        ({"per_swag": "200", "side": "15 cm"}, "per_swag", "200 pieces on 15 cm would be 0.75 mm apart"),
        ({"tip": "open star 0.5 mm", "side": "20 cm", "piped": "20 cm", "pieces": "420"}, "tip", "420 pieces on 20 cm would be 0.48 mm apart"),
    ],
)
def test_pieces_finer_than_any_tip_pipes(typed: dict[str, str], at: str, apart: str) -> None:
    """Under 0.8 mm apart: said at the field that was filled in, and at the tip where none was."""
    assert refused("shells", SIDE | typed) == (at, f"{apart}, and no tip pipes that. Use fewer of them")


def test_pieces_at_the_finest_that_is_piped() -> None:
    """200 on 16 cm are 0.8 mm apart, the closest: 0.8 is what an opening of 0.5 mm makes by itself."""
    found = answered("shells", {"side": "16 cm", "repeats": "1", "per_swag": "200", "tip": "open star 0.5 mm"})
    assert value(found, "pitch") == pytest.approx(0.8) and value(found, "stretch") == pytest.approx(0, abs=1e-9)


def test_a_strip_of_ones_own_sets_the_pitch_of_shells() -> None:
    """27 on 30 cm are 11.1 mm: 59 on 66 cm, 11.19 mm, 0.7 % longer. Then no sentence asks for the strip."""
    found = answered("shells", SIDE | {"piped": "30 cm", "pieces": "27"})
    assert value(found, "natural_pitch") == pytest.approx(300 / 27) and figures(found, "shells", "stretch") == ["59", "0.7 %"]
    told = "Pieces 1.1 cm apart are what most hands pipe with this tip (from memory)."
    assert told in " ".join(sentences("shells", {**SIDE})) and told not in " ".join(sentences("shells", {**SIDE, "piped": "30 cm", "pieces": "27"}))


@pytest.mark.parametrize(
    "typed, place, line, count, wide, high",
    [
        ({}, "base", 0.0, 30, 10 * 660 / 59, 2.5 * 9.1),  # ten of them; three times as many go round, so that the middle third is shown
        ({"repeats": "8"}, "base", 0.0, 30, 10 * 660 / 56, 2.5 * 9.1),
        ({"side": "6 cm"}, "base", 0.0, 15, 60.0, 2.5 * 9.1),  # five are all there are
        ({"side": "6 cm", "kind": "reverse shell"}, "side", 2.5 * 9.1 / 2, 15, 60.0, 2.5 * 9.1),  # no border of a base: in the middle of the height
        ({"kind": "bead", "tip": "round 4 mm", "repeats": "6"}, "base", 0.0, 30, 55.0, 2.5 * 4.8),
    ],
)
def test_ten_shells_are_drawn(
    drawn: list[tuple[Any, float, float, str]], typed: dict[str, str], place: str, line: float, count: int, wide: float, high: float
) -> None:
    answered("shells", SIDE | typed)
    ((row, wide_mm, high_mm, words),) = drawn
    assert (row.place, row.repeats, row.count) == (place, 3, count) and row.line_mm == pytest.approx(line)
    assert (wide_mm, high_mm) == pytest.approx((wide, high))
    assert words.startswith(f"{count // 3} pieces of the row, ") and words.endswith(" from one to the next.")


# --- swags --------------------------------------------------------------------------------------------------------------------------------


def test_swags_of_one_cutter_line_by_line() -> None:
    """66 cm: with 9 cm the arc of eight is 45 mm of radius; drop 45 - root(45^2 - 41.25^2) = 27.0 mm; nine drop 18.9 mm, eleven 11.7. Seven are 94.3
    mm wide, 4.3 mm more than the cutter, and drop half of it. The ranking is by how full they hang and how they close."""
    found = answered("swags", SIDE | {"cutter": "9 cm", "repeats": "10"})
    assert [row[:3] for row in rows(found, "others")] == [
        ["8", "8.3 cm", "2.7 cm"],
        ["7", "9.4 cm", "4.5 cm"],
        ["9", "7.3 cm", "1.9 cm"],
        ["6", "11 cm", "4.5 cm"],
        ["10", "6.6 cm", "1.4 cm"],
    ]
    assert [row[5] for row in rows(found, "others")] == ["Use 8", "Use 7", "Use 9", "Use 6", "Your choice"]
    labels = ("Repeats", "Width", "Drop", "Dividers", "For and against", "Use it")
    assert heads(found, "others") == [(label, "right" if label in labels[:4] else "left") for label in labels]
    assert [row[4] for row in rows(found, "others")] == [
        "closes exactly with the 9 cm cutter; hangs a little flat",
        "the 9 cm cutter leaves a gap of 4.3 mm at every joint; but hangs full",
        "hangs a little flat; but closes exactly with the 9 cm cutter",
        "the 9 cm cutter leaves a gap of 2 cm at every joint; but hangs full",
        "looks flat; but closes exactly with the 9 cm cutter",
    ]
    free = answered("swags", SIDE | {"cutter": "9 cm"})
    assert rows(free, "others")[0][5] == "In use" and rows(free, "others")[0][0] == "8"
    for repeats, drop in ((9, 45 - math.sqrt(45**2 - (660 / 9 / 2) ** 2)), (10, 45 - math.sqrt(45**2 - 33**2))):
        assert value(answered("swags", SIDE | {"cutter": "9 cm", "repeats": str(repeats)}), "drop") == pytest.approx(drop)


def test_several_rows_of_swags_are_piped_one_after_another() -> None:
    """Three times the line, the buttercream with its range, the volume and the time."""
    one, three = (answered("swags", SIDE | {"cutter": "9 cm", "rows": count}) for count in ("1", "3"))
    for name in ("length_total", "mass", "volume", "time"):
        assert value(three, name) == pytest.approx(3 * value(one, name)), name
        for end in ("low", "high"):
            if end in one.figures[name]:
                assert three.figures[name][end] == pytest.approx(3 * one.figures[name][end]), (name, end)
    assert value(three, "length_each") == pytest.approx(value(one, "length_each"))
    assert value(one, "length_total") == pytest.approx(8 * value(one, "length_each"))


def test_what_a_cutter_leaves_open_is_not_piped() -> None:
    """Seven half circles of 9 cm take the same whether they touch, on 63 cm, or leave 4.3 mm at each joint of 66 cm."""
    open_, closed = (answered("swags", {"side": side, "cutter": "9 cm", "repeats": "7"}) for side in ("66 cm", "63 cm"))
    for name in ("mass", "length_each", "length_total", "time"):
        assert value(open_, name) == pytest.approx(value(closed, name)), name
    assert value(closed, "length_each") == pytest.approx(45 * math.pi)


def test_swags_of_two_cutters_are_told_once_for_each_number() -> None:
    """The better cutter of each; the first line says what speaks for it first, the others what speaks against them."""
    found = answered("swags", SIDE | {"cutter": "9 cm, 7.5 cm"})
    assert [row[0] for row in rows(found, "others")] == ["9", "8", "10", "7", "11"]
    assert [row[4] for row in rows(found, "cutters")] == [
        "closes exactly with the 7.5 cm cutter; hangs full",
        "hangs a little flat; but closes exactly with the 9 cm cutter",
    ]
    assert [row[4] for row in rows(found, "others")][:2] == [row[4] for row in rows(found, "cutters")]
    wanted = answered("swags", SIDE | {"drop": "31 mm"})  # 31 mm is two fifths of 77.5 mm; nine are 73.3, eight 82.5
    assert [row[4] for row in rows(wanted, "others")][:2] == [
        "the drop you asked for; 4.2 mm narrower than suits that drop",
        "5 mm wider than suits that drop; but the drop you asked for",
    ]


def test_a_ribbon_hangs_on_its_mark() -> None:
    """Half of it above the mark, half below; told quietly."""
    found = answered("swags", SIDE | {"cutter": "9 cm"})
    assert value(found, "ribbon") == pytest.approx(2 * value(found, "above_mark")) and value(found, "ribbon") == pytest.approx(10.736, abs=0.001)
    assert not {"ribbon", "above_mark"} & shown(found)


@pytest.mark.parametrize(
    "typed, at, message",
    [
        ({}, "cutter", "Round cutter is empty. Write its diameter, like 9 cm, or give the drop you want"),
        (
            {"cutter": "9 cm", "repeats": "60"},  # 11 mm wide: 45 - root(45^2 - 5.5^2) = 0.34 mm
            "repeats",
            "Repeats: a cutter of 9 cm on swags 1.1 cm wide leaves a drop of 0.34 mm, and 1 mm is the least. Use fewer repeats, or a smaller cutter",
        ),
        (
            {"cutter": "40 cm", "side": "8 cm"},  # 2.67 cm wide: 200 - root(200^2 - 13.33^2) = 0.44 mm
            "cutter",
            "Round cutter: a cutter of 40 cm on swags 2.7 cm wide leaves a drop of 0.44 mm, and 1 mm is the least. Use fewer repeats, or a smaller "
            "cutter",
        ),
        ({"cutter": "9 cm", "repeats": "67"}, "repeats", "Repeats: 67 would be swags 9.9 mm wide, and 1 cm is the least. Use 66 or fewer"),
        (
            {"drop": "5 mm", "side": "29.9 cm", "repeats": "40"},
            "repeats",
            "Repeats: 40 would be swags 7.5 mm wide, and 1 cm is the least. Use 29 or fewer",
        ),
        (
            {"drop": "5 cm", "repeats": "40"},
            "drop",
            "Drop must be at most twice the swag's width, 3.3 cm for 40 repeats. Make it shallower, or use fewer repeats",
        ),
    ],
)
def test_swags_that_cannot_be(typed: dict[str, str], at: str, message: str) -> None:
    assert refused("swags", SIDE | typed) == (at, message)


@pytest.mark.parametrize("side, most", [("66 cm", 44), ("10 cm", 6), ("7 cm", 4), ("5 cm", 4), ("200 cm", 60)])
def test_what_is_chosen_from(side: str, most: int) -> None:
    """Three swags or more, to one in 15 mm of the side: 44 on 66 cm; no fewer than four even on 7 cm, and no more than sixty on 2 m."""
    mm = calc.units.read_quantity(side, "length", "side", "Side")
    found = swags_form.choices_for(mm, (10.0,), None, None)
    assert max(one.repeats for one in found) == most and min(one.repeats for one in found) == 3
    penalties = [one.penalty for one in found]
    assert penalties == sorted(penalties)


def test_repeats_that_were_asked_for_are_among_what_is_chosen_from() -> None:
    """Two, or more than one in 15 mm: at the place where they rank. What was there is not told twice."""
    for repeats in (2, 50):
        found = swags_form.choices_for(660.0, (90.0, 75.0), None, repeats)
        assert [one.repeats for one in found].count(repeats) == 2  # one for each cutter
        assert [one.penalty for one in found] == sorted(one.penalty for one in found)
    assert [one.repeats for one in swags_form.choices_for(660.0, (90.0,), None, 8)].count(8) == 1


def test_the_two_sides_of_a_drop_that_is_asked_for() -> None:
    """Without a cutter the width wanted is the drop over its usual share; with one the cutter decides and the drop is what is wanted of it."""
    bare, cut = swags_form.choices_for(660.0, (), 30.0, None), swags_form.choices_for(660.0, (90.0,), 30.0, None)
    assert {one.drop_mm for one in bare} == {30.0} and bare[0].repeats == 9 and len({one.drop_mm for one in cut}) > 3
    assert all(one.cutter_mm == 90.0 for one in cut) and all(one.cutter_mm is None for one in bare)
    weighed = [{name for one in found for name, _ in one.points} for found in (bare, cut)]
    assert "width" in weighed[0] and "drop" not in weighed[0] and "drop" in weighed[1] and "width" not in weighed[1]


def test_the_least_drop_and_the_least_width() -> None:
    """A millimetre is enough, 14 mm wide on a cutter of 5 cm (25 - root(25^2 - 7^2) = 1), and so is a centimetre of width."""
    assert value(answered("swags", {"side": "56 mm", "cutter": "5 cm", "repeats": "4"}), "drop") == 1
    found = answered("swags", {"side": "24 cm", "cutter": "20 cm", "repeats": "8"})  # 30 mm wide: 100 - root(100^2 - 15^2) = 1.13 mm
    assert value(found, "drop") == pytest.approx(100 - math.sqrt(100**2 - 15**2))
    assert refused("swags", {"side": "22.4 cm", "cutter": "20 cm", "repeats": "8"})[0] == "repeats"  # 28 mm: 0.98 mm
    assert figures(answered("swags", {"side": "66 cm", "cutter": "1 cm", "repeats": "66"}), "width") == ["1 cm"]


def test_a_gap_is_told_with_what_would_close_it() -> None:
    """66 cm in seven are 94.3 mm: 4.3 mm more than the cutter; in eight they close at 82.5 mm. 63.05 cm in seven are 90.07 mm, a gap of a hair."""
    told = [text for text in sentences("swags", {**SIDE, "cutter": "9 cm", "repeats": "7"}) if text.startswith("The cutter is narrower")]
    assert told == ["The cutter is narrower than the swag and leaves a gap of 4.3 mm at every joint. 8 repeats close it: each is then 8.3 cm wide."]
    hair = [text for text in sentences("swags", {"side": "63.05 cm", "cutter": "9 cm", "repeats": "7"}) if text.startswith("The cutter is narrower")]
    assert hair == [
        "The cutter is narrower than the swag and leaves a gap of a hair at every joint. The piping covers that. 8 repeats close it: each is then "
        "7.9 cm wide."
    ]
    found = answered("swags", {"side": "63.7 cm", "cutter": "9 cm", "repeats": "7"})
    assert value(found, "gap") == pytest.approx(1.0)
    assert "gap" not in answered("swags", {"side": "63 cm", "cutter": "9 cm", "repeats": "7"}).figures  # 9 cm: closes exactly
    for side, gap, is_covered in (("63.7 cm", "1 mm", True), ("63.8 cm", "1.14 mm", False), ("630.74 mm", "0.106 mm", True)):
        (text,) = [one for one in sentences("swags", {"side": side, "cutter": "9 cm", "repeats": "7"}) if one.startswith("The cutter is narrower")]
        assert f"a gap of {gap} at every joint." in text and ("The piping covers that." in text) == is_covered


def test_swags_round_other_shapes() -> None:
    """The side of a square is four times its width, and its eight joints stand 10 cm apart as the dividers are set; with nine they do not."""
    nine = answered("swags", {"shape": "square", "width": "20 cm", "cutter": "9 cm"})
    assert value(nine, "width") == pytest.approx(800 / 9) and "dividers" not in nine.figures
    assert any("The straight distance from joint to joint differs; dividers, step by step, 1 to 3: 8.9 cm" in note["text"] for note in nine.notes)
    eight = answered("swags", {"shape": "square", "width": "20 cm", "cutter": "9 cm", "repeats": "8"})
    assert figures(eight, "dividers") == ["10 cm"] and not any("The straight distance" in note["text"] for note in eight.notes)
    assert [row[3] for row in rows(nine, "others") if row[0] == "8"] == ["10 cm"]


def test_where_the_guide_tape_goes() -> None:
    """A cutter of 9 cm hangs with 63 mm above joints 12 mm down, and would stand 51 mm over the cake: the tape is under it, at the drop. With joints
    9 cm down it is over it, 27 mm below the top edge. Just at the edge it still goes over."""
    low = answered("swags", SIDE | {"cutter": "9 cm"})
    drop = 45 - math.sqrt(45**2 - 41.25**2)
    assert value(low, "guide_tape_under") == pytest.approx(drop) and value(low, "guide_below_top") == pytest.approx(drop + 12)
    assert "The cutter's top would stand 5.1 cm above the cake, so the guide tape goes under the cutter" in " ".join(
        sentences("swags", {**SIDE, "cutter": "9 cm"})
    )
    high = answered("swags", SIDE | {"cutter": "9 cm", "joints": "9 cm"})
    assert value(high, "guide_tape") == pytest.approx(90 - drop) and value(high, "guide_below_top") == pytest.approx(90 - (90 - drop))
    assert "guide_tape_under" not in high.figures and "guide_tape" in shown(high) and "guide_tape" not in shown(low)
    assert not any(name.startswith("guide") for name in answered("swags", SIDE | {"drop": "3 cm"}).figures)


def test_cutters_typed_twice_are_one() -> None:
    found = answered("swags", SIDE | {"cutter": "9 cm, 9 cm"})
    assert "cutter" not in found.figures and not any(table["name"] == "cutters" for table in found.tables)


def test_cutters_beside_each_other_with_repeats_of_ones_own() -> None:
    """Eight are asked for: each cutter is told with eight, the better first; 9 cm closes, 7.5 cm leaves 7.5 mm at every joint."""
    found = answered("swags", SIDE | {"cutter": "7.5 cm, 9 cm", "repeats": "8"})
    assert sorted(row[:3] for row in rows(found, "cutters")) == [["7.5 cm", "8", "8.3 cm"], ["9 cm", "8", "8.3 cm"]]
    assert heads(found, "cutters")[-1] == ("Why it stands here", "left")
    first = rows(found, "cutters")[0]
    assert figures(found, "cutter") == [first[0]] and figures(found, "drop") == [first[3]]


@pytest.mark.parametrize("units, sizes", [("metric", [50, 60, 70, 80, 100, 110, 120]), ("us", [25.4 * half / 2 for half in range(4, 10)])])
def test_circles_to_cut_out(monkeypatch: pytest.MonkeyPatch, units: str, sizes: list[float]) -> None:
    """The first is the circle the swags lie on, with the chord as wide as a swag; then the usual sizes but that one: 5 to 12 cm, or 2 to 4 1/2 in."""
    made: list[Any] = []

    class Sheet:
        def pdf(self, units: str) -> bytes:
            return units.encode()

    def circles(found: list[CutterCircle], *, paper: str, units: str) -> Sheet:
        made.append((found, paper, units))
        return Sheet()

    monkeypatch.setattr(swags_form, "cutter_circles", circles)
    assert calc.sheet("swags", SIDE | {"cutter": "9 cm", "units": units}, "cutter-circles", "A4") == units.encode()
    (([first, *others], paper, told),) = made
    assert (paper, told) == ("A4", units) and [other.diameter_mm for other in others] == pytest.approx(sizes)
    assert first.diameter_mm == pytest.approx(90) and first.width_mm == pytest.approx(82.5)
    assert first.words == ("8 swags 8.3 cm wide" if units == "metric" else "8 swags 3 1/4 in wide")


def test_the_chord_of_a_circle_is_no_wider_than_the_circle(monkeypatch: pytest.MonkeyPatch) -> None:
    """Seven swags of 94 mm on a cutter of 9 cm: the line across it is 9 cm. A deep swag lies on a larger circle than its width, which is the
    chord."""
    made: list[CutterCircle] = []

    class Sheet:
        def pdf(self, units: str) -> bytes:
            return b""

    monkeypatch.setattr(swags_form, "cutter_circles", lambda found, **given: made.append(found[0]) or Sheet())
    calc.sheet("swags", SIDE | {"cutter": "9 cm", "repeats": "7"}, "cutter-circles", "A4")
    assert made[0].width_mm == pytest.approx(90)
    with pytest.raises(KeyError):
        calc.sheet("swags", SIDE | {"cutter": "9 cm"}, "cutter-circle", "A4")


def test_a_usual_circle_is_left_out_beside_its_like(monkeypatch: pytest.MonkeyPatch) -> None:
    """Half a millimetre is cut away with the line: beside 90.5 mm there is no 9 cm, beside 90.52 there is."""
    made: list[list[CutterCircle]] = []

    class Sheet:
        def pdf(self, units: str) -> bytes:
            return b""

    monkeypatch.setattr(swags_form, "cutter_circles", lambda found, **given: made.append(found) or Sheet())
    for cutter in ("90.5 mm", "90.52 mm"):
        calc.sheet("swags", SIDE | {"cutter": cutter, "repeats": "8"}, "cutter-circles", "A4")
    assert [90.0 in [circle.diameter_mm for circle in found] for found in made] == [False, True]


def test_a_semicircle_does_not_turn_in() -> None:
    """Eight of 8 cm that drop 4 cm are half circles."""
    typed: Typed = {"side": "64 cm", "drop": "4 cm", "repeats": "8"}
    for drop, turns_in in (("4 cm", False), ("4.01 cm", True)):
        assert any("more than half the width" in text for text in sentences("swags", typed | {"drop": drop})) == turns_in


# --- strings, rosettes, any row -----------------------------------------------------------------------------------------------------------


def test_strings_line_by_line() -> None:
    """Eight repeats of 82.5 mm; of two strings the inner drops half as far. A catenary of parameter a over 82.5 mm drops a (cosh(41.25 / a) - 1) and
    is 2 a sinh(41.25 / a) long: with a = 32.40 that is 30 mm and 106.7 mm."""
    found = answered("strings", SIDE | {"loops": "2"})
    a = value(found, "parameter")
    assert a * (math.cosh(41.25 / a) - 1) == pytest.approx(30) and 2 * a * math.sinh(41.25 / a) == pytest.approx(value(found, "length_each"))
    assert rows(found, "loops") == [["1", "3 cm", "10.7 cm"], ["2", "1.5 cm", "8.9 cm"]]
    assert heads(found, "loops") == [("String", "left"), ("Drop", "right"), ("Length", "right")]
    assert figures(found, "parameter", "width", "drop", "strings") == ["3.2 cm", "8.3 cm", "3 cm", "16"]
    assert figures(answered("strings", {"width": "20 cm", "repeats": "6", "units": "us"}), "width", "drop", "parameter") == [
        "4 1/8 in",
        "1 1/4 in",
        "1 7/8 in",
    ]


@pytest.mark.parametrize(
    "typed, drop, layers, wide, words",
    [
        ({}, 30.0, 1, 165.0, "Two repeats of 1 string, each repeat 8.3 cm wide, the deepest hanging 3 cm."),
        ({"loops": "2", "drop": "5 cm"}, 50.0, 2, 165.0, "Two repeats of 2 strings, each repeat 8.3 cm wide, the deepest hanging 5 cm."),
        ({"loops": "3", "repeats": "6"}, 30.0, 3, 220.0, "Two repeats of 3 strings, each repeat 11 cm wide, the deepest hanging 3 cm."),
    ],
)
def test_two_repeats_of_strings_are_drawn(
    drawn: list[tuple[Any, float, float, str]], typed: dict[str, str], drop: float, layers: int, wide: float, words: str
) -> None:
    """The joints 1 cm below the top of the drawing, and 1 cm under the deepest string."""
    answered("strings", SIDE | typed)
    ((row, wide_mm, high_mm, told),) = drawn
    assert (row.kind, row.place, row.line_mm, row.repeats, row.drop_mm, row.layers) == ("string", "side", 10.0, 6, drop, layers)
    assert (wide_mm, high_mm, told) == (pytest.approx(wide), pytest.approx(drop + 20), words)


def test_nested_strings_are_piped_from_outside() -> None:
    told = "Pipe the outermost string of every repeat first"
    assert any(told in text for text in sentences("strings", {**SIDE, "loops": "2"})) and not any(
        told in text for text in sentences("strings", {**SIDE})
    )


def test_the_deepest_that_a_string_drops() -> None:
    """Three widths: 24 cm of 8; said rounded down where it is not whole."""
    assert figures(answered("strings", {"side": "64 cm", "drop": "24 cm"}), "drop") == ["24 cm"]
    assert refused("strings", {"side": "64 cm", "drop": "24.1 cm"}) == (
        "drop",
        "Drop must be at most three times the width, 24 cm for 8 repeats. Make it shallower, or use fewer repeats",
    )


def test_rosettes_side_by_side_or_spaced() -> None:
    """A closed star of 5 mm makes 16.4 mm. Round 66 cm forty would touch; at 5 cm there are thirteen, 50.8 mm apart with 30.8 mm between two 2 cm
    wide. Seventeen of 4 cm overlap: 38.8 mm apart."""
    touching = answered("rosettes", SIDE)
    assert figures(touching, "count", "size", "spacing") == ["40", "1.6 cm", "1.65 cm"] and value(touching, "gap") == pytest.approx(
        660 / 40 - 16.4317, abs=1e-3
    )
    spaced = answered("rosettes", SIDE | {"spacing": "5 cm", "size": "2 cm"})
    assert figures(spaced, "count", "spacing", "gap") == ["13", "5.1 cm", "3.1 cm"] and value(spaced, "gap") == pytest.approx(660 / 13 - 20)
    close = answered("rosettes", SIDE | {"size": "4 cm"})
    assert figures(close, "count", "spacing", "gap") == ["17", "3.9 cm", "1.2 mm overlap"] and value(close, "gap") == pytest.approx(660 / 17 - 40)
    assert figures(answered("rosettes", {"side": "63.5 cm", "size": "4 cm"}), "gap") == ["0.31 mm overlap"]  # sixteen, 39.69 mm apart
    exact = answered("rosettes", {"side": "64 cm", "size": "4 cm"})
    assert (value(exact, "gap"), figures(exact, "gap")) == (0, ["0 mm"])
    assert not {"spacing", "gap"} & set(answered("rosettes", {"count": "6"}).figures)
    for found, count in ((touching, 40), (spaced, 13), (close, 17)):
        assert value(found, "each") * count == pytest.approx(value(found, "mass"))


def test_round_the_side_by_the_width_of_the_cake() -> None:
    """20 cm across are 628.3 mm round: with a spacing of 5 cm thirteen, 48.3 mm apart; six of one's own, 104.7."""
    assert value(answered("rosettes", {"width": "20 cm", "spacing": "5 cm"}), "spacing") == pytest.approx(200 * math.pi / 13)
    assert value(answered("rosettes", {"width": "20 cm", "count": "6"}), "spacing") == pytest.approx(200 * math.pi / 6)


@pytest.mark.parametrize(
    "typed, size, wide, words",
    [
        ({"count": "6", "size": "2 cm"}, 20.0, 40.0, "Two rosettes 2 cm wide, 2 cm from middle to middle."),  # nothing else is said: they touch
        ({"count": "6", "size": "2 cm", "spacing": "5 cm"}, 20.0, 100.0, "Two rosettes 2 cm wide, 5 cm from middle to middle."),
        ({"count": "6", "size": "2 cm", "spacing": "1 cm"}, 20.0, 40.0, "Two rosettes 2 cm wide, 2 cm from middle to middle."),  # none on another
        ({"count": "6", "size": "2 cm", "side": "60 cm"}, 20.0, 200.0, "Two rosettes 2 cm wide, 10 cm from middle to middle."),
        ({"size": "2 cm", "side": "60 cm", "spacing": "5 cm"}, 20.0, 100.0, "Two rosettes 2 cm wide, 5 cm from middle to middle."),
        ({"count": "6", "spacing": "1 cm"}, 16.4317, 2 * 16.4317, "Two rosettes 1.6 cm wide, 1.6 cm from middle to middle."),
    ],
)
def test_two_rosettes_are_drawn(drawn: list[tuple[Any, float, float, str]], typed: dict[str, str], size: float, wide: float, words: str) -> None:
    """Half as high again as they are wide, their middles at half of that; six go round three times what is shown."""
    answered("rosettes", typed)
    ((row, wide_mm, high_mm, told),) = drawn
    assert (row.kind, row.place, row.repeats, row.count) == ("rosette", "side", 6, 6)
    assert (row.width_mm, row.line_mm, wide_mm, high_mm) == pytest.approx((size, 0.75 * size, wide, 1.5 * size), abs=1e-3)
    assert told == words


def test_rosettes_wider_or_narrower_than_the_tip_makes() -> None:
    """16.43 mm is usual: 0.7 times is 11.50 mm, 1.7 times 27.93 mm."""
    more = "This tip usually makes rosettes about 1.6 cm wide. More turns will look unlike the usual ones."
    less = "This tip usually makes rosettes about 1.6 cm wide. Less than a turn will look unlike the usual ones."
    for size, told in (("28 mm", more), ("27.9 mm", None), ("11.6 mm", None), ("11.4 mm", less), (None, None)):
        texts = [text for text in sentences("rosettes", {"count": "6", "size": size}) if text.startswith("This tip usually")]
        assert texts == ([told] if told else []), size


def test_how_many_rosettes_must_be_known() -> None:
    assert refused("rosettes", {}) == ("count", "How many is empty. Write a number, like 8, or give round the side and a spacing")
    assert refused("rosettes", {"spacing": "5 cm"})[0] == "count"


BANDS: list[tuple[dict[str, str], float]] = [
    # half the line above the joints, the drop, and half the line below it: a petal of 9 mm lays 8.78 mm
    ({"kind": "string", "repeats": "8", "drop": "3 cm"}, 38.784),
    ({"kind": "swag", "repeats": "8", "drop": "5 mm"}, 13.784),
    ({"kind": "swag", "repeats": "8", "drop": "4 mm"}, 12.784),  # less than half the line is a drop too
    ({"kind": "swag", "repeats": "8", "drop": "2 mm", "tip": "petal 11 mm"}, 12.736),
    # an S rises as far as it falls: its depth and its line, no more; a C hangs from its line, and its curls rise 9.8 mm over it
    ({"kind": "S scroll", "repeats": "8", "drop": "3 cm"}, 38.784),
    ({"kind": "C scroll", "repeats": "8", "drop": "3 cm", "tip": "round 3 mm"}, 43.004),
    ({"kind": "line", "tip": "round 3 mm"}, 3.217),
    ({"kind": "line", "tip": "round 3 mm", "drop": "5 cm"}, 3.217),  # a line has no drop
]


@pytest.mark.parametrize("typed, covers", BANDS)
def test_what_a_row_covers_from_top_to_bottom(typed: dict[str, str], covers: float) -> None:
    assert value(answered("row", SIDE | typed), "band") == pytest.approx(covers, abs=0.001)


def test_a_scroll_without_a_depth_has_the_usual_one() -> None:
    """0.35 of a repeat (common practice): 28.875 mm of 82.5."""
    left, typed = ({"kind": "S scroll", "repeats": "8", "tip": "round 3 mm"} | more for more in ({}, {"drop": "28.875 mm"}))
    for name in ("band", "length_total", "mass"):
        assert value(answered("row", SIDE | left), name) == pytest.approx(value(answered("row", SIDE | typed), name)), name


ROWS: list[tuple[dict[str, str], dict[str, str], set[str]]] = [
    # what is typed, figures by their label, and figures that are not there
    ({"kind": "line", "tip": "round 3 mm"}, {"Length of the row": "66 cm"}, {"count", "width", "pitch", "path"}),
    ({"kind": "line", "tip": "round 3 mm", "repeats": "1"}, {"Length of the row": "66 cm"}, {"count", "width", "pitch", "path"}),
    ({"kind": "line", "tip": "round 3 mm", "layers": "2"}, {"Length of the row": "132 cm"}, {"count", "width", "pitch", "path"}),
    ({"kind": "string", "repeats": "8", "drop": "3 cm"}, {"Pieces of the line": "8", "One repeat, along the side": "8.3 cm"}, {"pitch", "path"}),
    ({"kind": "rosette", "repeats": "2", "per_repeat": "3", "tip": "closed star 5 mm"}, {"How many": "6", "From one to the next": "11 cm"}, {"path"}),
    (
        {"kind": "rosette", "repeats": "1", "per_repeat": "3", "tip": "closed star 5 mm"},
        {"How many": "3", "From one to the next": "22 cm"},
        {"width"},
    ),
    ({"kind": "shell", "per_repeat": "3", "tip": "open star 7 mm"}, {"How many": "59"}, {"width", "path"}),  # how many is the tip's affair
    ({"kind": "rope", "tip": "open star 7 mm"}, {"How many": "66", "Path of the tip": "145.2 cm"}, {"width"}),
    ({"kind": "line", "tip": "round 3 mm", "repeats": "2"}, {"One repeat, along the side": "33 cm"}, {"pitch", "path"}),
    ({"kind": "string", "repeats": "2", "drop": "3 cm"}, {"Pieces of the line": "2", "One repeat, along the side": "33 cm"}, {"pitch", "path"}),
    # to and fro half a millimetre on every 3 mm: root(1 + 1 / 9) at the most is 5 % more, which is told
    ({"kind": "ruched border", "movement": "0.5 mm", "advance": "3 mm"}, {"Length of the row": "66 cm", "Path of the tip": "69.6 cm"}, {"pitch"}),
    ({"kind": "ruched border", "movement": "8 mm", "advance": "3 mm"}, {"Length of the row": "66 cm"}, {"pitch", "count"}),
]


@pytest.mark.parametrize("typed, told, absent", ROWS)
def test_what_is_told_of_a_row(typed: dict[str, str], told: dict[str, str], absent: set[str]) -> None:
    found = answered("row", SIDE | typed)
    labels = {figure["label"]: figure["text"] for figure in found.figures.values()}
    assert {label: labels.get(label) for label in told} == told and not absent & set(found.figures)


def test_movement_and_advance_make_the_path_longer() -> None:
    """To and fro 8 mm on every 3 mm of the way: 220 of them, at least 16 mm each; twice the advance about halves that, twice the movement doubles
    it."""

    def path(movement: str, advance: str) -> float:
        return value(answered("row", SIDE | {"kind": "ruched border", "movement": movement, "advance": advance}), "path")

    assert (
        path("8 mm", "3 mm") > 220 * 16 and path("8 mm", "6 mm") < 0.6 * path("8 mm", "3 mm") and path("16 mm", "3 mm") > 1.8 * path("8 mm", "3 mm")
    )


@pytest.mark.parametrize(
    "typed, at, message",
    [
        ({"kind": "swag", "drop": "3 cm"}, "repeats", "Repeats is empty, and a swag hangs between joints. Write how many, like 8"),
        ({"kind": "S scroll", "drop": "3 cm"}, "repeats", "Repeats is empty, and an S scroll hangs between joints. Write how many, like 8"),
        ({"kind": "swag", "repeats": "8"}, "drop", "Drop is empty. Write how far the swag hangs below its joints, like 3 cm"),
        (
            {"kind": "string", "repeats": "8", "drop": "24.8 cm"},
            "drop",
            "Drop must be at most three times the width, 24.7 cm for 8 repeats. Make it shallower, or use fewer repeats",
        ),
    ],
)
def test_rows_that_cannot_be(typed: dict[str, str], at: str, message: str) -> None:
    assert refused("row", SIDE | typed) == (at, message)


def test_a_row_as_deep_as_can_be() -> None:
    assert "band" in answered("row", {"side": "64 cm", "kind": "string", "repeats": "8", "drop": "24 cm", "tip": "round 2 mm"}).figures


# --- what is measured ---------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "slug, typed, at, message",
    [
        (
            *("strings", {"piped": "30 cm"}, "weighed"),
            "What the strip weighed is empty. Give both the strip's length and its weight, like 30 cm and 21 g, or neither",
        ),
        (
            *("strings", {"weighed": "21 g"}, "piped"),
            "A strip you piped is empty. Give both the strip's length and its weight, like 30 cm and 21 g, or neither",
        ),
        (
            *("shells", {"piped": "30 cm"}, "weighed"),
            "What the strip weighed is empty. Give both the strip's length and its weight or the number of its pieces, like 30 cm and 21 g, or "
            "neither",
        ),
        (
            *("shells", {"pieces": "27"}, "piped"),
            "A strip you piped is empty. Give both the strip's length and its weight or the number of its pieces, like 30 cm and 21 g, or neither",
        ),
        ("shells", {"pieces": "27", "weighed": "21 g"}, "piped", "A strip you piped is empty. Give both"),
    ],
)
def test_a_strip_needs_its_length_and_what_was_measured_of_it(slug: str, typed: dict[str, str], at: str, message: str) -> None:
    found = refused(slug, SIDE | typed)
    assert found[0] == at and found[1].startswith(message)


def test_a_weighed_strip_is_taken_as_it_is() -> None:
    """30 cm weighed 21 g: 66 cm of shells weigh 46.2 g, a tenth more or less from strip to strip. Then no sentence asks for a strip. The number of
    its pieces alone leaves the estimate."""
    typed = {**SIDE, "piped": "30 cm", "weighed": "21 g"}
    found = answered("shells", typed)
    assert value(found, "mass") == pytest.approx(46.2, rel=0.01) and found.figures["mass"]["text"] == "46 g (42 g to 51 g)"
    told = "The amount is an estimate from the tip's opening and the path of the hand."
    assert not any(told in text for text in sentences("shells", {**typed}))
    assert any(told in text for text in sentences("shells", {**SIDE, "piped": "30 cm", "pieces": "27"}))


def test_the_density_of_ones_own_buttercream() -> None:
    """100 ml that weigh 80 g: 0.8 g/ml exactly; of a recipe its density with its range; of neither that of any piping buttercream, 0.95."""
    own = answered("strings", SIDE | {"weight_100_ml": "80 g"}).figures
    for end in ("value", "low", "high"):
        assert own["mass"][end] == pytest.approx(0.8 * own["volume"][end]), end
    recipe = answered("strings", SIDE | {"recipe": "swiss_meringue"}).figures
    plain = answered("strings", SIDE).figures
    assert plain["mass"]["value"] == pytest.approx(0.95 * plain["volume"]["value"])
    assert recipe["volume"]["value"] == pytest.approx(plain["volume"]["value"]) and recipe["mass"]["value"] != plain["mass"]["value"]
    both = answered("strings", SIDE | {"weight_100_ml": "80 g", "recipe": "swiss_meringue"}).figures
    assert both["mass"]["value"] == own["mass"]["value"]  # what was weighed goes before the recipe


def test_a_spacing_that_a_tip_pipes() -> None:
    """0.4 to 2.5 times 11.2 mm: 4.48 to 28 mm. 12 pieces on 33.6 cm are 28 mm apart, 75 are 4.48."""
    for pieces in ("12", "75"):
        assert computed("shells", {**SIDE, "piped": "33.6 cm", "pieces": pieces}).problems == []
    assert refused("shells", SIDE | {"piped": "33.6 cm", "pieces": "76"}) == (
        "pieces",
        "How many pieces the strip has: that makes them 4.4 mm apart, and open star 7 mm pipes shells between 4.5 mm and 2.8 cm apart. Count them "
        "again, or measure the strip",
    )
    assert refused("row", SIDE | {"kind": "rope", "tip": "open star 7 mm", "piped": "33.6 cm", "pieces": "11"})[1].startswith(
        "How many pieces the strip has: that makes them 3.1 cm apart, and open star 7 mm pipes ropes between "
    )


def test_what_no_tip_spaces_has_no_limits_of_spacing() -> None:
    """A line has no pieces: whatever was counted on a strip of it is let be."""
    assert (
        not natural_pitch_mm("line", read_tip("round 3 mm", "tip", "Tip")) and KINDS["line"].natural_pitch_mm(read_tip("round 3 mm", "t", "T")) == 0
    )
    assert computed("row", {**SIDE, "kind": "line", "tip": "round 3 mm", "piped": "30 cm", "pieces": "300"}).problems == []


# --- the wandering line -------------------------------------------------------------------------------------------------------------------


def test_a_wandering_line_closer_and_wider() -> None:
    """The gap that was typed stands among 2, 3, 4 and 6 mm, each once, from close to wide."""
    found = answered("vermicelli", SIDE)
    assert rows(found, "gaps") == [
        ["2 mm", "12.08 m", "34 g", "20 min"],
        ["3 mm", "9.63 m", "27 g", "16 min"],
        ["4 mm", "8.01 m", "22 g", "13 min"],
        ["6 mm", "5.99 m", "17 g", "10 min"],
    ]
    assert heads(found, "gaps") == [(label, "right") for label in ("Between two lines", "Length", "Buttercream", "Time to pipe")]
    assert [row[0] for row in rows(answered("vermicelli", SIDE | {"gap": "5 mm"}), "gaps")] == ["2 mm", "3 mm", "4 mm", "5 mm", "6 mm"]
    assert figures(found, "length_total", "area", "pitch") == ["9.63 m", "528 cm²", "4.9 mm"]
    typed = rows(found, "gaps")[1]
    assert figures(found, "length_total")[0] == typed[1] and found.figures["mass"]["text"].startswith(f"{typed[2]} (")


def test_the_ground_that_is_filled() -> None:
    """A band of 10 cm round 66 cm; a top of the same girth, s^2 / 4 pi; or none where its height is left empty."""
    assert value(answered("vermicelli", SIDE | {"height": "10 cm"}), "area") == pytest.approx(66_000)
    assert value(answered("vermicelli", SIDE | {"ground": "top"}), "area") == pytest.approx(660**2 / 4 / math.pi)
    assert refused("vermicelli", SIDE | {"height": ""}) == ("height", "Height of the band is empty. Write how much of the side is filled, like 8 cm")
    assert refused("vermicelli", SIDE | {"height": "60 cm", "gap": "0.5 mm"}) == (
        "gap",
        "0.5 mm between two lines over 3960 cm² makes a line of more than 100 m. Leave more room between the lines, or fill less",
    )


def test_a_patch_of_the_wandering_line_is_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """6 cm wide and 36 mm high: at the line's own pitch and width."""
    given: list[tuple[Any, ...]] = []
    monkeypatch.setattr(vermicelli_form, "wander_scene", lambda *each: given.append(each))
    monkeypatch.setattr(vermicelli_form, "svg", lambda scene: "<svg/>")
    found = answered("vermicelli", SIDE)
    ((pitch, line, _, wide, high),) = given
    assert (pitch, line) == pytest.approx((4.930, 1.930), abs=0.001) and (wide, high) == (60.0, 36.0)
    assert found.drawings[0]["description"] == "A line 1.9 mm wide that wanders and never crosses, 3 mm from the next pass."


# --- drops of colouring -------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, told",
    [
        # 50 g took 3 drops: one to 16.7 g
        ({"mass": "10 g"}, "0.6 drops cannot be counted out. Put 1 whole drop into 17 g and use 10 g of it."),
        ({"mass": "20 g"}, "1.2 drops cannot be counted out. Put 2 whole drops into 33 g and use 20 g of it."),
        ({"mass": "40 g"}, "2.4 drops cannot be counted out. Put 3 whole drops into 50 g and use 40 g of it."),
        ({"mass": "62 g", "test_drops": "1"}, "1.2 drops cannot be counted out. Put 2 whole drops into 100 g and use 62 g of it."),  # 1.24
        ({"mass": "50 g"}, None),  # three
        # one or two whole drops are counted out as well as any number
        ({"test_drops": "1", "mass": "50 g"}, None),
        ({"test_drops": "1", "mass": "100 g"}, None),
        ({"test_drops": "1", "mass": "51 g"}, None),  # 1.02: out by a fiftieth
        # 3.4 drops: three are a ninth out; 4.5 drops: four or five; 10.4: four hundredths
        ({"test_drops": "1", "mass": "170 g"}, "The whole drops are more than a twentieth out. Add the last one from the tip of a cocktail stick, a"),
        ({"test_drops": "1", "mass": "225 g"}, "The whole drops are more than a twentieth out. Add the last one from the tip of a cocktail stick, a"),
        ({"test_drops": "1", "mass": "520 g"}, None),
        ({"test_drops": "1", "mass": "315 g"}, None),  # 6.3 drops: 6 are 4.8 % out
        ({"test_drops": "1", "mass": "317 g"}, "The whole drops are more than a twentieth out."),  # 6.34: 5.4 %
    ],
)
def test_what_to_do_where_the_drops_are_not_whole(typed: Typed, told: str | None) -> None:
    starts = ("The whole drops", "drops cannot be counted")
    found = [text for text in sentences("tint", typed) if any(one in text for one in starts)]
    assert len(found) == (told is not None) and (told is None or found[0].startswith(told)), found


def test_a_tint_figure_by_figure() -> None:
    """400 g are eight portions of 50 g: 24 drops, one to 16.7 g. 170 g at one drop to 50 g are 3.4: three are 11.8 % too few. Left two days longer
    than the test the drops are fewer and the tint deepens."""
    found = answered("tint", {})
    assert figures(found, "drops", "parts", "whole_drops", "off", "per_drop", "deepens") == ["24", "8", "24", "0 %", "17 g", "0 %"]
    odd = answered("tint", {"test_drops": "1", "mass": "170 g"})
    assert figures(odd, "drops", "parts", "whole_drops", "off") == ["3.4", "3.4", "3", "-11.8 %"]
    third = answered("tint", {"test_drops": "1", "mass": "62.6 g"})
    assert figures(third, "drops", "parts") == ["1.3", "1.25"]
    standing = " ".join(sentences("tint", {}))
    assert "Standing deepens a middling tint as if it had 15 % more drops (5 % to 25 %, common practice)." in standing
    assert "Standing deepens" in " ".join(sentences("tint", {"test_stood": None, "will_stand": None}))
    for typed in ({"test_stood": "1 h"}, {"will_stand": "12 h"}):
        assert "Standing deepens" not in " ".join(sentences("tint", {**typed}))


def test_the_most_drops_that_are_counted() -> None:
    """20,000: at 500 drops to a gram 40 g; a little more is refused."""
    assert figures(answered("tint", {"test_mass": "1 g", "test_drops": "500", "mass": "40 g"}), "whole_drops") == ["20000"]
    assert refused("tint", {"test_mass": "1 g", "test_drops": "500", "mass": "40.1 g"}) == (
        "mass",
        "Batch would take 20050 drops, more than anyone counts. Weigh the colouring, or tint a smaller batch",
    )


# --- tips ---------------------------------------------------------------------------------------------------------------------------------


def test_the_tip_in_hand() -> None:
    """A petal of 11 mm, 21.2 mm2: the line has 1.2 times that section (1 to 1.5, from memory), 25.4 mm2, and is as wide as it stands out."""
    found = answered("tips", {"family": "petal", "opening": "11 mm"})
    assert figures(found, "section", "laid", "line_width", "line_height") == ["21.2 mm²", "25.4 mm²", "1.1 cm", "1.1 cm"]
    laid, section = found.figures["laid"], value(found, "section")
    assert (laid["value"], laid["low"], laid["high"]) == pytest.approx((1.2 * section, section, 1.5 * section))
    assert rows(found, "sizes") == [
        *(["small rose", "2.4 cm"], ["swag", "1.1 cm"], ["ruffled swag", "1.1 cm"], ["ruched swag", "1.1 cm"], ["ruched border", "1.1 cm"]),
        ["flower", "2.4 cm"],
    ]
    assert heads(found, "sizes") == [("Effect", "left"), ("Size", "right")]
    (sizes,) = [table for table in found.tables if table["name"] == "sizes"]
    assert sizes["title"] == "What this petal 11 mm tip makes" and [drawing["name"] for drawing in found.drawings] == ["opening"]
    assert any("about 1.2 times its section (1 to 1.5): a thin slot needs a firm squeeze" in note["text"] for note in found.notes)
    alone = answered("tips", {"family": "petal"})
    assert "section" not in alone.figures and "section" not in answered("tips", {"opening": "11 mm"}).figures
    round_one = answered("tips", {"family": "round", "opening": "3 mm"})
    assert "about 1.15 times its section (1 to 1.4): the hand" in " ".join(note["text"] for note in round_one.notes)
    leaf = answered("tips", {"family": "leaf", "opening": "6 mm"})  # 1.3 times, 1.05 to 1.65
    assert "about 1.3 times its section (1.05 to 1.65): the mouth" in " ".join(note["text"] for note in leaf.notes)
    laid, section = leaf.figures["laid"], value(leaf, "section")
    assert (laid["value"], laid["low"], laid["high"]) == pytest.approx((1.3 * section, 1.05 * section, 1.65 * section))


def test_tips_of_the_table() -> None:
    """All of them where nothing is asked, else the eight nearest; the whole line of one."""
    every = answered("tips", {})
    assert value(every, "matches") == len(rows(every, "matches")) > 8
    near = answered("tips", {"family": "petal", "opening": "11 mm"})
    assert value(near, "matches") == len(rows(near, "matches")) == 8
    assert rows(near, "matches")[0] == [
        *("petal 11 mm", "swag, ruched swag, ruched border, flower, ruffled swag, small rose", "swag 1.1 cm"),
        "a 12 mm ruffle, whose slot is even or wavy",
    ]
    assert heads(near, "matches") == [("Tip", "left"), ("Makes", "left"), ("Size", "right"), ("Easily taken for", "left")]
    for typed in ({"effect": "swag"}, {"width": "2 cm"}, {"opening": "3 mm"}, {"family": "round"}):
        assert len(rows(answered("tips", typed), "matches")) <= 8, typed


def test_tips_that_are_held_alike_are_told_once() -> None:
    """Petals pipe a swag and a flower each in one way; a star and a rope are named with all the families that are held so."""
    found = rows(answered("tips", {"family": "petal", "opening": "11 mm"}), "held")
    assert [row[0] for row in found] == ["petal: swag", "petal: flower"]
    assert found[1] == [
        "petal: flower",
        "45° to the side",
        "the thick end against the cake, the thin end away from it",
        "firm: a peak stands up straight",
    ]
    every = rows(answered("tips", {}), "held")
    assert len({tuple(row) for row in every}) == len(every) and any(" or " in row[0] for row in every)
    assert all(len(set(row[0].split(":")[0].split(" or "))) == row[0].count(" or ") + 1 for row in every)


def test_the_opening_that_a_size_asks_for() -> None:
    """A leaf 2 cm long asks for 7.7 mm, also in inches; of one family it is a figure besides."""
    leaf = answered("tips", {"effect": "leaf", "width": "2 cm", "units": "us"})
    assert rows(leaf, "openings") == [["leaf", "7.7 mm (0.3 in)"]] and "opening_needed" not in leaf.figures
    assert heads(leaf, "openings") == [("Family", "left"), ("Opening", "right")]
    assert [t["title"] for t in leaf.tables if t["name"] == "openings"] == ["The opening that makes it 25/32 in wide"]
    petal = answered("tips", {"family": "petal", "effect": "swag", "width": "2 cm"})
    assert figures(petal, "opening_needed") == ["20.5 mm"] and rows(petal, "openings") == [["petal", "20.5 mm"]]
    assert value(petal, "opening_needed") == pytest.approx(20.492, abs=0.001)
    several = answered("tips", {"effect": "swag", "width": "2 cm"})
    assert len(rows(several, "openings")) == 5 and "opening_needed" not in several.figures
    for typed in ({"effect": "leaf"}, {"width": "2 cm"}):
        assert not any(table["name"] == "openings" for table in answered("tips", typed).tables)


def test_a_size_that_no_opening_makes() -> None:
    """A dot half a millimetre wide asks for less than 0.5 mm; the sentence has its article."""
    found = answered("tips", {"family": "round", "effect": "dot", "width": "0.5 mm"})
    assert "No opening between 0.5 mm and 60 mm makes a dot 0.5 mm wide. The nearest tips are shown." in [note["text"] for note in found.notes]
    assert "opening_needed" not in found.figures and not any(table["name"] == "openings" for table in found.tables)
    assert refused("tips", {"family": "basket", "effect": "leaf"}) == (
        "effect",
        "Effect: no basket tip makes that. Leave the family empty, or choose another effect",
    )


def test_the_chart_of_tips(monkeypatch: pytest.MonkeyPatch) -> None:
    """All that are found, not the eight nearest alone, from family to family and from fine to coarse."""
    given: list[Any] = []

    class Sheet:
        def pdf(self, units: str) -> bytes:
            return units.encode()

    def chart(tips: Any, *, paper: str, units: str) -> Sheet:
        given.append((tips, paper, units))
        return Sheet()

    monkeypatch.setattr(tips_form, "tip_chart", chart)
    monkeypatch.setattr(tips_form, "tip_gauge", lambda paper, units: chart([], paper=paper, units=units))
    assert calc.sheet("tips", {"effect": "shell", "units": "us"}, "tip-chart", "letter") == b"us"
    assert calc.sheet("tips", {"effect": "shell"}, "tip-gauge", "A4") == b"metric"
    (tips, paper, units), gauge = given
    found = [tip for tip, words in tips]
    assert (paper, units) == ("letter", "us") and gauge == ([], "A4", "metric") and {words for _, words in tips} == {""}
    families = [tip.family for tip in found]
    assert len(found) == len(set(found)) and families == sorted(families, key=tips_form.FAMILIES.index) and len(set(families)) > 1
    for family in set(families):
        sizes = [(tip.opening_mm, tip.points) for tip in found if tip.family == family]
        assert sizes == sorted(sizes)
    calc.sheet("tips", {}, "tip-chart", "A4")
    assert len(given[-1][0]) == int(value(answered("tips", {}), "matches"))
    with pytest.raises(KeyError):
        calc.sheet("tips", {}, "tip-charts", "A4")


# --- tins by what they hold ---------------------------------------------------------------------------------------------------------------


def coats(typed: dict[str, str]) -> list[str]:
    return [note["text"] for note in answered("coats", typed).notes if note["text"].startswith("Going by what it holds")]


def test_a_tin_by_what_it_holds() -> None:
    """20 cm round and 10 cm deep hold 3.14 l. 3.5 l are 1.114 times that: wider by its root, 21.1 cm. A heart 20 cm wide with 2.6 l is 65 % of a
    square; with 2.4 l it would be leaner than any (61 %), and is scaled: 240 cm2 of 288, 18.3 cm wide."""
    assert coats({"width": "20 cm", "holds": "3.5 l", "deep": "10 cm"}) == ["Going by what it holds, the tin is treated as 21.1 cm wide."]
    assert coats({"width": "20 cm", "shape": "heart", "holds": "2.6 l", "deep": "10 cm"}) == ["Going by what it holds, the heart's fullness is 65 %."]
    assert coats({"width": "20 cm", "shape": "heart", "holds": "2.4 l", "deep": "10 cm"}) == [
        "Going by what it holds, the tin is treated as 18.3 cm wide."
    ]
    assert coats({"width": "20 cm"}) == []


@pytest.mark.parametrize("factor, goes", [(0.705, True), (0.695, False), (1.295, True), (1.305, False)])
def test_a_tin_that_differs_too_much_from_its_shape_is_measured_again(factor: float, goes: bool) -> None:
    """Three tenths either way of 3141.6 ml."""
    typed = {"width": "20 cm", "holds": f"{3141.593 * factor:.0f} ml", "deep": "10 cm"}
    found = calc.compute("coats", typed).problems
    assert (found == []) == goes
    if not goes:
        assert found[0]["input"] == "holds" and found[0]["message"].startswith(
            "What the tin holds: a round tin of that size, 10 cm deep, holds about 3.14 l, not "
        )


def test_what_a_tin_would_hold_is_told_to_the_millilitre() -> None:
    """11 cm across and 7.5 cm deep: 95.03 cm2 times 7.5 are 712.7 ml."""
    assert refused("coats", {"width": "11 cm", "holds": "1 l", "deep": "7.5 cm"}) == (
        "holds",
        "What the tin holds: a round tin of that size, 7.5 cm deep, holds about 713 ml, not 1 l. Measure it again, or check its size",
    )


@pytest.mark.parametrize("units, like", [("metric", "10 cm"), ("us", "4 in")])
def test_what_a_tin_holds_says_little_without_its_depth(units: str, like: str) -> None:
    assert refused("coats", {"width": "20 cm", "holds": "3 l", "units": units}) == (
        "deep",
        f"How deep the tin is: this is empty, and what it holds is given. Write it like {like}",
    )


def test_every_calculator_of_rows_tells_the_angle_of_the_hand() -> None:
    typed: dict[str, dict[str, str]] = {"shells": SIDE, "strings": SIDE, "rosettes": {"count": "6"}, "vermicelli": SIDE, "row": SIDE}
    assert set(typed) < set(CALCULATORS)
    for slug, texts in typed.items():
        assert len([note for note in answered(slug, texts).notes if note["text"].startswith("Hold the tip ")]) == 1, slug
