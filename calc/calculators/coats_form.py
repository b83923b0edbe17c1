"""`coats`: filling, crumb coat and final coat of one tier, by thickness or by coating disc."""

from __future__ import annotations

import math
import re

from calc.buttercream import standing
from calc.calculators.batch_form import DENSITY_INPUTS, density_of
from calc.calculators.declare import TIN, Answer, Asked, Calculator, Input, ranged, span
from calc.calculators.tin_measures import INPUTS as TIN_INPUTS
from calc.calculators.tin_measures import measured_words, tin_of
from calc.coats import LAYERS_MOST, SHRINK_MM, Coats, bands, coats, knife_uses, mass_range_g, stripes
from calc.colours import BOWL_LOSS_SHARE, MARGIN_SHARE, amounts_by_colour
from calc.drawing.coat_section import section_scene
from calc.drawing.scene import Scene
from calc.drawing.svg import svg
from calc.shapes import TWO_SIZES, Outline, outline_choices
from calc.sources import Constant
from calc.units import Problem, read_number

BUTTERCREAM, OTHER = "buttercream", "something_else"
STYLES = (("plain", "One colour"), ("ombre", "Ombre, bands of colour"), ("striped", "Striped, combed grooves filled"))


def _shares(text: str) -> tuple[float, ...]:
    """Read "2, 1, 1" or "2 : 1 : 1" as shares of the height, from the base up."""
    parts = [part for part in re.split(r"[\s,;:/]+", re.sub(r"(?<=\d)\s*%", " ", text)) if part]
    if len(parts) > 24:
        raise Problem("shares", f"Shares of height are 24 numbers at most; there are {len(parts)}. Write them like 2, 1, 1")
    return tuple(read_number(part, "shares", "Shares of height") for part in parts)


def _sponge(asked: Asked, answer: Answer) -> Outline:
    """The outline of the sponge; a length where the shape has none is said and left out."""
    shape, width, length = asked["shape"], asked["width"], asked["length"]
    name = f"a{'n' if shape == 'oval' else ''} {shape}"
    if shape not in TWO_SIZES:
        if length is not None and length != width:
            answer.note(f"Length is not used: {name} has one size, its width.")
        return tin_of(asked, shape, width)
    if length is None:
        raise Problem("length", f"Length is empty, and {name} needs one. Write it like {answer.say.length(width * 1.5)}")
    if shape == "oval" and max(width, length) > 10 * min(width, length):
        raise Problem("length", "An oval is at most ten times as long as it is wide. Make the length shorter, or choose a rectangle")
    return tin_of(asked, shape, width, length)


def _add_masses(answer: Answer, made: Coats, density: Constant, filled_with: str) -> None:
    """Buttercream on the cake, and what to make of it, each with its range: as in a whole order, without piping."""
    (filled, *filling), (coated, *coat) = knife_uses(made, density)
    if filled_with != BUTTERCREAM:
        filling = [made.dam_ml * density, made.dam_ml * density.low, made.dam_ml * density.high]
    on_cake = [math.fsum(ends) for ends in zip(filling, coat, strict=True)]
    answer.mass("mass", "Buttercream on the cake", on_cake[0], on_cake[1], on_cake[2])
    amounts = amounts_by_colour([("plain", filled, filling[0], filling[1], filling[2]), ("plain", coated, coat[0], coat[1], coat[2])])
    to_make = (math.fsum(amount.mass_g for amount in amounts), math.fsum(amount.low_g for amount in amounts))
    answer.mass("make", "Make", *to_make, math.fsum(amount.high_g for amount in amounts))


def _ombre(asked: Asked, answer: Answer, made: Coats, density: Constant) -> Scene:
    """The bands of an ombre coat."""
    say = answer.say
    shares = _shares(asked["shares"]) if asked["shares"] else (1.0,) * asked["colours"]
    rows, found = [], bands(made, shares)
    for band in found:
        most = mass_range_g(band.volume_ml, band.low_ml, band.high_ml, density, density.low, density.high)[2]
        rows.append(
            (
                str(band.number),
                say.length(band.from_mm),
                say.length(band.to_mm),
                say.volume(band.volume_ml),
                say.mass(band.volume_ml * density),
                say.mass(most),
            )
        )
    answer.table("bands", "Ombre, from the base up", ("Band", "From", "To", "Volume", "Weight", "Mix up to"), rows, numeric=(0, 1, 2, 3, 4, 5))
    answer.note(
        "The top of the cake has the colour of the top band. Lay each colour a little past its edge and let the scraper "
        "blend them; the last column holds that margin."
    )
    return section_scene(made, asked.units, tuple((band.from_mm, band.to_mm) for band in found))


def _striped(asked: Asked, answer: Answer, made: Coats, density: Constant) -> Scene:
    """The two colours of a striped coat."""
    say = answer.say
    cut = stripes(made, asked["stripes"], asked["stripe_share"], asked["groove"], asked.units)
    answer.table(
        "stripes",
        f"{cut.count} stripe{'s' if cut.count > 1 else ''}",
        ("Colour", "Each is high", "Volume", "Weight"),
        [
            ("Ground", say.length(cut.ground_mm), say.volume(cut.ground_ml), say.mass(cut.ground_ml * density)),
            ("Stripe", say.length(cut.stripe_mm), say.volume(cut.stripes_ml), say.mass(cut.stripes_ml * density)),
        ],
        numeric=(1, 2, 3),
    )
    answer.note(
        f"Coat with the ground colour and comb grooves {say.length(cut.depth_mm)} deep, chill until it is firm, fill "
        f"the grooves too full and scrape back. Mix {say.mass(made.final_ml * density)} of the ground colour: the "
        f"comb lifts {say.mass(cut.lifted_ml * density)} of it out again."
    )
    pitch = cut.ground_mm + cut.stripe_mm
    starts = [i * pitch + cut.ground_mm / 2 for i in range(cut.count)]
    return section_scene(made, asked.units, stripes_mm=tuple((z, z + cut.stripe_mm) for z in starts), groove_mm=cut.depth_mm)


def _laid(made: Coats) -> list[float]:
    """What is laid on a tier, part by part [ml]."""
    return [made.filling_ml * bool(made.fillings), made.dam_ml, made.crumb_ml, made.final_ml]


def _table(asked: Asked, answer: Answer, made: Coats, density: Constant) -> None:
    """What goes where."""
    say = answer.say
    is_filled = asked["filled_with"] == BUTTERCREAM
    laid = _laid(made)
    volumes = say.adding_up("volume", laid)
    parts_g = [part * density for part in laid]
    weighed_g = parts_g if is_filled else [0.0, *parts_g[1:]]
    told_g = say.told_mass_g(math.fsum(weighed_g))  # as the figure above the table is read
    masses = say.shared_out(told_g, weighed_g)
    filling_g, dam_g, crumb_g, final_g = masses.masses_g

    def row(name: str, thickness: str, volume_ml: float, mass_g: float, weighed: bool = True) -> tuple[str, str, str, str]:
        return name, thickness, volumes.text(volume_ml), masses.write(mass_g) if weighed else "by its own recipe"

    rows = []
    if made.fillings:
        rows.append(
            row(
                f"{made.fillings} filling{'s' if made.fillings > 1 else ''}",
                say.length(made.filling_mm),
                made.filling_ml,
                filling_g,
                asked["filled_with"] == BUTTERCREAM,
            )
        )
    if made.dam_ml > 0:
        rows.append(row("Dam", f"{say.length(made.dam_mm)} wide", made.dam_ml, dam_g))
    rows.append(row("Crumb coat", say.length(made.crumb_mm), made.crumb_ml, crumb_g))
    top = "" if abs(made.top_mm - made.coat_mm) < 0.05 else f"; top {say.length(made.top_mm)} in all"
    rows.append(row("Final coat", say.length(made.final_mm) + top, made.final_ml, final_g))
    rows.append(("All of it", "", volumes.text(*laid), masses.write(told_g)))
    answer.table("amounts", "What goes where", ("What", "Thick", "Volume", "Weight"), rows, numeric=(1, 2, 3))


def _notes(asked: Asked, answer: Answer, made: Coats) -> None:
    """What the numbers rest on, and what to look out for."""
    say = answer.say
    answer.note(
        "The volumes are exact for the thicknesses typed. The ranges allow for different hands and the spread "
        f"of the density; “Make” adds {100 * BOWL_LOSS_SHARE:g} % for what stays on bowl and spatula, and {100 * MARGIN_SHARE:g} % to spare."
    )
    stacked = f"{made.layers} layer{'s' if made.layers > 1 else ''} of {say.length(made.layer_mm)} each"
    if made.fillings:
        stacked += f" and {made.fillings} of {say.length(made.filling_mm)} filling"
    answer.note(f"The height is that of the stacked sponge with its fillings: {stacked}. Portions are counted on the sponge, not on the coat.")
    if made.layer_mm < 8:
        answer.note(f"Layers of {say.length(made.layer_mm)} tear when they are lifted. Use fewer of them, or thinner fillings.")
    if made.fillings and made.filling_mm > 12 and made.dam_mm == 0:
        answer.note(f"A filling of {say.length(made.filling_mm)} bulges under the layers above it. Pipe a dam, or make it thinner.")
    if made.by_disc:
        if asked["final_coat"] is not None:
            answer.note(
                f"The disc sets the coat: {say.length(made.coat_mm)} on the side, of which {say.length(made.final_mm)} "
                "is final coat. The final coat typed is not used."
            )
        answer.note(
            f"A sponge draws back {span(say.length, SHRINK_MM.low, SHRINK_MM.high)} from its tin on each "
            "side, and under a disc the coat makes up for it: the high end counts that in. Measure the sponge rather "
            "than the tin."
        )
        if made.final_mm < 1:
            answer.note(
                f"The final coat is only {say.length(made.final_mm)}: the crumb coat will show through. Use a wider "
                "disc, or scrape the crumb coat thinner."
            )
    if asked["filled_with"] == OTHER and made.fillings:
        answer.caution(f"A filling of cream, custard, curd or fresh fruit decides how long the cake may stand out. {standing(asked.units)}")
    if asked["shape"] in ("heart", "petal"):
        answer.note("In a notch the coats of both sides meet, so it comes out shallower than the tin's.")


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `coats`."""
    sponge = _sponge(asked, answer)
    if asked["holds"] is not None:
        answer.note(measured_words(asked, sponge, answer.say))
    made = coats(
        sponge,
        asked["height"],
        asked["layers"],
        asked["filling"],
        asked["crumb_coat"],
        asked["final_coat"],
        asked["disc"],
        asked["top"],
        asked["dam"] or 0.0,
        asked.units,
    )
    density = density_of(asked, answer)
    volumes = answer.say.adding_up("volume", _laid(made))

    def volume(name: str, label: str, ml: float, low_ml: float, high_ml: float) -> None:
        answer.figure(name, label, ml, "ml", ranged(answer.say.volume, ml, low_ml, high_ml, volumes.text(ml)), low_ml, high_ml)

    filling = "Filling" if made.fillings < 2 else f"Filling, {made.fillings} of them"
    volume("filling", filling, made.filling_ml, made.filling_low_ml, made.filling_high_ml)
    if made.dam_ml > 0:
        answer.figure("dam", "Dam", made.dam_ml, "ml", volumes.text(made.dam_ml))
    volume("crumb_coat", "Crumb coat", made.crumb_ml, made.crumb_low_ml, made.crumb_high_ml)
    volume("final_coat", "Final coat", made.final_ml, made.final_low_ml, made.final_high_ml)
    _add_masses(answer, made, density, asked["filled_with"])
    answer.length("finished_width", "Finished width", made.finished.width_mm)
    answer.length("finished_side", "Round the finished side", made.finished.perimeter_mm)
    answer.length("finished_height", "Finished height", made.finished_height_mm)
    answer.length("coat", "Coat on the side, crumb and final", made.coat_mm)
    _table(asked, answer, made, density)
    if asked["style"] == "ombre":
        scene = _ombre(asked, answer, made, density)
    elif asked["style"] == "striped":
        scene = _striped(asked, answer, made, density)
    else:
        scene = section_scene(made, asked.units)
    answer.drawing("section", scene.title, scene.description, svg(scene))
    _notes(asked, answer, made)


CALCULATOR = Calculator(
    "coats",
    "Fill and coat a tier",
    "Filling, crumb coat and final coat of one tier, and what the finished tier measures.",
    (
        Input("shape", "Shape", "choice", "round", choices=outline_choices, cake="shape"),
        Input("width", "Width of the cake", "length", "15 cm", low=40, high=1000, help="The sponge or its tin, across", usual=TIN, cake="tin_width"),
        Input("length", "Length", "length", optional=True, low=40, high=1000, help="For a rectangle or an oval", usual=(95, 660), cake="tin_length"),
        Input(
            "height",
            "Height, fillings included",
            "length",
            "10 cm",
            low=15,
            high=600,
            help="The stacked sponge before the coat",
            usual=(40, 300),
            cake="height",
        ),
        Input("layers", "Layers of sponge", "count", "3", low=1, high=LAYERS_MOST, cake="layers"),
        Input(
            "filling",
            "Each filling",
            "length",
            "6 mm",
            low=0,
            high=25,
            help="Thickness of each, such as 6 mm",
            default_unit="millimeter",
            usual=(2, 25),
            cake="filling",
        ),
        Input(
            "crumb_coat",
            "Crumb coat",
            "length",
            "2 mm",
            low=0,
            high=10,
            help="Thickness, such as 2 mm",
            default_unit="millimeter",
            usual=(0.8, 8),
            cake="crumb",
        ),
        Input(
            "final_coat",
            "Final coat",
            "length",
            "3 mm",
            optional=True,
            low=0,
            high=20,
            help="Thickness over the crumb coat; not used when you give a disc",
            default_unit="millimeter",
            usual=(1, 15),
            cake="final",
        ),
        Input(
            "disc",
            "Or coating disc",
            "length",
            optional=True,
            low=10,
            high=1100,
            help="Its width, such as 16 cm; it sets crumb coat and final coat together",
            usual=(95, 600),
            offers="discs",
            cake="disc",
        ),
        *TIN_INPUTS,
        *DENSITY_INPUTS,
        Input("filled_with", "Filled with", "choice", BUTTERCREAM, advanced=True, choices=((BUTTERCREAM, "Buttercream"), (OTHER, "Something else"))),
        Input(
            "dam",
            "Dam",
            "length",
            optional=True,
            advanced=True,
            low=0,
            high=60,
            help="Width of a ring of buttercream along the edge of each filling",
            default_unit="millimeter",
            usual=(3, 40),
        ),
        Input(
            "top",
            "Coat on the top",
            "length",
            optional=True,
            advanced=True,
            low=0,
            high=30,
            help="Crumb and final coat together; left empty it is as thick as the side",
            default_unit="millimeter",
            usual=(1, 25),
        ),
        Input("style", "Coat in", "choice", "plain", advanced=True, choices=STYLES),
        Input("colours", "Ombre: bands", "count", "3", advanced=True, low=2, high=24),
        Input(
            "shares",
            "Ombre: shares of height",
            "text",
            optional=True,
            advanced=True,
            help="From the base up, such as 2, 1, 1; left empty, all are the same",
        ),
        Input("stripes", "Striped: stripes", "count", "6", advanced=True, low=1, high=60),
        Input("stripe_share", "Striped: share of the height", "percent", "50 %", advanced=True, low=1, high=99),
        Input(
            "groove",
            "Striped: groove",
            "length",
            optional=True,
            advanced=True,
            low=0.2,
            high=20,
            help="How deep; left empty, as deep as the final coat",
            default_unit="millimeter",
            usual=(0.5, 15),
        ),
    ),
    work_out,
)
