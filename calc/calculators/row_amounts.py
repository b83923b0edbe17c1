"""What the calculators of piped rows share: a weighed strip, the density, and how an amount is shown.

No calculator of its own: `strings`, `shells`, `swags` and the others take their inputs from here.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from calc.buttercream import density_g_per_ml, recipe_choices
from calc.calculators.declare import Answer, Asked, Input
from calc.calculators.order_words import in_units
from calc.drawing.figures import row_scene
from calc.drawing.svg import svg
from calc.rows import Kind, RowAmount, grams_per_metre
from calc.rows.placement import PlacedRow
from calc.tips import Tip
from calc.units import Formatter, Problem

PIPED = Input(
    "piped",
    "A strip you piped",
    "length",
    optional=True,
    advanced=True,
    low=20,
    high=20_000,
    help="Its length, such as 30 cm; with its weight it replaces the estimate",
    usual=(50, 5000),
    kitchen="measured.length",
)
WEIGHED = Input(
    "weighed",
    "What the strip weighed",
    "mass",
    optional=True,
    advanced=True,
    low=0.1,
    high=20_000,
    help="On a scale that shows single grams, such as 21 g",
    usual=(1, 1000),
    kitchen="measured.mass",
)
WEIGHT_100_ML = Input(
    "weight_100_ml",
    "What 100 ml of your buttercream weighs",
    "mass",
    optional=True,
    advanced=True,
    low=40,
    high=160,
    help="Fill a small measure level, weigh it, and work out what 100 ml weighs",
    kitchen="weight_100_ml",
)


RECIPE = Input(
    "recipe",
    "Recipe",
    "choice",
    optional=True,
    advanced=True,
    choices=recipe_choices,
    help="Its density is used if you have not weighed yours; left empty, that of any piping buttercream",
)
PIECES = Input(
    "pieces",
    "How many pieces the strip has",
    "count",
    optional=True,
    advanced=True,
    low=2,
    high=1000,
    help="Shells, beads or turns, such as 27 on 30 cm: the spacing that you pipe replaces the usual one",
    kitchen="measured.pieces",
)
INPUTS = (PIPED, WEIGHED, WEIGHT_100_ML, RECIPE)
INPUTS_OF_PIECES = (PIPED, WEIGHED, PIECES, WEIGHT_100_ML, RECIPE)
CLOSEST, WIDEST = 0.4, 2.5  # times the usual spacing: closer the pieces are a heap, wider they stand by themselves


def measured(asked: Asked) -> dict[str, Any]:
    """What a reader has measured, or else the density of the recipe, as `RowSpec` takes it."""
    found: dict[str, Any] = {}
    pieces = asked.get("pieces")
    if (asked["piped"] is None) != (asked["weighed"] is None and pieces is None):
        missing, label = ("weighed", WEIGHED.label) if asked["piped"] is not None else ("piped", PIPED.label)
        also = " or the number of its pieces" if "pieces" in asked else ""
        raise Problem(missing, f"{label} is empty. Give both the strip's length and its weight{also}, like 30 cm and 21 g, or neither")
    if pieces is not None:
        found["pitch_mm"] = asked["piped"] / pieces
    if asked["weighed"] is not None:
        found["grams_per_metre"] = grams_per_metre(asked["piped"], asked["weighed"])
    if asked["weight_100_ml"] is not None:
        density = asked["weight_100_ml"] / 100
        found |= {"density_g_per_ml": density, "density_ends": (density, density)}
    elif asked["recipe"]:
        known = density_g_per_ml(asked["recipe"])
        found |= {"density_g_per_ml": float(known), "density_ends": (known.low, known.high)}
    return found


def check_spacing(pitch_mm: float | None, kind: Kind, tip: Tip, input_name: str, say: Formatter) -> None:
    """Raise a `Problem` where this tip cannot pipe pieces at a measured spacing."""
    usual = kind.natural_pitch_mm(tip)
    if pitch_mm is not None and usual and not CLOSEST * usual <= pitch_mm <= WIDEST * usual:
        raise Problem(
            input_name,
            f"{PIECES.label}: that makes them {say.length(pitch_mm)} apart, and {tip.name} pipes {kind.plural} between "
            f"{say.least('length', CLOSEST * usual)} and {say.most('length', WIDEST * usual)} apart. Count them again, or measure the strip",
        )


def mass(answer: Answer, asked: Asked, piping: RowAmount, times: int = 1) -> None:
    """Add the figures of what a row takes, piped so many times: its mass and its volume, each with a range, and the time."""
    answer.mass("mass", "Buttercream", *(times * value for value in (piping.mass_g, piping.low_g, piping.high_g)))
    answer.volume("volume", "By volume", *(times * value for value in (piping.volume_ml, piping.low_ml, piping.high_ml)))
    answer.duration("time", "Time to pipe", *(times * value for value in (piping.time_min, piping.low_min, piping.high_min)))
    if asked["weighed"] is None:
        answer.note(
            "The amount is an estimate from the tip's opening and the path of the hand. Pipe a strip, weigh it, and put both in: that replaces it."
        )
    for note in piping.notes:
        answer.note(in_units(note, answer.say))


def hold(answer: Answer, piping: RowAmount) -> None:
    """Add how the tip is held and how the hand moves."""
    answer.note(f"Hold the tip {piping.angle}. {piping.hand}")


@lru_cache(maxsize=32)
def _piece(row: PlacedRow, wide_mm: float, high_mm: float) -> str:
    return svg(row_scene(row, wide_mm, high_mm))


def draw(answer: Answer, row: PlacedRow, wide_mm: float, high_mm: float, description: str) -> None:
    """Add a drawing of a piece of the row, flat and to scale."""
    answer.drawing("row", "A piece of the row, flat, to scale", description, _piece(row, wide_mm, high_mm))
