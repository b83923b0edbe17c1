"""How a star looks: ridges that run from a point in the middle to points all round."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.drawing.marks import rule
from calc.drawing.motifs.look import HIGH, VARIANTS, Panel, PathDrawn, Piece, SingleLook, Variant, register
from calc.drawing.motifs.rosette_look import mound, mound_on_the_wall
from calc.drawing.scene import CAKE, LINE, Group, Item, Path, Point, Style, ellipse, polyline, rectangle, smooth
from calc.drawing.shading import LIGHT, along, ridge, tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _star(colour: str) -> list[Path]:
    """A dropped star, 100 across, round (0, 0): ridges that run from a point in the middle to points all round."""
    points = 7
    paths = []
    for i in sorted(range(points), key=lambda i: math.sin(math.tau * i / points - math.pi / 2)):
        angle = math.tau * i / points - math.pi / 2
        c, s = math.cos(angle), math.sin(angle)
        facing = c * LIGHT[0] + s * LIGHT[1]
        paths += ridge(
            along(((0, 0), (17 * c, 17 * s), (34 * c, 34 * s), (52 * c, 52 * s))),
            17.5,
            colour,
            0.30 * facing - 0.02,
            "spear",
            layers=((-1.0, 1.0, -0.62), (-0.78, 0.97, -0.18), (-0.2, 0.88, 0.12), (0.2, 0.6, 0.36)),
        )
    paths.append(Path(ellipse(0, 0, 9, 9), Style(fill=tone(colour, 0.02))))
    paths.append(Path(ellipse(-2, -3, 5, 5), Style(fill=tone(colour, 0.5))))
    return paths


STAR = Piece("star", _star, faces_out=True)


def _flower(colour: str) -> list[Path]:
    """A dropped flower, 100 across, round (0, 0): round petals that sweep the way the wrist turned, each over the last, and a deep middle."""

    def petal(turn: float, share: float) -> Path:
        polar = ((7, -26), (26, -22), (43, -12), (50, 6), (49, 26), (41, 42), (27, 40), (13, 26))
        points = []
        for radius, degrees in polar:
            angle = math.radians(turn + 12 + (degrees - 12) * share)
            out = 28 + (radius - 28) * share
            points.append((round(out * math.cos(angle)), round(out * math.sin(angle))))
        return Path(smooth(points, closed=True), Style(fill=colour))

    paths = [Path(ellipse(0, 0, 30, 30), Style(fill=tone(colour, -0.7)))]
    for k in range(6):
        turn = 60.0 * k - 100
        facing = math.cos(math.radians(turn + 12)) * LIGHT[0] + math.sin(math.radians(turn + 12)) * LIGHT[1]
        for share, level in ((1.0, -0.60), (0.88, -0.16), (0.6, 0.16)):
            paths.append(petal(turn, share)._replace(style=Style(fill=tone(colour, level + 0.22 * facing))))
        edge = ((r, math.radians(turn + d)) for r, d in ((34, -14), (45, -2), (47, 16), (42, 32)))
        rim = [(round(r * math.cos(a)), round(r * math.sin(a))) for r, a in edge]
        paths.append(Path(smooth(rim), Style(stroke=tone(colour, 0.62 + 0.2 * facing), width_mm=2.4)))
    paths.append(Path(ellipse(0, 0, 11, 11), Style(fill=tone(colour, -0.72))))
    paths.append(Path(ellipse(1, 1, 7, 7), Style(fill=tone(colour, -0.5))))
    return paths


FLOWER = Piece("dropped flower", _flower, faces_out=True)
DEEP, TALL = 8.0, 10.0


@dataclass(frozen=True, kw_only=True)
class _Star(SingleLook):
    def piece_of(self, tip: Tip) -> Piece:
        """The closed teeth of a closed star make petals of the ridges."""
        return FLOWER if tip.family == "closed star" else STAR

    def angle(self, panel: Panel) -> list[Item]:
        return mound_on_the_wall(panel, DEEP, TALL)

    def path(self, panel: Panel) -> PathDrawn:
        """Seen from the side, because the hand only comes and goes."""
        wall = 26.0
        ridged = mound(panel.colour, DEEP, TALL)
        ground: list[Item] = [
            Path(rectangle(-2, -2, wall + 2, HIGH + 4), CAKE),
            Group(tuple(ridged), matrix=(1.3, 0.0, 0.0, 1.3, 26.0 - 24.0 * 1.3, 36.0 - 32.0 * 1.3)),
            rule(wall, -2, wall, HIGH + 2, LINE),
            Path(polyline([(wall + 12.4, 23.2), (wall + 11.0, 31.0)]), LINE),
        ]
        path: list[Point] = [(39.0, 36.0), (60.0, 36.0), (88.0, 36.0)]
        return PathDrawn(path, (0.4, 1.0), [(wall + 13, 20), (60.0, 29.0), (93.0, 36.0)], [], ground)


register(
    _Star(
        kind="star",
        shown=PlacedRow("star", Tip("open star", 12), "", "side", 29, count=26),
        piece=STAR,
        held=(40, 0.62),
        upright=True,
        path_eye="from the side",
        size_mm=20.0,
        apart_mm=23.0,
        line_mm=34.0,
    ),
    FLOWER,
)


def _turned(panel: Panel) -> PathDrawn:
    """The turn of the wrist: the points sweep round like petals."""
    round_it = [(50 + 25 * math.cos(t), 36 + 25 * math.sin(t)) for t in (math.radians(-150 + 9 * i) for i in range(12))]
    numbers: list[Point] = [(round_it[0][0] - 4, round_it[0][1] + 4), (round_it[6][0], round_it[6][1] - 5), (50, 36)]
    return PathDrawn(round_it, (0.99,), numbers, [panel.use(FLOWER.name, (0.46, 0.0, 0.0, 0.46, 50, 36))], opacity=0.55)


VARIANTS["turned star"] = Variant(
    "star", "the turn of the wrist", ("turn the wrist back", "squeeze and turn it forward", "stop, then lift straight off"), _turned
)
