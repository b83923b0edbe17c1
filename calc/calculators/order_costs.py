"""The sections of an order's answer on money: recipe and shopping list, and the price."""

from __future__ import annotations

from collections.abc import Sequence

from calc import buttercream, price
from calc.calculators.batch_form import keeping_words, texture_line
from calc.calculators.declare import Answer, Asked
from calc.calculators.order_besides import besides, purposes_of
from calc.calculators.packs import buy, recipe_table
from calc.order import Plan


def add_shopping(answer: Answer, cake: Plan, batch: buttercream.Batch, packs: Sequence[Asked]) -> price.Shopping:
    """Add the recipe, its textures, the shopping list and the allergens; returns what is bought."""
    say = answer.say
    answer.section(
        "shopping", "Recipe and shopping list", "Shopping", "shopping-list", "Copy the list as text", ("shopping", "besides"), takes="To the shop"
    )
    recipe_table(answer, batch)
    by_purpose = purposes_of(cake)
    answer.table(
        "textures",
        "Thinned for each use",
        ("For", "Stir in, for what this cake takes", "Work at", "It is right when it"),
        [texture_line(say, texture, by_purpose[texture.purpose]) for texture in batch.recipe.textures if by_purpose.get(texture.purpose, 0.0) >= 0.5],
    )
    holds = batch.recipe.holds_celsius
    answer.note(
        f"{say.words(batch.recipe.name)}: it {'crusts' if batch.recipe.crusts else 'does not crust'}; edges hold to about "
        f"{say.temperature(holds, holds * 9 / 5 + 32)}. {keeping_words(batch.recipe)}"
    )
    bought = buy(answer, batch, packs)
    answer.table("besides", "To have besides", ("What", "How much", "For"), [line[:3] for line in besides(cake, batch, by_purpose, say)])
    names = buttercream.allergens(cake.order.recipe)
    answer.caution(
        f"Allergens in the buttercream: {', '.join(names.us) or 'none of the nine'} (of the nine named in the US); "
        f"{', '.join(names.eu) or 'none of the fourteen'} (of the fourteen in the EU and UK). "
        "Add those of sponge, fillings and decorations, read every label, and follow your local rules for telling guests."
    )
    for text in buttercream.cautions(cake.order.recipe, answer.units):
        answer.caution(text)
    return bought


def add_price(answer: Answer, cake: Plan, asked: Asked, bought: price.Shopping, hands_min: float) -> None:
    """Add the price and how it comes together."""
    say = answer.say
    answer.section("price", "Price", "Price")
    made = price.price(
        bought.used_cost,
        hands_min,
        asked["rate"],
        asked["overhead"],
        asked["margin"],
        packaging=asked["extras"],
        portions=max(1, cake.portions),
    )
    for name, label, value in (
        ("cost", "Cost", made.cost),
        ("price", "Price", made.price),
        ("per_portion", "For each portion", made.per_portion),
    ):
        answer.figure(name, label, value, "", say.money(value))
    answer.table(
        "price",
        "How the price is made up, in your money",
        ("What", "Amount"),
        [
            [f"Buttercream, its share of the packs{bought.unpriced_words}", say.money(made.ingredients)],
            ["Sponge, boards, box, delivery", say.money(made.packaging)],
            [f"Hands, {say.working_time(hands_min)} at {say.money(asked['rate'])} an hour", say.money(made.labour)],
            ["Overhead", say.money(made.overhead)],
            ["Cost", say.money(made.cost)],
            [f"Margin, {say.percent(made.margin_percent)} of the price", say.money(made.profit)],
            ["Price, before any tax", say.money(made.price)],
        ],
        (1,),
    )
    answer.caution("Selling food from home: ask your local authority what registration, training and labels it requires before you take money.")
