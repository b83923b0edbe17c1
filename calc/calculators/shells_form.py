"""`shells`: shells, reverse shells or beads that meet the joints whole."""

from __future__ import annotations

from calc.calculators import row_amounts
from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.calculators.division_form import SIDE, WIDTH, side_of
from calc.colours import PALETTE
from calc.division import STRETCH_MOST_PERCENT, pieces_that_meet
from calc.rows import KINDS, RowSpec, natural_pitch_mm, piped
from calc.rows.placement import PlacedRow
from calc.units import Problem

CLOSEST_MM = 0.8
SQUEEZED_PERCENT, STRETCHED_PERCENT = -60.0, 150.0  # beyond these the pieces are a heap, or stand by themselves
SHOWN = 10
NAMED = tuple((kind.name, kind.titles) for kind in KINDS.values() if kind.side_by_side)


def counted(asked: Asked, side_mm: float, natural_mm: float) -> tuple[int, int]:
    """Repeats and shells in each, from whichever of the two was given."""
    per_swag, repeats = asked["per_swag"], asked["repeats"]
    if per_swag and not repeats:
        repeats = pieces_that_meet(side_mm, natural_mm * per_swag)[0]
    repeats = repeats or 1
    per_swag = per_swag or pieces_that_meet(side_mm / repeats, natural_mm)[0]
    return repeats, per_swag


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `shells`."""
    side, tip, kind, say = side_of(asked), asked["tip"], asked["kind"], answer.say
    measured = row_amounts.measured(asked)
    row_amounts.check_spacing(measured.get("pitch_mm"), KINDS[kind], tip, "pieces", say)
    natural = measured.get("pitch_mm") or natural_pitch_mm(kind, tip)
    repeats, per_swag = counted(asked, side, natural)
    shells = repeats * per_swag
    if side / shells < CLOSEST_MM:
        field = "per_swag" if asked["per_swag"] else "repeats" if asked["repeats"] else "tip"
        raise Problem(
            field,
            f"{shells} pieces on {say.length(side)} would be {say.number(side / shells, 2)} mm apart, and no tip pipes that. Use fewer of them",
        )
    stretch = 100 * (side / (shells * natural) - 1)
    way = "fewer of them" if stretch < SQUEEZED_PERCENT else "more of them" if stretch > STRETCHED_PERCENT else ""
    if way and (asked["per_swag"] or asked["repeats"]):
        field = "per_swag" if asked["per_swag"] else "repeats"
        label = "In each swag" if asked["per_swag"] else "Repeats"
        best = max(1, round(side / natural))
        raise Problem(
            field,
            f"{label}: {shells} pieces on {say.length(side)} would be {say.length(side / shells)} apart, and this tip falls into "
            f"{say.length(natural)} by itself. Between {1 + SQUEEZED_PERCENT / 100:g} and {1 + STRETCHED_PERCENT / 100:g} times that can be piped: "
            f"take {way}, about {best} in all, or another tip",
        )
    piping = piped(RowSpec(kind, tip, run_mm=side, repeats=repeats, per_repeat=per_swag, **measured), "tip", "Tip")
    if repeats > 1:
        answer.count("shells", "In all", shells)
        answer.count("per_swag", "In each repeat", per_swag)
        answer.count("repeats", "Repeats", repeats)
    else:
        answer.count("shells", f"{dict(NAMED)[kind]} round the cake", shells)
        with answer.quietly():
            answer.count("per_swag", "In each repeat", per_swag)
            answer.count("repeats", "Repeats", repeats)
    answer.length("pitch", "Pitch", piping.pitch_mm)
    answer.percent("stretch", "Stretched", piping.stretch_percent)
    answer.length("natural_pitch", "Pitch of your strip" if asked["pieces"] else "Pitch this tip usually makes", natural)
    answer.length("row_width", "Width of the row", piping.above_mm + piping.below_mm)
    row_amounts.mass(answer, asked, piping)
    if asked["pieces"] is None:
        answer.note(
            f"Pieces {say.length(natural)} apart are what most hands pipe with this tip (from memory). Pipe a practice row, measure it, count them, "
            "and put both in: the spacing of your own hand replaces it."
        )
    _others(answer, side, repeats, per_swag, natural)
    row_amounts.hold(answer, piping)
    shown = min(shells, SHOWN)
    high = 2.5 * piping.stands_out_mm
    place, line = ("base", 0.0) if KINDS[kind].place == "base" else ("side", high / 2)
    row_amounts.draw(
        answer,
        PlacedRow(kind, tip, PALETTE["russet"], place, line, repeats=3, count=3 * shown),
        shown * piping.pitch_mm,
        high,
        f"{shown} pieces of the row, {say.length(piping.pitch_mm)} from one to the next.",
    )
    if asked["side"] is None:
        answer.note("The side is worked out from the width. Measure it with a tape before you mark, and go by the tape.")


def _others(answer: Answer, side_mm: float, repeats: int, per_swag: int, natural_mm: float) -> None:
    """The numbers next to the one chosen, with what each stretches to."""
    rows = []
    for each in range(max(1, per_swag - 2), per_swag + 3):
        stretch = 100 * (side_mm / (repeats * each * natural_mm) - 1)
        if each != per_swag and abs(stretch) <= 2 * STRETCH_MOST_PERCENT:
            counts = [str(each), str(each * repeats)] if repeats > 1 else [str(each)]
            rows.append([*counts, answer.say.length(side_mm / (each * repeats)), answer.say.percent(stretch)])
    if rows:
        heads = (*(("In each repeat",) if repeats > 1 else ()), "In all", "Pitch", "Stretched")
        answer.table("others", "Other numbers", heads, rows, tuple(range(len(heads))))


CALCULATOR = Calculator(
    "shells",
    "Shells",
    "A row that closes on a whole shell, with one at every joint.",
    (
        SIDE,
        WIDTH,
        Input(
            "tip", "Tip", "tip", default="open star 7 mm", help="Family and measured opening, such as open star 7 mm", kitchen="tips", cake="row_tip"
        ),
        Input("per_swag", "In each swag", "count", optional=True, low=1, high=500, help="Leave empty to have them fitted to the joints"),
        Input("repeats", "Repeats", "count", optional=True, low=1, high=200, help="How many swags hang above them, such as 8", cake="repeats"),
        Input("kind", "Kind", "choice", default="shell", choices=NAMED, cake="row_kind"),
        *row_amounts.INPUTS_OF_PIECES,
    ),
    work_out,
)
