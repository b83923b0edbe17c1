"""The timetable line by line, from made-up steps and from whole cakes, and texts kept in a file: both sides of each condition.

How long a step takes is from memory and common practice, as the answer says; the lines below are what it tells of such steps.
"""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, timetable_form
from calc.calculators.declare import Answer, parse
from calc.calculators.text_kept import DEEPEST_TOML, TextKept
from calc.calculators.timetable_form import (
    ahead_table,
    hand_note,
    out_table,
    oven_cautions,
    oven_of,
    plan_of,
    read_rows,
    read_tiers,
    stacking_of,
    steps_table,
)
from calc.timetable import PACE, Oven, TierWork, TimeOut
from calc.units import Problem
from tests.calc.test_calculators_said import Typed, sentences
from tests.calc.test_calculators_sums import answered, rows, value

DAY = dt.datetime(2027, 10, 15)  # a Friday


def at(hour: float) -> dt.datetime:
    """An hour of that Friday, or of a day after it."""
    return DAY + dt.timedelta(hours=hour)


def refused(slug: str, typed: dict[str, str]) -> tuple[str, str]:
    ((found),) = calc.compute(slug, typed).problems
    return found["input"], found["message"]


def heads(answer: Any, name: str) -> list[tuple[str, str]]:
    (found,) = [one["columns"] for one in answer.tables if one["name"] == name]
    return [(column["label"], column["align"]) for column in found]


def step(start: float, hands: float = 0.0, wait: float = 0.0, pieces: int = 1, **more: Any) -> Any:
    """A step of a plan that begins at an hour, with as many pieces of work as are said."""
    task = {"name": "Coat", "key": "coat", "needs": (), "hands_min": hands, "wait_min": wait, "place": "", "out": False, "keeps_min": None}
    task |= {"keeps_until": "use"} | {name: more.pop(name) for name in (*task, "keeps_until") if name in more}
    found = {"task": SimpleNamespace(**task), "start": at(start), "end": at(start + (hands + wait) / 60), "hand": 1, "slack_min": 60.0}
    return SimpleNamespace(**(found | {"pieces": (None,) * pieces, "not_before": None, "stale": False} | more))


def told(*steps: Any, people: int = 1) -> list[list[str]]:
    answer = Answer("timetable", "metric")
    steps_table(answer, SimpleNamespace(steps=steps), people)  # type: ignore[arg-type]
    assert [note["text"] for note in answer.notes] == (["The number in brackets says which person."] if people > 1 else [])
    return rows(answer, "tasks")


STEPS: list[tuple[Any, int, list[str]]] = [
    (step(9, 25), 1, ["Fri 09:00", "Coat", "25 min", "1 h"]),
    (step(33.5, 25), 1, ["Sat 09:30", "Coat", "25 min", "1 h"]),
    (step(9, 90, pieces=2), 1, ["Fri 09:00", "Coat", "1 h 30 min, in 2 parts", "1 h"]),
    (step(9, 90, pieces=3), 2, ["Fri 09:00", "Coat", "1 h 30 min, in 3 parts (1)", "1 h"]),
    (step(9, 25, hand=2), 2, ["Fri 09:00", "Coat", "25 min (2)", "1 h"]),
    (step(9, 25, hand=2), 3, ["Fri 09:00", "Coat", "25 min (2)", "1 h"]),
    (step(9, 25, hand=2), 1, ["Fri 09:00", "Coat", "25 min", "1 h"]),  # who does it goes without saying
    (step(9, 0, 120, pieces=0), 2, ["Fri 09:00", "Coat, 2 h", "", ""]),  # nobody works: no slack
    (step(9, 0, 0, pieces=0), 1, ["Fri 09:00", "Coat", "", ""]),
    (step(9, 25, 60), 1, ["Fri 09:00", "Coat, then 1 h", "25 min", "1 h"]),
    (step(9, 25, 60, place="fridge"), 1, ["Fri 09:00", "Coat, then 1 h in the fridge", "25 min", "1 h"]),
    (step(9, 25, 35, place="oven"), 1, ["Fri 09:00", "Coat, then 35 min in the oven", "25 min", "1 h"]),
    (step(9, 25, 60, place="bench"), 1, ["Fri 09:00", "Coat, then 1 h", "25 min", "1 h"]),
    (step(9, 25, slack_min=1), 1, ["Fri 09:00", "Coat", "25 min", "1 min"]),
    (step(9, 25, slack_min=0.9), 1, ["Fri 09:00", "Coat", "25 min", "none"]),
    (step(9, 25, slack_min=0), 1, ["Fri 09:00", "Coat", "25 min", "none"]),
]


@pytest.mark.parametrize("made, people, line", STEPS)
def test_a_line_of_the_timetable(made: Any, people: int, line: list[str]) -> None:
    assert told(made, people=people) == [line]


@pytest.mark.parametrize(
    "made, next_at, is_overnight",
    [
        (step(17, 25, 60, place="fridge", out=True), 33, True),  # what needs it begins on Saturday
        (step(17, 25, 60, place="fridge", out=True), 20, False),
        (step(17, 25, 60, place="fridge", out=False), 33, False),  # not something that goes in and out
        (step(17, 25, 60, place="oven", out=True), 33, False),
        (step(22, 60, 120, place="fridge", out=True), 33, False),  # it is in until one o'clock on Saturday
    ],
)
def test_what_waits_for_another_day_waits_overnight(made: Any, next_at: float, is_overnight: bool) -> None:
    """Of all that need it the first counts, whichever stands where."""
    later = [step(next_at, 20, key="pipe", needs=("coat",)), step(next_at + 24, 20, key="box", needs=("coat", "pipe"))]
    assert told(made, *later)[0][1].endswith(", and overnight") == is_overnight
    assert not told(made)[0][1].endswith(", and overnight")  # and where nothing needs it, it does not


def test_the_columns_of_a_timetable() -> None:
    found = answered("timetable", {"tiers": "2", "rows": "2"})
    assert heads(found, "tasks") == [("Begin", "left"), ("Task", "left"), ("Work", "right"), ("Slack", "right")]
    assert heads(found, "days") == [("Day", "left"), ("Work", "right")]
    labels = ("Filling and coats", "Stacking and piping", "Moving, setting up, softening", "In all", "Longest at one time")
    assert heads(found, "out") == [("Tier", "left"), *((label, "right") for label in labels)]
    assert heads(found, "made_ahead") == [(label, "left") for label in ("Task", "Keeps", "Not before", "Planned")]


def test_how_long_each_tier_is_out() -> None:
    """Two spells of 90 and 45 min, of which an hour is coating and 20 min moving: the rest, 55 min, is stacking and piping."""
    answer = Answer("timetable", "metric")
    one = TimeOut(1, ((at(9), at(10.5)), (at(12), at(12.75))), 60.0, 20.0)
    out_table(answer, (one,), ("low", "high"), 90.0)
    assert rows(answer, "out") == [["high", "1 h", "55 min", "20 min", "2 h 15 min", "1 h 30 min"]]
    assert [(name, figure["label"], figure["text"]) for name, figure in answer.figures.items()] == [
        ("out_2", "Out of the fridge in all, high", "2 h 15 min"),
        ("out_longest_2", "Longest at one time, high", "1 h 30 min"),
    ]
    assert (value(answer, "out_2"), value(answer, "out_longest_2")) == (135, 90) and all(figure.get("quiet") for figure in answer.figures.values())
    assert "Before a tier would be out for over 1 h 30 min at one time it goes back in" in answer.notes[0]["text"]


def test_what_may_be_made_ahead() -> None:
    """Only what keeps so long and no longer; until it is used or eaten; one line says that it is too early."""
    answer = Answer("timetable", "metric")
    plan = [
        step(9, 20, name="Bake", keeps_min=2880, not_before=at(-39)),
        step(33.25, 20, name="Finish", keeps_min=1440, keeps_until="eat", not_before=at(40), stale=True),
        step(10, 20, name="Mark", keeps_min=None, not_before=at(1)),
        step(11, 20, name="Wash", keeps_min=60, not_before=None),
    ]
    ahead_table(answer, SimpleNamespace(steps=plan))  # type: ignore[arg-type]
    assert rows(answer, "made_ahead") == [
        ["Bake", "2 d, until it is used", "Wed 13, 09:00", "Fri 15, 09:00"],
        ["Finish", "1 d, until it is eaten", "Sat 16, 16:00", "Sat 16, 09:15, too early"],
    ]
    answer = Answer("timetable", "metric")
    ahead_table(answer, SimpleNamespace(steps=plan[2:]))  # type: ignore[arg-type]
    assert answer.tables == []


@pytest.mark.parametrize(
    "hand, words", [("practised", "a hand that is practised. They"), ("quick", ", which take 0.7 times as long as a practised one. They")]
)
def test_whose_hand_the_times_are_for(hand: str, words: str) -> None:
    answer = Answer("timetable", "metric")
    hand_note(answer, hand)
    assert words in answer.notes[0]["text"] and ("which take" in answer.notes[0]["text"]) == (PACE[hand] != 1)


def test_tins_that_do_not_go_into_the_oven_are_named() -> None:
    """All of those and no others, in their order; a tin of two sizes by both; nothing where all go in."""
    oven = Oven(450.0, 400.0, 2)

    def said_of(*tiers: TierWork) -> list[str]:
        answer = Answer("timetable", "metric")
        oven_cautions(answer, tiers, oven)
        return [one["text"] for one in answer.cautions]

    wide, deep, small = TierWork("wide", 500, 100), TierWork("deep", 300, 100, length_mm=500), TierWork("small", 300, 100)
    assert said_of(small) == []
    assert said_of(wide, small, deep)[0].startswith("Too large for a shelf of 45 cm x 40 cm: the tins of wide, deep. Each of their layers")


# --- whole cakes --------------------------------------------------------------------------------------------------------------------------


def test_a_small_cake_line_by_line() -> None:
    """One tier, bought sponges, two people; ready at 18:00 on a Saturday, out of the fridge for an hour before: begun at 16:55, with 5 min to take it
    out. Before that it chills for half an hour from 16:25, and so on backwards; two hands at work from 11:20."""
    typed = {"tiers": "20 x 10 cm", "rows": "2", "people": "2", "spare": "", "bake": "no"}
    found = answered("timetable", typed)
    assert rows(found, "tasks") == [
        ["Sat 11:20", "Make the buttercream, 2 batches", "40 min (1)", "none"],
        ["Sat 11:45", "Boards and supports", "15 min (2)", "none"],
        ["Sat 12:00", "Level, fill and build: cake, then 30 min in the fridge", "30 min (1)", "none"],
        ["Sat 13:00", "Crumb coat: cake, then 30 min in the fridge", "20 min (1)", "none"],
        ["Sat 13:50", "Final coat: cake, then 1 h in the fridge", "35 min (1)", "none"],
        ["Sat 13:50", "Tint 4 colours, then 1 h", "25 min (2)", "none"],
        ["Sat 15:15", "Fit tips, fill 2 bags", "10 min (1)", "none"],
        ["Sat 15:25", "Tape, divide and mark: cake", "10 min (1)", "none"],
        ["Sat 15:35", "Pipe: row 1", "20 min (1)", "none"],
        ["Sat 15:55", "Pipe: row 2", "20 min (1)", "none"],
        ["Sat 16:15", "Look it over, mend, chill until set, then 30 min in the fridge", "10 min (1)", "none"],
        ["Sat 16:55", "Out of the fridge to soften, then 1 h", "5 min (1)", "none"],
    ]
    assert rows(found, "days") == [["Sat 16", "4 h"]] and value(found, "hands") == 240 and value(found, "start") == 400
    assert (value(found, "days_before"), value(found, "steps"), value(found, "in_fridge")) == (0, 12, 1)
    assert found.figures["start"]["text"] == "Sat 16 October 2027, 11:20" and "stacked" not in found.figures
    quiet = {name for name, figure in found.figures.items() if figure.get("quiet")}
    assert {"steps", "in_fridge", "out_1", "out_longest_1"} == quiet
    assert [sheet["title"] for sheet in found.sheets] == ["Timetable to tick off"]
    assert [(one["name"], one["title"], one["type"]) for one in found.files] == [("cake-timetable.ics", "Calendar file", "text/calendar")]


EARLY: Typed = {"hours": "Mon 9:00 to 18:00; Sat 16:00 to 18:00"}
ROAD: Typed = {"tiers": "1", "travel": "1 h", "out_limit": "1 h"}
TIMED: list[tuple[str, Typed, Typed]] = [
    # what is said, what is typed so that it is, and what is changed so that it is not
    ("The number in brackets says which person.", {"people": "2"}, {"people": "1"}),
    ("3 tiers are in the fridge at one time, and yours holds 2. Find a second", {"tiers": "3", "fridge": "2"}, {"fridge": "3"}),
    ("tiers are in the fridge at one time", {"tiers": "3", "fridge": "2"}, {"fridge": ""}),
    (
        "Made further ahead than it usually keeps: Final coat: upper tier, Final coat: l",
        {"hours": "Mon 9:00 to 18:00; Sat 16:00 to 18:00"},
        {"hours": ""},
    ),
    ("Too large for a shelf of 45 cm x 40 cm: the tins of lower tier. Each", {"tiers": "60 x 50 x 10 cm; 20 x 10 cm"}, {"oven_shelf": "70 x 60 cm"}),
    ("Stack the tiers at home, before they are piped: two people can", {"tiers": "2"}, {"stacked": "before"}),
    ("Stack the tiers at the venue: you chose so.", {"tiers": "2", "stacked": "venue"}, {"stacked": "after"}),
    ("Stack the tiers at the venue: it is taller", {"tiers": "20 x 25 cm; 15 x 20 cm"}, {"tiers": "20 x 10 cm; 15 x 10 cm"}),
    ("which take 0.7 times as long", {"hand": "quick"}, {"hand": "practised"}),
    ("Working hours: every day 09:00 to 18:00. Every task is as late as it can be", {}, {"hours": "8:00 to 18:00"}),
    ("Before a tier would be out for over 1 h at one time", {"out_limit": "1 h"}, {"out_limit": "2 h"}),
    (
        "A tier is out of the fridge for 2 h 20 min at one time, and you allow 1 h.",
        {"tiers": "1", "travel": "1 h", "out_limit": "1 h"},
        {"travel": ""},
    ),
]


@pytest.mark.parametrize("words, typed, changed", TIMED)
def test_a_sentence_of_a_timetable(words: str, typed: Typed, changed: Typed) -> None:
    start: Typed = {"rows": "2", **typed}
    change = {name: text or None for name, text in changed.items()}
    assert any(words in text for text in sentences("timetable", start)), sentences("timetable", start)
    assert not any(words in text for text in sentences("timetable", start | change))


def test_where_tiers_are_stacked() -> None:
    """As it is asked for; left open, by height and weight, whichever tier is written first. Both "before" and "after" are at home."""
    lighter, heavier = (TierWork("a", 200, 100), TierWork("b", 150, 100)), (TierWork("a", 150, 100), TierWork("b", 300, 400))
    for stacked, tiers, apart in (
        *(("suits", lighter, False), ("suits", heavier, True), ("suits", heavier[::-1], True), ("before", heavier, False)),
        *(("after", heavier, False), ("venue", lighter, True)),
    ):
        asked = parse(CALCULATORS["timetable"], {"stacked": stacked})
        assert stacking_of(asked, tiers).apart == apart, (stacked, tiers)
    low = (TierWork("a", 200, 190), TierWork("b", 150, 200))  # with 5 mm of coat each just 40 cm
    assert not stacking_of(parse(CALCULATORS["timetable"], {}), low).apart
    assert stacking_of(parse(CALCULATORS["timetable"], {}), (TierWork("a", 200, 191), low[1])).apart
    assert not stacking_of(parse(CALCULATORS["timetable"], {}), (TierWork("a", 200, 20), TierWork("b", 150, 20))).apart  # fillings of half of it


def test_where_they_are_stacked_goes_by_the_usual_coat_and_filling(monkeypatch: pytest.MonkeyPatch) -> None:
    """5 mm of coat and 12 mm of fillings, or half of a tier that is lower than 24 mm; the widest first."""
    made: list[tuple[float, float, float, float]] = []
    true = timetable_form.body_of

    def body(sponge: Any, height_mm: float, coat_mm: float, filling_mm: float, density: float) -> Any:
        made.append((sponge.width_mm, height_mm, coat_mm, filling_mm))
        return true(sponge, height_mm, coat_mm, filling_mm, density)

    monkeypatch.setattr(timetable_form, "body_of", body)
    stacking_of(parse(CALCULATORS["timetable"], {}), (TierWork("a", 150, 21), TierWork("b", 250, 100), TierWork("c", 200, 24)))
    assert made == [(250, 100, 5, 12), (200, 24, 5, 12), (150, 21, 5, 10.5)]


def test_the_chart_of_a_timetable_runs_over_its_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    given: list[bool] = []
    true = timetable_form.timetable_scene

    def scene(plan: Any, *, over: bool, say: Any) -> Any:
        given.append(over)
        return true(plan, over=over, say=say)

    monkeypatch.setattr(timetable_form, "timetable_scene", scene)
    found = answered("timetable", {"tiers": "20 x 10 cm", "rows": "2", "people": "2", "spare": "", "bake": "no"})
    assert given == [True] and found.drawings[0]["description"].startswith("12 tasks from Saturday 11:20 to Saturday 18:00")


def test_where_they_are_stacked_decides_when(monkeypatch: pytest.MonkeyPatch) -> None:
    jobs: list[Any] = []
    true = timetable_form.plan_cake

    def planned(ready_at: Any, job: Any, hours: Any, people: int, places: dict[str, int]) -> Any:
        jobs.append((job, people, places))
        return true(ready_at, job, hours, people, places)

    monkeypatch.setattr(timetable_form, "plan_cake", planned)
    for typed, stacked in (({}, "before"), ({"stacked": "after"}, "after"), ({"stacked": "before"}, "before"), ({"stacked": "venue"}, "venue")):
        plan_of(parse(CALCULATORS["timetable"], {"tiers": "2", "rows": "2"} | typed))
        assert jobs[-1][0].stacked == stacked, typed
    more = {"travel": "1 h", "spare": "30 min", "bags": "5", "colours": "3", "oven": "2", "fridge": "4", "people": "3", "soften": "20 min"}
    more |= {"hand": "quick", "out_limit": "90 min", "oven_shelf": "60 x 40 cm", "oven_shelves": "3"}
    plan_of(parse(CALCULATORS["timetable"], {"tiers": "2", "rows": "2"} | more))
    job, people, places = jobs[-1]
    assert (job.travel_min, job.spare_min, job.bags, job.colours, job.temper_min, job.hand, job.out_limit_min) == (60, 30, 5, 3, 20, "quick", 90)
    assert (people, places, job.oven) == (3, {"oven": 2, "fridge": 4}, Oven(600, 400, 3))
    plan_of(parse(CALCULATORS["timetable"], {"tiers": "2", "rows": "2", "spare": "", "travel": "", "bags": ""}))
    job, people, places = jobs[-1]
    assert (job.travel_min, job.spare_min, job.bags, places) == (0, 0, 0, {"oven": 1})


def test_the_oven_as_it_is_asked_for() -> None:
    assert oven_of(parse(CALCULATORS["timetable"], {"oven_shelf": "60 x 30 cm", "oven_shelves": "1"})) == Oven(600, 300, 1)


def test_work_that_cannot_be_begun_in_time() -> None:
    typed = {"tiers": "20 x 10 cm", "rows": "2", "people": "2", "spare": "", "bake": "no"}
    assert calc.compute("timetable", typed | {"not_before": "2027-10-16 11:20"}).problems == []
    assert refused("timetable", typed | {"not_before": "2027-10-16 11:25"}) == (
        "not_before",
        "The work would have to begin on Sat 16 October 2027, 11:20, before you can. Give longer working hours, more people, or fewer rows",
    )
    assert refused("timetable", typed | {"not_before": "2027-10-16 11:25", "units": "us"})[1].startswith(
        "The work would have to begin on Sat, October 16, 2027, 11:20 AM, before you can."
    )
    field, message = refused("timetable", {"rows": "2", "hours": "Mon 9:00 to 9:10"})
    assert field == "hours" and message.startswith("Working hours leave no room: ") and message.endswith(". Give longer hours or more days")


TIERS_WRITTEN = "Write a count, like 2, or the tiers from the lowest up, like 20 x 10 cm; 15 x 10 cm"


@pytest.mark.parametrize(
    "text, message",
    [
        ("0", f"Tiers must be between 1 and 7. {TIERS_WRITTEN}"),
        ("8", f"Tiers must be between 1 and 7. {TIERS_WRITTEN}"),
        ("; ".join(["20 cm"] * 8), f"Tiers must be between 1 and 7. {TIERS_WRITTEN}"),
        (";", f"Tiers must be between 1 and 7. {TIERS_WRITTEN}"),
        ("", f"Tiers is empty. {TIERS_WRITTEN}"),
        ("20 x x 10 cm", f"Tiers: “20 x x 10 cm” does not read as a tier. {TIERS_WRITTEN}"),
        ("20 x 20 x 20 x 20 centimetres in all", f"Tiers: “20 x 20 x 20 x 20 centimetres ” does not read as a tier. {TIERS_WRITTEN}"),
        ("20 x 41 cm", f"Tiers are 5 cm to 100 cm wide and 2 cm to 40 cm high. {TIERS_WRITTEN}"),
        ("105 x 10 cm", f"Tiers are 5 cm to 100 cm wide and 2 cm to 40 cm high. {TIERS_WRITTEN}"),
        ("105 x 20 x 10 cm", f"Tiers are 5 cm to 100 cm wide and 2 cm to 40 cm high. {TIERS_WRITTEN}"),
        ("20 x 105 x 10 cm", f"Tiers are 5 cm to 100 cm wide and 2 cm to 40 cm high. {TIERS_WRITTEN}"),
        ("4.9 x 10 cm", f"Tiers are 5 cm to 100 cm wide and 2 cm to 40 cm high. {TIERS_WRITTEN}"),
    ],
)
def test_tiers_of_a_timetable_that_cannot_be(text: str, message: str) -> None:
    with pytest.raises(Problem) as found:
        read_tiers(text, "tiers", "Tiers")
    assert (found.value.input, found.value.message) == ("tiers", message)


@pytest.mark.parametrize(
    "text, names, sizes",
    [
        ("1", ["cake"], [(150, 100, None)]),
        ("2", ["lower tier", "upper tier"], [(200, 100, None), (150, 100, None)]),
        ("3", ["lower tier", "middle tier", "top tier"], [(250, 100, None), (200, 100, None), (150, 100, None)]),
        ("4", ["tier 1", "tier 2", "tier 3", "tier 4"], [(300, 100, None), (250, 100, None), (200, 100, None), (150, 100, None)]),
        ("30 x 20 x 8 cm Rectangle; 15 cm round", ["lower tier", "upper tier"], [(300, 80, 200), (150, 100, None)]),
        ("sheet 30 by 20 by 8 cm\n10 × 9 cm", ["lower tier", "upper tier"], [(300, 80, 200), (100, 90, None)]),
    ],
)
def test_tiers_of_a_timetable(text: str, names: list[str], sizes: list[tuple[float, float, float | None]]) -> None:
    assert len(read_tiers("; ".join(["20 cm"] * 7), "tiers", "Tiers")) == 7
    found = read_tiers(text, "tiers", "Tiers")
    assert [tier.name for tier in found] == names and [(tier.width_mm, tier.height_mm, tier.length_mm) for tier in found] == sizes


ROWS_WRITTEN = "Write a count, like 8, or rows in piping order with their times, like swags 25 min; shells 15 min on tier 2"


@pytest.mark.parametrize(
    "text, message",
    [
        ("61", f"Rows must be 60 or fewer. {ROWS_WRITTEN}"),
        ("; ".join(["swags"] * 61), f"Rows must be 60 or fewer. {ROWS_WRITTEN}"),
        ("leaves; swags on tier 3", f"Rows: row 2 is on tier 3, and there are 2. {ROWS_WRITTEN}"),
        ("swags 12345", f"Rows: row 1: 12345 has no unit of time. {ROWS_WRITTEN}"),
        ("leaves; swags 1e3", f"Rows: row 2: 1e3 has no unit of time. {ROWS_WRITTEN}"),
        ("swags 10 min and 20 min later", f"Rows: row 1: it has two times. {ROWS_WRITTEN}"),
        (f"swags {'1' * 70}", f"Rows: row 1: {'1' * 60}. {ROWS_WRITTEN}"),
        ("swags 25 h", f"Rows: row 1 must take between 1 min and 24 h. {ROWS_WRITTEN}"),
        ("x" * 2001, "Rows: row 1 has over LONGEST characters. Shorten it"),
    ],
)
def test_rows_of_a_timetable_that_cannot_be(text: str, message: str) -> None:
    with pytest.raises(Problem) as found:
        read_rows(text, "rows", "Rows", 2)
    assert found.value.message == message.replace("LONGEST", str(calc.units.LONGEST_TEXT)) and found.value.input == "rows"


def test_rows_by_their_number_are_all_in() -> None:
    """The 20 minutes of a row that only has a number hold all there is to it, marking and changing bags; so do typed ones."""
    counted, written = read_rows("3", "rows", "Rows", 2), read_rows("swags: 25 min; 1 h 30 min, on the tier 2; bases, tier 2", "rows", "Rows", 2)
    assert [(row.name, row.tier, row.time_min, row.all_in, row.joint) for row in counted] == [
        *(("row 1", 0, 20, True, False), ("row 2", 0, 20, True, False), ("row 3", 1, 20, True, False)),
    ]
    assert [(row.name, row.tier, row.time_min, row.all_in, row.joint) for row in written] == [
        *(("swags", 0, 25, True, False), ("row 2", 1, 90, True, False), ("bases", 1, 20, True, True)),
    ]
    assert len(read_rows("60", "rows", "Rows", 7)) == 60 and read_rows("", "rows", "Rows", 2) == () and len(read_rows("060", "rows", "Rows", 1)) == 60
    assert read_rows("swags 24 h", "rows", "Rows", 1)[0].time_min == 1440


@pytest.mark.parametrize("title, name, calendar", [("Sun cake", "Sun cake", "Sun cake"), ("", "", "Cake")])
def test_the_sheet_and_the_calendar_of_a_timetable(monkeypatch: pytest.MonkeyPatch, title: str, name: str, calendar: str) -> None:
    """The sheet's heading has the name as it was typed, the calendar a name in any case; the tasks have boxes."""
    given: list[tuple[Any, ...]] = []

    class Sheet:
        def pdf(self, units: str) -> bytes:
            return units.encode()

    def sheet(answer: Any, *more: Any) -> Sheet:
        given.append(more)
        return Sheet()

    monkeypatch.setattr(timetable_form, "list_sheet", sheet)
    typed = {"tiers": "20 x 10 cm", "rows": "2", "title": title, "units": "us"}
    assert calc.sheet("timetable", typed, "timetable", "letter") == b"us"
    ((sheet_name, kind, tables, paper, ticked, _, heading, under),) = given
    assert (sheet_name, kind, tables, paper, ticked) == ("timetable", "Timetable", ("tasks", "out", "days", "made_ahead"), "letter", ("tasks",))
    assert (heading.order_name, heading.day) == (name, "Sat, October 16, 2027, 6:00 PM") and under == "Ready at Sat, October 16, 2027, 6:00 PM"
    text = calc.sheet("timetable", typed, "cake-timetable.ics", "A4").decode()
    assert calendar in text and text.startswith("BEGIN:VCALENDAR")
    with pytest.raises(KeyError):
        calc.sheet("timetable", typed, "timetables", "A4")


# --- texts kept in a file -----------------------------------------------------------------------------------------------------------------

KEPT = TextKept("order", "The order", "Begin")


def unread(text: str) -> str:
    with pytest.raises(Problem) as found:
        KEPT.read(text)
    assert found.value.input == "order"
    return found.value.message


def test_parts_of_a_name_are_counted_one_after_another() -> None:
    """Forty parts, twice, beside each other are as deep as forty; a space between two parts is nothing, a new line, a comma or a bracket begins
    again."""
    forty = ".".join(["a"] * 40)
    deep = ".".join(["a"] * (DEEPEST_TOML + 1))
    for text in (f"{forty} = 1\n{forty} = 1", f"{{{forty} = 1, {forty} = 2}}", f"[{forty}]\n{forty} = 1"):
        KEPT._check_depth(text)
    for text in (f"{deep} = 1", deep.replace(".", " . ") + " = 1", deep.replace(".", "\t.") + " = 1", f"b = 1\n{deep} = 1"):
        with pytest.raises(Problem) as found:
            KEPT._check_depth(text)
        assert found.value.message == f"The order is nested more than {DEEPEST_TOML} deep, and no order is. Load one that was saved here"


def test_brackets_that_close_make_room_and_those_too_many_do_not() -> None:
    """A hundred that open and close in turn are one deep; closing brackets before the first do not go below nothing."""
    KEPT._check_depth("[]{}" * 100)
    KEPT._check_depth("]" + "[" * DEEPEST_TOML)
    KEPT._check_depth("[" * 40 + "]" * 40 + "{" * 40 + "}" * 40)
    many = DEEPEST_TOML + 1
    for text in ("]" * 30 + "[" * many, "[" * 40 + "]" * 10 + "{" * (many - 30), "}" * 30 + "{" * many):
        with pytest.raises(Problem, match="is nested more than"):
            KEPT._check_depth(text)
    KEPT._check_depth("[" * 40 + "]" * 10 + "{" * (many - 31))


def test_a_form_is_six_deep_and_has_two_thousand_texts() -> None:
    """Seven levels of names are read, eight are not; a list in a list counts as a level."""
    assert KEPT.read("a.b.c.d.e.f = 1") == {"a.b.c.d.e.f": "1"}
    assert unread("a.b.c.d.e.f.g = 1") == "The order holds more than any order can. Begin"
    assert KEPT.read("a = [[1, 2], [3]]") == {"a.0": "1, 2", "a.1": "3"}
    assert KEPT.read("a = [{b = 1}, {b = 2}, 3]") == {"a.0.b": "1", "a.1.b": "2", "a.2": "3"}
    assert KEPT.read("a = []") == {"a": ""}
    flat: dict[str, str] = {str(i): "" for i in range(2000)}
    KEPT._flatten(1, "a", flat, 6)
    assert flat["a"] == "1" and len(flat) == 2001
    with pytest.raises(Problem, match="holds more than any order can"):
        KEPT._flatten(1, "b", flat, 0)


def test_too_long_a_name_is_a_problem_of_the_whole_text() -> None:
    """Five parts of 190 letters, each short enough, are a name of 954: said at the text, since no field is called so."""
    message = unread(f"{'.'.join(['a' * 190] * 5)} = 1")
    assert message.startswith(f"The input called {'a' * 30}… has a name of 954 characters in 5 parts; ")


def test_what_does_not_read_is_told_with_its_place_where_there_is_one() -> None:
    ending = "Each line is a name, an equals sign and a text in quotes"
    assert unread("a = = 1") == f"The order does not read as TOML at line 1, column 5. {ending}"
    assert unread("b = 1\na b") == f"The order does not read as TOML at line 2, column 3. {ending}"
    assert unread("a = 2027-02-30").startswith("The order does not read as TOML")


def test_names_in_names_and_lists_are_written_in_order() -> None:
    """Copies of a group are a list in the order of their numbers; of a name that is a field and a group what comes first stays."""
    assert KEPT.write({"b": "2", "a": "1"}, ("a",)) == 'a = "1"\nb = "2"\n'
    assert KEPT.write({"t.10.x": "ten", "t.2.x": "two"}, ()) == 't = [\n    { x = "two" },\n    { x = "ten" },\n]\n'
    assert KEPT.write({"t.x": "1", "t": "2"}, ()) == '[t]\nx = "1"\n'
    assert KEPT.write({"u.t.x": "1", "u.t": "2"}, ()) == '[u.t]\nx = "1"\n'
    assert KEPT.write({"t": "2", "t.x": "1"}, ()) == 't = "2"\n'
    assert KEPT.write({"t.0": "1", "t.1": "2"}, ()) == '[t]\n0 = "1"\n1 = "2"\n'  # texts by number are no copies of a group
    assert KEPT.write({"t.0.x": "1", "t.y.x": "2"}, ()) == '[t.0]\nx = "1"\n\n[t.y]\nx = "2"\n'
    assert KEPT.write({"t.a.0.x": "1"}, ()) == '[t]\na = [\n    { x = "1" },\n]\n'
    assert KEPT.write({"a": 'say "so"\nand so'}, ()) == 'a = "say \\"so\\"\\nand so"\n'
