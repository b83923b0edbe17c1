"""`tint`: a batch tinted like a small test."""

from __future__ import annotations

import math

from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.colours import CAUTIONS, DEEPENING, DEPTHS, tint
from calc.sources import constant
from calc.units import Problem

FEW = constant(3.0, "-", "common-practice", "drops under which one too many shows", low=2.0, high=5.0)


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `tint`."""
    say, depth = answer.say, asked["depth"]
    found = tint(asked["test_mass"], asked["test_drops"], asked["mass"], depth, asked["test_stood"], asked["will_stand"])
    if found.drops > 20_000:
        raise Problem("mass", f"Batch would take {found.drops:.0f} drops, more than anyone counts. Weigh the colouring, or tint a smaller batch")
    answer.figure("drops", "Drops", found.drops, "", say.number(found.drops, 1))
    answer.figure("parts", "Test portions in the batch", found.parts, "", say.number(found.parts, 2))
    answer.count("whole_drops", "Count out", found.whole_drops)
    answer.percent("off", "Whole drops are out by", found.off_percent)
    answer.mass("per_drop", "One drop tints", found.g_per_drop)
    answer.percent("deepens", "Deeper at the table than the test was", found.deepens_percent)
    is_out = abs(found.off_percent) > 5
    if is_out and found.drops < FEW:
        count = math.ceil(found.drops)
        answer.note(
            f"{say.number(found.drops, 1)} drops cannot be counted out. Put {count} whole drop{'' if count == 1 else 's'} into "
            f"{say.mass(count * found.g_per_drop)} and use {say.mass(asked['mass'])} of it."
        )
    elif is_out:
        answer.note(say.words("The whole drops are more than a twentieth out. Add the last one from the tip of a cocktail stick, a touch at a time."))
    if asked["test_stood"] is None and asked["will_stand"] is None:
        d = DEEPENING[depth]
        answer.note(
            f"Standing deepens a {depth} tint as if it had {say.percent(100 * d)} more drops ({say.percent(100 * d.low)} to "
            f"{say.percent(100 * d.high)}, common practice). Judge the test after it has stood as long as the batch will, "
            f"or give both times."
        )
    answer.note("Add nine tenths, mix, look in daylight, and add the rest only if it is wanted.")
    for words, _ in CAUTIONS:
        answer.caution(words)


CALCULATOR = Calculator(
    "tint",
    "Tint a batch",
    "The drops a batch takes to come out like a small test.",
    (
        Input(
            "test_mass", "Test portion", "mass", default="50 g", low=1, high=5000, help="What the small test weighed", usual=(5, 1000), by_volume=True
        ),
        Input("test_drops", "Drops it took", "number", default="3", low=0.1, high=500, help="Counted drops, or half drops as 0.5"),
        Input("mass", "Batch", "mass", default="400 g", low=1, high=100_000, help="How much is to be tinted", usual=(20, 20_000), by_volume=True),
        Input(
            "depth",
            "Depth",
            "choice",
            default="middling",
            choices=tuple((d, d.capitalize()) for d in DEPTHS),
            advanced=True,
            help="Deep tints deepen most on standing",
        ),
        Input("test_stood", "The test stood for", "duration", optional=True, advanced=True, low=0, high=10_080, help="When you judged it"),
        Input(
            "will_stand",
            "The batch will stand for",
            "duration",
            optional=True,
            advanced=True,
            low=0,
            high=10_080,
            help="Until it is looked at, such as 12 h",
        ),
    ),
    work_out,
)
