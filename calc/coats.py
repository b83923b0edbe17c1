"""Filling, crumb coat and final coat: how much goes between, on and round the sponge of one tier.

It may import `units`, `sources`, `geometry`, `shapes`, `portions` and `stack`.

Map
---
`coats`       outline, height, layers and thicknesses -> `Coats`: exact volumes, what the finished tier measures, ranges
`Coats`       the answer, with totals
`bands`       the final coat cut into bands by share of height, for an ombre coat
`stripes`     stripes set into grooves combed in the final coat
`Band`, `Stripes`
`ring_area_mm2` a ring along the inside of an outline, for the dam
`mass_range_g`  volume and density, each with a range -> mass with a range
`knife_uses`    what is spread with a knife on one tier, and what it weighs, with ranges
`finished_body` a finished tier as the stack sees it

Conventions: a tier's height is that of its stacked sponge with the fillings in it, before the coat. The finished side
is straight and its top edge sharp, as a scraper leaves it. Each thickness is taken square to the sponge's face;
outlines grow by `Outline.offset`, so straight-sided cakes keep sharp corners and smooth ones follow Steiner's formula.
Nothing goes under the cake. The volumes are exact for what was typed; the ranges say how far a hand strays from it.

Legend: A area and P perimeter of the sponge seen from above, A(t) area of the outline grown by t, H height, f filling,
c crumb coat, k whole coat on the side, q whole coat on the top.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from calc.geometry.segments import Arc, Segment, turn_between
from calc.portions import levels
from calc.shapes import Outline, Oval
from calc.sources import Constant, constant
from calc.stack import Body
from calc.units import Formatter, Problem

FILLING_STRAYS_PERCENT = constant(20.0, "%", "common-practice", "a filling spread by hand with a palette knife is out by about a fifth")
CRUMB_STRAYS_PERCENT = constant(40.0, "%", "common-practice", "a crumb coat is scraped until the sponge shows through in places")
FINAL_STRAYS_PERCENT = constant(25.0, "%", "common-practice", "a final coat set by eye, without a disc, is out by about a quarter")
SHRINK_MM = constant(
    1.5, "mm", "common-practice", "on each side a baked sponge draws back 1 to 2 mm from the tin; a disc leaves that to the coat", low=1.0, high=2.0
)
LAYERS_MOST = 12
ML = 1000.0  # mm3 in one ml, exact


@dataclass(frozen=True)
class Coats:
    """What goes between, on and round the sponge of one tier, and what the finished tier measures.

    Volumes are exact for the thicknesses typed; `low` and `high` allow for how a hand differs from them.
    """

    outline: Outline
    height_mm: float
    layers: int
    filling_mm: float
    dam_mm: float
    crumb_mm: float
    final_mm: float
    coat_mm: float
    top_mm: float
    by_disc: bool
    filling_ml: float
    filling_low_ml: float
    filling_high_ml: float
    dam_ml: float
    crumb_ml: float
    crumb_low_ml: float
    crumb_high_ml: float
    final_ml: float
    final_low_ml: float
    final_high_ml: float
    sponge_ml: float
    finished: Outline
    finished_height_mm: float

    @property
    def fillings(self) -> int:
        """How many fillings there are: one fewer than layers [-]."""
        return self.layers - 1

    @property
    def layer_mm(self) -> float:
        """Height of one layer of sponge when all are alike [mm]."""
        return (self.height_mm - self.fillings * self.filling_mm) / self.layers

    @property
    def coat_ml(self) -> float:
        """Crumb coat and final coat together [ml]."""
        return math.fsum((self.crumb_ml, self.final_ml))

    @property
    def total_ml(self) -> float:
        """Filling, dam, crumb coat and final coat together [ml]."""
        return math.fsum((self.filling_ml, self.dam_ml, self.crumb_ml, self.final_ml))

    @property
    def coat_low_ml(self) -> float:
        """Low end of the whole coat; under a disc, crumb coat and final coat compensate for each other [ml]."""
        return math.fsum((self.crumb_ml if self.by_disc else self.crumb_low_ml, self.final_low_ml))

    @property
    def coat_high_ml(self) -> float:
        """High end of the whole coat; under a disc, crumb coat and final coat compensate for each other [ml]."""
        return math.fsum((self.crumb_ml if self.by_disc else self.crumb_high_ml, self.final_high_ml))


def _coat_ml(outline: Outline, height_mm: float, thickness_mm: float, top_mm: float) -> float:
    """Volume of a coat on the side and the top of a straight-sided cake: A(k) (H + q) - A H [ml]."""
    if thickness_mm <= 0:
        return outline.area_mm2 * top_mm / ML
    return (outline.offset(thickness_mm).area_mm2 * (height_mm + top_mm) - outline.area_mm2 * height_mm) / ML


def _overlap_mm2(after: Segment, turn: float, width_mm: float) -> float:
    """What strips of a width along the two sides of a corner both cover: a kite, or its curved equivalent between two equal arcs [mm2]."""
    if not isinstance(after, Arc):
        return math.tan(turn / 2) * width_mm * width_mm
    angle = (math.pi - turn) / 2  # of the arc's radius at the corner, from the line square to the corner's axis
    off_axis, inner = after.radius * math.cos(angle), after.radius - width_mm
    if off_axis <= 0 or off_axis >= inner:
        return 0.0
    inner_angle = math.acos(off_axis / inner)
    return off_axis * off_axis * (math.tan(angle) - math.tan(inner_angle)) - inner * inner * (angle - inner_angle)


def ring_area_mm2(outline: Outline, width_mm: float) -> float:
    """Give the area of a ring of even width along the inside of an outline, such as a dam.

    Formula: P d - d^2/2 (sum of the arcs' angles) - d^2 (sum of tan(turn/2) over corners) + d^2/2 (sum of turns over
    notches); at a corner between two arcs what both strips cover takes the place of d^2 tan(turn/2). On a round or an oval
    this is Steiner's P d - pi d^2.

    Parameters
    ----------
    outline : Outline
        The outline [mm]
    width_mm : float
        Width of the ring d [mm]

    Returns
    -------
    float
        Area [mm2]

    Raises
    ------
    ValueError
        The ring is wider than the tightest curve allows, or closes in the middle.

    Range: d up to the smallest radius of the outline and under half its width. Leaves out: wider rings, which overlap.

    Example
    -------
    >>> from calc.shapes import outline
    >>> ring_area_mm2(outline("square", 200.0), 10.0), 200.0**2 - 180.0**2
    (7600.0, 7600.0)

    Source: steiner (the plane case), geometry (area between parallel curves)
    """
    if width_mm <= 0:
        return 0.0
    if isinstance(outline, Oval):
        short, long = sorted(outline.half_axes_mm)
        tightest, lost_mm2 = short * short / long, math.pi * width_mm * width_mm
    else:
        segments = outline.segments
        arcs = [segment for segment in segments if isinstance(segment, Arc)]
        tightest = min((arc.radius for arc in arcs), default=math.inf)
        turns = [turn_between(before, after) for before, after in zip(segments, segments[1:] + segments[:1], strict=True)]
        corners = zip(segments[1:] + segments[:1], turns, strict=True)
        bends = [_overlap_mm2(after, turn, width_mm) if turn > 0 else turn / 2 * width_mm * width_mm for after, turn in corners]
        lost_mm2 = math.fsum([arc.sweep / 2 * width_mm * width_mm for arc in arcs] + bends)
    area = outline.perimeter_mm * width_mm - lost_mm2
    if width_mm > tightest or 2 * width_mm >= min(outline.width_mm, outline.length_mm) or area >= outline.area_mm2:
        raise ValueError("a ring as wide as that closes in on itself")
    return area


def _dam_area_mm2(outline: Outline, dam_mm: float, say: Formatter) -> float:
    """Area of the dam, or a problem if there is no room for one."""
    try:
        return ring_area_mm2(outline, dam_mm)
    except ValueError:
        raise Problem(
            "dam", f"Dam of {say.length(dam_mm)} leaves no even room for a filling inside it. Make it narrower, or leave it empty for no dam"
        ) from None


@lru_cache(maxsize=1024)
def coats(
    outline: Outline,
    height_mm: float,
    layers: int,
    filling_mm: float,
    crumb_mm: float,
    final_mm: float | None = None,
    disc_mm: float | None = None,
    top_mm: float | None = None,
    dam_mm: float = 0.0,
    units: str = "metric",
) -> Coats:
    """Give the filling, dam, crumb coat and final coat of one tier, and what the finished tier measures.

    Formula: dam (n - 1) f times a ring of its width, filling (n - 1) f times the rest of A; crumb coat A(c) (H + c) -
    A H; crumb and final together A(k) (H + q) - A H, with k = c + final or, by a disc, k = (disc - width) / 2; sponge
    A (H - (n - 1) f).

    Parameters
    ----------
    outline : Outline
        The sponge seen from above [mm]
    height_mm : float
        Height H of the stacked sponge with its fillings, before the coat [mm]
    layers : int
        Layers of sponge n [-]
    filling_mm : float
        Thickness f of each filling [mm]
    crumb_mm : float
        Thickness c of the crumb coat [mm]
    final_mm : float
        Thickness of the final coat on the side, if there is no disc [mm]
    disc_mm : float
        Width of the coating disc; it sets crumb coat and final coat together [mm]
    top_mm : float
        Crumb and final coat together on the top, if it differs from the side [mm]
    dam_mm : float
        Width of the dam, a ring along the edge of each filling [mm]
    units : str
        "metric" or "us", for the words of a problem [-]

    Returns
    -------
    Coats
        Volumes with ranges [ml], thicknesses [mm] and the finished outline [mm]

    Raises
    ------
    Problem
        The fillings are as high as the cake; the disc is no wider than the cake, or leaves less than the crumb coat;
        the dam leaves no room; neither a final coat nor a disc is given.

    Range: a straight-sided tier, sharp top edge; 1 to 12 layers. Leaves out: rounded edges, what stays in the bowl.

    Example
    -------
    >>> from calc.shapes import outline
    >>> made = coats(outline("round", 150.0), 100.0, 3, 8.0, 2.0, disc_mm=160.0)
    >>> round(made.filling_ml, 1), made.coat_mm, made.final_mm, made.finished.width_mm, made.finished_height_mm
    (282.7, 5.0, 3.0, 160.0, 105.0)
    >>> round(made.coat_ml, 1)  # pi 80^2 105 - pi 75^2 100, in ml
    344.0

    Source: geometry (volume of a prism), steiner (the plane case)
    """
    say = Formatter(units)
    if not 1 <= layers <= LAYERS_MOST:
        raise Problem("layers", f"Layers must be between 1 and {LAYERS_MOST}")
    if height_mm <= 0:
        raise Problem("height", "Height must be more than 0. Write it like 10 cm")
    if filling_mm < 0 or crumb_mm < 0 or dam_mm < 0 or (top_mm is not None and top_mm < 0):
        raise Problem(
            "filling" if filling_mm < 0 else "crumb_coat" if crumb_mm < 0 else "dam" if dam_mm < 0 else "top",
            "A thickness must be 0 or more. Write it like 3 mm",
        )
    fillings = layers - 1
    if fillings * filling_mm >= height_mm:
        raise Problem(
            "filling",
            f"Filling: {fillings} of {say.length(filling_mm)} are as high as the whole cake of "
            f"{say.length(height_mm)}. Make the filling thinner, or use fewer layers",
        )
    by_disc = disc_mm is not None
    if disc_mm is not None:
        coat_mm = (disc_mm - outline.width_mm) / 2
        if coat_mm <= 0:
            raise Problem(
                "disc",
                f"Disc must be wider than the cake of {say.least('length', outline.width_mm)}; this one is "
                f"{say.length(disc_mm)}. Take one about {say.length(outline.width_mm + 10)} wide, or give "
                "the final coat a thickness instead",
            )
        if crumb_mm > coat_mm + 1e-9:
            raise Problem(
                "crumb_coat",
                f"Crumb coat of {say.length(crumb_mm)} is thicker than the {say.most('length', coat_mm)} the "
                "disc leaves for crumb coat and final coat together. Make it thinner, or use a wider "
                "disc",
            )
        final_mm = max(0.0, coat_mm - crumb_mm)
    elif final_mm is None:
        raise Problem("final_coat", "Final coat is empty. Write its thickness, like 3 mm, or the width of a coating disc")
    else:
        if final_mm < 0:
            raise Problem("final_coat", "A thickness must be 0 or more. Write it like 3 mm")
        coat_mm = crumb_mm + final_mm
    top = coat_mm if top_mm is None else top_mm
    crumb_top = min(crumb_mm, top)

    filling_area = outline.area_mm2
    dam_area = _dam_area_mm2(outline, dam_mm, say) if fillings else 0.0
    filling_ml = fillings * filling_mm * (filling_area - dam_area) / ML
    crumb_ml = _coat_ml(outline, height_mm, crumb_mm, crumb_top)
    whole_ml = _coat_ml(outline, height_mm, coat_mm, top)
    final_ml = max(0.0, whole_ml - crumb_ml)
    if by_disc:
        # The coat makes up for what the sponge shrank from its tin; the disc fixes the outside.
        final_low_ml = final_ml
        final_high_ml = final_ml + outline.perimeter_mm * SHRINK_MM * height_mm / ML
    else:
        strays = FINAL_STRAYS_PERCENT / 100
        final_low_ml, final_high_ml = final_ml * (1 - strays), final_ml * (1 + strays)
    finished = outline.offset(coat_mm) if coat_mm > 0 else outline
    return Coats(
        outline=outline,
        height_mm=height_mm,
        layers=layers,
        filling_mm=filling_mm,
        dam_mm=dam_mm,
        crumb_mm=crumb_mm,
        final_mm=final_mm,
        coat_mm=coat_mm,
        top_mm=top,
        by_disc=by_disc,
        filling_ml=filling_ml,
        filling_low_ml=filling_ml * (1 - FILLING_STRAYS_PERCENT / 100),
        filling_high_ml=filling_ml * (1 + FILLING_STRAYS_PERCENT / 100),
        dam_ml=fillings * filling_mm * dam_area / ML,
        crumb_ml=crumb_ml,
        crumb_low_ml=crumb_ml * (1 - CRUMB_STRAYS_PERCENT / 100),
        crumb_high_ml=crumb_ml * (1 + CRUMB_STRAYS_PERCENT / 100),
        final_ml=final_ml,
        final_low_ml=final_low_ml,
        final_high_ml=final_high_ml,
        sponge_ml=outline.area_mm2 * (height_mm - fillings * filling_mm) / ML,
        finished=finished,
        finished_height_mm=height_mm + top,
    )


@dataclass(frozen=True)
class Band:
    """One band of the final coat, counted from the base up."""

    number: int
    from_mm: float
    to_mm: float
    volume_ml: float
    low_ml: float
    high_ml: float


BLEND_PERCENT = constant(15.0, "%", "common-practice", "each colour of an ombre coat is laid a little past its edge and scraped away")


def bands(coat: Coats, shares: Sequence[float]) -> tuple[Band, ...]:
    """Cut the final coat into bands round the side by share of height; the uppermost includes the top of the cake.

    Formula: band i takes share_i / sum(shares) of the ring (A(k) - A(c)) (H + q); the uppermost also A(c) (q - c).

    Parameters
    ----------
    coat : Coats
        The coats of the tier [ml]
    shares : sequence of float
        Share of the height of each band, from the base up, in any proportion [-]

    Returns
    -------
    tuple of Band
        Heights above the board [mm] and volumes with ranges [ml]

    Raises
    ------
    Problem
        There are no bands, more than 24, or one of no height.

    Range: 1 to 24 bands. Leaves out: how far two colours are smeared into each other, beyond the margin in the high end.

    Example
    -------
    >>> from calc.shapes import outline
    >>> made = coats(outline("round", 150.0), 100.0, 3, 8.0, 2.0, disc_mm=160.0)
    >>> [(b.from_mm, b.to_mm, round(b.volume_ml, 1)) for b in bands(made, (1, 1, 1))]
    [(0.0, 35.0, 51.8), (35.0, 70.0, 51.8), (70.0, 105.0, 107.7)]

    Source: geometry (volume of a prism)
    """
    if not 1 <= len(shares) <= 24 or any(not 0 < share < 1e6 for share in shares):
        raise Problem("shares", "Shares of height are 1 to 24 numbers above 0, from the base up. Write them like 2, 1, 1")
    total = math.fsum(shares)
    height = coat.finished_height_mm
    inner = coat.outline.offset(coat.crumb_mm).area_mm2 if coat.crumb_mm > 0 else coat.outline.area_mm2
    ring_ml = (coat.finished.area_mm2 - inner) * height / ML
    top_ml = coat.final_ml - ring_ml
    low, high = (coat.final_low_ml / coat.final_ml, coat.final_high_ml / coat.final_ml) if coat.final_ml > 0 else (1.0, 1.0)
    blend = 1 + BLEND_PERCENT / 100 if len(shares) > 1 else 1.0
    made = []
    for i, share in enumerate(shares):
        below = math.fsum(shares[:i]) / total
        volume = ring_ml * share / total + (top_ml if i == len(shares) - 1 else 0.0)
        made.append(Band(i + 1, height * below, height * math.fsum(shares[: i + 1]) / total, volume, volume * low, volume * high * blend))
    return tuple(made)


@dataclass(frozen=True)
class Stripes:
    """Stripes set into grooves combed in the final coat."""

    count: int
    stripe_mm: float
    ground_mm: float
    depth_mm: float
    stripes_ml: float
    ground_ml: float
    lifted_ml: float


def stripes(coat: Coats, count: int, share_percent: float, depth_mm: float | None = None, units: str = "metric") -> Stripes:
    """Give what a striped coat takes: grooves combed in the ground colour, filled with the other.

    Formula: grooves g = (share / 100) (H + q) (A(k) - A(k - e)) for a depth e; stripes take g, the ground the final
    coat less g; the comb lifts g of the ground out again.

    Parameters
    ----------
    coat : Coats
        The coats of the tier [ml]
    count : int
        Stripes round the side [-]
    share_percent : float
        Share of the height that is stripe [%]
    depth_mm : float
        Depth of the grooves; the whole final coat if left out [mm]
    units : str
        "metric" or "us", for the words of a problem [-]

    Returns
    -------
    Stripes
        Heights of stripe and ground [mm], volumes of both colours [ml]

    Raises
    ------
    Problem
        The grooves are deeper than the final coat, or there is no stripe.

    Range: 1 to 60 stripes, square grooves. Leaves out: combs with rounded teeth, which take about a fifth less.

    Example
    -------
    >>> from calc.shapes import outline
    >>> made = coats(outline("round", 150.0), 100.0, 3, 8.0, 2.0, disc_mm=160.0)
    >>> striped = stripes(made, 6, 50, 2.0)
    >>> striped.stripe_mm, round(striped.stripes_ml, 1), round(striped.ground_ml, 1)
    (8.75, 52.1, 159.1)

    Source: geometry (volume of a prism)
    """
    if not 1 <= count <= 60:
        raise Problem("stripes", "Stripes must be between 1 and 60")
    if not 0 < share_percent < 100:
        raise Problem("stripe_share", "Share of the height that is stripe must be between 1 % and 99 %")
    depth = coat.final_mm if depth_mm is None else depth_mm
    if depth <= 0 or depth > coat.final_mm + 1e-9:
        deepest = Formatter(units).most("length", coat.final_mm)
        raise Problem(
            "groove",
            f"Groove must be more than 0 and no deeper than the final coat of {deepest}, or the comb "
            "reaches the crumb coat. Make it shallower, or the coat thicker",
        )
    under = coat.coat_mm - depth
    inner = coat.outline.offset(under).area_mm2 if under > 0 else coat.outline.area_mm2
    height = coat.finished_height_mm
    groove_ml = share_percent / 100 * height * (coat.finished.area_mm2 - inner) / ML
    stripe_mm = height * share_percent / 100 / count
    return Stripes(count, stripe_mm, height / count - stripe_mm, depth, groove_ml, coat.final_ml - groove_ml, groove_ml)


def mass_range_g(
    volume_ml: float, low_ml: float, high_ml: float, density: float, density_low: float, density_high: float
) -> tuple[float, float, float]:
    """Give a mass with its range from a volume and a density that are each known with a range.

    Formula: m = V rho; the two spreads are independent, so their relative sizes add in quadrature: low = m (1 - sqrt(v^2 + r^2)).

    Parameters
    ----------
    volume_ml : float
        Volume [ml]
    low_ml : float
        Low end of the volume [ml]
    high_ml : float
        High end of the volume [ml]
    density : float
        Density [g/ml]
    density_low : float
        Low end of the density [g/ml]
    density_high : float
        High end of the density [g/ml]

    Returns
    -------
    tuple of (float, float, float)
        Mass, its low end and its high end [g]

    Raises
    ------
    ValueError
        The density is not positive.

    Range: ranges that hold their middle. Leaves out: that a soft buttercream is both lighter and laid thicker.

    Example
    -------
    >>> [round(m) for m in mass_range_g(1000, 700, 1300, 1.0, 0.6, 1.4)]
    [1000, 500, 1500]

    Source: geometry (sum of squares, as for independent errors)
    """
    if density <= 0:
        raise ValueError("a density is positive")
    mass = volume_ml * density
    if volume_ml <= 0:
        return mass, mass, mass
    down = math.hypot(1 - low_ml / volume_ml, 1 - density_low / density)
    up = math.hypot(high_ml / volume_ml - 1, density_high / density - 1)
    return mass, mass * max(0.0, 1 - down), mass * (1 + up)


def knife_uses(made: Coats, density: Constant) -> tuple[tuple[str, float, float, float], ...]:
    """Give what a tier takes besides its piping: what for, and its mass with the low and the high end [g]."""
    filling = made.filling_ml + made.dam_ml, made.filling_low_ml + made.dam_ml, made.filling_high_ml + made.dam_ml
    coat = made.coat_ml, made.coat_low_ml, made.coat_high_ml
    return tuple((use, *mass_range_g(*volumes, density, density.low, density.high)) for use, volumes in (("filling", filling), ("coat", coat)))


def finished_body(made: Coats, density: float, piped_g: float = 0.0) -> Body:
    """Give a finished tier as the stack sees it, with what is piped on it [g]."""
    return Body(made.finished, made.finished_height_mm, made.sponge_ml, made.total_ml * density + piped_g, levels(made.height_mm))
