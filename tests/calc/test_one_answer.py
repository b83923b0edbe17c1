"""Whatever two calculators both tell is one function: the same question is put to each of them, and every shared figure is compared.

`QUESTIONS` are groups of (calculator, inputs, figure) that must agree. A figure's name that more than one calculator uses stands in a
question, or in `OTHER_QUESTIONS` with what it means there.
"""

from __future__ import annotations

from collections import defaultdict
from functools import cache
from typing import Any

import pytest

import calc
from calc.calculators import SLUGS

Inputs = dict[str, str]
Asked = tuple[str, Inputs, str]

TIERS = {
    "usual": {"shape": "round", "width": "20 cm", "height": "10 cm", "layers": "3", "filling": "6 mm"},
    "tall": {"shape": "round", "width": "15 cm", "height": "20 cm", "layers": "6", "filling": "5 mm"},
    "square": {"shape": "square", "width": "18 cm", "height": "9 cm", "layers": "2", "filling": "8 mm"},
    "heart": {"shape": "heart", "width": "25 cm", "height": "10 cm", "layers": "3", "filling": "6 mm"},
    "sheet": {"shape": "rectangle", "width": "20 cm", "length": "30 cm", "height": "7 cm", "layers": "2", "filling": "6 mm"},
}
COATS = {"crumb": "2 mm", "final": "4 mm"}
RECIPES = ("plain", "swiss_meringue")


def order_of(tier: Inputs, recipe: str, *rows: Inputs, **more: str) -> Inputs:
    """An order of one tier."""
    texts = {"recipe": recipe, "guests": "20", **{f"tiers.0.{name}": text for name, text in {**tier, **COATS}.items()}, **more}
    return texts | {f"tiers.0.rows.{at}.{name}": text for at, row in enumerate(rows) for name, text in row.items()}


def same(*asked: tuple[str, Inputs], **figures: str | tuple[str, ...]) -> list[tuple[Asked, ...]]:
    """The same figures of several calculators; a figure has one name, or one for each calculator."""
    found = []
    for names in figures.values():
        each = (names,) * len(asked) if isinstance(names, str) else names
        found.append(tuple((slug, inputs, name) for (slug, inputs), name in zip(asked, each, strict=True) if name))
    return found


def about_tier(tier: Inputs, recipe: str) -> list[tuple[Asked, ...]]:
    order = ("order", order_of(tier, recipe))
    coats = ("coats", {**tier, "crumb_coat": COATS["crumb"], "final_coat": COATS["final"], "recipe": recipe})
    fillings = f"{(int(tier['layers']) - 1) * int(tier['filling'].split()[0])} mm"
    sizes = " x ".join(tier[name] for name in ("width", "length", "height") if name in tier)
    supports = ("supports", {"tiers": f"{sizes} {tier['shape']}", "coat": "6 mm", "filling": fillings, "recipe": recipe})
    top = {name: tier[name] for name in ("shape", "width", "length", "height") if name in tier}
    tin = f"{tier['width']} x {tier['length']}" if "length" in tier else tier["width"]
    stack = ("stack", {"guests": "10", "tins": tin, "shape": tier["shape"], "height": tier["height"], "recipe": recipe})
    return [
        *same(order, coats, a="filling", b="crumb_coat", c="final_coat", d="finished_width", e="finished_side", f="finished_height", g="mass"),
        *same(order, coats, a=("buttercream", "make")),
        *same(order, supports, a="weight", b="weight_1", c="board", d="height", e="dowels", f="dowels_1"),
        *same(order, ("portions", top), stack, a="portions"),
        *same(("order", order_of(tier, recipe, guests="10")), stack, a="spare_portions"),
        *same(order, ("batch", {"recipe": recipe}), a="density"),
        # the stack asks for no coat, and begins with that of the others
        *same(("order", {**order_of(tier, recipe), "tiers.0.final": "3 mm", "tiers.0.layers": "3", "tiers.0.filling": "6 mm"}), stack, a="weight"),
        *same(("supports", {**supports[1], "coat": "5 mm", "filling": "12 mm"}), stack, a="weight", b=("height", "cake_height")),
    ]


def about_rows(recipe: str) -> list[tuple[Asked, ...]]:
    """Rows round a side of 66 cm that the tape gives, in 8 repeats."""
    tier = {**TIERS["usual"], "side": "66 cm", "repeats": "8"}
    side = {"side": "66 cm", "repeats": "8"}
    swag = {"kind": "swag", "tip": "petal 11 mm", "place": "side", "drop": "3 cm"}
    string = {"kind": "string", "tip": "round 1.8 mm", "place": "side", "drop": "4 cm", "layers": "2"}
    shell = {"kind": "shell", "tip": "open star 7 mm", "place": "base"}
    rosette = {"kind": "rosette", "tip": "closed star 8 mm", "place": "joints", "per_joint": "2"}
    known = {"recipe": recipe}
    piped = order_of(tier, recipe, swag, {**string, "place": "under"}, shell, rosette)
    order, hung = ("order", piped), ("order", order_of(tier, recipe, string))
    swags = ("swags", {**side, "drop": "3 cm", "tip": swag["tip"], **known})
    strings = ("strings", {**side, "drop": "4 cm", "loops": "2", "tip": string["tip"], **known})
    shells = ("shells", {**side, "tip": shell["tip"], **known})
    rosettes = ("rosettes", {"side": "66 cm", "count": "16", "tip": rosette["tip"], **known})
    rows = {
        name: ("row", {**side, **{k: v for k, v in row.items() if k in ("kind", "tip", "drop", "layers")}, **known, **more})
        for name, row, more in (("swag", swag, {}), ("string", string, {}), ("shell", shell, {}), ("rosette", rosette, {"per_repeat": "2"}))
    }
    division = ("division", side)
    return [
        *same(order, swags, division, a="repeats", b="dividers"),
        *same(order, division, a=("pitch_1", "pitch"), b="closing_error"),
        *same(order, swags, a="drop", b="width", c="arc_radius", d="length_each", e="length_total"),
        *same(
            order,
            swags,
            rows["swag"],
            a=("mass_1_1", "mass", "mass"),
            b=("time_1_1", "time", "time"),
            c=("length_1_1", "length_total", "length_total"),
        ),
        *same(swags, rows["swag"], a="volume", b="width"),
        *same(order, strings, rows["string"], a=("mass_1_2", "mass", "mass"), b=("time_1_2", "time", "time"), c=("count_1_2", "strings", "count")),
        *same(hung, strings, a="drop", b="length_each", c="length_total", d="width"),
        *same(strings, rows["string"], a="volume"),
        *same(order, shells, rows["shell"], a=("mass_1_3", "mass", "mass"), b=("time_1_3", "time", "time"), c=("count_1_3", "shells", "count")),
        *same(order, shells, rows["shell"], a=("pitch_1_3", "pitch", "pitch")),
        *same(order, shells, a=("stretch_1_3", "stretch"), b="repeats"),
        *same(shells, rows["shell"], a="volume", b=("row_width", "band")),
        *same(order, rosettes, rows["rosette"], a=("mass_1_4", "mass", "mass"), b=("time_1_4", "time", "time"), c=("count_1_4", "count", "count")),
        *same(rosettes, rows["rosette"], a="volume", b=("height", "stands_out"), c=("spacing", "pitch")),
    ]


def about_measured_tins() -> list[tuple[Asked, ...]]:
    """A heart of another fullness, and tins by what they hold, wherever a tin is asked."""
    found = []
    for tin in (
        {"shape": "heart", "width": "25 cm", "fullness": "62 %"},
        {"shape": "heart", "width": "25 cm", "holds": "4.5 l", "deep": "10 cm"},
        {"shape": "round", "width": "20 cm", "holds": "2.8 l", "deep": "10 cm"},
    ):
        measured = {name: text for name, text in tin.items() if name not in ("shape", "width")}
        tier = {**tin, "height": "10 cm", "layers": "3", "filling": "6 mm"}
        order = ("order", {**order_of(tier, "plain", guests="10"), "tiers.0.final": "3 mm"})
        stack = ("stack", {"guests": "10", "tins": tin["width"], "shape": tin["shape"], "height": "10 cm", "recipe": "plain", **measured})
        found += same(order, stack, a="portions", b="weight", c="spare_portions")
        found += same(order, ("portions", {**tin, "height": "10 cm"}), a="portions")
        if "fullness" in tin:
            supports = ("supports", {"tiers": "25 x 10 cm heart", "filling": "12 mm", "recipe": "plain", "fullness": tin["fullness"]})
            found += same(order, supports, a="weight", b="board", c="height")
    return found


def about_two_tiers() -> list[tuple[Asked, ...]]:
    order = ("order", {"guests": "36", "tiers.0.width": "20 cm", "tiers.1.width": "15 cm"})
    supports = ("supports", {"tiers": "20x10 cm round; 15x10 cm round"})
    stack = ("stack", {"guests": "36", "tins": "15 and 20 cm", "tier_count": "2"})
    names = ("board", "board_2", "dowels", "dowels_1", "dowels_2", "dowel_length", "weight_1", "weight_2", "stacked", "height", "weight")
    return [
        *same(order, supports, **{name: name for name in names}),
        *same(order, supports, stack, a="weight"),
        *same(order, stack, a="portions", b="spare_portions"),
    ]


def about_money_and_colours() -> list[tuple[Asked, ...]]:
    """What the order passes on to the price, the recipe and the colours, typed into their own calculators."""
    cake = order_of(TIERS["usual"], "plain", {"kind": "swag", "tip": "petal 11 mm", "colour": "russet", "drop": "3 cm"}, guests="20")
    order = ("order", {**cake, "rate": "18", "extras": "34", "overhead": "10 %", "margin": "25 %"})
    figures = answered(*order)
    price = {
        "ingredients": "0",
        "hours": f"{figures['hands']['value']} min",
        "rate": "18",
        "packaging": "34",
        "overhead": "10 %",
        "margin": "25 %",
        "portions": str(figures["portions"]["value"]),
    }
    swag = figures["mass_1_1"]["value"]
    return [
        *same(order, ("price", price), a="price", b="cost", c="per_portion"),
        *same(order, ("batch", {"recipe": "plain", "mass": f"{figures['buttercream']['value']:.9f} g"}), a="volume", b=("buttercream", "mass")),
        *same(order, ("colours", {"rows": f"russet, petal 11 mm, {swag:.9f} g"}), a=("colour_russet", "mass"), b="bags"),
        *same(
            ("order", order_of(TIERS["usual"], "plain")),
            ("colours", {"rows": "russet, petal 11 mm, 80 g; russet, petal 9 mm, 80 g"}),
            a=("", "couplers"),
        ),
    ]


# Names that are shared by figures of different questions, and what each means there.
OTHER_QUESTIONS = {
    ("lesson", "buttercream"): "of a class, for all its kits",
    ("lesson", "bags"): "bags to have for a class, with some to spare",
    ("colours", "couplers"): "those that the reader has typed rows for",
    ("order", "couplers"): "those of the whole cake",
    ("shells", "pitch"): "from shell to shell, compared with the order's by its own name",
    ("row", "pitch"): "from piece to piece, compared with the order's by its own name",
    ("vermicelli", "pitch"): "from line to line of a wandering one, which no other calculator knows",
    ("vermicelli", "mass"): "of a wandering line",
    ("vermicelli", "time"): "of a wandering line",
    ("vermicelli", "volume"): "of a wandering line",
    ("vermicelli", "length_total"): "of a wandering line",
    ("price", "hours"): "as they are typed",
    ("kitchen", "tips"): "tips that the maker has",
    ("practice", "tips"): "tips that a practice sheet wants",
}


def is_of_the_clock(slug: str, name: str) -> bool:
    """Whether a figure rests on the clock: the timetable goes by tiers and rows that are typed as text, with minutes of their own."""
    return slug == "timetable" or (slug == "order" and (name in ("start", "hands") or name.startswith("out_")))


@cache
def _answer(slug: str, typed: tuple[tuple[str, str], ...]) -> dict[str, Any]:
    answer = calc.compute(slug, dict(typed))
    assert not answer.problems, (slug, answer.problems)
    return answer.figures


def answered(slug: str, inputs: Inputs) -> dict[str, Any]:
    return _answer(slug, tuple(inputs.items()))


def questions() -> list[tuple[Asked, ...]]:
    found = [question for tier in TIERS.values() for recipe in RECIPES for question in about_tier(tier, recipe)]
    found += [question for recipe in RECIPES for question in about_rows(recipe)]
    return found + about_measured_tins() + about_two_tiers() + about_money_and_colours()


QUESTIONS = questions()


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: "-".join(f"{slug}.{name}" for slug, _, name in question))
def test_calculators_give_one_answer(question: tuple[Asked, ...]) -> None:
    (first, *_), found = question, [answered(slug, inputs)[name] for slug, inputs, name in question]
    for (slug, _, name), figure in zip(question, found, strict=True):
        where = f"{slug} {name} differs from {first[0]} {first[2]}"
        if isinstance(found[0]["value"], str):
            assert figure["value"] == found[0]["value"], where
            continue
        assert figure["value"] == pytest.approx(found[0]["value"], rel=1e-6, abs=1e-9), where
        for end in ("low", "high"):
            if end in figure and end in found[0]:
                assert figure[end] == pytest.approx(found[0][end], rel=1e-6), f"{where}, {end} end"
        if not ({"low", "high"} & (figure.keys() ^ found[0].keys())):
            assert figure["text"] == found[0]["text"], where


def test_every_shared_figure_is_asked_of_every_calculator_that_shows_it() -> None:
    shown: dict[str, set[str]] = defaultdict(set)
    asked: dict[str, set[str]] = defaultdict(set)
    seen: dict[tuple[str, tuple[tuple[str, str], ...]], None] = {(slug, tuple(inputs.items())): None for q in QUESTIONS for slug, inputs, _ in q}
    for slug in SLUGS:
        seen[slug, tuple(USUAL.get(slug, {}).items())] = None
    for slug, typed in seen:
        for name in _answer(slug, typed):
            shown[name].add(slug)
    for question in QUESTIONS:
        for slug, _, name in question:
            asked[name].add(slug)
    missing = {
        (slug, name)
        for name, slugs in shown.items()
        if len(slugs) > 1
        for slug in slugs
        if slug not in asked[name] and (slug, name) not in OTHER_QUESTIONS and not is_of_the_clock(slug, name)
    }
    assert not missing, f"shared figures that no question asks: {sorted(missing)}"


# What the calculators need that answer nothing with their defaults alone.
USUAL = {
    "portions": {"height": "20 cm"},
    "division": {"side": "66 cm", "repeats": "8"},
    "swags": {"side": "66 cm", "cutter": "9 cm"},
    "strings": {"side": "66 cm"},
    "shells": {"side": "66 cm"},
    "rosettes": {"side": "66 cm"},
    "row": {"side": "66 cm"},
    "vermicelli": {"side": "66 cm"},
    "tips": {"family": "petal", "opening": "11 mm"},
    "colours": {"rows": "russet, petal 11 mm, 80 g"},
    "timetable": {"ready_at": "Saturday 16 October 2027 at 18:00"},
    "order": {"tiers.0.width": "20 cm"},
}
