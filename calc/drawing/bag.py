"""A bag with its tip and the hand that holds it, and the marks of a path: arrows and numbers.

Map
---
`bag_and_tip`            a bag with its tip, and the hand
`bag_on_end`             the same held straight at a surface, seen from its twisted end
`fingers`, `pod`, `nail`, `skin`   the hand round a bag, and what hands are made of
`hand_path`, `number_mark`   a path with arrow heads; a number in a ring
`angle_mark`, `lens`     an angle in words; the opening of a petal tip as it comes to the side
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from calc.drawing.marks import label
from calc.drawing.scene import (
    GUIDE,
    GUIDE_LINE,
    LINE,
    Gradient,
    Group,
    Item,
    Part,
    Parts,
    Path,
    Point,
    Style,
    Text,
    arc,
    circle,
    polygon,
    polyline,
    smooth,
    turned,
)
from calc.drawing.shading import tone
from calc.drawing.tip_openings import opening_parts
from calc.tips import Tip

DARK = "#2f1730"
PANEL_WORDS = 6.5  # size of words in a panel of the hand: 8 pt where four panels stand side by side on paper
SKIN, SKIN_EDGE, SLEEVE = "#d8a781", "#75482e", "#5b3a57"


def pod(a: Point, b: Point, half: float, far: float | None = None) -> Parts:
    """A finger from a to b, `half` wide to either side at a and `far` at b."""
    end = half if far is None else far
    turn_deg = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
    near, off = turned(a, turn_deg), turned(b, turn_deg)
    return smooth(
        [
            near(-half * 0.85, -half * 0.5),
            near(0, -half),
            off(0, -end),
            off(end * 0.8, -end * 0.55),
            off(end * 0.8, end * 0.55),
            off(0, end),
            near(0, half),
            near(-half * 0.85, half * 0.5),
        ],
        closed=True,
    )


def bag_and_tip(at: Point, toward_deg: float, tip: Tip, seen: float = 1.0, thick: int = 0, hand: bool = True, arm_deg: float = 34.0) -> list[Item]:
    """Draw a bag with its tip and the hand that holds it."""
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
        items += forearm(palm, arm_deg)
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
        items += fingers(place)
    return items


def forearm(wrist: Point, toward_deg: float) -> list[Item]:
    """A forearm from the wrist, in its sleeve."""
    limb = turned(wrist, toward_deg)
    return [
        Path(
            smooth(
                [limb(-2, -7.5), limb(14, -6.4), limb(30, -7.0), limb(70, -9.0), limb(70, 9.0), limb(30, 7.0), limb(14, 6.4), limb(-2, 7.5)],
                closed=True,
            ),
            Style(fill=SKIN, stroke=SKIN_EDGE, width_mm=0.5),
        ),
        Path(polygon([limb(22, -8.6), limb(80, -11.5), limb(80, 11.5), limb(22, 8.6)]), Style(fill=SLEEVE, stroke=DARK, width_mm=0.5)),
        Path(polyline([limb(25.4, -8.8), limb(25.4, 8.8)]), Style(stroke="#8a6a86", width_mm=0.6)),
    ]


def bag_on_end(at: Point, toward_deg: float, tip: Tip, seen: float = 0.62) -> list[Item]:
    """Draw a bag held at right angles to the surface, its twisted end and the hand towards the eye; `seen` is how much of its length shows."""
    c, n = math.cos(math.radians(toward_deg)), math.sin(math.radians(toward_deg))

    def place(u: float) -> Point:
        return at[0] + c * u * seen, at[1] + n * u * seen

    def shaded(centre: Point, radius: float, colours: tuple[str, str, str]) -> Gradient:
        lit, shade = (centre[0] - radius * 0.7, centre[1] - radius * 0.7), (centre[0] + radius * 0.7, centre[1] + radius * 0.7)
        return Gradient(*lit, *shade, ((0, colours[0]), (0.5, colours[1]), (1, colours[2])))

    half = min(13.0, max(3.0, tip.opening_mm)) / 2
    steel = Style(fill=shaded(place(8), 6, ("#f6f4f7", "#c4bfc9", "#716978")), stroke="#3f3846", width_mm=0.45)
    ring = Style(fill=shaded(place(15), 7.4, ("#ffffff", "#dbe3e5", "#9fb0b4")), stroke="#51777b", width_mm=0.4)
    cloth = Style(fill=shaded(place(30), 10, ("#fffaf0", "#eadfcb", "#bca98d")), stroke="#75624f", width_mm=0.45)
    hand, grip = place(48), 8.6
    items: list[Item] = [
        Path(pod(at, place(12), half, 6.0), steel),
        Path(circle(*place(14.5), 7.4), ring),
        Path(pod(place(18), place(33), 7.6, 9.8), cloth),
        *forearm((hand[0] + 6.0, hand[1] + 6.0), 40.0),
    ]
    for u in (32.5, 37.5, 42.5):  # three fingers round the bag, the first of them nearest to the eye
        items += _round_finger(place(u), grip, -15, -235)
    palm = [(4, -10), (10, -8), (14, 0), (15, 9), (9, 15), (1, 12.5), (2, 4), (6, -2)]
    flesh = skin((hand[0] - 8, hand[1] - 10), (hand[0] + 10, hand[1] + 12))
    end = Style(fill=shaded(hand, 9, ("#fffaf0", "#efe5d3", "#c9b89d")), stroke="#75624f", width_mm=0.45)
    items.append(Path(circle(*place(46.5), 7.0), end))
    items.append(Path(smooth([(hand[0] + x, hand[1] + y) for x, y in palm], closed=True), flesh))
    items += _round_finger(hand, grip, -20, -226)
    folds: list[Part] = []
    for k in range(6):  # the twist, and the end of the bag over the fork of the thumb
        turn = math.tau * k / 6 + 0.3
        folds += [
            ("M", hand[0] + 1.2 * math.cos(turn), hand[1] + 1.2 * math.sin(turn)),
            ("L", hand[0] + 4.6 * math.cos(turn + 0.6), hand[1] + 4.6 * math.sin(turn + 0.6)),
        ]
    tail = [(-2.0, -2.2), (3, -4.6), (9, -9.5), (12.5, -6), (16, -4), (12, 0.5), (4, 3.0), (-1, 2.6)]
    items.append(Path(smooth([(hand[0] + x, hand[1] + y) for x, y in tail], closed=True), end))
    items.append(Path(tuple(folds), Style(stroke="#8d7a63", width_mm=0.4)))
    thumb = [(14, 8), (9, 5.4), (2, 5.6), (-4.2, 6.0), (-6.0, 8.6), (-3.6, 11.2), (4, 12.2), (10, 15)]
    items.append(Path(smooth([(hand[0] + x, hand[1] + y) for x, y in thumb]), flesh))
    items.append(nail((hand[0] - 2.4, hand[1] + 8.5), (hand[0] - 4.4, hand[1] + 8.5), 1.5))
    return items


def _round_finger(centre: Point, radius: float, first: float, last: float) -> list[Item]:
    """A finger bent round a bag that is seen from its end, from one direction to another [deg]."""
    way = arc(*centre, radius, first, last)
    lit = arc(centre[0] - 0.5, centre[1] - 0.7, radius, first - 25, last + 60)
    return [
        Path(way, Style(stroke=SKIN_EDGE, width_mm=6.6)),
        Path(way, Style(stroke=SKIN, width_mm=5.7)),
        Path(lit, Style(stroke="#ecc7a6", width_mm=2.4)),
    ]


def skin(a: Point, b: Point) -> Style:
    """Skin that is lit at `a` and in shade at `b`."""
    return Style(fill=Gradient(*a, *b, ((0, "#f0cfb0"), (0.5, SKIN), (1, "#ad7850"))), stroke=SKIN_EDGE, width_mm=0.5)


def nail(a: Point, b: Point, half: float) -> Path:
    """A nail from `a` to the end of the finger at `b`."""
    return Path(pod(a, b, half, half * 0.9), Style(fill="#f6dfcc", stroke="#b98a68", width_mm=0.25))


def fingers(place: Callable[[float, float], Point]) -> list[Item]:
    """The fingers of the right hand round a bag: over it from behind, the thumb from below across the first of them, the heel of the hand below."""
    flesh = skin(place(46, -13), place(50, 12))
    items: list[Item] = [
        Path(
            smooth(
                [place(36.5, 6.5), place(39, 11.5), place(47, 14.5), place(56, 14), place(61, 8), place(58, 2.5), place(50, 3), place(41, 5)],
                closed=True,
            ),
            flesh,
        )
    ]
    for u, reach in ((37.6, 3.4), (43.2, 4.6), (48.9, 4.0), (54.4, 1.6)):
        items.append(Path(pod(place(u + 1.6, -9.6 + 0.1 * (u - 37)), place(u - 0.8, reach), 3.2, 2.7), flesh))
        items.append(nail(place(u - 0.7, reach - 0.2), place(u - 0.9, reach + 1.3), 1.35))
    items.append(
        Path(
            smooth(
                [place(62, 8), place(60.5, 2), place(55, -2.6), place(49.5, -4.4), place(48.0, -1.2), place(52, 1.6), place(55.5, 5.5), place(57, 11)]
            ),
            flesh,
        )
    )
    items.append(nail(place(51.6, -2.2), place(49.6, -2.9), 1.5))
    return items


def _tip(put: Callable[[float, float], Point], tip: Tip, half: float, end: float, base: float, thick: int) -> list[Item]:
    """The metal of a tip, its mouth at u = 0, shaped for its family."""
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
        # with `thick` the V is seen along its opening: one of its points towards the eye hides the other
        mouth = [put(3.4, -half), put(-2.0, -0.6), put(-2.0, 0.6), put(3.4, half)] if thick else [put(-2.2, -half), put(4.2, 0.0), put(-2.2, half)]
        if thick:
            ridges += [("M", *put(-1.4, 0.0)), ("L", *put(7.0, 0.0))]
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
        made.append(Path(pod(put(0.3, -half * 0.72), put(0.3, half * 0.72), 0.7), dark))
    return made


def hand_path(points: Sequence[Point], heads: Sequence[float] = (1.0,), width_mm: float = 0.95) -> list[Item]:
    """Draw a path of the hand with arrow heads at shares of its length, on a light rim so that it shows on any buttercream."""
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
    """Draw a number in a ring."""
    return [
        Path(circle(at[0], at[1], 3.5), Style(fill="#fffaf0", stroke=GUIDE, width_mm=0.55)),
        Text(at[0], at[1] + 1.75, str(number), 5.0, "middle", "bold", Style(fill=DARK)),
    ]


def angle_mark(at: Point, radius: float, first: float, last: float, words: str, share: float = 0.24) -> list[Item]:
    """An arc between two directions, with its angle in words where the bag leaves room."""
    turn = math.radians(first + (last - first) * share)
    x, y = at[0] + (radius + 9.0) * math.cos(turn), at[1] + (radius + 9.0) * math.sin(turn)
    return [Path(arc(at[0], at[1], radius, first, last), GUIDE_LINE._replace(width_mm=0.8)), label(x, y + 2.2, words, 6.4, "middle", "bold", True)]


def lens(tip: Tip, colour: str) -> list[Item]:
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
        label(3.0, y - 25.2, "thick end", PANEL_WORDS),
        label(3.0, y - 18.6, "on the cake", PANEL_WORDS),
        Path(polyline([(x + 6.2, y + 9.4), (x + 15.5, y + 10.6)]), LINE),
        label(x + 16.5, y + 11.8, "thin end", PANEL_WORDS),
        label(x + 16.5, y + 18.2, "away", PANEL_WORDS),
    ]
