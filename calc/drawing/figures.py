"""The small drawings of the technique pages: a swag marked and piped, a top divided, a top cut into slices, the opening of a tip,
and how a tip is held.

Map
---
`swag_scene`       swags on the flat side with joints, drop, width, cutter and guide tape
`division_scene`   a top with its joints, and dividers set to the chord
`cutting_scene`    a top cut into slices, the knife's lines numbered
`opening_parts`    the opening of a tip at 1:1
`tip_scene`        the same as a drawing, with its measures
`hold_scene`       a tip at work, seen from in front and from the side: the angle, which end faces the cake, the path of the hand
`row_scene`        a piece of a row, as it looks on the cake
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from calc.curves import arc_radius_mm, guide_height_mm
from calc.division import dividers_mm
from calc.drawing.marks import HEAD, arrow, cross, dimension, label, rule
from calc.drawing.motifs import motif, tone
from calc.drawing.rows import RowDrawn, TierDrawn
from calc.drawing.scene import (
    CAKE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    THIN,
    Gradient,
    Group,
    Item,
    Parts,
    Path,
    Point,
    Scene,
    Style,
    Use,
    arc,
    circle,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.unroll import piped, swag_parts
from calc.drawing.views import strand_paths
from calc.portions import CutPlan
from calc.rows import KINDS, scroll_points
from calc.shapes import outline
from calc.tips import PETAL_THIN, Tip
from calc.units import Say

COAT = "#f4e6cb"


def _side(width_mm: float, swags: int) -> TierDrawn:
    """A round tier whose side is a whole number of swags."""
    return TierDrawn(outline("round", width_mm * swags / math.pi), 0.0, 1000.0, COAT)


@lru_cache(maxsize=64)
def swag_scene(width_mm: float, drop_mm: float, joints_mm: float = 12.0, cutter_mm: float | None = None, tip: Tip | None = None,
               colour: str = "#b9592f", swags: int = 2, units: str = "metric", height_mm: float = 0.0) -> Scene:
    """Draw swags on the flat side: the first piped, the last marked, with cutter, joints, drop, width and guide tape.

    Formula: guide tape at D/2 + sqrt(D^2/4 - w^2/4) above the joints; radius D/2, or y/2 + w^2/(8 y) without a cutter.

    Parameters
    ----------
    width_mm : float
        Swag width w along the surface [mm]
    drop_mm : float
        Drop y below the joints [mm]
    joints_mm : float
        How far the joints lie below the top edge [mm]
    cutter_mm : float
        Diameter of the round cutter, if one marks them [mm]
    tip : Tip
        The tip they are piped with; marks only when None [-]
    colour : str
        Colour as #rrggbb [-]
    swags : int
        How many are drawn [-]
    units : str
        "metric" or "us" [-]
    height_mm : float
        Height of the side; enough for the swags when 0 [mm]

    Returns
    -------
    Scene
        The drawing [mm]

    Raises
    ------
    ValueError
        Width or drop is not above nothing.

    Range: w > 0, y > 0, one to six swags. Leaves out: the curve of the side.

    Example
    -------
    >>> swag_scene(100.0, 50.0, cutter_mm=100.0).title
    'Two swags on the flat side'

    Source: segment
    """
    if width_mm <= 0 or drop_mm <= 0:
        raise ValueError("a swag has a width and a drop above nothing")
    say = Say(units)
    swags = max(1, min(6, swags))
    whole = width_mm * swags
    cut = cutter_mm if cutter_mm is not None else None
    gap = max(0.0, width_mm - cut) if cut else 0.0
    depth = tip.bead_width_mm if tip else 0.0
    side = height_mm or joints_mm + drop_mm + depth + width_mm * 0.30
    scale = whole + width_mm * 0.6
    size = scale * 0.026
    items: list[Item] = []
    left, right = -width_mm * 0.10, whole + width_mm * 0.10
    items.append(Path(rectangle(left, 0, right - left, side), Style(fill=CAKE.fill, role="cake")))
    items.append(rule(left, 0, right, 0, LINE))
    if tip is not None:
        tier = _side(width_mm, max(3, swags))
        row = RowDrawn("swag", tip, colour, line_mm=joints_mm, repeats=max(3, swags), drop_mm=drop_mm, width_mm=width_mm - gap)
        items.append(piped(tier, row, 0.0, width_mm * max(1, swags - 1) - 1e-6))
    for j in range(swags + 1):
        items.append(rule(width_mm * j, 0, width_mm * j, side, GUIDE_DASH))
    for j in range(swags):
        items.append(Path(swag_parts(width_mm * j + gap / 2, joints_mm, width_mm - gap, drop_mm), LINE))
    for j in range(swags + 1):
        items.append(cross(width_mm * j, joints_mm, size * 0.9))
    last = width_mm * (swags - 1)
    middle = last + width_mm / 2
    above = size * 3.2
    if cut:
        radius = cut / 2
        top = joints_mm - (cut - drop_mm)
        items.append(Path(circle(middle, top + radius, radius), GUIDE_LINE._replace(width_mm=size * 0.11)))
        if not gap:
            tape = joints_mm - guide_height_mm(cut, width_mm)
            edge = "lower edge" if tape >= 0 else "upper edge"
            tape = tape if tape >= 0 else joints_mm + drop_mm
            items.append(rule(left, tape, right, tape, GUIDE_LINE._replace(width_mm=size * 0.16)))
            under = tape < size * 1.6 or edge == "upper edge"
            below = size + (depth / 2 if edge == "upper edge" else 0.0)
            items.append(label(left + size * 0.3, tape + (below if under else -size * 0.4), f"{edge} of the guide tape", size, guide=True))
            if edge == "lower edge":
                items.append(dimension(width_mm * 0.72, joints_mm, width_mm * 0.72, tape, say.length(joints_mm - tape), size))
        items.append(label(middle, top + radius * 0.55, f"cutter {say.length(cut)}", size, "middle", guide=True))
        above = max(above, -top + size * 2.4)
    else:
        radius = arc_radius_mm(width_mm, drop_mm)
        items.append(label(middle - size * 0.6, joints_mm + drop_mm * 0.5, f"radius {say.length(radius)}", size, "end", guide=True))
    low = joints_mm + drop_mm + depth / 2 + size * 2.4
    items.append(dimension(last, low, last + width_mm, low, f"width {say.length(width_mm)}", size, "below"))
    items.append(dimension(middle, joints_mm, middle, joints_mm + drop_mm, f"drop {say.length(drop_mm)}", size))
    items.append(rule(last, joints_mm, last + width_mm, joints_mm, THIN))
    if gap:
        items.append(dimension(last - gap / 2, low + size * 2.6, last + gap / 2, low + size * 2.6, f"gap {say.length(gap)}", size, "below"))
        side = max(side, low + size * 6)
    side = max(side, low + size * 2.4)
    items.append(label(left, -size * 0.4, "top edge", size))
    words = (f"Swags {say.length(width_mm)} wide with a drop of {say.length(drop_mm)}, joints {say.length(joints_mm)} below the top edge"
             + (f", marked with a {say.length(cut)} cutter." if cut else "."))
    number = ("One swag", "Two swags", "Three swags", "Four swags", "Five swags", "Six swags")[swags - 1]
    pad = width_mm * 0.05
    return Scene(f"{number} on the flat side", words, left - pad, -above, right - left + 2 * pad, side + above + size, tuple(items))


@lru_cache(maxsize=64)
def division_scene(side_mm: float, repeats: int, units: str = "metric") -> Scene:
    """Draw a round top with its joints, and dividers set to the chord between two of them.

    Formula: chord (P/pi) sin(pi/n); the pitch P/n runs along the edge.

    Parameters
    ----------
    side_mm : float
        Measured length round the side P [mm]
    repeats : int
        Number of repeats n [-]
    units : str
        "metric" or "us" [-]

    Returns
    -------
    Scene
        The drawing [mm]

    Raises
    ------
    ValueError
        There are fewer than two repeats.

    Range: n >= 2. Leaves out: other outlines.

    Example
    -------
    >>> division_scene(660.0, 8).title
    'A round top divided into 8'

    Source: segment
    """
    say = Say(units)
    radius = side_mm / math.tau
    chord = dividers_mm(side_mm, repeats)
    size = radius * 0.085
    joints = [(radius * math.sin(math.tau * j / repeats), -radius * math.cos(math.tau * j / repeats)) for j in range(repeats)]
    items: list[Item] = [Path(circle(0, 0, radius), CAKE)]
    if repeats <= 24:
        items += [rule(0, 0, x, y, GUIDE_DASH) for x, y in joints]
    items += [cross(x, y, size * 0.7) for x, y in joints]
    # the repeat nearest to straight below carries the dividers
    k = repeats // 2 if repeats % 2 else max(0, repeats // 2 - 1)
    (ax, ay), (bx, by) = joints[(k + 1) % repeats], joints[k % repeats]
    mx, my = (ax + bx) / 2, (ay + by) / 2
    out = math.hypot(mx, my) or 1.0
    nx, ny = (mx / out, my / out) if out > 1e-6 * radius else (0.0, 1.0)
    reach = max(chord * 0.9, radius * 0.55)
    hx, hy = mx + nx * reach, my + ny * reach
    leg = Style(stroke="#5f5561", width_mm=radius * 0.022)
    for px, py in ((ax, ay), (bx, by)):
        items.append(Path(polyline([(hx, hy), (px, py)]), leg))
        items.append(Path(polyline([(hx, hy), (px, py)]), Style(stroke="#b9aeb9", width_mm=radius * 0.008)))
    items.append(Path(circle(hx, hy, radius * 0.045), Style(fill="#8b7f8d", stroke="#5f5561", width_mm=radius * 0.01)))
    items.append(Path(polyline([(hx, hy), (hx + nx * radius * 0.13, hy + ny * radius * 0.13)]), Style(stroke="#5f5561", width_mm=radius * 0.035)))
    items.append(rule(ax, ay, bx, by, Style(stroke="#2f1730", width_mm=radius * 0.008, role="line")))
    items.append(label(mx - nx * size * 1.6, my - ny * size * 1.6 + size * 0.35, f"dividers {say.length(chord)}", size, "middle", "bold"))
    along = say.length(side_mm / repeats)
    first = math.degrees(math.tau / repeats)
    items.append(Path(arc(0, 0, radius * 1.06, -90, -90 + first), THIN))
    tip_angle = math.radians(-90 + first)
    items.append(Path(polygon([(radius * 1.06 * math.cos(tip_angle), radius * 1.06 * math.sin(tip_angle)),
                               (radius * 1.09 * math.cos(tip_angle - 0.06), radius * 1.09 * math.sin(tip_angle - 0.06)),
                               (radius * 1.03 * math.cos(tip_angle - 0.06), radius * 1.03 * math.sin(tip_angle - 0.06))]), HEAD))
    at = math.radians(-90 + first / 2)
    items.append(label(radius * 1.13 * math.cos(at), radius * 1.13 * math.sin(at), f"pitch {along}", size))
    items.append(label(0, -radius * 1.1, "back", size, "end"))
    low = max(radius, hy + radius * 0.25)
    wide = radius * 1.45 + size * 3
    return Scene(f"A round top divided into {repeats}",
                 f"Joints every {along} round the edge; the dividers are set to {say.length(chord)}, straight across.",
                 -wide, -radius * 1.25, 2 * wide, radius * 1.25 + low + size, tuple(items))


@lru_cache(maxsize=32)
def cutting_scene(plan: CutPlan, units: str = "metric") -> Scene:
    """Draw a top cut into slices, the knife's lines numbered in their order.

    Formula: none; the lines are the plan's.

    Parameters
    ----------
    plan : CutPlan
        The plan [mm]
    units : str
        "metric" or "us" [-]

    Returns
    -------
    Scene
        The drawing, its front below [mm]

    Raises
    ------
    ValueError
        Never.

    Range: any plan. Leaves out: the sentences; they stand beside it.

    Example
    -------
    >>> from calc.portions import cut_plan
    >>> cutting_scene(cut_plan(outline("round", 200.0), (25.0, 50.0))).title
    'Where the knife goes'

    Source: geometry
    """
    say = Say(units)
    left, low, right, high = plan.outline.extent_mm
    size = max(right - left, high - low) * 0.036
    items: list[Item] = [Path(polygon([(x, -y) for x, y in plan.outline.points(180)]), Style(fill="#dcb887", stroke="#8a6f5c", width_mm=0.5))]
    for i, piece in enumerate(plan.pieces):
        items.append(Path(polygon([(x, -y) for x, y in piece]),
                          Style(fill="#f9ecd2" if i % 2 else "#f3dfba", stroke="#8a6f5c", width_mm=0.25)))
    for number, cut in enumerate(plan.cuts, 1):
        for line in cut.lines:
            items.append(Path(polyline([(x, -y) for x, y in line]), Style(stroke="#2f1730", width_mm=0.9 if number <= 2 else 0.6)))
    drawn: list[Point] = []
    for number, cut in enumerate(plan.cuts, 1):
        if not cut.lines:
            continue
        at = _free_end(cut.lines[0], drawn, size * 1.5)
        drawn.append(at)
        items.append(Path(circle(at[0], at[1], size * 0.78), Style(fill="#fffaf0", stroke="#2f1730", width_mm=size * 0.1)))
        items.append(label(at[0], at[1] + size * 0.34, str(number), size, "middle", "bold")._replace(style=Style(fill="#2f1730")))
    margin = size * 2.6
    words = f"{plan.count} slices of {say.length(plan.slice_mm[0])} by {say.length(plan.slice_mm[1])}, cut in {len(plan.cuts)} steps."
    return Scene("Where the knife goes", words, left - margin, -high - margin, right - left + 2 * margin, high - low + 2 * margin, tuple(items))


def _free_end(line: Sequence[Point], taken: Sequence[Point], apart: float) -> Point:
    """The end of a line, moved out a little, that no number stands at yet."""
    best = (line[0][0], -line[0][1])
    for (x, y), (px, py) in ((line[0], line[1]), (line[-1], line[-2])):
        length = math.dist((x, y), (px, py)) or 1.0
        for far in (0.7, 2.0, 3.2):
            at = (x + (x - px) / length * apart * 0.5 * far, -(y + (y - py) / length * apart * 0.5 * far))
            if all(math.dist(at, other) >= apart for other in taken):
                return at
    return best


# --- tips --------------------------------------------------------------------------------------------------------------

def opening_parts(tip: Tip, x_mm: float = 0.0, y_mm: float = 0.0) -> Parts:
    """Draw the opening of a tip at 1:1, as it is seen from in front.

    Formula: round, a circle; a star, its points and notches; petal, a slot that tapers; leaf, two curves that meet in points;
    ruffle, a bent slot; basket, a slot with notches on one edge.

    Parameters
    ----------
    tip : Tip
        The tip [mm]
    x_mm : float
        Its middle, to the right [mm]
    y_mm : float
        Its middle, downwards [mm]

    Returns
    -------
    tuple
        Parts of a path [mm]

    Raises
    ------
    ValueError
        Never.

    Range: any tip. Leaves out: the wall of the metal.

    Example
    -------
    >>> opening_parts(Tip("round", 4.0))[0]
    ('M', 2.0, 0.0)

    Source: common-practice
    """
    half = tip.opening_mm / 2
    slot = tip.slot_mm / 2
    match tip.family:
        case "round":
            return circle(x_mm, y_mm, half)
        case "open star" | "closed star":
            inner = tip.inner_mm / 2
            points = []
            for i in range(2 * tip.points):
                angle = math.pi * i / tip.points - math.pi / 2
                r = half if i % 2 == 0 else inner
                points.append((x_mm + r * math.cos(angle), y_mm + r * math.sin(angle)))
            return polygon(points)
        case "petal":
            thin = slot * PETAL_THIN
            return (("M", x_mm - thin, y_mm - half + thin), *arc(x_mm, y_mm - half + thin, thin, 180, 360)[1:],
                    ("L", x_mm + slot, y_mm + half - slot), *arc(x_mm, y_mm + half - slot, slot, 0, 180)[1:], ("Z",))
        case "leaf":
            return (("M", x_mm - half, y_mm), ("C", x_mm - half / 2, y_mm - slot * 4 / 3, x_mm + half / 2, y_mm - slot * 4 / 3, x_mm + half, y_mm),
                    ("C", x_mm + half / 2, y_mm + slot * 4 / 3, x_mm - half / 2, y_mm + slot * 4 / 3, x_mm - half, y_mm), ("Z",))
        case "ruffle":
            waves = 3
            upper = [(x_mm - half + tip.opening_mm * i / (4 * waves), y_mm - slot + slot * 0.9 * math.sin(i * math.pi / 2))
                     for i in range(4 * waves + 1)]
            lower = [(x, y + 2 * slot) for x, y in reversed(upper)]
            return (*smooth(upper), ("L", *lower[0]), *smooth(lower)[1:], ("Z",))
        case _:
            teeth = max(3, round(tip.opening_mm / 3))
            step = tip.opening_mm / teeth
            top: list[Point] = [(x_mm - half, y_mm - slot)]
            for i in range(teeth):
                at = x_mm - half + step * i
                top += [(at + step * 0.3, y_mm - slot), (at + step * 0.5, y_mm - slot + 1.1 * slot), (at + step * 0.7, y_mm - slot)]
            top += [(x_mm + half, y_mm - slot), (x_mm + half, y_mm + slot), (x_mm - half, y_mm + slot)]
            return polygon(top)


@lru_cache(maxsize=128)
def tip_scene(tip: Tip, units: str = "metric") -> Scene:
    """Draw the opening of a tip with its measures.

    Formula: as `opening_parts`.

    Parameters
    ----------
    tip : Tip
        The tip [mm]
    units : str
        "metric" or "us"; openings are in mm in both [-]

    Returns
    -------
    Scene
        The drawing [mm]

    Raises
    ------
    ValueError
        Never.

    Range: any tip. Leaves out: makers' shapes.

    Example
    -------
    >>> tip_scene(Tip("petal", 11.0)).title
    'The opening of a tip: petal 11 mm'

    Source: common-practice
    """
    say = Say(units)
    reach = tip.opening_mm / 2
    size = max(1.0, tip.opening_mm * 0.13)
    items: list[Item] = [Path(circle(0, 0, reach * 1.5), Style(fill=Gradient(-reach, -reach, reach, reach, (
        (0, "#f1edee"), (0.4, "#cfc7cd"), (0.7, "#a79da7"), (1, "#d8d0d5"))), stroke="#7d7280", width_mm=size * 0.1))]
    items.append(Path(opening_parts(tip), Style(fill="#3a1a3b", stroke="#6b5f6d", width_mm=size * 0.1)))
    if tip.family == "petal":
        items.append(dimension(reach * 1.75, -reach, reach * 1.75, reach, say.opening(tip.opening_mm), size))
        items.append(label(0, reach * 1.5 + size * 1.2, "thick end", size, "middle"))
        items.append(label(0, -reach * 1.5 - size * 0.4, "thin end", size, "middle"))
    else:
        items.append(dimension(-reach, reach * 1.8, reach, reach * 1.8, say.opening(tip.opening_mm), size, "below"))
    wide = reach * 1.9 + size * 4.2
    return Scene(f"The opening of a tip: {tip.name}", f"Opening {say.opening(tip.opening_mm)}, drawn to scale.", -wide, -reach * 2.1, 2 * wide,
                 reach * 4.2 + size * 2, tuple(items))


# --- rows and hands ----------------------------------------------------------------------------------------------------

@lru_cache(maxsize=64)
def row_scene(row: RowDrawn, wide_mm: float = 120.0, high_mm: float = 60.0, coat: str = COAT, height_mm: float | None = None) -> Scene:
    """Draw a piece of a row, flat, as it looks on the cake.

    Formula: none.

    Parameters
    ----------
    row : RowDrawn
        The row; its repeats are taken round a side three pieces long [-]
    wide_mm : float
        Width of the piece [mm]
    high_mm : float
        Height of the piece [mm]
    coat : str
        Colour of the coat as #rrggbb [-]
    height_mm : float
        Height of the side it stands on; that of the piece when None [mm]

    Returns
    -------
    Scene
        The drawing [mm]

    Raises
    ------
    ValueError
        The row is of no known kind.

    Range: any row. Leaves out: the curve of the side.

    Example
    -------
    >>> row_scene(RowDrawn("shell", Tip("open star", 7.0), "#b9592f", "base")).title
    'Shell, open star 7 mm'

    Source: common-practice
    """
    tall = high_mm if height_mm is None else height_mm
    tier = TierDrawn(outline("round", wide_mm * 3 / math.pi), 0.0, tall, coat)
    fill = Gradient(wide_mm, 0, wide_mm * 2, high_mm, ((0, tone(coat, 0.3)), (0.5, tone(coat, 0.06)), (1, tone(coat, -0.12))))
    items: list[Item] = [Path(rectangle(wide_mm, 0, wide_mm, high_mm), Style(fill=fill)),
                         Group((piped(tier, row, wide_mm * 0.6, wide_mm * 2.4),), clip=(wide_mm, -20.0, wide_mm, high_mm + 40.0))]
    name = f"{row.kind}, {row.tip.name}"
    return Scene(name[0].upper() + name[1:], f"A piece of a row: {name}.", wide_mm, -8.0, wide_mm, high_mm + 16.0, tuple(items))


# Which way the tip leans: along the row, out from the cake, or not at all; and its angle to the surface [deg].
_LEANS = {"swag": ("out", 45.0), "ruched swag": ("out", 45.0), "ruched border": ("out", 45.0), "string": ("out", 90.0), "shell": ("along", 45.0),
          "reverse shell": ("along", 45.0), "bead": ("along", 45.0), "rope": ("along", 45.0), "zigzag": ("along", 45.0), "rosette": ("out", 90.0),
          "star": ("out", 90.0), "leaf": ("along", 45.0), "C scroll": ("along", 45.0), "S scroll": ("along", 45.0), "line": ("along", 45.0)}
_BAG = "#efe6f0"


def _tip_and_bag(x: float, y: float, angle: float, opening: float, length: float) -> list[Item]:
    """A tip whose opening lies at (x, y), with the bag behind it in the direction `angle` [rad]."""
    c, s = math.cos(angle), math.sin(angle)

    def at(along: float, across: float) -> Point:
        return x + along * c - across * s, y + along * s + across * c

    near, far, bag = opening * 0.5, length * 0.30, length * 0.42
    body = [at(0, -near), at(length, -far), at(length, far), at(0, near)]
    sack = smooth([at(length * 0.86, -far), at(length * 1.25, -bag), at(length * 1.9, -bag * 1.15), at(length * 2.3, -bag * 0.8),
                   at(length * 2.3, bag * 0.8), at(length * 1.9, bag * 1.15), at(length * 1.25, bag), at(length * 0.86, far)], closed=True)
    (x1, y1), (x2, y2) = at(length, -far), at(length, far)
    metal = Gradient(x1, y1, x2, y2, ((0, "#8d818f"), (0.3, "#f4f0f3"), (0.6, "#b9aeb9"), (1, "#756a78")))
    soft = Gradient(*at(length * 1.6, -bag), *at(length * 1.6, bag), ((0, "#d9cadb"), (0.35, "#fbf6fb"), (1, "#c2b1c5")))
    return [Path(sack, Style(fill=soft, stroke="#8b7a8e", width_mm=length * 0.012)),
            Path(polygon(body), Style(fill=metal, stroke="#6b5f6d", width_mm=length * 0.012))]


def _way(points: Sequence[Point]) -> list[Item]:
    """The path of the hand: dark, with a light rim, so that it shows on any buttercream and on any ground."""
    line = polyline(points)
    (x1, y1), (x2, y2) = points[-2], points[-1]
    angle = math.atan2(y2 - y1, x2 - x1)
    c, s = math.cos(angle), math.sin(angle)
    head = polygon([(x2 + a * c - b * s, y2 + a * s + b * c) for a, b in ((2.6, 0.0), (-2.4, 1.7), (-1.2, 0.0), (-2.4, -1.7))])
    return [Path(line, Style(stroke="#fffaf0", width_mm=2.0)), Path(head, Style(fill="#fffaf0", stroke="#fffaf0", width_mm=1.2)),
            Path(line, Style(stroke="#2f1730", width_mm=0.9)), Path(head, Style(fill="#2f1730"))]


def _angle_mark(x: float, y: float, radius: float, first: float, last: float, words: str, size: float) -> list[Item]:
    middle = math.radians((first + last) / 2)
    if first == -90.0 and last > -90.0 and last < 0.0:  # a narrow angle against a wall: the bag stands where the words would be
        return [Path(arc(x, y, radius, first, last), Style(stroke="#0a6a62", width_mm=size * 0.1, role="guide")),
                label(x + size * 0.4, y - radius - size * 0.5, words, size, "start", "bold", guide=True)]
    return [Path(arc(x, y, radius, first, last), Style(stroke="#0a6a62", width_mm=size * 0.1, role="guide")),
            label(x + radius * 1.16 * math.cos(middle), y + radius * 1.16 * math.sin(middle) + size * 0.35, words, size,
                  "start" if math.cos(middle) > -0.2 else "end", "bold", guide=True)]


def _hand_path(kind: str, wide: float, u: float) -> list[Point]:
    """The path of the hand over a surface `wide` long, from (0, 0) to the right, y down; `u` is the size of what is laid."""
    def steps(count: int) -> list[float]:
        return [i / count for i in range(count + 1)]

    match kind:
        case "swag":
            return [(wide * t, 4 * 0.30 * wide * t * (1 - t)) for t in steps(24)]
        case "ruched swag":
            return [(wide * t, 4 * 0.30 * wide * t * (1 - t) + u * 0.42 * (-1) ** i) for i, t in enumerate(steps(26))]
        case "string":
            return [(wide * t, 4 * 0.42 * wide * t * (1 - t)) for t in steps(24)]
        case "ruched border" | "zigzag":
            return [(wide * t, u * 0.5 * (-1) ** i) for i, t in enumerate(steps(22))]
        case "rosette":
            return [(wide / 2 + wide * 0.36 * t * math.cos(9.6 * t), wide * 0.36 * t * math.sin(9.6 * t)) for t in steps(40)]
        case "rope":
            return [(wide * t, -u * 0.5 * math.sin(t * math.tau * 4)) for t in steps(48)]
        case "reverse shell":
            return [(wide * t, -u * 0.7 * math.sin(t * math.pi * 4) * (1 - (t * 4 % 1) * 0.4)) for t in steps(48)]
        case "shell" | "bead":
            return [(wide * t, -u * 0.55 * abs(math.sin(t * math.pi * 4)) ** 0.8) for t in steps(48)]
        case "C scroll" | "S scroll":
            points = scroll_points(kind, wide * 0.9, wide * 0.36, 24)
            return [(wide * 0.05 + x, y) for x, y in points]
        case _:
            return [(0.0, 0.0), (wide, 0.0)]


@lru_cache(maxsize=64)
def hold_scene(kind: str, tip: Tip, colour: str = "#b9592f", units: str = "metric") -> Scene:
    """Draw a tip at work: the path of the hand from in front, and the angle of the tip to the surface from the side.

    Formula: none.

    Parameters
    ----------
    kind : str
        A kind of row [-]
    tip : Tip
        The tip [-]
    colour : str
        Colour of the buttercream as #rrggbb [-]
    units : str
        "metric" or "us"; nothing here depends on it [-]

    Returns
    -------
    Scene
        The drawing [mm]

    Raises
    ------
    KeyError
        There is no such kind.

    Range: the kinds of `calc.rows.KINDS`. Leaves out: left-handed hands, for whom it is seen in a mirror.

    Example
    -------
    >>> hold_scene("shell", Tip("open star", 7.0)).title
    'Holding the tip: shell'

    Source: common-practice
    """
    lean, degrees = _LEANS[kind]
    size = 5.4
    panel, high, gap = 84.0, 96.0, 14.0
    u = 16.0
    items: list[Item] = [Path(rectangle(0, 0, panel, high), CAKE), Path(rectangle(panel + gap, 0, panel, high), Style(fill="#fffaf0", opacity=0.0))]
    # from in front: the path of the hand, and what it leaves behind
    middle = high * (0.34 if kind in ("swag", "ruched swag", "string", "C scroll") else 0.54)
    placed = tuple((11 + x, middle + y) for x, y in _hand_path(kind, 62.0, u))
    items.append(Group((_left_behind(kind, tip, colour),), matrix=(1.0, 0.0, 0.0, 1.0, 11.0, middle)))
    if kind != "star":
        items += _way(placed)
    start = placed[0] if kind != "star" else (11.0 + 31.0, middle)
    items.append(Path(circle(*start, 1.5), Style(fill="#2f1730", stroke="#fffaf0", width_mm=0.6)))
    items.append(label(panel / 2, high + size * 1.4, "from in front", size, "middle"))
    # from the side: the surface, the tip, the angle
    x0 = panel + gap
    if lean == "along":
        floor = high * 0.78
        items.append(Path(rectangle(x0, floor, panel, high - floor), CAKE))
        x, y = x0 + panel * 0.34, floor - u * 0.22
        if kind in ("shell", "reverse shell", "bead"):
            piece, tail = ("bead", 96.0) if kind == "bead" else ("shell", 128.0)
            items.append(Use(motif(piece, colour), (0.2, 0.0, 0.0, 0.17, x - 0.2 * tail + 1.5, floor + 0.5)))
        else:
            laid = [(x0 + 6.0, floor - 3.4), (x0 + 16.0, floor - 3.6), (x - 4.0, floor - 3.4), (x + 1.0, floor - 3.2)]
            items += strand_paths(laid, 6.4, "line", colour)
        items += _tip_and_bag(x, y, math.radians(-degrees), 5.0, 26.0)
        items += [rule(x, floor, x + 40, floor, THIN), *_angle_mark(x, floor, 30.0, -degrees, 0.0, f"{degrees:.0f}°", size)]
        items.append(arrow(((x + 2, floor + 7), (x + 20, floor + 7)), THIN, 3.5))
        items.append(label(x + 25, floor + 7 + size * 0.35, "the row", size))
        words = "along the row"
    else:
        wall = x0 + panel * 0.24
        items.append(Path(rectangle(x0, 0, wall - x0, high), CAKE))
        x, y = wall + 2.0, high * 0.52
        angle = math.radians(-(90.0 - degrees))
        items.append(Path(circle(wall + 1.0, y + 1.0, 3.4), Style(fill=tone(colour, -0.25))))
        items.append(Path(circle(wall + 0.6, y + 0.4, 2.6), Style(fill=tone(colour, 0.12))))
        items += _tip_and_bag(x, y, angle, 6.0, 26.0)
        items.append(rule(wall, y, wall, y - 40, THIN))
        items += _angle_mark(wall, y, 30.0, -90.0, math.degrees(angle), f"{degrees:.0f}°", size)
        if tip.family == "petal":
            items.append(arrow(((wall + 16, y + 25), (wall + 3.2, y + 4.6)), THIN, 3.0))
            items.append(label(wall + 17, y + 28, "thick end on the cake", size * 0.92))
        words = "from the side"
    items.append(label(x0 + panel / 2, high + size * 1.4, words, size, "middle"))
    about = KINDS[kind]
    return Scene(f"Holding the tip: {kind}", f"{about.angle}. {about.hand}", -4, -6, 2 * panel + gap + 8, high + size * 1.4 + 12, tuple(items))


def _left_behind(kind: str, tip: Tip, colour: str) -> Group:
    """What the hand has laid along the first part of its path, from (0, 0)."""
    big = Tip(tip.family, {"string": 2.4, "round": 6.0, "bead": 9.0, "leaf": 12.0, "star": 17.0}.get(kind, 11.0 if tip.family != "round" else 6.0))
    wide = 62.0
    place, repeats, count, drop, width = "side", 3, None, 0.0, None
    reach, start = wide * 0.62, 0.0
    match kind:
        case "swag" | "ruched swag":
            drop = wide * 0.30
        case "string":
            drop, reach = wide * 0.42, wide
        case "shell" | "reverse shell" | "bead":
            count, reach = 12, wide * 0.74
        case "rosette" | "star" | "leaf":
            place, start, width = "joints", -1.0, {"rosette": 46.0, "star": 30.0, "leaf": 44.0}[kind]
            reach = wide * 0.98
        case "C scroll" | "S scroll":
            drop, width, reach, big = wide * 0.36, wide * 0.9, wide * 1.2, Tip(tip.family, 4.5)
        case _:
            pass
    row = RowDrawn(kind, big, colour, place, 0.0, repeats, width, drop, count=count, phase=0.5 if place == "joints" and kind != "leaf" else 0.0)
    if kind == "leaf":
        return Group((Use(motif("leaf", colour), (0.46, 0.0, 0.0, 0.46, 4.0, 0.0)),))
    tier = TierDrawn(outline("round", wide * 3 / math.pi), 0.0, 200.0, COAT)
    return Group((piped(tier, row, start, reach),), clip=(-8.0, -60.0, reach + 8.0, 200.0))
