"""Even division of an outline: equal repeats with their joints on the corners, or on the middles between them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from calc.sources import constant

EVEN_ENOUGH_PERCENT = constant(5.0, "%", "common-practice", "repeats on a long and a short side that differ by no more than this look alike")


@dataclass(frozen=True)
class Joints:
    """Where the joints of equal repeats fall.

    `s_mm` are distances round the outline from the middle of the back. `respected` says whether a joint falls on every corner
    (or every middle); if not, `note` says so and names the nearest numbers of repeats that would.
    """

    s_mm: tuple[float, ...]
    at: str
    respected: bool
    note: str = ""


def _shared(lengths: tuple[float, ...], repeats: int) -> tuple[int, ...]:
    """Share repeats among sides, one or more to each, so that the widest repeat is as narrow as can be.

    Each further repeat goes to the side whose repeats are widest. That leaves the widest narrower than P / (n - k) on k sides, so that every
    side can begin with as many repeats as it takes to be narrower than that.
    """
    perimeter_mm = math.fsum(lengths)
    counts = [math.floor((repeats - len(lengths)) * length / perimeter_mm) + 1 for length in lengths]
    while sum(counts) < repeats:
        widest = max(range(len(counts)), key=lambda i: (round(lengths[i] / counts[i], 9), -i))
        counts[widest] += 1
    return tuple(counts)


def _spread(lengths: tuple[float, ...], counts: tuple[int, ...]) -> tuple[float, float]:
    pitches = [length / count for length, count in zip(lengths, counts, strict=True)]
    return min(pitches), max(pitches)


def _respected(lengths: tuple[float, ...], repeats: int) -> bool:
    if repeats < len(lengths):
        return False
    low, high = _spread(lengths, _shared(lengths, repeats))
    return 100 * (high / low - 1) <= EVEN_ENOUGH_PERCENT


@lru_cache(maxsize=2048)
def divide(perimeter_mm: float, anchors: tuple[float, ...], repeats: int, at: str, kind: str) -> Joints:
    """Divide a perimeter evenly between anchors (corners or middles, by their distances); see `Outline.division`."""
    if not anchors:
        pitch = perimeter_mm / repeats
        return Joints(tuple(pitch * k for k in range(repeats)), at, True)
    lengths = tuple(b - a for a, b in zip(anchors, anchors[1:] + (anchors[0] + perimeter_mm,), strict=True))
    if not _respected(lengths, repeats):
        pitch = perimeter_mm / repeats
        start = anchors[0] % pitch
        what = {"heart": "the notch and the point"}.get(kind, f"each of the {len(anchors)} corners")
        if at == "middles":
            what = f"each of the {len(anchors)} middles"
        fewer = next((n for n in range(repeats - 1, len(anchors) - 1, -1) if _respected(lengths, n)), None)
        more = next((n for n in range(max(repeats + 1, len(anchors)), repeats + 400) if _respected(lengths, n)), None)
        others = " or ".join(str(n) for n in (fewer, more) if n)
        note = f"{repeats} repeats cannot put a joint on {what} evenly" + (f"; {others} can" if others else "")
        return Joints(tuple(start + pitch * k for k in range(repeats)), at, False, note)
    counts = _shared(lengths, repeats)
    low, high = _spread(lengths, counts)
    found = sorted(
        (anchor + length * k / count) % perimeter_mm for anchor, length, count in zip(anchors, lengths, counts, strict=True) for k in range(count)
    )
    if perimeter_mm - found[-1] < 1e-9 * perimeter_mm:  # a joint at the back is at 0, not at a whole turn
        found = [0.0, *found[:-1]]
    note = ""
    if high / low - 1 > 1e-6:
        note = f"Repeats on the long and the short sides differ by {100 * (high / low - 1):.1f} %"
    return Joints(tuple(found), at, True, note)
