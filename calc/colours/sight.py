"""How colour-blind eyes see a colour, and whether two colours can be told apart on the cake. It may import `sources`.

Map
---
`SIGHT`, `seen_as`           the published matrices; a colour as such an eye sees it
`Difference`, `difference`   CIEDE2000 for every kind of sight, and a verdict
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from calc.colours.colour_space import ciede2000, lab, lab_of_light, linear_rgb
from calc.sources import constant

_PRACTICE = "common-practice"

# Machado, Oliveira and Fernandes (2009), the matrices for severity 1.0, applied to linear light.
SIGHT: dict[str, tuple[tuple[float, float, float], ...]] = {
    "protanopia": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deuteranopia": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritanopia": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}
# How common each is, in round numbers from memory.
SIGHT_WORDS = {
    "protanopia": "no red receptors (about 1 man in 100)",
    "deuteranopia": "no green receptors (about 1 man in 100)",
    "tritanopia": "no blue receptors (rare)",
}


def _seen_light(colour: str, sight: str) -> tuple[float, float, float]:
    """Linear light of a colour as seen with one kind of sight, each part clamped to 0 to 1."""
    light = linear_rgb(colour)
    red, green, blue = (min(1.0, max(0.0, math.fsum(k * c for k, c in zip(row, light, strict=True)))) for row in SIGHT[sight])
    return red, green, blue


def seen_as(colour: str, sight: str) -> str:
    """Give a colour as an eye without one kind of receptor sees it.

    Formula: linear light times the published matrix for severity 1.0, clipped to 0 to 1, back to sRGB.

    Parameters
    ----------
    colour : str
        "#rrggbb" [-]
    sight : str
        "protanopia", "deuteranopia" or "tritanopia" [-]

    Returns
    -------
    str
        "#rrggbb" [-]

    Range: sRGB, complete loss of one receptor; the far commoner partial loss lies between this and full sight. Raises ValueError for
    anything but #rrggbb and a name of `SIGHT`.

    Example
    -------
    >>> seen_as("#ffffff", "deuteranopia")
    '#ffffff'

    Source: machado-2009 (matrices for severity 1.0)
    """
    if sight not in SIGHT:
        raise ValueError(f"unknown kind of sight {sight!r}")
    encoded: list[float] = [12.92 * c if c <= 0.0031308 else 1.055 * c ** (1 / 2.4) - 0.055 for c in _seen_light(colour, sight)]
    return "#" + "".join(f"{round(255 * c):02x}" for c in encoded)


CLEAR_FROM = constant(
    10.0, "-", _PRACTICE, "a CIEDE2000 difference that reads across a room; ridges and shadow blur less than this", low=7.0, high=15.0
)
CLOSE_FROM = constant(5.0, "-", _PRACTICE, "a CIEDE2000 difference that shows where two rows touch", low=3.0, high=7.0)


@dataclass(frozen=True)
class Difference:
    """CIEDE2000 differences of two colours for full sight and each simulated one, with a verdict.

    `verdict` is "clear", "close" or "same" for full sight; `least` is the smallest difference of all and `least_sight` the sight that has it.
    """

    first: str
    second: str
    normal: float
    protanopia: float
    deuteranopia: float
    tritanopia: float
    verdict: str
    least: float
    least_sight: str


@lru_cache(maxsize=2048)
def difference(first: str, second: str) -> Difference:
    """Say whether two colours can be told apart on the cake, by full and by colour-blind sight.

    Formula: CIEDE2000 of both as they are and as `seen_as` has them; clear from 10, close from 5, the same below.

    Parameters
    ----------
    first : str
        "#rrggbb" [-]
    second : str
        "#rrggbb" [-]

    Returns
    -------
    Difference
        Differences and the word for them [-]

    Range: sRGB in even light; not candlelight, sheen or the shadows in the piping. Raises ValueError unless written as #rrggbb.

    Example
    -------
    >>> from calc.colours import PALETTE
    >>> found = difference(PALETTE["russet"], PALETTE["cream"])
    >>> found.verdict
    'clear'

    Source: ciede2000 (eqs. 2 to 22), machado-2009 (matrices for severity 1.0), common-practice
    """
    normal = ciede2000(lab(first), lab(second))
    by_sight = {sight: ciede2000(lab_of_light(_seen_light(first, sight)), lab_of_light(_seen_light(second, sight))) for sight in SIGHT}
    least_sight, least = min((("full sight", normal), *by_sight.items()), key=lambda item: item[1])
    verdict = "clear" if normal >= CLEAR_FROM else "close" if normal >= CLOSE_FROM else "same"
    return Difference(first, second, normal, by_sight["protanopia"], by_sight["deuteranopia"], by_sight["tritanopia"], verdict, least, least_sight)
