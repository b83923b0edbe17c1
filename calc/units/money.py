"""Amounts of money to the hundredth."""

from __future__ import annotations

import math


def hundredths(amount: float) -> float:
    """Round an amount of money to the hundredth as it is done by hand, halves away from zero.

    >>> hundredths(3.625), hundredths(1.005), hundredths(-0.125)
    (3.63, 1.01, -0.13)
    """
    return math.copysign(math.floor(round(abs(amount) * 100, 6) + 0.5) / 100, amount) if math.isfinite(amount) else amount
