"""An order's sheets, read back from the files: true to scale for every outline, within the margins, with names and bars on every page."""

from __future__ import annotations

import io
import math
import re
from pathlib import Path
from typing import Any

import pdfplumber
import pypdf
import pypdfium2
import pytest

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, parse
from calc.calculators.order_form import order_of
from calc.curves import arc_radius_mm
from calc.drawing.paper.marking import cut_up
from calc.drawing.pdf import MM
from calc.order import Plan, plan
from calc.shapes import SHAPES, TWO_SIZES
from calc.units import Formatter

DEMONSTRATION = {"order": (Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")}
KINDS = (
    "job",
    "bench-sheet",
    "shopping-list",
    "timetable",
    "marking-strip-",
    "marking-strip-prick-",
    "top-template-",
    "stacking-template-",
    "cutter-circles",
    "tip-gauge",
    "practice-",
    "cutting-guide-",
    "tip-chart",
    "hand-out",
    "baking-card",
    "bag-card",
    "delivery-card",
    "box-label",
    "quotation",
)
EDGE = 5 * MM


def texts(shape: str, **changes: str) -> dict[str, str]:
    """One tier of a shape with swags, a string, shells and rosettes, its side measured a little less than the sum."""
    made = {"name": "A supper", "guests": "20", "cutters": "9 cm", "tiers.0.name": "Only tier", "tiers.0.shape": shape, "tiers.0.width": "18 cm"}
    if shape in TWO_SIZES:
        made["tiers.0.length"] = "24 cm"
    rows = (
        ("swag", "side", "petal 11 mm"),
        ("string", "under", "round 1.8 mm"),
        ("shell", "base", "open star 7 mm"),
        ("rosette", "joints", "closed star 5 mm"),
    )
    for at, (kind, place, tip) in enumerate(rows):
        made |= {f"tiers.0.rows.{at}.{name}": text for name, text in zip(("kind", "place", "tip"), (kind, place, tip), strict=True)}
    return made | {name.replace("__", "."): text for name, text in changes.items()}


def planned(inputs: dict[str, str]) -> Plan:
    return plan(order_of(parse(CALCULATORS["order"], inputs)))


def opened(inputs: dict[str, str], name: str, paper: str = "A4") -> pdfplumber.PDF:
    return pdfplumber.open(io.BytesIO(calc.sheet("order", inputs, name, paper)))


def offered(inputs: dict[str, str]) -> list[str]:
    answer = calc.compute("order", inputs)
    assert not answer.problems, answer.problems
    return [sheet["name"] for sheet in answer.sheets]


def test_every_kind_of_sheet_is_offered_by_its_name() -> None:
    names = offered(DEMONSTRATION)
    for kind in KINDS:
        assert any(name.startswith(kind) for name in names), kind
    assert all(any(name.startswith(kind) for kind in KINDS) for name in names)


PAPERS = {"A4": (595.2756, 841.8898), "Letter": (612.0, 792.0)}
TO_SCALE = ("marking-strip", "top-template", "stacking-template", "cutter-circles", "practice-", "tip-chart", "tip-gauge")
FULL_OF_PIPING = ("bench-sheet", "practice-")  # read by the quicker of the readers: their drawings have thousands of paths


@pytest.mark.parametrize("paper, every", [("A4", 1), ("Letter", 4)])
def test_every_page_of_the_demonstration(paper: str, every: int) -> None:
    """Paper, the warning, title, order, day; every letter 5 mm inside the edge; PrintScaling none."""
    size = PAPERS[paper]
    for name in offered(DEMONSTRATION)[1::every]:
        data = calc.sheet("order", DEMONSTRATION, name, paper)
        assert pypdf.PdfReader(io.BytesIO(data)).trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"  # type: ignore[index]
        for page in pypdfium2.PdfDocument(data):
            wide, tall = page.get_size()
            assert sorted((wide, tall)) == pytest.approx(size, abs=0.001), name
            text = page.get_textpage()
            words = text.get_text_range()
            assert "Orchard harvest supper" in words and "16 October 2027" in words, name
            assert ("Print at 100 %" in words) == name.startswith(TO_SCALE), name
            for at in range(text.count_chars()):
                left, bottom, right, top = text.get_charbox(at)
                assert right - left < 0.01 or (left >= EDGE and bottom >= EDGE and right <= wide - EDGE and top <= tall - EDGE), (name, words[at])


@pytest.mark.parametrize("paper", PAPERS)
def test_bars_of_the_demonstration(paper: str) -> None:
    """100 mm both ways on every page that is marked or measured, and on none that is read."""
    for name in offered(DEMONSTRATION)[1:]:
        if name.startswith(FULL_OF_PIPING):
            continue
        for page in opened(DEMONSTRATION, name, paper).pages:
            to_scale = name.startswith(TO_SCALE)
            assert any(r["width"] == pytest.approx(283.4646, abs=0.005) for r in page.rects) == to_scale, name
            assert any(r["height"] == pytest.approx(283.4646, abs=0.005) for r in page.rects) == to_scale, name


@pytest.mark.parametrize("shape, paper", [*((shape, "A4") for shape in SHAPES), ("heart", "Letter")])
def test_strip_is_the_measured_side_with_its_joints_and_arcs(shape: str, paper: str) -> None:
    """Pieces laid line on line: each joint where the outline has it on the scale of the tape, and arcs with their own radius and height all
    the way from 0 to the closing line."""
    perimeter_mm = planned(texts(shape)).tiers[0].perimeter_mm
    inputs = texts(shape, tiers__0__side=f"{perimeter_mm * 0.99:.1f} mm")
    tier = planned(inputs).tiers[0]
    assert tier.side_mm == pytest.approx(round(perimeter_mm * 0.99, 1))
    scale = tier.side_mm / tier.perimeter_mm
    wanted = [s * scale for s in tier.joints.s_mm]
    swag = tier.rows[0]
    _, pieces = cut_up(tier.side_mm, tier.height_mm, paper)
    uprights: set[float] = set()
    covered: list[tuple[float, float]] = []
    with opened(inputs, "marking-strip-only-tier", paper) as document:
        for piece in pieces:
            page = document.pages[piece.page]
            for line in page.lines:
                if abs(line["x0"] - line["x1"]) < 1e-3 and line["bottom"] - line["top"] > 95 * MM:
                    uprights.add(float(line["x0"]) / MM - piece.x + piece.left)
            for curve in page.curves:
                points = [(x / MM - piece.x + piece.left, y / MM - piece.y) for x, y in curve["pts"]]
                for a, b in zip([wanted[-1] - tier.side_mm, *wanted], [*wanted, wanted[0] + tier.side_mm], strict=True):
                    radius = arc_radius_mm(b - a, swag.drop_mm)
                    middle = ((a + b) / 2, swag.line_mm + swag.drop_mm - radius)
                    if all(abs(math.dist(point, middle) - radius) < 0.1 for point in (points[0], points[-1], points[len(points) // 2])):
                        covered.append((points[0][0], points[-1][0]))
    assert any(abs(place - tier.side_mm) <= 0.1 for place in uprights), "the closing line"
    for place in wanted:
        assert any(abs(place - line) <= 0.1 for line in uprights), place
    reached = 0.0
    for start, end in sorted(covered):
        assert start <= reached + 0.1, "nothing hangs here"
        reached = max(reached, end)
    assert reached == pytest.approx(tier.side_mm, abs=0.1)


def test_strip_measured_in_pixels() -> None:
    """A side of 20 cm, at 300 dpi: from the first to the closing edge 2362 pixels, and 100 mm of height 1181."""
    inputs = texts("round", tiers__0__width="6 cm", tiers__0__side="20 cm", tiers__0__height="9.5 cm", tiers__0__crumb="2 mm", tiers__0__final="3 mm")
    page = pypdfium2.PdfDocument(calc.sheet("order", inputs, "marking-strip-only-tier", "A4"))[0]
    image = page.render(scale=300 / 72).to_pil().convert("L")
    assert planned(inputs).tiers[0].height_mm == pytest.approx(100.0)

    def pixels(millimetres: float) -> int:
        return round(millimetres / 25.4 * 300)

    across = pixels(26.0 + 60.0)
    dark = [x for x in range(pixels(8), pixels(213)) if min(image.getpixel((x, across + d)) for d in (-2, -1, 0, 1, 2)) < 100]
    assert dark[-1] - dark[0] + 1 == pytest.approx(pixels(200.0) + 8, abs=4)  # half of each line: 0.5 mm and 0.9 mm wide
    middle = pixels(10.0 + 40.0)
    rows = [y for y in range(pixels(25), pixels(130)) if min(image.getpixel((middle + d, y)) for d in range(-3, 4)) < 100]
    assert rows[-1] - rows[0] + 1 == pytest.approx(pixels(100.0), abs=8)


@pytest.mark.parametrize("shape", SHAPES)
def test_template_is_the_finished_outline(shape: str) -> None:
    """All corners of the outline on paper lie as far apart as on the cake, tiles laid together."""
    inputs = texts(shape, tiers__0__width="12 cm", tiers__0__height="8 cm", **({"tiers__0__length": "15 cm"} if shape in TWO_SIZES else {}))
    tier = planned(inputs).tiers[0]
    left, low, right, high = tier.coats.finished.extent_mm
    with opened(inputs, "top-template-only-tier") as document:
        assert len(document.pages) == 1
        shapes = [o for o in (*document.pages[0].curves, *document.pages[0].rects) if o["linewidth"] and abs(float(o["linewidth"]) / MM - 0.5) < 0.01]
        wide = max(float(o["x1"] - o["x0"]) / MM for o in shapes)
        tall = max(float(o["bottom"] - o["top"]) / MM for o in shapes)
    assert (wide, tall) == pytest.approx((right - left, high - low), abs=0.15)


@pytest.mark.parametrize("paper", PAPERS)
def test_bench_sheet_says_what_is_set_and_every_step(paper: str) -> None:
    """One page for a cake of two tiers: marking, every step by its number, each bag once with what goes into it in all."""
    pages = pypdfium2.PdfDocument(calc.sheet("order", DEMONSTRATION, "bench-sheet", paper))
    assert len(pages) == 1
    told = " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())
    cake = planned({**CALCULATORS["order"].unfold(DEMONSTRATION, Answer("order"))})  # type: ignore[misc]
    for step in ("Cutter 7.5 cm, drop 3 cm", "Lower tier: 9 swags, joints 1.2 cm down", "over the swag", "Upper tier: ruched border", "63 shells"):
        assert step in told, step
    for step in cake.steps:
        assert Formatter().mass(step.row.amount.mass_g) in told
    assert told.count("45° to the surface: squeeze hard") == 1, "one tip, two rows, told once"
    for bag in cake.bags.bags:
        assert told.count(f"{bag.tip.name}, {bag.colour}") == 1 and f"{Formatter().mass(bag.mass_g)} in all" in told
    assert set(re.findall(r"(\S+) [\d.]+ mm", told)) == {"petal", "round", "star", "leaf"}, "openings alone are in millimetres"


def test_sheets_stand_in_groups_as_the_work_goes() -> None:
    """Print the job first, in no group; practice last. Files bear the order's name."""
    sheets = calc.compute("order", DEMONSTRATION).sheets
    assert sheets[0]["name"] == "job" and sheets[0]["title"] == "Print the job" and "group" not in sheets[0]
    groups = [sheet["group"] for sheet in sheets[1:]]
    assert list(dict.fromkeys(groups)) == [
        "Buy", "Bake", "Colour and coat", "Mark", "Pipe", "Deliver", "Serve", "Customer", "Practise before"
    ] and groups == sorted(groups, key=groups.index)  # fmt: skip
    assert all(sheet["saved"] == f"orchard-harvest-supper-{sheet['name']}.pdf" for sheet in sheets)
    named = calc.compute("order", DEMONSTRATION | {"name": "Zoë’s 30th"})
    assert named.sheets[0]["saved"] == "zoes-30th-job.pdf" and named.files[0]["saved"] == "zoes-30th-timetable.ics"
    assert calc.compute("order", DEMONSTRATION | {"name": "誕生日"}).sheets[0]["saved"] == "cake-job.pdf"


@pytest.mark.parametrize("paper", PAPERS)
def test_the_job_is_every_sheet_of_the_work(paper: str) -> None:
    """All pages of all sheets but practice and pricking, behind a page that says where each is; bookmarks by group; each page with its own label."""
    reader = pypdf.PdfReader(io.BytesIO(calc.sheet("order", DEMONSTRATION, "job", paper)))
    wanted = [s for s in calc.compute("order", DEMONSTRATION).sheets[1:] if s["group"] != "Practise before" and "-prick-" not in s["name"]]
    counts = [len(pypdfium2.PdfDocument(calc.sheet("order", DEMONSTRATION, sheet["name"], paper))) for sheet in wanted]
    assert len(reader.pages) == 1 + sum(counts)
    marks: list[Any] = reader.outline  # type: ignore[assignment]
    assert marks[0]["/Title"] == "The job"
    assert [one["/Title"] for one in marks[1:] if not isinstance(one, list)] == list(dict.fromkeys(s["group"] for s in wanted))
    starts = [reader.get_destination_page_number(one) for inner in marks if isinstance(inner, list) for one in inner]
    assert starts == [1 + sum(counts[:i]) for i in range(len(counts))]
    labels = reader.page_labels
    assert labels[0] == "The job, 1" and len(set(labels)) == len(labels)
    contents = reader.pages[0].extract_text()
    for sheet, count, start in zip(wanted, counts, starts, strict=True):
        title = sheet["title"].replace("strip, ", "strip: ").replace("template, ", "template: ").replace("guide, ", "guide: ")
        assert labels[start] == f"{title}, 1"
        pages = f"{start + 1} to {start + count}" if count > 1 else f"{start + 1}"
        assert re.search(rf"{re.escape(title)}\s+{pages}\b", contents), title


def test_shopping_list_has_all_that_the_cake_takes() -> None:
    """Ingredients, sponge, what thins and tints, boards, dowels, box, bags, couplers and tips, on paper as on the page."""
    answer = calc.compute("order", DEMONSTRATION)
    rows = {table["name"]: table["rows"] for table in answer.tables}
    told = " ".join(opened(DEMONSTRATION, "shopping-list").pages[0].extract_text().split())
    named = [row[0] for row in rows["besides"]]
    for part in ("Sponge, round, 20 cm", "Sugar syrup", "Light corn syrup", "Gel or paste colour for russet", "Cake board, 31 cm",
                 "Thin board, 16 cm", "Dowels to cut to 10.5 cm", "Box, 36 cm x 36 cm", "Piping bags", "Couplers", "Tip, leaf 6 mm"):  # fmt: skip
        assert any(name.startswith(part) for name in named) and part in told, part
    assert all(row[0].capitalize() in told for row in rows["shopping"])
    plan_of_it = planned({**CALCULATORS["order"].unfold(DEMONSTRATION, Answer("order"))})  # type: ignore[misc]
    assert dict((row[0], row[1]) for row in rows["besides"])["Dowels to cut to 10.5 cm"] == f"{plan_of_it.supports[0].dowels} and 2 spare"
    assert f"about {Formatter().mass(plan_of_it.tiers[0].coats.sponge_ml * 0.415)} baked" in rows["besides"][0][1]


def test_no_row_is_lost_on_the_strip() -> None:
    """Every row of the side and of the joints is named on a strip."""
    for name, rows in (
        ("lower-tier", ("Swag, petal 11 mm", "Swag, petal 9 mm", "String", "Shell")),
        ("upper-tier", ("Ruched border", "Shell", "Rosette", "Leaf")),
    ):
        words = " ".join(page.extract_text() for page in opened(DEMONSTRATION, f"marking-strip-{name}").pages)
        assert all(row in words for row in rows), (name, words)


def test_scroll_is_drawn_on_its_strip() -> None:
    inputs = texts("round", tiers__0__rows__0__kind="C scroll", tiers__0__rows__1__kind="line", tiers__0__rows__0__tip="round 2 mm")
    tier = planned(inputs).tiers[0]
    with opened(inputs, "marking-strip-only-tier") as document:
        depths = [float(c["bottom"] - c["top"]) / MM for page in document.pages for c in page.curves]
    scroll = tier.rows[0].amount
    tall = scroll.above_mm + scroll.below_mm - tier.rows[0].tip.bead_width_mm
    assert any(depth == pytest.approx(tall, abs=0.3) for depth in depths), (tall, sorted(depths)[-5:])


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_tip_chart_of_the_demonstration_takes_one_page(paper: str) -> None:
    """Every tip has a line to write on under its figure."""
    with pdfplumber.open(io.BytesIO(calc.sheet("order", DEMONSTRATION, "tip-chart", paper))) as document:
        (page,) = document.pages
        figures = [word for word in page.extract_words() if word["text"] == "mm" and word["x0"] > 28]
        lines = [line for line in page.lines if line["top"] == line["bottom"] and 45 < line["x1"] - line["x0"] < 100]
    assert len(lines) > 30
    for word in figures[:-2]:
        assert any(line["x0"] < word["x0"] < line["x1"] and 0 < line["top"] - word["bottom"] < 34 for line in lines), word


def test_a_day_of_the_timetable_is_drawn_whole_where_a_page_holds_it() -> None:
    """Friday on the second page, Saturday on the third, each at full size."""
    with pdfplumber.open(io.BytesIO(calc.sheet("order", DEMONSTRATION, "timetable", "A4"))) as document:
        texts = [page.extract_text() for page in document.pages]
        assert [("Friday 15 October" in text, "Saturday 16 October" in text) for text in texts] == [(False, False), (True, False), (False, True)]
        sizes = {round(c["size"], 1) for page in document.pages[1:] for c in page.chars if page.height * 0.55 < c["top"] < page.height * 0.7}
    assert len(sizes) == 1 and min(sizes) > 10.0


def test_tips_page_prints_its_chart() -> None:
    names = [sheet["name"] for sheet in calc.compute("tips", {"family": "petal"}).sheets]
    assert names == ["tip-chart", "tip-gauge"]
    words = pdfplumber.open(io.BytesIO(calc.sheet("tips", {"family": "petal"}, "tip-chart", "Letter"))).pages[0].extract_text()
    assert "11 mm" in words and "on the line" in words
    with pytest.raises(KeyError):
        calc.sheet("tips", {}, "poster", "A4")
