"""CIEDE2000 against the supplementary test data published with its implementation notes.

Source: G. Sharma, W. Wu, E. N. Dalal, The CIEDE2000 Color-Difference Formula: Implementation Notes, Supplementary Test Data, and
Mathematical Observations, Color Research & Application 30(1), 21-30, 2005. 33 of the 34 pairs, in the paper's order. Pair 14
(50 -0.001 2.49 / 50 0.001 -2.49) stands exactly on the jump of the mean hue at half a turn, where the last digit of atan2 decides
between 4.8045 and 4.7461; it is only asked to give one of the two.
"""

from __future__ import annotations

import math

import pytest

from calc.colours import ciede2000

PAIRS = """
50 2.6772 -79.7751  50 0 -82.7485  2.0425
50 3.1571 -77.2803  50 0 -82.7485  2.8615
50 2.8361 -74.0200  50 0 -82.7485  3.4412
50 -1.3802 -84.2814  50 0 -82.7485  1.0000
50 -1.1848 -84.8006  50 0 -82.7485  1.0000
50 -0.9009 -85.5211  50 0 -82.7485  1.0000
50 0 0  50 -1 2  2.3669
50 -1 2  50 0 0  2.3669
50 2.49 -0.0010  50 -2.49 0.0009  7.1792
50 2.49 -0.0010  50 -2.49 0.0010  7.1792
50 2.49 -0.0010  50 -2.49 0.0011  7.2195
50 2.49 -0.0010  50 -2.49 0.0012  7.2195
50 -0.0010 2.49  50 0.0009 -2.49  4.8045
50 -0.0010 2.49  50 0.0011 -2.49  4.7461
50 2.5 0  50 0 -2.5  4.3065
50 2.5 0  73 25 -18  27.1492
50 2.5 0  61 -5 29  22.8977
50 2.5 0  56 -27 -3  31.9030
50 2.5 0  58 24 15  19.4535
50 2.5 0  50 3.1736 0.5854  1.0000
50 2.5 0  50 3.2972 0  1.0000
50 2.5 0  50 1.8634 0.5757  1.0000
50 2.5 0  50 3.2592 0.3350  1.0000
60.2574 -34.0099 36.2677  60.4626 -34.1751 39.4387  1.2644
63.0109 -31.0961 -5.8663  62.8187 -29.7946 -4.0864  1.2630
61.2901 3.7196 -5.3901  61.4292 2.2480 -4.9620  1.8731
35.0831 -44.1164 3.7933  35.0232 -40.0716 1.5901  1.8645
22.7233 20.0904 -46.6940  23.0331 14.9730 -42.5619  2.0373
36.4612 47.8580 18.3852  36.2715 50.5065 21.2231  1.4146
90.8027 -2.0831 1.4410  91.1528 -1.6435 0.0447  1.4441
90.9257 -0.5406 -0.9208  88.6381 -0.8985 -0.7239  1.5381
6.7747 -0.2908 -2.4247  5.8714 -0.0985 -2.2286  0.6377
2.0776 0.0795 -1.1350  0.9033 -0.0636 -0.5514  0.9082
"""
ROWS = [tuple(float(v) for v in line.split()) for line in PAIRS.strip().splitlines()]


def test_all_the_pairs_are_here() -> None:
    assert len(ROWS) == 33 and all(len(row) == 7 for row in ROWS)


@pytest.mark.parametrize("row", ROWS)
def test_pair(row: tuple[float, ...]) -> None:
    first, second, expected = row[0:3], row[3:6], row[6]
    assert ciede2000(first, second) == pytest.approx(expected, abs=5e-5)  # type: ignore[arg-type]
    assert ciede2000(second, first) == pytest.approx(expected, abs=5e-5)  # type: ignore[arg-type]


def test_the_pair_on_the_jump_gives_one_of_its_two_values() -> None:
    found = ciede2000((50.0, -0.0010, 2.49), (50.0, 0.0010, -2.49))
    assert min(abs(found - 4.8045), abs(found - 4.7461)) < 5e-5


def test_steps_of_the_first_pair() -> None:
    """The paper's equations 2 to 7 for pair 1, worked by hand: only a' and C' change, since b* is near -80."""
    a, b = 2.6772, -79.7751
    mean = (math.hypot(a, b) + 82.7485) / 2
    assert mean == pytest.approx(81.28426, abs=1e-5)
    g = 0.5 * (1 - math.sqrt(mean**7 / (mean**7 + 25**7)))
    assert (1 + g) * a == pytest.approx(2.6774, abs=5e-5)  # a' of the published table
    assert math.hypot((1 + g) * a, b) == pytest.approx(79.8200, abs=5e-5)  # C' of the published table
    assert math.degrees(math.atan2(b, (1 + g) * a)) % 360 == pytest.approx(271.9222, abs=5e-5)  # h' of the published table
