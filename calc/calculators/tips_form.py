"""`tips`: which tip makes an effect, and what a tip makes."""

from __future__ import annotations

from collections.abc import Sequence

from calc.calculators.declare import Answer, Asked, Calculator, Input
from calc.drawing.figures import tip_scene
from calc.drawing.paper import tip_chart, tip_gauge
from calc.drawing.svg import svg
from calc.rows import KINDS
from calc.rows.effects import EFFECTS, Match, effect_size_mm, effects_of, find_tips, opening_for_mm
from calc.tips import FAMILIES, MEASURE, TIPS, Tip
from calc.units import Problem, a_or_an, capitalised


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `tips`."""
    family, opening, wanted, effect = asked["family"], asked["opening"], asked["width"], asked["effect"]
    known = family or opening is not None or wanted is not None or effect
    matches = find_tips(family, opening, effect, wanted, most=8 if known else len(TIPS))
    if not matches:
        raise Problem("effect", f"Effect: no {family} tip makes that. Leave the family empty, or choose another effect")
    answer.count("matches", "Tips of the table", len(matches))
    if family and opening is not None:
        _in_hand(answer, Tip(family, opening))
    if wanted is not None and effect:
        _asked_for(answer, family, effect, wanted)
    answer.table(
        "matches",
        _title(known, wanted, opening),
        ("Tip", "Makes", "Size", "Easily taken for"),
        [_row(answer, match) for match in matches],
        (2,),
    )
    answer.table("held", "How they are held", ("Tip", "Held", "Facing the cake", "Consistency"), _held(matches))
    answer.note(MEASURE)
    answer.sheet("tip-chart", "Tip chart")
    answer.sheet("tip-gauge", "Tip gauge")


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw the openings of the tips found, or discs and slots of every size, to hold a tip against."""
    if name == "tip-gauge":
        return tip_gauge(paper=paper, units=asked.units).pdf(units=asked.units)
    if name != "tip-chart":
        raise KeyError(f"there is no sheet called {name}")
    matches = find_tips(asked["family"], asked["opening"], asked["effect"], asked["width"], most=len(TIPS))
    order = sorted(matches, key=lambda match: (FAMILIES.index(match.use.tip.family), match.use.tip.opening_mm, match.use.tip.points))
    return tip_chart([(m.use.tip, "") for m in order], paper=paper, units=asked.units).pdf(units=asked.units)


def _title(known: object, wanted: float | None, opening: float | None) -> str:
    if not known:
        return "All the tips of the table"
    return "Nearest in size first" if wanted is not None else "Nearest in opening first" if opening is not None else "Tips that make it"


def _row(answer: Answer, match: Match) -> list[str]:
    use = match.use
    makes = ", ".join((match.effect, *(e for e in effects_of(use) if e != match.effect)))
    return [use.tip.name, makes, f"{match.effect} {answer.say.length(match.size_mm)}", use.confused_with]


def _held(matches: Sequence[Match]) -> list[list[str]]:
    """How the tips are held, once for all that are held alike."""
    ways: dict[tuple[str, ...], list[str]] = {}
    for match in matches:
        use = match.use
        held = KINDS[match.effect].held(use.tip.family) if match.effect in KINDS else use.angle
        families = ways.setdefault((match.effect, held, use.faces, use.consistency), [])
        if use.tip.family not in families:
            families.append(use.tip.family)
    return [[f"{' or '.join(families)}: {effect}", *rest] for (effect, *rest), families in ways.items()]


def _in_hand(answer: Answer, tip: Tip) -> None:
    """What the tip in hand lays down, and what it makes at what size."""
    say = answer.say
    answer.figure("section", "Section of the opening", tip.section_mm2, "mm2", f"{say.number(tip.section_mm2, 1)} mm²")
    answer.figure(
        "laid",
        "Section of the line it lays",
        tip.laid_mm2,
        "mm2",
        f"{say.number(tip.laid_mm2, 1)} mm²",
        tip.section_mm2 * tip.swell.low,
        tip.section_mm2 * tip.swell.high,
    )
    answer.length("line_width", "Width of the line", tip.bead_width_mm)
    answer.length("line_height", "How far the line stands out", tip.bead_height_mm)
    scene = tip_scene(tip, answer.units)
    answer.drawing("opening", scene.title, scene.description, svg(scene))
    effects = sorted({e for use in TIPS if use.tip.family == tip.family for e in effects_of(use)}, key=EFFECTS.index)
    answer.table(
        "sizes",
        f"What this {tip.name} tip makes",
        ("Effect", "Size"),
        [[effect, say.length(effect_size_mm(tip, effect))] for effect in effects],
        (1,),
    )
    answer.note(
        f"A line is thicker than the hole it comes from, about {say.number(tip.swell, 2)} times its section "
        f"({say.number(tip.swell.low, 2)} to {say.number(tip.swell.high, 2)}): {tip.swell.note}."
    )


def _asked_for(answer: Answer, family: str | None, effect: str, wanted_mm: float) -> None:
    """The opening that a wanted size asks for, in every family that makes the effect."""
    rows, first = [], None
    for name in (family,) if family else FAMILIES:
        if any(use.tip.family == name and effect in effects_of(use) for use in TIPS):
            opening = opening_for_mm(name, effect, wanted_mm)
            if opening is not None:
                first = first if first is not None else opening
                rows.append([name, answer.say.opening_beside(opening)])
    if first is None:
        answer.note(f"No opening between 0.5 mm and 60 mm makes {a_or_an(effect)} {answer.say.length(wanted_mm)} wide. The nearest tips are shown.")
        return
    if family:
        answer.figure("opening_needed", "Opening to look for", first, "mm", answer.say.opening_beside(first))
    answer.table("openings", f"The opening that makes it {answer.say.length(wanted_mm)} wide", ("Family", "Opening"), rows, (1,))


CALCULATOR = Calculator(
    "tips",
    "Tips",
    "Find the tip that makes an effect, or what the tip in your hand makes.",
    (
        Input("family", "Family", "choice", optional=True, choices=tuple((f, f.capitalize()) for f in FAMILIES), help="Leave empty for all"),
        Input(
            "opening",
            "Opening",
            "length",
            optional=True,
            low=0.5,
            high=60,
            default_unit="millimeter",
            help="Measured across its widest part, in mm",
            us_unit="millimeter",
            usual=(0.8, 30),
        ),
        Input(
            "width",
            "Width you want",
            "length",
            optional=True,
            low=0.5,
            high=300,
            default_unit="millimeter",
            help="How wide the effect should be on the cake; for a leaf, how long",
            usual=(1, 120),
        ),
        Input("effect", "Effect", "choice", optional=True, choices=tuple((e, capitalised(e)) for e in EFFECTS), help="What it should make"),
    ),
    work_out,
    draw_sheet=draw_sheet,
)
