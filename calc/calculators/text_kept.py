"""The texts of a form as one text that a person can read and keep, and back: TOML, looked at before it is parsed.

Map
---
`TextKept`   what such a text is called in words; `read` gives the texts of the form, `write` the text
"""

from __future__ import annotations

import datetime as dt
import re
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import tomli_w

from calc.calculators.declare import check_bulk
from calc.units import LONGEST_RECORD, Problem

DEEPEST_TOML = 64  # brackets in brackets, or parts of a dotted name
MOST_KEYS = 4000
LONGEST_KEY = 200  # characters
MOST_BITS = 256  # of a whole number written without quotes
LOAD_SAVED = "Load one that was saved here"
_TOML_PIECE = re.compile(
    r'''(?P<text>"""(?:\\.|[^\\])*?(?:"""|\Z)|\'{3}[\s\S]*?(?:\'{3}|\Z)|"(?:\\.|[^"\\\n])*"?|'[^'\n]*'?)'''
    r"""|(?P<comment>\#[^\n]*)|(?P<bare>[\w-]+)|(?P<other>[^\w"'\#-])""",
    re.DOTALL,
)


@dataclass(frozen=True)
class TextKept:
    """Texts of one form as TOML. `input` is the form's own name for it, `what` what it is called at the head of a sentence, `begin` where to begin
    when there is nothing in it."""

    input: str
    what: str
    begin: str

    def problem(self, message: str) -> Problem:
        """A problem with the text as a whole."""
        return Problem(self.input, message)

    def read(self, text: str) -> dict[str, str]:
        """The texts of the form, by full name; raises a `Problem` where it does not read."""
        text = text.removeprefix("\ufeff")  # some editors begin a file with a byte order mark
        if len(text) > LONGEST_RECORD:
            raise self.problem(f"{self.what} has {len(text)} characters; {LONGEST_RECORD} is the most. {LOAD_SAVED}")
        if not text.strip():
            raise self.problem(f"{self.what} is empty. {self.begin}")
        self._check_depth(text)
        try:
            data = tomllib.loads(text)
        except (tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
            where = re.search(r"line \d+, column \d+", str(error))
            raise self.problem(
                f"{self.what} does not read as TOML{f' at {where[0]}' if where else ''}. Each line is a name, an equals sign and a text in quotes"
            ) from None
        flat: dict[str, str] = {}
        self._flatten(data, "", flat, 0)
        try:
            check_bulk(flat)
        except Problem as problem:
            raise self.problem(problem.message) from None
        return flat

    def write(self, flat: Mapping[str, str], first: Sequence[str]) -> str:
        """The texts as TOML, those named `first` in that order; what the form does not know is kept too."""
        tree: dict[str, Any] = {}
        names = [n for n in (*first, *flat) if n in flat]
        for name in dict.fromkeys(names):
            _plant(tree, name.split("."), flat[name])
        return tomli_w.dumps(_listed(tree), multiline_strings=False)

    def _check_depth(self, text: str) -> None:
        """Raise a `Problem` where a text is nested deeper, or holds more or longer names, than a form can.

        Looked at before the text is parsed: a name of ten thousand parts, 20 kB long, takes a parser gigabytes.
        """
        noun = self.what.split()[-1]
        depth = parts = keys = 0
        for piece in _TOML_PIECE.finditer(text):
            kind, found = piece.lastgroup, piece[0]
            if kind == "other":
                if found == ".":
                    parts += 1
                elif not found.isspace() or found == "\n":
                    parts = 0
                depth = depth + 1 if found in "[{" else max(0, depth - 1) if found in "]}" else depth
                keys += found == "="
            if kind == "bare" and len(found) > LONGEST_KEY:
                raise self.problem(f"{self.what} has a name or a number of {len(found)} characters; {LONGEST_KEY} is the most. {LOAD_SAVED}")
            if depth > DEEPEST_TOML or parts >= DEEPEST_TOML:
                raise self.problem(f"{self.what} is nested more than {DEEPEST_TOML} deep, and no {noun} is. {LOAD_SAVED}")
            if keys > MOST_KEYS:
                raise self.problem(f"{self.what} has over {MOST_KEYS} names; that is more than any {noun} holds. {LOAD_SAVED}")

    def _flatten(self, value: Any, path: str, flat: dict[str, str], depth: int) -> None:
        if depth > 6 or len(flat) > 2000:
            raise self.problem(f"{self.what} holds more than any {self.what.split()[-1]} can. {self.begin}")
        if isinstance(value, dict):
            for name, inner in value.items():
                self._flatten(inner, f"{path}.{name}" if path else str(name), flat, depth + 1)
        elif isinstance(value, list):
            if all(not isinstance(inner, (dict, list)) for inner in value):
                flat[path] = ", ".join(self._text(inner) for inner in value)
            else:
                for at, inner in enumerate(value):
                    self._flatten(inner, f"{path}.{at}", flat, depth + 1)
        else:
            flat[path] = self._text(value)

    def _text(self, value: Any) -> str:
        if isinstance(value, bool):
            return "yes" if value else "no"
        if isinstance(value, dt.datetime):
            return value.strftime("%Y-%m-%d %H:%M")
        if isinstance(value, int) and value.bit_length() > MOST_BITS:
            raise self.problem(f"{self.what} holds a number of more digits than any measurement has. {LOAD_SAVED}")
        return str(value)


def _plant(tree: dict[str, Any], path: Sequence[str], text: str) -> None:
    for step in path[:-1]:
        inner = tree.setdefault(step, {})
        if not isinstance(inner, dict):
            return
        tree = inner
    if not isinstance(tree.get(path[-1]), dict):
        tree[path[-1]] = text


def _listed(tree: dict[str, Any]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for name, value in tree.items():
        if isinstance(value, dict) and value and all(k.isdecimal() and isinstance(v, dict) for k, v in value.items()):
            made[name] = [_listed(value[k]) for k in sorted(value, key=int)]
        else:
            made[name] = _listed(value) if isinstance(value, dict) else value
    return made
