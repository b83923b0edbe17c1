"""On a telephone an answer is a few taps away: the first page works one out itself, and a technique page says at its head where its sum is."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from tests.browser.helpers import START, Bench, ready, wait_for_rest

WIDTH, HEIGHT = 390, 844


@pytest.fixture
def telephone(browser: Browser, address: str) -> Iterator[Bench]:
    """A page on a telephone that is touched, not clicked."""
    context = browser.new_context(viewport={"width": WIDTH, "height": HEIGHT}, has_touch=True, service_workers="block")
    made = Bench(context.new_page(), address)
    made.watch()
    yield made
    context.close()
    assert made.foreign == [] and made.errors == []


def is_on_screen(place: Locator) -> bool:
    """Whether all of it is seen as the page stands."""
    box = place.bounding_box()
    return box is not None and box["width"] > 0 and box["y"] >= 0 and box["y"] + box["height"] <= HEIGHT and box["x"] + box["width"] <= WIDTH


def has_not_scrolled(page: Page) -> bool:
    return bool(page.evaluate("() => scrollY === 0"))


def test_the_first_page_answers_on_its_first_screen(telephone: Bench) -> None:
    calculator = telephone.open("", "swags")
    repeats = calculator.locator('[data-figure="repeats"] dd')
    seen = (
        calculator.locator('[data-name="side"]'),
        calculator.locator('[data-name="cutter"]'),
        repeats,
        calculator.locator('[data-figure="cutter"] dd'),
        calculator.locator(".pb-drawing svg"),
        telephone.page.locator(".pb-go-on"),
    )
    assert [str(place) for place in seen if not is_on_screen(place)] == []
    expect(repeats).to_have_text("9")
    telephone.page.locator('[data-name="cutter"]').tap()
    telephone.page.locator('[data-name="cutter"]').fill("11 cm")
    expect(repeats).to_have_text("6")  # 66 cm in six of 11 cm
    assert has_not_scrolled(telephone.page) and is_on_screen(repeats) and is_on_screen(calculator.locator(".pb-drawing svg"))


def test_its_numbers_go_on_to_the_page_of_swags(telephone: Bench) -> None:
    calculator = telephone.open("", "swags")
    telephone.can_change_pages()
    calculator.locator('[data-name="side"]').fill("70 cm")
    calculator.locator('[data-name="cutter"]').fill("10 cm, 8 cm")
    expect(calculator.locator('[data-figure="width"] dd')).to_have_text("10 cm")  # 70 cm in seven
    telephone.page.locator(".pb-go-on").tap()
    telephone.page.wait_for_url("**/techniques/swags/**")
    there = telephone.page.locator('[data-key="swags"]:has([data-name="repeats"])')
    ready(there)
    expect(there.locator('[data-name="side"]')).to_have_value("70 cm")
    expect(there.locator('[data-name="cutter"]')).to_have_value("10 cm, 8 cm")
    expect(there.locator('[data-figure="width"] dd')).to_have_text("10 cm")


def test_every_technique_with_a_sum_says_so_on_its_first_screen(telephone: Bench, site: Path) -> None:
    telephone.page.route("**/assets/js-*/**", lambda route: route.abort())
    telephone.page.route("**/assets/javascripts/**", lambda route: route.abort())
    telephone.errors = []
    out_of_sight = []
    pages = [page for page in sorted(site.glob("techniques/*/index.html")) if 'class="pb-calculator"' in page.read_text(encoding="utf-8")]
    assert len(pages) > 20
    for file in pages:
        path = file.parent.relative_to(site).as_posix() + "/"
        telephone.page.goto(telephone.address + path)
        if not is_on_screen(telephone.page.locator(".pb-to-sum a")):
            out_of_sight.append(path)
    assert out_of_sight == []


def test_a_tap_leads_to_the_sum(telephone: Bench) -> None:
    calculator = telephone.open("techniques/shells/", "shells")
    telephone.page.locator(".pb-to-sum a").tap()
    telephone.page.wait_for_function("() => scrollY > 0", timeout=START)
    wait_for_rest(telephone.page)
    box = calculator.bounding_box()
    assert box is not None and 0 < box["y"] < HEIGHT / 2
