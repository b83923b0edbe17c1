"""The tip gauge: discs, slots and a ruler at 1:1, to find the opening of a tip with."""

from __future__ import annotations

from collections.abc import Iterator

from calc.drawing.faces import text_width_mm
from calc.drawing.paper.flow import PageFlow, Paragraphs
from calc.drawing.paper.sheet import BLACK, NO_HEADING, SMALLEST_MM, Heading, Sheet, paper_mm, text_at
from calc.drawing.scene import THIN, Item, Parts, Path, circle
from calc.drawing.tip_openings import opening_parts
from calc.tips import Tip
from calc.units import Formatter

STEP_MM = 0.5
ROUND_MM = (1.0, 20.0)  # openings of round and star tips
SLOT_MM = (5.0, 26.0)  # lengths of the slots of petal tips
RULER_MM = 100
_GAP = 2.6  # between two shapes

HOW = (
    "Print at 100 %, and check the bars. Slip the sheet into a clear sleeve.",
    "Stand the clean tip on a disc, opening down, and look through it from above. If you see white all round, try a larger one. The disc that "
    "just fills "
    "the opening is its size; for a star, the disc that just reaches the points.",
    "Lay the opening of a petal tip on the slots: its length is what counts. Leaf, ruffle and basket tips lie along the ruler, at their widest.",
    "Between two sizes, take the nearer. Write down the family and the opening: round 2 mm, petal 11 mm.",
)


def _sizes(ends: tuple[float, float]) -> Iterator[float]:
    """Every half millimetre between two openings."""
    return (ends[0] + STEP_MM * i for i in range(round((ends[1] - ends[0]) / STEP_MM) + 1))


def tip_gauge(heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric") -> Sheet:
    """Draw discs and slots every half millimetre, and a ruler, to find the opening of a tip with.

    >>> len(tip_gauge().pages)
    1
    """
    flow = PageFlow(paper_mm(paper))
    flow.paragraphs(Paragraphs("", HOW, numbered=True))
    flow.heading("Round and star tips: across, in mm", 30.0)
    _shelves(flow, [(size, size, circle(0.0, 0.0, size / 2)) for size in _sizes(ROUND_MM)])
    flow.heading("Petal tips: length of the slot, in mm", 30.0)
    _shelves(flow, [(size, Tip("petal", size).slot_mm, opening_parts(Tip("petal", size))) for size in _sizes(SLOT_MM)])
    flow.heading("Leaf, ruffle and basket tips: widest part, in mm", 12.0)
    flow.need(12.0)
    flow.add(*_ruler(flow.left + 2.0, flow.y + 1.0))
    flow.y += 12.0
    return flow.sheet("tip-gauge", "Tip gauge", "Which opening does this tip have? Lay it on the shape that it fills.", heading, units)


def _shelves(flow: PageFlow, shapes: list[tuple[float, float, Parts]]) -> None:
    """Set shapes side by side, each over its size: (size, width, parts round (0, 0))."""
    shelf: list[tuple[float, float, float, Parts]] = []  # size, left, width of its cell, parts
    x = 0.0
    for size, wide, parts in [*shapes, (0.0, 1e9, ())]:
        cell = max(wide, text_width_mm(Formatter().number(size, 1), SMALLEST_MM, "bold")) + _GAP
        if x + cell > flow.width and shelf:
            tall = max(size for size, _, _, _ in shelf)
            flow.need(tall + 6.0)
            spare = (flow.width - x) / len(shelf) if size else 0.0
            for i, (one, left, width, drawn) in enumerate(shelf):
                middle = flow.left + left + width / 2 + spare * (i + 0.5)
                flow.add(Path(_moved(drawn, middle, flow.y + tall - one / 2 + 0.6), BLACK))
                flow.add(text_at(middle, flow.y + tall + 3.6, Formatter().number(one, 1), SMALLEST_MM, "middle", "bold"))
            flow.y += tall + 5.4
            shelf, x = [], 0.0
        shelf.append((size, x, cell, parts))
        x += cell


def _moved(parts: Parts, dx: float, dy: float) -> Parts:
    """A path moved."""
    return tuple((part[0], *(float(v) + (dy if i % 2 else dx) for i, v in enumerate(part[1:]))) for part in parts)


def _ruler(x: float, y: float) -> list[Item]:
    """A ruler in millimetres, its zero at (x, y)."""
    items: list[Item] = [Path((("M", x, y), ("L", x + RULER_MM, y)), THIN)]
    for mm in range(RULER_MM + 1):
        long = 5.0 if mm % 10 == 0 else 3.8 if mm % 5 == 0 else 2.6
        items.append(Path((("M", x + mm, y), ("L", x + mm, y + long)), THIN._replace(width_mm=0.15)))
        if mm % 10 == 0:
            items.append(text_at(x + mm, y + 8.2, str(mm), SMALLEST_MM, "middle"))
    return items
