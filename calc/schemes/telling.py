"""What was changed to make a scheme fit, and why, in sentences."""

from __future__ import annotations

from calc.order import PlannedTier
from calc.rows import KINDS
from calc.schemes.fitting import Change, Fitted, FittedTier, tip_for
from calc.schemes.scheme import Part
from calc.tips import Tip
from calc.units import Formatter

_TIMES: dict[object, str] = {1: "once", 2: "twice", 3: "three times", 4: "four times", 5: "five times"}
PLACES = {"top edge": "on the top edge", "base": "round the base", "top": "on the top", "inside": "inside the top edge", "joints": "at the joints"}
SOME_TIPS = 3  # that are named where there are more


def what_changed(fitted: Fitted, say: Formatter) -> tuple[str, ...]:
    """Tell how each tier was divided and what was changed on it, the lowest first; then what holds for the whole cake."""
    told = [sentence for tier in fitted.tiers for sentence in _tier_words(tier, say)]
    return (*told, *_scale_words(fitted))


def _tier_words(tier: FittedTier, say: Formatter) -> list[str]:
    """How a tier was divided, and each change with its reason; changes of several rows for one reason share a sentence."""
    planned = tier.planned
    sentences = [f"{planned.order.name}: {_division_words(planned, say)}." if tier.rows else f"{planned.order.name}: no rows."]
    by_reason: dict[str, list[Change]] = {}
    for change in tier.changes:
        by_reason.setdefault(_reason(change, planned, say), []).append(change)
    for reason, changes in by_reason.items():
        gone = list(dict.fromkeys(_named(change.part) for change in changes if change.what == "left out"))
        words = [_change_words(change, say) for change in changes if change.what != "left out"]
        if gone:
            words.append(f"{gone[0] if len(gone) == 1 else ', '.join(gone[:-1]) + ' and ' + gone[-1]} left out")
        sentences.append(f"{planned.order.name}: {'; '.join(words)}, {reason}.")
    return sentences


def _division_words(planned: PlannedTier, say: Formatter) -> str:
    chosen = planned.division
    if not planned.marked:
        return f"{chosen.repeats} repeats of {say.length(chosen.width_mm)}, nothing to mark with a cutter"
    hung = planned.first_hung
    assert hung is not None
    name = hung.asked_kind.name if chosen.repeats * hung.layers == 1 else hung.asked_kind.plural
    how = f"with the {say.length(chosen.cutter_mm)} cutter" if planned.by_cutter and chosen.cutter_mm else "marked from a paper strip"
    return f"{chosen.repeats} {name} of {say.length(chosen.width_mm)}, {how}, drop {say.length(planned.drop_mm)}"


def _named(part: Part) -> str:
    kind = KINDS[part.kind]
    name = kind.plural if kind.curve == "piece" else kind.name
    return f"the {name} {PLACES[part.place]}" if part.place in PLACES else f"the {name}"


def _change_words(change: Change, say: Formatter) -> str:
    row, before, after = _named(change.part), change.before, change.after
    if isinstance(after, Tip):
        return f"{row} from {after.name}" + (f" instead of {before.name}" if isinstance(before, Tip) else "")
    if change.what == "drop":
        was = f" instead of {say.length(before)}" if isinstance(before, float) and before else ""
        return f"{row} {say.length(float(after or 0.0))} deep{was}"
    if change.what == "layers":
        return f"{row} {_TIMES[after]} instead of {_TIMES[before]}"
    if change.what == "number":
        return f"{row}: {after} at each instead of {before}"
    return f"{row} placed again"


def _reason(change: Change, planned: PlannedTier, say: Formatter) -> str:
    match change.why:
        case "ledge":
            return "for want of room on its top"
        case "fit":
            return f"to suit {planned.division.repeats} repeats of {say.length(planned.division.width_mm)}"
    return f"for want of room on a side {say.length(planned.height_mm)} high"


def _scale_words(fitted: Fitted) -> list[str]:
    """Which tips differ from the usual ones because of the size of the tiers."""
    other: dict[str, str] = {}
    for part in fitted.scheme.parts:
        usual, now = tip_for(part, 1.0), tip_for(part, fitted.scale)
        if usual != now and any(row.kind == part.kind and row.place == part.place for tier in fitted.tiers for row in tier.rows):
            other[usual.name] = now.name
    if not other:
        return []
    way = "Finer" if fitted.scale < 1 else "Wider"
    some = ", ".join(f"{now} for {usual}" for usual, now in list(other.items())[:SOME_TIPS])
    return [f"{way} tips than usual, for tiers of this size{', such as' if len(other) > SOME_TIPS else ':'} {some}."]
