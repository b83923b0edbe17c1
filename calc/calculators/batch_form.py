"""`batch`: a buttercream recipe scaled to a mass, to a number of bags, or to the ingredient in hand."""

from __future__ import annotations

from calc.buttercream import (
    BAG_G,
    BOWL_KEEPS_PERCENT,
    BOWL_SHARE,
    INGREDIENTS,
    WHIPPED,
    Recipe,
    Texture,
    air_percent_of,
    batch,
    by_measure,
    cautions,
    density_g_per_ml,
    mass_for_bags_g,
    mass_from_ingredient_g,
    mixes,
    recipe_choices,
    recipe_density_without_air_g_per_ml,
    weighed_density_g_per_ml,
)
from calc.calculators.declare import Answer, Asked, ByVolume, Calculator, Input, Ranged, span
from calc.sources import Constant, constant
from calc.units import Formatter, Problem, read_quantity

RECIPE = Input("recipe", "Recipe", "choice", "plain", choices=recipe_choices)
WHIPPED_INPUT = Input("whipped", "Whipped", "choice", "whipped", choices=WHIPPED, help="How much you beat it decides how much air it holds")
WEIGHED_CUP = Input(
    "weighed_cup",
    "Weighed cup",
    "mass",
    optional=True,
    advanced=True,
    low=1,
    high=20_000,
    help="What one level measure of yours weighs, without the measure; used instead of the estimate",
    usual=(50, 3000),
)
CUP = Input(
    "cup",
    "The measure holds",
    "volume",
    optional=True,
    advanced=True,
    low=15,
    high=10_000,
    help="Left empty: 250 ml",
)
DENSITY_INPUTS = (RECIPE, WHIPPED_INPUT, WEIGHED_CUP, CUP)


def density_of(asked: Asked, answer: Answer) -> Constant:
    """The density asked for: weighed by the maker, or estimated from recipe and whipping."""
    estimate = density_g_per_ml(asked["recipe"], asked["whipped"])
    if asked["weighed_cup"] is None:
        return estimate
    measure = asked["cup"]
    if measure is None:
        measure = read_quantity("1 cup", "volume", "cup", CUP.label) if asked.units == "us" else 250.0
        answer.note(
            f"The measure is taken to hold {answer.say.volume(measure)}. A cup of 250 ml, of 240 ml and a US cup of 237 ml are three different cups."
        )
    density = weighed_density_g_per_ml(asked["weighed_cup"], measure)
    airless = recipe_density_without_air_g_per_ml(asked["recipe"])
    air = air_percent_of(density, airless)
    if air < -3:
        answer.note(
            f"That is heavier than this recipe can be without any air ({airless:.2f} g/ml). Check the weight of the "
            "empty measure, its volume, and the recipe."
        )
    else:
        answer.note(f"By your scale it holds {max(0.0, air):.0f} % air.")
    return constant(density, "g/ml", "geometry", "weighed by the maker", group="measured")


def density_figure(answer: Answer, density: Constant) -> None:
    """Add the density, with its range where it is an estimate, in the reader's units."""
    write = answer.say.density
    text = write(density)
    if density.low < density.high:
        text = Ranged(text, write(density.low), write(density.high))
    answer.figure("density", "Density", float(density), "g/ml", text, density.low, density.high)


def _range(say: Formatter, low: float, high: float) -> str:
    """A span of temperatures, both scales, the reader's first."""
    celsius = f"{low:.0f} to {high:.0f} °C"
    fahrenheit = f"{low * 9 / 5 + 32:.0f} to {high * 9 / 5 + 32:.0f} °F"
    return f"{fahrenheit} ({celsius})" if say.units == "us" else f"{celsius} ({fahrenheit})"


def _liquid(say: Formatter, texture: Texture, mass_g: float) -> str:
    low, high = (share * mass_g / 1000 for share in (texture.liquid_low_g_per_kg, texture.liquid_high_g_per_kg))
    name = INGREDIENTS[texture.liquid].name
    if high < 1:  # less than most scales show
        return f"a drop or two of {name}"
    return f"{f'up to {say.mass(high)}' if low == 0 else span(say.mass, low, high)} {name}"


def texture_line(say: Formatter, texture: Texture, mass_g: float) -> tuple[str, str, str, str]:
    """How so much buttercream is brought to what it is wanted for: what for, what to stir in, how warm, how it looks."""
    return texture.purpose, _liquid(say, texture, mass_g), _range(say, texture.low_celsius, texture.high_celsius), texture.looks


def keeping_words(recipe: Recipe) -> str:
    """How long a recipe keeps, and how warm its edges may get."""
    keep, months = recipe.keeping, recipe.keeping.freezer_days // 30
    return (
        f"Covered, by common practice: up to {keep.fridge_days} days in the fridge, {months} month{'s' if keep.freezer_days >= 60 else ''} "
        f"in the freezer. {keep.note}"
    )


def _mass(asked: Asked, answer: Answer, density: float) -> float:
    """The mass wanted: typed as a weight or a volume, from bags, or from the ingredient in hand."""
    if asked["bags"] is not None and asked["in_hand"] is not None:
        raise Problem("in_hand", "Bags and an ingredient in hand each set the mass. Leave one of them empty")
    if asked["bags"] is not None:
        bag = asked["bag_fill"] if asked["bag_fill"] is not None else float(BAG_G)
        mass = mass_for_bags_g(asked["bags"], bag)
        answer.note(f"For {asked['bags']} bag{'s' if asked['bags'] != 1 else ''} of {answer.say.mass(bag)}; the mass typed is not used.")
        return mass
    if asked["in_hand"] is not None:
        if asked["ingredient"] is None:
            raise Problem("ingredient", "Ingredient in hand is empty. Choose which ingredient you have that much of")
        mass = mass_from_ingredient_g(asked["recipe"], asked["ingredient"], asked["in_hand"])
        what = answer.say.words(INGREDIENTS[asked["ingredient"]].name)
        answer.note(f"As much as {answer.say.mass(asked['in_hand'])} of {what} makes; the mass typed is not used.")
        return mass
    if isinstance(asked["mass"], ByVolume):
        return asked["mass"].volume_ml * density
    return float(asked["mass"])


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `batch`."""
    say = answer.say
    density = density_of(asked, answer)
    mass = _mass(asked, answer, density)
    made = batch(asked["recipe"], mass, asked["whipped"], None if density.group != "measured" else float(density))
    recipe = made.recipe
    answer.mass("mass", "Buttercream", made.mass_g)
    ranged = density.low < density.high
    answer.volume("volume", "Fills", made.volume_ml, *((made.volume_low_ml, made.volume_high_ml) if ranged else ()))
    density_figure(answer, density)
    answer.figure("factor", "Times the recipe", made.factor, "", say.number(made.factor))
    answer.table(
        "ingredients",
        say.words(f"{recipe.name}, {say.mass(made.mass_g)}"),
        ("Ingredient", "Weigh", "By measure, where reliable", "How"),
        [
            (say.words(line.ingredient.name), say.weighed(line.mass_g), by_measure(line.ingredient, line.mass_g, asked.units), line.note)
            for line in made.lines
        ],
        numeric=(1,),
    )
    answer.table(
        "textures",
        "Thinned for each use",
        ("For", "Stir in, for this batch", "Work at", "It is right when it"),
        [texture_line(say, texture, made.mass_g) for texture in recipe.textures],
    )
    with answer.quietly():
        for texture in recipe.textures:
            low, high = (share * made.mass_g / 1000 for share in (texture.liquid_low_g_per_kg, texture.liquid_high_g_per_kg))
            name = f"stir_in_{texture.purpose.replace(' ', '_')}"
            answer.figure(name, f"To stir in for {texture.purpose}", high, "g", _liquid(say, texture, made.mass_g), low, high)
    answer.table("method", "Method", ("Step", "Do"), [(str(i), say.words(step)) for i, step in enumerate(recipe.steps, 1)], numeric=(0,))
    answer.note(
        f"{say.words(recipe.summary)} It {'crusts' if recipe.crusts else 'does not crust'}; colour {recipe.white}; edges hold to "
        f"about {say.temperature(recipe.holds_celsius, recipe.holds_celsius * 9 / 5 + 32)}."
    )
    if made.water_lost_g > 0.5:
        answer.note(f"The ingredients weigh {say.mass(made.into_bowl_g)} together; about {say.mass(made.water_lost_g)} of water boils off.")
    answer.note(
        f"{BOWL_KEEPS_PERCENT:g} % or so ({say.mass(made.mass_g * BOWL_KEEPS_PERCENT / 100)}) stays on bowl and "
        "beater: make that much more if you need the full amount."
    )
    if asked["bowl"] is not None:
        times = mixes(made.volume_high_ml, asked["bowl"])
        answer.count("mixes", "Mixer bowls", times)
        answer.note(
            f"A bowl of {say.volume(asked['bowl'])} is filled to no more than {100 * BOWL_SHARE:.0f} %, so make it in "
            f"{times} go{'es' if times != 1 else ''} of {say.mass(made.mass_g / times)}."
        )
    answer.note(keeping_words(recipe))
    answer.note(
        say.words(
            "Proportions, textures and keeping are common practice, no source; densities of ingredients are USDA's and "
            "FAO's. Icing sugar and flour are never given by the cup: published cups of icing sugar run from 100 to 120 "
            "g."
        )
    )
    for caution in cautions(asked["recipe"], asked.units):
        answer.caution(caution)


CALCULATOR = Calculator(
    "batch",
    "Make buttercream",
    "One of seven recipes, weighed out for what you need.",
    (
        RECIPE,
        Input(
            "mass",
            "Buttercream wanted",
            "mass",
            "1 kg",
            low=20,
            high=100_000,
            help="What should be in the bowl at the end, such as 1.2 kg",
            us_unit="pound",
            usual=(100, 30_000),
            by_volume=True,
        ),
        WHIPPED_INPUT,
        Input("bags", "Or bags to fill", "count", optional=True, advanced=True, low=1, high=200, help="How many bags, in place of a mass"),
        Input("bag_fill", "One bag takes", "mass", optional=True, advanced=True, low=20, high=3000, help="Left empty: 300 g", kitchen="bag_holds"),
        Input(
            "in_hand",
            "Or this much in hand",
            "mass",
            optional=True,
            advanced=True,
            low=1,
            high=100_000,
            help="How much you have of the ingredient you chose, such as 500 g",
            usual=(10, 30_000),
        ),
        Input(
            "ingredient",
            "Ingredient in hand",
            "choice",
            optional=True,
            advanced=True,
            choices=tuple((key, item.name) for key, item in INGREDIENTS.items()),
        ),
        WEIGHED_CUP,
        CUP,
        Input(
            "bowl",
            "Mixer bowl",
            "volume",
            optional=True,
            advanced=True,
            low=200,
            high=100_000,
            help="To its rim, such as 4.8 l",
            us_unit="quart",
            kitchen="bowl",
        ),
    ),
    work_out,
)
