"""What a timetable is made of: tasks, and the steps they become. It may import nothing of `calc`.

Map
---
`Task`        work by hand, then a wait: what it needs first, where it waits and how long it keeps
`Step`        a task with its times
`Timetable`   all steps in the order they begin, with totals
`NoRoom`      raised when working hours leave no room for a task

Times are whole minutes of local time without a time zone. A night in which the clocks change is an hour shorter or longer than counted here.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

DAY_MIN = 1440
Window = tuple[int, int]  # from and to, in minutes


@dataclass(frozen=True)
class Task:
    """One thing to do: `hands_min` of work, then a wait of `wait_min` that nobody works through.

    `needs` are the keys of the tasks that come first. `place` is where it waits ("fridge", "oven", "room" or ""), and
    counts against the places given to `schedule`. An `attended` wait lies within working hours; work at `any_hour` need
    not, because whoever does it is there anyway. A task without work begins as soon as the tasks it needs are finished.
    `keeps_min` is the made-ahead limit: from the end of the wait to the first task that uses it (`keeps_until` "use")
    or to the hour the cake is ready ("ready"). `pausable` work may be split at closing time when no day is long
    enough for it. A `buffer` is time kept free in case of mishaps: later work may use up its wait.

    A task that `joins` another begins the moment that one ends and is done by the same hands: a tier is not put back in between.
    `out` are the tiers (0 is the lowest) that stand outside the fridge while it is done. `uses` is the key of the task that prepared
    the buttercream it takes.
    """

    key: str
    name: str
    hands_min: float
    wait_min: float = 0.0
    needs: tuple[str, ...] = ()
    place: str = ""
    attended: bool = False
    keeps_min: float | None = None
    keeps_until: str = "use"
    pausable: bool = True
    any_hour: bool = False
    buffer: bool = False
    tier: str = ""
    note: str = ""
    joins: str = ""
    out: tuple[int, ...] = ()
    uses: str = ""


@dataclass(frozen=True)
class Step:
    """One task with its place in the timetable.

    `pieces` are its stretches of work (usually one); `hand` is who does it, counted from 1. `end` is the earliest its wait
    can be over. `slack_min` is how long the work may overrun, within working hours and with everything else as planned, before
    the cake is late. `not_before` is the earliest it may begin by its made-ahead limit, and `stale` says that
    the limit is broken all the same.
    """

    task: Task
    start: dt.datetime
    work_end: dt.datetime
    end: dt.datetime
    pieces: tuple[tuple[dt.datetime, dt.datetime], ...]
    hand: int
    slack_min: float
    not_before: dt.datetime | None
    stale: bool


@dataclass(frozen=True)
class Timetable:
    """All steps in the order they begin, with totals."""

    ready_at: dt.datetime
    steps: tuple[Step, ...]
    hands_min: float
    spare_min: float
    in_fridge: int  # the most things in the fridge at once, each counted until the next step takes it out

    @property
    def start(self) -> dt.datetime:
        """When the first step begins."""
        return min((step.start for step in self.steps), default=self.ready_at)

    @property
    def days_before(self) -> int:
        """How many days before the day the cake is ready the work begins [-]."""
        return (self.ready_at.date() - self.start.date()).days

    @property
    def stale(self) -> tuple[Step, ...]:
        """The steps done further ahead than their results keep."""
        return tuple(step for step in self.steps if step.stale)

    def hands_by_day(self) -> tuple[tuple[dt.date, float], ...]:
        """Minutes of work on each day, in order [min]."""
        days: dict[dt.date, list[float]] = {}
        for step in self.steps:
            for start, end in step.pieces:
                days.setdefault(start.date(), []).append((end - start).total_seconds() / 60)
        return tuple((day, math.fsum(parts)) for day, parts in sorted(days.items()))


class NoRoom(ValueError):
    """Working hours leave no room for a task."""

    def __init__(self, task: Task, message: str) -> None:
        super().__init__(message)
        self.task = task
