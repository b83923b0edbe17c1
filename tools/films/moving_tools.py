"""The moving pictures of what is not a row by itself: a rose on its nail, a cutter rolled along its tape, a bag twisted and held.

`FILMS`: name -> function of a tip and a colour, giving a `Film`. Each has a `Hand` of its own here; the rose takes the time that its kind declares.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from calc.curves import arc_points
from calc.drawing.bag import bag_and_tip, fingers, forearm, pod, skin
from calc.drawing.marks import label, rule
from calc.drawing.motifs.look import BOARD
from calc.drawing.motifs.small_rose_look import ROSE, petal, standing
from calc.drawing.scene import (
    CAKE,
    GUIDE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    Item,
    Motif,
    Path,
    Point,
    Style,
    circle,
    polygon,
    polyline,
    rectangle,
    smooth,
    turned,
)
from calc.drawing.shading import strand_paths, tone
from calc.rows import KINDS, RowSpec
from calc.tips import Tip
from tools.films.moving import Film, Grown, Hand, Keys, Layer, Led, Moved, Still, Timed, Turning, View, Wiped, during, leading, press_marks, pressing
from tools.films.moving_rows import FILM_WIDE, hand_on_rim, pulled, ring, slot
from tools.films.shared_parts import along_bag, hand_at_rim, left_fingers, open_hand, steadying_hand

HIGH = 80.0
GREY = Style(fill="#cfc7cd", stroke="#5f5561", width_mm=0.45)
SAME = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
AWAY = (400.0, 0.0)  # where a hand is that is not in the picture
JUMP_S = 0.01  # between two keys of what is in one place and then, at once, in another
FILMS: dict[str, Callable[[Tip, str], Film]] = {}


def keys_of(*rows: tuple[float, ...]) -> Keys:
    """Keys from rows of a time and its numbers."""
    return tuple((time, values) for time, *rest in rows for values in (tuple(rest),))


# --- a rose on its nail -----------------------------------------------------------------------------------------------------------


def rose(tip: Tip, colour: str) -> Film:
    """A small rose on its nail, which the other hand turns: a cone, the bud, three petals and five."""
    kind = KINDS[ROSE.name]
    strokes = kind.strokes(RowSpec(ROSE.name, tip, run_mm=kind.natural_pitch_mm(tip) or 1.0, count=1))
    ends = [math.fsum(stroke.time_s for stroke in strokes[: k + 1]) for k in range(3)]
    cone_s, bud_s, whole_s = ends
    faces = 32.0  # where the bag comes from, in the view from above [deg]
    # the nail's turn at each moment: once for the bud, then by a third for each of three petals and by a fifth for each of five
    steps = [120.0] * 3 + [72.0] * 5
    each = (whole_s - bud_s) / len(steps)
    turn = [(0.0, 0.0), (cone_s, 0.0), (bud_s - 0.2, -360.0), (bud_s, -360.0)]
    squeeze = [
        (0.0, 0.0),
        (0.06 * cone_s, 1.0),
        (0.85 * cone_s, 0.4),
        (0.92 * cone_s, 0.0),
        (cone_s, 0.0),
        (cone_s + 0.2, 0.8),
        (bud_s - 0.3, 0.8),
        (bud_s, 0.0),
    ]
    begins: list[tuple[float, float]] = []
    gone = -360.0
    for k, step in enumerate(steps):
        start = bud_s + k * each
        begins.append((start + 0.12 * each, start + 0.8 * each))
        turn += [(start + 0.12 * each, gone), (start + 0.85 * each, gone - step)]
        squeeze += [(start + 0.1 * each, 0.0), (start + 0.2 * each, 0.8), (start + 0.7 * each, 0.8), (start + 0.85 * each, 0.0)]
        gone -= step
    turn.append((whole_s, gone))
    squeeze.append((whole_s, 0.0))

    # from above
    x, y, wide = 50.0, 36.0, 38.0
    size = wide / 100
    inner, outer = (
        Motif(f"{name} {colour}", tuple(petal(colour, 0.0, low, high, half))) for name, low, high, half in (("ri", 11, 31, 74), ("ro", 23, 48, 48))
    )

    def laid(motif: Motif, which: Sequence[int]) -> list[Timed]:
        found = []
        for k in which:
            at = math.radians(faces + sum(steps[:k]) + steps[k] / 2)
            c, n = size * math.cos(at), size * math.sin(at)
            found.append(Timed(motif, (c, n, -n, c, 0.0, 0.0), *begins[k]))
        return found

    coil = [(r * math.cos(a), r * math.sin(a)) for r, a in ((13.0 - 9.5 * k / 20, -0.6 + math.tau * 1.5 * k / 20) for k in range(21))]
    top = Motif(
        f"rb {colour}",
        (
            Path(circle(0, 0, 16), Style(fill=tone(colour, -0.7))),
            Path(circle(-0.5, -0.8, 14), Style(fill=tone(colour, 0.02))),
            Path(smooth(coil), Style(stroke=tone(colour, -0.55), width_mm=3.2)),
            Path(smooth([(u - 0.8, v - 1.2) for u, v in coil]), Style(stroke=tone(colour, 0.5), width_mm=1.5)),
        ),
    )
    cone = Motif(f"rc {colour}", (Path(circle(0, 0, 24), Style(fill=tone(colour, -0.3))), Path(circle(-3, -4, 13), Style(fill=tone(colour, 0.1)))))
    place = (size, 0.0, 0.0, size, 0.0, 0.0)
    across = Turning(
        (
            Still([Path(circle(0, 0, 23.5), GREY), Path(rectangle(-15.5, -15.5, 31, 31), Style(fill="#fffdf6", stroke="#8a6f5c", width_mm=0.4))]),
            Grown([Timed(cone, place, 0.06 * cone_s, 0.9 * cone_s)]),
            Grown(laid(outer, range(3, 8)), (44.0, -30.0), ((0.0, 0.7, 0.1), (1.0, 1.0, 1.0))),
            Grown(laid(inner, range(3)), (20.0, -28.0), ((0.0, 0.7, 0.1), (1.0, 1.0, 1.0))),
            Grown([Timed(top, place, cone_s + 0.2, bud_s - 0.3)]),
        ),
        tuple((time, (x, y, angle)) for time, angle in turn),
    )
    other = fingers_round_nail(x, y)
    way = [(x + 28 * math.cos(math.radians(a)), y + 28 * math.sin(math.radians(a))) for a in (-60, -85, -110, -135, -155)]
    c, n = math.cos(math.radians(faces)), math.sin(math.radians(faces))

    def reach(*rows: tuple[float, float]) -> Keys:
        return tuple((time, (x + far * c, y + far * n)) for time, far in rows)

    cone_way = ((0.0, 18.0), (0.05 * cone_s, 1.0), (0.9 * cone_s, 1.0), (0.96 * cone_s, 16.0))
    bud_way = ((cone_s, 5.5), (bud_s, 6.0), (bud_s + 0.1, 9.0))
    near = reach(*cone_way, *bud_way, (begins[2][1], 11.0), (begins[3][0], 15.0), (begins[7][1], 17.0), (whole_s, 34.0))
    above: list[Layer] = [
        Still(other),
        across,
        Still(leading(way)),
        Moved(bag_and_tip((0.0, 0.0), 0.0, tip, 1.0, 1, arm_deg=14.0), near, press_marks(), faces, 0.72),
    ]

    # from the side
    left, foot, broad = 44.0, 50.0, 34.0
    high = broad * 0.78
    parts = [item for item in standing(colour, left, foot, broad) if isinstance(item, Path)]
    pieces = [parts[:3], *(parts[k : k + 2] for k in range(3, len(parts), 2))]
    made = [Motif(f"rs{k} {colour}", tuple(part)) for k, part in enumerate(pieces)]
    heap = smooth([(left - 8, foot), (left - 4, foot - high * 0.5), (left, foot - high * 0.86), (left + 4, foot - high * 0.5), (left + 8, foot)])
    lump = Motif(f"rl {colour}", (Path((*heap, ("Z",)), Style(fill=tone(colour, -0.16), stroke=tone(colour, -0.5), width_mm=0.4)),))
    when = [(cone_s + 0.2, bud_s - 0.3), begins[0], begins[2], begins[3], begins[5], begins[7]]
    nail = nail_from_the_side(left, foot, 20.0)
    lift = high / 30.0
    path: list[tuple[float, ...]] = [(0.0, left + 22, foot - high - 16), (0.05 * cone_s, left, foot - 3), (0.88 * cone_s, left, foot - high * 0.8)]
    path += [(cone_s, left + 8, foot - high * 0.8), (bud_s - 0.3, left + 8, foot - high * 0.72)]
    for k, (first, last) in enumerate(begins):
        out, low = (10.0, 12.0) if k < 3 else (15.0, 5.0)
        path += [
            (first, left + out, foot - low * lift),
            ((first + last) / 2, left + out + 1.0, foot - (low + 8.0) * lift),
            (last, left + out, foot - low * lift),
        ]
    path.append((whole_s, left + 36, foot - high - 10))
    side: list[Layer] = [
        Still(nail),
        Grown([Timed(lump, SAME, 0.06 * cone_s, 0.88 * cone_s)], (left, foot), ((0.0, 0.7, 0.1), (1.0, 1.0, 1.0))),
        Grown([Timed(one, SAME, *time) for one, time in zip(made, when, strict=True)], (left + 10, foot), ((0.0, 0.25, 0.4), (1.0, 1.0, 1.0))),
        Moved(bag_and_tip((0.0, 0.0), 0.0, tip, 1.0, 1, arm_deg=40.0), keys_of(*path), press_marks(), -45.0, 0.95),
        *_standing_opening(tip, colour, begins[3][0]),
    ]
    far = [math.fsum(math.dist(a, b) for a, b in zip(s.points, s.points[1:], strict=False)) / s.time_s for s in strokes]
    hand = Hand(
        keys_of(*((time, out, 0.0, 0.0) for time, (out, _) in near)),
        keys_of(*squeeze),
        ((0.0, strokes[0].faces),),
        keys_of((0.0, far[0]), (cone_s, far[1]), (bud_s, far[2])),
        tuple((stroke.name, end) for stroke, end in zip(strokes, ends, strict=True)),
    )
    return Film(
        "rose on a nail",
        hand,
        (
            View(
                "From above",
                "A nail with a paper on its head, turned by the left hand; the bag stays where it is while petal after petal is laid.",
                above,
                HIGH,
            ),
            View("From the side", f"The same from the side: {kind.held(tip.family)}.", side, HIGH),
        ),
        f"A small rose on a nail that the other hand turns, tip {tip.name}, in {whole_s:.0f} seconds.",
        (0.5 * cone_s, bud_s - 0.4, begins[1][1], begins[5][0] + 0.4 * each, whole_s),
    )


def fingers_round_nail(x: float, y: float) -> list[Item]:
    """The left hand seen from above, its fingers under the head of a nail whose middle is there."""
    flesh = skin((x - 30, y + 10), (x - 10, y + 34))
    roots = [(x - 22.0 + 7.0 * k, y + 27.0 - k) for k in range(4)]
    return [*forearm((x - 20.0, y + 27.0), 118.0), *(Path(pod((u, v), (u + 1.4, v - 10.8), 3.6, 3.0), flesh) for u, v in roots)]


def nail_from_the_side(left: float, foot: float, half: float) -> list[Item]:
    """A nail in the fingers of the left hand, its head at `foot` and `half` of it to each side, and the way it is turned."""
    flesh = skin((left - 24, foot + 6), (left + 4, foot + 34))
    back = [(-24, 22), (-12, 10), (4, 11), (9, 22), (0, 36), (-20, 38)]
    return [
        *forearm((left - 17.0, foot + 27.0), 150.0),
        Path(smooth([(left + u, foot + v) for u, v in back], closed=True), flesh),
        Path(polygon([(left - 1.4, foot + 2), (left + 1.4, foot + 2), (left + 0.8, foot + 30), (left - 0.8, foot + 30)]), GREY),
        *(Path(pod((left - 13, foot + v), (left + 3, foot + v - 0.5), 3.3, 2.8), flesh) for v in (13.5, 19.0)),
        Path(polygon([(left - half, foot), (left + half, foot), (left + half - 3, foot + 2.6), (left - half + 3, foot + 2.6)]), GREY),
        *leading([(left - 12, foot + 9), (left - 3, foot + 11.5), (left + 10, foot + 8)]),  # its near side, which goes to the right
    ]


def _standing_opening(tip: Tip, colour: str, out_s: float) -> tuple[Layer, ...]:
    """The opening of a petal tip beside a rose, enlarged: its thick end down, its thin end up, leaning in to the bud and from `out_s` on out.

    The words are on the screen only.
    """
    x, y, radius, lean = 75.0, 63.0, 13.0, 20.0
    bud = smooth([(x - 9.2, y + 8.6), (x - 5.6, y + 3.0), (x - 6.0, y - 4.0), (x - 9.0, y - 8.8), (x - 12.4, y)], closed=True)
    drawn: list[Item] = [ring(x, y, radius), Path(bud, Style(fill=tone(colour, -0.16), stroke=tone(colour, -0.5), width_mm=0.4))]
    mouth = slot(tip, colour, 18.0, (0.0, -7.0), -90.0)  # it turns about its thick end
    leans = keys_of((0.0, x + 3.5, y + 7.0, -lean), (out_s - 0.6, x + 3.5, y + 7.0, -lean), (out_s, x + 1.0, y + 7.0, lean))
    words: list[Item] = [
        Path(polyline([(x + 4.0, y - 7.0), (x + radius + 2.0, y - 5.8)]), LINE),
        label(x + radius + 3.0, y - 4.0, "thin end up", 5.4),
        Path(polyline([(x + 5.4, y + 7.0), (x + radius + 2.0, y + 8.2)]), LINE),
        label(x + radius + 3.0, y + 10.0, "thick end down", 5.4),
    ]
    return Still(drawn), Turning((Still([mouth]),), leans), Still(words, inset=True)


# --- a cutter rolled ----------------------------------------------------------------------------------------------------------------


def cutter(tip: Tip, colour: str) -> Film:
    """A round cutter that stands on its tape, pressed in the middle and rolled to the left joint and to the right one."""
    middle, half, joint, radius = 54.0, 24.0, 38.0, 26.0
    drop = radius - math.sqrt(radius**2 - half**2)
    low = joint + drop
    press_s, left_s, right_s, whole_s = 2.0, 4.0, 7.0, 8.5
    along = [(0.0, 0.0), (press_s, 0.0), (left_s, -half), (right_s, half), (whole_s, half)]

    def rolled(time: float) -> float:
        for (t0, a), (t1, b) in zip(along, along[1:], strict=False):
            if time <= t1:
                return a + (b - a) * (time - t0) / (t1 - t0)
        return along[-1][1]

    moments = [press_s + (right_s - press_s) * k / 20 for k in range(21)]
    # from the front
    curve = [(middle - half + u, joint + v) for u, v in arc_points(2 * half, drop, 24)]
    groove = Style(stroke="#a07f63", width_mm=1.7)
    marks: list[Timed] = []
    for k, (a, b) in enumerate(zip(curve, curve[1:], strict=False)):
        out = (a[0] + b[0]) / 2 - middle
        begin = press_s + (left_s - press_s) * -out / half if out < 0 else left_s + (right_s - left_s) * (0.5 + 0.5 * out / half)
        begin = min(begin, right_s - 0.2)
        marks.append(Timed(Motif(f"cut{k}", (Path(polyline([a, b]), groove),)), SAME, begin, begin + 0.1))
    marks.sort(key=lambda one: one.begin_s)
    spots = [Path(circle(x, joint, 0.8), GUIDE_LINE._replace(width_mm=1.8)) for x in (middle - half, middle + half)]
    tape = Path(rectangle(-2, low, FILM_WIDE + 4, 7), Style(fill="#ecbf55", stroke="#8a6a1c", width_mm=0.4))
    level = Path(polyline([(-2, joint), (FILM_WIDE + 2, joint)]), GUIDE_DASH)
    ring = [
        Path(circle(0.0, -radius, radius), Style(stroke="#4c4453", width_mm=3.6)),
        Path(circle(0.0, -radius, radius), Style(stroke="#c4bfc9", width_mm=2.5)),
        *hand_at_rim((radius * math.cos(0.45), -radius + radius * math.sin(0.45))),
    ]
    still = [(0.0, middle, low + 3.0), (0.8, middle, low), (press_s, middle, low)]
    swung = [(time, middle + 0.09 * rolled(time), low) for time in moments]
    front: list[Layer] = [
        Still([Path(rectangle(-2, 20, FILM_WIDE + 4, HIGH), CAKE), rule(-2, 20, FILM_WIDE + 2, 20, LINE), level, tape, *spots]),
        Grown(marks, profile=((0.0, 1.0, 1.0), (1.0, 1.0, 1.0))),
        Moved(ring, keys_of(*still, *swung, (right_s + 0.3, middle + 2.0, low), (whole_s, middle + 22.0, low + 16.0))),
    ]
    # from above
    far, deep = 90.0, 17.0
    cx, cy = middle, 26.0 - far

    def touch(time: float) -> Point:
        turn = -rolled(time) / far
        return cx - far * math.sin(turn), cy + far * math.cos(turn)

    def bar(time: float) -> tuple[float, ...]:
        turn = -rolled(time) / far
        x, y = touch(time)
        c, n = math.cos(turn), math.sin(turn)
        gone = far * turn
        return time, x + c * gone, y + n * gone, math.degrees(turn)

    flesh = skin((6, 6), (26, 30))
    held: list[Item] = [
        Path(rectangle(-radius, 0, 2 * radius, deep), Style(fill="#d8d2dc", stroke="#4c4453", width_mm=0.6)),
        *forearm((radius + 8.0, 26.0), 48.0),
        Path(
            smooth([(radius - 8, 14), (radius + 6, 9), (radius + 16, 18), (radius + 13, 30), (radius + 2, 33), (radius - 7, 25)], closed=True), flesh
        ),
        *(Path(pod((radius + 5.0, 12.0 + 4.8 * k), (radius - 11.0 + 1.4 * k, 9.5 + 4.4 * k), 3.0, 2.6), flesh) for k in range(4)),
    ]
    push = pressing(0.0, deep + 3.0)
    end = bar(right_s)
    above: list[Layer] = [
        Moved(
            held,
            keys_of((0.0, cx, 38.0, 0.0), (0.8, cx, 26.0, 0.0), *(bar(time) for time in moments), (whole_s, end[1] + 4.0, end[2] + 16.0, end[3])),
            push,
        ),
        Still(
            [
                Path(circle(cx, cy, far), CAKE),
                *(Path(circle(cx + u, cy + math.sqrt(far**2 - u**2), 0.8), GUIDE_LINE._replace(width_mm=1.8)) for u in (-half, half)),
            ]
        ),
        Moved(
            [Path(circle(0, 0, 1.7), Style(fill=GUIDE, stroke="#fffaf0", width_mm=0.5))],
            keys_of((0.0, cx, 26.0), *((time, *touch(time)) for time in moments)),
        ),
    ]
    hand = Hand(
        keys_of(*((time, out, 0.0, 0.0) for time, out in along)),
        keys_of((0.0, 0.0), (0.8, 0.0), (1.4, 1.0), (right_s, 1.0), (right_s + 0.3, 0.0), (whole_s, 0.0)),
        ((0.0, (0.0, 0.0, -1.0)),),
        keys_of((0.0, 0.0), (press_s, half / (left_s - press_s)), (left_s, 2 * half / (right_s - left_s)), (right_s, 0.0)),
        (("press the middle", press_s), ("roll to one joint", left_s), ("roll to the other joint", right_s), ("lift it off", whole_s)),
    )
    return Film(
        "rolling the cutter",
        hand,
        (
            View(
                "From the front",
                "A round cutter stands on a paper tape and passes through two joints; a curve appears under it as it is rolled.",
                front,
                HIGH,
            ),
            View(
                "From above",
                "The cutter touches the round side at one place only, which moves to one joint and then to the other.",
                above,
                HIGH,
            ),
        ),
        "A cutter pressed in the middle, rolled to one joint, then to the other.",
        (1.6, 3.0, left_s, 5.8, whole_s),
        force="Press",
    )


# --- a bag twisted and held ---------------------------------------------------------------------------------------------------------


def holding(tip: Tip, colour: str) -> Film:
    """A bag twisted shut, laid in the fork of the thumb, gripped, steadied by the other hand and squeezed from the top."""
    twist_s, fork_s, close_s, steady_s, pipe_s, whole_s = 4.0, 6.0, 7.5, 9.5, 13.0, 14.5
    lean, at = -16.0, (24.0, 48.0)
    put = along_bag((0.0, 0.0), lean)

    gone = (*AWAY,)
    tail = put(25.0, 0.0)
    turning: list[tuple[float, ...]] = []
    for k in range(4):  # the right hand turns the empty end, over and over
        up, down = put(25.0, -2.4), put(25.0, 2.4)
        turning += [(0.3 + 0.9 * k, *down), (0.8 + 0.9 * k, *up)]
    right = keys_of(
        (0.0, *tail),
        *turning,
        (twist_s, *tail),
        (twist_s + JUMP_S, *gone),
        (fork_s - JUMP_S, *gone),
        (fork_s, 3.0, -3.0),
        (close_s, 0.0, 0.0),
        (whole_s, 0.0, 0.0),
    )
    opened = keys_of(
        (0.0, *gone), (twist_s, *gone), (twist_s + JUMP_S, 16.0, 14.0), (twist_s + 1.2, 0.0, 0.0), (fork_s - JUMP_S, 0.0, 0.0), (fork_s, *gone)
    )
    left = keys_of((0.0, 0.0, 0.0), (fork_s, 0.0, 0.0), (close_s, -26.0, 46.0), (whole_s, -26.0, 46.0))
    finger = put(8.0, 5.4)
    other = keys_of((0.0, -30.0, 60.0), (close_s, -30.0, 60.0), (steady_s - 0.3, *finger), (whole_s, *finger))
    folds = [
        Timed(
            Motif(f"fold{k}", (Path(smooth([put(u - 0.9, 2.4), put(u, 0.2), put(u + 1.5, -2.2)]), Style(stroke="#75624f", width_mm=0.5)),)),
            SAME,
            0.5 + 0.7 * k,
            0.7 + 0.7 * k,
        )
        for k, u in enumerate((48.5, 50.3, 52.1, 53.9, 55.7))
    ]
    far = 42.0
    led = keys_of(
        (0.0, *at, 0.0),
        (steady_s, *at, 0.0),
        (pipe_s, at[0] + far, at[1], 0.0),
        (pipe_s + 0.4, at[0] + far, at[1], 0.0),
        (whole_s, at[0] + far + 4, at[1] - 9, 0.0),
    )
    floor = at[1] + 2.2
    line = strand_paths([(at[0] - 2.0, floor), (at[0] + far, floor)], max(3.6, tip.bead_width_mm * 0.8), "ridged", colour)
    group = Turning(
        (
            Moved(forearm(put(48, 6), 34.0), right),
            Moved([*forearm(put(30, 10), 112.0)], left),
            Moved([*forearm(put(50, 15), 46.0), *open_hand(put)], opened),
            Still(bag_and_tip((0.0, 0.0), lean, tip, hand=False)),
            Grown(folds, profile=((0.0, 1.0, 1.0), (1.0, 1.0, 1.0))),
            Moved(fingers(left_fingers(put)), left),
            Moved(steadying_hand((0.0, 0.0), 108.0), other),
            Moved(fingers(put), right, _grip_marks(put)),
            Moved(leading(_over_twist(put)), during((0.0, twist_s - 0.3, 0.0, 0.0))),
        ),
        led,
    )
    view: list[Layer] = [
        Still([Path(rectangle(-2, floor + 2.4, FILM_WIDE + 4, 60), CAKE), rule(-2, floor + 2.4, FILM_WIDE + 2, floor + 2.4, LINE)]),
        Wiped(line, keys_of((0.0, -20.0), (steady_s, -20.0), (steady_s + 0.2, at[0] - 1.0), (pipe_s, at[0] + far), (whole_s, at[0] + far))),
        group,
    ]
    hand = Hand(
        tuple((time, (x - at[0], 0.0, 0.0)) for time, (x, *_) in led),
        keys_of((0.0, 0.0), (steady_s - 0.2, 0.0), (steady_s + 0.3, 1.0), (pipe_s - 0.2, 1.0), (pipe_s + 0.2, 0.0), (whole_s, 0.0)),
        ((0.0, (-1.0, 0.0, 0.0)),),
        keys_of((0.0, 0.0), (steady_s, far / (pipe_s - steady_s)), (pipe_s, 0.0)),
        (
            ("twist the bag shut", twist_s),
            ("lay the twist in the fork of the thumb", fork_s),
            ("close the hand round it", close_s),
            ("a finger of the other hand under the tip", steady_s),
            ("squeeze with the palm, at the top", pipe_s),
            ("stop squeezing, then lift", whole_s),
        ),
    )
    told = "Two hands and a bag: it is twisted shut, laid into the open right hand, gripped, steadied by a finger of the left hand, and squeezed."
    return Film(
        "holding a bag",
        hand,
        (View("Both hands", told, view, HIGH),),
        "Twisting and holding a bag.",
        (2.6, 5.6, steady_s, 12.0, whole_s),
    )


def _over_twist(put: Callable[[float, float], Point]) -> list[Point]:
    """The way of the hand that turns the empty end of a bag: over it, away from the reader."""
    return [put(u, v) for u, v in ((57, 15.5), (52.5, 11.5), (50.0, 4.0), (49.6, -4.0), (51.5, -12.0), (56.5, -17.0))]


def _grip_marks(put: Callable[[float, float], Point]) -> list[Item]:
    """Two arrows that press where the palm is, at the top of the bag."""
    return [each for side in (-1.0, 1.0) for each in pressing(49.0, 13.5 * side, put)]


# --- a side smoothed ----------------------------------------------------------------------------------------------------------------

GLASS = Style(fill="#cfe0e2", stroke="#51777b", width_mm=0.5, opacity=0.8)
ROUGH, SMOOTH_COAT = Style(fill="#e2c78e", stroke="#8a6f5c", width_mm=0.5), Style(fill="#f2e2bd", stroke="#8a6f5c", width_mm=0.4)
BLADE = Style(fill="#a9a4ae", stroke="#4c4453", width_mm=0.5)


def coating(tip: Tip, colour: str) -> Film:
    """A scraper held still and upright against two coating discs, while the other hand turns the cake once."""
    held_s, turned_s, whole_s = 2.0, 12.0, 14.0
    real_mm = 100.0  # half the width of the cake: it is drawn smaller
    press = keys_of((0.0, 0.0), (0.9, 0.0), (1.5, 0.5), (turned_s, 0.5), (turned_s + 0.3, 0.0), (whole_s, 0.0))
    comes, goes = 0.9, turned_s + 0.5
    # from above
    x, y, radius, rim = 62.0, 10.0, 46.0, 58.0
    at_deg = 24.0  # where the blade touches, to the right of the front
    around = math.tau * radius
    gone = keys_of((0.0, 0.0), (held_s, 0.0), (turned_s, around), (whole_s, around))
    swept = math.radians(90.0 - at_deg)

    def ring(share: float) -> Point:
        """The rough coat, what comes last to the blade first: it goes from its end."""
        turn = swept - math.tau * (1.0 - share)
        wave = radius + 1.6 + 1.1 * math.sin(17 * turn) + 0.6 * math.sin(11 * turn + 1.0)
        return wave * math.cos(turn), wave * math.sin(turn)

    rough = Path(smooth([ring(k / 56) for k in range(57)]), Style(stroke="#c9a55f", width_mm=5.6, cap="butt"))
    spokes = [((radius + 7.0) * math.cos(math.tau * k / 24), (radius + 7.0) * math.sin(math.tau * k / 24), math.tau * k / 24) for k in range(24)]
    ticks = Path(
        tuple(part for u, v, a in spokes for part in (("M", u, v), ("L", u + 4.0 * math.cos(a), v + 4.0 * math.sin(a)))),
        Style(stroke="#5f5561", width_mm=1.1),
    )
    table = Turning(
        (Still([ticks]), Led([rough], keys_of((0.0, 1.0), (held_s, 1.0), (turned_s, 0.0), (whole_s, 0.0)))),
        tuple((time, (x, y, math.degrees(far / radius))) for time, (far,) in gone),
    )
    touch = (x + radius * math.sin(math.radians(at_deg)), y + radius * math.cos(math.radians(at_deg)))
    lean_deg = -at_deg + 30.0  # the blade opens by 30 degrees towards the side that comes
    on_blade = turned((0.0, 0.0), lean_deg)
    c, n = on_blade(1.0, 0.0)
    blade: list[Item] = [
        *forearm(on_blade(34.0, 12.0), 30.0),
        Path(polygon([on_blade(0, 0), on_blade(26, -1.2), on_blade(26, 1.2)]), BLADE),
        Path(smooth([on_blade(u, v) for u, v in ((22, -4), (34, -5), (41, 5), (37, 16), (26, 16), (21, 6))], closed=True), skin((10, 0), (30, 20))),
        *(Path(pod(on_blade(36.0 - 0.8 * k, 3.4 * k), on_blade(20.5 + 0.8 * k, 2.2 + 3.2 * k), 2.9, 2.4), skin((10, 0), (30, 20))) for k in range(4)),
        Path(pod(on_blade(36.0, -5.0), on_blade(17.0, -4.0), 3.2, 2.7), skin((10, -10), (30, 8))),
    ]
    heap = Motif("taken off", (Path(smooth([(0, 0), (5, 0.4), (11, 3.0), (12, -0.6), (8, -3.8), (3, -2.2)], closed=True), ROUGH),))
    away = (touch[0] + 20.0, touch[1] + 12.0)
    way = [(x - 30 * math.sin(math.radians(a)), y + 30 * math.cos(math.radians(a))) for a in (-34, -20, -6, 8, 22, 36)]
    above: list[Layer] = [
        Still([Path(circle(x, y, rim), GREY), Path(circle(x, y, radius + 6.0), BOARD)]),
        table,
        Still([Path(circle(x, y, radius), GLASS), *leading(way)]),
        Moved(hand_on_rim(), pulled(gone, (x, y), radius, rim, 9, 28.0)),
        Turning(
            (Grown([Timed(heap, (c, n, -n, c, 0.0, 0.0), held_s + 0.3, turned_s)], profile=((0.0, 0.2, 0.2), (1.0, 1.0, 1.0))), Still(blade)),
            keys_of((0.0, *away, 0.0), (comes, *touch, 0.0), (goes, *touch, 0.0), (whole_s, *away, 0.0)),
        ),
    ]

    # from the side
    wall, top, foot = 62.0, 20.0, 58.0
    wave = [(wall - 8, top), (wall, top), (wall + 3, top + 4), (wall + 2, top + 11), (wall + 4.4, top + 17), (wall + 2.4, top + 24)]
    wave += [(wall + 4.6, top + 30), (wall + 2.6, foot - 2), (wall, foot), (wall - 8, foot)]
    bulge = [Path(smooth([(u - wall, v) for u, v in wave], closed=True), ROUGH)]
    sponge = Style(fill="#cf9a5c", stroke="#8a5a2a", width_mm=0.3)
    cut: list[Item] = [
        Path(rectangle(-2, top, wall + 2, foot - top), SMOOTH_COAT),
        *(Path(rectangle(-2, top + 5.0 + 11.6 * k, wall - 5.0, 9.4), sponge) for k in range(3)),
        *(Path(rectangle(-2, level, wall + 2, 3.0), GLASS._replace(opacity=1.0)) for level in (top - 3.0, foot)),
        Path(rectangle(-2, foot + 3.0, wall + 12, 3.0), BOARD),
        Path(rectangle(-2, foot + 6.0, wall + 26, 5.0), GREY),
    ]
    upright: list[Item] = [
        *forearm((31.0, 26.0), 24.0),
        Path(polygon([(0, 11), (3.5, 11), (13, 24), (13, 46), (3.5, foot + 2.5), (0, foot + 2.5)]), BLADE),
        Path(smooth([(14, 26), (24, 19), (33, 24), (34, 37), (26, 45), (15, 43)], closed=True), skin((10, 20), (30, 44))),
        *(Path(pod((27.0, 24.0 + 5.2 * k), (9.5 + 0.6 * k, 25.0 + 5.2 * k), 3.1, 2.6), skin((8, 20), (30, 44))) for k in range(4)),
    ]
    taken = Motif("taken off, from the side", (Path(smooth([(0, 14), (4, 8), (5.4, -2), (3.4, -13), (0, -16)], closed=True), ROUGH),))
    side: list[Layer] = [
        Moved(bulge, keys_of((0.0, wall, 0.0), (held_s, wall, 0.0), (held_s + 0.8 * (turned_s - held_s), wall - 6.0, 0.0))),
        Still(cut),
        Turning(
            (
                Still(upright),
                Grown(
                    [Timed(taken, (1.0, 0.0, 0.0, 1.0, 3.5, (top + foot) / 2), held_s + 0.3, turned_s)], profile=((0.0, 0.1, 0.5), (1.0, 1.0, 1.0))
                ),
            ),
            keys_of((0.0, wall + 26.0, 0.0, 0.0), (comes, wall, 0.0, 0.0), (goes, wall, 0.0, 0.0), (whole_s, wall + 26.0, 0.0, 0.0)),
        ),
        Still(
            [
                Path(polyline([(wall - 3.0, top - 2.0), (wall - 12.0, top - 8.0)]), LINE),
                label(wall - 13.0, top - 8.5, "upper disc", 5.4, "end"),
                Path(polyline([(wall - 3.0, foot + 1.5), (wall - 12.0, foot + 13.0)]), LINE),
                label(wall - 13.0, foot + 16.5, "lower disc", 5.4, "end"),
            ],
            inset=True,
        ),
    ]
    speed = math.tau * real_mm / (turned_s - held_s)
    hand = Hand(
        tuple((time, (far * real_mm / radius, 0.0, 0.0)) for time, (far,) in gone),
        press,
        ((0.0, (0.0, 0.0, -1.0)),),
        keys_of((0.0, 0.0), (held_s, speed), (turned_s, 0.0)),
        (
            ("hold the scraper upright against both discs", held_s),
            ("turn the table once, slowly", turned_s),
            ("stop, then lift the blade away", whole_s),
        ),
    )
    return Film(
        "coating a side",
        hand,
        (
            View(
                "From above",
                "The blade stays, at 30 degrees to the side; the left hand turns the table. Behind the blade the coat is as wide as the disc.",
                above,
                HIGH,
            ),
            View("From the side", "Cut down the middle: the upright blade touches both discs and takes off what stands out past them.", side, HIGH),
        ),
        f"One turn with the scraper, round a cake {2 * real_mm / 10:.0f} cm wide, in {turned_s - held_s:.0f} seconds.",
        (0.6, held_s + 2.0, 0.5 * (held_s + turned_s), turned_s, whole_s),
        force="Press",
    )


FILMS.update({"rose on a nail": rose, "rolling the cutter": cutter, "holding a bag": holding, "coating a side": coating})
