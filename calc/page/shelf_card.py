"""What the shelf of orders keeps beside an order: its picture, when hands and oven are wanted, and what it can be found by.

The page asks for it like a sheet, under the name `NAME`, and keeps it, so that a shelf is shown without Python.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Mapping
from typing import Any

from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, Asked, parse
from calc.calculators.order_drawings import tier_drawing, tilted_svg
from calc.calculators.order_form import plan_of
from calc.calculators.order_time import timetable_of
from calc.order import Plan
from calc.units import Problem

NAME = "on-the-shelf"

Span = tuple[dt.datetime, dt.datetime]


def shelf_card(inputs: Mapping[str, str]) -> bytes:
    """Write the card of an order as JSON in UTF-8; inputs that give no plan raise `calc.units.Problem` or `Problems`.

    The object has `picture` (the cake from a little above, as SVG), `name`, `ready`, `guests`, `customer`, `colours`, and `hands` and `oven`: the
    spells in which each is wanted, as pairs of local times (ISO 8601, to the minute). They are empty where the timetable cannot be made.
    """
    calculator = CALCULATORS["order"]
    asked = parse(calculator, calculator.unfold(inputs, Answer("order")) if calculator.unfold else inputs)
    cake = plan_of(asked)
    looks = tuple(sorted((c["name"].lower(), c["look"]) for c in asked["colours"]))
    hands, oven = _spells(cake, asked)
    told: dict[str, Any] = {
        "name": cake.order.name,
        "ready": _minute(cake.order.ready_at),
        "guests": cake.order.guests,
        "customer": next((quote["customer"] for quote in asked["quote"]), ""),
        "colours": _colours(cake),
        "hands": hands,
        "oven": oven,
        "picture": tilted_svg(tuple(tier_drawing(tier, looks) for tier in cake.tiers), cake.supports[0].board_width_mm),
    }
    return json.dumps(told, ensure_ascii=False, separators=(",", ":")).encode()


def _colours(cake: Plan) -> list[str]:
    """The colours of the coats and rows, each once."""
    coats = [tier.order.colour for tier in cake.tiers]
    return list(dict.fromkeys((*coats, *(amount.colour for amount in cake.amounts))))


def _spells(cake: Plan, asked: Asked) -> tuple[list[list[str]], list[list[str]]]:
    try:
        steps = timetable_of(cake, asked).steps
    except Problem:  # the working hours leave no room; the order's page says it
        return [], []
    hands = (piece for step in steps if step.task.hands_min for piece in step.pieces)
    oven = ((step.work_end, step.end) for step in steps if step.task.place == "oven" and step.task.wait_min)
    return _joined(hands), _joined(oven)


def _joined(spans: Iterable[Span]) -> list[list[str]]:
    """Spells as texts, in order; those that meet are one."""
    found: list[Span] = []
    for begin, end in sorted(spans):
        if found and begin <= found[-1][1]:
            found[-1] = (found[-1][0], max(end, found[-1][1]))
        else:
            found.append((begin, end))
    return [[_minute(begin), _minute(end)] for begin, end in found]


def _minute(moment: dt.datetime) -> str:
    return moment.isoformat(timespec="minutes")
