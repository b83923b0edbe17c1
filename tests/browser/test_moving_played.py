"""A moving picture in a browser: it stands until pressed, plays, holds, steps, begins again, and is there without motion and without scripts."""

from __future__ import annotations

import io
import re

from PIL import Image
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.helpers import Bench

PAGE = "techniques/shells/"
TIP = ".pb-moving-view [data-keys][transform]:not([data-of])"


def picture(page: Page, address: str) -> Locator:
    """The moving picture of a page, alive, on a clock that the test moves.

    The clock is put in before the page: what the theme has begun on the browser's own clock it could not end on another.
    """
    page.clock.install()
    page.goto(address)
    found = page.locator(".pb-moving").first
    expect(found).to_have_attribute("data-live", "")
    page.clock.pause_at(page.evaluate("() => Date.now() + 60_000"))  # more than a busy machine needs to get there
    return found


def button(shown: Locator, key: str) -> Locator:
    return shown.locator(f'[data-do="{key}"]')


def bag_at(shown: Locator) -> str:
    return shown.locator(TIP).first.get_attribute("transform") or ""


def test_it_plays_on_a_press_holds_steps_and_begins_again(bench: Bench) -> None:
    page = bench.page
    shown = picture(page, bench.address + PAGE)
    step, speed = shown.locator(".pb-moving-step"), shown.locator(".pb-moving-speed")
    before = bag_at(shown)
    page.clock.run_for(3000)
    assert bag_at(shown) == before, "nothing moves until somebody asks for it"
    assert not shown.locator(".pb-moving-strip").is_visible()

    button(shown, "play").press("Enter")
    expect(button(shown, "play")).to_have_text("Pause")
    page.clock.run_for(600)
    expect(step).to_have_text("1 of 9: squeeze hard")
    expect(speed).to_have_text(re.compile(r"^\d\.\d cm/s$"))
    moved = bag_at(shown)
    assert moved != before
    button(shown, "play").press("Enter")
    page.clock.run_for(2000)
    assert bag_at(shown) == moved, "paused"

    button(shown, "again").click()
    button(shown, "slow").click()
    expect(button(shown, "slow")).to_have_attribute("aria-pressed", "true")
    page.clock.run_for(2000)
    expect(step).to_have_text("1 of 9: squeeze hard")  # 1 second of 1.25
    button(shown, "slow").click()
    page.clock.run_for(30_000)
    expect(button(shown, "play")).to_have_text("Play")
    expect(step).to_have_text("9 of 9: stop, and start on the tail")
    assert shown.locator('[data-t][display="none"]').count() == 0, "all is piped"

    button(shown, "step").click()
    page.clock.run_for(5000)
    expect(step).to_have_text("1 of 9: squeeze hard")
    expect(button(shown, "play")).to_have_text("Play")
    button(shown, "step").click()
    page.clock.run_for(5000)
    expect(step).to_have_text("2 of 9: ease off")


def test_with_less_motion_it_is_stepped_through_in_frames(browser: Browser, address: str) -> None:
    context = browser.new_context(reduced_motion="reduce", service_workers="block")
    page = context.new_page()
    shown = picture(page, address + PAGE)
    assert not button(shown, "play").is_visible() and not button(shown, "slow").is_visible()
    button(shown, "step").click()
    first = bag_at(shown)
    page.clock.run_for(2000)
    assert bag_at(shown) == first, "it stands"
    expect(shown.locator(".pb-moving-step")).to_have_text("1 of 9: squeeze hard")
    for _ in range(2):
        button(shown, "step").click()
    expect(shown.locator(".pb-moving-step")).to_have_text("2 of 9: ease off")
    assert bag_at(shown) != first
    context.close()


def test_without_scripts_and_on_paper_five_frames_stand_there(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False, viewport={"width": 390, "height": 800})
    page = context.new_page()
    page.goto(address + PAGE)
    frames = page.locator(".pb-moving-strip").first.locator("> li")
    expect(frames).to_have_count(5)
    assert all(frame.is_visible() for frame in frames.all())
    first, second = (frames.nth(number).bounding_box() for number in (0, 1))
    assert first and second and first["y"] == second["y"], "two beside each other on a telephone"
    assert not page.locator(".pb-moving-stage").first.is_visible()
    context.close()
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    page.goto(address + PAGE)
    page.emulate_media(media="print")
    assert all(frame.is_visible() for frame in page.locator(".pb-moving-strip > li").all())
    assert not page.locator(".pb-moving-stage").first.is_visible()
    context.close()


def test_a_left_handed_reader_has_it_turned_round_and_its_words_not(bench: Bench) -> None:
    page = bench.page
    page.goto(bench.address + "techniques/swags/")
    page.locator(".pb-hand input").check()
    turned = "element => getComputedStyle(element).transform"
    assert page.locator(".pb-moving-view svg").first.evaluate(turned) == "matrix(-1, 0, 0, 1, 0, 0)"
    words = page.locator(".pb-moving-view text")
    expect(words).to_have_count(2)
    assert {word.evaluate(turned) for word in words.all()} == {"matrix(-1, 0, 0, 1, 0, 0)"}, "turned twice they can be read"
    assert page.locator(".pb-moving-bar").first.evaluate(turned) == "none"


def test_in_the_evening_its_coat_is_dark_under_its_light_words(browser: Browser, address: str) -> None:
    """Its parts are copied out of the figure, and once kept the colours of the day: light words on a light coat."""
    context = browser.new_context(viewport={"width": 1280, "height": 800}, color_scheme="dark", service_workers="block")
    page = context.new_page()
    view = picture(page, address + "techniques/ruched-swag/").locator(".pb-moving-stage svg[role=img]").nth(1)
    view.scroll_into_view_if_needed()
    with Image.open(io.BytesIO(view.screenshot())) as shot:
        red, green, blue = shot.convert("RGB").getpixel((shot.width - 20, 20))
    context.close()
    assert max(red, green, blue) < 110


def test_its_keys_are_as_large_as_a_finger(bench: Bench) -> None:
    page = bench.page
    page.set_viewport_size({"width": 390, "height": 800})
    page.goto(bench.address + PAGE)
    for key in page.locator(".pb-moving-keys button").all():
        box = key.bounding_box()
        assert box and box["height"] >= 44 and box["width"] >= 44
