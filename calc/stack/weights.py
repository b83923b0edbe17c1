"""What a finished tier weighs, with a range."""

from __future__ import annotations

from dataclasses import dataclass

from calc.shapes import Outline
from calc.sources import constant

SPONGE_G_PER_ML = constant(
    0.415,
    "g/ml",
    "fao-density",
    "cake; the range is that of the two-layer cakes of 8 and 9 in in USDA SR Legacy, two layers of 1.5 in assumed",
    group="measured",
    low=0.28,
    high=0.46,
)
BUTTERCREAM_SPREAD = constant(
    0.15, "-", "common-practice", "how far the buttercream that ends up on a tier differs from the calculated amount, either way"
)


@dataclass(frozen=True)
class Mass:
    """A weight with its range [g]."""

    middle_g: float
    low_g: float
    high_g: float

    def __add__(self, other: Mass) -> Mass:
        return Mass(self.middle_g + other.middle_g, self.low_g + other.low_g, self.high_g + other.high_g)


@dataclass(frozen=True)
class Body:
    """One finished tier: its outline with the coat, its height with the coat, what is in it [mm, ml, g].

    Without `sponge_ml` the whole tier counts as sponge except the buttercream, whose volume is then taken at 1 g/ml. A tall tier is built
    on `levels`, with a board on supports between them.
    """

    outline: Outline
    height_mm: float
    sponge_ml: float | None = None
    buttercream_g: float = 0.0
    levels: int = 1


def tier_mass_g(body: Body) -> Mass:
    """Give the weight of a finished tier, with its range.

    Formula: V_sponge rho + m_buttercream, rho = 0.415 (0.28 to 0.46) g/ml, the buttercream as given, 15 % either way.

    Parameters
    ----------
    body : Body
        The finished tier [-]

    Returns
    -------
    Mass
        Weight, and its range [g]

    Raises
    ------
    ValueError
        The height is not positive, or an amount is negative.

    Range: sponges from angel cake to a close chocolate sponge. Leaves out: fruit cake (about twice as heavy), boards, dowels,
    figures and flowers.

    Example
    -------
    >>> from calc.shapes import outline
    >>> round(tier_mass_g(Body(outline("round", 200), 100, sponge_ml=2800, buttercream_g=700)).middle_g)
    1862

    Source: fao-density (cake), usda-sr (two-layer cakes of 8 and 9 in), common-practice
    """
    if body.height_mm <= 0 or body.buttercream_g < 0 or (body.sponge_ml is not None and body.sponge_ml < 0):
        raise ValueError("a tier has a positive height, and no negative sponge or buttercream")
    whole_ml = body.outline.area_mm2 * body.height_mm / 1000
    sponge_ml = body.sponge_ml if body.sponge_ml is not None else max(0.0, whole_ml - body.buttercream_g)
    return Mass(
        sponge_ml * SPONGE_G_PER_ML + body.buttercream_g,
        sponge_ml * SPONGE_G_PER_ML.low + body.buttercream_g * (1 - BUTTERCREAM_SPREAD),
        sponge_ml * SPONGE_G_PER_ML.high + body.buttercream_g * (1 + BUTTERCREAM_SPREAD),
    )
