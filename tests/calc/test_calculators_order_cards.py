"""The sheets of an order for others, and how its tiers are drawn: lines, boxes, sizes of type, and what each row of a drawing is given.

The cake is that of test_calculators_order; `RICH` is that of test_calculators_order_amounts: 14 dowels and 4 boards stand in its three tiers.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from calc import buttercream
from calc.calculators import CALCULATORS, order_cards, order_drawings
from calc.calculators.declare import Answer, parse
from calc.calculators.order_cards import CARDS, Maker, allergens_told, before_cutting, maker_of, table_of, taking_apart
from calc.calculators.order_drawings import look_of, row_number, shades, tier_drawing, tilted_if_drawn, tilted_svg, unrolled_svg
from calc.calculators.order_form import plan_of
from calc.calculators.order_sheets import _makers
from calc.drawing.paper import Blanks, Heading, Paragraphs, Table
from calc.units import Formatter
from tests.calc.test_calculators_order import ONE, answered, asked, planned
from tests.calc.test_calculators_order_amounts import RICH
from tests.calc.test_calculators_order_cake import LEAN

SAY = Formatter()
DAY = "Sat 16 October 2027"
NOT_FOOD = "Take off what is not food: picks, wires, figures."


def set_in(monkeypatch: pytest.MonkeyPatch, pages: int = 1) -> list[tuple[Any, ...]]:
    """Sheets are not set on paper, but noted: name, title, blocks, what stands under the title, height of the type."""
    noted: list[tuple[Any, ...]] = []

    def written(name: str, title: str, blocks: Any, heading: Heading, paper: str, under: str = "", size_mm: float = 0.0, columns: int = 1) -> Any:
        noted.append((name, title, blocks, under, size_mm, columns))
        return SimpleNamespace(pages=(None,) * pages, blocks=blocks, size_mm=size_mm)

    monkeypatch.setattr(order_cards, "written_sheet", written)
    monkeypatch.setattr(order_cards, "label_sheet", lambda name, title, panels, heading, paper: SimpleNamespace(title=title, panels=panels))
    return noted


def made(name: str, texts: dict[str, str] | None = None, **changes: str) -> Any:
    typed = asked(**changes) if texts is None else parse(CALCULATORS["order"], texts)
    return _makers(typed, plan_of(typed), "A4")[name]()


# --- sizes of type --------------------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "name, sizes, under",
    [
        ("bag-card", [3.6, 3.4, 3.2], "Bags have the letters, and steps the numbers, of the bench sheet."),
        # whoever serves reads it standing, at arm's length: 4.9 mm where it takes one page, and never under 2.9
        ("hand-out", [4.9, 4.6, 4.3, 4.0, 3.6, 3.2, 2.9], ""),
    ],
)
def test_a_sheet_tries_the_largest_type_first(name: str, sizes: list[float], under: str, monkeypatch: pytest.MonkeyPatch) -> None:
    noted = set_in(monkeypatch, 2)
    assert made(name).size_mm == sizes[-1] and [size for *_, size, _ in noted] == sizes
    assert {(one[0], one[1], one[3], one[5]) for one in noted} == {(name, CARDS[name], under, 1)}
    noted = set_in(monkeypatch, 1)
    assert made(name).size_mm == sizes[0] and len(noted) == 1


# --- for the work and on the way ------------------------------------------------------------------------------------------------------------


def test_the_card_for_bags_of_a_cake_with_everything(monkeypatch: pytest.MonkeyPatch) -> None:
    """Seven bags for seven steps; what concerns bags and tints is boxed under them, and not what is said of discs, looks or weighing a strip."""
    set_in(monkeypatch)
    bags, mixing, colours, textures, notes = made("bag-card", **RICH).blocks
    assert bags == Table(
        "Bags",
        ("Bag", "Colour", "Tip", "For steps", "Holds in all", "Fills"),
        (
            ("A", "cream", "petal 11 mm", "1", "22 g", "1"),
            ("B", "cream", "round 5 mm", "2", "15 g", "1"),
            ("C", "cream", "open star 7 mm", "3", "42 g", "1"),
            ("D", "russet", "closed star 6 mm", "4", "10 g", "1"),
            ("E", "sage and cream", "open star 7 mm", "5", "39 g", "1"),
            ("F", "cream", "leaf 8 mm", "6", "5.4 g", "1"),
            ("G", "russet", "open star 10 mm", "7", "60 g", "1"),
        ),
        (4, 5),
        True,
    )
    assert [(one.title, one.numeric, one.tick) for one in (mixing, colours, textures)] == [
        ("Mixing order, lightest first", (0,), True),
        ("To make of each colour in all, with losses and a tenth to spare", (1, 2), True),
        ("Thinned for each use", (), False),
    ]
    assert notes.boxed and [text.split(" ", 1)[0] for text in notes.paragraphs] == ["With", "The", "Tints"]
    two = made("bag-card", tiers__1__rows__2__kind="shell", tiers__1__rows__2__place="base", tiers__1__rows__2__tip="open star 7 mm").blocks[0]
    assert [row[3] for row in two.rows if row[2] == "open star 7 mm"] == ["3 and 4"]


def test_a_card_for_bags_with_nothing_to_say_has_no_box(monkeypatch: pytest.MonkeyPatch) -> None:
    set_in(monkeypatch)
    blocks = made("bag-card", ONE | {"tiers.0.colour": "plain"}).blocks
    assert [one.title for one in blocks][:2] == ["Bags", "Mixing order, lightest first"] and not [
        one for one in blocks if isinstance(one, Paragraphs)
    ]


def test_the_card_for_baking_a_cake_with_everything(monkeypatch: pytest.MonkeyPatch) -> None:
    noted = set_in(monkeypatch)
    sponges, coats, colours, recipe, own, care = made("baking-card", **RICH).blocks
    assert sponges == Table(
        "Sponges",
        ("Tier", "Tin", "Layers", "Fillings", "Finished, with its coat"),
        (
            ("Lower", "round, 20 cm", "3 of 2.9 cm", "2 of 6 mm", "21 cm, 10.5 cm high"),
            ("Upper", "round, 15 cm", "3 of 6.9 cm", "2 of 6 mm", "16 cm, 22.5 cm high"),
            ("Top", "round, 9 cm", "3 of 2.9 cm", "2 of 6 mm", "10 cm, 10.5 cm high"),
        ),
        tick=True,
    )
    assert [(one.title, one.numeric, one.tick) for one in (coats, colours, recipe)] == [
        ("Filling and coats, at 0.9 g/ml", (), False),
        ("The final coat by colour", (2, 3), False),
        ("Swiss meringue buttercream, 2.54 kg", (1,), True),
    ]
    assert own.lines == (("Oven and time:", ""), ("Sponges out, weighed:", ""), ("Measured round, each tier:", "")) and care.boxed
    assert noted[-1][3:5] == ("Level each layer to its height; chill between the coats.", 0.0)  # in the type that sheets usually have


def test_the_card_for_delivery_says_when(monkeypatch: pytest.MonkeyPatch) -> None:
    """At home it is stacked already: a quarter of an hour to box and load, half an hour on the road, five minutes and an hour until it is ready."""
    set_in(monkeypatch)
    home, venue = made("delivery-card").blocks, made("delivery-card", **RICH, quote__0__delivery="The barn").blocks
    assert home[1] == Table(
        "When",
        ("At", "What"),
        (
            (f"{DAY}, 16:10", "Box and load"),
            (f"{DAY}, 16:25", "On the road"),
            (f"{DAY}, 16:55", "Set it up and let it soften"),
            (f"{DAY}, 18:00", "Ready"),
        ),
        tick=True,
    )
    assert [what for _, what in venue[1].rows] == [
        "Box and load, 3 boxes",
        "On the road",
        "Stack the tiers at the venue",
        "Pipe: Upper, shell, open star 10 mm, russet",
        "Set it up and let it soften",
        "Ready",
    ]
    assert (home[0].lines[0], venue[0].lines[0]) == (("Address:", ""), ("Address:", "The barn"))
    assert [(one.title, getattr(one, "boxed", None), getattr(one, "numbered", None)) for one in home[3:5]] == [
        ("Set it up", False, True),
        ("Look out", True, False),
    ]


# --- for those who take it apart ------------------------------------------------------------------------------------------------------------


def level(name: str, boards: str, dowels: int) -> str:
    return (
        f"{name} has {boards} inside: cut what stands on a board, lift the board off, pull out the dowels under it ({dowels} in all), then cut "
        "the level below."
    )


def test_before_a_knife_goes_in() -> None:
    """One tier has only what is not food on it, or boards and dowels of its own; the middle of three is cleared, and so is what stands in it."""
    one, tall = plan_of(parse(CALCULATORS["order"], ONE)), plan_of(parse(CALCULATORS["order"], ONE | {"tiers.0.height": "20 cm"}))
    rich = planned(**RICH)
    assert before_cutting(one, 0) == NOT_FOOD
    assert before_cutting(tall, 0) == f"{NOT_FOOD} {level('Cake', '1 board', 5)}"
    assert before_cutting(rich, 0) == f"{NOT_FOOD} Lift off Upper first; then pull the 5 dowels out of Lower and count them; then cut."
    assert before_cutting(rich, 1) == (
        f"{NOT_FOOD} {level('Upper', '1 board', 5)} Lift off Top first; then pull the 4 dowels out of Upper and count them; then cut."
    )
    assert before_cutting(rich, 2) == f"{NOT_FOOD} Lift Top off on its board, and cut it there; the dowels of the tier below come out after that."


def test_a_cake_with_everything_is_taken_apart_in_one_order() -> None:
    assert taking_apart(planned(**RICH, keep_top="yes"), SAY) == (
        "Take off what is not food: flowers with wires or picks, figures, ribbon.",
        "Pull the centre rod, if there is one, straight up and out: up to 41.5 cm long.",  # 10.5, 22.5 and 10.5 less 2
        "Lift Top off on its board: one person, up to 531 g, a wide knife under the board first.",
        "Only now pull the 4 dowels out of Upper, and count them.",
        "Lift Upper off on its board: one person, up to 2.67 kg, a wide knife under the board first.",
        "Only now pull the 5 dowels out of Lower, and count them.",
        level("Upper", "1 board", 5),
        "14 dowels and 4 boards: all counted before a plate leaves the table.",
        "Cut Lower and Upper as the cutting guides show, with a warm knife wiped after each cut.",
        "Keep Top back, boxed and cold.",
    )


def test_what_is_too_heavy_for_two_is_cut_where_it_stands() -> None:
    """A tier of 55 cm, 30 high, weighs over 50 kg: nobody lifts it off."""
    huge = {"tiers__0__width": "60 cm", "tiers__0__height": "10 cm", "tiers__1__width": "55 cm", "tiers__1__height": "30 cm"}
    told = taking_apart(planned(**huge), SAY)
    (cut,) = [text for text in told if text.startswith("Upper is more")]
    assert cut == "Upper is more than two people should lift: cut it where it stands, then take away its board."
    assert told[told.index(cut) + 1].startswith("Only now pull the ") and not [text for text in told if text.startswith("Lift Upper")]
    assert told[1] == "Pull the centre rod, if there is one, straight up and out: up to 39 cm long." and told[2] == cut  # 10.5 and 30.5 less 2


@pytest.mark.parametrize(
    "changes, words",
    [
        # each tier for itself: two people for the lower one of 40 cm, though its 14.7 kg with the upper one's 11.2 are too much for two
        (
            {"tiers__0__width": "40 cm", "tiers__0__height": "20 cm", "tiers__1__width": "35 cm", "tiers__1__height": "20 cm"},
            "up to 14.7 kg, two people",
        ),
        ({"tiers__0__width": "9 cm", "tiers__1__width": "6 cm"}, "up to 563 g, one person"),  # to the gram
    ],
)
def test_a_tier_is_set_down_by_as_many_as_it_alone_takes(changes: dict[str, str], words: str) -> None:
    assert (
        order_cards._set_up(planned(**changes, stacked="venue"), SAY)[1] == f"Set Lower down, its front to the room: {words}, hands under the board."
    )


def test_one_tier_is_cut_at_once() -> None:
    cut = "Cut it as its cutting guide shows, with a warm knife wiped after each cut."
    first = "Take off what is not food: flowers with wires or picks, figures, ribbon."
    one, tall = (plan_of(parse(CALCULATORS["order"], ONE | {"tiers.0.height": height})) for height in ("10 cm", "35 cm"))
    assert taking_apart(one, SAY) == (first, cut)
    boards, dowels = tall.supports[0].inner_boards, tall.supports[0].inner_dowels
    assert boards == 2
    assert taking_apart(tall, SAY) == (
        first,
        level("Cake", "2 boards", dowels),
        f"{dowels} dowels and 3 boards: all counted before a plate leaves the table.",
        cut,
    )


def test_the_page_for_whoever_serves_a_cake_with_everything(monkeypatch: pytest.MonkeyPatch) -> None:
    set_in(monkeypatch)
    allergens, blanks, cake, before, apart = made(
        "hand-out", **RICH, maker__0__name="Pat", maker__0__telephone="12", quote__0__in_fillings="nuts"
    ).blocks
    assert allergens == Paragraphs(
        "Allergens",
        (
            "In the buttercream: eggs, milk.",
            "Check the pack: corn and glucose syrups may hold sulphites above 10 mg/kg.",
            "Sponge, fillings, decorations and the kitchen can add to these. Where a line is empty, ask the maker before you serve "
            "anyone with an allergy.",
        ),
        boxed=True,
        strong=True,
    )
    assert blanks == Blanks(
        "",
        (
            *(("In the sponge:", ""), ("In the fillings:", "nuts"), ("In decorations, and traces from the kitchen:", "")),
            *(("Maker:", "Pat"), ("Telephone:", "12")),
        ),
    )
    assert cake == Table(
        "The cake: 55 portions",
        ("Tier", "Portions", "Sponge", "Dowels in it"),
        (
            ("Lower", "24 of 2.5 cm x 5 cm", "round, 20 cm", "5"),
            ("Upper", "26 of 2.5 cm x 5 cm, on 2 levels", "round, 15 cm", "9"),
            ("Top", "5 of 2.5 cm x 5 cm", "round, 9 cm", "none"),
        ),
    )
    assert before.paragraphs[0] == f"Keep it at 5 °C (41 °F) or less until {DAY}, 17:40, then let it soften."
    assert (apart.title, apart.numbered, apart.boxed) == ("Take it apart, and cut it", True, False)


def test_a_cake_that_needs_no_softening_is_kept_cold_until_it_is_served(monkeypatch: pytest.MonkeyPatch) -> None:
    set_in(monkeypatch)
    monkeypatch.setattr(order_cards, "timetable_of", lambda cake, typed: SimpleNamespace(steps=[]))
    assert made("hand-out").blocks[3].paragraphs == (
        "Keep it at 5 °C (41 °F) or less until it is served.",
        "Keep it out of the fridge for 2 hours at most in all, 1 hour above 32 °C (90 °F). Your local rules come first.",
    )
    assert made("hand-out", units="us").blocks[3].paragraphs[0] == "Keep it at 41 °F (5 °C) or less until it is served."


# --- boxes and allergens --------------------------------------------------------------------------------------------------------------------


def test_each_box_of_a_cake_with_everything_counts_what_is_in_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Five dowels and a board, nine and two, a board alone: 14 and 4."""
    set_in(monkeypatch)
    *boxes, food = made("box-label", **RICH).panels
    assert [box[0].paragraphs[0] for box in boxes] == [f"A cake: {name}. {DAY}, 18:00." for name in ("Lower", "Upper", "Top")]
    assert [box[1].paragraphs[1] for box in boxes] == [
        "Up to 2.29 kg: one person, hands under the base. Box 36 cm x 36 cm, 15.5 cm high inside. In it, and not food: 5 dowels, 1 board.",
        "Up to 2.67 kg: one person, hands under the base. Box 21 cm x 21 cm, 27.5 cm high inside. In it, and not food: 9 dowels, 2 boards.",
        "Up to 531 g: one person, hands under the base. Box 15 cm x 15 cm, 15.5 cm high inside. In it, and not food: 1 board.",
    ]
    assert [label for label, _ in food[2].lines[3:]] == ["Made on:", "Use by:", "Made by, with address:"]
    (alone, _) = made("box-label", ONE | {"units": "us"}).panels
    assert alone[0].paragraphs[0] == "A cake: the whole cake. Sat, October 16, 2027, 6:00 PM." and alone[1].paragraphs[0].startswith(
        "Keep cold, 41 °F (5 °C) or less, "
    )


@pytest.mark.parametrize(
    "us, eu, metric, inches",
    [
        (("milk", "eggs"), ("eggs", "milk"), "eggs, milk", "milk, eggs"),  # the same, in the order of each law
        (("milk", "wheat"), ("gluten", "milk"), "{eu}; {us}", "{us}; {eu}"),
        ((), (), "none that must be named", "none that must be named"),
        ((), ("mustard",), "{eu}; {us}", "{us}; {eu}"),
    ],
)
def test_allergens_are_told_by_the_readers_law_first(us: Any, eu: Any, metric: str, inches: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(buttercream, "allergens", lambda recipe: SimpleNamespace(us=us, eu=eu, check=("one", "two")))
    words = {
        "us": f"{', '.join(us) or 'none that must be named'} (of the nine named in the US)",
        "eu": f"{', '.join(eu) or 'none that must be named'} (of the fourteen in the EU and UK)",
    }
    for units, wanted in (("metric", metric), ("us", inches)):
        assert allergens_told(planned(), Formatter(units)) == (
            f"In the buttercream: {wanted.format(**words)}.",
            "Check the pack: one.",
            "Check the pack: two.",
        )


def test_who_made_it_is_the_first_that_is_given_or_nobody() -> None:
    assert maker_of(asked(maker__0__name="Pat", maker__0__telephone="12", maker__0__contact="Mill Lane")) == Maker("Pat", "12", "Mill Lane")
    assert maker_of(asked()) == Maker("", "", "")


def test_a_table_of_an_answer_keeps_its_columns_and_has_a_title_of_its_own_where_it_is_given() -> None:
    answer = Answer("order")
    answer.table("other", "Other", ("A",), [["1"]])
    answer.table("this", "This", ("What", "Weigh", "For"), [["butter", "1 g", "it"]], (1,))
    assert table_of(answer, "this") == [Table("This", ("What", "Weigh", "For"), (("butter", "1 g", "it"),), (1,), False)]
    assert table_of(answer, "this", "Mine", True) == [Table("Mine", ("What", "Weigh", "For"), (("butter", "1 g", "it"),), (1,), True)]
    assert table_of(answer, "none of that name") == []


def test_a_price_for_a_cake_of_which_no_slice_comes() -> None:
    """Slices of 20 by 20 cm out of 5 cm: none, and the price is that of the cake."""
    found = answered(ONE | {"tiers.0.width": "5 cm", "slice": "20 x 20 cm"})
    assert found.figures["portions"]["value"] == 0 and found.figures["per_portion"]["value"] == found.figures["price"]["value"] > 0


# --- drawings -------------------------------------------------------------------------------------------------------------------------------


def test_a_tier_behind_the_middle_is_drawn_there_but_marked_by_itself() -> None:
    upper = planned(**LEAN).tiers[1]
    assert tier_drawing(upper, ()).back_mm == upper.back_mm > 1.0 and tier_drawing(upper, (), True).back_mm == 0.0


def test_a_side_is_drawn_as_long_as_it_was_planned_or_as_the_tape_says() -> None:
    """A square of 21 cm, taped at 1.01 times what it should be: joints and outline stretch together, and only where it is marked."""
    plain = planned(tiers__0__shape="square").tiers[0]
    tier = planned(tiers__0__shape="square", tiers__0__side=f"{plain.side_mm * 1.01 / 10:.2f} cm").tiers[0]
    drawn, marked = tier_drawing(tier, ()), tier_drawing(tier, (), True)
    assert drawn.outline.perimeter_mm == pytest.approx(plain.side_mm) and marked.outline.perimeter_mm == pytest.approx(tier.side_mm)
    assert drawn.rows[0].joints == pytest.approx(tier.joints.s_mm) and len(tier.joints.s_mm) == tier.division.repeats
    assert marked.rows[0].joints == pytest.approx([s * tier.side_mm / plain.side_mm for s in tier.joints.s_mm])
    assert tier_drawing(planned().tiers[0], ()).rows[0].joints == ()  # on a round they are where they are


@pytest.mark.parametrize(
    "changes, wanted",
    [
        ({}, [75.0, None]),
        # of two rows that hang the first is marked; where the cutter leaves a gap, or its drop is not wanted, none is
        ({"tiers__0__rows__1__kind": "string", "tiers__0__rows__1__place": "under"}, [75.0, None]),
        ({"tiers__0__repeats": "7", "tiers__0__cutter": "9 cm"}, [None, None]),
        ({"tiers__0__repeats": "9", "tiers__0__cutter": "7.5 cm", "tiers__0__rows__0__drop": "4.5 cm"}, [None, None]),
        ({"cutters": ""}, [None, None]),
    ],
)
def test_only_the_row_that_a_cutter_marks_is_drawn_with_it(changes: dict[str, str], wanted: list[float | None]) -> None:
    assert [row.cutter_mm for row in tier_drawing(planned(**changes).tiers[0], ()).rows] == wanted


def test_each_row_is_drawn_with_its_count_and_where_it_leads_back_to() -> None:
    """63 shells stand round; swags and leaves follow the repeats, and a line on the top is drawn repeat by repeat."""
    lower, upper = (tier_drawing(tier, (("cream", "#123456"),)) for tier in planned(tiers__0__rows__2__kind="line", **{
        "tiers__0__rows__2__place": "top", "tiers__0__rows__2__colour": "sage", "tiers__0__rows__2__second": "cream"
    }).tiers)  # fmt: skip
    assert [(row.count, row.place, row.repeats, row.colour, row.part) for row in lower.rows] == [
        (None, "side", 9, "#123456", "tiers.0.rows.0"),
        (63, "base", 9, "#123456", "tiers.0.rows.1"),
        (9, "top", 9, "#a8b699 #123456", "tiers.0.rows.2"),
    ]
    assert [(row.count, row.place, row.part) for row in upper.rows] == [(88, "top edge", "tiers.1.rows.0"), (None, "joints", "tiers.1.rows.1")]
    assert (lower.name, lower.part, upper.part, lower.base_mm, upper.base_mm) == ("Lower", "tiers.0", "tiers.1", 0.0, 105.0)
    tier = planned().tiers[0]
    assert [row_number(tier, row) for row in tier.rows] == [0, 1]


def test_rows_of_two_layers_are_drawn_with_the_pieces_of_one() -> None:
    """Twice 63 shells, one row on the other."""
    tier = planned(tiers__0__rows__1__layers="2").tiers[0]
    drawn = tier_drawing(tier, ()).rows[1]
    assert (tier.rows[1].amount.count, drawn.count, drawn.layers) == (126, 63, 2)


def test_looks_of_rows_by_the_names_of_their_bags() -> None:
    rows = planned(tiers__0__rows__0__colour="sage", tiers__0__rows__0__second="cream").tiers[0].rows
    assert shades(rows, (("cream", "#123456"),)) == {"sage and cream": "#a8b699", "cream": "#123456"}
    assert look_of("unheard of and cream", {}) == "#f4e9cf" == look_of("unheard of", {})
    assert look_of("cream and unheard of", {}) == "#f0dfae"
    assert look_of("cream", {"cream": "#g12345"}) == look_of("cream", {"cream": "#12345g"}) == "#f0dfae"  # neither is a look


def test_sixteen_drawings_of_the_cake_are_kept_and_the_oldest_goes(monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: list[float] = []
    monkeypatch.setattr(order_drawings, "tilted_view", lambda tiers, board_mm: drawn.append(board_mm) or board_mm)
    monkeypatch.setattr(order_drawings, "svg", lambda scene: f"<svg {scene}>")
    monkeypatch.setattr(order_drawings, "_tilted", order_drawings._Drawn())
    for board in range(16):
        assert tilted_if_drawn((), board) is None and tilted_svg((), board) == f"<svg {board}>" == tilted_if_drawn((), board)
    assert tilted_svg((), 0) == "<svg 0>" and drawn == list(range(16))  # none is drawn twice, and none is lost
    tilted_svg((), 16)
    assert tilted_if_drawn((), 0) is None and [board for board in range(17) if tilted_if_drawn((), board)] == list(range(1, 17))


def test_a_side_laid_flat_is_drawn_in_lines_and_in_the_readers_units(monkeypatch: pytest.MonkeyPatch) -> None:
    asked_for: list[dict[str, Any]] = []
    monkeypatch.setattr(order_drawings, "unrolled", lambda tier, **how: asked_for.append(how))
    monkeypatch.setattr(order_drawings, "svg", lambda scene: "<svg>")
    unrolled_svg.cache_clear()
    try:
        assert unrolled_svg(tier_drawing(planned().tiers[0], ()), "us") == "<svg>" and asked_for == [{"in_colour": False, "units": "us"}]
    finally:
        unrolled_svg.cache_clear()
