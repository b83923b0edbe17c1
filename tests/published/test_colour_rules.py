"""Rules on colours and glitters, and colour-blind sight, as published.

Sources
-------
Regulation (EC) No 1333/2008, article 24 and Annex V: six colours whose label must say "may have an adverse effect on activity and attention in
children": E 110 sunset yellow, E 104 quinoline yellow, E 122 carmoisine, E 129 allura red, E 102 tartrazine, E 124 ponceau 4R.
UK Food Standards Agency, The use of glitters and dusts with food: only what is clearly labelled edible may be eaten; "non-toxic" is not edible.
US Food and Drug Administration, Advice to home and commercial bakers on non-edible decorative products: edible ones carry a list of
ingredients.
G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, A Physiologically-based Model for Simulation of Color Vision Deficiency, IEEE TVCG 15(6),
2009: matrices for severity 1.0 (as tabled on the authors' page; from memory, and compared with an independent library in tests/calc).
"""

from __future__ import annotations

import math

import pytest

from calc.colours import CAUTIONS, SIGHT, difference, seen_as
from calc.sources import SOURCES

SIX = {"110": "sunset yellow", "104": "quinoline yellow", "122": "carmoisine", "129": "allura red", "102": "tartrazine", "124": "ponceau 4R"}


def test_the_six_colours_are_named_and_no_other() -> None:
    said = next(text for text, keys in CAUTIONS if "eu-1333" in keys)
    named = {said[i + 2 : i + 5] for i in range(len(said)) if said.startswith("E ", i) and said[i + 2 : i + 5].isdigit()}
    assert named == set(SIX)
    assert "activity and attention in children" in said


def test_non_toxic_is_not_edible_and_edible_has_a_list_of_ingredients() -> None:
    said, keys = next((text, keys) for text, keys in CAUTIONS if "fsa-glitter" in keys)
    assert "non-toxic" in said and "not food" in said and "edible on the label" in said and "list of ingredients" in said
    assert all(key.strip() in SOURCES for key in keys.split(","))


MATRICES = {
    "protanopia": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deuteranopia": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritanopia": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}


@pytest.mark.parametrize("sight", MATRICES)
def test_matrices_as_tabled(sight: str) -> None:
    assert SIGHT[sight] == MATRICES[sight]
    for row in MATRICES[sight]:  # what is grey stays grey
        assert math.fsum(row) == pytest.approx(1.0, abs=2e-6)


@pytest.mark.parametrize("sight", MATRICES)
@pytest.mark.parametrize("grey", ["#000000", "#333333", "#777777", "#c0c0c0", "#ffffff"])
def test_greys_are_seen_as_they_are(sight: str, grey: str) -> None:
    assert seen_as(grey, sight) == grey


def test_red_and_green_draw_together_where_they_are_known_to() -> None:
    """Of a red and a green of about one lightness no more than half the difference is left without red or green receptors, and most of it
    without blue ones."""
    found = difference("#b04a3a", "#5f7a33")
    assert max(found.protanopia, found.deuteranopia) < 0.55 * found.normal
    assert found.tritanopia > 0.6 * found.normal
    assert found.least_sight in ("protanopia", "deuteranopia")
