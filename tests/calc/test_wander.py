"""Vermicelli: the line goes everywhere once, never crosses itself, and is as long as the sum says."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc.drawing.wander import wander, wander_points
from calc.rows import QUICK, SLOW, WANDER_TURNS, wander_length_mm, wandering
from calc.tips import Tip

SIZES = st.integers(1, 8).map(lambda half: 2 * half)


@given(wide=SIZES, high=SIZES, seed=st.integers(0, 10_000))
@settings(max_examples=100, deadline=None)
def test_goes_through_every_cell_once_and_closes(wide: int, high: int, seed: int) -> None:
    cells = wander(wide, high, seed)
    assert sorted(cells) == sorted(itertools.product(range(wide), range(high)))
    assert all(abs(a - c) + abs(b - d) == 1 for (a, b), (c, d) in zip(cells, (*cells[1:], cells[0]), strict=True))


def crosses(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float], s: tuple[float, float]) -> bool:
    def side(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
        return (b[0] - a[0]) * (c[1] - a[1]) > (b[1] - a[1]) * (c[0] - a[0])

    return side(p, q, r) != side(p, q, s) and side(r, s, p) != side(r, s, q)


@given(seed=st.integers(0, 10_000), loose=st.floats(0, 0.2))
@settings(max_examples=25, deadline=None)
def test_a_hands_line_never_crosses_itself(seed: int, loose: float) -> None:
    points = wander_points(10, 6, seed, loose)
    pieces = list(zip(points, points[1:], strict=False))
    assert not any(crosses(*pieces[i], *pieces[j]) for i in range(len(pieces)) for j in range(i + 2, len(pieces)))


@pytest.mark.parametrize("seed", range(12))
def test_length_of_lines_drawn_agrees_with_the_sum(seed: int) -> None:
    """Quarter turns and straight pieces of a drawn line, one pitch to a cell, counted: within 3 % of the sum with its usual share of turns."""
    cells = wander(20, 14, seed)
    ways = [(c[0] - a[0], c[1] - a[1]) for a, c in zip(cells[-1:] + cells[:-1], cells[1:] + cells[:1], strict=True)]
    turns = sum(1 for across, down in ways if abs(across) == abs(down) == 1)
    pitch = 5.0
    length = math.fsum([pitch] * (len(cells) - turns) + [math.pi * pitch / 4] * turns)
    area = len(cells) * pitch * pitch
    assert length == pytest.approx(wander_length_mm(area, pitch, turns / len(cells)), rel=1e-12)
    assert length == pytest.approx(wander_length_mm(area, pitch), rel=0.03)
    assert turns / len(cells) == pytest.approx(WANDER_TURNS, abs=0.05)


@given(area=st.floats(100, 100_000), gap=st.floats(0.5, 20))
@settings(max_examples=100, deadline=None)
def test_a_plain_line_of_that_length(area: float, gap: float) -> None:
    tip = Tip("round", 1.8)
    if wander_length_mm(area, gap + tip.bead_width_mm) > 100_000:
        return
    line = wandering(area, gap, tip)
    assert line.volume_ml == pytest.approx(tip.laid_mm2 * line.length_mm / 1000)
    assert line.low_g < line.mass_g < line.high_g
    assert line.low_min == pytest.approx(line.time_min * QUICK) and line.high_min == pytest.approx(line.time_min * SLOW)
    assert wandering(2 * area, gap, tip).mass_g == pytest.approx(2 * line.mass_g) if line.length_mm < 50_000 else True
    assert wandering(area, gap * 1.5, tip).length_mm < line.length_mm


@pytest.mark.parametrize("bad", [(0.0, 3.0), (100.0, 0.0), (-1.0, 3.0)])
def test_nothing_is_no_ground(bad: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="greater than 0"):
        wandering(*bad, Tip("round", 1.8))


@pytest.mark.parametrize("cells", [(3, 4), (4, 0), (402, 2)])
def test_a_ground_has_an_even_number_of_cells(cells: tuple[int, int]) -> None:
    with pytest.raises(ValueError, match="even number"):
        wander(*cells)


def test_the_band_and_the_top() -> None:
    """50 cm round: a band of 8 cm is 400 cm2, a top pi x (50 / 2 pi)^2 = 199 cm2."""
    band = calc.compute("vermicelli", {"side": "50 cm", "height": "8 cm"})
    top = calc.compute("vermicelli", {"side": "50 cm", "ground": "top"})
    assert band.figures["area"]["value"] == pytest.approx(40_000)
    assert top.figures["area"]["value"] == pytest.approx(19_894, abs=1)
    assert band.figures["mass"]["value"] / top.figures["mass"]["value"] == pytest.approx(40_000 / 19_894, rel=1e-3)


def test_a_strip_weighed_replaces_the_estimate() -> None:
    asked = {"side": "50 cm", "height": "8 cm"}
    plain = calc.compute("vermicelli", asked)
    weighed = calc.compute("vermicelli", {**asked, "piped": "1 m", "weighed": "6 g"})
    assert weighed.figures["mass"]["value"] == pytest.approx(plain.figures["length_total"]["value"] / 1000 * 6)


@pytest.mark.parametrize(
    ("values", "field", "words"),
    [
        ({}, "side", "empty"),
        ({"side": "50 cm", "height": ""}, "height", "like 8 cm"),
        ({"side": "6 m", "height": "60 cm", "gap": "0.5 mm", "tip": "round 1 mm"}, "gap", "more than 100 m"),
    ],
)
def test_mistakes_are_told_at_their_field(values: dict[str, str], field: str, words: str) -> None:
    (problem,) = calc.compute("vermicelli", values).problems
    assert problem["input"] == field and words in problem["message"]
