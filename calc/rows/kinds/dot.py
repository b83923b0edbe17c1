"""A dot: one ball by itself, that closes a gap or covers a join."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import SetApart
from calc.rows.kind import INTO, Exercise, RowSpec, Way, register
from calc.rows.kinds.bead import BEAD_FULLNESS
from calc.sources import constant
from calc.tips import Tip

DOT_WIDTH = constant(1.6, "-", "common-practice", "width of a dot over the opening, when it is let to swell", low=1.2, high=2.2)
DOT_HEIGHT = constant(0.8, "-", "common-practice", "height of a dot over its width", low=0.65, high=0.95)


@dataclass(frozen=True, kw_only=True)
class _Dot(SetApart):
    def across_mm(self, tip: Tip) -> float:
        return DOT_WIDTH * tip.opening_mm

    def piece(self, spec: RowSpec, notes: list[str]) -> tuple[float, float, float, float, float]:
        wide = spec.size_mm or self.across_mm(spec.tip)
        high = DOT_HEIGHT * wide
        return high, BEAD_FULLNESS * wide * wide * high, wide, high, wide

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        high = DOT_HEIGHT * (spec.size_mm or self.across_mm(spec.tip))
        turn = ((0.0, 0.0, 0.9), (0.3, 0.0, 0.97), (0.2, -0.25, 1.0), (-0.05, -0.2, 1.03), (0.0, 0.0, 1.05))
        away = 1.05 * high + 3 * spec.tip.opening_mm
        return (
            Way(((0.0, 0.0, 0.35 * high), (0.0, 0.0, 0.9 * high)), (0.5, 1.0), 0.6, INTO),
            Way(((0.0, 0.0, 0.9 * high),), (0.0, 0.0), 0.15, INTO),
            Way((*((u * high, v * high, w * high) for u, v, w in turn), (0.0, 0.0, away)), (0.0, 0.0), 0.25, INTO, False),
        )


KIND = _Dot(
    name="dot",
    listed=75,
    as_effect=35,
    plural="dots",
    also=("single dot", "ball", "pearl dot"),
    families=("round",),
    begins_with=("round", 4.0),
    openings=(("round", 1.8, 8.0),),
    place="joints",
    angle="90°, at right angles to the surface, just above it",
    hand="Hold still and squeeze until the ball is wide enough, stop, and turn the tip away in a small circle, so that no point stands up.",
    steps=("squeeze and hold still", "stop", "turn the tip away"),
    start_s=2.0,
    exercise=Exercise(
        "dots",
        "Dots",
        (),
        "dot",
        Tip("round", 4),
        14,
        pieces=21,
        aim="round balls of one size, without a point",
        rank=25,
        usual=150,
        page="closing-a-row",
    ),
)
register(KIND)
