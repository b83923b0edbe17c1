"""Fences and words of the handbook's pages."""

from __future__ import annotations

import html
import re
from types import SimpleNamespace
from xml.etree.ElementTree import Element, SubElement, tostring

import pytest
from markdown import Markdown

from calc.lesson import EXERCISES
from calc.rows import KINDS
from tools.build.paths import DOCS
from tools.site import handbook_pages, handbook_panels, handbook_tables


@pytest.mark.parametrize("make", [handbook_pages.drawing, handbook_pages.table])
def test_what_does_not_exist_is_refused_with_what_does(make: object) -> None:
    with pytest.raises(ValueError, match="there are"):
        make("nothing of the kind")  # type: ignore[operator]


def test_a_source_that_is_not_known_breaks_the_build() -> None:
    with pytest.raises(ValueError, match="no source called"):
        handbook_pages.sources("segment\nmy-aunt")


def test_sources_are_written_as_they_stand() -> None:
    made = handbook_pages.sources("tm-10-412: two cups\ncommon-practice: times")
    assert "Armed Forces Recipe Service, TM 10-412 / NAVSUP P-7, US Department of Defense, 2003: two cups." in made
    assert "Common practice, no source: times." in made


def test_only_the_first_use_of_a_word_carries_its_meaning() -> None:
    root = Element("div")
    first, second = SubElement(root, "p"), SubElement(root, "p")
    first.text = "A dam, a ruched dam, and "
    strong = SubElement(first, "strong")
    strong.text, strong.tail = "dividers", " and a dam."
    second.text = "Ruched again; drops."
    handbook_pages.Meanings(Markdown()).run(root)
    made = tostring(root, encoding="unicode")
    assert made.count("<abbr") == 4
    assert made.index("dam</abbr>") < made.index("ruched</abbr>") < made.index("dividers</abbr>") < made.index("drops</abbr>")
    assert "".join(root.itertext()) == "A dam, a ruched dam, and dividers and a dam.Ruched again; drops."


def test_a_word_in_its_everyday_sense_can_be_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    page = SimpleNamespace(meta={"unmeant": "drop, tip"}, title="Colours", file=SimpleNamespace(src_uri="look-up/colours.md"))
    monkeypatch.setattr(handbook_pages.STATE, "page", page)
    root = Element("div")
    SubElement(root, "p").text = "Count the drops at the tip of the knife, then fill the dam."
    handbook_pages.Meanings(Markdown()).run(root)
    made = tostring(root, encoding="unicode")
    assert made.count("<abbr") == 1 and "dam</abbr>" in made


def test_a_page_of_another_trade_has_no_meanings(monkeypatch: pytest.MonkeyPatch) -> None:
    page = SimpleNamespace(meta={}, title="Python in the page", file=SimpleNamespace(src_uri="about/decisions/index.md"))
    monkeypatch.setattr(handbook_pages.STATE, "page", page)
    root = Element("div")
    SubElement(root, "p").text = "Only one string comes back."
    handbook_pages.Meanings(Markdown()).run(root)
    assert "<abbr" not in tostring(root, encoding="unicode")


def test_links_and_headings_are_left_alone() -> None:
    root = Element("div")
    SubElement(root, "h2").text = "Strings"
    link = SubElement(SubElement(root, "p"), "a")
    link.text, link.tail = "strings", " and strings"
    handbook_pages.Meanings(Markdown()).run(root)
    made = tostring(root, encoding="unicode")
    assert made.count("<abbr") == 1 and "</a> and <abbr" in made


def test_the_table_of_repeats_gives_the_published_case() -> None:
    """67.5 cm round the side and a 7.5 cm cutter: 9 repeats of 7.5 cm with a drop of half that (the semicircle)."""
    made = handbook_tables.TABLES["repeats"]({"sides": "67.5", "cutters": "7.5"}, "")
    assert "<b>9</b> × 7.5<br>drop 3.8" in made.replace("\N{NO-BREAK SPACE}", " ")


def test_every_constant_of_calc_is_listed_once() -> None:
    found = handbook_tables._constants()
    assert len(found) == len({id(value) for _, _, value in found})
    names = {name for _, name, _ in found}
    assert {"STRETCH_MOST_PERCENT", "SHELL_PITCH", "DENSITY_G_PER_ML", "SPONGE_G_PER_ML"} <= names


@pytest.mark.parametrize("kind", KINDS)
def test_a_technique_has_four_panels(kind: str) -> None:
    made = handbook_panels.technique({"kind": kind}, "")
    assert made.count('<figure class="pb-drawing pb-panel"') == 4
    assert made.count("<figcaption>") == 4 and html.escape(KINDS[kind].angle) in made
    written = re.findall(r"<text[^>]*>([^<]*)</text>", made)
    known = r"\d|45°|90°|2 to 3 cm|or 1 in|thick end on the cake|thick end|on the cake|thin end away|thin end|away"
    assert written and all(re.fullmatch(known, word) for word in written)


def test_the_table_of_exercises_goes_from_easy_to_hard_and_links_their_pages() -> None:
    made = handbook_tables.TABLES["exercises"]({}, "")
    places = [made.index(f">{html.escape(exercise.name)}<") for exercise in sorted(EXERCISES.values(), key=lambda one: one.rank)]
    assert places == sorted(places) and len(places) == len(EXERCISES)
    for link in re.findall(r'href="\.\./\.\./([^"]+)/"', made):
        assert (DOCS / f"{link}.md").is_file(), link
    assert made.count("href=") == len(EXERCISES)


def test_a_sponge_is_measured_by_the_published_cup() -> None:
    """USDA SR: 125 g of self-rising flour and 200 g of sugar a cup, 113 g a stick of butter; 200 g of flour are 25.6 tablespoons of 1/16 cup."""
    made = handbook_tables.TABLES["baking"]({"butter": "200 g", "sugar": "250 g", "flour": "200 g", "eggs": "4", "milk": "2 tbsp"}, "")
    cells = [re.findall(r"<t[hd][^>]*>([^<]*)</t[hd]>", row) for row in re.findall(r"<tr>(.*?)</tr>", made)][1:]
    plain = [[cell.replace("\N{NO-BREAK SPACE}", " ") for cell in row] for row in cells]
    assert [row[2] for row in plain] == ["1¾ sticks", "1¼ cups", "1½ cups and 1½ tbsp", "4", "2 tbsp"]
    assert [row[3] for row in plain] == ["113 g a stick", "200 g a cup", "125 g a cup", "counted", "244 g a cup"]
    assert [row[1] for row in plain] == ["200 g (7 oz)", "250 g (8 3/4 oz)", "200 g (7 oz)", "4", "30 ml"]
    assert handbook_tables.in_cups(120.0, 120.0) == "1 cup" and handbook_tables.in_cups(8.0, 128.0) == "1 tbsp"


def test_the_sources_are_kept_with_what_stands_before_them_and_nothing_else() -> None:
    before, wrong, sources, after = (
        '<h2 id="how">How</h2>',
        '<h2 id="if-it-goes-wrong">W</h2><table></table>',
        '<h2 id="sources">S</h2><ul></ul>',
        '<h2 id="next">N</h2>',
    )
    assert handbook_pages.with_sources_kept(before + wrong + sources + after) == f'{before}<div class="pb-together">{wrong}{sources}</div>{after}'
    for other in (before + sources + after, wrong + before + sources, wrong + after):  # not next to one another, or no sources
        assert handbook_pages.with_sources_kept(other) == other
    words = "<p>One.</p><p>The <b>last</b>.</p>\n"
    assert (
        handbook_pages.with_sources_kept(words + sources + after)
        == f'<p>One.</p><div class="pb-together"><p>The <b>last</b>.</p>\n{sources}</div>{after}'
    )
