"""A planned cake as its drawings need it: the colours, each tier, and the views drawn from them.

Map
---
`look_of`, `shades`   the colour in which a named colour is drawn
`tier_drawing`        a planned tier as `calc.drawing` takes it
`tilted_svg`, `tilted_if_drawn`, `side_svg`, `top_svg`, `unrolled_svg`   the drawings of an answer; each is kept while nothing in it changes
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from calc.calculators.order_words import row_name
from calc.colours import PALETTE, hex_of
from calc.drawing.svg import svg
from calc.drawing.tiers import TierDrawn
from calc.drawing.tilted import tilted_view
from calc.drawing.unroll import unrolled
from calc.drawing.views import side_view, top_view
from calc.order import PlannedTier
from calc.rows.placement import PlacedRow

Looks = tuple[tuple[str, str], ...]  # names of colours, and how the maker wants them drawn


def look_of(colour: str, looks: Mapping[str, str]) -> str:
    """The drawing's colour for a colour's name; two of one bag by the first, unknown names in a plain cream."""
    given = looks.get(colour, "").strip()
    if len(given) == 7 and given.startswith("#") and all(c in "0123456789abcdefABCDEF" for c in given[1:]):
        return given.lower()
    first, both, _ = colour.partition(" and ")
    return hex_of(colour) or (look_of(first, looks) if both else PALETTE["plain"])


def shades(rows: Sequence[PlacedRow], looks: Looks) -> dict[str, str]:
    """The colours of some rows, as the drawing shows them."""
    return {row.colour: look_of(row.colour, dict(looks)) for row in rows}


@lru_cache(maxsize=128)
def tier_drawing(tier: PlannedTier, looks: Looks, measured: bool = False) -> TierDrawn:
    """A planned tier as the drawing needs it; with `measured` its side is as long as the tape says, which marking needs."""
    scale = tier.side_mm / tier.perimeter_mm if measured else 1.0
    table = dict(looks)
    rows = tuple(
        PlacedRow(
            kind=row.kind,
            tip=row.tip,
            colour=" ".join(look_of(name, table) for name in row.spec.colours),
            place="top" if row.on_top else row.place,
            line_mm=row.line_mm,
            repeats=tier.division.repeats,
            width_mm=row.amount.pitch_mm if row.what.scroll else None,  # each reaches from joint to joint
            drop_mm=row.amount.drops_mm[0] if row.what.scroll else row.drop_mm,
            cutter_mm=_cutter_of(tier, row),
            layers=row.layers,
            count=row.amount.count // row.layers if row.place != "joints" and not row.hung else None,
            per_joint=row.per_joint,
            joints=() if tier.order.sponge.kind == "round" else tuple(s * scale for s in tier.joints.s_mm),
            name=row_name(row),
            part=f"tiers.{tier.index}.rows.{row_number(tier, row)}",
        )
        for row in tier.rows
    )
    outline = tier.coats.finished.scaled(scale) if scale != 1.0 else tier.coats.finished
    banded = _bands_drawn(tier, table)
    coat = banded[-1][2] if tier.bands else look_of(tier.order.colour, table)  # the top has the colour of the uppermost band
    return TierDrawn(
        outline, tier.base_mm, tier.height_mm, coat, rows, tier.order.name, banded, 0.0 if measured else tier.back_mm, f"tiers.{tier.index}"
    )


def row_number(tier: PlannedTier, row: PlacedRow) -> int:
    """Which of the rows that were asked for it is, from 0."""
    asked = tier.order.rows
    return next((i for i, spec in enumerate(asked) if spec is row.asked), asked.index(row.spec))


def _bands_drawn(tier: PlannedTier, looks: Mapping[str, str]) -> tuple[tuple[float, float, str], ...]:
    """The bands of an ombre coat or the stripes of a striped one: from, to and colour of each."""
    if tier.bands:
        return tuple((band.from_mm, band.to_mm, look_of(name, looks)) for (name, _), band in zip(tier.order.bands, tier.bands, strict=True))
    cut = tier.stripes
    if cut is None:
        return ()
    assert tier.order.striped is not None, "stripes are made of a colour"
    colour, pitch = look_of(tier.order.striped[0], looks), cut.ground_mm + cut.stripe_mm
    starts = (i * pitch + cut.ground_mm / 2 for i in range(cut.count))
    return tuple((start, start + cut.stripe_mm, colour) for start in starts)


def _cutter_of(tier: PlannedTier, row: PlacedRow) -> float | None:
    """The cutter that marks a row: only the first hung one is marked, and only where the cutter closes."""
    return tier.division.cutter_mm if row is tier.first_hung and tier.guide is not None else None


_TILTED_KEPT = 16


class _Drawn(dict[tuple[tuple[TierDrawn, ...], float], str]):
    """Drawings by what is in them. Unlike `lru_cache` it can be asked whether it has one; emptied by the same name."""

    cache_clear = dict.clear


_tilted = _Drawn()


def tilted_if_drawn(tiers: tuple[TierDrawn, ...], board_mm: float) -> str | None:
    """The cake from a little above, where it has been drawn before."""
    return _tilted.get((tiers, board_mm))


def tilted_svg(tiers: tuple[TierDrawn, ...], board_mm: float) -> str:
    """The cake from a little above."""
    drawn = tilted_if_drawn(tiers, board_mm)
    if drawn is None:
        while len(_tilted) >= _TILTED_KEPT:
            del _tilted[next(iter(_tilted))]
        drawn = _tilted[tiers, board_mm] = svg(tilted_view(tiers, board_mm))
    return drawn


@lru_cache(maxsize=16)
def side_svg(tiers: tuple[TierDrawn, ...], board_mm: float) -> str:
    """The cake from the side."""
    return svg(side_view(tiers, board_mm))


@lru_cache(maxsize=16)
def top_svg(tiers: tuple[TierDrawn, ...], board_mm: float) -> str:
    """The cake from above."""
    return svg(top_view(tiers, board_mm))


@lru_cache(maxsize=32)
def unrolled_svg(tier: TierDrawn, units: str) -> str:
    """The side of one tier laid flat."""
    return svg(unrolled(tier, in_colour=False, units=units))
