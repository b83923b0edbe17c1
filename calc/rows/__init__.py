"""A row of piping: what a kind of row is, what a row comes to, and where it lies.

It may import `units`, `sources`, `shapes`, `curves`, `division` and `tips`.

Map
---
`kind`        what every kind declares; `RowSpec`, what is asked of a row
`forms`       the five forms that kinds share
`kinds`       one file a kind
`amounts`     length, volume, mass and time of any row: `RowAmount`
`placement`   where rows lie, what runs into what, in which order they are piped: `PlacedRow`
`effects`     how large a tip pipes what it makes, and which tip makes a wanted size

Whatever is true of one kind alone stands in its own file: a shell's width is decided in `calc/rows/kinds/shell.py`.
"""

from __future__ import annotations

import calc.rows.kinds  # noqa: F401  each kind registers itself
from calc.rows.amounts import (
    QUICK,
    SLOW,
    WANDER_TURNS,
    RowAmount,
    grams_per_metre,
    kind_called,
    layer_drops_mm,
    natural_pitch_mm,
    pipe,
    piped,
    wander_length_mm,
    wandering,
)
from calc.rows.kind import DENSITY_G_PER_ML, KINDS, MOST_PIECES, OVER_PIPE_SINK, Exercise, Kind, RowSpec, Stroke
from calc.rows.kinds.rosette import rosette_path_mm

__all__ = [
    "DENSITY_G_PER_ML",
    "KINDS",
    "MOST_PIECES",
    "OVER_PIPE_SINK",
    "QUICK",
    "SLOW",
    "WANDER_TURNS",
    "Exercise",
    "Kind",
    "RowAmount",
    "RowSpec",
    "Stroke",
    "grams_per_metre",
    "kind_called",
    "layer_drops_mm",
    "natural_pitch_mm",
    "pipe",
    "piped",
    "rosette_path_mm",
    "wander_length_mm",
    "wandering",
]
