"""The handbook's pages as they are written: their shape, their numbers, their words for search, their sources."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

DOCS = Path(__file__).resolve().parent.parent.parent / "docs"
WRITTEN = sorted(p for p in DOCS.rglob("*.md") if "about" not in p.parts and p.parent != DOCS)
TECHNIQUES = [p for p in WRITTEN if p.parent.name == "techniques" and p.name != "index.md"]
ROWS = (
    "swags",
    "ruched-swag",
    "ruched-border",
    "strings",
    "shells",
    "reverse-shells",
    "beads",
    "rope",
    "zigzag",
    "stars",
    "rosettes",
    "leaves",
    "scrolls",
    "vermicelli",
)
SHAPE = (
    "At a glance",
    "When to use it, when not",
    "How to do it",
    "Work it out",
    "How the numbers are worked out",
    "If it goes wrong",
    "Sources",
    "Next",
)
# other names a reader may search for, and the page that search must find
NAMES = {
    "drape": "swags",
    "garland": "swags",
    "festoon": "swags",
    "scallop": "swags",
    "frill": "ruched-border",
    "stringwork": "strings",
    "pearls": "beads",
    "swirl": "rosettes",
    "overpiping": "over-piping",
    "coupler": "filling-a-bag",
    "compass": "marking-with-dividers",
    "dirty icing": "crumb-coat",
    "ombre": "colour-mixing",
    "foliage": "leaves",
    "delivery": "moving",
    "cord": "rope",
    "cornelli": "vermicelli",
}


def words(path: Path) -> str:
    return path.read_text(encoding="utf-8")


def test_there_are_pages_and_calculators_enough() -> None:
    """At least 45 pages with at least 30 calculators between them."""
    assert len(WRITTEN) >= 45
    assert sum(len(re.findall(r"^```calculator$", words(p), re.MULTILINE)) for p in WRITTEN) >= 30


@pytest.mark.parametrize("page", WRITTEN, ids=lambda p: p.relative_to(DOCS).as_posix())
def test_every_page_says_what_it_is(page: Path) -> None:
    front = words(page).split("---")[1]
    assert "title:" in front and "description:" in front
    assert len(re.findall(r"^# ", words(page), re.MULTILINE)) == 1


@pytest.mark.parametrize("page", TECHNIQUES, ids=lambda p: p.stem)
def test_a_technique_keeps_to_the_shape(page: Path) -> None:
    """Headings in the order of the house; a page may leave out what it has nothing to add to."""
    found = re.findall(r"^## (.+)$", words(page), re.MULTILINE)
    at = [SHAPE.index(heading) for heading in found if heading in SHAPE]
    assert at == sorted(at)
    assert {"At a glance", "When to use it, when not", "How to do it", "Sources", "Next"} <= set(found)
    assert "also:" in words(page).split("---")[1]


@pytest.mark.parametrize("name", ROWS)
def test_a_row_shows_the_tip_the_hand_and_its_sum(name: str) -> None:
    text = words(DOCS / "techniques" / f"{name}.md")
    assert re.search(r"^```drawing\n(technique|vermicelli)\n", text, re.MULTILINE) and "```calculator" in text and "## If it goes wrong" in text


@pytest.mark.parametrize(("name", "page"), NAMES.items())
def test_search_finds_a_technique_by_its_other_names(site: Path, name: str, page: str) -> None:
    index = json.loads((site / "search" / "search_index.json").read_text(encoding="utf-8"))
    found = {entry["location"] for entry in index["docs"] if name in " ".join(entry.get(field, "") for field in ("title", "text", "also")).lower()}
    assert any(place.startswith(f"techniques/{page}/") for place in found)


def test_no_fence_is_left_as_text(site: Path) -> None:
    left = [
        p.relative_to(site).as_posix() for p in site.rglob("*.html") if re.search(r"language-(calculator|drawing|table|sources)|`calc:", words(p))
    ]
    assert left == []


def test_every_drawing_is_described(site: Path) -> None:
    bare = []
    for page in site.rglob("*.html"):
        for drawing in re.findall(r'<svg[^>]*role="img".*?</svg>', words(page), re.DOTALL):
            if not re.search(r"<title[^>]*>[^<]+</title>", drawing) or not re.search(r"<desc[^>]*>[^<]+</desc>", drawing):
                bare.append(page.relative_to(site).as_posix())
    assert bare == []


def test_a_word_is_explained_where_it_is_first_used(site: Path) -> None:
    page = words(site / "techniques" / "ruched-swag" / "index.html")
    assert page.count('<abbr tabindex="0" title="Gathered into folds that stand out, because the tip goes to and fro.">') == 1
    glossary = words(site / "look-up" / "glossary" / "index.html")
    assert '<dt id="ruched">' in glossary and "<abbr" not in glossary.split("pb-words")[1]
