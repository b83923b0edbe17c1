"""What a kind of row is stands once: nobody but the rooms of rows and motifs compares a kind's name or branches on it.

Looked at is every Python file of `calc` and `tools` outside `calc/rows/` and `calc/drawing/motifs/`. Refused are

- comparisons with a name or its plural (`kind == "swag"`, `"shells" in points`), also by `case`;
- tables by name: a dict with such a key, and a lookup by such a key (`KINDS["swag"]`, `table.get("swag")`);
- sets, lists and tuples of several names, from which such tables are made;
- names found by a part of them (`kind.endswith("scroll")`);
- the plural of a kind as what a function takes where nothing is said (`pieces="shells"`).

Allowed are names as plain values: a calculator's default text, the rows of an example or of a page's drawing, `RowSpec("swag", ...)` in
the calculator of swags, and `calc/tips_data.py`, which says what each tip of the table makes. A family of tips may be called as a kind is
("leaf", and the stars end as the star does): what is compared with a `family`, and a table of families, is none of this test's business. Nor is
what a fence of a page calls its own lines (`values.get("string")`), nor a table of calculators or of figures, whose names are a contract and
some of which are plurals; what the buttercream is thinned for ("strings") is a texture, and lines and dots are written and printed too.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from calc.buttercream import RECIPES
from calc.calculators import SLUGS
from calc.drawing.motifs import LOOKS
from calc.rows import KINDS
from calc.tips import FAMILIES

ROOT = Path(__file__).resolve().parents[2]
OWN = ("calc/rows/", "calc/drawing/motifs/")
DATA = ("calc/tips_data.py",)
BY_PART = ("startswith", "endswith", "removeprefix", "removesuffix", "find", "index", "count")
BY_KEY = ("get", "pop", "setdefault")
PLURALS = {kind.plural for kind in KINDS.values()} - {"lines", "dots"}
TEXTURES = {texture.purpose for recipe in RECIPES.values() for texture in recipe.textures}
OF_CALCULATORS = set(SLUGS) - PLURALS  # these names stand only in a list of calculators, or of figures


def names_in(node: ast.AST) -> set[str]:
    """Names of kinds that a constant, or a display of constants, holds."""
    inner = node.elts if isinstance(node, ast.Tuple | ast.List | ast.Set) else [node]
    return {one.value for one in inner if isinstance(one, ast.Constant) and isinstance(one.value, str) and one.value in {*KINDS, *PLURALS}}


def is_family(node: ast.AST) -> bool:
    """Whether an expression is the family of a tip, or a texture, by its own name."""
    if isinstance(node, ast.Attribute):
        return node.attr in ("family", "texture")
    return isinstance(node, ast.Name) and node.id in ("family", "FAMILIES")


def of_other_things(values: set[object]) -> bool:
    """Whether the names of a table or a list are those of families, of textures, or of calculators or figures."""
    return values <= set(FAMILIES) or values <= TEXTURES or bool(values & OF_CALCULATORS)


def is_part(node: ast.AST) -> bool:
    """Whether a constant is a part of some kind's name, of four letters or more."""
    text = node.value.strip() if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""
    return len(text) >= 4 and any(text in name for name in KINDS)


def branches(tree: ast.AST) -> Iterator[tuple[int, str]]:
    """Every line that branches on a kind's name, with what it does."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Compare):
            sides = [node.left, *node.comparators]
            if not any(is_family(side) for side in sides) and any(names_in(side) for side in sides):
                yield node.lineno, "compares"
        elif isinstance(node, ast.Match) and not is_family(node.subject):
            values = [inner for case in node.cases for inner in ast.walk(case.pattern) if isinstance(inner, ast.Constant)]
            if any(names_in(value) for value in values):
                yield node.lineno, "matches"
        elif isinstance(node, ast.Dict):
            keys = {key.value for key in node.keys if isinstance(key, ast.Constant)}
            if keys & {*KINDS, *PLURALS} and not of_other_things(keys):
                yield node.lineno, "keeps a table"
        elif isinstance(node, ast.Subscript):
            if names_in(node.slice):
                yield node.lineno, "looks up"
        elif isinstance(node, ast.Tuple | ast.List | ast.Set):
            values = [one.value for one in node.elts if isinstance(one, ast.Constant)]
            if len(values) == len(node.elts) > 1 and len(names_in(node)) > 1 and not of_other_things(set(values)):
                yield node.lineno, "keeps a list"
        elif isinstance(node, ast.arguments):
            for default in (*node.defaults, *node.kw_defaults):
                if isinstance(default, ast.Constant) and default.value in PLURALS:
                    yield default.lineno, "takes"
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.args and not is_family(node.func.value):
            fence = isinstance(node.func.value, ast.Name) and node.func.value.id == "values"
            by_key = node.func.attr in BY_KEY and names_in(node.args[0]) and not fence
            by_part = node.func.attr in BY_PART and "kind" in ast.unparse(node.func.value) and is_part(node.args[0])
            if by_key or by_part:
                yield node.lineno, "looks up"


FILES = [
    path
    for room in ("calc", "tools")
    for path in sorted((ROOT / room).rglob("*.py"))
    if not path.relative_to(ROOT).as_posix().startswith((*OWN, *DATA, "tools/build/npm"))
]


@pytest.mark.parametrize("path", FILES, ids=[path.relative_to(ROOT).as_posix() for path in FILES])
def test_nobody_else_branches_on_the_name_of_a_kind(path: Path) -> None:
    found = [f"line {line} {does}" for line, does in branches(ast.parse(path.read_text(encoding="utf-8")))]
    assert not found, f"{path.relative_to(ROOT)} names kinds of row: {', '.join(found)}. Ask the kind, or give it a trait"


@pytest.mark.parametrize(
    "line",
    [
        'kind == "swag"',
        '"string" != row.kind',
        'kind in ("swag", "string")',
        'HUNG = ("swag", "ruched swag", "string")',
        'frozenset(["C scroll", "S scroll"])',
        '{"leaf": 7, "string": 2}[kind]',
        'USUAL.get("rosette")',
        'KINDS["leaf"].plural',
        'kind.endswith("scroll")',
        '"shells" in weighs',
        'def why(choice, *, pieces="shells"): ...',
        '{"reverse shells": 1.0, "roses": 2.0}[what]',
        'match point:\n    case "shells":\n        pass',
        'match kind:\n    case "shell" | "bead":\n        pass',
    ],
)
def test_the_reader_finds_what_branches(line: str) -> None:
    assert list(branches(ast.parse(line)))


@pytest.mark.parametrize(
    "line",
    [
        'RowSpec("swag", tip, run_mm=side)',
        'Input("kind", "Row", "choice", "swag")',
        'tip.family == "leaf"',
        '{"petal": 11.0, "leaf": 9.0}',
        'family.endswith("star")',
        'kind.texture == "strings"',
        '{"coats": 1.0, "strings": 2.0}',
        'TABLES = {"swags": swags, "portions": portions}',
        'Input("exercises", "Exercises", "text", "shells, swags, strings")',
        'rows = (("swag", "side", "petal 11 mm", "russet"), ("string", "under", "round 1.8 mm", "cream"))',
    ],
)
def test_the_reader_leaves_plain_values_alone(line: str) -> None:
    assert not list(branches(ast.parse(line)))


def test_every_kind_has_a_look_and_every_look_a_kind() -> None:
    assert set(KINDS) == set(LOOKS)


def test_there_are_files_to_look_at() -> None:
    assert len(FILES) > 100 and {"order.py", "views.py", "handbook_tables.py"} <= {path.name for path in FILES}
