"""The units of a kitchen: definitions, spellings, and the factor to the base unit of each kind."""

from __future__ import annotations

from functools import lru_cache

# Definitions in pint's own notation, held in memory (a memory snapshot keeps no files) and checked against pint's full
# definitions by tests/calc/test_units.py. The household measures that pint lacks stand at the end.
DEFINITIONS = """
meter = [length] = m = metre
second = [time] = s = sec
gram = [mass] = g
count = []
radian = []
milli- = 1e-3 = m-
centi- = 1e-2 = c-
kilo- = 1e3 = k-
inch = 0.0254 * meter = in
foot = 12 * inch = ft
yard = 3 * foot = yd
minute = 60 * second = min
hour = 60 * minute = h
day = 24 * hour = d
week = 7 * day
pound = 453.59237 * gram = lb
ounce = pound / 16 = oz
liter = 0.001 * meter ** 3 = l = L = litre
gallon = 231 * inch ** 3 = gal
quart = gallon / 4 = qt
pint = quart / 2 = pt
cup = pint / 2
fluid_ounce = pint / 16 = floz
tablespoon = fluid_ounce / 2 = tbsp
teaspoon = fluid_ounce / 6 = tsp
imperial_gallon = 4.54609 * liter
imperial_pint = imperial_gallon / 8
imperial_fluid_ounce = imperial_pint / 20
metric_cup = 0.25 * liter
butter_stick = 113.398 * gram
"""

BASE = {"length": "mm", "mass": "g", "volume": "ml", "duration": "min"}
_PINT_BASE = {"length": "millimeter", "mass": "gram", "volume": "milliliter", "duration": "minute"}
EXAMPLES = {"length": "15 cm or 6 in", "mass": "250 g or 9 oz", "volume": "250 ml or 1 cup", "duration": "45 min or 1 h 30 min"}
NOUNS = {"length": "a length", "mass": "a weight", "volume": "a volume", "duration": "a time"}
SHORT = {  # as it stands beside a field
    "millimeter": "mm",
    "centimeter": "cm",
    "inch": "in",
    "gram": "g",
    "kilogram": "kg",
    "ounce": "oz",
    "pound": "lb",
    "milliliter": "ml",
    "liter": "l",
    "cup": "cups",
    "minute": "min",
    "hour": "h",
    "quart": "qt",
}

SPELLINGS = {
    "length": {
        "millimeter": ["mm", "mms", "millimetre", "millimetres", "millimeter", "millimeters"],
        "centimeter": ["cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"],
        "meter": ["m", "metre", "metres", "meter", "meters"],
        "inch": ["in", "ins", "inch", "inches", '"', "in.", "''"],
        "foot": ["ft", "foot", "feet", "'", "ft."],
        "yard": ["yd", "yds", "yard", "yards"],
    },
    "mass": {
        "gram": ["g", "gm", "gms", "gr", "gram", "grams", "gramme", "grammes"],
        "kilogram": ["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"],
        "ounce": ["oz", "ozs", "ounce", "ounces", "oz."],
        "pound": ["lb", "lbs", "pound", "pounds", "lb.", "lbs."],
        "butter_stick": ["stick", "sticks"],
    },
    "volume": {
        "milliliter": ["ml", "mls", "millilitre", "millilitres", "milliliter", "milliliters", "cc"],
        "centiliter": ["cl", "centilitre", "centilitres", "centiliter", "centiliters"],
        "liter": ["l", "litre", "litres", "liter", "liters"],
        "teaspoon": ["tsp", "tsps", "teaspoon", "teaspoons"],
        "tablespoon": ["tbsp", "tbsps", "tbs", "tablespoon", "tablespoons"],
        "fluid_ounce": ["fl oz", "floz", "fl. oz.", "fl.oz.", "fluid ounce", "fluid ounces"],
        "cup": ["cup", "cups"],
        "metric_cup": ["metric cup", "metric cups"],
        "pint": ["pt", "pint", "pints"],
        "quart": ["qt", "qts", "quart", "quarts"],
        "gallon": ["gal", "gallon", "gallons"],
    },
    "duration": {
        "second": ["s", "sec", "secs", "second", "seconds"],
        "minute": ["min", "mins", "minute", "minutes", "m", "min."],
        "hour": ["h", "hr", "hrs", "hour", "hours"],
        "day": ["d", "day", "days"],
        "week": ["wk", "wks", "week", "weeks"],
    },
}
UNIT_OF: dict[str, dict[str, str]] = {
    kind: {spelling: unit for unit, spellings in table.items() for spelling in spellings} for kind, table in SPELLINGS.items()
}


@lru_cache(maxsize=1)
def registry() -> object:
    """Give pint's registry with only the units of a kitchen (`DEFINITIONS`), made once."""
    import pint

    return pint.UnitRegistry(DEFINITIONS.strip().splitlines())


@lru_cache(maxsize=256)
def factor(kind: str, unit: str) -> float:
    """How many base units of its kind one `unit` is, by pint; rounded to 15 digits, since ratios are exact."""
    quantity = registry().Quantity(1, unit)  # type: ignore[attr-defined]
    return float(f"{quantity.to(_PINT_BASE[kind]).magnitude:.15g}")
