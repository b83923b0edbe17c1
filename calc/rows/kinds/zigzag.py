"""A zigzag: even strokes up and down that lie side by side."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import Straight
from calc.rows.kind import Exercise, register
from calc.sources import constant
from calc.tips import Tip, stroke_mm

_PRACTICE = "common-practice"
ZIGZAG_MOVEMENT = constant(1.5, "-", _PRACTICE, "to-and-fro of a zigzag over the width of the line", low=1.0, high=2.5)
ZIGZAG_ADVANCE = constant(
    2.0, "-", _PRACTICE, "advance for one to-and-fro of a zigzag over the width of the line: strokes lie side by side", low=1.7, high=2.6
)


@dataclass(frozen=True, kw_only=True)
class _Zigzag(Straight):
    def rocking_mm(self, tip: Tip) -> tuple[float, float] | None:
        return ZIGZAG_MOVEMENT * tip.bead_width_mm, ZIGZAG_ADVANCE * stroke_mm(tip)


KIND = _Zigzag(
    name="zigzag",
    listed=90,
    as_effect=70,
    plural="zigzags",
    page="zigzag",
    page_title="Zigzag",
    families=("open star", "closed star", "round", "basket", "petal"),
    begins_with=("open star", 5.0),
    place="side",
    angle="45° to the surface, just touching it",
    hand="Squeeze evenly and move up and down in even strokes that lie side by side.",
    steps=("squeeze", "even strokes", "stop on a stroke"),
    speed_mm_per_s=25.0,
    lies_flat=True,
    led=True,
    exercise=Exercise(
        "zigzags",
        "Zigzags",
        ("zig zag", "padding", "base zigzag", "to and fro"),
        "zigzag",
        Tip("open star", 5),
        14,
        aim="strokes side by side",
        rank=35,
        usual=90,
    ),
)
register(KIND)
