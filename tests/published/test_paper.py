"""Paper and PDF against their standards.

ISO 216 (writing paper, A and B series), ISO 32000-1 (Portable Document Format: user space of 1/72 inch, Table 30; PrintScaling, Table 150),
and the definition of the inch. The figures in points follow from those definitions: 25.4 mm to the inch, 72 points to the inch.
"""

from __future__ import annotations

import io

import pypdf
import pytest

from calc.drawing.marks import bar
from calc.drawing.paper import Heading, paper_mm, practice_lines
from calc.drawing.pdf import MM, pdf
from calc.drawing.scene import Scene


@pytest.mark.parametrize(
    ("paper", "millimetres", "points"),
    [
        ("A4", (210.0, 297.0), (595.2755906, 841.8897638)),  # ISO 216: A4
        ("Letter", (215.9, 279.4), (612.0, 792.0)),  # 8.5 x 11 in
    ],
)
def test_paper_sizes(paper: str, millimetres: tuple[float, float], points: tuple[float, float]) -> None:
    """Both papers, in millimetres and in points of the file."""
    assert paper_mm(paper) == millimetres
    assert paper_mm(paper, landscape=True) == millimetres[::-1]
    sheet = practice_lines(Heading("Orchard harvest supper"), paper)
    box = pypdf.PdfReader(io.BytesIO(sheet.pdf())).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(points, abs=1e-3)


@pytest.mark.parametrize(("millimetres", "points"), [(100.0, 283.4645669), (50.0, 141.7322835), (25.4, 72.0)])
def test_points_to_a_length(millimetres: float, points: float) -> None:
    """User space is 1/72 inch (ISO 32000-1, Table 30)."""
    assert millimetres * MM == pytest.approx(points, abs=1e-6)


def test_printing_is_asked_for_at_full_size() -> None:
    """ViewerPreferences PrintScaling None (ISO 32000-1, Table 150), and no UserUnit, which few readers heed."""
    reader = pypdf.PdfReader(io.BytesIO(pdf([Scene("Sheet", "", 0, 0, 210, 297, (bar(10, 10, 100),))])))
    catalogue = reader.trailer["/Root"]
    assert catalogue["/ViewerPreferences"]["/PrintScaling"] == "/None"  # type: ignore[index]
    assert "/UserUnit" not in reader.pages[0]
    assert reader.metadata is not None and reader.metadata.title == "Sheet"


def test_a_sizes_are_halves_of_a_square_metre() -> None:
    """ISO 216: A0 is 1 m2 at 1 : sqrt 2, 841 x 1189 mm; each next is half of it, cut down to whole millimetres; A4 is the fourth."""
    width, height = 1000 * 2**-0.25, 1000 * 2**0.25
    assert (round(width), round(height)) == (841, 1189) and width * height == pytest.approx(1e6)
    sides, named = (841, 1189), {0: (841, 1189)}
    for number in range(1, 6):
        sides = (sides[1] // 2, sides[0])
        named[number] = sides
    assert named[3] == (297, 420) and named[4] == (210, 297) and named[5] == (148, 210)
    assert paper_mm("A4") == tuple(float(side) for side in named[4])
    for number in (3, 4, 5):
        assert named[number][1] / named[number][0] == pytest.approx(2**0.5, rel=0.004)
