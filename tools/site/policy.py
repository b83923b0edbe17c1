"""Secures the built pages: a content security policy in each, and integrity hashes on what they load.

The theme writes a few small scripts into its pages. Their hashes are gathered over the whole site and every page gets the same
policy, so that changing the page without reloading changes nothing. Nothing else written into a page can run: no handler
in an attribute, no script of a stranger, no `eval`. The calculators need `wasm-unsafe-eval`, which lets WebAssembly be compiled and
nothing more.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable
from pathlib import Path

SCRIPT = re.compile(r"<script(?P<attributes>[^>]*)>(?P<body>.*?)</script>", re.DOTALL)
LOADED = re.compile(r'<(?:script [^>]*?src|link rel="stylesheet" href|meta name="pb-theme" content)="(?P<address>[^"]+)"')
CHARSET = '<meta charset="utf-8">'
TOKEN = "@policy@"  # stands for the policy in a page


def fingerprint(data: bytes, kind: str = "sha384") -> str:
    """A hash in the form of `integrity` attributes and policies."""
    return f"{kind}-{base64.b64encode(hashlib.new(kind, data).digest()).decode()}"


def inline_scripts(html: str) -> list[str]:
    """The inline scripts of a page, without blocks of data."""
    found = []
    for match in SCRIPT.finditer(html):
        attributes = match["attributes"]
        if " src=" not in attributes and "application/json" not in attributes:
            found.append(match["body"])
    return found


def policy(scripts: Iterable[str]) -> str:
    """The policy that allows these inline scripts, the site's own files, and nothing else."""
    hashes = sorted({f"'{fingerprint(script.encode(), 'sha256')}'" for script in scripts})
    return "; ".join(
        [
            "default-src 'self'",  # some browsers prefetch the next page under this directive
            " ".join(["script-src 'self' 'wasm-unsafe-eval'", *hashes]),
            "style-src 'self'",
            "img-src 'self' data: blob:",
            "font-src 'self'",
            "connect-src 'self' data: blob:",
            "worker-src 'self'",
            "manifest-src 'self'",
            "object-src 'none'",
            "frame-src 'none'",
            "media-src 'none'",
            "base-uri 'none'",
            "form-action 'none'",  # no form of ours is ever sent
        ]
    )


def with_hashes(html: str, page: Path) -> str:
    """Add an integrity hash to each script and style sheet."""

    def add(match: re.Match[str]) -> str:
        name = "data-integrity" if match[0].startswith("<meta") else "integrity"
        return f'{match[0]} {name}="{fingerprint((page.parent / match["address"]).read_bytes())}"'

    return LOADED.sub(add, html)


def secure(site: Path, pages: dict[Path, str]) -> str:
    """Write the policy and the hashes into the pages (HTML by file); returns the policy."""
    whole = policy(script for html in pages.values() for script in inline_scripts(html))
    meta = f'{CHARSET}\n      <meta http-equiv="Content-Security-Policy" content="{whole}">'
    for page, html in pages.items():
        if CHARSET not in html:
            raise ValueError(f"{page} does not begin as the theme's pages do")
        pages[page] = with_hashes(html, page).replace(CHARSET, meta, 1).replace(TOKEN, whole)
    return whole
