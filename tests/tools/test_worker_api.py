"""What the worker calls: a bug comes back as text, whatever else is missing."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

import calc
from calc.calculators import order_drawings
from calc.page.reply import drawing_key
from tools.runtime import warm, worker_api


def test_a_bug_is_told_where_its_traceback_cannot_be_written(monkeypatch: pytest.MonkeyPatch) -> None:
    def lacking() -> str:
        raise ModuleNotFoundError("No module named 'importlib.resources.readers'")

    monkeypatch.setattr(worker_api.traceback, "format_exc", lacking)
    told = json.loads(worker_api.answer(json.dumps({"calculator": "nonesuch", "inputs": {}})))
    assert told == {"bug": {"kind": "KeyError", "details": "KeyError('nonesuch')"}}


ORDER = {"name": "Later", "tiers.0.shape": "round", "tiers.0.width": "24 cm", "tiers.0.rows.0.kind": "swag"}
SHOWN = ["side", "top", "unrolled_1"]


def _asked(**place: object) -> dict[str, Any]:
    request = {"calculator": "order", "inputs": ORDER, "place": {"level": 2, "id": "pb", **place}}
    answered: dict[str, Any] = json.loads(worker_api.answer(json.dumps(request)))
    return answered


def test_drawings_that_may_come_later_are_not_drawn_at_first(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first message has the main drawing alone; each of the others is then the one that a whole answer has, without a second computation."""
    warm.clear_caches(())
    views: list[str] = []
    for view in ("tilted_view", "side_view", "top_view", "unrolled"):
        draws = getattr(order_drawings, view)
        monkeypatch.setattr(order_drawings, view, lambda *given, view=view, draws=draws, **more: views.append(view) or draws(*given, **more))
    first = _asked(later=SHOWN)
    assert views == ["tilted_view"]
    names = re.findall(r'data-drawing="(\w+)"', first["html"])
    assert [name for name, svg in zip(names, first["drawings"], strict=True) if svg is None] == SHOWN
    monkeypatch.setattr(calc, "compute", lambda *_: pytest.fail("worked out once more"))
    left = {name: _asked(draw=name)["svg"] for name in SHOWN}
    assert views == ["tilted_view", "side_view", "top_view", "unrolled"]
    monkeypatch.undo()
    whole = _asked()
    assert [svg or left[name] for name, svg in zip(names, first["drawings"], strict=True)] == whole["drawings"]
    assert {name: whole[name] for name in whole if name != "drawings"} == {name: first[name] for name in first if name != "drawings"}


def test_a_drawing_of_another_answer_is_worked_out_again() -> None:
    _asked(later=SHOWN)
    worker_api.answer(json.dumps({"calculator": "order", "inputs": {}, "place": {"level": 2, "id": "pb", "later": SHOWN}}))
    assert _asked(draw="side")["svg"] == _asked()["drawings"][1]
    assert _asked(draw="nonesuch")["svg"] is None


def test_a_drawing_that_the_page_shows_is_not_sent_again() -> None:
    """Of those that are as they were, only that they are comes; whatever is in them tells them apart."""
    whole = _asked()
    names = re.findall(r'data-drawing="(\w+)"', whole["html"])
    keys = {name: drawing_key(svg) for name, svg in zip(names, whole["drawings"], strict=True)}
    assert len(set(keys.values())) == len(names)
    shown = _asked(shown={**keys, "side": keys["top"]})
    assert shown["drawings"] == [whole["drawings"][i] if name == "side" else True for i, name in enumerate(names)]
    assert {name: whole[name] for name in whole if name != "drawings"} == {name: shown[name] for name in shown if name != "drawings"}
