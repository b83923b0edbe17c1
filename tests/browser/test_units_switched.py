"""Units on the page: a switch keeps the meaning of what was typed, and everything on the page follows it."""

from __future__ import annotations

import re

from playwright.sync_api import expect

from tests.browser.helpers import Bench, field, figure, problem, ready


def test_a_switch_keeps_what_was_typed_and_brings_round_figures_to_an_example(bench: Bench) -> None:
    tin = bench.open("look-up/portions/")
    width = field(tin, "width")
    expect(width).to_have_value("22 cm")
    expect(tin.locator('[data-input="width"] .pb-unit')).to_have_text("cmin", use_inner_text=False)
    expect(tin.locator('[data-input="width"] .pb-unit')).to_have_text("cm", use_inner_text=True)
    tin.get_by_role("radio", name="US").check()
    expect(width).to_have_value(re.compile(r"^[\d/ ]+ in$"))
    expect(tin.locator('[data-input="width"] .pb-unit')).to_have_text("in", use_inner_text=True)
    tin.get_by_role("radio", name="Metric").check()
    expect(width).to_have_value("22 cm")

    tin.get_by_role("radio", name="US").check()
    width.fill("8")
    expect(figure(tin, "portions")).not_to_have_text("")
    ready(tin)
    told = figure(tin, "portions").inner_text()
    tin.get_by_role("radio", name="Metric").check()
    expect(width).to_have_value("8 in")
    ready(tin)
    expect(figure(tin, "portions")).to_have_text(told)

    bench.page.reload()
    tin = bench.calculator()
    expect(field(tin, "width")).to_have_value("8 in")


def test_what_was_typed_in_one_system_is_spelled_out_when_it_comes_back_in_the_other(bench: Bench) -> None:
    tin = bench.open("look-up/portions/")
    tin.get_by_role("radio", name="US").check()
    field(tin, "width").fill("9")
    ready(tin)
    other = bench.open("look-up/repeats/")
    other.get_by_role("radio", name="Metric").check()
    tin = bench.open("look-up/portions/")
    expect(field(tin, "width")).to_have_value("9 in")


def test_a_refused_entry_kept_over_a_reload_stands_over_an_answer_in_the_readers_units(bench: Bench) -> None:
    coats = bench.open("plan/coats-and-filling/")
    coats.get_by_role("radio", name="US").check()
    field(coats, "width").fill("eight")
    expect(problem(coats, "width")).not_to_have_text("")
    bench.page.reload()
    coats = bench.calculator()
    expect(problem(coats, "width")).not_to_have_text("")
    expect(figure(coats, "finished_width")).to_contain_text(" in")
    expect(coats.locator(".pb-answer")).to_have_attribute("data-stale", "")


def test_letter_is_offered_once(bench: Bench) -> None:
    whole = bench.open("plan/whole-cake/")
    paper = whole.locator(".pb-paper")
    expect(paper).to_have_value("A4")
    whole.get_by_role("radio", name="US").check()
    expect(paper).to_have_value("Letter")
    paper.select_option("A4")
    whole.get_by_role("radio", name="Metric").check()
    whole.get_by_role("radio", name="US").check()
    expect(paper).to_have_value("A4")
