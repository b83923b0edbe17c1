"""Pieces of piping, each drawn once in its colour and laid many times: shells, pleats, beads, rosettes, leaves, scrolls.

Map
---
`tone`      a colour in light or in shadow, as buttercream takes it: warm, never grey
`motif`     one piece of piping by kind and colour
`stroke`    a curved line of a star tip, as scrolls are made of
`ribbon`    a ribbon of a petal tip between its two edges, as swags are made of

A piece is drawn in a square of 100 units, x along the row in the direction of piping and y downwards, and laid through a matrix that brings
it to millimetres. Whole units keep the drawing light. Every ridge is one curved band in four tones laid over one another,
the darkest widest, so that soft shading needs no filter and both pens can draw it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import lru_cache

from calc.drawing.scene import Motif, Parts, Path, Point, Style, arc, ellipse, smooth

LIGHT = (-0.5, -0.87)  # from above and a little from the left
SHADOW_COLOUR = "#5a2f1e"

_DARK = (0.50, 0.66, 0.80)  # how much red, green and blue a full shadow takes away: least red, so that shadows stay warm
_BRIGHT = (255, 251, 240)


@lru_cache(maxsize=4096)
def tone(colour: str, level: float) -> str:
    """Give a colour in light (above nothing) or in shadow (below nothing).

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

    Raises
    ------
    ValueError
        Never.

    Range: -1 to 1, and cut off there. Leaves out: how a real dye fades.

    Example
    -------
    >>> tone("#b9592f", 0), tone("#ffffff", -0.5)
    ('#b9592f', '#bfab99')

    Source: from-memory
    """
    level = max(-1.0, min(1.0, level))
    parts = [int(colour[i : i + 2], 16) for i in (1, 3, 5)]
    if level < 0:
        parts = [round(p * (1 + level * d)) for p, d in zip(parts, _DARK, strict=True)]
    else:
        parts = [round(p + (b - p) * level * 0.9) if b > p else p for p, b in zip(parts, _BRIGHT, strict=True)]
    return "#" + "".join(f"{p:02x}" for p in parts)


# --- bands -------------------------------------------------------------------------------------------------------------

# Half widths along a ridge, from its start to its end, as shares of the widest.
_PROFILES: dict[str, tuple[Point, ...]] = {
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


def _along(curve: Bezier) -> Centre:
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


def _through(points: Sequence[Point]) -> Centre:
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


def _open(points: Sequence[Point]) -> list[tuple[str | float, ...]]:
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


def _band(centre: Centre, half: float, profile: str, low: float, high: float, first: float = 0.0, last: float = 1.0) -> Parts:
    """The part of a ridge between `low` and `high`, -1 and 1 being its edges; y runs down, so 1 is to the right of its run."""
    left: list[Point] = []
    right: list[Point] = []
    for t, share in _PROFILES[profile]:
        t = first + (last - first) * t
        x, y, tx, ty = centre(t)
        left.append((x - ty * half * share * low, y + tx * half * share * low))
        right.append((x - ty * half * share * high, y + tx * half * share * high))
    back = right[::-1]
    parts: list[tuple[str | float, ...]] = [("M", round(left[0][0]), round(left[0][1])), *_open(left)]
    if math.dist(left[-1], back[0]) > 0.6:
        parts.append(("L", round(back[0][0]), round(back[0][1])))
    parts += _open(back)
    parts.append(("Z",))
    return tuple(parts)


# One ridge: bands from the shadow side (-1) to the lit side (1), with the tone of each.
_LAYERS = ((-1.0, 1.0, -0.54), (-0.76, 0.98, -0.20), (-0.32, 0.90, 0.04), (0.18, 0.70, 0.32))


def _ridge(
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
                _band(centre, half, "pod" if top else profile, low * side, high * side, 0.3 if top else inset * 0.5, 0.86 if top else 1 - inset),
                Style(fill=tone(colour, level + lift)),
            )
        )
    return paths


# --- the pieces --------------------------------------------------------------------------------------------------------


def _shell(colour: str) -> list[Path]:
    """A plump fluted shell that sits on y = 0: a round head to the left, its ridges drawn together into a tail at the right."""
    tail = (98.0, -9.0)
    paths = [
        Path(_band(_along((tail, (64, -70), (20, -100), (-36, -50))), 30, "drop", -1, 1), Style(fill=tone(colour, -0.72))),
        Path(_band(_along((tail, (66, -16), (30, -34), (-40, -34))), 40, "drop", -1, 1), Style(fill=tone(colour, -0.72))),
    ]
    heads = (  # where each ridge ends on the head, how it bulges, half its width, its tone
        ((-14.0, -9.0), (66.0, -2.0), (30.0, 2.0), 14.0, -0.34),
        ((38.0, -95.0), (96.0, -46.0), (76.0, -98.0), 14.0, 0.10),
        ((-44.0, -27.0), (70.0, -8.0), (26.0, -12.0), 18.0, -0.20),
        ((4.0, -99.0), (92.0, -38.0), (60.0, -98.0), 17.0, 0.16),
        ((-54.0, -54.0), (78.0, -18.0), (28.0, -40.0), 20.0, -0.04),
        ((-34.0, -82.0), (86.0, -28.0), (42.0, -76.0), 20.0, 0.10),
    )
    for head, first, second, half, level in heads:
        paths += _ridge(_along((tail, first, second, head)), half, colour, level, "drop")
    return paths


def _pleat(colour: str) -> list[Path]:
    """One gathered pleat of a ruched row, from y = -50 to y = 50, bowed forward."""
    return _ridge(_along(((-20, -46), (20, -30), (14, 28), (-12, 50))), 23, colour, 0.0, "pod", light=(-0.8, -0.6))


def _bead(colour: str) -> list[Path]:
    """A pearl on y = 0 with a short tail to the right."""
    return [
        Path(_band(_along(((96, -14), (70, -22), (20, -44), (-46, -44))), 46, "drop", -1, 1), Style(fill=tone(colour, -0.6))),
        Path(_band(_along(((88, -18), (64, -26), (20, -46), (-40, -47))), 40, "drop", -1, 1), Style(fill=tone(colour, -0.24))),
        Path(ellipse(-4, -50, 36, 35), Style(fill=tone(colour, -0.04))),
        Path(ellipse(-8, -56, 27, 25), Style(fill=tone(colour, 0.2))),
        Path(ellipse(-15, -65, 12, 8), Style(fill=tone(colour, 0.75))),
    ]


def _rosette(colour: str) -> list[Path]:
    """A swirl, 100 across, round (0, 0): the ridges of a star wound outwards from a raised middle, their ends laid along the edge."""
    arms, turns, steps = 4, 1.0, 22
    size = 40.0 / (turns * arms)  # how far one ridge lies from the next
    paths = [Path(ellipse(0, 0, 47, 47), Style(fill=tone(colour, -0.62)))]
    for dx, dy, share, level in ((0.0, 0.0, 1.24, -0.52), (-0.06, -0.09, 0.96, -0.14), (-0.13, -0.18, 0.58, 0.10), (-0.18, -0.26, 0.20, 0.46)):
        for arm in range(arms):
            points = []
            for i in range(steps + 1):
                way = i / steps * 1.26  # past 1 it has reached the edge and runs along it under the next
                angle = math.tau * (turns * (1 - abs(1 - way) ** 1.35 * (1 if way < 1 else -0.85)) + arm / arms) - 0.9
                radius = 2.0 + 40.0 * min(way, 1.0) ** 0.92 + 1.2 * max(0.0, way - 1)
                points.append((round(radius * math.cos(angle) + dx * size, 1), round(radius * math.sin(angle) + dy * size, 1)))
            paths.append(Path(smooth(points), Style(stroke=tone(colour, level), width_mm=size * share)))
    shade = (*arc(0, 0, 47, -30, 150), *arc(-9, -9, 47, 118, 2)[1:], ("Z",))
    paths.append(Path(shade, Style(fill=tone(colour, -0.9), opacity=0.20)))
    paths.append(Path(ellipse(0, 0, 7, 7), Style(fill=tone(colour, -0.04))))
    paths.append(Path(ellipse(-1.5, -2.2, 4, 3.6), Style(fill=tone(colour, 0.42))))
    return paths


def _star(colour: str) -> list[Path]:
    """A dropped star, 100 across, round (0, 0): ridges that run from a point in the middle to points all round."""
    points = 7
    paths = []
    for i in sorted(range(points), key=lambda i: math.sin(math.tau * i / points - math.pi / 2)):
        angle = math.tau * i / points - math.pi / 2
        c, s = math.cos(angle), math.sin(angle)
        facing = c * LIGHT[0] + s * LIGHT[1]
        paths += _ridge(
            _along(((0, 0), (17 * c, 17 * s), (34 * c, 34 * s), (52 * c, 52 * s))),
            17.5,
            colour,
            0.30 * facing - 0.02,
            "spear",
            layers=((-1.0, 1.0, -0.62), (-0.78, 0.97, -0.18), (-0.2, 0.88, 0.12), (0.2, 0.6, 0.36)),
        )
    paths.append(Path(ellipse(0, 0, 9, 9), Style(fill=tone(colour, 0.02))))
    paths.append(Path(ellipse(-2, -3, 5, 5), Style(fill=tone(colour, 0.5))))
    return paths


def _leaf(colour: str) -> list[Path]:
    """A leaf from its foot at (0, 0) to its point at (100, 0), rippled at its edges, with a midrib."""
    upper: tuple[Point, ...] = (
        (0, -4),
        (5, -17),
        (15, -21),
        (21, -29),
        (31, -27),
        (38, -32),
        (48, -26),
        (55, -26),
        (63, -18),
        (71, -15),
        (83, -5),
        (101, 1),
    )
    lower: tuple[Point, ...] = ((0, 4), (6, 18), (15, 20), (23, 29), (31, 26), (40, 31), (48, 25), (57, 25), (64, 16), (73, 13), (84, 5), (101, 1))
    middle: tuple[Point, ...] = ((101, 1), (70, -2), (32, -3), (0, 0))

    def half(edge: Sequence[Point], share: float) -> Parts:
        outer = [(x, y * share) for x, y in edge]
        parts: list[tuple[str | float, ...]] = [("M", 0, 0), *_open([(0.0, 0.0), *outer[1:]]), *_open(middle), ("Z",)]
        return tuple(parts)

    paths = [
        Path(half(lower, 1.0), Style(fill=tone(colour, -0.62))),
        Path(half(upper, 1.0), Style(fill=tone(colour, -0.34))),
        Path(half(lower, 0.86), Style(fill=tone(colour, -0.26))),
        Path(half(upper, 0.88), Style(fill=tone(colour, 0.06))),
    ]
    for x, reach in ((8, 21), (24, 26), (41, 25), (58, 17)):
        paths.append(
            Path(
                _band(_along(((x + 1, -4), (x + 5, -9), (x + 8, -reach * 0.7), (x + 15, -reach))), 4.4, "pod", -1, 1), Style(fill=tone(colour, 0.30))
            )
        )
        paths.append(
            Path(_band(_along(((x + 1, 3), (x + 5, 8), (x + 8, reach * 0.7), (x + 15, reach))), 4.0, "pod", -1, 1), Style(fill=tone(colour, -0.04)))
        )
    paths.append(Path(_band(_along(((1, 0), (32, -3), (70, -2), (99, 1))), 3.2, "comma", -1, 1), Style(fill=tone(colour, -0.72))))
    paths.append(Path(_band(_along(((2, 1), (32, -1), (70, 0), (94, 1))), 1.7, "comma", -1, 1), Style(fill=tone(colour, 0.34))))
    return paths


def _curl(colour: str) -> list[Path]:
    """A reverse shell: its head curls up and over, its tail ends on the line of the row, to the right."""
    centre = _through(((16, -26), (4, -16), (-14, -16), (-28, -34), (-20, -56), (4, -66), (30, -54), (54, -30), (84, -8), (118, 2)))
    half = 30.0
    paths = [Path(_band(centre, half, "curl", -1, 1), Style(fill=tone(colour, -0.72)))]
    for offset, level in ((0.76, -0.22), (-0.78, 0.06), (0.26, -0.10), (-0.28, 0.08)):

        def shifted(t: float, offset: float = offset) -> tuple[float, float, float, float]:
            x, y, tx, ty = centre(t)
            wide = half * _share("curl", t) * offset
            return x - ty * wide, y + tx * wide, tx, ty

        paths += _ridge(shifted, half * 0.34, colour, level, "curl")
    return paths


def _share(profile: str, t: float) -> float:
    """Half width of a profile at t, as a share of the widest."""
    rows = _PROFILES[profile]
    for (t0, w0), (t1, w1) in zip(rows, rows[1:], strict=False):
        if t <= t1:
            return w0 + (w1 - w0) * (t - t0) / (t1 - t0)
    return rows[-1][1]


def _twist(colour: str) -> list[Path]:
    """One turn of a rope, leaning forward, from y = -50 to y = 50."""
    return [*_ridge(_along(((-44, 40), (-38, -6), (36, 8), (42, -40))), 27, colour, 0.0, "pod")]


def _zig(colour: str) -> list[Path]:
    """One to-and-fro of a zigzag, from y = -50 to y = 50."""
    return [
        *_ridge(_along(((-26, 44), (-20, 20), (-8, -28), (0, -44))), 17, colour, -0.06, "pod"),
        *_ridge(_along(((0, -44), (8, -20), (20, 28), (26, 44))), 17, colour, 0.04, "pod"),
    ]


_PIECES: dict[str, Callable[[str], list[Path]]] = {
    "shell": _shell,
    "pleat": _pleat,
    "bead": _bead,
    "rosette": _rosette,
    "star": _star,
    "leaf": _leaf,
    "curl": _curl,
    "twist": _twist,
    "zig": _zig,
}
PIECES = tuple(_PIECES)

# a curved stroke of a star tip: how far each tone is moved to the light and how wide it is, as shares of its width
_STROKE = ((0.0, 0.0, 1.0, -0.58), (-0.03, -0.05, 0.84, -0.18), (-0.07, -0.09, 0.60, 0.06), (-0.13, -0.17, 0.22, 0.5))


def stroke(points: Sequence[Point], width_mm: float, colour: str) -> list[Path]:
    """Give a curved line of a star tip through points: full in the middle, thin in its curls, ridged, lit from above.

    Formula: bands of a share of the width each, moved to the light; the width is 0.45 of its full size at the ends.

    Parameters
    ----------
    points : sequence of (float, float)
        The line, x to the right and y downwards [mm]
    width_mm : float
        Its full width [mm]
    colour : str
        Colour as #rrggbb [-]

    Returns
    -------
    list of Path
        Its tones, the darkest first [mm]

    Raises
    ------
    ValueError
        Never.

    Range: four points or more. Leaves out: crossing over itself.

    Example
    -------
    >>> len(stroke([(0, 0), (10, 4), (20, 4), (30, 0)], 3.0, "#b9592f"))
    4

    Source: common-practice
    """
    n = len(points)
    shares = [0.45 + 0.55 * math.sin(math.pi * i / (n - 1)) for i in range(n)]
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
    """Give a ribbon between two edges: smooth along the upper one, which lies on the cake; its lower edge stands out and catches the light.

    Formula: none; folds run up from the troughs of the lower edge, light from its crests.

    Parameters
    ----------
    upper : sequence of (float, float)
        The upper edge, x to the right and y downwards [mm]
    lower : sequence of (float, float)
        The lower edge, as many points [mm]
    colour : str
        Colour as #rrggbb [-]
    wave : int
        How many points make one wave; the first is a crest [-]

    Returns
    -------
    list of Path
        Its tones, the darkest first; nothing for fewer than three points [mm]

    Raises
    ------
    ValueError
        Never.

    Range: edges that do not cross. Leaves out: its shadow on the cake.

    Example
    -------
    >>> len(ribbon([(0, 0), (5, 1), (10, 2)], [(0, 8), (5, 10), (10, 10)], "#b9592f"))
    6

    Source: common-practice
    """
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
    return paths


@lru_cache(maxsize=512)
def motif(piece: str, colour: str, turned: int = 0) -> Motif:
    """Give one piece of piping in its colour.

    Formula: none.

    Parameters
    ----------
    piece : str
        One of `PIECES` [-]
    colour : str
        Colour as #rrggbb [-]
    turned : int
        How far the cake has turned away from the light there, 0 to 2 [-]

    Returns
    -------
    Motif
        The piece, in units of a hundredth of its size [-]

    Raises
    ------
    KeyError
        There is no such piece.

    Range: the pieces of `PIECES`. Leaves out: lines and strings, which are as long as they hang.

    Example
    -------
    >>> motif("shell", "#b9592f").key
    'shell #b9592f 0'

    Source: common-practice
    """
    return Motif(f"{piece} {colour} {turned}", tuple(_PIECES[piece](tone(colour, -0.17 * turned))))
