"""Practice sheets of every kind of row: three sizes that differ as they say, dots that lead the hand, and no words under a drawing."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from calc.drawing.paper import Heading, practice_lines, practice_sheet
from calc.drawing.paper.practice import _dots, _exercise
from calc.drawing.paper.sheet import SMALLEST_MM
from calc.drawing.scene import Group, Item, Matrix, Path, Scene, Text, Use
from calc.drawing.tiers import lay
from calc.drawing.views import band_mm
from calc.rows import KINDS
from calc.rows.placement import PlacedRow
from calc.tips import Tip
from tests.calc.paper_overlaps import overlaps, smallest_text_mm, walk_scene

HEADING = Heading("Orchard harvest supper", "Saturday 16 October 2027, 18:00")
EVERY = [kind.name for kind in KINDS.values()]


def across(scene: Scene) -> list[float]:
    """Where something is drawn, across the page."""
    return [x for kind, _, _, points in walk_scene(scene) if kind != "words" for x, _ in points]


def row_of(kind: str) -> PlacedRow:
    what = KINDS[kind]
    return PlacedRow(kind, Tip(*what.begins_with), "#b9592f", drop_mm=24.0 if what.takes_drop else 0.0)


def drawn(items: tuple[Item, ...], at: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)) -> list[tuple[float, float, float]]:
    """Height, pitch-wise width and place of everything that is drawn in grey: pieces by their matrix, lines by their width."""
    found = []
    for item in items:
        if isinstance(item, Group):
            found += drawn(item.items, item.matrix or at)
        elif isinstance(item, Use):
            a, b, c, d, e, _ = item.matrix
            found.append((math.hypot(a, b), math.hypot(c, d), e))
        elif isinstance(item, Path) and item.style.stroke and item.style.width_mm > 1.0 and not item.style.dash:
            xs = [float(part[-2]) for part in item.parts if len(part) > 2]
            found.append((max(xs) - min(xs), item.style.width_mm, min(xs)))
    return found


def size_of(scene: Scene) -> tuple[float, float]:
    """The largest extent, along and across, of what is piped on a page."""
    found = drawn(scene.items)
    assert found
    return max(along for along, _, _ in found), max(across for _, across, _ in found)


@pytest.mark.parametrize("kind", EVERY)
def test_the_three_sizes_differ_in_their_drawing(kind: str) -> None:
    """Large is 1.25 times and small 0.75 times the size on the cake, along the row or across it, as far as whole pieces allow."""
    sizes = [size_of(scene) for scene in practice_sheet(row_of(kind), 60.0 if KINDS[kind].takes_drop else 0.0, HEADING).pages]
    large, usual, small = sizes
    for other, scale in ((large, 1.25), (small, 0.75)):
        ratios = [a / b for a, b in zip(other, usual, strict=True) if b > 0]
        assert any(ratio == pytest.approx(scale, rel=0.08) for ratio in ratios), (kind, ratios)


@pytest.mark.parametrize("kind", EVERY)
def test_words_of_practice_sheets_lie_under_no_drawing(kind: str) -> None:
    """Neither what to follow nor the heading is covered, whatever the kind, the size, the paper or the hand."""
    for paper, mirrored in (("A4", False), ("Letter", True)):
        for scene in practice_sheet(row_of(kind), 60.0 if KINDS[kind].takes_drop else 0.0, HEADING, paper, mirrored=mirrored).pages:
            assert overlaps(scene) == []
            assert smallest_text_mm(scene) >= SMALLEST_MM
            assert all(3.0 < x < scene.width_mm - 3.0 for x in across(scene)), "something falls off the page"


@pytest.mark.parametrize("kind", [name for name in EVERY if not KINDS[name].takes_drop])
def test_dots_follow_what_is_drawn(kind: str) -> None:
    """One dot for each piece, one at either edge for each fold of a rocked tip, at its place; apart enough to be told apart."""
    what, wide = KINDS[kind], 168.0
    row = replace(row_of(kind), place="side", count=round(wide / what.natural_pitch_mm(row_of(kind).tip)) if what.in_pieces else None)
    pieces, dots = lay(row, wide, 400.0).pieces, _dots(row, wide)
    if not pieces:
        assert all(b[0] - a[0] == pytest.approx(6.0, abs=0.3) and a[1] == 0.0 for a, b in pairwise(dots))
        return
    rocked = what.rocking_mm(row.tip) is not None
    each = 2 if rocked else 1
    assert each * (len(pieces) - 1) <= len(dots) <= each * len(pieces)  # the last may be left out
    assert [s for s, _ in dots[::each]] == pytest.approx([piece.s for piece in pieces][: len(dots) // each])
    assert all(math.dist(a, b) >= 2.4 for a, b in pairwise(dots))
    if rocked:
        low, high = band_mm(row, wide, 400.0)
        assert {round(down, 6) for _, down in dots[::2]} != {round(down, 6) for _, down in dots[1::2]}
        assert all(low < down < high for _, down in dots) and max(d for _, d in dots) - min(d for _, d in dots) > 0.6 * (high - low)


@pytest.mark.parametrize("kind", EVERY)
def test_lines_of_an_exercise_keep_clear_of_each_other(kind: str) -> None:
    """The room above and below a line is what its drawing takes, and the dots to follow are there."""
    row = replace(row_of(kind), place="side", repeats=3, count=12 if KINDS[kind].in_pieces else None, line_mm=0.0)
    low, high = band_mm(row, 168.0, 400.0)
    for how in ("grey", "dots", "nothing"):
        items, above, below = _exercise(row, 168.0, how)
        assert above >= -low - 0.5 and below >= high - 0.5 and above + below >= 6.0
        round_dots = [item for item in items if isinstance(item, Path) and (item.style.dash[:1] == (0.0,) or item.style.fill)]
        assert bool(round_dots) == (how == "dots")


def test_lines_and_curves_have_words_beside_them() -> None:
    """Nothing is drawn over the words of the sheet for any tip, and circles are named in the reader's units."""
    for paper in ("A4", "Letter"):
        for units, words in (("metric", "circles of 2, 3, 4 and 5 cm"), ("us", "circles of 3/4, 1 1/4, 1 1/2 and 2 in")):
            (scene,) = practice_lines(HEADING, paper, units).pages
            assert overlaps(scene) == [] and smallest_text_mm(scene) >= SMALLEST_MM
            assert max(across(scene)) < scene.width_mm - 6.0
            assert words in repr([item for item in scene.items if isinstance(item, Group | Text)])
