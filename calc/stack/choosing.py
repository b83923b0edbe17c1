"""Choosing tins: stacks that serve a number of guests, searched with pruning and ranked."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.portions import portion_count
from calc.shapes import Outline

TIERS_MOST = 7
STACKS_SHOWN = 12


@dataclass(frozen=True)
class Stack:
    """One stack of tins that serves the guests, the lowest tier first.

    `counts` are the portions of each tier; a kept top tier is not counted in `portions`. `kitchen_cakes` are cut in the kitchen to
    make up the number. Stacks are ranked by `penalty`, a judgement and not a measurement: one point for each per cent of portions too
    many, for each centimetre by which one step is wider than another, for each tier and each kitchen cake.
    """

    tiers: tuple[Outline, ...]
    counts: tuple[int, ...]
    portions: int
    spare_portions: int
    kept_portions: int
    kitchen_cakes: int
    steps_mm: tuple[float, ...]
    penalty: float


def _on_top(lower: Outline, upper: Outline, step_low: float, step_high: float) -> bool:
    slack = 1e-6
    return step_low - slack <= lower.width_mm - upper.width_mm <= step_high + slack and upper.length_mm <= lower.length_mm - step_low + slack


def _kinds(tins: Sequence[Outline]) -> tuple[Outline, ...]:
    return tuple(sorted(set(tins), key=lambda tin: (-tin.width_mm, -tin.length_mm, tin.kind)))


def largest_stack(
    tins: Sequence[Outline],
    slice_mm: tuple[float, float],
    keep_top: bool = False,
    step_low_mm: float = 50.0,
    step_high_mm: float = 100.0,
    tiers: int | None = None,
    levels: int = 1,
) -> int:
    """Give the most portions that any stack of the tins at hand can give, or 0 if no stack is possible.

    Every tin is one tier; neighbours differ in width by a step within the bounds. `tiers` None leaves their number open; outside
    1 to 7 it raises ValueError. `keep_top` leaves the uppermost tier out of the count. Each tier is
    cut on so many `levels` (`calc.portions.levels`).

    >>> from calc.shapes import outline
    >>> largest_stack([outline("square", w) for w in (100, 200, 300)], (25, 50))
    112
    """
    kinds = _kinds(tins)
    counts = tuple(levels * portion_count(tin, slice_mm) for tin in kinds)
    most = _most_from(kinds, counts, keep_top, step_low_mm, step_high_mm)
    wanted = _tier_range(tiers, keep_top)
    return max((most[i][k] for i in range(len(kinds)) for k in wanted if most[i][k] >= 0), default=0)


def _tier_range(tiers: int | None, keep_top: bool) -> range:
    if tiers is not None and not 1 <= tiers <= TIERS_MOST:
        raise ValueError(f"a cake has one to {TIERS_MOST} tiers")
    if tiers is not None:
        return range(tiers, tiers + 1)
    return range(2 if keep_top else 1, TIERS_MOST + 1)


def _most_from(kinds: Sequence[Outline], counts: Sequence[int], keep_top: bool, step_low: float, step_high: float) -> list[list[int]]:
    """most[i][k]: the most portions of a stack of exactly k tiers whose lowest is tin i; -1 where there is none."""
    most = [[-1] * (TIERS_MOST + 1) for _ in kinds]
    for i in range(len(kinds) - 1, -1, -1):
        most[i][1] = 0 if keep_top else counts[i]
        for j in range(i + 1, len(kinds)):
            if _on_top(kinds[i], kinds[j], step_low, step_high):
                for k in range(2, TIERS_MOST + 1):
                    if most[j][k - 1] >= 0:
                        most[i][k] = max(most[i][k], counts[i] + most[j][k - 1])
    return most


@lru_cache(maxsize=256)
def stacks(
    guests: int,
    tins: tuple[Outline, ...],
    slice_mm: tuple[float, float] = (25.0, 50.0),
    spare_percent: float = 0.0,
    keep_top: bool = False,
    step_low_mm: float = 50.0,
    step_high_mm: float = 100.0,
    tiers: int | None = None,
    kitchen: Outline | None = None,
    levels: int = 1,
) -> tuple[Stack, ...]:
    """Rank the stacks of tins at hand that serve a number of guests: up to twelve, best first.

    Every chain of tins is a candidate in which each is narrower than the one under it by a step within the bounds, and whose portions
    (without a kept top tier) reach guests x (1 + spare). A stack that already serves everybody is not built higher unless `tiers`
    asks for it. `kitchen` is a plain cake cut in the kitchen, on one level, to make up the number. Each tier is cut on so
    many `levels` (`calc.portions.levels`). ValueError: there is no guest, or `tiers` is
    not 1 to 7.

    >>> from calc.shapes import outline
    >>> best = stacks(36, tuple(outline("round", w) for w in (100, 150, 200, 250)))[0]
    >>> [t.width_mm for t in best.tiers], best.portions, best.spare_portions
    ([200.0, 150.0], 37, 1)
    """
    if guests < 1:
        raise ValueError("a cake is for one guest or more")
    wanted = _tier_range(tiers, keep_top)
    need = needed_portions(guests, spare_percent)
    kinds = _kinds(tins)
    counts = tuple(levels * portion_count(tin, slice_mm) for tin in kinds)
    each = portion_count(kitchen, slice_mm) if kitchen is not None else 0
    most = _most_from(kinds, counts, keep_top, step_low_mm, step_high_mm)
    above = [[j for j in range(i + 1, len(kinds)) if _on_top(kinds[i], kinds[j], step_low_mm, step_high_mm)] for i in range(len(kinds))]
    found: list[tuple[float, int, tuple[int, ...]]] = []  # penalty, kitchen cakes, tins

    def worst() -> float:
        return found[-1][0] if len(found) == STACKS_SHOWN else math.inf

    def keep(chain: tuple[int, ...], total: int) -> None:
        cakes = 0
        if total < need:
            if not each:
                return
            cakes = math.ceil((need - total) / each)
        spare = 100 * (total + cakes * each - need) / need
        steps = [kinds[a].width_mm - kinds[b].width_mm for a, b in zip(chain, chain[1:], strict=False)]
        uneven = (max(steps) - min(steps)) / 10 if steps else 0.0
        penalty = spare + uneven + len(chain) + cakes
        if penalty < worst() - 1e-9:
            found.append((penalty, cakes, chain))
            found.sort(key=lambda item: (round(item[0], 9), item[2]))
            del found[STACKS_SHOWN:]

    def grow(chain: tuple[int, ...], below: int, narrow: float, wide: float) -> None:
        """Extend a chain: `below` counts the portions under its last tier, `narrow` and `wide` are its least and greatest step."""
        last = chain[-1]
        total = below if keep_top else below + counts[last]
        if len(chain) in wanted:
            keep(chain, total)
        if len(chain) >= wanted[-1] or (tiers is None and len(chain) in wanted and total >= need):
            return
        below += counts[last]
        # lower bound on the penalty of a taller stack: its tiers, and the portions it already has too many
        floor = max(0.0, 100 * (below - need) / need) + max(len(chain) + 1, wanted[0])
        if floor >= worst():
            return
        left = range(max(1, wanted[0] - len(chain)), wanted[-1] - len(chain) + 1)
        for j in above[last]:
            step = kinds[last].width_mm - kinds[j].width_mm
            low, high = min(narrow, step), max(wide, step)
            reach = max((most[j][k] for k in left), default=-1)
            if reach < 0 or (not each and below + reach < need):
                continue
            cakes = max(0, math.ceil((need - below - reach) / each)) if each else 0
            if floor + (high - low) / 10 + cakes < worst():
                grow((*chain, j), below, low, high)

    for i in range(len(kinds)):
        grow((i,), 0, math.inf, 0.0)
    made = []
    for penalty, cakes, chain in found:
        each_tier = tuple(counts[i] for i in chain)
        kept = each_tier[-1] if keep_top else 0
        portions = sum(each_tier) - kept + cakes * each
        made.append(
            Stack(
                tuple(kinds[i] for i in chain),
                each_tier,
                portions,
                portions - guests,
                kept,
                cakes,
                tuple(kinds[a].width_mm - kinds[b].width_mm for a, b in zip(chain, chain[1:], strict=False)),
                penalty,
            )
        )
    return tuple(made)


def needed_portions(guests: int, spare_percent: float) -> int:
    """Give how many portions are wanted for a number of guests and a spare share.

    Formula: guests x (1 + spare / 100), rounded up.

    Parameters
    ----------
    guests : int
        Guests [-]
    spare_percent : float
        Portions wanted beyond the guests [%]

    Returns
    -------
    int
        Portions [-]

    Raises
    ------
    ValueError
        The spare share is negative.

    Range: any number of guests. Leaves out: guests who do not eat cake.

    Example
    -------
    >>> needed_portions(36, 0), needed_portions(36, 10)
    (36, 40)

    Source: common-practice
    """
    if spare_percent < 0:
        raise ValueError("a spare share is not negative")
    return math.ceil(guests * (1 + spare_percent / 100) - 1e-9)
