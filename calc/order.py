"""From an order to a plan: what the maker decides, and everything that follows from it.

It may import `units`, `sources`, `shapes`, `division`, `portions`, `stack`, `coats`, `tips`, `rows`, `buttercream` and `colours`.

Map
---
`Order`, `TierOrder`                    what the maker decides; its rows are `calc.rows.RowSpec`
`Plan`, `PlannedTier`                   what follows; its rows are `calc.rows.placement.PlacedRow`
`plan`                                  the one pure function between them
`Step`                                  one line of the bench sheet, in piping order
"""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, partial
from typing import NamedTuple

from calc.buttercream import RECIPES, Recipe, density_g_per_ml
from calc.coats import Band, Coats, Stripes, bands, coats, finished_body, knife_uses, mass_range_g, stripes
from calc.colours import SHARED, Amount, BagPlan, amounts_by_colour, bag_plan
from calc.division import (
    DROP_SHARE,
    GAP_COVERED_MM,
    Division,
    chords_mm,
    dividers_mm,
    division_choices,
    fitted_choices,
    tape_check,
)
from calc.portions import CutPlan, cut_plan, levels
from calc.rows import KINDS, RowAmount, RowSpec, grams_per_metre, natural_pitch_mm, piped
from calc.rows.placement import (
    CLEARANCE_MM,
    PHASES,
    Clash,
    Ground,
    PlacedRow,
    find_clashes,
    first_drop_mm,
    first_pieces,
    guide_tape,
    hangs,
    piping_order,
    place_rows,
    rank,
    run_mm,
    touches,
)
from calc.shapes import Joints, Outline
from calc.sources import Constant, constant
from calc.stack import DRUM_BORDER_MM, Body, Stacking, Support, check_weight, seat_mm, stands_on, supports, where_stacked
from calc.tips import Tip
from calc.units import Formatter, Problem, a_or_an

JOINTS_BELOW_MM = constant(12.0, "mm", "common-practice", "joints under the top edge, room for a border to hang over")
AT_FRONT_MM = constant(1.0, "mm", "common-practice", "a joint this near to the middle of the front is in the middle")
HAIR = constant(0.03, "-", "common-practice", "part of a piece by which a row of single pieces may be squeezed to take one more")
SAME_CUTTER_MM = constant(0.05, "mm", "common-practice", "cutters that differ by less are one: the size of a cutter is told to the tenth")
CORNERS_MISSED = 8  # penalty of repeats that leave a corner without a joint, against which a poor width or drop must weigh; a judgement


@dataclass(frozen=True)
class TierOrder:
    """One tier as it was asked for.

    `bands` are colours with their shares of the height, from the base up, of an ombre coat; `striped` is the other colour, the number of stripes
    and their share of the height [%]. `repeats` and `cutter_mm` are the maker's own choice of how it is divided; with `fitted`
    all its rows come as whole pieces from joint to joint.
    """

    name: str
    sponge: Outline
    height_mm: float
    layers: int
    filling_mm: float
    crumb_mm: float
    final_mm: float | None
    disc_mm: float | None
    measured_mm: float | None
    colour: str
    rows: tuple[RowSpec, ...]
    repeats: int | None = None
    joints_below_mm: float | None = None
    path: str = ""
    top_mm: float | None = None
    dam_mm: float = 0.0
    bands: tuple[tuple[str, float], ...] = ()
    striped: tuple[str, int, float] | None = None
    cutter_mm: float | None = None
    fitted: bool = False


@dataclass(frozen=True)
class Calibration:
    """A length of one row piped with one tip, what it weighed, and how many pieces it has; one of the two may not be known."""

    tip: Tip
    kind: str
    length_mm: float
    mass_g: float | None
    pieces: int | None = None


@dataclass(frozen=True)
class Order:
    """What the maker decides; tiers from the bottom up. `together` divides the tiers in proportion to one another, each with a joint at the front."""

    name: str
    ready_at: dt.datetime
    guests: int
    slice_mm: tuple[float, float]
    tiers: tuple[TierOrder, ...]
    cutters_mm: tuple[float, ...] = ()
    recipe: str = "swiss_meringue"
    keep_top: bool = False
    density_g_per_ml: float | None = None
    measured: tuple[Calibration, ...] = ()
    stacked: str = "suits"
    together: bool = False
    border_mm: float = DRUM_BORDER_MM
    units: str = "metric"  # in which a problem tells sizes


@dataclass(frozen=True)
class Crowded:
    """A row on the top that reaches further in than there is room: up to the tier that stands there, or past the middle."""

    row: PlacedRow
    reach_mm: float
    free_mm: float
    upper: str  # name of the tier that stands there, or nothing


@dataclass(frozen=True)
class PlannedTier:
    """One tier worked out; lengths in mm."""

    order: TierOrder
    index: int
    cut: CutPlan
    counted: bool
    coats: Coats
    side_mm: float
    tape_off_percent: float | None
    division: Division
    choices: tuple[Division, ...]
    joints_below_mm: float
    height_mm: float
    rows: tuple[PlacedRow, ...]
    clashes: tuple[Clash, ...]
    base_mm: float
    joints: Joints
    back_mm: float = 0.0
    bands: tuple[Band, ...] = ()
    stripes: Stripes | None = None
    by_itself: Division | None = None  # how it would be divided if neither its rows nor the tiers were fitted to one another

    @property
    def perimeter_mm(self) -> float:
        """The perimeter worked out from tin and coat; `side_mm` is the tape's where there is one."""
        return self.coats.finished.perimeter_mm

    @property
    def measured(self) -> Outline:
        """The finished outline at the size that the tape gives it."""
        return self.coats.finished.scaled(self.side_mm / self.perimeter_mm)

    @property
    def levels(self) -> int:
        """On how many levels it is cut."""
        return levels(self.order.height_mm)

    @property
    def portions(self) -> int:
        """Portions from all its levels."""
        return self.levels * self.cut.count

    @cached_property
    def first_hung(self) -> PlacedRow | None:
        """The uppermost row that hangs: the one whose curve is marked."""
        hung = [row for row in self.rows if row.hung]
        return min(hung, key=lambda row: (row.on is not None, row.line_mm, rank(row.spec))) if hung else None

    @property
    def drop_mm(self) -> float:
        """How deep the marked curve hangs: the first hung row's drop, or the division's where nothing hangs."""
        return self.first_hung.drop_mm if self.first_hung else self.division.drop_mm

    @property
    def line_mm(self) -> float:
        """How far below the top edge the joints of the marked curve stand, or of what sits at joints where nothing hangs."""
        return self.first_hung.line_mm if self.first_hung else self.joints_below_mm

    @property
    def by_cutter(self) -> bool:
        """Whether a cutter marks the curve: there is one, it leaves no gap to see, and its drop is the one that is piped."""
        chosen = self.division
        return chosen.cutter_mm is not None and chosen.gap_mm <= GAP_COVERED_MM and abs(self.drop_mm - chosen.drop_mm) < 1e-9

    @property
    def guide(self) -> tuple[str, float] | None:
        """Where the tape goes: ("lower edge" or "upper edge", mm below the top edge), or None without a cutter."""
        return guide_tape(self.line_mm, self.division.cutter_mm, self.division.width_mm) if self.by_cutter else None

    @property
    def marked(self) -> bool:
        """Whether anything hangs from joints on this tier."""
        return any(row.hung for row in self.rows)

    @property
    def joined(self) -> bool:
        """Whether anything hangs from its joints, or sits at them."""
        return any(row.hung or row.place == "joints" for row in self.rows)

    @property
    def has_front_joint(self) -> bool:
        """Whether one of its joints is in the middle of the front."""
        return has_front_joint(self.coats.finished, self.division.repeats)


@dataclass(frozen=True)
class Step:
    """One line of the bench sheet."""

    number: int
    phase: str
    row: PlacedRow
    tier_name: str
    after_stacking: bool = False  # piped where the tiers are stacked, once they are


@dataclass(frozen=True)
class Plan:
    """What follows from an order."""

    order: Order
    recipe: Recipe
    density: Constant
    tiers: tuple[PlannedTier, ...]
    portions: int
    supports: tuple[Support, ...]
    stacking: Stacking
    amounts: tuple[Amount, ...]
    bags: BagPlan
    steps: tuple[Step, ...]
    filling_g: float
    coat_g: float
    piping_g: float
    piping_low_g: float
    piping_high_g: float
    crowded: tuple[Crowded, ...] = ()

    @property
    def in_the_way(self) -> tuple[tuple[Step, Step], ...]:
        """Steps that are hard to reach, each with the earlier step that stands further out than it is away."""
        rows = [step.row for step in self.steps]
        return tuple(
            (self.steps[later], self.steps[earlier])
            for later, earlier in touches(rows)
            if rows[later].on is not rows[earlier] and rows[later].place == "side"
        )

    @property
    def bodies(self) -> tuple[Body, ...]:
        """The finished tiers as the stack sees them."""
        return tuple(_body(tier, self.density) for tier in self.tiers)

    @property
    def short(self) -> int:
        """Portions that are missing for the guests, or nothing."""
        return max(0, self.order.guests - self.portions)

    @property
    def lifted_g(self) -> float:
        """What combs lift out of striped coats again [g]."""
        return math.fsum(tier.stripes.lifted_ml for tier in self.tiers if tier.stripes) * self.density

    @property
    def buttercream_g(self) -> float:
        """Buttercream to make, losses and margin included [g]."""
        return math.fsum(amount.mass_g for amount in self.amounts)


def plan(order: Order) -> Plan:
    """Work out everything that follows from an order."""
    if not order.tiers:
        raise Problem("tiers", "Tiers is empty. Add a tier")
    _check_stack(order)
    recipe = RECIPES[order.recipe]
    density = density_g_per_ml(order.recipe)
    if order.density_g_per_ml:
        density = constant(order.density_g_per_ml, "g/ml", "geometry", "weighed by the maker", group="measured")
    tiers: list[PlannedTier] = []
    base = 0.0
    for index, tier in enumerate(order.tiers):
        below = next((other for other in reversed(tiers) if other.joined), None)
        planned = _plan_tier(order, tier, index, base, density, below)
        if tiers:
            back = tiers[-1].back_mm + (seat_mm(tiers[-1].coats.finished, planned.coats.finished) or 0.0)
            planned = replace(planned, back_mm=back) if back else planned
        tiers.append(planned)
        base += planned.height_mm
    _check_coated(tiers)
    rows = [row for tier in tiers for row in tier.rows]
    in_order = [rows[i] for i in piping_order(rows)]
    filling = math.fsum((t.coats.filling_ml + t.coats.dam_ml) * density for t in tiers)
    coat = math.fsum((t.coats.crumb_ml + t.coats.final_ml) * density for t in tiers)
    if not rows and filling + coat <= 0:
        raise Problem(
            f"{order.tiers[0].path}final",
            "Final coat is nothing, and there is no filling, no crumb coat and no row either: there is no "
            "buttercream to work out. Give the coat a thickness, or add a row",
        )
    stands = supports([_body(t, density) for t in tiers], order.border_mm)
    check_weight(stands, f"{order.tiers[0].path}width", "Tin, width across", Formatter(order.units))
    stacking = where_stacked(stands, base, order.stacked)
    in_order.sort(key=lambda row: stacking.apart and crosses_joint(row))  # what is piped at the venue comes last, otherwise in the same order
    return Plan(
        order=order,
        recipe=recipe,
        density=density,
        tiers=tuple(tiers),
        portions=sum(t.portions for t in tiers if t.counted),
        supports=stands,
        stacking=stacking,
        amounts=_amounts(tiers, density),
        bags=bag_plan([(r.colour, r.tip, r.amount.mass_g) for r in in_order]),
        steps=tuple(
            Step(number, PHASES[row.phase], row, order.tiers[row.tier].name, stacking.apart and crosses_joint(row))
            for number, row in enumerate(in_order, 1)
        ),
        filling_g=filling,
        coat_g=coat,
        piping_g=math.fsum(r.amount.mass_g for r in rows),
        piping_low_g=math.fsum(r.amount.low_g for r in rows),
        piping_high_g=math.fsum(r.amount.high_g for r in rows),
        crowded=_crowded(tiers),
    )


def crosses_joint(row: PlacedRow) -> bool:
    """Say whether a row covers the joint between two tiers, so that it can be piped only once they are stacked: the base of an upper tier."""
    return row.tier > 0 and row.place == "base"


def _check_stack(order: Order) -> None:
    """Each sponge must stand on the one below it."""
    say = Formatter(order.units)
    for lower, upper in itertools.pairwise(order.tiers):
        if stands_on(lower.sponge, upper.sponge):
            continue
        name, below = f"{upper.path}width", f"{lower.name} under it"
        if upper.sponge.width_mm > lower.sponge.width_mm:
            raise Problem(
                name,
                f"{upper.name} is wider than {below} ({say.length(upper.sponge.width_mm)} on "
                f"{say.length(lower.sponge.width_mm)}). Put the wider tier first, or use a smaller tin",
            )
        raise Problem(
            name,
            f"{upper.name} hangs over {below}: {a_or_an(upper.sponge.kind)} of {say.length(upper.sponge.width_mm)} does not stand wholly "
            f"on {a_or_an(lower.sponge.kind)} of {say.length(lower.sponge.width_mm)}. Use a smaller tin",
        )


def _check_coated(tiers: Sequence[PlannedTier]) -> None:
    """Each finished tier must stand on the one below it."""
    for lower, upper in itertools.pairwise(tiers):
        if not stands_on(lower.coats.finished, upper.coats.finished):
            field = "disc" if upper.order.disc_mm else "final"
            raise Problem(
                f"{upper.order.path}{field}",
                f"{upper.order.name} with its coat hangs over {lower.order.name} under it. Use a smaller disc, or a thinner coat",
            )


def _crowded(tiers: Sequence[PlannedTier]) -> tuple[Crowded, ...]:
    """Rows on the tops for which there is no room beside the tier above and what is piped round its foot."""
    found: list[Crowded] = []
    for tier, upper in itertools.zip_longest(tiers, tiers[1:]):
        rows = [row for row in tier.rows if row.on_top]
        if not rows:
            continue
        if upper is None:
            free, name = min(tier.coats.finished.width_mm, tier.coats.finished.length_mm) / 2, ""
        else:
            foot = max((row.stands_out_mm for row in upper.rows if row.place == "base"), default=0.0)
            free, name = max(0.0, ledge_mm(tier.coats.finished, upper.coats.finished) - foot), upper.order.name
        found += [Crowded(row, row.reach_mm, free, name) for row in rows if row.reach_mm > free + 0.5]
    return tuple(found)


@lru_cache(maxsize=64)
def ledge_mm(lower: Outline, upper: Outline) -> float:
    """Give how much of a tier's top is free beside the tier that stands on it, where it is narrowest.

    Formula: the least distance from the points of the upper outline to the sides of the lower one, both as polygons.

    Parameters
    ----------
    lower : Outline
        The finished tier below [mm]
    upper : Outline
        The finished tier on it, where `seat_mm` puts it [mm]

    Returns
    -------
    float
        Width of the ledge; nothing where the upper one hangs over [mm]

    Range: any outlines; polygons of 96 points are within 0.1 % of a circle. Leaves out: tiers set off the middle.

    Example
    -------
    >>> from calc.shapes import outline
    >>> ledge_mm(outline("square", 200.0), outline("square", 150.0)), round(ledge_mm(outline("round", 200.0), outline("round", 150.0)), 1)
    (25.0, 25.0)

    Source: geometry (distance from a point to a segment)
    """
    back = seat_mm(lower, upper)
    if back is None:
        return 0.0
    corners = lower.points(96)
    sides = [(ax, ay, bx - ax, by - ay, math.dist((ax, ay), (bx, by))) for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True)]
    least = math.inf
    for x, forward in upper.points(96):
        y = forward + back
        for ax, ay, along_x, along_y, whole in sides:
            dx, dy = x - ax, y - ay
            if whole and dx * dx + dy * dy < (least + whole) ** 2:  # a side that begins further away cannot be nearer
                share = min(1.0, max(0.0, (dx * along_x + dy * along_y) / (whole * whole)))
                least = min(least, math.hypot(dx - share * along_x, dy - share * along_y))
    return least


def planned_again(cake: Plan, tier: TierOrder, index: int) -> PlannedTier:
    """Replan one tier of a cake with other choices, the tiers under it unchanged; raises the problems of that tier."""
    below = next((other for other in reversed(cake.tiers[:index]) if other.joined), None)
    return _plan_tier(cake.order, tier, index, cake.tiers[index].base_mm, cake.density, below)


class _Asked(NamedTuple):
    """What is read of an order while one of its tiers is planned."""

    slice_mm: tuple[float, float]
    cutters_mm: tuple[float, ...]
    measured: tuple[Calibration, ...]
    together: bool
    density: tuple[float, float, float]  # of the buttercream, with its ends [g/ml]
    units: str  # in which a problem tells sizes


def _plan_tier(order: Order, tier: TierOrder, index: int, base_mm: float, density: Constant, below: PlannedTier | None) -> PlannedTier:
    asked = _Asked(order.slice_mm, order.cutters_mm, order.measured, order.together, (float(density), density.low, density.high), order.units)
    counted = not (order.keep_top and index == len(order.tiers) - 1 and len(order.tiers) > 1)
    beside = (below.division.width_mm, below.side_mm) if below and order.together else None
    return _planned_tier(asked, tier, index, base_mm, counted, beside)


@lru_cache(maxsize=32)
def _planned_tier(asked: _Asked, tier: TierOrder, index: int, base_mm: float, counted: bool, beside: tuple[float, float] | None) -> PlannedTier:
    """One tier, planned; kept, because most edits of an order change one tier or none."""
    coat, banded, striped = _coats_of(tier, asked.units)
    perimeter_mm = coat.finished.perimeter_mm
    side = tier.measured_mm or perimeter_mm
    height = coat.finished_height_mm
    division, choices, joints, rows, alone = _rows_of(asked, tier, index, side, height, coat.finished, beside)
    return PlannedTier(
        order=tier,
        index=index,
        cut=cut_plan(tier.sponge, asked.slice_mm),
        counted=counted,
        coats=coat,
        side_mm=side,
        tape_off_percent=tape_check(tier.measured_mm, perimeter_mm) if tier.measured_mm else None,
        division=division,
        choices=choices,
        joints_below_mm=joints,
        height_mm=height,
        rows=rows,
        clashes=find_clashes(rows, height, division.repeats),
        base_mm=base_mm,
        joints=coat.finished.division(division.repeats),
        bands=banded,
        stripes=striped,
        by_itself=alone,
    )


def _coats_of(tier: TierOrder, units: str) -> tuple[Coats, tuple[Band, ...], Stripes | None]:
    """The coats of a tier, with the bands or stripes of its colours; their problems are tied to its inputs."""
    names = {"final_coat": "final", "crumb_coat": "crumb", "groove": "stripes", "shares": "bands"}
    try:
        made = coats(
            tier.sponge,
            tier.height_mm,
            tier.layers,
            tier.filling_mm,
            tier.crumb_mm,
            None if tier.disc_mm else tier.final_mm,
            tier.disc_mm,
            tier.top_mm,
            tier.dam_mm,
            units,
        )
        banded = bands(made, [share for _, share in tier.bands]) if tier.bands else ()
        return made, banded, stripes(made, tier.striped[1], tier.striped[2], units=units) if tier.striped else None
    except Problem as problem:
        raise Problem(f"{tier.path}{names.get(problem.input, problem.input)}", problem.message) from None


def _calibrated(asked: _Asked, row: RowSpec) -> tuple[float | None, str]:
    """What a row weighs per metre and how that was measured: the same row with that tip first, else a plain line of that tip."""
    plain: float | None = None
    for measured in asked.measured:
        if measured.tip != row.tip or measured.mass_g is None:
            continue
        found = grams_per_metre(measured.length_mm, measured.mass_g)
        if measured.kind == row.kind:
            return found, "row"
        if KINDS[measured.kind].plain_line:
            plain = found
    return plain, "line"


def _spacing(asked: _Asked, row: RowSpec) -> float | None:
    """The distance between the pieces of the maker's own practice row with that tip; None where none was counted [mm]."""
    found = (m.length_mm / m.pieces for m in asked.measured if m.pieces and m.tip == row.tip and m.kind == row.kind)
    return next(found, None) if KINDS[row.kind].natural_pitch_mm(row.tip) else None


def _fitted_count(row: RowSpec, repeats: int, width_mm: float) -> int | None:
    """How many single pieces go round in a row that is fitted to the joints: a whole number in each repeat, as asked or as many as find room."""
    if not KINDS[row.kind].set_apart:
        return None  # what is piped side by side meets the joints in any case, and what runs or hangs has them for its ends
    each = row.per_joint if row.per_joint > 1 else int(width_mm / KINDS[row.kind].natural_pitch_mm(row.tip) + HAIR)
    return repeats * max(1, each)


def _wanted(asked: _Asked, row: RowSpec, fitted: bool, kind: str, run_mm: float, repeats: int, width_mm: float, drop_mm: float) -> RowSpec:
    count = repeats * row.per_joint if row.place == "joints" else _fitted_count(row, repeats, width_mm) if fitted else None
    weighed, how = _calibrated(asked, row)
    return RowSpec(
        kind,
        row.tip,
        run_mm=run_mm,
        repeats=repeats,
        width_mm=width_mm,
        drop_mm=drop_mm,
        layers=row.layers,
        count=count,
        grams_per_metre=weighed,
        weighed_as=how,
        pitch_mm=_spacing(asked, row),
        density_g_per_ml=asked.density[0],
        density_ends=asked.density[1:],
        apart=row.place == "joints",
    )


def _piped(wanted: RowSpec, row: RowSpec) -> RowAmount:
    if wanted.kind == row.kind:
        return piped(wanted, f"{row.path}{'drop' if row.drop_mm else 'tip'}", "Drop" if row.drop_mm else "Tip")
    followed = piped(wanted, f"{row.path}tip", "Tip")  # a line on a swag: the swag's curve, the line's hand
    return replace(followed, kind=row.kind, angle=KINDS[row.kind].held(row.tip.family), hand=KINDS[row.kind].hand)


def _rows_of(
    asked: _Asked,
    tier: TierOrder,
    index: int,
    side_mm: float,
    height_mm: float,
    finished: Outline,
    beside: tuple[float, float] | None,
) -> tuple[Division, tuple[Division, ...], float, tuple[PlacedRow, ...], Division | None]:
    """Choose the repeats of a tier, then lay each row on its line; gives besides how it would be divided if nothing were fitted."""
    # What each row covers across its line hardly depends on the width, so a first look settles how much room is left to hang in.
    first_look = {
        row: _piped(_wanted(asked, row, tier.fitted, row.kind, side_mm, 8, side_mm / 8, side_mm / 24 if hangs(row) else 0.0), row)
        for row in tier.rows
    }
    edge = [first_look[r].below_mm for r in tier.rows if r.place == "top edge"]
    foot = [first_look[r].above_mm + first_look[r].below_mm for r in tier.rows if r.place == "base"]
    hung = [r for r in tier.rows if hangs(r)]
    joints = tier.joints_below_mm
    if joints is None:
        above = max((first_look[r].above_mm for r in tier.rows if hangs(r) or r.place == "side"), default=0.0)
        joints = max(float(JOINTS_BELOW_MM), max(edge, default=0.0) + CLEARANCE_MM + above)
    stacked = math.fsum(first_look[r].above_mm + first_look[r].below_mm + CLEARANCE_MM for r in tier.rows if r.place in ("side", "under"))
    room = height_mm - joints - max(foot, default=0.0) - stacked
    pieces = first_pieces(tier.rows)
    shell = (_spacing(asked, pieces) or natural_pitch_mm(pieces.kind, pieces.tip)) if pieces else None
    wanted_drop = first_drop_mm(tier.rows)
    choices = _choices(asked, tier, side_mm, finished, bool(hung), wanted_drop, max(room, 5.0), shell)
    division = _taken(tier, choices)
    alone = None
    if tier.fitted or asked.together:
        alone = division
        at_joints = bool(hung) or any(row.place == "joints" for row in tier.rows)
        wanted = beside[0] * side_mm / beside[1] if beside and at_joints else None
        further = []
        if tier.fitted:
            room_in = max(edge, default=0.0)
            for row in tier.rows:
                kind = KINDS[row.kind]
                if row is pieces or row.place == "joints" or not kind.side_by_side:
                    continue
                inset = max(room_in + first_look[row].above_mm, row.tip.opening_mm) if row.place in ("top", "inside") else 0.0
                pitch = (_spacing(asked, row) or natural_pitch_mm(row.kind, row.tip)) * side_mm / run_mm(finished, inset, side_mm)
                further.append((kind.plural, pitch))
        if wanted:
            choices = _choices(asked, tier, side_mm, finished, bool(hung), wanted_drop, max(room, 5.0), shell, wanted)
        front = partial(has_front_joint, finished) if asked.together and at_joints else None
        choices = fitted_choices(choices, front, further)
        division = _taken(tier, choices)
    if division.drop_mm > 2 * division.width_mm:
        row = next(r for r in hung if r.drop_mm == wanted_drop)
        raise Problem(
            f"{row.path}drop",
            f"Drop must be at most twice the swag's width, {Formatter(asked.units).most('length', 2 * division.width_mm)} here. "
            "Make it shallower, or use fewer repeats",
        )
    ground = Ground(side_mm, height_mm, division, joints, finished, index)

    def amount_of(row: RowSpec, kind: str, run_mm: float, repeats: int, width_mm: float, drop_mm: float) -> RowAmount:
        return _piped(_wanted(asked, row, tier.fitted, kind, run_mm, repeats, width_mm, drop_mm), row)

    return division, choices, joints, place_rows(tier.rows, ground, amount_of), alone


@lru_cache(maxsize=256)
def _cached_choices(
    side_mm: float,
    cutters_mm: tuple[float, ...],
    wanted_width: float | None,
    wanted_drop: float | None,
    room: float,
    shell: float | None,
    allowed: tuple[int, ...],
) -> tuple[Division, ...]:
    return division_choices(side_mm, cutters_mm, wanted_width, wanted_drop, room, shell, fewest=min(allowed), most=max(allowed), allowed=allowed)


@lru_cache(maxsize=256)
def has_front_joint(finished: Outline, repeats: int) -> bool:
    """Whether so many repeats put a joint in the middle of the front, half way round from the middle of the back."""
    return any(abs(s - finished.perimeter_mm / 2) < AT_FRONT_MM for s in finished.division(repeats).s_mm)


@lru_cache(maxsize=64)
def _on_corners(finished: Outline, most: int) -> frozenset[int]:
    """Numbers of repeats that put a joint on every corner of an outline that has some."""
    return frozenset(finished.repeats_that_fit(3, most))


def _choices(
    asked: _Asked,
    tier: TierOrder,
    side_mm: float,
    finished: Outline,
    hangs: bool,
    wanted_drop: float | None,
    room_mm: float,
    piece_mm: float | None,
    wanted_width: float | None = None,
) -> tuple[Division, ...]:
    """Every way to divide a tier, best first, with those that the maker has chosen among them."""
    cutters = tuple(c for c in asked.cutters_mm if c) if hangs else ()
    if hangs and tier.cutter_mm and not any(_is_same(tier.cutter_mm, c) for c in cutters):
        cutters += (tier.cutter_mm,)
    if not cutters and wanted_width is None:
        wanted_width = wanted_drop / DROP_SHARE if hangs and wanted_drop else min(90.0, max(50.0, side_mm / 8))
    most = max(4, min(60, int(side_mm / 30)))
    looked_at = tuple(range(3 if finished.corners_mm else 4, most + 1))
    room_mm = round(room_mm, 3)
    found = _cached_choices(side_mm, cutters, wanted_width, wanted_drop, room_mm, piece_mm, looked_at)
    fitting = _on_corners(finished, most) if finished.corners_mm else None
    if tier.repeats and tier.repeats not in looked_at:
        found += _cached_choices(side_mm, cutters, wanted_width, wanted_drop, room_mm, piece_mm, (tier.repeats,))
        if fitting is not None and finished.division(tier.repeats).respected:
            fitting |= {tier.repeats}
    elif fitting is None:
        return found
    judged = [d if fitting is None or d.repeats in fitting else _missing_corners(d) for d in found]
    return tuple(sorted(judged, key=lambda d: d.penalty))


def _missing_corners(division: Division) -> Division:
    """A division that leaves a corner without a joint, with its penalty for that."""
    return replace(
        division,
        penalty=division.penalty + CORNERS_MISSED,
        reasons=(*division.reasons, "corners"),
        points=(*division.points, ("corners", CORNERS_MISSED)),
    )


def _is_same(cutter_mm: float, other_mm: float) -> bool:
    """Whether two cutters are one: what was typed may be rounded."""
    return abs(cutter_mm - other_mm) < SAME_CUTTER_MM


def _taken(tier: TierOrder, choices: Sequence[Division]) -> Division:
    """The best of the choices that keep to the repeats and the cutter that the maker has chosen."""
    for choice in choices:
        if tier.repeats and choice.repeats != tier.repeats:
            continue
        if tier.cutter_mm and choice.cutter_mm is not None and not _is_same(tier.cutter_mm, choice.cutter_mm):
            continue
        return choice
    raise AssertionError("the choices have every number of repeats and every cutter that can be asked for")


def _body(tier: PlannedTier, density: float) -> Body:
    """A finished tier as the stack sees it."""
    return finished_body(tier.coats, density, math.fsum(r.amount.mass_g for r in tier.rows))


def _amounts(tiers: Sequence[PlannedTier], density: Constant) -> tuple[Amount, ...]:
    """Buttercream by colour: coats by the knife, rows by the bag, filling plain."""
    uses: list[tuple[str, str, float, float, float]] = []
    for tier in tiers:
        uses.append(("plain", *knife_uses(tier.coats, density)[0]))
        uses += _coat_uses(tier, density)
        for row in tier.rows:
            colours, weighs = row.spec.colours, row.amount
            use, share = f"bag {row.tip.name}{SHARED if len(colours) > 1 else ''}", 1 / len(colours)
            uses += [(name, use, share * weighs.mass_g, share * weighs.low_g, share * weighs.high_g) for name in colours]
    return amounts_by_colour(uses)


def _coat_uses(tier: PlannedTier, density: Constant) -> list[tuple[str, str, float, float, float]]:
    """What the coats of a tier take of each colour; what a comb lifts out of the ground of a striped coat is made as well."""
    c, colour = tier.coats, tier.order.colour
    if not tier.bands and tier.stripes is None:
        return [(colour, *knife_uses(c, density)[1])]
    crumb = (c.crumb_ml, c.crumb_ml, c.crumb_ml) if c.by_disc else (c.crumb_ml, c.crumb_low_ml, c.crumb_high_ml)
    found = [(colour, "crumb coat", *crumb)]
    if tier.stripes is not None and tier.order.striped is not None:
        cut = tier.stripes
        found += [
            (colour, "ground of the coat", cut.ground_ml, c.final_low_ml - cut.stripes_ml, c.final_high_ml - cut.stripes_ml),
            (colour, "lifted by the comb", cut.lifted_ml, cut.lifted_ml, cut.lifted_ml),
            (tier.order.striped[0], "stripes", cut.stripes_ml, cut.stripes_ml, cut.stripes_ml),
        ]
    found += [(name, "coat", band.volume_ml, band.low_ml, band.high_ml) for (name, _), band in zip(tier.order.bands, tier.bands, strict=True)]
    return [(name, use, *mass_range_g(ml, max(0.0, low), high, density, density.low, density.high)) for name, use, ml, low, high in found]


def chords_of(tier: PlannedTier) -> tuple[float, ...]:
    """Give the setting of the dividers from each of a tier's joints to the next [mm]; all alike on a round tier."""
    repeats = tier.division.repeats
    if tier.order.sponge.kind == "round":
        return (dividers_mm(tier.side_mm, repeats),) * repeats
    return _chords_mm(tier.measured, tuple(s * tier.side_mm / tier.perimeter_mm for s in tier.joints.s_mm))


@lru_cache(maxsize=16)
def _chords_mm(outline: Outline, joints_mm: tuple[float, ...]) -> tuple[float, ...]:
    """`chords_mm`, cached: an answer asks for those of each tier three times."""
    return chords_mm(outline, joints_mm)


def pieces_of(row: PlacedRow, repeats: int) -> tuple[int, float]:
    """Give the pieces in one repeat of a row, and their stretch."""
    return row.amount.count // (repeats * row.layers), row.amount.stretch_percent
