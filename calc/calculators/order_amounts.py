"""The section of an order's answer on buttercream: how much of each colour, bags, mixing, and colours that look alike."""

from __future__ import annotations

import math
from itertools import combinations

from calc.calculators.colours_form import alike_words
from calc.calculators.declare import Answer, ranged, span
from calc.calculators.order_drawings import Looks, look_of
from calc.calculators.order_words import colour_masses
from calc.colours import CAUTIONS as COLOUR_CAUTIONS
from calc.colours import DEEPENING, difference, hex_of, mixing_order
from calc.order import Plan
from calc.units import capitalised, letter_of, listed


def add_amounts(answer: Answer, cake: Plan, looks: Looks) -> None:
    """Add how much buttercream to make of each colour, the bags, and what to know about the colours."""
    say = answer.say
    answer.section("amounts", "Buttercream by colour, and bags", "Buttercream")
    low, high = math.fsum(a.low_g for a in cake.amounts), math.fsum(a.high_g for a in cake.amounts)
    answer.mass("buttercream", "Buttercream to make", cake.buttercream_g, low, high)
    answer.mass("piping", "Of it piped", cake.piping_g, cake.piping_low_g, cake.piping_high_g)
    with answer.quietly():
        ends = (math.fsum(a.used_low_g for a in cake.amounts) - cake.lifted_g, math.fsum(a.used_high_g for a in cake.amounts) - cake.lifted_g)
        answer.mass("mass", "Buttercream on the cake", cake.filling_g + cake.coat_g + cake.piping_g, *ends)
        answer.volume("volume", "Buttercream to make, by volume", cake.buttercream_g / cake.density)
        answer.figure("density", "Density", cake.density, "g/ml", say.density(cake.density))
    rows, shared = [], colour_masses(cake.amounts, say)
    for amount, told_g in zip(cake.amounts, shared.masses_g, strict=True):
        made = shared.write(told_g)
        name, label = f"colour_{amount.colour.replace(' ', '_')}", f"Buttercream, {amount.colour}"
        with answer.quietly():
            answer.figure(
                name, label, amount.mass_g, "g", ranged(say.mass, amount.mass_g, amount.low_g, amount.high_g, made), amount.low_g, amount.high_g
            )
        uses = "; ".join(f"{use.removeprefix('bag ')} {say.mass(mass)}" for use, mass in amount.uses)
        rows.append([amount.colour, made, span(say.mass, amount.low_g, amount.high_g), uses])
    answer.table(
        "colours",
        "To make of each colour, with losses and a tenth to spare",
        ("Colour", "Make", "Range", "Goes into"),
        rows,
        (1, 2),
        {0: {amount.colour: look_of(amount.colour, dict(looks)) for amount in cake.amounts}},
    )
    bags = cake.bags
    answer.count("bags", "Bags", len(bags.bags))
    answer.count("couplers", "Couplers that save bags", bags.couplers)
    answer.table(
        "bags",
        "Bags: one for each colour and tip, in the order they are needed",
        ("Bag", "Colour", "Tip", "Holds in all", "Fills"),
        [[letter_of(i), b.colour, b.tip.name, say.mass(b.mass_g), str(b.fills)] for i, b in enumerate(bags.bags)],
        (3, 4),
        {1: {b.colour: look_of(b.colour, dict(looks)) for b in bags.bags}},
    )
    if any(row.spec.second for tier in cake.tiers for row in tier.rows):
        answer.note(
            "Two colours in one bag: lay it flat, spread one colour along one half from the tip to the cuff and the other beside it, "
            "or put two slim bags, cut open, into the one with the tip. Squeeze until both come out, and keep the seam turned the same way all "
            "round. "
            "The amounts allow half of each."
        )
    if bags.saved:
        few = len(bags.coupled)
        answer.note(
            f"With {bags.couplers} coupler{'s' if bags.couplers > 1 else ''} you need {few} bag{'s' if few > 1 else ''} instead of {len(bags.bags)}: "
            + "; ".join(f"{b.colour} with {listed([t.name for t in b.tips])}" for b in bags.coupled if len(b.tips) > 1)
            + "."
        )
    for tip, colours in bags.twice:
        answer.note(f"The {tip.name} tip is needed in {listed(colours)}: have {len(colours)}, or wash it in between.")
    _add_colours(answer, cake, looks)
    drawn_back = [f"{say.mass((t.coats.final_high_ml - t.coats.final_ml) * cake.density)} on {t.order.name}" for t in cake.tiers if t.coats.by_disc]
    if drawn_back:
        answer.note(
            f"Under a disc the coat makes up for what a sponge has drawn back from its tin, with up to {listed(drawn_back)} more. "
            "Measure the sponges; where they are narrower than their tins, make the high end of the range."
        )
    answer.note(
        f"Geometry is exact; what a hand pipes is an estimate. Pipe {'a foot' if say.units == 'us' else '30 cm'}, weigh it, "
        "and enter it under Measured tip to replace it."
    )
    for text, _ in COLOUR_CAUTIONS:
        answer.caution(text)


def _add_colours(answer: Answer, cake: Plan, looks: Looks) -> None:
    """In which order the colours are mixed, what standing does to them, and which of them guests cannot tell apart."""
    table = dict(looks)
    shared = colour_masses(cake.amounts, answer.say)
    steps = mixing_order([(amount.colour, told_g) for amount, told_g in zip(cake.amounts, shared.masses_g, strict=True)])
    answer.table(
        "mixing",
        "Mixing order, lightest first",
        ("Step", "What to do"),
        [[str(i), step.sentence(shared.write)] for i, step in enumerate(steps, 1)],
        (0,),
    )
    tinted = [amount.colour for amount in cake.amounts if amount.colour != "plain"]
    if tinted:
        pale, deep = DEEPENING["pale"], DEEPENING["deep"]
        answer.note(
            f"Tints deepen as they stand, a pale one by about {100 * pale:.0f} %, a deep one by {100 * deep:.0f} % (common practice): "
            "mix a shade light, and judge a test that has stood as long as the batch will."
        )
    unknown = sorted({c for pair in _meeting(cake) for c in pair if c not in table and hex_of(c) is None})
    if unknown:
        name, it, them = ("that name", "it is", "it") if len(unknown) == 1 else ("those names", "they are", "them")
        answer.note(
            f"{capitalised(listed(unknown))}: no value is known for {name}, so {it} drawn in plain cream and not compared. "
            f"Add {them} under Colour to have {them} drawn and compared."
        )
    for one, other in _meeting(cake):
        if one in unknown or other in unknown:
            continue
        found = difference(look_of(one, table), look_of(other, table))
        if alike := alike_words(one, other, found):
            answer.note(alike)
        elif found.verdict == "close":
            answer.note(f"{capitalised(one)} and {other} are told apart only where they touch. Make one lighter or darker if both should show.")


def _meeting(cake: Plan) -> list[tuple[str, str]]:
    """Colours that stand beside each other on a tier, each pair once; rows of the coat's own colour are meant to be."""
    pairs: dict[tuple[str, str], None] = {}
    for tier in cake.tiers:
        coat = [name for name, _ in tier.order.bands] or [tier.order.colour, *(tier.order.striped or ())[:1]]
        names = dict.fromkeys([*coat, *(name for row in tier.rows for name in row.spec.colours)])
        for first, second in combinations(names, 2):
            if (second, first) not in pairs and not (first in coat and second in coat and tier.bands):
                pairs[first, second] = None
    return list(pairs)
