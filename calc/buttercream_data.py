"""What the kitchen knows: ingredients, recipes, allergens and temperatures, held in memory.

Map
---
`US_ALLERGENS`, `EU_ALLERGENS`   the nine and the fourteen that must be named
`Temperature`, `TEMPERATURES`    published temperatures, both printed figures, never converted into each other
`Ingredient`, `INGREDIENTS`      density without air, allergens, and the measures that are honest
`WHIPPED`                        how far a buttercream is beaten
`Part`, `Texture`, `Keeping`, `Recipe`, `RECIPES`
`SYRUP_BOILS`                    what a sugar syrup holds at the temperature it boils at

The proportions of the recipes are common practice: each is the middle of what is usual, written for a natural batch (a
tin, a pack of butter), and scaled from there. Densities of ingredients are those of the ingredient itself without the
air between its grains, which is what counts in a mixture.
"""

from __future__ import annotations

from dataclasses import dataclass

from calc.sources import Constant, constant

# --- allergens ------------------------------------------------------------------------------------------------------

# FALCPA 2004 with the FASTER Act 2021, in the order of the law.
US_ALLERGENS = ("milk", "eggs", "fish", "Crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame")
# Regulation (EU) No 1169/2011, Annex II, in its order.
EU_ALLERGENS = (
    "cereals containing gluten",
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soybeans",
    "milk",
    "nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphur dioxide and sulphites",
    "lupin",
    "molluscs",
)


# --- temperatures ---------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Temperature:
    """One published temperature with both figures as printed; one is not the rounded other."""

    celsius: float
    fahrenheit: float
    source: str
    note: str


TEMPERATURES = {
    "cold": Temperature(5, 41, "food-code", "cold holding: at or below this (3-501.16)"),
    "hot": Temperature(57, 135, "food-code", "hot holding: at or above this (3-501.16)"),
    "six_hours": Temperature(21, 70, "food-code", "time as a control, 6 hours: the food never goes above this (3-501.19)"),
    "danger_low": Temperature(4.4, 40, "fsis-2-hour", "lower end of the danger zone; the Celsius figure is from memory"),
    "danger_high": Temperature(60, 140, "fsis-2-hour", "upper end of the danger zone; the Celsius figure is from memory"),
    "hot_day": Temperature(32.2, 90, "fsis-2-hour", "above this, one hour in place of two; the Celsius figure is from memory"),
    "egg": Temperature(71, 160, "egg-advice", "egg mixtures are cooked to this"),
    "firm_ball_low": Temperature(118, 245, "mcgee-2004", "firm ball, lower end"),
    "firm_ball_high": Temperature(121, 250, "mcgee-2004", "firm ball, upper end"),
    "england_chill": Temperature(8, 46.4, "si-2013-2996", "chill holding in food premises: not above this; printed in Celsius only"),
}
ROOM_HOURS = constant(2.0, "h", "fsis-2-hour", "perishable food stands no longer than this in the danger zone", group="measured")
HOT_DAY_HOURS = constant(1.0, "h", "fsis-2-hour", "above 90 F no longer than this", group="measured")


# --- syrup ----------------------------------------------------------------------------------------------------------

# Boiling point [degC] at sea level and sucrose by mass [%]: C. A. Browne's table, 70 to 90 %.
SYRUP_BOILS = (
    (106.5, 70.0),
    (107.4, 72.0),
    (108.4, 74.0),
    (109.4, 76.0),
    (110.6, 78.0),
    (112.0, 80.0),
    (113.9, 82.0),
    (116.3, 84.0),
    (119.3, 86.0),
    (123.1, 88.0),
    (127.8, 90.0),
)


# --- ingredients ----------------------------------------------------------------------------------------------------

US_CUP_ML = constant(236.5882365, "ml", "nist-811", "the US customary cup, 231 cubic inches / 16", group="exact")


@dataclass(frozen=True)
class Ingredient:
    """One ingredient: what it weighs without air, what must be named on a label, and which measures are honest.

    `measure` is how it may be measured without scales: "cup" (with `cup_g`), "piece" (with `piece` and `piece_g`) or
    "weigh". `piece` beside a cup is how it is sold, such as a stick. `check` says what its pack may add.
    """

    key: str
    name: str
    density_g_per_ml: Constant
    us_allergens: tuple[str, ...] = ()
    eu_allergens: tuple[str, ...] = ()
    check: str = ""
    measure: str = "weigh"
    cup_g: Constant | None = None
    piece: str = ""
    piece_g: Constant | None = None


def _cup(mass_g: float, note: str) -> Constant:
    return constant(mass_g, "g", "usda-sr", note, group="measured")


def _by_cup(mass_g: float, note: str) -> Constant:
    return constant(mass_g / US_CUP_ML, "g/ml", "usda-sr", f"{note}, over the customary cup", group="derived")


def _remembered(density: float, note: str) -> Constant:
    return constant(density, "g/ml", "from-memory", f"{note}, without the air between the grains")


_SUCROSE = _remembered(1.587, "crystal of sucrose")

INGREDIENTS: dict[str, Ingredient] = {
    i.key: i
    for i in (
        Ingredient(
            "butter",
            "butter, unsalted",
            constant(
                (0.911 + 227 / US_CUP_ML) / 2,
                "g/ml",
                "fao-density",
                "midway between FAO, 0.911, and the USDA cup of 227 g, 0.959",
                group="derived",
                low=0.911,
                high=227 / US_CUP_ML,
            ),
            us_allergens=("milk",),
            eu_allergens=("milk",),
            measure="cup",
            cup_g=_cup(227, "NDB 01145, cup"),
            piece="stick",
            piece_g=_cup(113, "NDB 01145, stick"),
        ),
        Ingredient("icing_sugar", "icing sugar", _SUCROSE, check="the starch in icing sugar is usually maize or tapioca; a few use wheat"),
        Ingredient("sugar", "caster or granulated sugar", _SUCROSE, measure="cup", cup_g=_cup(200, "NDB 19335, cup")),
        Ingredient(
            "egg_white",
            "egg white",
            _by_cup(243, "NDB 01124, cup of 243 g"),
            us_allergens=("eggs",),
            eu_allergens=("eggs",),
            measure="piece",
            piece="large egg white",
            piece_g=_cup(33, "NDB 01124, large"),
        ),
        Ingredient("dried_egg_white", "dried egg white", _remembered(1.4, "egg protein powder"), us_allergens=("eggs",), eu_allergens=("eggs",)),
        Ingredient(
            "milk",
            "milk, whole",
            _by_cup(244, "NDB 01077, cup of 244 g"),
            us_allergens=("milk",),
            eu_allergens=("milk",),
            measure="cup",
            cup_g=_cup(244, "NDB 01077, cup"),
        ),
        Ingredient(
            "condensed_milk",
            "condensed milk, sweetened",
            _by_cup(306, "NDB 01095, cup of 306 g"),
            us_allergens=("milk",),
            eu_allergens=("milk",),
            measure="cup",
            cup_g=_cup(306, "NDB 01095, cup"),
            piece="tin of 397 g",
            piece_g=constant(397, "g", "common-practice", "the usual tin, 14 oz"),
        ),
        Ingredient(
            "water",
            "water",
            constant(0.998, "g/ml", "fao-density", "water at 20 C", group="measured"),
            measure="cup",
            cup_g=constant(0.998 * US_CUP_ML, "g", "fao-density", "water at 20 C, one cup", group="derived"),
        ),
        Ingredient(
            "flour",
            "wheat flour, plain",
            _remembered(1.45, "particle of flour"),
            us_allergens=("wheat",),
            eu_allergens=("cereals containing gluten",),
        ),
        Ingredient(
            "vegetable_fat",
            "white vegetable fat",
            constant(
                0.90,
                "g/ml",
                "fao-density",
                "between FAO's lard, 0.919, and the USDA cup of shortening, 205 g, 0.866, which is sold with gas in it",
                group="derived",
                low=0.866,
                high=0.919,
            ),
            check="vegetable fats may be made from soya",
            measure="cup",
            cup_g=_cup(205, "NDB 04615, cup"),
        ),
        Ingredient(
            "plant_block",
            "dairy-free baking block",
            constant(0.96, "g/ml", "fao-density", "FAO: butter, margarine", group="measured"),
            check="dairy-free blocks may be made from soya or nuts, and may carry traces of milk",
        ),
        Ingredient(
            "plant_drink",
            "soya drink, unsweetened",
            _by_cup(243, "NDB 16222, cup of 243 g"),
            us_allergens=("soybeans",),
            eu_allergens=("soybeans",),
            check="another drink brings its own: oats (gluten), almonds (nuts)",
            measure="cup",
            cup_g=_cup(243, "NDB 16222, cup"),
        ),
        Ingredient(
            "syrup",
            "light corn syrup or glucose syrup",
            _by_cup(341, "NDB 19350, cup of 341 g"),
            check="corn and glucose syrups may hold sulphites above 10 mg/kg",
            measure="cup",
            cup_g=_cup(341, "NDB 19350, cup"),
        ),
        Ingredient("vanilla", "vanilla extract", _by_cup(208, "NDB 02050, cup of 208 g"), measure="cup", cup_g=_cup(208, "NDB 02050, cup")),
        Ingredient("salt", "fine salt", _remembered(2.16, "crystal of salt"), measure="cup", cup_g=_cup(292, "NDB 02047, cup")),
    )
}


# --- recipes --------------------------------------------------------------------------------------------------------

WHIPPED = (("smooth", "Beaten smooth, little air"), ("whipped", "Whipped as usual"), ("light", "Whipped very light"))
PURPOSES = ("coats", "piping", "strings")


@dataclass(frozen=True)
class Part:
    """One ingredient of a recipe, with its mass in the natural batch."""

    ingredient: str
    mass_g: float
    note: str = ""


@dataclass(frozen=True)
class Texture:
    """How a buttercream is brought to what it is wanted for; common practice.

    `liquid` is a key of `INGREDIENTS`, stirred in by the gram for each kilogram; temperatures are where it works best.
    """

    purpose: str
    liquid: str
    liquid_low_g_per_kg: float
    liquid_high_g_per_kg: float
    low_celsius: float
    high_celsius: float
    looks: str


@dataclass(frozen=True)
class Keeping:
    """How long it is usually kept, covered; common practice, and never more than local rules allow."""

    fridge_days: int
    freezer_days: int
    note: str


@dataclass(frozen=True, eq=False)
class Recipe:
    """A buttercream by mass.

    `air_percent` is the share of air in the finished volume for each way of `WHIPPED`; `evaporates_g` the water boiled
    off the natural batch; `holds_celsius` the warmth up to which an edge stays sharp; `cautions` name what
    `calc.buttercream` says in full.
    """

    key: str
    name: str
    summary: str
    parts: tuple[Part, ...]
    air_percent: dict[str, Constant]
    steps: tuple[str, ...]
    textures: tuple[Texture, ...]
    keeping: Keeping
    cautions: tuple[str, ...]
    holds_celsius: Constant
    crusts: bool
    white: str
    hands_min: float
    wait_min: float
    evaporates_g: Constant = constant(0.0, "g", "common-practice", "nothing is boiled off")


def _air(
    smooth: tuple[float, float, float], whipped: tuple[float, float, float], light: tuple[float, float, float], note: str
) -> dict[str, Constant]:
    """Air by volume in the finished buttercream [%], for each way of `WHIPPED`: low, middle, high."""
    return {
        way: constant(middle, "%", "common-practice", note, low=low, high=high)
        for (way, _), (low, middle, high) in zip(WHIPPED, (smooth, whipped, light), strict=True)
    }


def _holds(celsius: float, low: float, high: float) -> Constant:
    return constant(celsius, "degC", "common-practice", "above this an edge slumps", low=low, high=high)


def _textures(liquid: str, thin: tuple[float, float], coats: tuple[float, float], piping: tuple[float, float], peak: str) -> tuple[Texture, ...]:
    """The three textures: `thin` is the liquid for strings [g/kg], `coats` and `piping` are temperatures [degC]."""
    return (
        Texture(
            "coats",
            liquid,
            0,
            thin[1] / 2,
            *coats,
            "spreads without tearing the sponge and keeps the mark of the scraper; stir it slowly for two minutes first, "
            "to knock the large bubbles out",
        ),
        Texture("piping", liquid, 0, thin[0] / 2, *piping, peak),
        Texture(
            "strings",
            liquid,
            *thin,
            piping[0] + 1,
            piping[1] + 1,
            "falls from the tip in an unbroken string as long as your forearm; press it through a fine sieve first, for one bubble breaks the line",
        ),
    )


# 360 g of sugar in 110 g of water, boiled to 119.3 degC, where it is 86 % sugar; 84 and 88 % bracket firm ball.
_SYRUP_LOSES = constant(
    110 - 360 * (100 / 86 - 1),
    "g",
    "browne-1912",
    "water boiled off by 119.3 C, 86 % sugar",
    group="derived",
    low=110 - 360 * (100 / 84 - 1),
    high=110 - 360 * (100 / 88 - 1),
)
# Government cards, by their fat: USDA vanilla cream 12 % fat, 7 % air; orange butter cream 18 %, 10 %; light butter cream
# 25 %, 26 to 31 %; French cream 33 %, 34 % (tests/published/test_buttercream_cards.py). A third of plain is butter.
_BY_FAT = "the more fat, the more air: government cards run from 7 % air at 12 % fat to 34 % at 33 %; home yields of plain come to 15 to 25 %"
_SOFT = "soft, about 20 °C (68 °F)"
_COOL = "cool but soft, about 19 °C (66 °F)"
_SIEVED = "weighed, then sieved"
_BEAT_AGAIN = "Bring it to the warmth of the room before you beat it again, or it splits."

RECIPES: dict[str, Recipe] = {
    r.key: r
    for r in (
        Recipe(
            key="plain",
            name="Plain (butter and icing sugar)",
            summary="The quickest: one part butter to two parts icing sugar. Sweet and firm.",
            parts=(Part("butter", 500, _SOFT), Part("icing_sugar", 1000, _SIEVED), Part("milk", 50), Part("vanilla", 10), Part("salt", 2)),
            air_percent=_air((5, 10, 16), (9, 17, 26), (18, 26, 34), _BY_FAT),
            steps=(
                "Beat the butter until it is pale, 4 to 5 minutes.",
                "Sieve in the icing sugar in three parts, slowly at first, beating each smooth.",
                "Add vanilla, salt and milk a spoon at a time until it is as soft as you want it.",
                "Stir slowly for 2 minutes to let the large bubbles out.",
            ),
            textures=_textures("milk", (15, 30), (20, 23), (18, 21), "holds a peak that bends only at its tip"),
            keeping=Keeping(7, 60, "Beat it again after chilling; it stiffens as it stands."),
            cautions=("room", "allergens"),
            holds_celsius=_holds(25, 23, 27),
            crusts=True,
            white="cream to pale ivory",
            hands_min=20,
            wait_min=0,
        ),
        Recipe(
            key="swiss_meringue",
            name="Swiss meringue",
            summary="Whites and sugar warmed together, whipped, then butter. Silky and less sweet.",
            parts=(
                Part("egg_white", 200, "pasteurised, or fresh and cooked as the cautions say"),
                Part("sugar", 350),
                Part("butter", 550, _COOL),
                Part("vanilla", 10),
                Part("salt", 2),
            ),
            air_percent=_air(
                (4, 10, 18), (8, 18, 30), (18, 28, 40), "meringue carries more air than butter alone; much of it goes as the butter goes in"
            ),
            steps=(
                "Warm whites and sugar in a bowl over simmering water, stirring all the time, to the temperature in the cautions.",
                "Whip to a stiff, cool meringue, 8 to 12 minutes: the bowl must not feel warm.",
                "Beat in the butter a spoon at a time. If it curdles go on beating; if it is soup, chill it for 15 minutes and go on.",
                "Add vanilla and salt, then stir slowly with the flat beater for 3 minutes.",
            ),
            textures=_textures("syrup", (10, 25), (20, 23), (19, 22), "holds a soft peak with sharp edges"),
            keeping=Keeping(5, 60, _BEAT_AGAIN),
            cautions=("room", "egg_cooked", "allergens"),
            holds_celsius=_holds(25, 23, 27),
            crusts=False,
            white="off-white, takes pale tints well",
            hands_min=35,
            wait_min=10,
        ),
        Recipe(
            key="italian_meringue",
            name="Italian meringue",
            summary="Hot syrup poured on whipped whites, then butter. The most stable of the meringue ones.",
            parts=(
                Part("egg_white", 180, "pasteurised is the safest"),
                Part("sugar", 360),
                Part("water", 110, "for the syrup; half of it boils off"),
                Part("butter", 540, _COOL),
                Part("vanilla", 10),
                Part("salt", 2),
            ),
            evaporates_g=_SYRUP_LOSES,
            air_percent=_air((5, 12, 20), (10, 20, 32), (20, 30, 42), "as Swiss meringue, and a little more for the cooked foam"),
            steps=(
                "Boil sugar and water to firm ball, by the thermometer; see the cautions.",
                "When the syrup nears its mark, whip the whites to soft peaks.",
                "Pour the syrup in a thin stream between whisk and bowl, whipping on high.",
                "Whip until the bowl is cool, then beat in the butter a spoon at a time, and vanilla and salt.",
                "Stir slowly with the flat beater for 3 minutes.",
            ),
            textures=_textures("syrup", (10, 25), (20, 24), (19, 23), "holds a soft peak with sharp edges"),
            keeping=Keeping(5, 60, _BEAT_AGAIN),
            cautions=("room", "egg_syrup", "hot_syrup", "allergens"),
            holds_celsius=_holds(27, 25, 29),
            crusts=False,
            white="off-white, takes pale tints well",
            hands_min=40,
            wait_min=15,
        ),
        Recipe(
            key="flour_cooked",
            name="Flour-cooked",
            summary="A cooled paste of milk, flour and sugar beaten into butter. Light and little sweet.",
            parts=(
                Part("milk", 400),
                Part("flour", 60, "cooked through in the paste"),
                Part("sugar", 360),
                Part("butter", 450, _SOFT),
                Part("vanilla", 10),
                Part("salt", 2),
            ),
            evaporates_g=constant(40, "g", "common-practice", "about a tenth of the milk goes as steam while the paste cooks", low=20, high=80),
            air_percent=_air(
                (8, 14, 22), (15, 27, 38), (25, 35, 45), "the Armed Forces French cream frosting, a flour and milk base, yields about a third air"
            ),
            steps=(
                "Whisk milk, flour and sugar cold, then cook, stirring, until it bubbles and for 2 minutes more.",
                "Press film on the paste and cool it to the warmth of the room.",
                "Beat the butter pale, then beat in the paste a spoon at a time, vanilla and salt last.",
            ),
            textures=_textures("milk", (10, 20), (19, 22), (17, 20), "holds a soft peak; chill the bag when edges blur"),
            keeping=Keeping(4, 30, "It is a cooked milk paste: treat it as you would custard."),
            cautions=("room", "milk_paste", "raw_flour", "allergens"),
            holds_celsius=_holds(23, 21, 25),
            crusts=False,
            white="nearly white",
            hands_min=30,
            wait_min=60,
        ),
        Recipe(
            key="condensed_milk",
            name="Condensed-milk",
            summary="Butter whipped white with sweetened condensed milk. Two ingredients, smooth, no grain.",
            parts=(Part("butter", 500, _SOFT), Part("condensed_milk", 397, "one tin, as warm as the butter"), Part("vanilla", 10), Part("salt", 2)),
            air_percent=_air((5, 10, 18), (12, 20, 30), (20, 30, 40), "butter whipped alone first holds most of the air"),
            steps=(
                "Whip the butter until it is nearly white, 6 to 8 minutes.",
                "Pour in the condensed milk in a thin stream, whipping; stop when it is even.",
                "Add vanilla and salt; stir slowly for 2 minutes.",
            ),
            textures=_textures("condensed_milk", (10, 20), (19, 22), (17, 20), "holds a soft peak; firms well in the cold"),
            keeping=Keeping(7, 60, "It softens fast in warm hands: change bags often."),
            cautions=("room", "allergens"),
            holds_celsius=_holds(23, 21, 25),
            crusts=False,
            white="pale ivory",
            hands_min=20,
            wait_min=0,
        ),
        Recipe(
            key="dairy_free",
            name="Dairy-free",
            summary="A firm dairy-free block in place of the butter. Pick one with 75 % fat or more.",
            parts=(
                Part("plant_block", 450, "straight from the fridge, cut up"),
                Part("icing_sugar", 950, _SIEVED),
                Part("plant_drink", 20),
                Part("vanilla", 10),
                Part("salt", 2),
            ),
            air_percent=_air((4, 8, 14), (8, 15, 24), (16, 24, 32), _BY_FAT),
            steps=(
                "Beat the cold block only until it is smooth, 1 to 2 minutes; it softens faster than butter.",
                "Sieve in the icing sugar in three parts, beating each smooth.",
                "Add vanilla and salt, and the drink only if it is needed.",
            ),
            textures=_textures("plant_drink", (10, 20), (18, 21), (16, 19), "holds a peak that bends at its tip; chill the bag when edges blur"),
            keeping=Keeping(7, 60, "It softens sooner than butter: work cool."),
            cautions=("room", "dairy_free", "allergens"),
            holds_celsius=_holds(22, 20, 25),
            crusts=True,
            white="cream, by the block",
            hands_min=20,
            wait_min=0,
        ),
        Recipe(
            key="heat_stable",
            name="Heat-stable",
            summary="White vegetable fat with some butter for taste, and dried egg white. Holds its edges on a warm day.",
            parts=(
                Part("vegetable_fat", 350),
                Part("butter", 150, _SOFT),
                Part("icing_sugar", 1000, _SIEVED),
                Part("water", 70),
                Part("dried_egg_white", 10, "a pasteurised one"),
                Part("vanilla", 10),
                Part("salt", 3),
            ),
            air_percent=_air(
                (6, 12, 18),
                (12, 22, 31),
                (22, 30, 38),
                "white vegetable fat takes air more readily than butter: the Armed Forces light butter cream, half of it such fat, holds 26 to 31 %",
            ),
            steps=(
                "Stir the dried egg white into the water and let it stand for 10 minutes.",
                "Beat fat and butter smooth, then sieve in the icing sugar in three parts.",
                "Beat in the egg white water, vanilla and salt; stir slowly for 3 minutes.",
            ),
            textures=_textures("water", (15, 35), (20, 25), (20, 25), "holds a stiff peak"),
            keeping=Keeping(7, 60, "Keep the bowl covered while you pipe: it crusts."),
            cautions=("room", "heat_stable", "dried_egg", "allergens"),
            holds_celsius=_holds(30, 28, 33),
            crusts=True,
            white="white, the best ground for strong and for pale tints",
            hands_min=25,
            wait_min=10,
        ),
    )
}
