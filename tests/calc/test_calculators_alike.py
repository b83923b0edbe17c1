"""What holds of every calculator alike: limits that a person can keep in mind, examples that can be typed, figures told as they are, columns of
figures under each other, and answers in proportion to the cake."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Iterator
from itertools import islice, product
from pathlib import Path
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS
from calc.units import Formatter
from tests.calc.test_calculators_fields import fields_of

VECTORS = json.loads((Path(__file__).parents[1] / "vectors" / "vectors.json").read_text(encoding="utf-8"))  # only what is typed there is used


EVERY_FIELD = [(f"{slug}.{name}", declared) for slug in CALCULATORS for name, declared in fields_of(slug)]
# What is typed besides, so that every table of a calculator is seen.
REACHING: dict[str, list[dict[str, str]]] = {
    "coats": [
        {"style": "ombre"},
        {"style": "ombre", "units": "us", "shares": "2, 1, 1"},
        {"style": "striped", "dam": "1 cm"},
        {"shape": "oval", "width": "20 cm", "length": "30 cm"},
    ],
    "division": [
        {"side": "63 cm", "repeats": "8"},
        {"shape": "oval", "width": "20 cm", "length": "30 cm", "repeats": "8"},
        {"shape": "heart", "width": "20 cm", "repeats": "8", "units": "us"},
    ],
    "kitchen": [
        {"cutters": "7, 8, 9 cm", "tins": "15, 20 cm", "boards": "25, 30 cm", "tips.0.tip": "petal 11 mm", "tips.1.tip": "round 3 mm"},
        {"recipes.0.name": "Ours", "recipes.0.parts.0.ingredient": "butter", "recipes.0.parts.0.mass": "250 g"},
        {"measured.0.tip": "open star 7 mm", "measured.0.kind": "shell", "measured.0.length": "30 cm", "measured.0.pieces": "27"},
    ],
    "colours": [
        {f"rows.{place}.{name}": text for place, row in enumerate(rows) for name, text in zip(("colour", "tip", "mass"), row, strict=True)}
        for rows in [
            [("cream", "petal 9 mm", "300 g"), ("cream", "round 3 mm", "90 g"), ("sage", "round 3 mm", "80 g"), ("forest green", "leaf 6 mm", "40 g")]
        ]
    ],
    "swags": [{"side": "64 cm", "cutter": "7, 8, 9 cm"}, {"side": "64 cm", "cutter": "9 cm", "rows": "2"}, {"side": "64 cm", "drop": "3 cm"}],
    "strings": [{"side": "64 cm", "loops": "3"}],
    "shells": [{"side": "64 cm", "per_swag": "12", "repeats": "8"}],
    "lesson": [{"students": "12", "left_handed": "2", "room": "100"}, {"cake": "300 g", "breaks": "1"}, {"units": "us"}],
    "price": [
        {"items.0.name": "butter", "items.0.mass": "500 g", "items.0.pack": "250 g", "items.0.pack_price": "2.50"},
        {"tasks.0.name": "piping", "tasks.0.time": "2 h", "tax": "10 %", "deposit": "30 %"},
    ],
    "timetable": [{"people": "2"}, {"people": "2", "units": "us", "stacked": "venue", "travel": "1 h"}],
    "batch": [{"bowl": "5 l"}, {"bags": "3", "units": "us"}],
    "vermicelli": [{"side": "64 cm", "height": "4 cm"}],
    "tips": [{"family": "round", "opening": "4 mm"}, {"effect": "shell", "width": "2 cm"}],
    "portions": [{"width": "20 cm", "height": "20 cm"}, {"shape": "heart", "width": "20 cm"}],
    "practice": [{"exercises": "shells, vermicelli, swags"}],
}


def answers(slug: str, most: int = 4) -> Iterator[tuple[Any, Formatter]]:
    """Answers to some of what is typed for a calculator."""

    def tried(every: Iterable[dict[str, str]]) -> Iterator[tuple[Any, Formatter]]:
        return ((answer, Formatter(texts.get("units", "metric"))) for texts in every if not (answer := calc.compute(slug, texts)).problems)

    yield from islice(tried(one["inputs"] for one in VECTORS if one["calculator"] == slug), most)
    reaching = REACHING.get(slug, [])
    found = list(tried(reaching))
    assert len(found) == len(reaching), slug
    yield from found


# --- fields ------------------------------------------------------------------------------------------------------------------

ROUND = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8)  # times ten, a hundred ...
TOLD = {
    "mm": {
        90,
        95,
        120,
        130,
        160,
        460,
        660,
        700,
        900,
        1060,
        1100,
        1200,
        1900,
        2200,
    },  # narrowest and widest tins, usual drops, boards, sides and oven shelves
    "%": {61, 78, 90, 95, 99},  # the leanest and the fullest heart; shares of a whole
    "count": {7, 12, 24, 120, 365},  # tiers on each other; dozens; the days of a year
    "g": {130, 160},  # 100 ml of what is hardly beaten
}


def is_round(value: float) -> bool:
    return value == 0 or any(math.isclose(abs(value) / 10 ** math.floor(math.log10(abs(value)) + 1e-9), one) for one in ROUND)


def test_limits_are_round_numbers() -> None:
    """What a field takes at the least and the most, and what is usual in it: hours and days where it is a time."""
    units = {"length": "mm", "lengths": "mm", "pair": "mm", "percent": "%", "count": "count", "mass": "g"}
    for name, declared in EVERY_FIELD:
        limits = [value for value in (declared.low, declared.high, *(declared.usual or ())) if isinstance(value, int | float)]
        for value in limits:
            if declared.kind == "duration":
                assert is_round(value) or value % 60 == 0 and value / 60 in (2, 8, 20, 24, 48, 168), (name, value)
            else:
                assert is_round(value) or value in TOLD.get(units.get(declared.kind, ""), ()), (name, value)
        if declared.low is not None and declared.high is not None:
            assert declared.low < declared.high, name
            if declared.usual:
                assert declared.low <= declared.usual[0] < declared.usual[1] <= declared.high, name


def test_the_example_beside_a_field_can_be_typed_into_it() -> None:
    """ "..., such as 8 cm" is taken as it stands, and so is what stands there with US units."""
    tried = 0
    for (name, declared), units in product(EVERY_FIELD, ("metric", "us")):
        found = re.search(r"(?:such as|like) (.+?)(?:[;:](?!\d)|\. | on \d|, the |$)", declared.help_in(units))
        if found and declared.kind not in ("text", "long_text", "colour"):
            assert declared.read(found[1], declared.name, units) is not None, name
            tried += 1
    assert tried > 120


# --- what is told ------------------------------------------------------------------------------------------------------------

# Told otherwise than as a bare figure: as a day, with a word before it, as an amount over or short, finer than usual, or so rounded that
# parts add up to their whole; cups and ounces are told in two measures.
IN_WORDS = re.compile(r"start$|lift_limit|closing_error|stir_in_|colour_|gap$|mass_|section$|laid$|filling|crumb_coat|final_coat")


@pytest.mark.parametrize("slug", [slug for slug in CALCULATORS if slug not in ("practice", "kitchen")])  # which tell counts
def test_a_figure_is_told_as_it_is(slug: str) -> None:
    checked = 0
    for answer, say in answers(slug):
        tell = {"mm": say.length, "mm2": say.area, "g/ml": say.density, "min": say.working_time} | (
            {"g": say.mass, "ml": say.volume} if say.units == "metric" else {}
        )
        for name, figure in answer.figures.items():
            if figure["unit"] in tell and not IN_WORDS.match(name):
                assert figure["text"].startswith(tell[figure["unit"]](figure["value"])), (name, figure["text"])
                checked += 1
            if figure.get("low") is not None:
                assert figure["low"] <= figure["value"] <= figure["high"], name
    assert checked


QUANTITY = re.compile(r"-?\d[\d.,/ ]*(?: ?(?:cm|mm|m|g|kg|ml|l|min|h|%|in|oz|lb))?")
NO_FIGURE = {"none", "no price", "from the tap"}
A_RATE = re.compile(r"one in ")  # one shell in so many mm
READ_ALONG = {("stack", "tiers"), ("supports", "supports"), ("tips", "matches")}  # tables that are read along their lines


@pytest.mark.parametrize("slug", CALCULATORS)
def test_figures_stand_under_each_other_and_words_do_not(slug: str) -> None:
    """A column of figures is on the right, where their last places meet; one of words, and the first, by which a line is known, on the left."""
    for answer, _ in answers(slug):
        for table in answer.tables:
            if (slug, table["name"]) in READ_ALONG:
                continue
            for place, column in enumerate(table["columns"]):
                cells = {str(row[place]) for row in table["rows"]} - {"", *NO_FIGURE}
                where = (table["name"], column["label"])
                if column["align"] == "right":
                    assert all(cell[:1].isdigit() or cell[:2].lstrip("-").isdigit() for cell in (A_RATE.sub("", cell) for cell in cells)), where
                elif place and cells:
                    assert not all(QUANTITY.fullmatch(cell) for cell in cells), where


# --- in proportion -------------------------------------------------------------------------------------------------------------

Typed = dict[str, str | float | tuple[str, float]]
TWICE: list[tuple[str, Typed]] = [  # numbers are millimetres, and a pair is a tip and its opening
    ("strings", {"side": 660, "repeats": "8", "drop": 30, "loops": "3", "tip": ("round", 1.8)}),
    ("swags", {"side": 660, "repeats": "8", "drop": 30, "rows": "2", "tip": ("petal", 9)}),
    ("swags", {"side": 660, "cutter": 80, "tip": ("petal", 9)}),
    ("shells", {"side": 660, "repeats": "8", "kind": "bead", "tip": ("round", 4)}),
    ("shells", {"side": 660, "per_swag": "12", "kind": "bead", "tip": ("round", 4)}),
    ("rosettes", {"side": 660, "spacing": 50, "tip": ("petal", 5), "size": 20}),
    ("rosettes", {"count": "6", "tip": ("petal", 5)}),
    ("row", {"kind": "ruched border", "side": 660, "tip": ("petal", 9)}),
    ("row", {"kind": "leaf", "side": 660, "per_repeat": "2", "repeats": "8", "tip": ("leaf", 6)}),
    ("row", {"kind": "string", "side": 660, "repeats": "8", "drop": 30, "layers": "2", "tip": ("round", 1.8)}),
    ("row", {"kind": "C scroll", "side": 660, "repeats": "8", "drop": 30, "tip": ("round", 1.8)}),
    ("vermicelli", {"side": 660, "height": 40, "gap": 3, "tip": ("round", 1.8)}),
    ("vermicelli", {"side": 330, "ground": "top", "gap": 3, "tip": ("round", 1.8)}),
    ("coats", {"width": 200, "height": 100, "filling": 6, "crumb_coat": 2, "final_coat": 3, "dam": 10}),
    ("coats", {"width": 200, "height": 100, "layers": "1", "crumb_coat": 2, "final_coat": 3, "shape": "square"}),
]
POWERS = {"mm": 1, "mm2": 2, "ml": 3, "g": 3, "": 0, "%": 0}
NOT_ITS_OWN = {"guide_below_top", "closing_error"}  # from how far below the edge a row usually is, and from what dividers can be set to


@pytest.mark.parametrize("slug, typed", TWICE, ids=lambda one: one if isinstance(one, str) else "")
def test_a_cake_twice_as_large_takes_eight_times_as_much(slug: str, typed: Typed) -> None:
    """Every length doubles, counts stay, and volumes and masses, with the ends of their ranges, are eight times what they were."""

    def found(times: int) -> Any:
        tips = {name: f"{text[0]} {times * text[1]:g} mm" for name, text in typed.items() if isinstance(text, tuple)}
        lengths = {name: f"{times * text:g} mm" for name, text in typed.items() if isinstance(text, int | float)}
        answer = calc.compute(slug, {**typed, **tips, **lengths})  # type: ignore[dict-item]
        assert answer.problems == []
        return answer

    one, two = found(1), found(2)
    assert set(one.figures) == set(two.figures) and len(one.figures) > 5
    assert [(table["name"], len(table["rows"])) for table in one.tables if table["name"] != "gaps"] == [
        (table["name"], len(table["rows"])) for table in two.tables if table["name"] != "gaps"
    ]
    for name, figure in one.figures.items():
        if figure["unit"] in POWERS and name not in NOT_ITS_OWN:
            for end in ("value", "low", "high"):
                if figure.get(end) is not None:
                    assert two.figures[name][end] == pytest.approx(2 ** POWERS[figure["unit"]] * figure[end]), (name, end)
