"""The work of an order as it is done at the bench: one task after another in the order of the timetable, and what is left in each bag.

Map
---
`BenchTask`      one task: what is done, with what, how much, and what is waited for after it
`BagLeft`        a bag, and how much is still to be piped from it
`bench_tasks`    all tasks of a plan
`bags_left`      the bags once some tasks are done
"""

from __future__ import annotations

import math
import re
from collections.abc import Collection
from dataclasses import dataclass, replace

from calc import buttercream
from calc.calculators.declare import Asked
from calc.calculators.division_form import dividers_words
from calc.calculators.order_bench import pieces_words
from calc.calculators.order_cards import PEOPLE
from calc.calculators.order_drawings import Looks, look_of, row_number
from calc.calculators.order_time import timetable_of
from calc.calculators.order_words import bag_letters, in_units, marking_text, place_of, reach_texts, size_words, there_words
from calc.drawing.start_plan import start_plan
from calc.drawing.svg import svg
from calc.order import Plan, PlannedTier, Step, chords_of
from calc.stack import cautions as stack_cautions
from calc.timetable import Timetable, cautions, time_out
from calc.tips import Tip
from calc.units import Formatter, capitalised, letter_of


@dataclass(frozen=True)
class BenchTask:
    """One task at the bench. `part` is the row or tier of the drawing that it is about, `plan` a small drawing of where it starts.

    `cautions` are said where the step can hurt. `measures` is the field that takes what the tape says, where that is asked on the way;
    `wait_min` is waited `where` after it.
    """

    key: str
    title: str
    when: str
    tier: str = ""
    facts: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    look: str = ""
    part: str = ""
    plan: str = ""
    measures: str = ""
    typed: str = ""
    wait_min: float = 0.0
    wait: str = ""
    where: str = ""


@dataclass(frozen=True)
class BagLeft:
    """One bag: its letter, tip and colour, what is still to be piped from it and what it pipes in all, in words.

    `of_colour` is what is left to pipe of its colour in all bags, where there are several.
    """

    letter: str
    tip: str
    colour: str
    look: str
    left: str
    whole: str
    of_colour: str = ""


Letters = dict[tuple[str, Tip], str]  # of the bags, by colour and tip
WHERE = {"fridge": "In the fridge", "oven": "In the oven", "room": "Left to stand"}


def bench_tasks(cake: Plan, asked: Asked, looks: Looks, done: Collection[str] = ()) -> tuple[BenchTask, ...]:
    """Write every task of a plan in the order of its timetable; those named in `done` have been done."""
    table = timetable_of(cake, asked)
    left = {bag.letter: bag.left for bag in bags_left(cake, table, done, looks, asked.units)}
    say = Formatter(asked.units, steady=True)
    ways = reach_texts(cake, say)
    letters = bag_letters(cake)
    tasks = []
    for step in table.steps:
        task = step.task
        told = BenchTask(
            key=task.key,
            title=task.name.removesuffix(f": {task.tier}"),
            tier=task.tier,
            when=f"{step.start:%a} {say.clock(step.start)}",
            notes=(task.note,) if task.note else (),
            wait_min=task.wait_min,
            wait=say.duration(task.wait_min) if task.wait_min else "",
            where=WHERE.get(task.place, "Wait") if task.wait_min else "",
        )
        kind, number = _split(task.key)
        if kind == "row":
            told = _row(told, cake, cake.steps[number], letters, left, ways, dict(looks), say)
        elif kind == "mark":
            told = _marking(told, cake.tiers[number], asked, say)
        elif kind == "bags":
            told = _filling(told, cake, table, letters, say)
        elif kind in ("fill", "crumb", "coat"):
            told = replace(told, part=f"tiers.{number}", facts=_coat(kind, cake.tiers[number], cake.density, say))
        elif kind == "buttercream":
            told = replace(told, facts=((say.words(cake.recipe.name), say.mass(cake.buttercream_g)),))
        elif kind == "tint":
            told = replace(told, facts=tuple((amount.colour, say.mass(amount.mass_g)) for amount in cake.amounts))
        elif kind == "boards":
            told = replace(told, facts=_stands(cake, say))
        elif kind == "stack":
            told = replace(told, facts=_lifts(cake, say))
        elif kind in ("pack", "travel"):
            told = replace(told, facts=_carried(cake, say))
        tasks.append(replace(told, cautions=_cautions(kind, cake, table, asked, say)))
    return tuple(tasks)


def bags_left(cake: Plan, table: Timetable, done: Collection[str], looks: Looks, units: str) -> tuple[BagLeft, ...]:
    """Say for each bag how much is still to be piped from it once the tasks named in `done` are done; a long row in parts goes by their time."""
    say, shades = Formatter(units), dict(looks)
    parts: dict[int, dict[str, float]] = {}
    for step in table.steps:
        kind, number = _split(step.task.key)
        if kind == "row":
            parts.setdefault(number, {})[step.task.key] = step.task.hands_min
    left = [
        sum(
            step.row.amount.mass_g * sum(time for key, time in parts[at].items() if key not in done) / sum(parts[at].values())
            for at, step in enumerate(cake.steps)
            if (step.row.colour, step.row.tip) == (bag.colour, bag.tip)
        )
        for bag in cake.bags.bags
    ]
    found = []
    for i, (bag, mass) in enumerate(zip(cake.bags.bags, left, strict=True)):
        alike = [other for other, its in zip(left, cake.bags.bags, strict=True) if its.colour == bag.colour]
        of_colour = say.mass(math.fsum(alike)) if len(alike) > 1 else ""
        look = look_of(bag.colour, shades)
        found.append(BagLeft(letter_of(i), bag.tip.name, bag.colour, look, say.mass(mass), say.mass(bag.mass_g), of_colour))
    return tuple(found)


def _split(key: str) -> tuple[str, int]:
    """The kind of a task and its number: a long one is cut, and row3.2 is the second part of row3."""
    found = re.fullmatch(r"([a-z]+)(\d*)(\.\d+)?", key)
    return (found[1], int(found[2] or 0)) if found else (key, 0)


def _row(
    told: BenchTask,
    cake: Plan,
    step: Step,
    letters: Letters,
    left: dict[str, str],
    ways: dict[int, str],
    looks: dict[str, str],
    say: Formatter,
) -> BenchTask:
    row, amount, tier = step.row, step.row.amount, cake.tiers[step.row.tier]
    pieces, letter, moves = pieces_words(row), letters[row.colour, row.tip], ", ".join(row.asked_kind.steps)
    facts = [
        ("Bag", f"{letter}: {row.colour}, {left[letter]} left in it"),
        ("Tip", row.tip.name),
        ("Hold it", amount.angle.split(",")[0]),
        ("How many", pieces if row.asked_kind.countable else "one line, all the way round"),
        ("In all", f"{say.length(amount.length_mm)}, {say.mass(amount.mass_g)}"),
    ]
    if row.asked_kind.countable and amount.count > 1:
        facts.insert(4, ("From one to the next", say.length(amount.pitch_mm)))
    if row.hung:
        facts.insert(-1, ("Set the dividers to", dividers_words(chords_of(tier), say)))
    if row.place in ("side", "joints") and row.line_mm:
        facts.insert(-1, ("Set the tape to", f"{say.length(row.line_mm)} below the top edge"))
    notes = [in_units(note, say) for note in (*row.notes, *amount.notes)] + ([ways[step.number]] if step.number in ways else [])
    where = place_of(row, say)
    joints = [s / tier.perimeter_mm for s in tier.joints.s_mm] if row.hung or row.place == "joints" else []
    look = look_of(row.colour, looks)
    part = re.search(r", part \d+ of \d+$", told.title)
    return replace(
        told,
        title=f"{capitalised(pieces)}, {where}{there_words(step)}{part[0] if part else ''}",
        tier=step.tier_name,
        facts=tuple(facts),
        notes=(
            f"{capitalised(moves)}.",
            "Begin at the back, at the dot, and follow the arrows.",
            *notes,
            *told.notes,
        ),
        look=look,
        part=f"tiers.{row.tier}.rows.{row_number(tier, row)}",
        plan=svg(start_plan(tier.coats.finished, look, row.line_mm if row.on_top else 0.0, joints)),
    )


def _marking(told: BenchTask, tier: PlannedTier, asked: Asked, say: Formatter) -> BenchTask:
    """Measuring comes with marking: everything that goes round the side follows from what the tape says."""
    facts = [
        ("Round the side", say.length(tier.side_mm)),
        ("Repeats", str(tier.division.repeats)),
        ("Dividers", dividers_words(chords_of(tier), say)),
    ]
    if tier.marked:
        facts.append(("Joints below the top edge", say.length(tier.line_mm)))
        cutter, guide = tier.division.cutter_mm, tier.guide
        if cutter is not None and guide is not None:
            facts += [("Cutter", say.length(cutter)), (f"Tape, {guide[0]}", f"{say.length(guide[1])} below the top edge")]
        else:
            facts.append(("Marked from", "the paper strip"))
    typed = say.length(tier.order.measured_mm) if tier.order.measured_mm is not None else ""
    return replace(
        told,
        facts=tuple(facts),
        notes=(marking_text(tier, say),) if tier.marked else (),
        part=f"tiers.{tier.index}",
        measures=f"{tier.order.path}side",
        typed=typed,
    )


def _filling(told: BenchTask, cake: Plan, table: Timetable, letters: Letters, say: Formatter) -> BenchTask:
    """Which bags are filled now: those that the rows until the next filling are piped from, each with what it pipes in all."""
    rows = [cake.steps[_split(step.task.key)[1]].row for step in table.steps if step.task.uses == told.key and _split(step.task.key)[0] == "row"]
    wanted = {(row.colour, row.tip) for row in rows}
    lines = []
    for bag in cake.bags.bags:
        if (bag.colour, bag.tip) in wanted:
            fills = f", {bag.fills} fills" if bag.fills > 1 else ""
            lines.append((f"Bag {letters[bag.colour, bag.tip]}", f"{bag.tip.name}, {bag.colour}, {say.mass(bag.mass_g)} in all{fills}"))
    return replace(told, facts=tuple(lines))


def _coat(kind: str, tier: PlannedTier, density: float, say: Formatter) -> tuple[tuple[str, str], ...]:
    """What goes into or onto a tier."""
    laid = tier.coats
    volume = {"fill": laid.filling_ml + laid.dam_ml, "crumb": laid.crumb_ml, "coat": laid.final_ml}[kind]
    what = {"fill": "Filling", "crumb": "Crumb coat", "coat": "Final coat"}[kind]
    facts = [(what, f"{say.volume(volume)}, {say.mass(volume * density)}")]
    if kind == "coat":
        facts.append(("Colour", ", ".join(name for name, _ in tier.order.bands) or tier.order.colour))
        if tier.order.disc_mm is not None:
            facts.append(("Discs", say.length(tier.order.disc_mm)))
    return tuple(facts)


def _cautions(kind: str, cake: Plan, table: Timetable, asked: Asked, say: Formatter) -> tuple[str, ...]:
    """What must be said where the work is done: egg and hot syrup at the bowl, supports and lifting at the boards, time out of the fridge."""
    supports = stack_cautions(cake.supports, cake.stacking, say)
    match kind:
        case "buttercream":
            return buttercream.cautions(cake.order.recipe, say.units)
        case "boards":
            return supports[:-1]
        case "stack":
            return supports
        case "pack" | "travel":
            return supports[-1:]
        case "out":
            return cautions(cake.order.recipe, time_out(table), asked["out_limit"], say.units)
        case "warm" | "beat":
            return (buttercream.standing(say.units),)
    return ()


def _lifts(cake: Plan, say: Formatter) -> tuple[tuple[str, str], ...]:
    """What each tier that is set on another weighs, and who lifts it."""
    return tuple(_lifted(cake, tier, say) for tier in cake.tiers[1:])


def _lifted(cake: Plan, tier: PlannedTier, say: Formatter) -> tuple[str, str]:
    """What one tier weighs on its board, and who lifts it."""
    stand = cake.supports[tier.index]
    return tier.order.name, f"up to {say.mass(stand.high_g)}, {PEOPLE[stand.lift.people]}"


def _carried(cake: Plan, say: Formatter) -> tuple[tuple[str, str], ...]:
    """What is carried: the whole cake, or each tier where they are stacked at the venue."""
    if cake.stacking.apart:
        return tuple(_lifted(cake, tier, say) for tier in cake.tiers)
    low = cake.supports[0]
    return (("The whole cake", f"up to {say.mass(low.high_g + low.carried_high_g)}, {PEOPLE[low.lift_whole.people]}"),)


def _stands(cake: Plan, say: Formatter) -> tuple[tuple[str, str], ...]:
    """The board under each tier, and the dowels and boards in it."""
    facts = []
    for tier in cake.tiers:
        support = cake.supports[tier.index]
        dowels = f", {support.all_dowels} dowels of {say.length(support.dowel_length_mm)}" if support.all_dowels else ""
        if support.inner_boards:
            boards = "a thin board" if support.inner_boards == 1 else f"{support.inner_boards} thin boards"
            those = "all" if support.inner_dowels == support.all_dowels else f"{support.inner_dowels} of them"
            dowels += f", {those} under {boards} of {size_words(support.inner_width_mm, support.inner_length_mm, say)} inside"
        facts.append((tier.order.name, f"board {size_words(support.board_width_mm, support.board_length_mm, say)}{dowels}"))
    return tuple(facts)
