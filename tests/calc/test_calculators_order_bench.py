"""The work at the bench, task by task, and the bench sheet: every fact and every sentence, by hand.

The cake is that of test_calculators_order; `RICH` is that of test_calculators_order_amounts. On these sheets all lengths are in one unit.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from calc.calculators import CALCULATORS, order_answer, order_bench
from calc.calculators.declare import parse
from calc.calculators.order_at_bench import BagLeft, BenchTask, _cautions, _coat, _row, bags_left, bench_tasks
from calc.calculators.order_bench import _holds, _marking, _step, pieces_words
from calc.calculators.order_form import plan_of
from calc.calculators.order_time import timetable_of
from calc.calculators.order_words import bag_letters
from calc.drawing.paper import BenchBag, Heading
from calc.drawing.start_plan import start_plan
from calc.drawing.svg import svg
from calc.rows import KINDS
from calc.units import Formatter
from tests.calc.test_calculators_order import CAKE, ONE, answered, asked, planned
from tests.calc.test_calculators_order_amounts import RICH

STEADY = Formatter(steady=True)
BACK = "Begin at the back, at the dot, and follow the arrows."
BEADS = "Squeeze, stop, draw off along the row."
Facts = list[tuple[str, str]]


def task(key: str, **changes: str) -> BenchTask:
    (found,) = [one for one in bench_tasks(planned(**changes), asked(**changes), ()) if one.key == key]
    return found


LINE_OVER = {"tiers__0__rows__0__kind": "ruched border", "tiers__0__rows__0__place": "top edge"} | {
    **{"tiers__0__rows__1__kind": "line", "tiers__0__rows__1__place": "over"}
}
AT_EDGE = {"tiers__0__rows__0__below": "0 mm", "tiers__0__rows__1__kind": "line", "tiers__0__rows__1__place": "side"} | {
    "tiers__0__rows__1__below": "0 mm"
}
STARS = {"tiers__0__repeats": "2", "tiers__0__rows__0__kind": "star", "tiers__0__rows__0__place": "joints"}
# The task's key, what is typed, its title, and all its facts in their order
ROWS: list[tuple[str, dict[str, str], str, Facts]] = [
    (
        "row0",
        {},
        "9 swags, joints 1.2 cm below the top edge",
        [
            ("Bag", "A: cream, 21 g left in it"),
            ("Tip", "petal 11 mm"),
            ("Hold it", "45° to the side"),
            ("How many", "9 swags"),
            ("From one to the next", "7.3 cm"),  # 66 by nine
            ("Set the dividers to", "7.2 cm"),
            ("Set the tape to", "1.2 cm below the top edge"),
            ("In all", "91.6 cm, 21 g"),
        ],
    ),
    (
        "row1",
        {},
        "88 beads, on the top edge",
        [
            ("Bag", "B: cream, 9.6 g left in it"),
            ("Tip", "round 4 mm"),
            ("Hold it", "45° to the surface"),
            ("How many", "88 beads"),
            ("From one to the next", "0.57 cm"),  # 50.3 by 88; in centimetres as everything beside it
            ("In all", "50.3 cm, 9.6 g"),
        ],
    ),
    (
        "row3",
        {},
        "16 leaves, at every joint, 1.2 cm below the top edge",
        [
            ("Bag", "D: cream, 2.3 g left in it"),
            ("Tip", "leaf 6 mm"),
            ("Hold it", "45° to the surface"),
            ("How many", "16 leaves"),
            ("From one to the next", "3.1 cm"),
            ("Set the tape to", "1.2 cm below the top edge"),
            ("In all", "25 cm, 2.3 g"),
        ],
    ),
    # one line all the way round: nothing from one to the next, and no tape on an edge
    (
        "row1",
        LINE_OVER,
        "Ruched border, on the top edge",
        [
            ("Bag", "B: cream, 30 g left in it"),
            ("Tip", "petal 9 mm"),
            ("Hold it", "45° to the edge"),
            ("How many", "one line, all the way round"),
            ("In all", "66 cm, 30 g"),
        ],
    ),
    (
        "row2",
        LINE_OVER,
        "Line, over the ruched border on the top edge",
        [
            ("Bag", "C: cream, 4.8 g left in it"),
            ("Tip", "round 3 mm"),
            ("Hold it", "45° to the surface"),
            ("How many", "one line, all the way round"),
            ("In all", "66 cm, 4.8 g"),
        ],
    ),
    # joints on the edge itself need no tape
    (
        "row0",
        AT_EDGE,
        "9 swags, joints 0 cm below the top edge",
        [
            ("Bag", "A: cream, 21 g left in it"),
            ("Tip", "petal 11 mm"),
            ("Hold it", "45° to the side"),
            ("How many", "9 swags"),
            ("From one to the next", "7.3 cm"),
            ("Set the dividers to", "7.2 cm"),
            ("In all", "91.6 cm, 21 g"),
        ],
    ),
    # two are the fewest that are one after another
    (
        "row2",
        STARS,
        "2 stars, at every joint, 1.2 cm below the top edge",
        [
            ("Bag", "C: cream, 0.45 g left in it"),
            ("Tip", "open star 6 mm"),
            ("Hold it", "90°"),
            ("How many", "2 stars"),
            ("From one to the next", "33 cm"),
            ("Set the tape to", "1.2 cm below the top edge"),
            ("In all", "1.7 cm, 0.45 g"),
        ],
    ),
    (
        "row4",
        RICH,
        "56 shells, on the top, 0.7 cm in from the edge",
        [
            ("Bag", "E: sage and cream, 39 g left in it"),
            ("Tip", "open star 7 mm"),
            ("Hold it", "45° to the surface"),
            ("How many", "56 shells"),
            ("From one to the next", "1.2 cm"),
            ("In all", "65.3 cm, 39 g"),
        ],
    ),
    (
        "row0",
        {"cutters": "", "units": "us"},
        "8 swags, joints 15/32 in below the top edge",
        [
            ("Bag", "A: cream, 3/4 oz left in it"),
            ("Tip", "petal 11 mm"),
            ("Hold it", "45° to the side"),
            ("How many", "8 swags"),
            ("From one to the next", "3 1/4 in"),
            ("Set the dividers to", "3 3/16 in"),
            ("Set the tape to", "15/32 in below the top edge"),
            ("In all", "35 7/8 in, 3/4 oz"),
        ],
    ),
]


@pytest.mark.parametrize("key, changes, title, facts", ROWS)
def test_a_row_is_told_with_all_that_the_hand_needs(key: str, changes: dict[str, str], title: str, facts: Facts) -> None:
    found = task(key, **changes)
    assert (found.title, list(found.facts)) == (title, facts)


def test_one_piece_alone_has_none_after_it() -> None:
    """No row of an order has one piece; if one has, it is told in the singular and without a distance."""
    cake = planned()
    step = cake.steps[0]
    alone = replace(step, row=replace(step.row, comes_to=replace(step.row.amount, count=1)))
    letters = bag_letters(cake)
    found = _row(BenchTask("row0", "Swags", ""), cake, alone, letters, {letter: "21 g" for letter in letters.values()}, {0: "Not this."}, {}, STEADY)
    assert found.title == "1 swag, joints 1.2 cm below the top edge" and "From one to the next" not in dict(found.facts)


@pytest.mark.parametrize(
    "count, kind, words", [(1, "swag", "1 swag"), (2, "leaf", "2 leaves"), (3, "small rose", "3 small roses"), (9, "line", "line")]
)
def test_pieces_are_counted_and_lines_named(count: int, kind: str, words: str) -> None:
    row: Any = SimpleNamespace(asked_kind=KINDS[kind], amount=SimpleNamespace(count=count))
    assert pieces_words(row) == words


def test_the_hand_of_each_row_is_told_in_its_order() -> None:
    """How the hand moves, as a sentence, then where it begins, then what is odd; a rope's letter stays large."""
    assert task("row1").notes == (BEADS, BACK)
    rope = task("row2", tiers__0__rows__1__kind="rope")
    assert rope.notes == ("Pipe a short S, tuck under its belly, pipe the next.", BACK)
    on_top = {"tiers__0__rows__0__place": "top"}
    (odd,) = [one for one in bench_tasks(planned(**on_top), asked(**on_top), ()) if one.part == "tiers.0.rows.0"]
    assert odd.notes[1:] == (
        BACK,
        "A swag hangs only on the side: here it is worked out as a straight line. Choose Hung on the side to have it hang.",
    )


def test_where_a_row_starts_is_drawn_with_the_joints_that_it_meets() -> None:
    """Leaves sit at the upper tier's joints; shells round the base meet none; those on the top start 7 mm in."""
    cake = planned()
    lower, upper = cake.tiers
    joints = [s / upper.coats.finished.perimeter_mm for s in upper.joints.s_mm]
    assert len(joints) == 8
    leaves, shells = task("row3"), task("row2")
    assert leaves.plan == svg(start_plan(upper.coats.finished, "#f0dfae", 0.0, joints)) and leaves.look == "#f0dfae"
    assert shells.plan == svg(start_plan(lower.coats.finished, "#f0dfae", 0.0, []))
    on_top = {"tiers__0__rows__1__place": "top"}
    step = next(step for step in planned(**on_top).steps if step.row.place == "top")
    top = task(f"row{step.number - 1}", **on_top)
    assert top.plan == svg(start_plan(lower.coats.finished, "#f0dfae", 7.0, [])) and top.part == "tiers.0.rows.1"
    own = bench_tasks(planned(), asked(), (("cream", "#123456"),))
    assert {one.look for one in own if one.key.startswith("row")} == {"#123456"}


MARKS: list[tuple[str, dict[str, str], Facts, str, str]] = [
    (
        "mark0",
        {},
        [
            *(("Round the side", "66 cm"), ("Repeats", "9"), ("Dividers", "7.2 cm"), ("Joints below the top edge", "1.2 cm"), ("Cutter", "7.5 cm")),
            ("Tape, upper edge", "4.2 cm below the top edge"),  # 12 mm and the drop of 29.6
        ],
        "",
        "9 repeats of 7.3 cm close round 66 cm; joints 1.2 cm",
    ),
    ("mark1", {}, [("Round the side", "50.3 cm"), ("Repeats", "8"), ("Dividers", "6.1 cm")], "", ""),
    (
        "mark0",
        {"tiers__0__rows__0__below": "5 cm", "tiers__0__side": "66.4 cm"},
        [
            *(("Round the side", "66.4 cm"), ("Repeats", "9"), ("Dividers", "7.2 cm"), ("Joints below the top edge", "5 cm"), ("Cutter", "7.5 cm")),
            ("Tape, lower edge", "0.58 cm below the top edge"),
        ],
        "66.4 cm",
        "9 repeats of 7.4 cm close round 66.4 cm; joints 5 cm",
    ),
    (
        "mark0",
        {"cutters": "", "units": "us"},
        [
            *(("Round the side", "25 7/8 in"), ("Repeats", "8"), ("Dividers", "3 3/16 in"), ("Joints below the top edge", "15/32 in")),
            ("Marked from", "the paper strip"),
        ],
        "",
        "8 repeats of 3 1/4 in close round 25 7/8 in; joints 15/32 in below the top edge. "
        "No cutter: mark the arcs from a paper strip, drop 1 5/16 in.",
    ),
    (
        "mark0",  # the cutter leaves a gap of 4.2 mm
        {"tiers__0__repeats": "7", "tiers__0__cutter": "9 cm"},
        [
            *(("Round the side", "66 cm"), ("Repeats", "7"), ("Dividers", "9.1 cm"), ("Joints below the top edge", "1.2 cm")),
            ("Marked from", "the paper strip"),
        ],
        "",
        "7 repeats of 9.4 cm close round 66 cm; joints 1.2 cm",
    ),
    (
        "mark0",  # the cutter's drop is not the one that is wanted
        {"tiers__0__repeats": "9", "tiers__0__cutter": "7.5 cm", "tiers__0__rows__0__drop": "4.5 cm"},
        [
            *(("Round the side", "66 cm"), ("Repeats", "9"), ("Dividers", "7.2 cm"), ("Joints below the top edge", "1.2 cm")),
            ("Marked from", "the paper strip"),
        ],
        "",
        "9 repeats of 7.3 cm close round 66 cm; joints 1.2 cm",
    ),
]


@pytest.mark.parametrize("key, changes, facts, typed, note", MARKS)
def test_marking_says_what_is_set_and_takes_what_the_tape_says(key: str, changes: dict[str, str], facts: Facts, typed: str, note: str) -> None:
    found = task(key, **changes)
    number = key.removeprefix("mark")
    assert (list(found.facts), found.typed, found.measures, found.part) == (facts, typed, f"tiers.{number}.side", f"tiers.{number}")
    assert (found.notes == ()) == (note == "") and (not note or found.notes[0].startswith(note)) and len(found.notes) <= 1


OTHERS: list[tuple[str, dict[str, str], str, Facts]] = [
    ("boards", {}, "Boards and supports", [("Lower", "board 31 cm, 4 dowels of 10.5 cm"), ("Upper", "board 16 cm")]),
    (
        "boards",  # dowels as long as a level, and what stands inside; of the middle tier's nine four carry the upper one
        RICH,
        "Boards and supports",
        [
            ("Lower", "board 31 cm, 5 dowels of 10.5 cm"),
            ("Upper", "board 16 cm, 9 dowels of 11.3 cm, 5 of them under a thin board of 14 cm inside"),
            ("Top", "board 10 cm"),
        ],
    ),
    (
        "boards",
        {"tiers__1__height": "20 cm"},
        "Boards and supports",
        [("Lower", "board 31 cm, 4 dowels of 10.5 cm"), ("Upper", "board 16 cm, 4 dowels of 10.3 cm, all under a thin board of 14 cm inside")],
    ),
    (
        "boards",
        {"tiers__1__height": "35 cm"},
        "Boards and supports",
        [("Lower", "board 31 cm, 4 dowels of 10.5 cm"), ("Upper", "board 16 cm, 9 dowels of 11.8 cm, all under 2 thin boards of 14 cm inside")],
    ),
    ("buttercream", {}, "Make the buttercream", [("Swiss meringue", "1.61 kg")]),
    ("tint", {}, "Tint 2 colours", [("ivory", "851 g"), ("plain", "598 g"), ("cream", "160 g")]),
    ("fill0", {}, "Level, fill and build", [("Filling", "377 ml, 338 g")]),
    ("crumb1", {}, "Crumb coat", [("Crumb coat", "133 ml, 119 g")]),
    ("coat1", {}, "Final coat", [("Final coat", "211 ml, 190 g"), ("Colour", "ivory")]),
    ("coat0", RICH, "Final coat", [("Final coat", "303 ml, 272 g"), ("Colour", "russet, ivory"), ("Discs", "21 cm")]),
    ("stack", {}, "Stack the tiers", [("Upper", "up to 1.3 kg, one person")]),
    ("stack", RICH, "Stack the tiers at the venue", [("Upper", "up to 2.67 kg, one person"), ("Top", "up to 531 g, one person")]),
    ("pack", {}, "Box and load", [("The whole cake", "up to 3.55 kg, one person")]),  # 2.24 and 1.3
    ("travel", {}, "On the road", [("The whole cake", "up to 3.55 kg, one person")]),
    (
        "travel",
        RICH,
        "On the road",
        [("Lower", "up to 2.29 kg, one person"), ("Upper", "up to 2.67 kg, one person"), ("Top", "up to 531 g, one person")],
    ),
    ("bags", {}, "Fit tips, fill 1 bag", [("Bag A", "petal 11 mm, cream, 21 g in all")]),
    (
        "bags2",
        {},
        "Fit tips, fill 3 bags",
        [
            ("Bag B", "round 4 mm, cream, 9.6 g in all"),
            ("Bag C", "open star 7 mm, cream, 40 g in all"),
            ("Bag D", "leaf 6 mm, cream, 2.3 g in all"),
        ],
    ),
    ("bags3", RICH, "Fit tips, fill 1 bag", [("Bag G", "open star 10 mm, russet, 60 g in all")]),
    ("spare", {}, "Kept free in case of mishaps", []),
]


@pytest.mark.parametrize("key, changes, title, facts", OTHERS)
def test_each_other_task_says_what_it_takes(key: str, changes: dict[str, str], title: str, facts: Facts) -> None:
    found = task(key, **changes)
    assert (found.title, list(found.facts)) == (title, facts)


def test_a_bag_that_is_filled_twice_says_so() -> None:
    """A bag holds 300 g; two layers of large swags round 40 cm are over that, and under twice as much."""
    changes = {"tiers__0__width": "40 cm", "tiers__0__rows__0__layers": "2", "tiers__0__rows__0__tip": "petal 26 mm"}
    bag = planned(**changes).bags.bags[0]
    assert bag.fills == 2 and 300 < bag.mass_g <= 600
    assert dict(task("bags", **changes).facts)["Bag A"].endswith(" in all, 2 fills")


def test_a_filling_with_a_dam_is_told_with_it() -> None:
    """A ring of 1 cm is made of the same buttercream: together they are what lies between the layers without one."""
    whole, dammed = planned().tiers[0], planned(tiers__0__dam="1 cm").tiers[0]
    assert dammed.coats.dam_ml > 0
    assert _coat("fill", whole, 0.9, STEADY) == _coat("fill", dammed, 0.9, STEADY) == (("Filling", "377 ml, 339 g"),)


def test_each_task_says_when_it_begins_and_what_is_waited_for() -> None:
    """Work begins on Friday, and the cake is ready on Saturday at six."""
    bake, coat, boards = task("bake1"), task("coat0"), task("boards")
    assert (bake.title, bake.when, bake.tier, bake.wait, bake.where) == ("Bake", "Fri 13:25", "Upper", "35 min", "In the oven")
    assert bake.notes == ("Turn out after 10 minutes on a rack.",) and bake.part == "" == bake.plan == bake.measures
    assert (coat.when, coat.tier, coat.wait, coat.where, coat.notes) == ("Sat 10:00", "Lower", "1 h", "In the fridge", ())
    assert (boards.tier, boards.wait, boards.where, boards.wait_min) == ("", "", "", 0.0)
    assert (task("cool0").where, task("set1", **RICH).title) == ("Left to stand", "Look it over, mend, chill until set: Upper")


CARE = {
    "boards": ["Supports are not food"],
    "stack": ["Supports are not food", "Lift from a table"],
    "pack": ["Lift from a table"],
    "travel": ["Lift from a table"],
    "buttercream": ["Standing out", "Egg white", "Allergens from the usual ingredients"],
    "warm0": ["US advice for perishable food"],
    "beat0": ["US advice for perishable food"],
    "out": ["Made-ahead limits here", "All its time out of the fridge", "Heat the egg whites"],
}


def test_care_is_asked_for_where_it_is_needed_and_nowhere_else() -> None:
    for found in bench_tasks(planned(), asked(), ()):
        wanted = CARE.get(found.key, [])
        assert len(found.cautions) == len(wanted) and all(text.startswith(begins) for text, begins in zip(found.cautions, wanted, strict=True)), (
            found.key
        )
    cake, typed = planned(), asked()
    assert _cautions("spare", cake, timetable_of(cake, typed), typed, STEADY) == ()


def test_one_tier_needs_no_care_with_supports_but_a_tall_one_does() -> None:
    for height, wanted in (("10 cm", []), ("20 cm", ["Supports are not food"])):
        typed = parse(CALCULATORS["order"], ONE | {"tiers.0.height": height})
        tasks = {one.key: one for one in bench_tasks(plan_of(typed), typed, ())}
        boards = tasks["boards"].cautions if "boards" in tasks else ()
        assert [text.split(".")[0] for text in boards] == wanted
        assert [text.split(",")[0] for text in tasks["pack"].cautions] == ["Lift from a table"]


def test_bags_are_told_with_what_is_left_of_their_colour() -> None:
    """21, 9.6, 40 and 2.3 g are 73; without the beads 63. A colour that is in one bag alone is not told twice, one in two bags is."""
    cake, typed = planned(), asked()
    table = timetable_of(cake, typed)
    found = bags_left(cake, table, ["row1"], (("cream", "#123456"),), "metric")
    assert found == (
        BagLeft("A", "petal 11 mm", "cream", "#123456", "21 g", "21 g", "63 g"),
        BagLeft("B", "round 4 mm", "cream", "#123456", "0 g", "9.6 g", "63 g"),
        BagLeft("C", "open star 7 mm", "cream", "#123456", "40 g", "40 g", "63 g"),
        BagLeft("D", "leaf 6 mm", "cream", "#123456", "2.3 g", "2.3 g", "63 g"),
    )
    rich = planned(**RICH)
    of = {bag.letter: bag.of_colour for bag in bags_left(rich, timetable_of(rich, asked(**RICH)), (), (), "metric")}
    assert (of["D"], of["G"], of["E"]) == ("71 g", "71 g", "")  # 10.3 and 60.4 of russet; sage and cream by itself
    us = bags_left(cake, table, (), (), "us")
    assert [bag.left for bag in us] == ["3/4 oz", "0.34 oz", "1 3/8 oz", "2.3 g"]


# --- the bench sheet ------------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "changes, tier, words",
    [
        (
            {},
            0,
            "9 repeats, dividers 7.2 cm. Joints 1.2 cm down. Cutter 7.5 cm, drop 3 cm. "
            "Tape with its upper edge 4.2 cm down, the cutter rests on it.",
        ),
        (
            {"tiers__0__rows__0__below": "5 cm"},
            0,
            "9 repeats, dividers 7.2 cm. Joints 5 cm down. Cutter 7.5 cm, drop 3 cm. "
            "Tape with its lower edge 0.46 cm down, the cutter hangs from it.",
        ),
        ({}, 1, "8 repeats, dividers 6.1 cm. Joints 1.2 cm down."),
        ({"tiers__1__rows__1__place": "top"}, 1, "8 repeats, dividers 6.1 cm."),
        ({"cutters": ""}, 0, "8 repeats, dividers 8 cm. Joints 1.2 cm down. No cutter: paper strip, drop 3.3 cm."),
        ({"tiers__0__repeats": "7", "tiers__0__cutter": "9 cm"}, 0,
         "7 repeats, dividers 9.1 cm. Joints 1.2 cm down. No cutter: paper strip, drop 4.5 cm."),
        # a cutter is chosen for the tier, but nothing hangs that it could mark
        ({"tiers__0__rows__0__kind": "bead", "tiers__0__rows__0__place": "top edge", "tiers__0__cutter": "7.5 cm", "tiers__0__repeats": "9"}, 0,
         "9 repeats, dividers 7.2 cm."),
    ],
)  # fmt: skip
def test_a_tier_is_marked_in_few_words(changes: dict[str, str], tier: int, words: str) -> None:
    assert _marking(planned(**changes).tiers[tier], STEADY) == words


def test_bags_and_tiers_of_the_bench_sheet(monkeypatch: pytest.MonkeyPatch) -> None:
    """Weights are set with the others on it: 13.5 g and 9.6 g, not 14 g beside 9.6.

    A bag that is filled twice says so; a step is told how it is reached."""
    monkeypatch.setattr(order_bench, "bench_sheet", lambda *given: given)
    monkeypatch.setattr(order_bench, "reach_texts", lambda cake, say: {2: "Come from below."})
    made: Any = order_bench.bench(planned(tiers__0__rows__0__place="top"), Heading(), "A4", (("cream", "#123456"),), "metric")
    steps, bags, _, tiers, _, _, paper = made
    assert bags[2] == BenchBag("C", "petal 11 mm", "cream", "#123456", "13.5 g", "") and [bag.letter for bag in bags] == ["A", "B", "C", "D"]
    assert [step.bag for step in steps] == ["A", "B", "C", "D"] and [step.note for step in steps[:2]] == ["", "Come from below."]
    assert [tier.name for tier in tiers] == ["Lower, 66 cm round", "Upper, 50.3 cm round"] and paper == "A4"
    low: Any = order_bench.bench(planned(tiers__0__rows__0__below="5 cm"), Heading(), "A4", (), "metric")
    assert " 0.46 cm down, " in low[3][0].marking  # beside 5 cm, and not 4.6 mm
    changes = {"tiers__0__width": "40 cm", "tiers__0__rows__0__layers": "2", "tiers__0__rows__0__tip": "petal 26 mm"}
    big: Any = order_bench.bench(planned(**changes), Heading(), "A4", (), "metric")
    assert [bag.fills for bag in big[1]] == ["2 fills", "", "", ""]


def test_the_words_of_the_answers_bench_section(monkeypatch: pytest.MonkeyPatch) -> None:
    """A step that is hard to reach: one by its number, two together; then the table with a dot for each colour, and angles
    without what follows a comma."""
    words = "The shell of step 1 stands out 9 mm close by."
    monkeypatch.setattr(order_answer, "reach_texts", lambda cake, say: {3: words, 2: "Another word of step 1."})
    found = answered(CAKE)
    said = [note["text"] for note in found.notes if note.get("section") == "bench"]
    assert said == [
        "First: each coat chilled until firm, then marked. Every row starts and closes at the back.",
        "Step 2: another word piped before it.",
        "Step 3: the shell piped before it stands out 9 mm close by.",
    ]
    (table,) = [one for one in found.tables if one["name"] == "bench"]
    assert [column["label"] for column in table["columns"]] == ["Step", "Where", "Tip", "Colour", "Hold it", "How many", "Length", "Weighs"]
    assert [i for i, column in enumerate(table["columns"]) if column["align"] == "right"] == [5, 6, 7]
    assert [column.get("looks") for column in table["columns"]] == [None, None, None, {"cream": "#f0dfae"}, None, None, None, None]
    assert table["rows"] == [
        ["1. Swag, Lower", "joints 1.2 cm below the top edge", "petal 11 mm", "cream", "45° to the side", "9", "91.6 cm", "21 g"],
        ["2. Bead, Upper", "on the top edge", "round 4 mm", "cream", "45° to the surface", "88", "50.3 cm", "9.6 g"],
        ["3. Shell, Lower", "round the base", "open star 7 mm", "cream", "45° to the surface", "63", "66 cm", "40 g"],
        ["4. Leaf, Upper", "at every joint, 1.2 cm below the top edge", "leaf 6 mm", "cream", "45° to the surface", "16", "25 cm", "2.3 g"],
    ]


def test_the_marking_table_of_the_answer_is_titled_by_cake_and_day() -> None:
    """Names to the left, measures to the right. A colour of the reader's own is found however it is written."""
    found = answered(CAKE | {"colours.0.name": "CREAM", "colours.0.look": "#123456", "name": "Ruby"})
    marking, bench = ([one for one in found.tables if one["name"] == name][0] for name in ("marking", "bench"))
    assert marking["title"] == "Ruby, Sat 16 October 2027, 18:00: marking"
    assert [column["align"] for column in marking["columns"]] == ["left", *["right"] * 6]
    assert marking["rows"][0] == ["Lower", "66 cm", "9", "7.2 cm", "1.2 cm", "7.5 cm", "3 cm"]
    assert bench["columns"][3]["looks"] == {"cream": "#123456"}
    assert [name for name, figure in found.figures.items() if figure.get("also") == "cake"] == ["portions", "buttercream", "price"]


PLACES: list[tuple[dict[str, str], list[tuple[str, tuple[float, float]]]]] = [
    # on the top: at the edge's height; a rectangle by half its width, 105, and not by half its length, 155; at its foot round the base
    ({"tiers__0__rows__1__place": "top"}, [("Lower: 54 shells on the top, 0.7 cm in from the edge", (100.8, -105.0))]),
    ({"tiers__0__shape": "rectangle", "tiers__0__length": "30 cm"}, [("Lower: 90 shells round the base", (100.8, 0.0))]),
    # six tenths of 16 cm below 1.2 are under the board: no lower than the foot
    ({"tiers__0__rows__0__drop": "16 cm", "tiers__0__repeats": "4"}, [("Lower: 4 swags, joints 1.2 cm down", (92.4, 0.0))]),
    (
        {
            **{"tiers__0__rows__2__kind": "line", "tiers__0__rows__2__place": "over", "tiers__0__rows__3__kind": "shell"},
            **{"tiers__0__rows__3__place": "inside", "tiers__0__rows__4__kind": "line", "tiers__0__rows__4__place": "side"},
            **{"tiers__0__rows__4__below": "8 cm"},
        },
        [
            ("Lower: line, 8 cm down", (100.8, -25.0)),
            ("Lower: line over the shell round the base", (100.8, 0.0)),
            ("Lower: 54 shells inside the top edge, 0.7 cm in", (100.8, -105.0)),
        ],
    ),
]


@pytest.mark.parametrize("changes, wanted", PLACES)
def test_steps_of_the_bench_sheet_stand_beside_what_they_are_about(changes: dict[str, str], wanted: list[tuple[str, tuple[float, float]]]) -> None:
    cake = planned(**changes)
    found = {step.title: step.at for step in (_step(cake, one, "C", "", STEADY) for one in cake.steps)}
    assert {title: found[title] for title, _ in wanted} == {title: pytest.approx(at) for title, at in wanted}


def test_a_step_of_the_bench_sheet_is_told_whole() -> None:
    """What is odd about it comes first, then how it is reached."""
    cake = planned(tiers__0__rows__0__place="top")
    step = next(step for step in cake.steps if step.row.spec.kind == "swag")
    told = _step(cake, step, "C", "Come from below.", STEADY)
    odd = "A swag hangs only on the side: here it is worked out as a straight line. Choose Hung on the side to have it hang."
    assert (told.number, told.bag, told.length, told.mass, told.note) == (3, "C", "59.1 cm", "13.5 g", f"{odd} Come from below.")
    assert _step(cake, step, "C", "", STEADY).note == odd and told.title == "Lower: 8 swags on the top, 1.1 cm in from the edge"


def test_a_tip_in_two_bags_is_held_once_for_both() -> None:
    """Stars of 7 mm pipe shells in cream, and in sage and cream: one line, begun with a large letter. Two kinds have each its title."""
    rich = planned(**RICH)
    holds = {hold.bags: hold.lines for hold in _holds(rich, bag_letters(rich))}
    assert holds["C, E"] == ("45° to the surface: squeeze hard, ease off, stop, and start on the tail",)
    assert list(holds) == ["A", "B", "C, E", "D", "F", "G"]
    two = planned(tiers__0__rows__2__kind="rope", tiers__0__rows__2__place="top", tiers__0__rows__2__tip="open star 7 mm")
    lines = next(hold.lines for hold in _holds(two, bag_letters(two)) if len(hold.lines) == 2)
    assert [line.split(":")[0] for line in lines] == ["Shell, 45° to the surface", "Rope, 45° to the surface"]
