"""The lists of pages as pictures to choose from: each page by the first drawing on it, made small and without its words, or by one drawn for it."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import replace

from calc.colours import PALETTE
from calc.curves import arc_points
from calc.drawing.scene import CAKE, GUIDE_LINE, LINE, Group, Item, Path, Point, Scene, Style, Use, circle, polygon, polyline, rectangle
from calc.drawing.shading import strand_paths
from calc.drawing.svg import svg
from calc.page.html import Markup, element
from tools.build.fences import Fence
from tools.build.paths import DOCS
from tools.films.compact_svg import compact

DRAWING = re.compile(r"^```drawing\n(.*?)^```", re.MULTILINE | re.DOTALL)
TITLE = re.compile(r"^# (.*)$", re.MULTILINE)
WORDS = re.compile(r"<(text|title|desc)\b.*?</\1>", re.DOTALL)
# Where the page's own drawing is too fine for a small one.
INSTEAD = {
    "chilling": "fridge\nempty = yes",
}

WIDTH, HEIGHT = 93.0, 58.0  # mm; of what is drawn for the list alone
NUMBERED = re.compile(r'<path fill="#fffaf0" stroke="#0a6a62" stroke-width="0.55"[^>]*/>')  # the ring round a number that is not there
LEADER = re.compile(r'<path [^>]*stroke="#8a7280"[^>]*/>')  # leads to a word that is not there


def _reach(path: Path) -> tuple[float, float, float, float] | None:
    """A box round a path, which its curves may leave a little; none for what is empty."""
    xs = [float(one) for part in path.parts for one in part[1::2]]
    ys = [float(one) for part in path.parts for one in part[2::2]]
    if not xs:
        return None
    spare = path.style.width_mm / 2 + (max(xs) - min(xs) + max(ys) - min(ys)) / 10
    return min(xs) - spare, min(ys) - spare, max(xs) + spare, max(ys) + spare


def within(scene: Scene) -> Scene:
    """A drawing without what lies wholly outside its frame."""
    left, top, right, bottom = scene.x_mm, scene.y_mm, scene.x_mm + scene.width_mm, scene.y_mm + scene.height_mm

    def seen(item: Item) -> bool:
        if isinstance(item, Path):
            box = _reach(item)
        elif isinstance(item, Use):
            a, b, c, d, x, y = item.matrix
            wide, high = 150 * (abs(a) + abs(c)), 150 * (abs(b) + abs(d))
            box = x - wide, y - high, x + wide, y + high
        else:
            return True
        return box is not None and box[2] > left and box[0] < right and box[3] > top and box[1] < bottom

    def kept(items: tuple[Item, ...]) -> tuple[Item, ...]:
        return tuple(
            one._replace(items=kept(one.items), title="") if isinstance(one, Group) and one.matrix is None else one for one in items if seen(one)
        )

    return replace(scene, items=kept(scene.items))


def small(drawing: str) -> Markup:
    """A drawing as a small picture beside its name: without words, hidden from those who have it read aloud, its paths written shortly."""
    bare = re.sub(r'role="img" aria-labelledby="[^"]*"', 'aria-hidden="true"', NUMBERED.sub("", LEADER.sub("", WORDS.sub("", drawing))), count=1)
    return Markup(compact(bare, WIDTH))


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


def inside_the_edge() -> list[Item]:
    """A corner of the top from above: the border along the edge, and a row of beads that hides where it ends."""
    x, y, r = WIDTH / 2, 92.0, 84.0
    rim, row = Style(fill="#e9d6ae", stroke="#8a6f5c", width_mm=0.5), Style(fill=PALETTE["russet"], stroke="#6d2a14", width_mm=0.5)

    def at(radius: float, degrees: float) -> Point:
        return x + radius * math.cos(math.radians(degrees)), y + radius * math.sin(math.radians(degrees))

    folds = [part for k in range(37) for part in polyline([at(r - 15, -148 + 3.2 * k), at(r - 1, -148 + 3.2 * k)])]
    beads = [part for k in range(27) for part in circle(*at(r - 17, -150 + 4.6 * k), 2.7)]
    return [
        Path(circle(x, y, r), rim),
        Path(tuple(folds), Style(stroke="#a88a55", width_mm=0.8)),
        Path(circle(x, y, r - 17), CAKE),
        Path(tuple(beads), row),
    ]


def line_on_line() -> list[Item]:
    """A broad line along a curve, a finer one on it, and the finest on that, each begun a little further along."""
    curve = [(8.0 + x, 12.0 + y) for x, y in arc_points(77.0, 26.0, 16)]
    items: list[Item] = [Path(rectangle(0, 0, WIDTH, HEIGHT), CAKE)]
    for share, wide, role, colour in ((1.0, 12.0, "ridged", "russet"), (0.75, 6.0, "smooth", "cream"), (0.45, 2.8, "smooth", "russet")):
        items += strand_paths(curve[: round(len(curve) * share)], wide, role, PALETTE[colour])
    return items


def divided_round() -> list[Item]:
    """A round cake from above with a tape round it and a joint at each eighth of its side."""
    x, y, r = WIDTH / 2, HEIGHT / 2, 22.0
    joints = [(math.cos(a), math.sin(a)) for a in (math.tau * k / 8 for k in range(8))]
    spokes = [part for dx, dy in joints for part in polyline([(x + 3 * dx, y + 3 * dy), (x + r * dx, y + r * dy)])]
    marks = [part for dx, dy in joints for part in circle(x + r * dx, y + r * dy, 1.7)]
    return [
        Path(circle(x, y, r + 4.5), Style(fill="#ecbf55", stroke="#8a6f5c", width_mm=0.4)),
        Path(circle(x, y, r), CAKE),
        Path(tuple(spokes), GUIDE_LINE),
        Path(tuple(marks), Style(fill="#0a6a62")),
    ]


def walked_dividers() -> list[Item]:
    """Part of a round cake from above: a pair of dividers stands on two joints of its edge and steps on to the next."""
    x, y, r = WIDTH / 2, 100.0, 66.0
    joints = [(x + r * math.sin(a), y - r * math.cos(a)) for a in (math.radians(24 * k) for k in (-1.5, -0.5, 0.5, 1.5))]
    metal, hinge = Style(fill="#a9a4ae", stroke="#4c4453", width_mm=0.5), (x, 6.0)
    legs = []
    for side, (tip_x, tip_y) in ((-1, joints[1]), (1, joints[2])):
        top = [(hinge[0] - 2.6, hinge[1]), (hinge[0] + 2.6, hinge[1])]
        legs.append(Path(polygon([*top, (tip_x + side * 0.2, tip_y - 1), (tip_x - side * 0.9, tip_y - 3)]), metal))
    step = [(joints[2][0] + 3 + 21 * t, joints[2][1] - 4 - 34 * t * (1 - t) + 6 * t) for t in (k / 12 for k in range(13))]
    head = [(step[-1][0] - 4.2, step[-1][1] - 1.6), step[-1], (step[-1][0] + 0.6, step[-1][1] - 4.6)]
    return [
        Path(circle(x, y, r), CAKE),
        Path(tuple(part for joint in joints for part in circle(*joint, 1.9)), Style(fill="#0a6a62")),
        *legs,
        Path(circle(*hinge, 3.4), metal),
        Path(polyline(step), GUIDE_LINE),
        Path(polyline(head), GUIDE_LINE),
    ]


DRAWN: dict[str, Callable[[], list[Item]]] = {
    "cutting": cut_round,
    "closing-a-row": closing_beads,
    "inside-edge": inside_the_edge,
    "over-piping": line_on_line,
    "marking-with-a-cutter": rolled_cutter,
    "dividing-a-side": divided_round,
    "marking-with-dividers": walked_dividers,
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
        drawn = re.findall(r"<svg.*?</svg>", picture, re.DOTALL)
        made.append(element("li", {"class": "pb-drawing"}, element("a", {"href": f"{page}/"}, small(drawn[0]), element("span", {}, title[1]))))
    return element("ul", {"class": "pb-gallery"}, *made)
