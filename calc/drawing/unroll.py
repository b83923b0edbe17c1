"""The side of a tier laid flat, at 1:1: what gets marked.

Map
---
`marks`          joints, arcs, strings, guide tape, bands of a tier as items from (0, 0), the top edge at the back
`unrolled`       the same as a drawing, piped or not
`guide_tape`     where the guide tape lies

s runs to the right from the middle of the back, where it starts and closes; the top edge is y = 0.
"""

from __future__ import annotations

import math
from functools import lru_cache

from calc.curves import arc_radius_mm
from calc.drawing.faces import broken, text_width_mm
from calc.drawing.marks import cross, label, rule
from calc.drawing.motifs import SHADOW_COLOUR, motif, ribbon, strand_paths
from calc.drawing.motifs.c_scroll_look import scroll_lines
from calc.drawing.motifs.laid import WAVE, joints_mm, spans
from calc.drawing.scene import (
    CAKE,
    GUIDE_DASH,
    GUIDE_LINE,
    INK,
    LINE,
    THIN,
    Group,
    Item,
    Parts,
    Path,
    Point,
    Scene,
    Style,
    Use,
    arc,
    circle,
    rectangle,
    smooth,
)
from calc.drawing.tiers import TierDrawn, lay
from calc.drawing.views import band_mm
from calc.rows import layer_drops_mm
from calc.rows.placement import PlacedRow, guide_tape
from calc.units import Say

DOTS = Style(stroke=INK, width_mm=1.0, role="line", dash=(0.0, 5.0))


def swag_parts(start_mm: float, line_mm: float, width_mm: float, drop_mm: float) -> Parts:
    """Give the arc of one swag as true parts of a circle."""
    if drop_mm < 1e-6 * width_mm:
        return (("M", start_mm, line_mm), ("L", start_mm + width_mm, line_mm))
    radius = arc_radius_mm(width_mm, drop_mm)
    half = math.degrees(2 * math.atan(2 * drop_mm / width_mm))
    return arc(start_mm + width_mm / 2, line_mm + drop_mm - radius, radius, 90 + half, 90 - half)


def piped(tier: TierDrawn, row: PlacedRow, from_mm: float = 0.0, to_mm: float | None = None, cut: bool = False) -> Group:
    """Draw a row on the flat side in its colour."""
    whole = tier.outline.perimeter_mm
    end = whole if to_mm is None else to_mm
    laid = lay(row, whole, tier.height_mm)
    items: list[Item] = []
    for shadow in laid.shadows:
        under = [(s + shadow.width_mm * 0.1, down) for s, down in shadow.points if from_mm - 1 <= s <= end + 1]
        if len(under) == len(shadow.points) or (cut and len(under) > 1):
            soft = smooth(under)
            items += [Path(soft, Style(stroke=SHADOW_COLOUR, width_mm=shadow.width_mm * share, opacity=0.05)) for share in (1.4, 1.05, 0.7)]
    for one in laid.ribbons:
        kept = [k for k in range(len(one.upper)) if from_mm - 1 <= one.upper[k][0] <= end + 1]
        kept = kept if cut else kept if len(kept) == len(one.upper) else []
        items += ribbon([one.upper[k] for k in kept], [one.lower[k] for k in kept], row.colour, WAVE)
    for piece, s, down, turn, along, across, _, _ in laid.pieces:
        if from_mm <= s <= end:
            c, n = math.cos(turn), math.sin(turn)
            items.append(Use(motif(piece, row.colour), (c * along / 100, n * along / 100, -n * across / 100, c * across / 100, s, down)))
    for strand in laid.strands:
        points = [(s, down) for s, down in strand.points if from_mm - 1 <= s <= end + 1]
        if len(points) == len(strand.points) or ((cut or strand.role == "ridged") and len(points) > 1):
            items += strand_paths(points, strand.width_mm, strand.role, row.colour)
    return Group(tuple(items), row.name or f"{row.kind}, {row.tip.name}")


def marks(tier: TierDrawn, bands: bool = True, words: bool = True, prick: bool = False, halo: str = "") -> tuple[Item, ...]:
    """Draw what is marked on a side: top edge, base, joints, arcs, strings, guide tape and the band of every row."""
    whole, height = tier.outline.perimeter_mm, tier.height_mm
    items: list[Item] = []
    beside: list[tuple[float, float, str]] = []
    if bands:
        for row in tier.rows:
            if row.what.hangs or row.on_top or row.place == "joints":
                continue
            low, high = band_mm(row, whole, height)
            low, high = max(low, -30.0), min(high, height)
            items.append(Path(rectangle(0, low, whole, high - low), Style(stroke="#0a6a62", width_mm=0.25, role="guide", dash=(0.6, 1.2))))
            if words:
                beside.append((9.0, min(height - 1.5, max(4.2, (low + high) / 2 + 1.1)), _named(row)))
    drawn: set[tuple[float, ...]] = set()
    hung = 0
    named: list[tuple[float, float, str, bool]] = []
    for row in tier.rows:
        if row.on_top:
            continue
        jointed = row.what.hangs or row.place == "joints" or row.what.scroll
        for start in joints_mm(row, whole) if jointed else ():
            for s in (start, start + whole) if start < 1e-6 else (start,):
                if (round(s, 3),) not in drawn:
                    drawn.add((round(s, 3),))
                    items.append(rule(s, 0, s, height, GUIDE_DASH))
                if (round(s, 3), round(row.line_mm, 3)) not in drawn:
                    drawn.add((round(s, 3), round(row.line_mm, 3)))
                    items.append(cross(s, row.line_mm, 4.0))
        if row.what.scroll:
            for points in scroll_lines(row, whole):
                items.append(Path(smooth(list(points)), DOTS if prick else LINE))
        if not row.what.hangs:
            if words and bands and row.place == "joints" and row.repeats:
                beside.append((2.6 + whole * min(len(beside), row.repeats - 1) / row.repeats, row.line_mm - 1.6, _named(row)))
            continue
        swags = spans(row, whole)
        for start, width in swags:
            for drop in layer_drops_mm(row.kind, row.tip, row.drop_mm, row.layers):
                if row.what.curve == "arc":
                    items.append(Path(swag_parts(start, row.line_mm, width, drop), DOTS if prick else LINE))
                else:
                    points = row.what.mark_points(width, drop, 24)
                    items.append(Path(smooth([(start + x, row.line_mm + y) for x, y in points]), DOTS if prick else THIN))
        if words and swags:
            start, width = swags[hung % len(swags)]
            named.append((start + width / 2, row.line_mm + row.drop_mm, _named(row), False))
            hung += 1
        tape = guide_tape(row.line_mm, row.cutter_mm, swags[0][1]) if swags else None
        if tape is not None and (round(tape[1], 3), 0.0, 0.0) not in drawn:
            drawn.add((round(tape[1], 3), 0.0, 0.0))
            items.append(rule(0, tape[1], whole, tape[1], GUIDE_LINE))
            if words and swags:
                start, width = swags[(hung + 3) % len(swags)]
                named.append((start + width / 2, tape[1], f"{tape[0]} of the guide tape", True))
    # the names stand under the lowest curve, each with a line up to its own, so that no curve is hidden where it is to be marked
    lowest = max((y for _, y, _, _ in named), default=0.0)
    taken: list[tuple[float, float, float]] = []
    for x, y, text, guide in named:
        half = text_width_mm(text, 3.4) / 2 + 1.0
        down = lowest + 7.0
        while any(abs(down - other) < 4.0 and x - half < right and left < x + half for left, right, other in taken):
            down += 5.0
        down = min(down, max(height - 1.5, 4.2))
        taken.append((x - half, x + half, down))
        written: list[Item] = [rule(x, y, x, max(y, down - 3.6), THIN._replace(width_mm=0.15)), label(x, down, text, 3.4, "middle", guide=guide)]
        if halo:
            written.insert(1, Path(rectangle(x - half, down - 3.2, 2 * half, 4.4), Style(fill=halo)))
        items.append(Group(tuple(written)))
    for x, y, text in beside:
        if halo:
            items.append(Path(rectangle(x - 0.6, y - 2.9, text_width_mm(text, 3.2) + 1.2, 3.9), Style(fill=halo)))
        items.append(label(x, y, text, 3.2, guide=True))
    return tuple(items)


def _named(row: PlacedRow) -> str:
    return row.name or f"{row.kind}, {row.tip.name}"


@lru_cache(maxsize=8)
def unrolled(tier: TierDrawn, in_colour: bool = True, title: str = "The side, unrolled", units: str = "metric") -> Scene:
    """Draw the side of a tier laid flat, at 1:1, from the middle of the back round to it again."""
    whole, height = tier.outline.perimeter_mm, tier.height_mm
    size = max(3.4, (whole + 24) / 30.3)  # read on a telephone, where all of it is some 9 cm wide
    items: list[Item] = [Path(rectangle(0, 0, whole, height), CAKE)]
    if in_colour:
        items += [Group((piped(tier, row),), opacity=0.6) for row in tier.rows if not row.on_top]
    items += marks(tier, words=False)
    # a number at every row, and what it is below: words among the lines could not be read on a small screen
    key: list[str] = []
    taken: list[Point] = []
    for row in tier.rows:
        if row.on_top:
            continue
        key.append(_named(row))
        swags = spans(row, whole)
        if row.what.hangs and swags:
            turned = (*swags[(len(key) - 1) % len(swags) :], *swags[: (len(key) - 1) % len(swags)])
            free = [(start + width / 2, row.line_mm + row.drop_mm) for start, width in turned]
        else:
            low, high = band_mm(row, whole, height)
            free = [((0.5 + len(key) * 0.07 + part) % 1.0 * whole, (max(low, -8.0) + min(high, height)) / 2) for part in (0.0, 0.07, 0.14, -0.07)]
        x, y = next((at for at in free if all(math.dist(at, other) > size * 1.7 for other in taken)), free[0])
        taken.append((x, y))
        items.append(Path(circle(x, y, size * 0.76), CAKE))
        items.append(label(x, y + size * 0.35, str(len(key)), size, "middle", "bold"))
    end = height + size * 1.5
    items += [label(0, end, "back: starts here", size), label(whole, end, "closes here", size, "end"), label(whole / 2, end, "front", size, "middle")]
    for i, text in enumerate(key, 1):
        for words in broken(f"{i} {text}", whole, size):
            end += size * 1.4
            items.append(label(0.0, end, words, size))
    tapes = {
        tape for row in tier.rows if row.what.hangs for _, width in spans(row, whole)[:1] if (tape := guide_tape(row.line_mm, row.cutter_mm, width))
    }
    for edge, below in sorted(tapes, key=lambda tape: tape[1]):
        end += size * 0.1
        items.append(rule(0, end + size * 1.05, size * 2.4, end + size * 1.05, GUIDE_LINE))
        for words in broken(f"{edge} of the guide tape, {Say(units).length(below)} below the top edge", whole - size * 2.6, size):
            end += size * 1.4
            items.append(label(size * 3.0, end, words, size, guide=True))
    words = (
        "The side of the tier laid flat, from the middle of the back to the right: joints, arcs, guide tape and the band of every row. "
        + "; ".join(f"{i}: {text}" for i, text in enumerate(key, 1))
        + "."
    )
    above = 16.0
    return Scene(title, words, -12, -above, whole + 24, end + size * 0.8 + above, tuple(items))
