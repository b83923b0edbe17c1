"""Piping Bench's calculations: everything that is true about buttercream cakes, in plain Python.

Map
---
Rooms, each importing only from those above it:

`units`        what a person typed, read; what the bench says, written (pint lives here only)
`sources`      the published sources and the constants that rest on them
`shapes`       tier outlines seen from above
`curves`       swag arcs, hanging strings, to-and-fro lines, scrolls
`division`     equal repeats round a side: pitch, dividers, cutters, guide tape
`portions`     cutting plans and counts
`stack`        tiers, boards, supports, weights
`coats`        filling, crumb coat, final coat
`tips`         tips and what they lay down
`rows`         a row of piping: geometry, volume, time
`buttercream`  recipes, density, batches
`colours`      amounts by colour, tints, bags, couplers
`timetable`    backwards from the hour
`price`        shopping list and price
`lesson`       a class
`order`        Order -> Plan
`drawing`      one scene in millimetres, two pens
`calculators`  one file a calculator: its inputs, its answer

Inside, lengths are in mm, masses in g, volumes in ml, times in min; each name carries its unit.

>>> from calc import compute
>>> compute("division", {"side": "50 cm", "repeats": "5"}).figures["pitch"]["text"]
'10 cm'
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from calc.calculators.declare import Answer

__all__ = ["compute", "sheet"]


def compute(slug: str, inputs: Mapping[str, str]) -> Answer:
    """Work out one calculator from what was typed.

    Formula: none of its own; each calculator names the rooms it calls.

    Parameters
    ----------
    slug : str
        The calculator's name, such as "swags" [-]
    inputs : mapping of str to str
        What was typed, by input name; those left out take their defaults [-]

    Returns
    -------
    Answer
        Figures, or problems tied to inputs [-]

    Raises
    ------
    KeyError
        There is no calculator of that name.

    Range: any text in any input. Leaves out: nothing is read from files or the network.

    Example
    -------
    >>> compute("division", {"side": "abc"}).problems[0]["input"]
    'side'

    Source: geometry
    """
    from calc.calculators import compute as work_out

    return work_out(slug, inputs)


def sheet(slug: str, inputs: Mapping[str, str], name: str, paper: str = "A4") -> bytes:
    """Make one printed sheet of a calculator as PDF, or a file to keep that its answer offers.

    Formula: none of its own; the sheet is drawn by `calc.drawing`.

    Parameters
    ----------
    slug : str
        The calculator's name [-]
    inputs : mapping of str to str
        What was typed, by input name [-]
    name : str
        The sheet's name, one of those in the answer's `sheets` or `files` [-]
    paper : str
        "A4" or "Letter" [-]

    Returns
    -------
    bytes
        The PDF, or the file [-]

    Raises
    ------
    KeyError
        There is no calculator or no sheet of that name.
    calc.units.Problem
        What was typed gives no answer, so there is nothing to draw.

    Range: the sheets and files an answer lists. Leaves out: printing.

    Example
    -------
    >>> from calc.calculators import CALCULATORS
    >>> "division" in CALCULATORS
    True

    Source: iso-32000
    """
    from calc.calculators import sheet as draw

    return draw(slug, inputs, name, paper)
