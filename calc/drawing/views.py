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

from calc.drawing.motifs import SHADOW_COLOUR, motif, tone
from calc.drawing.rows import Laid, RowDrawn, RowLaid, Strand, TierDrawn, lay
from calc.drawing.scene import Gradient, Group, Item, Parts, Path, Point, Scene, Style, Use, ellipse, polygon, rectangle, smooth

BOARD_MM = 12.0


class _Front:
    """Where a place on the side of a tier stands, seen from in front."""

    def __init__(self, tier: TierDrawn) -> None:
        self.outline = tier.outline
        self.top = -(tier.base_mm + tier.height_mm)
        self.radius = tier.outline.width_mm / 2
        self.is_round = tier.outline.kind == "round"
        self.left, _, self.right, _ = tier.outline.extent_mm

    def at(self, s: float) -> tuple[float, float, float]:
        """x [mm], the cosine and the sine of how far the surface has turned (sine above nothing to the right)."""
        if self.is_round:
            angle = s / self.radius - math.pi
            sine = math.sin(angle)
            return self.radius * sine, math.cos(angle), sine
        x, _, heading = self.outline.point(s)
        return x, math.cos(heading), math.sin(heading)


_LOPSIDED = ("shell", "bead")
_TURNED = 0.4  # cosine past which, on the right, the nearer piece hides the next


def _pieces(front: _Front, laid: Sequence[Laid], colour: str) -> list[Item]:
    near: list[Item] = []
    far: list[Item] = []
    for piece, s, down, turn, along, across, out, solid in laid:
        x, c, n = front.at(s)
        if c < 0.02:
            continue
        narrow = along * math.hypot(c, solid * n) / 100
        turned_away = n > 0 and c < _TURNED and piece in _LOPSIDED
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
        item = Use(motif(piece, colour, min(2, max(0, round((0.55 - 0.94 * c + 0.34 * n) * 3)))), matrix)
        (far if turned_away else near).append(item)
    return far[::-1] + near


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
            parts.extend(smooth([(x + 0.1 * width, y) for x, y in run]))
    if not parts:
        return []
    soft = tuple(parts)
    casts = tuple(Path(soft, Style(stroke=SHADOW_COLOUR, width_mm=width * share, opacity=0.05)) for share in (1.4, 1.05, 0.7))
    clip = (front.left, front.top, front.right - front.left, 1000.0)
    return [Group(casts, clip=clip)]


# one strand: how far it is moved to the light and how wide it is, as shares of its width, and its tone
_STRAND = ((0.0, 0.0, 1.0, -0.58), (-0.05, -0.07, 0.82, -0.20), (-0.10, -0.13, 0.56, 0.08), (-0.14, -0.2, 0.22, 0.6))
_EDGE = ((0.0, 0.12, 1.5, -0.42), (0.0, 0.0, 1.0, 0.0), (-0.05, -0.18, 0.45, 0.45))


def _strands(front: _Front, laid: RowLaid, colour: str) -> list[Item]:
    items: list[Item] = []
    for strand in laid.strands:
        w = strand.width_mm
        for run in _seen(front, strand, w * 0.4 if strand.role != "edge" else w * 2.4):
            for dx, dy, share, level in (_EDGE if strand.role == "edge" else _STRAND):
                items.append(Path(smooth([(x + dx * w, y + dy * w) for x, y in run]), Style(stroke=tone(colour, level), width_mm=w * share)))
            if strand.role == "line":
                for dy in (-0.22, 0.12, 0.34):
                    items.append(Path(smooth([(x, y + dy * w) for x, y in run]), Style(stroke=tone(colour, -0.4), width_mm=w * 0.07)))
    return items


def _body(tier: TierDrawn) -> list[Item]:
    left, _, right, _ = tier.outline.extent_mm
    top, foot = -(tier.base_mm + tier.height_mm), -tier.base_mm
    soft = min(4.0, tier.height_mm / 4)
    outline: Parts = (("M", left, foot), ("L", left, top + soft),
                      ("C", left, top + soft * 0.4, left + soft * 0.4, top, left + soft, top), ("L", right - soft, top),
                      ("C", right - soft * 0.4, top, right, top + soft * 0.4, right, top + soft), ("L", right, foot), ("Z",))
    coat = tier.coat_colour
    places: tuple[tuple[float, float], ...]
    if tier.outline.kind in ("square", "rectangle"):
        places = ((0.0, -0.02), (0.4, 0.18), (1.0, -0.14))
    else:
        places = ((0.0, -0.36), (0.05, -0.25), (0.16, -0.08), (0.30, 0.10), (0.40, 0.16), (0.58, 0.03), (0.78, -0.14), (0.92, -0.31),
                  (1.0, -0.46))
    fill = Gradient(left, 0, right, 0, tuple((place, tone(coat, level)) for place, level in places))
    items: list[Item] = [Path(outline, Style(fill=fill))]
    for share in (0.20, 0.16, 0.125, 0.095, 0.07, 0.05):
        items.append(Path(rectangle(left, foot - tier.height_mm * share, right - left, tier.height_mm * share),
                          Style(fill=SHADOW_COLOUR, opacity=0.018)))
    items.append(Path(rectangle(left + soft, top + 0.4, right - left - 2 * soft, 1.0), Style(fill=tone(coat, 0.6), opacity=0.35)))
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
    items: list[Item] = [*_shadows(front, laid), *_pieces(front, laid.pieces, row.colour), *_strands(front, laid, row.colour)]
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
    >>> from calc.shapes import outline
    >>> side_view((TierDrawn(outline("round", 210.0), 0.0, 100.0),)).width_mm
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
