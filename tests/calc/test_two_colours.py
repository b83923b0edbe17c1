"""Two colours in one bag: both are drawn, half of each is made, and everything else is as with one."""

from __future__ import annotations

import re

import pytest

from calc.calculators import compute
from calc.calculators.declare import Answer
from calc.colours import PALETTE
from calc.drawing.shading import tone
from calc.rows import KINDS, Kind
from tests.calc.test_order_cures import form


def order(**changed: str) -> Answer:
    """The answer to the harvest supper with some texts changed."""
    answer = compute("order", form(**changed))
    assert not answer.problems
    return answer


def shown(answer: Answer) -> dict[str, set[str]]:
    """The colours in each drawing that is in colour, by the name of the drawing."""
    return {item["name"]: set(re.findall(r"#[0-9a-f]{6}", item["svg"])) for item in answer.drawings if not item["name"].startswith("unrolled")}


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_both_colours_are_in_the_drawing_of_every_kind(kind: Kind) -> None:
    row = {"tiers__0__rows__0__kind": kind.name, "tiers__0__rows__0__place": kind.place, "tiers__0__rows__0__tip": ""}
    dark, pale = (order(**row, tiers__0__rows__0__colour=name) for name in ("damson", "pear"))
    both = order(**row, tiers__0__rows__0__colour="damson", tiers__0__rows__0__second="pear")
    seen = 0
    for name, colours in shown(both).items():
        only_dark, only_pale = shown(dark)[name] - shown(pale)[name], shown(pale)[name] - shown(dark)[name]
        assert bool(colours & only_dark) == bool(only_dark) and bool(colours & only_pale) == bool(only_pale), name
        seen += bool(only_dark)
    assert seen >= 2
    assert not any(re.search(r'"#[0-9a-f]{6} #', item["svg"]) for item in both.drawings)


def test_half_of_each_colour_is_made_and_the_bag_is_filled_with_both() -> None:
    one, two = order(), order(tiers__0__rows__0__second="sage")
    whole = one.figures["mass_1_1"]["value"]
    assert two.figures["mass_1_1"]["value"] == whole
    table = {row[0]: row for row in next(t for t in two.tables if t["name"] == "colours")["rows"]}
    assert "petal 11 mm, half of a bag" in table["sage"][3] and "petal 11 mm, half of a bag" in table["russet"][3]
    # half of what it weighs, half of what stays in a bag, and a tenth over
    assert two.figures["colour_sage"]["value"] == pytest.approx(whole / 2 * 1.1 + 10, rel=1e-9)
    assert two.figures["buttercream"]["value"] == pytest.approx(one.figures["buttercream"]["value"], rel=0.02)
    bags = [row[1] for row in next(t for t in two.tables if t["name"] == "bags")["rows"]]
    assert "russet and sage" in bags
    assert any("Two colours in one bag" in note["text"] for note in two.notes)
    assert not any("Two colours in one bag" in note["text"] for note in one.notes)
    assert [cure.at for cure in order(tiers__0__rows__0__second="saeg").cures] == ["tiers.0.rows.0"]


def test_the_same_colour_twice_is_one() -> None:
    assert order(tiers__0__rows__0__second="Russet").figures == order().figures


def test_two_colours_in_light_and_shadow_are_each_of_them() -> None:
    pair = f"{PALETTE['sage']} {PALETTE['cream']}"
    assert tone(pair, 0.3) == f"{tone(PALETTE['sage'], 0.3)} {tone(PALETTE['cream'], 0.3)}"
