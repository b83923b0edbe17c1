"""A shell: a head that fans out under a hard squeeze, drawn down to a tail that the next shell lies on."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.rows.forms import Meeting
from calc.rows.kind import FLUTED, Exercise, RowSpec, Way, register
from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"
SHELL_WIDTH = constant(1.9, "-", _PRACTICE, "width of a shell over the opening: the head fans out under a hard squeeze", low=1.6, high=2.4)
SHELL_HEIGHT = constant(1.3, "-", _PRACTICE, "height of a shell over the opening: the tip is lifted a little as the head swells", low=1.0, high=1.6)
SHELL_PITCH = constant(
    1.6,
    "-",
    "from-memory",
    "from one shell's head to the next over the opening, each lying on the tail of the last, as most pipe them; a practice row measures yours",
    low=1.3,
    high=1.9,
)
SHELL_TAIL = constant(0.8, "-", _PRACTICE, "tail that the next shell lies on, over the opening", low=0.5, high=1.2)


def shell_mm(tip: Tip, pitch_mm: float | None = None) -> tuple[float, float, float]:
    """Give the volume, the width and the height of one shell.

    Formula: F pi w h (p/6 + t/12): half an ellipsoid w wide, h high and as long as the pitch p for the head, half an elliptical cone t long for
    the tail; F takes off what lies between the ridges.

    Parameters
    ----------
    tip : Tip
        The tip [-]
    pitch_mm : float
        Pitch measured on a practice row; None takes the usual one [mm]

    Returns
    -------
    tuple of (float, float, float)
        Volume [mm3], width and height [mm]

    Range: any tip. Leaves out: stretch.

    Example
    -------
    >>> round(shell_mm(Tip("open star", 7))[1], 1)
    13.3

    Source: common-practice
    """
    o = tip.opening_mm
    wide, high, tail = SHELL_WIDTH * o, SHELL_HEIGHT * o, SHELL_TAIL * o
    return FLUTED * math.pi * wide * high * ((pitch_mm or SHELL_PITCH * o) / 6 + tail / 12), wide, high


@dataclass(frozen=True, kw_only=True)
class _Shell(Meeting):
    def natural_pitch_mm(self, tip: Tip, size_mm: float | None = None) -> float:
        return SHELL_PITCH * tip.opening_mm

    def across_mm(self, tip: Tip) -> float:
        return SHELL_WIDTH * tip.opening_mm

    def piece(self, spec: RowSpec) -> tuple[float, float, float]:
        return shell_mm(spec.tip, spec.pitch_mm)

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        pitch, high = self.own_pitch_mm(spec), SHELL_HEIGHT * spec.tip.opening_mm
        return (
            Way(((0.0, 0.0, 0.3 * high), (-0.1 * pitch, 0.0, 0.8 * high), (0.0, 0.0, high)), (0.6, 1.0), 0.5),
            Way(((0.0, 0.0, high), (0.5 * pitch, 0.0, 0.6 * high), (pitch, 0.0, 0.0)), (1.0, 0.1), 0.4),
            Way(((pitch, 0.0, 0.0), (pitch, 0.0, 0.3 * high)), (0.0, 0.0), 0.1, touches=False),
        )


KIND = _Shell(
    name="shell",
    listed=50,
    as_effect=40,
    plural="shells",
    page="shells",
    page_title="Shells",
    also=("shell border", "base border", "beaded shell", "star border", "plume"),
    families=("open star", "closed star"),
    begins_with=("open star", 7.0),
    place="base",
    angle="45° to the surface, pointing back along the row",
    hand="Squeeze hard until the head fans out, ease off while you draw the tail down to the surface, stop, and start the next on the tail.",
    steps=("squeeze hard", "ease off", "stop, and start on the tail"),
    start_s=2.5,
    exercise=Exercise(
        "shells", "Shells", ("shell",), "shell", Tip("open star", 7), 12, aim="head, tail, and the next on the tail", rank=40, usual=10
    ),
)
register(KIND)
