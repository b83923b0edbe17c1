"""What a tin holds: how full a heart is, and any tin by its measured volume.

No calculator of its own: those that ask for a tin take `FULLNESS` and `HOLDS`, `DEEP` from here.
"""

from __future__ import annotations

from dataclasses import replace

from calc.calculators.declare import Asked, Input
from calc.shapes import FULLEST_HEART, HEART_FULLNESS, LEANEST_HEART, Heart, Outline, outline
from calc.sources import constant
from calc.units import Formatter, a_or_an

FARTHEST = constant(0.3, "-", "common-practice", "a tin's area differs by less than this share from that of its shape; beyond it a measure is wrong")
FULLNESS = Input(
    "fullness",
    "Fullness of the heart",
    "percent",
    f"{100 * HEART_FULLNESS:g} %",
    low=100 * LEANEST_HEART,
    high=100 * FULLEST_HEART,
    advanced=True,
    help="Its top over a square as wide: 61 % for a square with two half circles, 72 % for most tins (from memory), 78 % for a very round one",
    only_with=("shape", ("heart",)),
    cake="fullness",
)
FULLNESS_OF_LIST = replace(FULLNESS, label="Fullness of hearts", only_with=None)  # where shapes are typed in a list
HOLDS = Input(
    "holds",
    "What the tin holds",
    "volume",
    optional=True,
    advanced=True,
    low=100,
    high=60_000,
    help="Water that fills it to the brim, such as 2.8 l: it is used instead of the area worked out from its shape",
)
DEEP = Input(
    "deep",
    "How deep the tin is",
    "length",
    optional=True,
    advanced=True,
    low=15,
    high=300,
    help="Inside, beside what it holds, such as 10 cm",
    usual=(25, 160),
)
INPUTS = (FULLNESS, HOLDS, DEEP)
HOLDS_WIDEST = replace(
    HOLDS, label="What the widest tin holds", help="Water that fills it to the brim, such as 2.8 l; the others of the list are taken to be like it"
)
DEEP_WIDEST = replace(DEEP, label="How deep the widest tin is")


def heart_or_other(asked: Asked, shape: str, width_mm: float, length_mm: float | None = None) -> Outline:
    """The outline of a tin by its shape and size, a heart as full as is asked."""
    return outline(shape, width_mm, length_mm, asked["fullness"] / 100 if shape == "heart" else None)


def tin_of(asked: Asked, shape: str, width_mm: float, length_mm: float | None = None) -> Outline:
    """The outline of a tin by its shape and size, or with the area that its volume gives: a fuller or leaner heart, any other one scaled."""
    top = heart_or_other(asked, shape, width_mm, length_mm)
    if asked["holds"] is None:
        return top
    say = Formatter(asked.units)
    if asked["deep"] is None:
        like = say.length(100.0 if say.units == "metric" else 101.6)
        raise asked.problem("deep", f"How deep the tin is: this is empty, and what it holds is given. Write it like {like}")
    area = 1000 * asked["holds"] / asked["deep"]
    if isinstance(top, Heart) and LEANEST_HEART <= area / width_mm**2 <= FULLEST_HEART:
        return outline("heart", width_mm, fullness=area / width_mm**2)
    if abs(area / top.area_mm2 - 1) > FARTHEST:
        raise asked.problem(
            "holds",
            f"What the tin holds: {a_or_an(top.kind)} tin of that size, {say.length(asked['deep'])} deep, holds about "
            f"{say.volume(top.area_mm2 * asked['deep'] / 1000)}, not {say.volume(asked['holds'])}. Measure it again, or check its size",
        )
    return top.scaled((area / top.area_mm2) ** 0.5)


def measured_words(asked: Asked, top: Outline, say: Formatter) -> str:
    """What the measured volume made of the tin, in words; nothing without one."""
    if asked["holds"] is None:
        return ""
    if isinstance(top, Heart) and abs(top.width_mm - asked["width"]) < 1e-6:
        return f"Going by what it holds, the heart's fullness is {say.percent(100 * top.fullness)}."
    return f"Going by what it holds, the tin is treated as {say.length(top.width_mm)} wide."
