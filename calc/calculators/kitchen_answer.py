"""What follows from a maker's kitchen: what the tips pipe, where the cutters close, how the hand compares, recipes weighed out, and the cautions."""

from __future__ import annotations

import math

from calc.buttercream import BOWL_KEEPS_PERCENT, EU_ALLERGENS, INGREDIENTS, US_ALLERGENS, airless_density_g_per_ml, standing
from calc.calculators.declare import Answer, Asked
from calc.calculators.stack_form import read_tins
from calc.division import division_choices
from calc.rows import KINDS, Kind, RowSpec, grams_per_metre, piped
from calc.sources import constant
from calc.stack import DRUM_BORDER_MM
from calc.timetable import PACE
from calc.tips import Tip

MOST_CUTTERS, MOST_TINS = 6, 6  # in the table
COATED_MM = constant(10.0, "mm", "common-practice", "what a coat on both sides adds to a tin, to say how many swags go round it")
USES_EGG = ("egg_white", "dried_egg_white")


def fill(asked: Asked, answer: Answer) -> None:
    """Say what follows from a kitchen in which something is kept."""
    if asked["tins"]:
        read_tins(asked["tins"], "round", answer.units)
    _tips(asked, answer)
    _cutters(asked, answer)
    _boards(asked, answer)
    _strips(asked, answer)
    _pace(asked, answer)
    for recipe in asked["recipes"]:
        _recipe(recipe, answer)
    if asked["recipes"]:
        answer.caution(f"Standing out. {standing(answer.units)} Nothing here says that a buttercream of yours keeps at room temperature.")
    if asked["stacked"] == "home":
        answer.caution(
            "Tiers stacked at home are carried as one. The whole cake says what that weighs and how high it stands: let two people lift it, under "
            "the board, and never without dowels under each upper tier."
        )


def suits(kind: Kind, tip: Tip) -> bool:
    """Whether a tip pipes this kind of row at a size that is usual for it."""
    opening = kind.begins_with[1]
    return tip.family in kind.families and opening / 2 <= tip.opening_mm <= opening * 2


def _in_sentence(title: str) -> str:
    """A title as it stands inside a sentence; that of a C scroll keeps its letter."""
    return title if title[1:2] == " " else title[:1].lower() + title[1:]


def _tips(asked: Asked, answer: Answer) -> None:
    tips = [each["tip"] for each in asked["tips"]]
    if not tips:
        return
    kinds = [kind for kind in KINDS.values() if kind.page]
    able = [kind for kind in kinds if any(suits(kind, tip) for tip in tips)]
    answer.figure("pipes", "Kinds of row your tips pipe", len(able), "", f"{len(able)} of {len(kinds)}")
    rows = []
    for each in asked["tips"]:
        tip: Tip = each["tip"]
        made = [_in_sentence(kind.titles) for kind in kinds if suits(kind, tip)]
        rows.append([tip.name, ", ".join(made) or "nothing usual at this size", answer.say.length(tip.bead_width_mm), each["note"]])
    answer.table("tips", "What your tips pipe", ("Tip", "Pipes", "Width of its line", "Your note"), rows, (2,))
    lacking = [_in_sentence(kind.titles) for kind in kinds if kind not in able]
    if lacking:
        answer.note(f"No tip of yours for {', '.join(lacking)} at a usual size. The page of each row says which tip it wants.")


def _cutters(asked: Asked, answer: Answer) -> None:
    cutters, say = (asked["cutters"] or ())[:MOST_CUTTERS], answer.say
    if not cutters or not asked["tins"]:
        return
    rows = []
    for tin in read_tins(asked["tins"], "round", answer.units)[:MOST_TINS]:
        side = math.pi * (tin.width_mm + COATED_MM)
        for cutter in cutters:
            best = division_choices(side, (cutter,), most=int(side / 15))[0]
            rows.append([say.length(tin.width_mm), say.length(cutter), str(best.repeats), say.length(best.width_mm), say.length(best.drop_mm)])
    heads = ("Tin", "Cutter", "Swags", "Width", "Drop")
    answer.table("cutters", "Swags that your cutters give on your tins", heads, rows, (0, 1, 2, 3, 4))
    answer.note(f"Here a coated tier is taken to be {say.length(COATED_MM)} wider than its tin. Measure the finished side, and go by the tape.")


def _boards(asked: Asked, answer: Answer) -> None:
    boards, say = asked["boards"] or (), answer.say
    if not boards or not asked["tins"]:
        return
    shows = asked["border"] if asked["border"] is not None else float(DRUM_BORDER_MM)
    rows = []
    for tin in read_tins(asked["tins"], "round", answer.units)[:MOST_TINS]:
        wanted = tin.width_mm + COATED_MM + 2 * shows
        mine = min((board for board in boards if board >= wanted - COATED_MM), default=None)
        rows.append([say.length(tin.width_mm), say.length(wanted), say.length(mine) if mine else "none so wide"])
    answer.table("boards", "A board under each tin as the lowest tier", ("Tin", "Board wanted", "Yours"), rows, (0, 1, 2))


def _strips(asked: Asked, answer: Answer) -> None:
    rows, say = [], answer.say
    for strip in asked["measured"]:
        kind, tip, length = KINDS[strip["kind"]], strip["tip"], strip["length"]
        if strip["mass"] is None and strip["pieces"] is None:
            raise strip.problem("mass", "It weighed is empty. Write what the strip weighed, like 21 g, or how many pieces it has")
        if strip["mass"] is not None and kind.plain_line:
            made = piped(RowSpec("line", tip, run_mm=length, repeats=1), strip.named("tip"), "Tip")
            yours = grams_per_metre(length, strip["mass"])
            usual, low, high = (1000 * mass / length for mass in (made.mass_g, made.low_g, made.high_g))
            word = "as the estimate has it" if low <= yours <= high else "more than the estimate" if yours > usual else "less than the estimate"
            rows.append([tip.name, _in_sentence(kind.title), f"{say.mass(yours)} a metre", f"{say.mass(usual)} a metre", word])
        if strip["pieces"] is not None:
            pitch, usual_mm = length / strip["pieces"], kind.natural_pitch_mm(tip)
            word = "wider than usual" if pitch > usual_mm * 1.02 else "closer than usual" if pitch < usual_mm * 0.98 else "as usual"
            usual_words = (f"one in {say.length(usual_mm)}", word) if usual_mm else ("", "")  # no pieces are usual of a line
            rows.append([tip.name, _in_sentence(kind.title), f"one in {say.length(pitch)}", *usual_words])
    if rows:
        answer.table("strips", "Your hand beside the handbook's estimate", ("Tip", "Piped as", "Yours", "Estimate", "That is"), rows, (2, 3))


def _pace(asked: Asked, answer: Answer) -> None:
    pace = PACE[asked["hand"]]
    if pace != 1:
        times = answer.say.number(pace, 2)
        answer.note(f"Your hand is {asked['hand']}: piping is planned with {times} times what a practised hand takes.")


def _recipe(recipe: Asked, answer: Answer) -> None:
    say, parts = answer.say, recipe["parts"]
    if not parts:
        answer.note(f"{recipe['name']} has no ingredients yet.")
        return
    whole = math.fsum(part["mass"] for part in parts)
    made = recipe["made"] or whole
    answer.table(
        f"recipe_{recipe.path.split('.')[1]}",
        f"{recipe['name']}, {say.mass(made)}",
        ("Ingredient", "Weigh", "Share"),
        [
            [say.words(INGREDIENTS[part["ingredient"]].name), say.weighed(part["mass"] * made / whole), say.percent(100 * part["mass"] / whole)]
            for part in parts
        ],
        (1, 2),
    )
    items = [INGREDIENTS[part["ingredient"]] for part in parts]
    airless = airless_density_g_per_ml([(INGREDIENTS[part["ingredient"]], part["mass"]) for part in parts])
    answer.note(
        f"{recipe['name']}: without air it weighs {airless:.2f} g/ml. Whipped it is lighter: weigh a level 100 ml and keep that above. About "
        f"{BOWL_KEEPS_PERCENT:g} % stays on bowl and beater."
    )
    us = [name for name in US_ALLERGENS if any(name in item.us_allergens for item in items)]
    eu = [name for name in EU_ALLERGENS if any(name in item.eu_allergens for item in items)]
    checks = "".join(f" Check the pack: {text}." for text in dict.fromkeys(item.check for item in items) if text)
    answer.caution(
        f"{recipe['name']}, allergens from the usual ingredients. US label: {', '.join(us) or 'none of the nine'}; EU and UK label: "
        f"{', '.join(eu) or 'none of the fourteen'}.{checks} Colours, flavours and decorations bring their own; packs and local rules decide."
    )
    if any(item.key in USES_EGG for item in items):
        answer.caution(
            f"{recipe['name']} has egg white: use pasteurised white, or cook white and sugar until a thermometer reads 71 °C (160 °F) all through. "
            "For the very young, the old, the pregnant and the ill use pasteurised white."
        )
    if any(item.key == "flour" for item in items):
        answer.caution("Flour is a raw food: cook the paste until it bubbles throughout, and do not taste it before.")
