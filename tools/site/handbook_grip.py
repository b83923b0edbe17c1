"""Hands in the handbook's pages: the bag twisted, laid in the hand, gripped, and steadied by the other hand; a bag being filled.

Map
---
`along_bag`                     a way to place points along a bag
`open_hand`, `steadying_hand`   the right hand open under a bag; the forefinger of the left hand at a tip
`twisting`, `fingers_flat`      a bag twisted shut by both hands; the side of a hand laid across it
`grip`                          the figure of the page *How to hold a bag*
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from calc.drawing.bag import SKIN_EDGE, bag_and_tip, fingers, forearm, hand_path, nail, number_mark, pod, skin
from calc.drawing.marks import rule
from calc.drawing.scene import CAKE, LINE, Group, Item, Path, Point, Scene, Style, rectangle, smooth
from calc.drawing.shading import strand_paths
from calc.tips import Tip
from tools.site.handbook_panels import RUSSET, Values, turning

WIDE, HIGH = 100.0, 72.0
STAR = Tip("open star", 8.0)
Put = Callable[[float, float], Point]


def along_bag(at: Point, toward_deg: float, size: float = 1.0) -> Put:
    """Give a way to place points along a bag, as `bag_and_tip` has them: u from its tip, v downwards across it."""
    c, n = math.cos(math.radians(toward_deg)), math.sin(math.radians(toward_deg))
    way = 1.0 if c >= 0 else -1.0
    return lambda u, v: (at[0] + size * (c * u - way * n * v), at[1] + size * (n * u + way * c * v))


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
    c, n = math.cos(math.radians(toward_deg)), math.sin(math.radians(toward_deg))

    def put(u: float, v: float) -> Point:
        return at[0] + c * u - n * v, at[1] + n * u + c * v

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


def _twist(put: Put) -> list[Item]:
    """The folds of a bag that is twisted shut."""
    folds: list[Item] = []
    for u in (48.5, 50.3, 52.1, 53.9, 55.7):
        folds.append(Path(smooth([put(u - 0.9, 2.4), put(u, 0.2), put(u + 1.5, -2.2)]), Style(stroke="#75624f", width_mm=0.45)))
    return folds


def _panel(title: str, told: str, items: Sequence[Item], number: int) -> Scene:
    return Scene(title, told, 0, 0, WIDE, HIGH, (Group((*items, *number_mark((6.5, 6.5), number)), clip=(0, 0, WIDE, HIGH)),))


def _squeeze(at: Point, toward: Point) -> list[Item]:
    """An arrow that presses."""
    return hand_path([(at[0], at[1]), toward], (1.0,), 1.3)


def twisting() -> list[Item]:
    """A bag twisted shut: the left hand holds what is full, the right hand turns the empty end."""
    flat = along_bag((8.0, 38.0), -8.0)

    def mirrored(u: float, v: float) -> Point:
        return flat(76.0 - u, v)

    def right(u: float, v: float) -> Point:
        return flat(u + 24.0, v)

    return [
        *forearm(flat(30, 10), 118.0),
        *forearm(right(52, 6), 40.0),
        *bag_and_tip((8.0, 38.0), -8.0, STAR, hand=False),
        *_twist(flat),
        *fingers(mirrored),
        *fingers(right),
        *hand_path([flat(55, 11), flat(51.5, 7.5), flat(50.0, 0), flat(51.5, -8.5), flat(56, -12.5)], (1.0,), 1.2),
    ]


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


def grip(values: Values, caption: str) -> str:
    """How a bag is held: twisted shut, laid in the fork of the thumb, gripped and squeezed from the top, the tip steadied by the other hand."""
    at, lean = (15.0, 62.0), -24.0
    put = along_bag(at, lean)
    bag = bag_and_tip(at, lean, STAR, hand=False)

    # 2: laid in the hand
    laid: list[Item] = [
        *forearm(put(50, 15), 48.0),
        *open_hand(put),
        *bag,
        *_twist(put),
        *hand_path([put(30, -28), put(25, -18), put(27, -3)], (1.0,), 1.2),
        *hand_path([put(80, 4), put(83, -7), put(74, -13)], (1.0,), 1.2),
    ]
    # 3: gripped, squeezed by the palm from the top
    held: list[Item] = [
        *bag_and_tip(at, lean, STAR, arm_deg=40.0),
        *_twist(along_bag(put(10.0, 0), lean))[2:],
        *_squeeze(put(50, -26), put(49, -14.5)),
        *_squeeze(put(40, 27), put(43, 16.5)),
    ]
    # 4: at work, the other hand under the tip
    line = [(-4.0, 36.4), (10.0, 36.4), (19.0, 35.8)]
    work, high = (20.0, 33.8), -22.0
    steadied = along_bag(work, high)
    piping: list[Item] = [
        Path(rectangle(-2, 39.0, WIDE + 4, 60), CAKE),
        *strand_paths(line, 5.0, "ridged", RUSSET),
        rule(-2, 39.0, WIDE + 2, 39.0, LINE),
        *steadying_hand(steadied(8.0, 5.2), 112.0),
        *bag_and_tip(work, high, STAR, arm_deg=34.0),
    ]
    return turning(
        (
            (
                _panel(
                    "Twist the bag", "The left hand holds the full part of a bag; the right hand turns its empty end until it is shut.", twisting(), 1
                ),
                "1 Twist the bag shut where the buttercream ends",
            ),
            (
                _panel(
                    "Lay it in the hand",
                    "An open right hand with a bag across its palm. The twist lies in the fork between thumb and first finger.",
                    laid,
                    2,
                ),
                "2 Lay the twist in the fork of your thumb, then close the hand",
            ),
            (
                _panel(
                    "Squeeze",
                    "Four fingers go round the bag from behind, the thumb closes on the first of them. Palm and fingers press at the top.",
                    held,
                    3,
                ),
                "3 Squeeze with the palm, at the top",
            ),
            (
                _panel("Steady the tip", "The right hand holds the bag; the first finger of the left hand touches the tip from below.", piping, 4),
                "4 The other hand steadies the tip from below",
            ),
        )
    )
