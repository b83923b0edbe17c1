"""The order's bench sheet: what stands on it, from the plan.

Map
---
`bench`   the sheet
"""

from __future__ import annotations

from calc.calculators.division_form import dividers_words
from calc.calculators.order_drawings import Looks, look_of, tier_drawing
from calc.calculators.order_words import bag_letters, in_units, place_of, reach_texts, there_words
from calc.drawing.paper import BenchBag, BenchHold, BenchStep, BenchTier, Heading, Sheet, bench_sheet
from calc.drawing.views import side_view
from calc.order import Plan, PlannedTier, Step, chords_of
from calc.rows.placement import PlacedRow
from calc.tips import Tip
from calc.units import Formatter, capitalised


def bench(cake: Plan, heading: Heading, paper: str, looks: Looks, units: str) -> Sheet:
    """Draw the bench sheet of a plan; all its lengths are in one unit."""
    say = Formatter(units, steady=True)
    letters = bag_letters(cake)
    ways = reach_texts(cake, say)
    table = dict(looks)
    bags = [
        BenchBag(
            letters[bag.colour, bag.tip],
            bag.tip.name,
            bag.colour,
            look_of(bag.colour, table),
            say.mass(bag.mass_g),
            f"{bag.fills} fills" if bag.fills > 1 else "",
        )
        for bag in cake.bags.bags
    ]
    drawn = side_view(tuple(tier_drawing(tier, looks) for tier in cake.tiers), cake.supports[0].board_width_mm)
    return bench_sheet(
        [_step(cake, step, letters[step.row.colour, step.row.tip], ways.get(step.number, ""), say) for step in cake.steps],
        bags,
        _holds(cake, letters),
        [BenchTier(f"{tier.order.name}, {say.length(tier.side_mm)} round", _marking(tier, say)) for tier in cake.tiers],
        drawn,
        heading,
        paper,
    )


def _step(cake: Plan, step: Step, letter: str, way: str, say: Formatter) -> BenchStep:
    row, amount = step.row, step.row.amount
    tier = cake.tiers[row.tier]
    noted = [in_units(note, say) for note in (*row.notes, *amount.notes)] + ([way] if way else [])
    where = place_of(row, say).replace(" below the top edge", " down")
    base = tier.base_mm
    right = tier.coats.finished.extent_mm[2]
    height = 0.0 if row.on_top else tier.height_mm if row.place == "base" else row.line_mm + (0.6 * row.drop_mm if row.hung else 0.0)
    inwards = 0.12 if row.hung else 0.04  # a swag is deepest beside its joints, not at the very edge
    at = (right * (1 - inwards), -(base + tier.height_mm) + min(height, tier.height_mm))
    joined = " " if where.startswith(("round", "on ", "over", "at ", "inside")) else ", "
    title = f"{step.tier_name}: {pieces_words(row)}{joined}{where}{there_words(step)}"
    return BenchStep(step.number, title, letter, say.length(amount.length_mm), say.mass(amount.mass_g), " ".join(noted), at)


def pieces_words(row: PlacedRow) -> str:
    """How many pieces a row has, "9 swags", or what runs on: "ruched border"."""
    kind, count = row.asked_kind, row.amount.count
    return f"{count} {kind.plural if count > 1 else kind.name}" if kind.countable else kind.name


def _holds(cake: Plan, letters: dict[tuple[str, Tip], str]) -> list[BenchHold]:
    """How each tip is held and moved, once for all bags that bear it."""
    found: list[BenchHold] = []
    for tip in dict.fromkeys(bag.tip for bag in cake.bags.bags):
        kinds = dict.fromkeys(step.row.asked_kind.name for step in cake.steps if step.row.tip == tip)
        rows = {step.row.asked_kind.name: step.row for step in cake.steps if step.row.tip == tip}
        lines = []
        for name in kinds:
            kind = rows[name].asked_kind
            told = f"{rows[name].amount.angle.split(',')[0]}: {', '.join(kind.steps)}"
            lines.append(f"{kind.title}, {told}" if len(kinds) > 1 else capitalised(told))
        found.append(BenchHold(", ".join(letter for (_, other), letter in letters.items() if other == tip), tuple(lines)))
    return found


def _marking(tier: PlannedTier, say: Formatter) -> str:
    """How a tier is marked, in as few words as a hand needs."""
    chosen = tier.division
    told = [f"{chosen.repeats} repeats, dividers {dividers_words(chords_of(tier), say)}."]
    if any(row.hung or row.place == "joints" for row in tier.rows):
        told.append(f"Joints {say.length(tier.line_mm)} down.")
    if tier.marked and chosen.cutter_mm is not None and tier.guide is not None:
        edge, below = tier.guide
        cutter = "the cutter hangs from it" if edge == "lower edge" else "the cutter rests on it"
        told.append(f"Cutter {say.length(chosen.cutter_mm)}, drop {say.length(tier.drop_mm)}.")
        told.append(f"Tape with its {edge} {say.length(below)} down, {cutter}.")
    elif tier.marked:
        told.append(f"No cutter: paper strip, drop {say.length(tier.drop_mm)}.")
    return " ".join(told)
