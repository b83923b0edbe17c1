"""Sheets to pipe over while practising.

Map
---
`practice_sheet`   one row in three sizes: follow the grey, then the dots, then nothing
`practice_lines`   lines, waves, loops, circles and spirals for any tip
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from calc.drawing.marks import cross
from calc.drawing.motifs import motif
from calc.drawing.motifs.laid import joints_mm
from calc.drawing.paper.sheet import BLACK, NO_HEADING, QUIET, Heading, Sheet, framed, paper_mm, printable_mm, text_at
from calc.drawing.scene import INK, Group, Item, Path, Style, circle, smooth
from calc.drawing.tiers import TierDrawn, lay
from calc.drawing.unroll import DOTS, piped, row_lines
from calc.drawing.views import band_mm
from calc.rows import natural_pitch_mm
from calc.rows.placement import PlacedRow
from calc.shapes import outline
from calc.units import Formatter, capitalised, file_name_part

_GREY = "#cfc9cc"
_FAINT = Style(stroke="#8a8288", width_mm=0.3)
_DOTTED = Style(stroke="#3f3541", width_mm=0.9, dash=(0.0, 3.0))
WORDS_MM = 24.0  # the column of words beside the lines of an exercise
START = Path((("M", -8.0, -1.5), ("L", -3.5, 0.0), ("L", -8.0, 1.5), ("Z",)), Style(fill=INK))  # an arrow where a line starts
_AWAY_MM = 6.0  # a mirrored line keeps so much more from the bar at the left
_SLACK_MM = 0.5  # by which drawn pieces may come nearer than the room between two lines
_PAST_MM = 4.0  # how far the tail of a last piece may reach past its line
_DOT_MM = 0.55  # radius of a dot to follow
_LINE_DOTS_MM = 6.0
_APART_MM = 6.0  # pieces piped one by one stand at least so far apart, so that each can be traced
_SIZES = (("large", 1.25), ("as on the cake", 1.0), ("small", 0.75))
_LINES_MOST = 31  # on one page


def _exercise(row: PlacedRow, wide: float, how: str) -> tuple[list[Item], float, float]:
    """One line of an exercise: its items from (0, 0), and the room it needs above and below its line."""
    size = row.size_mm
    tier = TierDrawn(outline("round", wide / math.pi), 0.0, 400.0)
    reach = max(row.drop_mm, 0.0)
    items: list[Item] = []
    hung = row.what.hangs or row.what.scroll
    places = joints_mm(row, wide)
    if how == "grey":
        items.append(piped(tier, row, 0.0, _end_mm(row, wide)))
    if hung:
        if how == "dots":
            items += [Path(parts, _DOTTED if row.what.scroll else DOTS) for parts in row_lines(row, wide)]
        marks = [(s, 4.0) for s in (*places, wide)]
        if row.what.scroll:
            pitch = wide / max(1, len(places))
            across = row.width_mm or pitch * 0.78
            marks = [(s + (pitch - across) / 2 + far, 3.0) for s in places for far in (0.0, across)]
        items += [cross(s, 0.0, large) for s, large in marks]
    else:
        items.append(Path((("M", 0.0, 0.0), ("L", wide, 0.0)), _FAINT if how != "nothing" else Style(stroke="#b9b2b7", width_mm=0.2)))
        if how == "dots":
            items += [Path(circle(s, down, _DOT_MM), BLACK) for s, down in _dots(row, wide)]
        items.append(cross(0.0, 0.0, 4.0))
    half = (row.width_mm or size * 1.6) if row.what.set_apart else size * 1.3
    above, below = (half / 2 + 3.0, reach + size + 1.0 if hung else half / 2 + 3.0) if not row.what.tucked else (3.6, 1.2 * half + 0.8)
    low, high = band_mm(row, wide, 400.0)
    if row.what.scroll:  # one that rises has curls on both sides of its line, which keep further from those of the next
        return items, -low, high + (size + 3.0 if row.what.rises else 0.0)
    return items, max(above, -low - _SLACK_MM), max(below, high - _SLACK_MM)


def _end_mm(row: PlacedRow, wide: float) -> float:
    """How far along its line a row is piped: to the end, or without the last piece where its tail would leave the frame."""
    pieces = lay(row, wide, 400.0).pieces
    if not pieces:
        return wide
    last = pieces[-1]
    tail = max(float(v) for path in motif(last.piece, row.colour).items for part in path.parts for v in part[1::2])
    past = last.s + tail * last.along / 100 * math.cos(last.turn) - wide
    return wide if past <= _PAST_MM else last.s - 1e-6


def _dots(row: PlacedRow, wide: float) -> list[tuple[float, float]]:
    """Where the dots to follow stand on a straight line: one for each piece as it is drawn, at its upper and then at its lower edge where
    the tip is rocked to and fro; along a plain line every 6 mm."""
    pieces = lay(row, wide, 400.0).pieces
    if not pieces:
        count = max(3, round(wide / _LINE_DOTS_MM))
        return [((i + 0.5) * wide / count, 0.0) for i in range(count)]
    if row.what.rocking_mm(row.tip) is None:
        return [(piece.s, 0.0) for piece in pieces if piece.s <= _end_mm(row, wide)]
    step = wide / max(1, len(pieces))
    return [(piece.s + aside * step, piece.down + way * 0.42 * piece.across) for piece in pieces for aside, way in ((0.0, -1), (0.5, 1))]


def name_line(size: tuple[float, float]) -> list[Item]:
    """A line for the student's name at the top right of a page."""
    right = size[0] - 10.0
    return [text_at(right - 61.0, 13.6, "Name", 3.2), Path((("M", right - 51.0, 13.9), ("L", right, 13.9)), Style(stroke=INK, width_mm=0.25))]


def practice_sheet(
    row: PlacedRow, pitch_mm: float = 0.0, heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric",
    mirrored: bool = False, named: bool = False, called: str = "", lines: int = 0,
) -> Sheet:  # fmt: skip
    """Draw a row to practise with the tip in hand, in three sizes: follow the grey, then the dots, then nothing.

    Large is 1.25 times and small 0.75 times the size on the cake, the whole row but for the ribbon of swags and strings, which stays the
    tip's own. `pitch_mm` is the width of a swag, or the distance from piece to piece; 0 takes the tip's own. An arrow shows where each line
    starts; a `mirrored` sheet is for the left hand. A `named` one has a line for a name. It is `called` by the name of its kind, or by
    another. Curves lie along the paper where more of them go onto it that way, unless so many `lines` at the size on the cake are asked
    for: then the paper stands upright, as it does where those lines were counted.

    >>> from calc.tips import Tip
    >>> len(practice_sheet(PlacedRow("shell", Tip("open star", 7.0), "#b9592f"), 10.0).pages)
    3
    """
    say = Formatter(units)
    curved = row.what.hangs or row.what.scroll
    title = f"Practice: {called or row.kind}, {row.tip.name}{', for the left hand' if mirrored else ''}"
    scenes = []
    for number, (size_name, scale) in enumerate(_SIZES, 1):
        most = lines if scale == 1.0 and lines else _LINES_MOST
        ways = [
            _laid(row, pitch_mm, scale, paper_mm(paper, along), mirrored, most) for along in ((False, True) if curved and not lines else (False,))
        ]
        size, items, wanted, drop_mm, _ = max(
            ways, key=lambda way: (way[2], way[4])
        )  # whole repeats, then many of them; upright where both are alike
        about = f"{size_name}: {_about(row, scale, wanted, say)}"
        if row.drop_mm:
            about += f", drop {say.length(drop_mm)}"
        about += f". The line this tip lays is {say.length(row.size_mm)} wide. Lay it in a clear wallet or under parchment."
        if named:
            items = [*items, *name_line(size)]
        scenes.append(framed(size, title, capitalised(about), heading, number, len(_SIZES), items, units))
    name = f"practice-{file_name_part(row.kind)}-{file_name_part(row.tip.name)}"
    return Sheet(f"{name}-left" if mirrored else name, title, tuple(scenes))


def _about(row: PlacedRow, scale: float, wanted: float, say: Formatter) -> str:
    """How large a row is in one of the sizes."""
    if row.what.hangs or row.what.scroll:
        return f"{say.length(wanted)} wide"
    if row.what.in_pieces:
        return f"{say.length(wanted)} from one to the next"
    return f"{say.length(row.what.across_mm(row.tip) * scale)} across"


def _laid(
    row: PlacedRow, pitch_mm: float, scale: float, size: tuple[float, float], mirrored: bool, most: int
) -> tuple[tuple[float, float], list[Item], float, float, int]:
    """One page of a practice sheet, of `most` lines at most: its paper, its items, the width of a repeat, the drop, and how many repeats it holds."""
    left, top, room_w, room_h = printable_mm(size)
    room = room_w - WORDS_MM
    curved = row.what.hangs or row.what.scroll
    single = row.what.set_apart
    width = (row.width_mm or natural_pitch_mm(row.kind, row.tip)) * scale if single else None
    natural = pitch_mm or (row.size_mm * 8.0 if curved else natural_pitch_mm(row.kind, row.tip) or row.size_mm)
    wanted = min(max((width or 0.0) * 1.25, _APART_MM) if single else natural * scale, room)
    repeats = max(1, int(room / wanted + 1e-9))
    wide = wanted * repeats if curved else room
    pieces = row.what.in_pieces
    sized = replace(
        row,
        colour=_GREY,
        place="side",
        line_mm=0.0,
        joints=(),
        shift=0.0,
        drop_mm=row.drop_mm * scale,
        repeats=repeats if not pieces else 0,
        count=max(3, round(wide / wanted)) if pieces else None,
        name="",
        width_mm=width,
        per_joint=1,
        bead_mm=row.size_mm * (1.0 if row.what.hangs else scale),
        tip=row.tip if curved else replace(row.tip, **{name: getattr(row.tip, name) * scale for name in ("opening_mm", "inner_mm", "slot_mm")}),
    )
    y, turn = top + 4.0, 0
    items: list[Item] = []
    while turn < most:
        how = ("grey", "dots", "nothing")[turn % 3]
        line, above, below = _exercise(sized, wide, how)
        if y + above + below > top + room_h:
            break
        told = {"grey": "follow the grey", "dots": "follow the dots", "nothing": "from mark to mark"}[how]
        items.append(text_at(left + room_w if mirrored else left, y + 2.4, told, 2.9, "end" if mirrored else "start", style=QUIET))
        across = left + room_w - WORDS_MM + _AWAY_MM if mirrored else left + WORDS_MM
        items.append(Group((*line, START), matrix=(-1.0 if mirrored else 1.0, 0.0, 0.0, 1.0, across, y + above + 2.0)))
        y += above + below + (2.2 if row.what.hangs else 3.0)  # hanging rows leave room of their own
        turn += 1
    return size, items, wanted, sized.drop_mm, turn * repeats


def practice_lines(heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric") -> Sheet:
    """Draw lines, waves, loops, drops and circles to pipe over, for any tip."""
    size = paper_mm(paper)
    left, top, room_w, room_h = printable_mm(size)
    firm = Style(stroke="#8a8288", width_mm=0.7)
    items: list[Item] = []

    def place(y: float, words: str, points: Sequence[tuple[float, float]]) -> None:
        items.append(text_at(left, y - 1.0, words, 2.9, style=QUIET))
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
        [((wide - 12) * t + 6 + 6 * math.cos(t * math.tau * 10), 6 * math.sin(t * math.tau * 10) + 2) for t in [i / 300 for i in range(301)]],
    )
    place(top + 112, "to and fro", [(wide * t, 5 * (2 / math.pi) * math.asin(math.sin(t * math.tau * 18))) for t in [i / 288 for i in range(289)]])
    y = top + 134
    sizes = {"us": (19.05, 31.75, 38.1, 50.8)}.get(units, (20.0, 30.0, 40.0, 50.0))
    told = {"us": "3/4, 1 1/4, 1 1/2 and 2 in"}.get(units, "2, 3, 4 and 5 cm")
    items.append(text_at(left, y, f"circles of {told}", 2.9, style=QUIET))
    x = left
    for across in sizes:
        items.append(Path(circle(x + across / 2, y + 4 + across / 2, across / 2), firm))
        items.append(Path(circle(x + across / 2, y + 4 + across / 2, across / 4), _DOTTED))
        x += across + 8
    y += 62
    spiral = [(20 + t * 17 * math.cos(t * math.tau * 3), 20 + t * 17 * math.sin(t * math.tau * 3)) for t in steps]
    if y + 46 <= top + room_h:
        items.append(text_at(left, y, "spirals for rosettes", 2.9, style=QUIET))
        for i in range(4):
            items.append(Path(smooth([(left + i * 44 + px, y + 3 + py) for px, py in spiral]), (firm, firm, _DOTTED, _DOTTED)[i]))
    title, under = "Practice: lines and curves", "Lay it in a clear wallet or under parchment. Any tip; begin with a round one."
    return Sheet("practice-lines-and-curves", title, (framed(size, title, under, heading, 1, 1, items, units),))
