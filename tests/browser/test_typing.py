"""Type, and the answer follows."""

from __future__ import annotations

from playwright.sync_api import expect

from tests.browser.helpers import Bench, field, figure, ready

SWAGS = "techniques/swags/"


def test_answer_follows_what_is_typed(bench: Bench) -> None:
    """P = 675 mm and D = 75 mm: 9 repeats, each 75 mm wide, hanging 37.5 mm; a semicircle is pi/2 times its width long."""
    swags = bench.open(SWAGS, "swags")
    for name in ("width", "drop", "repeats"):
        field(swags, name).fill("")
    field(swags, "cutter").fill("7.5 cm")
    field(swags, "rows").fill("1")
    field(swags, "side").fill("67.5 cm")
    expect(figure(swags, "repeats")).to_have_text("9")
    expect(figure(swags, "width")).to_have_text("7.5 cm")
    expect(figure(swags, "drop")).to_have_text("3.8 cm")
    expect(figure(swags, "length_total")).to_have_text("106 cm")
    field(swags, "side").fill("1 m")
    expect(figure(swags, "repeats")).to_have_text("14")


def test_units_of_the_answer_are_the_readers_choice_on_every_page(bench: Bench) -> None:
    swags = bench.open(SWAGS, "swags")
    expect(figure(swags, "width")).to_contain_text("cm")
    swags.get_by_label("US").check()
    expect(figure(swags, "width")).to_contain_text("in")
    coats = bench.open("techniques/coats/")
    assert coats.locator(".pb-units input:checked").get_attribute("value") == "us"
    expect(figure(coats, "mass")).to_contain_text("oz")


def test_newest_text_wins_and_nothing_queues(bench: Bench) -> None:
    """Sixty keys in one go: the answer belongs to the last, and far fewer than sixty were asked for."""
    swags = bench.open(SWAGS, "swags")
    asked = swags.evaluate(
        """async (root) => {
            const { client } = await import(document.querySelector("script[src$='/handbook.js']").src);
            const compute = client.compute.bind(client);
            let asked = 0;
            client.compute = (...given) => { asked += 1; return compute(...given); };
            const side = root.querySelector("[data-name=side]");
            for (let i = 1; i <= 60; i += 1) {
                side.value = `${40 + i} cm`;
                side.dispatchEvent(new Event("input", { bubbles: true }));
            }
            if (root.dataset.state !== "busy") throw new Error("nothing was asked");
            await new Promise((done) => {
                const look = () => root.dataset.state === "ready" && (observer.disconnect(), done());
                const observer = new MutationObserver(look);
                observer.observe(root, { attributes: true, attributeFilter: ["data-state"] });
            });
            client.compute = compute;
            return asked;
        }"""
    )
    ready(swags)
    assert 1 <= asked <= 3
    repeats = int(figure(swags, "repeats").inner_text())
    width = figure(swags, "width").inner_text()
    assert width.endswith(" cm") and abs(float(width.removesuffix(" cm")) * repeats - 100) < 0.05 * repeats + 1e-9


def test_a_restored_memory_answers(bench: Bench) -> None:
    """The snapshot is used, not the plain start that takes its place when it fails."""
    swags = bench.open(SWAGS, "swags")
    assert swags.get_attribute("data-way") == "snapshot", swags.get_attribute("data-why")


def test_answer_keeps_the_place_of_what_did_not_change(bench: Bench) -> None:
    """A part of the answer that stays the same stays the same element, so that focus and scrolling are not lost."""
    swags = bench.open(SWAGS, "swags")
    field(swags, "side").fill("70 cm")
    expect(figure(swags, "length_total")).not_to_have_text("")
    ready(swags)
    region = swags.locator(".pb-table").first
    region.focus()
    field(swags, "side").evaluate("input => { input.value = '71 cm'; input.dispatchEvent(new Event('input', { bubbles: true })) }")
    ready(swags)
    expect(region).to_be_focused()
