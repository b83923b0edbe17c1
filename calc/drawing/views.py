"""Whole cakes: from the side, in true projection.

Map
---
`side_view`      the cake from in front, to scale

Seen from in front a point at s round a tier stands at x; where the surface has turned by an angle from the eye, everything along the row is
narrowed by its cosine and everything that stands out shows from its side by its sine. What has turned past a right angle is not drawn.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from calc.drawing.motifs import SHADOW_COLOUR, motif, shade, tone
from calc.drawing.rows import Laid, RowDrawn, RowLaid, Strand, TierDrawn, lay
from calc.drawing.scene import Gradient, Group, Item, Parts, Path, Point, Scene, Style, Use, ellipse, polygon, smooth

BOARD_MM = 12.0


class _Front:
    """Where a place on the side of a tier stands, seen from in front."""

    def __init__(self, tier: TierDrawn) -> None:
        self.outline = tier.outline
        self.top = -(tier.base_mm + tier.height_mm)
        self.radius = tier.outline.width_mm / 2
        self.is_round = tier.outline.kind == "round"

    def at(self, s: float) -> tuple[float, float, float]:
        """x [mm], the cosine and the sine of how far the surface has turned (sine above nothing to the right)."""
        if self.is_round:
            angle = s / self.radius - math.pi
            sine = math.sin(angle)
            return self.radius * sine, math.cos(angle), sine
        x, _, heading = self.outline.point(s % self.outline.perimeter_mm)
        return x, math.cos(heading), math.sin(heading)


def _pieces(front: _Front, laid: Sequence[Laid], colour: str) -> list[Item]:
    items: list[Item] = []
    drawn = {}
    for piece, s, down, turn, along, across, out, solid in laid:
        x, c, n = front.at(s)
        if c < 0.02:
            continue
        if piece not in drawn:
            drawn[piece] = (motif(piece, colour), shade(piece))
        narrow = math.hypot(c, solid * n)
        x += out * 0.5 * n
        y = front.top + down
        if turn:
            ct, st = math.cos(turn) / 100, math.sin(turn) / 100
            matrix = (ct * along * narrow, st * along, -st * across * narrow, ct * across, x, y)
        else:
            matrix = (along * narrow / 100, 0.0, 0.0, across / 100, x, y)
        art, dark = drawn[piece]
        items.append(Use(art, matrix))
        dim = 0.05 * round((0.62 - 0.94 * c + 0.34 * n) * 11)
        if dim > 0:
            items.append(Use(dark, matrix, min(0.4, dim)))
    return items


def _seen(front: _Front, strand: Strand, out: float) -> list[list[Point]]:
    """The stretches of a strand that can be seen, as points of the picture."""
    runs: list[list[Point]] = [[]]
    for s, down in strand.points:
        x, c, n = front.at(s)
        if c < 0.0:
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
        for run in _seen(front, strand, 0.0):
            parts.extend(smooth([(x + 0.8, y) for x, y in run]))
    if not parts:
        return []
    soft = tuple(parts)
    return [Path(soft, Style(stroke=SHADOW_COLOUR, width_mm=width * 1.3, opacity=0.07)),
            Path(soft, Style(stroke=SHADOW_COLOUR, width_mm=width, opacity=0.10))]


# one strand: how far it is moved to the light and how wide it is, as shares of its width, and its tone
_STRAND = ((0.0, 0.0, 1.0, -0.58), (-0.05, -0.07, 0.82, -0.20), (-0.10, -0.13, 0.56, 0.08), (-0.14, -0.2, 0.22, 0.6))


def _strands(front: _Front, laid: RowLaid, colour: str) -> list[Item]:
    items: list[Item] = []
    for strand in laid.strands:
        for run in _seen(front, strand, strand.width_mm * 0.4):
            for dx, dy, share, level in _STRAND:
                w = strand.width_mm
                items.append(Path(smooth([(x + dx * w, y + dy * w) for x, y in run]),
                                  Style(stroke=tone(colour, level), width_mm=w * share)))
            if strand.role == "line":
                for dy in (-0.22, 0.12, 0.34):
                    items.append(Path(smooth([(x, y + dy * strand.width_mm) for x, y in run]),
                                      Style(stroke=tone(colour, -0.4), width_mm=strand.width_mm * 0.07)))
    return items


def _body(tier: TierDrawn) -> list[Item]:
    half = tier.outline.width_mm / 2
    top, foot = -(tier.base_mm + tier.height_mm), -tier.base_mm
    round_ = min(4.0, tier.height_mm / 4)
    outline: Parts = (("M", -half, foot), ("L", -half, top + round_), ("C", -half, top + round_ * 0.4, -half + round_ * 0.4, top, -half + round_, top),
                      ("L", half - round_, top), ("C", half - round_ * 0.4, top, half, top + round_ * 0.4, half, top + round_),
                      ("L", half, foot), ("Z",))
    coat = tier.coat_colour
    places: tuple[tuple[float, float], ...]
    if tier.outline.kind in ("square", "rectangle"):
        places = ((0.0, -0.02), (0.4, 0.18), (1.0, -0.14))
    else:
        places = ((0.0, -0.56), (0.05, -0.36), (0.16, -0.12), (0.30, 0.12), (0.38, 0.2), (0.5, 0.08), (0.7, -0.14), (0.88, -0.36),
                  (0.96, -0.52), (1.0, -0.66))
    fill = Gradient(-half, 0, half, 0, tuple((place, tone(coat, level)) for place, level in places))
    items: list[Item] = [Path(outline, Style(fill=fill))]
    for depth, faint in ((tier.height_mm * 0.28, 0.03), (tier.height_mm * 0.14, 0.04), (tier.height_mm * 0.06, 0.05)):
        items.append(Path(polygon([(-half, foot - depth), (half, foot - depth), (half, foot), (-half, foot)]),
                          Style(fill=SHADOW_COLOUR, opacity=faint)))
    items.append(Path(polygon([(-half + round_, top + 0.5), (half - round_, top + 0.5), (half - round_, top + 1.4), (-half + round_, top + 1.4)]),
                      Style(fill=tone(coat, 0.5), opacity=0.6)))
    return items


def _in_order(rows: Sequence[RowDrawn]) -> list[RowDrawn]:
    """Rows as they are piped, but leaves before the rosettes they are tucked under."""
    order: list[RowDrawn] = []
    for row in rows:
        at = len(order)
        if row.kind == "leaf":
            while at and order[at - 1].kind in ("rosette", "star") and order[at - 1].place == row.place:
                at -= 1
        order.insert(at, row)
    return order


def _row(front: _Front, tier: TierDrawn, row: RowDrawn) -> Group:
    laid = lay(row, tier.outline.perimeter_mm, tier.height_mm)
    items: list[Item] = [*_shadows(front, laid), *_strands(front, laid, row.colour), *_pieces(front, laid.pieces, row.colour)]
    return Group(tuple(items), row.name or f"{row.kind}, {row.tip.name}")


@lru_cache(maxsize=8)
def side_view(tiers: tuple[TierDrawn, ...], board_mm: float = 0.0, title: str = "The cake from the side") -> Scene:
    """Draw a cake from in front, to scale.

    Formula: x = R sin(theta) for a round tier; narrowed along the row by cos(theta).

    Parameters
    ----------
    tiers : tuple of TierDrawn
        The tiers, lowest first [mm]
    board_mm : float
        Width of the board under the cake; nothing chooses 8 cm more than the widest tier [mm]
    title : str
        What the drawing is called [-]

    Returns
    -------
    Scene
        The drawing [mm]

    Raises
    ------
    ValueError
        There is no tier, or a row is of no known kind.

    Range: upright tiers. Leaves out: perspective; the eye is far away, so that every height is to scale.

    Example
    -------
    >>> from calc.drawing.rows import Round
    >>> side_view((TierDrawn(Round(210.0), 0.0, 100.0),)).width_mm
    326.0

    Source: geometry
    """
    if not tiers:
        raise ValueError("a cake has at least one tier")
    widest = max(tier.outline.width_mm for tier in tiers)
    board = board_mm or widest + 80
    half = board / 2
    items: list[Item] = []
    for wide, high, faint in ((1.06, 9.0, 0.05), (1.03, 7.0, 0.06), (1.0, 5.0, 0.08), (0.96, 3.4, 0.10)):
        items.append(Path(ellipse(0, BOARD_MM + 0.6, half * wide, high), Style(fill=SHADOW_COLOUR, opacity=faint)))
    items.append(Path(polygon([(-half, 0), (half, 0), (half, BOARD_MM), (-half, BOARD_MM)]),
                      Style(fill=Gradient(-half, 0, half, 0, ((0, "#b9a382"), (0.3, "#efe2c8"), (0.55, "#dcc9a6"), (1, "#9d8764"))))))
    items.append(Path(polygon([(-half, 0), (half, 0), (half, 1.2), (-half, 1.2)]), Style(fill="#fff6e0", opacity=0.7)))
    for tier in tiers:
        front = _Front(tier)
        width = tier.outline.width_mm / 2
        foot = -tier.base_mm
        items.append(Path(ellipse(1.5, foot, width + 5, 2.2), Style(fill=SHADOW_COLOUR, opacity=0.16)))
        items.append(Group(tuple(_body(tier)), tier.name))
        items.extend(_row(front, tier, row) for row in _in_order(tier.rows))
    top = max(tier.base_mm + tier.height_mm for tier in tiers)
    words = f"{len(tiers)} {'tier' if len(tiers) == 1 else 'tiers'}, seen from in front, to scale."
    above = 16.0
    return Scene(title, words, -half - 18, -top - above, board + 36, top + above + BOARD_MM + 12, tuple(items))
