"""What goes on the bench next to the cake, at true scale: pages ready for the pen for paper.

Map
---
`Heading`, `Sheet`            what every sheet bears; a sheet with its name, title and pages
`marking_strip`               the unrolled side at 1:1, tiled: to wrap round the cake, or to prick through
`top_template`                the top at 1:1 with its joints, dividing and fold lines, tiled
`practice_sheet`              a row to pipe over: grey, then dots, then nothing, in three sizes
`practice_lines`              lines, curves, circles and waves
`cutting_guide`               where the knife goes, in which order, how many slices
`bench_sheet`, `BenchStep`    the piping order, step by step
`written_sheet`, `Table`, `Words`, `Picture`   shopping list, timetable, hand-out: anything of words and tables
`tip_chart`                   openings at 1:1, to hold a tip against
`tiles_mm`, `paper_mm`, `slug`   what tiles show of a length; sizes of paper; words as part of a file's name

Every page bears a bar of 100 mm both ways, the words "print at 100 %", its title, the order's name and the day. All text lies at least 5 mm
inside the paper's edge.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from calc.division import dividers_mm
from calc.drawing.faces import broken, text_width_mm
from calc.drawing.figures import cutting_scene, opening_parts
from calc.drawing.marks import bar, cross, rule
from calc.drawing.pdf import pdf
from calc.drawing.rows import TierDrawn, joints_mm
from calc.drawing.scene import (
    GUIDE,
    GUIDE_DASH,
    INK,
    THIN,
    Group,
    Item,
    Path,
    Scene,
    Style,
    Text,
    circle,
    polygon,
    rectangle,
    smooth,
)
from calc.drawing.unroll import marks, piped
from calc.portions import CutPlan
from calc.rows import natural_pitch_mm, scroll_points
from calc.rows.placement import PlacedRow
from calc.shapes import outline
from calc.tips import Tip
from calc.units import Say

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
_LEFT, _RIGHT, _TOP, _BOTTOM = 10.0, 19.0, 26.0, 22.0  # what the frame keeps for itself
_OVERLAP = 12.0
_SOFT = "#54364f"
_BLACK = Style(fill="#000000")
_INK = Style(fill=INK)
_QUIET = Style(fill=_SOFT)
_TRIM = Style(stroke="#000000", width_mm=0.3, dash=(3.0, 2.0))
_CUT = Style(stroke="#000000", width_mm=0.5)
_TWICE = Style(stroke=INK, width_mm=0.9)


@dataclass(frozen=True)
class Heading:
    """What every sheet of an order bears: the order's name, and the day in words."""

    order_name: str = ""
    day: str = ""


@dataclass(frozen=True)
class Sheet:
    """A sheet: its name (of the file), its title, its pages."""

    name: str
    title: str
    pages: tuple[Scene, ...]

    def pdf(self) -> bytes:
        """The sheet as a PDF."""
        return pdf(self.pages, self.title)


def paper_mm(paper: str, landscape: bool = False) -> tuple[float, float]:
    """Give the width and height of a sheet of paper.

    Formula: A4 210 x 297 mm; Letter 8.5 x 11 in.

    Parameters
    ----------
    paper : str
        "A4" or "Letter" [-]
    landscape : bool
        Whether it lies on its side [-]

    Returns
    -------
    tuple of (float, float)
        Width and height [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: A4 and Letter. Leaves out: tolerances of cutting.

    Example
    -------
    >>> paper_mm("A4"), paper_mm("Letter", landscape=True)
    ((210.0, 297.0), (279.4, 215.9))

    Source: iso-216
    """
    width, height = PAPERS[paper]
    return (height, width) if landscape else (width, height)


# --- the frame ---------------------------------------------------------------------------------------------------------


def _words(
    x: float, y: float, words: str, size: float = 3.6, anchor: str = "start", face: str = "text", style: Style = _INK, turn: float = 0.0
) -> Text:
    return Text(x, y, words, size, anchor, face, style, turn)


def _fitted(words: str, size: float, width: float, face: str) -> tuple[str, float]:
    """Words and a size at which they fit a width; at half the size they are cut off with an ellipsis."""
    wide = text_width_mm(words, size, face)
    if wide <= width:
        return words, size
    if wide <= width * 2:
        return words, size * width / wide
    half = size / 2
    while words and text_width_mm(words + "…", half, face) > width:
        words = words[:-1]
    return words + "…", half


def _page(size: tuple[float, float], title: str, under: str, heading: Heading, number: int, count: int, items: Sequence[Item]) -> Scene:
    """One page: the frame round what stands on it."""
    width, height = size
    right = width - 10.0
    named, big = _fitted(title, 7.0, width * 0.60, "display")
    frame: list[Item] = [_words(_LEFT, 15.5, named, big, face="display")]
    order, small = _fitted(heading.order_name, 4.0, width * 0.33, "bold")
    frame.append(_words(right, 12.0, order, small, "end", "bold"))
    day, small = _fitted(heading.day, 3.4, width * 0.33, "text")
    frame.append(_words(right, 16.8, day, small, "end", style=_QUIET))
    frame.append(Path((("M", _LEFT, 19.0), ("L", right, 19.0)), Style(stroke=INK, width_mm=0.6)))
    if under:
        line, small = _fitted(under, 3.2, width - 30, "text")
        frame.append(_words(_LEFT, 22.8, line, small, style=_QUIET))
    frame.append(bar(_LEFT, height - 14.0, 100.0))
    frame.append(bar(width - 13.0, height - 22.0 - 100.0, 100.0, upright=True))
    frame.append(_words(_LEFT + 104.0, height - 13.4, "Print at 100 %, not “fit to page”.", 3.0, face="bold"))
    frame.append(_words(_LEFT + 104.0, height - 9.6, "Both bars measure 100 mm when it is right.", 3.0))
    frame.append(_words(right, height - 9.6, f"{number} of {count}", 3.4, "end", "bold"))
    return Scene(title, f"{title}, page {number} of {count}", 0.0, 0.0, width, height, (*frame, *items))


def _room(size: tuple[float, float]) -> tuple[float, float, float, float]:
    """What the frame leaves: x, y, width, height."""
    return _LEFT, _TOP, size[0] - _LEFT - _RIGHT, size[1] - _TOP - _BOTTOM


# --- tiles -------------------------------------------------------------------------------------------------------------


def _count(length: float, room: float) -> int:
    return 1 if length <= room + 1e-9 else math.ceil((length - _OVERLAP) / (room - _OVERLAP) - 1e-9)


def tiles_mm(length_mm: float, room_mm: float) -> tuple[tuple[float, float], ...]:
    """Give which part of a length each tile shows, with overlaps of 12 mm.

    Formula: tiles as long as there is room for, each beginning 12 mm before the one before it ends.

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

    Raises
    ------
    ValueError
        There is no room for more than an overlap.

    Range: room of more than 12 mm. Leaves out: evening the tiles out.

    Example
    -------
    >>> tiles_mm(500.0, 260.0)
    ((0.0, 260.0), (248.0, 500.0))

    Source: geometry
    """
    if room_mm <= _OVERLAP:
        raise ValueError("a tile is longer than its overlap")
    step = room_mm - _OVERLAP
    return tuple((step * i, min(length_mm, step * i + room_mm)) for i in range(_count(length_mm, room_mm)))


def _letters(i: int) -> str:
    return chr(65 + i % 26) * (1 + i // 26)


def _match(x: float, y: float, letter: str) -> list[Item]:
    """A match mark: a cross in a diamond with its letter."""
    return [
        Path(polygon([(x, y - 3), (x + 3, y), (x, y + 3), (x - 3, y)]), Style(stroke="#000000", width_mm=0.25)),
        cross(x, y, 6.0),
        _words(x + 3.4, y - 2.2, letter, 3.4, face="bold", style=_BLACK),
    ]


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
    """What of an item belongs on a tile: lines that cross it; words whose middle lies on it, moved so that none is cut off."""
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
    """Tiles of much the same length that overlap by 12 mm. No trimming line lies in the middle, where a drawing has its own line."""
    count = _count(length, room)
    each = (length + _OVERLAP * (count - 1)) / count
    aside = min(8.0, room - each) if count % 2 == 0 else 0.0
    starts = [0.0, *((each - _OVERLAP) * i + aside for i in range(1, count))]
    return tuple((start, end + _OVERLAP) for start, end in zip(starts, [*starts[1:], length - _OVERLAP], strict=True))


def _trimmed(spans: Sequence[Span], i: int) -> Span:
    """What is left of a tile when it has been trimmed."""
    return (spans[i][0] + _OVERLAP / 2 if i else spans[i][0]), (spans[i][1] - _OVERLAP / 2 if i < len(spans) - 1 else spans[i][1])


def _reaches(area: Sequence[tuple[float, float]], left: float, top: float, right: float, bottom: float) -> bool:
    """Whether an area, given by its edge, reaches into a rectangle: by its edge, or because it holds the rectangle's middle."""
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
class _Tiling:
    """How a drawing is laid on pages: parts of its width and height, and the tiles that are printed, in the order of their pages."""

    landscape: bool
    across: tuple[Span, ...]
    down: tuple[Span, ...]
    tiles: tuple[Tile, ...]

    def page(self, tile: Tile) -> int:
        """The page of a tile; 0 where there is none."""
        return self.tiles.index(tile) + 1 if tile in self.tiles else 0


def _tiling(width: float, height: float, paper: str, area: Sequence[tuple[float, float]]) -> _Tiling:
    """The fewest pages that hold a drawing.

    Where the last tile across would be less than half a page, all are of one length. With an `area`, whose corner is at (0, 0), tiles that
    it does not reach are left out, and tiles are evened unless fewer pages do when they are not; of two ways with as many pages the one with
    room to keep trimming lines off the middle.
    """
    found: list[tuple[int, int, _Tiling]] = []
    for landscape in (True, False):
        _, _, room_w, room_h = _room(paper_mm(paper, landscape))
        full_w, full_h = tiles_mm(width, room_w), tiles_mm(height, room_h)
        short = full_w[-1][1] - full_w[-1][0] < 0.5 * room_w  # a strip: no page for a finger's width of it
        ways = [(_evened(width, room_w) if short else full_w, full_h)]
        if area:
            ways = [(a, d) for a in (_evened(width, room_w), full_w) for d in (_evened(height, room_h), full_h)]
        for across, down in ways:
            tiles = [
                (i, j)
                for j in range(len(down))
                for i in range(len(across))
                if not area
                or len(across) * len(down) == 1
                or _reaches(area, _trimmed(across, i)[0], _trimmed(down, j)[0], _trimmed(across, i)[1], _trimmed(down, j)[1])
            ]
            middles = sum(abs(_trimmed(spans, 0)[1] - spans[-1][1] / 2) < 4.0 for spans in (across, down) if len(spans) % 2 == 0)
            uneven = sum(spans[-1][1] - spans[-1][0] < 0.5 * (spans[0][1] - spans[0][0]) for spans in (across, down)) if area else 0
            found.append((len(tiles), 2 * uneven + middles, _Tiling(landscape, across, down, tuple(tiles))))
    return min(found, key=lambda way: way[:2])[2]


def _key(tiling: _Tiling, size: tuple[float, float], number: int) -> list[Item]:
    """How the pages are laid together, small, beside the page's number: this page is dark, one that is not printed is broken."""
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
                items.append(Path(rectangle(x, y, wide, tall), Style(fill=_SOFT)))
            items.append(Path(rectangle(x, y, wide, tall), Style(stroke="#000000", width_mm=0.2, dash=() if page else (0.6, 0.6))))
            if page:
                big = min(2.6, 0.8 * tall, 0.9 * wide / len(str(page)))
                items.append(
                    _words(
                        x + wide / 2, y + tall / 2 + big * 0.36, str(page), big, "middle", "bold", Style(fill="#ffffff") if page == number else _BLACK
                    )
                )
    return items


def _tiled(
    items: Sequence[Item],
    box: tuple[float, float, float, float],
    title: str,
    under: str,
    heading: Heading,
    paper: str,
    area: Sequence[tuple[float, float]] = (),
) -> tuple[Scene, ...]:
    """Lay a drawing on as few pages as hold it at 1:1, with overlaps, trimming lines, match marks and a key of the tiles.

    What has an `area`, like the top of a cake, is spread evenly over its pages, and has no page for a tile that it does not reach.
    """
    x0, y0, width, height = box
    tiling = _tiling(width, height, paper, [(x - x0, y - y0) for x, y in area])
    across, down, count = tiling.across, tiling.down, len(tiling.tiles)
    size = paper_mm(paper, tiling.landscape)
    left, top, _, _ = _room(size)
    # where words stand along a trimming line: beside the middle, where there is one
    along, upright = (0.38 if area and len(spans) % 2 else 0.5 for spans in (across, down))
    scenes = []
    for number, (i, j) in enumerate(tiling.tiles, 1):
        (xa, xb), (ya, yb) = across[i], down[j]
        dx, dy = left - x0 - xa, top - y0 - ya
        window = (x0 + xa, y0 + ya, x0 + xb, y0 + yb)
        here = tuple(kept for item in items if (kept := _in_window(item, *window)) is not None)
        shown: list[Item] = [Group((Group(here, matrix=(1.0, 0.0, 0.0, 1.0, dx, dy)),), clip=(left, top, xb - xa, yb - ya))]
        for k, nearer in ((i, True), (i + 1, False)):
            other = tiling.page((k - 1 if nearer else k, j))
            if not 0 < k < len(across) or not other:
                continue
            x = left + across[k][0] - xa + _OVERLAP / 2
            shown.append(Path((("M", x, top), ("L", x, top + yb - ya)), _TRIM))
            letter = _letters(k - 1)
            for part in (0.25, 0.75):
                shown += _match(x, top + (yb - ya) * part, letter)
            say = f"trim here, lay on {letter} of page {other}" if nearer else f"page {other} is laid on here"
            shown.append(_words(x + (-1.2 if nearer else 3.4), top + (yb - ya) * (1 - upright), say, 2.6, "middle", style=_BLACK, turn=-90.0))
        for k, nearer in ((j, True), (j + 1, False)):
            other = tiling.page((i, k - 1 if nearer else k))
            if not 0 < k < len(down) or not other:
                continue
            y = top + down[k][0] - ya + _OVERLAP / 2
            shown.append(Path((("M", left, y), ("L", left + xb - xa, y)), _TRIM))
            letter = _letters(len(across) - 1 + k - 1)
            for part in (0.25, 0.75):
                shown += _match(left + (xb - xa) * part, y, letter)
            say = f"trim here, lay on {letter} of page {other}" if nearer else f"page {other} is laid on here"
            shown.append(_words(left + (xb - xa) * along, y + (-1.2 if nearer else 3.4), say, 2.6, "middle", style=_BLACK))
        scenes.append(_page(size, title, under, heading, number, count, [*shown, *_key(tiling, size, number)]))
    return tuple(scenes)


# --- strips and templates ----------------------------------------------------------------------------------------------


def marking_strip(
    tier: TierDrawn, heading: Heading = Heading(), paper: str = "A4", prick: bool = False, units: str = "metric", side_mm: float | None = None
) -> Sheet:
    """Draw the unrolled side of a tier at 1:1 on as many pages as it takes: to wrap round the cake, or to prick through.

    Formula: none; the closing line stands at the measured side, with a scale of a centimetre to either side of it.

    Parameters
    ----------
    tier : TierDrawn
        The tier [mm]
    heading : Heading
        The order's name and day [-]
    paper : str
        "A4" or "Letter" [-]
    prick : bool
        Dots to prick through instead of lines [-]
    units : str
        "metric" or "us" [-]
    side_mm : float
        The measured side, when it is not the outline's own [mm]

    Returns
    -------
    Sheet
        The strip [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: any tier. Leaves out: rows on the top.

    Example
    -------
    >>> len(marking_strip(TierDrawn(outline("round", 210.0), 0.0, 100.0)).pages)
    3

    Source: geometry
    """
    say = Say(units)
    if side_mm is not None and abs(side_mm - tier.outline.perimeter_mm) > 1e-6 and tier.outline.kind == "round":
        tier = replace(tier, outline=outline("round", side_mm / math.pi))
    whole, height = tier.outline.perimeter_mm, tier.height_mm
    tab = 16.0
    items: list[Item] = [Path(rectangle(0, 0, whole, height), _CUT)]
    if prick:
        items += marks(tier, bands=False, words=False, prick=True)
    else:
        items += marks(tier, halo="#ffffff")
    # the closing line, with a scale to read off by how much the tape was out
    items.append(Path((("M", whole, 0), ("L", whole, height)), _TWICE))
    items.append(Path(polygon([(whole, 0), (whole + tab - 4, 3), (whole + tab - 4, height - 3), (whole, height)]), THIN))
    for mm in range(-10, 11):
        long = 3.4 if mm % 5 == 0 else 2.0
        items.append(Path((("M", whole + mm, height - 12.0), ("L", whole + mm, height - 12.0 - long)), THIN))
    for mm in (-10, -5, 5, 10):
        items.append(_words(whole + mm, height - 9.0, f"{abs(mm)}", 2.6, "middle", style=_BLACK))
    items.append(_words(whole + 5.5, height * 0.42, "tab: behind the start", 2.8, "middle", style=_BLACK, turn=-90.0))
    items.append(_words(whole - 2.0, height * 0.66, "closes here, at the back", 2.8, "middle", style=_BLACK, turn=-90.0))
    items.append(_words(3.6, height * 0.66, "starts here, at the back", 2.8, "middle", style=_BLACK, turn=-90.0))
    jointed = [row for row in tier.rows if row.what.hangs] or [row for row in tier.rows if row.place == "joints" or row.what.scroll]
    joints = joints_mm(jointed[0], whole) if jointed else ()
    for number, s in enumerate(joints, 1):
        # a notch at the top edge, where an error of the tape is shared out
        items.append(Path(polygon([(s - 1.6, 0), (s + 1.6, 0), (s, 3.2)]), Style(fill="#000000")))
        items.append(_words(s + 2.6, 4.2, str(number), 3.2, face="bold", style=_BLACK))
    share = (
        f" Out by less than a centimetre? Read by how much on the scale at the closing line, divide by {len(joints)}, "
        "and lap or open each joint by that much."
        if joints
        else ""
    )
    title = f"Marking strip{' to prick through' if prick else ''}" + (f": {tier.name}" if tier.name else "")
    under = f"{say.length(whole)} round, {say.length(height)} high." + share
    pages = _tiled(items, (0.0, 0.0, whole + tab - 4, height), title, under, heading, paper)
    name = "marking-strip" + ("-prick" if prick else "") + (f"-{slug(tier.name)}" if tier.name else "")
    return Sheet(name, title, pages)


def slug(words: str) -> str:
    """Give words as part of a file's name: small letters, digits and hyphens.

    Formula: none.

    Parameters
    ----------
    words : str
        Anyone's words [-]

    Returns
    -------
    str
        The part of a name; "tier" where nothing is left [-]

    Raises
    ------
    ValueError
        Never.

    Range: any text. Leaves out: letters outside ASCII.

    Example
    -------
    >>> slug("Lower tier"), slug("../")
    ('lower-tier', 'tier')

    Source: common-practice
    """
    kept = "".join(c if c.isascii() and c.isalnum() else "-" for c in words.lower())
    return "-".join(part for part in kept.split("-") if part) or "tier"


def top_template(
    tier: TierDrawn, repeats: int, heading: Heading = Heading(), paper: str = "A4", units: str = "metric", joints: tuple[float, ...] = ()
) -> Sheet:
    """Draw the top of a tier at 1:1 with its joints, dividing lines and the folds of the paper method, on as many pages as it takes.

    Formula: joints at even distances round the edge; folds halve the circle, and halve it again.

    Parameters
    ----------
    tier : TierDrawn
        The tier [mm]
    repeats : int
        Number of repeats [-]
    heading : Heading
        The order's name and day [-]
    paper : str
        "A4" or "Letter" [-]
    units : str
        "metric" or "us" [-]
    joints : tuple of float
        Joints of the tier's own, round the side from the middle of the back; even ones when empty [mm]

    Returns
    -------
    Sheet
        The template [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: two repeats or more. Leaves out: the thickness of the paper.

    Example
    -------
    >>> len(top_template(TierDrawn(outline("round", 160.0), 0.0, 100.0), 8).pages)
    1

    Source: segment
    """
    say = Say(units)
    shape = tier.outline
    left, low, right, high = shape.extent_mm
    points = [(x, -y) for x, y in shape.points(360)]
    items: list[Item] = [Path(circle(0, 0, shape.width_mm / 2) if shape.kind == "round" else polygon(points), _CUT)]
    places = joints or tuple(shape.perimeter_mm * j / repeats for j in range(repeats))
    for number, s in enumerate(places, 1):
        x, y, _ = shape.point(s)
        items.append(rule(0, 0, x, -y, GUIDE_DASH))
        items.append(cross(x, -y, 5.0))
        far = max(10.0, math.hypot(x, y))
        out = 1 - 6.5 / far  # inside the edge, and beside the line that leads there
        items.append(_words(x * out + 3.4 * y / far, -(y * out - 3.4 * x / far) + 1.4, str(number), 4.0, "middle", "bold"))
    items.append(cross(0, 0, 8.0))
    folds = 0
    if shape.kind == "round":
        half = repeats
        while half % 2 == 0 and folds < 5:
            half //= 2
            folds += 1
        radius = shape.width_mm / 2
        for k in range(2 ** max(0, folds - 1)):
            angle = math.pi * k / 2 ** max(0, folds - 1) + math.pi / 2
            c, s_ = math.cos(angle) * radius, math.sin(angle) * radius
            items.append(Path((("M", -c, -s_), ("L", c, s_)), Style(stroke=GUIDE, width_mm=0.3, dash=(1.0, 1.0, 4.0, 1.0))))
    _, back, _ = shape.point(0.0)
    items.append(_words(0, -back + (20 if high > 40 else 8), "back", 3.6, "middle"))
    items.append(_words(0, -low - 14, "front", 3.6, "middle"))
    notes = [f"{say.length(shape.width_mm)} across, {repeats} repeats of {say.length(shape.perimeter_mm / repeats)} round the edge."]
    if shape.kind == "round" and repeats >= 2:
        notes.append(f"Dividers at {say.length(dividers_mm(shape.perimeter_mm, repeats))}.")
        if folds:
            rest = repeats // 2**folds
            notes.append(
                f"Paper method: cut out, fold in half {folds} {'time' if folds == 1 else 'times'}"
                + (f", then each part into {rest}." if rest > 1 else ".")
            )
        else:
            notes.append("An odd number of repeats has no folds: use the lines.")
    title = "Top template" + (f": {tier.name}" if tier.name else "")
    pages = _tiled(items, (left - 1, -high - 1, right - left + 2, high - low + 2), title, " ".join(notes), heading, paper, points)
    return Sheet("top-template" + (f"-{slug(tier.name)}" if tier.name else ""), title, pages)


# --- practice ----------------------------------------------------------------------------------------------------------

_GREY = "#cfc9cc"
_FAINT = Style(stroke="#8a8288", width_mm=0.3)
_DOTTED = Style(stroke="#5f5561", width_mm=0.9, dash=(0.0, 4.0))
_SIZES = (("large", 1.25), ("as on the cake", 1.0), ("small", 0.75))


def _exercise(row: PlacedRow, wide: float, how: str) -> tuple[list[Item], float, float]:
    """One line of an exercise: its items from (0, 0), what it needs above and below its line."""
    size = row.size_mm
    tier = TierDrawn(outline("round", wide / math.pi), 0.0, 400.0)
    reach = max(row.drop_mm, 0.0)
    items: list[Item] = []
    hung = row.what.hangs or row.what.scroll
    places = joints_mm(row, wide)
    if how == "grey":
        items.append(piped(tier, row, 0.0, wide))
    if row.what.hangs:
        sketch = replace(tier, rows=(row,))
        if how == "dots":
            items += [
                item for item in marks(sketch, bands=False, words=False, prick=True) if isinstance(item, Path) and item.style.dash == (0.0, 5.0)
            ]
        for s in (*places, wide):
            items.append(cross(s, 0.0, 4.0))
    elif row.what.scroll:
        for s in places:
            pitch = wide / max(1, len(places))
            across = row.width_mm or pitch * 0.78
            at = s + (pitch - across) / 2
            if how == "dots":
                points = scroll_points(row.kind, across, row.drop_mm or across * 0.35, 24)
                items.append(Path(smooth([(at + x, y) for x, y in points]), _DOTTED))
            items += [cross(at, 0.0, 3.0), cross(at + across, 0.0, 3.0)]
    else:
        items.append(Path((("M", 0.0, 0.0), ("L", wide, 0.0)), _FAINT if how != "nothing" else Style(stroke="#b9b2b7", width_mm=0.2)))
        if how == "dots":
            count = row.count or max(3, round(wide / max(4.0, size)))
            items += [Path(circle((i + 0.5) * wide / count, 0.0, 0.7), _BLACK) for i in range(count)]
        items.append(cross(0.0, 0.0, 4.0))
    half = (row.width_mm or size * 1.6) if row.what.set_apart else size * 1.3
    if row.what.tucked:  # it hangs from its line
        return items, 3.6, 1.2 * half + 0.8
    return items, half / 2 + 3.0, reach + size + 1.0 if hung else half / 2 + 3.0


def practice_sheet(row: PlacedRow, pitch_mm: float = 0.0, heading: Heading = Heading(), paper: str = "A4", units: str = "metric") -> Sheet:
    """Draw a row to practise, for the tip in hand, in three sizes: follow the grey, then the dots, then nothing.

    Formula: large is 1.25 times, small 0.75 times the size on the cake; the bead stays the tip's own.

    Parameters
    ----------
    row : PlacedRow
        The row; its colour does not matter [-]
    pitch_mm : float
        Width of a swag, or from piece to piece; the tip's own when 0 [mm]
    heading : Heading
        The order's name and day [-]
    paper : str
        "A4" or "Letter" [-]
    units : str
        "metric" or "us" [-]

    Returns
    -------
    Sheet
        Three pages [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: any row. Leaves out: the side's curve.

    Example
    -------
    >>> len(practice_sheet(PlacedRow("shell", Tip("open star", 7.0), "#b9592f"), 10.0).pages)
    3

    Source: common-practice
    """
    say = Say(units)
    size = paper_mm(paper)
    left, top, room_w, room_h = _room(size)
    title = f"Practice: {row.kind}, {row.tip.name}"
    scenes = []
    for number, (called, times) in enumerate(_SIZES, 1):
        curved = row.what.hangs or row.what.scroll
        single = row.what.set_apart
        width = (row.width_mm or natural_pitch_mm(row.kind, row.tip)) * times if single else None
        natural = pitch_mm or (row.size_mm * 8.0 if curved else natural_pitch_mm(row.kind, row.tip) or row.size_mm)
        wanted = min((width or 0.0) * 1.25 if single else natural * times, room_w - 12.0)
        repeats = max(1, int((room_w - 12.0) / wanted))
        wide = wanted * repeats if curved else room_w - 12.0
        pieces = row.what.in_pieces
        sized = replace(
            row,
            colour=_GREY,
            place="side",
            line_mm=0.0,
            joints=(),
            shift=0.0,
            drop_mm=row.drop_mm * times,
            repeats=repeats if not pieces else 0,
            count=max(3, round(wide / wanted)) if pieces else None,
            name="",
            width_mm=width,
            per_joint=1,
            bead_mm=row.size_mm,
        )
        y, turn = top + 4.0, 0
        items: list[Item] = []
        while True:
            how = ("grey", "dots", "nothing")[turn % 3]
            line, above, below = _exercise(sized, wide, how)
            if y + above + below > top + room_h:
                break
            items.append(
                _words(left, y + 2.4, {"grey": "follow the grey", "dots": "follow the dots", "nothing": "from mark to mark"}[how], 2.8, style=_QUIET)
            )
            items.append(Group(tuple(line), matrix=(1.0, 0.0, 0.0, 1.0, left + 6.0, y + above + 2.0)))
            y += above + below + (2.2 if row.what.hangs else 3.0)  # what hangs has room enough of its own
            turn += 1
            if turn > 30:
                break
        about = f"{called}: {say.length(wanted)} {'wide' if curved else 'from one to the next'}"
        if row.drop_mm:
            about += f", drop {say.length(sized.drop_mm)}"
        about += f". The line this tip lays is {say.length(row.size_mm)} wide. Lay it in a clear wallet or under parchment."
        scenes.append(_page(size, title, about[0].upper() + about[1:], heading, number, len(_SIZES), items))
    return Sheet(f"practice-{slug(row.kind)}-{slug(row.tip.name)}", title, tuple(scenes))


def practice_lines(heading: Heading = Heading(), paper: str = "A4") -> Sheet:
    """Draw lines, waves, loops, drops and circles to pipe over, for any tip.

    Formula: none.

    Parameters
    ----------
    heading : Heading
        The order's name and day [-]
    paper : str
        "A4" or "Letter" [-]

    Returns
    -------
    Sheet
        One page [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: A4 and Letter. Leaves out: nothing.

    Example
    -------
    >>> practice_lines().name
    'practice-lines-and-curves'

    Source: common-practice
    """
    size = paper_mm(paper)
    left, top, room_w, room_h = _room(size)
    firm = Style(stroke="#8a8288", width_mm=0.7)
    items: list[Item] = []

    def place(y: float, words: str, points: Sequence[tuple[float, float]]) -> None:
        items.append(_words(left, y - 1.0, words, 2.8, style=_QUIET))
        third = max(2, len(points) * 2 // 3)
        items.append(Path(smooth([(left + x, y + 8 + v) for x, v in points[:third]]), firm))
        items.append(Path(smooth([(left + x, y + 8 + v) for x, v in points[third - 1 :]]), _DOTTED))

    steps = [i / 120 for i in range(121)]
    wide = room_w
    place(top + 3, "straight lines", [(wide * t, 0.0) for t in steps])
    place(top + 18, "a little pressure, a lot, a little", [(wide * t, 0.0) for t in steps])
    place(top + 33, "waves", [(wide * t, 5 * math.sin(t * math.tau * 6)) for t in steps])
    place(top + 56, "drops", [(wide * t, 14 * abs(math.sin(t * math.pi * 6)) ** 1.0) for t in [i / 240 for i in range(241)]])
    place(
        top + 86,
        "loops",
        [(wide * t * 0.96 + 6 + 6 * math.cos(t * math.tau * 10), 6 * math.sin(t * math.tau * 10) + 2) for t in [i / 300 for i in range(301)]],
    )
    place(top + 112, "to and fro", [(wide * t, 5 * (2 / math.pi) * math.asin(math.sin(t * math.tau * 18))) for t in [i / 288 for i in range(289)]])
    y = top + 134
    items.append(_words(left, y, "circles of 2, 3, 4 and 5 cm", 2.8, style=_QUIET))
    x = left
    for across in (20.0, 30.0, 40.0, 50.0):
        items.append(Path(circle(x + across / 2, y + 4 + across / 2, across / 2), firm))
        items.append(Path(circle(x + across / 2, y + 4 + across / 2, across / 4), _DOTTED))
        x += across + 8
    y += 62
    spiral = [(20 + t * 17 * math.cos(t * math.tau * 3), 20 + t * 17 * math.sin(t * math.tau * 3)) for t in steps]
    if y + 46 <= top + room_h:
        items.append(_words(left, y, "spirals for rosettes", 2.8, style=_QUIET))
        for i in range(4):
            items.append(Path(smooth([(left + i * 44 + px, y + 3 + py) for px, py in spiral]), (firm, firm, _DOTTED, _DOTTED)[i]))
    title, under = "Practice: lines and curves", "Lay it in a clear wallet or under parchment. Any tip; begin with a round one."
    return Sheet("practice-lines-and-curves", title, (_page(size, title, under, heading, 1, 1, items),))


# --- words and tables --------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Table:
    """A table of texts. `numeric` columns are set to the right; `tick` puts a box to tick before every row; `shares` are the columns' widths."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: tuple[int, ...] = ()
    tick: bool = False
    shares: tuple[float, ...] = ()


@dataclass(frozen=True)
class Words:
    """Paragraphs under a heading; `numbered` counts them, `boxed` draws a line beside them, as for cautions."""

    title: str
    paragraphs: tuple[str, ...]
    numbered: bool = False
    boxed: bool = False


@dataclass(frozen=True)
class Picture:
    """One drawing or two side by side, as high as `height_mm` allows or the page has left, with their scale in words where they have one."""

    scenes: tuple[Scene, ...]
    height_mm: float = 70.0
    scaled: bool = True


@dataclass(frozen=True)
class BenchStep:
    """One step of the bench sheet, in words ready to read."""

    title: str
    tip: str
    colour_name: str
    colour: str
    count: str = ""
    length: str = ""
    mass: str = ""
    angle: str = ""
    hand: str = ""
    note: str = ""


def _scale_words(times: float) -> str:
    """The scale of a drawing in words."""
    return f"drawn at 1 to {1 / times:.1f}" if times < 0.995 else f"drawn at {times:.1f} to 1" if times > 1.005 else "drawn at 1 to 1"


class _Flow:
    """Lays blocks down pages, one below the other."""

    def __init__(self, size: tuple[float, float]) -> None:
        self.size = size
        self.left, self.top, self.width, self.height = _room(size)
        self.top += 2.0
        self.height -= 2.0
        self.pages: list[list[Item]] = [[]]
        self.y = self.top

    @property
    def bottom(self) -> float:
        return self.top + self.height

    def sheet(self, name: str, title: str, under: str, heading: Heading) -> Sheet:
        """What was laid, each page in its frame."""
        count = len(self.pages)
        return Sheet(name, title, tuple(_page(self.size, title, under, heading, i, count, items) for i, items in enumerate(self.pages, 1)))

    def turn(self) -> None:
        self.pages.append([])
        self.y = self.top

    def need(self, height: float) -> bool:
        """Go to a new page where there is too little room; whether it did."""
        if self.y + height > self.bottom and self.y > self.top:
            self.turn()
            return True
        return False

    def add(self, *items: Item) -> None:
        self.pages[-1].extend(items)

    def heading(self, words: str, follow: float = 10.0) -> None:
        if not words:
            return
        self.need(9.0 + follow)
        if self.y > self.top:
            self.y += 3.0
        self.add(_words(self.left, self.y + 4.6, words, 5.0, face="display"))
        self.y += 7.4

    def table(self, table: Table) -> None:
        size, pad, lead = 3.6, 1.6, 4.5
        tick = 7.0 if table.tick else 0.0
        room = self.width - tick
        widths = _column_widths(table, room, size, pad)
        edges = [self.left + tick]
        for width in widths:
            edges.append(edges[-1] + width)

        def head() -> None:
            lines = [broken(name, w - 2 * pad, 3.2, "bold") for name, w in zip(table.columns, widths, strict=True)]
            tall = max(len(cell) for cell in lines) * 3.9 + 2.2
            self.add(Path(rectangle(self.left, self.y, self.width, tall), Style(fill="#ebe1cf")))
            for i, cell in enumerate(lines):
                for k, line in enumerate(cell):
                    self.add(self._cell(edges, i, table, self.y + 3.6 + k * 3.9, line, 3.2, pad, "bold"))
            self.y += tall

        self.heading(table.title, 18.0)
        if any(table.columns):
            head()
        for row in table.rows:
            cells = [broken(text, w - 2 * pad, size) for text, w in zip(row, widths, strict=True)]
            tall = max(1, *(len(cell) for cell in cells)) * lead + 2.0
            if self.need(min(tall, self.height)) and any(table.columns):
                head()
            done = 0
            most = max(1, *(len(cell) for cell in cells))
            while done < most:
                fits = max(1, int((self.bottom - self.y - 2.0) / lead))
                part = min(most - done, fits)
                for i, cell in enumerate(cells):
                    for k, line in enumerate(cell[done : done + part]):
                        self.add(self._cell(edges, i, table, self.y + 4.0 + k * lead, line, size, pad, "text"))
                if table.tick and done == 0:
                    self.add(Path(rectangle(self.left + 1.2, self.y + 1.1, 3.8, 3.8), Style(stroke=INK, width_mm=0.35)))
                self.y += part * lead + 2.0
                done += part
                if done < most:
                    self.turn()
            self.add(Path((("M", self.left, self.y), ("L", self.left + self.width, self.y)), Style(stroke="#b9a9b0", width_mm=0.2)))
        self.y += 2.0

    def _cell(self, edges: Sequence[float], i: int, table: Table, y: float, words: str, size: float, pad: float, face: str) -> Text:
        if i in table.numeric:
            return _words(edges[i + 1] - pad, y, words, size, "end", face)
        return _words(edges[i] + pad, y, words, size, "start", face)

    def words(self, block: Words) -> None:
        self.heading(block.title)
        indent = 7.0 if block.numbered else 4.0 if block.boxed else 0.0
        for number, paragraph in enumerate(block.paragraphs, 1):
            lines = broken(paragraph, self.width - indent, 3.7)
            self.need(min(len(lines), 3) * 4.8)
            if block.numbered:
                self.add(_words(self.left + 4.8, self.y + 4.0, str(number), 3.7, "end", "bold"))
            for line in lines:
                self.need(4.8)
                if block.boxed:
                    self.add(Path(rectangle(self.left, self.y + 0.4, 1.0, 4.8), Style(fill="#5a3e07")))
                self.add(_words(self.left + indent, self.y + 4.0, line, 3.7))
                self.y += 4.8
            self.y += 1.6

    def block(self, block: Block) -> None:
        match block:
            case Table():
                self.table(block)
            case Words():
                self.words(block)
            case Picture():
                self.picture(block)

    def picture(self, block: Picture) -> None:
        gap = 6.0
        share = (self.width - gap * (len(block.scenes) - 1)) / max(1, len(block.scenes))
        most = min(block.height_mm, self.height - 6.0)
        left = self.bottom - self.y - 6.0
        if 0.6 * most <= left < most:  # a little smaller here rather than on a page of its own
            most = left
        times = min([most / scene.height_mm for scene in block.scenes] + [share / scene.width_mm for scene in block.scenes])
        tall = max(scene.height_mm for scene in block.scenes) * times
        self.need(tall + 6.0)
        x = self.left + (self.width - sum(scene.width_mm * times for scene in block.scenes) - gap * (len(block.scenes) - 1)) / 2
        for scene in block.scenes:
            dy = self.y + tall - scene.height_mm * times
            self.add(Group(scene.items, matrix=(times, 0.0, 0.0, times, x - scene.x_mm * times, dy - scene.y_mm * times)))
            x += scene.width_mm * times + gap
        self.y += tall + 1.0
        if block.scaled:
            self.add(_words(self.left + self.width, self.y + 3.0, _scale_words(times), 2.8, "end", style=_QUIET))
        self.y += 5.0

    def step(self, number: int, step: BenchStep) -> None:
        body = self.width - 17.0
        facts = [fact for fact in (step.count, step.length, step.mass) if fact]
        told = [line for text in (step.angle, step.hand) if text for line in broken(text, body, 3.3)]
        noted = list(broken(step.note, body, 3.3, "bold")) if step.note else []
        titled = broken(step.title, body, 4.3, "bold")
        tall = len(titled) * 5.2 + 5.4 + (len(told) + len(noted)) * 4.2 + 3.4
        self.need(min(tall, self.height))
        y = self.y
        self.add(Path(rectangle(self.left + 0.2, y + 1.2, 5.2, 5.2), Style(stroke=INK, width_mm=0.4)))
        shown, big = _fitted(str(number), 6.0, 6.4, "display")
        self.add(_words(self.left + 14.0, y + 6.0, shown, big, "end", "display"))
        x = self.left + 17.0
        for line in titled:
            self.add(_words(x, y + 5.0, line, 4.3, face="bold"))
            y += 5.2
        self.add(Path(circle(x + 1.9, y + 3.1, 1.9), Style(fill=step.colour, stroke="#7d6673", width_mm=0.25)))
        left, small = _fitted(f"{step.colour_name}, {step.tip}", 3.8, body * 0.56, "text")
        self.add(_words(x + 5.2, y + 4.4, left, small))
        right, small = _fitted("   ".join(facts), 3.8, body * 0.42, "bold")
        self.add(_words(self.left + self.width, y + 4.4, right, small, "end", "bold"))
        y += 5.4
        for line in told:
            self.add(_words(x, y + 3.8, line, 3.3, style=_QUIET))
            y += 4.2
        for line in noted:
            self.add(_words(x, y + 3.8, line, 3.3, face="bold"))
            y += 4.2
        self.y = y + 2.6
        self.add(Path((("M", self.left, self.y), ("L", self.left + self.width, self.y)), Style(stroke="#b9a9b0", width_mm=0.2)))
        self.y += 0.8


def _column_widths(table: Table, room: float, size: float, pad: float) -> list[float]:
    """Widths that give every column its longest word, and share the rest by what they hold."""
    if table.shares:
        total = math.fsum(table.shares)
        return [room * share / total for share in table.shares]
    texts = [[table.columns[i], *(row[i] for row in table.rows)] for i in range(len(table.columns))]
    least = [max((text_width_mm(word, size, "bold") for text in column for word in text.split()), default=0.0) + 2 * pad for column in texts]
    wanted = [max((text_width_mm(text, size) for text in column), default=0.0) + 2 * pad + 0.5 for column in texts]
    if math.fsum(least) >= room:
        return [room * width / math.fsum(least) for width in least]
    # columns that ask for less than an even share of what is left get what they ask for; the others share the rest
    widths = list(least)
    open_columns = set(range(len(least)))
    while open_columns:
        rest = room - math.fsum(widths[i] for i in range(len(widths)) if i not in open_columns)
        fair = rest / len(open_columns)
        content = {i for i in open_columns if max(least[i], wanted[i]) <= fair}
        if not content:
            base = math.fsum(least[i] for i in open_columns)
            more = {i: max(0.0, wanted[i] - least[i]) for i in open_columns}
            total = math.fsum(more.values()) or 1.0
            for i in open_columns:
                widths[i] = least[i] + (rest - base) * more[i] / total
            return widths
        for i in content:
            widths[i] = max(least[i], wanted[i])
        open_columns -= content
    extra = (room - math.fsum(widths)) / len(widths)
    return [width + extra for width in widths]


Block = Table | Words | Picture


def written_sheet(name: str, title: str, blocks: Sequence[Block], heading: Heading = Heading(), paper: str = "A4", under: str = "") -> Sheet:
    """Set words, tables and drawings on as many pages as they take: shopping list, timetable, hand-out.

    Formula: none.

    Parameters
    ----------
    name : str
        Name of its file [-]
    title : str
        Its title [-]
    blocks : sequence of Table, Words or Picture
        What stands on it [-]
    heading : Heading
        The order's name and day [-]
    paper : str
        "A4" or "Letter" [-]
    under : str
        One line under the title [-]

    Returns
    -------
    Sheet
        The pages [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: any blocks; a row of a table longer than a page is broken. Leaves out: columns of text.

    Example
    -------
    >>> len(written_sheet("shopping-list", "Shopping list", [Table("", ("What", "How much"), (("Butter", "1.2 kg"),), (1,), True)]).pages)
    1

    Source: common-practice
    """
    flow = _Flow(paper_mm(paper))
    for block in blocks:
        flow.block(block)
    return flow.sheet(name, title, under, heading)


def bench_sheet(
    steps: Sequence[BenchStep],
    heading: Heading = Heading(),
    paper: str = "A4",
    views: tuple[Scene, ...] = (),
    before: Sequence[Block] = (),
    after: Sequence[Block] = (),
) -> Sheet:
    """Set the piping order, step by step: tip, colour, count, length, grams, how to hold it; with the cake above.

    Formula: none.

    Parameters
    ----------
    steps : sequence of BenchStep
        The steps, in their order [-]
    heading : Heading
        The order's name and day [-]
    paper : str
        "A4" or "Letter" [-]
    views : tuple of Scene
        Side view and top view [mm]
    before : sequence of Table, Words or Picture
        What stands before the steps [-]
    after : sequence of Table, Words or Picture
        What stands after them [-]

    Returns
    -------
    Sheet
        The pages [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: any number of steps. Leaves out: the time; the timetable has it.

    Example
    -------
    >>> bench_sheet([BenchStep("Shells round the base", "open star 7 mm", "russet", "#b9592f", "67 shells")]).title
    'Bench sheet'

    Source: common-practice
    """
    flow = _Flow(paper_mm(paper))
    if views:
        flow.picture(Picture(views, 72.0))
    for block in before:
        flow.block(block)
    for number, step in enumerate(steps, 1):
        flow.step(number, step)
    for block in after:
        flow.block(block)
    under = "Coat chilled and marked first. Every row starts and closes at the back."
    return flow.sheet("bench-sheet", "Bench sheet", under, heading)


def cutting_guide(plan: CutPlan, heading: Heading = Heading(), paper: str = "A4", tier_name: str = "", units: str = "metric") -> Sheet:
    """Draw where the knife goes on a tier, in which order, and how many slices it gives.

    Formula: none; the plan's own lines and sentences.

    Parameters
    ----------
    plan : CutPlan
        The plan [mm]
    heading : Heading
        The order's name and day [-]
    paper : str
        "A4" or "Letter" [-]
    tier_name : str
        What the tier is called [-]
    units : str
        "metric" or "us" [-]

    Returns
    -------
    Sheet
        The pages [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: any plan. Leaves out: lifting the tiers apart.

    Example
    -------
    >>> from calc.portions import cut_plan
    >>> cutting_guide(cut_plan(outline("round", 200.0), (25.0, 50.0)), tier_name="lower tier").name
    'cutting-guide-lower-tier'

    Source: geometry
    """
    say = Say(units)
    title = "Cutting guide" + (f": {tier_name}" if tier_name else "")
    under = f"{plan.count} slices of {say.length(plan.slice_mm[0])} by {say.length(plan.slice_mm[1])}. The front of the cake is below."
    caution = "Lift the tiers apart from the top down. Take out every dowel, pick and wire before you cut, and count them."
    blocks: list[Block] = [
        Picture((cutting_scene(plan, units),), 130.0),
        Words("The knife's way", tuple(cut.sentence(say) for cut in plan.cuts), numbered=True),
        Words("", (caution,), boxed=True),
    ]
    name = "cutting-guide" + (f"-{slug(tier_name)}" if tier_name else "")
    return written_sheet(name, title, blocks, heading, paper, under)


def tip_chart(tips: Sequence[tuple[Tip, str]], heading: Heading = Heading(), paper: str = "A4") -> Sheet:
    """Draw the openings of tips at 1:1, to hold a tip against.

    Formula: as `calc.drawing.figures.opening_parts`.

    Parameters
    ----------
    tips : sequence of (Tip, str)
        The tips, each with a short note such as a number that is often stamped [-]
    heading : Heading
        The order's name and day [-]
    paper : str
        "A4" or "Letter" [-]

    Returns
    -------
    Sheet
        The pages [mm]

    Raises
    ------
    KeyError
        There is no such paper.

    Range: any tips. Leaves out: the wall of the metal.

    Example
    -------
    >>> len(tip_chart([(Tip("round", 2.0), ""), (Tip("petal", 11.0), "")]).pages)
    1

    Source: common-practice
    """
    flow = _Flow(paper_mm(paper))
    family = ""
    x, tallest = flow.left, 0.0
    for tip, note in tips:
        if tip.family != family:
            if x > flow.left:
                flow.y += tallest
            x, tallest = flow.left, 0.0
            family = tip.family
            flow.heading(family[0].upper() + family[1:], 26.0)
        reach = tip.opening_mm if tip.family != "petal" else tip.slot_mm
        tall = (tip.opening_mm if tip.family not in ("leaf", "ruffle", "basket") else tip.slot_mm) + 15.0
        wide = max(26.0, reach + 8.0, text_width_mm(note, 2.6) + 4.0)
        if x + wide > flow.left + flow.width:
            flow.y += tallest
            x, tallest = flow.left, 0.0
        if x == flow.left:
            flow.need(tall + 2.0)
        elif flow.y + tall > flow.bottom:
            flow.turn()
            x, tallest = flow.left, 0.0
        middle = x + wide / 2
        flow.add(Path(opening_parts(tip, middle, flow.y + (tall - 15.0) / 2 + 2.0), _BLACK))
        flow.add(_words(middle, flow.y + tall - 7.6, Say().opening(tip.opening_mm), 3.4, "middle", "bold"))
        if note:
            flow.add(_words(middle, flow.y + tall - 3.8, note, 2.6, "middle", style=_QUIET))
        x += wide
        tallest = max(tallest, tall)
    under = "Openings at true size: hold your tip over them. Measure your own; numbers on tips differ from maker to maker."
    return flow.sheet("tip-chart", "Tip chart", under, heading)
