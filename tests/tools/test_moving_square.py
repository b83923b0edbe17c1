"""The moving picture of marks carried down: each stands under its prick, made at the edge of a square that stands there, while the cake stands."""

from __future__ import annotations

import math

import pytest

from calc.division import pitch_mm
from calc.drawing.scene import Use
from tools.films.moving import Film, Laid, Layer, Moved, Still, Turning, View, value_at
from tools.films.moving_films import film
from tools.films.moving_marking import ASLANT
from tools.films.moving_square import ABOVE_AT, FRONT_AT, JOINT, MARK_S, MARKS_S, RADIUS, REPEATS, SIDE_MM, TICK, TURNS_S


def carried() -> Film:
    return film("carrying the marks down", {})


def top_of(view: View) -> Turning:
    return next(layer for laid in view.layers if isinstance(laid, Laid) for layer in laid.layers if isinstance(layer, Turning))


def ticks() -> list[Moved]:
    return [layer for layer in carried().views[1].layers if isinstance(layer, Moved) and layer.items == TICK]


def loose(view: View) -> list[Moved]:
    """The square and the hand that marks."""
    return [layer for layer in view.layers if isinstance(layer, Moved) and layer.items != TICK]


def left_and_rim(view: View) -> list[Layer]:
    """The hands that are drawn as in a mirror."""
    return [layer for laid in view.layers if isinstance(laid, Laid) and laid.matrix[0] < 0 for layer in laid.layers]


def prick_at(view: View, number: int, time: float) -> tuple[float, float]:
    """Where a prick is on the top, from its middle."""
    (still,) = (layer for layer in top_of(view).layers if isinstance(layer, Still))
    item = still.items[number]
    assert isinstance(item, Use)
    x, y = item.matrix[4:]
    turn = math.radians(value_at(top_of(view).keys, time)[2])
    return x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)


def test_the_pricks_are_the_divisions_of_the_side() -> None:
    for view in carried().views:
        places = [prick_at(view, k, 0.0) for k in range(REPEATS)]
        assert all(math.hypot(*place) == pytest.approx(RADIUS) for place in places)
        around = sorted(math.atan2(y, x) % math.tau for x, y in places)
        assert [(b - a) / math.tau * SIDE_MM for a, b in zip(around, around[1:], strict=False)] == pytest.approx([pitch_mm(SIDE_MM, REPEATS)] * 7)
        assert places[0] == pytest.approx((0.0, RADIUS)), "one is in front of the worker"


def test_each_mark_stands_under_its_prick_however_the_cake_is_turned() -> None:
    """At the line of the joints; the cake is turned by one repeat from each to the next."""
    shown = carried()
    front = shown.views[1]
    assert len(ticks()) == len(MARKS_S) == 3
    for number, tick in enumerate(ticks()):
        assert value_at(tick.keys, MARKS_S[number])[0] > 300 > value_at(tick.keys, MARKS_S[number] + MARK_S)[0], "not before it is made"
        for k in range(40):
            time = MARKS_S[number] + MARK_S + k * (shown.hand.time_s - MARKS_S[number] - MARK_S) / 39
            x, y = value_at(tick.keys, time)
            u, v = prick_at(front, number, time)
            assert x - FRONT_AT[0] == pytest.approx(u, abs=0.25), "under its prick"
            assert y - FRONT_AT[1] == pytest.approx(ASLANT * v + JOINT, abs=0.25), "on the line of the joints"


def test_a_mark_is_made_at_the_edge_of_the_square_which_stands_at_the_prick() -> None:
    shown = carried()
    above, front = shown.views
    foot = value_at(loose(front)[0].keys, MARKS_S[0])
    for number, begin in enumerate(MARKS_S):
        for share in (0.2, 0.5, 0.8):
            time = begin + share * MARK_S
            for view, x0 in ((above, ABOVE_AT[0]), (front, FRONT_AT[0])):
                square, stick = loose(view)
                edge, point = value_at(square.keys, time), value_at(stick.keys, time)
                assert edge[0] - x0 == pytest.approx(prick_at(view, number, time)[0], abs=0.05), "its edge under the prick"
                assert 0 <= point[0] - edge[0] < 1.5, "the stick goes along the edge"
            assert value_at(loose(front)[0].keys, time) == pytest.approx(foot), "always in the same place"
            assert abs(point[1] - (FRONT_AT[1] + JOINT + ASLANT * RADIUS)) < 2.5
            assert 0 < value_at(shown.hand.squeeze, time)[0] <= 0.2, "lightly"
    for k in range(400):
        time = shown.hand.time_s * k / 400
        pressed = value_at(shown.hand.squeeze, time)[0] > 0
        assert not pressed or any(begin <= time <= begin + MARK_S for begin in MARKS_S), "pressed at no other time"
    assert foot[1] > FRONT_AT[1] + JOINT + ASLANT * RADIUS + 10, "it stands on the turntable, far below the joints"


def test_the_square_is_away_while_the_cake_is_turned_and_the_right_hand_goes_with_the_rim() -> None:
    shown = carried()
    for begin, end in TURNS_S:
        for view in shown.views:
            square, stick = loose(view)
            stood = value_at(square.keys, MARKS_S[0])
            assert all(math.dist(value_at(square.keys, begin + (end - begin) * k / 5), stood) > 8 for k in range(6))
            assert value_at(stick.keys, (begin + end) / 2)[0] > 300 and value_at(shown.hand.squeeze, (begin + end) / 2)[0] == 0
            turned = value_at(top_of(view).keys, end)[2] - value_at(top_of(view).keys, begin)[2]
            assert turned == pytest.approx(360.0 / REPEATS), "by one repeat, the next prick to the front"
        rim = next(layer for layer in left_and_rim(shown.views[0]) if isinstance(layer, Moved) and len(layer.keys[0][1]) == 3)
        angles = []
        for time in (begin + 0.01, end):
            x, y, _ = value_at(rim.keys, time)
            angles.append(math.degrees(math.atan2(y - ABOVE_AT[1], -x - ABOVE_AT[0])))
        assert angles[1] - angles[0] == pytest.approx(360.0 / REPEATS, abs=1.0), "from the right to the front, as the cake goes"
