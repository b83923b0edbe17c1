"""Where a cake is stacked runs through everything an order says: supports, timetable, piping order, boxes, load list, cautions."""

from __future__ import annotations

import pytest

import calc
from calc.calculators.declare import Answer


def order(widths: str, **more: str) -> Answer:
    """An order of round tiers 10 cm high, each with shells round the base, a border and a swag."""
    inputs = {"guests": "30", "recipe": "plain"} | more
    for i, width in enumerate(widths.split()):
        inputs |= {f"tiers.{i}.name": f"Tier {'ABCDEFG'[i]}", f"tiers.{i}.width": f"{width} cm", f"tiers.{i}.height": "10 cm"}
        for k, (kind, place, tip) in enumerate(
            (("swag", "side", "petal 11 mm"), ("shell", "base", "open star 7 mm"), ("ruched border", "top edge", "petal 9 mm"))
        ):
            inputs |= {f"tiers.{i}.rows.{k}.{name}": value for name, value in (("kind", kind), ("place", place), ("tip", tip), ("colour", "cream"))}
    answer = calc.compute("order", inputs)
    assert not answer.problems, answer.problems
    return answer


def table(answer: Answer, name: str) -> list[list[str]]:
    return next(t["rows"] for t in answer.tables if t["name"] == name)


def words(answer: Answer, section: str) -> str:
    return " ".join(c["text"] for c in answer.cautions if c.get("section") == section)


@pytest.mark.parametrize(
    ("widths", "more", "apart"),
    [
        ("20 15", {}, False),
        ("20 15", {"stacked": "venue"}, True),
        ("45 35 25", {}, True),  # about 25 kg: more than two people should lift
        ("30 25 20 15", {}, True),  # over 40 cm high
        ("30 25 20 15", {"stacked": "home"}, False),
        ("45 35 25", {"travel": "0 min"}, True),
    ],
)
def test_one_decision_runs_through_the_order(widths: str, more: dict[str, str], apart: bool) -> None:
    answer = order(widths, **more)
    tiers = len(widths.split())
    assert bool(answer.figures["stacked"]["value"]) == apart
    assert len(table(answer, "boxes")) == (tiers if apart else 1)
    assert ("Carry the tiers separately" in words(answer, "portions")) == apart
    steps = [row[0] for row in table(answer, "bench")]
    there = [i for i, step in enumerate(steps) if step.endswith(", at the venue")]
    assert len(there) == (tiers - 1 if apart else 0), "the base of each upper tier closes the joint it stands on"
    assert there == list(range(len(steps) - len(there), len(steps))), "what is piped at the venue comes last"
    assert all("Shell" in steps[i] and "Tier A" not in steps[i] for i in there)
    tasks = [row[1] for row in table(answer, "tasks")]
    stacked = next(i for i, task in enumerate(tasks) if task.startswith("Stack the tiers"))
    piped = [i for i, task in enumerate(tasks) if task.startswith("Pipe")]
    assert (min(piped) < stacked) == apart
