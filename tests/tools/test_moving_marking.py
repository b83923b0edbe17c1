"""The moving pictures of a side divided by hand: where the points stand, what they mark, and that the last step closes."""

from __future__ import annotations

import math
import re

import pytest

from calc.division import closing_error_mm, dividers_mm, pitch_mm
from tools.films.moving import Film, Grown, Laid, Moved, Rod, Turning, View, value_at
from tools.films.moving_films import film
from tools.films.moving_marking import ABOVE_AT, HALF_MM, NARROW_MM, SCALE, SIDE_MM, STEPS
from tools.films.moving_markup import markup

EDGE = SCALE * HALF_MM
ROUNDS = 2


def rods(view: View) -> list[Rod]:
    return [layer for layer in view.layers if isinstance(layer, Rod)]


def inside(view: View) -> list[object]:
    """What lies in the rounds that are seen aslant, and in what turns there."""
    return [
        inner for laid in view.layers if isinstance(laid, Laid) for turned in laid.layers if isinstance(turned, Turning) for inner in turned.layers
    ]


def turned_deg(view: View, time: float) -> float:
    """How far the cake is turned."""
    table = next(layer for laid in view.layers if isinstance(laid, Laid) for layer in laid.layers if isinstance(layer, Turning))
    return value_at(table.keys, time)[2]


def on_cake(view: View, which: int, time: float) -> tuple[float, float]:
    """A point of the dividers as it stands on the cake, which is turned: how far from the middle, and in which direction from the front [deg]."""
    x, y = value_at(rods(view)[which].keys, time)[2:]
    x, y = x - ABOVE_AT[0], y - ABOVE_AT[1]
    return math.hypot(x, y), (math.degrees(math.atan2(y, x)) - 90.0 - turned_deg(view, time)) % 360.0


def walked() -> Film:
    return film("walking the dividers", {})


def turns_of(shown: Film) -> list[tuple[float, float]]:
    """When the cake is turned by a step under the dividers, which is while a point swings over."""
    keys = next(layer for laid in shown.views[0].layers if isinstance(laid, Laid) for layer in laid.layers if isinstance(layer, Turning)).keys
    found = [(t0, t1) for (t0, a), (t1, b) in zip(keys, keys[1:], strict=False) if 40 < b[2] - a[2] < 61]
    assert len(found) == ROUNDS * (STEPS - 1)
    return found


def apart(a: float, b: float) -> float:
    """From one direction to another, the shorter way [deg]."""
    return (a - b + 180.0) % 360.0 - 180.0


def test_both_points_rest_on_the_edge_as_far_from_each_other_as_they_are_set() -> None:
    shown = walked()
    right = dividers_mm(SIDE_MM, STEPS)
    for number, (_, end) in enumerate(turns_of(shown)):
        setting = right - NARROW_MM if number < STEPS - 1 else right
        ends = [value_at(rod.keys, end + 0.1)[2:] for rod in rods(shown.views[0])]
        assert math.dist(*ends) == pytest.approx(SCALE * setting, abs=0.02)
        assert all(math.dist(place, ABOVE_AT) == pytest.approx(EDGE, abs=0.02) for place in ends)


def test_one_point_rests_on_the_turning_cake_and_the_other_is_lifted_over_to_the_next_place() -> None:
    shown = walked()
    above, front = shown.views
    resting = 1
    for begin, end in turns_of(shown):
        if begin == turns_of(shown)[STEPS - 1][0]:
            resting = 1  # the second round begins as the first did
        places = [on_cake(above, resting, begin + (end - begin) * k / 8) for k in range(9)]
        assert all(far == pytest.approx(EDGE, abs=0.5) and abs(apart(at, places[0][1])) < 1.5 for far, at in places), (
            "it stays where it is on the cake"
        )
        before, after = on_cake(above, 1 - resting, begin)[1], on_cake(above, 1 - resting, end)[1]
        assert apart(before, places[0][1]) == pytest.approx(apart(places[0][1], after), abs=0.05), "from one step behind it to one before it"
        assert apart(before, places[0][1]) > 55
        middle = (begin + end) / 2
        feet = [value_at(rod.keys, middle)[3] for rod in rods(front)]
        deep = [value_at(rod.keys, middle)[3] for rod in rods(above)]
        lifted = (feet[resting] - feet[1 - resting]) - 0.38 * (deep[resting] - deep[1 - resting])
        assert lifted > 5, "and it is lifted clear"
        resting = 1 - resting


def test_the_hand_stays_and_the_other_turns_the_cake() -> None:
    shown = walked()
    above = shown.views[0]
    other, hand = (layer for layer in above.layers if isinstance(layer, Moved))
    for begin, end in turns_of(shown):
        times = [begin + (end - begin) * k / 12 for k in range(13)]
        places = [value_at(hand.keys, time)[:2] for time in times]
        assert max(math.dist(a, b) for a in places for b in places) < 0.3 * SCALE * dividers_mm(SIDE_MM, STEPS), "not your arm"
        at = [value_at(other.keys, time)[:2] for time in (begin + 0.01, end)]
        angles = [math.degrees(math.atan2(y - ABOVE_AT[1], x - ABOVE_AT[0])) for x, y in at]
        assert apart(angles[1], angles[0]) == pytest.approx(turned_deg(above, end) - turned_deg(above, begin), abs=1.5), "the hand goes with the rim"


def test_the_first_round_lands_short_by_what_is_worked_out_and_the_second_on_the_first_mark() -> None:
    shown = walked()
    above, turns = shown.views[0], turns_of(shown)
    setting = dividers_mm(SIDE_MM, STEPS) - NARROW_MM
    rested = shown.hand.segments[1][1]
    start = on_cake(above, 0, rested)[1]
    for number, expected in ((STEPS - 2, closing_error_mm(SIDE_MM, STEPS, setting)), (2 * STEPS - 3, 0.0)):
        end = turns[number][1]
        which = STEPS % 2
        off = SIDE_MM * -apart(on_cake(above, which, end)[1], start) / 360.0
        assert off == pytest.approx(expected, abs=0.3)
    assert f"{-closing_error_mm(SIDE_MM, STEPS, setting):.0f} mm short" in shown.note
    assert round(-closing_error_mm(SIDE_MM, STEPS, setting) / STEPS) == NARROW_MM, "the error divided by the repeats puts it right"
    gap = next(layer for layer in inside(above) if isinstance(layer, Moved))
    landed, opened = turns[STEPS - 2][1], shown.hand.segments[5][1]
    seen = [value_at(gap.keys, time)[0] < 300 for time in (landed - 0.1, landed + 0.1, opened, shown.hand.time_s)]
    assert seen == [False, True, False, False], "the gap is shown when it is there"


def test_marks_stand_at_the_divisions_and_are_pricked_lightly_in_the_second_round_only() -> None:
    shown = walked()
    again = shown.hand.segments[5][1]
    pressed = [time for time, (squeeze,) in shown.hand.squeeze if squeeze > 0]
    assert min(pressed) > again and max(squeeze for _, (squeeze,) in shown.hand.squeeze) <= 0.2
    for view in shown.views:
        (dots,) = [layer for layer in inside(view) if isinstance(layer, Grown)]
        places = [(piece.matrix[4], piece.matrix[5]) for piece in dots.pieces]
        assert len(places) == STEPS - 1, "the last step meets the first mark"
        angles = [math.degrees(math.atan2(y, x)) for x, y in places]
        start = on_cake(shown.views[0], 0, shown.hand.segments[1][1])[1] + 90.0
        for k, (angle, place) in enumerate(zip(angles, places, strict=True), 1):
            assert math.hypot(*place) == pytest.approx(EDGE)
            assert apart(start, angle) % 360.0 * SIDE_MM / 360.0 == pytest.approx(k * pitch_mm(SIDE_MM, STEPS), abs=0.3)
        for piece in dots.pieces:
            assert piece.begin_s > again
            x, y = piece.matrix[4:]
            direction = (math.degrees(math.atan2(y, x)) - 90.0) % 360.0
            near = min(abs(apart(on_cake(shown.views[0], which, piece.begin_s)[1], direction)) for which in (0, 1))
            assert near < 0.5, "a point is there"
            assert any(piece.begin_s <= time <= piece.end_s for time in pressed)


def test_the_ruler_says_what_the_dividers_are_set_to() -> None:
    """When they are set the two points are as far apart as in the first round, and not yet on the cake."""
    shown = walked()
    set_s = shown.hand.segments[0][1]
    ends = [value_at(rod.keys, set_s)[2:] for rod in rods(shown.views[0])]
    assert math.dist(*ends) == pytest.approx(SCALE * (dividers_mm(SIDE_MM, STEPS) - NARROW_MM), abs=0.02)
    assert min(math.dist(place, ABOVE_AT) for place in ends) > EDGE


def test_a_rod_is_written_from_one_end_to_the_other() -> None:
    """In each frame as long as the layer says at that moment, and not there where it has not begun."""
    text = str(markup(walked()))
    written = re.findall(r'<path id="[^"]+" d="M(\S+) (\S+)L(\S+) (\S+)" data-of="d" data-keys="', text)
    assert len(written) == 4
    poster = walked().moments[2]
    expected = [value_at(rod.keys, poster) for view in walked().views for rod in rods(view)]
    for found, wanted in zip(written, expected, strict=True):
        assert [float(part) for part in found] == pytest.approx(wanted, abs=0.06)
