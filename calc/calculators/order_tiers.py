"""What the tiers of an order put into another calculator, on request: its sizes and divisions, and a row of each tier that the calculator works out.

Map
---
`TIERS_FOR`    how the name of what is asked for begins
`tiers_file`   the choices as JSON
An input says with `Input.cake` which of these facts it takes.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any

from calc.calculators.declare import Calculator, Input
from calc.order import Plan, PlannedTier
from calc.rows.placement import PlacedRow
from calc.shapes import TWO_SIZES, Heart
from calc.units import Formatter, Problem

TIERS_FOR = "tiers for "
MOST = 60  # choices


def tiers_file(cake: Plan, name: str, calculators: dict[str, Calculator]) -> bytes:
    """The tiers of a cake for another calculator, as JSON: for each choice its `words` and the texts it `sets`.

    The name is "tiers for " and JSON with `calculator`, its slug, and the reader's `units`.
    """
    try:
        wish: dict[str, Any] = json.loads(name.removeprefix(TIERS_FOR))
        calculator, say = calculators[wish["calculator"]], Formatter(wish["units"])
    except (ValueError, KeyError, TypeError):
        raise Problem("calculator", "No tier fills that. Type its sizes") from None
    found = list(_choices(cake, calculator, say))[:MOST]
    return json.dumps(found, ensure_ascii=False).encode()


def _choices(cake: Plan, calculator: Calculator, say: Formatter) -> Iterator[dict[str, Any]]:
    asked = [declared for declared in calculator.inputs if declared.cake]
    whole = _cake_facts(cake, say)
    if all(declared.cake in whole or declared.cake == "fullness" for declared in asked):
        yield {"words": "All of it", "sets": _texts(asked, whole)}
        return
    for tier in reversed(cake.tiers):  # as she looks at it, from the top
        rows = [row for row in tier.rows if _works_out(calculator, row)]
        facts = {**whole, **_tier_facts(tier, say)}
        for row in rows:
            words = f"{tier.order.name}: {row.asked_kind.plural}, {row.tip.name}"
            yield {"words": words, "sets": _texts(asked, {**facts, **_row_facts(row, tier, say)})}
        if not rows:
            yield {"words": tier.order.name, "sets": _texts(asked, facts)}


def _works_out(calculator: Calculator, row: PlacedRow) -> bool:
    """Whether a calculator works out such a row."""
    kinds = next((declared.choices for declared in calculator.inputs if declared.name == "kind"), ((calculator.pipes, ""),))
    return row.spec.kind in [kind for kind, _ in kinds]


def _texts(asked: Sequence[Input], facts: dict[str, str]) -> dict[str, str]:
    return {declared.name: facts[declared.cake] for declared in asked if declared.cake in facts}


def _cake_facts(cake: Plan, say: Formatter) -> dict[str, str]:
    """What the whole order says."""
    tiers = [
        f"{' x '.join(say.length(size) for size in _sizes(tier.order.sponge.kind, tier.order.sponge.width_mm, tier.order.sponge.length_mm))} x "
        f"{say.length(tier.order.height_mm)} {tier.order.sponge.kind}"
        for tier in cake.tiers
    ]
    return {
        "tiers": "; ".join(tiers),
        "order_guests": str(cake.order.guests),
        "order_recipe": cake.order.recipe,
        "order_stacked": cake.order.stacked,
        "order_border": say.length(cake.order.border_mm),
        "order_ready_at": cake.order.ready_at.strftime("%Y-%m-%d %H:%M"),
    }


def _sizes(kind: str, width_mm: float, length_mm: float) -> tuple[float, ...]:
    return (width_mm, length_mm) if kind in TWO_SIZES else (width_mm,)


def _tier_facts(tier: PlannedTier, say: Formatter) -> dict[str, str]:
    """Sizes of a tier, baked and finished, and how its side is divided."""
    order, finished = tier.order, tier.measured
    kind, two = order.sponge.kind, order.sponge.kind in TWO_SIZES
    facts = {
        "shape": kind,
        "side": say.length(tier.side_mm),
        "finished_width": say.length(finished.width_mm) if two else "",
        "finished_length": say.length(finished.length_mm) if two else "",
        "tin_width": say.length(order.sponge.width_mm),
        "tin_length": say.length(order.sponge.length_mm) if two else "",
        "height": say.length(order.height_mm),
        "layers": str(order.layers),
        "filling": say.length(order.filling_mm),
        "crumb": say.length(order.crumb_mm),
        "final": "" if order.disc_mm or order.final_mm is None else say.length(order.final_mm),
        "disc": say.length(order.disc_mm) if order.disc_mm else "",
        "repeats": str(tier.division.repeats),
        "joints": say.length(tier.line_mm),
        "cutter": say.length(tier.division.cutter_mm) if tier.by_cutter and tier.division.cutter_mm else "",
        "drop": "" if tier.by_cutter else say.length(tier.drop_mm),
    }
    if isinstance(order.sponge, Heart):
        facts["fullness"] = say.percent(100 * order.sponge.fullness)
    return facts


def _row_facts(row: PlacedRow, tier: PlannedTier, say: Formatter) -> dict[str, str]:
    """What one row adds: its tip, its drop, how many pieces, and the way round that it goes, which is shorter on the top."""
    drop_mm = row.amount.drops_mm[0] if row.what.scroll else row.drop_mm
    facts = {
        "side": say.length(row.run_mm),
        "row_kind": row.asked_kind.name,
        "row_tip": row.tip.name,
        "row_layers": str(row.layers),
        "row_drop": say.length(drop_mm) if drop_mm else "",
        "row_count": str(row.amount.count),
        "row_repeats": str(row.repeats),
    }
    if row.hung:
        marked = row is tier.first_hung and tier.by_cutter
        facts |= {"drop": "" if marked else say.length(row.drop_mm), "joints": say.length(row.line_mm)}
        facts |= {} if marked else {"cutter": ""}
    return facts
