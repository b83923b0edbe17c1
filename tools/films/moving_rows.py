"""The moving pictures of rows of piping: swags, borders, shells, strings.

`FILMS`: name of a kind -> function of its tip and colour, giving a `Film`. The time and the path are those of `Kind.strokes`, the pieces those
that the kind lays round a side (`calc.drawing.motifs`), each appearing when the tip passes it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from calc.curves import catenary_length_mm, catenary_points
from calc.drawing.bag import bag_and_tip, bag_on_end, forearm, pod, skin
from calc.drawing.hands import panel_of
from calc.drawing.marks import label, rule
from calc.drawing.motifs import LOOKS, SHADOW_COLOUR, motif, ribbon, strand_paths
from calc.drawing.motifs.laid import WAVE, Laid, Ribbon
from calc.drawing.motifs.look import BOARD, WIDE
from calc.drawing.motifs.shell_look import SittingLook
from calc.drawing.scene import (
    CAKE,
    GUIDE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    Group,
    Item,
    Matrix,
    Motif,
    Parts,
    Path,
    Point,
    Style,
    Text,
    Use,
    arc,
    circle,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.shading import tone
from calc.drawing.tip_openings import opening_parts
from calc.rows import KINDS, RowSpec
from calc.rows.forms import Arc, Straight
from calc.rows.kind import Kind, Vector
from calc.tips import Tip
from tools.films.moving import (
    ABOVE,
    AWAY_MM,
    FRONT,
    Camera,
    Film,
    Grown,
    Hand,
    Keys,
    Layer,
    Moved,
    Still,
    Thread,
    Timed,
    Turning,
    View,
    Wiped,
    crossing,
    hand_of,
    leading,
    on_surface,
    press_marks,
    projected,
    seen_along,
    value_at,
)
from tools.films.shared_parts import steadying_hand

FILM_WIDE, ABOVE_HIGH = 130.0, 76.0
WALL = 35.0  # where the side is, seen from above
STEEL = Style(fill="#cfc7cd", stroke="#5f5561", width_mm=0.5)  # a turntable
TICK = Style(stroke="#5f5561", width_mm=1.1)
LEAN: dict[str, Vector] = {"side": (0.0, 0.3, 0.0), "base": (0.0, 0.0, 0.3), "edge": (0.0, 0.0, 0.0)}
FILMS: dict[str, Callable[[Tip, str], Film]] = {}


def bag(hand: Hand, tip: Tip, surface: str, camera: Camera, origin: Point, rest: Point = (0.0, 0.0), thick: int = -1) -> Moved:
    """The bag, its tip and the hand, led along the path of a hand whose tip faces one way all the time."""
    x, y, z = hand.faces[0][1]
    if z < -0.99 and camera is FRONT and surface == "side":
        return on_end(hand, tip, projected(hand, surface, camera, origin, rest))
    axis = seen_along((x, y, z), surface, camera, LEAN[surface])
    seen = max(0.5, min(1.0, math.hypot(*axis)))
    return Moved(
        bag_and_tip((0.0, 0.0), 0.0, tip, 1.0, thick, arm_deg=14.0),
        projected(hand, surface, camera, origin, rest),
        press_marks(),
        math.degrees(math.atan2(axis[1], axis[0])),
        seen,
    )


ARM_FROM = 104.0  # the left arm comes from below, a little from the left [deg]


def steadied(hand: Hand, camera: Camera, origin: Point, axis_deg: float, rest: Point = (0.0, 0.0), surface: str = "side") -> Moved:
    """The forefinger of the other hand, which steadies the tip from below and goes with it."""
    turn = math.radians(axis_deg)
    under = 5.6 if camera is FRONT else 6.4
    x, y = 8.5 * math.cos(turn) - under * math.sin(turn), 8.5 * math.sin(turn) + under * math.cos(turn)
    return Moved(
        steadying_hand((0.0, 0.0), 0.0),
        projected(hand, surface, camera, origin, (rest[0] + x, rest[1] + y)),
        turn_deg=max(ARM_FROM, axis_deg + (74.0 if camera is FRONT else 82.0)),
    )


def on_end(hand: Hand, tip: Tip, keys: Keys) -> Moved:
    """The bag held at right angles to the side, seen from in front: from its twisted end."""
    turn, seen = 52.0, 0.62
    c, n = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    marks = Group(tuple(press_marks(at_mm=48.0 * seen)), matrix=(c, n, -n, c, 0.0, 0.0))
    return Moved(bag_on_end((0.0, 0.0), turn, tip, seen), keys, (marks,))


TO_AND_FRO = leading([(-8.0, 0.0), (8.0, 0.0)], both=True)
AHEAD_MM = 10.0  # of the tip that is rocked


def rocked(hand: Hand, surface: str, camera: Camera, origin: Point) -> Moved:
    """An arrow with two heads before a tip that is rocked across its line: it lies along the strokes, and is there while the hand squeezes."""
    return Moved((), crossing(hand, surface, camera, origin, AHEAD_MM), TO_AND_FRO)


def ground(surface: str, high: float = 76.0) -> list[Item]:
    """The cake in a view from the front: its side, its top edge or its foot on the board."""
    if surface == "side":
        return [Path(rectangle(-2, -2, FILM_WIDE + 4, high + 4), CAKE)]
    if surface == "edge":
        return [Path(rectangle(-2, 36, FILM_WIDE + 4, high), CAKE)]
    return [Path(rectangle(-2, -2, FILM_WIDE + 4, 62), CAKE), Path(rectangle(-2, 60, FILM_WIDE + 4, 20), BOARD)]


def ground_above(wall: float, board: bool = False) -> list[Item]:
    """The cake in a view from above: its side is at `wall`, the worker below."""
    table = [Path(rectangle(-2, -2, FILM_WIDE + 4, 90), BOARD)] if board else []
    return [*table, Path(rectangle(-2, -2, FILM_WIDE + 4, wall + 2), CAKE), rule(-2, wall, FILM_WIDE + 2, wall, LINE._replace(width_mm=0.9))]


def on_cake(x: float, y: float, words: str, anchor: str = "start") -> Text:
    """Words on the cake: both change with the scheme (moving.css)."""
    return label(x, y, words, 5.4, anchor)


SLANT = 38.0  # between the side and the slot of a petal tip that stands square to it: the mouth of such a tip is cut aslant [deg]
CAKE_CUT = Style(fill="#f3e2c0", stroke="#8a6f5c", width_mm=0.4)  # in a ring


def ring(x: float, y: float, radius: float) -> Path:
    """The ring in which something is shown enlarged."""
    return Path(circle(x, y, radius), Style(fill="#fffaf0", stroke=GUIDE, width_mm=0.7))


def slot(tip: Tip, colour: str, long_mm: float, at: Point, turn_deg: float) -> Group:
    """The opening of a petal tip, enlarged to a length, its middle at a place: from its thick end to its thin one clockwise from the right."""
    reach = long_mm / tip.opening_mm
    grown = Tip(tip.family, tip.opening_mm * reach, slot_mm=tip.slot_mm * reach * 1.25)
    c, n = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    mouth = Path(opening_parts(grown), Style(fill=tone(colour, -0.1), stroke="#3f3846", width_mm=1.1))
    return Group((mouth,), matrix=(-n, c, -c, -n, *at))  # `opening_parts` has its thick end below


def opening_inset(tip: Tip, colour: str, turn_deg: float) -> tuple[Still, Still]:
    """The opening of a petal tip, enlarged, as it comes to the side seen from above: its thick end on the cake, its thin end away from it.

    The words beside it are on the screen only.
    """
    x, y, radius = 18.0, 17.0, 14.5
    c, n = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    wall = y - 6.5
    middle = (x + 4.0 * c, wall + 1.2 + 9.0 * n)
    half = math.degrees(math.asin((y - wall) / radius))
    drawn: list[Item] = [
        ring(x, y, radius),
        Path((*arc(x, y, radius - 0.35, 180 + half, 360 - half), ("Z",)), CAKE_CUT),
        slot(tip, colour, 20.0, middle, turn_deg),
    ]
    return Still(drawn), Still(
        [
            Path(polyline([(middle[0] - 7.0 * c, middle[1] - 7.0 * n), (x + radius + 2.0, y - 7.2)]), LINE),
            on_cake(x + radius + 3.5, y - 5.2, "thick end on the cake"),
            Path(polyline([(middle[0] + 9.0 * c, middle[1] + 9.0 * n), (x + radius + 2.0, y + 5.4)]), LINE),
            on_cake(x + radius + 3.5, y + 7.4, "thin end out"),
        ],
        inset=True,
    )


def edge_inset(tip: Tip, colour: str) -> tuple[Still, Still]:
    """The opening of a petal tip, enlarged, as it comes to the top edge of a cake that is cut through: its thick end on the top, its thin end out.

    The bag comes at 45 degrees and the mouth of a petal tip is cut aslant, so that the slot lies almost flat. The words are on the screen only.
    """
    x, y, radius = 12.0, 12.0, 10.0
    corner = (x + 0.5, y + 1.5)
    inside = [(x + (radius - 0.4) * math.cos(math.radians(a)), y + (radius - 0.4) * math.sin(math.radians(a))) for a in range(88, 173, 12)]
    drawn: list[Item] = [
        ring(x, y, radius),
        Path(polygon([corner, (corner[0], inside[0][1]), *inside, (inside[-1][0], corner[1])]), CAKE_CUT),
        slot(tip, colour, 14.0, (corner[0] + 1.0, corner[1] - 2.6), 12.0),
    ]
    words = (("thick end", -5.0), ("on the cake,", 1.0), ("thin end out", 7.0))
    return Still(drawn), Still([label(x + radius + 1.6, y + down, word, 5.4) for word, down in words], inset=True)


def _place(one: Laid, x: float, y: float, along_mm: float, across_mm: float, turn: float) -> Matrix:
    c, n = math.cos(turn), math.sin(turn)
    return c * along_mm / 100, n * along_mm / 100, -n * across_mm / 100, c * across_mm / 100, x, y


GROWS = ((-48.0, -46.0), ((0.0, 0.15, 0.5), (0.5, 0.6, 0.9), (1.0, 1.0, 1.0)))  # a piece of a led row: from the end that is laid first


def _times(hand: Hand, pieces: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """When each of the pieces (its middle and how long it is) begins and is whole: while the tip passes over it."""
    found, last = [], 0.0
    for x, long in pieces:
        last = max(last, hand.passes(x - long * 0.4))
        found.append((last, max(last + 0.05, hand.passes(x + long * 0.4))))
    return found


def led(name: str, tip: Tip, colour: str) -> Film:
    """A swag that the hand leads along its mark, swept or rocked across it."""
    kind, look = KINDS[name], LOOKS[name]
    panel = panel_of(name, tip, colour)
    long = look.repeat_mm
    spec = RowSpec(name, tip, run_mm=long, drop_mm=look.drop_mm)
    hand = hand_of(kind.strokes(spec))
    square = hand.faces[0][1][2] < -0.99  # the tip stands straight at the side
    laid, begin, top = panel.long()
    first = panel.mark[0][0]
    here = [one for one in laid.pieces if first - 0.01 <= one.s - begin <= first + long]
    times = _times(hand, [(one.s - begin - first, one.along) for one in here])
    tip_x = _onwards(tuple((time, (first + x + 0.5,)) for time, (x, _, z) in hand.keys if z < 1.0))
    tip_x = (*tip_x[:-1], (tip_x[-1][0], (first + long + 12.0,)))  # its end reaches a little past the joint

    # from the front
    front: list[Layer] = [Still([*ground(look.surface), Path(smooth(panel.mark), GUIDE_DASH), *panel.piped(first)])]
    shadows = [
        Path(
            smooth([(s - begin, top + down) for s, down in strand.points]), Style(stroke=SHADOW_COLOUR, width_mm=strand.width_mm * 1.1, opacity=0.14)
        )
        for strand in laid.shadows
        if first - 0.01 <= strand.points[0][0] - begin <= first + 1
    ]
    if shadows:
        front.append(Wiped(shadows, tip_x))
    if here:
        front.append(
            Grown(
                [
                    Timed(motif(one.piece, colour), _place(one, one.s - begin, top + one.down, one.along, one.across, one.turn), *time)
                    for one, time in zip(here, times, strict=True)
                ],
                *GROWS,
            )
        )
    strands = [strand for strand in laid.strands if first - 2 <= strand.points[0][0] - begin <= first + long / 2]
    lines = [
        item for strand in strands for item in strand_paths([(s - begin, top + d) for s, d in strand.points], strand.width_mm, strand.role, colour)
    ]
    ribbons = [one for one in laid.ribbons if first - 12 <= one.upper[0][0] - begin <= first + 12]
    lines += [
        item
        for one in ribbons
        for item in ribbon([(s - begin, top + d) for s, d in one.upper], [(s - begin, top + d) for s, d in one.lower], colour, WAVE)
    ]
    if lines:
        front.append(Wiped(lines, tip_x))
    line = look.line_mm
    held = bag(hand, tip, look.surface, FRONT, (first, line))
    front.append(held)
    if not square:
        front.append(steadied(hand, FRONT, (first, line), held.turn_deg))
    if kind.rocking_mm(tip):
        front.append(rocked(hand, look.surface, FRONT, (first, line)))

    # from above
    wall = WALL
    off = 4.0 if square else tip.opening_mm / 2 * math.sin(math.pi / 4)
    above: list[Layer] = [Still(ground_above(wall))]
    if here:

        def over(one: Laid) -> Matrix:
            deep = one.across * 0.72
            return _place(one, one.s - begin, wall + deep * 0.46, one.along, deep, 0.0)

        before = [one for one in laid.pieces if -12 < one.s - begin < first]
        if before:
            above.append(Still(list(_uses(before, colour, over))))
        above.append(
            Grown(
                [Timed(motif(one.piece, colour), over(one), *time) for one, time in zip(here, times, strict=True)],
                *GROWS,
            )
        )

    def from_above(one: Ribbon) -> list[Item]:
        upper = [(s - begin, wall) for s, _ in one.lower]
        reach = [0.7 + 0.5 * math.dist(a, b) / (2.2 * one.out_mm) for a, b in zip(one.upper, one.lower, strict=True)]
        waves = [0.9 if k % WAVE == 0 else -0.4 for k in range(len(upper))]
        lower = [(x, wall + one.out_mm * far + wave) for (x, _), far, wave in zip(upper, reach, waves, strict=True)]
        return [*ribbon(upper[::2], lower[::2], colour, WAVE // 2)]

    if ribbons:
        past = [one for one in laid.ribbons if first - 12 <= one.upper[-1][0] - begin <= first + 12]
        above.append(Still([item for one in past for item in from_above(one)]))
        above.append(Wiped([item for one in ribbons for item in from_above(one)], tip_x))
    held = bag(hand, tip, look.surface, ABOVE, (first, wall), (0.0, off))
    above.append(held)
    if not square:
        above.append(steadied(hand, ABOVE, (first, wall), held.turn_deg, (0.0, off)))
    if tip.family == "petal":
        above += opening_inset(tip, colour, SLANT if square else 135.0)
    return Film(
        name,
        hand,
        (
            View("From the front", f"{kind.title}, seen from the front. {kind.hand}", front),
            View("From above", f"The same from above: {kind.held(tip.family)}.", above, ABOVE_HIGH),
        ),
        f"One {name} {long / 10:.1f} cm long, tip {tip.name}, in {hand.time_s:.0f} seconds.",
        spec=spec,
    )


# --- borders: the table turns --------------------------------------------------------------------------------------------

TABLE_MM, AT_X, RIM = 100.0, 46.0, 13.0  # half the width of the cake, where the tip stays, how far the turntable reaches past the cake
LIFT_S = 0.5
PULLS = 3  # times that the other hand takes hold of the rim again


def stays(hand: Hand) -> tuple[Hand, Keys]:
    """The same hand seen by somebody who stands beside it while the cake is turned under it, and how far the cake has gone [mm]."""
    at_work = [(time, place[0]) for time, place in hand.keys if place[2] < 0.01]
    gone = tuple((time, (place[0] if place[2] < 0.01 else at_work[0][1] if time < at_work[0][0] else at_work[-1][1],)) for time, place in hand.keys)
    keys = tuple((time, (place[0] - far[0], *place[1:])) for (time, place), (_, far) in zip(hand.keys, gone, strict=True))
    return replace(hand, keys=keys), gone


def lifted(hand: Hand) -> Hand:
    """The same hand, which stops squeezing at the end and then goes away, where its kind has given no time to it."""
    (end, last), (_, (x, y, z)) = hand.keys[-1], hand.faces[-1]
    gone = end + LIFT_S
    away = tuple(p - AWAY_MM * f for p, f in zip(last, (x, y, z), strict=True))
    return replace(
        hand,
        keys=(*hand.keys, (end + 0.1, last), (gone, away)),
        squeeze=(*hand.squeeze[:-1], (end, (0.0,)), (gone, (0.0,))),
        faces=(*hand.faces, (gone, hand.faces[-1][1])),
        speed=(*hand.speed, (end, (AWAY_MM / LIFT_S,))),
        segments=(*hand.segments[:-1], (hand.segments[-1][0], gone)),
    )


def hand_on_rim() -> list[Item]:
    """The left hand, its fingers on the rim of a turntable at (0, 0), its arm towards the worker."""
    flesh = skin((-14, -4), (8, 24))
    items: list[Item] = [*forearm((-9.0, 25.0), 104.0)]
    items += [Path(pod((-14.0 + 5.4 * k, 15.0), (-9.6 + 4.6 * k, -2.4 - (1.6 if k in (1, 2) else 0.0)), 3.0, 2.6), flesh) for k in range(4)]
    items.append(Path(smooth([(-17, 13), (-6, 9), (5, 12), (7, 22), (-2, 31), (-15, 30), (-19, 21)], closed=True), flesh))
    items.append(Path(pod((4.0, 19.0), (10.0, 7.0), 3.2, 2.7), flesh))
    return items


def pulled(gone: Keys, centre: Point, half_mm: float = TABLE_MM, reach_mm: float = TABLE_MM + RIM, pulls: int = PULLS, first: float = 9.0) -> Keys:
    """Keys of the hand on the rim: it goes with the rim, lets go, and takes hold again; first some degrees to the left of the front."""
    begin, end = gone[0], gone[-1]
    start = next(time for (time, (a,)), (_, (b,)) in zip(gone, gone[1:], strict=False) if b > a)
    stop = next(time for time, (far,) in gone if far == end[1][0])
    keys: list[tuple[float, tuple[float, ...]]] = []

    def at(time: float, degrees: float, off: float = 0.0) -> None:
        turn, reach = math.radians(degrees), reach_mm + 1.0 + off
        keys.append((time, (centre[0] - reach * math.sin(turn), centre[1] + reach * math.cos(turn), degrees * 0.6)))

    at(begin[0], first, 4.0)
    for k in range(pulls):
        grip, let_go = (start + (stop - start) * (k + share) / pulls for share in (0.0, 0.88))
        held = value_at(gone, grip)[0]
        for share in range(4):
            time = grip + (let_go - grip) * share / 3
            at(time, first + math.degrees((value_at(gone, time)[0] - held) / half_mm))
        back = start + (stop - start) * (k + 0.94) / pulls
        at(back, first + math.degrees((value_at(gone, let_go)[0] - held) / half_mm) / 2, 5.0)
    at(end[0], first, 6.0)
    return tuple(keys)


def turned(name: str, tip: Tip, colour: str) -> Film:
    """A row rocked across its line by a hand that stays where it is, while the other hand turns the cake under it."""
    kind, look = KINDS[name], LOOKS[name]
    panel = panel_of(name, tip, colour)
    long = WIDE - 18.0
    spec = RowSpec(name, tip, run_mm=long)
    hand = lifted(hand_of(kind.strokes(spec)))
    held, gone = stays(hand)
    laid, begin, top = panel.long()
    first, edge = (WIDE - long) / 2, look.surface == "edge"
    near = [(one, one.s - begin - first) for one in laid.pieces if -50 < one.s - begin - first <= gone[-1][1][0]]
    done, here = [(one, s) for one, s in near if s < -0.01], [(one, s) for one, s in near if s >= -0.01]
    times = _times(hand, [(s, one.along) for one, s in here])
    movement = kind.rocked(spec)[0]

    # from in front
    foot = 57.0
    ticks = polyline_parts([((x, foot + 6.5), (x, foot + 13.0)) for x in range(-60, 180, 10)])
    levels = [look.line_mm + side * movement * 0.75 for side in (-1, 1)]
    pricks = [] if edge else [((x, y), (x, y)) for y in levels for x in range(-54, 178, 8)]
    table: list[Item] = [
        Path(rectangle(-2, 36 if edge else -2, FILM_WIDE + 4, foot + 2 - (36 if edge else 0)), CAKE),
        Path(rectangle(-2, foot, FILM_WIDE + 4, 4.5), BOARD),
        Path(rectangle(-2, foot + 4.5, FILM_WIDE + 4, 10.5), STEEL),
    ]

    def in_front(one: Laid, s: float) -> Matrix:
        return _place(one, s, top + one.down, one.along, one.across, one.turn)

    def grown(place: Callable[[Laid, float], Matrix]) -> Grown:
        return Grown([Timed(motif(one.piece, colour), place(one, s), *time) for (one, s), time in zip(here, times, strict=True)], *GROWS)

    front: list[Layer] = [
        Still(table),
        Turning(
            (
                Still(
                    [
                        Path(ticks, TICK),
                        *([Path(polyline_parts(pricks), GUIDE_LINE._replace(width_mm=1.1))] if pricks else []),
                        *(Use(motif(one.piece, colour), in_front(one, s)) for one, s in done),
                    ]
                ),
                grown(in_front),
            ),
            tuple((time, (AT_X - far, 0.0, 0.0)) for time, (far,) in gone),
        ),
        bag(held, tip, look.surface, FRONT, (AT_X, look.line_mm)),
        rocked(held, look.surface, FRONT, (AT_X, look.line_mm)),
    ]

    if tip.family == "petal" and edge:
        front += edge_inset(tip, colour)

    # from above
    wall = 38.0
    cx, cy = AT_X, wall - TABLE_MM
    off = 0.0 if edge else tip.opening_mm / 2 * math.sin(math.pi / 4)

    def over(one: Laid, s: float) -> Matrix:
        deep, turn = one.across * (0.75 if edge else 0.72), s / TABLE_MM
        reach = TABLE_MM + (0.0 if edge else deep * 0.46)
        return _place(one, reach * math.sin(turn), reach * math.cos(turn), one.along, deep, -turn)

    def spoke(degrees: float) -> tuple[Point, Point]:
        c, n = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        return (n * (TABLE_MM + 6.0), c * (TABLE_MM + 6.0)), (n * (TABLE_MM + RIM - 1.0), c * (TABLE_MM + RIM - 1.0))

    turns = tuple((time, (cx, cy, math.degrees(far / TABLE_MM))) for time, (far,) in gone)
    arrow = [(cx + 82 * math.sin(math.radians(a)), cy + 82 * math.cos(math.radians(a))) for a in (26, 18, 10, 2, -6, -14)]
    above: list[Layer] = [
        Still(
            [
                Path(circle(cx, cy, TABLE_MM + RIM), STEEL),
                Path(circle(cx, cy, TABLE_MM + 5.0), BOARD),
                Path(circle(cx, cy, TABLE_MM), CAKE),
                *leading(arrow),
            ]
        ),
        Turning((Still([Path(polyline_parts([spoke(a) for a in range(-40, 100, 6)]), TICK)]),), turns),
        Moved(hand_on_rim(), pulled(gone, (cx, cy))),  # under the row, which stands out over the rim
        Turning((Still([Use(motif(one.piece, colour), over(one, s)) for one, s in done]), grown(over)), turns),
        bag(held, tip, look.surface, ABOVE, (AT_X, wall), (0.0, off)),
    ]
    if edge:  # half of such a stroke is seen from above
        above.append(rocked(held, look.surface, ABOVE, (AT_X, wall)))
    if tip.family == "petal" and not edge:
        above += opening_inset(tip, colour, 135.0)
    return Film(
        name,
        hand,
        (
            View("From the front", f"{kind.title}, seen from the front: the tip stays, the cake is turned to the left under it. {kind.hand}", front),
            View("From above", f"The same from above, the other hand on the rim of the turntable: {kind.held(tip.family)}.", above, ABOVE_HIGH),
        ),
        f"A {name} {long / 10:.1f} cm long, tip {tip.name}, in {hand.time_s:.0f} seconds. "
        "The tip stays in front of you; your other hand turns the table.",
        spec=spec,
    )


def polyline_parts(lines: Sequence[tuple[Point, Point]]) -> Parts:
    """Short lines in one path."""
    return tuple(part for a, b in lines for part in (("M", *a), ("L", *b)))


def _onwards(keys: Keys) -> Keys:
    """The keys of an x that never goes back: what is piped stays."""
    found: list[tuple[float, tuple[float, ...]]] = []
    far = -math.inf
    for time, (x,) in keys:
        far = max(far, x)
        found.append((time, (far,)))
    return tuple(found)


def _uses(pieces: Sequence[Laid], colour: str, over: Callable[[Laid], Matrix]) -> list[Item]:
    return [Use(motif(one.piece, colour), over(one)) for one in pieces]


# --- shells -------------------------------------------------------------------------------------------------------------


def sitting(name: str, tip: Tip, colour: str, pieces: int = 3) -> Film:
    """Pieces on a board, each drawn down to a tail that the next lies on."""
    kind, look = KINDS[name], LOOKS[name]
    pitch = kind.natural_pitch_mm(tip)
    spec = RowSpec(name, tip, run_mm=pitch)
    hand = hand_of(kind.strokes(spec), pieces, (pitch, 0.0, 0.0))
    floor, first, wall = 60.0, 34.0, 22.0
    tall = kind.geometry(RowSpec(name, tip, run_mm=pitch), []).stands_out_mm
    wide = kind.across_mm(tip)
    if not isinstance(look, SittingLook):
        raise ValueError(f"a {name} does not sit on a board")
    side, top = motif(look.piece.name, colour), motif(look.above.name, colour)
    swell = hand.moment(0, 1.0) / hand.moment(len(kind.steps) - 2, 1.0)
    profile = ((0.0, 0.14, 0.14), (swell, 0.62, 1.0), (1.0, 1.0, 1.0))
    middle = wall + wide / 2 + 1.0

    def front_at(k: int) -> Matrix:
        return pitch * 0.95 / 100, 0.0, 0.0, tall / 100, first + (k + 0.05) * pitch, floor

    def above_at(k: int) -> Matrix:
        return pitch * 0.95 / 100, 0.0, 0.0, wide / 100, first + (k + 0.05) * pitch, middle

    def timed(what: Motif, place: Callable[[int], Matrix]) -> list[Timed]:
        last = len(kind.steps)
        return [Timed(what, place(k), hand.begins(k * last), hand.moment(k * last + last - 2, 1.0)) for k in range(pieces)]

    done = range(-3, 0)
    front: list[Layer] = [
        Still([*ground(look.surface), *(Use(side, front_at(k)) for k in done)]),
        Grown(timed(side, front_at), (-20.0, 0.0), profile),
        bag(hand, tip, "base", FRONT, (first, floor)),
    ]
    above: list[Layer] = [
        Still([*ground_above(wall, True), *(Use(top, above_at(k)) for k in done)]),
        Grown(timed(top, above_at), (-20.0, 0.0), profile),
        bag(hand, tip, "base", ABOVE, (first, middle)),
    ]
    return Film(
        name,
        hand,
        (
            View("From the front", f"{kind.plural.capitalize()}, seen from the front. {kind.hand}", front),
            View("From above", f"The same from above: {kind.angle}.", above, ABOVE_HIGH),
        ),
        f"{pieces} {kind.plural}, tip {tip.name}, {hand.time_s / pieces:.1f} seconds each.",
        (*(hand.moment(k, share) for k, share in ((0, 0.5), (0, 1.0), (1, 0.6), (4, 0.5))), hand.time_s),
        spec,
        pieces,
    )


# --- strings ------------------------------------------------------------------------------------------------------------

POINTS = 8  # of a thread


def _drop_for(width_mm: float, length_mm: float) -> float:
    """How deep a thread of that length hangs between two points as far apart [mm]."""
    low, high = 0.0, length_mm
    for _ in range(40):
        middle = (low + high) / 2
        if catenary_length_mm(width_mm, middle) < length_mm:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def hung_from(hand_at: Vector, length_mm: float, count: int = POINTS) -> list[Vector]:
    """A thread from the joint at (0, 0, 0) to the tip: in one upright plane, as deep as its length lets it hang."""
    x, y, z = hand_at
    across = math.hypot(x, z)
    if across < 0.5:
        return [(x * k / (count - 1), y * k / (count - 1), z * k / (count - 1)) for k in range(count)]
    drop = _drop_for(across, max(length_mm, across * 1.005))
    return [
        (x * along_mm / across, y * along_mm / across + down, z * along_mm / across) for along_mm, down in catenary_points(across, drop, count - 1)
    ]


def thread_keys(kind: Kind, spec: RowSpec, hand: Hand, moments: int = 14) -> tuple[tuple[float, list[Vector]], ...]:
    """The thread at even times from the first touch to the second: its length grows evenly to that of the finished string."""
    whole = kind.length_mm(spec.repeat_mm, spec.drop_mm)  # type: ignore[attr-defined]
    begin, end = hand.begins(1), hand.segments[1][1]
    found = []
    for k in range(moments + 1):
        time = begin + (end - begin) * k / moments
        found.append((time, hung_from(hand.at(time), whole * k / moments)))
    return tuple(found)


def hanging(name: str, tip: Tip, colour: str) -> Film:
    """A thread that hangs from the joint and from the tip."""
    kind, look = KINDS[name], LOOKS[name]
    panel = panel_of(name, tip, colour)
    spec = RowSpec(name, tip, run_mm=look.repeat_mm, drop_mm=look.drop_mm)
    hand = hand_of(kind.strokes(spec))
    first, line = panel.mark[0][0], look.line_mm
    keys = thread_keys(kind, spec, hand)
    bead = 2.6  # drawn a little thicker than it is, to be seen

    def thread(camera: Camera, origin: Point) -> Thread:
        return Thread(tuple((time, tuple(v for place in points for v in _at(camera, place, origin))) for time, points in keys), bead, colour)

    joints = [circle(first + k * look.repeat_mm, line, 1.5) for k in (0, 1)]
    spots = [Path(parts, Style(fill=tone(colour, -0.1))) for parts in joints]
    front: list[Layer] = [
        Still([*ground(look.surface), Path(smooth(panel.mark), GUIDE_DASH), *panel.piped(first + 1.0), *spots]),
        thread(FRONT, (first, line)),
        bag(hand, tip, "side", FRONT, (first, line)),
    ]
    wall = 14.0
    done = strand_paths([(-4.0, wall + 1.2), (first, wall + 1.0)], bead, "smooth", colour)
    marks = [Path(circle(first + k * look.repeat_mm, wall, 1.5), Style(fill=tone(colour, -0.1))) for k in (0, 1)]
    far = first + look.repeat_mm + 34.0
    measure = [rule(far, wall, far, wall + 25.0, GUIDE_LINE), *(rule(far - 2, y, far + 2, y, GUIDE_LINE) for y in (wall, wall + 25.0))]
    above: list[Layer] = [
        Still([*ground_above(wall), *done, *marks]),
        Still([*measure, label(far, wall + 32.0, "2 to 3 cm", 5.4, "middle")], inset=True),
        thread(ABOVE, (first, wall + 0.6)),
        bag(hand, tip, "side", ABOVE, (first, wall)),
    ]
    return Film(
        name,
        hand,
        (
            View("From the front", f"{kind.title}, seen from the front. {kind.hand}", front),
            View("From above", f"The same from above: {kind.angle}.", above, ABOVE_HIGH),
        ),
        f"One {name} from joint to joint, tip {tip.name}, in {hand.time_s:.0f} seconds.",
        (hand.moment(0, 0.97), hand.moment(1, 0.25), hand.moment(1, 0.6), hand.moment(2, 0.1), hand.time_s),
        spec,
    )


def _at(camera: Camera, place: Vector, origin: Point) -> Point:
    x, y = camera(on_surface("side", place))
    return origin[0] + x, origin[1] + y


def _maker(kind: Kind) -> Callable[[str, Tip, str], Film] | None:
    if kind.curve == "hang":
        return hanging
    if isinstance(LOOKS[kind.name], SittingLook):
        return sitting
    if isinstance(kind, Straight) and type(kind).ways is Straight.ways:
        return turned
    return led if isinstance(kind, Arc) else None


for _kind in KINDS.values():
    _made = _maker(_kind)
    if _made:
        FILMS[_kind.name] = partial(_made, _kind.name)
