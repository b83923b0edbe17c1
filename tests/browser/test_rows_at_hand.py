"""What can be done at a row itself, as a person does it, and what is said of it."""

from __future__ import annotations

import re

from playwright.sync_api import Locator, expect

from tests.browser.helpers import Bench, field, ready
from tests.browser.test_whole_cake import PAGE, status, tiers, unfold


def test_what_is_done_at_a_row_is_said_with_the_new_answer(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    lower, upper = (order.get_by_role("group", name=re.compile(f"^Tier {i}")) for i in (1, 2))
    count = upper.locator('.pb-items[data-group="rows"] > .pb-copies > .pb-group').count()
    order.get_by_role("group", name=re.compile("^Row 2, .*, Tier 1$")).get_by_role("button", name="Copy to Tier 2: Row 2 of Tier 1").click()
    expect(upper.locator('.pb-items[data-group="rows"] > .pb-copies > .pb-group')).to_have_count(count + 1)
    expect(status(order)).to_have_text(re.compile(rf"^Row 2 copied to Tier 2, as Row {count + 1} there\. .*\d"))
    lower.get_by_role("button", name="Remove Row 2 from Tier 1").focus()
    bench.page.keyboard.press("Enter")
    expect(status(order)).to_have_text(re.compile(r"^Row 2 removed\. .*\d"))
    bench.page.keyboard.press("ControlOrMeta+z")
    expect(status(order)).to_have_text(re.compile(r"^Undone: Remove Row 2 from Tier 1\. .*\d"))
    expect(tiers(order)).to_have_count(2)
    tiers(order).first.get_by_role("button", name="Tier 1 once more").click()
    ready(order)
    names = [tier.get_by_label("Name", exact=True).first.input_value() for tier in tiers(order).all()]
    assert len(set(names)) == 3, names


def test_a_kind_brings_its_place_and_tip_as_one_step(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    row = order.get_by_role("group", name="Row 1, Swag, Tier 1")
    before = {name: field(order, f"tiers.0.rows.0.{name}").input_value() for name in ("kind", "place", "tip", "drop")}
    row.get_by_label("Row", exact=True).select_option("shell")
    assert [field(order, f"tiers.0.rows.0.{name}").input_value() for name in ("place", "tip", "drop")] == ["base", "", ""]
    expect(status(order)).to_have_text(re.compile(r"^Shell\. Where: round the base; Tip: its own\. .*\d"))
    order.get_by_role("button", name="Undo", exact=True).first.click()
    assert {name: field(order, f"tiers.0.rows.0.{name}").input_value() for name in before} == before


def test_what_is_amiss_is_mended_where_it_stands(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    field(order, "tiers.0.rows.0.drop").fill("11 cm")
    row = order.get_by_role("group", name="Row 1, Swag, Tier 1")
    cure = row.locator(":scope > .pb-cures")
    expect(cure).to_contain_text("past the upper edge of Row 4")
    box = cure.get_by_role("button", name=re.compile("^Make its drop")).bounding_box()
    assert box and box["height"] >= 44
    cure.get_by_role("button", name=re.compile("^Make its drop")).click()
    expect(cure).to_have_count(0)
    expect(status(order)).to_have_text(re.compile(r"^Row 1 drops \d+ mm\. .*\d"))
    field(order, "tiers.1.colour").fill("ivroy")
    bench.page.keyboard.press("Tab")
    cure = order.get_by_role("group", name=re.compile("^Tier 2,")).locator(":scope > .pb-cures")
    cure.get_by_role("button", name="Use ivory").press("Enter")
    expect(cure).to_have_count(0)
    assert field(order, "tiers.1.colour").input_value() == "ivory"


def test_a_kind_a_tip_and_a_colour_are_chosen_from_pictures(bench: Bench) -> None:
    bench.page.set_viewport_size({"width": 390, "height": 844})
    order = bench.open(PAGE, "order")
    unfold(order)

    def opened(name: str) -> Locator:
        place = order.locator(f'.pb-field[data-input="tiers.0.rows.0.{name}"]')
        place.get_by_role("button", name="choose by eye").click()
        expect(place.locator(".pb-choice[aria-pressed=true]")).to_be_focused()
        return place

    kinds = opened("kind")
    assert kinds.locator(".pb-choice").count() == kinds.locator("option").count() == kinds.locator(".pb-choice > svg").count()
    for box in (choice.bounding_box() for choice in kinds.locator(".pb-choice").all()):
        assert box and box["height"] >= 44 and box["width"] >= 44 and box["x"] + box["width"] <= 390
    kinds.get_by_role("button", name="Shell", exact=True).click()
    assert [field(order, f"tiers.0.rows.0.{name}").input_value() for name in ("kind", "place", "tip")] == ["shell", "base", ""]
    expect(status(order)).to_have_text(re.compile(r"^Shell\. Where: round the base; Tip: its own\. .*\d"))
    tips = opened("tip")
    assert "petal" not in tips.locator(".pb-choices > div").first.inner_text()
    tips.get_by_role("button", name="open star 10 mm", exact=True).click()
    expect(status(order)).to_have_text(re.compile(r"^Tip: open star 10 mm\. .*\d"))
    colours = opened("colour")
    before = field(order, "tiers.0.rows.0.colour").input_value()
    bench.page.keyboard.press("Escape")
    expect(colours.get_by_role("button", name="choose by eye")).to_be_focused()
    expect(colours.locator(".pb-choices")).to_have_count(0)
    bench.page.keyboard.press("Enter")
    expect(colours.locator(".pb-choice[aria-pressed=true]")).to_be_focused()
    for key in ("End", "ArrowLeft", "ArrowUp", "ArrowDown"):
        bench.page.keyboard.press(key)
    chosen = colours.locator(".pb-choice:focus").inner_text()
    bench.page.keyboard.press("Enter")
    expect(field(order, "tiers.0.rows.0.colour")).to_have_value(chosen)
    assert chosen != before
    for _ in range(3):
        bench.page.keyboard.press("ControlOrMeta+z")
    assert [field(order, f"tiers.0.rows.0.{name}").input_value() for name in ("kind", "place", "colour")] == ["swag", "side", before]


def test_two_colours_in_one_bag_are_drawn_weighed_and_told(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    drawing = order.locator(".pb-drawing[data-stays] svg")
    assert "#a8b699" not in drawing.inner_html()
    second = order.locator('.pb-field[data-input="tiers.0.rows.3.second"]')
    second.get_by_role("button", name="Second colour: choose by eye").click()
    second.get_by_role("button", name="sage", exact=True).click()
    expect(order.get_by_role("row", name=re.compile("russet and sage"))).not_to_have_count(0)
    expect(order.locator('.pb-section[data-section="amounts"]')).to_contain_text("Two colours in one bag")
    expect(order.locator('.pb-section[data-section="amounts"]')).to_contain_text("sage")
    expect(order.get_by_role("group", name="Row 4, Shell, Tier 1").locator(":scope > summary")).to_contain_text("with sage")
    bench.page.reload()
    order = bench.calculator("order")
    assert field(order, "tiers.0.rows.3.second").input_value() == "sage"
