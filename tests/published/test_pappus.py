"""Pappus's centroid theorem, on which every volume of piped line rests: volume = section x way of its middle.

Source: E. W. Weisstein, CRC Concise Encyclopedia of Mathematics, CRC Press 1999: Pappus's Centroid Theorem, Torus. The worked torus
(r = 3, R = 7) is printed as V = 1243.568195 with pi taken as 3.14159; with pi exact it is 1243.570154537, computed from V = 2 pi^2 R r^2.
"""

from __future__ import annotations

import math

import pytest

from calc.rows import RowSpec, pipe
from calc.tips import Tip, round_section_mm2

# r of the section, R of the way of its middle, volume printed or computed, how far it can be trusted
TORI = (
    (3.0, 7.0, 1243.570154537, 1e-9),  # computed from the published formula, pi exact
    (3.0, 7.0, 1243.568195, 2e-6),  # published, pi = 3.14159, low by 1.6e-6
    (3.0, 10.0, 1776.528792, 1e-9),  # outer 13, inner 7: the second published pair of radii; volume computed
)


@pytest.mark.parametrize("r, big, volume, within", TORI)
def test_torus_step_by_step(r: float, big: float, volume: float, within: float) -> None:
    section = round_section_mm2(2 * r)
    assert section == pytest.approx(math.pi * r * r, rel=1e-15)
    way = 2 * math.pi * big
    assert section * way == pytest.approx(volume, rel=within)


@pytest.mark.parametrize("r, big, volume, within", TORI)
def test_a_line_piped_once_round_is_that_torus_swollen(r: float, big: float, volume: float, within: float) -> None:
    tip = Tip("round", 2 * r)
    piping = pipe(RowSpec("line", tip, run_mm=2 * math.pi * big))
    assert piping.path_mm == pytest.approx(2 * math.pi * big, rel=1e-15)
    assert 1000 * piping.volume_ml / tip.swell == pytest.approx(volume, rel=within)
    assert 1000 * piping.low_ml == pytest.approx(volume, rel=within), "the low end of a round tip's swell is the bare opening"


def test_a_string_is_its_section_times_its_own_length() -> None:
    """The theorem holds along any plane curve that does not cross itself; the length is the catenary's of 80 mm, 20 mm deep."""
    tip = Tip("round", 2)
    piping = pipe(RowSpec("string", tip, run_mm=80, repeats=1, drop_mm=20))
    assert 1000 * piping.volume_ml / tip.swell == pytest.approx(math.pi * 92.063289127, rel=1e-9)
