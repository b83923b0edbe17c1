"""Grid: whole slices on a grid centred on the top."""

from __future__ import annotations

import math
from functools import lru_cache

from calc.geometry.polygons import Polygon
from calc.portions.layout import FIT, Cut, Layout, whole_number
from calc.portions.top import same_from_the_front, same_from_the_side, top_profile
from calc.shapes import Outline


def whole_slices_in_row(shape: Outline, low_mm: float, high_mm: float, along_mm: float) -> int:
    """Count the whole slices that lie side by side in one row, wherever along the row they start.

    Formula: the sum over the clear spans of the row of the integer part of span / slice.

    Parameters
    ----------
    shape : Outline
        Outline of the sponge [-]
    low_mm : float
        Where the row begins, y from the middle [mm]
    high_mm : float
        Where the row ends [mm]
    along_mm : float
        Size of a slice along the row [mm]

    Returns
    -------
    int
        Whole slices [-]

    Raises
    ------
    ValueError
        The row or the slice has no size.

    Range: any row; one that leaves the top holds none. Leaves out: pieces with rounded ends.

    Example
    -------
    >>> from calc.shapes import outline
    >>> whole_slices_in_row(outline("square", 200), 50, 100, 25)
    8

    Source: oeis-a372847, oeis-a125228
    """
    if not low_mm < high_mm or not along_mm > 0:
        raise ValueError("a row and a slice have positive sizes")
    return sum(whole_number((b - a) / along_mm) for a, b in top_profile(shape, False).clear_spans(low_mm, high_mm))


def grid_count(shape: Outline, across_mm: float, deep_mm: float, middle_across: bool = False, middle_deep: bool = False) -> int:
    """Count the whole slices on one grid centred on the top.

    Formula: in each row, the whole columns inside the clear spans of the row.

    Parameters
    ----------
    shape : Outline
        Outline of the sponge [-]
    across_mm : float
        Size of a slice left to right [mm]
    deep_mm : float
        Size of a slice front to back [mm]
    middle_across : bool
        Whether a column, not a line, lies on the middle [-]
    middle_deep : bool
        Whether a row, not a line, lies on the middle [-]

    Returns
    -------
    int
        Whole slices [-]

    Raises
    ------
    ValueError
        The slice has no size.

    Range: any outline. Leaves out: grids off the middle, and turned ones.

    Example
    -------
    >>> from calc.shapes import outline
    >>> grid_count(outline("round", 8), 1, 1)
    32

    Source: oeis-a261849, oeis-a119677, oeis-a136485
    """
    return sum(last - first for _, first, last in _grid_rows(shape, across_mm, deep_mm, middle_across, middle_deep))


def _grid_rows(shape: Outline, across: float, deep: float, middle_across: bool, middle_deep: bool) -> list[tuple[int, int, int]]:
    """Row number, first column and the column after the last, for every clear span of every row."""
    if not (across > 0 and deep > 0):
        raise ValueError("a slice has a positive width and length")
    x_off = across / 2 * middle_across
    found = []
    for row, a, b in _clear_rows(shape, deep, middle_deep):
        first = math.ceil((a - x_off) / across - FIT * 10)
        last = math.floor((b - x_off) / across + FIT * 10)
        if last > first:
            found.append((row, first, last))
    return found


@lru_cache(maxsize=64)
def _clear_rows(shape: Outline, deep: float, middle_deep: bool) -> tuple[tuple[int, float, float], ...]:
    """Row number and both ends, for every clear span of every row; cached, since it does not depend on the columns."""
    profile = top_profile(shape, False)
    y_off = deep / 2 * middle_deep
    rows = range(math.ceil((profile.bottom - y_off) / deep - FIT), math.floor((profile.top - y_off) / deep + FIT))
    if not shape.convex:
        clear: dict[int, tuple[tuple[float, float], ...]] = {}
        for row in rows:
            mirrored = clear.get(-1 - row - middle_deep) if same_from_the_front(shape) else None
            low = y_off + row * deep
            clear[row] = profile.clear_spans(low, low + deep) if mirrored is None else mirrored
        return tuple((row, a, b) for row in rows for a, b in clear[row])
    # on a convex outline a row is clear between the chords along its two edges
    chords = [profile.chord(y_off + row * deep) for row in range(rows.start, rows.stop + 1)]
    return tuple(
        (row, max(left, next_left), min(right, next_right))
        for row, (left, right), (next_left, next_right) in zip(rows, chords, chords[1:], strict=False)
    )


def count_grid(shape: Outline, short: float, long: float) -> Layout:
    """Count the best of the centred grids, the slice either way round."""
    best = Layout("grid", -1, (short, long))
    # on a top with quarter-turn symmetry, turning the slice only swaps the two middles
    ways = ((short, long),) if short == long or same_from_the_side(shape) else ((short, long), (long, short))
    for across, deep in ways:
        for middle_deep in (False, True):
            for middle_across in (False, True):
                count = grid_count(shape, across, deep, middle_across, middle_deep)
                if count > best.count:
                    best = Layout("grid", count, (across, deep), offsets_mm=(across / 2 * middle_across, deep / 2 * middle_deep))
    return best


def grid_bound(shape: Outline, short: float, long: float) -> int:
    """An upper bound: no row holds more than fits the width at either of its edges, or at a notch in it."""
    profile = top_profile(shape, False)
    mirrored = same_from_the_front(shape)
    best = 0
    for across, deep in {(short, long), (long, short)}:
        for start in (0.0, deep / 2):
            first = -(start > 0) if mirrored else math.ceil((profile.bottom - start) / deep - FIT)
            rows = range(first, math.floor((profile.top - start) / deep + FIT) + 1)
            along = [math.floor(profile.width_at(start + row * deep) / across + FIT * 20) for row in rows]
            fits = list(map(min, along, along[1:]))
            for y, wide in zip(profile.notches, profile.widths_at_notches, strict=True):
                row = math.floor((y - start) / deep) - first
                if 0 <= row < len(fits):
                    fits[row] = min(fits[row], math.floor(wide / across + FIT * 20))
            if mirrored:
                fits += fits[1:] if start else fits
            best = max(best, sum(fits))
    return best


def draw_grid(shape: Outline, layout: Layout) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
    """The pieces and the knife's steps of a counted cut by grid."""
    across, deep = layout.sizes_mm
    x_off, y_off = layout.offsets_mm
    rows = _grid_rows(shape, across, deep, x_off > 0, y_off > 0)
    pieces: list[Polygon] = []
    level: dict[int, list[tuple[float, float]]] = {}
    upright: dict[int, list[tuple[float, float]]] = {}
    for row, first, last in rows:
        y = y_off + row * deep
        for column in range(first, last):
            x = x_off + column * across
            pieces.append(((x, y), (x + across, y), (x + across, y + deep), (x, y + deep)))
        for edge in (row, row + 1):
            level.setdefault(edge, []).append((x_off + first * across, x_off + last * across))
        for edge in range(first, last + 1):
            upright.setdefault(edge, []).append((y, y + deep))
    if not pieces:
        return (), ()
    flat = tuple(((a, y_off + k * deep), (b, y_off + k * deep)) for k, spans in sorted(level.items()) for a, b in _joined(spans))
    tall = tuple(((x_off + k * across, a), (x_off + k * across, b)) for k, spans in sorted(upright.items()) for a, b in _joined(spans))
    start = "the first through the middle" if y_off == 0 else "the first two to either side of the middle"
    return tuple(pieces), (
        Cut(flat, "Cut straight lines from left to right, {0} apart, " + start, (deep,)),
        Cut(tall, "Cut across them from front to back, {0} apart", (across,)),
    )


def _joined(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Spans of one line with those joined that touch: the knife is lifted only over a notch."""
    found: list[tuple[float, float]] = []
    for a, b in sorted(spans):
        if found and a <= found[-1][1] + 1e-6:
            found[-1] = (found[-1][0], max(found[-1][1], b))
        else:
            found.append((a, b))
    return found
