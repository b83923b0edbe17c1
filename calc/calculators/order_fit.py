"""How the rows of a tier, and the tiers of a cake, are fitted to one another: what that changed, in words, and what is pressed to have it or not."""

from __future__ import annotations

from itertools import pairwise

from calc.calculators.declare import Answer, Press
from calc.calculators.division_words import choice_words, exact_length
from calc.order import Plan, PlannedTier, pieces_of
from calc.sources import constant
from calc.units import Formatter, a_or_an, capitalised, listed

PROPORTION_SEEN = constant(0.1, "-", "common-practice", "part of a swag's width by which it may be out of proportion before an eye sees it")


def add_fits(answer: Answer, cake: Plan) -> None:
    """Say what is fitted to what, with a press that ends it; and where nothing is, offer it."""
    _add_rows(answer, cake)
    _add_tiers(answer, cake)


def _add_rows(answer: Answer, cake: Plan) -> None:
    """The rows of each tier, fitted to the same joints or not."""
    fitted = [tier for tier in cake.tiers if tier.order.fitted and tier.rows]
    for tier in fitted:
        end = Press("Divide its rows separately", {f"{tier.order.path}fit": "own"}, done=f"{tier.order.name}: its rows are divided separately again.")
        before = "" if cake.order.together else _before_text(tier, answer.say)
        answer.note(f"{tier.order.name}: all rows meet the same {tier.division.repeats} joints. {_pieces_text(tier)}{before}", end)
    free = [tier for tier in cake.tiers if not tier.order.fitted and _can_be_fitted(tier)]
    if free:
        names = listed([tier.order.name for tier in free])
        press = Press(
            "Fit all rows to the same joints",
            {f"{tier.order.path}fit": "all" for tier in free},
            done=f"The rows of {names} are fitted to the same joints.",
        )
        answer.note(f"{names}: repeats go by one row of pieces, and single pieces along an edge are one to a repeat.", press)


def _can_be_fitted(tier: PlannedTier) -> bool:
    """Whether fitting the rows would change anything: there are single pieces along an edge, or several rows of pieces."""
    kinds = [row.asked_kind for row in tier.rows if row.place != "joints"]
    return len(tier.rows) > 1 and (any(kind.set_apart for kind in kinds) or sum(kind.side_by_side for kind in kinds) > 1)


def _pieces_text(tier: PlannedTier) -> str:
    """How many of each go into one repeat: "Shells 8 to a repeat, one string to a repeat."."""
    found = []
    for row in tier.rows:
        kind = row.asked_kind
        if row.place == "joints":
            found.append(f"{kind.plural} {row.per_joint} at each joint")
        elif row.hung or kind.counted or kind.scroll:
            found.append(f"{kind.plural} {pieces_of(row, tier.division.repeats)[0]} to a repeat")
    words = "; ".join(dict.fromkeys(found))
    return f"{capitalised(words)}." if words else ""


def _before_text(tier: PlannedTier, say: Formatter) -> str:
    """How a fitted tier would be divided by itself, where that differs."""
    alone = tier.by_itself
    assert alone is not None, "a fitted tier knows how it would be divided by itself"
    same = (alone.repeats, alone.cutter_mm) == (tier.division.repeats, tier.division.cutter_mm)
    return "" if same else f" On its own it would have {choice_words(alone, say)}."


def _add_tiers(answer: Answer, cake: Plan) -> None:
    """The tiers fitted to one another or not, where at least two have joints."""
    joined = [tier for tier in cake.tiers if tier.joined]
    if len(joined) < 2:
        return
    say = answer.say
    widths = [f"{tier.order.name} {tier.division.repeats} repeats of {say.length(tier.division.width_mm)}" for tier in joined]
    if not cake.order.together:
        press = Press("Fit the tiers to one another", {"together": "yes"}, done="The tiers are fitted to one another.")
        front = [tier.order.name for tier in joined if not tier.has_front_joint]
        without = f", without a joint at the front of {listed(front)}" if front else ", with a joint at the front of each"
        answer.note(f"Each tier is divided separately: {listed(widths)}{without}.", press)
        return
    changed = [
        f"{tier.order.name} {choice_words(tier.by_itself, say)}"
        for tier in joined
        if tier.by_itself is not None and tier.by_itself.repeats != tier.division.repeats
    ]
    missed = [tier.order.name for tier in joined if not tier.has_front_joint]
    front_text = f"no joint at the front of {listed(missed)}" if missed else "a joint at the front of each"
    end = Press("Divide each tier separately", {"together": "no"}, done="Each tier is divided separately again.")
    more = f" Divided separately, they would have: {listed(changed)}." if changed else " Divided separately, they would come out the same."
    answer.note(f"The tiers are fitted to one another: {listed(widths)}, {front_text}.{more}", end)
    for lower, upper in pairwise(joined):
        _offer_cutter(answer, lower, upper)


def _offer_cutter(answer: Answer, lower: PlannedTier, upper: PlannedTier) -> None:
    """Where no cutter at hand makes swags in proportion to those of the tier below, say which one would."""
    cutter, say = lower.division.cutter_mm, answer.say
    if cutter is None or not (lower.marked and upper.marked) or upper.order.cutter_mm or upper.order.repeats:
        return
    share = upper.side_mm / lower.side_mm
    step = 25.4 / 4 if answer.units == "us" else 5.0
    suits = max(step, step * round(cutter * share / step))
    if abs(upper.division.width_mm / (lower.division.width_mm * share) - 1) <= PROPORTION_SEEN and upper.division.cutter_mm != cutter:
        return
    text = exact_length(suits, say)
    press = Press(
        f"Use {a_or_an(text)} cutter there", {f"{upper.order.path}cutter": text}, done=f"{upper.order.name} is marked with {a_or_an(text)} cutter."
    )
    answer.note(f"{upper.order.name}: with a cutter of {text} its swags would hang as full as those of {lower.order.name}, in proportion.", press)
