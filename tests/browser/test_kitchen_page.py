"""My kitchen: kept once, every calculator starts from it and says so; typed values win; one file carries it to another device."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
from playwright.sync_api import Browser, Locator, expect

from tests.browser.helpers import Bench, field, figure, ready
from tests.browser.test_store import press_undo, status, unfold

KITCHEN, SWAGS, WHOLE = "plan/my-kitchen/", "techniques/swags/", "plan/whole-cake/"


def said(calculator: Locator, name: str) -> Locator:
    """Where a field or a group says that it comes from."""
    return calculator.locator(f'[data-input="{name}"] > .pb-from')


def add_tip(kitchen: Locator, number: int, tip: str) -> None:
    """Write one more tip into the kitchen."""
    kitchen.get_by_role("button", name="Add a tip").click()
    field(kitchen, f"tips.{number}.tip").fill(tip)


def fill_kitchen(bench: Bench) -> Locator:
    """A kitchen with tips, cutters, a pace and a price for an hour."""
    kitchen = bench.open(KITCHEN, "kitchen")
    field(kitchen, "cutters").fill("7.5 cm")
    add_tip(kitchen, 0, "petal 13 mm")
    add_tip(kitchen, 1, "open star 5 mm")
    field(kitchen, "hand").select_option("learning")
    field(kitchen, "rate").fill("22")
    field(kitchen, "currency").fill("£")
    field(kitchen, "maker_name").fill("Quince and Quill")
    ready(kitchen)
    return kitchen


def test_a_calculator_starts_from_the_kitchen_and_what_is_typed_in_it_wins(bench: Bench) -> None:
    kitchen = fill_kitchen(bench)
    expect(said(kitchen, "cutters")).to_contain_text("Kept by you on")
    expect(said(kitchen, "hours")).to_have_text("The handbook’s own start")
    swags = bench.open(SWAGS, "swags")
    expect(field(swags, "cutter")).to_have_value("7.5 cm")
    expect(field(swags, "tip")).to_have_value("petal 13 mm")
    expect(said(swags, "cutter")).to_have_text("from My kitchen")
    assert said(swags, "joints").count() == 0
    ready(swags)
    expect(figure(swags, "repeats")).to_contain_text("9")  # 66 cm with a 7.5 cm cutter
    field(swags, "cutter").fill("10 cm")
    ready(swags)
    expect(said(swags, "cutter")).to_contain_text("has another")
    bench.page.reload()
    swags = bench.calculator("swags")
    expect(field(swags, "cutter")).to_have_value("10 cm")
    expect(field(swags, "tip")).to_have_value("petal 13 mm")
    swags.get_by_role("button", name="Take it from there").click()
    expect(field(swags, "cutter")).to_have_value("7.5 cm")
    press_undo(swags)
    expect(field(swags, "cutter")).to_have_value("10 cm")


def test_an_order_kept_before_keeps_its_meaning_and_what_it_leaves_open_follows(bench: Bench) -> None:
    order = bench.open(WHOLE, "order")
    unfold(order)
    field(order, "name").fill("Before the kitchen")
    field(order, "rate").fill("31")
    ready(order)
    fill_kitchen(bench)
    order = bench.open(WHOLE, "order")
    unfold(order)
    expect(field(order, "name")).to_have_value("Before the kitchen")
    expect(field(order, "rate")).to_have_value("31")
    expect(field(order, "hand")).to_have_value("learning")
    expect(said(order, "hand")).to_have_text("from My kitchen")
    expect(field(order, "maker.0.name")).to_have_value("Quince and Quill")
    expect(said(order, "maker")).to_have_text("from My kitchen")
    expect(field(order, "tips")).to_have_value("petal 13 mm, open star 5 mm")
    order.locator('[data-input="maker"]').get_by_role("button", name="Remove Maker 1").click()
    ready(order)
    bench.page.reload()
    order = bench.calculator("order")
    ready(order)
    assert order.locator('[data-input="maker"] .pb-copies > .pb-group').count() == 0  # none, though the kitchen has one


def test_two_tabs_share_the_kitchen_at_once(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    expect(field(swags, "cutter")).to_have_value("9 cm")
    other = Bench(bench.page.context.new_page(), bench.address)
    kitchen = other.open(KITCHEN, "kitchen")
    field(kitchen, "cutters").fill("8 cm")
    ready(kitchen)
    expect(field(swags, "cutter")).to_have_value("8 cm")
    press_undo(kitchen)
    expect(field(swags, "cutter")).to_have_value("9 cm")


def saved(bench: Bench, kitchen: Locator, folder: Path) -> Path:
    """The kitchen as a file."""
    with bench.page.expect_download() as download:
        kitchen.get_by_role("button", name="Save as a file").click()
    assert download.value.suggested_filename == "my-kitchen.toml"
    path = folder / "my-kitchen.toml"
    download.value.save_as(path)
    return path


def test_a_kitchen_is_carried_to_a_fresh_profile(bench: Bench, browser: Browser, tmp_path: Path) -> None:
    path = saved(bench, fill_kitchen(bench), tmp_path)
    fresh = browser.new_context(viewport={"width": 1280, "height": 800}, service_workers="block")
    there = Bench(fresh.new_page(), bench.address)
    there.watch()
    kitchen = there.open(KITCHEN, "kitchen")
    assert field(kitchen, "cutters").input_value() == ""
    kitchen.locator(".pb-file").set_input_files(path)
    expect(status(kitchen)).to_contain_text("Opened my-kitchen.toml")
    expect(field(kitchen, "tips.1.tip")).to_have_value("open star 5 mm")
    expect(said(kitchen, "hours")).to_have_text("The handbook’s own start")
    swags = there.open(SWAGS, "swags")
    expect(field(swags, "cutter")).to_have_value("7.5 cm")
    expect(said(swags, "tip")).to_have_text("from My kitchen")
    assert there.errors == []
    fresh.close()


def test_a_damaged_kitchen_changes_nothing(bench: Bench, tmp_path: Path) -> None:
    kitchen = fill_kitchen(bench)
    whole = saved(bench, kitchen, tmp_path).read_bytes()
    chance = Random(15)
    stood = _texts(kitchen)
    for number in range(4):  # tests/calc/test_kitchen.py tries fifty
        at = chance.randrange(10, len(whole) - 10)
        damaged = tmp_path / f"damaged-{number}.toml"
        damaged.write_bytes(whole[:at] if number % 2 else whole[:at] + b"#" + whole[at + 1 :])
        kitchen.locator(".pb-file").set_input_files(damaged)
        expect(status(kitchen)).to_contain_text(f"damaged-{number}.toml was not opened, and nothing was changed")
        assert _texts(kitchen) == stood


def _texts(calculator: Locator) -> list[str]:
    return calculator.locator(".pb-form").evaluate("form => [...form.querySelectorAll('input, select')].map(each => each.value)")  # type: ignore[no-any-return]


@pytest.mark.parametrize("units", ["us"])
def test_a_kitchen_of_other_units_keeps_its_lengths(bench: Bench, units: str) -> None:
    kitchen = bench.open(KITCHEN, "kitchen")
    field(kitchen, "cutters").fill("9")
    ready(kitchen)
    kitchen.locator(f'.pb-units input[value="{units}"]').check()
    expect(field(kitchen, "cutters")).to_have_value("9 cm")
    expect(said(kitchen, "hours")).to_have_text("The handbook’s own start")
    swags = bench.open(SWAGS, "swags")
    expect(field(swags, "cutter")).to_have_value("9 cm")


def test_use_my_cake_fills_a_technique_from_a_tier_as_one_step(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    swags.get_by_role("button", name="Use my cake").click()
    expect(status(swags)).to_contain_text("No order of yours is kept yet")
    order = bench.open(WHOLE, "order")
    field(order, "name").fill("Orchard supper")
    field(order, "tiers.0.side").fill("71 cm")
    ready(order)
    order.locator(".pb-another").dispatch_event("click")
    expect(order.locator('[data-input="tiers"] > .pb-copies > .pb-group')).to_have_count(1)
    field(order, "name").fill("A small one")
    ready(order)
    swags = bench.open(SWAGS, "swags")
    before = [field(swags, name).input_value() for name in ("side", "cutter", "repeats", "joints")]
    swags.get_by_role("button", name="Use my cake").click()
    swags.locator(".pb-cake-choices select").select_option(label="Orchard supper")
    swags.locator(".pb-cake-tiers button", has_text="Lower tier: swags, petal 11 mm").click()
    expect(field(swags, "side")).to_have_value("71 cm")
    expect(status(swags)).to_contain_text("Filled from Orchard supper, Lower tier")
    ready(swags)
    assert swags.locator(".pb-cake-choices").count() == 0
    press_undo(swags)
    assert [field(swags, name).input_value() for name in ("side", "cutter", "repeats", "joints")] == before
