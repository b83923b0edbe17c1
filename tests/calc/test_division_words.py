"""The ways to divide a side: why each stands where it does, in words, and the presses that take one."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, Press, run
from calc.calculators.division_words import exact_length, shown_choices, why
from calc.division import Division, division_choices
from calc.units import Formatter

SUPPER = (Path(__file__).parents[2] / "docs/plan/harvest-supper.toml").read_text(encoding="utf-8")
ORDER, SWAGS = CALCULATORS["order"], CALCULATORS["swags"]


def table(answer: Answer, name: str) -> list[list[str]]:
    """The rows of one table."""
    assert not answer.problems, answer.problems
    found: list[list[str]] = next(item["rows"] for item in answer.tables if item["name"] == name)
    return found


def by_repeats(rows: list[list[str]]) -> dict[tuple[str, str], list[str]]:
    """The rows by repeats and cutter."""
    return {(row[0], row[1]): row for row in rows}


def fields() -> dict[str, str]:
    """The harvest supper as the texts of the form."""
    made = run(ORDER, {"order": SUPPER}).fields
    assert made is not None and tomllib.loads(SUPPER)
    return dict(made)


@pytest.mark.parametrize("units", ["metric", "us"])
def test_a_way_that_is_taken_stays_listed_and_is_marked(units: str) -> None:
    """Each press, taken in turn, gives a form whose answer lists the same ways in the same order, with that one marked."""
    before = table(run(ORDER, {**fields(), "units": units}), "others_1")
    for row in before:
        if not isinstance(row[-1], Press):
            continue
        answer = run(ORDER, {**fields(), **row[-1].sets, "units": units})
        after = table(answer, "others_1")
        assert [other[:-1] for other in after] == [other[:-1] for other in before]
        assert [other[:4] for other in after if not isinstance(other[-1], Press)] == [row[:4]]
        assert answer.figures["repeats_1"]["value"] == int(row[0])
        again = next(press for note in answer.notes for press in note.get("presses", ()) if press == "Choose for me again")
        assert table(run(ORDER, {**fields(), **row[-1].sets, **again.sets, "units": units}), "others_1") == before


def test_the_first_is_told_by_what_speaks_for_it_and_the_others_by_what_puts_them_behind() -> None:
    """660 mm with cutters of 9 and 7.5 cm: nine swags of 73 mm fit the smaller cutter, eight of the wider hang flatter, seven leave a gap."""
    rows = table(run(ORDER, fields()), "others_1")
    assert rows[0][:2] == ["9", "7.5 cm"] and rows[0][4].startswith("closes exactly with the 7.5 cm cutter; hangs full")
    found = by_repeats(rows)
    assert found["8", "9 cm"][4].startswith("hangs a little flat") and "but closes exactly with the 9 cm cutter" in found["8", "9 cm"][4]
    assert found["7", "9 cm"][4].startswith("the 9 cm cutter leaves a gap of 4.3 mm at every joint")


def test_one_that_the_bench_would_not_list_joins_the_list_when_it_is_taken() -> None:
    """Twelve repeats stand behind the first five; taken, they are the last that is shown."""
    rows = table(run(ORDER, {**fields(), "tiers.0.repeats": "12"}), "others_1")
    assert [row[0] for row in rows if not isinstance(row[-1], Press)] == ["12"] and rows[-1][0] == "12"
    swags = table(run(SWAGS, {"side": "66 cm", "cutter": "7.5 cm", "repeats": "6"}), "others")
    assert [row[0] for row in swags] == ["9", "10", "8", "11", "6"] and swags[-1][-1] == "Your choice"


def best(*positional: Any, **named: Any) -> Division:
    """The best of some choices."""
    return division_choices(*positional, **named)[0]


def test_words_follow_what_was_wanted() -> None:
    """What differs from the drop or width wanted is told with by how much; what cannot be seen is not."""
    say = Formatter()
    asked = best(500.0, (100.0,), wanted_drop_mm=40.0, fewest=5, most=5)
    assert "1 cm deeper than you asked" in why(asked, say)
    assert "the drop you asked for" in why(best(500.0, (100.0,), wanted_drop_mm=50.0, fewest=5, most=5), say)
    assert "1 cm wider than suits that drop" in why(best(500.0, (), wanted_width_mm=90.0, wanted_drop_mm=36.0, fewest=5, most=5), say)
    assert "too deep for the room under the joints" in why(best(500.0, (100.0,), room_mm=30.0, fewest=5, most=5), say)
    assert "fiddly" in why(best(500.0, (), fewest=20, most=20), say) and "in one go" in why(best(500.0, (), fewest=3, most=3), say)
    stretched = best(500.0, (100.0,), piece_pitch_mm=72.0, fewest=5, most=5)
    assert "dots stretched by 39 % to meet the joints" in why(stretched, say, pieces="dots")
    assert "a joint on every corner" in why(asked, say, has_corners=True)


def test_the_one_taken_is_among_those_shown_and_each_is_shown_once() -> None:
    """Five at most, in the order of their rank."""
    choices = division_choices(660.0, (90.0, 75.0))
    for taken in choices:
        shown = shown_choices(choices, taken)
        assert [rank for rank, _ in shown] == sorted({rank for rank, _ in shown}) and len(shown) <= 5
        assert taken in [choice for _, choice in shown]
        different = [choice.repeats for _, choice in shown_choices(choices, taken, different=True)]
        assert len(set(different)) == len(different) and taken.repeats in different


def test_a_length_is_written_so_that_it_reads_back() -> None:
    """75 mm is not a round number of sixteenths."""
    assert (
        exact_length(75.0, Formatter("us")) == "75 mm"
        and exact_length(76.2, Formatter("us")) == "3 in"
        and exact_length(75.0, Formatter()) == "7.5 cm"
    )
