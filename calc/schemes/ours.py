"""The handbook's own schemes, with names of our own: things of a house, a field and a year. How they are composed is common practice."""

from __future__ import annotations

from calc.schemes.scheme import CROWN, LOWEST, UPPER, Part, Scheme, register

register(
    Scheme(
        "hay-cart",
        "Hay cart",
        "Layered swags with strings under them, a rope along the edge and shells round the base.",
        (
            Part("swag", "side", 0),
            Part("swag", "over", 1, opening_mm=9.0),
            Part("string", "under", 1),
            Part("shell", "base", 0),
            Part("rope", "top edge", 1, opening_mm=5.0),
            Part("rosette", "joints", 2),
        ),
        ("russet", "cream", "honey", "moss"),
    )
)
register(
    Scheme(
        "goose-down",
        "Goose down",
        "Soft ruched edges over ruched swags, with a rosette at every joint and fat shells round each foot.",
        (
            Part("ruched border", "top edge", 1),
            Part("shell", "base", 1, opening_mm=8.0),
            Part("ruched swag", "side", 0, opening_mm=9.0),
            Part("rosette", "joints", 2),
            Part("bead", "top", 0, on=CROWN),
        ),
        ("blush", "chalk", "buttermilk", "sage"),
    )
)
register(
    Scheme(
        "petticoat",
        "Petticoat",
        "Ruffled swags under an edge of reverse shells, with a string of beads at the foot.",
        (
            Part("ruffled swag", "side", 0, layers=2),
            Part("reverse shell", "top edge", 1, opening_mm=6.0),
            Part("bead", "base", 1, opening_mm=5.0),
            Part("dot", "joints", 2, opening_mm=5.0),
            Part("string", "under", 1),
        ),
        ("old rose", "shell pink", "cream", "sage"),
    )
)
register(
    Scheme(
        "iron-gate",
        "Iron gate",
        "Scroll work round the side, C over S, between an edge of beads and a base of shells.",
        (
            Part("C scroll", "side", 0, "round", 3.0, layers=2, on=LOWEST),
            Part("S scroll", "side", 0, "round", 3.0, layers=2, on=UPPER),
            Part("bead", "top edge", 1),
            Part("shell", "base", 1, opening_mm=6.0),
            Part("dot", "joints", 2),
        ),
        ("slate blue", "chalk", "cream", "sage"),
    )
)
register(
    Scheme(
        "june-hedge",
        "June hedge",
        "Small roses and leaves at every joint, fine strings between them, shells at the foot.",
        (
            Part("string", "side", 1),
            Part("small rose", "joints", 0),
            Part("leaf", "joints", 3, per_joint=2),
            Part("shell", "base", 1, opening_mm=6.0),
            Part("bead", "top edge", 1, opening_mm=4.0),
        ),
        ("dusky rose", "shell pink", "claret", "bay"),
    )
)
register(
    Scheme(
        "first-frost",
        "First frost",
        "Beads and dots only, from round tips: the quickest of these to pipe.",
        (
            Part("bead", "base", 0, opening_mm=6.0),
            Part("bead", "top edge", 0, opening_mm=4.0),
            Part("bead", "side", 1, opening_mm=3.0, below=0.33),
            Part("dot", "joints", 1, per_joint=3),
            Part("bead", "top", 1, on=CROWN, opening_mm=3.0),
        ),
        ("chalk", "forget-me-not", "ivory", "sage"),
    )
)
register(
    Scheme(
        "bell-ropes",
        "Bell ropes",
        "Ropes along edge and base, and swags of a star tip with a rosette at every joint.",
        (
            Part("rope", "base", 0),
            Part("rope", "top edge", 0, opening_mm=5.0),
            Part("swag", "side", 1, "open star", 6.0),
            Part("rosette", "joints", 2),
            Part("string", "under", 0, on=LOWEST),
        ),
        ("honey", "buttermilk", "russet", "moss"),
    )
)
register(
    Scheme(
        "one-hem",
        "One hem",
        "A plain coat with one border round each foot, and one along the top.",
        (
            Part("shell", "base", 0),
            Part("shell", "top edge", 0, opening_mm=6.0, on=CROWN),
        ),
        ("cream", "ivory", "blush", "sage"),
    )
)
register(
    Scheme(
        "plaster-ceiling",
        "Plaster ceiling",
        "Heavily piped over and over: double swags with a line on them, strings, borders on every edge, rosettes and stars.",
        (
            Part("swag", "side", 0, layers=2),
            Part("line", "over", 1, opening_mm=2.5),
            Part("shell", "base", 0, opening_mm=8.0),
            Part("reverse shell", "top edge", 0),
            Part("string", "under", 1),
            Part("string", "under", 2),
            Part("rosette", "joints", 2, opening_mm=6.0),
            Part("shell", "top", 1, opening_mm=5.0, on=CROWN),
            Part("bead", "inside", 1, opening_mm=3.0, on=CROWN),
        ),
        ("ivory", "chalk", "cream", "sage"),
    )
)
register(
    Scheme(
        "rickrack",
        "Rickrack",
        "A zigzag along the edge and another round the middle, with ropes at the foot.",
        (
            Part("zigzag", "top edge", 0, opening_mm=4.5),
            Part("rope", "base", 1, opening_mm=5.0),
            Part("zigzag", "side", 2, opening_mm=3.5, below=0.5),
        ),
        ("terracotta", "cream", "apricot", "moss"),
    )
)
register(
    Scheme(
        "washing-line",
        "Washing line",
        "Nothing heavy: nested strings from a star at every joint, beads at edge and foot.",
        (
            Part("string", "side", 0, layers=3),
            Part("star", "joints", 1, opening_mm=6.0),
            Part("bead", "base", 1, opening_mm=5.0),
            Part("bead", "top edge", 1, opening_mm=3.0),
        ),
        ("verdigris", "chalk", "straw", "sage"),
    )
)
register(
    Scheme(
        "windfall",
        "Windfall",
        "The harvest supper: layered swags with a string under them below, roses and leaves under a ruched edge above, shells round each foot.",
        (
            Part("swag", "side", 0, on=LOWEST),
            Part("swag", "over", 1, opening_mm=9.0, on=LOWEST),
            Part("string", "under", 1, on=LOWEST),
            Part("ruched border", "top edge", 1, on=UPPER),
            Part("shell", "base", 0),
            Part("rosette", "joints", 2, on=UPPER),
            Part("leaf", "joints", 3, per_joint=2, on=UPPER),
        ),
        ("russet", "cream", "blush", "bay"),
    )
)
