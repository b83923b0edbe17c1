"""What the fields of the calculators take: the least and the most of each, which bare numbers are asked about, and which may be left empty.

The limits keep out slips of the pen, a missing decimal point or a wrong unit; within the usual range a number without a unit is taken in the unit
beside the field, and outside it the reader is asked. Both are choices (common practice, no source), so a table is the plainest thing to hold them to.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator

import pytest

from calc.calculators import CALCULATORS
from calc.calculators.inputs import Group, Input, in_us_units
from calc.calculators.supports_form import read_tiers
from calc.calculators.text_kept import DEEPEST_TOML, TextKept
from calc.units import Problem


def fields_of(slug: str) -> Iterator[tuple[str, Input]]:
    """Every field of a calculator by its name, those of groups as tiers.rows.drop."""

    def inside(group: Group, before: str) -> Iterator[tuple[str, Input]]:
        for declared in group.inputs:
            yield f"{before}{group.name}.{declared.name}", declared
        for inner in group.groups:
            yield from inside(inner, f"{before}{group.name}.")

    calculator = CALCULATORS[slug]
    yield from ((declared.name, declared) for declared in calculator.inputs)
    for group in calculator.groups:
        yield from inside(group, "")


def said(slug: str, field: str, text: str, units: str = "metric") -> str:
    """What is said at a field about what was typed; nothing where it is taken."""
    declared = dict(fields_of(slug))[field]
    try:
        declared.read(text, field, units)
    except Problem as problem:
        return problem.message
    return ""


# Calculators, fields, the least and the most that they take, and something less and something more.
LIMITS = """
portions     | width          | 5 cm    | 100 cm    | 4.9 cm   | 101 cm
portions     | height         | 2 cm    | 40 cm     | 1.9 cm   | 40.5 cm
stack        | guests         | 1       | 2000      | 0        | 2001
stack        | tier_count     | 1       | 7         | 0        | 8
stack        | spare          | 0 %     | 100 %     | -1 %     | 101 %
stack        | step_low       | 0 cm    | 50 cm     | -1 mm    | 51 cm
supports     | coat           | 0 mm    | 40 mm     | -1 mm    | 41 mm
supports     | border         | 0 cm    | 20 cm     | -1 mm    | 20.5 cm
division     | side           | 5 cm    | 6 m       | 4.9 cm   | 601 cm
division     | repeats        | 2       | 200       | 1        | 201
division     | target         | 5 mm    | 2 m       | 4 mm     | 201 cm
swags        | cutter         | 1 cm    | 40 cm     | 9 mm     | 41 cm
swags        | drop           | 2 mm    | 40 cm     | 1 mm     | 41 cm
swags        | rows           | 1       | 6         | 0        | 7
coats        | layers         | 1       | 12        | 0        | 13
coats        | filling        | 0 mm    | 25 mm     | -1 mm    | 26 mm
coats        | crumb_coat     | 0 mm    | 10 mm     | -1 mm    | 11 mm
coats        | stripe_share   | 1 %     | 99 %      | 0.5 %    | 99.5 %
coats        | groove         | 0.2 mm  | 20 mm     | 0.1 mm   | 21 mm
batch        | mass           | 20 g    | 100 kg    | 19 g     | 101 kg
batch        | bags           | 1       | 200       | 0        | 201
batch        | bowl           | 200 ml  | 100 l     | 190 ml   | 101 l
timetable    | people         | 1       | 10        | 0        | 11
timetable    | out_limit      | 30 min  | 8 h       | 29 min   | 8 h 5 min
timetable    | fridge         | 1       | 20        | 0        | 21
price        | packaging      | 0       | 1000000   | -0.5     | 1000001
price        | margin         | 0 %     | 500 %     | -1 %     | 501 %
price        | portions       | 1       | 5000      | 0        | 5001
strings      | loops          | 1       | 6         | 0        | 7
shells       | per_swag       | 1       | 500       | 0        | 501
shells       | pieces         | 2       | 1000      | 1        | 1001
rosettes     | count          | 1       | 2000      | 0        | 2001
row          | pieces         | 2       | 1000      | 1        | 1001
row          | per_repeat     | 1       | 60        | 0        | 61
tips         | opening        | 0.5 mm  | 60 mm     | 0.4 mm   | 61 mm
colours      | bag_loss       | 0 g     | 200 g     | -1 g     | 201 g
colours      | bag_holds      | 20 g    | 2 kg      | 19 g     | 2.1 kg
colours      | rows.mass      | 0.1 g   | 100 kg    | 0.05 g   | 101 kg
tint         | mass           | 1 g     | 100 kg    | 0.5 g    | 101 kg
tint         | test_stood     | 0 min   | 7 d       | -1 min   | 169 h
tint         | will_stand     | 0 min   | 7 d       | -1 min   | 169 h
lesson       | students       | 1       | 200       | 0        | 201
lesson       | left_handed    | 0       | 200       | -1       | 201
lesson       | breaks         | 0       | 6         | -1       | 7
lesson       | minutes        | 20 min  | 10 h      | 19 min   | 10 h 5 min
lesson       | bag_holds      | 20 g    | 3 kg      | 19 g     | 3.1 kg
lesson       | packs.mass     | 1 g     | 50 kg     | 0.9 g    | 51 kg
lesson       | packs.price    | 0       | 100000    | -1       | 100001
vermicelli   | gap            | 0.5 mm  | 60 mm     | 0.4 mm   | 61 mm
order        | guests         | 1       | 2000      | 0        | 2001
order        | extras         | 0       | 1000000   | -0.5     | 1000001
order        | margin         | 0 %     | 90 %      | -1 %     | 91 %
order        | tiers.height   | 2 cm    | 40 cm     | 1.9 cm   | 40.5 cm
order        | tiers.repeats  | 2       | 120       | 1        | 121
order        | tiers.rows.per_joint | 1 | 12        | 0        | 13
order        | quote.deposit  | 0 %     | 100 %     | -1 %     | 101 %
order        | quote.valid_days | 1     | 365       | 0        | 366
kitchen      | weight_100_ml  | 40 g    | 160 g     | 39 g     | 161 g
swags strings shells rosettes row vermicelli | side | 5 cm | 6 m | 4.9 cm | 6.1 m
swags strings shells rosettes row vermicelli division | width | 2 cm | 190 cm | 1.9 cm | 191 cm
swags division | length | 2 cm | 190 cm | 1.9 cm | 191 cm
swags strings shells rosettes row vermicelli | piped | 2 cm | 20 m | 1.9 cm | 20.1 m
swags strings shells rosettes row vermicelli | weighed | 0.1 g | 20 kg | 0.05 g | 20.1 kg
swags strings shells rosettes row vermicelli | weight_100_ml | 40 g | 160 g | 39 g | 161 g
swags strings | repeats | 2 | 200 | 1 | 201
shells row | repeats | 1 | 200 | 0 | 201
strings row | drop | 1 mm | 40 cm | 0.5 mm | 41 cm
portions stack supports division swags coats | fullness | 61 % | 78 % | 60 % | 79 %
portions stack coats | holds | 100 ml | 60 l | 99 ml | 61 l
portions stack coats | deep | 15 mm | 30 cm | 14 mm | 31 cm
portions | length | 5 cm | 100 cm | 4.9 cm | 101 cm
stack | height | 2 cm | 40 cm | 1.9 cm | 40.5 cm
stack | step_high | 1 cm | 90 cm | 9 mm | 91 cm
supports | filling | 0 mm | 20 cm | -1 mm | 20.1 cm
swags | joints | 0 cm | 40 cm | -1 mm | 41 cm
coats | width length | 4 cm | 100 cm | 3.9 cm | 101 cm
coats | height | 15 mm | 60 cm | 14 mm | 61 cm
coats | final_coat | 0 mm | 20 mm | -1 mm | 21 mm
coats | disc | 1 cm | 110 cm | 9 mm | 111 cm
coats | dam | 0 mm | 6 cm | -1 mm | 61 mm
coats order.tiers | top | 0 mm | 30 mm | -1 mm | 31 mm
coats | colours | 2 | 24 | 1 | 25
coats order.tiers | stripes | 1 | 60 | 0 | 61
coats batch | weighed_cup | 1 g | 20 kg | 0.9 g | 20.1 kg
coats batch | cup | 15 ml | 10 l | 14 ml | 10.1 l
batch | bag_fill | 20 g | 3 kg | 19 g | 3.1 kg
batch | in_hand | 1 g | 100 kg | 0.9 g | 101 kg
timetable order | spare | 0 min | 48 h | -1 min | 2881 min
timetable order | travel | 0 min | 24 h | -1 min | 1441 min
timetable | buttercream | 0 g | 200 kg | -1 g | 201 kg
timetable | colours | 1 | 40 | 0 | 41
timetable | bags | 1 | 80 | 0 | 81
timetable | soften | 0 min | 8 h | -1 min | 481 min
timetable order kitchen | oven_shelf | 20 x 20 cm | 120 x 120 cm | 19 x 40 cm | 40 x 121 cm
timetable order kitchen | oven_shelves | 1 | 20 | 0 | 21
timetable | oven | 1 | 10 | 0 | 11
order kitchen | out_limit | 30 min | 8 h | 29 min | 481 min
price | ingredients delivery | 0 | 1000000 | -0.5 | 1000001
price | hours | 0 h | 1000 h | -1 min | 1001 h
price lesson | rate | 0 | 100000 | -0.5 | 100001
order kitchen | rate | 0 | 10000 | -0.5 | 10001
price | overhead | 0 % | 500 % | -1 % | 501 %
order kitchen | overhead | 0 % | 300 % | -1 % | 301 %
price | tax deposit spare | 0 % | 100 % | -1 % | 101 %
order.quote | tax | 0 % | 100 % | -1 % | 101 %
kitchen | terms_tax terms_deposit | 0 % | 100 % | -1 % | 101 %
kitchen | margin | 0 % | 90 % | -1 % | 91 %
lesson | margin | 0 % | 95 % | -1 % | 96 %
colours | margin | 0 % | 100 % | -1 % | 101 %
price order.quote | round_up | 0.01 | 1000 | 0 | 1001
kitchen | terms_round_up | 0.01 | 1000 | 0 | 1001
price.items | mass in_hand | 0 g | 1000 kg | -1 g | 1001 kg
price.items | pack | 1 g | 1000 kg | 0.9 g | 1001 kg
price.items | pack_price | 0 | 1000000 | -0.5 | 1000001
price.tasks | time | 0 min | 500 h | -1 min | 501 h
order.packs kitchen.packs | mass | 1 g | 50 kg | 0.9 g | 50.1 kg
order.packs kitchen.packs | price | 0 | 100000 | -0.5 | 100001
order.measured kitchen.measured | length | 2 cm | 5 m | 1.9 cm | 5.1 m
order.measured kitchen.measured | mass | 0.5 g | 2 kg | 0.4 g | 2.1 kg
order.measured kitchen.measured | pieces | 2 | 1000 | 1 | 1001
rosettes | spacing | 3 mm | 2 m | 2 mm | 201 cm
rosettes | size | 2 mm | 20 cm | 1 mm | 21 cm
tips | width | 0.5 mm | 30 cm | 0.4 mm | 31 cm
tint | test_mass | 1 g | 5 kg | 0.9 g | 5.1 kg
tint | test_drops | 0.1 | 500 | 0.05 | 501
lesson | break_length | 1 min | 2 h | 0.5 min | 121 min
lesson | demo | 0 min | 60 min | -1 min | 61 min
lesson | seats | 1 | 50 | 0 | 51
lesson | cake | 0 g | 5 kg | -1 g | 5.1 kg
lesson | each room | 0 | 1000000 | -0.5 | 1000001
lesson | preparing | 0 h | 1000 h | -1 min | 1001 h
row | layers | 1 | 6 | 0 | 7
row | movement advance | 0.5 mm | 6 cm | 0.4 mm | 61 mm
vermicelli | height | 5 mm | 60 cm | 4 mm | 61 cm
order kitchen | slice | 1 x 1 cm | 20 x 20 cm | 9 x 20 mm | 2 x 21 cm
order kitchen | cutters | 1 cm | 40 cm | 9 mm | 41 cm
order | weighed | 40 g | 160 g | 39 g | 161 g
order.tiers | width length | 5 cm | 100 cm | 4.9 cm | 101 cm
order.tiers | layers | 1 | 10 | 0 | 11
order.tiers | filling | 0 mm | 40 mm | -1 mm | 41 mm
order.tiers | disc | 5 cm | 106 cm | 4.9 cm | 107 cm
order.tiers | side | 10 cm | 4 m | 9.9 cm | 4.1 m
order.tiers | fullness | 61 % | 78 % | 60 % | 79 %
order.tiers | holds | 100 ml | 60 l | 99 ml | 61 l
order.tiers | deep | 15 mm | 30 cm | 14 mm | 31 cm
order.tiers | cutter | 1 cm | 40 cm | 9 mm | 41 cm
order.tiers | joints_below | 0 cm | 40 cm | -1 mm | 41 cm
order.tiers | crumb | 0 mm | 15 mm | -1 mm | 16 mm
order.tiers | final | 0 mm | 30 mm | -1 mm | 31 mm
order.tiers | dam | 0 mm | 6 cm | -1 mm | 61 mm
order.tiers | stripe_share | 1 % | 99 % | 0.5 % | 99.5 %
order.tiers.rows | drop | 2 mm | 40 cm | 1 mm | 41 cm
order.tiers.rows | below | 0 cm | 60 cm | -1 mm | 61 cm
order.tiers.rows | layers | 1 | 5 | 0 | 6
order.quote | balance_days | 0 | 365 | -1 | 366
kitchen | discs | 5 cm | 106 cm | 4.9 cm | 107 cm
kitchen | boards | 5 cm | 110 cm | 4.9 cm | 111 cm
kitchen | bag_holds | 20 g | 2 kg | 19 g | 2.1 kg
kitchen | bowl | 200 ml | 100 l | 190 ml | 101 l
kitchen | border | 0 cm | 20 cm | -1 mm | 20.5 cm
kitchen | terms_valid_days | 1 | 365 | 0 | 366
kitchen | terms_balance_days | 0 | 365 | -1 | 366
kitchen.recipes | made | 20 g | 100 kg | 19 g | 101 kg
kitchen.recipes.parts | mass | 0.1 g | 50 kg | 0.05 g | 50.1 kg
"""


def places(line: str) -> tuple[list[tuple[str, str]], list[str]]:
    """The calculators and fields of a line of a table, and its other cells."""
    of, fields, *cells = (cell.strip() for cell in line.split("|"))
    found = []
    for place, field in itertools.product(of.split(), fields.split()):
        slug, _, group = place.partition(".")
        found.append((slug, f"{group}.{field}" if group else field))
    return found, cells


@pytest.mark.parametrize("line", LIMITS.strip().split("\n"))
def test_a_field_takes_its_limits_and_nothing_past_them_and_names_what_it_takes(line: str) -> None:
    """In both systems of units what the message names can be typed; a least is rounded up and a most down, by no more than to the next figure."""
    found, (least, most, less, more) = places(line)
    for slug, field in found:
        declared = dict(fields_of(slug))[field]
        assert said(slug, field, least) == said(slug, field, most) == "", (slug, field)
        for units, past in itertools.product(("metric", "us"), (less, more)):
            words = said(slug, field, past, units)
            named = re.fullmatch(r".* must be between (.+) and (.+)", words)
            assert named, (slug, field, words)
            for text, limit in zip(named.groups(), (declared.low, declared.high), strict=True):
                read = declared.read(f"{text} x {text}" if declared.kind == "pair" else text, field, units)  # a problem if it is refused
                assert (read[0] if isinstance(read, tuple) else read) == pytest.approx(limit, rel=0.07), words  # 3/4 oz are 6 % over 20 g


def test_every_field_that_has_a_limit_or_a_usual_range_is_in_a_table() -> None:
    limited = {(slug, name) for slug in CALCULATORS for name, declared in fields_of(slug) if declared.low is not None or declared.high is not None}
    usual = {(slug, name) for slug in CALCULATORS for name, declared in fields_of(slug) if declared.usual}
    assert limited == {place for line in LIMITS.strip().split("\n") for place in places(line)[0]}
    assert usual <= {place for line in USUAL.strip().split("\n") for place in places(line)[0]}


# What an answer cannot be worked out without; every other field may be left empty. A tier, a row or a pack, once there is one, needs its own.
NEEDED = {
    "portions": "shape width slice fullness cut",
    "stack": "guests slice shape height keep_top spare step_low step_high fullness recipe kitchen",
    "supports": "tiers coat filling border fullness recipe stacked",
    "division": "shape fullness",
    "swags": "shape fullness joints rows tip",
    "coats": "shape width height layers filling crumb_coat fullness recipe whipped filled_with style colours stripes stripe_share",
    "batch": "recipe mass whipped",
    "timetable": "ready_at tiers hours people buttercream recipe colours bake stacked soften hand out_limit oven_shelf oven_shelves oven",
    "price": "ingredients hours rate overhead margin margin_of portions tax deposit spare count items.name items.mass tasks.name tasks.time",
    "strings": "repeats drop loops tip",
    "shells": "tip kind",
    "rosettes": "tip",
    "tips": "",
    "colours": "margin bag_loss bag_holds rows.colour rows.mass",
    "tint": "test_mass test_drops mass depth",
    "lesson": "students left_handed exercises minutes recipe in_order break_length demo seats bag_holds scrape tutor preparing margin packs.name "
    "packs.mass packs.price",
    "practice": "exercises hand recipe",
    "row": "kind layers tip",
    "vermicelli": "ground gap tip",
    "order": "name ready_at guests slice recipe together keep_top hours spare travel stacked hand out_limit oven_shelf oven_shelves rate extras "
    "overhead margin tiers.name tiers.shape tiers.width tiers.height tiers.layers tiers.filling tiers.colour tiers.fullness tiers.fit tiers.crumb "
    "tiers.final tiers.stripes tiers.stripe_share tiers.rows.kind tiers.rows.place tiers.rows.colour colours.name colours.look measured.tip "
    "measured.kind measured.length packs.name packs.mass packs.price quote.valid_days quote.deposit quote.balance_days quote.tax",
    "kitchen": "recipe bag_holds slice hours hand out_limit oven_shelf oven_shelves border stacked terms_valid_days terms_deposit terms_balance_days "
    "terms_tax tips.tip measured.tip measured.kind measured.length recipes.name recipes.parts.ingredient recipes.parts.mass packs.name packs.mass "
    "packs.price",
}


@pytest.mark.parametrize("slug", CALCULATORS)
def test_a_field_may_be_left_empty_unless_nothing_can_be_worked_out_without_it(slug: str) -> None:
    refused = {name: said(slug, name, "") for name, _ in fields_of(slug) if said(slug, name, "")}
    assert set(refused) == set(NEEDED[slug].split())
    assert all("empty" in words for words in refused.values())


def test_limits_are_told_in_the_readers_units() -> None:
    """50 mm are 1.97 in, and 1 15/16 in would be too few; 1000 mm are 39.37 in, and 39 3/8 in would be too many."""
    assert said("portions", "width", "4.9 cm") == "Width of the tin must be between 5 cm and 100 cm"
    assert said("portions", "width", "1 in", "us") == "Width of the tin must be between 2 in and 39 1/4 in"


# Calculators, field, unit beside it; bare numbers at the ends of what is usual, and just outside.
USUAL = """
coats        | crumb_coat     | mm | 0.8  | 8    | 0.7  | 8.5
coats        | filling        | mm | 2    | 25   | 1.5  | -
supports     | coat           | mm | 2    | 20   | 1.5  | 21
supports     | border         | cm | 1    | 13   | 0.9  | 13.5
division     | side           | cm | 30   | 220  | 29   | 225
division     | width          | cm | 8    | 66   | 7.5  | 67
swags        | drop           | cm | 0.8  | 16   | 0.7  | 16.5
swags        | joints         | cm | 0.3  | 30   | 0.2  | 31
strings      | drop           | cm | 0.5  | 16   | 0.4  | 16.5
vermicelli   | gap            | mm | 1    | 15   | 0.9  | 16
tips         | opening        | mm | 0.8  | 30   | 0.7  | 31
order        | tiers.final    | mm | 1    | 15   | 0.9  | 16
order        | tiers.crumb    | mm | 0.8  | 8    | 0.7  | 8.5
order        | tiers.height   | cm | 5    | 30   | 4.5  | 31
order        | tiers.cutter   | cm | 2.5  | 20   | 2.4  | 20.5
lesson       | cake           | g  | 10   | 3000 | 9    | 3001
batch        | mass           | g  | 100  | 30000 | 99  | 30001
portions coats order.tiers | width | cm | 9.5 | 46 | 9 | 47
portions coats order.tiers | length | cm | 9.5 | 66 | 9 | 67
portions stack | height | cm | 5 | 30 | 4.5 | 31
coats | height | cm | 4 | 30 | 3.9 | 31
portions stack coats order.tiers | deep | cm | 2.5 | 16 | 2.4 | 17
swags division | length | cm | 8 | 80 | 7.5 | 81
swags strings shells rosettes row vermicelli | width | cm | 8 | 66 | 7.5 | 67
swags strings shells rosettes row vermicelli order.tiers | side | cm | 30 | 220 | 29 | 225
division | target | cm | 1 | 30 | 0.9 | 31
supports | filling | mm | 2 | 80 | 1.9 | 81
order.tiers | filling | mm | 2 | 25 | 1.9 | 26
coats | final_coat | mm | 1 | 15 | 0.9 | 16
coats | groove | mm | 0.5 | 15 | 0.4 | 16
coats order.tiers | dam | mm | 3 | 40 | 2.5 | 41
coats order.tiers | top | mm | 1 | 25 | 0.9 | 26
coats order.tiers | disc | cm | 9.5 | 60 | 9 | 61
kitchen | discs | cm | 9.5 | 60 | 9 | 61
kitchen | boards | cm | 10 | 70 | 9.5 | 71
kitchen | border | cm | 1 | 13 | 0.9 | 13.5
order kitchen | cutters | cm | 2.5 | 20 | 2.4 | 20.5
swags | cutter | cm | 2.5 | 20 | 2.4 | 20.5
swags strings shells rosettes row vermicelli | piped | cm | 5 | 500 | 4.5 | 505
swags strings shells rosettes row vermicelli | weighed | g | 1 | 1000 | 0.9 | 1001
order.measured kitchen.measured | length | cm | 5 | 300 | 4.5 | 305
order.measured kitchen.measured | mass | g | 2 | 400 | 1.9 | 401
coats batch | weighed_cup | g | 50 | 3000 | 49 | 3001
batch | in_hand | g | 10 | 30000 | 9.5 | 30001
price.items | pack | g | 10 | 30000 | 9.5 | 30001
lesson.packs order.packs kitchen.packs | mass | g | 20 | 30000 | 19 | 30001
timetable | buttercream | g | 100 | 50000 | 99 | 50001
timetable order | spare | min | 5 | 2880 | 4 | -
timetable order | travel | min | 5 | 600 | 4 | 601
timetable | soften | min | 5 | 480 | 4 | -
timetable order kitchen | out_limit | min | 30 | 480 | - | -
price | hours | h | 0.25 | 100 | 0.2 | 101
rosettes | spacing | cm | 0.5 | 25 | 0.4 | 26
rosettes | size | cm | 0.4 | 9 | 0.3 | 9.1
tips | width | mm | 1 | 120 | 0.9 | 121
colours.rows | mass | g | 0.5 | 5000 | 0.4 | 5001
tint | test_mass | g | 5 | 1000 | 4 | 1001
tint | mass | g | 20 | 20000 | 19 | 20001
row | drop | cm | 0.5 | 16 | 0.4 | 16.5
row | movement | mm | 1 | 40 | 0.9 | 41
row | advance | mm | 0.5 | 40 | - | 41
vermicelli | height | cm | 1.5 | 25 | 1.4 | 26
order.tiers | joints_below | cm | 0.3 | 30 | 0.2 | 31
order.tiers.rows | below | cm | 0.3 | 30 | 0.2 | 31
order.tiers.rows | drop | cm | 0.8 | 16 | 0.7 | 16.5
kitchen | weight_100_ml | g | 50 | 130 | 49 | 131
kitchen.recipes | made | g | 100 | 30000 | 99 | 30001
kitchen.recipes.parts | mass | g | 1 | 30000 | 0.9 | 30001
price.tasks | time | h | 0.1 | 20 | 0.05 | 21
timetable order kitchen | oven_shelf | cm | 30 x 30 | 70 x 70 | 29 x 40 | 40 x 71
"""


@pytest.mark.parametrize("line", USUAL.strip().split("\n"))
def test_a_bare_number_that_is_unusual_is_asked_about_and_one_with_its_unit_is_taken(line: str) -> None:
    found, (unit, low, high, below, above) = places(line)
    for slug, field in found:
        assert said(slug, field, low) == said(slug, field, high) == "", (slug, field)
        for outside, size in ((below, "small"), (above, "large")):
            if outside != "-":
                words = f"{outside} is read as {outside} {unit}, which is unusually {size}. Write {outside} {unit} if"
                assert words in said(slug, field, outside), (slug, field)
                assert said(slug, field, f"{outside} {unit}") == "", (slug, field)


def test_nothing_at_all_is_no_unusual_number() -> None:
    """0 mm of filling or of crumb coat is a cake without, and needs no second look."""
    assert said("coats", "filling", "0") == said("coats", "crumb_coat", "0") == said("supports", "coat", "0") == ""


def test_a_unit_written_with_the_last_size_holds_for_all() -> None:
    """200 x 100 mm is a tier 20 cm wide, though a bare number there is in centimetres."""
    (tier,) = read_tiers("200 x 100 mm round", "metric")
    assert (tier.sponge.width_mm, tier.height_mm) == (200.0, 100.0)
    (heart,) = read_tiers("8 x 4 in heart", "metric")
    assert (heart.sponge.width_mm, heart.height_mm) == pytest.approx((203.2, 101.6))


@pytest.mark.parametrize(
    "slug, field, metric, us",
    [
        ("price", "hours", "hour", "hour"),  # what is told in hours is so for everybody
        ("price", "tasks.time", "hour", "hour"),
        ("lesson", "minutes", "minute", "minute"),
        ("timetable", "out_limit", "minute", "minute"),
        ("supports", "filling", "millimeter", "inch"),
        ("swags", "drop", "centimeter", "inch"),
        ("coats", "weighed_cup", "gram", "ounce"),
        ("batch", "mass", "gram", "pound"),
        ("coats", "width", "centimeter", "inch"),
        ("coats", "crumb_coat", "millimeter", "inch"),
    ],
)
def test_the_unit_of_a_bare_number_in_both_systems(slug: str, field: str, metric: str, us: str) -> None:
    declared = dict(fields_of(slug))[field]
    assert (declared.bare_unit("metric"), declared.bare_unit("us")) == (metric, us)


@pytest.mark.parametrize(
    "slug, field, words",
    [
        ("lesson", "students", "Students is empty. Write it like 8"),  # its own example
        ("strings", "tip", "Tip is empty. Write it like round 1.8 mm"),
        ("coats", "width", "Width of the cake is empty. Write it like 15 cm or 6 in"),
        ("price", "items.mass", "Needed is empty. Write it like 250 g or 9 oz"),  # which has none: one of its kind
        ("tint", "depth", "Depth is empty. Choose one of Pale, Middling, Deep"),
        ("price", "tax", "Tax on the price is empty. Write it like 0 %"),
    ],
)
def test_a_field_that_was_emptied_says_how_it_is_written(slug: str, field: str, words: str) -> None:
    assert said(slug, field, "") == words


def test_hours_and_money_of_an_example_are_written_for_the_reader() -> None:
    hours, rate = dict(fields_of("timetable"))["hours"], dict(fields_of("price"))["rate"]
    assert in_us_units(rate, "16") == "$16"
    assert in_us_units(hours, "09:00 to 18:00") == "9:00 AM to 6:00 PM"
    assert in_us_units(dict(fields_of("order"))["name"], "A cake") == "A cake"


# --- what another order begins without -----------------------------------------------------------------------------------------------------


def test_the_groups_of_an_order_are_closed_but_its_tiers_and_go_with_it() -> None:
    """A new order keeps the kitchen's colours, strips, packs and maker; its tiers, its customer and its terms are another's."""
    groups = CALCULATORS["order"].groups
    assert {group.name for group in groups if not group.folded} == {"tiers"}
    assert {group.name for group in groups if group.per_order} == {"tiers", "quote"}
    assert {declared.name for declared in CALCULATORS["order"].inputs if declared.per_order} == {"name", "guests"}


# --- what was kept as text ------------------------------------------------------------------------------------------------------------------


def test_a_text_may_be_as_deep_as_a_form_can_be_and_no_deeper() -> None:
    """A name may have DEEPEST_TOML parts and no more, on the first line or any other."""
    kept = TextKept("order", "The order", "Begin")
    deep = ".".join(["a"] * DEEPEST_TOML)
    for before in ("", "b = 1\n"):
        kept._check_depth(f"{before}{deep} = 1")
        with pytest.raises(Problem, match="is nested more than"):
            kept._check_depth(f"{before}{deep}.a = 1")
    kept._check_depth("a = " + "[" * DEEPEST_TOML)
    with pytest.raises(Problem, match="is nested more than"):
        kept._check_depth("a = " + "[" * (DEEPEST_TOML + 1))
