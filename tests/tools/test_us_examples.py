"""The examples of the pages in round US figures, as a reader in US units finds them."""

from __future__ import annotations

from pathlib import Path

import pytest

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Calculator, Group, Input, in_us_units
from tools.build import fences
from tools.runtime.build_runtime import pages

FENCES = list(fences.calculators_in(pages()))


def declared_as(level: Calculator | Group, parts: list[str]) -> Input | None:
    if len(parts) == 1:
        return next((declared for declared in level.inputs if declared.name == parts[0]), None)
    group = next((group for group in level.groups if group.name == parts[0]), None)
    return declared_as(group, parts[2:]) if group else None


@pytest.mark.parametrize("page, fence", FENCES, ids=[f"{page.stem}-{fence.name}-{at}" for at, (page, fence) in enumerate(FENCES)])
def test_an_example_answers_as_well_in_us_figures(page: Path, fence: fences.Fence) -> None:
    """No problem and no caution that the metric example does not have; lengths and weights all in US units."""
    calculator = CALCULATORS[fence.name]
    metric = calc.compute(fence.name, fence.inputs(page))
    texts = dict(metric.fields or fence.inputs(page))
    us = {}
    for name, text in texts.items():
        declared = declared_as(calculator, name.split("."))
        us[name] = in_us_units(declared, text) if declared else text
        if declared and declared.kind in ("length", "lengths", "mass", "pair"):
            assert not us[name].endswith((" cm", " kg")), us[name]
    answer = calc.compute(fence.name, {**us, "units": "us"})
    assert not answer.problems
    assert len(answer.cautions) <= len(metric.cautions), answer.cautions
