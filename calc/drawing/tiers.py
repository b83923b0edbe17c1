"""A tier to be drawn, and a row of piping laid round it, ready for any view.

Map
---
`TierDrawn`   what is drawn of a tier: its own record, so that drawings need no order; its rows are `PlacedRow`s
`lay`         the pieces, strands and ribbons of a row, as its look in `calc.drawing.motifs` lays them
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from calc.drawing.motifs import LOOKS
from calc.drawing.motifs.laid import RowLaid
from calc.rows import KINDS
from calc.rows.placement import PLACES, PlacedRow
from calc.shapes import Outline


@dataclass(frozen=True)
class TierDrawn:
    """One tier to be drawn: its finished outline, the height of its foot above the cake board, its own height, coat and rows.

    `bands` are parts of the coat in another colour, (from, to, colour), heights above its own foot [mm]. Its middle stands `back_mm` behind that
    of the lowest tier. `part` is the part of the form that asks for it.
    """

    outline: Outline
    base_mm: float
    height_mm: float
    coat_colour: str = "#f4e6cb"
    rows: tuple[PlacedRow, ...] = ()
    name: str = ""
    bands: tuple[tuple[float, float, str], ...] = ()
    back_mm: float = 0.0
    part: str = ""


@lru_cache(maxsize=128)
def lay(row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
    """Lay a row round a side.

    Formula: swags along the arc between joints, strings in the catenary, the rest evenly at P/count.

    Parameters
    ----------
    row : PlacedRow
        The row [-]
    perimeter_mm : float
        Length round the tier P [mm]
    height_mm : float
        Height of the tier [mm]

    Returns
    -------
    RowLaid
        Shadows, strands, pieces in the order they are piped, and ribbons [mm]

    Raises
    ------
    ValueError
        The kind of row or its place is not known.

    Range: rows with at most a few thousand pieces. Leaves out: sagging, and the hand that pipes.

    Example
    -------
    >>> from calc.tips import Tip
    >>> len(lay(PlacedRow("shell", Tip("open star", 7.0), "#b9592f", "base", count=80), 660, 100).pieces)
    80

    Source: common-practice
    """
    if row.place not in PLACES:
        raise ValueError(f"a row is drawn at one of {', '.join(PLACES)}, not {row.place!r}")
    look = LOOKS.get(row.kind)
    if look is None:
        raise ValueError(f"a row is one of {', '.join(KINDS)}, not {row.kind!r}")
    return look.lay(row, perimeter_mm, height_mm)
