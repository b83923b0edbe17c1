"""Tips: a family and a measured opening, and what they lay down.

Map
---
`FAMILIES`    the families by the trade's names
`Tip`         a family and its opening, with the number of points for stars and the thin side for slots
`read_tip`    "petal 11 mm" -> Tip
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from calc import units
from calc.units import Problem

FAMILIES = ("round", "open star", "closed star", "petal", "leaf", "ruffle", "basket")


@dataclass(frozen=True)
class Tip:
    """A tip by its family and measured opening."""

    family: str
    opening_mm: float

    @property
    def name(self) -> str:
        """Family and opening as one text, such as "petal 11 mm"."""
        return f"{self.family} {units.Say().opening(self.opening_mm)}"


def read_tip(text: str, input_name: str, label: str) -> Tip:
    """Read a tip as its family and opening.

    Formula: none.

    Parameters
    ----------
    text : str
        What was typed, such as "petal 11 mm" or "7 mm open star" [-]
    input_name : str
        The input it was typed in [-]
    label : str
        What the reader calls it [-]

    Returns
    -------
    Tip
        The tip [-]

    Raises
    ------
    Problem
        There is no such family, or no opening.

    Range: openings of 0.5 to 60 mm. Leaves out: makers' numbers; measure the opening.

    Example
    -------
    >>> read_tip("7 mm open star", "tip", "Tip")
    Tip(family='open star', opening_mm=7.0)

    Source: common-practice
    """
    words = units.read_text(text, input_name, label).lower()
    way = "Write a family and a measured opening, like petal 11 mm or open star 7 mm"
    family = next((f for f in sorted(FAMILIES, key=len, reverse=True) if f in words), None)
    if family is None:
        raise Problem(input_name, f"{label} names none of the families {', '.join(FAMILIES)}. {way}")
    rest = re.sub(r"\b(wide|opening|tip)\b", " ", words.replace(family, " ")).strip()
    if not rest:
        raise Problem(input_name, f"{label} has no opening. {way}")
    opening = units.read_quantity(rest, "length", input_name, label, "millimeter")
    if not 0.5 <= opening <= 60:
        raise Problem(input_name, f"{label} must have an opening between 0.5 mm and 60 mm. {way}")
    return Tip(family, opening)
