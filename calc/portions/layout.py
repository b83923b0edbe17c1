"""What every cut has in common: a step with the knife, and how a plan was counted."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.geometry.polygons import Polygon
from calc.units import Formatter

FIT = 1e-9  # tolerance: a piece that is short of the slice by less than this share of it still counts


def whole_number(value: float) -> int:
    """The integer part of a value, forgiving a rounding error just below the next integer."""
    return math.floor(value * (1 + FIT) + FIT)


@dataclass(frozen=True)
class Cut:
    """One step with the knife: the lines it follows [mm], and what to do in words.

    `words` has places for `lengths_mm`, so that `sentence` can write them in the reader's units.
    """

    lines: tuple[Polygon, ...]
    words: str
    lengths_mm: tuple[float, ...] = ()

    def sentence(self, say: Formatter = Formatter()) -> str:  # noqa: B008
        """The step as a sentence in the reader's units."""
        return self.words.format(*(say.length(length) for length in self.lengths_mm))


@dataclass(frozen=True)
class Layout:
    """How a cut was counted: enough to draw it. `parts` are strips or rings: from, to, pieces."""

    cut: str
    count: int
    sizes_mm: tuple[float, float]
    turned: bool = False
    offsets_mm: tuple[float, float] = (0.0, 0.0)
    parts: tuple[tuple[float, float, int], ...] = ()

    def scaled(self, scale: float) -> Layout:
        """The same layout on a top `scale` times as large."""
        if scale == 1.0:
            return self
        (x, y), (short, long) = self.offsets_mm, self.sizes_mm
        return Layout(
            self.cut,
            self.count,
            (short * scale, long * scale),
            self.turned,
            (x * scale, y * scale),
            tuple((low * scale, high * scale, count) for low, high, count in self.parts),
        )
