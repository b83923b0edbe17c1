"""Typing before Python runs is kept, and computed when it does; so is what was typed on an earlier visit."""

from __future__ import annotations

import threading

from playwright.sync_api import Route, expect

from tests.browser.helpers import Bench, field, figure, ready, wait_for_idle, wait_until

SWAGS = "techniques/swags/"


def test_typed_before_ready_is_computed_when_ready(bench: Bench) -> None:
    held = threading.Event()
    waiting: list[Route] = []

    def hold(route: Route) -> None:
        if held.is_set():
            route.continue_()
        else:
            waiting.append(route)

    bench.page.context.route("**/pyodide.asm.wasm", hold)
    swags = bench.open(SWAGS, "swags", wait=False)
    built = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("80 cm")
    expect(swags).to_have_attribute("data-state", "starting")
    expect(swags.locator(".pb-tools > .pb-status")).to_contain_text("Starting")
    assert figure(swags, "length_total").inner_text() == built
    assert field(swags, "side").input_value() == "80 cm"
    wait_until(bench.page, lambda: waiting, "the wasm was not asked for")
    held.set()
    for route in waiting:
        route.continue_()
    ready(swags)
    expect(figure(swags, "length_total")).not_to_have_text(built)
    assert field(swags, "side").input_value() == "80 cm"


def test_reload_keeps_what_was_typed(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    example = field(swags, "side").input_value()
    built = figure(swags, "width").inner_text()
    field(swags, "side").fill("81 cm")
    expect(figure(swags, "width")).not_to_have_text(built)
    shown = figure(swags, "width").inner_text()
    bench.page.reload()
    swags = bench.calculator("swags")
    assert field(swags, "side").input_value() == "81 cm"
    expect(figure(swags, "width")).to_have_text(shown)
    swags.get_by_role("button", name="Back to the page’s example").click()
    assert field(swags, "side").input_value() == example
    expect(figure(swags, "width")).to_have_text(built)
    swags.get_by_role("button", name="Undo").click()
    assert field(swags, "side").input_value() == "81 cm"
    swags.get_by_role("button", name="Redo").click()
    assert field(swags, "side").input_value() == example
    swags.get_by_role("button", name="Undo").click()
    swags.get_by_role("button", name="Back to the page’s example").click()
    bench.page.reload()
    assert field(bench.calculator("swags"), "side").input_value() == example


def test_python_starts_only_where_there_is_a_calculator(bench: Bench) -> None:
    asked: list[str] = []
    bench.page.on("request", lambda request: asked.append(request.url))
    bench.page.goto(bench.address + "learn/")
    bench.can_change_pages()
    wait_for_idle(bench.page)
    assert [url for url in asked if "/assets/runtime/" in url] == []
    assert bench.workers == []
