"""What is waited for is told: how much of Python has come, that nothing comes, that an answer takes too long; no old figure stands as an answer."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, Route, expect

from tests.browser.helpers import START, Bench, field, figure, ready, wait_for_promise, wait_until
from tests.browser.hosts import Host, host
from tests.browser.test_nothing_moves import WATCH

SWAGS = "techniques/swags/"
MEMORY = re.compile(r"/snapshot-[^/]+$")
COMING = re.compile(r"^\d+\.\d of \d+\.\d MB")

CLIENT = "import(document.querySelector('script[src*=\"handbook.js\"]').src).then(all => all.client)"
HANG = "() => { const until = performance.now() + 1e9; while (performance.now() < until); }"


@pytest.fixture
def here(site: Path) -> Iterator[Host]:
    """A host for the site as it was built."""
    with host(site) as made:
        yield made


def plain(page: Page, address: str) -> Locator:
    """Open swags without a saved copy; gives the calculator."""
    page.goto(address + SWAGS, wait_until="commit")
    return page.locator(".pb-calculator").first


def stopped(context: BrowserContext) -> Page:
    """A page in which time stands still until the test lets it pass."""
    page = context.new_page()
    page.clock.install(time=0)
    page.clock.pause_at(1000)
    return page


def later(page: Page, ms: int) -> None:
    """Let the page believe that time has passed."""
    page.clock.run_for(ms)


def test_megabytes_of_megabytes_while_python_comes(context: BrowserContext, here: Host) -> None:
    """The numbers grow with what comes, nothing moves for it, and they go with the start."""
    here.halved = re.compile(r"/snapshot-[^/]+$")
    page = stopped(context)
    page.add_init_script(WATCH)
    swags = plain(page, here.address)
    expect(swags).to_have_attribute("data-live", "", timeout=START)
    page.evaluate("() => Promise.all([...document.fonts].map(face => face.load()))")
    swags.evaluate("root => root.scrollIntoView()")  # what moves out of sight is not noted
    page.screenshot()  # it has been painted in its own faces, though time stands still in it
    page.evaluate("() => moved.splice(0)")  # what came before, when the faces did
    later(page, 2000)
    expect(swags).to_have_attribute("data-state", "starting")
    wait_for_promise(page, f"() => {CLIENT}.then(client => client.come.bytes > 9e6)")
    number = swags.locator(".pb-wait-number")
    for _ in range(20):
        later(page, 500)
        if number.count() and COMING.match(number.text_content() or ""):
            break
    expect(number).to_have_text(COMING)
    come, _, of = (number.text_content() or "").partition(" of ")
    assert float(come) < float(of.removesuffix(" MB"))
    expect(swags.locator(".pb-wait [role=status]")).to_have_text("Calculator on its way")
    here.let_go()
    page.clock.resume()
    ready(swags)
    expect(swags.locator(".pb-wait")).to_have_count(0)
    assert page.evaluate("() => moved") == []


def test_a_start_may_last_as_long_as_bytes_come_and_is_given_up_when_none_does(context: BrowserContext, here: Host) -> None:
    here.halved = re.compile(r"/snapshot-[^/]+$")
    page = stopped(context)
    swags = plain(page, here.address)
    expect(swags).to_have_attribute("data-live", "", timeout=START)
    later(page, 2000)
    expect(swags).to_have_attribute("data-state", "starting")
    wait_for_promise(page, f"() => {CLIENT}.then(client => client.come.bytes > 9e6)")
    later(page, 12_000)
    expect(swags.locator(".pb-wait [role=status]")).to_contain_text("nothing comes")
    expect(swags.locator(".pb-wait-number")).to_contain_text("without a byte")
    assert swags.get_attribute("data-state") == "starting"
    later(page, 25_000)  # half a minute without a byte: it is begun again
    wait_for_promise(page, f"() => {CLIENT}.then(client => client.starts === 2)")
    here.let_go()
    page.clock.resume()
    ready(swags)


def test_a_worker_that_hangs_is_named_ended_and_started_again_and_old_figures_are_crossed_out(bench: Bench) -> None:
    bench.allowed_errors = True
    swags = bench.open(SWAGS, "swags")
    bench.page.clock.install()
    (first,) = bench.workers
    before = figure(swags, "length_total").inner_text()
    first.evaluate(f"() => {{ setTimeout({HANG}) }}")
    field(swags, "side").fill("82 cm")
    expect(swags).to_have_attribute("data-state", "busy")
    later(bench.page, 5_500)
    expect(swags.locator(".pb-wait [role=status]")).to_contain_text("longer than it should")
    assert figure(swags, "length_total").inner_text() == before
    assert struck(swags)
    held: list[Route] = []  # the memory that the second start asks for waits until what stands there meanwhile has been looked at
    let_go: list[bool] = []
    bench.page.context.route(MEMORY, lambda route: route.continue_() if let_go else held.append(route))
    later(bench.page, 16_000)
    expect(swags).to_have_attribute("data-state", "starting")
    expect(swags.locator(".pb-wait [role=status]")).to_contain_text("was ended; it starts again")
    wait_until(bench.page, lambda: held, "the memory was not asked for")
    assert struck(swags)
    let_go.append(True)
    for route in held:
        route.continue_()
    ready(swags)
    expect(figure(swags, "length_total")).not_to_have_text(before)
    assert not struck(swags)
    assert bench.page.evaluate(f"() => {CLIENT}.then(client => client.starts)") == 2
    expect(swags.locator(".pb-wait")).to_have_count(0)


def test_the_reader_need_not_wait_for_a_worker_that_hangs(bench: Bench) -> None:
    bench.allowed_errors = True
    swags = bench.open(SWAGS, "swags")
    bench.page.clock.install()
    bench.workers[0].evaluate(f"() => {{ setTimeout({HANG}) }}")
    field(swags, "side").fill("82 cm")
    expect(swags).to_have_attribute("data-state", "busy")
    later(bench.page, 5_500)
    button = swags.get_by_role("button", name="Start it again")
    box = button.bounding_box()
    assert box and box["height"] >= 44
    button.click()
    expect(swags).to_have_attribute("data-state", "starting")
    ready(swags)
    assert not struck(swags)


def test_what_hangs_twice_is_not_asked_again_and_never_ready_over_old_figures(bench: Bench) -> None:
    """A calculator that hangs on one input stands for any that does."""

    hang = """addEventListener("message", (event) => {
            if (event.data.inputs?.side === "82 cm") for (;;);
        }, true);"""
    bench.allowed_errors = True
    bench.page.context.route("**/worker.js", lambda route: route.fulfill(response=(got := route.fetch()), body=hang + got.text()))
    swags = bench.open(SWAGS, "swags")
    bench.page.clock.install()
    field(swags, "side").fill("82 cm")
    for _ in range(2):
        expect(swags).to_have_attribute("data-state", "busy", timeout=START)
        later(bench.page, 21_000)
    expect(swags).to_have_attribute("data-state", "failed", timeout=START)
    expect(swags.locator(".pb-failure")).to_contain_text("did not finish this and was ended")
    bench.page.wait_for_function("() => document.querySelector('.pb-failure')", timeout=START)
    assert struck(swags)
    wait_for_promise(bench.page, f"() => {CLIENT}.then(client => client.state === 'ready')")
    assert swags.get_attribute("data-state") == "failed"
    field(swags, "side").fill("83 cm")
    ready(swags)
    expect(swags.locator(".pb-failure")).to_have_count(0)
    assert not struck(swags)


@pytest.mark.parametrize("lost", ["Worker", "WebAssembly", "DecompressionStream"])
def test_a_browser_that_cannot_run_the_calculators_is_told_so(bench: Bench, lost: str) -> None:
    bench.page.add_init_script(f"Object.defineProperty(window, '{lost}', {{ value: undefined }})")
    swags = bench.open(SWAGS, "swags", wait=False)
    expect(swags).to_have_attribute("data-state", "failed", timeout=START)
    expect(swags.locator(".pb-failure")).to_contain_text("do not run here")
    expect(swags.locator(".pb-failure")).to_contain_text("work as usual")
    field(swags, "side").fill("82 cm")
    assert swags.get_attribute("data-state") == "failed"
    assert field(swags, "side").input_value() == "82 cm"


def struck(calculator: Locator) -> bool:
    """Whether the figures are crossed out."""
    return bool(figure(calculator, "length_total").evaluate("dd => getComputedStyle(dd).textDecorationLine === 'line-through'"))
