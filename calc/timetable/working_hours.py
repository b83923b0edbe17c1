"""When people work, by day of the week, and how that is read from text. It may import `units`.

Map
---
`WorkingHours`            windows of work for each day of the week
`USUAL_HOURS`             nine to six every day
`read_hours`              "9 to 17:30", "Mon-Fri 18-22; Sat 8-12" or "6 h" -> WorkingHours
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc import units
from calc.timetable.tasks import DAY_MIN, Window
from calc.units import Formatter, Problem, excerpt

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


@dataclass(frozen=True)
class WorkingHours:
    """When people work: for each day of the week, Monday first, windows in minutes after midnight."""

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
        """The hours in words, days in a row with the same hours together."""
        return self.words(Formatter())

    def words(self, say: Formatter) -> str:
        """The hours in words, on the clock of the reader's region."""
        groups: list[tuple[list[int], tuple[Window, ...]]] = []
        for day, windows in enumerate(self.by_weekday):
            if groups and groups[-1][1] == windows:
                groups[-1][0].append(day)
            else:
                groups.append(([day], windows))
        phrases = []
        for days, windows in groups:
            name = "every day" if len(days) == 7 else WEEKDAYS[days[0]] if len(days) == 1 else f"{WEEKDAYS[days[0]]} to {WEEKDAYS[days[-1]]}"
            hours = " and ".join(f"{_clock(a, say)} to {_clock(b, say)}" for a, b in windows) or "closed"
            phrases.append(f"{name} {hours}")
        return "; ".join(phrases)


USUAL_HOURS = WorkingHours((((9 * 60, 18 * 60),),) * 7)


def _clock(minute: int, say: Formatter) -> str:
    """Minutes after midnight as hours and minutes."""
    if minute == DAY_MIN:
        return "midnight" if say.units == "us" else "24:00"
    return say.clock(dt.time(minute // 60, minute % 60))


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
_GROUPS_OF_DAYS = {"every": range(7), "daily": range(7), "weekdays": range(5), "weekend": range(5, 7), "weekends": range(5, 7)}
_TIME = r"(\d{1,2})(?:[:.h](\d{2}))?\s*(am|pm)?"
_RANGE = re.compile(rf"\s*{_TIME}\s*(?:-|to|until)\s*{_TIME}\s*")
_DAYS = re.compile(r"\s*([a-z]+)\s*(?:(?:-|to)\s*([a-z]+)\b)?\s*:?\s*")
NOON_MIN = 12 * 60
_HOW_TO_WRITE = "Write it like 9:00 to 18:00, 9 am to 6 pm, or Mon to Fri 18:00 to 22:00; Sat 8:00 to 18:00"


def read_hours(text: str, input_name: str, label: str) -> WorkingHours:
    """Read working hours: 9:00 to 18:00, or by days of the week, or a number of hours a day.

    A bare number of hours is counted from 9:00, or from earlier where it would otherwise run past midnight.

    >>> read_hours("9 to 17:30", "hours", "Working hours").text
    'every day 09:00 to 17:30'
    >>> read_hours("Mon-Fri 18-22; Sat 8am to 12, 13 to 6pm", "hours", "Working hours").by_weekday[5]
    ((480, 720), (780, 1080))
    >>> read_hours("9-6", "hours", "Working hours").text
    'every day 09:00 to 18:00'
    >>> read_hours("9-12, 1-6", "hours", "Working hours").text
    'every day 09:00 to 12:00 and 13:00 to 18:00'
    >>> read_hours("6", "hours", "Working hours").text
    'every day 09:00 to 15:00'
    """
    tidy = units.read_text(text, input_name, label).lower().replace("–", "-").replace("—", "-")
    tidy = re.sub(r"\b([ap])\.\s?m\.?(?!\w)", r"\1m", tidy)
    if not tidy:
        raise Problem(input_name, f"{label} is empty. {_HOW_TO_WRITE}")
    amount = re.fullmatch(r"(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:h|hr|hrs|hours?)?(?:\s*(?:a|per|each|every)\s*day)?", tidy)
    if amount:
        return _hours_a_day(float(amount[1].replace(",", ".")), input_name, label)
    tidy = re.sub(r"\bevery\s?day\b", "daily", tidy)
    by_weekday: list[list[Window]] = [[] for _ in range(7)]
    days: Sequence[int] = range(7)
    waiting: list[int] = []  # "Mon, Wed, Fri 18-22": days named before the hours that apply to them too
    for part in (p for p in re.split(r"[;\n]|,|\band\b|&", tidy) if p.strip()):
        named = _DAYS.match(part)
        rest = part
        if named and (named[1] in _DAY_WORDS or named[1] in _GROUPS_OF_DAYS):
            days, rest = _days(named, part, input_name, label), part[named.end() :]
            if not rest.strip():
                waiting.extend(days)
                continue
            days, waiting = [*waiting, *days], []
            if rest.strip() in ("closed", "off", "none"):
                for day in days:
                    by_weekday[day].clear()
                continue
        window = _window(rest, part, input_name, label)
        before = by_weekday[days[0]]
        is_later = before and rest is part and before[-1][1] <= window[0] + NOON_MIN and window[1] <= before[-1][0]
        if is_later and window[1] + NOON_MIN <= DAY_MIN and not re.search(r"[ap]m", rest):
            window = (window[0] + NOON_MIN, window[1] + NOON_MIN)  # 9-12, 1-6: what comes after noon is in the afternoon
        for day in days:
            by_weekday[day].append(window)
    if waiting:
        raise Problem(input_name, f"{label} name a day without hours: “{excerpt(tidy)}”. {_HOW_TO_WRITE}")
    merged = tuple(_merged(windows) for windows in by_weekday)
    if not any(merged):
        raise Problem(input_name, f"{label} leave no hour to work in. {_HOW_TO_WRITE}")
    return WorkingHours(merged)


def _hours_a_day(hours: float, input_name: str, label: str) -> WorkingHours:
    """The same number of hours every day, from nine or as much earlier as it takes to end by midnight."""
    length = round(60 * hours)
    if not 30 <= length <= DAY_MIN:
        raise Problem(input_name, f"{label} must be between 0.5 h and 24 h a day. {_HOW_TO_WRITE}")
    start = max(0, min(9 * 60, DAY_MIN - length))
    return WorkingHours((((start, start + length),),) * 7)


def _window(text: str, part: str, input_name: str, label: str) -> Window:
    """Read one stretch of hours, such as 9 to 17:30; `part` is what a message quotes."""
    found = _RANGE.fullmatch(text)
    if not found:
        raise Problem(input_name, f"{label} has a part that does not read as hours: “{excerpt(part)}”. {_HOW_TO_WRITE}")
    start, end = _minute(found, 1, input_name, label), _minute(found, 4, input_name, label)
    if end == 0:
        end = DAY_MIN
    if end < start <= NOON_MIN and not found[6]:  # 9-6 is nine in the morning to six in the evening
        end += NOON_MIN
    if found[6] == "pm" and not found[3] and start < NOON_MIN and start + NOON_MIN < end:  # 2-6 pm, but also 9-11 pm
        first, second, last = (Formatter("us").clock(dt.time(minute // 60 % 24, minute % 60)) for minute in (start, start + NOON_MIN, end))
        if start >= 6 * 60:
            way = f"Write {first} to {last} or {second} to {last}"
            raise Problem(input_name, f"{label}: “{excerpt(part)}” could begin in the morning or the evening. {way}")
        start += NOON_MIN
    if end <= start:
        raise Problem(input_name, f"{label} must end after they begin: “{excerpt(part)}”. {_HOW_TO_WRITE}")
    return start, end


def _days(named: re.Match[str], part: str, input_name: str, label: str) -> Sequence[int]:
    """The weekdays that a match of `_DAYS` names, Monday 0; a range may run over the end of the week."""
    if named[1] in _GROUPS_OF_DAYS:
        return _GROUPS_OF_DAYS[named[1]]
    first = _DAY_WORDS[named[1]]
    if named[2] is None:
        return (first,)
    if named[2] not in _DAY_WORDS:
        raise Problem(input_name, f"{label} names a day that is not known: “{excerpt(part)}”. {_HOW_TO_WRITE}")
    last = _DAY_WORDS[named[2]]
    return [(first + k) % 7 for k in range((last - first) % 7 + 1)]


def _minute(found: re.Match[str], group: int, input_name: str, label: str) -> int:
    """Minutes after midnight of one of the two times that a match of `_RANGE` holds."""
    hour, minute, half = int(found[group]), int(found[group + 1] or 0), found[group + 2]
    if hour > 24 or minute > 59 or (hour == 24 and minute) or (half and not 1 <= hour <= 12):
        raise Problem(input_name, f"{label} name an hour that does not exist. {_HOW_TO_WRITE}")
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    return 60 * hour + minute


def _merged(windows: Iterable[Window]) -> tuple[Window, ...]:
    """Windows in order, those that meet or overlap made one."""
    whole: list[Window] = []
    for start, end in sorted(windows):
        if whole and start <= whole[-1][1]:
            whole[-1] = (whole[-1][0], max(whole[-1][1], end))
        else:
            whole.append((start, end))
    return tuple(whole)
