"""The moving picture of a bag being filled: its top turned down over a glass, filled, pressed down and twisted shut.

`FILMS`: name -> function of a tip and a colour, giving a `Film`. It has a `Hand` of its own, at the pace of its page: two minutes a bag, of which the
picture shows what the hands do once.
"""

from __future__ import annotations

from collections.abc import Callable

from calc.drawing.bag import bag_and_tip, fingers, forearm, pod, skin
from calc.drawing.marks import label, rule
from calc.drawing.scene import CAKE, GUIDE_LINE, LINE, Gradient, Item, Motif, Path, Style, ellipse, polygon, rectangle, smooth
from calc.drawing.shading import tone
from calc.tips import Tip
from tools.films.moving import Film, Grown, Hand, Keys, Layer, Moved, Still, Timed, Turning, View, during, leading
from tools.films.moving_rows import FILM_WIDE
from tools.films.moving_tools import AWAY, HIGH, JUMP_S, SAME, keys_of
from tools.films.shared_parts import along_bag, fingers_flat, further_up, left_fingers

FILMS: dict[str, Callable[[Tip, str], Film]] = {}
FOLD_S, FILL_S, UP_S, PRESS_S, WHOLE_S = 2.6, 9.0, 10.6, 14.6, 18.6  # when each step ends
DIPS = (3.4, 5.2, 7.0)  # when the spatula comes with more
AT = (24.0, 8.0)  # of the glass in the view


def _hand_over_rim(way: float) -> list[Item]:
    """Fingers that turn the top of a bag down, at (0, 0); `way` is -1 for the left hand."""
    flesh = skin((way * 4, -4), (way * 14, 12))
    arm = 160.0 if way < 0 else 20.0
    items: list[Item] = list(forearm((way * 17.0, 8.0), arm))
    back = [(4, -3), (13, -5), (20, 2), (20, 12), (11, 15), (4, 11)]
    items.append(Path(smooth([(way * x, y) for x, y in back], closed=True), flesh))
    items += [Path(pod((way * 10, 0.5 + 4.6 * k), (-way * (2.0 - 0.6 * k), 0.4 + 4.2 * k), 3.0, 2.6), flesh) for k in range(3)]
    return items


def _spatula(load: list[Item]) -> list[Item]:
    """A spatula that comes from the right, in its hand; its blade ends at (0, 0)."""
    flesh = skin((34, -24), (56, -4))
    return [
        *forearm((58.0, -11.0), 14.0),
        Path(polygon([(-1, -3.6), (14, -10), (16, -6), (1, 1.6)]), Style(fill="#d9d3c6", stroke="#5c4326", width_mm=0.5)),
        *load,
        Path(polygon([(14, -9.4), (52, -20), (53, -16), (15.4, -6.6)]), Style(fill="#b08a5c", stroke="#5c4326", width_mm=0.5)),
        Path(smooth([(40, -24), (52, -25), (60, -18), (60, -7), (50, -5), (41, -11)], closed=True), flesh),
        *(Path(pod((52.0, -20.5 + 4.3 * k), (39.0 + 1.0 * k, -21.0 + 3.9 * k), 2.9, 2.5), flesh) for k in range(4)),
    ]


def _shown(begin_s: float, end_s: float) -> Keys:
    """Where something is that is in the picture from one time to another."""
    keys = [(0.0, *(AWAY if begin_s else (0.0, 0.0)), 0.0)]
    if begin_s:
        keys += [(begin_s, *AWAY, 0.0), (begin_s + JUMP_S, 0.0, 0.0, 0.0)]
    return keys_of(*keys, (end_s, 0.0, 0.0, 0.0), (end_s + JUMP_S, *AWAY, 0.0))


def filling(tip: Tip, colour: str) -> Film:
    """A bag in its glass, filled by a spatula, then on the board: pressed down to its tip and twisted shut."""
    linen = Style(fill="#f1e8d6", stroke="#75624f", width_mm=0.45)
    cream = Style(fill=colour, stroke=tone(colour, -0.5), width_mm=0.4)

    # in the glass
    body = linen._replace(fill=Gradient(20, 0, 64, 0, ((0, "#e6dac4"), (0.4, "#fffaf0"), (1, "#cdbfa6"))))
    heap = Motif("fill", (Path(smooth([(26.5, 30), (34, 26), (44, 30), (52, 25.5), (57.5, 30), (46, 56), (42, 59), (38, 56)], closed=True), cream),))
    cuff = Motif(
        "cuff",
        (
            Path(smooth([(18, 20), (42, 17), (66, 20), (68, 40), (61, 41), (42, 44), (22, 41), (16, 40)], closed=True), linen),
            Path(ellipse(42, 20, 21, 4.2), Style(fill="#bca98d", stroke="#75624f", width_mm=0.4)),
        ),
    )
    round_it = [
        (17.5, 20.5),
        (22, 22.2),
        (31, 23.8),
        (42, 24.3),
        (53, 23.8),
        (62, 22.2),
        (66.5, 20.5),
        (68, 40),
        (61, 41),
        (42, 44),
        (22, 41),
        (16, 40),
    ]
    lip = Path(smooth(round_it, closed=True), linen)  # the near side of the rim, before the spatula
    seen = Motif("seen in it", (Path(ellipse(42, 21.4, 17, 2.8), Style(fill=colour)),))
    standing: list[Item] = [
        Path(polygon([(24, 26), (60, 26), (67, 2), (17, 2)]), body),
        Path(ellipse(42, 2, 25, 4.0), Style(fill="#bca98d", stroke="#75624f", width_mm=0.4)),
    ]
    top = keys_of(
        (0.0, 0.0, 0.0),
        (0.7, 0.0, 0.0),
        (2.2, 0.0, 14.0),
        (2.2 + JUMP_S, *AWAY),
        (FILL_S + 0.3, *AWAY),
        (FILL_S + 0.3 + JUMP_S, 0.0, 14.0),
        (UP_S - 0.2, 0.0, 0.0),
    )

    def turning_down(way: float) -> Moved:
        x = 42.0 + way * 24.0
        return Moved(
            _hand_over_rim(way),
            keys_of(
                (0.0, x + way * 14, -2.0),
                (0.6, x, 1.0),
                (2.2, x, 33.0),
                (FOLD_S, x + way * 44, 44.0),
                (FOLD_S + JUMP_S, *AWAY),
                (FILL_S - 0.5, *AWAY),
                (FILL_S - 0.5 + JUMP_S, x + way * 34, 44.0),
                (FILL_S, x + way * 8, 36.0),
                (FILL_S + 0.3, x, 33.0),
                (UP_S - 0.2, x, 1.0),
                (UP_S, x + way * 10, -4.0),
            ),
        )

    comes, in_it, out = (40.0, -26.0), (39.0, 30.0), (62.0, -20.0)
    full: list[tuple[float, ...]] = [(0.0, *AWAY)]
    empty: list[tuple[float, ...]] = [(0.0, *AWAY)]
    for dip in DIPS:
        full += [
            (dip - 0.8, *AWAY),
            (dip - 0.8 + JUMP_S, 42 + comes[0], 20 + comes[1]),
            (dip, *in_it),
            (dip + 0.3, in_it[0], in_it[1] + 3),
            (dip + 0.3 + JUMP_S, *AWAY),
        ]
        empty += [
            (dip + 0.3, *AWAY),
            (dip + 0.3 + JUMP_S, in_it[0], in_it[1] + 3),
            (dip + 0.9, 42 + out[0], 20 + out[1]),
            (dip + 0.9 + JUMP_S, *AWAY),
        ]
    lump = Path(smooth([(-3, -5), (2, -10), (10, -12), (13, -8), (6, -2), (0, 1)], closed=True), cream)
    risen: list[tuple[float, float, float]] = [(0.0, 0.3, 0.1)]
    first, last = DIPS[0] + 0.1, DIPS[-1] + 0.5
    for dip, wide, high in zip(DIPS, (0.55, 0.8, 1.0), (0.45, 0.75, 1.0), strict=True):
        begun, done = ((time - first) / (last - first) for time in (dip + 0.1, dip + 0.5))
        risen += [(max(begun, 0.001), risen[-1][1], risen[-1][2]), (min(done, 1.0), wide, high)]
    in_glass = Turning(
        (
            Still(
                [
                    Path(polygon([(24, 24), (60, 24), (45, 60), (39, 60)]), body),
                    Path(polygon([(38.6, 58), (45.4, 58), (43.4, 67), (40.6, 67)]), Style(fill="#c4bfc9", stroke="#3f3846", width_mm=0.45)),
                ]
            ),
            Grown([Timed(heap, SAME, first, last)], (42.0, 59.0), tuple(risen)),
            Still([Path(polygon([(20, 22), (64, 22), (60, 70), (24, 70)]), Style(fill="#cfe0e2", stroke="#51777b", width_mm=0.8, opacity=0.45))]),
            Moved(standing, top),
            Turning(
                (
                    Grown([Timed(cuff, SAME, 0.7, 2.2)], (42.0, 18.0), ((0.0, 1.0, 0.1), (1.0, 1.0, 1.0))),
                    Grown([Timed(seen, SAME, DIPS[-1] + 0.1, last)], (42.0, 21.4), ((0.0, 0.4, 0.4), (1.0, 1.0, 1.0))),
                ),
                _shown(0.0, FILL_S + 0.3),
            ),
            Moved(_spatula([lump]), keys_of(*full)),
            Moved(_spatula([]), keys_of(*empty)),
            Turning((Still([lip]),), _shown(2.2, FILL_S + 0.3)),
            turning_down(-1.0),
            turning_down(1.0),
        ),
        keys_of((0.0, *AT, 0.0), (UP_S, *AT, 0.0), (UP_S + JUMP_S, *AWAY, 0.0)),
    )

    # on the board
    at, lean = (20.0, 44.0), -4.0
    put = along_bag(at, lean)
    held = bag_and_tip((at[0], at[1]), lean, tip, hand=False)
    loose = [put(u, v) for u, v in ((46, -7), (52, -8.2), (60, -9.6), (84, -11), (84, 11), (60, 9.6), (52, 8.2), (46, 7))]
    swollen = [put(u, v) for u, v in ((46, -7.4), (54, -9.8), (64, -10), (72, -6), (73, 0), (72, 6), (64, 10), (54, 9.8), (46, 7.4))]
    right = further_up(put, 24.0)
    c, n = put(1, 0)[0] - at[0], put(1, 0)[1] - at[1]
    pressed = [(UP_S + 1.0, 0.0), (PRESS_S - 0.6, -22.0)]
    led = keys_of(
        (0.0, *AWAY),
        (UP_S, *AWAY),
        (UP_S + JUMP_S, 96.0, 24.0),
        (pressed[0][0], *put(76, 3)),
        (pressed[1][0], *put(56, 3)),
        (PRESS_S, 110.0, 20.0),
        (PRESS_S + JUMP_S, *AWAY),
    )
    bulge = keys_of(*((time, c * far, n * far) for time, far in ((0.0, 0.0), *pressed)))
    to_and_fro: list[tuple[float, ...]] = [(0.0, *AWAY), (PRESS_S, *AWAY), (PRESS_S + JUMP_S, 20.0, 8.0), (PRESS_S + 0.5, 0.0, 0.0)]
    for k in range(4):
        to_and_fro += [(PRESS_S + 0.9 + 0.7 * k, 0.0, -2.4), (PRESS_S + 1.2 + 0.7 * k, 0.0, 2.4)]
    to_and_fro.append((WHOLE_S, 0.0, 0.0))
    holding = keys_of((0.0, *AWAY), (PRESS_S, *AWAY), (PRESS_S + JUMP_S, -6.0, 16.0), (PRESS_S + 0.5, 0.0, 0.0), (WHOLE_S, 0.0, 0.0))
    folds = [
        Timed(
            Motif(f"shut{k}", (Path(smooth([put(u - 0.9, 2.4), put(u, 0.2), put(u + 1.5, -2.2)]), Style(stroke="#75624f", width_mm=0.5)),)),
            SAME,
            PRESS_S + 0.9 + 0.6 * k,
            PRESS_S + 1.1 + 0.6 * k,
        )
        for k, u in enumerate((48.5, 50.3, 52.1, 53.9, 55.7))
    ]
    on_board = Turning(
        (
            Moved(forearm(right(52, 6), 40.0), keys_of(*to_and_fro)),
            Moved(forearm(put(30, 10), 112.0), holding),
            Turning(
                (Still([Path(smooth(loose, closed=True), linen)]), Moved([Path(smooth(swollen, closed=True), linen)], bulge)),
                _shown(UP_S, PRESS_S + 0.8),
            ),
            Turning((Still([held[0]]),), _shown(PRESS_S + 0.8, WHOLE_S)),
            Still(held[1:]),
            Grown(folds, profile=((0.0, 1.0, 1.0), (1.0, 1.0, 1.0))),
            Moved(fingers_flat((0.0, 0.0)), led),
            Moved(leading([put(60, 17), put(40, 17)]), during((pressed[0][0], pressed[1][0], 0.0, 0.0))),
            Moved(fingers(left_fingers(put)), holding),
            Moved(fingers(right), keys_of(*to_and_fro)),
        ),
        _shown(UP_S, WHOLE_S + 1.0),
    )
    most = 14.0 + (84.0 - 14.0) * 2 / 3  # from its ring to the end of the bag
    marks: list[Item] = [
        *(rule(*put(u, 16.0), *put(u, 22.0), GUIDE_LINE) for u in (14.0, most)),
        rule(*put(14.0, 19.0), *put(most, 19.0), GUIDE_LINE),
        label(*put(24, 29), "two thirds at most", 5.4),
    ]
    view: list[Layer] = [
        Still([Path(rectangle(-2, 78, FILM_WIDE + 4, 10), CAKE), rule(-2, 78, FILM_WIDE + 2, 78, LINE)]),
        in_glass,
        on_board,
        Turning((Still(marks, inset=True),), _shown(PRESS_S - 0.6, PRESS_S + 0.1)),
    ]
    pace = 20.0 / (pressed[1][0] - pressed[0][0])
    hand = Hand(
        keys_of((0.0, 0.0, 0.0, 0.0), (WHOLE_S, 0.0, 0.0, 0.0)),
        keys_of((0.0, 0.0), (pressed[0][0] - 0.2, 0.0), (pressed[0][0] + 0.3, 0.6), (pressed[1][0] - 0.2, 0.6), (pressed[1][0], 0.0), (WHOLE_S, 0.0)),
        ((0.0, (-1.0, 0.0, 0.0)),),
        keys_of((0.0, 0.0), (pressed[0][0], pace), (pressed[1][0], 0.0)),
        (
            ("turn its top down over the glass", FOLD_S),
            ("fill it, pushing the buttercream to the bottom", FILL_S),
            ("turn the top up again", UP_S),
            ("press the buttercream down to the tip", PRESS_S),
            ("twist it shut where the buttercream ends", WHOLE_S),
        ),
    )
    told = (
        "A bag stands in a glass. Two hands turn its top down over the rim; a spatula fills it three times; its top is turned up. "
        "Then it lies on a board: the side of a hand presses the buttercream to the tip, and both hands twist it shut."
    )
    return Film(
        "filling a bag",
        hand,
        (View("Both hands", told, view, HIGH),),
        "Filling a bag and twisting it shut.",
        (1.7, DIPS[1], DIPS[-1] + 0.9 - 0.1, 0.5 * (pressed[0][0] + pressed[1][0]), WHOLE_S),
        force="Press",
    )


FILMS["filling a bag"] = filling
