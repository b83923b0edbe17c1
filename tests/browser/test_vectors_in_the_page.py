"""The worker in the page shows the same texts as calc run natively, for every kept vector."""

from __future__ import annotations

from tests.browser.helpers import Bench
from tools.check import vectors

ASK = """async ([asked, mount]) => {
    const { client } = await import(mount);
    const answers = [];
    for (const one of asked) answers.push(await client.compute(one.calculator, one.inputs));
    return answers;
}"""


def test_page_answers_are_the_kept_ones(bench: Bench) -> None:
    kept = vectors.kept()
    bench.open("techniques/swags/")
    mount = bench.page.evaluate("() => document.querySelector(\"script[src$='/handbook.js']\").src")
    answers = bench.page.evaluate(ASK, [[{"calculator": v["calculator"], "inputs": v["inputs"]} for v in kept], mount])
    assert len(answers) == len(kept) > 100
    for vector, answer in zip(kept, answers, strict=True):
        assert vectors.shown(answer) == vector["shown"], (vector["calculator"], vector["inputs"])
