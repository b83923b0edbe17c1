"""Piping Bench's calculations: everything that is true about buttercream cakes, in plain Python.

Map
---
Rooms, each importing only from those above it:

`units`        what a person typed, read; what the bench says, written (pint lives here only)
`sources`      the published sources and the constants that rest on them
`geometry`     plane geometry without cakes: segments, profiles, polygons, clipping
`shapes`       tier outlines seen from above
`curves`       swag arcs, hanging strings, to-and-fro lines, scrolls
`division`     equal repeats round a side: pitch, dividers, cutters, guide tape
`portions`     cutting plans and counts
`stack`        tiers, boards, supports, weights
`coats`        filling, crumb coat, final coat
`tips`         tips and what they lay down
`rows`         a row of piping: one file a kind; what it comes to, where it lies
`buttercream`  recipes, density, batches
`colours`      amounts by colour, tints, bags, couplers
`timetable`    backwards from the hour
`price`        shopping list and price
`lesson`       a class
`order`        Order -> Plan
`schemes`      looks to begin with: schemes of rows, fitted to any tiers
`drawing`      one scene in millimetres, two pens
`calculators`  one file a calculator: its inputs, its answer
`page`         an answer as HTML, for the build and the worker

Inside, lengths are in mm, masses in g, volumes in ml, times in min; each name carries its unit.

>>> from calc import compute
>>> compute("division", {"side": "66 cm", "repeats": "10"}).figures["pitch"]["text"]
'6.6 cm'
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from calc.calculators.declare import Answer

__all__ = ["compute", "sheet"]


def compute(slug: str, inputs: Mapping[str, str]) -> Answer:
    """Work out one calculator from what was typed.

    Inputs are texts by input name, as typed; those left out take their defaults. A slug that no calculator has raises KeyError;
    whatever else a person typed wrong comes back as problems tied to inputs.

    >>> compute("division", {"side": "abc"}).problems[0]["input"]
    'side'
    """
    from calc.calculators import compute as work_out

    return work_out(slug, inputs)


def sheet(slug: str, inputs: Mapping[str, str], name: str, paper: str = "A4") -> bytes:
    """Make one printed sheet of a calculator as PDF, or a file to keep that its answer offers.

    The name is one of those in the answer's `sheets` or `files`, and the paper "A4" or "Letter". An unknown slug or name raises
    KeyError, and inputs that give no answer raise `calc.units.Problem`.
    """
    from calc.calculators import sheet as draw

    return draw(slug, inputs, name, paper)
