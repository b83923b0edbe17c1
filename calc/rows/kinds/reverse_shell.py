"""A reverse shell: a shell whose head curls to one side, the next to the other."""

from __future__ import annotations

from dataclasses import dataclass

from calc.rows.forms import Meeting
from calc.rows.kind import Exercise, RowSpec, Way, register
from calc.rows.kinds.shell import shell_mm
from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"
REVERSE_WIDTH = constant(2.4, "-", _PRACTICE, "width of a row of reverse shells over the opening: each curls to one side", low=2.0, high=3.0)
REVERSE_PITCH = constant(1.8, "-", _PRACTICE, "from one reverse shell to the next over the opening", low=1.5, high=2.2)
REVERSE_STROKE = constant(1.35, "-", _PRACTICE, "a reverse shell over a plain shell of the same tip, by volume: the curl is added", low=1.2, high=1.6)


@dataclass(frozen=True, kw_only=True)
class _ReverseShell(Meeting):
    def natural_pitch_mm(self, tip: Tip, size_mm: float | None = None) -> float:
        return REVERSE_PITCH * tip.opening_mm

    def across_mm(self, tip: Tip) -> float:
        return REVERSE_WIDTH * tip.opening_mm

    def piece(self, spec: RowSpec) -> tuple[float, float, float]:
        volume, _, high = shell_mm(spec.tip)
        return volume * REVERSE_STROKE, REVERSE_WIDTH * spec.tip.opening_mm, high

    def look_at(self, count: int, notes: list[str]) -> None:
        if count % 2:
            notes.append(
                "With an odd number of reverse shells, two neighbours curl the same way where the row closes. Hide that at the back, or use an "
                "even number."
            )

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        o, pitch = spec.tip.opening_mm, REVERSE_PITCH * spec.tip.opening_mm
        wide, high = REVERSE_WIDTH * o / 2, 1.2 * o  # a shell takes one side of the row
        turn = ((0.12, 0.3, 0.3), (-0.1, 0.2, 0.7), (-0.2, 0.45, 1.0), (0.0, 0.6, 1.0))
        curl = tuple((u * pitch, -v * wide, w * high) for u, v, w in turn)
        return (
            Way(curl, (0.6, 1.0), 0.5),
            Way((curl[-1], (0.4 * pitch, -0.45 * wide, 0.7 * high), (pitch, 0.0, 0.0)), (1.0, 0.1), 0.35),
            Way(((pitch, 0.0, 0.0), (1.12 * pitch, 0.3 * wide, 0.3 * high)), (0.0, 0.6), 0.15, touches=False),
        )


KIND = _ReverseShell(
    name="reverse shell",
    listed=60,
    as_effect=50,
    plural="reverse shells",
    page="reverse-shells",
    page_title="Reverse shells",
    also=("reversed shell border", "scroll shell", "question mark shell", "alternating shell"),
    families=("open star", "closed star"),
    begins_with=("open star", 7.0),
    place="top edge",
    angle="45° to the surface, pointing back along the row",
    hand="Squeeze as for a shell while you curl the head to the left, round and down to a tail; the next curls to the right.",
    steps=("squeeze and curl over", "down to a tail", "curl the other way"),
    start_s=4.0,
    exercise=Exercise(
        "reverse_shells",
        "Reverse shells",
        (),
        "reverse shell",
        Tip("open star", 7),
        12,
        aim="left and right alike",
        rank=70,
        usual=110,
    ),
)
register(KIND)
