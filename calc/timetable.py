"""Backwards from the hour the cake must be ready: what to begin when, and how much may go wrong.

Map
---
`Task`                     hands, then a wait, with what it needs first, where it waits and how long it keeps
`WorkingHours`, `read_hours`   when there are hands at the bench, by day of the week
`schedule`                 every task as late as it can be, backwards from the hour -> `Timetable` of `Step`s
`TierWork`, `RowWork`, `cake_tasks`   the usual tasks of a cake from its tiers, rows and buttercream
`cautions`                 what to say about temperature and keeping
`calendar_text`            the timetable as a calendar file (RFC 5545)

Times are whole minutes on the clock on the wall; there are no time zones. A night in which the clocks change is an hour
shorter or longer than reckoned.
"""

from __future__ import annotations

import datetime as dt
import math
import re
import zlib
from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc import units
from calc.buttercream import RECIPES
from calc.sources import constant
from calc.units import Problem

DAY_MIN = 1440
HORIZON_DAYS = 60
HORIZON_MIN = -HORIZON_DAYS * DAY_MIN
MOST_TASKS = 400
SHORTEST_PIECE_MIN = 15  # a task that is broken off at closing time is not cut into pieces shorter than this

BAKE_MIX_MIN = constant(25, "min", "common-practice", "weigh, mix and fill the tins of one tier")
BAKE_MIN = constant(35, "min", "common-practice", "in the oven, a tier of 15 cm in tins 5 cm deep", low=25, high=60)
BAKE_MIN_PER_CM = constant(1.5, "min/cm", "common-practice", "longer in the oven for each cm a tin is wider than 15 cm")
COOL_MIN = constant(120, "min", "common-practice", "until a sponge is cold enough to wrap or fill", low=60, high=180)
LEVEL_MIN_PER_LAYER = constant(4, "min", "common-practice", "level and split, for each layer")
FILL_MIN_PER_LAYER = constant(5, "min", "common-practice", "spread and stack, for each layer")
CHILL_SHORT_MIN = constant(30, "min", "common-practice", "in the fridge, until a filling or a crumb coat is firm", low=20, high=45)
CHILL_COAT_MIN = constant(60, "min", "common-practice", "in the fridge, until a final coat is hard enough to mark", low=45, high=120)
CRUMB_MIN_PER_DM2 = constant(1.2, "min/dm2", "common-practice", "crumb coat, by area coated, besides setting up")
FINAL_MIN_PER_DM2 = constant(2.4, "min/dm2", "common-practice", "final coat with a scraper and disc, by area coated, besides setting up")
SET_UP_MIN = constant(8, "min", "common-practice", "cake, turntable and bowls set up and cleared, for each coat")
MARK_MIN = constant(10, "min", "common-practice", "tape, divide and mark one tier")
STACK_MIN = constant(15, "min", "common-practice", "set supports and one tier on the one below")
BOARD_MIN = constant(15, "min", "common-practice", "clean or cover the boards and cut the supports")
BATCH_G = constant(2000, "g", "common-practice", "buttercream that a bench mixer takes at one time", low=1000, high=4000)
TINT_MIN = constant(6, "min", "common-practice", "tint one colour, besides the time it deepens")
BAG_MIN = constant(3, "min", "common-practice", "fit a tip and fill one bag")
DEEPEN_MIN = constant(60, "min", "common-practice", "a tint goes on deepening while it stands", low=30, high=240)
ROW_SET_UP_MIN = constant(3, "min", "common-practice", "take up the bag and try the line, for each row")
ROW_AROUND = constant(2.0, "-", "common-practice", "a row over its squeezing alone: turn, look, wipe, fill up, mend", low=1.5, high=3.0)
PACK_MIN = constant(15, "min", "common-practice", "box the cake and load it level")
SET_MIN = constant(30, "min", "common-practice", "in the fridge, until the piping is firm enough to move")
TEMPER_MIN = constant(
    60,
    "min",
    "common-practice",
    "out of the fridge before it is eaten, so that the buttercream softens",
    low=30,
    high=120,
)
OUT_MOST_MIN = constant(120, "min", "fsis-2-hour", "perishable food out of the fridge, in all; 60 min above 90 F (32 C)", group="measured")
SPONGE_KEEPS_MIN = constant(2 * DAY_MIN, "min", "common-practice", "baked sponge, wrapped and cool, until it is filled")
COATED_KEEPS_MIN = constant(
    3 * DAY_MIN,
    "min",
    "common-practice",
    "filled and coated cake in the fridge, until it is eaten",
    low=2 * DAY_MIN,
    high=4 * DAY_MIN,
)
PIPED_KEEPS_MIN = constant(
    2 * DAY_MIN,
    "min",
    "common-practice",
    "piped cake in the fridge, until it is eaten; strings and flowers dull sooner",
)
BAGS_KEEP_MIN = constant(1 * DAY_MIN, "min", "common-practice", "tinted buttercream in bags, in the fridge, until it is piped")

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
Window = tuple[int, int]


# --- what a timetable is made of --------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Task:
    """One thing to do: `hands_min` of work, then `wait_min` in which the work stands.

    `needs` are the keys of the tasks that come first. `place` is where it waits ("fridge", "oven", "room" or ""), and
    counts against the places given to `schedule`. An `attended` wait lies within working hours; work at `any_hour` need
    not, because whoever does it is there anyway. A task without work begins as soon as what it needs is done.
    `keeps_min` is the made-ahead limit: from the end of the wait to the first task that uses it (`keeps_until` "use")
    or to the hour the cake is ready ("ready"). `pausable` work may be broken off at closing time when no day is long
    enough for it. A `buffer` is time kept free against mishaps: its wait may be eaten up.
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


@dataclass(frozen=True)
class WorkingHours:
    """When there are hands at the bench: for each day of the week, Monday first, windows in minutes after midnight."""

    by_weekday: tuple[tuple[Window, ...], ...]

    def __post_init__(self) -> None:
        if len(self.by_weekday) != 7:
            raise ValueError("working hours are given for seven days")
        for windows in self.by_weekday:
            last = 0
            for start, end in windows:
                if not last <= start < end <= DAY_MIN:
                    raise ValueError("working hours of a day are windows in order, within the day")
                last = end
        if not any(self.by_weekday):
            raise ValueError("there are no working hours at all")

    @property
    def longest_min(self) -> int:
        """The longest window of the week [min]."""
        return max(end - start for windows in self.by_weekday for start, end in windows)

    @property
    def text(self) -> str:
        """The hours as words, days with the same hours together."""
        groups: list[tuple[list[int], tuple[Window, ...]]] = []
        for day, windows in enumerate(self.by_weekday):
            if groups and groups[-1][1] == windows:
                groups[-1][0].append(day)
            else:
                groups.append(([day], windows))
        said = []
        for days, windows in groups:
            name = "every day" if len(days) == 7 else WEEKDAYS[days[0]] if len(days) == 1 else f"{WEEKDAYS[days[0]]} to {WEEKDAYS[days[-1]]}"
            hours = " and ".join(f"{_clock(a)} to {_clock(b)}" for a, b in windows) or "closed"
            said.append(f"{name} {hours}")
        return "; ".join(said)


ALL_DAY = WorkingHours(((((0, DAY_MIN)),),) * 7)
USUAL_HOURS = WorkingHours((((9 * 60, 18 * 60),),) * 7)


@dataclass(frozen=True)
class Step:
    """One task with its place in the timetable.

    `pieces` are its stretches of work (usually one), `hand` counts the person from 1. `end` is when its wait is over at
    the earliest. `slack_min` is how long the work may overrun, within working hours, with all else as planned, before
    the ready hour is missed. `not_before` is the earliest it may begin by its made-ahead limit, and `stale` says that
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
    """All steps in the order they begin, with what they come to."""

    ready_at: dt.datetime
    steps: tuple[Step, ...]
    hands_min: float
    spare_min: float
    in_fridge: int  # most things in the fridge at one time, counting until the next step takes them out

    @property
    def start(self) -> dt.datetime:
        """When the first step begins."""
        return min((step.start for step in self.steps), default=self.ready_at)

    @property
    def days_before(self) -> int:
        """How many days before the ready hour's day the work begins [-]."""
        return (self.ready_at.date() - self.start.date()).days

    @property
    def stale(self) -> tuple[Step, ...]:
        """The steps done further ahead than they keep."""
        return tuple(step for step in self.steps if step.stale)

    def hands_by_day(self) -> tuple[tuple[dt.date, float], ...]:
        """Minutes of work on each day, in order [min]."""
        days: dict[dt.date, list[float]] = {}
        for step in self.steps:
            for start, end in step.pieces:
                days.setdefault(start.date(), []).append((end - start).total_seconds() / 60)
        return tuple((day, math.fsum(parts)) for day, parts in sorted(days.items()))


class NoRoom(ValueError):
    """A task for which working hours leave no room."""

    def __init__(self, task: Task, message: str) -> None:
        super().__init__(message)
        self.task = task


def _clock(minute: int) -> str:
    return f"{minute // 60:02d}:{minute % 60:02d}"


# --- reading working hours --------------------------------------------------------------------------------------------

_DAY_WORDS = {
    word: day
    for day, words in enumerate(
        (
            "mon monday mondays",
            "tue tues tuesday tuesdays",
            "wed weds wednesday wednesdays",
            "thu thur thurs thursday thursdays",
            "fri friday fridays",
            "sat saturday saturdays",
            "sun sunday sundays",
        )
    )
    for word in words.split()
}
_TIME = r"(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm)?"
_RANGE = re.compile(rf"\s*{_TIME}\s*(?:-|to|until)\s*{_TIME}\s*")
_DAYS = re.compile(r"\s*([a-z]+)\s*(?:(?:-|to)\s*([a-z]+)\b)?\s*:?\s*")
_HOURS_WAY = "Write it like 9:00 to 18:00, or Mon to Fri 18:00 to 22:00; Sat 8:00 to 18:00"


def read_hours(text: str, input_name: str, label: str) -> WorkingHours:
    """Read working hours: 9:00 to 18:00, or by days of the week, or a number of hours a day.

    Formula: none; a bare number of hours is counted from 9:00, or from as much earlier as it needs to end by midnight.

    Parameters
    ----------
    text : str
        What was typed [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]

    Returns
    -------
    WorkingHours
        Windows for each day of the week [min]

    Raises
    ------
    Problem
        It does not read as working hours.

    Range: up to 24 h a day, within each day. Leaves out: hours past midnight, and days of the month.

    Example
    -------
    >>> read_hours("9 to 17:30", "hours", "Working hours").text
    'every day 09:00 to 17:30'
    >>> read_hours("Mon-Fri 18-22; Sat 8am to 12, 13 to 6pm", "hours", "Working hours").by_weekday[5]
    ((480, 720), (780, 1080))
    >>> read_hours("6", "hours", "Working hours").text
    'every day 09:00 to 15:00'

    Source: common-practice
    """
    tidy = units.read_text(text, input_name, label).lower().replace("–", "-").replace("—", "-")
    if not tidy:
        raise Problem(input_name, f"{label} is empty. {_HOURS_WAY}")
    amount = re.fullmatch(r"(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:h|hr|hrs|hours?)?(?:\s*(?:a|per|each|every)\s*day)?", tidy)
    if amount:
        length = round(60 * float(amount[1].replace(",", ".")))
        if not 30 <= length <= DAY_MIN:
            raise Problem(input_name, f"{label} must be between 0.5 h and 24 h a day. {_HOURS_WAY}")
        start = max(0, min(9 * 60, DAY_MIN - length))
        return WorkingHours((((start, start + length),),) * 7)
    by_weekday: list[list[Window]] = [[] for _ in range(7)]
    days: Sequence[int] = range(7)
    waiting: list[int] = []  # "Mon, Wed, Fri 18-22": days named before the hours that hold for them too
    for part in (p for p in re.split(r"[;\n]|,|\band\b|&", tidy) if p.strip()):
        named = _DAYS.match(part)
        if named and (named[1] in _DAY_WORDS or named[1] in ("every", "daily", "weekdays", "weekend", "weekends")):
            days, rest = _days(named, part, input_name, label), part[named.end() :]
            if not rest.strip():
                waiting.extend(days)
                continue
            days, waiting = [*waiting, *days], []
            if rest.strip() in ("closed", "off", "none"):
                for day in days:
                    by_weekday[day].clear()
                continue
        else:
            rest = part
        found = _RANGE.fullmatch(rest)
        if not found:
            raise Problem(input_name, f"{label} has a part that does not read as hours: “{_short(part)}”. {_HOURS_WAY}")
        start, end = _minute(found, 1, input_name, label), _minute(found, 4, input_name, label)
        if found[3] is None and found[6] == "pm" and start + 720 < end:
            pass  # "9 to 6pm": nine in the morning
        if end == 0:
            end = DAY_MIN
        if end <= start:
            raise Problem(input_name, f"{label} must end after they begin: “{_short(part)}”. {_HOURS_WAY}")
        for day in days:
            by_weekday[day].append((start, end))
    if waiting:
        raise Problem(input_name, f"{label} name a day without hours: “{_short(tidy)}”. {_HOURS_WAY}")
    merged = tuple(_merged(windows) for windows in by_weekday)
    if not any(merged):
        raise Problem(input_name, f"{label} leave no hour to work in. {_HOURS_WAY}")
    return WorkingHours(merged)


def _short(text: str) -> str:
    flat = " ".join(text.split())
    return flat if len(flat) <= 30 else flat[:29] + "…"


def _days(named: re.Match[str], part: str, input_name: str, label: str) -> Sequence[int]:
    if named[1] in ("every", "daily"):
        return range(7)
    if named[1] == "weekdays":
        return range(5)
    if named[1].startswith("weekend"):
        return (5, 6)
    first = _DAY_WORDS[named[1]]
    if named[2] is None:
        return (first,)
    if named[2] not in _DAY_WORDS:
        raise Problem(input_name, f"{label} names a day that is not known: “{_short(part)}”. {_HOURS_WAY}")
    last = _DAY_WORDS[named[2]]
    return [(first + k) % 7 for k in range((last - first) % 7 + 1)]


def _minute(found: re.Match[str], group: int, input_name: str, label: str) -> int:
    hour, minute, half = int(found[group]), int(found[group + 1] or 0), found[group + 2]
    if hour > 24 or minute > 59 or (hour == 24 and minute) or (half and not 1 <= hour <= 12):
        raise Problem(input_name, f"{label} name an hour that does not exist. {_HOURS_WAY}")
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    return 60 * hour + minute


def _merged(windows: Iterable[Window]) -> tuple[Window, ...]:
    whole: list[Window] = []
    for start, end in sorted(windows):
        if whole and start <= whole[-1][1]:
            whole[-1] = (whole[-1][0], max(whole[-1][1], end))
        else:
            whole.append((start, end))
    return tuple(whole)


# --- backwards from the hour ------------------------------------------------------------------------------------------


@lru_cache(maxsize=16)
def _windows(weekday: int, minute: int, hours: WorkingHours) -> tuple[Window, ...]:
    """All working time before a minute of a weekday, in order, in minutes before it."""
    found: list[Window] = []
    for back in range(HORIZON_DAYS + 1):
        offset = -minute - back * DAY_MIN
        for start, end in reversed(hours.by_weekday[(weekday - back) % 7]):
            if offset + start < 0:
                found.append((offset + start, min(0, offset + end)))
    whole: list[Window] = []
    for start, end in reversed(found):  # windows that meet at midnight are one
        if whole and whole[-1][1] == start:
            whole[-1] = (whole[-1][0], end)
        else:
            whole.append((start, end))
    return tuple(whole)


class _Bench:
    """Free and busy time, in minutes before the ready hour (so all times are nothing or below)."""

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
        """None where a wait can begin at `start`, else the latest earlier minute worth trying."""
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
) -> Timetable:
    """Place every task as late as it can be, backwards from the hour the cake must be ready.

    Formula: a task ends by the earliest start of the tasks that need it; its work is one stretch within working hours
    in which a person is free (pieces, where no day is long enough), its wait follows at once and takes a place of its
    kind. Tasks are placed one by one from the end, under several rules of which goes first; the timetable that begins
    latest is kept.

    Parameters
    ----------
    ready_at : datetime
        The local hour by which all is done [-]
    tasks : sequence of Task
        What there is to do, in any order [-]
    hours : WorkingHours
        When there are hands at the bench [min]
    hands : int
        People who work at the same time [-]
    places : mapping of str to int
        How many tasks may wait at one time in a place; one left out has room for all. None means one in the oven [-]
    spare_min : float
        Time kept free before the ready hour, against mishaps [min]

    Returns
    -------
    Timetable
        Every task with its times and slack [min]

    Raises
    ------
    NoRoom
        Working hours leave no room for a task within 60 days.
    ValueError
        A task needs one that is not there, or two need each other.

    Range: up to 400 tasks and 60 days. Leaves out: moving time of day for daylight saving; a proof that no better order
    exists.

    Example
    -------
    >>> ready = dt.datetime(2027, 10, 16, 18, 0)
    >>> coat, pipe = Task("coat", "Coat", 30, 60, place="fridge"), Task("pipe", "Pipe", 90, needs=("coat",))
    >>> plan = schedule(ready, (coat, pipe), USUAL_HOURS)
    >>> [f"{step.task.name} {step.start:%H:%M}" for step in plan.steps], plan.hands_min
    (['Coat 15:00', 'Pipe 16:30'], 120.0)

    Source: common-practice
    """
    ready = ready_at.replace(second=0, microsecond=0, tzinfo=None)
    if hands < 1 or spare_min < 0 or len(tasks) > MOST_TASKS:
        raise ValueError(f"a timetable has one person or more, no less than no spare time, and up to {MOST_TASKS} tasks")
    limits = {"oven": 1} if places is None else dict(places)
    if any(limit < 1 for limit in limits.values()):
        raise ValueError("a place has room for one or more")
    return _scheduled(ready, tuple(tasks), hours, hands, tuple(limits.items()), math.ceil(spare_min))


@lru_cache(maxsize=32)
def _scheduled(
    ready: dt.datetime, tasks: tuple[Task, ...], hours: WorkingHours, hands: int, places: tuple[tuple[str, int], ...], spare_min: int
) -> Timetable:
    """The timetable of `schedule`; kept, because most edits of an order leave the work as it is."""
    limits = dict(places)
    chain = _Chain(tasks)
    last: NoRoom | None = None
    best: dict[str, tuple[list[Window], int, int, int]] | None = None
    best_key: tuple[int, int] | None = None
    for rule in range(3):
        try:
            placed = _place(ready, chain, hours, hands, limits, spare_min, rule)
        except NoRoom as trouble:
            last = trouble
            continue
        key = (min((p[1] for p in placed.values()), default=0), sum(p[1] for p in placed.values()))
        if best_key is None or key > best_key:
            best, best_key = placed, key
    if best is None:
        assert last is not None
        raise last
    return _timetable(ready, chain, best, hours, limits)


class _Chain:
    """The tasks with what comes after each, checked."""

    def __init__(self, tasks: Sequence[Task]) -> None:
        self.by_key = {task.key: task for task in tasks}
        if len(self.by_key) != len(tasks):
            raise ValueError("two tasks have the same key")
        self.after: dict[str, list[str]] = {task.key: [] for task in tasks}
        for task in tasks:
            if task.hands_min < 0 or task.wait_min < 0 or not math.isfinite(task.hands_min + task.wait_min):
                raise ValueError(f"{task.name} takes less than no time")
            for need in task.needs:
                if need not in self.by_key:
                    raise ValueError(f"{task.name} needs {need}, which is not there")
                self.after[need].append(task.key)
        self.order = {task.key: index for index, task in enumerate(tasks)}
        # head: how long the longest run of tasks up to and with this one takes
        self.head: dict[str, float] = {}
        waiting = {task.key: len(set(task.needs)) for task in tasks}
        ready = [task.key for task in tasks if not task.needs]
        self.sequence: list[str] = []  # by need: what comes first stands first
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
    ready: dt.datetime, chain: _Chain, hours: WorkingHours, hands: int, places: Mapping[str, int], spare: int, rule: int
) -> dict[str, tuple[list[Window], int, int, int]]:
    """Pieces of work, start, end of the wait and person for each task, in minutes before the ready hour."""
    bench = _Bench(ready, hours, hands, places)
    placed: dict[str, tuple[list[Window], int, int, int]] = {}
    open_after = {key: len(set(after)) for key, after in chain.after.items()}
    deadline = dict.fromkeys(chain.by_key, -spare)
    candidates = [key for key, count in open_after.items() if count == 0]

    def first(key: str) -> tuple[float, ...]:
        latest = deadline[key] - chain.by_key[key].wait_min  # when its work must be over
        if rule == 0:
            return (latest, chain.head[key], chain.order[key])
        if rule == 1:
            return (chain.head[key], latest, chain.order[key])
        return (chain.order[key],)

    while candidates:
        key = max(candidates, key=first)
        candidates.remove(key)
        task = chain.by_key[key]
        placed[key] = found = _latest(bench, task, deadline[key])
        for need in set(task.needs):
            deadline[need] = min(deadline[need], found[1])
            open_after[need] -= 1
            if open_after[need] == 0:
                candidates.append(need)
    return placed


def _minutes(task: Task) -> Window:
    """Whole minutes of work and of wait."""
    return math.ceil(task.hands_min - 1e-9), math.ceil(task.wait_min - 1e-9)


def _latest(bench: _Bench, task: Task, deadline: int) -> tuple[list[Window], int, int, int]:
    """Place one task as late as its deadline allows, and mark the time as taken."""
    length, wait = _minutes(task)
    if not task.pausable and not task.any_hour and length > bench.longest:
        raise NoRoom(task, f"{task.name} takes {length} min in one go, and the longest working day has {bench.longest} min")
    if task.attended and wait > bench.longest:
        raise NoRoom(task, f"{task.name} must be watched for {wait} min, and the longest working day has {bench.longest} min")
    found = _find(bench, task, length, wait, deadline - wait)
    if found is None:
        raise NoRoom(task, f"{task.name} finds no room within {HORIZON_DAYS} days")
    pieces, hand = found
    end = pieces[-1][1]
    if length:
        bench.busy[hand] = sorted(bench.busy[hand] + pieces)
    if wait and task.place:
        bench.filled.setdefault(task.place, []).append((end, end + wait))
    return pieces, pieces[0][0], end + wait, hand


def _find(bench: _Bench, task: Task, length: int, wait: int, limit: int) -> tuple[list[Window], int] | None:
    """The latest pieces of work that end by a limit and leave room for the wait, with whose they are."""
    while limit >= HORIZON_MIN:
        hand, pieces = 0, [(limit, limit)]
        if length:
            found: list[Window] | None = None
            for person in range(len(bench.busy)):
                tried = bench.work(person, length, limit, found[0][0] if found else HORIZON_MIN, task.any_hour)
                if tried and (found is None or tried[0][0] > found[0][0]):
                    found, hand = tried, person
            if found is None:
                return None
            pieces = found
        earlier = bench.room_for_wait(task, pieces[-1][1], wait) if wait else None
        if earlier is None:
            return pieces, hand
        limit = earlier
    return None


@dataclass
class _Placed:
    """One task while the steps are made up: minutes before the ready hour."""

    task: Task
    pieces: list[Window]
    start: int
    end: int
    hand: int

    @property
    def work_end(self) -> int:
        return self.pieces[-1][1]


def _followed_up(chain: _Chain, found: Mapping[str, tuple[list[Window], int, int, int]], places: Mapping[str, int]) -> dict[str, _Placed]:
    """The placed tasks, first to last by need; those without work begin as soon as what they need is done."""
    placed: dict[str, _Placed] = {}
    for key in chain.sequence:
        task = chain.by_key[key]
        pieces, start, end, hand = found[key]
        if start == pieces[-1][1] and task.needs and task.place not in places:
            earliest = max(placed[need].end for need in task.needs)
            pieces, start, end = [(earliest, earliest)], earliest, earliest + end - start
        placed[key] = _Placed(task, pieces, start, end, hand)
    return placed


def _latest_work_ends(chain: _Chain, placed: Mapping[str, _Placed], bench: _Bench, places: Mapping[str, int]) -> dict[str, int]:
    """The latest minute at which each task's work may end, the order of the work kept and buffers eaten up.

    `bench` is empty: what keeps two tasks of one person apart is their order.
    """
    index = {key: number for number, key in enumerate(chain.sequence)}
    order = sorted(placed, key=lambda key: (placed[key].start, index[key]), reverse=True)
    latest_start: dict[str, int] = {}
    latest_end: dict[str, int] = {}
    next_of_hand: dict[int, str] = {}
    for key in order:
        item = placed[key]
        length, wait = _minutes(item.task)
        if item.task.buffer:
            wait = 0
        until = min((latest_start[after] for after in chain.after[key]), default=0)
        if item.task.place in places:
            until = min([until] + [latest_end[k] for k in latest_end if placed[k].task.place == item.task.place and placed[k].work_end >= item.end])
        limit = until - wait
        if length and item.hand in next_of_hand:
            limit = min(limit, latest_start[next_of_hand[item.hand]])
        found = _find(bench, item.task, length, wait, limit)
        pieces = found[0] if found else item.pieces
        latest_start[key], latest_end[key] = max(pieces[0][0], item.start), max(pieces[-1][1], item.work_end)
        if length:
            next_of_hand[item.hand] = key
    return latest_end


def _timetable(
    ready: dt.datetime,
    chain: _Chain,
    found: Mapping[str, tuple[list[Window], int, int, int]],
    hours: WorkingHours,
    places: Mapping[str, int],
) -> Timetable:
    bench = _Bench(ready, hours, 1, {})
    placed = _followed_up(chain, found, places)
    latest = _latest_work_ends(chain, placed, bench, places)

    def moment(minute: int) -> dt.datetime:
        return ready + dt.timedelta(minutes=minute)

    def step(item: _Placed) -> Step:
        task = item.task
        until = min((placed[after].start for after in chain.after[task.key]), default=0)
        until = until if task.keeps_until == "use" else 0
        if task.any_hour or not task.hands_min:
            slack = latest[task.key] - item.work_end
        else:
            first = max(0, bench.window_at(item.work_end))
            slack = sum(
                max(0, min(closes, latest[task.key]) - max(opens, item.work_end))
                for opens, closes in bench.windows[first : bench.window_at(latest[task.key]) + 1]
            )
        not_before = None
        if task.keeps_min is not None:
            not_before = moment(until - math.floor(task.keeps_min) - (item.end - item.start))
        pieces = tuple((moment(a), moment(b)) for a, b in item.pieces if a < b)
        return Step(
            task, moment(item.start), moment(item.work_end), moment(item.end), pieces, item.hand + 1, float(slack),
            not_before, task.keeps_min is not None and until - item.end > task.keeps_min,
        )  # fmt: skip

    kept = [
        (item.work_end, min((placed[after].start for after in chain.after[key]), default=item.end))
        for key, item in placed.items()
        if item.task.place == "fridge"
    ]
    level = most = 0
    for _, change in sorted([(a, 1) for a, b in kept if b > a] + [(b, -1) for a, b in kept if b > a]):
        level += change
        most = max(most, level)
    order = sorted(placed.values(), key=lambda item: (item.start, chain.order[item.task.key]))
    last = max((item.end for item in order), default=0)
    buffers = math.fsum(task.wait_min for task in chain.by_key.values() if task.buffer)
    total = math.fsum(_minutes(task)[0] for task in chain.by_key.values())
    return Timetable(ready, tuple(step(item) for item in order), total, buffers - last, most)


# --- the tasks of a cake ----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class TierWork:
    """One tier as the timetable sees it: sponge width and height, and its layers."""

    name: str
    width_mm: float
    height_mm: float
    layers: int = 3


@dataclass(frozen=True)
class RowWork:
    """One row as the timetable sees it: its name, its tier (counted from 0, the lowest) and its minutes.

    The minutes are those in which the bag is squeezed, as `calc.rows` gives them, or of everything when `all_in`.
    """

    name: str
    tier: int
    time_min: float
    all_in: bool = False


def _five(time_min: float) -> float:
    """A time as a bench writes it: up to the next five minutes."""
    return float(5 * math.ceil(time_min / 5 - 1e-9))


def coated_area_dm2(tier: TierWork) -> float:
    """Give the area that a coat covers, side and top, taking the tier as round.

    Formula: area = pi d h + pi d^2 / 4.

    Parameters
    ----------
    tier : TierWork
        Width d and height h of a tier [mm]

    Returns
    -------
    float
        Area of side and top [dm2]

    Raises
    ------
    ValueError
        A size is not above nothing.

    Range: any tier; for times only. Leaves out: other outlines, which differ by a few minutes.

    Example
    -------
    >>> round(coated_area_dm2(TierWork("upper", 150, 100)), 2)
    6.48

    Source: geometry
    """
    if tier.width_mm <= 0 or tier.height_mm <= 0:
        raise ValueError("a tier has a width and a height above nothing")
    return math.pi * tier.width_mm * (tier.height_mm + tier.width_mm / 4) / 1e4


def cake_tasks(
    tiers: Sequence[TierWork],
    rows: Sequence[RowWork] = (),
    buttercream_g: float = 0.0,
    recipe: str = "plain",
    colours: int = 1,
    bags: int = 0,
    bake: bool = True,
    travel_min: float = 0.0,
    stack_first: bool = True,
    buttercream_keeps_min: float | None = None,
    temper_min: float = TEMPER_MIN,
    spare_min: float = 0.0,
) -> tuple[Task, ...]:
    """List the usual tasks of a cake: bake, cool, fill, coat, stack, mark, tint, pipe, set, bring out.

    Formula: minutes = set-up + minutes per dm2 x area for a coat, minutes per layer for filling, batches = mass / 2 kg
    for buttercream, twice the squeezing of a row and 3 minutes to take up the bag; all rounded up to five minutes.

    Parameters
    ----------
    tiers : sequence of TierWork
        Tiers from the lowest up [mm]
    rows : sequence of RowWork
        Rows in the order they are piped [min]
    buttercream_g : float
        All the buttercream [g]
    recipe : str
        A key of `calc.buttercream.RECIPES`: how long it takes and how long it keeps [-]
    colours : int
        Colours to tint [-]
    bags : int
        Bags to fill; nothing counts one for each row [-]
    bake : bool
        Bake the sponges, or buy them [-]
    travel_min : float
        Time on the road, nothing when the cake stays [min]
    stack_first : bool
        Stack before piping; otherwise each tier is piped alone and stacked after [-]
    buttercream_keeps_min : float
        How long the buttercream keeps in the fridge before use; None takes the recipe's own [min]
    temper_min : float
        How long the cake stands out of the fridge before it is eaten [min]
    spare_min : float
        Time kept free against mishaps, the finished cake in the fridge [min]

    Returns
    -------
    tuple of Task
        Tasks with their needs, for `schedule` [min]

    Raises
    ------
    ValueError
        There is no tier, a row names one that is not there, or the recipe is not known.

    Range: any cake of one tier or more. Leaves out: a hand's own speed; replace the minutes with your own.

    Example
    -------
    >>> tasks = cake_tasks((TierWork("cake", 150, 100),), (RowWork("shells", 0, 12),), 900)
    >>> [task.name for task in tasks][:3], math.fsum(task.hands_min for task in tasks)
    (['Bake: cake', 'Cool: cake', 'Boards and supports'], 205.0)

    Source: common-practice, fsis-2-hour
    """
    if not tiers:
        raise ValueError("a cake has one tier or more")
    if recipe not in RECIPES:
        raise ValueError(f"buttercream is one of {', '.join(RECIPES)}")
    if any(not 0 <= row.tier < len(tiers) for row in rows):
        raise ValueError("a row is on a tier that is not there")
    tasks: list[Task] = []
    for i, tier in enumerate(tiers):
        if bake:
            tasks.extend(_baking(i, tier))
    tasks.append(Task("boards", "Boards and supports", _five(BOARD_MIN + 5 * (len(tiers) - 1))))
    tasks.append(_buttercream(recipe, buttercream_g, buttercream_keeps_min))
    for i, tier in enumerate(tiers):
        tasks.extend(_coating(i, tier, bake))
    stacked = len(tiers) > 1
    before_stack = tuple(f"coat{i}" for i in range(len(tiers)))
    if stacked and stack_first:
        tasks.append(_stacking(len(tiers), before_stack))
    if rows:
        tasks.extend(_bags(max(1, colours), bags or len(rows)))
    last = {i: "stack" if stacked and stack_first else f"coat{i}" for i in range(len(tiers))}
    for i, tier in enumerate(tiers):
        if any(row.tier == i for row in rows):
            name = f"Tape, divide and mark: {tier.name}"
            tasks.append(Task(f"mark{i}", name, _five(MARK_MIN), needs=(last[i],), tier=tier.name))
            last[i] = f"mark{i}"
    previous = ""
    for k, row in enumerate(rows):
        needs = [last[row.tier], "bags"]
        if stacked and stack_first and previous:  # one cake on one turntable: row after row
            needs.append(previous)
        name = f"Pipe: {row.name}"
        minutes = row.time_min if row.all_in else ROW_AROUND * row.time_min + ROW_SET_UP_MIN
        tasks.append(Task(f"row{k}", name, _five(max(1.0, minutes)), needs=tuple(dict.fromkeys(needs)), tier=tiers[row.tier].name))
        previous = last[row.tier] = f"row{k}"
    done = tuple(dict.fromkeys(last.values()))
    if stacked and not stack_first:
        tasks.append(_stacking(len(tiers), done))
        done = ("stack",)
    tasks.extend(_finish(done, travel_min, temper_min, spare_min))
    return tuple(tasks)


def _baking(i: int, tier: TierWork) -> tuple[Task, Task]:
    wider_cm = max(0.0, (tier.width_mm - 150) / 10)
    note = "Wrap it once it is cold. Frozen and well wrapped it keeps for weeks."
    return (
        Task(f"bake{i}", f"Bake: {tier.name}", _five(BAKE_MIX_MIN), _five(BAKE_MIN + BAKE_MIN_PER_CM * wider_cm),
             place="oven", attended=True, pausable=False, tier=tier.name, note="Turn out after 10 minutes on a rack."),
        Task(f"cool{i}", f"Cool: {tier.name}", 0, COOL_MIN, (f"bake{i}",), "room", keeps_min=SPONGE_KEEPS_MIN,
             tier=tier.name, note=note),
    )  # fmt: skip


def _buttercream(recipe: str, mass_g: float, keeps_min: float | None) -> Task:
    made = RECIPES[recipe]
    batches = max(1, math.ceil(mass_g / BATCH_G - 1e-9))
    name = "Make the buttercream" + (f", {batches} batches" if batches > 1 else "")
    keeps = made.keeping.fridge_days * DAY_MIN if keeps_min is None else keeps_min
    return Task("buttercream", name, _five(batches * made.hands_min), made.wait_min,
                place="room" if made.wait_min else "", keeps_min=keeps, note=made.keeping.note)  # fmt: skip


def _coating(i: int, tier: TierWork, bake: bool) -> tuple[Task, Task, Task]:
    area = coated_area_dm2(tier)
    sponge = (f"cool{i}",) if bake else ()
    fill = _five((LEVEL_MIN_PER_LAYER + FILL_MIN_PER_LAYER) * tier.layers)
    crumb = _five(SET_UP_MIN + CRUMB_MIN_PER_DM2 * area)
    final = _five(SET_UP_MIN + FINAL_MIN_PER_DM2 * area)
    return (
        Task(f"fill{i}", f"Level, fill and build: {tier.name}", fill, CHILL_SHORT_MIN,
             (*sponge, "buttercream", "boards"), "fridge", tier=tier.name),
        Task(f"crumb{i}", f"Crumb coat: {tier.name}", crumb, CHILL_SHORT_MIN, (f"fill{i}",), "fridge", tier=tier.name),
        Task(f"coat{i}", f"Final coat: {tier.name}", final, CHILL_COAT_MIN, (f"crumb{i}",), "fridge",
             keeps_min=COATED_KEEPS_MIN, keeps_until="ready", tier=tier.name),
    )  # fmt: skip


def _stacking(tiers: int, needs: tuple[str, ...]) -> Task:
    return Task("stack", "Stack the tiers", _five(STACK_MIN * (tiers - 1)), needs=needs, pausable=False,
                note="Two people for a lift that one cannot hold steady at arm's length.")  # fmt: skip


def _bags(colours: int, bags: int) -> tuple[Task, Task]:
    return (
        Task("tint", f"Tint {colours} colour{'s' if colours > 1 else ''}", _five(TINT_MIN * colours), DEEPEN_MIN,
             ("buttercream",), "room", note="Tints go on deepening: look again before you fill the bags."),
        Task("bags", f"Fit tips, fill {bags} bag{'s' if bags > 1 else ''}", _five(BAG_MIN * bags), needs=("tint",),
             keeps_min=BAGS_KEEP_MIN),
    )  # fmt: skip


def _finish(done: tuple[str, ...], travel_min: float, temper_min: float, spare_min: float) -> list[Task]:
    tasks = [Task("set", "Look it over, mend, chill until set", 10, SET_MIN, done, "fridge",
                  keeps_min=PIPED_KEEPS_MIN, keeps_until="ready")]  # fmt: skip
    if spare_min > 0:
        tasks.append(Task("spare", "Kept free against mishaps", 0, spare_min, ("set",), "fridge", buffer=True))
    if travel_min > 0:
        tasks.append(Task("pack", "Box and load", _five(PACK_MIN), needs=(tasks[-1].key,), pausable=False, any_hour=True))
        tasks.append(
            Task("travel", "On the road", _five(travel_min), needs=("pack",), pausable=False, any_hour=True, note="Level, cool and out of the sun.")
        )
    name = "Set it up and let it soften" if travel_min > 0 else "Out of the fridge to soften"
    tasks.append(Task("out", name, 5, temper_min, (tasks[-1].key,), "room", any_hour=True))
    return tasks


def cautions(recipe: str = "plain", temper_min: float = TEMPER_MIN, travel_min: float = 0.0, unit_system: str = "metric") -> tuple[str, ...]:
    """Give the usual cautions about temperature and keeping that belong beside a timetable.

    Formula: time out of the fridge = travel + softening, against two hours.

    Parameters
    ----------
    recipe : str
        A key of `calc.buttercream.RECIPES` [-]
    temper_min : float
        How long the cake stands out before it is eaten [min]
    travel_min : float
        Time on the road without cooling [min]
    unit_system : str
        "metric" or "us": which of the two printed figures stands first [-]

    Returns
    -------
    tuple of str
        Sentences to show where the risk is [-]

    Raises
    ------
    KeyError
        The recipe is not known.

    Range: the usual advice to home kitchens in the US and England. Leaves out: your own rules, which come first.

    Example
    -------
    >>> any("2 hours" in text for text in cautions("plain", temper_min=150))
    True

    Source: fsis-2-hour, food-code, si-2013-2996, egg-advice
    """
    egg = any(kind.startswith("egg") for kind in RECIPES[recipe].cautions)
    say = units.Say(unit_system)
    cold, hot, cooked = say.temperature(5, 41), say.temperature(32, 90), say.temperature(71, 160)
    said = [
        f"Made-ahead limits here are common practice, not a safety rule. Keep a filled or coated cake at {cold} "
        "or less; England allows food premises up to 8 °C. Your local food authority's rules come first."
    ]
    out = temper_min + travel_min
    if out > OUT_MOST_MIN:
        said.append(
            f"The cake is out of the fridge for {say.duration(out)} before it is eaten. The usual advice for "
            f"perishable food is 2 hours at most, 1 hour above {hot}. Keep it cool on the road or bring it out "
            "later."
        )
    else:
        said.append(
            f"Out of the fridge, the usual advice for perishable food is 2 hours at most in all, 1 hour above {hot}: "
            "count the road, the softening and the table."
        )
    if egg:
        said.append(
            f"Heat the egg whites to {cooked} or use pasteurised whites; raw egg is a risk to the very young, the old, the pregnant and the ill."
        )
    return tuple(said)


# --- a calendar file --------------------------------------------------------------------------------------------------

_DROPPED = {c: None for c in [*range(10), *range(11, 32), 127]}


def _plain(text: str) -> str:
    """Words as a calendar may hold them (RFC 5545, 3.3.11): no control characters but the new line, no half characters."""
    tidy = text.replace("\r\n", "\n").replace("\r", "\n").translate(_DROPPED)
    return tidy.encode("utf-8", "replace").decode("utf-8")


def calendar_text(timetable: Timetable, title: str = "Cake", stamp: dt.datetime | None = None) -> str:
    """Write a timetable as a calendar file: one event for each stretch of work, one for the ready hour.

    Formula: none; the `icalendar` package writes the lines of RFC 5545, its sections 3.1 (lines and folding), 3.3.11 (text) and 3.6.1
    (events), with times in local form without a zone. It is imported here and not before: in a page it is fetched when a file is saved.

    Parameters
    ----------
    timetable : Timetable
        What `schedule` gives [-]
    title : str
        Name of the calendar and of the ready event [-]
    stamp : datetime
        When it was made, UTC; None takes the hour the work begins, so that the same plan gives the same file [-]

    Returns
    -------
    str
        The file's text, lines ended by CR LF [-]

    Raises
    ------
    ValueError
        Never for a timetable that `schedule` made.

    Range: any timetable. Leaves out: time zones, alarms and repeated events.

    Example
    -------
    >>> plan = schedule(dt.datetime(2027, 10, 16, 18), (Task("pipe", "Pipe; then rest", 90),))
    >>> [line for line in calendar_text(plan).split("\\r\\n") if line.startswith(("DTSTART", "SUMMARY"))]
    ['SUMMARY:Pipe\\\\; then rest', 'DTSTART:20271016T163000', 'SUMMARY:Cake: ready', 'DTSTART:20271016T180000']

    Source: rfc-5545
    """
    import icalendar

    made = (stamp or timetable.start).replace(tzinfo=dt.UTC)
    of = f"{timetable.ready_at:%Y%m%dT%H%M}-{zlib.crc32(title.encode('utf-8', 'replace')):08x}"
    calendar = icalendar.Calendar()
    for name, value in (("VERSION", "2.0"), ("PRODID", "-//Piping Bench//Timetable//EN"), ("CALSCALE", "GREGORIAN"), ("METHOD", "PUBLISH")):
        calendar.add(name, value)
    calendar.add("X-WR-CALNAME", icalendar.vText(_plain(title)))

    def event(key: str, start: dt.datetime, end: dt.datetime, summary: str, description: str, busy: bool = True) -> None:
        added = icalendar.Event()
        added.add("UID", f"{key}-{of}@piping-bench")
        added.add("DTSTAMP", made)
        added.add("DTSTART", start)
        added.add("DTEND", end)
        added.add("SUMMARY", _plain(summary))
        if description:
            added.add("DESCRIPTION", _plain(description))
        if not busy:
            added.add("TRANSP", "TRANSPARENT")
        calendar.add_component(added)

    say = units.Say()
    for step in timetable.steps:
        words = []
        if step.task.wait_min:
            words.append(f"Then {say.duration(step.task.wait_min)}{_where(step.task.place)}.")
        if step.slack_min >= 1:
            words.append(f"May overrun by {say.duration(step.slack_min)}.")
        if step.task.note:
            words.append(step.task.note)
        for number, (start, end) in enumerate(step.pieces, 1):
            more = f" ({number} of {len(step.pieces)})" if len(step.pieces) > 1 else ""
            event(f"{step.task.key}-{number}", start, end, step.task.name + more, " ".join(words))
        if not step.pieces and step.end > step.start:  # nothing to do but wait
            event(step.task.key, step.start, step.end, step.task.name, " ".join(words[1:]), busy=False)
    event("ready", timetable.ready_at, timetable.ready_at + dt.timedelta(minutes=15), f"{title}: ready", "")
    written: bytes = calendar.to_ical()
    return written.decode("utf-8")


def _where(place: str) -> str:
    return {"fridge": " in the fridge", "oven": " in the oven", "room": " standing"}.get(place, " waiting")
