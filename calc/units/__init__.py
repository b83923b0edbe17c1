"""What a person typed, read into floats; floats written for a person. It imports no other room; pint is here and nowhere else.

Map
---
`problems`   `Problem`, `Problems`: a person's mistake, tied to the input it was made in
`kitchen`    the units of a kitchen, their spellings and factors, by pint
`reading`    `read_number`, `read_quantity`, `read_pair`, `read_count`, `read_choice`, `read_moment`, `read_text`
`writing`    `Say` writes lengths, masses, volumes and times in the reader's units; `a_or_an` puts an article before words

Reading is forgiving: thousands of people type the same measurement in different ways. What cannot be read is reported
with the label, the limit and the way out; nothing is guessed silently.
"""

from calc.units.kitchen import BASE, DEFINITIONS, EXAMPLES, NOUNS, factor, registry
from calc.units.problems import Problem, Problems
from calc.units.reading import (
    LONGEST_RECORD,
    LONGEST_TEXT,
    read_choice,
    read_count,
    read_moment,
    read_number,
    read_pair,
    read_quantity,
    read_text,
)
from calc.units.writing import Say, a_or_an, hundredths

__all__ = [
    "BASE",
    "DEFINITIONS",
    "EXAMPLES",
    "LONGEST_RECORD",
    "LONGEST_TEXT",
    "NOUNS",
    "Problem",
    "Problems",
    "Say",
    "a_or_an",
    "hundredths",
    "factor",
    "read_choice",
    "read_count",
    "read_moment",
    "read_number",
    "read_pair",
    "read_quantity",
    "read_text",
    "registry",
]
