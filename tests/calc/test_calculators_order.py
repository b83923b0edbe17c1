"""What an order says of a cake of two tiers, worked out by hand: the answer, the sheets, the bench, the quotation, the list for the shop.

The cake is 20 and 15 cm, both 10 cm high: swags and a base of shells on the lower tier, beads and pairs of leaves on the upper one. Coated they are
21 and 16 cm wide, 66 and 50.3 cm round. With a cutter of 7.5 cm nine swags of 7.3 cm drop 3 cm; where nothing hangs, eight repeats are usual.
"""

from __future__ import annotations

import json
import math
from types import SimpleNamespace
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, order_answer, order_bench, order_cards, order_cures, order_sheets, order_shop
from calc.calculators.declare import Asked, parse
from calc.calculators.order_at_bench import _split, bench_tasks
from calc.calculators.order_bench import _holds, _step
from calc.calculators.order_cards import CARDS, allergens_told, before_cutting, one_page
from calc.calculators.order_cures import CLEARANCE_MM
from calc.calculators.order_form import _tip_at_hand, order_of, plan_of
from calc.calculators.order_quotation import _price_lines, _terms
from calc.calculators.order_schemes import row_texts
from calc.calculators.order_sheets import _circle_sizes, _tier_slugs
from calc.calculators.order_tiers import tiers_file
from calc.calculators.order_words import in_units, marking_table
from calc.drawing.paper import Heading, Paragraphs, Table, written_sheet
from calc.drawing.start_plan import start_plan
from calc.drawing.svg import svg
from calc.order import Plan
from calc.rows import KINDS, RowSpec
from calc.tips import Tip
from calc.units import Formatter, Problem

CAKE = {
    **{"tiers.0.name": "Lower", "tiers.0.width": "20 cm", "tiers.1.name": "Upper", "tiers.1.width": "15 cm", "cutters": "9 cm, 7.5 cm"},
    **{"tiers.0.rows.0.kind": "swag", "tiers.0.rows.1.kind": "shell", "tiers.0.rows.1.place": "base"},
    **{"tiers.1.rows.0.kind": "bead", "tiers.1.rows.0.place": "top edge"},
    **{"tiers.1.rows.1.kind": "leaf", "tiers.1.rows.1.place": "joints", "tiers.1.rows.1.per_joint": "2"},
}
ONE = {"tiers.0.name": "Cake", "tiers.0.width": "20 cm", "guests": "24"}


def asked(**changes: str) -> Asked:
    return parse(CALCULATORS["order"], CAKE | {name.replace("__", "."): text for name, text in changes.items()})


def planned(**changes: str) -> Plan:
    return plan_of(asked(**changes))


def answered(texts: dict[str, str]) -> Any:
    answer = calc.compute("order", texts)
    assert answer.problems == [], answer.problems
    return answer


def notes(answer: Any) -> str:
    return " ".join(note["text"] for note in answer.notes)


# --- the answer ----------------------------------------------------------------------------------------------------------------------------


def test_two_tiers_are_stacked_divided_separately_and_counted() -> None:
    """24 and 13 portions are 37, one more than 36."""
    answer = answered(CAKE)
    assert (answer.figures["portions"]["text"], answer.figures["spare_portions"]["text"], answer.figures["stacked"]["text"]) == ("37", "1", "at home")
    assert "Each tier is divided separately" in notes(answer) and "no value is known" not in notes(answer) and "short for" not in notes(answer)
    assert "Each tier is divided separately" not in notes(answered(CAKE | {"together": "yes"}))


@pytest.mark.parametrize("guests, words", [("38", "1 portion short for 38 guests"), ("39", "2 portions short for 39 guests")])
def test_portions_that_are_short_are_told(guests: str, words: str) -> None:
    assert words in notes(answered(CAKE | {"guests": guests}))


def test_one_tier_is_not_stacked() -> None:
    assert "stacked" not in answered(ONE).figures


def test_a_colour_that_nobody_knows_is_told() -> None:
    told = notes(answered(CAKE | {"tiers.0.rows.0.colour": "gran's blue"}))
    assert "Gran's blue: no value is known for that name" in told


def test_a_step_that_is_hard_to_reach_is_told_once_for_all_of_its_kind(monkeypatch: pytest.MonkeyPatch) -> None:
    words = "The shell of step 1 stands out 9 mm close by: come from below, with the tip almost flat to the side."
    monkeypatch.setattr(order_answer, "reach_texts", lambda cake, say: {2: words, 4: words})
    assert "Steps 2 and 4: the shell piped before it stands out 9 mm close by" in notes(answered(CAKE))


# --- what was typed, as an order ----------------------------------------------------------------------------------------------------------


def test_cutters_are_kept_in_their_order_and_once() -> None:
    assert order_of(asked(cutters="9 cm, 7.5 cm, 9 cm")).cutters_mm == (90.0, 75.0) and order_of(asked(cutters="")).cutters_mm == ()


def test_tiers_are_fitted_to_one_another_where_that_is_chosen() -> None:
    assert not order_of(asked()).together and order_of(asked(together="yes")).together


def test_a_row_has_one_piece_at_a_joint_unless_more_are_typed() -> None:
    rows = [row for tier in order_of(asked()).tiers for row in tier.rows]
    assert [row.per_joint for row in rows] == [1, 1, 1, 2] and [row.layers for row in rows] == [1, 1, 1, 1]


def test_a_row_takes_the_nearest_of_the_tips_at_hand() -> None:
    """A swag on 10 cm begins with a petal of 11 mm: from 5.5 to 22 mm suit it, of which the nearest is taken, its own family first."""
    swag = KINDS["swag"]
    at_hand = [Tip("petal", 6), Tip("petal", 10), Tip("petal", 13)]
    assert _tip_at_hand(swag, 100.0, at_hand) == Tip("petal", 10)
    assert _tip_at_hand(swag, 100.0, [Tip("petal", 5.5)]) == Tip("petal", 5.5)
    assert _tip_at_hand(swag, 100.0, [Tip("petal", 5)]) == _tip_at_hand(swag, 100.0, []) == Tip("petal", 11)


def test_a_look_writes_every_field_of_its_rows() -> None:
    once, twice = (
        RowSpec("leaf", Tip("leaf", 6), place="joints", colour="bay", per_joint=2),
        RowSpec("string", Tip("round", 2), colour="bay", layers=2),
    )
    texts = row_texts([once, twice], Formatter())
    assert [(text["layers"], text["per_joint"]) for text in texts] == [("", "2"), ("2", "")]


# --- marking and the bench ----------------------------------------------------------------------------------------------------------------


def test_the_marking_table_names_a_cutter_only_where_it_marks() -> None:
    """Seven swags of 9.4 cm would leave gaps of 4.2 mm with the 9 cm cutter: that is marked from a strip."""
    lines = marking_table(planned(), Formatter())[1]
    assert lines == (("Lower", "66 cm", "9", "7.2 cm", "1.2 cm", "7.5 cm", "3 cm"), ("Upper", "50.3 cm", "8", "6.1 cm", "1.2 cm", "none", ""))
    assert marking_table(planned(tiers__0__repeats="7", tiers__0__cutter="9 cm"), Formatter())[1][0][5] == "none"


def test_notes_are_told_in_the_readers_units() -> None:
    assert (
        in_units("leave 25.4 mm free", Formatter("us")) == "leave 1 in free" and in_units("leave 25.4 mm free", Formatter()) == "leave 25.4 mm free"
    )
    assert in_units("an opening of 25.4 mm", Formatter("us")) == "an opening of 25.4 mm"


def test_the_numbers_of_the_bench_sheet_stand_beside_their_rows() -> None:
    """Half the width less 12 % where something hangs, else 4 %: 105 mm become 92.4 and 100.8, 80 become 76.8. In height the swag's stands 12 mm and
    six tenths of its drop, 29.57, below the upper edge of 105; the shells' at the foot; the upper tier's edge is at 210, its joints 12 below."""
    cake = planned()
    found = [_step(cake, step, "A", "", Formatter()) for step in cake.steps]
    assert [step.title for step in found] == [
        "Lower: 9 swags, joints 1.2 cm down",
        "Upper: 88 beads on the top edge",
        "Lower: 63 shells round the base",
        "Upper: 16 leaves at every joint, 1.2 cm down",
    ]
    assert [step.at for step in found] == [
        pytest.approx((92.4, -105 + 12 + 0.6 * 29.5699), abs=1e-3),
        pytest.approx((76.8, -210.0)),
        pytest.approx((100.8, 0.0)),
        pytest.approx((76.8, -198.0)),
    ]


def test_the_cake_on_the_bench_sheet_stands_on_its_board(monkeypatch: pytest.MonkeyPatch) -> None:
    """The board under the lowest tier shows 5 cm round its 21 cm."""
    monkeypatch.setattr(order_bench, "bench_sheet", lambda steps, bags, holds, tiers, drawn, heading, paper: drawn)
    drawn: Any = order_bench.bench(planned(), Heading(), "A4", (), "metric")
    assert drawn.width_mm >= 310.0


def test_each_bag_is_held_as_its_own_row_wants() -> None:
    cake = planned()
    letters = {(bag.colour, bag.tip): letter for bag, letter in zip(cake.bags.bags, "ABCD", strict=True)}
    assert [(hold.bags, hold.lines) for hold in _holds(cake, letters)][0] == (
        "A",
        ("45° to the side: squeeze at the joint, sweep at one speed, ease off and touch",),
    )
    assert [hold.bags for hold in _holds(cake, letters)] == ["A", "B", "C", "D"] and len({hold.lines for hold in _holds(cake, letters)}) == 4


def test_the_work_at_the_bench_says_what_each_task_needs() -> None:
    cake, typed = planned(), asked()
    tasks = {task.key: task for task in bench_tasks(cake, typed, ())}
    assert dict(tasks["tint"].facts) == {"ivory": "851 g", "plain": "598 g", "cream": "160 g"}
    assert dict(tasks["boards"].facts) == {"Lower": "board 31 cm, 4 dowels of 10.5 cm", "Upper": "board 16 cm"}
    assert dict(tasks["stack"].facts) == {"Upper": "up to 1.3 kg, one person"} and "The whole cake" in dict(tasks["pack"].facts)
    swags, leaves = tasks["row0"], tasks["row3"]
    assert [name for name, _ in swags.facts] == [
        "Bag",
        "Tip",
        "Hold it",
        "How many",
        "From one to the next",
        "Set the dividers to",
        "Set the tape to",
        "In all",
    ]
    assert dict(swags.facts)["How many"] == "9 swags" and dict(leaves.facts)["How many"] == "16 leaves"
    bags = [fact for task in tasks.values() if task.key.startswith("bags") for fact in task.facts]
    assert ("Bag A", "petal 11 mm, cream, 21 g in all") in bags  # one filling needs no word


def test_a_bag_that_is_filled_several_times_says_so() -> None:
    """Five layers of swags from a petal of 26 mm round 40 cm take over a kilogram, and a bag holds 300 g."""
    big = {"tiers__0__width": "40 cm", "tiers__0__rows__0__layers": "5", "tiers__0__rows__0__tip": "petal 26 mm"}
    cake = planned(**big)
    bag = next(bag for bag in cake.bags.bags if bag.tip == Tip("petal", 26))
    facts = dict(fact for task in bench_tasks(cake, asked(**big), ()) if task.key.startswith("bags") for fact in task.facts)
    assert bag.fills >= 4 and any(words.startswith("petal 26 mm, ") and words.endswith(f" in all, {bag.fills} fills") for words in facts.values())


def test_the_plan_of_a_row_shows_where_to_start() -> None:
    """A row on the side starts on the outline itself."""
    cake = planned()
    swags = next(task for task in bench_tasks(cake, asked(), ()) if task.key == "row0")
    tier = cake.tiers[0]
    joints = [s / tier.coats.finished.perimeter_mm for s in tier.joints.s_mm]
    assert swags.plan == svg(start_plan(tier.coats.finished, swags.look, 0.0, joints))


def test_the_key_of_a_task_says_its_kind_and_number() -> None:
    assert [_split(key) for key in ("row3", "row3.2", "tint", "buttercream", "what else")] == [
        ("row", 3),
        ("row", 3),
        ("tint", 0),
        ("buttercream", 0),
        ("what else", 0),
    ]


# --- what mends a row ---------------------------------------------------------------------------------------------------------------------


def test_a_length_that_is_offered_is_no_more_than_there_is_room_for() -> None:
    """33 mm are 1.3 in, ten eighths and a bit: 1 1/4 in. In millimetres the whole ones count."""
    assert order_cures._written(33.0, Formatter("us")) == "1.25 in" and order_cures._written(33.9, Formatter()) == "33 mm"


def test_a_row_over_another_hangs_as_deep_as_that_unless_it_has_a_drop_of_its_own() -> None:
    over = {
        "tiers__0__rows__1__kind": "swag",
        "tiers__0__rows__1__place": "over",
        "tiers__0__rows__2__kind": "string",
        "tiers__0__rows__2__place": "under",
    }
    tier = planned(**over).tiers[0]
    assert [order_cures._drops_by(tier, row) for row in tier.rows] == [tier.rows[0]] * 3
    own = planned(**over, tiers__0__rows__2__drop="5 cm").tiers[0]
    assert [order_cures._drops_by(own, row) for row in own.rows] == [own.rows[0], own.rows[0], own.rows[2]]


def test_a_row_that_is_moved_down_is_named_by_its_number() -> None:
    """Beads 4 cm down that overlap by 5 mm go down by that and what is kept clear between rows, to the whole millimetre."""
    tier = planned(tiers__0__rows__1__kind="bead", tiers__0__rows__1__place="side", tiers__0__rows__1__below="4 cm").tiers[0]
    (press,) = order_cures._lower(tier.rows[1], 1, 5.0, tier, Formatter())
    wanted = math.ceil(40.0 + 5.0 + CLEARANCE_MM)
    assert (str(press), press.done) == (f"Move it down to {wanted} mm", f"Row 2 stands {wanted} mm below the top edge.")
    assert dict(press.sets) == {"tiers.0.rows.1.below": f"{wanted} mm"}


# --- cards ---------------------------------------------------------------------------------------------------------------------------------


def test_a_sheet_has_its_own_title_or_that_of_its_card() -> None:
    assert one_page("bag-card", [], Heading(), "A4", (3.6,)).title == CARDS["bag-card"]
    assert one_page("shopping-list", [], Heading(), "A4", (3.6,), "", "Shopping list").title == "Shopping list"


def test_allergens_are_told_in_the_words_of_the_readers_law() -> None:
    assert allergens_told(planned(), Formatter())[0].startswith("In the buttercream: eggs, milk")
    assert allergens_told(planned(), Formatter("us"))[0].startswith("In the buttercream: milk, eggs")


def test_the_work_at_the_venue_tells_the_weight_of_the_whole_cake() -> None:
    """2.24 kg below and 1.30 kg above are 3.55 kg at most; stacked there, the lower tier is set down alone."""
    told = order_cards._set_up(planned(), Formatter())
    assert told[1] == "Set the cake down, its front to the room: up to 3.55 kg, one person, hands under the board."
    apart = order_cards._set_up(planned(stacked="venue"), Formatter())
    assert apart[1] == "Set Lower down, its front to the room: up to 2.24 kg, one person, hands under the board."


def test_before_a_tier_is_cut_what_is_above_comes_off_and_its_dowels_out() -> None:
    cake, clear = planned(), "Take off what is not food: picks, wires, figures."
    assert before_cutting(cake, 0) == f"{clear} Lift off Upper first; then pull the 4 dowels out of Lower and count them; then cut."
    assert before_cutting(cake, 1) == f"{clear} Lift Upper off on its board, and cut it there; the dowels of the tier below come out after that."


def test_in_the_middle_of_three_what_stands_on_it_comes_off_first() -> None:
    three = planned(tiers__0__width="25 cm", tiers__1__width="20 cm", tiers__2__name="Top", tiers__2__width="15 cm")
    assert "Lift off Top first; then pull the 4 dowels out of Upper" in before_cutting(three, 1)
    assert "Lift off Upper first; then pull the 6 dowels out of Lower" in before_cutting(three, 0)  # 4, 1 for 20 cm, 1 for the second tier on them


@pytest.mark.parametrize("texts, title", [(CAKE, "Take it apart, and cut it"), (ONE, "Cut it")])
def test_the_page_for_whoever_serves_says_whether_there_is_something_to_take_apart(
    texts: dict[str, str], title: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(order_cards, "one_page", lambda name, blocks, *rest: blocks)
    typed = parse(CALCULATORS["order"], texts)
    blocks: Any = order_cards._serving(typed, plan_of(typed), Heading(), "A4", Formatter())
    assert title in [block.title for block in blocks if isinstance(block, Paragraphs)]


# --- sheets --------------------------------------------------------------------------------------------------------------------------------


def test_tiers_of_one_name_are_numbered_in_the_names_of_their_sheets() -> None:
    assert _tier_slugs(planned()) == ("lower", "upper")
    assert _tier_slugs(planned(tiers__0__name="Tier", tiers__1__name="Tier")) == ("tier-1", "tier-2")


def test_circles_are_those_on_which_swags_lie() -> None:
    """With the 7.5 cm cutter, that; without one, r = (w2 / 4 + d2) / 2 d for nine of 73.3 mm that drop 25: 39.4 mm, 78.7 across. Strings and scrolls
    lie on none."""
    assert _circle_sizes(planned()) == {(75.0, 73.3): ["Lower, 9 swags"]}
    free = {"cutters": "", "tiers__0__rows__0__drop": "2.5 cm", "tiers__0__repeats": "9"}
    assert _circle_sizes(planned(**free)) == {(78.7, 73.3): ["Lower, 9 swags"]}
    assert _circle_sizes(planned(tiers__0__rows__0__kind="string")) == {}
    both = planned(tiers__0__rows__1__kind="swag", tiers__0__rows__1__place="side", tiers__0__rows__1__drop="2.2 cm", tiers__0__rows__1__below="6 cm")
    w, d = both.tiers[0].division.width_mm, 22.0
    assert both.tiers[0].by_cutter and set(_circle_sizes(both)) == {(75.0, round(w, 1)), (round((w * w / 4 + d * d) / d, 1), round(w, 1))}


def test_the_job_begins_with_what_is_on_which_page(monkeypatch: pytest.MonkeyPatch) -> None:
    """One page of contents, then a sheet of one page and one of one: three in all."""
    told: list[tuple[Any, str]] = []

    def noted(name: str, title: str, blocks: Any, heading: Heading, paper: str, under: str = "", *rest: Any) -> Any:
        told.append((blocks[0], under))
        return written_sheet(name, title, blocks, heading, paper, under, *rest)

    small = {
        name: (lambda name=name: written_sheet(name, CARDS[name], [Paragraphs("", ("Words.",))], Heading(), "A4"))
        for name in ("bag-card", "box-label")
    }
    monkeypatch.setattr(order_sheets, "_makers", lambda typed, cake, paper: small)
    monkeypatch.setattr(order_sheets, "sheet_names", lambda cake: dict.fromkeys(small, ""))
    monkeypatch.setattr(order_sheets, "written_sheet", noted)
    assert order_sheets._job(asked(), planned(), "A4").startswith(b"%PDF")
    ((contents, under),) = told
    assert under == "3 pages. Print it at 100 %; then the strips and templates are to scale."
    assert isinstance(contents, Table) and [row[2] for row in contents.rows] == ["2", "3"] and contents.tick


# --- the quotation -------------------------------------------------------------------------------------------------------------------------


def test_a_price_with_tax_deposit_and_balance_by_hand() -> None:
    """A fifth on 100 is 120; a third less a bit in advance, 36, leaves 84. 37 portions at 3.24. Seven days before Saturday the 16th is the 9th."""
    typed = asked(quote__0__tax="20 %", quote__0__deposit="30 %")
    assert _price_lines(100.0, plan_of(typed), typed["quote"][0], Formatter()) == (
        ("The cake, before tax", "100.00"),
        ("Tax, 20 %", "20.00"),
        ("To pay", "120.00"),
        ("For each portion", "3.24"),
        ("Deposit, 30 %, to hold the date", "36.00"),
        ("Balance, by Sat 9 October 2027", "84.00"),
    )
    assert _price_lines(100.0, planned(), None, Formatter())[:2] == (("To pay", "100.00"), ("For each portion", "2.70"))


def test_terms_of_ones_own_come_last_and_only_where_there_are_any() -> None:
    own, none = asked(quote__0__terms="Cash only"), asked(quote__0__customer="A. N. Other")
    assert _terms(planned(), own["quote"][0])[-1] == "Cash only"
    for given in (none["quote"][0], None):
        assert _terms(planned(), given)[-1].startswith("Colours and shapes are piped by hand")


# --- the shop ------------------------------------------------------------------------------------------------------------------------------


def test_the_shopping_list_takes_off_what_is_there() -> None:
    """796 g of butter, of which 300 g are there; lots of it is no weight, and nothing is taken off for it."""
    cake, typed = planned(), asked()

    def butter(have: str) -> Any:
        return next(line for line in order_shop.shop_lines(cake, typed, {"butter, unsalted": have}) if line.key == "butter, unsalted")

    assert (butter("").buy, butter("300 g").buy) == ("796 g", "496 g")
    assert butter("lots").buy == "796 g" and butter("lots").need == pytest.approx(795.8, abs=0.05) and "does not read" in butter("lots").problem


def test_the_shopping_list_counts_boards_one_by_one() -> None:
    lines = {line.what: line for line in order_shop.shop_lines(planned(), asked(), {})}
    assert (lines["Cake board, 31 cm"].need, lines["Thin board, 16 cm"].need, lines["Cake board, 31 cm"].buy) == (1.0, 1.0, "1")


def test_the_shopping_sheet_has_a_table_for_each_group_that_has_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(order_shop, "one_page", lambda name, blocks, *rest: SimpleNamespace(pages=(None,), blocks=blocks))
    sheet: Any = order_shop.shop_sheet(planned(), asked(), "", Heading(), "A4")
    tables = [block for block in sheet.blocks if isinstance(block, Table)]
    assert tables and all(block.rows for block in tables)


# --- the tiers for other calculators -------------------------------------------------------------------------------------------------------


def test_the_tiers_of_an_order_fill_another_calculator() -> None:
    """Swags with a cutter take that and leave the drop to it; a row that does not hang brings no drop at all."""
    swags = json.loads(tiers_file(planned(), 'tiers for {"calculator": "swags", "units": "metric"}', CALCULATORS))[1]
    assert swags["words"] == "Lower: swags, petal 11 mm"
    assert {name: swags["sets"][name] for name in ("side", "cutter", "drop", "repeats")} == {
        "side": "66 cm",
        "cutter": "7.5 cm",
        "drop": "",
        "repeats": "9",
    }
    rows = json.loads(tiers_file(planned(), 'tiers for {"calculator": "row", "units": "metric"}', CALCULATORS))
    assert {row["sets"]["kind"]: row["sets"]["drop"] for row in rows} == {"bead": "", "leaf": "", "swag": "3 cm", "shell": ""}


def test_a_second_row_of_swags_brings_its_own_drop_and_no_cutter() -> None:
    lower = {"kind": "swag", "place": "side", "drop": "2.2 cm", "below": "6 cm"}
    cake = planned(**{f"tiers__0__rows__1__{name}": text for name, text in lower.items()})
    first, second = json.loads(tiers_file(cake, 'tiers for {"calculator": "swags", "units": "metric"}', CALCULATORS))[1:]
    assert (first["sets"]["cutter"], first["sets"]["drop"], first["sets"]["joints"]) == ("7.5 cm", "", "1.2 cm")
    assert (second["sets"]["cutter"], second["sets"]["drop"], second["sets"]["joints"]) == ("", "2.2 cm", "6 cm")


@pytest.mark.parametrize("wish", ["", "{", "[]", "3", '{"calculator": "nothing", "units": "metric"}'])
def test_what_is_no_wish_for_tiers_is_refused_in_words(wish: str) -> None:
    with pytest.raises(Problem, match="No tier fills that"):
        tiers_file(planned(), f"tiers for {wish}", CALCULATORS)
