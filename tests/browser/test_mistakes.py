"""A mistake is said beside its field, with the way out, and nothing that was typed is lost."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.helpers import Bench, field, figure, hold_down, problem

SWAGS = "techniques/swags/"
BAD = ["", "abc", "-3 cm", "6 in by mistake", "1e9 m", "5 kg", "🎂", "<b>6</b> cm", "9" * 10_000]
GOOD = {"15,5 in": "19.7 cm", "10½ in": "13.3 cm", '12"': "15.2 cm", "1 1/2 ft": "22.9 cm", "66": "33 cm"}


def test_mistake_is_said_at_its_field(bench: Bench) -> None:
    """One after the other on one page, with a good measurement between them."""
    swags = bench.open(SWAGS, "swags")
    before = figure(swags, "repeats").inner_text()
    field(swags, "width").fill("")
    for text in BAD:
        field(swags, "side").fill(text)
        field(swags, "side").press("Tab")
        expect(problem(swags, "side"), text[:12]).not_to_be_empty()
        message = problem(swags, "side").inner_text()
        assert not any(word in message.lower() for word in ("please", "sorry", "invalid", "oops", "traceback", "none")), message
        assert field(swags, "side").input_value() == text
        assert field(swags, "side").get_attribute("aria-invalid") == "true"
        described = field(swags, "side").get_attribute("aria-describedby") or ""
        assert problem(swags, "side").get_attribute("id") in described.split()
        assert swags.locator(".pb-answer").get_attribute("data-stale") is not None
        assert figure(swags, "repeats").inner_text() == before
        expect(swags.locator(".pb-tools > .pb-status")).to_contain_text("out of date")
        assert swags.locator(".pb-failure").count() == 0
        field(swags, "side").fill("52 cm")
        expect(swags.locator(".pb-answer")).not_to_have_attribute("data-stale", "")
        expect(problem(swags, "side")).to_be_empty()
        before = figure(swags, "repeats").inner_text()


def test_measurements_are_read_as_they_are_written(bench: Bench) -> None:
    """Two repeats of a side as typed: the pitch is half of it, and what was typed stays as it was."""
    division = bench.open("techniques/dividing-a-side/", "division")
    for name in ("width", "target"):
        field(division, name).fill("")
    field(division, "repeats").fill("2")
    for text, half in GOOD.items():
        field(division, "side").fill(text)
        expect(figure(division, "pitch"), text).to_have_text(half)
        assert field(division, "side").input_value() == text


def test_half_typed_is_not_scolded_at_once(bench: Bench) -> None:
    """While a field is being typed in, its message waits for a pause; the old answer is marked as old meanwhile."""
    swags = bench.open(SWAGS, "swags")
    swags.evaluate(
        """root => new MutationObserver((changes, observer) => {
            observer.disconnect();
            window.early = root.querySelector('.pb-field[data-input="side"] > .pb-problem').textContent;
        }).observe(root.querySelector(".pb-answer"), { attributes: true, attributeFilter: ["data-stale"] })"""
    )
    field(swags, "side").press("End")
    field(swags, "side").press_sequentially("x")
    expect(swags.locator(".pb-answer")).to_have_attribute("data-stale", "")
    expect(problem(swags, "side")).not_to_be_empty()
    assert bench.page.evaluate("() => window.early") == ""


def test_a_message_does_not_move_a_button_from_under_a_press(bench: Bench) -> None:
    """The press takes the focus from the field, which has its message shown, which moves what stands below: only once the press is over.

    The clock stands, so that nothing ends the press but letting go.
    """
    bench.page.clock.install()
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("52 cm")
    expect(swags).to_have_attribute("data-state", "ready")
    bench.page.clock.pause_at(bench.page.evaluate("() => Date.now() + 60_000"))  # more than a busy machine needs to get there
    field(swags, "side").fill("abc")
    expect(swags.locator(".pb-answer")).to_have_attribute("data-stale", "")
    button = swags.locator(".pb-undo")
    hold_down(button)
    expect(field(swags, "side")).not_to_be_focused()
    assert problem(swags, "side").inner_text() == ""
    bench.page.mouse.up()
    expect(field(swags, "side")).to_have_value("52 cm")


def test_an_answer_is_shown_once_a_press_is_over(bench: Bench) -> None:
    bench.page.clock.install()
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("52 cm")
    expect(swags).to_have_attribute("data-state", "ready")
    bench.page.clock.pause_at(bench.page.evaluate("() => Date.now() + 60_000"))
    before = figure(swags, "length_total").inner_text()
    hold_down(swags.locator(".pb-result h3, .pb-answer .pb-figure").first)
    field(swags, "side").evaluate("e => { e.value = '82 cm'; e.dispatchEvent(new Event('input', { bubbles: true })); }")
    bench.page.evaluate(  # answered after it
        """async () => {
            const { client } = await import(document.querySelector("script[src$='/handbook.js']").src);
            await client.compute("portions", { shape: "round", width: "20 cm", height: "10 cm" });
        }"""
    )
    assert figure(swags, "length_total").inner_text() == before
    bench.page.mouse.up()
    expect(figure(swags, "length_total")).not_to_have_text(before)


def test_all_that_rested_on_a_refused_input_is_struck_through(bench: Bench) -> None:
    """Figures, tables, notes and sheets of an answer with words in each of them; cautions hold whatever is typed."""
    lesson = bench.open("learn/teaching-a-class/", "lesson")
    shown = ".pb-figure dd, .pb-table td, .pb-table th[scope=row], .pb-table caption, .pb-notes > li, .pb-sheets button"
    struck = """(answer, shown) => [...answer.querySelectorAll(shown)].map((part) => getComputedStyle(part).textDecorationLine)"""
    answer = lesson.locator(".pb-answer")
    before = answer.evaluate(struck, shown)
    assert len(before) > 100 and set(before) == {"none"}
    field(lesson, "exercises").fill("knitting")
    field(lesson, "exercises").press("Tab")
    expect(answer).to_have_attribute("data-stale", "")
    after = answer.evaluate(struck, shown)
    assert len(after) == len(before) and set(after) == {"line-through"}
    assert set(answer.evaluate(struck, ".pb-cautions > li")) == {"none"}
    field(lesson, "exercises").fill("shells")
    expect(answer).not_to_have_attribute("data-stale", "")
    assert set(answer.evaluate(struck, shown)) == {"none"}


def test_enter_sums_up_and_takes_the_reader_there(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("abc")
    field(swags, "tip").fill("spoon")
    field(swags, "tip").press("Enter")
    summary = swags.locator(".pb-summary")
    expect(summary).to_be_focused()
    expect(summary).to_contain_text("2 things to put right")
    summary.locator("a").first.press("Enter")
    expect(field(swags, "side")).to_be_focused()
    field(swags, "side").fill("52 cm")
    field(swags, "tip").fill("petal 11 mm")
    expect(summary).to_be_hidden()
    expect(problem(swags, "side")).to_be_empty()
    expect(swags.locator(".pb-answer")).not_to_have_attribute("data-stale", "")


def test_what_cannot_be_is_said_in_words(bench: Bench) -> None:
    """A drop deeper than any cutter's arc can hang."""
    swags = bench.open(SWAGS, "swags")
    for name in ("width", "cutter", "repeats"):
        field(swags, name).fill("")
    field(swags, "side").fill("52 cm")
    field(swags, "drop").fill("39 cm")
    field(swags, "drop").press("Tab")
    field(swags, "repeats").fill("20")
    field(swags, "repeats").press("Enter")
    expect(swags.locator(".pb-summary")).to_contain_text("Drop")
