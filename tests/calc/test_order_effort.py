"""What one edit of an order takes: counted in calls of Python functions, which are the same on a slow machine and a fast one."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import pytest
import tomli_w

from calc import compute
from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, Calculator
from calc.page.reply import drawing_reply, page_reply
from tools.bench.seven_tiers import seven_tiers
from tools.runtime.warm import clear_caches

Made = TypeVar("Made")
SUPPER = Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml"
SHOWN = ("tilted", "side", "top", *(f"unrolled_{number}" for number in range(1, 8)))

# Edits one after another, with the most calls that the first message of the answer may take, and then the main drawing: a tenth more than they
# took when this was written.
SUPPER_EDITS = (
    ("guests", "41", 6_400, 10),
    ("tiers.0.rows.1.colour", "sage", 17_300, 7_400),
    ("tiers.1.rows.0.tip", "open star 6 mm", 15_400, 2_900),
    ("tiers.0.height", "12.3 cm", 17_600, 1_300),
    ("tiers.1.width", "15.4 cm", 15_700, 1_200),
    ("tiers.0.shape", "heart", 23_500, 31_300),
)
SEVEN_EDITS = (
    ("guests", "390", 16_400, 10),
    ("tiers.1.rows.0.tip", "petal 12 mm", 22_400, 16_200),
    ("tiers.4.width", "20.3 cm", 31_700, 22_400),
)


def test_record_is_written_only_when_somebody_asks(monkeypatch: pytest.MonkeyPatch) -> None:
    written = []
    dumps = tomli_w.dumps
    monkeypatch.setattr(tomli_w, "dumps", lambda *given, **more: written.append(1) or dumps(*given, **more))
    answer = compute("order", {"name": "Anyone's"})
    page_reply(CALCULATORS["order"], {"name": "Anyone's"}, answer, 2, "pb")
    assert not written
    assert answer.record is not None and "Anyone's" in answer.record and '"Anyone' in answer.to_json()
    assert written == [1]


def _calls(act: Callable[[], Made]) -> tuple[int, Made]:
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


def replied(calculator: Calculator, texts: dict[str, str]) -> tuple[Answer, str]:
    """An answer, and the message that a page gets of it."""
    answer = compute("order", texts)
    return answer, page_reply(calculator, texts, answer, 2, "pb", SHOWN)


@pytest.mark.parametrize(
    ("record", "edits"), [(SUPPER.read_text(encoding="utf-8"), SUPPER_EDITS), (seven_tiers(), SEVEN_EDITS)], ids=["supper", "seven tiers"]
)
def test_an_edit_takes_no_more_calls_than_it_did(record: str, edits: tuple[tuple[str, str, int, int], ...]) -> None:
    texts = dict(compute("order", {"order": record}).fields or {})
    order = CALCULATORS["order"]
    clear_caches(())  # or a drawing of another test's may be there whose parts are not
    page_reply(order, texts, compute("order", texts), 2, "pb")
    too_many = []
    for name, text, most, most_drawing in edits:
        texts[name] = text
        calls, (answer, reply) = _calls(lambda: replied(order, texts))
        assert json.loads(reply)["problems"] == []
        drawing, _ = _calls(lambda answer=answer: drawing_reply(answer, "tilted"))
        too_many += [(name, taken, at_most) for taken, at_most in ((calls, most), (drawing, most_drawing)) if taken > at_most]
    assert too_many == []


def test_the_main_drawing_comes_with_the_words_only_where_it_is_there_already() -> None:
    order = CALCULATORS["order"]
    texts = dict(compute("order", {"order": SUPPER.read_text(encoding="utf-8")}).fields or {})
    drawn = json.loads(page_reply(order, texts, compute("order", texts), 2, "pb"))["drawings"][0]
    texts["guests"] = "43"
    assert json.loads(replied(order, texts)[1])["drawings"][0] == drawn
    texts["tiers.0.rows.0.colour"] = "pistachio"
    answer, reply = replied(order, texts)
    assert json.loads(reply)["drawings"][0] is None
    later = json.loads(drawing_reply(answer, "tilted"))["svg"]
    assert later not in (None, drawn)
    assert json.loads(replied(order, texts)[1])["drawings"][0] == later
    texts["tiers.0.height"] = "11.1 cm"
    assert json.loads(page_reply(order, texts, compute("order", texts), 2, "pb"))["drawings"][0]  # a page that shows none gets it at once
