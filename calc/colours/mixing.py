"""Which colour is mixed from which, and a tint scaled from a small test. It may import `sources`.

Map
---
`MixStep`, `mixing_order`   lightest first, bases shared
`Tint`, `tint`              drops for a batch, with the deepening on standing
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.colours.colour_space import ciede2000, lab
from calc.colours.palette import hex_of, lightness
from calc.sources import constant

_PRACTICE = "common-practice"

DARK_BELOW = constant(50.0, "-", _PRACTICE, "a colour under this lightness L* counts as dark: it needs much colour and deepens most")
SAME_HUE_DEG = constant(28.0, "deg", _PRACTICE, "hues nearer than this come from one base by adding more of the same", low=20.0, high=35.0)
NEUTRAL_BELOW = constant(
    7.0, "-", _PRACTICE, "a tone of less chroma than this is near enough to white to be the base of any colour", low=5.0, high=10.0
)
LIGHTER_BY = constant(4.0, "-", _PRACTICE, "a base is lighter than what is mixed from it by at least this in L*", low=2.0, high=6.0)


@dataclass(frozen=True)
class MixStep:
    """One bowl: the colour, what it is mixed from ("plain" or an earlier colour), how much is tinted in all and how much stays this colour.

    `split` are the colours taken from this bowl afterwards, with the mass of each.
    """

    colour: str
    base: str
    whole_g: float
    own_g: float
    split: tuple[tuple[str, float], ...]
    dark: bool

    def sentence(self, write: Callable[[float], str]) -> str:
        """The step in words; `write` puts a mass into the reader's units."""
        if self.colour == "plain":
            return f"Keep {write(self.own_g)} plain."
        text = f"Tint {write(self.whole_g)} {'of plain' if self.base == 'plain' else f'taken from the {self.base}'} to {self.colour}."
        if self.split:
            taken = " and ".join(f"{write(mass)} for {colour}" for colour, mass in self.split)
            text += f" Take off {taken}; {write(self.own_g)} stays {self.colour}."
        if self.dark:
            text += " Mix it the day before and a shade light: it deepens most."
        return text


def mixing_order(amounts: Sequence[tuple[str, float]]) -> tuple[MixStep, ...]:
    """Order the colours for mixing: lightest first, so that no bowl need be washed, with one base for colours of one hue.

    Formula: sorted by L*; each is taken from the nearest (CIEDE2000) lighter tone of the same hue, within 28 degrees, or from a
    near-white one; otherwise from plain. A bowl holds its own mass and everything taken from it.

    Parameters
    ----------
    amounts : sequence of (str, float)
        Colour [-] and mass to make [g]

    Returns
    -------
    tuple of MixStep
        One bowl for each colour, in order; colours without a known value last, from plain [-]

    Range: any colours; the colouring at hand may not give every tone from every base. Raises ValueError for a negative mass.

    Example
    -------
    >>> [(s.colour, s.base, s.whole_g) for s in mixing_order([("russet", 200.0), ("cream", 150.0), ("terracotta", 100.0)])]
    [('cream', 'plain', 150.0), ('terracotta', 'plain', 300.0), ('russet', 'terracotta', 200.0)]

    Source: common-practice
    """
    masses: dict[str, float] = {}
    for colour, mass in amounts:
        if mass < 0:
            raise ValueError("a mass cannot be negative")
        masses[colour] = masses.get(colour, 0.0) + mass
    ordered = sorted((c for c, mass in masses.items() if mass > 0), key=lambda c: (c != "plain", -lightness(c)))
    base_of: dict[str, str] = {}
    for i, colour in enumerate(ordered):
        base_of[colour] = _base(colour, ordered[:i])
    whole = {colour: masses[colour] for colour in ordered}
    for colour in reversed(ordered):
        if base_of[colour] in whole and base_of[colour] != "plain":
            whole[base_of[colour]] += whole[colour]
    return tuple(
        MixStep(
            colour,
            base_of[colour],
            whole[colour],
            masses[colour],
            () if colour == "plain" else tuple((c, whole[c]) for c in ordered if base_of[c] == colour),
            0 <= lightness(colour) < DARK_BELOW,
        )
        for colour in ordered
    )


@lru_cache(maxsize=1024)
def _distance_from_base(colour: str, base: str) -> float | None:
    """The CIEDE2000 difference of a colour and a base, or None where the colour cannot be mixed from that base."""
    value, under = hex_of(colour), hex_of(base)
    if value is None or under is None or base == "plain":
        return None
    l1, a1, b1 = lab(under)
    l2, a2, b2 = lab(value)
    chroma_1, chroma_2 = math.hypot(a1, b1), math.hypot(a2, b2)
    if l1 < l2 + LIGHTER_BY or chroma_1 > chroma_2 + 3:
        return None
    turn = abs((math.degrees(math.atan2(b2, a2) - math.atan2(b1, a1)) + 180) % 360 - 180)
    if chroma_1 >= NEUTRAL_BELOW and turn > SAME_HUE_DEG:
        return None
    return ciede2000(lab(under), lab(value))


def _base(colour: str, lighter: Sequence[str]) -> str:
    """The nearest of the lighter colours that a colour can be mixed from, else plain."""
    found = [(apart, base) for base in lighter for apart in [_distance_from_base(colour, base)] if apart is not None]
    return min(found)[1] if found else "plain"


DEPTHS = ("pale", "middling", "deep")
DEEPENING = {
    "pale": constant(
        0.05, "-", _PRACTICE, "how much deeper a pale tint looks after a night, as if it had had so many more drops", low=0.0, high=0.10
    ),
    "middling": constant(0.15, "-", _PRACTICE, "how much deeper a middling tint looks after a night", low=0.05, high=0.25),
    "deep": constant(0.30, "-", _PRACTICE, "how much deeper a deep tint looks after a night, reds and blacks most of all", low=0.15, high=0.50),
}
DEEPENING_MIN = constant(180.0, "min", _PRACTICE, "two thirds of the deepening happens in about this time", low=90.0, high=360.0)


@dataclass(frozen=True)
class Tint:
    """Drops for a batch, and how many test portions it makes.

    `drops` is the exact number, `whole_drops` the nearest whole one and `off_percent` its error. `parts` is the batch over the test.
    `g_per_drop` is how much buttercream one drop tints. `deepens_percent` is how much deeper it will look at the table than when the
    test was judged; `drops` already allows for that.
    """

    drops: float
    parts: float
    whole_drops: int
    off_percent: float
    g_per_drop: float
    deepens_percent: float


def tint(
    test_mass_g: float,
    test_drops: float,
    mass_g: float,
    depth: str = "middling",
    test_stood_min: float | None = None,
    will_stand_min: float | None = None,
) -> Tint:
    """Scale a tint from a small test to a batch.

    Formula: drops = test drops x M / m x (1 + d f(test)) / (1 + d f(batch)), f(t) = 1 - exp(-t / 180 min), d the depth's deepening;
    with no times given, drops = test drops x M / m.

    Parameters
    ----------
    test_mass_g : float
        Mass of the test m [g]
    test_drops : float
        Drops it took [-]
    mass_g : float
        Mass of the batch M [g]
    depth : str
        "pale", "middling" or "deep" [-]
    test_stood_min : float
        How long the test had stood when it was judged; None with `will_stand_min` None leaves deepening out [min]
    will_stand_min : float
        How long the batch stands before it is looked at [min]

    Returns
    -------
    Tint
        Drops, parts and what to expect [-]

    Range: liquid or gel drops from one bottle into the same buttercream; not pastes taken with a knife tip. Light bleaches, which is
    not counted. Raises ValueError unless masses and drops are positive and the depth is one of `DEPTHS`.

    Example
    -------
    >>> found = tint(50, 3, 400)
    >>> found.drops, found.parts
    (24.0, 8.0)

    Source: common-practice
    """
    if test_mass_g <= 0 or mass_g <= 0 or test_drops <= 0:
        raise ValueError("a test, its drops and a batch are positive")
    if depth not in DEPTHS:
        raise ValueError(f"no depth is called {depth!r}")
    parts = mass_g / test_mass_g
    later = 1.0
    if test_stood_min is not None or will_stand_min is not None:
        d = DEEPENING[depth]
        later = (1 + d * _deepened(will_stand_min or 0.0)) / (1 + d * _deepened(test_stood_min or 0.0))
    drops = test_drops * parts / later
    whole = max(1, round(drops))
    return Tint(drops, parts, whole, 100 * (whole / drops - 1), mass_g / drops, 100 * (later - 1))


def _deepened(stood_min: float) -> float:
    """The share of the deepening that has happened after standing for a time."""
    return -math.expm1(-max(0.0, stood_min) / DEEPENING_MIN)
