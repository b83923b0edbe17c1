"""A sheet of paper and the frame that every page bears. It may import the scene, the typefaces and the marks of `drawing`.

Map
---
`Heading`, `Sheet`          the order's name and day; a sheet with its pages
`paper_mm`, `printable_mm`  sizes of paper, and what the frame leaves of them
`framed`                    one page: title, heading, page number, what stands on it, and on a page to scale its bars
`text_at`, `fit_text`       words in one of the usual styles; words made to fit a width
`SMALLEST_MM`               the smallest size of text on paper

A page to scale bears a bar both ways in the reader's units, 100 mm or 4 in, and the words "print at 100 %". All text
stays at least 5 mm inside the paper's edge and is 8 pt or larger.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from calc.drawing.faces import broken, text_width_mm
from calc.drawing.marks import bar
from calc.drawing.pdf import About, pdf
from calc.drawing.scene import INK, Group, Item, Path, Scene, Style, Text
from calc.units import Formatter

PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
_LEFT, _RIGHT, _TOP, _BOTTOM = 10.0, 7.0, 26.0, 22.0  # margins that the frame takes up, in mm
SMALLEST_MM = 2.83  # 8 pt: no text on paper is smaller
BARS = {"metric": (100.0, 10.0, "100 mm"), "us": (101.6, 12.7, "4 in")}  # length and block [mm], and its words
LONGEST_ALT = 1000  # characters that tell what a drawing shows
SOFT = "#54364f"
BLACK = Style(fill="#000000")
_INK = Style(fill=INK)
QUIET = Style(fill=SOFT)


@dataclass(frozen=True)
class Heading:
    """What every sheet of an order bears: the order's name, and the day in words."""

    order_name: str = ""
    day: str = ""


NO_HEADING = Heading()


@dataclass(frozen=True)
class Sheet:
    """A sheet: the name of its file, its title and its pages."""

    name: str
    title: str
    pages: tuple[Scene, ...]

    def pdf(self, about: About | None = None, units: str = "metric") -> bytes:
        """The sheet as a PDF: what it says of itself is `about`, or its title and the language that goes with the units."""
        return pdf(self.pages, about or About(self.title, language=Formatter(units).language))


def paper_mm(paper: str, landscape: bool = False) -> tuple[float, float]:
    """Give the width and height of a sheet of paper: A4 (iso-216, table 1) or Letter, 8.5 by 11 inches.

    >>> paper_mm("A4"), paper_mm("Letter", landscape=True)
    ((210.0, 297.0), (279.4, 215.9))
    """
    width, height = PAPERS[paper]
    return (height, width) if landscape else (width, height)


def text_at(
    x: float, y: float, words: str, size: float = 3.6, anchor: str = "start", face: str = "text", style: Style = _INK, turn: float = 0.0
) -> Text:
    """Set words at a place, in the text face and ink unless told otherwise."""
    return Text(x, y, words, size, anchor, face, style, turn)


def fit_text(words: str, size: float, width: float, face: str) -> tuple[str, float]:
    """Shrink words to fit a width, to no less than 8 pt; what is still too long is cut off with an ellipsis.

    >>> fit_text("Swag", 5.0, 40.0, "text"), fit_text("A name that goes on and on", 4.0, 20.0, "text")
    (('Swag', 5.0), ('A name that g…', 2.83))
    """
    wide = text_width_mm(words, size, face)
    if wide <= width:
        return words, size
    least = min(size, SMALLEST_MM)
    if wide * least / size <= width:
        return words, size * width / wide
    while words and text_width_mm(words.rstrip() + "…", least, face) > width:
        words = words[:-1]
    return words.rstrip() + "…", least


def fit_lines(words: str, size: float, width: float, face: str, most: int) -> list[str]:
    """Break words into lines of a width; what is left of them after the last line is cut off with an ellipsis."""
    lines = broken(words, width, size, face)
    if len(lines) <= most:
        return list(lines)
    last = " ".join(lines[most - 1 :])
    while last and text_width_mm(last.rstrip() + "…", size, face) > width:
        last = last[:-1]
    return [*lines[: most - 1], last.rstrip() + "…"]


def framed(
    size: tuple[float, float], title: str, under: str, heading: Heading, number: int, count: int, items: Sequence[Item], scale: str = ""
) -> Scene:
    """Make one page: the frame, and the items on it; `scale` names the units of the bars of a page to scale, "metric" or "us"."""
    width, height = size
    right = width - _LEFT
    named, big = fit_text(title, 7.0, width * 0.60, "display")
    titled = Group((text_at(_LEFT, 13.2, named, big, face="display"),), tag="H1" if number == 1 else "Artifact")
    frame: list[Item] = []
    order, small = fit_text(heading.order_name, 4.0, width * 0.33, "bold")
    frame.append(text_at(right, 9.8, order, small, "end", "bold"))
    day, small = fit_text(heading.day, 3.4, width * 0.33, "text")
    frame.append(text_at(right, 14.4, day, small, "end", style=QUIET))
    frame.append(Path((("M", _LEFT, 16.4), ("L", right, 16.4)), Style(stroke=INK, width_mm=0.6)))
    lines = fit_lines(under, 3.2, right - _LEFT, "text", 2) if under else ()
    set_lines = tuple(text_at(_LEFT, 20.3 + 4.0 * line, words, 3.2, style=QUIET) for line, words in enumerate(lines))
    titled_under = (Group(set_lines, tag="P" if number == 1 else "Artifact"),) if set_lines else ()
    if scale:
        length, block, bar_words = BARS[scale]
        frame.append(bar(_LEFT, height - 14.0, length, False, block, bar_words))
        frame.append(bar(5.6, height - _BOTTOM - length, length, True, block, bar_words))
        frame.append(text_at(_LEFT + 106.0, height - 13.4, "Print at 100 %, not “fit to page”.", 3.0, face="bold"))
        frame.append(text_at(_LEFT + 106.0, height - 9.6, f"Both bars measure {bar_words} when it is right.", 3.0))
    frame.append(text_at(right, height - 9.6, f"{number} of {count}", 3.4, "end", "bold"))
    told = f"{title}, page {number} of {count}"
    read = (titled, *titled_under, *_drawn(items, told), Group(tuple(frame), tag="Artifact"))  # in the order in which it is read
    return Scene(title, told, 0.0, 0.0, width, height, read)


def _drawn(items: Sequence[Item], told: str) -> list[Item]:
    """Items with those that stand without a tag put together as figures; the words in a figure say what it shows."""
    found: list[Item] = []
    for is_tagged, some in groupby(items, lambda item: isinstance(item, Group) and bool(item.tag)):
        if is_tagged:
            found += some
        else:
            drawing = tuple(some)
            words = dict.fromkeys(word.strip() for word in _words_in(drawing) if word.strip())
            found.append(Group(drawing, tag="Figure", alt=". ".join((told, ", ".join(words)))[:LONGEST_ALT]))
    return found


def _words_in(items: Sequence[Item]) -> list[str]:
    """The words of a drawing, from its first item to its last."""
    found: list[str] = []
    for item in items:
        if isinstance(item, Text):
            found.append(item.words)
        elif isinstance(item, Group):
            found += _words_in(item.items)
    return found


def printable_mm(size: tuple[float, float]) -> tuple[float, float, float, float]:
    """Give the area that the frame leaves free: x, y, width, height [mm]."""
    return _LEFT, _TOP, size[0] - _LEFT - _RIGHT, size[1] - _TOP - _BOTTOM
