"""How a rosette looks: a swirl of ridges wound out from a raised middle."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.drawing.bag import angle_mark, bag_and_tip
from calc.drawing.marks import rule
from calc.drawing.motifs.look import HIGH, Panel, PathDrawn, Piece, SingleLook, register
from calc.drawing.scene import CAKE, LINE, Item, Path, Style, arc, ellipse, rectangle, smooth
from calc.drawing.shading import tone
from calc.rows.kinds.rosette import ROSETTE_WIDTH
from calc.rows.placement import PlacedRow
from calc.tips import Tip


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


ROSETTE = Piece("rosette", _rosette, faces_out=True)


def mound_on_the_wall(panel: Panel, deep: float, tall: float) -> list[Item]:
    """The side of the cake cut upright at the left; a ridged mound on it, and the tip straight at it from the right."""
    wall, colour = 24.0, panel.colour
    at = (wall + deep, 32.0)
    items: list[Item] = [Path(rectangle(-2, -2, wall + 2, HIGH + 4), CAKE), *mound(colour, deep, tall)]
    face = rule(wall, -2, wall, HIGH + 2, LINE._replace(width_mm=0.9))
    return [*items, *bag_and_tip(at, 0.0, panel.tip, 0.95, arm_deg=40.0), face, *angle_mark((wall, 32.0), 27.0, 90.0, 0.0, "90°", 0.3)]


def mound(colour: str, deep: float, tall: float) -> list[Item]:
    """A ridged mound on a wall at x = 24, seen from the side."""
    wall = 24.0
    outline = smooth(
        [
            (wall, 32 - tall),
            (wall + deep * 0.5, 32 - tall),
            (wall + deep * 0.95, 32 - tall * 0.5),
            (wall + deep * 1.15, 32),
            (wall + deep * 0.95, 32 + tall * 0.5),
            (wall + deep * 0.5, 32 + tall),
            (wall, 32 + tall),
        ]
    )
    items: list[Item] = [Path((*outline, ("Z",)), Style(fill=tone(colour, -0.05), stroke=tone(colour, -0.55), width_mm=0.5))]
    for v in (-0.62, -0.2, 0.24, 0.66):
        items.append(
            Path(
                smooth([(wall + 0.5, 32 + tall * v), (wall + deep * 0.6, 32 + tall * v * 0.92), (wall + deep * 1.0, 32 + tall * v * 0.4)]),
                Style(stroke=tone(colour, -0.4), width_mm=0.7),
            )
        )
    return items


@dataclass(frozen=True, kw_only=True)
class _Rosette(SingleLook):
    def usual_mm(self, row: PlacedRow) -> float:
        return row.size_mm * ROSETTE_WIDTH

    def angle(self, panel: Panel) -> list[Item]:
        return mound_on_the_wall(panel, 10.0, 15.0)

    def path(self, panel: Panel) -> PathDrawn:
        turns = ((math.tau * 1.55 * i / 44 - 0.7, 1.0 + 18.0 * min(1.0, i / 30)) for i in range(45))
        path = [(50 + r * math.cos(t), 36 + r * math.sin(t)) for t, r in turns]
        numbers = [(50.0, 36.0), (50.0 + 24, 36.0 + 8), (path[-1][0] - 6, path[-1][1] + 7)]
        return PathDrawn(path, (0.45, 0.99), numbers, [panel.use(ROSETTE.name, (0.5, 0.0, 0.0, 0.5, 50, 36))])


register(
    _Rosette(
        kind="rosette",
        shown=PlacedRow("rosette", Tip("closed star", 7), "", "side", 29, count=20),
        piece=ROSETTE,
        held=(40, 0.6),
        size_mm=30.0,
        apart_mm=31.0,
        line_mm=34.0,
    )
)
