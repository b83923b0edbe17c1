"""The ways to divide a tier, taken by a press: they stay listed, say why they stand there, and are given back."""

from __future__ import annotations

from playwright.sync_api import Locator, expect

from tests.browser.helpers import Bench, field

PAGE = "plan/whole-cake/"


def rows(root: Locator) -> list[list[str]]:
    """What the table of the first tier says, without its presses."""
    cells = "rows => rows.map(row => [...row.cells].slice(0, 5).map(cell => cell.textContent))"
    found: list[list[str]] = root.locator('[data-table="others_1"] tbody tr').evaluate_all(cells)
    return found


def test_a_way_to_divide_is_taken_and_given_back(bench: Bench) -> None:
    """The press fills repeats and cutter as one step; the list stands as it stood, and Undo and the other press take it back."""
    root = bench.open(PAGE, "order")
    before = rows(root)
    assert len(before) == 5 and all(row[4] for row in before)
    press = root.get_by_role("button", name="Use 8 with 9 cm")
    press.focus()
    press.press("Enter")
    expect(root.locator('[data-table="others_1"]')).to_contain_text("Your choice")
    assert (field(root, "tiers.0.repeats").input_value(), field(root, "tiers.0.cutter").input_value()) == ("8", "9 cm")
    assert rows(root) == before
    expect(root.locator('[data-table="others_1"]')).to_be_focused()  # what was pressed is gone
    expect(root.locator(".pb-tools > .pb-status")).to_contain_text("Lower tier: 8 repeats with the 9 cm cutter.")
    root.locator(".pb-undo").click()
    expect(root.locator('[data-table="others_1"]')).not_to_contain_text("Your choice")
    assert field(root, "tiers.0.repeats").input_value() == ""
    root.get_by_role("button", name="Use 8 with 9 cm").click()
    root.get_by_role("button", name="Choose for me again").click()
    expect(root.locator('[data-table="others_1"]')).not_to_contain_text("Your choice")
    assert (field(root, "tiers.0.repeats").input_value(), field(root, "tiers.0.cutter").input_value()) == ("", "")


def test_on_the_page_of_swags_too(bench: Bench) -> None:
    root = bench.open("techniques/swags/", "swags")
    table = root.locator('[data-table="others"]')
    first = table.get_by_role("button").first
    words = first.inner_text()
    first.click()
    expect(table).to_contain_text("Your choice")
    assert field(root, "repeats").input_value() == words.removeprefix("Use ")
    root.get_by_role("button", name="Choose for me again").click()
    expect(table).not_to_contain_text("Your choice")


def test_tiers_are_fitted_to_one_another_and_seen_so(bench: Bench) -> None:
    """The cake above is redrawn, the words say what it changed, and one press gives it back."""
    root = bench.open(PAGE, "order")
    cake = root.locator(".pb-stage-view svg")
    before, listed = cake.inner_html(), rows(root)
    repeats = listed[0][0]
    assert int(repeats) % 2 == 1
    root.get_by_role("button", name="Fit the tiers to one another").click()
    note = root.locator(".pb-notes li", has_text="The tiers are fitted to one another")
    expect(note).to_contain_text("a joint at the front of each")
    expect(note).to_contain_text(f"Lower tier {repeats} repeats")
    expect(field(root, "together")).to_have_value("yes")
    expect(root).not_to_have_attribute("data-old-picture", "")  # the cake is drawn while the words are shown
    assert cake.inner_html() != before
    note.get_by_role("button", name="Divide each tier separately").click()
    expect(note).to_have_count(0)
    assert rows(root) == listed
