"""An exercise is found by any of its names: those of its kind and those that its page gives; a word that is none is told the nearest."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from calc.lesson import EXERCISES, kind_of, nearest, page_of, read_exercises
from calc.rows import KINDS
from calc.units import Problem

DOCS = Path(__file__).resolve().parents[2] / "docs" / "techniques"
NOT_ROWS = {"closing-a-row", "../learn/holding-a-bag"}  # pages of the dot and the line, which are about more
SINGLY = {"blossoms"}  # pages of what is made one by one, on a nail or on the side, and is no row
PAGES = sorted({page_of(exercise) for exercise in EXERCISES.values()} - NOT_ROWS)


def keys(text: str) -> list[str]:
    return [exercise.key for exercise in read_exercises(text, "exercises", "Exercises")]


def names_of(page: str) -> list[str]:
    front = yaml.safe_load((DOCS / f"{page}.md").read_text().split("---")[1])
    return [front["title"], *(word.strip() for word in front["also"].split(","))]


@pytest.mark.parametrize("page", PAGES)
def test_a_page_is_found_by_every_name_it_gives(page: str) -> None:
    """A name that two pages give ("frill") finds one of them."""
    for name in names_of(page):
        (found,) = keys(name)
        shared = page_of(EXERCISES[found])
        assert shared == page or name == kind_of(EXERCISES[found]).plural or name in names_of(shared), f"{name!r} finds {found}"


def test_every_row_of_the_techniques_can_be_practised() -> None:
    """The pages under the three headings of rows, and over-piping."""
    nav = (DOCS.parents[1] / "mkdocs.yml").read_text()
    rows = nav[nav.index("Swags, strings and scrolls") : nav.index("Finish, mend and move")] + "techniques/over-piping.md"
    pages = {word.split("/")[1] for word in rows.replace(".md", " ").split() if word.startswith("techniques/")}
    assert pages - SINGLY == set(PAGES) and pages >= SINGLY


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_is_found_by_its_own_names_in_one_and_in_many(name: str) -> None:
    kind = KINDS[name]
    assert kind.exercise is not None
    for word in (name, kind.plural, name.upper(), f"a {name}"):
        assert keys(word) == [kind.exercise.key], word
    for word in kind.also:
        assert keys(word) == keys(word if word.endswith("s") else word + "s"), word


@pytest.mark.parametrize(
    "typed, found",
    [
        ("roses", ["small_roses"]), ("Ruches", ["ruched_swags"]), ("ruched border", ["ruched_borders"]), ("ruched borders", ["ruched_borders"]),
        ("C and S scrolls", ["scrolls"]), ("c scrolls and s scrolls", ["c_scrolls", "scrolls"]), ("drop-strings & pearls", ["strings", "beads"]),
        ("swags, shells and roses", ["swags", "shells", "small_roses"]), ("vermicelli; cornelli", ["vermicelli"]), ("Over-piping", ["over_piping"]),
    ],
)  # fmt: skip
def test_names_as_teachers_type_them(typed: str, found: list[str]) -> None:
    assert keys(typed) == found


@pytest.mark.parametrize(
    "typed, like", [("small rozes", "small roses"), ("shels", "shells"), ("ruched boarder", "ruched border"), ("swaggs", "swags")]
)
def test_a_word_that_is_none_is_told_the_nearest(typed: str, like: str) -> None:
    assert nearest(typed).name.lower() == like
    with pytest.raises(Problem, match=f"“{typed}”. The nearest is {like}"):
        keys(f"lines, {typed}")


def test_names_do_not_hide_one_another() -> None:
    """What an exercise is called first of all finds that exercise."""
    for exercise in EXERCISES.values():
        assert keys(exercise.name) == [exercise.key]
        assert kind_of(exercise).name == exercise.kind
