"""How an S scroll looks: as a C scroll, on its own line, thin where its two bends meet."""

from __future__ import annotations

from calc.drawing.motifs.c_scroll_look import ScrollLook
from calc.drawing.motifs.look import register
from calc.rows.placement import PlacedRow
from calc.tips import Tip

register(
    ScrollLook(
        kind="S scroll",
        role="swelling twice",
        shown=PlacedRow("S scroll", Tip("open star", 5), "", "side", 26, 8, drop_mm=24, count=8),
        repeat_mm=74.0,
        drop_mm=30.0,
        line_mm=36.0,
    )
)
