"""Drawings of the handbook's pages with a tier being built and marked: the dam, a coat spread and scraped, a paper strip wrapped round."""

from __future__ import annotations

import math

from calc.curves import arc_points
from calc.drawing.bag import bag_and_tip, forearm, hand_path, pod, skin
from calc.drawing.marks import rule
from calc.drawing.motifs.look import BOARD
from calc.drawing.scene import (
    CAKE,
    GUIDE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    Item,
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
from calc.drawing.shading import strand_paths
from calc.tips import Tip
from tools.films.shared_parts import CREAM, PAPER, STEEL, WOOD, hand_at_rim
from tools.site.handbook_hands import HIGH, WIDE, Step, steps
from tools.site.handbook_panels import Values

SPONGE = Style(fill="#cf9a5c", stroke="#8a5a2a", width_mm=0.5)
COAT = Style(fill="#f2e2bd", stroke="#8a6f5c", width_mm=0.5)
JAM = Style(fill="#b5423c", stroke="#7a211d", width_mm=0.4)
GLASS = Style(fill="#cfe0e2", stroke="#51777b", width_mm=0.5)
PRICK = Style(fill=GUIDE, role="text-guide")  # to be seen on the cake in both schemes


def _on(centre: Point, radius: float, degrees: float) -> Point:
    return centre[0] + radius * math.cos(math.radians(degrees)), centre[1] + radius * math.sin(math.radians(degrees))


def _turn(centre: Point, radius: float, first: int, last: int) -> list[Item]:
    """An arrow round a turntable."""
    step = 8 if last > first else -8
    return hand_path([_on(centre, radius, degrees) for degrees in range(first, last + step, step)], (1.0,), 1.3)


def _knife(tip: Point, degrees: float) -> list[Item]:
    """A palette knife from its tip, pointing back along a direction."""
    at = turned(tip, degrees)
    blade = smooth([at(34, -3.0), at(6, -3.4), at(0, -1.5), at(0, 1.5), at(6, 3.4), at(34, 3.0)], closed=True)
    return [Path(blade, STEEL), Path(polygon([at(34, -2.6), at(60, -3.6), at(60, 3.6), at(34, 2.6)]), WOOD)]


# --- the dam ------------------------------------------------------------------------------------------------------------------

LAYER_MM, DAM_MM, DAM_FROM = 30.0, 25.5, 16  # radius of a layer and of the ring on it; the direction in which the tip stands [deg]


def dammed(values: Values, caption: str) -> str:
    """The dam piped just inside the edge while the table turns; the filling spread level inside it; the next layer pressed on, straight above."""
    middle = (38.0, 36.0)
    ground = [Path(circle(*middle, LAYER_MM + 4), BOARD), Path(circle(*middle, LAYER_MM), SPONGE)]
    at = _on(middle, DAM_MM, DAM_FROM)
    ring = [_on(middle, DAM_MM, degrees) for degrees in range(DAM_FROM, DAM_FROM + 281, 10)]
    piping = [*ground, *strand_paths(ring, 5.2, "smooth", CREAM), *bag_and_tip(at, 20.0, Tip("round", 8.0), 0.72, arm_deg=44.0)]

    closed = [_on(middle, DAM_MM, degrees) for degrees in range(0, 361, 10)]
    far = (23.0, 20.5, 22.4, 18.8, 22.8, 21.4, 19.6, 22.6, 20.2)
    jam = [_on(middle, r, 40.0 * k) for k, r in enumerate(far)]
    filled: list[Item] = [
        *ground,
        Path(smooth(jam, closed=True), JAM),
        *strand_paths(closed, 5.2, "smooth", CREAM),
        *_knife((middle[0] + 2, middle[1] + 3), 28.0),
        *hand_path([(middle[0] - 2, middle[1] - 3), (middle[0] - 12, middle[1] - 8), (middle[0] - 18, middle[1] - 2)], (1.0,), 1.3),
    ]

    left, right, floor = 18.0, 82.0, 62.0
    straight = [Path(polyline([(x, 8), (x, floor)]), GUIDE_DASH._replace(width_mm=0.7)) for x in (left, right)]
    pressed: list[Item] = [
        Path(rectangle(left - 8, floor, right - left + 16, 4), BOARD),
        Path(rectangle(left, floor - 16, right - left, 16), SPONGE),
        Path(rectangle(left + 5, floor - 22, right - left - 10, 6), JAM),
        *(Path(pod((x, floor - 20.5), (x, floor - 17.5), 3.0), COAT) for x in (left + 3.6, right - 3.6)),
        Path(rectangle(left, floor - 38, right - left, 16), SPONGE),
        Path(rectangle(left - 3, floor - 42, right - left + 6, 4), WOOD),
        *straight,
        *(part for x in (36.0, 64.0) for part in hand_path([(x, 5.0), (x, floor - 43.5)], (1.0,), 1.3)),
    ]
    return steps(
        "A dam and its filling",
        Step(
            "The dam just inside the edge; the other hand turns the table",
            "Seen from above: a layer of sponge on its board, on a turntable. A "
            "ring of buttercream lies just inside its edge, three quarters of the way "
            "round. The tip stands on its end at the right and stays there; an arrow at the left shows the table turning.",
            [*piping, *_turn(middle, LAYER_MM + 6.5, 150, 214)],
        ),
        Step(
            "Fill it level, from the middle outwards",
            "Seen from above: the ring is closed. Jam lies inside it, and a palette knife spreads it from the middle out to the ring, not over it.",
            filled,
        ),
        Step(
            "Press the next layer on with a flat board, straight above the first",
            "Seen from the side: the first layer, the filling between two beads of "
            "buttercream at its ends, and the next layer on it. A flat board on top is "
            "pressed down evenly. Two upright dashed lines show that both layers end exactly above each other.",
            pressed,
        ),
    )


# --- a coat spread and scraped --------------------------------------------------------------------------------------------------

BLADE_DEG = 30.0  # between a scraper and the side, as docs/techniques/coats.md has it


def blade(middle: Point, radius: float, at_deg: float, long: float) -> tuple[Point, Point]:
    """A scraper from above: where its edge touches the side, and its other end. It leans over what is not smooth yet; the table turns clockwise."""
    edge = _on(middle, radius, at_deg)
    return edge, _on(edge, long, at_deg - 90.0 + BLADE_DEG)


def scraped(values: Values, caption: str) -> str:
    """A coat spread from the bottom up, and scraped while the table turns; with `discs`, between two of them."""
    discs = values.get("discs") == "yes"
    left, right, top, floor = 20.0, 80.0, 16.0, 60.0
    under: list[Item] = [Path(rectangle(12, floor + 3, 76, 4), BOARD)]
    if discs:
        under += [Path(rectangle(left - 4, floor, right - left + 8, 3), GLASS), Path(rectangle(left - 4, top - 3, right - left + 8, 3), GLASS)]
    else:
        under.append(Path(rectangle(left - 4, floor, right - left + 8, 3), BOARD))
    sponge: list[Item] = [Path(rectangle(left, top, right - left, floor - top), SPONGE)]
    for k in (1, 2):
        y = top + (floor - top) * k / 3
        sponge.append(Path(rectangle(left, y - 2, right - left, 4), Style(fill="#f7e6c0")))
    past = 6.0 if discs else 2.0  # how far it stands out at the sides
    low = [(left - past, floor), (left - past * 1.15, 48.0), (left - past * 0.9, 38.0), (24.0, 33.0), (34.0, 36.0), (45.0, 29.0)]
    rough = [*low, (56.0, 32.0), (68.0, 26.0), (right + past * 0.9, 30.0), (right + past * 1.15, 46.0)]
    spread: list[Item] = [
        *under,
        *sponge,
        Path((*smooth(rough), ("L", right + past, floor), ("Z",)), COAT),
        *_knife((58.0, 55.0), -62.0),
        *hand_path([(44.0, 55.0), (44.0, 41.0)], (1.0,), 1.3),
    ]
    middle = (36.0, 34.0)
    bare, out = 25.0, 29.0
    edge, end = blade(middle, out, 20.0, 30.0)
    smooth_side = [_on(middle, out, degrees) for degrees in range(20, 300, 10)]
    lumps = [_on(middle, out + (2.6, 4.2, 3.0, 4.6, 3.4, 4.4, 3.2)[k % 7], degrees) for k, degrees in enumerate(range(-60, 21, 10))]
    from_above: list[Item] = [
        Path(circle(*middle, out + 6), BOARD),
        Path((*polyline(smooth_side), *(("L", *p) for p in lumps), ("Z",)), COAT),
        *([] if discs else [Path(circle(*middle, bare), SPONGE)]),
        *([Path(circle(*middle, out), GLASS._replace(opacity=0.55))] if discs else []),
        Path(polyline([edge, end]), Style(stroke="#4c4453", width_mm=3.4)),
        Path(polyline([edge, end]), Style(stroke="#c4bfc9", width_mm=2.4)),
        *hand_at_rim((end[0] - 3.0, end[1] + 5.0)),
        *_turn(middle, out + 3.0, 140, 212),
    ]
    first = "Spread the side from the bottom up, past both discs" if discs else "Spread the side from the bottom up, the knife always on buttercream"
    last = (
        "From above: the scraper on both discs, held still; the table turns"
        if discs
        else "From above: the scraper held still and upright; the table turns"
    )
    told = (
        "Seen from the front: the cake stands between two discs a little wider "
        "than itself. Buttercream is spread up its side from the foot, standing out "
        "past both discs. The palette knife lies flat against it and moves up."
        if discs
        else "Seen from the front: three layers of sponge. A thin coat is spread up "
        "the side from the foot, over the joins. The palette knife lies flat on the "
        "buttercream and moves up, never onto the bare sponge."
    )
    return steps(
        "A coat spread and scraped",
        Step(first, told, spread),
        Step(
            last,
            "Seen from above: the right hand holds the scraper upright and still at the "
            "right of the cake, its edge against the side and its blade slanting away "
            "from it, over the part that is still rough. An arrow at the left shows the table turning clockwise. Behind the edge the side is smooth.",
            from_above,
        ),
    )


# --- a paper strip ------------------------------------------------------------------------------------------------------------


def wrapped(values: Values, caption: str) -> str:
    """A strip folded, wrapped round the cake and pricked through, and the marks it leaves."""
    cake: list[Item] = [Path(rectangle(-2, 12, WIDE + 4, HIGH), CAKE), rule(-2, 12, WIDE + 2, 12, LINE)]
    joints = [10.0, 50.0, 90.0]
    line, drop = 28.0, 15.0
    curves = [[(x + u, line + v) for u, v in arc_points(40.0, drop, 8)] for x in (-30.0, 10.0, 50.0, 90.0)]
    strip: list[Item] = [
        Path(rectangle(-2, 18, WIDE + 4, 34), PAPER),
        *(Path(polyline([(x, 18), (x, 52)]), Style(stroke="#7d6673", width_mm=0.5, dash=(2.0, 1.4))) for x in joints),
        *(Path(smooth(curve), Style(stroke="#7d6673", width_mm=0.8)) for curve in curves),
    ]
    pricked = [p for curve in curves[:2] for p in curve] + curves[2][:3]
    here = curves[2][3]
    flesh = skin((here[0] + 16, here[1] + 8), (here[0] + 40, here[1] + 26))
    stick: list[Item] = [
        *forearm((here[0] + 34, here[1] + 22), 34.0),
        Path(pod((here[0] + 32, here[1] + 22), (here[0] + 17, here[1] + 12.5), 5.2, 3.0), flesh),
        Path(polyline([here, (here[0] + 26, here[1] + 14)]), Style(stroke="#5c4326", width_mm=1.7)),
        Path(polyline([here, (here[0] + 26, here[1] + 14)]), Style(stroke="#d9b27c", width_mm=1.0)),
        Path(pod((here[0] + 32, here[1] + 14), (here[0] + 16, here[1] + 6.5), 3.6, 3.0), flesh),
    ]
    begin = 8.0
    folded: list[Item] = []
    for k, (wide, y) in enumerate(((84.0, 14.0), (42.0, 34.0), (21.0, 54.0))):
        folded.append(Path(rectangle(begin, y, wide, 12), PAPER))
        folded += [rule(begin + wide, y, begin + wide, y + 12, LINE)] if k else []
        if k < 2:
            folded += hand_path([(begin + wide - 5, y + 14.0), (begin + wide * 0.75, y + 16.6), (begin + wide / 2 + 4, y + 15.0)], (1.0,), 1.1)
    arc = [(begin + u, 56.0 + v) for u, v in arc_points(21.0, 8.0, 8)]
    folded.append(Path(smooth(arc), GUIDE_LINE._replace(width_mm=1.0)))
    return steps(
        "A paper strip at work",
        Step(
            "As long as the side: fold it, and cut one curve through all parts",
            "A strip of paper as long as the side is folded in half, and in half again. "
            "One curve is drawn on the folded strip and cut through all its parts at once.",
            folded,
        ),
        Step(
            "Wrapped round the chilled cake: prick joints and curves through it",
            "The strip is wrapped round the cake, pencil side out, with its joints and "
            "curves. A hand pricks along the curves with a cocktail stick, at every joint "
            "and every second centimetre.",
            [*cake, *strip, *(Path(circle(*p, 0.7), Style(fill="#2f1730")) for p in pricked), *stick],
        ),
        Step(
            "The strip taken off: the pricks show every swag",
            "The strip is off. Small pricks in the coat show where each curve runs from joint to joint.",
            [*cake, *(Path(circle(*p, 0.9), PRICK) for curve in curves for p in curve)],
        ),
    )


FIGURES = {"dammed": dammed, "scraped": scraped, "wrapped": wrapped}
