"""`strings`: dropped lines that hang between joints."""

from __future__ import annotations

from calc.calculators import row_amounts
from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.calculators.division_form import SIDE, WIDTH, side_of
from calc.colours import PALETTE
from calc.curves import catenary_length_mm, catenary_parameter_mm
from calc.rows import RowSpec, piped
from calc.rows.placement import PlacedRow
from calc.sources import constant
from calc.units import Problem

DEEPEST = constant(3.0, "-", "common-practice", "widths that a string can drop; a longer loop tears before it hangs", low=2.0, high=4.0)


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `strings`."""
    side, repeats, drop, loops, say = side_of(asked), asked["repeats"], asked["drop"], asked["loops"], answer.say
    width = side / repeats
    if drop > DEEPEST * width:
        raise Problem(
            "drop",
            f"Drop must be at most three times the width, {say.most('length', DEEPEST * width)} for {repeats} repeats. Make it "
            f"shallower, or use fewer repeats",
        )
    piping = piped(
        RowSpec("string", asked["tip"], run_mm=side, repeats=repeats, drop_mm=drop, layers=loops, **row_amounts.measured(asked)), "tip", "Tip"
    )
    answer.length("width", "Width, along the side", width)
    answer.length("drop", "Drop of the deepest", drop)
    answer.length("length_each", "Length of the deepest string", piping.length_each_mm)
    answer.length("length_total", "Length to pipe in all", piping.length_mm)
    answer.count("strings", "Strings", piping.count)
    row_amounts.mass(answer, asked, piping)
    answer.figure("parameter", "Catenary parameter", catenary_parameter_mm(width, drop), "mm", say.length(catenary_parameter_mm(width, drop)))
    if loops > 1:
        answer.table(
            "loops",
            "The strings of one repeat, outermost first",
            ("String", "Drop", "Length"),
            [[str(i), say.length(d), say.length(catenary_length_mm(width, d))] for i, d in enumerate(piping.drops_mm, 1)],
            (1, 2),
        )
        answer.note(
            "Pipe the outermost string of every repeat first, and work inwards, so that the tip never goes behind a string that hangs already."
        )
    row_amounts.hold(answer, piping)
    row = PlacedRow("string", asked["tip"], PALETTE["russet"], "side", 10.0, repeats=6, drop_mm=drop, layers=loops)
    row_amounts.draw(
        answer,
        row,
        2 * width,
        drop + 20,
        f"Two repeats of {loops} string{'' if loops == 1 else 's'}, each repeat {say.length(width)} wide, the deepest hanging {say.length(drop)}.",
    )
    if asked["side"] is None:
        answer.note("The side is worked out from the width. Measure it with a tape before you mark, and go by the tape.")


CALCULATOR = Calculator(
    "strings",
    "Strings",
    "Dropped lines that all hang alike.",
    (
        SIDE,
        WIDTH,
        Input("repeats", "Repeats", "count", default="8", low=2, high=200, help="How many joints round the side", cake="row_repeats"),
        Input(
            "drop",
            "Drop",
            "length",
            default="3 cm",
            low=1,
            high=400,
            help="How far the deepest string hangs below its joints",
            usual=(5, 160),
            cake="row_drop",
        ),
        Input(
            "loops",
            "Strings in each repeat",
            "count",
            default="1",
            low=1,
            high=6,
            help="Nested from the same joints, their drops shared out evenly",
            cake="row_layers",
        ),
        Input("tip", "Tip", "tip", default="round 1.8 mm", help="Family and measured opening, such as round 1.8 mm", kitchen="tips", cake="row_tip"),
        *row_amounts.INPUTS,
    ),
    work_out,
    pipes="string",
)
