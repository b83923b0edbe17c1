"""The side of a tier laid flat, at 1:1: what gets marked.

Map
---
`marked`         joints, arcs, strings, guide tape, bands of a tier from (0, 0), the top edge at the back, row by row
`marks`          all of them in one list, with the names of the rows where they fit
`row_lines`      the curves of one row
`name_row`       the name of a row in the free space beside its lines
`unrolled`       the same as a drawing, piped or not

s runs to the right from the middle of the back, where it starts and closes; the top edge is y = 0. What passes the closing line is drawn
again where it goes on, at 0.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from calc.curves import arc_radius_mm
from calc.drawing.faces import broken, text_width_mm
from calc.drawing.free_space import Box, FreeSpace, line_points
from calc.drawing.marks import cross, label, rule
from calc.drawing.motifs import SHADOW_COLOUR, motif, ribbon, strand_paths
from calc.drawing.motifs.c_scroll_look import scroll_lines
from calc.drawing.motifs.laid import WAVE, RowLaid, joints_mm, spans
from calc.drawing.scene import (
    CAKE,
    GUIDE_DASH,
    GUIDE_LINE,
    INK,
    LINE,
    THIN,
    Group,
    Item,
    Parts,
    Path,
    Point,
    Scene,
    Style,
    Use,
    arc,
    circle,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.tiers import TierDrawn, lay
from calc.drawing.views import band_mm
from calc.rows import layer_drops_mm
from calc.rows.placement import PlacedRow, guide_tape
from calc.units import Formatter, capitalised

DOTS = Style(stroke=INK, width_mm=1.0, role="line", dash=(0.0, 5.0))
BAND = Style(stroke="#0a6a62", width_mm=0.25, role="guide", dash=(0.6, 1.2))
CORNER = Style(stroke=INK, width_mm=0.3, role="line", dash=(5.0, 1.5, 0.6, 1.5))
# rows of one kind are told apart by their lines; the first is solid, or dots 5 mm apart to prick through
DASHES: tuple[tuple[float, ...], ...] = ((), (6.0, 2.4), (2.4, 1.8), (7.0, 1.8, 1.2, 1.8))
PRICKS: tuple[tuple[float, ...], ...] = ((0.0, 5.0), (2.6, 3.4), (0.0, 2.5), (2.6, 2.2, 0.0, 2.2))
SAMPLE_MM = 9.0  # of a line, before a name that stands away from it
NAME_MM = 3.2  # size of the names of rows


def swag_parts(start_mm: float, line_mm: float, width_mm: float, drop_mm: float) -> Parts:
    """Give the arc of one swag as true parts of a circle."""
    if drop_mm < 1e-6 * width_mm:
        return (("M", start_mm, line_mm), ("L", start_mm + width_mm, line_mm))
    radius = arc_radius_mm(width_mm, drop_mm)
    half = math.degrees(2 * math.atan(2 * drop_mm / width_mm))
    return arc(start_mm + width_mm / 2, line_mm + drop_mm - radius, radius, 90 + half, 90 - half)


def piped(tier: TierDrawn, row: PlacedRow, from_mm: float = 0.0, to_mm: float | None = None, cut: bool = False) -> Group:
    """Draw a row on the flat side in its colour."""
    perimeter_mm = tier.outline.perimeter_mm
    end = perimeter_mm if to_mm is None else to_mm
    laid = lay(row, perimeter_mm, tier.height_mm)
    items: list[Item] = []
    for shadow in laid.shadows:
        under = [(s + shadow.width_mm * 0.1, down) for s, down in shadow.points if from_mm - 1 <= s <= end + 1]
        if len(under) == len(shadow.points) or (cut and len(under) > 1):
            soft = smooth(under)
            items += [Path(soft, Style(stroke=SHADOW_COLOUR, width_mm=shadow.width_mm * share, opacity=0.05)) for share in (1.4, 1.05, 0.7)]
    for one in laid.ribbons:
        kept = [k for k in range(len(one.upper)) if from_mm - 1 <= one.upper[k][0] <= end + 1]
        kept = kept if cut else kept if len(kept) == len(one.upper) else []
        items += ribbon([one.upper[k] for k in kept], [one.lower[k] for k in kept], row.colour, WAVE)
    for piece, s, down, turn, along, across, _, _ in laid.pieces:
        if from_mm <= s <= end:
            c, n = math.cos(turn), math.sin(turn)
            items.append(Use(motif(piece, row.colour), (c * along / 100, n * along / 100, -n * across / 100, c * across / 100, s, down)))
    for strand in laid.strands:
        points = [(s, down) for s, down in strand.points if from_mm - 1 <= s <= end + 1]
        if len(points) == len(strand.points) or ((cut or strand.role == "ridged") and len(points) > 1):
            items += strand_paths(points, strand.width_mm, strand.role, row.colour)
    if to_mm is None and from_mm == 0.0 and not cut:
        items += _past_the_end(laid, row, perimeter_mm, tier.height_mm)
    return Group(tuple(items), _named(row))


def _past_the_end(laid: RowLaid, row: PlacedRow, perimeter_mm: float, height: float) -> list[Item]:
    """The part of a row that passes the closing line: cut off there, and drawn again from 0."""

    def passes(points: Sequence[Point]) -> bool:
        return any(not -1 <= s <= perimeter_mm + 1 for s, _ in points)

    items: list[Item] = []
    for move in (-perimeter_mm, 0.0, perimeter_mm):
        for shadow in laid.shadows:
            if passes(shadow.points):
                soft = smooth([(s + move + shadow.width_mm * 0.1, down) for s, down in shadow.points])
                items += [Path(soft, Style(stroke=SHADOW_COLOUR, width_mm=shadow.width_mm * share, opacity=0.05)) for share in (1.4, 1.05, 0.7)]
        for one in laid.ribbons:
            if passes(one.upper):
                items += ribbon([(s + move, y) for s, y in one.upper], [(s + move, y) for s, y in one.lower], row.colour, WAVE)
        for piece, s, down, turn, along, across, _, _ in laid.pieces:
            if not 0 <= s <= perimeter_mm and 0 <= s + move <= perimeter_mm:
                c, n = math.cos(turn), math.sin(turn)
                matrix = (c * along / 100, n * along / 100, -n * across / 100, c * across / 100, s + move, down)
                items.append(Use(motif(piece, row.colour), matrix))
        for strand in laid.strands:
            if passes(strand.points):
                items += strand_paths([(s + move, down) for s, down in strand.points], strand.width_mm, strand.role, row.colour)
    return [Group(tuple(items), clip=(0.0, -100.0, perimeter_mm, height + 200.0))] if items else []


def _cut_line(points: Sequence[Point], left: float, right: float) -> Iterator[list[Point]]:
    """The parts of a line between two places along the side."""
    part: list[Point] = []
    for (x0, y0), (x1, y1) in pairwise(points):
        run = x1 - x0
        if abs(run) < 1e-12:
            begin, end = (0.0, 1.0) if left <= x0 <= right else (1.0, 0.0)
        else:
            near, far = sorted(((left - x0) / run, (right - x0) / run))
            begin, end = max(0.0, near), min(1.0, far)
        if begin >= end:
            if part:
                yield part
            part = []
            continue
        if begin > 0 and part:
            yield part
            part = []
        if not part:
            part = [(x0 + run * begin, y0 + (y1 - y0) * begin)]
        part.append((x1, y1) if end == 1.0 else (x0 + run * end, y0 + (y1 - y0) * end))
        if end < 1.0:
            yield part
            part = []
    if part:
        yield part


def _cut_arc(x: float, y: float, radius: float, half: float, left: float, right: float) -> Iterator[Parts]:
    """The parts of an arc that hangs from 90 + half to 90 - half degrees, between two places along the side."""
    stops = [90 + half, 90 - half]
    for edge in (left, right):
        if abs(edge - x) < radius:
            lean = math.degrees(math.acos((edge - x) / radius))
            stops += [way for way in (lean, -lean, 360 - lean) if 90 - half < way < 90 + half]
    stops.sort(reverse=True)
    kept: list[tuple[float, float]] = []
    for begin, end in pairwise(stops):
        if begin - end > 1e-7 and left <= x + radius * math.cos(math.radians((begin + end) / 2)) <= right:
            if kept and kept[-1][1] - begin < 1e-6:
                begin = kept.pop()[0]
            kept.append((begin, end))
    for begin, end in kept:
        yield arc(x, y, radius, begin, end)


def row_lines(row: PlacedRow, perimeter_mm: float, left: float = -math.inf, right: float = math.inf) -> list[Parts]:
    """Give the curves of a row that hangs, and of scrolls, between two places along a side; arcs are true parts of circles.

    Where a part of the side is asked for, what passes its closing line, at `perimeter_mm`, goes on from 0.
    """
    moves = (-perimeter_mm, 0.0, perimeter_mm) if math.isfinite(right - left) else (0.0,)
    found: list[Parts] = []
    fine: Sequence[Sequence[Point]] = ()
    for number, points in enumerate(scroll_lines(row, perimeter_mm) if row.what.scroll else ()):
        for move in moves:
            if all(left <= x + move <= right for x, _ in points):
                found.append(smooth([(x + move, y) for x, y in points]))
            elif any(left <= x + move <= right for x, _ in points):
                fine = fine or scroll_lines(row, perimeter_mm, 160)
                found += [polyline(part) for part in _cut_line([(x + move, y) for x, y in fine[number]], left, right)]
    for start, width in spans(row, perimeter_mm) if row.what.hangs else ():
        for drop in layer_drops_mm(row.kind, row.tip, row.drop_mm, row.layers):
            for at in (start + move for move in moves):
                reach = max(width, drop)  # an arc deeper than half its width bulges past its joints
                if at + width + reach < left or at - reach > right:
                    continue
                if drop < 1e-6 * width:
                    found += [polyline(part) for part in _cut_line([(at, row.line_mm), (at + width, row.line_mm)], left, right)]
                elif row.what.curve == "arc":
                    radius, half = arc_radius_mm(width, drop), math.degrees(2 * math.atan(2 * drop / width))
                    found += _cut_arc(at + width / 2, row.line_mm + drop - radius, radius, half, left, right)
                elif left <= at and at + width <= right:
                    found.append(smooth([(at + x, row.line_mm + y) for x, y in row.what.mark_points(width, drop, 24)]))
                else:
                    hanging = [(at + x, row.line_mm + y) for x, y in row.what.mark_points(width, drop, 240)]
                    found += [polyline(part) for part in _cut_line(hanging, left, right)]
    return found


class Marked(NamedTuple):
    """What is marked on a stretch of a side: the lines of each row, and what they share: joints with their crosses, corners, guide tapes.

    `tapes` are the edges of the guide tape, which edge and how far down.
    """

    rows: tuple[tuple[PlacedRow, tuple[Path, ...]], ...]
    joints: tuple[Path, ...]
    corners: tuple[Path, ...]
    tapes: tuple[tuple[str, float], ...]

    @property
    def paths(self) -> tuple[Path, ...]:
        """All lines, without the guide tapes."""
        return (*(path for _, paths in self.rows for path in paths), *self.joints, *self.corners)


def row_style(tier: TierDrawn, row: PlacedRow, prick: bool = False) -> Style:
    """Give the line of a row: rows of one kind of curve differ in their dashes."""
    kind = "hang" if row.what.curve == "hang" else "arc"
    alike = [one for one in tier.rows if not one.on_top and (one.what.hangs or one.what.scroll) and (one.what.curve == "hang") == (kind == "hang")]
    place = next((i for i, one in enumerate(alike) if one is row), 0)
    if prick:
        return DOTS._replace(dash=PRICKS[(place + 2 * (kind == "hang")) % len(PRICKS)])
    return (THIN if kind == "hang" else LINE)._replace(dash=DASHES[place % len(DASHES)])


def marked(tier: TierDrawn, bands: bool = True, prick: bool = False, stretch: tuple[float, float] | None = None, highest_mm: float = -30.0) -> Marked:
    """Give what is marked on a side, or on the stretch of it between two places; `prick` has curves in dots, to prick through.

    A band reaches up to `highest_mm`, above the top edge where it is negative.
    """
    perimeter_mm, height = tier.outline.perimeter_mm, tier.height_mm
    left, right = stretch or (0.0, perimeter_mm)
    places: dict[float, float] = {}
    crosses: dict[tuple[float, float], tuple[float, float]] = {}
    rows: list[tuple[PlacedRow, tuple[Path, ...]]] = []
    tapes: dict[tuple[str, float], None] = {}
    for row in tier.rows:
        if row.on_top:
            continue
        paths = [Path(parts, row_style(tier, row, prick)) for parts in row_lines(row, perimeter_mm, left, right)]
        jointed = row.what.hangs or row.place == "joints" or row.what.scroll
        for start in joints_mm(row, perimeter_mm) if jointed else ():
            at = round(start % perimeter_mm, 6)
            for s in (0.0, perimeter_mm) if at < 1e-6 or perimeter_mm - at < 1e-6 else (start % perimeter_mm,):
                if left - 1e-6 <= s <= right + 1e-6:
                    places.setdefault(round(s, 3), s)
                    crosses.setdefault((round(s, 3), round(row.line_mm, 3)), (s, row.line_mm))
        if bands and not (row.what.hangs or row.place == "joints"):
            low, high = band_mm(row, perimeter_mm, height)
            edges = [y for y in (max(low, highest_mm), min(high, height)) if highest_mm < y <= height]
            paths += [Path((("M", left, y), ("L", right, y)), BAND) for y in edges]
        if row.what.hangs and row.repeats:
            tape = guide_tape(row.line_mm, row.cutter_mm, spans(row, perimeter_mm)[0][1])
            if tape is not None:
                tapes[tape] = None
        rows.append((row, tuple(paths)))
    joints = [rule(s, 0, s, height, GUIDE_DASH) for s in places.values()] + [cross(s, line, 4.0) for s, line in crosses.values()]
    corners = [rule(s, 0, s, height, CORNER) for corner in tier.outline.corners_mm for s in ((0.0, perimeter_mm) if corner < 1e-6 else (corner,))]
    shown = [path for path in corners if left - 1e-6 <= float(path.parts[0][1]) <= right + 1e-6]
    return Marked(tuple(rows), tuple(joints), tuple(shown), tuple(tapes))


def tape_lines(found: Marked, left: float, right: float) -> tuple[Path, ...]:
    """Draw the edges of the guide tape."""
    return tuple(rule(left, y, right, y, GUIDE_LINE) for _, y in found.tapes)


def marks(
    tier: TierDrawn, bands: bool = True, words: bool = True, prick: bool = False, stretch: tuple[float, float] | None = None
) -> tuple[Item, ...]:
    """Draw what is marked on a side: joints, arcs, strings, guide tape and the band of every row, and with `words` their names beside them."""
    perimeter_mm = tier.outline.perimeter_mm
    left, right = stretch or (0.0, perimeter_mm)
    found = marked(tier, bands, prick, stretch)
    items: list[Item] = [*found.paths, *tape_lines(found, left, right)]
    if words:
        space = FreeSpace(Box(left, 0.0, right, tier.height_mm))
        for item in items:
            if isinstance(item, Path):
                space.add_path(item.parts)
        for row, paths in found.rows:
            items += name_row(space, row, paths, perimeter_mm)
    return tuple(items)


def _beside(points: Sequence[Point], wide: float, tall: float, middle: float) -> Iterator[tuple[Box, Point]]:
    """Boxes above and below the points of a line, the nearest to it first, from the middle outwards."""
    ordered = sorted(points, key=lambda point: abs(point[0] - middle))
    for away in (0.9, 1.8, 3.0, 5.0, 8.0, 12.0, 17.0):
        for x, y in ordered:
            yield Box(x - wide / 2, y - away - tall, x + wide / 2, y - away), (x, y)
            yield Box(x - wide / 2, y + away, x + wide / 2, y + away + tall), (x, y)


def name_row(space: FreeSpace, row: PlacedRow, paths: Sequence[Path], perimeter_mm: float, size_mm: float = NAME_MM) -> list[Item]:
    """Write the name of a row in the free space nearest to its lines, with a line that leads to them from further away.

    Where that would cross the lines of another row, a sample of its own stands before the name; where joints are too near each other for
    the whole name, its kind alone is written. Empty where there is no room at all.
    """
    points = [point for path in paths for line in line_points(path.parts) for point in _along(line, 4.0)]
    if row.place == "joints":
        points += [(s + aside, row.line_mm) for s in joints_mm(row, perimeter_mm) for aside in range(-30, 31, 3)]
    shown = [point for point in points if space.box.left <= point[0] <= space.box.right]
    for text in dict.fromkeys((_named(row), capitalised(row.kind) if row.name else row.kind)):
        items = _written(space, text, paths, shown, size_mm)
        if items:
            return items
    return []


def _written(space: FreeSpace, text: str, paths: Sequence[Path], shown: Sequence[Point], size_mm: float) -> list[Item]:
    """Words for the lines of a row, which run through the points `shown`; empty where there is no room."""
    wide, tall = text_width_mm(text, size_mm), 1.06 * size_mm
    middle = (space.box.left + space.box.right) / 2
    for box, (x, y) in _beside(shown, wide, tall, middle):
        if not space.is_free(box):
            continue
        items: list[Item] = [label(box.left, box.bottom - 0.24 * size_mm, text, size_mm)]
        near = box.bottom if box.bottom < y else box.top
        if abs(y - near) > 2.5:
            way = 1 if near > y else -1
            leader = Box(x - 0.3, min(y + 1.6 * way, near), x + 0.3, max(y + 1.6 * way, near))
            if not space.is_free(leader):  # it would cross the line of another row
                continue
            space.boxes.append(leader)
            items.append(rule(x, y, x, near, THIN._replace(width_mm=0.15)))
        space.boxes.append(box)
        return items
    sample = 0.0 if not paths else SAMPLE_MM + 1.5
    free = space.take(box for box, _ in _beside(shown, wide + sample, tall, middle))
    if free is None:
        return []
    named = label(free.left + sample, free.bottom - 0.24 * size_mm, text, size_mm)
    middle = (free.top + free.bottom) / 2
    return [named] if not paths else [Path((("M", free.left, middle), ("L", free.left + SAMPLE_MM, middle)), paths[0].style), named]


def _along(line: Sequence[Point], step_mm: float) -> Iterator[Point]:
    """Points of a line about so far apart; a long straight part has points of its own."""
    for (x0, y0), (x1, y1) in pairwise(line):
        count = max(1, round(math.dist((x0, y0), (x1, y1)) / step_mm))
        for i in range(count):
            yield x0 + (x1 - x0) * i / count, y0 + (y1 - y0) * i / count


def _named(row: PlacedRow) -> str:
    return row.name or f"{row.kind}, {row.tip.name}"


def _heavier(item: Item, times: float) -> Item:
    """A line as much wider as the words of a drawing are larger than on paper, so that they do not drown it."""
    if not isinstance(item, Path):
        return item
    style = item.style
    return item._replace(style=style._replace(width_mm=style.width_mm * times, dash=tuple(part * times for part in style.dash)))


@lru_cache(maxsize=8)
def unrolled(tier: TierDrawn, in_colour: bool = True, title: str = "The side, unrolled", units: str = "metric") -> Scene:
    """Draw the side of a tier laid flat, at 1:1, from the middle of the back round to it again."""
    perimeter_mm, height = tier.outline.perimeter_mm, tier.height_mm
    size = max(3.4, (perimeter_mm + 24) / 30.3)  # read on a telephone, where all of it is some 9 cm wide
    items: list[Item] = [Path(rectangle(0, 0, perimeter_mm, height), CAKE)]
    if in_colour:
        items += [Group((piped(tier, row),), opacity=0.6) for row in tier.rows if not row.on_top]
    items += [_heavier(item, max(1.0, size / 9.0)) for item in marks(tier, words=False)]
    # a number at every row, and what it is below: words among the lines could not be read on a small screen
    key: list[str] = []
    taken: list[Point] = []
    for row in tier.rows:
        if row.on_top:
            continue
        key.append(_named(row))
        swags = spans(row, perimeter_mm)
        if row.what.hangs and swags:
            turned = (*swags[(len(key) - 1) % len(swags) :], *swags[: (len(key) - 1) % len(swags)])
            free = [(start + width / 2, row.line_mm + row.drop_mm) for start, width in turned]
        else:
            low, high = band_mm(row, perimeter_mm, height)
            free = [
                ((0.5 + len(key) * 0.07 + part) % 1.0 * perimeter_mm, (max(low, -8.0) + min(high, height)) / 2) for part in (0.0, 0.07, 0.14, -0.07)
            ]
        x, y = next((at for at in free if all(math.dist(at, other) > size * 1.7 for other in taken)), free[0])
        taken.append((x, y))
        items.append(Path(circle(x, y, size * 0.76), CAKE))
        items.append(label(x, y + size * 0.35, str(len(key)), size, "middle", "bold"))
    end = height + size * 1.5
    items += [
        label(0, end, "back: starts here", size),
        label(perimeter_mm, end, "closes here", size, "end"),
        label(perimeter_mm / 2, end, "front", size, "middle"),
    ]
    for i, text in enumerate(key, 1):
        for words in broken(f"{i} {text}", perimeter_mm, size):
            end += size * 1.4
            items.append(label(0.0, end, words, size))
    tapes = {
        tape
        for row in tier.rows
        if row.what.hangs
        for _, width in spans(row, perimeter_mm)[:1]
        if (tape := guide_tape(row.line_mm, row.cutter_mm, width))
    }
    for edge, below in sorted(tapes, key=lambda tape: tape[1]):
        end += size * 0.1
        items.append(rule(0, end + size * 1.05, size * 2.4, end + size * 1.05, GUIDE_LINE))
        for words in broken(f"{edge} of the guide tape, {Formatter(units).length(below)} below the top edge", perimeter_mm - size * 2.6, size):
            end += size * 1.4
            items.append(label(size * 3.0, end, words, size, guide=True))
    words = (
        "The side of the tier laid flat, from the middle of the back to the right: joints, arcs, guide tape and the band of every row. "
        + "; ".join(f"{i}: {text}" for i, text in enumerate(key, 1))
        + "."
    )
    above = 16.0
    return Scene(title, words, -12, -above, perimeter_mm + 24, end + size * 0.8 + above, tuple(items))
