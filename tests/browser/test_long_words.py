"""Words without an end, such as a name pasted without its blanks: they break, and neither widen the page nor squeeze what stands beside them."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.helpers import START, Bench, field, ready, wait_for_rest

WORD = "W" * 60
LONG = {"name": WORD, "tiers.0.name": "n" * 100, "tiers.0.rows.0.colour": WORD}
TYPE = "(field, text) => { field.value = text; field.dispatchEvent(new Event('input', { bubbles: true })); }"
NARROWEST = """() => Math.min(...[...document.querySelectorAll(".pb-answer tbody :is(th, td)")]
    .filter((cell) => cell.textContent.trim().length > 3 && cell.clientWidth).map((cell) => cell.clientWidth))"""


def test_long_words_neither_widen_the_page_nor_squeeze_the_tables(bench: Bench) -> None:
    bench.page.set_viewport_size({"width": 390, "height": 800})
    order = bench.open("plan/whole-cake/", "order")
    for name, text in LONG.items():
        field(order, name).evaluate(TYPE, text)
    expect(order.locator(".pb-answer")).to_contain_text("n" * 100, timeout=START)
    ready(order)
    expect(order.locator(".pb-kept option:checked")).to_contain_text(WORD)
    order.evaluate("root => root.querySelectorAll('details').forEach((each) => { each.open = true; })")
    for width in (390, 1024, 1100, 1280):
        bench.page.set_viewport_size({"width": width, "height": 800})
        wait_for_rest(bench.page)
        assert bench.page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0, width
        assert bench.page.evaluate(NARROWEST) > 40, width
