"""The page calculators, each in a file `<slug>_form.py`; importing this gathers them.

It may import `units`, `sources`, `shapes`, `curves`, `division`, `portions`, `stack`, `coats`, `tips`, `rows`, `buttercream`, `colours`,
`timetable`, `price`, `lesson`, `order`, `schemes` and `drawing`.

Map
---
`CALCULATORS`   all calculators by slug
`compute`       slug and texts -> Answer
`sheet`         slug, texts, sheet name, paper -> PDF
`declare`       how one is declared; `inputs`, `parsing` and `answering` are its parts
`text_kept`     the texts of a form as one text to keep, and back
`order_answer`  the answer of `order`, section by section; it lists the modules of its sections, and of what else they share
`division_words`, `row_amounts`, `tin_measures`, `packs`   what several calculators share: divisions in words, piped amounts, tins, packs
`order_besides`, `order_fit`                what an order takes besides buttercream; how its rows and tiers are fitted
`order_schemes`, `order_tiers`              on request: a look for an order; what its tiers put into another calculator
`order_at_bench`, `order_shop`, `order_quotation`   on request: the work at the bench, the list for the shop, what the customer is told
`order_sheets`, `order_bench`, `order_cards`        the sheets of an order
`lesson_sheets`, `list_sheets`              the sheets of a class; tables on a sheet
`kitchen_answer`                            the answer of `kitchen`

To add a calculator, write `<slug>_form.py` here with a `CALCULATOR` in it and name its slug in `SLUGS`.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from importlib import import_module

from calc.calculators.declare import Answer, Asked, Calculator, check_bulk, parse, run

SLUGS = (
    "portions",
    "stack",
    "supports",
    "division",
    "swags",
    "coats",
    "batch",
    "timetable",
    "price",
    "strings",
    "shells",
    "rosettes",
    "tips",
    "colours",
    "tint",
    "lesson",
    "practice",
    "row",
    "vermicelli",
    "order",
    "kitchen",
)

CALCULATORS: dict[str, Calculator] = {}
for _slug in SLUGS:
    _calculator: Calculator = import_module(f"calc.calculators.{_slug}_form").CALCULATOR
    CALCULATORS[_calculator.slug] = _calculator


def compute(slug: str, inputs: Mapping[str, str]) -> Answer:
    """Work out one calculator from what was typed; see `calc.compute`."""
    return run(CALCULATORS[slug], inputs)


def sheet(slug: str, inputs: Mapping[str, str], name: str, paper: str) -> bytes:
    """Draw one printed sheet of a calculator; see `calc.sheet`."""
    calculator = CALCULATORS[slug]
    if calculator.draw_sheet is None:
        raise KeyError(f"{slug} has no sheets")
    return calculator.draw_sheet(_asked(slug, tuple(inputs.items())), name, paper)


@lru_cache(maxsize=2)
def _asked(slug: str, typed: tuple[tuple[str, str], ...]) -> Asked:
    """What was typed, read; kept, because sheet after sheet is drawn of the same."""
    calculator = CALCULATORS[slug]
    check_bulk(dict(typed))
    texts = calculator.unfold(dict(typed), Answer(slug)) if calculator.unfold else dict(typed)
    return parse(calculator, texts)
