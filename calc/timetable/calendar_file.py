"""Writes a timetable as a calendar file (RFC 5545). It may import `units`, and the package `icalendar` while it writes.

Map
---
`calendar_text`   one event for each stretch of work, one for the hour the cake is ready
"""

from __future__ import annotations

import datetime as dt
import zlib

from calc import units
from calc.timetable.tasks import Timetable

_ESCAPES = {"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"}
_CONTROL_CHARACTERS = {c: None for c in [*range(10), *range(11, 32), 127]}


def _allowed_text(text: str) -> str:
    """Text as RFC 5545 allows it (section 3.3.11): no control characters but the line feed, no lone surrogates."""
    tidy = text.replace("\r\n", "\n").replace("\r", "\n").translate(_CONTROL_CHARACTERS)
    return tidy.encode("utf-8", "replace").decode("utf-8")


def calendar_text(timetable: Timetable, title: str = "Cake", stamp: dt.datetime | None = None) -> str:
    """Write a timetable as a calendar file: one event for each stretch of work, one for the hour the cake is ready.

    The `icalendar` package writes the lines of RFC 5545: sections 3.1 (lines and folding), 3.3.11 (text) and 3.6.1 (events). Times are
    local, without a zone. It is imported here because a page fetches it only when a file is saved. `stamp` is when the file was made
    (UTC); without it the time the work begins is taken, so that the same plan gives the same file.

    >>> from calc.timetable import Task, schedule
    >>> plan = schedule(dt.datetime(2027, 10, 16, 18), (Task("pipe", "Pipe; then rest", 90),))
    >>> [line for line in calendar_text(plan).split("\\r\\n") if line.startswith(("DTSTART", "SUMMARY"))]
    ['SUMMARY:Pipe\\\\; then rest', 'DTSTART:20271016T163000', 'SUMMARY:Cake: ready', 'DTSTART:20271016T180000']
    """
    import icalendar

    class Words(icalendar.vText):
        """Text with the escapes of RFC 5545 (3.3.11) and no others: the library's own takes a typed \\N for a line feed."""

        def to_ical(self) -> bytes:
            """The text, escaped."""
            return "".join(_ESCAPES.get(letter, letter) for letter in self).encode()

    made = (stamp or timetable.start).replace(tzinfo=dt.UTC)
    suffix = f"{timetable.ready_at:%Y%m%dT%H%M}-{zlib.crc32(title.encode('utf-8', 'replace')):08x}"
    calendar = icalendar.Calendar()
    for name, value in (("VERSION", "2.0"), ("PRODID", "-//Piping Bench//Timetable//EN"), ("CALSCALE", "GREGORIAN"), ("METHOD", "PUBLISH")):
        calendar.add(name, value)
    calendar.add("X-WR-CALNAME", Words(_allowed_text(title)))

    def event(key: str, start: dt.datetime, end: dt.datetime, summary: str, description: str, busy: bool = True) -> None:
        added = icalendar.Event()
        added.add("UID", f"{key}-{suffix}@piping-bench")
        added.add("DTSTAMP", made)
        added.add("DTSTART", start)
        added.add("DTEND", end)
        added.add("SUMMARY", Words(_allowed_text(summary)))
        if description:
            added.add("DESCRIPTION", Words(_allowed_text(description)))
        if not busy:
            added.add("TRANSP", "TRANSPARENT")
        calendar.add_component(added)

    say = units.Formatter()
    for step in timetable.steps:
        sentences = []
        if step.task.wait_min:
            sentences.append(f"Then {say.duration(step.task.wait_min)}{_where(step.task.place)}.")
        if step.slack_min >= 1:
            sentences.append(f"May overrun by {say.duration(step.slack_min)}.")
        if step.task.note:
            sentences.append(step.task.note)
        for number, (start, end) in enumerate(step.pieces, 1):
            part = f" ({number} of {len(step.pieces)})" if len(step.pieces) > 1 else ""
            event(f"{step.task.key}-{number}", start, end, step.task.name + part, " ".join(sentences))
        if not step.pieces and step.end > step.start:  # nothing to do but wait
            event(step.task.key, step.start, step.end, step.task.name, " ".join(sentences[1:]), busy=False)
    event("ready", timetable.ready_at, timetable.ready_at + dt.timedelta(minutes=15), f"{title}: ready", "")
    written: bytes = calendar.to_ical()
    return written.decode("utf-8")


def _where(place: str) -> str:
    """Where a task waits, in words that follow a duration."""
    return {"fridge": " in the fridge", "oven": " in the oven", "room": " standing"}.get(place, " waiting")
