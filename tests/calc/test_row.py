"""`row`: any row of piping, asked from a page."""

from __future__ import annotations

import math

import pytest

import calc
from calc.rows import KINDS

SIDE = {"side": "66 cm", "repeats": "8", "drop": "27 mm", "tip": "petal 9 mm"}


def figures(**texts: str) -> dict[str, dict[str, object]]:
    answer = calc.compute("row", texts)
    assert answer.problems == []
    return answer.figures


def problem(**texts: str) -> tuple[str, str]:
    answer = calc.compute("row", texts)
    assert len(answer.problems) == 1 and answer.to_dict()["figures"] == {}
    return answer.problems[0]["input"], answer.problems[0]["message"]


def test_swags_run_along_the_arc() -> None:
    """8 arcs of chord 82.5 and sagitta 27: 4 R atan(2 y / w) each, worked by hand from the segment's formula."""
    radius = 27 / 2 + 82.5**2 / (8 * 27)
    found = figures(kind="swag", **SIDE)
    assert found["length_total"]["value"] == pytest.approx(8 * 4 * radius * math.atan(2 * 27 / 82.5))
    assert found["width"]["value"] == pytest.approx(82.5)


def test_a_rocked_tip_travels_further_by_movement_and_advance() -> None:
    """Movement 3 and advance 4: the path is sqrt(1 + (6/4)^2) times the row."""
    found = figures(kind="ruched border", side="50 cm", tip="petal 9 mm", movement="3", advance="4")
    assert found["path"]["value"] == pytest.approx(500 * math.sqrt(1 + 1.5**2))


def test_a_strip_that_was_weighed_replaces_the_estimate() -> None:
    """30 cm weighed 21 g: a plain line of 60 cm takes 42 g, within a tenth."""
    found = figures(kind="line", side="60 cm", tip="round 4 mm", piped="30 cm", weighed="21 g")
    mass = found["mass"]
    assert mass["value"] == pytest.approx(42.0)
    assert (mass["low"], mass["high"]) == (pytest.approx(37.8), pytest.approx(46.2))


def test_two_lines_take_twice_what_one_takes() -> None:
    one, two = figures(kind="swag", layers="1", **SIDE), figures(kind="line", layers="1", **SIDE)
    assert figures(kind="line", layers="2", **SIDE)["mass"]["value"] == pytest.approx(2 * float(two["mass"]["value"]))  # type: ignore[arg-type]
    assert float(one["mass"]["value"]) > float(two["mass"]["value"])  # type: ignore[arg-type]


def test_so_many_to_a_joint() -> None:
    assert figures(kind="leaf", side="66 cm", repeats="8", per_repeat="2", tip="leaf 6 mm")["count"]["value"] == 16


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_answers(kind: str) -> None:
    found = figures(kind=kind, **SIDE)
    assert float(found["mass"]["value"]) > 0 and float(found["band"]["value"]) > 0  # type: ignore[arg-type]


def test_what_hangs_needs_joints_and_a_drop() -> None:
    assert problem(kind="swag", side="66 cm", drop="27 mm", tip="petal 9 mm")[0] == "repeats"
    assert problem(kind="ruched swag", side="66 cm", repeats="8", tip="petal 9 mm")[0] == "drop"


def test_a_drop_too_deep_is_said_with_the_limit() -> None:
    name, message = problem(kind="string", side="66 cm", repeats="8", drop="30 cm", tip="round 2 mm")
    assert name == "drop" and "24.7 cm" in message and "fewer repeats" in message
