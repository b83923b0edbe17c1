"""How much of each colour, how it is tinted and told apart, and which bags it goes into.

Map
---
`PALETTE`, `hex_of`, `read_colour`      vintage tones under our own names
`Amount`, `amounts_by_colour`           buttercream of each colour, with what stays in bags and bowls, and a margin
`CAUTIONS`                              what must be said about colourings and glitters
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
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc import units
from calc.sources import constant
from calc.tips import Tip
from calc.units import Problem

_PRACTICE = "common-practice"

PALETTE: dict[str, str] = {
    "plain": "#f4e9cf",
    "ivory": "#f6efdc",
    "chalk": "#f7f5ef",
    "buttermilk": "#faf0c8",
    "cream": "#f0dfae",
    "parchment": "#e3d2ac",
    "shell pink": "#f4d9cc",
    "blush": "#edc4ba",
    "rosewater": "#e6a9a9",
    "dusky rose": "#c98e8b",
    "old rose": "#b2646a",
    "claret": "#7f2237",
    "mulberry": "#74304f",
    "damson": "#432a49",
    "lilac": "#cab6d8",
    "heather": "#987da6",
    "peach": "#f5c9a4",
    "apricot": "#edaf78",
    "marmalade": "#d37c2a",
    "terracotta": "#c0663f",
    "russet": "#a04b2c",
    "brick": "#8a3a2b",
    "straw": "#ead084",
    "honey": "#dba43c",
    "mustard": "#b98f2a",
    "pear": "#cbd18c",
    "sage": "#a8b699",
    "moss": "#7d8550",
    "bay": "#566b42",
    "fir": "#2f4a3c",
    "duck egg": "#bfd9d0",
    "verdigris": "#6fa596",
    "forget-me-not": "#9fb9d5",
    "slate blue": "#66798f",
    "ink": "#2c3854",
    "mushroom": "#b7a594",
    "smoke": "#98969a",
    "cocoa": "#5b3f32",
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


def amounts_by_colour(
    uses: Sequence[tuple[str, str, float, float, float]], margin: float | None = None, bag_loss_g: float | None = None
) -> tuple[Amount, ...]:
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
        used = math.fsum(part[1] for part in parts)
        least, most = math.fsum(part[2] for part in parts), math.fsum(part[3] for part in parts)
        if used <= 0:
            continue
        grouped: dict[str, list[float]] = {}
        for use, mass, _, _ in parts:
            grouped.setdefault(use, []).append(mass)
        bags = sum(use.startswith("bag ") and math.fsum(masses) > 0 for use, masses in grouped.items())
        spread = math.fsum(mass for use, mass, _, _ in parts if not use.startswith("bag "))
        loss = bags * left + BOWL_LOSS_SHARE * spread
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
    return tuple(sorted(made, key=lambda amount: -_lightness(amount.colour)))


def _lightness(colour: str) -> float:
    """L* of a colour; names that are not known sort last."""
    value = hex_of(colour)
    return lab(value)[0] if value else -1.0


# What must be said wherever colour is handled, with the sources it rests on. Local rules go before all of it.
CAUTIONS: tuple[tuple[str, str], ...] = (
    (
        "Use colours sold for food, within the amount on their label. In the UK and the EU six of them (E 102, E 104, E 110, E 122, E 124, "
        "E 129) carry a warning about activity and attention in children; strong reds and yellows often hold them. Your local rules decide what "
        "must be told to guests.",
        "eu-1333",
    ),
    (
        "Glitters and dusts marked non-toxic or for decoration only are not food: put them on nothing that is eaten. Look for edible on the label, "
        "and a list of ingredients.",
        "fsa-glitter, fda-decorations",
    ),
)


# --- mixing ------------------------------------------------------------------------------------------------------------

SAME_HUE_DEG = constant(28.0, "deg", _PRACTICE, "hues nearer than this come from one base by adding more of the same", low=20.0, high=35.0)
NEUTRAL_BELOW = constant(
    7.0, "-", _PRACTICE, "a tone of less chroma than this is near enough to white to be the base of any colour", low=5.0, high=10.0
)
LIGHTER_BY = constant(4.0, "-", _PRACTICE, "a base is lighter than what is mixed from it by at least this in L*", low=2.0, high=6.0)


@dataclass(frozen=True)
class MixStep:
    """One bowl: the colour, what it is mixed from ("plain" or a colour mixed before), how much is tinted in all and what is kept of it.

    `split` are the colours taken from this bowl afterwards, with the mass of each.
    """

    colour: str
    base: str
    whole_g: float
    own_g: float
    split: tuple[tuple[str, float], ...]
    dark: bool

    def sentence(self, say: units.Say) -> str:
        """The step in words, in the reader's units."""
        if self.colour == "plain":
            return f"Keep {say.mass(self.own_g)} plain."
        text = f"Tint {say.mass(self.whole_g)} {'of plain' if self.base == 'plain' else f'taken from the {self.base}'} to {self.colour}."
        if self.split:
            taken = " and ".join(f"{say.mass(mass)} for {colour}" for colour, mass in self.split)
            text += f" Take off {taken}; {say.mass(self.own_g)} stays {self.colour}."
        if self.dark:
            text += " Mix it the day before and a shade light: it deepens most."
        return text


def mixing_order(amounts: Sequence[tuple[str, float]]) -> tuple[MixStep, ...]:
    """Put the colours in the order they are mixed: lightest first, so that a bowl need not be washed, and a common base split off.

    Formula: sorted by L*; each is taken from the nearest (CIEDE2000) lighter tone of the same hue, within 28 degrees, or from a
    near-white one; otherwise from plain. A bowl holds its own mass and all that is taken from it.

    Parameters
    ----------
    amounts : sequence of (str, float)
        Colour [-] and mass to make [g]

    Returns
    -------
    tuple of MixStep
        One bowl for each colour, in order; colours without a known value last, from plain [-]

    Raises
    ------
    ValueError
        A mass is below nothing.

    Range: any colours. Leaves out: the colouring at hand, which may not give every tone from every base.

    Example
    -------
    >>> [(s.colour, s.base, s.whole_g) for s in mixing_order([("russet", 200.0), ("cream", 150.0), ("terracotta", 100.0)])]
    [('cream', 'plain', 150.0), ('terracotta', 'plain', 300.0), ('russet', 'terracotta', 200.0)]

    Source: common-practice
    """
    masses: dict[str, float] = {}
    for colour, mass in amounts:
        if mass < 0:
            raise ValueError("a mass is nothing or more")
        masses[colour] = masses.get(colour, 0.0) + mass
    ordered = sorted((c for c, mass in masses.items() if mass > 0), key=lambda c: (c != "plain", -_lightness(c)))
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
            0 <= _lightness(colour) < DARK_BELOW,
        )
        for colour in ordered
    )


@lru_cache(maxsize=1024)
def _from(colour: str, base: str) -> float | None:
    """How far apart a colour and a base for it are, or None when the one cannot be mixed from the other."""
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
    found = [(apart, base) for base in lighter for apart in [_from(colour, base)] if apart is not None]
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

    `drops` is the exact number, `whole_drops` what can be counted, `off_percent` how much that is out. `parts` is the batch over the
    test. `g_per_drop` is how much buttercream one drop tints. `deepens_percent` is by how much it will look deeper at the table than
    when the test was judged, already allowed for in `drops`.
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

    Raises
    ------
    ValueError
        A mass or the drops are not above nothing, or there is no such depth.

    Range: liquid or gel drops from one bottle into the same buttercream. Leaves out: pastes taken with a knife tip, and light, which
    bleaches.

    Example
    -------
    >>> found = tint(50, 3, 400)
    >>> found.drops, found.parts
    (24.0, 8.0)

    Source: common-practice
    """
    if test_mass_g <= 0 or mass_g <= 0 or test_drops <= 0:
        raise ValueError("a test, its drops and a batch are more than nothing")
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
    return -math.expm1(-max(0.0, stood_min) / DEEPENING_MIN)


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


# --- the order of piping ------------------------------------------------------------------------------------------------

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

    Raises
    ------
    ValueError
        Never.

    Range: rows on a side. Leaves out: a small hand.

    Example
    -------
    >>> tip = Tip("petal", 11)
    >>> touches([Placed("ruched swag", "side", "russet", tip, 0, 15, 5, 5, 11, 30), Placed("line", "side", "cream", Tip("round", 2), 0, 52, 1, 1, 2)])
    ((1, 0),)

    Source: common-practice
    """
    return tuple((later, earlier) for later, row in enumerate(rows) for earlier in range(later) if _in_the_way(rows[earlier], row))


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
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
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
    seventh = chroma_mean**7
    g = 0.5 * (1 - math.sqrt(seventh / (seventh + 25.0**7)))
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
    t = (
        1
        - 0.17 * math.cos(math.radians(hue - 30))
        + 0.24 * math.cos(math.radians(2 * hue))
        + 0.32 * math.cos(math.radians(3 * hue + 6))
        - 0.20 * math.cos(math.radians(4 * hue - 63))
    )
    s_light = 1 + 0.015 * (light - 50) ** 2 / math.sqrt(20 + (light - 50) ** 2)
    s_chroma = 1 + 0.045 * chroma
    s_hue = 1 + 0.015 * chroma * t
    seventh = chroma**7
    turned = -2 * math.sqrt(seventh / (seventh + 25.0**7)) * math.sin(math.radians(60 * math.exp(-(((hue - 275) / 25) ** 2))))
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
# How common each is, in round numbers from memory.
SIGHT_WORDS = {
    "protanopia": "no red receptors (about 1 man in 100)",
    "deuteranopia": "no green receptors (about 1 man in 100)",
    "tritanopia": "no blue receptors (rare)",
}


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
    encoded: list[float] = [12.92 * c if c <= 0.0031308 else 1.055 * c ** (1 / 2.4) - 0.055 for c in _seen_light(colour, sight)]
    return "#" + "".join(f"{round(255 * c):02x}" for c in encoded)


CLEAR_FROM = constant(
    10.0, "-", _PRACTICE, "a CIEDE2000 difference that reads across a room; ridges and shadow blur less than this", low=7.0, high=15.0
)
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
