"""`order`: the whole job, from an order to a bench sheet.

Map
---
`CALCULATOR`      the form: the event, the cutters, tiers with their rows, colours, pack prices
`unfold`          an order kept as TOML becomes the texts of that form, and the form becomes TOML again
`order_of`        parsed inputs -> calc.order.Order
`work_out`        the answer, whose sections `calc.calculators.order_answer` builds
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from calc import buttercream
from calc.calculators.declare import TIN, UNITS, Answer, Asked, Brought, Calculator, Choices, Group, Input, parse
from calc.calculators.order_answer import fill_answer
from calc.calculators.order_quotation import NAME as CUSTOMERS
from calc.calculators.order_quotation import quotation_file
from calc.calculators.order_schemes import LOOK, look_file
from calc.calculators.order_sheets import group_of, pdf_of, sheet_names
from calc.calculators.order_shop import NAME as SHOP
from calc.calculators.order_shop import shop_file
from calc.calculators.order_tiers import TIERS_FOR, tiers_file
from calc.calculators.order_time import CALENDAR, calendar_of
from calc.calculators.packs import PACKS
from calc.calculators.row_amounts import check_spacing
from calc.calculators.supports_form import BORDER, STACKED, usual_mm
from calc.calculators.text_kept import TextKept
from calc.calculators.timetable_form import PACE_INPUTS
from calc.calculators.tin_measures import INPUTS as TIN_INPUTS
from calc.calculators.tin_measures import tin_of
from calc.order import Calibration, Order, Plan, TierOrder, plan
from calc.rows import KINDS, Kind, RowSpec
from calc.shapes import TWO_SIZES
from calc.shapes import outline_choices as SHAPE_CHOICES
from calc.tips import Tip
from calc.units import Formatter, Problem, Problems, a_or_an, file_name_part

ROW_KINDS: Choices = tuple((kind.name, kind.title) for kind in KINDS.values())
PLACES: Choices = (
    ("side", "Hung on the side"),
    ("over", "Over the row before"),
    ("under", "Under the row before"),
    ("top edge", "On the top edge"),
    ("base", "Round the base"),
    ("top", "On the top, near the edge"),
    ("joints", "At every joint"),
    ("inside", "Inside the top edge"),
)


def _brought_by(kind: Kind) -> tuple[Brought, ...]:
    """What choosing a kind of row brings with it; an empty tip is the kind's own, for the height of the tier."""
    family, opening = kind.begins_with
    return (
        Brought(kind.name, "place", kind.place, kind.places),
        Brought(kind.name, "tip", "", kind.families, (family, opening / 2, opening * 2)),
        Brought(kind.name, "drop", "", alike=kind.drop_is),
        Brought(kind.name, "below", "", after="place"),
        Brought(kind.name, "layers", "", alike=kind.curve if kind.hangs else ""),
    )


ROWS = Group(
    "rows",
    "Row",
    (
        Input("kind", "Row", "choice", "swag", choices=ROW_KINDS, brings=tuple(one for kind in KINDS.values() for one in _brought_by(kind))),
        Input("place", "Where", "choice", "side", choices=PLACES),
        Input("tip", "Tip", "tip", optional=True, help="Such as petal 11 mm; left empty, one that suits the row and the tier's height"),
        Input("colour", "Colour", "text", "cream", suggest="colours", help="One of the palette, or a name of your own"),
        Input(
            "second", "Second colour", "text", optional=True, advanced=True, suggest="colours", help="Beside the first in the same bag, for stripes"
        ),
        Input("drop", "Drop", "length", optional=True, advanced=True, low=2, high=400, help="Leave empty for the cutter's own drop", usual=(8, 160)),
        Input(
            "below",
            "Below the top edge",
            "length",
            optional=True,
            advanced=True,
            low=0,
            high=600,
            help="Where its joints or its line go; leave empty to have it placed",
            usual=(3, 300),
        ),
        Input(
            "layers",
            "Layers or loops",
            "count",
            optional=True,
            advanced=True,
            low=1,
            high=5,
            help="Piped on itself, or loops of a string",
        ),
        Input(
            "per_joint",
            "How many at each joint",
            "count",
            optional=True,
            advanced=True,
            low=1,
            high=12,
            help="For rosettes, stars and leaves",
        ),
    ),
    minimum=0,
    maximum=20,
    title="Rows on this tier",
    help="Over and under mean the row before; otherwise type them in any order. The bench sheet puts them in the order they are piped",
    line=("{kind}", "{place}", "{tip}", "{colour}", "with {second}"),
    folded=True,
)

TIERS = Group(
    "tiers",
    "Tier",
    (
        Input("name", "Name", "text", "Tier"),
        Input("shape", "Shape", "choice", "round", choices=SHAPE_CHOICES),
        Input("width", "Tin, width across", "length", "20 cm", low=50, high=1000, help="Tin or ring, such as 20 cm", usual=TIN),
        Input(
            "length",
            "Tin, length",
            "length",
            optional=True,
            low=50,
            high=1000,
            help="The longer way across",
            only_with=("shape", tuple(sorted(TWO_SIZES))),
            usual=(95, 660),
        ),
        Input("height", "Height", "length", "10 cm", low=20, high=400, help="Sponge and fillings, before the coat", usual=(50, 300)),
        Input("layers", "Layers of sponge", "count", "3", low=1, high=10),
        Input("filling", "Filling, thickness", "length", "6 mm", low=0, high=40, default_unit="millimeter", usual=(2, 25)),
        Input(
            "disc",
            "Coating disc",
            "length",
            optional=True,
            low=50,
            high=1060,
            help="Its width sets both coats. Without a disc, give the final coat under More",
            offers="discs",
            usual=(95, 600),
        ),
        Input("side", "The tape says", "length", optional=True, low=100, high=4000, help="Round the finished side, such as 66 cm", usual=(300, 2200)),
        Input("colour", "Colour of the coat", "text", "ivory", suggest="colours"),
        *TIN_INPUTS,
        Input("repeats", "Repeats", "count", optional=True, advanced=True, low=2, high=120, help="Leave empty to have them chosen"),
        Input(
            "cutter",
            "Cutter for this tier",
            "length",
            optional=True,
            advanced=True,
            low=10,
            high=400,
            help="Leave empty to have one of your cutters chosen",
            usual=(25, 200),
            offers="cutters",
        ),
        Input(
            "fit",
            "Rows meet the joints",
            "choice",
            "own",
            choices=(("own", "Each in its own way"), ("all", "All at the same joints")),
            advanced=True,
            help="At the same joints, dots, roses, stars and leaves along an edge come as a whole number in each repeat, as shells do",
        ),
        Input("joints_below", "Joints below the top edge", "length", optional=True, advanced=True, low=0, high=400, usual=(3, 300)),
        Input("crumb", "Crumb coat", "length", "2 mm", advanced=True, low=0, high=15, default_unit="millimeter", usual=(0.8, 8)),
        Input(
            "final",
            "Final coat",
            "length",
            "3 mm",
            advanced=True,
            low=0,
            high=30,
            default_unit="millimeter",
            help="When there is no disc",
            usual=(1, 15),
        ),
        Input(
            "top",
            "Coat on the top",
            "length",
            optional=True,
            advanced=True,
            low=0,
            high=30,
            default_unit="millimeter",
            help="Crumb and final coat together; left empty it is as thick as the side",
            usual=(1, 25),
        ),
        Input(
            "dam",
            "Dam",
            "length",
            optional=True,
            advanced=True,
            low=0,
            high=60,
            default_unit="millimeter",
            help="Width of a ring of buttercream along the edge of each filling",
            usual=(3, 40),
        ),
        Input(
            "bands",
            "Ombre, from the base up",
            "text",
            optional=True,
            advanced=True,
            help="Colours with their shares of the height, such as russet 2, blush 1, ivory 1",
        ),
        Input(
            "striped",
            "Striped with",
            "text",
            optional=True,
            advanced=True,
            help="The other colour, filled into combed grooves, such as cream",
        ),
        Input("stripes", "Stripes", "count", "6", advanced=True, low=1, high=60, help="Only for a striped coat"),
        Input(
            "stripe_share",
            "Stripes, share of the height",
            "percent",
            "50 %",
            advanced=True,
            low=1,
            high=99,
            help="Only for a striped coat",
        ),
    ),
    groups=(ROWS,),
    minimum=1,
    maximum=7,
    title="Tiers, from the bottom up",
    per_order=True,
    line=("{name}", "{shape} {width}", "{height} high", "{rows}"),
    follows=("shape", "width", "length", "height", "layers", "filling", "disc", "colour", "crumb", "final"),
)

COLOURS = Group(
    "colours",
    "Colour",
    (
        Input("name", "Name", "text", "russet"),
        Input("look", "Looks like", "colour", "#a4502f", help="A colour to draw it in"),
    ),
    maximum=12,
    title="Colours of your own",
    folded=True,
    help="Only for names the handbook does not know, or to change how one is drawn",
)

MEASURED = Group(
    "measured",
    "Measured tip",
    (
        Input("tip", "Tip", "tip", "petal 11 mm"),
        Input("kind", "Piped as", "choice", "line", choices=ROW_KINDS),
        Input("length", "Length piped", "length", "30 cm", low=20, high=5000, usual=(50, 3000)),
        Input("mass", "It weighed", "mass", "21 g", low=0.5, high=2000, usual=(2, 400), optional=True),
        Input("pieces", "Pieces on it", "count", optional=True, low=2, high=1000, help="Shells, beads or turns: the spacing that you pipe"),
    ),
    maximum=20,
    title="Tips you have measured",
    kitchen="measured",
    line=("{tip}", "{kind}", "{length} weighs {mass}"),
    folded=True,
    help="Pipe a length on the bench and weigh it: a line, swag or string replaces the estimate wherever that tip is used. "
    "Count the shells, beads or turns too, and your own spacing replaces the usual one",
)

MAKER = Group(
    "maker",
    "Maker",
    (
        Input("name", "Your name", "text", optional=True, help="Or the name you trade under"),
        Input("telephone", "Telephone", "text", optional=True, help="For whoever serves the cake"),
        Input("contact", "Address, mail or web", "text", optional=True, help="For the quotation"),
    ),
    maximum=1,
    title="Your name, for the sheets",
    kitchen="maker",
    line=("{name}", "{telephone}"),
    folded=True,
    help="Printed on the quotation, the labels and the page for whoever serves; if left out, these have blanks",
)

QUOTE = Group(
    "quote",
    "Quotation",
    (
        Input("customer", "Customer", "text", optional=True),
        Input("number", "Number", "text", optional=True, help="Yours, if you number quotations"),
        Input("date", "Date", "text", optional=True, help="As it should appear; left empty, a line to fill in"),
        Input("valid_days", "The price holds, days", "count", "14", low=1, high=365),
        Input("deposit", "Deposit", "percent", "50 %", low=0, high=100, help="Share to be paid in advance"),
        Input("balance_days", "Balance due, days before", "count", "7", low=0, high=365),
        Input("tax", "Tax on the price", "percent", "0 %", low=0, high=100),
        Input("round_up", "Round up to", "money", optional=True, low=0.01, high=1000, help="Such as 5, so that the price is a multiple of five"),
        Input("delivery", "Where it goes", "text", optional=True, help="Place and address; on the delivery card, too"),
        Input("terms", "Terms of your own", "text", optional=True, help="Added to the usual ones"),
        Input(
            "in_sponge",
            "Allergens in the sponge",
            "text",
            optional=True,
            help="Such as wheat, eggs, milk; left empty, a line to fill in",
        ),
        Input("in_fillings", "Allergens in the fillings", "text", optional=True),
        Input("in_kitchen", "Allergens in decorations, and traces", "text", optional=True, help="On the labels and the page for whoever serves, too"),
    ),
    maximum=1,
    title="Customer and terms, for the quotation",
    kitchen="terms",
    line=("{customer}", "deposit {deposit}"),
    folded=True,
    per_order=True,
    help="For a quotation: price, deposit, dates and terms. It does not show costs, hours or margin",
)

EVENT = (
    Input("name", "What it is for", "text", "A cake", per_order=True, help="Shown on every sheet"),
    Input("ready_at", "Ready at", "moment", "2027-10-16 18:00", help="The day and the hour it must be in place"),
    Input("guests", "Guests", "count", "36", low=1, high=2000, per_order=True),
    Input("slice", "Slice", "pair", "25 x 50 mm", kitchen="slice", low=10, high=200, help="As seen from above, counted on the sponge"),
    Input(
        "cutters",
        "Round cutters at hand",
        "lengths",
        optional=True,
        low=10,
        high=400,
        help="Measured across the rim, such as 9 cm, 7.5 cm",
        usual=(25, 200),
        kitchen="cutters",
    ),
    Input(
        "tips",
        "Tips at hand",
        "tips",
        optional=True,
        advanced=True,
        help="Such as petal 11 mm, round 2 mm: a row whose tip is left empty takes the nearest of these that suits it",
        kitchen="tips",
    ),
    Input("recipe", "Buttercream", "choice", "swiss_meringue", choices=buttercream.recipe_choices, kitchen="recipe"),
    Input(
        "together",
        "Divide the tiers",
        "choice",
        "no",
        choices=(("no", "Each by itself"), ("yes", "Fitted to one another")),
        advanced=True,
        help="Fitted: swags in proportion from tier to tier, and a joint at the front of each",
    ),
    Input("keep_top", "Keep the top tier back", "yes_no", "no", choices=(("no", "No"), ("yes", "Yes")), advanced=True),
    Input(
        "weighed",
        "100 ml of it weighs",
        "mass",
        optional=True,
        advanced=True,
        low=40,
        high=160,
        help="A level 100 ml measure, weighed: it is used instead of the recipe's density",
        kitchen="weight_100_ml",
    ),
    Input(
        "hours",
        "Working hours",
        "text",
        "9:00 to 18:00",
        advanced=True,
        help="Such as 9:00 to 18:00, or Mon to Fri 18:00 to 22:00; Sat 8:00 to 18:00",
        kitchen="hours",
    ),
    Input("spare", "Kept free at the end", "duration", "1 h", advanced=True, low=0, high=2880, help="In case of mishaps", usual=(5, 2880)),
    Input("travel", "On the road", "duration", "30 min", advanced=True, low=0, high=1440, usual=(5, 600)),
    Input(
        "stacked",
        "Stack the tiers",
        "choice",
        "suits",
        choices=STACKED,
        advanced=True,
        help="Left open: at the venue if the cake is too heavy for two people, or too tall for a fridge or a car",
        kitchen="stacked",
    ),
    *PACE_INPUTS,
    Input("rate", "Your hour costs", "money", "18", advanced=True, low=0, high=10000, help="In your own money", each="hour", kitchen="rate"),
    Input(
        "extras",
        "Sponge, boards, box, delivery",
        "money",
        "0",
        advanced=True,
        low=0,
        high=1000000,
        help="What is not buttercream, all together",
    ),
    Input(
        "overhead", "Overhead", "percent", "10 %", advanced=True, low=0, high=300, help="Power, wear, rent: on top of the cost", kitchen="overhead"
    ),
    Input("margin", "Margin", "percent", "25 %", advanced=True, low=0, high=90, help="Share of the price that stays with you", kitchen="margin"),
)
SCALARS = tuple(i.name for i in EVENT)
ORDER_TEXT = TextKept("order", "The order", "Start from the example, or load one you saved")


# --- the record --------------------------------------------------------------------------------------------------------


def unfold(texts: Mapping[str, str], answer: Answer) -> Mapping[str, str]:
    """Turn an order kept as TOML into the texts of the form; give the form back as fields and as TOML."""
    flat = {name: text for name, text in texts.items() if name not in ("order", UNITS.name)}
    record = texts.get("order")
    if record is not None and (record.strip() or not flat):
        flat = {**ORDER_TEXT.read(record), **flat}
    kept_units = flat.pop("units", "")
    units = texts.get("units") or kept_units
    answer.fields = dict(flat)
    kept = dict(flat)
    answer.record = lambda: ORDER_TEXT.write(kept, SCALARS)
    if units:
        flat["units"] = units
    return flat


# --- what was asked ----------------------------------------------------------------------------------------------------


def order_of(asked: Asked) -> Order:
    """The parsed inputs as an order; what cannot be said of one input alone is looked at here."""
    problems: list[Problem] = []
    tiers: list[TierOrder] = []
    for tier in asked["tiers"]:
        try:
            tiers.append(_tier_of(tier, asked["tips"] or ()))
        except Problem as problem:
            problems.append(problem)
    if problems:
        raise Problems(problems)
    return Order(
        name=asked["name"],
        ready_at=asked["ready_at"],
        guests=asked["guests"],
        slice_mm=asked["slice"],
        tiers=tuple(tiers),
        cutters_mm=tuple(dict.fromkeys(asked["cutters"] or ())),
        recipe=asked["recipe"],
        keep_top=asked["keep_top"],
        density_g_per_ml=asked["weighed"] / 100 if asked["weighed"] else None,
        measured=tuple(_calibration_of(m) for m in asked["measured"]),
        stacked=asked["stacked"],
        together=asked["together"] == "yes",
        border_mm=usual_mm(BORDER, asked.units),
        units=asked.units,
    )


def _calibration_of(strip: Asked) -> Calibration:
    if strip["mass"] is None and strip["pieces"] is None:
        raise strip.problem("mass", "It weighed is empty. Write what the strip weighed, like 21 g, or how many pieces it has")
    if strip["pieces"] is not None:
        spacing = strip["length"] / strip["pieces"]
        check_spacing(spacing, KINDS[strip["kind"]], strip["tip"], strip.named("pieces"), Formatter(strip.units))
    return Calibration(strip["tip"], strip["kind"], strip["length"], strip["mass"], strip["pieces"])


def _tip_at_hand(kind: Kind, height_mm: float, tips: Sequence[Tip]) -> Tip:
    """The tip that a row begins with: the nearest in opening of those at hand that suit its kind, or else the kind's own."""
    usual = kind.begin_tip(height_mm)
    fit = [tip for tip in tips if tip.family in kind.families and usual.opening_mm / 2 <= tip.opening_mm <= usual.opening_mm * 2]
    return min(fit, key=lambda tip: (tip.family != usual.family, abs(tip.opening_mm - usual.opening_mm)), default=usual)


def _tier_of(tier: Asked, tips: Sequence[Tip]) -> TierOrder:
    if tier["shape"] in TWO_SIZES and tier["length"] is None:
        raise tier.problem("length", f"Tin, length is empty, and {a_or_an(tier['shape'])} tin has a width and a length, like 20 cm and 30 cm")
    length = tier["length"] if tier["shape"] in TWO_SIZES else None
    if length and tier["shape"] == "oval" and max(length, tier["width"]) > 10 * min(length, tier["width"]):
        raise tier.problem("length", "Tin, length: an oval is at most ten times as long as it is wide. Make it shorter, or choose a rectangle")
    rows = tuple(
        RowSpec(
            r["kind"],
            r["tip"] or _tip_at_hand(KINDS[r["kind"]], tier["height"], tips),
            drop_mm=r["drop"] or 0.0,
            layers=r["layers"] or 1,
            place=r["place"],
            colour=r["colour"].lower(),
            second=r["second"].lower() if r["second"].lower() != r["colour"].lower() else "",
            below_mm=r["below"],
            per_joint=r["per_joint"] or 1,
            path=r.path,
        )
        for r in tier["rows"]
    )
    bands = _bands_of(tier)
    if bands and tier["striped"]:
        raise tier.problem("striped", "Striped with: a coat is ombre or striped, not both. Empty one of the two")
    return TierOrder(
        name=tier["name"],
        sponge=tin_of(tier, tier["shape"], tier["width"], length),
        height_mm=tier["height"],
        layers=tier["layers"],
        filling_mm=tier["filling"],
        crumb_mm=tier["crumb"],
        final_mm=tier["final"],
        disc_mm=tier["disc"],
        measured_mm=tier["side"],
        colour=tier["colour"].lower(),
        rows=rows,
        repeats=tier["repeats"],
        cutter_mm=tier["cutter"],
        fitted=tier["fit"] == "all",
        joints_below_mm=tier["joints_below"],
        path=tier.path,
        top_mm=tier["top"],
        dam_mm=tier["dam"] or 0.0,
        bands=bands,
        striped=(tier["striped"].lower(), tier["stripes"], tier["stripe_share"]) if tier["striped"] else None,
    )


def _bands_of(tier: Asked) -> tuple[tuple[str, float], ...]:
    """Read "russet 2, blush 1, ivory" as colours with their shares; one without a number has a share of 1."""
    found: list[tuple[str, float]] = []
    for part in (one.strip() for one in re.split(r"[,;\n]+", tier["bands"])):
        if not part:
            continue
        number = re.search(r"[\s:]+(\d{1,4}(?:\.\d{1,3})?)\s?%?$", part)
        name = " ".join((part[: number.start()] if number else part).lower().split())
        share = float(number[1]) if number else 1.0
        if not name or len(name) > 40 or name[0].isdigit() or share <= 0 or len(found) == 24:
            raise tier.problem(
                "bands",
                f"Ombre: “{part[:40]}” is not a colour with a share of the height. Write up to 24, like russet 2, blush 1, ivory 1",
            )
        found.append((name, share))
    return tuple(found)


_planned = lru_cache(maxsize=2)(plan)  # one order is asked for its answer and then for sheet after sheet


def plan_of(asked: Asked) -> Plan:
    """What follows from the parsed inputs."""
    return _planned(order_of(asked))


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `order`."""
    cake = plan_of(asked)
    fill_answer(answer, cake, asked)
    answer.section("sheets", "Sheets to print", "Sheets")
    called = file_name_part(cake.order.name, "cake")
    for name, title in sheet_names(cake).items():
        answer.sheet(name, title, group_of(name), f"{called}-{name}.pdf")


def draw_sheet(asked: Asked, name: str, paper: str) -> bytes:
    """Draw one of the sheets of an order as PDF, write its calendar file, or fit a look to it."""
    if name.startswith(LOOK):
        return look_file(asked, order_of(asked), name, lambda texts: order_of(parse(CALCULATOR, texts)))
    cake = plan_of(asked)
    if name == CUSTOMERS:
        return quotation_file(asked, cake)
    if name.partition(":")[0] == SHOP:
        return shop_file(cake, asked, name)
    if name.startswith(TIERS_FOR):
        from calc.calculators import CALCULATORS

        return tiers_file(cake, name, CALCULATORS)
    return calendar_of(asked, cake) if name == CALENDAR else pdf_of(asked, cake, name, paper)


CALCULATOR = Calculator(
    "order",
    "The whole cake",
    "From an order to a cake that comes out even.",
    EVENT
    + (
        Input(
            "order",
            "The order as text",
            "long_text",
            optional=True,
            advanced=True,
            help="An order kept as TOML; it fills the form",
        ),
    ),
    work_out,
    groups=(TIERS, COLOURS, MEASURED, PACKS, MAKER, QUOTE),
    draw_sheet=draw_sheet,
    unfold=unfold,
)
