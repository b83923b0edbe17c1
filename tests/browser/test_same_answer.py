"""The answer that the build writes into a page is the one that the worker gives, character for character, and edits lead to the same."""

from __future__ import annotations

import re
from pathlib import Path

from tests.browser.helpers import START, Bench

CALCULATOR = re.compile(r'<section class="pb-calculator" id="[^"]+" data-key="([^"]+)"')

COMPARE = r"""async ([addresses, mount]) => {
    const { client, readForm } = await import(mount);
    const whole = ({ html, drawings }) => {
        const left = [...drawings];
        const written = html.replace(/<figure class="pb-drawing" [^>]*>/g, (start) => start + left.shift());
        return left.length ? `${left.length} drawings too many` : written;
    };
    const found = [];
    let compared = 0;
    for (const address of addresses) {
        const page = await (await fetch(address)).text();
        const built = new DOMParser().parseFromString(page, "text/html");
        for (const root of built.querySelectorAll(".pb-calculator")) {
            const asked = { ...readForm(root.querySelector(".pb-form")), units: root.querySelector(".pb-units input[checked]").value };
            const answer = await client.compute(root.dataset.calculator, asked, { level: Number(root.dataset.level), id: root.id });
            compared += 1;
            const told = answer.problems.length ? JSON.stringify(answer.problems) : whole(answer);
            const staying = /^<figure [^>]*data-stays.*?<\/figure>/s.exec(told)?.[0] ?? ""; // it stands on the stage, the rest in the answer
            for (const [ours, start] of [[staying, '<div class="pb-stage-view">'], [told.slice(staying.length), `id="${root.id}--answer">`]]) {
                if (!ours) continue;
                const at = page.indexOf(start) + start.length;
                const theirs = page.slice(at, at + ours.length);
                if (ours === theirs && page.startsWith("</div>", at + ours.length)) continue;
                let i = 0;
                while (i < ours.length && ours[i] === theirs[i]) i += 1;
                const where = `browser ${ours.slice(Math.max(0, i - 80), i + 120)} / build ${theirs.slice(Math.max(0, i - 80), i + 120)}`;
                found.push(`${address} ${root.dataset.key}: at ${i}: ${where}`);
            }
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


EDIT = """async ([edits, mount, longest]) => {
    const { client, readForm, showAnswer } = await import(mount);
    const root = document.querySelector(".pb-calculator");
    const written = (place) => {
        const bare = place.cloneNode(true);
        for (const wrapped of bare.querySelectorAll(".md-typeset__scrollwrap")) wrapped.replaceWith(wrapped.querySelector("table"));
        return bare.innerHTML.replace(/\\bd[0-9a-f]{8}/g, "d").replace(/\\n/g, "");
    };
    const differing = [];
    let stayed = 0;
    let later = 0;
    for (const [name, text] of edits) {
        const before = new Set(root.querySelectorAll(".pb-drawing svg > g"));
        const field = root.querySelector(`[data-name="${name}"]`);
        const answered = new Promise((done, fail) => {
            root.addEventListener("pb-answer", done, { once: true });
            setTimeout(fail, longest, new Error(`no answer to ${name} = ${text}`));
        });
        field.value = text;
        field.dispatchEvent(new Event("input", { bubbles: true }));
        await answered;
        later += root.hasAttribute("data-undrawn");
        if (root.hasAttribute("data-undrawn")) {
            await new Promise((done, fail) => {
                root.addEventListener("pb-drawn", done, { once: true });
                setTimeout(fail, longest, new Error(`drawings left after ${name} = ${text}`));
            });
        }
        const inputs = { ...readForm(root.querySelector(".pb-form")), units: root.querySelector(".pb-units input:checked").value };
        const fresh = document.createElement("div");
        const view = document.createElement("div");
        showAnswer(fresh, await client.compute(root.dataset.calculator, inputs, { level: Number(root.dataset.level), id: root.id }), view);
        const lit = / class="(pb-lit)?"/g; // what the page adds to the part whose fields one is in
        const pairs = [[root.querySelector(".pb-answer"), fresh], [root.querySelector(".pb-stage-view"), view]];
        for (const pair of pairs) {
            const [shown, wanted] = pair.map((place) => written(place).replace(lit, ""));
            if (shown === wanted) continue;
            let i = 0;
            while (i < shown.length && shown[i] === wanted[i]) i += 1;
            const around = (all) => all.slice(Math.max(0, i - 80), i + 120);
            differing.push(`${name} = ${text}: shown ${around(shown)} / from nothing ${around(wanted)}`);
        }
        stayed += [...root.querySelectorAll(".pb-drawing svg > g")].filter((part) => before.has(part)).length;
    }
    return [differing, stayed, later];
}"""


def test_an_edited_answer_is_the_one_written_from_nothing(bench: Bench) -> None:
    """After edits of rows, sizes and shapes, once the drawings that come later are there.

    The theme, which comes after the first answer, wraps the tables that it finds; that is left out.
    What did not change in a drawing is still the same element, so that it is not laid out again.
    """
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
    differing, stayed, later = bench.page.evaluate(EDIT, [edits, mount, START])
    assert not differing, "\n".join(differing)
    assert stayed > 40
    assert later >= 8, "edits after which the views beside the main one came later"
