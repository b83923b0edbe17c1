"""`kitchen`: what a maker owns, charges and is called; every other calculator starts from it where its reader has set nothing.

Map
---
`CALCULATOR`   the form; an input of another calculator names the one here that it starts from (`Input.kitchen`, `Group.kitchen`)
`unfold`       a kitchen kept as TOML becomes the texts of that form, and the form becomes TOML again
What follows from it is in `calc.calculators.kitchen_answer`.
"""

from __future__ import annotations

import zlib
from collections.abc import Mapping
from dataclasses import replace

from calc.buttercream import INGREDIENTS, recipe_choices
from calc.calculators import kitchen_answer
from calc.calculators.declare import UNITS, Answer, Asked, Calculator, Group, Input
from calc.calculators.inputs import MOST_TIPS
from calc.calculators.order_form import MAKER, MEASURED, QUOTE
from calc.calculators.packs import PACKS
from calc.calculators.portions_form import SLICE
from calc.calculators.stack_form import TINS_INPUT
from calc.calculators.supports_form import BORDER, STACKED
from calc.calculators.text_kept import TextKept
from calc.calculators.timetable_form import PACE_INPUTS
from calc.units import Problem, read_money

VERSION = 1
KITCHEN_TEXT = TextKept("kitchen", "The kitchen", "Choose a file that was saved here")
HEAD = ("version", "check")  # of the text; the check is of everything after it
NOT_WHOLE = (
    "It is not as it was saved here, so it may be damaged. Choose another copy of it. If you changed it yourself, take out the line that begins "
    "with check"
)

TIPS = Group(
    "tips",
    "Tip",
    (
        Input("tip", "Tip", "tip", "petal 11 mm", help="Family and measured opening, such as petal 11 mm"),
        Input("note", "Your note", "text", optional=True, help="Such as bent end, or two of them"),
    ),
    maximum=MOST_TIPS,
    title="Your tips",
    line=("{tip}", "{note}"),
    folded=True,
    help="A tip is known by its family and its opening, measured across the widest part",
)

RECIPES = Group(
    "recipes",
    "Recipe",
    (
        Input("name", "Name", "text", "My buttercream"),
        Input("made", "Make so much", "mass", optional=True, low=20, high=100_000, us_unit="pound", usual=(100, 30_000),
              help="Such as 1.2 kg; left empty, the whole recipe once"),
    ),
    groups=(
        Group(
            "parts",
            "Ingredient",
            (
                Input("ingredient", "Ingredient", "choice", "butter", choices=tuple((key, item.name) for key, item in INGREDIENTS.items())),
                Input("mass", "Mass", "mass", "250 g", low=0.1, high=50_000, usual=(1, 30_000)),
            ),
            maximum=20,
            title="By mass",
            line=("{ingredient}", "{mass}"),
            folded=True,
        ),
    ),
    maximum=12,
    title="Recipes of your own",
    line=("{name}", "{parts}"),
    folded=True,
    help="Buttercreams that the handbook does not have. They are weighed out below for what you need",
)  # fmt: skip

ORDERS_OWN = ("customer", "number", "date", "delivery")  # what of a quotation belongs to one order


def _flat(group: Group, heading: str) -> tuple[Input, ...]:
    """The inputs of a group of which there is one only, under names of their own, such as `maker_name`."""
    prefix = "terms" if group is QUOTE else group.name
    asked = [declared for declared in group.inputs if declared.name not in ORDERS_OWN]
    return tuple(replace(declared, name=f"{prefix}_{declared.name}", heading="" if at else heading) for at, declared in enumerate(asked))


TOOLS, BUTTERCREAM, WORK, MONEY = "Tips and tools", "Buttercream", "How you work", "Money"
INPUTS = (
    Input("cutters", "Round cutters", "lengths", heading=TOOLS, optional=True, low=10, high=400, usual=(25, 200),
          help="Measured across the rim, such as 9 cm, 7.5 cm, the one you reach for first"),
    Input("discs", "Coating discs", "lengths", optional=True, low=50, high=1060, usual=(95, 600), help="Their widths, such as 16 cm, 21 cm"),
    replace(TINS_INPUT, label="Tins", help="Such as 15, 20 and 25 cm", kitchen=""),
    Input("boards", "Boards", "lengths", optional=True, low=50, high=1100, usual=(100, 700), help="Their widths, such as 20 cm, 30 cm"),
    Input("recipe", "Usual buttercream", "choice", "swiss_meringue", choices=recipe_choices, heading=BUTTERCREAM),
    Input("weight_100_ml", "100 ml of it weighs", "mass", optional=True, low=40, high=160, usual=(50, 130),
          help="Weigh a level measure and work out what 100 ml weighs"),
    Input("bag_holds", "A bag holds", "mass", "300 g", low=20, high=2000, help="Half full, so that you can close and squeeze it"),
    Input("bowl", "Mixer bowl", "volume", optional=True, low=200, high=100_000, help="To its rim, such as 4.8 l", us_unit="quart"),
    replace(SLICE, kind="pair", heading=WORK, low=10, high=200, measure="", help="As seen from above, counted on the sponge", kitchen=""),
    Input("hours", "Working hours", "text", "9:00 to 18:00", help="Such as 9:00 to 18:00, or Mon to Fri 18:00 to 22:00; Sat 8:00 to 18:00"),
    *(replace(declared, advanced=False, kitchen="") for declared in (*PACE_INPUTS, BORDER)),
    Input("stacked", "Stack the tiers", "choice", "suits", choices=STACKED),
    Input("currency", "Currency", "text", heading=MONEY, optional=True, help="The sign or the letters before an amount, such as £, € or kr"),
    Input("rate", "Your hour costs", "money", optional=True, low=0, high=10_000, each="hour", help="In your own money"),
    Input("overhead", "Overhead", "percent", optional=True, low=0, high=300, help="Power, wear, rent: on top of the cost, such as 10 %"),
    Input("margin", "Margin", "percent", optional=True, low=0, high=90, help="Share of the price that stays with you, such as 25 %"),
    *_flat(MAKER, "Your name and address"),
    *_flat(QUOTE, "Your terms"),
    Input("paper", "Paper", "choice", heading="Sheets", optional=True, choices=(("A4", "A4"), ("Letter", "Letter")),
          help="For sheets; left open, as suits your units"),
)  # fmt: skip
GROUPS = (
    replace(TIPS, under=TOOLS),
    replace(MEASURED, title="Strips you have weighed and spacings you have measured", kitchen="", under=TOOLS),
    replace(RECIPES, under=BUTTERCREAM),
    replace(PACKS, kitchen="", under=MONEY),
)


def _sum_of(texts: Mapping[str, str]) -> str:
    """A check over the texts of a kitchen; a letter lost or changed on the way gives another."""
    lines = "\n".join(f"{name}={texts[name]}" for name in sorted(texts))
    return f"{zlib.crc32(lines.encode()):08x}"


def unfold(texts: Mapping[str, str], answer: Answer) -> Mapping[str, str]:
    """Turn a kitchen kept as TOML into the texts of the form; give the form back as fields and as TOML."""
    flat = {name: text for name, text in texts.items() if name not in (KITCHEN_TEXT.input, UNITS.name)}
    record = texts.get(KITCHEN_TEXT.input)
    units = texts.get(UNITS.name, "")
    if record is not None and (record.strip() or not flat):
        flat = {**_read(record), **flat}
        units = flat.pop(UNITS.name, units)
    answer.fields = {**flat, UNITS.name: units} if record is not None and units else dict(flat)
    kept = {UNITS.name: units or UNITS.default, **flat}
    answer.record = lambda: KITCHEN_TEXT.write({"version": str(VERSION), "check": _sum_of(kept), **kept}, HEAD)
    return {**flat, UNITS.name: units} if units else flat


def _read(record: str) -> dict[str, str]:
    """The texts of a kitchen; raises a `Problem` where it is damaged, of a newer handbook, or something else."""
    flat = KITCHEN_TEXT.read(record)
    version, check = flat.pop("version", ""), flat.pop("check", None)
    number = int(version[:9]) if version.isascii() and version.isdecimal() else 0
    if number < 1:
        raise KITCHEN_TEXT.problem("It is not a kitchen that was saved here, or it is damaged. Choose another file")
    if number > VERSION:
        raise KITCHEN_TEXT.problem("A newer handbook saved it. Load this page again, so that this one is as new, and open it then")
    known = {declared.name for declared in INPUTS} | {group.name for group in GROUPS} | {UNITS.name}
    strange = next((name for name in flat if name.split(".")[0] not in known), None)
    if strange is not None:
        raise KITCHEN_TEXT.problem(f"It has “{strange[:40]}”, which no kitchen has, so it may be damaged. Choose another copy of it")
    if check is not None and check != _sum_of(flat):
        raise KITCHEN_TEXT.problem(NOT_WHOLE)
    return flat


def work_out(asked: Asked, answer: Answer) -> None:
    """Fill the answer of `kitchen`."""
    if asked["currency"]:
        try:
            sign = read_money(f"{asked['currency']}1", "currency", "Currency")[1]
        except Problem:
            sign = ""
        if not sign or any(letter.isdigit() for letter in asked["currency"]):  # it is put before amounts, where a digit would be one of theirs
            raise Problem("currency", "Currency is a sign or letters such as £, €, $ or kr. Write only that")
    answer.count("tips", "Tips of yours", len(asked["tips"]))
    if any(asked[name] for name in ("tips", "cutters", "tins", "boards", "recipes", "measured")) or asked["hand"] != "practised":
        kitchen_answer.fill(asked, answer)
    else:
        answer.note("Nothing of yours is kept yet. Add a tip or a cutter, and you will see here what you can do with it.")


CALCULATOR = Calculator(
    "kitchen",
    "My kitchen",
    "What you own, charge and are called.",
    (
        *INPUTS,
        Input(KITCHEN_TEXT.input, "The kitchen as text", "long_text", optional=True, advanced=True, help="A kitchen kept as TOML; it fills the form"),
    ),
    work_out,
    groups=GROUPS,
    unfold=unfold,
    is_kitchen=True,
)
