"""What lies on what on a page, measured on its scene: words on words, and words on lines or on pieces of piping."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache

from calc.drawing.faces import text_width_mm
from calc.drawing.scene import Group, Item, Matrix, Parts, Path, Scene, Text, Use

Box = tuple[float, float, float, float]
Thing = tuple[str, str, Box, list[tuple[float, float]]]
IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def _times(m: Matrix, n: Matrix) -> Matrix:
    a, b, c, d, e, f = m
    g, h, i, j, k, l = n
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + l)


def _at(m: Matrix, x: float, y: float) -> tuple[float, float]:
    return m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]


@cache
def _shares(steps: int) -> list[tuple[float, float, float, float]]:
    """What each of the four points of a curve has in the points along it."""
    return [((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3) for t in (i / steps for i in range(steps + 1))]


def _points(parts: Parts, m: Matrix) -> list[tuple[float, float]]:
    """Points along a path, 0.3 mm or less apart."""
    found: list[tuple[float, float]] = []
    at = begin = handle = (0.0, 0.0)
    for part in parts:
        ends = [_at(m, float(part[i]), float(part[i + 1])) for i in range(1, len(part) - 1, 2)]
        if part[0] == "M":
            at = begin = ends[0]
            continue
        x0, y0 = at
        if part[0] in ("L", "Z"):
            at = x3, y3 = ends[0] if ends else begin
            steps = max(2, math.ceil(4 * math.hypot(x3 - x0, y3 - y0)))
            right, down = (x3 - x0) / steps, (y3 - y0) / steps
            found += [(x0 + i * right, y0 + i * down) for i in range(steps + 1)]
            continue
        x1, y1 = ends[0] if part[0] == "C" else (2 * x0 - handle[0], 2 * y0 - handle[1])
        handle = x2, y2 = ends[-2]
        at = x3, y3 = ends[-1]
        steps = max(2, math.ceil(4 * (math.hypot(x1 - x0, y1 - y0) + math.hypot(x2 - x1, y2 - y1) + math.hypot(x3 - x2, y3 - y2))))
        found += [(a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3) for a, b, c, d in _shares(steps)]
    return found


def _walk(items: tuple[Item, ...], m: Matrix, clip: Box) -> Iterator[Thing]:
    for item in items:
        if isinstance(item, Group):
            inner = _times(item.matrix, m) if item.matrix else m
            cut = clip
            if item.clip:
                x, y, wide, tall = item.clip
                (x0, y0), (x1, y1) = _at(inner, x, y), _at(inner, x + wide, y + tall)
                cut = (max(clip[0], x0), max(clip[1], y0), min(clip[2], x1), min(clip[3], y1))
            yield from _walk(item.items, inner, cut)
        elif isinstance(item, Text):
            size = item.size_mm * math.hypot(m[0], m[1])
            wide = text_width_mm(item.words, size, item.face)
            start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
            c, s = math.cos(math.radians(item.turn_deg)), math.sin(math.radians(item.turn_deg))
            x, y = _at(m, item.x, item.y)
            corners = [(x + u * c - v * s, y + u * s + v * c) for u in (start, start + wide) for v in (-0.68 * size, 0.18 * size)]
            xs, ys = [p[0] for p in corners], [p[1] for p in corners]
            yield "words", item.words, (min(xs), min(ys), max(xs), max(ys)), []
        elif isinstance(item, Path):
            if not item.style.stroke and not item.style.fill:
                continue
            points = [(x, y) for x, y in _points(item.parts, m) if clip[0] <= x <= clip[2] and clip[1] <= y <= clip[3]]
            if points:
                yield "line", str(item.style.fill or ""), (0, 0, 0, 0), points
        elif isinstance(item, Use):
            points = [p for path in item.motif.items for p in _points(path.parts, _times(item.matrix, m))]
            yield "piece", item.motif.key, (0, 0, 0, 0), points


_walked: list[tuple[Scene, list[Thing]]] = []  # the last page, of which several things are asked


def walk_scene(scene: Scene) -> list[Thing]:
    """All that stands on a page: words with their boxes, lines and pieces of piping with points along them, clipped."""
    if not _walked or _walked[0][0] is not scene:
        whole = (scene.x_mm, scene.y_mm, scene.x_mm + scene.width_mm, scene.y_mm + scene.height_mm)
        _walked[:] = [(scene, list(_walk(scene.items, IDENTITY, whole)))]
    return _walked[0][1]


def overlaps(scene: Scene) -> list[str]:
    """Every pair of words that lie on each other, and words that a line or a piece of piping runs through; a box of colour under them is none."""
    things = walk_scene(scene)
    words = [(text, box) for kind, text, box, _ in things if kind == "words" and text.strip()]
    found = []
    cells: dict[tuple[int, int], list[int]] = {}
    for i, (_, (x0, y0, x1, y1)) in enumerate(words):
        for column in range(int(x0) // 4, int(x1) // 4 + 1):
            for row in range(int(y0) // 4, int(y1) // 4 + 1):
                cells.setdefault((column, row), []).append(i)
    for i, (text, (x0, y0, x1, y1)) in enumerate(words):
        found += [
            f"“{text}” on “{other}”" for other, (a, b, c, d) in words[i + 1 :] if x0 < c - 0.1 and a < x1 - 0.1 and y0 < d - 0.1 and b < y1 - 0.1
        ]
    for kind, named, _, points in things:
        if kind == "words":
            continue
        hit = set()
        for x, y in points:
            for i in cells.get((int(x) // 4, int(y) // 4), ()):
                a, b, c, d = words[i][1]
                if a + 0.1 < x < c - 0.1 and b + 0.1 < y < d - 0.1:
                    hit.add(words[i][0])
        found += [f"“{text}” on a {kind} {named}" for text in hit]
    return found


def white_boxes(scene: Scene) -> int:
    """How many shapes filled with white a page has, without those of its bars."""
    return sum(kind == "line" and named == "#ffffff" for kind, named, _, _ in _walk(scene.items, IDENTITY, (-1e9, -1e9, 1e9, 1e9)))


def smallest_text_mm(scene: Scene) -> float:
    """The size of the smallest words on a page."""

    def sizes(items: tuple[Item, ...], times: float) -> Iterator[float]:
        for item in items:
            if isinstance(item, Group):
                yield from sizes(item.items, times * (math.hypot(item.matrix[0], item.matrix[1]) if item.matrix else 1.0))
            elif isinstance(item, Text) and item.words.strip():
                yield item.size_mm * times

    return min(sizes(scene.items, 1.0))
