"""Fits a scheme to the tiers of an order: the cheapest changes after which nothing collides and nothing speaks against a row.

Map
---
`fit`            the one function: a scheme, an order, colours -> `Fitted`
`Fitted`, `FittedTier`, `Change`   what came of it
`colours_for`    which of the maker's colours stands for which of the scheme's

How: each tier by itself, the uppermost first, because what is piped round its foot takes room on the tier below. From the scheme as it is declared
a best-first search goes on by small changes (a smaller drop, another division, a finer tip, fewer layers, a row left out), each with a cost, until
`calc.order.plan` finds no fault in the tier. Without any row there is nothing to find, so that it always ends.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from calc.colours import hex_of
from calc.colours.colour_space import lab
from calc.order import Order, Plan, PlannedTier, TierOrder, plan
from calc.rows import KINDS, RowSpec
from calc.rows.effects import effects_of
from calc.rows.kind import USUAL_TIER_MM
from calc.rows.placement import hangs
from calc.schemes.scheme import Part, Scheme
from calc.sources import constant
from calc.tips import TIPS, Tip
from calc.units import Problem

USUAL_WIDTH_MM = constant(180.0, "mm", "common-practice", "width of the tiers for which each scheme names its tips")
SMALLEST = constant(0.55, "-", "common-practice", "the finest tips of a scheme over those that it begins with")
LARGEST = constant(1.4, "-", "common-practice", "the widest tips of a scheme over those that it begins with")
SHALLOWER = constant(0.8, "-", "common-practice", "the next smaller drop over the one before it")
SHALLOWEST_MM = constant(8.0, "mm", "common-practice", "the smallest drop that reads as one")
FLAT = constant(0.25, "-", "common-practice", "drop over width below which a curve looks flat: another change is tried first")
LINE = constant(0.12, "-", "common-practice", "drop over width below which a curve reads as a line")
MOST_TRIED = 160  # plans of one tier
STEPS = 4  # how many times a tip gets finer
LEAVING, RANK = 3.5, 0.7  # cost of leaving a row out, and how much more for each row that matters less than it; a small change costs about 1

State = tuple["Choice", ...]


def shallowest_mm(width_mm: float) -> float:
    """The smallest drop that reads as one in a repeat of a width [mm]."""
    return min(float(SHALLOWEST_MM), LINE * width_mm)


@dataclass(frozen=True)
class Choice:
    """What was chosen for one row: finer by so many steps, a drop (0 leaves it to the order), layers, pieces at a joint; or that it is left out."""

    finer: int
    drop_mm: float
    layers: int
    per_joint: int
    below_mm: float | None
    there: bool = True


@dataclass(frozen=True)
class Change:
    """One thing that was changed on a tier.

    `what` is "drop", "tip", "layers", "number", "place" or "left out"; `why` is "room" on the side, "ledge" on the top, or "fit", where it did not
    suit the repeats.
    """

    what: str
    part: Part
    before: float | Tip | None
    after: float | Tip | None
    why: str


@dataclass(frozen=True)
class FittedTier:
    """The rows of one tier, the repeats where they had to be chosen, the tier as it is planned, and what was changed."""

    rows: tuple[RowSpec, ...]
    repeats: int | None
    planned: PlannedTier
    changes: tuple[Change, ...]


@dataclass(frozen=True)
class Fitted:
    """A scheme on the tiers of an order. `scale` is what its tips were multiplied by for tiers of this size."""

    scheme: Scheme
    order: Order
    plan: Plan
    tiers: tuple[FittedTier, ...]
    colours: tuple[str, ...]
    scale: float


@dataclass(frozen=True)
class _Fault:
    """What speaks against a state: the rows that it is about, how bad it is, and what it is for."""

    rows: tuple[int, ...]
    worse: float
    why: str


def _is_green(colour: str) -> bool:
    """Tell a green by its hue in CIELAB: pear lies at 111 degrees, moss at 113, pale yellow at 106, olive at 103. What is nearly white has no hue."""
    value = hex_of(colour)
    if value is None:
        return False
    _, red, yellow = lab(value)
    return math.degrees(math.atan2(yellow, red)) > 110 and math.hypot(red, yellow) > 10


def colours_for(scheme: Scheme, used: Sequence[str], coats: Sequence[str] = ()) -> tuple[str, ...]:
    """Give the colours of a scheme, main first: those the maker uses, in their order, then the scheme's own tones.

    The fourth is for leaves: a green of the maker's goes there and nowhere else. Somebody's own rows say nothing of leaves, and take colours by
    their order.
    """
    mine = list(dict.fromkeys(colour for colour in used if colour))
    if scheme.rows_of:
        return tuple(mine[i] if i < len(mine) else tone for i, tone in enumerate(scheme.tones))
    greens = [colour for colour in mine if _is_green(colour)]
    rest = [colour for colour in mine if colour not in greens]
    tones = [tone for tone in scheme.tones[:3] if tone not in rest and (len(rest) or tone not in coats)] + list(scheme.tones[:3])
    chosen = (rest + tones)[:3]
    return (*chosen, greens[0] if greens else scheme.tones[3])


def _scale(scheme: Scheme, tiers: Sequence[TierOrder]) -> float:
    """How much wider than usual the tips are: one scale for the whole cake, so that its tiers share their bags."""
    if scheme.rows_of:
        return 1.0
    high = min(tier.height_mm for tier in tiers) / USUAL_TIER_MM
    wide = math.fsum(min(tier.sponge.width_mm, tier.sponge.length_mm) for tier in tiers) / len(tiers) / USUAL_WIDTH_MM
    return min(float(LARGEST), max(float(SMALLEST), math.sqrt(high * wide)))


@lru_cache(maxsize=256)
def _tips_of(kind: str, family: str) -> tuple[Tip, ...]:
    """The tips of a family in the table that make a kind, the finest first; any of that family where none is known to make it."""
    family_tips = [use for use in TIPS if use.tip.family == family]
    making = [use.tip for use in family_tips if kind in effects_of(use)] or [use.tip for use in family_tips]
    fewest: dict[float, Tip] = {}
    for tip in sorted(making, key=lambda tip: tip.points):
        fewest.setdefault(tip.opening_mm, tip)
    return tuple(fewest[opening] for opening in sorted(fewest))


def tip_for(part: Part, scale: float, finer: int = 0) -> Tip:
    """The tip of the table for a part at some scale, a number of sizes finer; somebody's own tip as long as nothing has to change."""
    begins = part.begins_with
    if part.tip is not None and scale == 1.0 and not finer:
        return part.tip
    tips = _tips_of(part.kind, begins.family)
    wanted = begins.opening_mm * scale
    nearest = min(range(len(tips)), key=lambda at: abs(math.log(tips[at].opening_mm / wanted)))
    return tips[min(len(tips) - 1, max(0, nearest - finer))]


def fit(scheme: Scheme, order: Order, used: Sequence[str] = (), snap: Callable[[float], float] = round) -> Fitted:
    """Fit a scheme to the tiers of an order, whose rows, and repeats, cutters and joints that were fixed, give way to it.

    Formula: the state of least cost without a fault, where cost counts changes of the scheme and a fault is a clash, a row past its ledge or a
    note on a row. Found best-first by cost and faults, it may miss the least by a little.

    Parameters
    ----------
    scheme : Scheme
        The scheme [-]
    order : Order
        The order; its tins, coats, cutters and all else stay [-]
    used : sequence of str
        The maker's colours, main first [-]
    snap : callable
        Brings a length to one that can be written in the maker's units [mm]

    Returns
    -------
    Fitted
        The order with its rows, and what was changed [-]

    Raises
    ------
    Problem
        The order cannot be planned even without rows, such as with a tier that hangs over the one below.

    Range: any order that can be planned without rows. Leaves out: how two rows look together.

    Example
    -------
    >>> import datetime as dt
    >>> from calc.schemes import SCHEMES
    >>> from calc.shapes import outline
    >>> tier = TierOrder("Tier", outline("round", 200.0), 100.0, 3, 6.0, 2.0, 3.0, None, None, "ivory", ())
    >>> order = Order("A cake", dt.datetime(2027, 10, 16, 18), 20, (25.0, 50.0), (tier,), (75.0,))
    >>> [row.kind for row in fit(SCHEMES["one-hem"], order).tiers[0].rows]
    ['shell', 'shell']

    Source: common-practice
    """
    colours = colours_for(scheme, used, [tier.colour for tier in order.tiers])
    scale = _scale(scheme, order.tiers)
    count = len(order.tiers)
    bare = tuple(replace(tier, rows=(), repeats=None, cutter_mm=None, joints_below_mm=None) for tier in order.tiers)
    plan(replace(order, tiers=bare))  # what is wrong with it in itself is said as it is
    done: list[FittedTier] = []
    upper: TierOrder | None = None
    for index in reversed(range(count)):
        tier = bare[index]
        parts = scheme.parts_for(index, count)
        usual = scheme.usual_mm(index, count)
        wide = scale if usual is None else min(1.0, max(float(SMALLEST), tier.height_mm / usual))
        found = _fit_tier(_Ask(order, tier, upper, parts, colours, wide, snap))
        done.insert(0, found)
        upper = replace(tier, rows=found.rows, repeats=found.repeats)
    whole = replace(order, tiers=tuple(replace(tier, rows=one.rows, repeats=one.repeats) for tier, one in zip(bare, done, strict=True)))
    return Fitted(scheme, whole, plan(whole), tuple(done), colours, scale)


@dataclass(frozen=True)
class _Ask:
    """One tier to be fitted."""

    order: Order
    tier: TierOrder
    upper: TierOrder | None
    parts: tuple[Part, ...]
    colours: tuple[str, ...]
    scale: float
    snap: Callable[[float], float]

    def rows(self, state: State) -> tuple[tuple[int, RowSpec], ...]:
        """The rows of a state, each with the number of its part."""
        found: list[tuple[int, RowSpec]] = []
        for at, (part, choice) in enumerate(zip(self.parts, state, strict=True)):
            if choice.there:
                row = RowSpec(
                    part.kind,
                    tip_for(part, self.scale, choice.finer),
                    drop_mm=choice.drop_mm,
                    layers=choice.layers,
                    place=part.place,
                    colour=self.colours[part.shade],
                    second=self.colours[part.beside] if part.beside is not None else "",
                    below_mm=choice.below_mm,
                    per_joint=choice.per_joint,
                    path=f"{self.tier.path}rows.{len(found)}.",
                )
                found.append((at, row))
        return tuple(found)

    def planned(self, state: State, repeats: int | None) -> tuple[Plan | None, tuple[_Fault, ...]]:
        """The tier planned so, under the one above it, and what speaks against it."""
        numbered = self.rows(state)
        rows = tuple(row for _, row in numbered)
        tiers = (replace(self.tier, rows=rows, repeats=repeats), *([self.upper] if self.upper else []))
        try:
            made = plan(replace(self.order, tiers=tiers))
        except Problem as problem:
            about = tuple(at for at, row in numbered if problem.input.startswith(row.path))
            return None, (_Fault(about or tuple(at for at, row in numbered if hangs(row) or row.place == "side"), 4.0, "room"),)
        number = {row.path: at for at, row in numbered}
        found = []
        for clash in made.tiers[0].clashes:
            about = tuple(number[row.spec.path] for row in (clash.first, clash.second) if row is not None)
            found.append(_Fault(about, min(4.0, 1 + clash.overlap_mm / 4), "room"))
        for crowd in made.crowded:
            if crowd.row.tier == 0:
                found.append(_Fault((number[crowd.row.spec.path],), 2.0, "ledge"))
        flat = [row for row in made.tiers[0].rows if row.hung and row.drop_mm < shallowest_mm(made.tiers[0].division.width_mm)]
        if flat:
            found.append(_Fault(tuple(number[row.spec.path] for row in made.tiers[0].rows if row.hung), 1.5, "room"))
        for row in made.tiers[0].rows:
            found += [_Fault((number[row.spec.path],), 1.0, "fit") for _ in (*row.notes, *row.amount.notes)]
        return made, tuple(found)


def _begun(part: Part, tier: TierOrder, snap: Callable[[float], float]) -> Choice:
    drop = snap(part.drop * tier.height_mm) if part.drop else 0.0
    below = snap(part.below * tier.height_mm) if part.below is not None else None
    return Choice(0, drop, part.layers, part.per_joint, below)


# A state that was found: its rank, its turn, its cost, itself, its repeats, the plan, what speaks against it, and what was changed for what.
_Found = tuple[float, int, float, State, int | None, Plan | None, tuple[_Fault, ...], tuple[tuple[int, str], ...]]


def _fit_tier(ask: _Ask) -> FittedTier:
    """Search for the cheapest changes after which nothing speaks against a row of the tier."""
    begun = tuple(_begun(part, ask.tier, ask.snap) for part in ask.parts)
    turn = itertools.count()  # of states that are worth the same the one found first comes first
    made, faults = ask.planned(begun, None)
    queue: list[_Found] = [(0.0, next(turn), 0.0, begun, None, made, faults, ())]
    seen: set[tuple[State, int | None]] = {(begun, None)}
    first = made
    while True:
        _, _, cost, state, repeats, made, faults, whys = heapq.heappop(queue)
        if made is not None and not faults:
            return FittedTier(tuple(row for _, row in ask.rows(state)), repeats, made.tiers[0], _changes(ask, begun, state, whys, first, made))
        only_leaving = len(seen) > MOST_TRIED
        for added, changed, times, at, why in _steps(ask, state, repeats, made, faults, only_leaving):
            if (changed, times) in seen:
                continue
            seen.add((changed, times))
            now, left = ask.planned(changed, times)
            worth = cost + added
            rank = worth + 1.2 * math.fsum(fault.worse for fault in left)
            if only_leaving:
                rank -= 1000.0  # from here on to the end, one row after another
            heapq.heappush(queue, (rank, next(turn), worth, changed, times, now, left, (*whys, (at, why))))


def _steps(
    ask: _Ask, state: State, repeats: int | None, made: Plan | None, faults: Sequence[_Fault], only_leaving: bool
) -> Iterator[tuple[float, State, int | None, int, str]]:
    """The small changes that may mend the faults of a state: cost, the state after it, its repeats, the part and why."""
    concerned: dict[int, str] = {}
    for fault in sorted(faults, key=lambda one: -one.worse):
        for at in fault.rows:
            concerned.setdefault(at, fault.why)
    for at, why in concerned.items():
        left = _without(ask.parts, state, at)
        gone = [i for i, (was, now) in enumerate(zip(state, left, strict=True)) if was.there and not now.there]  # with what lies on it
        yield (math.fsum(LEAVING + RANK * (len(ask.parts) - i) for i in gone), left, repeats, at, why)
    if only_leaving:
        return
    for at, why in concerned.items():
        part, choice = ask.parts[at], state[at]

        def changed(at: int = at, choice: Choice = choice, **what: float | None) -> State:
            return (*state[:at], replace(choice, **what), *state[at + 1 :])  # type: ignore[arg-type]

        if tip_for(part, ask.scale, choice.finer + 1) != tip_for(part, ask.scale, choice.finer) and choice.finer < STEPS:
            yield (1.0, changed(finer=choice.finer + 1), repeats, at, why)
        if why == "fit" and choice.finer in (0, -1) and KINDS[part.kind].side_by_side:
            yield (0.8, changed(finer=choice.finer - 1), repeats, at, why)
        if choice.layers > 1:
            yield (1.2, changed(layers=choice.layers - 1), repeats, at, why)
        if choice.per_joint > 1:
            yield (1.5, changed(per_joint=choice.per_joint - 1), repeats, at, why)
        if choice.below_mm is not None:
            yield (0.5, changed(below_mm=None), repeats, at, why)
    if made is None:
        return
    planned = made.tiers[0]
    why = next(iter(concerned.values()), "room")
    rows = [(at, row) for (at, _), row in zip(ask.rows(state), planned.rows, strict=True)]
    drops = {at: row.amount.drops_mm[0] for at, row in rows if row.asked_kind.takes_drop and row.amount.drops_mm}
    hung = [at for at, row in rows if row.hung and row.spec.place != "over"]
    for at in [one for one in drops if one in concerned or (one in hung and any(two in hung for two in concerned))]:
        if ask.parts[at].place == "under" and state[at].drop_mm == 0:
            continue  # it hangs as deep as what it hangs under
        deeper = why == "fit" or drops[at] < shallowest_mm(planned.division.width_mm)
        for times in (SHALLOWER, 2.0 - SHALLOWER, 1 / SHALLOWER**2) if deeper else (SHALLOWER,):
            drop = ask.snap(drops[at] * times)
            if drop >= shallowest_mm(planned.division.width_mm) and drop != state[at].drop_mm and drop <= ask.tier.height_mm:
                flat = drop < FLAT * planned.division.width_mm
                yield (2.0 if flat else 1.0, (*state[:at], replace(state[at], drop_mm=drop), *state[at + 1 :]), repeats, at, why)
    if hung and repeats is None and any(at in hung for at in concerned):
        here = planned.division
        for other in [one for one in planned.choices if one.drop_mm < here.drop_mm and not {"gap", "corners"} & set(one.reasons)][:2]:
            yield (1.2, state, other.repeats, hung[0], why)


def _without(parts: Sequence[Part], state: State, at: int) -> State:
    """A state without a row, and without those that lie over it or hang under it."""
    left = list(state)
    left[at] = replace(left[at], there=False)
    for after in range(at + 1, len(parts)):
        if parts[after].place not in ("over", "under"):
            if parts[after].place == "side" or parts[at].place == "over":
                break
            continue
        if parts[at].place == "side" or (parts[at].place == "over" and parts[after].place == "over" and after == at + 1):
            left[after] = replace(left[after], there=False)
    return tuple(left)


def _changes(ask: _Ask, begun: State, state: State, whys: Sequence[tuple[int, str]], first: Plan | None, made: Plan) -> tuple[Change, ...]:
    """What differs from the scheme as it was declared, row by row."""
    reasons = dict(reversed(whys))
    usual = next(iter(reasons.values()), "room")
    found: list[Change] = []
    begun_drop = {at: row.drop_mm for (at, _), row in zip(ask.rows(begun), first.tiers[0].rows, strict=True)} if first else {}
    now = {at: row for (at, _), row in zip(ask.rows(state), made.tiers[0].rows, strict=True)}
    for at, (part, was, choice) in enumerate(zip(ask.parts, begun, state, strict=True)):
        why = reasons.get(at, usual)
        if not choice.there:
            found.append(Change("left out", part, None, None, why))
            continue
        if choice.finer != was.finer:
            found.append(Change("tip", part, tip_for(part, ask.scale), tip_for(part, ask.scale, choice.finer), why))
        if choice.drop_mm != was.drop_mm:
            found.append(Change("drop", part, begun_drop.get(at) or was.drop_mm or None, now[at].amount.drops_mm[0], why))
        if choice.layers != was.layers:
            found.append(Change("layers", part, was.layers, choice.layers, why))
        if choice.per_joint != was.per_joint:
            found.append(Change("number", part, was.per_joint, choice.per_joint, why))
        if choice.below_mm != was.below_mm:
            found.append(Change("place", part, was.below_mm, choice.below_mm, why))
    return tuple(found)
