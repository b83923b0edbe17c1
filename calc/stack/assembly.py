"""Where the tiers of a cake are stacked, the boxes they travel in, and what must be said about both: decided here, asked by everybody else."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.sources import constant
from calc.stack.boards import Support
from calc.stack.lifting import Lift
from calc.stack.weights import Body
from calc.units import Formatter

STACKED_TALLEST_MM = constant(
    400.0, "mm", "common-practice", "a stacked cake up to this height stands in a household fridge with a shelf out, and upright in a car"
)
BOX_ROOM_MM = constant(50.0, "mm", "common-practice", "a box is this much wider than the board in it, and higher than the cake")
WANTED = ("suits", "home", "venue")


@dataclass(frozen=True)
class Stacking:
    """Where the tiers are stacked, "home" or "venue" ("single" where there is one tier), and why: "weight", "height", "asked" or nothing.

    "home" is wherever the cake is made, before it is piped; "venue" wherever it will stand, after each tier was piped alone.
    """

    where: str
    reason: str = ""

    @property
    def apart(self) -> bool:
        """Whether the tiers are chilled, boxed and carried one by one."""
        return self.where == "venue"


@dataclass(frozen=True)
class Box:
    """A box, inside, with the tiers that travel in it (0 is the lowest), what it may weigh at most, and who lifts it."""

    tiers: tuple[int, ...]
    width_mm: float
    length_mm: float
    height_mm: float
    high_g: float
    lift: Lift


def where_stacked(stands: Sequence[Support], height_mm: float, wanted: str = "suits") -> Stacking:
    """Decide where the tiers of a cake are stacked.

    Formula: as it is wanted; where it is left open, at the venue if two people should not lift the whole cake, or if it is higher
    than 40 cm, otherwise at home.

    Parameters
    ----------
    stands : sequence of Support
        What stands under and in each tier, the lowest first [-]
    height_mm : float
        Height of all tiers [mm]
    wanted : str
        "suits" leaves it open, "home" and "venue" do not [-]

    Returns
    -------
    Stacking
        Where, and why [-]

    Raises
    ------
    ValueError
        There is no tier, or `wanted` is another word.

    Range: any cake. Leaves out: the road, the stairs, and how tall the fridge and the car are: say so with `wanted`.

    Example
    -------
    >>> from calc.shapes import outline
    >>> from calc.stack.boards import supports
    >>> bodies = [Body(outline("round", w), 150) for w in (300, 200, 150)]
    >>> where_stacked(supports(bodies), 450)
    Stacking(where='venue', reason='height')

    Source: niosh-94-110 and hse-l23 (who lifts it), common-practice (height)
    """
    if not stands or wanted not in WANTED:
        raise ValueError("a cake has one tier or more, and is stacked where it suits, at home or at the venue")
    if len(stands) == 1:
        return Stacking("single")
    if wanted != "suits":
        return Stacking(wanted, "asked")
    if stands[0].lift_whole.people == 0:
        return Stacking("venue", "weight")
    return Stacking("venue", "height") if height_mm > STACKED_TALLEST_MM else Stacking("home")


def boxes(bodies: Sequence[Body], stands: Sequence[Support], stacking: Stacking) -> tuple[Box, ...]:
    """Give the boxes a cake travels in: one for each tier where they are stacked at the venue, otherwise one for all.

    Formula: inside, 5 cm wider than the board and 5 cm higher than what stands on it.

    Parameters
    ----------
    bodies : sequence of Body
        Finished tiers, the lowest first [-]
    stands : sequence of Support
        What stands under and in each [-]
    stacking : Stacking
        Where they are stacked [-]

    Returns
    -------
    tuple of Box
        The boxes, the lowest tier's first [-]

    Raises
    ------
    ValueError
        There are not as many supports as tiers.

    Range: any cake. Leaves out: what stands out from the side of an upper tier further than 2 cm, and figures on the top.

    Example
    -------
    >>> from calc.shapes import outline
    >>> from calc.stack.boards import supports
    >>> bodies = [Body(outline("round", w), 105) for w in (210, 160)]
    >>> [(box.tiers, box.width_mm, box.height_mm) for box in boxes(bodies, supports(bodies), Stacking("venue"))]
    [((0,), 360.0, 155.0), ((1,), 210.0, 155.0)]

    Source: common-practice
    """
    if len(bodies) != len(stands):
        raise ValueError("each tier has what it stands on")
    if stacking.apart:
        return tuple(
            Box((i,), stand.board_width_mm + BOX_ROOM_MM, stand.board_length_mm + BOX_ROOM_MM, body.height_mm + BOX_ROOM_MM, stand.high_g, stand.lift)
            for i, (body, stand) in enumerate(zip(bodies, stands, strict=True))
        )
    low = stands[0]
    height = math.fsum(body.height_mm for body in bodies) + BOX_ROOM_MM
    whole = tuple(range(len(bodies)))
    return (Box(whole, low.board_width_mm + BOX_ROOM_MM, low.board_length_mm + BOX_ROOM_MM, height, low.high_g + low.carried_high_g, low.lift_whole),)


def stacking_words(stacking: Stacking) -> tuple[str, str]:
    """Where the tiers are stacked, in two words, and a sentence that says why and what follows.

    >>> stacking_words(Stacking("venue", "weight"))[0]
    'at the venue'
    """
    if stacking.where == "single":
        return "one tier", "There is one tier, and nothing to stack."
    why = {
        "weight": "two people should not lift it whole",
        "height": "it is taller than a household fridge and a car take",
        "asked": "you chose so",
    }.get(stacking.reason, "two people can lift it whole, and a fridge and a car are high enough for it")
    if stacking.apart:
        return "at the venue", (
            f"Stack the tiers at the venue: {why}. Each is piped, chilled and boxed alone; the rows that cover the joins are piped there."
        )
    return "at home", f"Stack the tiers at home, before they are piped: {why}. It is chilled and boxed whole."


def cautions(stands: Sequence[Support], stacking: Stacking, say: Formatter = Formatter()) -> tuple[str, ...]:  # noqa: B008
    """Give what must be said about the supports of a cake and about lifting it, the lowest tier first.

    >>> from calc.shapes import outline
    >>> from calc.stack.boards import supports
    >>> len(cautions(supports([Body(outline("round", 210), 105)]), Stacking("single")))
    1
    """
    found = []
    dowels, boards = sum(stand.all_dowels for stand in stands), sum(stand.all_boards for stand in stands)
    if dowels:
        found.append(
            f"Supports are not food. Count the {dowels} dowels and {boards} boards in, write the number on the box, tell whoever "
            "cuts the cake, and count them out before a plate leaves the table. Use only dowels and boards sold for contact "
            "with food; never put bare wires or picks into a cake."
        )
    if stands:
        found.append(_lifting(stands, stacking, say))
    return tuple(found)


def _lifting(stands: Sequence[Support], stacking: Stacking, say: Formatter) -> str:
    """Who lifts the cake, whole or tier by tier as it is stacked, and how."""
    how = "close to the body, both hands under the board, on a clear way. Where lifting is your work, your local rules come first."
    whole = stands[0].lift_whole
    mass = say.mass(stands[0].high_g + stands[0].carried_high_g)
    about = f"about {say.about_mass(whole.limit_g)}" if whole.limit_g >= 100 else "it is too wide for one"
    if stacking.apart:
        alone = [stand.lift.people for stand in stands]
        who = (
            "One tier is more than two people should lift: make it smaller, or build it where it will stand"
            if 0 in alone
            else "Two people lift the heaviest tier, one giving the word"
            if 2 in alone
            else "One person can lift each tier"
        )
        return f"With all its tiers this cake may weigh {mass}. Carry the tiers separately and stack them where the cake will stand. {who}, {how}"
    if whole.people == 1:
        return (
            "Lift from a table, close to the body, with both hands under the board and a clear way. Where lifting is your work, your "
            "local rules come first."
        )
    said = f"With all its tiers this cake may weigh {mass}, more than one person should lift at this width ({about}). "
    if whole.people == 2:
        return said + f"Two people lift it, one giving the word, {how}"
    if len(stands) == 1:
        return said + f"It is more than two people should lift, too: make it smaller, or build it where it will stand. Whoever moves it does so {how}"
    return said + (
        "It is more than two people should lift, too, and yet you chose to stack it at home: stack it at the venue, or have it moved by people and "
        f"means meant for such loads. Whoever moves it does so {how}"
    )
