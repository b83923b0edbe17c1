"""The first sections of an order's answer: its views, portions, supports and coats, whole tables and sentences by hand.

The cake is that of test_calculators_order; `RICH` is that of test_calculators_order_amounts, with a tier of 22 cm cut on two levels.
"""

from __future__ import annotations

from typing import Any

import pytest

from calc.calculators import order_cake
from calc.calculators.order_cake import _coat_colours
from calc.units import Formatter
from tests.calc.test_calculators_order import CAKE, ONE, answered, planned
from tests.calc.test_calculators_order_amounts import RICH, heads, notes, table, told

SAY = Formatter()
HOME = (
    "Stack the tiers at home, before they are piped: two people can lift it whole, and a fridge and a car are high enough for it. "
    "It is chilled and boxed whole."
)
MENDED = "Cut smaller slices, use a wider tin, add a tier, or keep a plain cake of the same height in the kitchen for cutting."
LEAN = {"tiers__0__shape": "heart", "tiers__0__width": "30 cm", "tiers__0__fullness": "62 %", "tiers__1__width": "20 cm"}
BANDS = "Lower: the top has the uppermost colour. Lay each colour a little past its edge and let the scraper blend them."
TAPE = (
    "The tape is used, and every row below goes by it. Check that the tape lies level and flat all round, that tin and disc are the sizes you typed, "
    "and how thick the coat is."
)

NOTES: list[tuple[dict[str, str], str, list[str]]] = [
    ({}, "portions", [HOME]),
    ({"guests": "37"}, "portions", [HOME]),  # as many as there are portions
    ({"guests": "38"}, "portions", [f"1 portion short for 38 guests. {MENDED}", HOME]),
    ({"guests": "39"}, "portions", [f"2 portions short for 39 guests. {MENDED}", HOME]),
    (
        RICH,  # a tall tier is told whole, and what stands inside it
        "portions",
        [
            "Upper: Built with a board and supports half way up, the tier is cut on 2 levels, each by the same plan: 2 x 13 = 26 portions, "
            "each 11 cm high. Inside: 1 thin board of 14 cm, on 5 dowels of 11.3 cm, which hold the next level as if it were a tier.",
            f"15 portions short for 70 guests. {MENDED}",
            "Stack the tiers at the venue: it is taller than a household fridge and a car take. Each is piped, chilled and boxed alone; the rows "
            "that cover the joins are piped there.",
        ],
    ),
    ({}, "coats", []),
    ({"tiers__0__bands": "bay, sage 2"}, "coats", [BANDS]),
    (
        {"tiers__0__striped": "sage", "tiers__0__colour": "bay"},
        "coats",
        [
            "Lower: coat with bay and comb grooves 3 mm deep, chill until firm, fill them too full and scrape back. The comb lifts 92 g out again, "
            "which is made as well."
        ],
    ),
    ({"tiers__0__side": "70 cm"}, "coats", [f"Lower: the tape says 70 cm, tin and coat add up to 66 cm (6 % less). {TAPE}"]),
    ({"tiers__0__side": "62 cm"}, "coats", [f"Lower: the tape says 62 cm, tin and coat add up to 66 cm (6 % more). {TAPE}"]),
]


@pytest.mark.parametrize("changes, section, wanted", NOTES)
def test_what_is_said_of_portions_and_coats_in_its_order(changes: dict[str, str], section: str, wanted: list[str]) -> None:
    assert notes(told(**changes), section) == wanted


def test_a_tier_behind_the_middle_of_the_one_under_it_is_told() -> None:
    """The largest circle in a lean heart stands behind its middle; in a full one or in a round it does not."""
    (seat,) = [text for text in notes(told(**LEAN), "portions") if "behind" in text]
    assert seat.startswith("Upper") and "Lower" in seat
    assert not [text for changes in ({}, LEAN | {"tiers__1__width": "10 cm"}) for text in notes(told(**changes), "portions") if "behind" in text]


@pytest.mark.parametrize(
    "guests, label, text, value",
    [("37", "Over the guests", "0", 0), ("36", "Over the guests", "1", 1), ("38", "Portions short", "1", -1), ("39", "Portions short", "2", -2)],
)
def test_portions_over_or_short_are_a_number_without_a_sign(guests: str, label: str, text: str, value: int) -> None:
    found = told(guests=guests).figures["spare_portions"]
    assert (found["label"], found["text"], found["value"]) == (label, text, value)


def test_portions_and_supports_of_a_cake_with_everything() -> None:
    """24 on the lower tier, 13 on each level of the next, 5 on the smallest. Each board is as wide as its tier, the lowest shows 5 cm round it."""
    found = told(**RICH, keep_top="yes")
    assert table(found, "portions")["title"] == "Slices of 2.5 cm x 5 cm, on the sponge"
    assert heads(found, "portions") == ["Tier", "Sponge", "|Portions", "Cut"]
    assert table(found, "portions")["rows"] == [
        ["Lower", "round, 20 cm tin", "24", "rings"],
        ["Upper", "round, 15 cm tin", "26", "strips, on 2 levels"],
        ["Top", "round, 9 cm tin", "5, kept back", "rings"],
    ]
    assert heads(found, "supports") == ["Tier", "|Board under it", "Dowels in it", "|Its weight", "|Carries"]
    assert table(found, "supports")["rows"] == [
        ["Lower", "31 cm", "5 of 10.5 cm", "2.03 kg", "2.85 kg"],  # 2.38 and 0.47
        ["Upper", "16 cm", "9 of 11.3 cm, 5 of them under a board inside", "2.38 kg", "470 g"],
        ["Top", "10 cm", "none", "470 g", "0 g"],
    ]
    figures = found.figures
    told_figures = ("portions", "portions_1", "portions_2", "portions_3", "dowels", "dowels_1", "dowels_2", "dowels_3", "board", "dowel_length")
    assert [(figures[name]["label"], figures[name]["text"]) for name in told_figures] == [
        ("Portions", "50"),  # without those kept back
        *(("Portions, Lower", "24"), ("Portions, Upper", "26"), ("Portions, Top", "5")),
        *(("Dowels in all", "14"), ("Dowels in Lower", "5"), ("Dowels in Upper", "9"), ("Dowels in Top", "0")),
        *(("Board under the cake", "31 cm"), ("Length of the dowels in the lowest tier", "10.5 cm")),
    ]
    assert [figures[f"board_{i}"]["text"] for i in (1, 2, 3)] == ["31 cm", "16 cm", "10 cm"]
    assert [figures[f"dowel_length_{i}"]["text"] for i in (1, 2)] == ["10.5 cm", "11.3 cm"] and "dowel_length_3" not in figures
    assert [figures[f"{name}_2"]["label"] for name in ("board", "dowel_length", "weight")] == [
        "Board, Upper",
        "Dowels in Upper, length",
        "Weight, Upper",
    ]
    for end in ("value", "low", "high"):
        assert figures["weight"][end] == pytest.approx(sum(figures[f"weight_{i}"][end] for i in (1, 2, 3)))
    assert [one["text"][:46] for one in found.cautions if one.get("section") == "portions"] == [
        "Supports are not food. Count the 14 dowels and",
        "With all its tiers this cake may weigh 5.49 kg",
    ]
    assert "14 dowels and 4 boards in, write" in found.cautions[0]["text"]  # three tiers, and one inside


def test_supports_of_one_tier_and_of_one_tall_one() -> None:
    """One tier has nothing to count out; built on two levels it has a board inside on four dowels, and that is said."""
    low, tall = answered(ONE), answered(ONE | {"tiers.0.height": "20 cm"})
    assert (low.figures["dowels"]["value"], low.figures["height"]["text"]) == (0, "10.5 cm") and "dowel_length" not in low.figures
    assert not [one for one in low.cautions if "Supports are not food" in one["text"]]
    assert [one["text"][:65] for one in tall.cautions if "Supports" in one["text"]] == [
        "Supports are not food. Count the 5 dowels and 2 boards in, write "
    ]
    assert "dowel_length" in tall.figures and "dowel_length_1" in tall.figures


def test_coats_of_a_cake_with_everything() -> None:
    """Each cell is a volume and what it weighs at 0.8978 g/ml, and each line adds up: 377, 192 and 303 ml are 872. A third of 303 ml and of the
    height, less the top, is the lower band; the ground and six stripes share the upper tier's 389."""
    found = told(**RICH)
    assert table(found, "coats")["title"] == "By tier, at 0.9 g/ml" and heads(found, "coats") == [
        "Tier",
        "Filling",
        "Crumb coat",
        "Final coat",
        "All of it",
    ]
    assert table(found, "coats")["rows"] == [
        ["Lower", "377 ml, 338 g", "192 ml, 173 g", "303 ml, 272 g", "872 ml, 783 g"],
        ["Upper", "212 ml, 190 g", "247 ml, 222 g", "389 ml, 349 g", "848 ml, 761 g"],
        ["Top", "76 ml, 69 g", "72 ml, 64 g", "117 ml, 105 g", "265 ml, 238 g"],
    ]
    assert heads(found, "coat_colours") == ["Tier", "What", "|Volume", "|Weight"]
    assert table(found, "coat_colours")["rows"] == [
        ["Lower", "russet, from the base to 3.5 cm", "68 ml", "61 g"],  # 68 and 235 are 303 ml
        ["Lower", "ivory, from 3.5 cm to 10.5 cm", "235 ml", "211 g"],
        ["Upper", "ivory, the ground", "222 ml", "200 g"],
        ["Upper", "sage, 6 stripes of 1.9 cm", "166 ml", "149 g"],
    ]
    figures = found.figures
    assert [(figures[name]["label"], figures[name]["text"]) for name in ("filling", "crumb_coat", "final_coat")] == [
        ("Filling in all", "665 ml"),  # 377, 212 and 76
        ("Crumb coat in all", "511 ml"),
        ("Final coat in all", "809 ml"),
    ]
    assert [(figures[f"{name}_2"]["label"], figures[f"{name}_2"]["text"]) for name in ("filling", "crumb_coat", "final_coat")] == [
        ("Filling, Upper", "212 ml"),
        ("Crumb coat, Upper", "247 ml"),
        ("Final coat, Upper", "389 ml"),
    ]
    finished = ("finished_width", "finished_side", "finished_height")
    for ends, name, texts in (("", "Lower", ("21 cm", "70 cm", "10.5 cm")), ("_1", "Lower", ("21 cm", "70 cm", "10.5 cm")), (
        *("_2", "Upper", ("16 cm", "49 cm", "22.5 cm")),
    ), ("_3", "Top", ("10 cm", "31.4 cm", "10.5 cm"))):  # fmt: skip
        assert tuple(figures[f"{one}{ends}"]["text"] for one in finished) == texts
        assert figures[f"finished_width{ends}"]["label"] == f"Finished width, {name}"
        assert figures[f"finished_side{ends}"]["label"] == f"Round the finished side, {name}"
        assert figures[f"finished_height{ends}"]["label"] == f"Finished height, {name}"
    assert not [one for one in told().tables if one["name"] == "coat_colours"]


@pytest.mark.parametrize(
    "stripes, words", [("1", "sage, 1 stripe of 5.3 cm"), ("2", "sage, 2 stripes of 2.6 cm"), ("3", "sage, 3 stripes of 1.8 cm")]
)
def test_stripes_are_counted(stripes: str, words: str) -> None:
    """Half of 10.5 cm is striped."""
    cake = planned(tiers__0__striped="sage", tiers__0__stripes=stripes)
    ground, striped = _coat_colours(cake.tiers[0], SAY, 0.9)
    assert (ground[1], striped[1]) == ("ivory, the ground", words) and _coat_colours(cake.tiers[1], SAY, 0.9) == []
    assert [line[0] for line in (ground, striped)] == ["Lower", "Lower"]


def test_a_dam_is_named_where_any_tier_has_one() -> None:
    assert [heads(told(**changes), "coats")[1] for changes in ({}, {"tiers__1__dam": "1 cm"}, {"tiers__0__dam": "1 cm"})] == [
        "Filling",
        "Filling and dam",
        "Filling and dam",
    ]


def test_portions_supports_and_coats_in_us_units() -> None:
    found = told(units="us")
    assert table(found, "portions")["title"] == "Slices of 1 in x 2 in, on the sponge"
    assert table(found, "portions")["rows"] == [["Lower", "round, 7 7/8 in tin", "23", "rings"], ["Upper", "round, 5 7/8 in tin", "13", "rings"]]
    assert table(found, "supports")["rows"] == [
        ["Lower", "12 1/4 in", "4 of 4 3/16 in", "4 lb 6 1/2 oz", "2 lb 9 oz"],
        ["Upper", "6 1/4 in", "none", "2 lb 9 oz", "0 oz"],
    ]
    assert table(found, "coats")["title"] == "By tier, at 7 1/2 oz a cup"
    assert table(found, "coats")["rows"] == [
        [
            "Lower",
            "1 1/2 cups 3 tbsp, 12 5/8 oz",
            "1/2 cup 2 1/2 tbsp, 4 7/8 oz",
            "1 1/4 cups 2 tbsp, 10 1/4 oz",
            "3 1/2 cups 3 1/2 tbsp, 1 lb 11 3/4 oz",  # 12 5/8, 4 7/8 and 10 1/4
        ],
        ["Upper", "3/4 cup 3 tbsp, 7 1/8 oz", "1/4 cup 3 tbsp, 3 3/8 oz", "3/4 cup 3 tbsp, 7 1/8 oz", "2 1/4 cups 1 tbsp, 1 lb 1 5/8 oz"],
    ]


ROWS = (
    "Lower: swag, petal 11 mm, cream joints 1.2 cm below the top edge, shell, open star 7 mm, cream round the base; "
    "Upper: bead, round 4 mm, cream on the top edge, leaf, leaf 6 mm, cream at every joint, 1.2 cm below the top edge"
)


@pytest.mark.parametrize("texts, words, board", [(CAKE, ROWS, "310"), (ONE, "Cake: no rows", "310")])
def test_the_views_are_described_and_stand_on_the_lowest_board(
    texts: dict[str, str], words: str, board: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("tilted", "side", "top"):
        monkeypatch.setattr(order_cake, f"{name}_svg", lambda tiers, board_mm, name=name: f"{name} of {len(tiers)} on {board_mm:.0f}")
    monkeypatch.setattr(order_cake, "tilted_if_drawn", lambda tiers, board_mm: None)
    found: Any = answered(texts)
    count = len([name for name in texts if name.endswith(".name")])
    assert [(one["name"], one["title"], one["description"], one["svg"]) for one in found.drawings[:3]] == [
        ("tilted", "A cake, to scale", f"A cake seen from a little above. {words}.", f"tilted of {count} on {board}"),
        ("side", "From the side, to scale: measure on this one", f"A cake seen from the side. {words}.", f"side of {count} on {board}"),
        ("top", "From above, to scale; the back is at the top", "A cake seen from above.", f"top of {count} on {board}"),
    ]
    monkeypatch.setattr(order_cake, "tilted_if_drawn", lambda tiers, board_mm: f"kept, on {board_mm:.0f}")
    assert answered(texts).drawings[0]["svg"] == f"kept, on {board}"
