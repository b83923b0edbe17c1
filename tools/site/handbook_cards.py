"""The lists of pages as pictures to choose from: each page by the first drawing on it, made small and without its words, or by one drawn for it."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping

from calc.colours import PALETTE
from calc.drawing.scene import CAKE, GUIDE_LINE, LINE, Item, Path, Scene, Style, circle, polyline, rectangle
from calc.drawing.svg import svg
from calc.page.html import Markup, element
from tools.build.fences import Fence
from tools.build.paths import DOCS

DRAWING = re.compile(r"^```drawing\n(.*?)^```", re.MULTILINE | re.DOTALL)
TITLE = re.compile(r"^# (.*)$", re.MULTILINE)
WORDS = re.compile(r"<(text|title|desc)\b.*?</\1>", re.DOTALL)
# Where the page's own drawing is too fine for a small one.
INSTEAD = {
    "chilling": "fridge\nempty = yes",
    "inside-edge": "edges",
}

WIDTH, HEIGHT = 93.0, 58.0  # mm; of what is drawn for the list alone
LEADER = re.compile(r'<path [^>]*stroke="#8a7280"[^>]*/>')  # leads to a word that is not there
PATH = re.compile(r' d="[^"]*"')


def coarse(drawing: str) -> str:
    """A drawing for a small picture, with its paths written to a tenth of a millimetre, which is less than a pixel there."""
    return PATH.sub(lambda path: re.sub(r"-?\d*\.\d\d+", lambda number: f"{float(number[0]):.1f}".removesuffix(".0"), path[0]), drawing)


Figures = Mapping[str, Callable[[Mapping[str, str], str], str]]


def cut_round() -> list[Item]:
    """A round top with its cuts: a circle in the middle, and slices round it."""
    x, y, r = WIDTH / 2, HEIGHT / 2, 26.0
    around = [math.tau * k / 12 for k in range(12)]
    spokes = [[(x + 13 * math.cos(a), y + 13 * math.sin(a)), (x + r * math.cos(a), y + r * math.sin(a))] for a in around]
    across = [[(x - 13, y), (x + 13, y)], [(x, y - 13), (x, y + 13)]]
    return [Path(circle(x, y, r), CAKE), Path(circle(x, y, 13), LINE), *(Path(polyline(cut), LINE) for cut in (*spokes, *across))]


def closing_beads() -> list[Item]:
    """A row of beads that comes round to where it began; the last one fills the gap."""
    side = Path(rectangle(0, 14, WIDTH, 34), CAKE)
    piped = Style(fill=PALETTE["blush"], stroke="#8a6f5c", width_mm=0.4)
    last = Style(fill=PALETTE["russet"], stroke="#8a6f5c", width_mm=0.4)
    beads = [Path(circle(10.5 + 12 * k, 38, 6), last if k == 3 else piped) for k in range(7)]
    arrow = [Path(polyline([(46.5, 8), (46.5, 27)]), GUIDE_LINE), Path(polyline([(43, 23), (46.5, 28), (50, 23)]), GUIDE_LINE)]
    return [side, *beads, *arrow]


def rolled_cutter() -> list[Item]:
    """A round cutter that stands on the guide tape and presses the same curve between joints."""
    side, tape = Path(rectangle(0, 10, WIDTH, 48), CAKE), Path(rectangle(0, 44, WIDTH, 8), Style(fill="#ecbf55"))
    curves = [Path((("M", x, 28.0), ("C", x + 4, 49, x + 27, 49, x + 31, 28)), LINE) for x in (0.0, 31.0, 62.0)]
    return [side, tape, *curves, Path(circle(46.5, 25, 19), GUIDE_LINE)]


DRAWN: dict[str, Callable[[], list[Item]]] = {
    "cutting": cut_round,
    "closing-a-row": closing_beads,
    "marking-with-a-cutter": rolled_cutter,
}


def cards(values: Mapping[str, str], figures: Figures) -> str:
    """Links to the techniques named in `pages`, each with its small drawing."""
    made = []
    for page in (part.strip() for part in values["pages"].split(",")):
        text = (DOCS / "techniques" / f"{page}.md").read_text(encoding="utf-8")
        drawing, title = DRAWING.search(text), TITLE.search(text)
        if drawing is None or title is None:
            raise ValueError(f"{page} has no drawing or no title to be shown by")
        if page in DRAWN:
            picture = svg(Scene(title[1], title[1], 0, 0, WIDTH, HEIGHT, tuple(DRAWN[page]())))
        else:
            fence = Fence(INSTEAD.get(page, drawing[1]), ("caption",))
            picture = figures[fence.name](fence.values, "")
        found = re.search(r"<svg.*?</svg>", picture, re.DOTALL)
        if found is None:
            raise ValueError(f"the drawing of {page} is not one picture")
        bare = re.sub(r'role="img" aria-labelledby="[^"]*"', 'aria-hidden="true"', LEADER.sub("", WORDS.sub("", found[0])), count=1)
        made.append(element("li", {"class": "pb-drawing"}, element("a", {"href": f"{page}/"}, Markup(coarse(bare)), element("span", {}, title[1]))))
    return element("ul", {"class": "pb-gallery"}, *made)
