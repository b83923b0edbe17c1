"""What one edit of an order takes: counted in calls of Python functions, which are the same on a slow machine and a fast one."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import tomli_w

from calc import compute
from calc.calculators import CALCULATORS
from calc.page.reply import page_reply
from tools.bench.seven_tiers import seven_tiers

SUPPER = Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml"
SHOWN = ("side", "top", *(f"unrolled_{number}" for number in range(1, 8)))

# Edits one after another, with the most calls that the first message of the answer may take: a tenth more than it took when it was written.
SUPPER_EDITS = (
    ("guests", "41", 15_000),
    ("tiers.0.rows.1.colour", "sage", 30_000),
    ("tiers.1.rows.0.tip", "open star 6 mm", 24_500),
    ("tiers.0.height", "12.3 cm", 24_000),
    ("tiers.1.width", "15.4 cm", 23_500),
    ("tiers.0.shape", "heart", 59_000),
)
SEVEN_EDITS = (("guests", "390", 42_000), ("tiers.1.rows.0.tip", "petal 12 mm", 87_500), ("tiers.4.width", "20.3 cm", 74_000))


def test_record_is_written_only_when_somebody_asks(monkeypatch: pytest.MonkeyPatch) -> None:
    written = []
    dumps = tomli_w.dumps
    monkeypatch.setattr(tomli_w, "dumps", lambda *given, **more: written.append(1) or dumps(*given, **more))
    answer = compute("order", {"name": "Anyone's"})
    page_reply(CALCULATORS["order"], {"name": "Anyone's"}, answer, 2, "pb")
    assert not written
    assert answer.record is not None and "Anyone's" in answer.record and '"Anyone' in answer.to_json()
    assert written == [1]


def _calls(act: Callable[[], str]) -> tuple[int, str]:
    """How many Python functions something calls, and what it returns."""
    count = 0

    def note(_frame: object, event: str, _given: object) -> None:
        nonlocal count
        count += event == "call"

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        made = act()
    finally:
        sys.setprofile(before)
    return count, made


@pytest.mark.parametrize(
    ("record", "edits"), [(SUPPER.read_text(encoding="utf-8"), SUPPER_EDITS), (seven_tiers(), SEVEN_EDITS)], ids=["supper", "seven tiers"]
)
def test_an_edit_takes_no_more_calls_than_it_did(record: str, edits: tuple[tuple[str, str, int], ...]) -> None:
    texts = dict(compute("order", {"order": record}).fields or {})
    order = CALCULATORS["order"]
    page_reply(order, texts, compute("order", texts), 2, "pb")
    too_many = []
    for name, text, most in edits:
        texts[name] = text
        calls, reply = _calls(lambda: page_reply(order, texts, compute("order", texts), 2, "pb", SHOWN))
        assert json.loads(reply)["problems"] == []
        if calls > most:
            too_many.append((name, calls, most))
    assert too_many == []
