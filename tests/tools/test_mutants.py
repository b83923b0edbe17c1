"""Mistakes put into calc: what is exchanged in place, what is kept of a run."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from tools.check.mutants import CAUGHT, LOOPED, MISSED, Mutant, Room, exchanged, room_of, rooms, table, write

SOURCE = """
LIMIT = 3

def add(a, b=LIMIT):
    return [a + b for _ in range(2)]

class Pair:
    size: int = 2

    def total(self):
        return add(1) + add(2)
"""
HERE = Path("somewhere.py")


@pytest.mark.parametrize(
    "old, new, names",
    [
        ("a + b", "a - b", ["add"]),
        ("range(2)", "range(3)", ["add"]),
        ("add(1) +", "add(1) -", ["Pair.total"]),
        ("LIMIT = 3", "LIMIT = 4", None),
        ("b=LIMIT", "b=4", None),
        ("size: int = 2", "size: int = 3", None),
    ],
)
def test_only_mistakes_inside_functions_are_exchanged_in_place(old: str, new: str, names: list[str] | None) -> None:
    assert old in SOURCE
    changed = exchanged(SOURCE, SOURCE.replace(old, new), HERE)
    assert (None if changed is None else [name for name, _ in changed]) == names


def test_every_room_has_modules_and_no_pinned_answers() -> None:
    for name in rooms():
        room = room_of(name)
        assert room.modules
        assert "test_vectors.py" not in {path.name for path in room.tests}


def test_reasons_are_kept_from_one_run_to_the_next(tmp_path: Path) -> None:
    room = Room("shapes", {}, [])
    mutants = [Mutant("calc.shapes", HERE, where="area", line=i, before=str(i), after=f"-{i}") for i in range(3)]
    outcomes = dict(zip(mutants, (CAUGHT, MISSED, LOOPED), strict=True))
    write(room, 40, 11, outcomes, tmp_path)
    path = tmp_path / "shapes.toml"
    path.write_text(path.read_text(encoding="utf-8").replace('reason = ""', 'reason = "both are nothing"'), encoding="utf-8")
    write(room, 40, 11, outcomes, tmp_path)
    kept = tomllib.loads(path.read_text(encoding="utf-8"))
    assert kept["survivor"] == [{"where": "calc.shapes:area", "before": "1", "after": "-1", "reason": "both are nothing"}]
    assert "| `shapes` | 40 | 3 | 2 | 66.7 % | 1 of 1 |" in table(tmp_path)


def test_calculators_are_held_against_their_own_tests_and_not_those_that_draw_whole_sheets() -> None:
    names = {path.name for path in room_of("calculators").tests}
    assert {"test_calculators_answers.py", "test_calculators_order.py", "test_declare.py", "test_order_cures.py"} <= names
    assert not {"test_any_text.py", "test_order_any.py", "test_order_sheets.py", "test_geometry.py"} & names
    assert "test_order_any.py" not in {path.name for path in room_of("order").tests}
