"""What a scheme declares: its name, a sentence, and its rows for the tiers of any cake.

Map
---
`Part`             one row of a scheme
`Scheme`           a scheme; `parts_for` gives its rows for one tier of several
`SCHEMES`, `register`   the handbook's own, by key
`scheme_of_rows`   the rows of somebody's own tiers as a scheme
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calc.rows import KINDS, RowSpec
from calc.tips import Tip

# On which tiers a row is piped.
EVERY, LOWEST, UPPER, LOWER, CROWN = "every", "lowest", "upper", "lower", "crown"


@dataclass(frozen=True)
class Part:
    """One row of a scheme.

    `shade` says which of the scheme's colours it has: 0 the main one, 1 the second, 2 the accent, 3 that of leaves. The tip is the one that the
    kind begins with, unless a family and an opening are given. `drop` and `below` are shares of the tier's height; None leaves them to the
    order. `on` are the tiers that have it: every tier, the lowest, those above it (`UPPER`), those below the uppermost (`LOWER`), or the
    uppermost (`CROWN`). The rows that matter most stand first: those at the end are the first to be left out. `tip` is the very
    tip of somebody's own row, `beside` which colour lies beside the first in its bag.
    """

    kind: str
    place: str
    shade: int
    family: str = ""
    opening_mm: float = 0.0
    layers: int = 1
    per_joint: int = 1
    drop: float | None = None
    below: float | None = None
    on: str = EVERY
    tip: Tip | None = None
    beside: int | None = None

    @property
    def begins_with(self) -> Tip:
        """The tip for tiers of usual size."""
        family, opening = KINDS[self.kind].begins_with
        return self.tip or Tip(self.family or family, self.opening_mm or opening)


@dataclass(frozen=True)
class Scheme:
    """A scheme of rows. `tones` are the colours for an order that has none of its own yet, main, second, accent, leaves; `rows_of` are
    the tiers of somebody's own rows, from the lowest up, in place of `parts`, and `heights_mm` how high those are."""

    key: str
    name: str
    words: str
    parts: tuple[Part, ...] = ()
    tones: tuple[str, ...] = ("russet", "cream", "blush", "bay")
    rows_of: tuple[tuple[Part, ...], ...] = ()
    heights_mm: tuple[float, ...] = ()

    def parts_for(self, index: int, count: int) -> tuple[Part, ...]:
        """Its rows for one tier, counted from the lowest, of a number of tiers."""
        if self.rows_of:
            return self.rows_of[self._nearest(index, count)]
        level = {EVERY: True, LOWEST: index == 0, UPPER: index > 0, LOWER: index < count - 1, CROWN: index == count - 1}
        return tuple(part for part in self.parts if level[part.on])

    def usual_mm(self, index: int, count: int) -> float | None:
        """The height of the tier that somebody's own rows were made for; None for the handbook's own schemes."""
        return self.heights_mm[self._nearest(index, count)] if self.rows_of else None

    def _nearest(self, index: int, count: int) -> int:
        """Which tier of one's own stands for a tier: the lowest for the lowest, the uppermost for the uppermost, the rest spread between."""
        last = len(self.rows_of) - 1
        return 0 if count == 1 else round(index * last / (count - 1))


SCHEMES: dict[str, Scheme] = {}


def register(scheme: Scheme) -> None:
    """Add one of the handbook's own schemes."""
    if scheme.key in SCHEMES:
        raise ValueError(f"two schemes are called {scheme.key!r}")
    SCHEMES[scheme.key] = scheme


def scheme_of_rows(name: str, tiers: Sequence[tuple[float, Sequence[RowSpec]]]) -> Scheme:
    """Make a scheme of the rows of some tiers, each with its height, from the lowest up; its colours are theirs, in the order they appear in."""
    tones: list[str] = []
    made = []
    for height, rows in tiers:
        parts = []
        for row in rows:
            tones += [colour for colour in row.colours if colour not in tones]
            parts.append(
                Part(
                    row.kind,
                    row.place,
                    tones.index(row.colour),
                    layers=row.layers,
                    per_joint=row.per_joint,
                    drop=row.drop_mm / height if row.drop_mm else None,
                    below=row.below_mm / height if row.below_mm is not None else None,
                    tip=row.tip,
                    beside=tones.index(row.second) if row.second else None,
                )
            )
        made.append(tuple(parts))
    return Scheme("own", name, "", tones=tuple(tones), rows_of=tuple(made), heights_mm=tuple(height for height, _ in tiers))
