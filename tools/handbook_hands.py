"""How a tip is held and how the hand moves: the panels of the technique pages, from the same parts as the calculators' drawings.

Map
---
`mm`, `figure`, `turning`   a length of a fence; one drawing with its caption; panels that a left-handed reader can turn round
`flat`                      a row on an unrolled side, whole or piped only so far
`bag`, `arrow`, `number_mark`   a bag with its tip; a path of the hand; a number on it
`technique`                 how a tip is held, from the front and from the side; the path of the hand; the finished row

Panels that depend on the hand carry no words but numbers, so that one switch can turn them round.
"""

from __future__ import annotations

import html
import math
from collections.abc import Mapping, Sequence

from calc import units
from calc.colours import PALETTE
from calc.curves import arc_points, catenary_points
from calc.drawing.motifs import SHADOW_COLOUR, motif, tone
from calc.drawing.rows import RowDrawn, lay
from calc.drawing.scene import (
    CAKE,
    GUIDE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    WORDS_GUIDE,
    Gradient,
    Group,
    Item,
    Path,
    Point,
    Scene,
    Style,
    Text,
    Use,
    circle,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.svg import svg
from calc.rows import KINDS
from calc.tips import Tip, read_tip

RUSSET, CREAM, BLUSH, BAY = (PALETTE[name] for name in ("russet", "cream", "blush", "bay"))
SAY = units.Say()
Values = Mapping[str, str]


def mm(values: Values, name: str, default: str = "") -> float:
    """A length of a fence [mm]."""
    return units.read_quantity(values.get(name, default), "length", name, name, "millimeter")


def figure(scene: Scene, caption: str = "", kind: str = "") -> str:
    """One drawing with its caption."""
    said = f"<figcaption>{html.escape(caption)}</figcaption>" if caption else ""
    return f'<figure class="pb-drawing{" " + kind if kind else ""}">{svg(scene)}{said}</figure>'


def turning(panels: Sequence[tuple[Scene, str]]) -> str:
    """Panels side by side that a left-handed reader can turn round."""
    inside = "".join(figure(scene, caption, "pb-panel") for scene, caption in panels)
    return f'<div class="pb-panels" data-turns>{inside}</div>'


# --- a row on a flat face ------------------------------------------------------------------------------------------------

_STRAND = ((0.0, 0.0, 1.0, -0.58), (-0.05, -0.07, 0.82, -0.20), (-0.10, -0.13, 0.56, 0.08), (-0.14, -0.2, 0.22, 0.6))


def flat(row: RowDrawn, perimeter_mm: float, height_mm: float, x: float, y: float, from_mm: float, to_mm: float) -> list[Item]:
    """A row on the unrolled side between two distances, with (from_mm, top edge) standing at (x, y)."""
    laid = lay(row, perimeter_mm, height_mm)
    items: list[Item] = []
    for strand in laid.shadows:
        run = _cut(strand.points, from_mm, to_mm, x, y)
        if len(run) > 1:
            for wide, faint in ((1.3, 0.07), (1.0, 0.10)):
                items.append(Path(smooth(run), Style(stroke=SHADOW_COLOUR, width_mm=strand.width_mm * wide, opacity=faint)))
    for strand in laid.strands:
        run = _cut(strand.points, from_mm, to_mm, x, y)
        if len(run) < 2:
            continue
        for dx, dy, share, level in _STRAND:
            wide = strand.width_mm
            items.append(
                Path(
                    smooth([(px + dx * wide, py + dy * wide) for px, py in run]),
                    Style(stroke=tone(row.colour, level), width_mm=wide * share),
                )
            )
    for piece, s, down, turn, along, across, *_ in laid.pieces:
        if not from_mm - 1e-6 <= s <= to_mm + 1e-6:
            continue
        ct, st = math.cos(turn) / 100, math.sin(turn) / 100
        items.append(Use(motif(piece, row.colour), (ct * along, st * along, -st * across, ct * across, x + s - from_mm, y + down)))
    return items


def _cut(points: Sequence[Point], low: float, high: float, x: float, y: float) -> list[Point]:
    return [(x + s - low, y + down) for s, down in points if low - 1e-6 <= s <= high + 1e-6]


# --- the bag and its tip ------------------------------------------------------------------------------------------------

METAL, CLOTH = "#b9b4bf", "#f3ecdf"


def bag(at: Point, toward_deg: float, family: str, mouth_mm: float, long_mm: float = 62.0, narrow: float = 1.0) -> list[Item]:
    """A bag with its tip, the mouth at `at`, lying away from it in the direction `toward_deg` (clockwise from the right, y downwards).

    `narrow` shortens it where it points out of the picture.
    """
    turn = math.radians(toward_deg)
    along, side = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))

    def place(u: float, v: float) -> Point:
        return at[0] + along[0] * u * narrow + side[0] * v, at[1] + along[1] * u * narrow + side[1] * v

    half = mouth_mm / 2
    tip_long, base = 20.0, 6.5
    bag_end = tip_long + long_mm
    cloth = [
        place(tip_long - 3, -base - 0.6),
        place(tip_long + 16, -base - 4.5),
        place(bag_end - 12, -base - 8),
        place(bag_end, -base - 5),
        place(bag_end, base + 5),
        place(bag_end - 12, base + 8),
        place(tip_long + 16, base + 4.5),
        place(tip_long - 3, base + 0.6),
    ]
    left, right = place(0, -base - 8), place(0, base + 8)
    cloth_fill = Gradient(left[0], left[1], right[0], right[1], ((0, "#d9cdb9"), (0.35, "#fbf6ea"), (0.7, "#eadfcb"), (1, "#bfae96")))
    left, right = place(0, -base), place(0, base)
    metal = Gradient(left[0], left[1], right[0], right[1], ((0, "#8d8795"), (0.3, "#f2f0f3"), (0.55, "#c4bfc9"), (1, "#77707f")))
    edge = Style(fill=cloth_fill, stroke="#7b6a5c", width_mm=0.4)
    items: list[Item] = [Path(smooth(cloth, closed=True), edge)]
    for v in (-0.45, 0.1, 0.55):
        items.append(
            Path(
                smooth([place(tip_long + 2, v * base), place(tip_long + 20, v * (base + 5)), place(bag_end - 3, v * (base + 6))]),
                Style(stroke="#a8977f", width_mm=0.3, opacity=0.6),
            )
        )
    steel = Style(fill=metal, stroke="#4c4453", width_mm=0.4)
    mouth: list[Point]
    if family in ("open star", "closed star"):
        mouth = []
        for i in range(5):
            v = -half + mouth_mm * i / 4
            mouth.append(place(0.0 if i % 2 == 0 else 2.6, v))
    elif family == "leaf":
        mouth = [place(0, -half), place(3.4, 0), place(0, half)]
    else:
        mouth = [place(0, -half), place(0, half)]
    items.append(Path(polygon([*mouth, place(tip_long, base), place(tip_long, -base)]), steel))
    if family == "petal":  # the slot seen along its length: the thick end is the mark at v below nothing
        items.append(
            Path(polygon([place(-0.1, -half), place(-0.1, half), place(1.0, half - 0.4), place(2.4, -half + 0.6)]), Style(fill="#3b3340"))
        )
    elif family in ("ruffle", "basket"):
        items.append(Path(polyline([place(0.5, -half + 0.5), place(0.5, half - 0.5)]), Style(stroke="#3b3340", width_mm=0.9)))
    return items


def _angle(at: Point, radius: float, from_deg: float, to_deg: float, words: str) -> list[Item]:
    """An arc between two directions with its angle written beside it."""
    middle = math.radians((from_deg + to_deg) / 2)
    steps = [math.radians(from_deg + (to_deg - from_deg) * i / 12) for i in range(13)]
    points = [(at[0] + radius * math.cos(t), at[1] + radius * math.sin(t)) for t in steps]
    spot = at[0] - 11, at[1] + (radius * 0.75 if middle > 0 else -radius * 0.6)
    return [Path(smooth(points), GUIDE_LINE), Text(spot[0], spot[1], words, 6.0, "middle", "bold", WORDS_GUIDE)]


def arrow(points: Sequence[Point], heads: Sequence[float] = (1.0,), width: float = 0.9) -> list[Item]:
    """A path of the hand with arrow heads at shares of its way."""
    items: list[Item] = [Path(smooth(points) if len(points) > 2 else polyline(points), Style(stroke=GUIDE, width_mm=width, role="guide"))]
    lengths = [0.0]
    for p, q in zip(points, points[1:], strict=False):
        lengths.append(lengths[-1] + math.dist(p, q))
    for share in heads:
        want = lengths[-1] * share
        at = max(1, next((i for i, far in enumerate(lengths) if far >= want - 1e-9), len(lengths) - 1))
        p, q = points[at - 1], points[at]
        slope = math.atan2(q[1] - p[1], q[0] - p[0])
        step = lengths[at] - lengths[at - 1] or 1.0
        part = (want - lengths[at - 1]) / step
        tip = (p[0] + (q[0] - p[0]) * part, p[1] + (q[1] - p[1]) * part)
        ends = [(tip[0] - 4.2 * math.cos(slope + d), tip[1] - 4.2 * math.sin(slope + d)) for d in (0.42, -0.42)]
        items.append(Path(polygon([tip, *ends]), Style(fill=GUIDE, stroke=GUIDE, width_mm=0.2, role="text-guide")))
    return items


def number_mark(at: Point, number: int) -> list[Item]:
    return [
        Path(circle(at[0], at[1], 3.4), Style(fill="#fffaf0", stroke=GUIDE, width_mm=0.5)),
        Text(at[0], at[1] + 1.75, str(number), 4.8, "middle", "bold", Style(fill="#2f1730")),
    ]


# --- how a kind of row is piped -------------------------------------------------------------------------------------------

W, H = 100.0, 72.0  # a panel
NAMES = {"front": "From the front", "side": "From the side", "hand": "The path of the hand", "row": "The finished row"}
SURFACE = {
    "swag": "side",
    "ruched swag": "side",
    "string": "side",
    "C scroll": "side",
    "S scroll": "side",
    "line": "side",
    "zigzag": "side",
    "rosette": "side",
    "star": "side",
    "leaf": "side",
    "ruched border": "edge",
    "shell": "base",
    "reverse shell": "edge",
    "bead": "base",
    "rope": "edge",
}
# the way the bag lies in the front view (degrees clockwise from the right), how much of its length is seen, the angle to the surface
HELD: dict[str, tuple[float, float, float]] = {
    "swag": (38, 0.75, 45),
    "ruched swag": (38, 0.75, 45),
    "ruched border": (-30, 0.8, 45),
    "string": (20, 0.55, 90),
    "shell": (-24, 0.8, 45),
    "reverse shell": (-28, 0.8, 45),
    "bead": (-24, 0.8, 45),
    "rope": (-28, 0.8, 45),
    "zigzag": (24, 0.75, 45),
    "rosette": (38, 0.28, 90),
    "star": (38, 0.28, 90),
    "leaf": (-90, 0.75, 45),
    "C scroll": (24, 0.75, 45),
    "S scroll": (24, 0.75, 45),
    "line": (24, 0.75, 45),
}
REPEAT = {"swag": 74.0, "ruched swag": 74.0, "string": 62.0, "C scroll": 70.0, "S scroll": 74.0}
DROP = {"swag": 25.0, "ruched swag": 25.0, "string": 22.0, "C scroll": 26.0, "S scroll": 30.0}
BIG = {"petal": 11.0, "round": 3.0, "open star": 9.0, "closed star": 8.0, "leaf": 9.0, "ruffle": 14.0, "basket": 14.0}


def _ground(surface: str) -> list[Item]:
    """The cake in a panel, seen from in front: its side, its top edge or its foot."""
    if surface == "side":
        return [Path(rectangle(-2, -2, W + 4, H + 4), CAKE)]
    if surface == "edge":
        return [Path(rectangle(-2, 34, W + 4, H), CAKE)]
    return [
        Path(rectangle(-2, -2, W + 4, 56), CAKE),
        Path(rectangle(-2, 54, W + 4, 6), Style(fill="#dcc9a6", stroke="#8a6f5c", width_mm=0.5)),
    ]


def _line_of(kind: str) -> tuple[float, float]:
    """Height of the reference line in a panel, and the height of the tier for `lay`."""
    surface = SURFACE[kind]
    if surface == "edge":
        return 34.0, 60.0
    if surface == "base":
        return 54.0, 54.0
    return (34.0 if kind == "S scroll" else 20.0, 60.0) if kind in DROP else (36.0, 60.0)


def _row(kind: str, tip: Tip, colour: str) -> tuple[RowDrawn, float]:
    """The row of the panels, on a side so long that it looks flat, and the width of its repeat."""
    line, _ = _line_of(kind)
    surface = SURFACE[kind]
    place = {"side": "side", "edge": "top edge", "base": "base"}[surface]
    width = REPEAT.get(kind, 0.0)
    if width:
        return RowDrawn(kind, tip, colour, place, line, repeats=8, drop_mm=DROP[kind], count=8 if kind.endswith("scroll") else None), width
    if kind in ("rosette", "star", "leaf"):
        return RowDrawn(kind, tip, colour, place, line, repeats=0, count=24 if kind == "star" else 16), 0.0
    return RowDrawn(kind, tip, colour, place, 0.0 if surface == "edge" else line, repeats=0), 0.0


def _laid(kind: str, tip: Tip, colour: str, from_share: float, to_share: float) -> list[Item]:
    row, width = _row(kind, tip, colour)
    _, height = _line_of(kind)
    perimeter = 8 * width if width else 400.0
    start = width * 0.82 if width else 100.0
    base = 34.0 if SURFACE[kind] == "edge" else 0.0
    return flat(row, perimeter, height, 0.0 - 4, base, start, start + (W + 8) * to_share)


def _mark(kind: str) -> list[Point]:
    """The line a row follows in a panel, from left to right."""
    line, _ = _line_of(kind)
    width = REPEAT.get(kind)
    if width:
        start = width * 0.18 - 4
        if kind == "string":
            return [(start + x, line + y) for x, y in catenary_points(width, DROP[kind], 24)]
        if kind.endswith("scroll"):  # the scroll of the finished row that stands in the middle of the panel
            row, _ = _row(kind, Tip("open star", 5.0), RUSSET)
            left = width * 0.82
            strands = lay(row, 8 * width, 60.0).strands
            strand = min(strands, key=lambda one: abs(sum(s for s, _ in one.points) / len(one.points) - left - W / 2))
            return [(s - left - 4, down) for s, down in strand.points]
        return [(start + x, line + y) for x, y in arc_points(width, DROP[kind], 24)]
    return [(-4.0, line), (W + 4.0, line)]


def front(kind: str, tip: Tip) -> Scene:
    """The tip at work, seen from in front of the cake."""
    toward, narrow, _ = HELD[kind]
    line, _ = _line_of(kind)
    items: list[Item] = [*_ground(SURFACE[kind])]
    colour = BAY if kind == "leaf" else RUSSET
    shown = None
    if kind.endswith("scroll"):
        points = _mark(kind)
        items.append(Path(smooth(points), GUIDE_DASH))
        piped = points[: round(len(points) * 0.62)]
        at = piped[-1]
        for dx, dy, share, level in _STRAND:
            wide = tip.bead_width_mm
            moved = [(x + dx * wide, y + dy * wide) for x, y in piped]
            items.append(Path(smooth(moved), Style(stroke=tone(colour, level), width_mm=wide * share)))
        shown = max(0.0, min(x for x, _ in points) - 6)
    elif kind in REPEAT:
        points = _mark(kind)
        items.append(Path(smooth(points), GUIDE_DASH))
        at = points[len(points) // 2 - 2]
        if kind == "string":
            at = (points[-1][0] - 8, line - 1)
            shown = points[0][0]
    else:
        at = (W * 0.46, line)
    items.extend(_laid(kind, tip, colour, 0.0, ((at[0] if shown is None else shown) + 4) / (W + 8)))
    if kind == "string":
        items.append(Path(smooth([(_mark(kind)[0]), (30, line + 17), (48, line + 17), at]), Style(stroke=tone(RUSSET, -0.2), width_mm=3.0)))
    items.extend(bag(at, toward, tip.family, min(12.0, max(3.0, tip.opening_mm)), narrow=narrow))
    clipped = Group(tuple(items), clip=(0, 0, W, H))
    return Scene(
        f"{kind.capitalize()}: the tip from the front",
        f"The bag lies to the right, its tip on the mark; the {kind} grows from left to right.",
        0,
        0,
        W,
        H,
        (clipped,),
    )


def side(kind: str, tip: Tip) -> Scene:
    """The tip at work, seen along the side: the angle, and which end faces the cake."""
    _, _, angle = HELD[kind]
    surface = SURFACE[kind]
    items: list[Item] = []
    opening = min(13.0, max(3.0, tip.opening_mm))
    if surface in ("side",):
        wall, at = 30.0, (31.5, 30.0)
        items.append(Path(rectangle(-2, -2, wall + 2, H + 4), CAKE))
        toward = {45: 45.0, 90: 4.0}[int(angle)]
        if kind == "leaf":
            toward = -45.0
        items.extend(bag(at, toward, tip.family, opening if tip.family in ("petal", "leaf", "ruffle", "basket") else opening, narrow=1.0))
        items.append(Path(polyline([(wall, -2), (wall, H + 2)]), LINE))
        if angle == 90:
            items.extend(_angle((wall, at[1]), 15, 90, 4, "90°"))
        elif kind == "leaf":
            items.extend(_angle((wall, at[1]), 15, -90, -45, "45°"))
        else:
            items.extend(_angle((wall, at[1]), 15, 90, 45, "45°"))
    elif surface == "edge":
        items.append(Path(rectangle(-2, 44, 52, H), CAKE))
        at = (46.0, 42.0)
        items.extend(bag(at, -45.0, tip.family, opening, narrow=1.0))
        items.append(Path(polyline([(-2, 44), (50, 44), (50, H + 2)]), LINE))
        items.extend(_angle((46, 44), 15, 0, -45, "45°"))
    else:
        items.append(Path(rectangle(-2, -2, 42, 58), CAKE))
        items.append(Path(rectangle(-2, 56, W + 4, 6), Style(fill="#dcc9a6", stroke="#8a6f5c", width_mm=0.5)))
        at = (44.0, 52.0)
        items.extend(bag(at, -45.0, tip.family, opening, narrow=1.0))
        items.append(Path(polyline([(40, -2), (40, 56), (W + 2, 56)]), LINE))
        items.extend(_angle((44, 56), 15, 0, -45, "45°"))
    clipped = Group(tuple(items), clip=(0, 0, W, H))
    return Scene(f"{kind.capitalize()}: the tip from the side", KINDS[kind].angle + ".", 0, 0, W, H, (clipped,))


def hand(kind: str, tip: Tip) -> Scene:
    """The path of the hand, with numbers for squeeze, move and stop."""
    line, _ = _line_of(kind)
    items: list[Item] = [*_ground(SURFACE[kind])]
    mark = _mark(kind)
    if kind == "swag":
        items += [*arrow(mark, (0.3, 0.75, 0.98)), *number_mark(mark[0], 1), *number_mark(mark[12], 2), *number_mark(mark[-1], 3)]
    elif kind == "ruched swag":
        points = arc_points(REPEAT[kind], DROP[kind], 26)
        start, path = mark[0][0], []
        for i, (x, y) in enumerate(points):
            share = i / 26
            swell = (0.45 + 0.55 * math.sin(math.pi * share)) * 5.5
            path.append((start + x, line + y + (swell if i % 2 else -swell)))
        items += [
            Path(smooth(mark), GUIDE_DASH),
            *arrow(path, (0.99,)),
            *number_mark((mark[0][0] - 1, mark[0][1] - 6), 1),
            *number_mark((mark[12][0], mark[12][1] + 12), 2),
            *number_mark((mark[-1][0], mark[-1][1] - 7), 3),
        ]
    elif kind in ("ruched border", "zigzag"):
        path = [(8 + 84 * i / 24, line + (6.5 if i % 2 else -6.5)) for i in range(25)]
        items += [
            *arrow(path, (0.995,)),
            *number_mark((6, line - 13), 1),
            *number_mark((50, line + 14), 2),
            *number_mark((92, line - 13), 3),
        ]
    elif kind == "string":
        a, b = mark[0], mark[-1]
        away = [a, (a[0] + 6, a[1] - 8), (50, line - 11), (b[0] - 6, b[1] - 8), b]
        items += [
            Path(smooth(mark), Style(stroke=tone(RUSSET, 0), width_mm=2.6)),
            *arrow(away, (0.5, 0.98)),
            *number_mark(a, 1),
            *number_mark((50, line - 11), 2),
            *number_mark((b[0] + 3, b[1]), 3),
        ]
    elif kind in ("shell", "bead"):
        path: list[Point] = []
        for k in range(3):
            x = 12 + 28 * k
            path += [(x, line - 4), (x + 2, line - 16), (x + 10, line - 19), (x + 18, line - 11), (x + 26, line - 3.4)]
        items += [
            *arrow(path, (0.16, 0.5, 0.99)),
            *number_mark((14, line - 24), 1),
            *number_mark((32, line - 20), 2),
            *number_mark((40, line + 8), 3),
        ]
    elif kind == "reverse shell":
        path = []
        for k in range(3):
            x, way = 12 + 27 * k, -1 if k % 2 == 0 else 1
            path += [(x, line + 0.5 * way), (x - 3, line + 11 * way), (x + 9, line + 15 * way), (x + 15, line + 5 * way), (x + 25, line)]
        items += [
            *arrow(path, (0.12, 0.5, 0.99)),
            *number_mark((10, line - 20), 1),
            *number_mark((29, line - 16), 2),
            *number_mark((40, line + 22), 3),
        ]
    elif kind == "rope":
        path = []
        for k in range(4):
            x = 10 + 20 * k
            path += [(x, line + 8), (x + 7, line + 5), (x + 9, line - 4), (x + 15, line - 8), (x + 20, line - 3)]
        items += [
            *arrow(path, (0.2, 0.99)),
            *number_mark((8, line + 16), 1),
            *number_mark((28, line - 15), 2),
            *number_mark((88, line + 9), 3),
        ]
    elif kind == "rosette":
        path = [
            (50 + r * math.cos(t), line + r * math.sin(t))
            for i in range(41)
            for t, r in [(i / 40 * 2 * math.pi * 1.6 - 0.6, 1.5 + 15 * i / 40)]
        ]
        items += [
            *arrow(path, (0.5, 0.99)),
            *number_mark((50, line), 1),
            *number_mark((50 + 19, line + 15), 2),
            *number_mark((path[-1][0] - 6, path[-1][1] - 8), 3),
        ]
    elif kind == "star":
        items += [
            *arrow([(58, line + 18), (50, line)], (1.0,)),
            *arrow([(46, line - 4), (34, line - 24)], (1.0,)),
            *number_mark((64, line + 20), 1),
            *number_mark((50, line), 2),
            *number_mark((28, line - 26), 3),
        ]
    elif kind == "line":
        lifted = [(10.0, line), (17.0, line - 9), (50.0, line - 13), (83.0, line - 9), (90.0, line)]
        items += [
            Path(polyline([(10, line), (90, line)]), Style(stroke=tone(RUSSET, 0), width_mm=2.6)),
            *arrow(lifted, (0.5, 0.99)),
            *number_mark((7, line), 1),
            *number_mark((50, line - 13), 2),
            *number_mark((94, line), 3),
        ]
    elif kind == "leaf":
        items += [
            Use(motif("leaf", BAY), (0.0, 0.4, -0.42, 0.0, 50, line - 16)),
            *arrow([(50, line - 16), (50, line + 27)], (0.4, 1.0)),
            *number_mark((50, line - 21), 1),
            *number_mark((62, line - 2), 2),
            *number_mark((58, line + 27), 3),
        ]
    else:
        items += [
            *arrow(mark, (0.3, 0.7, 0.99)),
            *number_mark(mark[0], 1),
            *number_mark(mark[len(mark) // 2], 2),
            *number_mark(mark[-1], 3),
        ]
    clipped = Group(tuple(items), clip=(0, 0, W, H))
    return Scene(f"{kind.capitalize()}: the path of the hand", KINDS[kind].hand, 0, 0, W, H, (clipped,))


def finished(kind: str, tip: Tip) -> Scene:
    """The row as it stands."""
    items = [*_ground(SURFACE[kind]), *_laid(kind, tip, RUSSET if kind != "leaf" else BAY, 0, 1)]
    return Scene(
        f"{kind.capitalize()}: the finished row",
        f"A row of {kind}s with a {tip.name} tip, seen from in front.",
        0,
        0,
        W,
        H,
        (Group(tuple(items), clip=(0, 0, W, H)),),
    )


STEPS = {
    "swag": ("squeeze at the joint", "sweep at one speed", "ease off and touch"),
    "ruched swag": ("small strokes", "fuller in the middle", "small again"),
    "ruched border": ("squeeze", "even strokes across the edge", "lean each fold on the last"),
    "zigzag": ("squeeze", "even strokes", "stop on a stroke"),
    "string": ("touch and squeeze", "draw away and across", "touch the next joint"),
    "shell": ("squeeze hard", "ease off", "stop, and start on the tail"),
    "bead": ("squeeze", "stop", "draw off along the row"),
    "reverse shell": ("squeeze and curl over", "down to a tail", "curl the other way"),
    "rope": ("pipe a short S", "tuck under its belly", "pipe the next"),
    "rosette": ("squeeze a middle", "once round it", "ease off along the circle"),
    "star": ("touch", "squeeze and stop", "pull straight away"),
    "leaf": ("squeeze a wide base", "ease off", "draw to a point"),
    "C scroll": ("start in the curl", "swell round the back", "ease off into the curl"),
    "S scroll": ("start in the curl", "thin in the middle", "end in the curl"),
    "line": ("touch and squeeze", "lift and let it fall", "touch and stop"),
}


def technique(values: Values, caption: str) -> str:
    """Four panels: the tip from the front and from the side, the path of the hand, the finished row."""
    kind = values["kind"]
    tip = read_tip(values["tip"], "tip", "Tip") if "tip" in values else Tip(KINDS[kind].families[0], BIG[KINDS[kind].families[0]])
    steps = ", ".join(f"{number} {said}" for number, said in enumerate(STEPS[kind], 1))
    return turning(
        (
            (front(kind, tip), NAMES["front"]),
            (side(kind, tip), f"{NAMES['side']}: {KINDS[kind].angle}"),
            (hand(kind, tip), f"{NAMES['hand']}: {steps}"),
            (finished(kind, tip), NAMES["row"]),
        )
    )
