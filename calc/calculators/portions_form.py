"""`portions`: how many slices a top gives, by which cut, and where the knife goes."""

from __future__ import annotations

from functools import lru_cache

from calc.calculators.declare import OTHER, TIN, Answer, Asked, Calculator, Input, read_as
from calc.calculators.tin_measures import INPUTS as TIN_INPUTS
from calc.calculators.tin_measures import measured_words, tin_of
from calc.drawing.figures import cutting_scene
from calc.drawing.svg import svg
from calc.portions import CUTS, SLICES, TINS, CutPlan, cut_plan, levels, portion_count
from calc.shapes import TWO_SIZES, Heart, Outline, outline_choices
from calc.sources import constant
from calc.stack import SPONGE_G_PER_ML
from calc.units import Formatter, Problem, a_or_an, read_pair

SHAPE = Input("shape", "Shape", "choice", "round", choices=outline_choices, cake="shape")
WIDTH = Input(
    "width",
    "Width of the tin",
    "length",
    "20 cm",
    low=50,
    high=1000,
    help="Across the tin, such as 20 cm; a hexagon from flat to flat",
    usual=TIN,
    cake="tin_width",
)
LENGTH = Input(
    "length",
    "Length of the tin",
    "length",
    optional=True,
    low=50,
    high=1000,
    help="Front to back, for a rectangle or an oval only",
    usual=(95, 660),
    cake="tin_length",
)
SLICE = Input(
    "slice",
    "Slice",
    "text",
    "25 x 50 mm",
    help="Seen from above, such as 25 x 50 mm or 1 x 2 in, or by name: " + ", ".join(s.name for s in SLICES),
    measure="pair",
    kitchen="slice",
)
SLICE_USUAL_MM = (20.0, 130.0)
SLICE_LOW_MM, SLICE_HIGH_MM = 20.0, 300.0
CUT_NAMES = {"best": "Whichever gives most", "grid": "Grid", "strips": "Strips", "rings": "Rings", "wedges": "Wedges"}
HOW = {
    "grid": "Whole slices on a grid centred on the top",
    "strips": "Strips as wide as the slice is long, each cut across",
    "rings": "Rings as deep as the slice is long, each cut into pieces",
    "wedges": "Cuts through the middle",
}
PORTION_G = constant(80.0, "g", "cfr-101.12", "reference amount of cake of medium weight, iced light cake among it", group="derived")


def outline_of(asked: Asked, answer: Answer) -> Outline:
    """The tin's outline; a length that the shape does not have is said and left out."""
    shape, width, length = asked["shape"], asked["width"], asked["length"]
    if shape not in TWO_SIZES:
        if length is not None and abs(length - width) > 1e-9:
            answer.note(f"Length is not used: {a_or_an(shape)} has one size, its width.")
        top = tin_of(asked, shape, width)
        _say_measured(asked, answer, top)
        return top
    if length is None:
        raise asked.problem("length", f"Length of the tin is empty, and {a_or_an(shape)} needs one. Write it like {answer.say.length(width * 1.5)}")
    if shape == "oval" and max(width, length) > 10 * min(width, length):
        raise asked.problem("length", "An oval is at most ten times as long as it is wide. Make the length shorter, or choose a rectangle")
    top = tin_of(asked, shape, width, length)
    _say_measured(asked, answer, top)
    return top


def _say_measured(asked: Asked, answer: Answer, top: Outline) -> None:
    words = measured_words(asked, top, answer.say)
    if words:
        answer.note(words)


def slice_of(asked: Asked) -> tuple[float, float]:
    """The slice, by size or by name."""
    text: str = asked["slice"]
    name = asked.named("slice")
    for known in SLICES:
        if text.strip().lower() in (known.name, known.label.lower()):
            return known.sizes_mm(asked.units)
    unit = SLICE.bare_unit(asked.units)
    pair = read_pair(text, name, "Slice", unit)
    if pair != read_as(text, OTHER[unit]):  # no unit was written
        SLICE.check_usual(pair, text, name, asked.units, (SLICE_USUAL_MM,) * 2)
    say = Formatter(asked.units)
    for value in pair:
        if not SLICE_LOW_MM <= value <= SLICE_HIGH_MM:
            raise Problem(
                name,
                f"Slice must be between {say.least('length', SLICE_LOW_MM)} and {say.most('length', SLICE_HIGH_MM)} each way. "
                "Write it like 25 x 50 mm or 1 x 2 in",
            )
    return pair


def slice_words(slice_mm: tuple[float, float], say: Formatter) -> str:
    """A slice as "2.5 cm x 5 cm"."""
    return " x ".join(say.length(value) for value in slice_mm)


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `portions`."""
    say = answer.say
    top = outline_of(asked, answer)
    size = slice_of(asked)
    if asked["cut"] == "rings" and top.kind != "round":
        raise Problem("cut", f"Rings are cut on a round, and this is {a_or_an(top.kind)}. Choose strips, grid or wedges")
    plan = cut_plan(top, size, asked["cut"])
    if plan.count == 0:
        _nothing(asked, plan, say)
    high = 1 if asked["height"] is None else levels(asked["height"])
    answer.count("portions", "Equal portions" if high == 1 else f"Equal portions, on {high} levels", high * plan.count)
    answer.count("rectangles", "Of these, whole rectangles", high * plan.rectangles)
    answer.count("area_bound", "The most its area allows", high * plan.area_bound)
    steps = sum(len(cut.lines) for cut in plan.cuts)
    cuts = f"{CUT_NAMES[plan.cut].lower()}, {steps} cut{'s' if steps > 1 else ''}" if steps else "nothing to cut"
    answer.figure("cut", "Cut", steps, "", cuts)
    answer.figure("slice_area", "A slice seen from above", plan.piece_mm2, "mm2", say.area(plan.piece_mm2))
    answer.figure("top_area", "The top", top.area_mm2, "mm2", say.area(top.area_mm2))
    answer.percent("offcut", "Left over as offcuts", max(0.0, round(100 * plan.offcut_mm2 / top.area_mm2, 1)))
    _height(asked, answer, plan)
    told = [cut.sentence(say) for cut in plan.cuts]
    knife = [(str(i), sentence) for i, sentence in enumerate(told, start=1)]
    answer.table("knife", "Where the knife goes", ("Step", "With the knife"), knife, numeric=(0,))
    _compare(answer, top, size, plan, high)
    if plan.rectangles < plan.count:
        answer.note(_ends_words(high * plan.rectangles, high * plan.count))
    answer.note("Slices are counted on the sponge: type the size of the tin, not of the coated cake.")
    answer.caution(
        "Before the knife goes in, take off flowers, wires, picks and figures, and count the supports and boards out. "
        "Hold a hot or a wet knife away from the hand that steadies the cake."
    )
    portions = "1 portion" if plan.count == 1 else f"{plan.count} equal portions"
    title = f"{portions} by {plan.cut}" + (f", on each of {high} levels" if high > 1 else "")
    seen = f"The top of {a_or_an(top.kind)} cake seen from above, cut into {portions}: {'; '.join(told)}."
    answer.drawing("cutting", title, seen, _svg(plan, answer.units))


def _ends_words(whole: int, portions: int) -> str:
    """How many of some portions are whole rectangles, and what the others are; there are always some."""
    ends = "the area of the slice, and a rounded or a pointed end."
    if portions == 1:
        return f"It is not a whole rectangle: it has {ends}"
    which = "None is a whole rectangle: they have" if not whole else f"{whole} are whole rectangles; the others have"
    which = "1 is a whole rectangle; the others have" if whole == 1 else which
    return f"The portions are equal by area. {which} {ends}"


@lru_cache(maxsize=64)
def _svg(plan: CutPlan, units: str) -> str:
    return svg(cutting_scene(plan, units))


def _nothing(asked: Asked, plan: CutPlan, say: Formatter) -> None:
    """Say why no slice comes out."""
    words = slice_words(plan.slice_mm, say)
    if plan.area_bound == 0:
        raise Problem("slice", f"A slice of {words} is larger than this top. Make the slice smaller or the tin wider")
    if asked["cut"] == "best":
        raise Problem("slice", f"No slice of {words} comes out of this top. Make the slice smaller or the tin wider")
    raise Problem("cut", f"No whole slice of {words} comes out of this top by this cut. Make the slice smaller, or leave the cut open")


def levels_words(height_mm: float, count: int, say: Formatter) -> str:
    """How a tall tier is built and cut, in words."""
    high = levels(height_mm)
    way = "half way up" if high == 2 else f"after each {say.length(height_mm / high)}"
    return (
        f"Built with a board and supports {way}, the tier is cut on {high} levels, each by the same plan: {high} x {count} = {high * count} "
        f"portions, each {say.length(height_mm / high)} high."
    )


def _height(asked: Asked, answer: Answer, plan: CutPlan) -> None:
    """What the height does to a portion."""
    height = asked["height"]
    if height is None:
        return
    say = answer.say
    volume_ml = plan.piece_mm2 * height / levels(height) / 1000
    answer.volume("slice_volume", "A slice holds", volume_ml)
    answer.mass(
        "slice_mass",
        "A slice of plain sponge weighs",
        *(volume_ml * density for density in (SPONGE_G_PER_ML, SPONGE_G_PER_ML.low, SPONGE_G_PER_ML.high)),
    )
    answer.note(f"For comparison, food labels in the US count a portion of such cake as {say.mass(PORTION_G)}.")
    high = levels(height)
    if high > 1:
        with answer.quietly():
            answer.count("per_level", "Portions on each level", plan.count)
            answer.count("portions_two_levels", "Portions, on all levels", high * plan.count)
        answer.note(f"A slice {say.length(height)} high is more than most people eat. {levels_words(height, plan.count, say)}")


def _compare(answer: Answer, top: Outline, size: tuple[float, float], plan: CutPlan, high: int) -> None:
    """The other cuts, other slices and other tins beside this one."""
    say, units = answer.say, answer.units
    on_levels = f", on {high} levels" if high > 1 else ""
    rows = []
    for name, how in HOW.items():
        if name == "rings" and top.kind != "round":
            continue
        rows.append((CUT_NAMES[name], str(high * portion_count(top, size, name)), how))
    answer.table("cuts", f"What each cut gives{on_levels}", ("Cut", "Portions", "How"), rows, numeric=(1,))
    answer.table(
        "slices",
        f"This top in slices by name{on_levels}",
        ("Slice", "Size", "Portions"),
        [(known.label, slice_words(known.sizes_mm(units), say), str(high * portion_count(top, known.sizes_mm(units)))) for known in SLICES],
        numeric=(2,),
    )
    answer.table(
        "tins",
        f"Usual tins of this shape in slices of {slice_words(size, say)}{on_levels}",
        ("Tin", "Portions", "Cut"),
        [
            (tin.label, str(high * found.count), CUT_NAMES[found.cut])
            for tin in TINS
            if tin.shape == top.kind and tin.units == units
            for found in [cut_plan(tin.as_full(top.fullness if isinstance(top, Heart) else None), size)]
        ],
        numeric=(1,),
    )


CALCULATOR = Calculator(
    "portions",
    "Portions",
    "How many equal portions a tier gives, and where the knife goes.",
    (
        SHAPE,
        WIDTH,
        LENGTH,
        Input(
            "height",
            "Height",
            "length",
            optional=True,
            low=20,
            high=400,
            help="Of the tier, such as 10 cm; a tall one can be cut on two levels",
            usual=(50, 300),
            cake="height",
        ),
        SLICE,
        *TIN_INPUTS,
        Input("cut", "Cut", "choice", "best", choices=tuple((name, CUT_NAMES[name]) for name in CUTS)),
    ),
    work_out,
)
