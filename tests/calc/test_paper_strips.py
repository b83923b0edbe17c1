"""Marking strips of every kind of row on every outline: nothing is lost at the closing line, and no words lie on what is to be marked."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pypdfium2
import pytest

from calc.drawing.faces import text_width_mm
from calc.drawing.free_space import line_points
from calc.drawing.paper import Heading, marking_strip, paper_mm
from calc.drawing.paper.marking import cut_up
from calc.drawing.scene import Group, Item, Path, Text, Use
from calc.drawing.tiers import TierDrawn
from calc.drawing.unroll import marked, marks, piped, row_lines, row_style
from calc.rows import KINDS
from calc.rows.placement import PlacedRow
from calc.shapes import SHAPES, TWO_SIZES, Outline, outline
from calc.tips import Tip
from tests.calc.paper_overlaps import overlaps, white_boxes

HEADING = Heading("Orchard harvest supper", "Saturday 16 October 2027, 18:00")
COAT = "#b9592f"
CURVED = tuple(kind.name for kind in KINDS.values() if kind.hangs or kind.scroll)


def sized(shape: str, width: float = 180.0) -> Outline:
    return outline(shape, width, width * 1.3 if shape in TWO_SIZES else None)


def row_of(kind: str, place: str, line: float, joints: tuple[float, ...], shift: float = 0.0, drop: float = 27.0) -> PlacedRow:
    family, opening = KINDS[kind].begins_with
    return PlacedRow(kind, Tip(family, opening), COAT, place, line, len(joints) or 8, None, drop, joints=joints, shift=shift)


def tier_of(shape: str, *rows: tuple[str, str, float], height: float = 100.0) -> TierDrawn:
    top = sized(shape)
    joints = () if shape == "round" else top.division(8).s_mm
    return TierDrawn(top, 0.0, height, "#f6e7c9", tuple(row_of(kind, place, line, joints) for kind, place, line in rows), "lower tier")


def uses(items: tuple[Item, ...]) -> list[Item]:
    """All that is drawn, groups opened."""
    return [inner for item in items for inner in (uses(item.items) if isinstance(item, Group) else [item])]


def reach(items: tuple[Item, ...], whole: float) -> tuple[float, float]:
    """From where to where along the side something is drawn."""
    xs = [
        item.matrix[4] if isinstance(item, Use) else float(part[-2])
        for item in uses(items)
        for part in getattr(item, "parts", ((0, 0, 0),))
        if len(part) > 2
    ]
    return min(x for x in xs if x >= 0), max(x for x in xs if x <= whole)


def drawn_mm(paths: list[Path]) -> tuple[float, float, float]:
    """Length of some paths, and from where to where along the side they reach."""
    lines = [line for path in paths for line in line_points(path.parts)]
    xs = [x for line in lines for x, _ in line]
    return math.fsum(math.dist(a, b) for line in lines for a, b in zip(line, line[1:], strict=False)), min(xs), max(xs)


@pytest.mark.parametrize("drop", [27.0, 120.0])
@pytest.mark.parametrize("shift", [0.0, 0.4, -0.25, 2.75])
@pytest.mark.parametrize("kind", CURVED)
def test_what_passes_the_closing_line_goes_on_from_the_start(kind: str, shift: float, drop: float) -> None:
    """However far the joints are shifted, and however far an arc bulges past them, all of a row lies between 0 and the closing line."""
    tier = TierDrawn(outline("round", 200.0), 0.0, 200.0)
    whole = tier.outline.perimeter_mm
    row = row_of(kind, "side", 40.0, (), shift, drop)
    free = drawn_mm([Path(parts, row_style(tier, row)) for parts in row_lines(row, whole)])
    kept = drawn_mm([Path(parts, row_style(tier, row)) for parts in row_lines(row, whole, 0.0, whole)])
    assert kept[0] == pytest.approx(free[0], rel=2e-3) and kept[0] > 8 * drop
    assert kept[1] >= -1e-6 and kept[2] <= whole + 1e-6
    found = marked(TierDrawn(tier.outline, 0.0, 200.0, rows=(row,)))
    assert all(float(part[1]) + 2.0 >= 0 and float(part[1]) <= whole + 2.0 for path in found.joints for part in path.parts)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("kind", CURVED)
def test_stretches_of_a_side_show_all_of_it(kind: str, shape: str) -> None:
    """The pieces of a strip, each drawn by itself, hold together as much of each row as the side as a whole."""
    tier = tier_of(shape, (kind, "side", 30.0))
    whole = tier.outline.perimeter_mm
    ends = [0.0, 0.3 * whole, 0.31 * whole, 0.8 * whole, whole]
    parts = [marked(tier, stretch=(a, b)).rows[0][1] for a, b in zip(ends, ends[1:], strict=False)]
    together = drawn_mm([path for some in parts for path in some])
    assert together[0] == pytest.approx(drawn_mm(list(marked(tier).rows[0][1]))[0], rel=2e-3)
    assert together[1:] == pytest.approx((0.0, whole), abs=0.01 if not KINDS[kind].scroll else 20.0)


@pytest.mark.parametrize("kind", [kind.name for kind in KINDS.values()])
def test_a_side_piped_goes_on_from_the_start(kind: str) -> None:
    """In colour too: as much of a shifted row is drawn at 0 as passes the closing line."""
    tier = TierDrawn(outline("round", 200.0), 0.0, 100.0)
    whole = tier.outline.perimeter_mm
    place = KINDS[kind].place if KINDS[kind].place in ("top edge", "base") else "side"
    drawn = {shift: piped(tier, row_of(kind, place, 30.0, (), shift)).items for shift in (0.0, 0.5)}
    assert sum(isinstance(item, Use) for item in uses(drawn[0.5])) >= sum(isinstance(item, Use) for item in uses(drawn[0.0]))
    if kind in CURVED:
        first, last = reach(drawn[0.5], whole)
        assert first < 12.0 and last > whole - 12.0


PLACED = [
    (("swag", "side", 14.0), ("swag", "side", 22.0), ("string", "side", 14.0), ("shell", "base", 90.0), ("rosette", "joints", 14.0)),
    (("S scroll", "side", 40.0), ("bead", "base", 95.0), ("ruched border", "top edge", 0.0), ("leaf", "joints", 40.0)),
    (("C scroll", "side", 12.0), ("ruffled swag", "side", 40.0), ("line", "side", 80.0)),
    (("ruched swag", "side", 20.0), ("string", "side", 20.0), ("string", "side", 44.0), ("star", "joints", 20.0), ("rope", "base", 92.0)),
]


@pytest.mark.parametrize("number, shape", list(enumerate(SHAPES)))
@pytest.mark.parametrize("rows", PLACED)
def test_no_words_lie_on_what_is_to_be_marked(rows: tuple[tuple[str, str, float], ...], shape: str, number: int) -> None:
    """Neither names nor what is said about the paper lie on a line, on each other, or on a white box that would hide one."""
    for scene in marking_strip(tier_of(shape, *rows), HEADING, ("A4", "Letter")[number % 2], prick=number % 3 == 0).pages:
        assert overlaps(scene) == []
        assert white_boxes(scene) == 10, "only the bars have white blocks"


@pytest.mark.parametrize("kind", [kind.name for kind in KINDS.values()])
def test_every_kind_is_named_beside_its_lines(kind: str) -> None:
    """The name stands on the strip itself, within 2 cm of the row, and covers nothing."""
    place = KINDS[kind].place if KINDS[kind].place in ("top edge", "base", "joints") else "side"
    line = {"base": 92.0, "top edge": 0.0}.get(place, 34.0)
    tier = tier_of("square", (kind, place, line))
    for scene in marking_strip(tier, HEADING, units="us").pages:
        assert overlaps(scene) == []
    named = [item for item in marks(tier) if getattr(item, "words", "").startswith(kind)]
    assert named and all(abs(item.y - line) < 70.0 and 0 <= item.y <= 100.0 for item in named)  # type: ignore[union-attr]
    assert text_width_mm(named[0].words, 3.2) > 0  # type: ignore[union-attr]


def test_rows_of_one_kind_are_told_apart() -> None:
    """Two rows of swags, and two of strings, have different lines, on the strip to wrap and on the strip to prick through."""
    tier = tier_of("round", ("swag", "side", 14.0), ("swag", "side", 22.0), ("string", "side", 14.0), ("string", "side", 22.0))
    for prick in (False, True):
        assert len({row_style(tier, row, prick) for row in tier.rows}) == 4


@pytest.mark.parametrize(
    "shape, words", [("square", "corner"), ("hexagon", "corner"), ("heart", "cleft"), ("heart", "point"), ("petal", "notch"), ("round", "front")]
)
def test_corners_and_the_front_are_marked(shape: str, words: str) -> None:
    """Each with its line where the outline has it."""
    tier = tier_of(shape, ("swag", "side", 14.0))
    texts = " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(marking_strip(tier, HEADING).pdf()))
    assert words in texts
    found = marked(tier)
    assert sorted({float(path.parts[0][1]) for path in found.corners} - {tier.outline.perimeter_mm}) == pytest.approx(sorted(tier.outline.corners_mm))


def test_a_strip_says_how_it_is_used() -> None:
    """Cut, trim, which edge is up, printed side out, non-stick paper between, where it starts and closes."""
    tier = tier_of("square", ("swag", "side", 14.0))
    texts = " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in pypdfium2.PdfDocument(marking_strip(tier, HEADING).pdf()))
    for words in (
        "cut along the outline",
        "this edge up",
        "printed side out",
        "Non-stick paper",
        "starts here",
        "closes here",
        "tab: behind the start",
    ):
        assert words in texts, words
    assert "trim here, lay it on the dashed line of piece 1" in texts and "piece 2 is laid on here" in texts


@pytest.mark.parametrize("width", [190.3, 197.0, 203.4, 210.08])
@pytest.mark.parametrize("units, told", [("metric", "10"), ("us", "1/4")])
def test_the_closing_line_has_its_scale_on_both_sides(units: str, told: str, width: float) -> None:
    """Where a joint stands on the closing line too, the scale lies clear of the rows, and its numbers are written left and right of it."""
    rows = (row_of("swag", "side", 14.0, ()), row_of("shell", "base", 96.0, ()))
    strip = marking_strip(TierDrawn(outline("round", width), 0.0, 105.0, rows=rows), HEADING, "A4", units=units)
    words = [item.words for item in uses(strip.pages[-1].items) if isinstance(item, Text)]
    assert words.count(told) == 2


def test_a_row_with_near_joints_is_named_by_its_kind() -> None:
    """Where the whole name has no room between two joints, the kind alone stands there."""
    rows = tuple(
        replace(row_of(kind, place, line, (), drop=8.0), name=f"{kind} of a long name, in some colour", repeats=24)
        for kind, place, line in (("S scroll", "side", 50.0), ("string", "side", 20.0))
    )
    tier = TierDrawn(outline("round", 230.0), 0.0, 100.0, rows=rows)
    for scene in marking_strip(tier, HEADING).pages:
        assert overlaps(scene) == []
        assert {"S scroll", "String"} <= {item.words for item in uses(scene.items) if isinstance(item, Text)}


def test_a_strip_for_us_readers_has_no_centimetres() -> None:
    """Nor has any other of the sheets that are true to scale; a tip's opening stays in millimetres."""
    strips = [marking_strip(tier_of("petal", ("swag", "side", 14.0)), HEADING, "Letter", prick, "us") for prick in (False, True)]
    words = " ".join(page.get_textpage().get_text_range() for strip in strips for page in pypdfium2.PdfDocument(strip.pdf()))
    assert "3/4 in" in words and not re.search(r"\bcm\b|centimet", words)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_low_strips_lie_below_each_other(paper: str) -> None:
    """A side of 75 cm in three pieces: two of them 60 mm high lie on one page, and none reaches past the frame."""
    landscape, pieces = cut_up(750.0, 60.0, paper)
    assert landscape and [piece.page for piece in pieces] == [0, 0, 1]
    tall = paper_mm(paper, landscape)[1] - 22.0
    assert all(piece.y + 60.0 <= tall for piece in pieces) and pieces[1].y > pieces[0].y + 60.0
    assert [piece.page for piece in cut_up(750.0, 100.0, paper)[1]] == [0, 1, 2]


@pytest.mark.parametrize("height", [20.0, 60.0, 150.0, 164.0, 300.0])
def test_strips_of_every_height_are_whole(height: float) -> None:
    """Upwards and along, the pieces of a tall side show all of it, 12 mm more than once at each join."""
    _, pieces = cut_up(660.0, height, "A4")
    assert max(piece.bottom for piece in pieces) == pytest.approx(height) and max(piece.right for piece in pieces) == pytest.approx(672.0)
    tier = tier_of("round", ("swag", "side", 5.0), height=height)
    for scene in marking_strip(tier, HEADING).pages:
        assert overlaps(scene) == []
