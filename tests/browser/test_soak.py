"""A long evening at the whole cake: edit after edit without reloading the page. Nothing breaks and memory levels off.

300 edits in the ordinary run; PIPING_BENCH_EDITS=10000 for the long one.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.browser.conftest import AS_READERS, make_patient
from tests.browser.helpers import START, Bench
from tools.bench.chromium import ChromiumTab

EDITS = int(os.environ.get("PIPING_BENCH_EDITS", "300"))
STEPS = 10  # how often memory is looked at
MEGA = 1e6
STEP_OF_GROWTH = 1.2  # Python's memory never shrinks, and grows by a fifth at a time
LEVEL = 96  # MB; what all that is kept between answers comes to in the end, as measured over 10,000 edits; it fills by and by

SOAK = """async (root, { seed, count, longest }) => {
    const form = root.querySelector(".pb-form");
    const { client } = await import(document.querySelector("script[src$='/handbook.js']").src);
    let why = "";
    let wrong = 0; // edits in a row that gave no answer
    client.addEventListener("state", () => { if (client.state !== "ready") why = client.why; });
    let state = seed >>> 0;
    const chance = () => {  // the same edits for the same seed
        state = (state + 0x6d2b79f5) >>> 0;
        let t = Math.imul(state ^ (state >>> 15), 1 | state);
        t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
        return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
    };
    const one = (list) => list[Math.floor(chance() * list.length)];
    const odd = ["", "abc", "-3 cm", "1/0", "9".repeat(400), "<script>", "½ in", "15,5 cm", "0", "1e308", "10 cm and 8 cm"];
    const told = { answers: 0, problems: 0, pressed: 0, silent: 0 };
    const settled = () => new Promise((done) => {
        const look = () => {
            if (!["ready", "failed"].includes(root.dataset.state)) return;
            observer.disconnect();
            clearTimeout(timer);
            done(true);
        };
        const observer = new MutationObserver(look);
        const timer = setTimeout(() => { observer.disconnect(); done(false); }, longest);
        observer.observe(root, { attributes: true, attributeFilter: ["data-state"] });
    });
    const all = () => [...form.querySelectorAll(".pb-field :is(input, select, textarea)")];
    const typed = () => Object.fromEntries(all().map((field) => [field.name, field.value]));
    const asked = () => ["busy", "starting"].includes(root.dataset.state);
    const type = (field, text) => {
        if (field.type === "checkbox") field.checked = text === "yes";
        else field.value = text;
        field.dispatchEvent(new Event("input", { bubbles: true }));
    };
    for (let i = 0; i < count; i += 1) {
        const field = one(all().filter((field) => field.name !== "order"));
        const dice = chance();
        let put = null;
        const whenSettled = settled();
        if (dice < 0.06) {
            const buttons = [...form.querySelectorAll(".pb-add, .pb-remove, .pb-move")].filter((button) => !button.disabled);
            const button = one(buttons);
            const few = form.querySelectorAll(".pb-group").length;
            if (!button.matches(".pb-add") || few < 40) button.click();
            told.pressed += 1;
        } else if (dice < 0.09) {
            const units = one([...root.querySelectorAll(".pb-units input")]);
            units.checked = true;
            units.dispatchEvent(new Event("change", { bubbles: true }));
        } else if (dice < 0.11) {
            root.querySelector(".pb-reset").click();
        } else if (field.type === "checkbox") {
            type(field, field.checked ? "no" : "yes");
        } else if (field instanceof HTMLSelectElement) {
            put = [field, field.value];
            type(field, one([...field.options]).value);
        } else if (dice < 0.2) {
            put = [field, field.value];
            type(field, one(odd));
        } else {
            put = [field, field.value];
            const number = /[0-9]+([.][0-9]+)?/.exec(field.value);
            const isWhole = number && /^[0-9]+$/.test(field.value);
            const near = number && (isWhole ? Math.max(1, Number(number[0]) + one([-1, 1])) : (number[0] * (0.9 + 0.2 * chance())).toPrecision(4));
            type(field, number ? field.value.replace(number[0], String(near)) : `${field.value.slice(0, 20)}x`);
        }
        if (!asked()) {
            told.silent += 1;
            continue;
        }
        if (!(await whenSettled)) throw new Error(`no answer to edit ${i}\n${JSON.stringify(typed())}`);
        if (client.starts > 1) throw new Error(`Python was started again at edit ${i}: ${why}\n${JSON.stringify(typed())}`);
        if (root.dataset.state === "failed" || root.querySelector(".pb-failure")) {
            throw new Error(`${field.name} = ${field.value}: ${root.querySelector(".pb-failure")?.textContent}`);
        }
        if (root.querySelector(".pb-answer[data-stale]")) {
            told.problems += 1;
            wrong += 1;
            if (put && put[0].isConnected && chance() < 0.9) {
                type(put[0], put[1]);
                if (asked()) await settled();
            } else if (wrong > 1) {
                root.querySelector(".pb-reset").click();
                if (asked()) await settled();
            }
        } else {
            told.answers += 1;
            wrong = 0;
        }
    }
    return { ...told, starts: client.starts, elements: document.querySelectorAll("*").length };
}"""


@pytest.fixture
def browser(browser: Browser, chromium: str) -> Iterator[Browser]:
    """A Chromium as readers have it, which compiles again what runs often."""
    running = browser.browser_type.launch(executable_path=chromium, args=AS_READERS)
    yield make_patient(running)
    running.close()


def test_edit_after_edit(bench: Bench) -> None:
    """No fault, one start of Python, and what the worker and the page hold no longer grows in the second half."""
    bench.rehearse_all()
    order = bench.open("plan/whole-cake/", "order")
    tab = ChromiumTab(bench.page, bench.page.context)
    tab.watch_memory()
    told: dict[str, int] = {}
    held: list[dict[str, int]] = []
    for step in range(STEPS):
        done: dict[str, Any] = order.evaluate(SOAK, {"seed": 1000 + step, "count": EDITS // STEPS, "longest": START})
        assert done["starts"] == 1, "Python was started again"
        for name in ("answers", "problems", "pressed", "silent"):
            told[name] = told.get(name, 0) + done[name]
        page = bench.page.evaluate("performance.memory ? performance.memory.usedJSHeapSize : 0")
        held.append({**tab.memory(), "page": page, "elements": done["elements"]})
        said = {name: round(value / MEGA, 1) for name, value in held[-1].items() if name != "elements"}
        print(f"{(step + 1) * EDITS // STEPS} edits, {told}, in MB: {said}", flush=True)
    assert told["answers"] > EDITS / 3, told
    python = [each["python"] / MEGA for each in held]
    assert python[-1] <= max(LEVEL, max(python[: STEPS // 2]) * STEP_OF_GROWTH + 4), f"Python's memory grows: {[round(each) for each in python]} MB"
    script = [(each["heap"] + each["buffers"]) / MEGA for each in held]  # some of it is what has not been collected yet
    least, before = min(script[STEPS // 2 :]), max(script[: STEPS // 2])
    assert least <= before * STEP_OF_GROWTH + 4, f"the worker's own memory grows: {[round(each) for each in script]} MB"
    assert held[-1]["elements"] < 4 * held[0]["elements"], "the page grows"
