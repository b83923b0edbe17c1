"""The build and the browser write the same answer, element for element."""

from __future__ import annotations

import re
from pathlib import Path

from tests.browser.helpers import Bench

CALCULATOR = re.compile(r'<section class="pb-calculator" id="[^"]+" data-key="([^"]+)"')

COMPARE = """async ([addresses, mount]) => {
    const { client, readForm, answerElements } = await import(mount);
    const found = [];
    let compared = 0;
    for (const address of addresses) {
        const built = new DOMParser().parseFromString(await (await fetch(address)).text(), "text/html");
        for (const root of built.querySelectorAll(".pb-calculator")) {
            const asked = { ...readForm(root.querySelector("form")), units: root.querySelector(".pb-units input[checked]").value };
            const answer = await client.compute(root.dataset.calculator, asked);
            compared += 1;
            const ours = document.createElement("div");
            ours.append(answerElements(answer, Number(root.dataset.level), root.id));
            const theirs = document.createElement("div");
            theirs.append(...document.adoptNode(root.querySelector(".pb-answer")).childNodes);
            if (ours.isEqualNode(theirs) && !answer.problems.length) continue;
            const [a, b] = [ours.innerHTML, theirs.innerHTML];
            let i = 0;
            while (i < a.length && a[i] === b[i]) i += 1;
            const where = `browser ${a.slice(i - 80, i + 120)} / build ${b.slice(i - 80, i + 120)}`;
            found.push(`${address} ${root.dataset.key}: ${JSON.stringify(answer.problems)} at ${i}: ${where}`);
        }
    }
    return [compared, found];
}"""


def test_every_calculator_on_every_page(bench: Bench, site: Path) -> None:
    pages = [file for file in sorted(site.rglob("index.html")) if CALCULATOR.search(file.read_text(encoding="utf-8"))]
    addresses = [bench.address + file.parent.relative_to(site).as_posix() + "/" for file in pages]
    bench.open("techniques/swags/")
    mount = bench.page.evaluate("() => document.querySelector(\"script[src$='/handbook.js']\").src")
    compared, found = bench.page.evaluate(COMPARE, [addresses, mount])
    assert found == []
    assert compared >= len(pages) > 3


EDIT = """async ([edits, mount]) => {
    const { client, readForm, answerElements } = await import(mount);
    const root = document.querySelector(".pb-calculator");
    const drawn = (place) => [...place.querySelectorAll(".pb-drawing")].map(
        (figure) => `${figure.dataset.drawing} ${figure.outerHTML}`.replace(/\\bd[0-9a-f]{8}/g, "d").replace(/\\n/g, ""));
    const differing = [];
    let stayed = 0;
    for (const [name, text] of edits) {
        const before = new Set(root.querySelectorAll(".pb-drawing svg > g"));
        const field = root.querySelector(`[name="${name}"]`);
        const answered = new Promise((done, fail) => {
            root.addEventListener("pb-answer", done, { once: true });
            setTimeout(fail, 20_000, new Error(`no answer to ${name} = ${text}`));
        });
        field.value = text;
        field.dispatchEvent(new Event("input", { bubbles: true }));
        await answered;
        const inputs = { ...readForm(root.querySelector("form")), units: root.querySelector(".pb-units input:checked").value };
        const fresh = document.createElement("div");
        fresh.append(answerElements(await client.compute(root.dataset.calculator, inputs), 3, root.id));
        const [ours, theirs] = [root.querySelector(".pb-answer"), fresh].map(drawn);
        if (JSON.stringify(ours) !== JSON.stringify(theirs)) differing.push([name, text]);
        stayed += [...root.querySelectorAll(".pb-drawing svg > g")].filter((part) => before.has(part)).length;
    }
    return [differing, stayed];
}"""


def test_a_drawing_of_which_a_part_was_changed_is_the_one_drawn_afresh(bench: Bench) -> None:
    """After edits of rows, sizes and shapes; what did not change is still the same element, so that it is not laid out again."""
    bench.open("plan/whole-cake/", "order")
    mount = bench.page.evaluate("() => document.querySelector(\"script[src$='/handbook.js']\").src")
    edits = [
        ("tiers.0.rows.0.colour", "sage"),
        ("tiers.0.rows.1.kind", "bead"),
        ("tiers.1.rows.0.tip", "open star 6 mm"),
        ("guests", "30"),
        ("tiers.0.height", "12 cm"),
        ("tiers.1.shape", "heart"),
        ("tiers.0.width", "19.8 cm"),
        ("name", "Another supper"),
        ("tiers.1.shape", "round"),
        ("tiers.0.colour", "blush"),
        ("tiers.0.rows.0.colour", "russet"),
    ]
    differing, stayed = bench.page.evaluate(EDIT, [edits, mount])
    assert differing == []
    assert stayed > 40
