"""What the worker writes beside answers: the work at the bench and the card of an order on the shelf, as the scripts of the page take them.

`bench.js` puts the `html` of a task and of the bags into the page as they are, and `bench.css` sets their classes; `shelf.js` keeps the card.
"""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from calc.calculators.order_at_bench import BagLeft, BenchTask
from calc.page import bench_view, shelf_card

ORDER = (Path(__file__).resolve().parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")
RUSSET_DOT = (
    '<svg class="pb-dot" viewBox="0 0 16 16" aria-hidden="true" data-look="#a04b2c"><circle cx="8" cy="8" r="7" fill="#a04b2c"></circle></svg>'
)


def viewed(name: str = "at-the-bench", **inputs: str) -> dict[str, Any]:
    """The view of the harvest supper under a name that the page asks for."""
    found: dict[str, Any] = json.loads(bench_view.bench_view({"order": ORDER} | inputs, name))
    return found


def shown(monkeypatch: pytest.MonkeyPatch, *tasks: BenchTask, bags: tuple[BagLeft, ...] = ()) -> dict[str, Any]:
    """The view with these tasks and bags in place of those of the order."""
    monkeypatch.setattr(bench_view, "bench_tasks", lambda *_: tasks)
    monkeypatch.setattr(bench_view, "bags_left", lambda *_: bags)
    return viewed()


# ---- the work at the bench -------------------------------------------------------------------------------------------------------


def test_a_task_that_has_everything_shows_it_in_the_order_of_the_work(monkeypatch: pytest.MonkeyPatch) -> None:
    """Facts, then what can hurt, then the wait that follows, then notes; only the bag has the dot of its colour."""
    task = BenchTask(
        key="row0",
        title="9 swags",
        when="Sat 11:15",
        tier="Lower tier",
        facts=(("Bag", "A: russet"), ("Tip", "petal <11 mm>")),
        notes=("Squeeze.", "Ease off."),
        cautions=("Hot syrup.", "Lift with both hands."),
        look="#a04b2c",
        part="tiers.0.rows.0",
        plan="<svg>plan</svg>",
        measures="tiers.0.side",
        typed="66 cm",
        wait_min=60.0,
        wait="1 h",
        where="In the fridge",
    )
    told = shown(monkeypatch, task)["tasks"]
    html = (
        f'<dl class="pb-bench-facts"><div><dt>Bag</dt><dd>{RUSSET_DOT}A: russet</dd></div><div><dt>Tip</dt><dd>petal &lt;11 mm&gt;</dd></div></dl>'
        '<ul class="pb-bench-cautions"><li>Hot syrup.</li><li>Lift with both hands.</li></ul>'
        '<p class="pb-bench-wait">Then: in the fridge for 1 h.</p>'
        '<ul class="pb-bench-notes"><li>Squeeze.</li><li>Ease off.</li></ul>'
    )
    assert told == [
        {
            "key": "row0",
            "title": "9 swags",
            "tier": "Lower tier",
            "when": "Sat 11:15",
            "html": html,
            "plan": "<svg>plan</svg>",
            "part": "tiers.0.rows.0",
            "measures": "tiers.0.side",
            "typed": "66 cm",
            "wait": 60.0,
            "waits": "In the fridge for 1 h",
        }
    ]


def test_a_task_that_has_nothing_beside_its_title_shows_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    told = shown(monkeypatch, BenchTask(key="set", title="Look it over", when="Sat 14:30"))["tasks"][0]
    assert (told["html"], told["waits"], told["wait"]) == ("", "", 0.0)


def test_a_bag_whose_colour_has_no_look_has_no_dot(monkeypatch: pytest.MonkeyPatch) -> None:
    told = shown(monkeypatch, BenchTask(key="row0", title="9 swags", when="Sat 11:15", facts=(("Bag", "A: odd"),)))["tasks"][0]
    assert told["html"] == '<dl class="pb-bench-facts"><div><dt>Bag</dt><dd>A: odd</dd></div></dl>'


def test_each_bag_says_what_is_left_and_how_much_of_its_colour_where_there_are_several(monkeypatch: pytest.MonkeyPatch) -> None:
    bags = (
        BagLeft("A", "petal 11 mm", "russet", "#a04b2c", "8 g", "21 g", "78 g"),
        BagLeft("B", "leaf <6 mm>", "bay", "", "2 g", "2.3 g"),
    )
    empty = '<svg class="pb-dot" viewBox="0 0 16 16" aria-hidden="true"><circle cx="8" cy="8" r="7" fill="none"></circle></svg>'
    assert shown(monkeypatch, bags=bags)["bags"] == (
        f"<ul><li>{RUSSET_DOT}<b>A</b> petal 11 mm, russet: <span>8 g of 21 g left; 78 g of russet in all bags</span></li>"
        f"<li>{empty}<b>B</b> leaf &lt;6 mm&gt;, bay: <span>2 g of 2.3 g left</span></li></ul>"
    )


def test_the_view_of_an_order_has_its_title_its_tasks_and_its_bags() -> None:
    """A text of the order is read as its fields are; the tiers are baked first and the cake is set up last."""
    told = viewed()
    assert told.keys() == {"title", "drawing", "bags", "tasks"} and told["title"] == "Orchard harvest supper"
    assert (told["tasks"][0]["title"], told["tasks"][0]["tier"], told["tasks"][-1]["key"]) == ("Bake", "Upper tier", "out")
    assert told["tasks"][0]["html"] == (
        '<p class="pb-bench-wait">Then: in the oven for 35 min.</p><ul class="pb-bench-notes"><li>Turn out after 10 minutes on a rack.</li></ul>'
    )
    assert "<b>A</b> petal 11 mm, russet: <span>21 g of 21 g left; 91 g of russet in all bags</span>" in told["bags"]  # 21 g, and 70 g of shells


def test_tasks_that_are_done_come_after_a_colon_and_empty_their_bags() -> None:
    """The first swag is all that bag A pipes; bag D has the shells of both tiers, 30 g and 40 g."""
    bags = viewed("at-the-bench:row0,row5")["bags"]
    assert "<b>A</b> petal 11 mm, russet: <span>0 g of 21 g left; 30 g of russet in all bags</span>" in bags
    assert "<b>D</b> open star 7 mm, russet: <span>30 g of 70 g left; 30 g of russet in all bags</span>" in bags
    for nothing in ("at-the-bench", "at-the-bench:", "at-the-bench:,"):
        assert viewed(nothing)["bags"] == viewed()["bags"] != bags


def test_the_cake_stands_on_the_board_under_its_lowest_tier() -> None:
    """31 cm under a tier of 20 cm, as the answer's table of boards says: 155 mm to either side in a drawing in millimetres."""
    board = 'x1="-155" y1="0" x2="155" y2="0"'
    assert board in viewed()["drawing"] and board in carded()["picture"]


def test_what_is_typed_is_sent_in_plain_characters() -> None:
    assert '"title":"Crème"' in bench_view.bench_view({"order": ORDER, "name": "Crème"}, "at-the-bench").decode()
    assert '"name":"Crème"' in shelf_card.shelf_card({"order": ORDER, "name": "Crème"}).decode()


# ---- the card on the shelf -------------------------------------------------------------------------------------------------------


def carded(**inputs: str) -> dict[str, Any]:
    """The card of the harvest supper."""
    found: dict[str, Any] = json.loads(shelf_card.shelf_card({"order": ORDER} | inputs))
    return found


def at(hour: int) -> dt.datetime:
    """An hour of the day of the cake."""
    return dt.datetime(2027, 10, 16, hour)


def step(*pieces: tuple[int, int], place: str = "", until: int = 0, hands: float = 60.0) -> Any:
    """A step of a timetable with its work from hour to hour, and a wait after it `until` an hour."""
    done = pieces[-1][1]
    task = SimpleNamespace(hands_min=hands, wait_min=(until - done) * 60.0 if until else 0.0, place=place)
    return SimpleNamespace(task=task, pieces=[(at(begin), at(end)) for begin, end in pieces], work_end=at(done), end=at(until or done))


def spells(monkeypatch: pytest.MonkeyPatch, *steps: Any) -> list[list[list[str]]]:
    """The spells of hands and of the oven on the card, with these steps in place of the timetable's."""
    monkeypatch.setattr(shelf_card, "timetable_of", lambda *_: SimpleNamespace(steps=steps))
    card = carded()
    return [[[time.removeprefix("2027-10-16T") for time in spell] for spell in card[kind]] for kind in ("hands", "oven")]


@pytest.mark.parametrize(
    ("pieces", "joined"),
    [
        (((8, 9),), [["08:00", "09:00"]]),
        (((8, 9), (10, 11)), [["08:00", "09:00"], ["10:00", "11:00"]]),  # apart
        (((10, 11), (8, 9)), [["08:00", "09:00"], ["10:00", "11:00"]]),  # out of order
        (((8, 9), (9, 10)), [["08:00", "10:00"]]),  # one begins as the other ends
        (((8, 10), (9, 11)), [["08:00", "11:00"]]),  # two pairs of hands
        (((8, 12), (9, 10)), [["08:00", "12:00"]]),  # one within the other
        (((8, 9), (10, 13), (11, 12)), [["08:00", "09:00"], ["10:00", "13:00"]]),  # a long one is no shorter for what lies in it
        (((7, 8), (9, 10), (10, 11), (12, 13)), [["07:00", "08:00"], ["09:00", "11:00"], ["12:00", "13:00"]]),
    ],
)
def test_spells_that_meet_are_one(monkeypatch: pytest.MonkeyPatch, pieces: tuple[tuple[int, int], ...], joined: list[list[str]]) -> None:
    hands, oven = spells(monkeypatch, *(step(piece) for piece in pieces))
    assert (hands, oven) == (joined, [])


def test_the_oven_is_wanted_after_the_work_of_what_bakes_and_hands_for_work_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Bake from 9:00 to 11:00 after an hour of work; chill after it; warm the oven without a wait; wait without hands; work in two pieces."""
    hands, oven = spells(
        monkeypatch,
        step((8, 9), place="oven", until=11),
        step((11, 12), place="fridge", until=14),
        step((14, 15), place="oven"),
        step((15, 16), hands=0.0),
        step((17, 18), (19, 20)),
    )
    assert hands == [["08:00", "09:00"], ["11:00", "12:00"], ["14:00", "15:00"], ["17:00", "18:00"], ["19:00", "20:00"]]
    assert oven == [["09:00", "11:00"]]


def test_without_a_timetable_there_are_no_spells() -> None:
    told = carded(hours="Mon 9:00 to 9:05")
    assert told["hands"] == told["oven"] == [] and told["name"] == "Orchard harvest supper"


def test_the_card_of_an_order_in_the_words_of_its_fields() -> None:
    """Coats first, then the other colours of the plan, each once."""
    card = carded(**{"quote.0.customer": "Mrs Quince"})
    assert {key: card[key] for key in ("name", "ready", "guests", "customer", "colours")} == {
        "name": "Orchard harvest supper",
        "ready": "2027-10-16T18:00",
        "guests": 36,
        "customer": "Mrs Quince",
        "colours": ["ivory", "plain", "cream", "blush", "bay", "russet"],
    }
    assert carded()["customer"] == ""
