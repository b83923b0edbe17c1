"""What the still pictures of hands at work claim is so in what is drawn: who lies on whom, what stands on what, what passes through what.

The numbers are read from the drawn paths, not from the code that draws them.
"""

from __future__ import annotations

import html
import itertools
import math
import re
from collections.abc import Iterator, Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from calc.drawing.motifs import motif
from calc.drawing.scene import GUIDE, Group, Item, Path, Scene, Style, Use
from calc.rows import KINDS
from tools.build.paths import DOCS
from tools.films import compact_svg, shared_parts
from tools.site import (
    handbook_building,
    handbook_cards,
    handbook_figures,
    handbook_hands,
    handbook_pages,
    handbook_panels,
    handbook_scenes,
)

XY = tuple[float, float]


def panels(monkeypatch: pytest.MonkeyPatch, name: str) -> list[Scene]:
    """The pictures of a figure that is a row of them."""
    kept: list[Scene] = []

    def keep(shown: Sequence[tuple[Scene, str]]) -> str:
        kept.extend(scene for scene, _ in shown)
        return ""

    monkeypatch.setattr(handbook_hands, "turning", keep)
    handbook_figures.FIGURES[name]({}, "")
    return kept


def paths(items: Sequence[Item]) -> Iterator[Path]:
    """Every path, in the order they are laid."""
    for item in items:
        if isinstance(item, Path):
            yield item
        elif isinstance(item, Group):
            yield from paths(item.items)


def points(path: Path) -> list[XY]:
    """The points a path goes through, and on its curves some between."""
    made: list[XY] = []
    lever = (0.0, 0.0)
    for letter, *numbers in path.parts:
        at = [(float(numbers[k]), float(numbers[k + 1])) for k in range(0, len(numbers) - 1, 2)]
        if letter in ("C", "S"):
            a = made[-1]
            b, c, d = at if letter == "C" else ((2 * a[0] - lever[0], 2 * a[1] - lever[1]), *at)
            for t in (k / 12 for k in range(1, 13)):
                weights = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t**3)
                x, y = (sum(w * one[i] for w, one in zip(weights, (a, b, c, d), strict=True)) for i in (0, 1))
                made.append((x, y))
            lever = c
        else:
            made += at
            lever = made[-1]
    return made


def box(path: Path) -> tuple[float, float, float, float]:
    """Left, top, right and bottom."""
    xs, ys = zip(*points(path), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def circle_of(path: Path) -> tuple[XY, float]:
    """The middle and the radius of a drawn circle."""
    left, top, right, bottom = box(path)
    assert right - left == pytest.approx(bottom - top, abs=0.05)
    return ((left + right) / 2, (top + bottom) / 2), (right - left) / 2


def filled(scene: Scene, colour: str) -> list[Path]:
    """The paths of one fill."""
    return [path for path in paths(scene.items) if path.style.fill == colour]


def filled_one(scene: Scene, colour: str) -> Path:
    """The one path of a fill."""
    (one,) = filled(scene, colour)
    return one


# --- a line on a line ---------------------------------------------------------------------------------------------------------


def strands(scene: Scene) -> list[Path]:
    """The widest stroke of each line along the curve of the first, in the order they are laid; shadows and what falls from the tip left out."""
    lines = [p for p in paths(scene.items) if p.style.stroke and not p.style.fill and p.style.opacity == 1 and p.style.width_mm > 2]
    begin = points(lines[0])[0]
    return [line for line in lines if points(line)[0] == begin]


def test_each_line_lies_on_the_middle_of_the_last_and_is_finer(monkeypatch: pytest.MonkeyPatch) -> None:
    first, second, third, _ = panels(monkeypatch, "overpiped")
    assert [len(strands(scene)) for scene in (first, second, third)] == [1, 2, 3]
    for scene in (second, third):
        for under, over in itertools.pairwise(strands(scene)):
            assert over.style.width_mm < 0.6 * under.style.width_mm
            below = LineString(points(under))
            assert max(below.distance(Point(p)) for p in points(over)) < 0.15 * under.style.width_mm


def test_the_lines_from_the_side_stack_outwards_each_touching_the_last(monkeypatch: pytest.MonkeyPatch) -> None:
    *_, side = panels(monkeypatch, "overpiped")
    edged = [p for p in paths(side.items) if p.style.width_mm == 0.5 and p.style.fill and len(p.parts) > 4]
    whole = [p for p in edged if box(p)[2] - box(p)[0] == pytest.approx(box(p)[3] - box(p)[1], abs=0.05)]
    rounds = [circle_of(p) for p in whole]
    assert len(rounds) == 3
    for ((x1, y1), r1), ((x2, y2), r2) in itertools.pairwise(rounds):
        assert r2 < 0.65 * r1 and y1 == pytest.approx(y2, abs=0.1)
        assert 0.75 * (r1 + r2) < x2 - x1 <= r1 + r2  # one stands on the other, and is sunk into it a little


# --- a cutter rolled along a tape ----------------------------------------------------------------------------------------------


def test_the_cutter_stands_on_the_tape_and_passes_through_both_joints(monkeypatch: pytest.MonkeyPatch) -> None:
    marked, standing, above, curve = panels(monkeypatch, "rolled")
    joints = [circle_of(p)[0] for p in paths(marked.items) if p.style.width_mm == 1.8]
    (tape,) = filled(marked, "#ecbf55")
    (left, level), (right, other) = joints
    assert level == other
    upper = box(tape)[1]
    drops = [box(p) for p in paths(marked.items) if len(p.parts) == 2 and box(p)[0] == box(p)[2] and left < box(p)[0] < right]
    assert [(one[1], one[3]) for one in drops] == [(level, pytest.approx(upper))]

    (ring,) = {circle_of(p) for p in paths(standing.items) if p.style.width_mm in (2.4, 3.4) and not p.style.fill}
    (x, y), radius = ring
    assert y + radius == pytest.approx(upper, abs=0.05) and x == pytest.approx((left + right) / 2)
    for joint in joints:
        assert math.dist(joint, (x, y)) == pytest.approx(radius, abs=0.05)

    # from above: in the middle and rolled to either side, the cutter only touches the round side
    bars = filled(above, "#d8d2dc")
    cake = max((p for p in paths(above.items) if p.style.role == "cake"), key=lambda p: box(p)[2] - box(p)[0])
    middle, far = circle_of(cake)
    assert len(bars) == 3
    touching = []
    for bar in bars:
        a, b, *_ = points(bar)
        edge = LineString([a, b])
        assert edge.distance(Point(middle)) == pytest.approx(far, abs=0.1)
        touching.append(edge.interpolate(edge.project(Point(middle))).x)
    assert min(touching) < touching[2] - 15 and max(touching) > touching[2] + 15

    (pressed,) = (p for p in paths(curve.items) if p.style.stroke == "#a07f63")
    way = points(pressed)
    assert way[0] == pytest.approx(joints[0]) and way[-1] == pytest.approx(joints[1])
    assert max(y for _, y in way) == pytest.approx(upper, abs=0.05)
    assert all(math.dist(p, (x, ring[0][1])) == pytest.approx(radius, abs=0.1) for p in way)


# --- a bag filled -------------------------------------------------------------------------------------------------------------


def test_the_parts_of_a_coupler_go_together(monkeypatch: pytest.MonkeyPatch) -> None:
    kept: list[Scene] = []
    monkeypatch.setattr(handbook_hands, "figure", lambda scene, *_: kept.append(scene) or "")
    panels(monkeypatch, "bag")
    bag, base, tip, ring = (p for p in paths(kept[0].items) if p.style.fill)
    lefts = [box(p)[0] for p in (bag, base, tip, ring)]
    assert lefts == sorted(lefts) and all(box(a)[2] < box(b)[0] for a, b in itertools.pairwise((bag, base, tip, ring)))

    def mouths(path: Path) -> tuple[float, float]:
        """How wide it is at its left and at its right end."""
        left, _, right, _ = box(path)
        ends = []
        for end in (left, right):
            ys = [y for x, y in points(path) if abs(x - end) < 0.01]
            ends.append(max(ys) - min(ys))
        return ends[0], ends[1]

    # the base slips through the end of the bag and jams there; the tip goes over the end of the base; the ring over the foot of the tip
    assert mouths(base)[1] < mouths(bag)[1] < mouths(base)[0]
    assert mouths(tip)[0] > mouths(base)[1]
    assert mouths(ring)[0] == pytest.approx(mouths(tip)[0])


def test_the_bag_hangs_in_the_glass_and_is_two_thirds_full(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(handbook_hands, "figure", lambda *_: "")
    glass, pressed, _ = panels(monkeypatch, "bag")
    (jar,) = filled(glass, "#cfe0e2")
    left, _, right, floor = box(jar)
    (metal,) = filled(glass, "#c4bfc9")
    assert left < box(metal)[0] and box(metal)[2] < right and box(metal)[3] < floor
    down = [p for p in paths(glass.items) if len(p.parts) == 2 and box(p)[0] == box(p)[2] == 80.0]
    assert down and all(points(p)[1][1] > points(p)[0][1] for p in down)

    upright = [p for p in paths(pressed.items) if p.style.role == "guide" and p.style.stroke and len(p.parts) == 2]
    ticks = sorted(box(p) for p in upright if box(p)[3] - box(p)[1] > 3.5)
    begin, end = (sum(one[::2]) / 2 for one in ticks)
    cloth = max((p for p in paths(pressed.items) if p.style.stroke == "#75624f" or p.style.stroke == "#7b6a5c"), key=lambda p: box(p)[2])
    assert (end - begin) / (box(cloth)[2] - begin) == pytest.approx(2 / 3, abs=0.04)


# --- flowers ------------------------------------------------------------------------------------------------------------------


def test_the_petals_of_a_blossom_close_the_circle_each_from_under_the_last(monkeypatch: pytest.MonkeyPatch) -> None:
    made = panels(monkeypatch, "blossom")
    for scene, count in zip(made, (1, 3, 5), strict=True):
        heads = [p for p in paths(scene.items) if p.style.fill == "#cfc7cd" and len(p.parts) > 4]
        (x, y), radius = circle_of(max(heads, key=lambda p: box(p)[2] - box(p)[0]))
        (paper,) = filled(scene, "#fffdf6")
        assert all(math.dist(corner, (x, y)) < radius for corner in points(paper))
        blush = [p for p in paths(scene.items) if p.style.fill == shared_parts.BLUSH]
        assert len(blush) == count
        turns = []
        for petal in blush:
            way = points(petal)
            assert min(math.dist(p, (x, y)) for p in way) < 1.6 and max(math.dist(p, (x, y)) for p in way) < radius
            middle = Polygon(way).centroid
            turns.append(math.degrees(math.atan2(middle.y - y, middle.x - x)))
        # the newest is laid first, so that it comes out from under the one before; the nail has carried each by a fifth of a turn
        for newer, older in itertools.pairwise(turns):
            assert (newer - older) % 360 == pytest.approx(72, abs=0.5)
        for newer, older in itertools.pairwise(blush):
            assert Polygon(points(newer)).buffer(0).intersection(Polygon(points(older)).buffer(0)).area > 0
    honey = [circle_of(p) for p in paths(made[2].items) if p.style.width_mm == 0.3 and p.style.fill]
    assert len(honey) == 3 and all(math.dist(at, (x, y)) + r < 4 for at, r in honey)


def test_a_bud_has_a_petal_over_its_curl_and_a_foot_drawn_up_onto_it(monkeypatch: pytest.MonkeyPatch) -> None:
    one, two, three = panels(monkeypatch, "bud")

    def body(scene: Scene) -> list[Path]:
        rosy = [p for p in paths(scene.items) if p.style.width_mm == 0.5 and p.style.fill and isinstance(p.style.fill, str) and p.parts[-1][0] == "Z"]
        return [p for p in rosy if box(p)[0] > 25 and box(p)[2] < 55 and box(p)[2] - box(p)[0] > 6]

    (curl,) = body(one)[:1]
    curled, folded = body(two)[:2]
    assert points(curled) == points(curl)
    over = Polygon(points(folded)).buffer(0).intersection(Polygon(points(curl)).buffer(0)).area
    assert 0.3 * Polygon(points(curl)).area < over < 0.85 * Polygon(points(curl)).area  # it covers much of the curl, and not all
    assert box(folded)[2] > box(curl)[2] + 2  # and comes from the right
    arrow = [p for p in paths(two.items) if p.style.stroke == GUIDE and len(p.parts) > 2 and not p.style.fill]
    assert any(points(p)[0][0] > points(p)[-1][0] + 20 for p in arrow)

    bud = Polygon(points(curl)).buffer(0).union(Polygon(points(folded)).buffer(0))
    foot = body(three)[-1]
    way = points(foot)
    top, bottom = min(way, key=lambda p: p[1]), max(way, key=lambda p: p[1])
    assert bud.contains(Point(top)) and not bud.contains(Point(bottom)) and bottom[1] > bud.bounds[3] + 3
    drawn = [points(p) for p in paths(three.items) if p.style.stroke == GUIDE and len(p.parts) == 2 and not p.style.fill]
    assert [(a[0] == b[0], a[1] > b[1]) for a, b in drawn] == [(True, True)]  # one arrow, straight up
    heights = [Polygon(way).buffer(0).intersection(LineString([(0, y), (100, y)])).length for y in (top[1] + 2, bottom[1] - 5)]
    assert heights[0] < 0.5 * heights[1]  # a dot below, a point above


# --- their words --------------------------------------------------------------------------------------------------------------


def test_every_row_has_its_panels_in_words() -> None:
    told = handbook_panels.told()
    assert set(told) == {*KINDS, "turned star"}
    for name, words in told.items():
        assert set(words) == {"front", "row", "told_front", "told_angle", "told_path", "told_row"}, name
        for key, text in words.items():
            if key.startswith("told_"):
                assert 65 <= len(text) <= 420 and text.endswith("."), (name, key, len(text))
            else:
                assert 40 <= len(text) <= 80 and not text.endswith("."), (name, key, len(text))
        assert all(f"{number}" in words["told_path"] for number in (1, 2, 3)), name


@pytest.mark.parametrize("kind", KINDS)
def test_no_panel_is_described_in_its_captions_words_or_in_anothers(kind: str) -> None:
    made = handbook_panels.technique({"kind": kind}, "")
    told = [html.unescape(text) for text in re.findall(r"<desc[^>]*>(.*?)</desc>", made)]
    captions = [html.unescape(text) for text in re.findall(r"<figcaption>(.*?)</figcaption>", made)]
    assert len(told) == len(captions) == 4 and len({*told, *captions}) == 8
    assert all("{" not in text for text in told)


# --- small pictures -----------------------------------------------------------------------------------------------------------


def absolute(path: str) -> list[float]:
    """Every number of a path, counted from the corner of the picture."""
    made: list[float] = []
    at, begun = (0.0, 0.0), (0.0, 0.0)
    for letter, said in re.findall(r"([mlcszMLCSZ])([^mlcszMLCSZ]*)", path):
        numbers = [float(one) for one in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", said)]
        if letter in "zZ":
            at = begun
        size = {"m": 2, "l": 2, "c": 6, "s": 4, "z": 1}[letter.lower()]
        for k in range(0, len(numbers), size):
            ends = [number + (at[i % 2] if letter.islower() else 0) for i, number in enumerate(numbers[k : k + size])]
            at = (ends[-2], ends[-1])
            made += ends
        if letter in "mM":
            begun = at
    return made


@given(st.lists(st.tuples(st.sampled_from("MLCSZ"), st.lists(st.floats(-300, 300), min_size=6, max_size=6)), max_size=12), st.sampled_from([1, 2]))
def test_a_path_written_shortly_is_the_same_path(parts: list[tuple[str, list[float]]], places: int) -> None:
    need = {"M": 2, "L": 2, "C": 6, "S": 4, "Z": 0}
    path = "M1 2" + "".join(letter + " ".join(f"{one:.2f}" for one in numbers[: need[letter]]) for letter, numbers in parts)
    made = compact_svg.shorter(path, places)
    assert absolute(made) == pytest.approx(absolute(path), abs=0.501 / 10**places)
    assert re.sub("[^z]", "", made) == re.sub("[^z]", "", path.lower())


def test_what_is_wholly_outside_a_small_picture_is_left_out_and_nothing_else() -> None:
    style = Style(stroke="#000000", width_mm=2.0)
    inside, edge = Path((("M", 5.0, 5.0), ("L", 8.0, 5.0)), style), Path((("M", -9.0, 5.0), ("L", -0.5, 5.0)), style)
    outside = Path((("M", 15.0, 5.0), ("L", 18.0, 5.0)), style)
    moved = Group((outside,), matrix=(1.0, 0.0, 0.0, 1.0, -10.0, 0.0))
    scene = Scene("a", "b", 0, 0, 10, 10, (inside, Group((edge, outside), title="row"), moved))
    assert handbook_cards.within(scene).items == (inside, Group((edge,)), moved)


def test_blossoms_at_a_joint_hide_it_and_each_has_its_petals_and_dots_on_the_leaves() -> None:
    """The joint is where the two swags end, as the scene says of itself: in the middle of its width."""
    scene = handbook_scenes.spray_at_joint(120.0, 56.0)
    laid = [item for item in scene.items if isinstance(item, Use)]
    petals = [item for item in laid if item.motif.key == "petal of a blossom"]
    dots = [item for item in laid if item.motif.key == "dots of a blossom"]
    assert (len(petals), len(dots)) == (15, 3)
    last_behind = max(k for k, item in enumerate(laid) if item.motif.key in ("finished bud", motif("leaf", shared_parts.BAY).key))
    assert last_behind < min(k for k, item in enumerate(laid) if item in petals), "leaves and buds lie behind"

    def shape(item: Use) -> Polygon:
        a, b, c, d, e, f = item.matrix
        return Polygon([(a * x + c * y + e, b * x + d * y + f) for x, y in points(item.motif.items[0])]).buffer(0)

    whole = unary_union([shape(item) for item in petals])
    joint = Point(scene.x_mm + scene.width_mm / 2, 19.0)
    assert whole.contains(joint.buffer(1.5)), "the joint does not show"
    for dot in dots:  # in the middle of five petals that close the circle
        around = Point(dot.matrix[4], dot.matrix[5]).buffer(4.0)
        assert whole.intersection(around).area > 0.8 * around.area


def test_small_pictures_stay_light() -> None:
    """Ten thousand bytes a picture, and one of several rows at most half as much again."""
    page = (DOCS / "techniques" / "index.md").read_text(encoding="utf-8")
    made = "".join(handbook_pages.drawing(fence) for fence in re.findall(r"^```drawing\n(.*?)^```", page, re.MULTILINE | re.DOTALL))
    pictures = re.findall(r"<svg.*?</svg>", made, re.DOTALL)
    assert len(pictures) == made.count("<li ") > 30
    assert max(map(len, pictures)) < 15_000 and sum(map(len, pictures)) < 205_000
    for picture in pictures:  # every path is there, and stands on the picture: none was written twice, or to nothing
        drawn = re.findall(r' d="([^"]*)"', picture)
        assert drawn and all(re.match(r"m-?[\d.]", path) and re.search("[lcs]", path) for path in drawn), picture[:200]
    assert "<text" not in made and "<title" not in made and made.count('aria-hidden="true"') == len(pictures)


# --- a tier built and marked ----------------------------------------------------------------------------------------------------


def test_a_scraper_touches_the_side_and_leans_away_from_it_over_what_is_rough() -> None:
    middle, radius = (36.0, 34.0), 29.0
    for at in (-40.0, 0.0, 20.0, 75.0):
        edge, end = handbook_building.blade(middle, radius, at, 30.0)
        assert math.dist(edge, middle) == pytest.approx(radius) and math.dist(end, middle) > radius + 10
        # against the turn of the table (clockwise on the page) it makes 30 degrees with the side
        against = (math.sin(math.radians(at)), -math.cos(math.radians(at)))
        along = ((end[0] - edge[0]) / 30, (end[1] - edge[1]) / 30)
        assert math.degrees(math.acos(against[0] * along[0] + against[1] * along[1])) == pytest.approx(30)


def test_the_dam_lies_inside_the_edge_and_the_filling_inside_the_dam(monkeypatch: pytest.MonkeyPatch) -> None:
    piped, filled, pressed = panels(monkeypatch, "dammed")
    sponge = circle_of(filled_one(filled, "#cf9a5c"))
    ring = max((p for p in paths(filled.items) if p.style.stroke and not p.style.fill), key=lambda p: p.style.width_mm)
    reach = [math.dist(p, sponge[0]) for p in points(ring)]
    assert max(reach) + ring.style.width_mm / 2 < sponge[1] and min(reach) > 0.8 * sponge[1]
    assert max(math.dist(p, sponge[0]) for p in points(filled_one(filled, "#b5423c"))) < max(reach)
    open_ring = max((p for p in paths(piped.items) if p.style.stroke and not p.style.fill), key=lambda p: p.style.width_mm)
    assert 0.7 < LineString(points(open_ring)).length / LineString(points(ring)).length < 0.85

    low, high = sorted((box(p) for p in paths(pressed.items) if p.style.fill == "#cf9a5c"), key=lambda one: -one[1])
    (jam,) = (box(p) for p in paths(pressed.items) if p.style.fill == "#b5423c")
    assert (low[0], low[2]) == (high[0], high[2]) and high[3] == jam[1] and jam[3] == low[1]  # straight above, the filling between


def test_a_strip_is_halved_twice_and_leaves_its_curves(monkeypatch: pytest.MonkeyPatch) -> None:
    folded, wrapped, bare = panels(monkeypatch, "wrapped")
    wide = [box(p)[2] - box(p)[0] for p in paths(folded.items) if p.style.fill == "#fffdf6"]
    assert wide == [wide[0], wide[0] / 2, wide[0] / 4]
    pricks = [circle_of(p)[0] for p in paths(bare.items) if p.style.role == "text-guide"]
    drawn = [LineString(points(p)) for p in paths(wrapped.items) if p.style.stroke == "#7d6673" and not p.style.dash]
    assert len(pricks) > 20 and all(min(curve.distance(Point(p)) for curve in drawn) < 0.1 for p in pricks)
