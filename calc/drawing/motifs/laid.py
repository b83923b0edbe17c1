"""A row of piping laid round the unrolled side: pieces, strands and ribbons, ready for any view.

Map
---
`Laid`, `Strand`, `Ribbon`, `RowLaid`   one piece of piping at a place; one line that hangs or runs on; one ribbon from joint to joint; all of a row
`joints_mm`, `spans`                    where its repeats begin, and how wide each is
`arc_steps`, `ribbon_of`, `wobble`      even steps along a swag, its ribbon, how uneven a hand is

s runs round the side from the middle of the back, anticlockwise seen from above, so that it runs to the right in front; `down` is measured
from the top edge of the tier.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

from calc.curves import arc_length_mm, arc_radius_mm, swell_at
from calc.drawing.scene import Point
from calc.rows.placement import PlacedRow


class Laid(NamedTuple):
    """A piece at s round the side and `down` below the top edge, turned clockwise, with the size of its two directions [mm].

    `out_mm` is how far it stands out; `solid` how much of its width is left to see when it is seen from its side.
    """

    piece: str
    s: float
    down: float
    turn: float
    along: float
    across: float
    out_mm: float
    solid: float


class Strand(NamedTuple):
    """A line that hangs or runs on through (s, down), as wide as its bead; `role` is one of `strand_paths`, or shadow."""

    points: tuple[Point, ...]
    width_mm: float
    role: str


class Ribbon(NamedTuple):
    """A ribbon between an upper edge, smooth where it lies on the cake, and a lower edge that stands `out_mm` away and waves.

    Both edges are points (s, down), as many of each; `WAVE` of them make one wave of the lower edge, which begins on a crest.
    """

    upper: tuple[Point, ...]
    lower: tuple[Point, ...]
    out_mm: float


WAVE = 4


class RowLaid(NamedTuple):
    """All of a row: what lies beneath (shadows), its strands, its pieces in the order they are piped, and its ribbons."""

    shadows: tuple[Strand, ...]
    strands: tuple[Strand, ...]
    pieces: tuple[Laid, ...]
    ribbons: tuple[Ribbon, ...] = ()


def joints_mm(row: PlacedRow, perimeter_mm: float) -> tuple[float, ...]:
    """Give where the repeats of a row begin: every (j + shift) P / n, unless the row brings its own joints."""
    if row.joints:
        return row.joints
    return tuple((j + row.shift) * perimeter_mm / row.repeats for j in range(row.repeats))


def spans(row: PlacedRow, perimeter_mm: float) -> list[tuple[float, float]]:
    """Give the start and the width of every repeat of a row; a swag narrower than its repeat stands in the middle of it."""
    starts = joints_mm(row, perimeter_mm)
    spans = []
    for i, start in enumerate(starts):
        end = starts[i + 1] if i + 1 < len(starts) else starts[0] + perimeter_mm
        width = end - start
        if row.width_mm and row.what.hangs and row.width_mm < width * 0.995:
            start += (width - row.width_mm) / 2
            width = row.width_mm
        spans.append((start, width))
    return spans


@lru_cache(maxsize=256)
def arc_steps(width: float, drop: float, step: float) -> tuple[tuple[float, float, float, float], ...]:
    """Even steps along the arc of a swag: x, depth, the slope's angle, and the share of the way (0 to 1).

    From the circle itself: a slope taken from chords would flip at the middle with the last digit of a length.
    """
    far = arc_length_mm(width, drop)
    count = max(3, round(far / step))
    shares = [(i + 0.5) / count for i in range(count)]
    if drop < 1e-9 * width:
        return tuple((width * share, 0.0, 0.0, share) for share in shares)
    radius, half = arc_radius_mm(width, drop), 2 * math.atan(2 * drop / width)
    turns = [half * (2 * share - 1) for share in shares]
    return tuple((width / 2 + radius * math.sin(t), drop - radius * (1 - math.cos(t)), -t, share) for t, share in zip(turns, shares, strict=True))


def wobble(index: int, seed: float) -> float:
    """A small number between -1 and 1, the same each time: no hand pipes two pieces alike."""
    return math.sin(index * 12.9898 + seed * 7.13) * math.cos(index * 4.1414 + seed)


def ribbon_of(row: PlacedRow, start: float, width: float, drop: float) -> Ribbon:
    """The ribbon of one swag: along its arc, full in the middle, its free edge in even waves."""
    size = row.size_mm
    far = arc_length_mm(width, drop)
    waves = max(3, round(far / (size * 1.2)))
    upper, lower = [], []
    for k, (x, y, slope, share) in enumerate(arc_steps(width, drop, far / (waves * WAVE + 1))):
        deep = size * swell_at(share)
        wave = 0.085 * deep * math.cos(math.tau * k / WAVE) * (1 + 0.3 * wobble(k // WAVE, width))
        c, n = math.cos(slope * 0.72), math.sin(slope * 0.72)
        upper.append((start + x + 0.5 * deep * n, row.line_mm + y - 0.5 * deep * c))
        lower.append((start + x - (0.5 * deep + wave) * n, row.line_mm + y + (0.5 * deep + wave) * c))
    return Ribbon(tuple(upper), tuple(lower), size * 0.5)
