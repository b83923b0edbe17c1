"""What the bench is made of: the edits it types, the line it narrows, the sums it tells. No time is tested here: times belong to a machine."""

from __future__ import annotations

import json
import urllib.request
from pathlib import Path
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS
from tools.bench import host as bench_host
from tools.bench import report
from tools.bench.edits import altered, declared, edits
from tools.bench.seven_tiers import seven_tiers
from tools.build import fences, stamps
from tools.build.paths import DOCS

HUNDRED = [float(value) for value in range(1, 101)]


@pytest.mark.parametrize("values, share, expected", [([5.0], 0.95, 5.0), (HUNDRED, 0.95, 95), (HUNDRED, 0.5, 50), ([3.0, 1.0, 2.0], 0.5, 2)])
def test_percentile_is_one_that_was_measured(values: list[float], share: float, expected: float) -> None:
    assert report.percentile(values, share) == expected


def test_shares_are_taken_round_by_round() -> None:
    assert report.shares([1.0, 4.0], [10.0, 20.0]) == [0.1, 0.2]


def on_its_page(slug: str) -> dict[str, str]:
    """The texts with which a calculator stands on its first page; an order as its fields."""
    pages = [path for path in stamps.files_under(DOCS) if path.suffix == ".md"]
    page, fence = next((page, fence) for page, fence in fences.calculators_in(pages) if fence.name == slug)
    texts = {name: asked.default for name, asked in declared(CALCULATORS[slug]).items() if "*" not in name and not asked.optional}
    given = fence.inputs(page)
    return calc.compute(slug, given).fields or {} if "order" in given else {**texts, **given}


@pytest.mark.parametrize("slug", CALCULATORS)
def test_edits_change_one_field_each_and_mostly_give_answers(slug: str) -> None:
    """Each is something new in its field, the same for the same seed, and near enough for an answer."""
    calculator, texts = CALCULATORS[slug], on_its_page(slug)
    made = edits(calculator, texts, 12, seed=3)
    assert len(made) == 12
    assert made == edits(calculator, texts, 12, seed=3)
    now, typed, answered = dict(texts), dict(texts), 0
    for name, text in made:
        assert text != typed[name]
        typed[name] = text
        if calc.compute(slug, {**now, name: text}).problems:
            continue
        now[name] = text
        answered += 1
    assert answered >= len(made) / 2


def test_every_field_has_its_turn() -> None:
    calculator = CALCULATORS["swags"]
    texts = {"side": "66 cm", "cutter": "7.5 cm", "tip": "petal 11 mm"}
    assert {name for name, _ in edits(calculator, texts, 3, seed=1)} == set(texts)


def test_the_seven_tiers_are_a_cake_and_each_height_another() -> None:
    one, other = (calc.compute("order", {"order": seven_tiers(height_cm)}) for height_cm in (9, 11))
    assert not one.problems and not other.problems
    assert len({tier["name"] for tier in one.sheets}) == len(other.sheets) >= 4 + 4 * 7
    assert one.figures["buttercream"]["value"] < other.figures["buttercream"]["value"]


def test_what_is_typed_stays_near() -> None:
    import random

    side = declared(CALCULATORS["swags"])["side"]
    for seed in range(50):
        text = altered("66 cm", side, random.Random(seed))
        assert text.endswith(" cm") and 62 <= float(text.removesuffix(" cm")) <= 70


STARTS = {"page": [100.0, 200.0], "typed": [110.0, 210.0], "pint": [1000.0, 1000.0], "bare": [500.0, 500.0]}


def results(**changed: Any) -> dict[str, Any]:
    whole: dict[str, Any] = {
        "engine": "A browser 1",
        "pyodide": "1.2.3",
        "processors": 2,
        "load": 0.5,
        "rounds": 2,
        "starts_ms": {"cold": STARTS, "warm": STARTS},
        "narrow_ms": {"page": [7000.0], "page paint": [400.0], "pint": [11000.0]},
        "bytes": {"page": 8_000_000, "pint": 7_000_000, "offline": 13_500_000},
        "memory_bytes": {"page": [50_000_000]},
        "answers_ms": report.summary(
            {
                "order": {"page": [10.0, 60.0], "picture": [12.0, 90.0], "worker": [5.0, 30.0], "native": [1.0, 9.0]},
                "swags": {"page": [4.0, 8.0], "worker": [2.0, 5.0], "native": [0.1, 0.4]},
                "tint": {"page": [], "worker": [], "native": []},
            }
        ),
        "sheets_ms": {"first": [2500.0, 1900.0, 2600.0], "next": [1500.0], "native": [800.0]},
        "characters": {"order": 1, "sheets": 40},
    }
    return {**whole, **changed}


def test_targets_say_met_and_not_met() -> None:
    told = {target.what: target for target in report.targets(results())}
    share = told["First live answer, cold, as a share of plain Pyodide with pint"]
    assert share.measured == pytest.approx(0.15) and share.met
    assert told["First live answer, cold, as a share of Pyodide's bare start"].measured == pytest.approx(0.30)
    assert not told["Key to answer, the whole order, p95"].met
    assert told["Key to answer, one calculator, p95 (slowest: swags)"].met
    assert not told["Fetched until everything is saved for offline use"].met
    assert not told["All sheets of a cake of seven tiers, the first set after a start"].met
    assert told["All sheets of a cake of seven tiers, of another such cake after it"].row()[1:] == ("1.50 s", "at most 2 s", "met")
    assert told["First paint at 10 Mbit/s and 40 ms"].row()[1:] == ("0.40 s", "at most 1 s", "met")


def test_what_was_not_measured_is_not_told() -> None:
    part = results(starts_ms={}, narrow_ms={}, bytes={}, answers_ms={}, sheets_ms={})
    assert report.targets(part) == []
    assert "not met" not in report.printed(part)


def test_the_page_keeps_its_words() -> None:
    page = f"# Title\n\nbefore\n\n{report.BEGIN}\nformerly\n{report.END}\n\nafter\n"
    new = report.page_with(page, report.measured(results()))
    assert new.startswith("# Title\n\nbefore\n") and new.endswith("\n\nafter\n")
    assert "formerly" not in new
    assert "| swags | 4.0 | 8.0 | 2.0 | 5.0 | 0.1 | 0.4 | 2 |" in new
    assert "| 40 sheets, natively | 0.80\u00a0s (0.80\u00a0to\u00a00.80) |" in new, "a figure stays with its unit"
    assert "to the picture it took 12.0 ms in the middle and 90.0 ms at p95" in new
    assert new.count("<svg") == 2
    with pytest.raises(ValueError):
        report.page_with("a page without marks", "new")


def test_a_busy_machine_is_said() -> None:
    assert "much else to do" not in report.measured(results())
    assert "much else to do" in report.measured(results(load=9.0))


def test_the_page_can_be_written() -> None:
    """It stands there with its marks, and what is in it came from its data; without data it says that nothing was measured."""
    page = report.PAGE.read_text(encoding="utf-8")
    if not report.DATA.exists():
        assert "This copy holds no measurement yet" in page.split(report.BEGIN)[1].split(report.END)[0]
        return
    data = json.loads(report.DATA.read_text(encoding="utf-8"))
    assert report.page_with(page, report.measured(data)) == page


@pytest.fixture
def host(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    monkeypatch.setattr(bench_host, "files_of_plain", dict)
    (tmp_path / "big.json").write_bytes(b"0" * 100_000)
    (tmp_path / "noise.gz").write_bytes(bytes(range(256)) * 400)
    made = bench_host.Host(tmp_path)
    yield made
    made.close()


def asked(address: str, packed: bool = True) -> bytes:
    with urllib.request.urlopen(urllib.request.Request(address, headers={"Accept-Encoding": "gzip"} if packed else {})) as answer:
        return bytes(answer.read())


def test_what_is_sent_is_counted_as_sent(host: bench_host.Host) -> None:
    host.begin()
    data = asked(host.address + "big.json")
    assert host.bytes_sent == len(data) < 1000
    asked(host.address + "noise.gz")
    assert host.bytes_sent == len(data) + 102_400
    host.begin()
    assert len(asked(host.address + "big.json", packed=False)) == host.bytes_sent == 100_000


def test_a_narrow_line_is_shared(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is under way at once waits as long as if it came in turn: 100 kB at 8 Mbit/s take a tenth of a second each."""
    slept: list[float] = []
    monkeypatch.setattr(bench_host.time, "monotonic", lambda: 5.0)
    monkeypatch.setattr(bench_host.time, "sleep", slept.append)
    line = bench_host.Line(8_000_000, 0.0)
    for _ in range(4):
        line.wait(100_000)
    assert slept == pytest.approx([0.1, 0.2, 0.3, 0.4])
