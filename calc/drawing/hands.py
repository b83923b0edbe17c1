"""How a row is piped: the tip at work from in front, the angle and the end that faces the cake, the path of the hand, the finished row.

Map
---
`front_panel`       a bag, its tip and a hand at work, seen from in front of the cake
`angle_panel`       the tip against the cake: its angle, and which of its ends lies on it
`path_panel`        the path of the hand over the row, with the numbers of `STEPS`
`row_panel`         the row as it stands
`seen_from`         where the eye is in the panel of the angle, in words
`STEPS`             what the numbers on the path of the hand stand for
`bag_and_tip`       a bag with its tip, and the hand that holds it
`way`, `number_mark`   a path with arrow heads; a number in a ring

All panels are drawn for a right-handed reader, left to right; in a mirror they hold for the left hand.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from calc.curves import arc_points, catenary_points
from calc.drawing.figures import opening_parts
from calc.drawing.marks import label, rule
from calc.drawing.motifs import motif, tone
from calc.drawing.rows import TierDrawn, lay
from calc.drawing.scene import (
    CAKE,
    GUIDE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    Gradient,
    Group,
    Item,
    Part,
    Parts,
    Path,
    Point,
    Scene,
    Style,
    Text,
    Use,
    arc,
    circle,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.unroll import piped
from calc.drawing.views import strand_paths
from calc.rows import KINDS
from calc.rows.placement import PlacedRow
from calc.shapes import outline
from calc.tips import Tip

WIDE, HIGH = 100.0, 72.0  # a panel
BOARD = Style(fill="#dcc9a6", stroke="#8a6f5c", width_mm=0.5)
DARK = "#2f1730"

STEPS: dict[str, tuple[str, ...]] = {
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
    "star": ("squeeze close to the side", "stop squeezing", "pull straight away"),
    "leaf": ("squeeze a wide base", "ease off", "draw to a point"),
    "turned star": ("turn the wrist back", "squeeze and turn it forward", "stop, then pull straight away"),
    "C scroll": ("start in the curl", "swell round the back", "ease off into the curl"),
    "S scroll": ("start in the curl", "thin in the middle", "end in the curl"),
    "line": ("touch and squeeze", "lift and let it fall", "touch and stop"),
}

# where a kind is shown: on the side, on the top edge, at the base
_SURFACE = {"ruched border": "edge", "reverse shell": "edge", "rope": "edge", "shell": "base", "bead": "base"}
# how the bag lies in the front view: degrees clockwise from the right, and how much of its length is seen
_HELD: dict[str, tuple[float, float]] = {
    "swag": (38, 0.85),
    "ruched swag": (38, 0.85),
    "string": (22, 0.7),
    "rosette": (40, 0.6),
    "star": (40, 0.6),
    "leaf": (72, 0.9),
    "ruched border": (-26, 0.9),
    "shell": (-26, 0.9),
    "reverse shell": (-26, 0.9),
    "bead": (-26, 0.9),
    "rope": (-26, 0.9),
}
_REPEAT = {"swag": 74.0, "ruched swag": 74.0, "string": 62.0, "C scroll": 70.0, "S scroll": 74.0}
_DROP = {"swag": 24.0, "ruched swag": 24.0, "string": 24.0, "C scroll": 26.0, "S scroll": 30.0}
_LINE = {"swag": 18.0, "ruched swag": 18.0, "string": 16.0, "C scroll": 20.0, "S scroll": 36.0, "zigzag": 34.0, "line": 34.0}
# pieces one at a time: their size, how far apart they stand, how high the first is
_ONE: dict[str, tuple[float, float, float]] = {"rosette": (30.0, 31.0, 34.0), "star": (20.0, 23.0, 34.0), "leaf": (30.0, 25.0, 20.0)}


# --- the bag and the hand ------------------------------------------------------------------------------------------------

_SKIN, _SKIN_EDGE, _SLEEVE = "#d8a781", "#75482e", "#5b3a57"


def _pod(a: Point, b: Point, half: float, far: float | None = None) -> Parts:
    """A finger from a to b, `half` wide to either side at a and `far` at b."""
    end = half if far is None else far
    turn = math.atan2(b[1] - a[1], b[0] - a[0])
    c, n = math.cos(turn), math.sin(turn)

    def at(p: Point, u: float, v: float) -> Point:
        return p[0] + c * u - n * v, p[1] + n * u + c * v

    return smooth(
        [
            at(a, -half * 0.85, -half * 0.5),
            at(a, 0, -half),
            at(b, 0, -end),
            at(b, end * 0.8, -end * 0.55),
            at(b, end * 0.8, end * 0.55),
            at(b, 0, end),
            at(a, 0, half),
            at(a, -half * 0.85, half * 0.5),
        ],
        closed=True,
    )


def bag_and_tip(at: Point, toward_deg: float, tip: Tip, seen: float = 1.0, thick: int = 0, hand: bool = True, arm_deg: float = 34.0) -> list[Item]:
    """Draw a bag with its tip and the hand that holds it.

    Formula: none; the tip's opening is as wide as it is, between 3 and 13 mm.

    Parameters
    ----------
    at : (float, float)
        The middle of the tip's opening [mm]
    toward_deg : float
        Where the bag lies from there, clockwise from the right [deg]
    tip : Tip
        The tip [mm]
    seen : float
        How much of its length is seen where it points out of the picture, 0 to 1 [-]
    thick : int
        On which side of the opening a petal tip has its thick end: -1 to the left of the bag's direction, 1 to the right [-]
    hand : bool
        Whether the hand is drawn [-]
    arm_deg : float
        Where the arm comes from, clockwise from the right [deg]

    Returns
    -------
    list
        Items, the furthest first [mm]

    Raises
    ------
    ValueError
        Never.

    Range: any direction. Leaves out: the other hand.

    Example
    -------
    >>> len(bag_and_tip((0, 0), 45, Tip("round", 3.0), hand=False)) > 5
    True

    Source: common-practice
    """
    turn = math.radians(toward_deg)
    along, side = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    if side[1] < 0:  # the palm is below
        side = (-side[0], -side[1])
        thick = -thick

    def place(u: float, v: float) -> Point:
        return at[0] + along[0] * u * seen + side[0] * v, at[1] + along[1] * u * seen + side[1] * v

    half = min(13.0, max(3.0, tip.opening_mm)) / 2
    steel_end, base = 15.0, 6.0
    items: list[Item] = []
    palm = place(48.0, 2.0)
    if hand:
        arm = math.radians(arm_deg)
        c, n = math.cos(arm), math.sin(arm)

        def limb(u: float, v: float) -> Point:
            return palm[0] + c * u - n * v, palm[1] + n * u + c * v

        items.append(
            Path(
                smooth(
                    [limb(-2, -7.5), limb(14, -6.4), limb(30, -7.0), limb(70, -9.0), limb(70, 9.0), limb(30, 7.0), limb(14, 6.4), limb(-2, 7.5)],
                    closed=True,
                ),
                Style(fill=_SKIN, stroke=_SKIN_EDGE, width_mm=0.5),
            )
        )
        items.append(Path(polygon([limb(22, -8.6), limb(80, -11.5), limb(80, 11.5), limb(22, 8.6)]), Style(fill=_SLEEVE, stroke=DARK, width_mm=0.5)))
        items.append(Path(polyline([limb(25.4, -8.8), limb(25.4, 8.8)]), Style(stroke="#8a6a86", width_mm=0.6)))
    # the twisted end of the bag, above the hand
    low, high = place(0, -10), place(0, 10)
    cloth = Gradient(low[0], low[1], high[0], high[1], ((0, "#e6dac4"), (0.35, "#fffaf0"), (0.7, "#eadfcb"), (1, "#bca98d")))
    edge = Style(fill=cloth, stroke="#75624f", width_mm=0.45)
    items.append(
        Path(
            smooth([place(52, -2.4), place(62, -6.5), place(70, -7.5), place(68, -1.5), place(71, 3.5), place(62, 4.5), place(52, 2.4)], closed=True),
            edge,
        )
    )
    items.append(
        Path(
            smooth(
                [
                    place(13, -base - 0.3),
                    place(22, -8.6),
                    place(33, -9.6),
                    place(43, -7.4),
                    place(50, -2.6),
                    place(55, -2.0),
                    place(55, 2.0),
                    place(50, 2.6),
                    place(43, 7.4),
                    place(33, 9.6),
                    place(22, 8.6),
                    place(13, base + 0.3),
                ],
                closed=True,
            ),
            edge,
        )
    )
    for v in (-0.6, 0.05, 0.65):
        items.append(
            Path(
                smooth([place(18, v * 7), place(32, v * 9.4), place(42, v * 6.6), place(50, v * 2)]),
                Style(stroke="#a8977f", width_mm=0.35, opacity=0.7),
            )
        )
    # the coupler's ring
    low, high = place(0, -base), place(0, base)
    ring = Gradient(low[0], low[1], high[0], high[1], ((0, "#cfd8da"), (0.4, "#ffffff"), (1, "#9fb0b4")))
    items.append(
        Path(
            polygon([place(12.4, -base - 0.9), place(17.0, -base - 1.4), place(17.0, base + 1.4), place(12.4, base + 0.9)]),
            Style(fill=ring, stroke="#51777b", width_mm=0.4),
        )
    )
    ribs: list[Part] = []
    for v in (-0.72, -0.36, 0.0, 0.36, 0.72):
        ribs += [("M", *place(13.0, v * base)), ("L", *place(16.4, v * base))]
    items.append(Path(tuple(ribs), Style(stroke="#7f979b", width_mm=0.35)))
    items += _tip(place, tip, half, steel_end - 2.4, base, thick)
    if hand:
        (x1, y1), (x2, y2) = place(40, -8), place(48, 12)
        skin = Gradient(x1, y1, x2, y2, ((0, "#ecc7a6"), (0.5, _SKIN), (1, "#b07c55")))
        flesh = Style(fill=skin, stroke=_SKIN_EDGE, width_mm=0.5)
        items.append(
            Path(smooth([place(37, 9), place(44, 12.5), place(54, 12), place(60, 6), place(60, 0), place(54, 6), place(42, 7)], closed=True), flesh)
        )
        for u, reach in ((57.0, -2.0), (51.4, -4.4), (45.4, -5.4), (39.6, -4.6)):
            items.append(Path(_pod(place(u + 1.2, 9.4), place(u - 1.0, reach), 3.3, 2.7), flesh))
            items.append(
                Path(_pod(place(u - 0.9, reach + 0.4), place(u - 1.0, reach - 0.9), 1.3, 1.1), Style(fill="#f4dcc8", stroke="#b98a68", width_mm=0.25))
            )
        items.append(Path(_pod(place(59, 1.5), place(43, -9.4), 4.0, 3.0), flesh))
        items.append(Path(_pod(place(44.6, -8.6), place(42.4, -10.0), 1.5, 1.2), Style(fill="#f4dcc8", stroke="#b98a68", width_mm=0.25)))
    return items


def _tip(put: Callable[[float, float], Point], tip: Tip, half: float, end: float, base: float, thick: int) -> list[Item]:
    """The metal of a tip, its mouth at u = 0, as its family has it."""
    (x1, y1), (x2, y2) = put(0, -base), put(0, base)
    metal = Gradient(x1, y1, x2, y2, ((0, "#8d8795"), (0.3, "#f6f4f7"), (0.55, "#c4bfc9"), (1, "#716978")))
    steel = Style(fill=metal, stroke="#3f3846", width_mm=0.45)
    dark = Style(fill="#3a2a3d")
    mouth: list[Point] = [put(0, -half), put(0, half)]
    ridges: list[Part] = []
    if tip.family in ("open star", "closed star"):
        mouth = []
        inwards = 0.0 if tip.family == "open star" else 0.35
        for i in range(7):
            v = -half + 2 * half * i / 6
            mouth.append(put(-0.9 if i % 2 else 2.3, v * (1 - inwards if i in (0, 6) else 1)))
            if i % 2 == 0 and 0 < i < 6:
                ridges += [("M", *put(2.3, v)), ("L", *put(7.5, v * 1.12))]
    elif tip.family == "leaf":
        mouth = [put(-2.2, -half), put(4.2, 0.0), put(-2.2, half)]
    elif tip.family == "basket":
        mouth = [put(0 if i % 2 else 1.3, -half + 2 * half * i / 6) for i in range(7)]
    made: list[Item] = [Path(polygon([*mouth, put(end, base), put(end, -base)]), steel)]
    if ridges:
        made.append(Path(tuple(ridges), Style(stroke="#5d5565", width_mm=0.4)))
    if tip.family == "petal":  # the slot along its length, thick at one end
        way = thick or -1
        made.append(
            Path(
                smooth(
                    [
                        put(-0.5, way * half),
                        put(1.2, way * half * 1.0),
                        put(2.9, way * half * 0.78),
                        put(2.2, way * half * 0.3),
                        put(0.9, -way * half * 0.7),
                        put(0.4, -way * half),
                        put(-0.4, -way * half),
                        put(-0.4, 0.0),
                    ],
                    closed=True,
                ),
                dark,
            )
        )
    elif tip.family in ("ruffle", "basket"):
        made.append(Path(polyline([put(0.5, -half + 0.5), put(0.5, half - 0.5)]), Style(stroke="#3a2a3d", width_mm=1.0)))
    elif tip.family == "round":
        made.append(Path(_pod(put(0.3, -half * 0.72), put(0.3, half * 0.72), 0.7), dark))
    return made


def way(points: Sequence[Point], heads: Sequence[float] = (1.0,), width_mm: float = 0.95) -> list[Item]:
    """Draw a path of the hand with arrow heads at shares of its way, on a light rim so that it shows on any buttercream.

    Formula: none.

    Parameters
    ----------
    points : sequence of (float, float)
        The path [mm]
    heads : sequence of float
        Where the arrow heads point, as shares of its length [-]
    width_mm : float
        Width of the line [mm]

    Returns
    -------
    list
        Line and heads [mm]

    Raises
    ------
    ValueError
        Never.

    Range: two points or more. Leaves out: nothing.

    Example
    -------
    >>> len(way([(0, 0), (10, 0)]))
    3

    Source: common-practice
    """
    line = smooth(points) if len(points) > 2 else polyline(points)
    items: list[Item] = [
        Path(line, Style(stroke="#fffaf0", width_mm=width_mm + 1.0, opacity=0.9)),
        Path(line, Style(stroke=GUIDE, width_mm=width_mm)),
    ]
    far = [0.0]
    for p, q in zip(points, points[1:], strict=False):
        far.append(far[-1] + math.dist(p, q))
    for share in heads:
        want = far[-1] * share
        k = max(1, next((i for i, reached in enumerate(far) if reached >= want - 1e-9), len(far) - 1))
        p, q = points[k - 1], points[k]
        turn = math.atan2(q[1] - p[1], q[0] - p[0])
        part = (want - far[k - 1]) / ((far[k] - far[k - 1]) or 1.0)
        x, y = p[0] + (q[0] - p[0]) * part, p[1] + (q[1] - p[1]) * part
        ends = [(x - 4.4 * math.cos(turn + d), y - 4.4 * math.sin(turn + d)) for d in (0.42, -0.42)]
        items.append(Path(polygon([(x, y), *ends]), Style(fill=GUIDE, stroke="#fffaf0", width_mm=0.3)))
    return items


def number_mark(at: Point, number: int) -> list[Item]:
    """Draw a number in a ring.

    Formula: none.

    Parameters
    ----------
    at : (float, float)
        Its middle [mm]
    number : int
        The number [-]

    Returns
    -------
    list
        Ring and number [mm]

    Raises
    ------
    ValueError
        Never.

    Range: one figure. Leaves out: nothing.

    Example
    -------
    >>> len(number_mark((0, 0), 1))
    2

    Source: geometry
    """
    return [
        Path(circle(at[0], at[1], 3.5), Style(fill="#fffaf0", stroke=GUIDE, width_mm=0.55)),
        Text(at[0], at[1] + 1.75, str(number), 5.0, "middle", "bold", Style(fill=DARK)),
    ]


# --- the row -------------------------------------------------------------------------------------------------------------


def _surface(kind: str) -> str:
    return _SURFACE.get(kind, "side")


def _ground(kind: str) -> list[Item]:
    """The cake in a panel, seen from in front: its side, its top edge or its foot."""
    surface = _surface(kind)
    if surface == "side":
        return [Path(rectangle(-2, -2, WIDE + 4, HIGH + 4), CAKE)]
    if surface == "edge":
        return [Path(rectangle(-2, 36, WIDE + 4, HIGH), CAKE)]
    return [Path(rectangle(-2, -2, WIDE + 4, 54), CAKE), Path(rectangle(-2, 52, WIDE + 4, 6), BOARD)]


def _line(kind: str) -> float:
    """Height of the line a row follows."""
    surface = _surface(kind)
    return 36.0 if surface == "edge" else 52.0 if surface == "base" else _LINE.get(kind, 34.0)


def _long(kind: str, tip: Tip, colour: str) -> tuple[TierDrawn, PlacedRow, float, float]:
    """A row on a side so long that it looks flat; where the panel begins on it, and how far down its top edge lies in the panel."""
    surface, width = _surface(kind), _REPEAT.get(kind, 0.0)
    place = {"side": "side", "edge": "top edge", "base": "base"}[surface]
    line = 0.0 if surface == "edge" else _line(kind)
    row = PlacedRow(
        kind, tip, colour, place, line, repeats=8 if width else 0, drop_mm=_DROP.get(kind, 0.0), count=8 if kind.endswith("scroll") else None
    )
    tier = TierDrawn(outline("round", (8 * width if width else 400.0) / math.pi), 0.0, 52.0 if surface == "base" else 60.0)
    return tier, row, (width * 0.82 + 4.0 if width else 104.0), 36.0 if surface == "edge" else 0.0


def _singles(kind: str, colour: str, to_x: float) -> list[Item]:
    size, apart, line = _ONE[kind]
    items: list[Item] = []
    x = 50.0 - 2 * apart
    while x <= min(to_x, WIDE + size):
        matrix = (0.0, size / 100, -size * 1.05 / 100, 0.0, x, line) if kind == "leaf" else (size / 100, 0.0, 0.0, size / 100, x, line)
        items.append(Use(motif(kind, colour), matrix))
        x += apart
    return items


def _piped(kind: str, tip: Tip, colour: str, to_x: float = WIDE + 8) -> list[Item]:
    """The row from the left edge of the panel as far as `to_x`."""
    if kind in _ONE:
        return _singles(kind, colour, to_x)
    tier, row, begin, top = _long(kind, tip, colour)
    return [Group((piped(tier, row, begin - 12.0, begin + to_x, cut=True),), matrix=(1.0, 0.0, 0.0, 1.0, -begin, top))]


def _mark(kind: str) -> list[Point]:
    """The line a row follows in a panel, from left to right."""
    line, width = _line(kind), _REPEAT.get(kind)
    if not width:
        return [(-4.0, line), (WIDE + 4.0, line)]
    tier, row, begin, _ = _long(kind, Tip("open star", 5.0), "#000000")
    left = width - begin
    if kind == "string":
        return [(left + x, line + y) for x, y in catenary_points(width, _DROP[kind], 24)]
    if kind.endswith("scroll"):
        strands = lay(row, tier.outline.perimeter_mm, tier.height_mm).strands
        strand = min(strands, key=lambda one: abs(sum(s for s, _ in one.points) / len(one.points) - begin - WIDE / 2))
        return [(s - begin, down) for s, down in strand.points]
    return [(left + x, line + y) for x, y in arc_points(width, _DROP[kind], 24)]


def _panel(kind: str, title: str, words: str, items: Sequence[Item]) -> Scene:
    return Scene(f"{kind[0].upper()}{kind[1:]}: {title}", words, 0, 0, WIDE, HIGH, (Group(tuple(items), clip=(0, 0, WIDE, HIGH)),))


def front_panel(kind: str, tip: Tip, colour: str) -> Scene:
    """Draw a bag, its tip and a hand at work, seen from in front of the cake.

    Formula: none.

    Parameters
    ----------
    kind : str
        A kind of row [-]
    tip : Tip
        The tip [mm]
    colour : str
        Colour of the buttercream as #rrggbb [-]

    Returns
    -------
    Scene
        The panel [mm]

    Raises
    ------
    KeyError
        There is no such kind.

    Range: the kinds of `calc.rows.KINDS`. Leaves out: the other hand, which guides the tip or turns the cake.

    Example
    -------
    >>> front_panel("shell", Tip("open star", 9.0), "#b9592f").title
    'Shell: the tip from the front'

    Source: common-practice
    """
    words = KINDS[kind].hand
    toward, seen = _HELD.get(kind, (26.0, 0.85))
    items: list[Item] = [*_ground(kind)]
    mark, line = _mark(kind), _line(kind)
    if kind.endswith("scroll"):
        done = mark[: round(len(mark) * 0.62)]
        items += [Path(smooth(mark), GUIDE_DASH), *_piped(kind, tip, colour, mark[0][0] - 14.0)]
        items += strand_paths(done, tip.bead_width_mm * 1.25, "scroll", colour)
        at = done[-1]
    elif kind == "string":
        first, last = mark[0], mark[-1]
        at = (last[0] - 9.0, line + 1.0)
        hung = [(first[0] + (at[0] - first[0]) * t, first[1] + (at[1] - first[1]) * t + 4 * 17.0 * t * (1 - t)) for t in (i / 12 for i in range(13))]
        items += [Path(smooth(mark), GUIDE_DASH), *_piped(kind, tip, colour, first[0] + 1.0), *strand_paths(hung, 2.6, "string", colour)]
    elif kind in _REPEAT:
        at = mark[12]
        items += [Path(smooth(mark), GUIDE_DASH), *_piped(kind, tip, colour, at[0])]
        at = (at[0] + 0.5, at[1])
    elif kind in _ONE:
        size, _, base = _ONE[kind]
        at = (50.0, base + size * 0.62) if kind == "leaf" else (50.0, base)
        items += _piped(kind, tip, colour, 51.0)
    else:
        at = (46.0, line - (5.0 if _surface(kind) == "base" else 0.0))
        items += _piped(kind, tip, colour, 44.0)
    items += bag_and_tip(at, toward, tip, seen, -1)
    return _panel(kind, "the tip from the front", words, items)


def seen_from(kind: str) -> str:
    """Say where the eye is in the panel of the angle.

    Formula: none.

    Parameters
    ----------
    kind : str
        A kind of row [-]

    Returns
    -------
    str
        The words [-]

    Raises
    ------
    ValueError
        Never.

    Range: any kind. Leaves out: nothing.

    Example
    -------
    >>> seen_from("swag"), seen_from("leaf")
    ('From above', 'From the side')

    Source: common-practice
    """
    return "From above" if _surface(kind) == "side" and kind not in ("string", *_ONE) else "From the side"


def _angle(at: Point, radius: float, first: float, last: float, words: str, share: float = 0.24) -> list[Item]:
    """An arc between two directions, with its angle in words where the bag leaves room."""
    turn = math.radians(first + (last - first) * share)
    x, y = at[0] + (radius + 9.0) * math.cos(turn), at[1] + (radius + 9.0) * math.sin(turn)
    return [Path(arc(at[0], at[1], radius, first, last), GUIDE_LINE._replace(width_mm=0.8)), label(x, y + 2.2, words, 6.4, "middle", "bold", True)]


def _lens(tip: Tip, colour: str) -> list[Item]:
    """The opening of a petal tip as it comes to the side: its thick end on the cake, its thin end away from it."""
    x, y, radius = 17.0, 52.0, 14.0
    reach = 20.0 / tip.opening_mm
    grown = Tip(tip.family, tip.opening_mm * reach, slot_mm=tip.slot_mm * reach * 1.25)
    turn = math.radians(-32)
    c, n = math.cos(turn), math.sin(turn)
    # the thick end of `opening_parts` is below: turned over, so that it is above and to the left
    opening = Group(
        (Path(opening_parts(grown), Style(fill=tone(colour, -0.1), stroke="#3f3846", width_mm=1.1)),), matrix=(-c, -n, n, -c, x - 0.8, y + 1.0)
    )
    wall = x - 5.6
    half = math.degrees(math.acos((x - wall) / radius))
    return [
        Path(circle(x, y, radius), Style(fill="#fffaf0", stroke=GUIDE, width_mm=0.7)),
        Path((*arc(x, y, radius - 0.35, 180 + half, 180 - half), ("Z",)), Style(fill="#f3e2c0", stroke="#8a6f5c", width_mm=0.4)),
        opening,
        Path(polyline([(x - 3.4, y - 9.0), (x + 1.0, y - 17.0)]), LINE),
        label(3.0, y - 18.6, "thick end on the cake", 5.2),
        Path(polyline([(x + 6.2, y + 9.4), (x + 17.0, y + 12.6)]), LINE),
        label(x + 18.0, y + 15.0, "thin end away", 5.2),
    ]


def angle_panel(kind: str, tip: Tip, colour: str) -> Scene:
    """Draw the tip against the cake: its angle, and which of its ends lies on it.

    Formula: none.

    Parameters
    ----------
    kind : str
        A kind of row [-]
    tip : Tip
        The tip [mm]
    colour : str
        Colour of the buttercream as #rrggbb [-]

    Returns
    -------
    Scene
        The panel; `seen_from` says where the eye is [mm]

    Raises
    ------
    KeyError
        There is no such kind.

    Range: the kinds of `calc.rows.KINDS`. Leaves out: hands that hold it otherwise.

    Example
    -------
    >>> angle_panel("swag", Tip("petal", 11.0), "#b9592f").description
    '45° to the side, the thick end of a petal tip against the cake and its thin end away from it.'

    Source: common-practice
    """
    surface = _surface(kind)
    items: list[Item] = []
    if kind in ("string", "rosette", "star", "leaf"):
        items += _against_the_wall(kind, tip, colour)
    elif surface == "side":
        wall, petal = 13.0, tip.family == "petal"
        at = (54.0 if petal else 38.0, wall + 0.4 + min(13.0, max(3.0, tip.opening_mm)) / 2 * math.sin(math.pi / 4))
        items.append(Path(rectangle(-2, -2, WIDE + 4, wall + 2), CAKE))
        deep = 5.4 if kind != "line" else 3.6
        items += strand_paths(
            [(-6.0, wall + deep * 0.42), (12.0, wall + deep * 0.42), (26.0, wall + deep * 0.42), (at[0], wall + deep * 0.5)], deep, "line", colour
        )
        items += bag_and_tip(at, 45.0, tip, 0.95, -1)
        items.append(rule(-2, wall, WIDE + 2, wall, LINE._replace(width_mm=0.9)))
        items += _angle((at[0], wall), 25.0, 0.0, 45.0, "45°")
        if petal:
            items += _lens(tip, colour)
    elif kind == "ruched border":
        items.append(Path(rectangle(-2, 46, 50, HIGH), CAKE))
        at = (43.0, 45.0)
        items.append(
            Path(
                smooth([(35, 45.6), (36, 39), (42, 36.5), (49, 41), (55, 49), (53, 52), (48, 49), (46, 46)], closed=True),
                Style(fill=tone(colour, -0.1), stroke=tone(colour, -0.5), width_mm=0.5),
            )
        )
        items += bag_and_tip((46.0, 42.0), -45.0, tip, 0.95, -1, arm_deg=20.0)
        items.append(Path(polyline([(-2, 46), (48, 46), (48, HIGH + 2)]), LINE._replace(width_mm=0.9)))
        items += _angle((at[0] + 3, 46), 27.0, 0.0, -45.0, "45°")
        if tip.family == "petal":
            items += [
                Path(polyline([(41.2, 39.6), (31, 31)]), LINE),
                label(30, 26.5, "thick end", 5.2, "end"),
                label(30, 32.5, "on the cake", 5.2, "end"),
                Path(polyline([(51.6, 48.6), (57, 58)]), LINE),
                label(57.5, 63, "thin end", 5.2),
            ]
    else:
        floor = 52.0
        fill = BOARD if surface == "base" else CAKE
        items.append(Path(rectangle(-2, floor, WIDE + 4, HIGH), fill))
        at = (40.0, floor - 4.2)
        if kind == "reverse shell":
            floor_y = floor - 5.0
            for k, x in enumerate((-6.0, 15.0, 36.0)):
                items.append(Use(motif("curl", colour), (0.2, 0.0, 0.0, 0.16 * (-1) ** k * (0.8 if k == 2 else 1), x, floor_y)))
        elif kind in ("shell", "bead"):
            piece, size = kind, 0.165
            for x in (2.0, 21.0):
                items.append(Use(motif(piece, colour), (size, 0.0, 0.0, size * 0.95, x, floor + 0.4)))
            items.append(Use(motif(piece, colour), (size * 0.75, 0.0, 0.0, size * 0.75, 37.5, floor + 0.4)))
        else:
            for x in (0.0, 8.0, 16.0, 24.0, 32.0):
                items.append(Use(motif("twist", colour), (0.14, 0.0, 0.0, 0.105, x, floor - 4.6)))
        items += bag_and_tip(at, -45.0, tip, 0.95, arm_deg=12.0)
        items.append(rule(-2, floor, WIDE + 2, floor, LINE._replace(width_mm=0.9)))
        items += _angle((at[0], floor), 27.0, 0.0, -45.0, "45°")
    return _panel(kind, "the angle of the tip", KINDS[kind].angle + ".", items)


def _against_the_wall(kind: str, tip: Tip, colour: str) -> list[Item]:
    """The side of the cake cut upright at the left, the tip coming to it from the right."""
    wall = 24.0
    items: list[Item] = [Path(rectangle(-2, -2, wall + 2, HIGH + 4), CAKE)]
    face = rule(wall, -2, wall, HIGH + 2, LINE._replace(width_mm=0.9))
    if kind == "leaf":
        at = (wall + 12.0, 32.0)
        items += [
            Path(
                smooth([(wall, 10), (wall + 8, 12), (wall + 14, 20), (wall + 14.5, 30), (wall + 9.5, 33), (wall + 7, 27), (wall, 22)], closed=True),
                Style(fill=tone(colour, -0.15), stroke=tone(colour, -0.55), width_mm=0.5),
            ),
            Path(smooth([(wall + 2, 13), (wall + 8, 15.5), (wall + 12, 22)]), Style(stroke=tone(colour, 0.35), width_mm=1.0)),
            *bag_and_tip(at, 45.0, tip, 0.95),
            face,
            *_angle((wall, 20.0), 27.0, 90.0, 45.0, "45°", 0.3),
        ]
        return items
    if kind == "string":
        at = (wall + 26.0, 22.0)
        hung = [(wall, 21.0), (wall + 4, 31.0), (wall + 12, 35.0), (wall + 21, 30.0), at]
        items += [
            *strand_paths(hung, 2.6, "string", colour),
            Path(circle(wall + 0.8, 21.0, 1.9), Style(fill=tone(colour, -0.1))),
            *bag_and_tip(at, 4.0, tip, 0.95, arm_deg=40.0),
            face,
            rule(wall, 9.0, at[0], 9.0, GUIDE_LINE),
            *(rule(x, 7.0, x, 11.0, GUIDE_LINE) for x in (wall, at[0])),
            label((wall + at[0]) / 2, 5.6, "2 to 3 cm", 5.4, "middle", "text", True),
            *_angle((wall, 22.0), 26.0, 90.0, 0.0, "90°", 0.3),
        ]
        return items
    deep = 10.0 if kind == "rosette" else 8.0
    at = (wall + deep, 32.0)
    tall = 15.0 if kind == "rosette" else 10.0
    mound = smooth(
        [
            (wall, 32 - tall),
            (wall + deep * 0.5, 32 - tall),
            (wall + deep * 0.95, 32 - tall * 0.5),
            (wall + deep * 1.15, 32),
            (wall + deep * 0.95, 32 + tall * 0.5),
            (wall + deep * 0.5, 32 + tall),
            (wall, 32 + tall),
        ]
    )
    items.append(Path((*mound, ("Z",)), Style(fill=tone(colour, -0.05), stroke=tone(colour, -0.55), width_mm=0.5)))
    for v in (-0.62, -0.2, 0.24, 0.66):
        items.append(
            Path(
                smooth([(wall + 0.5, 32 + tall * v), (wall + deep * 0.6, 32 + tall * v * 0.92), (wall + deep * 1.0, 32 + tall * v * 0.4)]),
                Style(stroke=tone(colour, -0.4), width_mm=0.7),
            )
        )
    items += [*bag_and_tip(at, 0.0, tip, 0.95, arm_deg=40.0), face, *_angle((wall, 32.0), 27.0, 90.0, 0.0, "90°", 0.3)]
    return items


def path_panel(kind: str, tip: Tip, colour: str) -> Scene:
    """Draw the path of the hand over the row, with the numbers of `STEPS`; "turned star" is a star dropped with a turn of the wrist.

    Formula: none.

    Parameters
    ----------
    kind : str
        A kind of row [-]
    tip : Tip
        The tip [mm]
    colour : str
        Colour of the buttercream as #rrggbb [-]

    Returns
    -------
    Scene
        The panel [mm]

    Raises
    ------
    KeyError
        There is no such kind.

    Range: the kinds of `calc.rows.KINDS`. Leaves out: pressure, which the words of `STEPS` give.

    Example
    -------
    >>> path_panel("rosette", Tip("closed star", 8.0), "#b9592f").title
    'Rosette: the path of the hand'

    Source: common-practice
    """
    if kind == "turned star":
        return _turned(colour)
    line, mark = _line(kind), _mark(kind)
    items: list[Item] = [*_ground(kind)]
    if kind in ("shell", "bead", "reverse shell", "rope"):  # large, so that the path has room on each piece
        tip = Tip(tip.family, tip.opening_mm * (1.9 if kind == "rope" else 1.75))
    faint: list[Item] = [] if kind in ("star", "rosette", "leaf") else _piped(kind, tip, colour)
    path: list[Point] = list(mark)
    heads: tuple[float, ...] = (0.3, 0.72, 0.99)
    numbers: list[Point] = [mark[0], mark[len(mark) // 2], mark[-1]]
    match kind:
        case "swag":
            numbers = [(mark[0][0], mark[0][1]), mark[12], mark[-1]]
        case "ruched swag" | "ruched border" | "zigzag":
            if kind == "ruched swag":
                along = arc_points(_REPEAT[kind], _DROP[kind], 30)
                path = [(mark[0][0] + x, line + y + (-1) ** i * (0.4 + 0.6 * math.sin(math.pi * i / 30)) * 6.0) for i, (x, y) in enumerate(along)]
                numbers = [(mark[0][0] - 1, mark[0][1] - 6), (mark[12][0], mark[12][1] + 13), (mark[-1][0] + 1, mark[-1][1] - 6)]
            else:
                middle = line - (1.4 if kind == "ruched border" else 0.0)
                path = [(9 + 82 * i / 26, middle + (6.4 if i % 2 else -6.4)) for i in range(27)]
                numbers = [(7, line - 14), (50, line + 15), (92, line - 14)]
            heads = (0.995,)
        case "string":
            first, last = mark[0], mark[-1]
            path = [first, (first[0] + 5, first[1] - 6), (50, line - 9), (last[0] - 5, last[1] - 6), last]
            numbers, heads = [first, (50, line - 9), last], (0.3, 0.72, 0.97)
        case "shell" | "bead" | "reverse shell" | "rope":
            path, numbers, heads = _over_the_pieces(kind, tip, colour)
        case "rosette":
            faint = [Use(motif("rosette", colour), (0.5, 0.0, 0.0, 0.5, 50, 36))]
            path = [
                (50 + r * math.cos(t), 36 + r * math.sin(t))
                for t, r in ((math.tau * 1.55 * i / 44 - 0.7, 1.0 + 18.0 * min(1.0, i / 30)) for i in range(45))
            ]
            numbers, heads = [(50, 36), (50 + 24, 36 + 8), (path[-1][0] - 6, path[-1][1] + 7)], (0.45, 0.99)
        case "star":
            wall = 26.0
            items = [Path(rectangle(-2, -2, wall + 2, HIGH + 4), CAKE)]
            ridged = _against_the_wall("star", tip, colour)[1:6]
            items += [Group(tuple(ridged), matrix=(1.3, 0.0, 0.0, 1.3, 26.0 - 24.0 * 1.3, 36.0 - 32.0 * 1.3)), rule(wall, -2, wall, HIGH + 2, LINE)]
            path, heads, numbers = [(39.0, 36.0), (60.0, 36.0), (88.0, 36.0)], (0.4, 1.0), [(wall + 13, 20), (60.0, 29.0), (93.0, 36.0)]
            items += [Path(polyline([(wall + 12.4, 23.2), (wall + 11.0, 31.0)]), LINE)]
        case "leaf":
            faint = [Use(motif("leaf", colour), (0.0, 0.52, -0.5, 0.0, 50, 11))]
            path, heads = [(50, 13), (50, 36), (50, 62)], (0.4, 1.0)
            numbers = [(50, 8), (68, 30), (59, 63)]
        case "line":
            path = [(10.0, line), (17.0, line - 9), (50.0, line - 13), (83.0, line - 9), (90.0, line)]
            numbers = [(7, line), (50, line - 13), (93, line)]
        case _:
            pass
    items.append(Group(tuple(faint), opacity=0.42))
    if kind == "rope":  # each S for itself; the tip is lifted and tucked in between them
        for k in range(3):
            items += way(path[5 * k : 5 * k + 5], (1.0,))
            if k:
                items.append(Path(polyline([path[5 * k - 1], path[5 * k]]), GUIDE_DASH))
    else:
        items += way(path, heads)
    for number, place in enumerate(numbers, 1):
        items += number_mark(place, number)
    told = ", ".join(f"{number} {said}" for number, said in enumerate(STEPS[kind], 1))
    return _panel(kind, "the path of the hand", told[0].upper() + told[1:] + ".", items)


def _turned(colour: str) -> Scene:
    """A star that turns as it is squeezed, so that its points sweep round like petals."""
    round_it = [(50 + 25 * math.cos(t), 36 + 25 * math.sin(t)) for t in (math.radians(-150 + 9 * i) for i in range(12))]
    flower = Group((Use(motif("star", colour), (0.46, 0.0, 0.0, 0.46, 50, 36)),), opacity=0.55)
    items: list[Item] = [*_ground("star"), flower, *way(round_it, (0.99,))]
    for number, place in enumerate(((round_it[0][0] - 4, round_it[0][1] + 4), (round_it[6][0], round_it[6][1] - 5), (50, 36)), 1):
        items += number_mark(place, number)
    told = ", ".join(f"{number} {said}" for number, said in enumerate(STEPS["turned star"], 1))
    return _panel("star", "the turn of the wrist", told[0].upper() + told[1:] + ".", items)


def _over_the_pieces(kind: str, tip: Tip, colour: str) -> tuple[list[Point], list[Point], tuple[float, ...]]:
    """The path over three pieces of a row that runs on, where they lie in the panel; where its numbers stand; its arrow heads."""
    tier, row, begin, top = _long(kind, tip, colour)
    pieces = [one for one in lay(row, tier.outline.perimeter_mm, tier.height_mm).pieces if begin + 14 < one.s < begin + WIDE]
    if kind == "reverse shell" and pieces[0].across < 0:
        pieces = pieces[1:]
    path: list[Point] = []
    for one in pieces[:3]:
        x, y, a, b = one.s - begin, top + one.down, one.along / 100, one.across / 100
        if kind == "reverse shell":
            path += [(x + a * u, y + b * v) for u, v in ((12, -28), (-10, -22), (-20, -44), (0, -62), (40, -44), (80, -8))]
        elif kind == "rope":
            path += [(x + a * u, y + b * v) for u, v in ((-40, 36), (-32, 4), (0, 0), (30, 2), (40, -34))]
        else:
            high = 1.0 if kind == "shell" else 0.85
            path += [(x + a * u, y + b * v * high) for u, v in ((-40, -24), (-34, -70), (0, -92), (34, -62), (58, -12))]
    one, two = pieces[0], pieces[1]
    x0, x1, y = one.s - begin, two.s - begin, top + one.down
    tall = abs(one.across)
    if kind == "reverse shell":
        places = [(x0 - one.along * 0.3, y - tall * 0.5 - 9), (x1 - one.along * 0.12, y - tall * 0.35 - 6), (x1 + 2, y + tall * 0.5 + 9)]
        return path, places, (0.2, 0.54, 0.99)
    if kind == "rope":
        return path, [(x0 - 6, y + tall * 0.5 + 6), (x1 - one.along * 0.3, y - tall * 0.5 - 6), (x1 + one.along * 0.1, y + tall * 0.5 + 6)], ()
    places = [(x0 - one.along * 0.1, y - tall - 6), (x0 + one.along * 0.7, y - tall * 0.8 - 5), (x1 - one.along * 0.3, y + 8.5)]
    return path, places, (0.2, 0.53, 0.99)


def row_panel(kind: str, tip: Tip, colour: str) -> Scene:
    """Draw a row as it stands.

    Formula: none.

    Parameters
    ----------
    kind : str
        A kind of row [-]
    tip : Tip
        The tip [mm]
    colour : str
        Colour of the buttercream as #rrggbb [-]

    Returns
    -------
    Scene
        The panel [mm]

    Raises
    ------
    KeyError
        There is no such kind.

    Range: the kinds of `calc.rows.KINDS`. Leaves out: the curve of the side.

    Example
    -------
    >>> row_panel("bead", Tip("round", 7.0), "#b9592f").title
    'Bead: the finished row'

    Source: common-practice
    """
    return _panel(
        kind,
        "the finished row",
        f"{KINDS[kind].name.capitalize()}: a piece of the finished row, piped with a {tip.name} tip.",
        [*_ground(kind), *_piped(kind, tip, colour)],
    )
