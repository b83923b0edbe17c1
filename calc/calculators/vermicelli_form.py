"""`vermicelli`: a wandering line that fills a band round the side, or a top."""

from __future__ import annotations

import math

from calc.calculators import row_amounts
from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.calculators.division_form import SIDE, WIDTH, side_of
from calc.colours import PALETTE
from calc.drawing.figures import wander_scene
from calc.drawing.svg import svg
from calc.rows import wandering
from calc.units import Problem

SHOWN_MM = (60.0, 36.0)
GAPS_MM = (2.0, 3.0, 4.0, 6.0)


def area_of(asked: Asked) -> float:
    """The ground that is filled [mm2]: a band round the side, or a round top."""
    side = side_of(asked)
    if asked["ground"] == "top":
        return side * side / (4 * math.pi)
    if asked["height"] is None:
        raise Problem("height", "Height of the band is empty. Write how much of the side is filled, like 8 cm")
    return side * float(asked["height"])


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `vermicelli`."""
    tip, gap, say = asked["tip"], asked["gap"], answer.say
    area, measured = area_of(asked), row_amounts.measured(asked)
    try:
        line = wandering(area, gap, tip, **measured)
    except ValueError:
        raise Problem(
            "gap",
            f"{say.length(gap)} between two lines over {say.area(area)} makes a line of more than 100 m. Leave more room "
            f"between the lines, or fill less",
        ) from None
    answer.length("length_total", "Length of the line", line.length_mm)
    answer.figure("area", "Ground it fills", area, "mm2", say.area(area))
    answer.length("pitch", "From the middle of one line to the next", line.pitch_mm)
    row_amounts.mass(answer, asked, line)
    row_amounts.hold(answer, line)
    rows = []
    for other in sorted({*GAPS_MM, gap}):
        try:
            told = wandering(area, other, tip, **measured)
        except ValueError:
            continue
        rows.append([say.length(other), say.length(told.length_mm), say.mass(told.mass_g), say.duration(told.time_min)])
    answer.table("gaps", "Closer and wider", ("Between two lines", "Length", "Buttercream", "Time to pipe"), rows, (0, 1, 2, 3))
    answer.drawing(
        "patch",
        "A patch of it, flat, to scale",
        f"A line {say.length(tip.bead_width_mm)} wide that wanders and never crosses, {say.length(gap)} from the next pass.",
        svg(wander_scene(line.pitch_mm, tip.bead_width_mm, PALETTE["cream"], *SHOWN_MM)),
    )
    if asked["side"] is None:
        answer.note("The side is worked out from the width. Measure it with a tape before you mark, and go by the tape.")


CALCULATOR = Calculator(
    "vermicelli",
    "Vermicelli",
    "How long the wandering line is, what it weighs, how long it takes.",
    (
        Input("ground", "What it fills", "choice", "side", choices=(("side", "A band round the side"), ("top", "A round top"))),
        SIDE,
        WIDTH,
        Input(
            "height",
            "Height of the band",
            "length",
            optional=True,
            default="8 cm",
            low=5,
            high=600,
            only_with=("ground", ("side",)),
            help="How much of the side it fills, such as 8 cm",
            usual=(15, 250),
        ),
        Input(
            "gap",
            "Between two lines",
            "length",
            default="3 mm",
            default_unit="millimeter",
            low=0.5,
            high=60,
            help="The coat that shows between one pass and the next, such as 3 mm",
            usual=(1, 15),
        ),
        Input("tip", "Tip", "tip", default="round 1.8 mm", help="Family and measured opening, such as round 1.8 mm", kitchen="tips"),
        *row_amounts.INPUTS,
    ),
    work_out,
    pipes="vermicelli",
)
