"""Two versions of an order compared: only what differs is told, with by how much, and rows are told apart where one was put in between."""

from __future__ import annotations

import json
from pathlib import Path

from calc.calculators import CALCULATORS
from calc.calculators.declare import run
from calc.page.versions import differences, versions_reply

ORDER = CALCULATORS["order"]
SUPPER = (Path(__file__).parents[2] / "docs/plan/harvest-supper.toml").read_text(encoding="utf-8")


def supper(**more: str) -> dict[str, str]:
    """The harvest supper as the texts of the form, with more typed; two underscores stand for a dot."""
    fields = run(ORDER, {"order": SUPPER}).fields
    assert fields
    return dict(fields) | {name.replace("__", "."): text for name, text in more.items()}


def without(texts: dict[str, str], path: str) -> dict[str, str]:
    """The same without a copy of a group."""
    return {name: text for name, text in texts.items() if not name.startswith(path)}


def told(one: dict[str, str], other: dict[str, str]) -> dict[str, tuple[str, str, str]]:
    """What is told to differ, by its heading."""
    found = list(differences(ORDER, [(texts, run(ORDER, texts)) for texts in (one, other)]))
    assert len({row[0] for row in found}) == len(found), "each thing is told once"
    return {row[0]: row[1:] for row in found}


def test_what_is_alike_is_not_told() -> None:
    assert told(supper(), supper()) == {}
    assert told(supper(), supper(tiers__0__fit="own", tiers__1__repeats="")) == {}, "a default typed out is no difference"


def test_what_differs_is_told_with_by_how_much() -> None:
    """A wider lower tier: more portions, buttercream, hours and price, with the difference worked out from the two answers."""
    one, other = supper(), supper(tiers__0__width="25 cm", tiers__0__disc="26 cm", tiers__0__side="82 cm")
    found, answers = told(one, other), [run(ORDER, texts) for texts in (one, other)]
    assert found["Tier 1"][:2] == ("Lower tier · round 20 cm · 10 cm high · 4 rows", "Lower tier · round 25 cm · 10 cm high · 4 rows")
    assert found["Tier 1, The tape says"] == ("66 cm", "82 cm", "")
    portions = [int(answer.figures["portions"]["value"]) for answer in answers]
    assert found["Portions"] == (str(portions[0]), str(portions[1]), f"{portions[1] - portions[0]} more")
    price = [answer.figures["price"]["value"] for answer in answers]
    assert found["Price"][2] == f"{round(price[1], 2) - round(price[0], 2):.2f} more"
    assert "Guests" not in found and "Tier 2" not in found
    assert told(other, one)["Portions"][2] == f"{portions[1] - portions[0]} less"


def test_a_colour_that_only_one_has_is_none_in_the_other() -> None:
    found = told(supper(), supper(tiers__1__rows__2__colour="claret"))
    assert found["Buttercream, blush"][1] == "none" and found["Buttercream, claret"][0] == "none"


def test_a_row_that_is_left_out_moves_no_other() -> None:
    """Without its second row the tier's third and fourth are the same rows as before."""
    found = told(supper(), without(supper(), "tiers.0.rows.1."))
    rows = {label: cells for label, cells in found.items() if label.startswith("Tier 1, Row")}
    assert rows == {"Tier 1, Row 2": ("Swag · over the row before · petal 9 mm · cream", "none", "")}
    assert told(without(supper(), "tiers.0.rows.1."), supper())["Tier 1, Row 2"][0] == "none"


def test_choices_are_told_by_their_words() -> None:
    found = told(supper(), supper(recipe="american", together="yes", tiers__0__rows__0__drop="3 cm"))
    assert found["Divide the tiers"][:2] == ("Each by itself", "Fitted to one another")
    assert found["Tier 1, Row 1, Drop"][:2] == ("empty", "3 cm")
    assert found["Buttercream"][0] == "Swiss meringue"


def test_the_reply_has_table_and_pictures_or_says_what_is_wrong() -> None:
    """What a reader typed is escaped; a version that cannot be worked out is named."""
    one, other = supper(), supper(name="<b>Supper</b>", guests="40")
    made = json.loads(versions_reply(ORDER, [(texts, run(ORDER, texts)) for texts in (one, other)], ("This", "<i>that</i>")))
    assert made["problems"] == [] and all(picture.startswith("<svg") for picture in made["pictures"]) and len(made["pictures"]) == 2
    assert "&lt;b&gt;Supper" in made["html"] and "<i>" not in made["html"] and "<b>" not in made["html"]
    wrong = supper(guests="many")
    refused = json.loads(versions_reply(ORDER, [(texts, run(ORDER, texts)) for texts in (one, wrong)], ("This", "That")))
    assert refused["problems"][0]["message"] == "That: one thing is to be put right before it can be compared." and "html" not in refused
    alike = json.loads(versions_reply(ORDER, [(one, run(ORDER, one))] * 2, ("This", "That")))
    assert alike["spoken"] == "The two are the same." and "<table" not in alike["html"]
