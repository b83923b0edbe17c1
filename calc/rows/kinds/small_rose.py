"""A small rose: a coiled flower that stands, a cone of buttercream with petals wrapped round it, or one coil of a closed star."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calc.rows.forms import SetApart
from calc.rows.kind import UP_45, Exercise, RowSpec, Vector, Way, register
from calc.sources import constant
from calc.tips import Tip

_PRACTICE = "common-practice"
ROSE_WIDTH = constant(2.2, "-", _PRACTICE, "width of a small rose over the slot of its petal tip", low=1.7, high=2.8)
ROSE_HEIGHT = constant(0.75, "-", _PRACTICE, "height of a small rose over its width", low=0.6, high=1.0)
ROSE_COIL = constant(2.4, "-", _PRACTICE, "width of a rose coiled with a star tip over its line: a middle and one rising turn", low=2.0, high=3.0)
CONE_SHARE = constant(0.5, "-", _PRACTICE, "width of the cone that the petals are wrapped round, over that of the rose", low=0.4, high=0.6)
PETAL_TURNS = constant(2.0, "-", _PRACTICE, "turns of petals round the cone: the bud, and two rows that overlap", low=1.5, high=3.0)


@dataclass(frozen=True, kw_only=True)
class _SmallRose(SetApart):
    def across_mm(self, tip: Tip) -> float:
        return ROSE_WIDTH * tip.opening_mm if tip.slot_mm else ROSE_COIL * tip.bead_width_mm

    def piece(self, spec: RowSpec, notes: list[str]) -> tuple[float, float, float, float, float]:
        """The cone, pi r^2 h / 3, and the ribbon of the petals: the section of the tip along its turns, half-way from the cone to the rim.

        A star tip coils without a cone, half-way from the middle to the rim.
        """
        tip = spec.tip
        wide = spec.size_mm or self.across_mm(tip)
        high, cone = ROSE_HEIGHT * wide, CONE_SHARE * wide if tip.slot_mm else 0.0
        path = PETAL_TURNS * math.pi * (cone + wide) / 2
        return path, math.pi * cone * cone * high / 12 + tip.laid_mm2 * path, wide, high, wide

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        wide = spec.size_mm or self.across_mm(spec.tip)
        high, cone = ROSE_HEIGHT * wide, CONE_SHARE * wide

        def turns(first: float, last: float) -> tuple[Vector, ...]:
            """Round the cone from a share of the way to another: outwards, and down."""
            ring = (first + (last - first) * k / 24 for k in range(25))
            return tuple(
                (
                    (cone + (wide - cone) * s) / 2 * math.cos(PETAL_TURNS * math.tau * s),
                    (cone + (wide - cone) * s) / 2 * math.sin(PETAL_TURNS * math.tau * s),
                    high * (1 - 0.6 * s),
                )
                for s in ring
            )

        bud, petals = turns(0.0, 0.35), turns(0.35, 1.0)
        return (
            Way(((cone / 2, 0.0, 0.1 * high), (cone / 2, 0.0, high)), (1.0, 0.3), 0.4, UP_45),
            Way(bud, (0.8, 0.8), 0.2, UP_45),
            Way(petals, (0.8, 0.2), 0.4, UP_45),
        )


KIND = _SmallRose(
    name="small rose",
    listed=105,
    as_effect=95,
    plural="small roses",
    page="small-roses",
    page_title="Small roses",
    also=("rose", "roses", "rosebud", "buttercream rose", "coiled rose", "ribbon rose", "flower stick", "flower nail"),
    families=("petal", "closed star", "open star"),
    begins_with=("petal", 9.0),
    openings=(("petal", 6.0, 13.0), ("closed star", 5.0, 10.0)),
    place="joints",
    angle="45° to the stick or nail, the thick end of a petal tip down and its thin end up and a little in",
    hand="Pipe a cone on a stick or a nail. Turn it while you lay one petal closely round the point, then wrap three and then five more, each begun "
    "behind the last and a little lower. Chill it, and set it on the cake.",
    steps=("pipe a cone", "wrap the bud", "wrap petals round it, each lower"),
    start_s=25.0,
    swells=True,
    flower=True,
    stands_up=True,
    colour="blush",
    exercise=Exercise(
        "small_roses",
        "Small roses",
        ("piped roses", "buttercream roses", "icing roses", "rosebuds"),
        "small rose",
        Tip("petal", 9),
        6,
        pieces=5,
        size_mm=24,
        aim="a tight bud, and petals that overlap",
        rank=130,
        usual=140,
        tools=("Flower nail or stick",),
    ),
)
register(KIND)
