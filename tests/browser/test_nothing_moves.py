"""What is on a page stays where it is while the scripts arrive, so that a press goes where it was meant."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Route, expect

from tests.browser.helpers import START, THEME, Bench, ready, wait_for_paint
from tests.browser.hosts import host
from tests.browser.test_offline import BY_HAND

WATCH = """
    window.moved = [];
    new PerformanceObserver((seen) => {
        for (const each of seen.getEntries()) if (!each.hadRecentInput)
            moved.push([each.value, ...each.sources.map((from) => from.node?.className ?? from.node?.nodeName)]);
    }).observe({ type: "layout-shift", buffered: true });
"""

SCRIPTS = re.compile(r"/(handbook|worker|bundle\.\w+\.min)\.js$")


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("path", ["techniques/swags/", "techniques/coats/", "plan/whole-cake/", "look-up/tips/"])
def test_nothing_moves_while_the_scripts_arrive(bench: Bench, path: str, width: int) -> None:
    """They come after the page has been painted in its own faces; how quick the machine is makes no difference then."""
    held: list[Route] = []
    is_painted = False
    page = bench.page
    page.set_viewport_size({"width": width, "height": 800})
    page.route(SCRIPTS, lambda route: route.continue_() if is_painted else held.append(route))
    page.goto(bench.address + path, wait_until="commit")
    page.wait_for_function("() => document.querySelector('footer') && performance.getEntriesByName('first-contentful-paint').length", timeout=START)
    page.evaluate("() => Promise.all([...document.fonts].map(face => face.load()))")
    wait_for_paint(page)
    page.evaluate(f"() => {{ {WATCH} }}")
    wait_for_paint(page)
    page.evaluate("() => moved.splice(0)")  # what came before, when the faces did
    is_painted = True
    for route in held:
        route.continue_()
    ready(page.locator(".pb-calculator").first)
    page.wait_for_function(THEME, timeout=START)
    wait_for_paint(page)
    assert held
    assert page.evaluate("() => moved") == []


GO_AND_STAY = """async place => {
    const top = () => Math.round(place.getBoundingClientRect().top);
    place.scrollIntoView({ block: "center" });
    const before = top();
    for (let frame = 0; frame < 5; frame += 1) await new Promise(requestAnimationFrame);
    return [before, top()];
}"""


@pytest.mark.parametrize("width", [390, 1280])
def test_what_is_gone_to_stays_there_though_a_drawing_comes_into_view(bench: Bench, width: int) -> None:
    """A press lasts longer than a frame: what moves between finger down and finger up is not pressed at all."""
    page = bench.page
    page.route("**/assets/js-*/**", lambda route: route.abort())
    page.set_viewport_size({"width": width, "height": 800})
    for path in ("techniques/swags/", "look-up/portions/", "plan/coats-and-filling/", "plan/timetable/"):
        page.goto(bench.address + path)
        page.evaluate("() => document.fonts.ready.then(() => true)")
        before, after = page.locator(".pb-units").first.evaluate(GO_AND_STAY)
        assert before == after, path


def test_a_slow_press_before_the_theme_has_come_goes_where_it_was_meant(context: BrowserContext, site: Path) -> None:
    context.add_init_script(BY_HAND)  # the button says otherwise when it saves
    with host(site) as made:
        page = context.new_page()
        page.goto(made.address + "techniques/swags/", wait_until="commit")
        button = page.locator(".pb-offline summary")
        expect(page.locator(".pb-offline")).to_have_attribute("data-state", "unsaved", timeout=START)
        at = button.bounding_box()
        assert at
        page.mouse.move(at["x"] + 20, at["y"] + 20)
        page.mouse.down()
        page.wait_for_function(THEME, timeout=START)
        wait_for_paint(page)
        page.mouse.up()
        assert page.locator(".pb-offline details").get_attribute("open") is not None
        assert button.bounding_box() == at
