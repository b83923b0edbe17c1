"""A real browser, one fresh context a test. Whatever the test is about, it fails when a request leaves the site or a script throws."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, expect, sync_playwright

from tests.browser.helpers import START, Bench

AS_READERS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
# Most tests start Python, ask it little and end: a third of their work would be the second compilation of WebAssembly, for speed that they never
# come to use. The answers are the same without it. What works long, such as test_soak.py, takes the browser as readers have it.
ARGUMENTS = [*AS_READERS, "--js-flags=--no-wasm-tier-up --no-wasm-dynamic-tiering"]

# Whatever is waited for, by whichever test, may take as long on a machine that has much else to do.
expect.set_options(timeout=START)


def make_patient(running: Browser) -> Browser:
    """Let whatever a page of this browser waits for take as long as on a busy machine."""
    make = running.new_context

    def make_context(**options: Any) -> BrowserContext:
        made = make(**options)
        made.set_default_timeout(START)
        return made

    running.new_context = make_context  # type: ignore[method-assign]
    return running


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Browser]:
    """One Chromium for the whole run."""
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=chromium, args=ARGUMENTS)
        yield make_patient(running)
        running.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A context with nothing kept in it."""
    fresh = browser.new_context(viewport={"width": 1280, "height": 800})
    yield fresh
    fresh.close()


@pytest.fixture
def bench(browser: Browser, address: str) -> Iterator[Bench]:
    """A page that is watched. It saves nothing for offline use, which would take most of the time of most tests."""
    fresh = browser.new_context(viewport={"width": 1280, "height": 800}, service_workers="block")
    made = Bench(fresh.new_page(), address)
    made.watch()
    yield made
    fresh.close()
    assert made.foreign == [], "requests left the site"
    if not made.allowed_errors:
        assert made.errors == [], "scripts threw"
