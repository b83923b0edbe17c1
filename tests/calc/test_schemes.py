"""Looks to begin with: each scheme fits every shape and size, keeps what is the maker's, and says what it changed."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from calc.calculators import CALCULATORS
from calc.calculators.declare import parse
from calc.calculators.order_form import order_of
from calc.colours import PALETTE
from calc.order import Order
from calc.rows import KINDS, RowSpec
from calc.schemes import SCHEMES, Fitted, Part, Scheme, fit, scheme_of_rows, what_changed
from calc.schemes.fitting import colours_for, shallowest_mm, tip_for
from calc.shapes import SHAPES, TWO_SIZES
from calc.tips import Tip
from calc.units import Formatter


def order_from(tiers: list[tuple[str, float, float]], cutters: str = "", **more: str) -> Order:
    """An order of tiers with a shape, a width and a height [mm]."""
    texts = {"cutters": cutters, **more}
    for at, (shape, width, height) in enumerate(tiers):
        texts |= {f"tiers.{at}.shape": shape, f"tiers.{at}.width": f"{width} mm", f"tiers.{at}.height": f"{height} mm"}
        if shape in TWO_SIZES:
            texts[f"tiers.{at}.length"] = f"{1.4 * width} mm"
    return order_of(parse(CALCULATORS["order"], texts))


def faults(found: Fitted) -> list[Any]:
    """All that speaks against the rows of a cake."""
    rows = [row for tier in found.plan.tiers for row in tier.rows]
    clashes = [clash for tier in found.plan.tiers for clash in tier.clashes]
    return [*clashes, *found.plan.crowded, *(note for row in rows for note in (*row.notes, *row.amount.notes))]


SUPPER = [("round", 200.0, 100.0), ("round", 150.0, 100.0)]


def test_there_are_schemes_enough_and_each_is_named_once() -> None:
    assert len(SCHEMES) >= 8
    assert len({scheme.name for scheme in SCHEMES.values()}) == len(SCHEMES)
    for key, scheme in SCHEMES.items():
        assert key == scheme.name.lower().replace(" ", "-") or set(key.split("-")) <= set(scheme.name.lower().split())
        assert scheme.words.endswith(".") and scheme.parts
        assert all(part.kind in KINDS and 0 <= part.shade < len(scheme.tones) for part in scheme.parts)
        assert all(tone in PALETTE for tone in scheme.tones)


@pytest.mark.parametrize("key", SCHEMES)
def test_on_a_usual_cake_a_scheme_loses_no_row(key: str) -> None:
    found = fit(SCHEMES[key], order_from(SUPPER, "9 cm, 7.5 cm"))
    assert not faults(found)
    assert [change for tier in found.tiers for change in tier.changes if change.what == "left out"] == []


@settings(max_examples=40, deadline=None, derandomize=True, phases=(Phase.generate,), suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_every_scheme_fits_every_shape_and_size(data: st.DataObject) -> None:
    """Tiers of 8 to 40 cm, 6 to 20 cm high, up to three of them: nothing collides, nothing speaks against a row, and hardly a row is lost."""
    shapes = [data.draw(st.sampled_from(tuple(SHAPES)))]
    tiers = []
    width = data.draw(st.integers(80, 400))
    for _ in range(data.draw(st.integers(1, 3))):
        tiers.append((shapes[0], float(width), float(data.draw(st.integers(60, 200)))))
        width = int(width * data.draw(st.sampled_from((0.6, 0.75))))
        if width < 80:
            break
    order = order_from(tiers, data.draw(st.sampled_from(("", "9 cm, 7.5 cm", "5 cm"))))
    for scheme in SCHEMES.values():
        found = fit(scheme, order)
        assert not faults(found), (scheme.key, tiers)
        for tier in found.tiers:
            left = [change.part for change in tier.changes if change.what == "left out"]
            assert len(left) <= len(tier.rows), (scheme.key, tiers, left)  # what is left is still the scheme
            least = shallowest_mm(tier.planned.division.width_mm)
            assert all(row.drop_mm >= least for row in tier.planned.rows if row.hung), (scheme.key, tiers)


def test_what_is_not_rows_stays() -> None:
    order = order_from(SUPPER, "9 cm, 7.5 cm", guests="41", **{"tiers.0.colour": "blush", "tiers.0.repeats": "5", "tiers.0.rows.0.kind": "bead"})
    found = fit(SCHEMES["hay-cart"], order)
    bare = [replace(tier, rows=(), repeats=None, cutter_mm=None, joints_below_mm=None) for tier in order.tiers]
    assert [replace(tier, rows=(), repeats=None) for tier in found.order.tiers] == bare
    assert replace(found.order, tiers=()) == replace(order, tiers=())


def test_a_low_tier_takes_less_and_says_so() -> None:
    """Four centimetres are too few for layered swags, strings and two borders; something is changed, with a reason that names the height."""
    order = order_from([("round", 200.0, 40.0)], "9 cm")
    found = fit(SCHEMES["plaster-ceiling"], order)
    changes = found.tiers[0].changes
    assert changes and not faults(found)
    told = " ".join(what_changed(found, Formatter()))
    high = Formatter().length(found.plan.tiers[0].height_mm)
    assert f"for want of room on a side {high} high" in told
    assert found.scale < 1 and "Finer tips than usual" in told


def test_rows_left_out_are_the_least_important_that_help() -> None:
    """A ledge of a centimetre has no room for a border on the top behind the edge's: that one goes, with its reason, and the others stay."""
    scheme = Scheme("x", "X", ".", (Part("shell", "base", 0), Part("shell", "top edge", 0), Part("rope", "top", 1)))
    found = fit(scheme, order_from([("round", 200.0, 100.0), ("round", 180.0, 100.0)]))
    lower = found.tiers[0]
    assert [(change.what, change.part.place, change.why) for change in lower.changes if change.what == "left out"] == [("left out", "top", "ledge")]
    assert "the rope on the top left out, for want of room on its top" in " ".join(what_changed(found, Formatter()))


def test_what_hangs_on_a_row_goes_with_it() -> None:
    """Without the swag nothing lies over it and nothing hangs under it."""
    scheme = Scheme("x", "X", ".", (Part("shell", "base", 0), Part("swag", "side", 0, drop=3.0), Part("swag", "over", 1), Part("string", "under", 1)))
    found = fit(scheme, order_from([("round", 100.0, 20.0)]))
    assert not faults(found)
    kinds = [row.place for row in found.tiers[0].rows]
    assert ("side" in kinds) or not {"over", "under"} & set(kinds)


def test_the_makers_colours_come_first() -> None:
    scheme = SCHEMES["june-hedge"]
    assert colours_for(scheme, []) == scheme.tones
    assert colours_for(scheme, ["russet", "bay", "cream"])[:2] == ("russet", "cream")
    assert colours_for(scheme, ["russet", "bay", "cream"])[3] == "bay"  # a green goes to the leaves
    assert colours_for(scheme, ["gran's blue"])[0] == "gran's blue"  # a name that the handbook does not know counts as well
    assert len(set(colours_for(scheme, ["claret"]))) == 4


def test_tips_grow_with_the_tiers() -> None:
    part = SCHEMES["hay-cart"].parts[0]
    assert tip_for(part, 1.0) == Tip("petal", 11)
    small = fit(SCHEMES["hay-cart"], order_from([("round", 90.0, 60.0)]))
    large = fit(SCHEMES["hay-cart"], order_from([("round", 400.0, 200.0)]))
    first = [next(row.tip.opening_mm for row in found.tiers[0].rows if row.place == "side") for found in (small, large)]
    assert first[0] < 11 < first[1]


def test_tiers_share_their_tips() -> None:
    """Two tiers on which nothing has to change have one tip for each row."""
    found = fit(SCHEMES["bell-ropes"], order_from([("round", 250.0, 120.0), ("round", 150.0, 100.0)]))
    tips = [{(row.kind, row.place): row.tip for row in tier.rows} for tier in found.tiers]
    assert all(tips[0][row] == tip for row, tip in tips[1].items() if row in tips[0])


def test_somebodys_own_rows_come_back_as_they_were() -> None:
    order = order_from(SUPPER, "9 cm, 7.5 cm")
    rows = (
        RowSpec("swag", Tip("petal", 10.5), place="side", colour="mine", drop_mm=25.0),
        RowSpec("shell", Tip("open star", 7, 6), place="base", colour="mine", second="cream"),
        RowSpec("leaf", Tip("leaf", 6), place="joints", colour="mine", per_joint=2),
    )
    mine = scheme_of_rows("Mine", [(tier.height_mm, rows[: 3 - at]) for at, tier in enumerate(order.tiers)])
    assert mine.tones == ("mine", "cream")
    found = fit(mine, order)
    for at, tier in enumerate(found.tiers):
        assert [replace(row, path="") for row in tier.rows] == list(rows[: 3 - at])
    assert not any(tier.changes for tier in found.tiers)
    other = fit(mine, order_from([("heart", 250.0, 90.0)]), ["damson", "honey"])
    assert [row.colours for row in other.tiers[0].rows] == [("damson",), ("damson", "honey"), ("damson",)]
    assert not faults(other)


def test_middle_tiers_take_after_the_nearest_of_ones_own() -> None:
    rows = [(100.0, (RowSpec("bead", Tip("round", size), place="base", colour="cream"),)) for size in (6.0, 4.0)]
    found = fit(scheme_of_rows("Mine", rows), order_from([("round", width, 100.0) for width in (300.0, 250.0, 200.0, 150.0)]))
    assert [tier.rows[0].tip.opening_mm for tier in found.tiers] == [6.0, 6.0, 4.0, 4.0]


def test_a_drop_is_one_that_can_be_written() -> None:
    """A drop that the search chose is snapped: here to whole half centimetres."""
    found = fit(SCHEMES["plaster-ceiling"], order_from([("round", 200.0, 40.0)]), snap=lambda length: 5.0 * math.floor(length / 5.0))
    drops = [row.drop_mm for row in found.tiers[0].rows]
    assert any(drops) and all(drop % 5 == 0 for drop in drops)
