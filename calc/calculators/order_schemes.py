"""A look for an order, on request: its picture on the order's own tiers, what it would put into the form, and what it changed to fit.

Map
---
`LOOK`          how the name of what is asked for begins
`look_file`     the answer as JSON
`row_texts`     the rows of a tier as texts of the form
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from calc.calculators.declare import Asked
from calc.calculators.order_drawings import tier_drawing
from calc.drawing.svg import svg
from calc.drawing.tilted import tilted_view
from calc.order import Order
from calc.rows import RowSpec
from calc.schemes import SCHEMES, Fitted, Scheme, fit, scheme_of_rows, what_changed
from calc.units import Formatter, Problem, factor, listed

LOOK = "look "
EIGHTH = 8  # of an inch, the parts in which a drop is written


def look_file(asked: Asked, order: Order, name: str, read: Callable[[Mapping[str, str]], Order]) -> bytes:
    """Fit a look to an order: JSON with its `picture`, the texts it `sets` after the groups that it `clears`, and what was `told`.

    The name is "look " and JSON with the `key` of a scheme, or the texts of the tiers of somebody's `own` with its `name`; and with the maker's
    `colours`, main first.
    """
    try:
        wish: dict[str, Any] = json.loads(name.removeprefix(LOOK))
        scheme = _scheme(wish, read)
        used = [str(colour).lower() for colour in wish.get("colours", [])]
    except (ValueError, KeyError, AttributeError, TypeError):
        raise Problem("look", "There is no such look. Choose another one") from None
    say = Formatter(asked.units)
    coats = {tier.colour for tier in order.tiers}
    names = [c["name"].lower() for c in asked["colours"]]
    used += [colour for colour in names if colour not in coats]
    found = fit(scheme, order, used, _snap_us if asked.units == "us" else round)
    looks = tuple(sorted((c["name"].lower(), c["look"]) for c in asked["colours"]))
    tiers = tuple(tier_drawing(tier, looks) for tier in found.plan.tiers)
    board = found.plan.supports[0].board_width_mm
    picture = svg(tilted_view.__wrapped__(tiers, board, f"{scheme.name}, on these tiers"))  # kept is only what the order itself looks like
    told = [_pinned_words(order), *what_changed(found, say)]
    answer = {
        "name": scheme.name,
        "sets": _texts(found, say),
        "clears": [f"tiers.{index}.rows" for index in range(len(order.tiers))],
        "told": [sentence for sentence in told if sentence],
        "picture": picture,
    }
    return json.dumps(answer, ensure_ascii=False).encode()


def _scheme(wish: Mapping[str, Any], read: Callable[[Mapping[str, str]], Order]) -> Scheme:
    if "own" not in wish:
        return SCHEMES[wish["key"]]
    made = read({str(key): str(text) for key, text in wish["own"].items()})
    return scheme_of_rows(str(wish["name"]), [(tier.height_mm, tier.rows) for tier in made.tiers])


def _snap_us(length_mm: float) -> float:
    """A length in inches to the eighth [mm]."""
    inch = factor("length", "inch")
    return round(length_mm / inch * EIGHTH) / EIGHTH * inch


def _pinned_words(order: Order) -> str:
    pinned = [tier.name for tier in order.tiers if tier.repeats or tier.cutter_mm or tier.joints_below_mm is not None]
    return f"{listed(pinned)}: repeats and joints are chosen again." if pinned else ""


def _texts(found: Fitted, say: Formatter) -> dict[str, str]:
    """All that a look sets in the form: its rows, and the repeats of each tier."""
    sets: dict[str, str] = {}
    for index, tier in enumerate(found.tiers):
        sets[f"tiers.{index}.repeats"] = str(tier.repeats or "")
        sets |= {f"tiers.{index}.cutter": "", f"tiers.{index}.joints_below": ""}
        for at, texts in enumerate(row_texts(tier.rows, say)):
            sets |= {f"tiers.{index}.rows.{at}.{name}": text for name, text in texts.items()}
    return sets


def row_texts(rows: Sequence[RowSpec], say: Formatter) -> list[dict[str, str]]:
    """The rows of a tier as texts of the form, each with every input, so that nothing of what stood there stays."""
    return [
        {
            "kind": row.kind,
            "place": row.place,
            "tip": row.tip.name,
            "colour": row.colour,
            "second": row.second,
            "drop": say.length(row.drop_mm) if row.drop_mm else "",
            "below": say.length(row.below_mm) if row.below_mm is not None else "",
            "layers": str(row.layers) if row.layers > 1 else "",
            "per_joint": str(row.per_joint) if row.per_joint > 1 else "",
        }
        for row in rows
    ]
