"""What the customer is told of an order: the cake in words and as a picture, what it costs them, dates, terms and allergens.

Nothing in it says what the cake costs to make: of the price it knows one number, what the cake is sold for before tax.

Map
---
`Told`, `told_of`   what a quotation says, for paper and for the page that reads it
`quotation`         the same as a sheet, with blanks to write on
`quotation_file`    the same as JSON, with its drawing beside it: what a customer's link is made from
"""

from __future__ import annotations

import datetime as dt
import json
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from calc.calculators.declare import Answer, Asked
from calc.calculators.order_answer import fill_answer
from calc.calculators.order_cards import CARDS, MORE, allergen_blanks, allergens_told, maker_of, one_page
from calc.calculators.order_drawings import Looks, tier_drawing, tilted_svg
from calc.calculators.order_words import size_words
from calc.drawing.paper import Blanks, Block, Heading, Paragraphs, Picture, Sheet, Table, written_sheet
from calc.drawing.tilted import tilted_view
from calc.order import Plan, PlannedTier
from calc.price import quoted
from calc.rows.placement import PlacedRow
from calc.units import Formatter, a_or_an, listed

NAME = "quotation-link"
VERSION = 1  # of the JSON; the page refuses one that is newer
Lines = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Told:
    """What a quotation says. A line without a text is a blank."""

    head: Lines
    cake: tuple[str, ...]
    price: Lines
    terms: tuple[str, ...]
    allergens: tuple[str, ...]


def told_of(asked: Asked, cake: Plan, say: Formatter) -> Told:
    """Write what a quotation says of an order."""
    maker = maker_of(asked)
    given = next(iter(asked["quote"]), None)
    head = (
        ("For:", given["customer"] if given else ""),
        ("From:", ", ".join(part for part in (maker.name, maker.telephone, maker.contact) if part)),
        ("Date, and number:", ", ".join(part for part in ((given["date"], given["number"]) if given else ()) if part)),
        ("For the day, ready at:", say.moment(cake.order.ready_at)),
        ("Where:", given["delivery"] if given else ""),
    )
    words = (_cake_words(cake, say), *(_tier_words(tier, say) for tier in cake.tiers))
    return Told(head, words, _price_lines(_price_of(asked, cake), cake, given, say), _terms(cake, given), (*allergens_told(cake, say), MORE))


def quotation(asked: Asked, cake: Plan, heading: Heading, paper: str, looks: Looks) -> Sheet:
    """Draw what the customer gets and pays as a sheet, on one page where it can be."""
    told = told_of(asked, cake, Formatter(asked.units, currency=asked.currency))
    drawn = tilted_view(tuple(tier_drawing(tier, looks) for tier in cake.tiers), cake.supports[0].board_width_mm)
    head = Blanks("", told.head)
    rest: list[Block] = [
        Paragraphs("Your cake", told.cake),
        Table("Price", ("", ""), told.price, (1,)),
        Paragraphs("Terms", told.terms, keep_mm=36.0),
        Paragraphs("Allergens", told.allergens, boxed=True, keep_mm=60.0),
        Blanks("", allergen_blanks(asked)),
        Blanks("Agreed", (("Customer, date, signature:", ""), ("Maker, date, signature:", ""))),
    ]
    beside = one_page("quotation", [replace(head, beside=drawn), *rest], heading, paper, (3.6, 3.4, 3.2, 3.0))
    if len(beside.pages) == 1:
        return beside
    return written_sheet("quotation", CARDS["quotation"], [head, Picture((drawn,), 70.0, scaled=False), *rest], heading, paper)


def quotation_file(asked: Asked, cake: Plan) -> bytes:
    """Write a quotation as JSON in UTF-8: `told`, which goes into the customer's link as it stands, and the `drawing` of the cake as SVG.

    `told` has a `version`, the `title`, and `parts`: a heading `h`, paragraphs `p`, and `rows` of a label and a text.
    """
    looks = tuple(sorted((colour["name"].lower(), colour["look"]) for colour in asked["colours"]))
    told = told_of(asked, cake, Formatter(asked.units, currency=asked.currency))
    given = next(iter(asked["quote"]), None)
    dated = (("Date", given["date"]), ("Number", given["number"])) if given else ()
    head = [(label.rstrip(":"), text) for label, text in (*dated, *told.head) if text and not label.startswith("Date, and")]
    parts = [
        {"h": "", "p": [], "rows": head},
        {"h": "Your cake", "p": told.cake, "rows": []},
        {"h": "Price", "p": [], "rows": [(label, text or "to be agreed") for label, text in told.price]},
        {"h": "Terms", "p": [text.replace(BLANK, "ask the maker.") for text in told.terms], "rows": []},
        {"h": "Allergens", "p": told.allergens, "rows": [(label.rstrip(":"), text or "ask the maker") for label, text in allergen_blanks(asked)]},
    ]
    made = {
        "told": {"version": VERSION, "title": cake.order.name, "parts": parts},
        "drawing": tilted_svg(tuple(tier_drawing(tier, looks) for tier in cake.tiers), cake.supports[0].board_width_mm),
    }
    return json.dumps(made, ensure_ascii=False, separators=(",", ":")).encode()


def _price_of(asked: Asked, cake: Plan) -> float:
    """What the cake is sold for before tax."""
    answer = Answer("order", asked.units, currency=asked.currency)
    fill_answer(answer, cake, asked)
    price: float = answer.figures["price"]["value"]
    return price


# --- in words ------------------------------------------------------------------------------------------------------------


_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def _number(count: int) -> str:
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def _cake_words(cake: Plan, say: Formatter) -> str:
    """The cake as a whole, in a sentence or two."""
    count = len(cake.tiers)
    shapes = listed(list(dict.fromkeys(tier.order.sponge.kind for tier in cake.tiers)))
    coats = listed(list(dict.fromkeys(_coat_words(tier) for tier in cake.tiers)))
    high = math.fsum(tier.height_mm for tier in cake.tiers)
    across, deep = (say.length(side) for side in cake.order.slice_mm)
    kept = [tier.order.name for tier in cake.tiers if not tier.counted]
    return (
        f"A cake of {_number(count)} tier{'s' if count > 1 else ''}, {shapes}, {coats}, in {say.words(cake.recipe.name)} buttercream, "
        f"{say.length(high)} high. "
        f"For {cake.order.guests} guests: {cake.portions} portions of {across} x {deep}" + (f", {listed(kept)} kept back for you." if kept else ".")
    )


def _coat_words(tier: PlannedTier) -> str:
    """The colour of a tier's coat."""
    bands = list(dict.fromkeys(name for name, _ in tier.order.bands))
    coat = f"shaded from {' to '.join(bands)}" if len(bands) > 1 else "".join(bands) or tier.order.colour
    return f"{coat} striped with {tier.order.striped[0]}" if tier.order.striped else coat


def _tier_words(tier: PlannedTier, say: Formatter) -> str:
    """A tier as a customer sees it: its size and coat, and what is piped on it."""
    finished = size_words(tier.coats.finished.width_mm, tier.coats.finished.length_mm, say)
    piped = listed(_rows_words(tier.rows)) if tier.rows else "plain, without piping"
    start = f"{tier.order.name}: {tier.order.sponge.kind}, {finished} across and {say.length(tier.height_mm)} high, {_coat_words(tier)}; "
    return f"{start}{'with ' if tier.rows else ''}{piped}."


def _rows_words(rows: Sequence[PlacedRow]) -> list[str]:
    """What is piped on a tier, rows of one kind at one place together: "swags in two layers, russet and cream"."""
    joints = f"where the {hung.asked_kind.plural} meet" if (hung := next((row for row in rows if row.hung), None)) else "round the side"
    alike: dict[tuple[str, str], list[PlacedRow]] = {}
    for row in rows:
        where = joints if row.place == "joints" else _WHERE.get(row.place, "")
        alike.setdefault((row.spec.kind, where), []).append(row)
    found = []
    for (_, where), same in alike.items():
        kind = same[0].asked_kind
        is_many = kind.countable and max(row.amount.count for row in same) > 1
        what = kind.plural if is_many else a_or_an(kind.name)
        layers = sum(row.layers for row in same)
        joined = "in"
        if layers > 1 and any(row.hung for row in same):
            what += f" in {_number(layers)} layers"
            joined = "of"
        colours = list(dict.fromkeys(row.colour for row in same))  # that of a bag with two has both names
        found.append(f"{what}{f' {where}' if where else ''} {joined} {listed(colours)}")
    return found


_WHERE = {"base": "round the base", "top edge": "along the top edge", "top": "on the top", "inside": "inside the top edge"}


# --- price and terms -----------------------------------------------------------------------------------------------------


def _price_lines(price: float, cake: Plan, given: Asked | None, say: Formatter) -> Lines:
    """What is to pay, in advance and at the end."""
    asks = quoted(price, given["tax"], given["deposit"], given["round_up"] or 0.0) if given else quoted(price)
    lines = []
    if given and asks.tax:
        lines.append(("The cake, before tax", say.money(asks.price)))
        lines.append((f"Tax, {say.percent(given['tax'])}", say.money(asks.tax)))
    lines.append(("To pay", say.money(asks.to_pay)))
    lines.append(("For each portion", say.money(asks.to_pay / max(1, cake.portions))))
    if given is None:
        return (*lines, ("Deposit, and when it is due", ""), ("Balance, and when it is due", ""))
    due = cake.order.ready_at - dt.timedelta(days=given["balance_days"])
    lines.append((f"Deposit, {say.percent(given['deposit'])}, to hold the date", say.money(asks.deposit)))
    lines.append((f"Balance, by {say.moment(due).rsplit(',', 1)[0]}", say.money(asks.balance)))
    return tuple(lines)


BLANK = "____________________"


def _terms(cake: Plan, given: Asked | None) -> tuple[str, ...]:
    """What is agreed besides; the maker's own words last."""
    holds = f"This price holds for {given['valid_days']} days from its date." if given else f"This price holds until: {BLANK}"
    dowels, boards = sum(stand.all_dowels for stand in cake.supports), sum(stand.all_boards for stand in cake.supports)
    told = [f"{holds} The date is held once the deposit is paid."]
    told.append("Buttercream softens in the warm: the cake is kept cold until shortly before it is served, out of the sun.")
    if dowels:
        told.append(f"In the cake are {dowels} dowels and {boards} boards, which are not food; a page for whoever serves it comes with it.")
    told.append("Colours and shapes are piped by hand and will be close to the picture, but not exactly the same.")
    if given and given["terms"]:
        told.append(given["terms"])
    return tuple(told)
