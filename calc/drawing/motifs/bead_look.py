"""How a bead looks: a pearl with a short tail."""

from __future__ import annotations

from dataclasses import dataclass

from calc.drawing.motifs.look import Piece, register
from calc.drawing.motifs.shell_look import SittingLook
from calc.drawing.scene import Path, Style, ellipse
from calc.drawing.shading import along, band, tone
from calc.rows.placement import PlacedRow
from calc.tips import Tip


def _bead(colour: str) -> list[Path]:
    """A pearl on y = 0 with a short tail to the right."""
    return [
        Path(band(along(((96, -14), (70, -22), (20, -44), (-46, -44))), 46, "drop", -1, 1), Style(fill=tone(colour, -0.6))),
        Path(band(along(((88, -18), (64, -26), (20, -46), (-40, -47))), 40, "drop", -1, 1), Style(fill=tone(colour, -0.24))),
        Path(ellipse(-4, -50, 36, 35), Style(fill=tone(colour, -0.04))),
        Path(ellipse(-8, -56, 27, 25), Style(fill=tone(colour, 0.2))),
        Path(ellipse(-15, -65, 12, 8), Style(fill=tone(colour, 0.75))),
    ]


def _from_above(colour: str) -> list[Path]:
    """A pearl seen from above, its tail to the right."""
    return [
        Path(band(along(((96, 0), (70, 0), (20, 0), (-50, 0))), 48, "drop", -1, 1), Style(fill=tone(colour, -0.5))),
        Path(band(along(((88, 0), (64, 0), (20, 0), (-44, 0))), 42, "drop", -1, 1), Style(fill=tone(colour, -0.2))),
        Path(ellipse(-6, -4, 36, 35), Style(fill=tone(colour, 0.0))),
        Path(ellipse(-10, -10, 26, 24), Style(fill=tone(colour, 0.22))),
        Path(ellipse(-17, -19, 11, 8), Style(fill=tone(colour, 0.75))),
    ]


BEAD = Piece("bead", _bead, sits=True)
BEAD_ABOVE = Piece("bead from above", _from_above)


@dataclass(frozen=True, kw_only=True)
class _Bead(SittingLook):
    def sizes(self, row: PlacedRow) -> tuple[float, float, float]:
        pitch = row.what.natural_pitch_mm(row.tip, row.width_mm)
        return pitch, pitch * 1.1, pitch * 0.5


register(
    _Bead(
        kind="bead",
        shown=PlacedRow("bead", Tip("round", 7), "", "base", 56),
        piece=BEAD,
        surface="base",
        held=(-26, 0.68),
        line_mm=52.0,
        enlarged=1.75,
        eye="From the side",
        reach=1.0,
        solid=0.9,
        high=0.85,
        low=5.0,
        above=BEAD_ABOVE,
    ),
    BEAD_ABOVE,
)
