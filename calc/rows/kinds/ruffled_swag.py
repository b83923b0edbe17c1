"""A ruffled swag: a petal tip at 45° in one slow sweep, its thin edge out, so that the edge ripples by itself.

It is not *ruched*: that tip is square on and goes to and fro, so that folds stack and stand out.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from calc.rows.forms import Arc
from calc.rows.kind import Exercise, Geometry, RowSpec, register
from calc.sources import constant
from calc.tips import Tip

RUFFLE_SURPLUS = constant(
    1.3,
    "-",
    "common-practice",
    "buttercream of a ruffled line over a plain one as long: what comes too fast ripples",
    low=1.15,
    high=1.6,
)
RUFFLE_WAVE = constant(0.6, "-", "common-practice", "from ripple to ripple over the slot, at a slow even sweep", low=0.4, high=0.9)


@dataclass(frozen=True, kw_only=True)
class _RuffledSwag(Arc):
    def band_mm(self, tip: Tip, movement_mm: float) -> tuple[float, float]:
        """The ribbon leans out at 45°: it reaches as far off the side as along it."""
        reach = tip.opening_mm * math.sin(math.pi / 4)
        return max(tip.bead_height_mm, reach), max(tip.bead_height_mm, reach)

    def across_mm(self, tip: Tip) -> float:
        return self.band_mm(tip, 0.0)[0]

    def geometry(self, spec: RowSpec, notes: list[str]) -> Geometry:
        return replace(super().geometry(spec, notes), surplus=float(RUFFLE_SURPLUS))


KIND = _RuffledSwag(
    name="ruffled swag",
    listed=15,
    as_effect=105,
    plural="ruffled swags",
    page="ruffled-swags",
    page_title="Ruffled swags",
    also=("ruffle", "ruffles", "ruffle swag", "frilled swag", "frilled garland", "frilly drape", "ruffle drape", "petal tip ruffle"),
    families=("petal", "ruffle"),
    begins_with=("petal", 11.0),
    openings=(("petal", 8.0, 20.0), ("ruffle", 10.0, 20.0)),
    place="side",
    angle="45° to the side, the thick end of a petal tip against the cake and its thin end out and down",
    hand="Touch the joint, squeeze firmly, and sweep once along the mark, more slowly than the buttercream comes out, so that the thin edge ripples "
    "by itself. Do not rock the tip.",
    steps=("squeeze until it ripples", "one slow sweep", "ease off and touch"),
    speed_mm_per_s=9.0,
    start_s=6.0,
    led=True,
    exercise=Exercise(
        "ruffled_swags",
        "Ruffled swags",
        ("ruffled",),
        "ruffled swag",
        Tip("petal", 11),
        4,
        2,
        drop_mm=26,
        aim="one slow sweep, the thin edge ripples by itself",
        rank=85,
        usual=85,
    ),
)
register(KIND)
