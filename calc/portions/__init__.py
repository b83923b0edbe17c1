"""Cutting plans: how many portions a top gives, and where the knife goes. It may import `units`, `sources`, `geometry` and `shapes`.

Map
---
`plan`           `cut_plan`, `portion_count`, `area_bound`: a top cut by one of `CUTS`, or by the one that gives the most;
                 `levels`, on how many a tall tier is cut
`layout`         `Cut`, a step with the knife; `Layout`, how a cut was counted
`top`            the outline of a sponge as the cuts see it, with all that is kept between them
`grid`, `strips`, `rings`, `wedges`   one module a cut: it counts, and draws what it counted
`trade_sizes`    `SLICES` and `TINS` by the names of the trade

How each cut counts
-------------------
Every piece counted has at least the area of the slice; offcuts are never counted. A piece may be short of that area by one
part in a thousand million, for rounding.

grid      whole slices on a grid centred on the top, either way round, with a line or a row on the middle
strips    parallel strips as wide as the slice is long, each cut across into equal pieces; the rest at the edge is cut too
          where it is at least as deep as the slice is wide; a piece round a notch is connected by half the slice's width
rings     on a round: rings as deep as the slice is long, from the edge inwards, each cut into equal pieces; the core is
          cut, or kept whole, if it is large enough
wedges    all cuts meet in the middle, equal pieces, each at least as wide on average as the slice is wide

Rounded ends of a strip, sectors of a ring and tips of a wedge are not rectangles: they have the area of the slice, and
its length or its width, but not both.
"""

from calc.portions.grid import grid_count, whole_slices_in_row
from calc.portions.layout import Cut, Layout
from calc.portions.plan import CUTS, TALL_MM, CutPlan, area_bound, cut_plan, levels, portion_count
from calc.portions.trade_sizes import SLICES, TINS, Slice, Tin

__all__ = [
    "CUTS",
    "SLICES",
    "TALL_MM",
    "TINS",
    "Cut",
    "CutPlan",
    "Layout",
    "Slice",
    "Tin",
    "area_bound",
    "cut_plan",
    "grid_count",
    "levels",
    "portion_count",
    "whole_slices_in_row",
]
