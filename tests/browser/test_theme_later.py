"""Where a calculator stands, the theme's script waits for the first answer, but not for ever, and not when the reader begins to do something."""

from __future__ import annotations

import re
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, Route

from tests.browser.helpers import START, THEME, Bench, wait_for_idle, wait_until
from tests.browser.hosts import host

SWAGS = "techniques/swags/"
NO_SECOND = """() => {
    const timer = window.setTimeout;
    window.setTimeout = (act, after, ...more) => (after === 1000 ? 0 : timer(act, after, ...more));
}"""


# What makes the browser restyle the whole page, whenever it is written: by the script itself, or at its wish.
RESTYLED = """addEventListener("DOMContentLoaded", () => {
    window.stylings = [];
    const watch = new MutationObserver((changes) => {
        const other = changes.filter((each) => each.target.nodeName === "META" || each.oldValue !== each.target.getAttribute(each.attributeName));
        window.stylings.push(...other.map((each) => `${each.target.nodeName} ${each.attributeName}`));
    });
    const watched = { attributeFilter: ["class", "content", "data-md-color-switching"], attributeOldValue: true };
    for (const name of ["html", "body", "meta[name=color-scheme]"]) watch.observe(document.querySelector(name), watched);
}, { once: true })"""


def without_python(page: Page) -> None:
    """Let no worker start."""
    page.route("**/worker.js", lambda route: route.abort())


def is_there(bench: Bench) -> bool:
    """Whether the theme's script was asked for."""
    return bool(bench.page.evaluate("() => document.querySelector('script[src*=\"/bundle.\"]') !== null"))


def test_it_comes_after_the_first_answer(bench: Bench) -> None:
    bench.page.add_init_script(f"({NO_SECOND})()")
    held: list[Route] = []
    bench.page.context.route("**/*.wasm", lambda route: held.append(route))  # no answer before it is let go
    bench.page.goto(bench.address + SWAGS)
    wait_until(bench.page, lambda: held, "Python was not asked for")
    wait_for_idle(bench.page)
    assert not is_there(bench)
    for route in held:
        route.continue_()
    bench.page.wait_for_function(THEME, timeout=START)
    assert bench.page.evaluate("() => window.pbEarly.lost"), "the worker has been taken over by then"
    assert bench.calculator("swags").get_attribute("data-way") == "snapshot"


def test_it_comes_at_the_first_key(bench: Bench) -> None:
    bench.allowed_errors = True
    bench.page.add_init_script(f"({NO_SECOND})()")
    without_python(bench.page)
    bench.page.goto(bench.address + SWAGS)
    assert not is_there(bench)
    bench.page.keyboard.press("Tab")
    assert is_there(bench)
    bench.page.wait_for_function(THEME)


def test_it_comes_by_itself_where_python_does_not_start(bench: Bench) -> None:
    bench.allowed_errors = True
    without_python(bench.page)
    bench.page.goto(bench.address + SWAGS)
    bench.page.wait_for_function(THEME)


def test_it_has_the_page_styled_anew_only_for_other_colours(bench: Bench) -> None:
    bench.allowed_errors = True
    without_python(bench.page)
    bench.page.add_init_script(RESTYLED)
    bench.page.goto(bench.address + SWAGS)
    bench.page.wait_for_function(THEME)
    wait_for_idle(bench.page)
    schemes = "() => [...document.querySelectorAll('meta[name=color-scheme]')].map((each) => each.content)"
    assert bench.page.evaluate("() => window.stylings") == []
    assert bench.page.evaluate(schemes) == ["light"]
    bench.page.evaluate("() => document.querySelector('input[data-md-color-scheme=slate]').click()")
    bench.page.wait_for_function("() => window.stylings.filter((each) => each === 'BODY data-md-color-switching').length === 2")
    assert bench.page.evaluate(schemes) == ["dark"]
    bench.page.reload()
    bench.page.wait_for_function(THEME)
    assert bench.page.evaluate(schemes) == ["dark"], "what the reader chose"


def test_it_comes_in_the_end_where_it_was_lost_on_the_way(bench: Bench) -> None:
    bench.allowed_errors = True
    bench.page.route("**/bundle.*.js", lambda route: route.abort(), times=1)
    bench.page.goto(bench.address + SWAGS)
    bench.page.wait_for_function(THEME, timeout=START)
    assert bench.page.evaluate("() => 'document$' in window")


def test_it_waits_for_the_end_of_a_page_that_comes_slowly(context: BrowserContext, site: Path) -> None:
    """It reads its settings from the end of the page, and throws where they are not there yet."""
    with host(site) as made:
        made.types[""] = "text/html; charset=utf-8"
        made.halved = re.compile(r"^techniques/swags/$")
        page = context.new_page()
        thrown: list[str] = []
        page.on("pageerror", lambda error: thrown.append(str(error)))
        page.goto(made.address + SWAGS, wait_until="commit")
        page.wait_for_function("() => document.querySelector('meta[name=pb-theme]')")
        page.keyboard.press("Tab")
        page.wait_for_function("() => window.pbEarly")
        assert page.evaluate("() => [document.readyState, document.getElementById('__config')]") == ["loading", None]
        assert page.evaluate("() => document.querySelector('script[src*=\"/bundle.\"]')") is None
        made.let_go()
        page.wait_for_function(THEME, timeout=START)
        assert thrown == []


def test_it_comes_when_a_link_has_started_python_before(bench: Bench) -> None:
    for _ in range(3):  # either may be first
        bench.page.goto("about:blank")
        bench.page.goto(f"{bench.address}{SWAGS}#swags:side=50%20cm")
        bench.page.wait_for_function(THEME, timeout=START)


def test_a_page_without_a_calculator_does_not_wait(bench: Bench) -> None:
    bench.page.goto(bench.address + "about/")
    assert bench.page.evaluate("() => 'document$' in window")
