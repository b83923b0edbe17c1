"""A moving picture of a hand at work: its time, its layers, and how it is written into a page.

Map
---
`Hand`, `hand_of`     where the tip is at every moment, how hard the hand squeezes, and the named segments; from the strokes a kind declares
`Camera`, `FRONT`, `ABOVE`, `SIDE`, `on_surface`   from the three directions of a hand to the two of a view
`Still`, `Moved`, `Grown`, `Wiped`, `Led`, `Thread`, `Rod`, `Sheet`, `Turning`, `Laid`   what a view is made of: what stands, what moves, what
                      grows piece by piece or from left to right, a line that appears along its way, a thread that hangs from the tip, a straight
                      rod between two places, a sheet whose corners move, layers that turn together, and layers seen aslant
`View`, `Film`        one view of it; two views on one clock, with five moments for paper
`markup`              the film as HTML: the views and their controls for the screen, the five moments for paper and for readers without scripts

`docs/assets/js/moving.js` plays it. A layer says in attributes what the script has to write: `data-of` names the attribute, the transform where
nothing is named; `data-keys` its keys (`keys_text`), or "squeeze", whose keys the figure has for all. The numbers take the places of those that
stand in the attribute, or of each # of `data-form`. A group with `data-grow` holds pieces that appear from one time to another (`data-t`) and grow
meanwhile. `moving_short` then writes all the films of a page in fewer characters.
"""

from __future__ import annotations

import math
import re
import zlib
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from calc.drawing.scene import GUIDE, Item, Matrix, Motif, Parts, Path, Point, Style, polygon, polyline, smooth
from calc.drawing.shading import strand_paths
from calc.drawing.svg import MARK, Pen, escape
from calc.page.html import Markup, element
from calc.rows.kind import RowSpec, Stroke, Vector

Keys = tuple[tuple[float, tuple[float, ...]], ...]
SHARED = "v"  # how the names begin of what all films of a page share
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

    def at_share(self, share: float) -> float:
        """The time at which that share of the way has been piped [s]."""
        ways = [
            (t0, t1, math.dist(a, b))
            for (t0, a), (t1, b) in zip(self.keys, self.keys[1:], strict=False)
            if value_at(self.squeeze, (t0 + t1) / 2)[0] > 0
        ]
        wanted = share * math.fsum(far for _, _, far in ways)
        for t0, t1, far in ways:
            if wanted <= far and far:
                return t0 + (t1 - t0) * wanted / far
            wanted -= far
        return ways[-1][1]


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
    """A thread whose shape changes: keys of its points, x and y by turns, and always as many."""

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


# --- writing ------------------------------------------------------------------------------------------------------------


def few(value: float) -> str:
    """A number to a tenth."""
    text = f"{value:.1f}"
    return text[:-2].replace("-0", "0") if text.endswith(".0") else text


def _coarser(body: str) -> str:
    """Paths to a tenth of a millimetre: a view is some 130 mm wide and seldom over 700 pixels."""

    def path(found: re.Match[str]) -> str:
        return re.sub(r"-?\d+\.\d\d", lambda number: few(float(number[0])), found[0])

    return re.sub(r' d="[^"]*"', path, body)


def _hundredths(time_s: float) -> str:
    return str(round(time_s * 100))


def thinned(keys: Keys, within: float = 0.06) -> Keys:
    """Leave out keys that lie straight between their neighbours."""
    kept = [keys[0]]
    for i in range(1, len(keys) - 1):
        (t0, a), (t1, b), (t2, c) = kept[-1], keys[i], keys[i + 1]
        if not t0 < t1 < t2:
            if (t1, b) != kept[-1]:
                kept.append(keys[i])
            continue
        share = (t1 - t0) / (t2 - t0)
        if any(abs(p + (r - p) * share - q) > within for p, q, r in zip(a, b, c, strict=True)):
            kept.append(keys[i])
    return (*kept, keys[-1]) if len(keys) > 1 else tuple(kept)


def keys_text(keys: Keys, parts: int = 10) -> str:
    """Times in hundredths of a second, each followed by its numbers in tenths; all as what they are more than those of the key before."""
    before = [0] * (len(keys[0][1]) + 1)
    text = []
    for time, values in keys:
        now = [round(time * 100), *(round(value * parts) for value in values)]
        text += [str(a - b) for a, b in zip(now, before, strict=True)]
        before = now
    return " ".join(text)


def _share(value: float) -> str:
    """A share to a hundredth."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _filled(form: str, values: Sequence[float]) -> str:
    for value in values:
        form = form.replace("#", few(value), 1)
    return form


def _matrix(m: Matrix) -> str:
    a, b, c, d, e, f = m
    return f"matrix({a:.3g} {b:.3g} {c:.3g} {d:.3g} {few(e)} {few(f)})"


def _offsets(shares: Keys) -> Keys:
    """How far a dash of 100 is moved back along a way of 100 so that it ends at a share of it; out of sight where nothing is there."""
    keys: list[tuple[float, tuple[float, ...]]] = []
    for k, (time, (share,)) in enumerate(shares):
        if share > 0:
            keys.append((time, (100.0 * (1.0 - share),)))
        elif k and shares[k - 1][1][0] > 0:
            keys += [(time, (100.0,)), (time + 0.01, (104.0,))]
        elif k + 1 < len(shares) and shares[k + 1][1][0] > 0:
            keys += [(max(time - 0.01, keys[-1][0]) if keys else time, (104.0,)), (time, (100.0,))]
        else:
            keys.append((time, (104.0,)))
    return tuple(keys)


class _Writer:
    """Writes a film: what several views and moments share is defined once."""

    def __init__(self, film: Film, on_page: set[str]) -> None:
        self.film = film
        self.pen = Pen()
        self.name = f"w{zlib.crc32(f'{film.name} {film.note}'.encode()):x}"
        self.shared: list[str] = []
        self.on_page = on_page

    def fresh(self, name: str) -> bool:
        """Whether nothing of that name stands on the page yet."""
        found = name not in self.on_page
        self.on_page.add(name)
        return found

    def drawn(self, items: Sequence[Item]) -> str:
        return "".join([self.pen.item(item) for item in items])

    def share(self, body: str) -> str:
        """Define something once for all films of a page, by a name that it alone has; gives how to use it."""
        body = _coarser(body)
        name = f"{SHARED}{zlib.crc32(body.encode()):x}"
        if self.fresh(name):
            self.shared.append(f'<g id="{name}">{body}</g>')
        return f'<use xlink:href="#{name}"'

    def definitions(self, shown: str) -> str:
        """What the film rests on and no film before it on the page has defined; not what only moments need at which it is out of the picture."""
        defs = "".join([text for name, text in self.pen.defs.items() if self.fresh(name)])
        used, kept = set(re.findall(r'#([^")]+)[")]', shown)), []
        for text in reversed(self.shared):
            name = text[text.index('"') + 1 :].partition('"')[0]
            if name in used:
                kept.append(text)
                used.update(re.findall(r'#([^")]+)[")]', text))
            else:
                self.on_page.discard(name)
        return (defs + "".join(reversed(kept))).replace(MARK, SHARED)

    def _set(self, attribute: str, form: str, keys: Keys, time: float) -> str:
        """An attribute as it is at a time, and its keys; where each of its numbers changes, the script reads its form from what is written."""
        keys = thinned(keys, 0.09)
        return f'{attribute}="{_filled(form, value_at(keys, time))}" data-of="{attribute}" data-keys="{keys_text(keys)}"'

    def squeezed(self, attribute: str, form: str, time: float) -> str:
        """An attribute that follows the squeeze, whose keys the figure has once for all."""
        value = form.replace("#", _share(value_at(self.film.hand.squeeze, time)[0]))
        told = f' data-form="{form}"' if form != "#" else ""
        return f'{attribute}="{value}" data-of="{attribute}"{told} data-keys="squeeze"'

    def view(self, number: int, view: View, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        """What moves on the screen, and what is seen of it at each moment."""
        stage: list[str] = []
        frames: list[list[str]] = [[] for _ in moments]
        for at, layer in enumerate(view.layers):
            key = f"{number}{at}"
            live, stills = getattr(self, f"_{type(layer).__name__.lower()}")(key, layer, poster, moments)
            stage.append(live)
            for frame, still in zip(frames, stills, strict=True):
                frame.append(still)
        return "".join(stage), ["".join(frame) for frame in frames]

    def _still(self, key: str, layer: Still, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        body = _coarser(self.drawn(layer.items))
        # words are written where they stand: a rule of the page that turns them back for the left hand does not reach what is used from elsewhere
        use = body if "<text" in body else self.share(body) + "/>"
        return use, ["" if layer.inset else use] * len(moments)

    def _moved(self, key: str, layer: Moved, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        turns = len(layer.keys[0][1]) == 3
        form = "translate(# #)rotate(#)" if turns else "translate(# #)"
        held = f"rotate({few(layer.turn_deg)})scale({layer.seen:.2f} 1)" if layer.turn_deg or layer.seen != 1.0 else ""
        body = self.share(self.drawn(layer.items)) + "/>" if layer.items else ""
        squeeze = self.film.hand.squeeze
        stills = []
        press = self.share(self.drawn(layer.pressed)) if layer.pressed else ""
        for moment in moments:
            faint = value_at(squeeze, moment)[0]
            marks = f'{press} opacity="{_share(faint)}"/>' if press and faint > 0.02 else ""
            at = value_at(layer.keys, moment)
            stills.append("" if at[0] >= GONE else f'<g transform="{_filled(form, at)}{held}">{body}{marks}</g>')
        inside = body + (f"{press} {self.squeezed('opacity', '#', poster)}/>" if press else "")
        inside = f'<g transform="{held}">{inside}</g>' if held else inside
        return f"<g {self._set('transform', form, layer.keys, poster)}>{inside}</g>", stills

    def _grown(self, key: str, layer: Grown, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        (ax, ay), live = layer.anchor, []
        sizes = tuple((share, (x, y)) for share, x, y in layer.profile)

        def grown(piece: Timed, time: float) -> str:
            along, across = value_at(sizes, (time - piece.begin_s) / (piece.end_s - piece.begin_s))
            size = f"scale({along:.2f} {across:.2f})"
            return f"translate({few(ax)} {few(ay)}){size}translate({few(-ax)} {few(-ay)})" if ax or ay else size

        parts: list[list[str]] = [[] for _ in moments]
        growing: list[list[str]] = [[] for _ in moments]
        for piece in layer.pieces:
            use = f'<use xlink:href="#{self.pen.motif(piece.motif)}"'
            a, b, c, d, e, f = piece.matrix
            matrix = _matrix(piece.matrix)
            shown = "" if piece.begin_s < poster else ' display="none"'
            now = grown(piece, poster) if piece.begin_s < poster < piece.end_s else ""
            live.append(f'{use} transform="{matrix}{now}" data-t="{_hundredths(piece.begin_s)} {_hundredths(piece.end_s)}"{shown}/>')
            for k, moment in enumerate(moments):
                if piece.end_s <= moment and not (k and piece.end_s <= moments[k - 1]):
                    parts[k].append(f'{use} transform="{matrix}"/>')
                elif piece.begin_s < moment < piece.end_s:
                    along, across = value_at(sizes, (moment - piece.begin_s) / (piece.end_s - piece.begin_s))
                    u, v = ax * (1.0 - along), ay * (1.0 - across)  # so that the anchor stays
                    m = (a * along, b * along, c * across, d * across, a * u + c * v + e, b * u + d * v + f)
                    growing[k].append(f'{use} transform="{_matrix(m)}"/>')
        before, stills = "", []
        for k, part in enumerate(parts):
            if part:
                before = self.share(before + "".join(part)) + "/>"
            stills.append(before + "".join(growing[k]))
        profile = " ".join(f"{part:.3g}" for row in layer.profile for part in row)
        return f'<g data-grow="{few(ax)} {few(ay)} {profile}">{"".join(live)}</g>', stills

    def _inner(self, key: str, layers: Sequence[Layer], poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        """Layers that belong together."""
        live, stills = "", [""] * len(moments)
        for at, inner in enumerate(layers):
            moving, standing = getattr(self, f"_{type(inner).__name__.lower()}")(f"{key}t{at}", inner, poster, moments)
            live += moving
            stills = [before + still for before, still in zip(stills, standing, strict=True)]
        return live, stills

    def _laid(self, key: str, layer: Laid, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        live, stills = self._inner(key, layer.layers, poster, moments)
        through = f'<g transform="{_matrix(layer.matrix)}">'
        return f"{through}{live}</g>", [f"{through}{still}</g>" for still in stills]

    def _turning(self, key: str, layer: Turning, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        form = "translate(# #)rotate(#)"
        live, stills = self._inner(key, layer.layers, poster, moments)
        places = [value_at(layer.keys, moment) for moment in moments]
        turned = ["" if at[0] >= GONE else f'<g transform="{_filled(form, at)}">{still}</g>' for at, still in zip(places, stills, strict=True)]
        return f"<g {self._set('transform', form, layer.keys, poster)}>{live}</g>", turned

    def _wiped(self, key: str, layer: Wiped, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        use = self.share(self.drawn(layer.items)) + "/>"

        def cut(name: str, inside: str) -> str:
            return f'<clipPath id="{self.name}{name}"><rect x="-20" y="-20" height="200" {inside}/></clipPath>'

        keys = tuple((time, (x + 20.0,)) for time, (x,) in layer.keys)
        stills = []
        for k, moment in enumerate(moments):
            self.shared.append(cut(f"{key}c{k}", f'width="{few(value_at(keys, moment)[0])}"'))
            stills.append(f'<g clip-path="url(#{self.name}{key}c{k})">{use}</g>')
        live = cut(f"{key}c", self._set("width", "#", keys, poster))
        return f'{live}<g clip-path="url(#{self.name}{key}c)">{use}</g>', stills

    def _led(self, key: str, layer: Led, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        """A dash as long as the whole way is moved along it; before the beginning nothing of it is seen, not even its round end."""
        keys = _offsets(layer.keys)
        dashed = 'stroke-dasharray="100 220"'

        def measured(items: Sequence[Item]) -> str:
            return self.drawn(items).replace("<path ", '<path pathLength="100" ')

        def offset(time: float) -> str:
            return f'stroke-dashoffset="{few(value_at(keys, time)[0])}"'

        if not layer.way:
            use = self.share(measured(layer.items)) + "/>"
            stills = [f"<g {dashed} {offset(moment)}>{use}</g>" for moment in moments]
            return f"<g {dashed} {self._set('stroke-dashoffset', '#', keys, poster)}>{use}</g>", stills
        use = self.share(self.drawn(layer.items)) + "/>"
        line = self.share(measured([Path(smooth(layer.way), Style(stroke="#ffffff", width_mm=layer.wide_mm, cap="butt"))])) + "/>"

        def mask(name: str, set_to: str) -> str:
            return f'<mask id="{self.name}{name}"><g {dashed} {set_to}>{line}</g></mask>'

        stills = []
        for k, moment in enumerate(moments):
            self.shared.append(mask(f"{key}m{k}", offset(moment)))
            stills.append(f'<g mask="url(#{self.name}{key}m{k})">{use}</g>')
        live = mask(f"{key}m", self._set("stroke-dashoffset", "#", keys, poster))
        return f'{live}<g mask="url(#{self.name}{key}m)">{use}</g>', stills

    def _thread(self, key: str, layer: Thread, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        def points(values: Sequence[float]) -> list[Point]:
            return list(zip(values[::2], values[1::2], strict=True))

        def parts(values: Sequence[float]) -> Parts:
            return smooth(points(values))

        strands = [item for item in strand_paths([(0.0, 0.0), (1.0, 0.0)], layer.width_mm, "smooth", layer.colour) if isinstance(item, Path)]
        form = "".join(f"{part[0]}{' '.join('#' * (len(part) - 1))}" for part in parts(layer.keys[0][1]))
        keys = tuple((time, tuple(float(v) for part in parts(values) for v in part[1:])) for time, values in layer.keys)
        laid = [(f' transform="translate({part.parts[0][1]:.2f} {part.parts[0][2]:.2f})"', part.style) for part in strands]
        return self._along(key, form, keys, laid, poster, moments)

    def _rod(self, key: str, layer: Rod, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        return self._along(key, "M# #L# #", layer.keys, [("", style) for style in layer.strokes], poster, moments)

    def _sheet(self, key: str, layer: Sheet, poster: float, moments: Sequence[float]) -> tuple[str, list[str]]:
        form = f"M{'L'.join(['# #'] * (len(layer.keys[0][1]) // 2))}Z"
        paint = f'fill="{layer.style.fill}" stroke="{layer.style.stroke}" stroke-width="{layer.style.width_mm:.2f}"'
        stills = [f'<path {paint} d="{_filled(form, value_at(layer.keys, moment))}"/>' for moment in moments]
        return f"<path {paint} {self._set('d', form, layer.keys, poster)}/>", stills

    def _along(
        self, key: str, form: str, keys: Keys, strands: Sequence[tuple[str, Style]], poster: float, moments: Sequence[float]
    ) -> tuple[str, list[str]]:
        """A line whose shape changes, drawn once for each strand, moved and coloured."""

        def laid(use: str) -> str:
            each = "".join(f'{use}{moved} stroke="{style.stroke}" stroke-width="{style.width_mm:.2f}"/>' for moved, style in strands)
            return f'<g fill="none" stroke-linecap="round">{each}</g>'

        path = f'<defs><path id="{self.name}{key}d" {self._set("d", form, keys, poster)}/></defs>'
        live = path + laid(f'<use xlink:href="#{self.name}{key}d"')
        stills = []
        for moment in moments:
            begun = moment > keys[0][0]
            stills.append(self.share(laid(self.share(f'<path d="{_filled(form, value_at(keys, moment))}"/>'))) + "/>" if begun else "")
        return live, stills


def _svg(view: View, body: str, name: str = "") -> Markup:
    """One view; with a name its title and its words are told."""
    said = f'role="img" aria-labelledby="{name}t {name}d"' if name else 'aria-hidden="true"'
    told = f'<title id="{name}t">{escape(view.title)}</title><desc id="{name}d">{escape(view.words)}</desc>' if name else ""
    box = f"0 0 {few(view.wide_mm)} {few(view.high_mm)}"
    return Markup(f'<svg viewBox="{box}" {said}>{told}{body}</svg>')


KEYS = (("play", "Play"), ("step", "Next step"), ("slow", "Half speed"), ("again", "Again"))


def markup(film: Film, on_page: set[str] | None = None) -> Markup:
    """Write a film into a page; `on_page` are the names of what its films share, and takes those that this one adds."""
    hand, moments = film.hand, film.moments
    poster = moments[2]
    writer = _Writer(film, set() if on_page is None else on_page)
    views = [writer.view(number, view, poster, moments) for number, view in enumerate(film.views)]
    defs = writer.definitions("".join(stage + "".join(stills) for stage, stills in views))

    def named(text: str) -> Markup:
        return Markup(text.replace(MARK, SHARED))

    panels = [
        element("div", {"class": "pb-moving-view"}, _svg(view, named(stage), f"{writer.name}s{k}"), element("p", {"aria-hidden": "true"}, view.title))
        for k, (view, (stage, _)) in enumerate(zip(film.views, views, strict=True))
    ]
    frames = []
    for k, moment in enumerate(moments):
        at = min(sum(end < moment - 1e-6 for _, end in hand.segments), len(hand.segments) - 1)
        squeeze = round(100 * value_at(hand.squeeze, moment)[0])
        said = f"{k + 1}. {hand.segments[at][0]}: {moment:.1f} s"
        if film.squeezes:
            said += f", {film.force.lower()} {squeeze} %" if squeeze else f", no {film.force.lower()}"
        shown = [_svg(view, named(stills[k])) for view, (_, stills) in zip(film.views, views, strict=True)]
        frames.append(element("li", {}, *shown, element("p", {}, said)))
    squeeze_bar = None
    if film.squeezes:
        bar = f'<rect width="100" height="10" {writer.squeezed("transform", "scale(# 1)", poster)}/>'
        svg = Markup(f'<svg class="pb-moving-bar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">{bar}</svg>')
        squeeze_bar = element("p", {"class": "pb-moving-squeeze"}, element("span", {}, film.force), svg)
    follows = squeeze_bar or any('data-keys="squeeze"' in stage for stage, _ in views)
    return element(
        "figure",
        {
            "class": "pb-moving pb-drawing",
            "data-search-exclude": True,
            "data-segments": "|".join(f"{_hundredths(end)} {name}" for name, end in hand.segments),
            "data-squeeze": keys_text(thinned(hand.squeeze, 0.004), 100) if follows else None,
            "data-speed": keys_text(tuple((time, (speed / 10,)) for time, (speed,) in hand.speed)),
        },
        element("figcaption", {}, element("strong", {}, "Watch it: "), film.note),
        Markup(f'<svg class="pb-moving-parts" width="0" height="0" aria-hidden="true"><defs>{defs}</defs></svg>'),
        element(
            "div",
            {"class": "pb-moving-stage"},
            element("div", {"class": "pb-moving-views", "data-turns": True}, *panels),
            element(
                "div",
                {"class": "pb-moving-said" if squeeze_bar else "pb-moving-said pb-moving-light"},
                element("p", {"class": "pb-moving-step", "aria-live": "polite"}, f"{len(set(name for name, _ in hand.segments))} steps"),
                squeeze_bar,
                element("p", {"class": "pb-moving-speed"}, ""),
            ),
            element(
                "div",
                {"class": "pb-moving-keys", "role": "group", "aria-label": f"Moving picture: {film.name}"},
                *(
                    element(
                        "button", {"type": "button", "class": "pb-button", "data-do": key, "aria-pressed": "false" if key == "slow" else None}, words
                    )
                    for key, words in KEYS
                ),
            ),
        ),
        element("ol", {"class": "pb-moving-strip", "data-turns": True}, *frames),
    )
