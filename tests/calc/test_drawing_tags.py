"""What a PDF says of itself and in which order it is read, as another library reads it: title, language, bookmarks, labels, structure tree."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pypdf
import pytest

import calc
from calc.drawing.paper import Heading, Paragraphs, Picture, Table, marking_strip, written_sheet
from calc.drawing.pdf import About, Part, pdf
from calc.drawing.scene import Group, Scene, Text, circle, polygon
from calc.drawing.scene import Path as Line
from calc.drawing.scene import Style as LineStyle
from calc.drawing.tiers import TierDrawn
from calc.shapes import outline

ORDER = {"order": (Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")}
MARKED = re.compile(r"/(\w+) <</MCID (\d+)>> BDC|/Artifact BMC|/Span <<[^>]*>> BDC|EMC")


def read(data: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(data))


def elements(reader: pypdf.PdfReader) -> list[tuple[int, Any]]:
    """Every element of the structure tree with its depth, in reading order."""
    found: list[tuple[int, Any]] = []

    def walk(element: Any, depth: int) -> None:
        found.append((depth, element))
        for kid in element["/K"]:
            inner = kid.get_object()
            if isinstance(inner, dict):
                assert inner["/P"].get_object() == element, "a child names its parent"
                walk(inner, depth + 1)

    root: Any = reader.trailer["/Root"]
    walk(root["/StructTreeRoot"]["/K"][0].get_object(), 0)
    return found


def marked(reader: pypdf.PdfReader) -> list[tuple[int, str, int]]:
    """The marked content of every page in the order it is written: page, role, number."""
    found = []
    for number, page in enumerate(reader.pages):
        contents: Any = page["/Contents"]
        depth = 0
        for match in MARKED.finditer(contents.get_object().get_data().decode("latin-1")):
            depth += -1 if match[0] == "EMC" else 1
            assert depth >= 0
            if match[1]:
                assert depth == 1, "marked content of the tree stands in no other"
                found.append((number, match[1], int(match[2])))
        assert depth == 0
    return found


def a_sheet() -> bytes:
    drawing = Scene("A top", "A round top with its joints", 0, 0, 50, 50, (Line(circle(25, 25, 20), LineStyle(stroke="#000000", width_mm=0.5)),))
    blocks = [
        Table("To buy", ("What", "How much"), (("butter", "900 g"), ("sugar " * 30, "1 kg")), (1,), True),
        Paragraphs("Look out", ("Read every pack, and then read it once more. " * 6, "Ask."), boxed=True),
        Paragraphs("Steps", ("First.", "Then."), numbered=True),
        Picture((drawing,)),
    ]
    return written_sheet("list", "List", blocks, Heading("Harvest supper", "16 October"), under="For the shop.").pdf()


def test_marked_content_and_tree_agree() -> None:
    """Every mark is a child of one element of its own role, and the tree meets the marks in the order in which they are written."""
    for data in (a_sheet(), calc.sheet("order", ORDER, "bench-sheet"), calc.sheet("order", ORDER, "marking-strip-lower-tier")):
        reader = read(data)
        pages = [page.indirect_reference for page in reader.pages]
        in_tree = [
            (pages.index(element.raw_get("/Pg")), str(element["/S"])[1:], int(kid))
            for _, element in elements(reader)
            for kid in element["/K"]
            if isinstance(kid.get_object(), int)
        ]
        assert in_tree == marked(reader) and in_tree
        root: Any = reader.trailer["/Root"]
        numbers = root["/StructTreeRoot"]["/ParentTree"]["/Nums"]
        for at, page in enumerate(reader.pages):
            assert page["/StructParents"] == numbers[2 * at] == at
            owners = numbers[2 * at + 1].get_object()
            for number, owner in enumerate(owners):
                assert number in [kid for kid in owner.get_object()["/K"]]
        assert root["/MarkInfo"]["/Marked"] is not None


def test_body_is_read_before_the_frame() -> None:
    """Title, line under it, then what stands on the page; the order's name, the day and the page number come last, as artifacts."""
    reader = read(a_sheet())
    words = reader.pages[0].extract_text()
    places = [words.index(part) for part in ("List", "For the shop.", "To buy", "butter", "Read every pack", "Then.", "Harvest supper", "1 of 1")]
    assert places == sorted(places)
    roles = [str(element["/S"])[1:] for _, element in elements(reader)]
    assert roles[:5] == ["Document", "Sect", "H1", "P", "H2"]
    assert roles.count("Table") == 1 and roles.count("TR") == 3 and roles.count("TH") == 2 and roles.count("TD") == 4
    contents: Any = reader.pages[0]["/Contents"]
    frame = contents.get_object().get_data().decode("latin-1").rsplit("/Artifact BMC", 1)[1]
    assert "MCID" not in frame and frame.count(" Tj") >= 3


def test_words_at_the_ends_of_lines_stay_apart() -> None:
    """A paragraph over several lines is one element, and its words don't run into each other."""
    text = "Read every pack, and then read it once more."
    words = " ".join(read(a_sheet()).pages[0].extract_text().split())
    assert words.count(text) == 6


def test_a_table_runs_on_as_a_table_with_its_heads() -> None:
    rows = tuple((f"ingredient {i}", f"{i} g") for i in range(90))
    reader = read(written_sheet("list", "List", [Table("All", ("What", "How much"), rows, (1,))]).pdf())
    roles = [str(element["/S"])[1:] for _, element in elements(reader)]
    assert len(reader.pages) == roles.count("Table") == 3
    assert roles.count("TH") == 6 and roles.count("TD") == 180 and roles.count("H1") == 1
    assert all(str(element["/A"]["/Scope"]) == "/Column" for _, element in elements(reader) if element["/S"] == "/TH")


def test_every_figure_says_what_it_shows() -> None:
    """Drawings at full size say their words, pictures the description of their scene."""
    strip = read(marking_strip(TierDrawn(outline("round", 200.0), 0.0, 100.0, name="Lower")).pdf())
    figures = [element for _, element in elements(strip) if element["/S"] == "/Figure"]
    assert len(figures) == len(strip.pages) == 3
    assert all(str(figure["/Alt"]).startswith(f"Marking strip: Lower, page {i} of 3") for i, figure in enumerate(figures, 1))
    assert "closes here" in str(figures[-1]["/Alt"])
    picture = next(element for _, element in elements(read(a_sheet())) if element["/S"] == "/Figure")
    assert picture["/Alt"] == "A round top with its joints"


def test_figures_that_are_marked_as_such_keep_their_box() -> None:
    square = Line(polygon([(10, 10), (30, 10), (30, 40), (10, 40)]), LineStyle(fill="#000000"))
    reader = read(pdf([Scene("Sheet", "", 0, 0, 100, 100, (Group((square,), clip=(10, 10, 20, 30), tag="Figure", alt="a block"),))]))
    figure: Any = next(element for _, element in elements(reader) if element["/S"] == "/Figure")
    assert [float(v) for v in figure["/A"]["/BBox"]] == pytest.approx([v * 72 / 25.4 for v in (10, 60, 30, 90)], abs=0.01)


def headed(words: str) -> Scene:
    return Scene(words, "", 0, 0, 210, 297, (Group((Text(10, 20, words),), tag="H1"), Group((Text(10, 40, f"Under {words}"),), tag="H2")))


def test_parts_are_bookmarked_and_labelled() -> None:
    """A document of several sheets: groups over sheets as bookmarks, each sheet's pages counted from 1 and called by its title."""
    pages = [headed("List"), headed("Strip"), Scene("Strip", "", 0, 0, 210, 297, ()), headed("Bench")]
    reader = read(pdf(pages, About("The job"), (Part("List", 1, "Buy"), Part("Strip", 2, "Mark"), Part("Bench", 1, "Mark"))))
    assert reader.page_labels == ["List, 1", "Strip, 1", "Strip, 2", "Bench, 1"]
    outline_of: Any = reader.outline
    told = [[inner["/Title"] for inner in one] if isinstance(one, list) else one["/Title"] for one in outline_of]
    assert told == ["Buy", ["List"], "Mark", ["Strip", "Bench"]]
    assert [reader.get_destination_page_number(one) for one in (outline_of[0], *outline_of[1], outline_of[2], *outline_of[3])] == [0, 0, 1, 1, 3]
    assert [str(e["/T"]) for _, e in elements(reader) if e["/S"] == "/Sect"] == ["List", "Strip", "Bench"]
    with pytest.raises(ValueError):
        pdf(pages, About("The job"), (Part("List", 1),))


def test_headings_are_bookmarks() -> None:
    outline_of: Any = read(a_sheet()).outline
    assert outline_of[0]["/Title"] == "List" and [one["/Title"] for one in outline_of[1]] == ["To buy", "Look out", "Steps"]


@pytest.mark.parametrize("units, language", [("metric", "en-GB"), ("us", "en-US")])
def test_a_sheet_says_whose_and_what_it_is(units: str, language: str) -> None:
    """Title, author, subject and language, in the catalogue and again as XMP."""
    reader = read(calc.sheet("order", ORDER | {"units": units}, "shopping-list"))
    info = reader.metadata
    assert info is not None and info.title == "Shopping list: Orchard harvest supper" and info.author == "Piping Bench"
    assert info.subject is not None and "Orchard harvest supper" in info.subject and "2027" in info.subject
    root: Any = reader.trailer["/Root"]
    assert root["/Lang"] == language
    told = reader.xmp_metadata
    assert told is not None
    assert told.dc_title == {"x-default": info.title} and told.dc_creator == [info.author] and told.dc_language == [language]
    assert told.dc_description == {"x-default": info.subject}
    assert root["/ViewerPreferences"]["/DisplayDocTitle"] is not None


def test_names_with_marks_of_xml_are_kept() -> None:
    reader = read(pdf([headed("x")], About("Ann & Bo <3", "“Ö” \x07", "a\nb")))
    told = reader.xmp_metadata
    assert told is not None and told.dc_title == {"x-default": "Ann & Bo <3"} and told.dc_creator[0].strip() == "“Ö”"


@pytest.mark.parametrize("calculator, name", [("price", "price"), ("tips", "tip-chart"), ("lesson", "lesson-plan")])
def test_other_sheets_follow_the_units_too(calculator: str, name: str) -> None:
    root: Any = read(calc.sheet(calculator, {"units": "us"}, name)).trailer["/Root"]
    assert root["/Lang"] == "en-US"
