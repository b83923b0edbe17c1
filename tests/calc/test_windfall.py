"""The look of the page's own example: on its tiers it is that example, row for row."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from calc.calculators.declare import parse, run
from calc.calculators.order_form import CALCULATOR as ORDER
from calc.calculators.order_form import order_of
from calc.schemes import SCHEMES, fit

SUPPER = (Path(__file__).parents[2] / "docs/plan/harvest-supper.toml").read_text(encoding="utf-8")


def test_windfall_on_the_tiers_of_the_harvest_supper_is_its_rows() -> None:
    """Same kinds, places, tips and colours, the same number at each joint, and nothing had to give way."""
    fields = run(ORDER, {"order": SUPPER}).fields
    assert fields
    order = order_of(parse(ORDER, fields))
    bare = replace(order, tiers=tuple(replace(tier, rows=()) for tier in order.tiers))
    found = fit(SCHEMES["windfall"], bare)
    told = [
        [sorted((row.kind, row.place, row.tip.name, row.colour, row.per_joint, row.drop_mm) for row in tier.rows) for tier in one.tiers]
        for one in (order, found.order)
    ]
    assert told[0] == told[1]
    assert not any(tier.changes for tier in found.tiers)
