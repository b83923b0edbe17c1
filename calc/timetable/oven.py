"""How many tins go into the oven at one time, and so how many loads a tier takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.sources import constant

SHELF_WIDTH_MM = constant(450.0, "mm", "from-memory", "shelf of a household oven, from side to side", low=380.0, high=600.0)
SHELF_DEPTH_MM = constant(400.0, "mm", "from-memory", "shelf of a household oven, from front to back", low=350.0, high=450.0)
SHELVES = constant(2.0, "-", "common-practice", "shelves in use at one time, with a fan; without one, bake on one", low=1, high=3)
TIN_GAP_MM = constant(20.0, "mm", "common-practice", "air between two tins on a shelf")
COVERS_MOST = constant(0.75, "-", "common-practice", "a tin that covers more of the shelf keeps the heat from the others, and bakes alone")


@dataclass(frozen=True)
class Oven:
    """A shelf of the oven, from side to side and from front to back [mm], and how many shelves are used."""

    width_mm: float = float(SHELF_WIDTH_MM)
    depth_mm: float = float(SHELF_DEPTH_MM)
    shelves: int = int(SHELVES)


def tins_in_oven(width_mm: float, length_mm: float, oven: Oven) -> int:
    """Give how many tins of one size bake at one time.

    Formula: floor((W + gap) / (w + gap)) floor((D + gap) / (l + gap)) on a shelf, either way round, times the shelves; one in
    all for a tin that covers over three quarters of a shelf, none for one that does not go in.

    Parameters
    ----------
    width_mm : float
        Width w of the tin [mm]
    length_mm : float
        Its length l [mm]
    oven : Oven
        Shelf W x D [mm]

    Returns
    -------
    int
        Tins in one load [-]

    Raises
    ------
    ValueError
        A size is not positive.

    Range: tins in rows. Leaves out: the thickness of rims and handles, and how evenly an oven bakes.

    Example
    -------
    >>> [tins_in_oven(w, w, Oven()) for w in (150, 200, 250, 400, 450)]
    [8, 4, 2, 1, 0]

    Source: geometry (rows on a shelf), common-practice (gap, a tin that bakes alone)
    """
    if min(width_mm, length_mm, oven.width_mm, oven.depth_mm) <= 0 or oven.shelves < 1:
        raise ValueError("a tin and a shelf have positive sizes")

    def rows(room_mm: float, tin_mm: float) -> int:
        return math.floor((room_mm + TIN_GAP_MM) / (tin_mm + TIN_GAP_MM) + 1e-9)

    on_shelf = max(
        rows(oven.width_mm, width_mm) * rows(oven.depth_mm, length_mm),
        rows(oven.width_mm, length_mm) * rows(oven.depth_mm, width_mm),
    )
    if on_shelf and width_mm * length_mm > COVERS_MOST * oven.width_mm * oven.depth_mm:
        return 1
    return on_shelf * oven.shelves


def oven_loads(width_mm: float, length_mm: float, layers: int, oven: Oven) -> int:
    """Give how many loads the layers of a tier bake in, one tin for each layer; a tin that does not go in counts as a load of its own.

    >>> [oven_loads(w, w, 3, Oven()) for w in (150, 250, 400)]
    [1, 2, 3]
    """
    return math.ceil(layers / max(1, tins_in_oven(width_mm, length_mm, oven)))
