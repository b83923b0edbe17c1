"""A real browser, one fresh context a test. Whatever the test is about, it fails when a request leaves the site or a script throws."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, expect, sync_playwright

from tests.browser.helpers import REHEARSES_ALL, START, Bench

AS_READERS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
# Most tests start Python, ask it little and end: a third of their work would be the second compilation of WebAssembly, for speed that they never
# come to use. The answers are the same without it. What works long, such as test_soak.py, takes the browser as readers have it. Letters are as
# wide in the shell as in the whole browser, whose hinting is none.
ARGUMENTS = [*AS_READERS, "--js-flags=--no-wasm-tier-up --no-wasm-dynamic-tiering", "--font-render-hinting=none"]

# Playwright has Chromium share memory between its processes by files in /tmp, for machines whose /dev/shm is too small. Where it is not, memory is
# quicker: a tenth of the processor's time in all.
SHARED_MEMORY = Path("/dev/shm")
NEEDLESS = ["--disable-dev-shm-usage"] if SHARED_MEMORY.is_dir() and shutil.disk_usage(SHARED_MEMORY).free > 4e9 else []

# A page that nobody touches has ninety cakes cut, so that the browser makes quick what a first edit needs (`#rehearse` in panel.js). This browser
# makes nothing quicker, and the ninety took a third of what a page took in all. Most tests have a few cut, and then the rehearsal ends as it does
# where an answer cannot be had; those that are about it, or about what long use comes to, ask for all of it (`REHEARSES_ALL`).
FEW_CUT = """addEventListener("DOMContentLoaded", async () => {
    if (!document.querySelector(".pb-calculator[data-live]") || REHEARSES_ALL in window) return;
    const { client } = await import(document.querySelector("script[src$='/handbook.js']").src);
    const compute = client.compute.bind(client);
    let left = 3;
    client.compute = (slug, inputs, ...given) => {
        const isRehearsed = slug === "portions" && Object.keys(inputs).join() === "shape,width";
        if (isRehearsed && left === 0) return Promise.reject(new Error("enough has been rehearsed"));
        left -= Number(isRehearsed);
        return compute(slug, inputs, ...given);
    };
}, { once: true });""".replace("REHEARSES_ALL", f'"{REHEARSES_ALL}"')

# Whatever is waited for, by whichever test, may take as long on a machine that has much else to do.
expect.set_options(timeout=START)


def make_patient(running: Browser) -> Browser:
    """Let whatever a page of this browser waits for take as long as on a busy machine, and let it rehearse little."""
    make = running.new_context

    def make_context(**options: Any) -> BrowserContext:
        made = make(**options)
        made.set_default_timeout(START)
        made.add_init_script(FEW_CUT)
        return made

    running.new_context = make_context  # type: ignore[method-assign]
    return running


@pytest.fixture(scope="session")
def browser(shell: str) -> Iterator[Browser]:
    """One Chromium for the whole run: its engine without windows and what belongs to them, which takes a quarter less of the processor."""
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=shell, args=ARGUMENTS, ignore_default_args=NEEDLESS)
        yield make_patient(running)
        running.close()


@pytest.fixture(scope="session")
def whole_browser(browser: Browser, chromium: str) -> Iterator[Browser]:
    """The Chromium that readers have, for tests marked `whole_browser`: the shell lacks a few abilities, such as keeping a screen lit."""
    running = browser.browser_type.launch(executable_path=chromium, args=ARGUMENTS, ignore_default_args=NEEDLESS)
    yield make_patient(running)
    running.close()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A context with nothing kept in it."""
    fresh = browser.new_context(viewport={"width": 1280, "height": 800})
    yield fresh
    fresh.close()


@pytest.fixture
def bench(request: pytest.FixtureRequest, browser: Browser, address: str) -> Iterator[Bench]:
    """A page that is watched. It saves nothing for offline use, which would take most of the time of most tests."""
    running: Browser = request.getfixturevalue("whole_browser") if request.node.get_closest_marker("whole_browser") else browser
    fresh = running.new_context(viewport={"width": 1280, "height": 800}, service_workers="block")
    made = Bench(fresh.new_page(), address)
    made.watch()
    yield made
    fresh.close()
    assert made.foreign == [], "requests left the site"
    if not made.allowed_errors:
        assert made.errors == [], "scripts threw"
