"""The ways to divide a side, in words: why each stands where it does among the others, and what can be pressed to take it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from calc.calculators.declare import Press
from calc.division import GAP_COVERED_MM, Division
from calc.sources import constant
from calc.units import Formatter, read_quantity

SEEN_MM = constant(0.5, "mm", "common-practice", "a change too small to see or to mark is not mentioned")
TOLD_MM = constant(0.1, "mm", "common-practice", "a gap smaller than this does not matter at the bench")
STRETCH_SEEN_PERCENT = constant(5.0, "%", "common-practice", "a shell stretched or squeezed by less looks like its neighbours on another row")
OF_WHAT_HANGS = ("narrow", "wide", "drop", "shallow", "room")  # points that say nothing where nothing hangs
MOST_SHOWN = 5  # ways to divide that a table lists


def why(
    choice: Division,
    say: Formatter,
    *,
    is_first: bool = False,
    has_corners: bool = False,
    pieces: str = "pieces",
    below: str = "",
    hangs: bool = True,
) -> str:
    """Say why a way to divide stands where it does: for the first, what speaks for it; for the others, first what puts them behind. `below` names
    the tier that it is fitted to; without `hangs` nothing is said of what hangs between the joints."""
    good = _in_favour(choice, say, pieces, below, hangs)
    bad = [words for _, words in sorted(_against(choice, say, pieces, below, hangs), key=lambda one: -one[0])]
    if has_corners and "corners" not in choice.reasons:
        good.append("a joint on every corner")
    if is_first:
        return "; ".join(good + bad) or ("as wide as swags usually are" if hangs else "as far apart as joints usually are")
    if not bad:
        return "; ".join(["little behind the first", *good])
    return "; ".join([*bad, "but " + ", ".join(good)] if good else bad)


def _in_favour(choice: Division, say: Formatter, pieces: str, below: str, hangs: bool) -> list[str]:
    found = []
    if choice.cutter_mm is not None and choice.gap_mm <= GAP_COVERED_MM:
        cutter = f"the {say.length(choice.cutter_mm)} cutter"
        if choice.gap_mm >= TOLD_MM:
            found.append(f"{cutter} closes except for {say.length(choice.gap_mm)}, which the piping covers")
        else:
            found.append(f"closes exactly with {cutter}")
    weighs = dict(choice.points)
    if hangs and "shallow" not in weighs and not choice.wanted_drop_mm:
        found.append("hangs full")
    if choice.wanted_drop_mm and abs(choice.drop_mm - choice.wanted_drop_mm) < SEEN_MM:
        found.append("the drop you asked for")
    if "at front" in weighs:
        found.append("a joint at the front")
    if choice.wanted_width_mm and (below or not choice.wanted_drop_mm) and abs(choice.width_mm - choice.wanted_width_mm) < SEEN_MM:
        found.append(
            f"in proportion to {below}" if below else "as wide as swags usually are here" if hangs else "as far apart as joints usually are here"
        )
    if "pieces" in weighs and abs(choice.piece_stretch_percent) < STRETCH_SEEN_PERCENT:
        found.append(f"{pieces} meet the joints")
    found += [f"{name} meet the joints" for name, stretch in choice.also if abs(stretch) < STRETCH_SEEN_PERCENT]
    return found


def _against(choice: Division, say: Formatter, pieces: str, below: str, hangs: bool) -> list[tuple[float, str]]:
    found: list[tuple[float, str]] = []
    for name, weight in choice.points:
        if not hangs and name in OF_WHAT_HANGS:
            continue
        match name:
            case "width" if choice.wanted_width_mm:
                off = choice.width_mm - choice.wanted_width_mm
                if abs(off) < SEEN_MM:
                    continue
                than = f"is in proportion to {below}" if below else "suits that drop" if choice.wanted_drop_mm else "is usual on such a side"
                more, less = ("wider", "narrower") if hangs else ("further apart", "closer together")
                words = f"{say.length(abs(off))} {more if off > 0 else less} than {than}"
            case "narrow":
                words = "narrow, fiddly to pipe"
            case "wide":
                words = "wide, hard to pipe in one go"
            case "drop" if choice.wanted_drop_mm:
                off = choice.drop_mm - choice.wanted_drop_mm
                if abs(off) < SEEN_MM:
                    continue
                words = f"{say.length(abs(off))} {'deeper' if off > 0 else 'shallower'} than you asked"
            case "gap" if choice.cutter_mm:
                words = f"the {say.length(choice.cutter_mm)} cutter leaves a gap of {say.length(choice.gap_mm)} at every joint"
            case "shallow":
                words = "looks flat" if "shallow" in choice.reasons else "hangs a little flat"
            case "room":
                words = "too deep for the room under the joints"
            case "pieces":
                stretch = choice.piece_stretch_percent
                if abs(stretch) < STRETCH_SEEN_PERCENT:
                    continue
                words = stretched_words(pieces, stretch)
            case "front":
                words = "no joint at the front"
            case "corners":
                words = "leaves a corner without a joint"
            case _:
                continue
        found.append((weight, words))
    found += [(abs(stretch) / 30, stretched_words(name, stretch)) for name, stretch in choice.also if abs(stretch) >= STRETCH_SEEN_PERCENT]
    return found


def stretched_words(pieces: str, stretch_percent: float) -> str:
    """What is done to pieces so that they meet the joints."""
    return f"{pieces} {'stretched' if stretch_percent > 0 else 'squeezed'} by {abs(stretch_percent):.0f} % to meet the joints"


def shown_choices(choices: Sequence[Division], taken: Division, different: bool = False) -> list[tuple[int, Division]]:
    """The first few of the ways to divide, each with its rank from 0; the one taken is among them. `different` tells each number of repeats once."""
    found: list[tuple[int, Division]] = []
    seen: set[object] = set()
    for rank, choice in enumerate(choices):
        key = choice.repeats if different else (choice.repeats, choice.cutter_mm)
        is_taken = choice == taken
        if key in seen or different and choice.repeats == taken.repeats and not is_taken:
            continue
        if is_taken or len(found) < MOST_SHOWN - (not any(one == taken for _, one in found)):
            seen.add(key)
            found.append((rank, choice))
    return found


def exact_length(length_mm: float, say: Formatter) -> str:
    """Write a length so that it reads back as the same: as the reader would, or in millimetres where that is rounded."""
    text = say.length(length_mm)
    return text if abs(read_quantity(text, "length", "", "") - length_mm) < 0.01 else f"{length_mm:.6g} mm"


def choice_words(choice: Division, say: Formatter) -> str:
    """A way to divide in a few words: "10 repeats with the 7.5 cm cutter"."""
    return f"{choice.repeats} repeats" + (f" with the {say.length(choice.cutter_mm)} cutter" if choice.cutter_mm else "")


def take(choice: Division, say: Formatter, sets: Mapping[str, str], whose: str = "") -> Press:
    """What can be pressed to take a way to divide."""
    with_cutter = f" with {say.length(choice.cutter_mm)}" if choice.cutter_mm and len(sets) > 1 else ""
    done = f"{whose}: {choice_words(choice, say)}." if whose else f"{choice_words(choice, say)}."
    return Press(f"Use {choice.repeats}{with_cutter}", sets, done=f"{done} All that follows is worked out from that.")
