"""The order's sheets: what goes on the bench next to the cake, drawn by `calc.drawing.paper` from the plan.

Map
---
`sheet_names`    the sheets of a plan by name, with their titles
`group_of`       the group a sheet stands in, as the work goes
`sheet_of`       one of them, drawn
`pdf_of`         the same as a PDF
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache, partial

from calc.calculators.declare import Answer, Asked
from calc.calculators.list_sheets import hours_drawn, list_sheet
from calc.calculators.order_answer import fill_answer
from calc.calculators.order_bench import bench
from calc.calculators.order_cards import ASK, CARDS, allergens_told, before_cutting, cards, maker_of
from calc.calculators.order_drawings import Looks, look_of, tier_drawing
from calc.calculators.order_quotation import quotation
from calc.calculators.order_shop import shop_sheet
from calc.calculators.order_time import timetable_of
from calc.curves import arc_radius_mm
from calc.drawing.paper import (
    Block,
    CutterCircle,
    Heading,
    Paragraphs,
    Picture,
    Sheet,
    Table,
    cutter_circles,
    cutting_guide,
    marking_strip,
    practice_lines,
    practice_sheet,
    stacking_template,
    tip_chart,
    tip_gauge,
    top_template,
    written_sheet,
)
from calc.drawing.pdf import About, Part, pdf
from calc.drawing.tilted import tilted_view
from calc.order import Plan
from calc.rows.placement import PlacedRow
from calc.tips import TIPS, Tip
from calc.units import Formatter, Problem, file_name_part, listed

PAPERS = ("A4", "Letter")
JOB = "job"
SHOPPING = "shopping-list"
PRACTISE = "Practise before"
GROUPS: dict[str, tuple[str, ...]] = {  # as the work goes, with what the names of their sheets begin with
    "Buy": (SHOPPING, "timetable"),
    "Bake": ("baking-card",),
    "Colour and coat": ("bag-card",),
    "Mark": ("marking-strip", "top-template", "cutter-circles"),
    "Pipe": ("bench-sheet", "tip-"),
    "Deliver": ("delivery-card", "box-label"),
    "Serve": ("hand-out", "cutting-guide"),
    "Customer": ("quotation",),
    PRACTISE: ("practice-",),
}
Maker = Callable[[], Sheet]


def _tier_slugs(cake: Plan) -> tuple[str, ...]:
    """A slug for each tier's sheets; tiers with the same name are numbered."""
    names = [file_name_part(t.order.name) for t in cake.tiers]
    return tuple(f"{name}-{i}" if names.count(name) > 1 else name for i, name in enumerate(names, 1))


def _practised(cake: Plan) -> dict[str, PlacedRow]:
    """One row for each combination of kind and tip, by the name of its practice sheet."""
    found: dict[str, PlacedRow] = {}
    for step in cake.steps:
        found.setdefault(f"practice-{file_name_part(step.row.spec.kind)}-{file_name_part(step.row.tip.name)}", step.row)
    return found


def sheet_names(cake: Plan) -> dict[str, str]:
    """Titles of a plan's sheets by name, grouped as the work goes, all of them in one first."""
    names = {JOB: "Print the job", "bench-sheet": "Bench sheet", SHOPPING: "Shopping list", "timetable": "Timetable"}
    keys = _tier_slugs(cake)
    for tier in cake.tiers:
        key = keys[tier.index]
        if tier.rows:
            names[f"marking-strip-{key}"] = f"Marking strip, {tier.order.name}"
            names[f"marking-strip-prick-{key}"] = f"Marking strip to prick through, {tier.order.name}"
        names[f"top-template-{key}"] = f"Top template, {tier.order.name}"
        if cake.supports[tier.index].dowels:
            names[f"stacking-template-{key}"] = f"Stacking template, {tier.order.name}"
    if _circle_sizes(cake):
        names["cutter-circles"] = "Cutter circles"
    for key, row in _practised(cake).items():
        names[key] = f"Practice: {row.spec.kind}, {row.tip.name}"
    names["practice-lines-and-curves"] = "Practice: lines and curves"
    for tier in cake.tiers:
        names[f"cutting-guide-{keys[tier.index]}"] = f"Cutting guide, {tier.order.name}"
    names["tip-chart"] = "Tip chart"
    names["tip-gauge"] = "Tip gauge"
    order = ["", *GROUPS]
    return dict(sorted((CARDS | names).items(), key=lambda one: order.index(group_of(one[0]))))


@lru_cache(maxsize=256)
def group_of(name: str) -> str:
    """The group of a sheet, by what its name begins with; what has none stands with the marking."""
    if name == JOB:
        return ""
    return next((group for group, begins in GROUPS.items() if name.startswith(begins)), "Mark")


def sheet_of(asked: Asked, cake: Plan, name: str, paper: str) -> Sheet:
    """Draw one sheet of a plan."""
    told = name if name.startswith(f"{SHOPPING}:") else ""  # with what is at hand
    makers, sheet = _makers(asked, cake, paper, told), SHOPPING if told else name
    if sheet not in makers:
        raise KeyError(f"there is no sheet called {sheet}")
    return makers[sheet]()


def pdf_of(asked: Asked, cake: Plan, name: str, paper: str) -> bytes:
    """Draw one sheet of a plan as a PDF that says which sheet of which order it is."""
    if name == JOB:
        return _job(asked, cake, paper)
    sheet = sheet_of(asked, cake, name, paper)
    return sheet.pdf(about_of(asked, cake, sheet.title))


def _job(asked: Asked, cake: Plan, paper: str) -> bytes:
    """All sheets of the work in one document, in its order, behind a page that says what is in it; what is for practice is printed apart."""
    makers = _makers(asked, cake, paper)
    names = [name for name in sheet_names(cake) if name != JOB and group_of(name) != PRACTISE and "-prick-" not in name]
    sheets = [(group_of(name), makers[name]()) for name in names]
    say = Formatter(asked.units)
    heading = Heading(cake.order.name, say.moment(cake.order.ready_at))
    first, lines = 2, []
    for group, sheet in sheets:
        last = first + len(sheet.pages) - 1
        lines.append((group, sheet.title, str(first) if first == last else f"{first} to {last}"))
        first = last + 1
    told = f"{first - 1} pages. Print it at 100 %; then the strips and templates are to scale."
    apart = "Practice sheets, and the strips to prick through, are printed apart."
    looks: Looks = tuple(sorted((c["name"].lower(), c["look"]) for c in asked["colours"]))
    drawn = tilted_view(tuple(tier_drawing(tier, looks) for tier in cake.tiers), cake.supports[0].board_width_mm)
    listed_here = Table("", ("Group", "Sheet", "Pages of this file"), tuple(lines), (2,), True)
    blocks: list[Block] = [listed_here, Paragraphs("", (apart,)), Picture((drawn,), 90.0, scaled=False)]
    contents = written_sheet(JOB, "The job", blocks, heading, paper, told)
    parts = [Part(contents.title, len(contents.pages)), *(Part(sheet.title, len(sheet.pages), group) for group, sheet in sheets)]
    pages = [*contents.pages, *(page for _, sheet in sheets for page in sheet.pages)]
    return pdf(pages, about_of(asked, cake, contents.title), parts)


def about_of(asked: Asked, cake: Plan, title: str) -> About:
    """What a document of this order says of itself."""
    say = Formatter(asked.units)
    subject = f"{cake.order.name}, ready {say.moment(cake.order.ready_at)}, for {cake.order.guests} guests"
    return About(f"{title}: {cake.order.name}", maker_of(asked).name or "Piping Bench", subject, say.language)


def _makers(asked: Asked, cake: Plan, paper: str, told: str = "") -> Mapping[str, Maker]:
    """A function for each sheet, so that only the requested one is drawn."""
    if paper not in PAPERS:
        raise Problem("paper", f"Paper is one of {' and '.join(PAPERS)}, not {paper[:20]}")
    say = Formatter(asked.units)
    heading = Heading(cake.order.name, say.moment(cake.order.ready_at))
    looks: Looks = tuple(sorted((c["name"].lower(), c["look"]) for c in asked["colours"]))
    makers: dict[str, Maker] = {
        "bench-sheet": lambda: bench(cake, heading, paper, looks, say.units),
        SHOPPING: lambda: shop_sheet(cake, asked, told, heading, paper),
        "timetable": lambda: _timetable(asked, cake, paper, heading),
        "practice-lines-and-curves": lambda: practice_lines(heading, paper, say.units),
        "tip-chart": lambda: tip_chart(_tips(cake), heading, paper, say.units),
        "tip-gauge": lambda: tip_gauge(heading, paper, say.units),
        "cutter-circles": lambda: cutter_circles(_circles(cake), heading, paper, say.units),
        "quotation": lambda: quotation(asked, cake, heading, paper, looks),
        **cards(asked, cake, heading, paper, lambda: _filled_answer(asked, cake)),
    }
    keys = _tier_slugs(cake)
    for tier in cake.tiers:
        key = keys[tier.index]
        flat = tier_drawing(tier, looks, True)
        joints = () if tier.order.sponge.kind == "round" else tuple(s * tier.side_mm / tier.perimeter_mm for s in tier.joints.s_mm)
        makers[f"marking-strip-{key}"] = partial(marking_strip, flat, heading, paper, False, say.units)
        makers[f"marking-strip-prick-{key}"] = partial(marking_strip, flat, heading, paper, True, say.units)
        makers[f"top-template-{key}"] = partial(top_template, flat, tier.division.repeats, heading, paper, say.units, joints)
        stand = cake.supports[tier.index]
        if stand.dowels:
            tops = (tier.coats.finished, cake.tiers[tier.index + 1].coats.finished)
            makers[f"stacking-template-{key}"] = partial(stacking_template, *tops, stand, heading, paper, tier.order.name, say.units)
        makers[f"cutting-guide-{key}"] = partial(
            cutting_guide,
            tier.cut,
            heading,
            paper,
            tier.order.name,
            say.units,
            tier.levels,
            before_cutting(cake, tier.index),
            (*allergens_told(cake, say), ASK),
        )
    for key, row in _practised(cake).items():
        makers[key] = partial(_practice, cake, row, heading, paper, looks, say)
    return makers


def _practice(cake: Plan, row: PlacedRow, heading: Heading, paper: str, looks: Looks, say: Formatter) -> Sheet:
    pitch = row.run_mm / cake.tiers[row.tier].division.repeats if row.hung else 0.0
    drop_mm = row.amount.drops_mm[0] if row.what.scroll else row.drop_mm
    wanted = PlacedRow(kind=row.kind, tip=row.tip, colour=look_of(row.colour, dict(looks)), drop_mm=drop_mm, layers=row.layers)
    return practice_sheet(wanted, pitch, heading, paper, say.units)


def _circles(cake: Plan) -> tuple[CutterCircle, ...]:
    """The circles on which the swags of a cake lie, each once for tiers that share it."""
    return tuple(CutterCircle(size, "; ".join(names), width) for (size, width), names in _circle_sizes(cake).items())


def _circle_sizes(cake: Plan) -> dict[tuple[float, float], list[str]]:
    """The circles on which the swags of a cake lie by diameter and width of a swag [mm], each with the tiers that share it."""
    found: dict[tuple[float, float], list[str]] = {}
    for tier in cake.tiers:
        for row in tier.rows:
            if not row.hung or row.what.curve != "arc":
                continue
            width, cutter = row.run_mm / tier.division.repeats, tier.division.cutter_mm
            size = cutter if cutter and row is tier.first_hung and tier.by_cutter else 2 * arc_radius_mm(width, row.drop_mm)
            names = found.setdefault((round(size, 1), round(min(width, size), 1)), [])
            told = f"{tier.order.name}, {tier.division.repeats} {row.what.plural}"
            if told not in names:
                names.append(told)
    return found


def _tips(cake: Plan) -> tuple[tuple[Tip, str], ...]:
    """The tips of a cake by family, then the other tips of those families, to compare yours with."""
    used: dict[Tip, list[str]] = {}
    for step in cake.steps:
        kinds = used.setdefault(step.row.tip, [])
        if step.row.spec.kind not in kinds:
            kinds.append(step.row.spec.kind)
    families = dict.fromkeys(tip.family for tip in used)
    found: list[tuple[Tip, str]] = []
    for family in families:
        found += [(tip, f"for the {listed(kinds)}") for tip, kinds in used.items() if tip.family == family]
        found += [(use.tip, "") for use in TIPS if use.tip.family == family and use.tip not in used]
    return tuple(found)


def _filled_answer(asked: Asked, cake: Plan) -> Answer:
    answer = Answer("order", asked.units, currency=asked.currency)
    fill_answer(answer, cake, asked)
    return answer


def _timetable(asked: Asked, cake: Plan, paper: str, heading: Heading) -> Sheet:
    answer = _filled_answer(asked, cake)
    answer.cautions = [c for c in answer.cautions if c.get("section") == "time"]
    table = timetable_of(cake, asked)
    return list_sheet(
        answer,
        "timetable",
        "Timetable",
        ("tasks", "out"),
        paper,
        ("tasks",),
        hours_drawn(table, answer.say),
        heading,
        f"Ready at {answer.say.moment(table.ready_at)}",
    )
