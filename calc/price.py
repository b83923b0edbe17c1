"""A shopping list from weights, and a price from what the cake costs. It may import `units`.

Map
---
`Item`, `Bought`, `Shopping`, `shopping`    weights at the reader's own pack prices, packs rounded up
`price_from_margin`, `price_from_markup`    the two ways of adding a profit, which are not the same
`Quoted`, `quoted`                          what a customer pays: tax, rounded up, deposit and balance
`Price`, `price`                            ingredients, packaging, hours, overhead, profit, tax, deposit, per portion

What comes from the tap is weighed and not bought: it needs no pack, and is never said to lack a price.

Money is plain numbers in the reader's own currency. Every line of a price is rounded to the hundredth, so that the lines
add up as they are shown.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.units import hundredths

FROM_THE_TAP = ("water", "tap water", "cold water", "hot water", "boiling water", "warm water", "water from the tap")


@dataclass(frozen=True)
class Item:
    """One thing on the shopping list: how much is needed, and what a pack holds and costs.

    `pack_g` and `pack_price` are None where no pack is known. `in_hand_g` is already in the cupboard.
    """

    name: str
    need_g: float
    pack_g: float | None = None
    pack_price: float | None = None
    in_hand_g: float = 0.0

    @property
    def is_free(self) -> bool:
        """Whether it comes from the tap and no pack of it is known."""
        return self.pack_g is None and " ".join(self.name.lower().replace(",", " ").split()) in FROM_THE_TAP


@dataclass(frozen=True)
class Bought:
    """One line of the shopping list: whole packs, what is left over, and what it comes to.

    `cost` is what the packs cost at the till, `used_cost` the share that goes into the cake (with what was in hand at
    the pack's price). Both are None where no pack price is known.
    """

    item: Item
    buy_g: float
    packs: int | None
    bought_g: float
    left_g: float
    cost: float | None
    used_cost: float | None


@dataclass(frozen=True)
class Shopping:
    """The whole list."""

    lines: tuple[Bought, ...]
    cost: float
    used_cost: float
    unpriced: tuple[str, ...]

    @property
    def unpriced_words(self) -> str:
        """What the cost leaves out, as the end of a label: ", without butter, salt: no pack price"; nothing when all has a price."""
        if not self.unpriced:
            return ""
        if all(line.cost is None for line in self.lines):
            return ": no pack has a price yet, so nothing is counted"
        return f", without {', '.join(self.unpriced)}: no pack price"


def shopping(items: Sequence[Item], spare_percent: float = 0.0) -> Shopping:
    """Make a shopping list: what is needed less what is in hand, in whole packs, at the reader's prices.

    Formula: buy = need (1 + spare / 100) - in hand; packs = ceil(buy / pack); cost = packs x price; used = need
    (1 + spare / 100) / pack x price.

    Parameters
    ----------
    items : sequence of Item
        What is needed, with packs [g]
    spare_percent : float
        Added to every weight for what sticks to bowls and bags [%]

    Returns
    -------
    Shopping
        Lines in the order given, with sums in the reader's money [-]

    Raises
    ------
    ValueError
        A weight or price is negative, or a pack holds nothing.

    Range: any list. Leaves out: offers for several packs, and what spoils before it is used up.

    Example
    -------
    >>> butter = Item("butter", 900, pack_g=250, pack_price=2.4)
    >>> line = shopping((butter,)).lines[0]
    >>> line.packs, line.left_g, line.cost, round(line.used_cost, 2)
    (4, 100.0, 9.6, 8.64)

    Source: geometry (rounding up)
    """
    if spare_percent < 0:
        raise ValueError("spare cannot be negative")
    lines = []
    for item in items:
        if item.need_g < 0 or item.in_hand_g < 0 or (item.pack_price is not None and item.pack_price < 0):
            raise ValueError(f"{item.name} has a negative weight or price")
        if item.pack_g is not None and item.pack_g <= 0:
            raise ValueError(f"a pack of {item.name} holds a positive weight")
        need = item.need_g * (1 + spare_percent / 100)
        buy = max(0.0, need - item.in_hand_g)
        if item.pack_g is None:
            lines.append(Bought(item, buy, None, buy, max(0.0, item.in_hand_g - need), None, None))
            continue
        packs = whole_packs(buy, item.pack_g)
        bought = packs * item.pack_g
        left = item.in_hand_g + bought - need
        cost = None if item.pack_price is None else packs * item.pack_price
        used = None if item.pack_price is None else need / item.pack_g * item.pack_price
        lines.append(Bought(item, buy, packs, bought, max(0.0, left), cost, used))
    return Shopping(
        tuple(lines),
        math.fsum(line.cost for line in lines if line.cost is not None),
        math.fsum(line.used_cost for line in lines if line.used_cost is not None),
        tuple(line.item.name for line in lines if line.cost is None and not line.item.is_free),
    )


def whole_packs(need_g: float, pack_g: float) -> int:
    """Give how many whole packs hold a weight.

    Formula: packs = ceil(need / pack); a rounding error of a billionth does not buy a pack more.

    Parameters
    ----------
    need_g : float
        Weight needed [g]
    pack_g : float
        Weight in a pack [g]

    Returns
    -------
    int
        Packs [-]

    Raises
    ------
    ValueError
        The pack holds nothing, or the need is negative.

    Range: need >= 0, pack > 0. Leaves out: part packs.

    Example
    -------
    >>> whole_packs(900, 250), whole_packs(1000, 250), whole_packs(0, 250)
    (4, 4, 0)

    Source: geometry (rounding up)
    """
    if need_g < 0 or pack_g <= 0:
        raise ValueError("a need cannot be negative, and a pack holds a positive weight")
    return math.ceil(need_g / pack_g * (1 - 1e-9))


def price_from_margin(cost: float, margin_percent: float) -> float:
    """Give the price of which the profit is a given share: margin on price.

    Formula: price = cost / (1 - margin / 100).

    Parameters
    ----------
    cost : float
        What it costs to make, in the reader's money [-]
    margin_percent : float
        Profit as a share of the price [%]

    Returns
    -------
    float
        Price before tax, in the reader's money [-]

    Raises
    ------
    ValueError
        The cost is negative, or the margin is not from 0 to below 100 %.

    Range: 0 <= margin < 100. Leaves out: what the market bears.

    Example
    -------
    >>> price_from_margin(120, 25)
    160.0

    Source: geometry (percentages)
    """
    if cost < 0 or not 0 <= margin_percent < 100:
        raise ValueError("a cost cannot be negative, and a margin lies from 0 to below 100 % of the price")
    return cost / (1 - margin_percent / 100)


def price_from_markup(cost: float, markup_percent: float) -> float:
    """Give the price for a profit that is a given share of the cost: markup on cost.

    Formula: price = cost (1 + markup / 100).

    Parameters
    ----------
    cost : float
        What it costs to make, in the reader's money [-]
    markup_percent : float
        Profit as a share of the cost [%]

    Returns
    -------
    float
        Price before tax, in the reader's money [-]

    Raises
    ------
    ValueError
        Cost or markup is negative.

    Range: both zero or more. A markup of m % is a margin of 100 m / (100 + m) %. Leaves out: what the market bears.

    Example
    -------
    >>> price_from_markup(120, 25)
    150.0

    Source: geometry (percentages)
    """
    if cost < 0 or markup_percent < 0:
        raise ValueError("a cost and a markup cannot be negative")
    return cost * (1 + markup_percent / 100)


@dataclass(frozen=True)
class Quoted:
    """What a customer is asked for, in the reader's money: before tax, the tax, both, and how it is paid."""

    price: float
    tax: float
    to_pay: float
    deposit: float
    balance: float


def quoted(price: float, tax_percent: float = 0.0, deposit_percent: float = 0.0, round_up_to: float = 0.0) -> Quoted:
    """Give what a customer pays, and when: tax on the price, the sum rounded up where that is wished, a share of it in advance.

    Formula: to pay = price (1 + tax / 100), up to the next whole step; price = to pay / (1 + tax / 100); each to the hundredth.

    Parameters
    ----------
    price : float
        Price before tax, in the reader's money [-]
    tax_percent : float
        Tax on the price [%]
    deposit_percent : float
        Share of what is to pay that is asked in advance [%]
    round_up_to : float
        Step to which what is to pay is rounded up; 0 leaves it as it is [-]

    Returns
    -------
    Quoted
        What is paid, in the reader's money [-]

    Range: amounts of zero or more, a deposit of at most 100 %. Leaves out: whether you must charge tax; ask your tax office.

    Example
    -------
    >>> asked = quoted(190.67, 20, 25, 5)
    >>> asked.to_pay, asked.tax, asked.deposit, asked.balance
    (230.0, 38.33, 57.5, 172.5)

    Source: geometry (percentages), common-practice
    """
    plain = hundredths(price)
    to_pay = hundredths(plain * (1 + tax_percent / 100))
    if round_up_to > 0:
        to_pay = hundredths(round_up_to * math.ceil(to_pay / round_up_to * (1 - 1e-12)))
        plain = hundredths(to_pay / (1 + tax_percent / 100))
    deposit = hundredths(to_pay * deposit_percent / 100)
    return Quoted(plain, hundredths(to_pay - plain), to_pay, deposit, hundredths(to_pay - deposit))


@dataclass(frozen=True)
class Price:
    """A price taken apart, in the reader's money. `price` is before tax, `to_pay` with it, rounded up where asked."""

    ingredients: float
    packaging: float
    labour: float
    overhead: float
    delivery: float
    cost: float
    profit: float
    price: float
    tax: float
    to_pay: float
    deposit: float
    balance: float
    per_portion: float
    cost_per_portion: float
    margin_percent: float
    markup_percent: float
    earned_per_hour: float | None  # labour and profit over the hours, from a minute up


def price(
    ingredients: float,
    hours_min: float,
    rate_per_hour: float,
    overhead_percent: float = 0.0,
    margin_percent: float = 0.0,
    packaging: float = 0.0,
    delivery: float = 0.0,
    on_cost: bool = False,
    tax_percent: float = 0.0,
    deposit_percent: float = 0.0,
    portions: int = 1,
    round_up_to: float = 0.0,
) -> Price:
    """Work out what a cake costs and what to charge for it.

    Formula: labour = hours x rate; overhead = share of (ingredients + packaging + labour); cost = their sum + delivery;
    price = cost / (1 - margin) or cost (1 + markup); to pay = price (1 + tax), rounded up to a whole step: more
    profit. Each line is rounded to the hundredth, so that what is written adds up.

    Parameters
    ----------
    ingredients : float
        What the ingredients cost, in the reader's money [-]
    hours_min : float
        All hours of work on it [min]
    rate_per_hour : float
        What an hour of work costs, in the reader's money [-]
    overhead_percent : float
        Kitchen, power, wear, insurance, as a share of ingredients, packaging and labour [%]
    margin_percent : float
        Profit, as a share of the price, or of the cost when `on_cost` [%]
    packaging : float
        Boards, box, supports, ribbon, in the reader's money [-]
    delivery : float
        Delivery at cost, in the reader's money [-]
    on_cost : bool
        Take the profit as a markup on the cost [-]
    tax_percent : float
        Tax on the price [%]
    deposit_percent : float
        Share of what is to pay that is asked in advance [%]
    portions : int
        Portions it is divided by [-]
    round_up_to : float
        Step to which what is to pay is rounded up; 0 leaves it as it is [-]

    Returns
    -------
    Price
        Every part in the reader's money [-]

    Raises
    ------
    ValueError
        An amount is negative, a share is out of its range, or there is no portion.

    Range: amounts of zero or more. Leaves out: whether you must charge tax; ask your tax office.

    Example
    -------
    >>> asked = price(40, 6 * 60, 15, overhead_percent=10, margin_percent=25, portions=36)
    >>> asked.cost, asked.price, round(asked.per_portion, 2)
    (143.0, 190.67, 5.3)

    Source: geometry (percentages), common-practice
    """
    amounts = (ingredients, hours_min, rate_per_hour, overhead_percent, packaging, delivery, tax_percent, round_up_to)
    if any(not amount >= 0 for amount in amounts) or not 0 <= deposit_percent <= 100 or portions < 1:
        raise ValueError("amounts cannot be negative, a deposit is at most 100 %, and there is one portion or more")
    labour = hundredths(hours_min / 60 * rate_per_hour)
    ingredients, packaging, delivery = hundredths(ingredients), hundredths(packaging), hundredths(delivery)
    overhead = hundredths(math.fsum((ingredients, packaging, labour)) * overhead_percent / 100)
    cost = hundredths(math.fsum((ingredients, packaging, labour, overhead, delivery)))
    asked = price_from_markup(cost, margin_percent) if on_cost else price_from_margin(cost, margin_percent)
    asks = quoted(asked, tax_percent, deposit_percent, round_up_to)
    plain, to_pay, deposit = asks.price, asks.to_pay, asks.deposit
    profit = hundredths(plain - cost)
    tax, balance = asks.tax, asks.balance
    per_hour = (labour + profit) / (hours_min / 60) if hours_min >= 1 else None
    margin, markup = 100 * profit / plain if plain else 0.0, 100 * profit / cost if cost else 0.0
    return Price(
        ingredients, packaging, labour, overhead, delivery, cost, profit, plain, tax, to_pay, deposit, balance,
        to_pay / portions, cost / portions, margin, markup, per_hour,
    )  # fmt: skip
