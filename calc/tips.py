"""Tips: a family and a measured opening, and the line they lay. It may import `units` and `sources`.

Map
---
`FAMILIES`                        the families by the trade's names
`Tip`                             family and opening, with points and inner width for stars and the thick end for slots;
                                  `section_mm2`, `swell`, `bead_width_mm`, `bead_height_mm`
`round_section_mm2`, `star_section_mm2`, `teardrop_section_mm2`, `lens_section_mm2`, `slot_section_mm2`, `notched_section_mm2`
                                  the section of each kind of opening
`read_tip`                        "petal 11 mm" -> Tip
`ruche_mm`, `stroke_mm`           movement and advance of a rocked tip, and the thickness of one stroke
`TipUse`, `TIPS`                  the table of tips (data in `calc.tips_data`); what a tip makes, and how large, is in `calc.rows.effects`
`MEASURE`                         how to tell a tip

Legend: d diameter, n points, R and r half the outer and inner width of a star, L length of a slot, t its thickness.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from calc import units
from calc.sources import Constant, constant
from calc.tips_data import ROWS
from calc.units import Problem

FAMILIES = ("round", "open star", "closed star", "petal", "leaf", "ruffle", "basket")
SMALLEST_MM = 0.5
WIDEST_MM = 60.0
MEASURE = "A tip is known by its family and its opening. Measure the opening across its widest part with callipers or a ruler and go by that."

# --- what a typical tip of a family looks like when only its opening is known ---------------------------------------------

_PRACTICE = "common-practice"
OPEN_STAR_INNER = constant(0.65, "-", _PRACTICE, "inner over outer width of an open star: cuts a third of the way to the middle", low=0.55, high=0.8)
CLOSED_STAR_INNER = constant(0.40, "-", _PRACTICE, "inner over outer width of a closed star, whose teeth are bent inwards", low=0.3, high=0.55)
PETAL_THICK = constant(0.26, "-", _PRACTICE, "thick end of a petal tip over the length of its slot", low=0.2, high=0.32)
PETAL_THIN = constant(0.35, "-", _PRACTICE, "thin end of a petal tip over its thick end", low=0.2, high=0.5)
LEAF_THICK = constant(0.45, "-", _PRACTICE, "mouth of a leaf tip: how far it gapes over how wide it is", low=0.35, high=0.6)
RUFFLE_THICK = constant(0.16, "-", _PRACTICE, "thickness of a ruffle tip's slot over its length", low=0.12, high=0.2)
BASKET_THICK = constant(0.16, "-", _PRACTICE, "thickness of a basket tip's slot over its width, at the ridges", low=0.12, high=0.2)
BASKET_NOTCH = constant(0.60, "-", _PRACTICE, "thickness of a basket tip's slot between its teeth, over that at the ridges", low=0.5, high=0.7)
PETAL_LEAN_DEG = constant(
    45.0, "deg", _PRACTICE, "a petal tip is held so that its thin end stands away from the side at about this angle", low=30.0, high=60.0
)

SWELL: dict[str, Constant] = {
    "round": constant(
        1.15, "-", _PRACTICE, "the hand travels a little slower than the line comes out, so it is thicker than the hole", low=1.0, high=1.4
    ),
    "open star": constant(1.2, "-", _PRACTICE, "the ridges leave freely; a steady squeeze fills the grooves a little", low=1.0, high=1.5),
    "closed star": constant(
        1.95,
        "-",
        _PRACTICE,
        "the bent teeth hold the flow back, so the hand goes more slowly, the deep grooves close, and the line is as full as an open star's",
        low=1.5,
        high=2.6,
    ),
    "petal": constant(1.2, "-", _PRACTICE, "a thin slot needs a firm squeeze, and its thick end feeds faster than its thin one", low=1.0, high=1.5),
    "leaf": constant(1.3, "-", _PRACTICE, "the mouth opens under pressure and the leaf swells before it is drawn out", low=1.05, high=1.65),
    "ruffle": constant(1.25, "-", _PRACTICE, "the wavy edge lags behind and gathers in folds", low=1.0, high=1.6),
    "basket": constant(1.1, "-", _PRACTICE, "a flat band is laid at the speed it comes out; only its edges spread", low=1.0, high=1.3),
}


# --- sections ----------------------------------------------------------------------------------------------------------


def round_section_mm2(opening_mm: float) -> float:
    """Give the section of a round opening.

    Formula: A = pi d^2 / 4.

    Parameters
    ----------
    opening_mm : float
        Diameter d [mm]

    Returns
    -------
    float
        Area of the opening [mm2]

    Raises
    ------
    ValueError
        The opening is not positive.

    Range: d > 0. Leaves out: a dented tip.

    Example
    -------
    >>> round(round_section_mm2(2), 6)
    3.141593

    Source: geometry (circle)
    """
    _check_positive(opening_mm)
    return math.pi * opening_mm * opening_mm / 4


def star_section_mm2(outer_mm: float, inner_mm: float, points: int) -> float:
    """Give the section of a star-shaped opening.

    Formula: A = n R r sin(pi/n): 2n triangles between an outer corner at R, the middle, and an inner corner at r.

    Parameters
    ----------
    outer_mm : float
        Width across the points, 2 R [mm]
    inner_mm : float
        Width across the notches, 2 r [mm]
    points : int
        Number of points n [-]

    Returns
    -------
    float
        Area of the opening [mm2]

    Raises
    ------
    ValueError
        There are fewer than three points, or the inner width is not between zero and the outer one.

    Range: n >= 3, 0 < r <= R; r = R cos(pi/n) is the regular n-gon. Leaves out: rounded points.

    Example
    -------
    >>> round(star_section_mm2(2, 2 * 0.5, 6), 9)
    1.5

    Source: geometry (triangle from two sides and their angle)
    """
    _check_positive(outer_mm, inner_mm)
    if points < 3 or inner_mm > outer_mm:
        raise ValueError("a star has three points or more, and is no wider between them than across them")
    return points * outer_mm * inner_mm / 4 * math.sin(math.pi / points)


def teardrop_section_mm2(length_mm: float, thick_mm: float, thin_mm: float) -> float:
    """Give the section of a teardrop slot: a round thick end and a round thin end joined by straight sides.

    Formula: with R, r the ends' radii, c = L - R - r and sin b = (R - r)/c, A = (R + r) c cos b + R^2 (pi/2 + b) + r^2 (pi/2 - b).

    Parameters
    ----------
    length_mm : float
        Length of the slot L, end to end [mm]
    thick_mm : float
        Width of the thick end 2 R [mm]
    thin_mm : float
        Width of the thin end 2 r [mm]

    Returns
    -------
    float
        Area of the opening [mm2]

    Raises
    ------
    ValueError
        An end is not positive, the thin end is the thicker, or the slot is shorter than it is thick.

    Range: 0 < r <= R <= L/2. Leaves out: slots that are curved.

    Example
    -------
    >>> round(teardrop_section_mm2(10, 2, 2) - (8 * 2 + 3.141592653589793), 9)
    0.0

    Source: geometry (common tangents of two circles)
    """
    _check_positive(length_mm, thick_mm, thin_mm)
    if thin_mm > thick_mm or thick_mm > length_mm:
        raise ValueError("a teardrop is longer than it is thick, and thick at one end")
    big, small = thick_mm / 2, thin_mm / 2
    between = length_mm - big - small
    if between <= big - small:  # the thin end lies inside the thick one: a circle
        return math.pi * big * big
    bend = math.asin((big - small) / between)
    return (big + small) * between * math.cos(bend) + big * big * (math.pi / 2 + bend) + small * small * (math.pi / 2 - bend)


def lens_section_mm2(width_mm: float, gape_mm: float) -> float:
    """Give the section of a lens-shaped mouth, as of a leaf tip cut to a V.

    Formula: two circular segments of chord w and sagitta t/2: A = 2 (R^2 a - (R - t/2) w/2), R = t/4 + w^2/(4 t), sin a = w/(2R).

    Parameters
    ----------
    width_mm : float
        Width of the mouth w [mm]
    gape_mm : float
        How far it gapes at the middle t [mm]

    Returns
    -------
    float
        Area of the opening [mm2]

    Raises
    ------
    ValueError
        A value is not positive, or the mouth gapes wider than it is.

    Range: 0 < t <= w; t = w is the circle. Leaves out: the depth of the V, which shapes the leaf's point and not its section.

    Example
    -------
    >>> round(lens_section_mm2(2, 2), 6)
    3.141593

    Source: segment (Circular Segment)
    """
    _check_positive(width_mm, gape_mm)
    if gape_mm > width_mm:
        raise ValueError("a leaf tip's mouth is wider than it gapes")
    sagitta = gape_mm / 2
    radius = sagitta / 2 + width_mm * width_mm / (8 * sagitta)
    angle = 2 * math.atan(2 * sagitta / width_mm)
    return 2 * (radius * radius * angle - (radius - sagitta) * width_mm / 2)


def slot_section_mm2(length_mm: float, thick_mm: float) -> float:
    """Give the section of an even slot with round ends, as of a ruffle tip.

    Formula: A = (L - t) t + pi t^2 / 4.

    Parameters
    ----------
    length_mm : float
        Length of the slot L, end to end along its bend [mm]
    thick_mm : float
        Its thickness t [mm]

    Returns
    -------
    float
        Area of the opening [mm2]

    Raises
    ------
    ValueError
        A value is not positive, or the slot is thicker than it is long.

    Range: 0 < t <= L.

    Example
    -------
    >>> round(slot_section_mm2(10, 2), 4)
    19.1416

    Source: geometry (rectangle and circle)
    """
    _check_positive(length_mm, thick_mm)
    if thick_mm > length_mm:
        raise ValueError("a slot is longer than it is thick")
    return (length_mm - thick_mm) * thick_mm + math.pi * thick_mm * thick_mm / 4


def notched_section_mm2(width_mm: float, ridge_mm: float, notch_mm: float) -> float:
    """Give the section of a flat slot with teeth along one side, as of a basket tip.

    Formula: A = w (t + u) / 2, the mean of the thickness at the ridges and between them, for teeth side by side.

    Parameters
    ----------
    width_mm : float
        Width of the slot w [mm]
    ridge_mm : float
        Thickness at the ridges t [mm]
    notch_mm : float
        Thickness between them u [mm]

    Returns
    -------
    float
        Area of the opening [mm2]

    Raises
    ------
    ValueError
        A value is not positive, or the slot is thicker between the ridges.

    Range: 0 < u <= t. Leaves out: teeth that stand apart.

    Example
    -------
    >>> notched_section_mm2(12, 2, 1)
    18.0

    Source: geometry (trapezium)
    """
    _check_positive(width_mm, ridge_mm, notch_mm)
    if notch_mm > ridge_mm:
        raise ValueError("a basket tip is thinner between its ridges")
    return width_mm * (ridge_mm + notch_mm) / 2


def _check_positive(*values_mm: float) -> None:
    """Raise ValueError unless every measure is positive."""
    if not all(value > 0 for value in values_mm):
        raise ValueError("an opening has a positive width")


def usual_points(family: str, opening_mm: float) -> int:
    """Give the number of points a star of this opening usually has.

    Formula: 5 under 3 mm, 6 under 9 mm, 8 from there; none for other families.

    Parameters
    ----------
    family : str
        Family of the tip [-]
    opening_mm : float
        Its opening [mm]

    Returns
    -------
    int
        Number of points, 0 for other families [-]

    Range: stars. Leaves out: fine stars of many teeth, whose points are counted and given.

    Example
    -------
    >>> usual_points("open star", 7), usual_points("petal", 7)
    (6, 0)

    Source: common-practice
    """
    if family not in ("open star", "closed star"):
        return 0
    return 5 if opening_mm < 3 else 6 if opening_mm < 9 else 8


# --- a tip -------------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Tip:
    """A tip by its family and measured opening.

    What is not given takes what is usual for the family. `opening_mm` is the widest measure: the diameter of a round, the width
    across the points of a star, the length of a petal's or ruffle's slot, the width of a leaf's mouth or a basket's slot.
    `points` and `inner_mm` belong to stars (width across the notches); `slot_mm` is the thickness: of a petal at its thick end,
    of a leaf where it gapes most, of a ruffle or basket tip's slot.

    >>> Tip("petal", 11.0) == Tip("petal", 11.0, slot_mm=2.86)
    True
    """

    family: str
    opening_mm: float
    points: int = 0
    inner_mm: float = 0.0
    slot_mm: float = 0.0

    def __post_init__(self) -> None:
        if self.family not in FAMILIES:
            raise ValueError(f"no family of tips is called {self.family!r}")
        if not SMALLEST_MM <= self.opening_mm <= WIDEST_MM:
            raise ValueError("a tip has an opening between 0.5 and 60 mm")
        family, opening = self.family, float(self.opening_mm)
        star = family.endswith("star")
        usual_inner = OPEN_STAR_INNER if family == "open star" else CLOSED_STAR_INNER
        usual_slot = {"petal": PETAL_THICK, "leaf": LEAF_THICK, "ruffle": RUFFLE_THICK, "basket": BASKET_THICK}.get(family, 0.0)
        points = (self.points or usual_points(family, opening)) if star else 0
        inner = (self.inner_mm or round(usual_inner * opening, 6)) if star else 0.0
        slot = 0.0 if family == "round" or star else self.slot_mm or round(usual_slot * opening, 6)
        if star and (not 3 <= points <= 40 or not 0 < inner <= opening):
            raise ValueError("a star has 3 to 40 points, and is no wider between them than across them")
        if not star and family != "round" and not 0 < slot <= opening:
            raise ValueError("a slot is longer than it is thick")
        for name, value in (("opening_mm", opening), ("points", points), ("inner_mm", inner), ("slot_mm", slot)):
            object.__setattr__(self, name, value)

    @property
    def name(self) -> str:
        """Family and opening as one text, such as "petal 11 mm"; points only where they are not the usual number."""
        return _name(self)

    @property
    def section_mm2(self) -> float:
        """Area of the opening [mm2]."""
        return _section(self)

    @property
    def swell(self) -> Constant:
        """How many times the opening's section a piped line has, with its range and its reason [-]."""
        return SWELL[self.family]

    @property
    def laid_mm2(self) -> float:
        """Section of the line that is laid down: the opening's, swollen [mm2]."""
        return _section(self) * SWELL[self.family]

    @property
    def bead_width_mm(self) -> float:
        """How wide a line the tip lays on the surface [mm]."""
        return _bead(self)[0]

    @property
    def bead_height_mm(self) -> float:
        """How far that line stands out from the surface [mm]."""
        return _bead(self)[1]


@lru_cache(maxsize=512)
def _name(tip: Tip) -> str:
    text = f"{tip.family} {units.Formatter().opening(tip.opening_mm)}"
    usual = usual_points(tip.family, tip.opening_mm)
    return text if tip.points == usual else f"{text}, {tip.points} points"


@lru_cache(maxsize=512)
def _section(tip: Tip) -> float:
    match tip.family:
        case "round":
            return round_section_mm2(tip.opening_mm)
        case "open star" | "closed star":
            return star_section_mm2(tip.opening_mm, tip.inner_mm, tip.points)
        case "petal":
            return teardrop_section_mm2(tip.opening_mm, tip.slot_mm, tip.slot_mm * PETAL_THIN)
        case "leaf":
            return lens_section_mm2(tip.opening_mm, tip.slot_mm)
        case "ruffle":
            return slot_section_mm2(tip.opening_mm, tip.slot_mm)
        case _:
            return notched_section_mm2(tip.opening_mm, tip.slot_mm, tip.slot_mm * BASKET_NOTCH)


@lru_cache(maxsize=512)
def _bead(tip: Tip) -> tuple[float, float]:
    """Width on the surface and height off it of a plain line, the opening's two measures grown by the root of the swell.

    A star whose teeth cut deeper than an open star's lays a line with grooves no deeper than that one's: what it lays closes
    them before it makes the line any wider.
    """
    grown = math.sqrt(SWELL[tip.family])
    if tip.points:
        grown *= math.sqrt(min(1.0, tip.inner_mm / tip.opening_mm / OPEN_STAR_INNER))
    long, short = tip.opening_mm * grown, tip.slot_mm * grown
    match tip.family:
        case "round" | "open star" | "closed star":
            return long, long
        case "petal" | "ruffle":
            lean = math.radians(PETAL_LEAN_DEG)
            return long * math.cos(lean) + short * math.sin(lean), long * math.sin(lean) + short * math.cos(lean)
        case _:
            return long, short


# --- reading -----------------------------------------------------------------------------------------------------------

_OTHER_WORDS = {
    "plain round": "round",
    "plain": "round",
    "writing": "round",
    "writer": "round",
    "rose": "petal",
    "basketweave": "basket",
    "openstar": "open star",
    "closedstar": "closed star",
    "basket weave": "basket",
    "frill": "ruffle",
    "french star": "open star",
}
_HOW_TO_WRITE = "Write a family and a measured opening, like petal 11 mm or open star 7 mm"


def read_tip(text: str, input_name: str, label: str) -> Tip:
    """Read a tip as its family and opening: "petal 11 mm", "open star 12 mm, 8 points", "petal 11 x 3 mm"; the family may come last.

    >>> read_tip("7 mm open star", "tip", "Tip").name
    'open star 7 mm'
    """
    return _read_tip(text, input_name, label)


@lru_cache(maxsize=512)
def _read_tip(text: str, input_name: str, label: str) -> Tip:
    words = " ".join(units.read_text(text, input_name, label).lower().replace(",", " , ").split())
    words = re.sub(r"(?<=\d) , (?=\d)", ",", words)
    family, rest = _family_in(words, input_name, label)
    points = 0
    found = re.search(r"\b(\d{1,3})[ -]?(?:points?|pointed|teeth|tooth)\b", rest)
    if found:
        points = int(found[1])
        rest = rest[: found.start()] + " " + rest[found.end() :]
        if not family.endswith("star"):
            raise Problem(input_name, f"{label} has points, which only a star has. {_HOW_TO_WRITE}")
        if not 3 <= points <= 40:
            raise Problem(input_name, f"{label} must have between 3 and 40 points. Count the teeth, like open star 12 mm 8 points")
    rest = " ".join(re.sub(r"\b(wide|opening|tip|tips|nozzle|measured|with|long)\b|(?<!\d),|,(?!\d)", " ", rest).split())
    if not rest:
        raise Problem(input_name, f"{label} has no opening. {_HOW_TO_WRITE}")
    if re.search(r"\d.*[x×]\s*\d", rest):
        opening, thick = sorted(units.read_pair(rest, input_name, label, "millimeter"), reverse=True)
        _limits(opening, input_name, label)
        if family == "round":
            raise Problem(input_name, f"{label} is round, which has one measure across. {_HOW_TO_WRITE}")
        if thick < 0.1:
            raise Problem(input_name, f"{label} must be 0.1 mm thick or more. {_HOW_TO_WRITE}")
        if family.endswith("star"):
            return Tip(family, opening, points, inner_mm=thick)
        return Tip(family, opening, slot_mm=thick)
    if rest.startswith("#"):
        raise Problem(input_name, f"{label} has a number that a maker stamped on it. {_HOW_TO_WRITE}")
    opening, bare = units.read_measure(rest, "length", input_name, label, "millimeter")
    if bare:
        _ask_if_unusual(family, opening, bare, input_name, label)
    _limits(opening, input_name, label)
    return Tip(family, opening, points)


def _ask_if_unusual(family: str, opening_mm: float, bare: str, input_name: str, label: str) -> None:
    """Raise a `Problem` where a bare number is no likely opening for a family: it may be inches, or a number stamped on the tip."""
    known = [use.tip.opening_mm for use in TIPS if use.tip.family == family]
    low, high = 0.6 * min(known), 1.3 * max(known)
    if low <= opening_mm <= high:
        return
    inches = opening_mm * units.factor("length", "inch")
    other = f", or {family} {bare} in" if low <= inches <= high else ", not a number stamped on the tip"
    raise Problem(
        input_name,
        f"{label}: {family} {bare} is read as an opening of {bare} mm, which is unusually {'small' if opening_mm < low else 'large'}. "
        f"Write {family} {bare} mm if it measures that{other}",
    )


def _limits(opening_mm: float, input_name: str, label: str) -> None:
    if not SMALLEST_MM <= opening_mm <= WIDEST_MM:
        raise Problem(input_name, f"{label} must have an opening between 0.5 mm and 60 mm. {_HOW_TO_WRITE}")


def _family_in(words: str, input_name: str, label: str) -> tuple[str, str]:
    """The family named in a text, and the text without it."""
    for name in sorted((*FAMILIES, *_OTHER_WORDS), key=len, reverse=True):
        found = re.search(rf"(?<![a-z]){re.escape(name)}(?![a-z])", words)
        if found:
            return _OTHER_WORDS.get(name, name), words[: found.start()] + " " + words[found.end() :]
    if re.search(r"(?<![a-z])star(?![a-z])", words):
        raise Problem(
            input_name,
            f"{label} says star, and there are two: open star, whose teeth stand straight, and closed star, whose teeth bend inwards. "
            f"{_HOW_TO_WRITE}",
        )
    raise Problem(input_name, f"{label} names none of the families {', '.join(FAMILIES)}. {_HOW_TO_WRITE}")


# --- what a tip makes --------------------------------------------------------------------------------------------------
# Sizes as multiples of the opening; the proportions of a hand that pipes in the usual way.

# Movement (from one side to the other) and advance (for one to-and-fro) of a tip rocked along a ruched line, over the opening.
RUCHE: dict[str, tuple[Constant, Constant]] = {
    "round": (
        constant(1.5, "-", _PRACTICE, "movement of a rocked round tip over its opening", low=1.0, high=2.5),
        constant(1.8, "-", _PRACTICE, "advance of a rocked round tip over its opening", low=1.4, high=2.4),
    ),
    "open star": (
        constant(1.2, "-", _PRACTICE, "movement of a rocked star over its opening", low=0.8, high=2.0),
        constant(1.5, "-", _PRACTICE, "advance of a rocked star over its opening", low=1.2, high=2.2),
    ),
    "closed star": (
        constant(1.3, "-", _PRACTICE, "movement of a rocked closed star over its opening", low=0.8, high=2.0),
        constant(1.6, "-", _PRACTICE, "advance of a rocked closed star over its opening", low=1.2, high=2.4),
    ),
    "petal": (
        constant(0.70, "-", _PRACTICE, "movement of a rocked petal tip over its slot: two thirds of its length", low=0.5, high=1.0),
        constant(0.50, "-", _PRACTICE, "advance of a rocked petal tip over its slot: folds about two thicknesses apart", low=0.4, high=0.75),
    ),
    "leaf": (
        constant(0.60, "-", _PRACTICE, "movement of a rocked leaf tip over its mouth", low=0.4, high=1.0),
        constant(0.80, "-", _PRACTICE, "advance of a rocked leaf tip over its mouth", low=0.6, high=1.1),
    ),
    "ruffle": (
        constant(0.40, "-", _PRACTICE, "movement of a rocked ruffle tip over its slot, which makes part of the frill itself", low=0.2, high=0.6),
        constant(0.50, "-", _PRACTICE, "advance of a rocked ruffle tip over its slot", low=0.35, high=0.7),
    ),
    "basket": (
        constant(0.30, "-", _PRACTICE, "movement of a rocked basket tip over its slot", low=0.2, high=0.5),
        constant(0.45, "-", _PRACTICE, "advance of a rocked basket tip over its slot", low=0.35, high=0.6),
    ),
}


def ruche_mm(tip: Tip) -> tuple[float, float]:
    """Give the usual movement and advance of a tip rocked to and fro along a line.

    Formula: the family's multiples of the opening, from `RUCHE`.

    Parameters
    ----------
    tip : Tip
        The tip [-]

    Returns
    -------
    tuple of (float, float)
        Movement across the row and advance along it for one to-and-fro [mm]

    Range: any tip. Leaves out: a hand's own way; measure a strip and give both.

    Example
    -------
    >>> [round(v, 2) for v in ruche_mm(Tip("petal", 11))]
    [7.7, 5.5]

    Source: common-practice
    """
    movement, advance = RUCHE[tip.family]
    return movement * tip.opening_mm, advance * tip.opening_mm


def stroke_mm(tip: Tip) -> float:
    """Give the thickness of one stroke of a rocked tip: the bead of a round or star, the swollen slot of the others.

    Formula: bead, or slot x sqrt(swell).

    Parameters
    ----------
    tip : Tip
        The tip [-]

    Returns
    -------
    float
        Thickness along the row [mm]

    Range: any tip. Leaves out: the taper of a petal's slot.

    Example
    -------
    >>> round(stroke_mm(Tip("petal", 11)), 2)
    3.13

    Source: common-practice
    """
    return tip.slot_mm * math.sqrt(tip.swell) if tip.slot_mm else tip.bead_width_mm


# --- the table ---------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class TipUse:
    """One row of the table: a tip, what it makes, how it is held, what it is easily taken for."""

    tip: Tip
    makes: tuple[str, ...]
    angle: str
    faces: str
    consistency: str
    confused_with: str


TIPS: tuple[TipUse, ...] = tuple(
    TipUse(Tip(family, opening, points), makes, angle, faces, consistency, confused)
    for family, opening, points, makes, angle, faces, consistency, confused in ROWS
)
