"""The page of notices names everything that others made and the site ships, with the text of each licence, and is there offline."""

from __future__ import annotations

import json
import re
import zipfile
from html import unescape
from pathlib import Path

import pytest

from tools.build.paths import BUILD, PYODIDE, WHEELS
from tools.site import bundle, notices, sbom

OURS = {"calc", "worker_api.pyc"}


@pytest.fixture(scope="module")
def page(site: Path) -> str:
    return unescape((site / "about" / "notices" / "index.html").read_text(encoding="utf-8"))


def test_every_part_is_there_with_the_whole_text_of_its_licence(page: str) -> None:
    found = notices.parts()
    assert len(found) > 10
    for part in found:
        assert f"{part.name} {part.version}".strip() in page
        assert part.texts
        for text in part.texts:
            assert len(text) > 300
            assert text.strip() in page


def test_every_package_in_the_runtime_belongs_to_a_wheel_that_is_named() -> None:
    of_wheels = {name.split("/")[0].removesuffix(".py") for path in WHEELS.glob("*.whl") for name in zipfile.ZipFile(path).namelist()}
    shipped = {
        name.split("/")[0] for archive in ("packages", "calendar") for name in zipfile.ZipFile(BUILD / "work" / f"{archive}-compiled.zip").namelist()
    }
    assert {name.removesuffix(".pyc") for name in shipped - OURS} <= of_wheels


def test_what_is_linked_into_the_wasm_is_named_and_nothing_else_is() -> None:
    """Each has its mark there, or `parts` would fail; extension modules that would bring a library which is not named are not there."""
    wasm = (PYODIDE / "pyodide.asm.wasm").read_bytes()
    modules = {name.decode() for name in re.findall(rb"PyInit_(\w+)", wasm)}
    assert {"zlib", "_bz2", "_lzma", "_zstd", "pyexpat", "_sqlite3", "_ctypes", "_decimal", "_sha2"} <= modules
    with_other_libraries = {"_ssl", "_hashlib", "readline", "_curses", "_curses_panel", "_dbm", "_gdbm", "_tkinter", "_uuid", "nis", "_crypt"}
    assert modules & with_other_libraries == set()
    names = {part.name for part in notices.parts()}
    assert {linked.name for linked in notices.LINKED} <= names


def test_a_library_that_is_no_longer_linked_stops_the_build() -> None:
    gone = notices.Linked("Readline", "GPL-3.0-only", "lines", ("zlib",), "rl_readline_version")
    with pytest.raises(ValueError, match="Readline is not in"):
        notices.of_linked(gone)


def test_versions_are_read_from_what_is_shipped() -> None:
    found = {part.name: part.version for part in notices.parts()}
    wasm = (PYODIDE / "pyodide.asm.wasm").read_bytes()
    for name in ("zlib", "bzip2", "XZ Utils", "Zstandard", "Expat", "SQLite", "libmpdec", "idb"):
        assert re.fullmatch(r"\d+\.\d+(\.\d+)?", found[name]), name
    assert f"expat_{found['Expat']}".encode() in wasm


def test_what_the_scripts_import_from_npm_is_named() -> None:
    names = {part.name for part in notices.parts()}
    assert set(bundle.LIBRARIES) <= names


def test_what_is_bundled_in_the_scripts_of_the_theme_has_a_licence_of_its_own(site: Path) -> None:
    """Its source maps say what; there is no script beside those and ours."""
    folder = site / "assets" / "javascripts"
    sources = [source for path in folder.rglob("*.map") for source in json.loads(path.read_text(encoding="utf-8"))["sources"]]
    inside = {found[1] for source in sources if (found := re.search(r"node_modules/((?:@[^/]+/)?[^/]+)/", source))}
    assert {"lunr", "rxjs"} < inside <= {part.name for part in notices.parts()}
    assert sorted(path.name.split(".")[0] for path in folder.rglob("*.js")) == ["bundle", "search"]


def test_a_bundled_library_without_a_licence_stops_the_build(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(notices.IN_THEME, "clipboard")
    with pytest.raises(ValueError, match="clipboard is bundled"):
        notices.of_theme()


def test_it_is_saved_for_offline_use(site: Path) -> None:
    listed = {line[0] for line in json.loads((site / "offline.json").read_text(encoding="utf-8"))["files"]}
    assert "about/notices/" in listed


def test_a_licence_is_declared_for_each() -> None:
    assert [part.name for part in notices.parts() if not re.search(r"\w{3}", part.licence)] == []


def test_the_bill_of_materials_lists_the_same_parts_and_no_date(site: Path) -> None:
    told = json.loads((site / sbom.FILE).read_text(encoding="utf-8"))
    assert (told["bomFormat"], told["specVersion"]) == ("CycloneDX", "1.6")
    parts = {(part.name, part.version) for part in notices.parts()}
    assert {(each["name"], each.get("version", "")) for each in told["components"]} == parts
    assert "timestamp" not in told.get("metadata", {})
    assert any(each.get("purl", "").startswith("pkg:pypi/pint@") for each in told["components"])
    assert sbom.bill_of_materials() == (site / sbom.FILE).read_text(encoding="utf-8")
