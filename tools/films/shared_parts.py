"""Hands, petals and a bud that the moving pictures and the still ones both draw.

Map
---
`RUSSET`, `CREAM`, `BLUSH`, `BAY`   the colours that they are drawn in
`STEEL`, `WOOD`, `PAPER`        what tools and strips are drawn in; a board is `BOARD` of the motifs
`along_bag`                     a way to place points along a bag; `left_fingers` and `further_up` give others from it
`open_hand`, `steadying_hand`   the right hand open under a bag; the forefinger of the left hand at a tip
`fingers_flat`, `hand_at_rim`   the side of a hand laid across a bag; a hand that holds the rim of a cutter
`petal`, `bud_parts`            a petal of a small flower; the curl, the fold and the foot of a bud
"""

from __future__ import annotations

import math
from collections.abc import Callable

from calc.colours import PALETTE
from calc.drawing.bag import SKIN_EDGE, forearm, hand_path, nail, pod, skin
from calc.drawing.scene import Item, Path, Point, Style, smooth, turned
from calc.drawing.shading import tone

RUSSET, CREAM, BLUSH, BAY = (PALETTE[name] for name in ("russet", "cream", "blush", "bay"))
STEEL = Style(fill="#c4bfc9", stroke="#4c4453", width_mm=0.5)
WOOD = Style(fill="#a5713f", stroke="#5c4326", width_mm=0.5)
PAPER = Style(fill="#fffdf6", stroke="#8a6f5c", width_mm=0.5)
Put = Callable[[float, float], Point]


def along_bag(at: Point, toward_deg: float, size: float = 1.0) -> Put:
    """Give a way to place points along a bag, as `bag_and_tip` has them: u from its tip, v downwards across it."""
    put = turned(at, toward_deg, size)
    way = 1.0 if math.cos(math.radians(toward_deg)) >= 0 else -1.0
    return lambda u, v: put(u, way * v)


def left_fingers(put: Put) -> Put:
    """Give the way to place the fingers of a left hand on a bag: those of the right hand seen in a mirror across it."""
    return lambda u, v: put(76.0 - u, v)


def further_up(put: Put, by: float) -> Put:
    """Give a way to place points so much further from the tip of a bag."""
    return lambda u, v: put(u + by, v)


def open_hand(put: Put) -> list[Item]:
    """The right hand open under a bag: palm to the eye, fingers past its upper edge, the fork of the thumb where its twist lies."""
    flesh = skin(put(46, -30), put(52, 16))
    items: list[Item] = []
    for u, end, tip_u, half in ((37.5, -26.0, 33.0, 2.8), (43.2, -32.5, 41.0, 3.1), (49.2, -34.0, 48.8, 3.2), (55.0, -29.5, 57.0, 3.1)):
        lean = (tip_u - u) / (end + 4)

        def edge(side: float, v: float, wide: float, u: float = u, lean: float = lean) -> Point:
            return put(u + lean * (v + 4) + side * wide, v)

        left = [edge(-1, v, half + w) for v, w in ((-2, 0.5), (-12, 0.3), (-20, 0.1), (end + 3.5, -0.2), (end + 0.8, -1.2))]
        right = [edge(1, v, half + w) for v, w in ((end + 0.8, -1.2), (end + 3.5, -0.2), (-20, 0.1), (-12, 0.3), (-2, 0.5))]
        items.append(Path(smooth([*left, edge(0, end, 0.0), *right], closed=True), flesh))
        for share in (0.4, 0.68):
            x, y = u + (tip_u - u) * share, -4 + (end + 4) * share
            items.append(Path(smooth([put(x - 2.0, y), put(x, y + 0.7), put(x + 2.0, y)]), Style(stroke=SKIN_EDGE, width_mm=0.35, opacity=0.7)))
    palm = [
        (35, -8),
        (40, -10.5),
        (46, -11.5),
        (52, -11),
        (57.5, -9),
        (60.5, -3),
        (64, 1.5),
        (70, 0.8),
        (77.5, -1.5),
        (79, 2.0),
        (73, 7.5),
        (64, 13),
        (58, 20),
        (42, 19),
        (35.5, 9),
    ]
    items.append(Path(smooth([put(u, v) for u, v in palm], closed=True), flesh))
    for line in ([(57.5, 0.5), (53, 8), (52, 17)], [(37, 0), (45, 7), (49, 13)]):
        items.append(Path(smooth([put(u, v) for u, v in line]), Style(stroke=SKIN_EDGE, width_mm=0.45, opacity=0.65)))
    return items


def steadying_hand(at: Point, toward_deg: float) -> list[Item]:
    """The left hand with its forefinger put out to `at`; `toward_deg` is where its arm comes from."""
    put = turned(at, toward_deg)
    flesh = skin(put(10, 9), put(24, -9))
    items = [
        *forearm(put(40, -2), toward_deg),
        Path(
            smooth([put(18, 4.6), put(24, 6.2), put(34, 5.6), put(43, 4.5), put(43, -8), put(33, -10), put(22, -8), put(17, -2)], closed=True), flesh
        ),
    ]
    for u, v in ((34.5, -10.5), (29.0, -11.5), (23.6, -10.5)):
        items.append(Path(pod(put(u + 2, v + 7), put(u, v), 3.2, 2.9), flesh))
    items += [
        Path(pod(put(24, 2.4), put(2.6, 0), 3.4, 2.4), flesh),
        Path(smooth([put(12.5, -1.8), put(13.2, 0.2), put(12.8, 2.4)]), Style(stroke=SKIN_EDGE, width_mm=0.35, opacity=0.7)),
        nail(put(4.6, 1.2), put(2.0, 0.8), 1.2),
        Path(smooth([put(40, -3), put(33, -4.2), put(26, -7.8), put(22.6, -8.6), put(22.0, -5.6), put(27, -2.6), put(33, 1.6), put(40, 2.5)]), flesh),
        nail(put(25.2, -6.4), put(23.4, -7.1), 1.2),
    ]
    return items


def fingers_flat(at: Point) -> list[Item]:
    """The side of the right hand laid across a bag at `at`, fingers together, seen from above."""
    x, y = at
    flesh = skin((x - 8, y - 20), (x + 12, y + 14))
    items: list[Item] = [*forearm((x + 12.0, y + 16.0), 52.0)]
    back = [(-2, 12), (-4, 0), (-3, -8), (6, -9), (15, -4), (19, 10), (12, 20)]
    items.append(Path(smooth([(x + u, y + v) for u, v in back], closed=True), flesh))
    for k, (long, wide) in enumerate(((19.0, 3.0), (24.0, 3.1), (23.0, 3.1), (18.0, 2.8))):
        foot = (x + 12.0 - 4.6 * k, y - 4.0 - 1.2 * k)
        items.append(Path(pod(foot, (foot[0] - 2.0, foot[1] - long + 4), wide, wide * 0.86), flesh))
    return items


def hand_at_rim(hold: Point) -> list[Item]:
    """A right hand at the rim of a cutter: four fingers outside, the thumb inside it."""
    flesh = skin((hold[0] - 6, hold[1] - 14), (hold[0] + 14, hold[1] + 10))
    items: list[Item] = [*forearm((hold[0] + 15.0, hold[1] + 8.0), 38.0)]
    for k in range(4):
        tip = (hold[0] + 3.6 - 0.5 * k * k, hold[1] - 4.4 - 5.2 * k)
        items.append(Path(pod((hold[0] + 15.0 - k, hold[1] - 2.0 - 5.0 * k), tip, 3.3, 2.8), flesh))
    palm = [(8, -16), (16, -14), (21, -2), (22, 10), (12, 14), (4, 10), (6, -2)]
    items.append(Path(smooth([(hold[0] + x, hold[1] + y) for x, y in palm], closed=True), flesh))
    thumb = [(15, 9), (8, 3), (0, 0.5), (-5.5, -0.8), (-8.0, 1.6), (-5.6, 4.6), (1, 6.2), (7, 11)]
    items.append(Path(smooth([(hold[0] + x, hold[1] + y) for x, y in thumb]), flesh))
    return items


def petal(x: float, y: float, angle: float, size: float, colour: str) -> list[Item]:
    """A petal from its foot at (x, y)."""
    at = turned((x, y), math.degrees(angle), size)
    shape = [at(0.06, 0), at(0.3, -0.26), at(0.72, -0.40), at(1.0, -0.16), at(0.94, 0.02), at(1.0, 0.2), at(0.7, 0.40), at(0.3, 0.24)]
    return [
        Path(smooth(shape, closed=True), Style(fill=colour, stroke=tone(colour, -0.45), width_mm=0.5)),
        Path(smooth([at(0.2, -0.05), at(0.6, -0.16), at(0.88, -0.1)]), Style(stroke=tone(colour, 0.6), width_mm=1.2, opacity=0.8)),
        Path(smooth([at(0.2, 0.04), at(0.55, 0.12), at(0.85, 0.16)]), Style(stroke=tone(colour, -0.3), width_mm=0.6, opacity=0.6)),
    ]


def bud_parts(x: float, y: float) -> tuple[list[Item], list[Item], list[Item]]:
    """What a bud is made of: one curl, a second petal folded over it, and its green foot."""
    edge = Style(fill=tone(BLUSH, -0.06), stroke=tone(BLUSH, -0.5), width_mm=0.5)
    curl: list[Item] = [
        Path(smooth([(x, y + 22), (x - 9, y + 12), (x - 9, y), (x - 2, y - 8), (x + 6, y - 5), (x + 8, y + 5), (x + 6, y + 15)], closed=True), edge),
        Path(smooth([(x + 5, y - 4), (x - 1, y - 5.5), (x - 4, y), (x - 1, y + 4), (x + 2, y + 1)]), Style(stroke=tone(BLUSH, -0.5), width_mm=0.7)),
        Path(smooth([(x - 7, y + 2), (x - 4, y - 5), (x + 1, y - 7)]), Style(stroke=tone(BLUSH, 0.7), width_mm=1.1)),
    ]
    second = [(1, 23), (13, 12), (12, -1), (5, -5), (-1, 3), (-6, 12)]
    fold: list[Item] = [
        Path(smooth([(x + u, y + v) for u, v in second], closed=True), edge._replace(fill=tone(BLUSH, 0.1))),
        Path(smooth([(x + 11, y), (x + 5, y - 4.4), (x - 0.4, y + 3.4), (x - 5, y + 11)]), Style(stroke=tone(BLUSH, 0.7), width_mm=1.1)),
    ]
    green = Style(fill=tone(BAY, -0.05), stroke=tone(BAY, -0.5), width_mm=0.5)
    sepal = [(1, 11), (4.2, 17), (6.6, 24), (1, 30), (-4.6, 24), (-2.2, 17)]
    foot: list[Item] = [
        Path(smooth([(x + u, y + v) for u, v in sepal], closed=True), green),
        Path(smooth([(x - 2.4, y + 25), (x - 1.2, y + 20), (x + 0.6, y + 15)]), Style(stroke=tone(BAY, 0.5), width_mm=1.0)),
        *hand_path([(x - 13, y + 28), (x - 13, y + 9)], (1.0,)),
    ]
    return curl, fold, foot
