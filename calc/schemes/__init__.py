"""Looks to begin with: schemes of rows that are fitted to the tiers and colours of an order.

Map
---
`Part`, `Scheme`, `SCHEMES`   a row of a scheme, a scheme, and the handbook's own ones by key (declared in `calc.schemes.ours`)
`scheme_of_rows`              the rows of somebody's own tiers as a scheme
`fit`, `Fitted`               a scheme on the tiers of an order, with all that was changed to make it fit
`what_changed`                the same in words

The page calls a scheme a look. This room may import what stands above it: tips, rows, shapes, colours, units, and `calc.order`, which says what fits.
"""

import calc.schemes.ours  # noqa: F401  each scheme registers itself
from calc.schemes.fitting import Change, Fitted, FittedTier, fit
from calc.schemes.scheme import SCHEMES, Part, Scheme, scheme_of_rows
from calc.schemes.telling import what_changed

__all__ = ["SCHEMES", "Change", "Fitted", "FittedTier", "Part", "Scheme", "fit", "scheme_of_rows", "what_changed"]
