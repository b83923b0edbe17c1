"""How a look is fitted, step by step: what speaks against a tier, which small changes are tried at what cost, and which row goes with which."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.order import TierOrder
from calc.rows import RowSpec
from calc.rows.effects import effects_of
from calc.schemes import SCHEMES, Part, Scheme, fit, scheme_of_rows
from calc.schemes.fitting import Choice, _Ask, _begun, _changes, _Fault, _is_green, _steps, _without, colours_for, shallowest_mm, tip_for
from calc.tips import TIPS, Tip
from tests.calc.test_schemes import order_from

COLOURS = ("russet", "cream", "honey", "moss")
BEAD, SHELL, ROPE = Part("bead", "base", 0), Part("shell", "base", 0), Part("rope", "top edge", 1)
SWAG, OVER, UNDER = Part("swag", "side", 0), Part("swag", "over", 1), Part("string", "under", 1)
ROOM = "room"


def asked(
    *parts: Part, width: float = 200.0, height: float = 100.0, upper: TierOrder | None = None, scale: float = 1.0, cutters: str = "9 cm"
) -> _Ask:
    """One bare round tier to be fitted, its lengths to the thousandth of a millimetre."""
    order = order_from([("round", width, height)], cutters)
    tier = replace(order.tiers[0], rows=(), repeats=None, cutter_mm=None, joints_below_mm=None)
    return _Ask(order, tier, upper, parts, COLOURS, scale, lambda length: round(length, 3))


def begun(ask: _Ask) -> tuple[Choice, ...]:
    return tuple(_begun(part, ask.tier, ask.snap) for part in ask.parts)


def small_steps(
    ask: _Ask, state: tuple[Choice, ...], faults: list[_Fault], only_leaving: bool = False
) -> list[tuple[float, dict[str, object], int, str]]:
    """The steps from a state that cannot be planned: cost, what of the first concerned row changes, the row and why."""
    found = []
    for cost, after, _, at, why in _steps(ask, state, None, None, faults, only_leaving):
        was, now = state[at], after[at]
        found.append((round(cost, 3), {name: value for name, value in vars(now).items() if value != getattr(was, name)}, at, why))
    return found


# --- what the parts of a look come to on a tier -----------------------------------------------------------------------------


def test_drop_and_place_are_shares_of_the_tiers_height() -> None:
    """On a tier 80 mm high a drop of three tenths is 24 mm, and a third of the way down is 26.4 mm."""
    tier = asked(height=80.0).tier
    assert _begun(Part("swag", "side", 0, drop=0.3, below=0.33), tier, lambda length: length) == Choice(
        0, pytest.approx(24.0), 1, 1, pytest.approx(26.4)
    )
    assert _begun(Part("leaf", "joints", 3, per_joint=2), tier, lambda length: length) == Choice(0, 0.0, 1, 2, None)


def test_the_smallest_drop_that_reads_as_one() -> None:
    """Eight millimetres; in a repeat of 50 mm, 12 % of it: 6 mm."""
    assert shallowest_mm(100.0) == 8.0 and shallowest_mm(50.0) == pytest.approx(6.0)


def test_on_which_tiers_a_part_is_piped() -> None:
    """Of four tiers, counted from the lowest: 0 is the lowest, 1 to 3 the upper ones, 0 to 2 the lower ones, 3 the crown."""
    levels = ("every", "lowest", "upper", "lower", "crown")
    on = {level: [index for index in range(4) if Scheme("x", "X", ".", (Part("bead", "base", 0, on=level),)).parts_for(index, 4)] for level in levels}
    assert on == {"every": [0, 1, 2, 3], "lowest": [0], "upper": [1, 2, 3], "lower": [0, 1, 2], "crown": [3]}


def test_ones_own_tiers_are_spread_over_more_or_fewer() -> None:
    """Three tiers of one's own on one, two, three and five: the lowest and the uppermost stand for themselves, the rest for the nearest. Of five
    the second and the fourth lie half-way between two, and take after the end."""
    own = Scheme("own", "Own", "", rows_of=((BEAD,), (SHELL,), (ROPE,)), heights_mm=(120.0, 100.0, 80.0))
    found = {count: [own.usual_mm(index, count) for index in range(count)] for count in (1, 2, 3, 5)}
    assert found == {1: [120.0], 2: [120.0, 80.0], 3: [120.0, 100.0, 80.0], 5: [120.0, 120.0, 100.0, 80.0, 80.0]}


def test_ones_own_row_keeps_its_place_as_a_share() -> None:
    """A row 30 mm below the edge of a tier 120 mm high is a quarter down; one without a place of its own stays so."""
    rows = (
        RowSpec("bead", Tip("round", 4), place="side", colour="cream", below_mm=30.0),
        RowSpec("bead", Tip("round", 4), place="base", colour="cream"),
    )
    side, base = scheme_of_rows("Mine", [(120.0, rows)]).rows_of[0]
    assert side.below == pytest.approx(0.25) and base.below is None
    assert (side.layers, side.per_joint, side.drop, side.tip) == (1, 1, None, Tip("round", 4))


# --- colours ------------------------------------------------------------------------------------------------------------------


def test_greens_are_told_from_yellows_and_blues() -> None:
    """By the names: pear, sage, moss, bay, fir, duck egg and verdigris are greens; straw, cream and honey are yellows, and blues are none either."""
    look = SCHEMES["june-hedge"]
    for green in ("pear", "sage", "moss", "fir", "duck egg", "verdigris"):
        assert colours_for(look, ["claret", green]) == ("claret", "dusky rose", "shell pink", green)
    for other in ("straw", "buttermilk", "cream", "honey", "forget-me-not", "slate blue", "ivory"):
        assert colours_for(look, ["claret", other])[:2] == ("claret", other) and colours_for(look, ["claret", other])[3] == "bay"


def test_a_colour_given_by_its_look_is_told_apart_as_well() -> None:
    """Grass is a green; olive has as much yellow in it as green, and does not count as one."""
    assert _is_green("#008000") and not _is_green("#808000")


@pytest.mark.parametrize("yellow", ["#ffff99", "#ffffcc", "#ffff00", "#eee8aa", "#cccc66"])
def test_a_yellow_given_by_its_look_is_no_leaf_green(yellow: str) -> None:
    """Yellow on a screen leans to green by a little, and was once taken for the leaves' colour."""
    assert colours_for(SCHEMES["june-hedge"], ["claret", yellow])[1] == yellow
    assert colours_for(SCHEMES["june-hedge"], ["claret", yellow])[3] == "bay"


@pytest.mark.parametrize("colour", ["#f0fff0", "#ffffff", "#6699cc", "#000000", "no colour at all"])
def test_what_has_no_green_hue_is_no_leaf_green(colour: str) -> None:
    """Honeydew is white to the eye; blue lies on the other side of verdigris."""
    assert not _is_green(colour)


def test_the_first_of_two_greens_goes_to_the_leaves() -> None:
    assert colours_for(SCHEMES["june-hedge"], ["sage", "claret", "fir"])[3] == "sage"


def test_a_coats_own_colour_is_not_the_first_that_is_piped_on_it() -> None:
    """One hem is cream, ivory, blush: on a cream coat the others come first, and cream only where a third is wanted."""
    look = SCHEMES["one-hem"]
    assert colours_for(look, [], ["cream"]) == ("ivory", "blush", "cream", "sage")
    assert colours_for(look, [], ["plain"]) == ("cream", "ivory", "blush", "sage")
    assert colours_for(look, ["ivory"], ["cream"]) == ("ivory", "cream", "blush", "sage")  # chosen by the maker: the look's own follow as they are


def test_ones_own_rows_take_the_colours_in_their_order() -> None:
    own = Scheme("own", "Own", "", tones=("a", "b", "c"), rows_of=((BEAD,),), heights_mm=(100.0,))
    assert colours_for(own, []) == ("a", "b", "c")
    assert colours_for(own, ["sage"]) == ("sage", "b", "c")
    assert colours_for(own, ["sage", "", "sage", "fir", "claret", "ivory"]) == ("sage", "fir", "claret")


# --- tips ---------------------------------------------------------------------------------------------------------------------


def test_ones_own_tip_stays_until_something_changes() -> None:
    """A petal of 10.5 mm is in no table. One size finer than it, and a tenth wider (11.55 mm), are the table's 9 mm and 11 mm."""
    part = Part("swag", "side", 0, tip=Tip("petal", 10.5))
    assert tip_for(part, 1.0) == Tip("petal", 10.5)
    assert tip_for(part, 1.0, 1) == Tip("petal", 9)
    assert tip_for(part, 1.1) == Tip("petal", 11)
    assert tip_for(Part("swag", "side", 0), 1.1) == Tip("petal", 13)  # 12.1 mm, whose nearest by proportion is 13 (7 % more), not 11 (9 % less)


def test_a_tip_gets_no_finer_than_the_finest_and_no_wider_than_the_widest() -> None:
    """For swags the table's petal tips run from 6 to 26 mm."""
    assert tip_for(SWAG, 1.0, 3) == Tip("petal", 6) == tip_for(SWAG, 1.0, 9) == tip_for(SWAG, 0.1)
    assert tip_for(SWAG, 10.0) == Tip("petal", 26) == tip_for(SWAG, 10.0, -2)


@pytest.mark.parametrize("key", SCHEMES)
def test_a_look_takes_only_tips_that_are_known_to_pipe_its_rows(key: str) -> None:
    for part in SCHEMES[key].parts:
        family = [use for use in TIPS if use.tip.family == part.begins_with.family]
        making = {use.tip.opening_mm for use in family if part.kind in effects_of(use)} or {use.tip.opening_mm for use in family}
        assert {tip_for(part, scale, finer).opening_mm for scale in (0.55, 1.0, 1.4) for finer in range(5)} <= making, part


def test_one_scale_for_the_whole_cake_by_hand() -> None:
    """Usual is 180 mm wide and 100 mm high. 250 and 200 mm are 1.25 times as wide on average; the lower of the two is 80 mm: root of 1.25 x 0.8."""
    cake = order_from([("round", 250.0, 100.0), ("round", 200.0, 80.0)])
    assert fit(SCHEMES["one-hem"], cake).scale == pytest.approx(1.0)
    assert fit(SCHEMES["one-hem"], order_from([("round", 198.0, 90.0)])).scale == pytest.approx((1.1 * 0.9) ** 0.5)
    assert fit(SCHEMES["one-hem"], order_from([("round", 400.0, 200.0)])).scale == 1.4  # the widest
    assert fit(SCHEMES["one-hem"], order_from([("round", 80.0, 40.0)])).scale == 0.55  # the finest


@pytest.mark.parametrize("height, opening", [(50.0, 3.0), (80.0, 5.0), (200.0, 6.0)])
def test_ones_own_tips_get_finer_on_a_lower_tier_and_no_wider_on_a_taller_one(height: float, opening: float) -> None:
    """Beads of 6 mm made for 100 mm: on 80 mm 4.8 mm, of which 5 is the nearest; on 50 mm no less than 0.55 of it, 3.3 mm, which lies next to 3."""
    own = scheme_of_rows("Mine", [(100.0, (RowSpec("bead", Tip("round", 6.0), place="base", colour="cream"),))])
    assert fit(own, order_from([("round", 200.0, height)])).tiers[0].rows[0].tip == Tip("round", opening)


# --- what speaks against a tier -----------------------------------------------------------------------------------------------


def test_nothing_speaks_against_two_plain_borders() -> None:
    ask = asked(SHELL, ROPE)
    assert ask.planned(begun(ask), None)[1] == ()


def test_a_clash_speaks_against_both_rows_the_more_the_more_they_overlap() -> None:
    """Six swags 80 mm deep hang into the shells; 12 mm deeper than where they begin to touch it counts 4, and no more than that ever."""
    worse = {}
    for drop in (0.75, 0.8, 0.84):
        ask = asked(replace(SWAG, drop=drop), SHELL)
        made, faults = ask.planned(begun(ask), 6)
        assert made is not None
        (clash,), (fault,) = made.tiers[0].clashes, faults
        assert (set(fault.rows), fault.why) == ({0, 1}, ROOM)
        worse[drop] = fault.worse
        assert fault.worse == pytest.approx(1 + clash.overlap_mm / 4)
    assert (worse[0.8] - worse[0.75], worse[0.84] - worse[0.8]) == pytest.approx((5 / 4, 4 / 4))  # 5 mm and 4 mm deeper
    past_the_foot = asked(replace(SWAG, drop=1.0), SHELL)
    assert past_the_foot.planned(begun(past_the_foot), 6)[1][0] == _Fault((0,), 4.0, ROOM)  # 12.4 mm past it


def test_a_clash_on_the_tier_above_is_no_matter_here() -> None:
    order = order_from([("round", 250.0, 100.0), ("round", 150.0, 100.0)], "9 cm")
    deep = (
        RowSpec("swag", Tip("petal", 11), place="side", colour="russet", drop_mm=85.0),
        RowSpec("shell", Tip("open star", 7), place="base", colour="cream"),
    )
    upper = replace(order.tiers[1], rows=deep, repeats=5, cutter_mm=None, joints_below_mm=None)
    ask = replace(asked(SHELL, width=250.0, upper=upper), order=order)
    made, faults = ask.planned(begun(ask), None)
    assert made is not None and made.tiers[1].clashes and faults == ()


def test_a_row_without_room_on_the_ledge_speaks_against_itself() -> None:
    """Under a tier only 2 cm narrower there is a centimetre of ledge: the ropes behind the edge's shells have no room. What the upper tier has on
    its own top is no matter here."""
    order = order_from([("round", 200.0, 100.0), ("round", 180.0, 100.0)], "9 cm")
    upper = replace(order.tiers[1], rows=(), repeats=None, cutter_mm=None, joints_below_mm=None)
    ask = replace(asked(SHELL, Part("shell", "top edge", 0), Part("rope", "top", 1), upper=upper), order=order)
    _, faults = ask.planned(begun(ask), None)
    assert {(fault.rows, fault.worse, fault.why) for fault in faults} == {((2,), 2.0, "ledge")}


def test_a_drop_that_reads_as_a_line_speaks_against_all_that_hangs() -> None:
    """Swags of 3 mm are a line: less than 8 mm. The shells are no part of it."""
    ask = asked(replace(SWAG, drop=0.03), SHELL, UNDER)
    _, faults = ask.planned(begun(ask), 6)
    assert _Fault((0, 2), 1.5, ROOM) in faults
    assert not [one for one in asked(SWAG, SHELL).planned(begun(asked(SWAG, SHELL)), None)[1] if one.worse == 1.5]


def test_a_tier_that_cannot_be_planned_speaks_against_the_row_that_says_so() -> None:
    """Nobody pipes beads thirty times over: the problem stands at that row. One that stands at none is that of all round the side."""
    ask = asked(SHELL, Part("bead", "top edge", 1, layers=30))
    made, faults = ask.planned(begun(ask), None)
    assert made is None and faults == (_Fault((1,), 4.0, ROOM),)


# --- the small changes --------------------------------------------------------------------------------------------------------


def test_for_want_of_room_a_row_is_left_out_or_its_tip_gets_finer() -> None:
    """Leaving the only row out costs 3.5 and 0.7 for itself; a finer tip costs 1."""
    ask = asked(BEAD)
    assert small_steps(ask, begun(ask), [_Fault((0,), 1.0, ROOM)]) == [(4.2, {"there": False}, 0, ROOM), (1.0, {"finer": 1}, 0, ROOM)]


def test_a_row_costs_the_more_to_leave_out_the_earlier_it_stands() -> None:
    """Of three rows 3.5 and 0.7 times three, two and one; the swag takes what hangs under it along: 5.6 and 4.2."""
    ask = asked(SWAG, SHELL, UNDER)
    found = small_steps(ask, begun(ask), [_Fault((0, 1, 2), 1.0, ROOM)], only_leaving=True)
    assert found == [(9.8, {"there": False}, 0, ROOM), (4.9, {"there": False}, 1, ROOM), (4.2, {"there": False}, 2, ROOM)]


def test_the_worst_fault_comes_first_and_gives_its_reason() -> None:
    ask = asked(BEAD, ROPE)
    faults = [_Fault((0,), 1.0, "fit"), _Fault((1, 0), 4.0, ROOM), _Fault((1,), 2.0, "ledge")]
    assert [(at, why) for _, _, at, why in small_steps(ask, begun(ask), faults, only_leaving=True)] == [(1, ROOM), (0, ROOM)]


def test_layers_pieces_and_places_give_way_one_by_one() -> None:
    """A layer less costs 1.2, a piece less at each joint 1.5, a place left to the order 0.5."""
    ask = asked(replace(UNDER, place="side", layers=3), replace(BEAD, place="joints", per_joint=2), replace(BEAD, place="side", below=0.5))
    found = small_steps(ask, begun(ask), [_Fault((0, 1, 2), 1.0, ROOM)])
    kept = [step for step in found if "there" not in step[1] and "finer" not in step[1]]
    assert kept == [(1.2, {"layers": 2}, 0, ROOM), (1.5, {"per_joint": 1}, 1, ROOM), (0.5, {"below_mm": None}, 2, ROOM)]


def test_pieces_side_by_side_may_also_get_a_size_wider_to_suit_the_repeats() -> None:
    """Only borders of pieces that meet, and only from the size they begin with or one wider; it costs 0.8."""
    ask = asked(BEAD, ROPE)
    start = begun(ask)
    fit_it = [_Fault((0, 1), 1.0, "fit")]

    def sizes(finer: int) -> list[tuple[float, object]]:
        state = tuple(replace(choice, finer=finer) for choice in start)
        return [(cost, what["finer"]) for cost, what, at, _ in small_steps(ask, state, fit_it) if at == 0 and "finer" in what]

    assert sizes(0) == [(1.0, 1), (0.8, -1)]
    assert sizes(-1) == [(1.0, 0), (0.8, -2)]
    assert sizes(1) == [(1.0, 2)]
    assert sizes(-2) == [(1.0, -1)]
    ropes = [what["finer"] for _, what, at, _ in small_steps(ask, start, fit_it) if at == 1 and "finer" in what]
    assert ropes == [1]  # a rope has no pieces to count


def test_a_tip_gets_finer_four_times_at_most_and_only_where_there_is_a_finer_one() -> None:
    ask = asked(replace(BEAD, opening_mm=12.0))
    steps = [[what for _, what, _, _ in small_steps(ask, (Choice(finer, 0.0, 1, 1, None),), [_Fault((0,), 1.0, ROOM)])] for finer in (3, 4)]
    assert steps == [[{"there": False}, {"finer": 4}], [{"there": False}]]
    finest = asked(replace(BEAD, opening_mm=1.5))
    assert [what for _, what, _, _ in small_steps(finest, begun(finest), [_Fault((0,), 1.0, ROOM)])] == [{"there": False}]
    widest = asked(replace(BEAD, opening_mm=12.0))  # one size wider is 12 mm as well: to go back to it would change nothing
    wider = (Choice(-1, 0.0, 1, 1, None),)
    assert [what for _, what, _, _ in small_steps(widest, wider, [_Fault((0,), 1.0, ROOM)])] == [{"there": False}]


def drops(ask: _Ask, state: tuple[Choice, ...], faults: list[_Fault], repeats: int | None = None) -> list[tuple[float, int, float]]:
    """The steps that change a drop: cost, row, the drop after it."""
    made = ask.planned(state, repeats)[0]
    assert made is not None
    found = _steps(ask, state, repeats, made, faults, False)
    return [(cost, at, after[at].drop_mm) for cost, after, _, at, _ in found if after[at].drop_mm != state[at].drop_mm]


def test_a_drop_gets_a_fifth_smaller_for_room_and_larger_too_to_suit_repeats() -> None:
    """From 40 mm: 0.8 of it is 32; 1.2 of it 48; and over 0.8 twice, 62.5. In repeats of 110 mm (6 round 21 cm) all are well over a quarter."""
    ask = asked(replace(SWAG, drop=0.4))
    assert drops(ask, begun(ask), [_Fault((0,), 1.0, ROOM)], 6) == [(1.0, 0, 32.0)]
    assert drops(ask, begun(ask), [_Fault((0,), 1.0, "fit")], 6) == [(1.0, 0, 32.0), (1.0, 0, 48.0), (1.0, 0, 62.5)]
    # the order chose the drop itself, and the row has none of its own: the steps begin from what it chose
    free = asked(SWAG)
    chosen = free.planned(begun(free), 6)[0].tiers[0].rows[0].drop_mm  # type: ignore[union-attr]
    assert drops(free, begun(free), [_Fault((0,), 1.0, ROOM)], 6) == [(1.0, 0, round(0.8 * chosen, 3))]


def test_no_drop_is_deeper_than_its_tier_or_shallower_than_reads() -> None:
    """From 70 mm on a tier 80 mm high: 84 and 109 are too deep. From 9 mm: 7.2 would read as a line, and 10.8 and 14.06 are flat in 110 mm."""
    ask = asked(replace(SWAG, drop=70 / 80), height=80.0)
    assert drops(ask, begun(ask), [_Fault((0,), 1.0, "fit")], 6) == [(1.0, 0, 56.0)]
    flat = asked(replace(SWAG, drop=0.09))
    assert drops(flat, begun(flat), [_Fault((0,), 1.0, "fit")], 6) == [(2.0, 0, 10.8), (2.0, 0, 14.062)]


def test_a_quarter_of_the_width_is_not_flat_yet_and_the_same_drop_is_no_step() -> None:
    ask = asked(replace(SWAG, drop=0.4))
    state = begun(ask)
    width = ask.planned(state, 6)[0].tiers[0].division.width_mm  # type: ignore[union-attr]
    quarter = replace(ask, snap=lambda length: 0.25 * width)
    assert drops(quarter, state, [_Fault((0,), 1.0, ROOM)], 6) == [(1.0, 0, 0.25 * width)]
    least = replace(ask, snap=lambda length: shallowest_mm(width))
    assert drops(least, state, [_Fault((0,), 1.0, ROOM)], 6) == [(2.0, 0, 8.0)]
    highest = replace(ask, snap=lambda length: 100.0)
    assert drops(highest, state, [_Fault((0,), 1.0, ROOM)], 6) == [(1.0, 0, 100.0)]
    same = replace(ask, snap=lambda length: 40.0)
    made = ask.planned(state, 6)[0]
    assert all(after != state for _, after, *_ in _steps(same, state, 6, made, [_Fault((0,), 1.0, ROOM)], False))


def test_what_hangs_under_a_swag_follows_it_unless_it_has_a_drop_of_its_own() -> None:
    """With the string concerned the swag may give way as well, and the string itself only where its drop is its own."""
    ask = asked(replace(SWAG, drop=0.4), UNDER, SHELL)
    assert drops(ask, begun(ask), [_Fault((1, 2), 1.0, ROOM)], 6) == [(1.0, 0, 32.0)]
    own = asked(replace(SWAG, drop=0.4), replace(UNDER, drop=0.5), SHELL)
    assert drops(own, begun(own), [_Fault((1, 2), 1.0, ROOM)], 6) == [(1.0, 0, 32.0), (1.0, 1, 40.0)]
    assert drops(ask, begun(ask), [_Fault((2,), 1.0, ROOM)], 6) == []  # the shells alone do not hang
    two = asked(replace(SWAG, drop=0.4), UNDER, replace(SWAG, drop=0.3, below=0.6))
    assert drops(two, begun(two), [_Fault((1, 2), 1.0, ROOM)], 6) == [(1.0, 0, 32.0), (2.0, 2, 24.0)]  # the swag after the string too; 24 mm are flat


def test_what_takes_no_drop_gets_none() -> None:
    """A line over a swag lies as the swag hangs: with the line alone concerned no drop is changed."""
    ask = asked(replace(SWAG, drop=0.4), Part("line", "over", 1), ROPE, Part("rosette", "joints", 2))
    assert drops(ask, begun(ask), [_Fault((1, 2, 3), 1.0, ROOM)], 6) == []


def test_other_repeats_are_tried_where_their_curve_hangs_less_deep() -> None:
    """At most two, for 1.2 each, only while the repeats are free and something that hangs is concerned."""
    ask = asked(SHELL, SWAG, cutters="9 cm, 7.5 cm, 6 cm, 5 cm")
    state = begun(ask)
    made = ask.planned(state, None)[0]
    assert made is not None
    here = made.tiers[0].division
    steps = [step for step in _steps(ask, state, None, made, [_Fault((1,), 1.0, ROOM)], False) if step[1] == state]
    assert len(steps) == 2 and [(cost, at, why) for cost, _, _, at, why in steps] == [(1.2, 1, ROOM)] * 2
    both = asked(SHELL, SWAG, UNDER, cutters="9 cm, 7.5 cm, 6 cm, 5 cm")  # told of the first that hangs
    swagged = _steps(both, begun(both), None, both.planned(begun(both), None)[0], [_Fault((2,), 1.0, ROOM)], False)
    assert [at for _, state, _, at, _ in swagged if state == begun(both)] == [1, 1]
    for _, _, repeats, _, _ in steps:
        assert repeats != here.repeats and any(one.repeats == repeats and one.drop_mm < here.drop_mm for one in made.tiers[0].choices)
    for faults, times in (([_Fault((0,), 1.0, ROOM)], None), ([_Fault((1,), 1.0, ROOM)], here.repeats)):
        assert not [step for step in _steps(ask, state, times, made, faults, False) if step[1] == state]


# --- which row goes with which ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "places, at, gone",
    [
        ("side over under base", 0, {0, 1, 2}),  # what lies on a swag and hangs under it goes with it; shells do not
        ("side base joints under", 0, {0, 3}),  # also where other rows are named between them
        ("side over side over", 0, {0, 1}),  # the second row round the side keeps its own
        ("side over side over", 2, {2, 3}),
        ("side over over under", 1, {1, 2}),  # a line lies on the upper swag; the string hangs under the lower one
        ("side over over over", 1, {1, 2}),
        ("side over over under", 2, {2}),
        ("side over base over", 1, {1}),
        ("side under over", 1, {1}),
        ("base over under", 0, {0}),
        ("side over", 1, {1}),
    ],
)
def test_what_goes_with_a_row_that_is_left_out(places: str, at: int, gone: set[int]) -> None:
    parts = [Part("swag", place, 0) for place in places.split()]
    state = tuple(Choice(0, 0.0, 1, 1, None) for _ in parts)
    assert {i for i, choice in enumerate(_without(parts, state, at)) if not choice.there} == gone


# --- what is told as changed --------------------------------------------------------------------------------------------------


def test_every_kind_of_change_is_told_with_what_was_before_and_its_reason() -> None:
    strings = Part("string", "side", 0, layers=2)
    leaves, beads = Part("leaf", "joints", 1, per_joint=2), Part("bead", "side", 1, below=0.3)
    ask = asked(strings, SHELL, leaves, beads, ROPE)
    state = begun(ask)
    now = (
        replace(state[0], drop_mm=20.0, layers=1),
        replace(state[1], finer=1),
        replace(state[2], per_joint=1),
        replace(state[3], below_mm=None),
        replace(state[4], there=False),
    )
    first, made = ask.planned(state, None)[0], ask.planned(now, None)[0]
    assert first is not None and made is not None
    hung = first.tiers[0].rows[0].drop_mm
    changes = _changes(ask, state, now, [(4, "ledge"), (0, ROOM), (1, "fit"), (1, ROOM)], first, made)
    assert [(change.what, change.part, change.before, change.after, change.why) for change in changes] == [
        ("drop", strings, hung, 20.0, ROOM),
        ("layers", strings, 2, 1, ROOM),
        ("tip", SHELL, Tip("open star", 7), Tip("open star", 6), "fit"),  # of two reasons the first that came up
        ("number", leaves, 2, 1, "fit"),  # no reason of its own: that of the row that was changed last
        ("place", beads, 30.0, None, "fit"),
        ("left out", ROPE, None, None, "ledge"),
    ]


def test_a_drop_is_told_without_what_was_before_where_nothing_could_be_planned() -> None:
    ask = asked(SWAG)
    state = begun(ask)
    now = (replace(state[0], drop_mm=20.0),)
    made = ask.planned(now, None)[0]
    assert made is not None
    (change,) = _changes(ask, state, now, [(0, ROOM)], None, made)
    assert (change.what, change.before, change.after) == ("drop", None, 20.0)


# --- the whole ----------------------------------------------------------------------------------------------------------------


def test_the_tiers_come_back_in_their_order() -> None:
    cake = order_from([("round", 300.0, 120.0), ("round", 250.0, 110.0), ("round", 200.0, 100.0), ("round", 150.0, 90.0)])
    found = fit(SCHEMES["first-frost"], cake)
    assert [tier.planned.order.height_mm for tier in found.tiers] == [tier.height_mm for tier in found.order.tiers] == [120.0, 110.0, 100.0, 90.0]
    assert [len(tier.rows) for tier in found.tiers] == [len(tier.rows) for tier in found.order.tiers] == [4, 4, 4, 5]


def test_a_second_colour_is_that_of_its_number_and_none_where_none_is_named() -> None:
    ask = asked(replace(SHELL, beside=2), ROPE)
    assert [row.colours for _, row in ask.rows(begun(ask))] == [("russet", "honey"), ("cream",)]
