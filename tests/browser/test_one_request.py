"""What is asked is asked once, and nothing before it is wanted: a request sent twice is worked out twice, and may end a healthy worker."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.helpers import START, Bench, field, figure, ready, wait_for_idle

COUNTED = """(() => {
    window.pbSent = [];
    window.pbAsked = [];
    window.pbAnswered = 0;
    const send = Worker.prototype.postMessage;
    const heard = new WeakSet();
    Worker.prototype.postMessage = function (message, ...given) {
        if (message?.kind === "compute") {
            if (!heard.has(this)) this.addEventListener("message", (event) => { window.pbAnswered += event.data.kind === "answer"; });
            heard.add(this);
            window.pbSent.push(message.id);
            window.pbAsked.push(message.inputs);
        }
        return send.call(this, message, ...given);
    };
})()"""


def asked_until_still(bench: Bench) -> int:
    """How many requests there were when all were answered and none followed although the browser had nothing else to do."""
    sent = -1
    while sent != (now := bench.page.evaluate("window.pbSent.length")):
        sent = now
        bench.page.wait_for_function("() => window.pbAnswered === window.pbSent.length", timeout=START)
        wait_for_idle(bench.page)
    return int(sent)


def test_nothing_is_asked_twice(bench: Bench) -> None:
    """Neither what the page asks by itself when Python is ready, nor what was typed while it started."""
    bench.page.add_init_script(COUNTED)
    swags = bench.open("techniques/swags/", "swags", wait=False)
    for name in ("width", "drop", "repeats"):
        field(swags, name).fill("")
    field(swags, "cutter").fill("7.5 cm")
    field(swags, "side").fill("66 cm")
    expect(figure(swags, "width")).to_have_text("7.3 cm")
    ready(swags)
    sent = bench.page.evaluate("window.pbSent")
    assert sent
    assert len(sent) == len(set(sent)), sent


def test_an_untouched_page_asks_for_its_answer_and_a_little_more(bench: Bench) -> None:
    """The more, when nothing else is to be done, makes ready what a first edit would wait for; then the page is still, and as it was."""
    bench.rehearse_all()
    bench.page.add_init_script(COUNTED)
    swags = bench.open("techniques/swags/", "swags")
    expect(swags).to_have_attribute("data-state", "ready")
    shown = swags.locator(".pb-answer").inner_html()
    bench.page.wait_for_function("() => new Set(window.pbAsked.map((asked) => asked.units)).size > 1")
    asked_until_still(bench)
    asked = bench.page.evaluate("window.pbAsked")
    assert [each.get("units") for each in asked[:2]] == ["metric", "us"]
    assert len({str(each) for each in asked}) == len(asked)
    assert 80 < len(asked) <= 100, "all that is worked out ahead, and no more"
    assert swags.locator(".pb-answer").inner_html() == shown
    expect(swags).to_have_attribute("data-state", "ready")


def test_what_is_typed_ends_what_was_asked_for_nobody(bench: Bench) -> None:
    bench.rehearse_all()
    bench.page.add_init_script(COUNTED)
    swags = bench.open("techniques/swags/", "swags")
    bench.page.wait_for_function("() => window.pbSent.length > 3")
    field(swags, "side").fill("61 cm")
    bench.page.wait_for_function("() => window.pbAsked.some((asked) => asked.side === '61 cm')")
    count = bench.page.evaluate("window.pbSent.length")
    assert asked_until_still(bench) <= count + 1


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


def test_no_style_sheet_and_no_face_is_loaded_twice(bench: Bench) -> None:
    """Not when the theme's script comes, and not when the page is changed: until they are back the text stands in another face."""
    asked: list[str] = []
    bench.page.on("request", lambda request: asked.append(request.url))
    bench.open("techniques/swags/", "swags")
    bench.can_change_pages()
    bench.page.locator(".md-sidebar--primary a", has_text="Drop strings").first.click()
    bench.page.wait_for_url("**/strings/")
    ready(bench.page.locator('[data-calculator="strings"]'))
    wait_for_idle(bench.page)
    styles = [url for url in asked if url.endswith((".css", ".woff2"))]
    assert len(styles) > 2
    assert len(set(styles)) == len(styles), styles
