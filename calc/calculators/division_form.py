"""`division`: equal repeats round a side, and what to set the dividers to."""

from __future__ import annotations

import math

from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.division import closing_error_mm, dividers_mm, pitch_mm, repeats_near
from calc.drawing.figures import division_scene
from calc.drawing.svg import svg
from calc.units import Problem

SIDE = Input("side", "Round the side", "length", optional=True, low=50, high=6000, help="What the tape says round the finished side, such as 66 cm")
WIDTH = Input(
    "width",
    "Width across, finished",
    "length",
    optional=True,
    low=20,
    high=1900,
    help="Only when there is no tape: the coated cake across its middle",
)


def side_of(asked: Asked) -> float:
    """The measured side, or the one that follows from the finished width; the tape wins."""
    if asked["side"] is not None:
        return float(asked["side"])
    if asked["width"] is not None:
        return math.pi * float(asked["width"])
    raise Problem(asked.named("side"), "Round the side is empty. Write what the tape says, like 66 cm, or give the width across")


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `division`."""
    side = side_of(asked)
    if asked["repeats"] is None and asked["target"] is None:
        raise Problem("repeats", "Repeats is empty. Write how many equal parts, like 8, or a wanted pitch")
    repeats = asked["repeats"] or max(2, repeats_near(side, asked["target"]))
    pitch = pitch_mm(side, repeats)
    setting = dividers_mm(side, repeats)
    to_the_mm = round(setting)
    answer.count("repeats", "Repeats", repeats)
    answer.length("pitch", "Pitch, along the surface", pitch)
    answer.length("dividers", "Set the dividers to", setting)
    error = closing_error_mm(side, repeats, min(max(1, to_the_mm), side / math.pi))
    answer.figure(
        "closing_error",
        "Closing error, set to the millimetre",
        error,
        "mm",
        answer.say.length(abs(error)) + (" over" if error > 0.05 else " short" if error < -0.05 else ""),
    )
    if abs(error) > 2:
        answer.note(
            f"Dividers set to a whole millimetre end {answer.say.length(abs(error))} "
            f"{'past' if error > 0 else 'before'} the start. Share that out over the last few steps at the back."
        )
    wrong = closing_error_mm(side, repeats, pitch) if pitch <= side / math.pi else None
    if wrong is not None:
        answer.note(
            f"Do not set the dividers to the pitch: their points go straight through the cake while the tape goes round it, "
            f"and the last step would land {answer.say.length(wrong)} past the start."
        )
    if asked["side"] is None:
        answer.note("The side was reckoned from the width. Measure it with a tape before you mark: the tape wins.")
    answer.drawing(
        "dividers",
        "From above",
        f"A round tier with {repeats} joints and the dividers across one part.",
        svg(division_scene(side, repeats, answer.units)),
    )


CALCULATOR = Calculator(
    "division",
    "Divide a side",
    "Equal repeats that close exactly round the cake in front of you.",
    (
        SIDE,
        WIDTH,
        Input("repeats", "Repeats", "count", optional=True, low=2, high=200, help="How many equal parts, such as 8"),
        Input("target", "Or a wanted pitch", "length", optional=True, low=5, high=2000, help="About how wide each part should be"),
    ),
    work_out,
)
