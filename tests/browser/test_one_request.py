"""What is asked is asked once, and nothing before it is wanted: a request sent twice is worked out twice, and may end a healthy worker."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.helpers import START, Bench, field, figure, ready

COUNTED = """(() => {
    window.pbSent = [];
    window.pbAsked = [];
    const send = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (message, ...given) {
        if (message?.kind === "compute") {
            window.pbSent.push(message.id);
            window.pbAsked.push(message.inputs);
        }
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


def test_an_untouched_page_asks_for_its_answer_and_a_little_more(bench: Bench) -> None:
    """The more, when nothing else is to be done, makes ready what a first edit would wait for; then the page is still, and as it was."""
    bench.page.add_init_script(COUNTED)
    swags = bench.open("techniques/swags/", "swags")
    expect(swags).to_have_attribute("data-state", "ready")
    shown = swags.locator(".pb-answer").inner_html()
    bench.page.wait_for_function("() => new Set(window.pbAsked.map((asked) => asked.units)).size > 1")
    sent = 0
    while sent != (now := bench.page.evaluate("window.pbSent.length")):
        sent = now
        bench.page.wait_for_timeout(1000)
    asked = bench.page.evaluate("window.pbAsked")
    assert [each.get("units") for each in asked[:2]] == ["metric", "us"]
    assert len({str(each) for each in asked}) == len(asked) <= 100
    assert swags.locator(".pb-answer").inner_html() == shown
    expect(swags).to_have_attribute("data-state", "ready")


def test_what_is_typed_ends_what_was_asked_for_nobody(bench: Bench) -> None:
    bench.page.add_init_script(COUNTED)
    swags = bench.open("techniques/swags/", "swags")
    bench.page.wait_for_function("() => window.pbSent.length > 3")
    field(swags, "side").fill("61 cm")
    bench.page.wait_for_function("() => window.pbAsked.some((asked) => asked.side === '61 cm')")
    count = bench.page.evaluate("window.pbSent.length")
    bench.page.wait_for_timeout(1000)
    assert bench.page.evaluate("window.pbSent.length") <= count + 1


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
