"""Which bags the buttercream goes into. It may import `sources` and `tips`.

Map
---
`Bag`, `BagPlan`, `bag_plan`   one bag for each colour and tip; couplers that save bags; tips needed twice, washes, fills
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"

BAG_HOLDS_G = constant(300.0, "g", _PRACTICE, "a 35 cm bag half full, which a hand can squeeze and close", low=200.0, high=400.0)
COUPLER_WIDEST_MM = constant(13.0, "mm", _PRACTICE, "openings wider than this belong to tips too big for the usual coupler", low=11.0, high=15.0)


@dataclass(frozen=True)
class Bag:
    """One bag: its colour, its tip (several that share it through a coupler), the mass it pipes, how often it is filled."""

    colour: str
    tips: tuple[Tip, ...]
    mass_g: float
    fills: int

    @property
    def tip(self) -> Tip:
        """The first of its tips."""
        return self.tips[0]


@dataclass(frozen=True)
class BagPlan:
    """Bags without couplers, and the fewest with them.

    `bags` are one for each colour and tip, in the order they are first needed; `coupled` the fewest, where each colour keeps one bag
    for all its small tips. `couplers` is how many couplers that takes, `saved` how many bags it saves, `changes` how often a tip is
    changed on a coupler in the order given. `twice` are tips needed in more than one colour, with the colours; `washes` is how often a
    tip must be washed in that order if there is only one of each.
    """

    bags: tuple[Bag, ...]
    coupled: tuple[Bag, ...]
    couplers: int
    saved: int
    changes: int
    twice: tuple[tuple[Tip, tuple[str, ...]], ...]
    washes: int


def bag_plan(rows: Sequence[tuple[str, Tip, float]], holds_g: float | None = None) -> BagPlan:
    """Plan the bags for rows in the order they are piped.

    Formula: bags = distinct (colour, tip); with couplers, one for each colour's tips up to 13 mm, and one for each wider tip; fills =
    mass / what a bag holds, rounded up.

    Parameters
    ----------
    rows : sequence of (str, Tip, float)
        Colour [-], tip [-] and mass [g] of each row, in piping order
    holds_g : float
        What a bag holds; None takes 300 g [g]

    Returns
    -------
    BagPlan
        Bags, couplers, tips needed twice, washes [-]

    Range: any number of rows. Whether a coupler fits a maker's tip must be tried. Raises ValueError unless a bag holds something.

    Example
    -------
    >>> star, fine = Tip("open star", 7), Tip("round", 2)
    >>> plan = bag_plan([("cream", star, 90), ("russet", star, 90), ("cream", fine, 5)])
    >>> len(plan.bags), len(plan.coupled), plan.couplers, plan.saved, [colours for _, colours in plan.twice]
    (3, 2, 1, 1, [('cream', 'russet')])

    Source: common-practice
    """
    holds = float(BAG_HOLDS_G) if holds_g is None else holds_g
    if holds <= 0:
        raise ValueError("a bag holds a positive mass")
    masses: dict[tuple[str, Tip], list[float]] = {}
    for colour, tip, mass in rows:
        masses.setdefault((colour, tip), []).append(mass)
    totals = {key: math.fsum(parts) for key, parts in masses.items()}
    bags = tuple(Bag(colour, (tip,), total, _fills(total, holds)) for (colour, tip), total in totals.items())
    small: dict[str, list[Tip]] = {}
    for colour, tip in totals:
        if tip.opening_mm <= COUPLER_WIDEST_MM:
            small.setdefault(colour, []).append(tip)
    coupled = []
    shared: set[str] = set()
    for (colour, tip), total in totals.items():
        together = small.get(colour, [])
        if tip not in together or len(together) < 2:
            coupled.append(Bag(colour, (tip,), total, _fills(total, holds)))
        elif colour not in shared:
            shared.add(colour)
            whole = math.fsum(totals[colour, other] for other in together)
            coupled.append(Bag(colour, tuple(together), whole, _fills(whole, holds)))
    return BagPlan(bags, tuple(coupled), len(shared), len(bags) - len(coupled), _changes(rows, small, shared), _twice(totals), _washes(rows))


def _fills(mass_g: float, holds_g: float) -> int:
    """How often a bag is filled."""
    return max(1, math.ceil(mass_g / holds_g - 1e-9))


def _changes(rows: Sequence[tuple[str, Tip, float]], small: dict[str, list[Tip]], shared: set[str]) -> int:
    """How often a tip is changed on a coupler when the rows are piped in this order."""
    on_bag: dict[str, Tip] = {}
    changes = 0
    for colour, tip, _ in rows:
        if colour in shared and tip in small[colour]:
            if colour in on_bag and on_bag[colour] != tip:
                changes += 1
            on_bag[colour] = tip
    return changes


def _twice(totals: dict[tuple[str, Tip], float]) -> tuple[tuple[Tip, tuple[str, ...]], ...]:
    """Tips needed in more than one colour, with those colours."""
    colours: dict[Tip, list[str]] = {}
    for colour, tip in totals:
        colours.setdefault(tip, []).append(colour)
    return tuple((tip, tuple(names)) for tip, names in colours.items() if len(names) > 1)


def _washes(rows: Sequence[tuple[str, Tip, float]]) -> int:
    """How often a tip goes from one colour's bag to another's when there is only one of each."""
    last: dict[Tip, str] = {}
    washes = 0
    for colour, tip, _ in rows:
        if tip in last and last[tip] != colour:
            washes += 1
        last[tip] = colour
    return washes
