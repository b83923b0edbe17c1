"""The small drawings of the technique pages: a swag marked and piped, a top divided, a top cut into slices, the opening of a tip,
a piece of a row. How a tip is held is in `calc.drawing.hands`.

Map
---
`swag_scene`       swags on the flat side with joints, drop, width, cutter and guide tape
`division_scene`   a top with its joints, and dividers set to the chord
`outline_division_scene`   a top of any outline with its joints and straight lines between them
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
from calc.drawing.scene import (
    CAKE,
    GUIDE_DASH,
    GUIDE_LINE,
    LINE,
    THIN,
    Gradient,
    Group,
    Item,
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
from calc.drawing.shading import SHADOW_COLOUR, strand_paths, tone
from calc.drawing.tiers import TierDrawn
from calc.drawing.tip_openings import opening_parts
from calc.drawing.unroll import piped, swag_parts
from calc.drawing.wander import wander_points
from calc.portions import CutPlan
from calc.rows.placement import PlacedRow, guide_tape
from calc.shapes import Outline, outline
from calc.tips import Tip
from calc.units import Formatter, a_or_an, capitalised

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
    """Draw swags on the flat side: the first piped, the last marked, with cutter, joints, drop, width and guide tape."""
    if width_mm <= 0 or drop_mm <= 0:
        raise ValueError("the width and the drop of a swag must be greater than 0")
    say = Formatter(units)
    swags = max(1, min(6, swags))
    perimeter_mm = width_mm * swags
    gap = max(0.0, width_mm - cutter_mm) if cutter_mm else 0.0
    depth = tip.bead_width_mm if tip else 0.0
    size = (perimeter_mm + width_mm * 0.6) * 0.029
    left, right = -width_mm * 0.12, perimeter_mm + width_mm * 0.12
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
        f", marked with {a_or_an(say.length(cutter_mm))} cutter." if cutter_mm else "."
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
    """Draw a round top with its joints, and dividers set to the chord between two of them."""
    say = Formatter(units)
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
def outline_division_scene(top: Outline, joints_mm: tuple[float, ...], units: str = "metric") -> Scene:
    """Draw a top of any outline with its joints, numbered, and the straight line from each to the next, its front below."""
    say = Formatter(units)
    left, low, right, high = top.extent_mm
    size = max(right - left, high - low) * 0.05
    points = [(x, -y) for x, y, _ in map(top.point, joints_mm)]
    items: list[Item] = [Path(polygon([(x, -y) for x, y in top.points(180)]), CAKE), Path(polygon(points), GUIDE_DASH)]
    items += [cross(x, y, size * 0.7) for x, y in points]
    if len(points) <= 24:
        for number, (x, y) in enumerate(points, 1):
            inner = max(0.0, 1 - 1.6 * size / max(size, math.hypot(x, y)))
            items.append(label(x * inner, y * inner + size * 0.35, str(number), size, "middle", "bold"))
    items.append(label(0.0, -high - size * 0.6, "back", size, "middle"))
    margin = size * 1.8
    return Scene(
        f"A top divided into {len(points)}",
        f"Joints every {say.length(top.perimeter_mm / len(points))} round the edge, joined by straight lines: the settings of the dividers.",
        left - margin,
        -high - margin,
        right - left + 2 * margin,
        high - low + 2 * margin,
        tuple(items),
    )


@lru_cache(maxsize=32)
def cutting_scene(plan: CutPlan, units: str = "metric") -> Scene:
    """Draw a top cut into slices, the knife's lines numbered in their order."""
    say = Formatter(units)
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
    """A place a little past an end of the line, where no number stands yet."""
    best = (line[0][0], -line[0][1])
    for (x, y), (px, py) in ((line[0], line[1]), (line[-1], line[-2])):
        length = math.dist((x, y), (px, py)) or 1.0
        for far in (0.7, 2.0, 3.2):
            at = (x + (x - px) / length * apart * 0.5 * far, -(y + (y - py) / length * apart * 0.5 * far))
            if all(math.dist(at, other) >= apart for other in taken):
                return at
    return best


# --- tips --------------------------------------------------------------------------------------------------------------


@lru_cache(maxsize=128)
def tip_scene(tip: Tip, units: str = "metric") -> Scene:
    """Draw the opening of a tip with its measures."""
    say = Formatter(units)
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
        f"Opening {say.opening_beside(tip.opening_mm)}, drawn to scale.",
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
    """Draw a patch of vermicelli, flat and to scale."""
    if pitch_mm <= 0:
        raise ValueError("the pitch must be greater than 0")
    wide = 2 * max(2, min(11, round(wide_mm / pitch_mm / 2)))
    high = 2 * max(1, min(7, round(high_mm / pitch_mm / 2)))
    points = [(x * pitch_mm, y * pitch_mm) for x, y in wander_points(wide, high, seed)]
    shown = points[: max(3, round(len(points) * to))]
    items: list[Item] = [Path(rectangle(0, 0, wide * pitch_mm, high * pitch_mm), Style(fill=coat))]
    shade = Path(smooth([(x + bead_mm * 0.16, y + bead_mm * 0.34) for x, y in shown]), Style(stroke=SHADOW_COLOUR, width_mm=bead_mm, opacity=0.16))
    items += [shade, *strand_paths(shown, bead_mm, "smooth", colour)[::2]]
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
    """Draw a piece of a row, or of rows on one another, flat, as it looks on the cake."""
    rows = (row,) if isinstance(row, PlacedRow) else row
    tall = high_mm if height_mm is None else height_mm
    perimeter_mm = wide_mm * 3 if side_mm is None else side_mm
    begin = wide_mm if begin_mm is None else begin_mm
    tier = TierDrawn(outline("round", perimeter_mm / math.pi), 0.0, tall, coat)
    fill = Gradient(begin, 0, begin + wide_mm, high_mm, ((0, tone(coat, 0.3)), (0.5, tone(coat, 0.06)), (1, tone(coat, -0.12))))
    margin = max(wide_mm * 0.4, 60.0)
    items: list[Item] = [Path(rectangle(begin, 0, wide_mm, high_mm), Style(fill=fill))]
    laid = tuple(piped(tier, one, begin - margin, begin + wide_mm + margin, cut=True) for one in rows)
    above = 8.0 if any(one.place in ("top edge", "top") for one in rows) else 0.0
    items.append(Group(laid, clip=(begin, -above, wide_mm, high_mm + above)))
    name = "; ".join(f"{one.kind}, {one.tip.name}" for one in rows)
    return Scene(capitalised(name), f"A piece of a row: {name}.", begin, -above, wide_mm, high_mm + above, tuple(items))
