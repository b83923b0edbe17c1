"""What a person typed, read into floats; floats written for a person. It imports no other room; pint is here and nowhere else.

Map
---
`problems`   `Problem`, `Problems`: a person's mistake, tied to the input it was made in
`kitchen`    the units of a kitchen, their spellings and factors, by pint
`reading`    `read_number`, `read_quantity`, `read_pair`, `read_count`, `read_money`, `read_choice`, `read_moment`, `read_text`;
             `excerpt` of what could not be read
`money`      amounts of money to the hundredth
`examples`   the examples and defaults of forms in round US figures
`writing`    `Formatter` writes lengths, masses, volumes and times in the reader's units; words with an article, a capital, or as a list
`same`       a key for what is kept of something large: this very object, without comparing what is in it

Reading is forgiving: thousands of people type the same measurement in different ways. What cannot be read is reported
with the label, the limit and the way out; nothing is guessed silently.
"""

from calc.units.examples import in_us_figures, us_examples, us_hint, us_hours
from calc.units.kitchen import BASE, DEFINITIONS, EXAMPLES, NOUNS, SHORT, UNIT_OF, factor, registry
from calc.units.money import hundredths
from calc.units.problems import Problem, Problems
from calc.units.reading import (
    LONGEST_RECORD,
    LONGEST_TEXT,
    SHAPE_WORDS,
    excerpt,
    read_choice,
    read_count,
    read_measure,
    read_moment,
    read_money,
    read_number,
    read_pair,
    read_quantity,
    read_text,
    shape_in,
)
from calc.units.same import Same
from calc.units.writing import CLOSE, DAYS, Formatter, SharedOut, a_or_an, capitalised, file_name_part, letter_of, listed

__all__ = [
    "BASE",
    "CLOSE",
    "DAYS",
    "DEFINITIONS",
    "EXAMPLES",
    "LONGEST_RECORD",
    "LONGEST_TEXT",
    "NOUNS",
    "SHAPE_WORDS",
    "SHORT",
    "UNIT_OF",
    "Formatter",
    "Problem",
    "Problems",
    "Same",
    "SharedOut",
    "a_or_an",
    "capitalised",
    "excerpt",
    "factor",
    "file_name_part",
    "hundredths",
    "in_us_figures",
    "letter_of",
    "listed",
    "read_choice",
    "read_count",
    "read_measure",
    "read_moment",
    "read_money",
    "read_number",
    "read_pair",
    "read_quantity",
    "read_text",
    "registry",
    "shape_in",
    "us_examples",
    "us_hint",
    "us_hours",
]
