"""Everything can be done with the keyboard alone."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from tests.browser.helpers import Bench, figure, ready


def focused(page: Page, attribute: str) -> str | None:
    """An attribute of what has the focus."""
    return page.evaluate("name => document.activeElement.getAttribute(name)", attribute)


def test_a_calculator_from_the_first_field_to_the_last_button(bench: Bench) -> None:
    """Tab goes through fields, the button, what can be scrolled, the units and the tools, in the order of the page."""
    division = bench.open("techniques/dividing-a-side/", "division")
    wanted = division.evaluate(
        """root => [...root.querySelectorAll("input, select, textarea, button, summary, [tabindex='0']")]
            .filter(e => !e.disabled && e.offsetParent && (e.type !== "radio" || e.checked)).length"""
    )
    division.locator("input, select, textarea, button, summary").locator("visible=true").first.focus()
    places = []
    for _ in range(wanted):
        place = bench.page.evaluate(
            """() => { const e = document.activeElement; const root = e.closest(".pb-calculator");
                return root ? [...root.querySelectorAll("*")].indexOf(e) : -1 }"""
        )
        places.append(place)
        bench.page.keyboard.press("Tab")
    assert -1 not in places
    assert places == sorted(places)
    assert len(set(places)) == wanted


def test_typing_submitting_and_choosing_units_without_a_mouse(bench: Bench) -> None:
    division = bench.open("techniques/dividing-a-side/", "division")
    division.locator("[data-name=side]").focus()
    bench.page.keyboard.press("Control+A")
    bench.page.keyboard.type("52 cm")
    bench.page.keyboard.press("Enter")
    ready(division)
    expect(figure(division, "pitch")).to_contain_text("cm")
    division.locator(".pb-units input:checked").focus()
    bench.page.keyboard.press("ArrowRight")
    expect(figure(division, "pitch")).to_contain_text("in")


def test_focus_can_be_seen(bench: Bench) -> None:
    """Whatever has the focus has an outline of at least 2 px."""
    division = bench.open("techniques/dividing-a-side/", "division")
    division.locator("[data-name]").first.focus()
    for _ in range(8):
        width = bench.page.evaluate("() => parseFloat(getComputedStyle(document.activeElement).outlineWidth)")
        style = bench.page.evaluate("() => getComputedStyle(document.activeElement).outlineStyle")
        where = focused(bench.page, "class") or focused(bench.page, "data-name")
        assert style != "none" and width >= 2, where
        bench.page.keyboard.press("Tab")
