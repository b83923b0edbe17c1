"""The tip chart: openings at 1:1, to hold a tip against."""

from __future__ import annotations

from collections.abc import Sequence

from calc.drawing.faces import broken, text_width_mm
from calc.drawing.paper.flow import PageFlow
from calc.drawing.paper.sheet import BLACK, NO_HEADING, QUIET, Heading, Sheet, paper_mm, text_at
from calc.drawing.scene import INK, Path, Style
from calc.drawing.tip_openings import opening_parts
from calc.tips import Tip
from calc.units import Formatter, capitalised

_COLUMN_MM = 19.0  # the least that a tip takes along its row, with room to write what a maker calls it
_FIGURE_MM, _NOTE_MM = 3.4, 2.9
_NOTE_WIDE_MM, _NOTE_LEAD_MM = 24.0, 3.6
_LINE = Style(stroke=INK, width_mm=0.2)


def tip_chart(tips: Sequence[tuple[Tip, str]], heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric") -> Sheet:
    """Draw the openings of tips at 1:1, to hold a tip against, each with a short note and a line to write on under it.

    >>> len(tip_chart([(Tip("round", 2.0), ""), (Tip("petal", 11.0), "")]).pages)
    1
    """
    flow, say = PageFlow(paper_mm(paper)), Formatter(units)
    for family in dict.fromkeys(tip.family for tip, _ in tips):
        rows = _rows([(tip, note) for tip, note in tips if tip.family == family], flow.width, say)
        flow.heading(capitalised(family), _row_mm(rows[0], say))
        flow.y -= 1.6  # openings are far enough below it
        for row in rows:
            flow.need(_row_mm(row, say))
            _set_row(flow, row, say)
    under = "Openings at true size: hold your tip over them. Go by the opening; write your own name for it on the line."
    return flow.sheet("tip-chart", "Tip chart", under, heading, units)


def _opening_mm(tip: Tip) -> tuple[float, float]:
    """The width and height of an opening as it is drawn [mm]."""
    if tip.family == "petal":
        return tip.slot_mm, tip.opening_mm
    return tip.opening_mm, tip.slot_mm if tip.family in ("leaf", "ruffle", "basket") else tip.opening_mm


def _wide_mm(tip: Tip, note: str, say: Formatter) -> float:
    """The room that a tip takes along its row."""
    words = [text_width_mm(line, _NOTE_MM) for line in _note_lines(note)]
    words += [text_width_mm(line, _FIGURE_MM, "bold") for line in _figure_lines(tip, say)]
    return max(_COLUMN_MM, _opening_mm(tip)[0] + 5.0, max(words) + 3.0)


def _figure_lines(tip: Tip, say: Formatter) -> list[str]:
    """The opening in figures, inches below millimetres."""
    return say.opening_beside(tip.opening_mm).replace(" (", "\n(").split("\n")


def _note_lines(note: str) -> tuple[str, ...]:
    return broken(note, _NOTE_WIDE_MM, _NOTE_MM) if note else ()


def _rows(tips: Sequence[tuple[Tip, str]], room: float, say: Formatter) -> list[list[tuple[Tip, str]]]:
    """The tips of one family in rows."""
    rows: list[list[tuple[Tip, str]]] = [[]]
    taken = 0.0
    for tip, note in tips:
        wide = _wide_mm(tip, note, say)
        if taken + wide > room and rows[-1]:
            rows.append([])
            taken = 0.0
        rows[-1].append((tip, note))
        taken += wide
    return rows


def _row_mm(row: Sequence[tuple[Tip, str]], say: Formatter) -> float:
    """How high a row is: the tallest opening, its figure, a note where one has one, and a line to write on."""
    lines = max(len(_note_lines(note)) + len(_figure_lines(tip, say)) for tip, note in row)
    return max(_opening_mm(tip)[1] for tip, _ in row) + 10.4 + _NOTE_LEAD_MM * (lines - 1)


def _set_row(flow: PageFlow, row: Sequence[tuple[Tip, str]], say: Formatter) -> None:
    """Set a row of openings, their middles level."""
    x, tall, bottom = flow.left, max(_opening_mm(tip)[1] for tip, _ in row), flow.y + _row_mm(row, say)
    for tip, note in row:
        wide = _wide_mm(tip, note, say)
        middle = x + wide / 2
        flow.add(Path(opening_parts(tip, middle, flow.y + 0.8 + tall / 2), BLACK))
        figures = _figure_lines(tip, say)
        for i, line in enumerate((*figures, *_note_lines(note))):
            at = middle, flow.y + tall + 4.4 + i * _NOTE_LEAD_MM
            items = text_at(*at, line, _FIGURE_MM, "middle", "bold") if i < len(figures) else text_at(*at, line, _NOTE_MM, "middle", style=QUIET)
            flow.add(items)
        flow.add(Path((("M", x + 1.5, bottom - 1.2), ("L", x + wide - 1.5, bottom - 1.2)), _LINE))
        x += wide
    flow.y = bottom
