"""A number without a unit, in every field of every calculator, in both systems: it takes the unit shown beside the field, or is asked about."""

from __future__ import annotations

import re

import pytest

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Calculator, Group, Input
from calc.units import SHORT, UNIT_OF, Problem, factor, read_quantity

SYSTEMS = ("metric", "us")
NUMBERS = ("0", "1/4", "1/2", "1", "2", "3 1/2", "6", "8", "9.5", "12", "20", "26", "66", "100", "300", "1200", "90000")
OFFERED = re.compile(r"(?<![\d./])(\d[\d./ ]*?) (mm|cm|in|g|kg|oz|lb|ml|l|cups|qt|min|h)\b")


def inputs_of(level: Calculator | Group) -> list[Input]:
    return [*level.inputs, *(declared for group in level.groups for declared in inputs_of(group))]


EVERY = [(calculator.slug, declared) for calculator in CALCULATORS.values() for declared in inputs_of(calculator)]
WITH_UNIT = [
    (slug, declared, system)
    for slug, declared in EVERY
    for system in SYSTEMS
    if declared.kind in ("length", "mass", "volume", "duration", "lengths") and declared.bare_unit(system)
]


def kind_of(declared: Input) -> str:
    return "length" if declared.kind == "lengths" else declared.kind


@pytest.mark.parametrize("slug, declared, system", WITH_UNIT, ids=[f"{slug}-{declared.name}-{system}" for slug, declared, system in WITH_UNIT])
def test_a_bare_number_takes_the_shown_unit_or_is_asked_about(slug: str, declared: Input, system: str) -> None:
    shown = declared.shown_unit(system)
    assert shown in SHORT.values() and shown in UNIT_OF[kind_of(declared)], "what stands beside the field can be typed"
    read = 0
    for number in NUMBERS:
        meant = read_quantity(f"{number} {shown}", kind_of(declared), "x", "X")
        try:
            value = declared.read(number, declared.name, system)
        except Problem as problem:
            asked = "is read as" in problem.message
            is_out = (declared.low is not None and meant < declared.low) or (declared.high is not None and meant > declared.high)
            assert asked or is_out, f"{number}: {problem.message}"
            if asked:
                assert f"{number} {shown}" in problem.message
                for offered, unit in OFFERED.findall(problem.message.rsplit("Write ", 1)[1]):
                    declared.read(f"{offered} {unit}", declared.name, system)  # each reading on offer can be typed
        else:
            assert (value[0] if declared.kind == "lengths" else value) == pytest.approx(meant), number
            read += 1
    assert read, "some bare number is read"


@pytest.mark.parametrize("slug, declared, system", WITH_UNIT, ids=[f"{slug}-{declared.name}-{system}" for slug, declared, system in WITH_UNIT])
def test_with_a_unit_the_system_changes_nothing(slug: str, declared: Input, system: str) -> None:
    kind = kind_of(declared)
    middle = ((declared.low or 1.0) * (declared.high or 1000.0)) ** 0.5
    for unit in ("inch", "millimeter") if kind == "length" else ("ounce", "gram") if kind == "mass" else ():
        text = f"{middle / factor(kind, unit):.3f} {SHORT[unit]}"
        value = declared.read(text, declared.name, system)
        assert (value[0] if declared.kind == "lengths" else value) == pytest.approx(middle, rel=0.02)


@pytest.mark.parametrize("slug, declared", EVERY, ids=[f"{slug}-{declared.name}" for slug, declared in EVERY])
def test_every_default_and_hint_speaks_the_readers_units(slug: str, declared: Input) -> None:
    """Tips keep their millimetres: an opening is measured in them everywhere."""
    for system, foreign in (("metric", r"\d\s*(?:in|oz|lb|cups?)\b"), ("us", r"\d\s*(?:cm|kg|ml)\b")):
        for text in (declared.default_in(system), declared.help_in(system)):
            if declared.name != "slice" and "100 ml" not in declared.label:
                assert not re.search(foreign, text), text
    for system in SYSTEMS:
        default = declared.default_in(system)
        if default:
            declared.read(default, declared.name, system)


def value_of(slug: str, figure: str, **texts: str) -> float:
    answer = calc.compute(slug, texts)
    assert not answer.problems, answer.problems
    return float(answer.figures[figure]["value"])


@pytest.mark.parametrize(
    "slug, bare, spelled, figure",
    [
        ("timetable", {"tiers": "8x4; 6x4"}, {"tiers": "8 x 4 in; 6 x 4 in"}, "hands"),
        ("timetable", {"tiers": "8; 6"}, {"tiers": "8 in; 6 in"}, "hands"),
        ("supports", {"tiers": "8x4 round; 6x4 round"}, {"tiers": "8x4 in round; 6x4 in round"}, "weight"),
        ("stack", {"tins": "6, 8 and 10"}, {"tins": "6 in; 8 in; 10 in"}, "weight"),
        ("portions", {"width": "9x13"}, {"shape": "rectangle", "width": "9 in", "length": "13 in"}, "portions"),
        ("portions", {"slice": "1x2"}, {"slice": "1 x 2 in"}, "portions"),
        ("coats", {"filling": "1/4"}, {"filling": "1/4 in"}, "filling"),
        ("order", {"tiers.0.width": "8", "tiers.0.filling": "1/4"}, {"tiers.0.width": "8 in", "tiers.0.filling": "1/4 in"}, "buttercream"),
        ("vermicelli", {"side": "20", "gap": "1/8"}, {"side": "20 in", "gap": "1/8 in"}, "mass"),
        ("swags", {"side": "26", "cutter": "3 1/2"}, {"side": "26 in", "cutter": "3 1/2 in"}, "drop"),
    ],
)
def test_bare_in_us_units_is_in_inches(slug: str, bare: dict[str, str], spelled: dict[str, str], figure: str) -> None:
    assert value_of(slug, figure, units="us", **bare) == value_of(slug, figure, units="us", **spelled)


@pytest.mark.parametrize(
    "slug, texts, name, offered",
    [
        ("order", {"tiers.0.filling": "1/4"}, "tiers.0.filling", ("1/4 mm", "1/4 in")),
        ("coats", {"filling": "1/4"}, "filling", ("1/4 mm", "1/4 in")),
        ("supports", {"tiers": "8x4; 6x4"}, "tiers", ("8 x 4 cm", "8 x 4 in")),
        ("timetable", {"tiers": "8x4; 6x4"}, "tiers", ("8 x 4 cm", "8 x 4 in")),
        ("stack", {"tins": "6, 8, 10"}, "tins", ("6 cm", "6 in")),
        ("portions", {"slice": "1x2"}, "slice", ("1x2 in",)),
        ("portions", {"width": "20", "units": "us"}, "width", ("20 in", "20 cm")),
        ("shells", {"tip": "open star 21"}, "tip", ("open star 21 mm", "stamped")),
        ("shells", {"tip": "open star 1/4", "units": "us"}, "tip", ("open star 1/4 mm", "open star 1/4 in")),
        ("price", {"hours": "90 h", "tasks.0.name": "piping", "tasks.0.time": "45"}, "tasks.0.time", ("45 h", "45 min")),
        ("batch", {"mass": "2"}, "mass", ("2 lb",)),
        ("timetable", {"travel": "2"}, "travel", ("2 min", "2 h")),
    ],
)
def test_what_is_improbable_is_asked_with_its_readings(slug: str, texts: dict[str, str], name: str, offered: tuple[str, ...]) -> None:
    problems = {problem["input"]: problem["message"] for problem in calc.compute(slug, texts).problems}
    assert all(each in problems[name] for each in offered), problems


def test_a_unit_written_once_holds_for_a_list() -> None:
    cutters = next(declared for declared in inputs_of(CALCULATORS["order"]) if declared.name == "cutters")
    assert cutters.read("3, 3 1/2 and 4 in", "cutters", "metric") == pytest.approx((76.2, 88.9, 101.6))
    assert cutters.read("9, 7.5", "cutters", "metric") == pytest.approx((90, 75))
    assert cutters.read("3, 3 1/2", "cutters", "us") == pytest.approx((76.2, 88.9))
    assert cutters.read("3 in, 9 cm", "cutters", "us") == pytest.approx((76.2, 90))


@pytest.mark.parametrize(
    "texts, words",
    [
        ({"shape": "round", "width": '8" square'}, "says square"),
        ({"shape": "round", "width": "9x13", "units": "us"}, "two sizes"),
        ({"shape": "rectangle", "width": "9x13", "length": "12 in", "units": "us"}, "given too"),
    ],
)
def test_a_shape_beside_a_size_agrees_or_is_asked(texts: dict[str, str], words: str) -> None:
    problems = calc.compute("portions", texts).problems
    assert problems[0]["input"] == "width" and words in problems[0]["message"]


def test_a_shape_and_sizes_in_one_field_are_read() -> None:
    assert value_of("portions", "portions", width='8" square') == value_of("portions", "portions", shape="square", width="8 in")
    assert value_of("portions", "portions", shape="square", width="8x8 in") == value_of("portions", "portions", shape="square", width="8 in")
    assert value_of("portions", "portions", shape="round", width="8-inch round pan") == value_of("portions", "portions", width="8 in")


def test_cups_of_buttercream_are_weighed() -> None:
    made = calc.compute("batch", {"mass": "5 cups"})
    assert made.figures["volume"]["value"] == pytest.approx(5 * 236.588, rel=1e-4)
    told = calc.compute("tint", {"mass": "2 cups"})
    assert any("2 cups of buttercream is taken to weigh" in note["text"] for note in told.notes)
    assert calc.compute("price", {"items.0.name": "butter", "items.0.mass": "2 cups"}).problems, "not for what is no buttercream"


def test_money_keeps_the_makers_sign() -> None:
    answer = calc.compute("price", {"rate": "£18/hr", "ingredients": "£1,250"})
    assert answer.figures["price"]["text"].startswith("£")
    assert calc.compute("price", {"rate": "18"}).figures["price"]["text"][0].isdigit()
    assert calc.compute("price", {"units": "us"}).figures["price"]["text"].startswith("$")
    assert calc.compute("price", {"units": "us", "rate": "€18"}).figures["price"]["text"].startswith("€")
    mixed = calc.compute("price", {"rate": "£18", "ingredients": "$20"}).problems
    assert "one currency" in mixed[0]["message"]
