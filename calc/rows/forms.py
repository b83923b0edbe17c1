"""The five forms that kinds of row share; a kind is one of them with its own names, tips and sizes.

Map
---
`Arc`, `Hanging`   a curve between the joints of each repeat: swags on an arc, strings in a catenary
`Straight`         one line that runs on: borders, zigzags, lines
`Scrolled`         a scroll in each repeat
`Meeting`          pieces that meet each other and the joints: shells, beads
`SetApart`         pieces piped one by one: rosettes, stars, leaves
`led_along`        the hand of a line led along a mark
`fitted`           pitch, stretch and count of pieces that meet the joints

It may import what `calc.rows.kind` may.

Legend: w width of a repeat, y drop, o opening, n count.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.curves import SWELL_MEAN, arc_length_mm, arc_points, catenary_length_mm, catenary_points, swell_at
from calc.division import STRETCH_MOST_PERCENT, pieces_that_meet
from calc.rows.kind import INTO, MOST_PIECES, OVER_PIPE_SINK, Geometry, Kind, RowSpec, Vector, Way
from calc.sources import constant
from calc.tips import Tip, stroke_mm

NEST_SHARE = constant(
    0.8, "-", "common-practice", "one swag of a double row hangs this much of its own depth below the other, so that they overlap", low=0.6, high=1.0
)
HEAVY_STRING_MM = constant(3.2, "mm", "common-practice", "a string from a wider opening tends to tear from its joints")


def _even_drops(drop_mm: float, layers: int) -> list[float]:
    return [drop_mm * ((layers - k) / layers) for k in range(layers)]


def led_along(kind: Kind, spec: RowSpec, mark: Sequence[tuple[float, float]]) -> tuple[Way, ...]:
    """Give the hand of a line led along a mark, rocked across it where the kind is: begin, go on, end.

    Along a swag the strokes are as long as it is full: short at the joints, longer in the middle, and in their mean the movement of the tip.
    """
    rocking = kind.rocking_mm(spec.tip)
    movement, advance = rocking or (0.0, 0.0)
    movement = spec.movement_mm if spec.movement_mm is not None and rocking else movement
    advance = spec.advance_mm if spec.advance_mm is not None and rocking else advance
    points: list[Vector] = [(x, y, 0.0) for x, y in mark]
    if movement > 0:
        points, far, side = [points[0]], 0.0, 1.0
        gone, whole = 0.0, math.fsum(math.dist(a, b) for a, b in zip(mark, mark[1:], strict=False))
        for (x0, y0), (x1, y1) in zip(mark, mark[1:], strict=False):
            long = math.dist((x0, y0), (x1, y1))
            while far <= long:
                share = far / long
                nx, ny = -(y1 - y0) / long, (x1 - x0) / long
                out = side * movement / 2 * (swell_at((gone + far) / whole) / SWELL_MEAN if kind.hangs else 1.0)
                points.append((x0 + (x1 - x0) * share + out * nx, y0 + (y1 - y0) * share + out * ny, 0.0))
                side, far = -side, far + advance / 2
            far -= long
            gone += long
    first, last = max(1, len(points) // 10), len(points) - 1 - max(1, len(points) // 10)
    return (
        Way(tuple(points[: first + 1]), (0.3, 1.0), 0.6),
        Way(tuple(points[first : last + 1])),
        Way(tuple(points[last:]), (1.0, 0.1), 0.4),
    )


@dataclass(frozen=True, kw_only=True)
class _Hung(Kind):
    """A curve in each repeat."""

    hangs: bool = True
    at_joints: bool = False

    def length_mm(self, width_mm: float, drop_mm: float) -> float:
        """Length of one curve [mm]."""
        raise NotImplementedError

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        """Along the deepest curve of one repeat."""
        return led_along(self, spec, self.mark_points(spec.repeat_mm, spec.drop_mm))

    def look_at(self, spec: RowSpec, drops: tuple[float, ...], notes: list[str]) -> None:
        """Note what speaks against the curve."""
        raise NotImplementedError

    def geometry(self, spec: RowSpec, notes: list[str]) -> Geometry:
        """One curve in each repeat, and its layers."""
        width = spec.repeat_mm
        movement, factor = self.rocked(spec)
        band, out = self.band_mm(spec.tip, movement)
        drops = self.drops_mm(spec.tip, spec.drop_mm, spec.layers)
        self.look_at(spec, drops, notes)
        lengths = [self.length_mm(width, drop) for drop in drops]
        length = spec.repeats * math.fsum(lengths)
        return Geometry(spec.repeats * spec.layers, width, 0.0, lengths[0], length, length * factor, 0.0, band / 2, band / 2, out, drops)


@dataclass(frozen=True, kw_only=True)
class Arc(_Hung):
    """Swags: on the arc of a cutter. Double and triple ones each hang 0.8 of their own depth above the last."""

    curve: str = "arc"

    def drops_mm(self, tip: Tip, drop_mm: float, layers: int) -> tuple[float, ...]:
        """Drops of its layers, deepest first [mm]."""
        step = NEST_SHARE * tip.bead_width_mm
        return tuple(max(share, drop_mm - k * step) for k, share in enumerate(_even_drops(drop_mm, layers)))

    def length_mm(self, width_mm: float, drop_mm: float) -> float:
        """Length of one arc [mm]."""
        return arc_length_mm(width_mm, drop_mm)

    def mark_points(self, width_mm: float, drop_mm: float, count: int = 24) -> tuple[tuple[float, float], ...]:
        """Points of the arc [mm]."""
        return arc_points(width_mm, drop_mm, count)

    def look_at(self, spec: RowSpec, drops: tuple[float, ...], notes: list[str]) -> None:
        """Note an arc that is too deep or too shallow."""
        width = spec.repeat_mm
        if spec.drop_mm > width:
            notes.append("The drop is more than the width: the arc bulges far past its own joints. Make it shallower, or use fewer repeats.")
        if 0 < spec.drop_mm < 0.1 * width:
            notes.append("The drop is under a tenth of the width: it reads as a line rather than as a swag.")


@dataclass(frozen=True, kw_only=True)
class Hanging(_Hung):
    """Strings: they hang freely in a catenary; nested ones share the drop evenly."""

    curve: str = "hang"

    def drops_mm(self, tip: Tip, drop_mm: float, layers: int) -> tuple[float, ...]:
        """Drops of its layers, deepest first [mm]."""
        return tuple(_even_drops(drop_mm, layers))

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        """Stick the end, draw away so that the string hangs from hand and joint, touch the next joint: the hand goes straight across."""
        width, out = spec.repeat_mm, 25.0
        away = min(out, 0.4 * width)
        return (
            Way(((0.0, 0.0, 0.0),), (0.6, 1.0), 0.5, INTO),
            Way(((0.0, 0.0, 0.0), (0.25 * width, 0.0, away), (0.75 * width, 0.0, away), (width, 0.0, 0.0)), (1.0, 1.0), 0.0, INTO, False),
            Way(((width, 0.0, 0.0),), (0.3, 0.0), 0.5, INTO),
        )

    def length_mm(self, width_mm: float, drop_mm: float) -> float:
        """Length of one string [mm]."""
        return catenary_length_mm(width_mm, drop_mm)

    def mark_points(self, width_mm: float, drop_mm: float, count: int = 24) -> tuple[tuple[float, float], ...]:
        """Points of the hanging string [mm]."""
        return catenary_points(width_mm, drop_mm, count)

    def look_at(self, spec: RowSpec, drops: tuple[float, ...], notes: list[str]) -> None:
        """Note strings that would tear or lie against their joints."""
        width = spec.repeat_mm
        if spec.drop_mm > 50 * width:
            raise ValueError("a string drops at most 50 times its width")
        if spec.drop_mm > 2 * width:
            notes.append("The strings drop more than twice their width: they are likely to tear. Use fewer repeats or a smaller drop.")
        if spec.tip.opening_mm > HEAVY_STRING_MM:
            notes.append("A string from an opening over about 3 mm is heavy and tends to tear from its joints.")
        if spec.layers > 1 and spec.drop_mm > 0 and drops[-1] < 1.5 * spec.tip.bead_width_mm:
            notes.append("The innermost string lies against its joints. Use fewer strings or a larger drop.")


@dataclass(frozen=True, kw_only=True)
class Straight(Kind):
    """One line along the whole run; its layers lie on each other."""

    at_joints: bool = False
    by_joints: bool = False  # broken off at every joint, so that it comes in as many lengths as there are repeats
    lies_flat: bool = False  # strokes of a rocked tip lie side by side; else they lean on each other

    def geometry(self, spec: RowSpec, notes: list[str]) -> Geometry:
        """A line, rocked or not, as long as the run for each layer."""
        run = spec.run_mm * spec.layers
        movement, factor = self.rocked(spec)
        band, out = self.band_mm(spec.tip, movement)
        out += (spec.layers - 1) * OVER_PIPE_SINK * out
        self.look_at(spec, notes)
        lengths = spec.repeats if spec.repeats > 1 and self.by_joints else 1
        return Geometry(lengths * spec.layers, spec.repeat_mm, 0.0, spec.run_mm / lengths, run, run * factor, 0.0, band / 2, band / 2, out)

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        """Along one repeat."""
        return led_along(self, spec, self.mark_points(spec.repeat_mm, 0.0))

    def look_at(self, spec: RowSpec, notes: list[str]) -> None:
        """Note strokes that pile up: closer together than each is thick."""
        if self.lies_flat and spec.advance_mm and spec.advance_mm < stroke_mm(spec.tip):
            notes.append("The strokes are closer together than they are thick: they will pile up on each other.")


@dataclass(frozen=True, kw_only=True)
class Scrolled(Kind):
    """One scroll in each repeat, or as many as are asked for; lines over the line make it stand out.

    Each end curls on for three quarters of a turn of radius `curl_share` of the depth. Scrolls share a page, their tips and the pace of the hand.
    """

    page: str = "scrolls"
    families: tuple[str, ...] = ("round", "open star", "closed star")
    begins_with: tuple[str, float] = ("open star", 4.0)
    place: str = "side"
    angle: str = "45° to the surface, pointing back along the line"
    speed_mm_per_s: float = 14.0
    start_s: float = 6.0
    scroll: bool = True
    counted: bool = True
    curve: str = "scroll"
    curl_share: float
    bends: tuple[float, float] = (0.0, 1.0)  # shares of the middle between which its second step lies
    squeezes: tuple[tuple[float, ...], ...] = ((0.35, 0.6), (0.6, 1.0, 0.6), (0.6, 0.15))

    def arcs(self, width_mm: float, drop_mm: float, count: int) -> tuple[list[tuple[float, float]], float, tuple[float, float], tuple[float, float]]:
        """Points of the middle, its length [mm], the headings at which it starts and ends, and which way each end curls on."""
        raise NotImplementedError

    def length_mm(self, width_mm: float, drop_mm: float) -> float:
        """Length along one scroll, curls included: the middle, and twice 3 pi r / 2 with the curls' radius r [mm]."""
        return self.arcs(width_mm, drop_mm, 2)[1] + 3 * math.pi * drop_mm * self.curl_share

    def mark_points(self, width_mm: float, drop_mm: float, count: int = 48) -> tuple[tuple[float, float], ...]:
        """Points from curl to curl [mm]; each curl has half as many as the middle."""
        middle, _, (start, finish), (first_turn, last_turn) = self.arcs(width_mm, drop_mm, count)
        radius, steps = drop_mm * self.curl_share, max(2, count // 2)
        lead = _curl(middle[0], math.pi + start, first_turn, radius, steps)
        tail = _curl(middle[-1], finish, last_turn, radius, steps)
        return tuple(reversed(lead)) + tuple(middle) + tuple(tail)

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        """From curl to curl, squeezing more where the line swells."""
        width, count = spec.repeat_mm / (spec.per_repeat or 1), 48
        points = [(x, y, 0.0) for x, y in self.mark_points(width, spec.drop_mm or 0.35 * width, count)]
        curl, middle = count // 2, len(points) - 2 * (count // 2)
        first, last = (curl + round(share * (middle - 1)) for share in self.bends)
        parts = (points[: first + 1], points[first : last + 1], points[last:])
        return tuple(Way(tuple(part), squeeze, share) for part, squeeze, share in zip(parts, self.squeezes, (0.6, 0.0, 0.4), strict=True))

    def geometry(self, spec: RowSpec, notes: list[str]) -> Geometry:
        """Scrolls as wide as their repeat, or their part of it."""
        width = spec.repeat_mm
        if spec.per_repeat:
            width /= spec.per_repeat
        drop = spec.drop_mm or 0.35 * width
        count = spec.count if spec.count is not None else spec.repeats * (spec.per_repeat or 1)
        each = self.length_mm(width, drop)
        total = each * count * spec.layers
        bead, out = spec.tip.bead_width_mm, spec.tip.bead_height_mm
        out += (spec.layers - 1) * OVER_PIPE_SINK * out
        if drop < 6 * bead:
            notes.append(f"The curls of a scroll {drop:.0f} mm deep close up under a line {bead:.1f} mm wide. Make it deeper, or use a finer tip.")
        depths = [depth for _, depth in self.mark_points(width, drop)]  # the curls stand above the line and below the arc's own depth
        above, below = max(0.0, -min(depths)) + bead / 2, max(0.0, max(depths)) + bead / 2
        return Geometry(count * spec.layers, width, 0.0, each, total, total, 0.0, above, below, out, (drop,))


def _curl(at: tuple[float, float], heading: float, turn: float, radius: float, steps: int) -> list[tuple[float, float]]:
    """Points of three quarters of a turn that leaves `at` in a heading (x along, depth down)."""
    side = heading + turn * math.pi / 2
    middle = (at[0] + radius * math.cos(side), at[1] + radius * math.sin(side))
    begin = side + math.pi
    return [
        (
            middle[0] + radius * math.cos(begin + turn * 1.5 * math.pi * i / steps),
            middle[1] + radius * math.sin(begin + turn * 1.5 * math.pi * i / steps),
        )
        for i in range(1, steps + 1)
    ]


def fitted(spec: RowSpec, natural_mm: float, notes: list[str]) -> tuple[float, float, int]:
    """Give pitch, stretch and count of pieces that meet the joints whole: as asked, or the whole number nearest the natural pitch.

    Formula: pitch = run / count; stretch = 100 (pitch / natural - 1). Pieces set apart are not stretched.

    Parameters
    ----------
    spec : RowSpec
        What is asked of the row [-]
    natural_mm : float
        Natural pitch of its pieces [mm]
    notes : list of str
        Takes what speaks against it [-]

    Returns
    -------
    tuple of (float, float, int)
        Pitch [mm], stretch [%] and count [-]

    Raises
    ------
    ValueError
        There would be more than 20000 pieces.

    Range: rows made of pieces. Leaves out: corners.

    Example
    -------
    >>> fitted(RowSpec("shell", Tip("open star", 7), run_mm=660, repeats=6), 9.8, [])[2]
    66

    Source: geometry (proportion)
    """
    if spec.count is not None and spec.count > 0:
        count = spec.count
    elif spec.per_repeat is not None and spec.per_repeat > 0:
        count = spec.per_repeat * spec.repeats
    else:
        count = pieces_that_meet(spec.repeat_mm, natural_mm)[0] * spec.repeats
    if count > MOST_PIECES:
        raise ValueError("a row has no more than 20000 pieces")
    pitch = spec.run_mm / count
    if spec.apart:
        if pitch < natural_mm * 0.97:
            notes.append(f"{count} of them set {pitch:.0f} mm apart touch: each is {natural_mm:.0f} mm long. Use fewer, or a finer tip.")
        return pitch, 0.0, count
    stretch = 100 * (pitch / natural_mm - 1)
    if abs(stretch) > STRETCH_MOST_PERCENT:
        word = "stretched" if stretch > 0 else "squeezed"
        notes.append(
            f"Each {spec.kind} would be {word} by {abs(stretch):.0f} %, and more than {STRETCH_MOST_PERCENT:.0f} % shows. "
            f"Use {'more' if stretch > 0 else 'fewer'} of them, or a {'wider' if stretch > 0 else 'finer'} tip."
        )
    return pitch, stretch, count


@dataclass(frozen=True, kw_only=True)
class Meeting(Kind):
    """Pieces that meet each other and the joints."""

    curve: str = "piece"
    counted: bool = True
    side_by_side: bool = True
    stretches: bool = True  # a stretched piece takes more, in proportion

    def piece(self, spec: RowSpec) -> tuple[float, float, float]:
        """Volume of one piece [mm3], width of the row and how far it stands out [mm]."""
        raise NotImplementedError

    def look_at(self, count: int, notes: list[str]) -> None:
        """Note what the number of pieces brings with it."""

    def geometry(self, spec: RowSpec, notes: list[str]) -> Geometry:
        """Pieces whole from joint to joint."""
        natural = self.own_pitch_mm(spec)
        pitch, stretch, count = fitted(spec, natural, notes)
        self.look_at(count, notes)
        piece, band, high = self.piece(spec)
        if self.stretches:
            piece *= 1 + stretch / 100
        each = natural if spec.apart else pitch
        total = each * count * spec.layers if spec.apart else spec.run_mm * spec.layers
        out = high * (1 + (spec.layers - 1) * OVER_PIPE_SINK)
        return Geometry(count * spec.layers, pitch, stretch, each, total, total, piece, band / 2, band / 2, out)


@dataclass(frozen=True, kw_only=True)
class SetApart(Kind):
    """Pieces piped one by one: `per_repeat` at every joint (one when nothing is said), or `count` in all."""

    curve: str = "piece"
    counted: bool = True
    set_apart: bool = True

    def natural_pitch_mm(self, tip: Tip, size_mm: float | None = None) -> float:
        """Pieces that touch: each as wide as it is asked for, or as its tip pipes it [mm]."""
        return size_mm or self.across_mm(tip)

    def piece(self, spec: RowSpec, notes: list[str]) -> tuple[float, float, float, float, float]:
        """Length of the path and volume [mm3] of one piece, how far it reaches across the row, stands out, and along the row [mm]."""
        raise NotImplementedError

    def geometry(self, spec: RowSpec, notes: list[str]) -> Geometry:
        """As many pieces as are asked for, however far apart."""
        count = spec.count if spec.count is not None else spec.repeats * (spec.per_repeat or 1)
        pitch = spec.run_mm / max(1, count)
        each, piece, band, out, closest = self.piece(spec, notes)
        if count > 1 and spec.per_repeat in (None, 1) and pitch < closest * 0.97:
            notes.append(f"{count} of them set {pitch:.0f} mm apart touch: each is {closest:.0f} mm wide. Use fewer, or a finer tip.")
        total = each * count * spec.layers
        out *= 1 + (spec.layers - 1) * OVER_PIPE_SINK
        return Geometry(count * spec.layers, pitch, 0.0, each, total, total, piece, band / 2, band / 2, out)
