"""What the moving pictures add to the pages that have them."""

from __future__ import annotations

import re
from pathlib import Path

from tools.build.paths import ROOT

MOST_BYTES = 30_000


def pages(site: Path) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for page in site.rglob("index.html"):
        figures = re.findall(r'<figure class="pb-moving .*?</figure>', page.read_text(encoding="utf-8"), re.DOTALL)
        if figures:
            found[page.relative_to(site).as_posix()] = figures
    return found


def test_the_films_of_a_page_are_light(site: Path) -> None:
    """Not packed, as they lie in the page."""
    found = pages(site)
    assert len(found) >= 23
    for page, figures in found.items():
        size = sum(len(figure.encode()) for figure in figures)
        assert size <= MOST_BYTES, f"{page}: {size} bytes"


def test_every_fence_of_a_film_is_a_film_on_its_page(site: Path) -> None:
    docs = ROOT / "docs"
    asked = {page.relative_to(docs): page.read_text(encoding="utf-8").count("```moving\n") for page in docs.rglob("*.md")}
    asked = {page: count for page, count in asked.items() if count}
    found = {Path(page): len(figures) for page, figures in pages(site).items()}
    assert found == {page.with_suffix("") / "index.html": count for page, count in asked.items()}


def test_no_name_stands_twice_on_a_page_with_films(site: Path) -> None:
    for page in pages(site):
        names = re.findall(r'<[a-z][^>]* id="([^"]+)"', (site / page).read_text(encoding="utf-8"), re.IGNORECASE)
        assert len(names) == len(set(names)), page
