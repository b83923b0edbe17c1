"""The built pages: links that lead somewhere, nothing foreign, nothing left over, headings in order, pictures described."""

from __future__ import annotations

import gzip
import json
import re
import struct
from html import unescape
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urljoin, urlsplit

import pytest

TEXT = {".html", ".css", ".js", ".mjs", ".json", ".svg", ".xml", ".webmanifest"}
HERE = "http://127.0.0.1:8000/"
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


class Reader(HTMLParser):
    """What a page refers to, its ids, headings, pictures and text."""

    def __init__(self) -> None:
        super().__init__()
        self.links: list[tuple[str, str]] = []
        self.ids: list[str] = []
        self.headings: list[int] = []
        self.nameless: list[str] = []
        self.text: list[str] = []
        self.language = ""
        self.titles = 0
        self._open: list[str] = []
        self._quiet = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note what an element refers to and is called."""
        given = {name: value or "" for name, value in attrs}
        if tag not in VOID:
            self._open.append(tag)
        if tag in ("script", "style", "template"):
            self._quiet += 1
        if "id" in given and not self._quiet:
            self.ids.append(given["id"])
        for name in ("href", "src", "srcset", "action", "data"):
            if given.get(name):
                self.links.append((tag, given[name]))
        if re.fullmatch("h[1-6]", tag) and "svg" not in self._open:
            self.headings.append(int(tag[1]))
        if tag == "img" and "alt" not in given:
            self.nameless.append(f"img {given.get('src')}")
        if tag == "svg" and given.get("role") == "img" and not (given.get("aria-label") or given.get("aria-labelledby")):
            self.nameless.append("svg")
        if tag == "html":
            self.language = given.get("lang", "")
        if tag == "title" and "svg" not in self._open:
            self.titles += 1

    def handle_endtag(self, tag: str) -> None:
        """Note that an element is closed."""
        if tag in ("script", "style", "template"):
            self._quiet -= 1
        if tag in self._open:
            while self._open.pop() != tag:
                pass

    def handle_data(self, data: str) -> None:
        """Keep text that a reader sees."""
        if not self._quiet:
            self.text.append(data)


def read(file: Path) -> Reader:
    """A page, read."""
    reader = Reader()
    reader.feed(file.read_text(encoding="utf-8"))
    return reader


@pytest.fixture(scope="module")
def pages(site: Path) -> dict[str, Reader]:
    """Every page of the site by its path."""
    found = {file.relative_to(site).as_posix(): read(file) for file in sorted(site.rglob("*.html"))}
    assert len(found) > 3
    return found


def test_links_lead_somewhere(site: Path, pages: dict[str, Reader]) -> None:
    broken = []
    for path, page in pages.items():
        for tag, link in page.links:
            address = urlsplit(urljoin(HERE + path, link))
            if address.scheme in ("data", "mailto"):
                continue
            target = site / unquote(address.path.lstrip("/"))
            if target.is_dir():
                target = target / "index.html"
            if not target.is_file():
                broken.append(f"{path}: {tag} {link}")
            elif address.fragment and target.suffix == ".html":
                name = target.relative_to(site).as_posix()
                if unquote(address.fragment) not in pages[name].ids and ":" not in address.fragment and address.fragment != "__skip":
                    broken.append(f"{path}: {tag} {link} has no such place")
    assert broken == []


def test_no_page_is_bound_to_the_root_of_its_host(site: Path, pages: dict[str, Reader]) -> None:
    """The folder may be hosted under any sub-path; the page shown where there is none, too."""
    bound = [f"{path}: {tag} {link}" for path, page in pages.items() for tag, link in page.links if link.startswith("/")]
    assert bound == []
    for path in pages:
        html = (site / path).read_text(encoding="utf-8")
        assert not re.search(r'"(?:base|search)": "/|new URL\("/', html), path


def test_nothing_is_loaded_from_elsewhere(pages: dict[str, Reader]) -> None:
    """Links that a reader may follow are the reader's choice; scripts, styles, pictures and fonts are not."""
    foreign = [
        f"{path}: {tag} {link}"
        for path, page in pages.items()
        for tag, link in page.links
        if tag != "a" and re.match(r"(https?:)?//", link) and not link.startswith(HERE)
    ]
    assert foreign == []


def test_no_style_or_script_of_ours_names_another_host(site: Path) -> None:
    """Comments, namespaces and notices in the theme's icons aside. Pyodide's own loader holds one that it is never told to use."""
    allowed = ("http://www.w3.org/", "http://127.0.0.1", "https://openfontlicense.org", "https://fontawesome.com")
    found = []
    for file in sorted(site.rglob("*")):
        relative = file.relative_to(site).as_posix()
        ours = relative.startswith(("assets/js-", "assets/css-", "assets/icons/", "assets/pictures/"))
        if not ours or file.suffix not in TEXT:
            continue
        for address in re.findall(r"https?://[^\s\"'<>)]+", file.read_text(encoding="utf-8")):
            if not address.startswith(allowed):
                found.append(f"{relative}: {address}")
    assert found == []


def test_no_fence_was_left_as_text(pages: dict[str, Reader]) -> None:
    left = []
    for path, page in pages.items():
        text = " ".join(page.text)
        for sign in ("```", "@title", "@order", "@caption", "calc: ", "{{", "}}"):
            if sign in text:
                left.append(f"{path}: {sign} {text[max(0, text.index(sign) - 60) : text.index(sign) + 60]!r}")
    assert left == []


def test_what_is_said_of_a_page_is_not_in_it(pages: dict[str, Reader]) -> None:
    """A colon in a description is enough for all that stands before a page to be taken for its text, and its title is lost."""
    for path, page in pages.items():
        assert not re.search(r"(?:^|\n)\s*(?:hide|title|description|also):\s", "\n".join(page.text)), path


def test_headings_go_down_one_step_at_a_time(pages: dict[str, Reader]) -> None:
    wrong = []
    for path, page in pages.items():
        if path == "404.html":
            continue
        if page.headings.count(1) != 1:
            wrong.append(f"{path}: {page.headings.count(1)} headings of the first level")
        for before, after in zip([0, *page.headings], page.headings, strict=False):
            if after > before + 1:
                wrong.append(f"{path}: from level {before} to {after}")
    assert wrong == []


def test_pictures_are_described_and_pages_named(pages: dict[str, Reader]) -> None:
    assert [f"{path}: {what}" for path, page in pages.items() for what in page.nameless] == []
    assert [path for path, page in pages.items() if page.language != "en" or page.titles != 1] == []


def test_ids_are_used_once(pages: dict[str, Reader]) -> None:
    """Ids inside a drawing are made from the drawing: one drawn twice on a page has them twice, and both mean the same."""
    drawn = re.compile(r"d[0-9a-f]{8}[a-z]\d*")
    wrong = []
    for path, page in pages.items():
        twice = sorted({identity for identity in page.ids if page.ids.count(identity) > 1 and not drawn.fullmatch(identity)})
        if twice:
            wrong.append(f"{path}: {twice}")
    assert wrong == []


def test_every_page_can_be_reached_from_the_first(site: Path, pages: dict[str, Reader]) -> None:
    seen, left = set(), ["index.html"]
    while left:
        path = left.pop()
        if path in seen or path not in pages:
            continue
        seen.add(path)
        for tag, link in pages[path].links:
            address = urlsplit(urljoin(HERE + path, link))
            if tag == "a" and address.netloc == "127.0.0.1:8000":
                target = address.path.lstrip("/")
                left.append(target + "index.html" if target == "" or target.endswith("/") else target)
    assert sorted(set(pages) - seen - {"404.html"}) == []


def test_first_live_answer_needs_no_more_than_nine_megabytes(site: Path) -> None:
    """Over the line, from a host that compresses what is worth it: the runtime, the memory snapshot, our scripts."""
    runtime = site / "assets" / "runtime"
    first = [*runtime.glob("pyodide-*/*"), *runtime.glob("snapshot-*"), *site.glob("assets/js-*/*")]
    names = {path.suffix for path in first}
    assert {".wasm", ".js", ".bin"} <= names
    fetched = sum(path.stat().st_size if path.suffix == ".bin" else len(gzip.compress(path.read_bytes(), 9)) for path in first)
    assert fetched <= 9_000_000, f"{fetched:,} bytes"


def test_pages_start_with_the_trimmed_script(site: Path) -> None:
    """A trim that fails on the pinned Pyodide is a warning of the build and a failure here."""
    told = re.search(r'name="pb-runtime" content="([^"]+)"', (site / "techniques" / "swags" / "index.html").read_text(encoding="utf-8"))
    assert told
    assert json.loads(unescape(told[1]))["script"] == "pyodide.trimmed.js"


def test_memory_of_the_snapshot_is_no_larger_than_that_of_a_fresh_start(site: Path) -> None:
    """So a restore need not grow it first, and there is no more to ship and to unpack. The file begins with its stretches of memory."""
    (packed,) = (site / "assets" / "runtime").glob("snapshot-*.bin")
    shipped = gzip.decompress(packed.read_bytes())
    count, head = struct.unpack_from("<2I", shipped)
    stretches = list(struct.iter_unpack("<2I", shipped[8 : 8 + 8 * count]))
    assert len(shipped) == 8 + 8 * count + head + sum(length for _, length in stretches)
    assert all(at + length < next_at for (at, length), (next_at, _) in pairwise(stretches)), "in order, and each as long as it can be"
    told = re.search(r'name="pb-runtime" content="([^"]+)"', (site / "techniques" / "swags" / "index.html").read_text(encoding="utf-8"))
    assert told
    memory = int(json.loads(unescape(told[1]))["image"]) - head
    assert sum(stretches[-1]) <= memory
    assert 20_000_000 < memory <= 31_457_280, f"{memory:,} bytes"


def test_all_for_offline_use_needs_no_more_than_thirteen_megabytes(site: Path) -> None:
    told = json.loads((site / "offline.json").read_text(encoding="utf-8"))
    assert told["fetched"] <= 13_000_000, f"{told['fetched']:,} bytes"
