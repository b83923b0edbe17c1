"""What drawings claim, looked at as a reader sees them: which side is lit, where words stand, that what closes round a cake is whole."""

from __future__ import annotations

import io
import itertools
import math
from collections.abc import Sequence

import pdfplumber
import pypdfium2
import pytest

from calc.drawing import hands, unroll
from calc.drawing.bag import fingers
from calc.drawing.motifs import LOOKS
from calc.drawing.motifs.look import PIECES, Look
from calc.drawing.motifs.rosette_look import BEAD_SHARE, coil_at
from calc.drawing.paper import marking_strip
from calc.drawing.paper.marking import cut_up
from calc.drawing.pdf import MM, pdf
from calc.drawing.scene import Item, Path, Scene, Text, Use
from calc.drawing.tiers import TierDrawn, lay
from calc.drawing.views import side_view, top_view
from calc.rows import KINDS, RowSpec
from calc.rows.placement import PlacedRow
from calc.shapes import TWO_SIZES, outline
from calc.tips import Tip

COAT = "#d8a8a0"


def light_of(scene: Scene, places: Sequence[tuple[float, float]], around_mm: float = 2.0) -> list[float]:
    """How light the drawing is at some places [mm], from 0 for black to 255: the mean of the pixels round each."""
    dots = 4.0  # to a millimetre
    page = pypdfium2.PdfDocument(pdf((scene,)))[0]
    picture = page.render(scale=dots / MM).to_pil().convert("L")
    found = []
    for x, y in places:
        column, line, half = ((x - scene.x_mm) * dots, (y - scene.y_mm) * dots, around_mm * dots)
        box = picture.crop((int(column - half), int(line - half), int(column + half), int(line + half)))
        values = [value for value, count in enumerate(box.histogram()) for _ in range(count)]
        found.append(math.fsum(values) / len(values))
    return found


@pytest.mark.parametrize("shape", ["round", "oval"])
def test_a_side_is_lit_from_the_left_and_darker_towards_its_edges(shape: str) -> None:
    tier = TierDrawn(outline(shape, 200.0, 240.0 if shape in TWO_SIZES else None), 0.0, 100.0, COAT)
    left, quarter, middle, three_quarters, right = light_of(side_view((tier,), 260.0), [(x, -50.0) for x in (-94.0, -50.0, 0.0, 50.0, 94.0)])
    assert quarter > three_quarters + 4 and left > right + 4
    assert quarter > left and middle > right and middle > left


def test_a_top_is_lit_from_the_upper_left() -> None:
    tier = TierDrawn(outline("round", 200.0), 0.0, 100.0, COAT)
    upper_left, lower_right = light_of(top_view((tier,), 260.0), [(-50.0, -50.0), (50.0, 50.0)])
    assert upper_left > lower_right + 4


def test_a_side_stands_on_its_shadow() -> None:
    """The foot of a tier is darker than its middle, and the rim lighter."""
    tier = TierDrawn(outline("round", 200.0), 0.0, 100.0, COAT)
    rim, middle, foot = light_of(side_view((tier,), 260.0), [(0.0, -98.9), (0.0, -50.0), (0.0, -2.0)], 0.4)
    assert rim > middle > foot


@pytest.mark.parametrize("face", ["text", "bold", "display"])
@pytest.mark.parametrize("turn", [0.0, -90.0])
def test_words_stand_on_paper_where_their_anchor_says(face: str, turn: float) -> None:
    """Read back with pdfplumber: words that begin, stand in the middle or end at the same point."""
    anchors = ("start", "middle", "end")
    items = tuple(Text(100.0, 100.0, "HHHHHHHH", 6.0, anchor, face, turn_deg=turn) for anchor in anchors)
    with pdfplumber.open(io.BytesIO(pdf((Scene("words", "words", 0, 0, 200, 200, items),)))) as document:
        chars = document.pages[0].chars
    assert len(chars) == 24
    for number, at in enumerate((0.0, 0.5, 1.0)):
        word = chars[8 * number : 8 * number + 8]
        if turn:  # turned to run upwards: it begins below
            low, high = max(c["bottom"] for c in word) / MM, min(c["top"] for c in word) / MM
        else:
            low, high = min(c["x0"] for c in word) / MM, max(c["x1"] for c in word) / MM
        assert abs(high - low) > 20
        assert low + at * (high - low) == pytest.approx(100.0, abs=0.3)


def test_a_sheet_s_heading_ends_at_the_margin_and_its_title_begins_there() -> None:
    from calc.drawing.paper import Heading, practice_lines

    with pdfplumber.open(io.BytesIO(practice_lines(Heading("Orchard supper", "16 October 2027")).pdf())) as document:
        words = document.pages[0].extract_words(keep_blank_chars=True)
        width = document.pages[0].width / MM
    ends = {word["text"].strip(): (word["x0"] / MM, word["x1"] / MM) for word in words}
    assert ends["Orchard supper"][1] == pytest.approx(width - 10, abs=0.5)
    assert ends["16 October 2027"][1] == pytest.approx(width - 10, abs=0.5)
    assert next(start for text, (start, _) in ends.items() if text.startswith("Practice")) == pytest.approx(10, abs=0.6)


def arcs_of(items: Sequence[Item], swag_mm: float) -> list[tuple[float, float]]:
    """From and to of every curve that hangs over a whole swag."""
    found = []
    for item in items:
        if isinstance(item, Path) and item.parts[-1][0] in ("C", "S", "L"):
            xs = [float(part[-2]) for part in item.parts if len(part) > 2]
            ys = [float(part[-1]) for part in item.parts if len(part) > 2]
            if max(ys) - min(ys) > 20 and abs(max(xs) - min(xs) - swag_mm) < 0.5:
                found.append((min(xs), max(xs)))
    return sorted(found)


@pytest.mark.parametrize("repeats", [5, 8])
def test_swags_close_round_the_side_and_the_last_is_whole(repeats: int) -> None:
    """On the side laid flat, one arc hangs from each joint to the next, and the last one ends where the first began."""
    row = PlacedRow("swag", Tip("petal", 11.0), COAT, "side", 14.0, repeats, None, 27.0)
    tier = TierDrawn(outline("round", 210.0), 0.0, 100.0, COAT, (row,))
    whole = tier.outline.perimeter_mm
    arcs = arcs_of(unroll.marks(tier, bands=False, words=False), whole / repeats)
    drawn = sorted({(round(start, 2), round(end, 2)) for start, end in arcs})  # a line and the pale one under it are one
    assert drawn == [(round(whole * j / repeats, 2), round(whole * (j + 1) / repeats, 2)) for j in range(repeats)]


@pytest.mark.parametrize("repeats", [5, 8])
@pytest.mark.parametrize("kind", ["swag", "ruched swag", "ruffled swag", "string"])
def test_the_last_piece_piped_on_a_side_is_as_the_first(kind: str, repeats: int) -> None:
    """What is drawn from one joint to the next is drawn from every one to its next, up to the closing line."""
    tip = Tip("round", 2.0) if kind == "string" else Tip("petal", 9.0)
    tier = TierDrawn(outline("round", 210.0), 0.0, 100.0, COAT)
    drawn = unroll.piped(tier, PlacedRow(kind, tip, COAT, "side", 14.0, repeats, None, 27.0)).items
    pitch = tier.outline.perimeter_mm / repeats
    swags = [0] * repeats
    for item in drawn:
        assert isinstance(item, (Path, Use))
        xs = [item.matrix[4]] if isinstance(item, Use) else [float(part[-2]) for part in item.parts if len(part) > 2]
        swags[int((min(xs) + max(xs)) / 2 / pitch)] += 1
    assert swags[0] > 0 and len(set(swags)) == 1


def test_the_last_swag_is_whole_on_the_pages_of_a_strip() -> None:
    """Piece by piece, every stretch of the strip is on paper, the last one to the closing line and past it."""
    row = PlacedRow("swag", Tip("petal", 11.0), COAT, "side", 14.0, 8, None, 27.0)
    tier = TierDrawn(outline("round", 210.0), 0.0, 100.0, COAT, (row,))
    whole = tier.outline.perimeter_mm
    _, pieces = cut_up(whole, 100.0, "A4")
    assert pieces[0].left == 0 and pieces[-1].right >= whole + 10
    with pdfplumber.open(io.BytesIO(marking_strip(tier).pdf())) as document:
        assert len(document.pages) == pieces[-1].page + 1
        last = pieces[-1]
        ends = {round((max(x for x, _ in curve["pts"]) / MM - last.x + last.left) / (whole / 8), 2) for curve in document.pages[-1].curves}
    assert 8.0 in ends


# --- the path of the hand -------------------------------------------------------------------------------------------------------


LED = {name: kind for name, kind in KINDS.items() if kind.curve in ("arc", "straight") and type(LOOKS[name]).path is Look.path}


@pytest.mark.parametrize("name", LED)
def test_the_hand_is_drawn_on_the_path_that_is_weighed_and_timed(name: str) -> None:
    """The panel shows one repeat to scale: its strokes are as long as those that the kind declares, and lie over the row."""
    look, tip = LOOKS[name], KINDS[name].begin_tip()
    long = look.repeat_mm or 82.0
    strokes = KINDS[name].strokes(RowSpec(name, tip, run_mm=long, drop_mm=look.drop_mm))
    path = look.path(hands.panel_of(name, tip, "#a4502f")).path
    drawn = math.fsum(math.dist(a, b) for a, b in itertools.pairwise(path))
    assert drawn == pytest.approx(math.fsum(stroke.length_mm for stroke in strokes))
    assert max(y for _, y in path) - min(y for _, y in path) >= look.drop_mm - 1e-6
    assert all(-5 <= x <= 105 for x, _ in path)


def test_most_kinds_that_are_led_are_drawn_so() -> None:
    assert set(LED) == {"swag", "ruffled swag", "ruched swag", "ruched border", "zigzag"}


def test_a_zigzag_is_drawn_as_wide_and_as_often_as_its_hand_moves() -> None:
    tip = Tip("open star", 6)
    movement, advance = KINDS["zigzag"].rocking_mm(tip) or (0.0, 0.0)
    pieces = lay(PlacedRow("zigzag", tip, "#a4502f", line_mm=30.0), 600.0, 100.0).pieces
    assert len(pieces) == round(600 / advance)
    assert 0.9 * movement < pieces[0].across < movement + 2 * tip.bead_width_mm


@pytest.mark.parametrize("kind", ["ruched swag", "ruched border"])
def test_only_a_slot_leaves_a_thin_edge_along_a_ruche(kind: str) -> None:
    """A petal tip leaves a ribbon on its edge, up and down and much thinner than its folds lie apart; a star has no thin end."""
    made = {
        family: {laid.piece for laid in lay(PlacedRow(kind, Tip(family, 9), "#a4502f", "side", 20.0, 6, drop_mm=30.0), 600.0, 100.0).pieces}
        for family in ("petal", "open star")
    }
    assert made == {"petal": {"frilled pleat"}, "open star": {"pleat"}}
    lightest = PIECES["frilled pleat"].draw("#a4502f")[-1]
    ends = [(float(part[-2]), float(part[-1])) for part in lightest.parts]
    assert not lightest.style.fill and 0 < lightest.style.width_mm < 5, "the edge is a line"
    assert ends[0][1] > 40 and ends[-1][1] > 40 and min(y for _, y in ends) < -40 and ends[-1][0] - ends[0][0] > 40


def test_a_rosette_is_one_coil() -> None:
    """Its line goes out from the middle and round it, once at the full width of the row, always the same way."""
    ways = [coil_at(k / 40) for k in range(41)]
    turns, reach = [turn for turn, _ in ways], [radius for _, radius in ways]
    assert turns == sorted(turns) and reach == sorted(reach) and reach[0] == 0
    assert reach[-1] == pytest.approx((100 - BEAD_SHARE) / 2)
    at_the_edge = [turn for turn, radius in ways if radius > reach[-1] - 0.1]
    assert math.tau <= at_the_edge[-1] - at_the_edge[0] < 1.5 * math.tau


def test_a_closed_star_drops_a_flower_and_an_open_one_a_star() -> None:
    made = {family: lay(PlacedRow("star", Tip(family, 8), "#a4502f", count=6), 600.0, 100.0).pieces[0].piece for family in KINDS["star"].families}
    assert made == {"open star": "star", "closed star": "dropped flower"}


def test_the_hand_at_a_string_goes_away_from_the_side_and_back() -> None:
    """The panel of its path is seen from above: it begins and ends at the side, and is farthest from it in between."""
    found = LOOKS["string"].path(hands.panel_of("string", Tip("round", 2), "#a4502f"))
    (_, begins), *between, (_, ends) = found.path
    assert begins == ends and all(y > begins + 10 for _, y in between) and hands.path_seen_from("string") == ", from above"


def test_no_reverse_shell_lies_below_its_surface() -> None:
    floor = 52.0
    for one in LOOKS["reverse shell"].laid_before(hands.panel_of("reverse shell", Tip("open star", 9), "#a4502f"), floor):  # type: ignore[attr-defined]
        lowest = max(one.matrix[3] * float(y) for path in one.motif.items for part in path.parts for y in part[2::2]) + one.matrix[5]
        assert floor - 4 < lowest < floor + 0.6


def test_a_bag_at_right_angles_is_seen_from_its_end() -> None:
    """Wherever the kind says 90°, the panel from the front does not show the bag lying along the side."""
    square = {name for name, kind in KINDS.items() if kind.angle.startswith("90°")}
    assert square == {name for name, look in LOOKS.items() if look.upright}


# --- the hand -----------------------------------------------------------------------------------------------------------------


def test_a_right_hand_closes_round_a_bag_from_above_and_its_thumb_on_the_first_finger() -> None:
    """The bag points to the left: fingers come over its upper edge, the thumb from below, at the end of the bag that is twisted shut."""
    drawn = []
    for path in fingers(lambda u, v: (u, v)):
        assert isinstance(path, Path)
        drawn.append([(float(x), float(y)) for part in path.parts for x, y in zip(part[1::2], part[2::2], strict=True)])
    heel, *rest = drawn
    four, thumb = rest[0:8:2], rest[8]
    assert all(min(y for _, y in finger) < -9.6 and 0 < max(y for _, y in finger) < 9.6 for finger in four), "from behind, and not right round"
    ends = [max(x for x, _ in finger) for finger in four]
    assert ends == sorted(ends)
    first = (min(x for x, _ in four[-1]), max(x for x, _ in four[-1]))
    assert min(x for x, _ in thumb) < first[1] < max(x for x, _ in thumb) and max(y for _, y in thumb) > 9.6
    assert max(y for _, y in heel) > 9.6 and min(y for _, y in heel) > 0
