"""What is typed is in the database within 100 ms, however it was typed; the browser is asked to keep it once there is something worth keeping.

The clock of the page stands still in these tests and is put on by 100 ms, so that whatever waited for a longer timer, for a frame or for an
idle moment would never be written. How quick the machine is doesn't matter.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.helpers import Bench, field, wait_until
from tests.browser.test_store import STORED, WHOLE, press_undo, status, unfold

SWAGS = "techniques/swags/"
WITHIN = 100  # ms
LONG_AGO = "2020-01-02T03:04:05.000Z"

TYPE = "(field, text) => { field.value = text; field.dispatchEvent(new Event('input', { bubbles: true })); }"
# Type, and give what the journal says before anything else has had a turn.
TYPE_AND_READ = f"""(field, text) => {{
    ({TYPE})(field, text);
    return Object.keys(localStorage).filter((key) => key.includes("journal:")).map((key) => localStorage.getItem(key)).join();
}}"""
ASKS = """
    window.asked = 0;
    navigator.storage.persist = () => { window.asked += 1; return Promise.resolve(true); };
"""


def open_and_stop_the_clock(bench: Bench, path: str) -> Locator:
    """Open a page; once its calculator is ready, time passes on it only as the test lets it."""
    bench.page.clock.install()
    calculator = bench.open(path)
    bench.page.clock.pause_at(bench.page.evaluate("() => Date.now() + 1000"))
    return calculator


def stored(page: Page, name: str) -> list[str]:
    """What a field says in each record that is stored."""
    return [record["values"].get(name) for record in page.evaluate(STORED)["records"]]


@pytest.mark.parametrize("path, name, texts", [(SWAGS, "side", ("71 cm", "72 cm")), (WHOLE, "guests", ("31", "32"))])
def test_a_change_is_in_the_database_within_100_ms(bench: Bench, path: str, name: str, texts: tuple[str, str]) -> None:
    """The first, which begins a record, and one after it; then an undo."""
    calculator = open_and_stop_the_clock(bench, path)
    example = field(calculator, name).input_value()
    for text in texts:
        field(calculator, name).evaluate(TYPE, text)
        bench.page.clock.run_for(WITHIN)
        wait_until(bench.page, lambda text=text: stored(bench.page, name) == [text], f"{text} was not written")
    press_undo(calculator)
    bench.page.clock.run_for(WITHIN)
    wait_until(bench.page, lambda: stored(bench.page, name) == [example], "the undo was not written")


def test_what_is_typed_while_something_is_being_written_is_written_after_it(bench: Bench) -> None:
    """Held down, a key types faster than any database writes."""
    swags = open_and_stop_the_clock(bench, SWAGS)
    swags.evaluate(f"(root) => {{ for (let i = 1; i <= 80; i += 1) ({TYPE})(root.querySelector('[data-name=side]'), `${{i}} mm`); }}")
    bench.page.clock.run_for(WITHIN)
    wait_until(bench.page, lambda: stored(bench.page, "side") == ["80 mm"], "the last key was not written")


@pytest.mark.parametrize("path, name", [(SWAGS, "side"), (WHOLE, "guests")])
def test_a_change_is_noted_before_anything_else_has_a_turn(bench: Bench, path: str, name: str) -> None:
    """The journal outlives a page that is killed before its database has written."""
    calculator = bench.open(path)
    assert "4321" in field(calculator, name).evaluate(TYPE_AND_READ, "4321")


# ---- storage that lasts ---------------------------------------------------------------------------------------------------------


def asked(page: Page) -> int:
    """How often the page has asked for what it keeps to last."""
    return int(page.evaluate("() => window.asked"))


def test_it_is_asked_for_once_an_order_has_come_some_way(bench: Bench) -> None:
    """Firefox shows the reader a question then: neither a look round nor a first try is worth one."""
    bench.page.add_init_script(ASKS)
    order = bench.open(WHOLE, "order")
    assert asked(bench.page) == 0
    for number, text in enumerate(("21", "22", "23", "24")):
        field(order, "guests").evaluate(TYPE, text)
        field(order, "name").evaluate(TYPE, f"Plum {number}")
        if number == 1:
            wait_until(bench.page, lambda: stored(bench.page, "name") == ["Plum 1"], "it was not written")
            assert asked(bench.page) == 0
    wait_until(bench.page, lambda: asked(bench.page) == 1, "it was not asked for")
    field(order, "guests").evaluate(TYPE, "25")
    wait_until(bench.page, lambda: stored(bench.page, "guests") == ["25"], "it was not written")
    assert asked(bench.page) == 1, "it was asked for again"


def test_it_is_asked_for_when_the_reader_keeps_something(bench: Bench) -> None:
    bench.page.add_init_script(ASKS)
    order = bench.open(WHOLE, "order")
    unfold(order)
    order.get_by_role("button", name="Keep a copy").click()
    expect(status(order)).to_contain_text("kept on this device")
    assert asked(bench.page) == 1


def test_it_is_asked_for_when_a_file_is_brought_in(bench: Bench, tmp_path: Path) -> None:
    bench.page.add_init_script(ASKS)
    order = bench.open(WHOLE, "order")
    kept = {"calculator": "order", "place": "order", "made": LONG_AGO, "changed": LONG_AGO, "values": {"name": "Quince", "guests": "29"}}
    file = tmp_path / "everything.json"
    file.write_text(json.dumps({"madeWith": "Piping Bench", "version": 1, "saved": LONG_AGO, "kept": [kept]}), encoding="utf-8")
    unfold(order)
    order.locator(".pb-file").set_input_files(file)
    expect(field(order, "name")).to_have_value("Quince")
    assert asked(bench.page) == 1


# ---- a database that an earlier handbook left ---------------------------------------------------------------------------------------

# The first tables and the first shape of a record, as they were written then. They stay here for good; what comes after is added below them.
FIRST: dict[str, Any] = {
    "tables": [["records", "id", "calculator"], ["histories", "id", ""], ["current", "", ""]],
    "record": {
        **{"version": 1, "id": "abcdefghi", "place": "/techniques/swags/#swags", "calculator": "swags", "title": "", "text": ""},
        "values": {"side": "82 cm", "cutter": "9 cm", "units": "metric", "gone since": "kept"},
        **{"made": 1, "changed": 2, "removed": 0, "revision": 2, "recent": ["p-1", "p-2"]},
    },
    "history": {
        "id": "abcdefghi",
        "at": 2,
        "steps": [
            {"id": "p-1", "what": "Cutter", "visit": "p:1:cutter", "time": 1, "before": {"cutter": "7.5 cm"}, "after": {"cutter": "9 cm"}},
            {"id": "p-2", "what": "Round the side", "visit": "p:2:side", "time": 2, "before": {"side": "66 cm"}, "after": {"side": "82 cm"}},
        ],
    },
}
LEAVE = """async ({ version, tables, record, history }) => {
    const open = indexedDB.open("piping-bench", version);
    open.onupgradeneeded = () => {
        for (const [name, keyPath, index] of tables) {
            const table = open.result.createObjectStore(name, keyPath ? { keyPath } : {});
            if (index) table.createIndex(index, index);
        }
    };
    const database = await new Promise((done) => { open.onsuccess = () => done(open.result); });
    const change = database.transaction(["records", "histories", "current"], "readwrite");
    change.objectStore("records").put(record);
    change.objectStore("histories").put(history);
    change.objectStore("current").put(record.id, record.place);
    await new Promise((done) => { change.oncomplete = done; });
    database.close();
}"""


@pytest.mark.parametrize("version, left", [(1, FIRST)])
def test_what_an_earlier_database_holds_is_shown_can_be_undone_and_stays(bench: Bench, version: int, left: dict[str, Any]) -> None:
    bench.page.goto(bench.address + "about/")
    bench.page.evaluate(LEAVE, {"version": version, **left})
    swags = bench.open(SWAGS, "swags")
    expect(field(swags, "side")).to_have_value("82 cm")
    assert field(swags, "cutter").input_value() == "9 cm"
    for name, before in (("side", "66 cm"), ("cutter", "7.5 cm")):
        press_undo(swags)
        expect(field(swags, name)).to_have_value(before)
    expect(swags.locator(".pb-undo")).to_have_attribute("aria-disabled", "true")
    wait_until(bench.page, lambda: stored(bench.page, "cutter") == ["7.5 cm"], "the undo was not written")
    assert stored(bench.page, "gone since") == ["kept"]
