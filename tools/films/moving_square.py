"""The moving picture of pricks carried down from the edge of a cake to the line of its joints, along a set square that stands on the turntable.

`FILMS`: name -> function of a tip and a colour, giving a `Film`. The side and its repeats are those that the page works out.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from calc.division import pitch_mm
from calc.drawing.scene import CAKE, Item, Path, Point, Style, Use, circle, polygon, polyline, rectangle
from calc.tips import Tip
from tools.films.moving import Film, Hand, Keys, Laid, Layer, Moved, Still, Turning, View
from tools.films.moving_marking import ASLANT, DOT, half_round, pinch
from tools.films.moving_rows import hand_on_rim
from tools.films.moving_strip import pointed
from tools.films.moving_tools import AWAY, GREY, JUMP_S, keys_of

FILMS: dict[str, Callable[[Tip, str], Film]] = {}
HIGH = 84.0
SIDE_MM, REPEATS = 660.0, 8  # as the page has them
RADIUS, TABLE = 30.0, 40.0  # as drawn
ABOVE_AT, FRONT_AT = (60.0, 38.0), (60.0, 32.0)
TALL, JOINT = 28.0, 8.0  # from the edge down to the turntable, and to the line of the joints
SQUARE = Style(fill="#cfe0e2", stroke="#51777b", width_mm=0.5, opacity=0.9)
TICK = [Path(polyline([(0.0, -2.4), (0.0, 2.4)]), Style(stroke=stroke, width_mm=wide)) for stroke, wide in (("#fffaf0", 2.4), ("#2f1730", 1.5))]
MARKS_S = (2.8, 7.0, 11.2)  # when a mark is begun
MARK_S = 0.8  # and how long it takes
TURNS_S = ((4.7, 5.7), (8.9, 9.9))  # when the cake is turned by one repeat
ENDS_S = (2.2, 4.2, 6.4, 8.4, 14.2)


def turned_deg(time: float) -> float:
    """How far the cake has been turned."""
    step = 360.0 / REPEATS
    return math.fsum(step * min(1.0, max(0.0, (time - begin) / (end - begin))) for begin, end in TURNS_S)


def ticked(number: int) -> Keys:
    """Where a mark on the side is, from in front: not there until it is made, then carried to the left as the cake is turned."""
    begin = MARKS_S[number]
    made_at = turned_deg(begin)
    times = [begin + MARK_S, *(b + (e - b) * k / 6 for b, e in TURNS_S if b > begin for k in range(7)), ENDS_S[-1]]
    keys: list[tuple[float, ...]] = [(0.0, *AWAY), (begin + MARK_S / 2, *AWAY)]
    for k, time in enumerate(times):
        gone = math.radians(turned_deg(time) - made_at)
        place = (FRONT_AT[0] - RADIUS * math.sin(gone), FRONT_AT[1] + JOINT + ASLANT * RADIUS * math.cos(gone))
        keys += [(begin + MARK_S / 2 + JUMP_S, *place)] if k == 0 else []
        keys.append((time, *place))
    return keys_of(*keys)


def square(tip: Tip, colour: str) -> Film:
    """A set square stood at a prick, a mark along its edge, the cake turned by a repeat, and twice again."""
    whole_s = ENDS_S[-1]
    pitch = pitch_mm(SIDE_MM, REPEATS)
    pricks: list[Item] = []
    for k in range(REPEATS):
        turn = math.tau * k / REPEATS
        pricks.append(Use(DOT, (1.0, 0.0, 0.0, 1.0, RADIUS * math.sin(turn), RADIUS * math.cos(turn))))
    times = [0.0, *(time for turn in TURNS_S for time in turn), whole_s]
    top = Turning((Still(pricks),), keys_of(*((time, 0.0, 0.0, turned_deg(time)) for time in times)))

    # the square, which the left hand holds: how far from its place, to the left and to the worker
    stands: list[tuple[float, float, float]] = [(0.0, -50.0, 20.0), (1.6, 0.0, 0.0)]
    for begin, end in TURNS_S:
        stands += [(begin - 0.5, 0.0, 0.0), (begin, -9.0, 5.0), (end, -9.0, 5.0), (end + 0.5, 0.0, 0.0)]
    stands += [(12.6, 0.0, 0.0), (13.8, -100.0, 24.0), (whole_s, -100.0, 24.0)]

    def held(foot: Point, hold: Point, items: list[Item]) -> list[Layer]:
        """The square with its foot there, and the left hand on it."""
        x, y = foot
        return [
            Moved(items, keys_of(*((time, x + u, y + v) for time, u, v in stands))),
            Laid(
                (Moved(pinch(), keys_of(*((time, -x - u - hold[0], y + v + hold[1]) for time, u, v in stands))),),
                (-1.0, 0.0, 0.0, 1.0, 0.0, 0.0),
            ),
        ]

    def marking(edge: Point, deep: float) -> Moved:
        """The right hand with a cocktail stick at the edge of the square; each mark is `deep` long in the view."""
        x, y = edge
        rows: list[tuple[float, ...]] = [(0.0, *AWAY)]
        for begin in MARKS_S:
            rows += [(begin - 0.6, *AWAY), (begin - 0.6 + JUMP_S, 140.0, y + 20.0), (begin, x, y - deep / 2)]
            rows += [(begin + MARK_S, x, y + deep / 2), (begin + MARK_S + 0.6, 140.0, y + 20.0), (begin + MARK_S + 0.6 + JUMP_S, *AWAY)]
        return Moved(pointed("#d9b27c"), keys_of(*rows))

    (ax, ay), (fx, fy) = ABOVE_AT, FRONT_AT
    rim: list[tuple[float, ...]] = [(0.0, *AWAY, 0.0)]
    for begin, end in TURNS_S:
        for k in range(5):
            right = 70.0 - turned_deg(begin + (end - begin) * k / 4) + turned_deg(begin)
            turn = math.radians(right)
            place = (-ax - (TABLE + 1.0) * math.sin(turn), ay + (TABLE + 1.0) * math.cos(turn), right * 0.6)
            rim += [(begin - JUMP_S, *AWAY, 0.0)] if k == 0 else []
            rim.append((begin + (end - begin) * k / 4, *place))
        rim.append((end + JUMP_S, *AWAY, 0.0))
    flat, aslant = (1.0, 0.0, 0.0, 1.0, ax, ay), (1.0, 0.0, 0.0, ASLANT, fx, fy)
    above: list[Layer] = [
        Laid((Still([Path(circle(0, 0, TABLE), GREY), Path(circle(0, 0, RADIUS), CAKE)]), top), flat),
        Laid((Moved(hand_on_rim(), keys_of(*rim)),), (-1.0, 0.0, 0.0, 1.0, 0.0, 0.0)),
        *held((ax, ay + RADIUS), (-15.0, 2.0), [Path(rectangle(-25.0, 0.2, 25.0, 1.8), SQUARE)]),
        marking((ax + 0.8, ay + RADIUS + 1.0), 0.0),
    ]
    foot = fy + TALL + ASLANT * RADIUS
    high = TALL + 6.0
    triangle: list[Item] = [
        Path((*polygon([(0.0, 0.6), (0.0, -high), (-25.0, 0.6)]), *polygon([(-4.0, -3.0), (-15.0, -3.0), (-4.0, -18.0)])), SQUARE),
    ]
    front: list[Layer] = [
        Still(
            [
                Path(tuple(half_round(fx, fy + TALL, TABLE, True)), GREY),
                Path((("M", fx - RADIUS, fy), *half_round(fx, fy + TALL, RADIUS), ("L", fx + RADIUS, fy), ("Z",)), CAKE),
            ]
        ),
        Laid((Still([Path(circle(0, 0, RADIUS), CAKE)]), top), aslant),
        *(Moved(TICK, ticked(k)) for k in range(len(MARKS_S))),
        *held((fx, foot), (-14.0, -14.0), triangle),
        marking((fx + 0.8, fy + JOINT + ASLANT * RADIUS), 4.8),
    ]
    pressed: list[tuple[float, ...]] = [(0.0, 0.0)]
    for begin in MARKS_S:
        pressed += [(begin, 0.0), (begin + 0.1, 0.15), (begin + MARK_S - 0.1, 0.15), (begin + MARK_S, 0.0)]
    names = (
        "stand a set square on the turntable, its edge at the prick",
        "mark along its upright edge, at the line of the joints",
        "take it away, turn the cake to the next prick",
        "mark that one too",
        "and so on: every joint stands under its prick",
    )
    hand = Hand(
        keys_of(*((time, pitch * turned_deg(time) * REPEATS / 360.0, 0.0, 0.0) for time in times)),
        keys_of(*pressed, (whole_s, 0.0)),
        ((0.0, (0.0, 0.0, -1.0)),),
        keys_of((0.0, 0.0), (whole_s, 0.0)),
        tuple(zip(names, ENDS_S, strict=True)),
    )
    return Film(
        "carrying the marks down",
        hand,
        (
            View(
                "From above",
                "The left hand holds a set square upright against the side, its edge at a prick; the right hand marks, then turns the cake.",
                above,
                HIGH,
            ),
            View(
                "From the front",
                "The same from the front: the set square stands on the turntable, a stick marks along its upright edge below the prick.",
                front,
                HIGH,
            ),
        ),
        f"Three of the {REPEATS} pricks on the edge, each {pitch / 10:.2f} cm from the next, are carried down to the line of the joints.",
        (MARKS_S[0] + 0.5, TURNS_S[0][0] + 0.5, MARKS_S[1] + 0.5, MARKS_S[2] + 0.5, whole_s),
        force="Press",
    )


FILMS["carrying the marks down"] = square
