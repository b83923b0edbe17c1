"""Every page says "an" before a vowel and "a" before a consonant: in its text, and in what is read aloud of its pictures.

Articles stand before words that calc puts together (a tip's name, a length), so they go wrong where nobody typed them.
"""

from __future__ import annotations

import html
import re
from pathlib import Path

SOUNDS_LIKE_A_CONSONANT = r"(?:one|once|use|used|us|uni|usu|eur|and\b|of\b)"
VOWEL = re.compile(r"\b[Aa] (?!" + SOUNDS_LIKE_A_CONSONANT + r")(?=[aeio]|8|1[18](?!\d)|S [a-z])[\w.-]+(?: [\w-]+)?")
CONSONANT = re.compile(r"\b[Aa]n (?!hour|honest|heir|n x|S |L |F |X |M |R |N )(?=[b-df-hj-np-tv-z]|[02-79]|1(?![18](?!\d))\d?)[\w.-]+(?: [\w-]+)?")
TAG = re.compile(r"<(script|style|code|pre)\b.*?</\1>|<[^>]*>", re.DOTALL)
INSIDE = ("<a", "</a", "<b", "</b", "<em", "</em", "<span", "</span", "<strong", "</strong")  # a sentence goes on through these
SPOKEN = re.compile(r'(?:aria-label|title|alt|content)="([^"]*)"')


def wrong(text: str) -> list[str]:
    """The wrong articles of a text, each with what follows it."""
    return [found[0] for pattern in (VOWEL, CONSONANT) for found in pattern.finditer(text.replace("\N{NO-BREAK SPACE}", " "))]


def test_a_wrong_article_is_found() -> None:
    assert wrong("piped with a open star 9 mm tip") == ["a open star"]
    assert wrong("A oval tin and a 8 cm cutter and a 18 cm card") == ["A oval tin", "a 8 cm", "a 18 cm"]
    assert wrong("an 9 cm cutter, an heart") == ["an 9 cm", "an heart"]
    assert not wrong("an hour, a one-tier cake, an 8 cm cutter, an 11 mm tip, a 110 g bowl, a usual tin, an S scroll, an oval, a heart, a 1 cm disc")


def test_every_page_has_its_articles_right(site: Path) -> None:
    found = {}
    for page in sorted(site.rglob("*.html")):
        markup = page.read_text(encoding="utf-8")
        spoken = " | ".join(SPOKEN.findall(markup))
        text = TAG.sub(lambda tag: "" if tag[0].startswith(INSIDE) else " | ", markup)
        bad = wrong(html.unescape(text)) + wrong(html.unescape(spoken))
        if bad:
            found[str(page.relative_to(site))] = sorted(set(bad))
    assert not found
