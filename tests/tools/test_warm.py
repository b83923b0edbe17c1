"""What the snapshot keeps warm: caches that exist, that the pages' questions fill, and no others."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import pytest

from calc import portions, units
from tools.runtime import warm, worker_api


@pytest.fixture(autouse=True)
def empty_afterwards() -> Iterator[None]:
    yield
    warm.clear_caches(())


def test_settle_leaves_the_kept_caches_filled_and_no_others() -> None:
    warm.settle([{"calculator": "swags", "inputs": {"side": "52 cm"}}], worker_api.answer)
    assert all(function.cache_info().currsize for function in warm.KEPT)  # type: ignore[attr-defined]
    others = [value for value in vars(portions).values() if hasattr(value, "cache_info") and value not in warm.KEPT]
    assert others
    assert not any(value.cache_info().currsize for value in others)


def test_a_kept_cache_that_nothing_fills_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(warm, "KEPT", (units.registry, unused))
    with pytest.raises(RuntimeError, match="nothing fills what the snapshot keeps: unused"):
        warm.settle([], worker_api.answer)


def test_explore_names_the_light_requests_and_refuses_a_bug() -> None:
    request = {"calculator": "swags", "inputs": {"side": "52 cm"}}
    found = json.loads(warm.explore([request], worker_api.answer, worker_api.sheet))
    assert found["light"] == [request]
    assert "calc.calculators.swags_form" in found["modules"]
    with pytest.raises(RuntimeError, match="nowhere met a fault"):
        warm.explore([{"calculator": "nowhere", "inputs": {}}], worker_api.answer, worker_api.sheet)


FORGETFUL = """
import json
from tools.runtime import warm, worker_api
asked = [json.dumps({"calculator": slug, "inputs": {}, "place": warm.PLACE}) for slug in worker_api.CALCULATORS]
before = [worker_api.answer(each) for each in asked]
warm.clear_caches(())
warm.forget_declarations()
assert worker_api.answer.__annotations__ == {} and worker_api.__spec__ is None
assert [worker_api.answer(each) for each in asked] == before
import wave  # something that was not imported before still can be
"""


def test_answers_are_the_same_without_declarations() -> None:
    subprocess.run([sys.executable, "-c", FORGETFUL], check=True)


PUT_OFF = """
import sys
import pint
from tools.runtime import later
registry = pint.facets.plain.registry
assert "platformdirs" in sys.modules
later.put_off()
assert not {"platformdirs", "email", "pickle"} & set(sys.modules)
assert pint.UnitRegistry()("6 in").to("cm").magnitude == 15.24
assert isinstance(registry.platformdirs, later.Later) and "platformdirs" not in sys.modules
assert registry.platformdirs.user_cache_dir("pint") and "platformdirs" in sys.modules
assert pint.version("pint") == pint.__version__
"""


def test_an_unused_module_is_imported_once_it_is_asked_for() -> None:
    subprocess.run([sys.executable, "-c", PUT_OFF], check=True)


ANSWERED = """
import sys
import calc
from calc.calculators import CALCULATORS
from tools.runtime import later, warm
order = {"order": open("docs/plan/harvest-supper.toml", encoding="utf-8").read()}
sheets = {name: calc.sheet("order", order, name) for name in ("hand-out", "bench-sheet")}
later.put_off(later.FOR_SHEETS)
warm.clear_caches(())
for slug, calculator in CALCULATORS.items():
    typed = {declared.name: declared.default for declared in calculator.inputs if declared.default}
    for units in ("metric", "us"):
        answer = calc.compute(slug, {**(order if slug == "order" else typed), "units": units})
        assert slug != "order" or not answer.problems
        back = [name for name in sys.modules if later.is_one_of(later.FOR_SHEETS, name)]
        assert not back, (slug, back)
assert {name: calc.sheet("order", order, name) for name in sheets} == sheets  # drawn by modules that were imported again
assert "calc.drawing.paper" in sys.modules
"""


def test_answers_take_nothing_of_what_draws_sheets() -> None:
    """So that it may stay out of the snapshot; it is imported once a sheet is asked for, and draws the same."""
    subprocess.run([sys.executable, "-c", ANSWERED], check=True, cwd=Path(__file__).parents[2])


@lru_cache
def unused() -> None:
    """A cached function that no calculator calls."""
