"""A line that wanders over a ground and never crosses itself: vermicelli.

Map
---
`wander`          the cells of a ground in the order in which the line goes through them
`wander_points`   the same as the points of a hand's line, ready to be drawn

The line goes once round a tree of ways that reaches every part of the ground: whoever follows a wall on the left hand comes past every
place and never crosses the own track.
"""

from __future__ import annotations

import math
import zlib
from functools import lru_cache

Cell = tuple[int, int]


def _tree(wide: int, high: int, seed: int) -> frozenset[tuple[Cell, Cell]]:
    """A spanning tree of the cells of a ground: each step joins two parts not yet joined, in an order that the seed shuffles."""
    steps = [((x, y), (x + 1, y)) for x in range(wide - 1) for y in range(high)]
    steps += [((x, y), (x, y + 1)) for x in range(wide) for y in range(high - 1)]
    steps.sort(key=lambda step: zlib.crc32(f"{seed} {step}".encode()))
    above = {(x, y): (x, y) for x in range(wide) for y in range(high)}

    def root(cell: Cell) -> Cell:
        while above[cell] != cell:
            above[cell] = above[above[cell]]
            cell = above[cell]
        return cell

    kept = []
    for first, second in steps:
        one, other = root(first), root(second)
        if one != other:
            above[one] = other
            kept.append((first, second))
    return frozenset(kept)


@lru_cache(maxsize=32)
def wander(wide: int, high: int, seed: int = 1) -> tuple[Cell, ...]:
    """Give the cells of a ground in the order in which a wandering line goes through them, each once."""
    if wide % 2 or high % 2 or not 2 <= wide <= 400 or not 2 <= high <= 400:
        raise ValueError("a ground has 2 to 400 cells each way, an even number")
    tree = _tree(wide // 2, high // 2, seed)

    def joined(one: Cell, other: Cell) -> bool:
        return (one, other) in tree or (other, one) in tree

    def beside(cell: Cell) -> tuple[Cell, Cell]:
        """The cells before and after: along the outer side of the block where a way leads out, else back into the block."""
        x, y = cell
        block, right, down = (x // 2, y // 2), 1 if x % 2 else -1, 1 if y % 2 else -1
        level = (x + right, y) if joined(block, (block[0] + right, block[1])) else (x, y - down)
        upright = (x, y + down) if joined(block, (block[0], block[1] + down)) else (x - right, y)
        return level, upright

    found: list[Cell] = [(0, 0)]
    came, at = (0, 0), beside((0, 0))[0]
    while at != (0, 0):
        found.append(at)
        one, other = beside(at)
        came, at = at, other if one == came else one
    return tuple(found)


def wander_points(wide: int, high: int, seed: int = 1, loose: float = 0.12) -> tuple[tuple[float, float], ...]:
    """Give points of a wandering line as a hand pipes it, in pitches from the upper left corner."""
    cells = wander(wide, high, seed)
    halves = [((x + u) / 2 + 0.5, (y + v) / 2 + 0.5) for (x, y), (u, v) in zip(cells, cells[1:], strict=False)]
    return tuple((x + loose * math.sin(x * 12.9898 + y * 78.233 + seed), y + loose * math.sin(x * 39.3467 + y * 11.1351 + seed)) for x, y in halves)
