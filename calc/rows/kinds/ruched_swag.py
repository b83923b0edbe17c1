"""A ruched swag: the tip is rocked to and fro along the arc, so that folds stack and stand out from the side."""

from __future__ import annotations

from dataclasses import dataclass, replace

from calc.rows.forms import Arc
from calc.rows.kind import INTO, Exercise, RowSpec, Way, register
from calc.tips import Tip, ruche_mm


@dataclass(frozen=True, kw_only=True)
class _RuchedSwag(Arc):
    def rocking_mm(self, tip: Tip) -> tuple[float, float] | None:
        return ruche_mm(tip)

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        return tuple(replace(way, faces=INTO) for way in super().ways(spec))


KIND = _RuchedSwag(
    name="ruched swag",
    listed=20,
    as_effect=110,
    plural="ruched swags",
    page="ruched-swag",
    page_title="Ruched swags",
    also=("ruche", "ruching", "ruched drape", "gathered drape", "pleated swag", "shirred", "shirring", "gathers"),
    families=("petal", "ruffle", "open star", "closed star", "leaf"),
    begins_with=("petal", 11.0),
    place="side",
    angle="90° to the side, the thick end of a petal tip against the cake",
    hand="Hold the tip square to the side. Lock the wrist, and move it up and down by the same few millimetres all along the mark, "
    "squeezing steadily, so that each fold stacks on the last and stands out; small and quick at the joints, fuller in the middle.",
    steps=("small strokes", "fuller in the middle", "small again"),
    speed_mm_per_s=20.0,
    start_s=6.0,
    led=True,
    exercise=Exercise(
        "ruched_swags",
        "Ruched swags",
        ("ruched",),
        "ruched swag",
        Tip("petal", 11),
        4,
        2,
        drop_mm=28,
        aim="rock by the same amount all along",
        rank=90,
        usual=80,
    ),
)
register(KIND)
