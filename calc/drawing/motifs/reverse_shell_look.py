"""How a reverse shell looks: its head curls up and over, its tail ends on the line of the row."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.motifs.look import Panel, PathDrawn, Piece, RunLook, register
from calc.drawing.scene import Item, Path, Point, Style
from calc.drawing.shading import band, profile_share, ridge, through, tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _curl(colour: str) -> list[Path]:
    """A reverse shell: its head curls up and over, its tail ends on the line of the row, to the right."""
    centre = through(((16, -26), (4, -16), (-14, -16), (-28, -34), (-20, -56), (4, -66), (30, -54), (54, -30), (84, -8), (118, 2)))
    half = 30.0
    paths = [Path(band(centre, half, "curl", -1, 1), Style(fill=tone(colour, -0.72)))]
    for offset, level in ((0.76, -0.22), (-0.78, 0.06), (0.26, -0.10), (-0.28, 0.08)):

        def shifted(t: float, offset: float = offset) -> tuple[float, float, float, float]:
            x, y, tx, ty = centre(t)
            wide = half * profile_share("curl", t) * offset
            return x - ty * wide, y + tx * wide, tx, ty

        paths += ridge(shifted, half * 0.34, colour, level, "curl")
    return paths


CURL = Piece("curl", _curl)


@dataclass(frozen=True, kw_only=True)
class _ReverseShell(RunLook):
    def sizes(self, row: PlacedRow) -> tuple[float, float, float]:
        return row.what.natural_pitch_mm(row.tip), row.tip.opening_mm * 1.25, row.size_mm * 0.5

    def turned(self, index: int) -> float:
        return -1.0 if index % 2 else 1.0

    def laid_before(self, panel: Panel, floor: float) -> list[Item]:
        """Each curl lies on the surface, its head towards the eye and away from it by turns."""
        tall = 0.16
        places = ((-7.0, -tall, 15.9), (12.0, tall, 2.4), (31.0, -tall * 0.85, 13.4))
        return [panel.use(CURL.name, (0.2, 0.0, 0.0, across, x, floor - up)) for x, across, up in places]

    def path(self, panel: Panel) -> PathDrawn:
        pieces, begin, top = self.three(panel)
        if pieces[0].across < 0:
            pieces = pieces[1:]
        path: list[Point] = []
        for one in pieces[:3]:
            x, y, a, b = one.s - begin, top + one.down, one.along / 100, one.across / 100
            path += [(x + a * u, y + b * v) for u, v in ((12, -28), (-10, -22), (-20, -44), (0, -62), (40, -44), (80, -8))]
        one, two = pieces[0], pieces[1]
        x0, x1, y, tall = one.s - begin, two.s - begin, top + one.down, abs(one.across)
        numbers = [(x0 - one.along * 0.3, y - tall * 0.5 - 9), (x1 - one.along * 0.12, y - tall * 0.35 - 6), (x1 + 2, y + tall * 0.5 + 9)]
        return PathDrawn(path, (0.2, 0.54, 0.99), numbers)


register(
    _ReverseShell(
        kind="reverse shell",
        shown=PlacedRow("reverse shell", Tip("open star", 10), "", "side", 30),
        piece=CURL,
        held=(26, 0.68),
        line_mm=34.0,
        enlarged=1.75,
        eye="From the side",
        reach=0.92,
        solid=0.6,
    )
)
