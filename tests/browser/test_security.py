"""Nothing that a stranger writes becomes markup: not in a field, a link, a file or a kept order; and the policy holds, in the page and as a header.

The planting is done with the policy switched off, so that it is the escaping that is tested and not only the net below it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from urllib.parse import quote

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from tests.browser.helpers import START, Bench, field, figure, ready, wait_until
from tests.browser.hosts import Host, host

SWAGS = "techniques/swags/"
WHOLE = "plan/whole-cake/"
PLANTED = (
    '"><img src=x onerror="window.ran=1">',
    "'><svg onload='window.ran=1'><script>window.ran=1</script>",
    "</title></textarea></script><iframe srcdoc='<script>parent.ran=1</script>'></iframe>",
    "javascript:window.ran=1//]]><![CDATA[",
)
FOREIGN = 'img[src="x"], iframe, object, embed, [onerror], [onload], a[href^="javascript:"], svg script, .pb-calculator script'


@pytest.fixture
def open_context(browser: Browser) -> Iterator[BrowserContext]:
    """A context in which the policy does not hold."""
    made = browser.new_context(viewport={"width": 1280, "height": 800}, bypass_csp=True, service_workers="block")
    yield made
    made.close()


def nothing_ran(page: Page, what: str) -> None:
    """No planted script ran and no planted element stands in the page."""
    assert page.evaluate("() => window.ran") is None, what
    assert page.locator(FOREIGN).count() == 0, what


def unfold(calculator: Locator) -> None:
    """Open all that is folded away."""
    calculator.evaluate("root => root.querySelectorAll('details').forEach(each => { each.open = true })")


def calculators(site: Path) -> dict[str, str]:
    """A page for each kind of calculator."""
    found: dict[str, str] = {}
    for file in sorted(site.rglob("index.html")):
        for slug in re.findall(r'data-calculator="([^"]+)"', file.read_text(encoding="utf-8")):
            found.setdefault(slug, file.parent.relative_to(site).as_posix() + "/")
    return found


PLANT = """async (root, texts) => {
    const isBusy = () => root.dataset.state === "busy"; // from the moment in which a field is changed
    const settled = () => new Promise((done) => {
        const look = () => !isBusy() && (observer.disconnect(), done());
        const observer = new MutationObserver(look);
        observer.observe(root, { attributes: true, attributeFilter: ["data-state"] });
        look();
    });
    let asked = 0;
    const put = (control, text) => {
        control.value = text;
        control.dispatchEvent(new Event("input", { bubbles: true }));
        asked += isBusy();
    };
    const all = [...root.querySelectorAll(".pb-form input, .pb-form textarea")].filter(
        (control) => control.dataset.name && ["text", "textarea"].includes(control.type));
    const every = Math.ceil(all.length / 30); // a long form has the same fields many times over
    for (const [i, control] of all.entries()) {
        if (i % every) continue;
        const before = control.value;
        put(control, texts[i % texts.length]);
        await settled();
        put(control, before);
    }
    for (const text of texts) {
        for (const control of all) put(control, text);
        await settled();
        root.querySelector(".pb-submit").click();
        await settled();
    }
    return [all.length, asked];
}"""


def test_markup_in_every_field(open_context: BrowserContext, site: Path, address: str) -> None:
    """Each text field of each calculator by itself with the others as they were, so that answers are shown that carry it, then all at once.

    From page to page as the theme changes them, so that Python starts once.
    """
    bench = Bench(open_context.new_page(), address)
    page = bench.page
    bench.open(SWAGS)
    bench.can_change_pages()
    planted = 0
    for slug, path in calculators(site).items():
        bench.change(path)
        calculator = page.locator(f'.pb-calculator[data-calculator="{slug}"]').first
        ready(calculator)
        count, asked = calculator.evaluate(PLANT, list(PLANTED))
        assert asked >= min(count, 15), f"{slug} did not answer to what was typed"
        planted += count
        nothing_ran(page, slug)
        values = calculator.locator(".pb-form input, .pb-form textarea").evaluate_all(
            "all => all.filter(e => e.dataset.name && ['text', 'textarea'].includes(e.type)).map(e => e.value)"
        )
        assert set(values) == {PLANTED[3]}, "what was typed is kept as typed"
    assert planted > 60


def test_markup_where_words_are_free(open_context: BrowserContext, address: str) -> None:
    """The name of an order is shown in answers, drawings and buttons: it must be there, letter by letter, as text."""
    page = open_context.new_page()
    page.on("dialog", lambda dialog: dialog.accept())
    page.goto(address + WHOLE)
    order = page.locator(".pb-calculator").first
    ready(order)
    for text in PLANTED:
        field(order, "name").fill(text)
        expect(order.locator(".pb-answer")).to_contain_text(text)
        ready(order)
        nothing_ran(page, text)
        unfold(order)
        order.locator(".pb-keep").first.click()
        expect(order.locator(".pb-kept option", has_text=text[:40])).to_have_count(2)  # the order and its copy
        nothing_ran(page, f"kept as {text}")
    page.reload()
    ready(page.locator(".pb-calculator").first)
    nothing_ran(page, "kept and loaded again")


FOLLOW = """link => new Promise((followed) => {
    const before = location.hash;
    addEventListener("hashchange", () => setTimeout(followed), { once: true });
    location.hash = link;
    if (location.hash === before) followed();
})"""


def test_markup_in_links(open_context: BrowserContext, address: str) -> None:
    page = open_context.new_page()
    for path in (SWAGS, WHOLE):
        page.goto(address + path)
        calculator = page.locator(".pb-calculator").first
        ready(calculator)
        identity = calculator.get_attribute("data-key") or calculator.get_attribute("id")
        for text in PLANTED:
            for link in (
                f"#{identity}:side={quote(text, safe='')}&name={quote(text, safe='')}&units={quote(text, safe='')}",
                f"#{identity}:{quote(text, safe='')}=1",
                f"#{identity}:order={quote(text, safe='')}",
                f"#{quote(text, safe='')}",
                f"#{text}",
            ):
                page.evaluate(FOLLOW, link)
                ready(calculator)
                nothing_ran(page, link)
        page.goto("about:blank")
        page.goto(f"{address}{path}#{identity}:side={quote(PLANTED[0], safe='')}&name={quote(PLANTED[1], safe='')}")
        ready(page.locator(".pb-calculator").first)
        nothing_ran(page, "a link that was opened")


def test_markup_in_a_link_to_an_order_and_in_a_file(open_context: BrowserContext, site: Path, address: str, tmp_path: Path) -> None:
    page = open_context.new_page()
    page.goto(address + WHOLE)
    order = page.locator(".pb-calculator").first
    ready(order)
    identity = order.get_attribute("data-key") or order.get_attribute("id")
    text = (site / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
    evil = re.sub(r'^(\w+ *= *)"[^"\n]*"', lambda found: found[1] + json.dumps(PLANTED[0]), text, flags=re.MULTILINE)
    named = re.sub(r'^(name *= *)"[^"\n]*"', lambda found: found[1] + json.dumps(PLANTED[1]), text, count=1, flags=re.MULTILINE)
    for record in (evil, named, PLANTED[2]):
        packed = page.evaluate(
            """async (text) => {
                const { packed } = await import(document.querySelector("script[src$='/handbook.js']").src);
                return packed(text);
            }""",
            record,
        )
        page.goto("about:blank")
        page.goto(f"{address}{WHOLE}#{identity}:order={packed}")
        order = page.locator(".pb-calculator").first
        ready(order)
        expect(order.locator(".pb-tools > .pb-status")).not_to_be_empty()
        nothing_ran(page, "an order in a link")
        file = tmp_path / "<img src=x onerror=window.ran=1>.toml"
        file.write_text(record, encoding="utf-8")
        order.locator(".pb-tools > .pb-status").evaluate("line => { line.textContent = '' }")
        order.locator(".pb-file").set_input_files(file)
        expect(order.locator(".pb-tools > .pb-status")).not_to_be_empty()
        ready(order)
        nothing_ran(page, "an order in a file")
    page.goto("about:blank")
    page.goto(f"{address}{WHOLE}#{identity}:order={packed[:-9]}")
    ready(page.locator(".pb-calculator").first)


def test_a_reader_can_search_for_markup(open_context: BrowserContext, address: str) -> None:
    page = open_context.new_page()
    page.goto(address + SWAGS)
    page.locator('[name="query"]').click()
    for text in PLANTED:
        page.locator('[name="query"]').fill("")
        expect(page.locator(".md-search-result__meta")).to_have_text("Type to start searching", timeout=START)
        page.locator('[name="query"]').press_sequentially(f"swag {text}", delay=1)
        expect(page.locator(".md-search-result__meta")).to_contain_text("matching documents", timeout=START)
        nothing_ran(page, text)


# ---- the policy ---------------------------------------------------------------------------------------------------------------


def watched(page: Page) -> list[str]:
    """What the policy refuses on a page, as it happens."""
    refused: list[str] = []
    page.expose_function("refusedByPolicy", lambda line: refused.append(line))
    page.add_init_script(
        "addEventListener('securitypolicyviolation', e => refusedByPolicy(`${e.violatedDirective} ${e.blockedURI} ${e.sample}`), true)"
    )
    return refused


def test_no_page_meets_its_own_policy(context: BrowserContext, site: Path, address: str) -> None:
    page = context.new_page()
    refused = watched(page)
    for path in json.loads((site / "offline.json").read_text())["files"]:
        if path[0] == "" or path[0].endswith("/"):
            page.goto(address + path[0])
            page.wait_for_load_state("load")
    assert refused == []


def test_what_is_written_into_a_page_does_not_run(context: BrowserContext, address: str) -> None:
    page = context.new_page()
    refused = watched(page)
    page.goto(address + SWAGS)
    ready(page.locator(".pb-calculator").first)
    page.evaluate(
        """() => {
            const script = document.createElement("script");
            script.textContent = "window.ran = 1";
            document.body.append(script);
            const holder = document.createElement("div");
            holder.innerHTML = '<img src="data:," onerror="window.ran = 2"><a id="evil" href="javascript:window.ran=3">x</a>';
            document.body.append(holder);
            document.getElementById("evil").click();
            const far = document.createElement("script");
            far.src = "http://127.0.0.1:9/x.js";
            document.body.append(far);
            const frame = document.createElement("iframe");
            frame.src = "data:text/html,<p>x";
            document.body.append(frame);
            setTimeout("window.ran = 4", 0);
            setTimeout(() => { try { window.ran = new Function("return 5")(); } catch {} }, 0); // later: in here the tester may do more
            fetch("http://127.0.0.1:9/").catch(() => {});
        }"""
    )
    for directive in ("script-src-elem", "script-src-attr", "frame-src", "connect-src", "script-src"):
        wait_until(page, lambda of=directive: any(line.startswith(f"{of} ") for line in refused), f"{directive} was not refused")
    assert page.evaluate("() => window.ran") is None


@pytest.fixture
def strict(site: Path) -> Iterator[Host]:
    """A host that sends the headers of the example in the handbook."""
    page = unescape((site / "about" / "hosting" / "index.html").read_text(encoding="utf-8"))
    policy = re.search(r"Content-Security-Policy: ([^\n<]+frame-ancestors 'none')", page)
    assert policy
    with host(site) as made:
        made.headers = {"Content-Security-Policy": policy[1], "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer"}
        yield made


@pytest.mark.parametrize("missing", ["", r"snapshot-"], ids=["snapshot", "plain"])
def test_the_headers_of_the_example_let_the_handbook_work(context: BrowserContext, strict: Host, missing: str) -> None:
    """The worker is then under the policy too: both ways of starting, a sum, a sheet, and saving for offline use."""
    strict.missing = re.compile(missing) if missing else None
    page = context.new_page()
    refused = watched(page)
    problems: list[str] = []
    page.on("console", lambda message: problems.append(message.text) if "Content Security Policy" in message.text else None)
    page.goto(strict.address + WHOLE)
    order = page.locator(".pb-calculator").first
    ready(order)
    assert order.get_attribute("data-way") == ("plain" if missing else "snapshot")
    with page.expect_download(timeout=START) as drawn:
        order.locator("button.pb-sheet").first.click()
    assert Path(drawn.value.path()).read_bytes().startswith(b"%PDF-")
    page.goto(strict.address + SWAGS)
    swags = page.locator(".pb-calculator").first
    ready(swags)
    before = figure(swags, "length_total").inner_text()
    field(swags, "side").fill("58 cm")
    expect(figure(swags, "length_total")).not_to_have_text(before)
    if not missing:
        page.locator(".pb-offline summary").click()
        page.locator('.pb-offline-panel button[data-act="save"], .pb-offline[data-state="saved"] summary').first.click()
        expect(page.locator(".pb-offline")).to_have_attribute("data-state", "saved", timeout=START)
    assert refused == [] and problems == []


def test_another_site_cannot_show_it_in_a_frame_where_the_header_is_sent(context: BrowserContext, strict: Host, address: str) -> None:
    page = context.new_page()
    page.route("**/frame.html", lambda route: route.fulfill(body=f'<iframe src="{strict.address}"></iframe>', content_type="text/html"))
    page.goto(address + "frame.html")
    inner = page.frames[-1]
    assert inner.evaluate("() => document.querySelector('h1')?.textContent ?? ''") != "Piping Bench"
    assert "chrome-error" in inner.url or inner.locator(".pb-offline").count() == 0


def test_nothing_of_what_is_typed_leaves_the_device(context: BrowserContext, address: str) -> None:
    """Not in an address, a header or a body: a word that was typed appears in no request."""
    page = context.new_page()
    asked: list[str] = []

    def note(request: object) -> None:
        asked.append(f"{request.url} {request.headers} {request.post_data}")  # type: ignore[attr-defined]

    context.on("request", note)
    page.goto(address + WHOLE + "#order:name=Quincecustomer")
    order = page.locator(".pb-calculator").first
    ready(order)
    field(order, "name").fill("Medlarcustomer")
    ready(order)
    unfold(order)
    order.locator(".pb-copy").first.click()
    page.reload()
    ready(page.locator(".pb-calculator").first)
    page.goto(address + SWAGS)
    assert asked and not [line for line in asked if "customer" in line.lower()]
