"""Docstrings are read like code: names in the order of the signature, a unit on every quantity, sources that exist.

The shape is the one of `calc.curves`: one sentence; Formula; Parameters and Returns, each ending in its unit in square
brackets; Raises; Range with what it leaves out; an Example that runs; Source with keys of `calc.sources`.
"""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

import pytest

import calc
from calc.sources import SOURCES

SECTIONS = ("Parameters", "Returns", "Raises", "Example")


def every_module() -> list[str]:
    """Names of all modules of the package but the command line."""
    found = ["calc"] + [m.name for m in pkgutil.walk_packages(calc.__path__, "calc.") if not m.name.endswith("__main__")]
    return sorted(found)


def is_room(name: str) -> bool:
    """Rooms hold what is true about cakes; a calculator only asks and answers."""
    return not name.startswith("calc.calculators")


def public_functions(module: ModuleType) -> Iterator[tuple[str, Callable[..., Any]]]:
    """Functions without an underscore that are written in this module."""
    for name, value in vars(module).items():
        if name.startswith("_"):
            continue
        function = inspect.unwrap(value) if callable(value) and not inspect.isclass(value) else None
        if inspect.isfunction(function) and function.__module__ == module.__name__:
            yield name, function


MODULES = every_module()
FUNCTIONS = [
    (f"{name}.{function_name}", function)
    for name in MODULES
    if is_room(name)
    for function_name, function in public_functions(importlib.import_module(name))
]


def sections_of(doc: str) -> dict[str, list[str]]:
    """Cut a docstring at its underlined headings; what comes before the first is under ""."""
    lines, found, heading = doc.splitlines(), {"": []}, ""
    skip = False
    for i, line in enumerate(lines):
        if skip:
            skip = False
            continue
        if i + 1 < len(lines) and re.fullmatch(r"-{3,}", lines[i + 1].strip()) and line.strip() in SECTIONS:
            heading, skip = line.strip(), True
            found[heading] = []
        else:
            found[heading].append(line)
    return found


def entries_of(lines: list[str]) -> list[tuple[str, str]]:
    """Entries of a section: an unindented line, and the indented text under it as one line."""
    found: list[tuple[str, list[str]]] = []
    for line in lines:
        if line and not line.startswith(" "):
            found.append((line, []))
        elif line.strip() and found:
            found[-1][1].append(line.strip())
    return [(head, " ".join(text)) for head, text in found]


def faults(function: Callable[..., Any]) -> list[str]:
    """Everything in a docstring that is not as it should be."""
    doc = inspect.getdoc(function) or ""
    wrong = []
    if not re.match(r"[A-Z][^\n]*(\n[^\n]+)*?\.(\s|$)", doc):
        wrong.append("does not begin with a sentence")
    sections = sections_of(doc)
    before, after = "\n".join(sections[""]), "\n".join(sections.get("Example", []))
    if not re.search(r"^Formula: \S", before, re.MULTILINE):
        wrong.append("has no Formula")
    names = [p.lstrip("*") for p in inspect.signature(function).parameters]
    described = entries_of(sections.get("Parameters", []))
    if [head.split(" : ")[0].lstrip("*") for head, _ in described] != names:
        wrong.append(f"describes {[head for head, _ in described]}, and takes {names}")
    if sections.get("Returns") is None:
        wrong.append("does not say what it returns")
    for head, text in described + entries_of(sections.get("Returns", [])):
        if not re.search(r"\[[^\]]+\]", text):
            wrong.append(f"gives no unit in square brackets for {head!r}")
    if not entries_of(sections.get("Raises", [])):
        wrong.append("does not say what it raises")
    raises = "\n".join(sections.get("Raises", []))
    if not re.search(r"^Range: \S", raises + "\n" + after, re.MULTILINE):
        wrong.append("has no Range")
    if "eaves out: " not in doc.replace("\n", " "):
        wrong.append("does not say what it leaves out")
    if ">>> " not in after:
        wrong.append("has no Example")
    named = re.search(r"^Source: (.+?)\Z", after.strip(), re.MULTILINE | re.DOTALL)
    if not named:
        wrong.append("has no Source at its end")
    else:
        keys = [key.strip() for key in named[1].replace("\n", " ").split(",")]
        wrong += [f"cites {key!r}, which is not in calc.sources" for key in keys if key not in SOURCES]
    return wrong


@pytest.mark.parametrize("name, function", FUNCTIONS, ids=[name for name, _ in FUNCTIONS])
def test_docstring_is_complete(name: str, function: Callable[..., Any]) -> None:
    assert not faults(function), f"{name} {'; '.join(faults(function))}"


@pytest.mark.parametrize("name", MODULES)
def test_module_opens_with_what_it_is(name: str) -> None:
    doc = importlib.import_module(name).__doc__ or ""
    assert doc.strip(), f"{name} has no docstring"


@pytest.mark.parametrize("name", [n for n in MODULES if is_room(n)])
def test_public_classes_and_methods_have_a_docstring(name: str) -> None:
    module = importlib.import_module(name)
    bare = []
    for class_name, value in vars(module).items():
        if class_name.startswith("_") or not inspect.isclass(value) or value.__module__ != name:
            continue
        if not value.__doc__ or value.__doc__.startswith(f"{class_name}("):  # the second is what dataclass writes
            bare.append(class_name)
        for method_name, method in vars(value).items():
            function = getattr(method, "fget", method)
            if method_name.startswith("_") or not inspect.isfunction(function):
                continue
            if not function.__doc__ and not any(getattr(base, method_name, None) for base in value.__mro__[1:]):
                bare.append(f"{class_name}.{method_name}")
    assert not bare, f"without a docstring in {name}: {', '.join(bare)}"


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name: str) -> None:
    flags = doctest.NORMALIZE_WHITESPACE
    result = doctest.testmod(importlib.import_module(name), optionflags=flags)
    assert result.failed == 0


def good(width_mm: float, count: int = 1) -> float:
    """Give a width over a count.

    Formula: w / n.

    Parameters
    ----------
    width_mm : float
        Width w [mm]
    count : int
        Count n [-]

    Returns
    -------
    float
        Width of one [mm]

    Raises
    ------
    ZeroDivisionError
        There is none.

    Range: n > 0. Leaves out: nothing.

    Example
    -------
    >>> good(10, 2)
    5.0

    Source: geometry
    """
    return width_mm / count


@pytest.mark.parametrize(
    "old, new, said",
    [
        ("Width w [mm]", "Width w", "no unit"),
        ("Width of one [mm]", "Width of one", "no unit"),
        ("count : int", "counts : int", "takes"),
        ("Source: geometry", "Source: hearsay", "hearsay"),
        ("Range: n > 0. Leaves out: nothing.", "", "no Range"),
        ("Formula: w / n.", "", "no Formula"),
        (">>> good(10, 2)", "good(10, 2)", "no Example"),
        ("Raises\n    ------\n    ZeroDivisionError\n        There is none.\n", "", "raises"),
    ],
)
def test_the_reader_finds_what_is_missing(old: str, new: str, said: str) -> None:
    assert not faults(good)

    def spoilt(width_mm: float, count: int = 1) -> float:
        return width_mm / count

    assert old in (good.__doc__ or "")
    spoilt.__doc__ = (good.__doc__ or "").replace(old, new)
    assert any(said in fault for fault in faults(spoilt))
