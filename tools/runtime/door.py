"""The one door between the page and calc: a request comes in as JSON text, an answer goes out as JSON text."""

from __future__ import annotations

import json
import traceback

import calc


def answer(request: str) -> str:
    """Compute what the request asks; a bug comes back as text to copy, never as an exception."""
    try:
        asked = json.loads(request)
        return calc.compute(asked["calculator"], asked["inputs"]).to_json()
    except Exception as bug:
        return json.dumps({"bug": {"kind": type(bug).__name__, "details": traceback.format_exc()}})


def reseed() -> None:
    """Give `random` a new start: a restored snapshot would give the same numbers on every visit."""
    import random

    random.seed()
