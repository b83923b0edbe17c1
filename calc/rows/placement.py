"""Where rows lie on a tier, what runs into what, in which order they are piped, and where the guide tape goes.

Map
---
`PLACES`, `PHASES`      where a row can be asked to go; the order of piping
`PlacedRow`             where a row lies: all that a drawing needs of it, and what it was asked for and comes to
`place_rows`            each row of a tier on its line
`rank`, `first_drop_mm`, `first_pieces`   which of several rows comes first, whatever order they were typed in
`find_clashes`, `Clash` rows that run into each other or leave the side
`piping_order`, `touches`   an order of piping in which no tip has to reach past what stands out further
`guide_tape`            where the tape goes that a cutter stands against

A row stands on a line: *hung* rows (swags, strings, ruched swags) on the joints, *straight* ones on the top edge, the base or the side.
`below` is always down from the finished top edge, and inwards from it on the top. A row "over" another lies on it wherever that one is;
a line over a hung row follows its curve.

May import what the other files of `calc.rows` may, and shapes.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from calc.curves import guide_height_mm
from calc.division import GAP_COVERED_MM, Division
from calc.rows.amounts import RowAmount
from calc.rows.kind import KINDS, Kind, RowSpec
from calc.shapes import Outline
from calc.sources import constant
from calc.tips import Tip
from calc.units import a_or_an, capitalised

CLEARANCE_MM = constant(3.0, "mm", "common-practice", "least distance between two rows that should read as two")
CUTTER_NEAR_MM = constant(1.0, "mm", "common-practice", "a drop asked for that is this near the cutter's own is marked by the cutter")
PLACES = ("side", "over", "under", "top edge", "base", "top", "joints", "inside")

# The order of piping, by common practice: side rows from the lowest layer outwards; what lies on them; strings; the border on the
# edge; shells at the base, then the top; flowers and leaves over the joints; the inside edge last.
PHASES = (
    "rows on the side",
    "rows on rows",
    "strings",
    "border on the edge",
    "shells at the base",
    "rows on the top",
    "flowers over the joints",
    "leaves over the joints",
    "inside the top edge",
)
_ON_A_ROW = "rows on rows"
_PHASE_OF_PLACE = {
    "over": _ON_A_ROW,
    "top edge": "border on the edge",
    "base": "shells at the base",
    "top": "rows on the top",
    "inside": "inside the top edge",
}


@dataclass(frozen=True)
class PlacedRow:
    """Where a row lies, and how it goes round.

    `kind` is what it is piped and drawn as: a line that follows a swag is drawn as one. `line_mm` is where its reference line lies: below
    the top edge of the tier for the side and the joints, inwards from the edge for the top. It covers from `above_mm` over to `below_mm`
    under its line at the joints, and hangs `drop_mm` deeper between them. `width_mm` is the width of a swag, or of one rosette, star or
    leaf; `shift` moves the joints by a part of a repeat; `layers` nests swags or strings; `count` is how many pieces go round, `per_joint`
    how many sit at every joint; `cutter_mm` is the round cutter that marks it. `tier` counts from 0, the lowest. `on` is the row it was piped
    on; `notes` what speaks against it there. `asked` is what was asked of it, `comes_to` what that amounts to; a row that is only drawn has neither.
    `colour` is the name that its bag has; in a drawing its #rrggbb, or two of them, apart by a space, that come out of the bag side by side.
    `part` is the part of the form that asks for it, where a drawing leads back there.
    """

    kind: str
    tip: Tip
    colour: str
    place: str = "side"
    line_mm: float = 0.0
    repeats: int = 0
    width_mm: float | None = None
    drop_mm: float = 0.0
    layers: int = 1
    count: int | None = None
    shift: float = 0.0
    per_joint: int = 1
    bead_mm: float | None = None
    joints: tuple[float, ...] = ()
    name: str = ""
    cutter_mm: float | None = None
    tier: int = 0
    run_mm: float = 0.0
    hung: bool = False
    above_mm: float = 0.0
    below_mm: float = 0.0
    stands_out_mm: float = 0.0
    on: PlacedRow | None = None
    notes: tuple[str, ...] = ()
    asked: RowSpec | None = None
    comes_to: RowAmount | None = None
    part: str = ""

    @property
    def what(self) -> Kind:
        """The kind it is piped and drawn as."""
        return KINDS[self.kind]

    @property
    def spec(self) -> RowSpec:
        """What was asked of it."""
        assert self.asked is not None, "a row that is only drawn was not asked for"
        return self.asked

    @property
    def amount(self) -> RowAmount:
        """What it comes to."""
        assert self.comes_to is not None, "a row that is only drawn has no amount"
        return self.comes_to

    @property
    def asked_kind(self) -> Kind:
        """The kind that was asked for."""
        return KINDS[self.spec.kind]

    @property
    def size_mm(self) -> float:
        """The width of what its tip lays down [mm]."""
        return self.tip.bead_width_mm if self.bead_mm is None else self.bead_mm

    @property
    def phase(self) -> int:
        """Where it comes in the order of piping, as an index of `PHASES`."""
        if self.on is not None:
            return max(PHASES.index(_ON_A_ROW), self.on.phase)
        kind = KINDS[self.asked.kind] if self.asked is not None else self.what
        if self.place == "joints":
            return PHASES.index(kind.joint_phase)
        return PHASES.index(_PHASE_OF_PLACE.get(self.place, kind.side_phase))

    @property
    def shallow_mm(self) -> float:
        """How deep its highest layer hangs: nested strings and layered swags cover the side from there to their deepest [mm]."""
        return min(self.amount.drops_mm, default=self.drop_mm) if self.hung else self.drop_mm

    @property
    def on_side(self) -> bool:
        """Whether it takes height on the side."""
        return self.place in ("side", "base", "top edge")

    @property
    def on_top(self) -> bool:
        """Whether it lies on the top of the tier, out of sight from the side."""
        return self.place in ("top", "inside")

    @property
    def reach_mm(self) -> float:
        """How far in from the edge it reaches, of a row on the top [mm]."""
        return self.line_mm + self.below_mm

    @property
    def top_mm(self) -> float:
        """Where it begins, at the joints [mm below the top edge]."""
        return self.line_mm - self.above_mm

    @property
    def bottom_mm(self) -> float:
        """Where it ends, at the joints [mm below the top edge]."""
        return self.line_mm + self.below_mm

    @property
    def lowest_mm(self) -> float:
        """Where it ends at its lowest [mm below the top edge]."""
        return self.bottom_mm + self.drop_mm


@dataclass(frozen=True)
class Ground:
    """The side that rows are placed on: its length at the joints, its height, its division, how far down its joints are, and its outline."""

    side_mm: float
    height_mm: float
    division: Division
    joints_mm: float
    finished: Outline
    tier: int = 0


# What a row asked for comes to as a kind, along a run in so many repeats of a width, hanging so deep.
Amounts = Callable[[RowSpec, str, float, int, float, float], RowAmount]


def hangs(row: RowSpec) -> bool:
    """Whether a row asked for hangs from the joints: only on the side does anything."""
    return KINDS[row.kind].hangs and row.place in ("side", "over", "under")


def rank(row: RowSpec) -> tuple[Any, ...]:
    """A sort key that gives rows one order however they were typed: everything they ask for, kind and tip first."""
    tip = row.tip
    below = -1.0 if row.below_mm is None else row.below_mm
    look = (tip.family, tip.opening_mm, tip.points, tip.inner_mm, tip.slot_mm, row.bag_colour)
    return KINDS[row.kind].listed, look, row.drop_mm, below, row.layers, row.per_joint


def first_drop_mm(rows: Sequence[RowSpec]) -> float | None:
    """The drop asked for that a tier is divided by: of rows on the side before those piped over or under one, the shallowest; None without any."""
    asked = [row for row in rows if hangs(row) and row.drop_mm]
    return min(asked, key=lambda row: (row.place != "side", row.drop_mm, rank(row))).drop_mm if asked else None


def first_pieces(rows: Sequence[RowSpec]) -> RowSpec | None:
    """The row of pieces that should meet the joints: round the base before that on the top edge; None without any."""
    found = [row for row in rows if row.place in ("base", "top edge") and KINDS[row.kind].side_by_side]
    return min(found, key=lambda row: (row.place != "base", rank(row))) if found else None


@dataclass(frozen=True)
class _Turn:
    """When a row is placed: its index, the rows it is piped on or hangs under, and the row that it goes with, itself or another."""

    row: int
    on: int | None
    under: int | None
    root: int


# From the edge inwards, then up from the base, then down from the joints: each goes by those before it.
_STAGES = ("top edge", "top", "inside", "base", "side", "joints")


def _turns(rows: Sequence[RowSpec], ground: Ground) -> list[_Turn]:
    """Put rows in the order in which they are placed; only what "over" and "under" mean goes by the order in which they were typed.

    On the side, rows with a place of their own come first, then hung rows, the shallower above, then straight ones.
    """
    before: int | None = None
    side: int | None = None
    free: list[int] = []
    blocks: dict[int, list[_Turn]] = {}
    root: dict[int, int] = {}
    for i, row in enumerate(rows):
        on = before if row.place == "over" else None
        under = side if row.place == "under" else None
        anchor = on if on is not None else under
        if anchor is None:
            free.append(i)
        root[i] = i if anchor is None else root[anchor]
        blocks.setdefault(root[i], []).append(_Turn(i, on, under, root[i]))
        if row.place in ("side", "under") or (row.place == "over" and on is None):
            side = i
        if row.place != "joints":
            before = i

    def stage(i: int) -> tuple[Any, ...]:
        row = rows[i]
        place = row.place if row.place in _STAGES else "side"
        behind = tuple((rows[turn.row].place, rank(rows[turn.row])) for turn in blocks[i][1:])
        if place != "side":
            return _STAGES.index(place), 0, 0.0, rank(row), behind
        drop = (row.drop_mm or ground.division.drop_mm) if hangs(row) else 0.0
        return _STAGES.index(place), 0 if row.below_mm is not None else 1 if hangs(row) else 2, drop, rank(row), behind

    return [turn for i in sorted(free, key=stage) for turn in blocks[i]]


def place_rows(rows: Sequence[RowSpec], ground: Ground, amount_of: Amounts) -> tuple[PlacedRow, ...]:
    """Place each row on its line: hung rows from the joints, each further one under the last; straight rows where they belong.

    Rows come back as they were typed. Where they lie goes by what they ask for: typed in another order they lie where they lay, but
    for those over or under the row before.
    """
    laid: dict[int, PlacedRow] = {}
    fixed: list[PlacedRow] = []
    last: PlacedRow | None = None
    n, side_mm = ground.division.repeats, ground.side_mm
    for turn in _turns(rows, ground):
        row = rows[turn.row]
        asked = KINDS[row.kind]
        on = laid[turn.on] if turn.on is not None else None
        above = laid[turn.under] if turn.under is not None else None
        follows = on is not None and asked.follows and on.hung
        hung = hangs(row) or follows
        place = "side" if hung or row.place in ("side", "under") else on.place if on else "side" if row.place == "over" else row.place
        drop = _drop_of(row, on if on and on.hung else above, ground.division) if hung else 0.0
        depth = row.drop_mm if asked.scroll else drop
        kind = on.kind if on is not None and follows else row.kind
        inset, run = 0.0, side_mm
        if place in ("top", "inside"):
            first = amount_of(row, kind, side_mm, n, side_mm / n, depth)
            inset = on.line_mm if on else _inset_mm(list(laid.values()), first, row)
            run = run_mm(ground.finished, inset, side_mm)
        amount = amount_of(row, kind, run, n, run / n, depth)
        placed = PlacedRow(
            kind=kind,
            tip=row.tip,
            colour=row.bag_colour,
            place=place,
            line_mm=inset if place in ("top", "inside") else _line_mm(row, amount, on, above or last, ground, hung),
            repeats=n,
            drop_mm=drop,
            layers=row.layers,
            per_joint=row.per_joint,
            tier=ground.tier,
            run_mm=run,
            hung=hung,
            above_mm=amount.above_mm,
            below_mm=amount.below_mm,
            stands_out_mm=amount.stands_out_mm,
            on=on,
            notes=_notes(row, hung),
            asked=row,
            comes_to=amount,
        )
        if on is None and place == "side":
            if rows[turn.root].below_mm is not None:
                fixed.append(placed)
            else:
                last = placed = placed if above or row.below_mm is not None else _past_fixed(placed, fixed, ground)
        laid[turn.row] = placed
    return tuple(laid[i] for i in range(len(rows)))


def _past_fixed(placed: PlacedRow, fixed: Sequence[PlacedRow], ground: Ground) -> PlacedRow:
    """Move a row below those that were given a place of their own and lie in its way, where there is room for it on the side."""
    for row in sorted(fixed, key=lambda one: (one.line_mm, rank(one.spec))):
        if _clash(placed, row) is not None:
            lower = (row.bottom_mm if placed.hung else row.lowest_mm) + CLEARANCE_MM + placed.above_mm
            moved = replace(placed, line_mm=lower)
            if moved.lowest_mm <= ground.height_mm:
                placed = moved
    return placed


def _drop_of(row: RowSpec, above: PlacedRow | None, division: Division) -> float:
    """The drop of a hung row: its own, that of the row it is piped on or hangs under, or the cutter's."""
    if row.drop_mm:
        near = division.cutter_mm is not None and division.gap_mm <= GAP_COVERED_MM and abs(row.drop_mm - division.drop_mm) <= CUTTER_NEAR_MM
        return division.drop_mm if near else row.drop_mm
    return above.drop_mm if above and above.hung else division.drop_mm


def _inset_mm(laid: Sequence[PlacedRow], amount: RowAmount, row: RowSpec) -> float:
    """How far in from the edge the line of a row on the top stands: behind the border on the edge, and behind what is on the top already."""
    taken = max((r.below_mm if r.place == "top edge" else r.reach_mm for r in laid if r.on_top or r.place == "top edge"), default=0.0)
    return max(taken + amount.above_mm, row.tip.opening_mm)


def run_mm(finished: Outline, inset_mm: float, side_mm: float) -> float:
    """Length of a row that runs inside the top edge at a distance from it, on the scale of the measured side."""
    perimeter_mm = finished.perimeter_mm
    try:
        inner = finished.offset(-inset_mm).perimeter_mm
    except ValueError:
        inner = perimeter_mm - 2 * math.pi * inset_mm
    return side_mm * max(inner / perimeter_mm, 0.1)


def _line_mm(row: RowSpec, amount: RowAmount, on: PlacedRow | None, last: PlacedRow | None, ground: Ground, hung: bool) -> float:
    """Where a row's line stands, below the top edge."""
    if row.below_mm is not None and row.place not in ("base", "top edge", "top", "inside"):
        return row.below_mm
    if on is not None:
        return on.line_mm - 0.5 * on.above_mm if on.hung and not KINDS[row.kind].follows else on.line_mm
    match row.place:
        case "top edge":
            return 0.0
        case "base":
            return ground.height_mm - amount.below_mm
        case "joints":
            return ground.joints_mm
        case _:
            if last is None:
                return ground.joints_mm
            return (last.bottom_mm if hung else last.lowest_mm) + CLEARANCE_MM + amount.above_mm


def _notes(row: RowSpec, hung: bool) -> tuple[str, ...]:
    """What is unusual about a row in its place, in words; its amount is worked out all the same."""
    kind = KINDS[row.kind]
    named = capitalised(a_or_an(row.kind))
    if row.place == "joints" and not kind.at_joints:
        return (
            f"{named} runs on and cannot sit at a joint: it is worked out as one straight row at their height. "
            "Choose Hung on the side for it, or a rosette, star or leaf for the joints.",
        )
    if kind.hangs and not hung:
        return (f"{named} hangs only on the side: here it is worked out as a straight line. Choose Hung on the side to have it hang.",)
    return ()


def guide_tape(line_mm: float, cutter_mm: float | None, width_mm: float) -> tuple[str, float] | None:
    """Give where the guide tape lies, so that the cutter stands against it.

    Formula: its lower edge at line - (D/2 + sqrt(D^2/4 - w^2/4)), above the cutter; where that would be above the cake, its upper edge
    at line + drop, under the cutter.

    Parameters
    ----------
    line_mm : float
        How far the joints lie below the top edge [mm]
    cutter_mm : float
        Diameter D of the cutter, or None [mm]
    width_mm : float
        Swag width w [mm]

    Returns
    -------
    tuple of (str, float) or None
        "lower edge" or "upper edge", and how far it lies below the top edge [mm]; None without a cutter or where it leaves a gap that shows

    Raises
    ------
    ValueError
        The width is not positive.

    Range: any row that a cutter marks. Leaves out: the thickness of the cutter's rim.

    Example
    -------
    >>> guide_tape(60.0, 100.0, 100.0), guide_tape(12.0, 100.0, 100.0)
    (('lower edge', 10.0), ('upper edge', 62.0))

    Source: segment (sagitta)
    """
    if cutter_mm is None or width_mm - cutter_mm > GAP_COVERED_MM:
        return None
    height = guide_height_mm(cutter_mm, min(width_mm, cutter_mm))
    if height <= line_mm:
        return "lower edge", line_mm - height
    return "upper edge", line_mm + cutter_mm - height


@dataclass(frozen=True)
class Clash:
    """Two rows that run into each other, or one that leaves the side (`second` is None)."""

    first: PlacedRow
    second: PlacedRow | None
    overlap_mm: float
    where: str  # "at the joints", "between the joints", "above the top edge", "below the board"


def find_clashes(rows: Sequence[PlacedRow], height_mm: float, repeats: int) -> tuple[Clash, ...]:
    """Find the rows of one tier that run into each other or leave the side.

    Formula: bands [line - above, line + below] compared at the joints and, with shares of each row's drops added, between them; a row of
    several layers covers from its shallowest to its deepest.

    Parameters
    ----------
    rows : sequence of PlacedRow
        Rows of one tier, all on the same repeats [-]
    height_mm : float
        Height of the finished side [mm]
    repeats : int
        Repeats of the tier [-]

    Returns
    -------
    tuple of Clash
        Each pair once, where it is worst [-]

    Raises
    ------
    ValueError
        There are no repeats.

    Range: rows on the side. Leaves out: rows piped over one another on purpose, and what sits on the joints.

    Example
    -------
    >>> find_clashes((), 100.0, 8)
    ()

    Source: geometry (overlap of two intervals)
    """
    if repeats < 1:
        raise ValueError("a tier has one repeat or more")
    standing = [row for row in rows if row.on_side]
    found: list[Clash] = []
    for row in standing:
        if row.lowest_mm > height_mm + 0.5 and row.spec.place != "base":
            found.append(Clash(row, None, row.lowest_mm - height_mm, "below the board"))
        if row.top_mm < -0.5 and row.place != "top edge":
            found.append(Clash(row, None, -row.top_mm, "above the top edge"))
    for at, first in enumerate(standing):
        for second in standing[at + 1 :]:
            if _lies_on(first, second) or _lies_on(second, first):
                continue
            clash = _clash(first, second)
            if clash is not None:
                found.append(clash)
    return tuple(found)


def _lies_on(row: PlacedRow, under: PlacedRow) -> bool:
    """Whether a row was piped on another on purpose, or on what lies on it."""
    while row.on is not None:
        if row.on is under:
            return True
        row = row.on
    return False


def _clash(first: PlacedRow, second: PlacedRow) -> Clash | None:
    worst: Clash | None = None
    drops = {first.drop_mm, first.shallow_mm, second.drop_mm, second.shallow_mm}
    steps = 12 if len(drops) > 1 else 1  # rows of one drop are as far apart everywhere
    for step in range(steps + 1):
        share, where = step / steps, "between the joints" if step else "at the joints"
        tops = (first.top_mm + share * first.shallow_mm, second.top_mm + share * second.shallow_mm)
        bottoms = (first.bottom_mm + share * first.drop_mm, second.bottom_mm + share * second.drop_mm)
        overlap = min(bottoms) - max(tops)
        if overlap > 0.5 and (worst is None or overlap > worst.overlap_mm):
            worst = Clash(first, second, overlap, where)
    return worst


def _gap_mm(first: PlacedRow, second: PlacedRow) -> float:
    """Distance between two rows' bands on the side, the lesser of at the joints and between them; negative where they overlap."""
    least = math.inf
    for share in (0.0, 1.0):
        tops = [row.line_mm - row.above_mm + share * row.drop_mm for row in (first, second)]
        feet = [row.line_mm + row.below_mm + share * row.drop_mm for row in (first, second)]
        least = min(least, max(tops) - min(feet))
    return least


def _in_the_way(piped: PlacedRow, wanted: PlacedRow) -> bool:
    """Whether a tip held at 45° to the line of `wanted` meets `piped`: it stands out further than it is away."""
    if piped.tier != wanted.tier or "inside" in (piped.place, wanted.place) or (piped.place == "top") != (wanted.place == "top"):
        return False
    gap = _gap_mm(piped, wanted)
    return gap >= 0 and piped.stands_out_mm > max(gap, wanted.stands_out_mm)


def piping_order(rows: Sequence[PlacedRow]) -> tuple[int, ...]:
    """Give an order of piping in which no tip has to reach past what stands out further, as far as the trade's order allows.

    Formula: phases by common practice (rows on the side; what lies on them; strings; the border on the edge; the base; the top;
    flowers, then leaves over the joints; inside the edge last). Within a phase: upper tiers first, a row before any that would stand
    in its way (further out than it is away, for a tip at 45 degrees), then the bag already in the hand, then the lowest line; never
    by the order in which they were typed.

    Parameters
    ----------
    rows : sequence of PlacedRow
        The rows of all tiers [-]

    Returns
    -------
    tuple of int
        Their indices in the order of piping [-]

    Raises
    ------
    KeyError
        A place is not known.

    Range: tiers that are stacked before they are piped. Leaves out: tiers piped separately and stacked later.

    Example
    -------
    >>> tip = Tip("petal", 11)
    >>> deep = PlacedRow("ruched swag", tip, "russet", line_mm=15, drop_mm=30, above_mm=5, below_mm=5, stands_out_mm=11)
    >>> border = PlacedRow("ruched border", tip, "cream", "top edge", above_mm=5, below_mm=5, stands_out_mm=9)
    >>> piping_order([border, deep])
    (1, 0)

    Source: common-practice
    """
    left = {i: row.phase for i, row in enumerate(rows)}
    ranks = [rank(row.asked) if row.asked is not None else () for row in rows]
    index = {id(row): i for i, row in enumerate(rows)}
    under = [index.get(id(row.on)) if row.on is not None else None for row in rows]
    done: list[int] = []
    while left:
        phase = min(left.values())
        tier = max(rows[i].tier for i, at in left.items() if at == phase)
        group = [i for i, at in left.items() if at == phase and rows[i].tier == tier and under[i] not in left]
        free = [i for i in group if not any(j != i and _in_the_way(rows[i], rows[j]) for j in group)] or group
        hand = (rows[done[-1]].colour, rows[done[-1]].tip) if done else None
        chosen = min(free, key=lambda i: ((rows[i].colour, rows[i].tip) != hand, -rows[i].line_mm, ranks[i], i))
        done.append(chosen)
        del left[chosen]
    return tuple(done)


def touches(rows: Sequence[PlacedRow]) -> tuple[tuple[int, int], ...]:
    """List the rows that are hard to reach when they are piped in this order.

    Formula: pairs (later, earlier) where the earlier stands out further than it is away, so that a tip at 45 degrees meets it.

    Parameters
    ----------
    rows : sequence of PlacedRow
        Rows in the order they are piped [-]

    Returns
    -------
    tuple of (int, int)
        Index of the later row and of the one in its way [-]

    Range: rows on a side. Leaves out: a small hand.

    Example
    -------
    >>> tip = Tip("petal", 11)
    >>> deep = PlacedRow("ruched swag", tip, "russet", line_mm=15, drop_mm=30, above_mm=5, below_mm=5, stands_out_mm=11)
    >>> line = PlacedRow("line", Tip("round", 2), "cream", line_mm=52, above_mm=1, below_mm=1, stands_out_mm=2)
    >>> touches([deep, line])
    ((1, 0),)

    Source: common-practice
    """
    return tuple((later, earlier) for later, row in enumerate(rows) for earlier in range(later) if _in_the_way(rows[earlier], row))
