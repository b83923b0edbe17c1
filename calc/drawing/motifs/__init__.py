"""How each kind of row looks, one file a kind, each registered by itself.

It may import `scene`, `marks`, `shading` and `bag` of `calc.drawing`, and `curves`, `tips` and `rows`.

Map
---
`look`      what every kind declares: `Look`, and `Piece`, one piece of piping drawn once and laid many times
`laid`      a row laid round the unrolled side
`motif`     one piece of piping in its colour

A new kind is a new file here and one in `calc.rows.kinds`.
"""

from __future__ import annotations

import importlib
import pkgutil
from functools import lru_cache

from calc.drawing.motifs.look import LOOKS, PIECES, Look, Piece
from calc.drawing.scene import Motif
from calc.drawing.shading import LIGHT, SHADOW_COLOUR, ribbon, split_colours, strand_paths, stroke, tone

for _module in pkgutil.iter_modules(__path__):
    importlib.import_module(f"{__name__}.{_module.name}")


@lru_cache(maxsize=512)
def motif(piece: str, colour: str, turned: int = 0) -> Motif:
    """Give one piece of piping in its colour, in units of a hundredth of its size; `turned` is how far the cake has turned from the light, 0 to 2."""
    return Motif(f"{piece} {colour} {turned}", tuple(split_colours(list(PIECES[piece].draw(tone(colour, -0.17 * turned))), colour)))


__all__ = ["LIGHT", "LOOKS", "PIECES", "SHADOW_COLOUR", "Look", "Piece", "motif", "ribbon", "split_colours", "strand_paths", "stroke", "tone"]
