"""Marking the side of a tier at 1:1: a strip to wrap round it, or to prick through.

Map
---
`cut_up`          a strip in pieces: `Piece`, what each shows and where it lies on paper
`marking_strip`   to wrap round the cake, or to prick through

Words never lie on a line that is to be marked: names stand in the free space beside their rows, what is said about the paper stands outside
the outline, and the edges that are trimmed off or covered are left blank but for their own words.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from calc.drawing.faces import broken, text_width_mm
from calc.drawing.free_space import Box, FreeSpace
from calc.drawing.marks import cross, rule
from calc.drawing.motifs.laid import joints_mm
from calc.drawing.paper.sheet import BLACK, NO_HEADING, Heading, Sheet, framed, paper_mm, printable_mm, text_at
from calc.drawing.paper.tiles import OVERLAP_MM, TRIM, Span, strip_spans, tiles_mm
from calc.drawing.scene import GUIDE_DASH, GUIDE_LINE, INK, THIN, Group, Item, Path, Style, polygon
from calc.drawing.tiers import TierDrawn
from calc.drawing.unroll import BAND, CORNER, marked, name_row, row_style, tape_lines
from calc.shapes import outline
from calc.units import Formatter, capitalised, file_name_part

TAB_MM = 12.0
_CUT = Style(stroke="#000000", width_mm=0.5)
_TWICE = Style(stroke=INK, width_mm=0.9)
_SMALL = 3.0  # size of what is said about the paper
_ABOVE, _BELOW, _BETWEEN = 4.6, 5.0, 2.0  # room for words over and under a strip, and between two of them
_PAST_MM = 0.8  # how far lines go on past a trimming line, so that none ends short of it


@dataclass(frozen=True)
class Piece:
    """One piece of a strip: the stretch of the side and the part of its height that it shows, what it joins, and where it lies on paper.

    `page` counts from 0; (`x`, `y`) is its upper left corner on the page [mm].
    """

    number: int
    page: int
    x: float
    y: float
    left: float
    right: float
    top: float
    bottom: float
    joins_left: bool
    joins_right: bool
    joins_up: bool
    joins_down: bool

    @property
    def shown(self) -> tuple[float, float]:
        """From where to where its lines are drawn: not where it is trimmed off or covered."""
        return self.left + OVERLAP_MM / 2 * self.joins_left, self.right - (OVERLAP_MM / 2 - _PAST_MM) * self.joins_right


def cut_up(perimeter_mm: float, height_mm: float, paper: str) -> tuple[bool, tuple[Piece, ...]]:
    """Cut the strip of a side into pieces: whether the paper lies across, and the pieces.

    As few pieces as can be, because each join can be out; then as few pages, low pieces below each other.
    """
    found: list[tuple[int, int, bool, int, tuple[Span, ...], tuple[Span, ...]]] = []
    for landscape in (True, False):
        _, _, room_w, room_h = printable_mm(paper_mm(paper, landscape))
        across = strip_spans(perimeter_mm + TAB_MM, room_w)
        down: tuple[Span, ...] = ((0.0, height_mm),) if height_mm <= room_h else tiles_mm(height_mm, room_h)
        pitch = _ABOVE + height_mm + _BELOW + _BETWEEN
        stacked = 1 + max(0, int((room_h - height_mm - _BELOW) / pitch)) if len(down) == 1 else 1
        count = len(across) * len(down)
        found.append((count, -(-count // stacked), landscape, stacked, across, down))
    _, _, landscape, stacked, across, down = min(found, key=lambda way: way[:2])
    left, top, _, _ = printable_mm(paper_mm(paper, landscape))
    pitch = _ABOVE + height_mm + _BELOW + _BETWEEN
    pieces: list[Piece] = []
    for j, (upper, lower) in enumerate(down):
        for i, (begin, end) in enumerate(across):
            page, place = divmod(len(pieces), stacked)
            joins = (i > 0, i < len(across) - 1, j > 0, j < len(down) - 1)
            pieces.append(Piece(len(pieces) + 1, page, left, top + pitch * place, begin, end, upper, lower, *joins))
    return landscape, tuple(pieces)


def marking_strip(
    tier: TierDrawn, heading: Heading = NO_HEADING, paper: str = "A4", prick: bool = False, units: str = "metric", side_mm: float | None = None
) -> Sheet:
    """Draw the unrolled side of a tier at 1:1 on as many pages as it takes: to wrap round the cake, or to prick through.

    The closing line stands at the measured side, `side_mm` where it differs from the outline's own, with a scale of a centimetre either
    way. With `prick` the lines are dots. Rows on the top are not on the strip. Low strips lie below each other on one page.

    >>> len(marking_strip(TierDrawn(outline("round", 210.0), 0.0, 100.0)).pages)
    3
    """
    say = Formatter(units)
    if side_mm is not None and abs(side_mm - tier.outline.perimeter_mm) > 1e-6 and tier.outline.kind == "round":
        tier = replace(tier, outline=outline("round", side_mm / math.pi))
    perimeter_mm, height = tier.outline.perimeter_mm, tier.height_mm
    landscape, pieces = cut_up(perimeter_mm, height, paper)
    size = paper_mm(paper, landscape)
    left, top, room_w, room_h = printable_mm(size)
    pages: list[list[Item]] = [[] for _ in range(pieces[-1].page + 1)]
    ends = [top] * len(pages)
    for piece in pieces:
        tall = piece.bottom - piece.top
        drawn = Group(_piece_items(tier, piece, len(pieces), prick, say), matrix=(1.0, 0.0, 0.0, 1.0, left - piece.left, piece.y - piece.top))
        above, below = (0.0 if joins else room for joins, room in ((piece.joins_up, _ABOVE), (piece.joins_down, _BELOW)))
        pages[piece.page].append(Group((drawn,), clip=(left - 2.0, piece.y - above, room_w + 2.0, above + tall + below)))
        ends[piece.page] = piece.y + tall + below + 1.0
    bottom = top + room_h
    notes, deep = _notes(tier, len(pieces), prick, say, room_w)
    host = next((i for i, end in enumerate(ends) if end + deep <= bottom), None)
    if host is None:
        pages.append([])
        ends.append(top + 2.0)
        host = len(pages) - 1
    pages[host].append(Group(tuple(notes), matrix=(1.0, 0.0, 0.0, 1.0, left, ends[host])))
    title = f"Marking strip{' to prick through' if prick else ''}" + (f": {tier.name}" if tier.name else "")
    under = f"{say.length(perimeter_mm)} round, {say.length(height)} high"
    under += f", in {len(pieces)} pieces." if len(pieces) > 1 else "."
    scenes = tuple(framed(size, title, under, heading, number, len(pages), items, units) for number, items in enumerate(pages, 1))
    name = "marking-strip" + ("-prick" if prick else "") + (f"-{file_name_part(tier.name)}" if tier.name else "")
    return Sheet(name, title, scenes)


def _piece_items(tier: TierDrawn, piece: Piece, count: int, prick: bool, say: Formatter) -> tuple[Item, ...]:
    """What is drawn of one piece, where it lies on the strip."""
    perimeter_mm, height = tier.outline.perimeter_mm, tier.height_mm
    start, end = piece.shown[0], min(piece.shown[1], perimeter_mm)
    last = not piece.joins_right
    found = marked(tier, True, prick, (start, end), highest_mm=0.0)
    edge = min(piece.right, perimeter_mm)
    items: list[Item] = [*found.paths, *tape_lines(found, start, end)]
    upper, lower = piece.top + OVERLAP_MM / 2 * piece.joins_up, piece.bottom - (OVERLAP_MM / 2 - _PAST_MM) * piece.joins_down
    space = FreeSpace(Box(start + 1.0, upper + 0.8, end - 1.0, lower - 0.8))
    for item in items:
        if isinstance(item, Path):
            space.add_path(item.parts)
    items = [Group(tuple(items), clip=(start - 3.0 * piece.joins_left, upper, end - start + 3.0 + 3.0 * piece.joins_left, lower - upper))]
    items += [Path((("M", piece.left, y), ("L", edge, y)), _CUT) for y in (0.0, height)]
    if not piece.joins_left:
        items.append(Path((("M", 0.0, 0.0), ("L", 0.0, height)), _CUT))
    if last:
        items += _closing(space, piece, perimeter_mm, height, say)
    numbered = [(number, s) for number, s in enumerate(_joints(tier), 1) if start - 1e-6 <= s <= end + 1e-6]
    for _, s in numbered:
        # a notch at the top edge, where an error of the tape can be spread
        items.append(Path(polygon([(max(start, s - 1.6), 0), (min(end, s + 1.6), 0), (s, 3.2)]), Style(fill="#000000")))
        space.add_line([(s - 2.0, 1.0), (s + 2.0, 1.0), (s, 3.4), (s - 2.0, 1.0)])
    for number, s in numbered:
        items += _word(space, str(number), s, 3.4, "bold", height)
    for words, s in _named_places(tier, perimeter_mm):
        if start - 1e-6 <= s <= end + 1e-6:
            if words == "front":
                items.append(rule(s, 0.0, s, 4.0, THIN))
            items += _word(space, words, s, _SMALL, "text", height)
    up = space.take(_along_edge(start, end, text_width_mm("this edge up", _SMALL) + 4.0, 0.9 * _SMALL + 0.4))
    if up is not None:
        items += _edge_up(up.left, up.bottom - 0.2 * _SMALL)
    for row, paths in found.rows:
        items += name_row(space, row, paths, perimeter_mm)
    for _, y in found.tapes:
        items += _word(space, "guide tape", (start + end) / 2, _SMALL, "text", height, y)
    return (*items, *_round_about(piece, count, perimeter_mm, height, start, edge, up is None), *_joins(piece, height))


def _joints(tier: TierDrawn) -> tuple[float, ...]:
    """Where the joints stand that are counted: those of the first row that hangs, or of what sits at joints."""
    perimeter_mm = tier.outline.perimeter_mm
    rows = [row for row in tier.rows if not row.on_top]
    jointed = [row for row in rows if row.what.hangs] or [row for row in rows if row.place == "joints" or row.what.scroll]
    return tuple(sorted(s % perimeter_mm for s in joints_mm(jointed[0], perimeter_mm))) if jointed else ()


def _named_places(tier: TierDrawn, perimeter_mm: float) -> list[tuple[str, float]]:
    """Corners, notches and the front, where they stand on the strip."""
    shape = tier.outline
    heart = shape.kind == "heart"
    names = {s: ("cleft" if heart else "notch") if s in shape.notches_mm else "point" if heart else "corner" for s in shape.corners_mm}
    found = [(words, s) for s, words in names.items()]
    if any(s < 1e-6 for s in names):
        found.append((next(words for s, words in names.items() if s < 1e-6), perimeter_mm))
    return [*found, *([] if any(abs(s - perimeter_mm / 2) < 1.0 for s in names) else [("front", perimeter_mm / 2)])]


def _word(space: FreeSpace, words: str, s: float, size: float, face: str, height: float, line: float | None = None) -> list[Item]:
    """Words beside an upright line, in the free space from the top edge down, or beside a level one at some height; else nothing."""
    wide, tall = text_width_mm(words, size, face), 0.98 * size

    def boxes() -> list[Box]:
        if line is not None:
            tries = [(s + 7.0 * step * way, line + over) for step in range(0, 40) for way in (1, -1) for over in (-0.8 - tall, 0.8)]
            return [Box(x - wide / 2, y, x + wide / 2, y + tall) for x, y in tries]
        downs = [4.0 + 1.0 * step for step in range(0, int(max(1.0, height - 6.0 - tall)))]
        return [Box(x, y, x + wide, y + tall) for y in downs for x in (s + 1.2, s - 1.2 - wide)]

    found = space.take(boxes())
    return [] if found is None else [text_at(found.left, found.bottom - 0.22 * size, words, size, face=face, style=BLACK)]


def _along_edge(start: float, end: float, wide: float, tall: float) -> list[Box]:
    """Boxes under the top edge, from the middle outwards."""
    middle = (start + end - wide) / 2
    steps = int((end - start) / 8.0)
    return [Box(middle + 4.0 * i * way, y, middle + 4.0 * i * way + wide, y + tall) for y in (1.4, 3.0, 5.0) for i in range(steps) for way in (1, -1)]


def _edge_up(x: float, y: float) -> list[Item]:
    """The words that say which edge is up, with an arrow before them; y is their foot."""
    arrow = Path(polygon([(x, y), (x + 2.4, y), (x + 1.2, y - 2.3)]), Style(fill="#000000"))
    return [arrow, text_at(x + 3.6, y, "this edge up", _SMALL, style=BLACK)]


def _closing(space: FreeSpace, piece: Piece, perimeter_mm: float, height: float, say: Formatter) -> list[Item]:
    """The closing line, its tab, and a scale that shows by how much the tape was out."""
    items: list[Item] = [Path((("M", perimeter_mm, 0), ("L", perimeter_mm, height)), _TWICE)]
    slant = min(3.0, height / 6)
    items.append(
        Path(polygon([(perimeter_mm, 0), (perimeter_mm + TAB_MM, slant), (perimeter_mm + TAB_MM, height - slant), (perimeter_mm, height)]), THIN)
    )
    top = piece.top + OVERLAP_MM * piece.joins_up + slant
    bottom = height - slant if not piece.joins_down else piece.bottom - OVERLAP_MM
    if not piece.joins_down:
        step, count, told = (25.4 / 16, 6, {4: "1/4"}) if say.units == "us" else (1.0, 10, {5: "5", 10: "10"})
        far = step * count
        lowest = int(height - 12.0)
        boxes = ((y, Box(perimeter_mm - far - 3.0, y - 4.0, perimeter_mm - 2.1, y + 4.2)) for y in range(lowest, int(piece.top) + 6, -1))
        place = next(((y, box) for y, box in boxes if space.is_free(box)), None)
        y = float(place[0] if place else max(5.0, height - 8.0))
        space.boxes += [place[1]] if place else []
        for i in range(-count, count + 1):
            long = 3.4 if abs(i) in told else 2.0
            items.append(Path((("M", perimeter_mm + step * i, y), ("L", perimeter_mm + step * i, y - long)), THIN))
            if abs(i) in told and (i > 0 or place is not None):
                items.append(text_at(perimeter_mm + step * i - (0.8 if i == count else 0.0), y + 3.2, told[abs(i)], 2.9, "middle", style=BLACK))
        top, bottom = max(((top, y - 5.0), (y + 5.0, bottom)), key=lambda span: span[1] - span[0])
    words = "tab: behind the start"
    if bottom - top > text_width_mm(words, _SMALL):
        items.append(text_at(perimeter_mm + 7.0, (top + bottom) / 2, words, _SMALL, "middle", style=BLACK, turn=-90.0))
    return items


def _round_about(piece: Piece, count: int, perimeter_mm: float, height: float, start: float, edge: float, up_outside: bool) -> list[Item]:
    """What is said outside the outline: where it starts and closes, which edge is up, and to cut along it."""
    items: list[Item] = []
    last = not piece.joins_right
    if not piece.joins_up:
        if not piece.joins_left:
            items.append(text_at(0.0, -1.5, "starts here, at the middle of the back", _SMALL, style=BLACK))
        elif up_outside:
            items += _edge_up(start, -1.5)
        if last and perimeter_mm - piece.left > 110.0:
            items.append(text_at(perimeter_mm, -1.5, "closes here, at the back", _SMALL, "end", style=BLACK))
    if not piece.joins_down:
        words = "cut along the outline, keep the tab" if last else "cut along the outline"
        if up_outside and not piece.joins_left:
            words = "this edge down; " + words
        items.append(text_at(edge, height + 3.9, words, _SMALL, "end", style=BLACK))
        if count > 1:
            items.append(text_at(piece.left, height + 3.9, f"piece {piece.number} of {count}", _SMALL, face="bold", style=BLACK))
    return items


def _joins(piece: Piece, height: float) -> list[Item]:
    """The trimming lines of a piece, and in the blank beyond them what is laid on what."""
    top, bottom = max(0.0, piece.top), min(height, piece.bottom)
    half = OVERLAP_MM / 2
    items: list[Item] = []
    if piece.joins_left:
        x = piece.left + half
        items.append(Path((("M", x, top), ("L", x, bottom)), TRIM))
        items += _upright(piece.left + 4.0, top, bottom, (f"trim here, lay it on the dashed line of piece {piece.number - 1}", "trim here", "trim"))
    if piece.joins_right:
        x = piece.right - half
        items.append(Path((("M", x, top), ("L", x, bottom)), TRIM))
        items += _upright(piece.right - 1.7, top, bottom, (f"piece {piece.number + 1} is laid on here", f"piece {piece.number + 1}"))
    for joins, y, words in ((piece.joins_up, piece.top + half, "trim here, lay it on the piece above"), (piece.joins_down, piece.bottom - half, "")):
        if joins:
            items.append(Path((("M", piece.left, y), ("L", piece.right, y)), TRIM))
            told = words or "the piece below is laid on here"
            items.append(text_at((piece.left + piece.right) / 2, y + (-1.6 if words else 3.8), told, _SMALL, "middle", style=BLACK))
    return items


def _upright(x: float, top: float, bottom: float, ways: Sequence[str]) -> list[Item]:
    """The longest of some words that fits between two heights, turned upright."""
    words = next((way for way in ways if text_width_mm(way, _SMALL) < bottom - top - 3.0), None)
    return [] if words is None else [text_at(x, (top + bottom) / 2, words, _SMALL, "middle", style=BLACK, turn=-90.0)]


def _notes(tier: TierDrawn, count: int, prick: bool, say: Formatter, room: float) -> tuple[list[Item], float]:
    """What the lines are and how the strip is used, in two columns from (0, 0), and how deep they are."""
    perimeter_mm, size, lead = tier.outline.perimeter_mm, 3.3, 4.3
    column = (room - 8.0) / 2
    found = marked(tier, True, prick, (0.0, perimeter_mm), highest_mm=0.0)
    items: list[Item] = [text_at(0.0, 4.0, "The lines", 4.2, face="display")]
    y = 5.4

    def entry(style: Style | None, words: str) -> None:
        nonlocal y
        lines = broken(words, column - 15.0, size)
        if style is not None:
            items.append(Path((("M", 0.5, y + 2.4), ("L", 12.0, y + 2.4)), style))
        items.append(Group(tuple(text_at(15.0, y + 3.5 + lead * i, line, size) for i, line in enumerate(lines)), tag="P"))
        y += lead * len(lines) + 0.6

    for row, paths in found.rows:
        if row.what.hangs or row.what.scroll:
            deep = f", {say.length(row.drop_mm)} deep" if row.drop_mm else ""
            entry(row_style(tier, row, prick), f"{_name(row)}: joints {say.length(row.line_mm)} below the top edge{deep}")
        elif row.place == "joints":
            items.append(cross(6.2, y + 2.4, 4.0))
            entry(None, f"{_name(row)}: on the crosses, {say.length(row.line_mm)} below the top edge")
        elif paths:
            downs = [float(path.parts[0][2]) for path in paths]
            told = (
                f"from {say.length(downs[0])} to {say.length(downs[1])} below the top edge" if len(downs) > 1 else f"down to {say.length(downs[0])}"
            )
            entry(BAND, f"{_name(row)}: {told}")
        else:
            entry(None, f"{_name(row)}: on the edge")
    if found.joints:
        entry(GUIDE_DASH, "joints; a cross where the piping touches")
    for name, down in found.tapes:
        entry(GUIDE_LINE, f"{name} of the guide tape, {say.length(down)} below the top edge")
    if found.corners:
        entry(
            CORNER,
            "corners of the cake" if not tier.outline.notches_mm else "cleft and point of the cake" if tier.outline.kind == "heart" else "notches",
        )
    deepest = y
    y = 5.4
    x = column + 8.0
    items.append(text_at(x, 4.0, "How to use it", 4.2, face="display"))
    for number, words in enumerate(_steps(tier, count, prick, say), 1):
        lines = broken(words, column - 6.0, size)
        items.append(text_at(x + 3.6, y + 3.5, str(number), size, "end", "bold"))
        items.append(Group(tuple(text_at(x + 6.0, y + 3.5 + lead * i, line, size) for i, line in enumerate(lines)), tag="P"))
        y += lead * len(lines) + 0.6
    return items, max(y, deepest) + 1.0


def _name(row: object) -> str:
    name = getattr(row, "name", "") or f"{row.kind}, {row.tip.name}"  # type: ignore[attr-defined]
    return capitalised(name)


def _steps(tier: TierDrawn, count: int, prick: bool, say: Formatter) -> list[str]:
    """How a strip is used, step by step."""
    whole = say.length(tier.outline.perimeter_mm)
    joints = len(_joints(tier))
    steps = [f"Cut along the outline, and keep the tab. Start to closing line: {whole}."]
    if count > 1:
        steps.append(
            "Trim each piece after the first on its dashed line. Lay that edge on the dashed line of the piece before, top edges level, and tape it."
        )
    on = {"heart": " Lay cleft and point on those of the cake.", "petal": " Lay the notches on those of the cake."}.get(tier.outline.kind, "")
    if not on and tier.outline.corners_mm:
        on = " Lay the corners on those of the cake."
    steps.append(
        "Wrap it round the chilled cake, printed side out, the black notches up. Non-stick paper goes between it and the coat: ink is not food." + on
    )
    steps.append(
        "Prick through every cross, dot and dash with a clean stick."
        if prick
        else f"Prick through every cross, and along the curves every {'3/4 in' if say.units == 'us' else '2 cm'}."
    )
    if joints:
        limit = "3/8 in" if say.units == "us" else "1 cm"
        steps.append(
            f"Out by less than {limit}? Read by how much on the scale at the closing line, divide by {joints}, and overlap or open each joint by "
            "that."
        )
    return steps
