"""Pages printed by the browser, and what the whole cake's page offers to print and to copy."""

from __future__ import annotations

import io
import re

import pdfplumber
import pypdf
import pytest
from playwright.sync_api import expect

from tests.browser.helpers import Bench

ORDER = "plan/whole-cake/"


@pytest.mark.parametrize("path, calculator", [(ORDER, "order"), ("techniques/swags/", "swags"), ("plan/timetable/", "timetable")])
def test_printed_pages_are_legible_and_numbered(bench: Bench, path: str, calculator: str) -> None:
    """No letter under 8 points, a number on every page, no table's head alone, and no page with a few rows alone."""
    bench.open(path, calculator)
    data = bench.page.pdf(format="A4", prefer_css_page_size=True)
    with pdfplumber.open(io.BytesIO(data)) as document:
        count = len(document.pages)
        for number, page in enumerate(document.pages, 1):
            words = page.extract_text()
            assert min(c["size"] for c in page.chars) >= 7.95, number
            assert words.rstrip().endswith(f"{number} of {count}")
            if 1 < number < count:
                lines = {round(c["bottom"]) for c in page.chars if c["text"].strip()}
                assert len(lines) > 9, f"page {number} has little on it"


def test_a_printed_form_says_what_was_asked_once(bench: Bench) -> None:
    """A unit that was typed is not repeated and one that was not is there; empty fields and controls stay off the paper."""
    shells = bench.open("techniques/shells/", "shells")
    shells.locator('[data-input="repeats"] input').fill("8")

    def printed() -> str:
        with pdfplumber.open(io.BytesIO(bench.page.pdf(format="A4", prefer_css_page_size=True))) as document:
            return " ".join(" ".join(page.extract_text() for page in document.pages).split())

    text = printed()
    assert "Round the side: 66 cm" in text and "66 cm cm" not in text and "open star 7 mm mm" not in text
    assert "Recipe:" not in text and "Width across" not in text
    for word in ("Use my cake", "Undo", "Copy link", "Save as a file", "Next step", "Left-handed", "optional"):
        assert word not in text, word
    side = shells.locator('[data-input="side"] input')
    side.fill("66")
    assert "Round the side: 66 cm" in printed()


def test_the_cake_under_the_marks_is_printed(bench: Bench) -> None:
    """The outline that dividers are stepped round was once hidden together with a button of the same class."""
    bench.open("techniques/dividing-a-side/", "division")
    bench.page.emulate_media(media="print")
    seen = bench.page.locator(".pb-drawing svg .pb-cake").evaluate_all("(shapes) => shapes.map((shape) => shape.checkVisibility())")
    assert len(seen) > 2 and all(seen)


def test_the_job_is_one_file_with_the_orders_name(bench: Bench) -> None:
    order = bench.open(ORDER, "order")
    sheets = order.locator(".pb-section[data-section=sheets]")
    expect(sheets.locator("button").first).to_have_text("Print the job")
    with bench.page.expect_download() as saved:
        sheets.locator("button").first.click()
    assert saved.value.suggested_filename == "orchard-harvest-supper-job.pdf"
    assert len(pypdf.PdfReader(saved.value.path()).pages) > 15
    groups = sheets.get_by_role("group")
    assert groups.count() == 9 and groups.first.get_attribute("aria-label") == "Buy"


def test_the_bench_sheet_is_printed_in_one_way(bench: Bench) -> None:
    """The button in its section saves the very sheet that stands among the sheets."""
    order = bench.open(ORDER, "order")
    files = []
    for button in (order.locator(".pb-section[data-section=bench] > button"), order.get_by_role("button", name="Bench sheet", exact=True)):
        with bench.page.expect_download() as saved:
            button.click()
        files.append((saved.value.suggested_filename, saved.value.path().read_bytes()))
    assert files[0] == files[1] and files[0][0] == "orchard-harvest-supper-bench-sheet.pdf"


def test_the_shopping_list_is_copied_as_text(bench: Bench) -> None:
    bench.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    order = bench.open(ORDER, "order")
    order.get_by_role("button", name="Copy the list as text").click()
    expect(order.locator(".pb-status")).to_contain_text("The list is copied")
    text = bench.page.evaluate("() => navigator.clipboard.readText()")
    assert text.startswith("To buy\n- ") and "\n\nTo have besides\n- Sponge" in text
    assert re.search(r"^- butter, unsalted: \d+ g, 4 of 250 g", text, re.MULTILINE)
    assert "\n- Dowels to cut to 10.5 cm: 4 and 2 spare, in Lower tier\n" in text
