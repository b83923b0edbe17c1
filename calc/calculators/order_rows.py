"""The section of an order's answer on its rows: how each tier is divided and marked, and what each row comes to."""

from __future__ import annotations

from functools import lru_cache, partial

from calc.calculators.declare import Answer, Press, ranged
from calc.calculators.division_form import closing_error_on, closing_words, fineness_words, is_one_setting
from calc.calculators.division_words import choice_words, exact_length, shown_choices, take, why
from calc.calculators.order_drawings import Looks, shades, tier_drawing, unrolled_svg
from calc.calculators.order_fit import add_fits
from calc.calculators.order_words import clash_text, in_units, marking_text, place_of, row_phrase, row_title
from calc.curves import arc_radius_mm
from calc.order import Plan, PlannedTier, chords_of, pieces_of
from calc.rows import KINDS
from calc.rows.placement import first_pieces
from calc.units import Same


def _unrolled(tier: PlannedTier, looks: Looks, units: str) -> str:
    """The side of one tier laid flat, as long as the tape says."""
    return unrolled_svg(tier_drawing(tier, looks, measured=True), units)


def add_rows(answer: Answer, cake: Plan, looks: Looks) -> None:
    """Add the rows of each tier, how they are marked, and what speaks against them."""
    answer.section("rows", "Rows and marking", "Rows")
    add_fits(answer, cake)
    first = True
    below = ""
    for tier in cake.tiers:
        part, told = _told_of(Same(tier), first and tier.marked, looks, below, answer.units, answer.currency)
        answer.take(part)
        first = first and not tier.marked
        below = tier.order.name if cake.order.together and tier.joined else below
        if tier.marked:
            answer.drawing(
                f"unrolled_{tier.index + 1}",
                f"{tier.order.name}: the side laid flat, from the middle of the back",
                told,
                partial(_unrolled, tier, looks, answer.units),
            )
    for crowd in cake.crowded:
        beside = f"{answer.say.length(crowd.free_mm)} are free " + (
            f"beside {crowd.upper} and what is piped round its foot" if crowd.upper else "to the middle"
        )
        answer.note(
            f"{cake.tiers[crowd.row.tier].order.name}: the {row_phrase(crowd.row)} reaches {answer.say.length(crowd.reach_mm)} in from the edge, "
            f"and only {beside}. Use a finer tip or a smaller tier above, or leave a row out."
        )


@lru_cache(maxsize=32)
def _told_of(same: Same[PlannedTier], plain_names: bool, looks: Looks, below: str, units: str, currency: str) -> tuple[Answer, str]:
    """What is told of one tier, and what its drawing shows; kept, because most edits leave most tiers as they were planned."""
    tier, part = same.what, Answer("order", units, currency=currency)
    part.section("rows", "")
    _add_marking(part, tier, plain_names, looks, below)
    for clash in tier.clashes:
        part.note(f"{tier.order.name}: {clash_text(clash, part.say)}")
    if not tier.clashes and tier.rows:
        part.note(f"{tier.order.name}: all rows fit the side.")
    for row in tier.rows:
        for note in (*row.notes, *row.amount.notes):
            part.note(f"{tier.order.name}, {row_phrase(row)}: {in_units(note, part.say)}")
    rows = "; ".join(f"{row_phrase(row)} {place_of(row, part.say)}" for row in tier.rows)
    return part, f"{marking_text(tier, part.say)} {rows}." if tier.marked else ""


def _add_figures(answer: Answer, tier: PlannedTier, first: bool) -> None:
    """The figures of the technique pages, for a tier and each of its rows; those of the first marked tier also by their plain names."""
    chosen, number, chords, hung = tier.division, tier.index + 1, chords_of(tier), tier.first_hung
    for end in (f"_{number}", "") if first else (f"_{number}",):
        if is_one_setting(chords):
            answer.length(f"dividers{end}", f"Dividers, {tier.order.name}", chords[0])
            off = closing_error_on(tier.measured, chords, tier.joints.s_mm[0] * tier.side_mm / tier.perimeter_mm, answer.say)
            if off is not None:
                label = f"Closing error, dividers set to {fineness_words(answer.say)}, {tier.order.name}"
                answer.figure(f"closing_error{end}", label, off, "mm", closing_words(off, answer.say))
        if hung is not None:
            answer.length(f"drop{end}", f"Drop, {tier.order.name}", tier.drop_mm)
            if hung.asked_kind.curve == "arc":
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


def _add_marking(answer: Answer, tier: PlannedTier, plain_names: bool, looks: Looks, below: str) -> None:
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
            each, stretch = pieces_of(row, chosen.repeats)
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
    _add_other_counts(answer, tier, below)


def _add_other_counts(answer: Answer, tier: PlannedTier, below: str) -> None:
    """The ways to divide a tier that has joints, in their ranking, each with the reason for its place and a press that takes it."""
    if not tier.joined:
        return
    say, taken, path = answer.say, tier.division, tier.order.path
    is_pinned = tier.order.repeats is not None or tier.order.cutter_mm is not None
    pieces = first_pieces(tier.order.rows)
    plural = KINDS[pieces.kind].plural if pieces else "pieces"
    corners = bool(tier.coats.finished.corners_mm)
    rows: list[list[str]] = []
    for rank, choice in shown_choices(tier.choices, taken):
        cutter = exact_length(choice.cutter_mm, say) if choice.cutter_mm else ""
        sets = {f"{path}repeats": str(choice.repeats), f"{path}cutter": cutter}
        lengths = [say.length(choice.cutter_mm) if choice.cutter_mm else "none", say.length(choice.width_mm), say.length(choice.drop_mm)]
        rows.append(
            [
                str(choice.repeats),
                *(lengths if tier.marked else lengths[1:2]),
                why(choice, say, is_first=rank == 0, has_corners=corners, pieces=plural, below=below, hangs=tier.marked),
                ("Your choice" if is_pinned else "In use") if choice == taken else take(choice, say, sets, tier.order.name),
            ]
        )
    if is_pinned:
        first = tier.choices[0]
        undo = Press("Choose for me again", {f"{path}repeats": "", f"{path}cutter": ""}, done=f"{tier.order.name}: divided for you again.")
        instead = "that is what would be chosen for you too." if first == taken else f"chosen for you, it would be {choice_words(first, say)}."
        answer.note(f"{tier.order.name}: you chose {choice_words(taken, say)}; {instead}", undo)
    answer.table(
        f"others_{tier.index + 1}",
        f"{tier.order.name}: ways to divide it, the best first",
        ("Repeats", *(("Cutter", "Width", "Drop") if tier.marked else ("From joint to joint",)), "For and against", "Use it"),
        rows,
        (0, 1, 2, 3) if tier.marked else (0, 1),
    )
