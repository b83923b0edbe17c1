"""What stands under one another begins on one line."""

from __future__ import annotations

import pytest

from tests.browser.helpers import Bench

LEFT = """name => {
    const range = document.createRange();
    return [...document.querySelectorAll(name)].filter(e => e.getBoundingClientRect().width).map(e => {
        range.selectNodeContents(e);
        return Math.round(Math.min(...[...range.getClientRects()].filter(r => r.width > 1).map(r => r.left)));
    });
}"""


@pytest.mark.parametrize("wide", [1280, 1600])
def test_words_of_the_sides_begin_on_one_line_with_those_above(bench: Bench, wide: int) -> None:
    bench.page.set_viewport_size({"width": wide, "height": 900})
    bench.open("techniques/swags/", "swags")
    tabs, sections = (bench.page.evaluate(LEFT, name) for name in (".md-tabs__link", ".md-sidebar--primary .md-nav__item > a.md-nav__link"))
    assert abs(min(sections) - tabs[0]) <= 1, (tabs[0], sections)  # the pages of a section stand a step further in
    title, first = (bench.page.evaluate(LEFT, f".md-sidebar--secondary {name}")[0] for name in (".md-nav__title", ".md-nav__link"))
    assert title == first
