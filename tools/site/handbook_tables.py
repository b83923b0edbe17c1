"""The tables of the handbook's pages, worked out by calc while the site is built.

`TABLES`: name -> function of a fence's values and caption, giving HTML.
"""

from __future__ import annotations

import importlib
import pkgutil
import posixpath
import tomllib
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache, wraps
from pathlib import Path
from typing import Any

import calc
from calc import units
from calc.buttercream import RECIPES, allergens, density_g_per_ml
from calc.buttercream_data import INGREDIENTS, TEMPERATURES, WHIPPED
from calc.coats import coats
from calc.colours import PALETTE
from calc.curves import swag_drop_mm
from calc.division import dividers_mm, repeats_that_close
from calc.drawing.scene import Path as Drawn
from calc.drawing.scene import Scene, Style
from calc.drawing.svg import svg
from calc.drawing.tip_openings import opening_parts
from calc.lesson import EXERCISES, page_of
from calc.page.html import Attributes, Markup, element, join
from calc.portions import SLICES, cut_plan
from calc.rows import KINDS, RowSpec, pipe
from calc.schemes import SCHEMES
from calc.shapes import outline
from calc.sources import SOURCES, Constant, constant
from calc.tips import TIPS, Tip
from calc.units import Formatter

Values = Mapping[str, str]
METRIC, US = Formatter(), Formatter("us")
GLOSSARY = Path(__file__).resolve().parents[2] / "docs/look-up/glossary.md"


def markup(
    columns: Sequence[str],
    rows: Sequence[Sequence[str]],
    numeric: Sequence[int] = (),
    caption: str = "",
    heads: int = 1,
    stacks: bool = False,
) -> str:
    """A table; the first `heads` cells of a row are its headings, and columns in `numeric` are set to the right.

    One that `stacks` has its cells under one another on a narrow page, each with its column's name; others scroll by themselves.
    """
    right: list[Attributes] = [{"class": "pb-right"} if i in numeric else {} for i in range(len(columns))]
    top = [element("th", {"scope": "col", **right[i]}, column) for i, column in enumerate(columns)]
    cells: list[tuple[str, Attributes]] = [
        ("th", {"scope": "row", **right[i]}) if i < heads else ("td", {**right[i], "data-label": column if stacks else None})
        for i, column in enumerate(columns)
    ]
    body = [element("tr", {}, *(element(*cell, text) for cell, text in zip(cells, row, strict=True))) for row in rows]
    table = element(
        "table",
        {"class": "pb-look-up"},
        element("caption", {}, element("span", {}, caption)) if caption else None,
        element("thead", {}, element("tr", {}, *top)),
        element("tbody", {}, *body),
    )
    name = caption or columns[0] or "Table"
    return element("div", {"class": "pb-table", "data-stacks": stacks, "tabindex": "0", "role": "group", "aria-label": name}, table)


def _length(text: str, say: Formatter) -> float:
    """A length of an example in round figures of the reader's units [mm]."""
    return units.read_quantity(units.in_us_figures(text) if say.units == "us" else text, "length", "length", "Length", "centimeter")


def _lengths(values: Values, name: str, default: str, say: Formatter = METRIC) -> list[float]:
    return [_length(f"{part.strip()} cm", say) for part in values.get(name, default).split(",")]


def _caption(text: str, say: Formatter) -> str:
    return units.in_us_figures(text) if say.units == "us" else text


def _in_both(table: Callable[[Values, str, Formatter], str]) -> Callable[[Values, str], str]:
    """A table for readers of each system, in sizes that are round in it; a style sheet shows the one that the switch of units says."""

    @wraps(table)
    def both(values: Values, caption: str) -> str:
        return join(element("div", {"data-in": say.units}, Markup(table(values, caption, say))) for say in (METRIC, US))

    return both


def _unbroken(words: str) -> str:
    """A figure that stays with its unit."""
    return words.replace(" ", "\N{NO-BREAK SPACE}")


# --- buttercream ---------------------------------------------------------------------------------------------------------


def recipes(values: Values, caption: str) -> str:
    """The recipes beside each other."""
    rows = []
    for recipe in RECIPES.values():
        us = allergens(recipe.key).us
        holds = recipe.holds_celsius
        rows.append(
            [
                recipe.name,
                recipe.summary,
                f"{holds:.0f} °C ({holds * 9 / 5 + 32:.0f} °F)",
                "yes" if recipe.crusts else "no",
                recipe.white,
                f"{recipe.keeping.fridge_days} days",
                ", ".join(us) or "none of the nine",
            ]
        )
    return markup(
        ("Recipe", "What it is like", "Slumps above", "Crusts", "Colour", "Fridge, at most", "Allergens (US nine)"),
        rows,
        (2,),
        caption or "Seven buttercreams",
        stacks=True,
    )


@_in_both
def amounts(values: Values, caption: str, say: Formatter) -> str:
    """Buttercream for common cakes: round tiers of usual tins with a disc 1 cm wider."""
    density = density_g_per_ml("plain")
    rows = []
    shape = values.get("shape", "round")
    high, filling, crumb, wider = (_length(text, say) for text in ("10 cm", "6 mm", "2 mm", "1 cm"))
    for width in _lengths(values, "widths", "10, 15, 20, 25, 30", say):
        made = coats(outline(shape, width), high, 3, filling, crumb, disc_mm=width + wider)
        volumes = [say.volume(ml) for ml in (made.filling_ml, made.crumb_ml, made.final_ml)]
        cells = [say.length(width), *volumes, say.mass(made.total_ml * density), say.length(made.finished.perimeter_mm)]
        rows.append([_unbroken(cell) for cell in cells])
    words = f"{shape.capitalize()} tiers 10 cm high, three layers, fillings 6 mm, disc 1 cm wider than the cake; plain buttercream"
    return markup(
        ("Tin", "Filling", "Crumb coat", "Final coat", "In all", "Round the finished side"), rows, (0, 1, 2, 3, 4, 5), _caption(caption or words, say)
    )


@_in_both
def row_amounts(values: Values, caption: str, say: Formatter) -> str:
    """Buttercream for rows on a usual side."""
    side, repeats = _lengths(values, "side", "50", say)[0], int(values.get("repeats", "6"))
    rows = []
    for kind in KINDS.values():
        tip = Tip(*kind.begins_with)
        made = pipe(RowSpec(kind.name, tip, run_mm=side, repeats=repeats, drop_mm=_length("25 mm", say) if kind.takes_drop else 0.0))
        low, high = _unbroken(say.mass(made.low_g)), _unbroken(say.mass(made.high_g))
        rows.append(
            [
                kind.title,
                tip.name,
                str(made.count) if kind.counted else "",
                _unbroken(say.mass(made.mass_g)),
                low if low == high else f"{low} to {high}",
                _unbroken(say.duration(made.time_min)),
            ]
        )
    words = f"One row on a side of {say.length(side)} with {repeats} repeats; drops of {say.length(_length('25 mm', say))}"
    return markup(("Row", "Tip", "How many", "Buttercream", "Range", "Time"), rows, (2, 3, 4, 5), caption or words)


def densities(values: Values, caption: str) -> str:
    """Densities of the recipes by how far they are whipped."""
    rows = []
    for recipe in RECIPES.values():
        found = [density_g_per_ml(recipe.key, level) for level, _ in WHIPPED]
        rows.append([recipe.name, *(f"{100 * d:.0f} g ({100 * d.low:.0f} to {100 * d.high:.0f})" for d in found)])
    return markup(("Recipe", *(name for _, name in WHIPPED)), rows, (1, 2, 3), caption or "Weight of 100 ml of buttercream")


def ingredient_densities(values: Values, caption: str) -> str:
    """What the ingredients weigh."""
    rows = []
    for part in INGREDIENTS.values():
        density = part.density_g_per_ml
        cup = f"{part.cup_g:.0f} g" if part.cup_g is not None else "weigh it"
        note = part.cup_g.note if part.cup_g is not None else ""
        rows.append(
            [
                part.name,
                f"{100 * density:.0f} g",
                cup,
                f"{part.piece}: {part.piece_g:.0f} g" if part.piece_g is not None else "",
                density.source.title,
                f"{density.note}{'; ' + note if note and note not in density.note else ''}",
            ]
        )
    return markup(("Ingredient", "100 ml without air", "US cup", "Piece", "Source", "Note"), rows, (1, 2), caption or "Ingredients", stacks=True)


def temperatures(values: Values, caption: str) -> str:
    """Published temperatures, both printed figures."""
    rows = []
    for entry in TEMPERATURES.values():
        rows.append([units.capitalised(entry.note), f"{entry.celsius:g} °C", f"{entry.fahrenheit:g} °F", SOURCES[entry.source].citation])
    return markup(
        ("What", "Celsius", "Fahrenheit", "Source"),
        rows,
        (1, 2),
        caption or "Published temperatures; the printed pairs are rounded",
        stacks=True,
    )


# --- dividing -------------------------------------------------------------------------------------------------------------


@_in_both
def repeats(values: Values, caption: str, say: Formatter) -> str:
    """Round the side by cutter: the fewest repeats that close, their width and drop."""
    cutters = _lengths(values, "cutters", "5, 6, 7, 7.5, 8, 9, 10, 11, 12", say)
    rows = []
    for side in _lengths(values, "sides", "35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 110, 120", say):
        cells = [_unbroken(say.length(side))]
        for cutter in cutters:
            n = max(3, repeats_that_close(side, cutter))
            width = side / n
            drop = swag_drop_mm(cutter, min(width, cutter))
            wide, deep = (f"{width / 10:.1f}", f"{drop / 10:.1f}") if say.units == "metric" else (say.length(width)[:-3], say.length(drop)[:-3])
            size, depth = _unbroken(f" × {wide}"), _unbroken(f"drop {deep}")
            cells.append(join((element("b", {}, str(n)), size, element("br", {}), depth)))
        rows.append(cells)
    words = f"The fewest repeats that leave no gap × the width of a swag, and its drop, in {'cm' if say.units == 'metric' else 'inches'}"
    return markup(
        ("Round the side", *(f"{_unbroken(say.length(c))} cutter" for c in cutters)),
        rows,
        range(1, len(cutters) + 1),
        _caption(caption or words, say),
    )


@_in_both
def dividers(values: Values, caption: str, say: Formatter) -> str:
    """Round the side by repeats: what the dividers are set to."""
    counts = [int(n) for n in values.get("repeats", "4, 5, 6, 7, 8, 9, 10, 12, 14, 16").split(",")]
    rows = []
    for side in _lengths(values, "sides", "35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100", say):
        settings = [dividers_mm(side, n) for n in counts]
        cells = [f"{setting:.0f}" if say.units == "metric" else _unbroken(say.length(setting)[:-3]) for setting in settings]
        rows.append([_unbroken(say.length(side)), *cells])
    words = f"Set the dividers to, in {'mm' if say.units == 'metric' else 'inches'}"
    return markup(("Round the side", *(f"{n} repeats" for n in counts)), rows, range(1, len(counts) + 1), _caption(caption or words, say))


# --- portions -------------------------------------------------------------------------------------------------------------


@_in_both
def portions(values: Values, caption: str, say: Formatter) -> str:
    """Whole slices by tin and slice for one shape."""
    shape = values.get("shape", "round")
    slices = [size.sizes_mm(say.units) for size in SLICES]
    rows = []
    for text in values.get("sizes", "10, 12.5, 15, 17.5, 20, 22.5, 25, 27.5, 30, 35").split(","):
        sizes = [_length(f"{part.strip()} cm", say) for part in text.split("x")]
        top, name = outline(shape, *sizes), _unbroken(" x ".join(say.length(size) for size in sizes))
        cells = [name]
        for size in slices:
            plan = cut_plan(top, size)
            cells.append(join((element("b", {}, str(plan.count)), f" {plan.cut}")))
        rows.append(cells)
    heads = [f"{a:.0f} × {b:.0f} mm" if say.units == "metric" else f"{say.length(a)[:-3]} × {say.length(b)}" for a, b in slices]
    return markup(
        (f"{shape.capitalize()} tin", *heads), rows, (1, 2, 3, 4), caption or f"Slices of {units.a_or_an(shape)} tin, with the cut that gives most"
    )


# --- tips -----------------------------------------------------------------------------------------------------------------


def _opening(width_mm: float, more: str = "") -> Markup:
    """A width of a tip or of its line in millimetres, with inches beside it for readers in US units."""
    return join((METRIC.opening(width_mm), element("span", {"data-in": "us"}, f" ({US.length(width_mm)})"), more))


def tips(values: Values, caption: str) -> str:
    """The tips of one family with their openings drawn at 1:1."""
    family = values["family"]
    rows = []
    for use in TIPS:
        if use.tip.family != family:
            continue
        tip = use.tip
        reach = tip.opening_mm / 2 + 1.0
        scene = Scene(
            f"The opening of {units.a_or_an(tip.name)} tip",
            f"{units.a_or_an(tip.family).capitalize()} opening, "
            f"{METRIC.opening(tip.opening_mm)} across, at its true size on paper and on a screen of 96 pixels to the inch.",
            -reach,
            -reach,
            2 * reach,
            2 * reach,
            (Drawn(opening_parts(tip), Style(fill="#2f1730", role="text")),),
        )
        drawn = svg(scene).replace("<svg ", f'<svg width="{2 * reach:.1f}mm" height="{2 * reach:.1f}mm" ', 1)
        rows.append(
            [
                _opening(tip.opening_mm, f", {tip.points} points" if tip.points and family.endswith("star") else ""),
                Markup(drawn),
                ", ".join(use.makes),
                _opening(tip.bead_width_mm),
                use.angle,
                use.confused_with,
            ]
        )
    return markup(
        ("Opening", "At 1:1", "Makes", "Line as wide as", "Angle", "Easily taken for"),
        rows,
        (3,),
        caption or f"{family.capitalize()} tips",
        stacks=True,
    )


# --- colours --------------------------------------------------------------------------------------------------------------


def palette(values: Values, caption: str) -> str:
    """The palette by name, with a swatch."""
    view: Attributes = {"width": "100%", "height": "100%", "viewBox": "0 0 1 1", "preserveAspectRatio": "none", "aria-hidden": "true"}
    rows = []
    for name, value in PALETTE.items():
        square = element("svg", view, element("rect", {"width": "1", "height": "1", "fill": value}))
        rows.append([name, element("span", {"class": "pb-swatch"}, square), value])
    return markup(("Name", "Looks like", "sRGB"), rows, (), caption or "The handbook's colours by their own names")


# --- units ----------------------------------------------------------------------------------------------------------------


def conversions(values: Values, caption: str) -> str:
    """A list of measures, worked out both ways."""
    kind = values["kind"]
    rows = []
    for text in values["list"].split(";"):
        value = units.read_quantity(text.strip(), kind, kind, kind)
        match kind:
            case "length":
                pair = (METRIC.length(value), US.length(value))
            case "mass":
                pair = (METRIC.mass(value), US.mass(value))
            case _:
                pair = (METRIC.volume(value), US.volume(value))
        rows.append([text.strip(), *pair])
    return markup(("You have", "Metric", "US"), rows, (1, 2), caption or f"Conversions of {kind}")


CUP_OF_SELF_RISING_G = constant(125.0, "g", "usda-sr", "NDB 20082, wheat flour, white, all-purpose, self-rising, enriched, cup", group="measured")


def _quarters(count: int) -> str:
    """A count of quarters: 7 is 1¾."""
    return f"{count // 4 or ''}{('', '¼', '½', '¾')[count % 4]}" or "0"


def in_cups(grams: float, cup_g: float) -> str:
    """A weight in quarter cups and half tablespoons, which a kitchen has, rounded to the nearest.

    >>> in_cups(200, 125), in_cups(200, 200), in_cups(30, 120)
    ('1½ cups and 1½ tbsp', '1 cup', '¼ cup')
    """
    quarters, halves = divmod(round(32 * grams / cup_g), 8)
    cups = f"{_quarters(quarters)} cup{'s' if quarters > 4 else ''}" if quarters else ""
    spoons = f"{_quarters(2 * halves)} tbsp" if halves else ""
    return " and ".join(part for part in (cups, spoons) if part)


def baking(values: Values, caption: str) -> str:
    """What goes into a sponge: by weight, by the cup as a published table weighs a cup, and what it is called in the US."""
    butter, sugar, milk = (INGREDIENTS[name] for name in ("butter", "sugar", "milk"))
    if butter.piece_g is None or sugar.cup_g is None or milk.cup_g is None:
        raise ValueError("no published stick of butter, or cup of sugar or milk")
    rows = []
    for name, called, each, measure in (
        ("butter", "unsalted butter", butter.piece_g, "stick"),
        ("sugar", "caster (superfine) sugar; granulated does too", sugar.cup_g, "cup"),
        ("flour", "self-raising (self-rising) flour", CUP_OF_SELF_RISING_G, "cup"),
    ):
        grams = units.read_quantity(values[name], "mass", name, name, "gram")
        by_measure = f"{_quarters(round(4 * grams / each))} sticks" if measure == "stick" else in_cups(grams, each)
        rows.append([called, f"{METRIC.mass(grams)} ({US.mass(grams)})", by_measure, f"{METRIC.mass(each)} a {measure}"])
    rows.append(["large eggs (extra large in the US)", values["eggs"], values["eggs"], "counted"])
    ml = units.read_quantity(values["milk"], "volume", "milk", "Milk", "tablespoon")
    rows.append(["whole milk", METRIC.volume(ml), US.volume(ml), f"{METRIC.mass(milk.cup_g)} a cup"])
    return markup(("You need", "By weight", "Or by measure", "USDA gives"), rows, (1, 2, 3), caption or "The sponge")


# --- sources, constants, words ----------------------------------------------------------------------------------------------


@lru_cache(maxsize=1)
def _constants() -> tuple[tuple[str, str, Constant], ...]:
    """Every constant of calc: the room it is in, its name, and itself."""
    found: list[tuple[str, str, Constant]] = []
    for info in pkgutil.walk_packages(calc.__path__, "calc."):
        if info.name.endswith("__main__"):
            continue
        room = info.name.removeprefix("calc.")
        for name, value in vars(importlib.import_module(info.name)).items():
            _gather(room, name, value, found, 0)
    first: dict[int, tuple[str, str, Constant]] = {}
    for entry in found:  # once, however many rooms import it
        first.setdefault(id(entry[2]), entry)
    return tuple(first.values())


def _gather(room: str, name: str, value: Any, found: list[tuple[str, str, Constant]], depth: int) -> None:
    if isinstance(value, Constant):
        found.append((room, name, value))
    elif depth < 2 and isinstance(value, dict):
        for key, inner in value.items():
            _gather(room, f"{name} {key}", inner, found, depth + 1)
    elif depth < 2 and isinstance(value, tuple) and value and all(isinstance(inner, Constant) for inner in value):
        for inner in value:
            _gather(room, name, inner, found, depth + 1)


def _written(value: float, unit: str) -> str:
    """A number of calc as a reader writes it."""
    match unit:
        case "g":
            return METRIC.mass(value)
        case "min":
            return METRIC.duration(value)
        case "deg":
            return f"{value:g}°"
        case _:
            return f"{value:.4g} {unit.replace('dm2', 'dm²') if unit != '-' else ''}".strip()


def constants(values: Values, caption: str) -> str:
    """Every number that is not geometry, with its range, its note and its source; one that two rooms use, once."""
    found = {}
    for _room, name, value in _constants():
        note = f"A line from {units.a_or_an(name[6:])} tip over the opening, in section: {value.note}" if name[:6] == "SWELL " else value.note
        found[note, float(value)] = value
    rows = []
    for (note, _), value in sorted(found.items(), key=lambda e: (e[1].source.standing, e[1].source.title, e[0][0].lower())):
        ends = [_written(end, value.unit) for end in (value.low, value.high)]
        extent = " to ".join(ends) if (value.low, value.high) != (float(value), float(value)) else ""
        rows.append([units.capitalised(note), _written(float(value), value.unit), extent, value.source.title])
    return markup(("What", "Value", "Range", "Source"), rows, (1, 2), caption or f"{len(rows)} numbers", stacks=True)


def all_sources(values: Values, caption: str) -> str:
    """Every source."""
    rows = []
    used = {entry[2].source.key for entry in _constants()}
    for source in sorted(SOURCES.values(), key=lambda s: (s.standing != "published", s.title.lower())):
        rows.append([source.title, source.authors, source.publisher, source.year, "yes" if source.key in used else ""])
    return markup(("Title", "Authors", "Publisher", "Year", "A number rests on it"), rows, (), caption or f"{len(rows)} sources", stacks=True)


def _title(page: str) -> str:
    """The title of a page, from its path as seen from the glossary's folder."""
    text = (GLOSSARY.parent / page).read_text(encoding="utf-8")
    return text.partition("\ntitle: ")[2].partition("\n")[0]


def _address(page: str) -> str:
    """The address of a page as seen from the glossary."""
    return f"../{page.removesuffix('.md').removesuffix('index')}".rstrip("/") + "/"


def words(values: Values, caption: str) -> str:
    """The glossary: each word, what it means, what else it is called, and the page that teaches it."""
    with Path(__file__).with_name("handbook_words.toml").open("rb") as file:
        known = tomllib.load(file)
    parts = []
    for word in sorted(known, key=str.lower):
        entry = known[word]
        anchor = "".join(c if c.isalnum() else "-" for c in word.lower())
        meaning = [entry["means"]]
        if entry.get("also"):
            meaning += [" ", element("span", {"class": "pb-also-called"}, f"Also called {', '.join(entry['also'])}.")]
        meaning += [" ", element("a", {"href": _address(entry["see"])}, _title(entry["see"]))]
        parts += [element("dt", {"id": anchor}, word), element("dd", {}, *meaning)]
    return element("dl", {"class": "pb-words"}, *parts)


def looks(values: Values, caption: str) -> str:
    """The looks to begin with, and how many tips each takes on a cake of usual size."""
    rows = []
    for scheme in SCHEMES.values():
        rows.append([scheme.name, scheme.words, str(len({part.begins_with for part in scheme.parts}))])
    return markup(("Look", "What it is", "Tips"), rows, (2,), caption or "Looks to begin with", stacks=True)


def exercises(values: Values, caption: str) -> str:
    """What a class can practise, the easiest first, each with the page that says how; for a page two folders down."""
    rows = []
    for exercise in EXERCISES.values():
        page = posixpath.normpath(f"../../techniques/{page_of(exercise)}")
        rows.append([element("a", {"href": f"{page}/"}, exercise.name), exercise.tip.name, exercise.aim])
    return markup(("Exercise", "Tip", "What it teaches"), rows, caption=caption or "Exercises, easiest first", stacks=True)


TABLES: dict[str, Callable[[Values, str], str]] = {
    "baking": baking,
    "recipes": recipes,
    "amounts": amounts,
    "row amounts": row_amounts,
    "densities": densities,
    "ingredients": ingredient_densities,
    "temperatures": temperatures,
    "repeats": repeats,
    "dividers": dividers,
    "portions": portions,
    "tips": tips,
    "palette": palette,
    "conversions": conversions,
    "constants": constants,
    "sources": all_sources,
    "words": words,
    "exercises": exercises,
    "looks": looks,
}
