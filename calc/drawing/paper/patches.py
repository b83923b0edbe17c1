"""A sheet of patches to fill with a wandering line while practising."""

from __future__ import annotations

from calc.drawing.paper.practice import START, WORDS_MM, name_line
from calc.drawing.paper.sheet import NO_HEADING, QUIET, Heading, Sheet, framed, paper_mm, printable_mm, text_at
from calc.drawing.scene import INK, Group, Item, Path, Style, rectangle, smooth
from calc.drawing.wander import wander_points
from calc.tips import Tip
from calc.units import Formatter, capitalised, file_name_part

SIZES = (("large", 1.25), ("as on the cake", 1.0), ("small", 0.75))
HOW = (
    ("follow the grey", Style(stroke="#cfc9cc")),
    ("follow the dots", Style(stroke="#5f5561", width_mm=0.7, dash=(0.0, 3.0))),
    ("fill it yourself", None),
)
_APART = 10.0  # between two patches [mm]


def patch_sheet(
    tip: Tip, gap_mm: float, wide_mm: float, high_mm: float, heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric",
    mirrored: bool = False, named: bool = False,
) -> Sheet:  # fmt: skip
    """Draw three patches to fill, in three sizes of the curls: follow the grey, then the dots, then nothing.

    >>> len(patch_sheet(Tip("round", 1.8), 3.0, 168.0, 60.0).pages)
    3
    """
    size, say = paper_mm(paper), Formatter(units)
    left, top, room_w, _ = printable_mm(size)
    title = f"Practice: vermicelli, {tip.name}{', for the left hand' if mirrored else ''}"
    pages = []
    for number, (words, scale) in enumerate(SIZES, 1):
        pitch = gap_mm * scale + tip.bead_width_mm
        wide, high = (2 * max(1, int(room / pitch / 2)) for room in (wide_mm, high_mm))
        items: list[Item] = []
        y = top + 4.0
        for i, (how, style) in enumerate(HOW):
            items.append(text_at(left + room_w if mirrored else left, y + 6.4, how, 2.9, "end" if mirrored else "start", style=QUIET))
            patch: list[Item] = [Path(rectangle(0.0, 0.0, wide * pitch, high * pitch), Style(stroke=INK, width_mm=0.3))]
            if style is not None:
                line = style if style.dash else Style(stroke=style.stroke, width_mm=tip.bead_width_mm)
                patch.append(Path(smooth([(u * pitch, v * pitch) for u, v in wander_points(wide, high, 3 + i)]), line))
            patch.append(START)
            across = left + room_w - WORDS_MM if mirrored else left + WORDS_MM
            items.append(Group(tuple(patch), matrix=(-1.0 if mirrored else 1.0, 0.0, 0.0, 1.0, across, y)))
            y += high * pitch + _APART
        about = (
            f"{capitalised(words)}: {say.length(gap_mm * scale)} between two lines. Never cross, never touch. "
            "Lay it in a clear wallet or under parchment."
        )
        if named:
            items += name_line(size)
        pages.append(framed(size, title, about, heading, number, len(SIZES), items, units))
    return Sheet(f"practice-vermicelli-{file_name_part(tip.name)}{'-left' if mirrored else ''}", title, tuple(pages))
