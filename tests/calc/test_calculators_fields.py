"""What the fields of the calculators take: the least and the most of each, which bare numbers are asked about, and which fields wait under More.

The limits keep out slips of the pen, a missing decimal point or a wrong unit; within the usual range a number without a unit is taken in the unit
beside the field, and outside it the reader is asked. Both are choices (common practice, no source), so a table is the plainest thing to hold them to.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from calc.calculators import CALCULATORS
from calc.calculators.inputs import Group, Input, in_us_units
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


# Calculator, field, the least and the most that it takes, and something less and something more.
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
"""


@pytest.mark.parametrize("line", LIMITS.strip().split("\n"))
def test_a_field_takes_its_limits_and_nothing_past_them(line: str) -> None:
    slug, field, least, most, less, more = (cell.strip() for cell in line.split("|"))
    assert said(slug, field, least) == said(slug, field, most) == ""
    assert said(slug, field, less) and said(slug, field, more)


def test_limits_are_told_in_the_readers_units() -> None:
    """50 mm are just under 2 in, 1 15/16; 1000 mm are 39 3/8 in."""
    assert said("portions", "width", "4.9 cm") == "Width of the tin must be between 5 cm and 100 cm"
    assert said("portions", "width", "1 in", "us") == "Width of the tin must be between 1 15/16 in and 39 3/8 in"


# Calculator, field, unit beside it; bare numbers at the ends of what is usual, and just outside.
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
"""


@pytest.mark.parametrize("line", USUAL.strip().split("\n"))
def test_a_bare_number_that_is_unusual_is_asked_about_and_one_with_its_unit_is_taken(line: str) -> None:
    slug, field, unit, low, high, below, above = (cell.strip() for cell in line.split("|"))
    assert said(slug, field, low) == said(slug, field, high) == ""
    for outside in (below, above):
        if outside != "-":
            assert "is read as" in said(slug, field, outside), outside
            assert said(slug, field, f"{outside} {unit}") == ""


def test_nothing_at_all_is_no_unusual_number() -> None:
    """0 mm of filling or of crumb coat is a cake without, and needs no second look."""
    assert said("coats", "filling", "0") == said("coats", "crumb_coat", "0") == said("supports", "coat", "0") == ""


def test_a_unit_written_with_the_last_size_holds_for_all() -> None:
    """200 x 100 mm is a tier 20 cm wide, though a bare number there is in centimetres."""
    from calc.calculators.supports_form import read_tiers

    (tier,) = read_tiers("200 x 100 mm round", "metric")
    assert (tier.sponge.width_mm, tier.height_mm) == (200.0, 100.0)
    (heart,) = read_tiers("8 x 4 in heart", "metric")
    assert (heart.sponge.width_mm, heart.height_mm) == pytest.approx((203.2, 101.6))


def test_a_bare_number_is_in_the_unit_beside_the_field() -> None:
    """A disc in inches for a reader who has inches; a coat in millimetres for one who has them."""
    fields = dict(fields_of("coats"))
    assert [fields["width"].bare_unit(units) for units in ("metric", "us")] == ["centimeter", "inch"]
    assert [fields["crumb_coat"].bare_unit(units) for units in ("metric", "us")] == ["millimeter", "inch"]
    assert dict(fields_of("batch"))["mass"].bare_unit("us") == "pound"


def test_hours_and_money_of_an_example_are_written_for_the_reader() -> None:
    hours, rate = dict(fields_of("timetable"))["hours"], dict(fields_of("price"))["rate"]
    assert in_us_units(rate, "16") == "$16"
    assert "pm" in in_us_units(hours, "09:00 to 18:00").lower() and "18:00" not in in_us_units(hours, "09:00 to 18:00")
    assert in_us_units(dict(fields_of("order"))["name"], "A cake") == "A cake"


# --- which fields wait under More, and what another order begins without -------------------------------------------------------------------


@pytest.mark.parametrize(
    "slug, fields",
    [
        ("order", "name ready_at guests slice cutters recipe"),
        ("row", "kind side width repeats drop per_repeat layers tip"),
        ("shells", "side width tip per_swag repeats kind"),
        ("strings", "side width repeats drop loops tip"),
        ("swags", "shape side width length cutter drop repeats joints rows tip"),
        ("lesson", "students left_handed exercises minutes starts recipe"),
        ("coats", "shape width length height layers filling crumb_coat final_coat disc recipe whipped"),
    ],
)
def test_what_stands_above_more_is_what_a_first_answer_needs(slug: str, fields: str) -> None:
    assert [declared.name for declared in CALCULATORS[slug].inputs if not declared.advanced] == fields.split()


def test_the_groups_of_an_order_are_closed_but_its_tiers_and_go_with_it() -> None:
    """A new order keeps the kitchen's colours, strips, packs and maker; its tiers, its customer and its terms are another's."""
    groups = CALCULATORS["order"].groups
    assert {group.name for group in groups if not group.folded} == {"tiers"}
    assert {group.name for group in groups if group.per_order} == {"tiers", "quote"}
    assert {declared.name for declared in CALCULATORS["order"].inputs if declared.per_order} == {"name", "guests"}


# --- what was kept as text ------------------------------------------------------------------------------------------------------------------


def test_a_text_may_be_as_deep_as_a_form_can_be_and_no_deeper() -> None:
    """A name of so many parts, with one dot fewer than the least that is refused, on the first line as on any other."""
    kept = TextKept("order", "The order", "Begin")
    deep = ".".join(["a"] * DEEPEST_TOML)
    for before in ("", "b = 1\n"):
        kept._check_depth(f"{before}{deep} = 1")
        with pytest.raises(Problem, match="is nested more than"):
            kept._check_depth(f"{before}{deep}.a = 1")
    kept._check_depth("a = " + "[" * DEEPEST_TOML)
    with pytest.raises(Problem, match="is nested more than"):
        kept._check_depth("a = " + "[" * (DEEPEST_TOML + 1))
