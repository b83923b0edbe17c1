"""Sheets on paper, read back from the file by other programs: sizes, bars, strips, arcs, margins, words."""

from __future__ import annotations

import dataclasses
import io
import math
import re
from collections.abc import Sequence

import pdfplumber
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.curves import arc_radius_mm
from calc.drawing.paper import (
    PAPERS,
    BenchBag,
    BenchHold,
    BenchStep,
    BenchTier,
    CutterCircle,
    Heading,
    Paragraphs,
    Picture,
    Sheet,
    Table,
    bench_sheet,
    cutter_circles,
    cutting_guide,
    marking_strip,
    paper_mm,
    practice_lines,
    practice_sheet,
    tip_chart,
    tip_gauge,
    top_template,
    written_sheet,
)
from calc.drawing.paper.marking import Piece, cut_up
from calc.drawing.paper.sheet import printable_mm
from calc.drawing.paper.templates import TopLaid, lay_top
from calc.drawing.paper.tiles import tiling_of, trimmed
from calc.drawing.pdf import MM
from calc.drawing.tiers import TierDrawn
from calc.drawing.views import side_view, top_view
from calc.portions import cut_plan
from calc.rows import KINDS
from calc.rows.placement import PlacedRow
from calc.shapes import SHAPES, TWO_SIZES, outline
from calc.tips import Tip

HEADING = Heading("Orchard harvest supper", "Saturday 16 October 2027, 18:00")
RUSSET, CREAM = "#b9592f", "#fff0cf"
ROWS = (
    PlacedRow("swag", Tip("petal", 11.0), RUSSET, "side", 14.0, 8, None, 27.0, cutter_mm=90.0),
    PlacedRow("string", Tip("round", 1.8), CREAM, "side", 14.0, 8, None, 44.0),
    PlacedRow("shell", Tip("open star", 7.0), RUSSET, "base"),
)
LOWER = TierDrawn(outline("round", 660.0 / math.pi), 0.0, 100.0, "#f6e7c9", ROWS, "lower tier")
UPPER = TierDrawn(outline("round", 160.0), 100.0, 100.0, "#f6e7c9", (PlacedRow("ruched border", Tip("petal", 9.0), CREAM, "top edge"),), "upper tier")
STEPS = tuple(BenchStep(i, f"Row {i}, 8 swags", "A", "83 cm", "112 g", "Come from below.", (100.0, -60.0)) for i in range(1, 15))
BAGS = (BenchBag("A", "petal 11 mm", "russet", RUSSET, "1.57 kg", "6 fills"), BenchBag("B", "round 2 mm", "cream", CREAM, "9 g"))
HOLDS = (BenchHold("A", ("45° to the side: touch, squeeze, lift",)), BenchHold("B", ("Level with the joint: let it hang",)))


def bench(paper: str = "A4") -> Sheet:
    """A bench sheet of fourteen steps."""
    marked = (BenchTier("Lower tier", "8 repeats. " * 6), BenchTier("Upper tier", "6 repeats."))
    return bench_sheet(STEPS, BAGS, HOLDS, marked, side_view((LOWER, UPPER), 310.0), HEADING, paper)


def every_sheet(paper: str) -> list[Sheet]:
    """One of each kind of sheet."""
    return [
        marking_strip(LOWER, HEADING, paper),
        marking_strip(LOWER, HEADING, paper, prick=True),
        top_template(LOWER, 8, HEADING, paper),
        practice_sheet(PlacedRow("line", Tip("round", 3.0), CREAM), 0.0, HEADING, paper),
        practice_lines(HEADING, paper),
        cutting_guide(cut_plan(outline("round", 200.0), (25.0, 50.0)), HEADING, paper, "lower tier"),
        bench(paper),
        written_sheet(
            "shopping-list",
            "Shopping list",
            [
                Table("Buttercream", ("What", "How much"), (("Butter", "1.25 kg"),) * 60, (1,), True),
                Paragraphs("Look out", ("Contains milk. " * 30,) * 3, boxed=True),
            ],
            HEADING,
            paper,
        ),
        tip_chart([(Tip("round", 2.0), "for the string"), (Tip("petal", 11.0), ""), (Tip("open star", 9.0), "")], HEADING, paper),
    ]


TO_SCALE = ("marking-strip", "top-template", "practice", "tip-chart", "tip-gauge", "cutter-circles")


def opened(sheet: Sheet) -> pdfplumber.PDF:
    """A sheet read back."""
    return pdfplumber.open(io.BytesIO(sheet.pdf()))


def text_of(sheet: Sheet) -> str:
    """All words of a sheet, read by the quickest of the readers."""
    return "\n".join(pages_of(sheet))


def pages_of(sheet: Sheet) -> list[str]:
    """The words of every page."""
    return [page.get_textpage().get_text_range().replace("\r", "") for page in pypdfium2.PdfDocument(sheet.pdf())]


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_is_paper_with_its_names(paper: str) -> None:
    """Size of the paper, title, order, day and page number; all text 5 mm inside the edge. Bars of 283.46 pt and the warning on pages to scale,
    and on no others."""
    for sheet in every_sheet(paper):
        to_scale = sheet.name.startswith(TO_SCALE)
        with opened(sheet) as document:
            assert len(document.pages) == len(sheet.pages) > 0
            for number, page in enumerate(document.pages, 1):
                sizes = {tuple(round(v * MM, 3) for v in paper_mm(paper, flat)) for flat in (False, True)}
                assert (round(float(page.width), 3), round(float(page.height), 3)) in sizes, sheet.name
                black = [r for r in page.rects if r["fill"] and r["non_stroking_color"] in ((0, 0, 0), (0,), [0, 0, 0])]
                assert any(r["width"] == pytest.approx(283.46, abs=0.01) for r in black) == to_scale, sheet.name
                assert any(r["height"] == pytest.approx(283.46, abs=0.01) for r in black) == to_scale, sheet.name
                words = page.extract_text()
                assert ("Print at 100 %, not “fit to page”." in words) == to_scale, sheet.name
                for wanted in (sheet.title, HEADING.order_name, HEADING.day, f"{number} of {len(sheet.pages)}"):
                    assert wanted in words, (sheet.name, wanted)
                edge = 5 * MM
                outside = [
                    c["text"]
                    for c in page.chars
                    if not (c["x0"] >= edge and c["x1"] <= float(page.width) - edge and c["top"] >= edge and c["bottom"] <= float(page.height) - edge)
                ]
                assert not outside, sheet.name


def uprights_of(sheet: Sheet, pieces: Sequence[Piece], height: float) -> list[set[float]]:
    """For every piece of a strip the places along the side where an upright line runs the height of it."""
    found: list[set[float]] = []
    with opened(sheet) as document:
        for piece in pieces:
            lines = [
                (float(line["x0"]) / MM - piece.x + piece.left, float(line["top"]) / MM, float(line["bottom"]) / MM)
                for line in document.pages[piece.page].lines
                if abs(line["x0"] - line["x1"]) < 1e-3
            ]
            found.append({s for s, top, bottom in lines if abs(top - piece.y) < 0.1 and bottom - top > 0.95 * height})
    return found


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("side", [250.0, 502.7, 660.0, 1234.5, 1885.0])
def test_strip_is_as_long_as_the_measured_side(side: float, paper: str) -> None:
    """Laid trimming line on trimming line, the pieces put the closing line at the measured side, to 0.1 mm; joints lie evenly between."""
    tier = dataclasses.replace(LOWER, outline=outline("round", 200.0))
    sheet = marking_strip(tier, HEADING, paper, side_mm=side)
    _, pieces = cut_up(side, LOWER.height_mm, paper)
    room = printable_mm((sheet.pages[0].width_mm, sheet.pages[0].height_mm))[2]
    assert len(sheet.pages) == pieces[-1].page + 1
    assert pieces[0].left == 0.0 and pieces[-1].right == pytest.approx(side + 12.0)
    assert all(0.5 * room <= piece.right - piece.left <= room + 1e-9 for piece in pieces), "a page that is nearly empty"
    found = uprights_of(sheet, pieces, LOWER.height_mm)
    joints = set().union(*found)
    for place in [side * j / 8 for j in range(9)]:
        assert any(abs(place - joint) < 0.1 for joint in joints), place
    # the trimming lines of two neighbouring pieces are the same line of the strip
    for first, second, ours, theirs in zip(pieces, pieces[1:], found, found[1:], strict=False):
        assert first.right - second.left == pytest.approx(12.0)
        assert all(any(abs(second.left + 6.0 - line) < 0.1 for line in lines) for lines in (ours, theirs))


def arcs_of(sheet: Sheet, pieces: Sequence[Piece], middles: Sequence[tuple[float, float]], radius: float) -> list[tuple[float, float]]:
    """From where to where along the side parts of circles of a radius round some middles run on a strip."""
    found = []
    with opened(sheet) as document:
        for piece in pieces:
            for curve in document.pages[piece.page].curves:
                points = [(x / MM - piece.x + piece.left, y / MM - piece.y) for x, y in curve["pts"]]
                if any(all(math.dist(point, middle) == pytest.approx(radius, abs=0.05) for point in points) for middle in middles):
                    found.append((points[0][0], points[-1][0]))
    return sorted(found)


def check_no_gap(arcs: Sequence[tuple[float, float]], whole: float) -> None:
    """Parts of a curve lie end to end from 0 to the closing line, and none passes it."""
    reached = 0.0
    for start, end in arcs:
        assert start <= reached + 0.1, "nothing hangs here"
        reached = max(reached, end)
    assert reached == pytest.approx(whole, abs=0.05)


def test_strip_for_wrapping_carries_true_arcs() -> None:
    """Arcs with the radius and the middle that their width and drop give hang from joint to joint, whole where no join cuts them."""
    radius = arc_radius_mm(82.5, 27.0)
    _, pieces = cut_up(660.0, 100.0, "A4")
    middles = [(82.5 * (j + 0.5), 14.0 + 27.0 - radius) for j in range(8)]
    arcs = arcs_of(marking_strip(LOWER, HEADING, "A4"), pieces, middles, radius)
    assert sum(end - start == pytest.approx(82.5, abs=0.05) for start, end in arcs) >= 5
    check_no_gap(arcs, 660.0)


def test_strip_says_how_an_error_is_shared_out() -> None:
    """The closing line has a scale and the page says what to do with it."""
    words = text_of(marking_strip(LOWER, HEADING))
    assert "divide by 8" in words and "closes here" in words.replace("\n", " ") or "closing line" in words
    assert "66 cm round" in words


def test_pricking_strip_has_dots_for_its_arcs() -> None:
    """Arcs to prick through are dots 5 mm apart."""
    data = marking_strip(LOWER, HEADING, prick=True).pdf()
    import pypdf

    assert "[0 5] 0 d" in pypdf.PdfReader(io.BytesIO(data)).pages[0]["/Contents"].get_object().get_data().decode()  # type: ignore[union-attr]


@pytest.mark.parametrize("paper", PAPERS)
def test_bars_are_in_the_units_of_the_reader(paper: str) -> None:
    """4 in and no millimetres in US units: 288 pt both ways."""
    row = PlacedRow("line", Tip("round", 3.0), CREAM)
    for sheet in (
        marking_strip(LOWER, HEADING, paper, units="us"),
        top_template(LOWER, 8, HEADING, paper, units="us"),
        practice_sheet(row, 0.0, HEADING, paper, units="us"),
        practice_lines(HEADING, paper, units="us"),
        tip_gauge(HEADING, paper, units="us"),
        cutter_circles([CutterCircle(90.0)], HEADING, paper, units="us"),
        tip_chart([(Tip("round", 2.0), "")], HEADING, paper, units="us"),
    ):
        for page in opened(sheet).pages:
            words = page.extract_text()
            assert "Both bars measure 4 in" in words and "100 mm" not in words, sheet.name
            for way in ("width", "height"):
                assert any(r[way] == pytest.approx(288.0, abs=0.02) for r in page.rects if r["fill"]), (sheet.name, way)
                assert not any(r[way] == pytest.approx(283.46, abs=0.02) for r in page.rects if r["fill"]), (sheet.name, way)


@pytest.mark.parametrize("paper, pages", [("A4", 4), ("Letter", 4)])
def test_a_square_of_36_cm_takes_four_pages(paper: str, pages: int) -> None:
    """The frame leaves so much width that two pages across hold it, with a coat of 6 mm on the sponge too."""
    for width in (360.0, 372.0):
        assert len(top_template(TierDrawn(outline("square", width), 0.0, 80.0), 8, HEADING, paper).pages) == pages


@pytest.mark.parametrize("width", [100.0, 160.0, 210.0, 300.0])
def test_top_template_is_as_wide_as_the_cake(width: float) -> None:
    """The circle measures the finished width across, however many pages it takes."""
    sheet = top_template(TierDrawn(outline("round", width), 0.0, 80.0), 6, HEADING)
    with opened(sheet) as document:
        widest = max(float(c["x1"] - c["x0"]) / MM for page in document.pages for c in page.curves)
    assert widest == pytest.approx(width, abs=0.1)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("width", [150.0, 230.0, 310.0, 430.0, 560.0])
def test_top_template_loses_nothing_between_its_pages(width: float, shape: str, paper: str) -> None:
    """Trimmed and laid together, every part of the top lies on just one of the printed pages, and every page that is named is printed."""
    top = outline(shape, width, width * 1.3 if shape in TWO_SIZES else None)
    sheet = top_template(TierDrawn(top, 0.0, 80.0), 8, HEADING, paper)
    laid = lay_top(top, paper)
    edge, tiling = [(x - laid.box[0], y - laid.box[1]) for x, y in laid.area], laid.tiling(paper)
    assert len(tiling.tiles) == len(sheet.pages)
    x0, y0 = -laid.box[0], -laid.box[1]
    inside = [(x0 + (x - x0) * part, y0 + (y - y0) * part) for x, y in edge for part in (0.3, 0.6, 0.9, 1.0)]
    for x, y in inside:
        across = [i for i in range(len(tiling.across)) if trimmed(tiling.across, i)[0] <= x < trimmed(tiling.across, i)[1]]
        down = [j for j in range(len(tiling.down)) if trimmed(tiling.down, j)[0] <= y < trimmed(tiling.down, j)[1]]
        assert len(across) == len(down) == 1
        assert tiling.page((across[0], down[0])), "a part of the top is on no page"
    _, _, room_w, room_h = printable_mm((sheet.pages[0].width_mm, sheet.pages[0].height_mm))
    for spans, room in ((tiling.across, room_w), (tiling.down, room_h)):
        assert spans[0][0] == 0.0 and all(end - start <= room + 1e-6 for start, end in spans)
        assert all(one[1] - other[0] == pytest.approx(12.0) for one, other in zip(spans, spans[1:], strict=False))
    for number, words in enumerate(pages_of(sheet), 1):
        for other in re.findall(r"lay on [A-Z]+ of page (\d+)", words):
            assert 1 <= int(other) < number
        for other in re.findall(r"page (\d+) is laid on here", words):
            assert number < int(other) <= len(sheet.pages)


@pytest.mark.parametrize("paper", PAPERS)
def test_no_page_of_a_round_top_is_nearly_empty(paper: str) -> None:
    """A round top of 31 cm takes two pages by two, and each shows about a quarter of it."""
    sheet = top_template(TierDrawn(outline("round", 310.0), 0.0, 80.0), 8, HEADING, paper)
    edge = [(x + 156, 156 - y) for x, y in outline("round", 310.0).points(360)]
    tiling = tiling_of(312.0, 312.0, paper, edge)
    assert len(sheet.pages) == len(tiling.tiles) == 4
    for i, j in tiling.tiles:
        (xa, xb), (ya, yb) = trimmed(tiling.across, i), trimmed(tiling.down, j)
        cells = [(x, y) for x in range(1, 312, 3) for y in range(1, 312, 3) if math.hypot(x - 156, y - 156) <= 155]
        assert 0.18 < sum(xa <= x < xb and ya <= y < yb for x, y in cells) / len(cells) < 0.32


def test_a_hexagon_is_turned_where_that_takes_fewer_pages() -> None:
    """Of 50 cm it takes eight pages with its back to the right, and ten with its back up; no number or word is lost by that."""
    shape = outline("hexagon", 500.0)
    assert len(TopLaid(shape).tiling("A4").tiles) == 10 and len(top_template(TierDrawn(shape, 0.0, 80.0), 12, HEADING).pages) == 8
    top = lay_top(shape, "A4")
    corners = [shape.point(s)[:2] for s in shape.corners_mm]
    turned = [top.at(x, y) for x, y in corners]
    crossed = [
        (a[0] * b[1] - a[1] * b[0]) * -(p[0] * q[1] - p[1] * q[0]) for a, b, p, q in zip(corners, corners[1:], turned, turned[1:], strict=False)
    ]
    assert top.turned and all(product > 0 for product in crossed), "turned, not mirrored"
    words = " ".join(pages_of(top_template(TierDrawn(shape, 0.0, 80.0), 12, HEADING))).split()
    assert {str(n) for n in range(1, 13)} <= set(words) and "back" in words and "front" in words
    assert not lay_top(outline("hexagon", 200.0), "A4").turned


def test_a_tile_that_a_top_does_not_reach_is_not_printed() -> None:
    """Beside the point of a large heart there is nothing: eight pages of three by three, and the key shows the other broken."""
    sheet = top_template(TierDrawn(outline("heart", 520.0), 0.0, 80.0), 8, HEADING, "Letter")
    assert len(sheet.pages) == 8
    with opened(sheet) as document:
        for page in document.pages:
            cells = [
                r
                for r in page.rects
                if r["x0"] > page.width - 110
                and r["bottom"] > page.height - 62
                and r["top"] > page.height - 62
                and r["height"] < 20
                and r["width"] < 30
                and r["stroke"]
            ]
            assert len(cells) == 9


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("shape", SHAPES)
def test_pages_of_a_top_are_filled_evenly(shape: str, paper: str) -> None:
    """No page shows less than a third of an even share of the top, by cells of 3 mm."""
    for width in (160.0, 215.0, 250.0, 280.0, 330.0, 372.0, 400.0, 430.0, 490.0):
        top = outline(shape, width, width * 1.2 if shape in TWO_SIZES else None)
        laid = lay_top(top, paper)
        edge, tiling = [(x - laid.box[0], y - laid.box[1]) for x, y in laid.area], laid.tiling(paper)
        if len(tiling.tiles) == 1:
            continue
        held = dict.fromkeys(tiling.tiles, 0.0)
        for x in range(1, int(laid.box[2]) - 1, 5):
            ends = sorted(
                y0 + (x - x0) * (y1 - y0) / (x1 - x0) for (x0, y0), (x1, y1) in zip(edge, (*edge[1:], edge[0]), strict=True) if (x0 > x) != (x1 > x)
            )
            for upper, lower in zip(ends[::2], ends[1::2], strict=True):
                for i, j in held:
                    if trimmed(tiling.across, i)[0] <= x < trimmed(tiling.across, i)[1]:
                        held[i, j] += max(0.0, min(lower, trimmed(tiling.down, j)[1]) - max(upper, trimmed(tiling.down, j)[0]))
        assert min(held.values()) * len(held) / sum(held.values()) > 0.3, (width, held)


def test_top_template_of_every_outline() -> None:
    """Corners and lobes do not trouble it."""
    for shape in SHAPES:
        tier = TierDrawn(outline(shape, 180.0, 240.0 if shape in TWO_SIZES else None), 0.0, 80.0)
        assert len(top_template(tier, 8, HEADING).pages) >= 1


@pytest.mark.parametrize("kind", KINDS)
def test_every_row_has_a_practice_sheet(kind: str) -> None:
    """Three sizes, each with grey, dots and nothing."""
    tips = {"swag": "petal", "ruched swag": "petal", "ruched border": "petal", "string": "round", "leaf": "leaf", "bead": "round"}
    row = PlacedRow(kind, Tip(tips.get(kind, "open star"), 8.0), RUSSET, drop_mm=25.0)
    sheet = practice_sheet(row, 0.0, HEADING)
    words = text_of(sheet)
    assert len(sheet.pages) == 3
    assert all(say in words for say in ("follow the grey", "follow the dots", "from mark to mark", "Large", "As on the cake", "Small"))


def test_practice_swags_have_the_width_and_drop_of_the_cake() -> None:
    """The middle page is the size of the order."""
    sheet = practice_sheet(ROWS[0], 82.5, HEADING)
    words = pages_of(sheet)
    assert "8.2 cm wide, drop 2.7 cm" in words[1] or "8.3 cm wide, drop 2.7 cm" in words[1]
    page = opened(sheet).pages[1]
    dotted = [c for c in page.curves if abs(float(c["x1"] - c["x0"]) / MM - 82.5) < 0.05 and abs(float(c["bottom"] - c["top"]) / MM - 27.0) < 0.1]
    assert dotted


def test_long_words_and_tables_run_on_to_more_pages_and_nothing_is_lost() -> None:
    """Every row of a long table is there, and a cell longer than a page is broken over pages."""
    rows = tuple((f"ingredient {i}", f"{i} g") for i in range(140))
    sheet = written_sheet("list", "List", [Table("All", ("What", "How much"), (*rows, ("word " * 3000, "end")), (1,), True)], HEADING)
    words = text_of(sheet)
    assert len(sheet.pages) > 4
    assert all(f"ingredient {i}" in words for i in range(140))
    assert words.count("word") >= 3000


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.text(max_size=80), st.text(max_size=20)), min_size=1, max_size=6), st.text(max_size=120))
def test_any_words_can_be_printed(rows: list[tuple[str, str]], name: str) -> None:
    """No text a reader types stops a sheet from being made."""
    steps = [BenchStep(i, first, second, first, second, first) for i, (first, second) in enumerate(rows)]
    bags = [BenchBag(first, second, first, RUSSET, first, second) for first, second in rows]
    holds = [BenchHold(first, (second,)) for first, second in rows]
    tiers = [BenchTier(first, second) for first, second in rows]
    for sheet in (
        bench_sheet(steps, bags, holds, tiers, None, Heading(name, name)),
        written_sheet("x", name or "x", [Table(name, ("a", "b"), tuple(rows))], Heading(name)),
    ):
        assert sheet.pdf().startswith(b"%PDF")


def test_bench_sheet_has_every_step_with_its_figures() -> None:
    """What, bag, length and grams of every step; each bag once, and how its tip is held once, however many steps take it up."""
    words = text_of(bench())
    assert all(f"Row {i}, 8 swags" in words for i in range(1, 15))
    assert words.count("112 g") == words.count("83 cm") == words.count("Come from below.") == 14
    assert words.count("touch, squeeze, lift") == words.count("let it hang") == 1
    assert "1.57 kg in all, 6 fills" in words and "9 g in all" in words
    assert "length in all" in words and "weight in all" in words


@pytest.mark.parametrize("paper", PAPERS)
def test_bench_sheet_is_set_in_14_points(paper: str) -> None:
    """Everything but the heads of columns, the numbers on the drawing and the frame; what stands in the drawing keeps clear of itself."""
    with opened(bench(paper)) as document:
        for page in document.pages:
            body = [c for c in page.chars if 60 < c["top"] < page.height - 45]
            small = {c["text"] for c in body if c["size"] < 13.99 and c["fontname"].endswith("Regular")}
            assert not small, small
            assert {round(c["size"], 1) for c in body if c["fontname"].endswith("Regular")} == {14.0}
        numbers = [(c["x0"], c["top"]) for c in document.pages[0].chars if c["non_stroking_color"] in ((1, 1, 1), (1,))]
    assert len(numbers) == 9 + 2 * 5
    places = sorted({round(top, 1) for _, top in numbers})
    assert len(places) == 14 and all(later - earlier > 5 for earlier, later in zip(places, places[1:], strict=False))


def test_tip_chart_is_true_to_size() -> None:
    """A round tip of 10 mm is a disc 10 mm across on paper."""
    with opened(tip_chart([(Tip("round", 10.0), "")], HEADING)) as document:
        sizes = [(float(c["x1"] - c["x0"]) / MM, float(c["bottom"] - c["top"]) / MM) for c in document.pages[0].curves if c["fill"]]
    assert any(w == pytest.approx(10.0, abs=0.05) and h == pytest.approx(10.0, abs=0.05) for w, h in sizes)


def test_bar_measured_in_pixels() -> None:
    """Rendered at 300 dpi the bar is 1181 pixels long, to a pixel."""
    page = pypdfium2.PdfDocument(practice_lines(HEADING).pdf())[0]
    image = page.render(scale=300 / 72).to_pil().convert("L")
    row = round((297.0 - 14.0 + 0.2) / 25.4 * 300)
    dark = [x for x in range(image.width) if image.getpixel((x, row)) < 128]
    runs, start = [], dark[0]
    for a, b in zip(dark, [*dark[1:], dark[-1] + 2], strict=True):
        if b - a > 1:
            runs.append(a - start + 1)
            start = b
    assert max(runs) == pytest.approx(100 / 25.4 * 300, abs=1.5)


def test_pictures_on_paper_keep_their_proportions() -> None:
    """A drawing set beside another is at the same scale, and its scale is said."""
    sheet = written_sheet("x", "X", [Picture((side_view((LOWER, UPPER)), top_view((LOWER, UPPER))))], HEADING)
    assert "drawn at 1 to" in text_of(sheet)


def test_the_same_sheet_twice_is_the_same_file() -> None:
    """Nothing in the file depends on the moment or on what was made before."""
    assert marking_strip(LOWER, HEADING).pdf() == marking_strip(LOWER, HEADING).pdf()


def test_a_seven_tier_set_is_a_small_file() -> None:
    """Strip, template, practice and cutting guide for seven tiers take under 2 MB together."""
    tiers = [dataclasses.replace(LOWER, outline=outline("round", 120.0 + 40 * i), name=f"tier {i}") for i in range(7)]
    size = 0
    for tier in tiers:
        for sheet in (
            marking_strip(tier, HEADING),
            top_template(tier, 8, HEADING),
            practice_sheet(ROWS[0], tier.outline.perimeter_mm / 8, HEADING),
            cutting_guide(cut_plan(tier.outline, (25.0, 50.0)), HEADING, tier_name=tier.name),
        ):
            size += len(sheet.pdf())
    assert size < 2_000_000
