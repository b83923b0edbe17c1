"""`stack`: which tins to bake for a number of guests."""

from __future__ import annotations

import math
import re
from functools import lru_cache

from calc.buttercream import density_g_per_ml
from calc.calculators.declare import TIN, Answer, Asked, Calculator, Input
from calc.calculators.portions_form import SLICE, slice_of, slice_words
from calc.calculators.supports_form import COAT, FILLING, RECIPE, body_of, usual_mm
from calc.calculators.tin_measures import DEEP_WIDEST, FULLNESS, HOLDS_WIDEST, tin_of
from calc.drawing.svg import svg
from calc.drawing.tiers import TierDrawn
from calc.drawing.views import side_view
from calc.portions import TINS, cut_plan, levels, portion_count
from calc.shapes import TWO_SIZES, Heart, Outline, outline, outline_choices
from calc.stack import TIERS_MOST, Body, Stack, largest_stack, needed_portions, stacks, supports
from calc.units import Formatter, Problem, a_or_an

TINS_INPUT = Input(
    "tins",
    "Tins you have",
    "text",
    optional=True,
    measure="length",
    help="Such as 15, 20 and 25 cm; for ovals and sheets 20 x 15 cm; 25 x 20 cm. Leave empty for the usual ones",
    kitchen="tins",
)
TIN_LOW_MM, TIN_HIGH_MM, TINS_MOST = 50.0, 1000.0, 20
SHEETS = {"metric": ("30 x 40 cm", (300.0, 400.0)), "us": ("12 x 18 in", (304.8, 457.2))}


def read_tins(text: str | None, shape: str, units: str, fullness: float | None = None) -> tuple[Outline, ...]:
    """Read "15, 20 and 25 cm", or "20 x 15 cm; 25 x 20 cm" for shapes of two sizes; nothing means the usual ones."""
    label, name = "Tins you have", "tins"
    if not text or not text.strip():
        return tuple(tin.as_full(fullness) for tin in TINS if tin.shape == shape and tin.units == units)
    parts = [part for part in re.split(r"\s*(?:;|\band\b|&|\n|,(?!\d)|,(?=\s))\s*", text.strip()) if part]
    way = "20 x 15 cm; 25 x 20 cm" if shape in TWO_SIZES else "15, 20 and 25 cm"
    if not parts or len(parts) > TINS_MOST:
        raise Problem(name, f"{label} is a list of up to {TINS_MOST}. Write it like {way}")
    unit = re.search(r"(?:\"|''|[a-zA-Z]+)\.?$", parts[-1])
    if unit:
        parts = [part if re.search(r"(\"|'|[a-wyzA-WYZ])", part) else f"{part} {unit[0]}" for part in parts]
    say = Formatter(units)
    found = []
    for part in parts:
        pieces = re.split(r"\s*(?:x|×|\*|\bby\b)\s*", part, flags=re.IGNORECASE)
        many = 2 if shape in TWO_SIZES else 1
        if len(pieces) != many or not all(pieces):
            what = "two lengths" if many == 2 else "one length"
            raise Problem(name, f"{label}: {a_or_an(shape)} tin has {what}, and “{part[:30]}” does not read as that. Write it like {way}")
        sizes = TINS_INPUT.read_sizes(pieces, name, label, units, (TIN,) * many)
        for value in sizes:
            if not TIN_LOW_MM <= value <= TIN_HIGH_MM:
                raise Problem(
                    name,
                    f"{label} must each be between {say.least('length', TIN_LOW_MM)} and {say.most('length', TIN_HIGH_MM)}, not "
                    f"{say.length(value)}. Write it like {way}",
                )
        if shape == "oval" and max(sizes) > 10 * min(sizes):
            raise Problem(name, "An oval is at most ten times as long as it is wide. Choose a rectangle, or other sizes")
        found.append(outline(shape, sizes[0], sizes[1] if shape in TWO_SIZES else None, fullness if shape == "heart" else None))
    return tuple(found)


def _measured(asked: Asked, tins: tuple[Outline, ...]) -> tuple[tuple[Outline, ...], float]:
    """The tins scaled by what the widest of them holds, and that scale."""
    if asked["holds"] is None or not tins:
        return tins, 1.0
    if not (asked["tins"] or "").strip():
        raise Problem("tins", "Tins you have: this is empty, and what the widest of them holds is given. Write them like 15, 20 and 25 cm")
    widest = max(tins, key=lambda tin: tin.area_mm2)
    found = tin_of(asked, widest.kind, widest.width_mm, widest.length_mm if widest.kind in TWO_SIZES else None)
    if isinstance(found, Heart) and abs(found.width_mm - widest.width_mm) < 1e-6:
        return tuple(outline("heart", tin.width_mm, fullness=found.fullness) for tin in tins), 1.0
    ratio = found.width_mm / widest.width_mm
    return tuple(tin.scaled(ratio) for tin in tins), ratio


def tin_words(tin: Outline, say: Formatter, ratio: float) -> str:
    """A tin's size in words: the nominal size, where tins were scaled by a ratio."""
    tin = tin.scaled(1 / ratio)
    if tin.kind in TWO_SIZES:
        return f"{say.length(tin.width_mm)} x {say.length(tin.length_mm)}"
    return say.length(tin.width_mm)


def _none_found(asked: Asked, answer: Answer, tins: tuple[Outline, ...], size: tuple[float, float]) -> Problem:
    """Say why no stack serves the guests, and the way out."""
    say, guests = answer.say, asked["guests"]
    need = needed_portions(guests, asked["spare"])
    most = largest_stack(tins, size, asked["keep_top"], asked["step_low"], asked["step_high"], asked["tier_count"], levels(asked["height"]))
    if most == 0:
        if asked["tier_count"] is not None or asked["keep_top"]:
            wanted = asked["tier_count"] or 2
            return Problem(
                "tier_count" if asked["tier_count"] else "tins",
                f"No {wanted} of these tins can stand on each other with steps of {say.length(asked['step_low'])} to "
                f"{say.length(asked['step_high'])}. Add tins, choose fewer tiers, or allow other steps",
            )
        return Problem("slice", f"No slice of {slice_words(size, say)} comes out of these tins. Make the slice smaller")
    words, (width, length) = SHEETS[answer.units]
    each = portion_count(outline("rectangle", width, length), size)
    return Problem(
        "guests",
        f"{guests} guests want {need} portions, and the largest stack of these tins gives {most}. Add wider tins, use smaller slices, or let kitchen "
        f"cakes make it up: {math.ceil((need - most) / each)} of {words} would do",
    )


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `stack`."""
    say, guests = answer.say, asked["guests"]
    size = slice_of(asked)
    shape: str = asked["shape"]
    tins, ratio = _measured(asked, read_tins(asked["tins"], shape, answer.units, asked["fullness"] / 100))
    if asked["step_low"] > asked["step_high"]:
        raise Problem("step_low", f"Least step must not be more than the most ({say.most('length', asked['step_high'])}). Write it like 5 cm")
    if asked["keep_top"] and asked["tier_count"] == 1:
        raise Problem("tier_count", "Keeping the top tier leaves nothing of a cake of one tier. Choose two tiers or more")
    kitchen = outline("rectangle", *SHEETS[answer.units][1]) if asked["kitchen"] else None
    high = levels(asked["height"])
    found = stacks(guests, tins, size, asked["spare"], asked["keep_top"], asked["step_low"], asked["step_high"], asked["tier_count"], kitchen, high)
    if not found:
        raise _none_found(asked, answer, tins, size)
    best = found[0]
    answer.count("portions", "Portions", best.portions)
    answer.count("spare_portions", "Over the guests", best.spare_portions)
    answer.figure("tiers", "Tiers, the lowest first", len(best.tiers), "", " + ".join(tin_words(tin, say, ratio) for tin in best.tiers))
    if asked["keep_top"]:
        answer.count("kept_portions", "Kept back with the top tier", best.kept_portions)
    if kitchen is not None:
        answer.count("kitchen_cakes", f"Kitchen sheets of {SHEETS[answer.units][0]}", best.kitchen_cakes)
    density = density_g_per_ml(asked["recipe"])
    coat, filling = usual_mm(COAT, answer.units), min(usual_mm(FILLING, answer.units), asked["height"] / 2)
    bodies = tuple(body_of(tin, asked["height"], coat, filling, density) for tin in best.tiers)
    stands = supports(bodies)
    answer.mass(
        "weight",
        "Weight of the cake",
        math.fsum(stand.mass_g for stand in stands),
        math.fsum(stand.low_g for stand in stands),
        math.fsum(stand.high_g for stand in stands),
    )
    answer.length("cake_height", "Height of the cake", math.fsum(body.height_mm for body in bodies))
    answer.table(
        "tiers",
        f"The first choice, the lowest tier first; each is {a_or_an(shape)}",
        ("Tier", "Tin", "Portions", "Cut", "Weight"),
        [
            (
                str(number),
                tin_words(tin, say, ratio),
                f"{count}, kept back" if asked["keep_top"] and number == len(best.tiers) else str(count),
                cut_plan(tin, size).cut,
                say.mass(stand.mass_g),
            )
            for number, (tin, count, stand) in enumerate(zip(best.tiers, best.counts, stands, strict=True), start=1)
        ],
        numeric=(0, 4),
    )
    answer.table(
        "stacks",
        "Other stacks that serve them, best first",
        ("Tins", "Tiers", "Portions", "Over the guests", "Steps"),
        [_row(stack, say, ratio) for stack in found],
        numeric=(1, 2, 3),
    )
    answer.note(
        f"Ranked by few portions to spare, equal steps and few tiers. That is our judgement, so look at the others too. Slices "
        f"of {slice_words(size, say)}, each tier by the cut that gives most."
    )
    if ratio != 1:
        off, way = say.percent(100 * abs(ratio - 1)), "wider" if ratio > 1 else "narrower"
        answer.note(f"Going by what the widest holds, the tins are {off} {way} than their names say.")
    elif asked["holds"] is not None and isinstance(best.tiers[0], Heart):
        answer.note(f"Going by what the widest holds, the hearts' fullness is {say.percent(100 * best.tiers[0].fullness)}.")
    if high > 1:
        answer.note(
            f"Tiers {say.length(asked['height'])} high are built with a board and supports inside and cut on {high} levels; "
            "the portions count all levels."
        )
    if asked["keep_top"]:
        answer.note("The kept tier is not counted. Wrapped, it keeps in a freezer as long as your recipe and your local advice say.")
    answer.caution(
        "Count the supports in and out, and let no wire or bare pick go into a cake. For boards, dowels and who lifts it, see Boards and supports."
    )
    words = ", ".join(tin_words(tin, say, ratio) for tin in best.tiers)
    answer.drawing(
        "side",
        "The first choice from the side, to scale",
        f"Tiers of {words}, each {say.length(asked['height'])} high before the coat, the widest at the bottom.",
        _svg(bodies, stands[0].board_width_mm),
    )


@lru_cache(maxsize=32)
def _svg(bodies: tuple[Body, ...], board_mm: float) -> str:
    base, tiers = 0.0, []
    for body in bodies:
        tiers.append(TierDrawn(body.outline, base, body.height_mm))
        base += body.height_mm
    return svg(side_view(tuple(tiers), board_mm))


def _row(stack: Stack, say: Formatter, ratio: float) -> tuple[str, ...]:
    tins = " + ".join(tin_words(tin, say, ratio) for tin in stack.tiers)
    if stack.kitchen_cakes:
        tins += f" and {stack.kitchen_cakes} kitchen sheet{'s' if stack.kitchen_cakes > 1 else ''}"
    steps = sorted({round(step, 3) for step in stack.steps_mm})
    return (
        tins,
        str(len(stack.tiers)),
        str(stack.portions),
        str(stack.spare_portions),
        (" to " if len(steps) > 2 else " and ").join(say.length(step) for step in dict.fromkeys((steps[0], steps[-1]))) if steps else "none",
    )


CALCULATOR = Calculator(
    "stack",
    "Choose the tiers",
    "Which tins to bake for a number of guests.",
    (
        Input("guests", "Guests", "count", "36", low=1, high=2000, help="How many people will have a slice", cake="order_guests"),
        SLICE,
        Input("shape", "Shape", "choice", "round", choices=outline_choices),
        Input("height", "Height of each tier", "length", "10 cm", low=20, high=400, help="The stacked sponge with its fillings", usual=(50, 300)),
        Input("keep_top", "Keep the top tier back", "yes_no", "no", help="Then its portions are not counted"),
        Input("spare", "Spare portions", "percent", "0", low=0, high=100, help="Beyond the guests, such as 10 %"),
        TINS_INPUT,
        Input("tier_count", "How many tiers", "count", optional=True, low=1, high=TIERS_MOST, help="Leave empty to leave it open"),
        Input(
            "step_low", "Least step between tiers", "length", "5 cm", low=0, high=500, advanced=True, help="Difference in width between neighbours"
        ),
        Input("step_high", "Most step between tiers", "length", "10 cm", low=10, high=900, advanced=True),
        FULLNESS,
        HOLDS_WIDEST,
        DEEP_WIDEST,
        RECIPE,
        Input("kitchen", "Make up the number with kitchen cakes", "yes_no", "no", advanced=True, help="Plain sheets that are cut out of sight"),
    ),
    work_out,
)
