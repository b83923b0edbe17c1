"""Builds the answer of the `order` calculator: its sections, tables, notes and drawings.

Map
---
`fill_answer`     the whole plan, section by section
`marking_text`    how a tier's joints and arcs are marked, in words
`clash_text`      two rows that run into each other, with how to solve it
`tier_drawing`    a planned tier as the drawing needs it
`calendar_of`     the timetable as a calendar file
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import combinations

from calc import buttercream, price, timetable
from calc.calculators.batch_form import keeping_words, texture_line
from calc.calculators.declare import Answer, Asked, ranged
from calc.calculators.division_form import closing_error_on, dividers_words, is_one_setting
from calc.calculators.timetable_form import steps_table
from calc.colours import CAUTIONS as COLOUR_CAUTIONS
from calc.colours import CLOSE_FROM, DEEPENING, PALETTE, SIGHT_WORDS, difference, hex_of, mixing_order
from calc.curves import arc_radius_mm
from calc.division import GAP_COVERED_MM
from calc.drawing.svg import svg
from calc.drawing.tiers import TierDrawn
from calc.drawing.unroll import unrolled
from calc.drawing.views import side_view, top_view
from calc.order import Plan, PlannedTier, chords_of, shells_of
from calc.rows.placement import Clash, PlacedRow
from calc.shapes import TWO_SIZES
from calc.stack import cautions as support_cautions
from calc.units import Problem, Say

CALENDAR = "timetable.ics"
Looks = tuple[tuple[str, str], ...]  # names of colours, and how the maker wants them drawn


def fill_answer(answer: Answer, cake: Plan, asked: Asked) -> None:
    """Fill the answer section by section; `asked` holds what only the page needs: looks, hours, prices."""
    looks = {c["name"].lower(): c["look"] for c in asked["colours"]}
    batch = buttercream.batch(cake.order.recipe, cake.buttercream_g, density=cake.density)
    kept = tuple(sorted(looks.items()))
    _add_cake(answer, cake, kept)
    _add_portions(answer, cake)
    _add_coats(answer, cake)
    _add_rows(answer, cake, kept)
    _add_amounts(answer, cake, kept)
    used_cost = _add_shopping(answer, cake, batch, asked["packs"])
    table = _add_time(answer, cake, asked)
    _add_price(answer, cake, asked, used_cost, table.hands_min)
    _add_bench(answer, cake, kept)
    answer.show_also("cake", "portions", "buttercream", "price")


def row_title(row: PlacedRow) -> str:
    """The kind of a row as the first word of a line: "Swag"."""
    return row.asked_kind.title


def row_name(row: PlacedRow) -> str:
    """A row with its tip and colour, as a title: "Swag, petal 11 mm, russet"."""
    return f"{row_title(row)}, {row.tip.name}, {row.colour}"


def row_phrase(row: PlacedRow) -> str:
    """A row with its tip and colour within a sentence: "C scroll, round 3 mm, cream"."""
    return f"{row.spec.kind}, {row.tip.name}, {row.colour}"


def place_of(row: PlacedRow, say: Say) -> str:
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


def look_of(colour: str, looks: Mapping[str, str]) -> str:
    """The drawing's colour for a colour's name; unknown names are drawn in a plain cream."""
    given = looks.get(colour, "").strip()
    if len(given) == 7 and given.startswith("#") and all(c in "0123456789abcdefABCDEF" for c in given[1:]):
        return given.lower()
    return hex_of(colour) or PALETTE["plain"]


def shades(rows: Sequence[PlacedRow], looks: Looks) -> dict[str, str]:
    """The colours of some rows, as the drawing shows them."""
    return {row.colour: look_of(row.colour, dict(looks)) for row in rows}


@lru_cache(maxsize=128)
def tier_drawing(tier: PlannedTier, looks: Looks, measured: bool = False) -> TierDrawn:
    """A planned tier as the drawing needs it; with `measured` its side is as long as the tape says, which marking needs."""
    scale = tier.side_mm / tier.reckoned_mm if measured else 1.0
    table = dict(looks)
    rows = tuple(
        PlacedRow(
            kind=row.kind,
            tip=row.tip,
            colour=look_of(row.colour, table),
            place="top" if row.on_top else row.place,
            line_mm=row.line_mm,
            repeats=tier.division.repeats,
            width_mm=row.amount.pitch_mm if row.what.scroll else None,  # each reaches from joint to joint
            drop_mm=row.amount.drops_mm[0] if row.what.scroll else row.drop_mm,
            cutter_mm=_cutter_of(tier, row),
            layers=row.layers,
            count=row.amount.count // row.layers if row.place != "joints" and not row.hung else None,
            per_joint=row.per_joint,
            joints=() if tier.order.sponge.kind == "round" else tuple(s * scale for s in tier.joints.s_mm),
            name=row_name(row),
        )
        for row in tier.rows
    )
    outline = tier.coats.finished.scaled(scale) if scale != 1.0 else tier.coats.finished
    banded = _bands_drawn(tier, table)
    coat = banded[-1][2] if tier.bands else look_of(tier.order.colour, table)  # the top goes with the uppermost band
    return TierDrawn(outline, tier.base_mm, tier.height_mm, coat, rows, tier.order.name, banded)


def _bands_drawn(tier: PlannedTier, looks: Mapping[str, str]) -> tuple[tuple[float, float, str], ...]:
    """The bands of an ombre coat or the stripes of a striped one: from, to and colour of each."""
    if tier.bands:
        return tuple((band.from_mm, band.to_mm, look_of(name, looks)) for (name, _), band in zip(tier.order.bands, tier.bands, strict=True))
    cut = tier.stripes
    if cut is None or tier.order.striped is None:
        return ()
    colour, pitch = look_of(tier.order.striped[0], looks), cut.ground_mm + cut.stripe_mm
    starts = (i * pitch + cut.ground_mm / 2 for i in range(cut.count))
    return tuple((start, start + cut.stripe_mm, colour) for start in starts)


def _cutter_of(tier: PlannedTier, row: PlacedRow) -> float | None:
    """The cutter that marks a row: only the first hung one is marked, and only where the cutter closes."""
    return tier.division.cutter_mm if row is tier.first_hung and tier.guide is not None else None


def _add_cake(answer: Answer, cake: Plan, looks: Looks) -> None:
    answer.section("cake", "The cake", "The cake")
    tiers = tuple(tier_drawing(tier, looks) for tier in cake.tiers)
    board = cake.supports[0].board_width_mm
    words = "; ".join(
        f"{t.order.name}: " + (", ".join(f"{row_phrase(r)} {place_of(r, answer.say)}" for r in t.rows) or "no rows") for t in cake.tiers
    )
    answer.drawing("side", f"{cake.order.name}, from the side, to scale", f"{cake.order.name} seen from the side. {words}.", _side_svg(tiers, board))
    answer.drawing("top", "From above, to scale; the back is at the top", f"{cake.order.name} seen from above.", _top_svg(tiers, board))
    answer.length("height", "Height of the cake", math.fsum(t.height_mm for t in cake.tiers))


@lru_cache(maxsize=16)
def _side_svg(tiers: tuple[TierDrawn, ...], board_mm: float) -> str:
    return svg(side_view(tiers, board_mm))


@lru_cache(maxsize=16)
def _top_svg(tiers: tuple[TierDrawn, ...], board_mm: float) -> str:
    return svg(top_view(tiers, board_mm))


@lru_cache(maxsize=32)
def _unrolled_svg(tier: TierDrawn) -> str:
    return svg(unrolled(tier, in_colour=False))


def size_words(width_mm: float, length_mm: float, say: Say) -> str:
    """A width, or a width by a length where they differ."""
    width = say.length(width_mm)
    return width if abs(width_mm - length_mm) < 0.5 else f"{width} x {say.length(length_mm)}"


def sponge_words(tier: PlannedTier, say: Say) -> str:
    """Shape and size of a tier's sponge: a heart has one size, its width."""
    sponge = tier.order.sponge
    return f"{sponge.kind}, {size_words(sponge.width_mm, sponge.length_mm if sponge.kind in TWO_SIZES else sponge.width_mm, say)}"


def _add_portions(answer: Answer, cake: Plan) -> None:
    say, order = answer.say, cake.order
    answer.section("portions", "Portions and what it stands on", "Portions")
    answer.count("portions", "Portions", cake.portions)
    spare = cake.portions - order.guests
    answer.figure("spare_portions", "Over the guests" if spare >= 0 else "Short for the guests", spare, "", str(abs(spare)))
    rows = []
    for tier in cake.tiers:
        with answer.quietly():
            answer.count(f"portions_{tier.index + 1}", f"Portions, {tier.order.name}", tier.cut.count)
        counted = "" if tier.counted else ", kept back"
        rows.append(
            [
                tier.order.name,
                f"{sponge_words(tier, say)} tin",
                f"{tier.cut.count}{counted}",
                tier.cut.cut,
            ]
        )
    answer.table(
        "portions",
        f"Slices of {say.length(order.slice_mm[0])} x {say.length(order.slice_mm[1])}, on the sponge",
        ("Tier", "Sponge", "Portions", "Cut"),
        rows,
        (2,),
    )
    if cake.short:
        answer.note(
            f"{cake.short} portion{'s' if cake.short > 1 else ''} short for {order.guests} guests. Cut smaller slices, take a wider tin, "
            "add a tier, or keep a plain cake of the same height behind for cutting."
        )
    stands = []
    for tier, support in zip(cake.tiers, cake.supports, strict=False):
        dowels = f"{support.dowels} of {say.length(support.dowel_length_mm)}" if support.dowels else "none"
        stands.append(
            [
                tier.order.name,
                size_words(support.board_width_mm, support.board_length_mm, say),
                dowels,
                say.mass(support.mass_g),
                say.mass(support.carried_g),
            ]
        )
        with answer.quietly():
            answer.length(f"board_{tier.index + 1}", f"Board, {tier.order.name}", support.board_width_mm)
            answer.count(f"dowels_{tier.index + 1}", f"Dowels in {tier.order.name}", support.dowels)
            if support.dowels:
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
        answer.count("dowels", "Dowels in all", sum(s.dowels for s in cake.supports))
        if lowest.dowels:
            answer.length("dowel_length", "Length of the dowels in the lowest tier", lowest.dowel_length_mm)
    weight = math.fsum(s.mass_g for s in cake.supports)
    answer.mass(
        "weight",
        "Weight of the cake",
        weight,
        math.fsum(s.low_g for s in cake.supports),
        math.fsum(s.high_g for s in cake.supports),
    )
    for text in support_cautions(cake.supports, say):
        answer.caution(text)


def _add_coats(answer: Answer, cake: Plan) -> None:
    say = answer.say
    answer.section("coats", "Filling and coats", "Coats")
    rows, shaded = [], []
    for tier in cake.tiers:
        c, d = tier.coats, cake.density
        filling, ends = c.filling_ml + c.dam_ml, tier.index + 1
        with answer.quietly():
            answer.volume(f"filling_{ends}", f"Filling, {tier.order.name}", filling)
            answer.volume(f"crumb_coat_{ends}", f"Crumb coat, {tier.order.name}", c.crumb_ml)
            answer.volume(f"final_coat_{ends}", f"Final coat, {tier.order.name}", c.final_ml)
            for name in (f"_{ends}", "") if tier.index == 0 else (f"_{ends}",):
                answer.length(f"finished_width{name}", f"Finished width, {tier.order.name}", c.finished.width_mm)
                answer.length(f"finished_side{name}", f"Round the finished side, {tier.order.name}", tier.side_mm)
                answer.length(f"finished_height{name}", f"Finished height, {tier.order.name}", tier.height_mm)
        parts = (filling, c.crumb_ml, c.final_ml)
        rows.append([tier.order.name, *(f"{say.volume(volume)}, {say.mass(volume * d)}" for volume in (*parts, math.fsum(parts)))])
        shaded += _coat_colours(tier, say, d)
        if tier.bands:
            answer.note(
                f"{tier.order.name}: the top goes with the uppermost colour. Lay each colour a little past its edge and let the scraper blend them."
            )
        if tier.stripes is not None:
            answer.note(
                f"{tier.order.name}: coat with {tier.order.colour} and comb grooves {say.length(tier.stripes.depth_mm)} deep, chill until firm, fill "
                f"them over the full and scrape back. The comb lifts {say.mass(tier.stripes.lifted_ml * d)} out again, which is made as well."
            )
        if tier.tape_off_percent is not None:
            answer.note(
                f"{tier.order.name}: the tape says {say.length(tier.side_mm)}, tin and coat come to {say.length(tier.reckoned_mm)} "
                f"({abs(tier.tape_off_percent):.0f} % {'less' if tier.tape_off_percent > 0 else 'more'}). The tape wins, "
                "and every row below goes by it. "
                "Check that the tape lies level and flat all round, that tin and disc are the ones named, and how thick the coat has become."
            )
    answer.volume("filling", "Filling in all", math.fsum(t.coats.filling_ml + t.coats.dam_ml for t in cake.tiers))
    answer.volume("crumb_coat", "Crumb coat in all", math.fsum(t.coats.crumb_ml for t in cake.tiers))
    answer.volume("final_coat", "Final coat in all", math.fsum(t.coats.final_ml for t in cake.tiers))
    filled = "Filling and dam" if any(t.coats.dam_ml for t in cake.tiers) else "Filling"
    heads = ("Tier", filled, "Crumb coat", "Final coat", "All of it")
    answer.table("coats", f"By tier, at {say.number(cake.density)} g for each ml", heads, rows)
    if shaded:
        answer.table("coat_colours", "The final coat by colour", ("Tier", "What", "Volume", "Weight"), shaded, (2, 3))


def _coat_colours(tier: PlannedTier, say: Say, density: float) -> list[list[str]]:
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
    if cut is not None and tier.order.striped is not None:
        found.append([tier.order.name, f"{tier.order.colour}, the ground", say.volume(cut.ground_ml), say.mass(cut.ground_ml * density)])
        stripes = f"{tier.order.striped[0]}, {cut.count} stripe{'s' if cut.count > 1 else ''} of {say.length(cut.stripe_mm)}"
        found.append([tier.order.name, stripes, say.volume(cut.stripes_ml), say.mass(cut.stripes_ml * density)])
    return found


def _add_rows(answer: Answer, cake: Plan, looks: Looks) -> None:
    answer.section("rows", "Rows and marking", "Rows")
    first = True
    for tier in cake.tiers:
        _add_marking(answer, tier, first and tier.marked, looks)
        first = first and not tier.marked
        if tier.marked:
            answer.drawing(
                f"unrolled_{tier.index + 1}",
                f"{tier.order.name}: the side laid flat, from the middle of the back",
                f"{marking_text(tier, answer.say)} " + "; ".join(f"{row_phrase(row)} {place_of(row, answer.say)}" for row in tier.rows) + ".",
                _unrolled_svg(tier_drawing(tier, looks, measured=True)),
            )
        for clash in tier.clashes:
            answer.note(f"{tier.order.name}: {clash_text(clash, answer.say)}")
        if not tier.clashes and tier.rows:
            answer.note(f"{tier.order.name}: all rows fit the side.")
        for row in tier.rows:
            for note in (*row.notes, *row.amount.notes):
                answer.note(f"{tier.order.name}, {row_phrase(row)}: {in_units(note, answer.say)}")
    for crowd in cake.crowded:
        beside = f"{answer.say.length(crowd.free_mm)} are free " + (
            f"beside {crowd.upper} and what is piped round its foot" if crowd.upper else "to the middle"
        )
        answer.note(
            f"{cake.tiers[crowd.row.tier].order.name}: the {row_phrase(crowd.row)} reaches {answer.say.length(crowd.reach_mm)} in from the edge, "
            f"and only {beside}. Take a finer tip, a smaller tier above, or leave a row out."
        )


def in_units(note: str, say: Say) -> str:
    """A note of a row in the reader's units; openings of tips stay in millimetres."""
    if say.units != "us" or "opening" in note:
        return note
    return re.sub(r"(\d+(?:\.\d+)?) mm", lambda found: say.length(float(found[1])), note)


def clash_text(clash: Clash, say: Say) -> str:
    """A clash in words, with how to solve it."""
    one, overlap = clash.first, say.length(clash.overlap_mm)
    deep = "Make the drop shallower, take more repeats" if one.hung else "Set it higher, take a finer tip"
    if clash.second is None:
        if clash.where == "below the board":
            return f"the {row_phrase(one)} does not fit: it runs {overlap} past the board. {deep}, or leave a row out."
        lower = "Set its joints lower" if one.hung else "Set it lower, or take a finer tip"
        return f"the {row_phrase(one)} does not fit: it runs {overlap} past the top edge. {lower}."
    other = clash.second
    way = "Make the drop shallower, move the joints" if one.hung or other.hung else "Move one of them, take finer tips"
    where = clash.where if one.hung or other.hung else "all round"
    return f"the {row_phrase(one)} and the {row_phrase(other)} collide {where}: they overlap by {overlap}. {way}, or leave one out."


def _add_figures(answer: Answer, tier: PlannedTier, first: bool) -> None:
    """The figures of the technique pages, for a tier and each of its rows; those of the first marked tier also by their plain names."""
    chosen, number, chords, hung = tier.division, tier.index + 1, chords_of(tier), tier.first_hung
    for end in (f"_{number}", "") if first else (f"_{number}",):
        if is_one_setting(chords):
            answer.length(f"dividers{end}", f"Dividers, {tier.order.name}", chords[0])
            off = closing_error_on(tier.measured, chords, tier.joints.s_mm[0] * tier.side_mm / tier.reckoned_mm)
            if off is not None:
                answer.length(f"closing_error{end}", f"Closing error, dividers set to the millimetre, {tier.order.name}", off)
        if hung is not None:
            answer.length(f"drop{end}", f"Drop, {tier.order.name}", tier.drop_mm)
            if hung.asked_kind.curve == "arc" and tier.drop_mm > 0:
                answer.length(f"arc_radius{end}", f"Radius of the arc, {tier.order.name}", arc_radius_mm(chosen.width_mm, tier.drop_mm))
            answer.length(f"length_each{end}", f"Length of one, {row_phrase(hung)}", hung.amount.length_each_mm)
            answer.length(f"length_total{end}", f"Length to pipe, {row_phrase(hung)}", hung.amount.length_mm)
    for at, row in enumerate(tier.rows, 1):
        end, p = f"_{number}_{at}", row.amount
        answer.count(f"count{end}", f"How many, {row_phrase(row)}", p.count)
        answer.length(f"length{end}", f"Length to pipe, {row_phrase(row)}", p.length_mm)
        answer.mass(f"mass{end}", f"Buttercream, {row_phrase(row)}", p.mass_g, p.low_g, p.high_g)
        answer.duration(f"time{end}", f"Time to pipe, {row_phrase(row)}", p.time_min, p.low_min, p.high_min)
        if row.asked_kind.side_by_side:
            answer.length(f"pitch{end}", f"Pitch, {row_phrase(row)}", p.pitch_mm)
            answer.percent(f"stretch{end}", f"Stretched, {row_phrase(row)}", p.stretch_percent)


def _add_marking(answer: Answer, tier: PlannedTier, plain_names: bool, looks: Looks) -> None:
    say, chosen, number = answer.say, tier.division, tier.index + 1
    chords = chords_of(tier)
    with answer.quietly():
        answer.count(f"repeats_{number}", f"Repeats, {tier.order.name}", chosen.repeats)
        answer.length(f"pitch_{number}", f"Pitch, {tier.order.name}", tier.side_mm / chosen.repeats)
    if plain_names:
        answer.count("repeats", "Repeats", chosen.repeats)
        answer.length("width", "Swag width", chosen.width_mm)
    if tier.joints.note:
        answer.note(f"{tier.order.name}: {tier.joints.note}.")
    with answer.quietly():
        _add_figures(answer, tier, plain_names)
    if plain_names:
        answer.length("drop", "Drop", tier.drop_mm)
    if tier.marked:
        answer.note(f"{tier.order.name}: {marking_text(tier, say)}")
    rows = []
    for row in tier.rows:
        p = row.amount
        pieces = str(p.count)
        if row.asked_kind.side_by_side and row.place != "joints":
            each, stretch = shells_of(row, chosen.repeats)
            way = "stretched" if stretch > 0 else "squeezed"
            pieces = f"{p.count}, {each} to a repeat" + (f", {way} {abs(stretch):.0f} %" if round(abs(stretch)) else "")
        rows.append(
            [
                row_title(row),
                row.tip.name,
                row.colour,
                place_of(row, say) + (f", drop {say.length(row.drop_mm)}" if row.hung else ""),
                pieces,
                say.length(p.length_mm),
                ranged(say.mass, p.mass_g, p.low_g, p.high_g),
            ]
        )
    side = f"{tier.order.name}: {chosen.repeats} repeats round {say.length(tier.side_mm)}"
    if is_one_setting(chords):
        side += f", dividers at {say.length(chords[0])}"
    if rows:
        heads = ("Row", "Tip", "Colour", "Where", "How many", "To pipe", "Buttercream")
        answer.table(f"rows_{number}", side, heads, rows, (5, 6), {2: shades(tier.rows, looks)})
    _add_other_counts(answer, tier)


def marking_text(tier: PlannedTier, say: Say) -> str:
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


def _add_other_counts(answer: Answer, tier: PlannedTier) -> None:
    """The next few ways to divide a tier, and what each would change."""
    if not tier.marked:
        return
    say, chosen = answer.say, tier.division
    rows: list[list[str]] = []
    seen = {(chosen.repeats, chosen.cutter_mm)}
    for other in tier.choices:
        if (other.repeats, other.cutter_mm) in seen or len(rows) == 4:
            continue
        seen.add((other.repeats, other.cutter_mm))
        wider = "wider" if other.width_mm > chosen.width_mm else "narrower"
        deeper = "deeper" if other.drop_mm > chosen.drop_mm else "shallower"
        changes = [f"{say.length(abs(other.width_mm - chosen.width_mm))} {wider}"] if abs(other.width_mm - chosen.width_mm) > 0.05 else []
        changes += [f"{say.length(abs(other.drop_mm - chosen.drop_mm))} {deeper}"] if abs(other.drop_mm - chosen.drop_mm) > 0.05 else []
        changes += [REASONS[reason].format(gap=say.length(other.gap_mm)) for reason in other.reasons]
        rows.append(
            [
                str(other.repeats),
                say.length(other.cutter_mm) if other.cutter_mm else "none",
                say.length(other.width_mm),
                say.length(other.drop_mm),
                ", ".join(changes),
            ]
        )
    if rows:
        answer.table(
            f"others_{tier.index + 1}",
            f"{tier.order.name}: other ways to divide it",
            ("Repeats", "Cutter", "Width", "Drop", "What it changes"),
            rows,
            (0, 1, 2, 3),
        )


REASONS = {
    "gap": "leaves a gap of {gap} at every joint",
    "shallow": "looks flat",
    "room": "too deep for the room under the joints",
    "shells": "shells do not meet the joints",
    "corners": "leaves a corner without a joint",
}


def listed(words: Sequence[str]) -> str:
    """Words as a list: "cream, russet and bay"."""
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]


def _add_colours(answer: Answer, cake: Plan, looks: Looks) -> None:
    """In which order the colours are mixed, what standing does to them, and which of them guests cannot tell apart."""
    table = dict(looks)
    steps = mixing_order([(amount.colour, amount.mass_g) for amount in cake.amounts])
    answer.table(
        "mixing",
        "Mixing order, lightest first",
        ("Step", "What to do"),
        [[str(i), step.sentence(answer.say)] for i, step in enumerate(steps, 1)],
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
        answer.note(
            f"{listed(unknown).capitalize()}: no value is known for that name, so it is drawn in plain cream and not compared. "
            "Add it under Colour to have it drawn and compared."
        )
    for one, other in _meeting(cake):
        if one in unknown or other in unknown:
            continue
        found = difference(look_of(one, table), look_of(other, table))
        if found.verdict == "same":
            answer.note(f"{one.capitalize()} and {other} will be taken for the same on the cake. Make one lighter or darker.")
        elif found.verdict == "close":
            answer.note(f"{one.capitalize()} and {other} are told apart only where they touch. Make one lighter or darker if both should read.")
        elif found.least < CLOSE_FROM:
            answer.note(
                f"{one.capitalize()} and {other} look nearly alike to a guest with {SIGHT_WORDS[found.least_sight]}. "
                "Set them apart by shape or by lightness as well."
            )


def _meeting(cake: Plan) -> list[tuple[str, str]]:
    """Colours that stand beside each other on a tier, each pair once; rows of the coat's own colour are meant to be."""
    pairs: dict[tuple[str, str], None] = {}
    for tier in cake.tiers:
        coat = [name for name, _ in tier.order.bands] or [tier.order.colour, *(tier.order.striped or ())[:1]]
        names = dict.fromkeys([*coat, *(row.colour for row in tier.rows)])
        for first, second in combinations(names, 2):
            if (second, first) not in pairs and not (first in coat and second in coat and tier.bands):
                pairs[first, second] = None
    return list(pairs)


def _add_amounts(answer: Answer, cake: Plan, looks: Looks) -> None:
    say = answer.say
    answer.section("amounts", "Buttercream by colour, and bags", "Buttercream")
    low, high = math.fsum(a.low_g for a in cake.amounts), math.fsum(a.high_g for a in cake.amounts)
    answer.mass("buttercream", "Buttercream to make", cake.buttercream_g, low, high)
    answer.mass("piping", "Of it piped", cake.piping_g, cake.piping_low_g, cake.piping_high_g)
    with answer.quietly():
        answer.mass("mass", "Buttercream on the cake", cake.filling_g + cake.coat_g + cake.piping_g)
        answer.volume("volume", "Buttercream to make, by volume", cake.buttercream_g / cake.density)
        answer.figure("density", "Density", cake.density, "g/ml", f"{say.number(cake.density)} g/ml")
    rows = []
    for amount in cake.amounts:
        with answer.quietly():
            answer.mass(
                f"colour_{amount.colour.replace(' ', '_')}",
                f"Buttercream, {amount.colour}",
                amount.mass_g,
                amount.low_g,
                amount.high_g,
            )
        uses = "; ".join(f"{use.removeprefix('bag ')} {say.mass(mass)}" for use, mass in amount.uses)
        rows.append([amount.colour, say.mass(amount.mass_g), f"{say.mass(amount.low_g)} to {say.mass(amount.high_g)}", uses])
    answer.table(
        "colours",
        "To make of each colour, losses and a tenth over included",
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
        [[str(i), b.colour, b.tip.name, say.mass(b.mass_g), str(b.fills)] for i, b in enumerate(bags.bags, 1)],
        (0, 3, 4),
        {1: {b.colour: look_of(b.colour, dict(looks)) for b in bags.bags}},
    )
    if bags.saved:
        few = len(bags.coupled)
        answer.note(
            f"With {bags.couplers} coupler{'s' if bags.couplers > 1 else ''} you need {few} bag{'s' if few > 1 else ''} instead of {len(bags.bags)}: "
            + "; ".join(f"{b.colour} with {listed([t.name for t in b.tips])}" for b in bags.coupled if len(b.tips) > 1)
            + "."
        )
    for tip, colours in bags.twice:
        answer.note(f"The {tip.name} tip is needed in {listed(colours)}: have {len(colours)}, or wash it between.")
    _add_colours(answer, cake, looks)
    drawn_back = [
        f"{say.mass((t.coats.final_high_ml - t.coats.final_ml) * cake.density)} on {t.order.name}"
        for t in cake.tiers
        if t.coats.by_disc and t.coats.final_high_ml > t.coats.final_ml
    ]
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


def _add_shopping(answer: Answer, cake: Plan, batch: buttercream.Batch, packs: Sequence[Asked]) -> float:
    say = answer.say
    answer.section("shopping", "Recipe and shopping list", "Shopping")
    answer.table(
        "recipe",
        f"{batch.recipe.name} buttercream, {say.mass(batch.mass_g)}",
        ("Ingredient", "Weigh"),
        [[line.ingredient.name, say.mass(line.mass_g)] for line in batch.lines],
        (1,),
    )
    strings = math.fsum(row.amount.mass_g for tier in cake.tiers for row in tier.rows if row.asked_kind.texture == "strings")
    by_purpose = {"coats": cake.filling_g + cake.coat_g + cake.lifted_g, "piping": cake.piping_g - strings, "strings": strings}
    answer.table(
        "textures",
        "Brought to what it is wanted for",
        ("For", "Stir in, for what this cake takes", "Work at", "It is right when it"),
        [texture_line(say, texture, by_purpose[texture.purpose]) for texture in batch.recipe.textures if by_purpose.get(texture.purpose, 0.0) >= 0.5],
    )
    holds = batch.recipe.holds_celsius
    answer.note(
        f"{batch.recipe.name}: it {'crusts' if batch.recipe.crusts else 'does not crust'}; edges hold to about "
        f"{say.temperature(holds, holds * 9 / 5 + 32)}. {keeping_words(batch.recipe)}"
    )
    items = []
    for line in batch.lines:
        pack = next((p for p in packs if _same_thing(p["name"], line.ingredient.name)), None)
        items.append(price.Item(line.ingredient.name, line.mass_g, pack["mass"] if pack else None, pack["price"] if pack else None))
    bought = price.shopping(items)
    answer.table(
        "shopping",
        "To buy",
        ("What", "Needed", "Packs", "Left over", "Costs"),
        [
            [
                b.item.name,
                say.mass(b.item.need_g),
                f"{b.packs} of {say.mass(b.item.pack_g)}" if b.packs and b.item.pack_g else "",
                say.mass(b.left_g) if b.packs else "",
                say.money(b.cost) if b.cost is not None else "no price",
            ]
            for b in bought.lines
        ],
        (1, 3, 4),
    )
    if bought.unpriced:
        answer.note(f"No pack price for {', '.join(bought.unpriced)}: add it under Pack, or the cost leaves it out.")
    names = buttercream.allergens(cake.order.recipe)
    answer.caution(
        f"Allergens in the buttercream: {', '.join(names.us) or 'none of the nine'} (of the nine named in the US); "
        f"{', '.join(names.eu) or 'none of the fourteen'} (of the fourteen in the EU and UK). "
        "Add those of sponge, fillings and decorations, read every label, and follow your local rules for telling guests."
    )
    for text in buttercream.cautions(cake.order.recipe, answer.units):
        answer.caution(text)
    return bought.used_cost


def _same_thing(pack: str, ingredient: str) -> bool:
    """Whether a pack's name is the ingredient's, or whole words of it: "butter" is "butter, unsalted"."""
    wanted, words = pack.lower().replace(",", " ").split(), ingredient.lower().replace(",", " ").split()
    return bool(wanted) and all(word in words for word in wanted)


def timetable_of(cake: Plan, asked: Asked) -> timetable.Timetable:
    """The timetable of a plan in the maker's hours."""
    hours = timetable.read_hours(asked["hours"], "hours", "Working hours")
    tasks = timetable.cake_tasks(
        [timetable.TierWork(t.order.name, t.order.sponge.width_mm, t.order.height_mm, t.order.layers) for t in cake.tiers],
        [
            timetable.RowWork(row_name(s.row) if len(cake.tiers) == 1 else f"{s.tier_name}, {row_phrase(s.row)}", s.row.tier, s.row.amount.time_min)
            for s in cake.steps
        ],
        cake.buttercream_g,
        cake.order.recipe,
        max(1, sum(amount.colour != "plain" for amount in cake.amounts)),
        len(cake.bags.bags),
        travel_min=asked["travel"],
        spare_min=asked["spare"],
    )
    try:
        return timetable.schedule(cake.order.ready_at, tasks, hours)
    except timetable.NoRoom as full:
        when = Say(asked.units).moment(cake.order.ready_at)
        raise Problem("hours", f"Working hours leave no room for the work before {when}: {full}") from None


def calendar_of(asked: Asked, cake: Plan) -> bytes:
    """The timetable of a cake as a calendar file."""
    return timetable.calendar_text(timetable_of(cake, asked), cake.order.name).encode()


def _add_time(answer: Answer, cake: Plan, asked: Asked) -> timetable.Timetable:
    say, travel_min = answer.say, asked["travel"]
    answer.section("time", "Timetable, backwards from the hour", "Timetable")
    table = timetable_of(cake, asked)
    answer.figure("start", "Begin", (table.ready_at - table.start).total_seconds() / 60, "min", say.moment(table.start))
    answer.figure("hands", "Hands at work", table.hands_min, "min", answer.say.working_time(table.hands_min))
    steps_table(answer, table, 1)
    for step in table.stale:
        answer.note(f"{step.task.name} would be done further ahead than it keeps. Add working hours nearer the day.")
    for text in timetable.cautions(cake.order.recipe, travel_min=travel_min, unit_system=answer.units):
        answer.caution(text)
    answer.file(CALENDAR, "Calendar file", "text/calendar")
    return table


def _add_price(answer: Answer, cake: Plan, asked: Asked, ingredients: float, hands_min: float) -> None:
    say = answer.say
    answer.section("price", "Price", "Price")
    made = price.price(
        ingredients,
        hands_min,
        asked["rate"],
        asked["overhead"],
        asked["margin"],
        packaging=asked["extras"],
        portions=max(1, cake.portions),
    )
    for name, label, value in (
        ("cost", "Cost", made.cost),
        ("price", "Price", made.price),
        ("per_portion", "For each portion", made.per_portion),
    ):
        answer.figure(name, label, value, "", say.money(value))
    answer.table(
        "price",
        "How it comes together, in your money",
        ("What", "Amount"),
        [
            ["Buttercream, its share of the packs", say.money(made.ingredients)],
            ["Sponge, boards, box, delivery", say.money(made.packaging)],
            [f"Hands, {say.working_time(hands_min)} at {say.money(asked['rate'])} an hour", say.money(made.labour)],
            ["Overhead", say.money(made.overhead)],
            ["Cost", say.money(made.cost)],
            [f"Margin, {say.percent(made.margin_percent)} of the price", say.money(made.profit)],
            ["Price, before any tax", say.money(made.price)],
        ],
        (1,),
    )
    answer.caution("Selling food from home: ask your local authority what registration, training and labels it wants before you take money.")


def marking_table(cake: Plan, say: Say) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """What is set and measured to mark each tier: the heads of the columns, and a line for each tier."""
    lines = []
    for tier in cake.tiers:
        chosen = tier.division
        cutter = say.length(chosen.cutter_mm) if tier.marked and tier.by_cutter and chosen.cutter_mm else "none"
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


def reach_texts(cake: Plan, say: Say) -> dict[int, str]:
    """For each step that is hard to reach, how to come at it past what is piped already."""
    worst: dict[int, tuple[float, str]] = {}
    for later, earlier in cake.in_the_way:
        out, under = earlier.row.amount.stands_out_mm, later.row.line_mm > earlier.row.line_mm
        text = (
            f"The {earlier.row.spec.kind} of step {earlier.number} stands out {say.length(out)} close by: "
            f"come from {'below' if under else 'above'}, with the tip almost flat to the side."
        )
        worst[later.number] = max(worst.get(later.number, (0.0, "")), (out, text))
    return {number: text for number, (_, text) in worst.items()}


def _add_bench(answer: Answer, cake: Plan, looks: Looks) -> None:
    say = answer.say
    answer.section("bench", "Bench sheet", "Bench sheet", "Print the bench sheet")
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
                f"{step.number}. {row_title(row)}, {step.tier_name}",
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
