"""The moving picture of a side divided by hand: dividers walked round the edge of a cake.

`FILMS`: name -> function of a tip and a colour, giving a `Film`. What is shown is computed by `calc`: the setting of the dividers, where the last
step of a first round lands, and the joints.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from calc.division import closing_error_mm, dividers_mm
from calc.drawing.bag import forearm, pod, skin
from calc.drawing.marks import rule
from calc.drawing.scene import CAKE, GUIDE, Item, Motif, Path, Point, Style, arc, circle, polyline, rectangle, smooth
from calc.rows.kind import Vector
from calc.tips import Tip
from tools.films.moving import Film, Grown, Hand, Keys, Laid, Layer, Moved, Rod, Still, Timed, Turning, View, during
from tools.films.moving_rows import hand_on_rim
from tools.films.moving_tools import GREY, keys_of

FILMS: dict[str, Callable[[Tip, str], Film]] = {}
HIGH = 82.0

# --- dividers walked round ----------------------------------------------------------------------------------------------------------

HALF_MM, STEPS = 80.0, 6  # the cake that the page works out: half its width, and its repeats
SIDE_MM = math.tau * HALF_MM
NARROW_MM = 2.0  # by so much the first setting is too narrow
LEG_MM, LEANS_DEG = 105.0, 20.0  # a leg of the dividers, upright, and how far they lean on one point while the other swings over
SCALE, ASLANT, UPRIGHT = 0.375, 0.38, 0.92  # of the picture; and how much of what is level and of what is upright is seen from in front
ABOVE_AT, FRONT_AT = (44.0, 39.0), (44.0, 43.0)  # the middle of the top in each view
TABLE = 36.0  # half the width of the turntable, as drawn
RULER = (114.0, 40.0, -72.0)  # where its zero is: to the right of the cake, towards the worker, on the board [mm]
LEGS = (Style(stroke="#3f3846", width_mm=2.0), Style(stroke="#c4bfc9", width_mm=1.1))
DOT = Motif("prick", (Path(circle(0, 0, 1.5), Style(fill="#2f1730", stroke="#fffaf0", width_mm=0.4)),))
FIRST = Path(circle(0, 0, 2.0), Style(fill="#fffaf0", stroke=GUIDE, width_mm=1.1))
SWING = (0.0, 0.15, 0.32, 0.5, 0.68, 0.85, 1.0)


class Stand(NamedTuple):
    """Where a pair of dividers is: its two points and its hinge in the room [mm], from the middle of the top of the cake."""

    first: Vector
    second: Vector
    hinge: Vector


def standing(rest: Point, toward_deg: float, setting_mm: float, lean_deg: float = 0.0, high_mm: float = 0.0, on_second: bool = False) -> Stand:
    """Dividers on one point, the other in a direction from it (0 to the right, 90 to the worker), lifted as they lean."""
    lean, half = math.radians(lean_deg), setting_mm / 2
    c, n = math.cos(math.radians(toward_deg)), math.sin(math.radians(toward_deg))

    def place(along: float, up: float) -> Vector:
        return rest[0] + c * along, rest[1] + n * along, high_mm + up

    foot = place(0.0, 0.0)
    free = place(setting_mm * math.cos(lean), setting_mm * math.sin(lean))
    hinge = place(half * math.cos(lean) - LEG_MM * math.sin(lean), LEG_MM * math.cos(lean) + half * math.sin(lean))
    return Stand(free, foot, hinge) if on_second else Stand(foot, free, hinge)


def step_deg(setting_mm: float) -> float:
    """How far round the middle a step of the dividers goes [deg]."""
    return math.degrees(2 * math.asin(setting_mm / 2 / HALF_MM))


def on_edge(degrees: float) -> Point:
    """A place on the edge, in its direction from the middle [mm]."""
    return HALF_MM * math.cos(math.radians(degrees)), HALF_MM * math.sin(math.radians(degrees))


def from_above(place: Vector) -> Point:
    return ABOVE_AT[0] + SCALE * place[0], ABOVE_AT[1] + SCALE * place[1]


def from_in_front(place: Vector) -> Point:
    return FRONT_AT[0] + SCALE * place[0], FRONT_AT[1] + SCALE * (ASLANT * place[1] - UPRIGHT * place[2])


class Walk:
    """Dividers on their way: at each moment where they are, how far the cake is turned, and when a point has come to rest."""

    def __init__(self) -> None:
        self.stands: list[tuple[float, Stand]] = []
        self.turns: list[tuple[float, float]] = [(0.0, 0.0)]
        self.landed: list[tuple[float, float]] = []  # when, and how far round on the cake from the direction of the worker [deg]
        self.on_second = False

    def turn(self, begin: float, end: float, degrees: float) -> None:
        gone = self.turns[-1][1]
        self.turns += [(begin, gone), (end, gone + degrees)]

    def put(self, time: float, stand: Stand) -> None:
        self.stands.append((time, stand))

    def swing(self, begin: float, end: float, setting: float, over: bool, turned: bool = True, start_deg: float = 180.0) -> None:
        """The point that does not rest swings over to the right: over the cake, or outside it; the cake is turned meanwhile, and the hand stays."""
        step = step_deg(setting)
        if turned:
            self.turn(begin, end, step)
        begins = 90.0 - step / 2 if turned else 90.0 + step / 2
        for share in SWING:
            toward = start_deg + share * (360.0 - start_deg) if over else start_deg * (1.0 - share)
            lean = LEANS_DEG * (math.sin(math.pi * share) if turned else math.cos(math.pi * share / 2))
            rest = on_edge(begins + step * share if turned else begins)
            self.put(begin + (end - begin) * share, standing(rest, toward, setting, lean, on_second=self.on_second))
        self.landed.append((end, 90.0 - step / 2 - self.turns[-1][1]))
        self.on_second = not self.on_second


def pinch(held: Sequence[Item] = (), at: Point = (0.0, 0.0)) -> list[Item]:
    """A right hand that holds something between thumb and finger, there; its arm comes from the worker, and what it holds lies in it."""
    x, y = at[0], at[1] + 3.6

    def place(u: float, v: float) -> Point:
        return x + u, y + v

    flesh = skin(place(6, -10), place(26, 20))
    back = [place(10, -2), place(18, -5), place(27, 2), place(30, 13), place(24, 21), place(15, 20), place(9, 9)]
    return [
        *forearm(place(24.0, 14.0), 38.0),
        Path(pod(place(17.0, 13.0), place(10.0, 6.5), 3.4, 3.0), flesh),
        Path(smooth(back, closed=True), flesh),
        *held,
        Path(pod(place(17.0, 0.0), place(1.6, -6.6), 3.2, 2.5), flesh),
        Path(pod(place(16.0, 11.0), place(1.6, -0.6), 3.5, 2.6), flesh),
    ]


def held_stem() -> list[Item]:
    """A pair of dividers held by the stem, the hinge at (0, 0)."""
    return [*pinch([Path(rectangle(-1.1, -8.0, 2.2, 8.0), GREY)], (0.0, -3.6)), Path(circle(0, 0, 1.9), GREY)]


def dividers(tip: Tip, colour: str) -> Film:
    """Dividers set against a ruler, walked round once without a mark, opened by a share of the error, and round again with a prick at each step."""
    right = dividers_mm(SIDE_MM, STEPS)
    setting = right - NARROW_MM
    short = -closing_error_mm(SIDE_MM, STEPS, setting)
    step, true = step_deg(setting), step_deg(right)
    walk = Walk()
    zero = 90.0 + step / 2  # where the mark at the middle of the back comes to lie when it is in front
    set_s, rest_s, one_s, two_s, each_s, share = 2.2, 4.8, 6.2, 7.8, 1.3, 0.72
    # against the ruler
    rx, ry, rz = RULER
    for time, high, wide in ((0.0, 25.0, 58.0), (0.8, 0.0, 58.0), (1.6, 0.0, setting), (set_s, 0.0, setting)):
        walk.put(time, standing((rx, ry), 0.0, wide, high_mm=rz + high))
    # one point on the middle of the back, which is turned to the worker
    back = on_edge(zero)
    walk.turn(set_s + 0.2, rest_s - 0.5, 360.0 - (270.0 - zero))
    gone = walk.turns[-1][1]
    walk.put(set_s + 0.7, standing((rx, ry), 0.0, setting, high_mm=40.0))
    walk.put(rest_s - 0.6, standing(back, 90.0, setting, LEANS_DEG, 30.0))
    walk.put(rest_s, standing(back, 90.0, setting, LEANS_DEG))
    walk.swing(rest_s + 0.1, one_s - 0.3, setting, False, turned=False, start_deg=90.0)
    walk.on_second = True
    walk.swing(one_s, one_s + share * (two_s - one_s), setting, True)
    for k in range(2, STEPS):
        begin = two_s + each_s * (k - 2)
        walk.swing(begin, begin + share * each_s, setting, k % 2 == 1)
    round_s = two_s + each_s * (STEPS - 2)
    lands_s = walk.landed[-1][0]
    # opened
    open_s = round_s + 2.6
    here = walk.stands[-1][1]
    rest = here.first[:2]
    walk.put(round_s + 0.9, standing(rest, 180.0 if here.first[0] > here.second[0] else 0.0, setting))
    walk.put(round_s + 1.3, standing(rest, 180.0 if here.first[0] > here.second[0] else 0.0, setting, high_mm=22.0))
    walk.put(round_s + 2.2, standing(rest, 180.0 if here.first[0] > here.second[0] else 0.0, right, high_mm=22.0))
    # round again
    walk.turn(open_s, open_s + 0.9, 360.0 + 90.0 + true / 2 - zero - (walk.turns[-1][1] - gone))
    walk.put(open_s, walk.stands[-1][1])
    back = on_edge(90.0 + true / 2)
    walk.on_second = False
    walk.put(open_s + 0.7, standing(back, 90.0, right, LEANS_DEG, 22.0))
    walk.put(open_s + 1.1, standing(back, 90.0, right, LEANS_DEG))
    walk.swing(open_s + 1.2, open_s + 2.1, right, False, turned=False, start_deg=90.0)
    walk.on_second = True
    again_s = open_s + 2.5
    for k in range(1, STEPS):
        begin = again_s + each_s * (k - 1)
        walk.swing(begin, begin + share * each_s, right, k % 2 == 1)
    prick_s = again_s + each_s * (STEPS - 2)
    closed_s = prick_s + each_s
    whole_s = closed_s + 1.0
    here = walk.stands[-1][1]
    walk.put(closed_s, here)
    walk.put(whole_s, Stand(*((x + 70.0, y - 10.0, z + 30.0) for x, y, z in here)))

    # the cake, its marks and its table
    back_deg = zero - gone  # on the cake
    pricked = [(time, degrees - back_deg) for time, degrees in walk.landed[STEPS:-1]]
    first = on_edge(back_deg)
    gap = arc(0, 0, SCALE * HALF_MM + 3.0, back_deg - 360.0, walk.landed[STEPS - 1][1])
    dots = []
    for time, degrees in pricked:
        x, y = on_edge(degrees + back_deg)
        dots.append(Timed(DOT, (1.0, 0.0, 0.0, 1.0, SCALE * x, SCALE * y), time, time + 0.2))
    at_back = [Path(tuple(part for part in circle(SCALE * first[0], SCALE * first[1], 2.0)), FIRST.style)]
    turns = keys_of(*((time, 0.0, 0.0, degrees) for time, degrees in walk.turns), (whole_s, 0.0, 0.0, walk.turns[-1][1]))
    ticks = tuple(
        part
        for k in range(24)
        for part in polyline([(far * math.cos(math.tau * k / 24), far * math.sin(math.tau * k / 24)) for far in (TABLE - 3.6, TABLE - 1.4)])
    )
    table = Turning((Still([Path(ticks, Style(stroke="#5f5561", width_mm=0.9))]),), turns)
    top = Turning(
        (
            Still(at_back),
            Moved(
                [Path(gap, Style(stroke="#fffaf0", width_mm=3.0)), Path(gap, Style(stroke=GUIDE, width_mm=1.8))],
                during((lands_s, round_s + 1.3, 0.0, 0.0)),
            ),
            Grown(dots, profile=((0.0, 0.5, 0.5), (1.0, 1.0, 1.0))),
        ),
        turns,
    )
    round_top = Still([Path(circle(0, 0, SCALE * HALF_MM), CAKE)])
    plate = Still([Path(circle(0, 0, TABLE), GREY)])

    def legs(camera: Callable[[Vector], Point], hand_deg: float) -> list[Layer]:
        made: list[Layer] = []
        for which in (0, 1):
            ends = tuple((time, (*camera(stand.hinge), *camera(stand[which]))) for time, stand in walk.stands)
            made.append(Rod(ends, LEGS))
        return [*made, Moved(held_stem(), tuple((time, camera(stand.hinge)) for time, stand in walk.stands), turn_deg=hand_deg)]

    def ruler(camera: Callable[[Vector], Point], deep: float) -> list[Item]:
        x, y = camera((rx - 3.0, ry, rz))
        wide = SCALE * 106.0
        items: list[Item] = [Path(rectangle(x, y - 0.6, wide, deep), Style(fill="#ecbf55", stroke="#8a6a1c", width_mm=0.4))]
        for k in range(11):
            at = x + SCALE * (3.0 + 10.0 * k)
            items.append(rule(at, y - 0.6, at, y - 0.6 + deep * (0.55 if k % 5 == 0 else 0.35), Style(stroke="#5c4326", width_mm=0.5)))
        return items

    (ax, ay), (fx, fy) = ABOVE_AT, FRONT_AT
    flat = (1.0, 0.0, 0.0, 1.0, ax, ay)
    above: list[Layer] = [
        Laid((plate, table, round_top, top), flat),
        Still(ruler(from_above, 8.0)),
        Moved(hand_on_rim(), _pulls(walk.turns, whole_s)),
        *legs(from_above, 40.0),
    ]
    low = fy - SCALE * UPRIGHT * RULER[2]
    r = SCALE * HALF_MM
    front: list[Layer] = [
        Laid((plate, table), (1.0, 0.0, 0.0, ASLANT, fx, low)),
        Still([Path((("M", fx - r, fy), *half_round(fx, low, r), ("L", fx + r, fy), ("Z",)), CAKE)]),
        Laid((round_top, top), (1.0, 0.0, 0.0, ASLANT, fx, fy)),
        Still(ruler(from_in_front, 5.0)),
        *legs(from_in_front, 14.0),
    ]

    pace = SIDE_MM / STEPS / each_s
    pressed: list[tuple[float, ...]] = [(0.0, 0.0)]
    for time, _ in walk.landed[STEPS:]:
        pressed += [(time, 0.0), (time + 0.08, 0.15), (time + 0.2, 0.15), (time + 0.28, 0.0)]
    hand = Hand(
        keys_of(*((time, SIDE_MM * degrees / 360.0, 0.0, 0.0) for time, degrees in walk.turns), (whole_s, SIDE_MM * walk.turns[-1][1] / 360.0, 0, 0)),
        keys_of(*pressed, (whole_s, 0.0)),
        ((0.0, (0.0, 1.0, 0.0)),),
        keys_of((0.0, 0.0), (one_s, pace), (round_s, 0.0), (again_s, pace), (closed_s, 0.0)),
        (
            ("set the points against a ruler", set_s),
            ("turn the back to you, rest one point on its middle", rest_s),
            ("swing the other forward: one", one_s),
            ("turn the cake, swing the first over: two", two_s),
            ("so on round, without a mark: six", round_s),
            ("it lands short: open by the error divided by the repeats", open_s),
            ("second round: prick each step lightly", prick_s),
            ("the last step meets the first mark", whole_s),
        ),
    )
    return Film(
        "walking the dividers",
        hand,
        (
            View(
                "From above",
                "The right hand stays in front and lets the dividers swing over between its fingers, while the left hand turns the cake by one step. "
                "In the second round there is a prick at each step.",
                above,
                HIGH,
            ),
            View(
                "From the front",
                "The same from the front, a little from above: one point rests on the edge, the other is lifted over to the next place.",
                front,
                HIGH,
            ),
        ),
        f"A cake {2 * HALF_MM / 10:.0f} cm wide in {STEPS} steps. Set {NARROW_MM:.0f} mm too narrow, the dividers end {short:.0f} mm short. "
        f"Opened to {right / 10:.0f} cm, they close.",
        (one_s + 0.5 * share * (two_s - one_s), round_s + 0.5, again_s + each_s * (2 + 0.5 * share), closed_s - 0.2, whole_s),
        force="Press",
    )


def half_round(x: float, y: float, radius: float, closed: bool = False) -> list[tuple[str | float, ...]]:
    """The near half of a round seen aslant, from its left end to its right one; closed, the whole of it."""
    turns = [math.tau * k / 16 for k in range(16 if closed else 9)]
    points = [(x - radius * math.cos(turn), y + ASLANT * radius * math.sin(turn)) for turn in turns]
    return list(smooth(points, closed=True)) if closed else [("L", *points[0]), *smooth(points)[1:]]


def _pulls(turns: Sequence[tuple[float, float]], end_s: float) -> Keys:
    """Keys of the left hand, which takes the rim along by no more than 72 degrees at once, and goes back for more."""
    first, reach = 34.0, TABLE + 1.0
    keys: list[tuple[float, tuple[float, ...]]] = []

    def at(time: float, degrees: float, off: float = 0.0) -> None:
        turn, far = math.radians(degrees), reach + off
        keys.append((time, (ABOVE_AT[0] - far * math.sin(turn), ABOVE_AT[1] + far * math.cos(turn), degrees * 0.6)))

    at(0.0, first, 4.0)
    for (t0, a), (t1, b) in zip(turns, turns[1:], strict=False):
        if b == a:
            continue
        count = math.ceil((b - a) / 72.0)
        for k in range(count):
            begin, end = (t0 + (t1 - t0) * (k + each) / count for each in (0.0, 0.7 if count > 1 else 1.0))
            gone = (b - a) * (end - begin) / (t1 - t0)
            for share in range(4):
                at(begin + (end - begin) * share / 3, first + gone * share / 3)
            if k < count - 1:
                at(end + 0.15 * (t1 - t0) / count, first + gone / 2, 5.0)
        at(t1 + 0.15, first + (b - a) / count / 2, 5.0)
        at(t1 + 0.3, first, 4.0)
    at(end_s, first, 6.0)
    return tuple(keys)


FILMS["walking the dividers"] = dividers
