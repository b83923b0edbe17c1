"""The shopping list taken along: ticked off, less what is at hand, there again after a reload, copied and printed."""

from __future__ import annotations

import re

import pypdfium2
from playwright.sync_api import Locator, expect

from tests.browser.helpers import START, Bench, wait_for_rest

PAGE = "plan/whole-cake/"


def opened(bench: Bench) -> Locator:
    root = bench.open(PAGE)
    root.get_by_role("button", name="To the shop").click()
    return shown(bench)


def shown(bench: Bench) -> Locator:
    view = bench.page.get_by_role("dialog", name="To the shop")
    expect(view.locator("li").first).to_be_visible(timeout=START)
    return view


def line(view: Locator, words: str) -> Locator:
    return view.locator("li").filter(has_text=words).first


def test_ticks_and_what_is_at_hand_outlast_a_reload_and_another_tab(bench: Bench) -> None:
    view = opened(bench)
    count = view.locator("h2")
    expect(count).to_have_text(re.compile("^0 of "))
    whole = int(count.inner_text().split()[2])
    view.get_by_role("checkbox", name=re.compile("^Fine salt")).check()
    expect(count).to_have_text(f"1 of {whole} in the basket")
    butter = line(view, "Butter, unsalted")
    expect(butter).to_contain_text("4 of 250 g")
    have = view.get_by_label("I have, Butter, unsalted")
    have.fill("300 g")
    have.press("Tab")
    expect(butter).to_contain_text("3 of 250 g", timeout=START)
    have.fill("1 kg")
    have.press("Tab")
    expect(butter).to_contain_text("at hand", timeout=START)
    expect(count).to_have_text(f"1 of {whole - 1} in the basket")
    bench.page.reload()
    view = shown(bench)
    expect(view.get_by_role("checkbox", name=re.compile("^Fine salt"))).to_be_checked()
    expect(line(view, "Butter, unsalted")).to_contain_text("at hand")
    other = bench.page.context.new_page()
    other.goto(bench.address + PAGE)
    again = other.get_by_role("dialog", name="To the shop")
    expect(again.locator("h2")).to_have_text(f"1 of {whole - 1} in the basket", timeout=START)
    again.get_by_role("checkbox", name=re.compile("^Cake board")).check()
    expect(view.locator("h2")).to_have_text(f"2 of {whole - 1} in the basket", timeout=START)
    other.close()


def test_what_is_left_is_copied_and_printed_on_one_page(bench: Bench) -> None:
    bench.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    view = opened(bench)
    view.get_by_role("checkbox", name=re.compile("^Fine salt")).check()
    have = view.get_by_label("I have, Piping bags")
    have.fill("8")
    have.press("Tab")
    expect(line(view, "Piping bags")).to_contain_text("at hand", timeout=START)
    view.get_by_role("button", name="Copy what is left").click()
    expect(view.get_by_role("status")).to_have_text("The list is copied.")
    text = bench.page.evaluate("() => navigator.clipboard.readText()")
    assert "For the buttercream\n- Egg white: 1 of 500 g" in text and "Fine salt" not in text and "Piping bags" not in text
    with bench.page.expect_download() as saving:
        view.get_by_role("button", name="Print it").click()
    document = pypdfium2.PdfDocument(saving.value.path())
    words = document[0].get_textpage().get_text_range()
    assert len(document) == 1 and "Egg white" in words and "Piping bags" not in words


def test_storage_that_is_full_is_said(bench: Bench) -> None:
    view = opened(bench)
    bench.page.evaluate(
        """() => {
            const full = () => { throw new DOMException("no room", "QuotaExceededError"); };
            IDBObjectStore.prototype.put = full;
            Storage.prototype.setItem = full;
        }"""
    )
    view.get_by_role("checkbox", name=re.compile("^Fine salt")).check()
    expect(view.get_by_role("status")).to_contain_text("no room left", timeout=START)
    expect(view.locator("h2")).to_have_text(re.compile("^1 of "))


def test_a_thumb_reaches_every_line(bench: Bench) -> None:
    bench.page.set_viewport_size({"width": 390, "height": 844})
    view = opened(bench)
    for wide, high in ((390, 844), (844, 390), (1280, 900)):
        bench.page.set_viewport_size({"width": wide, "height": high})
        wait_for_rest(bench.page)
        assert view.evaluate("view => view.scrollWidth <= innerWidth"), wide
        touched = "button, li > label:first-child, input[type=text]"
        heights = view.locator(touched).evaluate_all("all => all.map(each => each.getBoundingClientRect().height)")
        assert len(heights) > 30 and min(heights) >= 44, wide
