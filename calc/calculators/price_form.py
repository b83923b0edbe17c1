"""`price`: a shopping list at your own pack prices, and what to ask for the cake."""

from __future__ import annotations

import math

from calc.calculators.declare import Answer, Asked, Calculator, Group, Input, sheet_answer
from calc.calculators.list_sheets import list_sheet
from calc.price import Bought, Item, Shopping, price, shopping
from calc.units import Formatter, Problem

MOST_MONEY = 1_000_000

ITEMS = Group(
    "items",
    "Item to buy",
    (
        Input("name", "Item", "text", help="Such as butter"),
        Input("mass", "Needed", "mass", low=0, high=1_000_000, help="How much the cake takes, such as 900 g"),
        Input("pack", "Pack", "mass", low=1, high=1_000_000, optional=True, help="What one pack holds, such as 250 g", usual=(10, 30_000)),
        Input("pack_price", "Price of a pack", "money", low=0, high=MOST_MONEY, optional=True, help="What you pay for it"),
        Input("in_hand", "In the cupboard", "mass", low=0, high=1_000_000, optional=True, help="What you have already"),
    ),
    maximum=40,
    help="A shopping list, packs rounded up. Its cost comes on top of the ingredients above.",
)
TASKS = Group(
    "tasks",
    "Task",
    (
        Input("name", "Task", "text", help="Such as piping"),
        Input("time", "Time", "duration", low=0, high=30_000, default_unit="hour", help="Such as 1 h 30 min", usual=(5, 1200)),
    ),
    maximum=40,
    help="Hours by task. They come on top of the hours above.",
)


def _items(asked: Asked) -> tuple[Item, ...]:
    found = []
    for item in asked["items"]:
        if item["pack_price"] is not None and item["pack"] is None:
            raise item.problem("pack", "Pack is empty, and its price is given. Write what the pack holds, like 250 g")
        found.append(Item(item["name"], item["mass"], item["pack"], item["pack_price"], item["in_hand"] or 0.0))
    return tuple(found)


def cost_words(line: Bought, say: Formatter) -> str:
    """What a line of a shopping list costs, or why it costs nothing."""
    if line.cost is not None:
        return say.money(line.cost)
    return "from the tap" if line.item.is_free else "no price"


def list_table(answer: Answer, bought: Shopping) -> None:
    """Add the shopping list to an answer."""
    say = answer.say
    rows = []
    for line in bought.lines:
        pack = "" if line.item.pack_g is None else say.mass(line.item.pack_g)
        rows.append([
            line.item.name, say.mass(line.item.need_g), "" if line.packs is None else str(line.packs), pack,
            cost_words(line, say), say.mass(line.left_g),
        ])  # fmt: skip
    heads = ("Item", "Needed", "Packs", "of", "Cost", "Left over")
    answer.table("shopping", "Shopping list", heads, rows, (1, 2, 3, 4, 5))


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `price`."""
    say = answer.say
    on_cost = asked["margin_of"] == "cost"
    if not on_cost and asked["margin"] > 95:
        raise Problem("margin", "Margin must be 95 % of the price or less. For more, take it as a markup on the cost")
    bought = shopping(_items(asked), asked["spare"])
    minutes = math.fsum([asked["hours"], *(task["time"] for task in asked["tasks"])])
    materials = asked["ingredients"] + (bought.cost if asked["count"] == "packs" else bought.used_cost)
    found = price(
        materials, minutes, asked["rate"], asked["overhead"], asked["margin"], asked["packaging"] or 0.0,
        asked["delivery"] or 0.0, on_cost, asked["tax"], asked["deposit"], asked["portions"], asked["round_up"] or 0.0,
    )  # fmt: skip

    def money(name: str, label: str, value: float) -> None:
        answer.figure(name, label, value, "", say.money(value))

    money("price", "Price, before tax", found.price)
    if found.tax:
        money("tax", "Tax", found.tax)
        money("to_pay", "To pay, tax included", found.to_pay)
    money("per_portion", "For each portion", found.per_portion)
    money("cost", "Cost", found.cost)
    if found.deposit:
        money("deposit", "Deposit", found.deposit)
    if found.earned_per_hour is not None:
        money("earned_per_hour", "Labour and profit for each hour", found.earned_per_hour)
    with answer.quietly():
        if not found.tax:
            money("tax", "Tax", found.tax)
            money("to_pay", "To pay", found.to_pay)
        if not found.deposit:
            money("deposit", "Deposit", found.deposit)
        money("balance", "Balance", found.balance)
        money("cost_per_portion", "Cost of each portion", found.cost_per_portion)
        money("ingredients", "Ingredients", found.ingredients)
        money("labour", "Labour", found.labour)
        money("overhead", "Overhead", found.overhead)
        money("profit", "Profit", found.profit)
        answer.percent("margin", "Profit as a share of the price (margin)", found.margin_percent)
        answer.percent("markup", "Profit as a share of the cost (markup)", found.markup_percent)
        answer.figure("hours", "Hours of work", minutes, "min", say.working_time(minutes))
    ingredients = "Ingredients" + (f", without {', '.join(bought.unpriced)}: no pack price" if bought.unpriced else "")
    lines = [
        (ingredients, found.ingredients), ("Packaging", found.packaging),
        (f"Labour, {say.working_time(minutes)}", found.labour),
        (f"Overhead, {say.percent(asked['overhead'])}", found.overhead), ("Delivery", found.delivery),
        ("Cost", found.cost), ("Profit", found.profit), ("Price, before tax", found.price),
        (f"Tax, {say.percent(asked['tax'])}", found.tax), ("To pay", found.to_pay),
        (f"of that in advance, {say.percent(asked['deposit'])}", found.deposit), ("and at the end", found.balance),
    ]  # fmt: skip
    kept = (ingredients, "Cost", "Price, before tax", "To pay")
    answer.table(
        "parts", "How the price is made up", ("Part", "Amount"), [(label, say.money(value)) for label, value in lines if value or label in kept], (1,)
    )
    if asked["tasks"]:
        answer.table("hours", "Hours by task", ("Task", "Time", "Labour"), [
            (task["name"], say.duration(task["time"]), say.money(task["time"] / 60 * asked["rate"]))
            for task in asked["tasks"]
        ], (1, 2))  # fmt: skip
    if bought.lines:
        list_table(answer, bought)
        if asked["count"] == "packs" and bought.cost - bought.used_cost > 0.005:
            answer.note(
                f"Whole packs cost {say.money(bought.cost)}; what goes into the cake is worth "
                f"{say.money(bought.used_cost)} of that. The price counts the packs."
            )
        if bought.unpriced:
            they = "it is" if len(bought.unpriced) == 1 else "they are"
            answer.note(f"No pack price for {'; '.join(bought.unpriced)}: {they} not in the cost.")
    margin, markup = say.percent(found.margin_percent), say.percent(found.markup_percent)
    if on_cost:
        answer.note(f"A markup of {markup} on the cost is a margin of {margin} on the price.")
    else:
        answer.note(f"A margin of {margin} on the price is a markup of {markup} on the cost.")
    if bought.lines:
        answer.sheet("shopping-list", "Shopping list to tick off")
    answer.sheet("price", "How the price is made up")
    answer.caution(
        "Selling food from home is regulated, and the rules differ from place to place: registration, labels "
        "with allergens, what may be sold. Ask your local food authority, and your tax office about tax."
    )


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw the shopping list, or how the price is made up."""
    title, tables = {"shopping-list": ("Shopping list", ("shopping",)), "price": ("Price", ("parts", "hours"))}[name]
    answer = sheet_answer("price", asked, work_out)
    if name == "shopping-list":
        answer.cautions.clear()  # the one about selling is no help in a shop
    return list_sheet(answer, name, title, tables, paper, ("shopping",)).pdf(units=asked.units)


CALCULATOR = Calculator(
    "price",
    "Price a cake",
    "What it costs to make, hours included, and what to charge for it.",
    (
        Input("ingredients", "Ingredients", "money", "38", low=0, high=MOST_MONEY,
              help="What the ingredients cost, besides those in the list below"),
        Input("hours", "Hours of work", "duration", "8 h", low=0, high=60_000, default_unit="hour",
              help="All of them: shopping, baking, piping, washing up. Such as 8 h", usual=(15, 6000)),
        Input("rate", "Rate for an hour", "money", "16", low=0, high=100_000, help="What an hour of your work costs", each="hour", kitchen="rate"),
        Input("overhead", "Overhead", "percent", "15 %", kitchen="overhead", low=0, high=500,
              help="Kitchen, power, wear, insurance: a share of ingredients, packaging and labour"),
        Input("margin", "Profit", "percent", "20 %", low=0, high=500, help="On top of your own wage", kitchen="margin"),
        Input("margin_of", "Profit is a share of", "choice", "price",
              choices=(("price", "the price (margin)"), ("cost", "the cost (markup)")),
              help="A margin of 20 % on the price is a markup of 25 % on the cost"),
        Input("portions", "Portions", "count", "36", low=1, high=5000, help="Such as 36"),
        Input("packaging", "Packaging", "money", "7", low=0, high=MOST_MONEY, optional=True,
              help="Boards, supports, box, ribbon"),
        Input("delivery", "Delivery", "money", "", low=0, high=MOST_MONEY, optional=True, advanced=True,
              help="At cost"),
        Input("tax", "Tax on the price", "percent", "0 %", low=0, high=100, advanced=True, help="Such as 20 %", kitchen="terms_tax"),
        Input("deposit", "Deposit", "percent", "50 %", low=0, high=100, advanced=True, help="Share to be paid in advance", kitchen="terms_deposit"),
        Input("round_up", "Round up to", "money", "", kitchen="terms_round_up", low=0.01, high=1000, optional=True, advanced=True,
              help="Such as 5, so that the price is a multiple of five"),
        Input("spare", "Spare on the list", "percent", "0 %", low=0, high=100, advanced=True,
              help="Added to every weight in the list for what sticks to bowls and bags"),
        Input("count", "The list counts", "choice", "packs", advanced=True,
              choices=(("packs", "whole packs"), ("used", "what is used")),
              help="Whole packs, or only the share that goes into the cake"),
    ),
    work_out,
    (ITEMS, TASKS),
    draw_sheet,
)  # fmt: skip
