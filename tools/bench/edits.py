"""The edits typed while a calculator is measured: one field after another, each near the text it began with."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Mapping

from calc.calculators.declare import Calculator, Group, Input

NUMBER = re.compile(r"\d+(?:\.\d+)?")
WHOLE = ("count",)
NEVER = ("long_text",)  # a record is opened, not typed


def declared(calculator: Calculator) -> dict[str, Input]:
    """Every input by name, with `*` for the index of a repeated one: `tiers.*.rows.*.tip`."""

    def level(inputs: tuple[Input, ...], groups: tuple[Group, ...], path: str) -> Iterator[tuple[str, Input]]:
        for each in inputs:
            yield path + each.name, each
        for group in groups:
            yield from level(group.inputs, group.groups, f"{path}{group.name}.*.")

    return dict(level(calculator.inputs, calculator.groups, ""))


def altered(text: str, asked: Input, chance: random.Random) -> str:
    """Another valid text for a field: a number near its first one, another choice, another word."""
    if asked.kind in ("choice", "yes_no"):
        choices = [value for value, _ in asked.choices] or ["yes", "no"]
        return chance.choice([value for value in choices if value != text] or [text])
    if asked.kind == "moment":
        return re.sub(r"\d\d:\d\d", f"{chance.randint(12, 19)}:{chance.randint(0, 59):02}", text)
    found = NUMBER.search(text)
    if asked.kind == "colour" or not found:
        return f"{text.split(' again')[0]} again {chance.randint(1, 9)}" if asked.kind == "text" else text
    value = float(found[0])
    if asked.kind in WHOLE:
        value += chance.choice((-2, -1, 1, 2)) if value > 2 else 1
    else:
        value *= chance.uniform(0.94, 1.06)
    new = f"{value:.4g}"
    return text[: found.start()] + new + text[found.end() :]


def edits(calculator: Calculator, texts: Mapping[str, str], count: int, seed: int) -> list[tuple[str, str]]:
    """`count` edits of a form that begins with these texts, as (field, new text).

    Every non-empty field is edited once before any is edited twice. New texts stay near those the form began with, so that it keeps giving
    answers.
    """
    chance = random.Random(seed)
    known = declared(calculator)
    fields = []
    for name, text in texts.items():
        asked = known.get(re.sub(r"(?<=\.)\d+(?=\.)", "*", name))
        if asked and asked.kind not in NEVER and text.strip():
            fields.append((name, text, asked))
    now = dict(texts)
    made: list[tuple[str, str]] = []
    while len(made) < count:
        before = len(made)
        chance.shuffle(fields)
        for name, text, asked in fields:
            new = altered(text, asked, chance)
            if new == now[name]:
                new = text
            if new != now[name] and len(made) < count:
                made.append((name, new))
                now[name] = new
        if len(made) == before:
            break
    return made
