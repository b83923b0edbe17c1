"""`swags`: swags that close round the measured side, marked with a round cutter or from a drop."""

from __future__ import annotations

from calc.calculators.declare import Answer, Asked, Calculator
from calc.calculators.division import SIDE, WIDTH

CALCULATOR = Calculator("swags", "Swags", "to come", (SIDE, WIDTH), lambda asked, answer: None)
