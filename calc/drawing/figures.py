"""The small drawings of the technique pages: a swag marked and piped, a top divided, a top cut into slices, the opening of a tip,
a piece of a row. How a tip is held is in `calc.drawing.hands`.

Map
---
`swag_scene`       swags on the flat side with joints, drop, width, cutter and guide tape
`division_scene`   a top with its joints, and dividers set to the chord
`cutting_scene`    a top cut into slices, the knife's lines numbered
`opening_parts`    the opening of a tip at 1:1
`tip_scene`        the same as a drawing, with its measures
`wander_scene`     a patch of vermicelli, flat
`row_scene`        a piece of a row, or of rows on one another, as it looks on the cake
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from calc.curves import arc_radius_mm
from calc.division import dividers_mm
from calc.drawing.faces import text_width_mm
from calc.drawing.marks import HEAD, cross, dimension, label, rule
from calc.drawing.motifs import SHADOW_COLOUR, tone
from calc.drawing.rows import TierDrawn
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
    arc,
    circle,
    polygon,
    polyline,
    rectangle,
    smooth,
)
from calc.drawing.unroll import piped, swag_parts
from calc.drawing.views import strand_paths
from calc.drawing.wander import wander_points
from calc.portions import CutPlan
from calc.rows.placement import PlacedRow, guide_tape
from calc.shapes import outline
from calc.tips import PETAL_THIN, Tip
from calc.units import Say

COAT = "#f4e6cb"


def _side(width_mm: float, swags: int) -> TierDrawn:
    """A round tier whose side is a whole number of swags."""
    return TierDrawn(outline("round", width_mm * swags / math.pi), 0.0, 1000.0, COAT)


@lru_cache(maxsize=64)
def swag_scene(
    width_mm: float,
    drop_mm: float,
    joints_mm: float = 12.0,
    cutter_mm: float | None = None,
    tip: Tip | None = None,
    colour: str = "#b9592f",
    swags: int = 2,
    units: str = "metric",
    height_mm: float = 0.0,
) -> Scene:
    """Draw swags on the flat side: the first piped, the last marked, with cutter, joints, drop, width and guide tape.

    Formula: lower edge of the guide tape at D/2 + sqrt(D^2/4 - w^2/4) above the joints; where that would stand above the top edge, its
    upper edge at y below them. Radius D/2, or y/2 + w^2/(8 y) without a cutter.

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
    gap = max(0.0, width_mm - cutter_mm) if cutter_mm else 0.0
    depth = tip.bead_width_mm if tip else 0.0
    size = (whole + width_mm * 0.6) * 0.029
    left, right = -width_mm * 0.12, whole + width_mm * 0.12
    last = width_mm * (swags - 1)
    middle = last + width_mm / 2
    low = joints_mm + drop_mm
    above, band = size * 2.4, size * 1.5
    over: list[Item] = []  # what lies over the swags
    tape: Item | None = None
    if cutter_mm:
        radius = cutter_mm / 2
        top = low - cutter_mm
        ring = GUIDE_LINE._replace(width_mm=size * 0.12)
        over.append(Path(circle(middle, top + radius, radius), ring))
        cutter_y = top + min(radius, max(size * 2.4, -top * 0.5 + size))
        if drop_mm <= size * 2.6 and abs(cutter_y - joints_mm + size * 0.5) < size * 1.3:
            cutter_y = top - size * 0.5  # too small a ring for its name and the drop's
        over.append(_backed(middle, cutter_y, f"cutter {say.length(cutter_mm)}", size, top > -size))
        above = max(above, -top + size * 1.2, -cutter_y + size * 1.2)
        guide = guide_tape(joints_mm, cutter_mm, width_mm)
        if guide is not None:
            edge, level = guide
            begin = level - band if edge == "lower edge" else level
            tape = Path(rectangle(left, begin, right - left, band), Style(fill="#ecbf55", stroke="#7a5a10", width_mm=size * 0.05))
            over.append(rule(left, level, right, level, GUIDE_LINE._replace(width_mm=size * 0.14)))
            above = max(above, -begin + size * 2.2)
            words_y = begin - size * 0.4 if edge == "lower edge" and begin > size * 1.4 else begin + band + size * 0.95
            over.append(label(left + size * 0.3, words_y, f"{edge} of the guide tape", size, guide=True))
            if edge == "lower edge":
                over.append(dimension(width_mm * 0.93, joints_mm, width_mm * 0.93, level, say.length(joints_mm - level), size, "left"))
            else:
                low += band
    else:
        radius = arc_radius_mm(width_mm, drop_mm)
        over.append(label(middle, low + size * 1.2 + depth / 2, f"radius {say.length(radius)}", size, "middle", guide=True))
        low += size * 0.8
    low += depth / 2 + size * 1.6
    over += [
        rule(last, joints_mm, last + width_mm, joints_mm, THIN),
        dimension(last, low, last + width_mm, low, f"width {say.length(width_mm)}", size, "below"),
    ]
    low += size * 2.2
    drop_words = f"drop {say.length(drop_mm)}"
    bare = dimension(middle, joints_mm, middle, joints_mm + drop_mm, "", size).items[:3]
    over += [
        Group(bare),
        _backed(middle, joints_mm + drop_mm * 0.5 + size * 0.35, drop_words, size)
        if drop_mm > size * 2.6
        else label(middle + size * 0.5, joints_mm - size * 0.5, drop_words, size),
    ]
    if gap:
        over.append(dimension(last - gap / 2, low, last + gap / 2, low, f"gap {say.length(gap)}", size, "below"))
        low += size * 2.2
    side = max(height_mm, low, joints_mm + drop_mm + depth + width_mm * 0.2)
    items: list[Item] = [Path(rectangle(left, 0, right - left, side), CAKE._replace(width_mm=0.0))]
    if tape:
        items.append(tape)
    items.append(rule(left, 0, right, 0, LINE))
    if tip is not None:
        tier = _side(width_mm, max(3, swags))
        row = PlacedRow("swag", tip, colour, line_mm=joints_mm, repeats=max(3, swags), drop_mm=drop_mm, width_mm=width_mm - gap)
        items.append(piped(tier, row, 0.0, width_mm * max(1, swags - 1) - 1e-6))
    items += [rule(width_mm * j, 0, width_mm * j, joints_mm + drop_mm * 0.6, GUIDE_DASH) for j in range(swags + 1)]
    items += [Path(swag_parts(width_mm * j + gap / 2, joints_mm, width_mm - gap, drop_mm), LINE) for j in range(swags)]
    items += [cross(width_mm * j, joints_mm, size * 0.9) for j in range(swags + 1)]
    items += [*over, label(left, -size * 0.45, "top edge", size)]
    words = f"Swags {say.length(width_mm)} wide with a drop of {say.length(drop_mm)}, joints {say.length(joints_mm)} below the top edge" + (
        f", marked with a {say.length(cutter_mm)} cutter." if cutter_mm else "."
    )
    number = ("One swag", "Two swags", "Three swags", "Four swags", "Five swags", "Six swags")[swags - 1]
    pad = width_mm * 0.03
    reach = (cutter_mm or 0.0) / 2
    left, right = min(left, middle - reach) - pad, max(right, middle + reach) + pad
    return Scene(f"{number} on the flat side", words, left, -above, right - left, side + above + pad, tuple(items))


def _backed(x: float, y: float, words: str, size: float, on_cake: bool = True) -> Group:
    """Words on a piece of the cake's own colour, so that lines do not run through them."""
    wide = text_width_mm(words, size, "bold") + size * 0.5
    back: tuple[Item, ...] = (Path(rectangle(x - wide / 2, y - size * 0.85, wide, size * 1.15), CAKE._replace(width_mm=0.0)),) if on_cake else ()
    return Group((*back, label(x, y, words, size, "middle", "bold")))


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
    size = radius * 0.105
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
    words_y = my - ny * size * 2.2 + size * 0.35
    items.append(_backed(mx - nx * size * 2.2, words_y, f"dividers {say.length(chord)}", size))
    along = say.length(side_mm / repeats)
    first = math.degrees(math.tau / repeats)
    items.append(Path(arc(0, 0, radius * 1.06, -90, -90 + first), THIN))
    tip_angle = math.radians(-90 + first)
    items.append(
        Path(
            polygon(
                [
                    (radius * 1.06 * math.cos(tip_angle), radius * 1.06 * math.sin(tip_angle)),
                    (radius * 1.09 * math.cos(tip_angle - 0.06), radius * 1.09 * math.sin(tip_angle - 0.06)),
                    (radius * 1.03 * math.cos(tip_angle - 0.06), radius * 1.03 * math.sin(tip_angle - 0.06)),
                ]
            ),
            HEAD,
        )
    )
    at = math.radians(-90 + first / 2)
    pitch_x, pitch_words = radius * 1.13 * math.cos(at), f"pitch {along}"
    items.append(label(pitch_x, radius * 1.13 * math.sin(at), pitch_words, size))
    items.append(label(-size * 0.3, -radius * 1.1, "back", size, "end"))
    low = max(radius, hy + radius * 0.25)
    wide = max(radius * 1.2, pitch_x + text_width_mm(pitch_words, size) + size)
    return Scene(
        f"A round top divided into {repeats}",
        f"Joints every {along} round the edge; the dividers are set to {say.length(chord)}, straight across.",
        -wide,
        -radius * 1.25,
        2 * wide,
        radius * 1.25 + low + size,
        tuple(items),
    )


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
    size = max(right - left, high - low) * 0.04
    items: list[Item] = [Path(polygon([(x, -y) for x, y in plan.outline.points(180)]), Style(fill="#dcb887", stroke="#8a6f5c", width_mm=0.5))]
    for i, piece in enumerate(plan.pieces):
        items.append(Path(polygon([(x, -y) for x, y in piece]), Style(fill="#f9ecd2" if i % 2 else "#f3dfba", stroke="#8a6f5c", width_mm=0.25)))
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
            return (
                ("M", x_mm - thin, y_mm - half + thin),
                *arc(x_mm, y_mm - half + thin, thin, 180, 360)[1:],
                ("L", x_mm + slot, y_mm + half - slot),
                *arc(x_mm, y_mm + half - slot, slot, 0, 180)[1:],
                ("Z",),
            )
        case "leaf":
            return (
                ("M", x_mm - half, y_mm),
                ("C", x_mm - half / 2, y_mm - slot * 4 / 3, x_mm + half / 2, y_mm - slot * 4 / 3, x_mm + half, y_mm),
                ("C", x_mm + half / 2, y_mm + slot * 4 / 3, x_mm - half / 2, y_mm + slot * 4 / 3, x_mm - half, y_mm),
                ("Z",),
            )
        case "ruffle":
            waves = 3
            upper = [
                (x_mm - half + tip.opening_mm * i / (4 * waves), y_mm - slot + slot * 0.9 * math.sin(i * math.pi / 2)) for i in range(4 * waves + 1)
            ]
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
    items: list[Item] = [
        Path(
            circle(0, 0, reach * 1.5),
            Style(
                fill=Gradient(-reach, -reach, reach, reach, ((0, "#f1edee"), (0.4, "#cfc7cd"), (0.7, "#a79da7"), (1, "#d8d0d5"))),
                stroke="#7d7280",
                width_mm=size * 0.1,
            ),
        )
    ]
    items.append(Path(opening_parts(tip), Style(fill="#3a1a3b", stroke="#6b5f6d", width_mm=size * 0.1)))
    if tip.family == "petal":
        items.append(dimension(reach * 1.75, -reach, reach * 1.75, reach, say.opening(tip.opening_mm), size))
        items.append(label(0, reach * 1.5 + size * 1.2, "thick end", size, "middle"))
        items.append(label(0, -reach * 1.5 - size * 0.4, "thin end", size, "middle"))
    else:
        items.append(dimension(-reach, reach * 1.8, reach, reach * 1.8, say.opening(tip.opening_mm), size, "below"))
    wide = reach * 1.9 + size * 4.2
    return Scene(
        f"The opening of a tip: {tip.name}",
        f"Opening {say.opening(tip.opening_mm)}, drawn to scale.",
        -wide,
        -reach * 2.1,
        2 * wide,
        reach * 4.2 + size * 2,
        tuple(items),
    )


# --- rows --------------------------------------------------------------------------------------------------------------


@lru_cache(maxsize=64)
def wander_scene(
    pitch_mm: float, bead_mm: float, colour: str, wide_mm: float = 60.0, high_mm: float = 36.0, coat: str = COAT, seed: int = 3, to: float = 1.0
) -> Scene:
    """Draw a patch of vermicelli, flat and to scale.

    Formula: as `calc.drawing.wander`; at most 22 by 14 passes are drawn.

    Parameters
    ----------
    pitch_mm : float
        From one pass to the next [mm]
    bead_mm : float
        Width of the line [mm]
    colour : str
        Colour as #rrggbb [-]
    wide_mm : float
        About how much of the ground is shown, across [mm]
    high_mm : float
        And down [mm]
    coat : str
        Colour of the coat as #rrggbb [-]
    seed : int
        Another number gives another line [-]
    to : float
        How much of the line is piped, from 0 to 1 [-]

    Returns
    -------
    Scene
        The drawing [mm]

    Raises
    ------
    ValueError
        The pitch is not above nothing.

    Range: any pitch. Leaves out: what stands out.

    Example
    -------
    >>> wander_scene(5.0, 2.0, "#fff0cf").width_mm
    60.0

    Source: geometry
    """
    if pitch_mm <= 0:
        raise ValueError("a pitch is above nothing")
    wide = 2 * max(2, min(11, round(wide_mm / pitch_mm / 2)))
    high = 2 * max(1, min(7, round(high_mm / pitch_mm / 2)))
    points = [(x * pitch_mm, y * pitch_mm) for x, y in wander_points(wide, high, seed)]
    shown = points[: max(3, round(len(points) * to))]
    items: list[Item] = [Path(rectangle(0, 0, wide * pitch_mm, high * pitch_mm), Style(fill=coat))]
    shade = Path(smooth([(x + bead_mm * 0.16, y + bead_mm * 0.34) for x, y in shown]), Style(stroke=SHADOW_COLOUR, width_mm=bead_mm, opacity=0.16))
    items += [shade, *strand_paths(shown, bead_mm, "string", colour)[::2]]
    return Scene(
        "A patch of vermicelli",
        "One line that wanders over the coat in short curls and never crosses itself.",
        0,
        0,
        wide * pitch_mm,
        high * pitch_mm,
        tuple(items),
    )


def row_scene(
    row: PlacedRow | tuple[PlacedRow, ...],
    wide_mm: float = 120.0,
    high_mm: float = 60.0,
    coat: str = COAT,
    height_mm: float | None = None,
    side_mm: float | None = None,
    begin_mm: float | None = None,
) -> Scene:
    """Draw a piece of a row, or of rows on one another, flat, as it looks on the cake.

    Formula: none.

    Parameters
    ----------
    row : PlacedRow or tuple of PlacedRow
        The row, or the rows in the order they are piped [-]
    wide_mm : float
        Width of the piece [mm]
    high_mm : float
        Height of the piece [mm]
    coat : str
        Colour of the coat as #rrggbb [-]
    height_mm : float
        Height of the side it stands on; that of the piece when None [mm]
    side_mm : float
        Length round the side; three pieces when None [mm]
    begin_mm : float
        Where the piece begins on it; after one piece when None [mm]

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
    >>> row_scene(PlacedRow("shell", Tip("open star", 7.0), "#b9592f", "base")).title
    'Shell, open star 7 mm'

    Source: common-practice
    """
    rows = (row,) if isinstance(row, PlacedRow) else row
    tall = high_mm if height_mm is None else height_mm
    whole = wide_mm * 3 if side_mm is None else side_mm
    begin = wide_mm if begin_mm is None else begin_mm
    tier = TierDrawn(outline("round", whole / math.pi), 0.0, tall, coat)
    fill = Gradient(begin, 0, begin + wide_mm, high_mm, ((0, tone(coat, 0.3)), (0.5, tone(coat, 0.06)), (1, tone(coat, -0.12))))
    margin = max(wide_mm * 0.4, 60.0)
    items: list[Item] = [Path(rectangle(begin, 0, wide_mm, high_mm), Style(fill=fill))]
    laid = tuple(piped(tier, one, begin - margin, begin + wide_mm + margin, cut=True) for one in rows)
    above = 8.0 if any(one.place in ("top edge", "top") for one in rows) else 0.0
    items.append(Group(laid, clip=(begin, -above, wide_mm, high_mm + above)))
    name = "; ".join(f"{one.kind}, {one.tip.name}" for one in rows)
    return Scene(name[0].upper() + name[1:], f"A piece of a row: {name}.", begin, -above, wide_mm, high_mm + above, tuple(items))
