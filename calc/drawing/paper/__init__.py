"""What goes on the bench next to the cake, at true scale: pages ready for the PDF pen.

It may import `scene`, `pdf`, `faces`, `marks`, `free_space`, `motifs`, `tiers`, `views`, `unroll`, `wander`, `tip_openings` and `figures` of
`calc.drawing`, and `units`, `sources`, `shapes`, `curves`, `division`, `portions`, `stack`, `tips` and `rows`.

Map
---
`sheet`         a sheet of paper and its frame: `Heading`, `Sheet`, `paper_mm`
`tiles`         a drawing too large for one page laid on several
`flow`          words, tables and drawings down the pages: `Table`, `Paragraphs`, `Picture`, `Blanks`, `written_sheet`
`marking`       `marking_strip`
`practice`      `practice_sheet`, `practice_lines`
`patches`       `patch_sheet`
`bench_steps`   `BenchStep`, `BenchBag`, `BenchHold`, `BenchTier`, `bench_sheet`
`cutting`       `cutting_guide`
`labels`        `label_sheet`
`openings`      `tip_chart`
`gauge`         `tip_gauge`
`circles`       `CutterCircle`, `cutter_circles`
`templates`     `top_template`, `stacking_template`
"""

from calc.drawing.paper.bench_steps import BenchBag, BenchHold, BenchStep, BenchTier, bench_sheet
from calc.drawing.paper.circles import CutterCircle, cutter_circles
from calc.drawing.paper.cutting import cutting_guide
from calc.drawing.paper.flow import Blanks, Block, Paragraphs, Picture, Table, written_sheet
from calc.drawing.paper.gauge import tip_gauge
from calc.drawing.paper.labels import label_sheet
from calc.drawing.paper.marking import marking_strip
from calc.drawing.paper.openings import tip_chart
from calc.drawing.paper.patches import patch_sheet
from calc.drawing.paper.practice import practice_lines, practice_sheet
from calc.drawing.paper.sheet import PAPERS, Heading, Sheet, paper_mm
from calc.drawing.paper.templates import stacking_template, top_template
from calc.drawing.paper.tiles import tiles_mm

__all__ = [
    "PAPERS",
    "BenchBag",
    "BenchHold",
    "BenchStep",
    "BenchTier",
    "CutterCircle",
    "cutter_circles",
    "stacking_template",
    "tip_gauge",
    "Blanks",
    "Block",
    "Heading",
    "Paragraphs",
    "Picture",
    "Sheet",
    "Table",
    "bench_sheet",
    "cutting_guide",
    "label_sheet",
    "marking_strip",
    "paper_mm",
    "patch_sheet",
    "practice_lines",
    "practice_sheet",
    "tiles_mm",
    "tip_chart",
    "top_template",
    "written_sheet",
]
