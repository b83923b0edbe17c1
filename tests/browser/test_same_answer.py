"""The build and the browser write the same answer, element for element."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.browser.helpers import Bench

CALCULATOR = re.compile(r'<section class="pb-calculator" id="[^"]+" data-key="([^"]+)"')

COMPARE = """async (root) => {
    const base = document.querySelector("script[src$='/mount.js']").src;
    const built = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html").getElementById(root.id);
    const { client } = await import(new URL("client.js", base));
    const { readForm } = await import(new URL("form.js", base));
    const { answerElements } = await import(new URL("render.js", base));
    const answer = await client.compute(root.dataset.calculator, { ...readForm(root.querySelector("form")), units: "metric" });
    if (answer.problems.length) return JSON.stringify(answer.problems);
    const place = built.querySelector(".pb-answer").cloneNode(false);
    document.adoptNode(place);
    place.append(answerElements(answer, Number(root.dataset.level)));
    const theirs = document.adoptNode(built.querySelector(".pb-answer"));
    if (place.isEqualNode(theirs)) return "";
    const [a, b] = [place.innerHTML, theirs.innerHTML];
    let i = 0;
    while (i < a.length && a[i] === b[i]) i += 1;
    return `at ${i} of ${a.length}: browser ${a.slice(i - 80, i + 120)} / build ${b.slice(i - 80, i + 120)}`;
}"""


def test_every_calculator_on_every_page(bench: Bench, site: Path) -> None:
    compared = 0
    for file in sorted(site.rglob("index.html")):
        identities = CALCULATOR.findall(file.read_text(encoding="utf-8"))
        if not identities:
            continue
        bench.open(file.parent.relative_to(site).as_posix() + "/")
        for identity in identities:
            difference = bench.calculator(identity).evaluate(COMPARE)
            assert difference == "", f"{file.relative_to(site)}#{identity}: {difference}"
            compared += 1
    if compared < 3:
        pytest.fail(f"only {compared} calculators were found")
