"""The tip chart: openings at 1:1, to hold a tip against."""

from __future__ import annotations

from collections.abc import Sequence

from calc.drawing.faces import text_width_mm
from calc.drawing.paper.flow import PageFlow
from calc.drawing.paper.page import BLACK, NO_HEADING, QUIET, Heading, Sheet, paper_mm, text_at
from calc.drawing.scene import Path
from calc.drawing.tip_openings import opening_parts
from calc.tips import Tip
from calc.units import Say

OWN_NOTE = "mine: ________"  # where makers write what they call a tip of their own


def tip_chart(tips: Sequence[tuple[Tip, str]], heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric") -> Sheet:
    """Draw the openings of tips at 1:1, to hold a tip against, each with a short note under it.

    >>> len(tip_chart([(Tip("round", 2.0), ""), (Tip("petal", 11.0), "")]).pages)
    1
    """
    flow = PageFlow(paper_mm(paper))
    family = ""
    x, tallest = flow.left, 0.0
    for tip, note in tips:
        if tip.family != family:
            if x > flow.left:
                flow.y += tallest
            x, tallest = flow.left, 0.0
            family = tip.family
            flow.heading(family[0].upper() + family[1:], 26.0)
        reach = tip.opening_mm if tip.family != "petal" else tip.slot_mm
        tall = (tip.opening_mm if tip.family not in ("leaf", "ruffle", "basket") else tip.slot_mm) + 15.0
        opening = Say(units).opening_beside(tip.opening_mm)
        wide = max(26.0, reach + 8.0, text_width_mm(opening, 3.4) + 4.0, text_width_mm(note, 2.9) + 4.0)
        if x + wide > flow.left + flow.width:
            flow.y += tallest
            x, tallest = flow.left, 0.0
        if x == flow.left:
            flow.need(tall + 2.0)
        elif flow.y + tall > flow.bottom:
            flow.turn()
            x, tallest = flow.left, 0.0
        middle = x + wide / 2
        flow.add(Path(opening_parts(tip, middle, flow.y + (tall - 15.0) / 2 + 2.0), BLACK))
        flow.add(text_at(middle, flow.y + tall - 7.6, opening, 3.4, "middle", "bold"))
        if note:
            flow.add(text_at(middle, flow.y + tall - 3.8, note, 2.9, "middle", style=QUIET))
        x += wide
        tallest = max(tallest, tall)
    under = "Openings at true size: hold your tip over them. Go by the opening; write what you call your own on the line."
    return flow.sheet("tip-chart", "Tip chart", under, heading, units)
