"""The same sources give the same site, byte for byte, wherever and whenever it is built; a changed sentence changes its page and little else."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.conftest import lacking
from tools.build.paths import NPM, ROOT, SITE, WHEELS
from tools.site import build_site

# What is installed is not built: a copy takes it from here.
BUILD = """
from tools.build import environment
from tools.build.paths import WHEELS
from tools.runtime import build_runtime
from tools.site import build_site

environment.packages = environment.npm_packages = lambda *_, **__: None
build_runtime.wheels = lambda: sorted(WHEELS.glob("*.whl"))
build_site.build()
"""
ANOTHER_MACHINE = {"PYTHONHASHSEED": "77", "TZ": "Asia/Tokyo", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "86400"}
PAGE = "learn/holding-a-bag"


def built(copy: Path) -> dict[str, str]:
    """The hash of each file of the copy's site."""
    done = subprocess.run([sys.executable, "-c", BUILD], cwd=copy, env={**os.environ, **ANOTHER_MACHINE}, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return hashes(copy / "site")


def hashes(site: Path) -> dict[str, str]:
    return {path.relative_to(site).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in sorted(site.rglob("*")) if path.is_file()}


@pytest.fixture(scope="module")
def copy(tmp_path_factory: pytest.TempPathFactory, site: Path) -> Iterator[Path]:
    """A copy of the sources in another folder, with the installed packages beside it."""
    if not build_site.is_fresh():
        lacking("the site was built from other sources: python3 tools/handbook.py build")
    folder = tmp_path_factory.mktemp("another-folder")
    for name in ("calc", "docs", "tools"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("mkdocs.yml", "pyproject.toml"):
        shutil.copy(ROOT / name, folder / name)
    (folder / "build").mkdir()
    (folder / "build" / "npm").symlink_to(NPM)
    (folder / "build" / "wheels").symlink_to(WHEELS)
    (folder / ".venv").symlink_to(ROOT / ".venv")
    yield folder
    shutil.rmtree(folder, ignore_errors=True)


@pytest.mark.slow
def test_another_build_gives_the_same_bytes(copy: Path) -> None:
    here, there = hashes(SITE), built(copy)
    assert here.keys() == there.keys()
    assert [name for name in here if here[name] != there[name]] == []


@pytest.mark.slow
def test_a_changed_sentence_changes_its_page_and_the_indexes(copy: Path) -> None:
    page = copy / "docs" / f"{PAGE}.md"
    text = page.read_text(encoding="utf-8")
    page.write_text(f"{text}\nThis sentence was not here before.\n", encoding="utf-8")
    before, after = hashes(SITE), built(copy)
    assert before.keys() == after.keys()
    assert {name for name in before if before[name] != after[name]} == {f"{PAGE}/index.html", "search/search_index.json", "offline.json"}
