"""The moving pictures of pieces that belong together: strings from the same joints, shells of several sizes, a row taken up again.

`FILMS`: name -> function of a tip and a colour, giving a `Film`; `OF_KIND`: name -> the kind it is made of. Every piece goes by the strokes of its
kind (`calc.rows`); `one_after_another` puts their hands on one clock.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

from calc.curves import catenary_points
from calc.drawing.motifs import LOOKS, motif
from calc.drawing.motifs.shell_look import SittingLook
from calc.drawing.scene import GUIDE_DASH, Item, Matrix, Motif, Path, Point, Style, Use, circle, polygon, smooth
from calc.drawing.shading import strand_paths, tone
from calc.rows import RowSpec
from calc.rows.kind import Kind, Stroke, Vector
from calc.rows.kinds.bead import KIND as BEAD
from calc.rows.kinds.shell import KIND as SHELL
from calc.rows.kinds.string import KIND as STRING
from calc.tips import Tip
from tools.films.moving import ABOVE, FRONT, Camera, Film, Grown, Hand, Keys, Layer, Still, Thread, Timed, View, Wiped, hand_of, on_surface, projected
from tools.films.moving_rows import ABOVE_HIGH, bag, ground, ground_above, hung_from

Key = tuple[float, tuple[float, ...]]
FILMS: dict[str, Callable[[Tip, str], Film]] = {}
OF_KIND: dict[str, str] = {}


def one_after_another(hands: Sequence[Hand], begins: Sequence[Vector]) -> Hand:
    """Several hands on one clock, each begun at a place of its own."""
    keys: list[Key] = []
    squeeze: list[Key] = []
    faces: list[Key] = []
    speed: list[Key] = []
    segments: list[tuple[str, float]] = []
    gone = 0.0

    def later(found: Keys) -> list[Key]:
        return [(time + gone, values) for time, values in found]

    for hand, begin in zip(hands, begins, strict=True):
        keys += [(time, tuple(p + b for p, b in zip(place, begin, strict=True))) for time, place in later(hand.keys)]
        squeeze += later(hand.squeeze)
        faces += later(hand.faces)
        speed += later(hand.speed)
        segments += [(name, time + gone) for name, time in hand.segments]
        gone += hand.time_s
    return Hand(tuple(keys), tuple(squeeze), tuple(faces), tuple(speed), tuple(segments))


def carried(name: str, places: Sequence[tuple[float, Vector]], faces: Vector, squeezed: Sequence[tuple[float, float]] = ()) -> Hand:
    """A hand that goes from place to place without piping anything of the row: times with places, and with a squeeze where there is one."""
    keys: Keys = tuple((time, place) for time, place in places)
    end = keys[-1][0]
    speeds = []
    for (t0, a), (t1, b) in zip(keys, keys[1:], strict=False):
        speeds.append((t0, (math.dist(a, b) / (t1 - t0),)))
    press: Keys = tuple((time, (much,)) for time, much in squeezed) or ((0.0, (0.0,)), (end, (0.0,)))
    return Hand(keys, press, ((0.0, faces), (end, faces)), tuple(speeds), ((name, end),))


# --- nested strings -----------------------------------------------------------------------------------------------------

LOOPS = 2
DEEPEST_MM = 28.0
BESIDE_MM = 1.6  # the foot of each string stands as far beside that of the last
THREAD_MM = 2.4  # drawn a little thicker than it is, to be seen
BACK_S = 1.2
WALL_ABOVE = 14.0  # where the side is, seen from above
MOMENTS, POINTS = 5, 6  # of a thread, which is straight from above


def nested(tip: Tip, colour: str) -> Film:
    """Strings between the same two joints, the deepest first; the round between two of them is left out."""
    look = LOOKS[STRING.name]
    wide, first, line = look.repeat_mm, (130.0 - look.repeat_mm) / 2, look.line_mm
    specs = [RowSpec(STRING.name, tip, run_mm=wide - 2 * BESIDE_MM * k, drop_mm=DEEPEST_MM * (LOOPS - k) / LOOPS) for k in range(LOOPS)]
    starts: list[Vector] = [(BESIDE_MM * k, 0.0, 0.0) for k in range(LOOPS)]
    singles = [hand_of(STRING.strokes(spec)) for spec in specs]
    hands, begins, at = [singles[0]], [starts[0]], [0.0]
    away, (u, v, w) = singles[0].at(0.0), singles[0].faces[0][1]
    for k in range(1, LOOPS):
        x, y, z = singles[k - 1].at(singles[k - 1].time_s)
        from_here = (x + starts[k - 1][0], y, z)
        to = (away[0] + starts[k][0], away[1], away[2])
        back = carried("all round like this, then the first joint again", [(0.0, from_here), (BACK_S, to)], (u, v, w))
        hands += [back, singles[k]]
        begins += [(0.0, 0.0, 0.0), starts[k]]
        at.append(sum(one.time_s for one in hands[:-1]))
    hand = one_after_another(hands, begins)

    def threads(camera: Camera, origin: Point, points: int = POINTS) -> list[Thread]:
        found = []
        for single, spec, start, begin in zip(singles, specs, starts, at, strict=True):
            whole = STRING.length_mm(spec.repeat_mm, spec.drop_mm)
            t0, t1 = single.begins(1), single.segments[1][1]
            keys = []
            for n in range(MOMENTS + 1):
                time = t0 + (t1 - t0) * n / MOMENTS
                hung = hung_from(single.at(time), whole * n / MOMENTS, points)
                places = [camera(on_surface("side", (x + start[0], y, z))) for x, y, z in hung]
                keys.append((time + begin, tuple(v for x, y in places for v in (origin[0] + x, origin[1] + y))))
            found.append(Thread(tuple(keys), THREAD_MM, colour))
        return found

    def piped(number: int, repeat: int) -> list[Item]:
        spec = specs[number]
        points = catenary_points(spec.repeat_mm, spec.drop_mm, 5)
        left = first + repeat * wide + starts[number][0]
        return strand_paths([(left + x, line + y) for x, y in points], THREAD_MM, "smooth", colour)

    def swept(items: Sequence[Item], number: int) -> Wiped:
        """What a round adds beside the repeat that is shown: while the hand goes back."""
        return Wiped(items, ((at[number] - BACK_S, (-20.0,)), (at[number], (132.0,))))

    marks = []
    for spec, start in zip(specs, starts, strict=True):
        marks += [
            Path(smooth([(first + start[0] + x, line + y) for x, y in catenary_points(spec.repeat_mm, spec.drop_mm, 4)]), GUIDE_DASH),
        ]
    spots = [Path(circle(first + k * wide, line, 1.5), Style(fill=tone(colour, -0.1))) for k in (0, 1)]
    held = bag(hand, tip, "side", ABOVE, (first, WALL_ABOVE))  # in front it is the same, foreshortened: what is written once weighs less
    front: list[Layer] = [
        Still([*ground("side"), *marks, *piped(0, -1), *spots]),
        *(swept([*piped(k - 1, 1), *piped(k, -1)], k) for k in range(1, LOOPS)),
        *threads(FRONT, (first, line)),
        replace(held, keys=projected(hand, "side", FRONT, (first, line)), turn_deg=52.0, seen=0.62),
    ]
    wall = WALL_ABOVE
    done = strand_paths([(-4.0, wall + 1.2), (first, wall + 1.0)], THREAD_MM, "smooth", colour)
    feet = [Path(circle(first + k * wide, wall, 1.5), Style(fill=tone(colour, -0.1))) for k in (0, 1)]
    above: list[Layer] = [
        Still([*ground_above(wall), *done, *feet]),
        *threads(ABOVE, (first, wall + 0.6), 2),
        held,
    ]
    steps = len(STRING.steps) + 1
    return Film(
        "nested strings",
        hand,
        (
            View("From the front", f"Nested {STRING.plural}, seen from the front: the deepest first, each next one shallower.", front),
            View("From above", f"The same from above: {STRING.angle}.", above, ABOVE_HIGH),
        ),
        f"{LOOPS} strings from the same joints, the deepest first, tip {tip.name}, in {hand.time_s:.0f} seconds. "
        "The whole round between them is left out.",
        (hand.moment(0, 0.97), hand.moment(1, 0.5), hand.moment(2, 0.2), hand.moment(steps + 1, 0.5), hand.time_s),
    )


FILMS["nested strings"] = nested
OF_KIND["nested strings"] = STRING.name


# --- shells -------------------------------------------------------------------------------------------------------------

COUNTED = {1: "one", 2: "two", 3: "three"}
MIDDLE = 2  # what a shell of the usual size is counted to
FLOOR, WALL = 60.0, 22.0


def size_for(count: int) -> float:
    """How large a shell is beside the usual one when the squeeze lasts for another count: as much buttercream as time, so the cube root."""
    return math.cbrt(count / MIDDLE)


def sized(spec: RowSpec, count: int, next_count: int, names: Sequence[str]) -> Hand:
    """One shell whose squeeze is counted; its tail is drawn at the same speed, and the tip ends where the next one begins."""
    size, after = size_for(count), size_for(next_count)
    swell, draw, stop = SHELL.strokes(spec)

    def larger(stroke: Stroke, speed: float) -> Stroke:
        points = tuple((x * size, y * size, z * size) for x, y, z in stroke.points)
        return replace(stroke, points=points, speed_mm_per_s=stroke.speed_mm_per_s * speed)

    swell, draw, stop = larger(swell, size * MIDDLE / count), larger(draw, 1.0), larger(stop, 1.0)
    (x, y, z), rise = stop.points[-1], stop.length_mm
    stop = replace(stop, points=(stop.points[0], (x, y, z * after / size)))
    stop = replace(stop, speed_mm_per_s=stop.speed_mm_per_s * stop.length_mm / rise)
    return hand_of([replace(one, name=name) for one, name in zip((swell, draw, stop), names, strict=True)])


def sitting_views(
    kind: Kind,
    spec: RowSpec,
    colour: str,
    shells: Sequence[tuple[float, float, float, float, float]],
    before: Sequence[tuple[float, float]],
    first: float,
) -> tuple[list[Layer], list[Layer], float]:
    """What stands and what grows: pieces as (along, size, begin, swollen, whole), those that are there as (along, size); and their middle."""
    tip, look = spec.tip, LOOKS[kind.name]
    if not isinstance(look, SittingLook):
        raise ValueError(f"a {kind.name} does not sit on a board")
    pitch, wide = kind.natural_pitch_mm(tip), kind.across_mm(tip)
    tall = kind.geometry(spec, []).stands_out_mm
    largest = max(size for _, size, *_ in shells)
    middle = WALL + wide * largest / 2 + 1.0
    side, top = motif(look.piece.name, colour), motif(look.above.name, colour)

    def place(along: float, size: float, across: float, line: float) -> Matrix:
        return pitch * 0.95 * size / 100, 0.0, 0.0, across * size / 100, first + along + 0.05 * pitch * size, line

    def layers(what: Motif, stands: list[Item], across: float, line: float) -> list[Layer]:
        found: list[Layer] = [Still([*stands, *(Use(what, place(along, size, across, line)) for along, size in before)])]
        for along, size, begin, swollen, whole in shells:
            profile = ((0.0, 0.14, 0.14), (round((swollen - begin) / (whole - begin), 3), 0.62, 1.0), (1.0, 1.0, 1.0))
            found.append(Grown([Timed(what, place(along, size, across, line), begin, whole)], (-20.0, 0.0), profile))
        return found

    return layers(side, ground("base"), tall, FLOOR), layers(top, ground_above(WALL, True), wide, middle), middle


def several_sizes(tip: Tip, colour: str) -> Film:
    """A pattern of shells: one tip, and a shorter or a longer squeeze."""
    counts = (1, 2, 3, 2)
    pitch = SHELL.natural_pitch_mm(tip)
    spec = RowSpec(SHELL.name, tip, run_mm=pitch)
    first = 38.0
    hands, begins, shells, along, gone = [], [], [], 0.0, 0.0
    for k, count in enumerate(counts):
        after = counts[(k + 1) % len(counts)]
        one = sized(spec, count, after, (f"squeeze while you count {COUNTED[count]}", *SHELL.steps[1:]))
        hands.append(one)
        begins.append((along, 0.0, 0.0))
        shells.append((along, size_for(count), gone, gone + one.segments[0][1], gone + one.segments[1][1]))
        along += pitch * size_for(count)
        gone += one.time_s
    hand = one_after_another(hands, begins)
    back, before = 0.0, []
    for count in reversed(counts[1:]):
        back -= pitch * size_for(count)
        before.append((back, size_for(count)))
    front, above, middle = sitting_views(SHELL, spec, colour, shells, before[::-1], first)
    return Film(
        "shells of three sizes",
        hand,
        (
            View(
                "From the front",
                "Shells of three sizes from one tip, seen from the front: small, medium, large, medium. Only the squeeze gets longer or shorter, "
                "and every tail ends on the same line.",
                [*front, bag(hand, tip, "base", FRONT, (first, FLOOR))],
            ),
            View("From above", f"The same from above: {SHELL.angle}.", [*above, bag(hand, tip, "base", ABOVE, (first, middle))], ABOVE_HIGH),
        ),
        f"Small, medium, large, medium from one tip, {tip.name}: you squeeze while you count one, two, three, two.",
        (hand.moment(0, 0.95), hand.moment(3, 0.98), hand.moment(6, 0.98), hand.moment(9, 0.98), hand.time_s),
    )


FILMS["shells of three sizes"] = several_sizes
OF_KIND["shells of three sizes"] = SHELL.name

CLOTH: Vector = (80.0, 28.0, 0.0)  # where it lies on the board, from the first shell: along, towards the worker
TRIAL: Vector = (42.0, 30.0, 0.0)  # and the card for a squeeze that tries the tip


def taken_up(tip: Tip, colour: str) -> Film:
    """A row that is stopped after a bead and taken up on it, with a clean tip."""
    pitch = BEAD.natural_pitch_mm(tip)
    spec = RowSpec(BEAD.name, tip, run_mm=pitch)
    first = 30.0
    *strokes, off = BEAD.strokes(spec)
    high = strokes[0].points[0][2]
    off = replace(off, points=(*off.points[:-1], (pitch, 0.0, high)))  # it ends where the next one begins
    one = hand_of([*strokes, off])
    x, y, z = one.faces[0][1]
    faces: Vector = (x, y, z)
    end, again = (pitch, 0.0, high), (pitch, 0.0, high)
    (cx, cy, _), (tx, ty, _) = CLOTH, TRIAL
    lift = carried("lift the tip away", [(0.0, end), (0.4, (pitch, 0.0, high + 14.0))], faces)
    wiped = [(1.2 + 0.3 * n, (cx + (4.0 if n % 2 else -4.0), cy, 0.0)) for n in range(5)]
    clean = carried("wipe the tip", [(0.0, (pitch, 0.0, high + 14.0)), (0.9, (cx - 4.0, cy, 8.0)), *wiped, (2.8, (cx - 4.0, cy, 8.0))], faces)
    tried = [(0.0, (cx - 4.0, cy, 8.0)), (0.7, (tx, ty, 1.0)), (1.7, (tx + 9.0, ty, 1.0)), (1.9, (tx + 9.0, ty, 1.0)), (2.4, (tx + 9.0, ty, 12.0))]
    trial = carried("squeeze a little onto a card", tried, faces, ((0.0, 0.0), (0.65, 0.0), (0.8, 0.6), (1.6, 0.6), (1.75, 0.0), (2.4, 0.0)))
    back = carried("set the tip on the last point", [(0.0, (tx + 9.0, ty, 12.0)), (0.9, (pitch, 0.0, high + 6.0)), (1.3, again)], faces)
    hands = [one, lift, clean, trial, back, one, one]
    begins: list[Vector] = [(0.0, 0.0, 0.0)] * 5 + [again[:1] + (0.0, 0.0), (2 * pitch, 0.0, 0.0)]
    hand = one_after_another(hands, begins)
    starts = [0.0, sum(each.time_s for each in hands[:5]), sum(each.time_s for each in hands[:6])]
    shells = [(k * pitch, 1.0, t, t + one.segments[0][1], t + one.segments[1][1]) for k, t in enumerate(starts)]
    front, above, middle = sitting_views(BEAD, spec, colour, shells, [(-k * pitch, 1.0) for k in (4, 3, 2, 1)], first)
    tries = sum(each.time_s for each in hands[:3])

    def lying(camera: Camera, line: float) -> tuple[Still, Wiped]:
        def at(place: Vector) -> Point:
            x, y = camera(on_surface("base", place))
            return first + x, line + y

        def sheet(place: Vector, half: float, deep: float) -> list[Point]:
            x, y, _ = place
            return [at((x + u * half, y + v * deep, 0.0)) for u, v in ((-1, -1), (1, -1), (1, 1), (-1, 1))]

        folds = [at((cx + u, cy + v, 0.0)) for u, v in ((-9.0, 2.0), (0.0, 0.5), (10.0, 2.5))]
        cloth = Style(fill="#dfe9ec", stroke="#5f5561", width_mm=0.5)
        items: list[Item] = [
            Path(polygon(sheet((tx + 4.5, ty, 0.0), 9.0, 6.0)), Style(fill="#fffaf0", stroke="#5f5561", width_mm=0.5)),
            Path(smooth(sheet(CLOTH, 12.0, 8.0), closed=True), cloth),
            Path(smooth(folds), Style(stroke="#5f5561", width_mm=0.4)),
        ]
        laid = strand_paths([at((tx, ty, 0.0)), at((tx + 9.0, ty, 0.0))], tip.opening_mm * 0.6, "smooth", colour)
        left, right = at((tx, ty, 0.0))[0], at((tx + 9.0, ty, 0.0))[0]
        return Still(items), Wiped(laid, ((tries + 0.7, (left - 4.0,)), (tries + 1.7, (right + 4.0,))))

    return Film(
        "a row taken up again",
        hand,
        (
            View(
                "From the front",
                "A row of beads, seen from the front: it stops after a bead, the tip is wiped and tried, and the next ball covers the point.",
                [*front, *lying(FRONT, FLOOR), bag(hand, tip, "base", FRONT, (first, FLOOR))],
            ),
            View(
                "From above",
                f"The same from above: {BEAD.angle}.",
                [*above, *lying(ABOVE, middle), bag(hand, tip, "base", ABOVE, (first, middle))],
                ABOVE_HIGH,
            ),
        ),
        f"Beads stopped after a bead and begun again on its point, tip {tip.name}: the next ball hides the join.",
        (hand.moment(1, 0.9), hand.moment(4, 0.5), hand.moment(5, 0.65), hand.moment(7, 0.95), hand.time_s),
    )


FILMS["a row taken up again"] = taken_up
OF_KIND["a row taken up again"] = BEAD.name
