"""What a cake costs and what the customer reads of it, line by line: the price, the quotation and the list for the shop, each beside its sum.

The order is that of test_calculators_order: swags and a base of shells on 20 cm, beads and pairs of leaves on 15 cm, 36 guests.
"""

from __future__ import annotations

import json
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

import calc
from calc.calculators import CALCULATORS, order_quotation, order_shop, price_form
from calc.calculators.declare import parse
from calc.calculators.order_drawings import tier_drawing
from calc.calculators.order_form import plan_of
from calc.calculators.order_quotation import _cake_words, _number, _price_lines, _rows_words, _terms, _tier_words, told_of
from calc.calculators.order_shop import ShopLine, _bought, _counted, had, shop_lines
from calc.calculators.price_form import cost_words
from calc.drawing.paper import Blanks, Heading, Paragraphs, Picture, Table
from calc.drawing.tilted import tilted_view
from calc.price import Item, shopping
from calc.units import Formatter, Problem
from tests.calc.test_calculators_order import CAKE, ONE, asked, planned
from tests.calc.test_calculators_sums import answered, rows

SAY = Formatter()
Typed = dict[str, str]

# --- a price -----------------------------------------------------------------------------------------------------------------------------

# 600 g of butter and a tenth to spare are 660, 100 of them there: three packs, 7.50, and 100 + 750 - 660 are left over. Of a pack 660 g are 6.60.
LIST: Typed = {
    **{"items.0.name": "butter", "items.0.mass": "600 g", "items.0.pack": "250 g", "items.0.pack_price": "2.50", "items.0.in_hand": "100 g"},
    **{"items.1.name": "water", "items.1.mass": "1 kg", "items.2.name": "salt", "items.2.mass": "5 g"},
    **{"items.3.name": "vanilla", "items.3.mass": "6 g", "items.3.pack": "100 g", "spare": "10 %"},
}
PRICED: Typed = {
    **{"ingredients": "10", "hours": "2 h", "rate": "20", "overhead": "10 %", "margin": "25 %", "portions": "20", "packaging": "4"},
    **{"delivery": "5", "tax": "20 %", "deposit": "30 %", "count": "used"},
    **{"tasks.0.name": "piping", "tasks.0.time": "1 h", "tasks.1.name": "baking", "tasks.1.time": "90 min"},
}


def told(answer: Any) -> list[str]:
    return [note["text"] for note in answer.notes]


def test_every_line_of_a_price_by_hand() -> None:
    """10 and 6.60; 2 h, 1 h and 1 1/2 h at 20 are 90; a tenth of 16.60 + 4 + 90 is 11.06; with 5 for delivery 126.66. Over three quarters that is
    168.88, a fifth of it 33.78; three tenths of 202.66 are 60.80. 90 and 42.22 in 4 1/2 hours are 29.38 an hour."""
    found = answered("price", PRICED | LIST)
    assert rows(found, "parts") == [
        ["Ingredients, without salt, vanilla: no pack price", "16.60"],
        ["Packaging", "4.00"],
        ["Labour, 4 h 30 min", "90.00"],
        ["Overhead, 10 %", "11.06"],
        ["Delivery", "5.00"],
        ["Cost", "126.66"],
        ["Profit", "42.22"],
        ["Price, before tax", "168.88"],
        ["Tax, 20 %", "33.78"],
        ["To pay", "202.66"],
        ["of that in advance, 30 %", "60.80"],
        ["and at the end", "141.86"],
    ]
    loud = {name: (figure["label"], figure["text"]) for name, figure in found.figures.items() if not figure.get("quiet")}
    assert loud == {
        "price": ("Price, before tax", "168.88"),
        "tax": ("Tax", "33.78"),
        "to_pay": ("To pay, tax included", "202.66"),
        "per_portion": ("For each portion", "10.13"),
        "cost": ("Cost", "126.66"),
        "deposit": ("Deposit", "60.80"),
        "earned_per_hour": ("Labour and profit for each hour", "29.38"),
    }
    quiet = {name: figure["text"] for name, figure in found.figures.items() if figure.get("quiet")}
    assert quiet == {
        **{"balance": "141.86", "cost_per_portion": "6.33", "ingredients": "16.60", "labour": "90.00", "overhead": "11.06", "profit": "42.22"},
        **{"margin": "25 %", "markup": "33.3 %", "hours": "4 h 30 min"},
    }
    assert found.figures["hours"]["value"] == 270 and found.figures["hours"]["unit"] == "min"
    assert rows(found, "hours") == [["piping", "1 h", "20.00"], ["baking", "1 h 30 min", "30.00"]]
    assert rows(found, "shopping") == [
        ["butter", "600 g", "3", "250 g", "7.50", "190 g"],
        ["water", "1 kg", "", "", "from the tap", "0 g"],
        ["salt", "5 g", "", "", "no price", "0 g"],
        ["vanilla", "6 g", "1", "100 g", "no price", "93 g"],
    ]
    assert told(found) == [
        "No pack price for salt; vanilla: they are not in the cost.",
        "A margin of 25 % on the price is a markup of 33.3 % on the cost.",
    ]
    assert [one["name"] for one in found.sheets] == ["shopping-list", "price"]
    assert [[column["align"][0] for column in table["columns"]] for table in found.tables] == [["l", "r"], ["l", "r", "r"], ["l", *"rrrrr"]]


def test_whole_packs_are_told_beside_what_goes_into_the_cake() -> None:
    """7.50 at the till, 6.60 of it in the cake: nine tenths dearer."""
    found = answered("price", PRICED | LIST | {"count": "packs"})
    assert "Whole packs cost 7.50; what goes into the cake is worth 6.60 of that. The price counts the packs." in told(found)
    assert found.figures["ingredients"]["text"] == "17.50"


@pytest.mark.parametrize(
    "needed, in_hand, is_told",
    [("994.8 g", "", True), ("996 g", "", False), ("1 kg", "", False), ("600 g", "600 g", False)],  # of 1 kg at 1.00, half a hundredth is 5 g
)
def test_a_difference_that_is_not_seen_in_money_is_not_told(needed: str, in_hand: str, is_told: bool) -> None:
    one = {"items.0.name": "sugar", "items.0.mass": needed, "items.0.pack": "1 kg", "items.0.pack_price": "1", "items.0.in_hand": in_hand}
    assert any(text.startswith("Whole packs cost") for text in told(answered("price", one))) is is_told


def test_a_price_without_tax_deposit_hours_or_a_list_says_nothing_of_them() -> None:
    """10 and 7 with 15 % on both are 19.55, over four fifths 24.44: 4.89 of profit."""
    found = answered("price", {"ingredients": "10", "hours": "0 h", "deposit": "0 %", "portions": "1"})
    assert rows(found, "parts") == [
        ["Ingredients", "10.00"],
        ["Packaging", "7.00"],
        ["Overhead, 15 %", "2.55"],
        ["Cost", "19.55"],
        ["Profit", "4.89"],
        ["Price, before tax", "24.44"],
        ["To pay", "24.44"],
        ["and at the end", "24.44"],
    ]
    assert [name for name, figure in found.figures.items() if not figure.get("quiet")] == ["price", "per_portion", "cost"]
    assert {name: found.figures[name]["label"] for name in ("tax", "to_pay", "deposit")} == {"tax": "Tax", "to_pay": "To pay", "deposit": "Deposit"}
    assert "earned_per_hour" not in found.figures and [one["name"] for one in found.tables] == ["parts"]
    assert [one["name"] for one in found.sheets] == ["price"]


def test_nothing_for_the_ingredients_is_still_told() -> None:
    """The four lines that make a price stand there even at nothing; packaging and what comes after do not."""
    found = answered("price", {"ingredients": "0", "hours": "0 h", "packaging": "", "deposit": "0 %"})
    assert rows(found, "parts") == [["Ingredients", "0.00"], ["Cost", "0.00"], ["Price, before tax", "0.00"], ["To pay", "0.00"]]


def test_an_hour_earns_its_rate_and_the_profit() -> None:
    """One minute at 14 an hour is 0.23 to the hundredth, which is 13.80 an hour: that is rounding, and nobody is told that the hour is paid badly."""
    found = answered("price", {"ingredients": "10", "hours": "1 min", "rate": "14", "margin": "0 %", "overhead": "0 %", "packaging": ""})
    assert found.figures["earned_per_hour"]["text"] == "13.80" and len(found.notes) == 1


@pytest.mark.parametrize("items, words", [("salt", "No pack price for salt: it is not in the cost."), ("salt sugar", "salt; sugar: they are not in")])
def test_one_thing_without_a_price_is_no_several(items: str, words: str) -> None:
    typed = {f"items.{i}.{name}": text for i, item in enumerate(items.split()) for name, text in (("name", item), ("mass", "5 g"))}
    assert any(words in text for text in told(answered("price", typed)))


@pytest.mark.parametrize(
    "margin_of, margin, words",
    [
        ("price", "95 %", ""),
        ("price", "95.1 %", "Margin must be 95 % of the price or less"),
        ("cost", "95.1 %", ""),
        ("cost", "500 %", ""),
    ],
)
def test_a_margin_ends_where_a_markup_goes_on(margin_of: str, margin: str, words: str) -> None:
    found = calc.compute("price", {"margin_of": margin_of, "margin": margin}).problems
    assert ([one["input"] for one in found] == ["margin"] and words in found[0]["message"]) if words else found == []


def test_what_a_line_costs_in_words() -> None:
    """Nothing at all is a price, too; water from a bottle is bought."""
    lines = shopping([
        Item("butter", 500, 250, 2.5), Item("ice", 500, 250, 0.0), Item("water", 500), Item("water", 500, 500), Item("salt", 5),
    ]).lines  # fmt: skip
    assert [cost_words(line, SAY) for line in lines] == ["5.00", "0.00", "from the tap", "no price", "no price"]


def test_a_price_on_paper_has_a_box_to_tick_on_the_list_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """The caution about selling food is no help in a shop; the list of hours goes with the price."""
    monkeypatch.setattr(price_form, "list_sheet", lambda *told: SimpleNamespace(pdf=lambda units: (told, units)))
    typed = parse(CALCULATORS["price"], PRICED | LIST)
    made: Any = price_form.draw_sheet(typed, "shopping-list", "Letter")
    (answer, name, title, tables, paper, ticked), units = made
    assert (name, title, tables, paper, ticked, units) == ("shopping-list", "Shopping list", ("shopping",), "Letter", ("shopping",), "metric")
    assert answer.cautions == []
    other: Any = price_form.draw_sheet(typed, "price", "A4")
    (answer, name, title, tables, paper, ticked), units = other
    assert (name, title, tables, len(answer.cautions)) == ("price", "Price", ("parts", "hours"), 1)


# --- a quotation, in words -------------------------------------------------------------------------------------------------------------------

GIVEN: Typed = {
    **{"quote__0__customer": "Ann", "quote__0__date": "1 May", "quote__0__number": "7", "quote__0__delivery": "The barn"},
    **{"maker__0__name": "Pat", "maker__0__telephone": "123", "maker__0__contact": "The mill"},
}


def told_to_customer(**changes: str) -> order_quotation.Told:
    typed = asked(**changes)
    return told_of(typed, plan_of(typed), Formatter(typed.units, currency=typed.currency))


def test_who_it_is_for_and_from_stands_at_the_head() -> None:
    ready = ("For the day, ready at:", "Sat 16 October 2027, 18:00")
    assert told_to_customer().head == (("For:", ""), ("From:", ""), ("Date, and number:", ""), ready, ("Where:", ""))
    assert told_to_customer(**GIVEN).head == (
        ("For:", "Ann"), ("From:", "Pat, 123, The mill"), ("Date, and number:", "1 May, 7"), ready, ("Where:", "The barn"),
    )  # fmt: skip
    some = dict(told_to_customer(quote__0__number="7", maker__0__contact="The mill").head)
    assert (some["From:"], some["Date, and number:"]) == ("The mill", "7")


def test_the_cake_in_words() -> None:
    """10.5 cm twice; 24 and 13 portions."""
    assert told_to_customer().cake == (
        "A cake of two tiers, round, ivory, in Swiss meringue buttercream, 21 cm high. For 36 guests: 37 portions of 2.5 cm x 5 cm.",
        "Lower: round, 21 cm across and 10.5 cm high, ivory; with swags in cream and shells round the base in cream.",
        "Upper: round, 16 cm across and 10.5 cm high, ivory; with beads along the top edge in cream and leaves round the side in cream.",
    )
    mixed = planned(
        keep_top="yes", tiers__0__bands="russet 2, blush 1, russet 1", tiers__1__striped="sage", tiers__1__shape="square", tiers__1__width="10 cm"
    )
    assert _cake_words(mixed, SAY) == (
        "A cake of two tiers, round and square, shaded from russet to blush and ivory striped with sage, in Swiss meringue buttercream, "
        "21 cm high. For 36 guests: 24 portions of 2.5 cm x 5 cm, Upper kept back for you."
    )
    one = plan_of(parse(CALCULATORS["order"], ONE | {"tiers.0.bands": "russet"}))
    assert _cake_words(one, SAY).startswith(
        "A cake of one tier, round, russet, in Swiss meringue buttercream, 10.5 cm high. For 24 guests: 24 portions"
    )
    assert _tier_words(one.tiers[0], SAY) == "Cake: round, 21 cm across and 10.5 cm high, russet; plain, without piping."


def test_numbers_are_words_up_to_ten() -> None:
    assert [_number(count) for count in (0, 1, 2, 9, 10, 11, 24)] == ["no", "one", "two", "nine", "ten", "11", "24"]


def words_of(**kinds: str) -> list[str]:
    """The rows of one tier, given as `r0_kind`, `r0_place` and so on."""
    typed = {"tiers.0.name": "A", "tiers.0.width": "20 cm", "guests": "20"}
    typed |= {f"tiers.0.rows.{name[1]}.{name[3:]}": text for name, text in kinds.items()}
    return _rows_words(plan_of(parse(CALCULATORS["order"], typed)).tiers[0].rows)


SWAG = {"r0_kind": "swag", "r0_place": "side"}


@pytest.mark.parametrize(
    "kinds, words",
    [
        (SWAG, ["swags in cream"]),
        (SWAG | {"r0_layers": "2"}, ["swags in two layers of cream"]),
        (SWAG | {"r0_second": "sage"}, ["swags in cream and sage"]),  # side by side in one bag
        (SWAG | {"r1_kind": "swag", "r1_place": "over", "r1_colour": "sage"}, ["swags in two layers of cream and sage"]),
        (SWAG | {"r1_kind": "swag", "r1_place": "under"}, ["swags in two layers of cream"]),
        (SWAG | {"r1_kind": "line", "r1_place": "over"}, ["swags in cream", "a line in cream"]),
        (SWAG | {"r1_kind": "leaf", "r1_place": "joints"}, ["swags in cream", "leaves where the swags meet in cream"]),
        (
            {
                "r0_kind": "shell",
                "r0_place": "base",
                "r1_kind": "shell",
                "r1_place": "top edge",
                "r2_kind": "shell",
                "r2_place": "base",
                "r2_colour": "bay",
            },
            ["shells round the base in cream and bay", "shells along the top edge in cream"],
        ),
        ({"r0_kind": "shell", "r0_place": "base", "r0_layers": "2"}, ["shells round the base in cream"]),  # nothing hangs
        ({"r0_kind": "line", "r0_place": "top"}, ["a line on the top in cream"]),
        ({"r0_kind": "ruched border", "r0_place": "inside"}, ["a ruched border inside the top edge in cream"]),
        ({"r0_kind": "bead", "r0_place": "side", "r0_below": "5 cm"}, ["beads in cream"]),
        ({"r0_kind": "rosette", "r0_place": "joints"}, ["rosettes round the side in cream"]),
    ],
)
def test_rows_as_a_customer_sees_them(kinds: Typed, words: list[str]) -> None:
    assert words_of(**kinds) == words


def test_one_piece_is_told_as_one() -> None:
    """A single rosette on a small top; of two rows of one kind one with several is enough."""
    typed = {"tiers.0.rows.0.kind": "rosette", "tiers.0.rows.0.place": "top", "tiers.0.rows.1.kind": "rosette", "tiers.0.rows.1.place": "top"}
    first, second = plan_of(parse(CALCULATORS["order"], ONE | typed)).tiers[0].rows

    def counted(row: Any, count: int) -> Any:
        return replace(row, comes_to=replace(row.amount, count=count))

    assert _rows_words([counted(first, 1)]) == ["a rosette on the top in cream"]
    assert _rows_words([counted(first, 2)]) == _rows_words([counted(first, 1), counted(second, 2)]) == ["rosettes on the top in cream"]


# --- a quotation, in money -------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "typed, lines",
    [
        (
            {},
            (
                ("To pay", "100.00"),
                ("For each portion", "2.70"),
                ("Deposit, 50 %, to hold the date", "50.00"),
                ("Balance, by Sat 9 October 2027", "50.00"),
            ),
        ),
        (
            {"tax": "7 %", "deposit": "0 %", "balance_days": "0"},
            (
                *(("The cake, before tax", "100.00"), ("Tax, 7 %", "7.00"), ("To pay", "107.00"), ("For each portion", "2.89")),
                *(("Deposit, 0 %, to hold the date", "0.00"), ("Balance, by Sat 16 October 2027", "107.00")),
            ),
        ),
        (
            {"round_up": "30", "deposit": "25 %", "balance_days": "16"},
            (
                ("To pay", "120.00"),
                ("For each portion", "3.24"),
                ("Deposit, 25 %, to hold the date", "30.00"),
                ("Balance, by Thu 30 September 2027", "90.00"),
            ),
        ),
    ],
)
def test_what_is_to_pay_and_when(typed: Typed, lines: tuple[tuple[str, str], ...]) -> None:
    """100 for 37 portions; rounded up to a multiple of 30 it is 120. The day is a Saturday, 16 October."""
    given = asked(quote__0__customer="Ann", **{f"quote__0__{name}": text for name, text in typed.items()})["quote"][0]
    assert _price_lines(100.0, planned(), given, SAY) == lines


def test_the_day_of_the_balance_is_told_without_its_hour() -> None:
    """In the US a date has commas of its own, which stay."""
    given = asked(quote__0__customer="Ann")["quote"][0]
    labels = [_price_lines(100.0, planned(), given, say)[-1][0] for say in (SAY, Formatter("us"))]
    assert labels == ["Balance, by Sat 9 October 2027", "Balance, by Sat, October 9, 2027"]


def test_without_terms_the_deposit_is_a_blank() -> None:
    cake = planned()
    assert _price_lines(100.0, cake, None, SAY)[2:] == (("Deposit, and when it is due", ""), ("Balance, and when it is due", ""))
    assert _price_lines(100.0, replace(cake, portions=1), None, SAY)[1] == ("For each portion", "100.00")
    assert _price_lines(100.0, replace(cake, portions=0), None, SAY)[1] == ("For each portion", "100.00")  # a slice wider than the cake


def test_the_price_of_a_quotation_is_that_of_the_order() -> None:
    typed = asked(rate="30", margin="40 %")
    price = answered("order", CAKE | {"rate": "30", "margin": "40 %"}).figures["price"]
    assert dict(told_of(typed, plan_of(typed), SAY).price)["To pay"] == price["text"]


def test_the_terms_by_hand() -> None:
    """Four dowels carry the upper tier; a board lies under each."""
    given = asked(quote__0__valid_days="21", quote__0__terms="Cash only.")["quote"][0]
    assert _terms(planned(), given) == (
        "This price holds for 21 days from its date. The date is held once the deposit is paid.",
        "Buttercream softens in the warm: the cake is kept cold until shortly before it is served, out of the sun.",
        "In the cake are 4 dowels and 2 boards, which are not food; a page for whoever serves it comes with it.",
        "Colours and shapes are piped by hand and will be close to the picture, but not exactly the same.",
        "Cash only.",
    )
    bare = _terms(plan_of(parse(CALCULATORS["order"], ONE)), None)
    assert bare[0] == "This price holds until: ____________________ The date is held once the deposit is paid."
    assert len(bare) == 3 and not any("dowel" in text for text in bare)


# --- a quotation, on paper and as a file -----------------------------------------------------------------------------------------------------


def drawn_quotation(monkeypatch: pytest.MonkeyPatch, pages: int, **changes: str) -> tuple[Any, list[tuple[float, ...]]]:
    sizes: list[tuple[float, ...]] = []

    def one_page(name: str, blocks: Any, heading: Any, paper: str, sizes_mm: tuple[float, ...]) -> Any:
        sizes.append(sizes_mm)
        return SimpleNamespace(name=name, blocks=blocks, pages=(None,) * pages)

    monkeypatch.setattr(order_quotation, "one_page", one_page)
    monkeypatch.setattr(
        order_quotation, "written_sheet", lambda name, title, blocks, *rest: SimpleNamespace(name=name, title=title, blocks=blocks, rest=rest)
    )
    typed = asked(**changes)
    return order_quotation.quotation(typed, plan_of(typed), Heading(), "A4", ()), sizes


def test_a_quotation_has_its_parts_in_order_and_room_to_sign(monkeypatch: pytest.MonkeyPatch) -> None:
    made, sizes = drawn_quotation(monkeypatch, 1, quote__0__in_sponge="wheat")
    assert sizes == [tuple(sorted(sizes[0], reverse=True))] and sizes[0][0] <= 3.6 and sizes[0][-1] >= 3.0  # read at arm's length
    assert [block.title for block in made.blocks] == ["", "Your cake", "Price", "Terms", "Allergens", "", "Agreed"]
    head, cake, price, terms, allergens, blanks, agreed = made.blocks
    assert isinstance(head, Blanks) and head.beside == tilted_view(tuple(tier_drawing(tier, ()) for tier in planned().tiers), 310.0)  # on its board
    assert isinstance(price, Table) and price.columns == ("", "") and price.numeric == (1,) and not price.tick
    assert isinstance(allergens, Paragraphs) and allergens.boxed and not cake.boxed and not terms.boxed
    # a heading stays with three or four of its paragraphs, and the box of allergens with its three blanks
    assert 33 <= terms.keep_mm <= 38 and 55 <= allergens.keep_mm <= 65
    assert dict(blanks.lines)["In the sponge:"] == "wheat" and agreed.lines == (("Customer, date, signature:", ""), ("Maker, date, signature:", ""))


def test_a_quotation_that_takes_two_pages_has_its_picture_under_its_head(monkeypatch: pytest.MonkeyPatch) -> None:
    made, _ = drawn_quotation(monkeypatch, 2)
    head, picture, *rest = made.blocks
    assert made.title == "Quotation" and head.beside is None and isinstance(picture, Picture)
    assert not picture.scaled and 65 <= picture.height_mm <= 75 and [block.title for block in rest][0] == "Your cake"


def test_words_of_other_languages_stay_as_they_were_typed() -> None:
    """In the file for the customer and in the list for the shop, which are read by the page as they are."""
    typed = asked(name="Fête", tiers__0__name="Étage")
    cake = plan_of(typed)
    for made in (order_quotation.quotation_file(typed, cake), order_shop.shop_file(cake, typed, "to-the-shop")):
        assert "Fête".encode() in made and "Étage".encode() in made and b"\\u00ea" not in made


def quoted_file(**changes: str) -> Any:
    typed = asked(**changes)
    return json.loads(order_quotation.quotation_file(typed, plan_of(typed)))


def test_the_file_of_a_quotation_says_what_is_known_and_whom_to_ask() -> None:
    made = quoted_file()
    assert made["told"]["version"] == 1 and made["told"]["title"] == "A cake" and made["drawing"].startswith("<svg")
    head, cake, price, terms, allergens = made["told"]["parts"]
    assert [part["h"] for part in made["told"]["parts"]] == ["", "Your cake", "Price", "Terms", "Allergens"]
    assert (
        head["rows"] == [["For the day, ready at", "Sat 16 October 2027, 18:00"]]
        and (head["p"], cake["rows"], price["p"], terms["rows"]) == ([],) * 4
    )
    assert cake["p"][0].startswith("A cake of two tiers, ") and len(cake["p"]) == 3
    assert [row[0] for row in price["rows"]] == ["To pay", "For each portion", "Deposit, and when it is due", "Balance, and when it is due"]
    assert [row[1] for row in price["rows"]][2:] == ["to be agreed"] * 2 and price["rows"][0][1] != "to be agreed"
    assert terms["p"][0] == "This price holds until: ask the maker. The date is held once the deposit is paid."
    assert allergens["rows"][0] == ["In the sponge", "ask the maker"] and allergens["p"][0] == "In the buttercream: eggs, milk."


def test_the_file_of_a_quotation_tells_date_and_number_apart() -> None:
    made = quoted_file(**GIVEN, quote__0__in_fillings="nuts")
    head = made["told"]["parts"][0]["rows"]
    assert head == [
        ["Date", "1 May"],
        ["Number", "7"],
        ["For", "Ann"],
        ["From", "Pat, 123, The mill"],
        ["For the day, ready at", "Sat 16 October 2027, 18:00"],
        ["Where", "The barn"],
    ]
    assert made["told"]["parts"][4]["rows"][1] == ["In the fillings", "nuts"]
    assert "ask the maker" not in json.dumps(made["told"]["parts"][3])


def test_a_quotation_draws_the_cake_of_the_answer_in_colours_of_ones_own() -> None:
    own = {"colours__0__name": "Moss", "colours__0__look": "#123456", "tiers__0__colour": "moss"}
    texts = CAKE | {name.replace("__", "."): text for name, text in own.items()}
    (drawing,) = [one for one in answered("order", texts).drawings if one["name"] == "tilted"]
    made = quoted_file(**own)["drawing"]
    assert made == drawing["svg"] and made not in (quoted_file(**own | {"colours__0__look": "#fedcba"})["drawing"], quoted_file()["drawing"])


# --- the list for the shop -------------------------------------------------------------------------------------------------------------------


def shop(have: dict[str, str] | None = None, **changes: str) -> dict[str, ShopLine]:
    typed = asked(**changes)
    return {line.key: line for line in shop_lines(plan_of(typed), typed, have or {})}


BUTTER = "butter, unsalted"
PACK = {"packs__0__name": "butter", "packs__0__mass": "250 g", "packs__0__price": "2.50"}


def test_an_ingredient_is_bought_by_weight_or_in_packs() -> None:
    """796 g of butter are four packs of 250 g, 10.00; with 600 g of it there one is enough, and with 800 g none."""
    plain, packed, one, there = shop()[BUTTER], shop(**PACK)[BUTTER], shop({BUTTER: "600 g"}, **PACK)[BUTTER], shop({BUTTER: "800 g"}, **PACK)[BUTTER]
    assert (plain.what, plain.group, plain.buy, plain.use) == ("Butter, unsalted", "For the buttercream", "796 g", "796 g needed, no price")
    assert (packed.buy, packed.use, packed.need, packed.reads) == ("4 of 250 g", "796 g needed, costs 10.00", 1000.0, "mass")
    assert (one.buy, one.use, one.need, one.have) == ("1 of 250 g", "796 g needed, costs 2.50", 250.0, "600 g")
    assert (there.buy, there.use, there.need) == ("at hand", "796 g needed", 0.0)
    assert plain.need == pytest.approx(795.8, abs=0.1) and plain.problem == ""


def test_a_pack_without_a_price_is_still_a_pack() -> None:
    """Three packs of 250 g; in pounds the weight is written so, and the money in the maker's own."""
    (line,) = shopping([Item("butter", 600, 250)]).lines
    assert _bought(line, "", "", SAY).buy == "3 of 250 g" and _bought(line, "", "", SAY).use == "600 g needed, no price"
    assert _bought(line, "", "", SAY).need == 750.0
    (priced,) = shopping([Item("butter", 600, 250, 2.5)]).lines
    assert _bought(priced, "", "", Formatter(currency="£")).use == "600 g needed, costs £7.50"
    (water,) = shopping([Item("water", 600)]).lines
    assert _bought(water, "", "", SAY).use == "600 g needed, from the tap" and _bought(water, "", "", SAY).need == 600.0


@pytest.mark.parametrize(
    "have, owned, buy, need",
    [
        ("", 0, "6", 6.0), ("1", 0, "5 more", 5.0), ("5", 0, "1 more", 1.0), ("6", 0, "at hand", 0.0), ("9", 0, "at hand", 0.0),
        ("", 2, "4 more", 4.0), ("0", 2, "6", 6.0), ("3", 2, "3 more", 3.0), ("lots", 2, "6", 6.0),
    ],
)  # fmt: skip
def test_pieces_are_counted_down_by_what_is_there(have: str, owned: int, buy: str, need: float) -> None:
    """What is typed counts before what is owned, 0 too."""
    line = order_shop.Line("Tip", "6", "for the swags", "Bags, tips and paper", "tip", 6)
    found = _counted(line, have, owned, "metric")
    assert (found.buy, found.need, found.reads, found.have, bool(found.problem)) == (buy, need, "count", have, have == "lots")


def test_what_cannot_be_counted_is_ticked_as_a_whole() -> None:
    line = order_shop.Line("Paper", "a roll", "for labels", "Bags, tips and paper", "paper")
    assert _counted(line, "3", 3, "metric") == ShopLine("paper", "Bags, tips and paper", "Paper", "a roll", "for labels")


def test_tips_that_are_owned_are_at_hand_each_as_often_as_it_is_owned() -> None:
    """Two colours through one tip want it twice."""
    two = {"tiers__0__rows__2__kind": "shell", "tiers__0__rows__2__place": "top", "tiers__0__rows__2__colour": "sage"}
    star, leaf = "tip-open star 7 mm", "tip-leaf 6 mm"
    once = shop(**two, tips="open star 7 mm")
    assert (once[star].buy, once[leaf].buy) == ("1 more", "1")
    twice = shop(**two, tips="open star 7 mm, leaf 6 mm, open star 7 mm")
    assert (twice[star].buy, twice[leaf].buy) == ("at hand", "at hand")
    assert shop({star: "1"}, **two, tips="open star 7 mm, open star 7 mm")[star].buy == "1 more"


def test_what_is_at_hand_comes_with_the_name_of_the_list() -> None:
    assert had("to-the-shop") == {} == had("to-the-shop:") and had('to-the-shop:{"butter": "300 g", "bags": "2"}') == {"butter": "300 g", "bags": "2"}
    assert had(f"to-the-shop:{json.dumps({'a': 'x' * 40})}") == {"a": "x" * 40}
    assert len(had(f"to-the-shop:{json.dumps({str(i): '1' for i in range(300)})}")) == 300
    deep = "[" * 100_000
    for wrong in ("{", "[]", '"a"', deep, '{"a": 3}', json.dumps({"a": "x" * 41}), json.dumps({str(i): "1" for i in range(301)})):
        with pytest.raises(Problem, match="each up to 40 characters") as found:
            had(f"to-the-shop:{wrong}")
        assert found.value.input == "have"


@pytest.mark.parametrize("have, problem", [("200 kg", False), ("201 kg", True), ("0 g", False), ("-1 g", True), ("", False)])
def test_how_much_there_can_be(have: str, problem: bool) -> None:
    assert bool(shop({BUTTER: have})[BUTTER].problem) is problem


@pytest.mark.parametrize("have, problem", [("1000", False), ("1001", True), ("0", False), ("2.5", True)])
def test_how_many_there_can_be(have: str, problem: bool) -> None:
    assert bool(shop({"bags": have})["bags"].problem) is problem


def test_the_list_as_a_file_is_grouped_as_one_walks_through_the_shop() -> None:
    typed = asked()
    made = json.loads(order_shop.shop_file(plan_of(typed), typed, f"to-the-shop:{json.dumps({BUTTER: '1 kg', 'bags': '2'})}"))
    assert made["title"] == "A cake" and [group["title"] for group in made["groups"]] == [
        *("For the buttercream", "Sponges", "Colours and what thins the buttercream", "Boards, dowels and boxes", "Bags, tips and paper"),
    ]
    lines = {line["key"]: line for group in made["groups"] for line in group["lines"]}
    assert list(lines) == list(shop()) and lines["egg white"]["need"] == 289.383  # to the thousandth
    assert (lines[BUTTER]["isThere"], lines[BUTTER]["buy"], lines["bags"]["isThere"], lines["bags"]["buy"]) == (True, "at hand", False, "4 more")
    assert lines["bags"] == {
        **{"key": "bags", "what": "Piping bags", "buy": "4 more", "use": "one for each colour and tip", "need": 4.0, "reads": "count"},
        **{"have": "2", "problem": "", "isThere": False},
    }
    plain = {"tiers__0__colour": "plain", "tiers__1__colour": "plain", **{f"tiers__{i}__rows__{j}__colour": "plain" for i in (0, 1) for j in (0, 1)}}
    typed = asked(recipe="plain", **plain)
    titles = [group["title"] for group in json.loads(order_shop.shop_file(plan_of(typed), typed, "to-the-shop"))["groups"]]
    assert "Colours and what thins the buttercream" in titles  # milk thins it, though nothing is tinted


@pytest.mark.parametrize("pages, columns, shares", [(1, 1, (44.0, 29.0, 27.0)), (2, 2, (40.0, 27.0, 33.0))])
def test_a_list_too_long_for_a_page_is_set_in_two_columns(
    monkeypatch: pytest.MonkeyPatch, pages: int, columns: int, shares: tuple[float, ...]
) -> None:
    """With narrower columns that still take the whole width, and a type that can be read at arm's length."""
    tried: list[tuple[Any, ...]] = []

    def one_page(name: str, blocks: Any, heading: Any, paper: str, sizes: tuple[float, ...], under: str, title: str, columns: int = 1) -> Any:
        tried.append(sizes)
        return SimpleNamespace(name=name, blocks=blocks, columns=columns, under=under, title=title, pages=(None,) * pages)

    monkeypatch.setattr(order_shop, "one_page", one_page)
    made: Any = order_shop.shop_sheet(planned(), asked(), "", Heading(), "A4")
    assert (made.name, made.title, made.columns) == ("shopping-list", "Shopping list", columns) and len(tried) == columns
    assert all(list(sizes) == sorted(sizes, reverse=True) and sizes[0] <= 3.6 and sizes[-1] >= 2.8 for sizes in tried)
    tables = [block for block in made.blocks if isinstance(block, Table)]
    assert {table.shares for table in tables} == {shares} and sum(shares) == 100 and all(table.tick and table.numeric == () for table in tables)
    assert made.under.startswith("Swiss meringue buttercream, ") and isinstance(made.blocks[-1], Paragraphs)


@pytest.mark.parametrize(
    "units, recipe, words",
    [
        ("metric", "swiss_meringue", "eggs, milk"),
        ("us", "swiss_meringue", "milk, eggs"),
        ("metric", "flour_cooked", "cereals containing gluten, milk"),
        ("us", "flour_cooked", "milk, wheat"),
    ],
)
def test_allergens_stand_on_the_list_in_the_words_of_the_readers_law(monkeypatch: pytest.MonkeyPatch, units: str, recipe: str, words: str) -> None:
    monkeypatch.setattr(order_shop, "one_page", lambda name, blocks, *rest: SimpleNamespace(blocks=blocks, pages=(None,)))
    typed = asked(units=units, recipe=recipe)
    made: Any = order_shop.shop_sheet(plan_of(typed), typed, "", Heading(), "A4")
    assert made.blocks[-1].boxed and made.blocks[-1].paragraphs == (
        f"Allergens in the buttercream: {words}. Read every label: makers change what is in a pack.",
    )
