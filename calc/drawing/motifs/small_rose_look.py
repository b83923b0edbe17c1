"""How a small rose looks: a tight coil in the middle and overlapping petals round it, their thin edges in the light."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.drawing.bag import PANEL_WORDS, angle_mark, bag_and_tip
from calc.drawing.marks import label, rule
from calc.drawing.motifs.look import HIGH, Panel, PathDrawn, Piece, SingleLook, register
from calc.drawing.scene import LINE, Item, Parts, Path, Point, Style, circle, ellipse, polygon, polyline, smooth
from calc.drawing.shading import LIGHT, open_curves, tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip

STEEL = Style(fill="#cfc7cd", stroke="#5f5561", width_mm=0.45)


def curve(points: Sequence[Point]) -> Parts:
    """A smooth line through points, in whole units."""
    return (("M", round(points[0][0]), round(points[0][1])), *open_curves(points))


def petal(colour: str, turn: float, inner: float, outer: float, half: float) -> list[Path]:
    """One petal round the middle: from its foot at `inner` to its rolled edge at `outer`, `half` an angle wide to either side [deg]."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    level = 0.16 * (c * LIGHT[0] + s * LIGHT[1])

    def arc(radius: float, share: float = 1.0, lean: float = 0.0) -> list[Point]:
        found = []
        for k in range(5):
            angle = math.radians(turn + lean + half * share * (k / 2 - 1))
            bulge = radius * (0.93 + 0.10 * math.cos(math.pi / 2 * (k / 2 - 1)) + 0.03 * (k / 2 - 1))
            found.append((bulge * math.cos(angle), bulge * math.sin(angle)))
        return found

    def between(low: float, high: float, share: float) -> Parts:
        edge, foot = arc(high, share), arc(low, share)[::-1]
        return (*curve(edge), ("L", round(foot[0][0]), round(foot[0][1])), *curve(foot)[1:], ("Z",))

    return [
        Path(between(inner * 0.9, outer, 1.0), Style(fill=tone(colour, level - 0.70))),
        Path(between(inner, outer * 0.955, 0.94), Style(fill=tone(colour, level - 0.26))),
        Path(between(inner + (outer - inner) * 0.5, outer * 0.95, 0.84), Style(fill=tone(colour, level + 0.12))),
        Path(curve(arc(outer * 0.965, 0.93)), Style(stroke=tone(colour, level + 0.72), width_mm=2.8)),
        Path(curve(arc(inner * 1.12, 0.7)), Style(stroke=tone(colour, level - 0.62), width_mm=3.4)),
    ]


def _rose(colour: str) -> list[Path]:
    """A rose 100 across round (0, 0), seen from above: five petals, three, and a coiled bud."""
    paths = [Path(ellipse(0, 0, 44, 44), Style(fill=tone(colour, -0.8)))]
    for turn in (80, 152, 224, 296, 8):
        paths += petal(colour, turn, 24, 47, 46)
    paths.append(Path(ellipse(1, 2, 29, 29), Style(fill=tone(colour, -0.74))))
    for turn in (110, 230, 350):
        paths += petal(colour, turn, 12, 30, 70)
    paths.append(Path(ellipse(0.6, 1.0, 15, 15), Style(fill=tone(colour, -0.7))))
    paths.append(Path(ellipse(-0.5, -0.8, 13, 13), Style(fill=tone(colour, 0.02))))
    coil = [(r * math.cos(a), r * math.sin(a)) for r, a in ((11.5 - 8.5 * k / 20, -0.6 + math.tau * 1.5 * k / 20) for k in range(21))][::2]
    paths.append(Path(curve(coil), Style(stroke=tone(colour, -0.55), width_mm=3.2)))
    paths.append(Path(curve([(x - 0.8, y - 1.2) for x, y in coil]), Style(stroke=tone(colour, 0.5), width_mm=1.5)))
    return paths


ROSE = Piece("small rose", _rose, faces_out=True)


def standing(colour: str, x: float, foot: float, wide: float) -> list[Item]:
    """A rose from the side, on its foot: a bud that stands up out of two rows of petals."""
    w, high = wide / 2, wide * 0.78

    def petal(cx: float, top: float, half: float, low: float, level: float) -> list[Item]:
        edge = [(cx - half, top + half * 0.5), (cx - half * 0.6, top + 0.6), (cx, top), (cx + half * 0.6, top + 0.6), (cx + half, top + half * 0.5)]
        body: Parts = (*smooth([*edge, (cx + half * 0.8, low), (cx - half * 0.8, low)], closed=True),)
        return [
            Path(body, Style(fill=tone(colour, level), stroke=tone(colour, level - 0.4), width_mm=0.4)),
            Path(smooth(edge), Style(stroke=tone(colour, 0.6), width_mm=0.7)),
        ]

    items: list[Item] = [*petal(x, foot - high, w * 0.42, foot - high * 0.3, -0.05)]
    coil = [(x - w * 0.2, foot - high + 1.8), (x + w * 0.05, foot - high + 0.9), (x + w * 0.26, foot - high + 2.2), (x, foot - high + 3.4)]
    items.append(Path(smooth(coil), Style(stroke=tone(colour, -0.5), width_mm=0.6)))
    items += petal(x - w * 0.36, foot - high * 0.78, w * 0.46, foot - high * 0.1, 0.06)
    items += petal(x + w * 0.38, foot - high * 0.76, w * 0.46, foot - high * 0.1, -0.14)
    items += petal(x - w * 0.56, foot - high * 0.5, w * 0.46, foot, 0.02)
    items += petal(x + w * 0.58, foot - high * 0.48, w * 0.46, foot, -0.2)
    items += petal(x, foot - high * 0.55, w * 0.56, foot + 0.4, 0.1)
    return items


@dataclass(frozen=True, kw_only=True)
class _SmallRose(SingleLook):
    def front(self, panel: Panel) -> tuple[list[Item], Point]:
        """On the head of a nail, seen from above."""
        return [Path(circle(44, 36, 25), STEEL), panel.use(ROSE.name, (0.38, 0.0, 0.0, 0.38, 44, 36))], (59.0, 42.0)

    def angle(self, panel: Panel) -> list[Item]:
        """On a nail in the other hand, seen from the side: the tip comes to it at 45°, its thick end down."""
        x, foot = 34.0, 46.0
        items: list[Item] = [
            Path(polygon([(x - 1.4, foot + 2), (x + 1.4, foot + 2), (x + 0.8, HIGH + 2), (x - 0.8, HIGH + 2)]), STEEL),
            Path(
                polygon([(x - 15, foot), (x + 15, foot), (x + 13, foot + 2.4), (x - 13, foot + 2.4)]),
                Style(fill="#d8d0d5", stroke="#5f5561", width_mm=0.5),
            ),
            *standing(panel.colour, x, foot, 26.0),
            *bag_and_tip((x + 12.5, foot - 8.0), -45.0, panel.tip, 0.95, 1, arm_deg=12.0),
            rule(x - 17, foot, x + 40, foot, LINE._replace(width_mm=0.6)),
            *angle_mark((x + 6, foot), 30.0, 0.0, -45.0, "45°"),
        ]
        if panel.tip.family == "petal":
            items += [Path(polyline([(x + 12.0, foot - 4.5), (x + 20.0, foot + 10.0)]), LINE), label(x + 14.0, foot + 16.0, "thick end", PANEL_WORDS)]
        return items

    def path(self, panel: Panel) -> PathDrawn:
        """Round the bud and outwards, as the nail turns."""
        turns = ((math.tau * 1.9 * i / 40 - 0.9, 4.0 + 20.0 * i / 40) for i in range(41))
        path = [(50 + r * math.cos(t), 36 + r * math.sin(t)) for t, r in turns]
        faint: list[Item] = [panel.use(ROSE.name, (0.56, 0.0, 0.0, 0.56, 50, 36))]
        return PathDrawn(path, (0.42, 0.99), [(50.0, 36.0), (64.0, 25.0), (path[-1][0] + 5, path[-1][1] + 5)], faint, opacity=0.6)


register(
    _SmallRose(
        kind="small rose",
        shown=PlacedRow("small rose", Tip("petal", 10), "", "side", 29, count=20),
        piece=ROSE,
        held=(40, 0.6),
        size_mm=30.0,
        apart_mm=33.0,
        line_mm=34.0,
        solid=0.7,
    )
)
