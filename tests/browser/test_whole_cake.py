"""The order's form: tiers and rows that come and go, orders kept on the device, in files and in links."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from playwright.sync_api import Locator, expect

from tests.browser.helpers import Bench, field, ready

PAGE = "plan/whole-cake/"
READ = """async () => {
    const { readForm } = await import(document.querySelector("script[src$='/handbook.js']").src);
    return readForm(document.querySelector(".pb-form"));
}"""


def status(order: Locator) -> Locator:
    """The line that says what was done."""
    return order.locator(".pb-tools > .pb-status")


def settled(order: Locator) -> None:
    """Wait until what stands in the form has been answered without a problem."""
    ready(order)
    expect(order.locator(".pb-answer")).not_to_have_attribute("data-stale", "")


def unfold(order: Locator) -> None:
    """Open every tier, row and pack, and what keeps an order."""
    order.evaluate("root => root.querySelectorAll('details').forEach(each => { each.open = true })")


def tiers(order: Locator) -> Locator:
    """The tiers of the form."""
    return order.locator('.pb-items[data-group="tiers"] > .pb-copies > .pb-group')


def test_the_example_is_filled_in_and_answered(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    assert field(order, "tiers.0.side").input_value() == "66 cm"
    assert field(order, "tiers.1.rows.3.per_joint").input_value() == "2"
    assert order.locator(".pb-drawing svg").count() >= 2
    assert order.locator(".pb-section").count() >= 6
    expect(order.locator(".pb-answer")).not_to_have_attribute("data-stale", "")


def test_a_tier_and_a_row_come_and_go(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    expect(tiers(order)).to_have_count(2)
    tiers(order).last.get_by_role("button", name="Remove Tier 2").click()
    expect(tiers(order)).to_have_count(1)
    settled(order)
    rows = order.locator('.pb-items[data-input="tiers.0.rows"] > .pb-copies > .pb-group')
    before = rows.count()
    order.locator('.pb-items[data-input="tiers.0.rows"] > .pb-add').click()
    expect(rows).to_have_count(before + 1)
    expect(field(order, f"tiers.0.rows.{before}.kind")).to_be_focused()
    rows.last.get_by_role("button", name="Remove").click()
    expect(rows).to_have_count(before)
    settled(order)
    line = order.locator(".pb-removed").filter(has_text="Row")
    expect(line).to_contain_text(f"Row {before + 1} removed")
    line.get_by_role("button", name="Undo").click()
    expect(rows).to_have_count(before + 1)
    expect(line).to_have_count(0)
    settled(order)


def test_rows_change_places_and_keep_what_was_typed(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    first, second = (field(order, f"tiers.0.rows.{i}.tip").input_value() for i in (0, 1))
    assert first != second
    rows = order.locator('.pb-items[data-input="tiers.0.rows"] > .pb-copies > .pb-group')
    rows.nth(1).get_by_role("button", name="Move Row 2 up").click()
    assert [field(order, f"tiers.0.rows.{i}.tip").input_value() for i in (0, 1)] == [second, first]
    expect(rows.nth(0).locator(":scope > summary > .pb-count")).to_have_text("Row 1")
    assert rows.nth(0).locator(":scope > .pb-group-tools > [data-direction=up]").is_disabled()


def test_everything_is_there_after_a_reload(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    order.locator('.pb-items[data-group="tiers"] > .pb-add').click()
    field(order, "tiers.2.name").fill("Top tier")
    field(order, "tiers.2.width").fill("10 cm")
    order.locator('.pb-items[data-input="tiers.2.rows"] > .pb-add').click()
    field(order, "tiers.2.rows.0.tip").fill("open star 5 mm")
    bench.page.reload()
    order = bench.calculator("order")
    unfold(order)
    expect(tiers(order)).to_have_count(3)
    assert field(order, "tiers.2.name").input_value() == "Top tier"
    assert field(order, "tiers.2.rows.0.tip").input_value() == "open star 5 mm"
    order.get_by_role("button", name="Back to the page’s example").click()
    expect(tiers(order)).to_have_count(2)


def chosen(order: Locator) -> str:
    """What the list of kept orders says of the one that is shown."""
    return str(order.get_by_label("Kept here").evaluate("select => select.selectedOptions[0].text"))


def test_another_order_begins_beside_the_first_and_both_can_be_gone_back_to(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    field(order, "name").fill("Plum <b>wedding</b>")
    field(order, "guests").fill("30")
    settled(order)
    order.get_by_role("button", name="Begin another order").click()
    expect(field(order, "guests")).not_to_have_value("30")
    field(order, "name").fill("Quince supper")
    field(order, "guests").fill("20")
    settled(order)
    for _ in range(5):
        order.get_by_role("button", name="Undo", exact=True).dispatch_event("click")
    assert field(order, "name").input_value() not in ("Plum <b>wedding</b>", "Orchard harvest supper"), "undo swapped in another order"
    for _ in range(5):
        order.get_by_role("button", name="Redo").dispatch_event("click")
    bench.page.reload()
    order = bench.calculator("order")
    unfold(order)
    assert field(order, "guests").input_value() == "20"
    kept = order.get_by_label("Kept here")
    kept.select_option(label=next(text for text in kept.locator("option").all_inner_texts() if text.startswith("Plum")))
    expect(field(order, "guests")).to_have_value("30")
    assert field(order, "name").input_value() == "Plum <b>wedding</b>"
    order.get_by_role("button", name="Undo", exact=True).dispatch_event("click")
    expect(field(order, "guests")).to_have_value("36")


def test_a_copy_is_kept_and_an_order_is_removed_and_brought_back(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    field(order, "name").fill("Plum")
    order.get_by_role("button", name="Keep a copy").click()
    expect(status(order)).to_contain_text("Plum (copy) is kept")
    field(order, "guests").fill("20")
    order.get_by_role("button", name="Remove this order").click()
    expect(status(order)).to_contain_text("Plum is removed")
    expect(field(order, "guests")).to_have_value("36")
    assert chosen(order).startswith("Plum (copy)")
    order.get_by_role("button", name="Bring it back").click()
    expect(field(order, "guests")).to_have_value("20")
    order.get_by_role("button", name="Remove this order").click()
    expect(field(order, "guests")).to_have_value("36")
    bench.page.reload()
    order = bench.calculator("order")
    unfold(order)
    expect(order.get_by_label("Kept here").locator("option")).to_have_count(1)
    assert chosen(order).startswith("Plum (copy)")


def test_an_order_goes_into_a_file_and_comes_back(bench: Bench, tmp_path: Path) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    field(order, "guests").fill("33")
    field(order, "tiers.0.side").fill("66,2 cm")
    settled(order)
    with bench.page.expect_download() as waiting:
        order.get_by_role("button", name="Save as a file").click()
    file = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(file)
    assert file.name == "orchard-harvest-supper.toml"
    assert tomllib.loads(file.read_text(encoding="utf-8"))
    order.get_by_role("button", name="Back to the page’s example").click()
    expect(field(order, "guests")).to_have_value("36")
    order.locator(".pb-file").set_input_files(file)
    expect(field(order, "guests")).to_have_value("33")
    expect(status(order)).to_contain_text("Opened")
    assert field(order, "tiers.0.side").input_value() == "66,2 cm"


def test_the_example_comes_back_whole_whatever_was_added_or_removed(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    example = bench.page.evaluate(READ)
    tiers(order).last.get_by_role("button", name="Remove Tier 2").click()
    order.locator('.pb-items[data-input="tiers.0.rows"] > .pb-add').click()
    unfold(order)
    order.get_by_role("button", name="Back to the page’s example").click()
    expect(status(order)).to_contain_text("example is back")
    assert bench.page.evaluate(READ) == example


def test_the_line_over_a_tier_never_tells_what_was_undone(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    line = tiers(order).first.locator(":scope > summary > .pb-item-line")
    before = line.inner_text()
    field(order, "tiers.0.width").evaluate("field => { field.value = '31 cm'; field.dispatchEvent(new Event('input', { bubbles: true })) }")
    expect(line).to_contain_text("31 cm")
    line_text = "root => root.querySelector('[data-group=tiers] > .pb-copies > .pb-group > summary > .pb-item-line').textContent"
    at_once = order.evaluate(f"root => {{ root.querySelector('.pb-undo').click(); return ({line_text})(root) }}")
    assert at_once == ""
    expect(line).to_have_text(before)
    # undone before the answer to what was typed: nothing is asked, and the line is there again
    order.evaluate(
        """root => {
            const field = root.querySelector('[data-name="tiers.0.width"]');
            field.value = "32 cm";
            field.dispatchEvent(new Event("input", { bubbles: true }));
            root.querySelector(".pb-undo").click();
        }"""
    )
    expect(line).to_have_text(before)


def test_a_file_that_is_no_order_changes_nothing(bench: Bench, tmp_path: Path) -> None:
    order = bench.open(PAGE, "order")
    field(order, "guests").fill("31")
    settled(order)
    for name, text in (("letter.toml", "Dear baker,"), ("other.toml", "[engine]\ncylinders = 4\n"), ("empty.toml", "")):
        file = tmp_path / name
        file.write_text(text, encoding="utf-8")
        order.locator(".pb-file").set_input_files(file)
        expect(status(order)).to_contain_text(re.compile(f"{name}.*(not opened|too large)"))
        assert field(order, "guests").input_value() == "31"
    assert order.locator(".pb-failure").count() == 0


def test_what_a_file_leaves_out_is_not_taken_from_the_order_that_stood_there(bench: Bench, tmp_path: Path) -> None:
    """A file written by hand names no disc; the example's first tier, in whose place it stands, has one that is too small for it."""
    order = bench.open(PAGE, "order")
    assert field(order, "tiers.0.disc").input_value() == "21 cm"
    file = tmp_path / "tea.toml"
    file.write_text('name = "Garden tea"\nguests = "30"\n\n[[tiers]]\nwidth = "28 cm"\nheight = "10 cm"\n', encoding="utf-8")
    order.locator(".pb-file").set_input_files(file)
    expect(field(order, "name")).to_have_value("Garden tea")
    expect(status(order)).to_contain_text("Opened")
    expect(tiers(order)).to_have_count(1)
    assert {name: field(order, name).input_value() for name in ("tiers.0.width", "tiers.0.disc", "tiers.0.side")} == {
        "tiers.0.width": "28 cm",
        "tiers.0.disc": "",
        "tiers.0.side": "",
    }
    assert order.locator('.pb-items[data-input="tiers.0.rows"] .pb-copies > .pb-group').count() == 0


def test_a_link_carries_the_whole_order(bench: Bench) -> None:
    bench.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    order = bench.open(PAGE, "order")
    unfold(order)
    field(order, "guests").fill("32")
    settled(order)
    order.get_by_role("button", name="Copy link").click()
    expect(status(order)).to_contain_text("link is copied")
    link = bench.page.evaluate("() => navigator.clipboard.readText()")
    assert "#order:order=" in link
    assert len(link) < 2000
    bench.page.evaluate("() => localStorage.clear()")
    page = bench.page.context.new_page()
    page.goto(link)
    other = Bench(page, bench.address).calculator("order")
    expect(field(other, "guests")).to_have_value("32")
    page.wait_for_function("() => location.hash === ''")  # the order that was open said the same before the link was taken
    page.goto(link[:-40])
    page.reload()
    other = Bench(page, bench.address).calculator("order")
    expect(status(other)).to_contain_text("is incomplete")


def test_a_sheet_is_saved_as_a_pdf_on_the_chosen_paper(bench: Bench, tmp_path: Path) -> None:
    import pypdf

    order = bench.open(PAGE, "order")
    sizes = {}
    for paper in ("A4", "Letter"):
        order.get_by_label("Paper").select_option(paper)
        with bench.page.expect_download() as waiting:
            order.locator(".pb-sheet").first.click()
        file = tmp_path / f"{paper}.pdf"
        waiting.value.save_as(file)
        box = pypdf.PdfReader(file).pages[0].mediabox
        sizes[paper] = tuple(sorted((round(float(box.width)), round(float(box.height)))))
    assert sizes == {"A4": (595, 842), "Letter": (612, 792)}


def test_problems_deep_in_the_form_are_said_at_their_field(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    field(order, "tiers.1.rows.2.tip").fill("spoon")
    field(order, "tiers.1.rows.2.tip").press("Control+Enter")
    summary = order.locator(".pb-summary")
    expect(summary).to_be_focused()
    expect(order.locator('.pb-field[data-input="tiers.1.rows.2.tip"] > .pb-problem')).not_to_be_empty()
    summary.locator("a").first.click()
    expect(field(order, "tiers.1.rows.2.tip")).to_be_focused()
