"""Who lifts a cake: the revised NIOSH lifting equation for a board carried from table to table."""

from __future__ import annotations

from dataclasses import dataclass

from calc.sources import constant
from calc.units import Formatter

LIFT_LOAD_G = constant(23_000.0, "g", "niosh-94-110", "load constant: the most for a lift under the best conditions", group="derived")
LIFT_NEAR_MM = constant(250.0, "mm", "niosh-94-110", "hands this far before the ankles are as near as a lift can be", group="derived")
LIFT_FAR_MM = constant(630.0, "mm", "niosh-94-110", "hands further out than this: the equation gives 0", group="derived")
LIFT_REACH_MM = constant(
    200.0, "mm", "niosh-94-110", "hands at the middle of a load stand 20 cm and half its width before the ankles; the manual's rule, from memory"
)
LIFT_GRIP = constant(
    0.90, "-", "niosh-94-110", "coupling multiplier of a poor grip: a flat board without handles; value from memory", group="derived"
)
LIFT_TWO = constant(2 / 3, "-", "hse-l23", "a team of two can lift two thirds of the sum of what each can", group="derived")


@dataclass(frozen=True)
class Lift:
    """Who lifts a weight: 1 or 2 people, or 0 where it should be taken apart; and what one should lift at most [g]."""

    people: int
    limit_g: float

    def words(self, say: Formatter = Formatter()) -> str:  # noqa: B008
        """The advice in words, in the reader's units."""
        one = f"one person should lift at most about {say.about_mass(self.limit_g)} of this width"
        if self.limit_g < 100:
            one = "nobody should lift a board of this width alone"
        if self.people == 1:
            return f"one person ({one})"
        if self.people == 2:
            return f"two people, one of them giving the word ({one})"
        return f"too heavy to carry in one piece ({one}): carry the tiers separately and stack them where the cake will stand"


def lift_limit_g(width_mm: float) -> float:
    """Give the most that one person should lift of a cake on a board of some width.

    Formula: RWL = 23 kg x 25 cm / H x 0.90, H = 20 cm + W/2 the distance of the hands before the ankles, at least 25 cm:
    the revised lifting equation from and to the height of a table, without turning, now and then, with a poor grip.

    Parameters
    ----------
    width_mm : float
        Width W of the board, from the body outwards [mm]

    Returns
    -------
    float
        Recommended weight limit; 0 if the hands would be further out than 63 cm [g]

    Raises
    ------
    ValueError
        The width is not positive.

    Range: two hands, a steady stand, table height to table height. Leaves out: stairs, carrying far, slippery floors,
    lifting from a fridge's lowest shelf or out of a car, and how strong anybody is.

    Example
    -------
    >>> round(lift_limit_g(300)), round(lift_limit_g(500))
    (14786, 11500)

    Source: niosh-94-110 (section 1.3 and tables 1 and 7)
    """
    if not width_mm > 0:
        raise ValueError("a board has a positive width")
    reach = max(LIFT_NEAR_MM, LIFT_REACH_MM + width_mm / 2)
    if reach > LIFT_FAR_MM:
        return 0.0
    return LIFT_LOAD_G * LIFT_NEAR_MM / reach * LIFT_GRIP


def lift(mass_g: float, width_mm: float) -> Lift:
    """Say who should lift a cake of some weight on a board of some width.

    Formula: one person up to the limit of `lift_limit_g`, two up to 2 x 2/3 of it; beyond that the cake is taken apart.

    Parameters
    ----------
    mass_g : float
        Weight; take the upper end of its range [g]
    width_mm : float
        Width of the board [mm]

    Returns
    -------
    Lift
        How many people, and the limit for one [-]

    Raises
    ------
    ValueError
        The weight is negative, or the width is not positive.

    Range: as `lift_limit_g`. Leaves out: as `lift_limit_g`; local rules on lifting at work come first.

    Example
    -------
    >>> lift(5_000, 300).people, lift(16_000, 300).people, lift(25_000, 300).people
    (1, 2, 0)

    Source: niosh-94-110 (section 1.3), hse-l23 (team handling)
    """
    if mass_g < 0:
        raise ValueError("a cake has no negative weight")
    limit = lift_limit_g(width_mm)
    if mass_g <= limit:
        return Lift(1, limit)
    return Lift(2 if mass_g <= 2 * LIFT_TWO * limit else 0, limit)
