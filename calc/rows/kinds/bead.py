"""A bead: a ball with its point drawn off along the row, so that the next ball covers it."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import Meeting
from calc.rows.kind import Exercise, RowSpec, Way, register
from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"
BEAD_WIDTH = constant(1.6, "-", _PRACTICE, "width of a bead over the opening", low=1.3, high=2.2)
BEAD_HEIGHT = constant(1.2, "-", _PRACTICE, "height of a bead over the opening", low=0.9, high=1.5)
BEAD_PITCH = constant(1.4, "-", _PRACTICE, "from bead to bead over the opening: neighbours just touch and squeeze flat", low=1.2, high=1.7)
BEAD_FULLNESS = constant(0.62, "-", _PRACTICE, "a bead over the box round it: a sphere fills 0.52, flattened where it sits", low=0.52, high=0.7)


@dataclass(frozen=True, kw_only=True)
class _Bead(Meeting):
    def natural_pitch_mm(self, tip: Tip, size_mm: float | None = None) -> float:
        return size_mm * BEAD_PITCH / BEAD_WIDTH if size_mm else BEAD_PITCH * tip.opening_mm

    def across_mm(self, tip: Tip) -> float:
        return BEAD_WIDTH * tip.opening_mm

    def piece(self, spec: RowSpec) -> tuple[float, float, float]:
        wide = spec.size_mm or BEAD_WIDTH * spec.tip.opening_mm
        high = BEAD_HEIGHT / BEAD_WIDTH * wide
        return BEAD_FULLNESS * wide * wide * high, wide, high

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        wide = spec.size_mm or BEAD_WIDTH * spec.tip.opening_mm
        high, pitch = BEAD_HEIGHT / BEAD_WIDTH * wide, BEAD_PITCH / BEAD_WIDTH * wide
        return (
            Way(((0.0, 0.0, 0.4 * high), (0.0, 0.0, high)), (0.5, 1.0), 0.6),
            Way(((0.0, 0.0, high),), (0.0, 0.0), 0.15),
            Way(((0.0, 0.0, high), (0.6 * pitch, 0.0, 0.6 * high), (pitch, 0.0, 0.2 * high)), (0.0, 0.0), 0.25, touches=False),
        )


KIND = _Bead(
    name="bead",
    listed=70,
    as_effect=30,
    plural="beads",
    page="beads",
    page_title="Beads",
    also=("pearl", "pearls", "pearl border", "bead border", "ball border", "snail trail"),
    families=("round",),
    begins_with=("round", 4.0),
    place="base",
    angle="45° to the surface, just above it",
    hand="Squeeze until the ball is wide enough, stop, and draw off along the row so that the next ball covers the point.",
    steps=("squeeze", "stop", "draw off along the row"),
    start_s=2.2,
    stretches=False,
    exercise=Exercise("beads", "Beads", (), "bead", Tip("round", 5), 14, aim="stop, then pull away", rank=30, usual=70),
)
register(KIND)
