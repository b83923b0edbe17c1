"""Sets the tables of an answer on a printed sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from calc.calculators.declare import Answer
from calc.drawing.paper import Block, Heading, Paragraphs, Picture, Sheet, Table, written_sheet
from calc.drawing.scene import Scene
from calc.drawing.timetable_chart import METRIC, chart_height_mm, timetable_scene
from calc.timetable import Timetable
from calc.units import Formatter

DRAWING_HIGH_MM = 205.0  # what one page holds of the hours at full size


def hours_drawn(plan: Timetable, say: Formatter = METRIC) -> tuple[Scene, ...]:
    """The hours of a timetable laid out, in as few drawings as pages take them at full size: whole days in one where it can be."""
    parts = [replace(plan, steps=plan.steps[start:end]) for start, end in pairwise(_cuts(plan))]
    return tuple(timetable_scene(part, whole=plan, say=say) for part in parts)


def _cuts(plan: Timetable) -> list[int]:
    """Before which steps a new drawing begins, 0 and the end among them: as few as can be, then as few days cut as can be, then evenly."""
    steps, count = plan.steps, len(plan.steps)
    best: list[tuple[tuple[int, int, float], list[int]]] = [((0, 0, 0.0), [0])]
    for end in range(1, count + 1):
        found = []
        whole = end == count or steps[end].start.date() != steps[end - 1].start.date()
        for start in range(end - 1, -1, -1):
            high = chart_height_mm(replace(plan, steps=steps[start:end]))
            if high > DRAWING_HIGH_MM and start < end - 1:
                break
            (drawings, cut, uneven), cuts = best[start]
            found.append(((drawings + 1, cut + (not whole), uneven + high**2), [*cuts, end]))
        best.append(min(found))
    return best[-1][1]


def list_sheet(
    answer: Answer,
    name: str,
    title: str,
    tables: Sequence[str],
    paper: str,
    ticked: Sequence[str] = (),
    scenes: tuple[Scene, ...] = (),
    heading: Heading | None = None,
    under: str = "",
) -> Sheet:
    """Set some tables of an answer on paper, with its cautions, then scenes, each by itself; tables in `ticked` get a box to tick."""
    if answer.problems:
        raise KeyError(f"{name} has nothing to show yet")
    blocks: list[Block] = []
    by_name: dict[str, dict[str, Any]] = {table["name"]: table for table in answer.tables}
    for key in tables:
        found = by_name.get(key)
        if found is None:
            continue
        columns = tuple(column["label"] for column in found["columns"])
        numeric = tuple(i for i, column in enumerate(found["columns"]) if column["align"] == "right")
        rows = tuple(tuple(row) for row in found["rows"])
        blocks.append(Table(found["title"], columns, rows, numeric, key in ticked))
    if answer.cautions:
        blocks.append(Paragraphs("Cautions", tuple(caution["text"] for caution in answer.cautions), boxed=True))
    blocks += [Picture((scene,), 210.0, scaled=False) for scene in scenes]
    return written_sheet(name, title, blocks, heading or Heading(), paper, under)
