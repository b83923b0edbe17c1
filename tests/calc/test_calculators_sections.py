"""The sections of an order's answer beside each other: what one tells, another tells alike, and its figures are the sums of their parts.

The cake is that of test_calculators_order: swags and a base of shells on 20 cm, beads and pairs of leaves on 15 cm.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

import calc
from calc.calculators.order_tiers import _sizes
from calc.calculators.portions_form import levels_words
from calc.calculators.supports_form import dowels_in_words, inner_words, seat_words
from calc.units import Formatter
from tests.calc.test_calculators_order import CAKE, ONE, answered, planned
from tests.calc.test_calculators_sums import money, number, rows, time_min, value

SAY = Formatter()
WAYS: list[dict[str, str]] = [
    {},
    {"tiers.0.striped": "sage", "tiers.1.dam": "1 cm", "keep_top": "yes", "recipe": "plain"},
    {"tiers.0.bands": "russet 2, blush 1", "tiers.1.disc": "16 cm", "stacked": "venue", "units": "us"},
    {"tiers.0.height": "22 cm", "tiers.0.shape": "square", "tiers.0.side": "86 cm", "tips": "petal 10 mm"},
]


def named(answer: Any, begins: str) -> list[float]:
    """The figures of which the names begin so and end with a number."""
    return [float(figure["value"]) for name, figure in answer.figures.items() if name.startswith(begins) and name.removeprefix(begins).isdigit()]


@pytest.mark.parametrize("changes", WAYS)
def test_the_figures_of_a_cake_are_those_of_its_tiers(changes: dict[str, str]) -> None:
    found = answered(CAKE | changes)
    portions = named(found, "portions_")
    counted = portions[:1] if changes.get("keep_top") else portions
    assert value(found, "portions") == sum(counted) and value(found, "spare_portions") == sum(counted) - 36
    assert value(found, "height") == pytest.approx(sum(named(found, "finished_height_")))
    assert value(found, "weight") == pytest.approx(sum(named(found, "weight_"))) and value(found, "dowels") == sum(named(found, "dowels_"))
    for end in ("low", "high"):
        assert found.figures["weight"][end] == pytest.approx(sum(found.figures[f"weight_{i}"][end] for i in (1, 2)))
    assert (value(found, "board"), value(found, "dowel_length")) == (value(found, "board_1"), value(found, "dowel_length_1"))
    for name in ("finished_width", "finished_side", "finished_height"):
        assert value(found, name) == value(found, f"{name}_1")
    for name in ("filling", "crumb_coat", "final_coat"):
        assert value(found, name) == pytest.approx(sum(named(found, f"{name}_")))
    colours = [figure for name, figure in found.figures.items() if name.startswith("colour_")]
    for end in ("value", "low", "high"):
        assert found.figures["buttercream"][end] == pytest.approx(math.fsum(one[end] for one in colours))
    assert value(found, "volume") == pytest.approx(value(found, "buttercream") / value(found, "density"))
    pieces = [figure for name, figure in found.figures.items() if name.startswith("mass_")]
    for end in ("value", "low", "high"):
        assert found.figures["piping"][end] == pytest.approx(math.fsum(one[end] for one in pieces))
    laid = sum(value(found, name) for name in ("filling", "crumb_coat", "final_coat")) * value(found, "density")
    assert value(found, "mass") == pytest.approx(laid + value(found, "piping"))
    assert value(found, "buttercream") > found.figures["mass"]["value"] > found.figures["mass"]["low"]


@pytest.mark.parametrize("changes", WAYS)
def test_one_section_tells_what_another_does(changes: dict[str, str]) -> None:
    found = answered(CAKE | changes)
    figures = found.figures
    for place, (sponge, stand, coats) in enumerate(zip(rows(found, "portions"), rows(found, "supports"), rows(found, "coats"), strict=True), 1):
        assert sponge[0] == stand[0] == coats[0] and sponge[1].endswith(" tin")
        assert sponge[2].split(",")[0] == figures[f"portions_{place}"]["text"] and ("kept back" in sponge[2]) == (
            place == 2 and "keep_top" in changes
        )
        assert stand[1].startswith(figures[f"board_{place}"]["text"]) and stand[2].startswith(
            "none"
            if not figures[f"dowels_{place}"]["value"]
            else f"{figures[f'dowels_{place}']['text']} of {figures[f'dowel_length_{place}']['text']}"
        )
        levels = 2 if place == 1 and "tiers.0.height" in changes else 1
        assert sponge[3].split(",")[0] in ("rings", "grid", "strips", "wedges") and sponge[3].partition(", ")[2] == (
            "on 2 levels" if levels > 1 else ""
        )
        for cell, name in zip(coats[1:4], ("filling", "crumb_coat", "final_coat"), strict=True):
            assert cell.split(", ")[0] == figures[f"{name}_{place}"]["text"]
            assert number(cell.split(", ")[1]) == pytest.approx(
                value(found, f"{name}_{place}") * value(found, "density"), abs=2 if "units" in changes else 0.51
            )
        assert number(coats[4].split(", ")[1]) == pytest.approx(sum(number(cell.split(", ")[1]) for cell in coats[1:4]))
    below, above = rows(found, "supports")
    assert below[4] == above[3] and number(above[4]) == 0
    colours, bags = rows(found, "colours"), rows(found, "bags")
    assert [row[1] for row in colours] == [figures[f"colour_{row[0]}"]["text"].split(" (")[0] for row in colours]
    assert value(found, "bags") == len(bags) and [row[0] for row in bags] == list("ABCDEFG"[: len(bags)])
    piped = {row[0].split(". ")[0]: row for row in rows(found, "bench")}
    assert list(piped) == [str(i + 1) for i in range(4)]
    for bag in bags:
        assert number(bag[3]) == pytest.approx(sum(number(row[7]) for row in piped.values() if (row[3], row[2]) == (bag[1], bag[2])), abs=0.6)
    told = [(tier, at, row) for tier in (1, 2) for at, row in enumerate(rows(found, f"rows_{tier}"), 1)]
    for tier, at, row in told:
        end = f"_{tier}_{at}"
        assert (
            row[4].split(",")[0] == figures[f"count{end}"]["text"]
            and row[5] == figures[f"length{end}"]["text"]
            and row[6] == figures[f"mass{end}"]["text"]
        )
        same = [one for one in piped.values() if one[2:4] == row[1:3] and one[5] == row[4].split(",")[0]]
        assert same and same[0][6] == row[5] and number(same[0][7]) == pytest.approx(number(row[6]), abs=0.05) and row[3].startswith(same[0][1])
    marking = rows(found, "marking")
    for place, line in enumerate(marking, 1):
        assert (line[1], line[2]) == (figures[f"finished_side_{place}"]["text"], figures[f"repeats_{place}"]["text"])
        assert line[3] == figures[f"dividers_{place}"]["text"]
        assert value(found, f"pitch_{place}") * value(found, f"repeats_{place}") == pytest.approx(value(found, f"finished_side_{place}"))
    assert marking[0][6] == figures["drop_1"]["text"] and (figures["repeats"]["text"], figures["drop"]["text"]) == (marking[0][2], marking[0][6])
    tasks = rows(found, "tasks")
    assert sum(time_min(row[2]) for row in tasks if row[2]) == value(found, "hands")
    for name in ("portions", "buttercream", "price"):
        assert figures[name]["also"] == "cake"
    boxes = rows(found, "boxes")
    assert [row[0] for row in boxes] == (["Lower", "Upper"] if changes.get("stacked") == "venue" else ["the whole cake"])
    assert money(rows(found, "price")[-1][1]) == pytest.approx(value(found, "price"), abs=0.006)


def test_quiet_figures_are_told_by_a_table_beside_them() -> None:
    """Those of the whole cake are read above it; those of each tier and row stand in their tables."""
    found = answered(CAKE)
    loud = [name for name, figure in found.figures.items() if not figure.get("quiet")]
    assert loud == [
        *("height", "portions", "spare_portions", "weight", "stacked", "filling", "crumb_coat", "final_coat", "repeats", "width", "drop"),
        *("buttercream", "piping", "bags", "couplers", "start", "hands", "cost", "price", "per_portion"),
    ]


def test_drawings_and_files_of_an_order() -> None:
    """The upper tier's leaves sit at joints, and its beads on the edge: nothing is marked on its side."""
    found = answered(CAKE | {"name": "Tea for two"})
    assert [drawing["name"] for drawing in found.drawings] == ["tilted", "side", "top", "unrolled_1"]
    assert [one["saved"] for one in found.files] == ["tea-for-two-timetable.ics"]
    assert all(one["saved"] == f"tea-for-two-{one['name']}.pdf" for one in found.sheets) and len(found.sheets) > 15
    assert [one["name"] for one in found.sections] == [
        *("cake", "portions", "coats", "rows", "amounts", "shopping", "time", "price", "customer", "bench", "sheets"),
    ]
    bare = answered(ONE)
    assert [drawing["name"] for drawing in bare.drawings] == ["tilted", "side", "top"] and "rows_1" not in [one["name"] for one in bare.tables]


@pytest.mark.parametrize("units", ["metric", "us"])
def test_every_way_to_divide_can_be_taken(units: str) -> None:
    found = answered(CAKE | {"units": units})
    others = next(one["rows"] for one in found.tables if one["name"] == "others_1")
    assert len(others) == 5 and [row[-1] for row in others].count("In use") == 1
    for row in others:
        if row[-1] == "In use":
            assert row[0] == found.figures["repeats_1"]["text"]
            continue
        taken = answered(CAKE | {"units": units} | dict(row[-1].sets))
        assert taken.figures["repeats_1"]["text"] == row[0] and row[-1].done.startswith(f"Lower: {row[0]} repeats")
        again = next(one["rows"] for one in taken.tables if one["name"] == "others_1")
        assert [each[:4] for each in again if each[-1] == "Your choice"] == [row[:4]]
        (undo,) = [press for note in taken.notes for press in note.get("presses", ()) if press == "Choose for me again"]
        back = answered(CAKE | {"units": units} | dict(row[-1].sets) | dict(undo.sets))
        assert back.figures["repeats_1"]["text"] == found.figures["repeats_1"]["text"]
    assert [column["label"] for column in next(one["columns"] for one in found.tables if one["name"] == "others_2")][1:2] == ["From joint to joint"]


def test_pieces_are_told_by_the_repeat_where_they_are_fitted() -> None:
    """63 shells in nine repeats are seven; 66 cm by 63 are 10.5 mm, and the tip makes one in 11.2: 6.5 % less."""
    shells = rows(answered(CAKE), "rows_1")[1]
    assert shells[4] == "63, 7 to a repeat, squeezed 7 %"
    found = answered(CAKE)
    assert value(found, "stretch_1_2") == pytest.approx(100 * (math.pi * 210 / 63 / 11.2 - 1)) and value(found, "pitch_1_2") == pytest.approx(
        math.pi * 210 / 63
    )
    assert "pitch_1_1" not in found.figures and rows(found, "rows_1")[0][4] == "9" and rows(found, "rows_2")[1][4] == "16"


def test_rows_meet_the_same_joints_where_that_is_chosen() -> None:
    free = answered(CAKE | {"tiers.0.rows.2.kind": "rosette", "tiers.0.rows.2.place": "top edge"})
    (offer,) = [press for note in free.notes for press in note.get("presses", ()) if press == "Fit all rows to the same joints"]
    assert dict(offer.sets) == {"tiers.0.fit": "all"} and offer.done == "The rows of Lower are fitted to the same joints."
    fitted = answered(CAKE | {"tiers.0.rows.2.kind": "rosette", "tiers.0.rows.2.place": "top edge"} | dict(offer.sets))
    told = next(note for note in fitted.notes if "all rows meet the same" in note["text"])
    repeats = int(value(fitted, "repeats_1"))
    assert f"Lower: all rows meet the same {repeats} joints. Swags 1 to a repeat; shells " in told["text"]
    assert dict(told["presses"][0].sets) == {"tiers.0.fit": "own"} and value(fitted, "count_1_3") % repeats == 0
    assert not any(press == "Fit all rows to the same joints" for note in answered(CAKE).notes for press in note.get("presses", ()))


def test_tiers_are_fitted_to_one_another_where_that_is_chosen() -> None:
    both = CAKE | {"tiers.1.rows.0.kind": "swag", "tiers.1.rows.0.place": "side"}
    apart = answered(both)
    (offer,) = [press for note in apart.notes for press in note.get("presses", ()) if press == "Fit the tiers to one another"]
    told = next(note["text"] for note in apart.notes if note["text"].startswith("Each tier is divided separately: "))
    widths = [
        f"{name} {apart.figures[f'repeats_{i}']['text']} repeats of {SAY.length(value(apart, f'pitch_{i}'))}"
        for i, name in ((1, "Lower"), (2, "Upper"))
    ]
    assert told.startswith(f"Each tier is divided separately: {' and '.join(widths)}, with")
    fitted = answered(both | dict(offer.sets))
    assert any(note["text"].startswith("The tiers are fitted to one another: ") for note in fitted.notes)
    assert value(fitted, "repeats_1") == value(fitted, "repeats_2") == 8  # one number for both, so pitches are as the sides
    (end,) = [press for note in fitted.notes for press in note.get("presses", ()) if press == "Divide each tier separately"]
    assert dict(end.sets) == {"together": "no"}


# --- tall and odd tiers ----------------------------------------------------------------------------------------------------------------------------


def test_a_tall_tier_is_told_level_by_level() -> None:
    """22 cm are two levels of 11, 35 cm three of 11.7; the board inside is a centimetre narrower than the sponge."""
    assert levels_words(220.0, 24, SAY).startswith(
        "Built with a board and supports half way up, the tier is cut on 2 levels"
    ) and "2 x 24 = 48" in levels_words(220.0, 24, SAY)
    assert "after each 11.7 cm" in levels_words(350.0, 24, SAY) and "3 x 24 = 72" in levels_words(350.0, 24, SAY)
    tall = planned(tiers__0__height="22 cm", tiers__0__width="25 cm", tiers__1__width="15 cm")
    stand, top = tall.supports
    size, long = SAY.length(stand.inner_width_mm), SAY.length(stand.dowel_length_mm)
    assert inner_words(stand, SAY).startswith(f"Inside: 1 thin board of {size}, on {stand.inner_dowels} dowels of {long}")
    assert dowels_in_words(stand, SAY) == f"{stand.all_dowels} of {long}, {stand.inner_dowels} of them under a board inside"
    assert dowels_in_words(top, SAY) == "none" and dowels_in_words(planned().supports[0], SAY) == "4 of 10.5 cm"
    alone = planned(tiers__1__height="22 cm").supports[1]
    assert dowels_in_words(alone, SAY).endswith(" under a board inside") and "of them" not in dowels_in_words(alone, SAY)
    three = planned(tiers__0__height="35 cm", tiers__0__width="25 cm", tiers__0__shape="rectangle", tiers__0__length="30 cm").supports[0]
    assert inner_words(three, SAY).startswith("Inside: 2 thin boards of 24 cm x 29 cm, on ")
    assert seat_words("Upper", "Lower", 4.0, SAY).startswith("Upper stands 4 mm behind the middle of Lower")
    assert seat_words("Upper", "Lower", -4.0, SAY).startswith("Upper stands 4 mm in front of the middle of Lower")


def test_a_tape_that_says_otherwise_is_told() -> None:
    """66 cm are worked out; 70 cm are 6 % more, and 62 cm 6 % less. A millimetre's difference is not mentioned."""
    for tape, words in (("70 cm", "the tape says 70 cm, tin and coat add up to 66 cm (6 % less)"), ("62 cm", "add up to 66 cm (6 % more)")):
        told = " ".join(note["text"] for note in answered(CAKE | {"tiers.0.side": tape}).notes)
        assert words in told
    assert "the tape says" not in " ".join(note["text"] for note in answered(CAKE | {"tiers.0.side": "66.1 cm"}).notes)


def test_only_shapes_with_two_sizes_have_a_length() -> None:
    assert _sizes("oval", 200.0, 300.0) == (200.0, 300.0) and _sizes("heart", 200.0, 180.0) == (200.0,)


@pytest.mark.parametrize("units, cutter", [("metric", "7 cm"), ("us", "2.75 in")])
def test_a_cutter_that_would_suit_the_tier_above_is_offered(units: str, cutter: str) -> None:
    """50.3 of 66 cm are 0.76: of the 9 cm cutter that is 6.86 cm, to the half centimetre 7, to the quarter of an inch 2.75 in."""
    both = CAKE | {"tiers.1.rows.0.kind": "swag", "tiers.1.rows.0.place": "side", "cutters": "9 cm", "together": "yes", "units": units}
    found = answered(both)
    (press,) = [press for note in found.notes for press in note.get("presses", ()) if press.startswith("Use a ")]
    assert set(press.sets) == {"tiers.1.cutter"}
    (told,) = [note["text"] for note in found.notes if "its swags would hang as full as those of Lower, in proportion." in note["text"]]
    offered = number(press.sets["tiers.1.cutter"], "length")
    assert offered == pytest.approx(number(cutter, "length"), abs=0.05) and told.startswith("Upper: with a cutter of ")
    taken = answered(both | dict(press.sets))
    assert not any("would hang as full" in note["text"] for note in taken.notes)
    assert not any("would hang as full" in note["text"] for note in answered(both | {"together": "no"}).notes)
    assert not any("would hang as full" in note["text"] for note in answered(both | {"tiers.1.repeats": "8"}).notes)


def test_fitted_rows_are_told_piece_by_piece() -> None:
    """Leaves in pairs at each joint; a string of two loops is one to a repeat; what runs on is not counted."""
    rows_of = {"2.kind": "string", "2.place": "under", "2.layers": "2", "3.kind": "ruched border", "3.place": "top edge", "4.kind": "leaf"}
    rows_of |= {"4.place": "joints", "4.per_joint": "2"}
    found = answered(CAKE | {f"tiers.0.rows.{name}": text for name, text in rows_of.items()} | {"tiers.0.fit": "all"})
    (told,) = [note["text"] for note in found.notes if "all rows meet the same" in note["text"]]
    assert "Swags 1 to a repeat; shells " in told and "; strings 1 to a repeat; leaves 2 at each joint." in told and "border" not in told


def test_plain_figures_are_those_of_the_first_tier_that_is_marked() -> None:
    """Ten repeats below and six above; or, where nothing hangs below, the six."""
    both = CAKE | {"tiers.1.rows.0.kind": "swag", "tiers.1.rows.0.place": "side", "cutters": "", "tiers.0.repeats": "10", "tiers.1.repeats": "6"}
    found = answered(both)
    assert (value(found, "repeats_1"), value(found, "repeats_2"), value(found, "repeats")) == (10, 6, 10)
    for name in ("drop", "length_each", "length_total", "dividers"):
        assert value(found, name) == value(found, f"{name}_1") != value(found, f"{name}_2"), name
    upper = answered(both | {"tiers.0.rows.0.kind": "bead", "tiers.0.rows.0.place": "top edge"})
    assert value(upper, "repeats") == value(upper, "repeats_2") == 6 and value(upper, "drop") == value(upper, "drop_2")
    assert [drawing["name"] for drawing in found.drawings if drawing["name"].startswith("unrolled")] == ["unrolled_1", "unrolled_2"]
    assert [drawing["name"] for drawing in upper.drawings if drawing["name"].startswith("unrolled")] == ["unrolled_2"]
    assert not any(name.startswith("repeats") and not name.startswith("repeats_") for name in answered(ONE).figures)


@pytest.mark.parametrize("above, words", [("15 cm", "are free beside Upper and what is piped round its foot"), ("", "are free to the middle")])
def test_a_row_that_reaches_too_far_in_is_told(above: str, words: str) -> None:
    """Shells of a wide star inside the edge of a small tier, alone or with another tier on it."""
    typed = {"tiers.0.name": "Lower", "tiers.0.width": "16 cm" if above else "6 cm", "guests": "4", "tiers.0.rows.0.kind": "shell"}
    typed |= {"tiers.0.rows.0.place": "inside", "tiers.0.rows.0.tip": "open star 26 mm"}
    typed |= {"tiers.1.name": "Upper", "tiers.1.width": above} if above else {}
    told = [note["text"] for note in answered(typed).notes if " in from the edge, and only " in note["text"]]
    assert len(told) == 1 and told[0].startswith("Lower: the shell, open star 26 mm, cream reaches ") and words in told[0]


def test_the_rows_of_a_tier_are_headed_by_how_it_is_divided() -> None:
    """On a round one setting of the dividers does; on a heart it does not, and none is named."""
    titles = {one["name"]: one["title"] for one in answered(CAKE).tables}
    assert titles["rows_1"] == "Lower: 9 repeats round 66 cm, dividers at 7.2 cm"
    heart = {one["name"]: one["title"] for one in answered(CAKE | {"tiers.0.shape": "heart", "tiers.1.width": "8 cm"}).tables}
    assert "dividers at" not in heart["rows_1"] and " repeats round " in heart["rows_1"]


def test_hours_too_short_for_an_order_are_said_at_their_field() -> None:
    (found,) = calc.compute("order", CAKE | {"hours": "Mon 9:00-9:10"}).problems
    assert found["input"] == "hours" and found["message"].startswith("Working hours leave no room for the work before Sat 16 October 2027, 18:00: ")
