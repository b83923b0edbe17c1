"""The glossary has every term of the trade that a label of a calculator or a table *At a glance* uses, and a link to the page that teaches it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from calc.calculators import CALCULATORS

ROOT = Path(__file__).resolve().parent.parent.parent
WORDS: dict[str, dict[str, Any]] = tomllib.loads((ROOT / "tools/site/handbook_words.toml").read_text(encoding="utf-8"))

# words of labels and tables that mean here what they mean everywhere
EVERYDAY = set(
    """
    a about accuracy across add address after again all allergens allow also among an and angle as at back bake balance base be before begin
    begins below between bowl box boxes break breaks buttercream buy cake cakes calendar called can chill chooses coat coats cold colour colours
    cost costs count counts cup cupboard currency customer cut date day days decorations deep delivery deposit depth divide down drive due each
    eaten edge effect end exercise exercises fill filled fillings fills finished first flower flowers for free fridge from front goes guests had
    half hand handed has have head heart hearts height hidden holds home hour hours how in included ingredient ingredients is it item keep kept
    kind kitchen least left length like liquid list longest mail make maker many mark materials measure measured meet minutes mixer ml most much
    name need needed never note number of off oil on one or order other out oven ovens own pack packaging paper people pipe piped piping
    preparing price profit radius rate ready recipe road room rule says scrape seats second shape share shares sharp shelf shelves showing shows
    side size slice so softens spacing spare stack stacking stand stays stood students suit table take takes task tax telephone terms test text
    that the them thickness this time to too took top traces tutor two up usual want wanted warm washing web weighed weighs well what when where
    whipped widest width will with work working works you your
    """.split()  # noqa: SIM905
)


def labels() -> Iterator[str]:
    """Each label that a calculator shows."""
    for calculator in CALCULATORS.values():
        yield from (known.label for known in calculator.inputs)
        yield from (known.label for group in calculator.groups for known in (group, *group.inputs))


def glances() -> Iterator[str]:
    """Each name in a table *At a glance*."""
    for page in (ROOT / "docs/techniques").glob("*.md"):
        found = re.search(r"^## At a glance\n(.*?)^## ", page.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)
        yield from (line.split("|")[1].strip() for line in (found[1].splitlines() if found else ()) if line.startswith("| "))


def explained() -> set[str]:
    """Each single word that stands in the glossary, alone or in a term, in one and in many."""
    return {
        many
        for word, entry in WORDS.items()
        for form in (word, *entry.get("forms", ()), *entry.get("also", ()))
        for part in _words(form)
        for many in (part, f"{part}s")
    }


def _words(text: str) -> list[str]:
    return re.findall(r"[a-z]+", text.lower())


def test_terms_of_labels_and_tables_are_explained() -> None:
    known = EVERYDAY | explained()
    missing = {word: text for text in (*labels(), *glances()) for word in _words(text) if word not in known}
    assert missing == {}


@pytest.mark.parametrize("term", ["slot", "movement", "advance", "ruched", "ruffled", "pitch", "drop", "guide tape", "coupler", "dam"])
def test_a_term_of_the_trade_has_its_own_entry(term: str) -> None:
    assert WORDS[term]["means"]


def test_no_everyday_word_is_also_explained_alone() -> None:
    """Otherwise a term could be taken out of the glossary unnoticed."""
    assert sorted(EVERYDAY & {word for word in WORDS if " " not in word}) == []


@pytest.mark.parametrize("word", WORDS)
def test_a_word_links_to_the_page_that_teaches_it(word: str) -> None:
    assert (ROOT / "docs/look-up" / WORDS[word]["see"]).is_file()


def test_a_word_has_one_meaning() -> None:
    """No other name or form of one word is that of another."""
    names = [name.lower() for word, entry in WORDS.items() for name in (word, *entry.get("forms", ()), *entry.get("also", ()))]
    assert sorted({name for name in names if names.count(name) > 1}) == []
