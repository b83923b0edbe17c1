"""`division`: equal repeats round a side, and what to set the dividers to, on any outline."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import groupby

from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.calculators.tin_measures import FULLNESS, heart_or_other
from calc.division import chords_mm, closing_error_mm, dividers_mm, pitch_mm, repeats_near, stepped_mm
from calc.drawing.figures import division_scene, outline_division_scene
from calc.drawing.svg import svg
from calc.shapes import TWO_SIZES, Outline, outline_choices
from calc.sources import constant
from calc.units import Formatter, Problem, a_or_an, read_quantity

ALIKE_MM = constant(0.5, "mm", "common-practice", "settings of the dividers closer than this count as one, because the points sink in by as much")

SIDE = Input(
    "side",
    "Round the side",
    "length",
    optional=True,
    low=50,
    high=6000,
    help="What the tape says round the finished side, such as 66 cm",
    usual=(300, 2200),
    cake="side",
)
WIDTH = Input(
    "width",
    "Width across, finished",
    "length",
    optional=True,
    low=20,
    high=1900,
    help="Only when there is no tape: the coated cake across its middle",
    usual=(80, 660),
    cake="finished_width",
)


def side_of(asked: Asked) -> float:
    """The measured side if there is one, otherwise the one that follows from the finished width."""
    if asked["side"] is not None:
        return float(asked["side"])
    if asked["width"] is not None:
        return math.pi * float(asked["width"])
    raise Problem(asked.named("side"), "Round the side is empty. Write what the tape says, like 66 cm, or give the width across")


SHAPE = Input("shape", "Shape", "choice", "round", choices=outline_choices, cake="shape")
LENGTH = Input(
    "length",
    "Length, front to back",
    "length",
    optional=True,
    low=20,
    high=1900,
    help="Of the finished rectangle or oval, beside its width across",
    only_with=("shape", tuple(sorted(TWO_SIZES))),
    usual=(80, 800),
    cake="finished_length",
)


def outline_of(asked: Asked) -> Outline:
    """The finished tier of any shape but a round: of the measured side where there is one, else of the width."""
    shape, side, width, length = asked["shape"], asked["side"], asked["width"], asked["length"]
    if shape in TWO_SIZES:
        for name, value, words in (("width", width, "Width across, finished"), ("length", length, "Length, front to back")):
            if value is None:
                raise asked.problem(name, f"{words} is empty, and {a_or_an(shape)} has both. Write it like {Formatter(asked.units).length(200)}")
        if shape == "oval" and max(width, length) > 10 * min(width, length):
            raise asked.problem("length", "An oval is at most ten times as long as it is wide. Make the length shorter, or choose a rectangle")
        top = heart_or_other(asked, shape, width, length)
    elif side is None and width is None:
        raise Problem(asked.named("side"), "Round the side is empty. Write what the tape says, like 66 cm, or give the width across")
    else:
        top = heart_or_other(asked, shape, width or 100.0)
    return top if side is None else top.scaled(side / top.perimeter_mm)


def is_one_setting(chords: Sequence[float]) -> bool:
    """Whether dividers of one setting step from joint to joint all the way round."""
    return max(chords) - min(chords) <= ALIKE_MM


def setting_mm(chord_mm: float, say: Formatter) -> float:
    """What a reader sets the dividers to [mm]: the whole millimetre, or the fraction of an inch that the answer tells.

    >>> setting_mm(80.9, Formatter()), setting_mm(80.9, Formatter("us")), Formatter("us").length(80.9)
    (81.0, 80.9625, '3 3/16 in')
    """
    told = round(chord_mm) if say.units == "metric" else read_quantity(say.length(chord_mm), "length", "dividers", "Dividers")
    return max(1.0, float(told))


@lru_cache(maxsize=16)
def _stepped_mm(top: Outline, start_mm: float, settings_mm: tuple[float, ...]) -> float:
    """`stepped_mm`, cached: an order of seven tiers stepped round each of them with every edit, a tenth of its time."""
    return stepped_mm(top, start_mm, settings_mm)


def closing_error_on(top: Outline, chords: Sequence[float], start_mm: float, say: Formatter) -> float | None:
    """Where the last step lands with dividers set as they are told [mm].

    None round notches, where dividers may step across, and where they are as wide as the tier, so that half a millimetre decides.
    """
    if not top.convex:
        return None
    repeats, side = len(chords), top.perimeter_mm
    if top.kind == "round":
        return closing_error_mm(side, repeats, min(setting_mm(chords[0], say), side / math.pi))
    try:
        return _stepped_mm(top, start_mm, tuple(setting_mm(chord, say) for chord in chords)) - side
    except ValueError:
        return None


def settings_by_step(chords: Sequence[float], say: Formatter) -> list[tuple[str, str]]:
    """Which steps share a setting of the dividers, and that setting: ("1 and 2", "7.5 cm")."""
    found, first = [], 1
    for words, steps in groupby(say.length(chord) for chord in chords):
        last = first + len(list(steps)) - 1
        found.append((str(first) if last == first else f"{first}{' and ' if last == first + 1 else ' to '}{last}", words))
        first = last + 1
    return found


def dividers_words(chords: Sequence[float], say: Formatter) -> str:
    """The setting of the dividers, or those of the steps one after another."""
    if is_one_setting(chords):
        return say.length(chords[0])
    return ", ".join(f"{steps}: {words}" for steps, words in settings_by_step(chords, say))


def _work_out_outline(asked: Asked, answer: Answer) -> None:
    """Divide a tier that is not round: the straight line from joint to joint may differ in length from step to step."""
    say, top = answer.say, outline_of(asked)
    repeats = _repeats(asked, top.perimeter_mm)
    joints = top.division(repeats)
    chords = chords_mm(top, joints.s_mm)
    answer.count("repeats", "Repeats", repeats)
    answer.length("pitch", "Pitch, along the surface", top.perimeter_mm / repeats)
    start = "in the middle of the back"
    if joints.s_mm[0] > ALIKE_MM:
        start = f"{say.length(joints.s_mm[0])} to the left of the middle of the back, seen from above with the front towards you"
    if is_one_setting(chords):
        answer.length("dividers", "Set the dividers to", chords[0])
        error = closing_error_on(top, chords, joints.s_mm[0], say)
        if error is not None:
            _add_closing_error(answer, error, chords[0])
        answer.note(f"The first joint is {start}.")
    else:
        heads = ("Steps", "Set the dividers to")
        rows = [list(row) for row in settings_by_step(chords, say)]
        answer.table("dividers", "From joint to joint, straight across", heads, rows, (1,))
        answer.note(
            f"The straight distance differs from step to step on {a_or_an(top.kind)}, so one setting of the dividers does not close. Lay a paper "
            "strip or "
            f"the tape round the edge instead and prick every {say.length(top.perimeter_mm / repeats)}; with dividers, set them afresh for each step "
            f"of the table. The first joint is {start}, and the steps go to the left from there."
        )
    if joints.note:
        answer.note(f"{joints.note}.")
    if asked["side"] is None:
        answer.note("The side is worked out from the width. Measure it with a tape before you mark, and go by the tape.")
    answer.drawing(
        "dividers",
        "From above",
        f"{a_or_an(top.kind).capitalize()} tier with {repeats} joints and straight lines between them.",
        svg(outline_division_scene(top, joints.s_mm, answer.units)),
    )


def _repeats(asked: Asked, side_mm: float) -> int:
    if asked["repeats"] is None and asked["target"] is None:
        raise Problem("repeats", "Repeats is empty. Write how many equal parts, like 8, or a wanted pitch")
    return int(asked["repeats"] or max(2, repeats_near(side_mm, asked["target"])))


def closing_words(error_mm: float, say: Formatter) -> str:
    """Where the last step lands, in words; an error smaller than the point of the dividers counts as none.

    >>> closing_words(-3.4, Formatter()), closing_words(0.1, Formatter("us"))
    ('3.4 mm short', 'none')
    """
    if abs(error_mm) < ALIKE_MM / 2:
        return "none"
    return f"{say.length(abs(error_mm))} {'over' if error_mm > 0 else 'short'}"


def fineness_words(say: Formatter) -> str:
    """How finely dividers are set: "the millimetre"."""
    return "the millimetre" if say.units == "metric" else "the fraction of an inch shown"


def _add_closing_error(answer: Answer, error: float, chord_mm: float) -> None:
    say = answer.say
    answer.figure("closing_error", f"Closing error, set to {fineness_words(say)}", error, "mm", closing_words(error, say))
    if abs(error) > 2:
        answer.note(
            f"Dividers set to {'a whole millimetre' if say.units == 'metric' else say.length(chord_mm)} end {say.length(abs(error))} "
            f"{'past' if error > 0 else 'before'} the start. Share that out over the last few steps at the back."
        )


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `division`."""
    if asked["shape"] != "round":
        _work_out_outline(asked, answer)
        return
    side = side_of(asked)
    repeats = _repeats(asked, side)
    pitch = pitch_mm(side, repeats)
    setting = dividers_mm(side, repeats)
    answer.count("repeats", "Repeats", repeats)
    answer.length("pitch", "Pitch, along the surface", pitch)
    answer.length("dividers", "Set the dividers to", setting)
    error = closing_error_mm(side, repeats, min(setting_mm(setting, answer.say), side / math.pi))
    _add_closing_error(answer, error, setting)
    if repeats > 3:  # a third of the way round is wider than the tier
        wrong = closing_error_mm(side, repeats, pitch)
        answer.note(
            f"Do not set the dividers to the pitch: their points go straight through the cake while the tape goes round it, "
            f"and the last step would land {answer.say.length(wrong)} past the start."
        )
    if asked["side"] is None:
        answer.note("The side is worked out from the width. Measure it with a tape before you mark, and go by the tape.")
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
        SHAPE,
        SIDE,
        WIDTH,
        LENGTH,
        FULLNESS,
        Input("repeats", "Repeats", "count", optional=True, low=2, high=200, help="How many equal parts, such as 8", cake="repeats"),
        Input(
            "target", "Or the pitch you want", "length", optional=True, low=5, high=2000, help="About how wide each part should be", usual=(10, 300)
        ),
    ),
    work_out,
)
