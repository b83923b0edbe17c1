"""The usual tasks of a cake and how long each takes. It may import `units`, `sources` and `buttercream`.

Map
---
`TierWork`, `RowWork`   what a timetable must know of a tier and of a row of piping
`CakeJob`               what it must know of a cake
`PACE`                  how quick a hand is
`cake_tasks`            the tasks of a cake, with what each needs first, and a chill wherever a spell outside the fridge would grow too long
`coated_area_dm2`       the area a coat covers
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from calc.buttercream import BATCH_G, RECIPES
from calc.portions import levels
from calc.sources import constant
from calc.timetable.oven import Oven, oven_loads
from calc.timetable.tasks import DAY_MIN, Task

BAKE_MIX_MIN = constant(25, "min", "common-practice", "weigh, mix and fill the tins of one load")
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
ROW_SET_UP_MIN = constant(6, "min", "from-memory", "take up the bag, try the line, clean the board after it, for each row", low=3, high=10)
ROW_AROUND = constant(
    5.0, "-", "from-memory", "a row over its squeezing alone, by a practised hand: turn, look, wipe, fill up, rest, mend", low=3.0, high=8.0
)
LEARNING = constant(1.75, "-", "from-memory", "times of a hand that is learning, over those of a practised one", low=1.4, high=2.5)
QUICK = constant(0.7, "-", "from-memory", "times of a hand that does it every day, over those of a practised one", low=0.6, high=0.8)
PACK_MIN = constant(15, "min", "common-practice", "box the cake and load it level")
BOX_MIN = constant(5, "min", "common-practice", "each box more than one")
CARRY_MIN = constant(5, "min", "common-practice", "carry a tier to where it will stand, when the cake stays in the house")
REST_MIN = constant(
    60,
    "min",
    "common-practice",
    "in the fridge between two spells outside it, until the side is firm and cold again; the middle takes longer",
    low=30,
    high=120,
)
WARM_MIN = constant(
    60, "min", "common-practice", "buttercream out of the fridge before it is beaten again: a small bowl; a bucket takes a night", low=45, high=120
)
BEAT_MIN = constant(10, "min", "common-practice", "beat what the day needs again until it is smooth", low=3, high=20)
KNEAD_MIN = constant(30, "min", "common-practice", "filled bags out of the fridge, kneaded now and then, until they pipe", low=20, high=60)
SET_MIN = constant(30, "min", "common-practice", "in the fridge, until the piping is firm enough to move")
TEMPER_MIN = constant(
    60,
    "min",
    "common-practice",
    "out of the fridge before it is eaten, so that the buttercream softens",
    low=30,
    high=120,
)
OUT_MOST_MIN = constant(120, "min", "fsis-2-hour", "perishable food out of the fridge; 60 min above 90 F (32 C)", group="measured")
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


PACE = {"learning": float(LEARNING), "practised": 1.0, "quick": float(QUICK)}


@dataclass(frozen=True)
class TierWork:
    """What the timetable must know of a tier: its name, the sponge's width, height and length (None is its width), and its layers."""

    name: str
    width_mm: float
    height_mm: float
    layers: int = 3
    length_mm: float | None = None


@dataclass(frozen=True)
class RowWork:
    """What the timetable must know of a row of piping: its name, its tier (0 is the lowest) and its minutes.

    The minutes are those in which the bag is squeezed, as `calc.rows` gives them, or all the work of the row when `all_in`.
    `joint` says that it closes the joint between two tiers, so that it waits until they are stacked. `bag` names what it is piped from.
    """

    name: str
    tier: int
    time_min: float
    all_in: bool = False
    joint: bool = False
    bag: str = ""


@dataclass(frozen=True)
class CakeJob:
    """What the timetable must know of a cake; tiers from the lowest up, rows in the order they are piped.

    `stacked` is "before" piping or "after" it, both at home, or "venue". `bags` 0 counts one for each row. `buttercream_keeps_min` None takes
    the recipe's own time in the fridge. `temper_min` is how long the cake stands outside the fridge before it is eaten, `spare_min` what is
    kept free in case of mishaps. `hand` is a key of `PACE`. `out_limit_min` is the longest spell outside the fridge.
    """

    tiers: tuple[TierWork, ...]
    rows: tuple[RowWork, ...] = ()
    buttercream_g: float = 0.0
    recipe: str = "plain"
    colours: int = 1
    bags: int = 0
    bake: bool = True
    travel_min: float = 0.0
    stacked: str = "before"
    buttercream_keeps_min: float | None = None
    temper_min: float = float(TEMPER_MIN)
    spare_min: float = 0.0
    hand: str = "practised"
    out_limit_min: float = float(OUT_MOST_MIN)
    oven: Oven = Oven()

    def __post_init__(self) -> None:
        if not self.tiers:
            raise ValueError("a cake has one tier or more")
        if self.recipe not in RECIPES:
            raise ValueError(f"buttercream is one of {', '.join(RECIPES)}")
        if any(not 0 <= row.tier < len(self.tiers) for row in self.rows):
            raise ValueError("a row is on a tier that does not exist")
        if self.stacked not in ("before", "after", "venue") or self.hand not in PACE:
            raise ValueError(f"tiers are stacked before, after or venue, by a hand that is {', '.join(PACE)}")

    @property
    def stacking(self) -> str:
        """Where the tiers are stacked; nothing where there is one."""
        return self.stacked if len(self.tiers) > 1 else ""

    def by_hand(self, minutes: float) -> float:
        """Minutes of a practised hand converted to this hand's, rounded up to five, as plans are written."""
        return _up_to_five(PACE[self.hand] * minutes)

    def row_min(self, row: RowWork) -> float:
        """All the work of a row [min]."""
        if row.all_in:
            return _up_to_five(max(1.0, row.time_min))
        return self.by_hand(ROW_AROUND * row.time_min + ROW_SET_UP_MIN)

    def bag_of(self, index: int) -> str:
        """What a row is piped from: rows with the same name share a bag."""
        row = self.rows[index]
        return row.bag or (f"bag {index * self.bags // len(self.rows)}" if self.bags else f"row {index}")


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
    across = math.sqrt(tier.width_mm * (tier.length_mm or tier.width_mm))
    return math.pi * across * (tier.height_mm + across / 4) / 1e4


def cake_tasks(job: CakeJob, longest_min: float = DAY_MIN) -> tuple[Task, ...]:
    """List the usual tasks of a cake: bake, cool, fill, coat, stack, mark, tint, pipe, set, bring out.

    Formula: minutes = set-up + minutes per dm2 x area for a coat, minutes per layer for filling, batches = mass / 2 kg for buttercream,
    five times the squeezing of a row and 6 minutes, all times the pace of the hand, rounded up to five minutes. What is done to a tier
    outside the fridge is cut into spells no longer than the limit and a working day, each followed by a chill; the bags of a spell are
    filled before it begins.

    Parameters
    ----------
    job : CakeJob
        The cake [-]
    longest_min : float
        The longest stretch of working hours [min]

    Returns
    -------
    tuple of Task
        Tasks with their needs, for `schedule` [min]

    Range: any cake of one tier or more. Leaves out: the drive, the set-up and the softening, which come in one spell however long it is. The
    minutes are those of a steady worker; replace them with your own.

    Example
    -------
    >>> tasks = cake_tasks(CakeJob((TierWork("cake", 150, 100),), (RowWork("shells", 0, 12),), 900))
    >>> [task.name for task in tasks][:3], math.fsum(task.hands_min for task in tasks)
    (['Bake: cake', 'Cool: cake', 'Boards and supports'], 245.0)

    Source: common-practice, from-memory (the pace of hands)
    """
    # a spell fits into a working day even when buttercream is beaten just before it
    cap = max(5.0, 5.0 * math.floor(min(job.out_limit_min, longest_min - BEAT_MIN) / 5 + 1e-9))
    tasks: list[Task] = []
    if job.bake:
        for i, tier in enumerate(job.tiers):
            tasks.extend(_baking(i, tier, job.oven))
    tasks.append(Task("boards", "Boards and supports", _up_to_five(BOARD_MIN + 5 * (sum(levels(tier.height_mm) for tier in job.tiers) - 1))))
    tasks.append(_buttercream(job))
    done = {}
    for i in range(len(job.tiers)):
        coating = _coating(job, i, cap)
        tasks.extend(coating)
        done[i] = coating[-1].key
    if job.rows:
        tasks.append(
            Task("tint", f"Tint {job.colours} colour{'s' if job.colours > 1 else ''}", job.by_hand(TINT_MIN * max(1, job.colours)), DEEPEN_MIN,
                 ("buttercream",), "room", note="Tints go on deepening: look again before you fill the bags.", uses="buttercream")
        )  # fmt: skip
    tasks.extend(_decorating(job, cap, done))
    return tuple(tasks)


def _baking(i: int, tier: TierWork, oven: Oven) -> tuple[Task, ...]:
    """Bake the layers of one tier, load after load, and cool them."""
    wider_cm = max(0.0, (tier.width_mm - 150) / 10)
    loads = oven_loads(tier.width_mm, tier.length_mm or tier.width_mm, tier.layers, oven)
    bakes = tuple(
        Task(f"bake{i}" if k == 0 else f"bake{i}.{k + 1}", f"Bake: {tier.name}" + (f", load {k + 1} of {loads}" if loads > 1 else ""),
             _up_to_five(BAKE_MIX_MIN), _up_to_five(BAKE_MIN + BAKE_MIN_PER_CM * wider_cm), place="oven", attended=True, pausable=False,
             tier=tier.name, note="Turn out after 10 minutes on a rack.")
        for k in range(loads)
    )  # fmt: skip
    note = "Wrap it once it is cold. Frozen and well wrapped it keeps for weeks."
    cool = Task(f"cool{i}", f"Cool: {tier.name}", 0, COOL_MIN, tuple(bake.key for bake in bakes), "room", keeps_min=SPONGE_KEEPS_MIN,
                tier=tier.name, note=note)  # fmt: skip
    return (*bakes, cool)


def _batches(job: CakeJob) -> int:
    """How many batches a mixer makes of the buttercream."""
    return max(1, math.ceil(job.buttercream_g / BATCH_G - 1e-9))


def _buttercream(job: CakeJob) -> Task:
    """Make all the buttercream, in as many batches as a mixer needs."""
    made, batches = RECIPES[job.recipe], _batches(job)
    name = "Make the buttercream" + (f", {batches} batches" if batches > 1 else "")
    keeps = made.keeping.fridge_days * DAY_MIN if job.buttercream_keeps_min is None else job.buttercream_keeps_min
    return Task("buttercream", name, _up_to_five(batches * made.hands_min), made.wait_min,
                place="room" if made.wait_min else "", keeps_min=keeps, note=made.keeping.note)  # fmt: skip


def _coating(job: CakeJob, i: int, cap: float) -> list[Task]:
    """Fill, crumb coat and final coat of one tier, each followed by a chill."""
    tier = job.tiers[i]
    area = coated_area_dm2(tier)
    coats = (
        Task(f"fill{i}", f"Level, fill and build: {tier.name}", job.by_hand((LEVEL_MIN_PER_LAYER + FILL_MIN_PER_LAYER) * tier.layers),
             CHILL_SHORT_MIN, ((f"cool{i}",) if job.bake else ()) + ("buttercream", "boards")),
        Task(f"crumb{i}", f"Crumb coat: {tier.name}", job.by_hand(SET_UP_MIN + CRUMB_MIN_PER_DM2 * area), CHILL_SHORT_MIN, (f"fill{i}",)),
        Task(f"coat{i}", f"Final coat: {tier.name}", job.by_hand(SET_UP_MIN + FINAL_MIN_PER_DM2 * area), CHILL_COAT_MIN, (f"crumb{i}",),
             keeps_min=COATED_KEEPS_MIN, keeps_until="ready"),
    )  # fmt: skip
    found: list[Task] = []
    for coat in coats:
        needs = coat.needs if not found else (found[-1].key,)
        for part in _cut(replace(coat, needs=needs, place="fridge", pausable=False, tier=tier.name, out=(i,), uses="buttercream"), cap):
            found.append(replace(part, wait_min=coat.wait_min, needs=part.needs if part.needs else (found[-1].key,)))
    return found


def _cut(task: Task, cap: float) -> list[Task]:
    """A task cut into parts no longer than a cap, as even as five minutes allow; later parts need nothing yet."""
    count = math.ceil(task.hands_min / cap - 1e-9)
    if count <= 1:
        return [task]
    steps = round(task.hands_min / 5)
    sizes = [5.0 * (steps * (k + 1) // count - steps * k // count) for k in range(count)]
    return [
        replace(
            task,
            key=task.key if k == 0 else f"{task.key}.{k + 1}",
            name=f"{task.name}, part {k + 1} of {count}",
            hands_min=size,
            needs=task.needs if k == 0 else (),
            keeps_min=task.keeps_min if k + 1 == count else None,
        )
        for k, size in enumerate(sizes)
    ]


def _into_spells(tasks: Sequence[Task], cap: float) -> list[list[Task]]:
    """Tasks in their order, in as few spells as a cap allows, and those as even as can be."""
    parts = [part for task in tasks for part in _cut(task, cap)]

    def packed(most: float) -> list[list[Task]]:
        spells: list[list[Task]] = []
        left = 0.0
        for part in parts:
            if not spells or part.hands_min > left + 1e-9:
                spells.append([])
                left = most
            spells[-1].append(part)
            left -= part.hands_min
        return spells

    fewest = len(packed(cap))
    least = max((part.hands_min for part in parts), default=cap)
    caps = (least + 5 * k for k in range(math.ceil((cap - least) / 5) + 1))
    return next((spells for most in caps if len(spells := packed(min(most, cap))) == fewest), packed(cap))


class _Bench:
    """Collects what is done to coated tiers, spell by spell, and the bags that each spell needs."""

    def __init__(self, job: CakeJob, cap: float) -> None:
        self.job, self.cap = job, cap
        self.tasks: list[Task] = []
        self.filled = 0

    def spells(self, tasks: Sequence[Task], after: tuple[str, ...], out: tuple[int, ...]) -> str:
        """Add tasks done one after the other to what stands outside the fridge together; gives the key of the last."""
        spells = _into_spells(tasks, self.cap)
        for k, spell in enumerate(spells):
            self.spell(spell, after, out, REST_MIN if k + 1 < len(spells) or not spell[-1].wait_min else spell[-1].wait_min)
            after = (spell[-1].key,)
        return after[0]

    def spell(self, spell: Sequence[Task], after: tuple[str, ...], out: tuple[int, ...], wait_min: float, place: str = "fridge") -> None:
        """Add one spell: its bags first, then its tasks, each joined to the one before it."""
        bag_key = self._bags([task.uses for task in spell if task.uses])
        joins = ""
        for task in spell:
            last = task is spell[-1]
            needs = (*((joins,) if joins else after), *task.needs, *((bag_key,) if task.uses and bag_key else ()))
            self.tasks.append(
                replace(task, needs=tuple(dict.fromkeys(needs)), joins=joins, out=out, wait_min=wait_min if last else 0.0,
                        place=place if last else "", pausable=False, uses=bag_key if task.uses else "")
            )  # fmt: skip
            joins = task.key

    def _bags(self, wanted: Sequence[str]) -> str:
        """Add the filling of the bags that are wanted; gives its key, or nothing."""
        if not wanted:
            return ""
        self.filled += 1
        key, count = f"bags{self.filled if self.filled > 1 else ''}", len(set(wanted))
        name = f"Fit tips, fill {count} bag{'s' if count > 1 else ''}"
        self.tasks.append(Task(key, name, self.job.by_hand(BAG_MIN * count), needs=("tint",), keeps_min=BAGS_KEEP_MIN, uses="tint"))
        return key

    def row(self, index: int, any_hour: bool = False) -> Task:
        """A row as a task; until its bag is filled, `uses` names the bag."""
        row = self.job.rows[index]
        return Task(f"row{index}", f"Pipe: {row.name}", self.job.row_min(row), tier=self.job.tiers[row.tier].name,
                    any_hour=any_hour, uses=self.job.bag_of(index))  # fmt: skip

    def mark(self, tier: int) -> Task:
        """Marking one tier."""
        name = self.job.tiers[tier].name
        return Task(f"mark{tier}", f"Tape, divide and mark: {name}", self.job.by_hand(MARK_MIN), tier=name)

    def stack(self, any_hour: bool = False) -> Task:
        """Stacking all tiers."""
        where = " at the venue" if self.job.stacking == "venue" else ""
        return Task("stack", f"Stack the tiers{where}", self.job.by_hand(STACK_MIN * (len(self.job.tiers) - 1)), any_hour=any_hour,
                    note="Two people for a lift that one cannot hold steady at arm's length.")  # fmt: skip


def _look_over(key: str, name: str, minutes: float) -> Task:
    """The last look at what is piped, and the chill until it is firm enough to move."""
    return Task(key, name, minutes, SET_MIN, place="fridge", keeps_min=PIPED_KEEPS_MIN, keeps_until="ready")


def _decorating(job: CakeJob, cap: float, coated: Mapping[int, str]) -> list[Task]:
    """Stack, mark, pipe, look over, and all that comes after; `coated` is the last task on each tier so far."""
    bench = _Bench(job, cap)
    every, rows = tuple(range(len(job.tiers))), range(len(job.rows))
    apart = job.stacking in ("after", "venue")
    late = [k for k in rows if apart and job.rows[k].joint]
    marked = {job.rows[k].tier for k in rows if k not in late}
    done = tuple(coated.values())
    if not apart:
        work = ([bench.stack()] if job.stacking else []) + [bench.mark(i) for i in every if i in marked] + [bench.row(k) for k in rows]
        done = (bench.spells([*work, _look_over("set", "Look it over, mend, chill until set", 10)], done, every),)
    else:
        ends = []
        for i, tier in enumerate(job.tiers):
            early = [bench.row(k) for k in rows if job.rows[k].tier == i and k not in late]
            work = ([bench.mark(i)] if i in marked else []) + early
            if work:
                work.append(_look_over(f"set{i}", f"Look it over, mend, chill until set: {tier.name}", 5))
            ends.append(bench.spells(work, (coated[i],), (i,)) if work else coated[i])
        done = tuple(ends)
        if job.stacking == "after":
            work = [bench.stack(), *(bench.row(k) for k in late), _look_over("set", "Look it over, mend, chill until set", 10)]
            done = (bench.spells(work, done, every),)
    _finish(bench, done, every, late if job.stacking == "venue" else [])
    return bench.tasks


def _finish(bench: _Bench, done: tuple[str, ...], every: tuple[int, ...], late: Sequence[int]) -> None:
    """Keep some time free; box, drive, set up, stack and pipe there what is left, and let it soften: one spell, at any hour.

    No chill is put into this spell, however long it is. A stacked cake goes into few fridges, a venue's fridge is not the maker's to plan
    with, and one carried back to a fridge is lifted twice more; a chill in the plan that cannot be had would hide the time. What is too
    long is said instead (`advice.cautions`), with what can be done about it.
    """
    job, apart = bench.job, bench.job.stacking == "venue"
    if job.spare_min > 0:
        bench.tasks.append(Task("spare", "Kept free in case of mishaps", 0, job.spare_min, done, "fridge", buffer=True))
        done = ("spare",)
    spell: list[Task] = []
    if job.travel_min > 0:
        boxes = f" {len(every)} boxes" if apart else ""
        spell.append(Task("pack", f"Box and load{',' if boxes else ''}{boxes}", _up_to_five(PACK_MIN + (BOX_MIN * (len(every) - 1) if apart else 0)),
                          any_hour=True))  # fmt: skip
        spell.append(Task("travel", "On the road", _up_to_five(job.travel_min), any_hour=True, note="Level, cool and out of the sun."))
    elif apart:
        spell.append(Task("carry", "Carry the tiers to where the cake will stand", _up_to_five(CARRY_MIN * len(every)), any_hour=True))
    there = [bench.stack(any_hour=True), *(bench.row(k, any_hour=True) for k in late)] if apart else []
    spell.extend(there)
    name = "Set it up and let it soften" if job.travel_min > 0 else "Let it soften" if apart else "Out of the fridge to soften"
    spell.append(Task("out", name, 5, any_hour=True))
    softens = max(0.0, job.temper_min - math.fsum(task.hands_min for task in there))  # it softens while it is stacked and piped, too
    bench.spell(spell, done, every, softens, "room")
