"""How a row is piped: the tip at work from in front, the angle and the end that faces the cake, the path of the hand, the finished row.

Map
---
`front_panel`       a bag, its tip and a hand at work, seen from in front of the cake
`angle_panel`       the tip against the cake: its angle, and which of its ends lies on it
`path_panel`        the path of the hand over the row, with the numbers of `STEPS`
`row_panel`         the row as it stands
`seen_from`, `path_seen_from`  where the eye is in the panel of the angle, and in that of the path, in words
`STEPS`             what the numbers on the path of the hand stand for
`centres`           where the pieces stand that are piped one by one
`panel_of`          what the look of a kind is given to draw a panel

What a kind shows in its panels stands in its file of `calc.drawing.motifs`. All panels are drawn for a right-handed reader, left to right; in
a mirror they hold for the left hand.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from calc.drawing.bag import bag_and_tip, bag_on_end, hand_path, number_mark
from calc.drawing.motifs import LOOKS, motif
from calc.drawing.motifs.laid import RowLaid
from calc.drawing.motifs.look import BOARD, HIGH, VARIANTS, WIDE, Panel, SingleLook
from calc.drawing.scene import CAKE, GUIDE_DASH, Group, Item, Path, Point, Scene, Use, polyline, rectangle
from calc.drawing.tiers import TierDrawn, lay
from calc.drawing.unroll import piped
from calc.rows import KINDS
from calc.rows.placement import PlacedRow
from calc.shapes import outline
from calc.tips import Tip
from calc.units import a_or_an, capitalised

STEPS: dict[str, tuple[str, ...]] = {kind.name: kind.steps for kind in KINDS.values()} | {name: one.steps for name, one in VARIANTS.items()}


def _ground(kind: str) -> list[Item]:
    """The cake in a panel, seen from in front: its side, its top edge or its foot."""
    surface = LOOKS[kind].surface
    if surface == "side":
        return [Path(rectangle(-2, -2, WIDE + 4, HIGH + 4), CAKE)]
    if surface == "edge":
        return [Path(rectangle(-2, 36, WIDE + 4, HIGH), CAKE)]
    return [Path(rectangle(-2, -2, WIDE + 4, 54), CAKE), Path(rectangle(-2, 52, WIDE + 4, 6), BOARD)]


def _long(kind: str, tip: Tip, colour: str) -> tuple[TierDrawn, PlacedRow, float, float]:
    """A row on a side so long that it looks flat; where the panel begins on it, and how far down its top edge lies in the panel."""
    look = LOOKS[kind]
    width = look.repeat_mm
    edge, base = look.surface == "edge", look.surface == "base"
    place = "top edge" if edge else "base" if base else "side"
    row = PlacedRow(
        kind,
        tip,
        colour,
        place,
        0.0 if edge else look.line_mm,
        repeats=8 if width else 0,
        drop_mm=look.drop_mm,
        count=8 if KINDS[kind].scroll else None,
    )
    tier = TierDrawn(outline("round", (8 * width if width else 400.0) / math.pi), 0.0, 52.0 if base else 60.0)
    return tier, row, (width * 0.82 + 4.0 if width else 104.0), 36.0 if edge else 0.0


def centres(kind: str, to_x: float = WIDE + 8) -> list[Point]:
    """Where the pieces that are piped one by one stand in the panels, as far as `to_x`."""
    look = LOOKS[kind]
    if not isinstance(look, SingleLook):
        return []
    last = min(to_x, WIDE + look.size_mm)
    places = (50.0 + k * look.apart_mm for k in range(-2, 100))
    return [(x, look.line_mm) for x in itertools.takewhile(lambda x: x <= last, places)]


def _singles(look: SingleLook, tip: Tip, colour: str, to_x: float) -> list[Item]:
    return [Use(motif(look.piece_of(tip).name, colour), look.matrix(x)) for x, _ in centres(look.kind, to_x)]


def _piped(kind: str, tip: Tip, colour: str, to_x: float = WIDE + 8) -> list[Item]:
    """The row from the left edge of the panel as far as `to_x`."""
    look = LOOKS[kind]
    if isinstance(look, SingleLook):
        return _singles(look, tip, colour, to_x)
    tier, row, begin, top = _long(kind, tip, colour)
    return [Group((piped(tier, row, begin - 12.0, begin + to_x, cut=True),), matrix=(1.0, 0.0, 0.0, 1.0, -begin, top))]


def _mark(kind: str) -> list[Point]:
    """The line a row follows in a panel, from left to right."""
    look = LOOKS[kind]
    line, width = look.line_mm, look.repeat_mm
    if not width:
        return [(-4.0, line), (WIDE + 4.0, line)]
    tier, row, begin, _ = _long(kind, Tip("open star", 5.0), "#000000")
    if KINDS[kind].scroll:
        strands = lay(row, tier.outline.perimeter_mm, tier.height_mm).strands
        strand = min(strands, key=lambda one: abs(sum(s for s, _ in one.points) / len(one.points) - begin - WIDE / 2))
        return [(s - begin, down) for s, down in strand.points]
    return [(width - begin + x, line + y) for x, y in KINDS[kind].mark_points(width, look.drop_mm, 24)]


def panel_of(kind: str, tip: Tip, colour: str) -> Panel:
    """What the look of a kind is given to draw a panel."""

    def long() -> tuple[RowLaid, float, float]:
        tier, row, begin, top = _long(kind, tip, colour)
        return lay(row, tier.outline.perimeter_mm, tier.height_mm), begin, top

    return Panel(
        tip,
        colour,
        LOOKS[kind].line_mm,
        _mark(kind),
        lambda to_x: _piped(kind, tip, colour, to_x),
        long,
        lambda piece, matrix: Use(motif(piece, colour), matrix),
    )


def _scene(kind: str, title: str, words: str, items: Sequence[Item]) -> Scene:
    return Scene(f"{KINDS[kind].title}: {title}", words, 0, 0, WIDE, HIGH, (Group(tuple(items), clip=(0, 0, WIDE, HIGH)),))


def front_panel(kind: str, tip: Tip, colour: str) -> Scene:
    """Draw a bag, its tip and a hand at work, seen from in front of the cake."""
    look = LOOKS[kind]
    toward, seen = look.held
    items, at = look.front(panel_of(kind, tip, colour))
    bag = bag_on_end(at, toward, tip, seen) if look.upright else bag_and_tip(at, toward, tip, seen, -1)
    return _scene(kind, "the tip from the front", KINDS[kind].hand, [*_ground(kind), *items, *bag])


def seen_from(kind: str) -> str:
    """Say where the eye is in the panel of the angle."""
    return LOOKS[kind].eye


def path_seen_from(kind: str) -> str:
    """Say where the eye is in the panel of the path, where it is not in front: ", from above"."""
    eye = "" if kind in VARIANTS else LOOKS[kind].path_eye
    return f", {eye}" if eye else ""


def angle_panel(kind: str, tip: Tip, colour: str) -> Scene:
    """Draw the tip against the cake: its angle, and which of its ends lies on it; `seen_from` says where the eye is."""
    return _scene(kind, "the angle of the tip", KINDS[kind].angle + ".", LOOKS[kind].angle(panel_of(kind, tip, colour)))


def path_panel(kind: str, tip: Tip, colour: str) -> Scene:
    """Draw the path of the hand over the row, with the numbers of `STEPS`; or of one of its variants, such as "turned star"."""
    variant = VARIANTS.get(kind)
    if variant is not None:
        kind, title, steps, draw = variant
    else:
        look, title, steps = LOOKS[kind], "the path of the hand", STEPS[kind]
        draw = look.path
        tip = Tip(tip.family, tip.opening_mm * look.enlarged) if look.enlarged != 1.0 else tip  # so that the path has room on each piece
    found = draw(panel_of(kind, tip, colour))
    items: list[Item] = [*(_ground(kind) if found.ground is None else found.ground)]
    items.append(Group(tuple(_piped(kind, tip, colour) if found.faint is None else found.faint), opacity=found.opacity))
    step = found.stroke or len(found.path)
    for k in range(0, len(found.path), step):
        items += hand_path(found.path[k : k + step], found.heads)
        if k:
            items.append(Path(polyline([found.path[k - 1], found.path[k]]), GUIDE_DASH))
    for number, place in enumerate(found.numbers, 1):
        items += number_mark(place, number)
    text = ", ".join(f"{number} {said}" for number, said in enumerate(steps, 1))
    return _scene(kind, title, capitalised(text) + ".", items)


def row_panel(kind: str, tip: Tip, colour: str) -> Scene:
    """Draw a row as it stands."""
    words = f"{KINDS[kind].title}: a piece of the finished row, piped with {a_or_an(f'{tip.name} tip')}."
    return _scene(kind, "the finished row", words, [*_ground(kind), *_piped(kind, tip, colour)])
