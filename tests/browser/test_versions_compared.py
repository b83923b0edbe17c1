"""Two versions of an order side by side: what differs, either taken up, nothing lost, at three sizes and by the keys alone."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, expect

from tests.browser.helpers import Bench, field

PAGE = "plan/whole-cake/"


def cells(root: Locator) -> dict[str, list[str]]:
    """The rows of the table of what differs, by their headings."""
    script = "rows => rows.map(row => [...row.cells].map(cell => cell.textContent))"
    return {head: rest for head, *rest in root.locator(".pb-versions tbody tr").evaluate_all(script)}


def tools(root: Locator) -> Locator:
    """The fold of what can be done with orders, opened."""
    fold = root.locator(".pb-kept-orders")
    if fold.get_attribute("open") is None:
        fold.locator(":scope > summary").click()
    return fold


@pytest.mark.parametrize(("wide", "high"), [(1280, 900), (390, 844)])
def test_an_order_is_kept_and_another_way_tried(bench: Bench, wide: int, high: int) -> None:
    """Only what differs is told; both can be taken up, one after the other, and each is kept as it was left."""
    bench.page.set_viewport_size({"width": wide, "height": high})
    root = bench.open(PAGE, "order")
    tools(root).locator(".pb-branch").click()
    place = root.locator(".pb-versions")
    expect(place).to_contain_text("The two orders and their results are the same")
    expect(place.locator(".pb-versions-title")).to_be_focused()
    expect(root.locator(".pb-tools > .pb-status")).to_contain_text("Kept as “Orchard harvest supper, as it was”.")
    field(root, "guests").fill("60")
    field(root, "tiers.0.height").fill("12 cm")
    expect(place.locator("tbody tr", has_text="Guests")).to_contain_text("60")
    expect(place.locator("tbody tr", has_text="Tier 1")).to_be_visible()
    found = cells(root)
    assert found["Guests"] == ["60", "36", ""] and found["Buttercream to make"][2].endswith(" less")
    assert "Portions" not in found and not any(label.startswith("Tier 2") for label in found)
    assert place.locator("img").evaluate_all("images => images.every(image => image.complete && image.naturalWidth > 0 && image.alt)")
    assert bench.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    place.locator(".pb-versions-take").click()
    expect(field(root, "guests")).to_have_value("36")
    expect(place.locator("figure").last).to_contain_text("Orchard harvest supper")
    expect(place.locator("tbody tr", has_text="Guests").locator("td").nth(1)).to_have_text("60")
    place.locator(".pb-versions-take").click()
    expect(field(root, "guests")).to_have_value("60")
    assert field(root, "tiers.0.height").input_value() == "12 cm"


def test_an_order_is_compared_with_what_it_was_and_taken_back_by_the_keys(bench: Bench) -> None:
    """The list offers the last steps; taking the earlier version up is a step that Undo takes back."""
    root = bench.open(PAGE, "order")
    field(root, "guests").fill("60")
    field(root, "cutters").fill("8 cm")
    expect(root.locator(".pb-answer")).not_to_have_attribute("data-stale", "")
    tools(root)
    select = root.locator(".pb-compare")
    select.focus()
    expect(select.locator("option", has_text="before: Guests")).to_have_count(1)
    select.select_option(label="before: Guests")
    place = root.locator(".pb-versions")
    expect(place.locator("tbody tr", has_text="Round cutters at hand")).to_contain_text("9 cm, 7.5 cm")
    take = place.locator(".pb-versions-take")
    take.focus()
    take.press("Enter")
    expect(field(root, "guests")).to_have_value("36")
    expect(root.locator(".pb-tools > .pb-status")).to_contain_text("Undo brings back the later one")
    root.locator(".pb-undo").click()
    expect(field(root, "guests")).to_have_value("60")
    assert field(root, "cutters").input_value() == "8 cm"
    place.locator(".pb-versions-end").press("Enter")
    expect(place).to_have_count(0)
    expect(root.locator(".pb-kept-orders > summary")).to_be_focused()


def test_what_cannot_be_worked_out_is_said_and_a_kept_order_is_compared(bench: Bench) -> None:
    """A kept order with a mistake in it says so; put right, what differs is told."""
    root = bench.open(PAGE, "order")
    field(root, "guests").fill("many")
    tools(root).locator(".pb-another").click()
    expect(field(root, "name")).not_to_have_value("Orchard harvest supper")
    select = root.locator(".pb-compare")
    select.focus()
    expect(select.locator("option", has_text="Orchard harvest supper")).to_have_count(1)
    select.select_option(label="Orchard harvest supper")
    place = root.locator(".pb-versions")
    expect(place).to_contain_text("Orchard harvest supper: one thing is to be put right before it can be compared.")
    place.locator(".pb-versions-take").click()
    expect(field(root, "guests")).to_have_value("many")
    field(root, "guests").fill("36")
    expect(place.locator("tbody tr", has_text="Tier 1").first).to_be_visible()
