"""What the handbook's pages add to Markdown beside calculators.

- ```` ```drawing ````: the first line names a drawing of tools/site/handbook_figures.py, then `name = value` lines, and `@caption` in words;
- ```` ```moving ````: the first line names a picture of tools/films/moving_films.py, then `tip = ...` and `colour = ...`;
- ```` ```table ````: the first line names a table of tools/site/handbook_tables.py, then `name = value` lines;
- `` `number: rows.kinds.shell.SHELL_WIDTH` `` in running text: a constant of calc;
- ```` ```sources ````: one key of `calc.sources` a line, with what it is the source of after a colon;
- ```` ```notices ````: what others made of the site, with the texts of the licences;
- `also:` in a page's front matter: other names a reader may search for, which stand in the search index only;
- the first time a page uses a word of tools/site/handbook_words.toml, its meaning is there on hover, touch or focus; `unmeant:` in the front
  matter names words that the page uses in their everyday sense.

A fence that cannot be made breaks the build.
"""

from __future__ import annotations

import importlib
import re
import tomllib
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markdown.util import AtomicString
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.pages import Page
from pymdownx.superfences import SuperFencesException

from calc.page.html import element
from calc.sources import SOURCES, Constant
from tools.build.fences import Fence
from tools.films import moving_markup, moving_short
from tools.films.moving_films import FILMS, film
from tools.site import handbook_figures, handbook_tables, notices

WORDS = Path(__file__).with_name("handbook_words.toml")
FENCES = ("drawing", "moving", "table", "sources", "notices")
CAPTION = ("caption",)
UNMEANT = (
    "about/decisions/",
    "about/hosting",
    "about/next-pyodide",
    "about/notices",
    "about/speed",
)  # where a drop, a string or a repeat is nothing of buttercream
NOT_EXPLAINED_IN = {"a", "abbr", "code", "h1", "h2", "h3", "h4", "h5", "h6", "th", "figcaption", "button", "label", "svg"}


def drawing(text: str) -> str:
    """The HTML of a drawing fence."""
    fence = Fence(text, CAPTION)
    if fence.name not in handbook_figures.FIGURES:
        raise ValueError(f"there is no drawing called {fence.name}; there are {', '.join(handbook_figures.FIGURES)}")
    return handbook_figures.FIGURES[fence.name](fence.values, fence.options.get("caption", ""))


def moving_picture(text: str) -> str:
    """The HTML of a moving fence."""
    fence = Fence(text, ())
    if fence.name not in FILMS:
        raise ValueError(f"there is no moving picture called {fence.name}; there are {', '.join(FILMS)}")
    return moving_markup.markup(film(fence.name, fence.values), STATE.shared)


def table(text: str) -> str:
    """The HTML of a table fence."""
    fence = Fence(text, CAPTION)
    if fence.name not in handbook_tables.TABLES:
        raise ValueError(f"there is no table called {fence.name}; there are {', '.join(handbook_tables.TABLES)}")
    return handbook_tables.TABLES[fence.name](fence.values, fence.options.get("caption", ""))


def sources(text: str) -> str:
    """The HTML of a sources fence: each source as it stands in `calc.sources`."""
    items = []
    for line in (line.strip() for line in text.splitlines()):
        if not line:
            continue
        key, _, matter = (part.strip() for part in line.partition(":"))
        if key not in SOURCES:
            raise ValueError(f"there is no source called {key}")
        source = SOURCES[key]
        title = source.citation if source.standing == "published" else source.title
        items.append(element("li", {}, f"{title}: {matter}." if matter else f"{title}."))
    return element("ul", {"class": "pb-sources"}, *items)


MAKERS: dict[str, Callable[[str], str]] = {
    "drawing": drawing,
    "moving": moving_picture,
    "table": table,
    "sources": sources,
    "notices": lambda _: notices.notices(),
}


def _fence(kind: str) -> Callable[..., str]:
    def make(source: str, language: str, css_class: str, options: dict[str, Any], md: Markdown, **_: Any) -> str:
        try:
            return MAKERS[kind](source)
        except Exception as fault:
            raise SuperFencesException(f"{kind} {source.split()[:1]}: {fault}") from fault

    return make


# --- words -------------------------------------------------------------------------------------------------------------


@lru_cache(maxsize=1)
def words() -> dict[str, dict[str, Any]]:
    """The handbook's words: what each means, and its other forms."""
    with WORDS.open("rb") as file:
        return tomllib.load(file)


@lru_cache(maxsize=1)
def _pattern() -> tuple[re.Pattern[str], dict[str, str]]:
    forms: dict[str, str] = {}
    for word, entry in words().items():
        if entry.get("hover", True):
            for form in (word, *entry.get("forms", ())):
                forms[form.lower()] = word
    longest = sorted(forms, key=len, reverse=True)
    return re.compile(r"(?<![\w-])(" + "|".join(re.escape(form) for form in longest) + r")(?![\w-])", re.IGNORECASE), forms


class Meanings(Treeprocessor):
    """Puts the meaning on the first use of each word."""

    def run(self, root: Element) -> None:
        self.said: set[str] = set()
        if STATE.page is not None:
            if STATE.page.meta.get("meanings") is False or STATE.page.file.src_uri.startswith(UNMEANT):
                return
            self.said.update(str(word).strip() for word in str(STATE.page.meta.get("unmeant", "")).split(",") if word.strip())
        title = STATE.page.title.lower() if STATE.page is not None and STATE.page.title else ""
        pattern, forms = _pattern()
        for form, word in forms.items():
            if form == title:
                self.said.add(word)
        self.walk(root, pattern, forms)

    def walk(self, element: Element, pattern: re.Pattern[str], forms: dict[str, str]) -> None:
        at = 0
        if element.text and not isinstance(element.text, AtomicString):
            at = self.split(element, None, element.text, 0, pattern, forms)
        for child in list(element)[at:]:
            if child.tag not in NOT_EXPLAINED_IN:
                self.walk(child, pattern, forms)
            if child.tail and not isinstance(child.tail, AtomicString):
                self.split(element, child, child.tail, list(element).index(child) + 1, pattern, forms)

    def split(self, parent: Element, after: Element | None, text: str, at: int, pattern: re.Pattern[str], forms: dict[str, str]) -> int:
        """Wrap what is new in a text; gives how many elements were put in."""
        pieces: list[Element] = []
        rest = 0
        lead = text
        for match in pattern.finditer(text):
            word = forms[match[1].lower()]
            if word in self.said:
                continue
            self.said.add(word)
            before = text[rest : match.start()]
            if pieces:
                pieces[-1].tail = before
            else:
                lead = before
            abbr = Element("abbr", {"title": words()[word]["means"], "tabindex": "0"})
            abbr.text = AtomicString(match[1])
            pieces.append(abbr)
            rest = match.end()
        if not pieces:
            return 0
        pieces[-1].tail = AtomicString(text[rest:])
        if after is None:
            parent.text = lead
        else:
            after.tail = lead
        for number, piece in enumerate(pieces):
            parent.insert(at + number, piece)
        return len(pieces)


class Number(InlineProcessor):
    """`` `number: ROOM.NAME` `` in running text becomes a constant of calc."""

    def handleMatch(self, match: re.Match[str], data: str) -> tuple[Element, int, int]:  # type: ignore[override]
        room, _, name = match[1].strip().rpartition(".")
        value = getattr(importlib.import_module(f"calc.{room}"), name, None)
        if not isinstance(value, Constant):
            raise PluginError(f"calc.{room} has no constant {name}")
        span = Element("span", {"class": "pb-worked"})
        span.text = AtomicString(f"{float(value):g}")
        return span, match.start(0), match.end(0)


class Pages(Extension):
    """Registers `Meanings` after Markdown's own inline patterns."""

    def extendMarkdown(self, md: Markdown) -> None:
        md.treeprocessors.register(Meanings(md), "meanings", 12)
        md.inlinePatterns.register(Number(r"`number:\s+([^`]+)`", md), "calc-number", 194)


# --- the hook's doors ----------------------------------------------------------------------------------------------------


class State:
    """Which page is being written."""

    page: Page | None = None
    also: dict[str, str] = {}  # by the address of a page: other names that a reader may search for
    shared: set[str] = set()  # names of what the moving pictures of the page share


STATE = State()


LEFT_HAND = (
    '<div class="pb-hand" data-search-exclude><label><input type="checkbox" autocomplete="off">Left-handed: turn the drawings round</label></div>'
)


TO_SUM = '<p class="pb-to-sum" data-search-exclude="1"><a href="#work-it-out">Work it out</a></p>'


def register(config: MkDocsConfig) -> None:
    """Add the fences and the words to the Markdown of the site."""
    fences = config.mdx_configs.setdefault("pymdownx.superfences", {}).setdefault("custom_fences", [])
    fences[:] = [fence for fence in fences if fence["name"] not in FENCES]
    fences.extend({"name": kind, "class": "pb-fence", "format": _fence(kind)} for kind in FENCES)
    config.markdown_extensions[:] = [ext for ext in config.markdown_extensions if not isinstance(ext, Pages)]
    config.markdown_extensions.append(Pages())  # type: ignore[arg-type]


def begin(page: Page) -> None:
    """Note which page is being written."""
    STATE.page = page
    STATE.shared = set()


def with_row_headers(markup: str) -> str:
    """Make the first cell of each row a header in the tables that have none over their columns."""

    def headed(table: re.Match[str]) -> str:
        return re.sub(r"<tr>\n<td>(.*?)</td>", r'<tr>\n<th scope="row">\1</th>', table[1], flags=re.DOTALL)

    return re.sub(r"(?<=<table>\n)<thead>\n<tr>\n(?:<th></th>\n)+</tr>\n</thead>\n(<tbody>.*?</tbody>)", headed, markup, flags=re.DOTALL)


def finish(markup: str, page: Page) -> str:
    """Note the words a reader may search for, put a link to the sum at the head of a technique and the switch for the left hand before the first
    drawing that it turns; hold the build up where a fence was left as text."""
    if re.search(r'class="language-(drawing|moving|table|sources|notices)', markup):
        raise ValueError(f"{page.file.src_uri}: a drawing, a table or a list of sources was left as text")
    if page.meta.get("also"):
        STATE.also[page.url] = str(page.meta["also"])
    markup = re.sub(
        r"<(svg|figure|datalist)(?=[ >])(?![^>]*data-search-exclude)", r'<\1 data-search-exclude="1"', markup
    )  # taken out again by the theme
    markup = with_row_headers(markup.replace('<a class="headerlink"', '<a class="headerlink" tabindex="-1" aria-hidden="true"'))
    if page.url.startswith("techniques/") and 'id="work-it-out"' in markup and 'class="pb-calculator"' in markup:
        markup = re.sub(r"</h1>\s*<p>.*?</p>", lambda head: head[0] + TO_SUM, markup, count=1, flags=re.DOTALL)
    markup = re.sub(r'<div class="pb-(?:panels|moving-views)[^>]* data-turns>', lambda first: LEFT_HAND + first[0], markup, count=1)
    return moving_short.short(with_sources_kept(markup))


def with_sources_kept(markup: str) -> str:
    """Put the sources into one box with what may go wrong, or the paragraph, before them: on paper they would often stand alone on a last page."""
    before = r'(?:<h2 id="if-it-goes-wrong">(?:(?!<h2 ).)*|<p>(?:(?!</p>).)*</p>\s*)'
    together = before + r'<h2 id="sources">(?:(?!<h2 ).)*'
    return re.sub(together, lambda both: f'<div class="pb-together">{both[0]}</div>', markup, count=1, flags=re.DOTALL)
