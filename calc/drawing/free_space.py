"""Where words fit on a drawing without lying on one of its lines.

Map
---
`FreeSpace`     a rectangle with what is taken of it: lines, then one box of words after another
`line_points`   points along the lines of a path
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from calc.drawing.scene import Parts, Point

CURVE_STEPS = 8  # of a cubic curve
CLEAR_MM = 0.5  # between words and a line


class Box(NamedTuple):
    """A rectangle [mm]."""

    left: float
    top: float
    right: float
    bottom: float


def line_points(parts: Parts) -> Iterator[list[Point]]:
    """Give the points along each line of a path, curves cut into chords."""
    line: list[Point] = []
    handle: Point = (0.0, 0.0)
    for part in parts:
        numbers = [float(v) for v in part[1:]]
        if part[0] == "M":
            if len(line) > 1:
                yield line
            line = [(numbers[0], numbers[1])]
        elif part[0] == "L":
            line.append((numbers[0], numbers[1]))
        elif part[0] == "Z":
            line.append(line[0])
        else:
            (x0, y0), end = line[-1], (numbers[-2], numbers[-1])
            last = (numbers[-4], numbers[-3])
            first = (numbers[0], numbers[1]) if part[0] == "C" else (2 * x0 - handle[0], 2 * y0 - handle[1])
            for i in range(1, CURVE_STEPS + 1):
                t = i / CURVE_STEPS
                a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
                line.append((a * x0 + b * first[0] + c * last[0] + d * end[0], a * y0 + b * first[1] + c * last[1] + d * end[1]))
            handle = last
    if len(line) > 1:
        yield line


class FreeSpace:
    """A rectangle in which words are placed, on a grid of 1 mm: cells that a line runs through are taken, and boxes of words."""

    def __init__(self, box: Box) -> None:
        self.box = box
        self.columns, self.rows = math.ceil(box.right - box.left) + 1, math.ceil(box.bottom - box.top) + 1
        self.cells = [bytearray(self.columns) for _ in range(self.rows)]
        self.boxes: list[Box] = []
        self.sums: list[list[int]] = []

    def add_line(self, points: Sequence[Point]) -> None:
        """Take the cells that a line runs through."""
        left, top = self.box.left, self.box.top
        for (x0, y0), (x1, y1) in pairwise(points):
            steps = max(1, math.ceil(2.5 * max(abs(x1 - x0), abs(y1 - y0))))
            for i in range(steps + 1):
                column, row = int(x0 + (x1 - x0) * i / steps - left), int(y0 + (y1 - y0) * i / steps - top)
                if 0 <= column < self.columns and 0 <= row < self.rows:
                    self.cells[row][column] = 1
        self.sums = []

    def add_path(self, parts: Parts) -> None:
        """Take the cells that the lines of a path run through."""
        for line in line_points(parts):
            self.add_line(line)

    def is_free(self, box: Box) -> bool:
        """Whether a box lies inside, on no line and on no other box."""
        left, top, right, bottom = box
        whole = self.box
        if left < whole.left or top < whole.top or right > whole.right or bottom > whole.bottom:
            return False
        left, top, right, bottom = left - CLEAR_MM, top - CLEAR_MM, right + CLEAR_MM, bottom + CLEAR_MM
        if not self.sums:  # of the cells above and to the left of each corner of the grid
            self.sums = [[0] * (self.columns + 1)]
            for row in self.cells:
                self.sums.append([above + along for above, along in zip(self.sums[-1], (0, *accumulate(row)), strict=True)])
        x0, y0 = max(0, int(left - whole.left)), max(0, int(top - whole.top))
        x1, y1 = min(self.columns, int(right - whole.left) + 1), min(self.rows, int(bottom - whole.top) + 1)
        if self.sums[y1][x1] - self.sums[y0][x1] - self.sums[y1][x0] + self.sums[y0][x0]:
            return False
        for its_left, its_top, its_right, its_bottom in self.boxes:
            if left < its_right and its_left < right and top < its_bottom and its_top < bottom:
                return False
        return True

    def take(self, boxes: Iterable[Box]) -> Box | None:
        """Take the first of some boxes that is free."""
        for box in boxes:
            if self.is_free(box):
                self.boxes.append(box)
                return box
        return None
