"""The cake from a little above: a true parallel projection, nearer things over farther ones, nothing in the air."""

from __future__ import annotations

import dataclasses
import math
import re
import xml.etree.ElementTree as ET

import pytest

from calc.drawing import tilted, views
from calc.drawing.motifs import motif
from calc.drawing.motifs.laid import joints_mm
from calc.drawing.scene import Group, Item, Path, Use
from calc.drawing.svg import svg
from calc.drawing.tiers import TierDrawn, lay
from calc.rows.placement import PLACES, PlacedRow
from calc.shapes import SHAPES, outline
from calc.tips import Tip
from tests.calc.test_drawing import KINDS, RUSSET, example, row_of, shaped, walk

SIN, COS = math.sin(math.radians(tilted.TILT_DEG)), math.cos(math.radians(tilted.TILT_DEG))
COAT = "#f6e7c9"


def moved(items: tuple[Item, ...], x: float = 0.0, y: float = 0.0) -> list[tuple[Item, float]]:
    """Every path and piece in the order it is drawn, with how far down its groups have moved it; clips and turns do not occur."""
    found: list[tuple[Item, float]] = []
    for item in items:
        if isinstance(item, Group):
            found += moved(item.items, x, y + (item.matrix[5] if item.matrix else 0.0))
        else:
            found.append((item, y))
    return found


def pieces(tiers: tuple[TierDrawn, ...], colour: str = RUSSET) -> list[Use]:
    """The pieces of a colour as they lie in the picture, in the order they are drawn."""
    uses = [item for item in walk(tilted.tilted_view(tiers).items) if isinstance(item, Use)]
    return [use for use in uses if colour in use.motif.key]


def ys(path: Path, dy: float) -> list[float]:
    """The heights of a path's points."""
    return [part[-1] + dy for part in path.parts if len(part) > 1]  # type: ignore[operator]


def test_joints_stand_where_the_projection_puts_them() -> None:
    """x = R sin a and y = down cos t + R cos a sin t, with a piece standing out by half of what it is thick."""
    radius = 105.0
    row = dataclasses.replace(row_of("rosette", "joints"), repeats=24)
    tier = TierDrawn(outline("round", 2 * radius), 0.0, 100.0, COAT, (row,))
    found = {(round(use.matrix[4], 6), round(use.matrix[5], 6)) for use in pieces((tier,))}
    size = lay(row, tier.outline.perimeter_mm, 100.0).pieces[0]
    reach = radius + size.out_mm / 2
    wanted = set()
    for s in joints_mm(row, tier.outline.perimeter_mm):
        angle = s / radius - math.pi
        if math.cos(angle) >= -0.45:
            wanted.add((round(reach * math.sin(angle), 6), round((-100.0 + row.line_mm) * COS + reach * math.cos(angle) * SIN, 6)))
    assert found == wanted
    assert len(found) == 15  # 15 degrees apart, from -105 to 105: what stands out past the edge is seen behind it


def test_the_top_is_an_ellipse_and_heights_are_shortened() -> None:
    """The top of a round tier is sin t as high as it is wide; top and foot are cos t of the height apart."""
    tier = TierDrawn(outline("round", 200.0), 30.0, 80.0, COAT)
    drawn = moved(tilted.tilted_view((tier,)).items)
    top = [(item, dy) for item, dy in drawn if isinstance(item, Path) and item.style.width_mm == 0.8]
    assert len(top) == 1
    heights = ys(*top[0])  # type: ignore[arg-type]
    assert max(heights) - min(heights) == pytest.approx(200.0 * SIN)
    assert (max(heights) + min(heights)) / 2 == pytest.approx(-110.0 * COS)
    side = tilted._body(tier)[0].items[0]
    assert isinstance(side, Path)
    assert (min(ys(side, 0.0)), max(ys(side, 0.0))) == pytest.approx((-80.0 * COS, 100.0 * SIN))


@pytest.mark.parametrize("shape", SHAPES)
def test_the_picture_holds_all_of_the_cake(shape: str) -> None:
    tier = TierDrawn(shaped(shape, 200.0), 0.0, 100.0, COAT, (row_of("shell", "base"), row_of("shell", "top edge")))
    scene = tilted.tilted_view((tier,))
    for use in pieces((tier,)):
        x, y = use.matrix[4], use.matrix[5]
        assert scene.x_mm + 5 < x < scene.x_mm + scene.width_mm - 5
        assert scene.y_mm + 5 < y < scene.y_mm + scene.height_mm - 5


def test_a_border_runs_all_round_the_top_edge() -> None:
    """Shells on the edge are seen in front and at the back; those at the foot only in front and a little round the silhouette."""
    edge = row_of("shell", "top edge", count=60)
    foot = row_of("shell", "base", count=60)
    assert len(pieces((TierDrawn(outline("round", 200.0), 0.0, 100.0, COAT, (edge,)),))) == 60
    assert 30 <= len(pieces((TierDrawn(outline("round", 200.0), 0.0, 100.0, COAT, (foot,)),))) <= 40


def test_nearer_things_are_drawn_over_farther_ones() -> None:
    """The far border, then the upper tier, then the near border; what is past the silhouette before the side that hides it."""
    edge = row_of("shell", "top edge", count=60, line_mm=0.0)
    low = TierDrawn(outline("round", 200.0), 0.0, 100.0, COAT, (edge,), "lower")
    high = TierDrawn(outline("round", 120.0), 100.0, 80.0, COAT, (), "upper")
    scene = tilted.tilted_view((low, high))
    order = [item for item, _ in moved(scene.items)]
    uses = [i for i, item in enumerate(order) if isinstance(item, Use)]
    tops = [i for i, item in enumerate(order) if isinstance(item, Path) and item.style.width_mm == 0.8]
    assert len(uses) == 60 and len(tops) == 2
    middle = (lay(edge, low.outline.perimeter_mm, 100.0).pieces[0].down - 100.0) * COS
    for i, (item, dy) in enumerate(moved(scene.items)):
        if isinstance(item, Use):
            is_far = item.matrix[5] + dy < middle - 5.0
            is_near = item.matrix[5] + dy > middle + 5.0
            assert not is_far or tops[0] < i < tops[1]
            assert not is_near or i > tops[1]


def test_nothing_hangs_in_the_air_beside_a_cake() -> None:
    """A piece of a row on the side is never further out than the side and what it stands out."""
    for shape in SHAPES:
        tier = TierDrawn(shaped(shape, 200.0), 0.0, 100.0, COAT, (row_of("shell", "base"),))
        ring, front = tilted._ring(tier.outline)
        laid = lay(tier.rows[0], tier.outline.perimeter_mm, 100.0).pieces[0]
        reach = laid.out_mm + 1.0
        left, right = min(x for x, _ in ring), max(x for x, _ in ring)
        for use in pieces((tier,)):
            assert left - reach < use.matrix[4] < right + reach, shape
        assert front[0][0] == pytest.approx(left, abs=1.0) and front[-1][0] == pytest.approx(right, abs=1.0)


def test_a_notch_behind_a_nearer_part_is_not_seen() -> None:
    """On a petal tier the inmost places between two petals of the flank lie behind the petal in front; on a round one nothing does."""
    petal = tilted._Round(shaped("petal", 200.0))
    hidden = [s for s in range(0, int(petal.outline.perimeter_mm)) if petal.at(s, 0.0, 0.0).c > 0 and petal.hides(s)]
    assert hidden
    for s in hidden:  # nearer to the eye, at the same place across, the side comes again
        place = petal.at(s, 0.0, 0.0)
        again = [p for k in range(0, int(petal.outline.perimeter_mm)) if abs((p := petal.at(k, 0.0, 0.0)).x - place.x) < 2.0 and p.y > place.y + 0.4]
        assert again
    assert not any(tilted._Round(outline("round", 200.0)).hides(s) for s in range(0, 628, 7))


def test_a_square_shows_two_of_its_sides() -> None:
    """It is turned: two sides are seen, the one to the right darker than the one to the left."""
    tier = TierDrawn(outline("square", 200.0), 0.0, 100.0, COAT)
    _, front = tilted._ring(tier.outline)
    slopes = {round((b1 - b0) / (x1 - x0), 2) for (x0, b0), (x1, b1) in zip(front, front[1:], strict=False) if abs(x1 - x0) > 1.0}
    turn = math.radians(abs(tilted.TURNED_DEG))
    assert {round(math.tan(math.pi / 2 - turn), 2), round(-math.tan(turn), 2)} <= slopes
    levels = [level for _, level in tilted._light(tier.outline)]
    assert levels[0] > levels[-1]


def test_an_ombre_has_no_bands() -> None:
    """Colours that meet run into one another: no two parts that lie side by side differ by a step that is seen."""
    bands = ((0.0, 33.0, "#b9592f"), (33.0, 66.0, "#e0a080"), (66.0, 100.0, "#f6e7c9"))
    parts = tilted._blended(TierDrawn(outline("round", 200.0), 0.0, 100.0, "#f6e7c9", bands=bands))
    assert parts[0][2] == "#b9592f" and parts[-1][2] == "#f6e7c9"
    for (_, high, one), (low, _, two) in zip(parts, parts[1:], strict=False):
        assert high == pytest.approx(low)
        assert max(abs(int(one[i : i + 2], 16) - int(two[i : i + 2], 16)) for i in (1, 3, 5)) <= 14
    stripes = ((10.0, 20.0, "#b9592f"), (40.0, 50.0, "#b9592f"))
    assert tilted._blended(TierDrawn(outline("round", 200.0), 0.0, 100.0, bands=stripes)) == list(stripes)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("kind", KINDS)
def test_every_row_is_drawn(kind: str, shape: str) -> None:
    """Each kind at each place on each outline gives a drawing that is well-formed, has finite numbers and shows the row."""
    bare = tilted.tilted_view((TierDrawn(shaped(shape, 180.0), 0.0, 100.0),))
    least = len(ET.fromstring(svg(bare)).findall(".//{*}path"))
    for place in PLACES:
        row = row_of(kind, place, count=12 if place in ("base", "top") and kind not in ("swag", "ruched swag", "string") else None)
        text = svg(tilted.tilted_view((TierDrawn(shaped(shape, 180.0), 0.0, 100.0, rows=(row,)),)))
        assert not re.search(r"nan|inf(?!o)", text.split("</desc>")[1])
        root = ET.fromstring(text)
        assert len(root.findall(".//{*}use")) + len(root.findall(".//{*}path")) > least + 3, place


def test_a_row_that_only_moves_up_is_drawn_once() -> None:
    """A taller tier moves its rows; it lays none of them again."""
    tilted._row.cache_clear()
    swag = PlacedRow("swag", Tip("petal", 11.0), RUSSET, "side", 14.0, 8, None, 27.0)
    for height in (90.0, 100.0, 110.0):
        tilted.tilted_view((TierDrawn(outline("round", 210.0), 0.0, height, COAT, (swag,)),))
    assert tilted._row.cache_info().misses == 1


def test_it_is_as_wide_as_the_cake_from_the_side() -> None:
    """Lengths across are true: the pieces of both views stand at the same places across."""
    row = row_of("rosette", "joints", repeats=16)
    tier = TierDrawn(outline("round", 200.0), 0.0, 100.0, COAT, (row,))
    front = [item for item in walk(views.side_view((tier,)).items) if isinstance(item, Use)]
    seen = {round(use.matrix[4], 6) for use in pieces((tier,))}
    assert {round(use.matrix[4], 6) for use in front} <= seen
    assert motif("rosette", RUSSET).key in {use.motif.key for use in front}


def test_the_example_cake_is_light() -> None:
    assert len(svg(tilted.tilted_view(example())).encode()) < 200_000


def test_a_cake_without_tiers_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one tier"):
        tilted.tilted_view(())
