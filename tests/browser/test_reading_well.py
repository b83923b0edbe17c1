"""A page can be enlarged, stilled, spaced out and gone through by keyboard; the offline control too, with text at 7:1 in both schemes."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, expect

from tests.browser.axe import CONTRAST, RULES, complaints
from tests.browser.helpers import THEME, ready, wait_for_rest
from tests.browser.hosts import Host, host
from tests.browser.test_offline import BY_HAND

SWAGS = "techniques/swags/"
WHOLE = "plan/whole-cake/"


@pytest.fixture
def made(browser: Browser) -> Iterator[BrowserContext]:
    """A context that saves nothing."""
    context = browser.new_context(viewport={"width": 1280, "height": 800}, service_workers="block")
    yield context
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280])
def test_axe_with_the_offline_panel_open(browser: Browser, site: Path, scheme: str, width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 800}, color_scheme=scheme)
    context.add_init_script(BY_HAND)
    with host(site) as there:
        page = context.new_page()
        page.goto(there.address + "about/")
        for state in ("unsaved", "saved", "failed"):
            if state == "saved":
                page.locator('.pb-offline-panel button[data-act="save"]').click()
            if state == "failed":
                page.locator('.pb-offline-panel button[data-act="remove"]').click()
                expect(page.locator(".pb-offline")).to_have_attribute("data-state", "unsaved")
                there.stop()
                page.locator('.pb-offline-panel button[data-act="save"]').click()
            expect(page.locator(".pb-offline")).to_have_attribute("data-state", state)
            if state == "unsaved":
                page.locator(".pb-offline summary").click()
            panel = page.locator(".pb-offline-panel")
            expect(panel).to_be_visible()
            box = panel.bounding_box()
            assert box and box["x"] >= 0 and box["x"] + box["width"] <= width
            small = page.locator(".pb-offline summary, .pb-offline-panel button").evaluate_all(
                "all => all.map(e => e.getBoundingClientRect()).filter(box => box.width < 43.5 || box.height < 43.5).length"
            )
            assert small == 0
            assert complaints(page, RULES, also=CONTRAST, within=".pb-offline") == []
    context.close()


@pytest.mark.parametrize("path", ["", SWAGS, WHOLE, "look-up/tips/", "about/hosting/"])
def test_twice_as_large(made: BrowserContext, address: str, path: str) -> None:
    """At 200 % a page of 1280 px has 640: nothing is cut off or scrolls sideways, and the text is as large as asked."""
    page = made.new_page()
    page.set_viewport_size({"width": 640, "height": 400})
    page.goto(address + path)
    page.wait_for_function(THEME)  # it makes wide tables scroll
    if page.locator(".pb-calculator").count():
        ready(page.locator(".pb-calculator").first)
    assert page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0
    # text alone at 200 %: the root grows, boxes must grow along
    page.set_viewport_size({"width": 1280, "height": 800})
    page.evaluate("() => { document.documentElement.style.fontSize = '250%' }")  # the theme's own is 125 %
    wait_for_rest(page)
    assert page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0
    cut = page.evaluate(
        """() => [...document.querySelectorAll("button, .pb-field label, .pb-figure dd, h1, h2, h3, .pb-offline button")]
            .filter(e => e.offsetParent && e.scrollWidth > e.clientWidth + 2 && getComputedStyle(e).overflowX === "hidden" && e.clientWidth > 1)
            .map(e => e.className + ": " + e.textContent.slice(0, 40))"""
    )
    assert cut == []


@pytest.mark.parametrize("path", [SWAGS, WHOLE])
def test_text_spaced_out(made: BrowserContext, address: str, path: str) -> None:
    """WCAG 2.2, 1.4.12: line height 1.5, paragraphs 2, letters 0.12, words 0.16: nothing is lost."""
    page = made.new_page()
    page.set_viewport_size({"width": 390, "height": 800})
    page.goto(address + path)
    ready(page.locator(".pb-calculator").first)
    page.wait_for_function(THEME)
    page.evaluate(
        """() => { const sheet = new CSSStyleSheet();
            sheet.replaceSync(`* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important }
                p { margin-bottom: 2em !important }`);
            document.adoptedStyleSheets = [sheet]; }"""
    )
    assert page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0
    cut = page.evaluate(
        """() => [...document.querySelectorAll("button, label, dd, dt, th, td, h1, h2, h3, p, li")]
            .filter(e => e.offsetParent && ["hidden", "clip"].includes(getComputedStyle(e).overflowY) && e.scrollHeight > e.clientHeight + 2
                && e.clientHeight > 1)
            .map(e => e.className + ": " + e.textContent.trim().slice(0, 40))"""
    )
    assert cut == []


def test_motion_stands_still_for_who_asks(made: BrowserContext, address: str) -> None:
    """At rest, while Python starts and while the drawer opens, nothing moves for longer than a blink."""
    page = made.new_page()
    page.emulate_media(reduced_motion="reduce")
    page.add_init_script(
        """window.long = [];
        const note = () => { for (const each of document.getAnimations()) {
            const { duration, iterations } = each.effect.getComputedTiming();
            if (duration > 250 || iterations > 1) long.push([each.animationName ?? each.transitionProperty, duration, iterations]);
        } };
        for (const begun of ["animationstart", "transitionrun"]) addEventListener(begun, note, true);"""
    )
    page.goto(address + SWAGS)
    ready(page.locator(".pb-calculator").first)
    page.wait_for_function(THEME)
    page.set_viewport_size({"width": 390, "height": 800})
    page.locator('.md-header__button[for="__drawer"]').click()
    expect(page.locator(".md-sidebar--primary")).to_be_in_viewport()
    wait_for_rest(page)
    assert page.evaluate("() => long") == []
    assert page.evaluate("() => getComputedStyle(document.documentElement).scrollBehavior") == "auto"


def test_the_keyboard_goes_through_the_header_in_the_order_that_is_seen(made: BrowserContext, address: str) -> None:
    page = made.new_page()
    page.goto(address + SWAGS)
    ready(page.locator(".pb-calculator").first)
    page.wait_for_function(THEME)
    expect(page.locator(".pb-offline summary")).to_be_visible()  # it is shown once it is known what is saved
    wait_for_rest(page)
    page.evaluate(  # the search box grows over its neighbours while it has the focus
        "() => { window.seenAt = new Map([...document.querySelectorAll('.md-header *')].map(each => [each, each.getBoundingClientRect().x])) }"
    )
    places: list[tuple[str, float]] = []
    for _ in range(12):
        page.keyboard.press("Tab")
        told = page.evaluate(
            """() => { const e = document.activeElement;
                return [e.closest(".md-header") ? "header" : e.className, e.matches(".md-skip") ? "skip" : e.closest(".pb-offline") ? "offline"
                    : e.name === "query" ? "search" : e.name === "__palette" ? "scheme" : e.textContent.trim().slice(0, 20), seenAt.get(e) ?? 0] }"""
        )
        places.append((told[1], told[2]) if told[0] == "header" or told[1] == "skip" else ("", 0))
    names = [name for name, _ in places]
    assert names[0] == "skip"
    assert "offline" in names and "search" in names
    assert names.index("offline") < names.index("search")
    header = [x for name, x in places if name in ("offline", "search")]
    assert header == sorted(header)


def test_the_skip_link_skips(made: BrowserContext, address: str) -> None:
    page = made.new_page()
    page.goto(address + SWAGS)
    page.wait_for_function(THEME)
    page.keyboard.press("Tab")
    expect(page.locator(".md-skip")).to_be_focused()
    page.keyboard.press("Enter")
    page.wait_for_url("**#swags")
    page.wait_for_function("() => document.querySelector(':target')?.id === 'swags'")
    expect(page.locator(".md-skip")).not_to_be_focused()  # the browser goes to the target with its next frame only
    page.keyboard.press("Tab")
    assert page.evaluate("() => Boolean(document.activeElement.closest('.md-content'))")


def test_what_stands_before_it_is_said(made: BrowserContext, site: Path) -> None:
    """A screen reader hears of the end of saving through a region that was there before, not of each step."""
    with host(site) as there:
        said = _said(made, there)
    assert said[-1].startswith("Saving stopped") or said[-1].startswith("Saved for offline use"), said
    assert len(said) <= 2, said


def _said(made: BrowserContext, there: Host) -> list[str]:
    made.add_init_script(BY_HAND)
    page = made.new_page()
    page.goto(there.address + "about/")
    expect(page.locator(".pb-offline")).to_have_attribute("data-state", "unsaved")
    page.evaluate(
        """() => { const said = document.querySelector(".pb-offline-said"); window.heard = [];
            new MutationObserver(() => heard.push(said.textContent)).observe(said, { childList: true, characterData: true, subtree: true }); }"""
    )
    page.locator(".pb-offline summary").click()
    page.locator('.pb-offline-panel button[data-act="save"]').click()
    expect(page.locator(".pb-offline")).to_have_attribute("data-state", "failed")  # service workers are blocked here
    said: list[str] = page.evaluate("() => window.heard")
    return said


@pytest.mark.parametrize("width", [390, 1024, 1280])
def test_a_tip_shows_its_whole_name(made: BrowserContext, address: str, width: int) -> None:
    """Three fields abreast beside the list of headings once cut off the unit."""
    page = made.new_page()
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(address + "techniques/reverse-shells/")
    tip = page.locator('[data-input="tip"] input')
    for name in ("open star 7 mm", "closed star 12 mm"):
        room = tip.evaluate(
            "async (field, name) => { await document.fonts.ready; field.value = name; return field.clientWidth - field.scrollWidth }", name
        )
        assert room >= 0, name
