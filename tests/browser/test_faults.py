"""Things that go wrong: each is said in plain words, what was typed stays, and the page still reads."""

from __future__ import annotations

import re

from playwright.sync_api import Route, expect

from tests.browser.helpers import START, Bench, field, figure, ready

SWAGS = "techniques/swags/"
SCRIPTS = re.compile(r"/pyodide\.(asm|trimmed)\.js$")


def test_a_bug_shows_a_plain_message_and_the_others_go_on(bench: Bench) -> None:
    """A calculator that Python does not know stands for any bug: an exception that no one foresaw."""

    def break_first(route: Route) -> None:
        answer = route.fetch()
        route.fulfill(response=answer, body=answer.text().replace('data-calculator="swags"', 'data-calculator="nonesuch"'))

    bench.page.route(f"**/{SWAGS}", break_first)
    swags = bench.open(SWAGS, "swags")
    failure = swags.locator(".pb-failure")
    expect(failure).to_contain_text("What you typed is kept")
    assert "Traceback" not in failure.locator("p").inner_text()
    failure.locator("summary").click()
    expect(failure.locator("pre")).to_contain_text("KeyError")
    field(swags, "side").fill("77 cm")
    assert field(swags, "side").input_value() == "77 cm"
    assert figure(swags, "repeats").is_visible()
    other = bench.open("techniques/coats/", "coats")
    built = figure(other, "final_coat").inner_text()
    field(other, "height").fill("12 cm")
    expect(figure(other, "final_coat")).not_to_have_text(built)


def test_a_damaged_snapshot_means_only_a_slower_start(bench: Bench) -> None:
    bench.page.context.route(re.compile(r"/snapshot-[^/]+$"), lambda route: route.fulfill(status=200, body=b"not a snapshot"))
    swags = bench.open(SWAGS, "swags")
    assert swags.get_attribute("data-way") == "plain"
    built = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("52 cm")
    expect(figure(swags, "length_total")).not_to_have_text(built)
    field(swags, "side").fill("abc")
    field(swags, "side").press("Tab")
    expect(swags.locator('.pb-field[data-input="side"] .pb-problem')).not_to_be_empty()


def test_a_runtime_that_lacks_what_is_needed_means_only_a_slower_start(bench: Bench) -> None:
    """The part of its script that a start from the snapshot uses is not whole: all of it is used instead."""

    def without(route: Route) -> None:
        answer = route.fetch()
        text = answer.text()
        assert "restoreSnapshot" in text
        route.fulfill(response=answer, body=text.replace("restoreSnapshot", "restoreNothing"))

    bench.page.context.route("**/pyodide.trimmed.js", without)
    swags = bench.open(SWAGS, "swags")
    assert swags.get_attribute("data-way") == "plain"
    built = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("52 cm")
    expect(figure(swags, "length_total")).not_to_have_text(built)


def test_a_missing_snapshot_too(bench: Bench) -> None:
    bench.page.context.route(re.compile(r"/snapshot-[^/]+$"), lambda route: route.fulfill(status=404, body="gone"))
    swags = bench.open(SWAGS, "swags")
    assert swags.get_attribute("data-way") == "plain"


def test_without_the_worker_that_unpacks_the_other_unpacks(bench: Bench) -> None:
    asked: list[str] = []
    bench.page.context.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    bench.page.context.route("**/inflate.js", lambda route: route.fulfill(status=404, body="gone"))
    swags = bench.open(SWAGS, "swags")
    assert swags.get_attribute("data-way") == "snapshot"
    assert "inflate.js" in asked


def test_without_room_for_the_runtime_the_page_says_so_soon(bench: Bench) -> None:
    """Pyodide itself would wait for ever: a tablet that is out of memory refuses the runtime after it was compiled."""

    refusing = """const instantiate = WebAssembly.instantiate;
        WebAssembly.instantiate = async (what, imports) => {
            if (what instanceof WebAssembly.Module && WebAssembly.Module.exports(what).length > 100) throw new Error("no room");
            return instantiate(what, imports);
        };"""

    def refuse(route: Route) -> None:
        answer = route.fetch()
        route.fulfill(response=answer, body=refusing + answer.text())

    bench.allowed_errors = True
    bench.page.context.route("**/worker.js", refuse)
    swags = bench.open(SWAGS, "swags", wait=False)
    field(swags, "side").fill("70 cm")
    expect(swags).to_have_attribute("data-state", "failed", timeout=START)
    assert field(swags, "side").input_value() == "70 cm"


def test_without_the_runtime_the_page_still_reads(bench: Bench) -> None:
    bench.allowed_errors = True
    bench.page.clock.install()
    bench.page.context.route(SCRIPTS, lambda route: route.fulfill(status=404, body="gone"))
    swags = bench.open(SWAGS, "swags", wait=False)
    field(swags, "side").fill("70 cm")
    expect(swags).to_have_attribute("data-state", "failed", timeout=START)
    expect(swags.locator(".pb-failure")).to_contain_text("did not start")
    assert field(swags, "side").input_value() == "70 cm"
    assert figure(swags, "repeats").is_visible()
    bench.page.context.unroute(SCRIPTS)
    bench.page.clock.fast_forward(5200)  # a start that has failed is tried again, but not at once
    field(swags, "side").fill("71 cm")
    ready(swags)
    expect(swags.locator(".pb-failure")).to_have_count(0)


def test_the_example_is_struck_only_where_something_else_is_typed(bench: Bench) -> None:
    bench.allowed_errors = True
    bench.page.context.route(SCRIPTS, lambda route: route.fulfill(status=404, body="gone"))
    swags = bench.open(SWAGS, "swags", wait=False)
    field(swags, "side").focus()
    expect(swags).to_have_attribute("data-state", "failed", timeout=START)
    answer = swags.locator(".pb-answer")
    expect(answer).not_to_have_attribute("data-stale", "")
    field(swags, "side").fill("70 cm")
    expect(answer).to_have_attribute("data-stale", "")
    field(swags, "side").fill("66 cm")
    expect(answer).not_to_have_attribute("data-stale", "")


def test_a_dead_worker_is_started_again_once_and_the_question_asked_again(bench: Bench) -> None:
    bench.allowed_errors = True
    swags = bench.open(SWAGS, "swags")
    (first,) = bench.workers
    first.evaluate("() => { setTimeout(() => { throw new Error('the worker is dead') }) }")
    expect(swags).to_have_attribute("data-state", "starting")
    built = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("82 cm")
    ready(swags)
    expect(figure(swags, "length_total")).not_to_have_text(built)
    (second,) = bench.workers
    assert second is not first
