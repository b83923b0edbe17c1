"""The order's sheets for each part of the work and for other people: baking, bags, delivery, the box, whoever serves.

Map
---
`Maker`, `maker_of`    who made it, as far as it was given
`cards`                what makes each of these sheets, by name
`CARDS`                their titles by name
`one_page`              a sheet in the largest type that takes one page
`taking_apart`, `before_cutting`   what comes off and out before a knife goes in
`allergens_told`       what is known of the allergens, and what only the maker knows
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

from calc import buttercream
from calc.calculators.declare import Answer, Asked
from calc.calculators.order_moving import load_list
from calc.calculators.order_time import timetable_of
from calc.calculators.order_words import size_words, sponge_words
from calc.drawing.paper import Blanks, Block, Heading, Paragraphs, Sheet, Table, label_sheet, written_sheet
from calc.order import Plan, PlannedTier
from calc.stack import Box, Support, boxes, centre_rod_mm
from calc.units import Formatter, letter_of, listed

CARDS = {
    "baking-card": "Baking and coating card",
    "bag-card": "Bags, colours and mixing",
    "delivery-card": "Delivery and set-up",
    "box-label": "Box and allergen labels",
    "hand-out": "For whoever serves the cake",
    "quotation": "Quotation",
}
ASK = "For what only the maker knows, sponge, fillings, decorations and traces, see the page for whoever serves, or ask."
MORE = "Sponge, fillings, decorations and the kitchen can add to these."


@dataclass(frozen=True)
class Maker:
    """Who made the cake, as far as it was given."""

    name: str = ""
    telephone: str = ""
    contact: str = ""


def maker_of(asked: Asked) -> Maker:
    """Who made the cake; nothing where it was not said."""
    for given in asked["maker"]:
        return Maker(given["name"], given["telephone"], given["contact"])
    return Maker()


def cards(asked: Asked, cake: Plan, heading: Heading, paper: str, filled: Callable[[], Answer]) -> Mapping[str, Callable[[], Sheet]]:
    """What makes each of these sheets; `filled` gives the whole answer, for its tables and figures."""
    say = Formatter(asked.units, currency=asked.currency)
    return {
        "baking-card": partial(_baking, cake, heading, paper, say, filled),
        "bag-card": partial(_bags, cake, heading, paper, say, filled),
        "delivery-card": partial(_delivery, asked, cake, heading, paper, say),
        "box-label": partial(_labels, asked, cake, heading, paper, say),
        "hand-out": partial(_serving, asked, cake, heading, paper, say),
    }


def one_page(
    name: str,
    blocks: list[Block],
    heading: Heading,
    paper: str,
    sizes_mm: tuple[float, ...],
    under: str = "",
    title: str = "",
    columns: int = 1,
) -> Sheet:
    """A sheet in the largest type in which it takes one page, or in the smallest."""
    for size in sizes_mm:
        sheet = written_sheet(name, title or CARDS[name], blocks, heading, paper, under, size, columns)
        if len(sheet.pages) == 1:
            break
    return sheet


def table_of(answer: Answer, name: str, title: str = "", tick: bool = False) -> list[Block]:
    """One table of an answer as a block, or nothing where the answer has none of that name."""
    for found in answer.tables:
        if found["name"] == name:
            columns = tuple(column["label"] for column in found["columns"])
            numeric = tuple(i for i, column in enumerate(found["columns"]) if column["align"] == "right")
            return [Table(title or found["title"], columns, tuple(tuple(row) for row in found["rows"]), numeric, tick)]
    return []


def allergens_told(cake: Plan, say: Formatter) -> tuple[str, ...]:
    """What the buttercream brings, in the words of the law that goes with the units; where the other law has other words, in those too."""
    names = buttercream.allergens(cake.order.recipe)
    us, eu = (", ".join(words) or "none that must be named" for words in (names.us, names.eu))
    if set(names.us) == set(names.eu):
        told = f"In the buttercream: {us if say.units == 'us' else eu}."
    else:
        both = (f"{us} (of the nine named in the US)", f"{eu} (of the fourteen in the EU and UK)")
        told = f"In the buttercream: {'; '.join(both if say.units == 'us' else both[::-1])}."
    return (told, *(f"Check the pack: {text}." for text in names.check))


_ONLY_THE_MAKER_KNOWS = (
    ("In the sponge:", "in_sponge"),
    ("In the fillings:", "in_fillings"),
    ("In decorations, and traces from the kitchen:", "in_kitchen"),
)


def allergen_blanks(asked: Asked) -> tuple[tuple[str, str], ...]:
    """Give the allergens that only the maker knows, each a blank until it is typed."""
    given = next(iter(asked["quote"]), None)
    return tuple((label, given[name] if given else "") for label, name in _ONLY_THE_MAKER_KNOWS)


def _maker_blanks(maker: Maker) -> tuple[tuple[str, str], ...]:
    return (("Maker:", maker.name), ("Telephone:", maker.telephone))


# --- the work ----------------------------------------------------------------------------------------------------------


def _baking(cake: Plan, heading: Heading, paper: str, say: Formatter, filled: Callable[[], Answer]) -> Sheet:
    """Tins, layers, fillings and coats of every tier, and the buttercream."""
    answer = filled()
    tins = tuple(
        (
            tier.order.name,
            sponge_words(tier, say),
            f"{tier.order.layers} of {say.length(tier.coats.layer_mm)}",
            f"{tier.coats.fillings} of {say.length(tier.order.filling_mm)}" if tier.coats.fillings and tier.order.filling_mm else "none",
            f"{size_words(tier.coats.finished.width_mm, tier.coats.finished.length_mm, say)}, {say.length(tier.height_mm)} high",
        )
        for tier in cake.tiers
    )
    blocks: list[Block] = [
        Table("Sponges", ("Tier", "Tin", "Layers", "Fillings", "Finished, with its coat"), tins, tick=True),
        *table_of(answer, "coats", f"Filling and coats, at {say.density(cake.density)}"),
        *table_of(answer, "coat_colours", "The final coat by colour"),
        *table_of(answer, "recipe", tick=True),
        Blanks("Your own notes", (("Oven and time:", ""), ("Sponges out, weighed:", ""), ("Measured round, each tier:", ""))),
        Paragraphs("Look out", buttercream.cautions(cake.order.recipe, say.units), boxed=True),
    ]
    return written_sheet("baking-card", CARDS["baking-card"], blocks, heading, paper, "Level each layer to its height; chill between the coats.")


_BAG_NOTES = ("coupler", " tip is needed in ", "Tints deepen")


def _bags(cake: Plan, heading: Heading, paper: str, say: Formatter, filled: Callable[[], Answer]) -> Sheet:
    """The bags by their letters, how much of each colour, in which order it is mixed and how soft it should be."""
    answer = filled()
    lines = []
    for i, bag in enumerate(cake.bags.bags):
        steps = [str(step.number) for step in cake.steps if (step.row.colour, step.row.tip) == (bag.colour, bag.tip)]
        lines.append((letter_of(i), bag.colour, bag.tip.name, listed(steps), say.mass(bag.mass_g), str(bag.fills)))
    blocks: list[Block] = [
        Table("Bags", ("Bag", "Colour", "Tip", "For steps", "Holds in all", "Fills"), tuple(lines), (4, 5), True),
        *table_of(answer, "mixing", tick=True),
        *table_of(answer, "colours", "To make of each colour in all, with losses and a tenth to spare", True),
        *table_of(answer, "textures"),
    ]
    notes = [note["text"] for note in answer.notes if note.get("section") == "amounts" and any(word in note["text"] for word in _BAG_NOTES)]
    if notes:
        blocks.append(Paragraphs("", tuple(notes), boxed=True))
    return one_page("bag-card", blocks, heading, paper, (3.6, 3.4, 3.2), "Bags have the letters, and steps the numbers, of the bench sheet.")


# --- on the way --------------------------------------------------------------------------------------------------------


def _delivery(asked: Asked, cake: Plan, heading: Heading, paper: str, say: Formatter) -> Sheet:
    """When to load and leave, what goes in the car, and how the cake is set up."""
    where = next((given["delivery"] for given in asked["quote"]), "")
    timed = timetable_of(cake, asked)
    moving = [(say.moment(step.start), step.task.name) for step in timed.steps if step.task.any_hour]  # from the box to the table
    moving.append((say.moment(cake.order.ready_at), "Ready"))
    blocks: list[Block] = [
        Blanks("Where to", (("Address:", where), ("Who is there, and their telephone:", ""), ("Way in, stairs or lift, where to park:", ""))),
        Table("When", ("At", "What"), tuple(moving), tick=True),
        Table("In the car", ("What", "For"), load_list(cake, say), tick=True),
        Paragraphs("Set it up", _set_up(cake, say), numbered=True),
        Paragraphs(
            "Look out",
            (
                "Keep the cake level, cool and out of the sun: floor or boot of the car, never a seat or a lap. "
                "Where lifting and driving are your work, your local rules come first.",
            ),
            boxed=True,
        ),
        Blanks("Handed over", (("To whom, at what time:", ""), ("Received undamaged, signed:", ""))),
    ]
    return written_sheet("delivery-card", CARDS["delivery-card"], blocks, heading, paper, f"Ready {say.moment(cake.order.ready_at)}.")


PEOPLE = {1: "one person", 2: "two people", 0: "more than two people should lift"}


def _set_up(cake: Plan, say: Formatter) -> tuple[str, ...]:
    """The work at the venue, in its order."""
    names, low = [tier.order.name for tier in cake.tiers], cake.supports[0]
    told = ["Look at the table first: level, firm, out of the sun, away from heaters, where nobody brushes past. Lay the non-slip mat."]
    whole = low.lift if cake.stacking.apart else low.lift_whole
    mass = low.high_g + (0.0 if cake.stacking.apart else low.carried_high_g)
    what = names[0] if cake.stacking.apart else "the cake"
    told.append(f"Set {what} down, its front to the room: up to {say.mass(mass)}, {PEOPLE[whole.people]}, hands under the board.")
    if cake.stacking.apart:
        for lower, upper, below, above in zip(names, names[1:], cake.supports, cake.supports[1:], strict=False):
            told.append(
                f"See that the {below.dowels} dowels in {lower} stand upright and end level with its coat. Lower {upper} on its board onto them, "
                f"back edge first, backs in line: up to {say.mass(above.high_g)}, {PEOPLE[above.lift.people]}."
            )
        rod = centre_rod_mm(cake.bodies)
        if rod is not None:
            told.append(f"Drive the centre rod of {say.length(rod)} straight down through all tiers into the lowest board.")
        there = [step for step in cake.steps if step.after_stacking]
        if there:
            numbers = listed([str(step.number) for step in there])
            told.append(f"Pipe what covers the joints: step{'s' if len(there) > 1 else ''} {numbers} of the bench sheet.")
    told.append("Go round it once with the repair kit. Take a picture of each side.")
    dowels = sum(stand.all_dowels for stand in cake.supports)
    counted = f", and say that {dowels} dowels and {sum(stand.all_boards for stand in cake.supports)} boards must come out" if dowels else ""
    told.append(f"Hand over the serving page, the cutting guides and the allergens{counted}. Say who to ring.")
    return tuple(told)


def _labels(asked: Asked, cake: Plan, heading: Heading, paper: str, say: Formatter) -> Sheet:
    """A label for each box and a label with what is in the cake, to cut out."""
    maker, names = maker_of(asked), [tier.order.name for tier in cake.tiers]
    cold, warm = say.temperature(5, 41), say.temperature(8, 46)
    panels = [_box_panel(cake, box, names, maker, say, cold) for box in boxes(cake.bodies, cake.supports, cake.stacking)]
    recipe = buttercream.batch(cake.order.recipe, cake.buttercream_g, density=cake.density)
    parts = sorted(recipe.lines, key=lambda line: -line.mass_g)
    food: tuple[Block, ...] = (
        Paragraphs(
            cake.order.name, (say.words(f"Layer cake with {cake.recipe.name} buttercream: {'; '.join(line.ingredient.name for line in parts)}."),)
        ),
        Paragraphs("", (f"ALLERGENS. {allergens_told(cake, say)[0]}",), strong=True),
        Blanks("", (*allergen_blanks(asked), ("Made on:", ""), ("Use by:", ""), ("Made by, with address:", maker.name))),
        Paragraphs("", (f"Keep cold, at {cold} or less (England allows food premises {warm}). {MORE} Your local rules for labels come first.",)),
    )
    return label_sheet("box-label", CARDS["box-label"], [*panels, food], heading, paper)


def _box_panel(cake: Plan, box: Box, names: list[str], maker: Maker, say: Formatter, cold: str) -> tuple[Block, ...]:
    """What stands on one box."""
    inside = "the whole cake" if len(box.tiers) == len(names) else listed([names[i] for i in box.tiers])
    held = [cake.supports[i] for i in box.tiers]
    dowels, number = sum(stand.all_dowels for stand in held), sum(stand.all_boards for stand in held)
    boards = f"{number} board{'s' if number > 1 else ''}"
    counted = f" In it, and not food: {f'{dowels} dowels, ' if dowels else ''}{boards}."
    size = f"{say.length(box.width_mm)} x {say.length(box.length_mm)}, {say.length(box.height_mm)} high inside"
    return (
        Paragraphs("CAKE. This way up. Keep level.", (f"{cake.order.name}: {inside}. {say.moment(cake.order.ready_at)}.",), strong=True),
        Paragraphs(
            "",
            (
                f"Keep cold, {cold} or less, out of the sun; nothing on top of it.",
                f"Up to {say.mass(box.high_g)}: {PEOPLE[box.lift.people]}, hands under the base. Box {size}.{counted}",
            ),
        ),
        Blanks("", (*_maker_blanks(maker), ("To:", ""))),
    )


# --- for others --------------------------------------------------------------------------------------------------------


def _serving(asked: Asked, cake: Plan, heading: Heading, paper: str, say: Formatter) -> Sheet:
    """One page for whoever receives, keeps and cuts the cake."""
    across, deep = (say.length(side) for side in cake.order.slice_mm)
    are_dowels = any(stand.all_dowels for stand in cake.supports)
    tiers = tuple(
        (
            tier.order.name,
            _cut_words(tier, f"{across} x {deep}"),
            sponge_words(tier, say),
            *((str(cake.supports[tier.index].all_dowels or "none"),) if are_dowels else ()),
        )
        for tier in cake.tiers
    )
    dowel_head = ("Dowels in it",) if are_dowels else ()
    out = next((step.start for step in timetable_of(cake, asked).steps if step.task.key == "out"), None)
    cold, hot = say.temperature(5, 41), say.temperature(32, 90)
    keep = f"Keep it at {cold} or less until " + (f"{say.moment(out)}, then let it soften." if out else "it is served.")
    blocks: list[Block] = [
        Paragraphs(
            "Allergens",
            (*allergens_told(cake, say), f"{MORE} Where a line is empty, ask the maker before you serve anyone with an allergy."),
            boxed=True,
            strong=True,
        ),
        Blanks("", (*allergen_blanks(asked), *_maker_blanks(maker_of(asked)))),
        Table(f"The cake: {sum(t.portions for t in cake.tiers if t.counted)} portions", ("Tier", "Portions", "Sponge", *dowel_head), tiers),
        Paragraphs(
            "Before it is served", (keep, f"Keep it out of the fridge for 2 hours at most in all, 1 hour above {hot}. Your local rules come first.")
        ),
        Paragraphs("Take it apart, and cut it" if len(cake.tiers) > 1 else "Cut it", taking_apart(cake, say), numbered=True),
    ]
    return one_page("hand-out", blocks, heading, paper, (4.9, 4.6, 4.3, 4.0, 3.6, 3.2, 2.9))


_FEW_TIERS = 4


def _cut_words(tier: PlannedTier, size: str) -> str:
    """How many portions a tier is cut into."""
    if not tier.counted:
        return "kept back, not cut"
    return f"{tier.portions} of {size}" + (f", on {tier.levels} levels" if tier.levels > 1 else "")


def taking_apart(cake: Plan, say: Formatter) -> tuple[str, ...]:
    """How a cake is taken apart and cut, in the order of the work: a tier is lifted off before the dowels come out of the one it stood on."""
    names = [tier.order.name for tier in cake.tiers]
    cut = "Cut it as its cutting guide shows, with a warm knife wiped after each cut."
    told = ["Take off what is not food: flowers with wires or picks, figures, ribbon."]
    inside = [_level_by_level(names[i], stand) for i, stand in enumerate(cake.supports) if stand.inner_boards]
    if len(names) == 1:
        return (*told, *inside, *([_counted_out(cake)] if inside else []), cut)
    rod = centre_rod_mm(cake.bodies)
    if rod is not None:
        told.append(f"Pull the centre rod, if there is one, straight up and out: up to {say.length(rod)} long.")
    for i in range(len(names) - 1, 0, -1):
        stand, below = cake.supports[i], cake.supports[i - 1]
        if stand.lift.people:
            told.append(
                f"Lift {names[i]} off on its board: {PEOPLE[stand.lift.people]}, up to {say.mass(stand.high_g)}, a wide knife under the board first."
            )
        else:
            told.append(f"{names[i]} is more than two people should lift: cut it where it stands, then take away its board.")
        out = f"Only now pull the {below.dowels} dowels out of {names[i - 1]}, and count them."
        if len(names) > _FEW_TIERS:  # so that it stays on one page
            told[-1] += f" {out}"
        else:
            told.append(out)
    told += [*inside, _counted_out(cake)]
    plain = [tier.order.name for tier in cake.tiers if tier.counted]
    kept = [tier.order.name for tier in cake.tiers if not tier.counted]
    told.append(f"Cut {listed(plain)} as the cutting guides show, with a warm knife wiped after each cut.")
    if kept:
        told.append(f"Keep {listed(kept)} back, boxed and cold.")
    return tuple(told)


def _counted_out(cake: Plan) -> str:
    """How many dowels and boards must have come out."""
    dowels, boards = sum(stand.all_dowels for stand in cake.supports), sum(stand.all_boards for stand in cake.supports)
    return f"{dowels} dowels and {boards} boards: all counted before a plate leaves the table."


def _level_by_level(name: str, stand: Support) -> str:
    """How a tall tier comes apart: each level is cut or lifted off before the dowels under its board come out."""
    return (
        f"{name} has {stand.inner_boards} board{'s' if stand.inner_boards > 1 else ''} inside: cut what stands on a board, lift the board off, "
        f"pull out the dowels under it ({stand.inner_dowels} in all), then cut the level below."
    )


def before_cutting(cake: Plan, index: int) -> str:
    """What must be off and out of a tier before it is cut, in the order of the work."""
    names, dowels = [tier.order.name for tier in cake.tiers], cake.supports[index].dowels
    clear = "Take off what is not food: picks, wires, figures."
    stand = cake.supports[index]
    if stand.inner_boards:
        clear += f" {_level_by_level(names[index], stand)}"
    if len(names) == 1:
        return clear
    if dowels:
        return f"{clear} Lift off {names[index + 1]} first; then pull the {dowels} dowels out of {names[index]} and count them; then cut."
    return f"{clear} Lift {names[index]} off on its board, and cut it there; the dowels of the tier below come out after that."
