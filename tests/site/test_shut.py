"""The built pages are shut to strangers: one policy on all of them, every script and style sheet with its hash, nothing that runs unseen."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from html import unescape
from pathlib import Path

import pytest

META = re.compile(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">')


@pytest.fixture(scope="module")
def pages(site: Path) -> dict[str, str]:
    """Every page by its path."""
    return {file.relative_to(site).as_posix(): file.read_text(encoding="utf-8") for file in sorted(site.rglob("*.html"))}


def policy_of(pages: dict[str, str]) -> dict[str, list[str]]:
    """What the policy says, by directive."""
    (policy,) = {match[1] for html in pages.values() if (match := META.search(html))}
    return {part.split()[0]: part.split()[1:] for part in policy.split("; ")}


def test_one_policy_stands_first_on_every_page(pages: dict[str, str]) -> None:
    for path, html in pages.items():
        assert len(META.findall(html)) == 1, path
        assert html.index("http-equiv") < min(html.index("<script"), html.index("<link")), path
    policy_of(pages)


def test_the_policy_lets_no_script_in_but_ours(pages: dict[str, str]) -> None:
    policy = policy_of(pages)
    scripts = policy["script-src"]
    hashes = {source for source in scripts if source.startswith("'sha256-")}
    assert set(scripts) - hashes == {"'self'", "'wasm-unsafe-eval'"}
    assert policy["object-src"] == policy["frame-src"] == policy["base-uri"] == ["'none'"]
    assert policy["style-src"] == policy["font-src"] == policy["worker-src"] == policy["default-src"] == ["'self'"]
    for directive, sources in policy.items():
        assert not {"*", "http:", "https:", "'unsafe-inline'", "'unsafe-eval'"} & set(sources), directive


def test_each_script_in_a_page_is_one_of_those_that_the_policy_names(pages: dict[str, str]) -> None:
    allowed = set(policy_of(pages)["script-src"])
    used = set()
    for path, html in pages.items():
        for attributes, body in re.findall(r"<script([^>]*)>(.*?)</script>", html, re.DOTALL):
            if " src=" in attributes or 'type="application/json"' in attributes:
                continue
            name = f"'sha256-{base64.b64encode(hashlib.sha256(body.encode()).digest()).decode()}'"
            assert name in allowed, f"{path}: {body[:80]}"
            used.add(name)
    assert used == {source for source in allowed if source.startswith("'sha256-")}, "the policy names scripts that no page has"


def test_no_page_has_a_handler_or_an_address_that_is_a_script(pages: dict[str, str]) -> None:
    for path, html in pages.items():
        tags = re.findall(r"<[a-zA-Z][^>]*>", html)
        assert [tag for tag in tags if re.search(r"\son\w+\s*=", tag) or re.search(r"=\s*[\"']?\s*javascript:", tag, re.IGNORECASE)] == [], path


def test_styles_stand_in_style_sheets_only(pages: dict[str, str]) -> None:
    """The policy would refuse them."""
    for path, html in pages.items():
        assert re.findall(r'<style|<[^>]+\sstyle="[^"]*"', html) == [], path


def test_each_script_and_style_sheet_has_its_hash(site: Path, pages: dict[str, str]) -> None:
    for path, html in pages.items():
        loaded = re.findall(r'<(?:script|link|meta)\b[^>]*?(?:src|href|name="pb-theme" content)="([^"]+\.(?:js|css))"([^>]*)>', html)
        assert {Path(address).name.partition(".")[0] for address, _ in loaded} == {"handbook-all", "handbook", "bundle"}, path
        for address, rest in loaded:
            file = (site / path).parent / address
            wanted = base64.b64encode(hashlib.sha384(file.read_bytes()).digest()).decode()
            assert f'integrity="sha384-{wanted}"' in rest, f"{path}: {address}"


def test_the_header_examples_carry_the_policy_of_this_build(pages: dict[str, str]) -> None:
    page = unescape(pages["about/hosting/index.html"])
    (policy,) = set(META.findall(page))
    assert "@policy@" not in page
    assert page.count(policy + "; frame-ancestors 'none'") >= 4


def test_the_list_for_offline_use_is_what_is_on_the_disk(site: Path) -> None:
    told = json.loads((site / "offline.json").read_text(encoding="utf-8"))
    listed = {}
    for path, digest, size in told["files"]:
        file = site / (path + "index.html" if path == "" or path.endswith("/") else path)
        data = file.read_bytes()
        assert (base64.b64encode(hashlib.sha256(data).digest()).decode(), len(data)) == (digest, size), path
        listed[file.relative_to(site).as_posix()] = size
    assert told["bytes"] == sum(listed.values())
    pages = {file.relative_to(site).as_posix() for file in site.rglob("*.html")} - {"404.html"}
    assert pages <= set(listed)
    runtime = {file.relative_to(site).as_posix() for file in (site / "assets" / "runtime").rglob("*") if file.is_file()}
    assert runtime <= set(listed)
    assert {"search/search_index.json", "manifest.webmanifest", "sitemap.xml"} <= set(listed)
    assert not [path for path in listed if path.endswith((".map", "sw.js"))]


def test_offline_use_fits_13_megabytes(site: Path) -> None:
    """As it comes over the line from a host that compresses."""
    told = json.loads((site / "offline.json").read_text(encoding="utf-8"))
    assert told["fetched"] <= 13_000_000, f"{told['fetched']:,} bytes"


def test_every_file_that_a_page_or_a_style_sheet_names_is_on_the_list(site: Path, pages: dict[str, str]) -> None:
    listed = {path for path, _, _ in json.loads((site / "offline.json").read_text(encoding="utf-8"))["files"]}
    lacking = []
    for path, html in pages.items():
        if path == "404.html":
            continue
        for address in re.findall(r'<(?:script|link|img|source)\b[^>]*?(?:src|href)="([^"#?]+)"', html):
            file = ((site / path).parent / address).resolve().relative_to(site.resolve()).as_posix()
            if file not in listed and f"{file}/" not in listed and file != "." and address.startswith((".", "assets")):
                lacking.append(f"{path}: {address}")
    for sheet in site.rglob("*.css"):
        for address in re.findall(r'url\("?([^")]+)"?\)', sheet.read_text(encoding="utf-8")):
            if address.startswith("data:") or address.startswith("#"):
                continue
            file = (sheet.parent / address).resolve().relative_to(site.resolve()).as_posix()
            if file not in listed:
                lacking.append(f"{sheet.name}: {address}")
    assert lacking == []


def test_the_control_for_offline_use_is_on_every_page(pages: dict[str, str]) -> None:
    assert [path for path, html in pages.items() if html.count('class="pb-offline"') != 1] == []


def test_no_page_claims_an_address_of_this_machine(pages: dict[str, str]) -> None:
    assert [path for path, html in pages.items() if 'rel="canonical" href="http://127.0.0.1' in html] == []
