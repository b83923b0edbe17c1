"""`swags`: swags that close round the measured side, marked with a round cutter or from a drop."""

from __future__ import annotations

from calc.calculators import row_amounts
from calc.calculators.declare import Answer, Asked, Calculator, Input, Press, sheet_answer
from calc.calculators.division_form import LENGTH, SHAPE, SIDE, WIDTH, dividers_words, is_one_setting, outline_of, side_of
from calc.calculators.division_words import shown_choices, take, why
from calc.calculators.tin_measures import FULLNESS
from calc.division import DROP_SHARE, GAP_COVERED_MM, Division, chords_mm, dividers_mm, division_choices, radius_of, repeats_that_close
from calc.drawing.figures import swag_scene
from calc.drawing.paper import CutterCircle, cutter_circles
from calc.drawing.svg import svg
from calc.rows import RowSpec, piped
from calc.rows.placement import guide_tape
from calc.shapes import Outline
from calc.sources import constant
from calc.tips import Tip
from calc.units import Formatter, Problem

NARROWEST_MM = constant(10.0, "mm", "common-practice", "anything narrower does not look like a swag")
SHALLOWEST_MM = constant(1.0, "mm", "common-practice", "anything flatter looks like a line")


def check_sizes(side_mm: float, asked: Asked, chosen: Division, say: Formatter) -> None:
    """Raise a `Problem` where a swag would be too narrow or too flat to be one."""
    if chosen.width_mm < NARROWEST_MM:
        raise Problem(
            "repeats",
            f"Repeats: {chosen.repeats} would be swags {say.length(chosen.width_mm)} wide, and {say.length(NARROWEST_MM)} is the least. "
            f"Use {int(side_mm / NARROWEST_MM)} or fewer",
        )
    if chosen.cutter_mm is not None and chosen.drop_mm < SHALLOWEST_MM:
        raise Problem(
            "repeats" if asked["repeats"] else "cutter",
            f"{'Repeats' if asked['repeats'] else 'Round cutter'}: a cutter of {say.length(chosen.cutter_mm)} on swags "
            f"{say.length(chosen.width_mm)} wide leaves a drop of {say.length(chosen.drop_mm)}, and {say.length(SHALLOWEST_MM)} is the least. "
            "Use fewer repeats, or a smaller cutter",
        )


def choices_for(side_mm: float, cutters: tuple[float, ...], drop_mm: float | None, repeats: int | None) -> tuple[Division, ...]:
    """The divisions to choose from for what was asked, best first; the repeats asked for are among them."""
    wanted = drop_mm / DROP_SHARE if drop_mm and not cutters else None
    found = division_choices(side_mm, cutters, wanted_width_mm=wanted, wanted_drop_mm=drop_mm, most=min(60, max(4, int(side_mm / 15))))
    if repeats and not any(d.repeats == repeats for d in found):
        found += division_choices(side_mm, cutters, wanted_width_mm=wanted, wanted_drop_mm=drop_mm, fewest=repeats, most=repeats)
        found = tuple(sorted(found, key=lambda d: d.penalty))
    return found


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `swags`."""
    top = None if asked["shape"] == "round" else outline_of(asked)
    side, drop, say = top.perimeter_mm if top else side_of(asked), asked["drop"], answer.say
    cutters: tuple[float, ...] = tuple(dict.fromkeys(asked["cutter"] or ()))
    if not cutters and drop is None:
        raise Problem("cutter", "Round cutter is empty. Write its diameter, like 9 cm, or give the drop you want")
    choices = choices_for(side, cutters, drop, asked["repeats"])
    chosen = next((d for d in choices if d.repeats == asked["repeats"]), choices[0])
    cutter = chosen.cutter_mm
    if cutter is None and drop is not None and drop > 2 * chosen.width_mm:
        raise Problem(
            "drop",
            f"Drop must be at most twice the swag's width, {say.most('length', 2 * chosen.width_mm)} for {chosen.repeats} "
            f"repeats. Make it shallower, or use fewer repeats",
        )
    check_sizes(side, asked, chosen, say)
    rows = asked["rows"]
    piping = piped(
        RowSpec(
            "swag",
            asked["tip"],
            run_mm=side,
            repeats=chosen.repeats,
            width_mm=chosen.width_mm - chosen.gap_mm,
            drop_mm=chosen.drop_mm,
            **row_amounts.measured(asked),
        ),
        "tip",
        "Tip",
    )
    answer.count("repeats", "Repeats", chosen.repeats)
    if len(cutters) > 1 and cutter is not None:
        answer.length("cutter", "With the cutter", cutter)
    answer.length("width", "Swag width, along the side", chosen.width_mm)
    answer.length("drop", "Drop", chosen.drop_mm)
    answer.length("arc_radius", "Radius of the arc", radius_of(chosen))
    answer.length("length_each", "Length of one swag", chosen.length_each_mm)
    answer.length("length_total", "Length to pipe in all", chosen.length_each_mm * chosen.repeats * rows)
    row_amounts.mass(answer, asked, piping, rows)
    with answer.quietly():
        answer.length("ribbon", "Width of the ribbon", piping.above_mm + piping.below_mm)
        answer.length("above_mark", "Ribbon above the mark", piping.above_mm)
    _add_dividers(answer, top, side, chosen.repeats)
    _add_tape(answer, chosen, asked["joints"])
    if len(cutters) > 1:
        _compare_cutters(answer, choices, cutters, asked["repeats"])
    if cutter is not None and chosen.gap_mm > 0:
        answer.length("gap", "Gap at every joint", chosen.gap_mm)
        closes = repeats_that_close(side, cutter)
        gap = say.length(chosen.gap_mm) if chosen.gap_mm >= 0.1 else "a hair"
        covered = " The piping covers that." if chosen.gap_mm <= GAP_COVERED_MM else ""
        answer.note(
            f"The cutter is narrower than the swag and leaves a gap of {gap} at every joint.{covered} "
            f"{closes} repeats close it: each is then {say.length(side / closes)} wide."
        )
    if chosen.drop_mm > 0.5 * chosen.width_mm * (1 + 1e-9):
        answer.note("The drop is more than half the width: the swags hang past a semicircle and turn in again at the joints.")
    if cutter is not None:
        answer.note("Roll the cutter round the side so that its rim touches all along; held flat it touches only at the middle.")
    _others(answer, choices, chosen, top, side, bool(asked["repeats"]))
    if asked["side"] is None:
        answer.note("The side is worked out from the width. Measure it with a tape before you mark, and go by the tape.")
    _draw(answer, chosen, asked["tip"], asked["joints"])
    answer.sheet("cutter-circles", "Circles to cut out, true to size")


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw the circle on which the swags lie, and the usual sizes of cutters, to cut out of card."""
    if name != "cutter-circles":
        raise KeyError(f"there is no sheet called {name}")
    figures = sheet_answer("swags", asked, work_out).figures
    width, radius = figures["width"]["value"], figures["arc_radius"]["value"]
    first = CutterCircle(2 * radius, f"{figures['repeats']['text']} swags {figures['width']['text']} wide", min(width, 2 * radius))
    usual = [25.4 * half / 2 for half in range(4, 10)] if asked.units == "us" else [10.0 * cm for cm in range(5, 13)]
    others = [CutterCircle(size) for size in usual if abs(size - 2 * radius) > 0.5]
    return cutter_circles([first, *others], paper=paper, units=asked.units).pdf(units=asked.units)


def _chords(top: Outline | None, side_mm: float, repeats: int) -> tuple[float, ...]:
    """The setting of the dividers for each step; the same all round on a round tier."""
    return chords_mm(top, top.joints(repeats)) if top else (dividers_mm(side_mm, repeats),) * repeats


def _add_dividers(answer: Answer, top: Outline | None, side_mm: float, repeats: int) -> None:
    """What the dividers are set to, or that no one setting closes round this outline."""
    chords = _chords(top, side_mm, repeats)
    if is_one_setting(chords):
        answer.length("dividers", "Set the dividers to", chords[0])
        return
    answer.note(
        f"The straight distance from joint to joint differs; dividers, step by step, {dividers_words(chords, answer.say)}. "
        "A paper strip or the tape round the edge marks the joints without them."
    )


def _add_tape(answer: Answer, chosen: Division, joints_mm: float) -> None:
    """Where the guide tape goes: over the cutter, or under it where the cutter reaches above the cake's edge."""
    tape, say = guide_tape(joints_mm, chosen.cutter_mm, chosen.width_mm), answer.say
    if tape is None or chosen.guide_mm is None:
        return
    edge, below_mm = tape
    if edge == "lower edge":
        answer.length("guide_tape", "Lower edge of the guide tape, above the joints", chosen.guide_mm)
        answer.length("guide_below_top", "That is, below the top edge", below_mm)
        return
    with answer.quietly():
        answer.length("guide_tape", "Top of the cutter, above the joints", chosen.guide_mm)
    answer.length("guide_tape_under", "Upper edge of the guide tape, below the joints", chosen.drop_mm)
    answer.length("guide_below_top", "That is, below the top edge", below_mm)
    answer.note(
        f"The cutter's top would stand {say.length(chosen.guide_mm - joints_mm)} above the cake, so the guide tape goes under the cutter: "
        f"rest the rim on the tape's upper edge."
    )


def _others(answer: Answer, choices: tuple[Division, ...], chosen: Division, top: Outline | None, side_mm: float, is_pinned: bool) -> None:
    """The ways to divide it as they are ranked, each with why it stands there and a press that takes it."""
    say, rows = answer.say, []
    for rank, choice in shown_choices(choices, chosen, different=True):
        rows.append(
            [
                str(choice.repeats),
                say.length(choice.width_mm),
                say.length(choice.drop_mm),
                dividers_words(_chords(top, side_mm, choice.repeats), say),
                why(choice, say, is_first=rank == 0),
                ("Your choice" if is_pinned else "In use") if choice == chosen else take(choice, say, {"repeats": str(choice.repeats)}),
            ]
        )
    if is_pinned:
        undo = Press("Choose for me again", {"repeats": ""}, done="Repeats are chosen for you again.")
        instead = "that is what would be chosen for you too." if choices[0] == chosen else f"chosen for you, it would be {choices[0].repeats}."
        answer.note(f"You chose {chosen.repeats} repeats; {instead}", undo)
    heads = ("Repeats", "Width", "Drop", "Dividers", "For and against", "Use it")
    answer.table("others", "Ways to divide it, the best first", heads, rows, (0, 1, 2, 3))


def _compare_cutters(answer: Answer, choices: tuple[Division, ...], cutters: tuple[float, ...], repeats: int | None) -> None:
    """What each of several cutters gives at its best, the best of them first."""
    say = answer.say
    fits = [choice for choice in choices if repeats in (None, choice.repeats)]
    best = {one: next(choice for choice in fits if choice.cutter_mm == one) for one in cutters}
    ranked = sorted(best.items(), key=lambda each: fits.index(each[1]))
    rows = [
        [say.length(cutter), str(one.repeats), say.length(one.width_mm), say.length(one.drop_mm), why(one, say, is_first=rank == 0)]
        for rank, (cutter, one) in enumerate(ranked)
    ]
    answer.table("cutters", "Your cutters, the best first", ("Cutter", "Repeats", "Width", "Drop", "Why it stands here"), rows, (0, 1, 2, 3))


def _draw(answer: Answer, chosen: Division, tip: Tip, joints_mm: float) -> None:
    """Draw the marked-out swags."""
    scene = swag_scene(chosen.width_mm, chosen.drop_mm, joints_mm, chosen.cutter_mm, tip, units=answer.units)
    answer.drawing(
        "marked",
        "Marked out, as on the unrolled side",
        f"Swags {answer.say.length(chosen.width_mm)} wide that drop {answer.say.length(chosen.drop_mm)}, with the cutter against the guide tape.",
        svg(scene),
    )


CALCULATOR = Calculator(
    "swags",
    "Swags",
    "Swags that meet, marked with the cutter you own.",
    (
        SHAPE,
        SIDE,
        WIDTH,
        LENGTH,
        FULLNESS,
        Input(
            "cutter",
            "Round cutter",
            "lengths",
            optional=True,
            low=10,
            high=400,
            help="Its diameter, measured across the rim, such as 9 cm. If you own several, type all of them: 7.5 cm, 9 cm",
            usual=(25, 200),
            kitchen="cutters",
            cake="cutter",
        ),
        Input(
            "drop",
            "Or the drop you want",
            "length",
            optional=True,
            low=2,
            high=400,
            help="How far its middle hangs below the joints",
            usual=(8, 160),
            cake="drop",
        ),
        Input("repeats", "Repeats", "count", optional=True, low=2, high=200, help="Leave empty to have them chosen", cake="repeats"),
        Input(
            "joints",
            "Joints, below the top edge",
            "length",
            default="1.2 cm",
            low=0,
            high=400,
            help="How far down the side the joints are marked; it decides on which side of the cutter the guide tape goes",
            usual=(3, 300),
            cake="joints",
        ),
        Input("rows", "Rows of swags", "count", default="1", low=1, high=6, help="How many times the same line is piped", cake="row_layers"),
        Input("tip", "Tip", "tip", default="petal 11 mm", help="Family and measured opening, such as petal 11 mm", kitchen="tips", cake="row_tip"),
        *row_amounts.INPUTS,
    ),
    work_out,
    pipes="swag",
    draw_sheet=draw_sheet,
)
