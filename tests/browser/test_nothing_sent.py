"""Nothing that is typed is ever sent, lost before the scripts come, or typed in vain where they do not."""

from __future__ import annotations

import re
import threading
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from tests.browser.helpers import Bench, field, figure, ready
from tests.browser.hosts import host

SWAGS = "techniques/swags/"
WHOLE = "plan/whole-cake/"
SCRIPT = "**/handbook.js"


class Late:
    """Holds our script back until it is let through."""

    def __init__(self, context: BrowserContext) -> None:
        self._free = threading.Event()
        self._held: list[Route] = []
        context.route(SCRIPT, self._hold)

    def _hold(self, route: Route) -> None:
        if self._free.is_set():
            route.continue_()
        else:
            self._held.append(route)

    def come(self) -> None:
        """Let the script through."""
        self._free.set()
        for route in self._held:
            route.continue_()


@pytest.mark.parametrize("path", [SWAGS, WHOLE])
def test_enter_before_the_script_sends_nothing_and_loses_nothing(context: BrowserContext, address: str, path: str) -> None:
    late = Late(context)
    page = context.new_page()
    asked: list[str] = []
    context.on("request", lambda request: asked.append(f"{request.method} {request.url}"))
    page.goto(address + path, wait_until="commit")
    first = page.locator(".pb-field input[type=text]").first
    first.fill("Quincesecret")
    first.press("Enter")
    page.locator(".pb-submit").first.dispatch_event("click")
    late.come()
    ready(page.locator(".pb-calculator").first)
    assert first.input_value() == "Quincesecret"
    assert page.url == address + path
    assert [line for line in asked if "Quincesecret" in line or line.startswith("POST")] == []


def test_no_field_of_a_calculator_could_be_sent(bench: Bench) -> None:
    for path in (SWAGS, WHOLE):
        bench.open(path)
        assert bench.page.evaluate("() => document.querySelectorAll('.pb-calculator form, .pb-form [name]').length") == 0
        fields = bench.page.locator(".pb-field :is(input, select, textarea)")
        assert fields.count() and fields.evaluate_all("all => all.every(each => each.form === null)")


def test_a_form_that_is_planted_is_not_sent(context: BrowserContext, address: str) -> None:
    page = context.new_page()
    asked: list[str] = []
    context.on("request", lambda request: asked.append(request.url))
    page.goto(address + SWAGS)
    refused = page.evaluate(
        """() => new Promise((resolve) => {
            addEventListener("securitypolicyviolation", (event) => resolve(event.violatedDirective), true);
            const form = document.createElement("form");
            form.innerHTML = "<input name=word value=Quincesecret>";
            document.body.append(form);
            form.submit();
        })"""
    )
    assert refused == "form-action"
    assert not [url for url in asked if "Quincesecret" in url]


def test_early_typing_wins_over_what_was_kept(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("81 cm")
    field(swags, "cutter").fill("9 cm")
    ready(swags)
    example = figure(swags, "length_total").inner_text()
    late = Late(bench.page.context)
    swags = bench.page.locator("#pb-swags")
    bench.page.goto(bench.address + SWAGS, wait_until="commit")
    field(swags, "side").fill("99 cm")
    late.come()
    ready(swags)
    expect(field(swags, "cutter")).to_have_value("9 cm")
    assert field(swags, "side").input_value() == "99 cm"
    expect(figure(swags, "length_total")).not_to_have_text(example)
    bench.page.reload()
    swags = bench.calculator("swags")
    expect(field(swags, "side")).to_have_value("99 cm")


def test_early_typing_is_not_taken_for_the_example(bench: Bench) -> None:
    late = Late(bench.page.context)
    bench.page.goto(bench.address + SWAGS, wait_until="commit")
    swags = bench.page.locator("#pb-swags")
    example = field(swags, "side").get_attribute("value")
    field(swags, "side").fill("99 cm")
    late.come()
    ready(swags)
    assert field(swags, "side").input_value() == "99 cm"
    swags.get_by_role("button", name="Back to the page’s example").click()
    expect(field(swags, "side")).to_have_value(str(example))


def is_shut(page: Page) -> None:
    """The fields cannot be typed into, and the page says why."""
    for name in ("side", "tip"):
        expect(page.locator(f'#pb-swags [data-name="{name}"]')).to_be_disabled()
    told = page.locator("#pb-swags .pb-shut")
    expect(told).to_be_visible()
    expect(told).to_contain_text("load the page again")
    expect(page.locator("#pb-swags .pb-submit")).not_to_be_visible()


def test_without_scripts_the_fields_are_shut_and_say_why(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + SWAGS)
    is_shut(page)
    context.close()


@pytest.mark.parametrize("fault", ["missing", "altered", "wrong type", "broken"])
def test_a_script_that_does_not_come_is_told(browser: Browser, site: Path, fault: str) -> None:
    with host(site) as made:
        context = browser.new_context(service_workers="block")
        page = context.new_page()
        if fault == "missing":
            made.missing = re.compile(r"handbook\.js$")
        elif fault == "altered":
            made.changed = re.compile(r"handbook\.js$")
        elif fault == "wrong type":
            made.types = {".js": "text/html"}
        else:  # an engine that lacks what it needs
            page.add_init_script("delete window.MessageChannel; delete window.Worker; Element.prototype.closest = undefined")
        page.goto(made.address + SWAGS)
        is_shut(page)
        context.close()


def test_a_script_that_neither_comes_nor_fails_is_told_after_a_while_and_no_longer_once_it_comes(context: BrowserContext, address: str) -> None:
    """The words stand in the page and a clock of the style sheet shows them; here that clock is put on."""
    late = Late(context)
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Animation.enable")
    session.send("Animation.setPlaybackRate", {"playbackRate": 0})  # it stands still: a slow machine may take as long to come to the next line
    page.goto(address + SWAGS, wait_until="commit")
    field(page.locator("#pb-swags"), "side").fill("99 cm")
    words = page.locator("#pb-swags .pb-late")
    expect(words).to_have_css("visibility", "hidden")
    clock = """() => document.getAnimations().filter((each) => each.animationName === "pb-late").map((each) => {
        const { delay } = each.effect.getTiming();
        each.finish();
        return delay;
    })"""
    assert page.evaluate(clock) == [20_000]
    expect(words).to_be_visible()
    expect(words).to_have_css("visibility", "visible")
    expect(words).to_contain_text("load the page again")
    late.come()
    ready(page.locator("#pb-swags"))
    expect(words).not_to_be_visible()
    assert field(page.locator("#pb-swags"), "side").input_value() == "99 cm"


def test_with_scripts_nothing_is_shut(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    expect(swags.locator(".pb-shut")).not_to_be_visible()
    expect(field(swags, "side")).to_be_enabled()
    bench.can_change_pages()
    bench.change("techniques/coats/")
    coats = bench.calculator("coats")
    expect(coats.locator(".pb-form")).to_be_enabled()
    expect(coats.locator(".pb-shut")).not_to_be_visible()
