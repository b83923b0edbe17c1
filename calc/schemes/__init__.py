"""Looks to begin with: schemes of rows that are fitted to the tiers and colours of an order.

It may import `units`, `sources`, `tips`, `rows`, `colours` and `order`, which says what fits.

Map
---
`scheme`    `Part`, a row of a scheme; `Scheme`; `SCHEMES`, all by key; `scheme_of_rows`, the rows of somebody's own tiers as a scheme
`ours`      the handbook's own schemes
`fitting`   `fit`, `Fitted`: a scheme on the tiers of an order, with all that was changed to make it fit
`telling`   `what_changed`: the same in words

The page calls a scheme a look.
"""

import calc.schemes.ours  # noqa: F401  each scheme registers itself
from calc.schemes.fitting import Change, Fitted, FittedTier, fit
from calc.schemes.scheme import SCHEMES, Part, Scheme, scheme_of_rows
from calc.schemes.telling import what_changed

__all__ = ["SCHEMES", "Change", "Fitted", "FittedTier", "Part", "Scheme", "fit", "scheme_of_rows", "what_changed"]
