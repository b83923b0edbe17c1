"""The saved copy is checked, mended and told of as it is; a host that answers otherwise than it should does not hide it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser.helpers import START, field, ready
from tests.browser.hosts import Host, host, next_build
from tests.browser.test_offline import BY_HAND, COATS, SWAGS, panel, press, save, wait_for

CLEAR = """async (pattern) => {
    const cleared = [];
    for (const name of await caches.keys()) {
        if (name.endsWith(":state")) continue;
        const cache = await caches.open(name);
        for (const request of await cache.keys())
            if (new RegExp(pattern).test(request.url)) {
                await cache.delete(request);
                cleared.push(request.url);
            }
    }
    return cleared;
}"""
SPOIL = """async (pattern) => {
    for (const name of await caches.keys()) {
        if (name.endsWith(":state")) continue;
        const cache = await caches.open(name);
        for (const request of await cache.keys())
            if (new RegExp(pattern).test(request.url)) await cache.put(request, new Response("cut off", { headers: { "content-type": "text/css" } }));
    }
}"""
DAMAGE = """async (text) => {
    for (const name of await caches.keys())
        if (name.endsWith(":state")) {
            const cache = await caches.open(name);
            for (const request of await cache.keys()) await cache.put(request, new Response(text));
        }
    navigator.serviceWorker.controller?.postMessage("changed");
}"""


@pytest.fixture
def here(site: Path) -> Iterator[Host]:
    """A host for the site as it was built."""
    with host(site) as made:
        yield made


def save_by_hand(page: Page, address: str) -> None:
    """Open a page and save the handbook; what is spoilt then is not mended before the button is pressed, however long that takes."""
    save(page, address)
    page.evaluate(BY_HAND)


def look(page: Page) -> str:
    """Open the control, which looks at what is saved, and wait until it says that something is lacking; gives its words."""
    page.keyboard.press("Escape")
    expect(page.locator(".pb-offline-panel")).to_be_hidden()
    panel(page)
    wait_for(page, "damaged")
    return panel(page)


def told(page: Page, words: str) -> None:
    """Wait until the control says some words, in its panel and in the notice over the page."""
    expect(page.locator(".pb-offline-notice")).to_be_visible()
    expect(page.locator(".pb-offline-notice p")).to_contain_text(words)
    expect(page.locator(".pb-offline-text")).to_contain_text(words)


# ---- a host that answers otherwise ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("status", [403, 404, 410, 500])
def test_a_host_that_refuses_does_not_hide_the_saved_copy(context: BrowserContext, here: Host, status: int) -> None:
    page = context.new_page()
    save(page, here.address)
    here.answers[re.compile(r"^techniques/")] = status
    answered = page.goto(here.address + COATS)
    assert answered is not None and answered.status == 200
    ready(page.locator(".pb-calculator").first)
    told(page, f"it answered {status}")
    here.answers.clear()
    page.goto(here.address + SWAGS)  # all is well again, and nothing is said any more
    ready(page.locator(".pb-calculator").first)
    expect(page.locator(".pb-offline-notice")).to_be_hidden()
    expect(page.locator(".pb-offline-text")).not_to_contain_text("does not answer as it should")


def test_a_strangers_page_does_not_hide_the_saved_copy(context: BrowserContext, here: Host) -> None:
    """A cafe's network answers every address with its own page, and a file with it too."""
    page = context.new_page()
    save(page, here.address)
    here.strange = re.compile(r"")
    page.goto(here.address + COATS)
    expect(page.locator("h1")).to_have_text(re.compile("Fill and coat|coat", re.IGNORECASE))
    ready(page.locator(".pb-calculator").first)
    told(page, "not the handbook’s")
    manifest = f"fetch('{here.address}manifest.webmanifest').then(answer => answer.json())"
    told_name = page.evaluate(f"{manifest}.then(told => told.name)")
    assert told_name == "Piping Bench"


def test_where_nothing_is_saved_the_hosts_answer_stands(context: BrowserContext, here: Host) -> None:
    page = context.new_page()
    save(page, here.address)
    here.answers[re.compile(r"^nothing/")] = 410
    answered = page.goto(here.address + "nothing/of/this/name/")
    assert answered is not None and answered.status == 410


# ---- checked and mended -----------------------------------------------------------------------------------------------------


def test_files_that_are_gone_are_noticed_and_mended(context: BrowserContext, here: Host) -> None:
    page = context.new_page()
    save_by_hand(page, here.address)
    page.evaluate("localStorage.setItem('piping-bench:paper', 'Letter')")
    cleared = page.evaluate(CLEAR, r"/techniques/coats/$|snapshot-|\.woff2$")
    assert len(cleared) > 3
    here.answers[re.compile(r"offline\.json$")] = 503  # and the host cannot help at once
    words = look(page)
    assert "no longer in the saved copy" in words and "Every page, calculator and sheet works" not in words
    button = page.locator('.pb-offline-panel button[data-act="save"]')
    expect(button).to_have_text("Mend it")
    box = button.bounding_box()
    assert box and box["height"] >= 44
    press(page, "save")
    wait_for(page, "damaged")
    expect(page.locator(".pb-offline-text")).to_contain_text("it answered 503")

    here.answers.clear()
    here.asked.clear()
    press(page, "save")
    wait_for(page, "saved")
    fetched = {path for path in here.asked if not path.endswith((".json", "sw.js"))}
    assert fetched <= {address.removeprefix(here.address) for address in cleared}, "more was fetched than what was gone"
    here.stop()
    page.goto(here.address + COATS)
    ready(page.locator(".pb-calculator").first)
    assert page.evaluate("localStorage.getItem('piping-bench:paper')") == "Letter"


def test_a_file_that_was_cut_short_is_noticed_and_mended(context: BrowserContext, here: Host) -> None:
    page = context.new_page()
    save_by_hand(page, here.address)
    here.answers[re.compile(r"offline\.json$")] = 503
    page.evaluate(SPOIL, r"/handbook-all\.css$")
    assert "handbook-all.css is no longer in the saved copy" in look(page)
    here.answers.clear()
    press(page, "save")
    wait_for(page, "saved")
    here.stop()
    page.goto(here.address + COATS)
    assert page.evaluate("getComputedStyle(document.body).fontFamily").startswith('"Atkinson')


def test_a_copy_without_the_part_that_answers_is_not_called_saved(context: BrowserContext, here: Host) -> None:
    page = context.new_page()
    save_by_hand(page, here.address)
    page.evaluate("navigator.serviceWorker.getRegistrations().then(all => Promise.all(all.map(one => one.unregister())))")
    assert "the part that answers without a network is no longer" in look(page)
    press(page, "save")
    wait_for(page, "saved")
    here.stop()
    page.goto(here.address + COATS)
    ready(page.locator(".pb-calculator").first)


@pytest.mark.parametrize("text", ["{", "null", "[]", '{"cache": 5}', '{"cache": "other", "build": "", "code": "", "date": "", "hashes": {}}'])
def test_a_damaged_note_of_what_is_saved_is_mended(context: BrowserContext, here: Host, text: str) -> None:
    page = context.new_page()
    save_by_hand(page, here.address)
    here.answers[re.compile(r"offline\.json$")] = 503
    page.evaluate(DAMAGE, text)
    page.reload()
    wait_for(page, "damaged")
    assert "cannot be read" in panel(page) and "private" not in panel(page)
    here.answers.clear()
    here.asked.clear()
    press(page, "save")
    wait_for(page, "saved")
    assert not [path for path in here.asked if "runtime/" in path], "what was still there was fetched again"
    here.stop()
    page.goto(here.address + COATS)
    ready(page.locator(".pb-calculator").first)


# ---- told as it is ----------------------------------------------------------------------------------------------------------


def test_a_truncated_update_is_told_as_what_it_is(context: BrowserContext, here: Host) -> None:
    context.add_init_script(BY_HAND)
    page = context.new_page()
    page.goto(here.address + "about/")
    wait_for(page, "unsaved")
    here.short = re.compile(r"^assets/fonts/besley")
    press(page, "save")
    wait_for(page, "failed")
    words = panel(page)
    assert "came only in part" in words and "assets/fonts/besley" in words and "changed from how it was built" not in words


def test_an_update_is_made_of_what_the_host_sends_and_told_by_that(context: BrowserContext, here: Host, site: Path, tmp_path: Path) -> None:
    """The saved copy does not stand in for the host while it is renewed: an older page is not the one that was built."""
    page = context.new_page()
    save(page, here.address)
    here.stop()
    here.folder = next_build(site, tmp_path / "newer", "0123456789abcdef")
    here.answers[re.compile(r"^techniques/swags/$")] = 403
    here.start()
    page.goto(here.address + COATS)
    wait_for(page, "failed")
    words = panel(page)
    assert "does not send techniques/swags/: it answered 403" in words and "changed from how it was built" not in words
    here.answers.clear()
    press(page, "save")
    wait_for(page, "saved")


def test_a_list_that_is_cut_short_or_a_strangers_is_told_as_that(context: BrowserContext, here: Host) -> None:
    context.add_init_script(BY_HAND)
    page = context.new_page()
    page.goto(here.address + "about/")
    wait_for(page, "unsaved")
    here.short = re.compile(r"^offline\.json")
    press(page, "save")
    wait_for(page, "failed")
    assert "came only in part" in panel(page)
    here.short, here.strange = None, re.compile(r"^offline\.json")
    press(page, "save")
    wait_for(page, "failed")
    assert "is not the handbook’s" in panel(page) and "SyntaxError" not in panel(page)


def test_without_a_way_to_the_other_tabs_it_saves_all_the_same_and_says_so(context: BrowserContext, here: Host) -> None:
    context.add_init_script("Object.defineProperty(window, 'BroadcastChannel', { value: undefined })")
    page = context.new_page()
    save(page, here.address)
    assert "Other tabs hear of a newer handbook only when they are loaded again" in panel(page)


def test_a_renewed_host_under_a_page_that_is_not_saved_brings_the_advice_to_load_it_again(
    context: BrowserContext, site: Path, tmp_path: Path
) -> None:
    """The calendar's part is fetched when the first calendar is asked for; by then the host has another build."""
    newer = next_build(site, tmp_path / "newer", "0123456789abcdef")
    for old in (newer / "assets" / "runtime").glob("calendar-*"):
        old.rename(old.with_name("calendar-0123456789abcdef.bin"))
    context.add_init_script("Object.defineProperty(Navigator.prototype, 'serviceWorker', { get: undefined })")
    with host(site) as made:
        page = context.new_page()
        page.goto(made.address + "plan/whole-cake/")
        order = page.locator(".pb-calculator").first
        ready(order)
        field(order, "guests").fill("41")
        ready(order)
        made.folder = newer
        made.stop()
        made.start()
        order.locator('button[data-file="timetable.ics"]').click()
        failure = order.locator(".pb-failure")
        expect(failure).to_contain_text("renewed on its host", timeout=START)
        expect(failure).to_contain_text("what you typed is kept")
        assert order.get_attribute("data-state") == "ready", "the calculator itself goes on"
        button = failure.get_by_role("button", name="Load the page again")
        box = button.bounding_box()
        assert box and box["height"] >= 44
        button.click()
        page.wait_for_load_state()
        expect(field(page.locator(".pb-calculator").first, "guests")).to_have_value("41")


def test_without_a_network_the_calendar_says_that(context: BrowserContext, here: Host) -> None:
    context.add_init_script("Object.defineProperty(Navigator.prototype, 'serviceWorker', { get: undefined })")
    page = context.new_page()
    page.goto(here.address + "plan/whole-cake/")
    order = page.locator(".pb-calculator").first
    ready(order)
    here.stop()
    order.locator('button[data-file="timetable.ics"]').click()
    expect(order.locator(".pb-failure")).to_contain_text("there is no network", timeout=START)
    here.start()
    with page.expect_download(timeout=START) as written:
        order.locator('button[data-file="timetable.ics"]').click()
    assert Path(written.value.path()).read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")
