"""Locks tools/build/requirements/*.in and tools/build/npm/package.json: exact versions with hashes, and no registry addresses.

Existing pins are kept unless --upgrade is given. The pins hold for every Python from 3.11 on and for every system.
"""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
from pathlib import Path

from tools.build import environment
from tools.build.console import run, say, step
from tools.build.paths import BUILD, NPM_PINS, REQUIREMENTS

# Each list, and the pins that it must agree with.
LISTS = {"site": (), "test": ("site.txt",), "mutation": ("site.txt", "test.txt"), "runtime": ("site.txt",), "node": ()}
SHAPE = ["--universal", "--fork-strategy", "fewest", "--python-version", "3.11", "--generate-hashes"]
QUIET = ["--quiet", "--no-header", "--no-emit-index-url", "--no-emit-find-links"]


def locker() -> Path:
    """The resolver of Python packages, installed in an environment of its own."""
    folder = BUILD / "lock-venv"
    program = folder / ("Scripts/uv.exe" if os.name == "nt" else "bin/uv")
    if not program.exists():
        with step("uv"):
            run([sys.executable, "-m", "venv", folder], quiet=True)
            run([program.with_name("python"), "-m", "pip", "install", "--quiet", "uv"], quiet=True)
    return program


def main() -> None:
    """Lock the packages again."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--upgrade", action="store_true", help="take the newest versions that the lists allow")
    upgrade = ["--upgrade"] if parser.parse_args().upgrade else []
    requirements = REQUIREMENTS
    for name, agreeing in LISTS.items():
        with step(f"{name}.txt"):
            constraints = [word for other in agreeing for word in ("-c", other)]
            run([locker(), "pip", "compile", f"{name}.in", "-o", f"{name}.txt", *constraints, *SHAPE, *QUIET, *upgrade], cwd=requirements)
    with step("package-lock.json"):
        node, npm = environment.node()
        env = {**os.environ, "PATH": str(Path(node[0]).parent) + os.pathsep + os.environ.get("PATH", "")}
        work = BUILD / "lock-npm"
        shutil.rmtree(work, ignore_errors=True)
        shutil.copytree(NPM_PINS, work)
        command = ["update" if upgrade else "install", "--package-lock-only", "--omit-lockfile-registry-resolved", "--ignore-scripts"]
        subprocess.run([*npm, *command, "--no-audit", "--no-fund"], cwd=work, env=env, check=True, stdout=subprocess.DEVNULL)
        for file in ("package.json", "package-lock.json"):
            shutil.copy(work / file, NPM_PINS / file)
    say("Read the difference before you commit it.")


if __name__ == "__main__":
    main()
