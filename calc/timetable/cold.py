"""How long each tier of a planned cake stands outside the fridge.

Map
---
`TimeOut`     one tier: minutes outside the fridge in all, and the longest spell
`time_out`    a timetable -> `TimeOut` for each tier
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

from calc.timetable.tasks import Timetable

Spell = tuple[dt.datetime, dt.datetime]


@dataclass(frozen=True)
class TimeOut:
    """When one tier stands outside the fridge, from its filling to the hour it is ready: spells, each until it goes back."""

    tier: int
    spells: tuple[Spell, ...]
    coating_min: float  # filling and coats
    moving_min: float  # the road, setting up, softening

    @property
    def minutes(self) -> tuple[float, ...]:
        """The length of each spell [min]."""
        return tuple((end - start).total_seconds() / 60 for start, end in self.spells)

    @property
    def total_min(self) -> float:
        """All spells together [min]."""
        return math.fsum(self.minutes)

    @property
    def piping_min(self) -> float:
        """Stacking, marking, piping, looking over [min]."""
        return self.total_min - self.coating_min - self.moving_min

    @property
    def longest_min(self) -> float:
        """The longest spell [min]."""
        return max(self.minutes, default=0.0)


def time_out(plan: Timetable) -> tuple[TimeOut, ...]:
    """Add up, for each tier, every minute that it stands outside the fridge.

    Formula: from the start of each step that has the tier out to the end of its work if it then goes into the fridge, otherwise to the next
    step that has it out, or to the hour the cake is ready; stretches that meet are one spell.

    Parameters
    ----------
    plan : Timetable
        A timetable whose tasks say which tiers they have out [-]

    Returns
    -------
    tuple of TimeOut
        One for each tier, the lowest first [-]

    Range: from the filling on. Leaves out: the sponge while it cools, the table before it is cut, and how long a cake takes to be cold again.

    Example
    -------
    >>> from calc.timetable.scheduling import schedule
    >>> from calc.timetable.tasks import Task
    >>> coat = Task("coat", "Coat", 40, 60, place="fridge", out=(0,))
    >>> pipe = Task("pipe", "Pipe", 90, needs=("coat",), out=(0,))
    >>> time_out(schedule(dt.datetime(2027, 10, 16, 18), (coat, pipe)))[0].minutes
    (40.0, 90.0)

    Source: fsis-2-hour (what is counted)
    """
    found = []
    for tier in sorted({tier for step in plan.steps for tier in step.task.out}):
        steps = [step for step in plan.steps if tier in step.task.out]
        spells: list[Spell] = []
        coating = moving = 0.0
        for step, after in zip(steps, [*(step.start for step in steps[1:]), plan.ready_at], strict=True):
            end = step.work_end if step.task.place == "fridge" else max(step.work_end, after)
            minutes = (end - step.start).total_seconds() / 60
            coating += minutes if step.task.uses == "buttercream" else 0.0
            moving += minutes if step.task.any_hour else 0.0
            if spells and step.start <= spells[-1][1]:
                spells[-1] = (spells[-1][0], max(spells[-1][1], end))
            else:
                spells.append((step.start, end))
        found.append(TimeOut(tier, tuple(spells), coating, moving))
    return tuple(found)
