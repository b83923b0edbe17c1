"""The work of an order at the bench, as the page shows it: one task filling the screen, and what is left in the bags.

The page asks for it like a sheet, under the name `NAME` with the keys of the tasks that are done after a colon.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, parse
from calc.calculators.order_at_bench import BagLeft, BenchTask, bags_left, bench_tasks
from calc.calculators.order_drawings import tier_drawing, tilted_svg
from calc.calculators.order_form import plan_of
from calc.calculators.order_time import timetable_of
from calc.page.answer import swatch
from calc.page.html import Markup, element, join

NAME = "at-the-bench"


def bench_view(inputs: Mapping[str, str], name: str) -> bytes:
    """Write the tasks of an order as JSON in UTF-8; inputs that give no plan raise `calc.units.Problem`.

    The object has `title`, `drawing` (the cake from a little above), `bags` (what is left, as HTML) and `tasks`: for each its `key`, `title`,
    `tier`, `when`, `html`, a `plan` of where it starts, the `part` of the drawing it is about, the field that it `measures` with what is
    `typed` there, and `wait` in minutes with `waits` in words.
    """
    calculator = CALCULATORS["order"]
    asked = parse(calculator, calculator.unfold(inputs, Answer("order")) if calculator.unfold else inputs)
    cake = plan_of(asked)
    looks = tuple(sorted((c["name"].lower(), c["look"]) for c in asked["colours"]))
    done = frozenset(filter(None, name.partition(":")[2].split(",")))
    tasks = bench_tasks(cake, asked, looks, done)
    told: dict[str, Any] = {
        "title": cake.order.name,
        "drawing": tilted_svg(tuple(tier_drawing(tier, looks) for tier in cake.tiers), cake.supports[0].board_width_mm),
        "bags": _bags(bags_left(cake, timetable_of(cake, asked), done, looks, asked.units)),
        "tasks": [_told(task) for task in tasks],
    }
    return json.dumps(told, ensure_ascii=False, separators=(",", ":")).encode()


def _told(task: BenchTask) -> dict[str, Any]:
    return {
        "key": task.key,
        "title": task.title,
        "tier": task.tier,
        "when": task.when,
        "html": _task(task),
        "plan": task.plan,
        "part": task.part,
        "measures": task.measures,
        "typed": task.typed,
        "wait": task.wait_min,
        "waits": f"{task.where} for {task.wait}" if task.wait else "",
    }


def _task(task: BenchTask) -> Markup:
    """One task without its title."""
    facts = []
    for label, text in task.facts:
        dot = swatch(task.look) if label == "Bag" and task.look else None
        facts.append(element("div", {}, element("dt", {}, label), element("dd", {}, dot, text)))
    parts = [element("dl", {"class": "pb-bench-facts"}, *facts)] if facts else []
    if task.cautions:
        parts.append(element("ul", {"class": "pb-bench-cautions"}, *(element("li", {}, caution) for caution in task.cautions)))
    if task.wait:
        parts.append(element("p", {"class": "pb-bench-wait"}, f"Then: {task.where.lower()} for {task.wait}."))
    if task.notes:
        parts.append(element("ul", {"class": "pb-bench-notes"}, *(element("li", {}, note) for note in task.notes)))
    return join(parts)


def _bags(bags: tuple[BagLeft, ...]) -> Markup:
    """What is still to be piped from each bag."""
    lines = [
        element(
            "li",
            {},
            swatch(bag.look),
            element("b", {}, bag.letter),
            f" {bag.tip}, {bag.colour}: ",
            element("span", {}, f"{bag.left} of {bag.whole} left" + (f"; {bag.of_colour} of {bag.colour} in all bags" if bag.of_colour else "")),
        )
        for bag in bags
    ]
    return element("ul", {}, *lines)
