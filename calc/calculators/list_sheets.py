"""Sets the tables of an answer on a printed sheet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from calc.calculators.declare import Answer
from calc.drawing.paper import Block, Heading, Paragraphs, Picture, Sheet, Table, written_sheet
from calc.drawing.scene import Scene
from calc.drawing.timetable_chart import METRIC, chart_height_mm, timetable_scene
from calc.timetable import Timetable
from calc.units import Say

DRAWING_HIGH_MM = 205.0  # what one page holds of the hours at full size


def hours_drawn(plan: Timetable, say: Say = METRIC) -> tuple[Scene, ...]:
    """The hours of a timetable laid out, in as many drawings as pages take them at full size; a day that is too long for one is gone on with."""
    scenes = []
    start = 0
    while start < len(plan.steps):
        end = len(plan.steps)
        while end > start + 1 and chart_height_mm(replace(plan, steps=plan.steps[start:end])) > DRAWING_HIGH_MM:
            end -= 1
        scenes.append(timetable_scene(replace(plan, steps=plan.steps[start:end]), whole=plan, say=say))
        start = end
    return tuple(scenes)


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
