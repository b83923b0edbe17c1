"""Words, tables and drawings set down the pages of a sheet, one below the other.

Map
---
`Table`, `Paragraphs`, `Picture`, `Blanks`   the blocks
`PageFlow`                         sets blocks, and turns the page where one does not fit
`written_sheet`                    a sheet made of blocks alone: shopping list, timetable, hand-out
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from calc.drawing.faces import broken, text_width_mm
from calc.drawing.paper.sheet import NO_HEADING, QUIET, SMALLEST_MM, Heading, Sheet, fit_text, framed, paper_mm, printable_mm, text_at
from calc.drawing.scene import INK, Group, Item, Path, Scene, Style, Text, rectangle

BODY_MM = 3.6  # size of type in tables, a little over 10 pt
SMALLER = 0.9  # of that, 9 pt, where it saves a page that would be nearly empty
_BESIDE_LINE_MM = 8.4  # from line to line beside a drawing
COLUMN_GAP_MM = 6.0
SHORTEST_LAST_MM = 50.0  # what the last of several pages holds at least


@dataclass(frozen=True)
class Table:
    """A table of texts. `numeric` columns are set to the right; `tick` puts a box to tick before every row; `shares` are the columns' widths.

    Rows to write in are `row_mm` high at least, with rules between their columns. It begins a new page where there is no room for `keep_mm` of it.
    """

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: tuple[int, ...] = ()
    tick: bool = False
    shares: tuple[float, ...] = ()
    row_mm: float = 0.0
    keep_mm: float = 18.0


@dataclass(frozen=True)
class Paragraphs:
    """Paragraphs under a heading; `numbered` counts them, `boxed` draws a line beside them, as for cautions, `strong` sets them in bold;
    they begin a new page where there is no room for `keep_mm` of them."""

    title: str
    paragraphs: tuple[str, ...]
    numbered: bool = False
    boxed: bool = False
    strong: bool = False
    keep_mm: float = 10.0


@dataclass(frozen=True)
class Blanks:
    """Lines to write on, each after its label; what is known already stands on its line, and a drawing to their right."""

    title: str
    lines: tuple[tuple[str, str], ...]
    beside: Scene | None = None


@dataclass(frozen=True)
class Picture:
    """Drawings side by side, as high as `height_mm` or the rest of the page allows; `scaled` writes their scale below, `caption` words."""

    scenes: tuple[Scene, ...]
    height_mm: float = 70.0
    scaled: bool = True
    caption: str = ""


Block = Table | Paragraphs | Picture | Blanks


def _scale_words(times: float) -> str:
    """The scale of a drawing in words."""
    return f"drawn at 1 to {1 / times:.1f}" if times < 0.995 else f"drawn at {times:.1f} to 1" if times > 1.005 else "drawn at 1 to 1"


class PageFlow:
    """Sets blocks down the pages of a sheet in type of a size, in one column or several; `y` is where the next one goes."""

    def __init__(self, size: tuple[float, float], body_mm: float = BODY_MM, columns: int = 1) -> None:
        self.size = size
        self.body_mm = body_mm
        self.times = body_mm / BODY_MM  # larger than on other sheets
        self.left, self.top, self.width, self.height = printable_mm(size)
        self.top += 2.0
        self.height -= 2.0
        self.width = min(self.width, size[0] - 2 * self.left)  # as wide as the frame; what is to scale may be wider
        self.columns, self.column = columns, 0
        self.width = (self.width - COLUMN_GAP_MM * (columns - 1)) / columns
        self.pages: list[list[Item]] = [[]]
        self.y = self.top

    @property
    def bottom(self) -> float:
        """Where the page ends [mm]."""
        return self.top + self.height

    def sheet(self, name: str, title: str, under: str, heading: Heading, scale: str = "") -> Sheet:
        """Put each page in its frame; `scale` as in `framed`."""
        count = len(self.pages)
        return Sheet(name, title, tuple(framed(self.size, title, under, heading, i, count, items, scale) for i, items in enumerate(self.pages, 1)))

    def turn(self) -> None:
        """Begin the next column, or a new page."""
        self.column = (self.column + 1) % self.columns
        if self.column:
            self.left += self.width + COLUMN_GAP_MM
        else:
            self.left -= (self.columns - 1) * (self.width + COLUMN_GAP_MM)
            self.pages.append([])
        self.y = self.top

    def need(self, height: float) -> bool:
        """Begin a new page if this one has less room than `height`; returns whether it did."""
        if self.y + height > self.bottom and self.y > self.top:
            self.turn()
            return True
        return False

    def add(self, *items: Item) -> None:
        """Put items on the current page."""
        self.pages[-1].extend(items)

    def tag(self, tag: str, *items: Item, alt: str = "") -> None:
        """Put items on the current page as one element of the document."""
        self.add(Group(items, tag=tag, alt=alt))

    def heading(self, words: str, follow: float = 10.0) -> None:
        """Set a heading together with at least `follow` mm of what comes after it."""
        if not words:
            return
        self.need(9.0 + follow)
        if self.y > self.top:
            self.y += 3.0
        big = 5.0 * max(1.0, 0.85 * self.times)
        lines = broken(words, self.width, big, "display")
        self.tag("H2", *(text_at(self.left, self.y + (0.92 + 1.2 * i) * big, line, big, face="display") for i, line in enumerate(spaced(lines))))
        self.y += (1.48 + 1.2 * (len(lines) - 1)) * big

    def table(self, table: Table) -> None:
        """Set a table, its head again on every page."""
        dense = self.columns > 1
        size, pad, small = self.body_mm, 1.2 if dense else 1.6, 3.2 * max(1.0, 0.85 * self.times)
        lead, apart, box_mm = (1.18 * size, 1.2, 3.0) if dense else (1.25 * size, 2.0, 3.8)
        tick = box_mm + (2.0 if dense else 3.2) if table.tick else 0.0
        room = self.width - tick
        widths = _column_widths(table, room, size, pad)
        edges: list[float] = []

        def place() -> None:
            edges[:] = accumulate(widths, initial=self.left + tick)

        set_here: list[Item] = []  # rows of the table on this page

        def end_page() -> None:
            if set_here:
                self.tag("Table", *set_here)
                set_here.clear()

        def head() -> None:
            lines = [broken(name, w - 2 * pad, small, "bold") for name, w in zip(table.columns, widths, strict=True)]
            tall = max(len(cell) for cell in lines) * 1.22 * small + 2.2
            ground: Item = Path(rectangle(self.left, self.y, self.width, tall), Style(fill="#ebe1cf"))
            cells = [self._cell("TH", edges, i, table, self.y + 1.12 * small, 1.22 * small, cell, small, pad, "bold") for i, cell in enumerate(lines)]
            set_here.append(Group((Group((ground,), tag="Artifact"), *cells), tag="TR"))
            self.y += tall

        self.heading(table.title, table.keep_mm)
        place()
        if any(table.columns):
            head()
        for row in table.rows:
            cells = [broken(text, w - 2 * pad, size) for text, w in zip(row, widths, strict=True)]
            tall = max(max(1, *(len(cell) for cell in cells)) * lead + apart, table.row_mm)
            if self.y + min(tall, self.height) > self.bottom and self.y > self.top:
                end_page()
                self.turn()
                place()
                if any(table.columns):
                    head()
            done = 0
            most = max(1, *(len(cell) for cell in cells))
            while done < most:
                fits = max(1, int((self.bottom - self.y - apart) / lead))
                part = min(most - done, fits)
                here: list[Item] = [
                    self._cell("TD", edges, i, table, self.y + 1.11 * size, lead, cell[done : done + part], size, pad, "text")
                    for i, cell in enumerate(cells)
                ]
                if table.tick and done == 0:
                    box = Path(rectangle(self.left + 1.2, self.y + (0.9 if dense else 1.1), box_mm, box_mm), Style(stroke=INK, width_mm=0.35))
                    here.append(Group((box,), tag="Artifact"))
                self.y += tall if part == most else part * lead + apart
                done += part
                if done >= most:
                    line = Path((("M", self.left, self.y), ("L", self.left + self.width, self.y)), Style(stroke="#b9a9b0", width_mm=0.2))
                    rules = [Path((("M", x, self.y - tall), ("L", x, self.y)), line.style) for x in edges[1:-1]] if table.row_mm else []
                    here.append(Group((line, *rules), tag="Artifact"))
                set_here.append(Group(tuple(here), tag="TR"))
                if done < most:
                    end_page()
                    self.turn()
                    place()
        end_page()
        self.y += 2.0

    def _cell(
        self, tag: str, edges: Sequence[float], i: int, table: Table, y: float, lead: float, lines: Sequence[str], size: float, pad: float, face: str
    ) -> Group:
        """One cell of a table, line under line."""
        x, anchor = (edges[i + 1] - pad, "end") if i in table.numeric else (edges[i] + pad, "start")
        return Group(tuple(text_at(x, y + k * lead, words, size, anchor, face) for k, words in enumerate(spaced(lines, anchor))), tag=tag)

    def paragraphs(self, block: Paragraphs) -> None:
        """Set paragraphs, line by line."""
        if block.title:
            self.heading(block.title, block.keep_mm)
        else:
            self.need(block.keep_mm)
        size, lead, face = 1.03 * self.body_mm, 1.33 * self.body_mm, "bold" if block.strong else "text"
        indent = 7.0 * self.times if block.numbered else 4.0 if block.boxed else 0.0
        for number, paragraph in enumerate(block.paragraphs, 1):
            lines = broken(paragraph, self.width - indent, size, face)
            self.need(min(len(lines), 3) * lead)
            label = text_at(self.left + 4.8 * self.times, self.y + 1.11 * self.body_mm, f"{number} ", size, "end", "bold") if block.numbered else None
            here: list[Item] = []

            def set_down(label: Text | None, here: list[Item]) -> None:
                if label is not None:
                    self.tag("P", label, *here)
                elif here:
                    self.tag("P", *here)

            for line in spaced(lines):
                if self.y + lead > self.bottom and self.y > self.top:
                    set_down(label, here)
                    label, here = None, []
                    self.turn()
                if block.boxed:
                    self.tag("Artifact", Path(rectangle(self.left, self.y + 0.4, 1.0, lead), Style(fill="#5a3e07")))
                here.append(text_at(self.left + indent, self.y + 1.11 * self.body_mm, line, size, face=face))
                self.y += lead
            set_down(label, here)
            self.y += 1.6

    def blanks(self, block: Blanks) -> None:
        """Set lines to write on, high enough for a hand."""
        self.heading(block.title)
        size, high = self.body_mm, max(7.6, 2.0 * self.body_mm)
        wide = self.width
        if block.beside is not None:
            high, wide = _BESIDE_LINE_MM, 0.66 * self.width
            self.need(high * len(block.lines))
        top = self.y
        for label, known in block.lines:
            words = broken(label, 0.6 * wide, size)
            tall = high + (len(words) - 1) * 1.25 * size
            self.need(tall)
            self.y += tall
            first = self.y - 1.2 - (len(words) - 1) * 1.25 * size
            here: list[Item] = [text_at(self.left, first + i * 1.25 * size, line, size) for i, line in enumerate(spaced([*words, ""])[:-1])]
            x = self.left + text_width_mm(words[-1], size) + 2.0
            if known:
                shown, big = fit_text(known, size, wide + self.left - x, "bold")
                here.append(text_at(x, self.y - 1.2, shown, big, face="bold"))
            self.tag("P", *here)
            self.tag("Artifact", Path((("M", x, self.y), ("L", self.left + wide, self.y)), Style(stroke=INK, width_mm=0.25)))
        if block.beside is not None:
            scene, tall = block.beside, self.y - top
            times = min(tall / scene.height_mm, 0.31 * self.width / scene.width_mm)
            dx = self.left + (self.width + wide + 4.0 - scene.width_mm * times) / 2 - scene.x_mm * times
            dy = top + (tall - scene.height_mm * times) / 2 - scene.y_mm * times
            items = _legible(scene.items, times)
            self.tag("Figure", Group(items, matrix=(times, 0.0, 0.0, times, dx, dy)), alt=scene.description or scene.title)
        self.y += 2.0

    def block(self, block: Block) -> None:
        """Set any block."""
        match block:
            case Table():
                self.table(block)
            case Paragraphs():
                self.paragraphs(block)
            case Picture():
                self.picture(block)
            case Blanks():
                self.blanks(block)

    def picture(self, block: Picture) -> None:
        """Set drawings side by side at one scale."""
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
            at = (times, 0.0, 0.0, times, x - scene.x_mm * times, dy - scene.y_mm * times)
            self.tag("Figure", Group(_legible(scene.items, times), matrix=at), alt=scene.description or scene.title)
            x += scene.width_mm * times + gap
        self.y += tall + 1.0
        if block.caption:
            self.tag("P", text_at(self.left + self.width / 2, self.y + 3.0, block.caption, BODY_MM, "middle", "bold"))
        if block.scaled:
            self.tag("P", text_at(self.left + self.width, self.y + 3.0, _scale_words(times), SMALLEST_MM, "end", style=QUIET))
        self.y += 5.0


def _legible(items: Sequence[Item], times: float) -> tuple[Item, ...]:
    """Items of a drawing that is scaled, with words of at least 8 pt on paper."""
    least = SMALLEST_MM / times
    found: list[Item] = []
    for item in items:
        if isinstance(item, Text) and item.size_mm < least:
            found.append(item._replace(size_mm=least))
        elif isinstance(item, Group):
            own = math.hypot(item.matrix[0], item.matrix[1]) if item.matrix else 1.0
            found.append(item._replace(items=_legible(item.items, times * own)))
        else:
            found.append(item)
    return tuple(found)


def spaced(lines: Sequence[str], anchor: str = "start") -> list[str]:
    """Lines of one paragraph, with a space at the end of each but the last, so that a screen reader keeps the words apart."""
    return [f"{line} " if anchor == "start" and i < len(lines) else line for i, line in enumerate(lines, 1)]


def _column_widths(table: Table, room: float, size: float, pad: float) -> list[float]:
    """Widths that give every column room for its longest word, and share the rest by content."""
    if table.shares:
        total = math.fsum(table.shares)
        return [room * share / total for share in table.shares]
    texts = [[table.columns[i], *(row[i] for row in table.rows)] for i in range(len(table.columns))]
    least = [max((text_width_mm(word, size, "bold") for text in column for word in text.split()), default=0.0) + 2 * pad for column in texts]
    wanted = [max((text_width_mm(text, size) for text in column), default=0.0) + 2 * pad + 0.5 for column in texts]
    if math.fsum(least) >= room:
        return [room * width / math.fsum(least) for width in least]
    # a column that needs less than an even share of what is left gets what it needs; the others share the rest
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


def written_sheet(
    name: str,
    title: str,
    blocks: Sequence[Block],
    heading: Heading = NO_HEADING,
    paper: str = "A4",
    under: str = "",
    body_mm: float = BODY_MM,
    columns: int = 1,
) -> Sheet:
    """Set words, tables and drawings on as many pages as they take: shopping list, timetable, hand-out.

    `under` is one line under the title, `body_mm` the size of the type, `columns` how many stand side by side. A table row longer than a page
    is broken.

    >>> len(written_sheet("shopping-list", "Shopping list", [Table("", ("What", "How much"), (("Butter", "1.2 kg"),), (1,), True)]).pages)
    1
    """

    def set_down(turn_before: int, size_mm: float) -> PageFlow:
        flow = PageFlow(paper_mm(paper), size_mm, columns)
        flow.height += 7.0  # no bars stand below
        if not under:
            flow.top, flow.height, flow.y = flow.top - 6.0, flow.height + 6.0, flow.y - 6.0
        for i, block in enumerate(blocks):
            if i == turn_before:
                flow.turn()
            flow.block(block)
        return flow

    flow = set_down(-1, body_mm)
    if len(flow.pages) > 1 and flow.y - flow.top < SHORTEST_LAST_MM:  # a few lines on a page of their own: one page less, or a whole block on it
        smaller = set_down(-1, SMALLER * body_mm) if body_mm == BODY_MM else flow
        if len(smaller.pages) < len(flow.pages):
            flow = smaller
        else:
            later = (set_down(i, body_mm) for i in range(len(blocks) - 1, 0, -1))
            flow = next((f for f in later if len(f.pages) == len(flow.pages) and f.y - f.top >= SHORTEST_LAST_MM), flow)
    return flow.sheet(name, title, under, heading)
