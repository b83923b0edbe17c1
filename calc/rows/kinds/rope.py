"""A rope: short S strokes, each tucked under the belly of the last."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import Straight, fitted
from calc.rows.kind import OVER_PIPE_SINK, Exercise, Geometry, RowSpec, Vector, Way, register
from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"
ROPE_WIDTH = constant(1.7, "-", _PRACTICE, "width of a rope over the line it is coiled from", low=1.4, high=2.0)
ROPE_PITCH = constant(1.3, "-", _PRACTICE, "from one turn of a rope to the next over the width of the line", low=1.0, high=1.7)
ROPE_STROKE = constant(2.2, "-", _PRACTICE, "path of one turn of a rope over its pitch: over, down and tucked under", low=1.8, high=2.7)
ROPE_RISE = constant(1.2, "-", _PRACTICE, "how far a rope stands out over its line", low=1.0, high=1.5)


@dataclass(frozen=True, kw_only=True)
class _Rope(Straight):
    def natural_pitch_mm(self, tip: Tip, size_mm: float | None = None) -> float:
        return ROPE_PITCH * tip.bead_width_mm

    def across_mm(self, tip: Tip) -> float:
        return ROPE_WIDTH * tip.bead_width_mm

    def geometry(self, spec: RowSpec, notes: list[str]) -> Geometry:
        tip, run = spec.tip, spec.run_mm * spec.layers
        out = tip.bead_height_mm * (1 + (spec.layers - 1) * OVER_PIPE_SINK)
        natural = self.own_pitch_mm(spec)
        each, stretch, count = fitted(spec, natural, notes)
        width = ROPE_WIDTH * tip.bead_width_mm
        if spec.apart:
            each = natural
            run = each * count * spec.layers
        return Geometry(count * spec.layers, each, stretch, each, run, run * ROPE_STROKE, 0.0, width / 2, width / 2, out * ROPE_RISE)

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        tip = spec.tip
        pitch, half, high = self.natural_pitch_mm(tip), ROPE_WIDTH * tip.bead_width_mm / 2, tip.bead_height_mm

        def turn(*shares: tuple[float, float, float]) -> tuple[Vector, ...]:
            return tuple((u * pitch, v * half, w * high) for u, v, w in shares)

        return (
            Way(turn((0, 1, 0), (0, 0.1, 0.4), (1, -0.1, 0.4), (1, -1, 0)), (0.7, 0.8), 0.4),
            Way(turn((1, -1, 0), (1, 0.2, 0.3), (1, 1, 0)), (0.0, 0.0), 0.4, touches=False),
            Way(turn((1, 1, 0)), (0.3, 0.7), 0.2),
        )


KIND = _Rope(
    name="rope",
    listed=80,
    as_effect=60,
    plural="ropes",
    page="rope",
    page_title="Rope",
    also=("rope border", "twist", "twisted border", "cord", "cable"),
    families=("open star", "closed star", "round"),
    begins_with=("open star", 6.0),
    place="top edge",
    angle="45° to the surface",
    hand="Pipe a short S; tuck the tip under its belly, and pipe the next S over the end.",
    steps=("pipe a short S", "tuck under its belly", "pipe the next"),
    speed_mm_per_s=14.0,
    start_s=1.0,
    counted=True,
    at_joints=True,
    led=True,
    exercise=Exercise("ropes", "Ropes", (), "rope", Tip("open star", 7), 12, aim="tuck each S under the last", rank=65, usual=100),
)
register(KIND)
