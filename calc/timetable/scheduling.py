"""Schedules tasks backwards from the hour the cake must be ready. It may import only the rest of this room.

Map
---
`schedule`   every task as late as it can be -> `Timetable`; tasks that join one another are placed as one
"""

from __future__ import annotations

import datetime as dt
import math
from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import fields, replace
from functools import lru_cache
from operator import attrgetter
from typing import Any, NamedTuple

from calc.timetable.tasks import DAY_MIN, NoRoom, Step, Task, Timetable, Window
from calc.timetable.working_hours import USUAL_HOURS, WorkingHours

HORIZON_DAYS = 60
HORIZON_MIN = -HORIZON_DAYS * DAY_MIN
MOST_TASKS = 400
SHORTEST_PIECE_MIN = 15  # a task that is broken off at closing time is not cut into pieces shorter than this


@lru_cache(maxsize=16)
def _windows(weekday: int, minute: int, hours: WorkingHours) -> tuple[Window, ...]:
    """All working time before a minute of a weekday, in order; times are negative minutes before it."""
    found: list[Window] = []
    for back in range(HORIZON_DAYS + 1):
        offset = -minute - back * DAY_MIN
        for start, end in reversed(hours.by_weekday[(weekday - back) % 7]):
            if offset + start < 0:
                found.append((offset + start, min(0, offset + end)))
    whole: list[Window] = []
    for start, end in reversed(found):  # join windows that meet at midnight
        if whole and whole[-1][1] == start:
            whole[-1] = (whole[-1][0], end)
        else:
            whole.append((start, end))
    return tuple(whole)


class _Slot(NamedTuple):
    """A task and where it was placed; times are minutes before the cake must be ready, so zero or negative.

    A tuple, because a timetable makes hundreds of them, which takes several times as long for a frozen dataclass.
    """

    task: Task
    pieces: tuple[Window, ...]
    end: int
    hand: int

    @property
    def start(self) -> int:
        return self.pieces[0][0]

    @property
    def work_end(self) -> int:
        return self.pieces[-1][1]


class _Calendar:
    """Who and which places are taken when; times are minutes before the cake must be ready, so zero or negative."""

    def __init__(self, ready_at: dt.datetime, hours: WorkingHours, hands: int, places: Mapping[str, int]) -> None:
        self.busy: list[list[Window]] = [[] for _ in range(hands)]  # for each person, in order of time
        self.filled: dict[str, list[Window]] = {}
        self.places = places
        self.windows = _windows(ready_at.weekday(), ready_at.hour * 60 + ready_at.minute, hours)
        self._starts = [start for start, _ in self.windows]
        self.longest = max((end - start for start, end in self.windows), default=0)

    def window_at(self, minute: int) -> int:
        """Index of the last window that begins before a minute; -1 where there is none."""
        return bisect_right(self._starts, minute - 1) - 1

    def gaps(self, hand: int, window: Window, deadline: int) -> Iterable[Window]:
        """A person's free stretches in one window before a deadline, latest first."""
        start, end = window
        end = min(end, deadline)
        for busy_start, busy_end in reversed(self.busy[hand]):
            if busy_start >= end:
                continue
            if busy_end <= start:
                break
            if busy_end < end:
                yield busy_end, end
            end = busy_start
        if end > start:
            yield start, end

    def work(self, hand: int, length: int, deadline: int, floor: int, any_hour: bool) -> list[Window] | None:
        """The latest stretch of work of a length that ends by a deadline; pieces when no window is long enough."""
        windows: Sequence[Window] = ((HORIZON_MIN, 0),) if any_hour else self.windows
        whole = any_hour or length <= self.longest
        pieces: list[Window] = []
        left = length
        for index in range(0 if any_hour else self.window_at(deadline), -1, -1):
            if windows[index][1] <= floor:
                return None  # another person has it later
            for start, end in self.gaps(hand, windows[index], deadline):
                if whole:
                    if end - start >= length:
                        return [(end - length, end)]
                elif end - start >= min(left, SHORTEST_PIECE_MIN):
                    taken = min(left, end - start)
                    pieces.append((end - taken, end))
                    left -= taken
                    if left == 0:
                        return pieces[::-1]
        return None

    def room_for_wait(self, task: Task, start: int, wait: int) -> int | None:
        """None if a wait can begin at `start`, else the latest earlier minute worth trying."""
        if task.attended:
            index = self.window_at(start + 1)
            if index < 0 or start + wait > self.windows[index][1]:
                while index >= 0:
                    opens, closes = self.windows[index]
                    if closes - wait >= opens and closes - wait < start:
                        return closes - wait
                    index -= 1
                return HORIZON_MIN - 1
        most = self.places.get(task.place)
        if most is None:
            return None
        over = [w for w in self.filled.get(task.place, ()) if w[0] < start + wait and w[1] > start]
        if len(over) < most:
            return None
        events = sorted([(max(a, start), 1) for a, _ in over] + [(b, -1) for _, b in over])
        level = 0
        for _, change in events:
            level += change
            if level >= most:
                return max(a for a, _ in over) - wait
        return None


def schedule(
    ready_at: dt.datetime,
    tasks: Sequence[Task],
    hours: WorkingHours = USUAL_HOURS,
    hands: int = 1,
    places: Mapping[str, int] | None = None,
    spare_min: float = 0.0,
    taken: Sequence[tuple[dt.datetime, dt.datetime]] = (),
) -> Timetable:
    """Place every task as late as possible, backwards from the time the cake must be ready.

    A task ends by the earliest start of the tasks that need it. Its work is one stretch within working hours in which a person is
    free, or several where no day is long enough; its wait follows at once and takes one of the places of its kind. Tasks are placed
    one by one from the end, under three rules of which goes first; of the timetables in which least is made too far ahead, the one that begins
    latest is kept: a good order, not one proven best.

    `hands` is how many people work at the same time; `places` how many tasks may wait at once in each place (a place left out has
    room for all; None means one in the oven); `spare_min` is kept free before the cake must be ready; in `taken` everybody does something
    else. Up to 400 tasks and 60 days.
    Raises `NoRoom` where working hours leave no room for a task, and ValueError where a task needs one that is missing or two need
    each other.

    >>> ready = dt.datetime(2027, 10, 16, 18, 0)
    >>> coat, pipe = Task("coat", "Coat", 30, 60, place="fridge"), Task("pipe", "Pipe", 90, needs=("coat",))
    >>> plan = schedule(ready, (coat, pipe), USUAL_HOURS)
    >>> [f"{step.task.name} {step.start:%H:%M}" for step in plan.steps], plan.hands_min
    (['Coat 15:00', 'Pipe 16:30'], 120.0)
    """
    ready = ready_at.replace(second=0, microsecond=0, tzinfo=None)
    if hands < 1 or spare_min < 0 or len(tasks) > MOST_TASKS:
        raise ValueError(f"a timetable takes at least one person, no negative spare time, and up to {MOST_TASKS} tasks")
    limits = {"oven": 1} if places is None else dict(places)
    if any(limit < 1 for limit in limits.values()):
        raise ValueError("a place has room for at least one")
    busy = tuple(sorted((round((a - ready).total_seconds() / 60), round((b - ready).total_seconds() / 60)) for a, b in taken))
    given = (ready, hours, hands, tuple(limits.items()), math.ceil(spare_min), busy)
    try:
        plan = _scheduled(tuple([_without_words(task) for task in tasks]), *given)
    except ValueError:  # which names a task
        return _timetable_of(tasks, *given)
    named = {task.key: task for task in tasks}
    steps = [
        Step(named[s.task.key], s.start, s.work_end, s.end, s.pieces, s.hand, s.slack_min, s.not_before, s.stale) for s in plan.steps
    ]  # by hand, as `replace` takes several times as long
    return replace(plan, steps=tuple(steps))


# What a task is called is nothing to when it is done. All else that it says has to stand here.
_FIELDS = tuple(field.name for field in fields(Task) if field.name not in ("name", "tier", "note"))
_without_words = attrgetter(*_FIELDS)


@lru_cache(maxsize=32)
def _scheduled(
    tasks: tuple[tuple[Any, ...], ...],
    ready: dt.datetime,
    hours: WorkingHours,
    hands: int,
    places: tuple[tuple[str, int], ...],
    spare_min: int,
    taken: tuple[Window, ...],
) -> Timetable:
    """`schedule` of tasks without their words: cached, because most edits of an order leave the tasks as they are, or only what they are called."""
    return _timetable_of([Task(name="", **dict(zip(_FIELDS, task, strict=True))) for task in tasks], ready, hours, hands, places, spare_min, taken)


def _timetable_of(
    tasks: Sequence[Task],
    ready: dt.datetime,
    hours: WorkingHours,
    hands: int,
    places: tuple[tuple[str, int], ...],
    spare_min: int,
    taken: tuple[Window, ...],
) -> Timetable:
    limits = dict(places)
    spells = _spells(tasks)
    leader = {task.key: spell[0].key for spell in spells for task in spell}
    chain = _Chain([_as_one(spell, leader) for spell in spells])
    last: NoRoom | None = None
    best: dict[str, _Slot] | None = None
    best_key: tuple[int, int, int] | None = None
    for rule in range(3):
        try:
            placed = _place(ready, chain, hours, hands, limits, spare_min, taken, rule)
        except NoRoom as trouble:
            last = trouble
            continue
        starts = [slot.start for slot in placed.values()]
        key = (-_too_early(tasks, spells, placed), min(starts, default=0), sum(starts))
        if best_key is None or key > best_key:
            best, best_key = placed, key
    if best is None:
        assert last is not None
        raise last
    return _timetable(ready, tasks, spells, chain, best, hours, limits)


def _too_early(tasks: Sequence[Task], spells: Sequence[Sequence[Task]], placed: Mapping[str, _Slot]) -> int:
    """How many tasks are done so far ahead that what they make does not keep."""
    parts = {task.key: part for spell in spells for task, part in _parts_of(spell, placed[spell[0].key])}
    begins = _first_uses(tasks, parts)
    return sum(
        (begins.get(task.key, 0) if task.keeps_until == "use" else 0) - parts[task.key].end > task.keeps_min
        for task in tasks
        if task.keeps_min is not None
    )


def _first_uses(tasks: Sequence[Task], placed: Mapping[str, _Slot]) -> dict[str, int]:
    """When what each task makes is used first."""
    begins: dict[str, int] = {}
    for task in tasks:
        for need in task.needs:
            begins[need] = min(begins.get(need, 0), placed[task.key].start)
    return begins


def _spells(tasks: Sequence[Task]) -> list[list[Task]]:
    """Tasks that join one another, together, each after the one it joins; all others alone."""
    spells: dict[str, list[Task]] = {}
    for task in tasks:
        if task.key in spells:
            raise ValueError("two tasks have the same key")
        if not task.joins:
            spells[task.key] = [task]
        elif task.joins in spells and spells[task.joins][-1].key == task.joins and not spells[task.joins][-1].wait_min:
            spells[task.key] = spells[task.joins]
            spells[task.key].append(task)
        else:
            raise ValueError(f"{task.name} joins {task.joins}, which does not come before it without a wait")
    return list({id(spell): spell for spell in spells.values()}.values())


def _as_one(spell: Sequence[Task], leader: Mapping[str, str]) -> Task:
    """A spell as one task: it needs what any of them needs, and waits as the last does. `leader` is the key of each task's spell."""
    first, last = spell[0], spell[-1]
    needs = dict.fromkeys(leader.get(need, need) for task in spell for need in task.needs)
    if len(spell) == 1:
        return first if tuple(needs) == first.needs else replace(first, needs=tuple(needs))
    needs.pop(first.key, None)
    return replace(
        first,
        hands_min=math.fsum(_minutes(task)[0] for task in spell),
        wait_min=last.wait_min,
        place=last.place,
        attended=last.attended,
        needs=tuple(needs),
        keeps_min=None,
        pausable=False,
        any_hour=all(task.any_hour for task in spell),
        buffer=last.buffer,
    )


class _Chain:
    """The tasks, checked, with the tasks that follow each, and an order in which every task stands after those it needs."""

    def __init__(self, tasks: Sequence[Task]) -> None:
        self.by_key = {task.key: task for task in tasks}
        self.after: dict[str, list[str]] = {task.key: [] for task in tasks}
        for task in tasks:
            if task.hands_min < 0 or task.wait_min < 0 or not math.isfinite(task.hands_min + task.wait_min):
                raise ValueError(f"{task.name} takes a negative or endless time")
            for need in task.needs:
                if need not in self.by_key:
                    raise ValueError(f"{task.name} needs {need}, which is not there")
                self.after[need].append(task.key)
        self.order = {task.key: index for index, task in enumerate(tasks)}
        # the length of the longest path of tasks up to and including this one
        self.head: dict[str, float] = {}
        waiting = {task.key: len(set(task.needs)) for task in tasks}
        ready = [task.key for task in tasks if not task.needs]
        self.sequence: list[str] = []  # topological order
        while ready:
            key = ready.pop()
            task = self.by_key[key]
            self.sequence.append(key)
            self.head[key] = task.hands_min + task.wait_min + max((self.head[need] for need in task.needs), default=0.0)
            for following in set(self.after[key]):
                waiting[following] -= 1
                if waiting[following] == 0:
                    ready.append(following)
        if len(self.sequence) != len(tasks):
            raise ValueError("two tasks wait for each other")


def _place(
    ready: dt.datetime,
    chain: _Chain,
    hours: WorkingHours,
    hands: int,
    places: Mapping[str, int],
    spare: int,
    taken: Sequence[Window],
    rule: int,
) -> dict[str, _Slot]:
    """Place all tasks under one rule of which goes first; times are minutes before the cake must be ready."""
    calendar = _Calendar(ready, hours, hands, places)
    calendar.busy = [list(taken) for _ in range(hands)]
    placed: dict[str, _Slot] = {}
    open_after = {key: len(set(after)) for key, after in chain.after.items()}
    deadline = dict.fromkeys(chain.by_key, -spare)
    candidates = [key for key, count in open_after.items() if count == 0]

    def priority(key: str) -> tuple[float, ...]:
        latest = deadline[key] - chain.by_key[key].wait_min  # when its work must be finished
        if rule == 0:
            return (latest, chain.head[key], chain.order[key])
        if rule == 1:
            return (chain.head[key], latest, chain.order[key])
        return (chain.order[key],)

    while candidates:
        key = max(candidates, key=priority)
        candidates.remove(key)
        task = chain.by_key[key]
        placed[key] = slot = _place_latest(calendar, task, deadline[key])
        for need in set(task.needs):
            deadline[need] = min(deadline[need], slot.start)
            open_after[need] -= 1
            if open_after[need] == 0:
                candidates.append(need)
    return placed


def _minutes(task: Task) -> Window:
    """Whole minutes of work and of wait."""
    return math.ceil(task.hands_min - 1e-9), math.ceil(task.wait_min - 1e-9)


def _place_latest(calendar: _Calendar, task: Task, deadline: int) -> _Slot:
    """Place one task as late as its deadline allows, and mark its time as taken."""
    length, wait = _minutes(task)
    if not task.pausable and not task.any_hour and length > calendar.longest:
        raise NoRoom(task, f"{task.name} takes {length} min in one go, and the longest working day has {calendar.longest} min")
    if task.attended and wait > calendar.longest:
        raise NoRoom(task, f"{task.name} must be watched for {wait} min, and the longest working day has {calendar.longest} min")
    found = _find(calendar, task, length, wait, deadline - wait)
    if found is None:
        raise NoRoom(task, f"{task.name} finds no room within {HORIZON_DAYS} days")
    pieces, hand = found
    end = pieces[-1][1]
    if length:
        calendar.busy[hand] = sorted(calendar.busy[hand] + pieces)
    if wait and task.place:
        calendar.filled.setdefault(task.place, []).append((end, end + wait))
    return _Slot(task, tuple(pieces), end + wait, hand)


def _find(calendar: _Calendar, task: Task, length: int, wait: int, limit: int) -> tuple[list[Window], int] | None:
    """The latest pieces of work that end by a limit and leave room for the wait, and the person who does them."""
    while limit >= HORIZON_MIN:
        hand, pieces = 0, [(limit, limit)]
        if length:
            found: list[Window] | None = None
            for person in range(len(calendar.busy)):
                tried = calendar.work(person, length, limit, found[0][0] if found else HORIZON_MIN, task.any_hour)
                if tried and (found is None or tried[0][0] > found[0][0]):
                    found, hand = tried, person
            if found is None:
                return None
            pieces = found
        earlier = calendar.room_for_wait(task, pieces[-1][1], wait) if wait else None
        if earlier is None:
            return pieces, hand
        limit = earlier
    return None


def _moved_up(chain: _Chain, found: Mapping[str, _Slot], places: Mapping[str, int]) -> dict[str, _Slot]:
    """The placed tasks in topological order; those without work begin as soon as the tasks they need are finished."""
    placed: dict[str, _Slot] = {}
    for key in chain.sequence:
        slot = found[key]
        if slot.start == slot.work_end and slot.task.needs and slot.task.place not in places:
            earliest = max(placed[need].end for need in slot.task.needs)
            slot = _Slot(slot.task, ((earliest, earliest),), earliest + slot.end - slot.start, slot.hand)
        placed[key] = slot
    return placed


def _latest_work_ends(chain: _Chain, placed: Mapping[str, _Slot], calendar: _Calendar, places: Mapping[str, int]) -> dict[str, int]:
    """The latest minute at which each task's work may end, with the work in the same order and buffers used up.

    `calendar` is empty: what keeps two tasks of one person apart is their order.
    """
    index = {key: number for number, key in enumerate(chain.sequence)}
    order = sorted(placed, key=lambda key: (placed[key].start, index[key]), reverse=True)
    latest_start: dict[str, int] = {}
    latest_end: dict[str, int] = {}
    next_of_hand: dict[int, str] = {}
    for key in order:
        slot = placed[key]
        length, wait = _minutes(slot.task)
        if slot.task.buffer:
            wait = 0
        until = min((latest_start[after] for after in chain.after[key]), default=0)
        if slot.task.place in places:
            until = min([until] + [latest_end[k] for k in latest_end if placed[k].task.place == slot.task.place and placed[k].work_end >= slot.end])
        limit = until - wait
        if length and slot.hand in next_of_hand:
            limit = min(limit, latest_start[next_of_hand[slot.hand]])
        found = _find(calendar, slot.task, length, wait, limit)
        pieces = found[0] if found else slot.pieces
        latest_start[key], latest_end[key] = max(pieces[0][0], slot.start), max(pieces[-1][1], slot.work_end)
        if length:
            next_of_hand[slot.hand] = key
    return latest_end


def _timetable(
    ready: dt.datetime,
    tasks: Sequence[Task],
    spells: Sequence[Sequence[Task]],
    chain: _Chain,
    found: Mapping[str, _Slot],
    hours: WorkingHours,
    places: Mapping[str, int],
) -> Timetable:
    """Turn placed spells into steps with dates, slack and made-ahead limits, one for each task."""
    calendar = _Calendar(ready, hours, 1, {})
    whole = _moved_up(chain, found, places)
    latest = _latest_work_ends(chain, whole, calendar, places)
    placed: dict[str, _Slot] = {}
    slack: dict[str, float] = {}
    for spell in spells:
        slot = whole[spell[0].key]
        over = _slack(slot, latest[spell[0].key], calendar)
        for task, part in _parts_of(spell, slot):
            placed[task.key], slack[task.key] = part, over
    begins = _first_uses(tasks, placed)

    def moment(minute: int) -> dt.datetime:
        return ready + dt.timedelta(minutes=minute)

    def step(slot: _Slot) -> Step:
        task = slot.task
        until = begins.get(task.key, 0) if task.keeps_until == "use" else 0
        not_before = None
        if task.keeps_min is not None:
            not_before = moment(until - math.floor(task.keeps_min) - (slot.end - slot.start))
        pieces = tuple((moment(a), moment(b)) for a, b in slot.pieces if a < b)
        return Step(
            task, moment(slot.start), moment(slot.work_end), moment(slot.end), pieces, slot.hand + 1, float(slack[task.key]),
            not_before, task.keeps_min is not None and until - slot.end > task.keeps_min,
        )  # fmt: skip

    kept = [(slot.work_end, begins.get(key, slot.end)) for key, slot in placed.items() if slot.task.place == "fridge"]
    level = most = 0
    for _, change in sorted([(a, 1) for a, b in kept if b > a] + [(b, -1) for a, b in kept if b > a]):
        level += change
        most = max(most, level)
    index = {task.key: number for number, task in enumerate(tasks)}
    order = sorted(placed.values(), key=lambda slot: (slot.start, index[slot.task.key]))
    last = max((slot.end for slot in order), default=0)
    buffers = math.fsum(task.wait_min for task in tasks if task.buffer)
    total = math.fsum(_minutes(task)[0] for task in tasks)
    return Timetable(ready, tuple(step(slot) for slot in order), total, buffers - last, most)


def _parts_of(spell: Sequence[Task], slot: _Slot) -> list[tuple[Task, _Slot]]:
    """Each task of a placed spell with its own part of it."""
    if len(spell) == 1:
        return [(spell[0], slot if slot.task is spell[0] else _Slot(spell[0], slot.pieces, slot.end, slot.hand))]
    parts = []
    start = slot.start
    for task in spell:
        end = start + _minutes(task)[0]
        parts.append((task, _Slot(task, ((start, end),), slot.end if task is spell[-1] else end, slot.hand)))
        start = end
    return parts


def _slack(slot: _Slot, latest: int, calendar: _Calendar) -> float:
    """How long the work of a slot may overrun if it must end by `latest` [min]."""
    if slot.task.any_hour or not slot.task.hands_min:
        return latest - slot.work_end
    first = max(0, calendar.window_at(slot.work_end))
    return sum(max(0, min(closes, latest) - max(opens, slot.work_end)) for opens, closes in calendar.windows[first : calendar.window_at(latest) + 1])
