"""Labels to cut out: blocks of words in a frame of their own, as many on a page as fit."""

from __future__ import annotations

from collections.abc import Sequence

from calc.drawing.paper.flow import Block, PageFlow
from calc.drawing.paper.sheet import NO_HEADING, Heading, Sheet, paper_mm
from calc.drawing.scene import Path, Style, rectangle

_EDGE_MM = 5.0  # from the line to cut along to the words
_SIZES_MM = (4.4, 4.0, 3.6, 3.2, 2.9)  # of the type: the largest in which a label takes no more than a page
_CUT = Style(stroke="#000000", width_mm=0.3, dash=(3.0, 2.0))


def label_sheet(name: str, title: str, labels: Sequence[Sequence[Block]], heading: Heading = NO_HEADING, paper: str = "A4") -> Sheet:
    """Set labels down the pages, each in a dashed frame to cut along.

    >>> from calc.drawing.paper.flow import Paragraphs
    >>> len(label_sheet("box-label", "Labels", [(Paragraphs("Cake", ("This way up.",)),)] * 3).pages)
    1
    """
    flow = PageFlow(paper_mm(paper))
    flow.height += 7.0  # no bars stand below
    for blocks in labels:
        for size in _SIZES_MM:
            label = _set(flow, blocks, size, flow.top)
            if label.y + _EDGE_MM <= flow.bottom:
                break
        tall = label.y + _EDGE_MM - flow.top
        flow.need(min(tall, flow.height))
        label = _set(flow, blocks, size, flow.y)
        flow.add(*(item for page in label.pages for item in page))
        flow.tag("Artifact", Path(rectangle(flow.left, flow.y, flow.width, tall), _CUT))
        flow.y += tall + 6.0
    return flow.sheet(name, title, "Cut along the dashed lines; fasten each with clear tape over it.", heading)


def _set(flow: PageFlow, blocks: Sequence[Block], size: float, y: float) -> PageFlow:
    """A label set in type of a size, its upper edge at a height of the page."""
    label = PageFlow(flow.size, size)
    label.left, label.width = flow.left + _EDGE_MM, flow.width - 2 * _EDGE_MM
    label.top = label.y = y + _EDGE_MM
    label.height = 10 * flow.height  # never turned: how tall it comes out is what is asked
    for block in blocks:
        label.block(block)
    return label
