"""The card of an order on the shelf: what is kept beside it, against the answer and the timetable of the same order."""

from __future__ import annotations

import datetime as dt
import json
import re
from pathlib import Path
from typing import Any

import pytest

import calc
from calc.page.shelf_card import NAME, shelf_card
from calc.units import Problems
from tools.runtime import worker_api

ORDER = (Path(__file__).resolve().parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")


def card(**inputs: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(shelf_card({"order": ORDER} | inputs))
    return found


def minutes(spells: list[list[str]]) -> float:
    return sum((dt.datetime.fromisoformat(end) - dt.datetime.fromisoformat(begin)).total_seconds() / 60 for begin, end in spells)


def test_what_it_is_found_by() -> None:
    told = card()
    assert (told["name"], told["ready"], told["guests"], told["customer"]) == ("Orchard harvest supper", "2027-10-16T18:00", 36, "")
    assert {"ivory", "cream", "russet"} <= set(told["colours"]) and len(told["colours"]) == len(set(told["colours"]))
    assert card(**{"quote.0.customer": "Mrs Quince"})["customer"] == "Mrs Quince"


def test_hands_add_up_to_the_answers_hours() -> None:
    told = card()
    assert minutes(told["hands"]) == pytest.approx(calc.compute("order", {"order": ORDER}).figures["hands"]["value"])


@pytest.mark.parametrize("kind", ["hands", "oven"])
def test_spells_are_in_order_apart_and_before_the_hour(kind: str) -> None:
    times = [time for spell in card()[kind] for time in spell]
    assert times and times == sorted(set(times)) and times[-1] <= "2027-10-16T18:00"


def test_the_oven_is_wanted_while_the_answer_bakes() -> None:
    """As the answer's own table of tasks says: "Fri 11:50", "Bake: Upper tier, then 35 min in the oven", "25 min" of work first."""
    rows = next(table for table in calc.compute("order", {"order": ORDER}).tables if table["name"] == "tasks")["rows"]
    wanted: set[dt.datetime] = set()
    for begin, task, work, _ in rows:
        if baked := re.search(r"then (\d+) min in the oven", task):
            assert begin.startswith("Fri ")
            from_min = int(begin[4:6]) * 60 + int(begin[7:9]) + int(work.removesuffix(" min"))
            wanted |= {dt.datetime(2027, 10, 15) + dt.timedelta(minutes=from_min + minute) for minute in range(int(baked[1]))}
    told: set[dt.datetime] = set()
    for spell in card()["oven"]:
        at, end = map(dt.datetime.fromisoformat, spell)
        told |= {at + dt.timedelta(minutes=minute) for minute in range(int((end - at).total_seconds() // 60))}
    assert told == wanted and wanted


def test_the_picture_is_the_cake_from_a_little_above() -> None:
    assert card()["picture"].startswith("<svg ") and "viewBox" in card()["picture"]
    assert card()["picture"] != card(**{"tiers.0.colour": "claret"})["picture"]


def test_without_room_in_the_hours_there_is_a_picture_all_the_same() -> None:
    told = card(hours="Mon 9:00 to 9:05")
    assert (told["hands"], told["oven"]) == ([], []) and told["picture"].startswith("<svg ")


def test_the_worker_gives_it_and_says_what_is_to_be_put_right() -> None:
    request = {"kind": "sheet", "calculator": "order", "inputs": {"order": ORDER}, "name": NAME, "paper": "A4"}
    drawn = worker_api.sheet(json.dumps(request))
    assert isinstance(drawn, bytes) and json.loads(drawn) == card()
    with pytest.raises(Problems):
        shelf_card({"order": ORDER, "guests": "many"})
    refused = worker_api.sheet(json.dumps({**request, "inputs": {"order": ORDER, "guests": "many"}}))
    assert isinstance(refused, str) and json.loads(refused)["problems"][0]["input"] == "guests"
