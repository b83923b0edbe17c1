"""How a rope looks: turns that lean forward, each tucked under the last."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.motifs.look import Panel, PathDrawn, Piece, RunLook, register
from calc.drawing.scene import Item, Path, Point
from calc.drawing.shading import along, ridge
from calc.rows.kinds.rope import ROPE_WIDTH
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _twist(colour: str) -> list[Path]:
    """One turn of a rope, leaning forward, from y = -50 to y = 50."""
    return [*ridge(along(((-44, 40), (-38, -6), (36, 8), (42, -40))), 27, colour, 0.0, "pod")]


TWIST = Piece("twist", _twist)


@dataclass(frozen=True, kw_only=True)
class _Rope(RunLook):
    def sizes(self, row: PlacedRow) -> tuple[float, float, float]:
        return row.what.natural_pitch_mm(row.tip) * 0.8, row.size_mm * ROPE_WIDTH, row.size_mm * 0.6

    def laid_before(self, panel: Panel, floor: float) -> list[Item]:
        return [panel.use(TWIST.name, (0.14, 0.0, 0.0, 0.105, x, floor - 4.6)) for x in (0.0, 8.0, 16.0, 24.0, 32.0)]

    def path(self, panel: Panel) -> PathDrawn:
        """Each S by itself; the tip is lifted and tucked in between them."""
        pieces, begin, top = self.three(panel)
        path: list[Point] = []
        for one in pieces[:3]:
            x, y, a, b = one.s - begin, top + one.down, one.along / 100, one.across / 100
            path += [(x + a * u, y + b * v) for u, v in ((-40, 36), (-32, 4), (0, 0), (30, 2), (40, -34))]
        one, two = pieces[0], pieces[1]
        x0, x1, y, tall = one.s - begin, two.s - begin, top + one.down, abs(one.across)
        low, high = y + tall * 0.5 + 6, y - tall * 0.5 - 6
        numbers = [(x0 - one.along * 0.4 - 3, low), (x1 - one.along * 0.4, low), (x1 + one.along * 0.42, high)]
        return PathDrawn(path, (1.0,), numbers, stroke=5)


register(
    _Rope(
        kind="rope",
        shown=PlacedRow("rope", Tip("open star", 9), "", "side", 30),
        piece=TWIST,
        surface="edge",
        held=(-26, 0.68),
        line_mm=36.0,
        enlarged=1.9,
        eye="From the side",
        reach=1.55,
        solid=0.7,
    )
)
