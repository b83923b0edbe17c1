"""The moving pictures of lines: scrolls, a line that falls on a row below it, a line that wanders over a ground.

`FILMS`: name -> function of a tip and a colour, giving a `Film`. Scrolls and lines go by the strokes of their kind; vermicelli is a line of the kind
"line" led through the places of `calc.drawing.wander`, as fast as that kind is piped.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial

from calc.colours import PALETTE
from calc.drawing.motifs import LOOKS, strand_paths
from calc.drawing.scene import GUIDE_DASH, Item, Motif, Parts, Path, Point, Style, Use, ellipse, polyline, smooth
from calc.drawing.shading import stroke, tone
from calc.drawing.wander import wander_points
from calc.rows import KINDS, RowSpec
from calc.rows.kind import INTO, Stroke, Vector
from calc.rows.kinds.line import KIND as LINE_ROW
from calc.tips import Tip
from tools.films.moving import (
    ABOVE,
    FRONT,
    SIDE,
    Film,
    Grown,
    Hand,
    Keys,
    Layer,
    Led,
    Still,
    Thread,
    Timed,
    View,
    hand_of,
    projected,
    value_at,
)
from tools.films.moving_hands import HIGH, SIDE_WALL, straight, wall_beside
from tools.films.moving_rows import ABOVE_HIGH, FILM_WIDE, bag, ground, ground_above, on_end

FILMS: dict[str, Callable[[Tip, str], Film]] = {}


def way_of(hand: Hand) -> tuple[list[Vector], Keys]:
    """The places of a line as the hand lays them down, and at each time the share of its length that lies there."""
    points: list[Vector] = []
    far, keys = 0.0, []
    begins, ends = hand.begins(0), hand.segments[-1][1]
    squeezed = [time for time, (squeeze,) in hand.squeeze if squeeze > 0]
    for time, place in hand.keys:
        if not squeezed[0] - 1e-9 <= time <= squeezed[-1] + 1e-9:
            continue
        at: Vector = (place[0], place[1], place[2])
        far += math.dist(points[-1], at) if points else 0.0
        if not points or math.dist(points[-1], at) > 1e-6:
            points.append(at)
        keys.append((time, far))
    shares = tuple((time, (gone / far,)) for time, gone in keys)
    return points, ((begins, (0.0,)), *shares, (ends, (1.0,)))


# --- scrolls --------------------------------------------------------------------------------------------------------------


def scrolled(name: str, tip: Tip, colour: str) -> Film:
    """A scroll from curl to curl: as thick everywhere as the hand squeezes there."""
    kind, look = KINDS[name], LOOKS[name]
    wide, drop = look.repeat_mm * 0.78, look.drop_mm
    spec = RowSpec(name, tip, run_mm=wide, drop_mm=drop)
    hand = hand_of(kind.strokes(spec))
    first, line, bead = 27.0, look.line_mm - (4.0 if kind.rises else 0.0), tip.bead_width_mm
    points, shares = way_of(hand)
    when = [next(time for time, (share,) in shares if share >= gone - 1e-9) for gone in _gone(points)]
    full = [0.3 + 0.7 * value_at(hand.squeeze, time)[0] for time in when]
    full[0] = full[1]

    keep = sorted({*range(0, len(points), 4), len(points) - 1})
    tones = stroke([(points[k][0] * 10, points[k][1] * 10) for k in keep], bead * 13, colour, [full[k] for k in keep])
    whole = Motif(f"{name} {colour}", tuple(part._replace(parts=in_whole_numbers(part.parts)) for part in tones))  # drawn ten times as large

    def drawn(left: float) -> Item:
        return Use(whole, (0.1, 0.0, 0.0, 0.1, left, line))

    centre = [(first + x, line + y) for x, y, _ in points]
    before = [(x - look.repeat_mm, y) for x, y in centre]
    shade = Path(smooth([(x + bead * 0.2, y + bead * 0.4) for x, y in centre[::4]]), Style(stroke="#5a2f1e", width_mm=bead * 0.8, opacity=0.16))
    front: list[Layer] = [
        Still([*ground(look.surface), drawn(first - look.repeat_mm), Path(smooth(centre[::4]), GUIDE_DASH)]),
        Led([shade, drawn(first)], shares, centre[::4], bead * 1.5),
        bag(hand, tip, look.surface, FRONT, (first, line)),
    ]
    wall = 33.0
    flat, over = _from_above([x for x, _ in centre], when, shares)
    reach = [x for x, _ in before]
    done = strand_paths([(min(reach), wall + bead * 0.5), (max(reach), wall + bead * 0.5)], bead * 1.1, "ridged", colour)
    above: list[Layer] = [
        Still([*done, *ground_above(wall)]),
        Led(to_and_fro(flat, wall + bead * 0.5, bead * 1.1, colour), over),
        bag(hand, tip, look.surface, ABOVE, (first, wall), (0.0, bead * 0.5)),
    ]
    return Film(
        name,
        hand,
        (
            View("From the front", f"{kind.title}, seen from the front. {kind.hand}", front),
            View("From above", f"The same from above: {kind.held(tip.family)}.", above, ABOVE_HIGH),
        ),
        f"One {name} {wide / 10:.1f} cm wide, tip {tip.name}, in {hand.time_s:.0f} seconds.",
        (hand.moment(0, 0.9), hand.moment(1, 0.25), hand.moment(1, 0.75), hand.moment(2, 0.4), hand.time_s),
        spec,
    )


def _from_above(along: Sequence[float], when: Sequence[float], shares: Keys) -> tuple[list[float], Keys]:
    """A line that goes to and fro along the side: the places where it turns, and at each time the share of its length as it is seen from there."""
    far = [0.0]
    for a, b in zip(along, along[1:], strict=False):
        far.append(far[-1] + abs(b - a))
    turns = [b for a, b, c in zip(along, along[1:], along[2:], strict=False) if (b - a) * (c - b) < 0]
    before = tuple(key for key in shares if key[1][0] <= 0)
    keys = tuple((time, (gone / far[-1],)) for time, gone in zip(when, far, strict=True) if gone > 0)
    return [along[0], *turns, along[-1]], (*before, *keys, shares[-1])


def to_and_fro(along: Sequence[float], level: float, width_mm: float, colour: str) -> list[Item]:
    """A ridged line at one level, straight from each of its turns to the next."""
    bands = [item for item in strand_paths([(0.0, 0.0), (1.0, 0.0)], width_mm, "ridged", colour) if isinstance(item, Path)]
    return [Path(polyline([(x + float(band.parts[0][1]), level + float(band.parts[0][2])) for x in along]), band.style) for band in bands]


def in_whole_numbers(parts: Parts) -> Parts:
    """The parts of a path in whole numbers."""
    return tuple((part[0], *(round(float(v)) for v in part[1:])) for part in parts)


def _gone(points: Sequence[Vector]) -> list[float]:
    """The share of a way that is behind each of its places."""
    far = [0.0]
    for a, b in zip(points, points[1:], strict=False):
        far.append(far[-1] + math.dist(a, b))
    return [part / far[-1] for part in far]


for _kind in KINDS.values():
    if _kind.scroll:
        FILMS[_kind.name] = partial(scrolled, _kind.name)


# --- a line on a row ------------------------------------------------------------------------------------------------------


def fallen(hand: Hand, moments: int = 9) -> tuple[tuple[float, list[Vector]], ...]:
    """A line at even times: it lies on the row as far as a little behind the tip, and from there rises to the tip."""
    begin, end = hand.begins(1), hand.segments[1][1]
    start = hand.at(begin)
    found = []
    for k in range(moments + 1):
        time = begin + (end - begin) * k / moments
        x, y, z = hand.at(time)
        behind = max(start[0], x - 1.7 * z)  # it leaves the row at some 30 degrees
        sag = (0.4 * (x - behind), 0.18 * z)
        found.append((time, [start, ((start[0] + behind) / 2, y, 0.0), (behind, y, 0.0), (behind + sag[0], y, sag[1]), (x, y, z)]))
    return tuple(found)


def line(tip: Tip, colour: str) -> Film:
    """A finer line that falls onto the middle of a broad row."""
    kind = LINE_ROW
    long, first, level, wall = 62.0, 26.0, 33.0, 30.0
    spec = RowSpec("line", tip, run_mm=long)
    hand = hand_of(kind.strokes(spec))
    below = Tip("open star", 8.0)
    broad, deep = below.bead_width_mm * 1.15, below.bead_height_mm * 1.05
    bead = max(2.4, tip.bead_width_mm)
    keys = fallen(hand)
    ink = PALETTE["cream"] if colour == PALETTE["russet"] else colour
    row = PALETTE["russet"]

    def thread(place: Callable[[Vector], Point]) -> Thread:
        return Thread(tuple((time, tuple(v for point in points for v in place(point))) for time, points in keys), bead, ink)

    shade = Path(polyline([(-4, level + broad * 0.36), (FILM_WIDE + 4, level + broad * 0.36)]), Style(stroke="#5a2f1e", width_mm=broad, opacity=0.16))
    front: list[Layer] = [
        Still(
            [
                *ground("side"),
                shade,
                *strand_paths([(-6.0, level), (FILM_WIDE + 6.0, level)], broad, "ridged", row),
            ]
        ),
        thread(lambda at: (first + FRONT(at)[0], level + FRONT(at)[1])),
        bag(hand, tip, "side", FRONT, (first, level)),
    ]
    top = wall + deep
    above: list[Layer] = [
        Still(
            [
                *strand_paths([(-6.0, wall + deep / 2), (FILM_WIDE + 6.0, wall + deep / 2)], deep, "ridged", row),
                *ground_above(wall),
            ]
        ),
        thread(lambda at: (first + at[0], top + bead * 0.2 + at[2])),
        bag(hand, tip, "side", ABOVE, (first, top), (0.0, bead * 0.2)),
    ]
    return Film(
        "line",
        hand,
        (
            View("From the front", f"A finer line falls onto the middle of a broad row. {kind.hand}", front),
            View("From above", f"The same from above: {kind.held(tip.family)}. Between its two ends the tip stays off the row.", above, ABOVE_HIGH),
        ),
        f"A line {long / 10:.1f} cm long on the row below it, tip {tip.name}, in {hand.time_s:.0f} seconds.",
        (hand.moment(0, 0.97), hand.moment(1, 0.35), hand.moment(1, 0.75), hand.moment(2, 0.2), hand.time_s),
        spec,
    )


FILMS[LINE_ROW.name] = line


# --- vermicelli -----------------------------------------------------------------------------------------------------------

CELLS, GAP_MM, SEED = (10, 6), 3.0, 5


def curls(tip: Tip) -> tuple[Stroke, ...]:
    """The strokes of a line that fills a ground: touch, wander, stop at its edge."""
    kind = LINE_ROW
    pitch = GAP_MM + tip.bead_width_mm
    points = tuple((x * pitch, y * pitch, 0.6) for x, y in wander_points(*CELLS, SEED))
    still, speed = kind.start_s / 2, kind.speed_mm_per_s
    return (
        Stroke("touch and squeeze", points[:1], speed, (0.5, 1.0), INTO, True, still_s=still),
        Stroke("short curls, close but never over the line", points, speed, (1.0, 1.0), INTO, True),
        Stroke("stop at the edge, then lift", points[-1:], speed, (0.3, 0.0), INTO, True, still_s=still),
    )


def vermicelli(tip: Tip, colour: str) -> Film:
    """A fine line that wanders over a ground in short curls."""
    kind = LINE_ROW
    hand = hand_of(curls(tip))
    pitch, bead, ink = GAP_MM + tip.bead_width_mm, tip.bead_width_mm, tone(colour, -0.12)
    x0, y0 = 16.0, 12.0
    points, shares = way_of(hand)
    front_at = [(x0 + FRONT(at)[0], y0 + FRONT(at)[1]) for at in points]
    front: list[Layer] = [
        Still(ground("side", HIGH)),
        Led(strand_paths(front_at, bead, "smooth", ink)[:4:2], shares),
        on_end(hand, tip, projected(hand, "side", FRONT, (x0, y0))),
    ]
    # from the side: a bead at each height that the line has come to
    beads: list[Timed] = []
    ball = (Path(ellipse(0, 0, 50, 50), Style(fill=tone(ink, -0.5))), Path(ellipse(-4, -6, 38, 36), Style(fill=ink)))
    from_side = Motif(f"end of a line {ink}", ball)
    for level in range(CELLS[1]):
        down = (level + 0.5) * pitch
        near = next((time for time, (_, y, _) in hand.keys if abs(y - down) < pitch * 0.36 and time > hand.begins(1)), None)
        if near is not None:
            beads.append(Timed(from_side, (bead / 100, 0.0, 0.0, bead / 100, SIDE_WALL + bead * 0.4, y0 + down), near, near + 0.25))
    side: list[Layer] = [
        Still(wall_beside()),
        Grown(sorted(beads, key=lambda one: one.begin_s), profile=((0.0, 0.4, 0.4), (1.0, 1.0, 1.0))),
        straight(hand, tip, SIDE, (SIDE_WALL, y0)),
    ]
    return Film(
        "vermicelli",
        hand,
        (
            View("From the front", "One fine line wanders over the coat in short curls, close beside itself, and never crosses itself.", front, HIGH),
            View("From the side", "The same from the side: the bag nearly upright to the surface, its tip just above it.", side, HIGH),
        ),
        f"{kind.strokes(RowSpec('line', tip, run_mm=1.0))[1].speed_mm_per_s / 10:.1f} cm of line a second, tip {tip.name}: "
        f"{CELLS[0] * pitch / 10:.0f} by {CELLS[1] * pitch / 10:.0f} cm in {hand.time_s:.0f} seconds.",
        (hand.moment(0, 0.97), hand.moment(1, 0.3), hand.moment(1, 0.65), hand.moment(1, 0.99), hand.time_s),
    )


FILMS["vermicelli"] = vermicelli
