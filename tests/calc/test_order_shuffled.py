"""The order in which rows are typed changes nothing but what "over" and "under" say: cakes are planned with their rows shuffled."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import parse
from calc.calculators.order_form import order_of
from calc.order import Order, Plan, plan
from calc.rows import KINDS, RowSpec
from calc.rows.placement import rank
from calc.tips import FAMILIES, Tip
from calc.units import Problem

ANCHORED = ("over", "under")  # these go by the row before


@st.composite
def row_specs(draw: st.DrawFn, place: str) -> RowSpec:
    return RowSpec(
        draw(st.sampled_from(sorted(KINDS))),
        Tip(draw(st.sampled_from(FAMILIES)), draw(st.integers(15, 160)) / 10),
        drop_mm=float(draw(st.sampled_from((0, 0, 0, 15, 30, 45)))),
        layers=draw(st.sampled_from((1, 1, 1, 2))),
        place=place,
        colour=draw(st.sampled_from(("cream", "russet", "bay"))),
        below_mm=draw(st.sampled_from((None, None, None, 10.0, 40.0, 70.0))),
        per_joint=draw(st.sampled_from((1, 1, 3))),
    )


@st.composite
def blocks(draw: st.DrawFn) -> tuple[RowSpec, ...]:
    """A row, and those that are typed behind it to lie over it or under it."""
    first = draw(row_specs(draw(st.sampled_from(("side", "side", "top edge", "base", "top", "inside", "joints")))))
    if first.place == "joints":
        return (first,)
    behind = [draw(row_specs(place)) for place in draw(st.lists(st.sampled_from(ANCHORED if first.place == "side" else ("over",)), max_size=2))]
    return (first, *behind)


def base_order(**changes: str) -> Order:
    return order_of(parse(CALCULATORS["order"], {"guests": "20", "tiers.0.width": "20 cm", "tiers.0.height": "12 cm", **changes}))


def cake_of(order: Order, rows: list[RowSpec]) -> Plan | None:
    tier = dataclasses.replace(order.tiers[0], rows=tuple(dataclasses.replace(row, path=f"{at}.") for at, row in enumerate(rows)))
    try:
        return plan(dataclasses.replace(order, tiers=(tier,)))
    except Problem:
        return None


def told(cake: Plan) -> dict[str, Any]:
    """All that may not change, without the order in which it stands in the form."""
    tier = cake.tiers[0]
    rows = [
        (rank(r.spec), r.spec.place, r.place, r.line_mm, r.drop_mm, r.repeats, r.run_mm, r.hung, r.amount.count, r.amount.mass_g, r.amount.low_g)
        for r in tier.rows
    ]
    hung = tier.first_hung
    return {
        "rows": sorted(rows, key=repr),
        "division": tier.division,
        "joints": (tier.joints_below_mm, tier.joints),
        "marked": None if hung is None else (rank(hung.spec), hung.line_mm, hung.drop_mm),
        "steps": [(step.phase, rank(step.row.spec), step.row.line_mm) for step in cake.steps],
        "clashes": len(tier.clashes),
        "bags": [(bag.colour, bag.tip, bag.mass_g) for bag in cake.bags.bags],
        "made": [(amount.colour, amount.mass_g, amount.high_g) for amount in sorted(cake.amounts, key=lambda amount: amount.colour)],
        "crowded": sorted(repr((rank(crowd.row.spec), crowd.reach_mm)) for crowd in cake.crowded),
    }


@settings(max_examples=150, deadline=None)
@given(st.data(), st.lists(blocks(), min_size=2, max_size=5), st.sampled_from(("", "9 cm, 7.5 cm")))
def test_rows_typed_in_another_order_lie_where_they_lay(data: st.DataObject, typed: list[tuple[RowSpec, ...]], cutters: str) -> None:
    order = base_order(cutters=cutters)
    shuffled = data.draw(st.permutations(typed))
    first = cake_of(order, [row for block in typed for row in block])
    second = cake_of(order, [row for block in shuffled for row in block])
    assert (first is None) == (second is None)
    if first is not None and second is not None:
        assert told(first) == told(second)


def one(kind: str, place: str, tip: str, **given: str) -> dict[str, str]:
    return {"kind": kind, "place": place, "tip": tip, "colour": "cream", **given}


def answered(*rows: dict[str, str]) -> dict[str, Any]:
    texts = {f"tiers.0.rows.{at}.{name}": text for at, row in enumerate(rows) for name, text in row.items()}
    answer = calc.compute("order", {"tiers.0.width": "20 cm", "tiers.0.height": "12 cm", **texts})
    assert not answer.problems
    return {"figures": answer.figures, "rows": next(t["rows"] for t in answer.tables if t["name"] == "rows_1")}


def test_shells_inside_a_border_typed_before_it_stand_behind_it() -> None:
    border, shells = one("ruched border", "top edge", "petal 9 mm"), one("shell", "inside", "open star 5 mm")
    for first, second in ((answered(border, shells), answered(shells, border)), (answered(shells, border), answered(border, shells))):
        assert first["rows"] == second["rows"][::-1]
        assert first["figures"]["mass_1_1"]["value"] == second["figures"]["mass_1_2"]["value"]
    inside = next(row[3] for row in answered(shells, border)["rows"] if row[0] == "Shell")
    assert float(inside.removeprefix("inside the top edge, ").removesuffix(" mm in")) > 5.0  # behind the border


def test_of_two_rows_hung_on_the_side_the_shallower_hangs_above() -> None:
    shallow, deep = one("swag", "side", "petal 9 mm", drop="2 cm"), one("swag", "side", "petal 9 mm", drop="3 cm")
    for rows in ((shallow, deep), (deep, shallow)):
        lines = {row[3].split(", drop ")[1]: row[3] for row in answered(*rows)["rows"]}
        assert lines["2 cm"].startswith("joints 1.2 cm")
        assert float(lines["3 cm"].split()[1]) > float(lines["2 cm"].split()[1])


@pytest.mark.parametrize("place", ["over", "under"])
def test_over_and_under_still_go_by_the_row_before(place: str) -> None:
    swag, string = one("swag", "side", "petal 11 mm", drop="3 cm"), one("string", "side", "round 2 mm", drop="2 cm")
    line = one("line", place, "round 3 mm")
    on_swag = answered(swag, line, string)["figures"]["length_1_2"]["value"]
    on_string = answered(string, line, swag)["figures"]["length_1_2"]["value"]
    assert (on_swag != on_string) == (place == "over")
