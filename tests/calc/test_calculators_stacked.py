"""What stands on what, and when it is made: stacks of tins, boards and dowels, and the timetable, with whole rows and both sides of every limit.

The numbers are worked out by hand beside each case. A coat is 5 mm and the fillings 12 mm unless typed; boards show 5 cm; a box leaves 2.5 cm round.
"""

from __future__ import annotations

import calc
from tests.calc.test_calculators_said import Typed, sentences
from tests.calc.test_calculators_sums import answered, rows, value


def refused(slug: str, typed: dict[str, str]) -> tuple[str, str]:
    ((found),) = calc.compute(slug, typed).problems
    return found["input"], found["message"]


# --- boards and dowels --------------------------------------------------------------------------------------------------------------------


def counted_in(typed: Typed) -> list[str]:
    return [text.split(" in, write")[0] for text in sentences("supports", typed) if text.startswith("Supports are not food.")]


def test_every_dowel_and_board_is_counted_in_and_out() -> None:
    """Those inside a tall tier too: a tier 22 cm high has a board at half its height, on as many dowels as carry one of its width less a centimetre
    all round. Where there is no dowel there is nothing to count."""
    assert counted_in({}) == ["Supports are not food. Count the 4 dowels and 2 boards"]
    assert counted_in({"tiers": "20 x 10 cm"}) == []
    assert counted_in({"tiers": "20 x 22 cm"}) == ["Supports are not food. Count the 5 dowels and 2 boards"]
    tall = {"tiers": "30 x 20 x 35 cm rectangle; 15 x 10 cm"}  # three levels: a board of its own, two inside, and that of the tier above
    assert counted_in({**tall}) == ["Supports are not food. Count the 21 dowels and 4 boards"]
    assert value(answered("supports", tall), "dowels") == 21 and rows(answered("supports", tall), "supports")[0][2] == "21"


def test_no_length_of_dowels_is_told_where_there_are_none() -> None:
    assert "dowel_length" not in answered("supports", {"tiers": "20 x 10 cm"}).figures
    assert value(answered("supports", {"tiers": "20 x 22 cm"}), "dowel_length") == 112.5  # half of 22 cm and 5 mm of coat
    assert value(answered("supports", {}), "dowel_length") == 105
