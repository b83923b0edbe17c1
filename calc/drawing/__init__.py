"""Drawings to scale: one scene in millimetres and two pens, for the screen and for paper.

It may import `units`, `sources`, `geometry`, `shapes`, `curves`, `division`, `portions`, `stack`, `coats`, `tips`, `rows` and `timetable`.

Map
---
`scene`             what a drawing is made of
`svg`               the pen for the screen
`pdf`               the pen for paper
`faces`             the typefaces on paper, from `faces_data` and `faces_outlines`
`marks`             dimensions, arrows, crosses, bars
`free_space`        where words fit without lying on a line
`shading`           tones, ridges, strands and ribbons of buttercream
`bag`               a bag with its tip and the hand that holds it
`motifs`            a shell, a pleat, a rosette, a leaf ..., each drawn once and laid many times
`tiers`             a tier to be drawn, and a row of piping laid round it
`views`             a whole cake from the side and from above
`tilted`            a whole cake seen from a little above
`unroll`            the side of a tier laid flat
`wander`            the line of vermicelli
`tip_openings`      the opening of a tip at 1:1
`hands`             how a row is piped: the tip, its angle, the path of the hand
`figures`           the small drawings of the technique pages
`start_plan`        where a row starts and which way the hand goes
`coat_section`      a tier cut through its middle
`supports_plan`     tiers from above with their dowels
`timetable_chart`   a bar for each task, days side by side
`paper`             what goes on the bench next to the cake: strips, templates, practice and bench sheets
"""

from __future__ import annotations
