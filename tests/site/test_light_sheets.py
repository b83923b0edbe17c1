"""What the style sheets ask of a page may not make a small change dear: an answer changes a few words many times a minute."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tools.site import bundle
from tools.site.pages import marked

# What encloses an answer, or a part of it that changes while it stands there.
ENCLOSING = re.compile(r"(?:html|body|:root|\.md-[\w-]+|\.pb-calculator|\.pb-result|\.pb-answer|\.pb-section|\.pb-stage)(?:\[[^\]]*\])*:has\(")
PAPER = re.compile(r"@media print\{")


@pytest.fixture(scope="module")
def sheet(site: Path) -> str:
    (file,) = site.glob("assets/css-*/*.css")
    return file.read_text(encoding="utf-8")


def on_screen(sheet: str) -> str:
    """The sheet without what is for paper only."""
    while found := PAPER.search(sheet):
        end, depth = found.end(), 1
        while depth:
            depth += {"{": 1, "}": -1}.get(sheet[end], 0)
            end += 1
        sheet = sheet[: found.start()] + sheet[end:]
    return sheet


def test_nothing_around_an_answer_depends_on_what_is_in_it(sheet: str) -> None:
    """Where it does, every insertion into an answer restyles half of the page."""
    allowed = {".md-nav__link:has(", ".md-content__inner:has("}  # links beside the page; the page of a quotation, which has no answer
    found = {match[0] for match in ENCLOSING.finditer(on_screen(sheet))}
    assert found - allowed == set()


def test_no_rule_asks_each_element_what_stands_before_it(sheet: str) -> None:
    assert bundle.AFTER_TABLE not in sheet and ".tabbed-" not in sheet


def test_the_theme_is_lightened_of_its_tabs_and_of_nothing_else() -> None:
    sheet = f"a{{b:c}}@media print{{.x .tabbed-set>:is(a,b){{d:e}}}}.tabbed-set,.y:not(.a,.b){{f:g}}{bundle.AFTER_TABLE}h:i}}"
    assert bundle.lightened(sheet) == f"a{{b:c}}@media print{{}}.y:not(.a,.b){{f:g}}{bundle.AFTER_TABLE_NAMED}h:i}}"
    with pytest.raises(ValueError, match="no longer"):
        bundle.lightened("a{b:c}")


def test_a_page_says_which_large_parts_it_has(site: Path) -> None:
    said = {page: re.search(r'<html(?: data-has="([^"]*)")? lang', (site / page / "index.html").read_text()) for page in ("plan/whole-cake", "learn")}
    assert [match and match[1] for match in said.values()] == ["record stage jump pair", None]
    assert marked("<html lang>") == "<html lang>"
