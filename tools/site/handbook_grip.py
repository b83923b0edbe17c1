"""Hands in the handbook's pages: the bag twisted, laid in the hand, gripped, and steadied by the other hand.

Map
---
`twisting`   a bag twisted shut by both hands
`grip`       the figure of the page *How to hold a bag*
"""

from __future__ import annotations

from collections.abc import Sequence

from calc.drawing.bag import bag_and_tip, fingers, forearm, hand_path, number_mark
from calc.drawing.marks import rule
from calc.drawing.scene import CAKE, LINE, Group, Item, Path, Point, Scene, Style, rectangle, smooth
from calc.drawing.shading import strand_paths
from calc.tips import Tip
from tools.films.shared_parts import RUSSET, Put, along_bag, further_up, left_fingers, open_hand, steadying_hand
from tools.site.handbook_panels import Values, turning

WIDE, HIGH = 100.0, 72.0
STAR = Tip("open star", 8.0)


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
    right = further_up(flat, 24.0)
    return [
        *forearm(flat(30, 10), 118.0),
        *forearm(right(52, 6), 40.0),
        *bag_and_tip((8.0, 38.0), -8.0, STAR, hand=False),
        *_twist(flat),
        *fingers(left_fingers(flat)),
        *fingers(right),
        *hand_path([flat(55, 11), flat(51.5, 7.5), flat(50.0, 0), flat(51.5, -8.5), flat(56, -12.5)], (1.0,), 1.2),
    ]


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
