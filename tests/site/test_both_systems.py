"""What the pages say for readers of both systems of units."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tools.build.paths import DOCS

PAGES = sorted(DOCS.rglob("*.md"))
WRITTEN = [page for page in PAGES if "decisions" not in page.parts and page.name != "changelog.md"]


@pytest.mark.parametrize("page", WRITTEN, ids=[str(page.relative_to(DOCS)) for page in WRITTEN])
def test_a_temperature_stands_in_both_scales(page: Path) -> None:
    for line in page.read_text(encoding="utf-8").splitlines():
        for celsius in re.finditer(r"(\d+)\s?°C", line):
            near = line[max(0, celsius.start() - 40) : celsius.end() + 40]
            fahrenheit = [int(each) for each in re.findall(r"(\d+)\s?°F", near)]
            assert any(abs(int(celsius[1]) * 9 / 5 + 32 - each) <= 7 for each in fahrenheit), f"{celsius[0]} stands without °F: {line}"


@pytest.mark.parametrize(
    "here, there",
    [("icing sugar", "powdered sugar"), ("caster sugar", "superfine"), ("cocktail stick", "toothpick"), ("double cream", "heavy cream")],
)
def test_the_glossary_knows_words_of_both_sides(here: str, there: str) -> None:
    words = (DOCS / "look-up" / "glossary.md").read_text(encoding="utf-8")
    assert re.search(rf"^\| {here} \|[^|]*{there}", words, re.MULTILINE)


def test_the_first_cake_gives_a_us_oven_and_us_measures() -> None:
    text = (DOCS / "learn" / "first-piped-cake.md").read_text(encoding="utf-8")
    for words in ("340 °F", "superfine", "self-rising", "6 in", "toothpick", "powdered"):
        assert words in text
