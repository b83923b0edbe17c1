"""What the worker calls inside Pyodide: a request comes in as JSON text, an answer goes out as JSON text."""

from __future__ import annotations

import json
import random
import traceback
from typing import Any

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer
from calc.page import bench_view, shelf_card
from calc.page.reply import drawing_reply, page_reply
from calc.units import Problem, Problems

_last: list[Any] = [None, None]  # what was asked last, and its answer, where the page asks for some of its drawings later


def _bug(bug: Exception) -> str:
    try:
        details = traceback.format_exc()
    except Exception:  # a restored memory has no files, and writing a traceback may import modules
        details = repr(bug)
    return json.dumps({"bug": {"kind": type(bug).__name__, "details": details}})


def answer(request: str) -> str:
    """Compute what the request asks: as HTML where it names a `place` in a page, else as plain data.

    A place names drawings that may come `later`, or one to `draw` now, of the same answer; `shown` has the keys of those that the page shows.
    A bug comes back as text to copy, never as an exception.
    """
    try:
        asked: dict[str, Any] = json.loads(request)
        slug, inputs, place = asked["calculator"], asked["inputs"], asked.get("place")
        if place and "draw" in place:
            found = _last[1] if _last[0] == (slug, inputs) else calc.compute(slug, inputs)
            return drawing_reply(found, place["draw"])
        found = calc.compute(slug, inputs)
        if "other" in asked:
            return _compared(asked, found)
        if not place:
            return found.to_json()
        later = place.get("later", ())
        if not found.problems:  # else the drawings of the answer before may be asked for still
            _last[:] = ((slug, inputs), found) if later else (None, None)
        return page_reply(CALCULATORS[slug], inputs, found, place["level"], place["id"], later, place.get("shown", {}))
    except Exception as bug:
        return _bug(bug)


def _compared(asked: dict[str, Any], found: Answer) -> str:
    """What differs in another version of the same."""
    from calc.page.versions import versions_reply  # asked for seldom

    slug, other = asked["calculator"], asked["other"]
    return versions_reply(CALCULATORS[slug], ((asked["inputs"], found), (other, calc.compute(slug, other))), asked["names"])


def sheet(request: str) -> bytes | str:
    """Draw the requested sheet, the work at the bench or the card of an order on the shelf: the bytes of it, or JSON that says why there are none."""
    try:
        asked: dict[str, Any] = json.loads(request)
        if asked["name"].startswith(bench_view.NAME):
            return bench_view.bench_view(asked["inputs"], asked["name"])
        if asked["name"] == shelf_card.NAME:
            return shelf_card.shelf_card(asked["inputs"])
        return calc.sheet(asked["calculator"], asked["inputs"], asked["name"], asked["paper"])
    except Problem as problem:
        return json.dumps({"problems": [{"input": problem.input, "message": problem.message}]})
    except Problems as several:
        return json.dumps({"problems": [{"input": each.input, "message": each.message} for each in several.problems]})
    except Exception as bug:
        return _bug(bug)


def reseed() -> None:
    """Seed `random` again: a restored snapshot would give the same numbers on every visit."""
    random.seed()
