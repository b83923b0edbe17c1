"""Draws a timetable as bars: one panel for each day under the same hours, one task a line.

Map
---
`HourScale`         where an hour of the day stands across a panel
`chart_height_mm`   how high the drawing of some steps becomes
`timetable_scene`   the whole plan, or some of its steps, as one scene
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.drawing.faces import broken, text_width_mm
from calc.drawing.marks import label
from calc.drawing.scene import LINE, Item, Parts, Path, Scene, Style, polyline, rectangle
from calc.timetable import Step, Timetable
from calc.units import Formatter

_EDGE_MM = 2.0
_HEAD_MM = 12.5
_KEY_MM = 9.0
_BETWEEN_MM = 4.0  # from one day to the next


@dataclass(frozen=True)
class _Look:
    """How a drawing is laid out: `names_mm` is the column of names on its left, nothing where they stand over their bars."""

    wide_mm: float
    names_mm: float
    type_mm: float
    line_mm: float  # from one line of a name to the next

    @property
    def left_mm(self) -> float:
        """Where the first hour stands."""
        return _EDGE_MM + self.names_mm

    def name_lines(self, step: Step) -> tuple[str, ...]:
        """The name of a step in as many lines as it needs."""
        return broken(step.task.name, (self.names_mm or self.wide_mm - _EDGE_MM) - _EDGE_MM, self.type_mm)

    def row_mm(self, step: Step) -> float:
        """How high the line of a step is."""
        lines = len(self.name_lines(step)) * self.line_mm
        return max(6.0, lines + 1.6) if self.names_mm else lines + 6.2


_PAGE = _Look(120.0, 0.0, 4.0, 4.4)  # a telephone shows the 120 mm some 9 cm wide
_PAPER = _Look(180.0, 68.0, 3.5, 4.0)

_GREY = "#8d7f86"
_HANDS = Style(fill="#a8431f")
_HOUR = Style(stroke=_GREY, width_mm=0.15, opacity=0.55)
_THIN = 1.2  # half the height of a wait


def _wait(place: str, left: float, right: float, middle: float) -> list[Item]:
    """A wait as a thin bar: striped in the fridge, chequered in the oven, empty where it stands in the room. Told apart in grey too."""
    right = max(right, left + 0.4)
    colour = {"fridge": "#3f8496", "oven": "#a06c10"}.get(place, "#84776c")
    frame = Path(rectangle(left, middle - _THIN, right - left, 2 * _THIN), Style(stroke=colour, width_mm=0.3, cap="butt"))
    if place == "fridge":
        stripes = Style(stroke=colour, width_mm=2 * _THIN, dash=(0.5, 1.0), cap="butt")
        return [Path(polyline([(left, middle), (right, middle)]), stripes), frame]
    if place == "oven":
        squares = Style(stroke=colour, width_mm=_THIN, dash=(1.2, 1.2), cap="butt")
        upper, lower = middle - _THIN / 2, middle + _THIN / 2
        shifted = min(left + 1.2, right)
        return [Path(polyline([(left, upper), (right, upper)]), squares), Path(polyline([(shifted, lower), (right, lower)]), squares), frame]
    return [frame]


class HourScale:
    """Maps a moment to its place across its day's panel: the same whole hours for every day, from the earliest to the latest that is needed."""

    def __init__(self, plan: Timetable, left_mm: float, right_mm: float) -> None:
        hours = [self._hour(plan.ready_at, plan.ready_at.date())]
        for step in plan.steps:
            ends = [step.end] if step.task.place == "oven" else []
            for moment in (step.start, step.work_end, *ends):
                hours.append(self._hour(moment, step.start.date() if moment.date() == step.start.date() else moment.date()))
            if any(start.date() != end.date() and end.time() != dt.time() for start, end in step.pieces):
                hours += [0.0, 24.0]  # work through the night
        self.first, self.last = math.floor(min(hours)), max(math.ceil(max(hours)), math.floor(min(hours)) + 1)
        self.left_mm, self.right_mm = left_mm, right_mm

    @staticmethod
    def _hour(moment: dt.datetime, day: dt.date) -> float:
        return (moment - dt.datetime.combine(day, dt.time())).total_seconds() / 3600

    def at(self, moment: dt.datetime, day: dt.date) -> float:
        """The x of a moment in the panel of a day [mm], at its edge where it lies outside."""
        hour = min(max(self._hour(moment, day), self.first), self.last)
        return self.left_mm + (hour - self.first) * (self.right_mm - self.left_mm) / (self.last - self.first)

    def hours(self, type_mm: float, say: Formatter) -> list[tuple[int, float]]:
        """The hours that are written, so far apart that none meets the next, with their places [mm]."""
        per_hour = (self.right_mm - self.left_mm) / (self.last - self.first)
        wide = text_width_mm("00p" if say.units == "us" else "00", type_mm) + 1.2
        every = next(hours for hours in (1, 2, 3, 4, 6, 12, 24) if hours * per_hour >= wide or hours == 24)
        return [(hour, self.left_mm + (hour - self.first) * per_hour) for hour in range(self.first, self.last + 1) if hour % every == 0]


def _days_of(step: Step) -> list[dt.date]:
    """The days in whose panels a step stands: those on which it is worked at, or the one on which it begins."""
    days: dict[dt.date, None] = {}
    for start, end in step.pieces or ((step.start, step.start),):
        last = end if end.time() != dt.time() or end == start else end - dt.timedelta(minutes=1)
        for number in range((last.date() - start.date()).days + 1):
            days[start.date() + dt.timedelta(days=number)] = None
    return list(days)


def _panels(plan: Timetable) -> dict[dt.date, list[Step]]:
    """The steps of each day, in order."""
    found: dict[dt.date, list[Step]] = {}
    for step in plan.steps:
        for day in _days_of(step):
            found.setdefault(day, []).append(step)
    return dict(sorted(found.items()))


def chart_height_mm(plan: Timetable, over: bool = False) -> float:
    """Give the height of the drawing of a plan, or of as many steps as it holds [mm]."""
    look, panels = _PAGE if over else _PAPER, _panels(plan)
    rows = math.fsum(look.row_mm(step) for steps in panels.values() for step in steps)
    return len(panels) * (_HEAD_MM + _BETWEEN_MM) + rows + _KEY_MM


METRIC = Formatter()


def timetable_scene(plan: Timetable, over: bool = False, whole: Timetable | None = None, say: Formatter = METRIC) -> Scene:
    """Lay a timetable out day by day: work as thick bars, waits as thin ones, each task in its own line, its name beside its bars or `over` them.

    `whole` is the timetable whose hours the drawing shows, where the plan holds only some of its steps.
    """
    if not plan.steps:
        raise ValueError("a timetable has one step or more")
    look = _PAGE if over else _PAPER
    scale = HourScale(whole or plan, look.left_mm + 1.5, look.wide_mm - _EDGE_MM - 1.5)
    items: list[Item] = []
    y = 0.0
    for day, steps in _panels(plan).items():
        bottom = y + _HEAD_MM + math.fsum(look.row_mm(step) for step in steps)
        items += _head(scale, look, day, y, bottom, plan.ready_at if day == plan.ready_at.date() else None, say)
        y += _HEAD_MM
        ruled: Parts = ()
        for step in steps:
            items += _row(scale, look, step, day, y)
            y += look.row_mm(step)
            if not look.names_mm:  # hours are ruled beside the bars only, so that no line crosses a name
                ruled += tuple(part for _, x in scale.hours(look.type_mm, say) for part in (("M", x, y - 5.3), ("L", x, y - 1.1)))
        if ruled:
            items.append(Path(ruled, _HOUR))
        y += _BETWEEN_MM
    items += _key(y, look.type_mm)
    hours = f"{plan.start:%A} {say.clock(plan.start)} to {plan.ready_at:%A} {say.clock(plan.ready_at)}"
    said = f"{len(plan.steps)} tasks from {hours}, day by day, in the order of the table."
    return Scene("The hours laid out", said, 0.0, 0.0, look.wide_mm, chart_height_mm(plan, over), tuple(items))


def _head(scale: HourScale, look: _Look, day: dt.date, top: float, bottom: float, ready: dt.datetime | None, say: Formatter) -> list[Item]:
    """The head of a day: its name, its hours, and on the last one the hour at which the cake is ready."""
    title = f"{day:%A}, {day:%B} {day.day}" if say.units == "us" else f"{day:%A} {day.day} {day:%B}"
    items: list[Item] = [label(_EDGE_MM, top + 4.4, title, look.type_mm, "start", "bold")]
    line = top + _HEAD_MM - 1.0
    items.append(Path(polyline([(_EDGE_MM, line), (look.wide_mm - _EDGE_MM, line)]), _HOUR._replace(opacity=1.0)))
    for hour, x in scale.hours(look.type_mm, say):
        items.append(label(x, line - 1.3, say.hour(hour), look.type_mm, "middle"))
        items.append(Path(polyline([(x, line), (x, bottom if look.names_mm else line + 1.2)]), _HOUR))
    if ready is not None:
        x, words = scale.at(ready, day), f"ready {say.clock(ready)}"
        half = text_width_mm(words, look.type_mm, "bold") / 2
        free = _EDGE_MM + text_width_mm(title, look.type_mm, "bold") + 3.0
        items.append(Path(polyline([(x, line), (x, bottom)]) if look.names_mm else polyline([(x, line - 0.6), (x, line + 1.8)]), LINE))
        items.append(label(max(free + half, min(x, look.wide_mm - _EDGE_MM - half)), top + 4.4, words, look.type_mm, "middle", "bold"))
    return items


def _row(scale: HourScale, look: _Look, step: Step, day: dt.date, top: float) -> list[Item]:
    """The name of a step and its bars on one day."""
    names, height = look.name_lines(step), look.row_mm(step)
    first = top + (0.74 * look.line_mm if not look.names_mm else (height - len(names) * look.line_mm) / 2 + 0.76 * look.line_mm)
    items: list[Item] = [label(_EDGE_MM, first + k * look.line_mm, name, look.type_mm) for k, name in enumerate(names)]
    middle = top + height / 2 if look.names_mm else top + len(names) * look.line_mm + 3.0
    if step.task.wait_min and step.work_end.date() == day:
        items += _wait(step.task.place, scale.at(step.work_end, day), scale.at(step.end, day), middle)
    midnight = dt.datetime.combine(day, dt.time())
    for start, end in step.pieces:
        if start < midnight + dt.timedelta(days=1) and end > midnight:
            left, right = scale.at(start, day), scale.at(end, day)
            left = min(left, scale.right_mm - 0.7)
            items.append(Path(rectangle(left, middle - 2.1, max(right - left, 0.7), 4.2), _HANDS))
    return items


def _key(top: float, type_mm: float) -> Sequence[Item]:
    """What the bars mean."""
    items: list[Item] = []
    x, middle = _EDGE_MM, top + 3.6
    for words, place in (("work", ""), ("fridge", "fridge"), ("oven", "oven"), ("standing", "room")):
        if place:
            items += _wait(place, x, x + 7.0, middle)
        else:
            items.append(Path(rectangle(x, middle - 2.1, 7.0, 4.2), _HANDS))
        items.append(label(x + 8.4, middle + 0.34 * type_mm, words, type_mm))
        x += 8.4 + text_width_mm(words, type_mm) + 5.0
    return items
