"""Swags with several cutters: the one that comes out best is taken, and what each gives is told."""

from __future__ import annotations

import pytest

from calc import compute
from calc.calculators.declare import Answer


def table(answer: Answer, name: str) -> list[list[str]]:
    """The rows of a table as text."""
    return next([[str(cell) for cell in row] for row in found["rows"]] for found in answer.tables if found["name"] == name)


def swags(**values: str) -> Answer:
    return compute("swags", values)


def test_the_cutter_that_closes_and_hangs_full_comes_out_best() -> None:
    """66 cm is 8.8 times 7.5 cm, so nine swags of 7.33 cm fit it; eight of 8.25 cm hang flat in 9 cm (worked by hand: drop 2.7 cm, share 0.33)."""
    both = swags(side="66 cm", cutter="7.5 cm, 9 cm")
    assert both.problems == []
    assert (both.figures["repeats"]["value"], both.figures["cutter"]["value"]) == (9, 75.0)
    assert [row[:2] for row in table(both, "cutters")] == [["7.5 cm", "9"], ["9 cm", "8"]]


def test_its_figures_are_those_of_that_cutter_alone() -> None:
    both, alone = swags(side="66 cm", cutter="9 cm; 7.5 cm"), swags(side="66 cm", cutter="7.5 cm")
    assert "cutter" not in alone.figures and not [one for one in alone.tables if one["name"] == "cutters"]
    assert {name: figure for name, figure in both.figures.items() if name != "cutter"} == alone.figures


def test_repeats_that_were_taken_are_told_with_every_cutter() -> None:
    asked = swags(side="66 cm", cutter="7.5 cm, 8 cm, 9 cm", repeats="8")
    assert asked.figures["cutter"]["value"] == 90.0
    assert [row[:2] for row in table(asked, "cutters")] == [["9 cm", "8"], ["8 cm", "8"], ["7.5 cm", "8"]]


@pytest.mark.parametrize("text", ["7.5 cm, 9 cm", "7.5, 9 cm", "7.5 cm and 9 cm", "7.5cm,9cm", "7.5 or 9", "7,5 cm; 9 cm", "75 mm & 90 mm"])
def test_cutters_are_read_as_people_write_them(text: str) -> None:
    assert [row[0] for row in table(swags(side="66 cm", cutter=text), "cutters")] == ["7.5 cm", "9 cm"]


def test_the_same_cutter_twice_is_one() -> None:
    assert "cutter" not in swags(side="66 cm", cutter="9 cm, 9 cm").figures
