"""The list that goes to the shop: all that an order takes, less what is at hand, group by group.

What is at hand is kept beside the order by the page, as texts by the key of their line, and comes with the name of what is asked:
`to-the-shop:{"butter": "300 g"}`.

Map
---
`ShopLine`, `shop_lines`   each thing to buy, and how much of it is still to be bought
`shop_file`                the list as JSON, for the page that is taken along
`shop_sheet`               the same on paper, on one page where it can be
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from calc import buttercream
from calc.calculators.declare import Asked, Input
from calc.calculators.order_besides import GROUPS, Line, besides, purposes_of
from calc.calculators.order_cards import one_page
from calc.calculators.packs import bought_for
from calc.calculators.price_form import cost_words
from calc.drawing.paper import Block, Heading, Paragraphs, Sheet, Table
from calc.order import Plan
from calc.price import Bought
from calc.units import Formatter, Problem, capitalised

NAME = "to-the-shop"
FOR_BUTTERCREAM = "For the buttercream"
LONGEST = 40  # characters of what is at hand
MOST = 300  # lines
MASS = Input("have", "What you have", "mass", optional=True, low=0, high=200_000, help="Such as 300 g")
COUNT = Input("have", "What you have", "count", optional=True, low=0, high=1000, help="Such as 3")
AT_HAND = "at hand"
SHARES = (44.0, 29.0, 27.0)  # of the columns on paper: what, how much, what for
NARROW = (40.0, 27.0, 33.0)  # the same where two lists stand side by side


@dataclass(frozen=True)
class ShopLine:
    """One thing on the list. `buy` says how much is still to be bought, `need` how much in numbers: a tick holds for no more than it was set at.

    `reads` is "mass" or "count" where it can be said how much is at hand; `have` is what was typed there, `problem` why it could not be read.
    """

    key: str
    group: str
    what: str
    buy: str
    use: str
    need: float = 0.0
    reads: str = ""
    have: str = ""
    problem: str = ""


def shop_lines(cake: Plan, asked: Asked, have: Mapping[str, str]) -> tuple[ShopLine, ...]:
    """Write the list of an order, less what is at hand."""
    say = Formatter(asked.units, currency=asked.currency)
    batch = buttercream.batch(cake.order.recipe, cake.buttercream_g, density=cake.density)
    in_hand: dict[str, float] = {}
    problems: dict[str, str] = {}
    for line in batch.lines:
        name = line.ingredient.name
        in_hand[name], problems[name] = _read(MASS, have.get(name, ""), asked.units)
    bought = [_bought(line, have.get(line.item.name, ""), problems[line.item.name], say) for line in bought_for(batch, asked["packs"], in_hand).lines]
    owned = Counter(f"tip-{tip.name}" for tip in asked["tips"] or ())
    rest = [_counted(line, have.get(line.key, ""), owned[line.key], asked.units) for line in besides(cake, batch, purposes_of(cake), say)]
    return (*bought, *rest)


def _read(field: Input, text: str, units: str) -> tuple[float, str]:
    """What is at hand, and why it cannot be read where it cannot."""
    try:
        return float(field.read(text, "have", units) or 0), ""
    except Problem as problem:
        return 0.0, problem.message


def _bought(line: Bought, have: str, problem: str, say: Formatter) -> ShopLine:
    """An ingredient of the buttercream."""
    name, pack_g = line.item.name, line.item.pack_g
    what = say.words(name)
    if line.buy_g <= 0:
        buy = AT_HAND
    elif pack_g:
        buy = f"{line.packs} of {say.mass(pack_g)}"
    else:
        buy = say.mass(line.buy_g)
    use = f"{say.mass(line.item.need_g)} needed"
    if line.buy_g > 0:
        use += f", {cost_words(line, say)}" if line.cost is None else f", costs {cost_words(line, say)}"
    return ShopLine(name, FOR_BUTTERCREAM, capitalised(what), buy, use, line.bought_g, "mass", have, problem)


def _counted(line: Line, have: str, owned: int, units: str) -> ShopLine:
    """What is needed besides the buttercream: pieces can be counted, the rest is ticked as a whole. What is typed counts before what is owned."""
    if not line.pieces:
        return ShopLine(line.key, line.group, line.what, line.much, line.use)
    there, problem = _read(COUNT, have, units) if have.strip() else (float(owned), "")
    left = max(0, line.pieces - int(there))
    buy = line.much if not there else f"{left} more" if left else AT_HAND
    return ShopLine(line.key, line.group, line.what, buy, line.use, float(left), "count", have, problem)


def had(name: str) -> dict[str, str]:
    """What is at hand, from the name of what is asked; a `Problem` where it does not read."""
    text = name.partition(":")[2]
    try:
        given = json.loads(text) if text else {}
    except (ValueError, RecursionError):
        given = None
    if not isinstance(given, dict) or len(given) > MOST or any(not isinstance(each, str) or len(each) > LONGEST for each in given.values()):
        raise Problem("have", f"I have: that is more than a shopping list holds. Write amounts like 300 g, each up to {LONGEST} characters")
    return given


def shop_file(cake: Plan, asked: Asked, name: str) -> bytes:
    """Write the list as JSON in UTF-8: its `title`, and `groups` of a `title` and `lines`, each with the fields of a `ShopLine`."""
    lines = shop_lines(cake, asked, had(name))
    groups = []
    for title in (FOR_BUTTERCREAM, *GROUPS):
        inside = [
            {
                "key": line.key,
                "what": line.what,
                "buy": line.buy,
                "use": line.use,
                "need": round(line.need, 3),
                "reads": line.reads,
                "have": line.have,
                "problem": line.problem,
                "isThere": line.buy == AT_HAND,
            }
            for line in lines
            if line.group == title
        ]
        if inside:
            groups.append({"title": title, "lines": inside})
    return json.dumps({"title": cake.order.name, "groups": groups}, ensure_ascii=False, separators=(",", ":")).encode()


def shop_sheet(cake: Plan, asked: Asked, name: str, heading: Heading, paper: str) -> Sheet:
    """Draw the list with a box to tick at each line; what is all at hand is left out."""
    say = Formatter(asked.units)
    lines = [line for line in shop_lines(cake, asked, had(name)) if line.buy != AT_HAND]
    blocks: list[Block] = []
    for title in (FOR_BUTTERCREAM, *GROUPS):
        rows = tuple((line.what, line.buy, line.use) for line in lines if line.group == title)
        if rows:
            blocks.append(Table(title, ("", "", ""), rows, (), True, SHARES))
    names = buttercream.allergens(cake.order.recipe)
    both = ", ".join(dict.fromkeys((*(names.us if say.units == "us" else names.eu),))) or "none that must be named"
    blocks.append(Paragraphs("", (f"Allergens in the buttercream: {both}. Read every label: makers change what is in a pack.",), boxed=True))
    under = say.words(f"{cake.recipe.name} buttercream, {say.mass(cake.buttercream_g)}")
    sheet = one_page("shopping-list", blocks, heading, paper, (3.6, 3.4, 3.2), under, "Shopping list")
    if len(sheet.pages) > 1:  # a tall cake's
        narrow = [replace(block, shares=NARROW) if isinstance(block, Table) else block for block in blocks]
        sheet = one_page("shopping-list", narrow, heading, paper, (3.4, 3.2, 3.0, 2.9, 2.83), under, "Shopping list", columns=2)
    return sheet
