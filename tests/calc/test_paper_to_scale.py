"""Sheets that are true to scale, measured on their pages at 300 dpi: the gauge, circles, templates and a strip; and what stands on them."""

from __future__ import annotations

import io
import math
import shutil
import subprocess
from collections.abc import Iterable
from itertools import pairwise
from pathlib import Path as FilePath

import pdfplumber
import pypdfium2
import pypdfium2.raw as pdfium_c
import pytest
from PIL import Image

import calc
from calc.curves import arc_radius_mm
from calc.drawing.faces import text_width_mm
from calc.drawing.paper import (
    PAPERS,
    CutterCircle,
    Heading,
    cutter_circles,
    marking_strip,
    stacking_template,
    tip_gauge,
    top_template,
)
from calc.drawing.paper.gauge import ROUND_MM, SLOT_MM
from calc.drawing.paper.sheet import SMALLEST_MM, fit_lines, fit_text
from calc.drawing.pdf import MM
from calc.drawing.tiers import TierDrawn
from calc.rows.placement import PlacedRow
from calc.shapes import SHAPES, TWO_SIZES, Outline, outline
from calc.stack import Body, supports
from calc.tips import PETAL_THICK, TIPS, Tip
from tests.calc.paper_overlaps import overlaps, smallest_text_mm

HEADING = Heading("Orchard harvest supper", "Saturday 16 October 2027, 18:00")
DPI = 300
DEMONSTRATION = {"order": (FilePath(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")}


def rendered(data: bytes, tmp_path: FilePath, page: int = 1) -> Image.Image:
    """A page at 300 dpi in grey: by poppler where it is installed, else by PDFium."""
    if shutil.which("pdftoppm"):
        (tmp_path / "sheet.pdf").write_bytes(data)
        command = ["pdftoppm", "-r", str(DPI), "-gray", "-f", str(page), "-l", str(page), "-singlefile", "sheet.pdf", "page"]
        subprocess.run(command, cwd=tmp_path, check=True, timeout=120)
        return Image.open(tmp_path / "page.pgm").convert("L")
    return pypdfium2.PdfDocument(data)[page - 1].render(scale=DPI / 72).to_pil().convert("L")


def dark_runs_mm(image: Image.Image, y_mm: float, from_mm: float = 0.0, to_mm: float = 1e9) -> list[tuple[float, float]]:
    """Where a level line through a page is dark: from and to, to a part of a pixel by the grey of their edges [mm]."""
    y = round(y_mm / 25.4 * DPI)
    start, end = round(from_mm / 25.4 * DPI), min(image.width, round(min(to_mm, 1e4) / 25.4 * DPI))
    ink = [0.0, *(1 - image.getpixel((x, y)) / 255 for x in range(start, end)), 0.0]  # type: ignore[operator]
    runs, at = [], 1
    while at < len(ink) - 1:
        if ink[at] < 0.05:
            at += 1
            continue
        first = at
        while ink[at] >= 0.05:
            at += 1
        dark = ink[first:at]
        whole = math.fsum(dark)
        if max(dark) > 0.5:
            left = (start + first - 1 + (1 - dark[0])) * 25.4 / DPI
            runs.append((left, left + whole * 25.4 / DPI))
    return runs


def qpdf_is_content(data: bytes, tmp_path: FilePath) -> None:
    """qpdf finds nothing wrong, where it is installed."""
    if shutil.which("qpdf"):
        (tmp_path / "checked.pdf").write_bytes(data)
        done = subprocess.run(["qpdf", "--check", "checked.pdf"], cwd=tmp_path, capture_output=True, text=True, timeout=60)
        assert done.returncode == 0, done.stdout + done.stderr


# --- the gauge --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS)
def test_the_gauge_measures_what_it_says(paper: str, tmp_path: FilePath) -> None:
    """Every disc is as wide as the figure under it, and every slot as long, to 0.1 mm at 300 dpi; half a millimetre lies between two."""
    data = tip_gauge(HEADING, paper).pdf()
    qpdf_is_content(data, tmp_path)
    image = rendered(data, tmp_path)
    with pdfplumber.open(io.BytesIO(data)) as document:
        assert len(document.pages) == 1
        shapes = [
            (float(c["x0"]) / MM, float(c["top"]) / MM, float(c["x1"]) / MM, float(c["bottom"]) / MM) for c in document.pages[0].curves if c["fill"]
        ]
        words = [(float(w["x0"] + w["x1"]) / 2 / MM, float(w["top"]) / MM, w["text"]) for w in document.pages[0].extract_words()]
    figures = [(x, y, float(text)) for x, y, text in words if text.replace(".", "", 1).isdigit()]
    measured = []
    for x0, y0, x1, y1 in shapes:
        below = [(abs(x - (x0 + x1) / 2), size) for x, y, size in figures if abs(x - (x0 + x1) / 2) < 1.0 and 0 < y - y1 < 4.0]
        size = min(below)[1]
        if abs((x1 - x0) - (y1 - y0)) < 0.02:  # a disc
            (left, right) = max(dark_runs_mm(image, (y0 + y1) / 2, x0 - 2.0, x1 + 2.0), key=lambda run: run[1] - run[0])
            assert right - left == pytest.approx(size, abs=0.1), size
            measured.append(("disc", size))
        else:
            turned = image.transpose(Image.Transpose.ROTATE_90)  # x of it is y of the page, from the right edge down
            (top, bottom) = max(dark_runs_mm(turned, turned.height / DPI * 25.4 - (x0 + x1) / 2, y0 - 2.0, y1 + 2.0), key=lambda run: run[1] - run[0])
            assert bottom - top == pytest.approx(size, abs=0.1), size
            assert x1 - x0 == pytest.approx(PETAL_THICK * size, abs=0.02)
            measured.append(("slot", size))
    for name, (low, high) in (("disc", ROUND_MM), ("slot", SLOT_MM)):
        assert [size for kind, size in measured if kind == name] == pytest.approx([low + 0.5 * i for i in range(int(2 * (high - low)) + 1)])


def test_the_gauge_fits_the_tips_of_the_table() -> None:
    """It holds every round, star and petal tip that the table has, and its ruler is 100 mm long."""
    for use in TIPS:
        low, high = {"petal": SLOT_MM}.get(use.tip.family, ROUND_MM)
        if use.tip.family in ("round", "open star", "closed star", "petal"):
            assert low <= use.tip.opening_mm <= high, use.tip.name
    with pdfplumber.open(io.BytesIO(tip_gauge(HEADING).pdf())) as document:
        ticks = sorted(float(line["x0"]) / MM for line in document.pages[0].lines if abs(line["x0"] - line["x1"]) < 1e-3)
    assert len(ticks) == 101 and ticks[-1] - ticks[0] == pytest.approx(100.0, abs=0.02)
    assert all(b - a == pytest.approx(1.0, abs=0.02) for a, b in pairwise(ticks))


# --- circles ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS)
def test_circles_are_as_wide_as_they_say(paper: str, tmp_path: FilePath) -> None:
    """Measured across the middle of its line, each circle has its diameter to 0.1 mm, and the marks are a swag apart."""
    sizes = [90.0, 75.0, 61.3, 50.0]
    data = cutter_circles([CutterCircle(size, "a tier", 0.8 * size) for size in sizes], HEADING, paper).pdf()
    qpdf_is_content(data, tmp_path)
    seen, chords = [], []
    with pdfplumber.open(io.BytesIO(data)) as document:
        for number, page in enumerate(document.pages, 1):
            image = rendered(data, tmp_path, number)
            for c in page.curves:
                x0, x1, middle = float(c["x0"]) / MM, float(c["x1"]) / MM, (float(c["top"]) + float(c["bottom"])) / 2 / MM
                runs = dark_runs_mm(image, middle, x0 - 1.0, x1 + 1.0)
                across = (runs[-1][0] + runs[-1][1]) / 2 - (runs[0][0] + runs[0][1]) / 2
                size = min(sizes, key=lambda size: abs(size - across))
                assert across == pytest.approx(size, abs=0.1)
                seen.append(size)
            level = [float(line["x1"] - line["x0"]) / MM for line in page.lines if line["top"] == line["bottom"]]
            chords += [wide for wide in level if 30.0 < wide < 100.0]
    assert sorted(seen) == sorted(sizes) and sorted(chords) == pytest.approx([0.8 * size for size in sorted(sizes)], abs=0.05)


def test_a_circle_wider_than_the_page_is_drawn_where_it_marks() -> None:
    """Of a circle of 40 cm the arc of a swag 15 cm wide, with its own radius; a swag wider than the page has none."""
    drawn = cutter_circles([CutterCircle(400.0, "a tier", 150.0), CutterCircle(900.0, "another", 700.0)], HEADING)
    with pdfplumber.open(io.BytesIO(drawn.pdf())) as document:
        assert len(document.pages) == 1
        (curve,) = (c for c in document.pages[0].curves if c["stroke"])
    start = next(part[1] for part in curve["path"] if part[0] == "m")
    (_, first, second, end), *others = (part for part in curve["path"] if part[0] == "c")
    assert not others and abs(end[0] - start[0]) / MM == pytest.approx(150.0, abs=0.05)
    deepest = (start[1] + 3 * first[1] + 3 * second[1] + end[1]) / 8
    assert arc_radius_mm(150.0, abs(deepest - start[1]) / MM) == pytest.approx(200.0, abs=0.3)


def test_circles_do_not_lie_on_each_other() -> None:
    """However many there are, all are on the pages, none on another, and words on no line."""
    circles = [CutterCircle(10.0 * cm, "lower tier, 9 swags", 9.0 * cm if cm % 2 else 0.0) for cm in range(2, 19)]
    for paper in PAPERS:
        sheet = cutter_circles(circles, HEADING, paper)
        assert [overlaps(scene) for scene in sheet.pages] == [[]] * len(sheet.pages)
        found = []
        with pdfplumber.open(io.BytesIO(sheet.pdf())) as document:
            for page in document.pages:
                here = [((c["x0"] + c["x1"]) / 2, (c["top"] + c["bottom"]) / 2, (c["x1"] - c["x0"]) / 2) for c in page.curves]
                assert all(math.dist(a[:2], b[:2]) > a[2] + b[2] for i, a in enumerate(here) for b in here[i + 1 :])
                found += [round(2 * radius / MM) for _, _, radius in here]
        assert sorted(found) == [10 * cm for cm in range(2, 19)]


def test_circles_of_an_order_and_of_the_swags_page() -> None:
    """Those of its swags, by the cutter that marks them or by their drop; on the page of swags, the usual sizes beside them in the reader's units."""
    assert "cutter-circles" in {sheet["name"] for sheet in calc.compute("order", DEMONSTRATION).sheets}
    words = " ".join(page.extract_text() for page in pdfplumber.open(io.BytesIO(calc.sheet("order", DEMONSTRATION, "cutter-circles", "A4"))).pages)
    assert "7.5 cm" in words and "9 swags" in words
    asked = {"side": "66 cm", "cutter": "9 cm"}
    assert [sheet["name"] for sheet in calc.compute("swags", asked).sheets] == ["cutter-circles"]
    for units, sizes in (("metric", ("5 cm", "12 cm")), ("us", ("2 in", "4 1/2 in"))):
        data = calc.sheet("swags", {**asked, "units": units}, "cutter-circles", "Letter")
        words = " ".join(page.extract_text() for page in pdfplumber.open(io.BytesIO(data)).pages)
        assert all(size in words for size in sizes)
    with pytest.raises(KeyError):
        calc.sheet("swags", asked, "poster", "A4")


# --- templates --------------------------------------------------------------------------------------------------------


def sized(shape: str, width: float) -> Outline:
    return outline(shape, width, width * 1.2 if shape in TWO_SIZES else None)


def in_order(points: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Points in an order that a tenth of a millimetre does not change."""
    return sorted(points, key=lambda point: (round(point[0]), round(point[1])))


@pytest.mark.parametrize("shape", SHAPES)
def test_the_stacking_template_shows_where_the_tier_above_stands(shape: str) -> None:
    """Its outline, centred, and a cross at every dowel, as far from the middle as the supports have it; how many and how long in words."""
    lower, upper = sized(shape, 150.0), sized(shape, 100.0)
    stand = supports([Body(lower, 105.0), Body(upper, 90.0)])[0]
    sheet = stacking_template(lower, upper, stand, HEADING, name="lower tier")
    assert overlaps(sheet.pages[0]) == [] and len(sheet.pages) == 1
    with pdfplumber.open(io.BytesIO(sheet.pdf())) as document:
        page = document.pages[0]
        assert f"{stand.dowels} dowels of 10.5 cm" in page.extract_text()
        outlines = [o for o in (*page.curves, *page.rects) if o["stroke"] and not o["fill"] and o["width"] > 50 * MM]
        (outer,) = (o for o in outlines if abs(o["linewidth"] / MM - 0.5) < 0.02)
        (inner,) = (o for o in outlines if abs(o["linewidth"] / MM - 0.8) < 0.02)
        rings = [c for c in page.curves if c["stroke"] and abs(c["width"] / MM - 8.0) < 0.05]
    left, front, right, back = lower.extent_mm
    at = (outer["x0"] / MM - left, outer["top"] / MM + back)  # the middle of the cake on the page
    for box, top in ((outer, lower), (inner, upper)):
        west, south, east, north = top.extent_mm
        wanted = (at[0] + west, at[1] - north, at[0] + east, at[1] - south)
        assert tuple(float(box[side]) / MM for side in ("x0", "top", "x1", "bottom")) == pytest.approx(wanted, abs=0.1)
    found = in_order(((c["x0"] + c["x1"]) / 2 / MM - at[0], at[1] - (c["top"] + c["bottom"]) / 2 / MM) for c in rings)
    assert [v for point in found for v in point] == pytest.approx([v for point in in_order(stand.dowel_points) for v in point], abs=0.1)
    assert front < back


def test_stacking_templates_of_an_order_and_of_the_supports_page() -> None:
    """One for each tier that carries another, and none for the uppermost."""
    names = [sheet["name"] for sheet in calc.compute("order", DEMONSTRATION).sheets if sheet["name"].startswith("stacking")]
    assert names == ["stacking-template-lower-tier"]
    tiers = {"tiers": "25x10 cm round; 20x10 cm round; 15x10 cm round"}
    assert [sheet["name"] for sheet in calc.compute("supports", tiers).sheets] == ["stacking-template-1", "stacking-template-2"]
    words = pdfplumber.open(io.BytesIO(calc.sheet("supports", tiers, "stacking-template-2", "A4"))).pages[0].extract_text()
    assert "4 dowels of" in words and "tier 2" in words
    with pytest.raises(KeyError):
        calc.sheet("supports", tiers, "stacking-template-3", "A4")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("shape", SHAPES)
def test_words_of_templates_lie_on_no_line(shape: str, paper: str) -> None:
    """Back and front are not struck through, whatever is printed on one page or on many."""
    for width, repeats in ((120.0, 7), (230.0, 8), (310.0, 12), (372.0, 16)):
        top = sized(shape, width)
        sheets = [top_template(TierDrawn(top, 0.0, 80.0, name="lower tier"), repeats, HEADING, paper)]
        stand = supports([Body(top, 105.0), Body(top.scaled(0.7), 90.0)])[0]
        sheets.append(stacking_template(top, top.scaled(0.7), stand, HEADING, paper))
        for sheet in sheets:
            assert [overlaps(scene) for scene in sheet.pages] == [[]] * len(sheet.pages), (width, sheet.name)
            words = " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in pypdfium2.PdfDocument(sheet.pdf()))
            assert "back" in words and "front" in words


@pytest.mark.parametrize("repeats, folds", [(7, 0), (9, 0), (2, 1), (6, 1), (12, 2), (8, 3), (64, 5)])
def test_a_template_has_the_folds_it_tells_of(repeats: int, folds: int) -> None:
    """Folding in half k times makes 2^(k-1) creases across the circle; an odd number of repeats has none, and says so."""
    sheet = top_template(TierDrawn(outline("round", 170.0), 0.0, 80.0), repeats, HEADING)
    with pdfplumber.open(io.BytesIO(sheet.pdf())) as document:
        page = document.pages[0]
        creases = [line for line in page.lines if abs(math.dist((line["x0"], line["top"]), (line["x1"], line["bottom"])) / MM - 170.0) < 0.1]
        words = page.extract_text()
    assert len(creases) == (2 ** (folds - 1) if folds else 0)
    assert ("no folds" in words) == (folds == 0) and ("Paper method" in words) == (folds > 0)
    assert any(f"in half {times}" in words for times in ({1: ("once",), 2: ("twice",)}.get(folds, (f"{folds} times",)))) == (folds > 0)


def test_a_template_measured_at_300_dpi(tmp_path: FilePath) -> None:
    """A round top of 16 cm, across and down, to 0.1 mm."""
    data = top_template(TierDrawn(outline("round", 160.0), 0.0, 80.0), 7, HEADING).pdf()
    qpdf_is_content(data, tmp_path)
    image = rendered(data, tmp_path)
    runs = dark_runs_mm(image, 26.0 + 1.0 + 83.0, 9.0, 185.0)  # 3 mm off the middle, where no cross lies
    across = (sum(runs[-1]) - sum(runs[0])) / 2
    assert across == pytest.approx(2 * math.sqrt(80.0**2 - 3.0**2), abs=0.1)
    turned = image.transpose(Image.Transpose.ROTATE_90)
    runs = dark_runs_mm(turned, turned.height / DPI * 25.4 - (10.0 + 1.0 + 77.0), 24.0, 190.0)
    assert (sum(runs[-1]) - sum(runs[0])) / 2 == pytest.approx(2 * math.sqrt(80.0**2 - 3.0**2), abs=0.1)


def test_a_strip_measured_at_300_dpi(tmp_path: FilePath) -> None:
    """From the start to the closing line of a strip of 21 cm, to 0.1 mm, and each of its joints."""
    row = PlacedRow("swag", Tip("petal", 11.0), "#b9592f", "side", 14.0, 4, None, 27.0)
    data = marking_strip(TierDrawn(outline("round", 210.0 / math.pi), 0.0, 100.0, rows=(row,)), HEADING).pdf()
    qpdf_is_content(data, tmp_path)
    runs = dark_runs_mm(rendered(data, tmp_path), 26.0 + 8.0, 9.0, 221.0)
    middles = [(a + b) / 2 for a, b in runs if b - a > 0.3]
    start, closing = middles[0], middles[-1]
    assert closing - start == pytest.approx(210.0, abs=0.1)


# --- text -------------------------------------------------------------------------------------------------------------


def text_sizes(data: bytes) -> set[float]:
    """The sizes of all text of a document in points, read back by PDFium, turned text too."""
    found = set()
    for page in pypdfium2.PdfDocument(data):
        text = page.get_textpage()
        for at in range(text.count_chars()):
            matrix = pdfium_c.FS_MATRIX()
            if pdfium_c.FPDFText_GetMatrix(text, at, matrix) and chr(pdfium_c.FPDFText_GetUnicode(text, at)).strip():
                found.add(round(pdfium_c.FPDFText_GetFontSize(text, at) * math.hypot(matrix.c, matrix.d), 2))
    return found


@pytest.mark.parametrize("paper, units", [("A4", "metric"), ("Letter", "us")])
def test_no_text_of_an_order_is_under_8_pt(paper: str, units: str) -> None:
    """Read back from every sheet of the order, drawings that are scaled down included."""
    inputs = {**DEMONSTRATION, "units": units}
    for sheet in calc.compute("order", inputs).sheets:
        sizes = text_sizes(calc.sheet("order", inputs, sheet["name"], paper))
        assert sizes and min(sizes) >= 8.0, (sheet["name"], sorted(sizes)[:3])


@pytest.mark.parametrize("slug", ["lesson", "timetable", "price", "tips", "supports", "swags"])
def test_no_text_of_other_sheets_is_under_8_pt(slug: str) -> None:
    """Every sheet that the other calculators offer for their examples."""
    inputs = {"side": "66 cm", "cutter": "9 cm"} if slug == "swags" else {}
    names = [sheet["name"] for sheet in calc.compute(slug, inputs).sheets]
    assert names
    for name in names:
        sizes = text_sizes(calc.sheet(slug, inputs, name, "A4"))
        assert sizes and min(sizes) >= 8.0, (name, sorted(sizes)[:3])


def test_long_names_end_in_an_ellipsis() -> None:
    """A name that does not fit is set in 8 pt at the least and cut off; words under the title break once."""
    name = "A tier with a name that nobody would ever give to a tier of any cake, however large, and then some"
    sheet = marking_strip(TierDrawn(outline("round", 70.0), 0.0, 60.0, name=name), Heading(name * 3, name * 3))
    assert smallest_text_mm(sheet.pages[0]) >= SMALLEST_MM
    assert "…" in pypdfium2.PdfDocument(sheet.pdf())[0].get_textpage().get_text_range()
    words, size = fit_text(name, 7.0, 60.0, "text")
    assert words.endswith("…") and size == SMALLEST_MM and text_width_mm(words, size) <= 60.0
    lines = fit_lines(name * 4, 3.2, 100.0, "text", 2)
    assert len(lines) == 2 and lines[1].endswith("…") and all(text_width_mm(line, 3.2) <= 100.0 for line in lines)
