"""What must be said beside a timetable about temperature, time and keeping."""

from __future__ import annotations

from collections.abc import Sequence

from calc import units
from calc.buttercream import RECIPES
from calc.timetable.cake_work import OUT_MOST_MIN, REST_MIN
from calc.timetable.cold import TimeOut


def cautions(
    recipe: str,
    out: Sequence[TimeOut] = (),
    limit_min: float = OUT_MOST_MIN,
    unit_system: str = "metric",
    warmed: bool = False,
) -> tuple[str, ...]:
    """Give the usual cautions about temperature and keeping that belong beside a timetable.

    `out` is the time outside the fridge of each tier, against the limit chosen and the usual two hours (fsis-2-hour, food-code,
    si-2013-2996); `warmed` says that buttercream comes back from the fridge; raw egg follows egg-advice. The advice is for home kitchens
    in the US and England; your own rules come first.

    >>> any("2 hours" in text for text in cautions("plain"))
    True
    """
    egg = any(kind.startswith("egg") for kind in RECIPES[recipe].cautions)
    say = units.Formatter(unit_system)
    cold, hot, cooked = say.temperature(5, 41), say.temperature(32, 90), say.temperature(71, 160)
    sentences = [
        f"Made-ahead limits here are common practice, not a safety rule. Keep a filled or coated cake at {cold} "
        "or less; England allows food premises up to 8 °C (46 °F). Your local food authority's rules come first."
    ]
    longest = max((tier.longest_min for tier in out), default=0.0)
    total = max((tier.total_min for tier in out), default=0.0)
    usual = f"The usual advice for perishable food is 2 hours at most in all, 1 hour above {hot}."
    if longest > limit_min:
        sentences.append(
            f"A tier is out of the fridge for {say.duration(longest)} at one time, and you allow {say.duration(limit_min)}. {usual} "
            "No chill fits in between: keep it cold on the road and where it stands, bring it out later, or do less at the venue."
        )
    if total > OUT_MOST_MIN:
        sentences.append(
            f"All its time out of the fridge together is up to {say.duration(total)} for a tier. {usual} A chill of {say.duration(REST_MIN)} "
            "between two spells makes the side firm; whether you may then start counting again depends on what is in the cake. Filled with cream, "
            "cream cheese, custard, curd or fresh fruit, you may not: pipe such a cake in short spells, on the day. Ask your food authority."
        )
    elif longest <= limit_min:
        sentences.append(f"Out of the fridge: {usual} Count the drive, the softening and the time on the table.")
    if warmed:
        sentences.append(
            f"Buttercream that waited overnight stays in the fridge until it is warmed: about {RECIPES[recipe].keeping.fridge_days} days by common "
            "practice, and never longer than your local rules allow. Throw away what smells or tastes of anything but butter and sugar."
        )
    if egg:
        sentences.append(
            f"Heat the egg whites to {cooked} or use pasteurised whites; raw egg is a risk to the very young, the old, the pregnant and the ill."
        )
    return tuple(sentences)
