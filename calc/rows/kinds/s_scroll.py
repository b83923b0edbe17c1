"""An S scroll: two arcs of half the depth, one up and one down, with a curl at each end."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.curves import arc_length_mm, arc_points
from calc.rows.forms import Scrolled
from calc.rows.kind import Exercise, register
from calc.tips import Tip


@dataclass(frozen=True, kw_only=True)
class _SScroll(Scrolled):
    def arcs(self, width_mm: float, drop_mm: float, count: int) -> tuple[list[tuple[float, float]], float, tuple[float, float], tuple[float, float]]:
        half = arc_points(width_mm / 2, drop_mm / 2, max(2, count // 2))
        middle = list(half) + [(width_mm / 2 + x, -depth) for x, depth in half[1:]]
        start = 2 * math.atan(2 * drop_mm / width_mm)
        return middle, 2 * arc_length_mm(width_mm / 2, drop_mm / 2), (start, start), (1.0, 1.0)


KIND = _SScroll(
    name="S scroll",
    listed=140,
    as_effect=140,
    plural="S scrolls",
    page_title="S scrolls",
    hand="Start in one curl, swell through the first bend, thin at the middle, swell again, and end in the other curl.",
    steps=("start in the curl", "thin in the middle", "end in the curl"),
    curl_share=1 / 8,
    bends=(0.25, 0.75),
    squeezes=((0.35, 1.0), (1.0, 0.5, 1.0), (1.0, 0.15)),
    rises=True,
    exercise=Exercise(
        "scrolls",
        "Scrolls",
        ("scroll", "scrollwork", "c and s scrolls", "rococo curl", "flourishes"),
        "S scroll",
        Tip("round", 3),
        5,
        3,
        drop_mm=30,
        aim="rising and falling pressure",
        rank=115,
        usual=120,
    ),
)
register(KIND)
