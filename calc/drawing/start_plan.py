"""Where a row starts and which way the hand goes, as a small plan of its tier seen from above.

Map
---
`start_plan`   the outline, the row's line, the start at the back, arrows along it, and the joints it meets
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from calc.drawing.scene import CAKE, GUIDE, INK, Item, Parts, Path, Scene, Style, circle, polygon, smooth
from calc.shapes import Outline

_ARROWS = (0.14, 0.38, 0.62, 0.86)  # of the way round
_START = Style(fill=GUIDE, role="guide")


def start_plan(outline: Outline, colour: str, inset_mm: float = 0.0, joints: Sequence[float] = ()) -> Scene:
    """Draw a tier from above with its back at the top: where a row starts, which way it goes, and the joints on its way.

    `inset_mm` is how far in from the edge the row runs [mm], `joints` are shares of the way round [-].

    A right hand goes round to the right as one looks at the side, which from above is anticlockwise; for a left hand the page mirrors it.
    """
    line = outline.scaled(max(0.1, 1 - 2 * inset_mm / outline.width_mm))  # near enough to show where it runs
    perimeter_mm = line.perimeter_mm
    size = max(outline.width_mm, outline.length_mm)
    thick = size / 34
    items: list[Item] = [Path(polygon([(x, -y) for x, y in outline.points(144)]), CAKE)]
    ring = [(x, -y) for x, y in line.points(144)]
    items += [Path(smooth(ring, closed=True), Style(stroke=shade, width_mm=wide)) for shade, wide in (("#7a5a4a", thick * 1.25), (colour, thick))]
    for share in joints:
        x, y, _ = line.point(share * perimeter_mm)
        items.append(Path(circle(x, -y, thick * 0.45), Style(fill="#ffffff", stroke=INK, width_mm=thick * 0.12)))
    for share in _ARROWS:
        x, y, heading = line.point(share * perimeter_mm)
        items.append(Path(_arrow_head(x, -y, -heading, thick * 2.2), Style(fill=INK, role="text")))
    x, y, _ = line.point(0.0)
    items.append(Path(circle(x, -y, thick * 1.5), _START))
    left, low, right, high = outline.extent_mm
    margin = thick * 2.4
    return Scene(
        "Where it starts and which way it goes",
        "The tier from above: the row starts at the back, at the dot, and follows the arrows.",
        left - margin,
        -high - margin,
        right - left + 2 * margin,
        high - low + 2 * margin,
        tuple(items),
    )


def _arrow_head(x: float, y: float, angle: float, size: float) -> Parts:
    c, s = math.cos(angle), math.sin(angle)
    corners = ((0.6, 0.0), (-0.5, -0.5), (-0.25, 0.0), (-0.5, 0.5))
    return polygon([(x + size * (a * c - b * s), y + size * (a * s + b * c)) for a, b in corners])
