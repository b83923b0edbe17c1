"""Marking a tier at 1:1: its unrolled side as a strip, and its top as a template.

Map
---
`marking_strip`   to wrap round the cake, or to prick through
`top_template`    joints, dividing lines and the folds of the paper method
"""

from __future__ import annotations

import math
from dataclasses import replace

from calc.division import dividers_mm
from calc.drawing.marks import cross, rule
from calc.drawing.motifs.laid import joints_mm
from calc.drawing.paper.page import BLACK, NO_HEADING, Heading, Sheet, file_name_part, text_at
from calc.drawing.paper.tiles import tile_pages
from calc.drawing.scene import GUIDE, GUIDE_DASH, INK, THIN, Item, Path, Style, circle, polygon, rectangle
from calc.drawing.tiers import TierDrawn
from calc.drawing.unroll import marks
from calc.shapes import outline
from calc.units import Say

_CUT = Style(stroke="#000000", width_mm=0.5)
_TWICE = Style(stroke=INK, width_mm=0.9)


def marking_strip(
    tier: TierDrawn, heading: Heading = NO_HEADING, paper: str = "A4", prick: bool = False, units: str = "metric", side_mm: float | None = None
) -> Sheet:
    """Draw the unrolled side of a tier at 1:1 on as many pages as it takes: to wrap round the cake, or to prick through.

    The closing line stands at the measured side, `side_mm` where it differs from the outline's own, with a scale of a centimetre either
    way. With `prick` the lines are dots. Rows on the top are not on the strip.

    >>> len(marking_strip(TierDrawn(outline("round", 210.0), 0.0, 100.0)).pages)
    3
    """
    say = Say(units)
    if side_mm is not None and abs(side_mm - tier.outline.perimeter_mm) > 1e-6 and tier.outline.kind == "round":
        tier = replace(tier, outline=outline("round", side_mm / math.pi))
    whole, height = tier.outline.perimeter_mm, tier.height_mm
    tab = 16.0
    items: list[Item] = [Path(rectangle(0, 0, whole, height), _CUT)]
    if prick:
        items += marks(tier, bands=False, words=False, prick=True)
    else:
        items += marks(tier, halo="#ffffff")
    # the closing line, with a scale that shows how much the tape was out
    items.append(Path((("M", whole, 0), ("L", whole, height)), _TWICE))
    items.append(Path(polygon([(whole, 0), (whole + tab - 4, 3), (whole + tab - 4, height - 3), (whole, height)]), THIN))
    for mm in range(-10, 11):
        long = 3.4 if mm % 5 == 0 else 2.0
        items.append(Path((("M", whole + mm, height - 12.0), ("L", whole + mm, height - 12.0 - long)), THIN))
    for mm in (-10, -5, 5, 10):
        items.append(text_at(whole + mm, height - 9.0, f"{abs(mm)}", 2.9, "middle", style=BLACK))
    items.append(text_at(whole + 5.5, height * 0.42, "tab: behind the start", 2.9, "middle", style=BLACK, turn=-90.0))
    items.append(text_at(whole - 2.0, height * 0.66, "closes here, at the back", 2.9, "middle", style=BLACK, turn=-90.0))
    items.append(text_at(3.6, height * 0.66, "starts here, at the back", 2.9, "middle", style=BLACK, turn=-90.0))
    jointed = [row for row in tier.rows if row.what.hangs] or [row for row in tier.rows if row.place == "joints" or row.what.scroll]
    joints = joints_mm(jointed[0], whole) if jointed else ()
    for number, s in enumerate(joints, 1):
        # a notch at the top edge, where an error of the tape can be spread
        items.append(Path(polygon([(s - 1.6, 0), (s + 1.6, 0), (s, 3.2)]), Style(fill="#000000")))
        items.append(text_at(s + 2.6, 4.2, str(number), 3.2, face="bold", style=BLACK))
    share = (
        f" Out by less than a centimetre? Read by how much on the scale at the closing line, divide by {len(joints)}, "
        "and lap or open each joint by that much."
        if joints
        else ""
    )
    title = f"Marking strip{' to prick through' if prick else ''}" + (f": {tier.name}" if tier.name else "")
    under = f"{say.length(whole)} round, {say.length(height)} high." + share
    pages = tile_pages(items, (0.0, 0.0, whole + tab - 4, height), title, under, heading, paper, units=units)
    name = "marking-strip" + ("-prick" if prick else "") + (f"-{file_name_part(tier.name)}" if tier.name else "")
    return Sheet(name, title, pages)


def top_template(
    tier: TierDrawn, repeats: int, heading: Heading = NO_HEADING, paper: str = "A4", units: str = "metric", joints: tuple[float, ...] = ()
) -> Sheet:
    """Draw the top of a tier at 1:1 with its joints, dividing lines and the folds of the paper method, on as many pages as it takes.

    Joints stand at even distances round the edge, or where `joints` puts them, from the middle of the back. Each fold halves the circle
    again, so there are as many as the repeats can be halved, up to five.

    >>> len(top_template(TierDrawn(outline("round", 160.0), 0.0, 100.0), 8).pages)
    1
    """
    say = Say(units)
    shape = tier.outline
    left, low, right, high = shape.extent_mm
    points = [(x, -y) for x, y in shape.points(360)]
    items: list[Item] = [Path(circle(0, 0, shape.width_mm / 2) if shape.kind == "round" else polygon(points), _CUT)]
    places = joints or tuple(shape.perimeter_mm * j / repeats for j in range(repeats))
    for number, s in enumerate(places, 1):
        x, y, _ = shape.point(s)
        items.append(rule(0, 0, x, -y, GUIDE_DASH))
        items.append(cross(x, -y, 5.0))
        far = max(10.0, math.hypot(x, y))
        out = 1 - 6.5 / far  # inside the edge, and beside the line that leads there
        items.append(text_at(x * out + 3.4 * y / far, -(y * out - 3.4 * x / far) + 1.4, str(number), 4.0, "middle", "bold"))
    items.append(cross(0, 0, 8.0))
    folds = 0
    if shape.kind == "round":
        half = repeats
        while half % 2 == 0 and folds < 5:
            half //= 2
            folds += 1
        radius = shape.width_mm / 2
        for k in range(2 ** max(0, folds - 1)):
            angle = math.pi * k / 2 ** max(0, folds - 1) + math.pi / 2
            c, s = math.cos(angle) * radius, math.sin(angle) * radius
            items.append(Path((("M", -c, -s), ("L", c, s)), Style(stroke=GUIDE, width_mm=0.3, dash=(1.0, 1.0, 4.0, 1.0))))
    _, back, _ = shape.point(0.0)
    items.append(text_at(0, -back + (20 if high > 40 else 8), "back", 3.6, "middle"))
    items.append(text_at(0, -low - 14, "front", 3.6, "middle"))
    notes = [f"{say.length(shape.width_mm)} across, {repeats} repeats of {say.length(shape.perimeter_mm / repeats)} round the edge."]
    if shape.kind == "round" and repeats >= 2:
        notes.append(f"Dividers at {say.length(dividers_mm(shape.perimeter_mm, repeats))}.")
        if folds:
            rest = repeats // 2**folds
            notes.append(
                f"Paper method: cut out, fold in half {folds} {'time' if folds == 1 else 'times'}"
                + (f", then each part into {rest}." if rest > 1 else ".")
            )
        else:
            notes.append("An odd number of repeats has no folds: use the lines.")
    title = "Top template" + (f": {tier.name}" if tier.name else "")
    pages = tile_pages(items, (left - 1, -high - 1, right - left + 2, high - low + 2), title, " ".join(notes), heading, paper, points, units)
    return Sheet("top-template" + (f"-{file_name_part(tier.name)}" if tier.name else ""), title, pages)
