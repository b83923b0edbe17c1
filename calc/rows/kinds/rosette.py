"""A rosette: a middle and a turn or more round it, pressed down."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.rows.forms import SetApart
from calc.rows.kind import INTO, Exercise, RowSpec, Way, register
from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"
ROSETTE_WIDTH = constant(3.0, "-", _PRACTICE, "width of a rosette over the line: a middle and one turn round it", low=2.5, high=4.0)
ROSETTE_PRESS = constant(1.25, "-", _PRACTICE, "the turns of a rosette are pressed onto each other with a firm squeeze", low=1.0, high=1.6)
ROSETTE_RISE = constant(1.3, "-", _PRACTICE, "height of a rosette over that of its line", low=1.0, high=1.7)


def rosette_path_mm(width_mm: float, bead_mm: float) -> float:
    """Give the path of a rosette: a middle, out, and round it until the whole is as wide as wanted.

    Formula: R = (W - b)/2, length = b + R + pi R (1 + R/b): a dab of one bead, the way out, and turns a bead apart that end in a whole
    circle; where there is no room for a whole one, as much of it as there is room for.

    Parameters
    ----------
    width_mm : float
        Width of the rosette W [mm]
    bead_mm : float
        Width of the bead b [mm]

    Returns
    -------
    float
        Length of the path [mm]

    Raises
    ------
    ValueError
        A value is not positive.

    Range: W > 0, b > 0; a rosette no wider than the bead is one dab. Leaves out: the tail.

    Example
    -------
    >>> round(rosette_path_mm(15, 5), 2)  # a dab, 5 mm out, once round at 5 mm
    41.42

    Source: geometry (spiral of Archimedes, as its mean radius times its angle)
    """
    if width_mm <= 0 or bead_mm <= 0:
        raise ValueError("the widths of a rosette and its bead must be greater than 0")
    reach = max(0.0, (width_mm - bead_mm) / 2)
    return bead_mm + reach + math.pi * reach * (1 + reach / bead_mm)


@dataclass(frozen=True, kw_only=True)
class _Rosette(SetApart):
    def across_mm(self, tip: Tip) -> float:
        return ROSETTE_WIDTH * tip.bead_width_mm

    def piece(self, spec: RowSpec, notes: list[str]) -> tuple[float, float, float, float, float]:
        tip = spec.tip
        wide = spec.size_mm or self.across_mm(tip)
        path = rosette_path_mm(wide, tip.bead_width_mm)
        if wide < 2 * tip.bead_width_mm:
            notes.append(f"A rosette {wide:.0f} mm wide is narrower than two lines of this tip: pipe it as a star, or use a finer tip.")
        return path, ROSETTE_PRESS * tip.laid_mm2 * path, wide, ROSETTE_RISE * tip.bead_height_mm, wide

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        bead = spec.tip.bead_width_mm
        reach = max(0.0, ((spec.size_mm or self.across_mm(spec.tip)) - bead) / 2)
        turns = max(1.0, reach / bead)
        round_it = [(reach * min(1.0, k / (24 * turns)), math.tau * k / 24) for k in range(round(24 * turns) + 13)]
        points = tuple((r * math.cos(a), r * math.sin(a), 0.5 * bead) for r, a in round_it)
        return (
            Way(((0.0, 0.0, 1.5 * bead), (0.0, 0.0, 0.5 * bead)), (0.7, 1.0), 0.6, INTO),
            Way(points[:-8], (1.0, 1.0), 0.0, INTO),
            Way(points[-9:], (1.0, 0.0), 0.4, INTO),
        )


KIND = _Rosette(
    name="rosette",
    listed=100,
    as_effect=90,
    plural="rosettes",
    page="rosettes",
    page_title="Rosettes",
    also=("swirl", "rose swirl", "buttercream rose swirl"),
    families=("open star", "closed star"),
    begins_with=("closed star", 5.0),
    place="joints",
    angle="90°, at right angles to the surface",
    hand="Squeeze a middle, then once round it with even pressure; ease off as the circle closes and draw away along it.",
    steps=("squeeze a middle", "once round it", "ease off along the circle"),
    speed_mm_per_s=18.0,
    start_s=3.0,
    swells=True,
    flower=True,
    stands_up=True,
    exercise=Exercise(
        "rosettes",
        "Rosettes",
        (),
        "rosette",
        Tip("closed star", 5),
        7,
        pieces=7,
        size_mm=20,
        aim="once round, ease off",
        rank=55,
        usual=40,
    ),
)
register(KIND)
