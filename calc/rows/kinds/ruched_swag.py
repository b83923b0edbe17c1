"""A ruched swag: the tip is rocked to and fro along the arc, so that folds stack and stand out from the side."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import Arc
from calc.rows.kind import Exercise, register
from calc.tips import Tip, ruche_mm, stroke_mm


@dataclass(frozen=True, kw_only=True)
class _RuchedSwag(Arc):
    def rocking_mm(self, tip: Tip) -> tuple[float, float] | None:
        return ruche_mm(tip)

    def across_mm(self, tip: Tip) -> float:
        return ruche_mm(tip)[0] + stroke_mm(tip)


KIND = _RuchedSwag(
    name="ruched swag",
    listed=20,
    as_effect=110,
    plural="ruched swags",
    page="ruched-swag",
    page_title="Ruched swag",
    also=("ruche", "ruched drape"),
    families=("petal", "ruffle", "open star", "closed star", "leaf"),
    begins_with=("petal", 11.0),
    place="side",
    angle="45° to the side, the thick end of a petal tip against the cake",
    hand="Rock the tip up and down by the same amount all along the mark, pressing steadily so that the folds close up; small and quick at "
    "the joints, fuller in the middle.",
    steps=("small strokes", "fuller in the middle", "small again"),
    speed_mm_per_s=20.0,
    start_s=6.0,
    led=True,
    exercise=Exercise(
        "ruched_swags",
        "Ruched swags",
        ("ruched swag", "ruched"),
        "ruched swag",
        Tip("petal", 11),
        4,
        2,
        drop_mm=28,
        aim="rock by the same amount all along",
        rank=100,
        usual=80,
    ),
)
register(KIND)
