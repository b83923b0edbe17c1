"""The usual tasks of a cake and how long each takes. It may import `units`, `sources` and `buttercream`.

Map
---
`TierWork`, `RowWork`   what a timetable must know of a tier and of a row of piping
`cake_tasks`            the tasks of a cake, with what each needs first
`coated_area_dm2`       the area a coat covers
`cautions`              the advice on temperature and keeping that belongs beside a timetable
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc import units
from calc.buttercream import BATCH_G, RECIPES
from calc.sources import constant
from calc.timetable.tasks import DAY_MIN, Task

BAKE_MIX_MIN = constant(25, "min", "common-practice", "weigh, mix and fill the tins of one tier")
BAKE_MIN = constant(35, "min", "common-practice", "in the oven, a tier of 15 cm in tins 5 cm deep", low=25, high=60)
BAKE_MIN_PER_CM = constant(1.5, "min/cm", "common-practice", "longer in the oven for each cm a tin is wider than 15 cm")
COOL_MIN = constant(120, "min", "common-practice", "until a sponge is cold enough to wrap or fill", low=60, high=180)
LEVEL_MIN_PER_LAYER = constant(4, "min", "common-practice", "level and split, for each layer")
FILL_MIN_PER_LAYER = constant(5, "min", "common-practice", "spread and stack, for each layer")
CHILL_SHORT_MIN = constant(30, "min", "common-practice", "in the fridge, until a filling or a crumb coat is firm", low=20, high=45)
CHILL_COAT_MIN = constant(60, "min", "common-practice", "in the fridge, until a final coat is hard enough to mark", low=45, high=120)
CRUMB_MIN_PER_DM2 = constant(1.2, "min/dm2", "common-practice", "crumb coat, by area coated, besides setting up")
FINAL_MIN_PER_DM2 = constant(2.4, "min/dm2", "common-practice", "final coat with a scraper and disc, by area coated, besides setting up")
SET_UP_MIN = constant(8, "min", "common-practice", "cake, turntable and bowls set up and cleared, for each coat")
MARK_MIN = constant(10, "min", "common-practice", "tape, divide and mark one tier")
STACK_MIN = constant(15, "min", "common-practice", "set supports and one tier on the one below")
BOARD_MIN = constant(15, "min", "common-practice", "clean or cover the boards and cut the supports")
TINT_MIN = constant(6, "min", "common-practice", "tint one colour, besides the time it deepens")
BAG_MIN = constant(3, "min", "common-practice", "fit a tip and fill one bag")
DEEPEN_MIN = constant(60, "min", "common-practice", "a tint goes on deepening while it stands", low=30, high=240)
ROW_SET_UP_MIN = constant(3, "min", "common-practice", "take up the bag and try the line, for each row")
ROW_AROUND = constant(2.0, "-", "common-practice", "a row over its squeezing alone: turn, look, wipe, fill up, mend", low=1.5, high=3.0)
PACK_MIN = constant(15, "min", "common-practice", "box the cake and load it level")
SET_MIN = constant(30, "min", "common-practice", "in the fridge, until the piping is firm enough to move")
TEMPER_MIN = constant(
    60,
    "min",
    "common-practice",
    "out of the fridge before it is eaten, so that the buttercream softens",
    low=30,
    high=120,
)
OUT_MOST_MIN = constant(120, "min", "fsis-2-hour", "perishable food out of the fridge, in all; 60 min above 90 F (32 C)", group="measured")
SPONGE_KEEPS_MIN = constant(2 * DAY_MIN, "min", "common-practice", "baked sponge, wrapped and cool, until it is filled")
COATED_KEEPS_MIN = constant(
    3 * DAY_MIN,
    "min",
    "common-practice",
    "filled and coated cake in the fridge, until it is eaten",
    low=2 * DAY_MIN,
    high=4 * DAY_MIN,
)
PIPED_KEEPS_MIN = constant(
    2 * DAY_MIN,
    "min",
    "common-practice",
    "piped cake in the fridge, until it is eaten; strings and flowers dull sooner",
)
BAGS_KEEP_MIN = constant(1 * DAY_MIN, "min", "common-practice", "tinted buttercream in bags, in the fridge, until it is piped")


@dataclass(frozen=True)
class TierWork:
    """What the timetable must know of a tier: its name, the sponge's width and height, and its layers."""

    name: str
    width_mm: float
    height_mm: float
    layers: int = 3


@dataclass(frozen=True)
class RowWork:
    """What the timetable must know of a row of piping: its name, its tier (0 is the lowest) and its minutes.

    The minutes are those in which the bag is squeezed, as `calc.rows` gives them, or all the work of the row when `all_in`.
    """

    name: str
    tier: int
    time_min: float
    all_in: bool = False


def _up_to_five(time_min: float) -> float:
    """A time rounded up to the next five minutes, as plans are written."""
    return float(5 * math.ceil(time_min / 5 - 1e-9))


def coated_area_dm2(tier: TierWork) -> float:
    """Give the area that a coat covers, side and top, as if the tier were round.

    Formula: area = pi d h + pi d^2 / 4.

    Parameters
    ----------
    tier : TierWork
        Width d and height h of a tier [mm]

    Returns
    -------
    float
        Area of side and top [dm2]

    Range: for times only; another outline makes a difference of a few minutes. Raises ValueError unless both sizes are positive.

    Example
    -------
    >>> round(coated_area_dm2(TierWork("upper", 150, 100)), 2)
    6.48

    Source: geometry (side and end of a cylinder)
    """
    if tier.width_mm <= 0 or tier.height_mm <= 0:
        raise ValueError("a tier has a positive width and height")
    return math.pi * tier.width_mm * (tier.height_mm + tier.width_mm / 4) / 1e4


def cake_tasks(
    tiers: Sequence[TierWork],
    rows: Sequence[RowWork] = (),
    buttercream_g: float = 0.0,
    recipe: str = "plain",
    colours: int = 1,
    bags: int = 0,
    bake: bool = True,
    travel_min: float = 0.0,
    stack_first: bool = True,
    buttercream_keeps_min: float | None = None,
    temper_min: float = TEMPER_MIN,
    spare_min: float = 0.0,
) -> tuple[Task, ...]:
    """List the usual tasks of a cake: bake, cool, fill, coat, stack, mark, tint, pipe, set, bring out.

    Formula: minutes = set-up + minutes per dm2 x area for a coat, minutes per layer for filling, batches = mass / 2 kg
    for buttercream, twice the squeezing of a row and 3 minutes to take up the bag; all rounded up to five minutes.

    Parameters
    ----------
    tiers : sequence of TierWork
        Tiers from the lowest up [mm]
    rows : sequence of RowWork
        Rows in the order they are piped [min]
    buttercream_g : float
        All the buttercream [g]
    recipe : str
        A key of `calc.buttercream.RECIPES`: how long it takes and how long it keeps [-]
    colours : int
        Colours to tint [-]
    bags : int
        Bags to fill; 0 counts one for each row [-]
    bake : bool
        Bake the sponges, or buy them [-]
    travel_min : float
        Time on the road, 0 when the cake stays [min]
    stack_first : bool
        Stack before piping; otherwise each tier is piped alone and stacked after [-]
    buttercream_keeps_min : float
        How long the buttercream keeps in the fridge before use; None takes the recipe's own [min]
    temper_min : float
        How long the cake stands out of the fridge before it is eaten [min]
    spare_min : float
        Time kept free against mishaps, the finished cake in the fridge [min]

    Returns
    -------
    tuple of Task
        Tasks with their needs, for `schedule` [min]

    Range: any cake of one tier or more. The minutes are those of a steady worker; replace them with your own. Raises ValueError
    without a tier, for a row on a tier that does not exist, and for an unknown recipe.

    Example
    -------
    >>> tasks = cake_tasks((TierWork("cake", 150, 100),), (RowWork("shells", 0, 12),), 900)
    >>> [task.name for task in tasks][:3], math.fsum(task.hands_min for task in tasks)
    (['Bake: cake', 'Cool: cake', 'Boards and supports'], 205.0)

    Source: common-practice
    """
    if not tiers:
        raise ValueError("a cake has one tier or more")
    if recipe not in RECIPES:
        raise ValueError(f"buttercream is one of {', '.join(RECIPES)}")
    if any(not 0 <= row.tier < len(tiers) for row in rows):
        raise ValueError("a row is on a tier that does not exist")
    tasks: list[Task] = []
    for i, tier in enumerate(tiers):
        if bake:
            tasks.extend(_baking(i, tier))
    tasks.append(Task("boards", "Boards and supports", _up_to_five(BOARD_MIN + 5 * (len(tiers) - 1))))
    tasks.append(_buttercream(recipe, buttercream_g, buttercream_keeps_min))
    for i, tier in enumerate(tiers):
        tasks.extend(_coating(i, tier, bake))
    stacked = len(tiers) > 1
    before_stack = tuple(f"coat{i}" for i in range(len(tiers)))
    if stacked and stack_first:
        tasks.append(_stacking(len(tiers), before_stack))
    if rows:
        tasks.extend(_bags(max(1, colours), bags or len(rows)))
    last = {i: "stack" if stacked and stack_first else f"coat{i}" for i in range(len(tiers))}
    for i, tier in enumerate(tiers):
        if any(row.tier == i for row in rows):
            name = f"Tape, divide and mark: {tier.name}"
            tasks.append(Task(f"mark{i}", name, _up_to_five(MARK_MIN), needs=(last[i],), tier=tier.name))
            last[i] = f"mark{i}"
    previous = ""
    for k, row in enumerate(rows):
        needs = [last[row.tier], "bags"]
        if stacked and stack_first and previous:  # one cake on one turntable: row after row
            needs.append(previous)
        name = f"Pipe: {row.name}"
        minutes = row.time_min if row.all_in else ROW_AROUND * row.time_min + ROW_SET_UP_MIN
        tasks.append(Task(f"row{k}", name, _up_to_five(max(1.0, minutes)), needs=tuple(dict.fromkeys(needs)), tier=tiers[row.tier].name))
        previous = last[row.tier] = f"row{k}"
    done = tuple(dict.fromkeys(last.values()))
    if stacked and not stack_first:
        tasks.append(_stacking(len(tiers), done))
        done = ("stack",)
    tasks.extend(_finish(done, travel_min, temper_min, spare_min))
    return tuple(tasks)


def _baking(i: int, tier: TierWork) -> tuple[Task, Task]:
    """Bake and cool one tier."""
    wider_cm = max(0.0, (tier.width_mm - 150) / 10)
    note = "Wrap it once it is cold. Frozen and well wrapped it keeps for weeks."
    return (
        Task(f"bake{i}", f"Bake: {tier.name}", _up_to_five(BAKE_MIX_MIN), _up_to_five(BAKE_MIN + BAKE_MIN_PER_CM * wider_cm),
             place="oven", attended=True, pausable=False, tier=tier.name, note="Turn out after 10 minutes on a rack."),
        Task(f"cool{i}", f"Cool: {tier.name}", 0, COOL_MIN, (f"bake{i}",), "room", keeps_min=SPONGE_KEEPS_MIN,
             tier=tier.name, note=note),
    )  # fmt: skip


def _buttercream(recipe: str, mass_g: float, keeps_min: float | None) -> Task:
    """Make all the buttercream, in as many batches as a mixer needs."""
    made = RECIPES[recipe]
    batches = max(1, math.ceil(mass_g / BATCH_G - 1e-9))
    name = "Make the buttercream" + (f", {batches} batches" if batches > 1 else "")
    keeps = made.keeping.fridge_days * DAY_MIN if keeps_min is None else keeps_min
    return Task("buttercream", name, _up_to_five(batches * made.hands_min), made.wait_min,
                place="room" if made.wait_min else "", keeps_min=keeps, note=made.keeping.note)  # fmt: skip


def _coating(i: int, tier: TierWork, bake: bool) -> tuple[Task, Task, Task]:
    """Fill, crumb coat and final coat of one tier."""
    area = coated_area_dm2(tier)
    sponge = (f"cool{i}",) if bake else ()
    fill = _up_to_five((LEVEL_MIN_PER_LAYER + FILL_MIN_PER_LAYER) * tier.layers)
    crumb = _up_to_five(SET_UP_MIN + CRUMB_MIN_PER_DM2 * area)
    final = _up_to_five(SET_UP_MIN + FINAL_MIN_PER_DM2 * area)
    return (
        Task(f"fill{i}", f"Level, fill and build: {tier.name}", fill, CHILL_SHORT_MIN,
             (*sponge, "buttercream", "boards"), "fridge", tier=tier.name),
        Task(f"crumb{i}", f"Crumb coat: {tier.name}", crumb, CHILL_SHORT_MIN, (f"fill{i}",), "fridge", tier=tier.name),
        Task(f"coat{i}", f"Final coat: {tier.name}", final, CHILL_COAT_MIN, (f"crumb{i}",), "fridge",
             keeps_min=COATED_KEEPS_MIN, keeps_until="ready", tier=tier.name),
    )  # fmt: skip


def _stacking(tiers: int, needs: tuple[str, ...]) -> Task:
    return Task("stack", "Stack the tiers", _up_to_five(STACK_MIN * (tiers - 1)), needs=needs, pausable=False,
                note="Two people for a lift that one cannot hold steady at arm's length.")  # fmt: skip


def _bags(colours: int, bags: int) -> tuple[Task, Task]:
    return (
        Task("tint", f"Tint {colours} colour{'s' if colours > 1 else ''}", _up_to_five(TINT_MIN * colours), DEEPEN_MIN,
             ("buttercream",), "room", note="Tints go on deepening: look again before you fill the bags."),
        Task("bags", f"Fit tips, fill {bags} bag{'s' if bags > 1 else ''}", _up_to_five(BAG_MIN * bags), needs=("tint",),
             keeps_min=BAGS_KEEP_MIN),
    )  # fmt: skip


def _finish(done: tuple[str, ...], travel_min: float, temper_min: float, spare_min: float) -> list[Task]:
    tasks = [Task("set", "Look it over, mend, chill until set", 10, SET_MIN, done, "fridge",
                  keeps_min=PIPED_KEEPS_MIN, keeps_until="ready")]  # fmt: skip
    if spare_min > 0:
        tasks.append(Task("spare", "Kept free against mishaps", 0, spare_min, ("set",), "fridge", buffer=True))
    if travel_min > 0:
        tasks.append(Task("pack", "Box and load", _up_to_five(PACK_MIN), needs=(tasks[-1].key,), pausable=False, any_hour=True))
        tasks.append(
            Task(
                "travel",
                "On the road",
                _up_to_five(travel_min),
                needs=("pack",),
                pausable=False,
                any_hour=True,
                note="Level, cool and out of the sun.",
            )
        )
    name = "Set it up and let it soften" if travel_min > 0 else "Out of the fridge to soften"
    tasks.append(Task("out", name, 5, temper_min, (tasks[-1].key,), "room", any_hour=True))
    return tasks


def cautions(recipe: str = "plain", temper_min: float = TEMPER_MIN, travel_min: float = 0.0, unit_system: str = "metric") -> tuple[str, ...]:
    """Give the usual cautions about temperature and keeping that belong beside a timetable.

    Time out of the fridge is travel without cooling plus softening, against two hours (fsis-2-hour, food-code, si-2013-2996); raw egg
    follows egg-advice. The advice is for home kitchens in the US and England; your own rules come first.

    >>> any("2 hours" in text for text in cautions("plain", temper_min=150))
    True
    """
    egg = any(kind.startswith("egg") for kind in RECIPES[recipe].cautions)
    say = units.Say(unit_system)
    cold, hot, cooked = say.temperature(5, 41), say.temperature(32, 90), say.temperature(71, 160)
    sentences = [
        f"Made-ahead limits here are common practice, not a safety rule. Keep a filled or coated cake at {cold} "
        "or less; England allows food premises up to 8 °C. Your local food authority's rules come first."
    ]
    out = temper_min + travel_min
    if out > OUT_MOST_MIN:
        sentences.append(
            f"The cake is out of the fridge for {say.duration(out)} before it is eaten. The usual advice for "
            f"perishable food is 2 hours at most, 1 hour above {hot}. Keep it cool on the road or bring it out "
            "later."
        )
    else:
        sentences.append(
            f"Out of the fridge, the usual advice for perishable food is 2 hours at most in all, 1 hour above {hot}: "
            "count the road, the softening and the table."
        )
    if egg:
        sentences.append(
            f"Heat the egg whites to {cooked} or use pasteurised whites; raw egg is a risk to the very young, the old, the pregnant and the ill."
        )
    return tuple(sentences)
