"""The moving picture of a paper strip that marks a side: wrapped, cut to the side, folded, cut to one curve, wrapped again and marked along.

`FILMS`: name -> function of a tip and a colour, giving a `Film`. Its lengths are those that the page works out.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from calc.curves import arc_points
from calc.division import pitch_mm
from calc.drawing.marks import rule
from calc.drawing.scene import CAKE, LINE, Item, Path, Point, Style, arc, circle, polygon, polyline, rectangle, smooth
from calc.tips import Tip
from tools.films.moving import Film, Grown, Hand, Keys, Laid, Layer, Led, Moved, Rod, Sheet, Still, Timed, Turning, View, Wiped
from tools.films.moving_marking import DOT, pinch
from tools.films.moving_rows import FILM_WIDE
from tools.films.moving_tools import AWAY, GREY, JUMP_S, keys_of
from tools.films.shared_parts import PAPER

FILMS: dict[str, Callable[[Tip, str], Film]] = {}
HIGH = 82.0
SIDE_MM, REPEATS, DROP_MM, STRIP_MM = 660.0, 8, 30.0, 90.0  # as the page has them
DOWN_MM = 27.0  # from the upper edge of the strip to the joints
FOLDS = round(math.log2(REPEATS))
RING = (Style(stroke="#8a6f5c", width_mm=2.6), Style(stroke="#fffdf6", width_mm=1.6))
PENCIL = Style(stroke="#54364f", width_mm=1.0)
WRAP_S, PENCIL_S, CUT_S, FOLD_S, CURVE_S, AGAIN_S, MARK_S, WHOLE_S = 3.0, 5.4, 7.0, 10.8, 14.2, 17.8, 23.0, 25.4  # when each step ends
OUT = (140.0, 84.0)  # from here a tool comes, and here it goes

MIDDLE = (65.0, 39.0)  # from above
RADIUS = 28.0
OVERLAP = 4.0  # by so much each end is too long at first, as drawn
FLAT, LEFT, BOARD_Y = 104.0 / SIDE_MM, 8.0, 32.0  # on the board
NEAR, STRIP_Y = 0.6, 16.0  # at the side, from in front: two repeats of it
JOINT_Y = STRIP_Y + NEAR * DOWN_MM


def shown(begin_s: float, end_s: float) -> Keys:
    """Where something is that is in the picture from one time to another."""
    keys: list[tuple[float, ...]] = [(0.0, *AWAY, 0.0), (begin_s, *AWAY, 0.0)] if begin_s else []
    keys += [(begin_s + JUMP_S if begin_s else 0.0, 0.0, 0.0, 0.0), (end_s, 0.0, 0.0, 0.0)]
    return keys_of(*keys, *([(end_s + JUMP_S, *AWAY, 0.0)] if end_s < WHOLE_S else []))


def led_on(*rows: tuple[float, ...]) -> Keys:
    """Keys of something that is in the picture from the first of them to the last."""
    begin, *place = rows[0]
    before: list[tuple[float, ...]] = [(0.0, *AWAY), (begin, *AWAY), (begin + JUMP_S, *place)] if begin > 0 else [rows[0]]
    return keys_of(*before, *rows[1:], *([(rows[-1][0] + JUMP_S, *AWAY)] if rows[-1][0] < WHOLE_S else []))


def strip_end(share: float, beyond: float = 0.0) -> tuple[Point, Point]:
    """Where the right half of a strip leaves the round and where its end is, when that share lies on: from above, its middle at the back."""
    turn = math.pi * (share - 0.5)
    x, y = RADIUS * math.cos(turn), RADIUS * math.sin(turn)
    free = RADIUS * math.pi * (1.0 - share) + beyond
    return (x, y), (x - free * math.sin(turn), y + free * math.cos(turn))


def wrapping(begin_s: float, end_s: float, way: float, beyond: float = 0.0) -> tuple[list[Layer], list[tuple[float, ...]]]:
    """The right half of a strip wrapped round, and where its end is; `way` is 1 where its ends come to the worker, -1 where they meet behind."""
    times = [(begin_s + (end_s - begin_s) * k / 8, 0.3 + 0.7 * k / 8) for k in range(9)]
    ends = [(time, *strip_end(share, beyond)) for time, share in times]
    rod = keys_of(*((time, a[0], way * a[1], b[0], way * b[1]) for time, a, b in ends))
    half = arc(0, 0, RADIUS, -90.0 * way, 90.0 * way)
    laid = keys_of((0.0, 0.0), (begin_s - JUMP_S, 0.0), *times)
    return [Rod(rod, RING), *(Led([Path(half, style)], laid) for style in RING)], [(time, b[0], way * b[1]) for time, _, b in ends]


def cut_edge(left: float, top: float, wide: float, scale: float, count: int) -> list[list[Point]]:
    """The lower edge of a strip that is cut along its curves, from its left end, curve by curve."""
    return [[(left + k * wide + x, top + scale * DOWN_MM + y) for x, y in arc_points(wide, scale * DROP_MM, 8)] for k in range(count)]


def cut_strip(left: float, top: float, wide: float, scale: float, count: int) -> Path:
    edge = [part for curve in cut_edge(left, top, wide, scale, count) for part in smooth(curve)[1:]]
    joint = top + scale * DOWN_MM
    return Path((("M", left, top), ("L", left, joint), *edge, ("L", left + count * wide, top), ("Z",)), PAPER)


def folded(begin_s: float, end_s: float, fold: int) -> list[tuple[float, float, float, float]]:
    """The flap of a fold in time: where it is folded, where its free edge is, and how high that is lifted."""
    wide = FLAT * SIDE_MM / 2**fold
    at = []
    for k in range(7):
        turn = math.pi * k / 6
        at.append((begin_s + (end_s - begin_s) * k / 6, LEFT + wide, LEFT + wide + wide * math.cos(turn), 0.45 * wide * math.sin(turn)))
    return at


def pointed(colour: str) -> list[Item]:
    """The right hand with a stick or a pencil, its point at (0, 0)."""
    line = polyline([(0.0, 0.0), (23.0, -13.8)])
    return pinch([Path(line, Style(stroke="#5c4326", width_mm=2.2)), Path(line, Style(stroke=colour, width_mm=1.3))], (13.0, -7.0))


def strip(tip: Tip, colour: str) -> Film:
    """A strip wrapped round and cut to the side, folded three times, cut to one curve, wrapped again, and its edge marked on the cake."""
    pitch = pitch_mm(SIDE_MM, REPEATS)
    cx, cy = MIDDLE

    pencil, stick = pointed("#8d6b9c"), pointed("#d9b27c")
    scissors = pinch(
        [
            Path(polygon([(0.0, 0.0), (17.0, -4.4), (17.0, -1.8)]), GREY),
            Path(polygon([(0.0, 0.0), (17.0, 0.6), (17.0, 3.2)]), GREY),
            Path(circle(18.0, 0.0, 2.0), GREY),
        ],
        (19.0, -1.0),
    )

    # from above
    first, first_end = wrapping(0.2, WRAP_S - 0.4, 1.0, OVERLAP)
    second, second_end = wrapping(AGAIN_S - 2.3, AGAIN_S - 0.5, -1.0)
    marked = [AGAIN_S + 0.7 + 2.0 * k for k in range(3)]  # when each of three joints is pricked
    run = 1.5  # how long the stick runs along a curve
    along: list[tuple[float, float]] = [(AGAIN_S + 0.3, -pitch)]  # where it is, along the side from its middle [mm]
    for k, time in enumerate(marked):
        along += [(time, (k - 1) * pitch), (time + 0.2, (k - 1) * pitch)]
        along += [(time + 0.2 + run * share / 4, (k - 1 + share / 4) * pitch) for share in (1, 2, 3, 4)] if k < 2 else []
    away_s = marked[-1] + 0.8

    def round_it(way_mm: float, off: float = 0.0) -> Point:
        turn = math.tau * way_mm / SIDE_MM
        return cx + (RADIUS + off) * math.sin(turn), cy + (RADIUS + off) * math.cos(turn)

    dots = []
    for k in range(REPEATS):
        number = k if k <= REPEATS // 2 else k - REPEATS
        begin = marked[number + 1] if abs(number) <= 1 else MARK_S + 0.15 * abs(number)
        dots.append(Timed(DOT, (1.0, 0.0, 0.0, 1.0, *round_it(number * pitch)), begin, begin + 0.15))
    dots.sort(key=lambda one: one.begin_s)
    straight, mirrored = (1.0, 0.0, 0.0, 1.0, cx, cy), (-1.0, 0.0, 0.0, 1.0, cx, cy)
    hand = pinch()
    right = Moved(hand, led_on((0.0, *first_end[0][1:]), *first_end, (WRAP_S, *first_end[-1][1:])))
    left = Moved(hand, led_on((0.0, *first_end[0][1:]), *first_end, (PENCIL_S, *first_end[-1][1:])))
    both = Moved(hand, led_on(*second_end, (AGAIN_S - 0.2, *second_end[-1][1:])))
    seam = (cx - OVERLAP, cy + RADIUS + 1.0)
    above: list[Layer] = [
        Still([Path(circle(cx, cy, RADIUS + 6.0), GREY), Path(circle(cx, cy, RADIUS), CAKE)]),
        Turning((Laid(first, straight), Laid(first, mirrored)), shown(0.0, PENCIL_S)),
        Turning((Laid(second, straight), Laid(second, mirrored)), shown(AGAIN_S - 2.3, MARK_S + 0.9)),
        Grown(dots, profile=((0.0, 0.5, 0.5), (1.0, 1.0, 1.0))),
        Laid((right, both), straight),
        Laid((left, both), mirrored),
        Moved(pencil, led_on((WRAP_S, *OUT), (WRAP_S + 0.6, *seam), (PENCIL_S - 0.4, *seam), (PENCIL_S, *OUT))),
        Moved(
            stick,
            led_on((AGAIN_S, *OUT), *((time, *round_it(way, 1.0)) for time, way in along), (away_s, *OUT)),
        ),
    ]

    # in front of the side, first where the strip meets itself
    ground: list[Item] = [Path(rectangle(-2, 9.0, FILM_WIDE + 4, HIGH), CAKE), rule(-2, 9.0, FILM_WIDE + 2, 9.0, LINE)]
    tall = NEAR * STRIP_MM
    seam_x, over = 56.0, 18.0
    under = Path(rectangle(-160.0, 0.0, 160.0, tall), PAPER)
    upper = Path(rectangle(0.0, 0.0, 160.0, tall), PAPER)
    meets: list[Layer] = [
        Still(ground),
        Moved([under], keys_of((0.0, seam_x - 50.0, STRIP_Y), (0.4, seam_x - 50.0, STRIP_Y), (WRAP_S - 1.0, seam_x + over, STRIP_Y))),
        Moved([upper], keys_of((0.0, seam_x + 60.0, STRIP_Y), (0.4, seam_x + 60.0, STRIP_Y), (WRAP_S - 0.4, seam_x, STRIP_Y))),
        Led([Path(polyline([(seam_x - 0.8, STRIP_Y), (seam_x - 0.8, STRIP_Y + tall)]), PENCIL)], keys_of((WRAP_S + 0.6, 0.0), (PENCIL_S - 0.4, 1.0))),
        Moved(
            pencil,
            led_on(
                (WRAP_S, *OUT),
                (WRAP_S + 0.6, seam_x - 0.8, STRIP_Y),
                (PENCIL_S - 0.4, seam_x - 0.8, STRIP_Y + tall),
                (PENCIL_S, *OUT),
            ),
        ),
    ]

    # on the board
    low = BOARD_Y + FLAT * STRIP_MM
    end = LEFT + FLAT * SIDE_MM
    wide = FLAT * pitch
    snip_s = CUT_S - 0.9
    folds = [folded(CUT_S + 0.2 + 1.2 * k, CUT_S + 1.1 + 1.2 * k, k + 1) for k in range(FOLDS)]
    base: list[tuple[float, ...]] = []
    flap: list[tuple[float, ...]] = []
    hold: list[tuple[float, ...]] = []
    right_end = end
    for fold in folds:
        begin = fold[0][0]
        for time, reach in ((begin - JUMP_S, right_end), (begin, fold[0][1])):
            base.append((time, LEFT, BOARD_Y, reach, BOARD_Y, reach, low, LEFT, low))
        right_end = fold[0][1]
        hold.append((begin - 0.15, fold[0][2] + 4.0, low + 4.0))
        for time, line, edge, lift in fold:
            flap.append((time, line, BOARD_Y, edge, BOARD_Y - lift, edge, low - lift, line, low))
            hold.append((time, edge, low - lift + 1.0))
        flap.append((fold[-1][0] + 0.28, *flap[-1][1:]))
    last_s = CURVE_S - 1.9  # from here on it is cut
    (curve,) = cut_edge(LEFT, BOARD_Y, wide, FLAT, 1)
    off = Path((*smooth(curve), ("L", LEFT + wide, low), ("L", LEFT, low), ("Z",)), PAPER)
    drawn = [(FOLD_S + 0.3 + 0.7 * k / 4, *curve[2 * k]) for k in range(5)]
    snipped = [(last_s + 1.2 * (4 - k) / 4, *curve[2 * k]) for k in range(4, -1, -1)]
    unfold_s = CURVE_S + 1.1
    board: list[Layer] = [
        Still([Path(rectangle(-2, -2, FILM_WIDE + 4, HIGH + 4), Style(fill="#d8bf97"))]),
        Turning(
            (
                Sheet(keys_of(*base), PAPER),
                Turning((Sheet(keys_of(*flap), PAPER),), shown(folds[0][0][0], last_s)),
                Moved(
                    [Path(rectangle(0, BOARD_Y, 7.0, low - BOARD_Y), PAPER)],
                    led_on((0.0, end, 0.0), (snip_s, end, 0.0), (CUT_S - 0.2, end + 20.0, 14.0)),
                ),
                Led([Path(smooth(curve), PENCIL)], keys_of((FOLD_S + 0.3, 0.0), (FOLD_S + 1.0, 1.0))),
            ),
            shown(PENCIL_S, last_s),
        ),
        Turning(
            (
                Still([cut_strip(LEFT, BOARD_Y, wide, FLAT, 1)]),
                Moved([off], keys_of((0.0, 0.0, 0.0), (last_s + 1.2, 0.0, 0.0), (CURVE_S, 0.0, 26.0))),
            ),
            shown(last_s, CURVE_S),
        ),
        Turning(
            (Wiped([cut_strip(LEFT, BOARD_Y, wide, FLAT, REPEATS)], keys_of((CURVE_S, LEFT + wide), (unfold_s, end + 1.0))),),
            shown(CURVE_S, AGAIN_S - 2.3),
        ),
        Moved(
            scissors,
            led_on((PENCIL_S, *OUT), (PENCIL_S + 0.4, end, low), (snip_s, end, BOARD_Y), (CUT_S, *OUT)),
            turn_deg=60.0,
        ),
        Moved(hand, led_on(*hold, (FOLD_S, *OUT))),
        Moved(pencil, led_on((FOLD_S, *OUT), *drawn, (last_s - 0.2, *OUT))),
        Moved(scissors, led_on((last_s - 0.2, *OUT), *snipped, (CURVE_S, *OUT))),
        Moved(hand, led_on((CURVE_S, LEFT + wide, low - 8.0), (unfold_s, end, low - 8.0), (AGAIN_S - 2.3, end, low - 8.0))),
    ]

    # in front of the side again
    near = NEAR * pitch
    begin_x = cx - 3 * near
    halves = cut_edge(cx - near, STRIP_Y, near, NEAR, 2)
    whole = [*halves[0], *halves[1][1:]]
    work = [(time, *_on_edge(whole, (far / pitch + 1.0) / 2)) for time, far in along]
    here = [Timed(DOT, (1.0, 0.0, 0.0, 1.0, cx + (k - 1) * near, JOINT_Y), time, time + 0.15) for k, time in enumerate(marked)]
    again: list[Layer] = [
        Still(ground),
        Moved(
            [cut_strip(begin_x, STRIP_Y, near, NEAR, 6)],
            keys_of((0.0, 0.0, -70.0), (AGAIN_S - 2.3, 0.0, -70.0), (AGAIN_S - 1.2, 0.0, 0.0), (MARK_S + 0.5, 0.0, 0.0), (MARK_S + 1.7, 0.0, -70.0)),
        ),
        *(
            Led([Path(smooth(half), Style(stroke="#a07f63", width_mm=1.6))], keys_of((time + 0.2, 0.0), (time + 0.2 + run, 1.0)))
            for half, time in zip(halves, marked, strict=False)
        ),
        Grown(here, profile=((0.0, 0.5, 0.5), (1.0, 1.0, 1.0))),
        Moved(stick, led_on((AGAIN_S, *OUT), *work, (away_s, *OUT))),
    ]
    paper: list[Layer] = [
        Turning(meets, shown(0.0, PENCIL_S)),
        Turning(board, shown(PENCIL_S, AGAIN_S - 2.3)),
        Turning(again, shown(AGAIN_S - 2.3, WHOLE_S)),
    ]

    pressed: list[tuple[float, ...]] = [(0.0, 0.0)]
    for k, time in enumerate(marked):
        pressed += [(time - 0.05, 0.0), (time, 0.2), (time + 0.2, 0.2 if k == 2 else 0.1)]
        pressed.append((time + 0.2 + run, 0.1) if k < 2 else (time + 0.3, 0.0))
    pace = pitch / run
    worked = Hand(
        keys_of((0.0, -pitch, 0.0, 0.0), *((time, far, 0.0, 0.0) for time, far in along), (WHOLE_S, pitch, 0.0, 0.0)),
        keys_of(*pressed, (WHOLE_S, 0.0)),
        ((0.0, (0.0, 0.0, -1.0)),),
        keys_of((0.0, 0.0), (marked[0] + 0.2, pace), (marked[0] + 0.2 + run, 0.0), (marked[1] + 0.2, pace), (marked[1] + 0.2 + run, 0.0)),
        (
            ("wrap the strip round", WRAP_S),
            ("pencil where it meets itself", PENCIL_S),
            ("cut there: it is as long as the side", CUT_S),
            ("fold it: halves, quarters, eighths", FOLD_S),
            ("draw one curve, cut all at once", CURVE_S),
            ("wrap it round again, ends at the back", AGAIN_S),
            ("prick each joint, run the stick along the edge", MARK_S),
            ("so on all round, then take it off", WHOLE_S),
        ),
    )
    return Film(
        "marking with a strip",
        worked,
        (
            View(
                "From above",
                "Both hands lead the ends of a strip round the cake until they overlap. Later its ends meet at the back, and a stick marks along it.",
                above,
                HIGH,
            ),
            View(
                "The strip",
                "A pencil marks where the strip meets itself. Cut there, it is folded three times and cut to one curve. "
                "Round the cake again, its edge is a row of curves, and a cocktail stick marks each joint and runs along the edge.",
                paper,
                HIGH,
            ),
        ),
        f"Non-stick paper round a side of {SIDE_MM / 10:.0f} cm, folded {FOLDS} times: {REPEATS} repeats, each {pitch / 10:.2f} cm wide, "
        f"with a drop of {DROP_MM / 10:.0f} cm.",
        (PENCIL_S - 1.0, folds[1][3][0] - 0.1, last_s + 0.7, marked[1] + 0.9, WHOLE_S),
        force="Press",
    )


def _on_edge(edge: Sequence[Point], share: float) -> Point:
    """A place on a cut edge, at a share of its width."""
    at = edge[0][0] + share * (edge[-1][0] - edge[0][0])
    for (x0, y0), (x1, y1) in zip(edge, edge[1:], strict=False):
        if at <= x1 + 1e-6:
            return at, y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    return edge[-1]


FILMS["marking with a strip"] = strip
