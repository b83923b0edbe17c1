"""The small mistakes that are put into a module: Cosmic Ray's operators, one change at a time, at places where they can matter.

Left alone: annotations, decorators (a cache's size changes no answer), docstrings and messages, and operators that turn a sum into
something Python refuses for floats (`a | b`), since any test catches that and the score would say too much.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import parso
from cosmic_ray.mutating import mutate_code
from cosmic_ray.operators.number_replacer import NumberReplacer
from cosmic_ray.operators.operator import Operator
from cosmic_ray.plugins import get_operator
from parso.python.tree import Number

from tools.check.mutants import Mutant

SWAPS = {
    "Binary": ("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "FloorDiv_Div", "Div_FloorDiv", "Mod_FloorDiv", "Pow_Mul"),
    "Comparison": ("Lt_LtE", "LtE_Lt", "Gt_GtE", "GtE_Gt", "Lt_GtE", "Gt_LtE", "LtE_Gt", "GtE_Lt", "Eq_NotEq", "NotEq_Eq", "Is_IsNot", "IsNot_Is"),
    "Unary": ("USub_UAdd", "Delete_Not"),
}
OTHERS = (
    *("AddNot", "ReplaceTrueWithFalse", "ReplaceFalseWithTrue", "ReplaceAndWithOr", "ReplaceOrWithAnd", "ReplaceBreakWithContinue"),
    *("ReplaceContinueWithBreak", "ExceptionReplacer", "ZeroIterationForLoop"),
)
NUDGE = 1.1
LARGEST_COUNT = 20  # a whole number from here on is taken for a measure
Position = tuple[tuple[int, int], tuple[int, int]]


def _is_measured(node: Any) -> bool:
    """Whether a number is a measure or a rate rather than a count, an index or a tolerance."""
    if not isinstance(node, Number) or node.value[-1] in "jJ":
        return False
    value = float(node.value) if "x" not in node.value.lower() else 0.0
    return value > 1e-6 and ("." in node.value or value >= LARGEST_COUNT)


class ReplaceCount(NumberReplacer):
    """One more and one less, for counts, indices and tolerances."""

    def mutation_positions(self, node: Any) -> Iterator[Position]:
        """Every number that is not a measure."""
        if not _is_measured(node):
            yield from super().mutation_positions(node)


class NudgeMeasure(Operator):
    """A tenth more, for measures and rates: a little wrong, where one more may be grossly wrong or next to nothing."""

    def mutation_positions(self, node: Any) -> Iterator[Position]:
        """Every number that is a measure."""
        if _is_measured(node):
            yield node.start_pos, node.end_pos

    def mutate(self, node: Any, index: int) -> Any:
        """Write the larger number in place."""
        value = float(node.value) * NUDGE
        node.value = str(round(value)) if node.value.replace("_", "").isdigit() else repr(round(value, 12))
        return node

    @classmethod
    def examples(cls) -> tuple[()]:
        """The base class asks for it."""
        return ()


def _operators() -> list[Operator]:
    names = [f"Replace{kind}Operator_{swap}" for kind, swaps in SWAPS.items() for swap in swaps] + list(OTHERS)
    return [*(get_operator(f"core/{name}")() for name in names), ReplaceCount(), NudgeMeasure()]


def _left_alone(node: Any) -> bool:
    """Whether nothing inside this node is to be changed."""
    parent = node.parent
    if node.type == "decorator" or (node.type == "operator" and parent is not None and parent.type == "parameters"):
        return True
    if parent is None:
        return False
    if parent.type == "annassign":
        return node is parent.children[1]
    if parent.type == "tfpdef":
        return node is parent.children[-1] and len(parent.children) == 3
    if parent.type == "funcdef":
        return node is parent.annotation
    return False


def _walk(node: Any, alone: bool = False) -> Iterator[tuple[Any, bool]]:
    """All nodes in the order in which Cosmic Ray counts them, and whether each is to be left alone."""
    alone = alone or _left_alone(node)
    yield node, alone
    for child in getattr(node, "children", ()):
        yield from _walk(child, alone)


def _function_at(statement: Any, line: int) -> str:
    """The function or method that a line of a top-level statement is in."""
    if statement.type == "decorated":
        statement = statement.children[-1]
    if statement.type == "funcdef":
        return str(statement.name.value)
    if statement.type == "classdef":
        for method in statement.iter_funcdefs():
            if method.start_pos[0] <= line <= method.end_pos[0]:
                return f"{statement.name.value}.{method.name.value}"
        return str(statement.name.value)
    return "module"


def mutants_of(module: str, path: Path) -> list[Mutant]:
    """Every mistake that can be put into a module, in the order of its lines."""
    whole = path.read_text(encoding="utf-8")
    statements = [node.get_code() for node in parso.parse(whole).children]
    operators = _operators()
    found: list[Mutant] = []
    begun = 0  # lines before this statement
    for i, text in enumerate(statements):
        tree = parso.parse(text)
        nodes = list(_walk(tree))
        for operator in operators:
            occurrence = -1
            for node, alone in nodes:
                for position in operator.mutation_positions(node):
                    occurrence += 1
                    if alone:
                        continue
                    changed = _mutated(text, operator, occurrence)
                    if changed is None or changed == text or not _compiles(changed):
                        continue
                    row = position[0][0]
                    before, after = _difference(text, changed)
                    found.append(
                        Mutant(
                            module=module,
                            path=path,
                            source="".join([*statements[:i], changed, *statements[i + 1 :]]),
                            line=begun + row,
                            where=_function_at(tree.children[0], row),
                            before=before,
                            after=after,
                        )
                    )
        begun += text.count("\n")
    return sorted(found, key=lambda mutant: (mutant.line, mutant.before, mutant.after))


def _mutated(text: str, operator: Operator, occurrence: int) -> str | None:
    """The text with one mistake, or None where the operator cannot make it."""
    try:
        changed: str | None = mutate_code(text, operator, occurrence)
    except AttributeError:  # an exception with a dot in its name, which Cosmic Ray does not replace
        return None
    return changed


def _compiles(text: str) -> bool:
    try:
        compile(text, "mutant", "exec", dont_inherit=True)
    except SyntaxError:
        return False
    return True


def _difference(before: str, after: str) -> tuple[str, str]:
    """The lines that differ, without their indentation."""
    old, new = before.splitlines(), after.splitlines()
    start = next((i for i, (a, b) in enumerate(zip(old, new, strict=False)) if a != b), min(len(old), len(new)))
    end = next((i for i, (a, b) in enumerate(zip(old[::-1], new[::-1], strict=False)) if a != b), 0)
    before, after = (" ".join(line.strip() for line in lines[start : len(lines) - end]) for lines in (old, new))
    return before, after
