"""Finds Firefox and WebKit for the tests, and installs Debian's where possible. Tests of an engine that is missing are skipped."""

from __future__ import annotations

import argparse
import glob
import os
import shutil

from tools.build import environment
from tools.build.console import say, step

PACKAGES = {"firefox": ("firefox-esr",), "webkit": ("webkit2gtk-driver", "xvfb")}
MINI_BROWSERS = ("/usr/lib/*/webkit2gtk-4.*/MiniBrowser", "/usr/libexec/webkit2gtk-4.*/MiniBrowser", "/usr/lib/*/webkitgtk-6.*/MiniBrowser")


def firefox() -> str | None:
    """The path of a Firefox: the one named in FIREFOX, or one of the usual names."""
    named = os.environ.get("FIREFOX")
    return named or shutil.which("firefox-esr") or shutil.which("firefox")


def webkit() -> tuple[str, str, str] | None:
    """The paths of WebKitWebDriver, its MiniBrowser and Xvfb, if all three are installed."""
    driver, screen = shutil.which("WebKitWebDriver"), shutil.which("Xvfb")
    browsers = [path for pattern in MINI_BROWSERS for path in sorted(glob.glob(pattern))]
    return (driver, browsers[-1], screen) if driver and screen and browsers else None


def install() -> None:
    """Install the missing engines if possible, and print which are not."""
    lacking = [name for name, here in (("firefox", firefox()), ("webkit", webkit())) if not here]
    for name in lacking:
        packages = PACKAGES[name]
        if not environment.is_debian_root():
            say(f"-- {name} is not here: its tests are skipped. On Debian or Ubuntu, as root: apt-get install {' '.join(packages)}")
            continue
        with step(f"{name} from the system's package manager"):
            if not environment.apt_install(*packages):
                say(f"   {' '.join(packages)} could not be installed: its tests are skipped")


def main() -> None:
    """Print the paths of Firefox and WebKit."""
    argparse.ArgumentParser(description=main.__doc__).parse_args()
    install()
    say(f"Firefox: {firefox()}")
    say(f"WebKit: {webkit()}")


if __name__ == "__main__":
    main()
