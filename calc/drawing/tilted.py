"""A whole cake seen from a little above, the way it stands on a table: its tops as well as its sides, to scale.

Map
---
`TILT_DEG`       how far above the horizon the eye is
`tilted_view`    the cake from in front and a little above

The eye is far away (a parallel projection), so every length keeps its scale: a point x to the right, y to the back and z up stands at
x and -(z cos t + y sin t) of the picture, t being the tilt. Lengths across are true, heights are shortened by cos t, a circle on the
top is an ellipse whose height is sin t of its width. What is farther is drawn first: the far parts of a tier's rows, its side, its
top, what stands on it, and then the near parts of its rows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from calc.drawing.motifs import PIECES, SHADOW_COLOUR, motif, ribbon, strand_paths, tone
from calc.drawing.motifs.laid import WAVE, Laid, Ribbon, RowLaid, Strand
from calc.drawing.scene import Gradient, Group, Item, Parts, Path, Point, Scene, Style, Use, arc, ellipse, polygon, smooth
from calc.drawing.shading import mixed
from calc.drawing.tiers import TierDrawn, lay
from calc.drawing.views import BOARD_MM, TURNED_AWAY, in_piping_order, light_round, lit, shade
from calc.rows.placement import PlacedRow
from calc.shapes import Outline
from calc.sources import constant

TILT_DEG = constant(15.0, "deg", "common-practice", "how far above the horizon the eye is when a cake on a table is looked at")
_SIN, _COS = math.sin(math.radians(TILT_DEG)), math.cos(math.radians(TILT_DEG))

TURNED_DEG = constant(-28.0, "deg", "common-practice", "how far a square cake is turned, seen from above anticlockwise, to show two of its sides")
_TURNED_SHAPES = ("square", "rectangle")

_ROUND_THE_SILHOUETTE = -0.45  # cosine down to which what stands out of a side is still drawn behind it
_DOME = 0.45  # height of a piece that lies on the top, as a share of its width


class _Place(NamedTuple):
    """A place of the picture, and the cosine and sine of how far the surface there has turned from the eye (sine positive to the right)."""

    x: float
    y: float
    c: float
    n: float


def _turn_of(outline: Outline) -> float:
    """How far a cake is turned to the right, seen from above anticlockwise [rad]."""
    return math.radians(TURNED_DEG) if outline.kind in _TURNED_SHAPES else 0.0


def _turned(point: Point, angle: float) -> Point:
    """A point of the ground turned about the middle."""
    x, back = point
    c, n = math.cos(angle), math.sin(angle)
    return x * c - back * n, x * n + back * c


class _Round:
    """Where places round a tier stand in the picture, the top of the tier at height 0."""

    def __init__(self, outline: Outline) -> None:
        self.outline = outline
        self.radius = outline.width_mm / 2 if outline.kind == "round" else None
        self.turn = _turn_of(outline)
        self.front = None if outline.convex else _front_edges(outline)

    def _ground(self, s: float, out: float) -> tuple[float, float, float, float]:
        """x, how far to the back, and the cosine and sine of the way round [mm]."""
        if self.radius is not None:
            angle = s / self.radius - math.pi
            c, n = math.cos(angle), math.sin(angle)
            return (self.radius + out) * n, -(self.radius + out) * c, c, n
        x, back, heading = self.outline.point(s)
        c, n = math.cos(heading + self.turn), math.sin(heading + self.turn)
        x, back = _turned((x, back), self.turn)
        return x + out * n, back - out * c, c, n

    def at(self, s: float, down: float, out: float, long: float = 0.0) -> _Place:
        """The place at s round the side, `down` below the top and `out` outwards of the side; of a piece that is `long`, its middle [mm]."""
        if self.radius is not None:
            angle, reach = s / self.radius - math.pi, self.radius + out
            c, n = math.cos(angle), math.sin(angle)
            return _Place(reach * n, down * _COS + reach * c * _SIN, c, n)
        if long:  # a piece that reaches round a corner stands across it
            x0, back0, _, _ = self._ground(s - long / 2, out)
            x1, back1, _, _ = self._ground(s + long / 2, out)
            far = math.hypot(x1 - x0, back1 - back0) or 1.0
            x, back, c, n = (x0 + x1) / 2, (back0 + back1) / 2, (x1 - x0) / far, (back1 - back0) / far
        else:
            x, back, c, n = self._ground(s, out)
        return _Place(x, down * _COS - back * _SIN, c, n)

    def hides(self, s: float) -> bool:
        """Whether a nearer part of the same side stands before the place at s; only where the outline is drawn in."""
        if self.front is None:
            return False
        x, back, _, _ = self._ground(s, 0.0)
        for low, high, x0, back0, far, wide in self.front:  # noqa: SIM110 -- a generator takes longer
            if low <= x <= high and back0 + far * (x - x0) / wide < back - 2.0:
                return True
        return False


def _runs(cosines: Sequence[float], near: bool, least: float) -> list[list[int]]:
    """The stretches of a line that are on the near side, or on the far side as far as `least`, as indices."""
    runs: list[list[int]] = [[]]
    for i, c in enumerate(cosines):
        if c >= -0.02 if near else least <= c <= 0.02:
            runs[-1].append(i)
        elif runs[-1]:
            runs.append([])
    return [run for run in runs if len(run) > 1]


# --- rows --------------------------------------------------------------------------------------------------------------


def _piece(round_it: _Round, row: PlacedRow, piece: Laid) -> tuple[_Place, Item]:
    """One piece of piping in the picture."""
    name, s, down, turn, along, across, out, solid = piece
    what = PIECES[name]
    a, b = along / 100, across / 100
    if row.on_top:
        place = round_it.at(s, 0.0, -row.line_mm + (down - row.line_mm if what.points else 0.0))
        if what.points:  # it lies on the top and points over it
            ct, st = math.cos(turn), math.sin(turn)
            flat = 0.42
            tx, ty, dx, dy = place.c, -place.n * flat, place.n, place.c * flat
            matrix = (a * (ct * tx + st * dx), a * (ct * ty + st * dy), b * (ct * dx - st * tx), b * (ct * dy - st * ty), place.x, place.y)
            return place, Use(motif(name, row.colour), matrix)
        if not what.sits:  # a dome, as high as it is solid
            tall = 1.0 if row.what.stands_up else math.hypot(_SIN, 2 * _DOME * _COS * 0.62)
            lift = abs(across) * (0.42 if row.what.stands_up else tall / 2 - 0.5 * _SIN)
            return place, Use(motif(name, row.colour), (a, 0.0, 0.0, b * tall, place.x, place.y - lift))
        lift = 0.06 * abs(across)
    else:
        place = round_it.at(s, down, out * 0.5, 0.0 if turn or what.faces_out else abs(along))
        lift = 0.0
    c, n = place.c, place.n
    narrow = math.copysign(math.hypot(c, solid * n), c)
    slope = -n * _SIN * (0.45 + 0.55 * abs(c))
    ct, st = math.cos(turn), math.sin(turn)
    matrix = (a * ct * narrow, a * (ct * slope + st * _COS), -b * st * narrow, b * (ct * _COS - st * slope), place.x, place.y - lift)
    return place, Use(motif(name, row.colour, 0 if row.on_top else shade(abs(c), n)), matrix)


def _pieces(round_it: _Round, row: PlacedRow, laid: Sequence[Laid], least: float) -> tuple[list[Item], list[Item]]:
    """The pieces on the far and on the near side, the farther first."""
    first: tuple[list[Item], list[Item]] = ([], [])
    then: tuple[list[Item], list[Item]] = ([], [])
    for piece in laid:
        place, item = _piece(round_it, row, piece)
        if place.c < least or (least > -1.0 and round_it.hides(piece.s)):
            continue
        (first if place.n > 0 and place.c < TURNED_AWAY else then)[place.c >= 0.0].append(item)
    return first[0][::-1] + then[0], first[1][::-1] + then[1]


def _line(round_it: _Round, row: PlacedRow, s: float, down: float, out: float) -> _Place:
    """A point of a strand: on the side, or on the top where it runs there."""
    if row.on_top:
        place = round_it.at(s, 0.0, -row.line_mm + (down - row.line_mm))
        return place._replace(y=place.y - out * 0.6)
    return round_it.at(s, down, out)


def _strands(round_it: _Round, row: PlacedRow, strands: Sequence[Strand], least: float) -> tuple[list[Item], list[Item]]:
    """The strands on the far and on the near side."""
    halves: tuple[list[Item], list[Item]] = ([], [])
    for strand in strands:
        places = [_line(round_it, row, s, down, strand.width_mm * 0.4) for s, down in strand.points]
        cosines = [-2.0 if least > -1.0 and round_it.hides(s) else place.c for place, (s, _) in zip(places, strand.points, strict=True)]
        for near in (False, True):
            for run in _runs(cosines, near, least):
                halves[near].extend(strand_paths([places[i][:2] for i in run], strand.width_mm, strand.role, row.colour))
    return halves


def _shadows(round_it: _Round, strands: Sequence[Strand]) -> list[Item]:
    """The soft shadow that lies on the side close under what hangs there."""
    parts: list[tuple[str | float, ...]] = []
    width = 0.0
    for strand in strands:
        width = strand.width_mm
        places = [round_it.at(s, down - 0.16 * width, 0.0) for s, down in strand.points]
        for run in _runs([place.c - 0.25 for place in places], True, 0.0):
            parts.extend(smooth([(places[i].x + 0.06 * width, places[i].y) for i in run]))
    if not parts:
        return []
    return [Path(tuple(parts), Style(stroke=SHADOW_COLOUR, width_mm=width * share, opacity=0.045)) for share in (0.95, 0.75, 0.55)]


def _ribbons(round_it: _Round, row: PlacedRow, ribbons: Sequence[Ribbon], least: float) -> tuple[list[Item], list[Item]]:
    """Ribbons on the far and on the near side; the lower edge stands out of the side, or lies further out on the top."""
    halves: tuple[list[Item], list[Item]] = ([], [])
    for one in ribbons:
        if row.on_top:
            upper, lower = [], []
            for (s, down), (s_low, down_low) in zip(one.upper, one.lower, strict=True):
                deep, middle = math.hypot(s_low - s, down_low - down), (s + s_low) / 2
                upper.append(round_it.at(middle, -0.35 * deep, -row.line_mm - 0.5 * deep))
                lower.append(round_it.at(middle, -0.1 * deep, -row.line_mm + 0.5 * deep))
        else:
            ends = [round_it.at(one.upper[i][0], 0.0, 0.0).c for i in (0, len(one.upper) // 2, -1)]
            if max(ends) < least:  # all of it is behind the cake
                continue
            upper = [round_it.at(s, down, 0.15 * one.out_mm) for s, down in one.upper]
            lower = [round_it.at(s, down, one.out_mm) for s, down in one.lower]
        gone = [least > -1.0 and round_it.hides(s) for s, _ in one.upper] if round_it.front else [False] * len(upper)
        for near in (False, True):
            pick = min if near else max
            cosines = [-2.0 if behind else pick(a.c, b.c) for a, b, behind in zip(upper, lower, gone, strict=True)]
            for run in _runs(cosines, near, least):
                begin = run[0]
                if begin and begin % WAVE:  # begin on a crest, so that folds lie where they lie on the rest of the ribbon
                    begin += WAVE - begin % WAVE
                seen = [i for i in run if i >= begin] if len(one.upper) % WAVE == 1 else run
                if len(seen) < 3:
                    continue
                dark = 0.0 if row.on_top else sum(min(0.0, lit(abs(upper[i].c), upper[i].n) - 0.1) * 0.55 for i in seen[::4]) / len(seen[::4])
                halves[near].extend(ribbon([upper[i][:2] for i in seen], [lower[i][:2] for i in seen], tone(row.colour, dark), WAVE))
    return halves


class _Halves(NamedTuple):
    """A row in the picture, its tier's top at height 0: the shadow on the side, what lies on the far side, and on the near side."""

    shadow: Group
    far: Group
    near: Group


@lru_cache(maxsize=64)
def _row(outline: Outline, row: PlacedRow) -> _Halves:
    """A row in the picture; kept, because an edit leaves most rows as they are, or moves them up or down."""
    round_it = _Round(outline)
    laid: RowLaid = lay(row, outline.perimeter_mm, 0.0)
    least = -1.0 if row.on_top or row.place == "top edge" else _ROUND_THE_SILHOUETTE
    laid_in = (
        _ribbons(round_it, row, laid.ribbons, least),
        _pieces(round_it, row, laid.pieces, least),
        _strands(round_it, row, laid.strands, least),
    )
    far, near = (Group(tuple(item for halves in laid_in for item in halves[k])) for k in (0, 1))
    return _Halves(Group(() if row.on_top else tuple(_shadows(round_it, laid.shadows))), far, near)


def _halves(tier: TierDrawn, row: PlacedRow) -> tuple[_Halves, float]:
    """A row in the picture, and how far down its line is to be moved [mm of the picture]."""
    if row.on_top:
        return _row(tier.outline, replace(row, cutter_mm=None, name="", part="")), 0.0
    down = tier.height_mm if row.place == "base" and not row.what.takes_drop else row.line_mm
    return _row(tier.outline, replace(row, line_mm=0.0, cutter_mm=None, name="", part="")), down * _COS


# --- tiers -------------------------------------------------------------------------------------------------------------


@lru_cache(maxsize=64)
def _ring(outline: Outline) -> tuple[tuple[Point, ...], tuple[Point, ...]]:
    """The outline as points (x, back) all round, and its part in front from its left edge to its right one."""
    turn = _turn_of(outline)
    ring = tuple(_turned(point, turn) for point in outline.points(144)) if turn else outline.points(144)
    count = len(ring)
    left = min(range(count), key=lambda i: (round(ring[i][0], 6), ring[i][1]))
    right = max(range(count), key=lambda i: (round(ring[i][0], 6), -ring[i][1]))
    front = [ring[(left + i) % count] for i in range((right - left) % count + 1)]
    return ring, tuple(front)


@lru_cache(maxsize=16)
def _front_edges(outline: Outline) -> tuple[tuple[float, float, float, float, float, float], ...]:
    """The edges of the part in front: from which x to which, where each begins, how far it goes to the back and to the right.

    Cached and laid out for one comparison, because each place of each row of a heart is held against all of them.
    """
    front = _ring(outline)[1]
    edges = zip(front, front[1:], strict=False)
    return tuple((min(x0, x1), max(x0, x1), x0, back0, back1 - back0, x1 - x0) for (x0, back0), (x1, back1) in edges if x0 != x1)


def _at(points: Sequence[Point], z: float) -> list[Point]:
    """Points of the ground at a height, in the picture."""
    return [(x, -z * _COS - back * _SIN) for x, back in points]


def _side_parts(outline: Outline, low: float, high: float) -> Parts:
    """The part of the side that is seen between two heights."""
    if outline.kind == "round":
        radius = outline.width_mm / 2
        above = arc(0.0, -high * _COS, radius, 180, 0, radius * _SIN)
        below = arc(0.0, -low * _COS, radius, 0, 180, radius * _SIN)
        return (*above, ("L", radius, -low * _COS), *below[1:], ("Z",))
    front = _ring(outline)[1]
    return polygon([*_at(front, high), *_at(front, low)[::-1]])


def _top_parts(outline: Outline, z: float, out: float = 0.0) -> Parts:
    """The outline at a height, wider by `out`."""
    if outline.kind == "round":
        radius = outline.width_mm / 2 + out
        return ellipse(0.0, -z * _COS, radius, radius * _SIN)
    return polygon(_at(_ring(outline.offset(out) if abs(out) > 1e-9 else outline)[0], z))


_BLENDED = 28  # parts of a coat whose colours run into one another


def _blended(tier: TierDrawn) -> list[tuple[float, float, str]]:
    """The bands of a coat; those that meet from the foot to the top run into one another, as a scraper leaves them."""
    bands = sorted(tier.bands)
    meet = all(abs(a[1] - b[0]) < 0.5 for a, b in zip(bands, bands[1:], strict=False))
    if len(bands) < 2 or not meet or bands[0][0] > 0.5 or bands[-1][1] < tier.height_mm - 0.5:
        return bands
    middles = [((low + high) / 2, colour) for low, high, colour in bands]
    parts = []
    step = tier.height_mm / _BLENDED
    for k in range(_BLENDED):
        z = (k + 0.5) * step
        colour = middles[0][1] if z <= middles[0][0] else middles[-1][1]
        for (z0, first), (z1, second) in zip(middles, middles[1:], strict=False):
            if z0 < z <= z1:
                colour = mixed(first, second, (z - z0) / (z1 - z0))
        parts.append((k * step, (k + 1) * step, colour))
    return parts


@lru_cache(maxsize=64)
def _light(outline: Outline) -> tuple[tuple[float, float], ...]:
    """The light on the side from left to right: places from 0 to 1 with the tone there."""
    if not _turn_of(outline):
        return light_round(outline)
    front = _ring(outline)[1]
    left, wide = front[0][0], front[-1][0] - front[0][0]
    stops: list[tuple[float, float]] = []
    for (x0, back0), (x1, back1) in zip(front, front[1:], strict=False):
        long = math.hypot(x1 - x0, back1 - back0)
        level = lit((x1 - x0) / long, (back1 - back0) / long)
        if not stops or abs(level - stops[-1][1]) > 0.004:
            stops.append(((x0 - left) / wide, level))
        stops.append(((x1 - left) / wide, level))
    return tuple(one for i, one in enumerate(stops) if i in (0, len(stops) - 1) or stops[i - 1][1] != one[1] or stops[i + 1][1] != one[1])


def _extent(outline: Outline) -> tuple[float, float, float, float]:
    """The smallest and the largest x, and distance to the back, of an outline as it stands in the picture [mm]."""
    if not _turn_of(outline):
        return outline.extent_mm
    xs, backs = zip(*_ring(outline)[0], strict=True)
    return min(xs), min(backs), max(xs), max(backs)


def _coloured(outline: Outline, colour: str) -> Gradient:
    """A colour of the side in the light that falls on it from the left to the right."""
    left, _, right, _ = _extent(outline)
    return Gradient(left, 0, right, 0, tuple((place, tone(colour, level)) for place, level in _light(outline)))


@lru_cache(maxsize=32)
def _body(tier: TierDrawn) -> tuple[Group, Group]:
    """The coated side and the coated top of a tier, its foot at height 0."""
    outline, high, coat = tier.outline, tier.height_mm, tier.coat_colour
    left, low_back, right, high_back = _extent(outline)
    items: list[Item] = [Path(_side_parts(outline, 0.0, high), Style(fill=_coloured(outline, coat)))]
    for from_mm, to_mm, colour in _blended(tier):
        items.append(Path(_side_parts(outline, from_mm, min(high, to_mm + 0.4)), Style(fill=_coloured(outline, colour))))
    for share in (0.20, 0.15, 0.11, 0.08, 0.05):
        items.append(Path(_side_parts(outline, 0.0, high * share), Style(fill=SHADOW_COLOUR, opacity=0.018)))
    y0, y1 = -high * _COS - high_back * _SIN, -high * _COS - low_back * _SIN
    light = Gradient(left * 0.8, y0, right * 0.8, y1, ((0, tone(coat, 0.42)), (0.5, tone(coat, 0.24)), (1, tone(coat, 0.04))))
    edge = tone(coat, 0.5)
    return Group(tuple(items)), Group((Path(_top_parts(outline, high), Style(fill=light, stroke=edge, width_mm=0.8)),))


def _moved(items: Sequence[Item], y: float) -> Group:
    return Group(tuple(items), matrix=(1.0, 0.0, 0.0, 1.0, 0.0, y))


def _part(row: PlacedRow, half: Group, y: float) -> Group:
    """One half of a row at its height, with its name and the part of the form that asks for it."""
    return Group((_moved((half,), y),), row.name or f"{row.kind}, {row.tip.name}", part=row.part)


def _standing(tiers: Sequence[TierDrawn]) -> list[Item]:
    """A tier and everything that stands on it, the farther things first."""
    tier = tiers[0]
    foot, top = (-z * _COS - tier.back_mm * _SIN for z in (tier.base_mm, tier.base_mm + tier.height_mm))
    side, lid = _body(tier)
    rows = [(row, *_halves(tier, row)) for row in in_piping_order(tier.rows)]
    below = [one for one in rows if not one[0].on_top and one[0].place != "top edge"]
    edge = [one for one in rows if one[0].place == "top edge" and not one[0].on_top]
    upon = [one for one in rows if one[0].on_top]
    items: list[Item] = [
        _moved(
            [
                Path(_top_parts(tier.outline, 0.0, out), Style(fill=SHADOW_COLOUR, opacity=faint))
                for out, faint in ((9.0, 0.05), (6.0, 0.06), (3.0, 0.08))
            ],
            foot,
        )
    ]
    items += [_part(row, half.far, top + down) for row, half, down in below]
    items.append(Group((_moved((side, lid), foot),), tier.name, part=tier.part))
    shadows = [(row, half.shadow, top + down) for row, half, down in (*below, *edge) if half.shadow.items]
    items += [Group((_moved((shadow,), y),), part=row.part) for row, shadow, y in shadows]  # seen as much as its row
    items += [_part(row, half.near, top + down) for row, half, down in below]
    items += [_part(row, half.far, top + down) for row, half, down in (*edge, *upon)]
    if len(tiers) > 1:
        items += _standing(tiers[1:])
    items += [_part(row, half.near, top + down) for row, half, down in (*upon, *edge)]
    return items


def _board(tiers: Sequence[TierDrawn], board_mm: float) -> tuple[list[Item], float, float]:
    """The board under a cake, how far it reaches to either side and how far down in the picture."""
    widest = max(tiers, key=lambda tier: tier.outline.width_mm).outline
    extra = max(0.0, (board_mm - widest.width_mm) / 2) if board_mm else 40.0
    shape = widest.offset(extra)
    left, low, right, high = _extent(shape)
    wood = Gradient(left, 0, right, 0, ((0, "#b9a382"), (0.3, "#efe2c8"), (0.55, "#dcc9a6"), (1, "#9d8764")))
    plain = Gradient(left, -high * _SIN, right, -low * _SIN, ((0, "#f6ecd7"), (0.5, "#e8d9ba"), (1, "#cfbb95")))
    items: list[Item] = [
        Path(_top_parts(shape, -BOARD_MM, out), Style(fill=SHADOW_COLOUR, opacity=faint))
        for out, faint in ((14.0, 0.02), (11.0, 0.03), (8.0, 0.03), (5.0, 0.04), (2.5, 0.05))
    ]
    items.append(Path(_side_parts(shape, -BOARD_MM, 0.0), Style(fill=wood)))
    items.append(Path(_top_parts(shape, 0.0), Style(fill=plain, stroke="#fff6e0", width_mm=0.6)))
    return items, right - left, BOARD_MM * _COS - low * _SIN


@lru_cache(maxsize=8)
def tilted_view(tiers: tuple[TierDrawn, ...], board_mm: float = 0.0, title: str = "The cake from a little above") -> Scene:
    """Draw a cake from in front and a little above, to scale.

    Formula: x' = x, y' = -(z cos t + y sin t), with t = 15 degrees.

    Parameters
    ----------
    tiers : tuple of TierDrawn
        The tiers, the lowest first [-]
    board_mm : float
        Width of the board; 40 mm more than the widest tier on either side when 0 [mm]
    title : str
        What the drawing is called [-]

    Returns
    -------
    Scene
        The drawing [mm]

    Raises
    ------
    ValueError
        There is no tier.

    Range: any tiers that stand on one another. Leaves out: perspective, and rows of one tier that hang over another.

    Example
    -------
    >>> from calc.shapes import outline
    >>> round(tilted_view((TierDrawn(outline("round", 200.0), 0.0, 100.0),), 280.0).width_mm)
    316

    Source: geometry (orthographic projection)
    """
    if not tiers:
        raise ValueError("a cake has at least one tier")
    board, wide, foot = _board(tiers, board_mm)
    crown = tiers[-1]
    top = min(-(tier.base_mm + tier.height_mm) * _COS - (tier.back_mm + _extent(tier.outline)[3]) * _SIN for tier in tiers)
    above = 12.0 + max((row.size_mm for row in crown.rows), default=0.0)
    words = f"{len(tiers)} {'tier' if len(tiers) == 1 else 'tiers'}, seen from in front and a little above, to scale."
    items = (*board, *_standing(tiers))
    margin = 18.0
    return Scene(title, words, -wide / 2 - margin, top - above, wide + 2 * margin, foot - top + above + 14.0, items)
