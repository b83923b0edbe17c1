"""Drawings to scale: one scene in millimetres and two pens, for the screen and for paper.

Map
---
scene     what a drawing is made of
svg       the pen for the screen
motifs    a shell, a pleat, a rosette, a leaf ..., each drawn once and laid many times
rows      a row of piping laid round a tier
views     a whole cake from the side and from above
marks     dimensions, arrows, crosses, bars
unroll    the side of a tier laid flat
figures   the small drawings of the technique pages
hands     how a row is piped: the tip, its angle, the path of the hand
coat_section      a tier cut through its middle
timetable_chart   a bar for each task, days side by side
supports_plan     tiers from above with their dowels
faces     the typefaces on paper
pdf       the pen for paper
paper     what goes on the bench next to the cake: strips, templates, practice and bench sheets
"""

from __future__ import annotations
