"""What a recipe takes, at the reader's own packs and prices: asked and answered alike for a cake and for a class.

Map
---
`PACKS`          the packs that a reader buys
`recipe_table`   what is weighed for a batch, and for each of several goes
`bought_for`     what a batch takes in whole packs, less what is in hand
`buy`            what has to be bought, as a table; gives what it costs
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from calc import buttercream, price
from calc.calculators.declare import Answer, Asked, Group, Input
from calc.calculators.price_form import cost_words
from calc.units import Formatter

PACKS = Group(
    "packs",
    "Pack",
    (
        Input("name", "Ingredient", "text", "butter"),
        Input("mass", "Pack holds", "mass", "250 g", low=1, high=50000, usual=(20, 30_000)),
        Input("price", "Pack costs", "money", "2.50", low=0, high=100000),
    ),
    maximum=40,
    title="Packs, at your prices",
    kitchen="packs",
    line=("{name}", "{mass}", "{price}"),
    folded=True,
    help="Anything without a pack is left out of the cost, and the page says so",
)


def recipe_table(answer: Answer, batch: buttercream.Batch, goes: int = 1) -> None:
    """Add what is weighed for a batch, and for each go where it is made in several."""
    say = answer.say
    heads = ("Ingredient", "Weigh", *((f"Each of {goes} batches",) if goes > 1 else ()))
    answer.table(
        "recipe",
        say.words(f"{batch.recipe.name} buttercream, {say.mass(batch.mass_g)}"),
        heads,
        [
            [say.words(line.ingredient.name), say.weighed(line.mass_g), *([say.weighed(line.mass_g / goes)] if goes > 1 else [])]
            for line in batch.lines
        ],
        tuple(range(1, len(heads))),
    )


def bought_for(batch: buttercream.Batch, packs: Sequence[Asked], in_hand_g: Mapping[str, float] | None = None) -> price.Shopping:
    """Work out what is bought for a batch, less what is in hand of each ingredient [g]."""
    items = []
    for line in batch.lines:
        name = line.ingredient.name
        pack = next((p for p in packs if _same_thing(p["name"], name)), None)
        items.append(price.Item(name, line.mass_g, pack["mass"] if pack else None, pack["price"] if pack else None, (in_hand_g or {}).get(name, 0.0)))
    return price.shopping(items)


def buy(answer: Answer, batch: buttercream.Batch, packs: Sequence[Asked]) -> price.Shopping:
    """Add what a batch takes in whole packs, and what has no price."""
    say = answer.say
    bought = bought_for(batch, packs)
    answer.table(
        "shopping",
        "To buy",
        ("What", "Needed", "Packs", "Left over", "Costs"),
        [
            [
                say.words(b.item.name),
                say.mass(b.item.need_g),
                f"{b.packs} of {say.mass(b.item.pack_g)}" if b.packs and b.item.pack_g else "",
                say.mass(b.left_g) if b.packs else "",
                cost_words(b, say),
            ]
            for b in bought.lines
        ],
        (1, 3, 4),
    )
    if bought.unpriced:
        answer.note(f"No pack price for {say.words('; '.join(bought.unpriced))}: add it under Pack, or the cost leaves it out.")
    return bought


def _same_thing(pack: str, ingredient: str) -> bool:
    """Whether a pack's name is the ingredient's, in British or American words, or whole words of it: "butter" is "butter, unsalted"."""
    pack = re.sub(r"(?i)confectioner'?s'?", "powdered", pack)
    wanted, words = pack.lower().replace(",", " ").split(), f"{ingredient} {Formatter('us').words(ingredient)}".lower().replace(",", " ").split()
    return bool(wanted) and all(word in words for word in wanted)
