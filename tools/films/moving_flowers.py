"""The moving pictures of small flowers: one dropped with a turn of the wrist, a blossom on its nail, a bud on the side.

`FILMS`: name -> function of a tip and a colour, giving a `Film`; `OF_KIND`: name -> the kind it is made of. The dropped flower
goes by the strokes of its kind, after the wrist has been turned back; the blossom and the bud, which no row is made of, have a `Hand` of their
own here, as long as their page says.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from calc.colours import PALETTE
from calc.drawing.bag import bag_and_tip
from calc.drawing.marks import label
from calc.drawing.motifs import motif
from calc.drawing.motifs.look import VARIANTS
from calc.drawing.motifs.star_look import FLOWER
from calc.drawing.scene import GUIDE, LINE, Item, Matrix, Motif, Path, Style, Use, arc, circle, polygon, polyline, rectangle, smooth
from calc.drawing.shading import tone
from calc.drawing.tip_openings import opening_parts
from calc.rows import RowSpec
from calc.rows.kinds.star import KIND as STAR
from calc.tips import Tip
from tools.films.moving import (
    AWAY_MM,
    FRONT,
    SIDE,
    Film,
    Grown,
    Hand,
    Keys,
    Layer,
    Moved,
    Still,
    Timed,
    Turning,
    View,
    during,
    hand_of,
    leading,
    press_marks,
    projected,
    value_at,
)
from tools.films.moving_hands import HIGH, SIDE_WALL, mound_of, straight, wall_beside
from tools.films.moving_rows import CAKE_CUT, ground, on_cake, on_end, ring, slot
from tools.films.moving_tools import AWAY, GREY, JUMP_S, fingers_round_nail, keys_of, nail_from_the_side
from tools.films.shared_parts import BAY, BLUSH, bud_parts, petal

FILMS: dict[str, Callable[[Tip, str], Film]] = {}
OF_KIND: dict[str, str] = {}
HONEY = PALETTE["honey"]
ARM = 26.0  # of the forearm to its bag: alike in all views, so that a bag is written once
POP = ((0.0, 0.3, 0.3), (1.0, 1.0, 1.0))


# --- dropped --------------------------------------------------------------------------------------------------------------

TURN_S = 1.0  # for turning the wrist back before the flower is begun
QUARTER = 90.0


def _after(hand: Hand, name: str, seconds: float) -> Hand:
    """The same hand some seconds later: before that it comes to the surface."""
    (_, first), (_, (x, y, z)) = hand.keys[0], hand.faces[0]
    away = tuple(p - AWAY_MM * f for p, f in zip(first, (x, y, z), strict=True))

    def later(keys: Keys) -> Keys:
        return tuple((time + seconds, values) for time, values in keys)

    return Hand(
        ((0.0, away), (0.6 * seconds, first), *later(hand.keys)),
        ((0.0, (0.0,)), (seconds, (0.0,)), *later(hand.squeeze)),
        ((0.0, hand.faces[0][1]), *later(hand.faces)),
        ((0.0, (AWAY_MM / (0.6 * seconds),)), (0.6 * seconds, (0.0,)), *later(hand.speed)),
        ((name, seconds), *((said, end + seconds) for said, end in hand.segments)),
    )


def dropped(tip: Tip, colour: str) -> Film:
    """A flower squeezed at right angles to the side while the wrist turns by a quarter: its petals sweep the way the wrist turns."""
    kind = STAR
    spec = RowSpec(kind.name, tip, run_mm=kind.across_mm(tip), count=1)
    back, forward, off = VARIANTS["turned star"].steps
    piped = hand_of(kind.strokes(spec))
    stop, _, pull = off.partition(", then ")
    named = (forward, stop + " squeezing", pull)
    piped = replace(piped, segments=tuple((name, end) for name, (_, end) in zip(named, piped.segments, strict=True)))
    hand = _after(piped, back, TURN_S)
    wide = kind.across_mm(tip)
    x, y = 46.0, 31.0
    begin, end = hand.begins(1) + 0.1, hand.segments[1][1]
    whole = motif(FLOWER.name, colour)
    spot = Motif("middle", (Path(circle(0, 0, 9), Style(fill=HONEY, stroke=tone(HONEY, -0.5), width_mm=2.0)),))
    half = QUARTER / 2
    turn = keys_of((0.0, 0.0), (0.2 * TURN_S, 0.0), (0.9 * TURN_S, -half), (begin, -half), (end, half), (hand.time_s, half))

    def at(left: float) -> Matrix:
        return wide / 100, 0.0, 0.0, wide / 100, left, y

    done = [Use(one, at(x - wide * 1.12 * k)) for k in (1, 2) for one in (whole, spot)]
    held = on_end(hand, tip, projected(hand, "side", FRONT, (x, y)))
    # the hand is seen to turn by a part of it only, because the bag turns round its own length, which points at the eye
    keys = tuple(
        (time, (*value_at(held.keys, time), 0.3 * value_at(turn, time)[0])) for time in sorted({*(t for t, _ in held.keys), *(t for t, _ in turn)})
    )
    inset = (108.0, 19.0)
    reach = 22.0 / tip.opening_mm
    mouth = opening_parts(Tip(tip.family, tip.opening_mm * reach))
    marked: list[Item] = [
        Path(circle(0, 0, 15.5), Style(fill="#f6f4f7", stroke="#3f3846", width_mm=0.7)),
        Path(mouth, Style(fill=tone(colour, -0.1), stroke="#3f3846", width_mm=0.9)),
        Path(polygon([(0.0, -12.4), (-2.4, -18.4), (2.4, -18.4)]), Style(fill=GUIDE, stroke="#fffaf0", width_mm=0.5)),
    ]
    sweep = [(inset[0] + 20.5 * math.sin(math.radians(a)), inset[1] + 3.0 - 20.5 * math.cos(math.radians(a))) for a in (-42, -20, 0, 20, 44)]
    front: list[Layer] = [
        Still([*ground("side"), *done]),
        Turning(
            (Grown([Timed(whole, (wide / 100, 0.0, 0.0, wide / 100, 0.0, 0.0), begin, end)], profile=((0.0, 0.4, 0.4), (1.0, 1.0, 1.0))),),
            tuple((time, (x, y, angle - half)) for time, (angle,) in turn),
        ),
        Moved(held.items, keys, held.pressed),
        Still([*leading(sweep), on_cake(inset[0], inset[1] + 27.5, "a quarter turn", "middle")], inset=True),
        Turning((Still(marked),), tuple((time, (inset[0], inset[1] + 3.0, angle)) for time, (angle,) in turn)),
    ]
    high = 0.8 * 1.4 / 1.5 * wide
    side: list[Layer] = [
        Still(wall_beside()),
        Grown([Timed(mound_of(colour, 3), (high / 100, 0.0, 0.0, wide / 200, SIDE_WALL, y), begin, end)], profile=((0.0, 0.4, 0.5), (1.0, 1.0, 1.0))),
        straight(hand, tip, SIDE, (SIDE_WALL, y)),
    ]
    return Film(
        "dropped flower",
        hand,
        (
            View(
                "From the front",
                "A dropped flower, seen from the front. The wrist is turned back; it turns forward by a quarter while the hand squeezes; then the "
                "hand stops squeezing and lifts the tip straight off. A ring shows how the opening of the tip turns.",
                front,
                HIGH,
            ),
            View("From the side", f"The same from the side: {kind.held(tip.family)}.", side, HIGH),
        ),
        f"One dropped flower {wide / 10:.1f} cm wide, tip {tip.name}, in {piped.time_s:.0f} seconds once the wrist is turned back.",
        (0.95 * TURN_S, begin + 0.3 * (end - begin), begin + 0.75 * (end - begin), hand.moment(2, 0.9), hand.time_s),
        spec,
    )


FILMS["dropped flower"] = dropped
OF_KIND["dropped flower"] = STAR.name


# --- a blossom on its nail --------------------------------------------------------------------------------------------------------

PETALS, EACH_S, DOTS_S = 5, 4.0, 4.0


def blossom(tip: Tip, colour: str) -> Film:
    """Five petals on a nail, which the other hand turns by a fifth for each: the thick end stays in the middle, the thin end rises and falls."""
    piped_s = PETALS * EACH_S
    whole_s = piped_s + DOTS_S
    faces, step = 28.0, 360.0 / PETALS  # where the bag comes from, in the view from above [deg]
    turn: list[tuple[float, float]] = [(0.0, 0.0)]
    squeeze: list[tuple[float, float]] = [(0.0, 0.0)]
    reach: list[tuple[float, float]] = [(0.0, 30.0)]  # of the tip from the middle, in the view from above
    lift: list[tuple[float, float, float]] = [(0.0, 26.0, -22.0)]  # of the tip from the middle of the nail, from the side
    begins: list[tuple[float, float]] = []
    for k in range(PETALS):
        start = k * EACH_S
        first, last = start + 0.22 * EACH_S, start + 0.78 * EACH_S
        middle = (first + last) / 2
        begins.append((first, last))
        turn += [(first, -step * k), (last, -step * (k + 1))]
        squeeze += [(first - 0.1, 0.0), (first + 0.2, 0.9), (last - 0.5, 0.9), (last, 0.0)]
        reach += [(first - 0.15, 2.0), (middle, 6.5), (last, 2.0), (last + 0.35, 9.0)]
        lift += [(first - 0.15, 3.0, -2.6), (middle, 8.0, -8.5), (last, 3.0, -2.6), (last + 0.35, 11.0, -10.0)]
    dots = [piped_s + 1.0 + 0.9 * k for k in range(3)]
    for time in dots:
        squeeze += [(time, 0.0), (time + 0.15, 0.6), (time + 0.4, 0.6), (time + 0.5, 0.0)]
    for keys in (turn, squeeze):
        keys.append((whole_s, keys[-1][1] if keys is turn else 0.0))
    gone = (piped_s, *AWAY)

    # from above
    x, y, size = 46.0, 35.0, 19.0
    c, n = math.cos(math.radians(faces)), math.sin(math.radians(faces))
    one = Motif(f"petal {colour}", tuple(part for part in petal(0.0, 0.0, 0.0, size, colour) if isinstance(part, Path)))
    dot = Motif("blossom dot", (Path(circle(0, 0, 1.6), Style(fill=HONEY, stroke=tone(HONEY, -0.5), width_mm=0.3)),))

    def laid(k: int) -> Timed:
        at = math.radians(faces + step * k + step / 2)
        return Timed(one, (math.cos(at), math.sin(at), -math.sin(at), math.cos(at), 0.0, 0.0), *begins[k])

    fans = ((0.0, 0.4, 0.15), (0.5, 1.0, 0.6), (1.0, 1.0, 1.0))
    places = ((-1.6, -0.5), (1.5, -1.3), (0.2, 1.6))
    head = rectangle(-15.5, -15.5, 31, 31)
    nail = Turning(
        (
            Still([Path(circle(0, 0, 23.5), GREY), Path(head, Style(fill="#fffdf6", stroke="#8a6f5c", width_mm=0.4))]),
            *(Grown([laid(k)], profile=fans) for k in reversed(range(PETALS))),  # each under the one before
            Grown([Timed(dot, (1.0, 0.0, 0.0, 1.0, u, v), time + 0.1, time + 0.45) for time, (u, v) in zip(dots, places, strict=True)], profile=POP),
        ),
        tuple((time, (x, y, angle)) for time, angle in turn),
    )
    other = fingers_round_nail(x, y)
    way = [(x + 28 * math.cos(math.radians(a)), y + 28 * math.sin(math.radians(a))) for a in (-60, -85, -110, -135, -155)]
    dotting: list[tuple[float, float, float]] = [(0.0, *AWAY), gone, (piped_s + JUMP_S, x + 40.0, y + 26.0)]
    last_turn = math.radians(turn[-1][1])
    for time, (u, v) in zip(dots, places, strict=True):
        px, py = x + u * math.cos(last_turn) - v * math.sin(last_turn), y + u * math.sin(last_turn) + v * math.cos(last_turn)
        dotting += [(time, px, py), (time + 0.5, px, py)]
    dotting.append((whole_s, x + 34.0, y + 20.0))
    round_tip = Tip("round", 2.0)
    above: list[Layer] = [
        Still(other),
        nail,
        Still(leading(way)),
        Moved(
            bag_and_tip((0.0, 0.0), 0.0, tip, 1.0, 1, arm_deg=ARM),
            keys_of(*((time, x + far * c, y + far * n) for time, far in reach), gone),
            press_marks(),
            faces,
            0.72,
        ),
        Moved(bag_and_tip((0.0, 0.0), 0.0, round_tip, 1.0, 0, arm_deg=ARM), keys_of(*dotting), press_marks(), faces, 0.72),
    ]

    # from the side
    left, foot = 46.0, 50.0
    stem = nail_from_the_side(left, foot, 22.0)
    edge = Style(fill=tone(colour, -0.08), stroke=tone(colour, -0.5), width_mm=0.5)
    curve = [(0.0, 0.0), (6.0, -6.4), (13.0, -9.4), (18.5, -7.8), (15.0, -3.6), (8.0, -0.8)]
    wing = Motif(f"petal from the side {colour}", (Path(smooth(curve, closed=True), edge),))
    near = Motif(
        f"near petal {colour}",
        (
            Path(
                smooth([(0, -0.5), (-9, -3.5), (-11, -0.4), (-4, 1.6), (4, 1.6), (11, -0.4), (9, -3.5)], closed=True),
                edge._replace(fill=tone(colour, 0.12)),
            ),
        ),
    )
    # each is laid at the right, under the bag, and turned away with the nail: a fifth further for each petal after it
    wings = [(0.3, 0), (-0.85, 1), (-1.0, 2), (0.55, 3), (1.0, 4)]
    pieces = [Timed(wing, (share, 0.0, 0.0, 1.0, left, foot), *begins[k]) for share, k in wings]
    side: list[Layer] = [
        Still(stem),
        *(Grown([piece], (0.0, 0.0), ((0.0, 0.4, 0.3), (0.5, 0.9, 1.0), (1.0, 1.0, 1.0))) for piece in reversed(pieces)),
        Grown([Timed(near, (1.0, 0.0, 0.0, 1.0, left, foot), *begins[2])]),
        Grown([Timed(dot, (1.2, 0.0, 0.0, 1.2, left + 2.0 * k, foot - 5.4), dots[k] + 0.1, dots[k] + 0.45) for k in range(3)], profile=POP),
        Moved(
            bag_and_tip((0.0, 0.0), 0.0, tip, 1.0, 1, arm_deg=ARM),
            keys_of(*((t, left + u, foot + v) for t, u, v in lift), gone),
            press_marks(),
            -45.0,
            0.95,
        ),
        Moved(
            bag_and_tip((0.0, 0.0), 0.0, round_tip, 1.0, 0, arm_deg=ARM),
            keys_of(
                (0.0, *AWAY),
                gone,
                (piped_s + JUMP_S, left + 32.0, foot - 28.0),
                *((time + late, left + 2.0 * k, foot - 6.4) for k, time in enumerate(dots) for late in (0.0, 0.5)),
                (whole_s, left + 26.0, foot - 24.0),
            ),
            press_marks(),
            -45.0,
            0.95,
        ),
        *_lying_opening(tip, colour),
    ]
    said = ("first petal: out, over, and back to the middle", "second, begun under the first", "third", "fourth", "fifth")
    segments = [(name, (k + 1) * EACH_S) for k, name in enumerate(said)]
    hand = Hand(
        tuple((time, (far, 0.0, 0.0)) for time, far in reach),
        keys_of(*squeeze),
        ((0.0, (-c, 0.0, -n)),),
        keys_of((0.0, 10.0), *((t, v) for first, last in begins for t, v in ((first, math.tau * 5.0 / PETALS / (last - first) * 2.2), (last, 0.0)))),
        (*segments, ("dot the middle", whole_s)),
    )
    return Film(
        "blossom",
        hand,
        (
            View("From above", "A nail with a paper on its head, turned by a fifth for each petal beside the bag.", above, HIGH),
            View("From the side", "The same from the side: the thick end of the tip in the middle, the thin end out and a little up.", side, HIGH),
        ),
        f"A blossom of five petals on a nail, tip {tip.name}, in {whole_s:.0f} seconds.",
        ((begins[0][0] + begins[0][1]) / 2, begins[1][1] - 0.5, begins[3][0] + 1.0, piped_s, whole_s),
    )


def _lying_opening(tip: Tip, colour: str) -> tuple[Still, Still]:
    """The opening of a petal tip over a nail, enlarged: its thick end in the middle of the flower, its thin end out and a little up."""
    x, y, radius = 14.5, 14.0, 12.5
    drawn: list[Item] = [ring(x, y, radius), slot(tip, colour, 17.0, (x, y), -22.0)]
    words: list[Item] = [
        Path(polyline([(x - 6.0, y + 4.0), (x - 6.0, y + 13.5)]), LINE),
        label(x - 12.5, y + 18.0, "thick end", 5.4),
        label(x - 12.5, y + 24.0, "in the middle", 5.4),
        Path(polyline([(x + 8.0, y - 4.0), (x + radius + 2.0, y - 6.0)]), LINE),
        label(x + radius + 3.0, y - 5.0, "thin end", 5.4),
        label(x + radius + 3.0, y + 1.0, "out and up", 5.4),
    ]
    return Still(drawn), Still(words, inset=True)


FILMS["blossom"] = blossom


# --- a bud ------------------------------------------------------------------------------------------------------------------------


def bud(tip: Tip, colour: str) -> Film:
    """A bud on the side: one curl, a second petal folded over it from the right, a green foot pulled up to a point."""
    x, y = 44.0, 22.0
    curl, fold, foot = (tuple(part for part in parts if isinstance(part, Path)) for parts in bud_parts(0.0, 0.0))
    foot = foot[:1]  # the dot alone: the arrow beside it is for the still drawing
    curl_s, fold_s, change_s, foot_s, whole_s = 3.5, 7.0, 8.5, 10.5, 12.0
    when = ((0.9, curl_s - 0.5), (curl_s + 0.7, fold_s - 0.5), (change_s + 0.2, foot_s - 0.3))
    squeeze = [(0.0, 0.0)]
    for (begin, end), full in zip(when, (0.8, 0.8, 1.0), strict=True):
        squeeze += [(begin - 0.15, 0.0), (begin + 0.1, full), (end - 0.4, full if full < 1 else 0.3), (end, 0.0)]
    squeeze.append((whole_s, 0.0))
    gone = (fold_s + 0.8, *AWAY)
    (b0, e0), (b1, e1), (b2, e2) = when
    petal_way = [
        (0.0, 26.0, 14.0),
        (b0 - 0.2, 6.0, 16.0),
        (b0, 6.0, 16.0),
        ((b0 + e0) / 2, 8.0, 3.0),
        (e0 - 0.3, -1.0, -7.0),
        (e0, -5.0, -4.0),
        (e0 + 0.4, 12.0, -8.0),
        (b1 - 0.15, 12.0, 3.0),
        ((b1 + e1) / 2, 6.0, -4.0),
        (e1, -5.0, 11.0),
        (fold_s, 6.0, 20.0),
        (fold_s + 0.79, 44.0, 44.0),
    ]
    foot_way = [(0.0, *AWAY), gone, (fold_s + 0.81, 46.0, 50.0), (b2 - 0.1, 1.0, 27.0), (b2 + 0.7, 1.0, 25.0), (e2, 1.2, 11.5), (foot_s, 1.2, 11.5)]
    foot_way.append((whole_s, 18.0, 30.0))
    green = Tip("round", 3.0)
    parts = [Motif(f"bud {k} {colour}", one) for k, one in enumerate((curl, fold, foot))]
    place = (1.0, 0.0, 0.0, 1.0, x, y)
    anchors = ((6.0, 16.0), (12.0, 3.0), (1.0, 29.0))
    opens = ((0.0, 0.3, 0.25), (0.5, 0.7, 0.8), (1.0, 1.0, 1.0))
    pulled = ((0.0, 0.5, 0.25), (0.35, 1.0, 0.45), (1.0, 1.0, 1.0))
    front: list[Layer] = [
        Still(ground("side", HIGH)),
        *(
            Grown([Timed(part, place, *time)], anchor, pulled if part is parts[2] else opens)
            for part, time, anchor in zip(parts, when, anchors, strict=True)
        ),
        Moved(
            bag_and_tip((0.0, 0.0), 0.0, tip, 1.0, 1, arm_deg=ARM),
            keys_of(*((t, x + u, y + v) for t, u, v in petal_way), gone),
            press_marks(),
            36.0,
            0.8,
        ),
        Moved(
            bag_and_tip((0.0, 0.0), 0.0, green, 1.0, 0, arm_deg=ARM),
            keys_of(*((t, u, v) if u == AWAY[0] else (t, x + u, y + v) for t, u, v in foot_way)),
            press_marks(),
            48.0,
            0.8,
        ),
        Moved(leading([(u, v) for t, u, v in petal_way if b0 <= t <= e0]), during((b0, e0, x, y))),
    ]

    # from the side
    def bump(name: str, ink: str, outline: list[tuple[float, float]], level: float) -> Motif:
        shape = Path(smooth(outline, closed=True), Style(fill=tone(ink, level), stroke=tone(ink, -0.5), width_mm=0.5))
        return Motif(f"{name} {colour}", (shape,))

    from_side = (
        bump("bud curl", BLUSH, [(0, -8), (6, -7), (9, 0), (9, 10), (5, 20), (0, 22)], -0.06),
        bump("bud fold", BLUSH, [(0, 2), (7, -5), (12, 0), (12, 9), (7, 19), (0, 23)], 0.1),
        bump("bud foot", BAY, [(0, 30), (4, 30), (8, 26), (11.5, 19), (12.6, 11), (9.4, 15), (5, 19.5), (0, 22)], -0.05),
    )
    wall = (1.0, 0.0, 0.0, 1.0, SIDE_WALL, y)
    at_wall = [
        (0.0, 28.0, 22.0),
        (b0 - 0.2, 4.0, 16.0),
        (b0, 4.0, 16.0),
        ((b0 + e0) / 2, 8.0, 4.0),
        (e0, 8.0, -6.0),
        (e0 + 0.4, 17.0, -2.0),
        (b1 - 0.15, 11.0, 3.0),
        ((b1 + e1) / 2, 12.0, -3.0),
        (e1, 10.0, 12.0),
        (fold_s, 22.0, 20.0),
        (fold_s + 0.79, 52.0, 44.0),
    ]
    pulling = [(0.0, *AWAY), gone, (fold_s + 0.81, 54.0, 50.0), (b2 - 0.1, 3.0, 28.0), (b2 + 0.7, 7.0, 25.0), (e2, 13.0, 11.5), (foot_s, 13.0, 11.5)]
    pulling.append((whole_s, 30.0, 30.0))
    side: list[Layer] = [
        Still(wall_beside()),
        *(
            Grown([Timed(part, wall, *time)], (0.0, anchor[1]), pulled if part is from_side[2] else opens)
            for part, time, anchor in zip(from_side, when, anchors, strict=True)
        ),
        Moved(
            bag_and_tip((0.0, 0.0), 0.0, tip, 1.0, 1, arm_deg=ARM),
            keys_of(*((t, SIDE_WALL + u, y + v) for t, u, v in at_wall), gone),
            press_marks(),
            45.0,
            0.95,
        ),
        Moved(
            bag_and_tip((0.0, 0.0), 0.0, green, 1.0, 0, arm_deg=ARM),
            keys_of(*((t, u, v) if u == AWAY[0] else (t, SIDE_WALL + u, y + v) for t, u, v in pulling)),
            press_marks(),
            45.0,
            0.95,
        ),
        *_opening_at_side(tip, colour),
    ]
    hand = Hand(
        tuple((time, (u, v, 0.0)) for time, u, v in petal_way),
        keys_of(*squeeze),
        ((0.0, (0.0, -math.sqrt(0.5), -math.sqrt(0.5))),),
        keys_of((0.0, 0.0), (b0, 15.0), (e0, 0.0), (b1, 12.0), (e1, 0.0), (b2, 9.0), (e2, 0.0)),
        (
            ("one short curl, thick end down", curl_s),
            ("fold a second petal over it", fold_s),
            ("change to the green bag", change_s),
            ("a dot at the foot, pulled up to a point", foot_s),
            ("stop squeezing, then lift", whole_s),
        ),
    )
    return Film(
        "bud",
        hand,
        (
            View("From the front", "A bud on the side of a cake: one curl, a second petal folded over it, a green foot.", front, HIGH),
            View("From the side", "The same from the side: the bag comes at 45 degrees from below.", side, HIGH),
        ),
        f"One bud, tip {tip.name}, and its foot, tip {green.name}, in {whole_s:.0f} seconds.",
        ((b0 + e0) / 2, curl_s, (b1 + e1) / 2, (b2 + e2) / 2, whole_s),
    )


def _opening_at_side(tip: Tip, colour: str) -> tuple[Still, Still]:
    """The opening of a petal tip beside the side of a cake, enlarged: its thick end down and on the cake, its thin end up and a little off it.

    The words are on the screen only.
    """
    x, y, radius = 76.0, 13.0, 11.0
    wall = x - 5.0
    half = math.degrees(math.acos((x - wall) / radius))
    drawn: list[Item] = [
        ring(x, y, radius),
        Path((*arc(x, y, radius - 0.35, 180 - half, 180 + half), ("Z",)), Style(fill=CAKE_CUT.fill)),
        slot(tip, colour, 15.0, (wall + 6.0, y - 0.9), -68.0),
    ]
    words = [label(x + radius + 1.5, y - 3.4, "thin end up", 5.4), label(x + radius + 1.5, y + 7.6, "thick end down", 5.4)]
    return Still(drawn), Still(words, inset=True)


FILMS["bud"] = bud
