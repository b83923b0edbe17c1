"""A moving picture of a hand at work: its time and its layers.

Map
---
`Hand`, `hand_of`     where the tip is at every moment, how hard the hand squeezes, and the named segments; from the strokes a kind declares
`Camera`, `FRONT`, `ABOVE`, `SIDE`, `on_surface`   from the three directions of a hand to the two of a view
`Still`, `Moved`, `Grown`, `Wiped`, `Led`, `Thread`, `Rod`, `Sheet`, `Turning`, `Laid`   what a view is made of: what stands, what moves, what
                      grows piece by piece or from left to right, a line that appears along its way, a thread that hangs from the tip, a straight
                      rod between two places, a sheet whose corners move, layers that turn together, and layers seen aslant
`View`, `Film`        one view of it; two views on one clock, with five moments for paper
`pressing`, `press_marks`, `leading`   arrows: where a hand presses, and the way that it goes
`during`, `crossing`, `projected`, `seen_along`   keys and axes of what is seen for a time, rocks across a line, or follows the tip

`moving_markup` writes a film into a page.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from calc.drawing.scene import GUIDE, Item, Matrix, Motif, Path, Point, Style, polygon, polyline, smooth
from calc.rows.kind import RowSpec, Stroke, Vector

Keys = tuple[tuple[float, tuple[float, ...]], ...]
GONE = 300.0  # a hand that is kept there is not in the picture
LIGHT = 0.2  # a squeeze up to this is the touch of a pencil or of a point: no bar is shown for it
AWAY_MM = 14.0  # from here the tip comes before it touches, and here it goes when it has stopped


# --- time ---------------------------------------------------------------------------------------------------------------


def value_at(keys: Keys, time_s: float) -> tuple[float, ...]:
    """The numbers of a list of keys at a time, straight from one key to the next; of two keys at one time, the earlier."""
    i = bisect_left([time for time, _ in keys], time_s)
    if i == 0:
        return keys[0][1]
    if i == len(keys):
        return keys[-1][1]
    (t0, a), (t1, b) = keys[i - 1], keys[i]
    share = (time_s - t0) / (t1 - t0)
    return tuple(p + (q - p) * share for p, q in zip(a, b, strict=True))


@dataclass(frozen=True)
class Hand:
    """Where a tip is at every moment.

    `keys` are times [s] with the place of the tip (along, down the surface, off it) [mm]; `squeeze` times with the squeeze from 0 to 1; `faces` times
    with the direction in which the buttercream leaves the tip; `speed` times with the speed from there on [mm/s]. `segments` are names with the time
    at which each ends.
    """

    keys: Keys
    squeeze: Keys
    faces: Keys
    speed: Keys
    segments: tuple[tuple[str, float], ...]

    @property
    def time_s(self) -> float:
        """How long it takes [s]."""
        return self.segments[-1][1]

    def at(self, time_s: float) -> Vector:
        """Where the tip is [mm]."""
        x, y, z = value_at(self.keys, time_s)
        return x, y, z

    def begins(self, segment: int) -> float:
        """When a segment begins [s]."""
        return self.segments[segment - 1][1] if segment else 0.0

    def moment(self, segment: int, share: float) -> float:
        """A time within a segment [s]."""
        begin = self.begins(segment)
        return begin + (self.segments[segment][1] - begin) * share

    def passes(self, along_mm: float) -> float:
        """The first time at which the tip has come so far along the row while the hand squeezes; the end of the squeeze where it never does [s]."""
        end = max(t1 for (_, (a,)), (t1, (b,)) in zip(self.squeeze, self.squeeze[1:], strict=False) if a > 0 or b > 0)
        for (t0, (x0, *_)), (t1, (x1, *_)) in zip(self.keys, self.keys[1:], strict=False):
            if x1 >= along_mm and value_at(self.squeeze, (t0 + t1) / 2)[0] > 0:
                return t0 + (t1 - t0) * max(0.0, (along_mm - x0) / (x1 - x0)) if x1 > x0 else t0
        return end


def hand_of(strokes: Sequence[Stroke], times: int = 1, step: Vector = (0.0, 0.0, 0.0), by_turns: bool = False) -> Hand:
    """Give the path of the hand in time, as its strokes declare it, `times` over, each a step further.

    `by_turns` every other one lies the other way up. The time for which a hand stays at the first stroke is spent on coming to the surface and on
    beginning to squeeze; at the last, on stopping and then on going away; at any other the tip rests.
    """
    keys: list[tuple[float, tuple[float, ...]]] = []
    squeeze: list[tuple[float, tuple[float, ...]]] = []
    faces: list[tuple[float, tuple[float, ...]]] = []
    speed: list[tuple[float, tuple[float, ...]]] = []
    segments: list[tuple[str, float]] = []
    t = 0.0
    for turn in range(times):
        move = [turn * part for part in step]
        for number, stroke in enumerate(strokes):
            way = -1.0 if by_turns and turn % 2 else 1.0
            points = [(x + move[0], way * y + move[1], z + move[2]) for x, y, z in stroke.points]
            away = [tuple(p - AWAY_MM * f for p, f in zip(point, stroke.faces, strict=True)) for point in (points[0], points[-1])]
            begin, end = stroke.squeeze[0], stroke.squeeze[-1]
            still, first, last = stroke.still_s, number == 0, number == len(strokes) - 1
            travel = stroke.time_s - still
            faces += [(t, stroke.faces), (t + stroke.time_s, stroke.faces)]
            start = t
            if still and first:
                keys += [(t, away[0]), (t + 0.4 * still, points[0])]
                squeeze += [(t, (0.0,)), (t + 0.45 * still, (0.0,))]
                speed += [(t, (AWAY_MM / (0.4 * still),)), (t + 0.4 * still, (0.0,))]
                squeeze += [(t + still, (begin,))] if travel else [(t + 0.5 * still, (begin,)), (t + still, (end,))]
                start += still
            if travel or not (still and (first or last)):
                count = len(stroke.squeeze) - 1
                squeeze += [(start + travel * k / count, (value,)) for k, value in enumerate(stroke.squeeze)]
            keys.append((start, points[0]))
            if travel:
                speed.append((start, (stroke.speed_mm_per_s,)))
                far = 0.0
                for a, b in zip(points, points[1:], strict=False):
                    far += math.dist(a, b)
                    keys.append((start + far / stroke.speed_mm_per_s, b))
            start += travel
            if still and last and not first:
                squeeze += [] if travel else [(start, (begin,))]
                squeeze += [(start + 0.3 * still, (0.0,)), (start + still, (0.0,))]
                keys += [(start + 0.5 * still, points[-1]), (start + still, away[1])]
                speed += [(start, (0.0,)), (start + 0.5 * still, (AWAY_MM / (0.5 * still),))]
            elif still and not first:
                keys.append((start + still, points[-1]))
                squeeze.append((start + still, (end,)))
                speed.append((start, (0.0,)))
            t += stroke.time_s
            segments.append((stroke.name, t))
    return Hand(tuple(keys), tuple(squeeze), tuple(faces), tuple(speed), tuple(segments))


# --- views --------------------------------------------------------------------------------------------------------------

Camera = Callable[[Vector], Point]
_HALF = math.sqrt(0.5)


def on_surface(surface: str, place: Vector) -> Vector:
    """From the directions of a hand (along, down the surface, off it) to those of the room: along, down, towards the worker."""
    along, down, off = place
    if surface == "base":  # on the board, or on a top: off it is up
        return along, -off, down
    if surface == "edge":  # a surface half-way between the top and the side
        return along, (down - off) * _HALF, (down + off) * _HALF
    return along, down, off


def FRONT(place: Vector) -> Point:
    """Seen from in front, a little from the left and from above, so that what comes towards the worker moves down to the right."""
    along, down, near = place
    return along + 0.25 * near, down + 0.3 * near


def ABOVE(place: Vector) -> Point:
    """Seen from above, the worker below."""
    return place[0], place[2]


def SIDE(place: Vector) -> Point:
    """Seen from the side, the cake to the left and the worker to the right."""
    return place[2], place[1]


# --- layers -------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Still:
    """What stands; an inset is on the screen only."""

    items: Sequence[Item]
    inset: bool = False


@dataclass(frozen=True)
class Moved:
    """What moves: drawn about (0, 0), with keys of x and y, and of a turn [deg] as a third number where it turns.

    Before that it is turned by `turn_deg`, and `seen` of its length is seen. `pressed` is drawn over it as strongly as the hand squeezes. What is
    drawn alike in two views, as a bag is, is written once.
    """

    items: Sequence[Item]
    keys: Keys
    pressed: Sequence[Item] = ()
    turn_deg: float = 0.0
    seen: float = 1.0


@dataclass(frozen=True)
class Timed:
    """A piece through a matrix, which appears at one time and is whole at another [s]."""

    motif: Motif
    matrix: Matrix
    begin_s: float
    end_s: float


@dataclass(frozen=True)
class Grown:
    """Pieces that grow, each from its anchor: `profile` says how long and how high it is at shares of its time."""

    pieces: Sequence[Timed]
    anchor: Point = (0.0, 0.0)
    profile: tuple[tuple[float, float, float], ...] = ((0.0, 0.3, 0.3), (1.0, 1.0, 1.0))


@dataclass(frozen=True)
class Wiped:
    """What appears from left to right: keys of the x up to which it is there."""

    items: Sequence[Item]
    keys: Keys


@dataclass(frozen=True)
class Led:
    """What appears along a way, from its beginning: keys of the share of the way up to which it is there.

    Strokes that all follow the way appear as they are; anything else, wide and high, is seen through a stroke along `way`, `wide_mm` wide.
    """

    items: Sequence[Item]
    keys: Keys
    way: Sequence[Point] = ()
    wide_mm: float = 0.0


@dataclass(frozen=True)
class Thread:
    """A thread whose shape changes: keys of its points, x and y alternating, always the same number."""

    keys: Keys
    width_mm: float
    colour: str


@dataclass(frozen=True)
class Rod:
    """A straight rod from one place to another, as long as it is seen: keys of x and y of both ends; `strokes` from the broadest to the finest."""

    keys: Keys
    strokes: tuple[Style, ...]


@dataclass(frozen=True)
class Sheet:
    """A sheet whose corners move, as a flap of paper that is folded over: keys of their x and y by turns."""

    keys: Keys
    style: Style


@dataclass(frozen=True)
class Turning:
    """Layers that are moved and turned together, as all that stands on a nail: drawn about (0, 0), with keys of x, y and a turn [deg]."""

    layers: Sequence[Layer]
    keys: Keys


@dataclass(frozen=True)
class Laid:
    """Layers seen through a matrix that stays, as a round that turns is seen aslant."""

    layers: Sequence[Layer]
    matrix: Matrix


Layer = Still | Moved | Grown | Wiped | Led | Thread | Rod | Sheet | Turning | Laid


@dataclass(frozen=True)
class View:
    """One view: where it is seen from, what it shows in words, its size [mm], and its layers from the back to the front."""

    title: str
    words: str
    layers: Sequence[Layer]
    high_mm: float = 76.0
    wide_mm: float = 130.0


@dataclass(frozen=True)
class Film:
    """Two views of one hand, and a line that says what is shown; `frames` are the five moments that stand for it on paper [s].

    What the hand does with its force is called a squeeze, unless `force` says otherwise; a film whose hand only ever touches has no bar for it.
    Of a row it says which is piped, and how many pieces one after the other.
    """

    name: str
    hand: Hand
    views: tuple[View, ...]
    note: str
    frames: tuple[float, ...] = ()
    spec: RowSpec | None = None
    pieces: int = 1
    force: str = "Squeeze"

    @property
    def squeezes(self) -> bool:
        """Whether anything in it is squeezed or pressed."""
        return max(share for _, (share,) in self.hand.squeeze) > LIGHT

    @property
    def moments(self) -> tuple[float, ...]:
        """Five moments: as given, or one in the first segment, two in the longest, one as the last begins, and the end."""
        if self.frames:
            return self.frames
        hand, last = self.hand, len(self.hand.segments) - 1
        return (hand.moment(0, 0.97), hand.moment(1, 0.35), hand.moment(1, 0.75), hand.moment(last, 0.35), hand.time_s)


# --- arrows and keys ----------------------------------------------------------------------------------------------------


def pressing(along: float, point: float, put: Callable[[float, float], Point] = lambda u, v: (u, v)) -> list[Item]:
    """An arrow with a shaft, across a bag that lies along u, and with its point there: a head alone points three ways at once."""
    way = math.copysign(1.0, point)
    half = [(0.0, 0.0), (3.9, 6.2), (1.5, 6.2), (1.5, 11.5)]
    outline = [(along + u, point + v * way) for u, v in half] + [(along - u, point + v * way) for u, v in reversed(half[1:])]
    return [Path(polygon([put(u, v) for u, v in outline]), Style(fill=GUIDE, stroke="#fffaf0", width_mm=0.8))]


def press_marks(across_mm: float = 15.0, at_mm: float = 47.0) -> list[Item]:
    """Two arrows that press from both sides on a bag which lies along x, where the palm is."""
    return [each for side in (1.0, -1.0) for each in pressing(at_mm, across_mm * 0.62 * side)]


HEAD_MM = 4.6  # how long the head of such an arrow is


def leading(way: Sequence[Point], both: bool = False, width_mm: float = 1.3) -> list[Item]:
    """An arrow along the way that a hand or a tip goes, on a light rim; with a head at each end where it goes to and fro."""
    ends = []
    line = list(way)
    for first in (False, True) if both else (False,):
        if first:
            line.reverse()
        (px, py), (x, y) = line[-2:]
        far = math.dist((px, py), (x, y))
        u, v = (x - px) / far, (y - py) / far
        back, half = (x - HEAD_MM * u, y - HEAD_MM * v), HEAD_MM * 0.48
        ends.append(polygon([(x, y), (back[0] - half * v, back[1] + half * u), (back[0] + half * v, back[1] - half * u)]))
        line[-1] = (x - 0.8 * HEAD_MM * u, y - 0.8 * HEAD_MM * v)  # the line ends within its head
        if first:
            line.reverse()
    along = smooth(line) if len(line) > 2 else polyline(line)
    heads = tuple(part for end in ends for part in end)
    return [
        Path((*along, *heads), Style(stroke="#fffaf0", width_mm=width_mm + 1.4)),
        Path(along, Style(stroke=GUIDE, width_mm=width_mm)),
        Path(heads, Style(fill=GUIDE)),
    ]


def during(*spans: tuple[float, float, float, float]) -> Keys:
    """Keys of something that is seen from one time to another only, at a place for each: begin, end, x, y."""
    keys: list[tuple[float, tuple[float, ...]]] = [] if spans[0][0] <= 0 else [(0.0, (GONE + 100.0, 0.0))]
    for begin, end, x, y in spans:
        keys += [(begin, (GONE + 100.0, 0.0))] if begin > 0 else []
        keys += [(begin + 0.01 if begin > 0 else 0.0, (x, y)), (end, (x, y)), (end + 0.01, (GONE + 100.0, 0.0))]
    return tuple(keys)


def crossing(hand: Hand, surface: str, camera: Camera, origin: Point, ahead_mm: float) -> Keys:
    """Keys of a mark before a tip that is rocked to and fro: x, y and a turn, so that what lies along x lies as its strokes cross the line."""
    squeezed = [time for time, (squeeze,) in hand.squeeze if squeeze > 0]
    at = [
        (time, camera(on_surface(surface, (place[0], place[1], place[2]))))
        for time, place in hand.keys
        if squeezed[0] <= time <= squeezed[-1] and place[2] < 1.0
    ]
    ends = [at[0], *(b for a, b in zip(at, at[1:], strict=False) if math.dist(a[1], b[1]) > 1.0)]
    found: list[tuple[float, tuple[float, ...]]] = []
    for (_, a), (time, b), (_, c) in zip(ends, ends[1:], ends[2:], strict=False):
        to, fro = ((q[0] - p[0], q[1] - p[1]) for p, q in ((a, b), (b, c)))
        x, y = to[0] / math.hypot(*to) - fro[0] / math.hypot(*fro), to[1] / math.hypot(*to) - fro[1] / math.hypot(*fro)
        if y < 0:
            x, y = -x, -y
        turn = math.atan2(y, x)
        middle = ((a[0] + 2 * b[0] + c[0]) / 4, (a[1] + 2 * b[1] + c[1]) / 4)
        place = (origin[0] + middle[0] + ahead_mm * math.sin(turn), origin[1] + middle[1] - ahead_mm * math.cos(turn))
        found.append((time, (*place, math.degrees(turn))))
    found = found[1:]  # the first stroke is half a one
    few = found[:: max(1, len(found) // 8)]
    return (*few, found[-1]) if few[-1] != found[-1] else tuple(few)


def projected(hand: Hand, surface: str, camera: Camera, origin: Point, rest: Point = (0.0, 0.0)) -> Keys:
    """Keys of x and y of the tip in a view; `rest` is how far the middle of its mouth is from the place that it touches."""
    keys = []
    for time, place in hand.keys:
        x, y = camera(on_surface(surface, (place[0], place[1], place[2])))
        keys.append((time, (origin[0] + x + rest[0], origin[1] + y + rest[1])))
    return tuple(keys)


def seen_along(faces: Vector, surface: str, camera: Camera, lean: Vector = (0.0, 0.0, 0.0)) -> Point:
    """The axis of a bag in a view, from its tip: as long as it is seen of a length of 1. It leans in the room, as a hand hangs from its elbow."""
    back = on_surface(surface, (-faces[0], -faces[1], -faces[2]))
    axis = [b + part for b, part in zip(back, lean, strict=True)]
    long = math.hypot(*axis)
    return camera((axis[0] / long, axis[1] / long, axis[2] / long))
