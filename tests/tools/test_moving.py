"""The moving pictures: their time, their path and what they are written as."""

from __future__ import annotations

import gzip
import math
import re

import pytest

from calc.colours import PALETTE
from calc.drawing.motifs import LOOKS
from calc.rows import KINDS, RowSpec, pipe
from calc.tips import Tip
from tools.site.moving import (
    ABOVE,
    FRONT,
    SIDE,
    Film,
    Grown,
    Hand,
    Moved,
    Thread,
    Turning,
    View,
    hand_of,
    keys_text,
    markup,
    on_surface,
    thinned,
    value_at,
)
from tools.site.moving_films import FILMS, film
from tools.site.moving_hands import SIDE_WALL
from tools.site.moving_rows import LEAN, bag

ROWS = [name for name in FILMS if name in KINDS]
LED = [name for name in ROWS if KINDS[name].speed_mm_per_s and name != "string"]


CAMERAS = {"From the front": FRONT, "From above": ABOVE, "From the side": SIDE}


def of(name: str) -> Film:
    return film(name, {})


def spec_of(name: str) -> RowSpec:
    """The row that a film shows."""
    spec = of(name).spec
    assert spec is not None
    return spec


def laid_mm(hand: Hand) -> float:
    """How far the tip goes while it is squeezed and does not come or go."""
    return math.fsum(
        math.dist(a, b) for (t0, a), (t1, b) in zip(hand.keys, hand.keys[1:], strict=False) if value_at(hand.squeeze, (t0 + t1) / 2)[0] > 1e-6
    )


def layers(view: View, kind: type) -> list:  # type: ignore[type-arg]
    return [layer for layer in view.layers if isinstance(layer, kind)]


@pytest.mark.parametrize("name", ROWS)
def test_a_film_takes_as_long_as_its_pieces_are_said_to_take(name: str) -> None:
    shown, kind = of(name), KINDS[name]
    one = shown.hand.time_s / shown.pieces
    if kind.speed_mm_per_s:
        assert one == pytest.approx(pipe(spec_of(name)).time_min * 60, rel=0.05)
    else:
        assert one == pytest.approx(kind.start_s)
    assert [name for name, _ in shown.hand.segments] == list(kind.steps) * shown.pieces


@pytest.mark.parametrize("name", LED)
def test_what_is_laid_is_as_long_as_the_path_that_is_weighed(name: str) -> None:
    assert laid_mm(of(name).hand) / of(name).pieces == pytest.approx(pipe(spec_of(name)).path_mm, rel=0.12)


@pytest.mark.parametrize("name", ROWS)
def test_the_tip_is_where_the_strokes_lead_it(name: str) -> None:
    """At the end of each stroke, but for the last, after which it goes away; in both views, on its own side of the surface."""
    shown, kind = of(name), KINDS[name]
    strokes = kind.strokes(spec_of(name))
    for number, stroke in enumerate(strokes[:-1]):
        time = shown.hand.segments[number][1]
        assert shown.hand.at(time) == pytest.approx(stroke.points[-1], abs=0.05), stroke.name
    for view in shown.views:
        camera = CAMERAS[view.title]
        moved = layers(view, Moved)[0]
        x0, y0 = moved.keys[0][1][:2]
        for time, at in moved.keys:
            surface = LOOKS[name].surface
            x, y = camera(on_surface(surface, shown.hand.at(time)))
            a, b = camera(on_surface(surface, shown.hand.at(0.0)))
            assert math.dist((at[0] - x0, at[1] - y0), (x - a, y - b)) < 0.01 or time in (s for _, s in shown.hand.segments)


@pytest.mark.parametrize("name", ROWS)
def test_pieces_appear_in_order_where_the_tip_is(name: str) -> None:
    shown = of(name)
    for view in shown.views:
        tips = layers(view, Moved)[0]
        for grown in layers(view, Grown):
            begins = [piece.begin_s for piece in grown.pieces]
            assert begins == sorted(begins) and all(piece.begin_s < piece.end_s <= shown.hand.time_s for piece in grown.pieces)
            step = max((b.matrix[4] - a.matrix[4] for a, b in zip(grown.pieces, grown.pieces[1:], strict=False)), default=0.0)
            for piece in grown.pieces:
                middle = (piece.begin_s + piece.end_s) / 2
                assert value_at(shown.hand.squeeze, middle)[0] > 0, "nothing is laid without a squeeze"
                tip_x = value_at(tips.keys, middle)[0]
                if view.title == "From the side":
                    assert SIDE_WALL == piece.matrix[4] < tip_x, "a piece stands on the side, before the tip"
                else:
                    assert abs(tip_x - piece.matrix[4]) < step + 4.5, "a piece grows at the tip"


def test_a_string_hangs_from_the_joint_and_from_the_tip_and_grows_to_its_length() -> None:
    shown = of("string")
    kind = KINDS["string"]
    for view in shown.views:
        (thread,), tips = layers(view, Thread), layers(view, Moved)[0]
        for time, points in thread.keys:
            assert math.dist(points[-2:], value_at(tips.keys, time)) < 1.5, "the thread ends at the tip"
            assert math.dist(points[:2], thread.keys[0][1][:2]) < 1e-6, "and stays stuck at the joint"
    last = thread_front(shown).keys[-1][1]
    ends = list(zip(last[::2], last[1::2], strict=True))
    length = math.fsum(math.dist(a, b) for a, b in zip(ends, ends[1:], strict=False))
    assert length == pytest.approx(kind.length_mm(62.0, 24.0), rel=0.02)  # type: ignore[attr-defined]


def thread_front(shown: Film) -> Thread:
    found: Thread = layers(shown.views[0], Thread)[0]
    return found


@pytest.mark.parametrize("name", ["swag", "ruffled swag", "ruched swag", "string"])
def test_the_bag_leans_from_above_as_the_page_says(name: str) -> None:
    said = 90.0 if name == "string" else float(KINDS[name].angle.split("°")[0])
    assert layers(of(name).views[1], Moved)[0].turn_deg == pytest.approx(said, abs=0.5)


def test_on_a_board_the_bag_points_back_along_the_row_at_45_degrees() -> None:
    hand = of("shell").hand
    x, y, z = on_surface("base", hand.faces[0][1])  # type: ignore[arg-type]
    assert x < 0 and math.degrees(math.atan2(y, -x)) == pytest.approx(45.0) and z == 0, "down to the board and back along the row"
    assert -60 < bag(hand, Tip("open star", 7.0), "base", FRONT, (0.0, 0.0)).turn_deg < -30 and LEAN["base"][2] > 0


def test_from_the_side_the_bag_stands_as_the_page_says() -> None:
    """A leaf at 45 degrees from below, rosettes and stars at right angles; seen from the front the latter hide what they pipe behind the hand."""
    for name, said in (("leaf", 45.0), ("rosette", 0.0), ("star", 0.0)):
        assert layers(of(name).views[1], Moved)[0].turn_deg == pytest.approx(said, abs=0.5)
        assert KINDS[name].angle.startswith(f"{90 - said:.0f}°")


def test_a_star_is_whole_before_the_tip_goes() -> None:
    shown = of("star")
    (grown,) = layers(shown.views[0], Grown)
    stops = max(time for time, (squeeze,) in shown.hand.squeeze if squeeze > 0)
    leaves = next(time for time, place in shown.hand.keys if time > stops and place[2] > shown.hand.at(stops)[2] + 0.5)
    assert grown.pieces[-1].end_s <= shown.hand.segments[0][1] <= shown.hand.segments[1][1] < leaves


def test_a_rosette_is_laid_round_its_middle_and_gets_thinner_at_its_end() -> None:
    middle, coil = (layer.pieces for layer in layers(of("rosette").views[0], Grown))
    x, y = middle[0].matrix[4:]
    assert middle[0].end_s <= coil[0].begin_s
    far = [math.dist((x, y), piece.matrix[4:]) for piece in coil]
    assert far[0] < 2 and max(far) == pytest.approx(far[-1], rel=0.1)
    thick = [math.hypot(*piece.matrix[2:4]) for piece in coil]
    assert thick[-1] < 0.6 * thick[0]


def test_a_rose_is_turned_under_a_bag_that_stays() -> None:
    """Each petal is laid where the bag is: at its time it lies in the direction from which the bag comes."""
    shown = of("rose on a nail")
    assert shown.hand.time_s == pytest.approx(KINDS["small rose"].start_s)
    (nail,), (bag_held,) = layers(shown.views[0], Turning), layers(shown.views[0], Moved)
    turns = [turn for _, (_, _, turn) in nail.keys]
    assert turns == sorted(turns, reverse=True) and turns[0] - turns[-1] >= 2 * 360
    x, y = nail.keys[0][1][:2]
    petals = [piece for layer in nail.layers if isinstance(layer, Grown) and len(layer.pieces) > 1 for piece in layer.pieces]
    assert len(petals) == 8
    for piece in petals:
        middle = (piece.begin_s + piece.end_s) / 2
        lies = math.degrees(math.atan2(piece.matrix[1], piece.matrix[0])) + value_at(nail.keys, middle)[2]
        tip_x, tip_y = value_at(bag_held.keys, middle)[:2]
        off = lies - math.degrees(math.atan2(tip_y - y, tip_x - x))
        assert abs((off + 180) % 360 - 180) < 30 and value_at(shown.hand.squeeze, middle)[0] > 0.5


def test_a_cutter_touches_the_middle_then_each_joint() -> None:
    shown = of("rolling the cutter")
    _, dot = layers(shown.views[1], Moved)
    (_, middle), (_, joints) = ((name, end) for name, end in shown.hand.segments[1:3])
    start = value_at(dot.keys, shown.hand.segments[0][1])[0]
    left, right = value_at(dot.keys, middle)[0], value_at(dot.keys, joints)[0]
    assert start - left == pytest.approx(right - start, abs=0.5) and start - left > 15
    (curve,) = layers(shown.views[0], Grown)
    laid = [piece.begin_s for piece in curve.pieces]
    assert laid == sorted(laid) and all(value_at(shown.hand.squeeze, time)[0] == 1 for time in laid)
    assert shown.force == "Press" and "no press" in markup(shown)


def test_a_bag_is_squeezed_when_it_is_twisted_gripped_and_steadied() -> None:
    shown = of("holding a bag")
    named = dict(shown.hand.segments)
    begins = next(time for time, (squeeze,) in shown.hand.squeeze if squeeze > 0)
    assert named["twist the bag shut"] < named["close the hand round it"] < named["a finger of the other hand under the tip"] <= begins
    assert value_at(shown.hand.squeeze, shown.hand.time_s - 0.9)[0] == 0


def test_the_hand_comes_squeezes_eases_off_and_only_then_goes() -> None:
    hand = hand_of(KINDS["swag"].strokes(RowSpec("swag", Tip("petal", 11.0), run_mm=74.0, drop_mm=24.0)))
    assert hand.at(0.0)[2] > 5 and value_at(hand.squeeze, 0.0)[0] == 0
    for time, place in hand.keys:
        if place[2] > 0.01:
            assert value_at(hand.squeeze, time)[0] < 1e-9, "no squeeze away from the side"
    assert hand.at(hand.time_s)[2] > 5


def test_keys_that_lie_straight_between_others_are_left_out() -> None:
    keys = ((0.0, (0.0,)), (1.0, (1.0,)), (2.0, (2.0,)), (3.0, (0.0,)))
    assert thinned(keys) == (keys[0], keys[2], keys[3])
    assert keys_text(thinned(keys)) == "0 0 200 2 300 0"
    assert value_at(thinned(keys), 1.25) == pytest.approx((1.25,)) and value_at(keys, 9.0) == (0.0,)


@pytest.mark.parametrize("name", FILMS)
def test_a_film_is_written_so_that_a_page_may_have_it(name: str) -> None:
    """Nothing that the policy refuses, no name twice, nothing used that is not there, five frames, and light."""
    text = markup(of(name))
    assert not re.search(r"<script|<style| style=| on[a-z]+=", text)
    names = re.findall(r' id="([^"]+)"', text)
    assert len(names) == len(set(names))
    assert set(re.findall(r'xlink:href="#([^"]+)"|url\(#([^)]+)\)', text)) <= {pair for one in names for pair in ((one, ""), ("", one))}
    assert "<text" not in text[: text.index('class="pb-moving-stage"')], "words that are used from elsewhere stay mirrored for the left hand"
    assert name != "string" or "<text" not in text[text.index('class="pb-moving-strip"') :], "too small to read in a frame"
    assert text.count("<li>") == 5 and "\x00" not in text
    for form, keys in re.findall(r'data-form="([^"]+)" data-keys="([^"]+)"', text):
        numbers = [float(part) for part in keys.split()]
        times = numbers[:: form.count("#") + 1]
        assert len(numbers) % (form.count("#") + 1) == 0 and times == sorted(times)
    assert len(gzip.compress(text.encode(), 9)) < 10_000


def test_another_colour_and_tip_may_be_asked_for() -> None:
    text = markup(film("shell", {"tip": "open star 5 mm", "colour": "bay"}))
    assert "open star 5 mm" in text and markup(film("shell", {})) != text and PALETTE["bay"]
