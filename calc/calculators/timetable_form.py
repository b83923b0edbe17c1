"""`timetable`: backwards from the hour the cake must be ready, with a calendar file."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Sequence

from calc import units
from calc.buttercream import density_g_per_ml, recipe_choices
from calc.calculators.declare import TIER_HIGH, TIN, Answer, Asked, Calculator, Choices, Input, sheet_answer
from calc.calculators.list_sheets import hours_drawn, list_sheet
from calc.calculators.supports_form import COAT, FILLING, body_of, stacked_figure, usual_mm
from calc.drawing.paper import Heading
from calc.drawing.svg import svg
from calc.drawing.timetable_chart import timetable_scene
from calc.shapes import SHAPES, outline
from calc.sources import constant
from calc.stack import Stacking, supports, where_stacked
from calc.timetable import (
    PACE,
    CakeJob,
    NoRoom,
    Oven,
    RowWork,
    TierWork,
    TimeOut,
    Timetable,
    calendar_text,
    cautions,
    plan_cake,
    read_hours,
    time_out,
    tins_in_oven,
)
from calc.units import DAYS, Formatter, Problem

MOST_TIERS = 7
MOST_ROWS = 60
ROW_MIN = constant(20, "min", "common-practice", "one row on one tier, all in, when no time is given", low=5, high=60)
STEP_MM = constant(50, "mm", "common-practice", "each tier narrower than the one below, when only a count is given")
TOP_MM = constant(150, "mm", "common-practice", "width of the top tier, when only a count is given")
HEIGHT_MM = constant(100, "mm", "common-practice", "height of a tier, when none is given")
HANDS: Choices = (("learning", "learning"), ("practised", "practised"), ("quick", "quick"))
STACKED: Choices = (
    ("suits", "as suits its weight and height"),
    ("before", "at home, before piping"),
    ("after", "at home, after piping"),
    ("venue", "at the venue, after piping"),
)
PACE_INPUTS = (
    Input("hand", "Your hand", "choice", "practised", advanced=True, choices=HANDS, kitchen="hand",
          help="Practised: most of what you pipe comes right first time. Learning takes nearly twice as long"),
    Input("out_limit", "Longest out of the fridge at one time", "duration", "2 h", low=30, high=480, usual=(30, 480), advanced=True,
          kitchen="out_limit", help="A chill is planned before this is reached; your local rules come first"),
    Input("oven_shelf", "Shelf of the oven", "pair", "45 x 40 cm", low=200, high=1200, default_unit="centimeter", usual=(300, 700), advanced=True,
          kitchen="oven_shelf", help="From side to side x from front to back, such as 45 x 40 cm; it decides how many tins bake at one time"),
    Input("oven_shelves", "Shelves you bake on at one time", "count", "2", low=1, high=20, advanced=True, kitchen="oven_shelves",
          help="One, if your oven has no fan"),
)  # fmt: skip
HOW_TO_WRITE_TIERS = "Write a count, like 2, or the tiers from the lowest up, like 20 x 10 cm; 15 x 10 cm"
HOW_TO_WRITE_ROWS = "Write a count, like 8, or rows in piping order with their times, like swags 25 min; shells 15 min on tier 2"
TIERS = Input(
    "tiers",
    "Tiers",
    "text",
    "20 x 10 cm; 15 x 10 cm",
    measure="length",
    counts=True,
    help="From the lowest up, width x height, such as 20 x 10 cm; 15 x 10 cm; or a count such as 2",
    cake="tiers",
)
CALENDAR = "cake-timetable.ics"
NAMES = {1: ("cake",), 2: ("lower tier", "upper tier"), 3: ("lower tier", "middle tier", "top tier")}


_SHAPES = re.compile(rf"\b(?:{'|'.join((*SHAPES, 'sheet'))})\b", re.I)


def read_tiers(text: str, input_name: str, label: str, unit_system: str = "metric") -> tuple[TierWork, ...]:
    """Read tiers as a count, or as widths and heights from the lowest up."""
    tidy = units.read_text(text, input_name, label)
    if not tidy:
        raise Problem(input_name, f"{label} is empty. {HOW_TO_WRITE_TIERS}")
    if re.fullmatch(r"\d+", tidy):
        count = int(tidy)
        if not 1 <= count <= MOST_TIERS:
            raise Problem(input_name, f"{label} must be between 1 and {MOST_TIERS}. {HOW_TO_WRITE_TIERS}")
        sizes: list[tuple[float, float, float | None]] = [(TOP_MM + STEP_MM * (count - 1 - i), float(HEIGHT_MM), None) for i in range(count)]
    else:
        parts = [part.strip() for part in re.split(r"[;\n]", tidy) if part.strip()]
        if not 1 <= len(parts) <= MOST_TIERS:
            raise Problem(input_name, f"{label} must be between 1 and {MOST_TIERS}. {HOW_TO_WRITE_TIERS}")
        sizes = []
        for part in parts:
            size = _SHAPES.sub(" ", part).strip()
            pieces = re.split(r"\s*(?:x|×|\*|\bby\b)\s*", size, flags=re.I)
            if not all(pieces) or len(pieces) > 3:
                raise Problem(input_name, f"{label}: “{part[:30]}” does not read as a tier. {HOW_TO_WRITE_TIERS}")
            limits = {1: (TIN,), 2: (TIN, TIER_HIGH), 3: (TIN, TIN, TIER_HIGH)}[len(pieces)]
            read = TIERS.read_sizes(pieces, input_name, label, unit_system, limits)
            length = read[1] if len(read) == 3 else None
            pair = (read[0], read[-1] if len(read) > 1 else float(HEIGHT_MM))
            if not (50 <= pair[0] <= 1000 and 50 <= (length or pair[0]) <= 1000 and 20 <= pair[1] <= 400):
                say = Formatter(unit_system)
                wide, high = (f"{say.least('length', low)} to {say.most('length', most)}" for low, most in ((50, 1000), (20, 400)))
                raise Problem(input_name, f"{label} are {wide} wide and {high} high. {HOW_TO_WRITE_TIERS}")
            sizes.append((*pair, length))
    names = NAMES.get(len(sizes)) or tuple(f"tier {i + 1}" for i in range(len(sizes)))
    return tuple(TierWork(name, width, height, length_mm=length) for name, (width, height, length) in zip(names, sizes, strict=True))


_TIER_OF_ROW = re.compile(r",?\s*\b(?:on\s+)?(?:the\s+)?tier\s*(\d{1,2})\b", re.I)
_BARE_NUMBER = re.compile(r"(?:\s|^|[:=,])\s*(?:\d[\d.,]{3,}|\d[\d.,]*e\d+)$", re.I)
_ROW = re.compile(r"(?P<name>.*?)[\s:,=]*(?P<time>(?:\d+(?:[.,]\d+)?\s*(?:h|hr|hrs|hours?|m|min|mins|minutes?)\.?\s*)+)", re.I)


def read_rows(text: str, input_name: str, label: str, tiers: int) -> tuple[RowWork, ...]:
    """Read rows as a count, or in piping order with their times and the tier they are on."""
    tidy = units.read_text(text, input_name, label, units.LONGEST_RECORD)
    if re.fullmatch(r"\d+", tidy):
        count = int(tidy) if len(tidy) < 4 else MOST_ROWS + 1
        if count > MOST_ROWS:
            raise Problem(input_name, f"{label} must be {MOST_ROWS} or fewer. {HOW_TO_WRITE_ROWS}")
        return tuple(RowWork(f"row {i + 1}", i * tiers // count, float(ROW_MIN), True) for i in range(count))
    parts = [part.strip() for part in re.split(r"[;\n]", tidy) if part.strip()]
    if len(parts) > MOST_ROWS:
        raise Problem(input_name, f"{label} must be {MOST_ROWS} or fewer. {HOW_TO_WRITE_ROWS}")
    rows = []
    for number, part in enumerate(parts, 1):
        if len(part) > units.LONGEST_TEXT:
            raise Problem(input_name, f"{label}: row {number} has over {units.LONGEST_TEXT} characters. Shorten it")
        on = _TIER_OF_ROW.search(part)
        tier = int(on[1]) if on else 1
        if not 1 <= tier <= tiers:
            raise Problem(input_name, f"{label}: row {number} is on tier {tier}, and there are {tiers}. {HOW_TO_WRITE_ROWS}")
        rest = _TIER_OF_ROW.sub("", part).strip(" ,")
        found = _ROW.fullmatch(rest)
        minutes = float(ROW_MIN)
        if found:
            minutes = units.read_quantity(found["time"].strip(), "duration", input_name, label)
            rest = found["name"].strip(" ,:=")
        bare = _BARE_NUMBER.search(rest)
        if bare or _ROW.search(rest):
            what = f"{bare[0].strip()} has no unit of time" if bare else "it has two times"
            raise Problem(input_name, f"{label}: row {number}: {what[:60]}. {HOW_TO_WRITE_ROWS}")
        if not 0 < minutes <= 1440:
            raise Problem(input_name, f"{label}: row {number} must take between 1 min and 24 h. {HOW_TO_WRITE_ROWS}")
        name = rest or f"row {number}"
        rows.append(RowWork(name, tier - 1, minutes, True, joint=tier > 1 and bool(re.search(r"\bbases?\b", name, re.I))))
    return tuple(rows)


def steps_table(answer: Answer, plan: Timetable, people: int) -> None:
    """Add the steps, in order, to an answer."""
    say = answer.say
    after: dict[str, dt.datetime] = {}
    for step in reversed(plan.steps):
        after.update(dict.fromkeys(step.task.needs, step.start))
    rows = []
    for step in plan.steps:
        work = say.duration(step.task.hands_min) if step.task.hands_min else ""
        if len(step.pieces) > 1:
            work += f", in {len(step.pieces)} parts"
        if people > 1 and work:
            work += f" ({step.hand})"
        name, wait = step.task.name, say.duration(step.task.wait_min)
        if step.task.wait_min and not step.pieces:
            name += f", {wait}"
        elif step.task.wait_min:
            where = f" in the {step.task.place}" if step.task.place in ("fridge", "oven") else ""
            name += f", then {wait}{where}"
            if step.task.out and where == " in the fridge" and after.get(step.task.key, step.end).date() > step.end.date():
                name += ", and overnight"
        slack = "" if not step.pieces else say.duration(step.slack_min) if step.slack_min >= 1 else "none"
        rows.append([f"{DAYS[step.start.weekday()]} {say.clock(step.start)}", name, work, slack])
    answer.table("tasks", "Timetable", ("Begin", "Task", "Work", "Slack"), rows, (2, 3))
    if people > 1:
        answer.note("The number in brackets says which person.")


def out_table(answer: Answer, out: Sequence[TimeOut], names: Sequence[str], limit_min: float) -> None:
    """Add how long each tier stands outside the fridge, from its filling on."""
    say, rows = answer.say, []
    with answer.quietly():
        for tier in out:
            name, number = names[tier.tier], tier.tier + 1
            answer.figure(f"out_{number}", f"Out of the fridge in all, {name}", tier.total_min, "min", say.working_time(tier.total_min))
            answer.figure(f"out_longest_{number}", f"Longest at one time, {name}", tier.longest_min, "min", say.working_time(tier.longest_min))
    for tier in out:
        parts = (tier.coating_min, tier.piping_min, tier.moving_min, tier.total_min, tier.longest_min)
        rows.append([names[tier.tier], *(say.working_time(minutes) for minutes in parts)])
    heads = ("Tier", "Filling and coats", "Stacking and piping", "Moving, setting up, softening", "In all", "Longest at one time")
    answer.table("out", "Out of the fridge", heads, rows, (1, 2, 3, 4, 5))
    answer.note(
        f"Out of the fridge is counted from the filling to the hour it is ready. Before a tier would be out for over {say.duration(limit_min)} "
        "at one time it goes back in for an hour, half piped or not. The bags of the next rows are filled meanwhile, before it comes out."
    )


def hand_note(answer: Answer, hand: str) -> None:
    """Say whose hand the times are for, and where they come from."""
    pace = PACE[hand]
    times = "" if pace == 1 else f", which take {answer.say.number(pace)} times as long as a practised one"
    answer.note(
        f"The times are for a hand that is {hand}{times}. They are from memory, what makers usually allow, and not measured: time a row of "
        "yours, and choose the hand that fits."
    )


def oven_cautions(answer: Answer, tiers: Sequence[TierWork], oven: Oven) -> None:
    """Say which tins do not go into the oven."""
    say = answer.say
    shelf = f"{say.length(oven.width_mm)} x {say.length(oven.depth_mm)}"
    names = [tier.name for tier in tiers if not tins_in_oven(tier.width_mm, tier.length_mm or tier.width_mm, oven)]
    if names:
        answer.caution(
            f"Too large for a shelf of {shelf}: the tins of {', '.join(names)}. Each of their layers is planned as a load of its own: bake them in "
            "parts, or in a larger oven. A tin needs air on all sides."
        )


def stacking_of(asked: Asked, tiers: Sequence[TierWork]) -> Stacking:
    """Where the tiers are stacked, as the boards and supports decide it."""
    wanted = {"before": "home", "after": "home"}.get(asked["stacked"], asked["stacked"])
    lowest_first = sorted(tiers, key=lambda tier: -tier.width_mm)
    density = density_g_per_ml(asked["recipe"])
    coat, filling = usual_mm(COAT, asked.units), usual_mm(FILLING, asked.units)
    bodies = [body_of(outline("round", tier.width_mm), tier.height_mm, coat, min(filling, tier.height_mm / 2), density) for tier in lowest_first]
    return where_stacked(supports(bodies), math.fsum(body.height_mm for body in bodies), wanted)


def ahead_table(answer: Answer, plan: Timetable) -> None:
    """Add how far ahead a task may be done, for those whose result keeps only so long."""
    say = answer.say
    rows = []
    for step in plan.steps:
        first = step.not_before
        if first is not None and step.task.keeps_min is not None:
            until = "it is used" if step.task.keeps_until == "use" else "it is eaten"
            keeps = f"{say.duration(step.task.keeps_min)}, until {until}"
            planned = f"{step.start:%a} {step.start.day}, {say.clock(step.start)}" + (", too early" if step.stale else "")
            rows.append([step.task.name, keeps, f"{first:%a} {first.day}, {say.clock(first)}", planned])
    if rows:
        answer.table("made_ahead", "Made ahead", ("Task", "Keeps", "Not before", "Planned"), rows)


def oven_of(asked: Asked) -> Oven:
    """The oven as it was asked for."""
    width, depth = asked["oven_shelf"]
    return Oven(width, depth, asked["oven_shelves"])


def plan_of(asked: Asked) -> Timetable:
    """The timetable of what was asked; what cannot be is said at its field."""
    tiers = read_tiers(asked["tiers"], "tiers", "Tiers", asked.units)
    rows = read_rows(asked["rows"], "rows", "Rows", len(tiers))
    hours = read_hours(asked["hours"], "hours", "Working hours")
    stacked = "venue" if stacking_of(asked, tiers).apart else "after" if asked["stacked"] == "after" else "before"
    job = CakeJob(
        tiers, rows, asked["buttercream"], asked["recipe"], asked["colours"], asked["bags"] or 0, asked["bake"], asked["travel"] or 0.0,
        stacked, None, asked["soften"], asked["spare"] or 0.0, asked["hand"], asked["out_limit"], oven_of(asked),
    )  # fmt: skip
    places = {"oven": asked["oven"]} | ({"fridge": asked["fridge"]} if asked["fridge"] is not None else {})
    try:
        plan = plan_cake(asked["ready_at"], job, hours, asked["people"], places)
    except NoRoom as trouble:
        raise Problem("hours", f"Working hours leave no room: {trouble}. Give longer hours or more days") from None
    if asked["not_before"] is not None and plan.start < asked["not_before"]:
        raise Problem(
            "not_before",
            f"The work would have to begin on {Formatter(asked.units).moment(plan.start)}, before you can. "
            "Give longer working hours, more people, or fewer rows",
        )
    return plan


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `timetable`."""
    say, plan = answer.say, plan_of(asked)
    answer.figure("start", "Begin", (plan.ready_at - plan.start).total_seconds() / 60, "min", say.moment(plan.start))
    answer.count("days_before", "Days before", plan.days_before)
    answer.figure("hands", "Work in all", plan.hands_min, "min", answer.say.working_time(plan.hands_min))
    with answer.quietly():
        answer.count("steps", "Steps", len(plan.steps))
        answer.count("in_fridge", "Most in the fridge at one time", plan.in_fridge)
    tiers, out = read_tiers(asked["tiers"], "tiers", "Tiers", asked.units), time_out(plan)
    names = [tier.name for tier in tiers]
    if asked["stacked"] in ("suits", "venue") and len(tiers) > 1:
        stacked_figure(answer, stacking_of(asked, tiers))
    scene = timetable_scene(plan, over=True, say=say)
    answer.drawing("times", scene.title, scene.description, svg(scene))
    steps_table(answer, plan, asked["people"])
    out_table(answer, out, names, asked["out_limit"])
    ahead_table(answer, plan)
    answer.table(
        "days", "Work by day", ("Day", "Work"), [(f"{day:%a} {day.day}", say.duration(minutes)) for day, minutes in plan.hands_by_day()], (1,)
    )
    hours = read_hours(asked["hours"], "hours", "Working hours")
    answer.note(
        f"Working hours: {hours.words(say)}. Every task is as late as it can be; slack is how long it may overrun, "
        "in working hours, before the cake is late."
    )
    if plan.stale:
        early = ", ".join(step.task.name for step in plan.stale)
        answer.caution(
            f"Made further ahead than it usually keeps: {early}. Freeze the sponge, give longer working hours nearer the day, or share the work."
        )
    if asked["fridge"] is not None and plan.in_fridge > asked["fridge"]:
        answer.caution(
            f"{plan.in_fridge} tiers are in the fridge at one time, and yours holds {asked['fridge']}. "
            "Find a second fridge, or coat the tiers on different days."
        )
    hand_note(answer, asked["hand"])
    oven_cautions(answer, tiers, oven_of(asked))
    warmed = any(step.task.key.startswith("beat") for step in plan.steps)
    for text in cautions(asked["recipe"], out, asked["out_limit"], asked.units, warmed):
        answer.caution(text)
    answer.sheet("timetable", "Timetable to tick off")
    answer.file(CALENDAR, "Calendar file", "text/calendar")


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw the timetable on paper, with a box to tick before every step, or write its calendar file."""
    if name == CALENDAR:
        return calendar_text(plan_of(asked), asked["title"] or "Cake").encode()
    if name != "timetable":
        raise KeyError(name)
    answer, plan = sheet_answer("timetable", asked, work_out), plan_of(asked)
    heading = Heading(asked["title"] or "", answer.say.moment(plan.ready_at))
    under = f"Ready at {answer.say.moment(plan.ready_at)}"
    return list_sheet(
        answer, name, "Timetable", ("tasks", "out", "days", "made_ahead"), paper, ("tasks",), hours_drawn(plan, answer.say), heading, under
    ).pdf(units=asked.units)


CALCULATOR = Calculator(
    "timetable",
    "Timetable",
    "What to begin when, working backwards from when the cake must be ready.",
    (
        Input("ready_at", "Ready at", "moment", "2027-10-16 18:00", help="Day and hour, such as 16 October 2027 18:00", cake="order_ready_at"),
        TIERS,
        Input("rows", "Rows", "long_text",
              "swags, two rows 45 min; string 15 min; shells at the base 15 min; ruched border 15 min on tier 2; "
              "shells 10 min on tier 2; rosettes and leaves 20 min on tier 2",
              help="In piping order with their times, such as shells 15 min on tier 2; or a count such as 8",
              optional=True),
        Input("hours", "Working hours", "text", "9:00 to 18:00", kitchen="hours",
              help="Such as 9:00 to 18:00, or Mon to Fri 18:00 to 22:00; Sat 8:00 to 18:00"),
        Input("people", "People at work", "count", "1", low=1, high=10, help="Who can work at the same time"),
        Input("spare", "Kept free at the end", "duration", "1 h", low=0, high=2880, optional=True,
              help="In case of mishaps, with the finished cake in the fridge", usual=(5, 2880)),
        Input("buttercream", "Buttercream in all", "mass", "2.5 kg", low=0, high=200_000, advanced=True,
              help="Decides how many batches there are", us_unit="pound", usual=(100, 50_000), by_volume=True),
        Input("recipe", "Recipe", "choice", "plain", advanced=True, choices=recipe_choices,
              help="How long it takes to make, and how long it keeps"),
        Input("colours", "Colours", "count", "4", low=1, high=40, advanced=True, help="Colours to tint"),
        Input("bags", "Bags", "count", "", low=1, high=80, optional=True, advanced=True,
              help="Left empty, one for each row"),
        Input("bake", "Bake the sponges", "yes_no", "yes", advanced=True, help="No, if you buy them"),
        Input("stacked", "Stack the tiers", "choice", "suits", choices=STACKED, advanced=True, kitchen="stacked",
              help="Left open: at the venue if the cake is too heavy for two people, or too tall for a fridge or a car"),
        Input("travel", "On the road", "duration", "", low=0, high=1440, optional=True, advanced=True,
              help="Left empty, the cake stays where it is", usual=(5, 600)),
        Input("soften", "Softens before it is eaten", "duration", "1 h", low=0, high=480, advanced=True,
              help="Out of the fridge", usual=(5, 480)),
        *PACE_INPUTS,
        Input("oven", "Ovens", "count", "1", low=1, high=10, advanced=True),
        Input("fridge", "Tiers the fridge holds", "count", "", low=1, high=20, optional=True, advanced=True),
        Input("not_before", "You can begin at", "moment", "", optional=True, advanced=True,
              help="Such as 2027-10-14 09:00"),
        Input("title", "Name in the calendar", "text", "Cake", optional=True, advanced=True),
    ),
    work_out,
    draw_sheet=draw_sheet,
)  # fmt: skip
