"""A long answer on a telephone: its parts fold, and nothing is lost by it."""

from __future__ import annotations

from playwright.sync_api import Locator, expect

from tests.browser.helpers import Bench, field

PAGE = "plan/whole-cake/"
PHONE = {"width": 390, "height": 844}


def heads(order: Locator) -> dict[str, bool]:
    """Which parts are open."""
    return order.evaluate(
        """root => Object.fromEntries([...root.querySelectorAll(".pb-section")].map(part =>
            [part.dataset.section, part.querySelector("[aria-expanded]")?.getAttribute("aria-expanded") !== "false"]))"""
    )


def test_all_but_the_first_part_begin_folded_on_a_phone_and_none_on_a_desk(bench: Bench) -> None:
    bench.page.set_viewport_size(PHONE)
    order = bench.open(PAGE, "order")
    assert [name for name, is_open in heads(order).items() if is_open] == ["cake"]
    assert bench.page.evaluate("() => document.documentElement.scrollHeight") < 14_000
    bench.page.set_viewport_size({"width": 1280, "height": 800})
    expect(order.locator(".pb-fold")).to_have_count(0)
    expect(order.locator('[data-section="price"] .pb-table')).to_be_visible()
    assert all(heads(order).values()) and order.locator(".pb-section > [hidden]").count() == 0


def test_a_heading_a_link_and_the_search_of_the_browser_open_a_part(bench: Bench) -> None:
    bench.page.set_viewport_size(PHONE)
    order = bench.open(PAGE, "order")
    price = order.locator('[data-section="price"] .pb-table table').first
    expect(price).to_be_hidden()
    head = order.locator('[data-section="price"] .pb-fold')
    head.focus()
    bench.page.keyboard.press("Enter")
    expect(price).to_be_visible()
    bench.page.keyboard.press("Space")
    expect(price).to_be_hidden()
    order.locator(".pb-jump").hover()  # the strip stands still while somebody points at it
    order.locator('.pb-jump a[data-part="coats"]').click()
    expect(order.locator('[data-section="coats"] .pb-figure').first).to_be_visible()
    # the browser tells of a match before it scrolls there
    order.locator('[data-section="shopping"] .pb-table table').first.dispatch_event("beforematch", {"bubbles": True})
    expect(order.locator('[data-section="shopping"] .pb-table table').first).to_be_visible()


def test_what_is_folded_stays_so_and_is_kept_up(bench: Bench) -> None:
    bench.page.set_viewport_size(PHONE)
    order = bench.open(PAGE, "order")
    before = heads(order)
    told = order.locator('[data-section="price"] .pb-figure[data-figure="price"] dd')
    old = told.text_content()
    order.evaluate("root => root.querySelectorAll('.pb-form details').forEach(each => { each.open = true })")
    field(order, "margin").fill("40 %")
    expect(order).to_have_attribute("data-state", "ready")
    expect(order.locator('[data-section="cake"] .pb-figure').first).to_be_visible()
    shown = "old => document.querySelector('[data-section=price] .pb-figure[data-figure=price] dd').textContent !== old"
    bench.page.wait_for_function(shown, arg=old)
    assert heads(order) == before
    expect(order.locator('[data-section="price"] > .pb-figures')).to_have_attribute("hidden", "until-found")


def test_all_of_it_is_printed(bench: Bench) -> None:
    bench.page.set_viewport_size(PHONE)
    order = bench.open(PAGE, "order")
    table = order.locator('[data-section="price"] .pb-table').first
    assert table.evaluate("e => e.clientHeight") < 5
    bench.page.emulate_media(media="print")
    assert table.evaluate("e => e.clientHeight") > 50
