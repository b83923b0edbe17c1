"""The page of notices names everything that others made and the site ships, with the text of each licence, and is there offline."""

from __future__ import annotations

import json
import re
import zipfile
from html import unescape
from pathlib import Path

import pytest

from tools.build.paths import BUILD, WHEELS
from tools.site import notices, sbom

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
            assert len(text) > 500
            assert text.strip() in page


def test_every_package_in_the_runtime_belongs_to_a_wheel_that_is_named() -> None:
    of_wheels = {name.split("/")[0].removesuffix(".py") for path in WHEELS.glob("*.whl") for name in zipfile.ZipFile(path).namelist()}
    shipped = {
        name.split("/")[0] for archive in ("packages", "calendar") for name in zipfile.ZipFile(BUILD / "work" / f"{archive}-compiled.zip").namelist()
    }
    assert {name.removesuffix(".pyc") for name in shipped - OURS} <= of_wheels


def test_it_is_saved_for_offline_use(site: Path) -> None:
    listed = {line[0] for line in json.loads((site / "offline.json").read_text(encoding="utf-8"))["files"]}
    assert "about/notices/" in listed


def test_a_licence_is_declared_for_each() -> None:
    assert [part.name for part in notices.parts() if not re.search(r"[A-Z]", part.licence)] == []


def test_the_bill_of_materials_lists_the_same_parts_and_no_date(site: Path) -> None:
    told = json.loads((site / sbom.FILE).read_text(encoding="utf-8"))
    assert (told["bomFormat"], told["specVersion"]) == ("CycloneDX", "1.6")
    parts = {(part.name, part.version) for part in notices.parts()}
    assert {(each["name"], each.get("version", "")) for each in told["components"]} == parts
    assert "timestamp" not in told.get("metadata", {})
    assert any(each.get("purl", "").startswith("pkg:pypi/pint@") for each in told["components"])
    assert sbom.bill_of_materials() == (site / sbom.FILE).read_text(encoding="utf-8")
