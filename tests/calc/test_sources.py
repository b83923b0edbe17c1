"""Every constant carries its unit, a source that exists and a note; no bare number stands among them."""

from __future__ import annotations

import ast
import copy
import dataclasses
import importlib
import math
import pickle
import pkgutil
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

import calc
from calc.sources import GROUPS, SOURCES, Constant, constant

PACKAGE = Path(calc.__file__).parent
ROOMS = sorted(m.name for m in pkgutil.walk_packages(calc.__path__, "calc.") if not m.name.endswith("__main__") and m.name != "calc.sources")


def constants_in(value: Any, path: str, seen: set[int]) -> Iterator[tuple[str, Constant]]:
    """Every constant in a value, however deep it stands in tables and records."""
    if isinstance(value, Constant):
        yield path, value
        return
    if isinstance(value, (str, bytes, int, float)) or id(value) in seen:
        return
    seen.add(id(value))
    if isinstance(value, Mapping):
        for key, item in value.items():
            yield from constants_in(item, f"{path}[{key!r}]", seen)
    elif isinstance(value, (tuple, list, frozenset, set)):
        for i, item in enumerate(value):
            yield from constants_in(item, f"{path}[{i}]", seen)
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        for field in dataclasses.fields(value):
            yield from constants_in(getattr(value, field.name), f"{path}.{field.name}", seen)


CONSTANTS = [
    (path, found)
    for room in ROOMS
    for name, value in vars(importlib.import_module(room)).items()
    if not name.startswith("__")
    for path, found in constants_in(value, f"{room}.{name}", set())
]


def test_there_are_constants_to_look_at() -> None:
    assert len(CONSTANTS) > 50


def lacking_papers(found: Constant) -> list[str]:
    """What a constant owes and does not have."""
    owed = {
        "a source of the list": SOURCES.get(found.source.key) is found.source,
        "a group": found.group in GROUPS,
        "a unit": bool(found.unit) and not found.unit.isspace(),
        "a note that says what it is": len(found.note) >= 8,
        "a finite value": math.isfinite(found),
        "a range that it lies in": found.low <= found <= found.high,
        # what has no source is not called exact or measured; weighed by the reader is measured, and cites geometry
        "a group that its source bears out": found.source.standing != "common practice" or found.group == "common practice",
    }
    return [what for what, is_there in owed.items() if not is_there]


def test_constants_have_their_papers() -> None:
    lacking = {path: lacking_papers(found) for path, found in CONSTANTS}
    assert not {path: what for path, what in lacking.items() if what}


def test_a_constant_without_an_end_is_found() -> None:
    assert lacking_papers(constant(math.inf, "mm", "geometry", "a length without end", group="derived")) == ["a finite value"]


@pytest.mark.parametrize(
    "change, lacks",
    [
        ({"unit": " "}, "a unit"),
        ({"note": "short"}, "a note that says what it is"),
        ({"low": 26.0}, "a range that it lies in"),
        ({"group": "guessed"}, "a group"),
        ({"source": dataclasses.replace(SOURCES["nist-811"])}, "a source of the list"),
        ({"source": next(each for each in SOURCES.values() if each.standing == "common practice")}, "a group that its source bears out"),
    ],
    ids=lambda value: value if isinstance(value, str) else "-".join(value),
)
def test_what_a_constant_lacks_is_found(change: dict[str, Any], lacks: str) -> None:
    inch = constant(25.4, "mm/in", "nist-811", "the inch", group="exact")
    assert lacking_papers(inch) == []
    for name, value in change.items():
        setattr(inch, name, value)
    assert lacking_papers(inch) == [lacks]


@pytest.mark.parametrize("room", ROOMS)
def test_no_bare_number_among_the_constants(room: str) -> None:
    """A name in capitals that is given a number with a point is a fact about the world, and needs a source."""
    path = PACKAGE.parent / Path(*room.split(".")).with_suffix(".py")
    if not path.exists():
        path = path.with_suffix("") / "__init__.py"
    bare = []
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        targets = node.targets if isinstance(node, ast.Assign) else [node.target] if isinstance(node, ast.AnnAssign) else []
        value = getattr(node, "value", None)
        if not isinstance(value, ast.Constant) or not isinstance(value.value, float):
            continue
        bare += [t.id for t in targets if isinstance(t, ast.Name) and re.fullmatch(r"[A-Z][A-Z0-9_]*", t.id)]
    allowed = TOOLS.get(room, set())
    assert not set(bare) - allowed, f"{room} has numbers without a source: {', '.join(bare)}"


# Numbers that say how finely something is computed, limits on what may be typed, and how things are laid out on paper: not what is true about cakes.
TOOLS: dict[str, set[str]] = {
    "calc.calculators.lesson_sheets": {"AT_HOME_G", "PANEL_MM"},
    "calc.calculators.list_sheets": {"DRAWING_HIGH_MM"},
    "calc.drawing.bag": {"PANEL_WORDS"},
    "calc.drawing.free_space": {"CLEAR_MM"},
    "calc.drawing.paper.flow": {"BODY_MM", "SMALLER", "COLUMN_GAP_MM", "SHORTEST_LAST_MM"},
    "calc.drawing.paper.gauge": {"STEP_MM"},
    "calc.drawing.paper.marking": {"TAB_MM"},
    "calc.drawing.paper.sheet": {"SMALLEST_MM"},
    "calc.drawing.paper.practice": {"WORDS_MM"},
    "calc.drawing.paper.tiles": {"OVERLAP_MM", "NEARLY_EMPTY"},
    "calc.drawing.unroll": {"NAME_MM", "SAMPLE_MM"},
    "calc.drawing.views": {"TURNED_AWAY"},
    "calc.calculators.shells_form": {"CLOSEST_MM"},
    "calc.coats": {"ML"},
    "calc.geometry.polygons": {"ON_LINE"},
    "calc.geometry.profile": {"SLACK"},
    "calc.portions.layout": {"FIT"},
    "calc.portions.top": {"STANDARD_WIDTH_MM"},
    "calc.units.writing": {"CLOSE"},
    "calc.tips": {"SMALLEST_MM", "WIDEST_MM"},
}


def test_every_source_is_whole() -> None:
    for key, source in SOURCES.items():
        assert re.fullmatch(r"[a-z0-9]+([.-][a-z0-9]+)*", key)
        assert source.title and source.citation
        assert source.standing in ("published", "common practice", "from memory")
        assert "http" not in source.citation, f"{key} names an address: the publication is cited, not the copy read"


def test_every_source_is_cited_somewhere() -> None:
    text = "\n".join(
        path.read_text(encoding="utf-8")
        for folder in (PACKAGE, PACKAGE.parent / "tests", PACKAGE.parent / "docs")
        for path in sorted(folder.rglob("*"))
        if path.suffix in (".py", ".md", ".toml") and path.name not in ("sources.py", "test_sources.py")
    )
    unused = [key for key in SOURCES if not re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", text)]
    assert not unused, f"cited nowhere: {', '.join(unused)}"


@pytest.mark.parametrize(
    "arguments",
    [
        {"source": "hearsay"},
        {"group": "guessed"},
    ],
)
def test_a_constant_without_papers_cannot_be_built(arguments: dict[str, str]) -> None:
    whole = {"source": "geometry", "group": "derived"} | arguments
    with pytest.raises(ValueError):
        constant(1.0, "mm", whole["source"], "a length", group=whole["group"])


def test_a_constant_is_a_float_that_can_be_copied() -> None:
    inch = constant(25.4, "mm/in", "nist-811", "the inch", group="exact")
    assert inch == 25.4 and inch * 2 == 50.8 and type(inch * 2) is float
    for other in (copy.deepcopy(inch), pickle.loads(pickle.dumps(inch))):
        assert other == inch and other.unit == "mm/in" and other.source.key == "nist-811"
        assert (other.note, other.group, other.low, other.high) == (inch.note, inch.group, inch.low, inch.high)
