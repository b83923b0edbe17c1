"""What one edit of an order takes: counted in calls of Python functions, which are the same on a slow machine and a fast one."""

from __future__ import annotations

import tomli_w

from calc import compute
from calc.calculators import CALCULATORS
from calc.page.reply import page_reply


def test_record_is_written_only_when_somebody_asks(monkeypatch) -> None:
    written = []
    dumps = tomli_w.dumps
    monkeypatch.setattr(tomli_w, "dumps", lambda *given, **more: written.append(1) or dumps(*given, **more))
    answer = compute("order", {"name": "Anyone's"})
    page_reply(CALCULATORS["order"], {"name": "Anyone's"}, answer, 2, "pb")
    assert not written
    assert answer.record is not None and "Anyone's" in answer.record and '"Anyone' in answer.to_json()
    assert written == [1]
