"""The cutting guide: where the knife goes, in which order, and how many slices."""

from __future__ import annotations

from calc.drawing.figures import cutting_scene
from calc.drawing.paper.flow import Block, Paragraphs, Picture, written_sheet
from calc.drawing.paper.sheet import NO_HEADING, Heading, Sheet
from calc.portions import CutPlan
from calc.units import Formatter, file_name_part

BEFORE = "Take out every dowel, pick and wire before you cut, and count them."


def cutting_guide(
    plan: CutPlan,
    heading: Heading = NO_HEADING,
    paper: str = "A4",
    tier_name: str = "",
    units: str = "metric",
    levels: int = 1,
    before: str = BEFORE,
    allergens: tuple[str, ...] = (),
) -> Sheet:
    """Draw where the knife goes on a tier, in which order, and how many slices it gives, from the plan's own lines and sentences.

    `before` says what must be off and out of it first, `allergens` what whoever serves it must know.

    >>> from calc.portions import cut_plan
    >>> from calc.shapes import outline
    >>> cutting_guide(cut_plan(outline("round", 200.0), (25.0, 50.0)), tier_name="lower tier").name
    'cutting-guide-lower-tier'
    """
    say = Formatter(units)
    title = "Cutting guide" + (f": {tier_name}" if tier_name else "")
    on_levels = f" on each of {levels} levels, the top one first" if levels > 1 else ""
    under = f"{plan.count} slices of {say.length(plan.slice_mm[0])} by {say.length(plan.slice_mm[1])}{on_levels}. The front of the cake is below."
    blocks: list[Block] = [
        Picture((cutting_scene(plan, units),), 130.0, caption="front"),
        Paragraphs("The knife's way", tuple(cut.sentence(say) for cut in plan.cuts), numbered=True),
        Paragraphs("", (before, *allergens), boxed=True),
    ]
    name = "cutting-guide" + (f"-{file_name_part(tier_name)}" if tier_name else "")
    return written_sheet(name, title, blocks, heading, paper, under)
