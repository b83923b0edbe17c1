"""A look for an order: what it puts into the form is answered without a clash, in both systems of units."""

from __future__ import annotations

import json
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS
from calc.calculators.declare import parse
from calc.calculators.order_form import ROWS, plan_of
from calc.schemes import SCHEMES
from calc.units import Problem, Problems

CAKES = {
    "round": {"tiers.0.shape": "round", "tiers.0.width": "20 cm", "tiers.1.shape": "round", "tiers.1.width": "15 cm", "cutters": "9 cm, 7.5 cm"},
    "low heart": {"tiers.0.shape": "heart", "tiers.0.width": "22 cm", "tiers.0.height": "4 cm", "tiers.0.repeats": "7"},
    "square in inches": {"units": "us", "tiers.0.shape": "square", "tiers.0.width": "9 in", "tiers.0.height": "2 in", "cutters": "3 in"},
}


def look(texts: dict[str, str], **wish: Any) -> dict[str, Any]:
    """What the page asks for, answered."""
    return json.loads(calc.sheet("order", texts, f"look {json.dumps(wish)}"))


def filled(texts: dict[str, str], found: dict[str, Any]) -> dict[str, str]:
    """The form after a look was chosen."""
    kept = {name: text for name, text in texts.items() if not name.startswith(tuple(f"{group}." for group in found["clears"]))}
    return {**kept, **found["sets"]}


@pytest.mark.parametrize("cake", CAKES)
@pytest.mark.parametrize("key", SCHEMES)
def test_what_a_look_sets_is_answered_without_a_fault(key: str, cake: str) -> None:
    texts = CAKES[cake]
    found = look(texts, key=key)
    form = filled(texts, found)
    made = plan_of(parse(CALCULATORS["order"], form))
    assert calc.compute("order", form).problems == []
    assert not [clash for tier in made.tiers for clash in tier.clashes] and not made.crowded
    assert not [note for tier in made.tiers for row in tier.rows for note in (*row.notes, *row.amount.notes)]
    assert sum(len(tier.rows) for tier in made.tiers) == sum(name.endswith(".kind") for name in found["sets"]) > 0
    assert found["picture"].startswith("<svg") and "tiers.0.rows.0" in found["picture"]
    assert all(sentence.endswith(".") for sentence in found["told"])


def test_a_row_says_all_that_its_fields_could_keep_of_another() -> None:
    found = look(CAKES["round"], key="hay-cart")
    fields = {declared.name for declared in ROWS.inputs}
    rows = {name.rsplit(".", 1)[0] for name in found["sets"] if ".rows." in name}
    for row in rows:
        assert {name.rsplit(".", 1)[1] for name in found["sets"] if name.startswith(f"{row}.")} == fields
    assert found["sets"]["tiers.0.joints_below"] == found["sets"]["tiers.0.repeats"] == ""


def test_repeats_that_were_pinned_are_let_go_and_told() -> None:
    texts = {**CAKES["round"], "tiers.1.repeats": "5", "tiers.1.cutter": "6 cm", "tiers.1.name": "Upper"}
    found = look(texts, key="one-hem")
    assert found["told"][0] == "Upper: repeats and joints are chosen again."
    assert found["sets"]["tiers.1.repeats"] == found["sets"]["tiers.1.cutter"] == ""
    assert "chosen again" not in " ".join(look(CAKES["round"], key="one-hem")["told"])


def test_the_makers_colours_are_used_and_drawn_as_they_say() -> None:
    texts = {**CAKES["round"], "colours.0.name": "Gran's blue", "colours.0.look": "#123456"}
    found = look(texts, key="one-hem", colours=[])
    assert {text for name, text in found["sets"].items() if name.endswith(".colour")} == {"gran's blue"}
    assert "#123456" in found["picture"]
    first = look(texts, key="one-hem", colours=["Damson"])
    assert {text for name, text in first["sets"].items() if name.endswith(".colour")} == {"damson"}


def test_ones_own_rows_are_fitted_to_another_cake() -> None:
    own = {
        **{"units": "us", "tiers.0.width": "8 in", "tiers.0.height": "4 in"},
        **{"tiers.0.rows.0.kind": "swag", "tiers.0.rows.0.drop": "1 in", "tiers.0.rows.0.colour": "mine"},
        **{"tiers.0.rows.1.kind": "bead", "tiers.0.rows.1.place": "base"},
    }
    found = look(CAKES["low heart"], own=own, name="Mine")
    assert found["name"] == "Mine"
    assert [found["sets"][f"tiers.0.rows.{at}.kind"] for at in (0, 1)] == ["swag", "bead"]
    assert calc.compute("order", filled(CAKES["low heart"], found)).problems == []


@pytest.mark.parametrize("wish", ['{"key": "nothing"}', "{", "[]", '{"own": 3, "name": "x"}', '{"key": "one-hem", "colours": 3}', "{}"])
def test_what_is_no_look_is_refused_in_words(wish: str) -> None:
    with pytest.raises(Problem, match="There is no such look"):
        calc.sheet("order", CAKES["round"], f"look {wish}")


def test_own_rows_that_cannot_be_read_are_refused_in_words() -> None:
    with pytest.raises((Problem, Problems)):
        look(CAKES["round"], own={"tiers.0.width": "wide"}, name="Mine")
