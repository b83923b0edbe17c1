"""`lesson`: what a class needs: kits, buttercream and its shopping, sheets, tables, what happens when, and what it costs a head."""

from __future__ import annotations

import datetime as dt
import math

from calc import price
from calc.buttercream import batch, recipe_choices
from calc.calculators.declare import Answer, Asked, Calculator, Input, PassedOn
from calc.calculators.lesson_sheets import lesson_sheet, lesson_sheets
from calc.calculators.packs import PACKS, buy, recipe_table
from calc.colours.bags import BAG_HOLDS_G
from calc.lesson import (
    BREAK_MIN,
    CLEAR_MIN,
    DEMO_MIN,
    LEAST_PRACTICE_MIN,
    WELCOME_MIN,
    Lesson,
    Thing,
    cautions,
    least_minutes,
    lesson,
    read_exercises,
    things_for,
    usual_breaks,
)
from calc.rows import Exercise
from calc.units import Formatter, Problem

MOST_MONEY = 1_000_000
ORDERS = (("easiest", "Easiest first"), ("typed", "As I typed them"))


def exercises_of(asked: Asked) -> tuple[Exercise, ...]:
    """What is practised, in order."""
    found = read_exercises(asked["exercises"], "exercises", "Exercises")
    return tuple(sorted(found, key=lambda exercise: exercise.rank)) if asked["in_order"] == "easiest" else found


def breaks_of(asked: Asked, exercises: int) -> int:
    """How many breaks there are: as asked, or the usual number, as far as there is time for them."""
    if asked["breaks"] is not None:
        return int(asked["breaks"])
    found = usual_breaks(asked["minutes"])
    while found and (
        found > 2 * exercises - 1 or least_minutes(exercises, asked["demo"], WELCOME_MIN, CLEAR_MIN, found * asked["break_length"]) > asked["minutes"]
    ):
        found -= 1
    return found


def plan_of(asked: Asked) -> Lesson:
    """The class that is asked for."""
    say, exercises = Formatter(asked.units), exercises_of(asked)
    several = f"{len(exercises)} exercise{'s' if len(exercises) > 1 else ''}"
    breaks = breaks_of(asked, len(exercises))
    if breaks > 2 * len(exercises) - 1:
        raise Problem("breaks", f"Breaks: with {several} there is room for {2 * len(exercises) - 1} at most. Have fewer breaks, or more exercises")
    rests = breaks * asked["break_length"]
    least = least_minutes(len(exercises), asked["demo"], WELCOME_MIN, CLEAR_MIN, rests)
    if asked["minutes"] < least:
        raise Problem(
            "minutes",
            f"Minutes must be {math.ceil(least)} or more for {several}: each is shown for "
            f"{say.duration(asked['demo'])} and needs {LEAST_PRACTICE_MIN:g} min of practice"
            f"{f', and breaks take {say.duration(rests)}' if rests else ''}. Allow longer, or choose fewer exercises",
        )
    if asked["left_handed"] > asked["students"]:
        raise Problem("left_handed", f"Left-handed students must be {asked['students']} or fewer: there are no more students")
    return lesson(
        asked["students"], exercises, asked["minutes"], asked["recipe"], asked["seats"], asked["scrape"],
        asked["tutor"], asked["cake"] or 0.0, asked["demo"], breaks=breaks, break_min=asked["break_length"],
        bag_holds_g=asked["bag_holds"], left_handed=asked["left_handed"],
    )  # fmt: skip


def spare_words(total: int, spare: int) -> str:
    """A number with how many of it are spare: "36, 3 of them spare"."""
    return f"{total}, {spare} of them spare" if spare > 1 else f"{total}, one of them spare" if spare else str(total)


def _thing_words(thing: Thing, say: Formatter) -> str:
    name = say.words(thing.name)
    return name if thing.size_mm is None else f"{name}, about {say.length(thing.size_mm)} across"


def _kits(answer: Answer, plan: Lesson, cake_g: float) -> None:
    say, kits = answer.say, plan.kits
    bags = plan.bag_plan.coupled
    place, table, front = things_for(plan)
    rows = [["Buttercream, in bags", say.mass(plan.per_kit_g - cake_g), say.mass(plan.buttercream_g - kits * cake_g)]]
    if cake_g:
        rows.append(["Buttercream for the cake to take home, in a bowl", say.mass(cake_g), say.mass(kits * cake_g)])
    rows += [[f"Tip: {tip.name}", "1", str(kits)] for tip in plan.tips]
    rows.append(["Bags", str(len(bags)), spare_words(plan.bags, plan.spare_bags)])
    rows.append(["Fillings of those bags", str(plan.fills), str(kits * plan.fills)])
    if plan.bag_plan.couplers:
        rows.append(["Couplers", str(plan.bag_plan.couplers), str(kits * plan.bag_plan.couplers)])
    rows += [
        ["Practice sheets, printed", str(len(plan.practices)), spare_words(plan.sheets, plan.spare * len(plan.practices))],
        ["Parchment or clear film over them", str(plan.overlays_each), spare_words(plan.overlays, plan.overlays - kits * plan.overlays_each)],
        *([_thing_words(thing, say), str(thing.each), str(thing.total)] for thing in place),
    ]
    answer.table("kits", "Kits", ("What", "One kit", f"All {kits}"), rows, (1, 2))
    tables = len(plan.tables)
    answer.table(
        "table_kits",
        "On each table",
        ("What", "One table", f"All {tables}" if tables > 1 else "In all"),
        [[_thing_words(thing, say), str(thing.each), str(thing.total)] for thing in table],
        (1, 2),
    )
    answer.table("front", "At the front", ("What", "How many"), [[thing.name, str(thing.total)] for thing in front], (1,))


def _copies(answer: Answer, plan: Lesson) -> None:
    """How often each practice sheet is printed."""
    heads = ("Sheet", "Copies", *(("Mirrored copies",) if plan.mirrored else ()), "Spare among them")
    rows = [
        [p.exercise.name, str(plan.copies - plan.mirrored), *([str(plan.mirrored)] if plan.mirrored else []), str(plan.spare)] for p in plan.practices
    ]
    answer.table("copies", "Practice sheets to print", heads, rows, tuple(range(1, len(heads))))


def _bags(answer: Answer, plan: Lesson, holds_g: float) -> None:
    """What goes into each bag, and how often it is filled."""
    say = answer.say
    rows = [[", ".join(tip.name for tip in bag.tips), say.mass(bag.mass_g), str(bag.fills)] for bag in plan.bag_plan.coupled]
    answer.table("bags", f"Bags of one kit, filled with {say.mass(holds_g)} at most", ("Tips", "Buttercream", "Filled"), rows, (1, 2))


def _hours(answer: Answer, plan: Lesson, starts: dt.datetime | None) -> None:
    say = answer.say
    rows = []
    for slot in plan.slots:
        at = say.duration(slot.start_min) if starts is None else say.clock(starts + dt.timedelta(minutes=slot.start_min))
        aim = f", {slot.practises.aim}" if slot.practises is not None else ""
        rows.append((at, say.duration(slot.end_min - slot.start_min), slot.name + aim))
    title = "What happens when" if starts is None else f"What happens when, from {say.moment(starts)}"
    answer.table("plan", title, ("From", "Takes", "What"), rows, (0, 1))


def _cost(answer: Answer, asked: Asked, bought: price.Shopping) -> None:
    """What the class costs, and what to ask of each student."""
    say, students = answer.say, asked["students"]
    hours = asked["minutes"] + asked["preparing"]
    each, room, rate = (asked[name] or 0.0 for name in ("each", "room", "rate"))
    if not (bought.cost or each or room or rate):
        answer.note("Type what packs, room and hours cost, under More and Packs, to see what the class costs a head.")
        return
    made = price.price(bought.cost, hours, rate, 0.0, asked["margin"], packaging=each * students, delivery=room, portions=students)
    for name, label, value in (
        ("cost_each", f"Cost a head{bought.unpriced_words}", made.cost_per_portion),
        ("fee_each", "Fee a head, before tax", made.per_portion),
        ("cost", "Cost of the class", made.cost),
    ):
        answer.figure(name, label, value, "", say.money(value))
    answer.table(
        "cost",
        "What it costs, in your money",
        ("What", "Amount"),
        [
            [f"Buttercream, whole packs{bought.unpriced_words}", say.money(made.ingredients)],
            [f"Bags, film, boards, printing for {students}", say.money(made.packaging)],
            [f"Hours of the tutor, {say.working_time(hours)}", say.money(made.labour)],
            ["Room", say.money(made.delivery)],
            ["Cost", say.money(made.cost)],
            [f"Margin, {say.percent(made.margin_percent)} of the fees", say.money(made.profit)],
            [f"Fees of {students}, before any tax", say.money(made.price)],
        ],
        (1,),
    )


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `lesson`."""
    say, plan = answer.say, plan_of(asked)
    answer.mass("buttercream", "Buttercream in all", plan.buttercream_g, plan.low_g, plan.high_g)
    answer.mass("per_kit", "In one kit", plan.per_kit_g)
    answer.count("sheets", "Practice sheets to print", plan.sheets)
    answer.duration("practice", "Practice at each exercise", plan.practices[0].minutes)
    with answer.quietly():
        answer.count("batches", "Batches of 2 kg", plan.batches)
        answer.count("kits", "Kits", plan.kits)
        answer.count("bags", "Bags", plan.bags)
        answer.count("fills", "Fillings of the bags of one kit", plan.fills)
        answer.count("mirrored", "Mirrored copies of each sheet", plan.mirrored)
        answer.count("spare", "Spare copies of each sheet", plan.spare)
        answer.count("tables", "Tables", len(plan.tables))
    _hours(answer, plan, asked["starts"])
    _kits(answer, plan, asked["cake"] or 0.0)
    _bags(answer, plan, asked["bag_holds"])
    _copies(answer, plan)
    heads = ("Exercise", "One sheet", "Times over", "Buttercream")
    answer.table(
        "exercises",
        "Exercises",
        heads,
        [
            (f"{p.exercise.name}, {p.exercise.tip.name}", say.length(p.sheet.length_mm), say.number(p.passes, 1), answer.say.mass(p.mass_g))
            for p in plan.practices
        ],
        (1, 2, 3),
    )
    each = plan.per_kit_g
    answer.table(
        "tables",
        "Table plan",
        ("Table", "Seats", "Buttercream", "Turntables"),
        [(str(number), str(seats), say.mass(seats * each), str(-(-seats // 2))) for number, seats in enumerate(plan.tables, 1)],
        (1, 2, 3),
    )
    made = batch(asked["recipe"], plan.buttercream_g, "smooth")
    recipe_table(answer, made, plan.batches)
    bought = buy(answer, made, asked["packs"])
    _cost(answer, asked, bought)
    answer.note(
        f"{plan.kits} kit{'s' if plan.kits > 1 else ''}, {len(plan.tables)} table{'s' if len(plan.tables) > 1 else ''}"
        + (", and one kit of them is the tutor's, at the front." if asked["tutor"] else ".")
        + f" The buttercream is {plan.batches} batch{'es' if plan.batches > 1 else ''} of up to 2 kg."
    )
    if asked["scrape"]:
        answer.note("Each printed sheet lies under parchment or clear film: pipe, scrape off, fill the bag again.")
    short = [p.exercise.name.lower() for p in plan.practices if p.passes < 1]
    if short:
        answer.note(f"A beginner will not finish a whole sheet in the time: {', '.join(short)}.")
    for name, title in lesson_sheets(plan).items():
        answer.sheet(name, title)
    answer.note("Each practice sheet has three pages: large, the size on the cake, small. The copies are of the second; print the rest as you like.")
    for text in cautions(asked["recipe"], asked["students"], asked["minutes"], math.ceil(plan.longest_practice_min)):
        answer.caution(say.words(text))


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw one of the sheets of a class."""
    answer = Answer("lesson", asked.units)
    work_out(asked, answer)
    return lesson_sheet(asked, answer, plan_of(asked), name, paper).pdf(units=asked.units)


CALCULATOR = Calculator(
    "lesson",
    "Plan a lesson",
    "Kits, buttercream, practice sheets and a table plan for a class.",
    (
        Input("students", "Students", "count", "8", low=1, high=200, help="Such as 8"),
        Input("left_handed", "Left-handed among them", "count", "0", low=0, high=200, help="Their sheets are printed mirrored"),
        Input("exercises", "Exercises", "text", "shells, swags, strings", help="Any technique, such as roses, or a count such as 3"),
        Input("minutes", "Minutes", "duration", "120 min", low=20, high=600, help="Length of the lesson, such as 2 h"),
        Input("starts", "Begins at", "moment", "", optional=True, help="Such as 2027-10-16 14:00; left empty, minutes are counted"),
        Input("recipe", "Recipe", "choice", "plain", choices=recipe_choices),
        Input("in_order", "Order of the exercises", "choice", "easiest", choices=ORDERS, advanced=True),
        Input("breaks", "Breaks", "count", "", low=0, high=6, optional=True, advanced=True,
              help="Left empty: one for each 90 minutes after the first"),
        Input("break_length", "Length of a break", "duration", f"{BREAK_MIN:g} min", low=1, high=120, advanced=True),
        Input("demo", "Showing each exercise", "duration", f"{DEMO_MIN:g} min", low=0, high=60, advanced=True),
        Input("seats", "Seats at a table", "count", "4", low=1, high=50, advanced=True),
        Input("bag_holds", "A bag is filled with", "mass", f"{BAG_HOLDS_G:g} g", kitchen="bag_holds", low=20, high=3000, advanced=True,
              help="As much as a student's hand can hold; small hands take 200 g"),
        Input("scrape", "Scrape off and pipe again", "yes_no", "yes", advanced=True),
        Input("tutor", "A kit for the tutor", "yes_no", "yes", advanced=True),
        Input("cake", "Buttercream for a cake to take home", "mass", "", low=0, high=5000, optional=True, advanced=True,
              help="For each student, such as 250 g; left empty, none", usual=(10, 3000), by_volume=True),
        Input("each", "Materials a head", "money", "", low=0, high=MOST_MONEY, optional=True, advanced=True,
              help="Bags, film, boards and printing for one student"),
        Input("room", "Room", "money", "", low=0, high=MOST_MONEY, optional=True, advanced=True, help="Hire of the room for the day"),
        Input("rate", "Rate for an hour", "money", "", low=0, high=100_000, optional=True, advanced=True, help="What an hour of the tutor costs",
              kitchen="rate"),
        Input("preparing", "Preparing and washing up", "duration", "3 h", low=0, high=60_000, default_unit="hour", advanced=True,
              help="Paid besides the lesson itself"),
        Input("margin", "Margin", "percent", "0 %", low=0, high=95, advanced=True, help="Profit, as a share of the fees"),
    ),
    work_out,
    (PACKS,),
    draw_sheet,
    passed_on=PassedOn(
        "Copy the students’ link: hand-out and practice sheets",
        "Copy my own link: the whole plan",
        "../practising/",
        "practice",
        ("exercises", "recipe"),
        "It opens the hand-out and the practice sheets. Kits, register and prices are not in it.",
    ),
)  # fmt: skip
