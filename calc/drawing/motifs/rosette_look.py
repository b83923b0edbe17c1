"""How a rosette looks: one fluted line wound round its own raised middle."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.drawing.bag import angle_mark, bag_and_tip
from calc.drawing.marks import rule
from calc.drawing.motifs.look import HIGH, Panel, PathDrawn, Piece, SingleLook, register
from calc.drawing.scene import CAKE, LINE, Item, Parts, Path, Point, Style, arc, ellipse, rectangle, smooth
from calc.drawing.shading import open_curves, tone
from calc.rows.kinds.rosette import ROSETTE_WIDTH
from calc.rows.placement import PlacedRow
from calc.tips import Tip

BEAD_SHARE = 100.0 / ROSETTE_WIDTH  # width of the line, where a whole rosette is 100 across
_ROUND = 1.95  # turns of the coil: half a turn out from the middle, a turn round it, and the tail along it


def coil_at(share: float) -> tuple[float, float]:
    """Where the middle of the line lies at a share of the way, as an angle [rad] and a radius, a rosette being 100 across."""
    reach = (100.0 - BEAD_SHARE) / 2
    return math.tau * _ROUND * share - 0.6, reach * math.sin(min(1.0, share / 0.37) * math.pi / 2)


def _rosette(colour: str) -> list[Path]:
    """One fluted line wound once round its own middle, 100 across, round (0, 0); its tail lies along the edge."""

    def across(share: float, offset: float, lift: float) -> Point:
        """A point of the line, `offset` of its half width outwards, `lift` of it towards the light."""
        angle, radius = coil_at(share)
        half = BEAD_SHARE / 2 * min(1.0, 0.55 + share * 3, 0.04 + (1.0 - share) * 5.0)
        radius += offset * half + (1 - min(1.0, (1 - share) * 4)) * 11
        return round(radius * math.cos(angle) - 0.5 * lift * half), round(radius * math.sin(angle) - 0.87 * lift * half)

    def way(offset: float, first: float, last: float, back: bool = False, lift: float = 0.0) -> list[Point]:
        count = max(4, round(22 * (last - first)))
        points = [across(first + (last - first) * i / count, offset, lift) for i in range(count + 1)]
        return points[::-1] if back else points

    def lines(low: float, high: float, first: float, last: float, lift: float = 0.0) -> Parts:
        """The ridges of the line, in one path."""
        parts: list[tuple[str | float, ...]] = []
        for offset in (low, (low + high) / 2, high):
            points = way(offset, first, last, lift=lift)
            parts += [("M", *points[0]), *open_curves(points)]
        return tuple(parts)

    def band(reach: float, first: float, last: float) -> Parts:
        """The line from edge to edge, `reach` of its half width to either side."""
        edge, back = way(reach, first, last), way(-reach, first, last, True)
        return (("M", *edge[0]), *open_curves(edge), ("L", *back[0]), *open_curves(back), ("Z",))

    paths = [Path(ellipse(0, 0, 20, 20), Style(fill=tone(colour, -0.66)))]
    # laid part by part, so that what comes later lies on what was there before; the tail thins out to a point on the edge
    for first, last, ends in ((0.1, 0.45, 0.45), (0.37, 0.86, 0.86), (0.8, 1.0, 0.95)):
        paths.append(Path(band(1.12, first, last), Style(fill=tone(colour, -0.70))))
        paths.append(Path(lines(-0.6, 0.6, first, min(ends, 0.88)), Style(stroke=tone(colour, -0.17), width_mm=BEAD_SHARE * 0.27)))
        if last == 1.0:
            paths.append(Path(band(0.86, 0.87, last), Style(fill=tone(colour, -0.17))))
        paths.append(Path(lines(-0.6, 0.6, first + 0.03, ends - 0.02, 0.1), Style(stroke=tone(colour, 0.30), width_mm=2.8)))
    # the middle, squeezed first, stands up
    paths.append(Path(ellipse(0, 0, 18, 18), Style(fill=tone(colour, -0.62))))
    paths.append(Path(ellipse(-0.6, -1.0, 15.5, 15.5), Style(fill=tone(colour, -0.14))))
    seams: list[tuple[str | float, ...]] = []
    for turn in (math.tau * k / 5 for k in range(5)):
        sweep = [(round(r * math.cos(turn + r * 0.09)), round(r * math.sin(turn + r * 0.09))) for r in (3, 9, 15)]
        seams += [("M", *sweep[0]), *open_curves(sweep)]
    paths.append(Path(tuple(seams), Style(stroke=tone(colour, -0.5), width_mm=1.8)))
    paths.append(Path(ellipse(-3, -5, 6, 5), Style(fill=tone(colour, 0.42))))
    shade = (*arc(0, 0, 49, -30, 150), *arc(-11, -11, 48, 118, 2)[1:], ("Z",))
    paths.append(Path(shade, Style(fill=tone(colour, -0.9), opacity=0.22)))
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
        places = [coil_at(i / 44) for i in range(43)]
        path = [(50 + 0.5 * r * math.cos(t), 36 + 0.5 * r * math.sin(t)) for t, r in places]
        half = path[15]
        numbers = [
            (50.0, 36.0),
            (50 + (half[0] - 50) * 1.6, 36 + (half[1] - 36) * 1.6),
            (50 + (path[-1][0] - 50) * 1.75, 36 + (path[-1][1] - 36) * 1.75),
        ]
        return PathDrawn(path, (0.3, 0.99), numbers, [panel.use(ROSETTE.name, (0.5, 0.0, 0.0, 0.5, 50, 36))])


register(
    _Rosette(
        kind="rosette",
        shown=PlacedRow("rosette", Tip("closed star", 7), "", "side", 29, count=20),
        piece=ROSETTE,
        held=(40, 0.62),
        upright=True,
        size_mm=30.0,
        apart_mm=31.0,
        line_mm=34.0,
    )
)
