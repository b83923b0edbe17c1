"""The shelf of orders as a maker uses it: pictures, states, finding, copies, putting away, deleting, hours, and the shelf as a file."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect

import calc
from tests.browser.axe import complaints
from tests.browser.helpers import START, Bench, field, figure, hold_down, ready, wait_for_promise

PAGE = "plan/shelf/"
TEXT = (Path(__file__).resolve().parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
FIELDS = {**(calc.compute("order", {"order": TEXT}).fields or {}), "units": "metric"}
PUT = """async records => {
    const opening = indexedDB.open("piping-bench");
    const database = await new Promise(done => opening.onsuccess = () => done(opening.result));
    const change = database.transaction("records", "readwrite");
    for (const record of records) change.objectStore("records").put(record);
    await new Promise(done => change.oncomplete = done);
    database.close();
}"""
KEPT = """async () => {
    const opening = indexedDB.open("piping-bench");
    const database = await new Promise(done => opening.onsuccess = () => done(opening.result));
    const asking = database.transaction("records").objectStore("records").getAll();
    const all = await new Promise(done => asking.onsuccess = () => done(asking.result));
    database.close();
    return all;
}"""


def day(ahead: int) -> str:
    """A day so far from today."""
    return str(dt.date.today() + dt.timedelta(days=ahead))


def record(key: str, name: str, when: str, **values: str) -> dict[str, Any]:
    """An order as it is kept."""
    texts = {**FIELDS, "name": name, "ready_at": f"{when} 16:00", **values}
    number = sum(map(ord, key))
    times = {"made": 1_000_000 + number, "changed": 2_000_000 + number, "removed": 0}
    return {
        "version": 1,
        "id": key,
        "place": "order",
        "calculator": "order",
        "title": "",
        "values": texts,
        "text": "",
        "revision": 1,
        "recent": [],
        **times,
    }


def card(order: dict[str, Any], hands: Sequence[Sequence[str]] = (), oven: Sequence[Sequence[str]] = ()) -> list[dict[str, Any]]:
    """What is kept beside an order that was drawn before."""
    told = {"of": f"1:{order['changed']}", "hands": hands, "oven": oven}
    empty = {"version": 1, "title": "", "values": {}, "made": 1, "changed": 1, "removed": 0, "revision": 1, "recent": []}
    texts = {"shelf": json.dumps(told), "shelf-picture": "data:image/gif;base64,R0lGODlhAQABAAAAACw="}
    return [{**empty, "id": f"{name}:{order['id']}", "place": f"{name}:", "calculator": name, "text": text} for name, text in texts.items()]


def opened(bench: Bench, page: Page | None = None) -> Locator:
    """The shelf, filled."""
    page = page or bench.page
    page.goto(bench.address + PAGE)
    shelf = page.locator(".pb-shelf")
    expect(shelf).to_have_attribute("data-state", "ready", timeout=START)
    return shelf


def wait_for_kept(page: Page, condition: str, arg: object = None) -> None:
    """Wait until one of the records that are kept meets a condition on `each`, and on what is given as `arg`."""
    wait_for_promise(page, f"async arg => (await ({KEPT})()).some(each => {condition})", arg)


def stocked(bench: Bench, *orders: dict[str, Any], drawn: bool = True) -> Locator:
    """The shelf with some orders on it."""
    opened(bench)
    beside = [each for order in orders for each in card(order)] if drawn else []
    bench.page.evaluate(PUT, [*orders, *beside])
    return opened(bench)


def names(shelf: Locator) -> list[str]:
    found: list[str] = shelf.locator("h4").all_inner_texts()
    return found


def item(shelf: Locator, name: str) -> Locator:
    return shelf.locator("li[data-order]").filter(has=shelf.page.get_by_role("heading", name=name, exact=True))


def said(shelf: Locator) -> Locator:
    return shelf.locator(".pb-shelf-said")


def press(shelf: Locator, name: str, words: str) -> None:
    item(shelf, name).get_by_role("button", name=f"{words} {name}", exact=True).click()


THREE = (
    record("a", "Plum supper", day(9), **{"quote.0.customer": "Mrs Sloe"}),
    record("b", "Quince lunch", day(60), **{"tiers.0.colour": "claret"}),
    record("c", "Damson tea", day(-9)),
)


def test_an_order_comes_to_the_shelf_is_drawn_once_and_opened_again(bench: Bench) -> None:
    order = bench.open("plan/whole-cake/")
    field(order, "name").fill("Greengage feast")
    field(order, "ready_at").fill(f"{day(12)} 15:00")
    ready(order)
    wait_for_kept(bench.page, f"each.values.ready_at?.startsWith('{day(12)}')")
    shelf = opened(bench)
    feast = item(shelf, "Greengage feast")
    expect(feast).to_contain_text("36 guests")
    picture = feast.locator("img")
    expect(picture).to_be_visible(timeout=START)
    assert picture.evaluate("image => image.decode().then(() => image.naturalWidth)") > 100
    expect(feast).to_contain_text("of work")
    shelf.locator(".pb-shelf-load > summary").filter(has_text="Hours ahead: ").wait_for()
    assert "½" in shelf.locator(".pb-shelf-weeks").inner_text()

    shelf = opened(bench)
    expect(item(shelf, "Greengage feast").locator("img")).to_be_visible()  # as it was kept
    assert not bench.workers
    item(shelf, "Greengage feast").get_by_role("link").click()
    bench.page.wait_for_url("**/plan/whole-cake/")
    order = bench.calculator("order")
    expect(field(order, "name")).to_have_value("Greengage feast")
    before = shelf_picture(bench)
    field(order, "tiers.0.colour").evaluate("control => { control.value = 'claret'; control.dispatchEvent(new Event('input', { bubbles: true })); }")
    ready(order)
    wait_for_kept(bench.page, "each.values['tiers.0.colour'] === 'claret'")
    opened(bench)
    wait_for_kept(bench.page, "each.calculator === 'shelf-picture' && each.text !== arg", before)


def shelf_picture(bench: Bench) -> str:
    kept: list[dict[str, Any]] = bench.page.evaluate(KEPT)
    (found,) = [each["text"] for each in kept if each["calculator"] == "shelf-picture"]
    assert str(found).startswith("data:image/")
    return str(found)


def test_a_maker_finds_states_copies_puts_away_and_deletes(bench: Bench) -> None:
    shelf = stocked(bench, *THREE)
    assert names(shelf) == ["Plum supper", "Quince lunch", "Damson tea"]
    for asked, wanted in (("claret", "Quince lunch"), ("sloe", "Plum supper"), (day(-9), "Damson tea")):
        shelf.get_by_label("Find").fill(asked)
        expect(shelf.locator("h4")).to_have_text([wanted])
        expect(said(shelf)).to_have_text("1 order.")
    shelf.get_by_label("Find").fill("nothing of the sort")
    expect(shelf.locator(".pb-shelf-orders > p")).to_have_text("No order like that.")
    shelf.get_by_label("Find").fill("")

    plum = item(shelf, "Plum supper")
    plum.get_by_role("group", name="How far Plum supper has come").get_by_label("Promised").check()
    expect(said(shelf)).to_have_text("Plum supper: promised.")
    press(shelf, "Plum supper", "Copy")
    expect(shelf.locator("h4")).to_have_text(["Plum supper", "Plum supper (copy)", "Quince lunch", "Damson tea"])
    expect(item(shelf, "Plum supper (copy)").get_by_role("link")).to_be_focused()
    expect(item(shelf, "Plum supper (copy)").get_by_label("Asked")).to_be_checked()
    expect(item(shelf, "Plum supper (copy)").locator("img")).to_have_count(1)

    press(shelf, "Damson tea", "Put away")
    expect(shelf.get_by_role("button", name="Take out again")).to_be_focused()
    press(shelf, "Plum supper (copy)", "Delete")
    expect(shelf.get_by_role("button", name="Undo")).to_be_focused()
    bench.page.keyboard.press("Enter")
    expect(item(shelf, "Plum supper (copy)").get_by_role("link")).to_be_focused()
    press(shelf, "Plum supper (copy)", "Delete")
    expect(said(shelf)).to_contain_text("is deleted")

    shelf = opened(bench)
    assert names(shelf) == ["Plum supper", "Quince lunch"]
    expect(item(shelf, "Plum supper").get_by_label("Promised")).to_be_checked()
    shelf.get_by_label("Show").select_option("away")
    expect(shelf.locator("h4")).to_have_text(["Damson tea"])
    press(shelf, "Damson tea", "Take out")
    shelf.get_by_label("Show").select_option("shelf")
    expect(shelf.locator("h4")).to_have_text(["Plum supper", "Quince lunch", "Damson tea"])
    kept = bench.page.evaluate(KEPT)
    assert sorted(each["id"] for each in kept if each["calculator"] == "order") == ["a", "b", "c"]  # the deleted one is gone, with its picture
    assert sum(each["calculator"] == "shelf-picture" for each in kept) == 3


@pytest.mark.parametrize(("press", "told"), [("Delete", "Plum supper is back."), ("Put away", "Plum supper is back on the shelf.")])
def test_what_is_brought_back_at_once_is_where_the_focus_stays(bench: Bench, press: str, told: str) -> None:
    """The button that brings it back is pressed in the same moment in which it is there, before what was done is written down."""
    shelf = stocked(bench, *THREE)
    bench.page.evaluate(
        """press => {
            const orders = document.querySelector(".pb-shelf-orders");
            const watch = new MutationObserver(() => {
                const back = orders.querySelector("[data-press=back]");
                if (back) { watch.disconnect(); back.click(); }
            });
            watch.observe(orders, { childList: true, subtree: true });
            orders.querySelector(`[aria-label="${press} Plum supper"]`).click();
        }""",
        press,
    )
    expect(item(shelf, "Plum supper").get_by_role("link")).to_be_focused()
    expect(said(shelf)).to_have_text(told)
    bench.page.evaluate(KEPT)  # what was written before is written
    expect(item(shelf, "Plum supper").get_by_role("link")).to_be_focused()
    expect(said(shelf)).to_have_text(told)
    assert names(shelf) == ["Plum supper", "Quince lunch", "Damson tea"]


def test_orders_at_the_same_time_are_told_until_one_is_made(bench: Bench) -> None:
    plum, quince, damson = THREE
    opened(bench)
    first, second = [[f"{day(7)}T09:00", f"{day(7)}T11:00"]], [[f"{day(7)}T10:00", f"{day(7)}T12:30"]]
    bench.page.evaluate(PUT, [*THREE, *card(plum, first, second), *card(quince, second, [[f"{day(7)}T12:00", f"{day(7)}T13:00"]]), *card(damson)])
    shelf = opened(bench)
    told = shelf.locator(".pb-shelf-clashes li")
    expect(told).to_have_count(2)
    expect(told.nth(0)).to_contain_text("Plum supper and Quince lunch both want your hands")
    expect(told.nth(0)).to_contain_text("10:00 to 11:00")
    expect(told.nth(1)).to_contain_text("both want the oven")
    expect(shelf.locator(".pb-shelf-load > summary")).to_contain_text("4 h 30 min in 1 week, 4 h 30 min of it only asked for. 2 clashes")
    item(shelf, "Quince lunch").get_by_label("Made").check()
    expect(told).to_have_count(0)
    expect(shelf.locator(".pb-shelf-load > summary")).to_have_text("Hours ahead: 2 h in 1 week, 2 h of it only asked for")


def test_by_keyboard_alone(bench: Bench) -> None:
    shelf = stocked(bench, *THREE)
    keys = bench.page.keyboard
    shelf.get_by_label("Find").focus()
    keys.type("plum")
    expect(shelf.locator("h4")).to_have_count(1)
    link = item(shelf, "Plum supper").get_by_role("link")
    for _ in range(8):
        if link.evaluate("link => link === document.activeElement"):
            break
        keys.press("Tab")
    expect(link).to_be_focused()
    keys.press("Tab")
    for state in ("Promised", "Paid", "Made"):
        keys.press("ArrowRight")
        expect(item(shelf, "Plum supper").get_by_label(state)).to_be_focused()
        expect(said(shelf)).to_have_text(f"Plum supper: {state.lower()}.")
    keys.press("Tab")
    keys.press("Tab")
    keys.press("Enter")
    expect(shelf.get_by_role("button", name="Take out again")).to_be_focused()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_sizes_and_width(bench: Bench, scheme: str) -> None:
    bench.page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    shelf = stocked(bench, *THREE)
    assert complaints(bench.page) == []
    for width in (390, 1024, 1280):
        bench.page.set_viewport_size({"width": width, "height": 844})
        assert bench.page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0
        small = shelf.evaluate(
            """root => [...root.querySelectorAll("button, a, select, input, label, summary")]
                .filter(each => each.offsetParent && !["radio", "file"].includes(each.type))
                .map(each => [each.textContent.slice(0, 20), each.getBoundingClientRect()])
                .filter(([, box]) => box.height < 43.5 || box.width < 43.5).map(([name, box]) => `${name} ${box.width} ${box.height}`)"""
        )
        assert small == []


def test_on_paper_there_is_a_plain_list_of_all(bench: Bench) -> None:
    shelf = stocked(bench, *(record(f"n{i}", f"Order {i:02}", day(i + 1)) for i in range(40)))
    bench.page.emulate_media(media="print")
    bench.page.evaluate("() => dispatchEvent(new Event('beforeprint'))")
    lines = shelf.locator(".pb-shelf-printed > li")
    expect(lines).to_have_count(40)
    expect(lines.first).to_be_visible()
    assert "Order 00, 36 guests, asked" in lines.first.inner_text()
    expect(shelf.locator(".pb-shelf-orders")).to_be_hidden()


def test_what_an_order_leaves_open_comes_from_the_kitchen_and_is_worked_out_anew_with_it(bench: Bench) -> None:
    hours = []
    for hand in ("learning", "quick"):
        kitchen = bench.open("plan/my-kitchen/", "kitchen")
        field(kitchen, "hand").select_option(hand)
        ready(kitchen)
        wait_for_kept(bench.page, "each.calculator === 'kitchen' && each.values.hand === arg", hand)
        order = bench.open("plan/whole-cake/", "order")
        field(order, "name").fill("Greengage feast")
        ready(order)
        wait_for_kept(bench.page, "each.values.name === 'Greengage feast'")
        (worked,) = figure(order, "hands").all_inner_texts()
        shelf = opened(bench)
        expect(item(shelf, "Greengage feast")).to_contain_text(f"{worked} of work", timeout=START)
        hours.append(worked)
    assert hours[0] != hours[1]


def test_an_order_kept_as_text_by_an_early_handbook_is_drawn_and_opened(bench: Bench) -> None:
    opened(bench)
    bench.page.evaluate("text => localStorage.setItem('piping-bench:order:Old supper', text)", TEXT.replace("36", "37", 1))
    shelf = opened(bench)
    expect(item(shelf, "Old supper").locator("img")).to_be_visible(timeout=START)
    expect(item(shelf, "Old supper")).to_contain_text("37 guests")
    item(shelf, "Old supper").get_by_role("link").click()
    bench.page.wait_for_url("**/plan/whole-cake/")
    order = bench.calculator("order")
    expect(order.locator(".pb-status").first).to_contain_text("Opened Old supper.", timeout=START)
    expect(field(order, "guests")).to_have_value("37")


# ---- two tabs ------------------------------------------------------------------------------------------------------------


def test_two_tabs_join_what_each_does(bench: Bench) -> None:
    """One has the order open in its form, the other has the shelf: neither takes back what the other did."""
    shelf = stocked(bench, *THREE)
    other = bench.page.context.new_page()
    there = opened(bench, other)
    item(there, "Plum supper").get_by_role("link").click()
    other.wait_for_url("**/plan/whole-cake/")
    order = other.locator(".pb-calculator")
    ready(order)
    expect(field(order, "name")).to_have_value("Plum supper")
    item(shelf, "Plum supper").get_by_label("Paid").check()
    field(order, "guests").fill("41")
    expect(item(shelf, "Plum supper")).to_contain_text("41 guests")
    expect(item(shelf, "Plum supper").get_by_label("Paid")).to_be_checked()
    field(order, "name").fill("Plum breakfast")
    expect(item(shelf, "Plum breakfast")).to_contain_text("41 guests")
    item(shelf, "Plum breakfast").get_by_label("Made").check()
    wait_for_kept(bench.page, "each.id === 'a' && each.state === 'made' && each.values.guests === '41'")
    (kept,) = [each for each in bench.page.evaluate(KEPT) if each["id"] == "a"]
    assert (kept["values"]["name"], kept["values"]["guests"], kept["state"]) == ("Plum breakfast", "41", "made")
    other.close()


def test_what_is_pressed_while_another_tab_changes_the_shelf_is_pressed(bench: Bench) -> None:
    """The finger is down while the list is shown again; what it is on has not been taken out and put in again."""
    shelf = stocked(bench, *THREE)
    there = opened(bench, bench.page.context.new_page())
    hold_down(item(shelf, "Plum supper").get_by_role("button", name="Copy Plum supper"))
    item(there, "Quince lunch").get_by_label("Made").check()
    expect(item(shelf, "Quince lunch").get_by_label("Made")).to_be_checked()
    bench.page.mouse.up()
    expect(item(shelf, "Plum supper (copy)")).to_have_count(1)
    there.page.close()


def test_a_tab_that_was_not_told_joins_all_the_same(bench: Bench) -> None:
    """Where tabs cannot tell one another, what one wrote is found when the other writes."""
    bench.page.context.add_init_script("delete globalThis.BroadcastChannel")
    shelf = stocked(bench, *THREE)
    item(shelf, "Plum supper").get_by_label("Promised").check()  # this tab has read the order
    expect(said(shelf)).to_have_text("Plum supper: promised.")
    wait_for_kept(bench.page, "each.id === 'a' && each.state === 'promised'")
    other = bench.page.context.new_page()
    there = opened(bench, other)
    press(there, "Plum supper", "Put away")
    wait_for_kept(other, "each.id === 'a' && each.away")
    item(shelf, "Plum supper").get_by_label("Paid").check()
    wait_for_kept(bench.page, "each.id === 'a' && each.state === 'paid'")
    (kept,) = [each for each in bench.page.evaluate(KEPT) if each["id"] == "a"]
    assert kept["away"] and kept["state"] == "paid"
    other.close()


# ---- the shelf as a file -----------------------------------------------------------------------------------------------------


def saved(shelf: Locator) -> str:
    with shelf.page.expect_download() as download:
        shelf.get_by_role("button", name="Save the shelf as one file").first.click()
    assert download.value.suggested_filename.startswith("piping-bench-shelf-")
    return Path(download.value.path()).read_text(encoding="utf-8")


def bring(shelf: Locator, text: str, name: str = "shelf.json") -> None:
    shelf.locator(".pb-shelf-file").set_input_files({"name": name, "mimeType": "application/json", "buffer": text.encode()})


@pytest.fixture
def elsewhere(context: BrowserContext, bench: Bench) -> Iterator[Locator]:
    """The shelf of another device, empty."""
    yield opened(bench, context.new_page())


def test_the_shelf_goes_to_another_device_and_is_not_doubled_there(bench: Bench, elsewhere: Locator) -> None:
    shelf = stocked(bench, *THREE)
    item(shelf, "Plum supper").get_by_label("Paid").check()
    press(shelf, "Damson tea", "Put away")
    expect(said(shelf)).to_contain_text("is put away")
    text = saved(shelf)
    bring(elsewhere, text)
    expect(said(elsewhere)).to_have_text("Opened shelf.json. 3 orders came in.")
    assert names(elsewhere) == ["Plum supper", "Quince lunch"]
    expect(item(elsewhere, "Plum supper").get_by_label("Paid")).to_be_checked()
    expect(item(elsewhere, "Plum supper").locator("img")).to_be_visible(timeout=START)  # drawn there
    bring(elsewhere, text)
    expect(said(elsewhere)).to_have_text("Opened shelf.json. 3 orders were here already, the same.")
    bring(elsewhere, text.replace('"guests": "36"', '"guests": "77"', 1))
    expect(said(elsewhere)).to_contain_text("2 orders were here already, the same. 1 order differs from one here and is kept beside it: ")
    kept = [each["values"]["guests"] for each in elsewhere.page.evaluate(KEPT) if each["calculator"] == "order"]
    assert sorted(kept) == ["36", "36", "36", "77"]


def test_fifty_damaged_files_and_a_newer_one_change_nothing(bench: Bench) -> None:
    shelf = stocked(bench, *THREE)
    text = saved(shelf)
    whole = json.loads(text)
    before = bench.page.evaluate(KEPT)

    def changed(path: tuple[Any, ...], value: Any) -> str:
        copy = json.loads(text)
        at = copy
        for step in path[:-1]:
            at = at[step]
        at[path[-1]] = value
        return json.dumps(copy)

    damaged = [text[: len(text) * part // 31] for part in range(1, 31)]
    damaged += [
        changed(("kept", at, name), value)
        for at in range(3)
        for name, value in (("values", []), ("place", 7), ("calculator", None), ("state", "lost"))
    ]
    damaged += [changed((name,), value) for name, value in (("version", 0), ("version", "1"), ("madeWith", "x"), ("kept", {}), ("kept", [None]))]
    damaged += ["{}", '{"kept":', "[]", "", "{" * 2000]
    assert len(damaged) >= 50
    for number, wrong in enumerate(damaged):
        bring(shelf, wrong, f"wrong-{number}.json")
        expect(said(shelf)).to_contain_text(f"wrong-{number}.json was not opened, and nothing was changed")
    bring(shelf, json.dumps({**whole, "version": whole["version"] + 1}), "newer.json")
    expect(said(shelf)).to_contain_text("newer.json was not opened, and nothing was changed: A newer handbook saved it")
    assert bench.page.evaluate(KEPT) == before


# ---- room ------------------------------------------------------------------------------------------------------------------


def test_a_full_device_is_told_and_nothing_is_lost(bench: Bench) -> None:
    shelf = stocked(bench, *THREE)
    text = saved(shelf)
    bench.page.evaluate(
        """() => {
            globalThis.kept = IDBObjectStore.prototype.put;
            IDBObjectStore.prototype.put = () => { throw new DOMException("no room", "QuotaExceededError"); };
        }"""
    )
    item(shelf, "Plum supper").get_by_label("Paid").check()
    expect(shelf.get_by_role("alert")).to_contain_text("This browser has no room left")
    expect(item(shelf, "Plum supper").get_by_label("Paid")).to_be_checked()
    bring(shelf, text.replace("Quince lunch", "Medlar lunch"))
    expect(said(shelf)).to_contain_text("This browser has no room left")
    expect(item(shelf, "Medlar lunch, version 2")).to_have_count(1)
    out = saved(shelf)
    assert '"state": "paid"' in out and "Medlar lunch" in out
    assert [each.get("state") for each in bench.page.evaluate(KEPT) if each["id"] == "a"] == [None]
    bench.page.evaluate("() => { IDBObjectStore.prototype.put = globalThis.kept; }")
    item(shelf, "Plum supper").get_by_label("Promised").check()
    expect(shelf.get_by_role("alert")).to_have_count(0)
    wait_for_kept(bench.page, "each.id === 'a' && each.state === 'promised'")


def test_a_thousand_orders_are_read_at_once_and_few_are_built(bench: Bench) -> None:
    """What makes a large shelf open quickly: one read for all, few rows, no Python."""
    bench.page.add_init_script(
        """globalThis.asked = { all: 0, transactions: 0 };
        const counted = [[IDBIndex, "getAll", "all"], [IDBObjectStore, "getAll", "all"], [IDBDatabase, "transaction", "transactions"]];
        for (const [owner, name, count] of counted) {
            const does = owner.prototype[name];
            owner.prototype[name] = function (...given) { asked[count] += 1; return does.apply(this, given); };
        }"""
    )
    many = [record(f"n{i}", f"Order {i:04}", day(i // 3 + 1)) for i in range(1000)]
    shelf = stocked(bench, *many)
    expect(shelf.locator(".pb-shelf-picture > img")).to_have_count(24)
    # orders, cards and the kitchen in one transaction, then the pictures of what is built
    assert bench.page.evaluate("asked") == {"all": 3, "transactions": 2}
    assert shelf.locator("li[data-order]").count() == 24
    assert bench.workers == []
    assert bench.page.evaluate("import(document.querySelector('script[type=module]').src).then(all => all.client.state)") == "idle"
    shelf.get_by_label("Find").fill("order 0999")
    expect(shelf.locator("h4")).to_have_text(["Order 0999"])
    shelf.get_by_label("Find").fill("")
    shelf.get_by_role("button", name="Show 24 more of 976").click()
    expect(shelf.locator("h4 > a").nth(24)).to_be_focused()
    assert shelf.locator("li[data-order]").count() == 48
