"""The order whose sheets the bench draws: seven tiers, every outline once, four rows on each, as TOML."""

from __future__ import annotations

OUTLINES = (
    ("square", "50 cm", ""), ("hexagon", "42 cm", ""), ("round", "36 cm", ""), ("petal", "30 cm", ""), ("heart", "20 cm", ""),
    ("oval", "11 cm", "14 cm"), ("round", "9 cm", ""),
)  # fmt: skip
ROWS = (
    ("swag", "side", "petal 11 mm", "russet"), ("string", "under", "round 1.8 mm", "cream"), ("shell", "base", "open star 7 mm", "russet"),
    ("rosette", "joints", "closed star 5 mm", "blush"),
)  # fmt: skip
TOP_ROWS = (("ruched border", "top edge", "petal 9 mm", "cream"), ("leaf", "joints", "leaf 6 mm", "bay"))


def seven_tiers(height_cm: int = 10) -> str:
    """The order as TOML; another height gives another order, with nothing cached."""
    lines = ['name = "Seven tiers"', 'ready_at = "2027-10-16 18:00"', 'guests = "400"', 'slice = "25 x 50 mm"', 'recipe = "Swiss meringue"']
    for number, (shape, width, length) in enumerate(OUTLINES, 1):
        lines += [
            "",
            "[[tiers]]",
            f'name = "Tier {number}"',
            f'shape = "{shape}"',
            f'width = "{width}"',
            f'height = "{height_cm} cm"',
            'layers = "3"',
            'filling = "6 mm"',
            'disc = ""',  # else the page gives the lowest tier that of its example
            'colour = "ivory"',
        ] + ([f'length = "{length}"'] if length else [])
        for kind, place, tip, colour in ROWS + (TOP_ROWS if number == len(OUTLINES) else ()):
            lines += ["", "[[tiers.rows]]", f'kind = "{kind}"', f'place = "{place}"', f'tip = "{tip}"', f'colour = "{colour}"']
    return "\n".join(lines) + "\n"
