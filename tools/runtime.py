"""What runs in the browser: Pyodide's files, calc and its packages as bytecode, and the memory snapshot.

Everything goes to build/runtime and is served under assets/runtime: names carry a version or a hash of the content, so
that a browser may keep each for ever. manifest.json beside them tells the hook which names to write into the pages; it is
not served.
"""

from __future__ import annotations

import argparse
import gzip
import hashlib
import io
import json
import shutil
import zipfile
from pathlib import Path

import environment
import stamps
from paths import CALC, NPM, PYODIDE, PYODIDE_VERSION, ROOT, RUNTIME, TOOLS, VENV_PYTHON, WHEELS
from say import Failed, run, say, step

SCRIPTS = TOOLS / "runtime"
MANIFEST = RUNTIME / "manifest.json"
SERVED = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
LARGEST_HEAP = 31_457_280  # bytes; past it the restore fails
LEFT_OUT = ("pint/testsuite/", "pint/default_en.txt", "pint/constants_en.txt")
NEVER_USED = (".pyi", "py.typed", ".md", ".rst")


def wheels() -> list[Path]:
    """The pure-Python wheels that tools/requirements/runtime.txt pins, downloaded and checked by pip."""
    listed = TOOLS / "requirements" / "runtime.txt"
    value = stamps.digest([listed])
    if not stamps.is_fresh("wheels", value, WHEELS):
        with step("wheels for the browser"):
            stamps.forget("wheels")
            shutil.rmtree(WHEELS, ignore_errors=True)
            command = [VENV_PYTHON, "-m", "pip", "download", "--quiet", "--disable-pip-version-check", "--no-deps"]
            only = ["--only-binary=:all:", "--platform=any", "--python-version=3.14", "--implementation=py", "--abi=none"]
            run([*command, "--require-hashes", *only, "-d", WHEELS, "-r", listed], quiet=True)
            stamps.write("wheels", value)
    return sorted(WHEELS.glob("*.whl"))


def packages_zip(wheel_files: list[Path]) -> bytes:
    """The source of calc, the door and the wheels in one zip, without what is never used in a browser."""
    result = io.BytesIO()
    with zipfile.ZipFile(result, "w", zipfile.ZIP_STORED) as whole:

        def add(name: str, data: bytes) -> None:
            whole.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), data)

        for wheel in wheel_files:
            with zipfile.ZipFile(wheel) as archive:
                for name in sorted(archive.namelist()):
                    is_metadata = ".dist-info/" in name and not name.endswith(("/METADATA", "LICENSE", "/LICENSE.txt"))
                    if name.endswith("/") or name.startswith(LEFT_OUT) or name.endswith(NEVER_USED) or is_metadata:
                        continue
                    add(name, archive.read(name))
        for path in stamps.files_under(CALC):
            add(path.relative_to(ROOT).as_posix(), path.read_bytes())
        add("door.py", (SCRIPTS / "door.py").read_bytes())
    return result.getvalue()


def hashed(folder: Path, stem: str, suffix: str, data: bytes) -> str:
    """Write the bytes under a name that carries their hash; gives the name."""
    name = f"{stem}-{hashlib.sha256(data).hexdigest()[:16]}{suffix}"
    (folder / name).write_bytes(data)
    return name


def build() -> Path:
    """Make build/runtime where calc, the packages or the tools have changed; gives the manifest's path."""
    environment.npm_packages()
    wheel_files = wheels()
    sources = [*stamps.files_under(CALC, SCRIPTS), TOOLS / "runtime.py", *wheel_files]
    value = stamps.digest([*sources, NPM / "package-lock.json"], PYODIDE_VERSION)
    if stamps.is_fresh("runtime", value, MANIFEST):
        return MANIFEST
    stamps.forget("runtime")
    shutil.rmtree(RUNTIME, ignore_errors=True)
    RUNTIME.mkdir(parents=True)
    with step("runtime: bytecode"):
        manifest = _bytecode(wheel_files)
    MANIFEST.write_text(json.dumps(manifest, indent=1))
    stamps.write("runtime", value)
    return MANIFEST


def _bytecode(wheel_files: list[Path]) -> dict[str, object]:
    """Copy Pyodide and compile the standard library and the packages."""
    work = RUNTIME.parent / "work"
    work.mkdir(exist_ok=True)
    packages = work / "packages.zip"
    packages.write_bytes(packages_zip(wheel_files))
    stdlib_out, packages_out = work / "stdlib-compiled.zip", work / "packages-compiled.zip"
    node, _ = environment.node()
    inputs = [PYODIDE / "python_stdlib.zip", stdlib_out, packages, packages_out]
    run([*node, SCRIPTS / "build.mjs", "compile", PYODIDE, *inputs], quiet=True)

    installed = json.loads((PYODIDE / "package.json").read_text())["version"]
    if installed != PYODIDE_VERSION:
        raise Failed(f"Pyodide {installed} is installed, {PYODIDE_VERSION} is wanted")
    whole = hashlib.sha256(b"".join((PYODIDE / name).read_bytes() for name in SERVED)).hexdigest()[:16]
    folder = RUNTIME / f"pyodide-{PYODIDE_VERSION}-{whole}"
    folder.mkdir()
    for name in SERVED:
        shutil.copy(PYODIDE / name, folder / name)
    lock = json.loads((PYODIDE / "pyodide-lock.json").read_text())
    return {
        "pyodide": folder.name + "/",
        "lock": lock["info"],
        "stdlib": hashed(RUNTIME, "stdlib", ".zip", stdlib_out.read_bytes()),
        "packages": hashed(RUNTIME, "calc", ".zip", packages_out.read_bytes()),
    }


def main() -> None:
    """Make what runs in the browser, in build/runtime."""
    argparse.ArgumentParser(description=main.__doc__).parse_args()
    environment.packages("site")
    build()
    for path in stamps.files_under(RUNTIME):
        packed = len(gzip.compress(path.read_bytes(), 9))
        say(f"{path.relative_to(RUNTIME)}: {path.stat().st_size:,} bytes, {packed:,} with gzip")


if __name__ == "__main__":
    main()
