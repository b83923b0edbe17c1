"""A ruched border: the tip is rocked to and fro across an edge while the turntable moves."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import Straight
from calc.rows.kind import Exercise, register
from calc.tips import Tip, ruche_mm


@dataclass(frozen=True, kw_only=True)
class _RuchedBorder(Straight):
    def rocking_mm(self, tip: Tip) -> tuple[float, float] | None:
        return ruche_mm(tip)


KIND = _RuchedBorder(
    name="ruched border",
    listed=30,
    as_effect=120,
    plural="ruched borders",
    page="ruched-border",
    page_title="Ruched border",
    also=("ruffle border", "ruffled edge", "frill", "gathered border", "shirred border"),
    families=("petal", "ruffle", "open star", "closed star", "leaf", "basket"),
    begins_with=("petal", 9.0),
    place="top edge",
    angle="45° to the edge, the thick end of a petal tip on the cake",
    hand="Rock the tip to and fro across the edge while the turntable moves, so that each fold leans on the last.",
    steps=("squeeze", "even strokes across the edge", "lean each fold on the last"),
    speed_mm_per_s=20.0,
    led=True,
    exercise=Exercise(
        "ruched_borders",
        "Ruched border",
        ("ruched edge",),
        "ruched border",
        Tip("petal", 9),
        11,
        aim="even strokes, and the table turns at one speed",
        rank=60,
        usual=65,
    ),
)
register(KIND)
