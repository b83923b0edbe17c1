"""The handbook's prose can be read at about the age of 14.

Grade by Kincaid, Fishburne, Rogers and Chissom, *Derivation of New Readability Formulas for Navy Enlisted Personnel*, Research Branch
Report 8-75, 1975: 0.39 words a sentence + 11.8 syllables a word - 15.59, from memory. The grade is that of a school in the United States, where
grade 8 is left at 14. Syllables are counted by groups of vowels, which is right for most words and errs upwards with the trade's.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

DOCS = Path(__file__).resolve().parent.parent.parent / "docs"
PAGES = sorted(page for page in DOCS.rglob("*.md") if "about" not in page.parts)
MOST, MOST_OF_ALL = 6.0, 4.0  # grades; 8 would do for 14, and these keep the pages as easy as they are
FEWEST_WORDS = 60  # a shorter page has too few sentences for a grade


def prose(text: str) -> str:
    """What a page says in sentences: no front matter, fences, tables, headings, sources or formulas."""
    text = re.sub(r"\A---\n.*?\n---\n", "", text, flags=re.DOTALL)
    text = re.sub(r"^```.*?^```$", "", text, flags=re.DOTALL | re.MULTILINE)
    text = re.sub(r"^(\||#|<|!!!|@).*$", "", text, flags=re.MULTILINE)
    text = re.sub(r"^\s*(?:[-*]|\d+\.)\s+(.*?)(?=\n\s*(?:[-*]|\d+\.)\s|\n\n|\Z)", r"\1. ", text, flags=re.DOTALL | re.MULTILINE)  # an item ends
    text = re.sub(r"`calc: [^`]*`|`number: [^`]*`", "9", text)
    text = re.sub(r"!?\[([^\]]*)\]\([^)]*\)", r"\1", text)
    text = re.sub(r"\n{2,}", ". ", text)
    return re.sub(r"[*_`{}]", "", text)


def syllables(word: str) -> int:
    """Syllables of an English word, by its groups of vowels; a silent e at the end is none."""
    word = word.lower()
    groups = len(re.findall(r"[aeiouy]+", word))
    if re.search(r"[^aeiouyl]e$|[^aeiouydt]ed$|[^aeiouysxzcgh]es$", word):
        groups -= 1
    return max(1, groups)


def counted(text: str) -> tuple[int, int, int]:
    """Sentences, words and syllables."""
    sentences = [s for s in re.split(r"[.!?:;]+(?:\s|$)", text) if re.search(r"[A-Za-z]{2}", s)]
    words = [w for s in sentences for w in re.findall(r"[A-Za-z][A-Za-z'’-]*", s)]
    return len(sentences), len(words), sum(syllables(part) for word in words for part in word.split("-") if part)


def grade(sentences: int, words: int, syllables_: int) -> float:
    """The school grade of a text."""
    return 0.39 * words / sentences + 11.8 * syllables_ / words - 15.59


@pytest.mark.parametrize(
    ("word", "count"), [("cake", 1), ("buttercream", 3), ("swag", 1), ("rosette", 2), ("table", 2), ("piped", 1), ("divided", 3), ("the", 1)]
)
def test_syllables(word: str, count: int) -> None:
    """Counted by mouth."""
    assert syllables(word) == count


def test_a_hard_text_has_a_high_grade() -> None:
    """The first sentence of the United States Declaration of Independence is far beyond grade 12."""
    hard = (
        "When in the Course of human events, it becomes necessary for one people to dissolve the political bands which have connected them with "
        "another, and to assume among the powers of the earth, the separate and equal station to which the Laws of Nature and of Nature's God "
        "entitle them, a decent respect to the opinions of mankind requires that they should declare the causes which impel them to the separation."
    )
    assert grade(*counted(hard)) > 20
    assert grade(*counted("The cat sat on the mat. It was a red mat.")) < 2


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(DOCS).as_posix())
def test_a_page_reads_easily(page: Path) -> None:
    sentences, words, sounds = counted(prose(page.read_text(encoding="utf-8")))
    if words >= FEWEST_WORDS:
        assert grade(sentences, words, sounds) <= MOST


def test_the_whole_reads_easily() -> None:
    told = [counted(prose(page.read_text(encoding="utf-8"))) for page in PAGES]
    assert grade(*(sum(column) for column in zip(*told, strict=True))) <= MOST_OF_ALL
