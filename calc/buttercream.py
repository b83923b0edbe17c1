"""Buttercream: recipes by mass, density, how much to make, and the advice that goes with it. It may import `units` and `sources`.

Map
---
`RECIPES`, `INGREDIENTS`, `WHIPPED`   the data, from `calc.buttercream_data`
`airless_density_g_per_ml`            of a mixture, from the densities of what is in it
`density_g_per_ml`                    with the air whipped in; a range, for one fixed density cannot be right
`weighed_density_g_per_ml`, `air_percent_of`   from a level cup on the scale, which replaces the estimate
`Batch`, `batch`                      a recipe scaled to a mass, with its lines, volume and yield
`mass_for_bags_g`, `mass_from_ingredient_g`    a mass from a number of bags, or from the ingredient in hand
`mixes`                               how many times the mixer's bowl is filled
`syrup_percent`                       what a sugar syrup holds at the temperature it boils at
`by_measure`                          cups, sticks and eggs, where that is honest
`allergens`, `cautions`, `keeping`, `standing`    what must be said

Legend: m mass, V volume, rho density, phi share of air in the finished volume.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from calc.buttercream_data import (
    EU_ALLERGENS,
    HOT_DAY_HOURS,
    INGREDIENTS,
    PURPOSES,
    RECIPES,
    ROOM_HOURS,
    SYRUP_BOILS,
    TEMPERATURES,
    US_ALLERGENS,
    US_CUP_ML,
    WHIPPED,
    Ingredient,
    Keeping,
    Part,
    Recipe,
    Temperature,
    Texture,
)
from calc.sources import Constant, constant
from calc.units import CLOSE, Formatter, Problem

__all__ = [
    "air_percent_of",
    "airless_density_g_per_ml",
    "Allergens",
    "allergens",
    "Batch",
    "batch",
    "BATCH_G",
    "by_measure",
    "cautions",
    "density_g_per_ml",
    "EU_ALLERGENS",
    "Ingredient",
    "INGREDIENTS",
    "Keeping",
    "keeping",
    "Line",
    "mass_for_bags_g",
    "mass_from_ingredient_g",
    "mixes",
    "Part",
    "PURPOSES",
    "Recipe",
    "recipe_choices",
    "recipe_density_without_air_g_per_ml",
    "RECIPES",
    "standing",
    "syrup_percent",
    "Temperature",
    "TEMPERATURES",
    "Texture",
    "US_ALLERGENS",
    "US_CUP_ML",
    "weighed_density_g_per_ml",
    "WHIPPED",
]

BATCH_G = constant(2000, "g", "common-practice", "buttercream that a bench mixer takes at one time", low=1000, high=4000)
BAG_G = constant(300.0, "g", "common-practice", "what a 30 cm (12 in) bag takes and a hand still holds well", low=200, high=400)
BOWL_SHARE = constant(0.6, "-", "common-practice", "a mixer's bowl is filled no further than this, or it throws icing sugar out")
BOWL_KEEPS_PERCENT = constant(3.0, "%", "common-practice", "what stays on bowl, beater and spatula", low=2, high=5)

recipe_choices: tuple[tuple[str, str], ...] = tuple((r.key, r.name) for r in RECIPES.values())


def airless_density_g_per_ml(masses: Iterable[tuple[Ingredient, float]], water_lost_g: float = 0.0) -> float:
    """Give the density of a mixture that holds no air, from the masses and densities of what is in it.

    Formula: rho_0 = sum(m_i) / sum(m_i / rho_i), water boiled off taken out of both sums.

    Parameters
    ----------
    masses : iterable of (Ingredient, float)
        The ingredients and their masses [g]
    water_lost_g : float
        Water boiled off [g]

    Returns
    -------
    float
        Density without air [g/ml]

    Raises
    ------
    ValueError
        The mixture is empty.

    Range: mixtures that neither shrink nor swell. Leaves out: that sugar takes about 2 % less room dissolved.

    Example
    -------
    >>> butter, sugar = INGREDIENTS["butter"], INGREDIENTS["icing_sugar"]
    >>> round(airless_density_g_per_ml([(butter, 500.0), (sugar, 1000.0)]), 3)
    1.288

    Source: geometry (volumes add up)
    """
    pairs = tuple(masses)
    mass = math.fsum([m for _, m in pairs] + [-water_lost_g])
    volume = math.fsum([m / i.density_g_per_ml for i, m in pairs] + [-water_lost_g / INGREDIENTS["water"].density_g_per_ml])
    if mass <= 0 or volume <= 0:
        raise ValueError("a mixture has a positive mass and volume")
    return mass / volume


def recipe_density_without_air_g_per_ml(recipe: str) -> float:
    """Give the density of a recipe's mixture before any air is whipped in.

    Formula: as `airless_density_g_per_ml`, with the recipe's own masses.

    Parameters
    ----------
    recipe : str
        A key of `RECIPES` [-]

    Returns
    -------
    float
        Density without air [g/ml]

    Raises
    ------
    KeyError
        There is no such recipe.

    Range: the recipes of the house. Leaves out: air.

    Example
    -------
    >>> round(recipe_density_without_air_g_per_ml("plain"), 2)
    1.27

    Source: geometry (volumes add up)
    """
    return _airless(recipe)


@lru_cache(maxsize=64)
def _airless(recipe: str) -> float:
    made = RECIPES[recipe]
    return airless_density_g_per_ml([(INGREDIENTS[p.ingredient], p.mass_g) for p in made.parts], made.evaporates_g)


@lru_cache(maxsize=256)
def density_g_per_ml(recipe: str, whipped: str = "whipped") -> Constant:
    """Give the density of a buttercream, with the air whipped in, as a number with a range.

    Formula: rho = rho_0 (1 - phi), phi the share of air in the finished volume; the range from the range of phi.

    Parameters
    ----------
    recipe : str
        A key of `RECIPES` [-]
    whipped : str
        "smooth", "whipped" or "light" [-]

    Returns
    -------
    Constant
        Density; `.low` and `.high` are its range [g/ml]

    Raises
    ------
    KeyError
        There is no such recipe or no such way of whipping.

    Range: the recipes of the house. Leaves out: your mixer; weigh a level cup and use `weighed_density_g_per_ml`.

    Example
    -------
    >>> rho = density_g_per_ml("plain")
    >>> round(rho, 2), round(rho.low, 2), round(rho.high, 2)
    (1.06, 0.94, 1.16)

    Source: usda-sr (weights of household measures), fao-density (fats and sugars), common-practice
    """
    air = RECIPES[recipe].air_percent[whipped]
    airless = _airless(recipe)
    return constant(
        airless * (1 - air / 100),
        "g/ml",
        "common-practice",
        f"{airless:.3f} g/ml without air, {air:g} % air: {air.note}",
        group="derived",
        low=airless * (1 - air.high / 100),
        high=airless * (1 - air.low / 100),
    )


def weighed_density_g_per_ml(mass_g: float, measure_ml: float) -> float:
    """Give the density from one level measure on the scale, which replaces every estimate.

    Formula: rho = m / V.

    Parameters
    ----------
    mass_g : float
        What the level measure holds, without the measure's own weight [g]
    measure_ml : float
        The measure's volume [ml]

    Returns
    -------
    float
        Density [g/ml]

    Raises
    ------
    Problem
        It comes out lighter than foam or heavier than syrup, so one of the two is not what was meant.

    Range: 0.3 to 1.6 g/ml. Leaves out: a measure filled with hollows; knock it on the table first.

    Example
    -------
    >>> round(weighed_density_g_per_ml(227, 236.5882365), 3)
    0.959

    Source: geometry (definition of density)
    """
    density = mass_g / measure_ml if measure_ml > 0 else math.inf
    if not 0.3 <= density <= 1.6:
        raise Problem(
            "weighed_cup",
            f"Weighed cup comes to {density:.2g} g for each ml; buttercream lies between 0.3 and 1.6. "
            "Weigh one level measure without its own weight, and give the measure's volume beside it",
        )
    return density


def air_percent_of(density: float, airless: float) -> float:
    """Give how much of a buttercream's volume is air, from its density with and without.

    Formula: phi = 1 - rho / rho_0, in hundredths.

    Parameters
    ----------
    density : float
        Density as it is [g/ml]
    airless : float
        Density without air [g/ml]

    Returns
    -------
    float
        Air by volume; negative when the two disagree [%]

    Raises
    ------
    ValueError
        The density without air is not positive.

    Range: rho_0 > 0.

    Example
    -------
    >>> round(air_percent_of(0.9, 1.2), 1)
    25.0

    Source: geometry (definition of density)
    """
    if airless <= 0:
        raise ValueError("a density without air is positive")
    return 100 * (1 - density / airless)


@dataclass(frozen=True)
class Line:
    """One ingredient of a batch."""

    ingredient: Ingredient
    mass_g: float
    note: str


@dataclass(frozen=True)
class Batch:
    """A recipe scaled to a mass of finished buttercream."""

    recipe: Recipe
    mass_g: float
    factor: float
    lines: tuple[Line, ...]
    water_lost_g: float
    density: Constant

    @property
    def volume_ml(self) -> float:
        """What it fills [ml]."""
        return self.mass_g / self.density

    @property
    def volume_low_ml(self) -> float:
        """What it fills when it holds least air [ml]."""
        return self.mass_g / self.density.high

    @property
    def volume_high_ml(self) -> float:
        """What it fills when it holds most air [ml]."""
        return self.mass_g / self.density.low

    @property
    def into_bowl_g(self) -> float:
        """All ingredients together, before water boils off [g]."""
        return math.fsum(line.mass_g for line in self.lines)


def _yield_g(recipe: Recipe) -> float:
    return math.fsum([part.mass_g for part in recipe.parts] + [-recipe.evaporates_g])


def batch(recipe: str, mass_g: float, whipped: str = "whipped", density: float | None = None) -> Batch:
    """Scale a recipe to a mass of finished buttercream.

    Formula: factor = mass / (sum of the recipe's parts - water boiled off); each part times the factor.

    Parameters
    ----------
    recipe : str
        A key of `RECIPES` [-]
    mass_g : float
        Finished buttercream wanted [g]
    whipped : str
        "smooth", "whipped" or "light" [-]
    density : float
        A weighed density that replaces the estimate [g/ml]

    Returns
    -------
    Batch
        Lines [g], volume [ml], density [g/ml]

    Raises
    ------
    Problem
        The mass is not positive.
    KeyError
        There is no such recipe or way of whipping.

    Range: any positive mass. Leaves out: what stays in the bowl, 2 to 5 %.

    Example
    -------
    >>> made = batch("plain", 781.0)
    >>> [(line.ingredient.key, round(line.mass_g, 1)) for line in made.lines][:2], made.factor
    ([('butter', 250.0), ('icing_sugar', 500.0)], 0.5)

    Source: tm-10-412 (card A 001)
    """
    if mass_g <= 0:
        raise Problem("mass", "Mass must be more than 0. Write it like 1 kg")
    made = RECIPES[recipe]
    factor = mass_g / _yield_g(made)
    lines = tuple(Line(INGREDIENTS[part.ingredient], part.mass_g * factor, part.note) for part in made.parts)
    known = density_g_per_ml(recipe, whipped) if density is None else constant(density, "g/ml", "geometry", "weighed by the maker", group="measured")
    return Batch(made, mass_g, factor, lines, made.evaporates_g * factor, known)


def mass_for_bags_g(bags: int, bag_g: float = BAG_G) -> float:
    """Give the buttercream that fills a number of bags.

    Formula: mass = bags x mass of one.

    Parameters
    ----------
    bags : int
        Bags to fill [-]
    bag_g : float
        What one bag takes [g]

    Returns
    -------
    float
        Buttercream [g]

    Raises
    ------
    Problem
        There are no bags.

    Range: one bag or more. Leaves out: what stays in a bag; `calc.colours` works it out for each colour.

    Example
    -------
    >>> mass_for_bags_g(4, 300.0)
    1200.0

    Source: common-practice
    """
    if bags < 1:
        raise Problem("bags", "Bags must be 1 or more. Leave it empty to go by mass")
    return float(bags * bag_g)


def mass_from_ingredient_g(recipe: str, ingredient: str, in_hand_g: float) -> float:
    """Give how much buttercream the ingredient in hand makes.

    Formula: mass = yield x in hand / what the recipe takes (102 lb in hand for 30 lb asked is a factor of 3.40).

    Parameters
    ----------
    recipe : str
        A key of `RECIPES` [-]
    ingredient : str
        A key of `INGREDIENTS` [-]
    in_hand_g : float
        What there is of it [g]

    Returns
    -------
    float
        Finished buttercream [g]

    Raises
    ------
    Problem
        The recipe has none of that ingredient, or there is none in hand.

    Range: one ingredient that limits. Leaves out: whether the others are in the house.

    Example
    -------
    >>> round(mass_from_ingredient_g("plain", "butter", 250.0), 6)
    781.0

    Source: tm-10-412 (card A 001)
    """
    made = RECIPES[recipe]
    takes = math.fsum(part.mass_g for part in made.parts if part.ingredient == ingredient)
    if takes <= 0:
        names = ", ".join(INGREDIENTS[part.ingredient].name for part in made.parts)
        known = INGREDIENTS[ingredient].name if ingredient in INGREDIENTS else ingredient
        raise Problem("ingredient", f"{made.name} has no {known} in it. It takes {names}")
    if in_hand_g <= 0:
        raise Problem("in_hand", "In hand must be more than 0. Write it like 500 g")
    return _yield_g(made) * in_hand_g / takes


def mixes(volume_ml: float, bowl_ml: float) -> int:
    """Give how many times a mixer's bowl is filled for a volume of buttercream.

    Formula: the volume over 0.6 of the bowl, rounded up.

    Parameters
    ----------
    volume_ml : float
        Finished buttercream [ml]
    bowl_ml : float
        The bowl, to its rim [ml]

    Returns
    -------
    int
        Times [-]

    Raises
    ------
    Problem
        The bowl is not positive.

    Range: any bowl. Leaves out: the least a whisk reaches, about a tenth of the bowl.

    Example
    -------
    >>> mixes(2800, 4800), mixes(2900, 4800)
    (1, 2)

    Source: common-practice
    """
    if bowl_ml <= 0:
        raise Problem("bowl", "Bowl must be more than 0. Write it like 4.8 l")
    return max(1, math.ceil(volume_ml / (BOWL_SHARE * bowl_ml) - 1e-9))


def syrup_percent(boils_celsius: float) -> float:
    """Give how much of a boiling sugar syrup is sugar, from its temperature.

    Formula: straight lines through a table of boiling points of sucrose solutions at sea level.

    Parameters
    ----------
    boils_celsius : float
        Temperature at which the syrup boils [degC]

    Returns
    -------
    float
        Sucrose by mass [%]

    Raises
    ------
    ValueError
        It lies outside the table.

    Range: 106.5 to 127.8 degC, at sea level. Leaves out: altitude (1 degC less for each 300 m), glucose, acid.

    Example
    -------
    >>> syrup_percent(119.3), round(syrup_percent(121), 1)
    (86.0, 86.9)

    Source: browne-1912 (boiling points of sucrose solutions)
    """
    for (low_c, low), (high_c, high) in zip(SYRUP_BOILS, SYRUP_BOILS[1:], strict=False):
        if low_c <= boils_celsius <= high_c:
            return low + (high - low) * (boils_celsius - low_c) / (high_c - low_c)
    raise ValueError(f"the table of boiling syrups runs from {SYRUP_BOILS[0][0]} to {SYRUP_BOILS[-1][0]} degC")


def by_measure(ingredient: Ingredient, mass_g: float, units: str = "metric") -> str:
    """Say an amount in cups, spoons, sticks or eggs where that is honest; never icing sugar or flour by the cup.

    Formula: pieces = mass / mass of one; cups = mass / mass of one cup (USDA).

    Parameters
    ----------
    ingredient : Ingredient
        The ingredient [-]
    mass_g : float
        How much of it [g]
    units : str
        "metric" or "us" [-]

    Returns
    -------
    str
        The amount in words, or "weigh it" [-]

    Raises
    ------
    ValueError
        The mass is negative.

    Range: ingredients of the house. Leaves out: icing sugar and flour, whose published cups run 20 % apart.

    Example
    -------
    >>> by_measure(INGREDIENTS["egg_white"], 200), by_measure(INGREDIENTS["butter"], 454, "us")
    ('about 6 large egg whites', '4 sticks')
    >>> by_measure(INGREDIENTS["icing_sugar"], 1000, "us")
    'weigh it'

    Source: usda-sr (weights of household measures)
    """
    if mass_g < 0:
        raise ValueError("a mass cannot be negative")
    if ingredient.measure == "weigh":
        return "weigh it"
    by_piece = units == "us" or ingredient.measure == "piece" or ingredient.key == "condensed_milk"
    if ingredient.piece_g is not None and by_piece:
        count, name = mass_g / ingredient.piece_g, ingredient.piece
        if name == "stick":
            return _sticks(count)
        nearest = round(count)
        if ingredient.measure == "piece":
            if nearest and abs(count - nearest) <= CLOSE * count:
                return f"about {nearest} {name}{'s' if nearest != 1 else ''}"
            return f"weigh it: {math.floor(count)} to {math.ceil(count)} {name}s" if count > 1 else "weigh it"
        halves = round(count * 2) / 2
        if halves >= 0.5 and abs(count - halves) <= CLOSE * count:
            whole, half = divmod(halves, 1)
            return f"{f'{whole:.0f}' * bool(whole) + '½' * bool(half)} {name if halves <= 1 else name.replace('tin ', 'tins ')}"
    if ingredient.cup_g is None:
        return "weigh it"
    volume_ml = mass_g / ingredient.cup_g * US_CUP_ML
    if volume_ml < 45 or units == "us":
        return Formatter("us").volume(volume_ml) if volume_ml >= 0.6 else "a pinch"
    if ingredient.key in ("milk", "water", "plant_drink"):
        return Formatter("metric").volume(volume_ml)
    return "weigh it"


def _sticks(count: float) -> str:
    """Butter in sticks and tablespoons, of which a stick has eight; under a tablespoon in teaspoons."""
    spoons = Formatter("us").volume(count * US_CUP_ML / 2)
    if count < 0.48 and "cup" not in spoons:
        return spoons
    for step in (4, 8, 16, 32):  # parts of a stick
        steps = round(count * step)
        if abs(steps / step - count) <= CLOSE * count:
            break
    else:
        return spoons
    sticks, rest = divmod(steps * 32 // step, 32)
    if rest in (0, 8, 16, 24) and (sticks or rest):
        half = {0: "", 8: "¼", 16: "½", 24: "¾"}[rest]
        return f"{sticks or ''}{half} stick{'s' if sticks + bool(rest) > 1 else ''}"
    return f"{sticks} stick{'s' if sticks > 1 else ''} {_quarters(rest)} tbsp" if sticks else f"{_quarters(rest)} tbsp"


def _quarters(count: int) -> str:
    """A number of quarters, such as 1 1/2."""
    whole, rest = divmod(count, 4)
    part = {0: "", 1: "1/4", 2: "1/2", 3: "3/4"}[rest]
    return f"{whole or ''} {part}".strip()


@dataclass(frozen=True)
class Allergens:
    """What a recipe's usual ingredients bring, in the words of the two laws, and what only a pack can tell."""

    us: tuple[str, ...]
    eu: tuple[str, ...]
    check: tuple[str, ...]


def allergens(recipe: str) -> Allergens:
    """Give the allergens that a recipe's usual ingredients bring, by the US nine and the EU fourteen.

    Formula: the union over the ingredients and what thins them for strings, in the order of each law.

    Parameters
    ----------
    recipe : str
        A key of `RECIPES` [-]

    Returns
    -------
    Allergens
        Names, and what to check on the packs [-]

    Raises
    ------
    KeyError
        There is no such recipe.

    Range: the ingredients as the recipe names them. Leaves out: traces, colours, decorations, a maker's changes.

    Example
    -------
    >>> allergens("swiss_meringue").us, allergens("flour_cooked").eu
    (('milk', 'eggs'), ('cereals containing gluten', 'milk'))

    Source: falcpa (definition of major food allergen), eu-1169
    """
    made = RECIPES[recipe]
    keys = dict.fromkeys([part.ingredient for part in made.parts] + [texture.liquid for texture in made.textures])
    parts = [INGREDIENTS[key] for key in keys]
    us = {name for part in parts for name in part.us_allergens}
    eu = {name for part in parts for name in part.eu_allergens}
    return Allergens(
        tuple(a for a in US_ALLERGENS if a in us), tuple(a for a in EU_ALLERGENS if a in eu), tuple(part.check for part in parts if part.check)
    )


def keeping(recipe: str) -> Keeping:
    """Give how long a recipe is usually kept, covered, in the fridge and the freezer."""
    return RECIPES[recipe].keeping


def standing(units: str = "metric") -> str:
    """Say how long perishable food may stand, by the published rules, and who decides.

    Each published temperature is given with both figures as printed.

    >>> standing("us")[:87]
    'US advice for perishable food is 2 hours between 40 °F (4 °C) and 140 °F (60 °C), 1 hou'
    """
    say = Formatter(units)
    return (
        f"US advice for perishable food is {ROOM_HOURS:g} hours between {_at(say, 'danger_low')} and "
        f"{_at(say, 'danger_high')}, {HOT_DAY_HOURS:g} hour above {_at(say, 'hot_day')}. A US food business holds such food "
        f"at {_at(say, 'cold')} or less, or works to a written time plan (4 hours, or 6 when it never passes "
        f"{_at(say, 'six_hours')}); in England it is kept at 8 °C (46 °F) or less. Ask your food authority what holds for you."
    )


def cautions(recipe: str, units: str = "metric") -> tuple[str, ...]:
    """Give the cautions that stand with a recipe: egg, syrup, standing time, allergens.

    Each published temperature is given with both figures as printed.

    >>> "71 °C (160 °F)" in cautions("swiss_meringue")[1]
    True
    """
    return tuple(_caution(kind, recipe, Formatter(units)) for kind in RECIPES[recipe].cautions)


def _at(say: Formatter, key: str) -> str:
    temperature = TEMPERATURES[key]
    return say.temperature(temperature.celsius, temperature.fahrenheit)


def _caution(kind: str, recipe: str, say: Formatter) -> str:
    match kind:
        case "room":
            return f"Standing out. {standing(say.units)} Nothing here says that this buttercream keeps at room temperature."
        case "egg_cooked":
            return (
                f"Egg white: warm whites and sugar, stirring, until a thermometer reads {_at(say, 'egg')} all through, or "
                "use pasteurised white. For the very young, the old, the pregnant and the ill use pasteurised white."
            )
        case "egg_syrup":
            return (
                "Egg white: US advice counts hot syrup beaten into whites as safe and warns of icings with uncooked "
                f"white. Check that the meringue reads {_at(say, 'egg')} just after pouring: by a heat balance this recipe "
                "comes close to that and no further, so for anyone at risk use pasteurised white."
            )
        case "hot_syrup":
            return (
                f"Hot syrup: firm ball is {_at(say, 'firm_ball_low')} to {_at(say, 'firm_ball_high')} at sea level, about "
                "1 °C (2 °F) less for each 300 m (1,000 ft). Syrup sticks and burns deeply: no children at the hob, a "
                "long sleeve, cold water at hand, and never onto the moving whisk."
            )
        case "milk_paste":
            return (
                f"Cooked milk paste: cool it in a shallow dish and chill it within {ROOM_HOURS:g} hours, as custard; the "
                "finished buttercream belongs in the fridge until it is needed."
            )
        case "raw_flour":
            return "Flour is a raw food: cook the paste until it bubbles throughout, and do not taste it before."
        case "dairy_free":
            return (
                "Dairy-free is not a promise for a milk allergy: read the block's pack for milk and for traces, and keep "
                "bowl, beater, bags and tips apart from those used for butter."
            )
        case "heat_stable":
            return "Heat-stable means that edges hold in the warm. It does not mean that it keeps longer: the hours above hold as well."
        case "dried_egg":
            return "Dried egg white: use one that its pack calls pasteurised."
        case _:
            found = allergens(recipe)
            us, eu = _listed(found.us), _listed(found.eu)
            names = f"US label: {us}; EU and UK label: {eu}"
            extra = "".join(f" Check the pack: {say.words(text)}." for text in found.check)
            return (
                f"Allergens from the usual ingredients. {names}.{extra} Colours, flavours and decorations bring their own; "
                "packs and local rules decide."
            )


def _listed(names: tuple[str, ...]) -> str:
    return ", ".join(names) if names else "none of those that must be named"
