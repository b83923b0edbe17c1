"""How a calculator is declared, and the way from what was typed to its answer.

Map
---
`Calculator`   slug, title, inputs, groups, and the function from parsed inputs to an answer
`PassedOn`     a second link, for others
`run`          the answer to the texts of a form

Its parts are each in a file of their own, and can be imported from here: `inputs` has `Input` and `Group`, `parsing` reads the texts into
`Asked`, `answering` has `Answer` and `Press`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from calc.calculators.answering import Answer, Cure, Drawing, Press, Ranged, ranged, span
from calc.calculators.inputs import KINDS, OTHER, TIER_HIGH, TIN, Brought, ByVolume, Choices, Group, Input, Money, in_us_units, read_as
from calc.calculators.parsing import LARGEST, LONGEST_NAME, MOST_TEXTS, UNITS, Asked, check_bulk, parse, places_of
from calc.units import Problem, Problems, us_examples

__all__ = [
    "KINDS",
    "LARGEST",
    "LONGEST_NAME",
    "MOST_TEXTS",
    "OTHER",
    "TIER_HIGH",
    "TIN",
    "UNITS",
    "Answer",
    "Asked",
    "Brought",
    "ByVolume",
    "Calculator",
    "Choices",
    "Cure",
    "Drawing",
    "Group",
    "Input",
    "Money",
    "PassedOn",
    "Press",
    "Ranged",
    "check_bulk",
    "in_us_units",
    "parse",
    "places_of",
    "ranged",
    "read_as",
    "run",
    "sheet_answer",
    "span",
]


@dataclass(frozen=True)
class PassedOn:
    """A second link, for others: it opens another calculator with some of what was typed.

    `place` is the address of its page, seen from the page of this one. `own` is what the reader's own link says that it holds, `label`
    and `holds` what this one does.
    """

    label: str
    own: str
    place: str
    calculator: str
    names: tuple[str, ...]
    holds: str


@dataclass(frozen=True)
class Calculator:
    """One calculator: what it asks, and the function that answers.

    `work_out(asked, answer)` fills the answer, or raises `Problem` / `Problems`. `draw_sheet(asked, name, paper)` returns a PDF, or the bytes
    of a file to keep. `unfold(texts)` may turn a record (the order's TOML) into the texts of the other inputs before they are read.
    `passed_on` is a link for others, where there is one. Of the one that `is_kitchen` there is one record for the whole site.
    """

    slug: str
    title: str
    summary: str
    inputs: tuple[Input, ...]
    work_out: Callable[[Asked, Answer], None]
    groups: tuple[Group, ...] = ()
    draw_sheet: Callable[[Asked, str, str], bytes] | None = None
    unfold: Callable[[Mapping[str, str], Answer], Mapping[str, str]] | None = None
    passed_on: PassedOn | None = None
    pipes: str = ""  # the kind of row that a technique's calculator works out, where no input named "kind" says it
    is_kitchen: bool = False


def _volumes(asked: Asked, texts: Mapping[str, str], found: list[tuple[str, ByVolume]]) -> list[tuple[str, ByVolume]]:
    """Every mass that was typed as a volume, with what was typed."""
    for name, value in asked.items():
        if isinstance(value, ByVolume):
            found.append((texts.get(asked.named(name), "").strip(), value))
        elif isinstance(value, list):
            for inner in value:
                if isinstance(inner, Asked):
                    _volumes(inner, texts, found)
    return found


def run(calculator: Calculator, texts: Mapping[str, str]) -> Answer:
    """Read the inputs and work out the answer; a person's mistakes become problems instead of exceptions."""
    answer = Answer(calculator.slug)
    try:
        check_bulk(texts)
        if calculator.unfold is not None:
            texts = calculator.unfold(texts, answer)
        asked = parse(calculator, texts)
        answer.units, answer.currency = asked.units, asked.currency
        calculator.work_out(asked, answer)
        for text, mass_g in _volumes(asked, texts, []):
            if calculator.slug != "batch":  # there the recipe asked for is weighed
                answer.note(f"{text[:40]} of buttercream is taken to weigh {answer.say.mass(mass_g)}. Weigh yours to be sure.")
    except Problem as problem:
        _fail(answer, (problem,), texts)
    except Problems as several:
        _fail(answer, several.problems, texts)
    return answer


def sheet_answer(slug: str, asked: Asked, work_out: Callable[[Asked, Answer], None]) -> Answer:
    """Work out the answer to inputs that have been parsed, for a sheet that prints its tables."""
    answer = Answer(slug, asked.units, currency=asked.currency)
    work_out(asked, answer)
    return answer


def _fail(answer: Answer, problems: Sequence[Problem], texts: Mapping[str, str]) -> None:
    told = us_examples if texts.get("units", "").strip().lower() == "us" else str
    answer.problems = [{"input": p.input, "message": told(p.message)} for p in problems]
    answer.figures = {}
    for emptied in (answer.notes, answer.cautions, answer.tables, answer.drawings, answer.sheets, answer.sections, answer.files, answer.cures):
        emptied.clear()
