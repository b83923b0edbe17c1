"""The moving pictures: their time, their path and what they are written as."""

from __future__ import annotations

import gzip
import math
import re
from dataclasses import replace
from itertools import accumulate

import pytest

from calc.colours import PALETTE
from calc.drawing.motifs import LOOKS
from calc.drawing.scene import GUIDE, Group, Path
from calc.drawing.shading import strand_paths
from calc.rows import KINDS, RowSpec, pipe, wander_length_mm, wandering
from calc.tips import Tip
from tools.films.moving import (
    ABOVE,
    FRONT,
    HEAD_MM,
    SIDE,
    Film,
    Grown,
    Hand,
    Keys,
    Laid,
    Led,
    Moved,
    Still,
    Thread,
    Turning,
    View,
    hand_of,
    on_surface,
    pressing,
    value_at,
)
from tools.films.moving_films import FILMS, film
from tools.films.moving_hands import SIDE_WALL
from tools.films.moving_lines import CELLS, GAP_MM
from tools.films.moving_markup import keys_text, markup, thinned
from tools.films.moving_rows import AHEAD_MM, LEAN, bag
from tools.films.moving_series import BESIDE_MM, DEEPEST_MM, LOOPS

ROWS = [name for name in FILMS if name in KINDS]
LED = [name for name in ROWS if KINDS[name].speed_mm_per_s and name not in ("string", "line")]


CAMERAS = {"From the front": FRONT, "From above": ABOVE, "From the side": SIDE}


ON = {"reverse shell": "base"}  # shown on the top of a cake, where its name is at home
TURNED = ["ruched border", "zigzag"]
TABLE_MM = 100.0  # half the width of the cake that is turned


def cake_gone_mm(view: View, time: float) -> float:
    """How far the cake has been turned under the tip [mm]; 0 where it stands."""
    for layer in layers(view, Turning):
        if any(isinstance(inner, Grown) for inner in layer.layers):
            x, _, turn = value_at(layer.keys, time)
            return layer.keys[0][1][0] - x if view.title == "From the front" else math.radians(turn) * TABLE_MM
    return 0.0


def of(name: str) -> Film:
    return film(name, {})


def spec_of(name: str) -> RowSpec:
    """The row that a film shows."""
    spec = of(name).spec
    assert spec is not None
    return spec


def read_keys(text: str, size: int, parts: int = 10) -> Keys:
    """Keys as the script reads them: each is what it is more than the one before it."""
    numbers = [int(part) for part in text.split()]
    rows = [numbers[k : k + size + 1] for k in range(0, len(numbers), size + 1)]
    sums = [tuple(accumulate(column)) for column in zip(*rows, strict=True)]
    return tuple((time / 100, tuple(value / parts for value in values)) for time, *values in zip(*sums, strict=True))


def laid_mm(hand: Hand) -> float:
    """How far the tip goes while it is squeezed and does not come or go."""
    return math.fsum(
        math.dist(a, b) for (t0, a), (t1, b) in zip(hand.keys, hand.keys[1:], strict=False) if value_at(hand.squeeze, (t0 + t1) / 2)[0] > 1e-6
    )


def bag_of(view: View) -> Moved:
    """The first bag of a view: pressed by the hand that holds it."""
    return next(layer for layer in layers(view, Moved) if layer.items and layer.pressed)


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
        moved = bag_of(view)
        x0, y0 = moved.keys[0][1][:2]
        for time, at in moved.keys:
            surface = ON.get(name, LOOKS[name].surface)
            x, y = camera(on_surface(surface, shown.hand.at(time)))
            a, b = camera(on_surface(surface, shown.hand.at(0.0)))
            turned = cake_gone_mm(view, time)
            assert math.dist((at[0] - x0 + turned, at[1] - y0), (x - a, y - b)) < 0.01 or time in (s for _, s in shown.hand.segments)


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


@pytest.mark.parametrize("name", TURNED)
def test_under_a_border_the_cake_is_turned_and_the_tip_stays(name: str) -> None:
    """To the left, so that the row grows to the right on the cake; each fold is laid under the tip, in both views."""
    shown = of(name)
    work = [time for time, (squeeze,) in shown.hand.squeeze if squeeze > 0]
    for view in shown.views:
        bag_held = bag_of(view)
        table = layers(view, Turning)[-1]
        assert all(layer.keys == table.keys for layer in layers(view, Turning)), "the rim turns with the row"
        xs = [x for time, (x, _) in bag_held.keys if work[0] <= time <= work[-1]]
        assert max(xs) - min(xs) < 3.5, "the hand stays, but for the slant of its strokes"
        assert cake_gone_mm(view, shown.hand.time_s) == pytest.approx(spec_of(name).run_mm, abs=7.0), "but for the last half of a stroke"
        gone = [cake_gone_mm(view, time) for time, _ in table.keys]
        assert all(b > a - 1e-9 for a, b in zip(gone, gone[1:], strict=False)), "it never goes back"
        assert gone[-2] == gone[-1], "and stands when the tip lifts"
        (grown,) = [layer for layer in table.layers if isinstance(layer, Grown)]
        for piece in grown.pieces:
            middle = (piece.begin_s + piece.end_s) / 2
            x, y, turn = value_at(table.keys, middle)
            c, n = math.cos(math.radians(turn)), math.sin(math.radians(turn))
            at = (x + c * piece.matrix[4] - n * piece.matrix[5], y + n * piece.matrix[4] + c * piece.matrix[5])
            assert abs(at[0] - value_at(bag_held.keys, middle)[0]) < 4.5, "a fold grows at the tip"
            assert value_at(shown.hand.squeeze, middle)[0] > 0


@pytest.mark.parametrize("name", TURNED)
def test_the_other_hand_goes_with_the_rim(name: str) -> None:
    shown = of(name)
    above = shown.views[1]
    rim, table = layers(above, Turning)
    other = layers(above, Moved)[0]
    assert above.layers.index(rim) < above.layers.index(other) < above.layers.index(table), "on the rim and under the row, which stands out over it"
    cx, cy = table.keys[0][1][:2]

    def angle(time: float) -> float:
        x, y, _ = value_at(other.keys, time)
        return math.degrees(math.atan2(cx - x, y - cy))

    held = 0.0
    for (t0, _), (t1, _) in zip(other.keys, other.keys[1:], strict=False):
        turned = math.degrees((cake_gone_mm(above, t1) - cake_gone_mm(above, t0)) / TABLE_MM)
        if angle(t1) - angle(t0) > 1.0:
            assert angle(t1) - angle(t0) == pytest.approx(turned, abs=0.4), "as fast as the rim"
            held += turned
    assert held > 0.8 * math.degrees(spec_of(name).run_mm / TABLE_MM), "most of the turn is the hand's"


@pytest.mark.parametrize("name", [*FILMS])
def test_a_bar_is_shown_where_something_is_squeezed_and_nowhere_else(name: str) -> None:
    """A pencil, a point and a strip of paper only touch: their bar would be all but empty from beginning to end."""
    light = name in ("marking with a strip", "walking the dividers", "carrying the marks down")
    text = markup(of(name))
    assert text.count('class="pb-moving-bar"') == text.count('class="pb-moving-squeeze"') == (0 if light else 1)
    assert text.count("pb-moving-said pb-moving-light") == (1 if light else 0)
    assert ("squeeze" in text or "press " in text) != light, "nor is it spoken of under the frames"
    assert ('data-squeeze="' in text) == ('data-keys="squeeze"' in text), "the script has what it asks for, and nothing that it does not"


@pytest.mark.parametrize("name", [*FILMS])
def test_at_the_end_nothing_is_squeezed_and_all_is_whole(name: str) -> None:
    shown = of(name)
    assert value_at(shown.hand.squeeze, shown.hand.time_s)[0] == 0 or shown.force == "Press"
    assert len(shown.moments) == 5 and list(shown.moments) == sorted(shown.moments), "frames in order"
    assert shown.moments[-1] == shown.hand.time_s, "the last of them shows the end"
    assert [end for _, end in shown.hand.segments] == sorted(end for _, end in shown.hand.segments)
    for view in shown.views:
        for layer in every_layer(view.layers):
            if isinstance(layer, Grown):
                assert all(piece.begin_s < piece.end_s <= shown.hand.time_s + 1e-9 for piece in layer.pieces)
                assert layer.profile[-1] == (1.0, 1.0, 1.0)
            elif isinstance(layer, Led):
                shares = [share for _, (share,) in layer.keys]
                if name == "coating a side":  # what is taken off
                    shares = [1.0 - share for share in shares]
                assert shares[0] == 0 and shares[-1] == pytest.approx(1.0) and shares == sorted(shares)


LIFTS = [name for name in ROWS if of(name).hand.at(of(name).hand.time_s)[2] > 8]


@pytest.mark.parametrize("name", LIFTS)
def test_the_squeeze_is_over_before_the_tip_lifts(name: str) -> None:
    hand, last = of(name).hand, len(of(name).hand.segments) - 1
    stands = hand.at(hand.begins(last))[2]
    lifted = [time for time in (hand.moment(last, k / 80) for k in range(81)) if hand.at(time)[2] > stands + 1.0]
    assert len(lifted) > 3 and len(LIFTS) > 10
    assert all(value_at(hand.squeeze, time)[0] == 0 for time in lifted)


def every_layer(found: object) -> list[object]:
    """All layers of a view, those that turn together included."""
    out: list[object] = []
    for layer in found:  # type: ignore[attr-defined]
        out += every_layer(layer.layers) if isinstance(layer, Turning | Laid) else [layer]
    return out


@pytest.mark.parametrize("name", ["C scroll", "S scroll", "vermicelli"])
def test_a_led_line_ends_at_the_tip(name: str) -> None:
    """What has appeared of it is as long as what the hand has piped, and its end is where the tip is."""
    shown = of(name)
    (line,) = layers(shown.views[0], Led)
    held = layers(shown.views[0], Moved)[0]
    points = list(line.way) or path_points(line.items[0])
    far = [0.0]
    for a, b in zip(points, points[1:], strict=False):
        far.append(far[-1] + math.dist(a, b))
    begin, end = shown.hand.begins(1), shown.hand.segments[1][1]
    for k in range(1, 20):
        time = begin + (end - begin) * k / 20
        gone = value_at(line.keys, time)[0] * far[-1]
        along = tuple(zip(far, points, strict=True))
        assert math.dist(value_at(along, gone), value_at(held.keys, time)[:2]) < 1.5, k


@pytest.mark.parametrize("name", ["C scroll", "S scroll", "vermicelli", "coating a side"])
def test_the_dash_that_shows_a_led_line_ends_where_the_line_does(name: str) -> None:
    """As it is written, on a way of 100: out of sight where nothing is there, else as long as the share of the way."""
    shown = of(name)
    text = markup(shown)
    written = re.findall(r'stroke-dashoffset="([^"]*)" data-of="stroke-dashoffset" data-keys="([^"]+)"', text)
    lines = [layer for view in shown.views for layer in every_layer(view.layers) if isinstance(layer, Led)]
    assert len(written) == len(lines) > 0
    for (_, text_keys), line in zip(written, lines, strict=True):
        keys = read_keys(text_keys, 1)
        for k in range(101):
            time = shown.hand.time_s * k / 100
            share, offset = value_at(line.keys, time)[0], value_at(keys, time)[0]
            if share > 0.005:
                assert 100 * (1 - share) == pytest.approx(offset, abs=1.0)
            elif k in (0, 100):
                assert offset > 102, "not even its round end is seen"


@pytest.mark.parametrize("name", ["C scroll", "S scroll"])
def test_a_scroll_seen_from_above_ends_where_the_tip_is(name: str) -> None:
    """It goes to and fro, so its end comes nearer by as much as the tip does, and not by as much as the scroll grows longer."""
    shown = of(name)
    (line,) = layers(shown.views[1], Led)
    held = layers(shown.views[1], Moved)[0]
    along = [x for x, _ in path_points(line.items[0])]
    far = list(accumulate((abs(b - a) for a, b in zip(along, along[1:], strict=False)), initial=0.0))
    begin, end = shown.hand.begins(1), shown.hand.segments[1][1]
    for k in range(1, 40):
        time = begin + (end - begin) * k / 40
        gone = value_at(line.keys, time)[0] * far[-1]
        (x,) = value_at(tuple((d, (at,)) for d, at in zip(far, along, strict=True)), gone)
        assert x == pytest.approx(value_at(held.keys, time)[0], abs=0.6), k


def path_points(item: object) -> list[tuple[float, float]]:
    return [(float(part[-2]), float(part[-1])) for part in item.parts if len(part) > 2]  # type: ignore[attr-defined]


def test_a_scroll_is_drawn_as_wide_as_the_hand_squeezes_it() -> None:
    """The finished rows and the films agree: an S is thin between its bends, a C is fullest there."""
    for name, waist in (("S scroll", True), ("C scroll", False)):
        look = LOOKS[name]
        strand = look.lay(look.shown, 660.0, 100.0).strands[0]
        band = strand_paths([(float(k), 0.0) for k in range(33)], 10.0, strand.role, PALETTE["russet"])[0]
        ys = [(float(part[-2]), float(part[-1])) for part in band.parts if len(part) > 2]  # type: ignore[union-attr]
        wide = {k: max(y for x, y in ys if abs(x - k) < 0.6) - min(y for x, y in ys if abs(x - k) < 0.6) for k in (0, 12, 16, 20, 32)}
        assert max(wide[0], wide[32]) < 0.6 * wide[12] and wide[12] == pytest.approx(wide[20], rel=0.05)
        assert (wide[16] < 0.8 * wide[12]) is waist and (wide[16] > wide[12]) is not waist


def test_an_s_is_thin_between_its_bends_and_a_c_is_not() -> None:
    for name, thin in (("S scroll", True), ("C scroll", False)):
        hand = of(name).hand
        bend, middle = (value_at(hand.squeeze, hand.moment(1, share))[0] for share in (0.05, 0.5))
        assert (middle < 0.6 * bend) is thin and (middle == pytest.approx(1.0, abs=0.02)) is not thin


def test_reverse_shells_curl_away_and_towards_by_turns() -> None:
    shown = of("reverse shell")
    (grown,) = layers(shown.views[1], Grown)
    sides = [math.copysign(1, piece.matrix[3]) for piece in grown.pieces]
    assert sides == [1, -1, 1, -1]
    for k, piece in enumerate(grown.pieces):
        swollen = shown.hand.segments[3 * k][1]
        assert math.copysign(1, shown.hand.at(swollen)[1]) == -sides[k], "the tip is on the side of the head it makes"
        assert shown.hand.at(piece.end_s)[1] == pytest.approx(0.0, abs=0.01), "the tail ends on the line"
        assert value_at(shown.hand.squeeze, swollen)[0] > 3 * value_at(shown.hand.squeeze, piece.end_s)[0]
        (arrow,) = [layer for layer in layers(shown.views[1], Moved)[1:] if value_at(layer.keys, swollen)[0] < 300]
        tops = [down for _, down in axis_of(arrow)]
        assert all(math.copysign(1, down) == -sides[k] for down in tops), "and an arrow leads round it on that side"
        assert axis_of(arrow)[0][0] < axis_of(arrow)[-1][0]


def test_a_dot_is_whole_before_the_tip_turns_away() -> None:
    shown = of("dot")
    swells, stops, _ = (end for _, end in shown.hand.segments)
    (grown,) = layers(shown.views[1], Grown)
    assert grown.pieces[0].end_s <= swells
    turned = [shown.hand.at(stops + 0.02 * k)[:2] for k in range(1, 25)]
    assert max(math.hypot(*at) for at in turned) > 1 and all(math.hypot(*shown.hand.at(0.1 * k)[:2]) == 0 for k in range(15))
    assert shown.hand.at(shown.hand.time_s)[2] > 2 * shown.hand.at(stops)[2]


def test_a_dropped_flower_is_turned_by_a_quarter_while_it_is_squeezed_and_at_no_other_time() -> None:
    shown = of("dropped flower")
    back, forward = shown.hand.segments[0][1], shown.hand.segments[1][1]
    assert shown.hand.time_s - back == pytest.approx(KINDS["star"].start_s)
    flower, ring = layers(shown.views[0], Turning)
    turn = lambda time: value_at(ring.keys, time)[2]  # noqa: E731
    assert turn(0.0) == 0 and turn(back) == -45 and turn(forward) == 45 and turn(shown.hand.time_s) == 45
    assert value_at(flower.keys, forward)[2] == 0, "the flower stands as it is drawn when the turn is over"
    assert turn((back + forward) / 2) > turn(back) + 20 and value_at(shown.hand.squeeze, (back + forward) / 2)[0] > 0.5
    assert value_at(shown.hand.squeeze, back)[0] == 0 and value_at(shown.hand.squeeze, forward + 0.01)[0] == 0


def test_each_petal_of_a_blossom_is_laid_under_the_bag_and_under_the_one_before() -> None:
    shown = of("blossom")
    (nail,), held = layers(shown.views[0], Turning), layers(shown.views[0], Moved)[0]
    petals = [layer.pieces[0] for layer in nail.layers if isinstance(layer, Grown) and len(layer.pieces) == 1]
    assert [one.begin_s for one in petals] == sorted((one.begin_s for one in petals), reverse=True) and len(petals) == 5
    x, y = nail.keys[0][1][:2]
    for one in petals:
        middle = (one.begin_s + one.end_s) / 2
        lies = math.degrees(math.atan2(one.matrix[1], one.matrix[0])) + value_at(nail.keys, middle)[2]
        tip_x, tip_y = value_at(held.keys, middle)
        off = lies - math.degrees(math.atan2(tip_y - y, tip_x - x))
        assert abs((off + 180) % 360 - 180) < 5 and value_at(shown.hand.squeeze, middle)[0] > 0.5
        turned = value_at(nail.keys, one.begin_s)[2] - value_at(nail.keys, one.end_s)[2]
        assert turned == pytest.approx(72.0, abs=0.1), "a fifth"
        for side in (one.begin_s, one.end_s):  # it begins and stops in the middle
            assert math.dist((x, y), value_at(held.keys, side)) < 3 and math.dist((x, y), (tip_x, tip_y)) > 5
        assert value_at(shown.hand.squeeze, one.end_s)[0] == 0
    assert 20 <= shown.hand.time_s <= 30, "as its page says"


def test_a_bud_is_curled_then_folded_over_then_given_its_green_foot_from_another_bag() -> None:
    shown = of("bud")
    for view in shown.views:
        curl, fold, foot = (layer.pieces[0] for layer in layers(view, Grown))
        assert curl.end_s < fold.begin_s and fold.end_s < foot.begin_s
        pink, green = layers(view, Moved)[:2]
        change = (fold.end_s + foot.begin_s) / 2
        assert value_at(green.keys, curl.end_s)[0] > 300 < value_at(pink.keys, foot.begin_s)[0], "one bag at a time"
        assert value_at(shown.hand.squeeze, change)[0] == 0
        assert value_at(green.keys, foot.end_s)[1] < value_at(green.keys, foot.begin_s)[1] - 10, "pulled up, as its page says"
        assert all(value_at(shown.hand.squeeze, one.end_s)[0] == 0 for one in (curl, fold))


def test_a_line_falls_onto_the_row_below_behind_a_lifted_tip() -> None:
    shown = of("line")
    (thread,), held = layers(shown.views[1], Thread), layers(shown.views[1], Moved)[0]
    begin, end = shown.hand.begins(1), shown.hand.segments[1][1]
    assert shown.hand.at((begin + end) / 2)[2] == pytest.approx(5.0, abs=0.5), "half a centimetre, as the page says"
    for time, points in thread.keys:
        assert math.dist(points[-2:], value_at(held.keys, time)) < 0.6, "it ends at the tip"
        assert points[1] == points[3] == points[5] == thread.keys[0][1][1], "and lies on the row up to there"
        assert points[4] <= points[8] and (time in (begin, end) or points[8] - points[4] < 10), "which it leaves a little behind the tip"
    middle = thread.keys[len(thread.keys) // 2][1]
    assert middle[8] - middle[4] > 5
    assert thread.keys[-1][1][-2] - thread.keys[0][1][0] == pytest.approx(spec_of("line").run_mm)


def test_vermicelli_never_crosses_itself_and_goes_as_fast_and_as_far_as_it_is_worked_out() -> None:
    shown, tip = of("vermicelli"), Tip("round", 3.0)
    hand, kind = shown.hand, KINDS["line"]
    pitch = GAP_MM + tip.bead_width_mm
    area = CELLS[0] * CELLS[1] * pitch**2
    assert laid_mm(hand) == pytest.approx(wander_length_mm(area, pitch), rel=0.12)
    found = wandering(area, GAP_MM, tip)
    assert found.path_mm / (hand.segments[1][1] - hand.begins(1)) == pytest.approx(kind.speed_mm_per_s, rel=0.12)
    places = [(x, y) for _, (x, y, _) in hand.keys[2:-2]]
    for i, a in enumerate(places):
        for j in range(i + 6, len(places)):
            assert math.dist(a, places[j]) > 0.45 * pitch or j > len(places) - 3


def thread_front(shown: Film) -> Thread:
    found: Thread = layers(shown.views[0], Thread)[0]
    return found


@pytest.mark.parametrize("name", ["swag", "ruffled swag", "ruched swag", "string", "zigzag", "C scroll", "S scroll", "line"])
def test_the_bag_leans_from_above_as_the_page_says(name: str) -> None:
    said = 90.0 if name == "string" else float(KINDS[name].angle.split("°")[0])
    assert bag_of(of(name).views[1]).turn_deg == pytest.approx(said, abs=0.5)


def test_on_a_board_the_bag_points_back_along_the_row_at_45_degrees() -> None:
    hand = of("shell").hand
    x, y, z = on_surface("base", hand.faces[0][1])  # type: ignore[arg-type]
    assert x < 0 and math.degrees(math.atan2(y, -x)) == pytest.approx(45.0) and z == 0, "down to the board and back along the row"
    assert -60 < bag(hand, Tip("open star", 7.0), "base", FRONT, (0.0, 0.0)).turn_deg < -30 and LEAN["base"][2] > 0


def test_from_the_side_the_bag_stands_as_the_page_says() -> None:
    """A leaf at 45 degrees from below, rosettes and stars at right angles; seen from the front the latter hide what they pipe behind the hand."""
    for name, said in (("leaf", 45.0), ("rosette", 0.0), ("star", 0.0), ("dot", 0.0)):
        assert bag_of(of(name).views[1]).turn_deg == pytest.approx(said, abs=0.5)
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


@pytest.mark.parametrize("name", ["rose on a nail", "blossom"])
def test_the_arrows_of_a_nail_turn_it_as_it_is_turned(name: str) -> None:
    """Seen from above round its head; from the side along its near edge, which is the lower one in the view from above."""
    above, beside = of(name).views
    (nail,) = layers(above, Turning)
    x, y = nail.keys[0][1][:2]
    turned = math.copysign(1, nail.keys[-1][1][2] - nail.keys[0][1][2])  # on a screen, where y goes down, more is clockwise

    def arrow(view: View) -> list[tuple[float, float]]:
        standing = [item for layer in layers(view, Still) for item in layer.items if isinstance(item, Path)]
        (line,) = [item for item in standing if item.style.stroke == GUIDE and item.style.width_mm > 1 and item.parts[-1][0] != "Z"]
        return [(part[-2], part[-1]) for part in line.parts]  # type: ignore[misc]

    (x0, y0), *_, (x1, y1) = arrow(above)
    assert math.copysign(1, (x0 - x) * (y1 - y) - (y0 - y) * (x1 - x)) == turned
    along = arrow(beside)
    assert math.copysign(1, along[0][0] - along[-1][0]) == turned, "clockwise, the near edge goes to the left"


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


def test_a_blade_stays_while_the_cake_is_turned_once_and_leaves_the_rough_coat_only_where_it_has_not_been() -> None:
    shown = of("coating a side")
    held, turned, _ = (end for _, end in shown.hand.segments)
    table, blade = layers(shown.views[0], Turning)
    other = layers(shown.views[0], Moved)[0]
    assert value_at(table.keys, turned)[2] == pytest.approx(360.0) and value_at(table.keys, held)[2] == 0
    assert len({value_at(blade.keys, held + (turned - held) * k / 10)[:2] for k in range(11)}) == 1, "the scraper stays"
    x, y = table.keys[0][1][:2]
    at = value_at(blade.keys, turned)
    touch = math.degrees(math.atan2(at[1] - y, at[0] - x))
    (rough,) = [layer for layer in table.layers if isinstance(layer, Led)]
    points = path_points(rough.items[0])
    for k in range(1, 10):
        time = held + (turned - held) * k / 10
        end = points[round(value_at(rough.keys, time)[0] * (len(points) - 1))]
        seam = math.degrees(math.atan2(end[1], end[0])) + value_at(table.keys, time)[2]
        assert abs((seam - touch + 180) % 360 - 180) < 5, "the rough coat ends at the blade"
    assert all(value_at(shown.hand.squeeze, time)[0] == 0 for time in (0.0, turned + 0.4, shown.hand.time_s))
    off = next(time for time, (u, v, _) in blade.keys if time > turned and (u, v) != at[:2])
    assert value_at(shown.hand.squeeze, turned + 0.3)[0] == 0 and off > turned + 0.3, "the table stands before the blade goes"
    pulls = [math.dist(a[:2], b[:2]) for (_, a), (_, b) in zip(other.keys, other.keys[1:], strict=False)]
    assert len(pulls) > 20 and shown.force == "Press"
    assert max(speed for _, (speed,) in shown.hand.speed) * (turned - held) == pytest.approx(math.tau * 100.0)


def test_a_bag_is_squeezed_when_it_is_twisted_gripped_and_steadied() -> None:
    shown = of("holding a bag")
    named = dict(shown.hand.segments)
    begins = next(time for time, (squeeze,) in shown.hand.squeeze if squeeze > 0)
    assert named["twist the bag shut"] < named["close the hand round it"] < named["a finger of the other hand under the tip"] <= begins
    assert value_at(shown.hand.squeeze, shown.hand.time_s - 0.9)[0] == 0


def test_a_bag_is_filled_from_the_bottom_then_pressed_and_only_then_twisted() -> None:
    shown = of("filling a bag")
    folded, filled, up, pressed, _ = (end for _, end in shown.hand.segments)
    in_glass, on_board, marks = layers(shown.views[0], Turning)
    for k in range(1, 100):
        time = shown.hand.time_s * (k + 0.5) / 100
        here = [value_at(scene.keys, time)[0] < 300 for scene in (in_glass, on_board)]
        assert here == [time <= up, time > up], "in the glass, then on the board"
        assert (value_at(shown.hand.squeeze, time)[0] > 0) <= (up < time < pressed), "pressed on the board only"
    heap = next(layer for layer in in_glass.layers if isinstance(layer, Grown))
    (piece,) = heap.pieces
    heights = [high for _, _, high in heap.profile]
    assert folded < piece.begin_s and piece.end_s < filled and heights == sorted(heights) and heights[0] < 0.2 and heights[-1] == 1
    assert heap.anchor[1] >= max(float(part[-1]) for part in piece.motif.items[0].parts if len(part) > 2), "from the bottom"
    folds = next(layer for layer in on_board.layers if isinstance(layer, Grown))
    assert min(piece.begin_s for piece in folds.pieces) > pressed and len(folds.pieces) == 5
    assert value_at(marks.keys, pressed)[0] == 0 and value_at(marks.keys, up)[0] > 300
    first, last = (max(part[1] for part in item.parts if len(part) > 2) for item in marks.layers[0].items[:2])
    limp = next(layer for layer in on_board.layers if isinstance(layer, Turning)).layers[0].items[0]
    end = max(part[-2] for part in limp.parts if len(part) > 2)
    assert (last - first) / (end - first) == pytest.approx(2 / 3, abs=0.03), "two thirds of the bag from its ring on"


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
    assert keys_text(thinned(keys)) == "0 0 200 20 100 -20"
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
    for value, said in re.findall(r'="([^"]+)" data-of="[^"]+" data-keys="([^"s]+)"', text):
        numbers = len(re.findall(r"-?\d*\.?\d+", value))
        times = [time for time, _ in read_keys(said, numbers)]
        assert len(said.split()) % (numbers + 1) == 0 and times == sorted(times)
    assert len(gzip.compress(text.encode(), 9)) < 10_000


def test_films_of_one_page_write_what_they_share_once() -> None:
    on_page: set[str] = set()
    one, other = markup(of("C scroll"), on_page), markup(of("S scroll"), on_page)
    both = one + other
    names = re.findall(r' id="([^"]+)"', both)
    assert len(names) == len(set(names)), "no name twice"
    assert {used for pair in re.findall(r'xlink:href="#([^"]+)"|url\(#([^)]+)\)', both) for used in pair if used} <= set(names)
    assert len(other) < 0.85 * len(markup(of("S scroll"))), "the bag is there already"


def test_words_on_the_cake_change_with_the_scheme_as_the_cake_does() -> None:
    """Light words on the coat of the evening, dark ones on that of the day: both by their roles."""
    for name in ("swag", "ruched swag", "dropped flower"):
        text = markup(of(name))
        assert '<path class="pb-cake"' in text
        for words in re.findall(r"<text[^>]*>", text):
            assert 'class="pb-text"' in words, words


def test_another_colour_and_tip_may_be_asked_for() -> None:
    text = markup(film("shell", {"tip": "open star 5 mm", "colour": "bay"}))
    assert "open star 5 mm" in text and markup(film("shell", {})) != text and PALETTE["bay"]


def test_shells_of_three_sizes_are_as_large_as_their_squeeze_is_long() -> None:
    """Half the time, half the buttercream; the tail at one speed; each begun where the tail of the last ends."""
    shown = of("shells of three sizes")
    hand = shown.hand
    heads = [hand.moment(k, 1.0) - hand.begins(k) for k in range(0, 12, 3)]
    assert [head / heads[0] for head in heads] == pytest.approx([1, 2, 3, 2])
    assert heads[1] == pytest.approx(hand_of(KINDS["shell"].strokes(RowSpec("shell", Tip("open star", 7.0)))).segments[0][1]), "a usual shell"
    for view in shown.views:
        pieces = [layer.pieces[0] for layer in layers(view, Grown)]
        for number, piece in enumerate(pieces):
            for size in (piece.matrix[0] / pieces[1].matrix[0], piece.matrix[3] / pieces[1].matrix[3]):
                assert size**3 == pytest.approx(heads[number] / heads[1])
            assert piece.matrix[5] == pieces[0].matrix[5], "all tails on one line"
        x0 = view.layers[-1].keys[0][1][0]  # type: ignore[union-attr]
        for piece, number in zip(pieces, range(0, 12, 3), strict=True):
            along = piece.matrix[4] - x0
            assert abs(hand.at(hand.begins(number))[0] - along) < 1.0, "its head is where the tip begins it"
            assert (piece.begin_s, piece.end_s) == pytest.approx((hand.begins(number), hand.segments[number + 1][1]))
    for (t0, a), (t1, b) in zip(hand.keys, hand.keys[1:], strict=False):
        assert t1 > t0 or math.dist(a, b) < 1e-6, "the tip never jumps"


def test_nested_strings_hang_from_the_same_joints_the_deepest_first() -> None:
    shown = of("nested strings")
    hand, kind = shown.hand, KINDS["string"]
    threads = layers(shown.views[0], Thread)
    assert [one.keys[0][0] for one in threads] == sorted(one.keys[0][0] for one in threads) and len(threads) == LOOPS
    drops = []
    for view in shown.views:
        held = layers(view, Moved)[0]
        for thread in layers(view, Thread):
            for time, points in thread.keys:
                assert math.dist(points[-2:], value_at(held.keys, time)) < 1.5, "the thread ends at the tip"
                assert value_at(hand.squeeze, time - 0.01)[0] > 0, "while it is squeezed"
                assert math.dist(points[:2], thread.keys[0][1][:2]) < 1e-6, "and stays stuck at its joint"
    for thread in threads:
        last = thread.keys[-1][1]
        ends = list(zip(last[::2], last[1::2], strict=True))
        drops.append(max(y for _, y in ends) - ends[0][1])
        length = math.fsum(math.dist(a, b) for a, b in zip(ends, ends[1:], strict=False))
        whole = kind.length_mm(ends[-1][0] - ends[0][0], DEEPEST_MM * (LOOPS - len(drops) + 1) / LOOPS)  # type: ignore[attr-defined]
        assert length == pytest.approx(whole, rel=0.04)
        assert abs(ends[0][0] - threads[0].keys[0][1][0]) <= 2 * BESIDE_MM and ends[0][1] == pytest.approx(ends[-1][1])
    assert drops == sorted(drops, reverse=True) and drops[0] - drops[-1] > 8
    for (t0, a), (t1, b) in zip(hand.keys, hand.keys[1:], strict=False):
        assert t1 > t0 or math.dist(a, b) < 1e-6, "the tip never jumps"


def test_a_row_is_taken_up_where_it_was_stopped_and_with_a_clean_tip() -> None:
    shown = of("a row taken up again")
    hand, named = shown.hand, [name for name, _ in shown.hand.segments]
    wiped, tried, back = (named.index(name) for name in ("wipe the tip", "squeeze a little onto a card", "set the tip on the last point"))
    assert wiped < tried < back == tried + 1
    stopped, again = hand.at(hand.begins(wiped - 1)), hand.at(hand.segments[back][1])
    assert again == pytest.approx(stopped, abs=0.01), "on its point, as if nobody had stopped"
    for part in (wiped - 1, wiped, back):
        assert all(value_at(hand.squeeze, hand.moment(part, k / 20))[0] == 0 for k in range(1, 21)), "no squeeze away from the row"
    assert value_at(hand.squeeze, hand.moment(tried, 0.5))[0] > 0.3
    for view in shown.views:
        pieces = [layer.pieces[0] for layer in layers(view, Grown)]
        assert pieces[0].end_s <= hand.begins(wiped) and pieces[1].begin_s >= hand.segments[back][1]
        steps = [b.matrix[4] - a.matrix[4] for a, b in zip(pieces, pieces[1:], strict=False)]
        assert steps == pytest.approx([steps[0]] * len(steps)), "the join is where any other would be"
    for (t0, a), (t1, b) in zip(hand.keys, hand.keys[1:], strict=False):
        assert t1 > t0 or math.dist(a, b) < 1e-6, "the tip never jumps"


@pytest.mark.parametrize("point", [9.0, -9.0])
def test_the_arrow_of_a_squeeze_points_at_the_bag_and_one_way_only(point: float) -> None:
    """The bag lies along the first axis: one corner is nearest to it, and the arrow is clearly longer than wide."""
    (arrow,) = pressing(47.0, point)
    assert isinstance(arrow, Path)
    corners = [(part[1], part[2]) for part in arrow.parts if part[0] != "Z"]
    first, second = sorted(corners, key=lambda corner: abs(corner[1]))[:2]
    assert first == (47.0, point)
    assert abs(second[1]) > abs(point) + 3
    across, along = (max(each) - min(each) for each in zip(*corners, strict=True))
    assert along > 1.4 * across


def axis_of(arrow: Moved) -> list[tuple[float, float]]:
    """The line of an arrow that leads."""
    (line,) = [item for item in (*arrow.items, *arrow.pressed) if isinstance(item, Path) and item.style.stroke == GUIDE]
    return path_points(line)


@pytest.mark.parametrize("name", ["ruffled swag", "rope"])
def test_a_finger_of_the_other_hand_goes_under_the_tip(name: str) -> None:
    """As far from it all the time as at first, on its lower side, its arm from below."""
    for view in of(name).views:
        held, finger = layers(view, Moved)[:2]
        assert held is bag_of(view) and 90 < finger.turn_deg < 140
        far = [(b[0] - a[0], b[1] - a[1]) for (_, a), (_, b) in zip(held.keys, finger.keys, strict=True)]
        assert all(off == pytest.approx(far[0]) for off in far) and 8 < math.hypot(*far[0]) < 14
        along = math.radians(held.turn_deg)
        assert far[0][1] * math.cos(along) - far[0][0] * math.sin(along) > 5, "under its axis, not over it"


@pytest.mark.parametrize("name", ["ruched swag", *TURNED])
def test_an_arrow_with_two_heads_lies_along_the_strokes_of_a_tip_that_is_rocked(name: str) -> None:
    """Before the tip, there while the hand squeezes and only then; a tip that moves straight on has none."""
    shown = of(name)
    front = shown.views[0]
    (arrow,) = [layer for layer in layers(front, Moved) if not layer.items]
    bag_held = bag_of(front)
    (x0, y0), *_, (x1, y1) = axis_of(arrow)
    assert y0 == y1 == 0 and x0 == -x1, "drawn along x"
    assert len([item for item in arrow.pressed if isinstance(item, Path) and sum(part[0] == "Z" for part in item.parts) == 2]) == 2, (
        "two heads and their rim"
    )
    ends = [
        (time, value_at(bag_held.keys, time)[:2])
        for time, place in shown.hand.keys
        if value_at(shown.hand.squeeze, time)[0] > 0.9 and place[2] < 0.01
    ]
    checked = 0
    for (t0, a), (t1, b), (t2, c) in zip(ends, ends[1:], ends[2:], strict=False):
        to, fro = (b[0] - a[0], b[1] - a[1]), (b[0] - c[0], b[1] - c[1])
        if min(math.hypot(*to), math.hypot(*fro)) < 2.0:
            continue
        x, y, turn = value_at(arrow.keys, t1)
        across = [math.degrees(math.atan2(way[1], way[0])) for way in (to, fro)]
        off = [(each - turn + 90) % 180 - 90 for each in across]
        assert abs(sum(off) / 2) < 12 and max(map(abs, off)) < 50, "between the stroke that comes and the one that goes"
        middle = ((a[0] + c[0]) / 4 + b[0] / 2, (a[1] + c[1]) / 4 + b[1] / 2)
        assert math.dist((x, y), middle) == pytest.approx(AHEAD_MM, abs=2.5) and x > middle[0] - 6
        checked += t2 > t0
    assert checked > 10
    assert not [layer for layer in layers(of("swag").views[0], Moved) if not layer.items], "a swag is led straight"


def test_an_arrow_turns_as_the_tip_goes_round_a_rosette() -> None:
    shown = of("rosette")
    front = shown.views[0]
    (arrow,) = [layer for layer in layers(front, Moved) if layer is not bag_of(front)]
    begin, end = shown.hand.begins(1), shown.hand.begins(2)
    centre = value_at(arrow.keys, end)
    path = [value_at(bag_of(front).keys, begin + (end - begin) * k / 40) for k in range(20, 41)]

    def round_it(points: list[tuple[float, ...]], middle: tuple[float, ...]) -> float:
        spokes = [(x - middle[0], y - middle[1]) for x, y, *_ in points]
        return math.fsum(a[0] * b[1] - a[1] * b[0] for a, b in zip(spokes, spokes[1:], strict=False))

    assert round_it(path, centre) * round_it(axis_of(arrow), (0.0, 0.0)) > 0, "the same way round"
    assert max(math.dist(place, centre) for place in path) < min(map(math.hypot, *zip(*axis_of(arrow), strict=True)))
    assert value_at(arrow.keys, begin - 0.1)[0] > 300 < value_at(arrow.keys, shown.hand.time_s)[0], "only while it goes round"


def test_arrows_lead_along_each_s_of_a_rope_then_under_its_belly() -> None:
    shown = of("rope")
    hand, strokes = shown.hand, KINDS["rope"].strokes(spec_of("rope"))
    for view in shown.views:
        arrows = layers(view, Moved)[2:]
        assert len(arrows) == 2
        for step, arrow in enumerate(arrows):
            for k in range(shown.pieces):
                seen = [value_at(arrow.keys, hand.moment(3 * k + each, 0.5))[0] < 300 for each in range(3)]
                assert seen == [each == step for each in range(3)]
                at = value_at(arrow.keys, hand.moment(3 * k + step, 0.5))
                assert (
                    math.dist(
                        [p + q for p, q in zip(at, axis_of(arrow)[0], strict=True)], value_at(bag_of(view).keys, hand.begins(3 * k + step) + 0.01)
                    )
                    < 14
                )
            first, last = (
                CAMERAS[view.title](on_surface(LOOKS["rope"].surface, place)) for place in (strokes[step].points[0], strokes[step].points[-1])
            )
            assert axis_of(arrow)[0] == pytest.approx(first)
            assert math.dist(axis_of(arrow)[-1], last) == pytest.approx(0.8 * HEAD_MM), "its line ends within its head"


def test_a_bag_is_turned_over_its_twist_only_while_it_is_twisted() -> None:
    shown = of("holding a bag")
    (group,) = layers(shown.views[0], Turning)
    arrow = group.layers[-1]
    twisted = shown.hand.segments[0][1]
    assert isinstance(arrow, Moved) and value_at(arrow.keys, 0.0)[0] == 0 and value_at(arrow.keys, 0.8 * twisted)[0] == 0
    assert value_at(arrow.keys, twisted)[0] > 300


@pytest.mark.parametrize(("name", "view"), [("swag", 1), ("ruched swag", 1), ("ruched border", 0), ("blossom", 1), ("bud", 1), ("rose on a nail", 1)])
def test_a_frame_on_paper_shows_how_the_slot_of_a_petal_tip_lies(name: str, view: int) -> None:
    """The ring with its opening is in the frames; the words beside it, too small there, on the screen only."""
    shown = replace(of(name), views=(of(name).views[view],))
    text = markup(shown)
    stage, strip = text[text.index('class="pb-moving-stage"') :].split('class="pb-moving-strip"')
    assert "thick end" in stage and "<text" not in strip
    last = [layer for layer in shown.views[0].layers if not isinstance(layer, Moved)][-2:]
    assert [getattr(layer, "inset", False) for layer in last] == [False, True]


@pytest.mark.parametrize(
    ("name", "view", "across", "down"),
    [("swag", 1, -0.7, 0.7), ("ruffled swag", 1, -0.7, 0.7), ("ruched swag", 1, 0.8, 0.6), ("ruched border", 0, 1.0, 0.2), ("bud", 1, 0.4, -0.9)],
)
def test_the_slot_in_a_ring_lies_as_its_words_say(name: str, view: int, across: float, down: float) -> None:
    """From its thick end, on the cake, to its thin one, out of it: below the line of a side seen from above, at the right of one seen from beside.

    It lies across the bag, since no tip is open along itself: for a bag at 45 degrees at right angles, for one that stands square aslant.
    """
    shown = of(name).views[view]
    (slot,) = [item for layer in layers(shown, Still) for item in layer.items if isinstance(item, Group) and item.matrix]
    _, _, c, d, _, _ = slot.matrix
    assert (-c, -d) == pytest.approx((across, down), abs=0.1)
    bag_deg = -45.0 if name == "ruched border" else bag_of(shown).turn_deg  # the ring beside a border shows it cut through, as its view does not
    between = abs((math.degrees(math.atan2(-d, -c)) - bag_deg + 90) % 180 - 90)
    assert between > 45, "more across the bag than along it"


def test_the_slot_at_a_rose_leans_in_to_the_bud_and_out_for_the_last_petals() -> None:
    shown = of("rose on a nail")
    slot = layers(shown.views[1], Turning)[0]
    _, bud, whole = (end for _, end in shown.hand.segments)
    assert value_at(slot.keys, bud)[2] < 0 < value_at(slot.keys, whole)[2], "the bud is at its left"
