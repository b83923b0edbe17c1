"""What tips make: how wide a tip pipes an effect, which opening a wanted size asks for, and which tips of the table make it.

Map
---
`EFFECTS`          the kinds of row, and what is piped besides: flowers on a nail, basketweave
`effect_size_mm`, `opening_for_mm`   size from opening, and opening from size
`effects_of`       what a tip of the table makes
`Match`, `find_tips`   the tips that make an effect, nearest first

May import what `calc.rows.kind` may; sizes come from the kinds.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import calc.rows.kinds  # noqa: F401  each kind registers itself
from calc.rows.kind import KINDS
from calc.sources import constant
from calc.tips import FAMILIES, SMALLEST_MM, TIPS, WIDEST_MM, Tip, TipUse

FLOWER_WIDTH = constant(2.2, "-", "common-practice", "width of a small five-petalled flower over the petal's slot", low=1.8, high=2.8)
OTHERS: dict[str, Callable[[Tip], float]] = {
    "flower": lambda tip: FLOWER_WIDTH * tip.opening_mm,
    "basketweave": lambda tip: tip.bead_width_mm,
}
EFFECTS = (*sorted(KINDS, key=lambda name: KINDS[name].as_effect), *OTHERS)


@lru_cache(maxsize=256)
def effects_of(use: TipUse) -> tuple[str, ...]:
    """Give what a tip of the table makes, its commonest use first."""
    named = [
        kind.name
        for kind in KINDS.values()
        if any(family == use.tip.family and low <= use.tip.opening_mm <= high for family, low, high in kind.openings)
    ]
    return (*use.makes, *(name for name in named if name not in use.makes))


def effect_size_mm(tip: Tip, effect: str) -> float:
    """Give how wide a tip pipes an effect: across the row, or across a single piece; for a leaf, its length.

    Formula: the opening or the bead times the effect's usual proportion; a rocked line is its movement and one stroke wide.

    Parameters
    ----------
    tip : Tip
        The tip [-]
    effect : str
        One of `EFFECTS` [-]

    Returns
    -------
    float
        Width on the surface [mm]

    Raises
    ------
    ValueError
        There is no such effect.

    Range: any tip, whether or not it suits the effect. Leaves out: more or less pressure than usual.

    Example
    -------
    >>> round(effect_size_mm(Tip("open star", 7), "shell"), 1)
    13.3

    Source: common-practice
    """
    if effect in KINDS:
        return KINDS[effect].across_mm(tip)
    if effect in OTHERS:
        return OTHERS[effect](tip)
    raise ValueError(f"no effect is called {effect!r}")


def opening_for_mm(family: str, effect: str, wanted_mm: float) -> float | None:
    """Give the opening that a wanted size of an effect asks for, in a usual tip of a family.

    Formula: sizes grow in proportion with the opening, so opening = wanted / (size at 10 mm) x 10.

    Parameters
    ----------
    family : str
        Family of the tip [-]
    effect : str
        One of `EFFECTS` [-]
    wanted_mm : float
        Wanted size, as `effect_size_mm` measures it [mm]

    Returns
    -------
    float or None
        Opening, or None when no tip of 0.5 to 60 mm makes it [mm]

    Raises
    ------
    ValueError
        There is no such family or effect, or the size is not positive.

    Range: usual tips of each family. Leaves out: what can be bought.

    Example
    -------
    >>> round(opening_for_mm("open star", "shell", 13.3), 2)
    7.0

    Source: common-practice
    """
    if wanted_mm <= 0:
        raise ValueError("the wanted size must be greater than 0")
    opening = 10.0 * wanted_mm / effect_size_mm(Tip(family, 10.0), effect)
    return opening if SMALLEST_MM <= opening <= WIDEST_MM else None


@dataclass(frozen=True)
class Match:
    """A tip of the table with the size of the effect asked for (its first effect when none was), and how far that is off."""

    use: TipUse
    effect: str
    size_mm: float
    off_percent: float


def find_tips(
    family: str | None = None, opening_mm: float | None = None, effect: str | None = None, wanted_mm: float | None = None, most: int = 8
) -> tuple[Match, ...]:
    """Find the tips of the table that make an effect, nearest in size or in opening first.

    Formula: ranked by |log(size / wanted)|, or |log(opening / given opening)|; equally near ones by opening.

    Parameters
    ----------
    family : str
        Only this family; None takes all [-]
    opening_mm : float
        Opening of the tip in hand; None leaves it open [mm]
    effect : str
        One of `EFFECTS`; None takes what each tip makes first [-]
    wanted_mm : float
        Wanted size of the effect; None leaves it open [mm]
    most : int
        How many to give [-]

    Returns
    -------
    tuple of Match
        Nearest first; without opening and size, in the order of the table [-]

    Raises
    ------
    ValueError
        There is no such family or effect, or a measure is not positive.

    Range: the tips of `TIPS`. Leaves out: the reader's own drawer; `opening_for_mm` says what to look for.

    Example
    -------
    >>> [match.use.tip.name for match in find_tips(effect="shell", wanted_mm=13, most=2)]
    ['open star 7 mm', 'open star 6 mm']

    Source: common-practice
    """
    if family is not None and family not in FAMILIES:
        raise ValueError(f"no family of tips is called {family!r}")
    if effect is not None and effect not in EFFECTS:
        raise ValueError(f"no effect is called {effect!r}")
    for measure in (opening_mm, wanted_mm):
        if measure is not None and measure <= 0:
            raise ValueError("opening and size must be greater than 0")
    found: list[tuple[float, float, int, Match]] = []
    for place, use in enumerate(TIPS):
        if (family and use.tip.family != family) or (effect and effect not in effects_of(use)):
            continue
        shown = effect or effects_of(use)[0]
        size = effect_size_mm(use.tip, shown)
        if wanted_mm is not None and effect is None:
            shown, size = min(((e, effect_size_mm(use.tip, e)) for e in effects_of(use)), key=lambda item: abs(math.log(item[1] / wanted_mm)))
        off = 100 * (size / wanted_mm - 1) if wanted_mm else 100 * (use.tip.opening_mm / opening_mm - 1) if opening_mm else 0.0
        by_size = abs(math.log(size / wanted_mm)) if wanted_mm else 0.0
        by_opening = abs(math.log(use.tip.opening_mm / opening_mm)) if opening_mm else 0.0
        found.append((round(by_size + by_opening, 9), by_opening, place, Match(use, shown, size, off)))
    return tuple(match for *_, match in sorted(found, key=lambda item: item[:3])[:most])
