"""What a class can practise, by any of its names.

Map
---
`EXERCISES`        every exercise by its key, the easiest first
`read_exercises`   what a teacher typed, as exercises
`nearest`          the exercise whose name looks most like a word
`kind_of`, `page_of`   the kind of row of an exercise, and its page among the techniques
`sheet_of`         one practice sheet: all its lines, piped once

The names are those of the kinds of row: their own, in one and in many, what else they are called, and the words of each exercise.
`tests/calc/test_lesson_names.py` holds that every name in the front matter of a technique's page is among them.
"""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache

from calc import units
from calc.rows import KINDS, Exercise, Kind, RowAmount, RowSpec, pipe, wandering
from calc.sources import Constant, constant
from calc.units import Problem

SHEET_MM = constant(168, "mm", "iso-216", "length of a practice line: fits A4 (210 mm) and Letter (216 mm) inside the frame", group="derived")

_EXERCISES = [exercise for kind in KINDS.values() for exercise in ((kind.exercise,) if kind.exercise is not None else ()) + kind.variants]
EXERCISES: dict[str, Exercise] = {exercise.key: exercise for exercise in sorted(_EXERCISES, key=lambda exercise: exercise.rank)}
USUAL = tuple(exercise.key for exercise in sorted(_EXERCISES, key=lambda exercise: exercise.usual))


def kind_of(exercise: Exercise) -> Kind:
    """The kind of row that an exercise practises."""
    return KINDS[exercise.kind]


def page_of(exercise: Exercise) -> str:
    """The page of an exercise among the techniques."""
    return exercise.page or kind_of(exercise).page


def read_exercises(text: str, input_name: str, label: str) -> tuple[Exercise, ...]:
    """Read exercises by any of their names, "roses, swags and ruched border", or as a count of the usual ones.

    >>> [exercise.key for exercise in read_exercises("Roses, swags and a ruched border", "exercises", "Exercises")]
    ['small_roses', 'swags', 'ruched_borders']
    >>> [exercise.key for exercise in read_exercises("2", "exercises", "Exercises")]
    ['shells', 'swags']
    """
    tidy = units.read_text(text, input_name, label).lower()
    way = f"Write names, like shells, swags, strings, or a count up to {len(EXERCISES)}"
    if not tidy:
        raise Problem(input_name, f"{label} is empty. {way}")
    if re.fullmatch(r"\d+", tidy):
        count = int(tidy) if len(tidy) < 4 else 0
        if not 1 <= count <= len(EXERCISES):
            raise Problem(input_name, f"{label} must be between 1 and {len(EXERCISES)}. {way}")
        return tuple(EXERCISES[key] for key in USUAL[:count])
    known = _spellings()
    found: dict[str, Exercise] = {}
    for part in _parts(tidy):
        key = known.get(_plain(part))
        if key is None:
            like = nearest(part)
            raise Problem(input_name, f"{label} has one that is not known: “{units.excerpt(part)}”. The nearest is {like.name.lower()}. {way}")
        found[key] = EXERCISES[key]
    if not found:
        raise Problem(input_name, f"{label} names nothing. {way}")
    return tuple(found.values())


def _parts(tidy: str) -> list[str]:
    """Cut a list into names; an "and" inside a name, as in "C and S scrolls", does not cut it."""
    parts: list[str] = []
    for piece in re.split(r"[;,\n&+]", tidy):
        if _plain(piece) in _spellings():
            parts.append(piece.strip())
        else:
            parts += [part.strip() for part in re.split(r"\band\b", piece)]
    return [part for part in parts if part]


def _plain(words: str) -> str:
    """Words without articles, hyphens, and the ending of the plural, so that "Drop-strings" is "drop string"."""
    tokens = re.sub(r"[-_/]+", " ", words.lower()).split()
    return " ".join(
        token[:-1] if len(token) > 3 and token.endswith("s") and not token.endswith("ss") else token for token in tokens if token not in _SMALL
    )


_SMALL = frozenset({"a", "an", "the", "of", "some"})


@lru_cache(maxsize=1)
def _spellings() -> dict[str, str]:
    """Every name of every exercise, in plain form: first what each is called, then what else it is called."""
    found: dict[str, str] = {}
    for exercise in EXERCISES.values():
        own = [exercise.name, exercise.key]
        if exercise is kind_of(exercise).exercise:
            own += [exercise.kind, kind_of(exercise).plural]
        for name in own:
            found[_plain(name)] = exercise.key
    for exercise in EXERCISES.values():
        also = kind_of(exercise).also if exercise is kind_of(exercise).exercise else ()
        for name in (*exercise.words, *also):
            found.setdefault(_plain(name), exercise.key)
    return found


def nearest(words: str) -> Exercise:
    """Give the exercise with the name that looks most like some words: that shares the most pairs of letters with them.

    >>> nearest("ruchd swegs").name, nearest("rozettes").name
    ('Ruched swags', 'Rosettes')
    """

    def pairs(text: str) -> Counter[str]:
        edged = f" {text[:60]} "
        return Counter(edged[i : i + 2] for i in range(len(edged) - 1))

    wanted = pairs(_plain(words))

    def likeness(name: str) -> float:
        own = pairs(name)
        return 2 * (own & wanted).total() / (own.total() + wanted.total())

    best = max(_spellings(), key=likeness)
    return EXERCISES[_spellings()[best]]


@lru_cache(maxsize=256)
def sheet_of(exercise: str, density: float) -> RowAmount:
    """Work out one practice sheet: all its lines, piped once.

    Formula: the row of `calc.rows.pipe` along lines x 168 mm; a wandering line by `calc.rows.wandering` over patches of 168 mm.

    Parameters
    ----------
    exercise : str
        A key of `EXERCISES` [-]
    density : float
        Density of the buttercream, with its range where it is a constant [g/ml]

    Returns
    -------
    RowAmount
        Count, length, mass with range and time of a used hand [-]

    Raises
    ------
    KeyError
        There is no such exercise.

    Range: the sheets as they are printed. Leaves out: what is scraped off and piped again.

    Example
    -------
    >>> sheet = sheet_of("shells", 0.95)
    >>> sheet.count > 100, sheet.mass_g > 0
    (True, True)

    Source: common-practice
    """
    asked = EXERCISES[exercise]
    if asked.gap_mm:
        return wandering(SHEET_MM * asked.high_mm * asked.lines, asked.gap_mm, asked.tip, density_g_per_ml=density)
    return pipe(
        RowSpec(
            asked.kind,
            asked.tip,
            run_mm=SHEET_MM * asked.lines,
            repeats=asked.repeats * asked.lines,
            width_mm=SHEET_MM / asked.repeats,
            drop_mm=asked.drop_mm,
            layers=asked.layers,
            count=None if asked.pieces is None else asked.pieces * asked.lines,
            size_mm=asked.size_mm,
            density_g_per_ml=float(density),
            density_ends=(density.low, density.high) if isinstance(density, Constant) else (density, density),
        )
    )
