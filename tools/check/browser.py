"""Finds a Chromium for the tests: an installed one, one from the system's package manager, or Playwright's own."""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
from pathlib import Path

from tools.build import environment
from tools.build.console import Failed, say, step
from tools.build.paths import VENV_PYTHON

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge")
SHELL = "chromium-headless-shell"
PLACES = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    r"C:\Program Files (x86)\Microsoft\Edge\Application\msedge.exe",
)


def works(path: str | None) -> bool:
    """Whether the browser runs and prints its version."""
    if not path or not Path(path).exists():
        return False
    if os.name == "nt":
        return True  # asking for the version would open a window
    try:
        return subprocess.run([path, "--version"], capture_output=True, check=False, timeout=60).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def _playwrights_own() -> str | None:
    code = "from playwright.sync_api import sync_playwright as s\nwith s() as p: print(p.chromium.executable_path)"
    done = subprocess.run([str(VENV_PYTHON), "-c", code], capture_output=True, text=True, check=False)
    return done.stdout.strip() or None


def find(install: bool = True) -> str:
    """The path of a Chromium that runs."""
    candidates = [os.environ.get("CHROMIUM"), *(shutil.which(name) for name in NAMES), *PLACES]
    for path in candidates:
        if path and works(path):
            return path
    own = _playwrights_own()
    if own and works(own):
        return own
    if not install:
        raise Failed("There is no Chromium here. Install one, or name it in the environment variable CHROMIUM")
    if environment.is_debian_root():
        with step("Chromium from the system's package manager"):
            for package in ("chromium", "chromium-browser"):
                if environment.apt_install(package) and works(shutil.which(package)):
                    return str(shutil.which(package))
    with step("Chromium from Playwright"):
        command = [str(VENV_PYTHON), "-m", "playwright", "install", "chromium"]
        subprocess.run(command, check=False)
        own = _playwrights_own()
        if own and works(own):
            return own
    raise Failed("No Chromium could be installed. Install one, or name it in the environment variable CHROMIUM")


def shell() -> str | None:
    """The path of a Chromium without windows, which most tests make do with, if there is one or it can be installed."""
    named = os.environ.get("CHROMIUM_SHELL")
    if named or works(shutil.which(SHELL)):
        return named or shutil.which(SHELL)
    if environment.is_debian_root():
        with step("Chromium's headless shell from the system's package manager"):
            if environment.apt_install(SHELL) and works(shutil.which(SHELL)):
                return shutil.which(SHELL)
    return None


def main() -> None:
    """Print the path of the Chromium that the tests use."""
    argparse.ArgumentParser(description=main.__doc__).parse_args()
    environment.packages("site", "test")
    say(find())


if __name__ == "__main__":
    main()
