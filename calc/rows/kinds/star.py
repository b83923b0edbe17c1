"""A star: dropped straight onto the surface, and lifted straight off it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.rows.forms import SetApart
from calc.rows.kind import FLUTED, INTO, Exercise, RowSpec, Way, register
from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"
STAR_WIDTH = constant(1.5, "-", _PRACTICE, "width of a dropped star over the opening", low=1.2, high=1.9)
STAR_HEIGHT = constant(1.4, "-", _PRACTICE, "height of a dropped star over the opening", low=1.0, high=1.8)
STAR_FULLNESS = constant(0.55, "-", _PRACTICE, "a dropped star over the cylinder round it: broad at the foot, drawn to a point", low=0.45, high=0.65)


@dataclass(frozen=True, kw_only=True)
class _Star(SetApart):
    def across_mm(self, tip: Tip) -> float:
        return STAR_WIDTH * tip.opening_mm

    def piece(self, spec: RowSpec, notes: list[str]) -> tuple[float, float, float, float, float]:
        wide = spec.size_mm or self.across_mm(spec.tip)
        out = STAR_HEIGHT / STAR_WIDTH * wide
        return out, STAR_FULLNESS * FLUTED * math.pi / 4 * wide * wide * out, wide, out, wide

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        high = STAR_HEIGHT / STAR_WIDTH * (spec.size_mm or self.across_mm(spec.tip))
        return (
            Way(((0.0, 0.0, 0.3 * high), (0.0, 0.0, 0.8 * high)), (0.6, 1.0), 0.6, INTO),
            Way(((0.0, 0.0, 0.8 * high),), (0.0, 0.0), 0.2, INTO),
            Way(((0.0, 0.0, 0.8 * high), (0.0, 0.0, high + 20.0)), (0.0, 0.0), 0.2, INTO, False),
        )


KIND = _Star(
    name="star",
    listed=110,
    as_effect=80,
    plural="stars",
    page="stars",
    page_title="Stars",
    also=("drop star", "dropped star", "star fill", "kisses"),
    families=("open star", "closed star"),
    begins_with=("open star", 6.0),
    place="joints",
    angle="90°, at right angles to the surface, just above it",
    hand="Squeeze until the star is wide enough, stop squeezing, then lift the tip straight off.",
    steps=("squeeze close to the side", "stop squeezing", "lift straight off"),
    start_s=2.0,
    flower=True,
    exercise=Exercise("stars", "Stars", (), "star", Tip("open star", 7), 11, pieces=13, aim="straight down, stop, straight up", rank=20, usual=130),
    variants=(
        Exercise(
            "small_flowers",
            "Small flowers",
            (
                "small flower",
                "small flowers on the side",
                "drop flower",
                "dropped flower",
                "blossom",
                "buttercream flower",
                "piped flower",
                "swirl flower",
                "apple blossom",
                "flower",
            ),
            "star",
            Tip("closed star", 8),
            10,
            pieces=11,
            aim="turn the wrist while the flower forms",
            rank=45,
            usual=135,
            page="small-flowers",
        ),
    ),
)
register(KIND)
