"""The moving picture of a paper strip: as long as the side, folded to its repeats, and its marks at the divisions."""

from __future__ import annotations

import math
import re

import pytest

from calc.division import pitch_mm
from tools.films.moving import Film, Grown, Laid, Led, Moved, Rod, Sheet, Turning, View, value_at
from tools.films.moving_films import film
from tools.films.moving_markup import markup
from tools.films.moving_strip import DROP_MM, FLAT, LEFT, MIDDLE, NEAR, RADIUS, REPEATS, SIDE_MM

PITCH = pitch_mm(SIDE_MM, REPEATS)


def marked() -> Film:
    return film("marking with a strip", {})


def every(found: object, kind: type) -> list:  # type: ignore[type-arg]
    """All layers of a kind, those within others too."""
    out: list[object] = []
    for layer in found:  # type: ignore[attr-defined]
        out += [layer] if isinstance(layer, kind) else []
        out += every(layer.layers, kind) if isinstance(layer, Turning | Laid) else []
    return out


def scenes(view: View) -> list[Turning]:
    """At the side, on the board, and at the side again."""
    found = [layer for layer in view.layers if isinstance(layer, Turning)]
    assert len(found) == 3
    return found


def ends(shown: Film) -> dict[str, float]:
    return dict(shown.hand.segments)


def pressed_at(shown: Film, time: float) -> float:
    return value_at(shown.hand.squeeze, time)[0]


def test_nothing_in_it_goes_back_in_time() -> None:
    for view in marked().views:
        for layer in every(view.layers, (Moved, Led, Rod, Sheet, Turning)):  # type: ignore[arg-type]
            times = [time for time, _ in layer.keys]
            assert times == sorted(times) and times[-1] <= marked().hand.time_s


def test_one_scene_at_a_time_and_the_strip_is_on_the_cake_or_on_the_board() -> None:
    shown = marked()
    pencilled, unfolded = list(ends(shown).values())[1], scenes(shown.views[1])[2].keys
    again = next(time for time, (x, *_) in unfolded if x == 0)
    wraps = [layer for layer in shown.views[0].layers if isinstance(layer, Turning)]
    for k in range(250):
        time = shown.hand.time_s * (k + 0.5) / 250
        seen = [value_at(scene.keys, time)[0] < 300 for scene in scenes(shown.views[1])]
        assert seen == [time < pencilled, pencilled < time < again, again < time] or min(abs(time - pencilled), abs(time - again)) < 0.02
        round_it = [value_at(wrap.keys, time)[0] < 300 for wrap in wraps]
        assert not (seen[1] and any(round_it)), "not in both places"
    assert not any(value_at(wrap.keys, shown.hand.time_s)[0] < 300 for wrap in wraps), "taken off at the end"


@pytest.mark.parametrize(("number", "at_back"), [(0, False), (1, True)])
def test_half_of_a_strip_stays_as_long_as_it_is_while_it_is_led_round(number: int, at_back: bool) -> None:
    """What lies on and what is free are together half the side, and a little more before it is cut; in the end both halves meet."""
    wrap = [layer for layer in marked().views[0].layers if isinstance(layer, Turning)][number]
    rod, line = every([wrap], Rod)[0], every([wrap], Led)[0]
    half = math.pi * RADIUS
    lengths = []
    for time, (x0, y0, x1, y1) in rod.keys:
        assert math.hypot(x0, y0) == pytest.approx(RADIUS), "it leaves the round there"
        assert x0 * (x1 - x0) + y0 * (y1 - y0) == pytest.approx(0.0, abs=1e-6), "straight on"
        lengths.append(value_at(line.keys, time)[0] * half + math.dist((x0, y0), (x1, y1)))
    assert lengths == pytest.approx([lengths[0]] * len(lengths))
    assert lengths[0] - half == pytest.approx(0.0 if at_back else 4.0), "cut, it is as long as the side"
    *_, x, y = rod.keys[-1][1]
    assert (x, y) == pytest.approx((0.0, -RADIUS) if at_back else (-4.0, RADIUS), abs=1e-6), "the first time they overlap"


def test_each_fold_halves_the_strip_and_the_last_leaves_one_repeat() -> None:
    shown = marked()
    base, flap = every([scenes(shown.views[1])[1]], Sheet)
    begin, end = ends(shown)["cut there: it is as long as the side"], ends(shown)["fold it: halves, quarters, eighths"]
    wide = [(time, values[2] - LEFT) for time, values in base.keys]
    assert wide[0][1] == pytest.approx(FLAT * SIDE_MM) and all(begin < time < end for time, _ in wide)
    assert sorted({round(far / FLAT, 3) for _, far in wide}, reverse=True) == [SIDE_MM, SIDE_MM / 2, SIDE_MM / 4, SIDE_MM / 8]
    assert wide[-1][1] == pytest.approx(FLAT * PITCH)
    over = 0
    for begun in sorted({line for _, (line, *_) in flap.keys}):
        edges = [values[2] for _, values in flap.keys if values[0] == begun]
        assert edges[0] == pytest.approx(2 * begun - LEFT) and edges == sorted(edges, reverse=True), "the right half comes over the left one"
    for time, (line, _, edge, top, *_) in flap.keys:
        folded_to = LEFT + value_at(tuple((at, (far,)) for at, far in wide), time + 0.001)[0]
        assert line == pytest.approx(folded_to, abs=0.01), "folded where the strip now ends"
        over += abs(edge - LEFT) < 0.01
        assert top <= flap.keys[0][1][1] + 1e-9, "the flap is lifted, not pushed down"
    assert over >= 3, "each flap comes to lie edge on edge"


def test_the_curve_is_one_repeat_wide_and_hangs_by_the_drop() -> None:
    shown = marked()
    first, second = [layer for layer in every([scenes(shown.views[1])[2]], Led)]
    for line in (first, second):
        points = [(float(part[-2]), float(part[-1])) for part in line.items[0].parts]
        assert points[-1][0] - points[0][0] == pytest.approx(NEAR * PITCH)
        assert max(y for _, y in points) - points[0][1] == pytest.approx(NEAR * DROP_MM, rel=0.02) and points[0][1] == points[-1][1]


def test_each_joint_is_pricked_at_its_division_where_the_stick_is_and_lightly() -> None:
    shown = marked()
    again = ends(shown)["wrap it round again, ends at the back"]
    assert max(squeeze for _, (squeeze,) in shown.hand.squeeze) <= 0.2
    assert min(time for time, (squeeze,) in shown.hand.squeeze if squeeze > 0) > again, "nothing is pressed before"
    above, paper = shown.views
    (dots,) = every(above.layers, Grown)
    places = [(piece.matrix[4] - MIDDLE[0], piece.matrix[5] - MIDDLE[1]) for piece in dots.pieces]
    assert len(places) == REPEATS and all(math.hypot(*place) == pytest.approx(RADIUS) for place in places)
    along = sorted(math.degrees(math.atan2(x, y)) % 360 for x, y in places)
    assert along == pytest.approx([360 / REPEATS * k for k in range(REPEATS)])
    (near,) = every([scenes(paper)[2]], Grown)
    steps = [b.matrix[4] - a.matrix[4] for a, b in zip(near.pieces, near.pieces[1:], strict=False)]
    assert steps == pytest.approx([NEAR * PITCH] * 2)
    stick = [layer for layer in scenes(paper)[2].layers if isinstance(layer, Moved)][-1]
    from_above = [layer for layer in above.layers if isinstance(layer, Moved)][-1]
    for number, piece in enumerate(near.pieces):
        time = piece.begin_s
        assert value_at(stick.keys, time) == pytest.approx(piece.matrix[4:], abs=0.3) and pressed_at(shown, time + 0.1) > 0.1
        there = dots.pieces[number]
        assert there.matrix[4] - MIDDLE[0] == pytest.approx(RADIUS * math.sin(math.tau * (number - 1) / REPEATS)), "the left joint first, as in front"
        assert there.begin_s == time and math.dist(value_at(from_above.keys, time), there.matrix[4:]) < 1.2, "in both views at once"


def test_the_stick_runs_along_the_edge_and_leaves_its_line_behind_it() -> None:
    """The line ends where the stick is, while it presses lightly; before the strip comes off all is marked."""
    shown = marked()
    scene = scenes(shown.views[1])[2]
    stick = [layer for layer in scene.layers if isinstance(layer, Moved)][-1]
    for line in every([scene], Led):
        points = [(float(part[-2]), float(part[-1])) for part in line.items[0].parts]
        begin, end = (next(time for time, (share,) in line.keys if share == wanted) for wanted in (0, 1))
        for share in (0.0, 0.5, 1.0):
            time = begin + (end - begin) * share
            near = points[round(share * (len(points) - 1))]
            assert math.dist(value_at(stick.keys, time), near) < 0.5
            assert 0 < pressed_at(shown, min(max(time, begin + 0.05), end - 0.05)) <= 0.2
    strip = [layer for layer in scene.layers if isinstance(layer, Moved)][0]
    lifted = next(time for time, (_, y) in strip.keys if time > end and y < 0)
    assert end < ends(shown)["prick each joint, run the stick along the edge"] < lifted


def test_a_sheet_is_written_with_all_its_corners() -> None:
    text = str(markup(marked()))
    found = re.findall(r'd="M([^"Z]*)Z" data-of="d" data-keys="', text)
    poster = marked().moments[2]
    sheets = every(marked().views[1].layers, Sheet)
    assert len(found) == len(sheets) == 2
    for said, sheet in zip(found, sheets, strict=True):
        assert [float(part) for part in re.split("[ L]", said)] == pytest.approx(value_at(sheet.keys, poster), abs=0.06)
