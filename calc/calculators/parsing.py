"""All texts of a form, read: every input at its place, what one says of another, and every problem found on the way."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from calc.calculators.inputs import Group, Input, Money, read_as
from calc.shapes import TWO_SIZES
from calc.units import LONGEST_TEXT, Problem, Problems, Same, shape_in

if TYPE_CHECKING:
    from calc.calculators.declare import Calculator

# Far beyond any real form: whatever exceeds these is refused before it is parsed.
LARGEST = 1_000_000  # characters in all
MOST_TEXTS = 5000
LONGEST_NAME = 200  # characters
DEEPEST_NAME = 16  # parts between dots

UNITS = Input("units", "Units", "choice", "metric", choices=(("metric", "Metric"), ("us", "US")))


class Asked(dict[str, Any]):
    """Parsed inputs by name; a group is a list of these. `asked.units` is "metric" or "us"."""

    units: str = "metric"
    path: str = ""
    currency: str = ""  # the sign the maker writes money with

    def named(self, name: str) -> str:
        """The full dotted name of one of this group's inputs."""
        return f"{self.path}{name}"

    def problem(self, name: str, message: str) -> Problem:
        """A problem tied to one of this group's inputs."""
        return Problem(self.named(name), message)


def parse(calculator: Calculator, texts: Mapping[str, str]) -> Asked:
    """Read every input of a calculator; all problems found are raised together as `Problems`."""
    problems: list[Problem] = []
    unit_system = "metric"
    try:
        unit_system = UNITS.read(texts.get("units") or "metric", "units", "metric")
    except Problem as problem:
        problems.append(problem)
    used = {"units"}
    asked = _parse_level(calculator.inputs, calculator.groups, texts, "", unit_system, problems, used, places_of(texts))
    for name in texts:
        if name not in used:
            known = ", ".join(i.name for i in calculator.inputs) + "".join(f", {g.name}.0…" for g in calculator.groups)
            problems.append(Problem(name[:80], f"{calculator.title} has no input called {name[:80]}. It has {known}"))
    asked.currency = _currency(asked, calculator, texts, problems)
    if problems:
        raise Problems(problems)
    return asked


def check_bulk(texts: Mapping[str, str]) -> None:
    """Raise a `Problem` for more text, or longer or deeper names, than any form has."""
    if len(texts) > MOST_TEXTS:
        raise Problem("", f"There are {len(texts)} inputs; {MOST_TEXTS} is the most. Open a file or a link that was made here")
    for name in texts:
        if len(name) > LONGEST_NAME or name.count(".") >= DEEPEST_NAME:
            raise Problem(
                name[:LONGEST_NAME],
                f"The input called {name[:30]}… has a name of {len(name)} characters in {name.count('.') + 1} parts; {LONGEST_NAME} characters in "
                f"{DEEPEST_NAME} parts is the most. Open a file or a link that was made here",
            )
    size = sum(len(text) for text in texts.values())
    if size > LARGEST:
        longest = max(texts, key=lambda name: len(texts[name]))
        raise Problem(longest, f"What was typed has {size} characters in all; {LARGEST} is the most. Shorten it")


@lru_cache(maxsize=1024)
def _read(declared: Input, text: str, name: str, unit_system: str) -> Any:
    """Read what was typed into an input; cached, because an edit leaves all other inputs as they are."""
    return declared.read(text, name, unit_system)


def places_of(texts: Mapping[str, str]) -> Mapping[str, Sequence[int]]:
    """Indices found under each group prefix: `tiers.` has 0 and 1, `tiers.1.rows.` has 0 to 3."""
    return _places(tuple(texts))


@lru_cache(maxsize=4)
def _places(names: tuple[str, ...]) -> Mapping[str, Sequence[int]]:
    """`places_of`, cached: most edits change a text and no name, and an answer asks twice."""
    found: dict[str, set[int]] = {}
    for name in names:
        parts = name.split(".")
        for at in range(1, len(parts)):
            if parts[at].isdecimal() and len(parts[at]) < 5:
                found.setdefault(".".join(parts[:at]) + ".", set()).add(int(parts[at]))
    return {prefix: sorted(numbers) for prefix, numbers in found.items()}


@lru_cache(maxsize=256)
def _names(inputs: Same[Sequence[Input]], path: str) -> tuple[str, ...]:
    """The full names of inputs in one copy of their group."""
    return tuple([path + declared.name for declared in inputs.what])


def _fields(
    inputs: Sequence[Input], names: tuple[str, ...], path: str, unit_system: str, typed: tuple[str | None, ...], problems: list[Problem]
) -> Asked:
    """Read the inputs of one copy of a group from what was typed into each, None where nothing was."""
    asked = Asked()
    asked.units, asked.path = unit_system, path
    if not any([text is not None and len(text) > LONGEST_TEXT for text in typed]):
        try:
            asked.update(_kept_fields(Same(inputs), names, path, unit_system, typed))
            return asked
        except Problems:
            pass  # read again, because what can be read beside them counts, too
    _read_fields(asked, inputs, names, typed, problems)
    return asked


@lru_cache(maxsize=64)
def _kept_fields(inputs: Same[Sequence[Input]], names: tuple[str, ...], path: str, unit_system: str, typed: tuple[str | None, ...]) -> Asked:
    """`_fields` without problems; kept, because an edit leaves most copies of a group as they are."""
    asked, problems = Asked(), list[Problem]()
    asked.units, asked.path = unit_system, path
    _read_fields(asked, inputs.what, names, typed, problems)
    if problems:
        raise Problems(problems)
    return asked


def _read_fields(asked: Asked, inputs: Sequence[Input], names: Sequence[str], typed: Sequence[str | None], problems: list[Problem]) -> None:
    unit_system = asked.units
    for declared, name, text in zip(inputs, names, typed, strict=True):
        if text is None:
            text = "" if declared.optional and asked.path else declared.default_in(unit_system)
        try:
            asked[declared.name] = (_read if len(text) <= LONGEST_TEXT else Input.read)(declared, text, name, unit_system)
        except Problem as problem:
            problems.append(problem)
            asked[declared.name] = None
    _match_shape(inputs, asked, {name: text for name, text in zip(names, typed, strict=True) if text is not None}, unit_system, problems)


def _parse_level(
    inputs: Sequence[Input],
    groups: Sequence[Group],
    texts: Mapping[str, str],
    path: str,
    unit_system: str,
    problems: list[Problem],
    used: set[str],
    places: Mapping[str, Sequence[int]],
) -> Asked:
    names = _names(Same(inputs), path)
    used.update(names)
    asked = _fields(inputs, names, path, unit_system, tuple([texts.get(name) for name in names]), problems)
    for group in groups:
        prefix = f"{path}{group.name}."
        indices = places.get(prefix, ())
        if len(indices) > group.maximum:
            problems.append(
                Problem(f"{prefix}{indices[group.maximum]}", f"{group.label}: {len(indices)} are too many, {group.maximum} is the most. Remove some")
            )
            used.update(key for key in texts if key.startswith(prefix))
            indices = indices[: group.maximum]
        asked[group.name] = [_parse_level(group.inputs, group.groups, texts, f"{prefix}{i}.", unit_system, problems, used, places) for i in indices]
        if len(indices) < group.minimum:
            problems.append(
                Problem(
                    f"{path}{group.name}",
                    f"{group.label}: there is none yet. Add at least {group.minimum}"
                    if not indices
                    else f"{group.label}: there are {len(indices)}. Add at least {group.minimum - len(indices)}",
                )
            )
    return asked


def _match_shape(inputs: Sequence[Input], asked: Asked, texts: Mapping[str, str], unit_system: str, problems: list[Problem]) -> None:
    """Bring a shape or a second size that was written with the width (8" square, 9x13) together with what the fields for them say."""
    known = {declared.name: declared for declared in inputs}
    if not {"shape", "width"} <= set(known):
        return
    width, name, text = known["width"], asked.named("width"), texts.get(asked.named("width"), "")
    if not any(letter.isalpha() or letter in "×*" for letter in text):
        return
    sizes = re.fullmatch(r".*\d.*(?:x|×|\*|\bby\b)\s*[\d.½¼¾].*", text, re.IGNORECASE) and read_as(text, width.bare_unit(unit_system))
    named, has_shape = shape_in(text), asked.named("shape") in texts
    shape, length_name = asked["shape"], asked.named("length")
    wanted = named or ("rectangle" if sizes and not has_shape else shape)
    if named and has_shape and shape and named != shape:
        problems[:] = [problem for problem in problems if problem.input != name]
        problems.append(
            Problem(name, f"{width.label} says {named}, and {known['shape'].label} says {shape}. Choose {named} there, or take the word away here")
        )
        return
    asked["shape"] = wanted
    if not sizes:
        return
    problems[:] = [problem for problem in problems if problem.input != name]
    first, second = sizes
    if wanted in TWO_SIZES:
        if texts.get(length_name, "").strip() and asked["length"] != second:
            problems.append(Problem(name, f"{width.label} has two sizes, and {known['length'].label} is given too. Write one size in each"))
        asked["width"], asked["length"] = first, second
    elif wanted == "square" and first == second:
        asked["width"] = first
    else:
        problems.append(
            Problem(
                name,
                f"{width.label} has two sizes, and {known['shape'].label} says {wanted}, which has one. Choose rectangle or oval there, or write "
                f"one size, like {'8 in' if unit_system == 'us' else '20 cm'}",
            )
        )
        return
    for value in sizes:
        try:
            width._limit(value, name, unit_system)
        except Problem as problem:
            problems.append(problem)
            return


def _currency(asked: Asked, calculator: Calculator, texts: Mapping[str, str], problems: list[Problem]) -> str:
    """The sign of the currency that amounts of money were typed with; a default's counts only where none was typed."""
    found: dict[str, str] = {}  # sign -> the input it was typed in
    fallback = ""

    def look(level: Asked, inputs: Sequence[Input], groups: Sequence[Group]) -> None:
        nonlocal fallback
        for declared in inputs:
            value = level.get(declared.name)
            if isinstance(value, Money) and value.sign:
                name = level.named(declared.name)
                if texts.get(name, declared.default_in("us")) == declared.default_in("us"):
                    fallback = fallback or value.sign
                else:
                    found.setdefault(value.sign, name)
        for group in groups:
            for inner in level.get(group.name) or ():
                look(inner, group.inputs, group.groups)

    look(asked, calculator.inputs, calculator.groups)
    if len(found) > 1:
        (first, _), (other, name) = list(found.items())[:2]
        problems.append(Problem(name, f"One amount is in {first} and this one in {other}. Write all of them in one currency"))
    return next(iter(found), fallback)
