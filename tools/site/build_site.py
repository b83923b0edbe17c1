"""Builds the finished site into site/: the runtime first, then the pages with MkDocs in strict mode."""

from __future__ import annotations

import argparse
import os
import shutil

from tools.build import environment, stamps
from tools.build.console import run, say, step
from tools.build.paths import CALC, DOCS, ROOT, SITE, TOOLS, VENV_PYTHON
from tools.runtime import build_runtime


def build(trim: bool = True) -> None:
    """Build what has changed; without `trim` pages start with Pyodide's own script whole."""
    with stamps.alone():
        _build(trim)


def digest_of_sources() -> str:
    """A hash over everything that the pages are made from."""
    return stamps.digest([*stamps.files_under(CALC, DOCS, ROOT / "mkdocs.yml", TOOLS), build_runtime.MANIFEST])


def is_fresh() -> bool:
    """Whether site/ holds what the sources make now."""
    return build_runtime.MANIFEST.is_file() and stamps.is_fresh("site", digest_of_sources(), SITE / "index.html")


def _build(trim: bool) -> None:
    environment.packages("site")
    build_runtime.build(trim)
    value = digest_of_sources()
    if stamps.is_fresh("site", value, SITE / "index.html"):
        return
    stamps.forget("site")
    with step("pages"):
        fresh = SITE.with_name("site.new")
        shutil.rmtree(fresh, ignore_errors=True)
        env = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
        run([VENV_PYTHON, "-m", "mkdocs", "build", "--strict", "--quiet", "--site-dir", fresh], env=env)
        old = SITE.with_name("site.old")
        shutil.rmtree(old, ignore_errors=True)
        if SITE.exists():
            SITE.rename(old)
        fresh.rename(SITE)
        shutil.rmtree(old, ignore_errors=True)
    stamps.write("site", value)


def main() -> None:
    """Build the site into site/."""
    argparse.ArgumentParser(description=main.__doc__).parse_args()
    build()
    say(f"The site is in {SITE}")


if __name__ == "__main__":
    main()
