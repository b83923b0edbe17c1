"""Tiers on tiers: which tins to take, what stands under each tier, what it weighs and who lifts it.

It may import `units`, `sources`, `geometry`, `shapes` and `portions`.

Map
---
`choosing`   guests and tins -> `stacks`, ranked; `largest_stack`; `needed_portions`
`weights`    `Body`, one finished tier; `tier_mass_g`, what it weighs, with a range
`lifting`    `lift_limit_g`, `lift`: what one or two people should lift, by the width of the board
`boards`     `supports`: boards, dowels, weights and the lift, tier by tier; `stands_on`, `seat_mm`; `centre_rod_mm`; `check_weight`
`assembly`   `where_stacked`: at home or at the venue, the one decision; `boxes`; `cautions`

A tier's weight is its sponge (a published density with a range) and its buttercream. Weights are without boards, dowels and
stand: weigh those. Numbers of dowels and widths of boards are common practice and have no source.
"""

from calc.stack.assembly import BOX_ROOM_MM, STACKED_TALLEST_MM, Box, Stacking, boxes, cautions, stacking_words, where_stacked
from calc.stack.boards import (
    DOWEL_INSET_MM,
    DOWEL_STEP_MM,
    DOWELS_FEWEST,
    DRUM_BORDER_MM,
    HEAVIEST_CAKE_G,
    ROD_SHORT_MM,
    Support,
    centre_rod_mm,
    check_weight,
    dowel_count,
    dowel_points,
    seat_mm,
    stands_on,
    supports,
)
from calc.stack.choosing import STACKS_SHOWN, TIERS_MOST, Stack, largest_stack, needed_portions, stacks
from calc.stack.lifting import LIFT_FAR_MM, LIFT_GRIP, LIFT_LOAD_G, LIFT_NEAR_MM, LIFT_REACH_MM, LIFT_TWO, Lift, lift, lift_limit_g
from calc.stack.weights import BUTTERCREAM_SPREAD, SPONGE_G_PER_ML, Body, Mass, tier_mass_g

__all__ = [
    "BOX_ROOM_MM",
    "BUTTERCREAM_SPREAD",
    "DOWELS_FEWEST",
    "DOWEL_INSET_MM",
    "DOWEL_STEP_MM",
    "DRUM_BORDER_MM",
    "HEAVIEST_CAKE_G",
    "LIFT_FAR_MM",
    "LIFT_GRIP",
    "LIFT_LOAD_G",
    "LIFT_NEAR_MM",
    "LIFT_REACH_MM",
    "LIFT_TWO",
    "ROD_SHORT_MM",
    "SPONGE_G_PER_ML",
    "STACKED_TALLEST_MM",
    "STACKS_SHOWN",
    "TIERS_MOST",
    "Body",
    "Box",
    "Lift",
    "Mass",
    "Stack",
    "Stacking",
    "Support",
    "boxes",
    "cautions",
    "centre_rod_mm",
    "check_weight",
    "dowel_count",
    "dowel_points",
    "largest_stack",
    "lift",
    "lift_limit_g",
    "needed_portions",
    "stacking_words",
    "stacks",
    "seat_mm",
    "stands_on",
    "supports",
    "tier_mass_g",
    "where_stacked",
]
