"""The cake that stays in sight on the order page: at first paint, while any field is edited, and pressed to come to a part's fields."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.browser.helpers import Bench, edges, wait_for_paint

PAGE = "plan/whole-cake/"
DRAWING = ".pb-stage-view .pb-drawing > svg"


@pytest.mark.parametrize(("wide", "high"), [(1280, 900), (1024, 768)])
def test_the_cake_is_in_sight_at_once_and_stays(bench: Bench, wide: int, high: int) -> None:
    """At least 320 px high before anything is scrolled, and whole beside every field that takes the focus."""
    bench.page.set_viewport_size({"width": wide, "height": high})
    root = bench.open(PAGE)
    _, top, _, low = edges(root, DRAWING)
    assert low - top >= 320 and low <= high
    for name in ("guests", "tiers.0.width", "tiers.1.rows.3.colour"):
        field = root.locator(f'[data-name="{name}"]')
        field.evaluate(
            "field => { for (let place = field.closest('details'); place; place = place.parentElement.closest('details')) place.open = true; }"
        )
        field.focus()
        wait_for_paint(bench.page)
        _, top, _, low = edges(root, DRAWING)
        _, field_top, _, field_low = edges(root, f'[data-name="{name}"]')
        assert top >= 0 and low <= high and low - top >= 320, name
        assert field_top >= 0 and field_low <= high + 1, name


def test_on_a_telephone_a_small_cake_stays_at_the_top(bench: Bench) -> None:
    bench.page.set_viewport_size({"width": 390, "height": 844})
    root = bench.open(PAGE)
    field = root.locator('[data-name="tiers.0.height"]')
    field.evaluate(
        "field => { for (let place = field.closest('details'); place; place = place.parentElement.closest('details')) place.open = true; }"
    )
    field.focus()
    field.evaluate("field => field.scrollIntoView({ block: 'center' })")
    wait_for_paint(bench.page)
    left, top, right, low = edges(root, DRAWING)
    assert left >= 0 and right <= 390 and 0 <= top < 120 and 90 <= low - top <= 190
    assert edges(root, '[data-name="tiers.0.height"]')[1] > low


def test_the_parts_of_the_answer_are_a_press_away(bench: Bench) -> None:
    root = bench.open(PAGE)
    root.locator('.pb-jump a[data-part="price"]').click()
    wait_for_paint(bench.page)
    part = edges(root, '.pb-section[data-section="price"]')
    assert edges(root, ".pb-jump")[3] - 2 <= part[1] < bench.page.viewport_size["height"] - 60  # type: ignore[index]


def test_a_press_on_a_row_opens_its_fields_and_lights_it(bench: Bench) -> None:
    root = bench.open(PAGE)
    row = root.locator(f'{DRAWING} [data-part="tiers.0.rows.0"]').last
    row.dispatch_event("click")
    focused = bench.page.evaluate("document.activeElement.dataset.name")
    assert re.match(r"tiers\.0\.rows\.0\.", focused)
    expect(root.locator(f'[data-name="{focused}"]')).to_be_in_viewport()
    lit = root.locator(f"{DRAWING} .pb-lit")
    assert lit.count() >= 1
    assert set(lit.evaluate_all("parts => parts.map(part => part.dataset.part)")) == {"tiers.0.rows.0"}
    root.locator('[data-name="guests"]').focus()
    assert root.locator(f"{DRAWING} .pb-lit").count() == 0


def test_a_press_in_another_view_goes_there_too(bench: Bench) -> None:
    root = bench.open(PAGE)
    for name in ("side", "top"):
        root.locator(f'.pb-drawing[data-drawing="{name}"] [data-part="tiers.1.rows.0"]').last.dispatch_event("click")
        assert bench.page.evaluate("document.activeElement.dataset.name").startswith("tiers.1.rows.0.")
        root.locator('[data-name="guests"]').focus()


def test_by_keyboard_the_list_leads_to_every_part(bench: Bench) -> None:
    """Each tier and row has its name in a list beside the drawing; Enter goes to its fields."""
    root = bench.open(PAGE)
    names = root.locator(".pb-stage-parts button")
    fields = root.locator(".pb-form [data-name^='tiers.']").evaluate_all("fields => fields.map(field => field.dataset.name)")
    asked = {match[0] for name in fields if (match := re.match(r"tiers\.\d+(\.rows\.\d+)?(?=\.)", name))}
    assert set(names.evaluate_all("names => names.map(name => name.dataset.part)")) == asked
    last = root.locator('.pb-stage-parts button[data-part="tiers.1.rows.1"]')
    last.focus()
    last.press("Enter")
    assert bench.page.evaluate("document.activeElement.dataset.name").startswith("tiers.1.rows.1.")


@pytest.mark.parametrize(("wide", "high"), [(1280, 900), (1024, 768)])
def test_no_part_of_two_tiers_is_cut_off_in_the_list(bench: Bench, wide: int, high: int) -> None:
    bench.page.set_viewport_size({"width": wide, "height": high})
    parts = bench.open(PAGE).locator(".pb-stage-parts")
    assert parts.locator("button").count() == 10
    assert parts.evaluate("list => list.scrollHeight - list.clientHeight") <= 0
    assert parts.locator("button").evaluate_all("names => names.every(name => name.scrollWidth <= name.clientWidth && name.clientHeight >= 44)")


def test_the_light_stays_on_a_row_that_is_redrawn(bench: Bench) -> None:
    root = bench.open(PAGE)
    root.locator('.pb-stage-parts button[data-part="tiers.0.rows.0"]').click()
    before = root.locator(DRAWING).inner_html()
    field = root.locator('[data-name="tiers.0.rows.0.colour"]')
    field.fill("bay")
    expect(root.locator(".pb-answer")).not_to_have_attribute("data-stale", "")
    bench.page.wait_for_function("before => document.querySelector('.pb-stage-view svg').innerHTML !== before", arg=before)
    assert set(root.locator(f"{DRAWING} .pb-lit").evaluate_all("parts => parts.map(part => part.dataset.part)")) == {"tiers.0.rows.0"}


def test_a_row_is_lit_while_one_is_at_its_buttons_too(bench: Bench) -> None:
    root = bench.open(PAGE)
    lit = root.locator(".pb-stage-parts .pb-lit")
    root.locator('.pb-stage-parts button[data-part="tiers.0.rows.0"]').click()
    root.locator('.pb-field:has([data-name="tiers.0.rows.0.tip"]) .pb-pick').focus()
    expect(lit).to_have_attribute("data-part", "tiers.0.rows.0")
    root.locator('[data-name="guests"]').focus()
    expect(lit).to_have_count(0)


def test_the_cake_is_saved_as_a_picture(bench: Bench, tmp_path: Path) -> None:
    """The PNG is wide and not empty; the SVG is well-formed, names nothing of the form, and every piece it uses is in it."""
    root = bench.open(PAGE)
    with bench.page.expect_download() as found:
        root.locator(".pb-stage-png").click()
    assert found.value.suggested_filename == "orchard-harvest-supper.png"
    found.value.save_as(tmp_path / "cake.png")
    data = (tmp_path / "cake.png").read_bytes()
    assert data.startswith(b"\x89PNG") and int.from_bytes(data[16:20]) == 1600 and len(data) > 60_000
    with bench.page.expect_download() as found:
        root.locator(".pb-stage-svg").click()
    found.value.save_as(tmp_path / "cake.svg")
    drawn = ET.parse(tmp_path / "cake.svg").getroot()
    ids = {each.attrib["id"] for each in drawn.iter() if "id" in each.attrib}
    used = [each.attrib["{http://www.w3.org/1999/xlink}href"] for each in drawn.iter("{http://www.w3.org/2000/svg}use")]
    assert len(used) > 50 and {name.removeprefix("#") for name in used} <= ids
    assert not [each for each in drawn.iter() if "data-part" in each.attrib or "class" in each.attrib and "pb-lit" in each.attrib["class"]]


def test_without_scripts_the_cake_stands_there(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.goto(address + PAGE)
    box = page.locator(DRAWING).bounding_box()
    assert box and box["height"] >= 320 and box["y"] + box["height"] <= 900
    context.close()
