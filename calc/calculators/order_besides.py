"""What an order takes besides the ingredients of its buttercream: sponge, what thins and tints, boards, dowels, boxes, bags and tips."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from calc.buttercream import INGREDIENTS, Batch
from calc.calculators.order_words import colour_masses, size_words, sponge_words
from calc.order import Plan
from calc.sources import constant
from calc.stack import boxes, centre_rod_mm
from calc.stack.weights import SPONGE_G_PER_ML
from calc.units import Formatter, capitalised, listed

SPARE_DOWELS = 2
SPARE_BAGS = 2
SYRUP_G_PER_CM2 = constant(0.1, "g/cm2", "common-practice", "sugar syrup brushed on a layer: two tablespoons on one of 20 cm")
BAKING_LOSS = constant(0.1, "-", "common-practice", "share of a batter that is gone as steam once it is baked")
SPONGE, STIRRED, STANDS, TOOLS = "Sponges", "Colours and what thins the buttercream", "Boards, dowels and boxes", "Bags, tips and paper"
GROUPS = (SPONGE, STIRRED, STANDS, TOOLS)


class Line(NamedTuple):
    """One line: what, how much, what for, its group; `pieces` is how many where they can be counted, `key` tells it from every other."""

    what: str
    much: str
    use: str
    group: str
    key: str
    pieces: int = 0


def besides(cake: Plan, batch: Batch, by_purpose: Mapping[str, float], say: Formatter) -> tuple[Line, ...]:
    """What to have besides the buttercream's ingredients, how much of it, and what it is for."""
    return (*_sponges(cake, say), *_stirred_in(cake, batch, by_purpose, say), *_under_it(cake, say), *_tools(cake))


def purposes_of(cake: Plan) -> dict[str, float]:
    """How much of the buttercream [g] is wanted for each purpose."""
    strings = math.fsum(row.amount.mass_g for tier in cake.tiers for row in tier.rows if row.asked_kind.texture == "strings")
    return {"coats": cake.filling_g + cake.coat_g + cake.lifted_g, "piping": cake.piping_g - strings, "strings": strings}


def _sponges(cake: Plan, say: Formatter) -> list[Line]:
    """The sponges, bought or baked, and the syrup for their layers."""
    found = []
    masses = [tier.coats.sponge_ml * SPONGE_G_PER_ML for tier in cake.tiers]
    brushed_cm2 = math.fsum(tier.coats.sponge_ml / (tier.coats.layer_mm / 10) for tier in cake.tiers)  # all layers of each
    for i, tier in enumerate(cake.tiers):
        layers = tier.order.layers
        what = f"Sponge, {sponge_words(tier, say)}, or its ingredients by your own recipe"
        much = f"{layers} layer{'s' if layers > 1 else ''} of {say.length(tier.coats.layer_mm)}, about {say.mass(masses[i])} baked"
        found.append(Line(what, much, tier.order.name, SPONGE, f"sponge-{i}-{tier.order.sponge.kind}-{tier.order.sponge.width_mm:.0f}"))
    each = math.fsum(masses) / (1 - BAKING_LOSS) / 4
    equal = Line("Or by equal weights: butter, sugar, eggs, flour", f"about {say.mass(each)} of each", "all sponges", SPONGE, "equal-weights")
    syrup = Line("Sugar syrup, if you brush the layers", f"about {say.mass(brushed_cm2 * SYRUP_G_PER_CM2)}", "the layers", SPONGE, "syrup")
    return [*found, equal, syrup]


def _stirred_in(cake: Plan, batch: Batch, by_purpose: Mapping[str, float], say: Formatter) -> list[Line]:
    """What thins the buttercream, and a gel for every tint."""
    liquids: dict[str, tuple[float, list[str]]] = {}
    for texture in batch.recipe.textures:
        mass = by_purpose.get(texture.purpose, 0.0)
        if mass >= 0.5 and texture.liquid_high_g_per_kg > 0:
            most, purposes = liquids.get(texture.liquid, (0.0, []))
            liquids[texture.liquid] = (most + mass * texture.liquid_high_g_per_kg / 1000, [*purposes, texture.purpose])
    found = []
    for liquid, (most, purposes) in liquids.items():
        title = capitalised(INGREDIENTS[liquid].name)
        found.append(Line(title, f"up to {say.mass(max(1.0, most))}", f"to thin it for {listed(purposes)}", STIRRED, f"thin-{liquid}"))
    shared = colour_masses(cake.amounts, say)
    for amount, told_g in zip(cake.amounts, shared.masses_g, strict=True):
        if amount.colour != "plain":
            tinted = f"{shared.write(told_g)} of buttercream"
            found.append(Line(f"Gel or paste colour for {amount.colour}", "a little", tinted, STIRRED, f"gel-{amount.colour}"))
    return found


def _under_it(cake: Plan, say: Formatter) -> list[Line]:
    """Boards, dowels, the rod and the boxes."""
    found: list[Line] = []

    def add(what: str, much: str, use: str, kind: str, size_mm: float, count: int) -> None:
        found.append(Line(what, much, use, STANDS, f"{kind}-{len(found)}-{size_mm:.0f}", count))

    for i, tier in enumerate(cake.tiers):
        stand = cake.supports[i]
        size = size_words(stand.board_width_mm, stand.board_length_mm, say)
        under = f"under {tier.order.name}" + ("" if i else ", the next size sold")
        add(f"{'Thin board' if i else 'Cake board'}, {size}", "1", under, "board", stand.board_width_mm, 1)
        if stand.inner_boards:
            inner = size_words(stand.inner_width_mm, stand.inner_length_mm, say)
            between = f"inside {tier.order.name}, between its levels"
            add(f"Thin board, {inner}", f"{stand.inner_boards}", between, "board", stand.inner_width_mm, stand.inner_boards)
        if stand.all_dowels:
            much = f"{stand.all_dowels} and {SPARE_DOWELS} spare"
            cut = f"Dowels to cut to {say.length(stand.dowel_length_mm)}"
            add(cut, much, f"in {tier.order.name}", "dowels", stand.dowel_length_mm, stand.all_dowels + SPARE_DOWELS)
    rod = centre_rod_mm(cake.bodies)
    if rod is not None:
        add(f"Centre rod, {say.length(rod)}", "1", "through all tiers", "rod", rod, 1)
    names = [tier.order.name for tier in cake.tiers]
    for box in boxes(cake.bodies, cake.supports, cake.stacking):
        size = f"{say.length(box.width_mm)} x {say.length(box.length_mm)}, {say.length(box.height_mm)} high inside"
        inside = "the whole cake" if len(box.tiers) == len(names) else listed([names[i] for i in box.tiers])
        add(f"Box, {size}", "1", inside, "box", box.width_mm, 1)
    return found


def _tools(cake: Plan) -> list[Line]:
    """Bags, couplers, tips and paper."""
    bags = cake.bags
    found: list[Line] = []
    if bags.bags:
        count, fills = len(bags.bags), math.fsum(bag.fills for bag in bags.bags)
        use = "one for each colour and tip" + (f", {fills:.0f} fills" if fills > count else "")
        found.append(Line("Piping bags", f"{count} and {SPARE_BAGS} spare", use, TOOLS, "bags", count + SPARE_BAGS))
        tips: dict[str, int] = {}
        for bag in bags.bags:
            tips[bag.tip.name] = tips.get(bag.tip.name, 0) + 1
        found += [Line(f"Tip, {name}", str(many), "in the drawer already?", TOOLS, f"tip-{name}", many) for name, many in tips.items()]
    if bags.couplers:
        saved = f"they save {bags.saved} bag{'s' if bags.saved > 1 else ''}"
        found.append(Line("Couplers", str(bags.couplers), saved, TOOLS, "couplers", bags.couplers))
    found.append(Line("Non-stick paper, clear tape", "a roll of each", "under marking strips, for labels", TOOLS, "paper"))
    return found
