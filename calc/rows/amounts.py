"""What a row comes to: its length, volume, mass and time with their ranges, for any kind.

Map
---
`RowAmount`, `pipe`, `piped`   what a row comes to, from what is asked of it (`RowSpec`)
`kind_called`        a kind by its name
`natural_pitch_mm`   natural distance from one shell, bead, rosette ... to the next
`layer_drops_mm`     drops of nested strings, or of double and triple swags, deepest first
`wander_length_mm`, `wandering`   vermicelli: a line that wanders over a ground, and what it comes to
`grams_per_metre`    "piped 30 cm, weighed 21 g" -> 70 g a metre

Amounts rest on the section of the tip's opening, the swell of its family and the path of the hand (Pappus: volume = section
times the path of its middle). They are estimates with a range; a strip piped and weighed replaces them.

Legend: w width of a repeat, y drop, a movement across the row, p advance, A section of the line laid, n count.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from calc.rows.kind import DENSITY_G_PER_ML, KINDS, MOST_PIECES, Geometry, Kind, RowSpec
from calc.sources import Constant, constant
from calc.tips import Tip
from calc.units import Problem, a_or_an, capitalised, listed

_PRACTICE = "common-practice"
MEASURED_SPREAD = constant(0.10, "-", _PRACTICE, "a hand repeats its own strip within about a tenth")
SHAPE_SPREAD = constant(1.35, "-", _PRACTICE, "one hand's shell, bead or star over another's from the same tip, by volume", low=1.2, high=1.6)
PATH_SPREAD = constant(1.12, "-", _PRACTICE, "one hand's path over another's when movement and advance are given", low=1.05, high=1.2)
ROCKED_SPREAD = constant(1.30, "-", _PRACTICE, "one hand's path over another's when each rocks the tip in its own way", low=1.15, high=1.6)
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
WANDER_SPEED_MM_PER_S = constant(10.0, "mm/s", _PRACTICE, "how fast a practised hand pipes a wandering line", low=6.0, high=16.0)


SLOW = constant(1.8, "-", _PRACTICE, "a careful beginner's time over a practised hand's", low=1.4, high=2.5)
QUICK = constant(0.6, "-", _PRACTICE, "a quick hand's time over a practised hand's", low=0.5, high=0.75)


@dataclass(frozen=True)
class RowAmount:
    """What one row comes to.

    `count` is the number of swags, strings, shells ... piped, layers included; `pitch_mm` from one to the next along the run;
    `stretch_percent` how much each is stretched to meet the joints. `length_each_mm` is the length of one along its mark,
    `length_mm` of all, `path_mm` what the tip travels. `above_mm` and `below_mm` are the band that is covered above and below the
    row's own line: at the joints, where a swag or string then hangs `drops_mm` deeper between them (one drop for each layer, deepest
    first); a scroll's depth is in the band. `notes` say what stands against it.
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
    notes: tuple[str, ...]


# --- geometry of single pieces -----------------------------------------------------------------------------------------


def kind_called(name: str) -> Kind:
    """Give the kind of row of a name."""
    kind = KINDS.get(name)
    if kind is None:
        raise ValueError(f"no kind of row is called {name!r}")
    return kind


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
    11.2

    Source: common-practice
    """
    return kind_called(kind).natural_pitch_mm(tip, size_mm)


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
    return kind_called(kind).drops_mm(tip, drop_mm, layers)


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
        The ground or the pitch is not positive, or the share is not from 0 to 1.

    Range: grounds many pitches wide. Leaves out: the rim, where half a pitch stays bare.

    Example
    -------
    >>> wander_length_mm(10_000.0, 5.0, 0.0), round(wander_length_mm(10_000.0, 5.0, 1.0), 1)
    (2000.0, 1570.8)

    Source: geometry (squares crossed straight or by a quarter circle)
    """
    if area_mm2 <= 0 or pitch_mm <= 0 or not 0 <= turns <= 1:
        raise ValueError("the area and the pitch must be greater than 0, and the share between 0 and 1")
    return area_mm2 / pitch_mm * (1 - turns * (1 - math.pi / 4))


def wandering(
    area_mm2: float,
    gap_mm: float,
    tip: Tip,
    grams_per_metre: float | None = None,
    density_g_per_ml: float = float(DENSITY_G_PER_ML),
    density_ends: tuple[float, float] = (DENSITY_G_PER_ML.low, DENSITY_G_PER_ML.high),
) -> RowAmount:
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
    density_ends : tuple of (float, float)
        Range of the density, both ends alike where it was weighed [g/ml]

    Returns
    -------
    RowAmount
        A line with its length, volume and mass with range, and time [-]

    Raises
    ------
    ValueError
        The ground or the gap is not positive, or the line is over 100 m.

    Range: as `wander_length_mm`. Leaves out: as `pipe`.

    Example
    -------
    >>> round(wandering(500.0 * 80.0, 3.0, Tip("round", 1.8)).length_mm / 1000, 1)
    7.3

    Source: geometry (squares crossed straight or by a quarter circle), common-practice
    """
    if gap_mm <= 0:
        raise ValueError("the gap must be greater than 0")
    pitch = gap_mm + tip.bead_width_mm
    length = wander_length_mm(area_mm2, pitch)
    spec = RowSpec("line", tip, run_mm=length, grams_per_metre=grams_per_metre, density_g_per_ml=density_g_per_ml, density_ends=density_ends)
    line = pipe(spec)
    curl = math.log(length / wander_length_mm(area_mm2, pitch, WANDER_TURNS.high or 1.0))
    straight = math.log(wander_length_mm(area_mm2, pitch, WANDER_TURNS.low or 0.0) / length)
    gap = math.log(WANDER_GAP_SPREAD)
    less = math.exp(-math.hypot(math.log(line.volume_ml / line.low_ml), curl, gap))
    more = math.exp(math.hypot(math.log(line.high_ml / line.volume_ml), straight, gap))
    low_g, high_g = (line.mass_g * less, line.mass_g * more) if grams_per_metre is not None else with_density(line.mass_g, less, more, spec)
    minutes = length / WANDER_SPEED_MM_PER_S / 60
    return replace(
        line,
        pitch_mm=pitch,
        low_ml=line.volume_ml * less,
        high_ml=line.volume_ml * more,
        low_g=low_g,
        high_g=high_g,
        time_min=minutes,
        low_min=minutes * QUICK,
        high_min=minutes * SLOW,
        angle="nearly upright to the surface, just above it",
        hand="Squeeze evenly and pipe short curls, each in a different direction, close beside the last and never over it.",
    )


def with_density(mass_g: float, low: float, high: float, spec: RowSpec) -> tuple[float, float]:
    """Give the range of a mass from that of its volume, as shares of it, and that of the density: independent, so squares of logarithms add."""
    density, (least, most) = spec.density_g_per_ml, spec.density_ends
    down, up = math.log(max(1.0, density / least)), math.log(max(1.0, most / density))
    return mass_g * math.exp(-math.hypot(math.log(low), down)), mass_g * math.exp(math.hypot(math.log(high), up))


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
        A value is not positive.

    Range: l > 0, m > 0. Leaves out: what stays in the bag.

    Example
    -------
    >>> grams_per_metre(300, 21)
    70.0

    Source: geometry (proportion)
    """
    if length_mm <= 0 or mass_g <= 0:
        raise ValueError("the length and the weight of a strip must be greater than 0")
    return 1000 * mass_g / length_mm


# --- the row -----------------------------------------------------------------------------------------------------------


def piped(spec: RowSpec, input_name: str, label: str) -> RowAmount:
    """Work out one row of piping for a person: what a row cannot have raises a `Problem` at the input of that name."""
    try:
        return pipe(spec)
    except ValueError as fault:
        raise Problem(input_name, f"{label} leads to a row that cannot be piped: {fault}. Change it, or the length it goes along") from None


@lru_cache(maxsize=4096)
def pipe(spec: RowSpec) -> RowAmount:
    """Work out one row of piping.

    Formula: volume = A x path for lines (Pappus), A the opening's section times the family's swell; volume of one piece x count for
    shells, beads, stars and leaves. Path of a rocked tip: length x sqrt(1 + (2 a / p)^2). Mass = volume x density, or what a strip
    weighed.

    Parameters
    ----------
    spec : RowSpec
        What is asked of the row [-]

    Returns
    -------
    RowAmount
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
    >>> piping = pipe(RowSpec("shell", Tip("open star", 7), run_mm=660, repeats=6, width_mm=110))
    >>> piping.count, round(piping.pitch_mm, 2)
    (60, 11.0)

    Source: crc-pappus (second theorem), common-practice
    """
    kind = kind_called(spec.kind)
    _check(spec)
    notes: list[str] = []
    if spec.tip.family not in kind.families:
        usual = listed([f"{a_or_an(family)} tip" for family in kind.families[:3]], "or")
        notes.append(f"{capitalised(a_or_an(kind.name))} is usually piped with {usual}, not with {a_or_an(spec.tip.family)} tip.")
    shape = kind.geometry(spec, notes)
    return _weighed(spec, kind, shape, notes)


def _check(spec: RowSpec) -> None:
    if not 0 < spec.run_mm <= 100_000:
        raise ValueError("a row must be longer than 0 and at most 100 m")
    if not 1 <= spec.repeats <= 2_000 or not 1 <= spec.layers <= 20:
        raise ValueError("a row has 1 to 2000 repeats and 1 to 20 layers")
    if not 0 <= spec.drop_mm <= 5_000:
        raise ValueError("a drop cannot be negative, and is at most 5 m")
    for value in (spec.width_mm, spec.size_mm, spec.pitch_mm, spec.advance_mm, spec.grams_per_metre, spec.density_g_per_ml, *spec.density_ends):
        if value is not None and not value > 0:
            raise ValueError("width, size, advance, weight and density must be greater than 0")
    if spec.movement_mm is not None and spec.movement_mm < 0:
        raise ValueError("the movement of a rocked tip cannot be negative")
    for number in (spec.count, spec.per_repeat):
        if number is not None and not 0 <= number <= MOST_PIECES:
            raise ValueError("a row has no more than 20000 pieces")
    if spec.weighed_as not in ("line", "row"):
        raise ValueError("a strip is weighed as a line or as a row")


def _weighed(spec: RowSpec, kind: Kind, shape: Geometry, notes: list[str]) -> RowAmount:
    """Volume and mass with range, and the time."""
    swell: Constant = spec.tip.swell
    solid = shape.piece_mm3 > 0
    if solid:
        volume = shape.piece_mm3 * shape.count / 1000
        spread_low = spread_high = math.log(SHAPE_SPREAD)
        if kind.swells:
            spread_low, spread_high = math.log(swell / swell.low), math.log(swell.high / swell)
    else:
        volume = spec.tip.laid_mm2 * shape.path_mm * shape.surplus / 1000
        spread_low, spread_high = math.log(swell / swell.low), math.log(swell.high / swell)
        if kind.led:  # independent spreads add by squares of their logarithms
            own = math.log(PATH_SPREAD if spec.movement_mm is not None and spec.advance_mm is not None else ROCKED_SPREAD)
            spread_low, spread_high = math.hypot(spread_low, own), math.hypot(spread_high, own)
    density = spec.density_g_per_ml
    if spec.grams_per_metre is not None:
        if spec.weighed_as == "row":
            mass = spec.grams_per_metre * shape.length_mm / 1000
        else:  # the strip corrects the section of the line, and with it everything the tip lays down
            mass = volume * density * spec.grams_per_metre / (spec.tip.laid_mm2 * density)
        volume = mass / density
        low, high = volume * (1 - MEASURED_SPREAD), volume * (1 + MEASURED_SPREAD)
    else:
        mass = volume * density
        low, high = volume * math.exp(-spread_low), volume * math.exp(spread_high)
    low_g, high_g = low * density, high * density
    if spec.grams_per_metre is None:
        low_g, high_g = with_density(mass, low / volume if volume else 1.0, high / volume if volume else 1.0, spec)
    seconds = shape.count * kind.start_s + (shape.path_mm / kind.speed_mm_per_s if kind.speed_mm_per_s else 0.0)
    return RowAmount(
        kind.name,
        spec.tip,
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
        low_g,
        high_g,
        seconds / 60,
        seconds / 60 * QUICK,
        seconds / 60 * SLOW,
        shape.above_mm,
        shape.below_mm,
        shape.stands_out_mm,
        spec.repeat_mm,
        shape.drops_mm,
        kind.held(spec.tip.family),
        kind.hand,
        tuple(notes),
    )
