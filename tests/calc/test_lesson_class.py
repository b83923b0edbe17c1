"""A class as it is held: order, breaks, clock times, bags and refills, spare copies, whole kits, recipe and cost a head."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import calc
from calc.lesson import BREAK_EVERY_MIN, EXERCISES, Lesson, cutter_mm, least_minutes, lesson, read_exercises, things_for, usual_breaks
from calc.units import Formatter

TEN = {"students": "10", "exercises": "swags, shells and roses", "minutes": "3 h"}  # ten beginners, three hours


def class_of(text: str, students: int = 10, minutes: float = 180.0, **more: float) -> Lesson:
    return lesson(students, read_exercises(text, "exercises", "Exercises"), minutes, **more)  # type: ignore[arg-type]


def table(inputs: dict[str, str], name: str) -> list[list[str]]:
    answer = calc.compute("lesson", inputs)
    assert not answer.problems, answer.problems
    return next(found["rows"] for found in answer.tables if found["name"] == name)


def test_the_easiest_comes_first_unless_the_teacher_says_otherwise() -> None:
    shown = [row[2] for row in table(TEN, "plan") if row[2].startswith("Show")]
    assert shown == ["Show: shells", "Show: swags", "Show: small roses"]
    typed = [row[2] for row in table(TEN | {"in_order": "typed"}, "plan") if row[2].startswith("Show")]
    assert typed == ["Show: swags", "Show: shells", "Show: small roses"]


# --- breaks and the clock ------------------------------------------------------------------------------------------------


def test_how_many_breaks_are_usual() -> None:
    """Common practice: no longer than 90 minutes at a stretch."""
    assert [usual_breaks(minutes) for minutes in (60, 90, 91, 180, 181, 271)] == [0, 0, 1, 1, 2, 3]
    assert (BREAK_EVERY_MIN.low, BREAK_EVERY_MIN.high) == (60, 120)  # an hour to two, by common practice


def test_a_break_comes_between_two_exercises_where_it_can() -> None:
    """180 min: 10 welcome, 10 clearing and 15 break leave 145; three times 8 + 40 is 144. The cut at 82.5 is nearest to 58 or 106: 106."""
    plan = class_of("shells, swags, roses", breaks=1)
    at = [(slot.start_min, slot.name) for slot in plan.slots]
    assert at == [
        (0, "Welcome, wash hands, set out"), (10, "Show: shells"), (18, "Practise: shells"), (58, "Show: swags"), (66, "Practise: swags"),
        (106, "Break"), (121, "Show: small roses"), (129, "Practise: small roses"), (169, "Empty bags, count tips, wipe down"),
    ]  # fmt: skip
    assert plan.longest_practice_min == 40


def test_a_break_cuts_an_exercise_rather_than_come_much_too_early_or_late() -> None:
    """Two exercises and two breaks of 15. In 160 min the first is wanted at 43.3: between the two, at 65, it is 21.7 late, in the middle of
    shells, at 41.5, but 1.8 early, and a cut counts as 20. In 170 min it is wanted at 46.7: 23.3 late at 70, against 2.7 and 20 at 44."""
    short, long = ([slot.name for slot in class_of("shells, swags", minutes=minutes, breaks=2).slots] for minutes in (160, 170))
    assert "Go on: shells" not in short and short[short.index("Show: swags") - 1] == "Break" and "Go on: swags" in short
    assert "Go on: shells" in long and long[long.index("Show: swags") - 1] == "Break" and "Go on: swags" not in long


def test_a_single_exercise_is_cut_in_two_by_a_break() -> None:
    """120 - 10 - 10 - 15 - 8 = 77 minutes: 39 before the break and 38 after it."""
    plan = class_of("shells", minutes=120, breaks=1)
    practised = [slot.end_min - slot.start_min for slot in plan.slots if slot.practises is not None]
    assert practised == [39, 38] and plan.longest_practice_min == 39
    assert [slot.name for slot in plan.slots][2:5] == ["Practise: shells", "Break", "Go on: shells"]


@given(st.lists(st.sampled_from(sorted(EXERCISES)), min_size=1, max_size=6, unique=True), st.integers(0, 4), st.integers(0, 300), st.integers(1, 40))
@settings(max_examples=150, deadline=None)
def test_breaks_keep_the_hours_whole(chosen: list[str], breaks: int, more: int, each: int) -> None:
    breaks = min(breaks, 2 * len(chosen) - 1)
    minutes = least_minutes(len(chosen), breaks_min=breaks * each) + more
    plan = lesson(5, [EXERCISES[key] for key in chosen], minutes, breaks=breaks, break_min=each)
    rests = [slot for slot in plan.slots if slot.name == "Break"]
    assert len(rests) == breaks and all(slot.end_min - slot.start_min == each for slot in rests)
    assert plan.slots[-1].end_min == pytest.approx(minutes)
    assert all(a.end_min == b.start_min for a, b in itertools.pairwise(plan.slots))
    for exercise in (EXERCISES[key] for key in chosen):
        assert sum(s.end_min - s.start_min for s in plan.slots if s.practises is exercise) == plan.practices[0].minutes >= 8


def test_more_breaks_than_places_are_refused() -> None:
    with pytest.raises(ValueError, match="places for 1 breaks"):
        class_of("shells", minutes=300, breaks=2)


def test_the_plan_tells_the_clock() -> None:
    rows = table(TEN | {"starts": "Saturday 16 October 2027 at 14:00"}, "plan")
    assert [row[0] for row in rows] == ["14:00", "14:10", "14:18", "14:58", "15:06", "15:46", "16:01", "16:09", "16:49"]
    title = next(t["title"] for t in calc.compute("lesson", TEN | {"starts": "2027-10-16 14:00"}).tables if t["name"] == "plan")
    assert title == f"What happens when, from {Formatter().moment(dt.datetime(2027, 10, 16, 14))}"
    american = table(TEN | {"starts": "2027-10-16 14:00", "units": "us"}, "plan")
    assert [row[0] for row in american][:2] == [Formatter("us").clock(dt.time(14)), Formatter("us").clock(dt.time(14, 10))]
    assert [row[0] for row in table(TEN, "plan")][:3] == ["0 min", "10 min", "18 min"]


# --- bags, copies and kits -----------------------------------------------------------------------------------------------


def test_bags_are_refilled_when_they_hold_less_than_the_kit() -> None:
    """All three tips go on one coupler: one bag, filled as often as 300 g, or 150 g, go into what it pipes."""
    for holds, asked in ((300.0, "300 g"), (150.0, "150 g")):
        plan = class_of("shells, swags, roses", breaks=1, bag_holds_g=holds)
        piped = sum(practice.mass_g for practice in plan.practices)
        assert 300 < piped < 450 and plan.fills == -(-piped // holds)
        fillings = next(row for row in table(TEN | {"bag_holds": asked}, "kits") if row[0].startswith("Fillings"))
        assert fillings[1:] == [str(plan.fills), str(11 * plan.fills)]


def test_the_tutor_has_sheets_and_what_is_spare_is_spare() -> None:
    """Ten students and the tutor take 11 copies of each sheet; a tenth more is two, and three sheets make 39."""
    answer = calc.compute("lesson", TEN)
    assert answer.figures["sheets"]["value"] == 3 * (11 + 2) and answer.figures["spare"]["value"] == 2
    kits = {row[0]: row[2] for row in table(TEN, "kits")}
    assert kits["Practice sheets, printed"] == "39, 6 of them spare" and kits["Bags"] == "13, 2 of them spare"
    alone = {row[0]: row[2] for row in table(TEN | {"tutor": "no"}, "kits")}
    assert alone["Practice sheets, printed"] == "33, 3 of them spare" and alone["Bags"] == "11, one of them spare"


def test_left_handed_students_get_mirrored_copies() -> None:
    """Two of ten: two mirrored copies and one to spare; eight, the tutor's and two to spare the other way round."""
    assert table(TEN | {"left_handed": "2"}, "copies") == [[name, "11", "3", "3"] for name in ("Shells", "Swags", "Small roses")]
    assert table(TEN, "copies") == [[name, "13", "2"] for name in ("Shells", "Swags", "Small roses")]


def test_kits_are_whole() -> None:
    place, tables, front = ({thing.name: thing for thing in part} for part in things_for(class_of("shells, swags, strings, roses", minutes=240)))
    for words in ("Tall glass", "Bench scraper", "palette knife", "Damp cloth", "Upright board", "Flower nail"):
        assert [thing.total for name, thing in place.items() if words in name] == [11], words
    for words in ("Scale", "Soft tape measure", "Sticky tape", "Round cutter", "Scissors"):
        assert [thing.total for name, thing in tables.items() if words in name] == [3], words
    assert any("allergies" in name for name in front)
    assert {(thing.each, thing.total) for thing in place.values()} == {(1, 11)} and {(thing.each, thing.total) for thing in tables.values()} == {
        (1, 3)
    }
    assert {(thing.each, thing.total) for thing in front.values()} == {(1, 1)}, "there is one front"
    without = [thing.name for part in things_for(class_of("shells")) for thing in part]
    assert not any(words in name for name in without for words in ("cutter", "Upright", "nail"))


def test_the_cutter_is_that_of_the_swags_on_the_sheet() -> None:
    """Swags 56 mm wide that drop 22 mm lie on a circle of (28^2 + 22^2) / 22 = 57.6 mm across."""
    assert cutter_mm(EXERCISES["swags"]) == pytest.approx((28**2 + 22**2) / 22)
    assert ["Round cutter, about 5.8 cm across", "1", "3"] in table(TEN, "table_kits")


# --- recipe, shopping, cost ----------------------------------------------------------------------------------------------

PRICED = TEN | {
    "packs.0.name": "butter", "packs.0.mass": "250 g", "packs.0.price": "2.50", "packs.1.name": "sugar", "packs.1.mass": "1 kg",
    "packs.1.price": "1.50", "each": "4", "room": "60", "rate": "20", "preparing": "3 h", "margin": "20 %",
}  # fmt: skip


def test_the_recipe_is_for_all_kits_and_told_by_the_batch() -> None:
    answer = calc.compute("lesson", TEN)
    mass, goes = answer.figures["buttercream"]["value"], answer.figures["batches"]["value"]
    assert 3000 < mass < 5000 and goes == -(-mass // 2000)
    alone = calc.compute("batch", {"recipe": "plain", "mass": f"{mass:.6f} g", "whipped": "smooth"})
    weighed = next(t["rows"] for t in alone.tables if t["name"] == "ingredients")
    assert [row[:2] for row in table(TEN, "recipe")] == [row[:2] for row in weighed]
    assert len(table(TEN, "recipe")[0]) == 3


def test_what_to_buy_and_what_it_costs_a_head() -> None:
    """Packs at their prices, 4 a head, the room at 60, six hours at 20; a margin of a fifth of the fees."""
    answer = calc.compute("lesson", PRICED)
    assert not answer.problems
    shopping = {row[0]: row for row in table(PRICED, "shopping")}
    packs = sum(float(row[4]) for row in shopping.values() if row[4] not in ("no price", "from the tap"))
    cost = packs + 10 * 4 + 60 + 6 * 20
    assert answer.figures["cost"]["value"] == pytest.approx(cost)
    assert answer.figures["cost_each"]["value"] == pytest.approx(cost / 10)
    assert answer.figures["fee_each"]["value"] == pytest.approx(cost / 0.8 / 10, abs=0.006)


def test_what_the_cost_leaves_out_is_said_beside_it() -> None:
    answer = calc.compute("lesson", TEN | {"rate": "20"})
    assert "nothing is counted" in answer.figures["cost_each"]["label"]
    some = calc.compute("lesson", PRICED).figures["cost_each"]["label"]
    assert "without milk" in some and "butter" not in some


def test_buttercream_for_a_cake_to_take_home_is_in_no_bag() -> None:
    """250 g for each of eleven, beside what is practised with."""
    bags, cake = table(TEN | {"cake": "250 g"}, "kits")[:2]
    assert bags == table(TEN, "kits")[0] and cake[1:] == ["250 g", "2.75 kg"]


def test_without_prices_no_cost_is_made_up() -> None:
    answer = calc.compute("lesson", TEN)
    assert "cost" not in answer.figures and any("a head" in note["text"] for note in answer.notes)
