"""What an order's answer says of moving the cake: where its tiers are stacked, the boxes, and what goes in the car."""

from __future__ import annotations

from calc.calculators.declare import Answer
from calc.calculators.order_words import row_phrase
from calc.calculators.supports_form import boxes_table, stacked_figure
from calc.order import Plan
from calc.stack import boxes, centre_rod_mm
from calc.units import Formatter, listed


def add_moving(answer: Answer, cake: Plan) -> None:
    """Add where the tiers are stacked and the boxes they travel in."""
    if len(cake.tiers) > 1:
        stacked_figure(answer, cake.stacking)
    boxes_table(answer, cake.bodies, cake.supports, cake.stacking, [tier.order.name for tier in cake.tiers])


def load_list(cake: Plan, say: Formatter) -> tuple[tuple[str, str], ...]:
    """What goes in the car, with how much of it or what it is for: boxes, supports, bags for what is piped there, the repair kit."""
    names = [tier.order.name for tier in cake.tiers]
    lines = [
        (
            f"Box, {say.length(box.width_mm)} x {say.length(box.length_mm)}, {say.length(box.height_mm)} high",
            "the whole cake" if len(box.tiers) == len(names) else names[box.tiers[0]],
        )
        for box in boxes(cake.bodies, cake.supports, cake.stacking)
    ]
    dowels, boards = sum(stand.all_dowels for stand in cake.supports), sum(stand.all_boards for stand in cake.supports)
    if cake.stacking.apart:
        lines.append((f"{dowels} dowels, cut and counted, and two spare", "in the tiers before the drive, if they stand firm"))
        rod = centre_rod_mm(cake.bodies)
        if rod is not None:
            lines.append((f"Centre rod, {say.length(rod)}, and what drives it in", "once the tiers are stacked"))
        lines.append((say.words("Two wide palette knives, a spirit level, clean gloves"), "to stack the tiers"))
    there = [step for step in cake.steps if step.after_stacking]
    bags = dict.fromkeys(f"{step.row.colour}, {step.row.tip.name}" for step in there)
    for bag in bags:
        rows = [f"{row_phrase(step.row)} on {step.tier_name}" for step in there if f"{step.row.colour}, {step.row.tip.name}" == bag]
        lines.append((f"Bag: {bag}, in a cool box", f"piped at the venue: {listed(rows)}"))
    lines.append((say.words("Repair kit: one bag of each colour, small palette knife, cocktail sticks, damp cloth, scissors"), "in a cool box"))
    lines.append(
        (
            "Non-slip mat, thermometer, this list, the cutting guide, the list of allergens",
            f"whoever receives it: {dowels} dowels, {boards} boards in it" if dowels else "whoever receives it",
        )
    )
    return tuple(lines)


def add_load(answer: Answer, cake: Plan) -> None:
    """Add the load list."""
    answer.table("load", "In the car", ("What", "For"), load_list(cake, answer.say))
