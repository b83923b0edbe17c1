"""Docstrings are checked like code.

Every public function of a room begins with one sentence. A function that holds a formula or a constant says so with a
line `Formula:`, and then owes the whole form: Parameters and Returns with the unit of each in square brackets, Range,
an Example that runs, and Source at the end. `Source:` names keys of `calc.sources` and, in brackets behind each, where
to look: `Source: segment (eq. 4), steiner (p. 114)`; for `geometry` that is the theorem or definition, as in
`geometry (Pythagoras)`. Sources whose title already names a section, and the two that stand for "no source", need none.

A function without a formula needs the sentence only, with an example where one shows something; Parameters, Returns or Range without a formula
are refused, and so are "Formula: none", "Raises: Never" and the like.
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
            heading = "Range" if line.startswith("Range: ") else heading
            found.setdefault(heading, []).append(line)
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


FULL_FORM = re.compile(r"^(Formula|Source): ", re.MULTILINE)
EMPTY_ANSWERS = (
    (re.compile(r"^Formula: (none|no )", re.MULTILINE | re.IGNORECASE), "says that it has no formula"),
    (re.compile(r"^Formula: as `[\w.]+`\.$", re.MULTILINE), "has the formula of another function, and none of its own"),
    (re.compile(r"^Raises\n-+\n(\w+\n\s+)?(never|none|nothing)\b", re.MULTILINE | re.IGNORECASE), "says that it raises nothing"),
    (re.compile(r"^(Raises|Returns|Range|Source): (never|none|nothing)\b", re.MULTILINE | re.IGNORECASE), "has a line that says nothing"),
    (re.compile(r"eaves out: (nothing|none)\b", re.IGNORECASE), "leaves out nothing, and says so"),
)
NAMES_ITS_PLACE = re.compile(r"section|article|schedule|annex|appendix|\bA\d{6}\b|CFR", re.IGNORECASE)
NO_PLACE = ("common-practice", "from-memory")


def cited(text: str) -> list[tuple[str, str]]:
    """Keys of a Source line, each with what stands in brackets behind it."""
    found = re.findall(r"([^\s,()]+)(?:\s*\(([^()]*)\))?\s*(?:,|\Z)", " ".join(text.split()))
    return [(key, place.strip()) for key, place in found]


def source_faults(after: str) -> list[str]:
    """What is wrong with the Source at the end of a docstring."""
    named = re.search(r"^Source: (.+)\Z", after.strip(), re.MULTILINE | re.DOTALL)
    if not named:
        return ["has no Source at its end"]
    wrong = []
    for key, place in cited(named[1]):
        if key not in SOURCES:
            wrong.append(f"cites {key!r}, which is not in calc.sources")
        elif not place and key not in NO_PLACE and not NAMES_ITS_PLACE.search(SOURCES[key].title):
            wrong.append(f"cites {key} without its page, table, equation or theorem in brackets")
    return wrong


def form_faults(function: Callable[..., Any], doc: str) -> list[str]:
    """What a formula's docstring lacks of the whole form."""
    wrong = []
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
    if not re.search(r"^Range: \S", doc, re.MULTILINE):
        wrong.append("has no Range")
    if ">>> " not in after:
        wrong.append("has no Example")
    return wrong + source_faults(after)


def faults(function: Callable[..., Any]) -> list[str]:
    """Everything in a docstring that is not as it should be."""
    doc = inspect.getdoc(function) or ""
    wrong = []
    if not re.match(r"[A-Z][^\n]*(\n[^\n]+)*?\.(\s|$)", doc):
        wrong.append("does not begin with a sentence")
    wrong += [said for pattern, said in EMPTY_ANSWERS if pattern.search(doc)]
    if FULL_FORM.search(doc):
        wrong += form_faults(function, doc)
    elif set(sections_of(doc)) - {""}:
        wrong.append("has a part of the whole form, and no formula")
    return wrong


@pytest.mark.parametrize("name, function", FUNCTIONS, ids=[name for name, _ in FUNCTIONS])
def test_docstring_is_in_order(name: str, function: Callable[..., Any]) -> None:
    found = faults(function)
    assert not found, f"{name} {'; '.join(found)}"


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

    Range: n > 0.

    Example
    -------
    >>> good(10, 2)
    5.0

    Source: geometry (equal division), steiner (p. 114)
    """
    return width_mm / count


@pytest.mark.parametrize(
    "old, new, said",
    [
        ("Give a width", "give a width", "sentence"),
        ("Width w [mm]", "Width w", "no unit"),
        ("Width of one [mm]", "Width of one", "no unit"),
        ("count : int", "counts : int", "takes"),
        ("Returns\n    -------\n", "", "does not say what it returns"),
        ("geometry (equal division)", "hearsay (p. 2)", "hearsay"),
        ("geometry (equal division)", "geometry", "cites geometry without"),
        ("steiner (p. 114)", "steiner", "cites steiner without"),
        ("    Source: geometry (equal division), steiner (p. 114)\n", "", "no Source"),
        ("Range: n > 0.", "", "no Range"),
        ("Range: n > 0.", "Range: n > 0. Leaves out: nothing.", "leaves out nothing"),
        ("Formula: w / n.", "", "no Formula"),
        ("Formula: w / n.", "Formula: none; it divides.", "no formula"),
        ("Formula: w / n.", "Formula: as `pitch_mm`.", "formula of another"),
        (">>> good(10, 2)", "good(10, 2)", "no Example"),
        ("Range: n", "Raises\n    ------\n    Never\n        At no count.\n\n    Range: n", "raises nothing"),
        ("Range: n", "Raises\n    ------\n    ValueError\n        Never.\n\n    Range: n", "raises nothing"),
        ("Range: n > 0.", "Range: n > 0.\n    Raises: never", "says nothing"),
    ],
)
def test_the_reader_finds_what_is_missing(old: str, new: str, said: str) -> None:
    assert not faults(good)

    def spoilt(width_mm: float, count: int = 1) -> float:
        return width_mm / count

    assert old in (good.__doc__ or "")
    spoilt.__doc__ = (good.__doc__ or "").replace(old, new)
    assert any(said in fault for fault in faults(spoilt))


def test_a_function_without_a_formula_needs_one_sentence_only() -> None:
    def plain(width_mm: float) -> float:
        """Widen a band by a hand's breadth."""
        return width_mm + 80

    assert not faults(plain)
    for part in ("Parameters\n----------\nwidth_mm : float\n    Width [mm]", "Returns\n-------\nfloat\n    Width [mm]", "Range: any width."):
        plain.__doc__ = f"Widen a band by a hand's breadth.\n\n{part}\n"
        assert any("no formula" in fault for fault in faults(plain)), part


def test_sources_that_name_their_place_and_those_that_have_none_need_no_brackets() -> None:
    assert not source_faults("Source: dlmf-19.30, common-practice")
    assert cited("steiner (p. 114, eq. 2), common-practice") == [("steiner", "p. 114, eq. 2"), ("common-practice", "")]
