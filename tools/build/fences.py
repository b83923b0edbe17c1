"""Reads the fences of the pages: what stands between ```` ```calculator ````, ```` ```drawing ```` or ```` ```table ```` and ```` ``` ````."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from pathlib import Path

CALCULATOR_OPTIONS = ("title", "level", "order", "only", "alone")
NAME = re.compile(r"[a-z][a-z0-9_]*(\.[a-z0-9_]+)*")
CALCULATOR = re.compile(r"^```calculator[ \t]*\n(.*?)^```[ \t]*$", re.MULTILINE | re.DOTALL)


class Unreadable(ValueError):
    """A fence is not written as it should be."""


class Fence:
    """The content of one fence: a name on the first line, then `name = value` lines and `@option` lines; lines that start with # are remarks."""

    def __init__(self, text: str, options: Collection[str]) -> None:
        self.name = ""
        self.values: dict[str, str] = {}
        self.options: dict[str, str] = {}
        for line in text.splitlines():
            line = line.strip()
            if not line or line.startswith("#"):
                continue
            if not self.name:
                self.name = line
            elif line.startswith("@"):
                name, _, value = line[1:].partition(" ")
                if name not in options:
                    raise Unreadable(f"@{name} is not known; there are {', '.join('@' + known for known in options)}")
                self.options[name] = value.strip()
            else:
                name, equals, value = (part.strip() for part in line.partition("="))
                if not equals or not NAME.fullmatch(name):
                    raise Unreadable(f"{line!r} is not a line of the form name = value")
                self.values[name] = value
        if not self.name:
            raise Unreadable("the first line must be the name of what is wanted")

    def inputs(self, page: Path) -> dict[str, str]:
        """The inputs of a calculator; an order is read from its file beside the page."""
        asked = dict(self.values)
        if "order" in self.options:
            asked["order"] = (page.parent / self.options["order"]).read_text(encoding="utf-8")
        return asked


def calculators_in(pages: list[Path]) -> Iterator[tuple[Path, Fence]]:
    """Every calculator fence in the pages, in order."""
    for page in pages:
        for match in CALCULATOR.finditer(page.read_text(encoding="utf-8")):
            yield page, Fence(match[1], CALCULATOR_OPTIONS)
