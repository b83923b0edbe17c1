"""The first sections of an order's answer: the cake as a whole, its portions and supports, its filling and coats."""

from __future__ import annotations

import math
from functools import partial

from calc.calculators.declare import Answer
from calc.calculators.order_drawings import Looks, side_svg, tier_drawing, tilted_if_drawn, tilted_svg, top_svg
from calc.calculators.order_moving import add_moving
from calc.calculators.order_words import place_of, row_phrase, size_words, sponge_words
from calc.calculators.portions_form import levels_words
from calc.calculators.supports_form import SEAT_SHOWS_MM, dowels_in_words, inner_words, seat_words
from calc.order import Plan, PlannedTier
from calc.stack import cautions as support_cautions
from calc.units import Formatter


def add_cake(answer: Answer, cake: Plan, looks: Looks) -> None:
    """Add the cake as a whole: its views and its height."""
    answer.section("cake", "The cake", "The cake")
    tiers = tuple(tier_drawing(tier, looks) for tier in cake.tiers)
    board = cake.supports[0].board_width_mm
    words = "; ".join(
        f"{t.order.name}: " + (", ".join(f"{row_phrase(r)} {place_of(r, answer.say)}" for r in t.rows) or "no rows") for t in cake.tiers
    )
    tilted = tilted_if_drawn(tiers, board) or partial(tilted_svg, tiers, board)
    answer.main_drawing("tilted", f"{cake.order.name}, to scale", f"{cake.order.name} seen from a little above. {words}.", tilted)
    side, top = partial(side_svg, tiers, board), partial(top_svg, tiers, board)
    answer.drawing("side", "From the side, to scale: measure on this one", f"{cake.order.name} seen from the side. {words}.", side)
    answer.drawing("top", "From above, to scale; the back is at the top", f"{cake.order.name} seen from above.", top)
    answer.length("height", "Height of the cake", math.fsum(t.height_mm for t in cake.tiers))


def add_portions(answer: Answer, cake: Plan) -> None:
    """Add portions, boards, supports and weights."""
    say, order = answer.say, cake.order
    answer.section("portions", "Portions and what it stands on", "Portions")
    answer.count("portions", "Portions", cake.portions)
    spare = cake.portions - order.guests
    answer.figure("spare_portions", "Over the guests" if spare >= 0 else "Portions short", spare, "", str(abs(spare)))
    rows = []
    for tier in cake.tiers:
        with answer.quietly():
            answer.count(f"portions_{tier.index + 1}", f"Portions, {tier.order.name}", tier.portions)
        counted = "" if tier.counted else ", kept back"
        rows.append(
            [
                tier.order.name,
                f"{sponge_words(tier, say)} tin",
                f"{tier.portions}{counted}",
                tier.cut.cut if tier.levels == 1 else f"{tier.cut.cut}, on {tier.levels} levels",
            ]
        )
    answer.table(
        "portions",
        f"Slices of {say.length(order.slice_mm[0])} x {say.length(order.slice_mm[1])}, on the sponge",
        ("Tier", "Sponge", "Portions", "Cut"),
        rows,
        (2,),
    )
    for tier in cake.tiers:
        if tier.levels > 1:
            answer.note(f"{tier.order.name}: {levels_words(tier.order.height_mm, tier.cut.count, say)} {inner_words(cake.supports[tier.index], say)}")
    if cake.short:
        answer.note(
            f"{cake.short} portion{'s' if cake.short > 1 else ''} short for {order.guests} guests. Cut smaller slices, use a wider tin, "
            "add a tier, or keep a plain cake of the same height in the kitchen for cutting."
        )
    for lower, upper, support in zip(cake.tiers, cake.tiers[1:], cake.supports, strict=False):
        if abs(support.seat_mm) > SEAT_SHOWS_MM:
            answer.note(seat_words(upper.order.name, lower.order.name, support.seat_mm, say))
    stands = []
    for tier in cake.tiers:
        support = cake.supports[tier.index]
        stands.append(
            [
                tier.order.name,
                size_words(support.board_width_mm, support.board_length_mm, say),
                dowels_in_words(support, say),
                say.mass(support.mass_g),
                say.mass(support.carried_g),
            ]
        )
        with answer.quietly():
            answer.length(f"board_{tier.index + 1}", f"Board, {tier.order.name}", support.board_width_mm)
            answer.count(f"dowels_{tier.index + 1}", f"Dowels in {tier.order.name}", support.all_dowels)
            if support.all_dowels:
                answer.length(f"dowel_length_{tier.index + 1}", f"Dowels in {tier.order.name}, length", support.dowel_length_mm)
            answer.mass(f"weight_{tier.index + 1}", f"Weight, {tier.order.name}", support.mass_g, support.low_g, support.high_g)
    answer.table(
        "supports",
        "Boards, supports and weights",
        ("Tier", "Board under it", "Dowels in it", "Its weight", "Carries"),
        stands,
        (1, 3, 4),
    )
    lowest = cake.supports[0]
    with answer.quietly():
        answer.length("board", "Board under the cake", lowest.board_width_mm)
        answer.count("dowels", "Dowels in all", sum(s.all_dowels for s in cake.supports))
        if lowest.all_dowels:
            answer.length("dowel_length", "Length of the dowels in the lowest tier", lowest.dowel_length_mm)
    weight = math.fsum(s.mass_g for s in cake.supports)
    answer.mass(
        "weight",
        "Weight of the cake",
        weight,
        math.fsum(s.low_g for s in cake.supports),
        math.fsum(s.high_g for s in cake.supports),
    )
    add_moving(answer, cake)
    for text in support_cautions(cake.supports, cake.stacking, say):
        answer.caution(text)


def add_coats(answer: Answer, cake: Plan) -> None:
    """Add filling, crumb coat and final coat of each tier."""
    say = answer.say
    answer.section("coats", "Filling and coats", "Coats")
    rows, shaded = [], []
    laid = [(t.coats.filling_ml + t.coats.dam_ml, t.coats.crumb_ml, t.coats.final_ml) for t in cake.tiers]
    volumes = say.adding_up("volume", [part for parts in laid for part in parts])
    masses = say.adding_up("mass", [part * cake.density for parts in laid for part in parts])
    for tier in cake.tiers:
        c, d = tier.coats, cake.density
        filling, ends = c.filling_ml + c.dam_ml, tier.index + 1
        with answer.quietly():
            for name, label, part in (
                ("filling", "Filling", filling),
                ("crumb_coat", "Crumb coat", c.crumb_ml),
                ("final_coat", "Final coat", c.final_ml),
            ):
                answer.figure(f"{name}_{ends}", f"{label}, {tier.order.name}", part, "ml", volumes.text(part))
            for name in (f"_{ends}", "") if tier.index == 0 else (f"_{ends}",):
                answer.length(f"finished_width{name}", f"Finished width, {tier.order.name}", c.finished.width_mm)
                answer.length(f"finished_side{name}", f"Round the finished side, {tier.order.name}", tier.side_mm)
                answer.length(f"finished_height{name}", f"Finished height, {tier.order.name}", tier.height_mm)
        parts = (filling, c.crumb_ml, c.final_ml)
        cells = [f"{volumes.text(part)}, {masses.text(part * d)}" for part in parts]
        rows.append([tier.order.name, *cells, f"{volumes.text(*parts)}, {masses.text(*(part * d for part in parts))}"])
        shaded += _coat_colours(tier, say, d)
        if tier.bands:
            answer.note(
                f"{tier.order.name}: the top has the uppermost colour. Lay each colour a little past its edge and let the scraper blend them."
            )
        if tier.stripes is not None:
            answer.note(
                f"{tier.order.name}: coat with {tier.order.colour} and comb grooves {say.length(tier.stripes.depth_mm)} deep, chill until firm, fill "
                f"them too full and scrape back. The comb lifts {say.mass(tier.stripes.lifted_ml * d)} out again, which is made as well."
            )
        if tier.tape_off_percent is not None:
            answer.note(
                f"{tier.order.name}: the tape says {say.length(tier.side_mm)}, tin and coat add up to {say.length(tier.perimeter_mm)} "
                f"({abs(tier.tape_off_percent):.0f} % {'less' if tier.tape_off_percent > 0 else 'more'}). The tape is used, "
                "and every row below goes by it. "
                "Check that the tape lies level and flat all round, that tin and disc are the sizes you typed, and how thick the coat is."
            )
    for i, (name, label) in enumerate((("filling", "Filling in all"), ("crumb_coat", "Crumb coat in all"), ("final_coat", "Final coat in all"))):
        all_of_it = [part[i] for part in laid]
        answer.figure(name, label, math.fsum(all_of_it), "ml", volumes.text(*all_of_it))
    filled = "Filling and dam" if any(t.coats.dam_ml for t in cake.tiers) else "Filling"
    heads = ("Tier", filled, "Crumb coat", "Final coat", "All of it")
    answer.table("coats", f"By tier, at {say.density(cake.density)}", heads, rows)
    if shaded:
        answer.table("coat_colours", "The final coat by colour", ("Tier", "What", "Volume", "Weight"), shaded, (2, 3))


def _coat_colours(tier: PlannedTier, say: Formatter, density: float) -> list[list[str]]:
    """The colours of an ombre or a striped final coat, with their heights on the side."""
    found = [
        [
            tier.order.name,
            f"{name}, {f'from {say.length(band.from_mm)}' if band.from_mm else 'from the base'} to {say.length(band.to_mm)}",
            say.volume(band.volume_ml),
            say.mass(band.volume_ml * density),
        ]
        for (name, _), band in zip(tier.order.bands, tier.bands, strict=True)
    ]
    cut = tier.stripes
    if cut is not None:
        assert tier.order.striped is not None, "stripes are made of a colour"
        found.append([tier.order.name, f"{tier.order.colour}, the ground", say.volume(cut.ground_ml), say.mass(cut.ground_ml * density)])
        stripes = f"{tier.order.striped[0]}, {cut.count} stripe{'s' if cut.count > 1 else ''} of {say.length(cut.stripe_mm)}"
        found.append([tier.order.name, stripes, say.volume(cut.stripes_ml), say.mass(cut.stripes_ml * density)])
    return found
