"""What stands on each sheet of an order, block by block, before it is set on paper: what is said, to whom, in which order, with which boxes to tick.

The cake is that of test_calculators_order: 20 and 15 cm, both 10 cm high, 21 and 16 cm coated, 66 and 50.3 cm round; four dowels in the lower tier
carry the upper one. Weights of tiers are those of the tests of `calc.stack`.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, list_sheets, order_bench, order_cards, order_quotation, order_sheets, supports_form, swags_form, tips_form
from calc.calculators.declare import Answer, parse
from calc.calculators.list_sheets import list_sheet
from calc.calculators.order_cards import taking_apart
from calc.calculators.order_drawings import look_of, tier_drawing
from calc.calculators.order_form import order_of, plan_of
from calc.calculators.order_moving import load_list
from calc.calculators.order_schemes import _pinned_words, _snap_us
from calc.calculators.order_sheets import PAPERS, about_of, group_of, sheet_names
from calc.colours import CAUTIONS as COLOUR_CAUTIONS
from calc.drawing.paper import Blanks, Heading, Paragraphs, Picture, Table
from calc.schemes import SCHEMES
from calc.tips import Tip
from calc.units import Formatter, Problem
from tests.calc.test_calculators_order import CAKE, ONE, answered, asked, planned
from tests.calc.test_calculators_sums import rows

SAY = Formatter()
DAY = "Sat 16 October 2027, 18:00"
THREE = {
    **{"tiers__0__width": "25 cm", "tiers__1__width": "20 cm", "tiers__2__name": "Top", "tiers__2__width": "15 cm"},
    **{"tiers__2__rows__0__kind": "shell", "tiers__2__rows__0__place": "base", "stacked": "venue"},
}


@pytest.fixture(autouse=True)
def blocks_only(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Sheets are not set on paper: each is its blocks."""

    def written(name: str, title: str, blocks: Any, heading: Heading | None = None, paper: str = "", under: str = "", *rest: Any) -> Any:
        return SimpleNamespace(name=name, title=title, blocks=list(blocks), heading=heading, under=under, pages=(None,), pdf=lambda *_, **__: blocks)

    for module in (order_cards, list_sheets, order_quotation):
        monkeypatch.setattr(module, "written_sheet", written)
    monkeypatch.setattr(order_cards, "label_sheet", written)
    yield


def sheet(name: str, **changes: str) -> Any:
    typed = asked(**changes)
    return order_sheets._makers(typed, plan_of(typed), "A4")[name]()


def tables(made: Any) -> list[Table]:
    return [block for block in made.blocks if isinstance(block, Table)]


def paragraphs(blocks: Any) -> dict[str, Paragraphs]:
    return {block.title: block for block in blocks if isinstance(block, Paragraphs)}


def blanks(blocks: Any) -> dict[str, str]:
    return {label: text for block in blocks if isinstance(block, Blanks) for label, text in block.lines}


def texts_of(**changes: str) -> dict[str, str]:
    return CAKE | {name.replace("__", "."): text for name, text in changes.items()}


# --- for the work ------------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "changes, layers, fillings",
    [
        ({}, "3 of 2.9 cm", "2 of 6 mm"),  # 10 cm less 12 mm, in three
        ({"tiers__0__layers": "1"}, "1 of 10 cm", "none"),
        ({"tiers__0__filling": "0 mm"}, "3 of 3.3 cm", "none"),
        ({"tiers__0__layers": "2"}, "2 of 4.7 cm", "1 of 6 mm"),
    ],
)
def test_the_card_for_baking_says_tins_layers_and_fillings(changes: dict[str, str], layers: str, fillings: str) -> None:
    made = sheet("baking-card", **changes)
    sponges, coats, recipe = tables(made)
    assert sponges.rows[0] == ("Lower", "round, 20 cm", layers, fillings, "21 cm, 10.5 cm high")
    assert (sponges.tick, coats.tick, recipe.tick) == (True, False, True) and coats.title.startswith("Filling and coats, at ")
    assert [row[0] for row in coats.rows] == ["Lower", "Upper"] and recipe.numeric == (1,) and coats.numeric == ()
    assert paragraphs(made.blocks)["Look out"].boxed


def test_the_card_for_bags_has_the_letters_and_the_steps_of_the_bench() -> None:
    """One colour, four tips, one row each: swags, beads, shells, leaves."""
    made = sheet("bag-card")
    bags, mixing, colours, textures = tables(made)
    assert [row[:4] for row in bags.rows] == [
        ("A", "cream", "petal 11 mm", "1"),
        ("B", "cream", "round 4 mm", "2"),
        ("C", "cream", "open star 7 mm", "3"),
        ("D", "cream", "leaf 6 mm", "4"),
    ]
    assert [list(row[4:]) for row in bags.rows] == [row[3:] for row in rows(answered(texts_of()), "bags")]
    assert bags.numeric == (4, 5) and (bags.tick, mixing.tick, colours.tick, textures.tick) == (True, True, True, False)
    notes = paragraphs(made.blocks)[""]
    assert notes.boxed and [text.split()[0] for text in notes.paragraphs] == ["With", "Tints"]


def test_a_bag_for_two_rows_names_both_steps_and_a_tip_in_two_colours_is_told() -> None:
    both = {"tiers__1__rows__0__tip": "open star 7 mm", "tiers__1__rows__0__kind": "shell", "tiers__1__rows__1__tip": "open star 7 mm"}
    made = sheet("bag-card", **both, tiers__1__rows__1__kind="shell", tiers__1__rows__1__colour="sage")
    assert ("open star 7 mm", "2 and 3") in [row[2:4] for row in tables(made)[0].rows]
    assert any(" tip is needed in " in text for text in paragraphs(made.blocks)[""].paragraphs)
    plain = sheet(
        "bag-card", tiers__0__colour="plain", **{f"tiers__{i}__rows__{j}__colour": "plain" for i in (0, 1) for j in (0, 1)}, tiers__1__colour="plain"
    )
    assert [text.split()[0] for text in paragraphs(plain.blocks)[""].paragraphs] == ["With"]  # nothing is tinted


# --- on the way --------------------------------------------------------------------------------------------------------------------------


def test_the_card_for_delivery_goes_from_the_box_to_the_table() -> None:
    made = sheet("delivery-card", quote__0__delivery="The barn")
    when, car = tables(made)
    assert when.rows[-1] == (DAY, "Ready") and when.tick and car.tick and made.under == f"Ready {DAY}."
    assert [what for _, what in when.rows[:-1]] == ["Box and load", "On the road", "Set it up and let it soften"]
    assert blanks(made.blocks)["Address:"] == "The barn" and blanks(sheet("delivery-card").blocks)["Address:"] == ""
    found = paragraphs(made.blocks)
    assert found["Set it up"].numbered and found["Look out"].boxed and not found["Look out"].numbered
    assert found["Set it up"].paragraphs == (
        "Look at the table first: level, firm, out of the sun, away from heaters, where nobody brushes past. Lay the non-slip mat.",
        "Set the cake down, its front to the room: up to 3.55 kg, one person, hands under the board.",
        "Go round it once with the repair kit. Take a picture of each side.",
        "Hand over the serving page, the cutting guides and the allergens, and say that 4 dowels and 2 boards must come out. Say who to ring.",
    )


def test_three_tiers_are_set_up_at_the_venue_from_the_lowest() -> None:
    """Masses are today's result; 25 and 20 cm carry on six and four dowels, and three tiers of 10.5 cm are higher than a rod of 29.5 cm by 2 cm."""
    assert order_cards._set_up(planned(**THREE), SAY) == (
        "Look at the table first: level, firm, out of the sun, away from heaters, where nobody brushes past. Lay the non-slip mat.",
        "Set Lower down, its front to the room: up to 3.37 kg, one person, hands under the board.",
        "See that the 6 dowels in Lower stand upright and end level with its coat. Lower Upper on its board onto them, back edge first, backs in "
        "line: up to 2.19 kg, one person.",
        "See that the 4 dowels in Upper stand upright and end level with its coat. Lower Top on its board onto them, back edge first, backs in "
        "line: up to 1.32 kg, one person.",
        "Drive the centre rod of 29.5 cm straight down through all tiers into the lowest board.",
        "Pipe what covers the joints: step 5 of the bench sheet.",
        "Go round it once with the repair kit. Take a picture of each side.",
        "Hand over the serving page, the cutting guides and the allergens, and say that 10 dowels and 3 boards must come out. Say who to ring.",
    )
    both = order_cards._set_up(planned(**THREE, tiers__1__rows__0__kind="shell", tiers__1__rows__0__place="base"), SAY)
    assert "Pipe what covers the joints: steps 4 and 5 of the bench sheet." in both
    alone = order_cards._set_up(plan_of(asked_one()), SAY)
    assert alone[-1].endswith("and the allergens. Say who to ring.") and len(alone) == 4


def asked_one(**changes: str) -> Any:
    return parse(CALCULATORS["order"], ONE | {name.replace("__", "."): text for name, text in changes.items()})


def test_what_goes_in_the_car() -> None:
    home, venue = load_list(planned(), SAY), load_list(planned(**THREE), SAY)
    assert [what for what, _ in home] == [
        "Box, 36 cm x 36 cm, 26 cm high",
        "Repair kit: one bag of each colour, small palette knife, cocktail sticks, damp cloth, scissors",
        "Non-slip mat, thermometer, this list, the cutting guide, the list of allergens",
    ]
    assert home[0][1] == "the whole cake" and home[-1][1] == "whoever receives it: 4 dowels, 2 boards in it"
    assert [use for what, use in venue if what.startswith("Box")] == ["Lower", "Upper", "Top"]
    dowels = sum(stand.all_dowels for stand in planned(**THREE).supports)
    assert f"{dowels} dowels, cut and counted, and two spare" in [what for what, _ in venue]
    assert any(what.startswith("Centre rod, ") for what, _ in venue)
    assert ("Bag: cream, open star 7 mm, in a cool box", "piped at the venue: shell, open star 7 mm, cream on Top") in venue
    assert load_list(plan_of(asked_one()), SAY)[-1][1] == "whoever receives it"


def test_each_box_has_a_label_and_the_cake_another() -> None:
    whole, food = sheet("box-label", maker__0__name="Pat", maker__0__telephone="12").blocks
    title, hold = [block for block in whole if isinstance(block, Paragraphs)]
    assert title.paragraphs == (f"A cake: the whole cake. {DAY}.",) and title.strong and not hold.strong
    assert hold.paragraphs[0] == "Keep cold, 5 °C (41 °F) or less, out of the sun; nothing on top of it."
    assert hold.paragraphs[1].startswith("Up to 3.55 kg: one person, hands under the base. Box 36 cm x 36 cm, 26 cm high inside.")
    assert hold.paragraphs[1].endswith(" In it, and not food: 4 dowels, 2 boards.")
    assert blanks(whole) == {"Maker:": "Pat", "Telephone:": "12", "To:": ""}
    lower, upper, _ = sheet("box-label", stacked="venue").blocks
    assert [panel[0].paragraphs[0].split(". ")[0] for panel in (lower, upper)] == ["A cake: Lower", "A cake: Upper"]
    assert lower[1].paragraphs[1].endswith(" In it, and not food: 4 dowels, 1 board.")
    assert upper[1].paragraphs[1].endswith(" In it, and not food: 1 board.") and upper[1].paragraphs[1].startswith("Up to 1.3 kg: one person")
    assert blanks(food)["Made by, with address:"] == "Pat" and food[1].strong and food[1].paragraphs[0].startswith("ALLERGENS. In the buttercream: ")
    assert "at 5 °C (41 °F) or less (England allows food premises 8 °C (46 °F))" in food[-1].paragraphs[0]


def test_what_is_in_the_cake_is_listed_by_weight() -> None:
    """As the law wants it: the heaviest first."""
    listed = sheet("box-label").blocks[-1][0].paragraphs[0].partition(": ")[2].removesuffix(".").split("; ")
    assert listed == ["butter, unsalted", "caster or granulated sugar", "egg white", "vanilla extract", "fine salt"]


# --- for whoever serves ----------------------------------------------------------------------------------------------------------------------


def test_the_page_for_whoever_serves_counts_portions_and_dowels() -> None:
    made = sheet("hand-out", quote__0__in_sponge="wheat")
    (cake,) = tables(made)
    assert cake.title == "The cake: 37 portions" and cake.columns == ("Tier", "Portions", "Sponge", "Dowels in it")
    assert cake.rows == (("Lower", "24 of 2.5 cm x 5 cm", "round, 20 cm", "4"), ("Upper", "13 of 2.5 cm x 5 cm", "round, 15 cm", "none"))
    found = paragraphs(made.blocks)
    assert found["Allergens"].boxed and found["Allergens"].strong and found["Take it apart, and cut it"].numbered
    assert found["Before it is served"].paragraphs == (
        "Keep it at 5 °C (41 °F) or less until Sat 16 October 2027, 16:55, then let it soften.",  # 5 min to set it up and an hour before 18:00
        "Keep it out of the fridge for 2 hours at most in all, 1 hour above 32 °C (90 °F). Your local rules come first.",
    )
    assert blanks(made.blocks)["In the sponge:"] == "wheat"
    kept = tables(sheet("hand-out", keep_top="yes"))[0]
    assert kept.title == "The cake: 24 portions" and kept.rows[1][1] == "kept back, not cut"


def test_a_cake_without_dowels_has_no_column_for_them() -> None:
    typed = asked_one()
    one = order_sheets._makers(typed, plan_of(typed), "A4")["hand-out"]()
    assert tables(one)[0].columns == ("Tier", "Portions", "Sponge")
    assert tables(one)[0].rows == (("Cake", "24 of 2.5 cm x 5 cm", "round, 20 cm"),)
    tall = asked_one(tiers__0__height="22 cm")
    made = order_sheets._makers(tall, plan_of(tall), "A4")["hand-out"]()
    assert tables(made)[0].rows[0][1] == "48 of 2.5 cm x 5 cm, on 2 levels"


def many(count: int) -> Any:
    """A cake of so many tiers, each 5 cm narrower than the one under it."""
    sizes = {f"tiers__{i}__width": f"{15 + 5 * (count - 1 - i)} cm" for i in range(count)}
    return planned(**sizes, **{f"tiers__{i}__name": f"Tier {i + 1}" for i in range(count)})


@pytest.mark.parametrize("count", [2, 4, 5])
def test_a_cake_is_taken_apart_from_the_top(count: int) -> None:
    """Up to four tiers the dowels have a step of their own; of more, they go with the lifting, so that all stands on one page."""
    cake = many(count)
    told = taking_apart(cake, SAY)
    lifts = [text for text in told if text.startswith("Lift ")]
    assert [text.split(" off")[0] for text in lifts] == [f"Lift Tier {i}" for i in range(count, 1, -1)]
    pulls = [f"Only now pull the {cake.supports[i].dowels} dowels out of Tier {i + 1}, and count them." for i in range(count - 2, -1, -1)]
    if count <= 4:
        assert [text for text in told if text.startswith("Only now")] == pulls
    else:
        assert [text.partition(" Only now")[2] for text in lifts] == [pull.removeprefix("Only now") for pull in pulls]
    for text, stand in zip(lifts, cake.supports[:0:-1], strict=True):
        assert f"up to {SAY.mass(stand.high_g)}, a wide knife under the board first." in text
    rod = [text for text in told if "centre rod" in text]
    assert len(rod) == (count > 2) and told.index(lifts[0]) == 1 + len(rod)
    dowels = sum(stand.all_dowels for stand in cake.supports)
    assert told[-2] == f"{dowels} dowels and {count} boards: all counted before a plate leaves the table."
    assert told[-1].startswith("Cut Tier 1")


def test_a_tall_tier_comes_apart_level_by_level() -> None:
    told = taking_apart(plan_of(asked_one(tiers__0__height="22 cm")), SAY)
    stand = plan_of(asked_one(tiers__0__height="22 cm")).supports[0]
    assert told[1].startswith("Cake has 1 board inside: cut what stands on a board") and f"({stand.inner_dowels} in all)" in told[1]
    assert told[2] == f"{stand.inner_dowels} dowels and 2 boards: all counted before a plate leaves the table." and len(told) == 4
    assert len(taking_apart(plan_of(asked_one()), SAY)) == 2
    higher = taking_apart(plan_of(asked_one(tiers__0__height="35 cm")), SAY)
    assert higher[1].startswith("Cake has 2 boards inside")
    kept = taking_apart(planned(keep_top="yes"), SAY)
    assert kept[-2:] == ("Cut Lower as the cutting guides show, with a warm knife wiped after each cut.", "Keep Upper back, boxed and cold.")


def test_cutting_guides_say_levels_and_what_comes_off(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[tuple[Any, ...]] = []
    monkeypatch.setattr(order_sheets, "cutting_guide", lambda *told: made.append(told))
    sheet("cutting-guide-lower")
    sheet("cutting-guide-upper", tiers__1__height="22 cm")
    (cut, heading, paper, name, units, levels, before, allergens), upper = made
    assert (cut.count, heading.order_name, heading.day, paper, name, units, levels) == (24, "A cake", DAY, "A4", "Lower", "metric", 1)
    assert "pull the 4 dowels out of Lower" in before and allergens[0].startswith("In the buttercream") and upper[5] == 2
    assert "Upper has 1 board inside" in upper[6]


# --- the quotation -----------------------------------------------------------------------------------------------------------------------------


def test_the_quotation_is_read_from_top_to_bottom() -> None:
    made = sheet("quotation", quote__0__customer="A. N. Other", quote__0__terms="Cash only", maker__0__name="Pat", maker__0__contact="Mill Lane")
    assert [block.title for block in made.blocks] == ["", "Your cake", "Price", "Terms", "Allergens", "", "Agreed"]
    told = blanks(made.blocks)
    assert (told["For:"], told["From:"], told["For the day, ready at:"], told["Date, and number:"]) == ("A. N. Other", "Pat, Mill Lane", DAY, "")
    assert made.blocks[0].beside is not None and tables(made)[0].numeric == (1,)
    found = paragraphs(made.blocks)
    assert found["Allergens"].boxed and not found["Terms"].boxed and found["Terms"].paragraphs[-1] == "Cash only"
    assert found["Terms"].paragraphs[2].startswith("In the cake are 4 dowels and 2 boards")
    assert found["Your cake"].paragraphs == (
        "A cake of two tiers, round, ivory, in Swiss meringue buttercream, 21 cm high. For 36 guests: 37 portions of 2.5 cm x 5 cm.",
        "Lower: round, 21 cm across and 10.5 cm high, ivory; with swags in cream and shells round the base in cream.",
        "Upper: round, 16 cm across and 10.5 cm high, ivory; with beads along the top edge in cream and leaves round the side in cream.",
    )


@pytest.mark.parametrize(
    "changes, words",
    [
        ({"tiers__0__bands": "russet 2, blush 1"}, "shaded from russet to blush"),
        ({"tiers__0__bands": "russet 2"}, "high, russet;"),
        ({"tiers__0__striped": "sage"}, "ivory striped with sage"),
        ({"tiers__0__rows__0__layers": "2"}, "swags in two layers of cream"),
        ({"tiers__0__rows__0__second": "sage"}, "swags in cream and sage"),
        ({"tiers__0__rows__1__kind": "line", "tiers__0__rows__1__place": "top"}, "a line on the top in cream"),
        ({"tiers__0__rows__1__kind": "leaf", "tiers__0__rows__1__place": "joints"}, "leaves where the swags meet in cream"),
        ({"keep_top": "yes"}, "24 portions of 2.5 cm x 5 cm, Upper kept back for you."),
    ],
)
def test_a_customer_is_told_what_will_be_seen(changes: dict[str, str], words: str) -> None:
    assert words in " ".join(paragraphs(sheet("quotation", **changes).blocks)["Your cake"].paragraphs)


def test_a_quotation_too_long_for_the_picture_beside_it_has_it_below(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(order_quotation, "one_page", lambda *told: SimpleNamespace(pages=(None, None)))
    made = sheet("quotation")
    assert [type(block) for block in made.blocks[:2]] == [Blanks, Picture] and made.blocks[0].beside is None and not made.blocks[1].scaled


# --- to mark and to practise ---------------------------------------------------------------------------------------------------------------------


def test_sheets_stand_in_the_order_of_the_work() -> None:
    names = sheet_names(planned())
    groups = list(dict.fromkeys(group_of(name) for name in names))
    assert groups == ["", "Buy", "Bake", "Colour and coat", "Mark", "Pipe", "Deliver", "Serve", "Customer", "Practise before"]
    assert [name for name in names if group_of(name) == "Mark"] == [
        *("marking-strip-lower", "marking-strip-prick-lower", "top-template-lower", "stacking-template-lower"),
        *("marking-strip-upper", "marking-strip-prick-upper", "top-template-upper", "cutter-circles"),
    ]
    assert [name for name in names if group_of(name) == "Practise before"] == [
        *("practice-swag-petal-11-mm", "practice-bead-round-4-mm", "practice-shell-open-star-7-mm", "practice-leaf-leaf-6-mm"),
        "practice-lines-and-curves",
    ]
    bare = sheet_names(plan_of(asked_one()))
    assert not any(name.startswith(("marking-strip", "stacking-template", "cutter-circles")) for name in bare) and "top-template-cake" in bare


def test_marking_sheets_are_of_their_tier(monkeypatch: pytest.MonkeyPatch) -> None:
    """A round has its joints at even distances; on a square they stand where they are, as far as the tape is longer than was worked out."""
    made: dict[str, list[tuple[Any, ...]]] = {}
    for name in ("marking_strip", "top_template", "stacking_template", "practice_sheet", "cutter_circles", "tip_chart"):
        monkeypatch.setattr(order_sheets, name, lambda *told, name=name: made.setdefault(name, []).append(told))
    for name in ("marking-strip-lower", "marking-strip-prick-lower", "top-template-lower", "stacking-template-lower", "cutter-circles", "tip-chart"):
        sheet(name)
    plain, prick = made["marking_strip"]
    assert (plain[0].name, plain[3], prick[3]) == ("Lower", False, True)
    (template,) = made["top_template"]
    assert (template[0].name, template[1], template[-1]) == ("Lower", 9, ())
    sheet("top-template-lower", tiers__0__shape="square", tiers__0__side="85 cm")
    cake = planned(tiers__0__shape="square", tiers__0__side="85 cm").tiers[0]
    assert made["top_template"][1][-1] == pytest.approx([s * 850 / cake.perimeter_mm for s in cake.joints.s_mm]) and cake.joints.s_mm
    (stack,) = made["stacking_template"]
    assert (stack[0].width_mm, stack[1].width_mm, stack[2].dowels, stack[5]) == (pytest.approx(210), pytest.approx(160), 4, "Lower")
    ((circles, *_),) = made["cutter_circles"]
    assert [(one.diameter_mm, one.words, one.width_mm) for one in circles] == [(75.0, "Lower, 9 swags", 73.3)]
    ((chart, *_),) = made["tip_chart"]
    assert [(tip.name, words) for tip, words in chart if words] == [
        ("petal 11 mm", "for the swag"),
        ("round 4 mm", "for the bead"),
        ("open star 7 mm", "for the shell"),
        ("leaf 6 mm", "for the leaf"),
    ]
    families = [tip.family for tip, _ in chart]
    assert (
        list(dict.fromkeys(families)) == ["petal", "round", "open star", "leaf"] and len(chart) > 10 and len({tip for tip, _ in chart}) == len(chart)
    )
    for name in ("practice-swag-petal-11-mm", "practice-shell-open-star-7-mm"):
        sheet(name)
    swag, shell = made["practice_sheet"]
    assert swag[1] == pytest.approx(660 / 9, abs=0.1) and swag[0].drop_mm == pytest.approx(29.57, abs=0.01) and shell[1] == 0.0
    assert swag[0].layers == 1 and swag[0].colour == look_of("cream", {})


def test_two_rows_of_one_tip_are_named_together_on_its_chart() -> None:
    both = planned(tiers__0__rows__2__kind="rope", tiers__0__rows__2__place="top edge", tiers__0__rows__2__tip="open star 7 mm")
    assert dict(order_sheets._tips(both))[Tip("open star", 7)] == "for the rope and shell"


def test_the_job_counts_its_pages(monkeypatch: pytest.MonkeyPatch) -> None:
    """A page of contents, a sheet of two pages and one of one: four in all; each group with its own."""
    small = {
        "bag-card": lambda: SimpleNamespace(title="Bags", pages=(None, None)),
        "box-label": lambda: SimpleNamespace(title="Labels", pages=(None,)),
        "practice-x": lambda: SimpleNamespace(title="Practice", pages=(None,)),
        "marking-strip-prick-x": lambda: SimpleNamespace(title="Prick", pages=(None,)),
    }
    told: list[Any] = []
    monkeypatch.setattr(order_sheets, "_makers", lambda typed, cake, paper: small)
    monkeypatch.setattr(order_sheets, "sheet_names", lambda cake: dict.fromkeys(("job", *small), ""))
    monkeypatch.setattr(order_sheets, "written_sheet", lambda *given: told.append(given) or SimpleNamespace(title="The job", pages=(None,)))
    monkeypatch.setattr(order_sheets, "pdf", lambda pages, about, parts: (pages, about, parts))
    pages, about, parts = order_sheets._job(asked(), planned(), "A4")
    ((name, title, blocks, heading, paper, under),) = told
    assert blocks[0].rows == (("Colour and coat", "Bags", "2 to 3"), ("Deliver", "Labels", "4")) and blocks[0].numeric == (2,) and blocks[0].tick
    assert under.startswith("4 pages.") and len(pages) == 4 and not blocks[2].scaled
    assert [(part.title, part.pages) for part in parts] == [("The job", 1), ("Bags", 2), ("Labels", 1)]
    assert about.title == "The job: A cake" and about.subject == f"A cake, ready {DAY}, for 36 guests"


def test_a_sheet_says_whose_it_is_and_on_which_paper() -> None:
    assert about_of(asked(), planned(), "Bags").author == "Piping Bench"
    assert about_of(asked(maker__0__name="Pat"), planned(), "Bags").author == "Pat"
    with pytest.raises(Problem, match="Paper is one of A4 and Letter, not A5"):
        order_sheets._makers(asked(), planned(), "A5")
    assert PAPERS == ("A4", "Letter")
    with pytest.raises(KeyError):
        order_sheets.sheet_of(asked(), planned(), "nothing", "A4")


# --- lists of any calculator ---------------------------------------------------------------------------------------------------------------------


def test_tables_of_an_answer_are_set_in_the_order_that_is_asked() -> None:
    answer = Answer("price")
    answer.table("one", "First", ("What", "How much"), [("a", "1")], (1,))
    answer.table("two", "Second", ("What",), [("b",)])
    answer.caution("Mind the knife.")
    made: Any = list_sheet(answer, "list", "List", ("two", "three", "one"), "A4", ("one",))
    second, first, warned = made.blocks
    assert (second.title, first.title) == ("Second", "First") and (second.tick, first.tick) == (False, True)
    assert (second.numeric, first.numeric, first.rows) == ((), (1,), (("a", "1"),)) and warned.boxed and warned.paragraphs == ("Mind the knife.",)
    answer.problems = [{"input": "a", "message": "b"}]
    with pytest.raises(KeyError):
        list_sheet(answer, "list", "List", ("one",), "A4")


def test_a_price_prints_its_parts_or_what_to_buy() -> None:
    typed = {"items.0.name": "butter", "items.0.mass": "500 g", "tasks.0.name": "piping", "tasks.0.time": "2 h"}
    price: Any = calc.sheet("price", typed, "price")
    assert [(block.title, getattr(block, "tick", None)) for block in price] == [
        ("How the price is made up", False),
        ("Hours by task", False),
        ("Cautions", None),
    ]
    bought: Any = calc.sheet("price", typed, "shopping-list")
    assert [(block.title, block.tick) for block in bought] == [("Shopping list", True)]


def test_sheets_of_single_calculators_draw_what_was_worked_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nine swags of 7.3 cm on the circle of the 7.5 cm cutter, beside the usual sizes from 5 to 12 cm, or 1 to 2.25 in, but not that size twice."""
    made: list[Any] = []

    def drawn(*told: Any, **more: Any) -> Any:
        made.append((told, more))
        return SimpleNamespace(pdf=lambda **_: b"")

    monkeypatch.setattr(swags_form, "cutter_circles", drawn)
    monkeypatch.setattr(supports_form, "stacking_template", drawn)
    monkeypatch.setattr(tips_form, "tip_chart", drawn)
    monkeypatch.setattr(tips_form, "tip_gauge", drawn)
    calc.sheet("swags", {"side": "66 cm", "cutter": "8 cm", "repeats": "9"}, "cutter-circles")
    first, *others = made[-1][0][0]
    assert (first.diameter_mm, first.words, first.width_mm) == (pytest.approx(80), "9 swags 7.3 cm wide", pytest.approx(660 / 9, abs=0.1))
    assert [one.diameter_mm for one in others] == [50, 60, 70, 90, 100, 110, 120]
    calc.sheet("swags", {"side": "26 in", "cutter": "3 in", "units": "us"}, "cutter-circles")
    assert [round(one.diameter_mm / 25.4, 2) for one in made[-1][0][0][1:]] == [2.0, 2.5, 3.5, 4.0, 4.5]
    calc.sheet("supports", {"tiers": "25 x 10 cm; 20 x 10 cm; 15 x 10 cm"}, "stacking-template-2")
    (lower, upper, stand), more = made[-1]
    assert (lower.width_mm, upper.width_mm, more["name"]) == (pytest.approx(210), pytest.approx(160), "tier 2") and stand.dowels == 4
    calc.sheet("tips", {}, "tip-chart")
    chart = [tip for tip, _ in made[-1][0][0]]
    by_family = {family: [tip.opening_mm for tip in chart if tip.family == family] for family in dict.fromkeys(tip.family for tip in chart)}
    assert len(chart) > 20 and all(sizes == sorted(sizes) for sizes in by_family.values())
    for slug, name in (("swags", "x"), ("supports", "stacking-template-3"), ("tips", "x"), ("timetable", "x"), ("price", "x")):
        with pytest.raises(KeyError):
            calc.sheet(slug, {"side": "66 cm", "cutter": "8 cm"} if slug == "swags" else {}, name)


# --- the bench and the drawings --------------------------------------------------------------------------------------------------------------------


def test_the_bench_sheet_says_bags_and_marking(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(order_bench, "bench_sheet", lambda *told: told)
    steps, bags, holds, tiers, _, _, _ = order_bench.bench(planned(), Heading(), "A4", (), "metric")  # type: ignore[misc]
    assert [(bag.letter, bag.tip, bag.colour_name, bag.fills) for bag in bags] == [
        ("A", "petal 11 mm", "cream", ""), ("B", "round 4 mm", "cream", ""), ("C", "open star 7 mm", "cream", ""), ("D", "leaf 6 mm", "cream", ""),
    ]  # fmt: skip
    assert [(tier.name, tier.marking) for tier in tiers] == [
        (
            "Lower, 66 cm round",
            "9 repeats, dividers 7.2 cm. Joints 1.2 cm down. Cutter 7.5 cm, drop 3 cm. Tape with its upper edge 4.2 cm down, the cutter rests on it.",
        ),
        ("Upper, 50.3 cm round", "8 repeats, dividers 6.1 cm. Joints 1.2 cm down."),
    ]
    low = order_bench._marking(planned(tiers__0__rows__0__below="5 cm").tiers[0], SAY)
    assert low.endswith("Tape with its lower edge 4.6 mm down, the cutter hangs from it.")
    free = order_bench._marking(planned(cutters="").tiers[0], SAY)
    assert "No cutter: paper strip, drop " in free and "Tape" not in free
    plain = order_bench._marking(planned(tiers__1__rows__1__place="top edge", tiers__1__rows__1__kind="bead").tiers[1], SAY)
    assert "Joints" not in plain


def test_a_tip_with_two_kinds_of_row_is_held_in_two_ways() -> None:
    cake = planned(tiers__0__rows__2__kind="rope", tiers__0__rows__2__place="top edge", tiers__0__rows__2__tip="open star 7 mm")
    letters = {(bag.colour, bag.tip): "ABCD"[i] for i, bag in enumerate(cake.bags.bags)}
    (hold,) = [one for one in order_bench._holds(cake, letters) if len(one.lines) == 2]
    assert hold.bags == letters["cream", Tip("open star", 7)] and [line.split(",")[0] for line in hold.lines] == ["Rope", "Shell"]


def test_pieces_are_named_by_their_number() -> None:
    cake = planned(tiers__1__rows__0__kind="ruched border")
    assert [order_bench.pieces_words(step.row) for step in cake.steps] == ["9 swags", "ruched border", "63 shells", "16 leaves"]


def test_a_tier_is_drawn_as_it_was_planned() -> None:
    cake = planned()
    lower, upper = (tier_drawing(tier, ()) for tier in cake.tiers)
    assert (lower.base_mm, upper.base_mm, lower.height_mm, upper.part) == (0.0, pytest.approx(105), pytest.approx(105), "tiers.1")
    swag, shell = lower.rows
    assert (swag.repeats, swag.cutter_mm, swag.count, swag.part) == (9, 75.0, None, "tiers.0.rows.0") and swag.joints == ()
    assert (shell.cutter_mm, shell.count, shell.place, shell.part) == (None, 63, "base", "tiers.0.rows.1")
    tier = planned(tiers__0__rows__2__kind="C scroll", tiers__0__rows__2__place="side", tiers__0__rows__2__below="6 cm").tiers[0]
    scroll, plain = tier_drawing(tier, ()).rows[2], swag
    assert (scroll.width_mm, scroll.drop_mm) == (tier.rows[2].amount.pitch_mm, tier.rows[2].amount.drops_mm[0])
    assert (plain.width_mm, plain.drop_mm) == (None, cake.tiers[0].rows[0].drop_mm)
    bead, leaf = upper.rows
    assert (bead.count, leaf.count, leaf.per_joint, leaf.width_mm) == (88, None, 2, None)
    measured = tier_drawing(planned(tiers__0__side="66.6 cm").tiers[0], (), True)
    assert measured.outline.perimeter_mm == pytest.approx(666) and tier_drawing(cake.tiers[0], (), True).back_mm == 0.0
    assert [row.place for row in tier_drawing(planned(tiers__0__rows__1__place="inside").tiers[0], ()).rows] == ["side", "top"]


def test_a_coat_in_bands_has_the_uppermost_colour_on_its_top_and_stripes_lie_between_half_grounds() -> None:
    """Two thirds and a third of 10.5 cm: 7 and 3.5. Three stripes that take half: each 1.75 cm, with 8.75 mm of ground under the first."""
    shaded = tier_drawing(planned(tiers__0__bands="russet 2, blush 1").tiers[0], ())
    assert [(band[0], band[1]) for band in shaded.bands] == [(0.0, pytest.approx(70)), (pytest.approx(70), pytest.approx(105))]
    assert shaded.coat_colour == shaded.bands[-1][2] == look_of("blush", {}) and shaded.bands[0][2] == look_of("russet", {})
    striped = tier_drawing(planned(tiers__0__striped="sage", tiers__0__stripes="3").tiers[0], ())
    assert [(round(start, 2), round(end, 2)) for start, end, _ in striped.bands] == [(8.75, 26.25), (43.75, 61.25), (78.75, 96.25)]
    assert striped.coat_colour == look_of("ivory", {}) and {band[2] for band in striped.bands} == {look_of("sage", {})}


def test_a_colour_of_ones_own_is_drawn_as_it_was_chosen() -> None:
    assert look_of("moss", {"moss": " #AABBCC "}) == "#aabbcc" and look_of("#112233", {}) == "#112233"
    for wrong in ("#aabbc", "aabbccd", "#aabbcg", ""):
        assert look_of("russet", {"russet": wrong}) == look_of("russet", {}) != look_of("cream", {})
    assert look_of("moss and cream", {"moss": "#aabbcc"}) == "#aabbcc" and look_of("unheard of", {}) == look_of("plain", {})


# --- looks -----------------------------------------------------------------------------------------------------------------------------------------


def test_a_drop_of_a_look_is_in_eighths_of_an_inch() -> None:
    assert _snap_us(35.0) == pytest.approx(11 / 8 * 25.4) and _snap_us(25.4) == pytest.approx(25.4)


@pytest.mark.parametrize(
    "changes, told",
    [
        ({}, ""),
        ({"tiers__0__repeats": "9"}, "Lower"),
        ({"tiers__1__joints_below": "2 cm"}, "Upper"),
        ({"tiers__0__cutter": "9 cm", "tiers__1__repeats": "8"}, "Lower and Upper"),
    ],
)
def test_what_was_chosen_for_a_tier_is_chosen_again(changes: dict[str, str], told: str) -> None:
    assert _pinned_words(order_of(asked(**changes))) == (f"{told}: repeats and joints are chosen again." if told else "")


def test_a_look_sets_every_row_and_clears_those_that_were_there() -> None:
    key = "hay-cart"
    found = json.loads(calc.sheet("order", texts_of(tiers__0__repeats="7"), f"look {json.dumps({'key': key, 'colours': ['Sage']})}"))
    sets = found["sets"]
    assert found["name"] == SCHEMES[key].name and found["clears"] == ["tiers.0.rows", "tiers.1.rows"] and found["picture"].startswith("<svg")
    assert found["told"][0] == "Lower: repeats and joints are chosen again." and all(found["told"])
    for tier in ("tiers.0", "tiers.1"):
        assert (sets[f"{tier}.cutter"], sets[f"{tier}.joints_below"]) == ("", "")
        numbers = sorted({int(name.split(".")[3]) for name in sets if name.startswith(f"{tier}.rows.")})
        assert numbers == list(range(len(numbers))) and numbers
        for number in numbers:
            fields = {name.rsplit(".", 1)[1] for name in sets if name.startswith(f"{tier}.rows.{number}.")}
            assert fields == {"kind", "place", "tip", "colour", "second", "drop", "below", "layers", "per_joint"}
    free = {name: text for name, text in texts_of().items() if ".rows." not in name}
    assert answered(free | sets).figures["portions"]["value"] == 37
    for wish in ("", "{", "[]", '{"key": "no such look"}', '{"own": 3, "name": "x"}'):
        with pytest.raises(Problem, match="There is no such look"):
            calc.sheet("order", texts_of(), f"look {wish}")


# --- plans and lists to tick off -----------------------------------------------------------------------------------------------------------


def ticks(blocks: Any) -> list[tuple[str, bool]]:
    return [(block.title, block.tick) for block in blocks if isinstance(block, Table)]


def test_the_timetable_of_an_order_is_ticked_off_and_warns_of_what_concerns_time() -> None:
    made = sheet("timetable")
    assert ticks(made.blocks) == [("Timetable", True), ("Out of the fridge", False)] and made.under == f"Ready at {DAY}"
    warned = paragraphs(made.blocks)["Cautions"]
    of_time = [one["text"] for one in answered(texts_of()).cautions if one.get("section") == "time"]
    assert warned.boxed and list(warned.paragraphs) == of_time and any(isinstance(block, Picture) for block in made.blocks)
    assert {block.scaled for block in made.blocks if isinstance(block, Picture)} == {False}
    assert len(of_time) < len(answered(texts_of()).cautions)


def test_the_plan_of_a_class_has_what_is_laid_out_to_tick() -> None:
    plan: Any = calc.sheet("lesson", {"starts": "2027-10-16 14:00"}, "lesson-plan")
    assert [title.split(",")[0] for title, tick in ticks(plan) if tick] == ["Kits", "On each table", "At the front"]
    assert len(ticks(plan)) == 8 and "Cautions" in paragraphs(plan)
    bought: Any = calc.sheet("lesson", {}, "shopping-list")
    assert [tick for _, tick in ticks(bought)] == [False, True] and "Cautions" not in paragraphs(bought)


def test_the_list_for_the_shop_leaves_out_what_is_at_hand() -> None:
    made = sheet("shopping-list")
    assert all(tick for _, tick in ticks(made.blocks)) and [title for title, _ in ticks(made.blocks)] == [
        *("For the buttercream", "Sponges", "Colours and what thins the buttercream", "Boards, dowels and boxes", "Bags, tips and paper"),
    ]
    assert all(len(block.shares) == 3 and sum(block.shares) == 100 for block in tables(made))
    (told,) = paragraphs(made.blocks)[""].paragraphs
    assert told.startswith("Allergens in the buttercream: eggs, milk.") and paragraphs(made.blocks)[""].boxed
    typed = asked(tips="petal 11 mm, leaf 6 mm")
    tools = [row[0] for row in tables(order_sheets._makers(typed, plan_of(typed), "A4")["shopping-list"]())[-1].rows]
    assert "Tip, petal 11 mm" not in tools and "Tip, round 4 mm" in tools


def test_a_sheet_is_set_in_the_largest_type_that_takes_one_page(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of 5, 4 and 3 mm the first that fits; the smallest where none does."""
    tried: list[float] = []
    fits = [0.0]

    def written(name: str, title: str, blocks: Any, heading: Any, paper: str, under: str, size: float, columns: int) -> Any:
        tried.append(size)
        return SimpleNamespace(size=size, columns=columns, pages=(None,) * (1 if size < fits[0] else 2))

    monkeypatch.setattr(order_cards, "written_sheet", written)
    for fits[0], sizes in ((6.0, [5.0]), (4.5, [5.0, 4.0]), (1.0, [5.0, 4.0, 3.0])):
        tried.clear()
        made: Any = order_cards.one_page("bag-card", [], Heading(), "A4", (5.0, 4.0, 3.0))
        assert tried == sizes and (made.size, made.columns) == (sizes[-1], 1)


def test_allergens_are_told_by_one_law_or_by_both() -> None:
    """Milk and eggs are named in either; wheat in the US is cereals containing gluten in the EU and UK."""
    assert order_cards.allergens_told(planned(), SAY)[0] == "In the buttercream: eggs, milk."
    both = order_cards.allergens_told(planned(recipe="flour_cooked"), SAY)[0]
    assert (
        both == "In the buttercream: cereals containing gluten, milk (of the fourteen in the EU and UK); milk, wheat (of the nine named in the US)."
    )


def test_each_section_of_an_order_has_its_cautions() -> None:
    found: dict[str, list[str]] = {}
    for one in answered(texts_of()).cautions:
        found.setdefault(one["section"], []).append(one["text"])
    assert set(found) == {"portions", "amounts", "shopping", "time", "price"}
    assert found["amounts"] == [words for words, _ in COLOUR_CAUTIONS] and found["shopping"][0].startswith("Allergens in the buttercream: ")
    for slug, typed in (("colours", {"rows.0.colour": "cream", "rows.0.mass": "80 g"}), ("tint", {})):
        assert [one["text"] for one in calc.compute(slug, typed).cautions] == found["amounts"], slug
    for recipe, is_told in (("swiss_meringue", True), ("plain", False)):
        cautions = calc.compute("batch", {"recipe": recipe}).cautions
        assert any("pasteurised" in one["text"] for one in cautions) is is_told, recipe
