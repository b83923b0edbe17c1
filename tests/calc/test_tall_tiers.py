"""Boards and dowels inside tall tiers, counted wherever boards and dowels are told, and one tin in every calculator that asks for one."""

from __future__ import annotations

import pytest

import calc
from calc.shapes import outline
from calc.stack import Body, supports

TALL = {"tiers.0.name": "Column", "tiers.0.width": "15 cm", "tiers.0.height": "20 cm", "tiers.0.layers": "6", "guests": "26"}


def answered(slug: str, inputs: dict[str, str]) -> calc.calculators.declare.Answer:
    answer = calc.compute(slug, inputs)
    assert not answer.problems, answer.problems
    return answer


def rows(answer: calc.calculators.declare.Answer, name: str) -> list[list[str]]:
    return [list(map(str, row)) for row in next(table for table in answer.tables if table["name"] == name)["rows"]]


def test_a_level_stands_on_a_board_and_dowels_of_its_own() -> None:
    """By hand: of three levels of a 16 cm tier the lowest carries two (4 + 1 dowels), the middle one (4); each dowel is as high as a level."""
    (stand,) = supports([Body(outline("round", 160), 305, levels=3)])
    assert (stand.dowels, stand.inner_boards, stand.inner_dowels, stand.all_boards, stand.all_dowels) == (0, 2, 9, 3, 9)
    assert stand.dowel_length_mm == pytest.approx(305 / 3) and stand.inner_width_mm == stand.inner_length_mm == 140


def test_the_tiers_above_count_for_the_lower_level_too() -> None:
    low, high = supports([Body(outline("round", 160), 205, levels=2), Body(outline("round", 110), 105)])
    assert (low.dowels, low.inner_dowels, low.all_dowels) == (4, 5, 9) and (high.all_dowels, high.all_boards) == (0, 1)
    assert low.dowel_length_mm == pytest.approx(102.5)


@pytest.mark.parametrize("height, boards", [("14.9 cm", 1), ("15 cm", 2), ("20 cm", 2), ("30 cm", 3)])
def test_inner_boards_and_dowels_are_counted_wherever_they_are_told(height: str, boards: int) -> None:
    order = answered("order", {**TALL, "tiers.0.height": height})
    under = answered("supports", {"tiers": f"15 cm x {height}"})
    inner = boards - 1
    assert order.figures["dowels"]["value"] == under.figures["dowels"]["value"] == {0: 0, 1: 4, 2: 9}[inner]
    bought = rows(order, "besides")
    thin = sum(int(row[1]) for row in bought if row[0].startswith("Thin board"))
    assert thin == inner and any(row[0].startswith("Dowels") for row in bought) == bool(inner)
    receives = rows(order, "load")[-1][1]
    assert receives == (f"whoever receives it: {order.figures['dowels']['value']} dowels, {boards} boards in it" if inner else "whoever receives it")
    minutes = next(row[2] for row in rows(order, "tasks") if row[1] == "Boards and supports")
    assert minutes == f"{15 + 5 * inner} min"


@pytest.mark.parametrize("sheet", ["hand-out", "box-label", "delivery-card", "cutting-guide-column", "quotation"])
def test_sheets_for_others_count_what_is_inside(sheet: str) -> None:
    import io

    from pypdf import PdfReader

    names = {item["name"] for item in calc.compute("order", TALL).sheets}
    name = next(n for n in sorted(names) if n.startswith(sheet))
    text = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(calc.sheet("order", TALL, name))).pages)
    words = " ".join(text.split())
    assert "4 dowels" in words or "(4 in all)" in words, words[:400]
    if sheet != "cutting-guide-column":
        assert "2 boards" in words, words[:600]
