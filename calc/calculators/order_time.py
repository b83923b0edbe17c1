"""The section of an order's answer on time: the timetable of its work, on the page and as a calendar file."""

from __future__ import annotations

from calc import timetable
from calc.calculators.declare import Answer, Asked
from calc.calculators.order_moving import add_load
from calc.calculators.order_words import row_name, row_phrase
from calc.calculators.timetable_form import hand_note, out_table, oven_cautions, oven_of, steps_table
from calc.order import Plan
from calc.units import Formatter, Problem, file_name_part

CALENDAR = "timetable.ics"


def job_of(cake: Plan, asked: Asked) -> timetable.CakeJob:
    """What the timetable must know of a plan."""
    return timetable.CakeJob(
        tuple(
            timetable.TierWork(t.order.name, t.order.sponge.width_mm, t.order.height_mm, t.order.layers, t.order.sponge.length_mm) for t in cake.tiers
        ),
        tuple(
            timetable.RowWork(
                row_name(s.row) if len(cake.tiers) == 1 else f"{s.tier_name}, {row_phrase(s.row)}",
                s.row.tier,
                s.row.amount.time_min,
                joint=s.after_stacking,
                bag=f"{s.row.colour}, {s.row.tip.name}",
            )
            for s in cake.steps
        ),
        cake.buttercream_g,
        cake.order.recipe,
        max(1, sum(amount.colour != "plain" for amount in cake.amounts)),
        travel_min=asked["travel"],
        stacked="venue" if cake.stacking.apart else "before",
        spare_min=asked["spare"],
        hand=asked["hand"],
        out_limit_min=asked["out_limit"],
        oven=oven_of(asked),
    )


def timetable_of(cake: Plan, asked: Asked) -> timetable.Timetable:
    """The timetable of a plan in the maker's hours."""
    hours = timetable.read_hours(asked["hours"], "hours", "Working hours")
    try:
        return timetable.plan_cake(cake.order.ready_at, job_of(cake, asked), hours)
    except timetable.NoRoom as full:
        when = Formatter(asked.units).moment(cake.order.ready_at)
        raise Problem("hours", f"Working hours leave no room for the work before {when}: {full}") from None


def calendar_of(asked: Asked, cake: Plan) -> bytes:
    """The timetable of a cake as a calendar file."""
    return timetable.calendar_text(timetable_of(cake, asked), cake.order.name).encode()


def add_time(answer: Answer, cake: Plan, asked: Asked) -> timetable.Timetable:
    """Add the timetable, with its cautions and its calendar file."""
    say, travel_min = answer.say, asked["travel"]
    answer.section("time", "Timetable, working backwards", "Timetable")
    table = timetable_of(cake, asked)
    answer.figure("start", "Begin", (table.ready_at - table.start).total_seconds() / 60, "min", say.moment(table.start))
    answer.figure("hands", "Hands at work", table.hands_min, "min", answer.say.working_time(table.hands_min))
    steps_table(answer, table, 1)
    for step in table.stale:
        answer.note(f"{step.task.name} would be done further ahead than it keeps. Add working hours nearer the day.")
    out = timetable.time_out(table)
    out_table(answer, out, [tier.order.name for tier in cake.tiers], asked["out_limit"])
    hand_note(answer, asked["hand"])
    job = job_of(cake, asked)
    oven_cautions(answer, job.tiers, job.oven)
    warmed = any(step.task.key.startswith("beat") for step in table.steps)
    for text in timetable.cautions(cake.order.recipe, out, asked["out_limit"], answer.units, warmed):
        answer.caution(text)
    if travel_min or cake.stacking.apart:
        add_load(answer, cake)
    answer.file(CALENDAR, "Calendar file", "text/calendar", f"{file_name_part(cake.order.name, 'cake')}-{CALENDAR}")
    return table
