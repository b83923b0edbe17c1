"""Colour by the published formulas: sRGB, CIE 1976 L*a*b*, CIEDE2000, luminance and contrast. It imports nothing of `calc`.

Map
---
`linear_rgb`, `lab`, `lab_of_light`   sRGB as linear light and as L*, a*, b*
`ciede2000`                           the difference of two colours
`luminance`, `contrast`               of WCAG 2.2

Legend: L*, a*, b* of CIE 1976.
"""

from __future__ import annotations

import math
import re
from functools import lru_cache

_TO_XYZ = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
_WHITE = tuple(math.fsum(row) for row in _TO_XYZ)  # XYZ of R = G = B = 1, so that white has exactly L* = 100
_EPSILON, _KAPPA = 216 / 24389, 24389 / 27


def linear_rgb(colour: str) -> tuple[float, float, float]:
    """Give the linear light of an sRGB colour.

    Formula: c / 12.92 up to 0.04045, else ((c + 0.055) / 1.055)^2.4.

    Parameters
    ----------
    colour : str
        "#rrggbb" [-]

    Returns
    -------
    tuple of (float, float, float)
        Red, green and blue light, 0 to 1 [-]

    Range: sRGB, without transparency. Raises ValueError unless written as #rrggbb.

    Example
    -------
    >>> linear_rgb("#ffffff")
    (1.0, 1.0, 1.0)

    Source: srgb (transfer function)
    """
    if not re.fullmatch(r"#[0-9a-fA-F]{6}", colour):
        raise ValueError("a colour value is written #rrggbb")
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return red, green, blue


def lab_of_light(light: tuple[float, float, float]) -> tuple[float, float, float]:
    """Give L*, a*, b* of linear sRGB light."""
    scaled = [math.fsum(k * c for k, c in zip(row, light, strict=True)) / white for row, white in zip(_TO_XYZ, _WHITE, strict=True)]
    x, y, z = (math.cbrt(t) if t > _EPSILON else (_KAPPA * t + 16) / 116 for t in scaled)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


@lru_cache(maxsize=1024)
def lab(colour: str) -> tuple[float, float, float]:
    """Give L*, a*, b* of an sRGB colour.

    Formula: XYZ by the sRGB matrix, f(t) = cube root of t above 216/24389, else (24389/27 t + 16)/116; L* = 116 f(Y) - 16,
    a* = 500 (f(X) - f(Y)), b* = 200 (f(Y) - f(Z)).

    Parameters
    ----------
    colour : str
        "#rrggbb" [-]

    Returns
    -------
    tuple of (float, float, float)
        L*, a*, b* against the D65 white of sRGB [-]

    Range: sRGB, without transparency. Raises ValueError unless written as #rrggbb.

    Example
    -------
    >>> [round(v, 3) + 0.0 for v in lab("#ffffff")]
    [100.0, 0.0, 0.0]

    Source: cie-lab (definition of L*, a*, b*)
    """
    return lab_of_light(linear_rgb(colour))


def ciede2000(first: tuple[float, float, float], second: tuple[float, float, float]) -> float:
    """Give the CIEDE2000 difference of two colours.

    Formula: as published, with kL = kC = kH = 1: differences of L', C', h' over SL, SC, SH, and the rotation term RT.

    Parameters
    ----------
    first : tuple of (float, float, float)
        L*, a*, b* [-]
    second : tuple of (float, float, float)
        L*, a*, b* [-]

    Returns
    -------
    float
        Difference; about 1 is just seen side by side [-]

    Range: any L*, a*, b*; the published formula jumps at hues exactly half a turn apart. Sheen and shadow on buttercream add
    differences of their own.

    Example
    -------
    >>> round(ciede2000((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485)), 4)
    2.0425

    Source: ciede2000 (eqs. 2 to 22)
    """
    l1, a1, b1 = first
    l2, a2, b2 = second
    chroma_mean = (math.hypot(a1, b1) + math.hypot(a2, b2)) / 2
    seventh = chroma_mean**7
    g = 0.5 * (1 - math.sqrt(seventh / (seventh + 25.0**7)))
    a1, a2 = (1 + g) * a1, (1 + g) * a2
    c1, c2 = math.hypot(a1, b1), math.hypot(a2, b2)
    h1 = math.degrees(math.atan2(b1, a1)) % 360 if c1 else 0.0
    h2 = math.degrees(math.atan2(b2, a2)) % 360 if c2 else 0.0
    turn = h2 - h1
    if not c1 * c2:
        turn = 0.0
    elif turn > 180:
        turn -= 360
    elif turn < -180:
        turn += 360
    d_light, d_chroma = l2 - l1, c2 - c1
    d_hue = 2 * math.sqrt(c1 * c2) * math.sin(math.radians(turn) / 2)
    light, chroma = (l1 + l2) / 2, (c1 + c2) / 2
    if not c1 * c2:
        hue = h1 + h2
    elif abs(h1 - h2) <= 180:
        hue = (h1 + h2) / 2
    else:
        hue = (h1 + h2 + 360) / 2 if h1 + h2 < 360 else (h1 + h2 - 360) / 2
    t = (
        1
        - 0.17 * math.cos(math.radians(hue - 30))
        + 0.24 * math.cos(math.radians(2 * hue))
        + 0.32 * math.cos(math.radians(3 * hue + 6))
        - 0.20 * math.cos(math.radians(4 * hue - 63))
    )
    s_light = 1 + 0.015 * (light - 50) ** 2 / math.sqrt(20 + (light - 50) ** 2)
    s_chroma = 1 + 0.045 * chroma
    s_hue = 1 + 0.015 * chroma * t
    seventh = chroma**7
    turned = -2 * math.sqrt(seventh / (seventh + 25.0**7)) * math.sin(math.radians(60 * math.exp(-(((hue - 275) / 25) ** 2))))
    parts = d_light / s_light, d_chroma / s_chroma, d_hue / s_hue
    return math.sqrt(max(0.0, parts[0] ** 2 + parts[1] ** 2 + parts[2] ** 2 + turned * parts[1] * parts[2]))


def luminance(colour: str) -> float:
    """Give the relative luminance of an sRGB colour.

    Formula: 0.2126 R + 0.7152 G + 0.0722 B in linear light.

    Parameters
    ----------
    colour : str
        "#rrggbb" [-]

    Returns
    -------
    float
        0 for black to 1 for white [-]

    Range: sRGB, without transparency. Raises ValueError unless written as #rrggbb.

    Example
    -------
    >>> round(luminance("#ffffff"), 12)
    1.0

    Source: wcag-22 (definition of relative luminance)
    """
    red, green, blue = linear_rgb(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: str, second: str) -> float:
    """Give the contrast ratio of two sRGB colours.

    Formula: (L1 + 0.05) / (L2 + 0.05), the lighter over the darker.

    Parameters
    ----------
    first : str
        "#rrggbb" [-]
    second : str
        "#rrggbb" [-]

    Returns
    -------
    float
        1 to 21 [-]

    Range: sRGB, without transparency. Raises ValueError unless written as #rrggbb.

    Example
    -------
    >>> round(contrast("#000000", "#ffffff"), 9)
    21.0

    Source: wcag-22 (definition of contrast ratio)
    """
    lighter, darker = sorted((luminance(first), luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)
