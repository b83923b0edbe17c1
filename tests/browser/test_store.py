"""Nothing that a reader makes is lost: not by a link, a reload, a second tab, a full or forbidden storage, or an update."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.helpers import Bench, field, ready, wait_for_promise

SWAGS = "techniques/swags/"
WHOLE = "plan/whole-cake/"

STORED = """async () => {
    const open = indexedDB.open("piping-bench");
    const database = await new Promise((done) => { open.onsuccess = () => done(open.result); });
    const all = (name) => new Promise((done) => {
        const asked = database.transaction(name).objectStore(name).getAll();
        asked.onsuccess = () => done(asked.result);
    });
    const found = { records: await all("records"), histories: await all("histories") };
    database.close();
    return found;
}"""
WRITTEN = f"async (side) => (await ({STORED})()).records.some((record) => record.values.side === side)"


def status(calculator: Locator) -> Locator:
    """The line that says what was done."""
    return calculator.locator(".pb-tools > .pb-status")


def undo(calculator: Locator) -> Locator:
    """The button beside the form."""
    return calculator.get_by_role("button", name="Undo", exact=True)


def press_undo(calculator: Locator) -> None:
    """Press it, whether or not there is something to undo."""
    undo(calculator).dispatch_event("click")


def link_of(bench: Bench, calculator: Locator) -> str:
    """The link that the calculator copies."""
    bench.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    unfold(calculator)
    calculator.locator(".pb-copy").first.click()
    expect(status(calculator)).to_contain_text("link is copied")
    return str(bench.page.evaluate("() => navigator.clipboard.readText()"))


def unfold(calculator: Locator) -> None:
    """Open all that is folded away."""
    calculator.evaluate("root => root.querySelectorAll('details').forEach(each => { each.open = true })")


def choose(calculator: Locator, number: int) -> None:
    """Go back to another record, by its place in the list."""
    calculator.locator(".pb-kept").select_option(index=number)


# ---- links ------------------------------------------------------------------------------------------------------------------


def test_copy_a_link_edit_on_and_reload(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("61 cm")
    link_of(bench, swags)
    assert bench.page.url == bench.address + SWAGS
    field(swags, "side").fill("99 cm")
    bench.page.reload()
    assert field(bench.calculator("swags"), "side").input_value() == "99 cm"


def test_a_link_leaves_the_address_and_what_stood_there_can_be_gone_back_to(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("99 cm")
    ready(swags)
    bench.page.goto(bench.address + SWAGS + "#swags:side=61%20cm")
    bench.page.reload()
    swags = bench.calculator("swags")
    expect(field(swags, "side")).to_have_value("61 cm")
    assert bench.page.url == bench.address + SWAGS
    field(swags, "side").fill("62 cm")
    bench.page.reload()
    swags = bench.calculator("swags")
    assert field(swags, "side").input_value() == "62 cm"
    choose(swags, 1)
    expect(field(swags, "side")).to_have_value("99 cm")
    choose(swags, 0)
    expect(field(swags, "side")).to_have_value("62 cm")


def test_a_link_in_another_tab_leaves_this_ones_order_alone(bench: Bench) -> None:
    order = bench.open(WHOLE, "order")
    field(order, "name").fill("Mine")
    field(order, "guests").fill("31")
    ready(order)
    link = link_of(bench, order)
    field(order, "guests").fill("44")
    ready(order)
    other = Bench(bench.page.context.new_page(), bench.address)
    other.page.goto(link)
    theirs = other.calculator("order")
    expect(field(theirs, "guests")).to_have_value("31")
    assert "#order:" not in other.page.url
    field(theirs, "guests").fill("12")
    ready(theirs)
    bench.page.reload()
    order = bench.calculator("order")
    assert field(order, "guests").input_value() == "44"
    other.page.reload()
    assert field(other.calculator("order"), "guests").input_value() == "12"


def test_a_link_that_unpacks_to_too_much_is_refused(bench: Bench) -> None:
    order = bench.open(WHOLE, "order")
    field(order, "guests").fill("31")
    packed = bench.page.evaluate(
        """async () => {
            const { packed } = await import(document.querySelector("script[src$='/handbook.js']").src);
            return packed("a.".repeat(20_000_000));
        }"""
    )
    bench.page.evaluate("link => { location.hash = link }", f"#order:order={packed}")
    expect(status(order)).to_contain_text("incomplete")
    expect(field(order, "guests")).to_have_value("31")


# ---- undo and redo --------------------------------------------------------------------------------------------------------------


def test_steps_are_undone_and_redone_by_buttons_and_keys_after_a_reload_too(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    example = field(swags, "side").input_value()
    for text in ("70 cm", "71 cm"):
        field(swags, "side").fill(text)
        field(swags, "cutter").fill(text)
    bench.page.reload()
    swags = bench.calculator("swags")
    field(swags, "side").focus()
    bench.page.keyboard.press("Control+z")
    expect(field(swags, "cutter")).to_have_value("70 cm")
    bench.page.keyboard.press("Control+z")
    expect(field(swags, "side")).to_have_value("70 cm")
    bench.page.keyboard.press("Control+Shift+Z")
    expect(field(swags, "side")).to_have_value("71 cm")
    bench.page.keyboard.press("Control+y")
    expect(field(swags, "cutter")).to_have_value("71 cm")
    expect(swags.get_by_role("button", name="Redo")).to_have_attribute("aria-disabled", "true")
    for _ in range(4):
        press_undo(swags)
    expect(field(swags, "side")).to_have_value(example)
    expect(undo(swags)).to_have_attribute("aria-disabled", "true")
    press_undo(swags)
    expect(status(swags)).to_contain_text("nothing more to undo")


@pytest.mark.parametrize("path, names", [(SWAGS, ("side", "cutter")), (WHOLE, ("guests", "tiers.0.width"))])
def test_two_hundred_steps_come_back_after_a_reload(bench: Bench, path: str, names: tuple[str, str]) -> None:
    """Each step is undone, one after the other; what the form says after each is what it said before that step."""
    calculator = bench.open(path)
    said = calculator.evaluate(
        """(root, names) => {
            const controls = names.map((name) => root.querySelector(`[data-name="${name}"]`));
            const said = [controls.map((control) => control.value)];
            for (let i = 0; i < 220; i += 1) {
                const control = controls[i % 2];
                control.value = `${i + 10} mm`;
                control.dispatchEvent(new Event("input", { bubbles: true }));
                said.push(controls.map((each) => each.value));
            }
            return said;
        }""",
        names,
    )
    bench.page.reload()
    calculator = bench.calculator()
    expect(field(calculator, names[1])).to_have_value("229 mm")
    expect(undo(calculator)).not_to_have_attribute("aria-disabled", "true")
    undone = calculator.evaluate(
        """(root, names) => {
            const said = [];
            for (let i = 0; i < 220; i += 1) {
                root.querySelector(".pb-undo").click();
                said.push(names.map((name) => root.querySelector(`[data-name="${name}"]`).value));
            }
            return said;
        }""",
        names,
    )
    assert undone == said[-2::-1]
    expect(undo(calculator)).to_have_attribute("aria-disabled", "true")


# ---- tabs -------------------------------------------------------------------------------------------------------------------


def test_the_same_order_in_two_tabs_follows_and_nothing_is_written_over(bench: Bench) -> None:
    order = bench.open(WHOLE, "order")
    field(order, "name").fill("Ours")
    ready(order)
    other = Bench(bench.page.context.new_page(), bench.address)
    theirs = other.open(WHOLE, "order")
    expect(field(theirs, "name")).to_have_value("Ours")
    field(theirs, "guests").fill("44")
    expect(field(order, "guests")).to_have_value("44")
    field(order, "name").fill("Ours, too")
    expect(field(theirs, "name")).to_have_value("Ours, too")
    order.locator('.pb-items[data-group="tiers"] > .pb-add').click()
    expect(field(theirs, "tiers.2.width")).to_have_count(1)
    press_undo(theirs)
    expect(field(order, "tiers.2.width")).to_have_count(0)
    for page in (bench.page, other.page):
        page.reload()
        order = Bench(page, bench.address).calculator("order")
        assert (field(order, "name").input_value(), field(order, "guests").input_value()) == ("Ours, too", "44")


def test_both_tabs_type_at_once_and_both_texts_stay(bench: Bench) -> None:
    """As fast as scripts can: each tab writes into a field of its own, without waiting for the other."""
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("60 cm")
    ready(swags)
    other = Bench(bench.page.context.new_page(), bench.address)
    theirs = other.open(SWAGS, "swags")
    expect(field(theirs, "side")).to_have_value("60 cm")
    write = """(root, name) => new Promise((done) => {
        let i = 0;
        const step = () => {
            const control = root.querySelector(`[data-name=${name}]`);
            control.value = `${i} mm`;
            control.dispatchEvent(new Event("input", { bubbles: true }));
            i += 1;
            if (i <= 40) setTimeout(step, 5); else done();
        };
        step();
    })"""
    for calculator, name in ((swags, "side"), (theirs, "cutter")):
        calculator.evaluate(f"(root, name) => {{ window.typing = ({write})(root, name) }}", name)
    for page in (bench.page, other.page):
        page.evaluate("() => window.typing")
    for calculator in (swags, theirs):
        expect(field(calculator, "side")).to_have_value("40 mm")
        expect(field(calculator, "cutter")).to_have_value("40 mm")


# ---- storage that fails ---------------------------------------------------------------------------------------------------------

FULL = """
    const quota = () => { throw new DOMException("no room", "QuotaExceededError"); };
    if (sessionStorage.getItem("full")) {
        IDBObjectStore.prototype.put = quota;
        Storage.prototype.setItem = quota;
    }
"""
DENIED = """
    for (const name of ["indexedDB", "localStorage", "sessionStorage"]) {
        Object.defineProperty(window, name, { get() { throw new DOMException("denied", "SecurityError"); } });
    }
"""


def test_a_full_storage_is_said_at_the_form_and_the_file_is_offered(bench: Bench) -> None:
    order = bench.open(WHOLE, "order")
    field(order, "guests").fill("31")
    bench.page.wait_for_function("() => !Object.keys(localStorage).some((key) => key.includes('journal:'))")  # written
    bench.page.add_init_script(FULL)
    bench.page.evaluate("() => sessionStorage.setItem('full', 'yes')")
    bench.page.reload()
    order = bench.calculator("order")
    assert field(order, "guests").input_value() == "31"
    expect(order.locator(".pb-trouble")).to_have_count(0)
    field(order, "guests").fill("32")
    expect(order.locator(".pb-trouble")).to_contain_text("no room")
    unfold(order)
    order.get_by_role("button", name="Keep a copy").click()
    expect(status(order)).to_contain_text("only as long as this page")
    assert field(order, "guests").input_value() == "32"
    with bench.page.expect_download():
        order.locator(".pb-trouble").get_by_role("button", name="Save as a file").click()
    field(order, "guests").fill("33")
    kept = order.locator(".pb-kept")
    shown, copy = kept.input_value(), kept.locator("option:not(:checked)").first.get_attribute("value")
    kept.select_option(value=copy)
    expect(field(order, "guests")).to_have_value("32")
    kept.select_option(value=shown)
    expect(field(order, "guests")).to_have_value("33")


@pytest.mark.parametrize("path", [SWAGS, WHOLE])
def test_a_denied_storage_is_said_and_what_is_typed_works_and_can_be_undone(browser: Browser, address: str, path: str) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.add_init_script(DENIED)
    page.goto(address + path)
    calculator = page.locator(".pb-calculator").first
    ready(calculator)
    first = calculator.locator(".pb-field input[type=text]").first
    before = first.input_value()
    first.fill("Quince")
    expect(calculator.locator(".pb-trouble")).to_contain_text("keeps nothing")
    press_undo(calculator)
    expect(first).to_have_value(before)
    context.close()


def test_what_is_cleared_under_an_open_page_is_written_again(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("71 cm")
    wait_for_promise(bench.page, WRITTEN, "71 cm")
    bench.page.evaluate(
        """async () => {
            const open = indexedDB.open("piping-bench");
            const database = await new Promise((done) => { open.onsuccess = () => done(open.result); });
            const change = database.transaction(["records", "histories", "current"], "readwrite");
            for (const name of change.objectStoreNames) change.objectStore(name).clear();
            await new Promise((done) => { change.oncomplete = done; });
            database.close();
        }"""
    )
    field(swags, "cutter").fill("8 cm")
    wait_for_promise(bench.page, WRITTEN, "71 cm")
    bench.page.reload()
    swags = bench.calculator("swags")
    assert field(swags, "cutter").input_value() == "8 cm"
    press_undo(swags)
    expect(field(swags, "cutter")).not_to_have_value("8 cm")
    assert field(swags, "side").input_value() == "71 cm"


def test_a_page_that_is_killed_loses_nothing(bench: Bench) -> None:
    """The database never writes; the journal alone brings back what was typed."""
    swags = bench.open(SWAGS, "swags")
    bench.page.evaluate("() => { IDBObjectStore.prototype.put = () => { throw new Error('stopped') } }")
    field(swags, "side").fill("73 cm")
    bench.page.reload()
    swags = bench.calculator("swags")
    expect(field(swags, "side")).to_have_value("73 cm")
    assert bench.page.evaluate("() => Object.keys(localStorage).filter((key) => key.includes('journal')).length") == 0


# ---- everything as one file -----------------------------------------------------------------------------------------------------


def save(bench: Bench, calculator: Locator, name: str, folder: Path) -> Path:
    """Press a button that saves a file; gives the file."""
    unfold(calculator)
    with bench.page.expect_download() as waiting:
        calculator.get_by_role("button", name=name, exact=True).click()
    file = folder / waiting.value.suggested_filename
    waiting.value.save_as(file)
    return file


def bring(calculator: Locator, file: Path) -> None:
    """Choose a file to be opened."""
    unfold(calculator)
    calculator.locator(".pb-file").set_input_files(file)


def told(page: Page) -> list[list[object]]:
    """All that is kept, without what each device counts for itself."""
    found = page.evaluate(STORED)["records"]
    return sorted([each["place"], each["title"], sorted(each["values"].items())] for each in found)


def test_everything_goes_out_as_one_file_and_comes_in_on_another_device(bench: Bench, browser: Browser, tmp_path: Path) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("71 cm")
    wait_for_promise(bench.page, WRITTEN, "71 cm")
    order = bench.open(WHOLE, "order")
    field(order, "name").fill("Plum wedding")
    unfold(order)
    order.get_by_role("button", name="Keep a copy").click()
    expect(status(order)).to_contain_text("kept on this device")
    field(order, "name").fill("Quince christening")
    file = save(bench, order, "Save all as one file", tmp_path)
    expect(status(order)).to_contain_text("2 orders and 1 calculator")
    assert json.loads(file.read_text(encoding="utf-8"))["version"] == 1
    kept = told(bench.page)
    assert len(kept) == 3

    other = browser.new_context(service_workers="block")
    page = other.new_page()
    page.goto(bench.address + WHOLE)
    theirs = page.locator('.pb-calculator[data-key="order"]')
    ready(theirs)
    field(theirs, "name").fill("Theirs")
    bring(theirs, file)
    expect(status(theirs)).to_contain_text("2 orders and 1 calculator")
    assert field(theirs, "name").input_value() == "Theirs"
    mine = [each for each in told(page) if dict(each[2]).get("name") != "Theirs"]  # type: ignore[call-overload]
    assert mine == kept
    choose(theirs, 1)
    expect(field(theirs, "name")).to_have_value("Quince christening")
    bring(theirs, file)  # once more: all of it is there already
    expect(status(theirs)).to_contain_text("3 of them here already")
    assert len(told(page)) == 4
    page.goto(bench.address + SWAGS)
    swags = page.locator("#pb-swags")
    ready(swags)
    swags.locator(".pb-kept").select_option(index=1)
    expect(field(swags, "side")).to_have_value("71 cm")
    other.close()


def test_a_calculator_is_kept_as_a_file_too(bench: Bench, tmp_path: Path) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("71 cm")
    file = save(bench, swags, "Save as a file", tmp_path)
    repeats = field(swags, "repeats").input_value()
    field(swags, "repeats").fill("7")  # another field: a step of its own, however long the typing takes
    bring(swags, file)
    expect(field(swags, "repeats")).to_have_value(repeats)
    expect(swags.locator(".pb-kept option:not(:checked)")).to_have_count(1)  # the list of what is kept comes a moment after
    before = swags.locator(".pb-kept option:not(:checked)").first.get_attribute("value")
    swags.locator(".pb-kept").select_option(value=before)
    expect(field(swags, "repeats")).to_have_value("7")
    bench.page.reload()
    swags = bench.calculator("swags")
    expect(field(swags, "repeats")).to_have_value("7")
    press_undo(swags)
    expect(field(swags, "repeats")).to_have_value(repeats)
    expect(field(swags, "side")).to_have_value("71 cm")


def test_a_file_keeps_the_units_in_which_its_numbers_were_typed(bench: Bench, browser: Browser, tmp_path: Path) -> None:
    swags = bench.open(SWAGS, "swags")
    swags.get_by_label("US").check()
    field(swags, "side").fill("26")
    file = save(bench, swags, "Save as a file", tmp_path)
    other = browser.new_context(service_workers="block")
    page = other.new_page()
    page.goto(bench.address + SWAGS)
    theirs = page.locator("#pb-swags")
    ready(theirs)
    bring(theirs, file)
    expect(field(theirs, "side")).to_have_value("26 in")
    other.close()


def test_a_newer_and_a_damaged_file_change_nothing(bench: Bench, tmp_path: Path) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("71 cm")
    wait_for_promise(bench.page, WRITTEN, "71 cm")
    file = save(bench, swags, "Save as a file", tmp_path)
    whole = file.read_text(encoding="utf-8")
    kept = told(bench.page)
    for text, words in (
        (whole.replace('"version": 1', '"version": 999'), "newer handbook"),
        (whole[:-30], "incomplete"),
        (whole.replace('"71 cm"', "71"), "incomplete"),
        ("{" * 1_000_000, "incomplete"),
        ('name = "an order"', "page of the whole cake"),
        ("x" * 20_000_001, "too large"),
    ):
        file.write_text(text, encoding="utf-8")
        bring(swags, file)
        expect(status(swags)).to_contain_text(words)
        assert field(swags, "side").input_value() == "71 cm"
    assert told(bench.page) == kept


def test_where_nothing_can_be_kept_a_file_comes_in_all_the_same(bench: Bench, browser: Browser, tmp_path: Path) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("71 cm")
    file = save(bench, swags, "Save as a file", tmp_path)
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.add_init_script(DENIED)
    page.goto(bench.address + SWAGS)
    theirs = page.locator("#pb-swags")
    ready(theirs)
    bring(theirs, file)
    expect(field(theirs, "side")).to_have_value("71 cm")
    expect(status(theirs)).to_contain_text("only as long as this page")
    context.close()


# ---- what was kept before -------------------------------------------------------------------------------------------------------


def before(page: Page, kept: dict[str, str]) -> None:
    """Put into localStorage what an earlier handbook kept there."""
    page.evaluate("kept => { for (const [key, text] of Object.entries(kept)) localStorage.setItem('piping-bench:' + key, text) }", kept)


def test_what_earlier_handbooks_kept_is_all_there(bench: Bench) -> None:
    order = bench.open(WHOLE, "order")
    values: dict[str, Any] = json.loads(
        str(
            bench.page.evaluate(
                """async () => {
                    const { readForm } = await import(document.querySelector("script[src$='/handbook.js']").src);
                    return JSON.stringify(readForm(document.querySelector(".pb-form")));
                }"""
            )
        )
    )
    bench.page.goto(bench.address)
    before(
        bench.page,
        {
            "typed:/techniques/swags/:swags": json.dumps({"side": "81 cm"}),
            "typed:/plan/whole-cake/:order": json.dumps({**values, "name": "In the form", "guests": "37"}),
            "order:Plum": 'name = "Plum wedding"\nguests = "29"\n',
            "order:Not an order": "Dear baker",
            "units": "us",
        },
    )
    swags = bench.open(SWAGS, "swags")
    assert field(swags, "side").input_value() == "81 cm"
    assert swags.locator(".pb-units input:checked").get_attribute("value") == "us"
    order = bench.open(WHOLE, "order")
    unfold(order)
    assert (field(order, "name").input_value(), field(order, "guests").input_value()) == ("In the form", "37")
    kept = order.get_by_label("Kept here")
    expect(kept.locator("option")).to_have_count(3)
    texts = kept.locator("option").all_inner_texts()
    kept.select_option(index=next(i for i, text in enumerate(texts) if text.startswith("Plum")))
    expect(field(order, "name")).to_have_value("Plum wedding")
    assert field(order, "guests").input_value() == "29"
    kept.select_option(index=next(i for i, text in enumerate(texts) if text.startswith("Not an order")))
    expect(status(order)).to_contain_text("not opened")
    expect(field(order, "name")).to_have_value("Plum wedding")
    expect(kept.locator("option")).to_have_count(3)


def test_a_record_of_a_newer_handbook_is_left_as_it_is(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("71 cm")
    wait_for_promise(bench.page, WRITTEN, "71 cm")
    bench.page.evaluate(
        """async () => {
            const open = indexedDB.open("piping-bench");
            const database = await new Promise((done) => { open.onsuccess = () => done(open.result); });
            const change = database.transaction("records", "readwrite").objectStore("records");
            const all = await new Promise((done) => { const asked = change.getAll(); asked.onsuccess = () => done(asked.result); });
            change.put({ ...all[0], version: 999 });
            await new Promise((done) => { change.transaction.oncomplete = done; });
            database.close();
        }"""
    )
    bench.page.reload()
    swags = bench.calculator("swags")
    field(swags, "side").fill("72 cm")
    wait_for_promise(bench.page, WRITTEN, "72 cm")
    records = bench.page.evaluate(STORED)["records"]
    assert sorted((record["version"], record["values"]["side"]) for record in records) == [(1, "72 cm"), (999, "71 cm")]
