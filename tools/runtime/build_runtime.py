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
import re
import shutil
import subprocess
import zipfile
from pathlib import Path

from tools.build import environment, fences, stamps
from tools.build.console import Failed, run, say, step
from tools.build.environment import esbuild
from tools.build.paths import BUILD, CALC, DOCS, NPM, PYODIDE, PYODIDE_VERSION, REQUIREMENTS, ROOT, RUNTIME, TOOLS, VENV_PYTHON, WHEELS

SCRIPTS = TOOLS / "runtime"
PUT_BACK = DOCS / "assets" / "js" / "memory.js"  # restores a snapshot, in the page and in build.mjs
MANIFEST = RUNTIME / "manifest.json"
WORK = BUILD / "work"
WHOLE = PYODIDE / "pyodide.asm.mjs"  # Pyodide's own script
TRIMMED = WORK / "pyodide.trimmed.mjs"  # the part of it that a start from the snapshot can reach
REQUESTS = WORK / "requests.json"  # the requests that the pages make
STDLIB, PACKAGES, CALENDAR = WORK / "stdlib-compiled.zip", WORK / "packages-compiled.zip", WORK / "calendar-compiled.zip"
SERVED = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
FRESH_HEAP = 31_457_280  # bytes of memory at a fresh start; a larger snapshot would have to grow it first, through one more undocumented call
LEFT_OUT = (
    "pint/testsuite/", "pint/default_en.txt", "pint/constants_en.txt", "flexcache/testsuite/", "flexparser/testsuite/",
    "icalendar/tests/", "icalendar/fuzzing/", "icalendar/cli.py", "icalendar/timezone/pytz.py", "icalendar/timezone/equivalent_timezone_ids.py",
    "dateutil/parser/", "dateutil/zoneinfo/", "dateutil/easter.py", "dateutil/relativedelta.py", "dateutil/utils.py", "dateutil/tzwin.py",
    "dateutil/tz/win.py",
)  # fmt: skip
ZONES = re.compile(r"tzdata/(?!(__init__\.py|zoneinfo/(__init__\.py|UTC))$)")  # calendar files hold local times and UTC stamps only
FOR_CALENDARS = ("icalendar-", "python_dateutil-", "tzdata-")  # wheels in an archive of their own, fetched when a calendar file is first saved
NEVER_USED = (".pyi", "py.typed", ".md", ".rst")


def python_version() -> str:
    """The Python inside the pinned Pyodide, such as 3.14."""
    version: str = json.loads((PYODIDE / "pyodide-lock.json").read_text(encoding="utf-8"))["info"]["python"]
    return ".".join(version.split(".")[:2])


def wheels() -> list[Path]:
    """The pure-Python wheels that tools/build/requirements/runtime.txt pins, downloaded and checked by pip."""
    listed = REQUIREMENTS / "runtime.txt"
    value = stamps.digest([listed], python_version())
    if not stamps.is_fresh("wheels", value, WHEELS):
        with step("wheels for the browser"):
            stamps.forget("wheels")
            shutil.rmtree(WHEELS, ignore_errors=True)
            command: list[str | Path] = [VENV_PYTHON, "-m", "pip", "download", "--quiet", "--disable-pip-version-check", "--no-deps"]
            only = ["--only-binary=:all:", "--platform=any", f"--python-version={python_version()}", "--implementation=py", "--abi=none"]
            run([*command, "--require-hashes", *only, "-d", WHEELS, "-r", listed], quiet=True)
            stamps.write("wheels", value)
    return sorted(WHEELS.glob("*.whl"))


def packages_zip(wheel_files: list[Path], own: bool = True) -> bytes:
    """One zip of the wheels' sources, and of calc and worker_api unless `own` is false, without files that a browser never uses."""
    result = io.BytesIO()
    with zipfile.ZipFile(result, "w", zipfile.ZIP_STORED) as whole:

        def add(name: str, data: bytes) -> None:
            whole.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), data)

        for wheel in wheel_files:
            with zipfile.ZipFile(wheel) as archive:
                for name in sorted(archive.namelist()):
                    is_metadata = ".dist-info/" in name and not name.endswith(("/METADATA", "LICENSE", "/LICENSE.txt"))
                    if name.endswith("/") or name.startswith(LEFT_OUT) or name.endswith(NEVER_USED) or is_metadata or ZONES.match(name):
                        continue
                    add(name, archive.read(name))
        for path in stamps.files_under(CALC) if own else ():
            add(path.relative_to(ROOT).as_posix(), path.read_bytes())
        if own:
            add("worker_api.py", (SCRIPTS / "worker_api.py").read_bytes())
    return result.getvalue()


def hashed(folder: Path, stem: str, suffix: str, data: bytes) -> str:
    """Write the bytes under a name that contains their hash; returns the name."""
    name = f"{stem}-{hashlib.sha256(data).hexdigest()[:16]}{suffix}"
    (folder / name).write_bytes(data)
    return name


def packed(file: Path) -> bytes:
    """The gzipped bytes of a file; served under a name (.bin) that no host compresses or decompresses by itself."""
    run([VENV_PYTHON, "-m", "tools.runtime.pack", file])
    return file.with_name(file.name + ".packed").read_bytes()


def build(trim: bool = True) -> Path:
    """Make build/runtime where calc, the packages or the tools have changed; returns the manifest's path.

    Without `trim` pages start with Pyodide's own script whole; so they do, with a warning, where the trimmed one cannot be made or does not work.
    """
    environment.npm_packages()
    wheel_files = wheels()
    tools = [TOOLS / "build" / name for name in ("environment.py", "fences.py")]
    sources = [*stamps.files_under(CALC, SCRIPTS), *tools, PUT_BACK, *wheel_files]
    value = stamps.digest([*sources, NPM / "package-lock.json"], json.dumps(requests()), "trimmed" if trim else "whole")
    if stamps.is_fresh("runtime", value, MANIFEST):
        return MANIFEST
    stamps.forget("runtime")
    shutil.rmtree(RUNTIME, ignore_errors=True)
    RUNTIME.mkdir(parents=True)
    with step("runtime: bytecode"):
        manifest = _bytecode(wheel_files)
    script = _trimmed() if trim else WHOLE
    with step("runtime: memory snapshot"):
        native = _native_answers()
        try:
            snapshot = _snapshot(script, native)
        except Failed as failed:
            if script == WHOLE:
                raise
            _warn_untrimmed(str(failed))
            script = WHOLE
            snapshot = _snapshot(script, native)
    manifest |= {"pyodide": _copy_pyodide(script), "script": script.with_suffix(".js").name, **snapshot}
    manifest["sizes"] = _sizes(manifest)
    MANIFEST.write_text(json.dumps(manifest, indent=1))
    stamps.write("runtime", value)
    return MANIFEST


def _sizes(manifest: dict[str, object]) -> dict[str, int]:
    """The bytes of each file that a start waits for."""
    waited_for = {"wasm": f"{manifest['pyodide']}pyodide.asm.wasm"}
    waited_for |= {name: str(manifest[name]) for name in ("stdlib", "packages", "snapshot") if name in manifest}
    return {name: (RUNTIME / path).stat().st_size for name, path in waited_for.items()}


def _bytecode(wheel_files: list[Path]) -> dict[str, object]:
    """Compile the standard library and the packages."""
    WORK.mkdir(exist_ok=True)
    packages, calendar = WORK / "packages.zip", WORK / "calendar.zip"
    packages.write_bytes(packages_zip([wheel for wheel in wheel_files if not wheel.name.startswith(FOR_CALENDARS)]))
    calendar.write_bytes(packages_zip([wheel for wheel in wheel_files if wheel.name.startswith(FOR_CALENDARS)], own=False))
    _node("compile", PYODIDE, PYODIDE / "python_stdlib.zip", STDLIB, packages, PACKAGES, calendar, CALENDAR)

    lock = json.loads((PYODIDE / "pyodide-lock.json").read_text())
    return {
        "lock": lock["info"],
        "stdlib": hashed(RUNTIME, "stdlib", ".bin", packed(STDLIB)),
        "packages": hashed(RUNTIME, "calc", ".bin", packed(PACKAGES)),
        "calendar": hashed(RUNTIME, "calendar", ".bin", packed(CALENDAR)),
    }


def _copy_pyodide(script: Path) -> str:
    """Copy what the site serves of Pyodide, with the script that a start from the snapshot uses; returns the folder's name."""
    installed = json.loads((PYODIDE / "package.json").read_text())["version"]
    if installed != PYODIDE_VERSION:
        raise Failed(f"Pyodide {installed} is installed, {PYODIDE_VERSION} is wanted")
    served = sorted({*(PYODIDE / name for name in SERVED), script}, key=lambda path: path.name)
    whole = hashlib.sha256(b"".join(path.read_bytes() for path in served)).hexdigest()[:16]
    folder = RUNTIME / f"pyodide-{PYODIDE_VERSION}-{whole}"
    folder.mkdir()
    for path in served:
        shutil.copy(path, folder / path.name.replace(".mjs", ".js"))  # some hosts know no type for .mjs
    return folder.name + "/"


def _trimmed() -> Path:
    """Write the part of Pyodide's own script that a start from the snapshot can reach, minified; the whole script where that fails."""
    node, _ = environment.node()
    part = TRIMMED.with_suffix(".long.mjs")
    try:
        run([*node, SCRIPTS / "trim.mjs", PYODIDE, part, PYODIDE / "pyodide.mjs", PUT_BACK, SCRIPTS / "build.mjs"], quiet=True)
        esbuild("--format=esm", f"--outfile={TRIMMED}", part)
    except Failed as failed:
        _warn_untrimmed(str(failed))
        return WHOLE
    return TRIMMED


def _warn_untrimmed(why: str) -> None:
    say(f"WARNING: pages start with Pyodide's whole script, which takes longer; it could not be trimmed:\n   {why}")


def requests() -> list[dict[str, object]]:
    """The requests that the pages make, in both unit systems."""
    asked: list[dict[str, object]] = []
    for page, fence in fences.calculators_in(pages()):
        for units in ("metric", "us"):
            asked.append({"calculator": fence.name, "inputs": {**fence.inputs(page), "units": units}})
    return asked


def pages() -> list[Path]:
    """The pages of the handbook."""
    return [path for path in stamps.files_under(DOCS) if path.suffix == ".md"]


def _node(*words: str | Path) -> dict[str, int]:
    """Run one command of build.mjs; returns what it measured."""
    node, _ = environment.node()
    command = [*node, SCRIPTS / "build.mjs", *words]
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True, check=False)
    if done.returncode:
        lines = [line for line in (done.stdout + done.stderr).splitlines() if len(line) < 1000]  # without Pyodide's own script
        raise Failed(f"{words[0]} of the runtime failed:\n" + "\n".join(lines[-60:]))
    last = done.stdout.strip().splitlines()[-1:] or ["{}"]
    measured: dict[str, int] = json.loads(last[0])
    return measured


def _native_answers() -> list[str]:
    """The native answers to every request of the pages; the requests are written to a file."""
    REQUESTS.write_text(json.dumps(requests()))
    done = subprocess.run([VENV_PYTHON, "-m", "tools.runtime.answers", REQUESTS], capture_output=True, text=True, check=False, cwd=ROOT)
    if done.returncode:
        raise Failed(f"The requests of the pages cannot be answered:\n{done.stderr[-2000:]}")
    answers: list[str] = json.loads(done.stdout)
    faults = [answer["bug"]["details"] for answer in map(json.loads, answers) if "bug" in answer]
    if faults:
        raise Failed("A request of the pages met a fault:\n" + "\n".join(dict.fromkeys(faults)))
    return answers


def _snapshot(script: Path, native: list[str]) -> dict[str, object]:
    """Freeze the memory with calc loaded and warm, restore it, and check that it gives the native answers."""
    image, slim, answers = WORK / "image.bin", WORK / "slim.bin", WORK / "answers.json"
    made = _node("snapshot", PYODIDE, script, STDLIB, PACKAGES, REQUESTS, image)
    if made["heap"] > FRESH_HEAP:
        say(f"   memory is {made['heap'] - FRESH_HEAP:,} bytes larger than that of a fresh start")
    own = _node("slim", PYODIDE, script, image, slim)
    build = {"image": made["bytes"], "data": own["data"], "sum": own["sum"]}
    _node("restore", PYODIDE, script, slim, json.dumps(build), REQUESTS, answers)
    differences = differing(native, json.loads(answers.read_text()))
    if differences:
        raise Failed("The restored snapshot does not give the native answers:\n" + "\n".join(differences[:20]))
    data = packed(slim)
    name = hashed(RUNTIME, f"snapshot-{PYODIDE_VERSION}", ".bin", data)
    say(f"   {made['heap']:,} bytes of memory, {own['shipped']:,} of them not empty, {len(data):,} to ship")
    return {"snapshot": name, **build}


def differing(ours: list[str], theirs: list[str]) -> list[str]:
    """The visible differences between two lists of answers."""
    found = []
    for one, other in zip(ours, theirs, strict=True):
        here, there = json.loads(one), json.loads(other)
        for part in sorted(set(here) | set(there)):
            if readable(here.get(part)) != readable(there.get(part)):
                found.append(f"{here.get('calculator')}: {part}: {str(readable(here.get(part)))[:300]} / {str(readable(there.get(part)))[:300]}")
    return found


TAG = re.compile(r"<[^>]*>")
STROKE = re.compile(r"\bd[0-9a-f]{8}|-?\d*\.?\d+")


def readable(part: object) -> object:
    """A part of an answer without bare numbers and coordinates, whose last digit may differ between two builds of Python.

    The words of a drawing and its strokes stay; an identifier made from a drawing's hash goes with the numbers.
    """
    if isinstance(part, str) and part.startswith("<svg"):
        return TAG.sub(lambda tag: STROKE.sub("0", tag[0]), part)
    if isinstance(part, dict):
        return {key: readable(value) for key, value in part.items() if not isinstance(value, float)}
    if isinstance(part, list):
        return [readable(value) for value in part]
    return part


def main() -> None:
    """Build build/runtime and list its files."""
    argparse.ArgumentParser(description=main.__doc__).parse_args()
    environment.packages("site")
    build()
    for path in stamps.files_under(RUNTIME):
        packed = len(gzip.compress(path.read_bytes(), 9))
        say(f"{path.relative_to(RUNTIME)}: {path.stat().st_size:,} bytes, {packed:,} with gzip")


if __name__ == "__main__":
    main()
