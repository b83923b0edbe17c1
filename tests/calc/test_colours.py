"""Colours: amounts, mixing, tints, bags, the order of piping, and colour by the published formulas. Oracle: coloraide."""

from __future__ import annotations

import math
import random
import re
from itertools import product

import pytest
from coloraide import Color
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.colours import (
    DARK_BELOW,
    DEEPENING,
    DEPTHS,
    PALETTE,
    SIGHT,
    amounts_by_colour,
    bag_plan,
    ciede2000,
    contrast,
    difference,
    hex_of,
    lab,
    linear_rgb,
    luminance,
    mixing_order,
    read_colour,
    seen_as,
    tint,
)
from calc.colours.mixing import DEEPENING_MIN
from calc.rows.placement import PlacedRow, piping_order, touches
from calc.tips import FAMILIES, Tip
from calc.units import Formatter, Problem

STAR, PETAL, FINE, WIDE = Tip("open star", 7), Tip("petal", 11), Tip("round", 1.8), Tip("open star", 15)
hexes = st.integers(0, 0xFFFFFF).map(lambda n: f"#{n:06x}")
labs = st.tuples(st.floats(0, 100), st.floats(-100, 100), st.floats(-100, 100))


# --- names -----------------------------------------------------------------------------------------------------------------


def test_the_palette_is_readable_and_wide() -> None:
    assert len(PALETTE) >= 28
    assert {"plain", "russet", "cream", "blush", "bay", "ivory"} <= set(PALETTE)
    assert len(set(PALETTE.values())) == len(PALETTE)
    for name, value in PALETTE.items():
        assert re.fullmatch(r"[a-z -]+", name) and re.fullmatch(r"#[0-9a-f]{6}", value)
        assert hex_of(name.upper()) == value and read_colour(f" {name} ", "c", "Colour") == name
    lightness = sorted(lab(value)[0] for value in PALETTE.values())
    assert lightness[0] < 30 and lightness[-1] > 95
    assert 8 <= sum(light < DARK_BELOW for light in lightness) <= 16


@pytest.mark.parametrize("text", ["", "   ", "#12", "#ggg", "x" * 41, "#a04b2"])
def test_colours_that_do_not_read_are_said(text: str) -> None:
    with pytest.raises(Problem):
        read_colour(text, "c", "Colour")


@given(st.text(max_size=60))
def test_any_text_is_a_colour_or_a_problem(text: str) -> None:
    try:
        assert read_colour(text, "c", "Colour")
    except Problem as problem:
        assert problem.input == "c"


# --- amounts ---------------------------------------------------------------------------------------------------------------


def test_amounts_by_hand() -> None:
    cream, russet = amounts_by_colour(
        [
            ("russet", "bag petal 11 mm", 80.0, 60.0, 110.0),
            ("cream", "coat", 500.0, 450.0, 560.0),
            ("cream", "bag round 1.8 mm", 5.0, 4.0, 6.0),
            ("russet", "bag petal 11 mm", 20.0, 15.0, 30.0),
            ("russet", "bag open star 7 mm", 50.0, 40.0, 65.0),
        ]
    )
    assert (cream.colour, cream.bags, cream.coat_g) == ("cream", 1, 500.0)
    assert cream.loss_g == pytest.approx(20 + 0.03 * 500) and cream.margin_g == pytest.approx(50.5)
    assert cream.mass_g == pytest.approx(505 + 35 + 50.5)
    assert (russet.bags, russet.used_g, russet.uses) == (2, 150.0, (("bag petal 11 mm", 100.0), ("bag open star 7 mm", 50.0)))
    assert russet.low_g == pytest.approx(115 + 40 + 11.5) and russet.high_g == pytest.approx(205 + 40 + 20.5)


uses = st.lists(st.tuples(st.sampled_from(sorted(PALETTE)), st.sampled_from(["coat", "bag a", "bag b", "filling"]), st.floats(0, 900)), max_size=20)


@given(uses)
def test_nothing_is_lost_between_uses_and_amounts(found: list[tuple[str, str, float]]) -> None:
    amounts = amounts_by_colour([(c, use, m, 0.8 * m, 1.2 * m) for c, use, m in found])
    assert math.fsum(a.used_g for a in amounts) == pytest.approx(math.fsum(m for *_, m in found))
    for a in amounts:
        assert a.mass_g == pytest.approx(a.used_g + a.loss_g + a.margin_g) and a.low_g <= a.mass_g <= a.high_g
        assert math.fsum(m for _, m in a.uses) == pytest.approx(a.used_g)
    lightness = [lab(PALETTE[a.colour])[0] for a in amounts]
    assert lightness == sorted(lightness, reverse=True)


def test_amounts_below_nothing_are_refused() -> None:
    for wrong in ({"uses": [("cream", "coat", -1.0, 0.0, 0.0)]}, {"uses": [], "margin": -0.1}, {"uses": [], "bag_loss_g": -1}):
        with pytest.raises(ValueError):
            amounts_by_colour(**wrong)  # type: ignore[arg-type]


# --- mixing and tints --------------------------------------------------------------------------------------------------------


def test_a_common_base_is_split_off() -> None:
    steps = mixing_order([("bay", 40.0), ("russet", 200.0), ("plain", 300.0), ("terracotta", 100.0), ("sage", 60.0), ("own green", 10.0)])
    by_colour = {step.colour: step for step in steps}
    assert [step.colour for step in steps] == ["plain", "sage", "terracotta", "bay", "russet", "own green"]
    assert by_colour["russet"].base == "terracotta" and by_colour["bay"].base == "sage"
    assert by_colour["terracotta"].whole_g == 300 and by_colour["terracotta"].split == (("russet", 200.0),)
    assert by_colour["plain"].split == () and by_colour["own green"].base == "plain"
    assert by_colour["russet"].dark and not by_colour["sage"].dark and not by_colour["own green"].dark  # nobody knows how dark that is
    assert (
        by_colour["terracotta"].sentence(Formatter().mass) == "Tint 300 g of plain to terracotta. Take off 200 g for russet; 100 g stays terracotta."
    )


@given(st.lists(st.tuples(st.sampled_from(sorted(PALETTE)), st.floats(1, 900)), max_size=12))
def test_bowls_hold_what_is_taken_from_them(wanted: list[tuple[str, float]]) -> None:
    steps = mixing_order(wanted)
    seen: dict[str, float] = {}
    for step in steps:
        assert step.base == "plain" or step.base in seen, "a base is mixed before what is taken from it"
        if step.base != "plain":
            assert lab(PALETTE[step.base])[0] > lab(PALETTE[step.colour])[0]
        seen[step.colour] = step.whole_g
        assert step.whole_g == pytest.approx(step.own_g + math.fsum(m for _, m in step.split))
    from_plain = math.fsum(step.whole_g for step in steps if step.base == "plain")
    assert from_plain == pytest.approx(math.fsum(mass for _, mass in wanted))


def test_tints_scale_with_the_batch() -> None:
    found = tint(50, 3, 425)
    assert (found.drops, found.parts, found.whole_drops) == (25.5, 8.5, 26)
    assert found.off_percent == pytest.approx(100 * 0.5 / 25.5) and found.g_per_drop == pytest.approx(50 / 3)


@given(st.floats(1, 500), st.floats(0.5, 50), st.floats(1, 5000), st.sampled_from(DEPTHS), st.floats(0, 2000), st.floats(0, 2000))
def test_what_stands_longer_takes_fewer_drops(test_g: float, drops: float, mass: float, depth: str, stood: float, will: float) -> None:
    plain = tint(test_g, drops, mass)
    found = tint(test_g, drops, mass, depth, stood, will)
    if will > stood:
        assert found.drops <= plain.drops
    if will < stood:
        assert found.drops >= plain.drops
    assert found.drops == pytest.approx(plain.drops, rel=0.31)
    assert found.parts == plain.parts


@pytest.mark.parametrize(
    "depth, stood, will, deeper",
    [  # three hours bring 1 - 1/e of the night's deepening: 5, 15 and 30 %, and six hours 1 - 1/e^2
        ("pale", 0, 180, 1 + 0.05 * (1 - 1 / math.e)),
        ("middling", 0, 360, 1 + 0.15 * (1 - 1 / math.e**2)),
        ("deep", 180, 1e6, 1.30 / (1 + 0.30 * (1 - 1 / math.e))),
        ("deep", 0, 0, 1.0),
    ],
)
def test_a_tint_that_deepens_by_hand(depth: str, stood: float, will: float, deeper: float) -> None:
    found = tint(50, 3, 400, depth, stood, will)
    assert found.drops == pytest.approx(24 / deeper)
    assert found.deepens_percent == pytest.approx(100 * (deeper - 1), abs=1e-9)


def test_how_sure_the_deepening_is() -> None:
    """By a night a pale tint deepens by 0 to 10 %, a middling one by 5 to 25 %, a deep one by 15 to 50 %; the pace is 1.5 to 6 h."""
    assert [(DEEPENING[depth].low, DEEPENING[depth].high) for depth in DEPTHS] == [(0, 0.10), (0.05, 0.25), (0.15, 0.50)]
    assert (DEEPENING_MIN.low, DEEPENING_MIN.high) == (90, 360)


def test_a_base_is_lighter_by_four() -> None:
    """Greys differ in L* alone: one is a base of the next from a difference of 4 up."""
    greys = {round(lab(value)[0], 3): value for value in (f"#{i:02x}{i:02x}{i:02x}" for i in range(60, 200))}
    for (light, value), (other, under) in product(greys.items(), list(greys.items())[::7]):
        if abs(other - light - 4) > 1e-3:
            base = next(step.base for step in mixing_order([(value, 10.0), (under, 10.0)]) if step.colour == value)
            assert (base == under) == (other >= light + 4), (light, other)


def test_tints_of_nothing_are_refused() -> None:
    for wrong in ((0, 3, 5), (5, 0, 5), (5, 3, 0)):
        with pytest.raises(ValueError):
            tint(*wrong)
    with pytest.raises(ValueError):
        tint(5, 3, 5, "murky")


# --- bags --------------------------------------------------------------------------------------------------------------------


def test_bags_of_a_whole_cake() -> None:
    plan = bag_plan(
        [
            ("russet", PETAL, 80),
            ("cream", Tip("petal", 9), 40),
            ("cream", FINE, 5),
            ("russet", STAR, 60),
            ("cream", Tip("petal", 9), 30),
            ("russet", STAR, 50),
            ("blush", Tip("closed star", 5), 6),
            ("bay", Tip("leaf", 6), 3),
        ]
    )
    assert [(b.colour, b.tip.name, b.mass_g, b.fills) for b in plan.bags][:2] == [("russet", "petal 11 mm", 80, 1), ("cream", "petal 9 mm", 70, 1)]
    assert (len(plan.bags), len(plan.coupled), plan.couplers, plan.saved, plan.changes, plan.washes) == (6, 4, 2, 2, 3, 0)
    assert plan.twice == ()


def test_wide_tips_do_not_go_on_a_coupler() -> None:
    plan = bag_plan([("cream", WIDE, 200), ("cream", STAR, 80), ("cream", FINE, 5)])
    assert [len(b.tips) for b in plan.coupled] == [1, 2] and plan.saved == 1


def test_tips_needed_twice_and_washes() -> None:
    plan = bag_plan([("cream", STAR, 90), ("russet", STAR, 90), ("cream", STAR, 20)])
    assert plan.twice == ((STAR, ("cream", "russet")),) and plan.washes == 2


def test_refills() -> None:
    assert [b.fills for b in bag_plan([("cream", STAR, 300), ("bay", STAR, 301), ("russet", STAR, 900)]).bags] == [1, 2, 3]
    assert bag_plan([("cream", STAR, 300)], holds_g=100).bags[0].fills == 3
    with pytest.raises(ValueError):
        bag_plan([], holds_g=0)
    assert bag_plan([]).bags == ()


bagged = st.lists(
    st.tuples(
        st.sampled_from(["cream", "russet", "bay"]), st.builds(Tip, st.sampled_from(FAMILIES), st.sampled_from([3.0, 9.0, 18.0])), st.floats(1, 500)
    ),
    max_size=20,
)


@given(bagged)
def test_couplers_lose_nothing_and_no_fewer_bags_would_do(rows: list[tuple[str, Tip, float]]) -> None:
    plan = bag_plan(rows)
    for bags in (plan.bags, plan.coupled):
        assert math.fsum(b.mass_g for b in bags) == pytest.approx(math.fsum(m for *_, m in rows))
        assert {(b.colour, t) for b in bags for t in b.tips} == {(c, t) for c, t, _ in rows}
    least = len({(c, t if t.opening_mm > 13 else None) for c, t, _ in rows})
    assert len(plan.coupled) == least and plan.saved == len(plan.bags) - least
    assert plan.couplers == sum(len(b.tips) > 1 for b in plan.coupled)


# --- the order of piping -------------------------------------------------------------------------------------------------------


def placed(kind: str, place: str, line: float, out: float, colour: str = "cream", tier: int = 0, drop: float = 0.0, tip: Tip = PETAL) -> PlacedRow:
    return PlacedRow(kind, tip, colour, place, line, drop_mm=drop, tier=tier, above_mm=4.0, below_mm=4.0, stands_out_mm=out)


def test_the_order_of_the_trade_whatever_the_order_of_asking() -> None:
    rows = [
        placed("swag", "side", 15, 10, drop=30),
        placed("swag", "over", 12, 8, drop=30),
        placed("string", "under", 30, 2, drop=30, tip=FINE),
        placed("ruched border", "top edge", 0, 9),
        placed("shell", "base", 95, 9),
        placed("shell", "top", 0, 9),
        placed("rosette", "joints", 15, 8),
        placed("leaf", "joints", 15, 3),
        placed("bead", "inside", 0, 5),
    ]
    for seed in range(20):
        mixed = random.Random(seed).sample(range(len(rows)), len(rows))
        order = piping_order([rows[i] for i in mixed])
        assert [mixed[i] for i in order] == list(range(len(rows)))


def test_within_a_phase_the_flatter_row_beside_a_high_one_comes_first() -> None:
    high, flat = placed("swag", "side", 30, 12), placed("line", "side", 44, 2)  # 6 mm apart
    assert piping_order([high, flat]) == (1, 0)
    assert touches([high, flat]) == ((1, 0),) and touches([flat, high]) == ()
    far = placed("line", "side", 60, 2)  # 22 mm away: reached without touching
    assert touches([high, far]) == ()


def test_upper_tiers_first_and_the_bag_in_the_hand_kept() -> None:
    rows = [
        placed("swag", "side", 40, 5, "cream", 0),
        placed("swag", "side", 40, 5, "russet", 1),
        placed("swag", "side", 70, 5, "bay", 1),
        placed("swag", "side", 90, 5, "cream", 0),
        placed("swag", "side", 10, 5, "bay", 1),
    ]
    assert piping_order(rows) == (2, 4, 1, 3, 0)


@given(
    st.lists(
        st.builds(
            placed,
            st.sampled_from(["swag", "string", "leaf", "shell"]),
            st.sampled_from(["side", "over", "under", "top edge", "base", "top", "joints", "inside"]),
            st.floats(0, 100),
            st.floats(1, 15),
            st.sampled_from(["cream", "bay"]),
            st.integers(0, 2),
        ),
        max_size=10,
    )
)
def test_every_row_is_piped_once(rows: list[PlacedRow]) -> None:
    order = piping_order(rows)
    assert sorted(order) == list(range(len(rows)))
    flowers = [i for i, at in enumerate(order) if rows[at].place == "joints"]
    walls = [i for i, at in enumerate(order) if rows[at].place in ("side", "over", "under", "top edge", "base")]
    assert not flowers or not walls or max(walls) < min(flowers)


# --- colour ------------------------------------------------------------------------------------------------------------------


@given(hexes)
def test_lab_agrees_with_coloraide(value: str) -> None:
    """coloraide uses the longer matrices of the web's colour standard; the four-digit ones differ by about 1e-3."""
    assert lab(value) == pytest.approx(tuple(Color(value).convert("lab-d65").coords()), abs=0.12)
    assert linear_rgb(value) == pytest.approx(tuple(Color(value).convert("srgb-linear").coords()), abs=1e-9)
    assert luminance(value) == pytest.approx(Color(value).luminance(), abs=1e-3)


@given(labs, labs)
@settings(max_examples=300)
def test_ciede2000_agrees_with_coloraide(first: tuple[float, float, float], second: tuple[float, float, float]) -> None:
    h1, h2 = (math.degrees(math.atan2(c[2], c[1])) for c in (first, second))
    if abs(abs(h1 - h2) - 180) < 0.5:  # the published formula jumps where hues are half a turn apart
        return
    expected = Color("lab-d65", list(first)).delta_e(Color("lab-d65", list(second)), method="2000")
    assert ciede2000(first, second) == pytest.approx(expected, abs=1e-6)


@given(labs, labs)
def test_a_difference_is_the_same_both_ways_and_nothing_to_itself(first: tuple[float, float, float], second: tuple[float, float, float]) -> None:
    assert ciede2000(first, first) == 0
    h1, h2 = (math.degrees(math.atan2(c[2], c[1])) for c in (first, second))
    if abs(abs(h1 - h2) - 180) > 0.5:
        assert ciede2000(first, second) == pytest.approx(ciede2000(second, first), abs=1e-9)


@given(hexes, st.sampled_from(sorted(SIGHT)))
def test_simulated_sight_agrees_with_coloraide(value: str, sight: str) -> None:
    name = {"protanopia": "protan", "deuteranopia": "deutan", "tritanopia": "tritan"}[sight]
    expected = Color(value).filter(name, 1, method="machado", space="srgb-linear").convert("srgb").coords()
    mine = [int(seen_as(value, sight)[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    assert mine == pytest.approx([min(1.0, max(0.0, c)) for c in expected], abs=0.5 / 255 + 1e-4)


def test_greys_stay_greys_to_every_eye() -> None:
    for sight, matrix in SIGHT.items():
        assert all(math.fsum(row) == pytest.approx(1, abs=1e-5) for row in matrix)
        assert seen_as("#808080", sight) == "#808080"


def test_red_and_green_of_one_lightness_are_lost_to_some() -> None:
    found = difference("#a06a50", "#7a7d50")
    assert found.verdict == "clear" and found.deuteranopia < 0.5 * found.normal
    assert found.least == min(found.normal, found.protanopia, found.deuteranopia, found.tritanopia)


def test_verdicts() -> None:
    assert difference(PALETTE["russet"], PALETTE["cream"]).verdict == "clear"
    assert difference(PALETTE["ivory"], PALETTE["chalk"]).verdict in ("same", "close")
    same = difference(PALETTE["bay"], PALETTE["bay"])
    assert same.verdict == "same" and same.least == 0


@given(hexes, hexes)
def test_a_verdict_goes_by_the_difference(first: str, second: str) -> None:
    """Under 5 two colours are taken for the same, from 10 they are clear (common practice)."""
    found = difference(first, second)
    assert found.verdict == ("same" if found.normal < 5 else "close" if found.normal < 10 else "clear")


@pytest.mark.parametrize("least, verdict", [(4.0, "same"), (5.0, "close"), (9.0, "close"), (10.0, "clear")])
def test_verdicts_of_greys_just_apart(least: float, verdict: str) -> None:
    """The pair of greys with the smallest difference from `least` up."""
    pairs = (difference("#777777", f"#{i:02x}{i:02x}{i:02x}") for i in range(0x77, 0x100))
    assert next(found for found in pairs if found.normal >= least).verdict == verdict


@given(st.integers(0, 12), st.integers(0, 12), st.integers(0, 12))
def test_the_darkest_colours_agree_with_coloraide(red: int, green: int, blue: int) -> None:
    """Here the cube root gives way to a straight line, at 216/24389 of white (CIE 15)."""
    value = f"#{red:02x}{green:02x}{blue:02x}"
    assert lab(value) == pytest.approx(tuple(Color(value).convert("lab-d65").coords()), abs=0.01)


@given(hexes, hexes)
def test_contrast_lies_between_1_and_21(first: str, second: str) -> None:
    assert 1 <= contrast(first, second) <= 21 + 1e-9 and contrast(first, second) == contrast(second, first)


def test_values_that_are_not_colours_are_refused() -> None:
    for wrong in ("russet", "#12345", "#12345g", ""):
        with pytest.raises(ValueError):
            linear_rgb(wrong)
    with pytest.raises(ValueError):
        seen_as("#ffffff", "x-ray")


def test_a_base_has_the_hue_of_what_is_mixed_from_it() -> None:
    """Peach is 27.9 degrees of hue from ivory and apricot 28.4: 28 is the most."""
    bases = {colour: mixing_order([("ivory", 50.0), (colour, 50.0)])[-1].base for colour in ("peach", "apricot")}
    assert bases == {"peach": "ivory", "apricot": "plain"}
