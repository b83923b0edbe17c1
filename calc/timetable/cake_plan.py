"""Plans a cake: its tasks, scheduled, with buttercream warmed again after every night in the fridge.

Map
---
`plan_cake`     a cake's tasks scheduled, with the steps that bring buttercream and bags back from the fridge
`taken_cold`    the steps that take buttercream which has waited too long since it was made, beaten or kneaded
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from calc.buttercream import RECIPES
from calc.sources import constant
from calc.timetable.cake_work import BEAT_MIN, KNEAD_MIN, WARM_MIN, CakeJob, cake_tasks
from calc.timetable.scheduling import schedule
from calc.timetable.tasks import Step, Task, Timetable
from calc.timetable.working_hours import USUAL_HOURS, WorkingHours

WARM_AFTER_MIN = constant(360, "min", "common-practice", "buttercream that waits longer goes into the fridge, and is warmed and beaten again")
_BEAT = dt.timedelta(minutes=BEAT_MIN)


def plan_cake(
    ready_at: dt.datetime,
    job: CakeJob,
    hours: WorkingHours = USUAL_HOURS,
    hands: int = 1,
    places: Mapping[str, int] | None = None,
) -> Timetable:
    """Schedule the tasks of a cake; buttercream and bags that have waited overnight are warmed before they are used.

    Which days begin with buttercream from the fridge is known once the tasks are scheduled: time to beat it is then taken from these days, and
    the tasks are scheduled again, until no day is missing. `places` None means one load in the oven at a time. Raises `NoRoom` as `schedule` does.

    >>> from calc.timetable.cake_work import RowWork, TierWork
    >>> rows = tuple(RowWork(f"row {i}", 0, 20) for i in range(4))
    >>> plan = plan_cake(dt.datetime(2027, 10, 16, 11), CakeJob((TierWork("cake", 200, 100),), rows, 2000))
    >>> [f"{step.start:%a %H:%M}" for step in plan.steps if step.task.key.startswith(("buttercream", "beat"))]
    ['Thu 12:15', 'Fri 10:05']
    """
    return _planned(ready_at, job, hours, hands, tuple(sorted((places or {"oven": 1}).items())))


@lru_cache(maxsize=16)
def _planned(ready_at: dt.datetime, job: CakeJob, hours: WorkingHours, hands: int, places: tuple[tuple[str, int], ...]) -> Timetable:
    """`plan_cake` with arguments that can be hashed."""
    tasks = cake_tasks(job, hours.longest_min)
    days: set[dt.date] = set()
    while True:
        taken = [(opens, opens + _BEAT) for opens in (_opening(day, hours) for day in sorted(days))]
        plan = schedule(ready_at, tasks, hours, hands, dict(places), taken=taken)
        missing = {step.start.date() for step in taken_cold(plan) if not step.task.uses.startswith("bags")} - days
        if not missing:
            return _with_warming(_standing(plan), job, hours, hands)
        days |= missing


def _standing(plan: Timetable) -> Timetable:
    """The timetable with the cake standing in the room, once it is set up, until it must be ready.

    Where time was kept free in between to beat buttercream, it is set up earlier than it would have to be, and stands longer than it takes to
    soften.
    """
    last = plan.steps[-1]
    if last.task.key != "out" or last.end >= plan.ready_at:
        return plan
    wait_min = (plan.ready_at - last.work_end).total_seconds() / 60
    return replace(plan, steps=(*plan.steps[:-1], replace(last, task=replace(last.task, wait_min=wait_min), end=plan.ready_at)))


def _opening(day: dt.date, hours: WorkingHours) -> dt.datetime:
    """When work begins on a day; at midnight on a day without working hours."""
    windows = hours.by_weekday[day.weekday()]
    return dt.datetime.combine(day, dt.time()) + dt.timedelta(minutes=windows[0][0] if windows else 0)


def taken_cold(plan: Timetable) -> tuple[Step, ...]:
    """The steps of another day than the buttercream they take, which has waited for over six hours since it was made, beaten or kneaded.

    Of the rows that are piped from the same bags, one after the other, only the first counts.
    """
    steps = {step.task.key: step for step in plan.steps}
    found = []
    opened: set[str] = set()
    for step in plan.steps:
        bags = step.task.uses if step.task.uses.startswith("bags") else ""
        if step.task.uses and bags not in opened:
            opened |= {bags} - {""}
            sources = [step.task.uses, *(need for need in step.task.needs if need.startswith(("beat", "knead")))]
            ready = max(steps[source].end for source in sources)
            if ready.date() != step.start.date() and step.start - ready > dt.timedelta(minutes=WARM_AFTER_MIN):
                found.append(step)
    return tuple(found)


def _with_warming(plan: Timetable, job: CakeJob, hours: WorkingHours, hands: int) -> Timetable:
    """The timetable with the steps that warm, beat and knead what comes from the fridge."""
    cold = taken_cold(plan)
    if not cold:
        return plan
    keeping = RECIPES[job.recipe].keeping
    note = f"It keeps about {keeping.fridge_days} days in the fridge, by common practice, never longer than your local rules allow. {keeping.note}"
    more: list[Step] = []
    needs: dict[str, str] = {}
    by_day: dict[dt.date, list[Step]] = {}
    ends = {step.task.key: step.end for step in plan.steps}
    for step in cold:
        if not step.task.uses.startswith("bags"):
            by_day.setdefault(step.start.date(), []).append(step)
    for number, (day, steps) in enumerate(sorted(by_day.items())):
        first = min(steps, key=lambda step: step.start)
        begin, hand = _latest_gap(plan.steps, _opening(day, hours), first.start, hands)
        out = begin - dt.timedelta(minutes=WARM_MIN)
        made = tuple(
            key for key in dict.fromkeys(step.task.uses for step in steps) if ends[key] <= out
        )  # what is tinted later the same night is not in it
        warm = Task(f"warm{number}", "Buttercream out of the fridge, to warm", 0, WARM_MIN, made, "room", note=note)
        beat = Task(f"beat{number}", "Beat the buttercream again", BEAT_MIN, needs=(warm.key,))
        slack = first.slack_min + (first.start - begin - _BEAT).total_seconds() / 60
        more += [
            Step(warm, out, out, begin, (), hand, slack, None, False),
            Step(beat, begin, begin + _BEAT, begin + _BEAT, ((begin, begin + _BEAT),), hand, slack, None, False),
        ]
        needs.update({step.task.key: beat.key for step in steps})
    for number, step in enumerate(step for step in cold if step.task.uses.startswith("bags")):
        knead = Task(f"knead{number}", "Filled bags out of the fridge, kneaded soft", 0, KNEAD_MIN, (step.task.uses,), "room")
        out = step.start - dt.timedelta(minutes=KNEAD_MIN)
        more.append(Step(knead, out, out, step.start, (), step.hand, step.slack_min, None, False))
        needs[step.task.key] = knead.key
    steps_now = [
        replace(step, task=replace(step.task, needs=(*step.task.needs, needs[step.task.key]))) if step.task.key in needs else step
        for step in plan.steps
    ]
    order = sorted([*more, *steps_now], key=lambda step: step.start)
    return replace(plan, steps=tuple(order), hands_min=plan.hands_min + sum(step.task.hands_min for step in more))


def _latest_gap(steps: Sequence[Step], opens: dt.datetime, until: dt.datetime, hands: int) -> tuple[dt.datetime, int]:
    """The latest time between opening and a moment at which somebody is free to beat buttercream, and who it is."""
    best = (opens, 1)
    for hand in range(1, hands + 1):
        busy = sorted(piece for step in steps if step.hand == hand for piece in step.pieces if piece[1] > opens and piece[0] < until)
        edges = [(opens, opens), *busy, (until, until)]
        for (_, free), (taken, _) in pairwise(edges):
            if taken - free >= _BEAT and taken - _BEAT > best[0]:
                best = taken - _BEAT, hand
    return best
