"""What is done on an order goes into its file beside it (docs/assets/js/beside.js): the text that is kept takes it, and gives it back as it was."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from calc import compute
from calc.page import bench_view
from tools.bench.seven_tiers import seven_tiers

ROOT = Path(__file__).parents[2]
SUPPER = (ROOT / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
SPLIT = {"hand": "learning", "hours": "18:00 to 20:00"}  # long rows are piped in several parts then


def texts_of(record: str) -> dict[str, str]:
    return {**(compute("order", {"order": record}).fields or {}), **SPLIT}


def keys_of(texts: dict[str, str]) -> list[str]:
    tasks = json.loads(bench_view.bench_view(texts, bench_view.NAME))["tasks"]
    return [task["key"] for task in tasks]


def test_a_file_takes_the_key_of_every_task() -> None:
    """A file is refused whole where one does not read, so none that the timetable gives may be refused."""
    script = (ROOT / "docs" / "assets" / "js" / "bench_state.js").read_text(encoding="utf-8")
    pattern = re.search(r"^const TASK = /\^(.+)\$/;", script, re.MULTILINE)
    assert pattern
    keys = keys_of(texts_of(SUPPER)) + keys_of(texts_of(seven_tiers()))
    assert any("." in key for key in keys), "none is done in parts"
    assert [key for key in keys if not re.fullmatch(pattern[1], key)] == []


@pytest.mark.parametrize("record", [SUPPER, seven_tiers()], ids=["supper", "seven tiers"])
def test_the_text_of_an_order_gives_the_work_back_as_it_was(record: str) -> None:
    texts = texts_of(record)
    keys = keys_of(texts)
    waits = ", ".join(f"{key} 2026-11-28T12:45:30.250Z" for key in keys)
    work = {"bench.done": ", ".join(keys), "bench.at": keys[-1], "bench.waits": waits}
    for at, line in enumerate(("butter", "gel-st", "gel-st. clement", "gel-a.b.c.d.e.f.g", f"gel-{'x' * 200}", "tip-round 1.8 mm")):
        work |= {f"shop.{at}.line": line, f"shop.{at}.got": "1", f"shop.{at}.have": "1/2 lb"}
    kept = compute("order", texts | work).record or ""
    again = compute("order", {"order": kept}).fields or {}
    assert {name: text for name, text in again.items() if name.startswith(("bench.", "shop."))} == work
    assert {name: again[name] for name in texts} == texts
