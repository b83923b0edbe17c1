"""Cold, time and where a cake is stacked, over many cakes: how long each tier stands outside the fridge, and what comes back from it."""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Sequence

import pytest
from hypothesis import Phase, example, given, settings
from hypothesis import strategies as st

import calc
from calc.calculators.declare import Answer
from calc.timetable import (
    PACE,
    CakeJob,
    NoRoom,
    Oven,
    RowWork,
    TierWork,
    Timetable,
    cake_tasks,
    oven_loads,
    plan_cake,
    read_hours,
    taken_cold,
    time_out,
    tins_in_oven,
)

HOURS = ("9 to 18", "8-12, 13-17", "Mon-Fri 18-22; Sat 8-20; Sun 10 to 16", "3 h", "0 to 24")


@st.composite
def jobs(draw: st.DrawFn) -> CakeJob:
    """A cake of one to five tiers with up to twelve rows."""
    count = draw(st.integers(1, 5))
    tiers = tuple(
        TierWork(f"tier {i + 1}", 100.0 + 50 * (count - i) + draw(st.sampled_from([0, 50, 100])), 100.0, draw(st.integers(1, 4)))
        for i in range(count)
    )
    rows = tuple(
        RowWork(
            f"row {k}", (tier := draw(st.integers(0, count - 1))), draw(st.sampled_from([1.0, 3.0, 8.0, 20.0])),
            joint=tier > 0 and draw(st.booleans()), bag=draw(st.sampled_from(["red", "cream", "green"])),
        )
        for k in range(draw(st.integers(0, 12)))
    )  # fmt: skip
    return CakeJob(
        tiers, rows, draw(st.sampled_from([500.0, 3000.0, 9000.0])), draw(st.sampled_from(["plain", "swiss_meringue"])),
        colours=draw(st.integers(1, 5)), travel_min=draw(st.sampled_from([0.0, 30.0])), stacked=draw(st.sampled_from(["before", "after", "venue"])),
        temper_min=draw(st.sampled_from([0.0, 60.0])), spare_min=draw(st.sampled_from([0.0, 60.0])), hand=draw(st.sampled_from(sorted(PACE))),
        out_limit_min=draw(st.sampled_from([30.0, 60.0, 120.0, 240.0])),
    )  # fmt: skip


def planned(job: CakeJob, text: str, ready: dt.datetime, people: int) -> Timetable | None:
    try:
        return plan_cake(ready, job, read_hours(text, "hours", "Working hours"), people)
    except NoRoom:
        assert text == "3 h" or len(job.rows) * 20 * PACE[job.hand] > 200, "room for so little must be found"
        return None


# Half an hour of softening would do, but ten minutes of the last morning are kept free to beat buttercream, and the road does not fit in after them.
STANDS_LONGER = CakeJob(
    (TierWork("tier 1", 250, 100, 3), TierWork("tier 2", 200, 100, 1)),
    (RowWork("row 0", 0, 8, bag="cream"), RowWork("row 1", 1, 3, joint=True, bag="red")),
    9000, colours=2, travel_min=30, stacked="venue", temper_min=60, hand="quick", out_limit_min=120,
)  # fmt: skip


@given(
    jobs(), st.sampled_from(HOURS), st.integers(1, 2), st.sampled_from([dt.datetime(2027, 10, 16, 18), dt.datetime(2027, 10, 15, 11)])
)  # fmt: skip
@example(STANDS_LONGER, "3 h", 1, dt.datetime(2027, 10, 15, 11))
@settings(max_examples=100, deadline=None, phases=(Phase.explicit, Phase.reuse, Phase.generate))  # shrinking such jobs takes minutes
def test_cold_time_and_place_tell_one_story(job: CakeJob, text: str, people: int, ready: dt.datetime) -> None:
    plan = planned(job, text, ready, people)
    if plan is None:
        return
    steps = {step.task.key: step for step in plan.steps}
    moving = [step for step in plan.steps if step.task.any_hour]
    # what stands outside the fridge
    for tier in time_out(plan):
        mine = [step for step in plan.steps if tier.tier in step.task.out]
        in_the_room = [step.task.wait_min for step in mine if step.task.place == "room"]
        assert tier.total_min == math.fsum(step.task.hands_min for step in mine) + math.fsum(in_the_room), "nothing stands about unseen"
        assert tier.total_min == pytest.approx(tier.coating_min + tier.piping_min + tier.moving_min)
        for start, end in tier.spells:
            if not any(start <= step.start < end for step in moving):  # no chill is possible on the road
                assert (end - start).total_seconds() / 60 <= job.out_limit_min
        for (_, back), (taken, _) in itertools.pairwise(tier.spells):
            assert taken - back >= dt.timedelta(minutes=30), "a chill of half an hour or more in between"
    # one pair of hands
    for hand in range(1, people + 1):
        pieces = sorted(piece for step in plan.steps if step.hand == hand for piece in step.pieces)
        assert all(first[1] <= second[0] for first, second in itertools.pairwise(pieces))
    for step in plan.steps:
        assert all(steps[need].end <= step.start for need in step.task.needs), step.task.key
    # bags are filled before a tier comes out
    for step in plan.steps:
        if step.task.uses.startswith("bags"):
            spell = next(start for tier in time_out(plan) if tier.tier in step.task.out for start, end in tier.spells if start <= step.start < end)
            assert steps[step.task.uses].end <= spell
    # what waited overnight is warmed
    assert not taken_cold(plan)
    # home or venue
    apart = job.stacking in ("after", "venue")
    if job.stacking:
        stacked = steps["stack"]
        for k, row in enumerate(job.rows):
            parts = [step for step in plan.steps if step.task.key.split(".")[0] == f"row{k}"]
            after = not apart or row.joint
            assert all((step.start >= stacked.work_end) == after for step in parts), "a row is piped before or after, as it is told"
            assert all(step.task.any_hour == (job.stacking == "venue" and row.joint) for step in parts)
        if job.stacking == "venue" and job.travel_min:
            assert steps["travel"].end <= stacked.start and "venue" in stacked.task.name
            assert f"{len(job.tiers)} boxes" in steps["pack"].task.name
        else:
            assert "pack" not in steps or "boxes" not in steps["pack"].task.name


def test_a_cake_with_full_rows_is_chilled_between_them() -> None:
    """Three tiers, fifteen rows: by hand 15 x (5 x 4 + 6 = 26, so 30 min) = 7 h 30 min of piping; four spells of two hours and more take it in."""
    job = CakeJob(
        tuple(TierWork(f"tier {i}", width, 100) for i, width in enumerate((250, 200, 150))),
        tuple(RowWork(f"row {k}", k % 3, 4) for k in range(15)),
        4000,
    )
    plan = plan_cake(dt.datetime(2027, 10, 16, 18), job)
    tier = time_out(plan)[0]
    begins = {step.start for step in plan.steps if step.task.key == "stack" or step.task.key.startswith("row")}
    assert tier.longest_min <= 120 and sum(start in begins for start, _ in tier.spells) >= 5
    assert {step.hand for step in plan.steps} == {1}, "one person, unless more are told"
    assert tier.piping_min == 15 * 30 + 30 + 3 * 10 + 10  # rows, stacking, marking, looking over


def test_a_half_piped_cake_spends_the_night_in_the_fridge() -> None:
    job = CakeJob((TierWork("cake", 200, 100),), tuple(RowWork(f"row {k}", 0, 4) for k in range(12)), 2000)
    plan = plan_cake(dt.datetime(2027, 10, 16, 12), job)
    rows = [step for step in plan.steps if step.task.key.startswith("row")]
    assert len({step.start.date() for step in rows}) == 2
    last = max((step for step in rows if step.start.date() == rows[0].start.date()), key=lambda step: step.start)
    assert last.task.place == "fridge" and not any(start <= dt.datetime(2027, 10, 16, 3) < end for start, end in time_out(plan)[0].spells)
    keys = [step.task.key for step in plan.steps]
    assert "warm0" in keys and keys.index("warm0") < keys.index("beat0"), "and the buttercream is warmed and beaten again"


# --- the oven ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("width", "length", "oven", "tins"),
    [
        (150, 150, Oven(450, 400, 1), 4),  # 2 x 2, 32 cm each way with the gap
        (200, 200, Oven(450, 400, 1), 2),  # 42 cm beside each other; 42 cm behind do not go
        (250, 250, Oven(450, 400, 2), 2),
        (400, 400, Oven(450, 400, 2), 1),  # 89 % of the shelf: alone in the oven
        (300, 200, Oven(450, 400, 1), 2),  # turned, 20 + 2 + 20 across
        (460, 300, Oven(450, 400, 2), 0),
    ],
)  # fmt: skip
def test_tins_in_a_load_by_hand(width: float, length: float, oven: Oven, tins: int) -> None:
    assert tins_in_oven(width, length, oven) == tins


@given(st.floats(60, 600), st.floats(60, 600), st.integers(1, 10), st.floats(300, 900), st.floats(300, 900), st.integers(1, 4))
def test_a_larger_tin_never_takes_fewer_loads(width: float, length: float, layers: int, across: float, deep: float, shelves: int) -> None:
    oven, larger = Oven(across, deep, shelves), Oven(across * 1.2, deep * 1.1, shelves + 1)
    loads = oven_loads(width, length, layers, oven)
    assert 1 <= loads <= layers
    assert oven_loads(width * 1.1, length, layers, oven) >= loads >= oven_loads(width, length, layers, larger)


def test_a_tier_of_40_cm_does_not_bake_in_one_load() -> None:
    wide = CakeJob((TierWork("cake", 400, 100, 3),), (), 2000)
    bakes = [step for step in plan_cake(dt.datetime(2027, 10, 16, 18), wide).steps if step.task.key.startswith("bake")]
    assert [step.task.name for step in bakes] == [f"Bake: cake, load {k} of 3" for k in (1, 2, 3)]
    assert all(first.end <= second.work_end for first, second in itertools.pairwise(bakes)), "one after the other"


# --- asked ------------------------------------------------------------------------------------------------------------


def ask(slug: str, **inputs: str) -> Answer:
    answer = calc.compute(slug, inputs)
    assert not answer.problems, answer.problems
    return answer


def tasks(answer: Answer) -> Sequence[Sequence[str]]:
    return next(table["rows"] for table in answer.tables if table["name"] == "tasks")


def test_the_limit_the_hand_and_the_oven_are_inputs() -> None:
    many = {"tiers": "25 x 10 cm; 20 x 10 cm; 15 x 10 cm", "rows": "15"}
    for limit, most in (("2 h", 120), ("1 h", 60), ("45 min", 45)):
        answer = ask("timetable", out_limit=limit, soften="30 min", **many)
        assert 0 < answer.figures["out_longest_1"]["value"] <= most
    by_hand = [ask("timetable", hand=hand, **many).figures["hands"]["value"] for hand in ("quick", "practised", "learning")]
    assert by_hand == sorted(set(by_hand))
    wide = {"tiers": "40 x 10 cm", "rows": ""}
    assert any("load 3 of 3" in row[1] for row in tasks(ask("timetable", **wide)))
    assert not any("load" in row[1] for row in tasks(ask("timetable", oven_shelf="90 x 90 cm", **wide)))
    assert any("Too large for a shelf of 35 cm x 35 cm" in c["text"] for c in ask("timetable", oven_shelf="35 x 35 cm", **wide).cautions)


def test_the_sum_is_told_for_each_tier_with_a_caution_beside_it() -> None:
    answer = ask("timetable", tiers="25 x 10 cm; 20 x 10 cm; 15 x 10 cm", rows="15")
    table = next(t for t in answer.tables if t["name"] == "out")
    assert [row[0] for row in table["rows"]] == ["lower tier", "middle tier", "top tier"]
    for number, row in enumerate(table["rows"], 1):
        assert row[4] == answer.figures[f"out_{number}"]["text"] and answer.figures[f"out_{number}"]["value"] > 120
    said = " ".join(c["text"] for c in answer.cautions)
    assert "2 hours at most in all" in said and "food authority" in said


def test_the_timetable_stacks_a_heavy_cake_at_the_venue() -> None:
    rows = "swags on tier 1; shells at the base on tier 2"
    heavy = [row[1] for row in tasks(ask("timetable", tiers="45 x 10 cm; 35 x 10 cm; 25 x 10 cm", rows=rows, travel="30 min"))]
    place = {name: i for i, name in enumerate(heavy)}
    assert place["On the road"] < place["Stack the tiers at the venue"] < place["Pipe: shells at the base"]
    light = [row[1].split(",")[0] for row in tasks(ask("timetable", tiers="20 x 10 cm; 15 x 10 cm", rows="swags on tier 1", travel="30 min"))]
    assert light.index("Stack the tiers") < light.index("Pipe: swags") < light.index("On the road")


def test_the_way_to_the_table_by_hand() -> None:
    """Three boxes: 15 min and twice 5; the road rounded up to five minutes; two tiers at 15 min; a border of 5 x 3 + 6 = 21, so 25 min; then 5 min
    and what is left of an hour to soften. In the house, 5 min to carry each tier."""
    tiers = tuple(TierWork(f"tier {i}", width, 100) for i, width in enumerate((300, 250, 200)))
    rows = (RowWork("swags", 0, 4), RowWork("border", 1, 3, joint=True))

    def way(**more: float) -> list[tuple[str, float, float]]:
        tasks = cake_tasks(CakeJob(tiers, rows, 3000, stacked="venue", **more))  # type: ignore[arg-type]
        return [(task.key, task.hands_min, task.wait_min) for task in tasks if task.any_hour]

    assert way(travel_min=42) == [("pack", 25, 0), ("travel", 45, 0), ("stack", 30, 0), ("row1", 25, 0), ("out", 5, 5)]
    assert way(temper_min=0) == [("carry", 15, 0), ("stack", 30, 0), ("row1", 25, 0), ("out", 5, 0)]
    assert [task.wait_min for task in cake_tasks(CakeJob(tiers, rows, 3000, stacked="venue", temper_min=90)) if task.key == "out"] == [35]


def test_chills_and_spells_by_hand() -> None:
    """Marking 10 min, six rows of 26, so 30 min, and 10 min to look it over: 200 min, two spells of 100 with an hour in the fridge between."""
    job = CakeJob((TierWork("cake", 200, 100),), tuple(RowWork(f"row {k}", 0, 4) for k in range(6)), 2000)
    plan = plan_cake(dt.datetime(2027, 10, 16, 18), job)
    spells = [[(end - start).total_seconds() / 60, start, end] for start, end in time_out(plan)[0].spells][3:-1]
    assert [spell[0] for spell in spells] == [100, 100]
    assert spells[1][1] - spells[0][2] >= dt.timedelta(minutes=60)
    last = next(step for step in plan.steps if step.work_end == spells[0][2] and step.task.out)
    assert (last.task.place, last.task.wait_min) == ("fridge", 60)


def test_what_waits_overnight_is_warmed_beaten_and_kneaded_by_hand() -> None:
    """An hour to warm, ten minutes to beat, half an hour for filled bags, each ending when it is wanted; other days have nothing of the kind."""
    evenings = read_hours("Mon-Fri 18-20; Sat 8-18", "hours", "Working hours")
    job = CakeJob((TierWork("cake", 200, 100),), tuple(RowWork(f"row {k}", 0, 4) for k in range(4)), 2000)
    plan = plan_cake(dt.datetime(2027, 10, 15, 21), job, evenings)
    steps = {step.task.key: step for step in plan.steps}
    warm, beat = steps["warm0"], steps["beat0"]
    assert (warm.end - warm.start, beat.end - beat.start) == (dt.timedelta(minutes=60), dt.timedelta(minutes=10)) and warm.end == beat.start
    used = [step for step in plan.steps if beat.task.key in step.task.needs]
    assert used and all(step.start >= beat.end and step.start.date() == beat.start.date() for step in used)
    for key in (key for key in steps if key.startswith("knead")):
        assert steps[key].end - steps[key].start == dt.timedelta(minutes=30)
        assert any(step.start == steps[key].end and key in step.task.needs for step in plan.steps)
    assert plan.hands_min == sum(step.task.hands_min for step in plan.steps)
