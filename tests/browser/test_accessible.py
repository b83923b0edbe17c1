"""axe finds nothing to complain of, at rest and with mistakes on the page, in both colour schemes; targets are large enough."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.helpers import Bench, field, ready
from tests.conftest import ROOT, lacking

AXE = ROOT / "build" / "npm" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def complaints(bench: Bench) -> list[str]:
    """What axe has to say of the page."""
    if not AXE.is_file():
        lacking("axe-core is not installed: python3 tools/handbook.py test")
    bench.page.evaluate(AXE.read_text(encoding="utf-8"))
    # A drawing is one picture with a title and a description; the thousand strokes in it are nothing to axe, but take it minutes.
    bench.page.evaluate("() => document.querySelectorAll('svg[role=img] > :not(title, desc)').forEach(stroke => stroke.remove())")
    found = bench.page.evaluate("rules => axe.run(document, { runOnly: rules })", RULES)
    return [f"{fault['id']}: {node['target']} {node['failureSummary'][:200]}" for fault in found["violations"] for node in fault["nodes"]]


def every_page(site: Path) -> list[str]:
    """The address of every page."""
    return sorted(file.parent.relative_to(site).as_posix() + "/" for file in site.rglob("index.html"))


def test_axe_on_every_page(browser: Browser, address: str, site: Path) -> None:
    """As they are built, before our own scripts; the live calculators come below."""
    context = browser.new_context(service_workers="block")
    context.route("**/assets/js-*/**", lambda route: route.abort())
    made = Bench(context.new_page(), address)
    found = []
    for path in every_page(site):
        made.page.goto(address + path.removeprefix("./"))
        found += [f"{path}: {complaint}" for complaint in complaints(made)]
    context.close()
    assert found == []


def test_axe_on_the_live_order(bench: Bench) -> None:
    bench.open("plan/whole-cake/", "order")
    assert complaints(bench) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_with_mistakes_on_the_page(bench: Bench, scheme: str) -> None:
    bench.page.emulate_media(color_scheme=scheme)
    swags = bench.open("techniques/swags/", "swags")
    field(swags, "side").fill("abc")
    field(swags, "side").press("Enter")
    expect(swags.locator(".pb-summary")).to_be_visible()
    assert complaints(bench) == []


def test_targets_are_a_finger_wide(bench: Bench) -> None:
    """What is touched in a calculator is at least 44 px high and wide, or has a label that is."""
    bench.page.set_viewport_size({"width": 390, "height": 844})
    swags = bench.open("techniques/swags/", "swags")
    ready(swags)
    small = swags.evaluate(
        """root => [...root.querySelectorAll("button, input, select, textarea, summary, .pb-tools label")]
            .filter(e => e.offsetParent && !["radio", "checkbox"].includes(e.type))
            .map(e => [e.className || e.name || e.tagName, e.getBoundingClientRect()])
            .filter(([, box]) => box.width < 43.5 || box.height < 43.5)
            .map(([name, box]) => `${name}: ${box.width} x ${box.height}`)"""
    )
    assert small == []


@pytest.mark.parametrize("width", [320, 390, 768, 1024, 1280])
def test_nothing_sticks_out_sideways(bench: Bench, width: int) -> None:
    """Reflow: no page scrolls sideways, down to 320 px (a page at 1280 px and 400 %)."""
    bench.page.set_viewport_size({"width": width, "height": 800})
    bench.open("techniques/swags/", "swags")
    assert bench.page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0
