"""What the worker calls: a bug comes back as text, whatever else is missing."""

from __future__ import annotations

import json

import pytest

from tools.runtime import worker_api


def test_a_bug_is_told_where_its_traceback_cannot_be_written(monkeypatch: pytest.MonkeyPatch) -> None:
    def lacking() -> str:
        raise ModuleNotFoundError("No module named 'importlib.resources.readers'")

    monkeypatch.setattr(worker_api.traceback, "format_exc", lacking)
    told = json.loads(worker_api.answer(json.dumps({"calculator": "nonesuch", "inputs": {}})))
    assert told == {"bug": {"kind": "KeyError", "details": "KeyError('nonesuch')"}}
