"""Makes the theme's search find a page by the words that people type.

The theme's search worker matches the beginning of each word with lunr: it knows no stems and forgives no mistyped letter. So the index is
written with stems, other names of a page (`also:` in its front matter) are a field of their own, pages for whoever builds the handbook are left
out, and `search_words.js`, which is put into the worker, prepares a query before lunr parses it.
"""

from __future__ import annotations

import json
import re
import tempfile
import tomllib
from pathlib import Path
from typing import Any

from tools.build.environment import esbuild

QUERY = Path(__file__).with_name("search_words.js")
SAME = Path(__file__).with_name("search_words.toml")
PIPELINE = ["stopWordFilter", "stemmer"]
SEPARATOR = r"[\s\-,;:!?=\[\](){}\"'‘’“”/+×÷·→<>&…–]+|\.(?!\d)"
FIELDS = {"title": 8.0, "also": 7.0, "text": 1.0}  # what a word found there counts
NOT_FOUND = ("about/changelog/", "about/speed/", "about/next-pyodide/", "about/hosting/", "about/notices/", "about/decisions/")
AT_QUERY = re.compile(r'e=e\.replace\(new RegExp\("\\\\p\{sc=Han\}\+","gu"\),\w+=>\[\.\.\.\w+\(\w+,this\.index\.invertedIndex\)\]\.join\("\* "\)\)')


def same_words() -> dict[str, str]:
    """What each word that the handbook does not use is called in it."""
    words: dict[str, str] = tomllib.loads(SAME.read_text(encoding="utf-8"))
    return words


def prepare_query(site: Path) -> None:
    """Put `search_words.js` into the theme's search worker."""
    (worker,) = (site / "assets" / "javascripts" / "workers").glob("search.*.min.js")
    theirs = worker.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        source = QUERY.read_text(encoding="utf-8").replace('"@same-words@"', json.dumps(same_words(), ensure_ascii=False))
        written = Path(folder) / QUERY.name
        written.write_text(source, encoding="utf-8")
        esbuild(f"--outfile={folder}/out.js", "--format=iife", "--global-name=pbSearch", written)
        ours = (Path(folder) / "out.js").read_text(encoding="utf-8").strip()
    theirs, found = AT_QUERY.subn("e=pbSearch.preparedQuery(e,this.index)", theirs)
    if found != 1:
        raise ValueError("the theme's search reads its query in another way now: see prepare_query")
    worker.write_text(f"{ours}\n{theirs}", encoding="utf-8")


def finished_index(text: str, also: dict[str, str]) -> str:
    """The index as MkDocs wrote it, with other names by the address of a page; what is not looked up in a handbook is taken out."""
    index: dict[str, Any] = json.loads(text)
    index["config"] |= {"pipeline": PIPELINE, "separator": SEPARATOR, "fields": {name: {"boost": boost} for name, boost in FIELDS.items()}}
    docs = []
    for entry in index["docs"]:
        page, _, part = entry["location"].partition("#")
        # headings inside what is left out leave empty entries, and a calculator's title says nothing that its page does not
        if page.startswith(NOT_FOUND) or part.endswith("--title") or not (entry["title"] or entry["text"]):
            continue
        if not part and page in also:
            entry["also"] = also[page]
        entry["text"] = entry["text"].strip()
        docs.append(entry)
    return json.dumps(index | {"docs": docs}, separators=(",", ":"), ensure_ascii=False)
