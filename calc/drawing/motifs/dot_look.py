"""How a dot looks: one smooth ball that sits by itself."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.bag import angle_mark, bag_and_tip
from calc.drawing.marks import rule
from calc.drawing.motifs.look import HIGH, Panel, PathDrawn, Piece, SingleLook, register
from calc.drawing.scene import CAKE, LINE, Item, Path, Style, circle, ellipse, rectangle
from calc.drawing.shading import tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _dot(colour: str) -> list[Path]:
    """A ball 100 across round (0, 0)."""
    return [
        Path(ellipse(0, 0, 50, 50), Style(fill=tone(colour, -0.58))),
        Path(ellipse(-1, -2, 47, 46), Style(fill=tone(colour, -0.26))),
        Path(ellipse(-4, -6, 39, 38), Style(fill=tone(colour, -0.02))),
        Path(ellipse(-9, -13, 27, 25), Style(fill=tone(colour, 0.22))),
        Path(ellipse(-15, -22, 11, 8), Style(fill=tone(colour, 0.75))),
    ]


DOT = Piece("dot", _dot, faces_out=True)


@dataclass(frozen=True, kw_only=True)
class _Dot(SingleLook):
    def angle(self, panel: Panel) -> list[Item]:
        """The side of the cake cut upright, half a ball on it, the tip straight at it."""
        wall, colour = 24.0, panel.colour
        ball = [(11.0, 0.0, -0.55), (10.3, 0.5, -0.05), (6.5, 2.2, 0.25)]
        return [
            *(Path(circle(wall + 2.0, 32.0 - up, radius), Style(fill=tone(colour, level))) for radius, up, level in ball),
            Path(rectangle(-2, -2, wall + 2, HIGH + 4), CAKE),
            *bag_and_tip((wall + 12.4, 32.0), 0.0, panel.tip, 0.95, arm_deg=40.0),
            rule(wall, -2, wall, HIGH + 2, LINE._replace(width_mm=0.9)),
            *angle_mark((wall, 32.0), 27.0, 90.0, 0.0, "90°", 0.3),
        ]

    def path(self, panel: Panel) -> PathDrawn:
        """The small turn with which the tip leaves the ball."""
        path = [(50.0, 36.0), (55.0, 31.0), (61.0, 30.0), (66.0, 34.0), (66.0, 40.0)]
        faint: list[Item] = [panel.use(DOT.name, (0.42, 0.0, 0.0, 0.42, 50, 36))]
        return PathDrawn(path, (1.0,), [(43.0, 36.0), (50.0, 46.0), (73.0, 44.0)], faint)


register(
    _Dot(
        kind="dot",
        shown=PlacedRow("dot", Tip("round", 7), "", "side", 29, count=20),
        piece=DOT,
        held=(40, 0.62),
        upright=True,
        size_mm=15.0,
        apart_mm=22.0,
        line_mm=36.0,
    )
)
