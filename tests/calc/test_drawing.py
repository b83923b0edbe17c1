"""Drawings: the projection, every row in every view, words escaped, sizes kept, and the two pens agreeing point by point."""

from __future__ import annotations

import dataclasses
import io
import itertools
import math
import re
import xml.etree.ElementTree as ET

import pypdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf.generic import ContentStream

from calc.curves import arc_radius_mm
from calc.division import dividers_mm
from calc.drawing import figures, hands, motifs, unroll, views
from calc.drawing.faces import broken, face, missing, shown, text_width_mm
from calc.drawing.marks import bar, dimension
from calc.drawing.motifs.laid import joints_mm
from calc.drawing.pdf import MM, pdf
from calc.drawing.scene import Group, Item, Path, Scene, Style, Text, Use, arc, circle, polygon, polyline, rectangle
from calc.drawing.svg import escape, svg
from calc.drawing.tiers import PLACES, TierDrawn, lay
from calc.portions import cut_plan
from calc.rows import KINDS
from calc.rows.placement import PlacedRow
from calc.shapes import SHAPES, TWO_SIZES, Outline, outline
from calc.tips import Tip

RUSSET, CREAM, BLUSH, BAY = "#b9592f", "#fff0cf", "#eab3a2", "#8c9a5b"
TIPS = {
    "swag": Tip("petal", 11.0),
    "ruched swag": Tip("petal", 9.0),
    "ruched border": Tip("petal", 9.0),
    "string": Tip("round", 1.8),
    "leaf": Tip("leaf", 6.0),
    "bead": Tip("round", 5.0),
    "rosette": Tip("closed star", 5.0),
}


def shaped(shape: str, width: float) -> Outline:
    """An outline of any shape; the oval and the rectangle are a fifth longer than wide."""
    return outline(shape, width, width * 1.2 if shape in TWO_SIZES else None)


def row_of(kind: str, place: str = "side", **more: object) -> PlacedRow:
    """A row of a kind with a tip that suits it."""
    given: dict[str, object] = {"line_mm": 14.0, "repeats": 8, "drop_mm": 27.0} | more
    return PlacedRow(kind, TIPS.get(kind, Tip("open star", 7.0)), RUSSET, place, **given)  # type: ignore[arg-type]


def example() -> tuple[TierDrawn, TierDrawn]:
    """The demonstration cake."""
    low = TierDrawn(
        outline("round", 210.0),
        0.0,
        100.0,
        "#f6e7c9",
        (
            PlacedRow("swag", Tip("petal", 11.0), RUSSET, "side", 14.0, 8, None, 27.0),
            PlacedRow("string", Tip("round", 1.8), CREAM, "side", 14.0, 8, None, 44.0),
            PlacedRow("swag", Tip("petal", 9.0), CREAM, "side", 8.5, 8, None, 27.0),
            PlacedRow("shell", Tip("open star", 7.0), RUSSET, "base"),
        ),
        "lower tier",
    )
    high = TierDrawn(
        outline("round", 160.0),
        100.0,
        100.0,
        "#f6e7c9",
        (
            PlacedRow("ruched border", Tip("petal", 9.0), CREAM, "top edge"),
            PlacedRow("shell", Tip("open star", 7.0), RUSSET, "base"),
            PlacedRow("rosette", Tip("closed star", 5.0), BLUSH, "joints", 34.0, 8),
            PlacedRow("leaf", Tip("leaf", 6.0), BAY, "joints", 38.0, 8, per_joint=2),
        ),
        "upper tier",
    )
    return low, high


def walk(items: tuple[Item, ...], m: tuple[float, ...] = (1, 0, 0, 1, 0, 0)) -> list[Item]:
    """Every item of a scene, inside groups too; pieces as they lie in the whole drawing."""
    found: list[Item] = []
    for item in items:
        found.append(item._replace(matrix=_times(item.matrix, m)) if isinstance(item, Use) else item)  # type: ignore[arg-type]
        if isinstance(item, Group):
            found += walk(item.items, _times(item.matrix or (1, 0, 0, 1, 0, 0), m))
    return found


# --- the projection ----------------------------------------------------------------------------------------------------


def test_side_view_is_a_true_projection() -> None:
    """x = R sin(theta), with the row standing out; nothing that has turned past a right angle is drawn."""
    radius = 105.0
    row = dataclasses.replace(row_of("rosette", "joints"), repeats=24)
    tier = TierDrawn(outline("round", 2 * radius), 0.0, 100.0, rows=(row,))
    uses = [item for item in walk(views.side_view((tier,)).items) if isinstance(item, Use)]
    size = lay(row, tier.outline.perimeter_mm, 100.0).pieces[0]
    expected = []
    for s in joints_mm(row, tier.outline.perimeter_mm):
        theta = s / radius - math.pi
        if math.cos(theta) > 0.02:
            expected.append(((radius + size.out_mm / 2) * math.sin(theta), math.hypot(math.cos(theta), size.solid * math.sin(theta))))
    assert len(uses) == len(expected) == 11  # 24 round the cake, 15 degrees apart: -75 to 75 are seen
    for use, (x, narrow) in zip(uses, expected, strict=True):
        assert use.matrix[4] == pytest.approx(x, abs=1e-9)
        assert use.matrix[0] * 100 == pytest.approx(size.along * narrow, abs=1e-9)
        assert use.matrix[5] == pytest.approx(-100.0 + row.line_mm, abs=1e-9)  # heights are to scale


def test_swags_narrow_towards_the_edges() -> None:
    """Folds of a swag stand closer together the nearer the edge they are."""
    tier = TierDrawn(outline("round", 210.0), 0.0, 100.0, rows=(row_of("swag"),))
    folds = [item for item in walk(views.side_view((tier,)).items) if isinstance(item, Path) and item.style.cap == "butt"]
    xs = sorted(part[1] for path in folds[::3] for part in path.parts if part[0] == "L")
    middle = [b - a for a, b in zip(xs, xs[1:], strict=False) if abs(a) < 40]
    edge = [b - a for a, b in zip(xs, xs[1:], strict=False) if abs(a) > 92]
    assert len(middle) > 4 and len(edge) > 4
    assert sum(edge) / len(edge) < 0.6 * sum(middle) / len(middle)


def test_a_flat_front_is_not_narrowed() -> None:
    """On the front of a square the row is as it is on the unrolled side."""
    row = row_of("rosette", "joints", repeats=40)
    tier = TierDrawn(outline("square", 200.0), 0.0, 100.0, rows=(row,))
    uses = [item for item in walk(views.side_view((tier,)).items) if isinstance(item, Use)]
    inner = [use for use in uses if abs(use.matrix[4]) < 95]
    assert len(inner) == 9
    assert all(use.matrix[0] == pytest.approx(use.matrix[3]) for use in inner)
    steps = [b.matrix[4] - a.matrix[4] for a, b in zip(inner, inner[1:], strict=False)]
    assert steps == pytest.approx([20.0] * 8)


def test_top_view_puts_joints_where_the_outline_has_them() -> None:
    """From above the front is below, and a rosette on the edge stands over its joint."""
    row = dataclasses.replace(row_of("rosette", "top edge"), line_mm=0.0, count=None)
    for shape in SHAPES:
        tier = TierDrawn(shaped(shape, 200.0), 0.0, 100.0, rows=(row,))
        uses = [item for item in walk(views.top_view((tier,)).items) if isinstance(item, Use)]
        assert len(uses) == 8
        for use, s in zip(uses, joints_mm(row, tier.outline.perimeter_mm), strict=True):
            x, y, _ = tier.outline.point(s)
            assert math.dist((use.matrix[4], use.matrix[5]), (x, -y)) < 2.5, shape


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("kind", KINDS)
def test_every_row_is_drawn_in_every_view(kind: str, shape: str) -> None:
    """Each kind at each place on each outline gives drawings that are well-formed and have finite numbers."""
    for place in PLACES:
        row = row_of(kind, place, count=12 if place in ("base", "top") and kind not in ("swag", "ruched swag", "string") else None)
        tier = TierDrawn(shaped(shape, 180.0), 0.0, 100.0, rows=(row,))
        drawn = [views.side_view((tier,)), views.top_view((tier,))]
        if shape == "round":
            drawn += [unroll.unrolled(tier), figures.row_scene(row)]
        for scene in drawn:
            text = svg(scene)
            assert not re.search(r"nan|inf(?!o)", text.split("</desc>")[1])
            root = ET.fromstring(text)
            pieces = len(root.findall(".//{*}use")) + len(root.findall(".//{*}path"))
            assert pieces > (8 if scene in drawn[:2] and not (row.on_top and scene is drawn[0]) else 0), (place, scene.title)


@pytest.mark.parametrize("kind", KINDS)
def test_row_is_recognised_by_its_own_piece(kind: str) -> None:
    """No two kinds of row are drawn from the same pieces and strands in the same size."""

    def signature(name: str) -> tuple[object, ...]:
        laid = lay(row_of(name), 660.0, 100.0)
        return (
            tuple(sorted({(p.piece, round(p.along, 3), round(p.across, 3)) for p in laid.pieces[:4]})),
            tuple((s.role, tuple(round(down, 3) for _, down in s.points)) for s in laid.strands[:2]),
            tuple(tuple(round(down, 3) for _, down in one.lower) for one in laid.ribbons[:2]),
        )

    mine = signature(kind)
    assert mine != ((), ())
    assert all(signature(other) != mine for other in KINDS if other != kind)


def test_colours_grow_darker_and_lighter_in_order() -> None:
    """Tones of one colour are in order of light."""

    def light(colour: str) -> float:
        r, g, b = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
        return 0.2126 * r + 0.7152 * g + 0.0722 * b

    for colour in (RUSSET, CREAM, BLUSH, BAY, "#ffffff", "#2f1730"):
        lights = [light(motifs.tone(colour, level / 10)) for level in range(-10, 11)]
        assert all(b >= a - 0.5 for a, b in zip(lights, lights[1:], strict=False)), colour
        assert lights[0] < light(colour) or light(colour) < 30


# --- small drawings ----------------------------------------------------------------------------------------------------


def test_swag_scene_marks_the_cutter_of_the_published_case() -> None:
    """P = 675 mm and D = 75 mm: nine swags 75 mm wide, half circles that drop 37.5 mm, tape 37.5 mm above the joints."""
    scene = figures.swag_scene(75.0, 37.5, 50.0, cutter_mm=75.0, tip=Tip("petal", 11.0))
    words = [item.words for item in walk(scene.items) if isinstance(item, Text)]
    assert {"width 7.5 cm", "drop 3.8 cm", "3.8 cm", "cutter 7.5 cm", "lower edge of the guide tape"} <= set(words)
    tape = [
        item for item in walk(scene.items) if isinstance(item, Path) and item.style.role == "guide" and not item.style.dash and len(item.parts) == 2
    ]
    assert [item.parts[0][2] for item in tape] == [12.5]


def test_swag_scene_shows_the_gap_of_a_cutter_too_narrow() -> None:
    """A cutter narrower than the swag leaves its gap at every joint, and the drawing says so."""
    scene = figures.swag_scene(94.5, 40.0, 50.0, cutter_mm=90.0)
    assert "gap 4.5 mm" in [item.words for item in walk(scene.items) if isinstance(item, Text)]


@pytest.mark.parametrize("repeats", [2, 3, 5, 8, 13, 40])
def test_division_scene_draws_the_chord(repeats: int) -> None:
    """The dividers span exactly the chord between two joints."""
    scene = figures.division_scene(660.0, repeats)
    chord = dividers_mm(660.0, repeats)
    lines = [
        item
        for item in walk(scene.items)
        if isinstance(item, Path) and len(item.parts) == 2 and item.style.role == "line" and item.parts[1][0] == "L"
    ]
    lengths = [math.dist(line.parts[0][1:], line.parts[1][1:]) for line in lines]  # type: ignore[arg-type]
    assert any(length == pytest.approx(chord, abs=1e-9) for length in lengths)


def test_cutting_scene_has_every_slice() -> None:
    """As many slices are drawn as are promised."""
    for shape in SHAPES:
        plan = cut_plan(shaped(shape, 220.0), (25.0, 50.0))
        filled = [item for item in walk(figures.cutting_scene(plan).items) if isinstance(item, Path) and item.style.fill in ("#f9ecd2", "#f3dfba")]
        assert len(filled) == plan.count == len(plan.pieces)


@pytest.mark.parametrize("family", ["round", "open star", "closed star", "petal", "leaf", "ruffle", "basket"])
def test_openings_are_true_to_size(family: str) -> None:
    """The opening is as wide as it is measured."""
    parts = figures.opening_parts(Tip(family, 12.0))
    xs = [float(v) for part in parts if part[0] != "Z" for v in part[-2:-1]]
    ys = [float(v) for part in parts if part[0] != "Z" for v in part[-1:]]
    across = max(ys) - min(ys) if family == "petal" else max(max(xs) - min(xs), max(ys) - min(ys))
    assert across == pytest.approx(12.0, abs=0.45 if family == "ruffle" else 0.01)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_panels_of_the_hand(kind: str) -> None:
    """The angle is the one the words give; a petal tip says which end lies on the cake; the path has a number for each step."""
    tip = TIPS.get(kind, Tip("open star", 7.0))
    panels = [draw(kind, tip, RUSSET) for draw in (hands.front_panel, hands.angle_panel, hands.path_panel, hands.row_panel)]
    angle = [item.words for item in walk(panels[1].items) if isinstance(item, Text)]
    said = re.search(r"\d+°", KINDS[kind].angle)
    assert (said[0] if said else "90°") in angle  # a string leaves the side level, square to it
    assert any("thick end" in words for words in angle) == (tip.family == "petal")
    numbers = [item.words for item in walk(panels[2].items) if isinstance(item, Text)]
    assert numbers == [str(i) for i in range(1, len(hands.STEPS[kind]) + 1)]
    for panel in panels:
        assert not re.search(r"nan|inf(?!o)", svg(panel).split("</desc>")[1])
        assert (panel.width_mm, panel.height_mm) == (hands.WIDE, hands.HIGH)


def test_the_thick_end_lies_on_the_cake() -> None:
    """In the lens the wider end of the opening is the one that touches the side."""
    tip = Tip("petal", 11.0)
    lens = [item for item in walk(hands.angle_panel("swag", tip, RUSSET).items) if isinstance(item, Group) and item.matrix is not None][-1]
    a, b, c, d, e, f = lens.matrix or (1, 0, 0, 1, 0, 0)
    points = [
        (a * x + c * y + e, b * x + d * y + f)
        for part in lens.items[0].parts
        if part[0] != "Z"  # type: ignore[union-attr]
        for x, y in (part[-2:],)
    ]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    near = [y for x, y in points if x < left + (right - left) * 0.3]
    far = [y for x, y in points if x > right - (right - left) * 0.3]
    assert max(near) - min(near) > 1.5 * (max(far) - min(far))


def test_unrolled_joints_and_arcs() -> None:
    """Joints at P j / n, arcs with the radius of their width and drop, on the side and back at the start."""
    low, _ = example()
    whole = low.outline.perimeter_mm
    items = unroll.marks(low)
    upright = sorted(
        {
            round(float(item.parts[0][1]), 6)
            for item in items
            if isinstance(item, Path) and len(item.parts) == 2 and item.parts[0][1] == item.parts[1][1] and item.style.role == "guide"
        }
    )
    assert upright == pytest.approx([whole * j / 8 for j in range(9)], abs=1e-5)
    radius = arc_radius_mm(whole / 8, 27.0)
    arcs = [
        item
        for item in items
        if isinstance(item, Path) and item.style.role == "line" and item.parts[-1][0] in ("C", "S") and item.style.width_mm == 0.5
    ]
    assert len(arcs) == 16
    for item in arcs:
        start = float(item.parts[0][1])
        line = float(item.parts[0][2])
        for part in item.parts[1:]:
            assert math.dist((float(part[-2]), float(part[-1])), (start + whole / 16, line + 27.0 - radius)) == pytest.approx(radius, abs=1e-6)


@given(st.floats(-400, 400), st.floats(0.5, 300), st.floats(-360, 360), st.floats(-360, 360))
def test_arcs_keep_to_their_circle(x: float, radius: float, first: float, last: float) -> None:
    """Every point of the curves lies on the circle to 5 parts in a million."""
    parts = arc(x, 7.0, radius, first, last)
    at = (float(parts[0][1]), float(parts[0][2]))
    for part in parts[1:]:
        p1, p2, p3 = ((float(part[i]), float(part[i + 1])) for i in (1, 3, 5))
        for t in (0.25, 0.5, 0.75):
            u = 1 - t
            px, py = (u**3 * a + 3 * u * u * t * b + 3 * u * t * t * c + t**3 * d for a, b, c, d in zip(at, p1, p2, p3, strict=True))
            assert math.hypot(px - x, py - 7.0) == pytest.approx(radius, rel=6e-6)
        at = p3


# --- the screen --------------------------------------------------------------------------------------------------------


def test_example_cake_is_light() -> None:
    """The whole demonstration cake, ready for a page."""
    assert len(svg(views.side_view(example())).encode()) < 150_000
    assert len(svg(views.top_view(example())).encode()) < 150_000


def test_titles_and_descriptions_are_tied_to_the_drawing() -> None:
    """Whoever cannot see it hears its title and description; ids differ between drawings and are the same each time."""
    first, second = svg(views.side_view(example())), svg(views.top_view(example()))
    for text in (first, second):
        root = ET.fromstring(text)
        ids = [element.attrib["id"] for element in root.iter() if "id" in element.attrib]
        assert len(ids) == len(set(ids))
        assert root.attrib["role"] == "img"
        named = root.attrib["aria-labelledby"].split()
        assert [root[0].attrib["id"], root[1].attrib["id"]] == named
        links = [value[1:] for element in root.iter() for name, value in element.attrib.items() if name.endswith("href")]
        assert set(links) <= set(ids) and links
    assert not set(re.findall(r'id="([^"]+)"', first)) & set(re.findall(r'id="([^"]+)"', second))
    views.side_view.cache_clear()
    assert svg(views.side_view(example())) == first


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=60))
def test_words_stay_words(words: str) -> None:
    """Anything a reader types comes out as the same text, and as nothing else, wherever it stands."""
    row = dataclasses.replace(row_of("shell", "base"), name=words)
    scene = Scene(
        words,
        words,
        0,
        0,
        10,
        10,
        (
            Text(1, 1, words),
            Group((dimension(0, 0, 9, 0, words),), title=words or "x"),
            *views.side_view((TierDrawn(outline("round", 90.0), 0.0, 40.0, rows=(row,), name=words),)).items,
        ),
    )
    root = ET.fromstring(svg(scene))
    kept = "".join(c for c in words if c >= " " and not "\x7f" <= c <= "\x9f" and c not in "\ufffe\uffff" and not "\ud800" <= c <= "\udfff")
    texts = [element.text or "" for element in root.iter() if element.tag.endswith(("}text", "}desc"))]
    assert all(text == kept for text in texts)
    assert {element.tag.split("}")[1] for element in root.iter()} <= {
        "svg",
        "title",
        "desc",
        "defs",
        "g",
        "use",
        "path",
        "text",
        "stop",
        "linearGradient",
        "clipPath",
        "rect",
    }


def test_escape_leaves_no_way_out() -> None:
    """Quotes and brackets are written as entities."""
    assert escape("\"><script>'&\x00") == "&quot;&gt;&lt;script&gt;&#39;&amp;"


# --- paper -------------------------------------------------------------------------------------------------------------

Flat = list[tuple[str, tuple[float, ...]]]


def _times(m: tuple[float, ...], n: tuple[float, ...]) -> tuple[float, ...]:
    a, b, c, d, e, f = m
    g, h, i, j, k, l = n
    return (a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + l)


def _at(m: tuple[float, ...], x: float, y: float) -> tuple[float, float]:
    return m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]


def points_of_svg(text: str) -> Flat:
    """Every painted path of an SVG in the order it is painted, in the drawing's millimetres."""
    root = ET.fromstring(text)
    by_id = {element.attrib["id"]: element for element in root.iter() if "id" in element.attrib}
    found: Flat = []

    def matrix(element: ET.Element) -> tuple[float, ...]:
        inside = re.match(r"matrix\(([^)]*)\)", element.attrib.get("transform", ""))
        return tuple(float(v) for v in inside[1].split()) if inside else (1, 0, 0, 1, 0, 0)

    def visit(element: ET.Element, m: tuple[float, ...]) -> None:
        tag = element.tag.split("}")[1]
        m = _times(matrix(element), m)
        if tag == "use":
            visit(by_id[next(v for k, v in element.attrib.items() if k.endswith("href"))[1:]], m)
        elif tag == "path":
            values: list[float] = []
            for command, numbers in re.findall(r"([MLCSZ])([^MLCSZ]*)", element.attrib["d"]):
                before, values = values, [float(v) for v in numbers.split()]
                if command == "S":  # the first handle mirrors the last one of the curve before it
                    command = "C"
                    values = [2 * before[-2] - before[-4], 2 * before[-1] - before[-3], *values]
                found.append((command, tuple(v for i in range(0, len(values), 2) for v in _at(m, values[i], values[i + 1]))))
        elif tag in ("svg", "g"):
            for child in element:
                visit(child, m)

    visit(root, (1, 0, 0, 1, 0, 0))
    return found


def points_of_pdf(data: bytes, page: int = 0) -> Flat:
    """The same of a page of a PDF, read by pypdf, in millimetres from its upper left corner."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    sheet = reader.pages[page]
    height = float(sheet.mediabox.height)
    found: Flat = []
    parsed: dict[bytes, list[tuple[list[object], bytes]]] = {}

    def run(stream: object, resources: object, m: tuple[float, ...]) -> None:
        stack: list[tuple[float, ...]] = []
        name = stream.get_data()  # type: ignore[attr-defined]
        if name not in parsed:
            parsed[name] = ContentStream(stream, reader).operations
        for operands, operator in parsed[name]:
            values = [float(v) for v in operands if isinstance(v, (int, float))]
            if operator == b"q":
                stack.append(m)
            elif operator == b"Q":
                m = stack.pop()
            elif operator == b"cm":
                m = _times(tuple(values), m)
            elif operator in (b"m", b"l", b"c"):
                places = [_at(m, values[i], values[i + 1]) for i in range(0, len(values), 2)]
                found.append(({b"m": "M", b"l": "L", b"c": "C"}[operator], tuple(v for x, y in places for v in (x / MM, (height - y) / MM))))
            elif operator == b"h":
                found.append(("Z", ()))
            elif operator == b"Do":
                form = resources["/XObject"][operands[0]].get_object()  # type: ignore[index]
                run(form, form["/Resources"], m)

    run(sheet["/Contents"].get_object(), sheet["/Resources"], (1, 0, 0, 1, 0, 0))
    return found


@pytest.mark.parametrize(
    "scene",
    [
        views.side_view(example()),
        views.top_view(example()),
        unroll.unrolled(example()[0]),
        figures.swag_scene(82.5, 27.3, 60.0, cutter_mm=90.0, tip=Tip("petal", 11.0)),
        figures.division_scene(660.0, 8),
        hands.angle_panel("swag", Tip("petal", 11.0), RUSSET),
        hands.front_panel("shell", Tip("open star", 7.0), RUSSET),
        figures.tip_scene(Tip("leaf", 8.0)),
        figures.cutting_scene(cut_plan(outline("round", 200.0), (25.0, 50.0))),
    ],
    ids=lambda scene: scene.title,
)
def test_the_two_pens_agree_point_by_point(scene: Scene) -> None:
    """Every point of every path is where the other pen has it, in the same order; the screen writes large ones to a tenth of a millimetre."""
    screen, paper = points_of_svg(svg(scene)), points_of_pdf(pdf([scene]))
    assert len(screen) == len(paper) > 20
    for (command, ours), (other, theirs) in zip(screen, paper, strict=True):
        assert command == other
        moved = [v + (scene.x_mm if i % 2 == 0 else scene.y_mm) for i, v in enumerate(theirs)]
        assert moved == pytest.approx(ours, abs=0.16)  # SVG mirrors some control points of curves, which adds up three roundings


def test_paper_is_exact() -> None:
    """Lengths in the file are those of the scene to a hundredth of a millimetre."""
    scene = Scene(
        "Sheet",
        "",
        0,
        0,
        210,
        297,
        (
            Path(polyline([(12.34, 20), (112.34, 20)]), Style(stroke="#000000", width_mm=0.3)),
            Path(circle(100, 150, 33.5), Style(stroke="#000000", width_mm=0.3)),
        ),
    )
    points = points_of_pdf(pdf([scene]))
    assert math.dist(points[0][1], points[1][1]) == pytest.approx(100.0, abs=0.001)
    ring = [numbers[-2:] for command, numbers in points[2:] if command in "MC"]
    assert all(math.dist(p, (100, 150)) == pytest.approx(33.5, abs=0.01) for p in ring)


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=40))
def test_no_character_is_lost_on_paper(words: str) -> None:
    """Each character is set from the typeface, or boxed, kept in the searchable text and named at the foot."""
    data = pdf([Scene("Sheet", "", 0, 0, 210, 297, (Text(20, 40, words, 4.0),))])
    text = pypdf.PdfReader(io.BytesIO(data)).pages[0].extract_text()
    lacking = missing(words)
    plain = re.sub(r"\s+", "", "".join(c for c in shown(words) if c not in lacking))
    assert plain in re.sub(r"\s+", "", text) or not plain or lacking
    for c in plain:
        assert c in text
    for c in lacking[:4]:
        assert f"U+{ord(c):04X}" in text
        assert c.encode("utf-16-be").hex() in _content(data)


def _content(data: bytes) -> str:
    return pypdf.PdfReader(io.BytesIO(data)).pages[0]["/Contents"].get_object().get_data().decode()  # type: ignore[union-attr]


def test_typefaces_hold_what_the_site_writes() -> None:
    """Latin-1, Latin Extended-A, dashes, quotes, fractions and the signs the handbook's answers use."""
    for name in ("text", "bold", "display"):
        assert missing("Zoë Łukasz Őri ½ ¼ ¾ × − – — ‘’ “” … ° ² £ € %", name) == ()


def test_embedded_type_is_a_font_other_programs_read() -> None:
    """The cut-down font file holds the outlines used and no others, and pypdf finds it embedded."""
    data = pdf([Scene("Sheet", "", 0, 0, 100, 100, (Text(5, 20, "Éclair", 4.0),))])
    font = next(iter(pypdf.PdfReader(io.BytesIO(data)).pages[0]["/Resources"]["/Font"].values())).get_object()  # type: ignore[index,union-attr]
    inner = font["/DescendantFonts"][0].get_object()
    file = inner["/FontDescriptor"]["/FontFile2"].get_object().get_data()
    assert file[:4] == b"\0\1\0\0" and len(file) < len(face("text").cut(face("text").glyphs.values()))


@given(st.text(alphabet=st.characters(min_codepoint=32, max_codepoint=382), max_size=200), st.floats(8, 120), st.floats(2, 6))
def test_lines_break_within_their_width_and_lose_nothing(words: str, width: float, size: float) -> None:
    """No line is wider than it may be, and the words are all there."""
    lines = broken(words, width, size)
    assert re.sub(r"\s", "", "".join(lines)) == re.sub(r"\s", "", "".join(words.split()))
    assert all(text_width_mm(line, size) <= width or len(line) == 1 for line in lines)


@given(st.integers(2, 15), st.booleans())
def test_bars_are_as_long_as_they_say(tens: int, upright: bool) -> None:
    """The outer edges of a bar are its length apart."""
    whole = next(item for item in bar(5, 7, tens * 10.0, upright).items if isinstance(item, Path))
    xs, ys = [float(p[1]) for p in whole.parts if len(p) > 1], [float(p[2]) for p in whole.parts if len(p) > 1]
    assert (max(ys) - min(ys) if upright else max(xs) - min(xs)) == pytest.approx(tens * 10.0)


def test_clips_and_faint_groups_reach_paper() -> None:
    """A clip cuts on paper as on screen; a faint group is faint as a whole."""
    inner = (Path(rectangle(0, 0, 50, 50), Style(fill="#ff0000")),)
    scene = Scene("Sheet", "", 0, 0, 100, 100, (Group(inner, clip=(10, 10, 20, 20)), Group(inner, opacity=0.4)))
    assert "10 10 20 20 re W n" in _content(pdf([scene]))
    assert 'opacity="0.4"' in svg(scene) and 'clip-path="url(#' in svg(scene)
    page = pypdfium2.PdfDocument(pdf([Scene("Sheet", "", 0, 0, 100, 100, (Group(inner, clip=(10, 10, 20, 20)),))]))[0]
    image = page.render(scale=2).to_pil()
    k = image.width / 100
    assert image.getpixel((int(20 * k), int(20 * k))) == (255, 0, 0) and image.getpixel((int(40 * k), int(40 * k))) == (255, 255, 255)


def test_no_points_make_no_path() -> None:
    assert polyline([]) == polygon([]) == ()
    assert polyline([(1.0, 2.0)]) == (("M", 1.0, 2.0),)
    assert polygon([(0.0, 0.0), (1.0, 0.0)]) == (("M", 0.0, 0.0), ("L", 1.0, 0.0), ("Z",))


def test_the_tail_of_a_rosette_thins_out_to_nothing() -> None:
    """Its two edges come together at its end: a blunt end would show as a dark wedge on the coil."""
    dark = [one for one in motifs.motif("rosette", RUSSET).items if one.style.fill == motifs.tone(RUSSET, -0.70)]
    before, turned = next((a, b) for a, b in itertools.pairwise(dark[-1].parts) if b[0] == "L")
    assert math.dist(before[-2:], turned[1:]) < 2.0  # of 100 that the rosette is across
