"""Two calculators on one page answer for themselves, through one worker."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import expect

from tests.browser.helpers import Bench, ready

CALCULATOR = re.compile(r'<section class="pb-calculator" id="[^"]+" data-key="([^"]+)" data-calculator="([^"]+)"')


def page_with_two(site: Path) -> tuple[str, list[str]]:
    """The address of the first page with two calculators, and their ids."""
    for file in sorted(site.rglob("index.html")):
        found = CALCULATOR.findall(file.read_text(encoding="utf-8"))
        if len(found) > 1:
            return file.parent.relative_to(site).as_posix() + "/", [identity for identity, _ in found]
    raise AssertionError("no page has two calculators")


def test_each_answers_for_itself(bench: Bench, site: Path) -> None:
    path, identities = page_with_two(site)
    first, second = bench.open(path, identities[0]), bench.calculator(identities[1])
    untouched = second.locator(".pb-answer").inner_html()
    control = first.locator("input[type=text]").first
    before = control.input_value()
    control.fill("abc")
    control.press("Tab")
    expect(first.locator(".pb-problem").first).to_be_attached()
    expect(first.locator(".pb-answer")).to_have_attribute("data-stale", "")
    ready(second)
    assert second.locator(".pb-answer").inner_html() == untouched
    assert second.locator(".pb-answer").get_attribute("data-stale") is None
    control.fill(before)
    expect(first.locator(".pb-answer")).not_to_have_attribute("data-stale", "")
    assert len(bench.workers) == 1


def test_names_on_the_page_are_unique(bench: Bench, site: Path) -> None:
    path, _ = page_with_two(site)
    bench.open(path)
    twice = bench.page.evaluate(
        """() => { const ids = [...document.querySelectorAll(".pb-calculator [id], .pb-calculator")].map(e => e.id);
            return ids.filter((id, i) => ids.indexOf(id) !== i) }"""
    )
    assert twice == []
