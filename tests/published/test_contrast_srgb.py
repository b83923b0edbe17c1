"""Relative luminance, contrast and the sRGB transfer curve.

Sources: Web Content Accessibility Guidelines 2.2, W3C: definitions of relative luminance and contrast ratio, and the worked colours of
techniques G207 and G223 and of Understanding Non-text Contrast. Printed figures are rounded to one place; four places were computed from
the published formula. (One printed figure, 5.6:1 for #E5E5E5 on #6221EA, is cut off, not rounded, and left out.)
IEC 61966-2-1:1999: transfer curve of sRGB, and its matrix to XYZ.
"""

from __future__ import annotations

import pytest

from calc.colours import contrast, lab, linear_rgb, luminance

PRINTED = (
    ("#e3660e", "#ffffff", 3.4),
    ("#949494", "#ffffff", 3.0),
    ("#ca0000", "#ffffff", 6.0),
    ("#fff000", "#ffffff", 1.2),
    ("#9d9d9d", "#ffffff", 2.7),
)
COMPUTED = (
    ("#e3660e", "#ffffff", 3.4019),
    ("#949494", "#ffffff", 3.0335),
    ("#ca0000", "#ffffff", 5.9807),
    ("#fff000", "#ffffff", 1.1854),
    ("#9d9d9d", "#ffffff", 2.7120),
    ("#777777", "#ffffff", 4.4781),
    ("#767676", "#ffffff", 4.5422),
    ("#595959", "#ffffff", 7.0047),
    ("#333333", "#ffffff", 12.6347),
    ("#000000", "#ffffff", 21.0),
)


@pytest.mark.parametrize("ink, ground, ratio", PRINTED)
def test_contrast_as_printed(ink: str, ground: str, ratio: float) -> None:
    assert round(contrast(ink, ground), 1) == ratio


@pytest.mark.parametrize("ink, ground, ratio", COMPUTED)
def test_contrast_to_four_places(ink: str, ground: str, ratio: float) -> None:
    assert contrast(ink, ground) == pytest.approx(ratio, abs=5e-5)


def test_luminance_weights_are_those_of_the_definition() -> None:
    assert luminance("#ff0000") == pytest.approx(0.2126)
    assert luminance("#00ff00") == pytest.approx(0.7152)
    assert luminance("#0000ff") == pytest.approx(0.0722)


def test_the_transfer_curve_meets_at_its_threshold() -> None:
    """10/255 = 0.0392 lies on the straight part (threshold 0.04045), 11/255 = 0.0431 on the curve."""
    assert linear_rgb("#0a0a0a")[0] == pytest.approx(10 / 255 / 12.92, rel=1e-15)
    assert linear_rgb("#0b0b0b")[0] == pytest.approx(((11 / 255 + 0.055) / 1.055) ** 2.4, rel=1e-15)
    curve = ((0.04045 + 0.055) / 1.055) ** 2.4
    assert curve == pytest.approx(0.04045 / 12.92, rel=1e-4)


def test_lab_of_the_greys_is_neutral_and_of_white_100() -> None:
    """L* = 116 cbrt(Y) - 16; the grey #777777 has Y = 0.18448 and so L* = 50.03 (computed)."""
    assert lab("#ffffff")[0] == pytest.approx(100)
    light, a, b = lab("#777777")
    assert light == pytest.approx(116 * luminance("#777777") ** (1 / 3) - 16, abs=1e-9)
    assert light == pytest.approx(50.03, abs=0.01)
    assert abs(a) < 1e-9 and abs(b) < 1e-9
    assert lab("#000000") == pytest.approx((0, 0, 0), abs=1e-12)
