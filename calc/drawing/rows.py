"""A row of piping laid round a tier, on the unrolled side, ready for any view.

Map
---
`TierDrawn`                what is drawn of a tier: its own record, so that drawings need no order; its rows are `PlacedRow`s
`Laid`, `Strand`, `Ribbon` one piece of piping laid at a place; one line that hangs or runs on; one ribbon from joint to joint
`lay`                      the pieces and strands of a row
`joints_mm`, `scroll_lines`    where its repeats begin; the lines of its scrolls

s runs round the side from the middle of the back, anticlockwise seen from above, so that it runs to the right in front; `down` is measured
from the top edge of the tier.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from calc.curves import arc_length_mm, arc_points, arc_radius_mm, catenary_points
from calc.drawing.scene import Point
from calc.rows import KINDS, layer_drops_mm, natural_pitch_mm, scroll_points
from calc.rows.kinds.leaf import LEAF_LENGTH
from calc.rows.kinds.rope import ROPE_WIDTH
from calc.rows.kinds.rosette import ROSETTE_WIDTH
from calc.rows.kinds.shell import SHELL_HEIGHT
from calc.rows.kinds.star import STAR_WIDTH
from calc.rows.placement import PLACES, PlacedRow
from calc.shapes import Outline
from calc.tips import ruche_mm


@dataclass(frozen=True)
class TierDrawn:
    """One tier to be drawn: its finished outline, the height of its foot above the cake board, its own height, coat and rows.

    `bands` are parts of the coat in another colour, (from, to, colour), heights above its own foot [mm].
    """

    outline: Outline
    base_mm: float
    height_mm: float
    coat_colour: str = "#f4e6cb"
    rows: tuple[PlacedRow, ...] = ()
    name: str = ""
    bands: tuple[tuple[float, float, str], ...] = ()


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


class Ribbon(NamedTuple):
    """A ribbon between an upper edge, smooth where it lies on the cake, and a lower edge that stands `out_mm` away and waves.

    Both edges are points (s, down), as many of each; `WAVE` of them make one wave of the lower edge, which begins on a crest.
    """

    upper: tuple[Point, ...]
    lower: tuple[Point, ...]
    out_mm: float


WAVE = 4


class RowLaid(NamedTuple):
    """All of a row: what lies beneath (shadows), its strands, its pieces in the order they are piped, and its ribbons."""

    shadows: tuple[Strand, ...]
    strands: tuple[Strand, ...]
    pieces: tuple[Laid, ...]
    ribbons: tuple[Ribbon, ...] = ()


def joints_mm(row: PlacedRow, perimeter_mm: float) -> tuple[float, ...]:
    """Give where the repeats of a row begin.

    Formula: (j + phase) P / n, unless the row brings its own joints.

    Parameters
    ----------
    row : PlacedRow
        The row [-]
    perimeter_mm : float
        Length round the tier P [mm]

    Returns
    -------
    tuple of float
        Distances round the side from the middle of the back [mm]

    Raises
    ------
    ValueError
        Never.

    Range: any row; none for one without repeats. Leaves out: corners, which the order respects in `joints`.

    Example
    -------
    >>> from calc.tips import Tip
    >>> joints_mm(PlacedRow("swag", Tip("petal", 11.0), "#b9592f", repeats=4), 400)
    (0.0, 100.0, 200.0, 300.0)

    Source: geometry
    """
    if row.joints:
        return row.joints
    return tuple((j + row.shift) * perimeter_mm / row.repeats for j in range(row.repeats))


def spans(row: PlacedRow, perimeter: float) -> list[tuple[float, float]]:
    """Give the start and the width of every repeat of a row.

    Formula: from joint to joint; a swag narrower than its repeat stands in the middle of it.

    Parameters
    ----------
    row : PlacedRow
        The row [-]
    perimeter : float
        Length round the tier [mm]

    Returns
    -------
    list of (float, float)
        Start, round the side from the middle of the back, and width [mm]

    Raises
    ------
    ValueError
        Never.

    Range: any row; none for one without repeats. Leaves out: nothing.

    Example
    -------
    >>> from calc.tips import Tip
    >>> spans(PlacedRow("swag", Tip("petal", 11.0), "#b9592f", repeats=2, width_mm=90.0), 200.0)
    [(5.0, 90.0), (105.0, 90.0)]

    Source: geometry
    """
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
    """Even steps along the arc of a swag: x, depth, the slope's angle, and the share of the way (0 to 1).

    From the circle itself: a slope taken from chords would flip at the middle with the last digit of a length.
    """
    far = arc_length_mm(width, drop)
    count = max(3, round(far / step))
    shares = [(i + 0.5) / count for i in range(count)]
    if drop < 1e-9 * width:
        return tuple((width * share, 0.0, 0.0, share) for share in shares)
    radius, half = arc_radius_mm(width, drop), 2 * math.atan(2 * drop / width)
    turns = [half * (2 * share - 1) for share in shares]
    return tuple((width / 2 + radius * math.sin(t), drop - radius * (1 - math.cos(t)), -t, share) for t, share in zip(turns, shares, strict=True))


def _wobble(index: int, seed: float) -> float:
    """A small number between -1 and 1, the same each time: no hand pipes two pieces alike."""
    return math.sin(index * 12.9898 + seed * 7.13) * math.cos(index * 4.1414 + seed)


def _swell(share: float) -> float:
    """How deep a swag is at a share of its way, over its full depth: narrow at the joints, full in the middle."""
    return 0.46 + 0.54 * math.pow(max(0.0, math.sin(math.pi * share)), 0.55)


def _ribbons(row: PlacedRow, start: float, width: float, drop: float) -> Ribbon:
    """The ribbon of one swag: along its arc, full in the middle, its free edge in even waves."""
    size = row.size_mm
    far = arc_length_mm(width, drop)
    waves = max(3, round(far / (size * 1.2)))
    upper, lower = [], []
    for k, (x, y, slope, share) in enumerate(_ribbon(width, drop, far / (waves * WAVE + 1))):
        deep = size * _swell(share)
        wave = 0.085 * deep * math.cos(math.tau * k / WAVE) * (1 + 0.3 * _wobble(k // WAVE, width))
        c, n = math.cos(slope * 0.72), math.sin(slope * 0.72)
        upper.append((start + x + 0.5 * deep * n, row.line_mm + y - 0.5 * deep * c))
        lower.append((start + x - (0.5 * deep + wave) * n, row.line_mm + y + (0.5 * deep + wave) * c))
    return Ribbon(tuple(upper), tuple(lower), size * 0.5)


def _swag(row: PlacedRow, perimeter: float) -> RowLaid:
    size = row.size_mm
    ruched = row.kind == "ruched swag"
    step = ruche_mm(row.tip)[1] * 0.62  # folds of a rocked tip lie an advance apart
    shadows: list[Strand] = []
    pieces: list[Laid] = []
    ribbons: list[Ribbon] = []
    drops = layer_drops_mm(row.kind, row.tip, row.drop_mm, row.layers)
    for drop in drops:
        for start, width in spans(row, perimeter):
            shadows.append(Strand(tuple((start + x, row.line_mm + y + size * 0.42) for x, y in arc_points(width, drop, 8)), size, "shadow"))
            if not ruched:
                ribbons.append(_ribbons(row, start, width, drop))
                continue
            for i, (x, y, slope, share) in enumerate(_ribbon(width, drop, step)):
                swell = _swell(share)
                turn = slope * 0.9 + 0.06 * _wobble(i, drop)
                tall = size * swell * (1 + 0.05 * _wobble(i, width))
                pieces.append(Laid("pleat", start + x, row.line_mm + y, turn, step * 3.1 * (0.62 + 0.38 * swell), tall, size * 0.5, 0.5))
    return RowLaid(tuple(shadows), (), tuple(pieces), tuple(ribbons))


def _string(row: PlacedRow, perimeter: float) -> RowLaid:
    size = row.size_mm
    shadows: list[Strand] = []
    strands: list[Strand] = []
    for start, width in spans(row, perimeter):
        for drop in layer_drops_mm(row.kind, row.tip, row.drop_mm, row.layers):
            points = tuple((start + x, row.line_mm + y) for x, y in catenary_points(width, drop, 12))
            shadows.append(Strand(tuple((s + size * 0.35, down + size * 0.75) for s, down in points), size * 1.1, "shadow"))
            strands.append(Strand(points, size, "string"))
    return RowLaid(tuple(shadows), tuple(strands), ())


# the piece, its reach along the row over the pitch, what is left of its width when it is seen from its side
_RUNS: dict[str, tuple[str, float, float]] = {
    "shell": ("shell", 0.95, 0.55),
    "reverse shell": ("curl", 0.92, 0.6),
    "bead": ("bead", 1.0, 0.9),
    "rope": ("twist", 1.55, 0.7),
    "zigzag": ("zig", 1.75, 0.5),
    "ruched border": ("pleat", 3.1, 0.5),
}


def _run_sizes(row: PlacedRow, perimeter: float) -> tuple[float, float, float]:
    """Natural pitch, the height of a piece of the run and how far it stands out [mm]."""
    size, tip = row.size_mm, row.tip
    match row.kind:
        case "shell":
            return natural_pitch_mm("shell", tip), tip.opening_mm * SHELL_HEIGHT * (1.0 if row.place == "base" else 1.12), size * 0.6
        case "reverse shell":
            return natural_pitch_mm("reverse shell", tip), tip.opening_mm * 1.25, size * 0.5
        case "bead":
            pitch = natural_pitch_mm("bead", tip, row.width_mm)
            return pitch, pitch * 1.1, pitch * 0.5
        case "rope":
            return natural_pitch_mm("rope", tip) * 0.8, size * ROPE_WIDTH, size * 0.6
        case "zigzag":
            return size * 0.95, size * 2.2, size * 0.5
        case _:
            return ruche_mm(tip)[1] * 0.62, size * 1.02, size * 0.5


def _run(row: PlacedRow, perimeter: float, height: float) -> RowLaid:
    piece, reach, solid = _RUNS[row.kind]
    natural, high, out = _run_sizes(row, perimeter)
    counted = row.count if row.kind not in ("ruched border", "zigzag") else None
    count = min(4000, counted or max(3, round(perimeter / natural)))
    pitch = perimeter / count
    along = pitch * reach
    middle = height - high / 2 if row.place == "base" else row.line_mm
    if row.place == "top edge":
        middle -= high * 0.12
    foot = high * 0.46 if piece in ("shell", "bead") else 0.0
    pieces = []
    for i in range(count):
        flip = -1.0 if piece == "curl" and i % 2 else 1.0
        loose = 0.035 * _wobble(i, high)
        pieces.append(Laid(piece, (i + 0.5 + row.shift) * pitch, middle + foot, loose, along, high * flip * (1 + loose), out, solid))
    return RowLaid((), (), tuple(pieces))


def scroll_lines(row: PlacedRow, perimeter: float) -> list[tuple[Point, ...]]:
    """Give the line of every scroll of a row on the unrolled side.

    Formula: the points of `calc.rows.scroll_points`, one scroll in the middle of each repeat.

    Parameters
    ----------
    row : PlacedRow
        A row of C or S scrolls [-]
    perimeter : float
        Length round the tier [mm]

    Returns
    -------
    list of tuple of (float, float)
        Points of each scroll: s round the side and depth below the top edge [mm]

    Raises
    ------
    ValueError
        The row is not of scrolls.

    Range: any row of scrolls; none for one without repeats. Leaves out: the swelling of the line.

    Example
    -------
    >>> from calc.tips import Tip
    >>> len(scroll_lines(PlacedRow("C scroll", Tip("round", 3.0), "#ffffff", repeats=6), 600.0))
    6

    Source: geometry
    """
    found = []
    for start, pitch in spans(row, perimeter):
        wide = row.width_mm or pitch * 0.78
        points = scroll_points(row.kind, wide, row.drop_mm or wide * 0.35, 16)
        found.append(tuple((start + (pitch - wide) / 2 + x, row.line_mm + y) for x, y in points))
    return found


def _scrolls(row: PlacedRow, perimeter: float) -> RowLaid:
    """C and S scrolls, one to each repeat; they follow the points of `calc.rows.scroll_points`."""
    strands = [Strand(points, row.size_mm * 1.25, "scroll") for points in scroll_lines(row, perimeter)]
    shadows = tuple(
        Strand(tuple((s + one.width_mm * 0.2, down + one.width_mm * 0.35) for s, down in one.points[::2]), one.width_mm * 0.8, "shadow")
        for one in strands
    )
    return RowLaid(shadows, tuple(strands), ())


def _line(row: PlacedRow, perimeter: float, height: float) -> RowLaid:
    size = row.size_mm
    line = (height - size / 2) if row.place == "base" else row.line_mm
    points = tuple((perimeter * i / 96, line) for i in range(97))
    shadow = Strand(tuple((s, down + size * 0.4) for s, down in points), size, "shadow")
    return RowLaid((shadow,), (Strand(points, size, "line"),), ())


_SINGLES = ("rosette", "star", "leaf")
_USUAL = {"star": STAR_WIDTH, "leaf": LEAF_LENGTH}


def _single(row: PlacedRow, perimeter: float, height: float) -> RowLaid:
    piece = row.kind
    size = row.width_mm or (row.size_mm * ROSETTE_WIDTH if piece == "rosette" else row.tip.opening_mm * _USUAL[piece])
    line = (height - size / 2) if row.place == "base" else row.line_mm
    places = joints_mm(row, perimeter) if row.place == "joints" or row.count is None else ()
    if not places:
        count = row.count or max(3, round(perimeter / (size * 1.02)))
        places = tuple((i + 0.5 + row.shift) * perimeter / count for i in range(count))
    pieces = []
    for s in places:
        for k in range(row.per_joint):
            if piece == "leaf":
                # one leaf hangs; two point to either side and a little down; more fan out between them
                spread = 0.0 if row.per_joint == 1 else 62.0 - 124.0 * k / (row.per_joint - 1)
                turn = math.radians(90 + spread)
                pieces.append(
                    Laid(piece, s + 0.16 * size * math.cos(turn), line + 0.16 * size * math.sin(turn), turn, size, size * 1.05, size * 0.1, 0.3)
                )
            else:
                spread = (k - (row.per_joint - 1) / 2) * size * 0.95
                pieces.append(Laid(piece, s + spread, line, 0.0, size, size, size * 0.3, 0.45))
    return RowLaid((), (), tuple(pieces))


@lru_cache(maxsize=128)
def lay(row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
    """Lay a row round a side.

    Formula: swags along the arc between joints, strings in the catenary, the rest evenly at P/count.

    Parameters
    ----------
    row : PlacedRow
        The row [-]
    perimeter_mm : float
        Length round the tier P [mm]
    height_mm : float
        Height of the tier [mm]

    Returns
    -------
    RowLaid
        Shadows, strands, pieces in the order they are piped, and ribbons [mm]

    Raises
    ------
    ValueError
        The kind of row or its place is not known.

    Range: rows with at most a few thousand pieces. Leaves out: sagging, and the hand that pipes.

    Example
    -------
    >>> from calc.tips import Tip
    >>> len(lay(PlacedRow("shell", Tip("open star", 7.0), "#b9592f", "base", count=80), 660, 100).pieces)
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
    if row.kind in ("C scroll", "S scroll"):
        return _scrolls(row, perimeter_mm)
    if row.kind in _SINGLES:
        return _single(row, perimeter_mm, height_mm)
    if row.kind in _RUNS:
        return _run(row, perimeter_mm, height_mm)
    raise ValueError(f"a row is one of {', '.join(KINDS)}, not {row.kind!r}")
