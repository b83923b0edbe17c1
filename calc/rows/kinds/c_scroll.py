"""A C scroll: one arc with a curl at each end."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.curves import arc_length_mm, arc_points
from calc.rows.forms import Scrolled
from calc.rows.kind import Exercise, register
from calc.tips import Tip


@dataclass(frozen=True, kw_only=True)
class _CScroll(Scrolled):
    def arcs(self, width_mm: float, drop_mm: float, count: int) -> tuple[list[tuple[float, float]], float, tuple[float, float], tuple[float, float]]:
        start = 2 * math.atan(2 * drop_mm / width_mm)
        return list(arc_points(width_mm, drop_mm, count)), arc_length_mm(width_mm, drop_mm), (start, -start), (1.0, -1.0)


KIND = _CScroll(
    name="C scroll",
    listed=130,
    as_effect=130,
    plural="C scrolls",
    page_title="C scrolls",
    hand="Start in the curl, follow the mark round the back of the C with rising pressure, and ease off into the other curl.",
    steps=("start in the curl", "swell round the back", "ease off into the curl"),
    curl_share=1 / 4,
    exercise=Exercise(
        "c_scrolls",
        "C scrolls",
        (),
        "C scroll",
        Tip("round", 3),
        7,
        3,
        drop_mm=20,
        aim="thin, thick, thin, from curl to curl",
        rank=105,
        usual=125,
    ),
)
register(KIND)
