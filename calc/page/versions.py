"""Two versions of one order side by side: what differs, as a table. It is asked for seldom, so it stands outside what every page brings."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from calc.calculators.declare import Answer, Calculator, Group, Input, Ranged, places_of
from calc.page.html import Markup, element
from calc.page.lines import IN_BRACES, group_lines
from calc.units import Formatter, hundredths

NUMBERS = ("portions", "weight", "height", "buttercream", "colour_", "bags", "hands", "start", "price", "per_portion", "repeats_")
MONEY = ("price", "per_portion")

Texts = Mapping[str, str]
Row = tuple[str, str, str, str]


def versions_reply(calculator: Calculator, versions: Sequence[tuple[Texts, Answer]], names: Sequence[str]) -> str:
    """Two versions compared, as JSON: `html` the table of what differs, `pictures` the drawing of each that stays in sight, `spoken` a sentence.

    Where a version has something to be put right, `problems` says so and there is no more.
    """
    for (_, answer), name in zip(versions, names, strict=True):
        if answer.problems:
            count = len(answer.problems)
            told = f"{name}: {'one thing is' if count == 1 else f'{count} things are'} to be put right before it can be compared."
            return json.dumps({"problems": [{"input": "", "message": told}]})
    rows = list(differences(calculator, versions))
    pictures = [next((drawing["svg"] for drawing in answer.drawings if drawing.get("stays")), "") for _, answer in versions]
    count = len(rows)
    spoken = "The two are the same." if not rows else "One thing differs." if count == 1 else f"{count} things differ."
    return json.dumps({"problems": [], "html": _table(rows, names), "pictures": pictures, "spoken": spoken}, ensure_ascii=False)


def differences(calculator: Calculator, versions: Sequence[tuple[Texts, Answer]]) -> Iterator[Row]:
    """What differs between two versions: a heading, what each has, and by how much the second differs where that is a number."""
    (one, first), (other, second) = versions
    yield from _numbers(first, second)
    yield from _fields(calculator.inputs, one, other, "", "")
    lines = (group_lines(calculator, one), group_lines(calculator, other))
    for group in calculator.groups:
        yield from _copies(group, (one, other), lines, ("", ""), "")


def _numbers(first: Answer, second: Answer) -> Iterator[Row]:
    """Figures whose value reads differently."""
    names = [name for name in dict.fromkeys((*first.figures, *second.figures)) if name.startswith(NUMBERS)]
    for name in sorted(names, key=lambda name: next(at for at, start in enumerate(NUMBERS) if name.startswith(start))):
        a, b = first.figures.get(name), second.figures.get(name)
        texts = [_plain(figure["text"]) if figure else "none" for figure in (a, b)]
        if texts[0] == texts[1]:
            continue
        yield (a or b or {})["label"], texts[0], texts[1], _more(name, a, b, (first.say, second.say))


def _plain(text: str) -> str:
    """A figure's value without its range."""
    return text.value if isinstance(text, Ranged) else text


def _more(name: str, first: Mapping[str, Any] | None, second: Mapping[str, Any] | None, says: tuple[Formatter, Formatter]) -> str:
    """By how much the second is more or less than the first, in words. What is equal may read differently: money with a sign and without."""
    if name == "start" or not first or not second:
        return ""
    say = says[1]
    writes: dict[str, Callable[[float], str]] = {"g": say.mass, "mm": say.length, "min": say.working_time}
    write, off = writes.get(second["unit"], say.number), second["value"] - first["value"]
    if name in MONEY:
        if len({each.currency for each in says if each.currency}) > 1:
            return ""  # a sum in pounds is not so many euros more
        write, off = say.money, hundredths(second["value"]) - hundredths(first["value"])  # of what is read
    way = "more" if off > 0 else "less" if off < 0 else ""
    return f"{write(abs(off))} {way}" if way else ""


def _fields(inputs: Sequence[Input], one: Texts, other: Texts, path: str, beside: str, whose: str = "") -> Iterator[Row]:
    """Inputs that say something else in each; `path` and `beside` are where they stand in the one and in the other."""
    for declared in inputs:
        if declared.kind == "long_text":
            continue
        texts = [_said(declared, values.get(at + declared.name)) for values, at in ((one, path), (other, beside))]
        if texts[0] != texts[1]:
            yield f"{whose}{declared.label}", texts[0] or "empty", texts[1] or "empty", ""


def _said(declared: Input, text: str | None) -> str:
    """What an input says, with the label of its choice."""
    said = ("" if declared.optional else declared.default) if text is None else " ".join(text.split())
    return next((label for value, label in declared.choices if said in (value, label)), said)


def _copies(group: Group, texts: tuple[Texts, Texts], lines: tuple[Texts, Texts], paths: tuple[str, str], whose: str) -> Iterator[Row]:
    """The copies of a group: those that only one version has, and what differs in those that both have."""
    at = [f"{path}{group.name}." for path in paths]
    found = [[f"{at[side]}{index}." for index in places_of(texts[side]).get(at[side], ())] for side in (0, 1)]
    told = [[lines[side][place] or group.label for place in found[side]] for side in (0, 1)]
    for a, b in _paired(told[0], told[1]):
        number = f"{whose}{group.label} {next(index for index in (b, a) if index is not None) + 1}"
        if a is None or b is None:
            yield number, "none" if a is None else told[0][a], "none" if b is None else told[1][b], ""
            continue
        in_line: set[str] = set()
        if told[0][a] != told[1][b]:  # lines that read alike may be cut off, or leave a piece out, so then every field is looked at
            yield number, told[0][a], told[1][b], ""
            in_line |= {name for piece in group.pieces for name in IN_BRACES.findall(piece)}
        others = [declared for declared in group.inputs if declared.name not in in_line]
        yield from _fields(others, texts[0], texts[1], found[0][a], found[1][b], f"{number}, ")
        for inner in group.groups:
            yield from _copies(inner, texts, lines, (found[0][a], found[1][b]), f"{number}, ")


def _paired(one: Sequence[str], other: Sequence[str]) -> list[tuple[int | None, int | None]]:
    """Which copies belong together: those that say the same, in order, and those that stand between the same two of them."""
    longest: dict[tuple[int, int], int] = defaultdict(int)  # how many can belong together from here on; none past the last
    for a in reversed(range(len(one))):
        for b in reversed(range(len(other))):
            longest[a, b] = longest[a + 1, b + 1] + 1 if one[a] == other[b] else max(longest[a + 1, b], longest[a, b + 1])
    found: list[tuple[int | None, int | None]] = []
    a = b = 0
    while a < len(one) or b < len(other):
        if a < len(one) and b < len(other) and (one[a] == other[b] or longest[a, b] == longest[a + 1, b + 1]):
            found.append((a, b))
            a, b = a + 1, b + 1
        elif a < len(one) and longest[a + 1, b] == longest[a, b]:
            found.append((a, None))
            a += 1
        else:
            found.append((None, b))
            b += 1
    return found


def _table(rows: Sequence[Row], names: Sequence[str]) -> Markup:
    """The table of what differs, or a sentence where nothing does."""
    if not rows:
        return element("p", {}, "The two orders and their results are the same.")
    one, other = names
    heads = ("What differs", one, other, "The second has")
    head = element("thead", {}, element("tr", {}, *(element("th", {"scope": "col"}, text) for text in heads)))
    body = []
    for label, first, second, off in rows:
        cells = ((one, first), (other, second), ("The second has", off))
        marked = [element("td", {"data-label": name if text else None}, text) for name, text in cells]
        body.append(element("tr", {}, element("th", {"scope": "row"}, label), *marked))
    table = element("table", {}, element("caption", {}, "What differs"), head, element("tbody", {}, *body))
    return element("div", {"class": "pb-table", "data-wide": True, "tabindex": "0", "role": "group", "aria-label": "What differs"}, table)
