"""Builds the answer of the `order` calculator from its plan, section by section; the section of the bench sheet is here, the others beside it.

Map
---
`order_cake`       the cake as a whole, portions and supports, coats
`order_rows`       rows and marking
`order_amounts`    buttercream by colour, bags
`order_costs`      recipe and shopping list, price
`order_time`       the timetable
`order_moving`     where the tiers are stacked, boxes, what goes in the car
`order_cures`      what is amiss at a row or tier, with what mends it
`order_words`      what the sections and the printed sheets say alike
`order_drawings`   colours, tiers and views as they are drawn
"""

from __future__ import annotations

import re

from calc import buttercream
from calc.calculators.declare import Answer, Asked
from calc.calculators.order_amounts import add_amounts
from calc.calculators.order_cake import add_cake, add_coats, add_portions
from calc.calculators.order_costs import add_price, add_shopping
from calc.calculators.order_cures import add_cures
from calc.calculators.order_drawings import Looks, shades
from calc.calculators.order_rows import add_rows
from calc.calculators.order_time import add_time
from calc.calculators.order_words import marking_table, place_of, reach_texts, row_title, there_words
from calc.order import Plan
from calc.units import listed


def fill_answer(answer: Answer, cake: Plan, asked: Asked) -> None:
    """Fill the answer section by section; `asked` holds what only the page needs: looks, hours, prices."""
    looks = {c["name"].lower(): c["look"] for c in asked["colours"]}
    batch = buttercream.batch(cake.order.recipe, cake.buttercream_g, density=cake.density)
    kept = tuple(sorted(looks.items()))
    add_cake(answer, cake, kept)
    add_portions(answer, cake)
    add_coats(answer, cake)
    add_rows(answer, cake, kept)
    add_amounts(answer, cake, kept)
    bought = add_shopping(answer, cake, batch, asked["packs"])
    table = add_time(answer, cake, asked)
    add_price(answer, cake, asked, bought, table.hands_min)
    _add_customer(answer)
    _add_bench(answer, cake, kept)
    add_cures(answer, cake, looks)
    answer.show_also("cake", "portions", "buttercream", "price")


def _add_customer(answer: Answer) -> None:
    answer.section("customer", "For the customer", "Customer", prints="quotation", links="Copy the customer’s link")
    answer.note(
        "The quotation: the cake in words and as a picture, portions, allergens with blanks for what only you know, price, deposit, dates and terms. "
        "It says nothing of costs, hours, rate or margin, and neither does its link, which opens as a page to read."
    )


def _add_bench(answer: Answer, cake: Plan, looks: Looks) -> None:
    say = answer.say
    answer.section("bench", "Bench sheet", "Bench sheet", prints="bench-sheet")
    answer.note("First: each coat chilled until firm, then marked. Every row starts and closes at the back.")
    told: dict[str, list[int]] = {}
    for number, text in sorted(reach_texts(cake, say).items()):
        told.setdefault(re.sub(r" of step \d+", " piped before it", text), []).append(number)
    for text, numbers in told.items():
        steps = f"Step{'s' if len(numbers) > 1 else ''} {listed([str(number) for number in numbers])}"
        answer.note(f"{steps}: {text[0].lower()}{text[1:]}")
    heads, lines = marking_table(cake, say)
    answer.table("marking", f"{cake.order.name}, {say.moment(cake.order.ready_at)}: marking", heads, lines, (1, 2, 3, 4, 5, 6))
    rows = []
    for step in cake.steps:
        row, p = step.row, step.row.amount
        rows.append(
            [
                f"{step.number}. {row_title(row)}, {step.tier_name}{there_words(step)}",
                place_of(row, say),
                row.tip.name,
                row.colour,
                p.angle.split(",")[0],
                str(p.count),
                say.length(p.length_mm),
                say.mass(p.mass_g),
            ]
        )
    answer.table(
        "bench",
        "Piping order",
        ("Step", "Where", "Tip", "Colour", "Hold it", "How many", "Length", "Weighs"),
        rows,
        (5, 6, 7),
        {3: shades([step.row for step in cake.steps], looks)},
    )
