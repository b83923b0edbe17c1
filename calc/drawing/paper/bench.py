"""The bench sheet: the piping order, step by step, with the cake above.

Map
---
`BenchStep`     one step in words ready to read
`bench_sheet`   all steps, with the views of the cake and tables before and after
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.drawing.faces import broken
from calc.drawing.paper.flow import Block, PageFlow, Picture
from calc.drawing.paper.page import NO_HEADING, QUIET, Heading, Sheet, fit_text, paper_mm, text_at
from calc.drawing.scene import INK, Path, Scene, Style, circle, rectangle


@dataclass(frozen=True)
class BenchStep:
    """One step of the bench sheet, in words ready to read."""

    title: str
    tip: str
    colour_name: str
    colour: str
    count: str = ""
    length: str = ""
    mass: str = ""
    angle: str = ""
    hand: str = ""
    note: str = ""


def bench_sheet(
    steps: Sequence[BenchStep],
    heading: Heading = NO_HEADING,
    paper: str = "A4",
    views: tuple[Scene, ...] = (),
    before: Sequence[Block] = (),
    after: Sequence[Block] = (),
) -> Sheet:
    """Set the piping order step by step, with the cake above: tip, colour, count, length, grams, how to hold the tip.

    `views` are the side view and the top view; blocks of `before` and `after` stand round the steps. The time is on the timetable.

    >>> bench_sheet([BenchStep("Shells round the base", "open star 7 mm", "russet", "#b9592f", "67 shells")]).title
    'Bench sheet'
    """
    flow = PageFlow(paper_mm(paper))
    if views:
        flow.picture(Picture(views, 72.0))
    for block in before:
        flow.block(block)
    for number, step in enumerate(steps, 1):
        _set_step(flow, number, step)
    for block in after:
        flow.block(block)
    under = "Coat chilled and marked first. Every row starts and closes at the back."
    return flow.sheet("bench-sheet", "Bench sheet", under, heading)


def _set_step(flow: PageFlow, number: int, step: BenchStep) -> None:
    """Set one step: a box to tick, its number, tip and colour, its amounts, and how to pipe it."""
    body = flow.width - 17.0
    facts = [fact for fact in (step.count, step.length, step.mass) if fact]
    hints = [line for text in (step.angle, step.hand) if text for line in broken(text, body, 3.3)]
    notes = list(broken(step.note, body, 3.3, "bold")) if step.note else []
    titled = broken(step.title, body, 4.3, "bold")
    tall = len(titled) * 5.2 + 5.4 + (len(hints) + len(notes)) * 4.2 + 3.4
    flow.need(min(tall, flow.height))
    y = flow.y
    flow.add(Path(rectangle(flow.left + 0.2, y + 1.2, 5.2, 5.2), Style(stroke=INK, width_mm=0.4)))
    shown, big = fit_text(str(number), 6.0, 6.4, "display")
    flow.add(text_at(flow.left + 14.0, y + 6.0, shown, big, "end", "display"))
    x = flow.left + 17.0
    for line in titled:
        flow.add(text_at(x, y + 5.0, line, 4.3, face="bold"))
        y += 5.2
    flow.add(Path(circle(x + 1.9, y + 3.1, 1.9), Style(fill=step.colour, stroke="#7d6673", width_mm=0.25)))
    left, small = fit_text(f"{step.colour_name}, {step.tip}", 3.8, body * 0.56, "text")
    flow.add(text_at(x + 5.2, y + 4.4, left, small))
    right, small = fit_text("   ".join(facts), 3.8, body * 0.42, "bold")
    flow.add(text_at(flow.left + flow.width, y + 4.4, right, small, "end", "bold"))
    y += 5.4
    for line in hints:
        flow.add(text_at(x, y + 3.8, line, 3.3, style=QUIET))
        y += 4.2
    for line in notes:
        flow.add(text_at(x, y + 3.8, line, 3.3, face="bold"))
        y += 4.2
    flow.y = y + 2.6
    flow.add(Path((("M", flow.left, flow.y), ("L", flow.left + flow.width, flow.y)), Style(stroke="#b9a9b0", width_mm=0.2)))
    flow.y += 0.8
