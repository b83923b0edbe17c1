"""Reads calculator fences: what stands in a page between ```` ```calculator ```` and ```` ``` ````."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

OPTIONS = ("title", "level", "order")
NAME = re.compile(r"[a-z][a-z0-9_]*(\.[a-z0-9_]+)*")
FENCE = re.compile(r"^```calculator[ \t]*\n(.*?)^```[ \t]*$", re.MULTILINE | re.DOTALL)


class Unreadable(ValueError):
    """A fence does not say what it should."""


class Block:
    """What a calculator fence says: the name, the starting values, the options."""

    def __init__(self, text: str) -> None:
        self.slug = ""
        self.values: dict[str, str] = {}
        self.options: dict[str, str] = {}
        for line in text.splitlines():
            line = line.strip()
            if not line or line.startswith("#"):
                continue
            if not self.slug:
                self.slug = line
            elif line.startswith("@"):
                name, _, value = line[1:].partition(" ")
                if name not in OPTIONS:
                    raise Unreadable(f"@{name} is not known; there are {', '.join('@' + known for known in OPTIONS)}")
                self.options[name] = value.strip()
            else:
                name, equals, value = (part.strip() for part in line.partition("="))
                if not equals or not NAME.fullmatch(name):
                    raise Unreadable(f"{line!r} is not a line of the form name = value")
                self.values[name] = value
        if not self.slug:
            raise Unreadable("the first line must name a calculator")

    def inputs(self, page: Path) -> dict[str, str]:
        """What the calculator is asked, with the order read from its file beside the page."""
        asked = dict(self.values)
        if "order" in self.options:
            asked["order"] = (page.parent / self.options["order"]).read_text(encoding="utf-8")
        return asked


def blocks_in(pages: list[Path]) -> Iterator[tuple[Path, Block]]:
    """Every calculator fence in the pages, in order."""
    for page in pages:
        for match in FENCE.finditer(page.read_text(encoding="utf-8")):
            yield page, Block(match[1])
