"""A row of piping: its geometry, what the tip lays down, how long it takes, whether it fits.

Map
---
`KINDS`, `HUNG`      the kinds of row with the tips that suit them, how the tip is held and how the hand moves; those that hang
`Wanted`, `pipe`, `piped`, `Piping`   what is asked of a row, and what it comes to
`natural_pitch_mm`       natural distance from one shell, bead, rosette ... to the next
`layer_drops_mm`     drops of nested strings, or of double and triple swags, deepest first
`scroll_length_mm`, `scroll_points`   C and S scrolls
`rosette_path_mm`    path of a rosette
`wander_length_mm`, `wandering`   vermicelli: a line that wanders over a ground, and what it comes to
`grams_per_metre`    "piped 30 cm, weighed 21 g" -> 70 g a metre

Amounts rest on the section of the tip's opening, the swell of its family and the path the hand travels (Pappus: volume = section
times the path of its middle). They are estimates with a range; a strip piped and weighed replaces them.

Legend: w width of a repeat, y drop, a movement across the row, p advance, A section of the line laid, n count.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from calc.curves import arc_length_mm, arc_points, catenary_length_mm, to_and_fro_factor
from calc.division import STRETCH_MOST_PERCENT, shells_that_meet
from calc.sources import Constant, constant
from calc.tips import (
    BEAD_HEIGHT,
    BEAD_PITCH,
    BEAD_WIDTH,
    LEAF_LENGTH,
    LEAF_WIDTH,
    REVERSE_PITCH,
    REVERSE_WIDTH,
    ROPE_PITCH,
    ROPE_WIDTH,
    ROSETTE_WIDTH,
    SHELL_HEIGHT,
    SHELL_PITCH,
    SHELL_TAIL,
    SHELL_WIDTH,
    STAR_HEIGHT,
    STAR_WIDTH,
    ZIGZAG_ADVANCE,
    ZIGZAG_MOVEMENT,
    Tip,
    ruche_mm,
    stroke_mm,
)
from calc.units import Problem, a_or_an

_PRACTICE = "common-practice"
MOST_PIECES = 20_000
DENSITY_G_PER_ML = constant(
    0.95,
    "g/ml",
    "tm-10-412",
    "piping buttercream when nothing else is said: between the 0.77 and 1.20 g/ml that follow from the yields of two recipe cards",
    group="derived",
    low=0.77,
    high=1.20,
)
MEASURED_SPREAD = constant(0.10, "-", _PRACTICE, "a hand repeats its own strip within about a tenth")
SHAPE_SPREAD = constant(1.35, "-", _PRACTICE, "one hand's shell, bead or star over another's from the same tip, by volume", low=1.2, high=1.6)
PATH_SPREAD = constant(1.12, "-", _PRACTICE, "one hand's path over another's when movement and advance are given", low=1.05, high=1.2)
ROCKED_SPREAD = constant(1.30, "-", _PRACTICE, "one hand's path over another's when each rocks the tip in its own way", low=1.15, high=1.6)
FLUTED = constant(0.85, "-", _PRACTICE, "a ridged shape over the smooth one round it, by volume", low=0.75, high=0.95)
STAR_FULLNESS = constant(0.55, "-", _PRACTICE, "a dropped star over the cylinder round it: broad at the foot, drawn to a point", low=0.45, high=0.65)
BEAD_FULLNESS = constant(0.62, "-", _PRACTICE, "a bead over the box round it: a sphere fills 0.52, flattened where it sits", low=0.52, high=0.7)
LEAF_FULLNESS = constant(0.70, "-", _PRACTICE, "a leaf over a strip as thick as its base: it tapers to a point", low=0.55, high=0.85)
ROSETTE_PRESS = constant(1.25, "-", _PRACTICE, "the turns of a rosette are pressed onto each other with a firm squeeze", low=1.0, high=1.6)
ROSETTE_RISE = constant(1.3, "-", _PRACTICE, "height of a rosette over that of its bead", low=1.0, high=1.7)
ROPE_STROKE = constant(2.2, "-", _PRACTICE, "path of one turn of a rope over its pitch: over, down and tucked under", low=1.8, high=2.7)
REVERSE_STROKE = constant(1.35, "-", _PRACTICE, "a reverse shell over a plain shell of the same tip, by volume: the curl is added", low=1.2, high=1.6)
NEST_SHARE = constant(
    0.8, "-", _PRACTICE, "one swag of a double row hangs this much of its own depth below the other, so that they overlap", low=0.6, high=1.0
)
OVER_PIPE_SINK = constant(0.85, "-", _PRACTICE, "a line piped on a line stands out this much of its own height more", low=0.7, high=1.0)

WANDER_TURNS = constant(
    0.47,
    "-",
    "geometry",
    "share of a wandering line that is quarter turns, over lines that go once round a tree of ways; "
    "a hand that only curls makes 1, one that only goes to and fro 0",
    group="derived",
    low=0.0,
    high=1.0,
)
WANDER_GAP_SPREAD = constant(1.2, "-", _PRACTICE, "one hand's gap over another's who aim at the same", low=1.1, high=1.4)
WANDER_SPEED_MM_PER_S = constant(10.0, "mm/s", _PRACTICE, "how fast a hand with some use leads a wandering line", low=6.0, high=16.0)


@dataclass(frozen=True)
class Kind:
    """A kind of row.

    `speed_mm_per_s` is how fast the hand follows the path; `start_s` the time each piece takes to start and break off. Both are
    common practice for a hand with some use, with a range of `SLOW` and `QUICK`.
    """

    name: str
    families: tuple[str, ...]
    angle: str
    hand: str
    speed_mm_per_s: float
    start_s: float
    counted: bool
    curve: str  # "arc", "hang", "straight", "scroll" or "piece"

    def held(self, family: str) -> str:
        """How a tip of that family is held: its thick end is spoken of only where it has one."""
        return self.angle if family == "petal" else self.angle.split(", the thick end of a petal tip")[0]


SLOW = constant(1.8, "-", _PRACTICE, "a careful beginner's time over a used hand's", low=1.4, high=2.5)
QUICK = constant(0.6, "-", _PRACTICE, "a quick hand's time over a used hand's", low=0.5, high=0.75)

_STARS = ("open star", "closed star")
KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        Kind(
            "swag",
            ("petal", "open star", "closed star", "round", "leaf", "ruffle"),
            "45° to the side, the thick end of a petal tip against the cake and its thin end away from it",
            "Touch the joint, squeeze, and let the line follow the mark down and up again; ease off just before the next joint and touch it.",
            14.0,
            6.0,
            False,
            "arc",
        ),
        Kind(
            "ruched swag",
            ("petal", "ruffle", "open star", "closed star", "leaf"),
            "45° to the side, the thick end of a petal tip against the cake",
            "Rock the tip up and down by the same amount all along the mark, pressing steadily so that the folds close up; small and quick at "
            "the joints, fuller in the middle.",
            20.0,
            6.0,
            False,
            "arc",
        ),
        Kind(
            "ruched border",
            ("petal", "ruffle", "open star", "closed star", "leaf", "basket"),
            "45° to the edge, the thick end of a petal tip on the cake",
            "Rock the tip to and fro across the edge while the turntable moves, so that each fold leans on the last.",
            20.0,
            0.0,
            False,
            "straight",
        ),
        Kind(
            "string",
            ("round",),
            "level with the joint, the tip just touching it and then drawn 2 to 3 cm away from the side",
            "Touch and squeeze to stick the end, pull away and let the string hang free, then touch the next joint. Let weight make the curve: "
            "do not lead it down.",
            20.0,
            5.0,
            False,
            "hang",
        ),
        Kind(
            "shell",
            _STARS,
            "45° to the surface, pointing back along the row",
            "Squeeze hard until the head fans out, ease off while you draw the tail down to the surface, stop, and start the next on the tail.",
            0.0,
            2.5,
            True,
            "piece",
        ),
        Kind(
            "reverse shell",
            _STARS,
            "45° to the surface, pointing back along the row",
            "Squeeze as for a shell while you curl the head to the left, round and down to a tail; the next curls to the right.",
            0.0,
            4.0,
            True,
            "piece",
        ),
        Kind(
            "bead",
            ("round",),
            "45° to the surface, just above it",
            "Squeeze until the ball has its size, stop, and draw off along the row so that the next ball covers the point.",
            0.0,
            2.2,
            True,
            "piece",
        ),
        Kind(
            "rope",
            ("open star", "closed star", "round"),
            "45° to the surface",
            "Pipe a short S; tuck the tip under its belly, and pipe the next S over the end.",
            14.0,
            1.0,
            True,
            "straight",
        ),
        Kind(
            "zigzag",
            ("open star", "closed star", "round", "basket", "petal"),
            "45° to the surface, just touching it",
            "Squeeze evenly and move up and down in even strokes that lie side by side.",
            25.0,
            0.0,
            False,
            "straight",
        ),
        Kind(
            "rosette",
            _STARS,
            "90°, straight at the surface",
            "Squeeze a middle, then once round it with even pressure; ease off as the circle closes and draw away along it.",
            18.0,
            3.0,
            True,
            "piece",
        ),
        Kind(
            "star",
            _STARS,
            "90°, straight at the surface, just above it",
            "Squeeze until the star has its width, stop squeezing, then pull straight away.",
            0.0,
            2.0,
            True,
            "piece",
        ),
        Kind(
            "leaf",
            ("leaf", "petal"),
            "45° to the surface, one point of the V towards it and one away",
            "Squeeze to let the base fan out, then ease off and draw away to a point.",
            0.0,
            4.0,
            True,
            "piece",
        ),
        Kind(
            "C scroll",
            ("round", "open star", "closed star"),
            "45° to the surface, pointing back along the line",
            "Start in the curl, follow the mark round the back of the C with rising pressure, and ease off into the other curl.",
            14.0,
            6.0,
            True,
            "scroll",
        ),
        Kind(
            "S scroll",
            ("round", "open star", "closed star"),
            "45° to the surface, pointing back along the line",
            "Start in one curl, swell through the first bend, thin at the middle, swell again, and end in the other curl.",
            14.0,
            6.0,
            True,
            "scroll",
        ),
        Kind(
            "line",
            ("round", "open star", "closed star", "petal", "leaf", "ruffle", "basket"),
            "45° to the surface, the tip just above it",
            "Touch, squeeze, lift, and let the line fall onto the mark or onto the line below it.",
            18.0,
            4.0,
            False,
            "straight",
        ),
    )
}


HUNG = frozenset(("swag", "ruched swag", "string"))  # rows that hang between joints


@dataclass(frozen=True)
class Wanted:
    """What is asked of one row.

    `run_mm` is the length of the reference line it goes along: round the side at the joints, or round the edge. It has `repeats`
    equal parts of `width_mm` (the run divided evenly when not given) and, for swags, strings and scrolls, `drop_mm`. `layers` are rows
    piped with it: nested strings, double and triple swags, or lines over a line. `count` is the number of pieces in all,
    `per_repeat` in one repeat. `size_mm` is the width of a rosette, star or bead, or the length of a leaf. `movement_mm` and
    `advance_mm` are those of a rocked tip. `grams_per_metre` is what a strip weighed, per metre: of the row itself as it is piped
    (`weighed_as` "row"), or of a plain line of that tip ("line"), which then corrects everything that tip lays down. Pieces that are set
    `apart`, as at every joint, keep their natural size instead of meeting each other.
    """

    kind: str
    tip: Tip
    run_mm: float
    repeats: int = 1
    width_mm: float | None = None
    drop_mm: float = 0.0
    layers: int = 1
    count: int | None = None
    per_repeat: int | None = None
    movement_mm: float | None = None
    advance_mm: float | None = None
    grams_per_metre: float | None = None
    density_g_per_ml: float = float(DENSITY_G_PER_ML)
    size_mm: float | None = None
    weighed_as: str = "row"
    apart: bool = False


@dataclass(frozen=True)
class Piping:
    """What one row comes to.

    `count` is the number of swags, strings, shells ... piped, layers included; `pitch_mm` from one to the next along the run;
    `stretch_percent` how much each is stretched to meet the joints. `length_each_mm` is the length of one along its mark,
    `length_mm` of all, `path_mm` what the tip travels. `above_mm` and `below_mm` are the band that is covered above and below the
    row's own line: at the joints, where a swag or string then hangs `drops_mm` deeper between them (one drop for each layer, deepest
    first); a scroll's depth is in the band. `fits` is False when something in `notes` stands against it.
    """

    kind: str
    tip: Tip
    count: int
    pitch_mm: float
    stretch_percent: float
    length_each_mm: float
    length_mm: float
    path_mm: float
    volume_ml: float
    low_ml: float
    high_ml: float
    mass_g: float
    low_g: float
    high_g: float
    time_min: float
    low_min: float
    high_min: float
    above_mm: float
    below_mm: float
    stands_out_mm: float
    width_mm: float
    drops_mm: tuple[float, ...]
    angle: str
    hand: str
    fits: bool
    notes: tuple[str, ...]


# --- geometry of single pieces -----------------------------------------------------------------------------------------


def natural_pitch_mm(kind: str, tip: Tip, size_mm: float | None = None) -> float:
    """Give the natural distance from one piece of a row to the next.

    Formula: the opening (or the bead, or the size asked for) times the kind's usual proportion.

    Parameters
    ----------
    kind : str
        A kind of `KINDS` that is made of pieces [-]
    tip : Tip
        The tip [-]
    size_mm : float
        Width of a rosette, star or bead, or length of a leaf; None takes the tip's usual one [mm]

    Returns
    -------
    float
        Pitch; 0 for rows that are one line [mm]

    Raises
    ------
    ValueError
        There is no such kind.

    Range: any tip. Leaves out: pieces set apart on purpose.

    Example
    -------
    >>> round(natural_pitch_mm("shell", Tip("open star", 7)), 2)
    9.8

    Source: common-practice
    """
    if kind not in KINDS:
        raise ValueError(f"no kind of row is called {kind!r}")
    match kind:
        case "shell":
            return SHELL_PITCH * tip.opening_mm
        case "reverse shell":
            return REVERSE_PITCH * tip.opening_mm
        case "bead":
            return size_mm * BEAD_PITCH / BEAD_WIDTH if size_mm else BEAD_PITCH * tip.opening_mm
        case "rope":
            return ROPE_PITCH * tip.bead_width_mm
        case "rosette":
            return size_mm or ROSETTE_WIDTH * tip.bead_width_mm
        case "star":
            return size_mm or STAR_WIDTH * tip.opening_mm
        case "leaf":
            return LEAF_WIDTH * tip.opening_mm
        case _:
            return 0.0


def rosette_path_mm(width_mm: float, bead_mm: float) -> float:
    """Give the path of a rosette: a middle, out, and round it until the whole is as wide as wanted.

    Formula: R = (W - b)/2, length = b + R + pi R (1 + max(1, R/b)): a dab of one bead, the way out, and turns a bead apart that end in
    a whole circle.

    Parameters
    ----------
    width_mm : float
        Width of the rosette W [mm]
    bead_mm : float
        Width of the bead b [mm]

    Returns
    -------
    float
        Length of the path [mm]

    Raises
    ------
    ValueError
        A value is not above nothing.

    Range: W > 0, b > 0; a rosette no wider than the bead is one dab. Leaves out: the tail.

    Example
    -------
    >>> round(rosette_path_mm(15, 5), 2)  # a dab, 5 mm out, once round at 5 mm
    41.42

    Source: geometry
    """
    if width_mm <= 0 or bead_mm <= 0:
        raise ValueError("a rosette and its bead are wider than nothing")
    reach = max(0.0, (width_mm - bead_mm) / 2)
    return bead_mm + reach + math.pi * reach * (1 + max(1.0, reach / bead_mm))


def scroll_length_mm(kind: str, width_mm: float, drop_mm: float) -> float:
    """Give the length of one C or S scroll.

    Formula: C: an arc of width w and drop y with a curl of three quarters of a turn, radius y/4, at each end; S: two arcs of half the
    width and half the depth, one up and one down, with curls of radius y/8. Curl: 3 pi r / 2.

    Parameters
    ----------
    kind : str
        "C scroll" or "S scroll" [-]
    width_mm : float
        Width of the scroll w along the side [mm]
    drop_mm : float
        Its depth y [mm]

    Returns
    -------
    float
        Length along the scroll [mm]

    Raises
    ------
    ValueError
        It is no scroll, or a value is not above nothing.

    Range: w > 0, y > 0. Leaves out: side leaves and flourishes.

    Example
    -------
    >>> round(scroll_length_mm("C scroll", 60, 20), 1)
    123.6

    Source: segment
    """
    if width_mm <= 0 or drop_mm <= 0:
        raise ValueError("a scroll has a width and a depth above nothing")
    if kind == "C scroll":
        return arc_length_mm(width_mm, drop_mm) + 3 * math.pi * drop_mm / 4
    if kind == "S scroll":
        return 2 * arc_length_mm(width_mm / 2, drop_mm / 2) + 3 * math.pi * drop_mm / 8
    raise ValueError("a scroll is a C scroll or an S scroll")


@lru_cache(maxsize=512)
def scroll_points(kind: str, width_mm: float, drop_mm: float, count: int = 48) -> tuple[tuple[float, float], ...]:
    """Give points of one C or S scroll, from curl to curl, as `scroll_length_mm` measures it.

    Formula: the arcs of `calc.curves.arc_points`, and at each end three quarters of a turn that continues the arc's direction.

    Parameters
    ----------
    kind : str
        "C scroll" or "S scroll" [-]
    width_mm : float
        Width along the side between the arc's ends [mm]
    drop_mm : float
        Depth [mm]
    count : int
        Equal parts of the arc; each curl has half as many [-]

    Returns
    -------
    tuple of (float, float)
        x from the left end of the arc, and depth below the reference line (above nothing is down) [mm]

    Raises
    ------
    ValueError
        As `scroll_length_mm`.

    Range: as `scroll_length_mm`. Leaves out: the swelling of the line.

    Example
    -------
    >>> points = scroll_points("S scroll", 60, 20)
    >>> round(sum(math.dist(a, b) for a, b in zip(points, points[1:])) / scroll_length_mm("S scroll", 60, 20), 2)
    1.0

    Source: segment
    """
    if width_mm <= 0 or drop_mm <= 0:
        raise ValueError("a scroll has a width and a depth above nothing")
    if kind == "C scroll":
        middle = list(arc_points(width_mm, drop_mm, count))
        radius, first_turn, last_turn = drop_mm / 4, 1.0, -1.0
        start = 2 * math.atan(2 * drop_mm / width_mm)
        finish = -start
    elif kind == "S scroll":
        half = arc_points(width_mm / 2, drop_mm / 2, max(2, count // 2))
        middle = list(half) + [(width_mm / 2 + x, -depth) for x, depth in half[1:]]
        radius, first_turn, last_turn = drop_mm / 8, 1.0, 1.0
        start = finish = 2 * math.atan(2 * drop_mm / width_mm)
    else:
        raise ValueError("a scroll is a C scroll or an S scroll")
    steps = max(2, count // 2)
    lead = _curl(middle[0], math.pi + start, first_turn, radius, steps)
    tail = _curl(middle[-1], finish, last_turn, radius, steps)
    return tuple(reversed(lead)) + tuple(middle) + tuple(tail)


def _curl(at: tuple[float, float], heading: float, turn: float, radius: float, steps: int) -> list[tuple[float, float]]:
    """Points of three quarters of a turn that leaves `at` in a heading (x along, depth down)."""
    side = heading + turn * math.pi / 2
    middle = (at[0] + radius * math.cos(side), at[1] + radius * math.sin(side))
    begin = side + math.pi
    return [
        (
            middle[0] + radius * math.cos(begin + turn * 1.5 * math.pi * i / steps),
            middle[1] + radius * math.sin(begin + turn * 1.5 * math.pi * i / steps),
        )
        for i in range(1, steps + 1)
    ]


def layer_drops_mm(kind: str, tip: Tip, drop_mm: float, layers: int) -> tuple[float, ...]:
    """Give the drops of nested strings, or of the rows of a double or triple swag, deepest first.

    Formula: strings share the drop evenly, y (n - k)/n; swags each hang 0.8 of their own depth above the last, but never less than
    y (n - k)/n.

    Parameters
    ----------
    kind : str
        A kind of `KINDS` [-]
    tip : Tip
        The tip [-]
    drop_mm : float
        Drop of the deepest [mm]
    layers : int
        How many there are [-]

    Returns
    -------
    tuple of float
        Drops, deepest first; lines over a line all have the same [mm]

    Raises
    ------
    ValueError
        There is less than one layer.

    Range: any. Leaves out: strings that cross.

    Example
    -------
    >>> layer_drops_mm("string", Tip("round", 1.8), 30.0, 3)
    (30.0, 20.0, 10.0)

    Source: common-practice
    """
    if layers < 1:
        raise ValueError("a row has one layer or more")
    even = [drop_mm * ((layers - k) / layers) for k in range(layers)]
    if kind == "string":
        return tuple(even)
    if kind in ("swag", "ruched swag"):
        step = NEST_SHARE * tip.bead_width_mm
        return tuple(max(share, drop_mm - k * step) for k, share in enumerate(even))
    return (drop_mm,) * layers


def wander_length_mm(area_mm2: float, pitch_mm: float, turns: float = float(WANDER_TURNS)) -> float:
    """Give the length of a line that wanders over a ground and fills it evenly.

    Formula: length = A/p (1 - t (1 - pi/4)): the ground is cut into squares as wide as the pitch; in each the line goes straight (p) or
    takes a quarter turn (pi p/4), and t is the share of turns.

    Parameters
    ----------
    area_mm2 : float
        The ground A [mm2]
    pitch_mm : float
        From the middle of one line to the middle of the next p [mm]
    turns : float
        Share of turns t [-]

    Returns
    -------
    float
        Length of the line [mm]

    Raises
    ------
    ValueError
        The ground or the pitch is not above nothing, or the share is not from 0 to 1.

    Range: grounds many pitches wide. Leaves out: the rim, where half a pitch stays bare.

    Example
    -------
    >>> wander_length_mm(10_000.0, 5.0, 0.0), round(wander_length_mm(10_000.0, 5.0, 1.0), 1)
    (2000.0, 1570.8)

    Source: geometry
    """
    if area_mm2 <= 0 or pitch_mm <= 0 or not 0 <= turns <= 1:
        raise ValueError("a ground and a pitch are above nothing, and a share is from 0 to 1")
    return area_mm2 / pitch_mm * (1 - turns * (1 - math.pi / 4))


def wandering(
    area_mm2: float, gap_mm: float, tip: Tip, grams_per_metre: float | None = None, density_g_per_ml: float = float(DENSITY_G_PER_ML)
) -> Piping:
    """Work out vermicelli: one line that wanders over a ground.

    Formula: pitch = gap + width of the line; length as `wander_length_mm`; volume and mass as a plain line of that length. The range
    joins that of the line with those of turns and gap, by squares of their logarithms.

    Parameters
    ----------
    area_mm2 : float
        The ground it fills [mm2]
    gap_mm : float
        Between the edges of two passes [mm]
    tip : Tip
        The tip [mm]
    grams_per_metre : float
        What a strip of that line weighed; None takes the estimate [g/m]
    density_g_per_ml : float
        Density of the buttercream [g/ml]

    Returns
    -------
    Piping
        A line with its length, volume and mass with range, and time [-]

    Raises
    ------
    ValueError
        The ground or the gap is not above nothing, or the line is over 100 m.

    Range: as `wander_length_mm`. Leaves out: as `pipe`.

    Example
    -------
    >>> round(wandering(500.0 * 80.0, 3.0, Tip("round", 1.8)).length_mm / 1000, 1)
    7.3

    Source: geometry, common-practice
    """
    if gap_mm <= 0:
        raise ValueError("a gap is above nothing")
    pitch = gap_mm + tip.bead_width_mm
    length = wander_length_mm(area_mm2, pitch)
    line = pipe(Wanted("line", tip, run_mm=length, grams_per_metre=grams_per_metre, density_g_per_ml=density_g_per_ml))
    curl = math.log(length / wander_length_mm(area_mm2, pitch, WANDER_TURNS.high or 1.0))
    straight = math.log(wander_length_mm(area_mm2, pitch, WANDER_TURNS.low or 0.0) / length)
    gap = math.log(WANDER_GAP_SPREAD)
    less = math.exp(-math.hypot(math.log(line.volume_ml / line.low_ml), curl, gap))
    more = math.exp(math.hypot(math.log(line.high_ml / line.volume_ml), straight, gap))
    minutes = length / WANDER_SPEED_MM_PER_S / 60
    return replace(
        line,
        pitch_mm=pitch,
        low_ml=line.volume_ml * less,
        high_ml=line.volume_ml * more,
        low_g=line.mass_g * less,
        high_g=line.mass_g * more,
        time_min=minutes,
        low_min=minutes * QUICK,
        high_min=minutes * SLOW,
        angle="nearly upright to the surface, just above it",
        hand="Squeeze evenly and lead the line in short curls, each another way, close beside the last and never over it.",
    )


def grams_per_metre(length_mm: float, mass_g: float) -> float:
    """Give the weight of a metre from a strip that was piped and weighed.

    Formula: 1000 m / l.

    Parameters
    ----------
    length_mm : float
        Length piped l [mm]
    mass_g : float
        What it weighed m [g]

    Returns
    -------
    float
        Grams in a metre [g/m]

    Raises
    ------
    ValueError
        A value is not above nothing.

    Range: l > 0, m > 0. Leaves out: what stays in the bag.

    Example
    -------
    >>> grams_per_metre(300, 21)
    70.0

    Source: geometry
    """
    if length_mm <= 0 or mass_g <= 0:
        raise ValueError("a strip is longer and heavier than nothing")
    return 1000 * mass_g / length_mm


# --- the row -----------------------------------------------------------------------------------------------------------


def piped(wanted: Wanted, input_name: str, label: str) -> Piping:
    """Work out one row of piping for a person: what a row cannot have becomes a problem at an input.

    Formula: as `pipe`.

    Parameters
    ----------
    wanted : Wanted
        What is asked of the row [-]
    input_name : str
        The input that the problem is tied to [-]
    label : str
        What the reader calls it [-]

    Returns
    -------
    Piping
        Geometry, volume and mass with range, time, band and notes [-]

    Raises
    ------
    Problem
        The row is outside what a row can have, such as more than 20000 pieces.

    Range: as `pipe`. Leaves out: as `pipe`.

    Example
    -------
    >>> piped(Wanted("shell", Tip("open star", 7), run_mm=660, repeats=6, width_mm=110), "tip", "Tip").count
    66

    Source: crc-pappus, common-practice
    """
    try:
        return pipe(wanted)
    except ValueError as fault:
        raise Problem(input_name, f"{label} leads to a row that cannot be piped: {fault}. Change it, or the length it goes along") from None


@lru_cache(maxsize=4096)
def pipe(wanted: Wanted) -> Piping:
    """Work out one row of piping.

    Formula: volume = A x path for lines (Pappus), A the opening's section times the family's swell; volume of one piece x count for
    shells, beads, stars and leaves. Path of a rocked tip: length x sqrt(1 + (2 a / p)^2). Mass = volume x density, or what a strip
    weighed.

    Parameters
    ----------
    wanted : Wanted
        What is asked of the row [-]

    Returns
    -------
    Piping
        Geometry, volume and mass with range, time, band and notes [-]

    Raises
    ------
    ValueError
        There is no such kind, or a number is outside what a row can have.

    Range: rows on a side or a flat top. Leaves out: that the middle of a row round a tier travels a little further than the side, by
    pi times what it stands out (about 28 mm on a turn of 500 mm for 9 mm, within the range given); buttercream scraped off and piped
    again; and what stays in the bag (`calc.colours` adds it).

    Example
    -------
    >>> piping = pipe(Wanted("shell", Tip("open star", 7), run_mm=660, repeats=6, width_mm=110))
    >>> piping.count, round(piping.pitch_mm, 2)
    (66, 10.0)

    Source: crc-pappus, common-practice
    """
    kind = KINDS.get(wanted.kind)
    if kind is None:
        raise ValueError(f"no kind of row is called {wanted.kind!r}")
    _check(wanted)
    notes: list[str] = []
    if wanted.tip.family not in kind.families:
        notes.append(f"A{a_or_an(kind.name)[1:]} is usually piped with {_either(kind.families)}, not with {a_or_an(wanted.tip.family)} tip.")
    shape = _SHAPES[kind.curve](wanted, kind, notes)
    return _weighed(wanted, kind, shape, notes)


def _check(wanted: Wanted) -> None:
    if not 0 < wanted.run_mm <= 100_000:
        raise ValueError("a row runs along more than nothing and at most 100 m")
    if not 1 <= wanted.repeats <= 2_000 or not 1 <= wanted.layers <= 20:
        raise ValueError("a row has 1 to 2000 repeats and 1 to 20 layers")
    if not 0 <= wanted.drop_mm <= 5_000:
        raise ValueError("a drop is nothing or more")
    for value in (wanted.width_mm, wanted.size_mm, wanted.advance_mm, wanted.grams_per_metre, wanted.density_g_per_ml):
        if value is not None and not value > 0:
            raise ValueError("a width, a size, an advance, a weight and a density are above nothing")
    if wanted.movement_mm is not None and wanted.movement_mm < 0:
        raise ValueError("a rocked tip moves by nothing or more")
    for number in (wanted.count, wanted.per_repeat):
        if number is not None and not 0 <= number <= MOST_PIECES:
            raise ValueError("a row has no more than 20000 pieces")
    if wanted.weighed_as not in ("line", "row"):
        raise ValueError("a strip is weighed as a line or as a row")


def _either(words: tuple[str, ...]) -> str:
    names = [f"{a_or_an(w)} tip" for w in words[:3]]
    return names[0] if len(names) == 1 else ", ".join(names[:-1]) + " or " + names[-1]


@dataclass(frozen=True)
class _Shape:
    """Geometry of a row before it is weighed; `piece_ml` for rows made of solid pieces, else the path says all."""

    count: int
    pitch_mm: float
    stretch_percent: float
    length_each_mm: float
    length_mm: float
    path_mm: float
    piece_mm3: float
    above_mm: float
    below_mm: float
    stands_out_mm: float
    drops_mm: tuple[float, ...] = ()
    bad: bool = False


def _repeat_mm(wanted: Wanted) -> float:
    return wanted.width_mm if wanted.width_mm is not None else wanted.run_mm / wanted.repeats


def _rocked(wanted: Wanted) -> tuple[float, float]:
    """Movement of the tip [mm] and how many times longer its path is [-]; a tip that is not rocked moves by nothing."""
    if wanted.kind in ("ruched swag", "ruched border"):
        movement, advance = ruche_mm(wanted.tip)
    elif wanted.kind == "zigzag":
        movement, advance = ZIGZAG_MOVEMENT * wanted.tip.bead_width_mm, ZIGZAG_ADVANCE * stroke_mm(wanted.tip)
    elif wanted.movement_mm:
        movement, advance = wanted.movement_mm, ruche_mm(wanted.tip)[1]
    else:
        return 0.0, 1.0
    if wanted.movement_mm is not None:
        movement = wanted.movement_mm
    if wanted.advance_mm is not None:
        advance = wanted.advance_mm
    return movement, to_and_fro_factor(movement, advance)


def _band(wanted: Wanted, movement_mm: float) -> tuple[float, float]:
    """Width on the surface and height off it of a line, rocked or not [mm]."""
    tip = wanted.tip
    if movement_mm <= 0:
        return tip.bead_width_mm, tip.bead_height_mm
    return movement_mm + stroke_mm(tip), max(tip.bead_height_mm, 0.9 * tip.opening_mm if tip.slot_mm else tip.bead_height_mm)


def _curved(wanted: Wanted, kind: Kind, notes: list[str]) -> _Shape:
    """Swags and strings: a curve in each repeat."""
    width = _repeat_mm(wanted)
    movement, factor = _rocked(wanted)
    band, out = _band(wanted, movement)
    drops = layer_drops_mm(wanted.kind, wanted.tip, wanted.drop_mm, wanted.layers)
    if kind.curve == "hang" and wanted.drop_mm > 50 * width:
        raise ValueError("a string drops at most 50 times its width")
    measure = catenary_length_mm if kind.curve == "hang" else arc_length_mm
    lengths = [measure(width, drop) for drop in drops]
    length = wanted.repeats * math.fsum(lengths)
    bad = False
    if kind.curve == "arc" and wanted.drop_mm > width:
        notes.append("The drop is more than the width: the arc bulges far past its own joints. Make it shallower, or take fewer repeats.")
        bad = True
    elif kind.curve == "hang" and wanted.drop_mm > 2 * width:
        notes.append("The strings drop more than twice their width: they are likely to tear. Take fewer repeats or a smaller drop.")
        bad = True
    if kind.curve == "hang" and wanted.tip.opening_mm > 3.2:
        notes.append("A string from an opening over about 3 mm is heavy and tends to tear from its joints.")
    if kind.curve == "arc" and 0 < wanted.drop_mm < 0.1 * width:
        notes.append("The drop is under a tenth of the width: it reads as a line rather than as a swag.")
    if wanted.layers > 1 and wanted.drop_mm > 0 and kind.curve == "hang" and drops[-1] < 1.5 * wanted.tip.bead_width_mm:
        notes.append("The innermost string lies against its joints. Take fewer strings or a larger drop.")
        bad = True
    return _Shape(wanted.repeats * wanted.layers, width, 0.0, lengths[0], length, length * factor, 0.0, band / 2, band / 2, out, drops, bad)


def _straight(wanted: Wanted, kind: Kind, notes: list[str]) -> _Shape:
    """Borders, zigzags, ropes and lines: along the whole run."""
    tip, run = wanted.tip, wanted.run_mm * wanted.layers
    movement, factor = _rocked(wanted)
    band, out = _band(wanted, movement)
    out += (wanted.layers - 1) * OVER_PIPE_SINK * out
    if kind.name == "rope":
        each, stretch, count = _pieces(wanted, natural_pitch_mm("rope", tip), notes)
        width = ROPE_WIDTH * tip.bead_width_mm
        if wanted.apart:
            each = natural_pitch_mm("rope", tip)
            run = each * count * wanted.layers
        return _Shape(
            count * wanted.layers,
            each,
            stretch,
            each,
            run,
            run * ROPE_STROKE,
            0.0,
            width / 2,
            width / 2,
            out * 1.2,
            (),
            abs(stretch) > STRETCH_MOST_PERCENT,
        )
    if kind.name == "zigzag" and wanted.advance_mm and wanted.advance_mm < stroke_mm(tip):
        notes.append("The strokes are closer together than they are thick: they will pile up on each other.")
    pieces = wanted.repeats if wanted.repeats > 1 and kind.name == "line" else 1
    return _Shape(pieces * wanted.layers, _repeat_mm(wanted), 0.0, wanted.run_mm / pieces, run, run * factor, 0.0, band / 2, band / 2, out)


def _scrolled(wanted: Wanted, kind: Kind, notes: list[str]) -> _Shape:
    """Scrolls: one in each repeat, or as many as are asked for; lines over the line make it stand out."""
    width = _repeat_mm(wanted)
    if wanted.per_repeat:
        width /= wanted.per_repeat
    drop = wanted.drop_mm or 0.35 * width
    count = wanted.count if wanted.count is not None else wanted.repeats * (wanted.per_repeat or 1)
    each = scroll_length_mm(kind.name, width, drop)
    total = each * count * wanted.layers
    bead, out = wanted.tip.bead_width_mm, wanted.tip.bead_height_mm
    out += (wanted.layers - 1) * OVER_PIPE_SINK * out
    bad = False
    if drop < 6 * bead:
        notes.append(f"The curls of a scroll {drop:.0f} mm deep close up under a line {bead:.1f} mm wide. Make it deeper, or take a finer tip.")
        bad = drop < 3 * bead
    depths = [depth for _, depth in scroll_points(kind.name, width, drop)]  # the curls stand above the line and below the arc's own depth
    return _Shape(
        count * wanted.layers,
        width,
        0.0,
        each,
        total,
        total,
        0.0,
        max(0.0, -min(depths)) + bead / 2,
        max(0.0, max(depths)) + bead / 2,
        out,
        (drop,),
        bad,
    )


def _pieces(wanted: Wanted, natural_mm: float, notes: list[str]) -> tuple[float, float, int]:
    """Pitch, stretch and count of pieces that meet the joints whole: as asked, or the whole number nearest the natural pitch."""
    width = _repeat_mm(wanted)
    if wanted.count is not None and wanted.count > 0:
        count = wanted.count
    elif wanted.per_repeat is not None and wanted.per_repeat > 0:
        count = wanted.per_repeat * wanted.repeats
    else:
        count = shells_that_meet(width, natural_mm)[0] * wanted.repeats
    if count > MOST_PIECES:
        raise ValueError("a row has no more than 20000 pieces")
    if wanted.apart:
        return _apart(wanted, natural_mm, count, notes)
    pitch = wanted.run_mm / count
    stretch = 100 * (pitch / natural_mm - 1)
    if abs(stretch) > STRETCH_MOST_PERCENT:
        word = "stretched" if stretch > 0 else "squeezed"
        notes.append(
            f"Each {wanted.kind} would be {word} by {abs(stretch):.0f} %, and more than {STRETCH_MOST_PERCENT:.0f} % shows. "
            f"Take {'more' if stretch > 0 else 'fewer'} of them, or a {'wider' if stretch > 0 else 'finer'} tip."
        )
    return pitch, stretch, count


def _apart(wanted: Wanted, natural_mm: float, count: int, notes: list[str]) -> tuple[float, float, int]:
    """Pitch, stretch and count of pieces set apart: none is stretched, and none may be squeezed into its neighbour."""
    pitch = wanted.run_mm / count
    if pitch < natural_mm * 0.97:
        notes.append(f"{count} of them set {pitch:.0f} mm apart touch: each is {natural_mm:.0f} mm long. Take fewer, or a finer tip.")
    return pitch, 0.0, count


def _pieced(wanted: Wanted, kind: Kind, notes: list[str]) -> _Shape:
    """Shells, beads, rosettes, stars and leaves."""
    tip, o = wanted.tip, wanted.tip.opening_mm
    natural = natural_pitch_mm(kind.name, tip, wanted.size_mm)
    if kind.name in ("rosette", "star", "leaf"):
        return _set_apart(wanted, kind, natural, notes)
    pitch, stretch, count = _pieces(wanted, natural, notes)
    if kind.name == "reverse shell" and count % 2:
        notes.append("An odd number of reverse shells curls the same way twice where the row closes. Hide that at the back, or take an even number.")
    if kind.name == "bead":
        wide = wanted.size_mm or BEAD_WIDTH * o
        high = BEAD_HEIGHT / BEAD_WIDTH * wide
        piece = BEAD_FULLNESS * wide * wide * high
        band = wide
    else:
        # head: half an ellipsoid as long as the pitch; tail: half an elliptical cone that the next one lies on
        wide, high, tail = SHELL_WIDTH * o, SHELL_HEIGHT * o, SHELL_TAIL * o
        piece = FLUTED * math.pi * wide * high * (SHELL_PITCH * o / 6 + tail / 12)
        band = wide
        if kind.name == "reverse shell":
            piece *= REVERSE_STROKE
            band = REVERSE_WIDTH * o
    piece *= 1 + stretch / 100 if kind.name != "bead" else 1
    each = natural if wanted.apart else pitch
    total = each * count * wanted.layers if wanted.apart else wanted.run_mm * wanted.layers
    return _Shape(
        count * wanted.layers,
        pitch,
        stretch,
        each,
        total,
        total,
        piece,
        band / 2,
        band / 2,
        high * (1 + (wanted.layers - 1) * OVER_PIPE_SINK),
        (),
        abs(stretch) > STRETCH_MOST_PERCENT,
    )


def _set_apart(wanted: Wanted, kind: Kind, natural_mm: float, notes: list[str]) -> _Shape:
    """Rosettes, stars and leaves: `per_repeat` at every joint (one when nothing is said), or `count` in all."""
    tip = wanted.tip
    count = wanted.count if wanted.count is not None else wanted.repeats * (wanted.per_repeat or 1)
    pitch = wanted.run_mm / max(1, count)
    if kind.name == "rosette":
        wide = wanted.size_mm or ROSETTE_WIDTH * tip.bead_width_mm
        each = rosette_path_mm(wide, tip.bead_width_mm)
        piece, band, out = ROSETTE_PRESS * tip.laid_mm2 * each, wide, ROSETTE_RISE * tip.bead_height_mm
        if wide < 2 * tip.bead_width_mm:
            notes.append(f"A rosette {wide:.0f} mm wide is narrower than two beads of this tip: pipe it as a star, or take a finer tip.")
    elif kind.name == "star":
        wide = wanted.size_mm or STAR_WIDTH * tip.opening_mm
        out = STAR_HEIGHT / STAR_WIDTH * wide
        each, piece, band = out, STAR_FULLNESS * FLUTED * math.pi / 4 * wide * wide * out, wide
    else:
        each = wanted.size_mm or LEAF_LENGTH * tip.opening_mm
        piece, band, out = LEAF_FULLNESS * tip.laid_mm2 * each, each, max(tip.bead_height_mm, 0.5 * tip.opening_mm)
    bad = False
    closest = LEAF_WIDTH * tip.opening_mm if kind.name == "leaf" else band
    if count > 1 and wanted.per_repeat in (None, 1) and pitch < closest * 0.97:
        notes.append(f"{count} of them set {pitch:.0f} mm apart touch: each is {closest:.0f} mm wide. Take fewer, or a finer tip.")
        bad = pitch < closest * 0.8
    total = each * count * wanted.layers
    return _Shape(
        count * wanted.layers, pitch, 0.0, each, total, total, piece, band / 2, band / 2, out * (1 + (wanted.layers - 1) * OVER_PIPE_SINK), (), bad
    )


_SHAPES = {"arc": _curved, "hang": _curved, "straight": _straight, "scroll": _scrolled, "piece": _pieced}


def _weighed(wanted: Wanted, kind: Kind, shape: _Shape, notes: list[str]) -> Piping:
    """Volume and mass with range, and the time."""
    swell: Constant = wanted.tip.swell
    solid = shape.piece_mm3 > 0
    if solid:
        volume = shape.piece_mm3 * shape.count / 1000
        spread_low = spread_high = math.log(SHAPE_SPREAD)
        if kind.name in ("rosette", "leaf"):
            spread_low, spread_high = math.log(swell / swell.low), math.log(swell.high / swell)
    else:
        volume = wanted.tip.laid_mm2 * shape.path_mm / 1000
        spread_low, spread_high = math.log(swell / swell.low), math.log(swell.high / swell)
        if kind.name in ("ruched swag", "ruched border", "zigzag", "rope"):  # independent spreads add by squares of their logarithms
            own = math.log(PATH_SPREAD if wanted.movement_mm is not None and wanted.advance_mm is not None else ROCKED_SPREAD)
            spread_low, spread_high = math.hypot(spread_low, own), math.hypot(spread_high, own)
    density = wanted.density_g_per_ml
    if wanted.grams_per_metre is not None:
        if wanted.weighed_as == "row":
            mass = wanted.grams_per_metre * shape.length_mm / 1000
        else:  # the strip corrects the section of the line, and with it everything the tip lays down
            mass = volume * density * wanted.grams_per_metre / (wanted.tip.laid_mm2 * density)
        volume = mass / density
        low, high = volume * (1 - MEASURED_SPREAD), volume * (1 + MEASURED_SPREAD)
    else:
        mass = volume * density
        low, high = volume * math.exp(-spread_low), volume * math.exp(spread_high)
    seconds = shape.count * kind.start_s + (shape.path_mm / kind.speed_mm_per_s if kind.speed_mm_per_s else 0.0)
    return Piping(
        kind.name,
        wanted.tip,
        shape.count,
        shape.pitch_mm,
        shape.stretch_percent,
        shape.length_each_mm,
        shape.length_mm,
        shape.path_mm,
        volume,
        low,
        high,
        mass,
        low * density,
        high * density,
        seconds / 60,
        seconds / 60 * QUICK,
        seconds / 60 * SLOW,
        shape.above_mm,
        shape.below_mm,
        shape.stands_out_mm,
        _repeat_mm(wanted),
        shape.drops_mm,
        kind.held(wanted.tip.family),
        kind.hand,
        not shape.bad,
        tuple(notes),
    )
