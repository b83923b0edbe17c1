"""What is drawn round a drawing: dimensions, arrows, crosses, scale bars, labels.

Map
---
`dimension`      a length between two points, with its words
`arrow`          a line that ends in an arrow head
`cross`          a small cross at a joint
`label`          words at a point
`rule`           a straight line
`bar`            a bar of a whole number of millimetres, to check a printer or a drawing with
"""

from __future__ import annotations

import math

from calc.drawing.scene import (
    GUIDE_LINE,
    INK,
    LINE,
    THIN,
    WORDS,
    WORDS_GUIDE,
    Group,
    Item,
    Path,
    Style,
    Text,
    polygon,
    polyline,
    rectangle,
)

HEAD = Style(fill=INK, role="text")


def _head(x: float, y: float, angle: float, size: float) -> Path:
    """A slender arrow head whose point lies at (x, y)."""
    c, s = math.cos(angle), math.sin(angle)
    back = [(-size, -size * 0.28), (-size * 0.78, 0.0), (-size, size * 0.28)]
    return Path(polygon([(x, y), *((x + bx * c - by * s, y + bx * s + by * c) for bx, by in back)]), HEAD)


def label(
    x_mm: float, y_mm: float, words: str, size_mm: float = 4.0, anchor: str = "start", face: str = "text", guide: bool = False, turn_deg: float = 0.0
) -> Text:
    """Put words at a point."""
    return Text(x_mm, y_mm, words, size_mm, anchor, face, WORDS_GUIDE if guide else WORDS, turn_deg)


def dimension(x1_mm: float, y1_mm: float, x2_mm: float, y2_mm: float, words: str, size_mm: float = 4.0, beside: str = "") -> Group:
    """Draw a length between two points: a line with an arrow head at both ends, and its words."""
    angle = math.atan2(y2_mm - y1_mm, x2_mm - x1_mm)
    length = math.hypot(x2_mm - x1_mm, y2_mm - y1_mm)
    head = min(size_mm * 0.8, length / 3)
    mx, my = (x1_mm + x2_mm) / 2, (y1_mm + y2_mm) / 2
    place = beside or ("right" if abs(math.sin(angle)) > 0.7 else "above")
    gap = size_mm * 0.45
    at = {
        "right": (mx + gap, my + size_mm * 0.35, "start"),
        "left": (mx - gap, my + size_mm * 0.35, "end"),
        "above": (mx, my - gap, "middle"),
        "below": (mx, my + gap + size_mm * 0.75, "middle"),
    }[place]
    line = THIN._replace(width_mm=size_mm * 0.06)
    return Group(
        (
            Path(polyline([(x1_mm, y1_mm), (x2_mm, y2_mm)]), line),
            _head(x2_mm, y2_mm, angle, head),
            _head(x1_mm, y1_mm, angle + math.pi, head),
            label(at[0], at[1], words, size_mm, at[2]),
        )
    )


def arrow(points: tuple[tuple[float, float], ...], style: Style = LINE, size_mm: float = 3.0) -> Group:
    """Draw a line through points that ends in an arrow head."""
    (x1, y1), (x2, y2) = points[-2], points[-1]
    angle = math.atan2(y2 - y1, x2 - x1)
    head = _head(x2 + size_mm * 0.4 * math.cos(angle), y2 + size_mm * 0.4 * math.sin(angle), angle, size_mm)
    return Group((Path(polyline(points), style), head))


def cross(x_mm: float, y_mm: float, size_mm: float = 3.0) -> Path:
    """Draw a small upright cross, as at a joint."""
    h = size_mm / 2
    return Path((("M", x_mm - h, y_mm), ("L", x_mm + h, y_mm), ("M", x_mm, y_mm - h), ("L", x_mm, y_mm + h)), LINE)


def bar(x_mm: float, y_mm: float, length_mm: float, upright: bool = False, block_mm: float = 10.0, words: str = "") -> Group:
    """Draw a bar in blocks of one length, to check a printer with; an upright one is thinner and has its words above it."""
    thick = 2.2 if upright else 3.0
    solid, empty = Style(fill="#000000"), Style(fill="#ffffff")
    items: list[Item] = []
    whole = (x_mm, y_mm, thick, length_mm) if upright else (x_mm, y_mm, length_mm, thick)
    items.append(Path(rectangle(*whole), solid))
    for i in range(1, round(length_mm / block_mm), 2):
        block = min(block_mm, length_mm - block_mm * i - 0.4)  # the outermost edge stays black
        box = (x_mm + 0.4, y_mm + block_mm * i, thick - 0.8, block) if upright else (x_mm + block_mm * i, y_mm + 0.4, block, thick - 0.8)
        items.append(Path(rectangle(*box), empty))
    words = words or f"{length_mm:g} mm"
    if upright:
        items.append(Text(x_mm + thick, y_mm - 1.4, words, 3.0, "start", "text", Style(fill="#000000"), -90.0))
    else:
        items.append(Text(x_mm + length_mm / 2, y_mm - 1.2, words, 3.0, "middle", "text", Style(fill="#000000")))
    return Group(tuple(items), words)


def rule(x1_mm: float, y1_mm: float, x2_mm: float, y2_mm: float, style: Style = GUIDE_LINE) -> Path:
    """Draw a straight line."""
    return Path((("M", x1_mm, y1_mm), ("L", x2_mm, y2_mm)), style)
