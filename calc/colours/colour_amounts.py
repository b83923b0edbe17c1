"""How much buttercream of each colour to make. It may import `sources`.

Map
---
`Amount`, `amounts_by_colour`, `SHARED`   what is used, what stays in bags and bowls, and a margin
`CAUTIONS`                      what to say wherever colourings and glitters are handled
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.colours.palette import lightness
from calc.sources import constant

_PRACTICE = "common-practice"

BAG_LOSS_G = constant(20.0, "g", _PRACTICE, "what stays in a bag and its tip when it is empty", low=10.0, high=35.0)
BOWL_LOSS_SHARE = constant(0.03, "-", _PRACTICE, "what stays on bowl, scraper and palette knife", low=0.01, high=0.06)
MARGIN_SHARE = constant(0.10, "-", _PRACTICE, "made to spare, because a tint can hardly be matched a second time", low=0.05, high=0.20)
SHARED = ", half of a bag"  # ends the use of a bag that holds another colour beside this one


@dataclass(frozen=True)
class Amount:
    """Buttercream of one colour: what is used with its range, what stays behind, the margin, and what to make.

    `mass_g` is what to make, `low_g` and `high_g` its range. `uses` are (what for, mass) pairs; `bags` is how many bags it fills;
    `coat_g` is the part that is spread with a palette knife.
    """

    colour: str
    used_g: float
    used_low_g: float
    used_high_g: float
    loss_g: float
    margin_g: float
    mass_g: float
    low_g: float
    high_g: float
    bags: int
    coat_g: float
    uses: tuple[tuple[str, float], ...]


def amounts_by_colour(
    uses: Sequence[tuple[str, str, float, float, float]], margin: float | None = None, bag_loss_g: float | None = None
) -> tuple[Amount, ...]:
    """Add up the buttercream of each colour, and what must be made of it.

    Formula: made = used + bags x loss (half of it in a bag that two colours share) + 3 % of what is spread + margin x used; the range takes the
    low or high end of each use.

    Parameters
    ----------
    uses : sequence of (str, str, float, float, float)
        Colour [-], what for [-] ("bag petal 11 mm" for what goes through a bag), mass, low and high end [g]
    margin : float
        Share made to spare; None takes 0.10 [-]
    bag_loss_g : float
        What stays in one bag; None takes 20 g [g]

    Returns
    -------
    tuple of Amount
        One for each colour, lightest first, colours without a known value last [-]

    Range: any number of uses. Raises ValueError if a mass, the margin or the loss is negative.

    Example
    -------
    >>> made = amounts_by_colour([("russet", "bag petal 11 mm", 80.0, 60.0, 100.0)])[0]
    >>> made.mass_g, made.bags
    (108.0, 1)

    Source: common-practice
    """
    share = float(MARGIN_SHARE) if margin is None else margin
    left = float(BAG_LOSS_G) if bag_loss_g is None else bag_loss_g
    if share < 0 or left < 0 or any(mass < 0 or low < 0 or high < 0 for _, _, mass, low, high in uses):
        raise ValueError("amounts, losses and the margin cannot be negative")
    by_colour: dict[str, list[tuple[str, float, float, float]]] = {}
    for colour, use, mass, low, high in uses:
        by_colour.setdefault(colour, []).append((use, mass, low, high))
    made = []
    for colour, parts in by_colour.items():
        used = math.fsum(part[1] for part in parts)
        least, most = math.fsum(part[2] for part in parts), math.fsum(part[3] for part in parts)
        if used <= 0:
            continue
        grouped: dict[str, list[float]] = {}
        for use, mass, _, _ in parts:
            grouped.setdefault(use, []).append(mass)
        bags = sum(use.startswith("bag ") and math.fsum(masses) > 0 for use, masses in grouped.items())
        spread = math.fsum(mass for use, mass, _, _ in parts if not use.startswith("bag "))
        halves = sum(use.endswith(SHARED) for use in grouped)
        loss = (bags - halves / 2) * left + BOWL_LOSS_SHARE * spread
        total = used + loss + share * used
        made.append(
            Amount(
                colour,
                used,
                least,
                most,
                loss,
                share * used,
                total,
                least + loss + share * least,
                most + loss + share * most,
                bags,
                spread,
                tuple((use, math.fsum(masses)) for use, masses in grouped.items()),
            )
        )
    return tuple(sorted(made, key=lambda amount: -lightness(amount.colour)))


# What to say wherever colourings are handled, with its sources. Local rules come first.
CAUTIONS: tuple[tuple[str, str], ...] = (
    (
        "Use colours sold for food, within the amount on their label. In the UK and the EU six of them (E 102, E 104, E 110, E 122, E 124, "
        "E 129) carry a warning about activity and attention in children; strong reds and yellows often hold them. Your local rules decide what "
        "guests must be told.",
        "eu-1333",
    ),
    (
        "Glitters and dusts marked non-toxic or for decoration only are not food: do not put them on anything that will be eaten. Look for edible "
        "on the label, "
        "and a list of ingredients.",
        "fsa-glitter, fda-decorations",
    ),
)
