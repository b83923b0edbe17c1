"""What is amiss at a row or a tier of an order, said there with one press that mends it.

Map
---
`add_cures`   everything that is amiss, at the row or tier that it concerns

Little is judged here: it is what the plan found (clashes, rows crowded on a top, notes of a row, tips that a kind does not take), and colours
that no palette knows. How much of it can be pressed depends on what stands in the form.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from calc.calculators.declare import Answer, Press
from calc.calculators.order_words import row_phrase
from calc.colours import PALETTE, hex_of
from calc.order import Plan, PlannedTier, planned_again
from calc.rows.placement import CLEARANCE_MM, CUTTER_NEAR_MM, Clash, PlacedRow
from calc.sources import constant
from calc.units import Formatter, Problem, a_or_an, capitalised, listed, read_quantity

SHALLOWEST_MM = constant(5.0, "mm", "common-practice", "a drop shallower than this no longer looks like a swag, so it is not offered")
HIDES_SHARE = constant(0.5, "-", "common-practice", "a flower at a joint wider than this share of the side's height hides it")
LEAST_STEP_MM = constant(1.0, "mm", "common-practice", "by how much less a drop is tried where the last one was still too deep")
MOST_TRIED = 8  # drops, for each, the tier is replanned
MOST_COLOURS = 12  # of the reader's own
PLACE_WORDS = {
    "side": "on the side",
    "over": "over the row before",
    "under": "under the row before",
    "top edge": "on the top edge",
    "base": "round the base",
    "top": "on the top",
    "joints": "at every joint",
    "inside": "inside the top edge",
}


def add_cures(answer: Answer, cake: Plan, looks: Mapping[str, str]) -> None:
    """Say at each row and tier what is amiss there."""
    for tier in cake.tiers:
        for number, row in enumerate(tier.rows):
            _tip_and_place(answer, tier, row, number)
        _clashes(answer, cake, tier)
    for crowd in cake.crowded:
        tier = cake.tiers[crowd.row.tier]
        number, own = _number(tier, crowd.row), _own_tip(tier, crowd.row)
        reach, free = answer.say.length(crowd.reach_mm), answer.say.length(crowd.free_mm)
        text = f"It reaches {reach} in from the edge, and {free} are free {f'beside {crowd.upper}' if crowd.upper else 'to the middle'}."
        answer.cure(crowd.row.spec.path.rstrip("."), text, *own, *_left_out(answer, tier, number))
    _colours(answer, cake, looks)


def _number(tier: PlannedTier, row: PlacedRow) -> int:
    return next(i for i, one in enumerate(tier.rows) if one is row)


def _own_tip(tier: PlannedTier, row: PlacedRow) -> tuple[Press, ...]:
    """The press that gives a row the tip of its kind; nothing where it has that."""
    own = row.asked_kind.begin_tip(tier.order.height_mm)
    if own == row.tip:
        return ()
    return (Press(f"Use {own.name}", {f"{row.spec.path}tip": ""}, done=f"Row {_number(tier, row) + 1} takes {own.name}, which suits it."),)


def _put(row: PlacedRow, number: int, place: str) -> Press:
    """The press that puts a row somewhere else."""
    words = PLACE_WORDS[place]
    return Press(f"Put it {words}", {f"{row.spec.path}place": place, f"{row.spec.path}below": ""}, done=f"Row {number + 1} goes {words}.")


def _left_out(answer: Answer, tier: PlannedTier, number: int) -> tuple[Press, ...]:
    """The press that takes a row away: the others are set again, each one further up."""
    prefix = f"{tier.order.path}rows."
    rows: dict[int, dict[str, str]] = {}
    for name, text in (answer.fields or {}).items():
        found = re.fullmatch(r"(\d+)\.(\w+)", name.removeprefix(prefix)) if name.startswith(prefix) else None
        if found:
            rows.setdefault(int(found[1]), {})[found[2]] = text
    left = [said for _, said in sorted(rows.items())]
    if number >= len(left):
        return ()
    del left[number]
    sets = {f"{prefix}{i}.{name}": text for i, said in enumerate(left) for name, text in said.items()}
    return (Press("Leave it out", sets, clears=(prefix.rstrip("."),), done=f"Row {number + 1} removed."),)


def _tip_and_place(answer: Answer, tier: PlannedTier, row: PlacedRow, number: int) -> None:
    """A tip that does not pipe the kind, a place that does not suit it, and pieces too large for the side."""
    kind, at = row.asked_kind, row.spec.path.rstrip(".")
    if row.tip.family not in kind.families:
        text = f"{capitalised(a_or_an(kind.name))} is not usually piped with {a_or_an(row.tip.family)} tip."
        answer.cure(at, text, *_own_tip(tier, row))
    if row.notes:
        answer.cure(at, row.notes[0].partition(":")[0] + ".", _put(row, number, kind.place))
    elif row.place == "side" and kind.side_by_side and row.on is None:
        answer.cure(at, f"{kind.titles} have nothing to sit on there: they usually go {PLACE_WORDS[kind.place]}.", _put(row, number, kind.place))
    if kind.set_apart and row.place == "joints" and row.above_mm + row.below_mm > HIDES_SHARE * tier.height_mm:
        across = answer.say.length(row.above_mm + row.below_mm)
        answer.cure(at, f"Each is {across} across, over half of the {answer.say.length(tier.height_mm)} that the side is high.", *_own_tip(tier, row))


def _clashes(answer: Answer, cake: Plan, tier: PlannedTier) -> None:
    """Rows that leave the side or lie on each other, each at the one that is mended the more easily; too deep a drop is said once."""
    deep: dict[int, list[_Deep]] = {}
    for clash in tier.clashes:
        found = _too_deep(tier, clash)
        if found:
            deep.setdefault(_number(tier, found.source), []).append(found)
        else:
            _clash(answer, tier, clash)
    for number, all_found in deep.items():
        drop = _shallower(cake, tier, number, max(found.past_mm for found in all_found), answer.say)
        if drop is None:
            for found in all_found:
                _clash(answer, tier, found.clash)
            continue
        _, upper, lower, past_mm, _ = max(all_found, key=lambda found: found.past_mm)
        row = tier.rows[number]
        past = f"the upper edge of Row {_number(tier, lower) + 1}" if lower else "the board"
        who = "It" if row is upper else f"Row {_number(tier, upper) + 1}, which hangs as deep as it does,"
        press = Press(f"Make its drop {drop}", {f"{row.spec.path}drop": drop}, done=f"Row {number + 1} drops {drop}.")
        text = f"{who} reaches {answer.say.length(past_mm)} past {past}.{_others_follow(cake, tier, row)}"
        answer.cure(row.spec.path.rstrip("."), text, press, *_left_out(answer, tier, number))


def _others_follow(cake: Plan, tier: PlannedTier, row: PlacedRow) -> str:
    """A warning that another drop may change the other tiers too; empty where it cannot."""
    others = [other.order.name for other in cake.tiers if other.joined and other is not tier]
    if not (cake.order.together and tier.joined and others and row.hung):
        return ""
    return f" The tiers are fitted to one another, so with another drop {listed(others)} may be divided otherwise too."


class _Deep(NamedTuple):
    """A clash of a row that hangs too deep: the row that says how deep, the row that hangs, the one under it, and how far it reaches past that."""

    source: PlacedRow
    upper: PlacedRow
    lower: PlacedRow | None
    past_mm: float
    clash: Clash


def _on_one_edge(clash: Clash) -> bool:
    """Whether two rows lie on the same edge, so that they hide each other."""
    return clash.second is not None and clash.first.place == clash.second.place != "side"


def _too_deep(tier: PlannedTier, clash: Clash) -> _Deep | None:
    """What hangs too deep where that is the cause of a clash."""
    upper = clash.first if clash.second is None else min(clash.first, clash.second, key=lambda row: row.line_mm)
    source = None if clash.where == "above the top edge" else _drops_by(tier, upper)
    lower = _other(clash, upper) if clash.second is not None else None
    past_mm = upper.lowest_mm - (lower.top_mm + lower.shallow_mm) if lower else clash.overlap_mm
    return _Deep(source, upper, lower, past_mm, clash) if source is not None and past_mm > 0 else None


def _shallower(cake: Plan, tier: PlannedTier, number: int, past_mm: float, say: Formatter) -> str | None:
    """The drop at which nothing hangs too deep because of a row, as it is written; None where there is none.

    With another drop the tier may be divided otherwise and its rows laid elsewhere, so it is planned with each that is tried.
    """
    drop_mm = tier.rows[number].drop_mm
    past_mm = max(past_mm, CUTTER_NEAR_MM + 0.1)  # nearer to a cutter's own drop it would be taken for that
    for _ in range(MOST_TRIED):
        if drop_mm - past_mm < SHALLOWEST_MM:
            return None
        text = _written(drop_mm - past_mm, say)
        drop_mm = read_quantity(text, "length", "", "")
        rows = tuple(replace(spec, drop_mm=drop_mm) if spec.path == tier.rows[number].spec.path else spec for spec in tier.order.rows)
        try:
            planned = planned_again(cake, replace(tier.order, rows=rows), tier.index)
        except Problem:
            past_mm = LEAST_STEP_MM
            continue
        found = [_too_deep(planned, clash) for clash in planned.clashes]
        still = [one.past_mm for one in found if one and one.source is planned.rows[number]]
        if not still:
            return text
        past_mm = max(*still, LEAST_STEP_MM)
    return None


def _other(clash: Clash, row: PlacedRow) -> PlacedRow:
    """The other of two rows that clash."""
    assert clash.second is not None
    return clash.second if clash.first is row else clash.first


def _drops_by(tier: PlannedTier, row: PlacedRow) -> PlacedRow | None:
    """The row that says how deep a hung row hangs: itself, or the one before that it is piped over or under."""
    if not row.hung:
        return None
    number = _number(tier, row)
    while not row.spec.drop_mm and row.spec.place in ("over", "under"):
        before = next((i for i in range(number - 1, -1, -1) if tier.rows[i].hung), None)
        if before is None:
            break
        number, row = before, tier.rows[before]
    return row


def _clash(answer: Answer, tier: PlannedTier, clash: Clash) -> None:
    """A row that leaves the side, or two that lie on each other, where no shallower drop mends it."""
    overlap, first, second = answer.say.length(clash.overlap_mm), clash.first, clash.second
    if second is None:
        number, past = _number(tier, first), "the board" if clash.where == "below the board" else "the top edge"
        presses = (*_placed(first, number), *_left_out(answer, tier, number))
        answer.cure(first.spec.path.rstrip("."), f"It runs {overlap} past {past}.", *presses)
        return
    if _on_one_edge(clash):
        other, row = first, second  # as they were typed
        presses, how = tuple(_elsewhere(tier, row, other)), f"both lie {PLACE_WORDS[row.place]} and hide each other"
    else:
        other, row = sorted((first, second), key=lambda one: (one.spec.below_mm is not None, one.line_mm))
        presses = _placed(row, _number(tier, row)) or _lower(row, _number(tier, row), clash.overlap_mm, tier, answer.say)
        how = f"run into each other by {overlap}"
    text = f"It and Row {_number(tier, other) + 1} ({row_phrase(other)}) {how}."
    answer.cure(row.spec.path.rstrip("."), text, *presses, *_left_out(answer, tier, _number(tier, row)))


def _written(length_mm: float, say: Formatter) -> str:
    """A length that is offered: no more than that, in whole millimetres or eighths of an inch."""
    if say.units == "us":
        return f"{math.floor(length_mm / 25.4 * 8) / 8:g} in"
    return f"{math.floor(length_mm):g} mm"


def _placed(row: PlacedRow, number: int) -> tuple[Press, ...]:
    """The press that has a row placed by itself, where the reader had given it a place."""
    if row.spec.below_mm is None:
        return ()
    return (Press("Have it placed", {f"{row.spec.path}below": ""}, done=f"Row {number + 1} is placed where there is room."),)


def _lower(row: PlacedRow, number: int, overlap_mm: float, tier: PlannedTier, say: Formatter) -> tuple[Press, ...]:
    """The press that puts a row lower by as much as it overlaps, where there is room under it."""
    wanted = math.ceil(row.line_mm + overlap_mm + CLEARANCE_MM)
    if row.place != "side" or row.on is not None or row.lowest_mm + wanted - row.line_mm > tier.height_mm:
        return ()
    text = f"{math.ceil(wanted / 25.4 * 8) / 8:g} in" if say.units == "us" else f"{wanted} mm"
    return (Press(f"Move it down to {text}", {f"{row.spec.path}below": text}, done=f"Row {number + 1} stands {text} below the top edge."),)


def _elsewhere(tier: PlannedTier, row: PlacedRow, other: PlacedRow) -> Iterator[Press]:
    """Where a row can go that lies on another: behind it on the top, on it, or to an edge that is free."""
    kind, number = row.asked_kind, _number(tier, row)
    taken = {one.place for one in tier.rows}
    for place in ("inside", "base", "top edge"):
        if place in kind.places and place not in taken and not (place == "inside" and row.place == "base"):
            yield _put(row, number, place)
            return
    if "over" in kind.places and number == _number(tier, other) + 1:
        yield _put(row, number, "over")


# --- colours -------------------------------------------------------------------------------------------------------------


def _colours(answer: Answer, cake: Plan, looks: Mapping[str, str]) -> None:
    """Colours that are drawn bare, because neither the palette nor the reader says how they look."""
    known = [name for name in looks if name]
    said: set[str] = set()

    def tell(at: str, name: str, field: str, bands: Sequence[tuple[str, float]] = ()) -> None:
        if name in said or not name or name in looks or hex_of(name) is not None:
            return
        said.add(name)
        near = _nearest(name, (*known, *PALETTE))
        text = ", ".join(f"{near if one == name else one} {share:g}" for one, share in bands) or near
        presses = [Press(f"Use {near}", {field: text}, done=f"The colour is {near}.")]
        if len(looks) < MOST_COLOURS:
            own = f"colours.{_free(answer)}."
            sets = {f"{own}name": name, f"{own}look": looks.get(near) or PALETTE[near]}
            presses.append(Press(f"Keep {name}", sets, done=f"{name} is drawn like {near}: choose its look under Colours of your own."))
        answer.cure(at, f"The palette has no {name}, so it is drawn like plain buttercream.", *presses)

    for tier in cake.tiers:
        tell(tier.order.path.rstrip("."), tier.order.colour, f"{tier.order.path}colour")
        for name, _ in tier.order.bands:
            tell(tier.order.path.rstrip("."), name, f"{tier.order.path}bands", tier.order.bands)
        if tier.order.striped:
            tell(tier.order.path.rstrip("."), tier.order.striped[0], f"{tier.order.path}striped")
        for row in tier.rows:
            for name, field in zip(row.spec.colours, ("colour", "second"), strict=False):
                tell(row.spec.path.rstrip("."), name, f"{row.spec.path}{field}")


def _free(answer: Answer) -> int:
    """The first number that no colour of the reader's own has."""
    names = [name for name in answer.fields or {} if name.startswith("colours.")]
    found = [int(name.split(".")[1]) for name in names if re.fullmatch(r"colours\.\d{1,4}\.\w+", name)]
    return max(found, default=-1) + 1


@lru_cache(maxsize=64)
def _nearest(name: str, names: tuple[str, ...]) -> str:
    """The known name that is spelled most like a name: it shares the most pairs of letters for its length.

    Cached, because most edits leave the colours as they are, and each name is compared with the whole palette (a fifteenth of an edit).
    """

    def pairs(word: str) -> set[str]:
        padded = f" {word} "
        return {padded[i : i + 2] for i in range(len(padded) - 1)}

    wanted = pairs(name)
    return max(names, key=lambda word: len(wanted & pairs(word)) / len(wanted | pairs(word)))
