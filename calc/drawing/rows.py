"""A row of piping laid round a tier, on the unrolled side, ready for any view.

Map
---
`RowDrawn`, `TierDrawn`    what is drawn: their own records, so that drawings need no order
`Round`                    a round outline by its width; any outline of `calc.shapes` does as well
`Laid`, `Strand`           one piece of piping laid at a place; one line that hangs or runs on
`lay`                      the pieces and strands of a row
`joints_mm`                where its repeats begin

s runs round the side from the middle of the back, anticlockwise seen from above, so that it runs to the right in front; `down` is measured
from the top edge of the tier.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple, Protocol

from calc.curves import arc_points, catenary_points
from calc.drawing.scene import Point
from calc.tips import Tip

KINDS = ("swag", "ruched swag", "ruched border", "string", "shell", "reverse shell", "bead", "rope", "zigzag", "rosette", "star", "leaf",
         "C scroll", "S scroll", "line")
PLACES = ("side", "top edge", "base", "top", "joints")


class Outlined(Protocol):
    """What a drawing asks of the outline of a tier; every outline of `calc.shapes` has it."""

    @property
    def kind(self) -> str:
        """Its shape in a word."""

    @property
    def width_mm(self) -> float:
        """Its width from left to right."""

    @property
    def perimeter_mm(self) -> float:
        """The length round it."""

    def point(self, s_mm: float) -> tuple[float, float, float]:
        """x, y and heading at a distance round it."""


@dataclass(frozen=True)
class Round:
    """A round outline."""

    width_mm: float
    kind: str = "round"

    @property
    def perimeter_mm(self) -> float:
        """The length round it."""
        return math.pi * self.width_mm

    def point(self, s_mm: float) -> tuple[float, float, float]:
        """x, y and heading at a distance round it."""
        radius = self.width_mm / 2
        angle = s_mm / radius
        return -radius * math.sin(angle), radius * math.cos(angle), math.pi + angle


@dataclass(frozen=True)
class RowDrawn:
    """One row of piping to be drawn.

    `line_mm` is where its reference line lies: below the top edge of the tier for the side and the joints, inwards from the edge for the
    top. `width_mm` is the width of a swag, or of one rosette, star or leaf; `phase` shifts the joints by a part of a repeat; `layers` nests
    swags or strings; `count` is how many pieces go round, `per_joint` how many sit at every joint.
    """

    kind: str
    tip: Tip
    colour: str
    place: str = "side"
    line_mm: float = 0.0
    repeats: int = 0
    width_mm: float | None = None
    drop_mm: float = 0.0
    layers: int = 1
    count: int | None = None
    phase: float = 0.0
    per_joint: int = 1
    bead_mm: float | None = None
    joints: tuple[float, ...] = ()
    name: str = ""

    @property
    def size_mm(self) -> float:
        """The width of what its tip lays down [mm]."""
        if self.bead_mm is not None:
            return self.bead_mm
        known = getattr(self.tip, "bead_width_mm", None)
        if isinstance(known, (int, float)) and self.tip.family not in ("petal", "ruffle", "basket"):
            return float(known)
        return self.tip.opening_mm * (1.0 if self.tip.family in ("petal", "ruffle", "basket", "round") else 1.15)


@dataclass(frozen=True)
class TierDrawn:
    """One tier to be drawn: its finished outline, the height of its foot above the cake board, its own height, coat and rows."""

    outline: Outlined
    base_mm: float
    height_mm: float
    coat_colour: str = "#f4e6cb"
    rows: tuple[RowDrawn, ...] = ()
    name: str = ""


class Laid(NamedTuple):
    """A piece at s round the side and `down` below the top edge, turned clockwise, with the size of its two directions [mm].

    `out_mm` is how far it stands out; `solid` how much of its width is left to see when it is seen from its side.
    """

    piece: str
    s: float
    down: float
    turn: float
    along: float
    across: float
    out_mm: float
    solid: float


class Strand(NamedTuple):
    """A line that hangs or runs on through (s, down), as wide as its bead; `role` is string, line or shadow."""

    points: tuple[Point, ...]
    width_mm: float
    role: str


class RowLaid(NamedTuple):
    """All of a row: what lies beneath (shadows), its strands and its pieces in the order they are piped."""

    shadows: tuple[Strand, ...]
    strands: tuple[Strand, ...]
    pieces: tuple[Laid, ...]


def joints_mm(row: RowDrawn, perimeter_mm: float) -> tuple[float, ...]:
    """Give where the repeats of a row begin.

    Formula: (j + phase) P / n, unless the row brings its own joints.

    Parameters
    ----------
    row : RowDrawn
        The row [-]
    perimeter_mm : float
        Length round the tier P [mm]

    Returns
    -------
    tuple of float
        Distances round the side from the middle of the back [mm]

    Range: any row; none for one without repeats. Leaves out: corners, which the order respects in `joints`.

    Example
    -------
    >>> joints_mm(RowDrawn("swag", Tip("petal", 11.0), "#b9592f", repeats=4), 400)
    (0.0, 100.0, 200.0, 300.0)

    Source: geometry
    """
    if row.joints:
        return row.joints
    return tuple((j + row.phase) * perimeter_mm / row.repeats for j in range(row.repeats))


def _spans(row: RowDrawn, perimeter: float) -> list[tuple[float, float]]:
    """The start and the width of every repeat; a swag narrower than its repeat stands in the middle of it."""
    starts = joints_mm(row, perimeter)
    spans = []
    for i, start in enumerate(starts):
        end = starts[i + 1] if i + 1 < len(starts) else starts[0] + perimeter
        width = end - start
        if row.width_mm and row.kind in ("swag", "ruched swag", "string") and row.width_mm < width * 0.995:
            start += (width - row.width_mm) / 2
            width = row.width_mm
        spans.append((start, width))
    return spans


@lru_cache(maxsize=256)
def _ribbon(width: float, drop: float, step: float) -> tuple[tuple[float, float, float, float], ...]:
    """Even steps along the arc of a swag: x, depth, the slope's angle, and the share of the way (0 to 1)."""
    points = arc_points(width, drop, 48)
    lengths = [0.0]
    for p, q in zip(points, points[1:], strict=False):
        lengths.append(lengths[-1] + math.dist(p, q))
    count = max(3, round(lengths[-1] / step))
    out = []
    at = 0
    for i in range(count):
        want = lengths[-1] * (i + 0.5) / count
        while lengths[at + 1] < want:
            at += 1
        p, q = points[at], points[at + 1]
        share = (want - lengths[at]) / (lengths[at + 1] - lengths[at])
        out.append((p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share, math.atan2(q[1] - p[1], q[0] - p[0]), want / lengths[-1]))
    return tuple(out)


def _swag(row: RowDrawn, perimeter: float) -> RowLaid:
    size = row.size_mm
    piece = "pleat" if row.kind == "ruched swag" else "flute"
    step = size * (0.30 if piece == "pleat" else 0.42)
    shadows: list[Strand] = []
    pieces: list[Laid] = []
    for layer in range(row.layers):
        lift = size * 0.55 * layer
        drop = max(0.0, row.drop_mm)
        for start, width in _spans(row, perimeter):
            shadows.append(Strand(tuple((start + x, row.line_mm - lift + y + size * (0.62 if piece == "flute" else 0.2))
                                        for x, y in arc_points(width, drop, 16)), size, "shadow"))
            for x, y, slope, share in _ribbon(width, drop, step):
                swell = 0.62 + 0.38 * math.sin(math.pi * share) ** 0.7
                down = row.line_mm - lift + y
                pieces.append(Laid(piece, start + x, down, slope * 0.85, size * (0.7 + 0.3 * swell), size * swell, size * 0.5, 0.5))
    return RowLaid(tuple(shadows), (), tuple(pieces))


def _string(row: RowDrawn, perimeter: float) -> RowLaid:
    size = row.size_mm
    shadows: list[Strand] = []
    strands: list[Strand] = []
    for start, width in _spans(row, perimeter):
        for layer in range(row.layers):
            drop = row.drop_mm * (row.layers - layer) / row.layers
            points = tuple((start + x, row.line_mm + y) for x, y in catenary_points(width, drop, 20))
            shadows.append(Strand(tuple((s + size * 0.35, down + size * 0.75) for s, down in points), size * 1.1, "shadow"))
            strands.append(Strand(points, size, "string"))
    return RowLaid(tuple(shadows), tuple(strands), ())


# piece, pitch as a share of the size, size along per pitch, size across per bead, how far it stands out, what is left of it from its side
_RUNS: dict[str, tuple[str, float, float, float, float, float]] = {
    "shell": ("shell", 1.10, 0.93, 1.12, 0.55, 0.75),
    "reverse shell": ("curl", 1.25, 0.92, 0.95, 0.45, 0.6),
    "bead": ("bead", 0.98, 1.0, 1.05, 0.5, 0.9),
    "rope": ("twist", 0.62, 1.45, 1.1, 0.5, 0.7),
    "zigzag": ("zig", 0.55, 1.8, 1.9, 0.4, 0.5),
    "ruched border": ("pleat", 0.31, 3.3, 1.05, 0.5, 0.5),
    "C scroll": ("c scroll", 4.2, 0.9, 0.0, 0.5, 0.5),
    "S scroll": ("s scroll", 4.2, 0.9, 0.0, 0.5, 0.5),
}
# where the middle of a piece stands above the line, as a share of its size across, by place
_LIFTS = {"base": 0.5, "top edge": 0.18, "side": 0.0, "joints": 0.0, "top": 0.0}


def _run(row: RowDrawn, perimeter: float, height: float) -> RowLaid:
    piece, share, along, across, out, solid = _RUNS[row.kind]
    size = row.size_mm
    count = row.count or max(3, round(perimeter / (size * share)))
    pitch = perimeter / count
    high = size * across if across else pitch * along
    line = height if row.place == "base" else row.line_mm
    middle = line - high * _LIFTS[row.place] * (0.9 if piece in ("shell", "bead") else 1.0)
    foot = high * 0.5 if piece in ("shell", "bead") else 0.0
    pieces = []
    for i in range(count):
        flip = -1.0 if piece in ("curl",) and i % 2 else 1.0
        pieces.append(Laid(piece, (i + 0.5 + row.phase) * pitch, middle + foot, 0.0, pitch * along, high * flip, size * out, solid))
    return RowLaid((), (), tuple(pieces))


def _line(row: RowDrawn, perimeter: float, height: float) -> RowLaid:
    size = row.size_mm
    line = (height - size / 2) if row.place == "base" else row.line_mm
    points = tuple((perimeter * i / 96, line) for i in range(97))
    shadow = Strand(tuple((s, down + size * 0.4) for s, down in points), size, "shadow")
    return RowLaid((shadow,), (Strand(points, size, "line"),), ())


# the width of one piece as a multiple of the opening, where no width is given (common practice, no source)
_SINGLES = {"rosette": ("rosette", 3.6), "star": ("star", 1.5), "leaf": ("leaf", 3.0)}


def _single(row: RowDrawn, perimeter: float, height: float) -> RowLaid:
    piece, times = _SINGLES[row.kind]
    size = row.width_mm or row.tip.opening_mm * times
    line = (height - size / 2) if row.place == "base" else row.line_mm
    places = joints_mm(row, perimeter)
    if not places:
        count = row.count or max(3, round(perimeter / (size * 1.02)))
        places = tuple((i + 0.5 + row.phase) * perimeter / count for i in range(count))
    pieces = []
    for s in places:
        for k in range(row.per_joint):
            if piece == "leaf":
                # one leaf hangs; two point to either side and a little down; more fan out between them
                spread = 0.0 if row.per_joint == 1 else 62.0 - 124.0 * k / (row.per_joint - 1)
                turn = math.radians(90 + spread)
                pieces.append(Laid(piece, s + 0.16 * size * math.cos(turn), line + 0.16 * size * math.sin(turn), turn, size, size * 1.05,
                                   size * 0.1, 0.3))
            else:
                spread = (k - (row.per_joint - 1) / 2) * size * 0.95
                pieces.append(Laid(piece, s + spread, line, 0.0, size, size, size * 0.3, 0.45))
    return RowLaid((), (), tuple(pieces))


@lru_cache(maxsize=128)
def lay(row: RowDrawn, perimeter_mm: float, height_mm: float) -> RowLaid:
    """Lay a row round a side.

    Formula: swags along the arc between joints, strings in the catenary, the rest evenly at P/count.

    Parameters
    ----------
    row : RowDrawn
        The row [-]
    perimeter_mm : float
        Length round the tier P [mm]
    height_mm : float
        Height of the tier [mm]

    Returns
    -------
    RowLaid
        Shadows, strands and pieces in the order they are piped [mm]

    Raises
    ------
    ValueError
        The kind of row or its place is not known.

    Range: rows with at most a few thousand pieces. Leaves out: sagging, and the hand that pipes.

    Example
    -------
    >>> len(lay(RowDrawn("shell", Tip("open star", 7.0), "#b9592f", "base", count=80), 660, 100).pieces)
    80

    Source: common-practice
    """
    if row.place not in PLACES:
        raise ValueError(f"a row is drawn at one of {', '.join(PLACES)}, not {row.place!r}")
    if row.kind in ("swag", "ruched swag"):
        return _swag(row, perimeter_mm)
    if row.kind == "string":
        return _string(row, perimeter_mm)
    if row.kind == "line":
        return _line(row, perimeter_mm, height_mm)
    if row.kind in _SINGLES:
        return _single(row, perimeter_mm, height_mm)
    if row.kind in _RUNS:
        return _run(row, perimeter_mm, height_mm)
    raise ValueError(f"a row is one of {', '.join(KINDS)}, not {row.kind!r}")
