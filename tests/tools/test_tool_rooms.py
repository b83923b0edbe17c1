"""The tools' rooms: each imports only from rooms before it, a bare Python runs them, and what runs inside Pyodide imports no `tools`."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path

import pytest

import tools
from tools.build.paths import CALC, ROOT, TOOLS

ORDER = ("build", "runtime", "films", "site", "bench", "check")
PYTHON_FILES = [path for path in sorted(TOOLS.rglob("*.py")) if path.parent != TOOLS]
STANDARD = set(sys.stdlib_module_names) | {"__future__"}
BY_HAND = TOOLS / "build" / "paper_faces.py"  # run with fontTools installed by hand
INSIDE_PYODIDE = ("worker_api", "compile_zip", "warm", "later")


def imports(path: Path) -> set[str]:
    """Every module imported anywhere in a file; `from tools.site import server` counts as `tools.site`."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert not node.level, f"{path}: import by full names"
            found.add(node.module or "")
    return found


def in_room(path: Path) -> str:
    return path.relative_to(TOOLS).parts[0]


def test_every_folder_is_a_room_and_the_package_lists_them_in_order() -> None:
    folders = {path.parent for path in PYTHON_FILES}
    assert folders == {TOOLS / room for room in ORDER}
    listed = (tools.__doc__ or "").split("Rooms")[1]
    places = [listed.index(f"`{room}`") for room in ORDER]
    assert places == sorted(places)


@pytest.mark.parametrize("room", ORDER)
def test_a_room_says_truly_what_it_imports(room: str) -> None:
    doc = ast.get_docstring(ast.parse((TOOLS / room / "__init__.py").read_text(encoding="utf-8"))) or ""
    said = re.search(r"\bImports ([^.]+)\.", doc)
    assert said
    found = {name for path in PYTHON_FILES if in_room(path) == room for name in imports(path)}
    others = {name.split(".")[1] if name.startswith("tools.") else "calc" for name in found if name.split(".")[0] in ("tools", "calc")}
    assert set(re.findall(r"`(\w+)`", said[1])) == others - {room}


@pytest.mark.parametrize("path", PYTHON_FILES, ids=lambda path: path.relative_to(TOOLS).as_posix())
def test_imports_only_from_rooms_before_it(path: Path) -> None:
    allowed = ORDER[: ORDER.index(in_room(path)) + 1]
    others = {name.split(".")[1] for name in imports(path) if name.startswith("tools.")}
    assert others <= set(allowed)


@pytest.mark.parametrize("path", [path for path in PYTHON_FILES if in_room(path) == "build" and path != BY_HAND], ids=lambda path: path.name)
def test_build_needs_the_standard_library_only(path: Path) -> None:
    assert {name.split(".")[0] for name in imports(path)} <= STANDARD | {"tools"}


@pytest.mark.parametrize("name", INSIDE_PYODIDE)
def test_what_runs_inside_pyodide_imports_no_tools(name: str) -> None:
    tops = {name.split(".")[0] for name in imports(TOOLS / "runtime" / f"{name}.py")}
    assert tops <= STANDARD | {"calc"}


@pytest.mark.parametrize("script", ["tools/handbook.py", "tools/build/environment.py"])
def test_a_bare_python_runs_it_by_its_path(script: str, tmp_path: Path) -> None:
    done = subprocess.run([sys.executable, "-S", ROOT / script, "--help"], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "usage:" in done.stdout


def twice(paths: Iterable[Path]) -> dict[str, list[str]]:
    """The base names that stand more than once, each with its paths."""
    named: dict[str, list[str]] = {}
    for path in sorted(paths):
        named.setdefault(path.stem, []).append(path.relative_to(ROOT).as_posix())
    return {name: places for name, places in named.items() if len(places) > 1}


def test_no_module_or_folder_has_the_name_of_another() -> None:
    """So that a base name says which one is meant."""
    modules = [path for folder in (CALC, TOOLS) for path in folder.rglob("*.py") if not path.stem.startswith("__")]
    folders = {path.parent for folder in (CALC, TOOLS) for path in folder.rglob("__init__.py")}
    assert twice([*modules, *folders]) == {}


def test_no_test_file_has_the_name_of_another() -> None:
    assert twice((ROOT / "tests").rglob("test_*.py")) == {}
