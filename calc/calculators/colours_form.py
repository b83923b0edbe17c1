"""`colours`: how much of each colour, in which bags, mixed in which order, and whether they can be told apart."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from itertools import combinations

from calc.calculators.declare import Answer, Asked, Calculator, Group, Input
from calc.colours import (
    CAUTIONS,
    CLOSE_FROM,
    SIGHT_WORDS,
    Amount,
    BagPlan,
    Difference,
    amounts_by_colour,
    bag_plan,
    difference,
    hex_of,
    mixing_order,
    read_colour,
)
from calc.tips import Tip
from calc.units import Formatter, Problem, Problems, SharedOut, capitalised, listed, read_text

VERDICTS = {"clear": "told apart at a glance", "close": "told apart only where they touch", "same": "taken for the same"}


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `colours`."""
    problems: list[Problem] = []
    uses: list[tuple[str, str, float, float, float]] = []
    bagged: list[tuple[str, Tip, float]] = []
    for row in asked["rows"]:
        try:
            colour = read_colour(row["colour"], row.named("colour"), "Colour")
        except Problem as problem:
            problems.append(problem)
            continue
        mass, tip = row["mass"], row["tip"]
        uses.append((colour, f"bag {tip.name}" if tip else "knife", mass, mass, mass))
        if tip:
            bagged.append((colour, tip, mass))
    if problems:
        raise Problems(problems)
    amounts = amounts_by_colour(uses, asked["margin"] / 100, asked["bag_loss"])
    plan = bag_plan(bagged, asked["bag_holds"])
    _masses(answer, amounts)
    _bags(answer, plan)
    _mixing(answer, amounts)
    _apart(answer, [amount.colour for amount in amounts])
    for words, _ in CAUTIONS:
        answer.caution(words)


def _masses(answer: Answer, amounts: tuple[Amount, ...]) -> None:
    say = answer.say
    shared = _shared(amounts, say)
    for number, (amount, told_g) in enumerate(zip(amounts, shared.masses_g, strict=True), 1):
        slug = re.sub(r"[^a-z0-9]+", "_", amount.colour).strip("_")
        name = f"mass_{slug}" if slug and f"mass_{slug}" not in answer.figures else f"mass_colour_{number}"
        answer.figure(name, f"Make of {amount.colour}", amount.mass_g, "g", shared.write(told_g))
    answer.mass("mass", "Make in all", math.fsum(amount.mass_g for amount in amounts))
    answer.table(
        "amounts",
        "To make of each colour",
        ("Colour", "Used", "Stays in bags and bowls", "Margin", "Make"),
        [_row(amount, told_g, shared.write, say) for amount, told_g in zip(amounts, shared.masses_g, strict=True)],
        (1, 2, 3, 4),
    )


def _shared(amounts: Sequence[Amount], say: Formatter) -> SharedOut:
    """What is made of each colour, so that it adds up to what is made in all."""
    masses = [amount.mass_g for amount in amounts]
    return say.shared_out(say.told_mass_g(math.fsum(masses)), masses)


def _row(amount: Amount, told_g: float, write: Callable[[float], str], say: Formatter) -> list[str]:
    """A colour's line of the table: what is used, stays in bags and is put on top adds up to what is made."""
    parts = (amount.used_g, amount.loss_g, amount.margin_g)
    shared = say.shared_out(told_g, parts)
    return [amount.colour, *(shared.write(part) for part in shared.masses_g), write(told_g)]


def _bags(answer: Answer, plan: BagPlan) -> None:
    say = answer.say
    answer.count("bags", "Bags, one for each colour and tip", len(plan.bags))
    answer.count("bags_with_couplers", "Fewest bags, with couplers", len(plan.coupled))
    answer.count("couplers", "Couplers that takes", plan.couplers)
    answer.count("washes", "Washes with one of each tip", plan.washes)
    answer.table(
        "bags",
        "Bags, in the order they are first needed",
        ("Bag", "Colour", "Tip", "Holds in all", "Fills"),
        [[str(i), b.colour, b.tip.name, say.mass(b.mass_g), str(b.fills)] for i, b in enumerate(plan.bags, 1)],
        (0, 3, 4),
    )
    if plan.saved:
        answer.table(
            "coupled",
            "The same with couplers",
            ("Bag", "Colour", "Tips", "Holds in all", "Fills"),
            [[str(i), b.colour, ", ".join(t.name for t in b.tips), say.mass(b.mass_g), str(b.fills)] for i, b in enumerate(plan.coupled, 1)],
            (0, 3, 4),
        )
        answer.note(
            f"In this order a tip is changed on a coupler {plan.changes} time{'' if plan.changes == 1 else 's'}. Try that your tips fit the "
            f"coupler first."
        )
    for tip, colours in plan.twice:
        answer.note(f"The {tip.name} tip is needed in {listed(colours)}: have {len(colours)} of them, or wash it in between.")


def _mixing(answer: Answer, amounts: tuple[Amount, ...]) -> None:
    shared = _shared(amounts, answer.say)
    steps = mixing_order([(amount.colour, told_g) for amount, told_g in zip(amounts, shared.masses_g, strict=True)])
    answer.table(
        "mixing",
        "Mixing order, lightest first",
        ("Step", "What to do"),
        [[str(i), step.sentence(shared.write)] for i, step in enumerate(steps, 1)],
        (0,),
    )


def alike_words(one: str, other: str, found: Difference) -> str:
    """What is said of two colours that look the same to all, or nearly so to some; nothing of others."""
    both = f"{capitalised(one)} and {other}"
    if found.verdict == "same":
        return f"{both} will look the same on the cake. Make one lighter or darker."
    if found.verdict == "clear" and found.least < CLOSE_FROM:
        return f"{both} look nearly alike to a guest with {SIGHT_WORDS[found.least_sight]}. Set them apart by shape or by lightness as well."
    return ""


def _apart(answer: Answer, colours: list[str]) -> None:
    """Every two colours compared, by full and by colour-blind sight."""
    rows = []
    for one, other in combinations(colours, 2):
        first, second = hex_of(one), hex_of(other)
        if first is None or second is None:
            continue
        found = difference(first, second)
        rows.append(
            [
                f"{one} and {other}",
                *(answer.say.number(d, 1) for d in (found.normal, found.protanopia, found.deuteranopia, found.tritanopia)),
                VERDICTS[found.verdict],
            ]
        )
        if alike := alike_words(one, other, found):
            answer.note(alike)
    if rows:
        answer.table(
            "apart",
            "Can they be told apart? Differences by CIEDE2000: 10 shows across a room, 5 where they touch",
            ("Colours", "Full sight", "No red receptors", "No green receptors", "No blue receptors", "On the cake"),
            rows,
            (1, 2, 3, 4),
        )
    unknown = [colour for colour in colours if hex_of(colour) is None]
    if unknown:
        name, it, one = ("that name", "it is", "it as a value") if len(unknown) == 1 else ("those names", "they are", "them as values")
        answer.note(
            f"{capitalised(listed(unknown))}: no value is known for {name}, so {it} mixed last from plain and not compared. "
            f"Write {one}, like #a04b2c, to have {one.split()[0]} compared."
        )


def unfold(texts: Mapping[str, str], answer: Answer) -> Mapping[str, str]:
    """Rows written as a table, one a line: "russet, petal 11 mm, 80 g", become the rows of the form; the tip may be left out."""
    table = texts.get("rows", "").strip()
    flat = {name: text for name, text in texts.items() if name != "rows"}
    if not table:
        return flat
    for number, line in enumerate(part for part in re.split(r"[;\n]+", read_text(table, "rows", "Rows", 8000)) if part.strip()):
        cells = [cell.strip() for cell in re.split(r"[,|\t]", line) if cell.strip()]
        if not 2 <= len(cells) <= 3:
            raise Problem("rows", f"Rows: “{line.strip()[:40]}” is not a colour, a tip and a weight. Write it like russet, petal 11 mm, 80 g")
        flat |= {f"rows.{number}.colour": cells[0], f"rows.{number}.tip": cells[1] if len(cells) == 3 else "", f"rows.{number}.mass": cells[-1]}
    return flat


CALCULATOR = Calculator(
    "colours",
    "Colours and bags",
    "What to make of each colour, and the bags it goes into.",
    (
        Input("margin", "Margin", "percent", default="10 %", low=0, high=100, help="Made to spare, because a tint can hardly be matched twice"),
        Input("bag_loss", "Stays in each bag", "mass", default="20 g", low=0, high=200, help="What is left in a bag and its tip"),
        Input(
            "bag_holds",
            "A bag holds",
            "mass",
            default="300 g",
            low=20,
            high=2000,
            help="Half full, so that you can close and squeeze it",
            kitchen="bag_holds",
        ),
    ),
    work_out,
    groups=(
        Group(
            "rows",
            "Row",
            (
                Input("colour", "Colour", "colour", default="cream", help="A name like russet, or a value like #a04b2c"),
                Input("tip", "Tip", "tip", optional=True, help="Leave empty for what you spread with a knife"),
                Input(
                    "mass",
                    "Buttercream",
                    "mass",
                    default="100 g",
                    low=0.1,
                    high=100_000,
                    help="What this row takes on the cake",
                    usual=(0.5, 5000),
                    by_volume=True,
                ),
            ),
            minimum=1,
            maximum=40,
            help="One for each row, coat or filling, in the order they are piped; a line opens at a touch",
            folded=True,
        ),
    ),
    unfold=unfold,
)
