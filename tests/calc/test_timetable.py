"""Backwards from the hour: what a timetable must hold whatever the tasks, and the cake it is for."""

from __future__ import annotations

import datetime as dt
import io
import itertools
import math
import random
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pypdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc import timetable
from calc.buttercream import RECIPES
from calc.calculators.declare import run
from calc.calculators.list_sheets import hours_drawn
from calc.calculators.timetable_form import CALCULATOR, read_rows, read_tiers
from calc.drawing.faces import text_width_mm
from calc.drawing.scene import Path, Text
from calc.drawing.timetable_chart import HourScale, chart_height_mm, timetable_scene
from calc.timetable import (
    DAY_MIN,
    USUAL_HOURS,
    CakeJob,
    NoRoom,
    RowWork,
    Step,
    Task,
    TierWork,
    Timetable,
    WorkingHours,
    cautions,
    coated_area_dm2,
    read_hours,
    schedule,
    scheduling,
    taken_cold,
)
from calc.timetable import cake_work as work
from calc.units import Formatter, Problem

READY = dt.datetime(2027, 10, 16, 18)  # a Saturday
ALL_DAY = WorkingHours((((0, DAY_MIN),),) * 7)


def cake_tasks(*what: Any, **more: Any) -> tuple[Task, ...]:
    """The tasks of a cake told in the order of `CakeJob`."""
    return timetable.cake_tasks(CakeJob(*what, **more))


def hours(text: str) -> WorkingHours:
    return read_hours(text, "hours", "Working hours")


def at(step: Step) -> str:
    return f"{step.start:%a %H:%M}"


def by_name(plan: Timetable) -> dict[str, Step]:
    return {step.task.name: step for step in plan.steps}


# --- what always holds ------------------------------------------------------------------------------------------------


def within_hours(start: dt.datetime, end: dt.datetime, working: WorkingHours) -> bool:
    """Whether a stretch lies in one window (windows that meet at midnight are one)."""
    minute = start
    while minute < end:
        midnight = minute.replace(hour=0, minute=0)
        of_day = (minute - midnight).total_seconds() / 60
        window = next((w for w in working.by_weekday[minute.weekday()] if w[0] <= of_day < w[1]), None)
        if window is None:
            return False
        minute = min(end, midnight + dt.timedelta(minutes=window[1]))
    return True


def check(plan: Timetable, tasks: tuple[Task, ...], working: WorkingHours, people: int, places: dict[str, int]) -> None:
    """Everything that makes a timetable one that can be kept."""
    steps = {step.task.key: step for step in plan.steps}
    assert set(steps) == {task.key for task in tasks}
    for task in tasks:
        step = steps[task.key]
        assert step.end <= plan.ready_at
        for need in task.needs:
            assert steps[need].end <= step.start, f"{task.key} begins before {need} is done"
        worked = sum((end - start).total_seconds() / 60 for start, end in step.pieces)
        assert worked == math.ceil(task.hands_min - 1e-9)
        assert step.end - step.work_end >= dt.timedelta(minutes=math.ceil(task.wait_min - 1e-9))
        assert step.slack_min >= 0
        for start, end in step.pieces:
            assert task.any_hour or within_hours(start, end, working), f"{task.key} is outside working hours"
        if task.attended and task.wait_min:
            assert within_hours(step.work_end, step.end, working)
        assert len(step.pieces) <= 1 or task.pausable
        assert 1 <= step.hand <= people
    stretches = sorted((start, end, step.hand) for step in plan.steps for start, end in step.pieces)
    for hand in range(1, people + 1):
        mine = [(start, end) for start, end, whose in stretches if whose == hand]
        assert all(first[1] <= second[0] for first, second in itertools.pairwise(mine)), "one pair of hands, two tasks"
    for place, most in places.items():
        waits = [(s.work_end, s.end) for s in plan.steps if s.task.place == place and s.task.wait_min]
        for moment, _ in waits:
            assert sum(start <= moment < end for start, end in waits) <= most, f"too many in the {place}"


@st.composite
def jobs(draw: st.DrawFn) -> tuple[Task, ...]:
    count = draw(st.integers(1, 14))
    found = []
    for i in range(count):
        needs = tuple(f"t{k}" for k in range(i) if draw(st.integers(0, 4)) == 0)
        found.append(
            Task(
                f"t{i}", f"Task {i}", draw(st.sampled_from([0, 5, 20, 45, 90, 200])),
                draw(st.sampled_from([0, 0, 30, 60, 120, 600])), needs, draw(st.sampled_from(["", "fridge", "oven", "room"])),
                keeps_min=draw(st.sampled_from([None, 600, 2880])), pausable=True, any_hour=draw(st.booleans()),
            )
        )  # fmt: skip
    return tuple(found)


@given(
    jobs(),
    st.sampled_from(["9 to 18", "8-12, 13-17", "Mon-Fri 18-22; Sat 8-20; Sun 10 to 16", "2 h", "0 to 24", "Sat 6-23:30"]),
    st.integers(1, 3),
    st.integers(1, 2),
    st.datetimes(dt.datetime(2027, 1, 1), dt.datetime(2027, 12, 31)),
)
@settings(max_examples=200, deadline=None)
def test_a_timetable_can_be_kept(tasks: tuple[Task, ...], text: str, people: int, oven: int, ready: dt.datetime) -> None:
    working, places = hours(text), {"oven": oven, "fridge": 2}
    try:
        plan = schedule(ready, tasks, working, people, places)
    except NoRoom:
        assert text in ("2 h", "Sat 6-23:30") or len(tasks) > 10, "room for so little must be found"
        return
    check(plan, tasks, working, people, places)


def worked_on(start: dt.datetime, minutes: float, working: WorkingHours) -> dt.datetime:
    """When so many minutes of work are done that go on from a moment, in working hours only."""
    left, moment = round(minutes), start
    while left > 0:
        midnight = moment.replace(hour=0, minute=0)
        of_day = round((moment - midnight).total_seconds() / 60)
        for opens, closes in working.by_weekday[moment.weekday()]:
            begin = max(opens, of_day)
            if begin < closes:
                done = min(left, closes - begin)
                left -= done
                of_day = begin + done
                if left == 0:
                    return midnight + dt.timedelta(minutes=of_day)
        moment = midnight + dt.timedelta(days=1)
    return start


def fitted(start: dt.datetime, minutes: float, working: WorkingHours, any_hour: bool) -> dt.datetime:
    """When one stretch of work ends that begins as soon as it can and fits into a window (or is broken off, when none is long enough)."""
    if any_hour or minutes > working.longest_min:
        return start + dt.timedelta(minutes=minutes) if any_hour else worked_on(start, minutes, working)
    begin = start
    while not within_hours(begin, begin + dt.timedelta(minutes=minutes), working):
        begin += dt.timedelta(minutes=5)
    return begin + dt.timedelta(minutes=minutes)


@given(jobs(), st.integers(1, 2), st.sampled_from(["9 to 18", "8-12, 13-17", "0 to 24"]), st.sampled_from([0, 45, 240]))
@settings(max_examples=80, deadline=None)
def test_slack_is_real(tasks: tuple[Task, ...], people: int, text: str, spare: int) -> None:
    """Let one step overrun by its slack, play the day forward in the same order, and all is still done in time."""
    working = hours(text)
    if spare:
        last = tuple(t.key for t in tasks if not any(t.key in other.needs for other in tasks))
        tasks = (*tasks, Task("spare", "Spare", 0, spare, last, buffer=True))
    plan = schedule(READY, tasks, working, people, places={})
    for late in plan.steps:
        if not late.slack_min:
            continue
        done: dict[str, dt.datetime] = {}
        free: dict[int, dt.datetime] = {}
        for step in plan.steps:
            task = step.task
            begin = max([step.start, *(done[need] for need in task.needs)])
            if task.hands_min:
                begin = max(begin, free.get(step.hand, begin))
            moved = begin > step.start
            end = fitted(begin, task.hands_min, working, task.any_hour) if moved and task.hands_min else step.work_end
            end = max(end, begin)
            if step is late:
                loose = task.any_hour or not task.hands_min
                end = end + dt.timedelta(minutes=late.slack_min) if loose else worked_on(end, late.slack_min, working)
            if task.hands_min:
                free[step.hand] = end
            done[task.key] = end + dt.timedelta(minutes=0 if task.buffer else task.wait_min)
        assert max(done.values()) <= READY, late.task.key


def test_each_task_stands_as_late_as_it_can() -> None:
    """With one chain, one pair of hands and all hours open, the timetable is the chain read backwards."""
    chain = [Task("a", "A", 30, 60), Task("b", "B", 45, 0, ("a",)), Task("c", "C", 10, 120, ("b",))]
    plan = schedule(READY, chain, ALL_DAY)
    begins = READY
    for task in reversed(chain):
        begins -= dt.timedelta(minutes=task.hands_min + task.wait_min)
        assert by_name(plan)[task.name].start == begins


def brute_force_start(tasks: tuple[Task, ...]) -> int:
    """The latest start, in minutes before the end, over every order of the tasks (one person, all hours, no places)."""
    best = -(10**9)
    for order in itertools.permutations(tasks):
        placed: dict[str, int] = {}
        free, possible = 0, True
        for task in order:  # from the last to the first
            after = [placed[t.key] for t in tasks if task.key in t.needs and t.key in placed]
            if any(task.key in t.needs and t.key not in placed for t in tasks):
                possible = False
                break
            work_end = min([free, *(start - int(task.wait_min) for start in after), -int(task.wait_min)])
            placed[task.key] = free = work_end - int(task.hands_min)
        if possible:
            best = max(best, min(placed.values()))
    return best


def test_close_to_the_best_order_there_is() -> None:
    """Against every order of up to six tasks: never better (that would be a mistake), and as late in 19 of 20."""
    dice, late = random.Random(2027), 0
    for _ in range(300):
        tasks = tuple(
            Task(f"t{i}", f"T{i}", dice.choice([10, 20, 40]), dice.choice([0, 30, 60]),
                 tuple(f"t{k}" for k in range(i) if dice.random() < 1 / 3))
            for i in range(dice.randint(2, 6))
        )  # fmt: skip
        found = -(READY - schedule(READY, tasks, ALL_DAY).start).total_seconds() / 60
        best = brute_force_start(tasks)
        assert best - 60 <= found <= best
        late += found == best
    assert late >= 285


# --- resources --------------------------------------------------------------------------------------------------------


def test_one_oven_bakes_one_after_the_other() -> None:
    bakes = [Task(f"b{i}", f"Bake {i}", 10, 40, place="oven", attended=True) for i in range(3)]
    one = schedule(READY, bakes, USUAL_HOURS, places={"oven": 1})
    waits = sorted((s.work_end, s.end) for s in one.steps)
    assert all(first[1] <= second[0] for first, second in itertools.pairwise(waits))
    three = schedule(READY, bakes, USUAL_HOURS, places={"oven": 3})
    assert three.start > one.start


def test_more_hands_begin_later() -> None:
    tasks = [Task(f"t{i}", f"T{i}", 60) for i in range(4)]
    starts = [schedule(READY, tasks, USUAL_HOURS, people).start for people in (1, 2, 4)]
    assert starts == [READY - dt.timedelta(hours=h) for h in (4, 2, 1)]


def test_an_attended_wait_lies_in_working_hours_and_a_chill_does_not() -> None:
    ready = dt.datetime(2027, 10, 16, 10)
    baked = schedule(ready, [Task("b", "Bake", 20, 90, attended=True, place="oven")], USUAL_HOURS)
    assert at(baked.steps[0]) == "Fri 16:10", "not over the opening at nine"
    chilled = schedule(ready, [Task("c", "Coat", 20, 90, place="fridge")], USUAL_HOURS)
    assert at(chilled.steps[0]) == "Fri 17:40", "the fridge works at night"


def test_work_longer_than_a_day_is_broken_off_at_closing_time() -> None:
    plan = schedule(READY, [Task("p", "Pipe", 300)], hours("9 to 11"))
    assert [f"{a:%a %H:%M}" for a, _ in plan.steps[0].pieces] == ["Thu 10:00", "Fri 09:00", "Sat 09:00"]
    with pytest.raises(NoRoom, match="300 min in one go"):
        schedule(READY, [Task("p", "Pipe", 300, pausable=False)], hours("9 to 11"))


def test_an_hour_that_someone_is_there_anyway() -> None:
    """A cake comes out of the fridge at five, though the working day ended at eleven."""
    out = Task("out", "Out", 5, 60, place="room", any_hour=True)
    plan = schedule(READY, [Task("p", "Pipe", 60), out], hours("9 to 11"))
    assert at(by_name(plan)["Out"]) == "Sat 16:55"
    assert at(by_name(plan)["Pipe"]) == "Sat 10:00"


def test_what_needs_no_work_follows_at_once() -> None:
    """A sponge is turned out when it is baked, also when it is only filled the next day."""
    tasks = [Task("b", "Bake", 20, 40, place="oven", attended=True), Task("c", "Cool", 0, 120, ("b",), "room"),
             Task("f", "Fill", 30, needs=("c",))]  # fmt: skip
    plan = by_name(schedule(dt.datetime(2027, 10, 16, 10), tasks, USUAL_HOURS))
    assert plan["Cool"].start == plan["Bake"].end
    assert at(plan["Fill"]) == "Sat 09:30"


def test_slack_is_the_buffer_before_it_is_eaten_up() -> None:
    tasks = [Task("p", "Pipe", 60), Task("spare", "Spare", 0, 45, ("p",), buffer=True)]
    plan = schedule(READY, tasks, USUAL_HOURS)
    assert by_name(plan)["Pipe"].slack_min == 45 and plan.spare_min == 45
    assert schedule(READY, tasks[:1], USUAL_HOURS).steps[0].slack_min == 0


def test_slack_counts_working_time_only() -> None:
    """Done at six for a step at nine the next day: nothing may overrun, for the day is over."""
    plan = by_name(schedule(dt.datetime(2027, 10, 16, 10), [Task("a", "A", 60), Task("b", "B", 60, needs=("a",))], USUAL_HOURS))
    assert at(plan["A"]) == "Fri 17:00" and plan["A"].slack_min == 0


def test_made_ahead_limits() -> None:
    """Evenings of two hours push the baking four days ahead: a sponge that keeps two days is said to be too early."""
    tasks = [Task("b", "Bake", 100, keeps_min=DAY_MIN), Task("c", "Coat", 100, needs=("b",)), Task("p", "Pipe", 100, needs=("c",))]
    plan = by_name(schedule(READY, tasks, hours("Mon-Fri 20-22")))
    bake = plan["Bake"]
    assert not bake.stale and bake.not_before == plan["Coat"].start - dt.timedelta(minutes=DAY_MIN + 100)
    week = by_name(schedule(READY, tasks, hours("Tue, Wed and Thu 20-22")))
    assert not week["Bake"].stale
    apart = by_name(schedule(READY, tasks, hours("Mon 20-22; Thu 20-24")))
    assert apart["Bake"].stale


def test_kept_until_ready_counts_to_the_ready_hour() -> None:
    coat = Task("c", "Coat", 60, 60, keeps_min=DAY_MIN, keeps_until="ready")
    plan = schedule(READY, [coat, Task("p", "Pipe", 60, needs=("c",))], hours("Fri 9 to 13; Sat 9 to 10"))
    step = by_name(plan)["Coat"]
    assert step.stale and step.not_before == READY - dt.timedelta(minutes=DAY_MIN + 120)


def test_in_fridge_counts_until_it_is_taken_out() -> None:
    tasks = [Task("a", "A", 10, 30, place="fridge"), Task("b", "B", 10, 30, place="fridge"), Task("c", "C", 60, needs=("a", "b"))]
    assert schedule(READY, tasks, USUAL_HOURS).in_fridge == 2


@pytest.mark.parametrize(
    "tasks",
    [
        [Task("a", "A", 10, needs=("z",))],
        [Task("a", "A", 10, needs=("b",)), Task("b", "B", 10, needs=("a",))],
        [Task("a", "A", 10, needs=("a",))],
        [Task("a", "A", 10), Task("a", "A again", 10)],
        [Task("a", "A", -1)],
        [Task("a", "A", float("nan"))],
        [Task(f"t{i}", "T", 1) for i in range(401)],
    ],
)
def test_tasks_that_make_no_sense(tasks: list[Task]) -> None:
    with pytest.raises(ValueError):
        schedule(READY, tasks)


def test_no_room_within_sixty_days() -> None:
    with pytest.raises(NoRoom):
        schedule(READY, [Task(f"t{i}", f"T{i}", 120) for i in range(30)], hours("Sun 9 to 11"))


def test_nothing_to_do() -> None:
    plan = schedule(READY, [])
    assert plan.start == READY and plan.steps == () and plan.hands_by_day() == ()


def test_a_large_cake_is_searched_few_times(monkeypatch: pytest.MonkeyPatch) -> None:
    """Work grows with the number of tasks: a stretch of time is looked for a few times for each, under each of the three rules."""
    tiers = tuple(TierWork(f"tier {i}", 400 - 50 * i, 120) for i in range(6))
    tasks = cake_tasks(tiers, tuple(RowWork(f"row {i}", i % 6, 25) for i in range(30)), 12_000, colours=8)
    searches = 0
    search = scheduling._find

    def counted(*asked: Any) -> Any:
        nonlocal searches
        searches += 1
        return search(*asked)

    monkeypatch.setattr(scheduling, "_find", counted)
    plan = schedule(READY, tasks, hours("Mon-Fri 18-22; Sat 8-18"), spare_min=1)
    assert len(tasks) > 60 and len(tasks) <= searches <= 4 * len(tasks)
    check(plan, tasks, hours("Mon-Fri 18-22; Sat 8-18"), 1, {"oven": 1})


def test_sixty_days_are_looked_back_and_no_more() -> None:
    """Work on Sundays only: there is one 55 days before the cake is ready; the next, 62 days before, is too far back."""
    day = Task("a", "Coat", 60)
    sundays = hours("Sun 9 to 11")
    assert schedule(READY, [day], sundays, spare_min=55 * DAY_MIN).start == dt.datetime(2027, 8, 22, 10)  # the Sunday 55 days before
    with pytest.raises(NoRoom, match="60 days"):
        schedule(READY, [day], sundays, spare_min=62 * DAY_MIN)


@pytest.mark.parametrize("typed", ["9 to 17:30", "Mon-Fri 18-22; Sat 8am to 12, 13 to 6pm", "weekend 0:00 to 24:00", "Mon 9-12", "24"])
def test_the_text_of_working_hours_reads_back(typed: str) -> None:
    assert hours(hours(typed).text) == hours(typed)


DAY_NAMES = {"every day": range(7), "daily": range(7), "weekdays": range(5), "weekend": (5, 6), "weekends": (5, 6)} | {
    "mon": (0,), "tues": (1,), "thurs": (3,), "sunday": (6,)
}  # fmt: skip


@given(st.lists(st.tuples(st.sampled_from(sorted(DAY_NAMES)), st.integers(0, 21)), min_size=1, max_size=6))
def test_named_days_get_the_hours_beside_them(parts: list[tuple[str, int]]) -> None:
    found = hours("; ".join(f"{name} {start}:00 to {start + 1}:30" for name, start in parts))
    for day, windows in enumerate(found.by_weekday):
        covered = {minute for first, last in windows for minute in range(first, last)}
        assert covered == {minute for name, start in parts if day in DAY_NAMES[name] for minute in range(60 * start, 60 * start + 90)}


def test_the_longest_window_of_a_week() -> None:
    assert USUAL_HOURS.longest_min == 540 and hours("Mon 9-12; Tue 9-13:30").longest_min == 270


def test_hours_by_day_add_up() -> None:
    """Work of 100 minutes with two hours a day left: 50 of them the day before."""
    plan = schedule(READY, [Task("a", "Coat", 100), Task("b", "Pipe", 490, needs=("a",))], USUAL_HOURS)
    assert plan.hands_by_day() == ((dt.date(2027, 10, 15), 100.0), (dt.date(2027, 10, 16), 490.0))


# --- working hours ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, said",
    [
        ("9:00 to 18:00", "every day 09:00 to 18:00"), ("9-18", "every day 09:00 to 18:00"), ("9am-6pm", "every day 09:00 to 18:00"),
        ("8-12, 13-17", "every day 08:00 to 12:00 and 13:00 to 17:00"), ("6 h a day", "every day 09:00 to 15:00"),
        ("24", "every day 00:00 to 24:00"), ("7,5 hours", "every day 09:00 to 16:30"), ("20 h", "every day 04:00 to 24:00"),
        ("18:00 to 0:00", "every day 18:00 to 24:00"), ("9 to 12 and 11 to 14", "every day 09:00 to 14:00"),
        ("Mon-Fri 18-22; Sat 8-18", "Mon to Fri 18:00 to 22:00; Sat 08:00 to 18:00; Sun closed"),
        ("weekdays 18-22; weekend 9 to 17", "Mon to Fri 18:00 to 22:00; Sat to Sun 09:00 to 17:00"),
        ("weekends 9 to 17", "Mon to Fri closed; Sat to Sun 09:00 to 17:00"),
        ("Fri to Mon: 9 to 17", "Mon 09:00 to 17:00; Tue to Thu closed; Fri to Sun 09:00 to 17:00"),
        ("daily 9-17; Wed closed", "Mon to Tue 09:00 to 17:00; Wed closed; Thu to Sun 09:00 to 17:00"),
        ("Mon, Wed and Fri 18-22", "Mon 18:00 to 22:00; Tue closed; Wed 18:00 to 22:00; Thu closed; Fri 18:00 to 22:00; Sat to Sun closed"),
        ("Saturday 9.30 to 12.15", "Mon to Fri closed; Sat 09:30 to 12:15; Sun closed"),
        ("9-12, 1-6", "every day 09:00 to 12:00 and 13:00 to 18:00"), ("9-12 and 11-12", "every day 09:00 to 12:00"),
        ("18-22, 6-8", "every day 06:00 to 08:00 and 18:00 to 22:00"), ("9-12, 1am-6am", "every day 01:00 to 06:00 and 09:00 to 12:00"),
    ],
)  # fmt: skip
def test_working_hours_as_people_type_them(typed: str, said: str) -> None:
    assert hours(typed).text == said


@pytest.mark.parametrize(
    "typed", ["", "abc", "18 to 9", "9 to 9", "25 to 26", "9:75 to 10", "13 pm to 14 pm", "0", "0.1", "99", "Mon", "Mon closed",
              "Mon to Blursday 9 to 17", "9 to", "🎂", "9-17 Mon", "9 to 17 to 18", ";", "Tue 9-17; Mon"],
)  # fmt: skip
def test_working_hours_that_make_no_sense(typed: str) -> None:
    with pytest.raises(Problem, match="Working hours") as caught:
        hours(typed)
    assert caught.value.input == "hours" and "Write it like" in caught.value.message


def test_a_long_part_of_the_hours_is_quoted_by_its_beginning() -> None:
    """Thirty characters are quoted whole; of more, the first twenty-nine."""
    for length, quoted in ((30, "x" * 30), (31, "x" * 29 + "…")):
        with pytest.raises(Problem) as caught:
            hours("x" * length)
        assert f"“{quoted}”" in caught.value.message


@given(st.text(max_size=80))
def test_any_text_is_working_hours_or_a_problem(typed: str) -> None:
    try:
        found = hours(typed)
    except Problem:
        return
    assert found.longest_min > 0


@given(st.integers(0, 1438), st.integers(1, 1440))
def test_hours_read_back_as_they_are_said(start: int, length: int) -> None:
    end = min(DAY_MIN, start + length)
    text = f"{start // 60}:{start % 60:02d} to {end // 60}:{end % 60:02d}"
    assert hours(text).by_weekday[3] == ((start, end),)


# --- the tasks of a cake ----------------------------------------------------------------------------------------------

TIERS = (TierWork("lower tier", 200, 100), TierWork("upper tier", 150, 100))
ROWS = (RowWork("swags", 0, 28), RowWork("shells", 0, 13), RowWork("rosettes", 1, 9))


def keys(tasks: tuple[Task, ...]) -> list[str]:
    return [task.key for task in tasks]


def test_the_minutes_of_a_cake_by_hand() -> None:
    """Three tiers, the lowest 350 mm wide, 100 mm high, of five layers. Usual times, rounded up to five minutes:

    in the oven 35 min and 1.5 min for each of the 20 cm over 15 cm, two tins at a time and so three loads; five layers at 4 min to level and
    5 to fill; a coat covers pi x 3.5 dm x (1 dm + 3.5 dm / 4) = 20.6 dm2, at 8 min and 1.2 min/dm2 for the crumb coat, 2.4 for the final
    one; a row 5 x 10 + 6 min.
    """
    tiers = (TierWork("lower", 350, 100, 5), TierWork("middle", 250, 100), TierWork("upper", 150, 100))
    tasks = {task.key: task for task in cake_tasks(tiers, (RowWork("shells", 0, 10),), 4100, colours=3, bags=4, travel_min=42)}
    work_and_wait = {
        "bake0": (25, 65), "bake0.2": (25, 65), "bake0.3": (25, 65), "cool0": (0, 120), "fill0": (45, 30), "crumb0": (35, 30),
        "coat0": (60, 60), "bake2": (25, 35), "fill2": (30, 30), "boards": (25, 0), "stack": (30, 0), "tint": (20, 60), "bags": (5, 0),
        "mark0": (10, 0), "row0": (60, 0), "set": (10, 30), "pack": (15, 0), "travel": (45, 0), "out": (5, 60),
    }  # fmt: skip
    assert {key: (tasks[key].hands_min, tasks[key].wait_min) for key in work_and_wait} == work_and_wait
    assert "bake0.4" not in tasks and "bake2.2" not in tasks
    assert tasks["buttercream"].name == "Make the buttercream, 3 batches"


def test_how_long_each_thing_keeps() -> None:
    """Sponge two days, coated three, piped two, filled bags one: common practice."""
    tasks = cake_tasks(TIERS, ROWS, 2600)
    days = {task.key: (task.keeps_min or 0) / DAY_MIN for task in tasks if task.keeps_min}
    assert days["cool0"] == 2 and days["coat0"] == 3 and days["set"] == 2 and days["bags"] == 1
    assert days["buttercream"] == RECIPES["plain"].keeping.fridge_days
    assert {task.key for task in tasks if task.keeps_until == "ready"} == {"coat0", "coat1", "set"}


def test_ranges_of_what_waits() -> None:
    """A filling chills in 20 to 45 min, a coat in 45 min to 2 h, a tint deepens in 30 min to 4 h, a cake softens in 30 min to 2 h."""
    ranges = [(c.low, float(c), c.high) for c in (work.CHILL_SHORT_MIN, work.CHILL_COAT_MIN, work.DEEPEN_MIN, work.TEMPER_MIN, work.COOL_MIN)]
    assert ranges == [(20, 30, 45), (45, 60, 120), (30, 60, 240), (30, 60, 120), (60, 120, 180)]
    assert (work.COATED_KEEPS_MIN.low, work.COATED_KEEPS_MIN.high) == (2 * DAY_MIN, 4 * DAY_MIN)


def test_a_cake_comes_in_the_usual_order() -> None:
    plan = schedule(READY, cake_tasks(TIERS, ROWS, 2600, colours=4))
    order = [step.task.key for step in plan.steps]
    for first, second in itertools.pairwise(["bake0", "cool0", "fill0", "crumb0", "coat0", "stack", "mark0", "row0", "row1", "row2",
                                             "set", "out"]):  # fmt: skip
        assert order.index(first) < order.index(second)
    assert order.index("tint") < order.index("bags") < order.index("row0")


def test_every_cake_can_be_scheduled() -> None:
    for recipe, stacked, bake, travel in itertools.product(RECIPES, ("before", "after", "venue"), (True, False), (0.0, 40.0)):
        tasks = cake_tasks(TIERS, ROWS, 2600, recipe, 4, 6, bake, travel, stacked, None, 60.0, 60.0)
        plan = schedule(READY, tasks, USUAL_HOURS, 2)
        check(plan, tasks, USUAL_HOURS, 2, {"oven": 1})
        assert plan.steps[-1].end == READY, "it is ready at the hour, and not long before"


def test_stacked_after_piping_leaves_the_tiers_apart() -> None:
    first, after, venue = (
        {task.key: task for task in cake_tasks(TIERS, ROWS, 2600, stacked=stacked, travel_min=30)} for stacked in ("before", "after", "venue")
    )
    assert first["mark0"].joins == "stack" and first["stack"].needs == ("coat0", "coat1")
    assert set(after["stack"].needs) == {"set0", "set1"} == set(venue["pack"].needs)
    assert after["mark0"].needs == venue["mark0"].needs == ("coat0",)
    assert venue["stack"].joins == "travel" and venue["stack"].any_hour and "set0" not in first
    assert [venue[f"row{k}"].out for k in range(3)] == [(0,), (0,), (1,)] and first["row2"].out == (0, 1)


def test_what_closes_a_joint_is_piped_once_the_tiers_are_stacked() -> None:
    rows = (*ROWS, RowWork("shells", 1, 12, joint=True))
    for stacked, after in (("before", "row2"), ("after", "stack"), ("venue", "stack")):
        tasks = {task.key: task for task in cake_tasks(TIERS, rows, 2600, stacked=stacked, travel_min=30)}
        assert after in tasks["row3"].needs, stacked
        assert tasks["row3"].out == (0, 1)


def test_a_single_tier_is_not_stacked() -> None:
    assert "stack" not in keys(cake_tasks(TIERS[:1], ROWS[:2]))


def test_a_bare_cake_has_no_bags() -> None:
    assert not {"bags", "tint", "mark0"} & set(keys(cake_tasks(TIERS, ())))


def test_bought_sponges_are_not_baked() -> None:
    assert not {"bake0", "cool0"} & set(keys(cake_tasks(TIERS, ROWS, bake=False)))


def test_more_buttercream_is_more_batches() -> None:
    def minutes(mass_g: float) -> float:
        return next(task.hands_min for task in cake_tasks(TIERS, ROWS, mass_g) if task.key == "buttercream")

    assert minutes(0) == minutes(2000) < minutes(2001) < minutes(4001)


def test_a_row_takes_five_times_its_squeezing_and_the_taking_up_of_a_bag() -> None:
    """7 min squeezed: 5 x 7 + 6 = 41, written 45; what a maker timed herself is only rounded up to five minutes, whatever the hand."""
    rows = (RowWork("swags", 0, 7), RowWork("shells", 0, 7, True))

    def minutes(hand: str) -> list[float]:
        tasks = {task.key: task for task in cake_tasks(TIERS, rows, hand=hand)}
        return [tasks["row0"].hands_min, tasks["row1"].hands_min]

    assert minutes("practised") == [45, 10]
    assert minutes("learning") == [75, 10]  # 1.75 x 41 = 71.75
    assert minutes("quick") == [30, 10]  # 0.7 x 41 = 28.7
    (exact,) = (task.hands_min for task in cake_tasks(TIERS, (RowWork("shells", 0, 7.8),)) if task.key == "row0")
    assert exact == 45  # 5 x 7.8 + 6, and no minute more


def test_tiers_are_stacked_in_a_quarter_of_an_hour_each_and_by_a_quick_hand_in_less() -> None:
    """15 min for the second of two tiers; 0.7 x 15 = 10.5, written 15; 0.7 x 30 = 21, written 25; 1.75 x 15 = 26.25, written 30."""

    def minutes(hand: str, count: int) -> float:
        tasks = cake_tasks([TIERS[0]] * count, (), hand=hand)
        return next(task.hands_min for task in tasks if task.key == "stack")

    assert [minutes(hand, 2) for hand in ("practised", "quick", "learning")] == [15, 15, 30]
    assert [minutes(hand, 3) for hand in ("practised", "quick")] == [30, 25]


def test_nine_heavy_rows_on_a_tier_of_20_cm_take_a_practised_hand_two_to_four_hours() -> None:
    """From memory, of makers asked; the minutes of squeezing are those of nine rows of swags, shells, borders, rosettes and leaves."""
    squeezed = (3.1, 2.5, 1.9, 1.4, 1.6, 2.3, 0.9, 0.5, 2.3)
    rows = tuple(RowWork(f"row {i}", 0, minutes) for i, minutes in enumerate(squeezed))
    hours_of = {
        hand: sum(task.hands_min for task in cake_tasks(TIERS[:1], rows, hand=hand) if task.key.startswith("row")) / 60 for hand in timetable.PACE
    }
    assert 2 <= hours_of["practised"] <= 4
    assert hours_of["quick"] < hours_of["practised"] < hours_of["learning"] <= 2 * hours_of["practised"]


def test_without_a_number_of_bags_each_row_has_its_own() -> None:
    """Three rows: three bags in all, filled spell by spell; those that share a bag fill it once a spell."""

    def filled(rows: Sequence[RowWork], **more: Any) -> list[str]:
        return [task.name for task in cake_tasks(TIERS, rows, out_limit_min=480, **more) if task.key.startswith("bags")]

    rows = tuple(RowWork(f"row {i}", 0, 5) for i in range(3))
    assert filled(rows) == ["Fit tips, fill 3 bags"]
    assert filled(rows[:1]) == ["Fit tips, fill 1 bag"]
    assert filled(rows, bags=2) == ["Fit tips, fill 2 bags"]
    assert filled([RowWork(row.name, 0, 5, bag="red") for row in rows]) == ["Fit tips, fill 1 bag"]


def test_a_recipe_that_keeps_less_long_has_a_shorter_limit() -> None:
    def limit(recipe: str) -> float | None:
        return next(task.keeps_min for task in cake_tasks(TIERS, ROWS, 2000, recipe) if task.key == "buttercream")

    for key, recipe in RECIPES.items():
        assert limit(key) == recipe.keeping.fridge_days * DAY_MIN


@pytest.mark.parametrize("tiers, rows, recipe", [((), (), "plain"), (TIERS, (RowWork("x", 2, 5),), "plain"), (TIERS, (), "lard")])
def test_a_cake_that_is_none(tiers: tuple[TierWork, ...], rows: tuple[RowWork, ...], recipe: str) -> None:
    with pytest.raises(ValueError):
        cake_tasks(tiers, rows, 1000, recipe)


def test_area_of_a_tier() -> None:
    """A cube-like tier 10 cm wide and 10 cm high: side 3.1416 dm2, top 0.7854 dm2."""
    assert coated_area_dm2(TierWork("t", 100, 100)) == pytest.approx(math.pi * 1.25)
    with pytest.raises(ValueError):
        coated_area_dm2(TierWork("t", 0, 100))


def test_cautions_say_when_the_cake_is_out_for_too_long() -> None:
    """USDA FSIS: 2 hours, 1 hour above 90 F; Food Code 5 C (41 F); England 8 C (SI 2013/2996, schedule 4)."""

    def out(*minutes: int) -> tuple[timetable.TimeOut, ...]:
        spells, begin = [], READY
        for length in minutes:
            spells.append((begin, begin + dt.timedelta(minutes=length)))
            begin += dt.timedelta(days=1)
        return (timetable.TimeOut(0, tuple(spells), 0.0, 0.0),)

    calm, long, often = cautions("plain", out(60, 50)), cautions("plain", out(150)), cautions("plain", out(100, 90))
    assert "5 °C (41 °F)" in calm[0] and "8 °C" in calm[0] and "local food authority" in calm[0]
    assert "2 h 30 min at one time, and you allow 2 h" in long[1] and "2 hours at most in all" in long[1]
    assert "up to 3 h 10 min" in often[1] and "at one time, and you allow" not in often[1] and "food authority" in often[1]
    assert "together" not in calm[1] and "Count the drive" in calm[1]
    assert any("71 °C (160 °F)" in text for text in cautions("swiss_meringue"))
    assert any("160 °F (71 °C)" in text for text in cautions("swiss_meringue", unit_system="us"))
    assert not any("71 °C" in text for text in calm)
    assert any("5 days" in text and "local rules" in text for text in cautions("swiss_meringue", warmed=True))
    assert not any("waited overnight" in text for text in cautions("swiss_meringue"))


# --- the calculator ---------------------------------------------------------------------------------------------------


def test_the_demo_cake() -> None:
    answer = run(CALCULATOR, {})
    assert not answer.problems
    assert answer.figures["days_before"]["value"] == 1
    table = next(t for t in answer.tables if t["name"] == "tasks")
    assert table["rows"][-1][:2] == ["Sat 16:55", "Out of the fridge to soften, then 1 h"]
    assert answer.cautions and answer.files


@pytest.mark.parametrize(
    "inputs, said",
    [
        ({"tiers": "8x4 in round; 6x4 in round", "rows": "7", "hours": "8", "stacked": "before"}, "bags"),
        ({"tiers": "2", "rows": "swags 25 min; shells 15 min on tier 2"}, "Pipe: shells"),
        ({"tiers": "20 cm", "rows": ""}, "Final coat: cake"),
        ({"tiers": "30 x 20 x 8 cm sheet", "rows": "rope 20"}, "Pipe: rope 20"),
        ({"people": "2"}, "(2)"),
        ({"travel": "45 min"}, "On the road"),
    ],
)
def test_what_can_be_asked(inputs: dict[str, str], said: str) -> None:
    answer = run(CALCULATOR, inputs)
    assert not answer.problems, answer.problems
    assert said in str(answer.tables)


@pytest.mark.parametrize(
    "inputs, name, words",
    [
        ({"ready_at": "2027-10-16"}, "ready_at", "no hour"),
        ({"tiers": "0"}, "tiers", "between 1 and 7"),
        ({"tiers": "9"}, "tiers", "between 1 and 7"),
        ({"tiers": "5 kg"}, "tiers", "weight"),
        ({"tiers": "1 mm x 1 mm"}, "tiers", "wide"),
        ({"rows": "99"}, "rows", "60 or fewer"),
        ({"rows": "shells 10 min on tier 3"}, "rows", "there are 2"),
        ({"rows": "shells 30 h"}, "rows", "24 h"),
        ({"hours": "never"}, "hours", "Working hours"),
        ({"hours": "0.5", "travel": "", "rows": "1"}, "hours", "no room"),
        ({"not_before": "2027-10-16 09:00"}, "not_before", "before you can"),
        ({"people": "0"}, "people", "between 1 and 10"),
        ({"soften": "-5 min"}, "soften", "between"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_at_its_field(inputs: dict[str, str], name: str, words: str) -> None:
    answer = run(CALCULATOR, inputs)
    assert [p["input"] for p in answer.problems] == [name], answer.problems
    assert words in answer.problems[0]["message"]
    assert not answer.figures and not answer.tables and not answer.files


def test_too_little_time_is_a_caution_and_not_a_wall() -> None:
    answer = run(CALCULATOR, {"hours": "Mon, Sat 9 to 12"})
    assert not answer.problems
    assert any("further ahead" in c["text"] for c in answer.cautions)


def test_one_place_in_the_fridge_chills_one_tier_after_the_other() -> None:
    def begins(fridge: str) -> float:
        return float(run(CALCULATOR, {"fridge": fridge}).figures["start"]["value"])

    assert begins("1") > begins("2") == begins("")


def test_a_small_fridge_is_said() -> None:
    assert any("yours holds 1" in c["text"] for c in run(CALCULATOR, {"fridge": "1"}).cautions)


def test_tiers_and_rows_as_they_are_typed() -> None:
    assert [(t.width_mm, t.height_mm) for t in read_tiers("3", "t", "Tiers")] == [(250, 100), (200, 100), (150, 100)]
    assert [(t.width_mm, t.height_mm) for t in read_tiers("8x4 in round; 6 x 4 in", "t", "Tiers")] == [
        (pytest.approx(203.2), pytest.approx(101.6)), (pytest.approx(152.4), pytest.approx(101.6))]  # fmt: skip
    rows = read_rows("swags, russet: 1 h 10 min\nshells 15 min on tier 2; leaves", "r", "Rows", 2)
    assert [(r.name, r.tier, r.time_min) for r in rows] == [("swags, russet", 0, 70), ("shells", 1, 15), ("leaves", 0, 20)]
    assert [r.tier for r in read_rows("4", "r", "Rows", 2)] == [0, 0, 1, 1]


# --- laid out ---------------------------------------------------------------------------------------------------------


@given(
    jobs(),
    st.sampled_from(["9 to 18", "8-12, 13-17", "Mon-Fri 18-22; Sat 8-20; Sun 10 to 16", "0 to 24"]),
    st.integers(1, 2),
)
@settings(max_examples=60, deadline=None)
def test_the_drawing_keeps_the_order_of_the_hours(tasks: tuple[Task, ...], text: str, people: int) -> None:
    """Every task has its line, bars and words lie within the sheet, and what is later on a day stands further to the right."""
    plan = schedule(READY, tasks, hours(text), people)
    for over in (True, False):
        scene = timetable_scene(plan, over)
        words = [item for item in scene.items if isinstance(item, Text)]
        assert {step.task.name for step in plan.steps} <= {item.words for item in words}
        for item in words:
            wide = text_width_mm(item.words, item.size_mm, item.face)
            left = item.x - {"start": 0.0, "middle": wide / 2, "end": wide}[item.anchor]
            assert left >= -0.01 and left + wide <= scene.width_mm + 0.01 and 0 < item.y <= scene.height_mm, item.words
        for path in (item for item in scene.items if isinstance(item, Path)):
            assert all(-0.01 <= x <= scene.width_mm + 0.01 for part in path.parts for x in part[1::2])
            assert all(-0.01 <= y <= scene.height_mm + 0.01 for part in path.parts for y in part[2::2])
        assert scene.height_mm == chart_height_mm(plan, over)
    scale = HourScale(plan, 10.0, 90.0)
    moments = sorted({moment for step in plan.steps for piece in step.pieces for moment in piece} | {plan.ready_at})
    for _, of_day in itertools.groupby(moments, key=lambda moment: moment.date()):
        places = [scale.at(moment, moment.date()) for moment in of_day]
        assert places == sorted(places) and len({round(place, 6) for place in places}) == len(places)
        assert places[0] >= 10.0 and places[-1] <= 90.0


def test_ready_stands_in_its_own_day() -> None:
    """On a plan of many days, the hour it is ready is in the head of the last day, and every day is named whole."""
    many = tuple(RowWork(f"row {k}", k % 7, 6) for k in range(49))
    job = CakeJob(tuple(TierWork(f"tier {i + 1}", 450 - 50 * i, 100) for i in range(7)), many, 9000, stacked="venue", travel_min=30)
    plan = timetable.plan_cake(READY, job)
    for scene in (timetable_scene(plan, True), hours_drawn(plan)[-1]):
        words = {item.words: item for item in scene.items if isinstance(item, Text)}
        assert words["ready 18:00"].y == words["Saturday 16 October"].y
        last = max((item for item in words.values() if item.words.split()[0].endswith("day")), key=lambda item: item.y)
        assert last is words["Saturday 16 October"]
    titles = [item.words for scene in hours_drawn(plan) for item in scene.items if isinstance(item, Text) and item.words.split()[0].endswith("day")]
    assert set(titles) == {f"{day:%A} {day.day} {day:%B}" for day, _ in plan.hands_by_day()}
    assert all("…" not in item.words for scene in hours_drawn(plan) for item in scene.items if isinstance(item, Text))


def test_days_and_hours_are_written_as_the_reader_does() -> None:
    plan = schedule(READY, (Task("a", "A", 300),))
    us, metric = ([item.words for item in timetable_scene(plan, say=Formatter(units)).items if isinstance(item, Text)] for units in ("us", "metric"))
    assert us[0] == "Saturday, October 16" and "ready 6:00 PM" in us
    assert metric[:7] == ["Saturday 16 October", "13", "14", "15", "16", "17", "18"] and "ready 18:00" in metric


def test_no_line_crosses_a_word() -> None:
    """Bars, frames and ruled hours keep clear of every word."""
    plan = timetable.plan_cake(READY, CakeJob(TIERS, ROWS, 2600, colours=4, travel_min=30))
    for over in (True, False):
        scene = timetable_scene(plan, over)
        boxes = []
        for item in (item for item in scene.items if isinstance(item, Text)):
            wide = text_width_mm(item.words, item.size_mm, item.face)
            left = item.x - {"start": 0.0, "middle": wide / 2, "end": wide}[item.anchor]
            boxes.append((left, item.y - 0.7 * item.size_mm, left + wide, item.y, item.words))
        strokes: list[list[tuple[Any, ...]]] = []
        for part in (part for item in scene.items if isinstance(item, Path) for part in item.parts if len(part) > 1):
            strokes += [[]] if part[0] == "M" else []
            strokes[-1].append(part)
        for stroke in strokes:
            xs, ys = [part[1] for part in stroke], [part[2] for part in stroke]
            for left, top, right, bottom, words in boxes:
                assert not (min(xs) < right and max(xs) > left and min(ys) < bottom and max(ys) > top), words


def test_bars_are_told_apart_without_colour() -> None:
    """The fridge is striped, the oven chequered by two rows of squares, standing is an empty frame, work is solid."""
    tasks = (Task("a", "A", 10, 60, place="fridge"), Task("b", "B", 10, 60, place="oven"), Task("c", "C", 10, 60, place="room"))
    scene = timetable_scene(schedule(READY, tasks, hands=3))
    looks = {}
    for name, path in (("fridge", 0.5), ("oven", 1.2)):
        looks[name] = [p for p in scene.items if isinstance(p, Path) and p.style.dash and p.style.dash[0] == path]
    assert len(looks["fridge"]) == 2 and len(looks["oven"]) == 4, "one in its line and one in the key"
    frames = [p for p in scene.items if isinstance(p, Path) and p.style.stroke and not p.style.dash and p.style.width_mm == 0.3]
    assert len(frames) == 6 and not any(p.style.fill for p in frames)
    assert sum(1 for p in scene.items if isinstance(p, Path) and p.style.fill and not p.style.stroke) == 4


def test_the_drawing_says_what_it_shows() -> None:
    answer = run(CALCULATOR, {})
    (drawing,) = answer.drawings
    assert "Saturday 18:00" in drawing["description"] and "<title" in drawing["svg"]
    with pytest.raises(ValueError):
        timetable_scene(schedule(READY, []))


@pytest.mark.parametrize("count", [1, 31, 32, 33, 90])
def test_a_long_timetable_is_drawn_over_several_pages(count: int) -> None:
    """Every task once, in order, and never so many in one drawing that its words shrink under 3 mm on a page of Letter."""
    plan = schedule(READY, [Task(f"t{i}", f"task {i}", 10, needs=(f"t{i - 1}",) if i else ()) for i in range(count)])
    scenes = hours_drawn(plan)
    named = [item.words for scene in scenes for item in scene.items if isinstance(item, Text) and item.words.startswith("task ")]
    assert named == [f"task {i}" for i in range(count)]
    for scene in scenes:
        words = [item.size_mm for item in scene.items if isinstance(item, Text)]
        assert min(words) * 210.0 / max(210.0, scene.height_mm) > 3.0


def test_on_paper_with_every_step() -> None:
    answer = run(CALCULATOR, {"title": "Orchard harvest supper"})
    assert [s["name"] for s in answer.sheets] == ["timetable"]
    reader = pypdf.PdfReader(io.BytesIO(calc.sheet("timetable", {"title": "Orchard harvest supper"}, "timetable")))
    text = " ".join(" ".join(page.extract_text().split()) for page in reader.pages)
    for row in next(t for t in answer.tables if t["name"] == "tasks")["rows"]:
        assert row[1].split(",")[0] in text
    assert "Orchard harvest supper" in text and len(reader.pages) <= 3


@pytest.mark.parametrize(
    "typed, text",
    [
        ("9-6", "09:00 to 18:00"), ("9 to 5", "09:00 to 17:00"), ("10-2", "10:00 to 14:00"),
        ("9am-6pm", "09:00 to 18:00"), ("9 a.m. to 6 p.m.", "09:00 to 18:00"),
        ("9-6 pm", "09:00 to 18:00"), ("2-6pm", "14:00 to 18:00"), ("9:30–5:30", "09:30 to 17:30"), ("8-10", "08:00 to 10:00"),
    ],
)  # fmt: skip
def test_hours_on_a_twelve_hour_clock(typed: str, text: str) -> None:
    assert read_hours(typed, "hours", "Hours").text == f"every day {text}"


def test_hours_that_could_begin_in_the_morning_or_the_evening_are_asked() -> None:
    with pytest.raises(Problem, match="9:00 AM to 11:00 PM or 9:00 PM to 11:00 PM"):
        read_hours("9-11 pm", "hours", "Hours")
    with pytest.raises(Problem, match="after they begin"):
        read_hours("18-9", "hours", "Hours")


@pytest.mark.parametrize("waited, cold", [(359, False), (360, False), (361, True)])
def test_buttercream_that_has_waited_over_six_hours_of_a_night_is_taken_cold(waited: int, cold: bool) -> None:
    """Made by ten at night: whoever coats at four in the morning takes it as it stands, and a minute later it has been in the fridge."""
    late = dt.datetime(2027, 10, 15, 22)

    def step(key: str, start: dt.datetime, uses: str = "") -> Step:
        end = start + dt.timedelta(minutes=30)
        return Step(Task(key, key, 30.0, uses=uses), start, end, end, ((start, end),), 1, 0.0, None, False)

    made = step("buttercream", late - dt.timedelta(minutes=30))
    taken = step("coat", late + dt.timedelta(minutes=waited), "buttercream")
    assert taken_cold(Timetable(READY, (made, taken), 60.0, 0.0, 0)) == ((taken,) if cold else ())
    same_day = step("coat", late - dt.timedelta(minutes=30 + waited + 60), "buttercream")  # an hour and more before it is made: nothing has waited
    assert taken_cold(Timetable(READY, (same_day, made), 60.0, 0.0, 0)) == ()


@pytest.mark.parametrize("bags, minutes", [(1, 5), (2, 10), (4, 15)])
def test_bags_are_filled_in_3_minutes_each(bags: int, minutes: int) -> None:
    """Three, six and twelve minutes, rounded up to five; as many rows of half a minute go into one spell."""
    rows = tuple(RowWork(f"row {i}", 0, 0.5) for i in range(bags))
    filled = [task for task in cake_tasks((TierWork("cake", 200, 100),), rows) if task.key.startswith("bags")]
    assert [(task.name, task.hands_min) for task in filled] == [(f"Fit tips, fill {bags} bag{'s' if bags > 1 else ''}", minutes)]


def test_what_a_task_is_called_changes_no_time_and_stands_in_the_timetable() -> None:
    coat, pipe = Task("coat", "Coat", 30, 60, place="fridge", tier="lower", note="Cold."), Task("pipe", "Pipe", 90, needs=("coat",))
    first = schedule(READY, (coat, pipe))
    again = schedule(READY, (replace(coat, name="Smooth", tier="upper", note="Level."), pipe))
    assert [(step.start, step.end, step.slack_min) for step in again.steps] == [(step.start, step.end, step.slack_min) for step in first.steps]
    assert [(step.task.name, step.task.tier, step.task.note) for step in again.steps] == [("Smooth", "upper", "Level."), ("Pipe", "", "")]
    assert [step.task for step in first.steps] == [coat, pipe]


def test_the_task_without_room_is_named_as_it_is_called_now() -> None:
    long = Task("coat", "Coat", 24 * 60, pausable=False)
    for name in ("Coat", "Smooth"):
        with pytest.raises(NoRoom, match=f"^{name} takes") as full:
            schedule(READY, (replace(long, name=name),))
        assert full.value.task.name == name


def test_a_timetable_is_kept_by_all_that_it_was_asked_for() -> None:
    bake = tuple(Task(f"bake{i}", f"Bake {i}", 60, 120, place="oven", keeps_min=600) for i in range(3))
    tasks = (*bake, Task("fold", "Fold", 90), Task("pipe", "Pipe", 90, needs=tuple(task.key for task in bake)))
    asked: list[dict[str, Any]] = [
        {},
        {"ready_at": READY + dt.timedelta(days=1)},
        {"hours": hours("10:00 to 16:00")},
        {"hands": 2},
        {"places": {"oven": 3}},
        {"spare_min": 45},
        {"taken": [(READY - dt.timedelta(hours=2), READY - dt.timedelta(hours=1))]},
        {"tasks": (replace(bake[0], keeps_min=60), *tasks[1:])},
        {"tasks": (replace(bake[0], wait_min=30), *tasks[1:])},
    ]
    kept = [schedule(**{"ready_at": READY, "tasks": tasks} | one) for one in asked]
    assert len(set(kept)) == len(asked)
    for one, before in zip(asked, kept, strict=True):
        scheduling._scheduled.cache_clear()
        assert schedule(**{"ready_at": READY, "tasks": tasks} | one) == before
