"""The tests of the pages' scripts that need no browser: tests/js/*.test.mjs under Node's own test runner."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tools.build import environment
from tools.build.console import Failed
from tools.build.paths import NPM, ROOT

FOLDER = ROOT / "tests" / "js"
OLDEST = (20, 19)  # from here on Node sees by itself that our scripts are modules


def command(*options: str) -> list[str | Path]:
    """What runs them; Failed where Node or the page that they run in is lacking."""
    node, _ = environment.node()
    printed = subprocess.run([*node, "--version"], capture_output=True, text=True, check=True).stdout
    version = tuple(int(part) for part in printed.strip().lstrip("v").split(".")[:2])
    if version < OLDEST:
        raise Failed(f"Node {OLDEST[0]}.{OLDEST[1]} or newer is needed to test the scripts; this is {printed.strip()}")
    if not (NPM / "node_modules" / "happy-dom").is_dir():
        raise Failed("npm packages of the tests are lacking: python3 tools/handbook.py test fetches them")
    reporter = [] if any(option.startswith("--test-reporter") for option in options) else ["--test-reporter=tap"]
    files = sorted(FOLDER.glob("*.test.mjs"))
    return [*node, "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON", "--test", *reporter, *options, *files]


def run(rest: list[str]) -> int:
    """Run them as a person wants to read it."""
    environment.npm_packages(tests=True)
    return subprocess.run(command("--test-reporter=spec", *rest), cwd=ROOT, check=False, stdout=sys.stdout).returncode
