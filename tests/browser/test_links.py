"""A link carries what was typed, after the #, which no browser sends to a server."""

from __future__ import annotations

import re

from playwright.sync_api import expect

from tests.browser.helpers import Bench, field, figure, ready

SWAGS = "techniques/swags/"


def test_link_brings_what_was_typed(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("66 & a half cm")
    field(swags, "side").fill("66,5 cm")
    swags.get_by_label("US").check()
    ready(swags)
    shown = figure(swags, "width").inner_text()
    bench.page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    swags.get_by_role("button", name="Copy link").click()
    expect(swags.locator(".pb-tools > .pb-status")).to_contain_text("link")
    link = bench.page.evaluate("() => navigator.clipboard.readText()")
    assert link.startswith(bench.address + SWAGS + "#swags:")
    bench.page.evaluate("() => localStorage.clear()")
    fresh = bench.page.context.new_page()
    fresh.goto(link)
    other = Bench(fresh, bench.address).calculator("swags")
    expect(field(other, "side")).to_have_value("66,5 cm")  # a link is taken once the calculator is ready
    expect(figure(other, "width")).to_have_text(shown)


def test_a_link_that_comes_while_another_is_taken_has_its_turn(bench: Bench) -> None:
    """It is not struck from the address by the first, so that a reload tells again what is wrong with it."""
    order = bench.open("plan/whole-cake/", "order")
    good = bench.page.evaluate(
        """async () => {
            const { packed } = await import(document.querySelector("script[src$='/handbook.js']").src);
            return packed('name = "Plum"\\nguests = "61"\\n');
        }"""
    )
    bench.page.evaluate(
        """good => {
            addEventListener("hashchange", () => { location.hash = "#order:order=AAAA"; }, { once: true });
            location.hash = `#order:order=${good}`;
        }""",
        good,
    )
    expect(order.locator(".pb-tools > .pb-status")).to_contain_text("incomplete")
    expect(field(order, "name")).to_have_value("Plum")
    assert bench.page.evaluate("() => location.hash") == "#order:order=AAAA"


def test_a_link_with_markup_in_it_is_only_text(bench: Bench) -> None:
    planted = "%3Cimg%20src%3Dx%20onerror%3D%22window.planted%3D1%22%3E"
    swags = bench.open(f"{SWAGS}#swags:side={planted}&tip={planted}&nonsense={planted}", "swags")
    expect(field(swags, "side")).to_have_value(re.compile("^<img"))
    field(swags, "side").press("Enter")
    expect(swags.locator(".pb-summary")).to_be_visible()
    assert bench.page.evaluate("() => window.planted") is None
    assert swags.locator("img").count() == 0


def test_a_broken_link_changes_nothing_that_it_does_not_name(bench: Bench) -> None:
    swags = bench.open(f"{SWAGS}#swags:side=50%20cm&cut%ZZter=%E0%A4%A", "swags")
    expect(field(swags, "side")).to_have_value("50 cm")
    assert field(swags, "cutter").input_value() != ""


def test_the_students_link_opens_the_practice_and_not_the_plan(bench: Bench) -> None:
    """Each link says what it holds; the students' has the exercises and the buttercream, and nothing of kits and costs."""
    lesson = bench.open("learn/teaching-a-class/", "lesson")
    field(lesson, "exercises").fill("roses, shells")
    ready(lesson)
    own, passed_on = (lesson.get_by_role("button", name=name) for name in ("Copy my own link", "Copy the students’ link"))
    bench.page.evaluate("() => { navigator.clipboard.writeText = (text) => { window.pbCopied = text; return Promise.resolve(); }; }")
    own.click()
    expect(lesson.locator(".pb-tools > .pb-status")).to_contain_text("carries all that you typed")
    assert "/learn/teaching-a-class/#lesson:" in bench.page.evaluate("() => window.pbCopied")
    passed_on.click()
    expect(lesson.locator(".pb-tools > .pb-status")).to_contain_text("Kits, register and prices are not in it")
    link = bench.page.evaluate("() => window.pbCopied")
    assert "/learn/practising/#practice:" in link and "room" not in link and "students" not in link
    practice = bench.open(link[link.index("learn/practising/") :], "practice")
    expect(field(practice, "exercises")).to_have_value("roses, shells")
    expect(practice.locator('.pb-table[data-table="exercises"] tbody tr')).to_have_count(2)
    expect(practice.locator('[data-sheet="practice-small_roses"]')).to_be_visible()
