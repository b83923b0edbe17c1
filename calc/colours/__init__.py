"""How much of each colour, how it is mixed and told apart, and which bags it goes into. It may import `units`, `sources` and `tips`.

Map
---
`palette`          `PALETTE`, `hex_of`, `read_colour`: vintage tones under our own names
`colour_amounts`   `amounts_by_colour`: buttercream of each colour, with losses and a margin; `CAUTIONS`
`mixing`           `mixing_order`: lightest first, bases shared; `tint`: drops scaled from a small test
`bags`             `bag_plan`: bags, couplers, washes
`colour_space`     `lab`, `ciede2000`, `luminance`, `contrast`: colour by the published formulas
`sight`            `seen_as`, `difference`: colour-blind sight, and whether two colours can be told apart
"""

from calc.colours.bags import Bag, BagPlan, bag_plan
from calc.colours.colour_amounts import BAG_LOSS_G, BOWL_LOSS_SHARE, CAUTIONS, MARGIN_SHARE, SHARED, Amount, amounts_by_colour
from calc.colours.colour_space import ciede2000, contrast, lab, linear_rgb, luminance
from calc.colours.mixing import DARK_BELOW, DEEPENING, DEPTHS, MixStep, Tint, mixing_order, tint
from calc.colours.palette import PALETTE, hex_of, read_colour
from calc.colours.sight import CLEAR_FROM, CLOSE_FROM, SIGHT, SIGHT_WORDS, Difference, difference, seen_as

__all__ = [
    "BAG_LOSS_G",
    "BOWL_LOSS_SHARE",
    "CAUTIONS",
    "CLEAR_FROM",
    "CLOSE_FROM",
    "DARK_BELOW",
    "DEEPENING",
    "DEPTHS",
    "MARGIN_SHARE",
    "PALETTE",
    "SHARED",
    "SIGHT",
    "SIGHT_WORDS",
    "Amount",
    "Bag",
    "BagPlan",
    "Difference",
    "MixStep",
    "Tint",
    "amounts_by_colour",
    "bag_plan",
    "ciede2000",
    "contrast",
    "difference",
    "hex_of",
    "lab",
    "linear_rgb",
    "luminance",
    "mixing_order",
    "read_colour",
    "seen_as",
    "tint",
]
