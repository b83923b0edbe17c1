"""What an order takes besides the ingredients of its buttercream: sponge, what thins and tints, boards, dowels, boxes, bags and tips."""

from __future__ import annotations

import math
from collections.abc import Mapping

from calc.buttercream import INGREDIENTS, Batch
from calc.calculators.order_words import colour_masses, listed, size_words, sponge_words
from calc.order import Plan
from calc.stack import boxes, centre_rod_mm
from calc.stack.weights import SPONGE_G_PER_ML
from calc.units import Say

Line = tuple[str, str, str]
SPARE_DOWELS = 2


def besides(cake: Plan, batch: Batch, by_purpose: Mapping[str, float], say: Say) -> tuple[Line, ...]:
    """What to have besides the buttercream's ingredients, how much of it, and what it is for."""
    return (*_sponges(cake, say), *_stirred_in(cake, batch, by_purpose, say), *_under_it(cake, say), *_tools(cake, say))


def _sponges(cake: Plan, say: Say) -> list[Line]:
    """The sponges, bought or from a recipe of the maker's own."""
    found: list[Line] = [
        (
            f"Sponge, {sponge_words(tier, say)}, or its ingredients by your own recipe",
            f"{tier.order.layers} layers of {say.length(tier.coats.layer_mm)}, about {say.mass(tier.coats.sponge_ml * SPONGE_G_PER_ML)} baked",
            tier.order.name,
        )
        for tier in cake.tiers
    ]
    return [*found, ("Sugar syrup, if you brush the layers", "as your recipe says", "the layers")]


def _stirred_in(cake: Plan, batch: Batch, by_purpose: Mapping[str, float], say: Say) -> list[Line]:
    """What thins the buttercream, and a gel for every tint."""
    liquids: dict[str, tuple[float, list[str]]] = {}
    for texture in batch.recipe.textures:
        mass = by_purpose.get(texture.purpose, 0.0)
        if mass >= 0.5 and texture.liquid_high_g_per_kg > 0:
            most, purposes = liquids.get(texture.liquid, (0.0, []))
            liquids[texture.liquid] = (most + mass * texture.liquid_high_g_per_kg / 1000, [*purposes, texture.purpose])
    found: list[Line] = [
        (
            INGREDIENTS[liquid].name[0].upper() + INGREDIENTS[liquid].name[1:],
            f"up to {say.mass(max(1.0, most))}",
            f"to thin it for {listed(purposes)}",
        )
        for liquid, (most, purposes) in liquids.items()
    ]
    shared = colour_masses(cake.amounts, say)
    found += [
        (f"Gel or paste colour for {amount.colour}", "a little", f"{shared.write(told_g)} of buttercream")
        for amount, told_g in zip(cake.amounts, shared.masses_g, strict=True)
        if amount.colour != "plain"
    ]
    return found


def _under_it(cake: Plan, say: Say) -> list[Line]:
    """Boards, dowels, the rod and the boxes."""
    found: list[Line] = []
    for i, (tier, stand) in enumerate(zip(cake.tiers, cake.supports, strict=True)):
        size = size_words(stand.board_width_mm, stand.board_length_mm, say)
        found.append((f"{'Thin board' if i else 'Cake board'}, {size}", "1", f"under {tier.order.name}" + ("" if i else ", the next size sold")))
        if stand.inner_boards:
            inner = size_words(stand.inner_width_mm, stand.inner_length_mm, say)
            found.append((f"Thin board, {inner}", f"{stand.inner_boards}", f"inside {tier.order.name}, between its levels"))
        if stand.all_dowels:
            found.append(
                (f"Dowels to cut to {say.length(stand.dowel_length_mm)}", f"{stand.all_dowels} and {SPARE_DOWELS} spare", f"in {tier.order.name}")
            )
    rod = centre_rod_mm(cake.bodies)
    if rod is not None:
        found.append((f"Centre rod, {say.length(rod)}", "1", "through all tiers"))
    names = [tier.order.name for tier in cake.tiers]
    for box in boxes(cake.bodies, cake.supports, cake.stacking):
        size = f"{say.length(box.width_mm)} x {say.length(box.length_mm)}, {say.length(box.height_mm)} high inside"
        found.append((f"Box, {size}", "1", "the whole cake" if len(box.tiers) == len(names) else names[box.tiers[0]]))
    return found


def _tools(cake: Plan, say: Say) -> list[Line]:
    """Bags, couplers, tips and paper."""
    bags = cake.bags
    found: list[Line] = []
    if bags.bags:
        fills = math.fsum(bag.fills for bag in bags.bags)
        found.append(
            (
                "Piping bags",
                f"{len(bags.bags)} and 2 spare",
                "one for each colour and tip" + (f", {fills:.0f} fills" if fills > len(bags.bags) else ""),
            )
        )
        tips: dict[str, int] = {}
        for bag in bags.bags:
            tips[bag.tip.name] = tips.get(bag.tip.name, 0) + 1
        found += [(f"Tip, {name}", str(count), "in the drawer already?") for name, count in tips.items()]
    if bags.couplers:
        found.append(("Couplers", str(bags.couplers), f"they save {bags.saved} bag{'s' if bags.saved > 1 else ''}"))
    found.append(("Non-stick paper, clear tape", "a roll of each", "under marking strips, for labels"))
    return found
