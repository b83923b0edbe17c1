"""The way through Learn: its pages as pictures in the order to read them, with what a reader can do after each; and the rows from easy to hard."""

from __future__ import annotations

import posixpath
from collections.abc import Callable

from calc.curves import arc_points
from calc.drawing.bag import bag_and_tip
from calc.drawing.motifs import tone
from calc.drawing.motifs.look import BOARD
from calc.drawing.scene import CAKE, GUIDE, LINE, Group, Item, Path, Scene, Style, circle, ellipse, polygon, polyline, rectangle
from calc.drawing.shading import strand_paths
from calc.drawing.svg import svg
from calc.lesson import EXERCISES, page_of
from calc.page.html import element
from calc.tips import Tip
from tools.build.paths import DOCS
from tools.films.shared_parts import BAY, CREAM, PAPER, RUSSET, STEEL, WOOD
from tools.site.handbook_cards import HEIGHT, TITLE, WIDTH, small, within
from tools.site.handbook_panels import Values

STAR = Tip("open star", 8.0)
FAINT = Style(stroke="#b9a9b3", width_mm=0.8)


def _moved(items: list[Item], size: float, x: float, y: float) -> Group:
    return Group(tuple(items), matrix=(size, 0.0, 0.0, size, x, y))


def tools() -> list[Item]:
    """What lies ready for a first cake: a bag with its tip, a turntable, a scraper, a palette knife and a cutter."""
    return [
        _moved(bag_and_tip((0.0, 0.0), 0.0, STAR, hand=False), 0.62, 4.0, 13.0),
        Path(ellipse(66, 23, 22, 5.5), BOARD),
        Path(rectangle(62, 28, 8, 13), STEEL),
        Path(ellipse(66, 43, 13, 3.2), STEEL),
        Path(circle(13, 42, 9), Style(stroke="#4c4453", width_mm=2.2)),
        Path(circle(13, 42, 9), Style(stroke="#d8d2dc", width_mm=1.4)),
        Path(polygon([(29, 30), (39, 30), (39, 53), (29, 53)]), STEEL),
        Path(rectangle(44, 29, 3.4, 16), STEEL),
        Path(rectangle(44, 45, 3.4, 9), WOOD),
    ]


def held() -> list[Item]:
    """A bag in the right hand."""
    return [_moved(bag_and_tip((4.0, 62.0), -30.0, STAR, arm_deg=44.0), 0.86, 2.0, 0.0)]


def _swag(left: float, line: float, wide: float, drop: float, colour: str = RUSSET) -> list[Item]:
    return strand_paths([(left + x, line + y) for x, y in arc_points(wide, drop, 10)], 5.0, "smooth", colour)


def first_cake() -> list[Item]:
    """A small cake with swags, rosettes over their joints, a border and shells."""
    side = Style(fill="#f7ead2", stroke="#8a6f5c", width_mm=0.5)
    items: list[Item] = [Path(rectangle(14, 51, 65, 3.5), BOARD), Path(rectangle(20, 10, 53, 41), side)]
    for k in range(3):
        items += _swag(21.5 + 16.7 * k, 19, 16.7, 9)
    edge = [part for k in range(14) for part in ellipse(22 + 3.77 * k, 10, 2.3, 2.8)]
    shells = [part for k in range(12) for part in ellipse(22.5 + 4.36 * k, 49.4, 2.6, 2.3)]
    roses = [part for k in range(4) for part in circle(21.5 + 16.7 * k, 18.5, 2.7)]
    pair = [[(d * u, v) for u, v in ((1.0, 1.0), (5.4, 4.6), (2.0, 4.4))] for d in (-1, 1)]
    leaves = [part for k in range(4) for leaf in pair for part in polygon([(21.5 + 16.7 * k + u, 18.5 + v) for u, v in leaf])]
    return [
        *items,
        Path(tuple(edge), Style(fill=CREAM, stroke="#a88a55", width_mm=0.45)),
        Path(tuple(shells), Style(fill=RUSSET, stroke=tone(RUSSET, -0.6), width_mm=0.45)),
        Path(tuple(leaves), Style(fill=BAY, stroke=tone(BAY, -0.5), width_mm=0.3)),
        Path(tuple(roses), Style(fill=tone(RUSSET, 0.2), stroke=tone(RUSSET, -0.6), width_mm=0.45)),
    ]


def gone_wrong() -> list[Item]:
    """Three swags; the middle one has slid down, and is ringed."""
    return [
        Path(rectangle(-2, 8, WIDTH + 4, HEIGHT), CAKE),
        Path(polyline([(-2, 8), (WIDTH + 2, 8)]), LINE),
        *_swag(1, 19, 29, 12),
        *_swag(62.5, 19, 29, 12),
        *_swag(32, 28, 29, 13),
        Path(ellipse(46.5, 33, 20, 16), Style(stroke=GUIDE, width_mm=1.3, dash=(3.0, 2.2), role="guide")),
    ]


def _sheet(x: float, y: float, wide: float) -> list[Item]:
    """A practice sheet: arcs, loops and a zigzag to pipe over."""
    third = (wide - 8) / 3
    arcs = [part for k in range(3) for part in polyline([(x + 4 + third * k + u, y + 6 + v) for u, v in arc_points(third, 5.0, 8)])]
    zigzag = polyline([(x + 4 + (wide - 8) * k / 12, y + (20 if k % 2 else 26)) for k in range(13)])
    rings = [part for k in range(6) for part in circle(x + 6.5 + (wide - 13) * k / 5, y + 36, 2.4)]
    return [Path(rectangle(x, y, wide, 44), PAPER), Path(tuple(arcs), FAINT), Path(zigzag, FAINT), Path(tuple(rings), FAINT)]


def for_a_class() -> list[Item]:
    """A kit for each place at a table: a sheet and a bag in a glass, three times over."""
    items: list[Item] = [Path(rectangle(2, 50, 89, 4), WOOD)]
    for k in range(3):
        x = 5.0 + 29.0 * k
        items += [
            Path(polygon([(x + 4, 14), (x + 20, 14), (x + 13.5, 44), (x + 10.5, 44)]), Style(fill="#fbf6ea", stroke="#7b6a5c", width_mm=0.5)),
            Path(polygon([(x + 10.2, 42), (x + 13.8, 42), (x + 13, 48), (x + 11, 48)]), STEEL),
            Path(polygon([(x + 3, 22), (x + 21, 22), (x + 19, 50), (x + 5, 50)]), Style(fill="#cfe0e2", stroke="#51777b", width_mm=0.6, opacity=0.5)),
            Path(ellipse(x + 12, 14, 8, 2.4), Style(fill=(RUSSET, CREAM, BAY)[k], stroke="#75624f", width_mm=0.5)),
        ]
    return items


def piped_over() -> list[Item]:
    """A practice sheet whose first line is half piped, the bag at its end."""
    sheet = _sheet(8, 7, 54)
    piped = [(12 + 46 / 3 * k + u, 13 + v) for k in range(2) for u, v in arc_points(46 / 3, 5.0, 8)]
    return [
        *sheet,
        *strand_paths(piped[:9], 3.0, "smooth", RUSSET),
        *strand_paths(piped[9:15], 3.0, "smooth", RUSSET),
        _moved(bag_and_tip((0.0, 0.0), 26.0, Tip("round", 4.0), 0.8), 0.72, piped[14][0] + 1, piped[14][1]),
    ]


DRAWN: dict[str, Callable[[], list[Item]]] = {
    "what-to-buy": tools,
    "holding-a-bag": held,
    "first-piped-cake": first_cake,
    "ten-things": gone_wrong,
    "teaching-a-class": for_a_class,
    "practising": piped_over,
}


def lessons(values: Values, caption: str) -> str:
    """Pages of Learn, in the order of the fence, each with its picture, its name and what a reader can do after it; `numbered` counts them."""
    made = []
    for name, can in values.items():
        if name == "numbered":
            continue
        page = name.replace("_", "-")
        title = TITLE.search((DOCS / "learn" / f"{page}.md").read_text(encoding="utf-8"))
        if title is None:
            raise ValueError(f"{page} has no title to be shown by")
        picture = small(svg(within(Scene(title[1], title[1], 0, 0, WIDTH, HEIGHT, tuple(DRAWN[page]())))))
        link = element("a", {"href": f"{page}/"}, picture, element("span", {}, title[1]))
        made.append(element("li", {"class": "pb-drawing"}, link, element("p", {}, can)))
    numbered = values.get("numbered") == "yes"
    return element("ol" if numbered else "ul", {"class": "pb-gallery pb-lessons" + (" pb-numbered" if numbered else "")}, *made)


def ladder(values: Values, caption: str) -> str:
    """The rows from easy to hard, each page once, with what it teaches; for a page one folder down."""
    made: dict[str, str] = {}
    for exercise in sorted(EXERCISES.values(), key=lambda one: one.rank):
        page = posixpath.normpath(f"../techniques/{page_of(exercise)}")
        made.setdefault(page, element("li", {}, element("a", {"href": f"{page}/"}, exercise.name), f": {exercise.aim}"))
    return element("ol", {"class": "pb-ladder"}, *made.values())
