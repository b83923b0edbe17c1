"""Bundles what a page loads: one script, one script for each worker, and one style sheet with its small pictures inlined.

A file is quick to read, but each has to be asked for, found, checked and handed over, by processes that share their processors with the start of
Python. esbuild does it; nothing is left of the files that were joined.
"""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

from tools.build.environment import esbuild
from tools.build.paths import NPM

SCRIPTS = ("handbook.js", "worker.js", "inflate.js")  # one for the page, one for each worker
LIBRARIES = {"idb": NPM / "node_modules" / "idb"}  # what our scripts import from npm
SHEET = "handbook-all.css"
# Rules of the theme that cost time on every page. One asks of each element that comes in whether it stands after a table, and has all that is in
# it styled again: the elements of text that do follow tables are named instead. Those of tabbed content, 80 of them, ask of each element of each
# drawing which child it is; no page has such tabs.
AFTER_TABLE = ".md-typeset table:not([class])+*{"
AFTER_TABLE_NAMED = ".md-typeset table:not([class])+:is(p,h2,h3,h4,ul,ol,dl,div,figure,details,blockquote,hr,table){"
NOWHERE = "tabbed-"  # classes that begin so
SELECTORS = re.compile(r"(?:[^,()]|\((?:[^()]|\((?:[^()]|\([^()]*\))*\))*\))+")  # of a rule: split at commas, but not inside brackets
RULE = re.compile(r"([^{}]+)\{[^{}]*\}")
SHEET_LINK = re.compile(r'<link rel="stylesheet" href="((?:\.\./)*|\./|/)(assets/[^"]+\.css)">\s*')


def join_scripts(site: Path) -> None:
    """Bundle assets/js into three scripts."""
    folder = site / "assets" / "js"
    whole = folder.with_name("js.whole")
    esbuild(
        "--bundle",
        "--format=esm",
        f"--outdir={whole}",
        *(f"--alias:{name}={path}" for name, path in LIBRARIES.items()),
        *(folder / name for name in SCRIPTS),
    )
    shutil.rmtree(folder)
    whole.rename(folder)


def lightened(sheet: str) -> str:
    """The theme's main style sheet without the rules that cost time and serve no page."""
    if AFTER_TABLE not in sheet:
        raise ValueError(f"the theme no longer says {AFTER_TABLE}: see whether bundle.lightened is still needed")

    def kept(rule: re.Match[str]) -> str:
        selectors = [each for each in SELECTORS.findall(rule[1]) if f".{NOWHERE}" not in each]
        return f"{','.join(selectors)}{rule[0][len(rule[1]) :]}" if selectors else ""

    return RULE.sub(kept, sheet.replace(AFTER_TABLE, AFTER_TABLE_NAMED))


def join_sheets(site: Path, pages: dict[Path, str]) -> None:
    """Bundle all style sheets into one and link it from the pages (HTML by file)."""
    orders = {tuple(address for _, address in SHEET_LINK.findall(html)) for html in pages.values()}
    if len(orders) != 1:
        raise ValueError(f"pages load different style sheets: {sorted(orders)}")
    (sheets,) = orders
    for page, html in pages.items():
        if f"{NOWHERE}" in html:
            raise ValueError(f"{page} has tabs, whose style is left out: see bundle.lightened")
    for sheet in sheets:
        if "/stylesheets/main." in sheet:
            (site / sheet).write_text(lightened((site / sheet).read_text(encoding="utf-8")), encoding="utf-8")
    folder = site / "assets" / "css"
    entry, whole = folder / "entry.css", site / "assets" / SHEET
    entry.write_text("".join(f'@import "{os.path.relpath(site / sheet, folder)}";\n' for sheet in sheets), encoding="utf-8")
    esbuild("--bundle", "--loader:.svg=dataurl", "--external:*.woff2", f"--outfile={whole}", entry)
    for sheet in sheets:
        path = site / sheet
        path.unlink()
        path.with_name(path.name + ".map").unlink(missing_ok=True)
        if not any(path.parent.iterdir()):
            path.parent.rmdir()
    entry.unlink()
    whole.rename(folder / SHEET)
    for page, html in pages.items():
        first = SHEET_LINK.search(html)
        if first is None:
            raise ValueError(f"{page} has no style sheet")
        link = f'<link rel="stylesheet" href="{first[1]}assets/css/{SHEET}">\n    '
        pages[page] = html[: first.start()] + link + SHEET_LINK.sub("", html[first.start() :])
