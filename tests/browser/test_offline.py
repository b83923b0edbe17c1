"""Without a network: everything that was saved works, saving is whole or not at all, and every fault is said in plain words."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.conftest import ARGUMENTS
from tests.browser.helpers import CHANGES, START, Bench, field, figure, ready, wait_for_idle, wait_until
from tests.browser.hosts import Host, host, next_build
from tests.browser.test_quotation import made

SWAGS = "techniques/swags/"
COATS = "techniques/coats/"
BY_HAND = "localStorage.setItem('piping-bench:offline', 'off')"  # nothing is saved before its button is pressed, however long that takes
COUNT = """(async () => {
    let kept = 0;
    for (const name of await caches.keys()) kept += (await (await caches.open(name)).keys()).length;
    return kept;
})()"""


@pytest.fixture
def here(site: Path) -> Iterator[Host]:
    """A host for the site as it was built."""
    with host(site) as made:
        yield made


BUILD = """(async () => {
    for (const name of await caches.keys())
        if (name.endsWith(":state")) for (const kept of await (await caches.open(name)).matchAll()) return (await kept.json()).build;
})()"""


def state(page: Page) -> str:
    """What the control says of itself."""
    return page.locator(".pb-offline").get_attribute("data-state") or ""


def wait_for(page: Page, wanted: str) -> None:
    """Wait until the control has come to a state."""
    expect(page.locator(".pb-offline")).to_have_attribute("data-state", wanted)


def panel(page: Page) -> str:
    """What the control says below its button."""
    details = page.locator(".pb-offline details")
    if details.get_attribute("open") is None:
        details.locator("summary").click()
    return page.locator(".pb-offline-panel").inner_text()


def press(page: Page, act: str) -> None:
    """Press one of the control's buttons. Where the page has begun to save by itself meanwhile, as it does after a while, none is there for it."""
    panel(page)
    button = page.locator(f'.pb-offline-panel button[data-act="{act}"]')
    if act == "save":
        button.evaluate_all("all => all.forEach((each) => each.click())")
    else:
        button.click()


def save(page: Page, address: str, path: str = "about/") -> None:
    """Open a page and save the handbook."""
    page.goto(address + path)
    expect(page.locator(".pb-offline")).to_have_attribute("data-state", re.compile("unsaved|saving|saved"))
    press(page, "save")
    wait_for(page, "saved")


def load_and_let_it_save(page: Page, load: Callable[[], object]) -> None:
    """Load a page, let the time pass after which it saves unasked, and wait until it has looked whether it should."""
    with page.expect_response("**/offline.json"):
        load()
        wait_for(page, "unsaved")
        if page.locator(".pb-calculator").count():
            ready(page.locator(".pb-calculator").first)  # nothing is saved while it starts
        page.clock.fast_forward(8000)
    wait_for_idle(page)


def caches(page: Page) -> list[str]:
    """The builds that are kept, whole or in part."""
    return [name for name in page.evaluate("caches.keys()") if not name.endswith(":state")]


def until(page: Page, expression: str, wanted: int | str) -> None:
    """Wait until an expression of the page comes to a value."""
    wait_until(page, lambda: page.evaluate(expression) == wanted, f"{expression} did not come to {wanted!r}")


def build_of(folder: Path) -> str:
    """The name of the build in a folder."""
    told: dict[str, str] = json.loads((folder / "offline.json").read_text())
    return told["build"]


def pages_of(site: Path) -> list[str]:
    """The path of every page."""
    return [path for path, _, _ in json.loads((site / "offline.json").read_text())["files"] if path == "" or path.endswith("/")]


# ---- after one visit --------------------------------------------------------------------------------------------------------


def test_after_one_visit_the_whole_site_works_with_the_network_gone_and_the_browser_restarted(
    browser: Browser, chromium: str, site: Path, here: Host, tmp_path: Path
) -> None:
    """Nothing is pressed: the visit alone saves it. Then every page, one calculator of each kind, the search and a link by hand."""

    def opened() -> BrowserContext:
        return browser.browser_type.launch_persistent_context(str(tmp_path), executable_path=chromium, args=ARGUMENTS)

    first = opened()
    page = first.new_page()
    page.goto(here.address + SWAGS)
    ready(page.locator(".pb-calculator").first)
    wait_for(page, "saved")
    first.close()
    here.stop()

    second = opened()
    page = second.new_page()
    thrown: list[str] = []
    page.on("pageerror", lambda error: thrown.append(str(error)))
    bench = Bench(page, here.address)
    seen: set[str] = set()
    for path in ("", *pages_of(site)):
        text = (site / path / "index.html").read_text(encoding="utf-8")
        if not seen:
            answered = page.goto(here.address + path)
            assert answered is not None and answered.status == 200
            bench.can_change_pages()
        else:
            assert page.evaluate("path => fetch(path).then(answer => answer.text())", here.address + path) == text
            if set(re.findall(r'data-calculator="([^"]+)"', text)) <= seen:
                continue
            bench.change(path)  # as a reader who follows links, so that Python starts once
        expect(page.locator("h1").first).to_be_visible()
        for calculator in page.locator(".pb-calculator").all():
            slug = calculator.get_attribute("data-calculator") or ""
            if slug not in seen:
                seen.add(slug)
                ready(calculator)
                assert calculator.get_attribute("data-way") == "snapshot", "the memory snapshot was not among what was saved"
    assert len(seen) >= 15, seen
    assert state(page) == "saved"

    page.goto(here.address + SWAGS.rstrip("/"))  # an address typed without its slash
    swags = page.locator(".pb-calculator").first
    ready(swags)
    before = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("58 cm")
    expect(figure(swags, "length_total")).not_to_have_text(before)
    page.keyboard.press("Escape")
    page.locator('[name="query"]').click()
    page.locator('[name="query"]').press_sequentially("swag", delay=30)
    expect(page.locator(".md-search-result__item").first).to_be_visible()
    page.goto(here.address + "no/such/page/")
    expect(page.locator("h1")).to_contain_text("not among those that are saved")
    assert thrown == []
    second.close()


def test_a_customers_link_opens_without_a_network_after_one_visit(bench: Bench, browser: Browser, chromium: str, here: Host, tmp_path: Path) -> None:
    """Nothing is pressed: the customer reads the quotation once, and again with the network gone and the browser restarted."""

    def opened() -> BrowserContext:
        return browser.browser_type.launch_persistent_context(str(tmp_path), executable_path=chromium, args=ARGUMENTS)

    bench.open("plan/whole-cake/")
    path, _, words = made(bench).removeprefix(bench.address).partition("#")
    link = f"{here.address}{path}#{words}"
    first = opened()
    page = first.new_page()
    page.goto(link)
    expect(page.locator(".pb-quotation article")).to_contain_text("To pay")
    wait_for(page, "saved")
    told = page.locator(".pb-quotation article").inner_text()
    first.close()
    here.stop()
    second = opened()
    page = second.new_page()
    page.goto(link)
    article = page.locator(".pb-quotation article")
    expect(article).to_contain_text("To pay")
    assert article.inner_text() == told
    assert article.get_by_role("img").evaluate("async image => { await image.decode(); return image.naturalWidth; }") == 400
    assert not [worker for worker in page.workers if "worker.js" in worker.url]
    assert state(page) == "saved"
    second.close()


def test_a_sheet_is_drawn_and_a_calendar_written_without_a_network(context: BrowserContext, site: Path, here: Host) -> None:
    page = context.new_page()
    save(page, here.address)
    here.stop()
    page.goto(here.address + "plan/whole-cake/")
    ready(page.locator(".pb-calculator").first)
    button = page.locator("button.pb-sheet").first
    if not button.count():
        pytest.fail("the whole-cake page offers no sheet")
    with page.expect_download(timeout=START) as drawn:
        button.click()
    assert Path(drawn.value.path()).read_bytes().startswith(b"%PDF-")
    with page.expect_download(timeout=START) as written:
        page.locator('button[data-file="timetable.ics"]').click()
    assert Path(written.value.path()).read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_it_works_under_a_sub_path_and_minds_nothing_beside_it(context: BrowserContext, site: Path) -> None:
    with host(site, "kitchen/bench/") as made:
        page = context.new_page()
        thrown: list[str] = []
        page.on("pageerror", lambda error: thrown.append(str(error)))
        save(page, made.address, SWAGS)
        ready(page.locator(".pb-calculator").first)
        assert page.evaluate("navigator.serviceWorker.getRegistration().then(r => r.scope)") == made.address
        page.goto(f"http://127.0.0.1:{made._port}/elsewhere/")
        assert not page.evaluate("Boolean(navigator.serviceWorker.controller)")
        made.stop()
        page.goto(made.address + COATS)
        coats = page.locator(".pb-calculator").first
        ready(coats)
        page.wait_for_function(f"() => {CHANGES}")
        page.evaluate("() => { window.sameWindow = true }")
        page.locator('.md-sidebar--primary a[href$="crumb-coat/"]').first.evaluate("link => link.click()")
        expect(page.locator("h1")).to_have_text(re.compile("Crumb coat"))
        assert page.evaluate("() => window.sameWindow === true"), "the page was reloaded"
        assert page.url == made.address + "techniques/crumb-coat/"
        assert thrown == []


def test_a_page_that_was_open_all_along_goes_on(context: BrowserContext, site: Path, here: Host) -> None:
    """Saved while the page was open, never loaded again: following a link after the network went works."""
    context.add_init_script(BY_HAND)
    page = context.new_page()
    page.goto(here.address + SWAGS)
    ready(page.locator(".pb-calculator").first)
    wait_for(page, "unsaved")
    press(page, "save")
    wait_for(page, "saved")
    here.stop()
    page.locator('.md-sidebar--primary a[href$="ruched-swag/"]').first.evaluate("link => link.click()")
    expect(page.locator("h1")).to_have_text(re.compile("[Rr]uched swag"))
    ready(page.locator(".pb-calculator").first)


# ---- what the control shows -------------------------------------------------------------------------------------------------


def test_progress_in_megabytes_and_the_date(context: BrowserContext, site: Path, here: Host) -> None:
    total = json.loads((site / "offline.json").read_text())["bytes"]
    here.stuck = re.compile(r"\.wasm$")
    context.add_init_script(BY_HAND)
    page = context.new_page()
    page.goto(here.address + "about/")
    wait_for(page, "unsaved")
    panel(page)
    expect(page.locator(".pb-offline-text")).to_have_text(re.compile(rf"About \d+\.\d MB to fetch, {total / 1e6:.1f} MB on this device"))
    press(page, "save")
    wait_for(page, "saving")
    part = page.locator(".pb-offline-text")
    expect(part).to_have_text(re.compile(rf"^[1-9]\d*\.\d of {total / 1e6:.1f} MB$"))
    bar = page.locator(".pb-offline-bar")
    assert 0 < bar.evaluate("bar => bar.value / bar.max") < 1
    here.stuck = None
    here._free.set()  # the answer that never came breaks off; it is asked for again
    wait_for(page, "saved")
    today = date.today()
    assert f"{today.day} {today:%B %Y}, {total / 1e6:.1f} MB" in panel(page)
    expect(page.locator(".pb-offline-said")).to_contain_text("Saved for offline use")


def test_the_off_switch_takes_everything_but_what_the_reader_made(context: BrowserContext, site: Path, here: Host) -> None:
    page = context.new_page()
    page.clock.install()
    save(page, here.address, SWAGS)
    swags = page.locator(".pb-calculator").first
    ready(swags)
    field(swags, "side").fill("73 cm")
    page.evaluate("localStorage.setItem('piping-bench:paper', 'Letter')")
    press(page, "remove")
    wait_for(page, "unsaved")
    assert page.evaluate("caches.keys()") == []
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(all => all.length)") == 0
    load_and_let_it_save(page, page.reload)
    assert state(page) == "unsaved"
    assert page.evaluate("localStorage.getItem('piping-bench:paper')") == "Letter"
    expect(field(page.locator(".pb-calculator").first, "side")).to_have_value("73 cm")


def test_nothing_is_saved_unasked_for_a_reader_who_saves_data(context: BrowserContext, here: Host) -> None:
    context.add_init_script("Object.defineProperty(navigator, 'connection', { value: { saveData: true } })")
    page = context.new_page()
    page.clock.install()
    load_and_let_it_save(page, lambda: page.goto(here.address + "about/"))
    assert state(page) == "unsaved" and caches(page) == []


def test_the_control_by_keyboard(context: BrowserContext, here: Host) -> None:
    context.add_init_script(BY_HAND)
    page = context.new_page()
    page.goto(here.address + "about/")
    wait_for(page, "unsaved")
    summary = page.locator(".pb-offline summary")
    summary.focus()
    page.keyboard.press("Enter")
    expect(page.locator(".pb-offline-panel")).to_be_visible()
    page.keyboard.press("Tab")
    expect(page.locator('.pb-offline-panel button[data-act="save"]')).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.locator(".pb-offline-panel")).to_be_hidden()
    expect(summary).to_be_focused()


# ---- a newer handbook -------------------------------------------------------------------------------------------------------


def test_an_update_is_whole_announced_and_never_in_mid_work(context: BrowserContext, site: Path, tmp_path: Path) -> None:
    newer = next_build(site, tmp_path / "newer", "0123456789abcdef")
    with host(site) as made:
        page = context.new_page()
        save(page, made.address, SWAGS)
        (old,) = caches(page)
        swags = page.locator(".pb-calculator").first
        ready(swags)
        field(swags, "side").fill("64 cm")
        ready(swags)
        page.evaluate("localStorage.setItem('piping-bench:paper', 'Letter')")
        page.evaluate("() => { window.sameWindow = true }")

        # the host has a newer build, but a file of it is missing: nothing changes, and it is said
        made.folder = newer
        made.stop()
        made.missing = re.compile(r"^assets/css-0123456789abcdef/handbook-all\.css$")
        made.start()
        other = context.new_page()
        other.goto(made.address + SWAGS)
        wait_for(other, "failed")
        assert "The host does not have assets/css-0123456789abcdef/handbook-all.css." in panel(other)
        assert old in caches(other)
        assert context.request.get(made.address + "offline.json").json()["build"] == build_of(newer)
        made.stop()
        other.goto(made.address + COATS)  # the old one answers, whole
        expect(other.locator("h1")).to_be_visible()
        assert other.locator("#sign").count() == 0
        assert other.evaluate("getComputedStyle(document.body).fontFamily").startswith('"Atkinson')

        # the file is there: the newer one is brought whole, while the first page goes on as it was
        made.missing = None
        made.start()
        asked = len(made.asked)
        other.goto(made.address + SWAGS)
        until(other, BUILD, build_of(newer))
        wait_for(other, "saved")
        brought = [path for path in made.asked[asked:] if "/runtime/" in path]
        assert brought == [], "what had not changed was fetched again"
        expect(page.locator(".pb-offline-notice")).to_be_visible()
        assert state(page) == "newer"
        assert page.evaluate("() => window.sameWindow === true"), "the page was reloaded in mid-work"
        expect(field(swags, "side")).to_have_value("64 cm")
        field(swags, "side").fill("65 cm")
        ready(swags)
        assert old in caches(page), "the older build went while a page ran on it"

        # at the next page it is used, and the work is still there
        page.locator('.md-sidebar--primary a[href$="ruched-swag/"]').first.evaluate("link => link.click()")
        page.wait_for_function("() => !window.sameWindow")
        wait_for(page, "saved")
        page.goto(made.address + SWAGS)
        expect(field(page.locator(".pb-calculator").first, "side")).to_have_value("65 cm")
        assert page.evaluate("localStorage.getItem('piping-bench:paper')") == "Letter"
        until(page, "caches.keys().then(all => all.length)", 2)
        assert old not in caches(page)

        made.stop()
        page.goto(made.address + COATS)
        expect(page.locator("#sign")).to_have_text("0123456789abcdef")


# ---- what goes wrong --------------------------------------------------------------------------------------------------------


def test_saving_goes_on_where_it_was_broken_off(context: BrowserContext, site: Path, here: Host) -> None:
    here.stuck = re.compile(r"\.wasm$")
    context.add_init_script(BY_HAND)
    page = context.new_page()
    page.goto(here.address + "about/")
    wait_for(page, "unsaved")
    press(page, "save")
    files = json.loads((site / "offline.json").read_text())["files"]
    until(page, COUNT, len(files) - 1)
    here.stop()
    wait_for(page, "failed")
    assert "The network went away" in panel(page)
    here.stuck = None
    here.asked.clear()
    here.start()
    press(page, "save")
    wait_for(page, "saved")
    again = [path for path in here.asked if path.startswith(("assets/runtime/", "assets/fonts/", "techniques/", "learn/"))]
    assert len(again) == 1 and again[0].endswith(".wasm"), again


def test_a_full_disk_is_said_and_leaves_nothing_half_done(context: BrowserContext, here: Host) -> None:
    context.add_init_script(BY_HAND)
    page = context.new_page()
    page.goto(here.address + SWAGS)
    ready(page.locator(".pb-calculator").first)
    session = context.new_cdp_session(page)
    session.send("Storage.overrideQuotaForOrigin", {"origin": here.address.rstrip("/"), "quotaSize": 5_000_000})
    wait_for(page, "unsaved")
    press(page, "save")
    wait_for(page, "failed")
    assert "There is not enough room on this device" in panel(page)
    assert caches(page) == []
    session.send("Storage.overrideQuotaForOrigin", {"origin": here.address.rstrip("/")})
    press(page, "save")  # it tries again only when it is told to, so that the button stays where it is
    wait_for(page, "saved")
    page.reload()
    ready(page.locator(".pb-calculator").first)
    wait_for(page, "saved")


@pytest.mark.parametrize(
    ("script", "word"),
    [
        ("Object.defineProperty(Navigator.prototype, 'serviceWorker', { get: undefined }); delete Navigator.prototype.serviceWorker", "private"),
        ("CacheStorage.prototype.has = CacheStorage.prototype.open = () => Promise.reject(new DOMException('no', 'SecurityError'))", "private"),
        ("Object.defineProperty(window, 'isSecureContext', { value: false })", "https"),
    ],
    ids=["no service worker", "no cache", "no https"],
)
def test_a_window_that_keeps_nothing_says_so_and_reads(context: BrowserContext, here: Host, script: str, word: str) -> None:
    context.add_init_script(script)
    page = context.new_page()
    thrown: list[str] = []
    page.on("pageerror", lambda error: thrown.append(str(error)))
    page.goto(here.address + SWAGS)
    wait_for(page, "impossible")
    assert word in panel(page) and "works here as long as there is a network" in panel(page)
    page.keyboard.press("Escape")
    swags = page.locator(".pb-calculator").first
    ready(swags)
    before = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("58 cm")
    expect(figure(swags, "length_total")).not_to_have_text(before)
    assert thrown == []


def test_a_file_changed_on_the_way_is_not_kept(context: BrowserContext, here: Host) -> None:
    here.changed = re.compile(r"^assets/fonts/besley")
    context.add_init_script(BY_HAND)
    page = context.new_page()
    page.goto(here.address + "about/")
    wait_for(page, "unsaved")
    press(page, "save")
    wait_for(page, "failed")
    assert "changed from how it was built" in panel(page)
    page.reload()
    assert not page.evaluate("caches.keys().then(all => all.some(name => name.endsWith(':state')))")


def test_a_network_that_does_not_answer_is_not_waited_for(context: BrowserContext, here: Host) -> None:
    page = context.new_page()
    save(page, here.address)
    page.goto(here.address + SWAGS)
    here.stuck = re.compile(r"")
    page.goto(here.address + COATS)
    expect(page.locator("h1")).to_be_visible()
    ready(page.locator(".pb-calculator").first)


@pytest.mark.parametrize("wrong", ["application/octet-stream", "text/plain", "text/html; charset=utf-8"])
def test_a_host_that_sends_the_wasm_as_something_else(context: BrowserContext, here: Host, wrong: str) -> None:
    here.types[".wasm"] = wrong
    here.headers["X-Content-Type-Options"] = "nosniff"
    page = context.new_page()
    page.goto(here.address + SWAGS)
    swags = page.locator(".pb-calculator").first
    ready(swags)
    assert swags.get_attribute("data-way") == "snapshot"
    before = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("67 cm")
    expect(figure(swags, "length_total")).not_to_have_text(before)


@pytest.mark.parametrize("lost", [r"\.wasm$", r"pyodide\.js$", r"worker\.js$"])
def test_a_runtime_that_is_missing_is_told_of_soon_and_the_page_reads(context: BrowserContext, here: Host, lost: str) -> None:
    here.missing = re.compile(rf"^assets/(runtime|js-).*{lost}")
    page = context.new_page()
    page.goto(here.address + SWAGS)
    swags = page.locator(".pb-calculator").first
    shown = figure(swags, "length_total").inner_text()
    expect(swags).to_have_attribute("data-state", "failed")
    expect(swags.locator(".pb-failure")).to_contain_text("did not start")
    assert figure(swags, "length_total").inner_text() == shown
