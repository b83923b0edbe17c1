"""The build and the browser write the same answer, element for element."""

from __future__ import annotations

import re
from pathlib import Path

from tests.browser.helpers import Bench

CALCULATOR = re.compile(r'<section class="pb-calculator" id="[^"]+" data-key="([^"]+)"')

COMPARE = """async ([addresses, mount]) => {
    const { client } = await import(new URL("client.js", mount));
    const { readForm } = await import(new URL("form.js", mount));
    const { answerElements } = await import(new URL("render.js", mount));
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
    mount = bench.page.evaluate("() => document.querySelector(\"script[src$='/mount.js']\").src")
    compared, found = bench.page.evaluate(COMPARE, [addresses, mount])
    assert found == []
    assert compared >= len(pages) > 3
