"""The order at the bench: a day of work gone through task by task, with a reload, a new tab and a killed worker in between."""

from __future__ import annotations

import re
import threading
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, Route, expect

from tests.browser.axe import complaints
from tests.browser.helpers import START, Bench, field, hold_down, wait_until
from tests.browser.test_store import bring, save, status

PAGE = "plan/whole-cake/"
ORDER = '.pb-calculator[data-key="order"]'


def opened(bench: Bench) -> Locator:
    """The work at the bench, opened from the order."""
    root = bench.open(PAGE)
    root.get_by_role("button", name="At the bench").click()
    return shown(bench)


def shown(bench: Bench) -> Locator:
    view = bench.page.get_by_role("dialog", name="At the bench")
    expect(view.locator(".pb-bench-tasks li").first).to_be_attached(timeout=START)
    return view


def go_to(view: Locator, words: str) -> None:
    view.locator("summary", has_text="All tasks").click()
    view.locator(".pb-bench-tasks").get_by_role("button", name=re.compile(words)).first.click()


def test_a_day_is_gone_through_and_nothing_of_it_is_lost(bench: Bench) -> None:
    view = opened(bench)
    count = view.locator(".pb-bench-tasks li").count()
    title, onwards = view.locator(".pb-bench-title"), view.locator(".pb-bench-next")
    titles = []
    for at in range(1, count + 1):
        expect(view.locator(".pb-bench-count")).to_have_text(re.compile(f"^{at} of {count} "))
        titles.append(title.inner_text())
        if at == 10:
            bench.page.reload()
            view = shown(bench)
            title, onwards = view.locator(".pb-bench-title"), view.locator(".pb-bench-next")
            expect(title).to_have_text(titles[-1])
            expect(view.locator("[data-done]")).to_have_count(9)
        if at == 15:  # the browser is shut and opened again
            context = bench.page.context
            bench.page.close()
            bench.page = context.new_page()
            bench.page.goto(bench.address + PAGE)
            view = shown(bench)
            title, onwards = view.locator(".pb-bench-title"), view.locator(".pb-bench-next")
            expect(title).to_have_text(titles[-1])
            expect(view.locator("[data-done]")).to_have_count(14)
        if at == 20:  # Python is ended in the middle of it
            bench.page.evaluate("async () => (await import(document.querySelector('script[src*=\"handbook\"]').src)).client.restart()")
        expect(onwards).to_have_text("Done, next" if at < count else "Done")
        onwards.click()
    expect(view.locator("[data-done]")).to_have_count(count)
    expect(view.locator(".pb-bench-bags li")).to_have_text([re.compile(": 0 g of ")] * view.locator(".pb-bench-bags li").count(), timeout=START)
    assert len(titles) == count and any("swags" in words for words in titles)
    other = bench.page.context.new_page()
    other.goto(bench.address + PAGE)
    again = other.get_by_role("dialog", name="At the bench")
    expect(again.locator("[data-done]")).to_have_count(count, timeout=START)
    other.close()


def test_a_tick_is_taken_back_and_the_bag_is_full_again(bench: Bench) -> None:
    view = opened(bench)
    go_to(view, "9 swags")
    bag = view.locator(".pb-bench-bags li").first
    before = bag.inner_text()
    assert re.search(r"(\S+ g) of \1 left", before)
    view.locator(".pb-bench-next").click()
    expect(bag).not_to_have_text(before, timeout=START)
    view.locator(".pb-bench-back").click()
    expect(view.locator(".pb-bench-done")).to_contain_text("Done")
    view.get_by_role("button", name="Not done after all").click()
    expect(bag).to_have_text(before, timeout=START)


@pytest.mark.parametrize("name", ["tasks li:last-child button", "untick"])
def test_what_is_pressed_while_the_work_comes_anew_is_pressed(bench: Bench, name: str) -> None:
    """The finger is down on a task of the list, or on what takes a tick back, when the answer to something done before comes."""
    view = opened(bench)
    view.locator(".pb-bench-next").click()
    expect(view.locator("[data-done]")).to_have_count(1)
    view.locator(".pb-bench-back").click()
    if name != "untick":
        view.locator("summary", has_text="All tasks").click()
    expect(view.locator(".pb-bench-done")).to_be_visible()
    hold_down(view.locator(f".pb-bench-{name}"))
    view.evaluate(
        """view => new Promise((done) => {
            new MutationObserver(done).observe(view.querySelector(".pb-bench-picture"), { subtree: true, attributeFilter: ["data-turn"] });
            view.parentElement.dispatchEvent(new Event("pb-answer"));
        })"""
    )
    bench.page.mouse.up()
    if name == "untick":
        expect(view.locator("[data-done]")).to_have_count(0)
    else:
        count = view.locator(".pb-bench-tasks li").count()
        expect(view.locator(".pb-bench-count")).to_have_text(re.compile(f"^{count} of {count} "))


def test_what_the_tape_says_goes_in_at_the_task(bench: Bench) -> None:
    view = opened(bench)
    go_to(view, "Tape, divide and mark, Lower tier")
    field = view.get_by_label("The tape says")
    facts = view.locator(".pb-bench-facts")
    field.fill("68.4 cm")
    field.press("Tab")
    expect(facts).to_contain_text("68.4 cm", timeout=START)
    expect(bench.calculator().locator('[data-name="tiers.0.side"]')).to_have_value("68.4 cm")
    field.fill("a lot")
    field.press("Tab")
    expect(view.locator(".pb-bench-said")).to_contain_text("The tape says", timeout=START)


def test_a_wait_is_counted_down_kept_and_told(bench: Bench) -> None:
    bench.page.clock.install()
    view = opened(bench)
    go_to(view, "Crumb coat, Lower tier")
    view.locator(".pb-bench-next").click()
    waits = view.locator(".pb-bench-waits")
    expect(waits).to_contain_text("In the fridge for 30 min until")
    expect(waits).to_contain_text("Crumb coat, Lower tier")
    bench.page.clock.fast_forward("31:00")
    expect(waits).to_contain_text("Now: Crumb coat, Lower tier")
    expect(view.locator(".pb-bench-said")).to_contain_text("Now: Crumb coat, Lower tier")
    waits.get_by_role("button", name="Seen").click()
    expect(waits).to_be_empty()


def test_many_waits_leave_the_task_in_sight(bench: Bench) -> None:
    """The one that ends first stands there; the others are folded under it, and stay open where they are opened."""
    bench.page.set_viewport_size({"width": 844, "height": 390})
    bench.page.clock.install(time=0)
    view = opened(bench)
    for number in range(8):
        view.locator(".pb-bench-next").click()
        expect(view.locator("[data-done]")).to_have_count(number + 1)
    waits = view.locator(".pb-bench-waits")
    more = waits.locator("p").count() - 1
    assert more >= 3
    expect(waits.locator("p").first).to_have_text(re.compile(r"until \d\d:\d\d, .* left"))
    expect(waits.locator("summary")).to_have_text(f"{more} more to wait for")
    assert [line.is_visible() for line in waits.locator("p").all()] == [True] + [False] * more
    title, foot = view.locator(".pb-bench-title").bounding_box(), view.locator("footer").bounding_box()
    assert title and foot and title["y"] + title["height"] <= foot["y"]
    picture = view.locator(".pb-bench-picture svg").bounding_box()
    assert picture and picture["height"] > 100 and picture["y"] + picture["height"] <= foot["y"], "the cake is cut at its foot"
    waits.locator("summary").click()
    bench.page.clock.fast_forward("00:05")
    expect(waits.locator("p").last).to_be_visible()


def the_step_is_seen(view: Locator) -> None:
    """The cake, what the step is, and its first four facts stand above the buttons, without scrolling."""
    seen = [".pb-bench-picture", ".pb-bench-tier", ".pb-bench-title", *(f".pb-bench-facts > div:nth-child({n}) > dd" for n in (1, 2, 3, 4))]
    foot = view.locator("footer").bounding_box()
    for name in seen:
        box = view.locator(name).bounding_box()
        assert foot and box and box["y"] >= 40 and box["y"] + box["height"] <= foot["y"], name
    assert [words.split(",")[0] for words in view.locator(".pb-bench-facts dt").all_inner_texts()[:4]] == ["Bag", "Tip", "Hold it", "How many"]


@pytest.mark.parametrize(("wide", "high", "lines"), [(844, 390, 1), (390, 844, 2), (800, 1100, 1), (1280, 800, 1)])
def test_that_the_screen_may_go_dark_is_said_in_little_room(bench: Bench, wide: int, high: int, lines: int) -> None:
    bench.page.set_viewport_size({"width": wide, "height": high})
    bench.page.add_init_script("navigator.wakeLock.request = async () => { throw new DOMException('no', 'NotAllowedError'); };")
    view = opened(bench)
    go_to(view, "9 swags")
    said = view.locator(".pb-bench-said")
    expect(said).to_contain_text("screen may go dark")
    size, line = said.evaluate("said => [getComputedStyle(said).fontSize, getComputedStyle(said).lineHeight].map(parseFloat)")
    box = said.bounding_box()
    assert size >= 28 and box and box["height"] <= lines * line + 1
    if high < 480:
        the_step_is_seen(view)


@pytest.mark.whole_browser  # keeps a screen lit
@pytest.mark.parametrize(("wide", "high"), [(1280, 800), (800, 1100), (390, 844), (844, 390)])
def test_it_is_read_from_a_step_away_and_pressed_with_a_knuckle(bench: Bench, wide: int, high: int) -> None:
    bench.page.set_viewport_size({"width": wide, "height": high})
    view = opened(bench)
    go_to(view, "9 swags")
    sizes = view.evaluate(
        """view => {
            const words = [...view.querySelectorAll('*')].filter(each => each.checkVisibility() && !each.closest('svg')
                && [...each.childNodes].some(node => node.nodeType === 3 && node.data.trim()));
            return words.map(each => [each.className || each.tagName, parseFloat(getComputedStyle(each).fontSize)]);
        }"""
    )
    small = [one for one in sizes if one[1] < 28]
    if high < 480:  # on its side, labels and the buttons above are smaller, so that what the step is and the cake can be seen
        assert not [one for one in small if one[0] not in ("DT", "SUMMARY", "pb-bench-evening", "pb-bench-close") or one[1] < 20]
        the_step_is_seen(view)
    else:
        assert not small
    assert len(sizes) > 10
    for name in (".pb-bench-back", ".pb-bench-next"):
        box = view.locator(name).bounding_box()
        assert box and abs(box["width"] - wide / 2) <= 1 and box["height"] >= 60 and abs(box["y"] + box["height"] - high) <= 1
    assert view.evaluate("view => view.scrollWidth <= innerWidth && view.querySelector('.pb-bench-main').scrollWidth <= innerWidth")
    assert view.locator('.pb-bench-picture [data-turn="now"]').count() >= 1
    for _ in ("day", "evening"):
        found = complaints(bench.page, within=".pb-bench")  # not the page behind it, which cannot be reached
        assert not found, "\n".join(map(str, found))
        view.locator(".pb-bench-evening").click()


def test_rows_to_come_and_their_shadows_are_hardly_there(bench: Bench) -> None:
    view = opened(bench)
    go_to(view, "9 swags")
    strength = view.locator('.pb-bench-picture [data-part*=".rows."]').evaluate_all(
        "parts => parts.map(part => [part.dataset.turn, Number(getComputedStyle(part).opacity)])"
    )
    assert {turn for turn, _ in strength} == {"now", "later"}
    assert all(opacity == (1 if turn == "now" else 0.08) for turn, opacity in strength)


def test_by_keyboard_it_opens_goes_on_and_closes(bench: Bench) -> None:
    root = bench.open(PAGE)
    root.get_by_role("button", name="At the bench").focus()
    bench.page.keyboard.press("Enter")
    view = shown(bench)
    view.locator(".pb-bench-next").focus()
    bench.page.keyboard.press("Enter")
    expect(view.locator(".pb-bench-title")).to_be_focused()
    expect(view.locator(".pb-bench-count")).to_have_text(re.compile("^2 of "))
    bench.page.keyboard.press("Escape")
    expect(view).to_be_hidden()
    expect(root.get_by_role("button", name="At the bench")).to_be_focused()
    bench.page.reload()
    bench.calculator()
    assert not bench.page.get_by_role("dialog", name="At the bench").count()


def test_the_screen_is_kept_awake_or_it_says_that_it_is_not(bench: Bench) -> None:
    bench.page.add_init_script("navigator.wakeLock.request = async (kind) => { window.askedToStay = kind; return { release: async () => {} }; }")
    view = opened(bench)
    assert bench.page.evaluate("window.askedToStay") == "screen"
    view.get_by_role("button", name="Close").click()
    bench.page.evaluate("() => { navigator.wakeLock.request = async () => { throw new DOMException('no', 'NotAllowedError'); }; }")
    bench.calculator().get_by_role("button", name="At the bench").click()
    wait_until(bench.page, lambda: view.get_attribute("data-awake") == "no")
    expect(view.locator(".pb-bench-said")).to_contain_text("screen may go dark")


def test_storage_that_is_full_is_said_at_the_bench(bench: Bench) -> None:
    view = opened(bench)
    bench.page.evaluate(
        """() => {
            const full = () => { throw new DOMException("no room", "QuotaExceededError"); };
            IDBObjectStore.prototype.put = full;
            Storage.prototype.setItem = full;
        }"""
    )
    view.locator(".pb-bench-next").click()
    expect(view.locator(".pb-bench-said")).to_contain_text("no room left", timeout=START)
    expect(view.locator("[data-done]")).to_have_count(1)


def test_a_caution_stands_at_its_step(bench: Bench) -> None:
    view = opened(bench)
    go_to(view, "Make the buttercream")
    expect(view.locator(".pb-bench-cautions")).to_contain_text("Egg white")
    go_to(view, "Stack the tiers")
    expect(view.locator(".pb-bench-cautions")).to_contain_text("both hands under the board")
    go_to(view, "9 swags")
    expect(view.locator(".pb-bench-cautions")).to_have_count(0)


def test_undo_inside_takes_no_step_of_the_order_back_unseen(bench: Bench) -> None:
    root = bench.open(PAGE)
    guests = root.locator('[data-name="guests"]')
    guests.fill("52")
    root.get_by_role("button", name="At the bench").click()
    view = shown(bench)
    view.locator(".pb-bench-next").click()
    expect(view.locator("[data-done]")).to_have_count(1)
    bench.page.keyboard.press("Control+z")
    assert guests.input_value() == "52"
    expect(view.locator("[data-done]")).to_have_count(1)
    view.get_by_role("button", name="Close").click()
    guests.press("Control+z")
    assert guests.input_value() != "52"


@pytest.mark.whole_browser  # keeps a screen lit
def test_pressed_before_python_is_ready_it_opens_with_the_work(bench: Bench) -> None:
    """The record of an order may not be read yet, and no answer can be had: it says that it gets the work ready, and then shows it."""
    held = threading.Event()
    waiting: list[Route] = []

    def hold(route: Route) -> None:
        if held.is_set():
            route.continue_()
        else:
            waiting.append(route)

    bench.page.context.route("**/pyodide.asm.wasm", hold)
    root = bench.open(PAGE, wait=False)
    root.get_by_role("button", name="At the bench").click()
    view = bench.page.get_by_role("dialog", name="At the bench")
    expect(view.get_by_role("status")).to_have_text("Getting the work ready.")
    wait_until(bench.page, lambda: waiting, "the wasm was not asked for")
    expect(root).to_have_attribute("data-state", "starting")
    held.set()
    for route in waiting:
        route.continue_()
    view = shown(bench)
    expect(view.get_by_role("status")).not_to_have_text("Getting the work ready.")
    view.locator(".pb-bench-next").click()
    expect(view.locator("[data-done]")).to_have_count(1)
    bench.page.reload()
    expect(shown(bench).locator("[data-done]")).to_have_count(1)


def test_where_nothing_can_be_kept_it_says_so_from_the_beginning(bench: Bench) -> None:
    bench.page.add_init_script(
        """
        Object.defineProperty(window, "indexedDB", { get: () => { throw new DOMException("no", "SecurityError"); } });
        navigator.wakeLock.request = async () => { throw new DOMException("no", "NotAllowedError"); };
        """
    )
    said = opened(bench).locator(".pb-bench-said")
    expect(said).to_contain_text("keeps nothing for this site", timeout=START)
    expect(said).to_contain_text("screen may go dark")


# ---- in files ---------------------------------------------------------------------------------------------------------------


def test_what_is_done_goes_along_in_each_kind_of_file(bench: Bench, browser: Browser, tmp_path: Path) -> None:
    root = bench.open(PAGE)
    field(root, "name").fill("Plum supper")
    root.get_by_role("button", name="At the bench").click()
    view = shown(bench)
    go_to(view, "Tape, divide and mark, Lower tier")
    view.get_by_label("The tape says").fill("68.4 cm")
    view.get_by_label("The tape says").press("Tab")
    expect(view.locator(".pb-bench-facts")).to_contain_text("68.4 cm", timeout=START)
    go_to(view, "Crumb coat, Lower tier")
    for number in (1, 2):
        view.locator(".pb-bench-next").click()
        expect(view.locator("[data-done]")).to_have_count(number)
    title, waits = view.locator(".pb-bench-title").inner_text(), view.locator(".pb-bench-waits p").count()
    assert waits
    view.get_by_role("button", name="Close").click()
    order = save(bench, root, "Save as a file", tmp_path)
    text = order.read_text(encoding="utf-8")
    assert re.search(r'^\[bench\]\ndone = "crumb0, \w+"$', text, re.MULTILINE)
    everything = save(bench, root, "Save all as one file", tmp_path)
    bench.page.goto(bench.address + "plan/shelf/")
    shelf = bench.page.locator(".pb-shelf")
    expect(shelf).to_have_attribute("data-state", "ready", timeout=START)
    with bench.page.expect_download() as download:
        shelf.get_by_role("button", name="Save the shelf as one file").first.click()
    download.value.save_as(tmp_path / "shelf.json")

    def on_another_device(file: Path, done: int) -> Page:
        """A file is opened where nothing is kept: the order stands there, and so much of it is done."""
        page = browser.new_context(service_workers="block").new_page()
        if file.name == "shelf.json":
            page.goto(bench.address + "plan/shelf/")
            page.locator(".pb-shelf-file").set_input_files(file)
            page.locator(".pb-shelf h4 a").first.click(timeout=START)
        else:
            page.goto(bench.address + PAGE)
            bring(page.locator(ORDER), file)
        theirs = page.locator(ORDER)
        expect(field(theirs, "name")).to_have_value("Plum supper", timeout=START)
        expect(field(theirs, "tiers.0.side")).to_have_value("68.4 cm")
        theirs.get_by_role("button", name="At the bench").click()
        there = page.get_by_role("dialog", name="At the bench")
        expect(there.locator(".pb-bench-tasks li").first).to_be_attached(timeout=START)
        expect(there.locator("[data-done]")).to_have_count(done)
        if done:
            expect(there.locator(".pb-bench-title")).to_have_text(title)
            expect(there.locator(".pb-bench-waits p")).to_have_count(waits)
        return page

    for file in (order, everything, tmp_path / "shelf.json"):
        on_another_device(file, 2).context.close()
    older = tmp_path / "older.toml"
    older.write_text(re.sub(r"\[bench\]\n(\w+ = .*\n)+", "", text), encoding="utf-8")
    assert "bench" not in older.read_text(encoding="utf-8")
    page = on_another_device(older, 0)
    page.keyboard.press("Escape")
    theirs = page.locator(ORDER)
    for wrong in (text.replace("crumb0, ", "crumb0; "), text.replace('done = "', 'dun = "')):
        older.write_text(wrong, encoding="utf-8")
        bring(theirs, older)
        expect(status(theirs)).to_contain_text("older.toml was not opened, and nothing was changed")
        expect(theirs.locator(".pb-kept option")).to_have_count(1)
    page.context.close()
