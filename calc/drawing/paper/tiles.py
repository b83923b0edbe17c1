"""Lays a drawing at 1:1 on as few pages as hold it, with overlaps, trimming lines, match marks and a key of the tiles.

Map
---
`tile_pages`             a drawing -> its pages
`Tiling`, `tiling_of`    how many pages, which way up, and which part of the drawing each shows
`trim_lines`             where the pages are trimmed, in the drawing
`tiles_mm`               the part of a length that each tile shows
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.drawing.faces import text_width_mm
from calc.drawing.marks import cross
from calc.drawing.paper.sheet import BLACK, SMALLEST_MM, SOFT, Heading, framed, paper_mm, printable_mm, text_at
from calc.drawing.scene import Group, Item, Path, Scene, Style, Text, polygon, rectangle
from calc.units import letter_of

OVERLAP_MM = 12.0
NEARLY_EMPTY = 0.34  # of an even share: a page that shows less of the drawing is not worth its paper
_PAST_MM = 0.8  # how far lines go on past a trimming line, so that none ends short of it
TRIM = Style(stroke="#000000", width_mm=0.3, dash=(3.0, 2.0))


def _count(length: float, room: float) -> int:
    """The number of tiles that cover a length."""
    return 1 if length <= room + 1e-9 else math.ceil((length - OVERLAP_MM) / (room - OVERLAP_MM) - 1e-9)


def tiles_mm(length_mm: float, room_mm: float) -> tuple[tuple[float, float], ...]:
    """Give the part of a length that each tile shows, with overlaps of 12 mm.

    Formula: tiles as long as there is room for, each starting 12 mm before the end of the last.

    Parameters
    ----------
    length_mm : float
        The whole length [mm]
    room_mm : float
        Room on a page [mm]

    Returns
    -------
    tuple of (float, float)
        From and to, for each tile [mm]

    Range: room for more than 12 mm, else ValueError. The tiles are not evened out.

    Example
    -------
    >>> tiles_mm(500.0, 260.0)
    ((0.0, 260.0), (248.0, 500.0))

    Source: geometry (division with overlaps)
    """
    if room_mm <= OVERLAP_MM:
        raise ValueError("a tile is longer than its overlap")
    step = room_mm - OVERLAP_MM
    return tuple((step * i, min(length_mm, step * i + room_mm)) for i in range(_count(length_mm, room_mm)))


def _match_mark(x: float, y: float, letter: str, right: int, below: int) -> list[Item]:
    """A match mark on a trimming line: a cross in a diamond, and its letter beyond the line, to the right or left of it, below or above it."""
    at = (x + 2.6 * right, y - 3.6) if right else (x + 3.6, y + (4.2 if below > 0 else -1.8))
    return [
        Path(polygon([(x, y - 3), (x + 3, y), (x, y + 3), (x - 3, y)]), Style(stroke="#000000", width_mm=0.25)),
        cross(x, y, 6.0),
        text_at(*at, letter, 3.4, "end" if right < 0 else "start", "bold", BLACK),
    ]


def _fitting(nearer: bool, letter: str, other: int, room: float) -> str:
    """What is done at a trimming line, in the words that there is room for."""
    ways = (f"trim here, lay on {letter} of page {other}", f"lay on {letter} of page {other}") if nearer else (f"page {other} is laid on here",)
    return next((words for words in ways if text_width_mm(words, 2.9) <= room), ways[-1])


def _box_of(item: Item) -> tuple[float, float, float, float]:
    """The rectangle an item lies in: left, top, right, bottom."""
    if isinstance(item, Path):
        xs = [float(v) for part in item.parts for v in part[1::2]]
        ys = [float(v) for part in item.parts for v in part[2::2]]
        return min(xs), min(ys), max(xs), max(ys)
    if isinstance(item, Text):
        wide = text_width_mm(item.words, item.size_mm, item.face)
        start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
        angle = math.radians(item.turn_deg)
        c, s = math.cos(angle), math.sin(angle)
        corners = [
            (item.x + x * c - y * s, item.y + x * s + y * c) for x in (start, start + wide) for y in (-0.8 * item.size_mm, 0.25 * item.size_mm)
        ]
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        return min(xs), min(ys), max(xs), max(ys)
    if isinstance(item, Group) and item.matrix is None:
        boxes = [_box_of(inner) for inner in item.items]
        return min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes)
    return -math.inf, -math.inf, math.inf, math.inf


def _in_window(item: Item, left: float, top: float, right: float, bottom: float) -> Item | None:
    """An item as a tile shows it: lines that cross it, and words whose middle lies on it, moved so that none is cut off."""
    x0, y0, x1, y1 = _box_of(item)
    if x1 < left or x0 > right or y1 < top or y0 > bottom:
        return None
    if isinstance(item, Text) or (isinstance(item, Group) and any(isinstance(inner, Text) for inner in item.items)):
        inside = x0 >= left and x1 <= right and y0 >= top and y1 <= bottom
        if not inside and not (left <= (x0 + x1) / 2 <= right and top <= (y0 + y1) / 2 <= bottom):
            return None
        dx = max(0.0, left + 0.5 - x0) if x0 < left else min(0.0, right - 0.5 - x1) if x1 > right else 0.0
        dy = max(0.0, top + 0.5 - y0) if y0 < top else min(0.0, bottom - 0.5 - y1) if y1 > bottom else 0.0
        return Group((item,), matrix=(1.0, 0.0, 0.0, 1.0, dx, dy)) if dx or dy else item
    return item


Span = tuple[float, float]
Tile = tuple[int, int]  # column and row


def _evened(length: float, room: float) -> tuple[Span, ...]:
    """Tiles of nearly equal length that overlap by 12 mm. No trimming line lies in the middle, where a drawing has its own line."""
    count = _count(length, room)
    each = (length + OVERLAP_MM * (count - 1)) / count
    aside = min(8.0, room - each) if count % 2 == 0 else 0.0
    starts = [0.0, *((each - OVERLAP_MM) * i + aside for i in range(1, count))]
    return tuple((start, end + OVERLAP_MM) for start, end in zip(starts, [*starts[1:], length - OVERLAP_MM], strict=True))


def strip_spans(length: float, room: float) -> tuple[Span, ...]:
    """The tiles along a strip: as long as there is room for, or of one length where the last would be under half a page."""
    full = tiles_mm(length, room)
    return _evened(length, room) if full[-1][1] - full[-1][0] < 0.5 * room else full


def trimmed(spans: Sequence[Span], i: int) -> Span:
    """The part of a tile that is left after trimming."""
    return (spans[i][0] + OVERLAP_MM / 2 if i else spans[i][0]), (spans[i][1] - OVERLAP_MM / 2 if i < len(spans) - 1 else spans[i][1])


def _reaches(area: Sequence[tuple[float, float]], left: float, top: float, right: float, bottom: float) -> bool:
    """Whether a polygon overlaps a rectangle: its edge enters it, or it contains the middle of it."""
    for (ax, ay), (bx, by) in zip(area, (*area[1:], area[0]), strict=True):
        if max(ax, bx) < left or min(ax, bx) > right or max(ay, by) < top or min(ay, by) > bottom:
            continue
        pieces = max(1, math.ceil(max(abs(bx - ax), abs(by - ay))))
        if any(left <= ax + (bx - ax) * k / pieces <= right and top <= ay + (by - ay) * k / pieces <= bottom for k in range(pieces + 1)):
            return True
    x, y = (left + right) / 2, (top + bottom) / 2
    return (
        sum((ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay) for (ax, ay), (bx, by) in zip(area, (*area[1:], area[0]), strict=True))
        % 2
        == 1
    )


@dataclass(frozen=True)
class Tiling:
    """How a drawing is laid on pages: the spans of its width and height, and the tiles that are printed, in page order.

    `cost` is the number of pages, with one and a half for a page that is nearly empty.
    """

    landscape: bool
    across: tuple[Span, ...]
    down: tuple[Span, ...]
    tiles: tuple[Tile, ...]
    cost: float

    def page(self, tile: Tile) -> int:
        """The page number of a tile; 0 where it is not printed."""
        return self.tiles.index(tile) + 1 if tile in self.tiles else 0


def _ways(length: float, room: float) -> list[tuple[Span, ...]]:
    """Ways to lay as few tiles as cover a length: of one length, or with what is left over at either end, shared by the ends, or in the middle."""
    count = _count(length, room)
    if count == 1:
        return [((0.0, length),)]
    total = length + OVERLAP_MM * (count - 1)
    lengths = [[room] * (count - 1) + [total - room * (count - 1)]]
    lengths.append(lengths[0][::-1])
    if count > 2:
        inner, outer = (total - (count - 2) * room) / 2, (total - 2 * room) / (count - 2)
        lengths += [[inner, *[room] * (count - 2), inner], [room, *[outer] * (count - 2), room]]
    found = [_evened(length, room)]
    for tiles in lengths:
        if min(tiles) > 2 * OVERLAP_MM:
            starts = [math.fsum(tiles[:i]) - OVERLAP_MM * i for i in range(count)]
            found.append(tuple((start, start + one) for start, one in zip(starts, tiles, strict=True)))
    return found


def _inner_points(area: Sequence[tuple[float, float]], width: float, height: float) -> list[tuple[float, float]]:
    """Points spread evenly over a polygon."""
    step = max(width, height) / 40
    found = []
    for row in range(math.ceil(height / step)):
        y = (row + 0.5) * step
        crossed = sorted(
            ax + (y - ay) * (bx - ax) / (by - ay) for (ax, ay), (bx, by) in zip(area, (*area[1:], area[0]), strict=True) if (ay > y) != (by > y)
        )
        for left, right in zip(crossed[::2], crossed[1::2], strict=True):
            found += [((column + 0.5) * step, y) for column in range(math.ceil(left / step - 0.5), math.ceil(right / step - 0.5))]
    return found


def _least_share(across: Sequence[Span], down: Sequence[Span], tiles: Sequence[Tile], points: Sequence[tuple[float, float]]) -> float:
    """How much of the area the emptiest tile shows, over an even share."""
    columns = [trimmed(across, i)[1] for i in range(len(across))]
    rows = [trimmed(down, j)[1] for j in range(len(down))]
    held = dict.fromkeys(tiles, 0)
    for x, y in points:
        at = min(bisect_left(columns, x), len(across) - 1), min(bisect_left(rows, y), len(down) - 1)
        if at in held:
            held[at] += 1
    return min(held.values()) * len(tiles) / max(1, len(points))


def tiling_of(width: float, height: float, paper: str, area: Sequence[tuple[float, float]]) -> Tiling:
    """Give the fewest pages that hold a drawing.

    Without an `area`, where the last tile across would be less than half a page, all are of one length. With an `area` (a polygon, its corner
    at (0, 0)) tiles that it does not reach are left out, and of several ways the one whose emptiest tile shows most of it is taken; one page
    more is better than one that is nearly empty. Trimming lines keep off the middle where they can.
    """
    return _tiling(width, height, paper, tuple(area))


@lru_cache(maxsize=32)
def _tiling(width: float, height: float, paper: str, area: tuple[tuple[float, float], ...]) -> Tiling:
    found: list[tuple[float, float, Tiling]] = []
    points = _inner_points(area, width, height)
    for landscape in (True, False):
        _, _, room_w, room_h = printable_mm(paper_mm(paper, landscape))
        ways = [(strip_spans(width, room_w), tiles_mm(height, room_h))]
        if area:
            ways = [(a, d) for a in _ways(width, room_w) for d in _ways(height, room_h)]
        for across, down in ways:
            tiles = [
                (i, j)
                for j in range(len(down))
                for i in range(len(across))
                if not area
                or len(across) * len(down) == 1
                or _reaches(area, trimmed(across, i)[0], trimmed(down, j)[0], trimmed(across, i)[1], trimmed(down, j)[1])
            ]
            share = _least_share(across, down, tiles, points) if area else 1.0
            middles = sum(abs(trimmed(spans, 0)[1] - spans[-1][1] / 2) < 4.0 for spans in (across, down) if len(spans) % 2 == 0)
            cost = len(tiles) + (1.5 if share < NEARLY_EMPTY else 0.0)
            found.append((cost, round(0.2 * middles - share, 2), Tiling(landscape, across, down, tuple(tiles), cost)))
    return min(found, key=lambda way: way[:2])[2]


def _key(tiling: Tiling, size: tuple[float, float], number: int) -> list[Item]:
    """A small plan of how the pages lie, above the page number: this page is dark, one that is not printed has a dashed edge."""
    if len(tiling.tiles) < 2:
        return []
    tall = 7.4 / len(tiling.down)
    wide = min(tall * size[0] / size[1], 36.0 / len(tiling.across))
    left, top = size[0] - 10.0 - wide * len(tiling.across), size[1] - 13.6 - 7.4
    items: list[Item] = []
    for j in range(len(tiling.down)):
        for i in range(len(tiling.across)):
            x, y, page = left + wide * i, top + tall * j, tiling.page((i, j))
            if page == number:
                items.append(Path(rectangle(x, y, wide, tall), Style(fill=SOFT)))
            items.append(Path(rectangle(x, y, wide, tall), Style(stroke="#000000", width_mm=0.2, dash=() if page else (0.6, 0.6))))
            if page:
                if tall < SMALLEST_MM or wide < text_width_mm(str(page), SMALLEST_MM, "bold"):
                    continue  # the number of this page stands below
                white = Style(fill="#ffffff")
                at = y + tall / 2 + SMALLEST_MM * 0.36
                items.append(text_at(x + wide / 2, at, str(page), SMALLEST_MM, "middle", "bold", white if page == number else BLACK))
    return items


def trim_lines(
    box: tuple[float, float, float, float], paper: str, area: Sequence[tuple[float, float]] = ()
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Give the trimming lines of a drawing laid on pages, where they cross it, so that its words keep clear of them."""
    x0, y0, width, height = box
    tiling = tiling_of(width, height, paper, [(x - x0, y - y0) for x, y in area])
    xs = [x0 + start + OVERLAP_MM / 2 for start, _ in tiling.across[1:]]
    ys = [y0 + start + OVERLAP_MM / 2 for start, _ in tiling.down[1:]]
    return [((x, y0), (x, y0 + height)) for x in xs] + [((x0, y), (x0 + width, y)) for y in ys]


def tile_pages(
    items: Sequence[Item],
    box: tuple[float, float, float, float],
    title: str,
    under: str,
    heading: Heading,
    paper: str,
    area: Sequence[tuple[float, float]] = (),
    units: str = "metric",
) -> tuple[Scene, ...]:
    """Lay a drawing on as few pages as hold it at 1:1, with overlaps, trimming lines, match marks and a key of the tiles.

    With an `area`, like the top of a cake, it is spread evenly over its pages, without a page for a tile that the area does not reach.
    """
    x0, y0, width, height = box
    tiling = tiling_of(width, height, paper, [(x - x0, y - y0) for x, y in area])
    across, down, count = tiling.across, tiling.down, len(tiling.tiles)
    size = paper_mm(paper, tiling.landscape)
    left, top, _, _ = printable_mm(size)
    half = OVERLAP_MM / 2
    scenes = []
    for number, (i, j) in enumerate(tiling.tiles, 1):
        (xa, xb), (ya, yb) = across[i], down[j]
        dx, dy = left - x0 - xa, top - y0 - ya
        joins = [tiling.page(at) for at in ((i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1))]
        # beyond a trimming line the paper is blank but for its words: it is cut off, or covered
        xa1, xb1 = xa + (half if joins[0] else 0.0), xb - (half - _PAST_MM if joins[1] else 0.0)
        ya1, yb1 = ya + (half if joins[2] else 0.0), yb - (half - _PAST_MM if joins[3] else 0.0)
        window = (x0 + xa1, y0 + ya1, x0 + xb1, y0 + yb1)
        here = tuple(kept for item in items if (kept := _in_window(item, *window)) is not None)
        clip = (left + xa1 - xa, top + ya1 - ya, xb1 - xa1, yb1 - ya1)
        shown: list[Item] = [Group((Group(here, matrix=(1.0, 0.0, 0.0, 1.0, dx, dy)),), clip=clip)]
        for k, nearer, other in ((i, True, joins[0]), (i + 1, False, joins[1])):
            if not other:
                continue
            x = left + across[k][0] - xa + half
            shown.append(Path((("M", x, top), ("L", x, top + yb - ya)), TRIM))
            for part in (0.14, 0.86):
                shown += _match_mark(x, top + (yb - ya) * part, letter_of(k - 1), -1 if nearer else 1, 0)
            words = _fitting(nearer, letter_of(k - 1), other, 0.6 * (yb - ya))
            shown.append(text_at(x + (-2.2 if nearer else 4.4), top + (yb - ya) / 2, words, 2.9, "middle", style=BLACK, turn=-90.0))
        for k, nearer, other in ((j, True, joins[2]), (j + 1, False, joins[3])):
            if not other:
                continue
            y = top + down[k][0] - ya + half
            letter = letter_of(len(across) - 1 + k - 1)
            shown.append(Path((("M", left, y), ("L", left + xb - xa, y)), TRIM))
            for part in (0.14, 0.86):
                shown += _match_mark(left + (xb - xa) * part, y, letter, 0, -1 if nearer else 1)
            words = _fitting(nearer, letter, other, 0.6 * (xb - xa))
            shown.append(text_at(left + (xb - xa) / 2, y + (-2.4 if nearer else 4.4), words, 2.9, "middle", style=BLACK))
        scenes.append(framed(size, title, under, heading, number, count, [*shown, *_key(tiling, size, number)], units))
    return tuple(scenes)
