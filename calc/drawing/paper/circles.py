"""Circles at 1:1 to cut out of card, for whoever owns no cutter of that size.

Map
---
`CutterCircle`     one circle: its diameter, what it is for, and the swag that it marks
`cutter_circles`   circles on as few pages as hold them
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.curves import swag_drop_mm
from calc.drawing.faces import broken
from calc.drawing.marks import cross, rule
from calc.drawing.paper.sheet import BLACK, NO_HEADING, Heading, Sheet, framed, paper_mm, printable_mm, text_at
from calc.drawing.scene import GUIDE_DASH, Item, Path, Style, arc, circle
from calc.units import Formatter

_CUT = Style(stroke="#000000", width_mm=0.35)
_BETWEEN = 3.0
_HANDLE_MM = 25.0  # paper left over the joints of a circle that is too large to be drawn whole


@dataclass(frozen=True)
class CutterCircle:
    """A circle to cut out, what it is for, and the width of the swag that it marks, 0 for a usual size."""

    diameter_mm: float
    words: str = ""
    width_mm: float = 0.0


@dataclass
class _Shelf:
    """Circles side by side, each with its centre: how high the highest is, and how much width is used."""

    high_mm: float
    used_mm: float
    circles: list[tuple[float, CutterCircle]]


def cutter_circles(circles: Sequence[CutterCircle], heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric") -> Sheet:
    """Draw circles at 1:1, the largest first, with the joints of the swag that each marks.

    A circle wider than the page is drawn as the part that marks the swag; one whose swag is wider than the page is left out.

    >>> len(cutter_circles([CutterCircle(90.0, "lower tier", 80.0), CutterCircle(60.0)]).pages)
    1
    """
    say = Formatter(units)
    size = paper_mm(paper)
    left, top, room_w, room_h = printable_mm(size)
    boxes = [(*_extent(one, room_w), one) for one in circles]
    shelves: list[_Shelf] = []
    for wide, high, one in sorted((box for box in boxes if box[0] <= room_w and box[1] <= room_h - 2.0), key=lambda box: -box[1]):
        shelf = next((shelf for shelf in shelves if shelf.used_mm + wide <= room_w), None)
        if shelf is None:
            shelves.append(shelf := _Shelf(high, 0.0, []))
        shelf.circles.append((shelf.used_mm + wide / 2, one))
        shelf.used_mm += wide + _BETWEEN
    pages: list[list[Item]] = [[]]
    y = 2.0
    for shelf in shelves:
        if y + shelf.high_mm > room_h:
            pages.append([])
            y = 2.0
        for x, one in shelf.circles:
            pages[-1] += _drawn(one, left + x, top + y, room_w, say)
        y += shelf.high_mm + _BETWEEN
    under = (
        "Stick the page on thin card and cut along the circle. Bend the card to the side, hold the two marks on the joints, and press the "
        "rim in, or trace it with a clean pick."
    )
    title = "Cutter circles"
    scenes = tuple(framed(size, title, under, heading, number, len(pages), items, units) for number, items in enumerate(pages, 1))
    return Sheet("cutter-circles", title, scenes)


def _extent(one: CutterCircle, room: float) -> tuple[float, float]:
    """Width and height that a circle takes, or the part of it that marks a swag."""
    if one.diameter_mm <= room or not one.width_mm:
        return one.diameter_mm + 1.0, one.diameter_mm + 1.0
    return one.width_mm + 8.0, swag_drop_mm(one.diameter_mm, one.width_mm) + _HANDLE_MM + 1.0


def _drawn(one: CutterCircle, x: float, y: float, room: float, say: Formatter) -> list[Item]:
    """One circle with its centre on x and its highest point at y."""
    radius = one.diameter_mm / 2
    drop = swag_drop_mm(one.diameter_mm, one.width_mm) if one.width_mm else 0.0
    if one.diameter_mm > room:
        return _part(one, x, y, drop, say)
    middle = y + 0.5 + radius
    items: list[Item] = [Path(circle(x, middle, radius), _CUT), cross(x, middle, 3.0)]
    joint = middle + radius - drop
    if one.width_mm:
        half = one.width_mm / 2
        items.append(rule(x - half, joint, x + half, joint, GUIDE_DASH))
        lean = math.asin(max(-1.0, min(1.0, (joint - middle) / radius)))
        for side in (-1, 1):
            inner = radius - 4.0
            items.append(
                rule(x + side * inner * math.cos(lean), middle + inner * math.sin(lean), x + side * half, joint, _CUT._replace(width_mm=0.8))
            )
    lines = [say.length(one.diameter_mm), *broken(one.words, 1.5 * radius, 3.2)] if radius > 12.0 else [say.length(one.diameter_mm)]
    above = joint - middle < 2.0 + 4.2 * len(lines) or not one.width_mm
    first = middle - 3.4 - 4.2 * (len(lines) - 1) if above else middle + 6.0
    for i, words in enumerate(lines):
        items.append(text_at(x, first + 4.2 * i, words, 3.2 if i else 3.6, "middle", "text" if i else "bold", BLACK))
    return items


def _part(one: CutterCircle, x: float, y: float, drop: float, say: Formatter) -> list[Item]:
    """The arc of a large circle from joint to joint, under a handle of paper."""
    half, radius = one.width_mm / 2, one.diameter_mm / 2
    joint = y + 0.5 + _HANDLE_MM
    lean = math.degrees(math.asin(half / radius))
    hung = arc(x, joint + drop - radius, radius, 90 + lean, 90 - lean)
    outline = (*hung, ("L", x + half, y + 0.5), ("L", x - half, y + 0.5), ("Z",))
    words = f"{say.length(one.diameter_mm)}: {one.words}" if one.words else say.length(one.diameter_mm)
    items: list[Item] = [Path(outline, _CUT), rule(x - half, joint, x + half, joint, GUIDE_DASH)]
    lines = broken(words, one.width_mm - 6.0, 3.4)
    return items + [text_at(x, y + 8.0 + 4.4 * i, line, 3.4, "middle", "bold", BLACK) for i, line in enumerate(lines[:4])]
