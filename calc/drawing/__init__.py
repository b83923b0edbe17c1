"""Drawings to scale: one scene in millimetres and two pens, for the screen and for paper.

Map
---
scene     what a drawing is made of
svg       the pen for the screen
motifs    a shell, a flute of a ruffle, a rosette, a leaf ..., each drawn once and laid many times
rows      a row of piping laid round a tier
views     a whole cake from the side and from above, a side unrolled, and the small drawings of the technique pages
"""

from __future__ import annotations
