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


FIRST_CAKE = DOCS / "learn" / "first-piped-cake.md"
LINKS = re.findall(r"\]\(((?:\.\./techniques/)?[\w-]+\.md)", FIRST_CAKE.read_text(encoding="utf-8"))
LEADS_TO = sorted({(FIRST_CAKE.parent / to).resolve() for to in LINKS})
BESIDE = {"length": r"\([^)]*[\d¼½¾⅛⅜] in\b|\(about an inch", "mass": r"\([^)]*[\d¼½¾] (oz|lb)"}


@pytest.mark.parametrize("page", [FIRST_CAKE, *LEADS_TO], ids=lambda page: page.stem)
def test_what_the_first_cake_leads_to_gives_inches_and_ounces_beside(page: Path) -> None:
    """Where a beginner reads what to take and what to do: before the calculator, and on the pages of Learn throughout."""
    text = re.sub(r"^```.*?^```$|`(calc|number): [^`]*`|\]\([^)]*\)", "", page.read_text(encoding="utf-8"), flags=re.MULTILINE | re.DOTALL)
    if page.parent.name == "techniques":
        text = text.partition("\n## Work it out")[0]
    for found in re.finditer(r"(?<![\d.])\d+(?:\.\d+)? (cm|mm|k?g)\b", text):
        after = text[found.end() : found.end() + 60]
        near = text[found.start() - 40 : found.end() + 40]
        assert re.search(BESIDE["length" if found[1][-1] == "m" else "mass"], after), f"{found[0]} stands alone: {near!r}"
