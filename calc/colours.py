"""How much of each colour, how it is tinted and told apart, and which bags it goes into.

Map
---
`PALETTE`, `hex_of`, `read_colour`      vintage tones under our own names
`Amount`, `amounts_by_colour`           buttercream of each colour, with what stays in bags and bowls, and a margin
`MixStep`, `mixing_order`               lightest first, a common base split off
`Tint`, `tint`                          drops scaled from a small test, with the deepening on standing
`Bag`, `BagPlan`, `bag_plan`            one bag for each colour and tip; couplers that save bags; tips needed twice; washes; refills
`Placed`, `piping_order`, `touches`     an order of piping that touches nothing already piped
`linear_rgb`, `lab`, `ciede2000`, `luminance`, `contrast`   colour by the published formulas
`seen_as`, `Difference`, `difference`   colour-blind sight simulated, and whether two colours can be told apart on the cake

Legend: L*, a*, b* of CIE 1976; dE the CIEDE2000 difference.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Sequence

from calc import units
from calc.sources import constant
from calc.tips import Tip
from calc.units import Problem

_PRACTICE = "common-practice"

PALETTE: dict[str, str] = {
    "plain": "#f4e9cf", "ivory": "#f6efdc", "chalk": "#f7f5ef", "buttermilk": "#faf0c8", "cream": "#f0dfae", "parchment": "#e3d2ac",
    "shell pink": "#f4d9cc", "blush": "#edc4ba", "rosewater": "#e6a9a9", "dusky rose": "#c98e8b", "old rose": "#b2646a",
    "claret": "#7f2237", "mulberry": "#74304f", "damson": "#432a49", "lilac": "#cab6d8", "heather": "#987da6",
    "peach": "#f5c9a4", "apricot": "#edaf78", "marmalade": "#d37c2a", "terracotta": "#c0663f", "russet": "#a04b2c", "brick": "#8a3a2b",
    "straw": "#ead084", "honey": "#dba43c", "mustard": "#b98f2a",
    "pear": "#cbd18c", "sage": "#a8b699", "moss": "#7d8550", "bay": "#566b42", "fir": "#2f4a3c",
    "duck egg": "#bfd9d0", "verdigris": "#6fa596", "forget-me-not": "#9fb9d5", "slate blue": "#66798f", "ink": "#2c3854",
    "mushroom": "#b7a594", "smoke": "#98969a", "cocoa": "#5b3f32",
}
DARK_BELOW = constant(50.0, "-", _PRACTICE, "a colour under this lightness L* counts as dark: it needs much colour and deepens most")


def hex_of(colour: str) -> str | None:
    """Give the sRGB value of a colour by name or as written.

    Formula: none; a table of our own tones, or #rrggbb as it stands.

    Parameters
    ----------
    colour : str
        A name of `PALETTE`, or #rgb or #rrggbb [-]

    Returns
    -------
    str or None
        "#rrggbb", or None for a name that is not in the table [-]

    Raises
    ------
    ValueError
        Never.

    Range: any text. Leaves out: how a colour really turns out in butter.

    Example
    -------
    >>> hex_of("Russet"), hex_of("#ABC"), hex_of("granny's green")
    ('#a04b2c', '#aabbcc', None)

    Source: common-practice
    """
    word = " ".join(colour.lower().split())
    if word in PALETTE:
        return PALETTE[word]
    if re.fullmatch(r"#[0-9a-f]{6}", word):
        return word
    if re.fullmatch(r"#[0-9a-f]{3}", word):
        return "#" + "".join(2 * digit for digit in word[1:])
    return None


def read_colour(text: str, input_name: str, label: str) -> str:
    """Read the name of a colour; any name is taken, and a # must be followed by a value that reads.

    Formula: none.

    Parameters
    ----------
    text : str
        What was typed [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]

    Returns
    -------
    str
        The name, in small letters with single spaces [-]

    Raises
    ------
    Problem
        It is empty, too long, or begins with # and does not read.

    Range: up to 40 characters. Leaves out: whether the name is in `PALETTE`.

    Example
    -------
    >>> read_colour("  Dusky  rose", "colour", "Colour")
    'dusky rose'

    Source: common-practice
    """
    word = " ".join(units.read_text(text, input_name, label).lower().split())
    way = "Write a name like russet, or a value like #a04b2c"
    if not word:
        raise Problem(input_name, f"{label} is empty. {way}")
    if len(word) > 40:
        raise Problem(input_name, f"{label} has {len(word)} characters; 40 is the most. {way}")
    if word.startswith("#") and hex_of(word) is None:
        raise Problem(input_name, f"{label} begins with # and does not read as a colour. {way}")
    return word


# --- how much of each colour -------------------------------------------------------------------------------------------

BAG_LOSS_G = constant(20.0, "g", _PRACTICE, "what stays in a bag and its tip when it is empty", low=10.0, high=35.0)
BOWL_LOSS_SHARE = constant(0.03, "-", _PRACTICE, "what stays on bowl, scraper and palette knife", low=0.01, high=0.06)
MARGIN_SHARE = constant(0.10, "-", _PRACTICE, "made over and above, because a tint can hardly be matched a second time", low=0.05, high=0.20)
ROUND_UP_G = 5.0


@dataclass(frozen=True)
class Amount:
    """Buttercream of one colour: what is used with its range, what stays behind, the margin, and what to make.

    `mass_g` is what to make; `low_g` and `high_g` the range of that. `uses` are (what for, mass) pairs; `bags` how many bags it
    fills. `coat_g` is the part that goes on with the knife.
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


def amounts_by_colour(uses: Sequence[tuple[str, str, float, float, float]], margin: float | None = None,
                      bag_loss_g: float | None = None) -> tuple[Amount, ...]:
    """Add up the buttercream of each colour, and what must be made of it.

    Formula: made = used + bags x loss + 3 % of what is spread + margin x used; the range takes the low or high end of each use.

    Parameters
    ----------
    uses : sequence of (str, str, float, float, float)
        Colour [-], what for [-] ("bag petal 11 mm" for what goes through a bag), mass, low and high end [g]
    margin : float
        Share made over and above; None takes 0.10 [-]
    bag_loss_g : float
        What stays in one bag; None takes 20 g [g]

    Returns
    -------
    tuple of Amount
        One for each colour, lightest first, colours without a known value last [-]

    Raises
    ------
    ValueError
        A mass, the margin or the loss is below nothing.

    Range: any number of uses. Leaves out: what is eaten on the way.

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
        raise ValueError("amounts, losses and a margin are nothing or more")
    by_colour: dict[str, list[tuple[str, float, float, float]]] = {}
    for colour, use, mass, low, high in uses:
        by_colour.setdefault(colour, []).append((use, mass, low, high))
    made = []
    for colour, parts in by_colour.items():
        used, least, most = (math.fsum(part[i] for part in parts) for i in (1, 2, 3))
        if used <= 0:
            continue
        grouped: dict[str, list[float]] = {}
        for use, mass, _, _ in parts:
            grouped.setdefault(use, []).append(mass)
        bags = sum(use.startswith("bag ") and math.fsum(masses) > 0 for use, masses in grouped.items())
        spread = math.fsum(mass for use, mass, _, _ in parts if not use.startswith("bag "))
        loss = bags * left + BOWL_LOSS_SHARE * spread
        total = used + loss + share * used
        made.append(Amount(colour, used, least, most, loss, share * used, total, least + loss + share * least, most + loss + share * most,
                           bags, spread, tuple((use, math.fsum(masses)) for use, masses in grouped.items())))
    return tuple(sorted(made, key=lambda amount: -_lightness(amount.colour)))


def _lightness(colour: str) -> float:
    """L* of a colour; names that are not known sort last."""
    value = hex_of(colour)
    return lab(value)[0] if value else -1.0


# --- bags --------------------------------------------------------------------------------------------------------------

BAG_HOLDS_G = constant(300.0, "g", _PRACTICE, "a 35 cm bag filled half, which a hand can squeeze and close", low=200.0, high=400.0)
COUPLER_WIDEST_MM = constant(13.0, "mm", _PRACTICE, "openings wider than this belong to tips too big for the usual coupler", low=11.0, high=15.0)


@dataclass(frozen=True)
class Bag:
    """One bag: a colour and a tip (several when `tips` share it through a coupler), what it pipes, how often it is filled."""

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
    """Bags without couplers and the fewest with them.

    `bags` are one for each colour and tip, in the order they are first needed; `coupled` the fewest when each colour keeps one bag
    for all its small tips. `couplers` is how many couplers that takes, `saved` how many bags it saves, `changes` how often a tip is
    changed on a coupler in the order given. `twice` are tips needed in more than one colour, with the colours; `washes` how often a
    tip must be washed in that order when there is one of each.
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

    Raises
    ------
    ValueError
        A bag holds nothing.

    Range: any number of rows. Leaves out: the size of the bag and whether a coupler fits a maker's tip; try it first.

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
        raise ValueError("a bag holds more than nothing")
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


# --- colour by the published formulas -----------------------------------------------------------------------------------

_TO_XYZ = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
_WHITE = tuple(math.fsum(row) for row in _TO_XYZ)  # what R = G = B = 1 comes to, so that white is L* = 100 exactly
_EPSILON, _KAPPA = 216 / 24389, 24389 / 27


def linear_rgb(colour: str) -> tuple[float, float, float]:
    """Give the linear light of an sRGB colour.

    Formula: c / 12.92 up to 0.04045, else ((c + 0.055) / 1.055)^2.4.

    Parameters
    ----------
    colour : str
        "#rrggbb" [-]

    Returns
    -------
    tuple of (float, float, float)
        Red, green and blue light, 0 to 1 [-]

    Raises
    ------
    ValueError
        It is not written as #rrggbb.

    Range: sRGB. Leaves out: transparency.

    Example
    -------
    >>> linear_rgb("#ffffff")
    (1.0, 1.0, 1.0)

    Source: srgb
    """
    if not re.fullmatch(r"#[0-9a-fA-F]{6}", colour):
        raise ValueError("a colour value is written #rrggbb")
    parts = [int(colour[i:i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return red, green, blue


def _lab_of(light: tuple[float, float, float]) -> tuple[float, float, float]:
    scaled = [math.fsum(k * c for k, c in zip(row, light, strict=True)) / white for row, white in zip(_TO_XYZ, _WHITE, strict=True)]
    x, y, z = (math.cbrt(t) if t > _EPSILON else (_KAPPA * t + 16) / 116 for t in scaled)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


@lru_cache(maxsize=1024)
def lab(colour: str) -> tuple[float, float, float]:
    """Give L*, a*, b* of an sRGB colour.

    Formula: XYZ by the sRGB matrix, f(t) = cube root of t above 216/24389, else (24389/27 t + 16)/116; L* = 116 f(Y) - 16,
    a* = 500 (f(X) - f(Y)), b* = 200 (f(Y) - f(Z)).

    Parameters
    ----------
    colour : str
        "#rrggbb" [-]

    Returns
    -------
    tuple of (float, float, float)
        L*, a*, b* against the D65 white of sRGB [-]

    Raises
    ------
    ValueError
        It is not written as #rrggbb.

    Range: sRGB. Leaves out: other whites.

    Example
    -------
    >>> [round(v, 3) + 0.0 for v in lab("#ffffff")]
    [100.0, 0.0, 0.0]

    Source: cie-lab
    """
    return _lab_of(linear_rgb(colour))


def ciede2000(first: tuple[float, float, float], second: tuple[float, float, float]) -> float:
    """Give the CIEDE2000 difference of two colours.

    Formula: as published, with kL = kC = kH = 1: differences of L', C', h' over SL, SC, SH, and the rotation term RT.

    Parameters
    ----------
    first : tuple of (float, float, float)
        L*, a*, b* [-]
    second : tuple of (float, float, float)
        L*, a*, b* [-]

    Returns
    -------
    float
        Difference; about 1 is just seen side by side [-]

    Raises
    ------
    ValueError
        Never.

    Range: any L*, a*, b*. Leaves out: the surface; buttercream's sheen and shadow add differences of their own. At hues exactly half
    a turn apart the published formula jumps.

    Example
    -------
    >>> round(ciede2000((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485)), 4)
    2.0425

    Source: ciede2000
    """
    l1, a1, b1 = first
    l2, a2, b2 = second
    chroma_mean = (math.hypot(a1, b1) + math.hypot(a2, b2)) / 2
    seventh = chroma_mean ** 7
    g = 0.5 * (1 - math.sqrt(seventh / (seventh + 25.0 ** 7)))
    a1, a2 = (1 + g) * a1, (1 + g) * a2
    c1, c2 = math.hypot(a1, b1), math.hypot(a2, b2)
    h1 = math.degrees(math.atan2(b1, a1)) % 360 if c1 else 0.0
    h2 = math.degrees(math.atan2(b2, a2)) % 360 if c2 else 0.0
    turn = h2 - h1
    if not c1 * c2:
        turn = 0.0
    elif turn > 180:
        turn -= 360
    elif turn < -180:
        turn += 360
    d_light, d_chroma = l2 - l1, c2 - c1
    d_hue = 2 * math.sqrt(c1 * c2) * math.sin(math.radians(turn) / 2)
    light, chroma = (l1 + l2) / 2, (c1 + c2) / 2
    if not c1 * c2:
        hue = h1 + h2
    elif abs(h1 - h2) <= 180:
        hue = (h1 + h2) / 2
    else:
        hue = (h1 + h2 + 360) / 2 if h1 + h2 < 360 else (h1 + h2 - 360) / 2
    t = (1 - 0.17 * math.cos(math.radians(hue - 30)) + 0.24 * math.cos(math.radians(2 * hue))
         + 0.32 * math.cos(math.radians(3 * hue + 6)) - 0.20 * math.cos(math.radians(4 * hue - 63)))
    s_light = 1 + 0.015 * (light - 50) ** 2 / math.sqrt(20 + (light - 50) ** 2)
    s_chroma = 1 + 0.045 * chroma
    s_hue = 1 + 0.015 * chroma * t
    seventh = chroma ** 7
    turned = -2 * math.sqrt(seventh / (seventh + 25.0 ** 7)) * math.sin(math.radians(60 * math.exp(-(((hue - 275) / 25) ** 2))))
    parts = d_light / s_light, d_chroma / s_chroma, d_hue / s_hue
    return math.sqrt(max(0.0, parts[0] ** 2 + parts[1] ** 2 + parts[2] ** 2 + turned * parts[1] * parts[2]))


def luminance(colour: str) -> float:
    """Give the relative luminance of an sRGB colour.

    Formula: 0.2126 R + 0.7152 G + 0.0722 B in linear light.

    Parameters
    ----------
    colour : str
        "#rrggbb" [-]

    Returns
    -------
    float
        0 for black to 1 for white [-]

    Raises
    ------
    ValueError
        It is not written as #rrggbb.

    Range: sRGB. Leaves out: nothing.

    Example
    -------
    >>> round(luminance("#ffffff"), 12)
    1.0

    Source: wcag-22
    """
    red, green, blue = linear_rgb(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: str, second: str) -> float:
    """Give the contrast ratio of two sRGB colours.

    Formula: (L1 + 0.05) / (L2 + 0.05), the lighter over the darker.

    Parameters
    ----------
    first : str
        "#rrggbb" [-]
    second : str
        "#rrggbb" [-]

    Returns
    -------
    float
        1 to 21 [-]

    Raises
    ------
    ValueError
        A colour is not written as #rrggbb.

    Range: sRGB. Leaves out: hue.

    Example
    -------
    >>> round(contrast("#000000", "#ffffff"), 9)
    21.0

    Source: wcag-22
    """
    lighter, darker = sorted((luminance(first), luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


# Machado, Oliveira and Fernandes (2009), the matrices for severity 1.0, applied to linear light.
SIGHT: dict[str, tuple[tuple[float, float, float], ...]] = {
    "protanopia": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deuteranopia": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritanopia": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}
SIGHT_WORDS = {"protanopia": "no red receptors (about 1 man in 100)", "deuteranopia": "no green receptors (about 1 man in 100)",
               "tritanopia": "no blue receptors (rare)"}


def _seen_light(colour: str, sight: str) -> tuple[float, float, float]:
    light = linear_rgb(colour)
    red, green, blue = (min(1.0, max(0.0, math.fsum(k * c for k, c in zip(row, light, strict=True)))) for row in SIGHT[sight])
    return red, green, blue


def seen_as(colour: str, sight: str) -> str:
    """Give the colour that stands for how an eye without one kind of receptor sees a colour.

    Formula: linear light times the published matrix for severity 1.0, held to 0 to 1, back to sRGB.

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

    Raises
    ------
    ValueError
        It is not written as #rrggbb, or there is no such sight.

    Range: sRGB, complete loss of one receptor. Leaves out: the far commoner partial loss, which lies between this and full sight.

    Example
    -------
    >>> seen_as("#ffffff", "deuteranopia")
    '#ffffff'

    Source: machado-2009
    """
    if sight not in SIGHT:
        raise ValueError(f"no sight is called {sight!r}")
    encoded = (12.92 * c if c <= 0.0031308 else 1.055 * c ** (1 / 2.4) - 0.055 for c in _seen_light(colour, sight))
    return "#" + "".join(f"{round(255 * c):02x}" for c in encoded)


CLEAR_FROM = constant(10.0, "-", _PRACTICE, "a CIEDE2000 difference that reads across a room; ridges and shadow blur less than this", low=7.0, high=15.0)
CLOSE_FROM = constant(5.0, "-", _PRACTICE, "a CIEDE2000 difference that shows where two rows touch", low=3.0, high=7.0)


@dataclass(frozen=True)
class Difference:
    """CIEDE2000 differences of two colours for full sight and for each simulated one, and the word for it.

    `verdict` is "clear", "close" or "same" for full sight; `least` the smallest of all and `least_sight` whose it is.
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

    Raises
    ------
    ValueError
        A colour is not written as #rrggbb.

    Range: sRGB in even light. Leaves out: candlelight, sheen, and shadows in the piping.

    Example
    -------
    >>> found = difference(PALETTE["russet"], PALETTE["cream"])
    >>> found.verdict
    'clear'

    Source: ciede2000, machado-2009, common-practice
    """
    normal = ciede2000(lab(first), lab(second))
    by_sight = {sight: ciede2000(_lab_of(_seen_light(first, sight)), _lab_of(_seen_light(second, sight))) for sight in SIGHT}
    least_sight, least = min((("full sight", normal), *by_sight.items()), key=lambda item: item[1])
    verdict = "clear" if normal >= CLEAR_FROM else "close" if normal >= CLOSE_FROM else "same"
    return Difference(first, second, normal, by_sight["protanopia"], by_sight["deuteranopia"], by_sight["tritanopia"], verdict, least, least_sight)
