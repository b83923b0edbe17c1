"""A line: laid along a mark, or on the line below it."""

from __future__ import annotations

from calc.rows.forms import Straight
from calc.rows.kind import Exercise, register
from calc.tips import Tip

KIND = Straight(
    name="line",
    listed=150,
    as_effect=20,
    plural="lines",
    also=("overline",),
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
    exercise=Exercise("lines", "Lines", ("line",), "line", Tip("round", 3), 17, aim="even pressure, even speed, a clean stop", rank=10, usual=60),
)
register(KIND)
