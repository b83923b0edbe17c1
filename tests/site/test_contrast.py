"""The colours in tokens.css, measured: text at 7:1 or better, edges and drawing lines at 3:1 or better.

The formula is the relative luminance and contrast ratio of the Web Content Accessibility Guidelines 2.2 (W3C), sections
"relative luminance" and "contrast ratio"; 7:1 is success criterion 1.4.6, 3:1 is 1.4.11.
"""

import re
from pathlib import Path

import pytest

TOKENS = Path(__file__).parents[2] / "docs" / "assets" / "css" / "tokens.css"

GROUNDS = ("paper", "raised", "sunk")
TEXT = {  # colour: the grounds it is set on
    "ink": (*GROUNDS, "accent-wash", "problem-wash", "caution-wash", "draw-ground", "draw-square"),
    "ink-soft": GROUNDS,
    "accent": (*GROUNDS, "accent-wash"),
    "accent-strong": GROUNDS,
    "on-accent": ("accent", "accent-strong"),
    "problem": (*GROUNDS, "problem-wash"),
    "caution": (*GROUNDS, "caution-wash"),
    "on-head": ("head",),
    "on-head-soft": ("head",),
    "draw-text": ("draw-ground", "draw-square", "draw-cake"),
    "code-comment": ("sunk",),
    "code-string": ("sunk",),
    "code-keyword": ("sunk",),
    "code-number": ("sunk",),
}
EDGES = {
    "edge": GROUNDS,
    "tape-mark": ("tape",),
    "tape": ("head",),
    "draw-line": ("draw-ground", "draw-cake"),
    "draw-guide": ("draw-ground", "draw-cake"),
    "draw-cake-edge": ("draw-ground", "draw-cake"),
    "accent": GROUNDS,  # the focus ring
    "problem": GROUNDS,  # the border of a field with a problem
}


def luminance(colour: str) -> float:
    """Relative luminance of a six-digit hex colour."""
    channels = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def tokens() -> dict[str, dict[str, str]]:
    """The hex colours of each scheme in tokens.css."""
    text = TOKENS.read_text(encoding="utf-8")
    schemes = {}
    for scheme in ("default", "slate"):
        block = re.search(rf'\[data-md-color-scheme="{scheme}"\] \{{(.*?)\n\}}', text, re.DOTALL)
        assert block, f"tokens.css has no block for the scheme {scheme}"
        schemes[scheme] = dict(re.findall(r"--pb-([\w-]+):\s*(#[0-9a-f]{6});", block.group(1)))
    return schemes


SCHEMES = tokens()


def pairs(table: dict[str, tuple[str, ...]]) -> list[tuple[str, str, str]]:
    return [(s, colour, ground) for s in SCHEMES for colour, grounds in table.items() for ground in grounds]


def test_formula_against_the_ends_of_the_scale():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#777777") == pytest.approx(1.0)
    # WCAG's own understanding document gives #767676 as the lightest grey that reaches 4.5:1 on white.
    assert contrast("#767676", "#ffffff") >= 4.5 > contrast("#777777", "#ffffff")


def test_both_schemes_name_the_same_colours():
    assert SCHEMES["default"].keys() == SCHEMES["slate"].keys()
    assert len(SCHEMES["default"]) > 20


@pytest.mark.parametrize(("scheme", "colour", "ground"), pairs(TEXT))
def test_text_reads(scheme, colour, ground):
    ratio = contrast(SCHEMES[scheme][colour], SCHEMES[scheme][ground])
    assert ratio >= 7.0, f"{colour} on {ground} in {scheme} is {ratio:.2f}:1"


@pytest.mark.parametrize(("scheme", "colour", "ground"), pairs(EDGES))
def test_edges_show(scheme, colour, ground):
    ratio = contrast(SCHEMES[scheme][colour], SCHEMES[scheme][ground])
    assert ratio >= 3.0, f"{colour} on {ground} in {scheme} is {ratio:.2f}:1"


def test_colours_stand_only_in_the_tokens():
    for sheet in TOKENS.parent.glob("*.css"):
        if sheet.name in ("tokens.css", "print.css"):
            continue
        loose = re.findall(r"#[0-9a-fA-F]{3,8}\b(?=[^{}]*;)", sheet.read_text(encoding="utf-8"))
        assert not loose, f"{sheet.name} has colours of its own: {loose}"
