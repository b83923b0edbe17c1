"""What is asked is asked once, and nothing before it is wanted: a request sent twice is worked out twice, and may end a healthy worker."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.helpers import START, Bench, field, figure, ready

COUNTED = """(() => {
    window.pbSent = [];
    const send = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (message, ...given) {
        if (message?.kind === "compute") window.pbSent.push(message.id);
        return send.call(this, message, ...given);
    };
})()"""


def test_nothing_is_asked_twice(bench: Bench) -> None:
    """Neither what the page asks by itself when Python is ready, nor what was typed while it started."""
    bench.page.add_init_script(COUNTED)
    swags = bench.open("techniques/swags/", "swags", wait=False)
    for name in ("width", "drop", "repeats"):
        field(swags, name).fill("")
    field(swags, "cutter").fill("10 cm")
    field(swags, "side").fill("50 cm")
    expect(figure(swags, "width")).to_have_text("10 cm", timeout=60_000)
    ready(swags)
    sent = bench.page.evaluate("window.pbSent")
    assert sent
    assert len(sent) == len(set(sent)), sent


def test_an_untouched_page_asks_once(bench: Bench) -> None:
    bench.page.add_init_script(COUNTED)
    swags = bench.open("techniques/swags/", "swags")
    expect(swags).to_have_attribute("data-state", "ready")
    bench.page.wait_for_function("() => window.pbSent.length > 0")
    assert len(bench.page.evaluate("window.pbSent")) == 1


def test_the_index_of_the_search_is_fetched_when_somebody_searches(bench: Bench) -> None:
    """Reading it takes a processor as long as starting Python does, on every page."""
    asked: list[str] = []
    bench.page.on("request", lambda request: asked.append(request.url))
    bench.open("techniques/swags/", "swags")
    assert not [url for url in asked if "search_index" in url]
    bench.page.get_by_role("textbox", name="Search").click()
    bench.page.keyboard.type("rosette")
    expect(bench.page.locator(".md-search-result__item").first).to_be_visible(timeout=START)
    assert len([url for url in asked if "search_index" in url]) == 1
