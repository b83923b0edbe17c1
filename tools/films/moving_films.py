"""The moving pictures that a page can have, by name.

`FILMS`   name, as a ```` ```moving ```` fence gives it -> function of a tip and a colour, giving a `Film`
`film`    one of them, as a fence asks for it
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from calc.colours import PALETTE
from calc.rows import KINDS
from calc.tips import Tip, read_tip
from tools.films import (
    moving_bag,
    moving_flowers,
    moving_hands,
    moving_lines,
    moving_marking,
    moving_rows,
    moving_series,
    moving_square,
    moving_strip,
    moving_tools,
)
from tools.films.moving import Film

FILMS: dict[str, Callable[[Tip, str], Film]] = {
    **moving_rows.FILMS,
    **moving_hands.FILMS,
    **moving_lines.FILMS,
    **moving_flowers.FILMS,
    **moving_tools.FILMS,
    **moving_series.FILMS,
    **moving_bag.FILMS,
    **moving_marking.FILMS,
    **moving_strip.FILMS,
    **moving_square.FILMS,
}

OF_KIND = {**moving_flowers.OF_KIND, **moving_series.OF_KIND}


def film(name: str, values: Mapping[str, str]) -> Film:
    """A moving picture with the tip and the colour of a fence, or those that its kind begins with."""
    kind = KINDS.get(OF_KIND.get(name, name))
    begins = Tip(*kind.begins_with) if kind else Tip("round", 3.0)
    tip = read_tip(values["tip"], "tip", "Tip") if "tip" in values else begins
    return FILMS[name](tip, PALETTE[values.get("colour", kind.colour if kind else "russet")])
