"""axe finds nothing to complain of in a live calculator, nor with mistakes on the page, in both colour schemes; targets are large enough.

tests/browser/test_every_page.py has every page as it was built.
"""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

from tests.browser.axe import BY_COLOUR, complaints
from tests.browser.helpers import Bench, field, ready, wait_for_rest


def test_axe_on_the_live_order(bench: Bench) -> None:
    bench.open("plan/whole-cake/", "order")
    assert complaints(bench.page) == []


OPENED = {
    "picker": ".pb-field:has(.pb-choices)",
    "gallery": ".pb-looks",
    "versions": ".pb-kept-orders",
    "bench": ".pb-bench",
}


@pytest.mark.parametrize("view", OPENED)
def test_axe_on_what_opens_over_an_order(bench: Bench, view: str) -> None:
    """Everything by day, and by evening what depends on colours; of the page only what was opened."""
    order = bench.open("plan/whole-cake/", "order")
    match view:
        case "picker":
            order.locator(".pb-stage-parts button[data-row]").first.click()
            order.locator('.pb-field:has([data-name="tiers.0.rows.0.kind"]) .pb-pick').click()
            expect(order.locator(".pb-choices")).to_be_visible()
        case "gallery":
            order.locator(".pb-begin-look").click()
            expect(order.locator(".pb-looks img").nth(7)).to_be_visible()
        case "versions":
            order.locator(".pb-kept-orders > summary").click()
            order.locator(".pb-branch").click()
            field(order, "guests").fill("60")
            expect(order.locator(".pb-versions tbody tr", has_text="Guests")).to_contain_text("60")
        case "bench":
            order.get_by_role("button", name="At the bench").click()
            expect(bench.page.locator(".pb-bench-tasks li").first).to_be_attached()
    expect(bench.page.locator(OPENED[view])).to_have_count(1)
    found = complaints(bench.page, within=OPENED[view])
    assert [one for one in found if "partially obscured" not in one.why] == []  # a field may lie half under a bar that stays, and scrolls out of it
    bench.page.emulate_media(color_scheme="dark")
    assert complaints(bench.page, (), BY_COLOUR, OPENED[view]) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_with_mistakes_on_the_page(bench: Bench, scheme: str) -> None:
    bench.page.emulate_media(color_scheme=scheme)
    swags = bench.open("techniques/swags/", "swags")
    field(swags, "side").fill("abc")
    field(swags, "side").press("Enter")
    expect(swags.locator(".pb-summary")).to_be_visible()
    assert complaints(bench.page) == []


def test_targets_are_a_finger_wide(bench: Bench) -> None:
    """What is touched in a calculator is at least 44 px high and wide, or has a label that is."""
    bench.page.set_viewport_size({"width": 390, "height": 844})
    swags = bench.open("techniques/swags/", "swags")
    ready(swags)
    small = swags.evaluate(
        """root => [...root.querySelectorAll("button, input, select, textarea, summary, .pb-tools label")]
            .filter(e => e.offsetParent && !["radio", "checkbox"].includes(e.type))
            .map(e => [e.className || e.name || e.tagName, e.getBoundingClientRect()])
            .filter(([, box]) => box.width < 43.5 || box.height < 43.5)
            .map(([name, box]) => `${name}: ${box.width} x ${box.height}`)"""
    )
    assert small == []


def test_nothing_sticks_out_sideways(bench: Bench) -> None:
    """Reflow: no page scrolls sideways, down to 320 px (a page at 1280 px and 400 %)."""
    bench.page.set_viewport_size({"width": 320, "height": 800})
    bench.open("techniques/swags/", "swags")
    for width in (320, 390, 768, 1024, 1280):
        bench.page.set_viewport_size({"width": width, "height": 800})
        wait_for_rest(bench.page)
        assert bench.page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0, width
