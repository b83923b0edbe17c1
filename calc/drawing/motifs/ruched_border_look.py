"""How a ruched border looks: pleats across the edge, each leaning on the last."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.bag import PANEL_WORDS, angle_mark, bag_and_tip
from calc.drawing.marks import label
from calc.drawing.motifs.look import HIGH, Panel, Piece, RunLook, register
from calc.drawing.motifs.ruched_swag_look import FRILLED, folds_apart_mm, pleat_of
from calc.drawing.scene import CAKE, LINE, Item, Path, Style, polyline, rectangle, smooth
from calc.drawing.shading import tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip


@dataclass(frozen=True, kw_only=True)
class _RuchedBorder(RunLook):
    def sizes(self, row: PlacedRow) -> tuple[float, float, float]:
        size = row.size_mm
        return folds_apart_mm(row.tip), size * 1.02, size * 0.5

    def piece_and_reach(self, tip: Tip) -> tuple[Piece, float]:
        return pleat_of(tip), 2.1 if tip.slot_mm else 3.1

    def angle(self, panel: Panel) -> list[Item]:
        """The edge of the cake cut open, the tip over it at 45°."""
        colour, at = panel.colour, (43.0, 45.0)
        items: list[Item] = [
            Path(rectangle(-2, 46, 50, HIGH), CAKE),
            Path(
                smooth([(35, 45.6), (36, 39), (42, 36.5), (49, 41), (55, 49), (53, 52), (48, 49), (46, 46)], closed=True),
                Style(fill=tone(colour, -0.1), stroke=tone(colour, -0.5), width_mm=0.5),
            ),
            *bag_and_tip((46.0, 42.0), -45.0, panel.tip, 0.95, -1, arm_deg=20.0),
            Path(polyline([(-2, 46), (48, 46), (48, HIGH + 2)]), LINE._replace(width_mm=0.9)),
            *angle_mark((at[0] + 3, 46), 27.0, 0.0, -45.0, "45°"),
        ]
        if panel.tip.family == "petal":
            items += [
                Path(polyline([(41.2, 39.6), (29, 29)]), LINE),
                label(1.5, 20.5, "thick end", PANEL_WORDS),
                label(1.5, 27.1, "on the cake", PANEL_WORDS),
                Path(polyline([(51.6, 48.6), (57, 58)]), LINE),
                label(57.5, 64, "thin end", PANEL_WORDS),
            ]
        return items


register(
    _RuchedBorder(
        kind="ruched border",
        shown=PlacedRow("ruched border", Tip("petal", 13), "", "side", 30),
        piece=FRILLED,
        surface="edge",
        held=(-26, 0.68),
        line_mm=36.0,
        eye="From the side",
        reach=2.1,
        solid=0.5,
        by_count=False,
    )
)
