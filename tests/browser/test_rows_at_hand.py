"""What can be done at a row itself, as a person does it, and what is said of it."""

from __future__ import annotations

import re

from playwright.sync_api import expect

from tests.browser.helpers import Bench, field, ready
from tests.browser.test_whole_cake import PAGE, status, tiers, unfold


def test_what_is_done_at_a_row_is_said_with_the_new_answer(bench: Bench) -> None:
    order = bench.open(PAGE, "order")
    unfold(order)
    lower, upper = (order.get_by_role("group", name=re.compile(f"^Tier {i}")) for i in (1, 2))
    count = upper.locator('.pb-items[data-group="rows"] > .pb-copies > .pb-group').count()
    order.get_by_role("group", name=re.compile("^Row 2, .*, Tier 1$")).get_by_role("button", name="Copy Row 2 of Tier 1 to Tier 2").click()
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
    cure.get_by_role("button", name="Take ivory").press("Enter")
    expect(cure).to_have_count(0)
    assert field(order, "tiers.1.colour").input_value() == "ivory"
