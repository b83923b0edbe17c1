"""A string: a fine line that hangs freely from joint to joint."""

from __future__ import annotations

from calc.rows.forms import Hanging
from calc.rows.kind import Exercise, register
from calc.tips import Tip

KIND = Hanging(
    name="string",
    listed=40,
    as_effect=10,
    plural="strings",
    page="strings",
    page_title="Drop strings",
    also=("drop string", "dropped line", "string work", "stringwork", "drop loop", "extension", "lace loop", "lattice"),
    families=("round",),
    begins_with=("round", 1.8),
    place="side",
    angle="level with the joint, the tip just touching it and then drawn 2 to 3 cm (about an inch) away from the side",
    hand="Touch and squeeze to stick the end, pull away and let the string hang free, then touch the next joint. Let its weight make the curve; "
    "do not guide it down.",
    steps=("touch and squeeze", "draw away and across", "touch the next joint"),
    speed_mm_per_s=20.0,
    start_s=5.0,
    side_phase="strings",
    texture="strings",
    plain_line=True,
    exercise=Exercise(
        "strings",
        "Strings",
        (),
        "string",
        Tip("round", 2),
        6,
        3,
        drop_mm=25,
        aim="pull away and let it hang",
        rank=110,
        usual=30,
        tools=("Upright board, tile or tin",),
    ),
    variants=(
        Exercise(
            "nested_strings",
            "Nested strings",
            (
                "triple string",
                "double string",
                "multiple string",
                "multiple drop string",
                "overlapping string",
                "crossed string",
                "interlaced loop",
                "lattice string",
            ),
            "string",
            Tip("round", 2),
            6,
            3,
            drop_mm=25,
            aim="the deepest first, and room between the threads",
            rank=120,
            usual=160,
            layers=2,
            tools=("Upright board, tile or tin",),
            page="nested-strings",
        ),
    ),
)
register(KIND)
