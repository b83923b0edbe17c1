"""Draws a timetable as bars, one task a line, days side by side and nights left out.

Map
---
`timetable_scene`   the whole plan as one scene
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence

from calc.drawing.faces import text_width_mm
from calc.drawing.marks import label
from calc.drawing.scene import LINE, Item, Path, Scene, Style, polyline, rectangle
from calc.timetable import Step, Timetable

_LEFT_MM = 2.0
_WIDE_MM = 120.0
_ROW_MM = 6.0
_OVER_ROW_MM = 9.0
_HEAD_MM = 13.0
_TYPE_MM = 3.7
_OVER_TYPE_MM = 4.0  # a telephone shows the 120 mm some 9 cm wide
_NIGHT_MM = 4.5

_HANDS = Style(fill="#a8431f")
_WAITS = {
    "fridge": Style(fill="#4f8a99"),
    "oven": Style(fill="#c58a1d"),
    "room": Style(fill="#a79a8c"),
}
_HOUR = Style(stroke="#8d7f86", width_mm=0.15, opacity=0.55)
_CLOSED = Style(stroke="#8d7f86", width_mm=0.3, dash=(0.8, 0.8))


class TimeScale:
    """Maps a moment to its place across the drawing: each day with work is a block of whole hours, the blocks side by side."""

    def __init__(self, plan: Timetable) -> None:
        spans: dict[dt.date, list[dt.datetime]] = {}
        for step in plan.steps:
            moments = [moment for piece in step.pieces for moment in piece]
            if step.task.place == "oven":
                moments.append(step.end)
            for moment in moments:
                spans.setdefault(moment.date(), []).append(moment)
        spans.setdefault(plan.ready_at.date(), []).append(plan.ready_at)
        self.blocks: list[tuple[dt.datetime, float, float]] = []  # midnight, first and last hour
        for day, moments in sorted(spans.items()):
            midnight = dt.datetime.combine(day, dt.time())
            hours = [(moment - midnight).total_seconds() / 3600 for moment in moments]
            self.blocks.append((midnight, math.floor(min(hours)), max(math.ceil(max(hours)), math.floor(min(hours)) + 1)))
        hours_in_all = math.fsum(last - first for _, first, last in self.blocks)
        room = _WIDE_MM - 2 * _LEFT_MM - _NIGHT_MM * (len(self.blocks) - 1)
        self.per_hour = max(room, 10.0) / hours_in_all
        self.lefts: list[float] = []
        left = _LEFT_MM
        for _, first, last in self.blocks:
            self.lefts.append(left)
            left += (last - first) * self.per_hour + _NIGHT_MM
        self.right = left - _NIGHT_MM

    def at(self, moment: dt.datetime) -> float:
        """The x of a moment [mm]; a moment in a night left out is at its edge."""
        place = _LEFT_MM
        for left, (midnight, first, last) in zip(self.lefts, self.blocks, strict=True):
            hour = (moment - midnight).total_seconds() / 3600
            if hour < first:
                return place
            place = left + (min(hour, last) - first) * self.per_hour
        return place


def timetable_scene(plan: Timetable, over: bool = False) -> Scene:
    """Lay a timetable out: work as thick bars, waits as thin ones, each task in its own line."""
    if not plan.steps:
        raise ValueError("a timetable has one step or more")
    clock = TimeScale(plan)
    row_mm, type_mm = (_OVER_ROW_MM, _OVER_TYPE_MM) if over else (_ROW_MM, _TYPE_MM)
    high = _HEAD_MM + row_mm * len(plan.steps)
    items: list[Item] = [*_days(clock, high, type_mm)]
    for row, step in enumerate(plan.steps):
        items.extend(_bars(clock, step, _HEAD_MM + row_mm * row, over))
    ready = clock.at(plan.ready_at)
    items.append(Path(polyline([(ready, _HEAD_MM - 1), (ready, high + 1)]), LINE))
    items.append(label(ready, high + 5, f"ready {plan.ready_at:%H:%M}", type_mm, "end", "bold"))
    items.extend(_key(high + 6.5, type_mm))
    said = f"{len(plan.steps)} tasks from {plan.start:%A %H:%M} to {plan.ready_at:%A %H:%M}, in the order of the table below."
    return Scene("The hours laid out", said, 0.0, 0.0, _WIDE_MM, high + 14, tuple(items))


def _days(clock: TimeScale, high: float, type_mm: float) -> list[Item]:
    items: list[Item] = []
    every = next(hours for hours in (1, 2, 3, 6, 12, 24) if hours * clock.per_hour >= 6.5 or hours == 24)
    written = -1.0  # the right end of the hour that was written last
    for left, (midnight, first, last) in zip(clock.lefts, clock.blocks, strict=True):
        wide = (last - first) * clock.per_hour
        words = f"{midnight:%a} {midnight.day}" if wide >= 9 else f"{midnight:%a}"[:2]
        items.append(label(left, 4.4, words, type_mm, "start", "bold"))
        for hour in range(int(first), int(last) + 1):
            x = left + (hour - first) * clock.per_hour
            if hour % every == 0 and (hour < last or hour == 24 or wide < 9 or last - first >= every):
                items.append(Path(polyline([(x, _HEAD_MM - 1), (x, high)]), _HOUR))
                half = text_width_mm("0" * len(str(hour)), type_mm) / 2  # figures are of one width
                middle = max(half, min(x, _WIDE_MM - half))
                if (x + 1.5 < left + wide or hour == last) and middle - half > written + 0.6:
                    items.append(label(middle, _HEAD_MM - 2.4, str(hour), type_mm, "middle"))
                    written = middle + half
        if left > _LEFT_MM:
            x = left - _NIGHT_MM / 2
            items.append(Path(polyline([(x, 1.0), (x, high)]), _CLOSED))
    return items


def _bars(clock: TimeScale, step: Step, top: float, over: bool = False) -> list[Item]:
    base = top + (_OVER_ROW_MM - 2.6 if over else _ROW_MM / 2)
    items: list[Item] = []
    left, right = clock.at(step.start), clock.at(max(step.work_end, step.end))
    if step.task.wait_min:
        start, end = clock.at(step.work_end), clock.at(step.end)
        wait = _WAITS.get(step.task.place, _WAITS["room"])
        items.append(Path(rectangle(start, base - 0.8, max(end - start, 0.4), 1.6), wait))
    for begin, finish in step.pieces:
        start, end = clock.at(begin), clock.at(finish)
        items.append(Path(rectangle(start, base - 2.1, max(end - start, 0.7), 4.2), _HANDS))
        right = max(right, start + 0.7)
    if over:
        wide = text_width_mm(step.task.name, _OVER_TYPE_MM)
        at_end = left + wide > _WIDE_MM - _LEFT_MM and wide < right - _LEFT_MM
        edge = right if at_end else max(_LEFT_MM, min(left, _WIDE_MM - _LEFT_MM - wide))
        name = step.task.name if wide < _WIDE_MM - 2 * _LEFT_MM else _fitted(step.task.name, _WIDE_MM - 2 * _LEFT_MM, _OVER_TYPE_MM)
        items.append(label(edge, top + 3.4, name, _OVER_TYPE_MM, "end" if at_end else "start"))
        return items
    # The name stands where there is more room: before its bars or after them.
    before = left - _LEFT_MM > clock.right - right
    room = left - _LEFT_MM if before else _WIDE_MM - right
    name = _fitted(step.task.name, room - 2)
    items.append(label(left - 1.2 if before else right + 1.2, base + 1.3, name, _TYPE_MM, "end" if before else "start"))
    return items


def _fitted(name: str, room_mm: float, type_mm: float = _TYPE_MM) -> str:
    """A name that fits its room; the table has it whole."""
    most = max(3, int(room_mm / (0.52 * type_mm)))
    return name if len(name) <= most else name[: most - 1].rstrip(" ,:") + "…"


def _key(top: float, type_mm: float) -> Sequence[Item]:
    items: list[Item] = []
    x = 1.0
    for words, style, thick in (("work", _HANDS, 3.8), ("fridge", _WAITS["fridge"], 1.4), ("oven", _WAITS["oven"], 1.4),
                                ("standing", _WAITS["room"], 1.4)):  # fmt: skip
        items.append(Path(rectangle(x, top + 4.0 - thick / 2, 6.0, thick), style))
        items.append(label(x + 7.2, top + 5.2, words, type_mm))
        x += 10 + 0.55 * type_mm * len(words) + 2
    return items
