"""`row`: any row of piping, for the kinds that have no calculator of their own."""

from __future__ import annotations

from calc.calculators import row_amounts
from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.calculators.division_form import SIDE, WIDTH, side_of
from calc.rows import KINDS, RowSpec, piped
from calc.sources import constant
from calc.units import Problem, a_or_an

DEEPEST = constant(3.0, "-", "common-practice", "widths; deeper than this no curve between two joints is piped")


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `row`."""
    side, kind, tip, repeats, say = side_of(asked), KINDS[asked["kind"]], asked["tip"], asked["repeats"] or 1, answer.say
    drop = (asked["drop"] if kind.takes_drop else None) or 0.0
    if kind.takes_drop and asked["repeats"] is None:
        raise Problem("repeats", f"Repeats is empty, and {a_or_an(kind.name)} hangs between joints. Write how many, like 8")
    if kind.hangs and not drop:
        raise Problem("drop", f"Drop is empty. Write how far the {kind.name} hangs below its joints, like 3 cm")
    if drop > DEEPEST * side / repeats:
        raise Problem(
            "drop",
            f"Drop must be at most three times the width, {say.most('length', DEEPEST * side / repeats)} for {repeats} repeats. "
            f"Make it shallower, or use fewer repeats",
        )
    per_repeat = asked["per_repeat"] if kind.by_repeat else None
    measured = row_amounts.measured(asked)
    row_amounts.check_spacing(measured.get("pitch_mm"), kind, tip, "pieces", say)
    piping = piped(
        RowSpec(
            kind.name,
            tip,
            run_mm=side,
            repeats=repeats,
            drop_mm=drop,
            layers=asked["layers"],
            per_repeat=per_repeat,
            movement_mm=asked["movement"],
            advance_mm=asked["advance"],
            **measured,
        ),
        "tip",
        "Tip",
    )
    if kind.counted or repeats > 1:
        answer.count("count", "How many" if kind.counted else "Pieces of the line", piping.count)
    if repeats > 1:
        answer.length("width", "One repeat, along the side", side / repeats)
    if kind.counted and piping.pitch_mm:
        answer.length("pitch", "From one to the next", piping.pitch_mm)
    answer.length("length_total", "Length of the row", piping.length_mm)
    if piping.path_mm > piping.length_mm * 1.01:
        answer.length("path", "Path of the tip", piping.path_mm)
    below = piping.below_mm + (drop if kind.hangs else 0.0)  # of a scroll it holds the depth already
    answer.length("band", "Covers, from top to bottom", piping.above_mm + below)
    answer.length("stands_out", "Stands out", piping.stands_out_mm)
    row_amounts.mass(answer, asked, piping)
    row_amounts.hold(answer, piping)
    if asked["side"] is None:
        answer.note("The side is worked out from the width. Measure it with a tape before you mark, and go by the tape.")


CALCULATOR = Calculator(
    "row",
    "Any row of piping",
    "One row: how many pieces, how long it is, how much it takes and how much time.",
    (
        Input("kind", "Kind", "choice", "ruched border", choices=tuple((kind.name, kind.title) for kind in KINDS.values()), cake="row_kind"),
        SIDE,
        WIDTH,
        Input(
            "repeats",
            "Repeats",
            "count",
            optional=True,
            low=1,
            high=200,
            help="How many equal parts round the side; empty for a row that runs on",
            cake="row_repeats",
        ),
        Input(
            "drop",
            "Drop or depth",
            "length",
            optional=True,
            low=1,
            high=400,
            help="Swags, strings and scrolls: how far it hangs below its joints",
            usual=(5, 160),
            cake="row_drop",
        ),
        Input(
            "per_repeat", "In each repeat", "count", optional=True, low=1, high=60, help="Rosettes, stars, leaves and scrolls: how many to a joint"
        ),
        Input(
            "layers", "Lines over each other", "count", default="1", low=1, high=6, help="1 for a single row, more for over-piping", cake="row_layers"
        ),
        Input("tip", "Tip", "tip", default="petal 9 mm", help="Family and measured opening, such as petal 9 mm", kitchen="tips", cake="row_tip"),
        Input(
            "movement",
            "Movement",
            "length",
            optional=True,
            advanced=True,
            default_unit="millimeter",
            low=0.5,
            high=60,
            help="How far a rocked tip goes from one side to the other",
            usual=(1, 40),
        ),
        Input(
            "advance",
            "Advance",
            "length",
            optional=True,
            advanced=True,
            default_unit="millimeter",
            low=0.5,
            high=60,
            help="How far it moves along for each to-and-fro",
            usual=(0.5, 40),
        ),
        *row_amounts.INPUTS_OF_PIECES,
    ),
    work_out,
)
