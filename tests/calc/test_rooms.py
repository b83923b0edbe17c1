"""Each room imports only from rooms above it; pint stays at the door.

The order is the one of the package's own map. A room's data may stand in a module beside it (`tips_data`), and a room
may be a folder; both count as the room.
"""

from __future__ import annotations

import ast
import importlib
import re
import sys
from pathlib import Path

import pytest

import calc

PACKAGE = Path(calc.__file__).parent
ORDER = (
    *("units", "sources", "geometry", "shapes", "curves", "division", "portions", "stack", "coats", "tips", "rows", "buttercream"),
    *("colours", "timetable", "price", "lesson", "order", "schemes", "drawing", "calculators", "page", "__main__"),
)
# What each module may import from outside the standard library.
OUTSIDE = {
    "calc.units.kitchen": {"pint"},
    "calc.timetable.calendar_file": {"icalendar"},
    "calc.drawing.pdf": {"pydyf"},
    "calc.calculators.text_kept": {"tomli_w"},
}


def modules() -> dict[str, Path]:
    """Every module of the package by its dotted name."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
        found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


def room_of(module: str) -> str:
    """The room a module belongs to: `calc.tips_data` is of the room `tips`."""
    first = module.split(".")[1] if "." in module else ""
    if first in ORDER or not first:
        return first
    base = first.rsplit("_", 1)[0]
    return base if base in ORDER else first


def imports(path: Path, module: str) -> set[str]:
    """Every module that is imported anywhere in a file, by full name."""
    found: set[str] = set()
    package = module if path.name == "__init__.py" else module.rsplit(".", 1)[0]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                above = package.split(".")[: len(package.split(".")) - node.level + 1]
                base = ".".join([*above, *([base] if base else [])])
            found.add(base)
            found.update(f"{base}.{alias.name}" for alias in node.names if f"{base}.{alias.name}" in ALL)
    return found


def doc_of(module: str) -> str:
    """The docstring of a module, without running it."""
    return ast.get_docstring(ast.parse(ALL[module].read_text(encoding="utf-8"))) or ""


def within(package: str, module: str) -> bool:
    """Whether a module is of a package, or is its data beside it: `calc.tips_data` is of `calc.tips`."""
    return module == package or module.startswith(f"{package}.") or (package.count(".") == 1 and room_of(module) == package.split(".")[1])


def imported(package: str) -> set[str]:
    """What a room or a folder in a room imports, as it is named there: another room, or a module beside the folder."""
    found = {name for module in ALL if within(package, module) for name in imports(ALL[module], module) if name.startswith("calc.")}
    beside = package.rsplit(".", 1)[0]
    named = set()
    for name in found:
        if within(package, name) or name == beside:
            continue
        named.add(name.removeprefix(f"{beside}.").split(".")[0] if within(beside, name) and beside != "calc" else room_of(name))
    return named


ALL = modules()
ROOMS = [f"calc.{room}" for room in ORDER if room != "__main__"]
FOLDERS = [name for name, path in ALL.items() if path.name == "__init__.py" and name != "calc"]
REGISTERED = ("calc.drawing.motifs", "calc.rows.kinds")  # one file a kind, which no list names


@pytest.mark.parametrize("module", [m for m in ALL if m != "calc"])
def test_room_is_in_the_map(module: str) -> None:
    assert room_of(module) in ORDER, f"{module} belongs to no room: give it a place in the order"


def test_the_map_of_the_package_names_every_room() -> None:
    missing = [room for room in ORDER if room != "__main__" and f"`{room}`" not in (calc.__doc__ or "")]
    assert not missing
    places = [(calc.__doc__ or "").index(f"`{room}`") for room in ORDER if room != "__main__"]
    assert places == sorted(places), "the map and this test name the rooms in different orders"


@pytest.mark.parametrize("module", [m for m in ALL if m != "calc"])
def test_imports_only_from_rooms_above(module: str) -> None:
    here = ORDER.index(room_of(module))
    below = []
    for name in imports(ALL[module], module):
        if not name.startswith("calc.") or room_of(name) == room_of(module):
            continue
        there = room_of(name)
        if ORDER.index(there) >= here:
            below.append(name)
    assert not below, f"{module} imports from rooms below it: {', '.join(sorted(below))}"


@pytest.mark.parametrize("package", sorted({*ROOMS, *FOLDERS}))
def test_a_room_says_truly_what_it_imports(package: str) -> None:
    first = doc_of(package).split("\nMap\n")[0]
    said = re.search(r"\bIt may import (.+?)(?:[.;](?=\s|$)|, which)|\bIt imports no other room\b", first, re.DOTALL)
    assert said, f"{package} does not say in its first lines what it may import"
    assert set(re.findall(r"`(\w+)`", said[1] or "")) == imported(package)


@pytest.mark.parametrize("package", FOLDERS)
def test_a_map_names_every_module_of_its_folder(package: str) -> None:
    """In the folder's own map, or in the map of a module that gathers others; forms and kinds register themselves."""
    inside = [name for name in ALL if name.rpartition(".")[0] == package]
    maps = " ".join(doc_of(name) for name in (package, *inside))
    missing = [name for name in inside if f"`{name.rpartition('.')[2]}`" not in maps and not name.endswith("_form") and package not in REGISTERED]
    assert not missing


@pytest.mark.parametrize("module", [name for name in ALL if "\nMap\n---\n" in doc_of(name) and name != "calc"])
def test_what_a_map_names_exists(module: str) -> None:
    """At the beginning of a line: something of the module, a module of its folder, or one beside it."""
    folder = module if module in FOLDERS else module.rpartition(".")[0]
    lines = re.findall(r"^`\w+`(?:, `\w+`)*(?=   )", doc_of(module).split("\nMap\n---\n")[1], re.MULTILINE)
    assert lines
    named = [name for line in lines for name in re.findall(r"\w+", line)]
    here = importlib.import_module(module)
    assert [name for name in named if not hasattr(here, name) and f"{folder}.{name}" not in ALL] == []


@pytest.mark.parametrize("module", list(ALL))
def test_outside_libraries_stay_where_they_belong(module: str) -> None:
    tops = {name.split(".")[0] for name in imports(ALL[module], module)}
    outside = tops - set(sys.stdlib_module_names) - {"calc", "__future__"}
    assert outside <= OUTSIDE.get(module, set()), f"{module} imports {', '.join(sorted(outside))}"


def test_the_package_itself_imports_lazily() -> None:
    """`import calc` must stay quick: rooms are loaded when something is computed."""
    tree = ast.parse(ALL["calc"].read_text(encoding="utf-8"))
    for node in tree.body:
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("calc"):
            raise AssertionError(f"calc imports {node.module} when it is itself imported")
