"""Calendar files, read back by an independent parser.

Source
------
RFC 5545, Internet Calendaring and Scheduling Core Object Specification, B. Desruisseaux (2009): 3.1 content lines end in CR LF
and are folded at 75 octets; 3.3.11 text escapes; 3.4 and 3.6.1 what a calendar and an event must hold; 3.8.2.5 DURATION examples.
The parser is the `icalendar` package, which takes no part in writing.
"""

from __future__ import annotations

import datetime as dt
import re

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.calculators.declare import run
from calc.calculators.timetable import CALCULATOR
from calc.timetable import (
    USUAL_HOURS,
    RowWork,
    Task,
    TierWork,
    Timetable,
    cake_tasks,
    calendar_text,
    read_hours,
    schedule,
)
from calc.units import read_quantity

READY = dt.datetime(2027, 10, 16, 18)


def events(text: str) -> list[icalendar.Event]:
    calendar = icalendar.Calendar.from_ical(text)
    assert not calendar.errors
    found = list(calendar.walk("VEVENT"))
    assert not any(event.errors for event in found)
    return found


def demo() -> Timetable:
    tiers = (TierWork("lower tier", 200, 100), TierWork("upper tier", 150, 100))
    rows = (RowWork("swags, russet; two rows", 0, 45), RowWork("shells", 1, 15))
    return schedule(READY, cake_tasks(tiers, rows, 2600, colours=4, spare_min=60), USUAL_HOURS)


def check_lines(text: str) -> None:
    """RFC 5545, 3.1."""
    assert text.endswith("END:VCALENDAR\r\n")
    octets = text.encode("utf-8")
    assert b"\n" not in octets.replace(b"\r\n", b"") and b"\r" not in octets.replace(b"\r\n", b"")
    for line in octets.split(b"\r\n"):
        assert len(line) <= 75, line
        line.decode("utf-8")  # folded between characters, never within one


def test_lines_end_and_fold_as_they_must() -> None:
    check_lines(calendar_text(demo()))


def test_what_a_calendar_and_its_events_must_hold() -> None:
    """RFC 5545, 3.4 and 3.6: PRODID and VERSION once; 3.6.1: UID and DTSTAMP, DTSTART; DTEND after it."""
    text = calendar_text(demo())
    calendar = icalendar.Calendar.from_ical(text)
    assert calendar["VERSION"] == "2.0" and calendar["PRODID"].startswith("-//")
    found = events(text)
    uids = [str(event["UID"]) for event in found]
    assert len(set(uids)) == len(uids), "no two events share a UID"
    for event in found:
        assert event["DTSTAMP"].dt.tzinfo is not None, "DTSTAMP is in UTC"
        assert event["DTSTART"].dt.tzinfo is None, "a local hour without a zone"
        assert event["DTEND"].dt > event["DTSTART"].dt


def test_every_stretch_of_work_comes_back_at_its_hour() -> None:
    plan = demo()
    found = {(str(e["SUMMARY"]), e["DTSTART"].dt, e["DTEND"].dt) for e in events(calendar_text(plan, "Orchard harvest supper"))}
    for step in plan.steps:
        for start, end in step.pieces:
            assert (step.task.name, start, end) in found
    assert ("Orchard harvest supper: ready", READY, READY + dt.timedelta(minutes=15)) in found


def test_a_wait_does_not_make_anyone_busy() -> None:
    shown = {str(e["SUMMARY"]): e.get("TRANSP") for e in events(calendar_text(demo()))}
    assert shown["Cool: lower tier"] == "TRANSPARENT"
    assert shown["Stack the tiers"] is None


def test_text_with_a_comma_a_semicolon_a_backslash_and_a_new_line() -> None:
    name = "Pipe: shells, russet; tip \\ 7 mm\nand leaves"
    plan = schedule(READY, (Task("a", name, 30, note="Chill, then look; “again”\\"),))
    text = calendar_text(plan)
    event = events(text)[0]
    assert str(event["SUMMARY"]) == name
    assert str(event["DESCRIPTION"]).endswith("Chill, then look; “again”\\")
    assert r"shells\, russet\; tip \\ 7 mm\nand leaves" in text.replace("\r\n ", "")


def test_a_cake_at_octet_75_is_not_cut() -> None:
    for length in range(55, 75):
        name = "x" * length + "🎂" * 6 + "é" * 40
        text = calendar_text(schedule(READY, (Task("a", name, 30),)))
        check_lines(text)
        assert str(events(text)[0]["SUMMARY"]) == name


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=200))
def test_any_words_come_back(name: str) -> None:
    text = calendar_text(schedule(READY, (Task("a", name, 30),)), title=name)
    check_lines(text)
    assert str(events(text)[0]["SUMMARY"]) == name


def test_over_a_night_in_which_the_clocks_change() -> None:
    """Clocks in Europe go back on 31 October 2027: the file keeps the hours on the wall, and says no zone."""
    ready = dt.datetime(2027, 10, 31, 12)
    plan = schedule(ready, (Task("a", "Coat", 60, 12 * 60, place="fridge"), Task("b", "Pipe", 60, needs=("a",))), USUAL_HOURS)
    text = calendar_text(plan)
    assert "TZID" not in text and not re.search(r"DT(START|END):\d{8}T\d{6}Z", text)
    assert [e["DTSTART"].dt.hour for e in events(text)] == [17, 11, 12]


def test_work_broken_off_at_closing_time_is_two_events() -> None:
    hours = read_hours("9:00 to 11:00", "h", "Hours")
    plan = schedule(READY, (Task("a", "Pipe", 180),), hours)
    found = [e for e in events(calendar_text(plan)) if "Pipe" in str(e["SUMMARY"])]
    assert [str(e["SUMMARY"]) for e in found] == ["Pipe (1 of 2)", "Pipe (2 of 2)"]
    assert sum((e["DTEND"].dt - e["DTSTART"].dt).total_seconds() for e in found) == 180 * 60


def test_the_same_plan_gives_the_same_file() -> None:
    assert calendar_text(demo()) == calendar_text(demo())
    assert calendar_text(demo(), "a") != calendar_text(demo(), "b")


def test_the_calculator_offers_the_file() -> None:
    answer = run(CALCULATOR, {"title": "Orchard; supper, 2027"})
    (file,) = answer.files
    assert file["type"] == "text/calendar" and file["name"].endswith(".ics")
    check_lines(file["text"])
    assert r"X-WR-CALNAME:Orchard\; supper\, 2027" in file["text"], "text of an X property is escaped too (3.8.8.2)"
    assert any(str(event["SUMMARY"]) == "Orchard; supper, 2027: ready" for event in events(file["text"]))


@pytest.mark.parametrize(
    "duration, typed, minutes",
    [
        ("P15DT5H0M20S", "15 days 5 h 20 s", 15 * 1440 + 300 + 20 / 60),  # RFC 5545, 3.3.6
        ("P7W", "7 weeks", 7 * 7 * 1440),  # RFC 5545, 3.3.6
        ("PT1H30M", "1 h 30 min", 90),
        ("PT15M", "15 min", 15),
    ],
)
def test_durations_mean_the_same_here_and_there(duration: str, typed: str, minutes: float) -> None:
    assert icalendar.vDuration.from_ical(duration).total_seconds() / 60 == pytest.approx(minutes)
    assert read_quantity(typed, "duration", "x", "X") == pytest.approx(minutes)
