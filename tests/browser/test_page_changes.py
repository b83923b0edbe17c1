"""The theme swaps the body of the page instead of loading a new one: one worker lives through it, and what was typed comes back."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.helpers import Bench, field, figure, ready

CLIENT = """async () => (await import(document.querySelector("script[src$='/handbook.js']").src)).client.starts"""


def test_one_worker_lives_through_page_changes(bench: Bench) -> None:
    bench.open("techniques/swags/", "swags")
    bench.can_change_pages()
    bench.page.evaluate("() => { window.sameWindow = true }")
    (worker,) = bench.workers
    for name, path in (("division", "techniques/dividing-a-side/"), ("coats", "techniques/coats/"), ("swags", "techniques/swags/")):
        bench.change(path)
        calculator = bench.calculator(name)
        ready(calculator)
        assert bench.page.evaluate("() => window.sameWindow === true"), "the page was reloaded"
        assert bench.workers == [worker]
    assert bench.page.evaluate(CLIENT) == 1
    swags = bench.calculator("swags")
    field(swags, "side").fill("80 cm")
    before = figure(swags, "length_total").inner_text()
    expect(figure(swags, "length_total")).not_to_have_text("")
    assert before


def test_what_was_typed_is_there_when_the_reader_comes_back(bench: Bench) -> None:
    swags = bench.open("techniques/swags/", "swags")
    field(swags, "side").fill("72,5 cm")
    ready(swags)
    shown = figure(swags, "width").inner_text()
    bench.can_change_pages()
    bench.change("techniques/coats/")
    ready(bench.calculator("coats"))
    bench.page.go_back()
    swags = bench.calculator("swags")
    expect(field(swags, "side")).to_have_value("72,5 cm")
    expect(figure(swags, "width")).to_have_text(shown)


def test_the_root_says_which_parts_the_page_has(bench: Bench) -> None:
    """The style sheets go by it: it is as the build writes it into a page that is reloaded."""
    bench.open("techniques/coats/", "coats")
    root = bench.page.locator("html")
    expect(root).not_to_have_attribute("data-has", "record stage jump pair")
    bench.can_change_pages()
    bench.change("plan/whole-cake/")
    expect(root).to_have_attribute("data-has", "record stage jump pair")
    bench.page.reload()
    expect(root).to_have_attribute("data-has", "record stage jump pair")
    bench.can_change_pages()
    bench.change("techniques/coats/")
    expect(root).not_to_have_attribute("data-has", "record stage jump pair")
