"""`supports`: boards, dowels and weights of a stacked cake, and who lifts it."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.buttercream import density_g_per_ml, recipe_choices
from calc.calculators.declare import TIER_HIGH, TIN, Answer, Asked, Calculator, Choices, Input, ranged
from calc.calculators.tin_measures import FULLNESS_OF_LIST
from calc.coats import coats, finished_body
from calc.drawing.paper import stacking_template
from calc.drawing.supports_plan import supports_scene
from calc.drawing.svg import svg
from calc.shapes import SHAPES, TWO_SIZES, Outline, outline
from calc.sources import constant
from calc.stack import (
    DRUM_BORDER_MM,
    TIERS_MOST,
    Body,
    Stacking,
    Support,
    boxes,
    cautions,
    centre_rod_mm,
    check_weight,
    stacking_words,
    stands_on,
    supports,
    where_stacked,
)
from calc.units import Formatter, Problem, a_or_an

COAT_MM = constant(5.0, "mm", "common-practice", "a crumb coat of 2 mm and a final coat of 3 mm, as every calculator begins with")
FILLINGS_MM = constant(12.0, "mm", "common-practice", "two fillings of 6 mm, as every calculator begins with")
RECIPE = Input(
    "recipe",
    "Buttercream",
    "choice",
    "swiss_meringue",
    choices=recipe_choices,
    advanced=True,
    help="Its density goes into the weight",
    cake="order_recipe",
)
SEAT_SHOWS_MM = constant(1.0, "mm", "common-practice", "a tier that stands off the middle by less is set by eye")
NAME, LABEL = "tiers", "Tiers"
WAY = "Write them like 20 x 10 cm round; 15 x 10 cm round, the lowest first"
WORDS = {
    **{shape: shape for shape in SHAPES},
    "sheet": "rectangle",
    "rectangular": "rectangle",
    "circle": "round",
    "hexagonal": "hexagon",
    "hex": "hexagon",
    "ellipse": "oval",
    "petals": "petal",
}
STACKED: Choices = (("suits", "as suits its weight and height"), ("home", "at home"), ("venue", "at the venue"))
TIERS = Input(
    NAME,
    LABEL,
    "text",
    "20 x 10 cm round; 15 x 10 cm round",
    us="8x4 in round; 6x4 in round",
    measure="length",
    help="Width x height and shape of each tier, the lowest first, such as 20 x 10 cm round; 15 x 10 cm round",
    cake="tiers",
)
COAT = Input(
    "coat",
    "Coat, thickness",
    "length",
    f"{COAT_MM:g} mm",
    low=0,
    high=40,
    default_unit="millimeter",
    advanced=True,
    help="Crumb coat and final coat together",
    usual=(2, 20),
)
FILLING = Input(
    "filling",
    "Fillings in all",
    "length",
    f"{FILLINGS_MM:g} mm",
    low=0,
    high=200,
    default_unit="millimeter",
    advanced=True,
    help="The sum of the fillings in one tier",
    usual=(2, 80),
)
BORDER = Input(
    "border",
    "Board that shows",
    "length",
    "5 cm",
    low=0,
    high=200,
    advanced=True,
    help=f"Round the lowest tier; {Formatter().length(DRUM_BORDER_MM)} leaves room for shells",
    usual=(10, 130),
    kitchen="border",
    cake="order_border",
)
WIDTHS_MM, HEIGHTS_MM = (40.0, 1000.0), (15.0, 600.0)


@dataclass(frozen=True)
class TypedTier:
    """One tier as it was typed: sponge and height."""

    sponge: Outline
    height_mm: float


def read_tiers(text: str, units: str, fullness: float | None = None) -> tuple[TypedTier, ...]:
    """Read "8x4 in round; 6x4 in round": width x height of each tier, with a shape, the lowest first; hearts are as full as is said."""
    parts = [part.strip() for part in re.split(r"[;\n]+|\bon top\b", text) if part.strip()]
    if not parts:
        raise Problem(NAME, f"{LABEL} is empty. {WAY}")
    if len(parts) > TIERS_MOST:
        raise Problem(NAME, f"{LABEL}: there are {len(parts)}, and {TIERS_MOST} is the most. {WAY}")
    tiers = tuple(_read_tier(part, number, units, fullness) for number, part in enumerate(parts, start=1))
    say = Formatter(units)
    for number, (lower, upper) in enumerate(zip(tiers, tiers[1:], strict=False), start=1):
        for what, above, below in (
            ("wider", upper.sponge.width_mm, lower.sponge.width_mm),
            ("longer", upper.sponge.length_mm, lower.sponge.length_mm),
        ):
            if above > below + 1e-6:
                raise Problem(
                    NAME,
                    f"Tier {number + 1} is {what} than tier {number} under it ({say.length(above)} on {say.length(below)}). Write the lowest first",
                )
        if not stands_on(lower.sponge, upper.sponge):
            raise Problem(
                NAME,
                f"Tier {number + 1}, {a_or_an(upper.sponge.kind)}, hangs over the "
                f"{lower.sponge.kind} under it. Make it smaller, or the tier under it wider",
            )
    return tiers


def _read_tier(part: str, number: int, units: str, fullness: float | None) -> TypedTier:
    label = f"Tier {number}"
    shape, rest = "round", part
    for word in re.findall(r"[a-zA-Z]+", part):
        if word.lower() in WORDS:
            shape = WORDS[word.lower()]
            rest = re.sub(rf"\b{word}\b", " ", part)
            break
    sizes = [piece.strip(" ,") for piece in re.split(r"\s*(?:x|×|\*|\bby\b)\s*", rest, flags=re.IGNORECASE)]
    wanted = 3 if shape in TWO_SIZES else 2
    if len(sizes) != wanted or not all(sizes):
        many = "width x length x height" if wanted == 3 else "width x height"
        way = "30 x 20 x 10 cm rectangle" if wanted == 3 else "20 x 10 cm round"
        raise Problem(NAME, f"{label} is {many} and a shape, and “{part[:30]}” does not read as that. Write it like {way}")
    lengths = TIERS.read_sizes(sizes, NAME, label, units, (*[TIN] * (wanted - 1), TIER_HIGH))
    say = Formatter(units)
    for what, value, (low, high) in zip(
        ("width", "length", "height") if wanted == 3 else ("width", "height"), lengths, (*[WIDTHS_MM] * (wanted - 1), HEIGHTS_MM), strict=True
    ):
        if not low <= value <= high:
            raise Problem(
                NAME, f"{label}: the {what} must be between {say.least('length', low)} and {say.most('length', high)}, not {say.length(value)}. {WAY}"
            )
    if shape == "oval" and max(lengths[:2]) > 10 * min(lengths[:2]):
        raise Problem(NAME, f"{label}: an oval is at most ten times as long as it is wide. {WAY}")
    return TypedTier(outline(shape, lengths[0], lengths[1] if wanted == 3 else None, fullness if shape == "heart" else None), lengths[-1])


def usual_mm(declared: Input, units: str) -> float:
    """The length an input begins with in the reader's units [mm], for calculators that do not ask for it."""
    return float(declared.read(declared.default_in(units), declared.name, units))


def body_of(sponge: Outline, height_mm: float, coat_mm: float, filling_mm: float, density: float) -> Body:
    """A finished tier from its tin, height, coat and the sum of its fillings."""
    return finished_body(coats(sponge, height_mm, 2, filling_mm, 0.0, coat_mm), density)


def bodies_of(tiers: Sequence[TypedTier], coat_mm: float, filling_mm: float, density: float) -> tuple[Body, ...]:
    """All tiers, finished."""
    return tuple(body_of(tier.sponge, tier.height_mm, coat_mm, filling_mm, density) for tier in tiers)


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `supports`."""
    say = answer.say
    tiers = read_tiers(asked["tiers"], answer.units, asked["fullness"] / 100)
    for number, tier in enumerate(tiers, start=1):
        if asked["filling"] >= tier.height_mm:
            raise Problem(
                "filling",
                f"Fillings in all must be less than tier {number} is high ({say.most('length', tier.height_mm)}). "
                "Write the sum of its fillings, like 12 mm",
            )
    bodies = bodies_of(tiers, asked["coat"], asked["filling"], density_g_per_ml(asked["recipe"]))
    stands = supports(bodies, asked["border"])
    check_weight(stands, NAME, LABEL, answer.say)
    for number, stand in enumerate(stands, start=1):
        name = "board" if number == 1 else f"board_{number}"
        answer.length(name, "Board under the cake" if number == 1 else f"Board under tier {number}", stand.board_width_mm)
        with answer.quietly():
            answer.count(f"dowels_{number}", f"Dowels in tier {number}", stand.all_dowels)
            answer.mass(f"weight_{number}", f"Weight of tier {number}", stand.mass_g, stand.low_g, stand.high_g)
    dowels = sum(stand.all_dowels for stand in stands)
    answer.count("dowels", "Dowels in all", dowels)
    if stands[0].all_dowels:
        answer.length("dowel_length", "Length of the dowels in the lowest tier", stands[0].dowel_length_mm)
    for number, stand in enumerate(stands[1:], start=2):
        if stand.all_dowels:
            answer.length(f"dowel_length_{number}", f"Length of the dowels in tier {number}", stand.dowel_length_mm)
    answer.mass(
        "weight",
        "Weight of the cake",
        math.fsum(stand.mass_g for stand in stands),
        math.fsum(stand.low_g for stand in stands),
        math.fsum(stand.high_g for stand in stands),
    )
    answer.length("height", "Height of the cake, without the board", math.fsum(body.height_mm for body in bodies))
    answer.figure(
        "lift_limit",
        "One person should lift at most",
        stands[0].lift_whole.limit_g,
        "g",
        "about " + say.about_mass(stands[0].lift_whole.limit_g) if stands[0].lift_whole.limit_g >= 100 else "nothing so wide",
    )
    rod = centre_rod_mm(bodies)
    if rod is not None:
        answer.length("centre_rod", "Centre rod", rod)
    answer.table(
        "supports",
        "Tier by tier, the lowest first",
        ("Tier", "Board under it", "Dowels in it", "Each as long as", "Its weight", "Carries", "Lifted alone by"),
        [_row(number, tier, stand, say) for number, (tier, stand) in enumerate(zip(tiers, stands, strict=True), start=1)],
        numeric=(2,),
    )
    height_mm = math.fsum(body.height_mm for body in bodies)
    stacking = where_stacked(stands, height_mm, asked["stacked"])
    if len(stands) > 1:
        stacked_figure(answer, stacking)
    boxes_table(answer, bodies, stands, stacking)
    _notes(answer, stands, stacking, rod, asked["border"])
    for text in cautions(stands, stacking, say):
        answer.caution(text)
    if any(stand.dowels for stand in stands):
        words = "; ".join(
            f"tier {number}: {stand.dowels} dowels of {say.length(stand.dowel_length_mm)}"
            for number, stand in enumerate(stands, start=1)
            if stand.dowels
        )
        answer.drawing(
            "dowels", "Where the dowels stand, from above", f"Tiers from above with their dowels. {words}.", _svg(bodies, stands, answer.units)
        )
    for number, stand in enumerate(stands, start=1):
        if stand.dowels:
            answer.sheet(f"stacking-template-{number}", f"Stacking template, tier {number}")


def stacked_figure(answer: Answer, stacking: Stacking) -> None:
    """Add where the tiers are stacked, with the reason in a note."""
    where, why = stacking_words(stacking)
    answer.figure("stacked", "Stack the tiers", float(stacking.apart), "", where)
    answer.note(why)


def boxes_table(answer: Answer, bodies: Sequence[Body], stands: Sequence[Support], stacking: Stacking, names: Sequence[str] = ()) -> None:
    """Add the boxes a cake travels in, one for each tier or one for all."""
    say = answer.say
    rows = []
    for box in boxes(bodies, stands, stacking):
        number = box.tiers[0]
        what = "the whole cake" if len(box.tiers) == len(bodies) else names[number] if names else f"tier {number + 1}"
        who = {1: "one person", 2: "two people", 0: "nobody in one piece"}[box.lift.people]
        rows.append((what, f"{say.length(box.width_mm)} x {say.length(box.length_mm)}", say.length(box.height_mm), say.mass(box.high_g), who))
    answer.table("boxes", "Boxes, measured inside", ("Box for", "Bottom", "Height", "Weighs at most", "Lifted by"), rows, (1, 2, 3))


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw the top of one tier with the footprint of the tier above and its dowels."""
    bodies = bodies_of(
        read_tiers(asked["tiers"], asked.units, asked["fullness"] / 100), asked["coat"], asked["filling"], density_g_per_ml(asked["recipe"])
    )
    stands = supports(bodies, asked["border"])
    for number, (lower, upper, stand) in enumerate(zip(bodies, bodies[1:], stands, strict=False), start=1):
        if name == f"stacking-template-{number}":
            sheet = stacking_template(lower.outline, upper.outline, stand, paper=paper, name=f"tier {number}", units=asked.units)
            return sheet.pdf(units=asked.units)
    raise KeyError(f"there is no sheet called {name}")


@lru_cache(maxsize=32)
def _svg(bodies: tuple[Body, ...], stands: tuple[Support, ...], units: str) -> str:
    return svg(supports_scene(bodies, stands, units))


def _row(number: int, tier: TypedTier, stand: Support, say: Formatter) -> tuple[str, ...]:
    size = say.length(tier.sponge.width_mm)
    if tier.sponge.kind in TWO_SIZES:
        size += f" x {say.length(tier.sponge.length_mm)}"
    board = say.length(stand.board_width_mm)
    if abs(stand.board_width_mm - stand.board_length_mm) > 0.5:
        board += f" x {say.length(stand.board_length_mm)}"
    who = {1: "one person", 2: "two people", 0: "nobody in one piece"}[stand.lift.people]
    return (
        f"{number}, {size} {tier.sponge.kind}",
        board,
        str(stand.all_dowels or "none"),
        say.length(stand.dowel_length_mm) if stand.all_dowels else "",
        ranged(say.mass, stand.mass_g, stand.low_g, stand.high_g),
        say.mass(stand.carried_g) if stand.carried_g else "nothing",
        who,
    )


def dowels_in_words(stand: Support, say: Formatter) -> str:
    """How many dowels stand in a tier and how long they are, "4 of 10.5 cm"; "none" where there is none."""
    if not stand.all_dowels:
        return "none"
    inner = f", {stand.inner_dowels} of them under a board inside" if stand.inner_dowels and stand.dowels else ""
    return f"{stand.all_dowels} of {say.length(stand.dowel_length_mm)}{inner or (' under a board inside' if stand.inner_dowels else '')}"


def inner_words(stand: Support, say: Formatter) -> str:
    """The boards inside a tall tier and what carries them, in words."""
    size = say.length(stand.inner_width_mm)
    if abs(stand.inner_width_mm - stand.inner_length_mm) > 0.5:
        size += f" x {say.length(stand.inner_length_mm)}"
    boards = f"{stand.inner_boards} thin board{'s' if stand.inner_boards > 1 else ''} of {size}"
    return f"Inside: {boards}, on {stand.inner_dowels} dowels of {say.length(stand.dowel_length_mm)}, which hold the next level as if it were a tier."


def seat_words(upper: str, lower: str, seat_mm: float, say: Formatter) -> str:
    """Where a tier stands that does not stand in the middle, in words."""
    way = "behind" if seat_mm > 0 else "in front of"
    where = f"{say.length(abs(seat_mm))} {way} the middle of {lower}"
    return f"{upper} stands {where}, where there is most room for it: in the middle it would hang over."


def _notes(answer: Answer, stands: Sequence[Support], stacking: Stacking, rod: float | None, border_mm: float) -> None:
    say = answer.say
    if border_mm > 0:
        answer.note(
            f"The lowest board shows {say.length(border_mm)} all round, for shells at the base and for hands; buy the next size "
            "sold. Every other board is as wide as its finished tier, so that the scraper runs along it."
        )
    if len(stands) > 1:
        answer.note(
            "Push one dowel in at the highest spot of the tier, mark it at the coat, and cut all dowels of that tier to that one "
            "length: the board above then stands level. Numbers of dowels are common practice and have no source."
        )
    for number, stand in enumerate(stands, start=1):
        if abs(stand.seat_mm) > SEAT_SHOWS_MM:
            answer.note(seat_words(f"Tier {number + 1}", f"tier {number}", stand.seat_mm, say))
        if stand.inner_boards:
            answer.note(f"Tier {number} is built on {stand.inner_boards + 1} levels. {inner_words(stand, say)}")
    if rod is not None:
        answer.note(
            f"A pointed rod of {say.length(rod)} down the middle, through the boards and into the lowest one, keeps the tiers "
            f"from sliding. {'It goes in at the venue, once they are stacked, and' if stacking.apart else 'It'} is taken out before the cake is cut."
        )
    answer.note(
        "Weights are those of sponge (0.28 to 0.46 g/ml) and buttercream, without boards, dowels, stand and flowers. Fruit cake "
        "weighs about twice as much. Weigh each tier on its board to be sure."
    )


CALCULATOR = Calculator(
    "supports",
    "Boards and supports",
    "What stands under each tier, what the cake weighs and who lifts it.",
    (
        TIERS,
        COAT,
        FILLING,
        BORDER,
        FULLNESS_OF_LIST,
        RECIPE,
        Input(
            "stacked",
            "Stack the tiers",
            "choice",
            "suits",
            choices=STACKED,
            advanced=True,
            help="Left open: at the venue if the cake is too heavy for two people, or too tall for a fridge or a car",
            kitchen="stacked",
            cake="order_stacked",
        ),
    ),
    work_out,
    draw_sheet=draw_sheet,
)
