"""Writes the drawings of written pages shortly: they are made once, and nobody works on them part by part as on those of an answer.

Map
---
`shorter`   a path from point to point, in as few characters as it takes
`compact`   a whole drawing so
"""

from __future__ import annotations

import re

PATH = re.compile(r' d="([^"]*)"')
MOVE = re.compile(r"([MLCSZ])([^MLCSZ]*)")
NUMBER = re.compile(r"-?\d*\.?\d+")
FINE_MM = 60.0  # a drawing narrower than this is shown large, and a tenth of a millimetre would be seen in it


def _written(value: int, places: int) -> str:
    """A whole number of tenths, or hundredths, as SVG takes it: without a zero before the point or after the last figure."""
    text = f"{value / 10**places:.{places}f}".rstrip("0").rstrip(".") if value else "0"
    return text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) else text


def shorter(path: str, places: int = 1) -> str:
    """The same path from point to point, to a tenth of a millimetre: at most a third of a pixel where it is shown.

    >>> shorter("M10 20L12.04 20.5S13 21.5 14 21Z")
    'm10 20l2 .5s1 1 2 .5z'
    >>> shorter("M10 20L12.04 20.5Z", places=2)
    'm10 20l2.04.5z'
    """
    made, before, last = [], "", ""
    at = begun = (0, 0)
    for letter, said in MOVE.findall(path):
        if letter == "Z":
            made.append("z")
            before, at = "z", begun
            continue
        ends = [round(float(number) * 10**places) for number in NUMBER.findall(said)]
        numbers = [_written(end - at[k % 2], places) for k, end in enumerate(ends)]
        at = (ends[-2], ends[-1])
        if letter == "M":
            begun = at
        fresh = before != letter.lower() or letter == "M"
        if fresh:
            made.append(letter.lower())
        for number in numbers:
            joined = fresh or number[0] == "-" or (number[0] == "." and "." in last)
            made.append(number if joined else f" {number}")
            last, fresh = number, False
        before = letter.lower()
    return "".join(made)


def compact(drawing: str, width_mm: float) -> str:
    """A drawing `width_mm` wide with its paths shortened, and all on one line; one that is compact already stays as it is.

    >>> compact('<path d="M10 20L12 20.5Z"/>', 100.0), compact('<path d="m10 20l2 .5z"/>', 100.0)
    ('<path d="m10 20l2 .5z"/>', '<path d="m10 20l2 .5z"/>')
    """
    places = 1 if width_mm >= FINE_MM else 2
    text = PATH.sub(lambda path: path[0] if path[1].startswith("m") else f' d="{shorter(path[1], places)}"', drawing)
    return text.replace("\n", "").replace("</defs><defs>", "")
