"""How the browser tests speak of a page: its calculators, their fields, figures and messages."""

from __future__ import annotations

import time
from collections.abc import Callable

from playwright.sync_api import Locator, Page, Worker, expect

START = 120_000  # ms; how long anything is waited for: a start of Python takes seconds, but many times as long on a busy machine
THEME = "() => !document.querySelector('meta[name=pb-theme]') || window.pbTheme === 'here'"
# From then on links no longer reload the page.
CHANGES = "performance.getEntriesByType('resource').some(each => each.name.endsWith('/sitemap.xml'))"

REHEARSES_ALL = "pbRehearsesAll"  # a property of the window, for a page that is to work ahead as much as readers' pages do


class Bench:
    """A page of the site with its calculators, and what went wrong on it."""

    def __init__(self, page: Page, address: str) -> None:
        self.page = page
        self.address = address
        self.foreign: list[str] = []
        self.errors: list[str] = []
        self.allowed_errors = False

    def watch(self) -> None:
        """Note requests to elsewhere and scripts that throw."""

        def asked(url: str) -> None:
            if not url.startswith((self.address, "data:", "blob:")):
                self.foreign.append(url)

        self.page.context.on("request", lambda request: asked(request.url))
        self.page.on("pageerror", lambda error: self.errors.append(str(error)))

    def rehearse_all(self) -> None:
        """Let the pages that are opened from now on work ahead as much as readers' pages do."""
        self.page.context.add_init_script(f"window.{REHEARSES_ALL} = true")

    @property
    def workers(self) -> list[Worker]:
        """The workers that run Python; the theme has one of its own for searching."""
        return [worker for worker in self.page.workers if worker.url.endswith("/worker.js")]

    def open(self, path: str, calculator: str = "", wait: bool = True) -> Locator:
        """Open a page; gives its calculator, alive unless `wait` is false, and with the theme's script there, which comes after it."""
        self.page.goto(self.address + path)
        found = self.calculator(calculator, wait)
        if wait:
            self.page.wait_for_function(THEME, timeout=START)
        return found

    def can_change_pages(self) -> None:
        """Wait until the theme changes pages without reloading."""
        self.page.wait_for_function(f"() => {CHANGES}", timeout=START)

    def change(self, path: str) -> None:
        """Follow a link, put into the text, to another page, once pages are changed without reloading.

        The theme shows the new address before the new page: only when the link is gone does the new one stand there. It keeps a page that is
        asked for again.
        """
        if self.page.evaluate("to => new URL(to).href === location.href", self.address + path):
            return
        self.page.evaluate(
            """to => {
                const link = document.createElement("a");
                link.className = "left-behind";
                link.href = to;
                document.querySelector("article").append(link);
                link.click();
            }""",
            self.address + path,
        )
        self.page.wait_for_url(self.address + path)
        self.page.wait_for_function("() => !document.querySelector('a.left-behind')", timeout=START)

    def calculator(self, name: str = "", wait: bool = True) -> Locator:
        """The calculator with that id, or the first of the page."""
        found = self.page.locator(f'.pb-calculator[data-key="{name}"]' if name else ".pb-calculator").first
        if wait:
            ready(found)
        return found


def wait_until(page: Page, condition: Callable[[], object], what: str = "") -> None:
    """Wait for something that the test itself is told of, as requests are; messages of the page are heard meanwhile."""
    end = time.monotonic() + START / 1000
    while time.monotonic() < end:
        if condition():
            return
        page.wait_for_timeout(20)
    raise AssertionError(what or "it did not come to pass")


def wait_for_promise(page: Page, expression: str, arg: object = None, what: str = "") -> None:
    """Wait until what an asynchronous function of the page promises is true; `wait_for_function` would take the promise itself for true."""
    wait_until(page, lambda: page.evaluate(expression, arg), what)


def wait_for_paint(page: Page) -> None:
    """Wait until what has been changed has been laid out and shown."""
    page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")


def wait_for_rest(page: Page) -> None:
    """Wait until nothing is moving any more: a transition can stretch a page for as long as it lasts."""
    wait_for_paint(page)
    page.wait_for_function("() => document.getAnimations().every(each => each.playState !== 'running')", timeout=START)


def wait_for_idle(page: Page) -> None:
    """Wait until the browser has nothing else to do, which is when scripts do what they have put off."""
    page.evaluate("() => new Promise(done => requestIdleCallback(() => requestIdleCallback(done)))")


def edges(root: Locator, selector: str) -> tuple[float, float, float, float]:
    """Left, top, right and lower edge [px] of the first such element in view, read in one step: a drawing may be just replaced."""
    read = """(root, name) => {
        const box = root.querySelector(name)?.getBoundingClientRect();
        return box?.height ? [box.left, box.top, box.right, box.bottom] : null;
    }"""
    found: list[float] = []
    wait_until(root.page, lambda: found.extend(root.evaluate(read, selector) or ()) or found, f"{selector} is not to be seen")
    left, top, right, low = found
    return left, top, right, low


def hold_down(target: Locator) -> None:
    """Press on the middle of something and stay on it; `page.mouse.up()` lets go."""
    target.scroll_into_view_if_needed()
    box = target.bounding_box()
    assert box
    target.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    target.page.mouse.down()


def ready(calculator: Locator) -> None:
    """Wait until the calculator is alive and idle."""
    expect(calculator).to_have_attribute("data-state", "ready", timeout=START)


def field(calculator: Locator, name: str) -> Locator:
    """The control of one input."""
    return calculator.locator(f'[data-name="{name}"]')


def figure(calculator: Locator, name: str) -> Locator:
    """The text of one figure."""
    return calculator.locator(f'.pb-figure[data-figure="{name}"] dd')


def problem(calculator: Locator, name: str) -> Locator:
    """The message beside one input."""
    return calculator.locator(f'.pb-field[data-input="{name}"] > .pb-problem')
