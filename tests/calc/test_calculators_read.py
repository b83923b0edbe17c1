"""What is read from a field that holds several things, by hand and at its limits: tiers and rows of a timetable, tiers to support, tins, shares."""

from __future__ import annotations

from collections.abc import Callable

import pytest

import calc
from calc.calculators.coats_form import _shares
from calc.calculators.stack_form import read_tins
from calc.calculators.supports_form import read_tiers as supported_tiers
from calc.calculators.timetable_form import MOST_ROWS, MOST_TIERS, ROW_MIN, read_rows, read_tiers
from calc.units import LONGEST_TEXT, Problem


def tiers(text: str, units: str = "metric") -> list[tuple[float, float, float | None]]:
    return [(tier.width_mm, tier.height_mm, tier.length_mm) for tier in read_tiers(text, "tiers", "Tiers", units)]


def rows(text: str, of: int = 2) -> list[tuple[str, int, float, bool]]:
    return [(row.name, row.tier, row.time_min, row.joint) for row in read_rows(text, "rows", "Rows", of)]


# --- a timetable ---------------------------------------------------------------------------------------------------------------


def test_so_many_tiers_are_usual_ones_each_5_cm_narrower_than_the_one_under_it() -> None:
    """The topmost is 15 cm wide, and each is 10 cm high (common practice, no source)."""
    assert tiers("1") == [(150, 100, None)]
    assert tiers("3") == [(250, 100, None), (200, 100, None), (150, 100, None)]
    assert len(tiers(str(MOST_TIERS))) == MOST_TIERS == 7


def test_tiers_are_read_by_width_and_height_or_by_two_sizes_and_height() -> None:
    assert tiers("20 x 10 cm; 15 x 8 cm") == [(200, 100, None), (150, 80, None)]
    assert tiers("30 x 20 x 10 cm rectangle") == [(300, 100, 200)]
    assert tiers("20 cm") == [(200, 100, None)]  # a tier without a height has the usual one
    assert tiers("8 x 4 in", "us") == [(pytest.approx(203.2), pytest.approx(101.6), None)]


@pytest.mark.parametrize("text", ["0", str(MOST_TIERS + 1), "; ".join(["20 x 10 cm"] * (MOST_TIERS + 1)), ";", "20 x 20 x 20 x 20 cm", "20 x  cm"])
def test_no_tiers_and_more_than_can_be_stacked_are_a_problem(text: str) -> None:
    with pytest.raises(Problem) as found:
        tiers(text)
    assert found.value.input == "tiers"


@pytest.mark.parametrize(
    "fits, does_not",
    [
        ("5 x 10 cm", "4.9 x 10 cm"),
        ("100 x 10 cm", "101 x 10 cm"),
        ("20 x 2 cm", "20 x 1.9 cm"),
        ("20 x 40 cm", "20 x 41 cm"),
        ("20 x 5 x 10 cm", "20 x 4.9 x 10 cm"),
        ("20 x 100 x 10 cm", "20 x 101 x 10 cm"),
    ],
)
def test_a_tier_of_a_timetable_is_5_cm_to_1_m_wide_and_2_to_40_cm_high(fits: str, does_not: str) -> None:
    assert len(tiers(fits)) == 1
    with pytest.raises(Problem, match="wide and .* high"):
        tiers(does_not)


@pytest.mark.parametrize("read", [tiers, lambda text: supported_tiers(text, "metric")], ids=["timetable", "supports"])
def test_a_bare_height_of_5_to_30_cm_is_usual_and_another_is_asked_about(read: Callable[[str], object]) -> None:
    for usual in ("20 x 5", "20 x 30"):
        assert read(usual)
    for high, size in (("4.9", "small"), ("31", "large")):
        with pytest.raises(Problem, match=f"unusually {size}"):
            read(f"20 x {high}")
        assert read(f"20 x {high} cm")


def test_so_many_rows_are_shared_out_over_the_tiers_from_the_lowest() -> None:
    assert rows("0") == []
    assert [tier for _, tier, _, _ in rows("4")] == [0, 0, 1, 1] and [tier for _, tier, _, _ in rows("3")] == [0, 0, 1]
    assert [name for name, *_ in rows("2")] == ["row 1", "row 2"] and {minutes for _, _, minutes, _ in rows("2")} == {ROW_MIN}
    assert len(rows(str(MOST_ROWS))) == MOST_ROWS == len(rows("; ".join(["swags"] * MOST_ROWS)))
    for text in (str(MOST_ROWS + 1), "1000", "; ".join(["swags"] * (MOST_ROWS + 1))):
        with pytest.raises(Problem, match=f"must be {MOST_ROWS} or fewer"):
            rows(text)


def test_rows_are_read_with_their_times_and_the_tier_they_are_on() -> None:
    assert rows("swags 45 min; string 1 h 30 min on tier 2; leaves") == [
        ("swags", 0, 45, False),
        ("string", 1, 90, False),
        ("leaves", 0, ROW_MIN, False),
    ]
    assert rows("25 min; swags, tier 2") == [("row 1", 0, 25, False), ("swags", 1, ROW_MIN, False)]


def test_a_row_at_the_base_of_an_upper_tier_goes_over_a_joint() -> None:
    """What is piped over the joint of two tiers waits until they are stacked; round the lowest there is the board."""
    assert [row[3] for row in rows("shells at the base; shells at the base on tier 2; swags on tier 2; baseline on tier 2")] == [
        False,
        True,
        False,
        False,
    ]


@pytest.mark.parametrize(
    "fits, does_not, words",
    [
        ("swags on tier 2", "swags on tier 3", "row 1 is on tier 3, and there are 2"),
        ("swags on tier 1", "swags on tier 0", "is on tier 0"),
        ("leaves; swags 24 h", "leaves; swags 24 h 1 min", "row 2 must take between 1 min and 24 h"),
        ("swags 1 min", "swags 0 min", "must take between"),
        ("swags 999", "swags 1000", "1000 has no unit of time"),
        ("swags 10 min", "swags 10 min 20 min later 30 min", "it has two times"),
        ("s" * LONGEST_TEXT, "s" * (LONGEST_TEXT + 1), "row 1 has over"),
    ],
)
def test_a_row_that_cannot_be_is_told_by_its_number(fits: str, does_not: str, words: str) -> None:
    assert rows(fits)
    with pytest.raises(Problem) as found:
        rows(does_not)
    assert words in found.value.message and found.value.input == "rows"


# --- boards and supports, tins, bands --------------------------------------------------------------------------------------------


def test_tiers_to_support_are_seven_at_most() -> None:
    assert len(supported_tiers("; ".join(["20 x 10 cm round"] * 7), "metric")) == 7
    for text in ("; ".join(["20 x 10 cm round"] * 8), "", ";"):
        with pytest.raises(Problem):
            supported_tiers(text, "metric")
    two = supported_tiers("20 x 10 cm round\n14 x 10 cm square", "metric")
    assert [(one.sponge.kind, one.sponge.width_mm, one.height_mm) for one in two] == [("round", 200, 100), ("square", 140, 100)]


def test_tins_are_read_in_one_unit_or_each_in_its_own() -> None:
    assert [tin.width_mm for tin in read_tins("15, 20 and 25 cm", "round", "metric", 0.72)] == [150, 200, 250]
    assert [tin.width_mm for tin in read_tins("6 in, 20 cm", "round", "metric", 0.72)] == [pytest.approx(152.4), 200]
    oblong = read_tins("20 x 30 cm; 15 x 20 cm", "rectangle", "metric", 0.72)
    assert [(tin.width_mm, tin.length_mm) for tin in oblong] == [(200, 300), (150, 200)]


@pytest.mark.parametrize("opening, suits", [("3 mm", False), ("3.5 mm", True), ("14 mm", True), ("14.5 mm", False)])
def test_a_tip_of_half_to_twice_the_opening_that_a_kind_begins_with_pipes_it(opening: str, suits: bool) -> None:
    """Shells begin with an open star of 7 mm: from 3.5 mm to 14 mm they are of a usual size (common practice, no source)."""
    answer = calc.compute("kitchen", {"tips.0.tip": f"open star {opening}"})
    (row,) = next(table["rows"] for table in answer.tables if table["name"] == "tips")
    assert ("shells" in str(row[1]).split(", ")) is suits


def test_shares_of_an_ombre_are_24_numbers_at_most() -> None:
    assert _shares("2, 1, 1") == (2, 1, 1) and len(_shares(", ".join(["1"] * 24))) == 24
    for text in (", ".join(["1"] * 25), "2, x"):
        with pytest.raises(Problem):
            _shares(text)
