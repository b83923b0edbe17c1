"""Every page is opened once, as it was built, and read in several ways: by axe, for the contrast of its text in both colour schemes, and, as
wide as a telephone, for the words in its drawings.

Our own scripts are kept away, so that nothing is computed meanwhile; tests/browser/test_accessible.py has the live calculators. The theme's script
is there, and has done what it does to a page.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.axe import BY_COLOUR, RULES, complaints
from tests.browser.helpers import START, THEME, wait_for_rest
from tests.browser.test_labels import LABELS, TELEPHONE, UNFOLD, faults

DESK = {"width": 1280, "height": 800}  # CSS px
SCHEMES = {"light": "default", "dark": "slate"}
AWAY = ("**/assets/js-*/**", "**/search/**", "**/sitemap.xml")  # our scripts, and what only serves searching and changing pages


@dataclass
class Read:
    """What was found on all pages."""

    axe: list[str] = field(default_factory=list)
    contrast: dict[str, list[str]] = field(default_factory=lambda: {scheme: [] for scheme in SCHEMES})
    labels: list[str] = field(default_factory=list)
    drawings: int = 0
    pages: list[str] = field(default_factory=list)


def every_page(site: Path) -> list[str]:
    """The address of every page."""
    return sorted(file.parent.relative_to(site).as_posix() + "/" for file in site.rglob("index.html"))


def scheme_of(page: Page) -> str:
    """The colour scheme that the page has."""
    return str(page.evaluate("() => document.body.dataset.mdColorScheme"))


def darken(page: Page) -> None:
    """Change to the evening colours as a reader does, without reloading the page; the next page does not know of it."""
    page.evaluate(
        """() => {
            document.querySelector('input[data-md-color-scheme=slate]').click();
            localStorage.clear();
            for (const each of document.getAnimations()) if (each instanceof CSSTransition) each.finish(); // colours change by and by
        }"""
    )
    wait_for_rest(page)


def read_page(page: Page, path: str, has_words: bool, read: Read) -> None:
    """Note all that is wrong with the page that is open."""
    # Where there is a calculator the theme's script comes later, but at once when the page is touched.
    page.evaluate("() => { dispatchEvent(new Event('scroll')) }")
    page.wait_for_function(THEME, timeout=START)
    assert scheme_of(page) == SCHEMES["light"]
    for complaint in complaints(page, RULES, also=(*BY_COLOUR, "target-size")):
        (read.contrast["light"] if complaint.rule in BY_COLOUR else read.axe).append(f"{path}: {complaint}")
    darken(page)
    assert scheme_of(page) == SCHEMES["dark"]
    read.contrast["dark"] += [f"{path}: {complaint}" for complaint in complaints(page, (), also=BY_COLOUR)]
    if has_words:
        page.set_viewport_size(TELEPHONE)
        page.evaluate(
            "() => { const all = new CSSStyleSheet(); all.replaceSync('* { content-visibility: visible !important }'); "
            "document.adoptedStyleSheets = [...document.adoptedStyleSheets, all]; }"
        )
        page.evaluate(UNFOLD)
        page.evaluate("() => document.fonts.ready.then(() => true)")
        wait_for_rest(page)
        drawings = page.evaluate(LABELS)
        read.drawings += len(drawings)
        read.labels += faults(path, drawings)
        page.set_viewport_size(DESK)


@pytest.fixture(scope="module")
def read(browser: Browser, address: str, site: Path) -> Read:
    """What was found on all pages."""
    told = Read()
    context = browser.new_context(viewport=DESK, service_workers="block")
    for pattern in AWAY:
        context.route(pattern, lambda route: route.abort())
    page = context.new_page()
    for path in every_page(site):
        page.goto(address + path.removeprefix("./"))
        read_page(page, path, "<text" in (site / path / "index.html").read_text(encoding="utf-8"), told)
        told.pages.append(path)
    context.close()
    return told


def test_axe_on_every_page(read: Read) -> None:
    assert not read.axe, "\n".join(read.axe)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_text_stands_out_seven_to_one_on_every_page(read: Read, scheme: str) -> None:
    assert not read.contrast[scheme], "\n".join(read.contrast[scheme])


def test_labels_on_every_page(read: Read) -> None:
    assert not read.labels, "\n".join(read.labels)
    assert read.drawings >= 60, "drawings with words in the handbook"


def test_no_page_is_left_out(read: Read, site: Path) -> None:
    assert len(read.pages) == len(set(read.pages)) == len(list(site.rglob("index.html")))
