"""A line: laid along a mark, or on the line below it."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import Straight
from calc.rows.kind import Exercise, RowSpec, Way, register
from calc.sources import constant
from calc.tips import Tip

LIFT_MM = constant(12.0, "mm", "common-practice", "how far the hand goes above the surface; the line falls behind it", low=8.0, high=20.0)


@dataclass(frozen=True, kw_only=True)
class _Line(Straight):
    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        width = spec.repeat_mm
        up = min(LIFT_MM, 0.08 * width)
        return (
            Way(((0.0, 0.0, 0.0),), (0.5, 1.0), 0.5),
            Way(((0.0, 0.0, 0.0), (0.15 * width, 0.0, up), (0.85 * width, 0.0, up), (width, 0.0, 0.0)), touches=False),
            Way(((width, 0.0, 0.0),), (0.3, 0.0), 0.5),
        )


KIND = _Line(
    name="line",
    listed=150,
    as_effect=20,
    plural="lines",
    also=("overline", "straight line"),
    families=("round", "open star", "closed star", "petal", "leaf", "ruffle", "basket"),
    begins_with=("round", 3.0),
    place="over",
    angle="45° to the surface, the tip just above it",
    hand="Touch, squeeze, lift, and let the line fall onto the mark or onto the line below it.",
    steps=("touch and squeeze", "lift and let it fall", "touch and stop"),
    speed_mm_per_s=18.0,
    start_s=4.0,
    by_joints=True,
    plain_line=True,
    follows=True,
    exercise=Exercise(
        "lines",
        "Lines",
        (),
        "line",
        Tip("round", 3),
        17,
        aim="even pressure, even speed, a clean stop",
        rank=10,
        usual=60,
        page="../learn/holding-a-bag",
    ),
    variants=(
        Exercise(
            "over_piping",
            "Over-piping",
            (
                "overpiping",
                "overpiped",
                "over piping",
                "built-up work",
                "raised piping",
                "line on line",
                "relief",
                "vintage piping",
                "heart cake piping",
            ),
            "line",
            Tip("round", 3),
            17,
            aim="the second line stands on the middle of the first",
            rank=100,
            usual=165,
            layers=2,
            page="over-piping",
        ),
        Exercise(
            "vermicelli",
            "Vermicelli",
            ("cornelli", "cornelli work", "cornelli lace", "squiggle", "scribble", "wandering line", "lace piping", "filigree", "infill", "fill-in"),
            "line",
            Tip("round", 1.8),
            3,
            aim="short curls close beside each other that never cross",
            rank=75,
            usual=170,
            gap_mm=3,
            high_mm=60,
            page="vermicelli",
        ),
    ),
)
register(KIND)
