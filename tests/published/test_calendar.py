"""Calendar files, read back by hand: the library that writes them takes no part in reading.

Source
------
RFC 5545, Internet Calendaring and Scheduling Core Object Specification, B. Desruisseaux (2009): 3.1 content lines end in CR LF, are folded
at 75 octets and unfolded by taking out each CR LF with the blank after it; 3.3.5 local hours and UTC; 3.3.11 text escapes; 3.4, 3.6 and
3.6.1 what a calendar and an event must hold; 3.8.2.2, 3.8.2.7 beginning and end; 3.3.6 durations.
"""

from __future__ import annotations

import datetime as dt
import re
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

import calc
from calc.timetable import (
    USUAL_HOURS,
    CakeJob,
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
ORDER = {"order": (Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")}


Property = tuple[str, str]


def content_lines(text: str) -> list[Property]:
    """Names and values of the content lines, unfolded (RFC 5545, 3.1). No parameter is used in these files."""
    found = []
    for line in text.replace("\r\n ", "").removesuffix("\r\n").split("\r\n"):
        name, colon, value = line.partition(":")
        assert colon and re.fullmatch(r"[A-Z-]+", name), line
        found.append((name, value))
    return found


def words(value: str) -> str:
    """A TEXT value as it is meant: \\\\ \\; \\, and \\n are all the escapes there are (RFC 5545, 3.3.11)."""
    assert re.fullmatch(r"(?:[^\\;,\x00-\x08\x0a-\x1f\x7f]|\\[\\;,nN])*", value), value
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], value)


def events(text: str) -> list[dict[str, str]]:
    """The events of a calendar: each property once, text as it is meant."""
    lines = content_lines(text)
    assert lines[0] == ("BEGIN", "VCALENDAR") and lines[-1] == ("END", "VCALENDAR")
    found: list[dict[str, str]] = []
    event: dict[str, str] | None = None
    for name, value in lines[1:-1]:
        if name in ("BEGIN", "END"):
            assert value == "VEVENT" and (event is None) == (name == "BEGIN"), "events lie side by side"
            event = {} if name == "BEGIN" else found.append(event or {})
        elif event is not None:
            assert name not in event, f"{name} stands once in an event (3.6.1)"
            event[name] = words(value) if name in ("SUMMARY", "DESCRIPTION") else value
    assert event is None and found
    return found


def local(value: str) -> dt.datetime:
    """A local hour without a zone, the first form of 3.3.5."""
    assert re.fullmatch(r"\d{8}T\d{6}", value), value
    return dt.datetime.strptime(value, "%Y%m%dT%H%M%S")


def demo() -> Timetable:
    tiers = (TierWork("lower tier", 200, 100), TierWork("upper tier", 150, 100))
    rows = (RowWork("swags, russet; two rows", 0, 45), RowWork("shells", 1, 15))
    return schedule(READY, cake_tasks(CakeJob(tiers, rows, 2600, colours=4, spare_min=60)), USUAL_HOURS)


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
    """RFC 5545, 3.4 and 3.6: PRODID and VERSION once; 3.6.1: UID and DTSTAMP, DTSTART once each; DTEND after it."""
    text = calendar_text(demo())
    head = content_lines(text)[1 : content_lines(text).index(("BEGIN", "VEVENT"))]
    names = [name for name, _ in head]
    assert len(set(names)) == len(names) and dict(head)["VERSION"] == "2.0" and dict(head)["PRODID"].startswith("-//")
    found = events(text)
    uids = [event["UID"] for event in found]
    assert len(set(uids)) == len(uids), "no two events share a UID"
    for event in found:
        assert re.fullmatch(r"\d{8}T\d{6}Z", event["DTSTAMP"]), "DTSTAMP is in UTC"
        assert local(event["DTEND"]) > local(event["DTSTART"])


def test_every_stretch_of_work_comes_back_at_its_hour() -> None:
    plan = demo()
    found = {(e["SUMMARY"], local(e["DTSTART"]), local(e["DTEND"])) for e in events(calendar_text(plan, "Orchard harvest supper"))}
    for step in plan.steps:
        for start, end in step.pieces:
            assert (step.task.name, start, end) in found
    assert ("Orchard harvest supper: ready", READY, READY + dt.timedelta(minutes=15)) in found


def test_a_wait_does_not_make_anyone_busy() -> None:
    shown = {e["SUMMARY"]: e.get("TRANSP") for e in events(calendar_text(demo()))}
    assert shown["Cool: lower tier"] == "TRANSPARENT"
    assert shown["Stack the tiers"] is None


def test_text_with_a_comma_a_semicolon_a_backslash_and_a_new_line() -> None:
    name = "Pipe: shells, russet; tip \\ 7 mm\nand leaves"
    plan = schedule(READY, (Task("a", name, 30, note="Chill, then look; “again”\\"),))
    text = calendar_text(plan)
    event = events(text)[0]
    assert event["SUMMARY"] == name
    assert event["DESCRIPTION"].endswith("Chill, then look; “again”\\")
    assert r"shells\, russet\; tip \\ 7 mm\nand leaves" in text.replace("\r\n ", "")


def test_a_cake_at_octet_75_is_not_cut() -> None:
    for length in range(55, 75):
        name = "x" * length + "🎂" * 6 + "é" * 40
        text = calendar_text(schedule(READY, (Task("a", name, 30),)))
        check_lines(text)
        assert events(text)[0]["SUMMARY"] == name


@example("Pipe \\N, \\n and \\\\N; all typed")
@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=200))
def test_any_words_come_back(name: str) -> None:
    text = calendar_text(schedule(READY, (Task("a", name, 30),)), title=name)
    check_lines(text)
    assert events(text)[0]["SUMMARY"] == name


def test_control_characters_are_left_out() -> None:
    """RFC 5545, section 3.1: CONTROL is %x00-08, %x0A-1F and %x7F; a text value (3.3.11) holds none of them but an escaped line feed."""
    controls = [*range(10), *range(11, 32), 127]
    name = "Pipe" + "".join(map(chr, controls)).replace("\r", "") + "shells"
    text = calendar_text(schedule(READY, (Task("a", name, 30),)), title=name)
    assert events(text)[0]["SUMMARY"] == "Pipeshells"
    assert not {chr(c) for c in controls} & set(text.replace("\r\n", ""))


def test_over_a_night_in_which_the_clocks_change() -> None:
    """Clocks in Europe go back on 31 October 2027: the file keeps the hours on the wall, and says no zone."""
    ready = dt.datetime(2027, 10, 31, 12)
    plan = schedule(ready, (Task("a", "Coat", 60, 12 * 60, place="fridge"), Task("b", "Pipe", 60, needs=("a",))), USUAL_HOURS)
    text = calendar_text(plan)
    assert "TZID" not in text and not re.search(r"DT(START|END):\d{8}T\d{6}Z", text)
    assert [local(e["DTSTART"]).hour for e in events(text)] == [17, 11, 12]


def test_work_broken_off_at_closing_time_is_two_events() -> None:
    hours = read_hours("9:00 to 11:00", "h", "Hours")
    plan = schedule(READY, (Task("a", "Pipe", 180),), hours)
    found = [e for e in events(calendar_text(plan)) if "Pipe" in e["SUMMARY"]]
    assert [e["SUMMARY"] for e in found] == ["Pipe (1 of 2)", "Pipe (2 of 2)"]
    assert sum((local(e["DTEND"]) - local(e["DTSTART"])).total_seconds() for e in found) == 180 * 60


def test_the_same_plan_gives_the_same_file() -> None:
    assert calendar_text(demo()) == calendar_text(demo())
    assert calendar_text(demo(), "a") != calendar_text(demo(), "b")


def test_stretches_of_one_pair_of_hands_do_not_overlap() -> None:
    busy = sorted((local(e["DTSTART"]), local(e["DTEND"])) for e in events(calendar_text(demo())) if "TRANSP" not in e)
    assert all(one[1] <= other[0] for one, other in pairwise(busy))


def test_control_characters_and_halves_of_characters_are_left_out() -> None:
    """RFC 5545, 3.3.11: TEXT holds no control characters; UTF-8 (3.1.4) holds no lone surrogate."""
    text = calendar_text(schedule(READY, (Task("a", "Pipe\x00 the\x07 \ud83d rim\r\nslow\tly\x1f", 30),)))
    check_lines(text)
    assert events(text)[0]["SUMMARY"] == "Pipe the ? rim\nslowly"


@pytest.mark.parametrize("slug, name", [("timetable", "cake-timetable.ics"), ("order", "timetable.ics")])
def test_the_calculators_offer_the_file_and_write_it_when_asked(slug: str, name: str) -> None:
    inputs = dict(ORDER) if slug == "order" else {"title": "Orchard; supper, 2027"}
    answer = calc.compute(slug, inputs)
    (file,) = answer.files
    assert file["type"] == "text/calendar" and file["name"] == name and "text" not in file
    text = calc.sheet(slug, inputs, name).decode()
    check_lines(text)
    called = words(dict(content_lines(text))["X-WR-CALNAME"])
    assert called == (inputs.get("title") or "Orchard harvest supper"), "text of an X property is escaped too (3.8.8.2)"
    assert events(text)[-1]["SUMMARY"] == f"{called}: ready"
    begins = min(local(event["DTSTART"]) for event in events(text))
    assert local(events(text)[-1]["DTSTART"]) - begins == dt.timedelta(minutes=answer.figures["start"]["value"])


@pytest.mark.parametrize(
    "duration, typed",
    [
        ("P15DT5H0M20S", "15 days 5 h 20 s"),  # RFC 5545, 3.3.6
        ("P7W", "7 weeks"),  # RFC 5545, 3.3.6
        ("PT1H0M0S", "1 h"),  # RFC 5545, 3.8.2.5
        ("PT15M", "15 min"),  # RFC 5545, 3.8.2.5
    ],
)
def test_durations_mean_the_same_here_and_there(duration: str, typed: str) -> None:
    """RFC 5545, 3.3.6: weeks, or days, hours, minutes and seconds."""
    found = re.fullmatch(r"P(?:(\d+)W|(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?)", duration)
    assert found
    weeks, days, hours, minutes, seconds = (int(part or 0) for part in found.groups())
    assert read_quantity(typed, "duration", "x", "X") == pytest.approx(((weeks * 7 + days) * 24 + hours) * 60 + minutes + seconds / 60)
