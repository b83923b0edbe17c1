"""The order's sheets for other people and for the parts of the work, read back from the files: what they say, what they never say."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pdfplumber
import pypdf
import pypdfium2
import pytest

import calc
from calc.calculators.order_cards import CARDS

ORDER = {"order": (Path(__file__).parents[2] / "docs" / "plan" / "harvest-supper.toml").read_text(encoding="utf-8")}
MAKER = {"maker.0.name": "Orchard Kitchen", "maker.0.telephone": "01234 567890", "maker.0.contact": "Mill Lane"}
QUOTE = {
    "quote.0.customer": "The Orchard Society",
    "quote.0.deposit": "40 %",
    "quote.0.balance_days": "10",
    "quote.0.tax": "20 %",
    "quote.0.round_up": "5",
    "quote.0.delivery": "The barn",
    "quote.0.terms": "Stands are lent for three days.",
}
PAPERS = ("A4", "Letter")


def words(inputs: dict[str, str], name: str, paper: str = "A4") -> str:
    pages = pypdfium2.PdfDocument(calc.sheet("order", inputs, name, paper))
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


def tiers(count: int, **changes: str) -> dict[str, str]:
    made = {"name": "A tall cake", "guests": "100"}
    for i in range(count):
        made |= {
            f"tiers.{i}.name": f"Tier {i + 1}",
            f"tiers.{i}.width": f"{36 - 5 * i} cm",
            f"tiers.{i}.rows.0.kind": "shell",
            f"tiers.{i}.rows.0.place": "base",
            f"tiers.{i}.rows.0.tip": "open star 7 mm",
        }
    return made | changes


def figures_of_cost(inputs: dict[str, str]) -> set[str]:
    """Every amount and every time that the price is made of, but for what is asked in the end."""
    answer = calc.compute("order", inputs)
    table = next(table for table in answer.tables if table["name"] == "price")
    found = {amount for _, amount in table["rows"][:-1]}
    bought = next(table for table in answer.tables if table["name"] == "shopping")
    found |= {row[-1] for row in bought["rows"]} - {"no price"}
    found |= {answer.figures["cost"]["text"], answer.figures["hands"]["text"], "18.00", "34.00"}
    return found - {answer.figures["price"]["text"]}


@pytest.mark.parametrize("inputs", [ORDER, ORDER | QUOTE | MAKER, tiers(3, rate="21", extras="55", overhead="15 %", margin="30 %")])
def test_a_quotation_says_nothing_of_costs(inputs: dict[str, str]) -> None:
    told = words(inputs, "quotation")
    for figure in figures_of_cost(inputs):
        assert not re.search(rf"(?<![\d.]){re.escape(figure)}(?!\d)", told), figure
    assert not re.search(r"cost|margin|overhead|an hour|\brate\b|hands at work", told, re.IGNORECASE)
    percents = set(re.findall(r"([\d.]+) %", told))
    assert percents <= {"40", "20"}


def test_a_quotation_says_what_is_had_and_paid() -> None:
    """20 % on the price, up to the next 5; 40 % of that in advance, the rest ten days before the day."""
    answer = calc.compute("order", ORDER)
    price = answer.figures["price"]["value"]
    to_pay = 5 * -(-round(price * 1.2, 2) // 5)
    told = words(ORDER | QUOTE | MAKER, "quotation")
    for part in (
        "The Orchard Society",
        "Orchard Kitchen, 01234 567890, Mill Lane", "The barn", "Stands are lent for three days.", "Sat 16 October 2027, 18:00",
        "two tiers", "37 portions", "swags in two layers of russet and cream", "rosettes round the side in blush", "In the buttercream: eggs, milk.",
        f"To pay {to_pay:.2f}", f"Deposit, 40 %, to hold the date {0.4 * to_pay:.2f}", f"Balance, by Wed 6 October 2027 {0.6 * to_pay:.2f}",
        "holds for 14 days",
    ):  # fmt: skip
        assert part in told, part
    assert f"To pay £{price:.2f}" in words(ORDER | {"rate": "£18"}, "quotation")
    plain = words(ORDER, "quotation")
    assert f"To pay {price:.2f}" in plain and "Deposit, and when it is due" in plain and "holds until: ___" in plain
    assert pypdf.PdfReader(io.BytesIO(calc.sheet("order", ORDER | MAKER, "quotation"))).metadata.author == "Orchard Kitchen"  # type: ignore[union-attr]


def test_a_tier_is_lifted_off_before_the_dowels_under_it_come_out() -> None:
    """Three tiers, from the top: off, then the dowels it stood on, then the next; all counted at the end, then the knife."""
    told = words(tiers(3), "hand-out")
    answer = calc.compute("order", tiers(3))
    one, two = (int(answer.figures[f"dowels_{i}"]["value"]) for i in (1, 2))
    order = [
        "Take off what is not food",
        "Pull the centre rod",
        "Lift Tier 3 off on its board",
        f"Only now pull the {two} dowels out of Tier 2",
        "Lift Tier 2 off on its board",
        f"Only now pull the {one} dowels out of Tier 1",
        f"{one + two} dowels and 3 boards: all counted",
        "Cut Tier 1, Tier 2 and Tier 3",
    ]
    places = [told.index(part) for part in order]
    assert places == sorted(places)
    assert "Lift Tier 1" not in told


def test_one_tier_is_not_taken_apart() -> None:
    for name in ("hand-out", "cutting-guide-tier-1", "delivery-card", "box-label"):
        told = words(tiers(1), name)
        assert not re.search(r"dowel|rod\b|[Ll]ift (off|Tier)|taken? apart", told), name
    assert "Cut it as its cutting guide shows" in words(tiers(1), "hand-out")


def test_cutting_guides_say_what_comes_off_first_and_what_is_in_it() -> None:
    upper, middle, lowest = (words(tiers(3), f"cutting-guide-tier-{i}") for i in (3, 2, 1))
    assert "Lift Tier 3 off on its board, and cut it there" in upper
    assert "Lift off Tier 3 first; then pull the" in middle and "out of Tier 2" in middle
    assert "Lift off Tier 2 first" in lowest
    for told in (upper, middle, lowest):
        assert "In the buttercream: eggs, milk." in told and " front " in told


def test_whoever_serves_is_told_who_to_ask_and_not_how_to_cook() -> None:
    told = words(ORDER | MAKER, "hand-out")
    assert "Maker: Orchard Kitchen" in told and "Telephone: 01234 567890" in told
    for blank in ("In the sponge:", "In the fillings:", "In decorations, and traces from the kitchen:"):
        assert blank in told
    assert "Lower tier 24 of 2.5 cm x 5 cm" in told and "Upper tier 13 of 2.5 cm x 5 cm" in told and "37 portions" in told
    assert not re.search(r"thermometer|egg white|whisk|syrup beaten", told)
    kept = words(ORDER | {"keep_top": "yes"}, "hand-out")
    assert "Upper tier kept back, not cut" in kept and "24 portions" in kept and "Keep Upper tier back" in kept


def test_delivery_follows_where_the_tiers_are_stacked() -> None:
    """At home: one box, nothing to stack. At the venue: a box for each, tier upon tier from the lowest, then what is piped over the joints."""
    home, venue = (words(tiers(3, stacked=where), "delivery-card") for where in ("home", "venue"))
    stacked = ("Set Tier 1 down", "Lower Tier 2 on its board", "Lower Tier 3 on its board", "centre rod", "Pipe what covers")
    assert "the whole cake" in home and "Stack the tiers" not in home and "Lower Tier" not in home
    places = [venue.index(part) for part in stacked]
    assert places == sorted(places) and "Stack the tiers" in venue
    steps = [row[0].split(".")[0] for row in next(t for t in calc.compute("order", tiers(3, stacked="venue")).tables if t["name"] == "bench")["rows"]]
    assert f"steps {steps[-2]} and {steps[-1]} of the bench sheet" in venue
    for line in next(t for t in calc.compute("order", tiers(3, stacked="venue")).tables if t["name"] == "load")["rows"]:
        assert line[0] in venue, line


def test_every_box_has_its_label() -> None:
    """What is in it, how heavy, who lifts it; with what the law wants named, and blanks for what only the maker knows."""
    apart = words(tiers(3, stacked="venue"), "box-label")
    assert apart.count("This way up") == 3 and all(f"A tall cake: Tier {i}." in apart for i in (1, 2, 3))
    whole = words(ORDER, "box-label")
    assert whole.count("This way up") == 1 and "4 dowels, 2 boards" in whole and "ALLERGENS. In the buttercream: eggs, milk." in whole
    for blank in ("Made on:", "Use by:", "Made by, with address:", "In the sponge:"):
        assert blank in whole
    us = words(ORDER | {"units": "us", "recipe": "flour_cooked"}, "box-label")
    assert "milk, wheat (of the nine named in the US); cereals containing gluten, milk (of the fourteen" in us


def test_bags_have_one_letter_on_every_sheet() -> None:
    bench, card = words(ORDER, "bench-sheet"), words(ORDER, "bag-card")
    for letter, tip, colour, steps in (("A", "petal 11 mm", "russet", "1"), ("B", "petal 9 mm", "cream", "2 and 4"), ("F", "leaf 6 mm", "bay", "8")):
        assert f"{letter} {colour} {tip} {steps} " in card
        assert f"{letter} {tip}, {colour}" in bench
    table = next(table for table in calc.compute("order", ORDER).tables if table["name"] == "bags")
    assert [row[0] for row in table["rows"]] == list("ABCDEF")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", [*CARDS, "bench-sheet", "cutting-guide-lower-tier"])
def test_type_is_large_enough_and_inside_the_page(name: str, paper: str) -> None:
    """Nothing under 8 points, nothing in the 5 mm at the edge; one page."""
    data = calc.sheet("order", ORDER | MAKER | QUOTE, name, paper)
    with pdfplumber.open(io.BytesIO(data)) as document:
        assert len(document.pages) == 1
        for page in document.pages:
            assert min(c["size"] for c in page.chars) >= 7.99
            edge = 5 * 72 / 25.4
            shown = [c for c in page.chars if c["text"].strip()]
            assert all(edge <= c["x0"] and c["x1"] <= page.width - edge and edge <= c["top"] and c["bottom"] <= page.height - edge for c in shown)


def test_seven_tiers_are_served_from_one_page() -> None:
    """And numbers of their steps stand beside the cake on the bench sheet, clear of the words to its right."""
    many = tiers(6, **{"tiers.6.name": "Tier 7", "tiers.6.width": "6 cm"})
    assert len(pypdfium2.PdfDocument(calc.sheet("order", many, "hand-out", "Letter"))) == 1
    rows = {"0.kind": "swag", "0.place": "side", "0.tip": "petal 9 mm", "1.kind": "shell", "1.place": "base", "1.tip": "open star 5 mm"}
    piped = many | {f"tiers.{tier}.rows.{row}": value for tier in range(6) for row, value in rows.items()}
    with pdfplumber.open(io.BytesIO(calc.sheet("order", piped, "bench-sheet", "A4"))) as document:
        page = document.pages[0]
        rings = [c for c in page.curves if c["fill"] and abs(c["x1"] - c["x0"] - 5.8 * 72 / 25.4) < 0.1]
        left = min(float(word["x0"]) for word in page.extract_words() if word["text"] == "repeats,")
    assert len(rings) > 10 and max(float(ring["x1"]) for ring in rings) < left
