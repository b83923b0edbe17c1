"""What is said of a planned cake, in words: rows and where they are, sponges, marking, clashes, what is hard to reach.

Map
---
`row_title`, `row_name`, `row_phrase`   a row by its kind, tip and colour
`place_of`                              where a row is
`colour_masses`                         what is made of each colour, adding up
`bag_letters`                           what each bag is called
`marking_text`, `marking_table`         how joints and arcs are marked
`clash_text`                            two rows that run into each other, with how to solve it
`reach_texts`                           how to come at a row past what is piped already
`there_words`                           what is piped at the venue says so
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from calc.calculators.division_form import dividers_words
from calc.colours import Amount
from calc.division import GAP_COVERED_MM
from calc.order import Plan, PlannedTier, Step, chords_of
from calc.rows.placement import Clash, PlacedRow
from calc.shapes import TWO_SIZES
from calc.tips import Tip
from calc.units import Formatter, SharedOut, letter_of


def there_words(step: Step) -> str:
    """What follows a step's title where it is piped at the venue, once the tiers are stacked."""
    return ", at the venue" if step.after_stacking else ""


def row_title(row: PlacedRow) -> str:
    """The kind of a row as the first word of a line: "Swag"."""
    return row.asked_kind.title


def row_name(row: PlacedRow) -> str:
    """A row with its tip and colour, as a title: "Swag, petal 11 mm, russet"."""
    return f"{row_title(row)}, {row.tip.name}, {row.colour}"


def row_phrase(row: PlacedRow) -> str:
    """A row with its tip and colour within a sentence: "C scroll, round 3 mm, cream"."""
    return f"{row.spec.kind}, {row.tip.name}, {row.colour}"


def place_of(row: PlacedRow, say: Formatter) -> str:
    """Where a row stands, in words."""
    over = f"over the {row.on.spec.kind} " if row.on else ""
    match row.place:
        case "base":
            return f"{over}round the base"
        case "top edge":
            return f"{over}on the top edge"
        case "top":
            return f"{over}on the top, {say.length(row.line_mm)} in from the edge"
        case "inside":
            return f"{over}inside the top edge, {say.length(row.line_mm)} in"
        case "joints":
            return f"at every joint, {say.length(row.line_mm)} below the top edge"
    line = f"{say.length(row.line_mm)} below the top edge"
    over = f"over the {row.on.spec.kind}, " if row.on else ""
    return f"{over}joints {line}" if row.hung else f"{over}{line}"


def bag_letters(cake: Plan) -> dict[tuple[str, Tip], str]:
    """What each bag of a cake is called, by its colour and tip."""
    return {(bag.colour, bag.tip): letter_of(i) for i, bag in enumerate(cake.bags.bags)}


def size_words(width_mm: float, length_mm: float, say: Formatter) -> str:
    """A width, or a width by a length where they differ."""
    width = say.length(width_mm)
    return width if abs(width_mm - length_mm) < 0.5 else f"{width} x {say.length(length_mm)}"


def sponge_words(tier: PlannedTier, say: Formatter) -> str:
    """Shape and size of a tier's sponge: a heart has one size, its width."""
    sponge = tier.order.sponge
    return f"{sponge.kind}, {size_words(sponge.width_mm, sponge.length_mm if sponge.kind in TWO_SIZES else sponge.width_mm, say)}"


def in_units(note: str, say: Formatter) -> str:
    """A note of a row in the reader's units; openings of tips stay in millimetres."""
    if say.units != "us" or "opening" in note:
        return note
    return re.sub(r"(\d+(?:\.\d+)?) mm", lambda found: say.length(float(found[1])), note)


def colour_masses(amounts: Sequence[Amount], say: Formatter) -> SharedOut:
    """What is made of each colour, as it is read beside the whole: in ounces the parts add up to it, in grams each is rounded by itself."""
    masses = tuple(amount.mass_g for amount in amounts)
    return say.shared_out(say.told_mass_g(math.fsum(masses)), masses) if say.units == "us" else SharedOut(masses, say.mass)


def clash_text(clash: Clash, say: Formatter) -> str:
    """A clash in words, with how to solve it."""
    one, overlap = clash.first, say.length(clash.overlap_mm)
    deep = "Make the drop shallower, use more repeats" if one.hung else "Set it higher, use a finer tip"
    if clash.second is None:
        if clash.where == "below the board":
            return f"the {row_phrase(one)} does not fit: it runs {overlap} past the board. {deep}, or leave a row out."
        lower = "Set its joints lower" if one.hung else "Set it lower, or use a finer tip"
        return f"the {row_phrase(one)} does not fit: it runs {overlap} past the top edge. {lower}."
    other = clash.second
    way = "Make the drop shallower, move the joints" if one.hung or other.hung else "Move one of them, use finer tips"
    where = clash.where if one.hung or other.hung else "all round"
    return f"the {row_phrase(one)} and the {row_phrase(other)} collide {where}: they overlap by {overlap}. {way}, or leave one out."


def marking_text(tier: PlannedTier, say: Formatter) -> str:
    """How a tier's joints and arcs are marked, in words."""
    chosen = tier.division
    text = (
        f"{chosen.repeats} repeats of {say.length(chosen.width_mm)} close round {say.length(tier.side_mm)}; "
        f"joints {say.length(tier.line_mm)} below the top edge. "
    )
    if chosen.cutter_mm is None:
        return text + f"No cutter: mark the arcs from a paper strip, drop {say.length(tier.drop_mm)}."
    if chosen.gap_mm > GAP_COVERED_MM:
        closes = math.ceil(tier.side_mm / chosen.cutter_mm * (1 - 1e-12))
        return text + (
            f"No cutter at hand fits: the {say.length(chosen.cutter_mm)} cutter leaves a gap of {say.length(chosen.gap_mm)} at every joint; "
            f"{closes} repeats close it."
        )
    if not tier.by_cutter:
        return text + (
            f"The drop asked for is {say.length(tier.drop_mm)}, and the {say.length(chosen.cutter_mm)} cutter would drop "
            f"{say.length(chosen.drop_mm)}: mark the arcs from a paper strip, or leave the drop empty and go by the cutter."
        )
    text += f"The {say.length(chosen.cutter_mm)} cutter, rolled from joint to joint, drops {say.length(chosen.drop_mm)}. "
    assert chosen.guide_mm is not None and tier.guide is not None
    edge, below = tier.guide
    if edge == "lower edge":
        return text + (
            f"Put the guide tape with its lower edge {say.length(below)} below the top edge ({say.length(chosen.guide_mm)} above the joints) "
            "and hang the cutter from it."
        )
    return text + (
        f"The cutter's top stands {say.length(chosen.guide_mm)} above the joints, over the cake's edge, so the guide tape goes under it: "
        f"its upper edge {say.length(below)} below the top edge, and the cutter rests on it."
    )


def marking_table(cake: Plan, say: Formatter) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """What is set and measured to mark each tier: the heads of the columns, and a line for each tier."""
    lines = []
    for tier in cake.tiers:
        chosen = tier.division
        cutter = say.length(chosen.cutter_mm) if tier.by_cutter and chosen.cutter_mm else "none"
        lines.append(
            (
                tier.order.name,
                say.length(tier.side_mm),
                str(chosen.repeats),
                dividers_words(chords_of(tier), say),
                say.length(tier.line_mm),
                cutter,
                say.length(tier.drop_mm) if tier.marked else "",
            )
        )
    return ("Tier", "Round the side", "Repeats", "Dividers", "Joints below the top edge", "Cutter", "Drop"), tuple(lines)


def reach_texts(cake: Plan, say: Formatter) -> dict[int, str]:
    """For each step that is hard to reach, how to come at it past what is piped already."""
    found: dict[int, list[tuple[float, str]]] = {}
    for later, earlier in cake.in_the_way:
        out, under = earlier.row.amount.stands_out_mm, later.row.line_mm > earlier.row.line_mm
        text = (
            f"The {earlier.row.spec.kind} of step {earlier.number} stands out {say.length(out)} close by: "
            f"come from {'below' if under else 'above'}, with the tip almost flat to the side."
        )
        found.setdefault(later.number, []).append((out, text))
    return {number: max(texts)[1] for number, texts in found.items()}
