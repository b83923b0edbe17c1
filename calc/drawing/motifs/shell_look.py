"""How a shell looks: a plump fluted head whose ridges are drawn together into a tail."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.motifs.look import Panel, PathDrawn, Piece, RunLook, register
from calc.drawing.scene import Item, Path, Point, Style
from calc.drawing.shading import along, band, ridge, tone
from calc.rows.kinds.shell import SHELL_HEIGHT
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _shell(colour: str) -> list[Path]:
    """A plump fluted shell that sits on y = 0: a round head to the left, its ridges drawn together into a tail at the right."""
    tail = (98.0, -9.0)
    paths = [
        Path(band(along((tail, (64, -70), (20, -100), (-36, -50))), 30, "drop", -1, 1), Style(fill=tone(colour, -0.72))),
        Path(band(along((tail, (66, -16), (30, -34), (-40, -34))), 40, "drop", -1, 1), Style(fill=tone(colour, -0.72))),
    ]
    heads = (  # where each ridge ends on the head, how it bulges, half its width, its tone
        ((-14.0, -9.0), (66.0, -2.0), (30.0, 2.0), 14.0, -0.34),
        ((38.0, -95.0), (96.0, -46.0), (76.0, -98.0), 14.0, 0.10),
        ((-44.0, -27.0), (70.0, -8.0), (26.0, -12.0), 18.0, -0.20),
        ((4.0, -99.0), (92.0, -38.0), (60.0, -98.0), 17.0, 0.16),
        ((-54.0, -54.0), (78.0, -18.0), (28.0, -40.0), 20.0, -0.04),
        ((-34.0, -82.0), (86.0, -28.0), (42.0, -76.0), 20.0, 0.10),
    )
    for head, first, second, half, level in heads:
        paths += ridge(along((tail, first, second, head)), half, colour, level, "drop")
    return paths


def _from_above(colour: str) -> list[Path]:
    """A shell seen from above: ridges that fan out over the head and are drawn together into the tail."""
    tail = (98.0, 0.0)
    paths = [Path(band(along((tail, (60, 0), (10, 0), (-56, 0))), 54, "drop", -1, 1), Style(fill=tone(colour, -0.66)))]
    for head, first, second, half, level in (
        ((-20.0, -46.0), (70.0, -6.0), (30.0, -44.0), 13.0, 0.12),
        ((-20.0, 46.0), (70.0, 6.0), (30.0, 44.0), 13.0, -0.34),
        ((-44.0, -27.0), (72.0, -3.0), (28.0, -26.0), 15.0, 0.10),
        ((-44.0, 27.0), (72.0, 3.0), (28.0, 26.0), 15.0, -0.18),
        ((-54.0, 0.0), (74.0, 0.0), (28.0, 0.0), 16.0, 0.02),
    ):
        paths += ridge(along((tail, first, second, head)), half, colour, level, "drop")
    return paths


SHELL = Piece("shell", _shell, sits=True)
SHELL_ABOVE = Piece("shell from above", _from_above)


@dataclass(frozen=True, kw_only=True)
class SittingLook(RunLook):
    """Pieces that sit on the foot of the cake, each on the tail of the last: shells and beads."""

    high: float  # how high the path of the hand goes over a piece, as a share of it
    above: Piece  # the piece as it is seen from above

    def laid_before(self, panel: Panel, floor: float) -> list[Item]:
        """Two whole pieces and one begun."""
        size = 0.165
        items: list[Item] = [panel.use(self.piece.name, (size, 0.0, 0.0, size * 0.95, x, floor + 0.4)) for x in (2.0, 21.0)]
        items.append(panel.use(self.piece.name, (size * 0.75, 0.0, 0.0, size * 0.75, 37.5, floor + 0.4)))
        return items

    def path(self, panel: Panel) -> PathDrawn:
        """Over each head and down to its tail."""
        pieces, begin, top = self.three(panel)
        path: list[Point] = []
        for one in pieces[:3]:
            x, y, a, b = one.s - begin, top + one.down, one.along / 100, one.across / 100
            path += [(x + a * u, y + b * v * self.high) for u, v in ((-40, -24), (-34, -70), (0, -92), (34, -62), (58, -12))]
        one, two = pieces[0], pieces[1]
        x0, x1, y, tall = one.s - begin, two.s - begin, top + one.down, abs(one.across)
        numbers = [(x0 - one.along * 0.1, y - tall - 6), (x0 + one.along * 0.7, y - tall * 0.8 - 5), (x1 - one.along * 0.3, y + 8.5)]
        return PathDrawn(path, (0.2, 0.53, 0.99), numbers)


@dataclass(frozen=True, kw_only=True)
class _Shell(SittingLook):
    def sizes(self, row: PlacedRow) -> tuple[float, float, float]:
        tip = row.tip
        return row.what.natural_pitch_mm(tip), tip.opening_mm * SHELL_HEIGHT * (1.0 if row.place == "base" else 1.12), row.size_mm * 0.6


register(
    _Shell(
        kind="shell",
        shown=PlacedRow("shell", Tip("open star", 10), "", "base", 56),
        piece=SHELL,
        surface="base",
        held=(-26, 0.68),
        line_mm=52.0,
        enlarged=1.75,
        eye="From the side",
        reach=0.95,
        solid=0.55,
        high=1.0,
        low=5.0,
        above=SHELL_ABOVE,
    ),
    SHELL_ABOVE,
)
