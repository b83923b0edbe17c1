"""What stands on what, and when it is made: stacks of tins, boards and dowels, and the timetable, with whole rows and both sides of every limit.

The numbers are worked out by hand beside each case. A coat is 5 mm and the fillings 12 mm unless typed; boards show 5 cm; a box leaves 2.5 cm round.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

import calc
from calc.calculators import stack_form, supports_form
from calc.calculators.declare import Answer
from calc.calculators.stack_form import read_tins
from calc.calculators.supports_form import _row, body_of, boxes_table, dowels_in_words, inner_words, read_tiers
from calc.shapes import outline
from calc.stack import Stacking, supports
from calc.units import Formatter, Problem
from tests.calc.test_calculators_said import Typed, sentences
from tests.calc.test_calculators_sums import answered, rows, value


def refused(slug: str, typed: dict[str, str]) -> tuple[str, str]:
    ((found),) = calc.compute(slug, typed).problems
    return found["input"], found["message"]


def figures(answer: Any, *names: str) -> list[str]:
    return [answer.figures[name]["text"] for name in names]


def heads(answer: Any, name: str) -> list[tuple[str, str]]:
    (found,) = [one["columns"] for one in answer.tables if one["name"] == name]
    return [(column["label"], column["align"]) for column in found]


# --- boards and dowels --------------------------------------------------------------------------------------------------------------------


def counted_in(typed: Typed) -> list[str]:
    return [text.split(" in, write")[0] for text in sentences("supports", typed) if text.startswith("Supports are not food.")]


def test_every_dowel_and_board_is_counted_in_and_out() -> None:
    """Those inside a tall tier too: a tier 22 cm high has a board at half its height, on as many dowels as carry one of its width less a centimetre
    all round. Where there is no dowel there is nothing to count."""
    assert counted_in({}) == ["Supports are not food. Count the 4 dowels and 2 boards"]
    assert counted_in({"tiers": "20 x 10 cm"}) == []
    assert counted_in({"tiers": "20 x 22 cm"}) == ["Supports are not food. Count the 5 dowels and 2 boards"]
    tall = {"tiers": "30 x 20 x 35 cm rectangle; 15 x 10 cm"}  # three levels: a board of its own, two inside, and that of the tier above
    assert counted_in({**tall}) == ["Supports are not food. Count the 21 dowels and 4 boards"]
    assert value(answered("supports", tall), "dowels") == 21 and rows(answered("supports", tall), "supports")[0][2] == "21"


def test_no_length_of_dowels_is_told_where_there_are_none() -> None:
    assert "dowel_length" not in answered("supports", {"tiers": "20 x 10 cm"}).figures
    assert value(answered("supports", {"tiers": "20 x 22 cm"}), "dowel_length") == 112.5  # half of 22 cm and 5 mm of coat
    assert value(answered("supports", {}), "dowel_length") == 105


LEFT, RIGHT = "left", "right"


def test_supports_of_three_tiers_line_by_line() -> None:
    """A rectangle, an oval on two levels and a round. Boards are the sponge, 1 cm of coat, and under the cake 10 cm more. In tier 2 four dowels carry
    the uppermost tier and six its inner board, each half of 22 cm and 5 mm; a rod of 41.5 cm less 2 reaches through all."""
    found = answered("supports", {"tiers": "30 x 20 x 10 cm rectangle; 20 x 15 x 22 cm oval; 10 x 8 cm"})
    table = rows(found, "supports")
    assert [row[:4] for row in table] == [
        ["1, 30 cm x 20 cm rectangle", "41 cm x 31 cm", "6", "10.5 cm"],
        ["2, 20 cm x 15 cm oval", "21 cm x 16 cm", "10", "11.3 cm"],
        ["3, 10 cm round", "11 cm", "none", ""],
    ]
    weights = [value(found, f"weight_{tier}") for tier in (1, 2, 3)]
    say = Formatter()
    assert [row[5] for row in table] == [say.mass(weights[1] + weights[2]), say.mass(weights[2]), "nothing"]
    assert [row[4].split(" (")[0] for row in table] == [say.mass(weight) for weight in weights] and {row[6] for row in table} == {"one person"}
    assert value(found, "weight") == pytest.approx(sum(weights))
    for end in ("low", "high"):
        assert found.figures["weight"][end] == pytest.approx(sum(found.figures[f"weight_{tier}"][end] for tier in (1, 2, 3)))
    assert figures(found, "board", "board_2", "board_3", "dowels") == ["41 cm", "21 cm", "11 cm", "16"]
    assert [value(found, f"dowels_{tier}") for tier in (1, 2, 3)] == [6, 10, 0] and "dowel_length_3" not in found.figures
    assert [value(found, name) for name in ("dowel_length", "dowel_length_2", "height", "centre_rod")] == [105, 112.5, 415, 395]
    shown = {name for name, figure in found.figures.items() if not figure.get("quiet")}
    assert {"board", "board_3", "dowel_length_2", "weight"} <= shown and not {"dowels_1", "weight_2"} & shown
    labels = ("Tier", "Board under it", "Dowels in it", "Each as long as", "Its weight", "Carries", "Lifted alone by")
    assert heads(found, "supports") == [(label, RIGHT if label == "Dowels in it" else LEFT) for label in labels]
    assert found.figures["dowel_length_2"]["label"] == "Length of the dowels in tier 2" and found.figures["weight_2"]["label"] == "Weight of tier 2"
    assert [sheet["name"] for sheet in found.sheets] == ["stacking-template-1", "stacking-template-2"]
    assert [sheet["title"] for sheet in found.sheets] == ["Stacking template, tier 1", "Stacking template, tier 2"]
    (drawing,) = found.drawings
    assert drawing["description"] == "Tiers from above with their dowels. tier 1: 6 dowels of 10.5 cm; tier 2: 4 dowels of 11.3 cm."
    told = [text for text in sentences("supports", {"tiers": "30 x 20 x 10 cm rectangle; 20 x 15 x 22 cm oval; 10 x 8 cm"}) if "Inside: " in text]
    assert told == [
        "Tier 2 is built on 2 levels. Inside: 1 thin board of 19 cm x 14 cm, on 6 dowels of 11.3 cm, which hold the next level as if it were a tier."
    ]


def test_what_each_box_holds() -> None:
    """Boxed alone at the venue, each 2.5 cm from its board on every side and 5 cm higher than its tier; boxed whole at home. A whole cake has no
    number."""
    typed = {"tiers": "30 x 20 x 10 cm rectangle; 20 x 15 x 12 cm oval; 10 x 8 cm"}
    alone = answered("supports", typed | {"stacked": "venue"})
    assert [row[:3] for row in rows(alone, "boxes")] == [
        ["tier 1", "46 cm x 36 cm", "15.5 cm"],
        ["tier 2", "26 cm x 21 cm", "17.5 cm"],
        ["tier 3", "16 cm x 16 cm", "13.5 cm"],
    ]
    say = Formatter()
    assert [row[3] for row in rows(alone, "boxes")] == [say.mass(alone.figures[f"weight_{tier}"]["high"]) for tier in (1, 2, 3)]
    labels = (("Box for", LEFT), ("Bottom", RIGHT), ("Height", RIGHT), ("Weighs at most", RIGHT), ("Lifted by", LEFT))
    assert heads(alone, "boxes") == list(labels)
    whole = answered("supports", typed | {"stacked": "home"})
    ((what, bottom, high, weight, who),) = rows(whole, "boxes")
    assert (what, bottom, high, who) == ("the whole cake", "46 cm x 36 cm", "36.5 cm", "one person")
    assert weight == say.mass(whole.figures["weight"]["high"])
    assert figures(alone, "stacked") == ["at the venue"] and figures(whole, "stacked") == ["at home"]
    assert (value(alone, "stacked"), value(whole, "stacked")) == (1, 0)
    single = answered("supports", {"tiers": "20 x 10 cm"})
    assert rows(single, "boxes")[0][0] == "the whole cake" and "stacked" not in single.figures


def test_boxes_are_called_as_their_tiers_are() -> None:
    """By their names where there are some, by number from 1 where there are none."""
    bodies = tuple(body_of(outline("round", width), 100.0, 5.0, 12.0, 0.95) for width in (250.0, 200.0, 150.0))
    stands, apart = supports(bodies), Stacking("venue")
    for names, wanted in (((), ["tier 1", "tier 2", "tier 3"]), (("Low", "Middle", "High"), ["Low", "Middle", "High"])):
        answer = Answer("supports", "metric")
        boxes_table(answer, bodies, stands, apart, names)
        assert [row[0] for row in rows(answer, "boxes")] == wanted


@pytest.mark.parametrize(
    "tiers, who, whole, limit, grams",
    [
        # what one person should lift falls with the width that keeps it from the body (60 cm and the border are 71 cm)
        ("60 x 10 cm; 50 x 10 cm; 40 x 10 cm", ["nobody in one piece", "two people", "one person"], "nobody in one piece", "about 9.3 kg", 9324.3243),
        ("45 x 10 cm", ["one person"], "one person", "about 10.8 kg", 10781.25),
        ("100 x 10 cm", ["nobody in one piece"], "nobody in one piece", "nothing so wide", 0),
        ("100 x 10 cm; 20 x 10 cm", ["nobody in one piece", "one person"], "nobody in one piece", "nothing so wide", 0),
    ],
)
def test_who_lifts_it(tiers: str, who: list[str], whole: str, limit: str, grams: float) -> None:
    found = answered("supports", {"tiers": tiers, "stacked": "home"})
    assert [row[6] for row in rows(found, "supports")] == who and [row[4] for row in rows(found, "boxes")] == [whole]
    assert (
        value(found, "lift_limit") == pytest.approx(grams)
        and figures(found, "lift_limit") == [limit]
        and found.figures["lift_limit"]["label"] == "One person should lift at most"
    )


def test_a_limit_of_less_than_100_g_is_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """Told from a tenth of a kilogram up."""
    told = []
    true = supports_form.supports
    for limit in (99.9, 100.0):

        def lifted(bodies: Any, border: float, limit: float = limit) -> Any:
            return tuple(replace(stand, lift_whole=replace(stand.lift_whole, limit_g=limit)) for stand in true(bodies, border))

        monkeypatch.setattr(supports_form, "supports", lifted)
        told += figures(answered("supports", {}), "lift_limit")
    assert told[0] == "nothing so wide" and told[1] == "about 100 g"


def test_a_board_half_a_millimetre_longer_than_wide_is_told_by_one_size() -> None:
    say, tier = Formatter(), SimpleNamespace(sponge=outline("round", 200.0))
    (stand,) = supports((body_of(outline("round", 200.0), 220.0, 5.0, 12.0, 0.95),))
    for more, board, inner in ((0.5, "31 cm", "19 cm"), (0.52, "31 cm x 31.1 cm", "19 cm x 19.1 cm"), (-0.6, "31 cm x 30.9 cm", "19 cm x 18.9 cm")):
        odd = replace(stand, board_length_mm=stand.board_width_mm + more, inner_length_mm=stand.inner_width_mm + more)
        assert _row(1, tier, odd, say)[1] == board  # type: ignore[arg-type]
        assert f"1 thin board of {inner}, on 5 dowels of 11.3 cm" in inner_words(odd, say)
    assert "2 thin boards of 19 cm" in inner_words(replace(stand, inner_boards=2), say)


def test_dowels_in_words() -> None:
    """Those under a board inside are told apart where there are others beside them."""
    say = Formatter()
    (stand,) = supports((body_of(outline("round", 200.0), 220.0, 5.0, 12.0, 0.95),))
    assert dowels_in_words(stand, say) == "5 of 11.3 cm under a board inside"
    assert dowels_in_words(replace(stand, dowels=4), say) == "9 of 11.3 cm, 5 of them under a board inside"
    assert dowels_in_words(replace(stand, dowels=4, inner_dowels=0), say) == "4 of 11.3 cm"
    assert dowels_in_words(replace(stand, inner_dowels=0), say) == "none"


def test_a_tier_that_stands_off_the_middle_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """More than a millimetre off; set by eye what is less. The tier under it is the one with the smaller number."""
    true = supports_form.supports
    told: list[list[str]] = []
    for seat in (1.0, 1.1, -1.1):

        def seated(bodies: Any, border: float, seat: float = seat) -> Any:
            return tuple(replace(stand, seat_mm=seat if number == 1 else 0.0) for number, stand in enumerate(true(bodies, border)))

        monkeypatch.setattr(supports_form, "supports", seated)
        texts = sentences("supports", {"tiers": "25 x 10 cm; 20 x 10 cm; 15 x 10 cm"})
        told.append([text.split(",")[0] for text in texts if "the middle of tier" in text])
    assert told == [[], ["Tier 3 stands 1.1 mm behind the middle of tier 2"], ["Tier 3 stands 1.1 mm in front of the middle of tier 2"]]


def test_where_a_rod_goes() -> None:
    """Through three tiers; at the venue once they are stacked. Two tiers have none."""
    typed: Typed = {"tiers": "25 x 10 cm; 20 x 10 cm; 15 x 10 cm"}
    rod = "A pointed rod of 29.5 cm down the middle, through the boards and into the lowest one, keeps the tiers from sliding. "
    for stacked, more in (
        ("home", "It is taken out before the cake is cut."),
        ("venue", "It goes in at the venue, once they are stacked, and is taken out before the cake is cut."),
    ):
        assert [text for text in sentences("supports", {**typed, "stacked": stacked}) if text.startswith("A pointed rod")] == [rod + more]


@pytest.mark.parametrize(
    "tiers, kinds",
    [
        ("20 x 10 cm hex; 15 x 10 cm", ["hexagon", "round"]),
        ("20 x 10 cm HEXAGONAL; 10 x 10 cm Circle", ["hexagon", "round"]),
        ("30 x 20 x 10 cm sheet; 15 x 10 cm square", ["rectangle", "square"]),
        ("30 x 20 x 10 cm rectangular on top 15 x 10 x 8 cm ellipse", ["rectangle", "oval"]),
        ("round 20 x 10 cm; petals 10 x 10 cm", ["round", "petal"]),
        ("20 by 10 cm; 15 × 10 cm; 10 * 8 cm", ["round", "round", "round"]),
        ("20 x 10 cm\n15 x 10 cm;;", ["round", "round"]),
    ],
)
def test_tiers_are_read_with_their_shapes(tiers: str, kinds: list[str]) -> None:
    assert [tier.sponge.kind for tier in read_tiers(tiers, "metric")] == kinds


def test_sizes_of_tiers_in_their_order() -> None:
    """Width, length, height; hearts as full as is said, and nothing else."""
    (sheet, heart) = read_tiers("30 x 28 x 10 cm rectangle; 15 x 8 cm heart", "metric", 0.65)
    assert (sheet.sponge.width_mm, sheet.sponge.length_mm, sheet.height_mm) == (300, 280, 100)
    assert (heart.sponge.width_mm, heart.height_mm) == (150, 80) and heart.sponge.area_mm2 == pytest.approx(0.65 * 150**2)
    assert read_tiers("10 x 4 in", "us")[0].sponge.width_mm == pytest.approx(254)


@pytest.mark.parametrize(
    "tiers, message",
    [
        (";", "Tiers is empty. Write them like 20 x 10 cm round; 15 x 10 cm round, the lowest first"),
        (
            "; ".join(["20 x 10 cm"] * 8),
            "Tiers: there are 8, and 7 is the most. Write them like 20 x 10 cm round; 15 x 10 cm round, the lowest first",
        ),
        ("20 x 10 cm; 15 x 10 cm; 16 x 10 cm", "Tier 3 is wider than tier 2 under it (16 cm on 15 cm). Write the lowest first"),
        ("20 x 10 cm; 19.9 x 10 cm square", "Tier 2, a square, hangs over the round under it. Make it smaller, or the tier under it wider"),
        ("20 x 10 cm; 20.05 x 10 cm", "Tier 2 is wider than tier 1 under it (20.1 cm on 20 cm). Write the lowest first"),
        (
            "20 x 15 x 10 cm rectangle; 20 x 15.05 x 10 cm rectangle",
            "Tier 2 is longer than tier 1 under it (15.1 cm on 15 cm). Write the lowest first",
        ),
        (
            "5 x 51 x 10 cm oval",
            "Tier 1: an oval is at most ten times as long as it is wide. Write them like 20 x 10 cm round; 15 x 10 cm round, the lowest first",
        ),
        ("20 x 10 cm square; 15 x 30 x 10 cm oval", "Tier 2 is longer than tier 1 under it (30 cm on 20 cm). Write the lowest first"),
        (
            "51 x 5 x 10 cm oval",
            "Tier 1: an oval is at most ten times as long as it is wide. Write them like 20 x 10 cm round; 15 x 10 cm round, the lowest first",
        ),
        (
            "20 x 61 cm",
            "Tier 1: the height must be between 1.5 cm and 60 cm, not 61 cm. Write them like 20 x 10 cm round; 15 x 10 cm round, the lowest first",
        ),
        (
            "30 x 20 cm oval",
            "Tier 1 is width x length x height and a shape, and “30 x 20 cm oval” does not read as that. Write it like 30 x 20 x 10 cm rectangle",
        ),
        ("20 x x 10 cm", "Tier 1 is width x height and a shape, and “20 x x 10 cm” does not read as that. Write it like 20 x 10 cm round"),
    ],
)
def test_tiers_that_cannot_be_supported(tiers: str, message: str) -> None:
    assert refused("supports", {"tiers": tiers}) == ("tiers", message)


def test_tiers_at_their_limits() -> None:
    """As wide as the one below, ten times as long as wide, 4 cm wide and 60 cm high."""
    for tiers in (
        "20 x 10 cm; 20 x 10 cm",
        "50 x 5 x 10 cm oval",
        "5 x 50 x 10 cm oval",
        "4 x 10 cm",
        "20 x 60 cm",
        "30 x 4 x 10 cm rectangle",
        "5 x 10 x 60 cm oval",
        "20 x 18 x 1.5 cm oval",
    ):
        assert calc.compute("supports", {"tiers": tiers}).problems == [], tiers
    assert refused("supports", {"tiers": "20 x 10 cm; 15 x 2 cm", "filling": "20 mm"}) == (
        "filling",
        "Fillings in all must be less than tier 2 is high (2 cm). Write the sum of its fillings, like 12 mm",
    )
    assert calc.compute("supports", {"tiers": "20 x 10 cm; 15 x 2 cm", "filling": "19 mm"}).problems == []


def test_a_tier_without_filling_is_one_layer() -> None:
    """Then it is sponge and coat alone; 1 mm of filling is two layers. Sponge is lighter than buttercream, so filling weighs more; a coat is as
    before."""
    none, little, much = (answered("supports", {"tiers": "20 x 10 cm", "filling": filling}) for filling in ("0 mm", "1 mm", "12 mm"))
    assert value(none, "weight") < value(little, "weight") < value(much, "weight")
    per_mm = (value(much, "weight") - value(little, "weight")) / 11
    assert value(little, "weight") - value(none, "weight") == pytest.approx(per_mm, rel=0.01)
    bodies = [body_of(outline("round", 200.0), 100.0, 5.0, filling, 0.95) for filling in (0.0, 12.0)]
    assert [body.height_mm for body in bodies] == [105, 105] and [body.outline.width_mm for body in bodies] == [210, 210]


def test_the_sheet_of_each_tier(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first has the lowest tier with the second on it; the last but one has the uppermost on it; there is no other. Six dowels carry 21 cm: four,
    one for the 6 cm beyond 15, and one for the tier on top of that."""
    made: list[tuple[Any, ...]] = []
    areas: list[float] = []

    class Sheet:
        def pdf(self, units: str) -> bytes:
            return units.encode()

    def template(lower: Any, upper: Any, stand: Any, *, paper: str, name: str, units: str) -> Sheet:
        areas.append(lower.area_mm2)
        made.append((lower.width_mm, upper.width_mm, stand.dowels, paper, name, units))
        return Sheet()

    monkeypatch.setattr(supports_form, "stacking_template", template)
    calc.sheet("supports", {"tiers": "30 x 10 cm heart; 15 x 10 cm", "fullness": "65 %", "coat": "0 mm"}, "stacking-template-1", "A4")
    typed = {"tiers": "30 x 10 cm; 20 x 10 cm; 10 x 10 cm", "coat": "5 mm", "units": "us"}
    assert calc.sheet("supports", typed, "stacking-template-1", "A4") == b"us"
    calc.sheet("supports", typed, "stacking-template-2", "letter")
    assert areas[0] == pytest.approx(0.65 * 300**2, rel=0.001) and made[1:] == [
        (310, 210, 6, "A4", "tier 1", "us"),
        (210, 110, 4, "letter", "tier 2", "us"),
    ]
    for name in ("stacking-template-0", "stacking-template-3", "stacking-template"):
        with pytest.raises(KeyError):
            calc.sheet("supports", typed, name, "A4")


# --- which tins ---------------------------------------------------------------------------------------------------------------------------


def test_a_stack_with_kitchen_cakes_line_by_line() -> None:
    """One of 15 cm gives 13; a sheet of 30 x 40 cm in slices of 2.5 x 5 gives 96. For 100 guests one is enough, for 160 it takes two, one of them is
    not called sheets. Two tiers of 32 and 25 cm are 100 without any."""
    typed = {"kitchen": "yes", "tins": "15 cm"}
    for guests, sheets, words, portions in (
        ("100", 1, "15 cm and 1 kitchen sheet", 109),
        ("160", 2, "15 cm and 2 kitchen sheets", 205),
        ("13", 0, "15 cm", 13),
    ):
        found = answered("stack", typed | {"guests": guests})
        assert rows(found, "stacks")[0] == [words, "1", str(portions), str(portions - int(guests)), "none"]
        assert (value(found, "kitchen_cakes"), value(found, "portions")) == (sheets, portions)
        assert value(found, "spare_portions") == portions - int(guests) and figures(found, "tiers") == ["15 cm"]
    assert "kitchen_cakes" not in answered("stack", {}).figures
    one = answered("stack", {"kitchen": "yes", "tins": "15 cm", "guests": "20", "slice": "20 x 20 cm", "units": "metric"})
    assert value(one, "kitchen_cakes") == 10  # two slices of 20 cm out of each sheet, and none out of a round of 15


def test_a_stack_line_by_line() -> None:
    """Four tiers of 20 cm high, cut on two levels: 76, 48, 26 and 12. Steps are told once each, from the narrowest to the widest."""
    found = answered("stack", {"guests": "160", "height": "20 cm"})
    assert [row[:4] for row in rows(found, "tiers")] == [
        ["1", "25 cm", "76", "rings"],
        ["2", "20 cm", "48", "rings"],
        ["3", "15 cm", "26", "strips"],
        ["4", "10 cm", "12", "strips"],
    ]
    assert rows(found, "stacks")[:4] == [
        ["25 cm + 20 cm + 15 cm + 10 cm", "4", "162", "2", "5 cm"],
        ["30 cm + 20 cm + 10 cm", "3", "170", "10", "10 cm"],
        ["30 cm + 25 cm", "2", "186", "26", "5 cm"],
        ["30 cm + 20 cm + 15 cm", "3", "184", "24", "5 cm and 10 cm"],
    ]
    assert figures(found, "tiers", "portions", "spare_portions", "cake_height") == ["25 cm + 20 cm + 15 cm + 10 cm", "162", "2", "82 cm"]
    assert value(found, "tiers") == 4 and "kept_portions" not in found.figures
    weights = [row[4] for row in rows(found, "tiers")]
    assert weights == sorted(weights, key=lambda text: -float(text.split()[0])) and figures(found, "weight")[0].startswith("11.97 kg (")
    assert sum(float(text.split()[0]) for text in weights) == pytest.approx(11.97, abs=0.02)
    assert heads(found, "tiers") == [("Tier", RIGHT), ("Tin", LEFT), ("Portions", LEFT), ("Cut", LEFT), ("Weight", RIGHT)]
    labels = ("Tins", "Tiers", "Portions", "Over the guests", "Steps")
    assert heads(found, "stacks") == [(label, RIGHT if label in labels[1:4] else LEFT) for label in labels]
    titles = [table["title"] for table in found.tables]
    assert titles[0] == "The first choice, the lowest tier first; each is a round"
    oval = answered("stack", {"guests": "30", "shape": "oval", "tins": "20 x 15 cm; 25 x 20"})
    assert oval.tables[0]["title"].endswith("each is an oval") and rows(oval, "tiers")[0][:3] == ["1", "25 cm x 20 cm", "30"]
    assert found.drawings[0]["description"] == ("Tiers of 25 cm, 20 cm, 15 cm, 10 cm, each 20 cm high before the coat, the widest at the bottom.")


def test_steps_in_words() -> None:
    """None of one tier, one or two as they are, of three kinds the least and the most."""
    typed = {"tins": "32, 25, 21, 15 cm", "step_high": "20 cm", "step_low": "1 cm"}
    found = answered("stack", typed | {"guests": "70"})
    assert {row[0]: row[4] for row in rows(found, "stacks")} == {
        "32 cm + 15 cm": "17 cm",
        "25 cm + 21 cm + 15 cm": "4 cm and 6 cm",
        "32 cm + 21 cm": "11 cm",
        "32 cm + 25 cm": "7 cm",
    }
    every = answered("stack", typed | {"guests": "130", "tier_count": "4"})
    assert rows(every, "stacks")[0][4] == "4 cm to 7 cm"


def test_the_top_tier_that_is_kept() -> None:
    """25 and 15 cm: 38 to eat and 13 kept back; told in its own line and figure."""
    found = answered("stack", {"guests": "36", "tins": "15, 25 cm", "keep_top": "yes"})
    assert [row[2] for row in rows(found, "tiers")] == ["38", "13, kept back"] and figures(found, "portions", "kept_portions") == ["38", "13"]
    assert [row[2] for row in rows(answered("stack", {"guests": "50", "tins": "15, 25 cm"}), "tiers")] == ["38", "13"]


def test_levels_are_told_where_there_are_several() -> None:
    for height, levels in (("14.9 cm", None), ("15 cm", 2), ("30 cm", 3)):
        told = [text for text in sentences("stack", {"guests": "36", "height": height}) if "cut on" in text]
        assert told == (
            [f"Tiers {height} high are built with a board and supports inside and cut on {levels} levels; the portions count all levels."]
            if levels
            else []
        )


HOLDING: list[tuple[dict[str, str], str | None]] = [
    # a round of 25 cm, 7.5 cm deep, holds 3.68 l; 3.5 l are root(3.5 / 3.68) as wide, 3.9 l root(3.9 / 3.68)
    ({"tins": "15, 20 and 25 cm", "holds": "3.5 l"}, "Going by what the widest holds, the tins are 2.5 % narrower than their names say."),
    ({"tins": "15, 20 and 25 cm", "holds": "3.9 l"}, "Going by what the widest holds, the tins are 2.9 % wider than their names say."),
    # of a heart of 25 cm 2.8125 l are 375 cm2, leaner than any: the usual one, 450 cm2, is made root(375 / 450) as wide
    (
        {"shape": "heart", "tins": "20, 25 cm", "holds": "2.8125 l"},
        "Going by what the widest holds, the tins are 8.7 % narrower than their names say.",
    ),
    # a heart of 20 cm: 2.1 l are 280 cm2, 70 % of a square of 20 cm; all hearts of the list are then as full
    ({"shape": "heart", "tins": "15, 20 cm", "holds": "2.1 l"}, "Going by what the widest holds, the hearts' fullness is 70 %."),
    ({"shape": "heart", "tins": "15, 20 cm", "holds": "2.1 l", "guests": "12"}, "Going by what the widest holds, the hearts' fullness is 70 %."),
    ({"shape": "heart", "tins": "15, 20 cm"}, None),
    ({"tins": "15, 20 and 25 cm"}, None),
    # the widest is the one with most room: an oval of 25 x 20 cm, 2.95 l, whichever stands first
    (
        {"shape": "oval", "tins": "20 x 15 cm; 25 x 20 cm", "holds": "3 l"},
        "Going by what the widest holds, the tins are 0.9 % wider than their names say.",
    ),
    (
        {"shape": "oval", "tins": "25 x 20 cm; 20 x 15 cm", "holds": "3 l"},
        "Going by what the widest holds, the tins are 0.9 % wider than their names say.",
    ),
]


@pytest.mark.parametrize("typed, told", HOLDING)
def test_tins_go_by_what_the_widest_holds(typed: dict[str, str], told: str | None) -> None:
    asked: Typed = {"guests": "20", "deep": "7.5 cm", **typed}
    assert [text for text in sentences("stack", asked) if text.startswith("Going by")] == ([told] if told else [])


def test_scaled_tins_keep_their_names() -> None:
    """2.5 % narrower all of them: the step of 10 cm is 9.8 cm, and the coat comes on 24.4 cm."""
    found = answered("stack", {"guests": "30", "tins": "15, 20 and 25 cm", "holds": "3.5 l", "deep": "7.5 cm", "keep_top": "yes"})
    assert rows(found, "stacks") == [["25 cm + 15 cm", "2", "36", "6", "9.8 cm"]] and [row[1] for row in rows(found, "tiers")] == ["25 cm", "15 cm"]
    oval = answered("stack", {"guests": "20", "shape": "oval", "tins": "20 x 15 cm; 25 x 20", "holds": "3 l", "deep": "7.5 cm"})
    assert rows(oval, "tiers")[0][1] == "25 cm x 20 cm"
    full, lean = (answered("stack", {"guests": "10", "shape": "heart", "tins": "15 cm", "fullness": fullness}) for fullness in ("78 %", "62 %"))
    assert value(full, "weight") > 1.1 * value(lean, "weight")


@pytest.mark.parametrize(
    "typed, at, message",
    [
        (
            {"holds": "3 l", "deep": "7.5 cm"},
            "tins",
            "Tins you have: this is empty, and what the widest of them holds is given. Write them like 15, 20 and 25 cm",
        ),
        (
            {"tins": "15 cm; 20 cm", "tier_count": "3"},
            "tier_count",
            "No 3 of these tins can stand on each other with steps of 5 cm to 10 cm. Add tins, choose fewer tiers, or allow other steps",
        ),
        (
            {"tins": "15 cm", "keep_top": "yes"},
            "tins",
            "No 2 of these tins can stand on each other with steps of 5 cm to 10 cm. Add tins, choose fewer tiers, or allow other steps",
        ),
        ({"tins": "5 cm", "slice": "10 x 10 cm"}, "slice", "No slice of 10 cm x 10 cm comes out of these tins. Make the slice smaller"),
        (
            {"tins": "15 cm", "guests": "160"},
            "guests",
            "160 guests want 160 portions, and the largest stack of these tins gives 13. Add wider tins, use smaller slices, or let kitchen cakes "
            "make it "
            "up: 2 of 30 x 40 cm would do",
        ),
        (
            {"guests": "500", "height": "4 cm", "units": "us"},
            "guests",
            "500 guests want 500 portions, and the largest stack of these tins gives 309. Add wider tins, use smaller slices, or let kitchen cakes "
            "make it "
            "up: 2 of 12 x 18 in would do",
        ),
        ({"keep_top": "yes", "tier_count": "1"}, "tier_count", "Keeping the top tier leaves nothing of a cake of one tier. Choose two tiers or more"),
        ({"step_low": "10.1 cm"}, "step_low", "Least step must not be more than the most (10 cm). Write it like 5 cm"),
        ({"tins": "4 cm, 20 cm"}, "tins", "Tins you have must each be between 5 cm and 100 cm, not 4 cm. Write it like 15, 20 and 25 cm"),
        (
            {"tins": "20 x 4 cm", "shape": "rectangle"},
            "tins",
            "Tins you have must each be between 5 cm and 100 cm, not 4 cm. Write it like 20 x 15 cm; 25 x 20 cm",
        ),
        ({"tins": "55 x 5 cm", "shape": "oval"}, "tins", "An oval is at most ten times as long as it is wide. Choose a rectangle, or other sizes"),
        (
            {"tins": "20 x 15 cm"},
            "tins",
            "Tins you have: a round tin has one length, and “20 x 15 cm” does not read as that. Write it like 15, 20 and 25 cm",
        ),
        (
            {"tins": "20 cm", "shape": "oval"},
            "tins",
            "Tins you have: an oval tin has two lengths, and “20 cm” does not read as that. Write it like 20 x 15 cm; 25 x 20 cm",
        ),
        (
            {"tins": "twenty or perhaps twenty-five centimetres x", "shape": "square"},
            "tins",
            "Tins you have: a square tin has one length, and “twenty or perhaps twenty-five ” does not read as that. Write it like 15, 20 and 25 cm",
        ),
        ({"tins": ", ".join(["20 cm"] * 21)}, "tins", "Tins you have is a list of up to 20. Write it like 15, 20 and 25 cm"),
        ({"tins": ";", "shape": "oval"}, "tins", "Tins you have is a list of up to 20. Write it like 20 x 15 cm; 25 x 20 cm"),
    ],
)
def test_stacks_that_cannot_be(typed: dict[str, str], at: str, message: str) -> None:
    assert refused("stack", typed) == (at, message)


def test_tins_at_their_limits() -> None:
    """Five centimetres, a metre, twenty tins, ten times as long as wide."""
    for text, shape in (("5 cm, 100 cm", "round"), (", ".join(["20 cm"] * 20), "round"), ("50 x 5 cm", "oval"), ("5 x 50 cm", "oval")):
        assert read_tins(text, shape, "metric")
    with pytest.raises(Problem):
        read_tins("100.1 cm", "round", "metric")


@pytest.mark.parametrize(
    "text, shape, sizes",
    [
        ("15, 20 and 25 cm", "round", [(150, 150), (200, 200), (250, 250)]),
        ("6, 8 & 10 in", "round", [(152.4, 152.4), (203.2, 203.2), (254, 254)]),
        ('6, 8"', "square", [(152.4, 152.4), (203.2, 203.2)]),
        ("20 cm; 6 in", "round", [(200, 200), (152.4, 152.4)]),
        ("15,5 cm\n20", "round", [(155, 155), (200, 200)]),
        ("20x15; 25 x 20 cm.", "rectangle", [(200, 150), (250, 200)]),
        ("20 by 15 cm, 25 × 20 cm", "oval", [(200, 150), (250, 200)]),
        ("20 x 6 in", "rectangle", [(508, 152.4)]),
    ],
)
def test_tins_are_read(text: str, shape: str, sizes: list[tuple[float, float]]) -> None:
    """The last unit is that of all that have none."""
    found = read_tins(text, shape, "metric")
    assert [(tin.width_mm, tin.length_mm) for tin in found] == [pytest.approx(pair) for pair in sizes]


def test_the_usual_tins_are_those_of_the_shape_and_the_units() -> None:
    for units, width in (("metric", 200.0), ("us", 203.2)):
        for text in (None, "", "  "):
            found = read_tins(text, "heart", units, 0.65)
            assert any(tin.width_mm == pytest.approx(width) for tin in found) and {tin.kind for tin in found} == {"heart"}
            assert all(tin.area_mm2 == pytest.approx(0.65 * tin.width_mm**2) for tin in found)


def test_a_stack_is_drawn_tier_on_tier(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each stands where the one under it ends: 10.5 cm and 21; the board under all shows 5 cm round a tier of 31 cm."""
    given: list[tuple[Any, float]] = []
    monkeypatch.setattr(stack_form, "side_view", lambda tiers, board: given.append((tiers, board)))
    monkeypatch.setattr(stack_form, "svg", lambda scene: "<svg/>")
    stack_form._svg.cache_clear()
    answered("stack", {"guests": "90", "tins": "15, 22, 30 cm", "tier_count": "3"})
    stack_form._svg.cache_clear()
    ((tiers, board),) = given
    assert [tuple(vars(tier).values())[:3] for tier in tiers] == [
        (tier.outline, base, 105.0) for tier, base in zip(tiers, (0.0, 105.0, 210.0), strict=True)
    ]
    assert [tier.outline.width_mm for tier in tiers] == [310, 230, 160] and board == 410


def test_the_fillings_of_low_tiers_leave_half_of_them_sponge() -> None:
    """2 cm high: 1 cm of filling, not 12 mm; 2.4 cm have the whole 12 mm, and so has anything higher."""

    def weight(height: str, filling: str) -> tuple[float, float]:
        stacked = value(answered("stack", {"guests": "20", "tins": "20 cm", "height": height}), "weight")
        return stacked, value(answered("supports", {"tiers": f"20 x {height}", "filling": filling}), "weight")

    for height, filling in (("2 cm", "10 mm"), ("2.1 cm", "10.5 mm"), ("2.4 cm", "12 mm"), ("10 cm", "12 mm")):
        stacked, supported = weight(height, filling)
        assert stacked == pytest.approx(supported), height


def test_hearts_to_support_are_as_full_as_is_said() -> None:
    """Sponge and coat on top go with the area, the coat round it with the outline: 78 % weigh about a quarter more than 62."""
    full, lean = (value(answered("supports", {"tiers": "30 x 10 cm heart", "fullness": share}), "weight") for share in ("78 %", "62 %"))
    assert 1.18 < full / lean < 78 / 62


def test_the_board_that_shows_and_the_dowel_that_is_marked() -> None:
    """Told where a board shows, if only by a millimetre, and where a tier stands on another."""
    board, dowel = "The lowest board shows ", "Push one dowel in at the highest spot"
    one, two, three = "20 x 10 cm", "20 x 10 cm; 15 x 10 cm", "25 x 10 cm; 20 x 10 cm; 15 x 10 cm"
    for tiers, border, wanted in (
        (one, "0 cm", [False, False]),
        (one, "1 mm", [True, False]),
        (two, "0 cm", [False, True]),
        (three, "5 cm", [True, True]),
    ):
        texts = sentences("supports", {"tiers": tiers, "border": border})
        assert [any(text.startswith(start) for text in texts) for start in (board, dowel)] == wanted
    assert any(text.startswith("The lowest board shows 1 mm all round, ") for text in sentences("supports", {"tiers": one, "border": "1 mm"}))
    assert "stacked" in answered("supports", {"tiers": two}).figures and "stacked" not in answered("supports", {"tiers": one}).figures
