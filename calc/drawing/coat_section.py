"""A tier cut through its middle: layers, fillings, dam, crumb coat and final coat, to scale.

Map
---
`section_scene`   `Coats` -> `Scene`, with the thicknesses written beside what they belong to
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from calc.coats import Coats
from calc.drawing.faces import text_width_mm
from calc.drawing.scene import INK, THIN, WORDS, Item, Path, Scene, Style, Text, polyline, rectangle
from calc.drawing.shading import mixed
from calc.units import Formatter

_FIGURE = re.compile(r"\d")  # on the screen all figures are as wide as a zero
SPONGE = Style(fill="#dcb887", stroke=INK, width_mm=0.2)
FILLING = Style(fill="#fff3d6", stroke=INK, width_mm=0.2)
DAM = Style(fill="#f6cfae", stroke=INK, width_mm=0.2)
CRUMB = Style(fill="#efdcb4", stroke=INK, width_mm=0.2)
FINAL = "#e7b6b4"
SHADES = ("#9c4f5c", "#f4e3dc")  # an ombre coat runs from the first, at the base, to the second
BOARD = Style(fill="#8a6f5c", stroke=INK, width_mm=0.2)


def section_scene(
    made: Coats,
    units: str = "metric",
    bands_mm: Sequence[tuple[float, float]] = (),
    stripes_mm: Sequence[tuple[float, float]] = (),
    groove_mm: float = 0.0,
) -> Scene:
    """Draw a tier cut through its middle, to scale, with every thickness named."""
    if groove_mm > made.final_mm + 1e-9:
        raise ValueError("stripes are no deeper than the final coat")
    say = Formatter(units)
    half, side, top = made.outline.width_mm / 2, made.coat_mm, made.top_mm
    height, whole = made.height_mm, made.finished_height_mm
    crumb, crumb_top = made.crumb_mm, min(made.crumb_mm, made.top_mm)
    outer = half + side
    middle = height - made.layer_mm - made.filling_mm / 2
    dammed = made.dam_ml > 0

    # What is named, from the top down: where the leader starts, and the words, which say it in one line or two.
    named: list[tuple[float | None, float, str]] = []
    if made.final_mm > 0:
        named.append((outer - made.final_mm / 2, whole - max(0.0, top - crumb_top) / 2, f"final coat {say.length(made.final_mm)}"))
        if abs(top - side) >= 0.05:
            named.append((None, 0.0, f"(top {say.length(top)} in all)"))
    if crumb > 0:
        named.append((half + crumb / 2, height - made.layer_mm * 0.2, f"crumb coat {say.length(crumb)}"))
    named.append((half * 0.8, height - made.layer_mm * 0.6, f"layer {say.length(made.layer_mm)}"))
    if made.fillings and made.filling_mm > 0:
        if dammed:
            named.append((half - made.dam_mm / 2, middle, f"dam {say.length(made.dam_mm)} wide"))
        named.append((half - made.dam_mm - 0.06 * outer if dammed else half * 0.8, middle, f"filling {say.length(made.filling_mm)}"))
    across = 30.5  # how many letters high the scene is wide: they must be read on a telephone
    beside = 8.2 + max(text_width_mm(_FIGURE.sub("0", words), 1.0) for _, _, words in named)  # of these the cake does not get
    room = max(2 * outer / (1 - beside / across), 1.2 * whole)  # the whole scene's width
    unit = room / across  # the height of the words

    def box(x: float, low: float, width: float, high: float, style: Style) -> Path:
        return Path(rectangle(x, -high, width, high - low), style)

    items: list[Item] = [box(-outer - 2 * unit, -0.8 * unit, 2 * outer + 4 * unit, 0.0, BOARD)]
    items.append(box(-outer, 0.0, 2 * outer, whole, Style(fill=FINAL, stroke=INK, width_mm=0.2)))
    for number, (low, high) in enumerate(bands_mm):
        shade = mixed(*SHADES, number / max(1, len(bands_mm) - 1))
        items.append(box(-outer, low, 2 * outer, high, Style(fill=shade, stroke=INK, width_mm=0.1)))
    for low, high in stripes_mm:
        for x in (-outer, outer - groove_mm):
            items.append(box(x, low, groove_mm, high, Style(fill=SHADES[0], stroke=INK, width_mm=0.1)))
    items.append(box(-half - crumb, 0.0, 2 * (half + crumb), height + crumb_top, CRUMB))
    level = 0.0
    for layer in range(made.layers):
        items.append(box(-half, level, 2 * half, level + made.layer_mm, SPONGE))
        level += made.layer_mm
        if layer < made.fillings and made.filling_mm > 0:
            items.append(box(-half, level, 2 * half, level + made.filling_mm, FILLING))
            if made.dam_ml > 0:
                for x in (-half, half - made.dam_mm):
                    items.append(box(x, level, made.dam_mm, level + made.filling_mm, DAM))
            level += made.filling_mm

    words_x = outer + 2.5 * unit
    place = whole
    for start, z, words in named:
        if start is None:  # goes on from the line before
            place += 0.45 * unit
        else:
            place = min(place, z + unit * 0.3)
            items.append(Path(polyline([(start, -z), (words_x - 0.4 * unit, -place)]), THIN))
        items.append(Text(words_x, -place + 0.35 * unit, words, unit, style=WORDS))
        place -= 1.7 * unit

    under = 2.2 * unit
    items.append(Path(polyline([(-outer, under), (outer, under)]), THIN))
    items += [Path(polyline([(x, under - 0.5 * unit), (x, under + 0.5 * unit)]), THIN) for x in (-outer, outer)]
    items.append(Text(0.0, under + 1.5 * unit, f"{say.length(2 * outer)} finished", unit, "middle", style=WORDS))
    left = -outer - 3.2 * unit
    items.append(Path(polyline([(left, 0.0), (left, -whole)]), THIN))
    items += [Path(polyline([(left - 0.5 * unit, z), (left + 0.5 * unit, z)]), THIN) for z in (0.0, -whole)]
    items.append(Text(left - 0.7 * unit, -whole / 2, say.length(whole), unit, "middle", style=WORDS, turn_deg=-90.0))
    inside = f"{made.layers} layers of sponge" if made.layers > 1 else "one layer of sponge"
    if made.fillings:
        inside += (
            f" with {made.fillings} fillings of {say.length(made.filling_mm)}"
            if made.fillings > 1
            else f" with one filling of {say.length(made.filling_mm)}"
        )
    description = (
        f"Cut through the middle: {inside}, crumb coat {say.length(crumb)}, final coat {say.length(made.final_mm)}; "
        f"{say.length(2 * outer)} wide and {say.length(whole)} high when finished."
    )
    x0 = left - 2.2 * unit
    used = words_x + (beside - 7.9) * unit - x0
    width = max(room, used)
    x0 -= (width - used) / 2
    bottom = max(under + 2.2 * unit, -place)
    return Scene("The tier cut through its middle, to scale", description, x0, -whole - unit, width, whole + unit + bottom, tuple(items))
