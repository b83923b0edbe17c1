"""Whole cakes: from the side, in true projection, and from above; one side laid flat is in `calc.drawing.unroll`.

Map
---
`side_view`      the cake from in front, to scale
`top_view`       the cake from above, its front towards the reader
`band_mm`        how far a row reaches up and down the side

Seen from in front a point at s round a tier stands at x; where the surface has turned by an angle from the eye, everything along the row is
narrowed by its cosine and everything that stands out shows from its side by its sine. What has turned past a right angle is not drawn.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from calc.drawing.motifs import PIECES, SHADOW_COLOUR, motif, ribbon, split_colours, strand_paths, tone
from calc.drawing.motifs.laid import WAVE, Laid, Ribbon, RowLaid, Strand
from calc.drawing.scene import Gradient, Group, Item, Parts, Path, Point, Scene, Style, Use, circle, ellipse, polygon, rectangle, smooth
from calc.drawing.tiers import TierDrawn, lay
from calc.rows.placement import PlacedRow
from calc.shapes import Outline
from calc.sources import constant

BOARD_MM = constant(12.0, "mm", "common-practice", "thickness of a cake board made for a whole cake")


class _Front:
    """Where a place on the side of a tier stands, seen from in front."""

    def __init__(self, outline: Outline, top_mm: float) -> None:
        self.outline = outline
        self.top = -top_mm
        self.radius = outline.width_mm / 2
        self.is_round = outline.kind == "round"
        self.left, _, self.right, _ = outline.extent_mm

    def at(self, s: float) -> tuple[float, float, float]:
        """x [mm], the cosine and the sine of how far the surface has turned (sine positive to the right)."""
        if self.is_round:
            angle = s / self.radius - math.pi
            sine = math.sin(angle)
            return self.radius * sine, math.cos(angle), sine
        x, _, heading = self.outline.point(s)
        return x, math.cos(heading), math.sin(heading)


TURNED_AWAY = 0.4  # cosine past which, on the right, the nearer piece hides the next


def _pieces(front: _Front, laid: Sequence[Laid], colour: str) -> list[Item]:
    near: list[Item] = []
    far: list[Item] = []
    for piece, s, down, turn, along, across, out, solid in laid:
        x, c, n = front.at(s)
        if c < 0.02:
            continue
        narrow = along * math.hypot(c, solid * n) / 100
        turned_away = n > 0 and c < TURNED_AWAY and PIECES[piece].sits
        if turned_away:
            narrow *= 0.75
        x += out * 0.5 * n
        y = front.top + down
        if turn:
            ct, st = math.cos(turn), math.sin(turn)
            flat = narrow / along
            matrix = (ct * narrow, st * along / 100, -st * across * flat, ct * across / 100, x, y)
        else:
            matrix = (narrow, 0.0, 0.0, across / 100, x, y)
        item = Use(motif(piece, colour, shade(c, n)), matrix)
        (far if turned_away else near).append(item)
    return far[::-1] + near


def _seen(front: _Front, strand: Strand, out: float, least: float = 0.0) -> list[list[Point]]:
    """The stretches of a strand that can be seen, as points of the picture."""
    runs: list[list[Point]] = [[]]
    for s, down in strand.points:
        x, c, n = front.at(s)
        if c < least:
            if runs[-1]:
                runs.append([])
            continue
        runs[-1].append((x + out * n, front.top + down))
    return [run for run in runs if len(run) > 1]


def _shadows(front: _Front, laid: RowLaid) -> list[Item]:
    parts: list[tuple[str | float, ...]] = []
    width = 0.0
    for strand in laid.shadows:
        width = strand.width_mm
        for run in _seen(front, strand, 0.0, 0.3):
            parts.extend(smooth([(x + 0.1 * width, y) for x, y in run]))
    if not parts:
        return []
    soft = tuple(parts)
    return [Path(soft, Style(stroke=SHADOW_COLOUR, width_mm=width * share, opacity=0.05)) for share in (1.2, 0.95, 0.7)]


def _strands(front: _Front, laid: RowLaid, colour: str) -> list[Item]:
    items: list[Item] = []
    for strand in laid.strands:
        for run in _seen(front, strand, strand.width_mm * 0.4):
            items += strand_paths(run, strand.width_mm, strand.role, colour)
    return items


def _ribbons(front: _Front, ribbons: Sequence[Ribbon], colour: str) -> list[Item]:
    """Ribbons as far as they can be seen; their lower edge stands out of the side."""
    items: list[Item] = []
    for one in ribbons:
        upper: list[Point] = []
        lower: list[Point] = []
        turned = 0.0
        for (s, down), (s_low, down_low) in zip(one.upper, one.lower, strict=True):
            x, c, n = front.at(s)
            x_low, c_low, n_low = front.at(s_low)
            if min(c, c_low) < 0.0:
                if len(upper) > 2:  # it ends out of sight; what comes after, on the other side, is another stretch
                    items += ribbon(upper, lower, tone(colour, turned / len(upper)), WAVE)
                upper, lower, turned = [], [], 0.0
                continue
            if not upper and len(one.upper) % WAVE == 1 and one.upper.index((s, down)) % WAVE:
                continue  # begin on a crest, so that folds lie where they lie on the rest of the ribbon
            upper.append((x + 0.15 * one.out_mm * n, front.top + down))
            lower.append((x_low + one.out_mm * n_low, front.top + down_low))
            turned += min(0.0, lit(c, n) - 0.1) * 0.55
        if len(upper) > 2:
            items += ribbon(upper, lower, tone(colour, turned / len(upper)), WAVE)
    return items


def shade(c: float, n: float) -> int:
    """Which of three tones a piece has that has turned by this cosine and sine from the eye: 0 in the light, 2 in the shadow."""
    return min(2, max(0, round((0.55 - 0.94 * c + 0.34 * n) * 3)))


def lit(c: float, n: float) -> float:
    """How light a coat is that has turned by this cosine and sine from the eye: lit from the upper left, darker towards the edges."""
    return 0.17 - 0.37 * (1 - 0.94 * c + 0.34 * n) - 0.20 * (1 - c) ** 2


def _round_the_front(shape: Outline) -> list[tuple[float, float, float, float]]:
    """Places round the side from its left edge to its right one, each with how the side runs there, to the right and to the back."""
    count = 240
    seen = range(count // 5, count - count // 5)  # what lies further back cannot be seen
    if shape.kind == "oval":  # even steps along an ellipse take long to find, and are not needed here
        ring = shape.points(count)
        sides = [(ring[i], ring[i + 1], math.dist(ring[i], ring[i + 1])) for i in seen]
        return [((x0 + x1) / 2, (y0 + y1) / 2, (x1 - x0) / long, (y1 - y0) / long) for (x0, y0), (x1, y1), long in sides]
    found = [shape.point(shape.perimeter_mm * (i + 0.37) / count) for i in seen]
    return [(x, y, math.cos(heading), math.sin(heading)) for x, y, heading in found]


@lru_cache(maxsize=64)
def light_round(shape: Outline) -> tuple[tuple[float, float], ...]:
    """The light on a side from left to right: places from 0 to 1 with the tone there."""
    if shape.kind == "round":
        turns = [math.radians(angle) for angle in (-90, -75, -60, -45, -30, -15, 0, 15, 30, 45, 60, 75, 90)]
        return tuple((round(0.5 + 0.5 * math.sin(t), 4), lit(math.cos(t), math.sin(t))) for t in turns)
    left, _, right, _ = shape.extent_mm
    bins: dict[int, tuple[float, float]] = {}
    for x, y, c, n in _round_the_front(shape):
        place = round(48 * (x - left) / (right - left))
        if c > 0.02 and (place not in bins or y < bins[place][0]):
            bins[place] = (y, lit(c, n))
    found = [(place / 48, level) for place, (_, level) in sorted(bins.items())]
    # a place between two of the same tone adds nothing to the gradient
    last = len(found) - 1
    kept = [one for i, one in enumerate(found) if i in (0, last) or max(abs(found[k][1] - one[1]) for k in (i - 1, i + 1)) > 0.004]
    if len(kept) < 2:
        kept = [(0.0, 0.1), (1.0, 0.1)]
    return tuple((0.0 if i == 0 else 1.0 if i == len(kept) - 1 else place, level) for i, (place, level) in enumerate(kept))


def _body(tier: TierDrawn) -> list[Item]:
    left, _, right, _ = tier.outline.extent_mm
    top, foot = -(tier.base_mm + tier.height_mm), -tier.base_mm
    soft = min(4.0, tier.height_mm / 4)
    near, far = soft * 0.4, soft
    outline: Parts = (
        ("M", left, foot),
        ("L", left, top + far),
        ("C", left, top + near, left + near, top, left + far, top),
        ("L", right - far, top),
        ("C", right - near, top, right, top + near, right, top + far),
        ("L", right, foot),
        ("Z",),
    )
    coat = tier.coat_colour
    fill = Gradient(left, 0, right, 0, tuple((place, tone(coat, level)) for place, level in light_round(tier.outline)))
    items: list[Item] = [Path(outline, Style(fill=fill))]
    for low, high, colour in tier.bands:
        shade = Gradient(left, 0, right, 0, tuple((place, tone(colour, level)) for place, level in light_round(tier.outline)))
        band = outline if high > tier.height_mm - soft else rectangle(left, foot - high, right - left, high - low)
        items.append(Group((Path(band, Style(fill=shade)),), clip=(left, foot - high, right - left, high - low)))
    for share in (0.20, 0.16, 0.125, 0.095, 0.07, 0.05):
        items.append(
            Path(rectangle(left, foot - tier.height_mm * share, right - left, tier.height_mm * share), Style(fill=SHADOW_COLOUR, opacity=0.018))
        )
    items.append(Path(rectangle(left + soft, top + 0.4, right - left - 2 * soft, 1.0), Style(fill=tone(coat, 0.6), opacity=0.35)))
    return items


def in_piping_order(rows: Sequence[PlacedRow]) -> list[PlacedRow]:
    """Rows as they are piped, but leaves before the rosettes they are tucked under."""
    order: list[PlacedRow] = []
    for row in rows:
        at = len(order)
        if row.what.tucked:
            while at and order[at - 1].what.flower and order[at - 1].place == row.place:
                at -= 1
        order.insert(at, row)
    return order


def _row(tier: TierDrawn, row: PlacedRow) -> Group:
    """A row from in front, at its height; its shadow does not fall above the tier's top edge."""
    shadows, piped = _row_in_front(tier.outline, replace(row, line_mm=0.0, cutter_mm=None, name="", part=""))
    top = -tier.base_mm - tier.height_mm
    down = tier.height_mm if row.place == "base" and not row.what.takes_drop else row.line_mm
    at = (1.0, 0.0, 0.0, 1.0, 0.0, top + down)
    left, _, right, _ = tier.outline.extent_mm
    items: tuple[Item, ...] = (Group((piped,), matrix=at),)
    if shadows.items:
        items = (Group((Group((shadows,), matrix=at),), clip=(left, top, right - left, 1000.0)), *items)
    return Group(items, row.name or f"{row.kind}, {row.tip.name}", part=row.part)


@lru_cache(maxsize=48)
def _row_in_front(outline: Outline, row: PlacedRow) -> tuple[Group, Group]:
    """The shadow of a row and what is piped, from in front; kept, because an edit leaves most rows as they are, or moves them up or down."""
    front = _Front(outline, 0.0)
    laid = lay(row, outline.perimeter_mm, 0.0)
    piped = (*_ribbons(front, laid.ribbons, row.colour), *_pieces(front, laid.pieces, row.colour), *_strands(front, laid, row.colour))
    return Group(tuple(_shadows(front, laid))), Group(piped)


@lru_cache(maxsize=8)
def side_view(tiers: tuple[TierDrawn, ...], board_mm: float = 0.0, title: str = "The cake from the side") -> Scene:
    """Draw a cake from in front, to scale."""
    if not tiers:
        raise ValueError("a cake has at least one tier")
    widest = max(tier.outline.width_mm for tier in tiers)
    board = board_mm or widest + 80
    half = board / 2
    items: list[Item] = []
    for wide, high, faint in ((1.06, 9.0, 0.05), (1.03, 7.0, 0.06), (1.0, 5.0, 0.08), (0.96, 3.4, 0.10)):
        items.append(Path(ellipse(0, BOARD_MM + 0.6, half * wide, high), Style(fill=SHADOW_COLOUR, opacity=faint)))
    items.append(
        Path(
            polygon([(-half, 0), (half, 0), (half, BOARD_MM), (-half, BOARD_MM)]),
            Style(fill=Gradient(-half, 0, half, 0, ((0, "#b9a382"), (0.3, "#efe2c8"), (0.55, "#dcc9a6"), (1, "#9d8764")))),
        )
    )
    items.append(Path(polygon([(-half, 0), (half, 0), (half, 1.2), (-half, 1.2)]), Style(fill="#fff6e0", opacity=0.7)))
    for tier in tiers:
        width = tier.outline.width_mm / 2
        foot = -tier.base_mm
        items.append(Path(ellipse(1.5, foot, width + 5, 2.2), Style(fill=SHADOW_COLOUR, opacity=0.16)))
        items.append(Group(tuple(_body(tier)), tier.name, part=tier.part))
        items.extend(_row(tier, row) for row in in_piping_order(tier.rows) if not row.on_top or row.what.stands_up)
    top = max(tier.base_mm + tier.height_mm for tier in tiers)
    words = f"{len(tiers)} {'tier' if len(tiers) == 1 else 'tiers'}, seen from in front, to scale."
    above = 16.0
    return Scene(title, words, -half - 18, -top - above, board + 36, top + above + BOARD_MM + 12, tuple(items))


# --- from above --------------------------------------------------------------------------------------------------------


class _Above:
    """Where a place on the edge of a tier stands, seen from above with its front towards the reader."""

    def __init__(self, outline: Outline) -> None:
        self.outline = outline
        self.radius = outline.width_mm / 2 if outline.kind == "round" else None

    def at(self, s: float, out: float) -> tuple[float, float, float, float]:
        """x and y [mm] at `out` outwards of the edge, and the cosine and sine of the way round."""
        if self.radius is not None:
            c, n = -math.cos(s / self.radius), -math.sin(s / self.radius)
            return (self.radius + out) * n, (self.radius + out) * c, c, n
        x, y, heading = self.outline.point(s)
        c, n = math.cos(heading), math.sin(heading)
        return x + out * n, -(y - out * c), c, n


def _from_above(above: _Above, row: PlacedRow, laid: RowLaid) -> list[Item]:
    items: list[Item] = _ribbons_from_above(above, row, laid.ribbons)
    for piece, s, down, turn, along, across, out, _ in laid.pieces:
        flat = row.on_top or row.place == "top edge"
        reach = abs(across)
        if row.on_top:
            middle = -row.line_mm
        elif row.place == "top edge":
            middle = reach * 0.08
        elif row.place == "base":
            middle = reach * 0.42
        else:
            middle = out * 0.5
        if PIECES[piece].points:
            if flat:
                c0, s0 = math.cos(turn), math.sin(turn)
            else:  # a leaf on the side points along it, seen from above
                c0, s0 = (1.0 if math.cos(turn) >= 0 else -1.0), 0.15
            x, y, c, n = above.at(s + down * 0, middle + (down - row.line_mm if flat else 0.0))
            wide = across if flat else across * 0.35
            ax, ay = c0 * c + s0 * n, -c0 * n + s0 * c
            bx, by = -s0 * c + c0 * n, s0 * n + c0 * c
            items.append(Use(motif(piece, row.colour), (along * ax / 100, along * ay / 100, wide * bx / 100, wide * by / 100, x, y)))
            continue
        if not flat and row.place != "base" and PIECES[piece].faces_out:
            across = math.copysign(out * 2.0, across)
        if PIECES[piece].sits:
            middle += 0.46 * abs(across)
        x, y, c, n = above.at(s, middle)
        items.append(Use(motif(piece, row.colour), (along * c / 100, -along * n / 100, across * n / 100, across * c / 100, x, y)))
    return items


def _ribbons_from_above(above: _Above, row: PlacedRow, ribbons: Sequence[Ribbon]) -> list[Item]:
    """Ribbons from above: what of them stands out of the side, or all of them where they lie on the top."""
    items: list[Item] = []
    for one in ribbons:
        inner, outer = (-0.5, 0.5) if row.on_top or row.place == "top edge" else (0.0, 0.85)
        middle = -row.line_mm if row.on_top else 0.0
        upper, lower = [], []
        for (s, down), (s_low, down_low) in zip(one.upper[::2], one.lower[::2], strict=True):
            deep = math.hypot(s_low - s, down_low - down)
            upper.append(above.at((s + s_low) / 2, middle + inner * deep)[:2])
            lower.append(above.at((s + s_low) / 2, middle + outer * deep)[:2])
        items += ribbon(upper, lower, row.colour, WAVE // 2)
    return items


def _ring(above: _Above, out: float) -> list[Point]:
    perimeter_mm = above.outline.perimeter_mm
    count = 72
    return [above.at(perimeter_mm * i / count, out)[:2] for i in range(count)]


def _row_from_above(outline: Outline, row: PlacedRow) -> Group:
    """A row from above, where it does not matter how high on the side it is."""
    drawn = _row_in_plan(outline, replace(row, line_mm=row.line_mm if row.on_top else 0.0, cutter_mm=None, part=""))
    return drawn._replace(part=row.part)


@lru_cache(maxsize=48)
def _row_in_plan(outline: Outline, row: PlacedRow) -> Group:
    """A row from above; kept, as those from in front are."""
    above = _Above(outline)
    laid = lay(row, outline.perimeter_mm, 0.0)
    is_flat = row.on_top or row.place == "top edge"
    tones = ((1.0, -0.5), (0.75, -0.1), (0.4, 0.3)) if is_flat else ((1.0, -0.5), (0.6, 0.1))
    items: list[Item] = []
    for strand in laid.strands[:1]:
        out = strand.width_mm * 0.5 if not is_flat else -row.line_mm if row.on_top else 0.0
        ring = smooth(_ring(above, out), closed=True)
        rings: list[Item] = [Path(ring, Style(stroke=tone(row.colour, level), width_mm=strand.width_mm * share)) for share, level in tones]
        items += split_colours(rings, row.colour)
    return Group((*items, *_from_above(above, row, laid)), row.name or f"{row.kind}, {row.tip.name}")


def _outline_from_above(tier: TierDrawn, out: float, dx: float = 0.0, dy: float = 0.0) -> Parts:
    outline = tier.outline
    if outline.kind == "round":
        return circle(dx, dy, outline.width_mm / 2 + out)
    moved = outline.offset(out) if abs(out) > 1e-9 else outline
    return polygon([(x + dx, -y + dy) for x, y in moved.points(144)])


@lru_cache(maxsize=8)
def top_view(tiers: tuple[TierDrawn, ...], board_mm: float = 0.0, title: str = "The cake from above") -> Scene:
    """Draw a cake from above, to scale, its front towards the reader."""
    if not tiers:
        raise ValueError("a cake has at least one tier")
    left, low, right, high = (
        f(values) for f, values in zip((min, min, max, max), zip(*(t.outline.extent_mm for t in tiers), strict=True), strict=True)
    )
    wide, long = right - left, high - low
    extra = max(0.0, (board_mm - wide) / 2) if board_mm else 40.0  # the board shows as much beside the cake as before it
    items: list[Item] = []
    widest = max(tiers, key=lambda tier: tier.outline.width_mm)
    for out, faint in ((5.0, 0.05), (3.0, 0.06), (1.2, 0.08)):
        items.append(Path(_outline_from_above(widest, extra + out * 0.6, 1.5, 2.0), Style(fill=SHADOW_COLOUR, opacity=faint)))
    reach = max(wide, long) / 2 + extra
    items.append(
        Path(
            _outline_from_above(widest, extra),
            Style(fill=Gradient(-reach, -reach, reach, reach, ((0, "#f4e9d2"), (0.5, "#e4d3b2"), (1, "#c9b48d"))), stroke="#a8916a", width_mm=0.5),
        )
    )
    for tier in tiers:
        below, items = items, []
        half = tier.outline.width_mm / 2
        for out, faint in ((9.0, 0.05), (6.0, 0.06), (3.0, 0.08)):
            items.append(Path(_outline_from_above(tier, out, 2.0, 3.0), Style(fill=SHADOW_COLOUR, opacity=faint)))
        order = in_piping_order(tier.rows)
        under = [row for row in order if not row.on_top and row.place != "top edge"]
        under.sort(key=lambda row: 0 if row.place == "base" else 1)
        items.extend(_row_from_above(tier.outline, row) for row in under)
        coat = tier.coat_colour
        items.append(
            Path(
                _outline_from_above(tier, 0.0),
                Style(
                    fill=Gradient(-half, -half, half, half, ((0, tone(coat, 0.35)), (0.45, tone(coat, 0.12)), (1, tone(coat, -0.14)))),
                    stroke=tone(coat, -0.3),
                    width_mm=0.4,
                ),
            )
        )
        if tier.outline.kind == "round":
            items.append(Path(circle(0, 0, half - 2.0), Style(stroke=tone(coat, 0.6), width_mm=1.0, opacity=0.5)))
        items.extend(_row_from_above(tier.outline, row) for row in order if row.on_top or row.place == "top edge")
        items = [*below, *([Group(tuple(items), matrix=(1.0, 0.0, 0.0, 1.0, 0.0, -tier.back_mm))] if tier.back_mm else items)]
    words = f"{len(tiers)} {'tier' if len(tiers) == 1 else 'tiers'}, seen from above with the front below, to scale."
    margin = 12.0
    if widest.outline.kind != "round":
        around = widest.outline.offset(extra).extent_mm
        left, low, right, high = (f(pair) for f, pair in zip((min, min, max, max), zip((left, low, right, high), around, strict=True), strict=True))
        wide, long, extra = right - left, high - low, 0.0
    return Scene(title, words, left - extra - margin, -high - extra - margin, wide + 2 * (extra + margin), long + 2 * (extra + margin), tuple(items))


# --- unrolled ----------------------------------------------------------------------------------------------------------


def band_mm(row: PlacedRow, perimeter_mm: float, height_mm: float) -> tuple[float, float]:
    """Give from where to where a row covers the side."""
    laid = lay(row, perimeter_mm, height_mm)
    ends: list[float] = []
    for piece in laid.pieces:
        tall = abs(piece.across) * (0.25 + 0.25 * abs(math.cos(piece.turn)))
        if PIECES[piece.piece].sits:
            ends += [piece.down - 0.95 * abs(piece.across), piece.down]
        elif PIECES[piece.piece].points:
            ends += [piece.down, piece.down + piece.along * math.sin(piece.turn)]
        else:
            ends += [piece.down - tall, piece.down + tall]
    for one in laid.ribbons:
        ends += [down for edge in (one.upper, one.lower) for _, down in edge]
    for strand in laid.strands:
        ends += [down + side * strand.width_mm / 2 for _, down in strand.points for side in (-1, 1)]
    return min(ends), max(ends)
