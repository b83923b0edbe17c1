"""The moving pictures of pieces piped one by one, of a rope, and of what the hands do besides piping.

`FILMS`: name -> function of a tip and a colour, giving a `Film`. Rows go by the strokes of their kind; a rose on its nail, the cutter and the
grip have a `Hand` of their own here.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from calc.drawing.bag import bag_and_tip
from calc.drawing.marks import rule
from calc.drawing.motifs import LOOKS, motif
from calc.drawing.motifs.dot_look import DOT
from calc.drawing.motifs.leaf_look import LEAF
from calc.drawing.motifs.look import Piece
from calc.drawing.motifs.reverse_shell_look import CURL
from calc.drawing.motifs.rope_look import TWIST
from calc.drawing.motifs.rosette_look import ROSETTE
from calc.drawing.motifs.star_look import FLOWER, STAR
from calc.drawing.scene import (
    CAKE,
    GUIDE_DASH,
    LINE,
    Item,
    Matrix,
    Motif,
    Parts,
    Path,
    Point,
    Style,
    Use,
    circle,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.shading import tone
from calc.rows import KINDS, RowSpec
from calc.rows.kinds.dot import DOT_HEIGHT
from calc.tips import Tip
from tools.films.moving import (
    ABOVE,
    FRONT,
    SIDE,
    Camera,
    Film,
    Grown,
    Hand,
    Layer,
    Moved,
    Still,
    Timed,
    View,
    during,
    hand_of,
    leading,
    on_surface,
    press_marks,
    projected,
    seen_along,
    value_at,
)
from tools.films.moving_rows import ABOVE_HIGH, FILM_WIDE, bag, ground, ground_above, on_end, steadied

FILMS: dict[str, Callable[[Tip, str], Film]] = {}
SIDE_WALL = 36.0  # where the side is, seen from the side
HIGH = 76.0


def straight(hand: Hand, tip: Tip, camera: Camera, origin: Point, thick: int = 0) -> Moved:
    """The bag at exactly the angle that its kind declares, without the lean of a hanging elbow."""
    x, y, z = hand.faces[0][1]
    axis = seen_along((x, y, z), "side", camera)
    return Moved(
        bag_and_tip((0.0, 0.0), 0.0, tip, 1.0, thick, arm_deg=30.0),
        projected(hand, "side", camera, origin),
        press_marks(),
        math.degrees(math.atan2(axis[1], axis[0])),
        max(0.5, math.hypot(*axis)),
    )


def wall_beside() -> list[Item]:
    """The cake in a view from the side: cut upright, its side at `SIDE_WALL`."""
    return [Path(rectangle(-2, -2, SIDE_WALL + 2, HIGH + 4), CAKE), rule(SIDE_WALL, -2, SIDE_WALL, HIGH + 2, LINE._replace(width_mm=0.9))]


def mound_of(colour: str, ridges: int = 4) -> Motif:
    """A ridged mound that stands out from (0, 0) to x = 100, from y = -100 to 100."""
    edge = smooth([(0, -100), (45, -96), (84, -58), (100, 0), (84, 58), (45, 96), (0, 100)])
    items: list[Path] = [Path((*edge, ("Z",)), Style(fill=tone(colour, -0.05), stroke=tone(colour, -0.55), width_mm=5))]
    for k in range(ridges):
        v = -70 + 140 * k / (ridges - 1)
        items.append(Path(smooth([(3, v), (55, v * 0.9), (92, v * 0.4)]), Style(stroke=tone(colour, -0.4), width_mm=6)))
    return Motif(f"mound {ridges} {colour}", tuple(items))


def two_views(name: str, hand: Hand, front: Sequence[Layer], side: Sequence[Layer], note: str, spec: RowSpec, pieces: int = 1) -> Film:
    kind = KINDS[name]
    return Film(
        name,
        hand,
        (
            View("From the front", f"{kind.title}, seen from the front. {kind.hand}", front, HIGH),
            View("From the side", f"The same from the side: {kind.held(spec.tip.family)}.", side, HIGH),
        ),
        note,
        spec=spec,
        pieces=pieces,
    )


def leaf(name: str, tip: Tip, colour: str) -> Film:
    """A leaf: its base fans out, then it is drawn to a point; the V of the tip opens towards the cake and away from it."""
    kind = KINDS[name]
    spec = RowSpec(name, tip, run_mm=kind.natural_pitch_mm(tip), count=1)
    hand = hand_of(kind.strokes(spec))
    long = kind.across_mm(tip)
    x, y = 62.0, 12.0
    begin, end = hand.moment(0, 0.43), hand.moment(2, 0.42)

    def at(left: float) -> Matrix:
        return 0.0, long / 100, -1.05 * long / 100, 0.0, left, y

    half, far = ((hand.segments[k][1] - begin) / (end - begin) for k in (0, 1))
    drawn = motif(LEAF.name, colour)
    front: list[Layer] = [
        Still([*ground("side"), *(Use(drawn, at(x - 27.0 * k)) for k in (1, 2))]),
        Grown([Timed(drawn, at(x), begin, end)], (0.0, 0.0), ((0.0, 0.14, 0.3), (half, 0.34, 0.95), (far, 0.74, 1.0), (1.0, 1.0, 1.0))),
        straight(hand, tip, FRONT, (x, y), -1),
    ]
    outline = [(0.0, -14.0), (16.0, -10.0), (34.0, 10.0), (38.0, 48.0), (30.0, 100.0), (22.0, 62.0), (12.0, 34.0), (0.0, 20.0)]
    beside = Motif(
        f"leaf from the side {colour}",
        (
            Path(smooth(outline, closed=True), Style(fill=tone(colour, -0.15), stroke=tone(colour, -0.55), width_mm=2.0)),
            Path(smooth([(5, -6), (24, 8), (31, 48)]), Style(stroke=tone(colour, 0.35), width_mm=4.0)),
        ),
    )
    place = (long / 100, 0.0, 0.0, long / 100, SIDE_WALL, y)
    side: list[Layer] = [
        Still(wall_beside()),
        Grown([Timed(beside, place, begin, end)], (0.0, 0.0), ((0.0, 0.3, 0.14), (half, 1.0, 0.34), (far, 1.0, 0.74), (1.0, 1.0, 1.0))),
        straight(hand, tip, SIDE, (SIDE_WALL, y)),
    ]
    return two_views(name, hand, front, side, f"One leaf {long / 10:.1f} cm long, tip {tip.name}, in {hand.time_s:.0f} seconds.", spec)


def _bit(colour: str) -> Motif:
    """A bit of a fluted line along x that bends to the right: from y = -50, its outer side, to 50."""

    def strip(low: float, high: float) -> Parts:
        (a, b) = (34 - 0.32 * y for y in (low, high))
        return polygon([(-a, low), (a, low), (b, high), (-b, high)])

    items: list[Path] = [Path(strip(-52, 52), Style(fill=tone(colour, -0.68)))]
    for y, level in ((-31, -0.04), (0, -0.12), (31, -0.24)):
        items.append(Path(strip(y - 14, y + 14), Style(fill=tone(colour, level))))
        items.append(Path(strip(y - 8, y - 3), Style(fill=tone(colour, level + 0.4))))
    return Motif(f"coil bit {colour}", tuple(items))


def rosette(name: str, tip: Tip, colour: str) -> Film:
    """A rosette: a middle, once round it, and the tail along the circle."""
    kind = KINDS[name]
    spec = RowSpec(name, tip, run_mm=kind.natural_pitch_mm(tip) or kind.across_mm(tip), count=1)
    hand = hand_of(kind.strokes(spec))
    wide, bead = kind.across_mm(tip), tip.bead_width_mm
    x, y = 44.0, 34.0
    bit = _bit(colour)
    ball = (Path(circle(0, 0, 50), Style(fill=tone(colour, -0.6))), Path(circle(-2, -4, 44), Style(fill=tone(colour, -0.1))))
    dab = Motif(f"dab {colour}", ball)
    keys = projected(hand, "side", FRONT, (x, y))
    pieces: list[Timed] = []
    far = wide / 2 + 5.0
    round_it = [(far * math.cos(math.radians(a)), far * math.sin(math.radians(a))) for a in range(160, 341, 30)]  # as the path goes
    start, last = hand.begins(1), hand.begins(2)
    found = [(time, at) for time, at in keys if start <= time and value_at(hand.squeeze, time)[0] > 0.08]
    for (t0, (x0, y0)), (t1, (x1, y1)) in zip(found, found[1:], strict=False):
        if math.hypot(x1 - x0, y1 - y0) < 0.3:
            continue
        turn = math.atan2(y1 - y0, x1 - x0)
        thick = bead * (1.0 if t1 <= last else 0.25 + 0.75 * value_at(hand.squeeze, t1)[0])
        c, n = math.cos(turn) / 100, math.sin(turn) / 100
        far = 2.2 * math.hypot(x1 - x0, y1 - y0)
        pieces.append(Timed(bit, (c * far, n * far, -n * thick, c * thick, (x0 + x1) / 2, (y0 + y1) / 2), t0, t1))
    middle = Timed(dab, (bead * 1.1 / 100, 0.0, 0.0, bead * 1.1 / 100, found[0][1][0], found[0][1][1]), hand.moment(0, 0.46), start)
    front: list[Layer] = [
        Still(ground("side")),
        Grown([middle], (0.0, 0.0), ((0.0, 0.3, 0.3), (1.0, 1.0, 1.0))),
        Grown(pieces, (-50.0, 0.0), ((0.0, 0.4, 1.0), (1.0, 1.0, 1.0))),
        on_end(hand, tip, keys),
        Moved(leading(round_it), during((start, hand.moment(2, 0.35), x, y))),
    ]
    deep, low = bead * 1.2, bead * 0.9
    grown = mound_of(colour)
    side: list[Layer] = [
        Still(wall_beside()),
        Grown(
            [Timed(grown, (deep / 100, 0.0, 0.0, bead * 0.55 / 100, SIDE_WALL, y), hand.moment(0, 0.46), start)],
            profile=((0.0, 0.4, 0.4), (1.0, 1.0, 1.0)),
        ),
        Grown(
            [Timed(grown, (low / 100, 0.0, 0.0, wide / 200, SIDE_WALL, y), start, hand.moment(2, 0.3))],
            profile=((0.0, 0.8, 0.3), (0.6, 1.0, 1.0), (1.0, 1.0, 1.0)),
        ),
        straight(hand, tip, SIDE, (SIDE_WALL, y)),
    ]
    return two_views(name, hand, front, side, f"One rosette {wide / 10:.1f} cm wide, tip {tip.name}, in {hand.time_s:.0f} seconds.", spec)


def star(name: str, tip: Tip, colour: str) -> Film:
    """A star: squeezed to its width, then stopped, then pulled away."""
    kind = KINDS[name]
    spec = RowSpec(name, tip, run_mm=kind.across_mm(tip), count=1)
    hand = hand_of(kind.strokes(spec))
    wide = kind.across_mm(tip)
    x, y = 50.0, 34.0
    drawn = motif((STAR if tip.family == "open star" else FLOWER).name, colour)
    begin, end = hand.moment(0, 0.46), hand.moment(0, 0.99)
    swell = ((0.0, 0.45, 0.45), (1.0, 1.0, 1.0))

    def at(left: float) -> Matrix:
        return wide / 100, 0.0, 0.0, wide / 100, left, y

    front: list[Layer] = [
        Still([*ground("side"), *(Use(drawn, at(x - wide * 1.1 * k)) for k in (1, 2))]),
        Grown([Timed(drawn, at(x), begin, end)], profile=swell),
        on_end(hand, tip, projected(hand, "side", FRONT, (x, y))),
    ]
    high = 0.8 * 1.4 / 1.5 * wide
    side: list[Layer] = [
        Still(wall_beside()),
        Grown([Timed(mound_of(colour, 3), (high / 100, 0.0, 0.0, wide / 200, SIDE_WALL, y), begin, end)], profile=((0.0, 0.4, 0.5), (1.0, 1.0, 1.0))),
        straight(hand, tip, SIDE, (SIDE_WALL, y)),
    ]
    return two_views(name, hand, front, side, f"One star {wide / 10:.1f} cm wide, tip {tip.name}, in {hand.time_s:.0f} seconds.", spec)


def dot(name: str, tip: Tip, colour: str) -> Film:
    """One ball in a hole that is too small for a piece: it swells until it touches both neighbours, then the tip turns away."""
    kind = KINDS[name]
    spec = RowSpec(name, tip, run_mm=kind.across_mm(tip), count=1)
    hand = hand_of(kind.strokes(spec))
    wide = kind.across_mm(tip)
    high = DOT_HEIGHT * wide
    x, y = 50.0, 34.0
    drawn, begin, end = motif(DOT.name, colour), hand.moment(0, 0.06), hand.moment(0, 0.99)

    def at(left: float, size: float = 1.0) -> Matrix:
        return size * wide / 100, 0.0, 0.0, size * wide / 100, left, y

    beside = wide * 1.28  # beads a little larger than the hole, touched by the ball
    front: list[Layer] = [
        Still(
            [*ground("side"), *(Use(drawn, at(x + side * (beside - wide * 0.08 + beside * 1.06 * k), 1.28)) for side in (-1, 1) for k in range(3))]
        ),
        Grown([Timed(drawn, at(x), begin, end)], profile=((0.0, 0.3, 0.3), (1.0, 1.0, 1.0))),
        on_end(hand, tip, projected(hand, "side", FRONT, (x, y))),
    ]
    ball = Motif(
        f"half ball {colour}",
        tuple(
            Path((*smooth([(0, -a), (0.75 * b, -0.74 * a), (b, 0), (0.75 * b, 0.74 * a), (0, a)]), ("Z",)), Style(fill=tone(colour, level)))
            for a, b, level in ((50.0, 50.0, -0.58), (46.0, 46.0, -0.2), (32.0, 38.0, 0.16))
        ),
    )
    others = [Use(ball, (1.28 * high / 50, 0.0, 0.0, 1.28 * wide / 100, SIDE_WALL, y))]
    side: list[Layer] = [
        Still([*others, *wall_beside()]),
        Grown([Timed(ball, (high / 50, 0.0, 0.0, wide / 100, SIDE_WALL, y), begin, end)], profile=((0.0, 0.3, 0.3), (1.0, 1.0, 1.0))),
        straight(hand, tip, SIDE, (SIDE_WALL, y)),
    ]
    return two_views(name, hand, front, side, f"One dot {wide / 10:.1f} cm wide, tip {tip.name}, in {hand.time_s:.0f} seconds.", spec)


def rope(name: str, tip: Tip, colour: str, pieces: int = 4) -> Film:
    """A rope: one S after another, each begun under the belly of the last."""
    kind, look = KINDS[name], LOOKS[name]
    pitch = kind.natural_pitch_mm(tip)
    spec = RowSpec(name, tip, run_mm=pitch)
    strokes = kind.strokes(spec)
    hand = hand_of(strokes, pieces, (pitch, 0.0, 0.0))
    wide, first, wall = kind.across_mm(tip), 30.0, 26.0
    drawn = motif(TWIST.name, colour)

    def place(line: float) -> Callable[[int], Matrix]:
        return lambda k: (pitch * 1.45 / 100, 0.0, 0.0, wide / 100, first + (k + 0.5) * pitch, line)

    def timed(at: Callable[[int], Matrix]) -> list[Timed]:
        return [Timed(drawn, at(k), hand.moment(3 * k, 0.3 if k else 0.45), hand.moment(3 * k, 0.98)) for k in range(pieces)]

    def ways(camera: Camera, origin: Point) -> list[Layer]:
        """Arrows along the S while it is piped, and down under its belly while the tip is tucked there."""
        made: list[Layer] = []
        for step in (0, 1):
            at = [camera(on_surface(look.surface, place)) for place in strokes[step].points]
            spans = ((hand.begins(3 * k + step), hand.segments[3 * k + step][1], origin[0] + k * pitch, origin[1]) for k in range(pieces))
            made.append(Moved(leading(at), during(*spans)))
        return made

    grow = ((0.0, 0.25, 0.5), (1.0, 1.0, 1.0))
    front_at, above_at = place(look.line_mm), place(wall + wide * 0.5)
    done = range(-3, 0)
    front: list[Layer] = [
        Still([*ground(look.surface), *(Use(drawn, front_at(k)) for k in done)]),
        Grown(timed(front_at), (-44.0, 40.0), grow),
        held := bag(hand, tip, look.surface, FRONT, (first, look.line_mm)),
        steadied(hand, FRONT, (first, look.line_mm), held.turn_deg, surface=look.surface),
        *ways(FRONT, (first, look.line_mm)),
    ]
    above: list[Layer] = [
        Still([*ground_above(wall), *(Use(drawn, above_at(k)) for k in done)]),
        Grown(timed(above_at), (-44.0, 40.0), grow),
        held := bag(hand, tip, look.surface, ABOVE, (first, wall + wide * 0.5)),
        steadied(hand, ABOVE, (first, wall + wide * 0.5), held.turn_deg, surface=look.surface),
        *ways(ABOVE, (first, wall + wide * 0.5)),
    ]
    return Film(
        name,
        hand,
        (
            View("From the front", f"{kind.title}, seen from the front. {kind.hand}", front),
            View("From above", f"The same from above: {kind.angle}.", above, ABOVE_HIGH),
        ),
        f"{pieces} turns of a rope, tip {tip.name}, {hand.time_s / pieces:.1f} seconds each.",
        (*(hand.moment(k, share) for k, share in ((0, 0.7), (0, 1.0), (1, 0.6), (6, 0.6))), hand.time_s),
        spec,
        pieces,
    )


def curled(name: str, tip: Tip, colour: str, pieces: int = 4) -> Film:
    """Reverse shells on the top of a cake: the head of each curls to one side, that of the next to the other."""
    kind = KINDS[name]
    pitch = kind.natural_pitch_mm(tip)
    spec = RowSpec(name, tip, run_mm=pitch)
    hand = hand_of(kind.strokes(spec), pieces, (pitch, 0.0, 0.0), by_turns=True)
    hand = replace(hand, squeeze=(*hand.squeeze[:-1], (hand.time_s, (0.0,))))  # after the last one the squeeze does not begin again
    tall = kind.geometry(RowSpec(name, tip, run_mm=pitch), []).stands_out_mm
    size = kind.across_mm(tip) / 2 / 0.9  # the curl reaches 0.9 of its size to one side
    first, line, floor = 30.0, 30.0, 44.0
    drawn = motif(CURL.name, colour)
    last, done, todo = len(kind.steps), range(-4, 0), range(pieces)

    def above_at(k: int) -> Matrix:
        return pitch * 0.92 / 100, 0.0, 0.0, (-1) ** (k % 2) * size / 100, first + (k + 0.12) * pitch, line

    def front_at(k: int) -> Matrix:
        side = (-1) ** (k % 2)  # a head that is turned away lies a little higher in the picture
        return (
            pitch * 0.92 / 100,
            0.0,
            0.0,
            tall * 1.15 / 100,
            first + (k + 0.12) * pitch - 0.25 * side * tip.opening_mm,
            floor - 0.3 * side * tip.opening_mm,
        )

    def timed(place: Callable[[int], Matrix], which: Sequence[int]) -> list[Timed]:
        return [Timed(drawn, place(k), hand.begins(k * last), hand.moment(k * last + 1, 1.0)) for k in which]

    def round_it(side: int) -> list[Point]:
        """Round the head of a piece that curls to that side, outside of it, as the tip goes."""
        return [(0.62 * pitch * math.cos(a) + 0.2 * pitch, side * 1.35 * size * math.sin(a)) for a in (math.radians(d) for d in range(200, 351, 30))]

    def curls(side: int) -> list[tuple[float, float, float, float]]:
        """When and where the pieces that curl to that side have their heads piped."""
        return [(hand.begins(k * last), hand.moment(k * last + 1, 0.6), first + k * pitch, line) for k in todo if (-1) ** (k % 2) == side]

    swell = hand.moment(0, 1.0) / hand.moment(1, 1.0)
    grow = ((-8.0, -34.0), ((0.0, 0.14, 0.14), (swell, 0.55, 0.95), (1.0, 1.0, 1.0)))
    guide = Path(polyline([(first - 2, line), (FILM_WIDE + 2, line)]), GUIDE_DASH)
    front: list[Layer] = [
        Still(
            [
                Path(rectangle(-2, floor + 8.0, FILM_WIDE + 4, 40), CAKE),
                Path(rectangle(-2, floor - 9.0, FILM_WIDE + 4, 17.0), CAKE._replace(fill="#fbf0d8")),
                *(Use(drawn, front_at(k)) for k in done),
            ]
        ),
        Grown(timed(front_at, todo), *grow),
        bag(hand, tip, "base", FRONT, (first, floor)),
    ]
    above: list[Layer] = [
        Still([*ground_above(56.0), guide, *(Use(drawn, above_at(k)) for k in done)]),
        Grown(timed(above_at, todo), *grow),
        bag(hand, tip, "base", ABOVE, (first, line)),
        *(Moved(leading(round_it(side)), during(*curls(side))) for side in (1, -1)),
    ]
    return Film(
        name,
        hand,
        (
            View("From the front", f"{kind.plural.capitalize()} on the top of a cake, seen from the front. {kind.hand}", front),
            View("From above", f"The same from above: {kind.angle}.", above, ABOVE_HIGH),
        ),
        f"{pieces} {kind.plural}, tip {tip.name}, {hand.time_s / pieces:.1f} seconds each: one curls away from you, the next towards you.",
        (*(hand.moment(k, share) for k, share in ((0, 0.6), (1, 0.5), (3, 0.7), (7, 0.6))), hand.time_s),
        spec,
        pieces,
    )


_MADE: dict[Piece, Callable[[str, Tip, str], Film]] = {CURL: curled, DOT: dot, LEAF: leaf, ROSETTE: rosette, STAR: star, TWIST: rope}
for _name, _look in LOOKS.items():
    if _look.piece in _MADE:
        FILMS[_name] = partial(_MADE[_look.piece], _name)
