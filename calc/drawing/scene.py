"""One scene in millimetres, drawn by two pens.

Map
---
`Style`                       fill, stroke, width, opacity, dashes; or a role that the site's colours follow
`Gradient`                    colours along a line, opaque, the same in both pens
`Path`, `Text`, `Group`, `Motif`, `Use`     what a scene is made of
`Scene`                       the items with a title, a description and the rectangle they stand in
`turned`                      a way to place points along a direction
`polyline`, `polygon`, `rectangle`, `circle`, `ellipse`, `arc`, `smooth`   parts of paths

x runs to the right and y downwards, both in mm. A path is a tuple of parts ("M", x, y), ("L", x, y),
("C", x1, y1, x2, y2, x, y), ("S", x2, y2, x, y), a curve that runs on without a bend from the curve before it, and ("Z",), all
absolute, so that both pens write the same points.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

Part = tuple[str | float, ...]
Parts = tuple[Part, ...]
Point = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]


class Gradient(NamedTuple):
    """Colours along the line from (x1, y1) to (x2, y2) [mm]; `stops` are (place from 0 to 1, colour)."""

    x1: float
    y1: float
    x2: float
    y2: float
    stops: tuple[tuple[float, str], ...]


class Style(NamedTuple):
    """How a path or a text looks.

    `role` is "line", "guide", "cake" or "text": the site's own colours then hold on screen, and `fill` and `stroke` on paper.
    """

    fill: str | Gradient = ""
    stroke: str = ""
    width_mm: float = 0.0
    opacity: float = 1.0
    role: str = ""
    dash: tuple[float, ...] = ()
    cap: str = "round"


class Path(NamedTuple):
    """A path with its style."""

    parts: Parts
    style: Style


class Text(NamedTuple):
    """Words at a point; `anchor` is start, middle or end; `face` is text, bold or display."""

    x: float
    y: float
    words: str
    size_mm: float = 4.0
    anchor: str = "start"
    face: str = "text"
    style: Style = Style(fill="#2f1730", role="text")
    turn_deg: float = 0.0


class Motif(NamedTuple):
    """A small drawing that is used many times; `key` names it and nothing else may bear that name."""

    key: str
    items: tuple[Path, ...]

    def __hash__(self) -> int:
        return hash(self.key)


class Use(NamedTuple):
    """A motif laid through a matrix (a, b, c, d, e, f): x' = a x + c y + e, y' = b x + d y + f."""

    motif: Motif
    matrix: Matrix
    opacity: float = 1.0


class Group(NamedTuple):
    """Items that belong together, with a name to find them by; `clip` is x, y, width, height [mm].

    On paper a `tag` makes them one element of the document's structure: H1, H2, P, L, LI, Lbl, LBody, Table, TR, TH, TD or Figure, which
    says in `alt` what it shows; "Artifact" is what belongs to the page alone, such as its number.
    On screen `part` is the part of the form that it shows, such as "tiers.0.rows.2", so that a press on it can go there.
    """

    items: tuple[Item, ...]
    title: str = ""
    matrix: Matrix | None = None
    clip: tuple[float, float, float, float] | None = None
    opacity: float = 1.0
    tag: str = ""
    alt: str = ""
    part: str = ""

    def __hash__(self) -> int:
        return hash((self.title, len(self.items), self.matrix, self.clip, self.part))  # quickly; equality looks at everything


Item = Path | Text | Use | Group


@dataclass(frozen=True)
class Scene:
    """What is drawn, in the rectangle x, y, width, height [mm], with a title and a description in words."""

    title: str
    description: str
    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float
    items: tuple[Item, ...]


# The handbook's ink and guide colours, as they stand on paper; on screen a role takes the site's own.
INK = "#2f1730"
GUIDE = "#0a6a62"

LINE = Style(stroke=INK, width_mm=0.5, role="line")
THIN = Style(stroke=INK, width_mm=0.25, role="line")
GUIDE_LINE = Style(stroke=GUIDE, width_mm=0.4, role="guide")
GUIDE_DASH = Style(stroke=GUIDE, width_mm=0.4, role="guide", dash=(2.0, 1.4))
CAKE = Style(fill="#f7ead2", stroke="#8a6f5c", width_mm=0.5, role="cake")
WORDS = Style(fill=INK, role="text")
WORDS_GUIDE = Style(fill=GUIDE, role="text-guide")


def turned(at: Point, degrees: float, size: float = 1.0) -> Callable[[float, float], Point]:
    """Give a way to place points from `at`: u along a direction (0 to the right, 90 down) and v to the right of it, each times `size`."""
    c, n = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return lambda u, v: (at[0] + size * (c * u - n * v), at[1] + size * (n * u + c * v))


def polyline(points: Sequence[Point]) -> Parts:
    """Join points by straight lines; no points make no path."""
    return tuple(("L" if i else "M", *point) for i, point in enumerate(points))


def polygon(points: Sequence[Point]) -> Parts:
    """Join points by straight lines and close them; no points make no path."""
    return (*polyline(points), ("Z",)) if points else ()


def rectangle(x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> Parts:
    """Give a rectangle from its upper left corner."""
    return polygon([(x_mm, y_mm), (x_mm + width_mm, y_mm), (x_mm + width_mm, y_mm + height_mm), (x_mm, y_mm + height_mm)])


@lru_cache(maxsize=1024)
def arc(x_mm: float, y_mm: float, radius_mm: float, from_deg: float, to_deg: float, high_mm: float | None = None) -> Parts:
    """Give an arc of a circle or an upright ellipse as cubic curves of at most 45 degrees each.

    Formula: handles of length 4/3 tan(step/4) times the radius; the curve leaves the circle by under 5e-6 of its radius.

    Parameters
    ----------
    x_mm : float
        Centre to the right [mm]
    y_mm : float
        Centre downwards [mm]
    radius_mm : float
        Radius, or half the width of an ellipse [mm]
    from_deg : float
        Where it starts, from the right, clockwise as y runs down [deg]
    to_deg : float
        Where it ends [deg]
    high_mm : float
        Half the height of an ellipse; the radius when None [mm]

    Returns
    -------
    tuple
        Parts of a path, not closed [mm]

    Range: any angles. Leaves out: tilted ellipses.

    Example
    -------
    >>> [round(v, 6) for v in arc(0, 0, 10, 0, 90)[-1][-2:]]
    [0.0, 10.0]

    Source: geometry (circle through two points)
    """
    high = radius_mm if high_mm is None else high_mm
    pieces = max(1, math.ceil(abs(to_deg - from_deg) / 45 - 1e-9))
    step = math.radians(to_deg - from_deg) / pieces
    pull = 4 / 3 * math.tan(step / 4)
    at = math.radians(from_deg)
    parts: list[Part] = [("M", x_mm + radius_mm * math.cos(at), y_mm + high * math.sin(at))]
    for _ in range(pieces):
        c, s = math.cos(at), math.sin(at)
        at += step
        c2, s2 = math.cos(at), math.sin(at)
        parts.append(
            (
                "C",
                x_mm + radius_mm * (c - pull * s),
                y_mm + high * (s + pull * c),
                x_mm + radius_mm * (c2 + pull * s2),
                y_mm + high * (s2 - pull * c2),
                x_mm + radius_mm * c2,
                y_mm + high * s2,
            )
        )
    return tuple(parts)


def circle(x_mm: float, y_mm: float, radius_mm: float) -> Parts:
    """Give a whole circle, as `arc` draws it."""
    return (*arc(x_mm, y_mm, radius_mm, 0, 360), ("Z",))


def ellipse(x_mm: float, y_mm: float, half_width_mm: float, half_height_mm: float) -> Parts:
    """Give a whole upright ellipse, as `arc` draws it."""
    return (*arc(x_mm, y_mm, half_width_mm, 0, 360, half_height_mm), ("Z",))


def smooth(points: Sequence[Point], closed: bool = False) -> Parts:
    """Draw a smooth curve through points.

    Formula: cubic curves whose handles are a sixth of the line between the neighbours (Catmull and Rom).

    Parameters
    ----------
    points : sequence of (float, float)
        The points [mm]
    closed : bool
        Whether the last runs into the first [-]

    Returns
    -------
    tuple
        Parts of a path [mm]

    Range: two points or more. Leaves out: points that stand doubled.

    Example
    -------
    >>> smooth([(0, 0), (6, 0)])[1]
    ('C', 1.0, 0.0, 5.0, 0.0, 6, 0)

    Source: geometry (Catmull-Rom spline as cubic Bezier curves)
    """
    n = len(points)
    first, last = (points[-1], points[1 % n]) if closed else (points[0], points[-1])
    along = [first, *points, points[0], last] if closed else [first, *points, last]
    parts: list[Part] = [("M", *points[0])]
    for (ax, ay), (bx, by), (cx, cy), (dx, dy) in zip(along, along[1:], along[2:], along[3:], strict=False):
        if len(parts) == 1:
            parts.append(("C", bx + (cx - ax) / 6, by + (cy - ay) / 6, cx - (dx - bx) / 6, cy - (dy - by) / 6, cx, cy))
        else:  # its first handle is the one before it, seen in its beginning as in a mirror
            parts.append(("S", cx - (dx - bx) / 6, cy - (dy - by) / 6, cx, cy))
    if closed:
        parts.append(("Z",))
    return tuple(parts)
