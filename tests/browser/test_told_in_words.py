"""What changed is said in words to whoever does not see it, and each thing that can be reached has a name of its own."""

from __future__ import annotations

from playwright.sync_api import Locator, Page, expect

from tests.browser.helpers import Bench, field


def status(root: Locator) -> Locator:
    return root.locator(".pb-tools > .pb-status")


def test_an_edit_that_changes_amounts_and_price_says_so(bench: Bench) -> None:
    order = bench.open("plan/whole-cake/", "order")
    recipe = order.locator('[data-name="recipe"]')
    recipe.select_option("plain")
    expect(status(order)).to_contain_text("Buttercream to make: ")
    expect(status(order)).to_contain_text("Price: ")


def test_a_removed_row_is_said_with_what_it_changed(bench: Bench) -> None:
    order = bench.open("plan/whole-cake/", "order")
    remove = order.get_by_role("button", name="Remove Row 2 from Tier 1", include_hidden=True)
    remove.evaluate("button => button.click()")
    expect(status(order)).to_contain_text("Row 2 removed. Buttercream to make: ")


def test_a_mistake_is_said_by_its_field_and_its_mending_too(bench: Bench) -> None:
    swags = bench.open("techniques/swags/", "swags")
    side = field(swags, "side")
    side.fill("9 kg")
    side.press("Tab")
    expect(status(swags)).to_contain_text("Round the side")
    side.fill("70 cm")
    expect(status(swags)).to_contain_text("That is put right. ")


def test_groups_of_different_tiers_have_different_names(bench: Bench) -> None:
    order = bench.open("plan/whole-cake/", "order")
    names = order.evaluate(
        """root => [...root.querySelectorAll('.pb-items[role=group]')].map(group => group.getAttribute('aria-label')
            ?? document.getElementById(group.getAttribute('aria-labelledby')).textContent)"""
    )
    adds = order.evaluate("root => [...root.querySelectorAll('.pb-add')].map(button => button.getAttribute('aria-label') ?? button.textContent)")
    assert "Rows on this tier, Tier 2" in names and len(set(names)) == len(names)
    assert "Add a row to Tier 1" in adds and len(set(adds)) == len(adds)


def stops(page: Page) -> list[str]:
    """What the Tab key reaches and nobody sees; the focus of the theme's own choice of colours shows at its label."""
    found: list[str] = page.evaluate(
        """() => [...document.querySelectorAll('a[href], button, input:not(.md-option), summary, [tabindex]')]
            .filter(e => e.tabIndex >= 0 && e.checkVisibility({ visibilityProperty: true }) && !e.getBoundingClientRect().height)
            .map(e => e.className || e.tagName)"""
    )
    return found


def test_no_tab_stop_is_without_height_and_no_pilcrow_is_in_a_name(bench: Bench) -> None:
    bench.open("techniques/swags/", "swags")
    assert stops(bench.page) == []
    assert bench.page.get_by_role("heading", name="At a glance", exact=True).count() == 1
    assert bench.page.get_by_role("link", name="¶").count() == 0
    assert bench.page.get_by_role("rowheader", name="Also called", exact=True).count() == 1
    meaning = bench.page.locator("article abbr").first
    meaning.focus()
    expect(meaning).to_be_focused()


def test_the_part_of_an_answer_that_a_key_leads_to_is_outlined(bench: Bench) -> None:
    order = bench.open("plan/whole-cake/", "order")
    link = order.locator(".pb-jump a[data-part=price]")
    link.focus()
    bench.page.keyboard.press("Enter")
    price = order.locator("[data-section=price]")
    expect(price).to_be_focused()
    assert price.evaluate("section => getComputedStyle(section).outlineStyle") == "solid"


def test_forced_colours_leave_signs_to_be_seen(bench: Bench) -> None:
    bench.page.emulate_media(forced_colors="active")
    order = bench.open("plan/whole-cake/", "order")
    canvas = bench.page.evaluate(
        "() => { const e = document.createElement('i'); e.style.color = 'Canvas'; document.body.append(e); return getComputedStyle(e).color }"
    )
    signs = ((".pb-offline-button", "::before"), (".md-header", "::after"), (".md-tabs__item--active .md-tabs__link", "::before"))
    for where, part in signs:
        ground = bench.page.locator(where).first.evaluate("(e, part) => getComputedStyle(e, part).backgroundColor", part)
        assert ground not in (canvas, "rgba(0, 0, 0, 0)"), where
    when = order.locator(".pb-when").first.evaluate("e => getComputedStyle(e, '::before').backgroundColor")
    assert when not in (canvas, "rgba(0, 0, 0, 0)")
