"""The bench sheet: the cake with its steps numbered, the bags, how each tip is held, and the piping order, to be read at arm's length.

Map
---
`BenchStep`, `BenchBag`, `BenchTier`, `BenchHold`   what stands on it, in words ready to read
`bench_sheet`                                       all of it on as few pages as hold it, in type of 14 points
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.drawing.faces import broken, text_width_mm
from calc.drawing.paper.flow import PageFlow, spaced
from calc.drawing.paper.sheet import NO_HEADING, QUIET, Heading, Sheet, fit_text, paper_mm, text_at
from calc.drawing.scene import INK, Group, Item, Path, Scene, Style, circle, rectangle
from calc.sources import constant

TYPE_MM = constant(14 * 25.4 / 72, "mm", "common-practice", "14 points: read at arm's length over a turntable")
_LEAD = 1.22 * TYPE_MM
_LEAST_DRAWING_MM, _MOST_DRAWING_MM = 44.0, 78.0
_BOTTOM_MM = 14.0  # the page's number stands below; the sheet is not to scale and has no bars
_HEAD_MM = 3.5
_RING_STEP_MM, _COLUMN_MM = 6.2, 6.4  # from one number of a step to the next, down and across
_RULE = Style(stroke="#b9a9b0", width_mm=0.2)


@dataclass(frozen=True)
class BenchStep:
    """One step: what is piped where, with which bag, how much in all. `at` is where the drawing of the cake shows it [mm]."""

    number: int
    title: str
    bag: str
    length: str = ""
    mass: str = ""
    note: str = ""
    at: tuple[float, float] | None = None


@dataclass(frozen=True)
class BenchBag:
    """One bag: its letter, tip and colour, and what goes into it in all."""

    letter: str
    tip: str
    colour_name: str
    colour: str
    mass: str = ""
    fills: str = ""


@dataclass(frozen=True)
class BenchTier:
    """How one tier is marked."""

    name: str
    marking: str


@dataclass(frozen=True)
class BenchHold:
    """How a tip is held and moved, told once for all its rows: the letters of its bags, and a line for each kind of row."""

    bags: str
    lines: tuple[str, ...]


def bench_sheet(
    steps: Sequence[BenchStep],
    bags: Sequence[BenchBag] = (),
    holds: Sequence[BenchHold] = (),
    tiers: Sequence[BenchTier] = (),
    cake: Scene | None = None,
    heading: Heading = NO_HEADING,
    paper: str = "A4",
) -> Sheet:
    """Set the cake with the numbers of its steps, the marking, the piping order, the bags and how each tip is held. The time is on the timetable.

    The drawing takes what room the words leave on the first page, so that a cake of two tiers stands on one.

    >>> bench_sheet([BenchStep(1, "Shells round the base", "A")], [BenchBag("A", "open star 7 mm", "russet", "#b9592f")]).title
    'Bench sheet'
    """
    flow = _flow(paper, 0.0)
    _set_words(flow, steps, bags, holds)
    room = 1e6 if len(flow.pages) > 1 else flow.bottom - flow.y
    high = _MOST_DRAWING_MM if room >= _MOST_DRAWING_MM else room if room >= _LEAST_DRAWING_MM else 62.0
    flow = _flow(paper, 0.0)
    _set_cake(flow, cake, steps, tiers, high - 3.0)
    _set_words(flow, steps, bags, holds)
    return flow.sheet("bench-sheet", "Bench sheet", "", heading)


def _flow(paper: str, at: float) -> PageFlow:
    flow = PageFlow(paper_mm(paper), TYPE_MM)
    flow.top -= 7.0  # no line stands under the title
    flow.height = flow.size[1] - _BOTTOM_MM - flow.top
    flow.y = flow.top + at
    return flow


def _set_cake(flow: PageFlow, cake: Scene | None, steps: Sequence[BenchStep], tiers: Sequence[BenchTier], high: float) -> None:
    """The drawing with the numbers of the steps beside it, and to its right how each tier is marked."""
    wide = 0.0
    if cake is not None:
        columns = _columns(sum(step.at is not None for step in steps), high)
        beside_mm = 12.0 + _COLUMN_MM * (columns - 1)
        times = min(high / cake.height_mm, (0.44 * flow.width - beside_mm) / cake.width_mm)
        tall = cake.height_mm * times
        top = flow.y + max(0.0, (high - tall) / 2)
        dx, dy = flow.left - cake.x_mm * times, top - cake.y_mm * times
        items: list[Item] = [Group(cake.items, matrix=(times, 0.0, 0.0, times, dx, dy))]
        edge = flow.left + cake.width_mm * times
        placed = [(step.number, step.at[0] * times + dx, step.at[1] * times + dy) for step in steps if step.at is not None]
        items += _numbers(placed, edge + 4.5, flow.y, flow.y + high)
        told = "; ".join(f"{step.number}: {step.title}" for step in steps)
        flow.tag("Figure", *items, alt=f"{cake.description or cake.title} Steps: {told}")
        wide = edge + beside_mm - flow.left
    beside = PageFlow(flow.size, TYPE_MM)
    beside.left, beside.width = flow.left + wide, flow.width - wide
    beside.y = flow.y - 1.0
    for tier in tiers:
        for k, (words, face) in enumerate(((tier.name, "bold"), (tier.marking, "text"))):
            lines = spaced(broken(words, beside.width, TYPE_MM, face))
            flow.tag("P", *(text_at(beside.left, beside.y + (0.95 + i) * _LEAD, line, TYPE_MM, face=face) for i, line in enumerate(lines)))
            beside.y += len(lines) * _LEAD + 1.6 * k
    flow.y = max(flow.y + high if cake is not None else 0.0, beside.y) + 3.0


def _columns(count: int, high: float) -> int:
    """How many columns the numbers of steps need beside a cake."""
    return max(1, math.ceil(count * _RING_STEP_MM / max(1.0, high)))


def _numbers(placed: Sequence[tuple[int, float, float]], x: float, top: float, bottom: float) -> list[Item]:
    """Numbers of steps in a column beside the cake, each with a line to its row; they keep clear of each other."""
    items: list[Item] = []
    step = _RING_STEP_MM
    order = sorted(placed, key=lambda one: (one[2], one[0]))
    columns = _columns(len(order), bottom - top)
    ys: list[float] = []
    for at, (_, _, y) in enumerate(order):
        ys.append(max(y, ys[-1] + step / columns if at else top + 2.9))
    over = ys[-1] - (bottom - 2.9) if ys else 0.0
    for at in range(len(ys) - 1, -1, -1):  # what runs out below moves up
        if over > 0:
            ys[at] = min(ys[at], bottom - 2.9 - (len(ys) - 1 - at) * step / columns)
    for at, ((number, row_x, row_y), y) in enumerate(zip(order, ys, strict=True)):
        middle = x + _COLUMN_MM * (at % columns)
        items.append(Path((("M", row_x, row_y), ("L", middle - 2.9, y)), Style(stroke=INK, width_mm=0.25)))
        items.append(Path(circle(middle, y, 2.9), Style(fill=INK)))
        items.append(text_at(middle, y + 1.35, str(number), 3.9 if number < 10 else 3.4, "middle", "bold", Style(fill="#ffffff")))
    return items


def _set_words(flow: PageFlow, steps: Sequence[BenchStep], bags: Sequence[BenchBag], holds: Sequence[BenchHold]) -> None:
    _set_steps(flow, steps)
    _set_bags(flow, bags, holds)


def _set_steps(flow: PageFlow, steps: Sequence[BenchStep]) -> None:
    """The piping order: a box to tick, the number, what and where, the bag, length and weight in all."""
    right = flow.left + flow.width
    mass, length = (
        max([text_width_mm(text, TYPE_MM, "bold") for text in texts] + [text_width_mm(head, _HEAD_MM, "bold")])
        for head, texts in (("weight in all", [step.mass for step in steps]), ("length in all", [step.length for step in steps]))
    )
    x, mass_x, length_x = flow.left + 16.0, right - 1.0, right - mass - 4.0
    bag_x = length_x - length - 7.0
    room = bag_x - 6.0 - x
    rows: list[Item] = []

    def head() -> None:
        ground: Item = Path(rectangle(flow.left, flow.y, flow.width, 5.6), Style(fill="#ebe1cf"))
        heads = ((x, "piping order", "start"), (bag_x, "bag", "middle"), (length_x, "length in all", "end"), (mass_x, "weight in all", "end"))
        cells = [Group((text_at(at, flow.y + 4.0, words, _HEAD_MM, anchor, "bold"),), tag="TH") for at, words, anchor in heads]
        rows.append(Group((Group((ground,), tag="Artifact"), *cells), tag="TR"))
        flow.y += 5.6

    def end_page() -> None:
        if rows:
            flow.tag("Table", *rows)
            rows.clear()

    head()
    for step in steps:
        titled = broken(step.title, room, TYPE_MM, "bold")
        noted = broken(step.note, right - x, TYPE_MM) if step.note else ()
        tall = (len(titled) + len(noted)) * _LEAD + 2.0
        if flow.y + min(tall, flow.height) > flow.bottom and flow.y > flow.top:
            end_page()
            flow.turn()
            head()
        y = flow.y + 0.95 * _LEAD + 0.6
        box = Path(rectangle(flow.left + 0.2, y - 4.2, 4.8, 4.8), Style(stroke=INK, width_mm=0.4))
        number, big = fit_text(str(step.number), 6.0, 8.0, "display")
        lines = [text_at(x, y + i * _LEAD, line, TYPE_MM, face="bold") for i, line in enumerate(spaced(titled))]
        lines += [text_at(x, y + (len(titled) + i) * _LEAD, line, TYPE_MM) for i, line in enumerate(spaced(noted))]
        cells: list[Item] = [
            Group((box,), tag="Artifact"),
            Group((text_at(flow.left + 14.0, y, number, big, "end", "display"), *lines), tag="TD"),
            Group((text_at(bag_x, y, step.bag, TYPE_MM, "middle", "display"),), tag="TD"),
            Group((text_at(length_x, y, step.length, TYPE_MM, "end"),), tag="TD"),
            Group((text_at(mass_x, y, step.mass, TYPE_MM, "end", "bold"),), tag="TD"),
        ]
        flow.y += tall
        cells.append(Group((Path((("M", flow.left, flow.y), ("L", right, flow.y)), _RULE),), tag="Artifact"))
        rows.append(Group(tuple(cells), tag="TR"))
    end_page()
    flow.y += 2.6


def _set_bags(flow: PageFlow, bags: Sequence[BenchBag], holds: Sequence[BenchHold]) -> None:
    """The bags with what goes into them, and under those of one tip how it is held."""
    by_letters = {hold.bags: hold.lines for hold in holds}
    taken: set[str] = set()
    right = flow.left + flow.width
    for bag in bags:
        letters, lines = next(((letters, lines) for letters, lines in by_letters.items() if bag.letter in letters.split(", ")), ("", ()))
        told = [] if letters in taken else [words for line in lines for words in broken(line, flow.width - 10.0, TYPE_MM)]
        taken.add(letters)
        flow.need(min((1 + len(told)) * _LEAD + 1.6, flow.height))
        y = flow.y + 0.95 * _LEAD
        facts = ", ".join(words for words in (bag.mass and f"{bag.mass} in all", bag.fills) if words)
        wide = text_width_mm(facts, TYPE_MM, "bold")
        name, size = fit_text(f"{bag.tip}, {bag.colour_name}", TYPE_MM, right - wide - 4.0 - flow.left - 16.0, "bold")
        dot = Path(circle(flow.left + 12.0, y - 1.6, 2.0), Style(fill=bag.colour, stroke="#54364f", width_mm=0.3))
        flow.tag(
            "P",
            text_at(flow.left + 4.0, y, f"{bag.letter} ", TYPE_MM * 1.1, "middle", "display"),
            dot,
            text_at(flow.left + 16.0, y, f"{name} ", size, face="bold"),
            text_at(right, y, facts, TYPE_MM, "end", "bold"),
        )
        flow.y += _LEAD
        if told:
            flow.tag("P", *(text_at(flow.left + 10.0, flow.y + (0.9 + i) * _LEAD, line, TYPE_MM, style=QUIET) for i, line in enumerate(spaced(told))))
        flow.y += len(told) * _LEAD + 1.6
