"""Whole orders of any legal kind: every row at every place, one to seven tiers of every outline, in both systems of units.

`orders` builds an order as the form's texts from choices that each input by itself takes. Whatever comes of it is an answer or a problem at
a field; of an answer the sums must agree. PIPING_BENCH_EXAMPLES=20000 pytest tests/calc/test_order_any.py is the long run.
"""

from __future__ import annotations

import json
import math
import os
import re
from typing import Any

import pypdfium2
import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import parse
from calc.calculators.order_form import PLACES, ROWS, TIERS, order_of, plan_of
from calc.calculators.order_time import timetable_of
from calc.order import Clash, Plan, PlannedTier, find_clashes, plan
from calc.rows import KINDS
from calc.shapes import SHAPES, TWO_SIZES
from calc.stack import boxes
from calc.timetable import time_out
from calc.units import Problem, Problems

EXAMPLES = int(os.environ.get("PIPING_BENCH_EXAMPLES", "200"))
FAMILIES = ("round", "open star", "closed star", "petal", "leaf", "ruffle", "basket")
FIELDS = (
    {i.name for i in CALCULATORS["order"].inputs}
    | {"tiers"}
    | {f"tiers.0.{i.name}" for i in TIERS.inputs}
    | {f"tiers.0.rows.0.{i.name}" for i in ROWS.inputs}
)
CALM = settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])

lengths = st.integers(0, 400).map(lambda tenths: f"{tenths} mm")


def tips() -> st.SearchStrategy[str]:
    """Tips of any family, from a fine writing tip to the widest."""
    return st.builds(lambda family, opening: f"{family} {opening / 10} mm", st.sampled_from(FAMILIES), st.integers(10, 260))


def sometimes(strategy: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    """Left empty more often than not, as an advanced input is."""
    return st.one_of(st.just(""), st.just(""), strategy)


@st.composite
def rows(draw: st.DrawFn) -> dict[str, str]:
    """One row: any kind at any place with any tip, most of what is optional left empty."""
    return {
        "kind": draw(st.sampled_from(tuple(KINDS))),
        "place": draw(st.sampled_from([place for place, _ in PLACES])),
        "tip": draw(tips()),
        "colour": draw(st.sampled_from(("cream", "russet", "blush", "bay", "a name of its own"))),
        "drop": draw(sometimes(st.integers(2, 120).map(lambda mm: f"{mm} mm"))),
        "below": draw(sometimes(st.integers(0, 120).map(lambda mm: f"{mm} mm"))),
        "layers": draw(sometimes(st.integers(1, 5).map(str))),
        "per_joint": draw(sometimes(st.integers(1, 12).map(str))),
    }


@st.composite
def tiers(draw: st.DrawFn, shape: str, width_mm: int) -> dict[str, str]:
    """One tier of a shape, wide enough for what stands on it."""
    tier = {
        "name": draw(st.sampled_from(("Tier", "Lower tier", "Upper tier", "Étage", "10 %"))),
        "shape": shape,
        "width": f"{width_mm} mm",
        "height": f"{draw(st.integers(50, 200))} mm",
        "layers": str(draw(st.integers(1, 5))),
        "filling": f"{draw(st.integers(0, 9))} mm",
        "crumb": f"{draw(st.integers(0, 2))} mm",
        "final": f"{draw(st.integers(0, 6))} mm",
        "repeats": draw(sometimes(st.integers(2, 40).map(str))),
        "joints_below": draw(sometimes(st.integers(0, 60).map(lambda mm: f"{mm} mm"))),
        "colour": draw(st.sampled_from(("ivory", "cream", "sage"))),
    }
    tier |= draw(st.sampled_from(({}, {}, {"bands": "russet 2, blush"}, {"striped": "cream", "stripes": "4"}, {"dam": "6 mm", "top": "8 mm"})))
    if shape in TWO_SIZES:
        tier["length"] = f"{width_mm + draw(st.integers(-10, 60))} mm"
    if draw(st.booleans()):
        tier["disc"] = f"{width_mm + 2 * draw(st.integers(3, 9))} mm"
    return tier


@st.composite
def orders(draw: st.DrawFn) -> dict[str, str]:
    """A whole order as the form's texts."""
    texts = {
        "units": draw(st.sampled_from(("metric", "us"))),
        "name": draw(st.sampled_from(("A supper", "Grüße & <hugs>", "x" * 60))),
        "guests": str(draw(st.sampled_from((1, 36, 300, 2000)))),
        "slice": draw(st.sampled_from(("25 x 50 mm", "1 x 2 in", "40 x 50 mm"))),
        "cutters": draw(sometimes(st.sampled_from(("9 cm, 7.5 cm", "4 cm", "20 cm", "3 in; 8,5 cm")))),
        "recipe": draw(st.sampled_from(("plain", "swiss_meringue", "dairy_free"))),
        "keep_top": draw(st.sampled_from(("yes", "no"))),
        "hours": "0:00 to 24:00",
    }
    shape = draw(st.sampled_from(SHAPES))
    width = draw(st.integers(80, 160))
    count = draw(st.integers(1, 7))
    built = []
    for _ in range(count):
        built.append(draw(tiers(shape, width)))
        width += draw(st.integers(60, 110))
    for index, tier in enumerate(reversed(built)):
        texts.update({f"tiers.{index}.{name}": text for name, text in tier.items()})
        for at, row in enumerate(draw(st.lists(rows(), max_size=5))):
            texts.update({f"tiers.{index}.rows.{at}.{name}": text for name, text in row.items()})
    return texts


def planned(texts: dict[str, str]) -> Plan | None:
    """The plan of an order, or None where it is told why there is none."""
    try:
        return plan(order_of(parse(CALCULATORS["order"], texts)))
    except (Problem, Problems):
        return None


def floats_of(value: Any) -> list[float]:
    """Every number in plain data."""
    if isinstance(value, dict):
        return [number for inner in value.values() for number in floats_of(inner)]
    if isinstance(value, (list, tuple)):
        return [number for inner in value for number in floats_of(inner)]
    return [value] if isinstance(value, float) else []


@CALM
@given(orders())
def test_any_order_is_an_answer_or_problems_at_fields(texts: dict[str, str]) -> None:
    answer = calc.compute("order", texts)
    data = json.loads(answer.to_json())
    for problem in data["problems"]:
        assert re.sub(r"\d+", "0", problem["input"]) in FIELDS, problem
        assert len(problem["message"]) < 600
    assert all(math.isfinite(number) for number in floats_of(data))
    if not data["problems"]:
        for drawing in data["drawings"]:
            assert "nan" not in drawing["svg"] and "inf" not in drawing["svg"].replace("info", "")
        names = [s["name"] for s in data["sheets"]]
        assert len(names) == len(set(names))


@settings(CALM, max_examples=max(10, EXAMPLES // 2))
@given(orders())
def test_rows_close_and_sums_agree(texts: dict[str, str]) -> None:
    cake = planned(texts)
    assume(cake is not None)
    assert cake is not None
    for tier in cake.tiers:
        assert_tier(tier)
    rows = [row for tier in cake.tiers for row in tier.rows]
    assert len(cake.steps) == len(rows)
    assert cake.piping_g == pytest.approx(math.fsum(row.amount.mass_g for row in rows))
    assert cake.piping_low_g <= cake.piping_g <= cake.piping_high_g
    used = math.fsum(amount.used_g for amount in cake.amounts)
    assert used == pytest.approx(cake.filling_g + cake.coat_g + cake.piping_g + cake.lifted_g)
    for amount in cake.amounts:
        assert amount.low_g <= amount.mass_g * (1 + 1e-9) and amount.mass_g <= amount.high_g * (1 + 1e-9)
    assert math.fsum(bag.mass_g for bag in cake.bags.bags) == pytest.approx(cake.piping_g)
    assert {(row.colour, row.tip) for row in rows} == {(bag.colour, bag.tip) for bag in cake.bags.bags}
    carried = [support.carried_g for support in cake.supports]
    for index, support in enumerate(cake.supports):
        assert carried[index] == pytest.approx(math.fsum(s.mass_g for s in cake.supports[index + 1 :]), abs=1e-6)
        assert support.low_g <= support.mass_g <= support.high_g
        if support.dowels:
            assert support.dowel_length_mm == pytest.approx(cake.tiers[index].height_mm / cake.tiers[index].levels)
    bases = [tier.base_mm for tier in cake.tiers]
    assert bases == pytest.approx([math.fsum(t.height_mm for t in cake.tiers[:i]) for i in range(len(cake.tiers))])


def assert_tier(tier: PlannedTier) -> None:
    """What must hold of one tier whatever was asked."""
    n, division = tier.division.repeats, tier.division
    assert n * division.width_mm == pytest.approx(tier.side_mm, abs=1e-9 * tier.side_mm)
    assert len(tier.joints.s_mm) == n
    assert tier.cut.count <= tier.cut.area_bound
    if division.cutter_mm is not None and division.gap_mm == 0:
        assert division.drop_mm <= division.cutter_mm / 2 + 1e-9
    for row in tier.rows:
        piping = row.amount
        assert piping.count >= 0 and piping.length_mm >= 0 and piping.path_mm >= piping.length_mm * (1 - 1e-9)
        assert piping.low_g <= piping.mass_g <= piping.high_g
        assert piping.above_mm >= 0 and piping.below_mm >= 0
        if row.hung:
            assert piping.length_each_mm >= division.width_mm * (1 - 1e-9)
    turned = find_clashes(tuple(reversed(tier.rows)), tier.height_mm, n)
    assert {key(c) for c in turned} == {key(c) for c in tier.clashes}


def key(clash: Clash) -> tuple[frozenset[int], float]:
    """A clash whichever row is named first."""
    return frozenset((id(clash.first), id(clash.second))), round(clash.overlap_mm, 6)


@settings(max_examples=max(6, EXAMPLES // 25), deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(orders(), st.sampled_from(("A4", "Letter")))
def test_every_sheet_of_any_order_can_be_drawn(texts: dict[str, str], paper: str) -> None:
    answer = calc.compute("order", texts)
    assume(not answer.problems)
    for offered in answer.sheets:
        data = calc.sheet("order", texts, offered["name"], paper)
        pages = pypdfium2.PdfDocument(data)
        wanted = (595.2756, 841.8898) if paper == "A4" else (612.0, 792.0)
        assert len(pages) >= 1
        for page in pages:
            assert sorted(page.get_size()) == pytest.approx(wanted, abs=0.01), offered["name"]


USUAL = {
    "swag": "petal 11 mm",
    "ruched swag": "petal 11 mm",
    "ruched border": "petal 9 mm",
    "string": "round 1.8 mm",
    "bead": "round 5 mm",
    "leaf": "leaf 6 mm",
    "C scroll": "round 2 mm",
    "S scroll": "round 2 mm",
    "line": "round 2 mm",
}


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_row_at_every_place(kind: str) -> None:
    """Eight rows of one kind, one at each place, in both systems of units: told, drawn, and every one a step of the bench sheet."""
    texts = {"guests": "300", "tiers.0.width": "30 cm", "tiers.0.height": "40 cm"}
    for at, (place, _) in enumerate(PLACES):
        texts |= {
            f"tiers.0.rows.{at}.kind": kind,
            f"tiers.0.rows.{at}.place": place,
            f"tiers.0.rows.{at}.tip": USUAL.get(kind, "open star 7 mm"),
            f"tiers.0.rows.{at}.colour": "russet",
        }
    for units in ("metric", "us"):
        answer = calc.compute("order", texts | {"units": units})
        assert not answer.problems, answer.problems
        table = next(t for t in answer.tables if t["name"] == "rows_1")
        assert len(table["rows"]) == len(next(t for t in answer.tables if t["name"] == "bench")["rows"]) == len(PLACES)
        words = " ".join(cell for row in table["rows"] for cell in row)
        assert "None" not in words and "nan" not in words
        if units == "us":
            assert " cm" not in words
            assert all(float(grams) < 12 for grams in re.findall(r"([\d.]+) g\b", words))  # what is less than a quarter of an ounce, with its range
    assert kind in {step.row.spec.kind for step in planned(texts).steps}  # type: ignore[union-attr]


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("count", [1, 2, 7])
def test_tiers_of_every_outline(shape: str, count: int) -> None:
    """Stacks of one to seven tiers with swags, a string, a border, shells, rosettes and a row on the top."""
    texts = {"guests": "300", "cutters": "9 cm, 6 cm", "slice": "1 x 2 in", "units": "us"}
    rows_of_all = (("swag", "side"), ("string", "under"), ("ruched border", "top edge"), ("shell", "base"), ("rosette", "joints"), ("star", "top"))
    for index in range(count):
        width = 120 + 70 * (count - 1 - index)
        texts |= {f"tiers.{index}.shape": shape, f"tiers.{index}.width": f"{width} mm", f"tiers.{index}.name": f"Tier {index + 1}"}
        if shape in TWO_SIZES:
            texts[f"tiers.{index}.length"] = f"{width + 40} mm"
        for at, (kind, place) in enumerate(rows_of_all):
            texts |= {
                f"tiers.{index}.rows.{at}.kind": kind,
                f"tiers.{index}.rows.{at}.place": place,
                f"tiers.{index}.rows.{at}.tip": USUAL.get(kind, "open star 6 mm"),
                f"tiers.{index}.rows.{at}.colour": "cream",
            }
    cake = planned(texts)
    assert cake is not None
    for tier in cake.tiers:
        assert_tier(tier)
        fits = tier.coats.finished.repeats_that_fit(3, 60)
        assert not tier.coats.finished.corners_mm or tier.division.repeats in fits, "a joint falls on every corner"
        assert tier.joints.respected
    answer = calc.compute("order", texts)
    assert not answer.problems
    assert len(answer.sheets) == len({s["name"] for s in answer.sheets}) >= 4 + 4 * count


@given(
    orders(),
    st.sampled_from(("suits", "home", "venue")),
    st.sampled_from(("learning", "practised", "quick")),
    st.sampled_from(("30 min", "2 h")),
    st.sampled_from(("0 min", "45 min")),
)
@settings(CALM, max_examples=EXAMPLES // 4, phases=(Phase.explicit, Phase.reuse, Phase.generate))  # shrinking takes minutes
def test_each_row_is_piped_at_home_or_at_the_venue_and_no_tier_stands_about(
    texts: dict[str, str], stacked: str, hand: str, limit: str, travel: str
) -> None:
    """One decision for the whole answer, every row once on its side of it, and no spell over the limit but the one from the box to the table."""
    try:
        asked = parse(CALCULATORS["order"], {**texts, "stacked": stacked, "hand": hand, "out_limit": limit, "travel": travel})
        cake = plan_of(asked)
        timed = timetable_of(cake, asked)
    except (Problem, Problems):
        return
    apart = cake.stacking.apart
    assert cake.stacking.where == ("single" if len(cake.tiers) == 1 else stacked if stacked != "suits" else cake.stacking.where)
    assert apart == (cake.stacking.where == "venue")
    assert len(boxes(cake.bodies, cake.supports, cake.stacking)) == (len(cake.tiers) if apart else 1)
    there = [step.after_stacking for step in cake.steps]
    assert there == sorted(there), "what is piped at the venue comes last"
    assert all(step.after_stacking == (apart and step.row.tier > 0 and step.row.place == "base") for step in cake.steps)
    worked: dict[int, set[bool]] = {}
    for step in timed.steps:
        if step.task.key.startswith("row"):
            worked.setdefault(int(step.task.key[3:].split(".")[0]), set()).add(step.task.any_hour)
    assert [worked[k] for k in range(len(cake.steps))] == [{step.after_stacking} for step in cake.steps]
    for tier in time_out(timed):
        minutes = math.fsum(
            step.task.hands_min + (step.task.wait_min if step.task.place == "room" else 0.0) for step in timed.steps if tier.tier in step.task.out
        )
        assert tier.total_min == minutes
        assert max(tier.minutes[:-1], default=0.0) <= asked["out_limit"]
