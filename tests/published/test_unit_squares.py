"""Unit squares in circles: whole slices of a round tier, under six conventions.

Sources
-------
The On-Line Encyclopedia of Integer Sequences, entries A261849, A119677, A136485, A136486, A001182, A372847 and A125228, by their own definitions:
A261849  squares of an n x n grid enclosed in a circle of diameter n with the grid's centre
A119677  complete squares in a circle of radius n drawn on squared paper at (0, 0)
A136485  unit lattice cells enclosed by an origin-centred circle of diameter n
A136486  the same for the odd diameters 2n + 1 alone
A001182  cells of squared paper in a quarter of a circle of radius n: sum of floor(sqrt(n^2 - k^2))
A372847  unit squares in a circle of radius n, an even number of rows, the most squares in each row: 2 sum floor(2 sqrt(n^2-k^2))
A125228  the same with an odd number of rows. Its title calls it the most squares of side 1 in a disk; it is not (eight fit in a
         disk of radius 2, the sequence has seven), so only its formula is used
All terms are published; the second half of each test re-derives them from the formula beside the table.
"""

from __future__ import annotations

import math

import pytest

from calc.portions import cut_plan, grid_count, whole_slices_in_row
from calc.shapes import outline

A261849 = (
    0,
    0,
    1,
    4,
    9,
    16,
    21,
    32,
    45,
    60,
    69,
    88,
    101,
    120,
    145,
    164,
    185,
    216,
    241,
    276,
    293,
    332,
    365,
    392,
    437,
    476,
    509,
    556,
    593,
    648,
)  # from n = 0
A119677 = (0, 0, 4, 16, 32, 60, 88, 120, 164, 216, 276, 332, 392, 476, 556, 648)  # from n = 0
A136485 = (0, 0, 4, 4, 12, 16, 24, 32, 52, 60, 76, 88, 112, 120, 148, 164, 192, 216, 256, 276)  # from n = 1
A136486 = (0, 4, 12, 24, 52, 76, 112, 148, 192, 256, 308)  # from n = 0
A001182 = (0, 1, 4, 8, 15, 22, 30, 41, 54, 69, 83, 98, 119, 139, 162, 183, 208, 234, 263, 294)  # from n = 1
A372847 = (0, 6, 18, 36, 64, 92, 130, 172, 224, 284, 344, 410, 488, 570, 658)  # from n = 1
A125228 = (1, 7, 21, 39, 65, 93, 135, 179, 227, 285, 349, 415, 495, 573, 663)  # from n = 1


def brute_force(diameter: float, middle: bool) -> int:
    """Unit cells whose four corners lie in the circle, looked at one by one."""
    shift = 0.5 if middle else 0.0
    reach = math.ceil(diameter / 2) + 1
    square = diameter * diameter / 4 * (1 + 1e-12)
    return sum(
        all((i + shift + a) ** 2 + (j + shift + b) ** 2 <= square for a in (0, 1) for b in (0, 1))
        for i in range(-reach, reach)
        for j in range(-reach, reach)
    )


def index_of(terms: tuple[int, ...], first: int) -> list[tuple[int, int]]:
    return [(n, term) for n, term in enumerate(terms, start=first) if n > 0]


@pytest.mark.parametrize("n, term", index_of(A261849, 1))
def test_centred_grid_of_whole_number_diameter(n: int, term: int) -> None:
    odd = n % 2 == 1  # an n x n grid has a cell in its middle when n is odd, a crossing when it is even
    assert brute_force(n, odd) == term
    assert grid_count(outline("round", n), 1, 1, odd, odd) == term


@pytest.mark.parametrize("n, term", index_of(A119677, 0))
def test_squared_paper_by_radius(n: int, term: int) -> None:
    assert 4 * sum(math.isqrt(n * n - k * k) for k in range(1, n)) == term  # four times A001182
    assert grid_count(outline("round", 2 * n), 1, 1) == term


@pytest.mark.parametrize("n, term", index_of(A136485, 1))
def test_lattice_cells_by_diameter(n: int, term: int) -> None:
    assert brute_force(n, False) == term
    assert grid_count(outline("round", n), 1, 1) == term


@pytest.mark.parametrize("n, term", list(enumerate(A136486))[1:])
def test_lattice_cells_of_odd_diameters(n: int, term: int) -> None:
    assert grid_count(outline("round", 2 * n + 1), 1, 1) == term
    if 2 * n + 1 <= len(A136485):
        assert A136485[2 * n] == term  # the other sequence at the same diameter


@pytest.mark.parametrize("n, term", index_of(A001182, 1))
def test_a_quarter_of_a_tier(n: int, term: int) -> None:
    assert sum(math.isqrt(n * n - k * k) for k in range(1, n)) == term
    assert grid_count(outline("round", 2 * n), 1, 1) == 4 * term


def test_the_two_grids_differ_on_odd_diameters() -> None:
    """A261849 and A136485 are half a cell apart: mixing them up shows at n = 5, 9 against 12."""
    tier = outline("round", 5)
    assert (grid_count(tier, 1, 1, True, True), grid_count(tier, 1, 1)) == (9, 12)


@pytest.mark.parametrize("n, term", index_of(A372847, 1))
def test_full_rows_with_a_cut_through_the_middle(n: int, term: int) -> None:
    rows = [math.isqrt(4 * (n * n - k * k)) for k in range(1, n)]
    assert 2 * sum(rows) == term
    tier = outline("round", 2 * n)
    found = [whole_slices_in_row(tier, k - 1, k, 1) for k in range(1, n + 1)]
    assert found == [*rows, 0]  # the outermost row holds nothing
    assert sum(whole_slices_in_row(tier, k, k + 1, 1) for k in range(-n, n)) == term


@pytest.mark.parametrize("n, term", index_of(A125228, 1))
def test_full_rows_with_a_row_on_the_middle(n: int, term: int) -> None:
    tier = outline("round", 2 * n)
    rows = [math.isqrt(4 * n * n - (2 * k + 1) ** 2) for k in range(n)]  # row k ends k + 1/2 from the middle
    assert rows[0] + 2 * sum(rows[1:]) == term
    found = [whole_slices_in_row(tier, k - 0.5, k + 0.5, 1) for k in range(n)]
    assert found == rows
    assert sum(whole_slices_in_row(tier, k - 0.5, k + 0.5, 1) for k in range(-n, n + 1)) == term


@pytest.mark.parametrize("n, term", index_of(A261849, 1)[2:])
def test_grid_cut_is_never_worse_than_a_published_grid(n: int, term: int) -> None:
    """The grid cut looks at both parities, so it gives at least the sequence's number, and never more than the area."""
    plan = cut_plan(outline("round", n), (1, 1), "grid")
    assert term <= plan.count <= plan.area_bound
