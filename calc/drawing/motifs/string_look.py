"""How a string looks: a smooth line in its catenary, clear of the side."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.bag import angle_mark, bag_and_tip
from calc.drawing.marks import label, rule
from calc.drawing.motifs.laid import RowLaid, Strand, spans
from calc.drawing.motifs.look import HIGH, WIDE, Look, Panel, PathDrawn, register
from calc.drawing.scene import CAKE, GUIDE_DASH, GUIDE_LINE, LINE, Item, Path, Point, Style, circle, rectangle, smooth
from calc.drawing.shading import strand_paths, tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip


@dataclass(frozen=True, kw_only=True)
class _String(Look):
    def lay(self, row: PlacedRow, perimeter_mm: float, height_mm: float) -> RowLaid:
        size = row.size_mm
        shadows: list[Strand] = []
        strands: list[Strand] = []
        for start, width in spans(row, perimeter_mm):
            for drop in row.what.drops_mm(row.tip, row.drop_mm, row.layers):
                points = tuple((start + x, row.line_mm + y) for x, y in row.what.mark_points(width, drop, 12))
                shadows.append(Strand(tuple((s + size * 0.35, down + size * 0.75) for s, down in points), size * 1.1, "shadow"))
                strands.append(Strand(points, size, "smooth"))
        return RowLaid(tuple(shadows), tuple(strands), ())

    def front(self, panel: Panel) -> tuple[list[Item], Point]:
        first, last = panel.mark[0], panel.mark[-1]
        at = (last[0] - 9.0, panel.line + 1.0)
        hung = [(first[0] + (at[0] - first[0]) * t, first[1] + (at[1] - first[1]) * t + 4 * 17.0 * t * (1 - t)) for t in (i / 12 for i in range(13))]
        return [Path(smooth(panel.mark), GUIDE_DASH), *panel.piped(first[0] + 1.0), *strand_paths(hung, 2.6, "smooth", panel.colour)], at

    def angle(self, panel: Panel) -> list[Item]:
        wall, colour = 24.0, panel.colour
        at = (wall + 26.0, 22.0)
        hung = [(wall, 21.0), (wall + 4, 31.0), (wall + 12, 35.0), (wall + 21, 30.0), at]
        return [
            Path(rectangle(-2, -2, wall + 2, HIGH + 4), CAKE),
            *strand_paths(hung, 2.6, "smooth", colour),
            Path(circle(wall + 0.8, 21.0, 1.9), Style(fill=tone(colour, -0.1))),
            *bag_and_tip(at, 4.0, panel.tip, 0.95, arm_deg=40.0),
            rule(wall, -2, wall, HIGH + 2, LINE._replace(width_mm=0.9)),
            rule(wall, 9.0, at[0], 9.0, GUIDE_LINE),
            *(rule(x, 7.0, x, 11.0, GUIDE_LINE) for x in (wall, at[0])),
            label((wall + at[0]) / 2, 5.6, "2 to 3 cm", 5.4, "middle", "text", True),
            label((wall + at[0]) / 2, 15.6, "or 1 in", 5.4, "middle", "text", True),
            *angle_mark((wall, 22.0), 26.0, 90.0, 0.0, "90°", 0.3),
        ]

    def path(self, panel: Panel) -> PathDrawn:
        """Seen from above, because the hand goes away from the side and comes back to it; the string hangs below where it has gone."""
        wall, away, (left, right) = 18.0, 26.0, (16.0, 84.0)
        out, near = wall + away, wall + away * 0.75
        path = [(left, wall + 1), (left + 3, near), (left + 13, out), (right - 13, out), (right - 3, near), (right, wall + 1)]
        knob = Style(fill=tone(panel.colour, -0.1), stroke=tone(panel.colour, -0.6), width_mm=0.4)
        ground: list[Item] = [
            Path(rectangle(-2, -2, WIDE + 4, wall + 2), CAKE),
            *bag_and_tip((52.0, out), 58.0, panel.tip, 0.95, arm_deg=40.0),
            rule(-2, wall, WIDE + 2, wall, LINE._replace(width_mm=0.9)),
            *(Path(circle(x, wall, 1.9), knob) for x in (left, right)),
        ]
        hung = strand_paths([(left, wall), (52.0, out)], 2.6, "smooth", panel.colour)
        return PathDrawn(path, (0.16, 0.62, 0.985), [(left, wall - 7), (left + 5.5, out + 5), (right, wall - 7)], hung, ground, opacity=1.0)


register(
    _String(
        kind="string",
        shown=PlacedRow("string", Tip("round", 2.5), "", "side", 15, 8, drop_mm=24),
        held=(22, 0.68),
        repeat_mm=62.0,
        drop_mm=24.0,
        line_mm=16.0,
        eye="From the side",
        path_eye="from above",
    )
)
