"""Tiers from above with the dowels that carry the next one, to scale.

Map
---
`supports_scene`   bodies and their supports -> `Scene`
"""

from __future__ import annotations

from collections.abc import Sequence

from calc.drawing.faces import text_width_mm
from calc.drawing.scene import CAKE, GUIDE_DASH, INK, WORDS, Group, Item, Path, Scene, Style, Text, circle, polygon, polyline
from calc.geometry.polygons import Point
from calc.shapes import Outline
from calc.stack import Body, Support
from calc.units import Formatter

DOWEL = Style(fill=INK, role="text")
CROSS = Style(stroke=INK, width_mm=0.8, role="line")
IN_A_ROW = 3


def _flipped(points: Sequence[Point]) -> list[Point]:
    """From the plan, y to the back, to the scene, y downwards."""
    return [(x, -y) for x, y in points]


def supports_scene(bodies: Sequence[Body], stands: Sequence[Support], units: str = "metric") -> Scene:
    """Draw each tier that carries another from above: its outline, the board that stands on it, its dowels."""
    say = Formatter(units)
    carrying = [i for i, stand in enumerate(stands) if stand.dowels]
    if not carrying:
        raise ValueError("no tier carries another")
    boxes = [bodies[i].outline.extent_mm for i in carrying]
    cell = max(max(right - left, back - front) for left, front, right, back in boxes) * 1.08
    columns = min(IN_A_ROW, len(carrying))
    wide = cell * max(columns, 2)  # a single tier stands in the middle of it
    letter = wide / 29.5  # read on a telephone, where the whole is some 9 cm wide
    labels = {i: f"{stands[i].dowels} dowels of {say.length(stands[i].dowel_length_mm)}" for i in carrying}
    whole = all(text_width_mm(words, letter) < wide / columns - letter for words in labels.values())
    deep = cell + (4.2 if whole else 5.5) * letter
    dot = max(4.0, wide * 0.007)
    thick = wide / 500
    cake, board = CAKE._replace(width_mm=thick), GUIDE_DASH._replace(width_mm=thick, dash=(5 * thick, 3.5 * thick))
    cross = CROSS._replace(width_mm=thick)
    items: list[Item] = []
    words = []
    for place, (i, (left, front, right, back)) in enumerate(zip(carrying, boxes, strict=True)):
        middle = wide / columns * (place % columns + 0.5)
        dx = middle - (left + right) / 2
        dy = deep * (place // columns) + cell / 2 + (front + back) / 2
        stand = stands[i]

        def at(points: Sequence[Point], dx: float = dx, dy: float = dy) -> list[Point]:
            return [(x + dx, y + dy) for x, y in _flipped(points)]

        above = [(x, y + stand.seat_mm) for x, y in _ring(bodies[i + 1].outline)]
        drawn: list[Item] = [Path(polygon(at(_ring(bodies[i].outline))), cake), Path(polygon(at(above)), board)]
        for x, y in at(stand.dowel_points):
            drawn.append(Path(circle(x, y, dot), DOWEL))
        for arm in (((-2 * dot, 0.0), (2 * dot, 0.0)), ((0.0, -2 * dot), (0.0, 2 * dot))):
            drawn.append(Path(polyline(at([(x, y + stand.seat_mm) for x, y in arm])), cross))
        below = deep * (place // columns) + cell + 1.3 * letter
        drawn.append(Text(middle, below, f"Tier {i + 1}", letter, "middle", "bold", WORDS))
        for line, text in enumerate((labels[i],) if whole else labels[i].split(" of ")):
            drawn.append(Text(middle, below + (1.4 + 1.3 * line) * letter, f"of {text}" if line else text, letter, "middle", "text", WORDS))
        items.append(Group(tuple(drawn), f"Tier {i + 1}"))
        words.append(f"Tier {i + 1} from above: {labels[i]}, inside the board of tier {i + 2}.")
    rows = -(-len(carrying) // columns)
    edge = letter / 2
    return Scene("Where the dowels stand", " ".join(words), -edge, -edge, wide + 2 * edge, deep * rows + edge, tuple(items))


def _ring(outline: Outline) -> tuple[Point, ...]:
    return outline.points(144)
