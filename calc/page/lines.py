"""The line over each copy of a group: "Swag · hung on the side · petal 11 mm · russet"."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from calc.calculators.declare import Calculator, Group, Input, places_of
from calc.units import Same

LONGEST_PIECE = 40  # characters
IN_BRACES = re.compile(r"{(\w+)}")

Places = Mapping[str, Sequence[int]]


def group_lines(calculator: Calculator, texts: Mapping[str, str]) -> dict[str, str]:
    """Return the line of every copy by its path, such as `tiers.1.rows.0.`, for these texts of a form."""
    places = places_of(texts)
    lines: dict[str, str] = {}

    def add(groups: tuple[Group, ...], path: str) -> None:
        for group in groups:
            for index in places.get(f"{path}{group.name}.", ()):
                copy = f"{path}{group.name}.{index}."
                lines[copy] = group_line(group, copy, texts, places)
                add(group.groups, copy)

    add(calculator.groups, "")
    return lines


def group_line(group: Group, path: str, texts: Mapping[str, str], places: Places) -> str:
    """Return the line of one copy of a group, from its pieces; one with nothing to say is left out whole."""
    named, inside = _looked_at(Same(group))
    typed = tuple([(name, texts.get(path + name)) for name in named])
    return _line(Same(group), typed, tuple([(name, len(places.get(f"{path}{name}.", ()))) for name in inside]))


@lru_cache(maxsize=64)
def _looked_at(group: Same[Group]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The names of the inputs and of the groups inside that the pieces of a group's line name."""
    inside = {inner.name for inner in group.what.groups}
    names = dict.fromkeys(name for piece in group.what.pieces for name in IN_BRACES.findall(piece))
    return tuple([name for name in names if name not in inside]), tuple([name for name in names if name in inside])


@lru_cache(maxsize=256)
def _line(same: Same[Group], typed: tuple[tuple[str, str | None], ...], counts: tuple[tuple[str, int], ...]) -> str:
    """The line of a copy with these texts and so many copies of the groups inside; kept, because an edit changes one line or none."""
    group, texts, there = same.what, dict(typed), dict(counts)
    shown: list[str] = []
    for piece in group.pieces:
        words = {name: _words(group, name, texts, there, not shown) for name in IN_BRACES.findall(piece)}
        if all(words.values()):
            shown.append(IN_BRACES.sub(lambda match, words=words: words[match[1]], piece))  # type: ignore[misc]
    return " · ".join(shown)


def _words(group: Group, name: str, texts: Mapping[str, str | None], counts: Mapping[str, int], is_first: bool) -> str:
    """What stands for one name in braces: what was typed, the label of what was chosen, or how many there are of a group inside."""
    for inner in group.groups:
        if inner.name == name:
            count = counts[name]
            return f"{count or 'no'} {inner.label.lower()}{'' if count == 1 else 's'}"
    declared = next(each for each in group.inputs if each.name == name)
    text = texts[name]
    return _told(declared, declared.default if text is None else text, is_first)


@lru_cache(maxsize=512)
def _told(declared: Input, text: str, is_first: bool) -> str:
    """What was typed into an input, as a line says it; cached, because an edit leaves the words of all other lines as they are."""
    text = " ".join(text.split())
    if declared.kind == "choice":
        label = dict(declared.choices).get(text, text).split(" (")[0]
        text = label if is_first else label[:1].lower() + label[1:]
    return text if len(text) <= LONGEST_PIECE else text[:LONGEST_PIECE] + "…"
