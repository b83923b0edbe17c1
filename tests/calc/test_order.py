"""The whole order: the demonstration cake, the geometry of its marking, what cannot stand, and that nothing typed is lost."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import Answer, parse
from calc.calculators.order_form import order_of
from calc.curves import swag_drop_mm
from calc.order import PHASES, Plan, plan

ORDER = (Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")


def asked(**changes: str) -> dict[str, str]:
    """The demonstration order as the form's texts, with some of them changed."""
    answer = Answer("order")
    texts = dict(CALCULATORS["order"].unfold({"order": ORDER}, answer))  # type: ignore[misc]
    texts.update({name.replace("__", "."): text for name, text in changes.items()})
    return texts


def planned(**changes: str) -> Plan:
    return plan(order_of(parse(CALCULATORS["order"], asked(**changes))))


def test_order_as_text_and_as_form_give_the_same_answer() -> None:
    as_text, as_form = calc.compute("order", {"order": ORDER}), calc.compute("order", asked())
    assert not as_text.problems
    assert as_text.figures == as_form.figures
    assert as_text.tables == as_form.tables


def test_order_has_every_section() -> None:
    answer = calc.compute("order", {"order": ORDER})
    assert [s["name"] for s in answer.sections] == [
        "cake",
        "portions",
        "coats",
        "rows",
        "amounts",
        "shopping",
        "time",
        "price",
        "customer",
        "bench",
        "sheets",
    ]
    for section in answer.sections:
        items = [*answer.figures.values(), *answer.tables, *answer.notes, *answer.drawings, *answer.sheets]
        assert any(item.get("section") == section["name"] for item in items), section["name"]


def test_portions_serve_the_guests_of_the_demonstration() -> None:
    cake = planned()
    assert cake.portions >= cake.order.guests == 36
    for tier in cake.tiers:  # slices are counted on the sponge
        assert tier.cut.count * 25 * 50 <= math.pi * (tier.order.sponge.width_mm / 2) ** 2


def test_rows_close_round_the_measured_side() -> None:
    lower = planned().tiers[0]
    assert lower.side_mm == 660.0
    assert lower.division.repeats * lower.division.width_mm == pytest.approx(660.0, abs=1e-9)
    assert lower.division.cutter_mm in (75.0, 90.0)
    assert lower.division.drop_mm == pytest.approx(swag_drop_mm(lower.division.cutter_mm, lower.division.width_mm))
    assert lower.division.gap_mm == 0.0
    assert not lower.clashes


def test_guide_tape_stands_where_the_cutter_touches_it() -> None:
    lower = planned(tiers__0__joints_below="4.5 cm", cutters="5 cm").tiers[0]
    edge, below = lower.guide or ("", 0.0)
    assert edge == "lower edge"
    assert lower.joints_below_mm - below == pytest.approx(lower.division.guide_mm)
    near_the_top = planned(tiers__0__joints_below="1 cm").tiers[0]
    edge, below = near_the_top.guide or ("", 0.0)
    assert edge == "upper edge"  # the cutter would stand above the cake: the tape goes under it
    assert below == pytest.approx(10.0 + near_the_top.division.drop_mm)


def test_shells_are_whole_to_each_repeat_and_little_stretched() -> None:
    for tier in planned().tiers:
        for row in tier.rows:
            if row.spec.kind == "shell":
                assert row.amount.count % tier.division.repeats == 0
                assert abs(row.amount.stretch_percent) <= 15


def test_coating_disc_sets_the_side() -> None:
    lower = planned().tiers[0]
    assert lower.perimeter_mm == pytest.approx(math.pi * 210.0)
    assert lower.coats.finished.width_mm == 210.0
    assert lower.tape_off_percent is None


def test_tape_wins_over_the_sum_and_the_page_says_so() -> None:
    texts = asked(tiers__0__disc="22.3 cm")
    answer = calc.compute("order", texts)
    assert answer.figures["pitch_1"]["value"] * answer.figures["repeats_1"]["value"] == pytest.approx(660.0)
    said = [n["text"] for n in answer.notes if "The tape is used" in n["text"]]
    assert len(said) == 1 and "66 cm" in said[0] and "70.1 cm" in said[0] and "Check" in said[0]


def test_without_a_tape_the_side_is_worked_out() -> None:
    assert planned(tiers__0__side="").tiers[0].side_mm == pytest.approx(math.pi * 210.0)


def test_buttercream_adds_up_by_colour() -> None:
    cake = planned()
    used = math.fsum(a.used_g for a in cake.amounts)
    assert used == pytest.approx(cake.filling_g + cake.coat_g + cake.piping_g)
    assert cake.buttercream_g > used
    for amount in cake.amounts:
        assert amount.low_g <= amount.mass_g <= amount.high_g


def test_one_bag_for_each_colour_and_tip() -> None:
    cake = planned()
    pairs = {(row.colour, row.tip) for tier in cake.tiers for row in tier.rows}
    assert {(bag.colour, bag.tip) for bag in cake.bags.bags} == pairs
    assert len(cake.bags.bags) == len(pairs)


def test_piping_order_goes_by_phase() -> None:
    phases = [PHASES.index(step.phase) for step in planned().steps]
    assert phases == sorted(phases)
    kinds = [step.row.spec.kind for step in planned().steps]
    assert kinds == ["swag", "swag", "string", "ruched border", "shell", "shell", "rosette", "leaf"]


def test_a_weighed_line_replaces_the_estimate_wherever_its_tip_is_used() -> None:
    before = planned()
    after = planned(measured__0__tip="petal 9 mm", measured__0__kind="line", measured__0__length="30 cm", measured__0__mass="21 g")
    swag = next(r for r in after.tiers[0].rows if r.tip.opening_mm == 9)
    assert swag.amount.mass_g == pytest.approx(swag.amount.path_mm / 1000 * 70, rel=0.02)
    border = [next(r for r in cake.tiers[1].rows if r.spec.kind == "ruched border").amount.mass_g for cake in (before, after)]
    swags = [next(r for r in cake.tiers[0].rows if r.tip.opening_mm == 9).amount.mass_g for cake in (before, after)]
    assert border[1] / border[0] == pytest.approx(swags[1] / swags[0], rel=1e-6)
    assert before.tiers[0].rows[0].amount == after.tiers[0].rows[0].amount


def test_rows_that_do_not_fit_are_named() -> None:
    answer = calc.compute("order", asked(tiers__0__height="4 cm", tiers__0__repeats="6", tiers__0__rows__0__drop="5 cm"))
    assert not answer.problems
    clashes = [n["text"] for n in answer.notes if "collide" in n["text"] or "does not fit" in n["text"]]
    assert any("collide" in text and "shell" in text and "swag" in text for text in clashes)
    assert any("does not fit" in text for text in clashes)


def test_too_few_portions_are_said() -> None:
    answer = calc.compute("order", asked(guests="60"))
    assert answer.figures["spare_portions"]["value"] < 0
    assert any("short for 60 guests" in n["text"] for n in answer.notes)


def test_no_cutter_that_fits_is_said_with_the_repeats_that_would() -> None:
    answer = calc.compute("order", asked(cutters="9 cm", tiers__0__repeats="6"))
    assert any("leaves a gap of 2 cm" in n["text"] and "8 repeats close it" in n["text"] for n in answer.notes)


def test_kept_top_tier_is_not_counted() -> None:
    assert planned(keep_top="yes").portions == planned().portions - planned().tiers[1].cut.count


@pytest.mark.parametrize(
    ("name", "text", "field", "words"),
    [
        ("tiers.0.disc", "18 cm", "tiers.0.disc", "wider than the cake"),
        ("tiers.1.width", "25 cm", "tiers.1.width", "wider"),
        ("tiers.1.disc", "24 cm", "tiers.1.disc", "hangs over"),
        ("tiers.0.rows.3.tip", "round 0.05 mm", "tiers.0.rows.3.tip", "opening"),
        ("guests", "abc", "guests", "number"),
        ("guests", "100000", "guests", "between 1 and 2000"),
        ("tiers.0.width", "5 kg", "tiers.0.width", "weight"),
        ("tiers.0.width", "1e9 m", "tiers.0.width", "between"),
        ("tiers.0.width", "-3 cm", "tiers.0.width", "between"),
        ("tiers.0.width", "6 in by mistake", "tiers.0.width", "by mistake"),
        ("tiers.0.rows.0.tip", "petal", "tiers.0.rows.0.tip", "opening"),
        ("tiers.0.rows.0.kind", "tassel", "tiers.0.rows.0.kind", "none of them"),
        ("ready_at", "soon", "ready_at", "date"),
        ("name", "\N{BIRTHDAY CAKE}" * 10_000, "name", "characters"),
        ("hours", "never", "hours", "9:00"),
        ("nonsense", "1", "nonsense", "no input"),
    ],
)
def test_mistake_is_a_problem_at_its_field_and_keeps_what_was_typed(name: str, text: str, field: str, words: str) -> None:
    texts = {**asked(), name: text}
    answer = calc.compute("order", texts)
    assert [p["input"] for p in answer.problems] == [field]
    assert words in answer.problems[0]["message"]
    assert not answer.to_dict()["figures"]
    assert (answer.fields or {})[name] == text
    assert dict(CALCULATORS["order"].unfold({"order": answer.record or ""}, Answer("order")))[name] == text  # type: ignore[misc]


def test_order_that_is_not_toml_says_where() -> None:
    answer = calc.compute("order", {"order": "name = 'a'\nguests 36"})
    assert [p["input"] for p in answer.problems] == ["order"]
    assert "line 2" in answer.problems[0]["message"]


@given(st.text(max_size=300))
def test_any_text_as_an_order_is_an_answer_or_problems(text: str) -> None:
    answer = calc.compute("order", {"order": text})
    assert answer.problems


@given(st.dictionaries(st.sampled_from([name for name in asked() if not name.startswith("packs")]), st.text(max_size=40), min_size=1, max_size=4))
def test_any_text_in_the_form_is_kept_in_the_record(changes: dict[str, str]) -> None:
    texts = {**asked(), **changes}
    answer = calc.compute("order", texts)
    kept = tomllib.loads(answer.record or "")
    assert answer.fields == texts
    flat = dict(CALCULATORS["order"].unfold({"order": answer.record or ""}, Answer("order")))  # type: ignore[misc]
    for name, text in changes.items():
        assert flat.get(name, "") == text, kept
    json_text = answer.to_json()
    assert ("problems" in json_text) and (not answer.problems or not answer.to_dict()["figures"])
