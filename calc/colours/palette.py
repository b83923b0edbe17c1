"""Our own vintage tones by name, and colours read from text. It may import `units`.

Map
---
`PALETTE`, `hex_of`   names of tones -> sRGB
`read_colour`         a name or #rrggbb as typed
`lightness`           L* of a colour by name, to sort by
"""

from __future__ import annotations

import re
from functools import lru_cache

from calc import units
from calc.colours.colour_space import lab
from calc.units import Problem

PALETTE: dict[str, str] = {
    "plain": "#f4e9cf",
    "ivory": "#f6efdc",
    "chalk": "#f7f5ef",
    "buttermilk": "#faf0c8",
    "cream": "#f0dfae",
    "parchment": "#e3d2ac",
    "shell pink": "#f4d9cc",
    "blush": "#edc4ba",
    "rosewater": "#e6a9a9",
    "dusky rose": "#c98e8b",
    "old rose": "#b2646a",
    "claret": "#7f2237",
    "mulberry": "#74304f",
    "damson": "#432a49",
    "lilac": "#cab6d8",
    "heather": "#987da6",
    "peach": "#f5c9a4",
    "apricot": "#edaf78",
    "marmalade": "#d37c2a",
    "terracotta": "#c0663f",
    "russet": "#a04b2c",
    "brick": "#8a3a2b",
    "straw": "#ead084",
    "honey": "#dba43c",
    "mustard": "#b98f2a",
    "pear": "#cbd18c",
    "sage": "#a8b699",
    "moss": "#7d8550",
    "bay": "#566b42",
    "fir": "#2f4a3c",
    "duck egg": "#bfd9d0",
    "verdigris": "#6fa596",
    "forget-me-not": "#9fb9d5",
    "slate blue": "#66798f",
    "ink": "#2c3854",
    "mushroom": "#b7a594",
    "smoke": "#98969a",
    "cocoa": "#5b3f32",
}


@lru_cache(maxsize=256)
def hex_of(colour: str) -> str | None:
    """Give the sRGB value of a colour by name, or of #rgb or #rrggbb as written; None for a name that is not in `PALETTE`.

    >>> hex_of("Russet"), hex_of("#ABC"), hex_of("granny's green")
    ('#a04b2c', '#aabbcc', None)
    """
    word = " ".join(colour.lower().split())
    if word in PALETTE:
        return PALETTE[word]
    if re.fullmatch(r"#[0-9a-f]{6}", word):
        return word
    if re.fullmatch(r"#[0-9a-f]{3}", word):
        return "#" + "".join(2 * digit for digit in word[1:])
    return None


def read_colour(text: str, input_name: str, label: str) -> str:
    """Read the name of a colour: any name of up to 40 characters, or a # followed by three or six hexadecimal digits.

    >>> read_colour("  Dusky  rose", "colour", "Colour")
    'dusky rose'
    """
    word = " ".join(units.read_text(text, input_name, label).lower().split())
    how = "Write a name like russet, or a value like #a04b2c"
    if not word:
        raise Problem(input_name, f"{label} is empty. {how}")
    if len(word) > 40:
        raise Problem(input_name, f"{label} has {len(word)} characters; 40 is the most. {how}")
    if word.startswith("#") and hex_of(word) is None:
        raise Problem(input_name, f"{label} begins with # and does not read as a colour. {how}")
    return word


def lightness(colour: str) -> float:
    """Give L* of a colour by name; -1 for names without a known value, so that they sort last."""
    value = hex_of(colour)
    return lab(value)[0] if value else -1.0
