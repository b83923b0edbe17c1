"""`rosettes`: so many rosettes, or as many as a spacing gives round the side."""

from __future__ import annotations

from calc.calculators import row_amounts
from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.calculators.division_form import SIDE, WIDTH, side_of
from calc.colours import PALETTE
from calc.division import repeats_near
from calc.rows import RowSpec, piped
from calc.rows.effects import effect_size_mm
from calc.rows.placement import PlacedRow
from calc.units import Problem


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `rosettes`."""
    tip, say = asked["tip"], answer.say
    usual = effect_size_mm(tip, "rosette")
    size = asked["size"] or usual
    if size < tip.bead_width_mm:
        raise Problem(
            "size",
            f"Size must be at least the tip's own line, {say.least('length', tip.bead_width_mm)} for {tip.name}. Make it wider, or use a finer tip",
        )
    around = asked["side"] is not None or asked["width"] is not None
    side = side_of(asked) if around else None
    count = asked["count"]
    if count is None:
        if side is None:
            raise Problem("count", "How many is empty. Write a number, like 8, or give round the side and a spacing")
        count = repeats_near(side, asked["spacing"] or size)
    run = side if side is not None else count * max(size, asked["spacing"] or size)
    piping = piped(RowSpec("rosette", tip, run_mm=run, count=count, size_mm=size, **row_amounts.measured(asked)), "tip", "Tip")
    answer.count("count", "Rosettes", count)
    answer.length("size", "Width of each", size)
    if side is not None:
        answer.length("spacing", "From middle to middle", side / count)
        gap = side / count - size
        answer.figure("gap", "Between two", gap, "mm", say.length(gap) if gap >= 0 else f"{say.length(-gap)} overlap")
    answer.length("height", "How far each stands out", piping.stands_out_mm)
    answer.mass("each", "Buttercream for one", piping.mass_g / count)
    row_amounts.mass(answer, asked, piping)
    if asked["size"] is not None and not 0.7 * usual <= size <= 1.7 * usual:
        answer.note(
            f"This tip usually makes rosettes about {say.length(usual)} wide. {'More turns' if size > usual else 'Less than a turn'} "
            f"will look unlike the usual ones."
        )
    row_amounts.hold(answer, piping)
    apart = run / count
    row_amounts.draw(
        answer,
        PlacedRow("rosette", tip, PALETTE["blush"], "side", 0.75 * size, repeats=6, count=6, width_mm=size),
        2 * apart,
        1.5 * size,
        f"Two rosettes {say.length(size)} wide, {say.length(apart)} from middle to middle.",
    )


CALCULATOR = Calculator(
    "rosettes",
    "Rosettes",
    "How many, how wide, and what they take.",
    (
        Input("count", "How many", "count", optional=True, low=1, high=2000, help="Leave empty to have them spaced round the side", cake="row_count"),
        SIDE,
        WIDTH,
        Input(
            "spacing", "Spacing", "length", optional=True, low=3, high=2000, help="From the middle of one to the middle of the next", usual=(5, 250)
        ),
        Input(
            "tip",
            "Tip",
            "tip",
            default="closed star 5 mm",
            help="Family and measured opening, such as closed star 5 mm",
            kitchen="tips",
            cake="row_tip",
        ),
        Input(
            "size",
            "Size",
            "length",
            optional=True,
            low=2,
            high=200,
            help="Width of one rosette; leave empty for what the tip usually makes",
            usual=(4, 90),
        ),
        *row_amounts.INPUTS,
    ),
    work_out,
    pipes="rosette",
)
