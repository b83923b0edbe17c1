"""The order in which rows are piped, so that no tip has to reach past what stands out further. It may import `tips`."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.tips import Tip

PHASES = {"side": 0, "over": 1, "string": 2, "top edge": 3, "base": 4, "top": 5, "joints": 6, "leaf": 7, "inside": 8}


@dataclass(frozen=True)
class Placed:
    """A row as the order of piping sees it: which bag, where on which tier (0 the lowest), what it covers, how far it stands out.

    `line_mm`, `above_mm`, `below_mm` and `drop_mm` are on the unrolled side, downwards from the top edge. `place` is one of side, over,
    under, top edge, base, top, joints, inside. `phase` stands in for the one its place has, and `after` is the index of a row it lies on.
    """

    kind: str
    place: str
    colour: str
    tip: Tip
    tier: int
    line_mm: float
    above_mm: float
    below_mm: float
    stands_out_mm: float
    drop_mm: float = 0.0
    phase: int | None = None
    after: int | None = None


def _phase(row: Placed) -> int:
    if row.phase is not None:
        return row.phase
    if row.place == "joints":
        return PHASES["leaf" if row.kind == "leaf" else "joints"]
    if row.place in ("side", "under"):
        return PHASES["string" if row.kind == "string" else "side"]
    return PHASES[row.place]


def _gap_mm(first: Placed, second: Placed) -> float:
    """Distance between two rows' bands on the side, the lesser of at the joints and between them; below nothing they overlap."""
    least = math.inf
    for share in (0.0, 1.0):
        tops = [row.line_mm - row.above_mm + share * row.drop_mm for row in (first, second)]
        feet = [row.line_mm + row.below_mm + share * row.drop_mm for row in (first, second)]
        least = min(least, max(tops) - min(feet))
    return least


def _in_the_way(piped: Placed, wanted: Placed) -> bool:
    """Whether a tip held at 45° to the line of `wanted` meets `piped`: it stands out further than it is away."""
    if piped.tier != wanted.tier or "inside" in (piped.place, wanted.place) or (piped.place == "top") != (wanted.place == "top"):
        return False
    gap = _gap_mm(piped, wanted)
    return gap >= 0 and piped.stands_out_mm > max(gap, wanted.stands_out_mm)


def piping_order(rows: Sequence[Placed]) -> tuple[int, ...]:
    """Give an order of piping in which no tip has to reach past what stands out further, as far as the trade's order allows.

    Formula: phases by common practice (rows on the side; what lies on them; strings; the border on the edge; the base; the top;
    flowers, then leaves over the joints; inside the edge last). Within a phase: upper tiers first, a row before any that would stand
    in its way (further out than it is away, for a tip at 45 degrees), then the bag already in the hand, then the lowest line.

    Parameters
    ----------
    rows : sequence of Placed
        The rows of all tiers [-]

    Returns
    -------
    tuple of int
        Their indices in the order of piping [-]

    Raises
    ------
    KeyError
        A place is not known.

    Range: tiers piped one upon the other. Leaves out: tiers that are piped apart and stacked later.

    Example
    -------
    >>> tip = Tip("petal", 11)
    >>> deep = Placed("ruched swag", "side", "russet", tip, 0, 15, 5, 5, 11, 30)
    >>> border = Placed("ruched border", "top edge", "cream", tip, 0, 0, 5, 5, 9)
    >>> piping_order([border, deep])
    (1, 0)

    Source: common-practice
    """
    left = {i: _phase(row) for i, row in enumerate(rows)}
    done: list[int] = []
    while left:
        phase = min(left.values())
        tier = max(rows[i].tier for i, at in left.items() if at == phase)
        group = [i for i, at in left.items() if at == phase and rows[i].tier == tier and rows[i].after not in left]
        free = [i for i in group if not any(j != i and _in_the_way(rows[i], rows[j]) for j in group)] or group
        hand = (rows[done[-1]].colour, rows[done[-1]].tip) if done else None
        chosen = min(free, key=lambda i: ((rows[i].colour, rows[i].tip) != hand, -rows[i].line_mm, i))
        done.append(chosen)
        del left[chosen]
    return tuple(done)


def touches(rows: Sequence[Placed]) -> tuple[tuple[int, int], ...]:
    """List the rows that are hard to reach when they are piped in this order.

    Formula: pairs (later, earlier) where the earlier stands out further than it is away, so that a tip at 45 degrees meets it.

    Parameters
    ----------
    rows : sequence of Placed
        Rows in the order they are piped [-]

    Returns
    -------
    tuple of (int, int)
        Index of the later row and of the one in its way [-]

    Range: rows on a side. Leaves out: a small hand.

    Example
    -------
    >>> tip = Tip("petal", 11)
    >>> touches([Placed("ruched swag", "side", "russet", tip, 0, 15, 5, 5, 11, 30), Placed("line", "side", "cream", Tip("round", 2), 0, 52, 1, 1, 2)])
    ((1, 0),)

    Source: common-practice
    """
    return tuple((later, earlier) for later, row in enumerate(rows) for earlier in range(later) if _in_the_way(rows[earlier], row))
