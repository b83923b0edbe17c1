"""Tier outlines seen from above: area, perimeter, coat, and the point at a distance round the outline.

It may import `sources` and `geometry`.

Map
---
`shape_kinds`   `outline`: shape, width, length -> `Outline`; the shapes themselves; `SHAPES` and `outline_choices` name them
`outlines`      `Outline`: area, perimeter, corners, `point`, `points`, `offset`, `division`, `joints`, `scaled`
`ovals`         `Oval`, which is neither straight lines nor arcs
`inscribed`     `largest_circle`: where a tier that stands on it has most room
`joints`        `Joints`, an even division: where the joints fall, and whether the corners are respected

How each shape is meant
-----------------------
round, square       width across
rectangle           width left to right, length front to back (a sheet)
hexagon             regular; width is **flat to flat**, one flat at the back (corner to corner is 2/sqrt(3) times that)
oval                an ellipse, width left to right, length front to back
heart               two lobes of radius w / (2 + sqrt(2)), the notch at the back, and a side from each to the point at the
                    front; width w across the lobes. Straight sides make a square with a semicircle on two of its sides;
                    its fullness A / w^2 says how far they bulge
petal               a regular octagon with a semicircle on each side; width across two opposite petals, one at the back

Seen from above x runs to the right and y to the back. Distance s round the outline starts in the middle of the back and
runs anticlockwise. A coat moves every part of the side outwards by its thickness: a rounded side stays parallel to
itself, straight sides are scraped to sharp corners, and a notch fills until the two coats meet.

Legend: P perimeter, A area, t thickness of the coat, a and b half-axes of an oval.
"""

from calc.shapes.inscribed import largest_circle
from calc.shapes.joints import EVEN_ENOUGH_PERCENT, Joints
from calc.shapes.outlines import Outline
from calc.shapes.ovals import Oval
from calc.shapes.shape_kinds import (
    FULLEST_HEART,
    HEART_FULLNESS,
    LEANEST_HEART,
    PETALS,
    SHAPES,
    SQUARE_HEART,
    TWO_SIZES,
    Heart,
    Hexagon,
    Petal,
    Rectangle,
    Round,
    Square,
    outline,
    outline_choices,
)

__all__ = [
    "EVEN_ENOUGH_PERCENT",
    "FULLEST_HEART",
    "HEART_FULLNESS",
    "LEANEST_HEART",
    "PETALS",
    "SHAPES",
    "SQUARE_HEART",
    "TWO_SIZES",
    "Heart",
    "Hexagon",
    "Joints",
    "Outline",
    "Oval",
    "Petal",
    "Rectangle",
    "Round",
    "Square",
    "largest_circle",
    "outline",
    "outline_choices",
]
