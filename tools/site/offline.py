"""Finishes a built site: hashed paths, the content security policy, and the list of files for offline use.

Scripts and style sheets move into folders that carry a hash of what is in them, so that a page and what it loads are always of one
build, and a browser may keep them for ever. `offline.json` names every file that a page, a calculator or a sheet needs, with its
hash and size; the page saves exactly those, all or none (docs/assets/js/offline.js), and docs/sw.js answers from them.
"""

from __future__ import annotations

import argparse
import gzip
import hashlib
import json
import re
import shutil
from pathlib import Path

from tools.build.console import say
from tools.build.paths import SITE
from tools.site import bundle, policy, search

FOLDERS = ("js", "css")  # under assets/, moved to assets/js-HASH and assets/css-HASH
LIST = "offline.json"
LEFT_OUT = re.compile(r"\.map$|^404\.html$|^sw\.js$|^offline\.json$|^assets/images/favicon\.png$|\.txt$")
FOR_EVER = re.compile(r"^assets/(js-|css-|runtime/|javascripts/|fonts/)")
BUILD_NAME = "pb-build"
LOCAL = "http://127.0.0.1:8000/"  # site_url until someone sets their own


def digest(parts: list[str]) -> str:
    """A short hash over strings."""
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:16]


def versioned(site: Path) -> dict[str, str]:
    """Move scripts and style sheets into folders named after their hash; returns new paths by old path."""
    moved = {}
    for name in FOLDERS:
        folder = site / "assets" / name
        files = sorted(path for path in folder.rglob("*") if path.is_file())
        whole = digest([f"{path.relative_to(folder)} {hashlib.sha256(path.read_bytes()).hexdigest()}" for path in files])
        folder.rename(folder.with_name(f"{name}-{whole}"))
        moved[f"assets/{name}/"] = f"assets/{name}-{whole}/"
    return moved


def undate(site: Path) -> None:
    """Take the day of the build out of the sitemap: it says nothing of the pages, and the same sources would give other bytes each day."""
    sitemap = site / "sitemap.xml"
    sitemap.write_text(re.sub(r"\s*<lastmod>[^<]*</lastmod>", "", sitemap.read_text(encoding="utf-8")), encoding="utf-8")
    (site / "sitemap.xml.gz").unlink(missing_ok=True)


def at_any_address(site: Path) -> None:
    """Let the theme change pages without reloading wherever the site is hosted.

    The theme looks up in sitemap.xml which addresses are pages of the site. Where no address was set, the map is written with relative
    ones, and the theme's script is made to read them as such.
    """
    sitemap = site / "sitemap.xml"
    text = sitemap.read_text(encoding="utf-8")
    if LOCAL not in text:
        return
    sitemap.write_text(text.replace(f"<loc>{LOCAL}", "<loc>./"), encoding="utf-8")
    (bundle,) = (site / "assets" / "javascripts").glob("bundle.*.min.js")
    script = bundle.read_text(encoding="utf-8")
    as_is, relative = "new URL(n.textContent),t)", "new URL(n.textContent,t),t)"
    if script.count(as_is) != 1:
        raise ValueError("the theme's script reads its map of pages in another way now: see at_any_address")
    bundle.write_text(script.replace(as_is, relative), encoding="utf-8")


def from_its_own_address(html: str) -> str:
    """The 404 page with addresses relative to the root of the handbook, so that it works under any sub-path.

    MkDocs writes them from the root of the host. At a deeper address the page's first script goes to the page's own (tools/site/theme/404.html).
    """
    config = re.search(r'<script id="__config" type="application/json">(.*?)</script>', html)
    if not config:
        raise ValueError("the theme keeps its settings elsewhere now: see from_its_own_address")
    base = json.loads(config[1])["base"]
    html = re.sub(rf'((?:href|src)="){re.escape(base)}\.?', r"\1./", html)
    html = html.replace(f'"base": "{base}"', '"base": "."').replace(f'"search": "{base}', '"search": "./')
    return html.replace(f'new URL("{base}",location)', 'new URL(".",location)')


def search_when_opened(site: Path) -> None:
    """Make the theme load its search index when the search is opened, not on every page while the calculators start."""
    (bundle,) = (site / "assets" / "javascripts").glob("bundle.*.min.js")
    script = bundle.read_text(encoding="utf-8")
    at_once, when_opened = '(location.protocol!=="file:"),', "(!1),"
    if len(re.findall(r'\$\(location\.protocol!=="file:"\),\w+\("search"\)', script)) != 1 or script.count(at_once) != 1:
        raise ValueError("the theme's script starts its search in another way now: see search_when_opened")
    bundle.write_text(script.replace(at_once, when_opened), encoding="utf-8")


def arrive_quietly(site: Path) -> None:
    """Keep the theme's script from restyling the whole page, several times over, when it comes and finds the colours as they are to be.

    It forbids transitions while it puts on a colour scheme, even the one that the page has, and makes a `meta` of its own for the scheme of the
    browser's parts, which it writes even where it says so already. It is given the one of the page (tools/site/theme/main.html). tools/site/early.js
    does what else belongs to this.
    """
    (bundle,) = (site / "assets" / "javascripts").glob("bundle.*.min.js")
    script = bundle.read_text(encoding="utf-8")
    always = 'document.body.setAttribute("data-md-color-switching","")'
    own = re.compile(r'=x\("meta",\{name:"color-scheme"\}\);document\.head\.appendChild\(\w+\)')
    again = re.compile(r"(\w+)\.content=(\w+)\.colorScheme,")
    if script.count(always) != 1 or len(own.findall(script)) != 1 or len(again.findall(script)) != 1 or f"if({always},s.color.media===" not in script:
        raise ValueError("the theme's script puts on its colours in another way now: see arrive_quietly")
    script = script.replace(always, f"document.body.dataset.mdColorScheme!==s.color.scheme&&{always}")
    script = own.sub('=document.querySelector("meta[name=color-scheme]")', script)
    bundle.write_text(again.sub(r"\1.content!==\2.colorScheme&&(\1.content=\2.colorScheme),", script), encoding="utf-8")


def theme_later(html: str) -> str:
    """On pages with a calculator, load the theme's script after the first answer (`tools/site/early.js` does it)."""
    if 'name="pb-runtime"' not in html:
        return html
    found = re.findall(r'<script src="([^"]*/javascripts/bundle\.[^"]+)"></script>\s*', html)
    if len(found) != 1:
        raise ValueError("the theme brings its script in another way now: see theme_later")
    html = re.sub(r'<script src="[^"]*/javascripts/bundle\.[^"]+"></script>\s*', "", html)
    return html.replace("</head>", f'<meta name="pb-theme" content="{found[0]}">\n  </head>', 1)


def listed(site: Path) -> list[tuple[str, Path]]:
    """The files for offline use, with the path that a browser requests."""
    found = []
    text = "".join(path.read_text(encoding="utf-8") for path in [*site.rglob("*.html"), *site.rglob("*.css"), *site.glob("*.webmanifest")])
    for path in sorted(site.rglob("*")):
        name = path.relative_to(site).as_posix()
        is_shown = not name.startswith(("assets/pictures/", "assets/icons/")) or path.name in text
        if path.is_file() and is_shown and not LEFT_OUT.search(name):
            found.append((re.sub(r"(^|/)index\.html$", r"\1", name), path))
    return found


def entry(path: str, data: bytes) -> list[str | int]:
    """One entry of the list: path, hash, size."""
    return [path, policy.fingerprint(data, "sha256").partition("-")[2], len(data)]


def fetched(path: Path, data: bytes) -> int:
    """The transfer size of a file from a host that compresses it if it is worth it."""
    already = path.suffix in (".bin", ".woff2", ".png")
    return len(data) if already else len(gzip.compress(data, 9))


def finish(site: Path, also: dict[str, str]) -> dict[str, object]:
    """Finish a site that MkDocs has just written; `also` has other names for pages, by address. Returns the list."""
    undate(site)
    shutil.rmtree(site / "assets" / "javascripts" / "lunr")  # the theme's, for searching in other languages: no page asks for it
    at_any_address(site)
    search_when_opened(site)
    arrive_quietly(site)
    search.prepare_query(site)
    pages = {page: page.read_text(encoding="utf-8") for page in sorted(site.rglob("*.html"))}
    bundle.join_scripts(site)
    bundle.join_sheets(site, pages)
    moved = versioned(site)
    code = digest([f"{name} {hashlib.sha256(path.read_bytes()).hexdigest()}" for name, path in listed(site) if FOR_EVER.match(name)])
    for page, html in pages.items():
        if page == site / "404.html":
            html = from_its_own_address(html)
        for old, new in moved.items():
            html = html.replace(old, new)
        html = re.sub(r'\s*<link rel="canonical" href="' + re.escape(LOCAL) + r'[^"]*">', "", html)
        html = theme_later(html)
        pages[page] = html.replace("</head>", f'<meta name="{BUILD_NAME}" content="{code}">\n  </head>', 1)
    whole = policy.secure(site, pages)
    for page, html in pages.items():
        page.write_text(html, encoding="utf-8")
    index = site / "search" / "search_index.json"
    if index.is_file():
        index.write_text(search.finished_index(index.read_text(encoding="utf-8").replace(policy.TOKEN, whole), also), encoding="utf-8")
    return write_list(site, code)


def write_list(site: Path, code: str) -> dict[str, object]:
    """Write offline.json."""
    files, to_fetch = [], 0
    for name, path in listed(site):
        data = path.read_bytes()
        files.append(entry(name, data))
        to_fetch += fetched(path, data)
    listing: dict[str, object] = {
        "build": digest([json.dumps(line) for line in files]),
        "code": code,
        "bytes": sum(int(line[2]) for line in files),
        "fetched": to_fetch,
        "files": files,
    }
    (site / LIST).write_text(json.dumps(listing, separators=(",", ":")), encoding="utf-8")
    return listing


def main() -> None:
    """Print what offline use of the built site takes."""
    argparse.ArgumentParser(description=main.__doc__).parse_args()
    listing = json.loads((SITE / LIST).read_text(encoding="utf-8"))
    kinds: dict[str, list[int]] = {}
    for name, _, size in listing["files"]:
        kind = "/".join(name.split("/")[:2]) if name.startswith("assets/") else name.split("/")[0] if "." in name else "pages"
        path = SITE / (name + "index.html" if name == "" or name.endswith("/") else name)
        both = kinds.setdefault(kind, [0, 0, 0])
        both[0] += 1
        both[1] += size
        both[2] += fetched(path, path.read_bytes())
    for kind, (count, size, packed) in sorted(kinds.items(), key=lambda item: -item[1][2]):
        say(f"{kind:28} {count:4} files {size:12,} bytes, {packed:12,} to fetch")
    say(f"{'all':28} {len(listing['files']):4} files {listing['bytes']:12,} bytes, {listing['fetched']:12,} to fetch")


if __name__ == "__main__":
    main()
