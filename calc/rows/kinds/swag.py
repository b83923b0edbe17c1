"""A swag: a ribbon led along the arc of a cutter from joint to joint."""

from __future__ import annotations

from calc.rows.forms import Arc
from calc.rows.kind import Exercise, register
from calc.tips import Tip

KIND = Arc(
    name="swag",
    listed=10,
    as_effect=100,
    plural="swags",
    page="swags",
    page_title="Swags",
    also=("drape", "drapes", "garland", "festoon", "scallop", "swag border", "loops", "curtain", "bunting"),
    families=("petal", "open star", "closed star", "round", "leaf", "ruffle"),
    begins_with=("petal", 11.0),
    place="side",
    angle="45° to the side, the thick end of a petal tip against the cake and its thin end away from it",
    hand="Touch the joint, squeeze, and let the line follow the mark down and up again; ease off just before the next joint and touch it.",
    steps=("squeeze at the joint", "sweep at one speed", "ease off and touch"),
    speed_mm_per_s=14.0,
    start_s=6.0,
    plain_line=True,
    exercise=Exercise(
        "swags",
        "Swags",
        (),
        "swag",
        Tip("petal", 11),
        5,
        3,
        drop_mm=22,
        aim="touch both joints, thick end to the cake",
        rank=80,
        usual=20,
    ),
    variants=(
        Exercise(
            "layered_swags",
            "Layered swags",
            ("layered swag", "double swag", "triple swag", "tiered drape", "overlapping swag", "stacked garland"),
            "swag",
            Tip("petal", 9),
            5,
            3,
            drop_mm=22,
            aim="the second ribbon along the upper edge of the first",
            rank=95,
            usual=155,
            layers=2,
            page="layered-swags",
        ),
    ),
)
register(KIND)
