"""Strips: parallel strips as wide as the slice is long, each cut across into pieces of equal area."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache

from calc.geometry.polygons import Point, Polygon, clip, cut_vertically
from calc.geometry.segments import Arc
from calc.geometry.stretches import ends_on, strip_of, strip_sweeps
from calc.geometry.sweep import Sweep, swept
from calc.portions.layout import FIT, Cut, Layout, whole_number
from calc.portions.top import FINE_WITH_NOTCHES, same_from_the_front, same_from_the_side, standard_top, top_profile, top_stretches
from calc.shapes import Outline


def _strip_edges(bottom: float, top: float, long: float, short: float) -> list[list[tuple[float, float]]]:
    """The ways to lay strips: a cut through the middle, a strip on the middle, or strips flush with one edge."""
    ways: list[list[tuple[float, float]]] = []
    middle = (bottom + top) / 2
    slack = FIT * (top - bottom)
    for start in (middle, middle - long / 2, bottom):
        first = math.ceil((bottom - start) / long - FIT)
        last = math.floor((top - start) / long + FIT)
        edges = [start + long * k for k in range(first, last + 1)]
        strips = list(zip(edges, edges[1:], strict=False))
        if not edges:
            edges = [start]
        if edges[0] - bottom >= short - slack:
            strips.insert(0, (bottom, edges[0]))
        if top - edges[-1] >= short - slack:
            strips.append((edges[-1], top))
        if not any(_are_equal(strips, way) for way in ways):
            ways.append(strips)
    return ways


def _are_equal(first: Sequence[tuple[float, float]], second: Sequence[tuple[float, float]]) -> bool:
    return len(first) == len(second) and all(abs(a - c) + abs(b - d) < 1e-6 for (a, b), (c, d) in zip(first, second, strict=True))


def count_strips(shape: Outline, short: float, long: float, over: int = -1) -> Layout:
    """Count the pieces of the best way to lay strips that gives more than `over`; a count of `over` says that there is none."""
    piece = short * long
    ways: list[tuple[int, int, bool, list[tuple[float, float]], list[float], list[int]]] = []
    for turned in (False,) if same_from_the_side(shape) else (False, True):
        profile = top_profile(shape, turned)
        for strips in _strip_edges(profile.bottom, profile.top, long, short):
            areas = profile.areas(strips)
            bounds = [whole_number(area / piece) for area in areas]
            ways.append((-sum(bounds), len(ways), turned, strips, areas, bounds))
    # best-first by upper bound, so that few ways need to be cut; on a tie the first way wins
    best, taken = Layout("strips", over, (short, long)), -1
    for bound, way, turned, strips, areas, bounds in sorted(ways):
        if (-bound, -way) < (best.count, -taken):
            continue
        counts = bounds if shape.convex else _strip_counts(shape, turned, strips, areas, bounds, short, long, best.count + (way > taken))
        if (sum(counts), -way) > (best.count, -taken):
            parts = tuple((low, high, n) for (low, high), n in zip(strips, counts, strict=True))
            best, taken = Layout("strips", sum(counts), (short, long), turned, parts=parts), way
    return best


def _strip_counts(
    shape: Outline,
    turned: bool,
    strips: Sequence[tuple[float, float]],
    areas: Sequence[float],
    bounds: Sequence[int],
    short: float,
    long: float,
    least: int,
) -> list[int]:
    """The pieces of each strip of a top with notches; all zero as soon as they cannot reach `least` any more."""
    counts: list[int] = []
    known: dict[tuple[float, float], int] = {}
    mirrored = turned or same_from_the_front(shape)  # the strips beyond the middle mirror those before it
    profile = top_profile(shape, turned)
    piece = short * long
    reachable = sum(bounds)
    for (low, high), area, bound in zip(strips, areas, bounds, strict=True):
        count = known.get((round(-high, 6), round(-low, 6))) if mirrored else None
        if count is None and profile.is_plain(low, high) and whole_number((area - _polygon_deficit_mm2(shape)) / piece) == bound:
            count = bound
        if count is None:
            count = _notched_count(shape, turned, low, high, piece, short / 2)
        known[round(low, 6), round(high, 6)] = count
        counts.append(count)
        reachable += count - bound
        if reachable < least:
            return [0] * len(strips)
    return counts


@lru_cache(maxsize=512)
def _polygon_deficit_mm2(shape: Outline) -> float:
    """An upper bound for the area by which the fine polygon of an outline with notches is smaller than the outline."""
    arcs = [segment for segment in shape.segments if isinstance(segment, Arc)]
    step = math.fsum(arc.length_mm for arc in arcs) / FINE_WITH_NOTCHES
    # each step cuts off a segment of a circle: r^2 (t - sin t) / 2 < r^2 t^3 / 12, and t is at most step / r
    return math.fsum(math.ceil(arc.length_mm / step) * step**3 / arc.radius / 12 for arc in arcs)


def _notched_count(shape: Outline, turned: bool, low: float, high: float, piece: float, neck: float) -> int:
    """How many pieces a strip of a top with notches gives: what `_strip_cuts` cuts, counted without cutting it."""
    found = 0
    for sweep in strip_sweeps(top_stretches(shape, turned), low, high):
        stops = [0, *sweep.neck_indices(neck), len(sweep.xs) - 1]
        for part in [sweep] if len(stops) == 2 else map(sweep.between, stops, stops[1:]):
            found += _piece_count(part, whole_number(part.area / piece), piece, neck)
    return found


@lru_cache(maxsize=1024)
def _strip_cuts(
    shape: Outline, turned: bool, low: float, high: float, piece: float, neck: float, wanted: int | None
) -> tuple[tuple[Polygon, tuple[float, ...]], ...]:
    """The connected parts of a strip, each with the x of its cuts: equal pieces if every one is connected, else one after another."""
    found = []
    parts = strip_of(top_stretches(shape, turned), low, high)
    sweeps = [swept(part) for part in parts]
    if not shape.convex:  # where a notch leaves only a neck, the strip is divided
        necks = sorted({x for sweep in sweeps for x in sweep.necks(neck)})
        for x in necks:
            parts = clip(parts, 0, x, False) + clip(parts, 0, x, True)
        if necks:
            sweeps = [swept(part) for part in parts]
    for part, sweep in zip(parts, sweeps, strict=True):
        count = wanted if wanted is not None else whole_number(sweep.area / piece)
        if count >= 1:
            found.append((part, _cut_positions(sweep, count, piece, neck)))
    return tuple(found)


def _cut_positions(sweep: Sweep, count: int, piece: float, neck: float) -> tuple[float, ...]:
    """The x of the cuts that leave every piece connected: equal pieces if they are, else one piece after another."""
    if _is_even(sweep, count, neck):
        return tuple(sweep.x_at(sweep.area * k / count) for k in range(1, count))
    return _uneven_positions(sweep, piece, neck)


def _piece_count(sweep: Sweep, count: int, piece: float, neck: float) -> int:
    """How many pieces those cuts make."""
    return count if _is_even(sweep, count, neck) else len(_uneven_positions(sweep, piece, neck)) + 1


def _is_even(sweep: Sweep, count: int, neck: float) -> bool:
    """Whether equal pieces are all connected."""
    if max(sweep.crossed) == 2:
        return True
    spans = [(sweep.area_at(low), sweep.area_at(high)) for low, high in sweep.clean_spans(neck)]
    return all(any(low <= sweep.area * k / count <= high for low, high in spans) for k in range(1, count))


def _uneven_positions(sweep: Sweep, piece: float, neck: float) -> tuple[float, ...]:
    """The x of cuts made one after another, each at the first place where the piece is large enough and connected."""
    clean = sweep.clean_spans(neck)
    found: list[float] = []
    done = 0.0
    while True:
        x = sweep.x_at(done + piece)
        later = [max(low, x) for low, high in clean if high >= x]
        if not later or sweep.area - sweep.area_at(later[0]) < piece * (1 - FIT):
            return tuple(found)
        found.append(later[0])
        done = sweep.area_at(later[0])


def _to_plan(points: Iterable[Point], turned: bool, scale: float) -> Polygon:
    """Points of the view in which strips are cut (turned or not, at another scale) as points of the plan."""
    return tuple([(-y / scale, x / scale) if turned else (x / scale, y / scale) for x, y in points])


def draw_strips(shape: Outline, slice_mm: tuple[float, float], layout: Layout) -> tuple[tuple[Polygon, ...], tuple[Cut, ...]]:
    """The pieces and the knife's steps of a top cut into strips; the layout is that of the standard top."""
    standard, scale = standard_top(shape)
    short, long = slice_mm[0] * scale, slice_mm[1] * scale
    turned = layout.turned
    polygon = top_stretches(standard, turned)
    profile = top_profile(standard, turned)
    slack = 1e-6 * (profile.top - profile.bottom)  # no knife goes along the edge itself
    edges = sorted({round(y, 9) for low, high, _ in layout.parts for y in (low, high) if profile.bottom + slack < y < profile.top - slack})
    lines = [_to_plan(((ends[0], y), (ends[1], y)), turned, scale) for y in edges for ends in (ends_on(polygon, y),) if ends]
    pieces: list[Polygon] = []
    steps: list[Cut] = []
    if lines:
        run = "from front to back" if turned else "from left to right"
        many = "one straight cut" if len(lines) == 1 else f"{len(lines)} straight cuts"
        apart = " {0} apart" if len(lines) > 1 else ""
        steps.append(Cut(tuple(lines), f"Make {many} {run}{apart}", (slice_mm[1],) if apart else ()))
    side = "left" if turned else "front"
    for number, (low, high, count) in enumerate(layout.parts, start=1):
        if count < 1:
            continue
        parts = sorted(
            _strip_cuts(standard, turned, low, high, short * long, short / 2, count if standard.convex else None), key=lambda cut: min(cut[0])
        )
        across: list[Polygon] = []
        for part, xs in parts:
            cut, ends = cut_vertically(part, xs)
            pieces += [_to_plan(piece, turned, scale) for piece in cut]
            across += [_to_plan(line, turned, scale) for line in ends]
        name = "the cake" if len(layout.parts) == 1 else f"strip {number} from the {side}"
        if count == 1:
            steps.append(Cut((), f"Leave {name} whole: one piece"))
        else:
            even = "equal pieces" if shape.convex or len(parts) == 1 else "pieces"
            steps.append(Cut(tuple(across), f"Cut {name} across into {count} {even}"))
    return tuple(pieces), tuple(steps)
