"""A leaf: a wide base drawn out to a point."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import SetApart
from calc.rows.kind import UP_45, Exercise, RowSpec, Way, register
from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"
LEAF_LENGTH = constant(2.6, "-", _PRACTICE, "length of a leaf over the opening", low=1.8, high=4.0)
LEAF_WIDTH = constant(1.4, "-", _PRACTICE, "width of a leaf at its base over the opening", low=1.1, high=1.8)
LEAF_FULLNESS = constant(0.70, "-", _PRACTICE, "a leaf over a strip as thick as its base: it tapers to a point", low=0.55, high=0.85)


@dataclass(frozen=True, kw_only=True)
class _Leaf(SetApart):
    def natural_pitch_mm(self, tip: Tip, size_mm: float | None = None) -> float:
        return LEAF_WIDTH * tip.opening_mm

    def across_mm(self, tip: Tip) -> float:
        return LEAF_LENGTH * tip.opening_mm

    def piece(self, spec: RowSpec, notes: list[str]) -> tuple[float, float, float, float, float]:
        tip = spec.tip
        long = spec.size_mm or self.across_mm(tip)
        return long, LEAF_FULLNESS * tip.laid_mm2 * long, long, max(tip.bead_height_mm, 0.5 * tip.opening_mm), LEAF_WIDTH * tip.opening_mm

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        long = spec.size_mm or self.across_mm(spec.tip)
        thick = 0.5 * spec.tip.opening_mm
        return (
            Way(((0.0, 0.0, 0.3 * thick), (0.0, 0.15 * long, thick)), (0.6, 1.0), 0.45, UP_45),
            Way(((0.0, 0.15 * long, thick), (0.0, 0.6 * long, 1.2 * thick)), (1.0, 0.3), 0.35, UP_45),
            Way(((0.0, 0.6 * long, 1.2 * thick), (0.0, long, 1.4 * thick)), (0.3, 0.0), 0.2, UP_45, False),
        )


KIND = _Leaf(
    name="leaf",
    listed=120,
    as_effect=150,
    plural="leaves",
    page="leaves",
    page_title="Leaves",
    also=("leaf", "foliage", "ruffled leaf"),
    families=("leaf", "petal"),
    begins_with=("leaf", 6.0),
    place="joints",
    angle="45° to the surface, one point of the V towards it and one away",
    hand="Squeeze to let the base fan out, then ease off and draw away to a point.",
    steps=("squeeze a wide base", "ease off", "draw to a point"),
    start_s=4.0,
    joint_phase="leaves over the joints",
    swells=True,
    tucked=True,
    colour="bay",
    exercise=Exercise("leaves", "Leaves", (), "leaf", Tip("leaf", 6), 13, pieces=16, aim="press, ease off, draw to a point", rank=50, usual=50),
)
register(KIND)
