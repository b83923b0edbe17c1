"""How buttercream is shaded: tones, ridges, curved strokes, strands and ribbons, from which every motif is drawn.

Map
---
`tone`            a colour in light or in shadow, as buttercream takes it: warm, never grey
`mixed`           a colour between two others
`along`, `through`   the centre line of a ridge: a cubic curve, or a smooth way through points
`band`, `ridge`   a part of a ridge between two of its edges; one ridge in its tones
`stroke`          a curved line of a star tip, as scrolls are made of
`strand_paths`    a strand that hangs or runs on
`ribbon`          a ribbon of a petal tip between its two edges, as swags are made of

Every ridge is one curved band in four tones laid over one another, the darkest widest, so that soft shading needs no filter and both
pens can draw it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import TypeVar, cast

from calc.drawing.scene import Gradient, Item, Parts, Path, Point, Style, smooth

AnyItem = TypeVar("AnyItem", bound=Item)

LIGHT = (-0.5, -0.87)  # from above and a little from the left
SHADOW_COLOUR = "#5a2f1e"

_DARK = (0.50, 0.66, 0.80)  # how much red, green and blue a full shadow takes away: least red, so that shadows stay warm
_BRIGHT = (255, 251, 240)


@lru_cache(maxsize=4096)
def tone(colour: str, level: float) -> str:
    """Give a colour in light (positive) or in shadow (negative).

    Formula: shadow takes away a share of each of red, green and blue, most of the blue; light mixes with warm white.

    Parameters
    ----------
    colour : str
        Colour as #rrggbb [-]
    level : float
        From -1, the deepest shadow, to 1, the highest light [-]

    Returns
    -------
    str
        Colour as #rrggbb [-]

    Range: -1 to 1, and cut off there; of two colours, apart by a space, each. Leaves out: how a real dye fades.

    Example
    -------
    >>> tone("#b9592f", 0), tone("#ffffff", -0.5)
    ('#b9592f', '#bfab99')

    Source: from-memory
    """
    if " " in colour:
        return " ".join(tone(one, level) for one in colour.split())
    level = max(-1.0, min(1.0, level))
    parts = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
    if level < 0:
        parts = [round(p * (1 + level * d)) for p, d in zip(parts, _DARK, strict=True)]
    else:
        parts = [round(p + (b - p) * level * 0.9) if b > p else p for p, b in zip(parts, _BRIGHT, strict=True)]
    return "#" + "".join(f"{p:02x}" for p in parts)


def mixed(first: str, second: str, share: float) -> str:
    """A colour between two, by share of the second."""
    pairs = [(int(first[i : i + 2], 16), int(second[i : i + 2], 16)) for i in (1, 3, 5)]
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in pairs)


# --- bands -------------------------------------------------------------------------------------------------------------

# Half widths along a ridge, from its start to its end, as shares of the widest.
PROFILES: dict[str, tuple[Point, ...]] = {
    "drop": ((0, 0), (0.25, 0.33), (0.55, 0.77), (0.82, 1), (0.94, 0.78), (0.988, 0.36), (1, 0)),
    "arm": ((0, 0.05), (0.35, 0.5), (0.72, 1), (0.93, 0.8), (1, 0.1)),
    "pod": ((0, 0), (0.03, 0.42), (0.12, 0.85), (0.35, 1), (0.65, 1), (0.88, 0.85), (0.97, 0.42), (1, 0)),
    "comma": ((0, 0), (0.04, 0.45), (0.14, 0.88), (0.28, 1), (0.5, 0.78), (0.72, 0.46), (0.9, 0.18), (1, 0)),
    "spear": ((0, 0.15), (0.3, 0.74), (0.55, 1), (0.75, 0.84), (0.9, 0.4), (1, 0)),
    "tail": ((0, 0.35), (0.05, 0.7), (0.16, 0.95), (0.3, 1), (0.46, 0.92), (0.66, 0.62), (0.85, 0.27), (1, 0)),
    "curl": ((0, 0), (0.03, 0.34), (0.1, 0.6), (0.2, 0.8), (0.34, 1), (0.5, 0.96), (0.66, 0.66), (0.84, 0.3), (1, 0)),
    "blade": ((0, 0.1), (0.12, 0.55), (0.3, 0.94), (0.45, 1), (0.65, 0.8), (0.83, 0.42), (0.95, 0.12), (1, 0)),
}
Bezier = tuple[Point, Point, Point, Point]
Centre = Callable[[float], tuple[float, float, float, float]]


def split_colours(items: list[AnyItem], colour: str) -> list[AnyItem]:
    """Alternate two colours over the paths of a drawing, so that they come out side by side; paths in one colour are unchanged."""
    if " " not in colour:
        return items
    return [cast(AnyItem, item._replace(style=_one_of(item.style, i % 2))) if isinstance(item, Path) else item for i, item in enumerate(items)]


def _one_of(style: Style, which: int) -> Style:
    """A style whose fill and stroke have one of their two colours."""

    def one(colour: str) -> str:
        return colour.split()[which] if " " in colour else colour

    fill = style.fill
    fill = fill._replace(stops=tuple((at, one(colour)) for at, colour in fill.stops)) if isinstance(fill, Gradient) else one(fill)
    return style._replace(fill=fill, stroke=one(style.stroke))


def along(curve: Bezier) -> Centre:
    """The point and the unit tangent of a cubic curve."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = curve

    def at(t: float) -> tuple[float, float, float, float]:
        u = 1 - t
        x = u * u * u * x0 + 3 * u * u * t * x1 + 3 * u * t * t * x2 + t * t * t * x3
        y = u * u * u * y0 + 3 * u * u * t * y1 + 3 * u * t * t * y2 + t * t * t * y3
        dx = u * u * (x1 - x0) + 2 * u * t * (x2 - x1) + t * t * (x3 - x2)
        dy = u * u * (y1 - y0) + 2 * u * t * (y2 - y1) + t * t * (y3 - y2)
        length = math.hypot(dx, dy) or 1.0
        return x, y, dx / length, dy / length

    return at


def through(points: Sequence[Point]) -> Centre:
    """A smooth way through points, evenly from one to the next."""
    n = len(points)

    def place(t: float) -> Point:
        at = min(n - 2, int(t * (n - 1)))
        u = t * (n - 1) - at
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = points[max(0, at - 1)], points[at], points[at + 1], points[min(n - 1, at + 2)]

        def blend(a: float, b: float, c: float, d: float) -> float:
            return b + 0.5 * u * (c - a + u * (2 * a - 5 * b + 4 * c - d + u * (3 * (b - c) + d - a)))

        return blend(ax, bx, cx, dx), blend(ay, by, cy, dy)

    def at(t: float) -> tuple[float, float, float, float]:
        x, y = place(t)
        (x0, y0), (x1, y1) = place(max(0.0, t - 0.01)), place(min(1.0, t + 0.01))
        length = math.hypot(x1 - x0, y1 - y0) or 1.0
        return x, y, (x1 - x0) / length, (y1 - y0) / length

    return at


def open_curves(points: Sequence[Point]) -> list[tuple[str | float, ...]]:
    """Smooth curves through points, in whole units, without the first move."""
    n = len(points)
    out: list[tuple[str | float, ...]] = []
    for i in range(n - 1):
        a, b, c, d = points[max(0, i - 1)], points[i], points[i + 1], points[min(n - 1, i + 2)]
        out.append(
            (
                "C",
                round(b[0] + (c[0] - a[0]) / 6),
                round(b[1] + (c[1] - a[1]) / 6),
                round(c[0] - (d[0] - b[0]) / 6),
                round(c[1] - (d[1] - b[1]) / 6),
                round(c[0]),
                round(c[1]),
            )
        )
    return out


def band(centre: Centre, half: float, profile: str, low: float, high: float, first: float = 0.0, last: float = 1.0) -> Parts:
    """The part of a ridge between `low` and `high`, -1 and 1 being its edges; y runs down, so 1 is to the right of its run."""
    left: list[Point] = []
    right: list[Point] = []
    for t, share in PROFILES[profile]:
        t = first + (last - first) * t
        x, y, tx, ty = centre(t)
        left.append((x - ty * half * share * low, y + tx * half * share * low))
        right.append((x - ty * half * share * high, y + tx * half * share * high))
    back = right[::-1]
    parts: list[tuple[str | float, ...]] = [("M", round(left[0][0]), round(left[0][1])), *open_curves(left)]
    if math.dist(left[-1], back[0]) > 0.6:
        parts.append(("L", round(back[0][0]), round(back[0][1])))
    parts += open_curves(back)
    parts.append(("Z",))
    return tuple(parts)


# One ridge: bands from the shadow side (-1) to the lit side (1), with the tone of each.
_LAYERS = ((-1.0, 1.0, -0.54), (-0.76, 0.98, -0.20), (-0.32, 0.90, 0.04), (0.18, 0.70, 0.32))


def ridge(
    centre: Centre, half: float, colour: str, level: float, profile: str, light: Point = LIGHT, layers: Sequence[tuple[float, float, float]] = _LAYERS
) -> list[Path]:
    """One ridge of piping in its tones; `level` lifts or lowers all of them."""
    _, _, tx, ty = centre(0.55)
    facing = -ty * light[0] + tx * light[1]
    side = 1.0 if facing >= 0 else -1.0
    paths = []
    for number, (low, high, lift) in enumerate(layers):
        inset = 0.0 if number == 0 else 0.03 * number
        top = number == len(layers) - 1
        paths.append(
            Path(
                band(centre, half, "pod" if top else profile, low * side, high * side, 0.3 if top else inset * 0.5, 0.86 if top else 1 - inset),
                Style(fill=tone(colour, level + lift)),
            )
        )
    return paths


# --- strokes, strands and ribbons ---------------------------------------------------------------------------------------


def profile_share(profile: str, t: float) -> float:
    """Half width of a profile at t, as a share of the widest."""
    rows = PROFILES[profile]
    for (t0, w0), (t1, w1) in zip(rows, rows[1:], strict=False):
        if t <= t1:
            return w0 + (w1 - w0) * (t - t0) / (t1 - t0)
    return rows[-1][1]


# a curved stroke of a star tip: how far each tone is moved to the light and how wide it is, as shares of its width
_STROKE = ((0.0, 0.0, 1.0, -0.58), (-0.03, -0.05, 0.84, -0.18), (-0.07, -0.09, 0.60, 0.06), (-0.13, -0.17, 0.22, 0.5))


def stroke(points: Sequence[Point], width_mm: float, colour: str, full: Sequence[float] = ()) -> list[Path]:
    """Give a curved line of a star tip through points: full in the middle, thin in its curls, ridged, lit from above.

    Formula: bands of a share of the width each, moved to the light; the width is 0.45 of its full size at the ends, or as `full` says.

    Parameters
    ----------
    points : sequence of (float, float)
        The line, x to the right and y downwards [mm]
    width_mm : float
        Its full width [mm]
    colour : str
        Colour as #rrggbb [-]
    full : sequence of float
        Its width at each point over its full width; none takes a line that is full in the middle [-]

    Returns
    -------
    list of Path
        Its tones, the darkest first [mm]

    Range: four points or more. Leaves out: crossing over itself.

    Example
    -------
    >>> len(stroke([(0, 0), (10, 4), (20, 4), (30, 0)], 3.0, "#b9592f"))
    4

    Source: common-practice
    """
    n = len(points)
    shares = list(full) or [0.45 + 0.55 * math.sin(math.pi * i / (n - 1)) for i in range(n)]
    normals = []
    for i in range(n):
        (x0, y0), (x1, y1) = points[max(0, i - 1)], points[min(n - 1, i + 1)]
        length = math.hypot(x1 - x0, y1 - y0) or 1.0
        normals.append((-(y1 - y0) / length, (x1 - x0) / length))
    paths = []
    for dx, dy, part, level in _STROKE:
        edges = []
        for side in (-1.0, 1.0):
            edges.append(
                [
                    (x + (dx * w + nx * side * part / 2 * w) * width_mm, y + (dy * w + ny * side * part / 2 * w) * width_mm)
                    for (x, y), (nx, ny), w in zip(points, normals, shares, strict=True)
                ]
            )
        back = edges[1][::-1]
        paths.append(Path((*smooth(edges[0]), ("L", *back[0]), *smooth(back)[1:], ("Z",)), Style(fill=tone(colour, level))))
    return paths


def ribbon(upper: Sequence[Point], lower: Sequence[Point], colour: str, wave: int = 4) -> list[Path]:
    """Give a ribbon between two edges: smooth along the upper one, which lies on the cake; its lower edge stands out and catches the light."""
    n = len(upper)
    if n < 3:
        return []

    def at(k: int, share: float) -> Point:
        (x0, y0), (x1, y1) = upper[k], lower[k]
        return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share

    def between(low: float, high: float, fine: bool) -> Parts:
        few = sorted({*range(0, n, 3), n - 1})
        above = [at(k, low) for k in few]
        below = [at(k, high) for k in (range(n) if fine else few)][::-1]
        return (*smooth(above), ("L", *below[0]), *smooth(below)[1:], ("Z",))

    def folds(first: int, low: float, high: float) -> Parts:
        """Short lines across the ribbon, from its lower edge up, one to a wave."""
        return tuple(part for k in range(first, n, wave) for part in (("M", *at(k, high)), ("L", *at(k, low))))

    deep = max(math.dist(upper[k], lower[k]) for k in range(n))
    trough, crest = wave // 2, 0
    paths = [
        Path(between(0.0, 1.02, True), Style(fill=tone(colour, -0.62))),
        Path(between(0.05, 0.94, True), Style(fill=tone(colour, -0.14), stroke=tone(colour, 0.42), width_mm=deep * 0.05)),
        Path(between(0.14, 0.60, False), Style(fill=tone(colour, 0.05))),
    ]
    for first, low, high, wide, level in ((trough, 0.90, 0.58, 0.15, -0.20), (trough, 0.92, 0.42, 0.05, -0.32), (crest, 0.90, 0.42, 0.12, 0.22)):
        paths.append(Path(folds(first, low, high), Style(stroke=tone(colour, level), width_mm=deep * wide, cap="butt")))
    return split_colours(paths, colour)


# one strand: how far it is moved to the light and how wide it is, as shares of its width, and its tone
_STRAND = ((0.0, 0.0, 1.0, -0.58), (-0.05, -0.07, 0.82, -0.20), (-0.10, -0.13, 0.56, 0.08), (-0.14, -0.2, 0.22, 0.6))


def swollen(count: int, dip: float = 0.35) -> list[float]:
    """Give how wide a scroll is at even places along it, over its full width: thin in its curls and, by `dip`, where its two bends meet."""
    shares = [i / (count - 1) for i in range(count)]
    return [(0.45 + 0.55 * math.sin(math.pi * s)) * (1.0 - dip * math.exp(-(((s - 0.5) / 0.09) ** 2))) for s in shares]


def strand_paths(points: Sequence[Point], width_mm: float, role: str, colour: str) -> list[Item]:
    """Draw one strand through points of the picture.

    Formula: strokes laid over one another, the darkest widest, each moved a little to the light.

    Parameters
    ----------
    points : sequence of (float, float)
        The line in the picture [mm]
    width_mm : float
        Width of the strand [mm]
    role : str
        "smooth", "ridged", "swelling" or, thin in the middle too, "swelling twice" [-]
    colour : str
        Colour as #rrggbb [-]

    Returns
    -------
    list
        Paths [mm]

    Range: two points or more. Leaves out: its shadow.

    Example
    -------
    >>> len(strand_paths([(0, 0), (5, 3), (10, 0)], 2.0, "smooth", "#fff0cf"))
    4

    Source: common-practice
    """
    if role.startswith("swelling"):
        full = swollen(len(points)) if role == "swelling twice" else ()
        return split_colours(list[Item](stroke(points, width_mm, colour, full)), colour) if len(points) > 3 else []
    w = width_mm
    items: list[Item] = [
        Path(smooth([(x + dx * w, y + dy * w) for x, y in points]), Style(stroke=tone(colour, level), width_mm=w * share))
        for dx, dy, share, level in _STRAND
    ]
    if role == "ridged":
        items += [
            Path(smooth([(x, y + dy * w) for x, y in points]), Style(stroke=tone(colour, -0.4), width_mm=w * 0.07)) for dy in (-0.22, 0.12, 0.34)
        ]
    return split_colours(items, colour)
