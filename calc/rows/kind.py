"""What a kind of row declares: its names, its traits, the tips that suit it, its place, its geometry and the path of the hand.

Map
---
`RowSpec`         what is asked of a row
`Geometry`        the shape a row comes to, before it is weighed
`Way`, `Stroke`   a movement of the hand in three dimensions; the same with its name and its speed
`Exercise`        how a kind is practised in a class
`Kind`            the base of every kind; `calc.rows.forms` has the five forms that kinds share
`KINDS`, `register`   all kinds by name; each file of `calc.rows.kinds` registers its own

It may import what stands above `rows`: sources, curves, division, tips, units. Nothing outside `calc.rows` and `calc.drawing.motifs`
compares the name of a kind: it asks the kind.

Legend: w width of a repeat, y drop, a movement across the row, p advance, A section of the line laid, n count.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from calc.curves import to_and_fro_factor
from calc.sources import constant
from calc.tips import TIPS, Tip, ruche_mm, stroke_mm
from calc.units import capitalised

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
FLUTED = constant(0.85, "-", _PRACTICE, "a ridged shape over the smooth one round it, by volume", low=0.75, high=0.95)
OVER_PIPE_SINK = constant(0.85, "-", _PRACTICE, "a line piped on a line stands out this much of its own height more", low=0.7, high=1.0)
USUAL_TIER_MM = constant(100.0, "mm", _PRACTICE, "height of the tier for which each kind names the opening it begins with")

Vector = tuple[float, float, float]
INTO: Vector = (0.0, 0.0, -1.0)  # at right angles to the surface
BACK_45: Vector = (-math.sqrt(0.5), 0.0, -math.sqrt(0.5))  # at 45° to the surface, pointing back along the row
UP_45: Vector = (0.0, -math.sqrt(0.5), -math.sqrt(0.5))  # at 45° to the surface, from below
_ON_THE_SIDE = ("side", "over", "under")
_ON_AN_EDGE = ("top edge", "base", "top", "inside")


@dataclass(frozen=True)
class RowSpec:
    """What is asked of one row.

    `run_mm` is the length of the reference line it goes along: round the side at the joints, or round the edge. It has `repeats`
    equal parts of `width_mm` (the run divided evenly when not given) and, for swags, strings and scrolls, `drop_mm`. `layers` are rows
    piped with it: nested strings, double and triple swags, or lines over a line. `count` is the number of pieces in all,
    `per_repeat` in one repeat. `size_mm` is the width of a rosette, star or bead, or the length of a leaf. `movement_mm` and
    `advance_mm` are those of a rocked tip. `grams_per_metre` is what a strip weighed, per metre: of the row itself as it is piped
    (`weighed_as` "row"), or of a plain line of that tip ("line"), which then corrects everything that tip lays down. Pieces that are set
    `apart`, as at every joint, keep their natural size instead of meeting each other. `density_ends` is the range of the density, both
    ends alike where it was weighed. `pitch_mm` is the spacing of pieces that the maker's own practice row had.

    An order says besides where it goes (`place`, and `below_mm` the top edge), in which `colour`, and with which `second` one beside it in the
    bag, how many sit at each joint (`per_joint`) and the `path` of its inputs; it leaves the run to the plan, and a `drop_mm` of 0 leaves the
    drop to the cutter.
    """

    kind: str
    tip: Tip
    run_mm: float = 0.0
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
    density_ends: tuple[float, float] = (DENSITY_G_PER_ML.low, DENSITY_G_PER_ML.high)
    size_mm: float | None = None
    pitch_mm: float | None = None
    weighed_as: str = "row"
    apart: bool = False
    place: str = "side"
    colour: str = ""
    below_mm: float | None = None
    per_joint: int = 1
    path: str = ""
    second: str = ""

    @property
    def colours(self) -> tuple[str, ...]:
        """Its colour, or the two that lie side by side in its bag."""
        return (self.colour, self.second) if self.second else (self.colour,)

    @property
    def bag_colour(self) -> str:
        """What its bag is called by: "russet", or "cream and sage"."""
        return " and ".join(self.colours)

    @property
    def repeat_mm(self) -> float:
        """Width of one repeat [mm]."""
        return self.width_mm if self.width_mm is not None else self.run_mm / self.repeats


@dataclass(frozen=True)
class Geometry:
    """Geometry of a row before it is weighed; `piece_mm3` for rows made of solid pieces, else the path says all."""

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
    surplus: float = 1.0  # how much more the tip lays down on its path than a plain line of it


@dataclass(frozen=True)
class Way:
    """A movement of the hand as a kind declares it: as `Stroke`, but for its time.

    `share` is the part of the kind's `start_s` that it takes: so long the hand stays, or moves where nothing is squeezed out
    or the kind has no speed of its own.
    """

    points: tuple[Vector, ...]
    squeeze: tuple[float, ...] = (1.0, 1.0)
    share: float = 0.0
    faces: Vector = BACK_45
    touches: bool = True


@dataclass(frozen=True)
class Stroke:
    """One named movement of the hand.

    `points` are (along the row in the direction of work, down the surface, off the surface) [mm]. The hand moves through them at
    `speed_mm_per_s` and then stays for `still_s` [s]. `squeeze` runs from 0 to 1: at the first point, at even times between, and at the last.
    `faces` is the direction in which the buttercream leaves the tip, on the same axes.
    `touches` says whether what leaves the tip lies on the surface.
    """

    name: str
    points: tuple[Vector, ...]
    speed_mm_per_s: float
    squeeze: tuple[float, ...]
    faces: Vector
    touches: bool
    still_s: float = 0.0

    @property
    def length_mm(self) -> float:
        """Length of the way [mm]."""
        return math.fsum(math.dist(a, b) for a, b in zip(self.points, self.points[1:], strict=False))

    @property
    def time_s(self) -> float:
        """How long it takes [s]."""
        return self.still_s + (self.length_mm / self.speed_mm_per_s if self.speed_mm_per_s else 0.0)


@dataclass(frozen=True)
class Exercise:
    """Something to practise: a row of piping with its tip, in lines of 168 mm on a printed sheet.

    `rank` puts exercises in order, the easiest first; `usual` the order in which a class without wishes meets them. `words` are names
    besides those of the kind. A line with a `gap_mm` wanders over patches `high_mm` high, so wide that its passes lie that far apart.
    `tools` are what each student needs for it besides a bag and its tip; `page` is its page, seen from the techniques, where that is not the
    kind's.
    """

    key: str
    name: str
    words: tuple[str, ...]
    kind: str
    tip: Tip
    lines: int
    repeats: int = 1  # swags, strings, scrolls in one line
    pieces: int | None = None  # stars, rosettes, leaves in one line
    drop_mm: float = 0.0
    size_mm: float | None = None
    aim: str = ""
    rank: int = 0
    usual: int = 0
    layers: int = 1
    gap_mm: float = 0.0
    high_mm: float = 0.0
    tools: tuple[str, ...] = ()
    page: str = ""


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A kind of row.

    `speed_mm_per_s` is how fast the hand follows the path; `start_s` the time each piece takes to start and break off. Both are
    common practice for a hand with some use, with a range of `calc.rows.amounts.SLOW` and `QUICK`. `begins_with` is the family and the
    opening [mm] to begin with on a tier of usual height.
    """

    name: str
    listed: int  # where it stands in lists and choices
    as_effect: int = 1000  # where it stands among what a tip makes
    plural: str
    page: str = ""  # its page among the techniques, and what the list of techniques calls it
    page_title: str = ""
    also: tuple[str, ...] = ()  # other names a reader may look for
    families: tuple[str, ...]
    begins_with: tuple[str, float]
    place: str  # where it usually goes, a place of `calc.rows.placement`
    angle: str
    hand: str
    steps: tuple[str, ...]  # the named segments of the hand's path
    speed_mm_per_s: float = 0.0
    start_s: float = 0.0
    counted: bool = False  # a reader asks how many there are
    exercise: Exercise | None = None
    variants: tuple[Exercise, ...] = ()  # other ways of piping it that are practised by themselves
    side_phase: str = "rows on the side"  # when it is piped among the rows on the side
    joint_phase: str = "flowers over the joints"  # when it is piped over the joints
    texture: str = "piping"  # which texture of a recipe it wants
    plain_line: bool = False  # a strip of it, weighed, tells what the tip lays down in any row
    follows: bool = False  # piped over a hung row it takes that row's curve
    led: bool = False  # each hand guides it in its own way, so that the length of its path spreads
    swells: bool = False  # a solid piece whose volume goes by the swell of its tip
    tucked: bool = False  # lies under the flowers of the same joints
    flower: bool = False  # leaves are tucked under it
    stands_up: bool = False  # on a top it shows over the edge
    colour: str = "russet"  # a colour of the palette that drawings of it begin with
    openings: tuple[tuple[str, float, float], ...] = ()  # tips of the table that make it besides: family, from, to [mm]
    # traits of a form, set by the classes of `calc.rows.forms`
    curve: str = "straight"  # "arc", "hang", "straight", "scroll" or "piece"
    hangs: bool = False  # hangs between joints
    scroll: bool = False  # one scroll to each repeat
    rises: bool = False  # its curve rises above its line as far as it falls below
    side_by_side: bool = False  # pieces that meet each other and the joints
    set_apart: bool = False  # pieces piped one by one, as many as are asked for
    at_joints: bool = True  # can sit at every joint

    def held(self, family: str) -> str:
        """How a tip of that family is held: its thick end is spoken of only where it has one."""
        return self.angle if family == "petal" else self.angle.split(", the thick end of a petal tip")[0]

    @property
    def title(self) -> str:
        """The name as the first word of a line: "C scroll" keeps its letter."""
        return capitalised(self.name)

    @property
    def titles(self) -> str:
        """The plural as the first word of a line."""
        return capitalised(self.plural)

    @property
    def takes_drop(self) -> bool:
        """Whether it has a drop or a depth."""
        return self.hangs or self.scroll

    @property
    def places(self) -> tuple[str, ...]:
        """The places of `calc.rows.placement` that suit it; where it stands on another of them it is worked out all the same."""
        if self.hangs or self.scroll:
            return _ON_THE_SIDE
        if self.set_apart:
            return ("joints", *_ON_AN_EDGE)
        found = (*_ON_AN_EDGE, "over") + (("joints",) if self.at_joints else ())
        return found if self.side_by_side or self.place not in _ON_THE_SIDE else tuple(dict.fromkeys((*found, *_ON_THE_SIDE)))

    @property
    def drop_is(self) -> str:
        """What its drop means, so that one typed for another kind still suits: how deep it hangs, how high a scroll is; empty where it has none."""
        return "hung" if self.hangs else "scroll" if self.scroll else ""

    @property
    def by_repeat(self) -> bool:
        """Whether a reader says how many go into one repeat."""
        return self.set_apart or self.scroll

    @property
    def countable(self) -> bool:
        """Whether its pieces are spoken of one by one: "9 swags"; a border runs on."""
        return self.curve != "straight"

    @property
    def in_pieces(self) -> bool:
        """Whether it is made of pieces with a natural pitch."""
        return self.natural_pitch_mm(TIPS[0].tip) > 0

    def begin_tip(self, height_mm: float = float(USUAL_TIER_MM)) -> Tip:
        """The tip to begin with on a tier of some height: the opening grows with it, by at most a third either way, and is one of the table."""
        family, opening = self.begins_with
        wanted = opening * min(4 / 3, max(2 / 3, height_mm / USUAL_TIER_MM))
        nearest = min(
            (use.tip for use in TIPS if use.tip.family == family), key=lambda tip: (abs(math.log(tip.opening_mm / wanted)), tip.points), default=None
        )
        return nearest or Tip(family, opening)

    def natural_pitch_mm(self, tip: Tip, size_mm: float | None = None) -> float:
        """Natural distance from one piece to the next; 0 for a row that is one line [mm]."""
        return 0.0

    def own_pitch_mm(self, spec: RowSpec) -> float:
        """The maker's own distance between pieces: as measured on a practice row, or else the natural one [mm]."""
        return spec.pitch_mm or self.natural_pitch_mm(spec.tip, spec.size_mm)

    def across_mm(self, tip: Tip) -> float:
        """How wide that tip pipes it: across the row, or across a single piece; for a leaf, its length [mm]."""
        rocking = self.rocking_mm(tip)
        return rocking[0] + stroke_mm(tip) if rocking else tip.bead_width_mm

    def drops_mm(self, tip: Tip, drop_mm: float, layers: int) -> tuple[float, ...]:
        """Drops of its layers, deepest first; lines over a line all have the same [mm]."""
        return (drop_mm,) * layers

    def rocking_mm(self, tip: Tip) -> tuple[float, float] | None:
        """Usual movement across the row and advance along it of a tip that is rocked; None for one that moves straight on [mm]."""
        return None

    def rocked(self, spec: RowSpec) -> tuple[float, float]:
        """Movement of the tip [mm] and how many times longer its path is [-]; a tip that is not rocked moves by 0."""
        usual = self.rocking_mm(spec.tip)
        if usual is None:
            if not spec.movement_mm:
                return 0.0, 1.0
            usual = spec.movement_mm, ruche_mm(spec.tip)[1]
        movement, advance = usual
        if spec.movement_mm is not None:
            movement = spec.movement_mm
        if spec.advance_mm is not None:
            advance = spec.advance_mm
        return movement, to_and_fro_factor(movement, advance)

    def band_mm(self, tip: Tip, movement_mm: float) -> tuple[float, float]:
        """Width on the surface and height off it of a line, rocked or not [mm]."""
        if movement_mm <= 0:
            return tip.bead_width_mm, tip.bead_height_mm
        return movement_mm + stroke_mm(tip), max(tip.bead_height_mm, 0.9 * tip.opening_mm if tip.slot_mm else tip.bead_height_mm)

    def geometry(self, spec: RowSpec, notes: list[str]) -> Geometry:
        """The shape of the row that is asked for; what speaks against it goes into `notes`."""
        raise NotImplementedError

    def ways(self, spec: RowSpec) -> tuple[Way, ...]:
        """The movements of the hand for one piece, for one repeat of a row that hangs or runs on: one to each of `steps`."""
        raise NotImplementedError

    def strokes(self, spec: RowSpec) -> tuple[Stroke, ...]:
        """The path of the hand for one piece or one repeat, with the names and the speeds of its segments."""
        found = []
        for name, way in zip(self.steps, self.ways(spec), strict=True):
            still = way.share * self.start_s
            stroke = Stroke(name, way.points, self.speed_mm_per_s, way.squeeze, way.faces, way.touches, still)
            if still and stroke.length_mm and not (self.speed_mm_per_s and any(way.squeeze)):
                stroke = replace(stroke, speed_mm_per_s=stroke.length_mm / still, still_s=0.0)
            found.append(stroke)
        return tuple(found)

    def mark_points(self, width_mm: float, drop_mm: float, count: int = 24) -> tuple[tuple[float, float], ...]:
        """The line of one repeat from joint to joint: x and depth [mm]."""
        return tuple((width_mm * i / count, 0.0) for i in range(count + 1))


KINDS: dict[str, Kind] = {}


def register(kind: Kind) -> None:
    """Add a kind to `KINDS`, in the order of lists."""
    if kind.name in KINDS:
        raise ValueError(f"two kinds of row are called {kind.name!r}")
    kinds = sorted((*KINDS.values(), kind), key=lambda one: one.listed)
    KINDS.clear()
    KINDS.update((one.name, one) for one in kinds)
