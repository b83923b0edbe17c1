"""Drawings of the handbook's pages with hands at work on one thing: a line on a line, a cutter rolled, a bag filled, a blossom, a bud."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from calc.colours import PALETTE
from calc.curves import arc_points
from calc.drawing.bag import bag_and_tip, forearm, hand_path, number_mark, pod, skin
from calc.drawing.marks import label, rule
from calc.drawing.motifs import tone
from calc.drawing.scene import (
    CAKE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    WORDS,
    Gradient,
    Group,
    Item,
    Path,
    Point,
    Scene,
    Style,
    Text,
    circle,
    ellipse,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.shading import strand_paths
from calc.tips import Tip
from tools.films.shared_parts import BLUSH, CREAM, RUSSET, along_bag, bud_parts, fingers_flat, hand_at_rim, petal
from tools.site.handbook_grip import twisting
from tools.site.handbook_panels import Values, figure, turning

WIDE, HIGH = 100.0, 72.0
STEEL = Style(fill=Gradient(0, 0, 1, 0, ((0, "#8d8795"), (1, "#f2f0f3"))), stroke="#4c4453", width_mm=0.5)
GREY = Style(fill="#cfc7cd", stroke="#5f5561", width_mm=0.45)


class Step(NamedTuple):
    """One of the pictures of a row of them: its caption, what it shows in words, and what is drawn."""

    caption: str
    told: str
    items: Sequence[Item]


def steps(title: str, *panels: Step) -> str:
    """Pictures side by side, numbered."""
    made = []
    for number, one in enumerate(panels, 1):
        group = Group((*one.items, *number_mark((6.5, 6.5), number)), clip=(0, 0, WIDE, HIGH))
        made.append((Scene(f"{title}, {number}", one.told, 0, 0, WIDE, HIGH, (group,)), f"{number} {one.caption}"))
    return turning(made)


# --- a line on a line ----------------------------------------------------------------------------------------------------


def overpiped(values: Values, caption: str) -> str:
    """A broad line along a curve, a finer one falling onto its middle, the finest on that; and the three from the side."""
    curve = [(13.0 + x, 22.0 + y) for x, y in arc_points(74.0, 24.0, 24)]
    lines = ((11.0, "ridged", RUSSET, Tip("open star", 6)), (5.4, "smooth", CREAM, Tip("round", 3)), (2.6, "smooth", RUSSET, Tip("round", 2)))
    ground = Path(rectangle(-2, -2, WIDE + 4, HIGH + 4), CAKE)

    def laid(number: int, share: float = 1.0) -> list[Item]:
        wide, role, colour, _ = lines[number]
        points = curve[: round(len(curve) * share)]
        shade = Path(smooth([(x + 0.6, y + wide * 0.3) for x, y in points]), Style(stroke="#5a2f1e", width_mm=wide, opacity=0.25))
        return [shade, *strand_paths(points, wide, role, colour)]

    def falling(number: int) -> list[Item]:
        """A line that falls from the tip onto the middle of the last."""
        wide, _, colour, tip = lines[number]
        piped = round(len(curve) * 0.55)
        end = curve[piped - 1]
        at = (end[0] + 8.0, end[1] - 5.0)
        return [
            *laid(number, 0.55),
            *strand_paths([end, (end[0] + 4.0, end[1] - 0.6), at], wide, "smooth", colour),
            *bag_and_tip(at, -30.0, tip, 0.9, arm_deg=24.0),
        ]

    wall, y = 22.0, 38.0
    stacked: list[Item] = [Path(rectangle(-2, -2, wall + 2, HIGH + 4), CAKE)]
    x = wall
    for radius, colour in ((9.0, RUSSET), (5.0, CREAM), (2.6, RUSSET)):
        x += radius * 0.86
        stacked += [
            Path(circle(x, y, radius), Style(fill=tone(colour, -0.24), stroke=tone(colour, -0.6), width_mm=0.5)),
            Path(circle(x - radius * 0.15, y - radius * 0.2, radius * 0.62), Style(fill=tone(colour, 0.08))),
        ]
        x += radius * 0.9
    stacked.append(rule(wall, -2, wall, HIGH + 2, LINE._replace(width_mm=0.9)))
    stacked += strand_paths([(x - 1.0, y), (x + 3.0, y - 3.0)], 2.6, "smooth", RUSSET)
    stacked += bag_and_tip((x + 3.0, y - 3.0), -18.0, lines[2][3], 0.9, arm_deg=24.0)
    return steps(
        "A line on a line",
        Step(
            "The broadest line, chilled",
            "A broad ridged line lies along the curve of a swag on the side of a cake. It has been chilled until firm.",
            [ground, *laid(0)],
        ),
        Step(
            "A finer one falls onto its middle",
            "The tip is above the broad line, not on it. A line half as wide, in a paler colour, falls from it onto the middle of the broad one, "
            "which shows on both sides.",
            [ground, *laid(0), *falling(1)],
        ),
        Step(
            "The finest on that",
            "The finest line falls from the tip onto the middle of the second. Now three lines are seen, one inside the other.",
            [ground, *laid(0), *laid(1), *falling(2)],
        ),
        Step(
            "From the side: they stack like steps",
            "Seen from the side, the cake cut upright at the left: three round lines in a "
            "row outwards from it, each finer than the one it lies on, middle on middle. "
            "The tip stands off the last one, and the line falls from it.",
            stacked,
        ),
    )


# --- a cutter rolled along a tape -------------------------------------------------------------------------------------------


def rolled(values: Values, caption: str) -> str:
    """The usual case, joints near the top: the tape under them, the cutter on the tape, rolled to both joints, and the curve it leaves."""
    left, right, joint, radius = 24.0, 64.0, 38.0, 22.0
    middle, drop = (left + right) / 2, radius - math.sqrt(radius**2 - ((right - left) / 2) ** 2)
    low = joint + drop
    ground = [Path(rectangle(-2, 22, WIDE + 4, HIGH), CAKE), rule(-2, 22, WIDE + 2, 22, LINE)]
    spots = [Path(circle(x, joint, 0.8), GUIDE_LINE._replace(width_mm=1.8)) for x in (left, right)]
    level = Path(polyline([(-2, joint), (WIDE + 2, joint)]), GUIDE_DASH)
    tape = Path(rectangle(-2, low, WIDE + 4, 7), Style(fill="#ecbf55", stroke="#8a6a1c", width_mm=0.4))
    curve = [(left + x, joint + y) for x, y in arc_points(right - left, drop, 20)]
    ring = [
        Path(circle(middle, low - radius, radius), Style(stroke="#4c4453", width_mm=3.4)),
        Path(circle(middle, low - radius, radius), Style(stroke="#c4bfc9", width_mm=2.4)),
    ]
    measured: list[Item] = [
        rule(middle, joint, middle, low, GUIDE_LINE),
        *(rule(middle - 3, y, middle + 3, y, GUIDE_LINE) for y in (joint, low)),
        label(middle + 4.0, (joint + low) / 2 + 2.2, "drop", 6.4, "start", "bold", True),
    ]
    hold = (middle + radius * math.cos(0.45), low - radius + radius * math.sin(0.45))
    hand = hand_at_rim(hold)

    # from above: the cutter rolls on the round side
    far, deep = 86.0, 15.0
    centre = (50.0, 26.0 - far)

    def bar(turn: float) -> list[Point]:
        """The cutter from above, rolled along the side by an angle."""
        c, n, gone = math.cos(turn), math.sin(turn), far * turn
        x, y = centre[0] - far * n, centre[1] + far * c
        corners = ((-29.0, 0.0), (29.0, 0.0), (29.0, deep), (-29.0, deep))
        return [(x + c * (u + gone) - n * v, y + n * (u + gone) + c * v) for u, v in corners]

    solid = Style(fill="#d8d2dc", stroke="#4c4453", width_mm=0.6)
    faint = Style(fill="#d8d2dc", stroke="#4c4453", width_mm=0.6, opacity=0.4)
    above: list[Item] = [
        *(Path(polygon(bar(turn)), faint) for turn in (0.26, -0.26)),
        Path(polygon(bar(0.0)), solid),
        Path(circle(*centre, far), CAKE),
        *hand_path([(36.0, 52.0), (26.0, 50.0), (17.0, 44.0)], (1.0,), 1.3),
        *hand_path([(64.0, 52.0), (74.0, 50.0), (83.0, 44.0)], (1.0,), 1.3),
    ]
    pressed = Path(smooth(curve), Style(stroke="#a07f63", width_mm=1.5))
    return steps(
        "A cutter rolled along a tape",
        Step(
            "Tape under the joints: its upper edge where the swags hang lowest",
            "The side of a cake, seen from the front. Two joints are marked with dots, "
            "level with each other. A strip of paper tape goes round below them; the "
            "distance from the joints down to its upper edge is the drop.",
            [*ground, level, *spots, tape, *measured],
        ),
        Step(
            "The cutter stands on the tape and passes through both joints",
            "A right hand holds a round cutter flat against the side. Its rim rests on "
            "the upper edge of the tape, midway between the joints, and passes through both.",
            [*ground, level, tape, *ring, *spots, *hand],
        ),
        Step(
            "From above: press the middle, roll to one joint, then to the other",
            "Seen from above. Held flat, the cutter touches the round side only in the "
            "middle. Two arrows: roll it round the side to one joint, then to the other, so "
            "that its whole rim up to the joints presses once.",
            above,
        ),
        Step(
            "One curve from joint to joint",
            "Cutter and tape are gone. A pressed curve hangs from one joint to the other, lowest in the middle.",
            [*ground, *spots, pressed],
        ),
    )


# --- a bag filled ---------------------------------------------------------------------------------------------------------


def bag_parts(values: Values, caption: str) -> str:
    """A bag with coupler, tip and ring taken apart; then in a glass, pressed down and twisted shut."""
    cloth = Style(fill=Gradient(0, 0, 0, 44, ((0, "#fbf6ea"), (0.55, "#eadfcb"), (1, "#cdbfa6"))), stroke="#7b6a5c", width_mm=0.5)
    plastic = Style(fill="#e8eef0", stroke="#51777b", width_mm=0.5)
    steel = Style(fill=Gradient(0, 14, 0, 30, ((0, "#8d8795"), (0.35, "#f2f0f3"), (1, "#77707f"))), stroke="#4c4453", width_mm=0.5)
    items: list[Item] = [
        Path(polygon([(0, 4), (58, 15), (58, 29), (0, 40)]), cloth),
        Path(polygon([(66, 13), (82, 16.5), (82, 27.5), (66, 31)]), plastic),
        *(Path(polyline([(x, 16), (x, 28)]), Style(stroke="#51777b", width_mm=0.4)) for x in (77.0, 79.0, 81.0)),
        Path(polygon([(92, 14), (114, 19.4), (117, 20.4), (115, 22), (117, 23.6), (114, 24.6), (92, 30)]), steel),
        Path(rectangle(124, 14, 8, 16), plastic),
        *(Path(polyline([(124, y), (132, y)]), Style(stroke="#51777b", width_mm=0.4)) for y in (17.0, 20.5, 24.0, 27.5)),
        *(Text(x, 50, said, 5.6, "middle", "bold", WORDS) for x, said in ((28.0, "bag"), (74.0, "coupler base"), (105.0, "tip"), (128.0, "ring"))),
    ]
    told = (
        "The four parts side by side, in the order they go together, narrow ends "
        "to the right: the bag; the base of the coupler, which goes inside it; "
        "the metal tip, over the end of the base; the ring, which is screwed on over the tip."
    )
    apart = Scene("A bag with a coupler", told, -4, 0, 142, 54, tuple(items))

    # in a glass: the top of the bag turned down over the rim
    linen = Style(fill=Gradient(20, 0, 64, 0, ((0, "#e6dac4"), (0.4, "#fffaf0"), (1, "#cdbfa6"))), stroke="#75624f", width_mm=0.45)
    metal = Style(fill="#c4bfc9", stroke="#3f3846", width_mm=0.45)
    cream = Style(fill=tone(RUSSET, 0), stroke=tone(RUSSET, -0.5), width_mm=0.4)
    heap = [(26.5, 30), (34, 26), (44, 31), (52, 25.5), (57.5, 30), (46, 56), (42, 59), (38, 56)]
    glass: list[Item] = [
        Path(polygon([(24, 24), (60, 24), (45, 60), (39, 60)]), linen),
        Path(polygon([(38.6, 58), (45.4, 58), (43.4, 67), (40.6, 67)]), metal),
        Path(smooth(heap, closed=True), cream),
        Path(polygon([(20, 22), (64, 22), (60, 70), (24, 70)]), Style(fill="#cfe0e2", stroke="#51777b", width_mm=0.8, opacity=0.45)),
        Path(smooth([(18, 20), (42, 17), (66, 20), (68, 40), (61, 41), (42, 44), (22, 41), (16, 40)], closed=True), linen._replace(opacity=0.94)),
        Path(ellipse(42, 20, 21, 4.2), Style(fill="#bca98d", stroke="#75624f", width_mm=0.4)),
        Path(ellipse(42, 21.4, 17, 2.8), Style(fill=tone(RUSSET, 0))),
        Path(polygon([(37, 6), (45, 4), (52, 20), (40, 23)]), Style(fill=tone(RUSSET, 0.08), stroke=tone(RUSSET, -0.5), width_mm=0.4)),
        Path(polygon([(42, 10), (48, 7), (86, 0), (87, 4)]), Style(fill="#b08a5c", stroke="#5c4326", width_mm=0.5)),
        *hand_path([(80.0, 22.0), (80.0, 40.0)], (1.0,), 1.3),
    ]
    # pressed down with the side of the hand
    at, lean = (6.0, 42.0), -4.0
    put = along_bag(at, lean)
    flat = bag_and_tip(at, lean, Tip("open star", 8.0), hand=False)
    full, whole = (14.0, 50.0), 68.0  # from the tip: where the buttercream begins and ends, and where the bag does
    loose = [(46, -7), (52, -8.2), (60, -9.6), (whole, -11), (whole, 11), (60, 9.6), (52, 8.2), (46, 7)]
    pressed: list[Item] = [
        Path(smooth([put(u, v) for u, v in loose], closed=True), linen),
        *flat[1:],
        *fingers_flat(put(56, 3)),
        *hand_path([put(66, -19), put(44, -19)], (1.0,), 1.3),
        *(rule(*put(u, 14.5), *put(u, 20.5), GUIDE_LINE) for u in full),
        rule(*put(full[0], 17.5), *put(full[1], 17.5), GUIDE_LINE),
        label(*put(32, 26), "2/3", 6.4, "middle", "bold", True),
    ]
    return str(figure(apart, "The base goes inside the bag, the tip over it, the ring over both.")) + steps(
        "A bag filled",
        Step(
            "Stand the bag in a glass, its top folded down over the rim, and fill it",
            "The bag stands in a tall glass, tip down, its top turned down over the "
            "rim like a cuff. A spatula puts buttercream into it; an arrow points down.",
            glass,
        ),
        Step(
            "Push the buttercream down; no more than two thirds",
            "The bag lies flat, its tip to the left. The side of a hand, fingers "
            "together, pushes the buttercream towards the tip. It fills two thirds of the bag; "
            "the rest is flat and empty.",
            pressed,
        ),
        Step(
            "Twist the bag shut where the buttercream ends",
            "The left hand holds the full part of the bag. The right hand turns the empty "
            "end, as an arrow shows, until the bag is twisted shut right behind the buttercream.",
            twisting(),
        ),
    )


# --- flowers on a nail, and a bud ------------------------------------------------------------------------------------------------


TOLD_PETALS = {
    1: "Seen from above: the left hand holds a flower nail by its stem, a square of "
    "paper on its round head. The first petal lies on the paper. The petal tip is "
    "over it, its thick end at the middle of the nail; an arrow shows that the nail is turned.",
    3: "The nail has been turned. Three petals lie round the middle like half a "
    "flower, each coming out from under the one before. The tip is where it was.",
    5: "Five petals close the circle, all of one size, with three small yellow dots in the middle. The bag is gone.",
}


def nail_in_hand(x: float, y: float, radius: float) -> list[Item]:
    """A flower nail in the left hand, its head seen from above: the stem between thumb and first finger."""
    foot = y + radius + 17.0
    flesh = skin((x - 14, foot - 8), (x + 12, foot + 12))
    items: list[Item] = [*forearm((x - 15.0, foot + 14.0), 128.0)]
    back = [(-24, 6), (-12, -5), (2, -3), (8, 6), (2, 20), (-18, 22)]
    items.append(Path(smooth([(x + u, foot + v) for u, v in back], closed=True), flesh))
    items.append(Path(polygon([(x - 1.3, y), (x + 1.3, y), (x + 0.9, foot + 10), (x - 0.9, foot + 10)]), GREY))
    for k in range(2):
        items.append(Path(pod((x - 12, foot + 2.5 + 5.4 * k), (x + 3.4 - k, foot + 2.0 + 5.0 * k), 3.2, 2.7), flesh))
    items.append(Path(pod((x - 13, foot - 3.0), (x + 2.0, foot - 3.6), 3.6, 2.8), flesh))
    items += [
        Path(circle(x, y + 1.2, radius), Style(fill="#8f8791")),
        Path(circle(x, y, radius), GREY),
        Path(rectangle(x - radius * 0.66, y - radius * 0.66, radius * 1.32, radius * 1.32), Style(fill="#fffdf6", stroke="#8a6f5c", width_mm=0.4)),
    ]
    return items


def blossom(values: Values, caption: str) -> str:
    """A five-petal blossom on its nail: the first petal, three, and five; the other hand turns the nail."""
    x, y, radius, size = 37.0, 28.0, 23.0, 17.0
    made: list[Step] = []
    turn = [(x + (radius + 4.5) * math.cos(math.radians(a)), y + (radius + 4.5) * math.sin(math.radians(a))) for a in (215, 195, 175, 155, 137)]
    said = {1: "The first petal, thick end in the middle", 3: "Turn the nail; each starts under the last", 5: "Five, with dots in the middle"}
    for count, words in said.items():
        items = nail_in_hand(x, y, radius)
        now = math.radians(20.0)
        for k in range(count):  # the newest first, so that it comes out from under the one before it
            items += petal(x, y, now - math.tau * k / 5, size, BLUSH)
        if count < 5:
            at = (x + 0.55 * size * math.cos(now), y + 0.55 * size * math.sin(now))
            items += bag_and_tip(at, 24.0, Tip("petal", 11.0), 0.8, 1, arm_deg=40.0)
            items += hand_path(turn, (1.0,), 1.3)
        else:
            honey = Style(fill=PALETTE["honey"], stroke=tone(PALETTE["honey"], -0.5), width_mm=0.3)
            items += [Path(circle(x + dx, y + dy, 1.6), honey) for dx, dy in ((-1.6, -0.5), (1.5, -1.3), (0.2, 1.6))]
        told = TOLD_PETALS[count]
        made.append(Step(words, told, items))
    return steps("A five-petal blossom", *made)


def bud(values: Values, caption: str) -> str:
    """A bud on the side of a cake: one curl, a second petal folded over it, and its green foot."""
    x, y = 40.0, 26.0
    ground = Path(rectangle(-2, -2, WIDE + 4, HIGH + 4), CAKE)
    curl, fold, foot = bud_parts(x, y)
    over = hand_path([(x + 26, y - 12), (x + 10, y - 15), (x - 6, y - 10), (x - 13, y + 2)], (1.0,))
    petal_tip, round_tip = Tip("petal", 11.0), Tip("round", 4.0)
    return steps(
        "A bud",
        Step(
            "One curl, thick end down",
            "A short upright curl on the side of a cake, rounded at the top, narrow at the "
            "foot. The petal tip leaves it at its right edge; the bag points down to the "
            "right.",
            [ground, *curl, *bag_and_tip((x + 8, y + 6), 34.0, petal_tip, 0.8, 1)],
        ),
        Step(
            "A second petal folded over it from the bag's side",
            "A second petal comes from the right and lies over the curl, slanting down to "
            "the left across it, so that the curl shows only at the top left. An arrow goes "
            "from right to left over the bud.",
            [ground, *curl, *fold, *over, *bag_and_tip((x - 3, y + 12), 40.0, petal_tip, 0.8, 1)],
        ),
        Step(
            "A green dot at its foot, pulled up to a point",
            "A green dot sits at the foot of the bud. Its point is drawn up over the bud, as an arrow shows; the round tip leaves it there.",
            [ground, *curl, *fold, *foot, *bag_and_tip((x + 2.2, y + 12), 14.0, round_tip, 0.8)],
        ),
    )


FIGURES = {"overpiped": overpiped, "rolled": rolled, "bag": bag_parts, "blossom": blossom, "bud": bud}
