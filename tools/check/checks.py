"""Everything that is checked: style, types, the native tests, the finished site and the pages in a browser."""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from pathlib import Path

from tools.build import environment
from tools.build.console import Failed, run, say, step
from tools.build.paths import NPM, ROOT, TOOLS, VENV_PYTHON
from tools.check import browser, engines
from tools.site import build_site


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """The options of `test`."""
    parser.add_argument("paths", nargs="*", help="pytest paths or options; everything by default (options after --)")
    parser.add_argument("--quick", action="store_true", help="no browser and nothing slow; the site is not built")
    parser.add_argument("--no-style", action="store_true", help="leave out ruff, mypy and tsc")


def style() -> list[str]:
    """Run ruff, mypy and tsc; returns the names of those that failed."""
    node, _ = environment.node()
    typescript = NPM / "node_modules" / "typescript" / "bin" / "tsc"
    checks: dict[str, list[str | Path]] = {
        "ruff": [VENV_PYTHON, "-m", "ruff", "check", "calc", "tools", "tests"],
        "ruff format": [VENV_PYTHON, "-m", "ruff", "format", "--check", "--quiet", "calc", "tools", "tests"],
        "mypy": [VENV_PYTHON, "-m", "mypy"],
        "tsc": [*node, typescript, "--noEmit", "--project", TOOLS / "check" / "tsconfig.json"],
        "tsc, service worker": [*node, typescript, "--noEmit", "--project", TOOLS / "check" / "tsconfig.worker.json"],
    }
    wrong = []
    for name, command in checks.items():
        with step(name):
            try:
                run(command)
            except Failed:
                wrong.append(name)
    return wrong


def test(asked: argparse.Namespace) -> int:
    """Run the requested checks; pytest's summary comes last."""
    start = time.monotonic()
    environment.packages("site", "test")
    environment.npm_packages(tests=True)
    wrong = [] if asked.no_style or asked.paths else style()
    env = dict(os.environ)
    command = [str(VENV_PYTHON), "-m", "pytest", *(asked.paths or ["--numprocesses", "auto", "--dist", "loadfile", "--no-loadscope-reorder"])]
    if asked.quick:
        command += ["-m", "not browser and not site and not slow"]
    else:
        build_site.build()
        env["CHROMIUM"] = browser.find()
        if not asked.paths:
            env["CHROMIUM_SHELL"] = browser.shell() or env["CHROMIUM"]
            engines.install()
            if os.environ.get("CI") or (engines.firefox() and engines.webkit()):
                env["PIPING_BENCH_WHOLE"] = "1"  # then a test that cannot run is a failure
    status = "whole" if not wrong else f"wrong: {', '.join(wrong)}"
    say(f"-- tests (style and types {status}; {time.monotonic() - start:.0f} s so far)")
    sys.stdout.flush()
    done = subprocess.run(command, cwd=ROOT, env=env, check=False)
    if wrong:
        print(f"handbook.py: {', '.join(wrong)} found faults; see above", file=sys.stderr)
    return done.returncode or (1 if wrong else 0)


def bench(rest: list[str]) -> int:
    """Build, then measure."""
    environment.packages("site", "test")
    environment.npm_packages(tests=True)
    build_site.build()
    env = {**os.environ, "CHROMIUM": browser.find()}
    return subprocess.run([str(VENV_PYTHON), "-m", "tools.bench.measure", *rest], cwd=ROOT, env=env, check=False).returncode


def check(what: str, rest: list[str]) -> int:
    """Run one of the checks that have a module of their own, with the packages that it needs."""
    environment.packages("site", "test", *(["mutation"] if what == "mutants" else []))
    environment.npm_packages(tests=True)
    if what == "attack":
        build_site.build()
    return subprocess.run([str(VENV_PYTHON), "-m", f"tools.check.{what}", *rest], cwd=ROOT, check=False).returncode
