"""The work at the bench against the plan and the timetable it is made of."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element, fromstring

import pytest

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, Asked, parse
from calc.calculators.order_at_bench import bags_left, bench_tasks
from calc.calculators.order_form import plan_of
from calc.calculators.order_time import timetable_of
from calc.drawing.scene import Path as Drawn
from calc.drawing.start_plan import start_plan
from calc.order import Plan
from calc.page.bench_view import NAME, bench_view
from calc.shapes import outline
from calc.units import Formatter, Problem, Problems

ORDER = (Path(calc.__file__).parents[1] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")


def planned(**changes: str) -> tuple[Plan, Asked]:
    order = CALCULATORS["order"]
    assert order.unfold is not None
    texts = dict(order.unfold({"order": ORDER}, Answer("order"))) | {name.replace("__", "."): text for name, text in changes.items()}
    asked = parse(order, texts)
    return plan_of(asked), asked


def viewed(done: str = "", **inputs: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(bench_view({"order": ORDER} | inputs, f"{NAME}:{done}"))
    return found


def test_every_task_of_the_timetable_is_done_once_and_in_its_order() -> None:
    cake, asked = planned()
    table = timetable_of(cake, asked)
    tasks = bench_tasks(cake, asked, ())
    assert [task.key for task in tasks] == [step.task.key for step in table.steps]
    assert [task.wait_min for task in tasks] == [step.task.wait_min for step in table.steps]
    assert all(task.wait and task.where for task in tasks if task.wait_min)
    assert [task.part for task in tasks if task.key.startswith("row")] == [
        f"tiers.{step.row.tier}.rows.{next(i for i, spec in enumerate(cake.tiers[step.row.tier].order.rows) if spec is step.row.asked)}"
        for step in cake.steps
    ]


def test_a_row_says_what_the_hand_needs() -> None:
    cake, asked = planned()
    swags = next(task for task in bench_tasks(cake, asked, ()) if task.key == "row0")
    facts = dict(swags.facts)
    assert swags.title == "9 swags, joints 1.2 cm below the top edge" and swags.tier == "Lower tier"
    assert facts["Tip"] == "petal 11 mm" and facts["How many"] == "9 swags" and facts["Hold it"] == "45° to the side"
    assert facts["Bag"].startswith("A: russet, ")
    assert facts["From one to the next"] == "7.3 cm"  # 66 cm by 9
    assert swags.part == "tiers.0.rows.0" and "Begin at the back" in " ".join(swags.notes)


def test_marking_takes_what_the_tape_says_and_follows_it() -> None:
    cake, asked = planned(tiers__0__side="66.4 cm")
    mark = next(task for task in bench_tasks(cake, asked, ()) if task.key == "mark0")
    assert mark.measures == "tiers.0.side" and mark.typed == "66.4 cm" and dict(mark.facts)["Round the side"] == "66.4 cm"
    other = next(task for task in bench_tasks(cake, asked, ()) if task.key == "mark1")
    assert other.measures == "tiers.1.side" and other.typed == ""


def test_bags_are_filled_for_the_rows_until_the_next_filling() -> None:
    cake, asked = planned()
    tasks = bench_tasks(cake, asked, ())
    filled: set[str] = set()
    for task in tasks:
        if task.key.startswith("bags"):
            filled = {label.removeprefix("Bag ") for label, _ in task.facts}
            assert filled
        elif task.key.startswith("row"):
            assert dict(task.facts)["Bag"].partition(":")[0] in filled, task.key


def test_what_is_left_in_a_bag_falls_with_each_row_that_is_done() -> None:
    cake, asked = planned()
    table, bags = timetable_of(cake, asked), cake.bags.bags
    for i, bag in enumerate(bags):
        mine = [k for k, step in enumerate(cake.steps) if (step.row.colour, step.row.tip) == (bag.colour, bag.tip)]
        assert math.isclose(sum(cake.steps[k].row.amount.mass_g for k in mine), bag.mass_g)
        done: set[str] = set()
        before = bags_left(cake, table, done, (), "metric")[i]
        assert before.left == before.whole
        for k in mine:
            done.add(f"row{k}")
            now = bags_left(cake, table, done, (), "metric")[i]
            assert now.left != before.left and now.whole == before.whole
            before = now
        assert before.left == "0 g"
        others = [bag for at, bag in enumerate(bags_left(cake, table, done, (), "metric")) if at != i]
        assert all(other.left == other.whole for other in others)


def test_a_row_that_is_piped_in_two_goes_is_half_done_after_the_first() -> None:
    """Learning hands with a short time out of the fridge: what is cut in the timetable empties its bag part by part."""
    cake, asked = planned(hand="learning", out_limit="30 min")
    table = timetable_of(cake, asked)
    cut = [step.task.key for step in table.steps if step.task.key.startswith("row") and step.task.key.endswith(".2")]
    assert cut
    first = cut[0].removesuffix(".2")
    parts = {step.task.key: step.task.hands_min for step in table.steps if step.task.key.partition(".")[0] == first}
    keys, times = list(parts), list(parts.values())
    row = cake.steps[int(first.removeprefix("row"))].row
    i = next(i for i, bag in enumerate(cake.bags.bags) if (bag.colour, bag.tip) == (row.colour, row.tip))
    whole = cake.bags.bags[i].mass_g
    for count in range(len(keys) + 1):
        left = bags_left(cake, table, keys[:count], (), "metric")[i].left
        assert left == Formatter(steady=True).mass(whole - row.amount.mass_g * sum(times[:count]) / sum(times)), (keys, count)
    titles = [task.title for task in bench_tasks(cake, asked, ()) if task.key in keys]
    assert [title.rpartition(", ")[2] for title in titles] == [f"part {k + 1} of {len(keys)}" for k in range(len(keys))]


def test_words_of_the_reader_are_text() -> None:
    order = ORDER.replace('"russet"', '"<i>russet</i>"')
    work = json.loads(bench_view({"order": order}, NAME))
    told = "".join(task["html"] for task in work["tasks"]) + work["bags"]
    assert "&lt;i&gt;russet" in told and "<i>" not in told


def test_an_order_that_cannot_be_planned_says_why() -> None:
    with pytest.raises((Problem, Problems)):
        bench_view({"order": ORDER.replace("[[tiers]]", "[[tyres]]")}, NAME)
    with pytest.raises((Problem, Problems)):
        viewed(guests="many", order="")


def test_each_task_of_the_page_has_what_the_script_reads() -> None:
    work = viewed("bake1,row0")
    assert work["drawing"].startswith("<svg") and work["title"] == "Orchard harvest supper"
    for task in work["tasks"]:
        assert set(task) == {"key", "title", "tier", "when", "html", "plan", "part", "measures", "typed", "wait", "waits"}
        assert bool(task["wait"]) == bool(task["waits"])
        assert task["plan"].startswith("<svg") == task["key"].startswith("row")
        if task["part"]:
            assert f'data-part="{task["part"]}"' in work["drawing"], task["key"]


def test_the_shadow_of_a_row_belongs_to_it() -> None:
    """The bench fades what is not yet piped by its part, and a shadow that stayed would be seen as a row."""

    def owners(each: Element, part: str = "") -> list[str]:
        part = each.get("data-part", part)
        own = [part] if each.get("opacity") == "0.045" else []
        return own + [found for inner in each for found in owners(inner, part)]

    found = owners(fromstring(viewed()["drawing"]))
    assert len(found) > 6 and all(".rows." in part for part in found)


@pytest.mark.parametrize("kind", ["round", "square", "heart", "hexagon"])
def test_a_plan_starts_at_the_back_and_goes_to_the_right_in_front(kind: str) -> None:
    """Seen from above with the back at the top that is anticlockwise: at the left the arrow points down, at the right up."""
    scene = start_plan(outline(kind, 200), "#aa5533", joints=(0.25, 0.75))
    heads = [item for item in scene.items if isinstance(item, Drawn) and item.style.role == "text"]
    assert len(heads) == 4
    for head in heads:
        points = [(float(part[1]), float(part[2])) for part in head.parts if len(part) >= 3]
        tip, back = points[0], points[2]
        x, y = tip[0] - back[0], tip[1] - back[1]
        middle = sum(p[0] for p in points) / len(points), sum(p[1] for p in points) / len(points)
        assert middle[0] * y - middle[1] * x < 0, (kind, middle)  # y runs down: anticlockwise is negative
    start = scene.items[-1]
    assert isinstance(start, Drawn) and start.style.role == "guide"
    highest = min(float(part[2]) for part in start.parts if len(part) >= 3)
    assert highest < -0.8 * outline(kind, 200).extent_mm[3] + 1


def test_cautions_stand_at_the_step_that_can_hurt() -> None:
    cake, asked = planned()
    told = {task.key.rstrip("0123456789."): " ".join(task.cautions) for task in bench_tasks(cake, asked, ())}
    for key, words in {
        "buttercream": ("71 °C (160 °F)", "pasteurised", "Allergens"),
        "boards": ("Supports are not food", "dowels"),
        "stack": ("Supports are not food", "both hands under the board"),
        "pack": ("both hands under the board", "local rules"),
        "out": ("2 hours at most", "local food authority"),
        "beat": ("hours",),
    }.items():
        assert all(word in told[key] for word in words), (key, told[key])
    assert not told["row"] and not told["mark"] and not told["coat"]
    single = {"tiers.0.name": "Only", "tiers.0.width": "20 cm"}
    told_of_one = {task["key"]: task["html"] for task in json.loads(bench_view(single, NAME))["tasks"]}
    assert "Supports are not food" not in "".join(told_of_one.values()) and "pb-bench-cautions" in told_of_one["pack"]


def test_lifting_says_what_each_tier_weighs_and_who_lifts_it() -> None:
    cake, asked = planned()
    tasks = {task.key: dict(task.facts) for task in bench_tasks(cake, asked, ())}
    say = Formatter(steady=True)
    assert tasks["stack"] == {"Upper tier": f"up to {say.mass(cake.supports[1].high_g)}, one person"}
    low = cake.supports[0]
    assert tasks["pack"]["The whole cake"].startswith(f"up to {say.mass(low.high_g + low.carried_high_g)}, ")


def test_a_row_says_what_dividers_and_tape_are_set_to() -> None:
    cake, asked = planned()
    tasks = {task.key: dict(task.facts) for task in bench_tasks(cake, asked, ())}
    assert tasks["row0"]["Set the dividers to"] == tasks["mark0"]["Dividers"]
    assert tasks["row0"]["Set the tape to"] == "1.2 cm below the top edge"
    assert "Set the dividers to" not in tasks["row5"] and "Set the tape to" not in tasks["row5"]  # shells round the base


def test_what_is_left_of_a_colour_is_the_sum_of_its_bags() -> None:
    cake, asked = planned()
    table = timetable_of(cake, asked)
    for done in ((), ("row1",), ("row1", "row2", "row3")):
        left = bags_left(cake, table, done, (), "metric")
        cream = [bag for bag in left if bag.colour == "cream"]
        assert len(cream) > 1 and len({bag.of_colour for bag in cream}) == 1
        whole = sum(step.row.amount.mass_g for i, step in enumerate(cake.steps) if step.row.colour == "cream" and f"row{i}" not in done)
        assert cream[0].of_colour == Formatter(steady=True).mass(whole)
        assert not any(bag.of_colour for bag in left if sum(each.colour == bag.colour for each in left) == 1)
