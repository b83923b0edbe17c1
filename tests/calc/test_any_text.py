"""Whatever a person types: an answer or problems, never an exception.

Every calculator in the registry takes part by itself, every input of it, also those in groups. 200 examples each; a long run by
option: PIPING_BENCH_EXAMPLES=20000 pytest tests/calc/test_any_text.py
"""

from __future__ import annotations

import json
import math
import os
import time
from functools import cache
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import UNITS, Answer, Calculator, Group, Input

EXAMPLES = int(os.environ.get("PIPING_BENCH_EXAMPLES", "200"))
LONGEST_S = 2.0  # nothing typed may take long; a plain answer takes milliseconds

# What people do type, by accident or for want of a better idea, beside text of no kind at all.
AWKWARD = (
    "",
    " ",
    "abc",
    "-3 cm",
    "6 in by mistake",
    "1e9 m",
    "5 kg",
    "½ in",
    "15,5 cm",
    '6"',
    "🎂",
    "0",
    "-0",
    "0.0001",
    "1e308",
    "nan",
    "inf",
    "1/0",
    "1 1/2",
    "1,000",
    "25 x 50 mm",
    "x",
    "25 x",
    "0 x 0",
    "8x4 in round; 6x4 in round",
    ";",
    "yes",
    "no",
    "best",
    "round",
    "heart",
    "petal 11 mm",
    "2027-10-16 18:00",
    "31.2.2027",
    "10 %",
    "£12.50",
    "<script>",
    "{0}",
    "%s",
    "\x00",
    "9" * 400,
    "cm " * 60,
    "٣ cm",
    "１５ cm",
    "1\u00a0000 g",
    "x" * 10_000,
    "a\nb",
    "[[tiers]]",
    "\u202e6 in",
    "ﬃ",
    "4 h 30",
    "#ff0000",
    "10 cm and 8 cm",
    "6 inch round",
    '8" square',
    "9x13",
    "9 x 13 sheet",
    "5 cups",
    "$18/hr",
    "$1,250",
    "₿ 5",
    "9-6",
    "half an inch",
    "a half and a half",
    "6/5/2027 2:30 pm",
    "0/0/0000 99:99",
    "June 5, 2027 2:30 PM",
    "25:61 pm",
    "²",
    "¹⁄₂ in",
    "Ⅳ in",
    "open star 21",
    "#21",
)
texts = st.one_of(
    st.text(max_size=60),
    st.sampled_from(AWKWARD),
    st.builds(
        lambda number, unit: f"{number}{unit}",
        st.one_of(st.integers(-10, 10**6), st.floats(allow_nan=True)),
        st.sampled_from(("", " mm", "cm", " in", '"', " g", " ml", " h", " %", " x 50 mm", "x4 in round", " cups")),
    ),
)


def names_of(inputs: tuple[Input, ...], groups: tuple[Group, ...], path: str = "") -> list[tuple[str, Input]]:
    """Every input by its full name; two of each group that may have as many."""
    found = [(path + declared.name, declared) for declared in inputs]
    for group in groups:
        for index in range(min(2, group.maximum)):
            found += names_of(group.inputs, group.groups, f"{path}{group.name}.{index}.")
    return found


@cache
def all_inputs(calculator: Calculator) -> tuple[tuple[str, Input], ...]:
    return (*names_of(calculator.inputs, calculator.groups), ("units", UNITS))


# What is drawn from is made once for each input: hypothesis examines every strategy that it has not seen, which takes longer than an answer.


@cache
def any_input(calculator: Calculator) -> st.SearchStrategy[tuple[str, Input]]:
    return st.sampled_from(all_inputs(calculator))


@cache
def some_inputs(calculator: Calculator, most: int) -> st.SearchStrategy[list[tuple[str, Input]]]:
    """Several inputs, none of them twice."""
    inputs = all_inputs(calculator)
    return st.lists(st.sampled_from(inputs), max_size=min(most, len(inputs)), unique_by=lambda each: each[0])


@cache
def any_or_sensible(declared: Input) -> st.SearchStrategy[str]:
    return st.one_of(texts, sensible(declared))


def check(calculator: Calculator, inputs: dict[str, str]) -> Answer:
    start = time.process_time()
    answer = calc.compute(calculator.slug, inputs)
    took = time.process_time() - start
    assert took < LONGEST_S, f"{calculator.slug} took {took:.1f} s"
    data: dict[str, Any] = json.loads(answer.to_json())
    assert data["calculator"] == calculator.slug
    if data["problems"]:
        assert data["figures"] == {}
        for problem in data["problems"]:
            assert problem["message"]
            assert len(problem["message"]) < 600
            lowered = problem["message"].lower()
            assert not any(word in lowered.split() for word in ("please", "sorry", "invalid", "oops")), problem["message"]
    else:
        assert data["figures"]
        for name, figure in data["figures"].items():
            assert figure["text"] != "", name
            value = figure["value"]
            assert not isinstance(value, float) or math.isfinite(value), f"{name} is {value}"
    for drawing in data["drawings"]:
        assert "<script" not in drawing["svg"].lower()
        assert "nan" not in drawing["svg"].split(">", 1)[0].lower()
    return answer


EVERY_INPUT = [(calculator, name) for calculator in CALCULATORS.values() for name, _ in all_inputs(calculator)]


@pytest.mark.parametrize("calculator", CALCULATORS.values(), ids=CALCULATORS)
def test_starting_values_give_an_answer(calculator: Calculator) -> None:
    """A page starts with its defaults; a calculator that cannot answer them says which input it still needs."""
    answer = check(calculator, {})
    known = {name for name, _ in all_inputs(calculator)}
    for problem in answer.problems:
        assert problem["input"] in known or problem["input"] in {group.name for group in calculator.groups}


@pytest.mark.parametrize("calculator", CALCULATORS.values(), ids=CALCULATORS)
@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_any_text_in_one_input(calculator: Calculator, data: st.DataObject) -> None:
    """One input after another is filled with anything, the others keep their starting values."""
    name, _ = data.draw(any_input(calculator))
    text = data.draw(texts)
    answer = check(calculator, {name: text})
    for problem in answer.problems:
        assert problem["input"], problem


@pytest.mark.parametrize("calculator", CALCULATORS.values(), ids=CALCULATORS)
@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_any_text_in_any_input(calculator: Calculator, data: st.DataObject) -> None:
    """Several inputs at once, among them sensible ones, so that odd combinations get through to the sum."""
    check(calculator, {name: data.draw(any_or_sensible(declared)) for name, declared in data.draw(some_inputs(calculator, 8))})


@pytest.mark.parametrize("calculator", CALCULATORS.values(), ids=CALCULATORS)
@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_every_sensible_combination(calculator: Calculator, data: st.DataObject) -> None:
    """Only values that each input by itself would take: what is impossible together is said, not raised."""
    answer = check(calculator, {name: data.draw(sensible(declared)) for name, declared in data.draw(some_inputs(calculator, 10))})
    known = {name for name, _ in all_inputs(calculator)}
    known |= {name.split(".")[0] for name in known}
    for problem in answer.problems:
        assert problem["input"] in known, problem


@pytest.mark.parametrize("calculator", [each for each in CALCULATORS.values() if each.draw_sheet], ids=lambda each: each.slug)
@settings(max_examples=max(10, EXAMPLES // 20), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(data=st.data())
def test_whatever_was_answered_can_be_printed(calculator: Calculator, data: st.DataObject) -> None:
    """Where there is an answer, any sheet and any file that it offers can be made, on either paper."""
    typed = {name: data.draw(any_or_sensible(declared)) for name, declared in data.draw(some_inputs(calculator, 8))}
    answer = check(calculator, typed)
    offered = [each["name"] for each in answer.sheets + answer.files]
    if offered:
        name = data.draw(st.sampled_from(offered))
        made = calc.sheet(calculator.slug, typed, name, data.draw(st.sampled_from(("A4", "Letter"))))
        assert made.startswith(b"BEGIN:VCALENDAR" if name.endswith(".ics") else b"%PDF-")


@cache
def sensible(declared: Input) -> st.SearchStrategy[str]:
    """Text that the input by itself takes, at its limits and between them."""
    low = declared.low if declared.low is not None else 0.0
    high = declared.high if declared.high is not None else 10.0**4
    within = st.one_of(st.sampled_from((low, high)), st.floats(low, high))
    unit = {"length": " mm", "mass": " g", "volume": " ml", "duration": " min", "percent": " %"}.get(declared.kind, "")
    match declared.kind:
        case "choice":
            return st.sampled_from([value for value, _ in declared.choices])
        case "yes_no":
            return st.sampled_from(("yes", "no"))
        case "length" | "mass" | "volume" | "duration" | "percent" | "number" | "money":
            plain = within.map(lambda value: f"{value:.4f}{unit}")
        case "count":
            plain = st.integers(math.ceil(low), math.floor(min(high, 10**6))).map(str)
        case "pair":
            plain = st.tuples(within, within).map(lambda pair: f"{pair[0]:.3f} x {pair[1]:.3f} mm")
        case "lengths":
            plain = st.lists(within, min_size=1, max_size=4).map(lambda several: "; ".join(f"{v:.2f} mm" for v in several))
        case "tip" | "tips":
            plain = st.builds(
                lambda family, opening: f"{family} {opening:.1f} mm",
                st.sampled_from(("round", "open star", "closed star", "petal", "leaf", "ruffle", "basket")),
                st.floats(1, 20),
            )
        case "moment":
            plain = st.sampled_from(("2027-10-16 18:00", "16 October 2027 18:00", "2027-03-28 02:30", "2100-12-31 23:59"))
        case "colour":
            plain = st.sampled_from(("russet", "cream", "blush", "bay", "#aabbcc", "a name of its own"))
        case _:
            plain = st.sampled_from((declared.default or "words", declared.default or "more words", "25 x 50 mm", "party", "15, 20 and 25 cm"))
    return st.one_of(plain, st.just(declared.default)) if declared.default else plain


@pytest.mark.parametrize("calculator, name", EVERY_INPUT, ids=[f"{calculator.slug}-{name}" for calculator, name in EVERY_INPUT])
def test_awkward_text_in_every_input(calculator: Calculator, name: str) -> None:
    """Every one of the awkward texts, in every input there is."""
    for text in AWKWARD:
        check(calculator, {name: text})


@pytest.mark.parametrize("calculator", CALCULATORS.values(), ids=CALCULATORS)
def test_an_input_that_does_not_exist_is_said(calculator: Calculator) -> None:
    answer = check(calculator, {"flavour\x00" * 30: "plum"})
    assert answer.problems
